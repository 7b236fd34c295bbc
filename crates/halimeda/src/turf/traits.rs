use super::GRAMS_PER_MOL_CARBON;
use crate::parameter::parameters;
use crate::{Error, Result};

parameters! {
    /// What kind of turf grows on the screen.
    ///
    /// The default is green filaments; [`TurfTraits::rigid_macroalga`] is a rigid,
    /// strongly self-shading alga for comparison.
    TurfTraits {
        /// Gross photosynthesis in saturating light at the optimum temperature,
        /// carbon fixed per carbon of biomass.
        max_photosynthesis_per_day = 1.00 in 0.65..1.40 min 1e-3, "1/d",
            "chosen so that yields span Mulbry et al. 2008 (2.5 to 25 g DW m-2 d-1) and Adey et al. 2013, 10.1111/jpy.12056";
        /// Irradiance at which Smith's curve reaches 71 % of its maximum.
        saturation_irradiance_umol_per_m2_s = 150.0 in 50.0..300.0 min 1.0, "µmol m⁻² s⁻¹",
            "filamentous greens, from memory";
        /// Light attenuation by biomass.
        attenuation_m2_per_g_dry = 0.010 in 0.004..0.014 min 1e-5, "m²/g dry",
            "derived from a published Ulva canopy model";
        /// Dark respiration over gross photosynthesis in saturating light.
        respiration_per_max_photosynthesis = 0.08 in 0.05..0.15 min 1e-3, "1",
            "macroalgae, from memory";
        /// Share of gross photosynthesis exuded as dissolved organic carbon.
        exuded_share = 0.08 in 0.01..0.20 max 1.0, "1", "macroalgae, from memory";
        /// Rise of respiration per 10 K.
        respiration_q10 = 2.0 in 1.7..2.4 min 0.1, "1", "plant tissue, from memory";
        /// Temperature below which nothing grows.
        lowest_temperature_celsius = 5.0 in 2.0..8.0, "°C", "from memory";
        /// Temperature of fastest growth.
        optimum_temperature_celsius = 29.0 in 28.0..31.0, "°C",
            "Cladophora optimum 28 to 31 °C in published work";
        /// Temperature above which nothing grows.
        highest_temperature_celsius = 37.0 in 35.0..40.0, "°C", "from memory";
        /// Least nitrogen per carbon with which tissue lives (1.3 % N of dry mass).
        least_nitrogen_per_carbon = 0.037 in 0.030..0.045, "mol/mol",
            "tissue 1.3 to 7 % N of dry mass in published work";
        /// Nitrogen per carbon of replete tissue (5.5 % N of dry mass).
        most_nitrogen_per_carbon = 0.157 in 0.130..0.200, "mol/mol",
            "tissue 1.3 to 7 % N of dry mass in published work";
        /// Least phosphorus per carbon with which tissue lives (0.12 % P of dry mass).
        least_phosphorus_per_carbon = 0.0015 in 0.0010..0.0024, "mol/mol",
            "C:P up to 550:1, Atkinson & Smith 1983, 10.4319/lo.1983.28.3.0568";
        /// Phosphorus per carbon of replete tissue (1.2 % P of dry mass).
        most_phosphorus_per_carbon = 0.0150 in 0.0060..0.0250, "mol/mol",
            "tissue 0.2 to 2 % P of dry mass in published work";
        /// Nitrate uptake of nitrogen-starved tissue in plenty.
        max_nitrate_uptake_per_day = 0.045 in 0.020..0.120, "mol N per mol C per day",
            "of the size that sustains the growth, from memory";
        /// Ammonium uptake of nitrogen-starved tissue in plenty.
        max_ammonium_uptake_per_day = 0.15 in 0.06..0.30, "mol N per mol C per day",
            "two to three times that of nitrate, from memory";
        /// Phosphate uptake of phosphorus-starved tissue in plenty.
        max_phosphate_uptake_per_day = 0.008 in 0.004..0.020, "mol P per mol C per day",
            "of the size that sustains the growth, from memory";
        /// Nitrate at which uptake is half its maximum.
        nitrate_half_saturation_umol_per_kg = 25.0 in 2.0..30.0, "µmol/kg",
            "macroalgae, from memory";
        /// Ammonium at which uptake is half its maximum.
        ammonium_half_saturation_umol_per_kg = 15.0 in 5.0..50.0, "µmol/kg",
            "macroalgae, from memory";
        /// Phosphate at which uptake is half its maximum.
        phosphate_half_saturation_umol_per_kg = 1.0 in 0.5..5.0, "µmol/kg",
            "macroalgae, from memory";
        /// Ammonium at which nitrate uptake is halved.
        ammonium_inhibition_umol_per_kg = 4.0 in 1.0..10.0, "µmol/kg",
            "macroalgae, from memory";
        /// Inorganic carbon at which photosynthesis is half its maximum.
        carbon_half_saturation_umol_per_kg = 800.0 in 300.0..1000.0, "µmol/kg",
            "macroalgae that use bicarbonate, from memory";
        /// Oxygen at which respiration is half its rate in plenty.
        oxygen_half_saturation_umol_per_kg = 5.0 in 2.0..20.0, "µmol/kg",
            "order of magnitude from memory";
        /// Days the holdfast layer lives on a full reserve in the dark.
        reserve_days = 12.0 in 6.0..20.0 min 0.1, "d", "weak, from memory: turf bleaches at the base within one to two weeks of shade";
        /// Rate at which a mat with a spent holdfast layer lets go.
        release_per_day = 0.5 in 0.2..1.0, "1/d", "weak, from memory";
        /// Loss of loose filaments from a healthy mat.
        fragmentation_per_day = 0.004 in 0.001..0.010, "1/d", "weak, from memory";
        /// Rate at which settled turf spreads over bare screen.
        spreading_per_day = 0.35 in 0.20..0.50, "1/d",
            "common practice, no source: a bare screen greens in one to two weeks";
        /// Death of turf that has run dry.
        desiccation_per_day = 3.0 in 1.0..10.0, "1/d",
            "common practice, no source: a screen without water dies within a day";
        /// Carbon in dry mass.
        carbon_per_dry_mass = 0.30 in 0.22..0.38 min 0.01 max 1.0, "g/g", "algal turf with its sediment and diatoms, from memory";
        /// Dry mass in mass drained for a minute.
        dry_per_drained_mass = 0.10 in 0.06..0.20 min 0.01 max 1.0, "g/g", "common practice, no source";
    }
}

