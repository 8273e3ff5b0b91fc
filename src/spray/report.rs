//! How a shot was worked out, and the table of it.

use super::shot::Shot;
use crate::error::Result;
use crate::quantity::{
    Density, DynamicViscosity, Length, Pressure, Quantity, Ratio, SurfaceTension, Temperature, Velocity,
    VolumeRate, digits, show, to,
};
use crate::table::{Cell, Column, Table};
use crate::working::{Step, Working};

impl Shot {
    /// All steps from the nozzle to the film of one pass.
    pub fn working(&self) -> Working {
        let mut w = self.working_to_arrival();
        w.title = format!("One pass of {}: {}", self.mix().paint().name(), self.gun());
        let part = &self.part;
        let transfer = self.inputs.transfer.best;
        w.push(
            Step::new("width of a pass", "w = 0.20 x", r"w = 0.20\,x")
                .numbers(if self.gun().swath().is_some() {
                    "given".to_owned()
                } else {
                    format!("0.20 × {}", show(self.gun().distance()))
                })
                .result(show(self.swath()))
                .source("CONE"),
        );
        w.push(
            Step::new("wet film of a pass", "h = Q TE V/(w v)", r"h = \frac{Q\,TE\,V}{w\,v}")
                .numbers(format!(
                    "{} × {} × {} / ({} × {})",
                    show(VolumeRate::from_si(self.nozzle.paint_m3_s)),
                    show(transfer),
                    show(Ratio::from_si(part.volume)),
                    show(self.swath()),
                    show(Velocity::from_si(part.hand_m_s))
                ))
                .result(show(Length::from_si(part.wet_m)))
                .source("TRANSFER_EFFICIENCY"),
        );
        w.push(
            Step::new("dry film of a pass", "X = Q TE VS/(w v)", r"X = \frac{Q\,TE\,V_S}{w\,v}")
                .numbers(format!("volume solids {}", show(Ratio::from_si(part.solids))))
                .result(show(Length::from_si(part.dry_m))),
        );
        w
    }

    pub(super) fn working_of_air(&self) -> Working {
        let (gun, n) = (self.gun(), &self.nozzle);
        let room = self.room();
        let mut w = Working::new(format!("Air of {gun}"));
        let choked = room.pressure().si() / (room.pressure().si() + gun.pressure().si())
            <= crate::air::critical_pressure_ratio();
        w.push(
            Step::new(
                if choked { "air flow, choked" } else { "air flow, below the speed of sound" },
                if choked { "ṁ = 0.0404 C_d A p1/√T1" } else { "ṁ = C_d A p1 ψ(p2/p1)/√T1" },
                if choked {
                    r"\dot m = 0.0404\,C_d A p_1/\sqrt{T_1}"
                } else {
                    r"\dot m = C_d A p_1 \psi(p_2/p_1)/\sqrt{T_1}"
                },
            )
            .numbers(format!(
                "C_d A {}, p1 {}, T1 {}",
                show_mm2(self.inputs.air_area.best.si()),
                show(Pressure::from_si(room.pressure().si() + gun.pressure().si())),
                show(room.temperature())
            ))
            .result(format!("{} of free air", show(VolumeRate::from_si(n.free_air_m3_s))))
            .source("GAS_DYNAMICS"),
        );
        w
    }

    pub(super) fn working_of_paint(&self) -> Working {
        let n = &self.nozzle;
        let mut w = Working::new(format!("Paint through {}", self.gun()));
        let given = self.gun().paint_flow().is_some();
        let step = Step::new(
            "paint flow",
            if given { "Q" } else { "Q = min(Q_ref √(p/p_ref), Q_full(p, η))" },
            if given { "Q" } else { r"Q = \min(Q_{ref}\sqrt{p/p_{ref}},\, Q_{full}(p, \eta))" },
        )
        .numbers(if given {
            "as given".to_owned()
        } else {
            format!(
                "half drawn {}, fully drawn {} at {}",
                show(VolumeRate::from_si(n.wanted_m3_s)),
                show(VolumeRate::from_si(n.full_m3_s)),
                show(self.inputs.viscosity.best)
            )
        })
        .result(show(VolumeRate::from_si(n.paint_m3_s)));
        w.push(if given { step } else { step.source("airbrush-typical") });
        w
    }

