//! The batch against the solver of single waters: the same numbers, the same
//! refusals, row by row.

use halimeda::batch::{
    BaseColumns, BatchInput, Column, CompositionColumns, Output, RowStatus, Summary, solve,
};
use halimeda::carbonate::{
    Bisulfate, CarbonateState, CarbonicAcid, EquilibriumOptions, HydrogenFluoride, KnownKind,
    TotalBoron,
};
use halimeda::{Error, ErrorKind, Extrapolation, PhScale, Relation, Result};
use halimeda_tests::states::{known_of, pairs, same_class, uniform};

/// How far a number may lie from that of the single solver, of itself.
const TOLERANCE: f64 = 1e-12;

/// Outputs and statuses of a batch.
struct Answer {
    outputs: Vec<(Output, Vec<f64>)>,
    status: Vec<RowStatus>,
    summary: Summary,
}

fn answer(input: &BatchInput<'_>, wanted: &[Output], rows: usize) -> Result<Answer> {
    // What was there before must not be seen afterwards.
    let mut outputs: Vec<_> = wanted.iter().map(|&o| (o, vec![-7.0; rows])).collect();
    let mut status = vec![RowStatus::Ambiguous; rows];
    let mut places: Vec<_> = outputs
        .iter_mut()
        .map(|(output, values)| (*output, values.as_mut_slice()))
        .collect();
    let summary = solve(input, &mut places, &mut status)?;
    assert_eq!(summary.rows(), rows);
    Ok(Answer {
        outputs,
        status,
        summary,
    })
}

/// What an output is a difference of, so that rounding is measured against it.
fn scale(output: Output, state: &CarbonateState, value: f64) -> f64 {
    let parts = state.alkalinity_parts();
    let dic = state.inorganic_carbon().mol_per_kg();
    match output {
        Output::PhTotal | Output::PhFree | Output::PhSeawater | Output::PhNbs => 1.0,
        // Bases less acids.
        Output::Alkalinity => {
            let acids = parts.free_hydrogen_umol_per_kg
                + parts.bisulfate_umol_per_kg
                + parts.hydrogen_fluoride_umol_per_kg
                + parts.phosphate_umol_per_kg.min(0.0);
            parts.sum_umol_per_kg() - 2.0 * acids
        }
        // HPO4 and PO4 less H3PO4.
        Output::PhosphateAlkalinity => {
            value.abs() + state.equilibria().bases().phosphate.umol_per_kg()
        }
        // A pole where the saturation state stops rising with DIC; 1/ω is finite.
        Output::OmegaDic => value.abs().max(value * value / dic),
        _ => value.abs(),
    }
}

/// Holds every row of a batch against [`BatchInput::explain`]; gives the largest
/// difference and how many rows were answered.
fn compare(input: &BatchInput<'_>, wanted: &[Output], rows: usize) -> (f64, usize) {
    let answer = answer(input, wanted, rows).unwrap();
    let mut largest = 0.0_f64;
    let mut answered = 0;
    for row in 0..rows {
        let status = answer.status[row];
        let context = || format!("row {row} of {:?}: {status:?}", input.knowns.map(|k| k.0));
        let state = match input.explain(row) {
            Ok(state) => state,
            Err(refusal) => {
                assert_eq!(
                    status,
                    expected_refusal(&refusal),
                    "{}: {refusal}",
                    context()
                );
                for (output, values) in &answer.outputs {
                    assert!(values[row].is_nan(), "{}: {output}", context());
                }
                continue;
            }
        };
        assert!(!status.is_refused(), "{}", context());
        answered += 1;
        let mut partial = false;
        let mut used = state.extrapolations();
        let mut uses_nbs = input
            .knowns
            .iter()
            .any(|k| k.0 == KnownKind::Ph(PhScale::Nbs));
        for (output, values) in &answer.outputs {
            uses_nbs |= *output == Output::PhNbs;
            if *output == Output::DryMoleFractionCo2 {
                if let Ok(dry) = state.dry_mole_fraction_co2() {
                    used = used.union(dry.extrapolated());
                }
            }
            let value = values[row];
            let Ok(expected) = output.of(&state) else {
                assert!(value.is_nan(), "{}: {output}", context());
                partial = true;
                continue;
            };
            let difference = (value - expected).abs();
            let relative = if difference == 0.0 {
                0.0
            } else {
                difference / scale(*output, &state, expected)
            };
            assert!(
                relative <= TOLERANCE,
                "{}: {output} is {value}, not {expected}: {relative:e}; {state:?}",
                context()
            );
            largest = largest.max(relative);
        }
        let extrapolates = used
            .iter()
            .any(|relation| uses_nbs || relation != Relation::FhTakahashi1982);
        let expected = match (partial, extrapolates) {
            (true, _) => RowStatus::Partial,
            (_, true) => RowStatus::Extrapolated,
            _ => RowStatus::Ok,
        };
        assert_eq!(status, expected, "{}", context());
    }
    assert_eq!(answer.summary.refused, rows - answered);
    (largest, answered)
}

