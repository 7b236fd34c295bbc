//! Limits of a tank's description and schedule.

use halimeda::process::FeedKind;

use crate::error::{Error, Result, within};
use crate::tank::{Event, NewWater, Photoperiod, Schedule, Tank};

impl Tank {
    /// Checks every number against its limits.
    ///
    /// # Errors
    /// Names the first number outside its limits, with value and limits. What
    /// the chemistry limits (temperature, salinity, air) is checked where it is used.
    pub fn check(&self) -> Result<()> {
        let s = &self.screen;
        let w = &self.water;
        for (input, value, min, max) in [
            ("net_volume_l", self.net_volume_l, 1.0, 1e7),
            ("surface_area_m2", self.surface_area_m2, 0.0, 1e5),
            ("overflow_l_per_h", self.overflow_l_per_h, 0.0, 1e7),
            ("rock_area_m2", self.rock_area_m2, 0.0, 1e6),
            ("living_area_m2", self.living_area_m2, 0.0, 1e5),
            ("coral_area_m2", self.coral_area_m2, 0.0, 1e5),
            ("coralline_area_m2", self.coralline_area_m2, 0.0, 1e5),
            ("livestock_grams", self.livestock_grams, 0.0, 1e7),
            ("iron_oxide_grams", self.iron_oxide_grams, 0.0, 1e6),
            (
                "evaporation_l_per_day",
                self.evaporation_l_per_day,
                0.0,
                1e5,
            ),
            ("screen width_cm", s.width_cm, 1.0, 1e4),
            ("screen height_cm", s.height_cm, 1.0, 1e4),
            ("screen lit_faces", f64::from(s.lit_faces), 1.0, 2.0),
            (
                "screen irradiance_umol_per_m2_s",
                s.irradiance_umol_per_m2_s,
                0.0,
                3000.0,
            ),
            (
                "screen flow_l_per_h_per_cm",
                s.flow_l_per_h_per_cm,
                0.0,
                1000.0,
            ),
            ("screen age_days", s.age_days, 0.0, 36_525.0),
            ("screen lamp_hours", s.lamp_hours, 0.0, 1e6),
            ("screen turf_g_dry_per_m2", s.turf_g_dry_per_m2, 0.0, 2000.0),
            (
                "alkalinity_umol_per_kg",
                w.alkalinity_umol_per_kg,
                0.0,
                20_000.0,
            ),
            (
                "inorganic_carbon_umol_per_kg",
                w.inorganic_carbon_umol_per_kg.unwrap_or(1.0),
                1.0,
                20_000.0,
            ),
            ("oxygen_saturation", w.oxygen_saturation, 0.0, 3.0),
            ("ammonia_umol_per_kg", w.ammonia_umol_per_kg, 0.0, 1000.0),
            ("nitrate_umol_per_kg", w.nitrate_umol_per_kg, 0.0, 10_000.0),
            (
                "phosphate_umol_per_kg",
                w.phosphate_umol_per_kg,
                0.0,
                1000.0,
            ),
            ("calcium_umol_per_kg", w.calcium_umol_per_kg, 1.0, 50_000.0),
            (
                "magnesium_umol_per_kg",
                w.magnesium_umol_per_kg,
                1.0,
                200_000.0,
            ),
            (
                "strontium_umol_per_kg",
                w.strontium_umol_per_kg,
                0.0,
                10_000.0,
            ),
            ("detritus_dry_grams", w.detritus_dry_grams, 0.0, 1e6),
        ] {
            within(input, value, min, max)?;
        }
        if let Some(foam) = &self.foam_fractionator {
            within("foam water_l_per_h", foam.water_l_per_h, 0.0, 1e6)?;
            within("foam air_co2_ppm", foam.air_co2_ppm, 0.0, 1e5)?;
        }
        Ok(())
    }
}

impl Photoperiod {
    fn check(&self, start: &'static str, hours: &'static str) -> Result<()> {
        within(start, self.start_hour, 0.0, 24.0)?;
        within(hours, self.hours, 0.0, 24.0)?;
        Ok(())
    }
}

fn check_feeding(grams: f64, kind: FeedKind) -> Result<()> {
    within("feeding grams", grams, 0.0, 1e6)?;
    kind.composition().per_gram().map_err(Error::from)?;
    Ok(())
}

