//! The harvest diary: what harvests carried out of a tank.
//!
//! A weight that was written down counts; where none was, the model's harvest of that
//! day does. Nitrogen, phosphorus and carbon are what the turf of each possible tank
//! held on the day. Metals come from published analyses of other algae, not from this
//! tank: orders of magnitude.

use halimeda::form;
use halimeda::parameter::{ParameterInfo, ParameterSet as _};
use halimeda::quantity::Form as _;
use halimeda::turf::TissueMetalContents;
use serde::{Deserialize, Serialize};

use crate::error::{Result, within};
use crate::log::{HarvestWeight, Record};
use crate::logged::LoggedTank;
use crate::parameters::Parameters;
use crate::plan::words::range;
use crate::quantiles::Quantiles;
use crate::simulate::Run;
use crate::tank::Event;
use crate::work::SharedProgress;

/// How a diary counts.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct DiaryOptions {
    /// Share of the system's water in the water change that exports are compared with.
    pub water_change_share: f64,
}

impl Default for DiaryOptions {
    fn default() -> Self {
        Self {
            water_change_share: 0.1,
        }
    }
}

/// What was carried out, over the members; what was fed back is left out.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Exported {
    /// Dry mass, g.
    pub dry_grams: Quantiles,
    /// Carbon, g.
    pub carbon_grams: Quantiles,
    /// Nitrogen, g.
    pub nitrogen_grams: Quantiles,
    /// Phosphorus, g.
    pub phosphorus_grams: Quantiles,
}

/// A harvest.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct DiaryEntry {
    /// Time since the start, d.
    pub day: f64,
    /// What was weighed; none where the model's harvest stands in.
    pub weight: Option<HarvestWeight>,
    /// What it carried out.
    pub exported: Exported,
}

/// A metal in all harvests together, by published contents of algae.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct MetalExport {
    /// The metal.
    pub metal: &'static str,
    /// With the lower published content and the least mass, mg.
    pub low_mg: f64,
    /// With the middle published content and the median mass, mg.
    pub middle_mg: f64,
    /// With the upper published content and the largest mass, mg.
    pub high_mg: f64,
    /// Where the contents come from.
    pub source: &'static str,
}

/// All harvests together as water changes.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct WaterChangesSaved {
    /// Share of the water in each change.
    pub share: f64,
    /// Changes at today's nitrate that would have taken out as much nitrogen.
    pub by_nitrate: Quantiles,
    /// Changes at today's phosphate that would have taken out as much phosphorus.
    pub by_phosphate: Quantiles,
}

/// What harvests carried out.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Diary {
    /// Every logged harvest.
    pub entries: Vec<DiaryEntry>,
    /// All of them together; none if there were none.
    pub total: Option<Exported>,
    /// Metals in all of them together.
    pub metals: Vec<MetalExport>,
    /// All of them together as water changes; none if there were none.
    pub water_changes_saved: Option<WaterChangesSaved>,
    /// The diary in words.
    pub summary: Vec<String>,
}

/// Zinc, beside the metals of the chemistry's crate.
const ZINC: ParameterInfo = ParameterInfo {
    name: "zinc_ug_per_g_dry",
    unit: "µg/g dry",
    default: 22.0,
    low: 13.0,
    high: 38.0,
    source: "1.30 to 3.80 mg per 100 g dry in five macroalgae of the Black Sea, Panayotova & \
             Stancheva, Scripta Scientifica Medica (abstract; year not seen); middle: their \
             geometric mean",
};

/// A logged harvest lies no farther than this from the simulated one it belongs to, d.
const SAME_HARVEST_DAYS: f64 = 0.51;

/// One harvest of one member: dry mass, carbon, nitrogen, phosphorus, g.
type Grams = [f64; 4];

