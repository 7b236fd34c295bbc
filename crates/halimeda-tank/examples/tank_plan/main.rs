//! The plan for a tank, from its description to what a keeper would do next.
//!
//! ```sh
//! cargo run --release -p halimeda-tank --example tank_plan -- \
//!     crates/halimeda-tank/examples/invented_reef.toml --out target/demo
//! ```
//!
//! Prints the plan; writes it whole as JSON, and its forecasts and the planned
//! tank day by day as CSV, into the folder named.

// A program for a terminal speaks on it.
#![allow(clippy::print_stdout, clippy::print_stderr)]

#[path = "../shared/mod.rs"]
mod shared;

use std::error::Error;
use std::fmt::Write as _;
use std::fs;
use std::ops::ControlFlow;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use halimeda::dosing::Salt;
use halimeda_tank::description::TankFile;
use halimeda_tank::plan::{
    Case, FailureAnswer, Goals, HardLimits, Levers, Plan, PlanOptions, Stage, plan,
};
use halimeda_tank::upkeep::Task;
use halimeda_tank::{Parameters, Quantiles, Ranges, RunOptions, Variable, simulate};
use shared::{Page, clear_progress, show_progress};

/// Members of the ensemble behind every range.
const MEMBERS: usize = 64;
const SEED: u32 = 1;

fn main() -> ExitCode {
    match run() {
        Ok(()) => ExitCode::SUCCESS,
        Err(e) => {
            eprintln!("{e}");
            ExitCode::FAILURE
        }
    }
}

fn run() -> Result<(), Box<dyn Error>> {
    let (input, out) = arguments(std::env::args().skip(1))?;
    let text = fs::read(&input).map_err(|e| format!("{}: {e}", input.display()))?;
    let file = TankFile::from_toml(text).map_err(|e| format!("{}:\n{e}", input.display()))?;
    let nominal = file.parameters();
    let members = Ranges::default()
        .overridden(&file.parameter_overrides)?
        .draw(MEMBERS, SEED)?;
    let setup = file.setup();
    let goals = Goals::described(&file.goals, &file.tank)?;
    let options = PlanOptions::default();
    let case = Case {
        setup: &setup,
        nominal: &nominal,
        members: &members,
        goals: &goals,
        options: &options,
    };
    let plan = plan(
        &case,
        &Levers::default(),
        &HardLimits::default(),
        &mut progress,
    )?;
    clear_progress();
    print!("{}", page(&file, &plan));
    if let Some(folder) = out {
        write_files(&folder, &plan, &nominal, options.days)?;
        println!("Written for other programs: plan.json, forecast.csv and planned_tank.csv in");
        println!("{}", folder.display());
    }
    Ok(())
}

fn arguments(
    mut given: impl Iterator<Item = String>,
) -> Result<(PathBuf, Option<PathBuf>), String> {
    const USAGE: &str = "usage: tank_plan DESCRIPTION.toml [--out FOLDER]";
    let mut input = None;
    let mut out = None;
    while let Some(argument) = given.next() {
        if argument == "--out" {
            out = Some(PathBuf::from(given.next().ok_or(USAGE)?));
        } else if argument.starts_with('-') || input.is_some() {
            return Err(format!("{argument:?} is not understood; {USAGE}"));
        } else {
            input = Some(PathBuf::from(argument));
        }
    }
    Ok((input.ok_or(USAGE)?, out))
}

/// Shows how far the plan is, where somebody is looking.
fn progress(stage: Stage, done: f64) -> ControlFlow<()> {
    show_progress(done, stage.words());
    ControlFlow::Continue(())
}

impl Page {
    fn text(&mut self, text: &str) {
        self.indented(text, "  ", "  ");
    }

    fn row(&mut self, label: &str, value: &str) {
        let _ = writeln!(self.0, "  {label:<34}{value}");
    }
}

/// Significant digits enough for a keeper.
fn number(x: f64) -> String {
    match x.abs() {
        size if size >= 100.0 => format!("{x:.0}"),
        size if size >= 10.0 => format!("{x:.1}"),
        size if size >= 0.1 => format!("{x:.2}"),
        _ => format!("{x:.3}"),
    }
}

fn range(q: &Quantiles, unit: &str) -> String {
    format!(
        "{:>7}   {:>7} to {:<7} {unit}",
        number(q.p50),
        number(q.p5),
        number(q.p95)
    )
}

fn page(file: &TankFile, plan: &Plan) -> String {
    let mut page = Page::default();
    let _ = writeln!(page.0, "The plan for: {}", file.tank.name);
    page.text(
        "Numbers with a range are the median and what nine of ten tanks like this one \
         would show, over all that is uncertain of turf, animals and rock. Measure; a \
         forecast is not a reading.",
    );
    today(&mut page, plan);
    turf(&mut page, plan);
    advice(&mut page, plan);
    forecasts(&mut page, plan);
    questions(&mut page, plan);
    failures(&mut page, plan);
    dosing(&mut page, plan);
    upkeep(&mut page, file, plan);
    cautions(&mut page, file);
    page.0
}

