//! What stands there, and what comes round.

use halimeda::process::{FeedComposition, FeedKind};

use super::calendar::Calendar;
use super::log::{quoted, short};
use super::problem::ProblemKind;
use super::section::Section;
use super::unit::Medium;
use super::water;
use crate::{
    Feeding, FoamFractionatorSetup, HarvestPlan, Parameters, Photoperiod, ScreenSetup,
    WaterChangePlan,
};

/// A daily stretch of light.
pub(super) fn light(section: &Section<'_>) -> Photoperiod {
    section.exclude("duration", "end", "each of them gives the other");
    section.require_one("duration", "end");
    let start_hour = section.clock("start");
    let hours = match section.optional_clock("end") {
        Some(end) => {
            let hours = (end - start_hour).rem_euclid(24.0);
            if hours <= 0.0 {
                section.report_contradiction(
                    "end",
                    format!("an end at the start, {}", section.written("end")),
                    "another time, or `duration`: \"0 h\" for never and \"24 h\" for always",
                );
            }
            hours
        }
        None => section.plain("duration"),
    };
    Photoperiod { start_hour, hours }
}

/// The screen; the power of its lamps becomes light as the parameters say.
pub(super) fn screen(
    section: &Section<'_>,
    light: Photoperiod,
    parameters: &Parameters,
) -> ScreenSetup {
    section.exclude("irradiance", "lamp_power", "the power gives the irradiance");
    section.require_one("irradiance", "lamp_power");
    section.exclude(
        "flow",
        "flow_per_width",
        "with the width each of them gives the other",
    );
    section.require_one("flow", "flow_per_width");
    let mut screen = ScreenSetup {
        width_cm: section.plain("width"),
        height_cm: section.plain("height"),
        lit_faces: section.count("lit_faces").unwrap_or_default(),
        irradiance_umol_per_m2_s: f64::NAN,
        flow_l_per_h_per_cm: f64::NAN,
        age_days: section.plain("age"),
        lamp_hours: section.plain("lamp_hours"),
        turf_g_dry_per_m2: section.plain("turf"),
    };
    if section.has("lamp_power") {
        let watts = section.plain("lamp_power");
        let irradiance = parameters.lamp.irradiance(watts, screen.lit_area_m2());
        screen.irradiance_umol_per_m2_s = irradiance;
        check_derived(
            section,
            "lamp_power",
            irradiance,
            1.0,
            3000.0,
            "µmol/m²/s on the screen",
        );
    } else {
        screen.irradiance_umol_per_m2_s = section.plain("irradiance");
    }
    if section.has("flow") {
        let per_width = section.plain("flow") / screen.width_cm;
        screen.flow_l_per_h_per_cm = per_width;
        check_derived(
            section,
            "flow",
            per_width,
            0.0,
            1000.0,
            "L/h/cm of the width",
        );
    } else {
        screen.flow_l_per_h_per_cm = section.plain("flow_per_width");
    }
    if screen.flow_l_per_h_per_cm <= 0.0 && light.hours > 0.0 {
        let key = if section.has("flow") {
            "flow"
        } else {
            "flow_per_width"
        };
        section.report_contradiction(
            key,
            format!(
                "no flow over a screen that is lit {} h a day",
                short(light.hours)
            ),
            "water over it, or a `duration` of \"0 h\": turf in light and air dries out",
        );
    }
    screen
}

/// Refuses a number whose consequence lies outside limits.
fn check_derived(section: &Section<'_>, key: &str, value: f64, low: f64, high: f64, what: &str) {
    if value < low || value > high {
        let found = format!("{}, {} {what}", section.written(key), short(value));
        let expected = format!("{} to {} {what}", short(low), short(high));
        section.report(key, ProblemKind::OutOfRange, found, expected, None);
    }
}

pub(super) fn foam_fractionator(section: &Section<'_>, room_ppm: f64) -> FoamFractionatorSetup {
    let air_co2 = section.optional("air_co2", &Medium::default());
    FoamFractionatorSetup {
        water_l_per_h: section.plain("flow"),
        air_co2_ppm: air_co2.unwrap_or_else(|| {
            section.assume("air_co2", "the room's");
            room_ppm
        }),
    }
}

pub(super) fn feeding(section: &Section<'_>) -> Feeding {
    let composition = section.optional_section("composition");
    let kind = match (section.choice("kind"), composition) {
        (Some("custom"), Some(composition)) => FeedKind::Custom(self::composition(&composition)),
        (Some("custom"), None) => {
            let found = "a feed of your own without its composition";
            let expected = "a table `composition`";
            section.report(
                "composition",
                ProblemKind::MissingKey,
                found,
                expected,
                None,
            );
            FeedKind::default()
        }
        (Some(kind), Some(_)) => {
            let found = format!("a composition of {}", quoted(kind));
            section.report_contradiction("composition", found, "the kind \"custom\" with it");
            FeedKind::default()
        }
        (Some("frozen"), None) => FeedKind::Frozen,
        (Some("dried_macroalgae"), None) => FeedKind::DriedMacroalgae,
        (_, None) | (None, Some(_)) => FeedKind::Pellet,
    };
    Feeding {
        hour: section.clock("time"),
        grams: section.plain("mass"),
        kind,
    }
}

fn composition(section: &Section<'_>) -> FeedComposition {
    let composition = FeedComposition {
        water_fraction: section.plain("water_fraction"),
        protein_fraction_of_dry: section.plain("protein_fraction_of_dry"),
        phosphorus_fraction_of_dry: section.plain("phosphorus_fraction_of_dry"),
        carbon_fraction_of_dry: section.plain("carbon_fraction_of_dry"),
    };
    match composition.per_gram() {
        // A part that could not be read is reported where it stands.
        Err(error) if !error.is_non_finite() => section.report_refused(error.input(), &error),
        _ => {}
    }
    composition
}

pub(super) fn harvest(section: &Section<'_>, calendar: &Calendar) -> HarvestPlan {
    let every_days = section.plain("every");
    HarvestPlan {
        every_days,
        first_day: section
            .optional_moment("first", calendar)
            .unwrap_or(every_days),
        kept_share: section.plain("kept_share"),
        fed_back_share: section.plain("fed_back_share"),
    }
}

pub(super) fn water_change(
    section: &Section<'_>,
    calendar: &Calendar,
    net_volume_l: f64,
    celsius: f64,
    salinity: f64,
) -> WaterChangePlan {
    section.exclude(
        "volume",
        "share",
        "of the net volume each of them gives the other",
    );
    section.require_one("volume", "share");
    let share = match section.optional("volume", &Medium::default()) {
        Some(volume) if volume > net_volume_l => {
            let found = format!(
                "{}, more than the {} L of the system",
                section.written("volume"),
                short(net_volume_l)
            );
            section.report_contradiction("volume", found, "no more than `tank.net_volume`");
            f64::NAN
        }
        Some(volume) => volume / net_volume_l,
        None => section.plain("share"),
    };
    let every_days = section.plain("every");
    WaterChangePlan {
        every_days,
        first_day: section
            .optional_moment("first", calendar)
            .unwrap_or(every_days),
        share,
        water: water::new_water(&section.section("new_water"), celsius, salinity),
    }
}
