use std::ops::ControlFlow;

use super::*;
use crate::description::{Band, TankFile};
use crate::error::Error;
use crate::parameters::Parameters;
use crate::ranges::Ranges;
use crate::simulate::{RunOptions, simulate};
use crate::tank::{DatedEvent, Event, FoamFractionatorSetup, NewWater, WaterChangePlan};
use crate::testing::setup;
use crate::upkeep::Task;

fn go(_: f64, _: f64) -> ControlFlow<()> {
    ControlFlow::Continue(())
}

/// A plan small enough for a test.
fn small() -> PlanOptions {
    PlanOptions {
        days: 60.0,
        search_runs: 48,
        few_members: 4,
        failure_days: 14.0,
        ..PlanOptions::default()
    }
}

struct Asked {
    setup: Setup,
    nominal: Parameters,
    members: Vec<Parameters>,
    goals: Goals,
    options: PlanOptions,
}

impl Asked {
    fn new(members: usize) -> Self {
        Self {
            setup: setup(),
            nominal: Parameters::default(),
            members: Ranges::default().draw(members, 1).unwrap(),
            goals: Goals::default(),
            options: small(),
        }
    }

    fn case(&self) -> Case<'_> {
        Case {
            setup: &self.setup,
            nominal: &self.nominal,
            members: &self.members,
            goals: &self.goals,
            options: &self.options,
        }
    }

    fn plan(&self, levers: &Levers) -> Plan {
        let mut go = |_: Stage, _: f64| ControlFlow::Continue(());
        plan(&self.case(), levers, &HardLimits::default(), &mut go).unwrap()
    }

    /// The outcome without any of the planner.
    fn direct(&self, setup: &Setup, parameters: &Parameters) -> Outcome {
        let o = &self.options;
        let options = RunOptions {
            days: o.days,
            sample_every_days: o.sample_every_days,
            relative_tolerance: o.relative_tolerance,
            books_from_day: o.days - o.window_days,
        };
        let run = simulate(&setup.tank, &setup.schedule, parameters, &options).unwrap();
        Outcome::of(&run, &setup.tank, parameters, &options).unwrap()
    }
}

fn on_threads<T: Send>(threads: usize, f: impl FnOnce() -> T + Send) -> T {
    rayon::ThreadPoolBuilder::new()
        .num_threads(threads)
        .build()
        .unwrap()
        .install(f)
}

#[test]
fn a_plan_depends_on_no_number_of_threads() {
    let asked = Asked::new(4);
    let levers = Levers::default();
    let plans = [1, 3].map(|threads| on_threads(threads, || asked.plan(&levers)));
    assert_eq!(plans[0], plans[1]);
}

/// What the plan says of its proposal is what a plain simulation of it gives, and
/// no worse than the tank as it is.
#[test]
fn a_plan_agrees_with_simulation() {
    let asked = Asked::new(4);
    let plan = asked.plan(&Levers::default());
    let proposal = &plan.proposal;
    let direct = asked.direct(&proposal.setup, &asked.nominal);
    assert_eq!(proposal.outcome, direct);
    assert_eq!(proposal.checks, asked.goals.checks(&direct));

    let present = asked.direct(&asked.setup, &asked.nominal);
    let penalty = |o: &Outcome| goals::penalty(&asked.goals.checks(o));
    assert!(penalty(&direct) < 0.5 * penalty(&present));

    let nitrate = |setup: &Setup| {
        let members = asked.members.iter();
        Quantiles::of(members.map(|p| asked.direct(setup, p).nitrate_mg_per_l)).unwrap()
    };
    let difference = plan.change.difference("nitrate_mg_per_l").unwrap();
    assert_eq!(difference.before, nitrate(&asked.setup));
    assert_eq!(difference.after, nitrate(&proposal.setup));
    // The moves lead from the description to the proposal.
    let settings: Vec<Setting> = proposal
        .moves
        .iter()
        .map(|m| Setting {
            lever: m.lever,
            value: m.to,
        })
        .collect();
    assert_eq!(asked.setup.with(&settings).tank, proposal.setup.tank);
    for m in &proposal.moves {
        let bounds = Levers::default()
            .iter()
            .find(|(l, _)| *l == m.lever)
            .unwrap()
            .1;
        assert!((bounds.low..=bounds.high).contains(&m.to), "{m:?}");
    }
}

