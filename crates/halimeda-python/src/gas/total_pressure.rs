//! Total gas pressure.

use halimeda::gas::{
    FISH_DELTA_P_FIDLER_MILLER1994, LARVAE_DELTA_P_CORNACCHIA_COLT1984, TotalGasPressure as Inner,
    partial_pressure,
};
use halimeda::{Content, DeltaP};
use pyo3::prelude::*;

use crate::argument::{Object, spelled};
use crate::error::{Blame, OrRaise, type_error};
use crate::record::{names, one_water, record, scalars};
use crate::water::Water;

record! {
    /// The pressures of all dissolved gases and of water vapour together.
    ///
    /// Above the pressure of the air gas can leave solution, in the water and in
    /// animals. Made by `total_gas_pressure`.
    ///
    /// Source
    /// ------
    /// Colt (1984) American Fisheries Society Special Publication 14.
    "halimeda.gas" TotalGasPressure {
        /// Total gas pressure, atm.
        pressure_atm: f64,
        /// ΔP: total gas pressure less air pressure, mmHg.
        delta_p_mmhg: f64,
        /// Total gas pressure, % of the air pressure.
        percent: f64,
        /// The part of ΔP that the water column does not hold in solution, mmHg.
        uncompensated_delta_p_mmhg: f64,
        /// Total gas pressure, % of that of air and water column together.
        percent_at_depth: f64,
        /// Water pressure that would just hold the gas in solution, dbar.
        compensation_pressure_dbar: f64,
        /// Saturation of nitrogen and argon together, %, where oxygen was given.
        nitrogen_argon_percent: Option<f64>,
        /// What it may do to animals, and what to do.
        cautions: Vec<String>,
        /// Relations that were used outside their published range.
        extrapolations: Vec<String>,
    }
}

/// Total gas pressure from a saturometer, or from oxygen and nitrogen.
///
/// Parameters
/// ----------
/// water : Water
///     The water, with its air pressure and, for a depth, its water pressure.
/// delta_p_mmhg, delta_p : float, quantity
///     What a saturometer shows: total gas pressure less air pressure, mmHg.
/// oxygen_umol_per_kg, oxygen : float, quantity
///     Dissolved oxygen, µmol/kg: needed without ``delta_p``, and with it gives what
///     nitrogen and argon are.
/// nitrogen_umol_per_kg, nitrogen : float, quantity
///     Dissolved nitrogen, µmol/kg, instead of ``delta_p``.
/// argon_umol_per_kg, argon : float, quantity
///     Dissolved argon, µmol/kg; saturated like the nitrogen unless given.
///
/// Returns
/// -------
/// TotalGasPressure
///     The pressure in the ways it is told, with cautions.
///
/// Raises
/// ------
/// HalimedaValueError
///     A reading is outside its limits, or oxygen alone exceeds the total.
/// HalimedaTypeError
///     Neither ΔP nor oxygen and nitrogen were given, or both.
///
/// Source
/// ------
/// Colt (1984) American Fisheries Society Special Publication 14; Standard Methods 2810.
/// Limits: Fidler & Miller (1994) British Columbia Water Quality Guidelines for Dissolved
/// Gas Supersaturation; Cornacchia & Colt (1984) J. Fish Dis. 7, 15-27.
///
/// Examples
/// --------
/// >>> import halimeda as hm
/// >>> water = hm.Water(temperature_celsius=25.0, practical_salinity=35.0,
/// ...                  water_pressure_dbar=0.5)
/// >>> pressure = hm.gas.total_gas_pressure(water, delta_p_mmhg=38.0)
/// >>> round(pressure.percent, 6)
/// 105.0
/// >>> pressure.uncompensated_delta_p_mmhg < 1.0
/// True
#[pyfunction]
#[pyo3(signature = (water, /, *, delta_p_mmhg = None, delta_p = None,
    oxygen_umol_per_kg = None, oxygen = None, nitrogen_umol_per_kg = None, nitrogen = None,
    argon_umol_per_kg = None, argon = None))]
#[allow(clippy::too_many_arguments)]
pub(crate) fn total_gas_pressure<'py>(
    py: Python<'py>,
    water: &Bound<'py, Water>,
    delta_p_mmhg: Object<'_, 'py>,
    delta_p: Object<'_, 'py>,
    oxygen_umol_per_kg: Object<'_, 'py>,
    oxygen: Object<'_, 'py>,
    nitrogen_umol_per_kg: Object<'_, 'py>,
    nitrogen: Object<'_, 'py>,
    argon_umol_per_kg: Object<'_, 'py>,
    argon: Object<'_, 'py>,
) -> PyResult<TotalGasPressure> {
    let water = one_water(py, water.get())?;
    let spelled = spelled![
        delta_p_mmhg / delta_p: DELTA_P,
        oxygen_umol_per_kg / oxygen: DISSOLVED_OXYGEN,
        nitrogen_umol_per_kg / nitrogen: DISSOLVED_NITROGEN,
        argon_umol_per_kg / argon: DISSOLVED_ARGON,
    ];
    let [delta_p, oxygen, nitrogen, argon] = scalars(py, &spelled, Some(&water))?;
    let oxygen = oxygen
        .map(Content::from_umol_per_kg)
        .transpose()
        .or_raise(py)?;
    let found = match (delta_p, oxygen, nitrogen) {
        (Some(mmhg), _, None) if argon.is_none() => {
            Inner::from_delta_p(DeltaP::from_mmhg(mmhg).or_raise(py)?, &water)
        }
        (None, Some(oxygen), Some(nitrogen)) => Inner::from_contents(
            oxygen,
            Content::from_umol_per_kg(nitrogen).or_raise(py)?,
            argon
                .map(Content::from_umol_per_kg)
                .transpose()
                .or_raise(py)?,
            &water,
        ),
        _ => {
            let blame = Blame {
                input: Some("delta_p_mmhg"),
                kind: "missing",
                ..Blame::default()
            };
            let message = "give delta_p_mmhg (with oxygen, if it is known), or \
                           oxygen_umol_per_kg and nitrogen_umol_per_kg without it";
            return Err(type_error(py, message, &blame));
        }
    }
    .or_raise(py)?;
    let total = found.value();
    let rest = oxygen
        .map(|oxygen| {
            let pressure = partial_pressure(oxygen, &water)?.value();
            total.nitrogen_argon_saturation(pressure)
        })
        .transpose()
        .or_raise(py)?;
    let delta_p = total.uncompensated_delta_p();
    let mut cautions = Vec::new();
    if delta_p > LARVAE_DELTA_P_CORNACCHIA_COLT1984 {
        let fish = delta_p > FISH_DELTA_P_FIDLER_MILLER1994;
        cautions.push(format!(
            "Supersaturated by {:.0} mmHg at this depth: {}. Look for a pump that draws air \
             and for cold water warmed without degassing, and aerate; sick animals are for a \
             veterinarian.",
            delta_p.mmhg(),
            if fish {
                "above the 76 mmHg that fish should not meet"
            } else {
                "above the 22 mmHg that harmed fish larvae"
            },
        ));
    }
    Ok(TotalGasPressure {
        pressure_atm: total.pressure().atm(),
        delta_p_mmhg: total.delta_p().mmhg(),
        percent: total.percent(),
        uncompensated_delta_p_mmhg: total.uncompensated_delta_p().mmhg(),
        percent_at_depth: total.percent_at_depth(),
        compensation_pressure_dbar: total.compensation_pressure().dbar(),
        nitrogen_argon_percent: rest.map(|rest| rest.percent()),
        cautions,
        extrapolations: names(found.extrapolated()),
    })
}