/// Adds up what the logged harvests carried out.
///
/// A log without harvests gives an empty diary that says so.
///
/// # Errors
/// A number of the tank or the options lies outside its limits; no member can be
/// followed; or [`Error::Cancelled`](crate::Error::Cancelled).
pub fn diary(
    tank: &LoggedTank<'_>,
    options: &DiaryOptions,
    progress: SharedProgress<'_>,
) -> Result<Diary> {
    let share = within("water_change_share", options.water_change_share, 0.01, 1.0)?;
    let harvests = logged(tank);
    tank.ask(progress, tank.today, |work| {
        if harvests.is_empty() {
            return Ok(Diary {
                entries: Vec::new(),
                total: None,
                metals: Vec::new(),
                water_changes_saved: None,
                summary: vec![
                    "The log has no harvest: write down the day of each and its weight, drained \
                     the same way every time."
                        .to_owned(),
                ],
            });
        }
        let runs = tank.follow(&LoggedTank::run_options(tank.today), work)?;
        let followed: Vec<(&Parameters, Run)> = tank
            .members
            .iter()
            .zip(runs)
            .filter_map(|(m, run)| Some((&m.parameters, run.ok()?)))
            .collect();
        let by_member: Vec<Vec<Grams>> = followed
            .iter()
            .map(|(p, run)| harvests.iter().map(|h| grams(h, p, run)).collect())
            .collect();
        Ok(add_up(tank, share, &harvests, &followed, &by_member))
    })
}

/// A harvest of the log.
struct Logged {
    day: f64,
    weight: Option<HarvestWeight>,
}

fn logged(tank: &LoggedTank<'_>) -> Vec<Logged> {
    let entries = tank.log.entries.iter().filter(|e| e.day <= tank.today);
    entries
        .filter_map(|e| match e.record {
            Record::Harvest { weight } => Some(Logged { day: e.day, weight }),
            Record::Event(Event::Harvest { .. }) => Some(Logged {
                day: e.day,
                weight: None,
            }),
            _ => None,
        })
        .collect()
}

fn grams(logged: &Logged, parameters: &Parameters, run: &Run) -> Grams {
    let turf = &parameters.turf;
    let simulated = run
        .harvests
        .iter()
        .min_by(|a, b| {
            (a.day - logged.day)
                .abs()
                .total_cmp(&(b.day - logged.day).abs())
        })
        .filter(|h| (h.day - logged.day).abs() < SAME_HARVEST_DAYS);
    let dry = match logged.weight {
        Some(HarvestWeight::DryGrams(grams)) => grams,
        Some(HarvestWeight::WetGrams(grams)) => grams * turf.dry_per_drained_mass,
        None => simulated.map_or(0.0, |h| h.harvest.dry_grams),
    };
    let dry = dry * (1.0 - simulated.map_or(0.0, |h| h.fed_back_share));
    let carbon_mol = dry / turf.dry_grams_per_mol_carbon();
    let (nitrogen, phosphorus) = match simulated.map(|h| h.harvest) {
        Some(h) if h.carbon_mol > 0.0 => (
            h.nitrogen_mol / h.carbon_mol,
            h.phosphorus_mol / h.carbon_mol,
        ),
        _ => {
            let before = run.samples.partition_point(|s| s.day < logged.day);
            let sample = run.samples.get(before.saturating_sub(1));
            sample.map_or((0.0, 0.0), |s| {
                (s.turf_nitrogen_per_carbon, s.turf_phosphorus_per_carbon)
            })
        }
    };
    [
        dry,
        carbon_mol * form::InorganicCarbonAsC::GRAMS_PER_MOL,
        carbon_mol * nitrogen * form::NitrateAsN::GRAMS_PER_MOL,
        carbon_mol * phosphorus * form::PhosphateAsP::GRAMS_PER_MOL,
    ]
}

fn exported(grams: &[Grams]) -> Option<Exported> {
    let of = |f: fn(&Grams) -> f64| Quantiles::of(grams.iter().map(f));
    Some(Exported {
        dry_grams: of(|[dry, ..]| *dry)?,
        carbon_grams: of(|[_, carbon, ..]| *carbon)?,
        nitrogen_grams: of(|[.., nitrogen, _]| *nitrogen)?,
        phosphorus_grams: of(|[.., phosphorus]| *phosphorus)?,
    })
}

