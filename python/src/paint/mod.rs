//! Paints, mixes and the dilution law in Python.

mod arguments;
mod drops;
mod law;
mod mix;
mod stock;
mod voc;
mod wording;

pub use drops::PyMixDrops;
pub use law::PyDilutionLaw;
pub use mix::PyMix;
pub use stock::PyPaint;
pub use voc::PyVoc;
