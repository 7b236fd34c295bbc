//! Rows solved many at a time.

use super::lane::Lane;
use super::pairs::{Question, Solved, reduce};
use super::plan::{Limits, Plan, stand_in};
use super::rows::Rows;
use super::strip::{Aligned, Mask, ROWS, Strip, all, any, keep_within};
use super::waters::Waters;
use super::{BatchInput, Column, Output, RowStatus};
use crate::carbonate::Equilibria;
use crate::carbonate::point::Point;
use crate::carbonate::speciation::AcidBase;
use crate::quantity::{AirPressure, Content, DryMoleFractionCo2, WaterPressure, species};

/// What any content may be, µmol/kg.
const CONTENT: (f64, f64) = (0.0, Content::<species::Calcium>::MAX_UMOL_PER_KG);

/// Values that stand in where a row is not solved with the others.
const CELSIUS: f64 = 25.0;
const SALINITY: f64 = 35.0;
/// Calcium, sulfate, fluoride, boron, µmol/kg.
const COMPOSITION: [f64; 4] = [10_282.0, 28_235.0, 68.0, 433.0];

/// Room for the rows that are solved together, used over and over.
pub(super) struct Block {
    waters: Waters,
    knowns: [Strip; 2],
    solved: Solved,
    /// Rows that are solved here; the others go one by one.
    here: Mask,
    /// Rows that extrapolate a relation.
    beyond: Mask,
}

/// The rows of a part, from `start` of the input on.
pub(super) struct PartRows<'p, 'o> {
    pub(super) input: &'p BatchInput<'p>,
    pub(super) plan: Plan<'p>,
    pub(super) rows: &'p Rows<'p>,
    pub(super) start: usize,
    pub(super) outputs: &'p mut [(Output, &'o mut [f64])],
    pub(super) status: &'p mut [RowStatus],
}

impl pulp::WithSimd for PartRows<'_, '_> {
    type Output = ();

    #[inline(always)]
    fn with_simd<S: pulp::Simd>(self, _: S) {
        // The vector units of these two multiply and add in one instruction.
        const FUSES: bool = cfg!(any(
            target_arch = "x86",
            target_arch = "x86_64",
            target_arch = "aarch64"
        ));
        if FUSES && !S::IS_SCALAR {
            self.solve::<true>();
        } else {
            self.solve::<false>();
        }
    }
}

impl PartRows<'_, '_> {
    #[inline(always)]
    fn solve<const FUSED: bool>(mut self) {
        let mut block = Aligned(Block {
            waters: Waters::new(),
            knowns: [[0.0; ROWS]; 2],
            solved: Solved {
                h: [0.0; ROWS],
                dic: [0.0; ROWS],
            },
            here: [false; ROWS],
            beyond: [false; ROWS],
        });
        let block = &mut block.0;
        if let Some(Ok(equilibria)) = self.rows.shared() {
            block.share(equilibria);
        }
        let mut at = 0;
        while at < self.status.len() {
            self.rows_at::<FUSED>(block, at);
            at += ROWS;
        }
    }

    /// Solves the rows that begin `at` rows into the part.
    #[inline(always)]
    fn rows_at<const FUSED: bool>(&mut self, block: &mut Block, at: usize) {
        let row = self.start + at;
        let plan = &self.plan;
        block.load(self.input, plan, row);
        if any(&block.here) {
            let bases = plan.holds_bases();
            if self.rows.shared().is_none() {
                let measured = self.input.composition.columns().map(|c| c.is_some());
                block
                    .waters
                    .evaluate::<FUSED>(&self.input.options, &plan.needs, measured, bases);
            }
            if bases {
                block.solve::<FUSED, true>(plan);
                self.write::<FUSED, true>(block, at);
            } else {
                block.solve::<FUSED, false>(plan);
                self.write::<FUSED, false>(block, at);
            }
        }
        for (status, beyond) in self.status.iter_mut().skip(at).zip(&block.beyond) {
            *status = if *beyond {
                RowStatus::Extrapolated
            } else {
                RowStatus::Ok
            };
        }
        if !all(&block.here) {
            let statuses = self.status.iter_mut().skip(at);
            for (i, (status, here)) in statuses.zip(&block.here).enumerate() {
                if !here {
                    *status = self.rows.solve(row + i, at + i, self.outputs);
                }
            }
        }
    }

