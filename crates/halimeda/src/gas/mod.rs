//! Dissolved gases: solubility, saturation, exchange with the air.