#[test]
fn the_plan_doses_what_holds_alkalinity() {
    let asked = Asked::new(4);
    let plan = asked.plan(&Levers::none().with(Lever::LitHours, 8.0, 20.0));
    let alkalinity = |f: &Forecast| f.variable == crate::Variable::Alkalinity;
    let forecast = plan.forecasts.iter().find(|f| alkalinity(f)).unwrap();
    assert!((forecast.planned.p5 - 2800.0).abs() < 100.0, "{forecast:?}");
    assert!(
        (forecast.planned.p95 - 2800.0).abs() < 100.0,
        "{forecast:?}"
    );
    assert_eq!(forecast.persistence, 2800.0);
    let kg = asked.setup.tank.net_volume_l * 1.023;
    let used = plan
        .proposal
        .outcome
        .alkalinity_consumed_umol_per_kg_per_day
        * 1e-6
        * kg;
    let dosed = plan.dosing.dosing.bicarbonate_mol_per_day;
    assert!((dosed / used - 1.0).abs() < 0.1, "{dosed} {used}");
}

/// No lever may move, and nitrate cannot be where it is asked to be: the plan says
/// so, with the number by which it misses.
#[test]
fn impossible_goals_are_named_with_their_shortfall() {
    let mut asked = Asked::new(2);
    asked.goals.nitrate_mg_per_l = Band {
        low: 0.01,
        high: 0.02,
    };
    asked.goals.daily_ph_swing = 0.5;
    let plan = asked.plan(&Levers::none().with(Lever::LitHours, 10.0, 12.0));
    assert!(!plan.proposal.is_reachable());
    // It stood beyond its bounds.
    assert_eq!(plan.proposal.moves[0].from, 14.0);
    assert!((10.0..=12.0).contains(&plan.proposal.moves[0].to));
    let check = plan
        .proposal
        .checks
        .iter()
        .find(|c| c.goal == Goal::Nitrate)
        .unwrap();
    let direct = asked.direct(&plan.proposal.setup, &asked.nominal);
    assert!((check.shortfall() - (direct.nitrate_p95_mg_per_l - 0.02)).abs() < 1e-12);
    let verdict = &plan.proposal.verdict;
    assert!(
        verdict.starts_with("No setting found within the bounds"),
        "{verdict}"
    );
    assert!(verdict.contains("nitrate reaches") && verdict.contains("above the limit of 0.02"));
    assert!(!verdict.contains("pH swing"), "{verdict}");
}

#[test]
fn cancelling_ends_a_plan_wherever_it_is() {
    let asked = Asked::new(4);
    for stop_at in [Stage::Dosing, Stage::Search, Stage::Future, Stage::Harvest] {
        let mut last = 0.0;
        let mut stop = |stage: Stage, share: f64| {
            assert!(share >= last && share <= 1.0);
            last = share;
            match stage == stop_at {
                true => ControlFlow::Break(()),
                false => ControlFlow::Continue(()),
            }
        };
        let stopped = plan(
            &asked.case(),
            &Levers::default(),
            &HardLimits::default(),
            &mut stop,
        );
        // The first stage is one run, too short to be asked in.
        let cancelled = matches!(stopped, Err(Error::Cancelled { .. }));
        assert!(cancelled || stop_at == Stage::Dosing, "{stop_at:?}");
    }
}

