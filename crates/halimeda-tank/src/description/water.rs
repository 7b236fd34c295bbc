//! What is dissolved, and what it takes to convert it.

use halimeda::carbonate::{CarbonateState, EquilibriumOptions, Known};
use halimeda::gas::content_at_saturation;
use halimeda::water::{SpecificGravity, SpecificGravityReference};
use halimeda::{
    AirPressure, Alkalinity, AnyPh, Composition, Content, DryMoleFractionCo2, Extrapolation,
    PercentSaturation, PhScale, PracticalSalinity, Temperature, Water, carbonate::Bases, species,
};

use super::section::Section;
use super::unit::Medium;
use crate::{InitialWater, NewWater, RoomAir};

/// The water that the readings of a table are of.
pub(super) struct Readings<'a, 'd> {
    pub(super) section: &'a Section<'d>,
    pub(super) salinity: f64,
    pub(super) medium: Medium,
}

impl Readings<'_, '_> {
    fn content(&self, name: &str) -> f64 {
        self.section.quantity(name, &self.medium)
    }

    /// A major ion, of the reference composition unless measured.
    fn ion(&self, name: &str, of: fn(&Composition, PracticalSalinity) -> f64) -> f64 {
        if let Some(measured) = self.section.optional(name, &self.medium) {
            return measured;
        }
        self.section
            .assume(name, "of the reference composition at the salinity");
        PracticalSalinity::new(self.salinity).map_or(f64::NAN, |s| of(&Composition::REFERENCE, s))
    }

    fn calcium(&self) -> f64 {
        self.ion("calcium", |c, s| c.calcium(s).umol_per_kg())
    }

    fn magnesium(&self) -> f64 {
        self.ion("magnesium", |c, s| c.magnesium(s).umol_per_kg())
    }

    fn strontium(&self) -> f64 {
        self.ion("strontium", |c, s| c.strontium(s).umol_per_kg())
    }
}

/// Practical salinity from either of its two keys, if one is there.
pub(super) fn salinity(section: &Section<'_>) -> Option<f64> {
    section.exclude(
        "salinity",
        "specific_gravity",
        "each of them gives the other",
    );
    if section.has("salinity") {
        return Some(section.plain("salinity"));
    }
    if !section.has("specific_gravity") {
        return None;
    }
    Some(from_specific_gravity(section).unwrap_or(f64::NAN))
}

fn from_specific_gravity(section: &Section<'_>) -> Option<f64> {
    let name = "specific_gravity";
    let (value, unit) = section.quantity_and_unit(name, &Medium::default())?;
    let salinity = SpecificGravity::new(value, gravity_reference(unit))
        .and_then(|sg| sg.practical_salinity(Extrapolation::Refuse))
        .map(|reading| reading.salinity().value());
    match salinity {
        Ok(salinity) if (20.0..=42.0).contains(&salinity) => Some(salinity),
        Ok(salinity) => {
            let found = format!("{}, a salinity of {salinity:.1}", section.written(name));
            let expected = "the specific gravity of water of salinity 20 to 42";
            let kind = super::ProblemKind::OutOfRange;
            section.report(name, kind, found, expected, None);
            None
        }
        Err(error) => {
            section.report_refused(name, &error);
            None
        }
    }
}

/// The temperatures that a unit of specific gravity names.
pub(crate) fn gravity_reference(unit: &str) -> SpecificGravityReference {
    match unit {
        "20/20 °C" => SpecificGravityReference::AT_20_20,
        "15/15 °C" => SpecificGravityReference::AT_15_15,
        "60/60 °F" => SpecificGravityReference::AT_60F_60F,
        "20/4 °C" => SpecificGravityReference::AT_20_4,
        "15/4 °C" => SpecificGravityReference::AT_15_4,
        _ => SpecificGravityReference::AT_25_25,
    }
}

/// The water of the tank; none where temperature, salinity or pressure are wrong.
pub(crate) fn water(celsius: f64, salinity: f64, air_atm: f64) -> Option<Water> {
    let temperature = Temperature::from_celsius(celsius).ok()?;
    let salinity = PracticalSalinity::new(salinity).ok()?;
    let pressure = AirPressure::from_atm(air_atm).ok()?;
    Some(Water::new(temperature, salinity).with_air_pressure(pressure))
}

pub(crate) fn medium(water: Option<&Water>) -> Medium {
    let full = PercentSaturation::from_percent(100.0).ok();
    let oxygen = water
        .zip(full)
        .and_then(|(w, full)| content_at_saturation::<species::Oxygen>(full, w).ok());
    Medium {
        density: water.and_then(|w| w.density().ok()),
        saturated_oxygen_umol_per_kg: oxygen.map(|o| o.value().umol_per_kg()),
        grams_per_mol: None,
    }
}

/// The room's air.
pub(super) fn air(section: &Section<'_>) -> RoomAir {
    section.exclude(
        "pressure",
        "altitude",
        "the pressure is that at the tank, whatever its altitude; a weather report's is that at \
         sea level",
    );
    let pressure_atm = if section.has("pressure") {
        section.plain("pressure")
    } else if section.has("altitude") {
        let at_altitude = AirPressure::at_altitude_m(section.plain("altitude"));
        at_altitude.map_or(f64::NAN, AirPressure::atm)
    } else {
        section.assume("pressure", "1 atm");
        1.0
    };
    RoomAir {
        co2_ppm: section.plain("co2"),
        pressure_atm,
    }
}

