//! Reading the keys of a table by the schema. Every problem goes to the log; what
//! could not be read is NaN or empty, and never leaves the reader, for a log with
//! a problem gives no description.

use halimeda::ErrorKind;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::calendar::Calendar;
use super::literal::{self, NumberError};
use super::log::{Finding, Log, listed, quoted, short};
use super::problem::ProblemKind;
use super::schema::{self, Key, Need, Takes};
use super::suggest::nearest;
use super::unit::{self, Measure, Medium, Unit};

type Value<'d> = Spanned<DeValue<'d>>;

/// A table of the file, or the place of one that is not there.
pub(super) struct Section<'d> {
    pub(super) log: &'d Log<'d>,
    table: Option<&'d DeTable<'d>>,
    /// Where its header is.
    offset: usize,
    keys: &'static [Key],
    path: String,
}

impl<'d> Section<'d> {
    pub(super) fn root(log: &'d Log<'d>, table: &'d DeTable<'d>) -> Self {
        Self::open(log, Some(table), 0, schema::ROOT, String::new())
    }

    fn open(
        log: &'d Log<'d>,
        table: Option<&'d DeTable<'d>>,
        offset: usize,
        keys: &'static [Key],
        path: String,
    ) -> Self {
        let section = Self {
            log,
            table,
            offset,
            keys,
            path,
        };
        for (name, _) in table.into_iter().flatten() {
            if !keys.iter().any(|key| key.name == name.get_ref()) {
                section.report_unknown(name);
            }
        }
        section
    }

    fn report_unknown(&self, name: &Spanned<impl AsRef<str>>) {
        let written = name.get_ref().as_ref();
        let lower = written.to_lowercase();
        let known_as = self.keys.iter().find(|key| key.also.contains(&&*lower));
        let meant = known_as
            .map(|key| key.name.to_owned())
            .or_else(|| schema::elsewhere(written))
            .or_else(|| Some(nearest(written, self.keys.iter().map(|key| key.name))?.to_owned()));
        let expected = format!("one of {}", listed(self.keys.iter().map(|key| key.name)));
        self.log.report(
            name.span().start,
            Finding {
                kind: ProblemKind::UnknownKey,
                key: self.path_of(&quoted(written).replace('`', "")),
                found: format!("the unknown key {}", quoted(written)),
                expected,
                suggestion: meant.map(|meant| format!("did you mean `{meant}`?")),
            },
        );
    }

    pub(super) fn path_of(&self, name: &str) -> String {
        match self.path.as_str() {
            "" => name.to_owned(),
            path => format!("{path}.{name}"),
        }
    }

    /// Name of the table for messages.
    fn title(&self) -> String {
        match self.path.as_str() {
            "" => "the description".to_owned(),
            path => format!("[{path}]"),
        }
    }

