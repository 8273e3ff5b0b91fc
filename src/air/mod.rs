//! room air: humidity, heat and mass transfer.
