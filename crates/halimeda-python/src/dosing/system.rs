//! The water that is dosed.

use halimeda::dosing::DosedSystem as Inner;
use halimeda::gas::co2_partial_pressure;
use halimeda::{DryMoleFractionCo2, Mass, PartialPressureCo2, Volume};
use pyo3::prelude::*;

use super::supplement::{one_of, rises, target};
use super::{Consumption, Dose, DoseEffect, DoseLimits, DosePlan, DoseVerdict, Supplement};
use crate::argument::{Object, spelled};
use crate::error::OrRaise;
use crate::record::{record, scalars, texts};
use crate::state::CarbonateState;

record! {
    /// The water that is dosed: its state, how much there is, and the CO2 of the room.
    ///
    /// Give measured calcium and magnesium to its water, and phosphate to its state; they
    /// enter the limits.
    ///
    /// Parameters
    /// ----------
    /// state : CarbonateState
    ///     The water before dosing.
    /// volume_l, volume : float, quantity, optional
    ///     How much of it, L.
    /// water_kg : float, optional
    ///     How much of it, kg, instead of the volume.
    /// room_co2_ppm : float, optional
    ///     CO2 in the dry air of the room, ppm.
    /// room_partial_pressure_co2_uatm : float, optional
    ///     The same as partial pressure over the water, µatm.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     A number is outside its limits.
    /// HalimedaTypeError
    ///     Not exactly one was given of volume and mass, or of the two of CO2.
    ///
    /// Examples
    /// --------
    /// >>> import halimeda as hm
    /// >>> tank = hm.Water(temperature_celsius=25.5, practical_salinity=35.0).carbonate(
    /// ...     alkalinity_umol_per_kg=2600.0, ph_total=8.0)
    /// >>> system = hm.dosing.DosedSystem(
    /// ...     tank, water_kg=200.0, room_partial_pressure_co2_uatm=500.0)
    /// >>> lye = hm.dosing.Supplement.solid("sodium_hydroxide").dose(grams=5.0)
    /// >>> verdict = system.judge(hm.dosing.DosePlan([lye]))
    /// >>> verdict.is_accepted, [excess.limit for excess in verdict.excesses][:2]
    /// (False, ['alkalinity_per_day', 'ph_step'])
    "halimeda.dosing" DosedSystem {
        /// The water before dosing.
        state: CarbonateState,
        /// Mass of the water, kg.
        water_kg: f64,
        /// Partial pressure of CO2 that the water comes to equilibrium with, µatm.
        room_partial_pressure_co2_uatm: f64,
    }

