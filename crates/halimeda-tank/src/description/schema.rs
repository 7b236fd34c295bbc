//! Every key of a description: what it takes, within which limits, and what is
//! assumed without it. The reader reads by this table and the document is held
//! against it, so that the three cannot drift apart.

use super::unit::{self, Measure};

/// One key of a table.
#[derive(Debug)]
pub(crate) struct Key {
    pub(crate) name: &'static str,
    pub(crate) takes: Takes,
    pub(super) need: Need,
    /// A value as it may stand in a file, in TOML.
    pub(super) example: &'static str,
    /// Other names that people use for it, to be pointed to this one.
    pub(super) also: &'static [&'static str],
}

/// What a key takes.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Takes {
    Text,
    /// A quantity, with its limits in the unit of its measure.
    Quantity(&'static Measure, f64, f64),
    /// A whole number.
    Count(u8, u8),
    /// One of some words.
    Choice(&'static [&'static str]),
    /// Hour and minute of the day.
    Clock,
    /// Time since the start, or a date.
    Moment,
    Date,
    TimeZone,
    Table(&'static [Key]),
    /// Any number of tables.
    Tables(&'static [Key]),
    /// A daily dose of a salt: its mass, or a volume of a solution.
    SaltDose,
    /// Tables of model parameters by group and name.
    Parameters,
}

/// Whether a key must be there.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Need {
    Required,
    /// It is taken to have this value.
    Default(&'static str),
    /// What holds without it.
    Without(&'static str),
}

use Need::{Default, Required, Without};
use Takes::{
    Choice, Clock, Count, Date, Moment, Parameters, Quantity, SaltDose, Table, Tables, Text,
    TimeZone,
};

const fn key(name: &'static str, takes: Takes, need: Need, example: &'static str) -> Key {
    Key {
        name,
        takes,
        need,
        example,
        also: &[],
    }
}

impl Key {
    const fn also(mut self, also: &'static [&'static str]) -> Self {
        self.also = also;
        self
    }
}

/// A measure and the limits within it, in its own unit.
pub(crate) type Limits = (&'static Measure, f64, f64);

const fn within((measure, low, high): Limits) -> Takes {
    Quantity(measure, low, high)
}

pub(crate) const SALINITY_LIMITS: Limits = (&unit::PRACTICAL_SALINITY, 20.0, 42.0);
pub(crate) const ALKALINITY_LIMITS: Limits = (&unit::ALKALINITY, 200.0, 10_000.0);
pub(crate) const AMMONIA_LIMITS: Limits = (&unit::AMMONIA, 0.0, 1000.0);
pub(crate) const NITRATE_LIMITS: Limits = (&unit::NITRATE, 0.0, 10_000.0);
pub(crate) const PHOSPHATE_LIMITS: Limits = (&unit::PHOSPHATE, 0.0, 500.0);
pub(crate) const CALCIUM_LIMITS: Limits = (&unit::CALCIUM, 2000.0, 30_000.0);
pub(crate) const MAGNESIUM_LIMITS: Limits = (&unit::MAGNESIUM, 10_000.0, 120_000.0);
const SALINITY: Takes = within(SALINITY_LIMITS);
const SPECIFIC_GRAVITY: Takes = Quantity(&unit::SPECIFIC_GRAVITY, 1.0, 1.05);
const ALKALINITY: Takes = within(ALKALINITY_LIMITS);
const AMMONIA: Takes = within(AMMONIA_LIMITS);
const NITRATE: Takes = within(NITRATE_LIMITS);
const PHOSPHATE: Takes = within(PHOSPHATE_LIMITS);
const CALCIUM: Takes = within(CALCIUM_LIMITS);
const MAGNESIUM: Takes = within(MAGNESIUM_LIMITS);
const STRONTIUM: Takes = Quantity(&unit::STRONTIUM, 0.0, 1000.0);
const SHARE: Takes = Quantity(&unit::SHARE, 0.0, 1.0);
const CO2: Takes = Quantity(&unit::CARBON_DIOXIDE, 100.0, 20_000.0);
const AREA: Takes = Quantity(&unit::AREA, 0.0, 10_000.0);
const FLOW: Takes = Quantity(&unit::FLOW, 0.0, 1e7);
const INTERVAL: Takes = Quantity(&unit::DAYS, 0.25, MAX_DAYS);

/// Without a measured value.
const REFERENCE: Need = Without("reference composition at the salinity");

/// Ten years: nothing is simulated for longer.
pub(crate) const MAX_DAYS: f64 = 3660.0;

/// More of one salt than any system takes.
pub(super) const MAX_DOSE_MOL_PER_DAY: f64 = 1e3;

/// The whole file.
pub(super) static ROOT: &[Key] = &[
    key("tank", Table(TANK), Required, "{}").also(&["aquarium", "system"]),
    key("air", Table(AIR), Required, "{}").also(&["room"]),
    key("water", Table(WATER), Required, "{}").also(&["start", "readings", "chemistry"]),
    key("display", Table(DISPLAY), Required, "{}").also(&["livestock", "corals"]),
    key("screen", Table(SCREEN), Required, "{}").also(&["turf", "algae"]),
    key("feeding", Tables(FEEDING), Required, "[]").also(&["feedings", "food", "feed"]),
    key(
        "foam_fractionator",
        Table(FOAM_FRACTIONATOR),
        Without("no foam fractionator"),
        "{}",
    )
    .also(&["skimmer", "protein_skimmer"]),
    key("harvest", Table(HARVEST), Without("never harvested"), "{}")
        .also(&["harvests", "scraping"]),
    key(
        "water_change",
        Table(WATER_CHANGE),
        Without("no water changes"),
        "{}",
    )
    .also(&["water_changes"]),
    key(
        "salinity_check",
        Table(SALINITY_CHECK),
        Without("salinity is left as dosing makes it"),
        "{}",
    ),
    key("dosing", Table(DOSING), Without("nothing dosed"), "{}").also(&["dose", "supplements"]),
    key(
        "calcium_reactor",
        Table(CALCIUM_REACTOR),
        Without("no calcium reactor"),
        "{}",
    )
    .also(&["reactor"]),
    key(
        "top_off",
        Table(TOP_OFF),
        Without("evaporation replaced with pure water"),
        "{}",
    )
    .also(&["ato", "topoff", "kalkwasser"]),
    key("event", Tables(EVENT), Without("nothing unplanned"), "[]").also(&["events", "failure"]),
    key("goals", Table(GOALS), Without("no goals"), "{}").also(&["goal", "targets"]),
    key(
        "parameters",
        Parameters,
        Without("every parameter as the model knows it"),
        "{}",
    )
    .also(&["parameter"]),
    key(
        "simulation",
        Table(SIMULATION),
        Without("as its keys say"),
        "{}",
    )
    .also(&["run", "calendar"]),
];

static TANK: &[Key] = &[
    key("name", Text, Default("tank"), r#""Invented reef""#),
    key(
        "net_volume",
        Quantity(&unit::VOLUME, 1.0, 1e7),
        Required,
        r#""180 L""#,
    )
    .also(&["volume", "system_volume", "water_volume"]),
    key(
        "temperature",
        Quantity(&unit::TEMPERATURE, 5.0, 35.0),
        Required,
        r#""25.5 °C""#,
    )
    .also(&["temp"]),
    key(
        "salinity",
        SALINITY,
        Without("from the specific gravity"),
        "35.0",
    )
    .also(&["practical_salinity", "ppt", "psu"]),
    key(
        "specific_gravity",
        SPECIFIC_GRAVITY,
        Without("from the salinity"),
        r#""1.0264 25/25 °C""#,
    )
    .also(&["sg", "gravity"]),
    key("surface_area", AREA, Required, r#""0.55 m²""#).also(&["surface", "water_surface"]),
    key("overflow", FLOW, Default("0 L/h"), r#""1500 L/h""#).also(&["weir", "overflow_flow"]),
    key("rock_area", AREA, Required, r#""6 m²""#).also(&["rock", "rock_surface"]),
    key(
        "iron_oxide",
        Quantity(&unit::MASS, 0.0, 1e6),
        Default("0 g"),
        r#""50 g""#,
    )
    .also(&["gfo", "phosphate_medium"]),
    key(
        "evaporation",
        Quantity(&unit::VOLUME_PER_DAY, 0.0, 1e5),
        Default("0 L/d"),
        r#""2.4 L/d""#,
    ),
];

static AIR: &[Key] = &[
    key("co2", CO2, Required, r#""650 ppm""#).also(&["carbon_dioxide"]),
    key(
        "pressure",
        Quantity(&unit::PRESSURE, 0.5, 1.1),
        Without("from the altitude, else 1 atm"),
        r#""1005 hPa""#,
    )
    .also(&["air_pressure", "barometer"]),
    key(
        "altitude",
        Quantity(&unit::ALTITUDE, -430.0, 5200.0),
        Without("from the pressure"),
        r#""120 m""#,
    )
    .also(&["elevation", "height"]),
];

static WATER: &[Key] = &[
    key("alkalinity", ALKALINITY, Required, r#""8.2 dKH""#).also(&["alk", "kh", "dkh"]),
    key(
        "ph",
        Quantity(&unit::PH, 6.5, 9.5),
        Without("from the inorganic carbon, else in equilibrium with the air"),
        r#""8.15 NBS""#,
    ),
    key(
        "inorganic_carbon",
        Quantity(&unit::INORGANIC_CARBON, 100.0, 10_000.0),
        Without("from the pH, else in equilibrium with the air"),
        r#""2150 µmol/kg""#,
    )
    .also(&["dic", "tco2", "dissolved_inorganic_carbon"]),
    key(
        "oxygen",
        Quantity(&unit::OXYGEN, 0.0, 300.0),
        Default("100 %"),
        r#""6.5 mg/L""#,
    )
    .also(&["o2", "dissolved_oxygen"]),
    key("ammonia", AMMONIA, Default("0 µmol/kg"), r#""0.02 mg/L N""#).also(&[
        "nh3",
        "nh4",
        "tan",
        "ammonium",
        "total_ammonia",
    ]),
    key("nitrate", NITRATE, Required, r#""5 mg/L NO3""#).also(&["no3"]),
    key("phosphate", PHOSPHATE, Required, r#""0.03 mg/L PO4""#).also(&["po4"]),
    key("calcium", CALCIUM, REFERENCE, r#""420 mg/L""#).also(&["ca"]),
    key("magnesium", MAGNESIUM, REFERENCE, r#""1320 mg/L""#).also(&["mg"]),
    key("strontium", STRONTIUM, REFERENCE, r#""8 mg/L""#).also(&["sr"]),
    key(
        "detritus",
        Quantity(&unit::MASS, 0.0, 1e6),
        Default("0 g"),
        r#""15 g""#,
    ),
];

static DISPLAY: &[Key] = &[
    key("living_area", AREA, Required, r#""1.2 m²""#),
    key("coral_area", AREA, Required, r#""0.5 m²""#).also(&["corals"]),
    key("coralline_area", AREA, Default("0 m²"), r#""0.3 m²""#).also(&["coralline"]),
    key(
        "livestock",
        Quantity(&unit::MASS, 0.0, 1e7),
        Required,
        r#""180 g""#,
    )
    .also(&["fish", "animals"]),
    key(
        "light",
        Table(LIGHT),
        Required,
        r#"{ start = "10:30", duration = "10 h" }"#,
    )
    .also(&["photoperiod", "lamp"]),
];

static LIGHT: &[Key] = &[
    key("start", Clock, Required, r#""10:30""#).also(&["on", "from", "begin"]),
    key(
        "duration",
        Quantity(&unit::HOURS, 0.0, 24.0),
        Without("from `end`"),
        r#""10 h""#,
    )
    .also(&["hours", "photoperiod", "length"]),
    key("end", Clock, Without("from `duration`"), r#""20:30""#).also(&["off", "until", "stop"]),
];

static SCREEN: &[Key] = &[
    key(
        "width",
        Quantity(&unit::LENGTH, 1.0, 10_000.0),
        Required,
        r#""30 cm""#,
    ),
    key(
        "height",
        Quantity(&unit::LENGTH, 1.0, 10_000.0),
        Required,
        r#""12 in""#,
    )
    .also(&["length"]),
    key("lit_faces", Count(1, 2), Required, "2").also(&["faces", "sides", "lit_sides"]),
    key(
        "irradiance",
        Quantity(&unit::IRRADIANCE, 1.0, 3000.0),
        Without("from the lamps' power"),
        r#""250 µmol/m²/s""#,
    )
    .also(&["par", "ppfd"]),
    key(
        "lamp_power",
        Quantity(&unit::POWER, 0.1, 1e5),
        Without("from the irradiance"),
        r#""48 W""#,
    )
    .also(&["power", "watts", "wattage"]),
    key(
        "flow",
        FLOW,
        Without("from the flow per width"),
        r#""400 L/h""#,
    ),
    key(
        "flow_per_width",
        Quantity(&unit::FLOW_PER_WIDTH, 0.0, 1000.0),
        Without("from the flow"),
        r#""13 L/h/cm""#,
    ),
    key(
        "age",
        Quantity(&unit::DAYS, 0.0, 3660.0),
        Default("0 d"),
        r#""26 wk""#,
    ),
    key(
        "lamp_hours",
        Quantity(&unit::HOURS, 0.0, 200_000.0),
        Default("0 h"),
        r#""3200 h""#,
    )
    .also(&["lamp_age", "burning_hours"]),
    key(
        "turf",
        Quantity(&unit::MASS_PER_AREA, 0.0, 2000.0),
        Default("0 g/m²"),
        r#""30 g/m²""#,
    )
    .also(&["biomass", "algae"]),
    key(
        "light",
        Table(LIGHT),
        Required,
        r#"{ start = "20:00", duration = "18 h" }"#,
    )
    .also(&["photoperiod", "lamp"]),
];

static FOAM_FRACTIONATOR: &[Key] = &[
    key(
        "flow",
        Quantity(&unit::FLOW, 0.0, 1e6),
        Required,
        r#""600 L/h""#,
    )
    .also(&["water_flow"]),
    key("air_co2", CO2, Without("the room's"), r#""420 ppm""#).also(&["co2"]),
];

static FEEDING: &[Key] = &[
    key("time", Clock, Required, r#""12:30""#).also(&["at", "hour", "clock"]),
    key(
        "mass",
        Quantity(&unit::MASS, 0.0, 1e6),
        Required,
        r#""3.5 g""#,
    )
    .also(&["amount", "grams", "weight"]),
    key(
        "kind",
        Choice(&["pellet", "frozen", "dried_macroalgae", "custom"]),
        Required,
        r#""pellet""#,
    )
    .also(&["type", "food"]),
    key(
        "composition",
        Table(COMPOSITION),
        Without("as usual for the kind"),
        "{}",
    ),
];

static COMPOSITION: &[Key] = &[
    key("water_fraction", SHARE, Required, r#""8 %""#).also(&["moisture", "water"]),
    key("protein_fraction_of_dry", SHARE, Required, r#""48 %""#).also(&["protein"]),
    key("phosphorus_fraction_of_dry", SHARE, Required, r#""1.3 %""#).also(&["phosphorus"]),
    key("carbon_fraction_of_dry", SHARE, Required, r#""45 %""#).also(&["carbon"]),
];

static HARVEST: &[Key] = &[
    key("every", INTERVAL, Required, r#""9 d""#).also(&["interval", "every_days"]),
    key(
        "first",
        Moment,
        Without("one interval after the start"),
        r#""21 d""#,
    )
    .also(&["start"]),
    key("kept_share", SHARE, Required, r#""20 %""#).also(&["kept", "left"]),
    key("fed_back_share", SHARE, Default("0 %"), r#""10 %""#).also(&["fed_back"]),
];

static WATER_CHANGE: &[Key] = &[
    key("every", INTERVAL, Required, r#""14 d""#).also(&["interval", "every_days"]),
    key(
        "first",
        Moment,
        Without("one interval after the start"),
        r#""14 d""#,
    )
    .also(&["start"]),
    key(
        "volume",
        Quantity(&unit::VOLUME, 0.0, 1e7),
        Without("from the share"),
        r#""18 L""#,
    )
    .also(&["amount"]),
    key("share", SHARE, Without("from the volume"), r#""10 %""#),
    key(
        "new_water",
        Table(NEW_WATER),
        Required,
        r#"{ alkalinity = "7.8 dKH" }"#,
    )
    .also(&["water", "mix"]),
];

static SALINITY_CHECK: &[Key] =
    &[key("every", INTERVAL, Required, r#""30 d""#).also(&["interval", "every_days"])];

static NEW_WATER: &[Key] = &[
    key(
        "salinity",
        SALINITY,
        Without("from the specific gravity, else the tank's"),
        "35.0",
    ),
    key(
        "specific_gravity",
        SPECIFIC_GRAVITY,
        Without("from the salinity"),
        r#""1.0264 25/25 °C""#,
    )
    .also(&["sg", "gravity"]),
    key("alkalinity", ALKALINITY, Required, r#""7.8 dKH""#).also(&["alk", "kh", "dkh"]),
    key("calcium", CALCIUM, REFERENCE, r#""430 mg/L""#).also(&["ca"]),
    key("magnesium", MAGNESIUM, REFERENCE, r#""1300 mg/L""#).also(&["mg"]),
    key("strontium", STRONTIUM, REFERENCE, r#""8 mg/L""#).also(&["sr"]),
    key(
        "nitrate",
        NITRATE,
        Default("0 µmol/kg"),
        r#""0.2 mg/L NO3""#,
    )
    .also(&["no3"]),
    key(
        "phosphate",
        PHOSPHATE,
        Default("0 µmol/kg"),
        r#""0.01 mg/L PO4""#,
    )
    .also(&["po4"]),
];

static DOSING: &[Key] = &[
    key(
        "sodium_bicarbonate",
        SaltDose,
        Without("none"),
        r#""4 g/d""#,
    )
    .also(&["baking_soda", "bicarbonate", "alkalinity"]),
    key(
        "sodium_carbonate",
        SaltDose,
        Without("none"),
        r#"{ volume = "25 mL/d", strength = "70 g/L" }"#,
    )
    .also(&["soda_ash", "carbonate"]),
    key(
        "sodium_hydroxide",
        SaltDose,
        Without("none"),
        r#""10 mmol/d""#,
    )
    .also(&["hydroxide"]),
    key("calcium_chloride", SaltDose, Without("none"), r#""2 g/d""#),
    key(
        "calcium_chloride_dihydrate",
        SaltDose,
        Without("none"),
        r#""3 g/d""#,
    )
    .also(&["calcium"]),
    key(
        "magnesium_chloride_hexahydrate",
        SaltDose,
        Without("none"),
        r#""1 g/d""#,
    )
    .also(&["magnesium_chloride", "magnesium"]),
    key(
        "magnesium_sulfate_heptahydrate",
        SaltDose,
        Without("none"),
        r#""0.5 g/d""#,
    )
    .also(&["magnesium_sulfate", "epsom_salt"]),
    key("sodium_nitrate", SaltDose, Without("none"), r#""0.1 g/d""#).also(&["nitrate"]),
    key(
        "potassium_nitrate",
        SaltDose,
        Without("none"),
        r#""0.1 g/d""#,
    ),
    key(
        "calcium_nitrate_tetrahydrate",
        SaltDose,
        Without("none"),
        r#""0.1 g/d""#,
    )
    .also(&["calcium_nitrate"]),
    key(
        "monosodium_phosphate",
        SaltDose,
        Without("none"),
        r#""5 mg/d""#,
    )
    .also(&["phosphate"]),
    key(
        "disodium_phosphate",
        SaltDose,
        Without("none"),
        r#""5 mg/d""#,
    ),
    key(
        "monopotassium_phosphate",
        SaltDose,
        Without("none"),
        r#""5 mg/d""#,
    ),
    key(
        "dipotassium_phosphate",
        SaltDose,
        Without("none"),
        r#""5 mg/d""#,
    ),
    key(
        "organic_carbon",
        Quantity(&unit::ORGANIC_CARBON, 0.0, 1e3),
        Without("none"),
        r#""20 mmol C/d""#,
    )
    .also(&["carbon", "vinegar", "ethanol", "vodka"]),
    key(
        "adjusted_every",
        INTERVAL,
        Without("doses stay as they are"),
        r#""1 wk""#,
    )
    .also(&["tested_every"]),
];

/// A solution that is dosed, in place of the mass of its salt.
pub(super) static SOLUTION: &[Key] = &[
    key(
        "volume",
        Quantity(&unit::VOLUME_PER_DAY, 0.0, 1e6),
        Required,
        r#""25 mL/d""#,
    ),
    key(
        "strength",
        Quantity(&unit::STRENGTH, 0.0, 2000.0),
        Required,
        r#""70 g/L""#,
    )
    .also(&["concentration"]),
];

static CALCIUM_REACTOR: &[Key] = &[
    key(
        "flow",
        Quantity(&unit::VOLUME_PER_DAY, 0.0, 1e6),
        Required,
        r#""20 L/d""#,
    )
    .also(&["effluent_flow"]),
    key(
        "effluent_alkalinity",
        Quantity(&unit::ALKALINITY, 500.0, 30_000.0),
        Required,
        r#""30 dKH""#,
    )
    .also(&["alkalinity"]),
    key(
        "effluent_ph",
        Quantity(&unit::PH, 5.5, 8.0),
        Required,
        r#""6.5 NBS""#,
    )
    .also(&["ph"]),
];

static TOP_OFF: &[Key] = &[
    // Saturated at 0 °C, where most dissolves.
    key(
        "limewater",
        Quantity(&unit::LIMEWATER, 0.0, 0.024),
        Without("pure water"),
        r#""1.2 g/L""#,
    )
    .also(&["kalkwasser", "calcium_hydroxide"]),
];

/// What can happen; see `events`.
pub(crate) static WHAT: &[&str] = &[
    "screen_lamp_fails",
    "screen_lamp_repaired",
    "screen_flow_drops",
    "screen_flow_restored",
    "pump_stops",
    "pump_restored",
    "feeding_stops",
    "feeding_resumes",
    "feeding_scaled",
    "harvests_stop",
    "harvests_resume",
    "keeper_leaves",
    "keeper_returns",
    "top_off_stops",
    "top_off_restored",
    "harvest",
    "new_screen",
    "new_screen_lamp",
    "new_iron_oxide",
    "room_co2",
];

pub(crate) static EVENT: &[Key] = &[
    key("at", Moment, Required, r#""30 d""#).also(&["day", "on", "date", "time", "from", "start"]),
    key("what", Choice(WHAT), Required, r#""screen_lamp_fails""#).also(&["event", "kind", "type"]),
    key(
        "until",
        Moment,
        Without("until another event ends it"),
        r#""33.5 d""#,
    )
    .also(&["to", "end"]),
    key("flow_left", SHARE, Default("0 %"), r#""30 %""#),
    key(
        "factor",
        Quantity(&unit::MULTIPLE, 0.0, 20.0),
        Without("only for `feeding_scaled`"),
        "1.5",
    ),
    key(
        "kept_share",
        SHARE,
        Without("only for `harvest`"),
        r#""20 %""#,
    ),
    key("fed_back_share", SHARE, Default("0 %"), r#""100 %""#),
    key(
        "mass",
        Quantity(&unit::MASS, 0.0, 1e6),
        Without("only for `new_iron_oxide`"),
        r#""50 g""#,
    ),
    key("co2", CO2, Without("only for `room_co2`"), r#""1200 ppm""#),
];

static GOALS: &[Key] = &[
    key(
        "nitrate",
        Table(NITRATE_BAND),
        Without("no goal"),
        r#"{ low = "1 mg/L NO3", high = "5 mg/L NO3" }"#,
    )
    .also(&["no3"]),
    key(
        "phosphate",
        Table(PHOSPHATE_BAND),
        Without("no goal"),
        r#"{ low = "0.02 mg/L PO4", high = "0.1 mg/L PO4" }"#,
    )
    .also(&["po4"]),
    key(
        "ph_swing",
        Quantity(&unit::PH_DIFFERENCE, 0.01, 2.0),
        Without("no goal"),
        "0.25",
    ),
    key(
        "night_oxygen",
        Quantity(&unit::OXYGEN, 10.0, 120.0),
        Without("no goal"),
        r#""85 %""#,
    )
    .also(&["oxygen"]),
    key(
        "alkalinity_drift",
        Quantity(&unit::ALKALINITY_DRIFT, 0.1, 1000.0),
        Without("no goal"),
        r#""0.3 dKH/wk""#,
    ),
];

static NITRATE_BAND: &[Key] = &[
    key("low", NITRATE, Required, r#""1 mg/L NO3""#).also(&["floor", "min", "from"]),
    key("high", NITRATE, Required, r#""5 mg/L NO3""#).also(&["ceiling", "max", "to"]),
];

static PHOSPHATE_BAND: &[Key] = &[
    key("low", PHOSPHATE, Required, r#""0.02 mg/L PO4""#).also(&["floor", "min", "from"]),
    key("high", PHOSPHATE, Required, r#""0.1 mg/L PO4""#).also(&["ceiling", "max", "to"]),
];

static SIMULATION: &[Key] = &[
    key(
        "start",
        Date,
        Without("days are counted, not dated"),
        "2026-01-15",
    )
    .also(&["date", "start_date"]),
    key(
        "time_zone",
        TimeZone,
        Without("dates with an offset are refused"),
        r#""Europe/Berlin""#,
    )
    .also(&["timezone", "zone"]),
    key(
        "horizon",
        Quantity(&unit::DAYS, 1.0, MAX_DAYS),
        Default("90 d"),
        r#""365 d""#,
    )
    .also(&["length", "duration", "days"]),
];

/// Calls `f` with the path and key of every key below a table; tables that may
/// stand several times have `[]` after their name.
pub(super) fn walk(keys: &'static [Key], path: &str, f: &mut dyn FnMut(&str, &'static Key)) {
    for key in keys {
        let path = match path {
            "" => key.name.to_owned(),
            path => format!("{path}.{}", key.name),
        };
        f(&path, key);
        match key.takes {
            Table(keys) => walk(keys, &path, f),
            Tables(keys) => walk(keys, &format!("{path}[]"), f),
            _ => {}
        }
    }
}

/// The path at which a name is a key of another table, if it is of just one.
pub(super) fn elsewhere(name: &str) -> Option<String> {
    let mut paths = Vec::new();
    walk(ROOT, "", &mut |path, key| {
        if key.name == name {
            paths.push(path.to_owned());
        }
    });
    match paths.as_slice() {
        [path] => Some(path.clone()),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use super::*;
    use crate::description::log::short;
    use crate::description::{Problem, ProblemKind, TankFile};

    const DOCUMENT: &str = include_str!("SCHEMA.md");

    /// Name of a table as it stands in a file and in the document.
    fn title(path: &str) -> String {
        match path.strip_suffix("[]") {
            Some(path) => format!("[[{path}]]"),
            None => format!("[{}]", path.replace("[]", "")),
        }
    }

    /// Keys by the title of their table.
    fn tables() -> BTreeMap<String, Vec<&'static Key>> {
        let mut tables: BTreeMap<String, Vec<&'static Key>> = BTreeMap::new();
        walk(ROOT, "", &mut |path, key| {
            let table = path.rsplit_once('.').map(|(table, _)| title(table));
            let table = table.unwrap_or_else(|| "file".to_owned());
            tables.entry(table).or_default().push(key);
        });
        tables.insert("dose".to_owned(), SOLUTION.iter().collect());
        tables
    }

    fn code(text: &str) -> String {
        format!("`{text}`")
    }

    /// What the document says of a key, before its meaning.
    fn row(key: &Key) -> String {
        let none = String::new();
        let (value, limits) = match key.takes {
            Takes::Text => ("text".to_owned(), none),
            Takes::Quantity(measure, low, high) => {
                let range = format!("{} to {} {}", short(low), short(high), measure.kept_in);
                (measure.name.to_owned(), range.trim_end().to_owned())
            }
            Takes::Count(low, high) => ("whole number".to_owned(), format!("{low} to {high}")),
            Takes::Choice(words) if words == WHAT => ("one of the events below".to_owned(), none),
            Takes::Choice(words) => {
                let words: Vec<String> = words.iter().map(|word| code(word)).collect();
                (format!("one of {}", words.join(", ")), none)
            }
            Takes::Clock => ("time of day".to_owned(), none),
            Takes::Moment => (
                "time since the start, or date".to_owned(),
                format!("0 to {MAX_DAYS} d"),
            ),
            Takes::Date => ("date".to_owned(), none),
            Takes::TimeZone => ("IANA time zone".to_owned(), none),
            Takes::Table(_) => ("table".to_owned(), none),
            Takes::Tables(_) => ("tables".to_owned(), none),
            Takes::SaltDose => (
                "dose".to_owned(),
                format!("0 to {MAX_DOSE_MOL_PER_DAY} mol/d"),
            ),
            Takes::Parameters => ("tables of parameters".to_owned(), none),
        };
        let need = match key.need {
            Need::Required => "**required**".to_owned(),
            Need::Default(text) => code(text),
            Need::Without(text) => text.to_owned(),
        };
        // Of a table, only one that is written in a line.
        let example = match key.example {
            "{}" | "[]" => String::new(),
            example => code(example),
        };
        let name = code(key.name);
        format!("| {name} | {value} | {limits} | {need} | {example} |").replace("|  |", "| |")
    }

    /// Rows of the document by the title of their table; a heading may name several.
    fn documented() -> BTreeMap<String, Vec<&'static str>> {
        let mut rows: BTreeMap<String, Vec<&'static str>> = BTreeMap::new();
        let mut titles: Vec<String> = Vec::new();
        for line in DOCUMENT.lines() {
            if let Some(heading) = line.strip_prefix("### ") {
                titles = heading
                    .split('`')
                    .skip(1)
                    .step_by(2)
                    .map(str::to_owned)
                    .collect();
            } else if line.starts_with("| `") {
                for title in &titles {
                    rows.entry(title.clone()).or_default().push(line);
                }
            }
        }
        rows
    }

    #[test]
    fn the_document_has_every_key_and_no_other() {
        let documented = documented();
        let mut missing = Vec::new();
        let tables = tables();
        for (title, keys) in &tables {
            let rows = documented.get(title).map(Vec::as_slice).unwrap_or_default();
            for key in keys {
                let row = row(key);
                if !rows.iter().any(|line| line.starts_with(&row)) {
                    missing.push(format!("{title} {row}"));
                }
            }
            if rows.len() > keys.len() {
                missing.push(format!(
                    "{title} has {} rows for {} keys",
                    rows.len(),
                    keys.len()
                ));
            }
        }
        for title in documented
            .keys()
            .filter(|title| !tables.contains_key(*title))
        {
            missing.push(format!("{title} is no table"));
        }
        assert!(missing.is_empty(), "\n{}", missing.join("\n"));
    }

    #[test]
    fn the_document_has_every_unit() {
        // Those of other callers, in `crate::units`, are not of the description.
        let other = |measure: &Measure| {
            !DOCUMENT.contains(&format!("| {} | ", measure.name))
                && !tables().values().flatten().any(|key| {
                    matches!(key.takes, Takes::Quantity(taken, ..) if std::ptr::eq(taken, measure))
                })
        };
        for measure in unit::MEASURES.iter().filter(|measure| !other(measure)) {
            let units = measure.units.iter().map(|unit| match unit.name {
                "" => "bare number".to_owned(),
                name => code(name),
            });
            let row = format!(
                "| {} | {} |",
                measure.name,
                units.collect::<Vec<_>>().join(", ")
            );
            assert!(DOCUMENT.contains(&row), "{row}");
        }
    }

    #[test]
    fn every_event_is_in_the_document() {
        for what in WHAT {
            assert!(DOCUMENT.contains(&format!("| `{what}` |")), "{what}");
        }
    }

    /// A description that uses every table, with one key set to a value.
    fn description_with(path: &str, value: toml::Value) -> String {
        let complete = include_str!("../../tests/data/complete.toml");
        let mut file: toml::Table = complete.parse().unwrap();
        let (tables, key) = path.rsplit_once('.').unwrap_or(("", path));
        let mut table = &mut file;
        for name in tables.split('.').filter(|name| !name.is_empty()) {
            table = match name.strip_suffix("[]") {
                None => table[name].as_table_mut().unwrap(),
                Some(name) => {
                    let tables = table[name].as_array_mut().unwrap();
                    let has_key = |t: &toml::Value| t.get(key).is_some();
                    let index = tables.iter().position(has_key).unwrap_or(0);
                    tables[index].as_table_mut().unwrap()
                }
            };
        }
        table.insert(key.to_owned(), value);
        file.to_string()
    }

    /// Path of a problem's key, wherever among its like the table stands.
    fn path_of(problem: &Problem) -> String {
        let mut parts = problem.key().split(['[', ']']);
        let first = parts.next().unwrap().to_owned();
        // Every second part is the number of a table.
        first
            + &parts
                .skip(1)
                .step_by(2)
                .fold(String::new(), |all, part| all + "[]" + part)
    }

    fn problems(description: &str) -> Vec<Problem> {
        let read = TankFile::from_toml(description);
        read.map_or_else(|error| error.problems().to_vec(), |_| Vec::new())
    }

    fn every_key(f: &mut dyn FnMut(&str, &'static Key)) {
        walk(ROOT, "", f);
        walk(SOLUTION, "dosing.sodium_carbonate", f);
    }

    /// What the schema lists and the reader forgets would be accepted unread.
    #[test]
    fn the_reader_reads_every_key() {
        every_key(&mut |path, key| {
            let problems = problems(&description_with(path, true.into()));
            let read = |problem: &Problem| match problem.kind() {
                ProblemKind::WrongType => path_of(problem) == path,
                // Of two keys that exclude each other the problem is at the later one.
                ProblemKind::Contradictory => problem.to_string().contains(&code(key.name)),
                _ => false,
            };
            assert!(problems.iter().any(read), "{path}: {problems:?}");
        });
    }

    #[test]
    fn every_example_is_a_value_of_its_key() {
        every_key(&mut |path, key| {
            let example: toml::Table = format!("x = {}", key.example).parse().unwrap();
            let problems = problems(&description_with(path, example["x"].clone()));
            // It may not go with the rest of the description.
            let refused = |problem: &Problem| {
                path_of(problem) == path && problem.kind() != ProblemKind::Contradictory
            };
            assert!(!problems.iter().any(refused), "{path}: {problems:?}");
        });
    }

    #[test]
    fn no_name_stands_for_two_keys_of_a_table() {
        for (title, keys) in tables() {
            let mut names: Vec<&str> = keys
                .iter()
                .flat_map(|key| key.also.iter().copied().chain([key.name]))
                .collect();
            let count = names.len();
            names.sort_unstable();
            names.dedup();
            assert_eq!(names.len(), count, "{title}");
        }
    }
}
