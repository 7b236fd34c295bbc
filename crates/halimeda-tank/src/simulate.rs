//! A tank through time.

use std::ops::ControlFlow;

use halimeda::carbonate::{Bases, EquilibriumOptions};
use halimeda::dosing::Salt;
use halimeda::process::FeedKind;
use halimeda::turf::{Harvest, TurfStock};
use halimeda::{Alkalinity, Content, DryMoleFractionCo2, Water, form, quantity::Form as _};
use serde::{Deserialize, Serialize};

use crate::error::{Error, Result, within};
use crate::flow::{Flow, Process, SALINITY_PER_GRAM_PER_KG, Stock};
use crate::integrator::{DormandPrince, Effort, Stop};
use crate::ledger::Ledger;
use crate::model::{
    DETRITUS_C_N_P, DETRITUS_G_PER_MOL_C, Model, STATES, Switches, stocks, water_of,
};
use crate::parameters::Parameters;
use crate::tank::{Dosing, Event, NewWater, Schedule, Tank};
use crate::timeline::{Action, Moment, lit_at_start, timeline};
use crate::variable::Variable;

/// How a run is followed and sampled.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RunOptions {
    /// Length of the run, d.
    pub days: f64,
    /// Time between samples, d; the start and the end are sampled in any case.
    pub sample_every_days: f64,
    /// Relative tolerance of a step.
    pub relative_tolerance: f64,
    /// Day from which the books are kept, d; 0 for the whole run.
    pub books_from_day: f64,
}

impl RunOptions {
    /// A run of some days, sampled hourly, at a tolerance of 1e-6.
    #[must_use]
    pub const fn days(days: f64) -> Self {
        Self {
            days,
            sample_every_days: 1.0 / 24.0,
            relative_tolerance: 1e-6,
            books_from_day: 0.0,
        }
    }

    /// Sampled at another interval, d.
    #[must_use]
    pub const fn sampled_every_days(mut self, days: f64) -> Self {
        self.sample_every_days = days;
        self
    }

    fn check(&self) -> Result<()> {
        within("days", self.days, 0.0, 36_525.0)?;
        within("sample_every_days", self.sample_every_days, 1e-4, 36_525.0)?;
        within("relative_tolerance", self.relative_tolerance, 1e-13, 1e-2)?;
        within("books_from_day", self.books_from_day, 0.0, self.days)?;
        Ok(())
    }
}

/// The tank at one moment, as instruments and test kits would show it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Sample {
    /// Time since the start, d.
    pub day: f64,
    /// pH, total scale.
    pub ph_total: f64,
    /// Total alkalinity, µmol/kg.
    pub alkalinity_umol_per_kg: f64,
    /// Dissolved inorganic carbon, µmol/kg.
    pub inorganic_carbon_umol_per_kg: f64,
    /// Dissolved CO2, µmol/kg.
    pub carbon_dioxide_umol_per_kg: f64,
    /// Saturation state of aragonite.
    pub aragonite_saturation: f64,
    /// Dissolved oxygen, µmol/kg.
    pub oxygen_umol_per_kg: f64,
    /// Dissolved oxygen, share of saturation under the room's air.
    pub oxygen_saturation: f64,
    /// Nitrate, mg/L as NO3.
    pub nitrate_mg_per_l: f64,
    /// Phosphate, mg/L as PO4.
    pub phosphate_mg_per_l: f64,
    /// Total ammonia, mg/L as N.
    pub ammonia_mg_n_per_l: f64,
    /// Un-ionised ammonia, mg/L as NH3.
    pub unionised_ammonia_mg_per_l: f64,
    /// Calcium, mg/L.
    pub calcium_mg_per_l: f64,
    /// Magnesium, mg/L.
    pub magnesium_mg_per_l: f64,
    /// Practical salinity.
    pub practical_salinity: f64,
    /// Turf, g of dry mass per m² of lit area.
    pub turf_g_dry_per_m2: f64,
    /// Nitrogen of the turf, mol per mol of carbon.
    pub turf_nitrogen_per_carbon: f64,
    /// Phosphorus of the turf, mol per mol of carbon.
    pub turf_phosphorus_per_carbon: f64,
    /// Share of the screen that carries turf.
    pub turf_cover: f64,
    /// Reserve of the holdfast layer, 0 to 1.
    pub turf_reserve: f64,
    /// Whether the screen is lit.
    pub screen_lit: bool,
    /// Whether the display is lit.
    pub display_lit: bool,
}

/// A harvest that took place.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct HarvestRecord {
    /// Time since the start, d.
    pub day: f64,
    /// What was taken off the screen.
    pub harvest: Harvest,
    /// Share of it fed back to the animals.
    pub fed_back_share: f64,
}

/// What a run gave.
#[derive(Debug, Clone)]
pub struct Run {
    /// The tank on the grid of the options.
    pub samples: Vec<Sample>,
    /// Harvests that took place.
    pub harvests: Vec<HarvestRecord>,
    /// Dated events that took place, with their day.
    pub events: Vec<(f64, Event)>,
    /// The dosing, as adjusted, in the mean over the days with books.
    pub dosing: Dosing,
    /// The books.
    pub ledger: Ledger,
    /// What the integration cost.
    pub effort: Effort,
    /// Every stock right before each switch, in the order of [`Stock::ALL`].
    pub at_switches: Vec<(f64, [f64; Stock::COUNT])>,
}

impl Run {
    /// A number of the samples at a day, linear between the two beside it; none
    /// outside the run.
    #[must_use]
    pub fn value_at(&self, variable: Variable, day: f64) -> Option<f64> {
        let after = self.samples.partition_point(|s| s.day < day);
        let later = self.samples.get(after)?;
        let value = variable.of(later);
        let Some(earlier) = after.checked_sub(1).and_then(|i| self.samples.get(i)) else {
            return (later.day <= day).then_some(value);
        };
        let share = (day - earlier.day) / (later.day - earlier.day);
        Some(variable.of(earlier) * (1.0 - share) + share * value)
    }
}