impl NewWater {
    fn check(&self) -> Result<()> {
        for (input, value, max) in [
            (
                "new water alkalinity_umol_per_kg",
                self.alkalinity_umol_per_kg,
                20_000.0,
            ),
            (
                "new water calcium_umol_per_kg",
                self.calcium_umol_per_kg,
                50_000.0,
            ),
            (
                "new water magnesium_umol_per_kg",
                self.magnesium_umol_per_kg,
                200_000.0,
            ),
            (
                "new water strontium_umol_per_kg",
                self.strontium_umol_per_kg,
                10_000.0,
            ),
            (
                "new water nitrate_umol_per_kg",
                self.nitrate_umol_per_kg,
                10_000.0,
            ),
            (
                "new water phosphate_umol_per_kg",
                self.phosphate_umol_per_kg,
                1000.0,
            ),
        ] {
            within(input, value, 0.0, max)?;
        }
        Ok(())
    }
}

impl Schedule {
    /// Checks every number against its limits.
    ///
    /// # Errors
    /// Names the first number outside its limits, with value and limits.
    pub fn check(&self) -> Result<()> {
        self.display_light
            .check("display light start_hour", "display light hours")?;
        self.screen_light
            .check("screen light start_hour", "screen light hours")?;
        for f in &self.feedings {
            within("feeding hour", f.hour, 0.0, 24.0)?;
            check_feeding(f.grams, f.kind)?;
        }
        if let Some(h) = &self.harvest {
            within("harvest every_days", h.every_days, 0.5, 36_525.0)?;
            within("harvest first_day", h.first_day, 0.0, 36_525.0)?;
            within("harvest kept_share", h.kept_share, 0.0, 1.0)?;
            within("harvest fed_back_share", h.fed_back_share, 0.0, 1.0)?;
        }
        if let Some(c) = &self.water_change {
            within("water change every_days", c.every_days, 0.01, 36_525.0)?;
            within("water change first_day", c.first_day, 0.0, 36_525.0)?;
            within("water change share", c.share, 0.0, 1.0)?;
            c.water.check()?;
        }
        if let Some(every) = self.salinity_check_every_days {
            within("salinity_check_every_days", every, 0.01, 36_525.0)?;
        }
        let d = &self.dosing;
        for (input, value, max) in [
            ("bicarbonate_mol_per_day", d.bicarbonate_mol_per_day, 1e3),
            ("carbonate_mol_per_day", d.carbonate_mol_per_day, 1e3),
            ("hydroxide_mol_per_day", d.hydroxide_mol_per_day, 1e3),
            ("calcium_mol_per_day", d.calcium_mol_per_day, 1e3),
            ("magnesium_mol_per_day", d.magnesium_mol_per_day, 1e3),
            ("nitrate_mol_per_day", d.nitrate_mol_per_day, 1e3),
            ("phosphate_mol_per_day", d.phosphate_mol_per_day, 1e3),
            (
                "organic_carbon_mol_per_day",
                d.organic_carbon_mol_per_day,
                1e3,
            ),
            // Saturated limewater holds about 0.02 mol/L.
            ("limewater_mol_per_l", d.limewater_mol_per_l, 0.03),
            ("reactor_mol_per_day", d.reactor_mol_per_day, 1e3),
            (
                "reactor_excess_co2_per_mol",
                d.reactor_excess_co2_per_mol,
                10.0,
            ),
        ] {
            within(input, value, 0.0, max)?;
        }
        if let Some(every) = d.adjusted_every_days {
            within("dosing adjusted_every_days", every, 0.25, 36_525.0)?;
        }
        for e in &self.events {
            within("event day", e.day, 0.0, 36_525.0)?;
            match e.event {
                Event::ScreenFlowDrops { share } => {
                    within("flow share", share, 0.0, 1.0)?;
                }
                Event::FeedingScaled { factor } => {
                    within("feeding factor", factor, 0.0, 100.0)?;
                }
                Event::Harvest {
                    kept_share,
                    fed_back_share,
                } => {
                    within("harvest kept_share", kept_share, 0.0, 1.0)?;
                    within("harvest fed_back_share", fed_back_share, 0.0, 1.0)?;
                }
                Event::NewIronOxide { grams } => {
                    within("iron oxide grams", grams, 0.0, 1e6)?;
                }
                Event::RoomCo2 { ppm } => {
                    within("room co2_ppm", ppm, 0.0, 1e5)?;
                }
                Event::Feeding { grams, kind } => check_feeding(grams, kind)?,
                Event::WaterChange { share, ref water } => {
                    within("water change share", share, 0.0, 1.0)?;
                    water.check()?;
                }
                Event::Dose { grams, .. } => {
                    within("dose grams", grams, 0.0, 1e6)?;
                }
                _ => {}
            }
        }
        Ok(())
    }
}
