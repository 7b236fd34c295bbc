use core::num::NonZeroUsize;
use std::sync::{Mutex, PoisonError};
use std::vec::Vec;

use pulp::Arch;

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
    let arch = Arch::new();
    if threads == 1 || rows <= ROWS_AT_A_TIME {
        return Ok(solve_part(input, arch, 0, outputs, status));
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
            let done = solve_part(input, arch, part.start, &mut part.outputs, part.status);
            summary = summary.and(done);
        }
    };
    let others = threads.min(rows.div_ceil(ROWS_AT_A_TIME)) - 1;
    Ok(std::thread::scope(|scope| {
        // Where a thread cannot be had, those that could do its part.
        let others: Vec<_> = (0..others)
            .map_while(|_| std::thread::Builder::new().spawn_scoped(scope, work).ok())
            .collect();
        let mine = work();
        others
            .into_iter()
            .filter_map(|other| other.join().ok())
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
    arch: Arch,
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
        (Some(plan), _) => arch.dispatch(PartRows {
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

#[cfg(test)]
mod tests {
    use std::vec;

    use super::*;
    use crate::carbonate::KnownKind;

    fn solved(input: &BatchInput<'_>, arch: Arch, rows: usize) -> (Vec<f64>, Vec<RowStatus>) {
        let mut values = vec![vec![0.0; rows]; Output::ALL.len()];
        let mut status = vec![RowStatus::Ambiguous; rows];
        let columns = values.iter_mut().map(Vec::as_mut_slice);
        let mut outputs: Vec<_> = Output::ALL.iter().copied().zip(columns).collect();
        solve_part(input, arch, 0, &mut outputs, &mut status);
        (values.concat(), status)
    }

    /// The vector units of this processor from the least on.
    fn vector_units() -> Vec<Arch> {
        let mut units = vec![Arch::Scalar];
        #[cfg(target_arch = "x86_64")]
        units.extend(pulp::x86::V3::try_new().map(Arch::V3));
        #[cfg(all(target_arch = "x86_64", feature = "avx512"))]
        units.extend(pulp::x86::V4::try_new().map(Arch::V4));
        units.push(Arch::new());
        units
    }

    #[cfg(all(target_arch = "x86_64", feature = "avx512"))]
    #[test]
    fn vectors_of_512_bits_are_used_where_there_are_any() {
        let here = matches!(Arch::new(), Arch::V4(_));
        assert_eq!(here, pulp::x86::V4::is_available());
    }

    /// What a processor with lesser vector units or none computes, beside this one.
    #[test]
    fn every_processor_gets_the_same() {
        const ROWS: usize = 2001;
        let part = |i: usize, step: f64| (i as f64 * step).fract();
        let column = |min: f64, max: f64, step: f64| -> Vec<f64> {
            (0..ROWS)
                .map(|i| min + (max - min) * part(i, step))
                .collect()
        };
        let celsius = column(9.0, 33.0, 0.618_033_989);
        let salinity = column(20.0, 40.0, 0.754_877_666);
        let alkalinity = column(1500.0, 4000.0, 0.569_840_291);
        let carbon = column(1400.0, 3500.0, 0.445_041_868);
        let mut input = BatchInput::new(
            &celsius,
            &salinity,
            (KnownKind::Alkalinity, &alkalinity),
            (KnownKind::InorganicCarbon, &carbon),
        );
        for dbar in [0.0, 500.0] {
            input.water_pressure_dbar = dbar.into();
            let (plain, plain_status) = solved(&input, Arch::Scalar, ROWS);
            assert_eq!(plain_status, [RowStatus::Ok; ROWS]);
            for arch in vector_units() {
                let (here, status) = solved(&input, arch, ROWS);
                assert_eq!(plain_status, status);
                for (a, b) in plain.iter().zip(here) {
                    // ω of DIC has a pole among these waters; all else lies far closer.
                    assert!((a - b).abs() <= 1e-10 * b.abs(), "{a} {b}");
                }
            }
        }
    }
}