/// Called as a run goes on, with the day reached and the days in all; stops the
/// run by breaking.
pub type Progress<'a> = &'a mut dyn FnMut(f64, f64) -> ControlFlow<()>;

/// Follows a tank through time.
///
/// # Errors
/// A number of the tank, the schedule, the parameters or the options lies
/// outside its limits; the water leaves the range that its chemistry is published
/// for; more is taken out of a stock than it holds; or the equations cannot be
/// followed.
pub fn simulate(
    tank: &Tank,
    schedule: &Schedule,
    parameters: &Parameters,
    options: &RunOptions,
) -> Result<Run> {
    simulate_with_progress(tank, schedule, parameters, options, &mut |_, _| {
        ControlFlow::Continue(())
    })
}

/// As [`simulate`], telling how far it is and stopping where asked to.
///
/// # Errors
/// As [`simulate`], or [`Error::Cancelled`].
pub fn simulate_with_progress(
    tank: &Tank,
    schedule: &Schedule,
    parameters: &Parameters,
    options: &RunOptions,
    progress: Progress<'_>,
) -> Result<Run> {
    options.check()?;
    tank.check()?;
    schedule.check()?;
    parameters.check()?;

    let mut course = Course::begin(tank, schedule, parameters, options)?;
    course.follow(&timeline(schedule, options.days), progress)?;
    Ok(course.finish())
}

/// A course that left a run.
pub(crate) struct Branch {
    /// The tank from the fork on.
    pub(crate) samples: Vec<Sample>,
    /// Harvests from the fork on.
    pub(crate) harvests: Vec<HarvestRecord>,
    /// Why it could not be followed to its end, if it could not.
    pub(crate) broken_off: Option<Error>,
}

/// Follows a tank to the end of the options and from there, for some days more,
/// once for each list of events that strike there. The common part is run once.
pub(crate) fn simulate_branches(
    tank: &Tank,
    schedule: &Schedule,
    parameters: &Parameters,
    options: &RunOptions,
    further_days: f64,
    strikes: &[Vec<Event>],
    progress: Progress<'_>,
) -> Result<(Run, Vec<Branch>)> {
    let longer = RunOptions {
        days: options.days + further_days,
        ..*options
    };
    for options in [options, &longer] {
        options.check()?;
    }
    tank.check()?;
    schedule.check()?;
    parameters.check()?;

    let mut trunk = Course::begin(tank, schedule, parameters, options)?;
    let moments = timeline(schedule, longer.days);
    let fork = moments.partition_point(|m| m.day < options.days);
    let (before, after) = moments.split_at(fork);
    trunk.follow(before, progress)?;

    let mut branches = Vec::with_capacity(strikes.len());
    for events in strikes {
        let mut branch = trunk.fork(&longer);
        let followed = events
            .iter()
            .try_for_each(|&event| branch.act(Action::Event(event)))
            .and_then(|()| branch.follow(after, progress));
        let broken_off = match followed {
            Err(cancelled @ Error::Cancelled { .. }) => return Err(cancelled),
            followed => followed.err(),
        };
        let (samples, harvests) = match broken_off {
            Some(_) => (branch.samples, branch.harvests),
            None => {
                let run = branch.finish();
                (run.samples, run.harvests)
            }
        };
        branches.push(Branch {
            samples,
            harvests,
            broken_off,
        });
    }
    Ok((trunk.finish(), branches))
}

/// A run under way.
#[derive(Clone)]
struct Course<'a> {
    tank: &'a Tank,
    schedule: &'a Schedule,
    parameters: &'a Parameters,
    options: &'a RunOptions,
    model: Model<'a>,
    solver: DormandPrince<STATES, { Stock::COUNT }>,
    state: [f64; STATES],
    day: f64,
    /// Whether something switched since the model was last set.
    stale: bool,
    switches: Switches,
    feeding_factor: f64,
    feeding: bool,
    harvesting: bool,
    keeper: bool,
    /// Contents of the first test for dosing, mol/kg; day and contents of the last.
    meant: [f64; DOSED.len()],
    tested: (f64, [f64; DOSED.len()]),
    /// What was dosed since the books were opened up to a day, mol.
    dosed: (f64, [f64; DOSED.len()]),
    lamp_hours: f64,
    next_sample: usize,
    samples: Vec<Sample>,
    harvests: Vec<HarvestRecord>,
    events: Vec<(f64, Event)>,
    at_switches: Vec<(f64, [f64; Stock::COUNT])>,
    ledger: Ledger,
}

/// Moments closer than this, d, are one: the clock times of two switches are
/// sums of decimal hours that differ in their last bits.
const SIMULTANEOUS: f64 = 1e-9;

/// Least excess of salinity that a keeper's instrument shows: common practice, no
/// source.
const SALINITY_NOTICED: f64 = 0.3;

/// Share of its water below which a tank counts as dried up.
const DRIED_UP: f64 = 0.05;

/// A new screen starts with this share of it settled: what spores and fragments
/// from the tank and from hands make of it in its first hours. Common practice,
/// no source.
const FIRST_COVER: f64 = 0.1;

