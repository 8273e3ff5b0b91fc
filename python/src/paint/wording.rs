//! The ways in which a thinning is stated: parts by name, percent of the paint or of the mix, words.

use super::arguments::at_20c;
use crate::blend::PyBlend;
use crate::dose::{Percent, PyThinning, ThinningArg};
use crate::errors::CallResult;
use mistcoat::dose::{Densities, Parts, Thinning};
use mistcoat::error::{out_of_range, unknown_name};
use mistcoat::paint::Paint;
use pyo3::{prelude::*, types::PyString};

/// The one way in which a thinning was stated.
pub struct Wording<'py> {
    pub ratio: Option<Bound<'py, PyAny>>,
    pub thinner: Option<f64>,
    pub paint: Option<f64>,
    pub percent_of_paint: Option<Percent>,
    pub percent_of_mix: Option<Percent>,
    pub by: &'py str,
}

impl Wording<'_> {
    pub fn thinning(self, stock: &Paint, blend: &PyBlend) -> CallResult<Thinning> {
        let by_mass = match self.by {
            "volume" => false,
            "mass" => true,
            other => {
                return Err(
                    unknown_name("basis", other, ["volume", "mass"], "by is \"volume\" or \"mass\"").into()
                );
            }
        };
        let ways = usize::from(self.ratio.is_some())
            + usize::from(self.thinner.is_some() || self.paint.is_some())
            + usize::from(self.percent_of_paint.is_some())
            + usize::from(self.percent_of_mix.is_some());
        if ways != 1 {
            return Err(out_of_range(
                "ways in which the thinning is stated",
                ways.to_string(),
                "exactly 1",
                "write thinner=2, paint=1, or percent_of_paint=20, or percent_of_mix=50",
            )
            .into());
        }
        let densities =
            Densities { thinner: blend.0.density(at_20c())?.best(), paint: stock.density_at_20c().best };
        if let Some(ratio) = self.ratio {
            return named_ratio(&ratio, by_mass);
        }
        Ok(if let Some(Percent(p)) = self.percent_of_paint {
            if by_mass {
                Thinning::from_percent_of_paint_by_mass(p, densities)?
            } else {
                Thinning::from_percent_of_paint(p)?
            }
        } else if let Some(Percent(p)) = self.percent_of_mix {
            if by_mass {
                Thinning::from_percent_of_mix_by_mass(p, densities)?
            } else {
                Thinning::from_percent_of_mix(p)?
            }
        } else {
            let (Some(thinner), Some(paint)) = (self.thinner, self.paint) else {
                let (given, value, missing) =
                    self.thinner.map_or(("paint", self.paint, "thinner"), |t| ("thinner", Some(t), "paint"));
                return Err(out_of_range(
                    "parts of the mix",
                    format!("{given}={}", value.unwrap_or(f64::NAN)),
                    "both parts named",
                    format!("say how much {missing} goes with it, for example thinner=2, paint=1"),
                )
                .into());
            };
            let parts = Parts { thinner, paint };
            if by_mass {
                Thinning::from_parts_by_mass(parts, densities)?
            } else {
                Thinning::from_parts(parts)?
            }
        })
    }
}

/// A thinning given by position: an object, or text that names its parts; a bare number is refused with both readings
/// shown.
fn named_ratio(ratio: &Bound<'_, PyAny>, by_mass: bool) -> CallResult<Thinning> {
    if ratio.is_instance_of::<PyString>() || ratio.is_instance_of::<PyThinning>() {
        if by_mass {
            return Err(out_of_range(
                "by",
                "\"mass\" beside a thinning in words",
                "by=\"volume\", which words and Thinning objects count in",
                "write thinner=2, paint=1, by=\"mass\"",
            )
            .into());
        }
        return Ok(ratio.extract::<ThinningArg>()?.0);
    }
    let got = ratio.repr()?.to_string();
    Err(out_of_range(
        "ratio",
        got.clone(),
        "thinner and paint each by name, since it reads both ways",
        format!(
            "write thinner={got}, paint=1 ({got} parts thinner to 1 part paint) or thinner=1, paint={got} (1 part \
             thinner to {got} parts paint)"
        ),
    )
    .into())
}
