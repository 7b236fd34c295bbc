use super::schmidt::schmidt;
use super::{GasKind, check};
use crate::quantity::{Temperature, TransferRate};
use crate::real::powf;
use crate::relation::Relation;
use crate::{Flagged, Result, Water};

/// How the surface moves, which sets the power of the Schmidt number that a
/// transfer velocity follows (Jähne et al. 1987, J. Geophys. Res. 92, 1937-1949).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
pub enum Surface {
    /// Renewed by waves, bubbles, ripples or a fall: k ∝ Sc^(−1/2). The default.
    #[default]
    Mobile,
    /// Still, or stiffened by a film of organics: k ∝ Sc^(−2/3).
    Rigid,
}

/// How a transfer coefficient changes with temperature. One law or the other,
/// never both: each already holds the whole effect.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
pub enum TemperatureLaw {
    /// Through the Schmidt number of the gas. The default.
    #[default]
    Schmidt,
    /// θ^(T − T0) with θ = 1.024, the practice of oxygen transfer tests
    /// ([`Relation::ThetaAsce2006`]; reported θ run from 1.008 to 1.047, Lee
    /// 2017, Heliyon 3, e00248).
    Theta,
}

const THETA: f64 = 1.024;

/// The gas and temperature a transfer coefficient was found with, and the laws
/// that carry it to others.
///
/// ```
/// use halimeda::gas::{GasKind, TransferBasis};
/// use halimeda::{PracticalSalinity, Temperature, TransferRate, Water};
/// let celsius = Temperature::from_celsius;
/// let measured = TransferRate::from_per_hour(1.8)?;
/// let basis = TransferBasis::new(GasKind::Oxygen, celsius(23.0)?);
/// let tank = Water::new(celsius(26.0)?, PracticalSalinity::new(35.0)?);
/// let for_co2 = basis.convert(measured, GasKind::CarbonDioxide, &tank)?.value();
/// assert!((for_co2.per_hour() - 1.79).abs() < 0.01);
/// # Ok::<(), halimeda::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct TransferBasis {
    gas: GasKind,
    temperature: Temperature,
    surface: Surface,
    law: TemperatureLaw,
}

impl TransferBasis {
    /// Found with this gas at this temperature; [`Surface::Mobile`],
    /// [`TemperatureLaw::Schmidt`].
    #[must_use]
    pub const fn new(gas: GasKind, temperature: Temperature) -> Self {
        Self {
            gas,
            temperature,
            surface: Surface::Mobile,
            law: TemperatureLaw::Schmidt,
        }
    }

    /// With another kind of surface.
    #[must_use]
    pub const fn with_surface(mut self, surface: Surface) -> Self {
        self.surface = surface;
        self
    }

    /// With another temperature law.
    #[must_use]
    pub const fn with_temperature_law(mut self, law: TemperatureLaw) -> Self {
        self.law = law;
        self
    }

    /// What the coefficient is multiplied with for this gas in this water.
    ///
    /// # Errors
    /// The water, or its salinity at the basis temperature, is outside
    /// [`Relation::SchmidtWanninkhof2014`] or, with [`TemperatureLaw::Theta`],
    /// outside [`Relation::ThetaAsce2006`], and extrapolation is not allowed.
    pub fn factor(&self, gas: GasKind, water: &Water) -> Result<Flagged<f64>> {
        let mut relations = check(water, &[Relation::SchmidtWanninkhof2014])?;
        let celsius = water.temperature().celsius();
        let mut note = |relation: Relation, temperature| {
            relations.check(
                relation,
                temperature,
                water.salinity(),
                water.extrapolation(),
            )
        };
        let (reference_celsius, thermal) = match self.law {
            TemperatureLaw::Schmidt => {
                note(Relation::SchmidtWanninkhof2014, self.temperature)?;
                (self.temperature.celsius(), 1.0)
            }
            TemperatureLaw::Theta => {
                note(Relation::ThetaAsce2006, self.temperature)?;
                note(Relation::ThetaAsce2006, water.temperature())?;
                (celsius, powf(THETA, celsius - self.temperature.celsius()))
            }
        };
        let power = match self.surface {
            Surface::Mobile => 0.5,
            Surface::Rigid => 2.0 / 3.0,
        };
        let ratio = schmidt(self.gas, reference_celsius) / schmidt(gas, celsius);
        Ok(Flagged::new(powf(ratio, power) * thermal, relations))
    }

    /// The volumetric coefficient for this gas in this water.
    ///
    /// For the standard temperature of aeration tests give water at 20 °C.
    ///
    /// # Errors
    /// As [`TransferBasis::factor`], or the result exceeds [`TransferRate::MAX`].
    pub fn convert(
        &self,
        rate: TransferRate,
        gas: GasKind,
        water: &Water,
    ) -> Result<Flagged<TransferRate>> {
        let factor = self.factor(gas, water)?;
        Ok(Flagged::new(
            TransferRate::from_per_day(rate.per_day() * factor.value())?,
            factor.extrapolated(),
        ))
    }
}
