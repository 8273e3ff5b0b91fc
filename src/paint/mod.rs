//! paint, thinner and their mix: dilution law, families, paint files.
