//! What keepers see in tanks with a screen of turf, and what nothing in the model
//! says: it must follow from light, growth, uptake and wear.
//!
//! Every expectation here is common practice, no source.

use halimeda::turf::TurfTraits;
use halimeda_tank::{
    DatedEvent, Event, Parameters, Process, Run, RunOptions, Sample, Schedule, Stock, Tank,
    simulate,
};
use halimeda_tests::tanks::{between, mean, mixed_reef, quantile, young_reef};

fn run(tank: &Tank, schedule: &Schedule, days: f64) -> Run {
    simulate(
        tank,
        schedule,
        &Parameters::default(),
        &RunOptions::days(days),
    )
    .unwrap()
}

fn nitrate(s: &Sample) -> f64 {
    s.nitrate_mg_per_l
}

/// A mat that is worth a harvest, g of dry mass per m² of lit area: 200 g of
/// drained mass, some millimetres thick.
const HARVESTABLE_G_DRY_PER_M2: f64 = 20.0;

fn first_day_with(run: &Run, g_dry_per_m2: f64) -> f64 {
    run.samples
        .iter()
        .find(|s| s.turf_g_dry_per_m2 >= g_dry_per_m2)
        .map_or(f64::INFINITY, |s| s.day)
}

/// A new screen is worth its first harvest after two to three weeks, and later
/// in a young tank that is fed lightly.
#[test]
fn a_new_screen_greens_in_two_to_three_weeks() {
    let (mut tank, mut schedule) = mixed_reef();
    tank.screen.turf_g_dry_per_m2 = 0.0;
    schedule.harvest = None;
    let fed = run(&tank, &schedule, 45.0);
    let first = first_day_with(&fed, HARVESTABLE_G_DRY_PER_M2);
    let early = quantile(&between(&fed, 0.0, 7.0, |s| s.turf_g_dry_per_m2), 1.0);

    let (tank, mut schedule) = young_reef();
    schedule.harvest = None;
    let young = run(&tank, &schedule, 90.0);
    let later = first_day_with(&young, HARVESTABLE_G_DRY_PER_M2);
    println!(
        "first harvest on day {first:.1} (at most {early:.1} g/m² in the first week), in the young tank on day {later:.1}"
    );
    assert!((14.0..=21.0).contains(&first), "{first}");
    assert!(early < 0.25 * HARVESTABLE_G_DRY_PER_M2, "{early}");
    assert!(later > first + 4.0 && later < 60.0, "{later}");
}

/// What came of one interval between harvests.
struct Harvested {
    every_days: f64,
    nitrogen_mmol_per_day: f64,
    least_reserve: f64,
    lost_share_of_growth: f64,
}

fn harvested_every(days: f64) -> Harvested {
    let (mut tank, mut schedule) = mixed_reef();
    // Nutrients to grow on whatever the interval.
    tank.water.nitrate_umol_per_kg = 160.0;
    tank.water.phosphate_umol_per_kg = 3.0;
    let plan = schedule.harvest.as_mut().unwrap();
    plan.every_days = days;
    plan.first_day = days;
    let run = run(&tank, &schedule, 240.0);
    // Whole intervals, after the mat has found its rhythm.
    let harvests: Vec<_> = run.harvests.iter().filter(|h| h.day >= 60.0).collect();
    let (first, last) = (harvests.first().unwrap(), harvests.last().unwrap());
    let nitrogen: f64 = harvests[1..].iter().map(|h| h.harvest.nitrogen_mol).sum();
    Harvested {
        every_days: days,
        nitrogen_mmol_per_day: nitrogen / (last.day - first.day) * 1e3,
        least_reserve: quantile(&between(&run, 60.0, 241.0, |s| s.turf_reserve), 0.0),
        lost_share_of_growth: -run.ledger.entry(Process::TurfLoss, Stock::TurfN)
            / run.ledger.entry(Process::Turf, Stock::TurfN),
    }
}