#[test]
fn progress_reaches_its_end() {
    let asked = Asked::new(2);
    let mut seen = Vec::new();
    let mut watch = |stage: Stage, share: f64| {
        seen.push((stage, share));
        ControlFlow::Continue(())
    };
    plan(
        &asked.case(),
        &Levers::default(),
        &HardLimits::default(),
        &mut watch,
    )
    .unwrap();
    assert!(seen.windows(2).all(|w| w[0].1 <= w[1].1));
    assert_eq!(seen.last().unwrap().1, 1.0);
    for stage in [
        Stage::Search,
        Stage::Future,
        Stage::Screen,
        Stage::Light,
        Stage::Harvest,
    ] {
        assert!(seen.iter().any(|(s, _)| *s == stage), "{stage:?}");
    }
}

/// A tank that stays below water's limits at no parameter cannot be planned.
#[test]
fn a_plan_of_an_impossible_tank_is_refused() {
    let mut asked = Asked::new(2);
    asked.setup.tank.temperature_celsius = 80.0;
    let mut go = |_: Stage, _: f64| ControlFlow::Continue(());
    let refused = plan(
        &asked.case(),
        &Levers::default(),
        &HardLimits::default(),
        &mut go,
    );
    assert!(refused.is_err());
    let mut asked = Asked::new(2);
    asked.goals.night_oxygen_saturation = f64::NAN;
    let refused = plan(
        &asked.case(),
        &Levers::default(),
        &HardLimits::default(),
        &mut go,
    );
    assert!(
        matches!(refused, Err(Error::OutOfRange { .. })),
        "{refused:?}"
    );
    let none = Case {
        members: &[],
        ..asked.case()
    };
    assert!(lighting(&none, &mut self::go).is_err());
}

/// Whatever stands there or not, a plan is made of it.
#[test]
fn odd_tanks_are_planned_too() {
    let change = |f: &dyn Fn(&mut Setup)| {
        let mut asked = Asked::new(2);
        asked.options.days = 40.0;
        asked.options.search_runs = 8;
        asked.options.few_members = 2;
        asked.options.failure_days = 3.0;
        f(&mut asked.setup);
        let mut levers = Levers::default();
        for &lever in Lever::ALL {
            levers = match lever {
                Lever::WaterChangeShare => levers.with(lever, 0.05, 0.3),
                Lever::WaterChangeInterval => levers.with(lever, 7.0, 28.0),
                Lever::FoamFlow => levers.with(lever, 100.0, 1000.0),
                Lever::Overflow => levers.with(lever, 1000.0, 1000.0),
                _ => levers,
            };
        }
        let plan = asked.plan(&levers);
        assert!(plan.failed_members.is_empty(), "{:?}", plan.failed_members);
        let overflow = plan.proposal.setup.tank.overflow_l_per_h;
        assert_eq!(overflow, 1000.0);
        plan
    };
    change(&|s| s.schedule.screen_light.hours = 0.0);
    change(&|s| s.schedule.feedings.clear());
    change(&|s| s.tank.screen.irradiance_umol_per_m2_s = 0.0);
    change(&|s| {
        s.tank.screen.turf_g_dry_per_m2 = 0.0;
        s.tank.screen.lit_faces = 1;
        s.schedule.display_light.hours = 24.0;
    });
    let plan = change(&|s| s.schedule.harvest = None);
    assert!(plan.proposal.setup.schedule.harvest.is_some());
    let plan = change(&|s| {
        s.tank.foam_fractionator = Some(FoamFractionatorSetup {
            water_l_per_h: 400.0,
            air_co2_ppm: 450.0,
        });
        s.schedule.water_change = Some(WaterChangePlan {
            every_days: 14.0,
            first_day: 7.0,
            share: 0.1,
            water: NewWater {
                practical_salinity: 35.0,
                alkalinity_umol_per_kg: 2900.0,
                calcium_umol_per_kg: 10500.0,
                magnesium_umol_per_kg: 53000.0,
                strontium_umol_per_kg: 90.0,
                nitrate_umol_per_kg: 0.0,
                phosphate_umol_per_kg: 0.0,
            },
        });
    });
    let moved = |lever| plan.proposal.moves.iter().any(|m| m.lever == lever);
    assert!(moved(Lever::FoamFlow) && moved(Lever::WaterChangeShare));
    assert!(plan.upkeep.iter().any(|u| u.task == Task::WaterChange));
}

