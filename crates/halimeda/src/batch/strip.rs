//! Rows that are computed together, one array per quantity.

// Every index of this file runs over 0..ROWS, the length of every array.
#![allow(clippy::indexing_slicing, clippy::needless_range_loop)]

use super::lane::Lane;
use crate::carbonate::Medium;
use crate::carbonate::constant_set::{ConstantSet, MinorSet};

/// Enough rows to hide what is done once for all of them, few enough that all
/// their arrays stay in the nearest cache.
pub(super) const ROWS: usize = 64;

/// One quantity of each row.
pub(super) type Strip = [f64; ROWS];

/// Begins where a line of the cache does, so that no vector straddles two.
#[repr(align(64))]
pub(super) struct Aligned<T>(pub(super) T);

/// One yes or no of each row.
pub(super) type Mask = [bool; ROWS];

/// A loop for each choice, decided before the loop begins.
macro_rules! chosen {
    ($choice:expr, [$($variant:path),* $(,)?], |$name:ident| $loop:expr) => {
        match $choice {
            $($variant => {
                let $name = $variant;
                $loop
            })*
        }
    };
}
pub(super) use chosen;

/// Notes which values lie outside the limits; NaN does.
#[inline(always)]
pub(super) fn keep_within(mask: &mut Mask, values: &Strip, (min, max): (f64, f64)) {
    for i in 0..ROWS {
        mask[i] &= (values[i] >= min) & (values[i] <= max);
    }
}

/// Whether every row's answer is yes. (Searching ends early, but is no vector code.)
#[inline(always)]
pub(super) fn all(mask: &Mask) -> bool {
    mask.iter().fold(true, |all, yes| all & yes)
}

/// Whether any row's answer is yes.
#[inline(always)]
pub(super) fn any(mask: &Mask) -> bool {
    mask.iter().fold(false, |any, yes| any | yes)
}

/// Fills a strip row by row.
#[inline(always)]
pub(super) fn fill<const FUSED: bool>(strip: &mut Strip, f: impl Fn(usize) -> Lane<FUSED>) {
    for i in 0..ROWS {
        strip[i] = f(i).0;
    }
}

impl<A> Medium<A> {
    #[inline(always)]
    pub(super) fn map<B>(&self, f: impl Fn(&A) -> B) -> Medium<B> {
        Medium {
            celsius: f(&self.celsius),
            kelvin: f(&self.kelvin),
            inverse_kelvin: f(&self.inverse_kelvin),
            ln_kelvin: f(&self.ln_kelvin),
            salinity: f(&self.salinity),
            sqrt_salinity: f(&self.sqrt_salinity),
            ionic_strength: f(&self.ionic_strength),
            sqrt_ionic_strength: f(&self.sqrt_ionic_strength),
            water_fraction: f(&self.water_fraction),
        }
    }
}

impl<A> ConstantSet<A> {
    #[inline(always)]
    pub(super) fn map<B>(&self, f: impl Fn(&A) -> B) -> ConstantSet<B> {
        ConstantSet {
            k0: f(&self.k0),
            k1: f(&self.k1),
            k2: f(&self.k2),
            kb: f(&self.kb),
            kw: f(&self.kw),
            ks: f(&self.ks),
            kf: f(&self.kf),
            ksp_aragonite: f(&self.ksp_aragonite),
            ksp_calcite: f(&self.ksp_calcite),
            fh: f(&self.fh),
            fugacity_coefficient: f(&self.fugacity_coefficient),
            boron: f(&self.boron),
            sulfate: f(&self.sulfate),
            fluoride: f(&self.fluoride),
            calcium: f(&self.calcium),
            free_to_total: f(&self.free_to_total),
            free_to_seawater: f(&self.free_to_seawater),
            surface_seawater_to_total: f(&self.surface_seawater_to_total),
        }
    }
}

impl<A> MinorSet<A> {
    #[inline(always)]
    pub(super) fn map<B>(&self, f: impl Fn(&A) -> B) -> MinorSet<B> {
        let [kp1, kp2, kp3] = &self.kp;
        MinorSet {
            kp: [f(kp1), f(kp2), f(kp3)],
            ksi: f(&self.ksi),
            knh4: f(&self.knh4),
            kh2s: f(&self.kh2s),
            phosphate: f(&self.phosphate),
            silicate: f(&self.silicate),
            ammonia: f(&self.ammonia),
            sulfide: f(&self.sulfide),
        }
    }
}