/// What is dissolved at the start, and the carbonate state it is in.
pub(super) fn initial(
    readings: &Readings<'_, '_>,
    water: Option<&Water>,
    co2_ppm: f64,
) -> (InitialWater, Option<CarbonateState>) {
    let section = readings.section;
    section.exclude(
        "ph",
        "inorganic_carbon",
        "together with the alkalinity each of them gives the other",
    );
    let given_ph = given_ph(section, "ph");
    let given_carbon = section.optional("inorganic_carbon", &readings.medium);
    let start = InitialWater {
        alkalinity_umol_per_kg: readings.content("alkalinity"),
        inorganic_carbon_umol_per_kg: given_carbon,
        oxygen_saturation: readings.content("oxygen") / 100.0,
        ammonia_umol_per_kg: readings.content("ammonia"),
        nitrate_umol_per_kg: readings.content("nitrate"),
        phosphate_umol_per_kg: readings.content("phosphate"),
        calcium_umol_per_kg: readings.calcium(),
        magnesium_umol_per_kg: readings.magnesium(),
        strontium_umol_per_kg: readings.strontium(),
        detritus_dry_grams: section.plain("detritus"),
    };
    let known_by = match (section.has("ph"), section.has("inorganic_carbon")) {
        (true, _) => "ph",
        (_, true) => "inorganic_carbon",
        _ => {
            section.assume("inorganic_carbon", "in equilibrium with the room's air");
            "alkalinity"
        }
    };
    let known = match (given_ph, given_carbon) {
        (Some(ph), _) => Some(Known::Ph(ph)),
        (None, Some(carbon)) => Content::from_umol_per_kg(carbon)
            .ok()
            .map(Known::InorganicCarbon),
        (None, None) => None,
    };
    let unread = known.is_none() && known_by != "alkalinity";
    let state = water
        .filter(|_| !unread)
        .and_then(|water| solved(&start, water, known, co2_ppm));
    match state {
        Some(Ok(state)) => {
            let start = InitialWater {
                inorganic_carbon_umol_per_kg: known.map(|_| state.inorganic_carbon().umol_per_kg()),
                ..start
            };
            (start, Some(state))
        }
        Some(Err(error)) => {
            section.report_refused(known_by, &error);
            (start, None)
        }
        None => (start, None),
    }
}

/// The carbonate state at the start; none where an input is already reported.
fn solved(
    start: &InitialWater,
    water: &Water,
    known: Option<Known>,
    co2_ppm: f64,
) -> Option<halimeda::Result<CarbonateState>> {
    let alkalinity = Alkalinity::from_umol_per_kg(start.alkalinity_umol_per_kg).ok()?;
    let calcium = Content::from_umol_per_kg(start.calcium_umol_per_kg).ok()?;
    let bases = Bases {
        phosphate: Content::from_umol_per_kg(start.phosphate_umol_per_kg).ok()?,
        ammonia: Content::from_umol_per_kg(start.ammonia_umol_per_kg).ok()?,
        ..Bases::NONE
    };
    let co2 = DryMoleFractionCo2::from_ppm(co2_ppm).ok()?;
    let water = water.with_composition(Composition::REFERENCE.with_calcium(calcium));
    let solve = || {
        let equilibria = water
            .equilibria(&EquilibriumOptions::default())?
            .with_bases(bases)?;
        match known {
            Some(known) => equilibria.solve(alkalinity, known),
            None => equilibria.under_air(alkalinity, co2),
        }
    };
    Some(solve())
}

/// A pH with the scale that is its unit.
pub(super) fn given_ph(section: &Section<'_>, name: &str) -> Option<AnyPh> {
    if !section.has(name) {
        return None;
    }
    let (value, unit) = section.quantity_and_unit(name, &Medium::default())?;
    let scale = match unit {
        "total" => PhScale::Total,
        "free" => PhScale::Free,
        "seawater" => PhScale::Seawater,
        _ => PhScale::Nbs,
    };
    AnyPh::new(value, scale).ok()
}

/// Freshly mixed water; readings of it are taken at the tank's temperature.
pub(super) fn new_water(section: &Section<'_>, celsius: f64, tank_salinity: f64) -> NewWater {
    let salinity = salinity(section).unwrap_or_else(|| {
        section.assume("salinity", "the tank's");
        tank_salinity
    });
    let water = water(celsius, salinity, 1.0);
    let readings = Readings {
        section,
        salinity,
        medium: medium(water.as_ref()),
    };
    NewWater {
        practical_salinity: salinity,
        alkalinity_umol_per_kg: readings.content("alkalinity"),
        calcium_umol_per_kg: readings.calcium(),
        magnesium_umol_per_kg: readings.magnesium(),
        strontium_umol_per_kg: readings.strontium(),
        nitrate_umol_per_kg: readings.content("nitrate"),
        phosphate_umol_per_kg: readings.content("phosphate"),
    }
}
