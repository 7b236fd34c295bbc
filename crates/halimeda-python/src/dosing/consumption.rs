//! What a tank takes out of its water.

use halimeda::dosing::{self, BalancedDose as InnerBalanced, Consumption as Inner};
use halimeda::nutrient::CarbonateComposition;
use halimeda::{Alkalinity, Content, Mass, species};
use pyo3::prelude::*;

use super::{Addition, Dose, Supplement, mass_of};
use crate::argument::Object;
use crate::elementwise::elementwise;
use crate::error::OrRaise;
use crate::record::{one_water, record};
use crate::water::Water;

record! {
    /// What the animals and algae of a tank take out of its water in a day.
    ///
    /// Limits judge the dose less what is consumed, so an overstated consumption lets an
    /// overdose pass: measure it, without dosing, over two days or more.
    ///
    /// Parameters
    /// ----------
    /// alkalinity_umol_per_kg_per_day : float
    ///     Fall of alkalinity by calcification, µmol/kg/d, up to 2000.
    /// magnesium_fraction, strontium_fraction : float
    ///     Of the cations of the carbonate, mol/mol: coral aragonite some 0.004 and 0.009
    ///     (from memory).
    /// nitrate_umol_per_kg_per_day : float
    ///     Fall of nitrate, µmol/kg/d, up to 300.
    /// phosphate_umol_per_kg_per_day : float
    ///     Fall of phosphate, µmol/kg/d, up to 10.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     A number is outside its limits.
    "halimeda.dosing" Consumption {
        /// Fall of alkalinity by calcification, µmol/kg/d.
        alkalinity_umol_per_kg_per_day: f64,
        /// Of the cations of the carbonate, mol/mol.
        magnesium_fraction: f64,
        /// Of the cations of the carbonate, mol/mol.
        strontium_fraction: f64,
        /// Fall of nitrate, µmol/kg/d.
        nitrate_umol_per_kg_per_day: f64,
        /// Fall of phosphate, µmol/kg/d.
        phosphate_umol_per_kg_per_day: f64,
    }

    #[new]
    #[pyo3(signature = (*, alkalinity_umol_per_kg_per_day = 0.0, magnesium_fraction = 0.0,
        strontium_fraction = 0.0, nitrate_umol_per_kg_per_day = 0.0,
        phosphate_umol_per_kg_per_day = 0.0))]
    fn new(
        py: Python<'_>,
        alkalinity_umol_per_kg_per_day: f64,
        magnesium_fraction: f64,
        strontium_fraction: f64,
        nitrate_umol_per_kg_per_day: f64,
        phosphate_umol_per_kg_per_day: f64,
    ) -> PyResult<Self> {
        let consumption = Self {
            alkalinity_umol_per_kg_per_day,
            magnesium_fraction,
            strontium_fraction,
            nitrate_umol_per_kg_per_day,
            phosphate_umol_per_kg_per_day,
        };
        consumption.inner().or_raise(py)?;
        Ok(consumption)
    }

    /// Give what a system of the given mass of water loses in a day.
    ///
    /// Parameters
    /// ----------
    /// water_kg : float
    ///     Mass of the water, kg.
    ///
    /// Returns
    /// -------
    /// Addition
    ///     Moles per day.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     The mass is outside its limits.
    #[pyo3(signature = (*, water_kg))]
    fn per_day(&self, py: Python<'_>, water_kg: f64) -> PyResult<Addition> {
        let mass = Mass::from_kilograms(water_kg).or_raise(py)?;
        Ok(self.inner().or_raise(py)?.per_day(mass).into())
    }
}

impl Consumption {
    pub(super) fn inner(&self) -> halimeda::Result<Inner> {
        let composition =
            CarbonateComposition::new(self.magnesium_fraction, self.strontium_fraction)?;
        let alkalinity = Alkalinity::from_umol_per_kg(self.alkalinity_umol_per_kg_per_day)?;
        Inner::by_calcification(alkalinity, composition)?
            .with_nitrate(Content::from_umol_per_kg(self.nitrate_umol_per_kg_per_day)?)?
            .with_phosphate(Content::from_umol_per_kg(
                self.phosphate_umol_per_kg_per_day,
            )?)
    }

    /// Nothing where none was given.
    pub(super) fn or_none(consumption: Option<&Self>) -> halimeda::Result<Inner> {
        consumption.map_or(Ok(Inner::NONE), Self::inner)
    }
}

