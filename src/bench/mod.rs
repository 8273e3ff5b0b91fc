//! The questions of the bench, each answered in one call that runs the models below it in order.
//!
//! - [`Compare`]: what do half a part, one, two and three parts of thinner to one of paint do?
//! - [`Retarder`]: what do 10, 20 and 30 % of a slow solvent buy, and what do they cost?
//! - [`Setup::judge`]: these settings, this job: what goes wrong first, and how far is everything else?
//! - [`recommend`]: what ratio, pressure, distance and how many passes for this job?
//! - [`window`]: where are the good settings, and what goes wrong at their edges?
//! - [`diagnose`]: this went wrong: why, and what is the smallest change that cures it?
//! - [`Session::plan`]: a whole session: what to mix, spray, wait for, rinse and bring, and how long does it take?
//! - [`waterborne_pairs`]: does the dilution law hold for a real paint?
//!
//! Results are tables ([`crate::table::Table`]) that print as text or HTML and export as plain columns.

mod axis;
mod compare;
mod comparison;
mod cover;
mod diagnose;
mod fault;
mod in_time;
mod jobs;
mod judged;
mod measured;
mod plan;
mod recommend;
mod retarder;
mod setup;
mod slowed;
mod window;

pub use axis::Axis;
pub use compare::{Compare, USUAL_RATIOS};
use compare::{distinct, or_warning};
pub use comparison::{Comparison, Row, Sprayed};
use comparison::{estimate_cell, sentence, share_cell};
pub use cover::{Cover, Target};
pub use diagnose::{Change, Defect, Diagnosis, LikelyCause, diagnose};
pub use fault::{Fault, Margin};
pub use jobs::Job;
pub use judged::Judged;
pub use measured::{MeasuredPair, waterborne_pairs, waterborne_table};
pub use plan::{
    GunWash, Habits, Material, MaterialKind, MixAmounts, Plan, PlanLayer, PlannedLayer, Price, Session, Step,
    Visit, Wait, What,
};
pub use recommend::{Choice, RATIOS, Recommendation, Search, recommend};
pub use retarder::{Retarder, RetarderAnswer, RetarderRow, USUAL_SHARES};
pub use setup::Setup;
pub use slowed::RetarderShare;
pub use window::{Cell, WindowMap, window};
