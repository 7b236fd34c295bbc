use super::TurfTraits;
use crate::real::{powf, sqrt};

/// The surroundings of the turf while lamps, flow and temperature stay as they
/// are, with all that follows from them alone computed once.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TurfEnvironment {
    /// Lit area over all faces, m².
    pub lit_area_m2: f64,
    /// Share of the area that the screen's roughness lets turf hold, 0 to 1.
    pub holding: f64,
    /// Irradiance on each lit face, µmol m⁻² s⁻¹; 0 with the lamp off.
    pub irradiance_umol_per_m2_s: f64,
    /// Mass transfer velocity, m/d; 0 without flow.
    pub transfer_m_per_day: f64,
    /// Whether water runs over the screen.
    pub wet: bool,
    /// Share of bare screen settled per day.
    pub settlement_per_day: f64,
    /// Gross photosynthesis in saturating light at this temperature, 1/d.
    pub(super) photosynthesis_per_day: f64,
    /// Respiration at this temperature, 1/d.
    pub(super) respiration_per_day: f64,
    /// Uptake relative to that at the optimum temperature.
    pub(super) uptake_factor: f64,
    /// Irradiance over the saturation irradiance.
    pub(super) relative_irradiance: f64,
    /// Attenuation, m² per mol of carbon.
    pub(super) attenuation_m2_per_mol: f64,
}

/// Temperature at which respiration is the stated share of photosynthesis, °C.
const RESPIRATION_REFERENCE_CELSIUS: f64 = 25.0;

impl TurfEnvironment {
    /// Surroundings at a temperature; light and flow start at none.
    #[must_use]
    pub fn new(traits: &TurfTraits, celsius: f64, lit_area_m2: f64) -> Self {
        let response = traits.temperature_response(celsius);
        let q10 = powf(
            traits.respiration_q10,
            (celsius - RESPIRATION_REFERENCE_CELSIUS) / 10.0,
        );
        Self {
            lit_area_m2,
            holding: 1.0,
            irradiance_umol_per_m2_s: 0.0,
            transfer_m_per_day: 0.0,
            wet: false,
            settlement_per_day: 0.0,
            photosynthesis_per_day: traits.max_photosynthesis_per_day * response,
            respiration_per_day: traits.max_photosynthesis_per_day
                * traits.respiration_per_max_photosynthesis
                * q10,
            uptake_factor: response,
            relative_irradiance: 0.0,
            attenuation_m2_per_mol: traits.attenuation_m2_per_g_dry
                * traits.dry_grams_per_mol_carbon(),
        }
    }

    /// With an irradiance on each lit face, µmol m⁻² s⁻¹.
    #[must_use]
    pub fn with_irradiance(mut self, traits: &TurfTraits, umol_per_m2_s: f64) -> Self {
        self.irradiance_umol_per_m2_s = umol_per_m2_s;
        self.relative_irradiance = umol_per_m2_s / traits.saturation_irradiance_umol_per_m2_s;
        self
    }

    /// With water running over the screen at a mass transfer velocity, m/d.
    #[must_use]
    pub fn with_flow(mut self, transfer_m_per_day: f64) -> Self {
        self.transfer_m_per_day = transfer_m_per_day;
        self.wet = transfer_m_per_day > 0.0;
        self
    }
}

/// Smith's (1936) light response, relative to its maximum: u/√(1 + u²) with u
/// the irradiance over the saturation irradiance (Proc. Natl. Acad. Sci. 22,
/// 504-511, doi 10.1073/pnas.22.8.504).
#[inline]
pub(super) fn light_response(relative_irradiance: f64) -> f64 {
    relative_irradiance / sqrt(1.0 + relative_irradiance * relative_irradiance)
}