/// Net export of nitrogen over the interval between harvests: a broad best at
/// one to two weeks, little lost a few days later, and after three weeks a base
/// that has starved in the shade and let go.
#[test]
fn the_best_interval_between_harvests_is_one_to_two_weeks() {
    let all = [
        3.0, 5.0, 7.0, 9.0, 11.0, 14.0, 15.0, 17.0, 19.0, 21.0, 24.0, 30.0,
    ]
    .map(harvested_every);
    let best = all
        .iter()
        .max_by(|a, b| a.nitrogen_mmol_per_day.total_cmp(&b.nitrogen_mmol_per_day))
        .unwrap();
    let relative = |every: f64| {
        let one = all.iter().find(|h| h.every_days == every).unwrap();
        one.nitrogen_mmol_per_day / best.nitrogen_mmol_per_day
    };
    for h in &all {
        println!(
            "every {:>2} d: {:.2} mmol N/d, {:.2} of the best; least reserve {:.2}; lost {:.2} of growth",
            h.every_days,
            h.nitrogen_mmol_per_day,
            relative(h.every_days),
            h.least_reserve,
            h.lost_share_of_growth
        );
    }
    assert!((7.0..=14.0).contains(&best.every_days));
    for broad in [7.0, 9.0, 11.0, 14.0] {
        assert!(relative(broad) > 0.8, "{broad}: {}", relative(broad));
    }
    for little in [15.0, 17.0] {
        assert!(relative(little) > 0.85, "{little}: {}", relative(little));
    }
    assert!(relative(3.0) < 0.5);
    assert!(relative(30.0) < 0.6);
    for h in &all {
        if h.every_days <= 11.0 {
            assert!(h.least_reserve > 0.4 && h.lost_share_of_growth < 0.1);
        }
        if h.every_days >= 21.0 {
            assert!(relative(h.every_days) < 0.7);
            assert!(h.least_reserve < 0.1 && h.lost_share_of_growth > 0.5);
        }
    }
}

/// A year of the well-fed tank at some lit hours of the screen, after a month of
/// running in.
fn year_at(hours: f64) -> Run {
    let (tank, mut schedule) = mixed_reef();
    schedule.screen_light.hours = hours;
    run(&tank, &schedule, YEAR.1)
}

const YEAR: (f64, f64) = (31.0, 396.0);

/// At 18 lit hours nitrate keeps to 2 to 5 mg/L for a year. Fewer hours leave
/// more, more hours leave less, and none strips the water; so does phosphate.
#[test]
fn a_well_fed_tank_settles_at_a_few_milligrams_of_nitrate() {
    let runs = [16.0, 18.0, 20.0, 24.0].map(|hours| (hours, year_at(hours)));
    let of_year = |run: &Run, of: fn(&Sample) -> f64| between(run, YEAR.0, YEAR.1, of);
    for (hours, run) in &runs {
        let (n, p) = (
            of_year(run, nitrate),
            of_year(run, |s| s.phosphate_mg_per_l),
        );
        println!(
            "{hours} h: nitrate {:.2} (5 to 95 % {:.2} to {:.2}, least {:.2}) mg/L, phosphate {:.3} ({:.3} to {:.3}, least {:.3}) mg/L",
            quantile(&n, 0.5),
            quantile(&n, 0.05),
            quantile(&n, 0.95),
            quantile(&n, 0.0),
            quantile(&p, 0.5),
            quantile(&p, 0.05),
            quantile(&p, 0.95),
            quantile(&p, 0.0),
        );
    }

    let (_, settled) = &runs[1];
    let n = of_year(settled, nitrate);
    assert!((2.0..=5.0).contains(&quantile(&n, 0.5)));
    let inside = n.iter().filter(|n| (2.0..=5.0).contains(*n)).count() as f64 / n.len() as f64;
    println!(
        "18 h: {:.0} % of the year between 2 and 5 mg/L",
        100.0 * inside
    );
    assert!(inside > 0.6, "{inside}");
    // Within an interval between harvests nitrate swings; over a month it stays.
    let month = (YEAR.1 - YEAR.0) / 12.0;
    for m in 0..12 {
        let from = YEAR.0 + month * f64::from(m);
        let mean_n = mean(&between(settled, from, from + month, nitrate));
        assert!((2.0..=5.0).contains(&mean_n), "month {m}: {mean_n}");
        let mean_p = mean(&between(settled, from, from + month, |s| {
            s.phosphate_mg_per_l
        }));
        assert!((0.03..=0.30).contains(&mean_p), "month {m}: {mean_p}");
    }

    for pair in runs.windows(2) {
        let [(_, fewer), (_, more)] = pair else {
            unreachable!("windows of two")
        };
        for of in [nitrate, |s: &Sample| s.phosphate_mg_per_l] {
            let median = |run| quantile(&of_year(run, of), 0.5);
            assert!(median(fewer) > 1.1 * median(more));
        }
    }
    let (_, always_lit) = &runs[3];
    assert!(quantile(&of_year(always_lit, nitrate), 0.0) > 0.05);
    assert!(quantile(&of_year(always_lit, |s| s.phosphate_mg_per_l), 0.0) > 0.005);
}