/// Bigger screens take more until the water is near empty, and never leave nothing.
#[test]
fn bigger_screens_take_more_but_never_all() {
    let asked = Asked::new(8);
    let answer = screen_size(&asked.case(), &mut go).unwrap();
    let nitrate: Vec<f64> = answer
        .by_area
        .iter()
        .map(|a| a.nitrate_mg_per_l.p50)
        .collect();
    assert!(nitrate.windows(2).all(|w| w[1] < w[0]), "{nitrate:?}");
    assert!(answer.by_area.iter().all(|a| a.nitrate_mg_per_l.p5 > 0.0));
    let ratio = answer.rigid_macroalga_ratio.unwrap();
    assert!(ratio.p50 > 1.3, "{ratio:?}");
}

/// On the area the answer gives for a single member, a plain simulation meets the
/// upper ends of the bands; on a smaller one it does not.
#[test]
fn the_least_area_is_where_simulation_meets_the_bands() {
    let mut asked = Asked::new(1);
    asked.members = vec![asked.nominal];
    let answer = screen_size(&asked.case(), &mut go).unwrap();
    let least = answer.least_lit_area_m2.unwrap().p50;
    let now = asked.setup.tank.screen.lit_area_m2();
    let excess = |area: f64| {
        let value = area / now;
        let setup = asked.setup.with(&[Setting {
            lever: Lever::ScreenArea,
            value,
        }]);
        let o = asked.direct(&setup, &asked.nominal);
        (o.nitrate_p95_mg_per_l / asked.goals.nitrate_mg_per_l.high)
            .max(o.phosphate_p95_mg_per_l / asked.goals.phosphate_mg_per_l.high)
    };
    assert!(excess(1.4 * least) < 1.0, "{}", excess(1.4 * least));
    assert!(excess(least / 1.4) > 1.0, "{}", excess(least / 1.4));
}

/// It emerges: lit against the display's day, pH swings less in a day and falls less
/// at night than lit with it, and than with no light at all.
#[test]
fn light_against_the_displays_day_steadies_ph() {
    let mut asked = Asked::new(8);
    asked.options.few_members = 8;
    let answer = lighting(&asked.case(), &mut go).unwrap();
    let with = &answer.against_instead_of_with_display;
    let of = |name| with.difference(name).unwrap().difference;
    assert!(of("daily_ph_swing").p75 < 0.0);
    assert!(of("night_ph").p25 > 0.0);
    assert!(of("night_oxygen_saturation").p25 > 0.0);
    let dark = &answer.against_display_instead_of_dark;
    assert!(dark.difference("night_ph").unwrap().difference.p50 > 0.0);
    assert!(
        dark.difference("night_oxygen_saturation")
            .unwrap()
            .difference
            .p50
            > 0.0
    );
    let best = answer
        .points
        .iter()
        .map(|p| p.score)
        .fold(f64::INFINITY, f64::min);
    assert_eq!(answer.best.score, best);
}

