//! Two known quantities of many waters at once: the same equations as in
//! [`carbonate::solve`](crate::carbonate), where a row needs no decision that
//! rounding could turn.
//!
//! Rows that do, that are ill-conditioned, that have no state or do not
//! converge are marked and left to the solver of single waters.

// Every index of this file runs over 0..ROWS, the length of every array.
#![allow(clippy::indexing_slicing, clippy::needless_range_loop)]

use super::lane::Lane;
use super::plan::Pair;
use super::strip::{Aligned, Mask, ROWS, Strip, chosen};
use super::waters::Waters;
use crate::carbonate::KnownKind;
use crate::carbonate::constant_set::{ConstantSet, MinorSet};
use crate::carbonate::solve::{
    LAST_HALLEY_STEP, alkalinity_bicarbonate_residual, alkalinity_co2_residual,
    alkalinity_dic_residual, carbonate_borate_guess, exp_of_step, h_of_dic_per_carbonate,
    h_of_dic_per_co2,
};
use crate::carbonate::speciation::{AcidBase, CarbonFractions, Part};
use crate::quantity::PhScale;
use crate::real::{Real, sqrt};

/// Hydrogen ion and inorganic carbon of each row, mol/kg.
pub(super) struct Solved {
    pub(super) h: Strip,
    pub(super) dic: Strip,
}

/// A difference must be no smaller than this part of what it is taken of,
/// else its rounding, and that of the constants in it, would be seen.
const LEAST_DIFFERENCE: f64 = 0.2;

/// DIC must exceed a species of it by no less than this many times.
const LEAST_EXCESS: f64 = 1.0;

/// The terms of an equation must be no larger than this many times its slope.
const LARGEST_TERMS: f64 = 1e3;

/// Newton steps in ln H beyond this are not bent into Halley's: where the
/// curvature is at most 3 times the slope, a bent one is at most 1.6 times as long.
const FAR: f64 = 0.25;

/// Passes until a row that has not converged is left alone. Most take two or
/// three; each adds little for the others.
const PASSES: usize = 10;

/// Turns a column of known quantities, in the unit of their kind, into mol/kg
/// or hydrogen ion on the total scale.
#[inline(always)]
pub(super) fn reduce<const FUSED: bool>(
    kind: KnownKind,
    values: &mut Strip,
    set: &ConstantSet<Strip>,
    solvable: &mut Mask,
) {
    match kind {
        KnownKind::Ph(scale) => chosen!(
            scale,
            [
                PhScale::Total,
                PhScale::Free,
                PhScale::Seawater,
                PhScale::Nbs,
            ],
            |scale| for i in 0..ROWS {
                let h = (-Lane::<FUSED>(values[i])).exp10().0;
                values[i] = h * set.map(|x| x[i]).scale_to_total(scale);
            }
        ),
        KnownKind::PartialPressure => {
            for i in 0..ROWS {
                values[i] = values[i] * 1e-6 * set.fugacity_coefficient[i] * set.k0[i];
            }
        }
        KnownKind::Fugacity => {
            for i in 0..ROWS {
                values[i] = values[i] * 1e-6 * set.k0[i];
            }
        }
        KnownKind::Aragonite => saturation(values, &set.ksp_aragonite, &set.calcium, solvable),
        KnownKind::Calcite => saturation(values, &set.ksp_calcite, &set.calcium, solvable),
        KnownKind::Alkalinity
        | KnownKind::InorganicCarbon
        | KnownKind::CarbonDioxide
        | KnownKind::Bicarbonate
        | KnownKind::Carbonate => {
            for value in values {
                *value *= 1e-6;
            }
        }
    }
}

/// Carbonate at a saturation state; without calcium there is none to be had.
#[inline(always)]
fn saturation(values: &mut Strip, ksp: &Strip, calcium: &Strip, solvable: &mut Mask) {
    for i in 0..ROWS {
        values[i] = values[i] * ksp[i] / calcium[i];
        solvable[i] &= calcium[i] > 0.0;
    }
}

/// Waters and their knowns, reduced.
pub(super) struct Question<'a> {
    pub(super) waters: &'a Waters,
    /// In the order of the pair.
    pub(super) first: &'a Strip,
    pub(super) second: &'a Strip,
}

