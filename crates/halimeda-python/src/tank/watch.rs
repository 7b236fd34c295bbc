//! Long computations that can be watched and stopped.
//!
//! The computation runs on a thread of its own, without the interpreter. The thread
//! that asked for it waits, tells the caller how far it is, and looks for signals,
//! which only the main thread of an interpreter can.

use std::ops::ControlFlow;
use std::panic::resume_unwind;
use std::process;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread;
use std::time::Duration;

use pyo3::prelude::*;
use rayon::ThreadPool;

use crate::error::{Blame, value_error};

/// Between two looks at signals: short to a person, long to a processor.
const LOOK_EVERY: Duration = Duration::from_millis(50);

/// How far a computation is, as it tells the thread that waits for it.
pub(super) struct Watched {
    stopped: AtomicBool,
    at: Mutex<Option<At>>,
}

#[derive(Clone, Copy, PartialEq)]
struct At {
    /// What it is busy with; empty if there is but one thing.
    stage: &'static str,
    done: f64,
    all: f64,
}

impl Watched {
    /// Called by the computation.
    pub(super) fn tell(&self, stage: &'static str, done: f64, all: f64) -> ControlFlow<()> {
        *self.at.lock().unwrap_or_else(PoisonError::into_inner) = Some(At { stage, done, all });
        self.go_on()
    }

    /// Whether to go on: for a part that does not tell how far it is.
    pub(super) fn go_on(&self) -> ControlFlow<()> {
        if self.stopped.load(Ordering::Relaxed) {
            ControlFlow::Break(())
        } else {
            ControlFlow::Continue(())
        }
    }

    fn at(&self) -> Option<At> {
        *self.at.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// Computes while telling `progress(stage, done, all)` how far it is. A signal, or
/// an exception of `progress`, stops it and is raised.
pub(super) fn watched<T: Send>(
    py: Python<'_>,
    progress: Option<&Bound<'_, PyAny>>,
    compute: impl FnOnce(&Watched) -> T + Send,
) -> PyResult<T> {
    let watched = Watched {
        stopped: AtomicBool::new(false),
        at: Mutex::new(None),
    };
    let mut told = None;
    let finished = AtomicBool::new(false);
    thread::scope(|scope| {
        let waiting = thread::current();
        let (watched, finished) = (&watched, &finished);
        let worker = scope.spawn(move || {
            // Wakes the waiting thread even if the computation panics.
            let _wake = Wake(waiting, finished);
            compute(watched)
        });
        let mut raised = None;
        while !finished.load(Ordering::Acquire) {
            py.detach(|| {
                if !finished.load(Ordering::Acquire) {
                    thread::park_timeout(LOOK_EVERY);
                }
            });
            if raised.is_none()
                && let Err(error) = look(py, progress, watched.at(), &mut told)
            {
                watched.stopped.store(true, Ordering::Relaxed);
                raised = Some(error);
            }
        }
        let result = py.detach(|| worker.join());
        match (raised, result) {
            (_, Err(panic)) => resume_unwind(panic),
            (Some(error), _) => Err(error),
            (None, Ok(value)) => {
                look(py, progress, watched.at(), &mut told)?;
                Ok(value)
            }
        }
    })
}

/// As [`watched`], of what shares itself out over all cores.
pub(super) fn shared<T: Send>(
    py: Python<'_>,
    progress: Option<&Bound<'_, PyAny>>,
    compute: impl FnOnce(&Watched) -> T + Send,
) -> PyResult<T> {
    let pool = pool(py)?;
    watched(py, progress, |watched| pool.install(|| compute(watched)))
}

struct Wake<'a>(thread::Thread, &'a AtomicBool);

impl Drop for Wake<'_> {
    fn drop(&mut self) {
        self.1.store(true, Ordering::Release);
        self.0.unpark();
    }
}

fn look(
    py: Python<'_>,
    progress: Option<&Bound<'_, PyAny>>,
    at: Option<At>,
    told: &mut Option<At>,
) -> PyResult<()> {
    py.check_signals()?;
    if let (Some(progress), Some(at), true) = (progress, at, *told != at) {
        *told = Some(at);
        progress.call1((at.stage, at.done, at.all))?;
    }
    Ok(())
}

/// The threads that share a computation. A process that was forked has none of its
/// parent's and would wait for them for ever, so that it gets its own.
fn pool(py: Python<'_>) -> PyResult<Arc<ThreadPool>> {
    static POOL: Mutex<Option<(u32, Arc<ThreadPool>)>> = Mutex::new(None);
    let mut pool = POOL.lock().unwrap_or_else(PoisonError::into_inner);
    let here = process::id();
    match &*pool {
        Some((of, pool)) if *of == here => Ok(Arc::clone(pool)),
        _ => {
            let built = rayon::ThreadPoolBuilder::new()
                .build()
                .map_err(|error| value_error(py, &error.to_string(), &Blame::default()))?;
            let built = Arc::new(built);
            if let Some((_, parents)) = pool.replace((here, Arc::clone(&built))) {
                // Dropping it would wait for threads that are not here.
                std::mem::forget(parents);
            }
            Ok(built)
        }
    }
}
