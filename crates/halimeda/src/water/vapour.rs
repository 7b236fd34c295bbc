use super::Water;
use crate::Result;
use crate::real::Real;
use crate::relation::Relation;

/// Vapour pressure over seawater, atm: Weiss & Price (1980) eq. 10.
#[inline(always)]
pub(crate) fn vapour_pressure_atm<R: Real>(kelvin: R, practical_salinity: R) -> R {
    let t = kelvin / 100.0;
    (-t.recip() * 67.4509 - t.ln() * 4.8489 - practical_salinity * 0.000544 + 24.4543).exp()
}

impl Water {
    /// Pressure of water vapour in air saturated over this water, atm.
    ///
    /// Weiss, R. F., Price, B. A. (1980) Mar. Chem. 8, 347-359, eq. 10 (doi
    /// 10.1016/0304-4203(80)90024-9). Over pure water it lies 0.12 % below the
    /// steam tables of IAPWS; it is kept because the gas solubilities that use
    /// it were fitted with it.
    ///
    /// ```
    /// use halimeda::{PracticalSalinity, Temperature, Water};
    /// let water = Water::new(Temperature::from_celsius(25.0)?, PracticalSalinity::new(35.0)?);
    /// assert!((water.vapour_pressure_atm()? - 0.03066).abs() < 1e-5);
    /// # Ok::<(), halimeda::Error>(())
    /// ```
    ///
    /// # Errors
    /// Temperature or salinity outside
    /// [`Relation::VapourPressureWeissPrice1980`] and extrapolation not allowed.
    pub fn vapour_pressure_atm(&self) -> Result<f64> {
        self.check(Relation::VapourPressureWeissPrice1980)?;
        Ok(vapour_pressure_atm(
            self.temperature().kelvin(),
            self.salinity().value(),
        ))
    }
}
