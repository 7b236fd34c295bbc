//! `carbonate`: from two known quantities to the whole carbonate system.

use halimeda::batch::{self, BaseColumns, BatchInput, CompositionColumns};
use halimeda::carbonate::EquilibriumOptions;
use pyo3::prelude::*;
use pyo3::types::PyDict;

use crate::argument::{Gathered, Object, Spelled, gather, spelled};
use crate::column::Column;
use crate::error::{Blame, OrRaise, type_error};
use crate::knowns::{self, Pair, options};
use crate::rows::OnRefused;
use crate::state::CarbonateState;
use crate::states::{solve_rows, wanted};
use crate::water::Water;
use crate::waters::{self, Waters, Ways, medium_of};

/// What is asked for beside the quantities.
struct Asked<'a, 'py> {
    options: EquilibriumOptions,
    outputs: Object<'a, 'py>,
    threads: usize,
    errors: OnRefused,
}

/// Solve the carbonate system of waters from two known quantities.
///
/// Parameters
/// ----------
/// table : DataFrame or Dataset, optional
///     Of pandas, polars or xarray; its columns are named as the keywords, and the
///     result is a table of the same kind, with the column ``status``.
/// temperature_celsius, temperature : number or array, quantity
///     Temperature (ITS-90), °C, -5 to 60; each relation has its own, narrower
///     range. With its unit: ``temperature="78 °F"``.
/// practical_salinity : number or array
///     Practical salinity (PSS-78), 0 to 50.
/// specific_gravity : quantity
///     Specific gravity with its reference: ``"1.0264 25/25 °C"``.
/// hydrometer : quantity
///     What a glass hydrometer shows, floating in the water, with its reference:
///     ``"1.0258 25/25 °C"``.
/// conductivity_ms_per_cm, conductivity : number or array, quantity
///     Conductivity at the water's temperature and pressure, mS/cm.
/// density_kg_per_m3, density : number or array, quantity
///     Density at the water's temperature and one atmosphere, kg/m³.
/// refractive_index : number or array
///     Relative to air, sodium D line, at the water's temperature.
/// refractometer : number or array
///     Practical salinity on a seawater scale that was set to zero in pure water
///     and compensates for temperature.
/// water_pressure_dbar, water_pressure : number or array, quantity
///     Pressure of the water column above, dbar; zero unless given.
/// air_pressure_atm, air_pressure : number or array, quantity
///     Pressure of the air at the tank, atm; one unless given.
/// altitude_m, altitude : number or array, quantity
///     Altitude instead of the air pressure, m.
/// calcium_umol_per_kg, calcium : number or array, quantity
///     Measured calcium, µmol/kg; of the reference composition unless given.
/// magnesium_umol_per_kg, magnesium : number or array, quantity
///     Measured magnesium, µmol/kg; of the reference composition unless given.
/// potassium_umol_per_kg, potassium : number or array, quantity
///     Measured potassium, µmol/kg; of the reference composition unless given.
/// strontium_umol_per_kg, strontium : number or array, quantity
///     Measured strontium, µmol/kg; of the reference composition unless given.
/// sulfate_umol_per_kg, sulfate : number or array, quantity
///     Measured total sulfate, µmol/kg; of the reference composition unless given.
/// fluoride_umol_per_kg, fluoride : number or array, quantity
///     Measured total fluoride, µmol/kg; of the reference composition unless given.
/// boron_umol_per_kg, boron : number or array, quantity
///     Measured total boron, µmol/kg; from the salinity by `total_boron` unless given.
/// extrapolate : bool
///     Evaluate relations outside the range they were published for, and say
///     which, instead of refusing.
/// alkalinity_umol_per_kg, alkalinity : number or array, quantity
///     Total alkalinity, µmol/kg. With its unit: ``alkalinity="8.2 dKH"``.
/// inorganic_carbon_umol_per_kg, inorganic_carbon : number or array, quantity
///     Dissolved inorganic carbon, µmol/kg.
/// ph_total, ph_free, ph_seawater, ph_nbs : number or array
///     One pH, 0 to 14, on the scale of the name. A probe that was calibrated in
///     the buffers 4, 7 and 10 shows `ph_nbs`.
/// ph : quantity
///     One pH with its scale: ``"8.1 total"``, ``"8.2 NBS"``.
/// partial_pressure_co2_uatm, partial_pressure_co2 : number or array, quantity
///     Partial pressure of CO2, µatm.
/// fugacity_co2_uatm, fugacity_co2 : number or array, quantity
///     Fugacity of CO2, µatm.
/// carbon_dioxide_umol_per_kg, carbon_dioxide : number or array, quantity
///     Dissolved CO2, µmol/kg.
/// bicarbonate_umol_per_kg, bicarbonate : number or array, quantity
///     Bicarbonate, µmol/kg.
/// carbonate_umol_per_kg, carbonate : number or array, quantity
///     Carbonate, µmol/kg.
/// aragonite_saturation, calcite_saturation : number or array
///     Saturation state, with the calcium of the water.
/// phosphate_umol_per_kg, phosphate : number or array, quantity
///     Total phosphate, µmol/kg; zero unless given.
/// silicate_umol_per_kg, silicate : number or array, quantity
///     Total silicate, µmol/kg; zero unless given.
/// ammonia_umol_per_kg, ammonia : number or array, quantity
///     Total ammonia, µmol/kg; zero unless given.
/// sulfide_umol_per_kg, sulfide : number or array, quantity
///     Total sulfide, µmol/kg; zero unless given.
/// carbonic_acid : str
///     Published K1 and K2: ``"lueker2000"``, ``"dickson_millero1987"``,
///     ``"millero2010"``, ``"waters2014"`` or ``"sulpis2020"``.
/// bisulfate : str
///     Published KS: ``"dickson1990"`` or ``"khoo1977"``.
/// hydrogen_fluoride : str
///     Published KF: ``"perez_fraga1987"`` or ``"dickson_riley1979"``.
/// total_boron : str
///     Ratio of total boron to salinity where boron was not measured:
///     ``"lee2010"`` or ``"uppstrom1974"``.
/// outputs : str or sequence of str, optional
///     Results to compute of arrays, by attribute name; ``"buffer_factors"`` and
///     ``"alkalinity_parts"`` stand for all of theirs. The usual ones unless given.
/// threads : int
///     Cores to use for arrays; 0 stands for all.
/// errors : str
///     Refused rows of arrays: ``"flag"`` for NaN and a status, ``"raise"`` for the
///     exception of the first.
///
/// Returns
/// -------
/// CarbonateState or CarbonateStates
///     One state for scalars, an array of them for arrays.
///
/// Raises
/// ------
/// HalimedaValueError
///     An input is outside its limits or a relation's published range; no state or
///     two states satisfy the pair (see `Water.carbonate_all`).
/// HalimedaTypeError
///     Not two known quantities, a unit missing or wrong, a keyword given twice.
///
/// Source
/// ------
/// Dickson, Sabine & Christian (2007) PICES Special Publication 3; solver:
/// Munhoven (2013) doi:10.5194/gmd-6-1367-2013, (2021) doi:10.5194/gmd-14-4225-2021.
///
/// Examples
/// --------
/// >>> import halimeda as hm
/// >>> state = hm.carbonate(temperature_celsius=25.0, practical_salinity=35.0,
/// ...                      alkalinity_umol_per_kg=2300.0, inorganic_carbon_umol_per_kg=2000.0)
/// >>> round(state.ph_total, 2)
/// 8.04
#[pyfunction]
#[pyo3(signature = (
    table = None, /, *, temperature_celsius = None, temperature = None, practical_salinity = None, specific_gravity = None, hydrometer = None, conductivity_ms_per_cm = None, conductivity = None, density_kg_per_m3 = None, density = None, refractive_index = None, refractometer = None, water_pressure_dbar = None, water_pressure = None, air_pressure_atm = None, air_pressure = None, altitude_m = None, altitude = None, calcium_umol_per_kg = None, calcium = None, magnesium_umol_per_kg = None, magnesium = None, potassium_umol_per_kg = None, potassium = None, strontium_umol_per_kg = None, strontium = None, sulfate_umol_per_kg = None, sulfate = None, fluoride_umol_per_kg = None, fluoride = None, boron_umol_per_kg = None, boron = None, extrapolate = false,
    alkalinity_umol_per_kg = None, alkalinity = None, inorganic_carbon_umol_per_kg = None, inorganic_carbon = None, ph_total = None, ph_free = None, ph_seawater = None, ph_nbs = None, ph = None, partial_pressure_co2_uatm = None, partial_pressure_co2 = None, fugacity_co2_uatm = None, fugacity_co2 = None, carbon_dioxide_umol_per_kg = None, carbon_dioxide = None, bicarbonate_umol_per_kg = None, bicarbonate = None, carbonate_umol_per_kg = None, carbonate = None, aragonite_saturation = None, calcite_saturation = None, phosphate_umol_per_kg = None, phosphate = None, silicate_umol_per_kg = None, silicate = None, ammonia_umol_per_kg = None, ammonia = None, sulfide_umol_per_kg = None, sulfide = None,
    carbonic_acid = "lueker2000", bisulfate = "dickson1990",
    hydrogen_fluoride = "perez_fraga1987", total_boron = "lee2010",
    outputs = None, threads = 1, errors = "flag",
))]
#[allow(clippy::too_many_arguments)]
pub(crate) fn carbonate<'py>(
    py: Python<'py>,
    table: Object<'_, 'py>,
    temperature_celsius: Object<'_, 'py>,
    temperature: Object<'_, 'py>,
    practical_salinity: Object<'_, 'py>,
    specific_gravity: Object<'_, 'py>,
    hydrometer: Object<'_, 'py>,
    conductivity_ms_per_cm: Object<'_, 'py>,
    conductivity: Object<'_, 'py>,
    density_kg_per_m3: Object<'_, 'py>,
    density: Object<'_, 'py>,
    refractive_index: Object<'_, 'py>,
    refractometer: Object<'_, 'py>,
    water_pressure_dbar: Object<'_, 'py>,
    water_pressure: Object<'_, 'py>,
    air_pressure_atm: Object<'_, 'py>,
    air_pressure: Object<'_, 'py>,
    altitude_m: Object<'_, 'py>,
    altitude: Object<'_, 'py>,
    calcium_umol_per_kg: Object<'_, 'py>,
    calcium: Object<'_, 'py>,
    magnesium_umol_per_kg: Object<'_, 'py>,
    magnesium: Object<'_, 'py>,
    potassium_umol_per_kg: Object<'_, 'py>,
    potassium: Object<'_, 'py>,
    strontium_umol_per_kg: Object<'_, 'py>,
    strontium: Object<'_, 'py>,
    sulfate_umol_per_kg: Object<'_, 'py>,
    sulfate: Object<'_, 'py>,
    fluoride_umol_per_kg: Object<'_, 'py>,
    fluoride: Object<'_, 'py>,
    boron_umol_per_kg: Object<'_, 'py>,
    boron: Object<'_, 'py>,
    extrapolate: bool,
    alkalinity_umol_per_kg: Object<'_, 'py>,
    alkalinity: Object<'_, 'py>,
    inorganic_carbon_umol_per_kg: Object<'_, 'py>,
    inorganic_carbon: Object<'_, 'py>,
    ph_total: Object<'_, 'py>,
    ph_free: Object<'_, 'py>,
    ph_seawater: Object<'_, 'py>,
    ph_nbs: Object<'_, 'py>,
    ph: Object<'_, 'py>,
    partial_pressure_co2_uatm: Object<'_, 'py>,
    partial_pressure_co2: Object<'_, 'py>,
    fugacity_co2_uatm: Object<'_, 'py>,
    fugacity_co2: Object<'_, 'py>,
    carbon_dioxide_umol_per_kg: Object<'_, 'py>,
    carbon_dioxide: Object<'_, 'py>,
    bicarbonate_umol_per_kg: Object<'_, 'py>,
    bicarbonate: Object<'_, 'py>,
    carbonate_umol_per_kg: Object<'_, 'py>,
    carbonate: Object<'_, 'py>,
    aragonite_saturation: Object<'_, 'py>,
    calcite_saturation: Object<'_, 'py>,
    phosphate_umol_per_kg: Object<'_, 'py>,
    phosphate: Object<'_, 'py>,
    silicate_umol_per_kg: Object<'_, 'py>,
    silicate: Object<'_, 'py>,
    ammonia_umol_per_kg: Object<'_, 'py>,
    ammonia: Object<'_, 'py>,
    sulfide_umol_per_kg: Object<'_, 'py>,
    sulfide: Object<'_, 'py>,
    carbonic_acid: &str,
    bisulfate: &str,
    hydrogen_fluoride: &str,
    total_boron: &str,
    outputs: Object<'_, 'py>,
    threads: usize,
    errors: &str,
) -> PyResult<Bound<'py, PyAny>> {
    let spelled = spelled![
        temperature_celsius / temperature: TEMPERATURE,
        practical_salinity: PRACTICAL_SALINITY,
        / specific_gravity: SPECIFIC_GRAVITY,
        / hydrometer: SPECIFIC_GRAVITY,
        conductivity_ms_per_cm / conductivity: CONDUCTIVITY,
        density_kg_per_m3 / density: DENSITY,
        refractive_index: SATURATION,
        refractometer: PRACTICAL_SALINITY,
        water_pressure_dbar / water_pressure: WATER_PRESSURE,
        air_pressure_atm / air_pressure: PRESSURE,
        altitude_m / altitude: ALTITUDE,
        calcium_umol_per_kg / calcium: CALCIUM,
        magnesium_umol_per_kg / magnesium: MAGNESIUM,
        potassium_umol_per_kg / potassium: POTASSIUM,
        strontium_umol_per_kg / strontium: STRONTIUM,
        sulfate_umol_per_kg / sulfate: SULFATE,
        fluoride_umol_per_kg / fluoride: FLUORIDE,
        boron_umol_per_kg / boron: BORON,
        alkalinity_umol_per_kg / alkalinity: ALKALINITY,
        inorganic_carbon_umol_per_kg / inorganic_carbon: INORGANIC_CARBON,
        ph_total: PH,
        ph_free: PH,
        ph_seawater: PH,
        ph_nbs: PH,
        / ph: PH,
        partial_pressure_co2_uatm / partial_pressure_co2: CO2_PRESSURE,
        fugacity_co2_uatm / fugacity_co2: CO2_PRESSURE,
        carbon_dioxide_umol_per_kg / carbon_dioxide: CARBON_DIOXIDE_CONTENT,
        bicarbonate_umol_per_kg / bicarbonate: BICARBONATE,
        carbonate_umol_per_kg / carbonate: CARBONATE,
        aragonite_saturation: SATURATION,
        calcite_saturation: SATURATION,
        phosphate_umol_per_kg / phosphate: PHOSPHATE,
        silicate_umol_per_kg / silicate: SILICATE,
        ammonia_umol_per_kg / ammonia: AMMONIA,
        sulfide_umol_per_kg / sulfide: SULFIDE,
    ];
    let asked = Asked {
        options: options(py, carbonic_acid, bisulfate, hydrogen_fluoride, total_boron)?,
        outputs,
        threads,
        errors: OnRefused::named(py, errors)?,
    };
    let gathered = match table {
        None => gather(py, &spelled, None)?,
        Some(table) => gather_table(py, &spelled, table)?,
    };
    let ways = Ways::of(py, &gathered, &spelled, extrapolate)?;
    let pair = Pair::of(py, &gathered, &spelled, waters::ARGUMENTS)?;
    if gathered.layout.shape.is_none() {
        let water = ways.one(py, &gathered)?;
        return one(py, &water, &gathered, &pair, &asked);
    }
    let waters = ways.many(&gathered);
    let states = many(py, &waters, &gathered, &pair, &asked)?;
    match table {
        None => Ok(states),
        Some(_) => states.call_method0("to_table"),
    }
}

