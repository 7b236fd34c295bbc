//! The body of water and the air over it.

use halimeda::carbonate::{
    Bases, CarbonateState, Correlation, Equilibria, EquilibriumOptions, Output, Parameter,
    UncertaintyBudget,
};
use halimeda::gas::{co2_partial_pressure, oxygen_solubility, percent_saturation};
use halimeda::quantity::{Form, Species};
use halimeda::{
    AirPressure, Alkalinity, Composition, Concentration, Content, Density, DryMoleFractionCo2,
    Temperature, Water, form,
};

use crate::assessment::{
    AirPart, Direction, IonPart, OxygenPart, OxygenVerdict, VolumePart, WaterPart,
};
use crate::estimate::{Estimate, propagate};
use crate::kit::Measured;
use crate::kits::{Kits, mg_per_l};
use crate::readings::Readings;
use crate::refusal::{InSection as _, Refusal};
use crate::source;

/// Standard uncertainty of pK of ammonium: "likely to be better than 5 %", taken
/// as uniform (Clegg & Whitfield 1995, abstract), 0.05 log10(e) / √3.
const PK_AMMONIUM_UNCERTAINTY: f64 = 0.0125;

/// The water without what is dissolved in traces.
pub(crate) struct Body {
    pub(crate) temperature: Estimate,
    pub(crate) salinity: Estimate,
    /// Practical salinity per °C of an error in temperature: a hydrometer's
    /// reading is worked out at it.
    pub(crate) salinity_per_celsius: f64,
    pub(crate) air_pressure_hpa: Estimate,
    pub(crate) water: Water,
    pub(crate) density: Density,
}

impl Body {
    pub(crate) fn of(readings: &Readings) -> Result<Self, Refusal> {
        let section = &readings.salinity;
        let temperature = Estimate::new(
            readings.temperature.celsius.celsius(),
            readings.temperature.uncertainty_celsius,
        );
        let reading = section
            .practical_salinity(section.specific_gravity, readings.temperature.celsius)
            .in_section("salinity")?;
        let salinity_at = |celsius| {
            let temperature = Temperature::from_celsius(celsius)?;
            let read = section.practical_salinity(section.specific_gravity, temperature)?;
            Ok(read.salinity().value())
        };
        let salinity_per_celsius = salinity_at(temperature.value + 0.5)
            .and_then(|warmer| Ok(warmer - salinity_at(temperature.value - 0.5)?))
            .in_section("salinity")?;
        let from_reading = reading
            .standard_uncertainty(section.uncertainty_specific_gravity)
            .in_section("salinity")?;
        let air_pressure = readings.air_pressure.in_the_room()?;
        let water = Water::new(readings.temperature.celsius, reading.salinity())
            .with_air_pressure(air_pressure);
        Ok(Self {
            temperature,
            salinity: Estimate::new(
                reading.salinity().value(),
                from_reading.hypot(salinity_per_celsius * temperature.standard_uncertainty),
            ),
            salinity_per_celsius,
            air_pressure_hpa: Estimate::new(
                air_pressure.hpa(),
                readings.air_pressure.uncertainty_hpa,
            ),
            water,
            density: water.density().in_section("temperature")?,
        })
    }

    pub(crate) fn part(&self, readings: &Readings) -> Result<WaterPart, Refusal> {
        let density = self
            .through_salinity(readings, |water| Ok(water.density()?.kg_per_m3()))
            .in_section("salinity")?;
        let volume = match &readings.volume {
            None => None,
            Some(section) => Some(
                section
                    .gross()
                    .and_then(|gross| {
                        let net = section.net()?;
                        let litres = Estimate::new(
                            net.volume()?.litres(),
                            net.standard_uncertainty()?.litres(),
                        );
                        Ok(VolumePart {
                            gross_litres: gross.volume()?.litres(),
                            net_litres: litres,
                            net_kilograms: litres.times(self.density.kg_per_l()),
                        })
                    })
                    .in_section("volume")?,
            ),
        };
        Ok(WaterPart {
            temperature_celsius: self.temperature,
            practical_salinity: self.salinity,
            density_kg_per_m3: density,
            air_pressure_hpa: self.air_pressure_hpa,
            volume,
        })
    }

