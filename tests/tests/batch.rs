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

#[test]
fn every_pair_is_solved_as_by_the_single_solver() {
    // 138 ordered pairs three times over: more than 10^6 rows, half of them in
    // the published ranges of every relation or answered anyway.
    const ROWS: usize = 2053;
    let mut rng = fastrand::Rng::with_seed(20261125);
    let mut largest = 0.0_f64;
    let mut rows_answered = 0;
    for pair in pairs().flat_map(|(a, b)| [(a, b), (b, a)]) {
        let columns = random(pair, ROWS, &mut rng);
        let mut input = columns.input(pair.0, pair.1);
        for extrapolation in [Extrapolation::Refuse, Extrapolation::Allow] {
            input.extrapolation = extrapolation;
            let (difference, answered) = compare(&input, Output::ALL, ROWS);
            largest = largest.max(difference);
            rows_answered += answered;
        }
        // Reference composition, at the surface, no minor bases.
        input.composition = CompositionColumns::default();
        input.bases = BaseColumns::default();
        input.water_pressure_dbar = 0.0.into();
        let (difference, answered) = compare(&input, Output::ALL, ROWS);
        largest = largest.max(difference);
        rows_answered += answered;
    }
    println!("{rows_answered} rows answered, largest difference {largest:e}");
    assert!(rows_answered > 500_000);
}

#[test]
fn alkalinity_with_carbon_is_solved_at_a_hundred_thousand_waters_of_the_published_ranges() {
    const ROWS: usize = 100_000;
    let mut rng = fastrand::Rng::with_seed(1);
    let mut columns = Columns::default();
    for _ in 0..ROWS {
        columns.push_water(&mut rng);
        columns.first.push(uniform(&mut rng, 0.0, 6000.0));
        columns.second.push(uniform(&mut rng, 0.0, 6000.0));
    }
    // Of all relations but those of the NBS scale and of vapour pressure.
    for (celsius, salinity) in columns.celsius.iter_mut().zip(&mut columns.salinity) {
        *celsius = uniform(&mut rng, 9.0, 25.0);
        *salinity = uniform(&mut rng, 19.0, 40.0);
    }
    let input = columns.input(KnownKind::Alkalinity, KnownKind::InorganicCarbon);
    let (difference, answered) = compare(&input, Output::ALL, ROWS);
    println!("{answered} rows answered, largest difference {difference:e}");
    assert_eq!(answered, ROWS);
}

#[test]
fn every_choice_of_constants_is_that_of_the_single_solver() {
    const ROWS: usize = 203;
    let mut rng = fastrand::Rng::with_seed(2);
    let pair = (KnownKind::Alkalinity, KnownKind::Ph(PhScale::Seawater));
    let columns = random(pair, ROWS, &mut rng);
    let mut input = columns.input(pair.0, pair.1);
    input.composition = CompositionColumns::default();
    input.extrapolation = Extrapolation::Allow;
    for carbonic_acid in [
        CarbonicAcid::Lueker2000,
        CarbonicAcid::DicksonMillero1987,
        CarbonicAcid::Millero2010,
        CarbonicAcid::Waters2014,
        CarbonicAcid::Sulpis2020,
    ] {
        for bisulfate in [Bisulfate::Dickson1990, Bisulfate::Khoo1977] {
            for hydrogen_fluoride in [
                HydrogenFluoride::PerezFraga1987,
                HydrogenFluoride::DicksonRiley1979,
            ] {
                for total_boron in [TotalBoron::Lee2010, TotalBoron::Uppstrom1974] {
                    input.options = EquilibriumOptions {
                        carbonic_acid,
                        bisulfate,
                        hydrogen_fluoride,
                        total_boron,
                    };
                    for dbar in [Column::Shared(0.0), Column::Each(&columns.dbar)] {
                        input.water_pressure_dbar = dbar;
                        compare(&input, Output::ALL, ROWS);
                    }
                }
            }
        }
    }
}

