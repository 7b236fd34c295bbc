use halimeda::form;
use halimeda::quantity::Form as _;
use serde::{Deserialize, Serialize};

use crate::error::{Result, within};
use crate::flow::{Process, Stock};
use crate::parameters::Parameters;
use crate::quantiles::{quantile, sorted};
use crate::simulate::{HarvestRecord, Run, RunOptions, Sample};
use crate::tank::Tank;

/// What is known of one number of an [`Outcome`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct OutcomeInfo {
    /// Name of the field.
    pub name: &'static str,
    /// What it is, in words.
    pub words: &'static str,
    /// Unit; empty for a share, a ratio or a pH.
    pub unit: &'static str,
}

macro_rules! outcome {
    ($( $(#[$doc:meta])* $field:ident: $words:literal, $unit:literal; )*) => {
        /// What a run came to, in single numbers of its last part.
        #[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
        pub struct Outcome { $( $(#[$doc])* pub $field: f64, )* }

        impl Outcome {
            /// What the numbers are, in the order of [`Outcome::values`].
            pub const INFOS: &'static [OutcomeInfo] = &[
                $( OutcomeInfo { name: stringify!($field), words: $words, unit: $unit }, )*
            ];

            /// All numbers.
            #[must_use]
            pub const fn values(&self) -> [f64; Self::INFOS.len()] {
                [ $( self.$field, )* ]
            }
        }
    };
}

outcome! {
    /// Nitrate, median over time, mg/L as NO3.
    nitrate_mg_per_l: "nitrate", "mg/L";
    /// Nitrate that 5 % of the time lies below, mg/L as NO3.
    nitrate_p5_mg_per_l: "nitrate at its lowest 5 % of the time", "mg/L";
    /// Nitrate that 5 % of the time lies above, mg/L as NO3.
    nitrate_p95_mg_per_l: "nitrate at its highest 5 % of the time", "mg/L";
    /// Lowest nitrate, mg/L as NO3.
    nitrate_floor_mg_per_l: "lowest nitrate", "mg/L";
    /// Phosphate, median over time, mg/L as PO4.
    phosphate_mg_per_l: "phosphate", "mg/L";
    /// Phosphate that 5 % of the time lies below, mg/L as PO4.
    phosphate_p5_mg_per_l: "phosphate at its lowest 5 % of the time", "mg/L";
    /// Phosphate that 5 % of the time lies above, mg/L as PO4.
    phosphate_p95_mg_per_l: "phosphate at its highest 5 % of the time", "mg/L";
    /// Lowest phosphate, mg/L as PO4.
    phosphate_floor_mg_per_l: "lowest phosphate", "mg/L";
    /// Highest less lowest pH of a day, total scale, median over the days.
    daily_ph_swing: "daily pH swing", "";
    /// Lowest pH while the display is dark, total scale.
    night_ph: "lowest pH at night", "";
    /// Lowest oxygen while the display is dark, share of saturation.
    night_oxygen_saturation: "lowest oxygen saturation at night", "";
    /// Total alkalinity, median over time, µmol/kg.
    alkalinity_umol_per_kg: "alkalinity", "µmol/kg";
    /// Trend of alkalinity (least squares), µmol/kg per day.
    alkalinity_drift_umol_per_kg_per_day: "drift of alkalinity", "µmol/kg/d";
    /// Saturation state of aragonite, median over time.
    aragonite_saturation: "aragonite saturation", "";
    /// Highest total ammonia, mg/L as N.
    ammonia_mg_n_per_l: "highest ammonia (as N)", "mg/L";
    /// Highest un-ionised ammonia, mg/L as NH3.
    unionised_ammonia_mg_per_l: "highest un-ionised ammonia", "mg/L";
    /// Nitrogen carried out by harvests (less what is fed back), mmol per day.
    nitrogen_harvested_mmol_per_day: "nitrogen harvested", "mmol/d";
    /// Phosphorus carried out by harvests (less what is fed back), mmol per day.
    phosphorus_harvested_mmol_per_day: "phosphorus harvested", "mmol/d";
    /// Nitrogen harvested and gained by the standing turf, mmol per day: what the
    /// turf takes out of the water and keeps, wherever in a harvest interval the
    /// last part of the run begins and ends.
    nitrogen_removed_mmol_per_day: "nitrogen removed by the turf", "mmol/d";
    /// Phosphorus harvested and gained by the standing turf, mmol per day.
    phosphorus_removed_mmol_per_day: "phosphorus removed by the turf", "mmol/d";
    /// Dry mass of a harvest, mean, g; 0 without harvests.
    harvest_dry_grams: "dry mass of a harvest", "g";
    /// Drained mass of a harvest, mean, g; 0 without harvests.
    harvest_drained_grams: "drained mass of a harvest", "g";
    /// Turf per lit area, median over time, g dry per m².
    turf_g_dry_per_m2: "standing turf", "g/m²";
    /// Lowest reserve of the holdfast layer.
    turf_reserve: "lowest reserve of the holdfast layer", "";
    /// Alkalinity taken out by everything but dosing and water changes, µmol/kg
    /// per day; below zero where more is set free.
    alkalinity_consumed_umol_per_kg_per_day: "alkalinity consumed", "µmol/kg/d";
    /// Calcium taken out by calcification, mg/L per day.
    calcium_consumed_mg_per_l_per_day: "calcium consumed", "mg/L/d";
    /// Magnesium taken out by calcification, mg/L per day.
    magnesium_consumed_mg_per_l_per_day: "magnesium consumed", "mg/L/d";
}

/// The last part of a run that outcomes are taken from: options that sample and
/// keep books for it.
///
/// # Errors
/// The window is not between a day and the length of the run.
pub(crate) fn last_days(options: &RunOptions, window_days: f64) -> Result<RunOptions> {
    within("window_days", window_days, 1.0, options.days)?;
    Ok(RunOptions {
        books_from_day: options.days - window_days,
        ..*options
    })
}

impl Outcome {
    /// Takes the outcome of a run from the days on which its books were kept
    /// ([`RunOptions::books_from_day`]).
    ///
    /// # Errors
    /// The books cover less than a day, or the samples no whole day.
    pub fn of(
        run: &Run,
        tank: &Tank,
        parameters: &Parameters,
        options: &RunOptions,
    ) -> Result<Self> {
        let first = options.books_from_day;
        let days = within("days with books", options.days - first, 1.0, f64::MAX)?;
        let from = run.samples.partition_point(|s| s.day < first);
        let samples = run.samples.get(from..).unwrap_or_default();
        within(
            "samples per day",
            samples.len() as f64 / days,
            2.0,
            f64::MAX,
        )?;

        let over_time = |of: fn(&Sample) -> f64| {
            let values = sorted(samples.iter().map(of));
            // There are samples, and all are numbers.
            [0.0, 0.05, 0.5, 0.95, 1.0].map(|q| quantile(&values, q).unwrap_or(f64::NAN))
        };
        let [nitrate_floor, nitrate_p5, nitrate, nitrate_p95, _] =
            over_time(|s| s.nitrate_mg_per_l);
        let [phosphate_floor, phosphate_p5, phosphate, phosphate_p95, _] =
            over_time(|s| s.phosphate_mg_per_l);
        let [.., ammonia] = over_time(|s| s.ammonia_mg_n_per_l);
        let [.., unionised_ammonia] = over_time(|s| s.unionised_ammonia_mg_per_l);
        let [_, _, alkalinity, ..] = over_time(|s| s.alkalinity_umol_per_kg);
        let [_, _, aragonite_saturation, ..] = over_time(|s| s.aragonite_saturation);
        let [_, _, turf, ..] = over_time(|s| s.turf_g_dry_per_m2);
        let [turf_reserve, ..] = over_time(|s| s.turf_reserve);

        let harvests = || run.harvests.iter().filter(|h| h.day >= first);
        let carried_out = |of: fn(&HarvestRecord) -> f64| -> f64 {
            harvests()
                .map(|h| (1.0 - h.fed_back_share) * of(h))
                .sum::<f64>()
                * 1e3
                / days
        };
        let gained = |stock: Stock| {
            let (before, after) = run.ledger.stock(stock);
            (after - before) * 1e3 / days
        };
        let nitrogen_harvested = carried_out(|h| h.harvest.nitrogen_mol);
        let phosphorus_harvested = carried_out(|h| h.harvest.phosphorus_mol);
        let count = harvests().count().max(1) as f64;
        let dry_grams = harvests().map(|h| h.harvest.dry_grams).sum::<f64>() / count;

        let (_, kg) = run.ledger.stock(Stock::Water);
        let consumed = |stock: Stock| {
            let brought: f64 = Process::ALL
                .iter()
                .filter(|p| !matches!(p, Process::Dosing | Process::WaterChange))
                .map(|&p| run.ledger.entry(p, stock))
                .sum();
            -brought / days / kg
        };
        // mol/kg to mg/L by the density at the start.
        let kg_per_l = crate::model::water_of(tank, tank.practical_salinity)?
            .density()?
            .kg_per_l();
        let mg_per_l = |stock, grams_per_mol: f64| consumed(stock) * grams_per_mol * kg_per_l * 1e3;

        Ok(Self {
            nitrate_mg_per_l: nitrate,
            nitrate_p5_mg_per_l: nitrate_p5,
            nitrate_p95_mg_per_l: nitrate_p95,
            nitrate_floor_mg_per_l: nitrate_floor,
            phosphate_mg_per_l: phosphate,
            phosphate_p5_mg_per_l: phosphate_p5,
            phosphate_p95_mg_per_l: phosphate_p95,
            phosphate_floor_mg_per_l: phosphate_floor,
            daily_ph_swing: daily_ph_swing(samples),
            night_ph: night_minimum(samples, |s| s.ph_total),
            night_oxygen_saturation: night_minimum(samples, |s| s.oxygen_saturation),
            alkalinity_umol_per_kg: alkalinity,
            alkalinity_drift_umol_per_kg_per_day: trend(samples, |s| s.alkalinity_umol_per_kg),
            aragonite_saturation,
            ammonia_mg_n_per_l: ammonia,
            unionised_ammonia_mg_per_l: unionised_ammonia,
            nitrogen_harvested_mmol_per_day: nitrogen_harvested,
            phosphorus_harvested_mmol_per_day: phosphorus_harvested,
            nitrogen_removed_mmol_per_day: nitrogen_harvested + gained(Stock::TurfN),
            phosphorus_removed_mmol_per_day: phosphorus_harvested + gained(Stock::TurfP),
            harvest_dry_grams: dry_grams,
            harvest_drained_grams: dry_grams / parameters.turf.dry_per_drained_mass,
            turf_g_dry_per_m2: turf,
            turf_reserve,
            alkalinity_consumed_umol_per_kg_per_day: consumed(Stock::Alkalinity) * 1e6,
            calcium_consumed_mg_per_l_per_day: mg_per_l(
                Stock::Calcium,
                form::CalciumAsCa::GRAMS_PER_MOL,
            ),
            magnesium_consumed_mg_per_l_per_day: mg_per_l(
                Stock::Magnesium,
                form::MagnesiumAsMg::GRAMS_PER_MOL,
            ),
        })
    }
}

/// Median over the whole days of the highest less the lowest pH.
fn daily_ph_swing(samples: &[Sample]) -> f64 {
    let swings = samples
        .chunk_by(|a, b| a.day.floor().total_cmp(&b.day.floor()).is_eq())
        // The moment of the end is no day.
        .filter(|day| day.len() > 1)
        .map(|day| {
            let ph = || day.iter().map(|s| s.ph_total);
            ph().fold(f64::NEG_INFINITY, f64::max) - ph().fold(f64::INFINITY, f64::min)
        });
    quantile(&sorted(swings), 0.5).unwrap_or(f64::NAN)
}

/// Lowest value while the display is dark; at all if it never is.
fn night_minimum(samples: &[Sample], of: fn(&Sample) -> f64) -> f64 {
    let least = |night: bool| {
        samples
            .iter()
            .filter(|s| !night || !s.display_lit)
            .map(of)
            .fold(f64::INFINITY, f64::min)
    };
    let at_night = least(true);
    if at_night.is_finite() {
        at_night
    } else {
        least(false)
    }
}

/// Slope of a straight line through the samples by least squares, per day.
fn trend(samples: &[Sample], of: fn(&Sample) -> f64) -> f64 {
    let n = samples.len() as f64;
    let mean = |f: &dyn Fn(&Sample) -> f64| samples.iter().map(f).sum::<f64>() / n;
    let (day, value) = (mean(&|s| s.day), mean(&of));
    let covariance = mean(&|s| (s.day - day) * (of(s) - value));
    covariance / mean(&|s| (s.day - day) * (s.day - day))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::simulate::simulate;
    use crate::testing::setup;

    fn run_of(days: f64, window: f64) -> (Run, Outcome, crate::tank::Setup) {
        let mut setup = setup();
        // Its corrections would drain water with what is dissolved.
        setup.schedule.salinity_check_every_days = None;
        let options = last_days(&RunOptions::days(days), window).unwrap();
        let p = Parameters::default();
        let run = simulate(&setup.tank, &setup.schedule, &p, &options).unwrap();
        let outcome = Outcome::of(&run, &setup.tank, &p, &options).unwrap();
        (run, outcome, setup)
    }

    #[test]
    fn names_and_values_agree() {
        let (_, outcome, _) = run_of(10.0, 5.0);
        let place = |name| Outcome::INFOS.iter().position(|i| i.name == name).unwrap();
        assert_eq!(outcome.values()[place("night_ph")], outcome.night_ph);
        assert_eq!(
            outcome.values()[place("nitrate_mg_per_l")],
            outcome.nitrate_mg_per_l
        );
    }

    /// Each number by another way, from the samples of the last ten of thirty days.
    #[test]
    fn outcomes_are_what_the_samples_show() {
        let (run, o, setup) = run_of(30.0, 10.0);
        let last: Vec<&Sample> = run.samples.iter().filter(|s| s.day >= 20.0).collect();
        let nitrate = last.iter().map(|s| s.nitrate_mg_per_l);
        assert_eq!(
            o.nitrate_floor_mg_per_l,
            nitrate.clone().fold(f64::MAX, f64::min)
        );
        let below = nitrate.filter(|&n| n < o.nitrate_mg_per_l).count();
        assert_eq!(below, last.len() / 2);
        let night = last.iter().filter(|s| !s.display_lit);
        assert_eq!(
            o.night_ph,
            night.map(|s| s.ph_total).fold(f64::MAX, f64::min)
        );
        let of_day = |day: f64| {
            let ph = || {
                last.iter()
                    .filter(move |s| s.day.floor() == day)
                    .map(|s| s.ph_total)
            };
            ph().fold(f64::MIN, f64::max) - ph().fold(f64::MAX, f64::min)
        };
        let mut swings: Vec<f64> = (20..30).map(|d| of_day(f64::from(d))).collect();
        swings.sort_by(f64::total_cmp);
        assert!((o.daily_ph_swing - 0.5 * (swings[4] + swings[5])).abs() < 1e-12);

        // What was dosed less what the water gained was used up.
        let gained =
            (last[last.len() - 1].alkalinity_umol_per_kg - last[0].alkalinity_umol_per_kg) / 10.0;
        let kg = run.ledger.stock(Stock::Water).1;
        let dosed = setup.schedule.dosing.bicarbonate_mol_per_day * 1e6 / kg;
        let used = o.alkalinity_consumed_umol_per_kg_per_day;
        assert!(
            (used - (dosed - gained)).abs() < 1e-3 * used.abs(),
            "{used} {dosed} {gained}"
        );
        // Days 24 and later: harvests on day 24 and, by nine days, none else.
        let harvests: Vec<_> = run.harvests.iter().filter(|h| h.day >= 20.0).collect();
        assert_eq!(harvests.len(), 1);
        assert_eq!(o.harvest_dry_grams, harvests[0].harvest.dry_grams);
        let drained = harvests[0].harvest.drained_grams;
        assert!((o.harvest_drained_grams / drained - 1.0).abs() < 1e-12);
        let nitrogen = harvests[0].harvest.nitrogen_mol * 100.0;
        assert!((o.nitrogen_harvested_mmol_per_day / nitrogen - 1.0).abs() < 1e-12);
        let turf_n = |s: &Sample| {
            let carbon = s.turf_g_dry_per_m2 * setup.tank.screen.lit_area_m2()
                / Parameters::default().turf.dry_grams_per_mol_carbon();
            carbon * s.turf_nitrogen_per_carbon
        };
        let grown = (turf_n(last[last.len() - 1]) - turf_n(last[0])) * 100.0;
        assert!((o.nitrogen_removed_mmol_per_day - nitrogen - grown).abs() < 1e-6);
    }

    #[test]
    fn a_window_longer_than_the_run_or_too_few_samples_are_refused() {
        assert!(last_days(&RunOptions::days(10.0), 11.0).is_err());
        let setup = setup();
        let options = last_days(&RunOptions::days(10.0).sampled_every_days(3.0), 5.0).unwrap();
        let p = Parameters::default();
        let run = simulate(&setup.tank, &setup.schedule, &p, &options).unwrap();
        assert!(Outcome::of(&run, &setup.tank, &p, &options).is_err());
    }

    #[test]
    fn a_trend_is_the_slope_of_a_line() {
        let (run, ..) = run_of(3.0, 2.0);
        assert!((trend(&run.samples, |s| 3.0 - 2.5 * s.day) + 2.5).abs() < 1e-9);
    }
}
