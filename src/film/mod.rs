//! how a thin coat loses its solvent.