/// Each output by itself: nothing it needs may come from another's needs.
#[test]
fn one_output_alone_is_what_it_is_among_all() {
    const ROWS: usize = 70;
    let mut rng = fastrand::Rng::with_seed(3);
    for pair in pairs() {
        let columns = random(pair, ROWS, &mut rng);
        let mut input = columns.input(pair.0, pair.1);
        input.extrapolation = Extrapolation::Allow;
        for bases in [input.bases, BaseColumns::default()] {
            input.bases = bases;
            for output in Output::ALL {
                compare(&input, &[*output], ROWS);
            }
        }
    }
}

/// Values that belong to no common state: most pairs contradict, and both say so.
#[test]
fn unrelated_knowns_are_refused_as_by_the_single_solver() {
    const ROWS: usize = 1500;
    let mut rng = fastrand::Rng::with_seed(4);
    let mut answered = 0;
    for pair in pairs() {
        let mut columns = Columns::default();
        for _ in 0..ROWS {
            columns.push_water(&mut rng);
            columns.first.push(wild(pair.0, &mut rng));
            columns.second.push(wild(pair.1, &mut rng));
        }
        let mut input = columns.input(pair.0, pair.1);
        input.extrapolation = Extrapolation::Allow;
        answered += compare(&input, &[Output::PhTotal, Output::InorganicCarbon], ROWS).1;
    }
    assert!(answered > 10_000, "{answered}");
}

/// A value over many orders of magnitude, now and then zero.
fn wild(kind: KnownKind, rng: &mut fastrand::Rng) -> f64 {
    if rng.u8(..) < 5 {
        return 0.0;
    }
    let orders = |min: f64, max: f64, rng: &mut fastrand::Rng| 10f64.powf(uniform(rng, min, max));
    match kind {
        KnownKind::Ph(_) => uniform(rng, 0.0, 14.0),
        KnownKind::Alkalinity if rng.u8(..) < 60 => -orders(-3.0, 5.0, rng),
        KnownKind::Aragonite | KnownKind::Calcite => orders(-6.0, 3.0, rng),
        _ => orders(-3.0, 6.0, rng),
    }
}

/// Everything that may stand in a column and should not, among good rows, and
/// the last values that may.
#[test]
fn bad_values_are_refused_where_they_stand() {
    let above = |x: f64| x.next_up();
    let below = |x: f64| x.next_down();
    let mut values = vec![
        f64::NAN,
        f64::INFINITY,
        f64::NEG_INFINITY,
        -1.0,
        -0.0,
        0.0,
        f64::MIN_POSITIVE,
        f64::MAX,
        f64::MIN,
        1e300,
        -1e-300,
    ];
    // The limits of quantities and relations, and their neighbours.
    let mut limits = vec![
        -5.0, 60.0, 0.0, 70.0, 1000.0, 0.4, 1.2, 14.0, 1e6, -1e5, 1e7,
    ];
    for relation in Relation::ALL {
        let range = relation.range();
        for (min, max) in [range.temperature_celsius, range.practical_salinity] {
            limits.extend([min, max]);
        }
    }
    values.extend(limits.iter().flat_map(|&x| [below(x), x, above(x)]));

    let rows = values.len();
    let good = |value: f64| vec![value; rows];
    for pair in [
        (KnownKind::Alkalinity, KnownKind::InorganicCarbon),
        (KnownKind::Ph(PhScale::Nbs), KnownKind::PartialPressure),
        (KnownKind::Aragonite, KnownKind::Alkalinity),
        (KnownKind::InorganicCarbon, KnownKind::Fugacity),
        (KnownKind::Bicarbonate, KnownKind::Calcite),
    ] {
        let reef = |kind| match kind {
            KnownKind::Alkalinity => 2300.0,
            KnownKind::InorganicCarbon => 2000.0,
            KnownKind::Ph(_) => 8.2,
            KnownKind::PartialPressure | KnownKind::Fugacity => 400.0,
            KnownKind::Bicarbonate => 1800.0,
            _ => 3.0,
        };
        for column in 0..14 {
            let mut columns = Columns {
                celsius: good(22.0),
                salinity: good(35.0),
                dbar: good(0.0),
                air: good(1.0),
                first: good(reef(pair.0)),
                second: good(reef(pair.1)),
                ions: [good(10_000.0), good(28_000.0), good(70.0), good(430.0)],
                bases: [good(1.0), good(0.0), good(1.0), good(0.0)],
            };
            let Columns {
                celsius,
                salinity,
                dbar,
                air,
                first,
                second,
                ions,
                bases,
            } = &mut columns;
            let mut all = vec![celsius, salinity, dbar, air, first, second];
            all.extend(ions);
            all.extend(bases);
            all[column].clone_from(&values);
            let mut input = columns.input(pair.0, pair.1);
            for extrapolation in [Extrapolation::Refuse, Extrapolation::Allow] {
                input.extrapolation = extrapolation;
                compare(&input, Output::ALL, rows);
                compare(&input, &[Output::PhTotal], rows);
            }
        }
    }
}

