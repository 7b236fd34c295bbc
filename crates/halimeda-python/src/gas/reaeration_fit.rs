//! The re-aeration record and its fit.

use halimeda::gas::{Gas, GasKind, Reading, Reaeration, ReaerationFit as Inner};
use halimeda::{Content, species};
use pyo3::prelude::*;

use crate::argument::{Object, gather, spelled};
use crate::choice::{choice, unknown};
use crate::error::OrRaise;
use crate::record::record;

/// The gases that are exchanged with the air.
pub(super) const GASES: &str = "oxygen, nitrogen, argon, carbon_dioxide";

record! {
    /// What a re-aeration record says of a transfer coefficient. Made by `reaeration`.
    ///
    /// Source
    /// ------
    /// ASCE/EWRI 2-06, Measurement of oxygen transfer in clean water.
    "halimeda.gas" ReaerationFit {
        /// The gas.
        gas: String,
        /// The coefficient kLa at the temperature of the record, 1/h.
        rate_per_hour: f64,
        /// Its standard error, 1/h.
        rate_standard_error_per_hour: f64,
        /// Lower end of its 95 % interval, 1/h.
        rate_low_per_hour: f64,
        /// Upper end of its 95 % interval, 1/h.
        rate_high_per_hour: f64,
        /// The content that the record tends to, µmol/kg.
        equilibrium_umol_per_kg: f64,
        /// Its standard error, µmol/kg; zero where it was given.
        equilibrium_standard_error_umol_per_kg: f64,
        /// The content at the beginning, µmol/kg.
        initial_umol_per_kg: f64,
        /// Its standard error, µmol/kg; zero where it was given.
        initial_standard_error_umol_per_kg: f64,
        /// Standard deviation of the readings about the curve, µmol/kg.
        residual_sd_umol_per_kg: f64,
        /// Number of readings less the number of fitted values.
        degrees_of_freedom: usize,
    }
}

/// Fit kLa to a record of readings while the water returns to equilibrium.
///
/// C(t) = C* - (C* - C0) exp(-kLa t), by least squares: all three fitted, or with C* or C0
/// given. Bring the water away from equilibrium with no animals in it, start the aeration,
/// and read until little changes; leave off the first readings of a slow probe. In a tank
/// that breathes C* is not the solubility.
///
/// Parameters
/// ----------
/// hours : array of number
///     Times since the start, rising, h; six or more.
/// content_umol_per_kg, content : array of number, quantity
///     Content of the gas at those times, µmol/kg.
/// gas : {"oxygen", "nitrogen", "argon", "carbon_dioxide"}
///     The gas.
/// equilibrium_umol_per_kg : float, optional
///     C*, µmol/kg, where it is known.
/// initial_umol_per_kg : float, optional
///     C0 at time zero, µmol/kg, where it is known.
///
/// Returns
/// -------
/// ReaerationFit
///     kLa with its interval, and what else was fitted.
///
/// Raises
/// ------
/// HalimedaValueError
///     Fewer than six readings, times that do not rise, or a record that does not bound
///     kLa: cut off too early, over by the second reading, or without a change beyond
///     its scatter.
///
/// Source
/// ------
/// ASCE/EWRI 2-06, Measurement of oxygen transfer in clean water.
///
/// Examples
/// --------
/// >>> import halimeda as hm
/// >>> fit = hm.gas.reaeration(
/// ...     hours=[0.0, 0.25, 0.5, 0.75, 1.0, 1.5, 2.0, 3.0],
/// ...     content_umol_per_kg=[61.0, 97.0, 123.0, 145.0, 159.0, 180.0, 190.0, 201.0])
/// >>> fit.rate_low_per_hour < 1.13 < fit.rate_high_per_hour
/// True
#[pyfunction]
#[pyo3(signature = (*, hours = None, content_umol_per_kg = None, content = None,
    gas = "oxygen", equilibrium_umol_per_kg = None, initial_umol_per_kg = None))]
pub(crate) fn reaeration<'py>(
    py: Python<'py>,
    hours: Object<'_, 'py>,
    content_umol_per_kg: Object<'_, 'py>,
    content: Object<'_, 'py>,
    gas: &str,
    equilibrium_umol_per_kg: Option<f64>,
    initial_umol_per_kg: Option<f64>,
) -> PyResult<ReaerationFit> {
    let kind: GasKind = choice(py, "gas", gas)?;
    let spelled = spelled![
        hours: HOURS,
        content_umol_per_kg / content: DISSOLVED_GAS,
    ];
    let gathered = gather(py, &spelled, None)?;
    gathered.refuse_media(py)?;
    let medium = |_| halimeda_tank::units::Medium::default();
    let column = |index: usize| {
        gathered
            .column(index, &medium)
            .ok_or_else(|| spelled[index].quantity.missing(py))
    };
    let (hours, contents) = (column(0)?, column(1)?);
    let record: Vec<(f64, f64)> = (0..gathered.layout.rows())
        .map(|row| (hours.at(row), contents.at(row)))
        .collect();
    let known = (equilibrium_umol_per_kg, initial_umol_per_kg);
    let fit = match kind {
        GasKind::Oxygen => fitted::<species::Oxygen>(&record, known),
        GasKind::Nitrogen => fitted::<species::Nitrogen>(&record, known),
        GasKind::Argon => fitted::<species::Argon>(&record, known),
        GasKind::CarbonDioxide => fitted::<species::CarbonDioxide>(&record, known),
        _ => return Err(unknown(py, "gas", gas, GASES)),
    };
    let fit = fit.or_raise(py)?;
    Ok(ReaerationFit {
        gas: gas.to_owned(),
        ..fit
    })
}

fn fitted<G: Gas>(
    record: &[(f64, f64)],
    (equilibrium, initial): (Option<f64>, Option<f64>),
) -> halimeda::Result<ReaerationFit> {
    let mut law = Reaeration::<G>::new();
    if let Some(content) = equilibrium {
        law = law.with_equilibrium(Content::from_umol_per_kg(content)?);
    }
    if let Some(content) = initial {
        law = law.with_initial(Content::from_umol_per_kg(content)?);
    }
    let readings = record
        .iter()
        .map(|&(hours, content)| Reading::new(hours, Content::from_umol_per_kg(content)?))
        .collect::<halimeda::Result<Vec<_>>>()?;
    law.fit(&readings).map(|fit| told(&fit))
}

fn told<G: Gas>(fit: &Inner<G>) -> ReaerationFit {
    let (rate, equilibrium) = (fit.rate_per_hour(), fit.equilibrium_umol_per_kg());
    let (low, high) = fit.rate_interval_per_hour();
    let initial = fit.initial_umol_per_kg();
    ReaerationFit {
        gas: String::new(),
        rate_per_hour: rate.value,
        rate_standard_error_per_hour: rate.standard_error,
        rate_low_per_hour: low,
        rate_high_per_hour: high,
        equilibrium_umol_per_kg: equilibrium.value,
        equilibrium_standard_error_umol_per_kg: equilibrium.standard_error,
        initial_umol_per_kg: initial.value,
        initial_standard_error_umol_per_kg: initial.standard_error,
        residual_sd_umol_per_kg: fit.residual_sd_umol_per_kg(),
        degrees_of_freedom: fit.degrees_of_freedom(),
    }
}
