//! Limits on drying in a search: kept exactly, never to the profit of the score, and told when nothing keeps them.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a failed test panics")]

use mistcoat::air::Room;
use mistcoat::bench::{Axis, Cell, Fault, Job, Recommendation, Search, Setup, window};
use mistcoat::blend::{Basis, Blend};
use mistcoat::film::Substrate;
use mistcoat::paint::{Family, Paint};
use mistcoat::progress::Progress;
use mistcoat::quantity::{Quantity, RelativeHumidity, Temperature, Time, parse};
use mistcoat::spray::Airbrush;
use proptest::prelude::*;

fn liquid(parts: &[(&str, f64)]) -> Blend {
    Blend::from_names(parts, Basis::Volume, None).unwrap()
}

fn setup(family: Family, celsius: f64, humidity: f64) -> Setup {
    let thinner = match family {
        Family::WaterborneAcrylic => liquid(&[("water", 95.0), ("propylene glycol", 5.0)]),
        Family::AlcoholAcrylic => liquid(&[("isopropanol", 60.0), ("1-methoxy-2-propanol", 40.0)]),
        Family::SolventLacquer => liquid(&[("acetone", 30.0), ("n-butyl acetate", 70.0)]),
        Family::AlkydEnamel | Family::ArtistsOil => liquid(&[("white spirit", 100.0)]),
    };
    let paint = Paint::typical(family, "deckhouse cream (invented)").unwrap();
    let gun =
        Airbrush::new(parse("0.3 mm").unwrap(), parse("20 psi").unwrap(), parse("80 mm").unwrap()).unwrap();
    let room =
        Room::new(Temperature::from_si(celsius + 273.15), RelativeHumidity::new(humidity).unwrap()).unwrap();
    let mut setup = Setup::new(&paint, &thinner, 1.0, &gun, &room);
    setup.substrate = Substrate::named("wood").unwrap();
    setup
}

fn slow_of(family: Family) -> Blend {
    liquid(&[(
        match family {
            Family::WaterborneAcrylic => "propylene glycol",
            Family::AlcoholAcrylic | Family::SolventLacquer => "2-butoxyethanol",
            Family::AlkydEnamel | Family::ArtistsOil => "turpentine",
        },
        1.0,
    )])
}

fn job(name: &str) -> Job {
    Job::named(name).unwrap()
}

fn score(found: &Recommendation) -> Option<f64> {
    found.choices.first().map(|c| c.binding().sigmas())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(6))]
    // Each choice, judged again by itself and without the limit, keeps it; a tighter limit never scores better, and what a
    // year allows is what no limit allows.
    #[test]
    fn limits_are_kept_and_never_pay(
        family in 0..5_usize,
        which in 0..7_usize,
        celsius in 12.0..32.0_f64,
        humidity in 0.2..0.8_f64,
        shares in proptest::collection::vec(0.0..0.4_f64, 1..3),
        touch_ln in 3.0..13.0_f64,
        recoat_ln in proptest::option::of(5.0..14.0_f64),
        tighter in 0.05..1.0_f64,
    ) {
        let family = Family::ALL[family];
        let wanted = &Job::all().unwrap()[which];
        let start = setup(family, celsius, humidity);
        let ask = |by: Option<f64>| {
            let mut search =
                Search::new(&start, wanted).thinner_per_paint(&[1.0]).retarder(&slow_of(family), &shares);
            if let Some(by) = by {
                search = search.touch_dry_within(Time::from_si(by * touch_ln.exp()));
                if let Some(recoat) = recoat_ln {
                    search = search.recoat_within(Time::from_si(by * recoat.exp()));
                }
            }
            search.run().unwrap()
        };
        let (free, loose, tight) = (ask(None), ask(Some(1.0)), ask(Some(tighter)));
        prop_assert!(score(&loose) <= score(&free) && score(&tight) <= score(&loose));
        for found in [&loose, &tight] {
            prop_assert!(found.choices.is_empty() != found.misses.is_empty());
            for choice in &found.choices {
                let again = choice.setup.judge(wanted).unwrap();
                let cure = family.oxidative_cure().unwrap();
                let touch = again.touch_dry.or_else(|| cure.map(|c| c.touch.best)).unwrap();
                prop_assert!(touch <= found.job.touch_dry_within.unwrap());
                if let Some(limit) = found.job.recoat_within {
                    prop_assert!(again.recoat.unwrap() <= limit);
                }
                prop_assert_eq!(&choice.setup.judge(&found.job).unwrap(), &choice.judged);
            }
            for miss in &found.misses {
                prop_assert!(!miss.judged.is_good());
            }
        }
        let year = Search::new(&start, wanted)
            .thinner_per_paint(&[1.0])
            .retarder(&slow_of(family), &shares)
            .touch_dry_within(parse("365 d").unwrap())
            .run()
            .unwrap();
        prop_assert_eq!(score(&year), score(&free).map(|s| s.min(score(&year).unwrap_or(s))));
        prop_assert_eq!(year.choices.is_empty(), free.choices.is_empty());
    }
}

