//! A keeper's questions: the case comes as JSON, and so do the answers go.

use halimeda::dosing::Salt;
use halimeda_tank::Parameters;
use halimeda_tank::plan::{
    Case, Failure, Goals, HardLimits, Lever, Levers, PlanOptions, harvesting, lighting, plan,
    screen_size, time_to_trouble, what_if,
};
use pyo3::prelude::*;
use serde::Deserialize;
use serde::de::DeserializeOwned;

use super::description::Description;
use super::logged::Members;
use super::parameters::ranges_of;
use super::{json, snake_case, watch};
use crate::error::{Blame, OrRaise as _, value_error};

/// Name, words and unit of every lever.
#[pyfunction]
pub(crate) fn levers() -> Vec<(String, &'static str, &'static str)> {
    let levers = Lever::ALL.iter();
    levers
        .map(|l| (snake_case(l), l.words(), l.unit()))
        .collect()
}

/// Where every lever stands; None where the tank lacks it.
#[pyfunction]
pub(crate) fn lever_values(description: &Description) -> Vec<Option<f64>> {
    let levers = Lever::ALL.iter();
    levers.map(|l| l.value(&description.setup)).collect()
}

/// Free levers and limits of a plan where nothing else is said, as JSON.
#[pyfunction]
pub(crate) fn plan_defaults(py: Python<'_>) -> PyResult<String> {
    let defaults = serde_json::json!({
        "levers": Levers::default(),
        "limits": HardLimits::default(),
        "options": PlanOptions::default(),
        "goals": Goals::default(),
        "failures": Failure::ALL,
    });
    json(py, &defaults)
}

/// What went wrong, in words.
#[pyfunction]
pub(crate) fn failure_words(py: Python<'_>, failure: &str) -> PyResult<&'static str> {
    Ok(read::<Failure>(py, failure)?.words())
}

/// Field of the dosing, salt and grams per mole of what is dosed as salts.
#[pyfunction]
pub(crate) fn dosed_salts() -> Vec<(&'static str, &'static str, f64)> {
    [
        ("bicarbonate_mol_per_day", Salt::SodiumBicarbonate),
        ("carbonate_mol_per_day", Salt::SodiumCarbonate),
        ("hydroxide_mol_per_day", Salt::SodiumHydroxide),
        ("calcium_mol_per_day", Salt::CalciumChlorideDihydrate),
        ("magnesium_mol_per_day", Salt::MagnesiumChlorideHexahydrate),
        ("nitrate_mol_per_day", Salt::SodiumNitrate),
        ("phosphate_mol_per_day", Salt::MonosodiumPhosphate),
    ]
    .into_iter()
    .map(|(field, salt)| (field, salt.name(), salt.molar_mass_g_per_mol()))
    .collect()
}

/// What a question is about besides the tank.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct About {
    members: usize,
    seed: u32,
    goals: Goals,
    options: PlanOptions,
    #[serde(default)]
    levers: Levers,
    #[serde(default)]
    limits: HardLimits,
    #[serde(default)]
    from_day: f64,
    #[serde(default)]
    failures: Option<Vec<Failure>>,
}

/// Asks a question about a tank, in all its uncertainty: with the parameters that a
/// log leaves possible, else with draws from ranges.
#[pyfunction]
#[pyo3(signature = (question, description, about, ranges, fitted, changed, progress))]
#[allow(clippy::too_many_arguments)]
pub(crate) fn ask(
    py: Python<'_>,
    question: &str,
    description: &Description,
    about: &str,
    ranges: Vec<(f64, f64, f64)>,
    fitted: Option<&Members>,
    changed: Option<&Description>,
    progress: Option<&Bound<'_, PyAny>>,
) -> PyResult<String> {
    let about: About = read(py, about)?;
    let ranges = ranges_of(py, &ranges)?;
    let nominal = ranges.nominal();
    let members: Vec<Parameters> = match fitted {
        Some(fitted) => fitted.members.iter().map(|m| m.parameters).collect(),
        None => ranges.draw(about.members, about.seed).or_raise(py)?,
    };
    let case = Case {
        setup: &description.setup,
        nominal: &nominal,
        members: &members,
        goals: &about.goals,
        options: &about.options,
    };
    macro_rules! answered {
        ($question:expr) => {{
            let answer = watch::shared(py, progress, $question)?.or_raise(py)?;
            json(py, &answer)
        }};
    }
    macro_rules! days {
        ($watched:ident) => {
            &mut |done: f64, all: f64| $watched.tell("", done, all)
        };
    }
    match (question, changed) {
        ("plan", _) => answered!(|w| plan(
            &case,
            &about.levers,
            &about.limits,
            &mut |stage, share| { w.tell(stage.words(), share, 1.0) }
        )),
        ("screen_size", _) => answered!(|w| screen_size(&case, days!(w))),
        ("lighting", _) => answered!(|w| lighting(&case, days!(w))),
        ("harvesting", _) => answered!(|w| harvesting(&case, days!(w))),
        ("what_if", Some(changed)) => answered!(|w| what_if(&case, &changed.setup, days!(w))),
        ("time_to_trouble", _) => {
            let failures = about.failures.as_deref().unwrap_or(Failure::ALL);
            answered!(|w| time_to_trouble(&case, about.from_day, failures, &about.limits, days!(w)))
        }
        _ => Err(unknown(py, &format!("there is no question {question:?}"))),
    }
}

pub(super) fn read<T: DeserializeOwned>(py: Python<'_>, json: &str) -> PyResult<T> {
    serde_json::from_str(json).map_err(|error| {
        // Where in the JSON it is means nothing to who wrote none.
        let message = error.to_string();
        unknown(py, message.split(" at line ").next().unwrap_or_default())
    })
}

pub(super) fn unknown(py: Python<'_>, message: &str) -> PyErr {
    let blame = Blame {
        kind: "unknown_name",
        ..Blame::default()
    };
    value_error(py, message, &blame)
}