impl<'a> Course<'a> {
    fn begin(
        tank: &'a Tank,
        schedule: &'a Schedule,
        parameters: &'a Parameters,
        options: &'a RunOptions,
    ) -> Result<Self> {
        let screen = &tank.screen;
        let switches = Switches {
            display_lit: lit_at_start(&schedule.display_light),
            screen_lit: lit_at_start(&schedule.screen_light),
            screen_lamp_works: true,
            pump_runs: true,
            tops_off: true,
            screen_flow_share: 1.0,
            room_co2_ppm: tank.air.co2_ppm,
            iron_oxide_grams: tank.iron_oxide_grams,
            lamp_share: parameters.lamp.remaining(screen.lamp_hours),
            // A used screen has been scraped as often as its plan says.
            roughness: match &schedule.harvest {
                Some(plan) => (1.0 - parameters.screen.roughness_lost_per_scraping)
                    .powf((screen.age_days / plan.every_days).floor()),
                None => 1.0,
            },
        };
        let water = water_of(tank, tank.practical_salinity)?;
        let density = water.density()?;
        let kg = tank.net_volume_l * density.kg_per_l();
        let model = Model::new(
            tank,
            parameters,
            schedule.dosing,
            options.relative_tolerance,
            kg,
            &switches,
        )?;

        let w = &tank.water;
        let umol = 1e-6 * kg;
        let dic = match w.inorganic_carbon_umol_per_kg {
            Some(dic) => dic,
            None => inorganic_carbon_under_air(
                &water,
                w.alkalinity_umol_per_kg,
                Bases {
                    ammonia: Content::from_umol_per_kg(w.ammonia_umol_per_kg)?,
                    phosphate: Content::from_umol_per_kg(w.phosphate_umol_per_kg)?,
                    ..Bases::NONE
                },
                tank.air.co2_ppm,
            )?,
        };
        let turf = if screen.turf_g_dry_per_m2 > 0.0 {
            TurfStock::seeded(
                &parameters.turf,
                screen.turf_g_dry_per_m2,
                screen.lit_area_m2(),
                1.0,
            )
        } else {
            bare(parameters, screen.lit_area_m2())
        };
        let detritus_c = w.detritus_dry_grams / DETRITUS_G_PER_MOL_C;
        let [_, detritus_n, detritus_p] = DETRITUS_C_N_P;

        let mut state = [0.0; STATES];
        let mut put = |stock: Stock, amount: f64| {
            if let Some(slot) = state.get_mut(stock as usize) {
                *slot = amount;
            }
        };
        put(Stock::Alkalinity, w.alkalinity_umol_per_kg * umol);
        put(Stock::InorganicCarbon, dic * umol);
        put(
            Stock::Oxygen,
            w.oxygen_saturation * model.oxygen_equilibrium() * kg,
        );
        put(Stock::Ammonium, w.ammonia_umol_per_kg * umol);
        put(Stock::Nitrate, w.nitrate_umol_per_kg * umol);
        put(Stock::Phosphate, w.phosphate_umol_per_kg * umol);
        put(Stock::Calcium, w.calcium_umol_per_kg * umol);
        put(Stock::Magnesium, w.magnesium_umol_per_kg * umol);
        put(Stock::Strontium, w.strontium_umol_per_kg * umol);
        put(Stock::DetritusC, detritus_c);
        put(Stock::DetritusN, detritus_c * detritus_n);
        put(Stock::DetritusP, detritus_c * detritus_p);
        put(Stock::Water, kg);
        put(Stock::Salt, tank.practical_salinity * kg);
        put(Stock::TurfC, turf.carbon_mol);
        put(Stock::TurfN, turf.nitrogen_mol);
        put(Stock::TurfP, turf.phosphorus_mol);
        put(Stock::Cover, turf.cover.min(switches.roughness));
        put(Stock::Reserve, turf.reserve);

        let ledger = Ledger::new(stocks(&state), model.ratios());
        Ok(Self {
            tank,
            schedule,
            parameters,
            options,
            model,
            solver: DormandPrince::new(),
            state,
            day: 0.0,
            stale: false,
            switches,
            feeding_factor: 1.0,
            feeding: true,
            harvesting: true,
            keeper: true,
            meant: dosed_contents(stocks(&state)),
            tested: (0.0, dosed_contents(stocks(&state))),
            dosed: (0.0, [0.0; DOSED.len()]),
            lamp_hours: screen.lamp_hours,
            next_sample: 0,
            samples: Vec::new(),
            harvests: Vec::new(),
            events: Vec::new(),
            at_switches: Vec::new(),
            ledger,
        })
    }

    /// This course at this moment with nothing recorded yet.
    fn fork(&self, options: &'a RunOptions) -> Self {
        Self {
            options,
            samples: Vec::new(),
            harvests: Vec::new(),
            events: Vec::new(),
            at_switches: Vec::new(),
            ledger: self.ledger.clone(),
            solver: self.solver.clone(),
            model: self.model.clone(),
            ..*self
        }
    }

    /// Lives through moments and then on to the end.
    fn follow(&mut self, moments: &[Moment], progress: Progress<'_>) -> Result<()> {
        let end = self.options.days;
        for &Moment { day, action } in moments {
            self.open_books(day)?;
            if self.advance(day)? && progress(day, end).is_break() {
                return Err(Error::Cancelled { day });
            }
            self.act(action)?;
        }
        self.open_books(end)?;
        self.advance(end)?;
        Ok(())
    }

    /// Begins the books anew if their first day comes up to a day.
    fn open_books(&mut self, until: f64) -> Result<()> {
        let first = self.options.books_from_day;
        if self.day < first && first <= until {
            self.advance(first)?;
            let (_, flowed) = self.state.split_at_mut(Stock::COUNT);
            flowed.fill(0.0);
            self.ledger = Ledger::new(stocks(&self.state), self.model.ratios());
            self.dosed = (first, [0.0; DOSED.len()]);
        }
        Ok(())
    }

    /// Adds up what was dosed until now.
    fn count_doses(&mut self) {
        let (day, totals) = &mut self.dosed;
        let mut dosing = self.model.dosing();
        for (total, dose) in totals.iter_mut().zip(doses(&mut dosing)) {
            *total += *dose * (self.day - *day);
        }
        *day = self.day;
    }

    fn amount(&self, stock: Stock) -> f64 {
        self.state.get(stock as usize).copied().unwrap_or_default()
    }