    /// A property of the water, moved by the readings behind temperature,
    /// salinity and air pressure.
    pub(crate) fn through_salinity(
        &self,
        readings: &Readings,
        property: impl Fn(&Water) -> halimeda::Result<f64>,
    ) -> halimeda::Result<Estimate> {
        let section = &readings.salinity;
        let gravity = Estimate::new(
            section.specific_gravity,
            section.uncertainty_specific_gravity,
        );
        propagate(
            [self.temperature, gravity, self.air_pressure_hpa],
            |[celsius, gravity, hpa]| {
                let temperature = Temperature::from_celsius(celsius)?;
                let salinity = section.practical_salinity(gravity, temperature)?.salinity();
                property(
                    &Water::new(temperature, salinity)
                        .with_air_pressure(AirPressure::from_hpa(hpa)?),
                )
            },
        )
    }

    pub(crate) fn equilibria(&self, kits: &Kits) -> halimeda::Result<Equilibria> {
        let mut composition = Composition::REFERENCE;
        if let Some(calcium) = kits.calcium {
            composition = composition.with_calcium(calcium.estimate.content());
        }
        if let Some(magnesium) = kits.magnesium {
            composition = composition.with_magnesium(magnesium.estimate.content());
        }
        self.water
            .with_composition(composition)
            .equilibria(&EquilibriumOptions::default())?
            .with_bases(Bases {
                phosphate: content(kits.phosphate),
                ammonia: content(kits.ammonia),
                ..Bases::NONE
            })
    }

    /// The salinity was worked out at the temperature, so their errors are not
    /// independent.
    pub(crate) fn correlations(&self) -> [Correlation; 1] {
        let coefficient = if self.salinity.standard_uncertainty > 0.0 {
            self.salinity_per_celsius * self.temperature.standard_uncertainty
                / self.salinity.standard_uncertainty
        } else {
            0.0
        };
        [Correlation {
            first: Parameter::Temperature,
            second: Parameter::Salinity,
            coefficient,
        }]
    }