fn add_up(
    tank: &LoggedTank<'_>,
    share: f64,
    harvests: &[Logged],
    followed: &[(&Parameters, Run)],
    by_member: &[Vec<Grams>],
) -> Diary {
    let entries = harvests
        .iter()
        .enumerate()
        .filter_map(|(i, h)| {
            let grams: Vec<Grams> = by_member.iter().filter_map(|m| m.get(i).copied()).collect();
            Some(DiaryEntry {
                day: h.day,
                weight: h.weight,
                exported: exported(&grams)?,
            })
        })
        .collect();
    let totals: Vec<Grams> = by_member
        .iter()
        .map(|m| {
            m.iter().fold([0.0; 4], |mut sum, grams| {
                sum.iter_mut().zip(grams).for_each(|(s, g)| *s += g);
                sum
            })
        })
        .collect();
    let total = exported(&totals);
    let volume_l = tank.setup.tank.net_volume_l;
    // Mean of the last day, mg/L of nitrogen and of phosphorus.
    let content = |run: &Run, of: fn(&crate::Sample) -> f64| {
        let day = run.samples.iter().filter(|s| s.day > tank.today - 1.0);
        let (sum, count) = day.fold((0.0, 0.0), |(sum, n), s| (sum + of(s), n + 1.0));
        sum / count
    };
    let changes = |part: fn(&Grams) -> f64, of: fn(&crate::Sample) -> f64, per_mg: f64| {
        let changes = totals.iter().zip(followed).map(|(grams, (_, run))| {
            part(grams) * 1e3 / (share * volume_l * content(run, of) * per_mg)
        });
        Quantiles::of(changes)
    };
    let saved = changes(
        |[.., nitrogen, _]| *nitrogen,
        |s| s.nitrate_mg_per_l,
        form::NitrateAsN::GRAMS_PER_MOL / form::NitrateAsNo3::GRAMS_PER_MOL,
    )
    .zip(changes(
        |[.., phosphorus]| *phosphorus,
        |s| s.phosphate_mg_per_l,
        form::PhosphateAsP::GRAMS_PER_MOL / form::PhosphateAsPo4::GRAMS_PER_MOL,
    ))
    .map(|(by_nitrate, by_phosphate)| WaterChangesSaved {
        share,
        by_nitrate,
        by_phosphate,
    });
    let unweighed = harvests.iter().filter(|h| h.weight.is_none()).count();
    Diary {
        summary: words(harvests.len(), unweighed, total.as_ref(), saved.as_ref()),
        entries,
        metals: total.map(|t| metals(&t.dry_grams)).unwrap_or_default(),
        total,
        water_changes_saved: saved,
    }
}

fn metals(dry_grams: &Quantiles) -> Vec<MetalExport> {
    TissueMetalContents::PARAMETERS
        .iter()
        .chain([&ZINC])
        .map(|info| MetalExport {
            metal: info.name.split('_').next().unwrap_or(info.name),
            low_mg: info.low * dry_grams.p5 * 1e-3,
            middle_mg: info.default * dry_grams.p50 * 1e-3,
            high_mg: info.high * dry_grams.p95 * 1e-3,
            source: info.source,
        })
        .collect()
}

fn words(
    count: usize,
    unweighed: usize,
    total: Option<&Exported>,
    saved: Option<&WaterChangesSaved>,
) -> Vec<String> {
    let mut summary = Vec::new();
    if let Some(total) = total {
        summary.push(format!(
            "{count} {} carried out {} of nitrogen and {} of phosphorus in {} of dry turf.",
            if count == 1 { "harvest" } else { "harvests" },
            range(&total.nitrogen_grams, "g"),
            range(&total.phosphorus_grams, "g"),
            range(&total.dry_grams, "g"),
        ));
    }
    if unweighed > 0 {
        summary.push(format!(
            "{unweighed} of them were not weighed; the model's harvest stands in for them."
        ));
    }
    if let Some(saved) = saved {
        summary.push(format!(
            "To take out as much at today's contents it would have needed {} water changes of {} \
             for the nitrogen and {} for the phosphorus. A water change also renews what turf \
             does not: it is no reason to leave them out.",
            range(&saved.by_nitrate, ""),
            crate::plan::words::percent(saved.share),
            range(&saved.by_phosphate, ""),
        ));
    }
    summary.push(
        "Metals are reckoned from published contents of algae, not from this tank.".to_owned(),
    );
    summary
}

