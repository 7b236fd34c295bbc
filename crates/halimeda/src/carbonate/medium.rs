use crate::real::Real;
use crate::water::ionic_strength::ionic_strength_mol_per_kg_h2o;

/// Temperature and salinity with the powers of them that the equilibrium
/// relations share, each computed once.
///
/// On [`Dual`](crate::Dual) every relation of [`constants`](super::constants)
/// yields its derivatives too. At salinity 0 all values are finite and so are
/// the derivatives with respect to temperature; those with respect to salinity
/// are not, because the slope of √S is infinite there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Medium<R> {
    pub(crate) celsius: R,
    pub(crate) kelvin: R,
    pub(crate) inverse_kelvin: R,
    pub(crate) ln_kelvin: R,
    pub(crate) salinity: R,
    pub(crate) sqrt_salinity: R,
    /// mol per kg of water.
    pub(crate) ionic_strength: R,
    pub(crate) sqrt_ionic_strength: R,
    /// Kilograms of water in a kilogram of seawater.
    pub(crate) water_fraction: R,
}

impl<R: Real> Medium<R> {
    /// From temperature, °C (ITS-90), and practical salinity.
    ///
    /// Ionic strength, mol per kg of water: 19.924 S / (1000 - 1.005 S), with
    /// 1 - 0.001005 S kilograms of water per kilogram of seawater; Dickson,
    /// Sabine & Christian (2007) PICES Special Publication 3, chapter 5.
    ///
    /// Nothing is checked here; temperature above absolute zero and salinity
    /// from 0 to below 995 are presupposed.
    #[inline(always)]
    #[must_use]
    pub fn new(celsius: R, practical_salinity: R) -> Self {
        let kelvin = celsius + 273.15;
        let water_fraction = practical_salinity * -0.001005 + 1.0;
        let ionic_strength = ionic_strength_mol_per_kg_h2o(practical_salinity);
        Self {
            celsius,
            kelvin,
            inverse_kelvin: kelvin.recip(),
            ln_kelvin: kelvin.ln(),
            salinity: practical_salinity,
            sqrt_salinity: practical_salinity.sqrt(),
            ionic_strength,
            sqrt_ionic_strength: ionic_strength.sqrt(),
            water_fraction,
        }
    }

    /// Temperature, °C.
    #[must_use]
    pub fn celsius(&self) -> R {
        self.celsius
    }

    /// Temperature, K.
    #[must_use]
    pub fn kelvin(&self) -> R {
        self.kelvin
    }

    /// Practical salinity.
    #[must_use]
    pub fn practical_salinity(&self) -> R {
        self.salinity
    }

    /// Ionic strength, mol per kg of water.
    #[must_use]
    pub fn ionic_strength(&self) -> R {
        self.ionic_strength
    }

    /// a + b/T + c ln T: the van 't Hoff equation integrated with a constant
    /// heat capacity of reaction, the form most relations are fitted in.
    #[inline(always)]
    pub(crate) fn van_t_hoff(&self, a: f64, b: f64, c: f64) -> R {
        self.inverse_kelvin * b + self.ln_kelvin * c + a
    }

    /// a + b/T.
    #[inline(always)]
    pub(crate) fn affine_in_inverse_kelvin(&self, a: f64, b: f64) -> R {
        self.inverse_kelvin * b + a
    }
}
