//! The readings file: which sections and keys it has, and what they may hold.
//!
//! Numbers become typed quantities here, so that a bad one is refused beside its
//! line. What can only be judged together with other readings is a [`Refusal`].

use halimeda::probe::{
    BufferReading, ProbeCalibration, ProbeHealth, ProbeReading, ProbeUncertainty,
};
use halimeda::water::{
    Hydrometer, NetVolume, SalinityReading, SpecificGravity, SpecificGravityReference,
};
use halimeda::{
    AirPressure, Alkalinity, Concentration, Density, DryMoleFractionCo2, ElectrodePotential,
    Extrapolation, NbsScale, Ph, Temperature, Volume, form,
};
use serde::Deserialize;

use crate::key;
use crate::kit::{
    AmmoniaForm, CalciumForm, Kit, MagnesiumForm, NitrateForm, NitriteForm, PhosphateForm,
};
use crate::refusal::{InSection as _, Refusal};

/// Everything in the file.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Readings {
    pub(crate) tank: String,
    pub(crate) note: Option<String>,
    pub(crate) temperature: TemperatureSection,
    pub(crate) salinity: SalinitySection,
    pub(crate) air_pressure: AirPressureSection,
    pub(crate) alkalinity: AlkalinitySection,
    pub(crate) ph_probe: Option<PhProbeSection>,
    pub(crate) ph_display: Option<PhDisplaySection>,
    pub(crate) room_air: Option<RoomAirSection>,
    pub(crate) calcium: Option<Kit<CalciumForm>>,
    pub(crate) magnesium: Option<Kit<MagnesiumForm>>,
    pub(crate) nitrate: Option<Kit<NitrateForm>>,
    pub(crate) nitrite: Option<Kit<NitriteForm>>,
    pub(crate) ammonia: Option<Kit<AmmoniaForm>>,
    pub(crate) phosphate: Option<Kit<PhosphateForm>>,
    pub(crate) oxygen: Option<OxygenSection>,
    pub(crate) volume: Option<VolumeSection>,
}

#[derive(Debug, Deserialize)]
#[serde(
    deny_unknown_fields,
    expecting = "a section [temperature] with celsius and uncertainty_celsius"
)]
pub(crate) struct TemperatureSection {
    #[serde(deserialize_with = "key::temperature")]
    pub(crate) celsius: Temperature,
    #[serde(deserialize_with = "key::uncertainty_celsius")]
    pub(crate) uncertainty_celsius: f64,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, expecting = "a section [salinity]")]
pub(crate) struct SalinitySection {
    instrument: SalinityInstrument,
    #[serde(deserialize_with = "key::specific_gravity")]
    pub(crate) specific_gravity: f64,
    reference: Reference,
    #[serde(deserialize_with = "key::uncertainty_specific_gravity")]
    pub(crate) uncertainty_specific_gravity: f64,
}

#[derive(Debug, Clone, Copy, Deserialize)]
#[serde(rename_all = "snake_case")]
enum SalinityInstrument {
    GlassHydrometer,
    CorrectedMeter,
}

#[derive(Debug, Clone, Copy, Deserialize)]
enum Reference {
    #[serde(rename = "25/25 C")]
    At25,
    #[serde(rename = "20/20 C")]
    At20,
    #[serde(rename = "15/15 C")]
    At15,
    #[serde(rename = "60/60 F")]
    At60F,
    #[serde(rename = "15/4 C")]
    At15Over4,
    #[serde(rename = "20/4 C")]
    At20Over4,
}

impl SalinitySection {
    /// Practical salinity where the instrument shows `specific_gravity` in water
    /// of this temperature.
    pub(crate) fn practical_salinity(
        &self,
        specific_gravity: f64,
        temperature: Temperature,
    ) -> halimeda::Result<SalinityReading> {
        let reference = match self.reference {
            Reference::At25 => SpecificGravityReference::AT_25_25,
            Reference::At20 => SpecificGravityReference::AT_20_20,
            Reference::At15 => SpecificGravityReference::AT_15_15,
            Reference::At60F => SpecificGravityReference::AT_60F_60F,
            Reference::At15Over4 => SpecificGravityReference::AT_15_4,
            Reference::At20Over4 => SpecificGravityReference::AT_20_4,
        };
        match self.instrument {
            SalinityInstrument::GlassHydrometer => Hydrometer::glass(reference).practical_salinity(
                specific_gravity,
                temperature,
                Extrapolation::Refuse,
            ),
            SalinityInstrument::CorrectedMeter => {
                SpecificGravity::new(specific_gravity, reference)?
                    .practical_salinity(Extrapolation::Refuse)
            }
        }
    }
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, expecting = "a section [air_pressure]")]
pub(crate) struct AirPressureSection {
    #[serde(default, deserialize_with = "key::air_pressure")]
    barometer_hpa: Option<AirPressure>,
    #[serde(default, deserialize_with = "key::altitude")]
    altitude_m: Option<f64>,
    #[serde(default, deserialize_with = "key::air_pressure")]
    sea_level_hpa: Option<AirPressure>,
    #[serde(deserialize_with = "key::uncertainty_hpa")]
    pub(crate) uncertainty_hpa: f64,
}