#[test]
fn shared_and_each_give_the_same() {
    const ROWS: usize = 131;
    let mut rng = fastrand::Rng::with_seed(5);
    for pair in pairs() {
        let columns = random(pair, ROWS, &mut rng);
        for extrapolation in [Extrapolation::Refuse, Extrapolation::Allow] {
            let mut input = columns.input(pair.0, pair.1);
            input.extrapolation = extrapolation;
            // One water and many knowns, then one row all over.
            let row = rng.usize(..ROWS);
            let shared = |column: Column<'_>| {
                Column::Shared(match column {
                    Column::Each(values) => values[row],
                    Column::Shared(value) => value,
                })
            };
            input.temperature_celsius = shared(input.temperature_celsius);
            input.practical_salinity = shared(input.practical_salinity);
            compare(&input, Output::ALL, ROWS);
            input.water_pressure_dbar = shared(input.water_pressure_dbar);
            input.air_pressure_atm = shared(input.air_pressure_atm);
            let ions = &mut input.composition;
            ions.calcium_umol_per_kg = ions.calcium_umol_per_kg.map(shared);
            ions.sulfate_umol_per_kg = ions.sulfate_umol_per_kg.map(shared);
            ions.fluoride_umol_per_kg = ions.fluoride_umol_per_kg.map(shared);
            ions.boron_umol_per_kg = ions.boron_umol_per_kg.map(shared);
            compare(&input, Output::ALL, ROWS);
            let bases = &mut input.bases;
            bases.phosphate_umol_per_kg = bases.phosphate_umol_per_kg.map(shared);
            bases.silicate_umol_per_kg = bases.silicate_umol_per_kg.map(shared);
            bases.ammonia_umol_per_kg = bases.ammonia_umol_per_kg.map(shared);
            bases.sulfide_umol_per_kg = bases.sulfide_umol_per_kg.map(shared);
            compare(&input, Output::ALL, ROWS);
            input.knowns = input.knowns.map(|(kind, column)| (kind, shared(column)));
            compare(&input, Output::ALL, ROWS);
        }
    }
    // A shared value that no row can use.
    let input = BatchInput::new(
        f64::NAN,
        35.0,
        (KnownKind::Alkalinity, 2300.0),
        (KnownKind::InorganicCarbon, 2000.0),
    );
    assert_eq!(compare(&input, Output::ALL, 3).1, 0);
}

/// A row's numbers do not depend on which rows stand around it, on how many
/// threads work or on how the batch is cut.
#[test]
fn rows_do_not_depend_on_one_another() {
    const ROWS: usize = 20_000;
    let mut rng = fastrand::Rng::with_seed(6);
    let pair = (KnownKind::Alkalinity, KnownKind::InorganicCarbon);
    let mut columns = random(pair, ROWS, &mut rng);
    // Some that need the single solver, some that are refused.
    for row in (0..ROWS).step_by(37) {
        columns.first[row] = 90_000.0;
        columns.second[row + 1] = f64::NAN;
    }
    let mut input = columns.input(pair.0, pair.1);
    input.extrapolation = Extrapolation::Allow;
    let wanted = [Output::PhTotal, Output::Revelle, Output::PhNbs];
    let whole = answer(&input, &wanted, ROWS).unwrap();
    let same = |part: &Answer, from: usize| {
        let rows = part.status.len();
        assert_eq!(part.status, whole.status[from..from + rows]);
        for ((_, part), (output, whole)) in part.outputs.iter().zip(&whole.outputs) {
            for (row, (a, b)) in part.iter().zip(&whole[from..from + rows]).enumerate() {
                assert_eq!(a.to_bits(), b.to_bits(), "{output}, row {}", from + row);
            }
        }
    };
    for threads in [0, 2, 3, 7, 1000] {
        let threaded = answer(&BatchInput { threads, ..input }, &wanted, ROWS).unwrap();
        same(&threaded, 0);
        assert_eq!(threaded.summary, whole.summary);
    }
    for rows in [0, 1, 2, 3, 63, 64, 65, 127, 129, 1000] {
        for from in [0, 1, 36, 37, 38, 5000] {
            same(
                &answer(&input.part(from..from + rows), &wanted, rows).unwrap(),
                from,
            );
        }
    }
}