/// The mean over days of what a day's samples give.
fn mean_of_days(run: &Run, from: u32, to: u32, of_day: impl Fn(&[Sample]) -> f64) -> f64 {
    let days: Vec<f64> = (from..to)
        .map(|day| {
            let day = f64::from(day);
            let samples: Vec<Sample> = run
                .samples
                .iter()
                .filter(|s| s.day >= day && s.day < day + 1.0)
                .copied()
                .collect();
            of_day(&samples)
        })
        .collect();
    mean(&days)
}

fn least(samples: &[Sample], of: fn(&Sample) -> f64) -> f64 {
    samples.iter().map(of).fold(f64::INFINITY, f64::min)
}

fn most(samples: &[Sample], of: fn(&Sample) -> f64) -> f64 {
    samples.iter().map(of).fold(f64::NEG_INFINITY, f64::max)
}

/// Lit against the display's day the screen takes up CO2 and gives oxygen when
/// the display does not: pH swings less and its night minimum, like that of
/// oxygen, lies higher than with the screen lit at the same time or not at all.
#[test]
fn a_screen_lit_against_the_display_evens_out_the_day() {
    let followed = |start_hour: f64, hours: f64| {
        let (tank, mut schedule) = mixed_reef();
        schedule.screen_light.start_hour = start_hour;
        schedule.screen_light.hours = hours;
        let run = run(&tank, &schedule, 63.0);
        // Three intervals between harvests.
        let ph: fn(&Sample) -> f64 = |s| s.ph_total;
        let swing = mean_of_days(&run, 36, 63, |day| most(day, ph) - least(day, ph));
        let night = |of: fn(&Sample) -> f64| {
            mean_of_days(&run, 36, 63, |day| {
                let dark: Vec<Sample> = day.iter().filter(|s| !s.display_lit).copied().collect();
                least(&dark, of)
            })
        };
        (swing, night(ph), night(|s| s.oxygen_saturation))
    };
    let (tank_hours, (_, schedule)) = (18.0, mixed_reef());
    let dusk = schedule.display_light.start_hour + schedule.display_light.hours;
    let against = followed(dusk, tank_hours);
    let with = followed(schedule.display_light.start_hour, tank_hours);
    let never = followed(0.0, 0.0);
    for (name, (swing, ph, oxygen)) in [("against", against), ("with", with), ("never", never)] {
        println!("{name}: swing {swing:.3}, night pH {ph:.3}, night oxygen {oxygen:.3}");
    }
    for other in [with, never] {
        assert!(against.0 < 0.9 * other.0);
        assert!(against.1 > other.1 + 0.02);
        assert!(against.2 > other.2 + 0.01);
    }
}

/// Scraping wears a screen: after a year and a half it holds less than 70 % of
/// the turf of a new one, and the tank shows it. What was scraped half as often
/// has worn half as far.
#[test]
fn a_screen_is_worn_out_after_a_year_and_a_half() {
    let months_18 = 548.0;
    let (tank, mut schedule) = mixed_reef();
    let old = run(&tank, &schedule, months_18 + 60.0);
    let cover = |run: &Run, day: f64| mean(&between(run, day - 9.0, day, |s| s.turf_cover));
    let new = cover(&old, 45.0);
    let worn_on = old
        .samples
        .iter()
        .find(|s| s.day > 45.0 && s.turf_cover < 0.7 * new)
        .map_or(f64::INFINITY, |s| s.day);
    let after = cover(&old, months_18) / new;
    println!("holds {after:.2} of the new screen's after 18 months, 0.70 on day {worn_on:.0}");
    assert!(after < 0.70, "{after}");
    assert!((365.0..months_18).contains(&worn_on), "{worn_on}");

    // A new screen is left alone until it carries turf.
    schedule.events = [
        (months_18 - 150.0, Event::NewScreen),
        (months_18 - 150.0, Event::HarvestsStop),
        (months_18 - 129.0, Event::HarvestsResume),
    ]
    .map(|(day, event)| DatedEvent { day, event })
    .to_vec();
    let renewed = run(&tank, &schedule, months_18 + 60.0);
    let left = |run: &Run| mean(&between(run, months_18, months_18 + 60.0, nitrate));
    println!(
        "nitrate {:.1} mg/L, behind a new screen {:.1}",
        left(&old),
        left(&renewed)
    );
    assert!(left(&old) > 5.0);
    assert!(left(&old) > 1.5 * left(&renewed));

    let (tank, mut schedule) = mixed_reef();
    schedule.harvest.as_mut().unwrap().every_days = 18.0;
    let seldom = run(&tank, &schedule, months_18);
    let held = cover(&seldom, months_18) / cover(&seldom, 45.0);
    assert!(
        (held.ln() / after.ln() - 0.5).abs() < 0.06,
        "{held} {after}"
    );
}