impl Question<'_> {
    /// Solves for H and DIC, and notes the rows that are not solved by it.
    #[inline(always)]
    pub(super) fn solve<const MINOR: bool>(
        &self,
        pair: Pair,
        solved: &mut Solved,
        solvable: &mut Mask,
    ) {
        match pair {
            Pair::AlkalinityCarbon => {
                for i in 0..ROWS {
                    let set = self.waters.set.map(|x| x[i]);
                    solved.h[i] = carbonate_borate_guess(&set, self.first[i], self.second[i]);
                    solved.dic[i] = self.second[i];
                }
                self.halley::<MINOR>(solved, solvable, alkalinity_dic_residual);
            }
            Pair::AlkalinityCo2 => {
                for i in 0..ROWS {
                    // All alkalinity as bicarbonate.
                    let guess = self.waters.set.k1[i] * self.second[i] / self.first[i];
                    solved.h[i] = if guess > 0.0 { guess } else { 1e-8 };
                }
                self.halley::<MINOR>(solved, solvable, alkalinity_co2_residual);
                self.dic_of(solved, |f| f.co2);
            }
            Pair::AlkalinityBicarbonate => {
                for i in 0..ROWS {
                    let set = self.waters.set.map(|x| x[i]);
                    solved.h[i] = bicarbonate_borate_guess(&set, self.first[i], self.second[i]);
                }
                self.halley::<MINOR>(solved, solvable, alkalinity_bicarbonate_residual);
                self.dic_of(solved, |f| f.bicarbonate);
            }
            Pair::AlkalinityHydrogen => {
                for i in 0..ROWS {
                    let h = self.second[i];
                    let alkalinity = self.first[i];
                    let (set, minor) = &self.row(i);
                    let acid_base = AcidBase {
                        set,
                        minor: MINOR.then_some(minor),
                    };
                    let rest = acid_base.rest(h).value;
                    let charge = CarbonFractions::new(set.k1, set.k2, h).charge();
                    let carbonate = alkalinity - rest;
                    solved.h[i] = h;
                    solved.dic[i] = carbonate / charge;
                    solvable[i] &= carbonate >= LEAST_DIFFERENCE * (alkalinity.abs() + rest.abs());
                }
            }
            Pair::CarbonHydrogen => {
                solved.dic = *self.first;
                solved.h = *self.second;
            }
            Pair::CarbonCo2 => {
                self.ratio(solved, solvable, h_of_dic_per_co2);
            }
            Pair::CarbonCarbonate => {
                self.ratio(solved, solvable, h_of_dic_per_carbonate);
            }
            Pair::HydrogenCo2 => {
                solved.h = *self.first;
                self.dic_of(solved, |f| f.co2);
            }
            Pair::HydrogenBicarbonate => {
                solved.h = *self.first;
                self.dic_of(solved, |f| f.bicarbonate);
            }
            Pair::HydrogenCarbonate => {
                solved.h = *self.first;
                self.dic_of(solved, |f| f.carbonate);
            }
            Pair::Co2Bicarbonate => {
                self.equilibrium(solved, solvable, |set, ratio| set.k1 * ratio);
                self.dic_of(solved, |f| f.bicarbonate);
            }
            Pair::Co2Carbonate => {
                self.equilibrium(solved, solvable, |set, ratio| sqrt(set.k1 * set.k2 * ratio));
                self.dic_of(solved, |f| f.carbonate);
            }
            Pair::BicarbonateCarbonate => {
                self.equilibrium(solved, solvable, |set, ratio| set.k2 * ratio);
                self.dic_of(solved, |f| f.carbonate);
            }
        }
        for i in 0..ROWS {
            let (h, dic) = (solved.h[i], solved.dic[i]);
            // A hair inside what a state can express: rounding decides nothing.
            solvable[i] &= (h >= 1.000_001e-14) & (dic <= 9.999_99) & (h <= 0.999_999);
        }
    }

    /// The constants of one row.
    #[inline(always)]
    fn row(&self, i: usize) -> (ConstantSet<f64>, MinorSet<f64>) {
        let Waters { set, minor, .. } = self.waters;
        (set.map(|x| x[i]), minor.map(|x| x[i]))
    }

    /// DIC of H and the second known, one of its species.
    #[inline(always)]
    fn dic_of(&self, solved: &mut Solved, fraction: impl Fn(CarbonFractions) -> f64) {
        let set = &self.waters.set;
        for i in 0..ROWS {
            let fractions = CarbonFractions::new(set.k1[i], set.k2[i], solved.h[i]);
            solved.dic[i] = self.second[i] / fraction(fractions);
        }
    }

    /// H of DIC and a species of it.
    #[inline(always)]
    fn ratio(
        &self,
        solved: &mut Solved,
        solvable: &mut Mask,
        h: impl Fn(&ConstantSet<f64>, f64) -> f64,
    ) {
        for i in 0..ROWS {
            let (dic, species) = (self.first[i], self.second[i]);
            let excess = (dic - species) / species;
            solved.h[i] = h(&self.waters.set.map(|x| x[i]), excess);
            solved.dic[i] = dic;
            solvable[i] &= (species > 0.0) & (excess >= LEAST_EXCESS);
        }
    }

    /// H of two species.
    #[inline(always)]
    fn equilibrium(
        &self,
        solved: &mut Solved,
        solvable: &mut Mask,
        h: impl Fn(&ConstantSet<f64>, f64) -> f64,
    ) {
        for i in 0..ROWS {
            let (acid, base) = (self.first[i], self.second[i]);
            solved.h[i] = h(&self.waters.set.map(|x| x[i]), acid / base);
            solvable[i] &= (acid > 0.0) & (base > 0.0);
        }
    }

    /// Halley in ln H from the guesses in `solved`, for functions that fall with
    /// H. Where the step is below [`LAST_HALLEY_STEP`] the root is proven to be
    /// near and the step to be the last, however the guess was come by.
    #[inline(always)]
    fn halley<const MINOR: bool>(
        &self,
        solved: &mut Solved,
        solvable: &mut Mask,
        residual: impl Fn(AcidBase<'_>, f64, f64, f64) -> Part,
    ) {
        // 1 where the last step has been made.
        let mut done = Aligned([0.0; ROWS]);
        let done = &mut done.0;
        for _ in 0..PASSES {
            for i in 0..ROWS {
                let h = solved.h[i];
                let (first, second) = (self.first[i], self.second[i]);
                let (set, minor) = &self.row(i);
                let acid_base = AcidBase {
                    set,
                    minor: MINOR.then_some(minor),
                };
                let Part {
                    value,
                    slope,
                    curvature,
                } = residual(acid_base, first, second, h);
                let (size, whole) = (value.abs(), slope.abs());
                // Far from the root Newton's step, and no longer than 1.
                let bounded = if size <= whole {
                    value
                } else {
                    whole.copysign(value)
                };
                let bend = if size <= FAR * whole {
                    0.5 * curvature
                } else {
                    0.0
                };
                let next = h * exp_of_step(bounded * slope, slope * slope - bounded * bend);
                let last = size <= LAST_HALLEY_STEP * whole;
                let well_posed = first.abs() + second <= LARGEST_TERMS * whole;
                // A row's result does not depend on how long the others take.
                solved.h[i] = if done[i] > 0.0 { h } else { next };
                done[i] = if last & well_posed { 1.0 } else { done[i] };
            }
            if done.iter().fold(true, |all, done| all & (*done > 0.0)) {
                break;
            }
        }
        for i in 0..ROWS {
            solvable[i] &= done[i] > 0.0;
        }
    }
}

/// A first H from bicarbonate, carbonate and borate alone, a quadratic.
#[inline(always)]
fn bicarbonate_borate_guess(set: &ConstantSet<f64>, alkalinity: f64, bicarbonate: f64) -> f64 {
    let left = alkalinity - bicarbonate;
    let carbonate = 2.0 * set.k2 * bicarbonate;
    // left = carbonate/H + boron KB/(KB + H)
    let half = 0.5 * (left * set.kb - carbonate - set.boron * set.kb);
    let root = sqrt(half * half + left * carbonate * set.kb);
    let guess = if half > 0.0 {
        carbonate * set.kb / (half + root)
    } else {
        (root - half) / left
    };
    // NaN and infinity too.
    if guess > 0.0 && guess < 1.0 {
        guess
    } else {
        1e-8
    }
}