#[test]
fn nothing_asked_is_nothing_done() {
    let input = BatchInput::new(
        25.0,
        35.0,
        (KnownKind::Alkalinity, 2300.0),
        (KnownKind::InorganicCarbon, 2000.0),
    );
    let empty = answer(&input, Output::ALL, 0).unwrap();
    assert_eq!(empty.summary, Summary::default());
    let statuses = answer(&input, &[], 5).unwrap();
    assert_eq!(statuses.status, [RowStatus::Ok; 5]);
    let twice = answer(&input, &[Output::PhTotal, Output::PhTotal], 5).unwrap();
    assert_eq!(twice.outputs[0], twice.outputs[1]);
}

#[test]
fn bad_batches_are_refused_as_a_whole() {
    let three = [25.0; 3];
    let four = [2300.0; 4];
    let good = BatchInput::new(
        &three[..],
        35.0,
        (KnownKind::Alkalinity, 2300.0),
        (KnownKind::InorganicCarbon, 2000.0),
    );
    let refusal = |input: &BatchInput<'_>, rows| answer(input, &[Output::PhTotal], rows).err();
    let wrong = |input, got, need| Some(Error::from(ErrorKind::WrongLength { input, got, need }));
    assert_eq!(refusal(&good, 3), None);
    assert_eq!(refusal(&good, 4), wrong("temperature", 3, 4));
    let mut input = good;
    input.knowns[1].1 = Column::Each(&four);
    assert_eq!(
        refusal(&input, 3),
        wrong("dissolved inorganic carbon", 4, 3)
    );
    let mut input = good;
    input.bases.ammonia_umol_per_kg = Some(Column::Each(&four));
    assert_eq!(refusal(&input, 3), wrong("total ammonia", 4, 3));
    let mut input = good;
    input.composition.boron_umol_per_kg = Some(Column::Each(&[]));
    assert_eq!(refusal(&input, 3), wrong("total boron", 0, 3));

    let mut short = [0.0; 2];
    let mut status = [RowStatus::Ok; 3];
    let refused = solve(&good, &mut [(Output::PhTotal, &mut short)], &mut status);
    assert_eq!(refused.err(), wrong("ph_total", 2, 3));
    assert_eq!(
        refused.unwrap_err().to_string(),
        "ph_total holds 2 values; there are 3 rows"
    );

    for a in KnownKind::ALL {
        for b in KnownKind::ALL.into_iter().filter(|&b| same_class(a, b)) {
            let mut input = good;
            input.knowns = [(a, Column::Shared(1.0)), (b, Column::Shared(1.0))];
            let refused = refusal(&input, 3).unwrap();
            assert!(refused.is_ambiguous(), "{a}, {b}: {refused}");
            // The same words as for a single water.
            assert_eq!(input.explain(0).unwrap_err(), refused);
        }
    }
}

#[test]
fn outputs_have_names_of_their_own() {
    for (i, a) in Output::ALL.iter().enumerate() {
        assert!(Output::ALL.iter().skip(i + 1).all(|b| a.name() != b.name()));
        assert!(a.name().is_ascii());
        // A number with a unit carries it in its name.
        let suffix = match a.unit() {
            "µmol/kg" => "_umol_per_kg",
            "mol/kg" => "_mol_per_kg",
            "µatm" => "_uatm",
            "ppm" => "_ppm",
            _ => "",
        };
        assert!(a.name().ends_with(suffix), "{a}");
    }
    for (code, status) in RowStatus::ALL.iter().enumerate() {
        assert_eq!(*status as usize, code);
    }
}
