//! What a dose is judged by.

use halimeda::dosing::{DoseLimits as Inner, Limit as InnerLimit};
use halimeda::{Alkalinity, Concentration, Ph, SaturationState, Volume};
use pyo3::prelude::*;

use crate::choice::name_of;
use crate::error::OrRaise;
use crate::record::record;

record! {
    /// One thing a dose is judged by.
    "halimeda.dosing" Limit {
        /// Its name in code.
        key: String,
        /// What it holds.
        text: String,
        /// Unit of its numbers.
        unit: String,
        /// The value a dose may reach unless the keeper chooses otherwise.
        default: f64,
        /// The value past which no setting lets a dose pass.
        hard: f64,
        /// Whether values below it, instead of above, exceed it.
        is_floor: bool,
        /// Where the numbers come from.
        source: String,
    }

    /// Give every limit.
    #[staticmethod]
    fn all() -> Vec<Self> {
        InnerLimit::ALL
            .into_iter()
            .map(|limit| Self {
                key: name_of(&limit),
                text: limit.name().to_owned(),
                unit: limit.unit().to_owned(),
                default: limit.default_value(),
                hard: limit.hard_value(),
                is_floor: limit.is_floor(),
                source: limit.source().to_owned(),
            })
            .collect()
    }
}

record! {
    /// The limits a dose is judged by.
    ///
    /// Cautious defaults that a keeper may move, each up to a hard value beyond which a
    /// dose is always refused. They are common practice without a source, but for the
    /// saturation state; not a promise for every animal.
    ///
    /// Parameters
    /// ----------
    /// alkalinity_umol_per_kg_per_day : float
    ///     Rise of alkalinity in a day, µmol/kg/d.
    /// calcium_mg_per_l_per_day : float
    ///     Rise of calcium in a day, mg/L/d.
    /// magnesium_mg_per_l_per_day : float
    ///     Rise of magnesium in a day, mg/L/d.
    /// nitrate_mg_per_l_per_day : float
    ///     Rise of nitrate (as NO3) in a day, mg/L/d.
    /// phosphate_mg_per_l_per_day : float
    ///     Rise of phosphate (as PO4) in a day, mg/L/d.
    /// practical_salinity_per_day : float
    ///     Rise of salinity in a day.
    /// ph_step : float
    ///     Step of the pH by one portion.
    /// ph_total_ceiling, ph_total_floor : float
    ///     Highest and lowest pH (total scale) that dosing may reach.
    /// ph_total_without_exchange : float
    ///     Highest pH (total scale) after a day's dosing if the water took up no CO2.
    /// aragonite_saturation : float
    ///     Highest saturation state of aragonite.
    /// alkalinity_ceiling_umol_per_kg : float
    ///     Highest alkalinity, µmol/kg.
    /// calcium_ceiling_mg_per_l : float
    ///     Highest calcium, mg/L.
    /// magnesium_ceiling_mg_per_l : float
    ///     Highest magnesium, mg/L.
    /// evaporation_l_per_day : float, optional
    ///     Water that evaporates, L/d, which solutions may not exceed; limewater is judged
    ///     only where it is given.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     A value is past its hard value.
    ///
    /// Source
    /// ------
    /// Saturation state: Moras et al. (2022) doi:10.5194/bg-19-3537-2022. The others are
    /// common practice, no source.
    "halimeda.dosing" DoseLimits {
        /// Rise of alkalinity in a day, µmol/kg/d.
        alkalinity_umol_per_kg_per_day: f64,
        /// Rise of calcium in a day, mg/L/d.
        calcium_mg_per_l_per_day: f64,
        /// Rise of magnesium in a day, mg/L/d.
        magnesium_mg_per_l_per_day: f64,
        /// Rise of nitrate (as NO3) in a day, mg/L/d.
        nitrate_mg_per_l_per_day: f64,
        /// Rise of phosphate (as PO4) in a day, mg/L/d.
        phosphate_mg_per_l_per_day: f64,
        /// Rise of salinity in a day.
        practical_salinity_per_day: f64,
        /// Step of the pH by one portion.
        ph_step: f64,
        /// Highest pH, total scale.
        ph_total_ceiling: f64,
        /// Lowest pH, total scale.
        ph_total_floor: f64,
        /// Highest pH, total scale, after a day without CO2 exchange.
        ph_total_without_exchange: f64,
        /// Highest saturation state of aragonite.
        aragonite_saturation: f64,
        /// Highest alkalinity, µmol/kg.
        alkalinity_ceiling_umol_per_kg: f64,
        /// Highest calcium, mg/L.
        calcium_ceiling_mg_per_l: f64,
        /// Highest magnesium, mg/L.
        magnesium_ceiling_mg_per_l: f64,
        /// Water that evaporates, L/d.
        evaporation_l_per_day: Option<f64>,
    }

