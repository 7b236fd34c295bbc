use crate::parameter::parameters;
use crate::real::exp;

parameters! {
    /// What of a lamp's power reaches the screen as light for photosynthesis.
    Lamp {
        /// Photons (400-700 nm) per joule of electricity.
        efficacy_umol_per_joule = 2.7 in 1.7..4.3, "µmol/J",
            "660 nm LEDs 4.1 to 4.5 in good fixtures, Kusuma et al. 2020, 10.1038/s41438-020-0283-7; 1.7 in older ones, Nelson & Bugbee 2014, 10.1371/journal.pone.0099010";
        /// Share of the photons that falls on the screen.
        share_on_screen = 0.55 in 0.35..0.80 max 1.0, "1", "common practice, no source";
        /// Worth of the lamp's photons against white ones.
        photon_worth = 0.95 in 0.90..1.00, "1", "red photons count 0.9 to 1.0 of white, from memory";
        /// Burning hours until 70 % of the light is left.
        hours_to_70_percent = 50000.0 in 25000.0..60000.0 min 1.0, "h", "usual L70 rating of LED fixtures";
    }
}

/// −ln 0.7: the decay that leaves 70 %.
const LN_70_PERCENT: f64 = 0.356_674_943_938_732_4;

impl Lamp {
    /// Mean irradiance on each lit face, µmol m⁻² s⁻¹, of a new lamp.
    ///
    /// `watts` over all faces together, `lit_area_m2` all faces together.
    #[must_use]
    pub fn irradiance(&self, watts: f64, lit_area_m2: f64) -> f64 {
        watts * self.efficacy_umol_per_joule * self.share_on_screen / lit_area_m2
    }

    /// Share of the new lamp's light left after burning for `hours`.
    #[must_use]
    pub fn remaining(&self, hours: f64) -> f64 {
        exp(-LN_70_PERCENT * hours / self.hours_to_70_percent)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_lamp_fades_to_its_rating() {
        let lamp = Lamp::default();
        assert!((lamp.remaining(50_000.0) - 0.7).abs() < 1e-12);
        assert!((lamp.irradiance(50.0, 0.25) - 50.0 * 2.7 * 0.55 / 0.25).abs() < 1e-9);
    }
}
