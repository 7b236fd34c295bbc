//! The carbonate system of whole columns of waters, the feature `batch`.
//!
//! The same relations and the same solver as
//! [`carbonate`](crate::carbonate), on many rows at once: several rows in one
//! instruction where the processor can, and on every core if asked. Only what
//! the wanted outputs need is computed. A row that cannot be answered keeps
//! nobody waiting: its outputs are NaN, its [`RowStatus`] says in one word why,
//! and [`BatchInput::explain`] says it with the input, its value and its limits.
//!
//! The instructions are chosen when the program runs: on x86-64 those of AVX2
//! and FMA where there are any, with the feature `avx512` (Rust 1.89) those of
//! AVX-512 before them; NEON on AArch64.
//!
//! ```
//! use halimeda::batch::{BatchInput, Output, RowStatus, solve};
//! use halimeda::carbonate::KnownKind;
//!
//! // An invented tank over a day, and one reading that a hand slipped in.
//! let celsius = [25.1, 25.9, 25.4];
//! let alkalinity = [2790.0, 2785.0, 2781.0];
//! let carbon = [2440.0, 2380.0, -2410.0];
//! let input = BatchInput::new(
//!     &celsius[..],
//!     35.0,
//!     (KnownKind::Alkalinity, &alkalinity[..]),
//!     (KnownKind::InorganicCarbon, &carbon[..]),
//! );
//! let (mut ph, mut aragonite) = ([0.0; 3], [0.0; 3]);
//! let mut status = [RowStatus::Ok; 3];
//! let summary = solve(
//!     &input,
//!     &mut [
//!         (Output::PhTotal, &mut ph),
//!         (Output::AragoniteSaturation, &mut aragonite),
//!     ],
//!     &mut status,
//! )?;
//! assert!((ph[1] - 8.12).abs() < 0.1 && aragonite[1] > aragonite[0]);
//! assert_eq!((summary.ok, summary.refused), (2, 1));
//! assert!(ph[2].is_nan() && status[2] == RowStatus::OutOfRange);
//! assert_eq!(
//!     input.explain(2).unwrap_err().to_string(),
//!     "dissolved inorganic carbon is -2410 µmol/kg; it must lie between 0 and 10000000 µmol/kg"
//! );
//! # Ok::<(), halimeda::Error>(())
//! ```

mod block;
mod column;
mod input;
pub(crate) mod lane;
mod output;
mod pairs;
mod plan;
mod rows;
mod solve;
mod status;
mod strip;
mod waters;

pub use column::Column;
pub use input::{BaseColumns, BatchInput, CompositionColumns};
pub use output::Output;
pub use status::{RowStatus, Summary};

use crate::Result;

/// Solves every row of `input` and writes the wanted outputs in place.
///
/// There are as many rows as `status` has places. Each result is that of
/// [`Equilibria::solve`](crate::carbonate::Equilibria::solve) within 1e-12 of
/// itself (a pH within 1e-12; what is a difference, such as an alkalinity near
/// zero, within 1e-12 of what it is the difference of), and a row is refused
/// exactly when it is there.
/// An output may be asked for more than once, or none at all.
///
/// # Errors
/// - [`ErrorKind::WrongLength`](crate::ErrorKind::WrongLength): a column or an
///   output is not as long as `status`.
/// - [`ErrorKind::Underdetermined`](crate::ErrorKind::Underdetermined): the two
///   known quantities are of one class.
///
/// Nothing is written then.
pub fn solve(
    input: &BatchInput<'_>,
    outputs: &mut [(Output, &mut [f64])],
    status: &mut [RowStatus],
) -> Result<Summary> {
    solve::solve(input, outputs, status)
}