impl TurfTraits {
    /// Green filaments, the default.
    #[must_use]
    pub fn green_filament() -> Self {
        Self::default()
    }

    /// A rigid macroalga that shades itself strongly and holds less nutrient per
    /// dry mass, grown in place of turf. Values from memory, for comparison only.
    #[must_use]
    pub fn rigid_macroalga() -> Self {
        Self {
            max_photosynthesis_per_day: 0.45,
            attenuation_m2_per_g_dry: 0.014,
            most_nitrogen_per_carbon: 0.090,
            most_phosphorus_per_carbon: 0.0050,
            max_nitrate_uptake_per_day: 0.03,
            max_ammonium_uptake_per_day: 0.06,
            max_phosphate_uptake_per_day: 0.003,
            reserve_days: 20.0,
            ..Self::default()
        }
    }

    /// Checks that the cardinal temperatures rise and that replete tissue holds more
    /// than starved tissue.
    ///
    /// # Errors
    /// Names the first pair that does not.
    pub fn check_order(&self) -> Result<()> {
        for ((lower, low), (upper, high), reason) in [
            (
                (
                    "lowest_temperature_celsius",
                    self.lowest_temperature_celsius,
                ),
                (
                    "optimum_temperature_celsius",
                    self.optimum_temperature_celsius,
                ),
                "the optimum must lie above the lowest temperature",
            ),
            (
                (
                    "optimum_temperature_celsius",
                    self.optimum_temperature_celsius,
                ),
                (
                    "highest_temperature_celsius",
                    self.highest_temperature_celsius,
                ),
                "the optimum must lie below the highest temperature",
            ),
            (
                ("least_nitrogen_per_carbon", self.least_nitrogen_per_carbon),
                ("most_nitrogen_per_carbon", self.most_nitrogen_per_carbon),
                "replete tissue must hold more nitrogen than starved tissue",
            ),
            (
                (
                    "least_phosphorus_per_carbon",
                    self.least_phosphorus_per_carbon,
                ),
                (
                    "most_phosphorus_per_carbon",
                    self.most_phosphorus_per_carbon,
                ),
                "replete tissue must hold more phosphorus than starved tissue",
            ),
        ] {
            if low >= high {
                return Err(Error::contradictory((lower, low), (upper, high), reason));
            }
        }
        Ok(())
    }