    #[new]
    #[pyo3(signature = (state, *, volume_l = None, volume = None, water_kg = None,
        room_co2_ppm = None, room_partial_pressure_co2_uatm = None))]
    fn new<'py>(
        py: Python<'py>,
        state: CarbonateState,
        volume_l: Object<'_, 'py>,
        volume: Object<'_, 'py>,
        water_kg: Option<f64>,
        room_co2_ppm: Option<f64>,
        room_partial_pressure_co2_uatm: Option<f64>,
    ) -> PyResult<Self> {
        let water = *state.inner.equilibria().water();
        let [volume] = scalars(py, &spelled![volume_l / volume: VOLUME], Some(&water))?;
        let water_kg = match (volume, water_kg) {
            (Some(litres), None) => Volume::from_litres(litres)
                .and_then(|volume| volume.to_mass(water.density()?))
                .or_raise(py)?
                .kilograms(),
            (None, Some(kilograms)) => kilograms,
            _ => return Err(one_of(py, "volume_l", "volume_l=, volume= or water_kg=")),
        };
        let room = match (room_co2_ppm, room_partial_pressure_co2_uatm) {
            (Some(ppm), None) => DryMoleFractionCo2::from_ppm(ppm)
                .and_then(|co2| co2_partial_pressure(co2, &water))
                .or_raise(py)?
                .value()
                .uatm(),
            (None, Some(uatm)) => uatm,
            _ => {
                let choices = "room_co2_ppm= or room_partial_pressure_co2_uatm=";
                return Err(one_of(py, "room_co2_ppm", choices));
            }
        };
        let system = Self {
            state,
            water_kg,
            room_partial_pressure_co2_uatm: room,
        };
        system.inner().or_raise(py)?;
        Ok(system)
    }

    /// Find what a plan does to the water in its first day.
    ///
    /// The water that carries the doses takes the place of evaporated water.
    ///
    /// Parameters
    /// ----------
    /// plan : DosePlan
    ///     The plan.
    ///
    /// Returns
    /// -------
    /// DoseEffect
    ///     The water at once, after a day without exchange, and in equilibrium with the room.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     The dosed water leaves the range of a relation, or more is consumed than there is.
    #[pyo3(signature = (plan, /))]
    fn effect(&self, py: Python<'_>, plan: DosePlan) -> PyResult<DoseEffect> {
        let inner = plan.inner(py)?;
        let effect = self.inner().and_then(|system| system.effect(&inner)).or_raise(py)?;
        Ok(DoseEffect::of(&effect, plan.cautions))
    }

    /// Judge a plan by limits.
    ///
    /// Parameters
    /// ----------
    /// plan : DosePlan
    ///     The plan.
    /// limits : DoseLimits, optional
    ///     The limits; the cautious defaults unless given.
    ///
    /// Returns
    /// -------
    /// DoseVerdict
    ///     Whether every limit holds, and those that do not.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     As `effect`, or limewater without the evaporation it replaces.
    #[pyo3(signature = (plan, limits = None, /))]
    fn judge(
        &self,
        py: Python<'_>,
        plan: DosePlan,
        limits: Option<DoseLimits>,
    ) -> PyResult<DoseVerdict> {
        let inner = plan.inner(py)?;
        let limits = DoseLimits::or_default(limits.as_ref()).or_raise(py)?;
        let verdict = self
            .inner()
            .and_then(|system| system.judge(&inner, &limits))
            .or_raise(py)?;
        Ok(DoseVerdict::of(&verdict, plan.cautions))
    }

    /// Find the fewest portions a day with which doses are accepted.
    ///
    /// Parameters
    /// ----------
    /// doses : list of Dose
    ///     The doses of a whole day.
    /// consumption : Consumption, optional
    ///     What the tank consumes.
    /// limits : DoseLimits, optional
    ///     The limits; the cautious defaults unless given.
    ///
    /// Returns
    /// -------
    /// DosePlan
    ///     The plan.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     No number of portions makes it acceptable: the limit that does not hold.
    #[pyo3(signature = (doses, /, *, consumption = None, limits = None))]
    fn fewest_doses(
        &self,
        py: Python<'_>,
        doses: Vec<Dose>,
        consumption: Option<Consumption>,
        limits: Option<DoseLimits>,
    ) -> PyResult<DosePlan> {
        let consumed = Consumption::or_none(consumption.as_ref()).or_raise(py)?;
        let limits = DoseLimits::or_default(limits.as_ref()).or_raise(py)?;
        let inner = doses
            .iter()
            .map(|dose| dose.inner(py))
            .collect::<PyResult<Vec<_>>>()?;
        let found = self
            .inner()
            .and_then(|system| system.fewest_doses(&inner, consumed, &limits))
            .or_raise(py)?;
        DosePlan::found(py, doses, found.doses_per_day(), consumption)
    }

    /// Find the shortest correction, up to 60 days, that brings a wanted rise.
    ///
    /// Within the limits on its first day and on its last, on top of the doses that replace
    /// consumption. Exactly one rise is given. Measure again after half of it.
    ///
    /// Parameters
    /// ----------
    /// supplement : Supplement
    ///     What is dosed.
    /// limits : DoseLimits, optional
    ///     The limits; the cautious defaults unless given.
    /// alkalinity_umol_per_kg, alkalinity : float, quantity, optional
    ///     Wanted rise of alkalinity, µmol/kg.
    /// calcium_umol_per_kg, calcium : float, quantity, optional
    ///     Wanted rise of calcium, µmol/kg.
    /// magnesium_umol_per_kg, magnesium : float, quantity, optional
    ///     Wanted rise of magnesium, µmol/kg.
    /// nitrate_umol_per_kg, nitrate : float, quantity, optional
    ///     Wanted rise of nitrate, µmol/kg.
    /// phosphate_umol_per_kg, phosphate : float, quantity, optional
    ///     Wanted rise of phosphate, µmol/kg.
    ///
    /// Returns
    /// -------
    /// Correction
    ///     Days, the dose in all, and the plan of each day.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     60 days are not enough, or the goal itself lies past a limit.
    /// HalimedaTypeError
    ///     Not exactly one rise was given.
    ///
    /// Examples
    /// --------
    /// >>> import halimeda as hm
    /// >>> tank = hm.Water(temperature_celsius=25.5, practical_salinity=35.0).carbonate(
    /// ...     alkalinity="6 dKH", ph_total=7.95)
    /// >>> system = hm.dosing.DosedSystem(
    /// ...     tank, water_kg=200.0, room_partial_pressure_co2_uatm=500.0)
    /// >>> soda = hm.dosing.Supplement.solid("sodium_bicarbonate")
    /// >>> system.correction(soda, alkalinity="2.5 dKH").days
    /// 3
    #[pyo3(signature = (supplement, /, *, limits = None, alkalinity_umol_per_kg = None,
        alkalinity = None, calcium_umol_per_kg = None, calcium = None,
        magnesium_umol_per_kg = None, magnesium = None, nitrate_umol_per_kg = None,
        nitrate = None, phosphate_umol_per_kg = None, phosphate = None))]
    #[allow(clippy::too_many_arguments)]
    fn correction<'py>(
        &self,
        py: Python<'py>,
        supplement: Supplement,
        limits: Option<DoseLimits>,
        alkalinity_umol_per_kg: Object<'_, 'py>,
        alkalinity: Object<'_, 'py>,
        calcium_umol_per_kg: Object<'_, 'py>,
        calcium: Object<'_, 'py>,
        magnesium_umol_per_kg: Object<'_, 'py>,
        magnesium: Object<'_, 'py>,
        nitrate_umol_per_kg: Object<'_, 'py>,
        nitrate: Object<'_, 'py>,
        phosphate_umol_per_kg: Object<'_, 'py>,
        phosphate: Object<'_, 'py>,
    ) -> PyResult<Correction> {
        let limits = DoseLimits::or_default(limits.as_ref()).or_raise(py)?;
        let target = target(py, &rises![alkalinity_umol_per_kg, alkalinity, calcium_umol_per_kg,
            calcium, magnesium_umol_per_kg, magnesium, nitrate_umol_per_kg, nitrate,
            phosphate_umol_per_kg, phosphate], self.state.inner.equilibria().water())?;
        let inner = supplement.inner(py)?;
        let system = self.inner().or_raise(py)?;
        // Up to 60 days times 13 numbers of portions.
        let found = py
            .detach(|| system.correction(&inner, target, &limits))
            .or_raise(py)?;
        let daily = found
            .total()
            .share(1.0 / f64::from(found.days()))
            .or_raise(py)?;
        let daily = Dose::of(&supplement, &daily);
        Ok(Correction {
            days: found.days(),
            total: Dose::of(&supplement, found.total()),
            plan: DosePlan::found(py, vec![daily], found.plan().doses_per_day(), None)?,
            cautions: texts(found.total().cautions()),
        })
    }
}

impl DosedSystem {
    fn inner(&self) -> halimeda::Result<Inner> {
        Inner::new(
            self.state.inner,
            Mass::from_kilograms(self.water_kg)?,
            PartialPressureCo2::from_uatm(self.room_partial_pressure_co2_uatm)?,
        )
    }
}

record! {
    /// A wanted rise, spread over as many days and portions as the limits ask.
    ///
    /// Made by `DosedSystem.correction`. Kits and volumes are known to a few percent at
    /// best: measure again after half of it.
    "halimeda.dosing" Correction {
        /// Over how many days.
        days: u32,
        /// The dose in all.
        total: Dose,
        /// The plan of each day.
        plan: DosePlan,
        /// What can hurt when the supplement is handled.
        cautions: Vec<String>,
    }
}