    /// Uncertainties of constants, water and kits; the two known quantities are
    /// exact until set. The liquid junction is in it, as that of fH.
    pub(crate) fn budget<'a>(
        &self,
        state: &CarbonateState,
        kits: &Kits,
        correlations: &'a [Correlation],
    ) -> halimeda::Result<UncertaintyBudget<'a>> {
        UncertaintyBudget::CONSTANTS
            .with_boron_of(state)?
            .with(Parameter::PKnh4, PK_AMMONIUM_UNCERTAINTY)?
            .with(
                Parameter::Temperature,
                self.temperature.standard_uncertainty,
            )?
            .with(Parameter::Salinity, self.salinity.standard_uncertainty)?
            .with(Parameter::Calcium, uncertainty(kits.calcium))?
            .with(Parameter::Phosphate, uncertainty(kits.phosphate))?
            .with(Parameter::Ammonia, uncertainty(kits.ammonia))?
            .with_correlations(correlations)
    }

    /// What water of this alkalinity tends to under air of this CO2.
    pub(crate) fn under_air(
        &self,
        equilibria: &Equilibria,
        alkalinity: Alkalinity,
        ppm: Estimate,
        budget: &UncertaintyBudget<'_>,
    ) -> halimeda::Result<UnderAir> {
        let pco2 = propagate([ppm, self.air_pressure_hpa], |[ppm, hpa]| {
            let water = self.water.with_air_pressure(AirPressure::from_hpa(hpa)?);
            let pressure = co2_partial_pressure(DryMoleFractionCo2::from_ppm(ppm)?, &water)?;
            Ok(pressure.value().uatm())
        })?;
        let state = equilibria.under_air(alkalinity, DryMoleFractionCo2::from_ppm(ppm.value)?)?;
        let budget = budget.with(Parameter::Second, pco2.standard_uncertainty)?;
        let uncertainties = state.uncertainties(&budget)?;
        Ok(UnderAir {
            ppm,
            pco2,
            ph_total: Estimate::new(
                state.ph_total().value(),
                uncertainties.standard(Output::PhTotal),
            ),
            ph_nbs: Estimate::new(
                state.ph_nbs()?.value(),
                uncertainties.standard(Output::PhNbs),
            ),
        })
    }

    pub(crate) fn ion<F: Form>(
        &self,
        measured: &Measured<F::Species>,
        ocean: Content<F::Species>,
    ) -> IonPart {
        IonPart {
            mg_per_l: mg_per_l::<F>(measured.estimate, self.density),
            ocean_mg_per_l: ocean.to_concentration::<F>(self.density).mg_per_l(),
        }
    }

    pub(crate) fn oxygen(&self, readings: &Readings) -> Result<Option<OxygenPart>, Refusal> {
        let Some(section) = &readings.oxygen else {
            return Ok(None);
        };
        let part = || {
            // mg/L the water holds at balance, with what the other readings leave open.
            let saturated = self.through_salinity(readings, |water| {
                let content = oxygen_solubility(water)?.value();
                let mass: Concentration<form::OxygenAsO2> =
                    content.to_concentration(water.density()?);
                Ok(mass.mg_per_l())
            })?;
            let mg_per_l = Estimate::new(section.mg_per_l.mg_per_l(), section.uncertainty_mg_per_l);
            let percent =
                percent_saturation(section.mg_per_l.to_content(self.density), &self.water)?
                    .value()
                    .percent();
            let spread = propagate([mg_per_l, saturated], |[read, saturated]| {
                Ok(100.0 * read / saturated)
            })?;
            Ok(OxygenPart {
                mg_per_l,
                saturation_percent: Estimate::new(percent, spread.standard_uncertainty),
                saturated_mg_per_l: saturated.value,
                verdict: if mg_per_l.value < source::HYPOXIA_MG_PER_L {
                    OxygenVerdict::Hypoxic
                } else if percent < source::OXYGEN_LOW_PERCENT {
                    OxygenVerdict::Low
                } else if percent <= source::OXYGEN_HIGH_PERCENT {
                    OxygenVerdict::NearBalance
                } else {
                    OxygenVerdict::Supersaturated
                },
            })
        };
        part().map(Some).in_section("oxygen")
    }
}

pub(crate) struct UnderAir {
    pub(crate) ppm: Estimate,
    pub(crate) pco2: Estimate,
    pub(crate) ph_total: Estimate,
    pub(crate) ph_nbs: Estimate,
}

impl UnderAir {
    /// A measured pH and a pH under air share only temperature and salinity,
    /// which weigh little in either: their difference is taken as independent.
    pub(crate) fn compared_with(self, total_ph: Estimate, pco2: Estimate) -> AirPart {
        let excess = pco2.less(self.pco2);
        AirPart {
            carbon_dioxide_ppm: self.ppm,
            pco2_uatm: self.pco2,
            ph_total_it_tends_to: self.ph_total,
            ph_nbs_it_tends_to: self.ph_nbs,
            ph_now_is_higher_by: total_ph.less(self.ph_total),
            carbon_dioxide_goes: if !excess.differs_from_zero() {
                Direction::CannotBeTold
            } else if excess.value > 0.0 {
                Direction::OutOfTheWater
            } else {
                Direction::IntoTheWater
            },
        }
    }
}

fn content<S: Species>(measured: Option<Measured<S>>) -> Content<S> {
    measured.map_or(Content::ZERO, |m| m.estimate.content())
}

/// µmol/kg; zero where nothing was measured and nothing is counted.
fn uncertainty<S: Species>(measured: Option<Measured<S>>) -> f64 {
    measured.map_or(0.0, |m| m.estimate.standard_uncertainty().umol_per_kg())
}