    fn key(&self, name: &str) -> Option<&'static Key> {
        let key = self.keys.iter().find(|key| key.name == name);
        if key.is_none() {
            // Keeps what the schema forgot from being read as absent.
            let expected = "a key of the schema";
            self.report(name, ProblemKind::UnknownKey, quoted(name), expected, None);
        }
        key
    }

    fn value(&self, name: &str) -> Option<&'d Value<'d>> {
        let (_, value) = self.table?.iter().find(|(key, _)| key.get_ref() == name)?;
        Some(value)
    }

    pub(super) fn has(&self, name: &str) -> bool {
        self.value(name).is_some()
    }

    /// Line of a key's value, for messages about two keys.
    pub(super) fn line_of(&self, name: &str) -> usize {
        self.log.source.position(self.offset_of(name)).0
    }

    pub(super) fn offset_of(&self, name: &str) -> usize {
        self.value(name).map_or(self.offset, |v| v.span().start)
    }

    /// Reports what is wrong with a key, at its value.
    pub(super) fn report(
        &self,
        name: &str,
        kind: ProblemKind,
        found: impl Into<String>,
        expected: impl Into<String>,
        suggestion: Option<String>,
    ) {
        let finding = Finding {
            kind,
            key: self.path_of(name),
            found: found.into(),
            expected: expected.into(),
            suggestion,
        };
        self.log.report(self.offset_of(name), finding);
    }

    pub(super) fn report_contradiction(
        &self,
        name: &str,
        found: impl Into<String>,
        expected: impl Into<String>,
    ) {
        self.report(name, ProblemKind::Contradictory, found, expected, None);
    }

    /// Reports a refusal by the chemistry.
    pub(super) fn report_refused(&self, name: &str, error: &halimeda::Error) {
        let (kind, expected) = match error.kind() {
            ErrorKind::OutOfRange {
                input,
                value,
                min,
                max,
                unit,
            }
            | ErrorKind::OutsidePublishedRange {
                input,
                value,
                min,
                max,
                unit,
                ..
            } => {
                let [value, min, max] = [value, min, max].map(short);
                let expected = format!("{input} between {min} and {max} {unit}, not {value}");
                (ProblemKind::OutOfRange, expected)
            }
            _ => {
                let expected = format!("what the chemistry allows: {error}");
                (ProblemKind::Contradictory, expected)
            }
        };
        self.report(name, kind, self.written(name), expected, None);
    }

    /// What stands in the file for a key.
    pub(super) fn written(&self, name: &str) -> String {
        self.value(name)
            .map_or_else(|| "nothing".to_owned(), |value| self.shown(value))
    }

    fn shown(&self, value: &Value<'_>) -> String {
        match value.get_ref() {
            DeValue::Table(_) => "a table".to_owned(),
            DeValue::Array(_) => "an array".to_owned(),
            DeValue::String(text) => quoted(text),
            _ => quoted(self.log.source.slice(value.span())),
        }
    }

    /// Records what is assumed for a key that is not there.
    pub(super) fn assume(&self, name: &str, assumed: &'static str) {
        self.log.assume(self.path_of(name), assumed);
    }

    /// Refuses two keys that say the same or exclude each other.
    pub(super) fn exclude(&self, first: &str, second: &str, why: &str) {
        if self.has(first) && self.has(second) {
            let (earlier, later) = match self.offset_of(first) < self.offset_of(second) {
                true => (first, second),
                false => (second, first),
            };
            let line = self.line_of(earlier);
            let found = format!("`{later}` beside `{earlier}` on line {line}");
            self.report_contradiction(later, found, format!("one of the two: {why}"));
        }
    }

    /// Refuses a table that has neither of two keys.
    pub(super) fn require_one(&self, first: &str, second: &str) {
        if self.table.is_some() && !self.has(first) && !self.has(second) {
            let found = format!("neither `{first}` nor `{second}` in {}", self.title());
            self.report(
                first,
                ProblemKind::MissingKey,
                found,
                "one of the two",
                None,
            );
        }
    }

    /// The value of a key, or its default. Reports a required key that is missing,
    /// unless its whole table is.
    fn find(&self, key: &'static Key) -> Found<'d> {
        match (self.value(key.name), key.need) {
            (Some(value), _) => Found::There(value),
            (None, Need::Required) => {
                if self.table.is_some() {
                    let found = format!("no `{}` in {}", key.name, self.title());
                    let expected = describe(key);
                    self.report(key.name, ProblemKind::MissingKey, found, expected, None);
                }
                Found::Nothing
            }
            (None, Need::Default(text)) => {
                self.assume(key.name, text);
                Found::Default(text)
            }
            (None, Need::Without(_)) => Found::Nothing,
        }
    }

    fn report_type(&self, key: &'static Key, value: &Value<'_>) {
        let (found, expected) = (self.shown(value), describe(key));
        self.report(key.name, ProblemKind::WrongType, found, expected, None);
    }

    /// A quantity in the unit of its measure.
    pub(super) fn quantity(&self, name: &str, medium: &Medium) -> f64 {
        self.quantity_and_unit(name, medium)
            .map_or(f64::NAN, |(value, _)| value)
    }

    /// A quantity whose units need no medium.
    pub(super) fn plain(&self, name: &str) -> f64 {
        self.quantity(name, &Medium::default())
    }

    /// A quantity, if its key is there.
    pub(super) fn optional(&self, name: &str, medium: &Medium) -> Option<f64> {
        self.has(name).then(|| self.quantity(name, medium))
    }

    /// A quantity and the name of the unit it is written in.
    pub(super) fn quantity_and_unit(
        &self,
        name: &str,
        medium: &Medium,
    ) -> Option<(f64, &'static str)> {
        let key = self.key(name)?;
        let (measure, limits) = match key.takes {
            Takes::Quantity(measure, low, high) => (measure, (low, high)),
            Takes::SaltDose => (&unit::DOSE, (0.0, schema::MAX_DOSE_MOL_PER_DAY)),
            _ => return None,
        };
        let text = match self.find(key) {
            Found::There(value) => self.quantity_text(key, value)?,
            Found::Default(text) => text.to_owned(),
            Found::Nothing => return None,
        };
        let (number, unit) = self.number_in_unit(key, measure, &text)?;
        let kept = self.kept(key, unit, number, medium)?;
        if kept < limits.0 || kept > limits.1 {
            let limit = |kept| unit.of_kept(kept, medium).map_or_else(String::new, short);
            let expected = format!(
                "{} between {} and {} {}",
                measure.name,
                limit(limits.0),
                limit(limits.1),
                unit.name
            );
            let meant = percent_meant(measure, number, unit);
            let kind = ProblemKind::OutOfRange;
            self.report(key.name, kind, quoted(&text), expected.trim_end(), meant);
            return None;
        }
        Some((kept, unit.name))
    }

    fn kept(&self, key: &Key, unit: &Unit, number: f64, medium: &Medium) -> Option<f64> {
        let kept = unit.to_kept(number, medium);
        if kept.is_none() && !self.log.has_problems() {
            // The medium is unknown only where temperature or salinity are wrong.
            let expected = "a temperature and salinity that the unit can be converted at";
            let found = self.written(key.name);
            self.report(key.name, ProblemKind::Contradictory, found, expected, None);
        }
        kept
    }

    fn quantity_text(&self, key: &'static Key, value: &Value<'_>) -> Option<String> {
        match value.get_ref() {
            DeValue::String(text) => Some(text.clone().into_owned()),
            DeValue::Float(float) if !float.as_str().is_empty() => Some(float.as_str().to_owned()),
            DeValue::Integer(integer) if !integer.as_str().is_empty() => {
                match i128::from_str_radix(integer.as_str(), integer.radix()) {
                    Ok(integer) => Some(integer.to_string()),
                    Err(_) => Some(integer.as_str().to_owned()),
                }
            }
            // The parser has reported a number that is none.
            DeValue::Float(_) | DeValue::Integer(_) => None,
            _ => {
                self.report_type(key, value);
                None
            }
        }
    }

    fn number_in_unit(
        &self,
        key: &'static Key,
        measure: &'static Measure,
        text: &str,
    ) -> Option<(f64, &'static Unit)> {
        let refuse = |kind, expected: String, meant: Option<String>| {
            self.report(key.name, kind, quoted(text), expected, meant);
            None
        };
        let (number, unit) = match literal::number_and_unit(text) {
            Ok(parts) => parts,
            Err(NumberError::NotANumber) => {
                return refuse(ProblemKind::Unreadable, describe(key), None);
            }
            Err(NumberError::NonFinite) => {
                let expected = format!("a finite number; {}", describe(key));
                return refuse(ProblemKind::NonFinite, expected, None);
            }
            Err(NumberError::Separator) => {
                let expected = "digits with a decimal point and no other sign among them";
                return refuse(ProblemKind::Unreadable, expected.to_owned(), None);
            }
        };
        if let Some(unit) = measure.unit(unit) {
            return Some((number, unit));
        }
        let digits = text.trim().strip_suffix(unit).unwrap_or(text).trim();
        let kind = match unit {
            "" => ProblemKind::MissingUnit,
            _ => ProblemKind::UnknownUnit,
        };
        refuse(kind, describe(key), unit_meant(measure, digits, unit))
    }

    /// A whole number.
    pub(super) fn count(&self, name: &str) -> Option<u8> {
        let key = self.key(name)?;
        let Takes::Count(low, high) = key.takes else {
            return None;
        };
        let Found::There(value) = self.find(key) else {
            return None;
        };
        let DeValue::Integer(integer) = value.get_ref() else {
            self.report_type(key, value);
            return None;
        };
        let count = u8::from_str_radix(integer.as_str(), integer.radix()).ok();
        let count = count.filter(|count| (low..=high).contains(count));
        if count.is_none() && !integer.as_str().is_empty() {
            let (found, expected) = (self.shown(value), describe(key));
            self.report(name, ProblemKind::OutOfRange, found, expected, None);
        }
        count
    }

    /// Text of a key and whether it is a default.
    fn text_of(&self, key: &'static Key) -> Option<String> {
        match self.find(key) {
            Found::There(value) => match value.get_ref() {
                DeValue::String(text) => Some(text.clone().into_owned()),
                _ => {
                    self.report_type(key, value);
                    None
                }
            },
            Found::Default(text) => Some(text.to_owned()),
            Found::Nothing => None,
        }
    }

    pub(super) fn text(&self, name: &str) -> Option<String> {
        self.text_of(self.key(name)?)
    }

    /// One of the words that a key takes.
    pub(super) fn choice(&self, name: &str) -> Option<&'static str> {
        let key = self.key(name)?;
        let Takes::Choice(words) = key.takes else {
            return None;
        };
        let text = self.text_of(key)?;
        let word = words.iter().find(|word| **word == text).copied();
        if word.is_none() {
            let meant = nearest(&text, words.iter().copied());
            let meant = meant.map(|meant| format!("did you mean \"{meant}\"?"));
            let kind = ProblemKind::UnknownValue;
            self.report(name, kind, quoted(&text), describe(key), meant);
        }
        word
    }

    /// Text of a string, date or time as it is written.
    fn written_time(&self, key: &'static Key, value: &'d Value<'d>) -> Option<&'d str> {
        match value.get_ref() {
            DeValue::String(text) => Some(text),
            DeValue::Datetime(_) => Some(self.log.source.slice(value.span())),
            _ => {
                self.report_type(key, value);
                None
            }
        }
    }

    /// An hour of the day.
    pub(super) fn clock(&self, name: &str) -> f64 {
        self.optional_clock(name).unwrap_or(f64::NAN)
    }

    pub(super) fn optional_clock(&self, name: &str) -> Option<f64> {
        let key = self.key(name)?;
        let Found::There(value) = self.find(key) else {
            return None;
        };
        let hour = self.written_time(key, value).and_then(|text| {
            let hour = literal::clock_hour(text);
            if hour.is_none() {
                let meant = literal::clock_meant(text);
                let meant = meant.map(|meant| format!("did you mean \"{meant}\"?"));
                let kind = ProblemKind::Unreadable;
                self.report(name, kind, quoted(text), describe(key), meant);
            }
            hour
        });
        Some(hour.unwrap_or(f64::NAN))
    }

    /// Text of a date, if it is there.
    pub(super) fn date_text(&self, name: &str) -> Option<&'d str> {
        let key = self.key(name)?;
        match self.find(key) {
            Found::There(value) => self.written_time(key, value),
            _ => None,
        }
    }

    /// Days since the start, if the key is there.
    pub(super) fn optional_moment(&self, name: &str, calendar: &Calendar) -> Option<f64> {
        let key = self.key(name)?;
        let Found::There(value) = self.find(key) else {
            return None;
        };
        let days = self
            .written_time(key, value)
            .and_then(|text| self.days(key, text, calendar));
        Some(days.unwrap_or(f64::NAN))
    }

    /// Days since the start.
    pub(super) fn moment(&self, name: &str, calendar: &Calendar) -> f64 {
        self.optional_moment(name, calendar).unwrap_or(f64::NAN)
    }

    fn days(&self, key: &'static Key, text: &str, calendar: &Calendar) -> Option<f64> {
        let days = match literal::Moment::parse(text) {
            Some(moment) => match calendar.days(moment) {
                Ok(days) => days,
                Err(expected) => {
                    let kind = ProblemKind::Contradictory;
                    self.report(key.name, kind, quoted(text), expected, None);
                    return None;
                }
            },
            None => {
                let (number, unit) = self.number_in_unit(key, &unit::DAYS, text)?;
                unit.to_kept(number, &Medium::default())?
            }
        };
        if !(0.0..=schema::MAX_DAYS).contains(&days) {
            let expected = format!(
                "a time between the start and {} days later",
                schema::MAX_DAYS
            );
            self.report(
                key.name,
                ProblemKind::OutOfRange,
                quoted(text),
                expected,
                None,
            );
            return None;
        }
        Some(days)
    }

    /// A table; the place of one, which reports nothing more, where it is missing.
    pub(super) fn section(&self, name: &str) -> Self {
        self.optional_section(name).unwrap_or_else(|| Self {
            log: self.log,
            table: None,
            offset: self.offset,
            keys: self.keys_below(name),
            path: self.path_of(name),
        })
    }

    fn keys_below(&self, name: &str) -> &'static [Key] {
        match self.key(name).map(|key| key.takes) {
            Some(Takes::Table(keys) | Takes::Tables(keys)) => keys,
            Some(Takes::SaltDose) => schema::SOLUTION,
            _ => &[],
        }
    }

    /// A table, if it is there.
    pub(super) fn optional_section(&self, name: &str) -> Option<Self> {
        let key = self.key(name)?;
        let Found::There(value) = self.find(key) else {
            return None;
        };
        let DeValue::Table(table) = value.get_ref() else {
            self.report_type(key, value);
            return None;
        };
        let (offset, path) = (value.span().start, self.path_of(name));
        Some(Self::open(
            self.log,
            Some(table),
            offset,
            self.keys_below(name),
            path,
        ))
    }

    /// The tables of a key, in the order of the file.
    pub(super) fn sections(&self, name: &str) -> Vec<Self> {
        let Some(key) = self.key(name) else {
            return Vec::new();
        };
        let Found::There(value) = self.find(key) else {
            return Vec::new();
        };
        let DeValue::Array(array) = value.get_ref() else {
            self.report_type(key, value);
            return Vec::new();
        };
        let mut sections = Vec::new();
        for (i, element) in array.iter().enumerate() {
            let path = format!("{}[{}]", self.path_of(name), i + 1);
            let offset = element.span().start;
            if let DeValue::Table(table) = element.get_ref() {
                let keys = self.keys_below(name);
                sections.push(Self::open(self.log, Some(table), offset, keys, path));
            } else {
                let finding = Finding {
                    kind: ProblemKind::WrongType,
                    key: path,
                    found: self.shown(element),
                    expected: describe(key),
                    suggestion: None,
                };
                self.log.report(offset, finding);
            }
        }
        sections
    }

    /// The tables of parameters, if they are there.
    pub(super) fn parameters(&self, name: &str) -> Option<&'d DeTable<'d>> {
        let key = self.key(name)?;
        let Found::There(value) = self.find(key) else {
            return None;
        };
        match value.get_ref() {
            DeValue::Table(table) => Some(table),
            _ => {
                self.report_type(key, value);
                None
            }
        }
    }

    /// Whether a key holds a table.
    pub(super) fn is_table(&self, name: &str) -> bool {
        self.value(name).is_some_and(|v| v.get_ref().is_table())
    }
}