    #[new]
    #[pyo3(signature = (*, alkalinity_umol_per_kg_per_day = 350.0,
        calcium_mg_per_l_per_day = 20.0, magnesium_mg_per_l_per_day = 50.0,
        nitrate_mg_per_l_per_day = 2.0, phosphate_mg_per_l_per_day = 0.03,
        practical_salinity_per_day = 0.3, ph_step = 0.1, ph_total_ceiling = 8.4,
        ph_total_floor = 7.7, ph_total_without_exchange = 8.5, aragonite_saturation = 7.0,
        alkalinity_ceiling_umol_per_kg = 4200.0, calcium_ceiling_mg_per_l = 480.0,
        magnesium_ceiling_mg_per_l = 1500.0, evaporation_l_per_day = None))]
    #[allow(clippy::too_many_arguments)]
    fn new(
        py: Python<'_>,
        alkalinity_umol_per_kg_per_day: f64,
        calcium_mg_per_l_per_day: f64,
        magnesium_mg_per_l_per_day: f64,
        nitrate_mg_per_l_per_day: f64,
        phosphate_mg_per_l_per_day: f64,
        practical_salinity_per_day: f64,
        ph_step: f64,
        ph_total_ceiling: f64,
        ph_total_floor: f64,
        ph_total_without_exchange: f64,
        aragonite_saturation: f64,
        alkalinity_ceiling_umol_per_kg: f64,
        calcium_ceiling_mg_per_l: f64,
        magnesium_ceiling_mg_per_l: f64,
        evaporation_l_per_day: Option<f64>,
    ) -> PyResult<Self> {
        let limits = Self {
            alkalinity_umol_per_kg_per_day,
            calcium_mg_per_l_per_day,
            magnesium_mg_per_l_per_day,
            nitrate_mg_per_l_per_day,
            phosphate_mg_per_l_per_day,
            practical_salinity_per_day,
            ph_step,
            ph_total_ceiling,
            ph_total_floor,
            ph_total_without_exchange,
            aragonite_saturation,
            alkalinity_ceiling_umol_per_kg,
            calcium_ceiling_mg_per_l,
            magnesium_ceiling_mg_per_l,
            evaporation_l_per_day,
        };
        let _ = limits.inner().or_raise(py)?;
        Ok(limits)
    }
}

impl DoseLimits {
    fn inner(&self) -> halimeda::Result<Inner> {
        let limits = Inner::default()
            .with_alkalinity_per_day(Alkalinity::from_umol_per_kg(
                self.alkalinity_umol_per_kg_per_day,
            )?)?
            .with_calcium_per_day(Concentration::from_mg_per_l(self.calcium_mg_per_l_per_day)?)?
            .with_magnesium_per_day(Concentration::from_mg_per_l(
                self.magnesium_mg_per_l_per_day,
            )?)?
            .with_nitrate_per_day(Concentration::from_mg_per_l(self.nitrate_mg_per_l_per_day)?)?
            .with_phosphate_per_day(Concentration::from_mg_per_l(
                self.phosphate_mg_per_l_per_day,
            )?)?
            .with_practical_salinity_per_day(self.practical_salinity_per_day)?
            .with_ph_step(self.ph_step)?
            .with_ph_ceiling(Ph::new(self.ph_total_ceiling)?)?
            .with_ph_floor(Ph::new(self.ph_total_floor)?)?
            .with_ph_without_exchange(Ph::new(self.ph_total_without_exchange)?)?
            .with_aragonite_saturation(SaturationState::new(self.aragonite_saturation)?)?
            .with_alkalinity_ceiling(Alkalinity::from_umol_per_kg(
                self.alkalinity_ceiling_umol_per_kg,
            )?)?
            .with_calcium_ceiling(Concentration::from_mg_per_l(self.calcium_ceiling_mg_per_l)?)?
            .with_magnesium_ceiling(Concentration::from_mg_per_l(
                self.magnesium_ceiling_mg_per_l,
            )?)?;
        Ok(match self.evaporation_l_per_day {
            Some(litres) => limits.with_evaporation_per_day(Volume::from_litres(litres)?),
            None => limits,
        })
    }

    /// The defaults where none were given.
    pub(super) fn or_default(limits: Option<&Self>) -> halimeda::Result<Inner> {
        limits.map_or_else(|| Ok(Inner::default()), Self::inner)
    }
}