#[cfg(test)]
mod tests {
    use std::ops::ControlFlow;

    use super::*;
    use crate::fit::Member;
    use crate::log::{Entry, Log};
    use crate::plan::Goals;
    use crate::testing::setup;

    fn of(log: &Log, members: &[Member]) -> Result<Diary> {
        let setup = setup();
        let tank = LoggedTank {
            setup: &setup,
            log,
            members,
            goals: &Goals::default(),
            today: 40.0,
        };
        diary(&tank, &DiaryOptions::default(), &mut |_, _| {
            ControlFlow::Continue(())
        })
    }

    fn member() -> Member {
        Member {
            setup: setup(),
            parameters: Parameters::default(),
        }
    }

    fn harvest(day: f64, weight: Option<HarvestWeight>) -> Entry {
        Entry {
            day,
            record: Record::Harvest { weight },
        }
    }

    /// One tank, its planned harvests on days 6, 15, 24, 33 written down: the diary is
    /// what the books of the run say left with them.
    #[test]
    fn unweighed_harvests_are_what_the_books_say() {
        use crate::flow::{Process, Stock};
        let log = Log {
            entries: [6.0, 15.0, 24.0, 33.0].map(|d| harvest(d, None)).to_vec(),
            ..Log::default()
        };
        let members = [member()];
        let diary = of(&log, &members).unwrap();
        let run = crate::simulate(
            &setup().tank,
            &setup().schedule,
            &Parameters::default(),
            &LoggedTank::run_options(40.0),
        )
        .unwrap();
        let total = diary.total.unwrap();
        for (got, stock, grams_per_mol) in [
            (total.carbon_grams, Stock::TurfC, 12.011),
            (total.nitrogen_grams, Stock::TurfN, 14.007),
            (total.phosphorus_grams, Stock::TurfP, 30.974),
        ] {
            let left = -run.ledger.entry(Process::Harvest, stock) * grams_per_mol;
            // Atomic weights to five digits.
            assert!(
                (got.p50 / left - 1.0).abs() < 1e-4,
                "{stock:?} {got:?} {left}"
            );
        }
        // 10 % of 200 L at the last day's nitrate, by hand.
        let last: Vec<f64> = run
            .samples
            .iter()
            .filter(|s| s.day > 39.0)
            .map(|s| s.nitrate_mg_per_l)
            .collect();
        let nitrate = last.iter().sum::<f64>() / last.len() as f64;
        let grams = 20.0 * nitrate * 14.007 / 62.004 * 1e-3;
        let saved = diary.water_changes_saved.unwrap().by_nitrate.p50;
        assert!((saved / (total.nitrogen_grams.p50 / grams) - 1.0).abs() < 1e-3);
    }

    #[test]
    fn a_weight_that_was_written_down_counts() {
        let dry = |weight| {
            let log = Log {
                entries: vec![harvest(6.0, Some(weight))],
                ..Log::default()
            };
            let diary = of(&log, &[member()]).unwrap();
            diary.entries[0].exported.dry_grams.p50
        };
        assert_eq!(dry(HarvestWeight::DryGrams(7.0)), 7.0);
        // A tenth of drained turf is dry in the default tank.
        assert!((dry(HarvestWeight::WetGrams(70.0)) - 7.0).abs() < 1e-9);
    }

    #[test]
    fn metals_span_the_published_range() {
        let q = Quantiles::of([10.0]).unwrap();
        for metal in metals(&q) {
            assert!(metal.low_mg < metal.middle_mg && metal.middle_mg < metal.high_mg);
        }
        // 10 g at 5 to 50 µg of copper per gram.
        let copper = &metals(&q)[2];
        assert_eq!(copper.metal, "copper");
        assert!((copper.low_mg - 0.05).abs() < 1e-12 && (copper.high_mg - 0.5).abs() < 1e-12);
    }

    #[test]
    fn no_harvest_is_said_plainly() {
        let diary = of(&Log::default(), &[member()]).unwrap();
        assert!(diary.entries.is_empty() && diary.total.is_none());
        assert!(diary.summary[0].contains("no harvest"));
        assert!(of(&Log::default(), &[]).is_err());
    }
}
