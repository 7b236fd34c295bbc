//! What a heading says: `nitrate [mg/L NO3] step=2`.

use halimeda::carbonate::EquilibriumOptions;
use halimeda::dosing::Salt;
use halimeda::process::{FeedComposition, FeedKind};
use halimeda::{AnyPh, PhScale};
use jiff::tz::TimeZone;

use super::Measured;
use super::cell::{Marks, leading_number, plain_number};
use super::clock::TimeForm;
use super::kit::{Kit, kit};
use super::names::{COMPOSITION, FEEDS, GRAVITY, TESTS, salt_of, unknown};
use super::problem::{Finding, LogProblemKind};
use super::scale::{Scale, Turn};
use crate::description::{
    Measure, Medium, TankFile, listed, medium, nearest, quoted, same_unit, unit, water,
};
use halimeda::Water;

/// A column.
#[derive(Debug)]
pub(super) struct Column {
    /// As written.
    pub(super) heading: String,
    /// Text of the unit, as written.
    pub(super) unit: String,
    pub(super) holds: Holds,
}

/// What the cells of a column hold.
#[derive(Debug)]
pub(super) enum Holds {
    Time,
    Date,
    ClockTime,
    Test(Scale, Precision),
    /// With its place among the probes.
    Probe(Scale, usize),
    HarvestWet(f64),
    HarvestDry(f64),
    Feeding(FeedKind, f64),
    /// Litres per unit of the column.
    WaterChange(f64),
    Dose(Salt, f64),
    Event,
    Note,
    /// It is reported once what it would have held.
    Unread(Option<Finding>),
}

impl Holds {
    pub(super) const fn is_numeric(&self) -> bool {
        !matches!(
            self,
            Self::Time | Self::Date | Self::ClockTime | Self::Event | Self::Note | Self::Unread(_)
        )
    }
}

/// How well a test reads, where its heading says so.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct Precision {
    pub(super) step: Option<f64>,
    pub(super) standard_uncertainty: Option<Uncertainty>,
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Uncertainty {
    Absolute(f64),
    Relative(f64),
}

/// A heading taken apart.
struct Heading<'h> {
    name: String,
    unit: Option<&'h str>,
    options: Vec<(&'h str, &'h str)>,
}

fn take_apart(text: &str) -> Option<Heading<'_>> {
    let (name, unit, options) = match text.split_once('[') {
        None => (text, None, ""),
        Some((name, rest)) => {
            let (unit, options) = rest.split_once(']')?;
            (name, Some(unit.trim()), options)
        }
    };
    Some(Heading {
        name: plain(name),
        unit,
        options: arguments(options),
    })
}

/// Lower case, single spaces.
fn plain(name: &str) -> String {
    let name = name.to_lowercase().replace('_', " ");
    name.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// `key=value` pairs, the value up to the next key; a word alone has an empty value.
pub(super) fn arguments(text: &str) -> Vec<(&str, &str)> {
    let mut found: Vec<(&str, &str)> = Vec::new();
    let mut rest = text.trim();
    while !rest.is_empty() {
        let word_end = rest.find(char::is_whitespace).unwrap_or(rest.len());
        let (word, after) = rest.split_at(word_end);
        let Some((key, _)) = word.split_once('=') else {
            found.push((word, ""));
            rest = after.trim_start();
            continue;
        };
        let value = rest.get(key.len() + 1..).unwrap_or_default();
        // The next word with an equals sign begins the next pair.
        let next = value
            .char_indices()
            .filter(|(_, c)| c.is_whitespace())
            .map(|(at, c)| at + c.len_utf8())
            .find(|&at| {
                let word = value.get(at..).unwrap_or_default();
                let word = word.split(char::is_whitespace).next().unwrap_or_default();
                word.contains('=')
            });
        let (value, after) = value.split_at(next.unwrap_or(value.len()));
        found.push((key, value.trim()));
        rest = after;
    }
    found
}

/// What headings are read against.
pub(super) struct Headings<'f> {
    file: &'f TankFile,
    water: Option<Water>,
    medium: Medium,
    /// Every measured column is a probe's.
    all_probes: bool,
    pub(super) probes: Vec<Measured>,
}

impl<'f> Headings<'f> {
    pub(super) fn new(file: &'f TankFile, all_probes: bool) -> Self {
        let tank = &file.tank;
        let water = water(
            tank.temperature_celsius,
            tank.practical_salinity,
            tank.air.pressure_atm,
        );
        Self {
            file,
            medium: medium(water.as_ref()),
            water,
            all_probes,
            probes: Vec::new(),
        }
    }

