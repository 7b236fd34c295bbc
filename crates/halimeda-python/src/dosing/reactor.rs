//! The calcium reactor.

use halimeda::dosing::{ReactorEffluent as Inner, carbonate_dissolved_by_co2 as dissolved};
use halimeda::nutrient::CarbonateComposition;
use halimeda::{Alkalinity, NbsScale, Ph, TotalScale, Volume};
use pyo3::prelude::*;

use super::Addition;
use super::supplement::one_of;
use crate::argument::{Object, spelled};
use crate::error::OrRaise;
use crate::record::{needed, record, scalars, texts};
use crate::state::CarbonateState;

record! {
    /// What a calcium reactor brings into the tank per day.
    ///
    /// Tank water in which CO2 dissolved carbonate; the reactor is fed from the tank and as
    /// warm. CO2 suffocates: read the cautions.
    ///
    /// Parameters
    /// ----------
    /// tank : CarbonateState
    ///     The tank's water.
    /// alkalinity_umol_per_kg, alkalinity : float, quantity
    ///     Alkalinity of the effluent, µmol/kg.
    /// ph_total, ph_nbs : float
    ///     Its pH, measured before CO2 escapes, on one of the scales.
    /// flow_l_per_day, flow : float, quantity
    ///     Its flow, L/d.
    /// magnesium_fraction, strontium_fraction : float
    ///     Of the cations of the medium, mol/mol.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     The effluent's alkalinity is not above the tank's, or it is so supersaturated
    ///     that its pH or alkalinity was misread.
    /// HalimedaTypeError
    ///     An argument is missing, or two pH were given.
    ///
    /// Examples
    /// --------
    /// >>> import halimeda as hm
    /// >>> tank = hm.Water(temperature_celsius=25.5, practical_salinity=35.0).carbonate(
    /// ...     alkalinity="8 dKH", ph_total=8.0)
    /// >>> reactor = hm.dosing.ReactorEffluent(
    /// ...     tank, alkalinity="30 dKH", ph_total=6.5, flow_l_per_day=20.0)
    /// >>> round(reactor.per_day.alkalinity_eq / reactor.per_day.calcium_mol, 9)
    /// 2.0
    "halimeda.dosing" ReactorEffluent {
        /// The tank's water.
        tank: CarbonateState,
        /// Alkalinity of the effluent, µmol/kg.
        alkalinity_umol_per_kg: f64,
        /// Its pH on the total scale, if that was given.
        ph_total: Option<f64>,
        /// Its pH on the NBS scale, if that was given.
        ph_nbs: Option<f64>,
        /// Its flow, L/d.
        flow_l_per_day: f64,
        /// Of the cations of the medium, mol/mol.
        magnesium_fraction: f64,
        /// Of the cations of the medium, mol/mol.
        strontium_fraction: f64,
        /// What it brings into the tank per day.
        per_day: Addition,
        /// Medium dissolved, g/d.
        medium_dissolved_g_per_day: f64,
        /// CO2 from the cylinder that reaches the tank, mol/d.
        carbon_dioxide_mol_per_day: f64,
        /// Aragonite saturation of the effluent; the nearer to one, the less CO2 is wasted.
        aragonite_saturation: f64,
        /// What can hurt when it is run.
        cautions: Vec<String>,
    }

    #[new]
    #[pyo3(signature = (tank, *, alkalinity_umol_per_kg = None, alkalinity = None,
        ph_total = None, ph_nbs = None, flow_l_per_day = None, flow = None,
        magnesium_fraction = 0.0, strontium_fraction = 0.0))]
    #[allow(clippy::too_many_arguments)]
    fn new<'py>(
        py: Python<'py>,
        tank: CarbonateState,
        alkalinity_umol_per_kg: Object<'_, 'py>,
        alkalinity: Object<'_, 'py>,
        ph_total: Option<f64>,
        ph_nbs: Option<f64>,
        flow_l_per_day: Object<'_, 'py>,
        flow: Object<'_, 'py>,
        magnesium_fraction: f64,
        strontium_fraction: f64,
    ) -> PyResult<Self> {
        let spelled = spelled![
            alkalinity_umol_per_kg / alkalinity: ALKALINITY,
            flow_l_per_day / flow: VOLUME_PER_DAY,
        ];
        let [alkalinity, flow] = scalars(py, &spelled, Some(tank.inner.equilibria().water()))?;
        if ph_total.is_some() == ph_nbs.is_some() {
            return Err(one_of(py, "ph_total", "ph_total= or ph_nbs="));
        }
        let mut effluent = Self {
            tank,
            alkalinity_umol_per_kg: needed(py, alkalinity, &spelled[0])?,
            ph_total,
            ph_nbs,
            flow_l_per_day: needed(py, flow, &spelled[1])?,
            magnesium_fraction,
            strontium_fraction,
            per_day: halimeda::dosing::Addition::NONE.into(),
            medium_dissolved_g_per_day: 0.0,
            carbon_dioxide_mol_per_day: 0.0,
            aragonite_saturation: 0.0,
            cautions: Vec::new(),
        };
        let inner = effluent.inner().or_raise(py)?;
        effluent.per_day = inner.per_day().into();
        effluent.medium_dissolved_g_per_day = inner.medium_dissolved_g_per_day();
        effluent.carbon_dioxide_mol_per_day = inner.carbon_dioxide_mol_per_day();
        effluent.aragonite_saturation = inner.aragonite_saturation().value();
        effluent.cautions = texts(inner.cautions());
        Ok(effluent)
    }
}

impl ReactorEffluent {
    pub(super) fn inner(&self) -> halimeda::Result<Inner> {
        let ph = match (self.ph_total, self.ph_nbs) {
            (None, Some(ph)) => Ph::<NbsScale>::new(ph)?.into(),
            (ph, _) => halimeda::AnyPh::from(Ph::<TotalScale>::new(ph.unwrap_or(f64::NAN))?),
        };
        Inner::new(
            &self.tank.inner,
            Alkalinity::from_umol_per_kg(self.alkalinity_umol_per_kg)?,
            ph,
            Volume::from_litres(self.flow_l_per_day)?,
            CarbonateComposition::new(self.magnesium_fraction, self.strontium_fraction)?,
        )
    }
}

/// Find what a mass of carbonate brings that CO2 dissolves without excess.
///
/// Parameters
/// ----------
/// grams : float
///     The carbonate, g.
/// magnesium_fraction, strontium_fraction : float
///     Of its cations, mol/mol.
///
/// Returns
/// -------
/// Addition
///     Two equivalents of alkalinity and two moles of inorganic carbon per mole.
///
/// Raises
/// ------
/// HalimedaValueError
///     A number is outside its limits.
///
/// Examples
/// --------
/// >>> import halimeda as hm
/// >>> round(hm.dosing.carbonate_dissolved_by_co2(grams=50.04e-3).alkalinity_eq, 5)
/// 0.001
#[pyfunction]
#[pyo3(signature = (*, grams, magnesium_fraction = 0.0, strontium_fraction = 0.0))]
pub(crate) fn carbonate_dissolved_by_co2(
    py: Python<'_>,
    grams: f64,
    magnesium_fraction: f64,
    strontium_fraction: f64,
) -> PyResult<Addition> {
    CarbonateComposition::new(magnesium_fraction, strontium_fraction)
        .and_then(|medium| dissolved(grams, medium))
        .map(Addition::from)
        .or_raise(py)
}