elementwise! {
    /// Fall of alkalinity per day between two readings without dosing.
    ///
    /// Parameters
    /// ----------
    /// water : Water
    ///     The water.
    /// first_alkalinity_umol_per_kg, first_alkalinity : number or array, quantity
    ///     The earlier reading, µmol/kg.
    /// second_alkalinity_umol_per_kg, second_alkalinity : number or array, quantity
    ///     The later reading, µmol/kg.
    /// days : number or array
    ///     Time between them, d, 0.25 to 60.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Fall, µmol/kg/d.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     The alkalinity rose, or a number is outside its limits.
    ///
    /// Examples
    /// --------
    /// >>> import halimeda as hm
    /// >>> water = hm.Water(temperature_celsius=25.0, practical_salinity=35.0)
    /// >>> round(hm.dosing.alkalinity_fall_umol_per_kg_per_day(
    /// ...     water, first_alkalinity="8.2 dKH", second_alkalinity="7.6 dKH", days=2.0), 1)
    /// 104.6
    fn alkalinity_fall_umol_per_kg_per_day(
        water;
        first_alkalinity_umol_per_kg / first_alkalinity: ALKALINITY,
        second_alkalinity_umol_per_kg / second_alkalinity: ALKALINITY,
        days: DAYS,
    ) -> "µmol/kg/d" {
        // Only the units needed it.
        let _ = water;
        let fall = dosing::alkalinity_fall_per_day(
            Alkalinity::from_umol_per_kg(first_alkalinity_umol_per_kg)?,
            Alkalinity::from_umol_per_kg(second_alkalinity_umol_per_kg)?,
            days,
        )?;
        Ok(fall.umol_per_kg())
    }

    /// Fall of a content per day between two readings without dosing.
    ///
    /// Parameters
    /// ----------
    /// first_umol_per_kg, first : number or array, quantity
    ///     The earlier reading, µmol/kg.
    /// second_umol_per_kg, second : number or array, quantity
    ///     The later reading, µmol/kg.
    /// days : number or array
    ///     Time between them, d, 0.25 to 60.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Fall, µmol/kg/d.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     The content rose, or a number is outside its limits.
    fn content_fall_umol_per_kg_per_day(
        first_umol_per_kg / first: CONTENT,
        second_umol_per_kg / second: CONTENT,
        days: DAYS,
    ) -> "µmol/kg/d" {
        // Of which substance makes no difference to a fall.
        let fall = dosing::content_fall_per_day(
            Content::<species::Calcium>::from_umol_per_kg(first_umol_per_kg)?,
            Content::from_umol_per_kg(second_umol_per_kg)?,
            days,
        )?;
        Ok(fall.umol_per_kg())
    }
}

record! {
    /// Daily doses in the proportion in which calcification takes them.
    ///
    /// Made by `balanced_dose`. What is `left_behind`, mostly sodium and chloride, stays:
    /// watch the salinity.
    "halimeda.dosing" BalancedDose {
        /// Dose of the alkalinity supplement per day.
        alkalinity: Dose,
        /// Dose of the calcium supplement per day.
        calcium: Dose,
        /// Dose of the magnesium supplement per day.
        magnesium: Dose,
        /// What a day's doses and calcification together leave in the water.
        left_behind: Addition,
        /// What can hurt when the supplements are handled.
        cautions: Vec<String>,
    }

    /// The three doses.
    #[getter]
    fn doses(&self) -> Vec<Dose> {
        vec![self.alkalinity.clone(), self.calcium.clone(), self.magnesium.clone()]
    }
}

/// Find the daily doses that replace a consumption.
///
/// Parameters
/// ----------
/// consumption : Consumption
///     What the tank consumes.
/// water : Water
///     The water.
/// volume_l, volume : float, quantity
///     How much of it, L.
/// alkalinity, calcium, magnesium : Supplement
///     What each is replaced with.
///
/// Returns
/// -------
/// BalancedDose
///     The doses, and what they leave behind.
///
/// Raises
/// ------
/// HalimedaValueError
///     A supplement brings nothing of what it is for, or the calcium or magnesium
///     supplement brings alkalinity.
///
/// Examples
/// --------
/// >>> import halimeda as hm
/// >>> water = hm.Water(temperature_celsius=25.5, practical_salinity=35.0)
/// >>> daily = hm.dosing.balanced_dose(
/// ...     hm.dosing.Consumption(alkalinity_umol_per_kg_per_day=104.6,
/// ...                           magnesium_fraction=0.02, strontium_fraction=0.009),
/// ...     water, volume_l=180.0,
/// ...     alkalinity=hm.dosing.Supplement.solution("sodium_bicarbonate", g_per_l=80.0),
/// ...     calcium=hm.dosing.Supplement.solution("calcium_chloride_dihydrate", g_per_l=70.0),
/// ...     magnesium=hm.dosing.Supplement.magnesium_blend())
/// >>> round(daily.alkalinity.millilitres, 1)
/// 20.2
#[pyfunction]
#[pyo3(signature = (consumption, water, /, *, volume_l = None, volume = None, alkalinity,
    calcium, magnesium))]
#[allow(clippy::too_many_arguments)]
pub(crate) fn balanced_dose<'py>(
    py: Python<'py>,
    consumption: Consumption,
    water: &Bound<'py, Water>,
    volume_l: Object<'_, 'py>,
    volume: Object<'_, 'py>,
    alkalinity: Supplement,
    calcium: Supplement,
    magnesium: Supplement,
) -> PyResult<BalancedDose> {
    let water = one_water(py, water.get())?;
    let mass = mass_of(py, &water, volume_l, volume)?;
    let found = InnerBalanced::new(
        &consumption.inner().or_raise(py)?,
        mass,
        &alkalinity.inner(py)?,
        &calcium.inner(py)?,
        &magnesium.inner(py)?,
    )
    .or_raise(py)?;
    let cautions = found
        .doses()
        .iter()
        .map(|dose| dose.cautions())
        .reduce(|all, more| all.union(more))
        .map(crate::record::texts)
        .unwrap_or_default();
    Ok(BalancedDose {
        alkalinity: Dose::of(&alkalinity, found.alkalinity()),
        calcium: Dose::of(&calcium, found.calcium()),
        magnesium: Dose::of(&magnesium, found.magnesium()),
        left_behind: found.left_behind().into(),
        cautions,
    })
}