impl AirPressureSection {
    /// Pressure of the air in the room.
    pub(crate) fn in_the_room(&self) -> Result<AirPressure, Refusal> {
        let section = "air_pressure";
        match (self.barometer_hpa, self.altitude_m, self.sea_level_hpa) {
            (Some(barometer), None, None) => Ok(barometer),
            (None, Some(altitude_m), None) => {
                AirPressure::at_altitude_m(altitude_m).in_section(section)
            }
            (None, Some(altitude_m), Some(sea_level)) => {
                AirPressure::from_sea_level(sea_level, altitude_m).in_section(section)
            }
            _ => Err(Refusal::new(
                section,
                "give either barometer_hpa alone, or altitude_m with or without sea_level_hpa",
            )),
        }
    }
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, expecting = "a section [alkalinity]")]
pub(crate) struct AlkalinitySection {
    #[serde(deserialize_with = "key::dkh")]
    dkh: f64,
    #[serde(deserialize_with = "key::uncertainty_dkh")]
    pub(crate) uncertainty_dkh: f64,
}

impl AlkalinitySection {
    pub(crate) fn total(&self, density: Density) -> halimeda::Result<Alkalinity> {
        Alkalinity::from_dkh(self.dkh, density)
    }
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, expecting = "a section [ph_probe]")]
pub(crate) struct PhProbeSection {
    #[serde(deserialize_with = "key::potential")]
    tank_millivolts: ElectrodePotential,
    #[serde(deserialize_with = "key::uncertainty_millivolts")]
    uncertainty_millivolts: f64,
    #[serde(deserialize_with = "key::uncertainty_celsius")]
    uncertainty_celsius: f64,
    #[serde(deserialize_with = "key::uncertainty_ph")]
    uncertainty_buffer_ph: f64,
    buffer: [BufferSection; 2],
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, expecting = "a section [[ph_probe.buffer]]")]
struct BufferSection {
    #[serde(deserialize_with = "key::ph_nbs")]
    ph_nbs: Ph<NbsScale>,
    #[serde(deserialize_with = "key::potential")]
    millivolts: ElectrodePotential,
    #[serde(deserialize_with = "key::temperature")]
    celsius: Temperature,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, expecting = "a section [ph_display]")]
pub(crate) struct PhDisplaySection {
    #[serde(deserialize_with = "key::ph_nbs")]
    ph_nbs: Ph<NbsScale>,
    #[serde(deserialize_with = "key::uncertainty_ph")]
    uncertainty_ph: f64,
}

/// The pH a probe shows, with the uncertainty it has apart from its liquid
/// junction, which belongs to the conversion from the NBS scale.
#[derive(Debug)]
pub(crate) struct ProbePh {
    pub(crate) nbs: Ph<NbsScale>,
    pub(crate) instrument_uncertainty: f64,
    pub(crate) calibration: Option<CalibrationCheck>,
}

#[derive(Debug)]
pub(crate) struct CalibrationCheck {
    pub(crate) slope_percent: f64,
    pub(crate) offset_mv: f64,
    pub(crate) health: ProbeHealth,
    pub(crate) is_bracketed: bool,
}

impl PhProbeSection {
    fn read(&self, tank: Temperature) -> halimeda::Result<ProbePh> {
        let [first, second] = &self.buffer;
        let reading = |b: &BufferSection| BufferReading::new(b.ph_nbs, b.millivolts, b.celsius);
        let calibration = ProbeCalibration::new(reading(first), reading(second))?;
        let uncertainty = ProbeUncertainty::new(
            self.uncertainty_buffer_ph,
            self.uncertainty_millivolts,
            self.uncertainty_celsius,
            0.0,
        )?;
        let ph: ProbeReading<NbsScale> =
            calibration.read(self.tank_millivolts, tank, &uncertainty)?;
        Ok(ProbePh {
            nbs: ph.ph(),
            instrument_uncertainty: ph.instrument_uncertainty(),
            calibration: Some(CalibrationCheck {
                slope_percent: calibration.slope_percent(),
                offset_mv: calibration.offset_mv(),
                health: calibration.health(),
                is_bracketed: ph.is_bracketed(),
            }),
        })
    }
}

