use super::scalar_quantity;

scalar_quantity! {
    /// Potential of a pH probe against its reference, as a meter shows it in
    /// its mV mode: near zero at pH 7, falling by about 59 mV for each pH.
    ElectrodePotential, "electrode potential", "mV", millivolts, from_millivolts, -2000.0, 2000.0
}
