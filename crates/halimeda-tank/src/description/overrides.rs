use halimeda::parameter::ParameterInfo;
use serde::{Deserialize, Serialize};
use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::literal::number_and_unit;
use super::log::{Finding, Log, listed, quoted, short};
use super::problem::ProblemKind;
use super::suggest::nearest;
use super::unit::same_unit;
use crate::Parameters;

/// A model parameter that the description sets: its value, and the range in
/// which an ensemble may vary it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct ParameterOverride {
    /// Position in [`Parameters`].
    pub index: usize,
    /// Value, in the unit of the parameter.
    pub value: f64,
    /// Lower end of the range; the value itself where the description fixes it.
    pub low: f64,
    /// Upper end of the range.
    pub high: f64,
}

/// Keys of a parameter that is given with a range.
const RANGE_KEYS: [&str; 3] = ["value", "low", "high"];

/// Reads the tables of parameters.
pub(super) fn overrides(log: &Log<'_>, groups: &DeTable<'_>) -> Vec<ParameterOverride> {
    let mut read = Vec::new();
    for (group, table) in groups {
        let path = format!("parameters.{}", short_name(group.get_ref()));
        let known = Parameters::infos().map(|(known, _)| known);
        if !known.clone().any(|known| known == group.get_ref()) {
            report_unknown(log, group, &path, "group of parameters", known);
            continue;
        }
        let DeValue::Table(table) = table.get_ref() else {
            let expected = format!("a table `[{path}]`");
            report(log, table, &path, ProblemKind::WrongType, expected, None);
            continue;
        };
        for (name, value) in table {
            let path = format!("{path}.{}", short_name(name.get_ref()));
            let of_group = Parameters::infos()
                .enumerate()
                .filter(|(_, (known, _))| known == group.get_ref())
                .map(|(index, (_, info))| (index, info));
            match of_group
                .clone()
                .find(|(_, info)| info.name == name.get_ref())
            {
                Some((index, info)) => {
                    let parameter = Parameter {
                        log,
                        path,
                        index,
                        info,
                    };
                    read.extend(parameter.read(value));
                }
                None => {
                    let known = of_group.map(|(_, info)| info.name);
                    report_unknown(log, name, &path, "parameter", known);
                }
            }
        }
    }
    read.sort_by_key(|parameter| parameter.index);
    read
}

/// One parameter of the model, and where the file sets it.
struct Parameter<'a> {
    log: &'a Log<'a>,
    path: String,
    index: usize,
    info: &'static ParameterInfo,
}

