#![doc = include_str!("SCHEMA.md")]

mod calendar;
mod dosing;
pub(crate) mod events;
mod goals;
pub(crate) mod literal;
mod log;
mod overrides;
mod problem;
pub(crate) mod schema;
mod section;
mod setup;
mod source;
mod suggest;
pub(crate) mod unit;
mod water;

use jiff::civil::Date;
use jiff::tz::TimeZone;
use toml::de::DeTable;

use self::calendar::Calendar;
use self::log::Log;
use self::section::Section;
use self::source::Source;
use self::water::Readings;
use crate::{Parameters, Schedule, Setup, Tank};

pub(crate) use self::log::{listed, quoted, short};
pub(crate) use self::suggest::nearest;
pub(crate) use self::unit::{Measure, Medium, same_unit};
pub(crate) use self::water::{gravity_reference, medium, water};

pub use self::goals::{Band, Goals};
pub use self::log::Assumption;
pub use self::overrides::ParameterOverride;
pub use self::problem::{DescriptionError, Problem, ProblemKind};

/// What a description file says.
#[derive(Debug, Clone, PartialEq)]
pub struct TankFile {
    /// What stands there.
    pub tank: Tank,
    /// What comes round, and what happens once.
    pub schedule: Schedule,
    /// What the keeper wants.
    pub goals: Goals,
    /// Parameters of the model that the file sets, by their position.
    pub parameter_overrides: Vec<ParameterOverride>,
    /// Day whose midnight is time 0; none where days are only counted.
    pub start: Option<Date>,
    /// Zone whose clock the schedule goes by.
    pub time_zone: Option<TimeZone>,
    /// How far ahead to look, d.
    pub horizon_days: f64,
    /// What the file leaves open and is assumed in its place.
    pub assumptions: Vec<Assumption>,
}

impl TankFile {
    /// Reads a description, as it lies in a file, by the schema of
    /// [this module](self).
    ///
    /// ```
    /// use halimeda_tank::description::TankFile;
    /// let file = TankFile::from_toml(include_str!("../../examples/invented_reef.toml"))?;
    /// assert_eq!(file.tank.net_volume_l, 200.0);
    /// # Ok::<(), halimeda_tank::description::DescriptionError>(())
    /// ```
    ///
    /// # Errors
    /// Everything that is wrong with the file, each with its place, what was found
    /// and what was expected:
    ///
    /// ```
    /// use halimeda_tank::description::{ProblemKind, TankFile};
    /// let error = TankFile::from_toml("[tank]\nnet_volme = \"180 L\"\n").unwrap_err();
    /// let misspelt = error.problems().iter().find(|p| p.kind() == ProblemKind::UnknownKey);
    /// let misspelt = misspelt.unwrap();
    /// assert_eq!((misspelt.line(), misspelt.column()), (2, 1));
    /// assert_eq!(misspelt.suggestion(), Some("did you mean `net_volume`?"));
    /// ```
    pub fn from_toml(file: impl AsRef<[u8]>) -> Result<Self, DescriptionError> {
        let source = Source::new(file.as_ref())?;
        let (document, broken) = DeTable::parse_recoverable(source.text());
        let log = Log::new(if broken.is_empty() {
            source
        } else {
            source.outlined()
        });
        log.report_syntax(&broken);
        let file = read(&Section::root(&log, document.get_ref()));
        let (problems, assumptions) = log.into_parts();
        if problems.is_empty() {
            Ok(Self {
                assumptions,
                ..file
            })
        } else {
            Err(DescriptionError::new(problems))
        }
    }

    /// The tank with its schedule.
    #[must_use]
    pub fn setup(&self) -> Setup {
        Setup {
            tank: self.tank.clone(),
            schedule: self.schedule.clone(),
        }
    }

    /// The model's parameters, with those that the file sets.
    #[must_use]
    pub fn parameters(&self) -> Parameters {
        with_overrides(&self.parameter_overrides)
    }
}

fn with_overrides(overrides: &[ParameterOverride]) -> Parameters {
    overrides
        .iter()
        .fold(Parameters::default(), |parameters, set| {
            parameters.with_value(set.index, set.value)
        })
}