/// What a table holds for a key.
enum Found<'d> {
    There(&'d Value<'d>),
    Default(&'static str),
    Nothing,
}

/// What a key takes, in words.
fn describe(key: &Key) -> String {
    let takes = match key.takes {
        Takes::Text => "text in quotes".to_owned(),
        Takes::Quantity(measure, low, high) => match measure.units {
            [unit] if unit.name.is_empty() => {
                format!("a number between {} and {}", short(low), short(high))
            }
            _ => {
                let range = format!("{} to {} {}", short(low), short(high), measure.kept_in);
                let (name, units) = (measure.name, measure.unit_names());
                format!("{name} with its unit ({units}) from {}", range.trim_end())
            }
        },
        Takes::Count(low, high) => format!("a whole number from {low} to {high}"),
        Takes::Choice(words) => format!("one of {}", listed(words.iter().copied())),
        Takes::Clock => "a time of day from \"00:00\" to \"23:59\"".to_owned(),
        Takes::Moment => "a time since the start, or a date".to_owned(),
        Takes::Date => "a date".to_owned(),
        Takes::TimeZone => "the name of a time zone".to_owned(),
        Takes::Table(_) => format!("a table `[{}]`", key.name),
        Takes::Tables(_) => format!("tables, each under `[[{}]]`", key.name),
        Takes::SaltDose => format!(
            "the salt per day with its unit ({}), or a table of `volume` and `strength`",
            unit::DOSE.unit_names()
        ),
        Takes::Parameters => "tables of parameters".to_owned(),
    };
    match key.takes {
        Takes::Choice(_) | Takes::Table(_) | Takes::Tables(_) | Takes::Parameters => takes,
        _ => format!("{takes}, such as {}", key.example),
    }
}