fn today(page: &mut Page, plan: &Plan) {
    let s = &plan.today;
    page.heading("Today, as described");
    page.row(
        "Nitrate, as NO3",
        &format!("{:>7} mg/L", number(s.nitrate_mg_per_l)),
    );
    page.row(
        "Phosphate, as PO4",
        &format!("{:>7} mg/L", number(s.phosphate_mg_per_l)),
    );
    page.row("pH, total scale", &format!("{:>7.2}", s.ph_total));
    page.row(
        "Alkalinity",
        &format!("{:>7.0} µmol/kg", s.alkalinity_umol_per_kg),
    );
    page.row(
        "Oxygen",
        &format!("{:>7.0} % of saturation", 100.0 * s.oxygen_saturation),
    );
    page.row("Calcium", &format!("{:>7.0} mg/L", s.calcium_mg_per_l));
    page.row("Magnesium", &format!("{:>7.0} mg/L", s.magnesium_mg_per_l));
    page.row(
        "Turf on the screen",
        &format!("{:>7.0} g/m² dry", s.turf_g_dry_per_m2),
    );
}

fn turf(page: &mut Page, plan: &Plan) {
    page.heading("What the turf takes out");
    page.row(
        "Nitrogen, as things are",
        &range(&plan.nitrogen_removed_unchanged_mmol_per_day, "mmol/d"),
    );
    page.row(
        "Nitrogen, with the plan",
        &range(&plan.nitrogen_removed_mmol_per_day, "mmol/d"),
    );
    page.row(
        "Phosphorus, with the plan",
        &range(&plan.phosphorus_removed_mmol_per_day, "mmol/d"),
    );
    page.row(
        "A harvest, drained",
        &range(&plan.harvest_drained_grams, "g"),
    );
}

fn advice(page: &mut Page, plan: &Plan) {
    page.heading("What to change");
    let moves: Vec<_> = plan.proposal.moves.iter().collect();
    if moves.is_empty() {
        page.item("Nothing: no setting tried does better.");
    }
    for m in moves {
        page.item(&sentence(&m.words()));
    }
    page.text(&plan.proposal.verdict);
    page.text(&format!(
        "All goals are met by {:.0} of 100 tanks like this one with the plan.",
        100.0 * plan.meets_all_goals
    ));
    page.text(&plan.change.reason);
}

fn forecasts(page: &mut Page, plan: &Plan) {
    let mut day = f64::NAN;
    for f in &plan.forecasts {
        if f.day.total_cmp(&day).is_ne() {
            day = f.day;
            page.heading(&format!("In {day:.0} days (mean of the day)"));
            page.row("", "planned   in nine of ten        unchanged   today");
        }
        let (name, factor, unit) = worded(f.variable);
        let scaled = |x: f64| number(factor * x);
        page.row(
            name,
            &format!(
                "{:>7}   {:>7} to {:<7}   {:>9}   {:>5} {unit}",
                scaled(f.planned.p50),
                scaled(f.planned.p5),
                scaled(f.planned.p95),
                scaled(f.unchanged.p50),
                scaled(f.persistence),
            ),
        );
    }
    if !plan.forecasts.is_empty() {
        page.text(
            "\"Today\" is the forecast of \"nothing changes\": what any other has to beat \
             against your own tests.",
        );
    }
}

/// A variable as a keeper calls it, with the factor to the unit it is shown in.
fn worded(variable: Variable) -> (&'static str, f64, &'static str) {
    match variable {
        Variable::Nitrate => ("Nitrate", 1.0, "mg/L"),
        Variable::Phosphate => ("Phosphate", 1.0, "mg/L"),
        Variable::Ph => ("pH, total scale", 1.0, ""),
        Variable::Alkalinity => ("Alkalinity", 1.0, "µmol/kg"),
        Variable::OxygenSaturation => ("Oxygen", 100.0, "%"),
        Variable::Calcium => ("Calcium", 1.0, "mg/L"),
        Variable::Turf => ("Turf", 1.0, "g/m²"),
        other => (other.name(), 1.0, other.unit()),
    }
}

fn questions(page: &mut Page, plan: &Plan) {
    page.heading("How big, how long, how often");
    page.item(&plan.screen.reason);
    page.item(&plan.light.reason);
    page.item(&plan.harvest.reason);
    page.heading("What matters most");
    for lever in plan.levers.iter().take(4) {
        page.item(&lever.reason);
    }
    for influence in plan.influences.iter().take(3) {
        let way = if influence.rank_correlation > 0.0 {
            "raises"
        } else {
            "lowers"
        };
        page.item(&format!(
            "Not known of this tank: {}. More of it {way} nitrate (rank correlation {:+.2}).",
            influence.parameter, influence.rank_correlation
        ));
    }
}