    pub(super) fn read(&mut self, heading: &str) -> (Column, Option<TimeForm>) {
        let mut form = None;
        let (unit, holds) = match take_apart(heading) {
            Some(apart) => {
                let unit = apart.unit.unwrap_or_default().to_owned();
                let holds = match apart.name.as_str() {
                    "time" => time_form(apart.unit).map(|f| {
                        form = Some(f);
                        Holds::Time
                    }),
                    "date" => time_form(apart.unit).map(|f| {
                        form = Some(f);
                        Holds::Date
                    }),
                    _ => self.holds(&apart),
                };
                (unit, holds)
            }
            None => {
                let expected = "expected the unit between `[` and `]`";
                (
                    String::new(),
                    Err(Finding::new(
                        LogProblemKind::Syntax,
                        quoted(heading),
                        expected,
                    )),
                )
            }
        };
        let column = Column {
            heading: heading.trim().to_owned(),
            unit,
            holds: holds.unwrap_or_else(|finding| Holds::Unread(Some(finding))),
        };
        (column, form)
    }

    fn holds(&mut self, heading: &Heading<'_>) -> Result<Holds, Finding> {
        let name = heading.name.as_str();
        if let Some((_, measured, _)) = TESTS.iter().find(|(test, ..)| *test == name) {
            return self.measured(heading, *measured);
        }
        let unmixed = |holds| match heading.unit {
            None if heading.options.is_empty() => Ok(holds),
            _ => {
                let found = format!("a unit or option for `{name}`");
                Err(Finding::new(
                    LogProblemKind::Contradictory,
                    found,
                    format!("expected `{name}` alone"),
                ))
            }
        };
        match name {
            "clock" => return unmixed(Holds::ClockTime),
            "event" => return unmixed(Holds::Event),
            "note" => return unmixed(Holds::Note),
            _ => {}
        }
        if let Some(kind) = name.strip_prefix("feeding ") {
            let kind = feed(kind, &heading.options)?;
            return Ok(Holds::Feeding(
                kind,
                plain_unit(heading, &unit::MASS, &Medium::default())?,
            ));
        }
        if let Some(salt) = name.strip_prefix("dose ") {
            let salt = salt_of(salt)?;
            no_options(heading)?;
            return Ok(Holds::Dose(salt, dose_unit(heading, salt)?));
        }
        let grams = |heading: &Heading<'_>| {
            no_options(heading)?;
            plain_unit(heading, &unit::MASS, &Medium::default())
        };
        match name {
            "harvest wet" => Ok(Holds::HarvestWet(grams(heading)?)),
            "harvest dry" => Ok(Holds::HarvestDry(grams(heading)?)),
            "water change" => {
                no_options(heading)?;
                let litres = match heading.unit {
                    Some(unit) if same_unit(unit, "%") => 0.01 * self.file.tank.net_volume_l,
                    _ => plain_unit(heading, &unit::VOLUME, &Medium::default())?,
                };
                Ok(Holds::WaterChange(litres))
            }
            _ => Err(unknown(name)),
        }
    }

    fn measured(&mut self, heading: &Heading<'_>, measured: Measured) -> Result<Holds, Finding> {
        let scale = self.scale(heading, measured)?;
        let mut precision = Precision::default();
        let mut is_probe = self.all_probes;
        for (key, value) in &heading.options {
            match *key {
                "probe" if value.is_empty() => is_probe = true,
                "step" => precision.step = Some(positive(key, value)?),
                "uncertainty" => {
                    precision.standard_uncertainty = Some(match value.strip_suffix('%') {
                        Some(percent) => Uncertainty::Relative(0.01 * positive(key, percent)?),
                        None => Uncertainty::Absolute(positive(key, value)?),
                    });
                }
                _ => return Err(unknown_option(key, &["step=", "uncertainty=", "probe"])),
            }
        }
        if is_probe {
            self.probes.push(measured);
            return Ok(Holds::Probe(scale, self.probes.len() - 1));
        }
        Ok(Holds::Test(scale, precision))
    }

    fn scale(&self, heading: &Heading<'_>, measured: Measured) -> Result<Scale, Finding> {
        let kit = kit(measured);
        let limits = self.limits(&kit);
        let scale = |turn, limits| Scale {
            measured,
            limits,
            turn,
        };
        if heading.name == GRAVITY {
            let unit = unit_of(heading, &unit::SPECIFIC_GRAVITY)?;
            return Ok(scale(
                Turn::Gravity(crate::description::gravity_reference(unit.name)),
                limits,
            ));
        }
        if measured == Measured::OxygenSaturation && heading.unit.is_some_and(|u| same_unit(u, "1"))
        {
            return Ok(scale(
                Turn::Linear {
                    shift: 0.0,
                    factor: 1.0,
                },
                limits,
            ));
        }
        let unit = unit_of(heading, kit.measure)?;
        if measured == Measured::Ph {
            let shift = self.ph_shift(unit.name).ok_or_else(unconvertible)?;
            let turn = Turn::Linear { shift, factor: 1.0 };
            return Ok(scale(turn, limits));
        }
        let own = kit.measure.unit(kit.unit).ok_or_else(unconvertible)?;
        if own.name == unit.name {
            let factor = 1.0 / kit.per_unit;
            return Ok(scale(Turn::Linear { shift: 0.0, factor }, limits));
        }
        let turned = |number| {
            let kept = unit.to_kept(number, &self.medium)?;
            Some(own.of_kept(kept, &self.medium)? / kit.per_unit)
        };
        let at_zero = turned(0.0).ok_or_else(unconvertible)?;
        let factor = turned(1.0).ok_or_else(unconvertible)? - at_zero;
        // The units with a shift have it before their factor.
        let shift = if at_zero == 0.0 {
            0.0
        } else {
            at_zero / factor
        };
        Ok(scale(Turn::Linear { shift, factor }, limits))
    }

    fn limits(&self, kit: &Kit) -> (f64, f64) {
        let (low, high) = kit.limits();
        let turned = |kept| {
            let own = kit.measure.unit(kit.unit)?;
            Some(own.of_kept(kept, &self.medium)? / kit.per_unit)
        };
        (turned(low).unwrap_or(low), turned(high).unwrap_or(high))
    }

    /// From a scale of pH to the total one, in the tank's water: the scales differ by
    /// a factor of the hydrogen ion, hence by a difference that is the same for every pH.
    fn ph_shift(&self, scale: &str) -> Option<f64> {
        let scale = match scale {
            "total" => return Some(0.0),
            "free" => PhScale::Free,
            "seawater" => PhScale::Seawater,
            _ => PhScale::Nbs,
        };
        let equilibria = self
            .water?
            .equilibria(&EquilibriumOptions::default())
            .ok()?;
        let ph = AnyPh::new(8.0, scale).ok()?;
        let total = equilibria.convert_any_ph(ph, PhScale::Total).ok()?;
        Some(total.value() - ph.value())
    }
}

