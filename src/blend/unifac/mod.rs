//! How much more eagerly does each solvent leave this blend than it would an ideal one?
//!
//! UNIFAC adds up a molecule from functional groups and gives the activity coefficient γ of every species:
//! `a_i = γ_i x_i`, with γ above 1 where a species is pushed out by its neighbours. Two tables:
//!
//! * [`Table::Original`] (Fredenslund, Jones and Prausnitz 1975; parameters of Hansen et al. 1991):
//!   `ln γ_i = ln(φ_i/x_i) + 1 − φ_i/x_i − 5 q_i [ln(φ_i/θ_i) + 1 − φ_i/θ_i] + Σ_k ν_k,i (ln Γ_k − ln Γ_k,i)`
//!   with `Ψ = exp(−a/T)`;
//! * [`Table::Dortmund`] (modified; Weidlich and Gmehling 1987, Gmehling et al. 1993): the first two terms
//!   with `r^¾`, and `Ψ = exp(−(a + b T + c T²)/T)`.
//!
//! Interactions are tabulated between main groups, so the group sums are kept per main group, which is
//! exact. With `Q_iM` the surface of main group M in species i and `P_iN = Σ_M Q_iM Ψ_MN(T)`,
//!
//! `ln γ_i^res = q_i (1 + ln(Q/q_i)) + Σ_N [Q_iN (ln P_iN − ln W_N) − P_iN Θ_N / W_N]`,
//! `Q = Σ x_i q_i`, `W_N = Σ x_i P_iN`, `Θ_N = Σ x_i Q_iN`.
//!
//! `P` depends on temperature alone and is kept in the caller's [`Scratch`], so that a call at an unchanged
//! temperature takes one logarithm per main group.
//!
//! **Accuracy.** Agrees with the `thermo` package within 1e-6 (200 random blends, 0 to 50 °C, both tables).
//! Ethanol and water at 1 atm (Perry, 14 points): mean error of the vapour mole fraction 0.0062 original,
//! 0.0036 Dortmund. **Neglected:** isomers are not told apart (three xylenes are one), groups on
//! neighbouring atoms act as if alone; association beyond what the fitted parameters hold.

mod model;
mod tables;

pub use model::{GroupCount, Model, Scratch};
pub use tables::{Interaction, Subgroup, interaction, subgroup};

use serde::{Deserialize, Serialize};

/// Which published set of groups and parameters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Table {
    /// Original UNIFAC for vapour-liquid equilibria, with the glycol-ether groups.
    Original,
    /// Modified UNIFAC (Dortmund); better for alcohols with water.
    Dortmund,
}

impl Table {
    /// Name as written in files and in Python: `original` or `dortmund`.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Original => "original",
            Self::Dortmund => "dortmund",
        }
    }

    /// Key of the citation of the parameters.
    pub const fn source(self) -> &'static str {
        match self {
            Self::Original => "UNIFAC_HANSEN91",
            Self::Dortmund => "UNIFAC_DORTMUND",
        }
    }
}

impl core::str::FromStr for Table {
    type Err = crate::error::Error;

    fn from_str(text: &str) -> crate::error::Result<Self> {
        match crate::names::fold(text).as_str() {
            "original" => Ok(Self::Original),
            "dortmund" => Ok(Self::Dortmund),
            _ => Err(crate::error::unknown_name(
                "UNIFAC table",
                text,
                ["original", "dortmund"],
                "use \"original\" or \"dortmund\"",
            )),
        }
    }
}

impl core::fmt::Display for Table {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(self.name())
    }
}