    /// Grams of dry mass that hold one mole of carbon.
    #[must_use]
    pub fn dry_grams_per_mol_carbon(&self) -> f64 {
        GRAMS_PER_MOL_CARBON / self.carbon_per_dry_mass
    }

    /// Growth at a temperature relative to that at the optimum: the cardinal
    /// temperature model with inflection of Rosso, Lobry & Flandrois (1993), J.
    /// Theor. Biol. 162, 447-463, doi 10.1006/jtbi.1993.1099, eq. 1. Zero outside the cardinal
    /// temperatures, one at the optimum.
    #[must_use]
    pub fn temperature_response(&self, celsius: f64) -> f64 {
        let (min, opt, max) = (
            self.lowest_temperature_celsius,
            self.optimum_temperature_celsius,
            self.highest_temperature_celsius,
        );
        // Ordered only if min < opt < max; anything else grows nowhere.
        let ordered = min < opt && opt < max;
        if !ordered || celsius <= min || celsius >= max {
            return 0.0;
        }
        let numerator = (celsius - max) * (celsius - min) * (celsius - min);
        let denominator = (opt - min)
            * ((opt - min) * (celsius - opt) - (opt - max) * (opt + min - 2.0 * celsius));
        (numerator / denominator).clamp(0.0, 1.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::parameter::ParameterSet;

    #[test]
    fn every_default_lies_in_its_range() {
        for p in TurfTraits::PARAMETERS {
            assert!(p.low <= p.default && p.default <= p.high, "{}", p.name);
        }
        TurfTraits::default().check().unwrap();
        TurfTraits::rigid_macroalga().check().unwrap();
        TurfTraits::default().check_order().unwrap();
        TurfTraits::rigid_macroalga().check_order().unwrap();
    }

    #[test]
    fn what_is_out_of_order_is_refused() {
        let d = TurfTraits::default();
        for traits in [
            TurfTraits {
                optimum_temperature_celsius: d.lowest_temperature_celsius,
                ..d
            },
            TurfTraits {
                highest_temperature_celsius: 20.0,
                ..d
            },
            TurfTraits {
                least_nitrogen_per_carbon: 0.2,
                ..d
            },
            TurfTraits {
                most_phosphorus_per_carbon: 0.0,
                ..d
            },
        ] {
            assert!(traits.check_order().unwrap_err().is_contradictory());
        }
    }

    #[test]
    fn temperature_response_peaks_at_the_optimum_and_ends_at_the_cardinals() {
        let t = TurfTraits::default();
        assert!((t.temperature_response(29.0) - 1.0).abs() < 1e-12);
        assert_eq!(t.temperature_response(5.0), 0.0);
        assert_eq!(t.temperature_response(37.0), 0.0);
        assert!(t.temperature_response(25.0) > 0.8);
        let mut previous = 0.0;
        for i in 0..240 {
            let here = t.temperature_response(5.0 + 0.1 * f64::from(i));
            assert!(here >= previous);
            previous = here;
        }
    }
}