    /// Changes a stock at this moment and books it.
    fn book(&mut self, process: Process, stock: Stock, amount: f64) {
        if let Some(slot) = self.state.get_mut(stock as usize) {
            *slot += amount;
        }
        self.ledger.book(process, stock, amount);
    }

    /// What turns states into samples until the next switch.
    fn sampler(&self) -> Sampler<'a> {
        Sampler {
            every: self.options.sample_every_days,
            next: self.next_sample,
            switches: self.switches,
            follower: self.model.follower(),
            oxygen_equilibrium: self.model.oxygen_equilibrium(),
            kg_per_l: self.model.density_kg_per_m3() * 1e-3,
            lit_area_m2: self.tank.screen.lit_area_m2(),
            parameters: self.parameters,
        }
    }

    /// Integrates to a day; `true` if time passed.
    fn advance(&mut self, to: f64) -> Result<bool> {
        if to - self.day <= SIMULTANEOUS {
            return Ok(false);
        }
        if self.stale {
            let salinity = self.amount(Stock::Salt) / self.amount(Stock::Water);
            self.switches.lamp_share = self.parameters.lamp.remaining(self.lamp_hours);
            self.model.set(&self.switches, salinity)?;
            self.stale = false;
        }
        let mut sampler = self.sampler();
        let samples = &mut self.samples;
        // The last sample is taken at the very end, after all that happens there.
        let end = self.options.days;
        let followed =
            self.solver
                .integrate(&mut self.model, self.day, to, &mut self.state, |step| {
                    let stop = step.start + step.length;
                    while sampler.day() < end && sampler.day() <= stop {
                        samples.push(sampler.sample(sampler.day(), &step.at(sampler.day())));
                        sampler.next += 1;
                    }
                });
        self.next_sample = sampler.next;
        followed.map_err(|stop| self.explain(stop))?;
        if self.switches.screen_lit && self.switches.screen_lamp_works {
            self.lamp_hours += 24.0 * (to - self.day);
        }
        self.day = to;
        self.at_switches.push((to, *stocks(&self.state)));
        Ok(true)
    }

    /// Why the equations could not be followed.
    fn explain(&self, stop: Stop) -> Error {
        let (day, reason) = match stop {
            Stop::BelowLeast(day, index) => {
                let stock = Stock::ALL.get(index).map_or("of a stock", |s| s.name());
                return Error::Exhausted { stock, day };
            }
            Stop::StepTooSmall(day) => (day, "the equations change faster than a step can resolve"),
            Stop::NotFinite(day) => (day, "a rate is not a finite number"),
            Stop::TooManySteps(day) => (
                day,
                "a process is too fast to follow: a flow, a surface, a medium or a rate is out of \
                 proportion to the volume of water",
            ),
        };
        // A tank that dries up takes every content to infinity on its way.
        if self.amount(Stock::Water) < DRIED_UP * self.model.full_kg() {
            let stock = Stock::Water.name();
            return Error::Exhausted { stock, day };
        }
        Error::Stuck { day, reason }
    }

    fn act(&mut self, action: Action) -> Result<()> {
        self.stale = true;
        match action {
            Action::DisplayLight(lit) => self.switches.display_lit = lit,
            Action::ScreenLight(lit) => self.switches.screen_lit = lit,
            Action::Feed(place) => {
                if self.feeding {
                    self.feed(place)?;
                }
            }
            Action::PlannedHarvest => {
                let harvesting = self.keeper && self.harvesting;
                if let (true, Some(plan)) = (harvesting, self.schedule.harvest) {
                    self.harvest(plan.kept_share, plan.fed_back_share);
                }
            }
            Action::WaterChange if self.keeper => {
                if let Some(change) = self.schedule.water_change {
                    self.change_water(change.share, &change.water)?;
                }
            }
            Action::SalinityCheck if self.keeper => self.correct_salinity(),
            Action::DosingCheck if self.keeper => self.adjust_dosing(),
            Action::WaterChange | Action::SalinityCheck | Action::DosingCheck => {}
            Action::Event(event) => {
                self.events.push((self.day, event));
                self.happen(event)?;
            }
        }
        Ok(())
    }

    fn feed(&mut self, place: usize) -> Result<()> {
        let Some(feeding) = self.schedule.feedings.get(place) else {
            return Ok(());
        };
        self.feed_grams(feeding.grams * self.feeding_factor, feeding.kind)
    }

    fn feed_grams(&mut self, grams: f64, kind: FeedKind) -> Result<()> {
        let fed = kind.composition().per_gram()?.scaled(grams);
        self.book(Process::Feeding, Stock::GutC, fed.carbon);
        self.book(Process::Feeding, Stock::GutN, fed.nitrogen);
        self.book(Process::Feeding, Stock::GutP, fed.phosphorus);
        Ok(())
    }

    fn harvest(&mut self, kept_share: f64, fed_back_share: f64) {
        let mut turf = Model::turf_stock(stocks(&self.state));
        let harvest = turf.harvest(&self.parameters.turf, kept_share);
        for (turf, gut, amount) in [
            (Stock::TurfC, Stock::GutC, harvest.carbon_mol),
            (Stock::TurfN, Stock::GutN, harvest.nitrogen_mol),
            (Stock::TurfP, Stock::GutP, harvest.phosphorus_mol),
        ] {
            self.book(Process::Harvest, turf, -amount);
            self.book(Process::Harvest, gut, fed_back_share * amount);
        }
        // Scraping wears the screen; what it can no longer hold comes off with it.
        self.switches.roughness *= 1.0 - self.parameters.screen.roughness_lost_per_scraping;
        let excess = (self.amount(Stock::Cover) - self.switches.roughness).max(0.0);
        self.book(Process::Harvest, Stock::Cover, -excess);
        self.model.set_roughness(self.switches.roughness);
        self.harvests.push(HarvestRecord {
            day: self.day,
            harvest,
            fed_back_share,
        });
    }

    fn change_water(&mut self, share: f64, new: &NewWater) -> Result<()> {
        let water = water_of(self.tank, new.practical_salinity)?;
        let dic = inorganic_carbon_under_air(
            &water,
            new.alkalinity_umol_per_kg,
            Bases {
                phosphate: Content::from_umol_per_kg(new.phosphate_umol_per_kg)?,
                ..Bases::NONE
            },
            self.switches.room_co2_ppm,
        )?;
        let added_kg = self.drain(share);
        let umol = 1e-6 * added_kg;
        for (stock, amount) in [
            (Stock::Salt, new.practical_salinity * added_kg),
            (Stock::Alkalinity, new.alkalinity_umol_per_kg * umol),
            (Stock::InorganicCarbon, dic * umol),
            (Stock::Oxygen, self.model.oxygen_equilibrium() * added_kg),
            (Stock::Nitrate, new.nitrate_umol_per_kg * umol),
            (Stock::Phosphate, new.phosphate_umol_per_kg * umol),
            (Stock::Calcium, new.calcium_umol_per_kg * umol),
            (Stock::Magnesium, new.magnesium_umol_per_kg * umol),
            (Stock::Strontium, new.strontium_umol_per_kg * umol),
        ] {
            self.book(Process::WaterChange, stock, amount);
        }
        Ok(())
    }

    /// Replaces so much of the water by fresh water that the salinity is again
    /// what it was meant to be, if a refractometer would show the difference.
    fn correct_salinity(&mut self) {
        let salinity = self.amount(Stock::Salt) / self.amount(Stock::Water);
        let meant = self.tank.practical_salinity;
        if salinity - meant > SALINITY_NOTICED {
            let added_kg = self.drain(1.0 - meant / salinity);
            let oxygen = self.model.oxygen_equilibrium() * added_kg;
            self.book(Process::WaterChange, Stock::Oxygen, oxygen);
        }
    }

    /// Doses from now on what was used up per day since the last test, and what is
    /// missing over as many days.
    fn adjust_dosing(&mut self) {
        self.count_doses();
        let (tested_day, before) = self.tested;
        let days = self.day - tested_day;
        let now = dosed_contents(stocks(&self.state));
        let kg_per_day = self.model.full_kg() / days;
        let mut dosing = self.model.dosing();
        for ((dose, meant), (before, now)) in doses(&mut dosing)
            .into_iter()
            .zip(self.meant)
            .zip(before.into_iter().zip(now))
        {
            let used_up = *dose - (now - before) * kg_per_day;
            *dose = (used_up + (meant - now) * kg_per_day).max(0.0);
        }
        self.model.set_dosing(dosing);
        self.tested = (self.day, now);
    }

    /// Drains a share of the water with all that is dissolved, and fills up to
    /// the full mark; returns what was filled in, kg.
    fn drain(&mut self, share: f64) -> f64 {
        let kept_kg = (1.0 - share) * self.amount(Stock::Water);
        for &stock in Stock::ALL {
            if stock.is_dissolved() || matches!(stock, Stock::Water | Stock::Salt) {
                let amount = self.amount(stock);
                self.book(Process::WaterChange, stock, -share * amount);
            }
        }
        let added_kg = self.model.full_kg() - kept_kg;
        self.book(Process::WaterChange, Stock::Water, added_kg);
        added_kg
    }

    fn happen(&mut self, event: Event) -> Result<()> {
        match event {
            Event::ScreenLampFails => self.switches.screen_lamp_works = false,
            Event::ScreenLampRepaired => self.switches.screen_lamp_works = true,
            Event::ScreenFlowDrops { share } => self.switches.screen_flow_share = share,
            Event::ScreenFlowRestored => self.switches.screen_flow_share = 1.0,
            Event::PumpStops => self.switches.pump_runs = false,
            Event::PumpRestored => self.switches.pump_runs = true,
            Event::FeedingStops => self.feeding = false,
            Event::FeedingResumes => self.feeding = true,
            Event::FeedingScaled { factor } => self.feeding_factor = factor,
            Event::HarvestsStop => self.harvesting = false,
            Event::HarvestsResume => self.harvesting = true,
            Event::KeeperLeaves => self.keeper = false,
            Event::KeeperReturns => self.keeper = true,
            Event::TopOffStops => self.switches.tops_off = false,
            Event::TopOffRestored => self.switches.tops_off = true,
            Event::Harvest {
                kept_share,
                fed_back_share,
            } => self.harvest(kept_share, fed_back_share),
            Event::NewScreen => {
                let new = bare(self.parameters, self.tank.screen.lit_area_m2());
                self.switches.roughness = 1.0;
                for (stock, amount) in [
                    (Stock::TurfC, new.carbon_mol),
                    (Stock::TurfN, new.nitrogen_mol),
                    (Stock::TurfP, new.phosphorus_mol),
                    (Stock::Cover, new.cover),
                    (Stock::Reserve, new.reserve),
                ] {
                    self.book(Process::Parts, stock, amount - self.amount(stock));
                }
            }
            Event::NewScreenLamp => self.lamp_hours = 0.0,
            Event::NewIronOxide { grams } => {
                self.switches.iron_oxide_grams = grams;
                self.book(Process::Parts, Stock::MediumP, -self.amount(Stock::MediumP));
            }
            Event::RoomCo2 { ppm } => self.switches.room_co2_ppm = ppm,
            Event::Feeding { grams, kind } => self.feed_grams(grams, kind)?,
            Event::WaterChange { share, water } => self.change_water(share, &water)?,
            Event::Dose { salt, grams } => self.dose(salt, grams),
        }
        Ok(())
    }

    fn dose(&mut self, salt: Salt, grams: f64) {
        let dosed = salt.per_gram() * grams;
        for (stock, amount) in [
            (Stock::Alkalinity, dosed.alkalinity_eq),
            (Stock::InorganicCarbon, dosed.inorganic_carbon_mol),
            (Stock::Nitrate, dosed.nitrate_mol),
            (Stock::Phosphate, dosed.phosphate_mol),
            (Stock::Calcium, dosed.calcium_mol),
            (Stock::Magnesium, dosed.magnesium_mol),
            (Stock::Strontium, dosed.strontium_mol),
            (Stock::Salt, dosed.salt_g * SALINITY_PER_GRAM_PER_KG),
        ] {
            self.book(Process::Dosing, stock, amount);
        }
    }

    fn finish(mut self) -> Run {
        self.count_doses();
        let mut dosing = self.model.dosing();
        let days = self.day - self.options.books_from_day;
        if days > 0.0 {
            for (dose, total) in doses(&mut dosing).into_iter().zip(self.dosed.1) {
                *dose = total / days;
            }
        }
        let mut sampler = self.sampler();
        self.samples
            .push(sampler.sample(self.day, stocks(&self.state)));
        let flowed: [f64; Flow::COUNT] = match self.state.last_chunk() {
            Some(flowed) => *flowed,
            // `STATES` is the stocks plus the flows.
            None => [0.0; Flow::COUNT],
        };
        self.ledger.close(&flowed, stocks(&self.state));
        Run {
            samples: self.samples,
            harvests: self.harvests,
            events: self.events,
            dosing,
            ledger: self.ledger,
            effort: self.solver.effort(),
            at_switches: self.at_switches,
        }
    }
}