fn failures(page: &mut Page, plan: &Plan) {
    page.heading("How long until trouble");
    for FailureAnswer { reason, .. } in &plan.failures {
        page.item(reason);
    }
}

fn dosing(page: &mut Page, plan: &Plan) {
    page.heading("Dosing per day");
    let d = &plan.proposal.setup.schedule.dosing;
    for (salt, mol_per_day) in [
        (Salt::SodiumBicarbonate, d.bicarbonate_mol_per_day),
        (Salt::SodiumCarbonate, d.carbonate_mol_per_day),
        (Salt::SodiumHydroxide, d.hydroxide_mol_per_day),
        (Salt::CalciumChlorideDihydrate, d.calcium_mol_per_day),
        (Salt::MagnesiumChlorideHexahydrate, d.magnesium_mol_per_day),
        (Salt::SodiumNitrate, d.nitrate_mol_per_day),
    ] {
        if mol_per_day > 0.0 {
            page.row(
                salt.name(),
                &format!("{:>7} g", number(mol_per_day * salt.molar_mass_g_per_mol())),
            );
        }
    }
    page.text(&plan.dosing.reason);
}

fn upkeep(page: &mut Page, file: &TankFile, plan: &Plan) {
    page.heading("Due");
    let mut later = Vec::new();
    let mut soon = Vec::new();
    for u in &plan.upkeep {
        let words = u.task.words();
        if u.day < 30.0 {
            soon.push(format!("{} {words}", date(file, u.day)));
        } else if matches!(u.task, Task::NewScreen | Task::NewLamps) {
            later.push(format!("{} {words}", date(file, u.day)));
        }
    }
    page.text(&format!("The next 30 days: {}.", soon.join("; ")));
    if !later.is_empty() {
        page.text(&format!("Later: {}.", later.join("; ")));
    }
}

/// A day as a date, if the description has one to start from.
fn date(file: &TankFile, day: f64) -> String {
    let whole = day.floor() as i64;
    file.start
        .and_then(|start| {
            start
                .checked_add(jiff::Span::new().try_days(whole).ok()?)
                .ok()
        })
        .map_or_else(|| format!("day {whole}:"), |date| format!("{date}:"))
}

fn cautions(page: &mut Page, file: &TankFile) {
    page.heading("Before you act");
    for caution in [
        "Change one thing at a time, and test before and after. Animals can be lost to a \
         sudden change in the right direction.",
        "Never chase zero: nitrate and phosphate that cannot be measured starve corals and \
         the turf itself.",
        "Mains power beside salt water kills: unplug lamps and pumps before hands go in, \
         use a residual-current device and drip loops, and leave wiring to licensed people.",
        "Supplements: follow the product's label. Caustic ones burn skin and eyes.",
        "CO2 of a sleeping household adds up in a closed room, for people too: air it.",
    ] {
        page.item(caution);
    }
    if !file.assumptions.is_empty() {
        let keys: Vec<&str> = file.assumptions.iter().map(|a| a.key.as_str()).collect();
        page.heading("Taken for granted, because the description does not say");
        page.text(&keys.join(", "));
    }
    let _ = writeln!(page.0);
}

fn sentence(words: &str) -> String {
    let mut letters = words.chars();
    let first = letters.next().map(|c| c.to_uppercase().to_string());
    format!("{}{}.", first.unwrap_or_default(), letters.as_str())
}

fn write_files(
    folder: &Path,
    plan: &Plan,
    nominal: &Parameters,
    days: f64,
) -> Result<(), Box<dyn Error>> {
    fs::create_dir_all(folder)?;
    fs::write(folder.join("plan.json"), serde_json::to_vec_pretty(plan)?)?;

    let mut forecast = csv::Writer::from_path(folder.join("forecast.csv"))?;
    forecast.write_record([
        "day",
        "variable",
        "unit",
        "planned_p5",
        "planned_p50",
        "planned_p95",
        "unchanged_p5",
        "unchanged_p50",
        "unchanged_p95",
        "today",
    ])?;
    for f in &plan.forecasts {
        let (p, u) = (&f.planned, &f.unchanged);
        let numbers = [p.p5, p.p50, p.p95, u.p5, u.p50, u.p95, f.persistence];
        let mut row = vec![
            f.day.to_string(),
            f.variable.name().to_owned(),
            f.variable.unit().to_owned(),
        ];
        row.extend(numbers.map(|x| x.to_string()));
        forecast.write_record(row)?;
    }
    forecast.flush()?;

    let planned = &plan.proposal.setup;
    let run = simulate(
        &planned.tank,
        &planned.schedule,
        nominal,
        &RunOptions::days(days).sampled_every_days(0.25),
    )?;
    let mut tank = csv::Writer::from_path(folder.join("planned_tank.csv"))?;
    for sample in &run.samples {
        tank.serialize(sample)?;
    }
    tank.flush()?;
    Ok(())
}
