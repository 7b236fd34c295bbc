use super::{BatchInput, Output, RowStatus};
use crate::Result;
use crate::carbonate::{CarbonateState, Equilibria, KnownKind};
use crate::quantity::PhScale;
use crate::relation::{Relation, RelationSet};

/// Rows solved one by one, as [`BatchInput::explain`] does.
pub(super) struct Rows<'a> {
    input: &'a BatchInput<'a>,
    /// The constants, where all rows share them.
    shared: Option<Result<Equilibria>>,
    /// Whether a known quantity is a pH on the NBS scale.
    nbs_known: bool,
}

impl<'a> Rows<'a> {
    pub(super) fn new(input: &'a BatchInput<'a>) -> Self {
        Self {
            input,
            shared: input.shares_water().then(|| input.equilibria(0)),
            nbs_known: input
                .knowns
                .iter()
                .any(|(kind, _)| *kind == KnownKind::Ph(PhScale::Nbs)),
        }
    }

    /// The constants, where all rows share them.
    pub(super) const fn shared(&self) -> Option<&Result<Equilibria>> {
        self.shared.as_ref()
    }

    fn state(&self, row: usize) -> Result<CarbonateState> {
        match &self.shared {
            Some(shared) => self.input.solve_in(shared.as_ref().map_err(|e| *e)?, row),
            None => self.input.explain(row),
        }
    }

    /// Solves one row into its place `at` in the outputs.
    #[inline(never)]
    pub(super) fn solve(
        &self,
        row: usize,
        at: usize,
        outputs: &mut [(Output, &mut [f64])],
    ) -> RowStatus {
        let state = match self.state(row) {
            Ok(state) => state,
            Err(refusal) => {
                for (_, values) in outputs {
                    put(values, at, f64::NAN);
                }
                return RowStatus::of_refusal(&refusal);
            }
        };
        let mut used = state.extrapolations();
        let mut nbs_used = self.nbs_known;
        let mut partial = false;
        for (output, values) in outputs {
            let value = output.of(&state);
            partial |= value.is_err();
            put(values, at, value.unwrap_or(f64::NAN));
            match output {
                Output::PhNbs => nbs_used = true,
                Output::DryMoleFractionCo2 => {
                    if let Ok(dry) = state.dry_mole_fraction_co2() {
                        used = used.union(dry.extrapolated());
                    }
                }
                _ => {}
            }
        }
        if partial {
            RowStatus::Partial
        } else if extrapolates(used, nbs_used) {
            RowStatus::Extrapolated
        } else {
            RowStatus::Ok
        }
    }
}

/// Whether a relation in use is extrapolated. That of the NBS scale is among a
/// state's extrapolations whether it is in use or not.
fn extrapolates(set: RelationSet, nbs_used: bool) -> bool {
    set.iter()
        .any(|relation| nbs_used || relation != Relation::FhTakahashi1982)
}

fn put(values: &mut [f64], at: usize, value: f64) {
    if let Some(place) = values.get_mut(at) {
        *place = value;
    }
}
