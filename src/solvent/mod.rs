//! pure liquids: catalogue, property correlations, evaporation classes.