fn time_form(unit: Option<&str>) -> Result<TimeForm, Finding> {
    let Some(unit) = unit else {
        return Ok(TimeForm::Written(None));
    };
    if unit.eq_ignore_ascii_case("unix") {
        return Ok(TimeForm::UnixSeconds);
    }
    if let Some(days) = unit::DAYS
        .unit(unit)
        .and_then(|u| u.to_kept(1.0, &Medium::default()))
    {
        return Ok(TimeForm::SinceStart(days));
    }
    let zone = match unit.strip_prefix("UTC").unwrap_or(unit) {
        "" => Some(TimeZone::UTC),
        offset if offset.starts_with(['+', '-']) => jiff::fmt::temporal::DateTimeParser::new()
            .parse_time_zone(offset)
            .ok(),
        name => TimeZone::get(name).ok(),
    };
    zone.map(|zone| TimeForm::Written(Some(zone))).ok_or_else(|| {
        let names: Vec<String> = jiff::tz::db().available().map(|n| n.to_string()).collect();
        let meant = nearest(unit, names.iter().map(String::as_str));
        let expected = "expected the zone of the times, as `Europe/Berlin`, `UTC` or `+01:00`, or the unit of times since the start, `d`, `h`, `min` or `wk`";
        Finding::new(LogProblemKind::UnknownUnit, quoted(unit), expected)
            .meant(meant.map(|meant| format!("did you mean `{meant}`?")))
    })
}

fn unit_of(
    heading: &Heading<'_>,
    measure: &'static Measure,
) -> Result<&'static unit::Unit, Finding> {
    let written = heading.unit.unwrap_or_default();
    if let Some(unit) = measure.unit(written) {
        return Ok(unit);
    }
    let kind = match written {
        "" => LogProblemKind::MissingUnit,
        _ => LogProblemKind::UnknownUnit,
    };
    let found = match written {
        "" => "no unit".to_owned(),
        written => quoted(written),
    };
    let expected = format!(
        "expected the unit of {} in the heading ({})",
        measure.name,
        measure.unit_names()
    );
    let names: Vec<&str> = measure
        .units
        .iter()
        .map(|unit| unit.name)
        .filter(|n| !n.is_empty())
        .collect();
    let longer: Vec<&str> = names
        .iter()
        .copied()
        .filter(|name| {
            name.strip_prefix(written)
                .is_some_and(|rest| rest.starts_with(' '))
        })
        .collect();
    let meant: Vec<&str> = match (written, longer.as_slice()) {
        ("", _) => names.first().copied().into_iter().collect(),
        (_, []) => nearest(written, names.iter().copied())
            .into_iter()
            .collect(),
        _ => longer,
    };
    let meant: Vec<String> = meant
        .iter()
        .map(|unit| format!("`{} [{unit}]`", heading.name))
        .collect();
    let meant = (!meant.is_empty()).then(|| format!("did you mean {}?", meant.join(" or ")));
    Err(Finding::new(kind, found, expected).meant(meant))
}

