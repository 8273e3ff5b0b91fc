//! What does the cleaning cost, and does a cheap cleaner before the good thinner pay?
//!
//! Portions of cheap cleaner do the coarse work, good thinner carries the cheap one out. With hold-up h, `n` portions of good
//! thinner and `m` of cheap cleaner, `g` the share of the gun's liquid that the good ones leave:
//!
//! ```text
//! cost = p_good n h (g^(−1/n) − 1) + p_cheap m h ((g/f)^(1/m) − 1)      least over n, m and g ≤ what may stay of the cheap one
//! ```
//!
//! each portion at least as large as wets cup and passages. The cost is convex in ln g, so that the least is found and not
//! guessed. Money is a number with a label: nothing is converted, and prices are yours.
//!
//! Neglected as in [`super`]: dried paint, walls; and that a cheap cleaner may not dissolve the paint or mix with the thinner.

use super::change::{Bench, care};
use super::dilution::{MOST_PORTIONS, Split, best_split};
use super::order::best_order;
use super::plan::find_start;
use super::shade::Shade;
use crate::error::{Result, out_of_range};
use crate::estimate::{Estimate, Scale, propagate};
use crate::quantity::{Number, Quantity, Ratio, Volume, as_text, digits, positive, show, to};
use crate::table::{Cell, Column, Table};
use crate::warning::Warning;
use serde::{Deserialize, Serialize};

/// Most that a litre may cost, in any currency.
const DEAREST: f64 = 1e9;
/// Portions of each liquid that are tried.
const TRIED: u32 = 12;
/// Golden sections of the search for g.
const SECTIONS: usize = 60;
const GOLDEN: f64 = 0.618_033_988_749_895;

/// What a volume of a cleaner or thinner costs, in a currency that is only a label.
///
/// ```
/// use mistcoat::quantity::parse;
/// use mistcoat::rinse::CleanerPrice;
/// let thinner = CleanerPrice::new("house thinner", 9.50, parse("1 L")?, "EUR")?;
/// assert!((thinner.of(parse("20 mL")?) - 0.19).abs() < 1e-12);
/// # Ok::<(), mistcoat::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "Record", into = "Record")]
pub struct CleanerPrice {
    name: String,
    costs: f64,
    per: Volume,
    currency: String,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    name: String,
    costs: f64,
    #[serde(with = "as_text")]
    per: Volume,
    currency: String,
}

impl From<CleanerPrice> for Record {
    fn from(p: CleanerPrice) -> Self {
        Self { name: p.name, costs: p.costs, per: p.per, currency: p.currency }
    }
}

impl TryFrom<Record> for CleanerPrice {
    type Error = crate::Error;
    fn try_from(r: Record) -> Result<Self> {
        Self::new(&r.name, r.costs, r.per, &r.currency)
    }
}

impl CleanerPrice {
    /// `costs` for `per` of the liquid called `name`; `currency` is a label such as "EUR".
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for a negative or infinite price, one beyond a thousand million a litre, or a volume that is
    /// not above zero.
    pub fn new(name: &str, costs: f64, per: Volume, currency: &str) -> Result<Self> {
        let volume = positive("volume that the price is for", per)?;
        if !(0.0..=DEAREST).contains(&(costs / volume * 1e-3)) {
            return Err(out_of_range(
                format!("price of {name}"),
                format!("{costs} for {}", show(per)),
                "0 or above, and finite",
                "give what the bottle costs and what it holds, for example 9.50 and \"1 L\"",
            ));
        }
        Ok(Self { name: name.to_owned(), costs, per, currency: currency.to_owned() })
    }

    /// Name of the liquid.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// What [`Self::per`] costs.
    pub fn costs(&self) -> f64 {
        self.costs
    }

    /// The volume.
    pub fn per(&self) -> Volume {
        self.per
    }

    /// Label of the currency.
    pub fn currency(&self) -> &str {
        &self.currency
    }

    /// What so much of it costs.
    pub fn of(&self, volume: Volume) -> f64 {
        self.per_m3() * volume.si()
    }

    fn per_m3(&self) -> f64 {
        self.costs / self.per.si()
    }
}

/// Good thinner, and a cheap cleaner to go before it if there is one.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cleaners {
    /// What goes through the gun last.
    pub good: CleanerPrice,
    /// Cheap cleaner, and the share of it that may stay in what the gun keeps.
    pub cheap: Option<CheapCleaner>,
}

/// A cleaner that must be carried out again.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CheapCleaner {
    /// Its price.
    pub price: CleanerPrice,
    /// Share of it that may stay in the gun's liquid.
    #[serde(with = "as_text")]
    pub may_stay: Ratio,
}