/// Inorganic carbon of water in equilibrium with air, µmol/kg.
fn inorganic_carbon_under_air(
    water: &Water,
    alkalinity_umol_per_kg: f64,
    bases: Bases,
    co2_ppm: f64,
) -> Result<f64> {
    let state = water
        .equilibria(&EquilibriumOptions::default())?
        .with_bases(bases)?
        .under_air(
            Alkalinity::from_umol_per_kg(alkalinity_umol_per_kg)?,
            DryMoleFractionCo2::from_ppm(co2_ppm)?,
        )?;
    Ok(state.inorganic_carbon().umol_per_kg())
}

/// What is tested and dosed for it, with [`doses`].
const DOSED: [Stock; 3] = [Stock::Alkalinity, Stock::Calcium, Stock::Magnesium];

fn dosed_contents(y: &[f64; Stock::COUNT]) -> [f64; DOSED.len()] {
    let amount = |s: Stock| y.get(s as usize).copied().unwrap_or_default();
    DOSED.map(|s| amount(s) / amount(Stock::Water))
}

fn doses(dosing: &mut Dosing) -> [&mut f64; DOSED.len()] {
    [
        &mut dosing.bicarbonate_mol_per_day,
        &mut dosing.calcium_mol_per_day,
        &mut dosing.magnesium_mol_per_day,
    ]
}

