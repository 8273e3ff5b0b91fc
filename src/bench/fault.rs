//! What can go wrong with a sprayed coat, and how far a setting keeps from it.

use serde::{Deserialize, Serialize};

/// A fault of a sprayed coat, by the trade's word for it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Fault {
    /// Drops too coarse: specks and a pebbled coat.
    Spatter,
    /// The spray lands nearly dry: a rough, dusty coat.
    DrySpray,
    /// The coat sets before it has levelled.
    OrangePeel,
    /// The coat slides before it sets.
    Run,
    /// Dew on the cold film: it turns white.
    Blush,
    /// Paint sets on the needle between strokes.
    TipDrying,
    /// The solvents attack what they are sprayed on.
    Attack,
    /// The air drives the wet film aside.
    Spidering,
    /// The pass is wider, or wetter, than the job bears.
    TooWide,
    /// It takes more passes than anybody has patience for.
    TooManyPasses,
    /// It takes longer to dry than there is time for; judged where a job sets a limit.
    SlowDrying,
}

impl Fault {
    /// All faults, in the order in which they are met on the way from the nozzle.
    pub const ALL: [Self; 11] = [
        Self::Spatter,
        Self::TipDrying,
        Self::DrySpray,
        Self::Spidering,
        Self::TooWide,
        Self::Attack,
        Self::Run,
        Self::OrangePeel,
        Self::Blush,
        Self::TooManyPasses,
        Self::SlowDrying,
    ];

    /// The trade's word.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Spatter => "spatter",
            Self::DrySpray => "dry spray",
            Self::OrangePeel => "orange peel",
            Self::Run => "run",
            Self::Blush => "blush",
            Self::TipDrying => "tip drying",
            Self::Attack => "attack on the part",
            Self::Spidering => "spidering",
            Self::TooWide => "pass too wide or too wet",
            Self::TooManyPasses => "too many passes",
            Self::SlowDrying => "slow drying",
        }
    }

    /// Standard uncertainty of the logarithm of its factor: what the modules behind it say of themselves.
    ///
    /// Drop size a factor 2 (95 %); the slide goes with the viscosity of a paint known by its family; levelling with the
    /// fourth power of a wavelength known within a factor 1.3; film a pass within 2.5; the dry stage of a lacquer a factor 3 (95 %).
    pub const fn ln_std(self) -> f64 {
        match self {
            Self::Spatter => 0.35,
            Self::DrySpray => 0.5,
            Self::OrangePeel => 1.2,
            Self::Run => 1.0,
            Self::Blush => 0.1,
            Self::TipDrying => 0.4,
            Self::Attack | Self::Spidering => 0.7,
            Self::TooWide | Self::TooManyPasses => 0.45,
            Self::SlowDrying => 0.55,
        }
    }

    /// What helps against it.
    pub const fn cure(self) -> &'static str {
        match self {
            Self::Spatter => "thin further, or raise the pressure",
            Self::DrySpray => "come nearer, lower the pressure, or slow the thinner with a retarder",
            Self::OrangePeel => "lay it wetter, thin further, or slow the thinner with a retarder",
            Self::Run => {
                "fewer passes wet in wet, a faster thinner, less thinner, or turn the face level while it sets"
            }
            Self::Blush => "dry or warm the room, slow the thinner, or lay thinner coats",
            Self::TipDrying => "wipe the tip, cover pauses, or add a retarder that the paint bears",
            Self::Attack => "prime with a paint that does not attack it, or change the thinner",
            Self::Spidering => "lower the pressure, step back, or thin less",
            Self::TooWide => "come nearer, or lay less in a pass",
            Self::TooManyPasses => "thin less, come nearer, or lay more in a pass",
            Self::SlowDrying => {
                "less retarder or a faster thinner, fewer passes wet in wet, or warm the room and let the air move"
            }
        }
    }
}

impl core::fmt::Display for Fault {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(self.name())
    }
}

/// How far a setting keeps from a fault.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Margin {
    /// The fault.
    pub fault: Fault,
    /// Limit over value, or value over limit, so that 1 is the edge, more is good, less is bad.
    pub factor: f64,
    /// Standard uncertainty of the logarithm of the factor: [`Fault::ln_std`], more where a target is uncertain too.
    pub ln_std: f64,
    /// The number behind it and its limit, in words.
    pub why: String,
}

impl Margin {
    pub(super) fn new(fault: Fault, factor: f64, why: impl Into<String>) -> Self {
        Self { fault, factor, ln_std: fault.ln_std(), why: why.into() }
    }

    /// The same with a target that is itself known no better than this.
    pub(super) fn with_target_std(mut self, ln_std: f64) -> Self {
        self.ln_std = self.ln_std.hypot(ln_std);
        self
    }

    /// How many standard uncertainties inside (above zero) or outside the limit.
    pub fn sigmas(&self) -> f64 {
        self.factor.max(1e-6).ln() / self.ln_std
    }

    /// Whether the limit holds.
    pub fn holds(&self) -> bool {
        self.factor >= 1.0
    }
}

impl core::fmt::Display for Margin {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        let state = if self.holds() { "kept" } else { "met" };
        write!(f, "{} {state}: {}", self.fault, self.why)
    }
}
