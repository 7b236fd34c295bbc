//! Names of columns.

use halimeda::dosing::Salt;
use halimeda::process::FeedKind;

use super::Measured;
use super::kit::kit;
use super::problem::{Finding, LogProblemKind};
use crate::description::{listed, nearest, quoted};

/// Headings of tests, with other names that people use for them.
pub(super) const TESTS: [(&str, Measured, &[&str]); 11] = [
    ("nitrate", Measured::Nitrate, &["no3", "no3-n"]),
    ("phosphate", Measured::Phosphate, &["po4", "po4-p"]),
    (
        "ammonia",
        Measured::Ammonia,
        &["nh3", "nh4", "tan", "ammonium"],
    ),
    (
        "alkalinity",
        Measured::Alkalinity,
        &["alk", "kh", "dkh", "carbonate hardness"],
    ),
    ("calcium", Measured::Calcium, &["ca"]),
    ("magnesium", Measured::Magnesium, &["mg"]),
    ("ph", Measured::Ph, &[]),
    (
        "oxygen",
        Measured::OxygenSaturation,
        &["o2", "dissolved oxygen"],
    ),
    ("salinity", Measured::Salinity, &["sal", "ppt", "psu"]),
    (GRAVITY, Measured::Salinity, &["sg", "density"]),
    ("temperature", Measured::Temperature, &["temp", "t"]),
];
pub(super) const GRAVITY: &str = "specific gravity";

pub(super) const FEEDS: [(&str, FeedKind); 3] = [
    ("pellet", FeedKind::Pellet),
    ("frozen", FeedKind::Frozen),
    ("dried macroalgae", FeedKind::DriedMacroalgae),
];
pub(super) const COMPOSITION: [&str; 4] = [
    "water_fraction",
    "protein_fraction_of_dry",
    "phosphorus_fraction_of_dry",
    "carbon_fraction_of_dry",
];

/// Name of a test's column.
pub(super) fn test_name(measured: Measured) -> &'static str {
    let found = TESTS.iter().find(|(_, m, _)| *m == measured);
    found.map_or("", |(name, ..)| name)
}

/// Name of a feed's kind; none for one of its own composition.
pub(super) fn feed_name(kind: FeedKind) -> Option<&'static str> {
    FEEDS
        .iter()
        .find(|(_, k)| *k == kind)
        .map(|(name, _)| *name)
}

/// The salt of a name.
pub(super) fn salt_of(name: &str) -> Result<Salt, Finding> {
    let known = Salt::ALL.into_iter().find(|salt| salt.name() == name);
    known.ok_or_else(|| {
        let names = Salt::ALL.map(Salt::name);
        let expected = format!("expected after `dose` one of {}", listed(names));
        let meant = nearest(name, names).map(|meant| format!("did you mean `dose {meant} [g]`?"));
        Finding::new(LogProblemKind::UnknownName, quoted(name), expected).meant(meant)
    })
}

/// What is wrong with a heading of no column, by its plain name.
pub(super) fn unknown(name: &str) -> Finding {
    let also = TESTS.iter().find(|(_, _, also)| also.contains(&name));
    let tests = TESTS.iter().map(|(name, ..)| *name);
    let others = [
        "time",
        "date",
        "clock",
        "harvest wet",
        "harvest dry",
        "feeding pellet",
        "water change",
        "dose sodium bicarbonate",
        "event",
        "note",
    ];
    let meant = match (name, also) {
        (_, Some((meant, ..))) => Some(*meant),
        ("timestamp" | "datetime" | "date time" | "day", _) => Some("time"),
        ("feeding" | "food" | "feed", _) => Some("feeding pellet"),
        ("harvest" | "harvest weight", _) => Some("harvest wet"),
        ("comment" | "comments" | "notes" | "remark", _) => Some("note"),
        _ => nearest(name, tests.clone().chain(others)),
    };
    let expected = format!("expected a heading such as {}", listed(tests.chain(others)));
    let meant = meant.map(
        |meant| match TESTS.iter().find(|(name, ..)| *name == meant) {
            Some((GRAVITY, ..)) => format!("did you mean `{GRAVITY} [25/25 °C]`?"),
            Some((name, Measured::Salinity, _)) => format!("did you mean `{name} [1]`?"),
            Some((name, Measured::Ph, _)) => format!("did you mean `{name} [NBS]`?"),
            Some((name, Measured::Alkalinity, _)) => format!("did you mean `{name} [dKH]`?"),
            Some((name, measured, _)) => {
                format!("did you mean `{name} [{}]`?", kit(*measured).unit)
            }
            None => format!("did you mean `{meant}`?"),
        },
    );
    Finding::new(
        LogProblemKind::UnknownName,
        format!("the heading {}", quoted(name)),
        expected,
    )
    .meant(meant)
}
