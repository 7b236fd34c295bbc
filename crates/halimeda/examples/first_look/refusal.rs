//! Readings that are each possible and yet lead to no answer.

use halimeda::ErrorKind;

/// Readings that are each possible but, together, lead to no answer.
#[derive(Debug)]
pub(crate) struct Refusal {
    pub(crate) section: &'static str,
    pub(crate) reason: String,
}

impl Refusal {
    pub(crate) fn new(section: &'static str, reason: &str) -> Self {
        Self {
            section,
            reason: reason.to_owned(),
        }
    }
}

/// Says which section of the file an error is about.
pub(crate) trait InSection<T> {
    fn in_section(self, section: &'static str) -> Result<T, Refusal>;
}

impl<T> InSection<T> for halimeda::Result<T> {
    fn in_section(self, section: &'static str) -> Result<T, Refusal> {
        self.map_err(|error| Refusal {
            // These two come up in any question about the water.
            section: match error.input() {
                "temperature" => "temperature",
                "practical salinity" => "salinity",
                _ => section,
            },
            reason: error.reason(),
        })
    }
}

/// What is wrong, for the writer of a file.
pub(crate) trait Reason {
    fn reason(&self) -> String;
}

impl Reason for String {
    fn reason(&self) -> String {
        self.clone()
    }
}

impl Reason for halimeda::Error {
    /// Without digits that nobody wrote, and without the library's offer to
    /// extrapolate, which a first look does not.
    fn reason(&self) -> String {
        let rounded = |x: f64| (x * 1e4).round() / 1e4;
        // Pure numbers have their name in brackets for a unit.
        let spaced = |unit: &'static str| match unit.strip_prefix('(') {
            Some(_) => String::new(),
            None => format!(" {unit}"),
        };
        match self.kind() {
            ErrorKind::OutsidePublishedRange {
                input,
                value,
                min,
                max,
                unit,
                relation,
            } => format!(
                "{input} is {}{unit}; {} is known from {} to {}{unit} only",
                rounded(value),
                relation.name(),
                rounded(min),
                rounded(max),
                unit = spaced(unit),
            ),
            ErrorKind::OutOfRange {
                input,
                value,
                min,
                max,
                unit,
            } => format!(
                "{input} is {}{unit}; it must lie between {} and {}{unit}",
                rounded(value),
                rounded(min),
                rounded(max),
                unit = spaced(unit),
            ),
            _ => self.to_string(),
        }
    }
}