/// [`carbonate`] with the water given.
#[allow(clippy::too_many_arguments)]
pub(crate) fn of_water<'py>(
    water: &Bound<'py, Water>,
    spelled: &[Spelled<'_, 'py>; knowns::ARGUMENTS],
    options: EquilibriumOptions,
    outputs: Object<'_, 'py>,
    threads: usize,
    errors: OnRefused,
) -> PyResult<Bound<'py, PyAny>> {
    let (py, water) = (water.py(), water.get());
    let base = water.layout(py);
    let gathered = gather(py, spelled, Some(&base))?;
    let pair = Pair::of(py, &gathered, spelled, 0)?;
    let asked = Asked {
        options,
        outputs,
        threads,
        errors,
    };
    if let (Some(water), None) = (water.one(), &gathered.layout.shape) {
        return one(py, water, &gathered, &pair, &asked);
    }
    water.fits(py, &gathered.layout)?;
    many(py, &water.waters(), &gathered, &pair, &asked)
}

/// The states, one or two, of a pair in one water.
pub(crate) fn all_of_water<'py>(
    water: &Bound<'py, Water>,
    spelled: &[Spelled<'_, 'py>; knowns::ARGUMENTS],
    options: EquilibriumOptions,
) -> PyResult<Vec<CarbonateState>> {
    let py = water.py();
    let gathered = gather(py, spelled, None)?;
    let pair = Pair::of(py, &gathered, spelled, 0)?;
    let water = water.get().row(0).or_raise(py)?;
    let medium = || medium_of(&water).or_raise(py);
    let bases = pair.bases(py, &gathered, medium)?;
    let equilibria = water
        .equilibria(&options)
        .and_then(|equilibria| equilibria.with_bases(bases))
        .or_raise(py)?;
    CarbonateState::all(py, &equilibria, pair.one(py, &gathered, medium)?)
}