fn bare(parameters: &Parameters, lit_area_m2: f64) -> TurfStock {
    TurfStock::seeded(
        &parameters.turf,
        parameters.screen.settled_g_dry_per_m2,
        lit_area_m2,
        FIRST_COVER,
    )
}

/// Turns states into samples.
struct Sampler<'a> {
    every: f64,
    next: usize,
    switches: Switches,
    follower: halimeda::carbonate::CarbonateFollower,
    oxygen_equilibrium: f64,
    kg_per_l: f64,
    lit_area_m2: f64,
    parameters: &'a Parameters,
}

impl Sampler<'_> {
    fn day(&self) -> f64 {
        self.next as f64 * self.every
    }

    fn sample(&mut self, day: f64, y: &[f64; Stock::COUNT]) -> Sample {
        let amount = |s: Stock| y.get(s as usize).copied().unwrap_or_default();
        let kg = amount(Stock::Water);
        let content = |s: Stock| amount(s) / kg;
        let carbonate_system = self.follower.update(
            content(Stock::Alkalinity),
            content(Stock::InorganicCarbon),
            content(Stock::Ammonium),
            content(Stock::Phosphate),
        );
        let mg_per_l =
            |s: Stock, grams_per_mol: f64| content(s) * grams_per_mol * self.kg_per_l * 1e3;
        let carbon = amount(Stock::TurfC);
        let per_carbon = |s: Stock| {
            if carbon > 0.0 {
                amount(s) / carbon
            } else {
                0.0
            }
        };
        Sample {
            day,
            ph_total: carbonate_system.ph_total,
            alkalinity_umol_per_kg: content(Stock::Alkalinity) * 1e6,
            inorganic_carbon_umol_per_kg: content(Stock::InorganicCarbon) * 1e6,
            carbon_dioxide_umol_per_kg: carbonate_system.carbon_dioxide_mol_per_kg * 1e6,
            aragonite_saturation: self.follower.aragonite_saturation(
                carbonate_system.carbonate_mol_per_kg,
                content(Stock::Calcium),
            ),
            oxygen_umol_per_kg: content(Stock::Oxygen) * 1e6,
            oxygen_saturation: content(Stock::Oxygen) / self.oxygen_equilibrium,
            nitrate_mg_per_l: mg_per_l(Stock::Nitrate, form::NitrateAsNo3::GRAMS_PER_MOL),
            phosphate_mg_per_l: mg_per_l(Stock::Phosphate, form::PhosphateAsPo4::GRAMS_PER_MOL),
            ammonia_mg_n_per_l: mg_per_l(Stock::Ammonium, form::AmmoniaAsN::GRAMS_PER_MOL),
            unionised_ammonia_mg_per_l: carbonate_system.unionised_ammonia_mol_per_kg
                * form::UnionisedAmmoniaAsNh3::GRAMS_PER_MOL
                * self.kg_per_l
                * 1e3,
            calcium_mg_per_l: mg_per_l(Stock::Calcium, form::CalciumAsCa::GRAMS_PER_MOL),
            magnesium_mg_per_l: mg_per_l(Stock::Magnesium, form::MagnesiumAsMg::GRAMS_PER_MOL),
            practical_salinity: amount(Stock::Salt) / kg,
            turf_g_dry_per_m2: carbon * self.parameters.turf.dry_grams_per_mol_carbon()
                / self.lit_area_m2,
            turf_nitrogen_per_carbon: per_carbon(Stock::TurfN),
            turf_phosphorus_per_carbon: per_carbon(Stock::TurfP),
            turf_cover: amount(Stock::Cover),
            turf_reserve: amount(Stock::Reserve),
            screen_lit: self.switches.screen_lit && self.switches.screen_lamp_works,
            display_lit: self.switches.display_lit,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tank::{DatedEvent, Setup, WaterChangePlan};
    use crate::testing::setup;

    fn run(setup: &Setup, options: &RunOptions) -> Run {
        simulate(
            &setup.tank,
            &setup.schedule,
            &Parameters::default(),
            options,
        )
        .unwrap()
    }

    /// A branch is the run in which the same events happen on the day of the fork.
    #[test]
    fn a_branch_is_the_run_with_its_event() {
        let setup = setup();
        let options = RunOptions::days(12.0);
        let strikes = [vec![], vec![Event::ScreenLampFails, Event::FeedingStops]];
        let (trunk, branches) = simulate_branches(
            &setup.tank,
            &setup.schedule,
            &Parameters::default(),
            &options,
            6.0,
            &strikes,
            &mut |_, _| ControlFlow::Continue(()),
        )
        .unwrap();
        assert_eq!(trunk.samples, run(&setup, &options).samples);
        for (events, branch) in strikes.iter().zip(branches) {
            assert_eq!(branch.broken_off, None);
            let mut whole = setup.clone();
            whole.schedule.events = events
                .iter()
                .map(|&event| DatedEvent { day: 12.0, event })
                .collect();
            let samples = run(&whole, &RunOptions::days(18.0)).samples;
            let from = samples.partition_point(|s| s.day < 12.0);
            assert_eq!(branch.samples.len(), samples.len() - from);
            for (a, b) in branch.samples.iter().zip(&samples[from..]) {
                assert_eq!(a.day, b.day);
                // Day 12 is no switch of the whole run unless something strikes: its
                // steps differ.
                assert!((a.nitrate_mg_per_l / b.nitrate_mg_per_l - 1.0).abs() < 1e-4);
                assert!((a.ph_total - b.ph_total).abs() < 1e-4);
            }
        }
    }

    /// Books of the last days alone close, and with those before they make the whole.
    #[test]
    fn books_can_begin_late() {
        let setup = setup();
        let whole = run(&setup, &RunOptions::days(20.0));
        let late = run(
            &setup,
            &RunOptions {
                books_from_day: 12.3,
                ..RunOptions::days(20.0)
            },
        );
        let early = run(&setup, &RunOptions::days(12.3));
        for &stock in Stock::ALL {
            let closure = late.ledger.closure(stock);
            assert!(closure.relative() < 1e-12, "{stock:?} {closure:?}");
        }
        for process in [Process::Turf, Process::Feeding, Process::Harvest] {
            let nitrate = |run: &Run| {
                run.ledger.entry(process, Stock::TurfN) + run.ledger.entry(process, Stock::GutN)
            };
            let sum = nitrate(&late) + nitrate(&early);
            assert!(
                (sum - nitrate(&whole)).abs() < 1e-6 * nitrate(&whole).abs(),
                "{process:?}"
            );
        }
    }

    /// Doses adjusted after weekly tests bring alkalinity back to what it was and
    /// come to be what the tank uses up.
    #[test]
    fn adjusted_doses_hold_what_was_there() {
        let mut setup = setup();
        setup.schedule.dosing.bicarbonate_mol_per_day = 0.0;
        let falling = run(&setup, &RunOptions::days(60.0));
        assert!(falling.samples.last().unwrap().alkalinity_umol_per_kg < 2300.0);
        assert_eq!(falling.dosing, setup.schedule.dosing);
        setup.schedule.dosing.adjusted_every_days = Some(7.0);
        let held = run(
            &setup,
            &RunOptions {
                books_from_day: 30.0,
                ..RunOptions::days(60.0)
            },
        );
        let late: Vec<f64> = held
            .samples
            .iter()
            .filter(|s| s.day > 30.0)
            .map(|s| s.alkalinity_umol_per_kg)
            .collect();
        let mean = late.iter().sum::<f64>() / late.len() as f64;
        assert!((mean - 2800.0).abs() < 30.0, "{mean}");
        assert!(late.iter().all(|a| (a - 2800.0).abs() < 120.0));
        let dosed = held.ledger.entry(Process::Dosing, Stock::Alkalinity) / 30.0;
        assert!((held.dosing.bicarbonate_mol_per_day / dosed - 1.0).abs() < 1e-9);
        assert!(dosed > 0.005);
        for &stock in Stock::ALL {
            let closure = held.ledger.closure(stock);
            assert!(closure.relative() < 1e-12, "{stock:?} {closure:?}");
        }
    }

    fn with_event(mut setup: Setup, day: f64, event: Event) -> Setup {
        setup.schedule.events.push(DatedEvent { day, event });
        setup
    }

    fn books_close(run: &Run) {
        for &stock in Stock::ALL {
            let closure = run.ledger.closure(stock);
            assert!(closure.relative() < 1e-11, "{stock:?} {closure:?}");
        }
    }

    /// One water change by event is one by plan.
    #[test]
    fn a_water_change_outside_the_plan_is_one() {
        let water = NewWater {
            practical_salinity: 35.0,
            alkalinity_umol_per_kg: 2600.0,
            calcium_umol_per_kg: 10_000.0,
            magnesium_umol_per_kg: 52_000.0,
            strontium_umol_per_kg: 88.0,
            nitrate_umol_per_kg: 1.0,
            phosphate_umol_per_kg: 0.1,
        };
        let mut planned = setup();
        planned.schedule.water_change = Some(WaterChangePlan {
            every_days: 30.0,
            first_day: 3.2,
            share: 0.15,
            water,
        });
        let event = Event::WaterChange { share: 0.15, water };
        let options = RunOptions::days(6.0);
        let by_event = run(&with_event(setup(), 3.2, event), &options);
        assert_eq!(by_event.samples, run(&planned, &options).samples);
        books_close(&by_event);
    }

    /// 8.4 g of sodium bicarbonate (84.007 g/mol) are 0.1 mol of alkalinity and carbon.
    #[test]
    fn a_dose_by_hand_is_in_the_water_and_in_the_books() {
        let dose = Event::Dose {
            salt: Salt::SodiumBicarbonate,
            grams: 8.4,
        };
        let options = RunOptions::days(2.0);
        let dosed = run(&with_event(setup(), 1.0, dose), &options);
        let undosed = run(&setup(), &options);
        books_close(&dosed);
        for stock in [Stock::Alkalinity, Stock::InorganicCarbon] {
            let entry = |run: &Run| run.ledger.entry(Process::Dosing, stock);
            let more = entry(&dosed) - entry(&undosed);
            assert!((more - 8.4 / 84.007).abs() < 1e-4, "{stock:?} {more}");
        }
        let salt = |run: &Run| run.ledger.entry(Process::Dosing, Stock::Salt);
        let more = (salt(&dosed) - salt(&undosed)) / (8.4 * 35.0 / 35.165_04);
        assert!((more - 1.0).abs() < 1e-3, "{more}");
        let alkalinity = |run: &Run| run.value_at(Variable::Alkalinity, 1.1).unwrap();
        let rise = alkalinity(&dosed) - alkalinity(&undosed);
        let kg = dosed.ledger.stock(Stock::Water).0;
        assert!((rise * kg * 1e-6 / 0.1 - 1.0).abs() < 0.02, "{rise}");
    }

    /// Food outside the plan is eaten though planned feedings are stopped, and not
    /// multiplied by their factor.
    #[test]
    fn a_feeding_outside_the_plan_takes_place() {
        let feeding = Event::Feeding {
            grams: 2.0,
            kind: FeedKind::Pellet,
        };
        let stopped = with_event(setup(), 0.0, Event::FeedingStops);
        let stopped = with_event(stopped, 0.1, Event::FeedingScaled { factor: 3.0 });
        let fed = run(&with_event(stopped, 1.0, feeding), &RunOptions::days(2.0));
        books_close(&fed);
        let per_gram = FeedKind::Pellet.composition().per_gram().unwrap();
        let entry = fed.ledger.entry(Process::Feeding, Stock::GutN);
        assert!((entry / (2.0 * per_gram.nitrogen) - 1.0).abs() < 1e-12);
    }

    #[test]
    fn values_between_samples_are_linear() {
        let run = run(&setup(), &RunOptions::days(1.0).sampled_every_days(0.25));
        let at = |day| run.value_at(Variable::Nitrate, day);
        let (a, b) = (at(0.25).unwrap(), at(0.5).unwrap());
        assert!((at(0.35).unwrap() - (0.6 * a + 0.4 * b)).abs() < 1e-12);
        assert_eq!(at(0.0), Some(run.samples[0].nitrate_mg_per_l));
        assert_eq!((at(-0.1), at(1.1)), (None, None));
    }

    #[test]
    fn events_outside_their_limits_are_refused() {
        let water = NewWater {
            practical_salinity: 35.0,
            alkalinity_umol_per_kg: f64::NAN,
            calcium_umol_per_kg: 10_000.0,
            magnesium_umol_per_kg: 52_000.0,
            strontium_umol_per_kg: 88.0,
            nitrate_umol_per_kg: 1.0,
            phosphate_umol_per_kg: 0.1,
        };
        let (salt, kind) = (Salt::SodiumBicarbonate, FeedKind::Pellet);
        for bad in [
            Event::WaterChange { share: 0.1, water },
            Event::Dose { salt, grams: -1.0 },
            Event::Feeding {
                kind,
                grams: f64::INFINITY,
            },
        ] {
            assert!(with_event(setup(), 1.0, bad).check().is_err(), "{bad:?}");
        }
    }

    /// While the keeper is away nothing is harvested; back again, it is.
    #[test]
    fn nobody_harvests_while_the_keeper_is_away() {
        let mut setup = setup();
        for (day, event) in [(10.0, Event::KeeperLeaves), (30.0, Event::KeeperReturns)] {
            setup.schedule.events.push(DatedEvent { day, event });
        }
        let days: Vec<f64> = run(&setup, &RunOptions::days(45.0))
            .harvests
            .iter()
            .map(|h| h.day)
            .collect();
        assert_eq!(days, [6.0, 33.0, 42.0]);
    }

    /// Without top-off the water that evaporates is missing; once restored, it comes back.
    #[test]
    fn water_is_missing_while_the_top_off_stands_still() {
        let mut setup = setup();
        setup.schedule.salinity_check_every_days = None;
        for (day, event) in [(1.0, Event::TopOffStops), (4.0, Event::TopOffRestored)] {
            setup.schedule.events.push(DatedEvent { day, event });
        }
        let run = run(&setup, &RunOptions::days(8.0));
        let salinity = |day: usize| run.samples[24 * day].practical_salinity;
        let dosed = salinity(1) / 35.0;
        // 9 L of 200 L.
        let expected = salinity(1) * 200.0 / (200.0 - 9.0 * 0.99705 / 1.0226);
        assert!(
            (salinity(4) / expected - dosed.powi(3)).abs() < 1e-3,
            "{}",
            salinity(4)
        );
        assert!(salinity(5) < 1.002 * salinity(1) * dosed.powi(4));
    }
}