    pub(super) fn working_to_drops(&self) -> Working {
        let n = &self.nozzle;
        let mut w = self.working_of_air();
        w.title = format!("Drops of {}: {}", self.mix().paint().name(), self.gun());
        w.push(
            Step::new(
                "speed of the air at the nozzle",
                "u0 = √(2 c_p T0 (1 − (p2/p1)^0.2857))",
                r"u_0 = \sqrt{2 c_p T_0 (1 - (p_2/p_1)^{0.2857})}",
            )
            .result(show(Velocity::from_si(n.tip.air_speed_m_s)))
            .source("GAS_DYNAMICS"),
        );
        w.append(self.working_of_paint());
        let size = show(Length::from_si(n.sauter_mean_m));
        if self.gun().given_drop_size().is_some() {
            w.push(Step::new("drop size", "d32", "d_{32}").numbers("as given").result(size));
            return w;
        }
        let correlation = self.gun().correlation();
        w.push(
            Step::new(
                format!("drop size by {correlation}"),
                "d32(u0, ALR, d0, σ, ρ, μ)",
                r"d_{32}(u_0, ALR, d_0, \sigma, \rho, \mu)",
            )
            .numbers(format!(
                "u0 {}, air per paint {}, d0 {}, σ {}, ρ {}, μ {}",
                show(Velocity::from_si(n.tip.air_speed_m_s)),
                digits(n.tip.air_kg_s / n.tip.paint_kg_s, 3),
                show(self.gun().nozzle()),
                show(SurfaceTension::from_si(n.tip.surface_tension_n_m)),
                show(Density::from_si(n.tip.density_kg_m3)),
                show(DynamicViscosity::from_si(n.tip.viscosity_pa_s))
            ))
            .result(size)
            .source(correlation.source()),
        );
        w
    }

    pub(super) fn working_to_arrival(&self) -> Working {
        let (n, part) = (&self.nozzle, &self.part);
        let mut w = self.working_to_drops();
        w.title = format!("Flight of {}: {}", self.mix().paint().name(), self.gun());
        w.push(
            Step::new("air speed at the part", "u = 6.2 u0 d/x", r"u = 6.2\,u_0 d/x")
                .numbers(format!(
                    "6.2 × {} × {} / {}, paint slows it by {}",
                    show(Velocity::from_si(n.jet.exit_speed_m_s)),
                    show(Length::from_si(n.jet.diameter_m)),
                    show(self.gun().distance()),
                    digits(n.jet.slowing, 3)
                ))
                .result(show(self.air_speed_at_part()))
                .source("ROUND_JET"),
        );
        let classes: Vec<String> = part
            .classes
            .iter()
            .map(|c| {
                format!(
                    "{} of it in {} loses {}",
                    show(Ratio::from_si(c.share)),
                    show(Length::from_si(c.diameter_m)),
                    show(Ratio::from_si(c.lost))
                )
            })
            .collect();
        w.push(
            Step::new(
                "loss of volatile matter in flight",
                "dn/dt = −π d Sh D F Δp/(R T), Sh = 2 + 0.6 Re^½ Sc^⅓",
                r"\dot n = -\pi d\,Sh\,D F \Delta p/(RT),\ Sh = 2 + 0.6 Re^{1/2} Sc^{1/3}",
            )
            .numbers(format!("{} in flight; {}", show(self.flight_time()), classes.join(", ")))
            .result(format!(
                "{}, landing at {} with {} solids",
                show(Ratio::from_si(part.lost)),
                show::<Temperature>(self.drop_temperature()),
                self.deposit_solids()
            ))
            .source("RANZ_MARSHALL"),
        );
        w
    }

    /// The shot as a table of one row a quantity.
    ///
    /// # Errors
    /// Those of the answers.
    pub fn table(&self) -> Result<Table> {
        let mut what = Vec::new();
        let mut value = Vec::new();
        let mut row = |name: &str, text: String| {
            what.push(Cell::words(name));
            value.push(Cell::words(text));
        };
        row("drop size (Sauter mean)", self.drop_size()?.to_string());
        row("free air", self.air_demand()?.to_string());
        row("paint flow", self.paint_flow()?.to_string());
        row("air speed at the part", show(self.air_speed_at_part()));
        row("time of flight", show(self.flight_time()));
        row("lost in flight, of the volatile mass", self.flight_loss()?.to_string());
        row("solids on arrival", self.deposit_solids().to_string());
        row("temperature on arrival", show(self.drop_temperature()));
        row("width of a pass", show(self.swath()));
        row("wet film of a pass", self.wet_film_per_pass()?.to_string());
        row("dry film of a pass", self.dry_film_per_pass()?.to_string());
        let column = |key: &str, title: &str, cells| Column {
            key: key.to_owned(),
            title: title.to_owned(),
            unit: String::new(),
            cells,
        };
        let mut notes: Vec<String> = self.warnings().iter().map(|w| w.message.clone()).collect();
        notes.push(CAUTION.to_owned());
        Ok(Table {
            caption: format!("{} with {}", self.mix().paint().name(), self.gun()),
            columns: vec![column("quantity", "what", what), column("value", "value (95 % range)", value)],
            notes,
        })
    }
}

/// Stands under every table of a spray.
const CAUTION: &str = "Spray mist and vapour harm and burn: extract them to the outside, wear a fitted mask with cartridges \
     for organic vapour and particles, keep flames and sparks away; the safety data sheets, local codes and licensed practice \
     decide. Two-pack paints with isocyanates are not for home spraying.";

fn show_mm2(area_m2: f64) -> String {
    to(crate::quantity::Area::from_si(area_m2), "mm2")
        .map_or_else(|_| String::new(), |mm2| format!("{} mm2", digits(mm2, 3)))
}
