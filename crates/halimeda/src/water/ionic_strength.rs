use super::Water;
use crate::real::Real;

/// Ionic strength, mol per kg of water: Dickson, A. G., Sabine, C. L., Christian,
/// J. R. (2007) PICES Special Publication 3, ch. 5, for the composition of
/// seawater.
#[inline(always)]
pub(crate) fn ionic_strength_mol_per_kg_h2o<R: Real>(practical_salinity: R) -> R {
    let s = practical_salinity;
    s * 19.924 / (-s * 1.005 + 1000.0)
}

/// Practical salinity over chlorinity, kg/g: the ratio PSS-78 was joined to the
/// older scale with; Millero et al. (2008) Deep-Sea Res. I 55, 50-72, eq. 5.5.
const SALINITY_PER_CHLORINITY: f64 = 1.80655;

impl Water {
    /// Ionic strength of seawater of this salinity, mol per kg of water.
    ///
    /// Dickson, A. G., Sabine, C. L., Christian, J. R. (2007) Guide to best
    /// practices for ocean CO2 measurements, PICES Special Publication 3, ch. 5.
    /// Of the reference composition: measured ions do not enter.
    ///
    /// ```
    /// use halimeda::{PracticalSalinity, Temperature, Water};
    /// let water = Water::new(Temperature::from_celsius(25.0)?, PracticalSalinity::new(35.0)?);
    /// assert!((water.ionic_strength_mol_per_kg_h2o() - 0.7228).abs() < 1e-4);
    /// # Ok::<(), halimeda::Error>(())
    /// ```
    #[must_use]
    pub fn ionic_strength_mol_per_kg_h2o(&self) -> f64 {
        ionic_strength_mol_per_kg_h2o(self.salinity().value())
    }

    /// Chlorinity of seawater of this salinity, g/kg: S/1.80655.
    #[must_use]
    pub fn chlorinity_g_per_kg(&self) -> f64 {
        self.salinity().value() / SALINITY_PER_CHLORINITY
    }
}