fn one<'py, const N: usize>(
    py: Python<'py>,
    water: &halimeda::Water,
    gathered: &Gathered<'py, N>,
    pair: &Pair,
    asked: &Asked<'_, 'py>,
) -> PyResult<Bound<'py, PyAny>> {
    let medium = || medium_of(water).or_raise(py);
    let [first, second] = pair.one(py, gathered, medium)?;
    let bases = pair.bases(py, gathered, medium)?;
    let mut equilibria = water.equilibria(&asked.options).or_raise(py)?;
    if bases != halimeda::carbonate::Bases::NONE {
        equilibria = equilibria.with_bases(bases).or_raise(py)?;
    }
    let state = equilibria.solve(first, second).or_raise(py)?;
    Ok(Bound::new(py, CarbonateState::of(state))?.into_any())
}

fn many<'py, const N: usize>(
    py: Python<'py>,
    waters: &Waters<'_>,
    gathered: &Gathered<'py, N>,
    pair: &Pair,
    asked: &Asked<'_, 'py>,
) -> PyResult<Bound<'py, PyAny>> {
    let medium = |row| {
        waters
            .row(row)
            .and_then(|water| medium_of(&water))
            .unwrap_or_default()
    };
    let (known, bases) = pair.columns(gathered, &medium);
    fn given<'a>(column: &'a Option<Column<'_>>) -> Option<batch::Column<'a>> {
        column.as_ref().map(Column::batch)
    }
    let mut input = BatchInput::new(
        waters.temperature.batch(),
        waters.salinity.batch(),
        (pair.kinds[0], known[0].batch()),
        (pair.kinds[1], known[1].batch()),
    );
    if let Some(pressure) = given(&waters.water_pressure) {
        input.water_pressure_dbar = pressure;
    }
    if let Some(pressure) = given(&waters.air_pressure) {
        input.air_pressure_atm = pressure;
    }
    let [calcium, _, _, _, sulfate, fluoride, boron] = waters.ions.each_ref();
    input.composition = CompositionColumns {
        calcium_umol_per_kg: given(calcium),
        sulfate_umol_per_kg: given(sulfate),
        fluoride_umol_per_kg: given(fluoride),
        boron_umol_per_kg: given(boron),
    };
    let [phosphate, silicate, ammonia, sulfide] = bases.each_ref();
    input.bases = BaseColumns {
        phosphate_umol_per_kg: given(phosphate),
        silicate_umol_per_kg: given(silicate),
        ammonia_umol_per_kg: given(ammonia),
        sulfide_umol_per_kg: given(sulfide),
    };
    input.options = asked.options;
    input.extrapolation = waters.extrapolation;
    input.threads = asked.threads;
    let outputs = wanted(py, asked.outputs)?;
    solve_rows(&gathered.layout, waters, &input, &outputs, asked.errors, py)
}

