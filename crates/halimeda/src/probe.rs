//! pH probes: calibration, slope health, temperature, NBS to total scale.