/// A dark lamp shows in nitrate within days, clearly beyond the 1 mg/L that a
/// common kit resolves, and in pH the night after.
#[test]
fn a_failed_lamp_shows_within_days() {
    let (tank, mut schedule) = mixed_reef();
    // Amid an interval, an hour before the screen would light.
    let fails = 99.0 + 4.0 + 19.0 / 24.0;
    let twin = run(&tank, &schedule, fails + 7.0);
    schedule.events = vec![DatedEvent {
        day: fails,
        event: Event::ScreenLampFails,
    }];
    let failed = run(&tank, &schedule, fails + 7.0);
    let more_nitrate = |days: f64| {
        let at = |run| between(run, fails + days - 0.05, fails + days + 0.05, nitrate)[0];
        at(&failed) - at(&twin)
    };
    println!(
        "nitrate {:.2}, {:.2}, {:.2} mg/L above the twin after 1, 2, 3 days",
        more_nitrate(1.0),
        more_nitrate(2.0),
        more_nitrate(3.0)
    );
    assert!(more_nitrate(3.0) > 3.0);
    let night_ph = |run: &Run| {
        let night = between(run, fails, fails + 14.0 / 24.0, |s| s.ph_total);
        quantile(&night, 0.0)
    };
    println!(
        "least pH of the night {:.3}, twin {:.3}",
        night_ph(&failed),
        night_ph(&twin)
    );
    assert!(night_ph(&failed) < night_ph(&twin) - 0.04);
}

/// Lit area with which a kind of alga, harvested in one way, leaves 3 mg/L of
/// nitrate over a quarter, m²; infinite beyond 4 m².
fn area_needed(turf: TurfTraits, every_days: f64, kept_share: f64) -> f64 {
    const LARGEST_M2: f64 = 4.0;
    let parameters = Parameters {
        turf,
        ..Parameters::default()
    };
    let enough = |area_m2: f64| {
        let (mut tank, mut schedule) = mixed_reef();
        tank.screen.width_cm *= area_m2 / tank.screen.lit_area_m2();
        let plan = schedule.harvest.as_mut().unwrap();
        (plan.every_days, plan.first_day) = (every_days, every_days);
        plan.kept_share = kept_share;
        let options = RunOptions::days(180.0).sampled_every_days(0.25);
        let run = simulate(&tank, &schedule, &parameters, &options).unwrap();
        mean(&between(&run, 90.0, 180.0, nitrate)) <= 3.0
    };
    if !enough(LARGEST_M2) {
        return f64::INFINITY;
    }
    let (mut least, mut most) = (0.05, LARGEST_M2);
    while most / least > 1.02 {
        let middle = f64::sqrt(least * most);
        if enough(middle) {
            most = middle;
        } else {
            least = middle;
        }
    }
    most
}

/// For the same export, and the same nitrate left, filaments need less lit area
/// than a rigid alga that shades itself and holds less nitrogen, each harvested
/// as suits it best.
#[test]
fn filaments_need_less_area_than_a_rigid_alga() {
    let least_area = |turf: TurfTraits| {
        let mut least = f64::INFINITY;
        for every_days in [7.0, 10.0, 14.0] {
            for kept_share in [0.26, 0.5, 0.7] {
                least = least.min(area_needed(turf, every_days, kept_share));
            }
        }
        least
    };
    let filament = least_area(TurfTraits::green_filament());
    let rigid = least_area(TurfTraits::rigid_macroalga());
    println!("filaments {filament:.3} m², rigid alga {rigid:.3} m²");
    assert!(filament > 0.1 && rigid < 4.0);
    assert!(rigid > 1.3 * filament);
}