/// A rinse with its cost.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PricedRinse {
    /// Portions of cheap cleaner, poured first; none when they do not pay.
    pub cheap: Option<Split>,
    /// Portions of good thinner.
    pub good: Split,
    /// What they cost together.
    pub cost: f64,
    /// What good thinner alone costs, in its own best split.
    pub good_alone: f64,
    /// Label of the currency.
    pub currency: String,
}

impl PricedRinse {
    /// What the cheap cleaner saves.
    pub fn saves(&self) -> f64 {
        self.good_alone - self.cost
    }

    /// In words, without cautions.
    pub fn words(&self) -> String {
        let split = |s: &Split| format!("{} × {}", s.portions, show(s.each));
        let money = money(self.cost, &self.currency);
        match &self.cheap {
            Some(cheap) => format!(
                "{} of cheap cleaner, then {} of good thinner: {money}, {} less than good thinner alone",
                split(cheap),
                split(&self.good),
                self::money(self.saves(), &self.currency)
            ),
            None => format!("{} of good thinner: {money}", split(&self.good)),
        }
    }
}

/// A sum of money with two places, or two digits when it is less than a hundredth.
fn money(sum: f64, currency: &str) -> String {
    let number = if sum == 0.0 || sum.abs() >= 0.01 { format!("{sum:.2}") } else { digits(sum, 2) };
    if currency.is_empty() { number } else { format!("{number} {currency}") }
}

impl Cleaners {
    /// Whether the prices can be compared.
    ///
    /// # Errors
    /// A [`crate::error::RangeError`] for prices in two currencies, or a share of cheap cleaner outside 0.01 % to 100 %.
    pub fn check(&self) -> Result<()> {
        let Some(cheap) = &self.cheap else { return Ok(()) };
        if cheap.price.currency != self.good.currency {
            return Err(out_of_range(
                format!("currency of {}", cheap.price.name),
                &cheap.price.currency,
                format!("{:?}, that of {}", self.good.currency, self.good.name),
                "give both prices in one currency; nothing is converted",
            ));
        }
        if !(1e-4..=1.0).contains(&cheap.may_stay.si()) {
            return Err(out_of_range(
                "share of cheap cleaner that may stay",
                show(cheap.may_stay),
                "0.01 % to 100 %",
                "5 % serves where the two mix",
            ));
        }
        Ok(())
    }

    /// The cheapest rinse that leaves `fraction` of the old paint in a gun of this hold-up.
    ///
    /// # Errors
    /// As [`Self::check`] and [`best_split`].
    ///
    /// ```
    /// use mistcoat::quantity::parse;
    /// use mistcoat::rinse::{CheapCleaner, CleanerPrice, Cleaners};
    /// let cleaners = Cleaners {
    ///     good: CleanerPrice::new("house thinner", 9.50, parse("1 L")?, "EUR")?,
    ///     cheap: Some(CheapCleaner {
    ///         price: CleanerPrice::new("recovered thinner", 2.00, parse("1 L")?, "EUR")?, may_stay: parse("5 %")? }) };
    /// let rinse = cleaners.cheapest(parse("0.15 mL")?, parse("0.01 %")?, parse("1 mL")?)?;
    /// assert!(rinse.saves() > 0.0 && rinse.good.portions < 5);
    /// println!("{}", rinse.words());
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn cheapest(&self, hold_up: Volume, fraction: Ratio, least_portion: Volume) -> Result<PricedRinse> {
        self.check()?;
        let alone = best_split(hold_up, fraction, least_portion)?;
        let good_alone = self.good.of(alone.total);
        let mut best = PricedRinse {
            cheap: None,
            good: alone,
            cost: good_alone,
            good_alone,
            currency: self.good.currency.clone(),
        };
        let Some(cheap) = &self.cheap else { return Ok(best) };
        let (h, f, least) = (hold_up.si(), fraction.si(), least_portion.si());
        let each = |left: f64, n: u32| (h * (left.powf(-1.0 / f64::from(n)) - 1.0)).max(least);
        for n in 1..=TRIED.min(MOST_PORTIONS) {
            for m in 1..=TRIED.min(MOST_PORTIONS) {
                let cost = |ln_g: f64| {
                    let g = ln_g.exp();
                    self.good.per_m3() * f64::from(n) * each(g, n)
                        + cheap.price.per_m3() * f64::from(m) * each((f / g).min(1.0), m)
                };
                let ln_g = least_at(f.ln(), cheap.may_stay.si().min(1.0).ln().max(f.ln()), cost);
                let total = cost(ln_g);
                if total < best.cost * (1.0 - 1e-9) {
                    let g = ln_g.exp();
                    best.cost = total;
                    best.good = Split::of(n, each(g, n));
                    best.cheap = Some(Split::of(m, each((f / g).min(1.0), m)));
                }
            }
        }
        Ok(best)
    }
}

