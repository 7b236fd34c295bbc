use core::num::NonZeroUsize;
use std::sync::{Mutex, PoisonError};
use std::vec::Vec;

use super::block::PartRows;
use super::column::same_length;
use super::plan::Plan;
use super::rows::Rows;
use super::{BatchInput, Output, RowStatus, Summary};
use crate::Result;

/// Rows that one thread takes at a time: enough to hide the taking, few enough
/// that all threads end together.
const ROWS_AT_A_TIME: usize = 8192;

/// Rows of the outputs and statuses that one thread fills.
struct Part<'o> {
    start: usize,
    outputs: Vec<(Output, &'o mut [f64])>,
    status: &'o mut [RowStatus],
}

pub(super) fn solve(
    input: &BatchInput<'_>,
    outputs: &mut [(Output, &mut [f64])],
    status: &mut [RowStatus],
) -> Result<Summary> {
    let rows = status.len();
    input.covers(rows)?;
    for (output, values) in outputs.iter() {
        same_length(output.name(), values.len(), rows)?;
    }
    input.determines_a_state()?;

    let threads = match NonZeroUsize::new(input.threads) {
        Some(threads) => threads.get(),
        None => std::thread::available_parallelism().map_or(1, NonZeroUsize::get),
    };
    if threads == 1 || rows <= ROWS_AT_A_TIME {
        return Ok(solve_part(input, 0, outputs, status));
    }
    let parts = Mutex::new(parts(outputs, status).into_iter());
    let work = || {
        let mut summary = Summary::default();
        loop {
            // A thread that ends early leaves the rest to the others.
            let next = parts.lock().unwrap_or_else(PoisonError::into_inner).next();
            let Some(mut part) = next else {
                return summary;
            };
            let done = solve_part(input, part.start, &mut part.outputs, part.status);
            summary = summary.and(done);
        }
    };
    let helpers = threads.min(rows.div_ceil(ROWS_AT_A_TIME)) - 1;
    Ok(std::thread::scope(|scope| {
        // Where a thread cannot be had, those that could do its part.
        let helpers: Vec<_> = (0..helpers)
            .map_while(|_| std::thread::Builder::new().spawn_scoped(scope, work).ok())
            .collect();
        let mine = work();
        helpers
            .into_iter()
            .filter_map(|helper| helper.join().ok())
            .fold(mine, Summary::and)
    }))
}

fn parts<'o>(
    outputs: &'o mut [(Output, &mut [f64])],
    status: &'o mut [RowStatus],
) -> Vec<Part<'o>> {
    let mut columns: Vec<_> = outputs
        .iter_mut()
        .map(|(output, values)| (*output, values.chunks_mut(ROWS_AT_A_TIME)))
        .collect();
    status
        .chunks_mut(ROWS_AT_A_TIME)
        .enumerate()
        .map(|(i, status)| Part {
            start: i * ROWS_AT_A_TIME,
            outputs: columns
                .iter_mut()
                .filter_map(|(output, chunks)| Some((*output, chunks.next()?)))
                .collect(),
            status,
        })
        .collect()
}

/// Solves the rows from `start` on that `status` has a place for.
fn solve_part(
    input: &BatchInput<'_>,
    start: usize,
    outputs: &mut [(Output, &mut [f64])],
    status: &mut [RowStatus],
) -> Summary {
    let rows = Rows::new(input);
    let plan = Plan::new(input, outputs.iter().map(|(output, _)| *output));
    // Without constants every row is refused, and quickly.
    match (plan, rows.shared()) {
        (None, _) | (_, Some(Err(_))) => {
            for (at, status) in status.iter_mut().enumerate() {
                *status = rows.solve(start + at, at, outputs);
            }
        }
        (Some(plan), _) => pulp::Arch::new().dispatch(PartRows {
            input,
            plan,
            rows: &rows,
            start,
            outputs,
            status,
        }),
    }
    Summary::of(status)
}
