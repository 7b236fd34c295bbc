//! Numbers in sentences.

use crate::quantiles::Quantiles;

/// Three significant digits, fewer zeros.
pub(crate) fn number(x: f64) -> String {
    if !x.is_finite() {
        return "beyond what was followed".to_owned();
    }
    let size = if x == 0.0 {
        0.0
    } else {
        x.abs().log10().floor()
    };
    let decimals = (2.0 - size).clamp(0.0, 4.0) as usize;
    let text = format!("{x:.decimals$}");
    let text = if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.')
    } else {
        &text
    };
    if text == "-0" {
        "0".to_owned()
    } else {
        text.to_owned()
    }
}

/// A number with its unit.
pub(crate) fn with_unit(x: f64, unit: &str) -> String {
    format!("{} {unit}", number(x)).trim_end().to_owned()
}

/// Median with the 5 to 95 % range.
pub(crate) fn range(q: &Quantiles, unit: &str) -> String {
    let text = format!(
        "{} ({} to {}) {unit}",
        number(q.p50),
        number(q.p5),
        number(q.p95)
    );
    text.trim_end().to_owned()
}

/// A time in days, in hours if short.
pub(crate) fn duration(days: f64) -> String {
    if days < 2.0 {
        with_unit((24.0 * days * 10.0).round() / 10.0, "h")
    } else {
        with_unit((days * 10.0).round() / 10.0, "days")
    }
}

/// An hour of the day.
pub(crate) fn clock(hour: f64) -> String {
    let minutes = (60.0 * hour).round().rem_euclid(1440.0);
    format!("{:02}:{:02}", (minutes / 60.0).floor(), minutes % 60.0)
}

/// A share as a percentage.
pub(crate) fn percent(share: f64) -> String {
    format!("{} %", number((100.0 * share).round()))
}

/// Words at the beginning of a sentence.
pub(crate) fn capitalised(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

/// "a, b and c".
pub(crate) fn list(words: &[String]) -> String {
    match words {
        [] => "nothing".to_owned(),
        [one] => one.clone(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_read_well() {
        for (x, text) in [
            (0.0, "0"),
            (-0.00001, "0"),
            (0.0352, "0.0352"),
            (2.0, "2"),
            (2.345, "2.35"),
            (23.45, "23.4"),
            (234.5, "234"),
            (12345.0, "12345"),
            (-3.1, "-3.1"),
        ] {
            assert_eq!(number(x), text);
        }
        assert_eq!(list(&["a".into(), "b".into(), "c".into()]), "a, b and c");
        assert_eq!(percent(0.334), "33 %");
        assert_eq!(capitalised("nitrate"), "Nitrate");
        assert_eq!(
            (duration(0.0833), duration(6.42)),
            ("2 h".into(), "6.4 days".into())
        );
        assert_eq!((clock(14.5), clock(24.0)), ("14:30".into(), "00:00".into()));
    }
}