fn read(root: &Section<'_>) -> TankFile {
    let simulation = root.section("simulation");
    let calendar = Calendar::read(&simulation);
    let horizon_days = simulation.plain("horizon");
    let parameter_overrides = root
        .parameters("parameters")
        .map(|tables| overrides::overrides(root.log, tables))
        .unwrap_or_default();
    let parameters = with_overrides(&parameter_overrides);

    let stands = root.section("tank");
    let air = water::air(&root.section("air"));
    let temperature_celsius = stands.plain("temperature");
    stands.require_one("salinity", "specific_gravity");
    let salinity = water::salinity(&stands).unwrap_or(f64::NAN);
    let net_volume_l = stands.plain("net_volume");
    let evaporation_l_per_day = stands.plain("evaporation");
    let body = water::water(temperature_celsius, salinity, air.pressure_atm);
    let medium = water::medium(body.as_ref());
    let readings = Readings {
        section: &root.section("water"),
        salinity,
        medium,
    };
    let (start, state) = water::initial(&readings, body.as_ref(), air.co2_ppm);

    let display = root.section("display");
    let display_light = setup::light(&display.section("light"));
    let screen_section = root.section("screen");
    let screen_light = setup::light(&screen_section.section("light"));
    let schedule = Schedule {
        display_light,
        screen_light,
        feedings: root
            .sections("feeding")
            .iter()
            .map(setup::feeding)
            .collect(),
        harvest: root
            .optional_section("harvest")
            .map(|s| setup::harvest(&s, &calendar)),
        water_change: root.optional_section("water_change").map(|s| {
            setup::water_change(&s, &calendar, net_volume_l, temperature_celsius, salinity)
        }),
        salinity_check_every_days: root
            .optional_section("salinity_check")
            .map(|s| s.plain("every")),
        dosing: dosing::dosing(root, &medium, state.as_ref(), evaporation_l_per_day),
        events: events::events(
            &root.sections("event"),
            &calendar,
            air.co2_ppm,
            horizon_days,
        ),
    };
    let tank = Tank {
        name: stands.text("name").unwrap_or_default(),
        net_volume_l,
        temperature_celsius,
        practical_salinity: salinity,
        water: start,
        air,
        surface_area_m2: stands.plain("surface_area"),
        overflow_l_per_h: stands.plain("overflow"),
        rock_area_m2: stands.plain("rock_area"),
        living_area_m2: display.plain("living_area"),
        coral_area_m2: display.plain("coral_area"),
        coralline_area_m2: display.plain("coralline_area"),
        livestock_grams: display.plain("livestock"),
        iron_oxide_grams: stands.plain("iron_oxide"),
        foam_fractionator: root
            .optional_section("foam_fractionator")
            .map(|s| setup::foam_fractionator(&s, air.co2_ppm)),
        evaporation_l_per_day,
        screen: setup::screen(&screen_section, screen_light, &parameters),
    };
    if tank.coral_area_m2 + tank.coralline_area_m2 > tank.living_area_m2 {
        display.report_contradiction(
            "living_area",
            format!(
                "{}, less than corals and coralline algae together",
                display.written("living_area")
            ),
            "the area of all that photosynthesises, they among it",
        );
    }
    if tank.evaporation_l_per_day > tank.net_volume_l {
        stands.report_contradiction(
            "evaporation",
            format!(
                "{}, more than the whole system",
                stands.written("evaporation")
            ),
            "less per day than `tank.net_volume`",
        );
    }
    let goals = root
        .optional_section("goals")
        .map(|s| goals::goals(&s, &medium))
        .unwrap_or_default();
    check(root, &tank, &schedule);
    TankFile {
        tank,
        schedule,
        goals,
        parameter_overrides,
        start: calendar.start,
        time_zone: calendar.time_zone,
        horizon_days,
        assumptions: Vec::new(),
    }
}

/// Holds the result against the limits of the simulation, should one of them be
/// narrower than the reader's.
fn check(root: &Section<'_>, tank: &Tank, schedule: &Schedule) {
    if root.log.has_problems() {
        return;
    }
    for checked in [tank.check(), schedule.check()] {
        if let Err(error) = checked {
            let expected = "a tank that can be simulated";
            let found = error.to_string();
            root.report("", ProblemKind::OutOfRange, found, expected, None);
        }
    }
}
