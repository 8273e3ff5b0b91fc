//! flow cups: standards, home-made cups, timing.