impl Parameter<'_> {
    fn read(&self, value: &Spanned<DeValue<'_>>) -> Option<ParameterOverride> {
        let DeValue::Table(table) = value.get_ref() else {
            let value = self.number(value)?;
            return Some(self.within(value, value, value));
        };
        for (key, _) in table {
            if !RANGE_KEYS.contains(&key.get_ref().as_ref()) {
                let path = format!("{}.{}", self.path, short_name(key.get_ref()));
                report_unknown(
                    self.log,
                    key,
                    &path,
                    "key of a parameter",
                    RANGE_KEYS.into_iter(),
                );
            }
        }
        let entry = |name| {
            let mut entries = table.iter();
            entries
                .find(|(key, _)| key.get_ref() == name)
                .map(|(_, value)| value)
        };
        let set = entry("value").map(|v| self.number(v).unwrap_or(f64::NAN));
        match (entry("low"), entry("high")) {
            (Some(low), Some(high)) => {
                let (low, high) = (self.number(low)?, self.number(high)?);
                let middle = set.unwrap_or(self.info.default);
                if middle < low || middle > high || low > high {
                    let found = format!(
                        "the range {} to {} about {}",
                        short(low),
                        short(high),
                        short(middle)
                    );
                    let expected = "low, value and high in this order; without a value it is the \
                                    parameter's default";
                    self.report(value, ProblemKind::Contradictory, found, expected);
                }
                Some(self.within(middle, low, high))
            }
            (None, None) if set.is_some() => set.map(|value| self.within(value, value, value)),
            _ => {
                let found = "a table without both of `low` and `high`";
                let expected = "`low` and `high`, or the value alone";
                self.report(value, ProblemKind::MissingKey, found, expected);
                None
            }
        }
    }

    const fn within(&self, value: f64, low: f64, high: f64) -> ParameterOverride {
        ParameterOverride {
            index: self.index,
            value,
            low,
            high,
        }
    }

    fn number(&self, value: &Spanned<DeValue<'_>>) -> Option<f64> {
        let unit = self.info.unit;
        let expected = match is_dimensionless(unit) {
            true => format!("a number, such as {}", short(self.info.default)),
            false => format!(
                "a number of {unit}, such as \"{} {unit}\"",
                short(self.info.default)
            ),
        };
        let text = match value.get_ref() {
            DeValue::String(text) => text.as_ref(),
            DeValue::Float(float) => float.as_str(),
            DeValue::Integer(integer) if integer.radix() == 10 => integer.as_str(),
            _ => {
                report(
                    self.log,
                    value,
                    &self.path,
                    ProblemKind::WrongType,
                    expected,
                    None,
                );
                return None;
            }
        };
        let (number, written) = match number_and_unit(text) {
            Ok(parts) => parts,
            Err(_) => {
                let kind = ProblemKind::Unreadable;
                report(self.log, value, &self.path, kind, expected, None);
                return None;
            }
        };
        let bare = written.is_empty() && is_dimensionless(unit);
        if !bare && !same_unit(written, unit) {
            let kind = match written {
                "" => ProblemKind::MissingUnit,
                _ => ProblemKind::UnknownUnit,
            };
            let meant = match is_dimensionless(unit) {
                true => format!("did you mean {}?", short(number)),
                false => format!("did you mean \"{} {unit}\"?", short(number)),
            };
            report(self.log, value, &self.path, kind, expected, Some(meant));
            return None;
        }
        if let Err(error) = Parameters::default().with_value(self.index, number).check() {
            let kind = ProblemKind::OutOfRange;
            report(self.log, value, &self.path, kind, error.to_string(), None);
            return None;
        }
        Some(number)
    }

    fn report(
        &self,
        at: &Spanned<DeValue<'_>>,
        kind: ProblemKind,
        found: impl Into<String>,
        expected: &str,
    ) {
        let finding = Finding {
            kind,
            key: self.path.clone(),
            found: found.into(),
            expected: expected.to_owned(),
            suggestion: None,
        };
        self.log.report(at.span().start, finding);
    }
}

/// Whether a unit cancels, as of a share of mass.
fn is_dimensionless(unit: &str) -> bool {
    unit == "1"
        || unit
            .split_once('/')
            .is_some_and(|(above, below)| above == below)
}

/// A key of the file in a path.
fn short_name(name: &str) -> String {
    quoted(name).trim_matches('`').to_owned()
}

fn report(
    log: &Log<'_>,
    value: &Spanned<DeValue<'_>>,
    path: &str,
    kind: ProblemKind,
    expected: String,
    suggestion: Option<String>,
) {
    let found = quoted(log.source.slice(value.span()));
    let finding = Finding {
        kind,
        key: path.to_owned(),
        found,
        expected,
        suggestion,
    };
    log.report(value.span().start, finding);
}

fn report_unknown<'k>(
    log: &Log<'_>,
    name: &Spanned<impl AsRef<str>>,
    path: &str,
    what: &str,
    known: impl Iterator<Item = &'k str> + Clone,
) {
    let written = name.get_ref().as_ref();
    let meant = nearest(written, known.clone());
    let mut known: Vec<&str> = known.collect();
    known.dedup();
    let finding = Finding {
        kind: ProblemKind::UnknownKey,
        key: path.to_owned(),
        found: format!("the unknown {what} {}", quoted(written)),
        expected: format!("one of {}", listed(known)),
        suggestion: meant.map(|meant| format!("did you mean `{meant}`?")),
    };
    log.report(name.span().start, finding);
}