    #[inline(always)]
    fn write<const FUSED: bool, const MINOR: bool>(&mut self, block: &mut Block, at: usize) {
        let mut strip = Aligned([0.0; ROWS]);
        let strip = &mut strip.0;
        for (output, values) in self.outputs.iter_mut() {
            output.fill::<FUSED, MINOR>(block, strip);
            if *output == Output::DryMoleFractionCo2 {
                for (value, dry) in strip.iter_mut().zip(&block.waters.dry_atm) {
                    *value /= dry;
                }
                let limits = (DryMoleFractionCo2::MIN, DryMoleFractionCo2::MAX);
                keep_within(&mut block.here, strip, limits);
            }
            for (value, computed) in values.iter_mut().skip(at).zip(strip.iter()) {
                *value = *computed;
            }
        }
    }
}

impl Block {
    /// The constants that all rows share.
    fn share(&mut self, equilibria: &Equilibria) {
        let acid_base = equilibria.acid_base();
        self.waters.set = acid_base.set.map(|value| [*value; ROWS]);
        if let Some(minor) = acid_base.minor {
            self.waters.minor = minor.map(|value| [*value; ROWS]);
        }
        let air = equilibria.water().air_pressure().atm();
        let vapour = equilibria.water().vapour_pressure_atm().unwrap_or(f64::NAN);
        self.waters.dry_atm = [air - vapour; ROWS];
    }

    /// Reads the rows from `row` on and decides which of them are solved here.
    #[inline(always)]
    fn load(&mut self, input: &BatchInput<'_>, plan: &Plan<'_>, row: usize) {
        self.here = [true; ROWS];
        let here = &mut self.here;
        let waters = &mut self.waters;
        let accepted = Limits::ACCEPTED;
        read(
            input.temperature_celsius,
            row,
            CELSIUS,
            accepted.celsius,
            &mut waters.celsius,
            here,
        );
        read(
            input.practical_salinity,
            row,
            SALINITY,
            accepted.salinity,
            &mut waters.salinity,
            here,
        );
        read(
            input.water_pressure_dbar,
            row,
            WaterPressure::SURFACE.dbar(),
            (WaterPressure::MIN, WaterPressure::MAX),
            &mut waters.water_pressure_dbar,
            here,
        );
        read(
            input.air_pressure_atm,
            row,
            AirPressure::STANDARD.atm(),
            (AirPressure::MIN, AirPressure::MAX),
            &mut waters.air_pressure_atm,
            here,
        );
        let strips = waters.composition.iter_mut().zip(COMPOSITION);
        for (column, (strip, stand_in)) in input.composition.columns().into_iter().zip(strips) {
            if let Some(column) = column {
                read(column, row, stand_in, CONTENT, strip, here);
            }
        }
        self.beyond = [true; ROWS];
        keep_within(&mut self.beyond, &waters.celsius, plan.published.celsius);
        keep_within(&mut self.beyond, &waters.salinity, plan.published.salinity);
        for beyond in &mut self.beyond {
            *beyond = !*beyond;
        }
        for (base, strip) in plan.bases.iter().zip(&mut waters.bases) {
            let Some((column, limits)) = base else {
                *strip = [0.0; ROWS];
                continue;
            };
            read(*column, row, 0.0, CONTENT, strip, here);
            let mut published = [true; ROWS];
            keep_within(&mut published, &waters.celsius, limits.celsius);
            keep_within(&mut published, &waters.salinity, limits.salinity);
            let rows = published.iter().zip(strip.iter());
            for (beyond, (published, content)) in self.beyond.iter_mut().zip(rows) {
                *beyond |= !*published & (*content > 0.0);
            }
        }
        for ((kind, column), strip) in plan.knowns.into_iter().zip(&mut self.knowns) {
            read(column, row, stand_in(kind), kind.limits(), strip, here);
        }
        if plan.refuses_extrapolation {
            for (here, beyond) in here.iter_mut().zip(&self.beyond) {
                *here &= !*beyond;
            }
        }
        if !all(here) {
            self.stand_in(plan);
        }
    }