/// Where a convex curve is lowest.
fn least_at(mut low: f64, mut high: f64, curve: impl Fn(f64) -> f64) -> f64 {
    let ends = [low, high];
    for _ in 0..SECTIONS {
        let (a, b) = (high - GOLDEN * (high - low), low + GOLDEN * (high - low));
        if curve(a) <= curve(b) { high = b } else { low = a }
    }
    let middle = 0.5 * (low + high);
    // A flat curve, or one that is lowest at an end.
    ends.into_iter().fold(middle, |best, x| if curve(x) < curve(best) { x } else { best })
}

/// One change of colour with its cost.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PricedChange {
    /// Colour that was in the gun.
    pub from: String,
    /// Colour that follows.
    pub to: String,
    /// Portions and cost.
    pub rinse: PricedRinse,
}

/// The order of colours that costs least to rinse between.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PricedOrder {
    /// Names in the order to spray.
    pub order: Vec<String>,
    /// The changes between them.
    pub changes: Vec<PricedChange>,
    /// Cost of all changes, in `currency`; the wash at the end is the same for every order and not in it.
    pub cost: Estimate<Number>,
    /// Cost of the same changes with good thinner alone, at the best values.
    pub good_alone: f64,
    /// Cost in the order in which the colours were given, with the start moved to the front, at the best values.
    pub as_given: f64,
    /// Label of the currency.
    pub currency: String,
    /// What to mind; never empty.
    pub cautions: Vec<String>,
    /// Pairs for which the answer is a judgement.
    pub warnings: Vec<Warning>,
}

impl Bench {
    /// The order of colours that costs least to rinse between with these cleaners, exact up to 16 colours; from `start` if that
    /// is in the gun already.
    ///
    /// # Errors
    /// As [`Bench::colour_order`] and [`Cleaners::check`].
    ///
    /// ```
    /// use mistcoat::{quantity::parse, rinse::{Bench, CleanerPrice, Cleaners, Gun, Shade, Tolerance}};
    /// let colours = ["red oxide", "deep green", "cream"].map(Shade::typical);
    /// let colours = colours.into_iter().collect::<mistcoat::Result<Vec<_>>>()?;
    /// let bench = Bench {
    ///     hold_up: Gun::find("gravity airbrush")?.hold_up.clone(), fill: parse("2 mL")?,
    ///     least_portion: parse("1 mL")?, tolerance: Tolerance::Perceptible };
    /// let thinner = Cleaners { good: CleanerPrice::new("house thinner", 9.5, parse("1 L")?, "EUR")?, cheap: None };
    /// let plan = bench.cheapest_order(&colours, None, &thinner)?;
    /// assert_eq!(plan.order[0], "cream");
    /// println!("{}", plan.table().to_text());
    /// # Ok::<(), mistcoat::Error>(())
    /// ```
    pub fn cheapest_order(
        &self,
        colours: &[Shade],
        start: Option<&str>,
        cleaners: &Cleaners,
    ) -> Result<PricedOrder> {
        cleaners.check()?;
        // Checks the colours, the bench and the start, and knows which pairs are a judgement.
        let least = self.colour_order(colours, start)?;
        let start = find_start(colours, start)?;
        let n = colours.len();
        let mut rinses: Vec<Vec<Option<(PricedRinse, f64)>>> = Vec::with_capacity(n);
        for (a, from) in colours.iter().enumerate() {
            let mut row = Vec::with_capacity(n);
            for (b, into) in colours.iter().enumerate() {
                row.push(if a == b {
                    None
                } else {
                    let change = self.change(from, into)?;
                    let rinse = cleaners.cheapest(self.hold_up.best, change.fraction, self.least_portion)?;
                    Some((rinse, change.tolerated.si()))
                });
            }
            rinses.push(row);
        }
        // Of orders that cost alike the one with the least cleaner, and so light before dark, wins by a hair.
        let place = |name: &str| least.order.iter().position(|o| o == name).unwrap_or(n);
        let dearest = rinses.iter().flatten().flatten().map(|(r, _)| r.cost).fold(0.0, f64::max);
        let hair = (dearest * 1e-9).max(f64::MIN_POSITIVE);
        let costs: Vec<Vec<f64>> = (0..n)
            .map(|a| {
                (0..n)
                    .map(|b| {
                        let back = place(colours[b].name()) < place(colours[a].name());
                        rinses[a][b].as_ref().map_or(0.0, |(r, _)| r.cost) + if back { hair } else { 0.0 }
                    })
                    .collect()
            })
            .collect();
        let best = best_order(&costs, start)?;
        let mut given: Vec<usize> = (0..n).collect();
        if let Some(s) = start {
            given[..=s].rotate_right(1);
        }
        let along = |order: &[usize]| -> Vec<(usize, usize)> {
            order.windows(2).filter_map(|w| Some((*w.first()?, *w.get(1)?))).collect()
        };
        let used = along(&best.order);
        let rinse = |(a, b): &(usize, usize)| rinses[*a][*b].as_ref();
        let sum = |pairs: &[(usize, usize)], pick: &dyn Fn(&PricedRinse) -> f64| -> f64 {
            pairs.iter().filter_map(rinse).map(|(r, _)| pick(r)).sum()
        };
        let total = sum(&used, &|r| r.cost);
        let cost = if total > 0.0 {
            // The same changes at another hold-up and another eye, each again at its cheapest.
            propagate(&self.inputs(), &[], Scale::Log, |x| {
                let (h, factor) = (x[0].exp(), x[1].exp());
                let moved = used.iter().filter_map(rinse).map(|(_, tolerated)| {
                    let fraction = Ratio::from_si(self.fraction(h, tolerated * factor));
                    Ok(cleaners.cheapest(Volume::from_si(h), fraction, self.least_portion)?.cost)
                });
                moved.sum::<Result<f64>>()
            })?
        } else {
            Estimate::exact(Number::from_si(0.0))
        };
        let changes = used.iter().filter_map(|pair| {
            let (a, b) = *pair;
            Some(PricedChange {
                from: colours[a].name().to_owned(),
                to: colours[b].name().to_owned(),
                rinse: rinse(pair)?.0.clone(),
            })
        });
        let mut warnings = Vec::new();
        for (a, b) in &used {
            warnings.extend(self.change(&colours[*a], &colours[*b])?.cleaner.warnings);
        }
        if let Some(cheap) = &cleaners.cheap {
            warnings.push(Warning::new(
                "cheap-cleaner",
                format!(
                    "test on scrap that {} dissolves the paint before it dries and mixes with {}: a cleaner that throws the \
                     binder out clogs the gun",
                    cheap.price.name, cleaners.good.name
                ),
            ));
        }
        Ok(PricedOrder {
            order: best.order.iter().map(|&i| colours[i].name().to_owned()).collect(),
            changes: changes.collect(),
            cost,
            good_alone: sum(&used, &|r| r.good_alone),
            as_given: sum(&along(&given), &|r| r.cost),
            currency: cleaners.good.currency.clone(),
            cautions: care()?,
            warnings,
        })
    }
}