// A slow thinner levels best: the winner of a search over retarder is not the quickest, and a limit below its time takes it
// out for a quicker one that scores no better.
#[test]
fn a_limit_takes_the_retarder_out() {
    let mut start = setup(Family::SolventLacquer, 25.0, 0.5);
    start.thinner = liquid(&[("acetone", 70.0), ("toluene", 30.0)]);
    start.steepness = parse("10 %").unwrap();
    let slow = liquid(&[("2-butoxyethanol", 1.0)]);
    let patient = Job { most_passes: 40.0, ..job("gloss clear") };
    let search =
        || Search::new(&start, &patient).thinner_per_paint(&[1.0, 1.5]).retarder(&slow, &[0.0, 0.1, 0.3]);
    let free = search().run().unwrap();
    let best = &free.choices[0];
    let limit = best.judged.touch_dry.unwrap() * 0.9;
    let limited = search().touch_dry_within(limit).run().unwrap();
    println!("{}\n{}", free.table().to_text(), limited.table().to_text());
    assert!(!limited.choices.is_empty() && score(&limited) <= score(&free));
    for choice in &limited.choices {
        assert!(choice.judged.touch_dry.unwrap() <= limit);
        assert!(choice.setup.retarder_share() <= best.setup.retarder_share());
    }
    let notes = limited.table().notes.join(" ");
    assert!(notes.contains("Asked for: touch dry within"), "{notes}");
}

// Nothing is touch dry in a second: the nearest is told with its time.
#[rstest::rstest]
#[case::lacquer(Family::SolventLacquer, "1 s", "touch dry after")]
#[case::enamel(Family::AlkydEnamel, "10 min", "touch dry after 4 h (common practice)")]
fn nothing_is_quick_enough(#[case] family: Family, #[case] limit: &str, #[case] says: &str) {
    let start = setup(family, 21.0, 0.5);
    let found = Search::new(&start, &job("base coat"))
        .thinner_per_paint(&[1.0])
        .touch_dry_within(parse(limit).unwrap())
        .run()
        .unwrap();
    assert!(found.choices.is_empty() && !found.misses.is_empty());
    let text = found.advice.join("\n");
    println!("{text}");
    assert!(text.contains("The quickest that keeps every other limit") && text.contains(says), "{text}");
    assert!(text.contains("Against slow drying"), "{text}");
}

// Of the families: a lacquer is block-free by the engine, a waterborne coat waits as practice says, an enamel 16 h.
#[rstest::rstest]
#[case(Family::WaterborneAcrylic, "30 min", true)]
#[case(Family::AlkydEnamel, "16 h", true)]
#[case(Family::ArtistsOil, "7 d", true)]
#[case(Family::SolventLacquer, "16 h", false)]
fn next_coat(#[case] family: Family, #[case] after: &str, #[case] by_practice: bool) {
    let mut wanted = job("base coat");
    wanted.recoat_within = Some(parse("365 d").unwrap());
    let judged = setup(family, 21.0, 0.5).judge(&wanted).unwrap();
    let told = judged.recoat.unwrap();
    if by_practice {
        approx::assert_relative_eq!(told.si(), parse::<Time>(after).unwrap().si(), max_relative = 1e-9);
    } else {
        assert!(told > judged.touch_dry.unwrap() && told < parse(after).unwrap());
    }
    let why = &judged.margin(Fault::SlowDrying).unwrap().why;
    assert_eq!(why.contains("common practice"), by_practice, "{why}");
    let json = serde_json::to_string(&judged).unwrap();
    assert_eq!(serde_json::from_str::<mistcoat::bench::Judged>(&json).unwrap(), judged);
}

// A map draws the edge at which the coat dries too slowly, where the job says how long there is.
#[test]
fn a_map_shows_where_it_dries_too_slowly() {
    let mut start = setup(Family::SolventLacquer, 21.0, 0.5);
    let slow = liquid(&[("diacetone alcohol", 1.0)]);
    start.retarder = Some(mistcoat::bench::RetarderShare::new(&slow, parse("0 %").unwrap()).unwrap());
    let mut wanted = job("base coat");
    wanted.touch_dry_within = Some(parse("3 min").unwrap());
    let x = (Axis::Retarder, vec![0.0, 50.0]);
    let y = (Axis::Distance, vec![70.0]);
    let map = window(&start, &wanted, x, y, &Progress::new(2)).unwrap();
    assert!(!matches!(map.cell(0, 0).unwrap(), Cell::Fault(Fault::SlowDrying, _)));
    assert!(matches!(map.cell(1, 0).unwrap(), Cell::Fault(Fault::SlowDrying, _)), "{:?}", map.cells);
}

#[rstest::rstest]
#[case::zero(0.0)]
#[case::negative(-5.0)]
#[case::nan(f64::NAN)]
#[case::never(f64::INFINITY)]
#[case::past_a_year(3.2e7)]
fn bad_limits(#[case] seconds: f64) {
    let start = setup(Family::SolventLacquer, 21.0, 0.5);
    let search = Search::new(&start, &job("primer")).thinner_per_paint(&[1.0]);
    for asked in [
        search.clone().touch_dry_within(Time::from_si(seconds)),
        search.clone().recoat_within(Time::from_si(seconds)),
    ] {
        let text = asked.run().unwrap_err().to_string();
        assert!(text.contains("365 d") && text.contains("longest time to"), "{text}");
    }
    let bad = Job { touch_dry_within: Some(Time::from_si(seconds)), ..job("primer") };
    assert!(start.judge(&bad).is_err() && bad.checked().is_err());
}