fn expected_refusal(refusal: &Error) -> RowStatus {
    match refusal.kind() {
        ErrorKind::NonFinite { .. } => RowStatus::NonFinite,
        ErrorKind::OutOfRange { .. } => RowStatus::OutOfRange,
        ErrorKind::OutsidePublishedRange { .. } => RowStatus::OutsidePublishedRange,
        ErrorKind::Contradictory { .. } => RowStatus::Contradictory,
        ErrorKind::Ambiguous { .. } => RowStatus::Ambiguous,
        other => panic!("{other:?} is no answer to a row"),
    }
}

/// Columns of random waters and of what is known of them.
#[derive(Default)]
struct Columns {
    celsius: Vec<f64>,
    salinity: Vec<f64>,
    dbar: Vec<f64>,
    air: Vec<f64>,
    first: Vec<f64>,
    second: Vec<f64>,
    ions: [Vec<f64>; 4],
    bases: [Vec<f64>; 4],
}

impl Columns {
    fn input(&self, first: KnownKind, second: KnownKind) -> BatchInput<'_> {
        let [calcium, sulfate, fluoride, boron] = &self.ions;
        let [phosphate, silicate, ammonia, sulfide] = &self.bases;
        let mut input = BatchInput::new(
            &self.celsius,
            &self.salinity,
            (first, &self.first),
            (second, &self.second),
        );
        input.water_pressure_dbar = Column::Each(&self.dbar);
        input.air_pressure_atm = Column::Each(&self.air);
        let given = |column| Some(Column::Each(column));
        input.composition = CompositionColumns {
            calcium_umol_per_kg: given(calcium),
            sulfate_umol_per_kg: given(sulfate),
            fluoride_umol_per_kg: given(fluoride),
            boron_umol_per_kg: given(boron),
        };
        input.bases = BaseColumns {
            phosphate_umol_per_kg: given(phosphate),
            silicate_umol_per_kg: given(silicate),
            ammonia_umol_per_kg: given(ammonia),
            sulfide_umol_per_kg: given(sulfide),
        };
        input
    }

    /// A random water over the widest of the published ranges.
    fn push_water(&mut self, rng: &mut fastrand::Rng) {
        self.celsius.push(uniform(rng, -1.0, 50.0));
        let salinity = uniform(rng, 0.0, 50.0);
        self.salinity.push(salinity);
        self.dbar.push(if rng.bool() {
            0.0
        } else {
            uniform(rng, 0.0, 1000.0)
        });
        self.air.push(uniform(rng, 0.7, 1.1));
        let ions = [10_282.0, 28_235.0, 68.0, 433.0];
        for (column, reference) in self.ions.iter_mut().zip(ions) {
            column.push(reference * (salinity / 35.0) * uniform(rng, 0.8, 1.2));
        }
        for (column, most) in self.bases.iter_mut().zip([30.0, 200.0, 50.0, 5.0]) {
            column.push(if rng.bool() {
                0.0
            } else {
                uniform(rng, 0.0, most)
            });
        }
    }
}

/// Random waters with the values that two quantities have in a random state.
fn random(pair: (KnownKind, KnownKind), rows: usize, rng: &mut fastrand::Rng) -> Columns {
    let mut columns = Columns::default();
    for row in 0..rows {
        columns.push_water(rng);
        columns.first.push(uniform(rng, 6.0, 10.0));
        columns.second.push(uniform(rng, 10.0, 6000.0));
        let mut input = columns.input(KnownKind::Ph(PhScale::Total), KnownKind::InorganicCarbon);
        input.extrapolation = Extrapolation::Allow;
        let state = input.explain(row).unwrap();
        let value = |kind| known_of(&state, kind).unwrap().value();
        columns.first[row] = value(pair.0);
        columns.second[row] = value(pair.1);
    }
    columns
}

fn rows_per_pair() -> usize {
    // 66 pairs in two orders: 2 × 10^5 rows in all, three times over.
    2053
}

#[test]
fn every_pair_is_solved_as_by_the_single_solver() {
    let mut rng = fastrand::Rng::with_seed(20261125);
    let mut largest = 0.0_f64;
    let mut rows_answered = 0;
    for pair in pairs().flat_map(|(a, b)| [(a, b), (b, a)]) {
        let rows = rows_per_pair();
        let columns = random(pair, rows, &mut rng);
        let mut input = columns.input(pair.0, pair.1);
        for extrapolation in [Extrapolation::Refuse, Extrapolation::Allow] {
            input.extrapolation = extrapolation;
            let (difference, answered) = compare(&input, Output::ALL, rows);
            largest = largest.max(difference);
            rows_answered += answered;
        }
        // Reference composition, at the surface, no minor bases.
        input.composition = CompositionColumns::default();
        input.bases = BaseColumns::default();
        input.water_pressure_dbar = 0.0.into();
        let (difference, answered) = compare(&input, Output::ALL, rows);
        largest = largest.max(difference);
        rows_answered += answered;
    }
    println!("{rows_answered} rows answered, largest difference {largest:e}");
    assert!(rows_answered > 100_000);
}