impl PricedOrder {
    /// The changes with portions and cost, cautions under them.
    pub fn table(&self) -> Table {
        let column = |key: &str, title: &str, unit: &str, cell: &dyn Fn(&PricedChange) -> Cell| Column {
            key: key.to_owned(),
            title: title.to_owned(),
            unit: unit.to_owned(),
            cells: self.changes.iter().map(cell).collect(),
        };
        let ml = |s: Option<&Split>| {
            let Some(s) = s else { return Cell::number("–", 0.0) };
            let each = to(s.each, "mL").unwrap_or(f64::NAN);
            Cell::number(
                format!("{} × {}", s.portions, digits(each, 2)),
                to(s.total, "mL").unwrap_or(f64::NAN),
            )
        };
        let money = |sum: f64| money(sum, &self.currency);
        let mut notes = vec![format!(
            "Good thinner alone: {}. Order as given: {}. The wash at the end comes on top.",
            money(self.good_alone),
            money(self.as_given)
        )];
        notes.extend(self.warnings.iter().map(|w| w.message.clone()));
        notes.extend(self.cautions.iter().cloned());
        let (best, low, high) = (self.cost.best.si(), self.cost.low.si(), self.cost.high.si());
        Table {
            caption: format!(
                "Colours in the order that costs least to rinse: {}; {} ({} to {})",
                self.order.join(", "),
                money(best),
                money(low),
                money(high)
            ),
            columns: vec![
                column("from", "from", "", &|c| Cell::words(c.from.clone())),
                column("to", "to", "", &|c| Cell::words(c.to.clone())),
                column("cheap", "cheap cleaner\nmL", "mL", &|c| ml(c.rinse.cheap.as_ref())),
                column("good", "good thinner\nmL", "mL", &|c| ml(Some(&c.rinse.good))),
                column("cost", "cost", "1", &|c| Cell::number(money(c.rinse.cost), c.rinse.cost)),
                column("good_alone", "good alone", "1", &|c| {
                    Cell::number(money(c.rinse.good_alone), c.rinse.good_alone)
                }),
            ],
            notes,
        }
    }
}
