//! Many runs on all cores, with progress and cancellation.

use std::ops::ControlFlow;
use std::sync::Mutex;
use std::sync::atomic::{AtomicBool, AtomicU64, AtomicUsize, Ordering};

use rayon::prelude::*;

use crate::error::{Error, Result};
use crate::parameters::Parameters;
use crate::simulate::{Branch, Run, RunOptions, simulate_branches, simulate_with_progress};
use crate::tank::{Event, Setup};

/// Called as many runs go on, with the days followed and the days in all; stops
/// them by breaking. Whichever thread is at work calls it, never two at once.
pub type SharedProgress<'a> = &'a mut (dyn FnMut(f64, f64) -> ControlFlow<()> + Send);

/// Reports in all: a caller's window need not be redrawn more often.
const REPORTS: u64 = 200;

/// But no fewer than one in so many days, which take less than a tenth of a second:
/// a caller who wants to stop does not wait.
const REPORT_DAYS: f64 = 16.0;

/// Days are counted in this part of a day, so that threads can add them up.
const COUNTS_PER_DAY: f64 = 1024.0;

pub(crate) struct Work<'a> {
    progress: Mutex<SharedProgress<'a>>,
    counted: AtomicU64,
    runs: AtomicUsize,
    all_days: f64,
    cancelled: AtomicBool,
}

impl<'a> Work<'a> {
    /// Work that will follow tanks over so many days, all runs together.
    pub(crate) fn new(progress: SharedProgress<'a>, all_days: f64) -> Self {
        Self {
            progress: Mutex::new(progress),
            counted: AtomicU64::new(0),
            runs: AtomicUsize::new(0),
            all_days,
            cancelled: AtomicBool::new(false),
        }
    }

    fn days(&self) -> f64 {
        self.counted.load(Ordering::Relaxed) as f64 / COUNTS_PER_DAY
    }

    /// Counts days and tells the caller now and then.
    fn count(&self, days: f64) -> ControlFlow<()> {
        let add = (days * COUNTS_PER_DAY) as u64;
        let before = self.counted.fetch_add(add, Ordering::Relaxed);
        let most = (REPORT_DAYS * COUNTS_PER_DAY) as u64;
        let report = ((self.all_days * COUNTS_PER_DAY) as u64 / REPORTS).clamp(1, most);
        if before / report != (before + add) / report {
            // Another thread is telling: it need not be told twice.
            if let Ok(mut progress) = self.progress.try_lock() {
                let done = self.days().min(self.all_days);
                if progress(done, self.all_days).is_break() {
                    self.cancelled.store(true, Ordering::Relaxed);
                }
            }
        }
        if self.cancelled.load(Ordering::Relaxed) {
            ControlFlow::Break(())
        } else {
            ControlFlow::Continue(())
        }
    }

    /// A run's own progress, counted.
    fn counting(&self) -> impl FnMut(f64, f64) -> ControlFlow<()> {
        let mut counted = 0.0;
        move |day, _| {
            if day < counted {
                // Another branch, from the fork again.
                counted = day.floor();
            }
            // Whole days, so that no part of one is lost in rounding.
            let days = (day - counted).floor();
            counted += days;
            self.count(days)
        }
    }

    pub(crate) fn run(
        &self,
        setup: &Setup,
        parameters: &Parameters,
        options: &RunOptions,
    ) -> Result<Run> {
        self.runs.fetch_add(1, Ordering::Relaxed);
        let mut counting = self.counting();
        simulate_with_progress(
            &setup.tank,
            &setup.schedule,
            parameters,
            options,
            &mut counting,
        )
    }

    pub(crate) fn run_branches(
        &self,
        setup: &Setup,
        parameters: &Parameters,
        options: &RunOptions,
        further_days: f64,
        strikes: &[Vec<Event>],
    ) -> Result<(Run, Vec<Branch>)> {
        simulate_branches(
            &setup.tank,
            &setup.schedule,
            parameters,
            options,
            further_days,
            strikes,
            &mut self.counting(),
        )
    }

    /// Runs begun by [`Work::run`].
    pub(crate) fn runs(&self) -> usize {
        self.runs.load(Ordering::Relaxed)
    }

    /// A function of each item, on all cores, in the order of the items.
    ///
    /// # Errors
    /// Only that the work was cancelled: what fails for one item is kept in its place.
    pub(crate) fn map<T: Sync, R: Send>(
        &self,
        items: &[T],
        f: impl Fn(&T) -> Result<R> + Sync + Send,
    ) -> Result<Vec<Result<R>>> {
        let results = items
            .par_iter()
            .map(|item| {
                // Of many items to come each would be begun before it was stopped.
                self.check()?;
                f(item)
            })
            .collect();
        self.check()?;
        Ok(results)
    }

    /// # Errors
    /// The caller asked to stop.
    pub(crate) fn check(&self) -> Result<()> {
        if self.cancelled.load(Ordering::Relaxed) {
            return Err(Error::Cancelled { day: self.days() });
        }
        Ok(())
    }

    /// Tells the caller that all is done, though less may have been needed.
    pub(crate) fn finish(self) {
        if let Ok(progress) = self.progress.into_inner() {
            // There is nothing left to stop.
            let _ = progress(self.all_days, self.all_days);
        }
    }
}
