use super::scalar_quantity;

scalar_quantity! {
    /// Practical salinity, dimensionless (PSS-78).
    ///
    /// Accepted from 0 to 70; each relation has its own, narrower range. For
    /// a reading that is not a practical salinity (conductivity, specific
    /// gravity, refractive index) see the [`water`](crate::water) module.
    PracticalSalinity, "practical salinity", "(practical salinity)", value, new, 0.0, 70.0
}