#[test]
fn harvest_answer_agrees_with_simulation() {
    let mut asked = Asked::new(1);
    asked.members = vec![asked.nominal];
    let answer = harvesting(&asked.case(), &mut go).unwrap();
    let ten = answer
        .by_interval
        .iter()
        .find(|p| p.every_days == 10.0)
        .unwrap();
    let setup = asked.setup.with(&[Setting {
        lever: Lever::HarvestInterval,
        value: 10.0,
    }]);
    let longer = Asked {
        options: PlanOptions {
            days: asked.options.days + 30.0,
            window_days: asked.options.window_days + 30.0,
            ..asked.options
        },
        ..Asked::new(1)
    };
    let direct = longer.direct(&setup, &asked.nominal);
    assert_eq!(
        ten.nitrogen_removed_mmol_per_day.p50,
        direct.nitrogen_removed_mmol_per_day
    );
    let [shortest, longest] = answer.broad_days;
    assert!(shortest <= longest);
    let most = answer
        .by_interval
        .iter()
        .map(|p| p.nitrogen_removed_mmol_per_day.p50);
    let most = most.fold(0.0, f64::max);
    for point in &answer.by_interval {
        let broad = point.nitrogen_removed_mmol_per_day.p50 >= 0.95 * most;
        let within = (shortest..=longest).contains(&point.every_days);
        assert!(!broad || within, "{point:?}");
    }
    // A mat left for a month starves at its base.
    let last = answer.by_interval.last().unwrap();
    assert!(last.turf_reserve.p50 < 0.3 && last.nitrogen_removed_mmol_per_day.p50 < 0.7 * most);
}

#[test]
fn what_if_compares_member_by_member() {
    let asked = Asked::new(4);
    let same = what_if(&asked.case(), &asked.setup, &mut go).unwrap();
    assert!(
        same.differences
            .iter()
            .all(|d| d.difference.p5 == 0.0 && d.difference.p95 == 0.0)
    );
    assert_eq!(same.reason, "Nothing a keeper watches changes.");

    let longer = asked.setup.with(&[Setting {
        lever: Lever::LitHours,
        value: 20.0,
    }]);
    let change = what_if(&asked.case(), &longer, &mut go).unwrap();
    let nitrate = change.difference("nitrate_mg_per_l").unwrap();
    assert!(nitrate.is_clear() && nitrate.falls == 1.0);
    let direct = asked.members.iter().map(|p| {
        asked.direct(&longer, p).nitrate_mg_per_l - asked.direct(&asked.setup, p).nitrate_mg_per_l
    });
    assert_eq!(Quantiles::of(direct).unwrap(), nitrate.difference);
    assert!(
        change.reason.starts_with("Nitrate goes from"),
        "{}",
        change.reason
    );
}

/// Days to a limit are those that a plain simulation of the failure shows.
#[test]
fn time_to_trouble_agrees_with_simulation() {
    let mut asked = Asked::new(1);
    asked.members = vec![asked.nominal];
    asked.setup.schedule.screen_light.hours = 19.0;
    asked.setup.tank.screen.turf_g_dry_per_m2 = 120.0;
    asked.setup.tank.water.nitrate_umol_per_kg = 30.0;
    let from_day = 20.0;
    let failures = [Failure::ScreenLamp, Failure::Pump];
    let limits = HardLimits::default();
    let answers = time_to_trouble(&asked.case(), from_day, &failures, &limits, &mut go).unwrap();
    for (answer, event) in answers
        .iter()
        .zip([Event::ScreenLampFails, Event::PumpStops])
    {
        let mut schedule = asked.setup.schedule.clone();
        schedule.events.push(DatedEvent {
            day: from_day,
            event,
        });
        let options = RunOptions {
            relative_tolerance: 1e-4,
            ..RunOptions::days(from_day + asked.options.failure_days).sampled_every_days(1.0 / 12.0)
        };
        let run = simulate(&asked.setup.tank, &schedule, &asked.nominal, &options).unwrap();
        for time in &answer.limits {
            let limit = time.limit;
            let passed = run.samples.iter().find(|s| {
                let value = limit.variable.of(s);
                s.day >= from_day
                    && if limit.upper {
                        value > limit.value
                    } else {
                        value < limit.value
                    }
            });
            match (time.days[1], passed) {
                (Some(days), Some(s)) => {
                    let late = s.day - from_day - days;
                    assert!((-1e-6..=1.0 / 12.0 + 1e-6).contains(&late), "{time:?}");
                }
                (None, None) => {}
                (None, Some(_)) => assert_eq!(time.passed_anyway, 1.0, "{time:?}"),
                (Some(_), None) => panic!("{time:?}"),
            }
        }
        assert!(answer.first().is_some(), "{answer:?}");
        assert!(answer.nitrate_after_a_week_mg_per_l.is_some());
    }
    assert!(answers[0].nitrate_after_a_week_mg_per_l.unwrap().p50 > 0.5);
    assert!(answers[1].limits.iter().any(|t| {
        t.limit.variable == crate::Variable::OxygenSaturation && t.days[1].unwrap() < 2.0
    }));
}

