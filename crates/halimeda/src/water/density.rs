use super::Water;
use super::salinity_reading::{Instrument, SalinityReading};
use crate::Result;
use crate::quantity::{Density, Temperature};
use crate::real::{Real, polynomial};
use crate::relation::{Extrapolation, Relation};

/// Standard error of the fit, kg/m³, Millero & Poisson (1981), abstract.
pub(super) const EOS80_STANDARD_ERROR_KG_PER_M3: f64 = 0.0036;

/// Density of standard mean ocean water free of salt, kg/m³, at IPTS-68 °C.
/// Bigg (1967), as in Millero & Poisson (1981) eq. 6.
pub(crate) fn pure_water_kg_per_m3<R: Real>(t68_celsius: R) -> R {
    polynomial(
        t68_celsius,
        [
            999.842594,
            6.793952e-2,
            -9.095290e-3,
            1.001685e-4,
            -1.120083e-6,
            6.536332e-9,
        ],
    )
}

/// One-atmosphere density of seawater, kg/m³, Millero & Poisson (1981) eq. 5.
pub(crate) fn eos80_kg_per_m3<R: Real>(t68_celsius: R, practical_salinity: R) -> R {
    let t = t68_celsius;
    let s = practical_salinity;
    let a = polynomial(
        t,
        [8.24493e-1, -4.0899e-3, 7.6438e-5, -8.2467e-7, 5.3875e-9],
    );
    let b = polynomial(t, [-5.72466e-3, 1.0227e-4, -1.6546e-6]);
    pure_water_kg_per_m3(t) + a * s + b * s * s.sqrt() + s.square() * 4.8314e-4
}

impl Water {
    /// Density at one atmosphere (EOS-80), kg/m³.
    ///
    /// Millero, F. J., Poisson, A. (1981) Deep-Sea Res. 28A, 625-629, eqs. 5-6
    /// (doi 10.1016/0198-0149(81)90122-9), with the temperature converted to
    /// IPTS-68. Standard error of the fit 0.0036 kg/m³.
    ///
    /// # Errors
    /// Temperature or salinity outside [`Relation::DensityEos80`] and
    /// extrapolation not allowed.
    pub fn density(&self) -> Result<Density> {
        self.check(Relation::DensityEos80)?;
        Density::from_kg_per_m3(eos80_kg_per_m3(
            self.temperature().celsius_ipts68(),
            self.salinity().value(),
        ))
    }

    /// Density of salt-free water at this water's temperature and one
    /// atmosphere, kg/m³: [`Water::density`] at salinity zero.
    ///
    /// # Errors
    /// Temperature outside [`Relation::DensityEos80`] and extrapolation not
    /// allowed.
    pub fn pure_water_density(&self) -> Result<Density> {
        Relation::DensityEos80.check(
            self.temperature(),
            crate::PracticalSalinity::new(0.0)?,
            self.extrapolation(),
        )?;
        Density::from_kg_per_m3(pure_water_kg_per_m3(self.temperature().celsius_ipts68()))
    }
}

/// Practical salinity of water that has the given density at the given
/// temperature and one atmosphere: [`Water::density`] inverted by a bracketed
/// root search. Sensitivity per kg/m³.
///
/// The density is the true one, in vacuum. A weighing in air comes out about
/// 1 kg/m³ low unless corrected for buoyancy.
///
/// ```
/// use halimeda::{Density, Extrapolation, Temperature};
/// use halimeda::water::practical_salinity_from_density;
/// let density = Density::from_kg_per_m3(1024.0)?;
/// let warm = Temperature::from_celsius(25.0)?;
/// let reading = practical_salinity_from_density(density, warm, Extrapolation::Refuse)?;
/// assert!((reading.salinity().value() - 35.87).abs() < 0.01);
/// # Ok::<(), halimeda::Error>(())
/// ```
///
/// # Errors
/// Temperature outside [`Relation::DensityEos80`], or a density that none of
/// its salinities has there, and extrapolation not allowed; a density outside
/// what salinity 0 to 70 gives.
pub fn practical_salinity_from_density(
    density: Density,
    temperature: Temperature,
    extrapolation: Extrapolation,
) -> Result<SalinityReading> {
    let t68 = temperature.celsius_ipts68();
    Instrument {
        input: "density",
        unit: "kg/m³",
        relation: Relation::DensityEos80,
        temperature,
        extrapolation,
        relation_uncertainty: EOS80_STANDARD_ERROR_KG_PER_M3,
        reading_at: |s| eos80_kg_per_m3(t68, s),
    }
    .salinity(density.kg_per_m3())
}