/// The quantity that was probably meant by a number with a wrong unit, or none.
fn unit_meant(measure: &Measure, digits: &str, unit: &str) -> Option<String> {
    if measure.is_dimensionless() && measure.units.len() == 1 {
        return Some(format!("write the bare number {digits}"));
    }
    let names = || {
        measure
            .units
            .iter()
            .map(|unit| unit.name)
            .filter(|n| !n.is_empty())
    };
    let longer: Vec<&str> = names()
        .filter(|name| {
            name.strip_prefix(unit)
                .is_some_and(|rest| rest.starts_with(' '))
        })
        .collect();
    let meant = match (unit, longer.as_slice()) {
        ("", _) => vec![names().next()?],
        (_, []) => vec![nearest(unit, names())?],
        _ => longer,
    };
    let meant: Vec<String> = meant
        .into_iter()
        .map(|unit| format!("\"{digits} {unit}\""))
        .collect();
    Some(format!("did you mean {}?", meant.join(" or ")))
}

/// A bare share above one is mostly a percentage.
fn percent_meant(measure: &Measure, number: f64, unit: &Unit) -> Option<String> {
    let is_percentage = unit.name.is_empty() && (1.0..=100.0).contains(&number);
    (is_percentage && measure.unit("%").is_some())
        .then(|| format!("did you mean \"{} %\"?", short(number)))
}