/// The quantities of a call with those in the columns of a table.
fn gather_table<'py, const N: usize>(
    py: Python<'py>,
    spelled: &[Spelled<'_, 'py>; N],
    table: &Bound<'py, PyAny>,
) -> PyResult<Gathered<'py, N>> {
    let keywords = spelled
        .iter()
        .flat_map(|one| [one.quantity.bare, one.quantity.carrying]);
    let keywords: Vec<_> = keywords.filter(|keyword| !keyword.is_empty()).collect();
    let columns = py
        .import("halimeda._containers")?
        .call_method1("columns", (table, keywords))?
        .cast_into::<PyDict>()?;
    let mut bare = [const { None }; N];
    let mut carrying = [const { None }; N];
    for ((one, bare), carrying) in spelled.iter().zip(&mut bare).zip(&mut carrying) {
        for (place, keyword, given) in [
            (bare, one.quantity.bare, one.bare),
            (carrying, one.quantity.carrying, one.carrying),
        ] {
            *place = columns.get_item(keyword)?;
            match (&place, given) {
                (Some(_), Some(_)) => {
                    let message = format!("{keyword} is given as an argument and as a column");
                    let blame = Blame {
                        input: Some(keyword),
                        kind: "argument",
                        ..Blame::default()
                    };
                    return Err(type_error(py, &message, &blame));
                }
                (None, Some(given)) => *place = Some(given.clone()),
                _ => {}
            }
        }
    }
    let joined: [Spelled<'_, 'py>; N] = std::array::from_fn(|i| Spelled {
        quantity: spelled[i].quantity,
        bare: bare[i].as_ref(),
        carrying: carrying[i].as_ref(),
    });
    gather(py, &joined, None)
}