impl Readings {
    /// The section the pH comes from.
    pub(crate) fn ph_section(&self) -> &'static str {
        if self.ph_probe.is_some() {
            "ph_probe"
        } else {
            "ph_display"
        }
    }

    /// The tank's pH.
    pub(crate) fn ph(&self) -> Result<ProbePh, Refusal> {
        let section = self.ph_section();
        let ph = match (&self.ph_probe, &self.ph_display) {
            (Some(probe), None) => probe.read(self.temperature.celsius).in_section(section)?,
            (None, Some(display)) => ProbePh {
                nbs: display.ph_nbs,
                instrument_uncertainty: display.uncertainty_ph,
                calibration: None,
            },
            (Some(_), Some(_)) => {
                return Err(Refusal::new(
                    section,
                    "give either [ph_probe] or [ph_display], not both",
                ));
            }
            (None, None) => {
                return Err(Refusal::new(
                    section,
                    "the pH is missing: add a section [ph_probe] (a meter that shows mV) or \
                     [ph_display] (a meter that shows pH)",
                ));
            }
        };
        let (min, max) = PH_OF_TANKS;
        if (min..=max).contains(&ph.nbs.value()) {
            return Ok(ph);
        }
        Err(Refusal {
            section,
            reason: format!(
                "pH (NBS scale) comes out as {:.2}; in a tank it lies between {min} and {max}",
                ph.nbs.value()
            ),
        })
    }
}

/// Beyond these a probe is dry, broken or plugged into something else. Common
/// practice, no source.
const PH_OF_TANKS: (f64, f64) = (6.0, 10.0);

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, expecting = "a section [room_air]")]
pub(crate) struct RoomAirSection {
    #[serde(deserialize_with = "key::carbon_dioxide")]
    pub(crate) carbon_dioxide_ppm: DryMoleFractionCo2,
    #[serde(deserialize_with = "key::uncertainty_ppm")]
    pub(crate) uncertainty_ppm: f64,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, expecting = "a section [oxygen]")]
pub(crate) struct OxygenSection {
    #[serde(deserialize_with = "key::oxygen")]
    pub(crate) mg_per_l: Concentration<form::OxygenAsO2>,
    #[serde(deserialize_with = "key::uncertainty")]
    pub(crate) uncertainty_mg_per_l: f64,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, expecting = "a section [volume]")]
pub(crate) struct VolumeSection {
    #[serde(deserialize_with = "key::length")]
    length_cm: f64,
    #[serde(deserialize_with = "key::length")]
    width_cm: f64,
    #[serde(deserialize_with = "key::length")]
    water_height_cm: f64,
    #[serde(deserialize_with = "key::uncertainty_cm")]
    uncertainty_cm: f64,
    #[serde(default)]
    vessel: Vec<VesselSection>,
    #[serde(default)]
    solid: Vec<SolidSection>,
}

// Names are for whoever reads the file.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, expecting = "a section [[volume.vessel]]")]
struct VesselSection {
    #[serde(rename = "name")]
    _name: String,
    #[serde(deserialize_with = "key::litres")]
    water_litres: Volume,
    #[serde(deserialize_with = "key::litres")]
    uncertainty_litres: Volume,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, expecting = "a section [[volume.solid]]")]
struct SolidSection {
    #[serde(rename = "name")]
    _name: String,
    #[serde(deserialize_with = "key::dry_mass")]
    dry_mass_kg: f64,
    #[serde(deserialize_with = "key::solid_density")]
    density_kg_per_l: f64,
    #[serde(deserialize_with = "key::litres")]
    uncertainty_litres: Volume,
}

impl VolumeSection {
    /// What the vessels would hold without rock and sand.
    pub(crate) fn gross(&self) -> halimeda::Result<NetVolume> {
        let tank = NetVolume::new().tank_cm(
            self.length_cm,
            self.width_cm,
            self.water_height_cm,
            self.uncertainty_cm,
        )?;
        self.vessel.iter().try_fold(tank, |total, vessel| {
            total.vessel(vessel.water_litres, vessel.uncertainty_litres)
        })
    }

    /// The water itself.
    pub(crate) fn net(&self) -> halimeda::Result<NetVolume> {
        self.solid.iter().try_fold(self.gross()?, |total, solid| {
            total.solid(
                solid.dry_mass_kg,
                solid.density_kg_per_l,
                solid.uncertainty_litres,
            )
        })
    }
}