/// What one unit of a heading is in the measure's own.
fn plain_unit(
    heading: &Heading<'_>,
    measure: &'static Measure,
    medium: &Medium,
) -> Result<f64, Finding> {
    let unit = unit_of(heading, measure)?;
    unit.to_kept(1.0, medium).ok_or_else(unconvertible)
}

/// Grams of a salt per unit of a heading: by mass or by moles.
fn dose_unit(heading: &Heading<'_>, salt: Salt) -> Result<f64, Finding> {
    match heading.unit {
        Some(unit) if same_unit(unit, "mol") => Ok(salt.molar_mass_g_per_mol()),
        Some(unit) if same_unit(unit, "mmol") => Ok(1e-3 * salt.molar_mass_g_per_mol()),
        _ => plain_unit(heading, &unit::MASS, &Medium::default()),
    }
}

fn no_options(heading: &Heading<'_>) -> Result<(), Finding> {
    match heading.options.first() {
        None => Ok(()),
        Some((key, _)) => Err(unknown_option(key, &[])),
    }
}

fn unknown_option(key: &str, known: &[&str]) -> Finding {
    let expected = match known {
        [] => "expected nothing after the unit".to_owned(),
        known => format!(
            "expected after the unit only {}",
            listed(known.iter().copied())
        ),
    };
    Finding::new(LogProblemKind::UnknownName, quoted(key), expected)
}

fn unconvertible() -> Finding {
    let expected =
        "expected a temperature and salinity of the tank that the unit can be converted at";
    Finding::new(LogProblemKind::Contradictory, "this unit", expected)
}

fn positive(key: &str, text: &str) -> Result<f64, Finding> {
    match plain_number(text) {
        Ok(number) if number > 0.0 => Ok(number),
        _ => {
            let expected = "expected a number above zero, in the unit of the column";
            Err(Finding::new(
                LogProblemKind::Unreadable,
                quoted(&format!("{key}={text}")),
                expected,
            ))
        }
    }
}

fn feed(kind: &str, options: &[(&str, &str)]) -> Result<FeedKind, Finding> {
    if kind != "custom" {
        if let Some((key, _)) = options.first() {
            return Err(unknown_option(key, &[]));
        }
        let known = FEEDS.iter().find(|(name, _)| *name == kind);
        return known.map(|(_, kind)| *kind).ok_or_else(|| {
            let names = FEEDS.iter().map(|(name, _)| *name).chain(["custom"]);
            let expected = format!("expected after `feeding` one of {}", listed(names.clone()));
            let meant =
                nearest(kind, names).map(|meant| format!("did you mean `feeding {meant} [g]`?"));
            Finding::new(LogProblemKind::UnknownName, quoted(kind), expected).meant(meant)
        });
    }
    let part = |wanted: &str| {
        let found = options.iter().find(|(key, _)| *key == wanted);
        let value = found.and_then(|(_, value)| share(value));
        value.ok_or_else(|| {
            let expected = format!(
                "expected all of {} after the unit, as in `water_fraction=8 %`",
                listed(COMPOSITION)
            );
            let found = format!("no share for `{wanted}`");
            Finding::new(LogProblemKind::Missing, found, expected)
        })
    };
    if let Some((key, _)) = options.iter().find(|(key, _)| !COMPOSITION.contains(key)) {
        return Err(unknown_option(key, &COMPOSITION));
    }
    let [water, protein, phosphorus, carbon] = COMPOSITION.map(part);
    let composition = FeedComposition {
        water_fraction: water?,
        protein_fraction_of_dry: protein?,
        phosphorus_fraction_of_dry: phosphorus?,
        carbon_fraction_of_dry: carbon?,
    };
    match composition.per_gram() {
        Ok(_) => Ok(FeedKind::Custom(composition)),
        Err(error) => {
            let expected = format!("expected parts that a feed can have: {error}");
            Err(Finding::new(
                LogProblemKind::OutOfRange,
                "this composition",
                expected,
            ))
        }
    }
}

fn share(text: &str) -> Option<f64> {
    let (number, unit) = leading_number(text, Marks::default()).ok()?;
    unit::SHARE
        .unit(unit)?
        .to_kept(number.value, &Medium::default())
}