    /// Puts harmless values in place of those that are not solved here.
    fn stand_in(&mut self, plan: &Plan<'_>) {
        let waters = &mut self.waters;
        let [(first, _), (second, _)] = plan.knowns;
        let [first_values, second_values] = &mut self.knowns;
        let strips = [
            (&mut waters.celsius, CELSIUS),
            (&mut waters.salinity, SALINITY),
            (
                &mut waters.water_pressure_dbar,
                WaterPressure::SURFACE.dbar(),
            ),
            (&mut waters.air_pressure_atm, AirPressure::STANDARD.atm()),
            (first_values, stand_in(first)),
            (second_values, stand_in(second)),
        ];
        let composition = waters.composition.iter_mut().zip(COMPOSITION);
        let bases = waters.bases.iter_mut().map(|strip| (strip, 0.0));
        for (strip, stand_in) in strips.into_iter().chain(composition).chain(bases) {
            for (value, here) in strip.iter_mut().zip(&self.here) {
                if !here {
                    *value = stand_in;
                }
            }
        }
    }

    #[inline(always)]
    fn solve<const FUSED: bool, const MINOR: bool>(&mut self, plan: &Plan<'_>) {
        let [first, second] = &mut self.knowns;
        let [(first_kind, _), (second_kind, _)] = plan.knowns;
        reduce::<FUSED>(first_kind, first, &self.waters.set, &mut self.here);
        reduce::<FUSED>(second_kind, second, &self.waters.set, &mut self.here);
        let question = Question {
            waters: &self.waters,
            first,
            second,
        };
        question.solve::<MINOR>(plan.pair, &mut self.solved, &mut self.here);
    }

    /// Fills a strip with one number of each row's state.
    #[inline(always)]
    pub(super) fn fill<const FUSED: bool, const MINOR: bool>(
        &self,
        strip: &mut Strip,
        f: impl Fn(&Point<'_>) -> f64,
    ) {
        let Self {
            waters: Waters { set, minor, .. },
            solved: Solved { h, dic },
            ..
        } = self;
        // The index runs over 0..ROWS, the length of every array.
        #[allow(clippy::indexing_slicing)]
        for i in 0..ROWS {
            let set = &set.map(|x| x[i]);
            let minor = &minor.map(|x| x[i]);
            strip[i] = f(&Point {
                acid_base: AcidBase {
                    set,
                    minor: if MINOR { Some(minor) } else { None },
                },
                h: h[i],
                dic: dic[i],
            });
        }
    }
}

/// Reads ROWS values from `row` on and notes which are within the limits. Past
/// the end of the column, and of the batch with it, any will do.
#[inline(always)]
fn read(
    column: Column<'_>,
    row: usize,
    stand_in: f64,
    limits: (f64, f64),
    strip: &mut Strip,
    here: &mut Mask,
) {
    match column {
        Column::Shared(value) => *strip = [value; ROWS],
        Column::Each(values) => {
            let values = values.get(row..).unwrap_or(&[]);
            match values.first_chunk::<ROWS>() {
                Some(whole) => *strip = *whole,
                None => {
                    *strip = [stand_in; ROWS];
                    for (place, value) in strip.iter_mut().zip(values) {
                        *place = *value;
                    }
                }
            }
        }
    }
    keep_within(here, strip, limits);
}

/// Base-10 logarithm as it is written into the loops.
#[inline(always)]
pub(super) fn log10<const FUSED: bool>(x: f64) -> f64 {
    Lane::<FUSED>(x).log10()
}