/// Salinity rises by what evaporates when the top-off stops, and the keeper is not
/// there to correct it.
#[test]
fn away_without_top_off_turns_salty() {
    let mut asked = Asked::new(2);
    let failure = Failure::Away {
        fed: false,
        topped_off: false,
    };
    let answers = time_to_trouble(
        &asked.case(),
        10.0,
        &[failure],
        &HardLimits::default(),
        &mut go,
    )
    .unwrap();
    let salinity = answers[0]
        .limits
        .iter()
        .find(|t| t.limit.variable == crate::Variable::Salinity)
        .unwrap();
    // 35 to 38 in 200 L at 3 L a day: 200 (1 - 35/38) / 3 = 5.3 days.
    assert!(
        (salinity.days[1].unwrap() - 5.2).abs() < 0.5,
        "{salinity:?}"
    );
    asked.setup.tank.evaporation_l_per_day = 0.0;
    let answers = time_to_trouble(
        &asked.case(),
        10.0,
        &[failure],
        &HardLimits::default(),
        &mut go,
    )
    .unwrap();
    let safe = answers[0]
        .limits
        .iter()
        .all(|t| t.limit.variable != crate::Variable::Salinity || t.days == [None, None, None]);
    assert!(safe);
}

/// The tolerance that plans are made at moves no answer.
#[test]
fn planning_tolerance_is_tight_enough() {
    let asked = Asked::new(4);
    for parameters in &asked.members {
        let fine = Asked {
            options: PlanOptions {
                relative_tolerance: 1e-8,
                ..asked.options
            },
            ..Asked::new(1)
        };
        let coarse = asked.direct(&asked.setup, parameters);
        let fine = fine.direct(&asked.setup, parameters);
        for ((a, b), info) in coarse
            .values()
            .iter()
            .zip(fine.values())
            .zip(Outcome::INFOS)
        {
            let close = 2e-3 * b.abs() + 2e-3;
            assert!((a - b).abs() < close, "{}: {a} {b}", info.name);
        }
    }
}

/// A description file gives all that a plan asks: tank, goals and ranges.
#[test]
fn a_described_tank_can_be_planned() {
    let file = TankFile::from_toml(include_str!("../../examples/invented_reef.toml")).unwrap();
    let ranges = Ranges::default()
        .overridden(&file.parameter_overrides)
        .unwrap();
    let asked = Asked {
        setup: file.setup(),
        nominal: ranges.nominal(),
        members: ranges.draw(4, 1).unwrap(),
        goals: Goals::described(&file.goals, &file.tank).unwrap(),
        options: small(),
    };
    assert_eq!(asked.nominal, file.parameters());
    // As written in the file: 1 to 6 mg/L and 0.02 to 0.15 mg/L.
    let close = |a: f64, b: f64| (a / b - 1.0).abs() < 1e-9;
    let (n, p) = (asked.goals.nitrate_mg_per_l, asked.goals.phosphate_mg_per_l);
    assert!(close(n.low, 1.0) && close(n.high, 6.0), "{n:?}");
    assert!(close(p.low, 0.02) && close(p.high, 0.15), "{p:?}");
    assert_eq!(asked.goals.daily_ph_swing, 0.25);
    let plan = asked.plan(&Levers::default());
    assert!(plan.failed_members.is_empty(), "{:?}", plan.failed_members);
}
