//! Rates of what lives and decays in a tank, and evaporation.

mod living;

pub(crate) use living::*;

use halimeda::parameter::{ParameterInfo, ParameterSet};
use halimeda::process::{
    self, Denitrification, Evaporation, FeedComposition, FeedKind, Mineralisation, Nitrification,
    TopOff, temperature_factor,
};
use halimeda::quantity::Species;
use halimeda::{Area, Content, Mass, Temperature, species};
use pyo3::prelude::*;

use crate::choice::{Chosen, Parameters, unknown};
use crate::elementwise::elementwise;
use crate::error::OrRaise;
use crate::record::{record, within};

/// The rates check nothing themselves.
fn mol_per_kg<S: Species>(umol_per_kg: f64) -> halimeda::Result<f64> {
    Ok(Content::<S>::from_umol_per_kg(umol_per_kg)?.mol_per_kg())
}

/// An amount of something in the whole system.
fn amount(input: &'static str, mol: f64) -> halimeda::Result<f64> {
    within(input, mol, 0.0, 1e9, "mol")
}

fn factor(q10: f64, celsius: f64) -> halimeda::Result<f64> {
    Ok(temperature_factor(
        q10,
        Temperature::from_celsius(celsius)?.celsius(),
    ))
}

elementwise! {
    /// Nitrification on the surfaces of rock, sand and filter.
    ///
    /// What a mole of it does to the water is in `halimeda.nutrient.stoichiometry`. The
    /// defaults are typical values, no measurement of the tank at hand; `parameters` has
    /// their ranges.
    ///
    /// Parameters
    /// ----------
    /// ammonia_umol_per_kg : number or array
    ///     Total ammonia, µmol/kg.
    /// oxygen_umol_per_kg : number or array
    ///     Dissolved oxygen, µmol/kg.
    /// surface_m2, surface : number or array, quantity
    ///     Surface, m².
    /// temperature_celsius, temperature : number or array, quantity
    ///     Temperature, °C.
    /// parameters : mapping of str to float, optional
    ///     Other values than the defaults, by name.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Nitrogen, mol/d.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     A number or a parameter is outside its limits, or there is no such parameter.
    ///
    /// Source
    /// ------
    /// Orders of magnitude from memory; `parameters` tells the source of each.
    ///
    /// Examples
    /// --------
    /// >>> import halimeda as hm
    /// >>> round(1e3 * hm.process.nitrification_mol_per_day(
    /// ...     ammonia_umol_per_kg=2.0, oxygen_umol_per_kg=200.0, surface_m2=3.0,
    /// ...     temperature_celsius=25.0), 2)
    /// 2.09
    fn nitrification_mol_per_day(
        ammonia_umol_per_kg: AMMONIA,
        oxygen_umol_per_kg: DISSOLVED_GAS,
        surface_m2 / surface: AREA,
        temperature_celsius / temperature: TEMPERATURE,
    ) with parameters: Option<Parameters> = None => Nitrification -> "mol/d" {
        Ok(process::nitrification(
            mol_per_kg::<species::TotalAmmonia>(ammonia_umol_per_kg)?,
            mol_per_kg::<species::Oxygen>(oxygen_umol_per_kg)?,
            Area::from_m2(surface_m2)?.m2(),
            factor(parameters.q10, temperature_celsius)?,
            &parameters,
        ))
    }

    /// Denitrification inside rock and sand.
    ///
    /// Anoxic zones inside the rock are taken as always there. It takes its carbon from
    /// the particulate matter.
    ///
    /// Parameters
    /// ----------
    /// nitrate_umol_per_kg : number or array
    ///     Nitrate, µmol/kg.
    /// particulate_carbon_mol : number or array
    ///     Particulate organic carbon of the system, mol.
    /// surface_m2, surface : number or array, quantity
    ///     Surface, m².
    /// temperature_celsius, temperature : number or array, quantity
    ///     Temperature, °C.
    /// parameters : mapping of str to float, optional
    ///     Other values than the defaults, by name.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Nitrogen, mol/d.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     A number or a parameter is outside its limits, or there is no such parameter.
    ///
    /// Source
    /// ------
    /// Orders of magnitude from memory; `parameters` tells the source of each.
    fn denitrification_mol_per_day(
        nitrate_umol_per_kg: NITRATE,
        particulate_carbon_mol: AMOUNT,
        surface_m2 / surface: AREA,
        temperature_celsius / temperature: TEMPERATURE,
    ) with parameters: Option<Parameters> = None => Denitrification -> "mol/d" {
        Ok(process::denitrification(
            mol_per_kg::<species::Nitrate>(nitrate_umol_per_kg)?,
            amount("particulate organic carbon", particulate_carbon_mol)?,
            Area::from_m2(surface_m2)?.m2(),
            factor(parameters.q10, temperature_celsius)?,
            &parameters,
        ))
    }

    /// Mineralisation of detritus.
    ///
    /// Parameters
    /// ----------
    /// matter_mol : number or array
    ///     One element (C, N or P) of the particulate organic matter, mol.
    /// oxygen_umol_per_kg : number or array
    ///     Dissolved oxygen, µmol/kg.
    /// temperature_celsius, temperature : number or array, quantity
    ///     Temperature, °C.
    /// parameters : mapping of str to float, optional
    ///     Other values than the defaults, by name.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Of the element, mol/d.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     A number or a parameter is outside its limits, or there is no such parameter.
    ///
    /// Source
    /// ------
    /// Orders of magnitude from memory; `parameters` tells the source of each.
    fn mineralisation_mol_per_day(
        matter_mol: AMOUNT,
        oxygen_umol_per_kg: DISSOLVED_GAS,
        temperature_celsius / temperature: TEMPERATURE,
    ) with parameters: Option<Parameters> = None => Mineralisation -> "mol/d" {
        let matter = process::OrganicMatter {
            carbon: amount("organic matter", matter_mol)?,
            ..process::OrganicMatter::default()
        };
        let rates = process::mineralisation_rates(
            matter,
            parameters.particulate_per_day,
            mol_per_kg::<species::Oxygen>(oxygen_umol_per_kg)?,
            factor(parameters.q10, temperature_celsius)?,
            &parameters,
        );
        Ok(rates.carbon)
    }

    /// Water that evaporates from an open surface.
    ///
    /// Nothing condenses where the air is moister than the water. A fan raises it.
    ///
    /// Parameters
    /// ----------
    /// water : Water
    ///     The water.
    /// open_m2, open : number or array, quantity
    ///     The open surface, m².
    /// air_celsius : number or array
    ///     Temperature of the room's air, °C.
    /// relative_humidity : number or array
    ///     Relative humidity of the room's air, 0 to 1.
    /// parameters : mapping of str to float, optional
    ///     Other values than the defaults, by name.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Water, kg/d.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     A number or a parameter is outside its limits, or there is no such parameter.
    ///
    /// Source
    /// ------
    /// Dalton's law; Smith, Löf & Jones (1998) ASHRAE Trans. 104(1A); vapour pressure of
    /// Weiss & Price (1980) doi:10.1016/0304-4203(80)90024-9.
    fn evaporation_kg_per_day(
        water;
        open_m2 / open: AREA,
        air_celsius: TEMPERATURE,
        relative_humidity: SHARE,
    ) with parameters: Option<Parameters> = None => Evaporation -> "kg/d" {
        const KPA_PER_ATM: f64 = 101.325;
        let air = process::air_vapour_pressure_kpa(
            Temperature::from_celsius(air_celsius)?,
            relative_humidity,
        )?;
        Ok(process::evaporation_kg_per_day(
            Area::from_m2(open_m2)?.m2(),
            water.vapour_pressure_atm()? * KPA_PER_ATM,
            air,
            &parameters,
        ))
    }

    /// Vapour pressure in the air of a room.
    ///
    /// Parameters
    /// ----------
    /// air_celsius : number or array
    ///     Temperature of the air, °C.
    /// relative_humidity : number or array
    ///     Relative humidity, 0 to 1.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Vapour pressure, kPa.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     A number is outside its limits.
    ///
    /// Source
    /// ------
    /// Weiss & Price (1980) doi:10.1016/0304-4203(80)90024-9.
    ///
    /// Examples
    /// --------
    /// >>> import halimeda as hm
    /// >>> round(hm.process.air_vapour_pressure_kpa(air_celsius=20.0, relative_humidity=0.5), 2)
    /// 1.17
    fn air_vapour_pressure_kpa(
        air_celsius: TEMPERATURE,
        relative_humidity: SHARE,
    ) -> "kPa" {
        process::air_vapour_pressure_kpa(Temperature::from_celsius(air_celsius)?, relative_humidity)
    }

    /// Fresh water that an automatic top-off delivers.
    ///
    /// Parameters
    /// ----------
    /// evaporation_kg_per_day : number or array
    ///     What evaporates, kg/d.
    /// water_kg : number or array
    ///     Water in the system, kg.
    /// full_kg : number or array
    ///     Water in the full system, kg.
    /// parameters : mapping of str to float, optional
    ///     Other values than the defaults, by name.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Fresh water, kg/d.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     A number or a parameter is outside its limits, or there is no such parameter.
    ///
    /// Source
    /// ------
    /// Common practice, no source.
    fn top_off_kg_per_day(
        evaporation_kg_per_day: WATER_MASS_PER_DAY,
        water_kg: WATER_MASS,
        full_kg: WATER_MASS,
    ) with parameters: Option<Parameters> = None => TopOff -> "kg/d" {
        Ok(process::top_off_kg_per_day(
            Mass::from_kilograms(evaporation_kg_per_day)?.kilograms(),
            Mass::from_kilograms(water_kg)?.kilograms(),
            Mass::from_kilograms(full_kg)?.kilograms(),
            &parameters,
        ))
    }
}

record! {
    /// Carbon, nitrogen and phosphorus in organic matter.
    "halimeda.process" OrganicMatter {
        /// Carbon, mol.
        carbon_mol: f64,
        /// Nitrogen, mol.
        nitrogen_mol: f64,
        /// Phosphorus, mol.
        phosphorus_mol: f64,
    }
}

impl From<process::OrganicMatter> for OrganicMatter {
    fn from(matter: process::OrganicMatter) -> Self {
        Self {
            carbon_mol: matter.carbon,
            nitrogen_mol: matter.nitrogen,
            phosphorus_mol: matter.phosphorus,
        }
    }
}

impl OrganicMatter {
    const fn inner(&self) -> process::OrganicMatter {
        process::OrganicMatter {
            carbon: self.carbon_mol,
            nitrogen: self.nitrogen_mol,
            phosphorus: self.phosphorus_mol,
        }
    }
}

/// Find the carbon, nitrogen and phosphorus in a feed.
///
/// Parameters
/// ----------
/// grams : float
///     The feed as it is weighed, g; frozen feed thawed and drained.
/// kind : {"pellet", "frozen", "dried_macroalgae"}
///     What is fed.
/// parameters : mapping of str to float, optional
///     A declared composition of the feed in place of the kind's, by name:
///     ``water_fraction``, ``protein_fraction_of_dry``, ``phosphorus_fraction_of_dry``,
///     ``carbon_fraction_of_dry``; what is not named is of a pellet.
///
/// Returns
/// -------
/// OrganicMatter
///     Moles in the feed.
///
/// Raises
/// ------
/// HalimedaValueError
///     There is no such kind or part, or the parts contradict each other.
///
/// Source
/// ------
/// NRC (2011) Nutrient Requirements of Fish and Shrimp, from memory; `parameters` tells the
/// source of each part.
///
/// Examples
/// --------
/// >>> import halimeda as hm
/// >>> round(1e3 * hm.process.feed(grams=1.0).nitrogen_mol, 2)
/// 5.04
#[pyfunction]
#[pyo3(signature = (*, grams, kind = "pellet", parameters = None))]
pub(crate) fn feed(
    py: Python<'_>,
    grams: f64,
    kind: &str,
    parameters: Option<Parameters>,
) -> PyResult<OrganicMatter> {
    let composition = match parameters {
        Some(parameters) => FeedComposition::chosen(py, "parameters", Some(parameters))?,
        None => feed_kind(py, kind)?.composition(),
    };
    let matter = || {
        let grams = Mass::from_kilograms(grams * 1e-3)?.kilograms() * 1e3;
        Ok(composition.per_gram()?.scaled(grams))
    };
    let matter: halimeda::Result<process::OrganicMatter> = matter();
    matter.map(OrganicMatter::from).or_raise(py)
}

fn feed_kind(py: Python<'_>, kind: &str) -> PyResult<FeedKind> {
    match kind {
        "pellet" => Ok(FeedKind::Pellet),
        "frozen" => Ok(FeedKind::Frozen),
        "dried_macroalgae" => Ok(FeedKind::DriedMacroalgae),
        _ => {
            let choices = "\"pellet\", \"frozen\" or \"dried_macroalgae\"";
            Err(unknown(py, "kind", kind, choices))
        }
    }
}

record! {
    /// What is known of one parameter before anything was measured in the tank.
    "halimeda.process" Parameter {
        /// Its name.
        name: String,
        /// Its unit.
        unit: String,
        /// Default value, in `unit`.
        default: f64,
        /// Lower end of the range it is uncertain in, in `unit`.
        low: f64,
        /// Upper end of the range it is uncertain in, in `unit`.
        high: f64,
        /// Where the value and the range come from.
        source: String,
    }
}

/// Tell what the parameters of a model are, with ranges and sources.
///
/// Parameters
/// ----------
/// model : str
///     ``"nitrification"``, ``"denitrification"``, ``"mineralisation"``,
///     ``"coral_calcification"``, ``"coralline_calcification"``, ``"display"``,
///     ``"iron_oxide"``, ``"livestock"``, ``"evaporation"``, ``"top_off"``,
///     ``"feed_pellet"``, ``"feed_frozen"``, ``"feed_dried_macroalgae"``, ``"turf"``,
///     ``"lamp"``, ``"screen"`` or ``"tissue_metals"``.
///
/// Returns
/// -------
/// list of Parameter
///     Each with its default, range, unit and source.
///
/// Raises
/// ------
/// HalimedaValueError
///     There is no such model.
///
/// Examples
/// --------
/// >>> import halimeda as hm
/// >>> [p.name for p in hm.process.parameters("evaporation")]
/// ['transfer_kg_per_m2_per_d_per_kpa']
#[pyfunction]
#[pyo3(signature = (model, /))]
pub(crate) fn parameters(py: Python<'_>, model: &str) -> PyResult<Vec<Parameter>> {
    use halimeda::process::{
        CoralCalcification, CorallineCalcification, Display, IronOxideMedia, Livestock,
    };
    use halimeda::turf::{Lamp, Screen, TissueMetalContents, TurfTraits};
    let known: [(&str, &'static [ParameterInfo]); 17] = [
        ("nitrification", Nitrification::PARAMETERS),
        ("denitrification", Denitrification::PARAMETERS),
        ("mineralisation", Mineralisation::PARAMETERS),
        ("coral_calcification", CoralCalcification::PARAMETERS),
        (
            "coralline_calcification",
            CorallineCalcification::PARAMETERS,
        ),
        ("display", Display::PARAMETERS),
        ("iron_oxide", IronOxideMedia::PARAMETERS),
        ("livestock", Livestock::PARAMETERS),
        ("evaporation", Evaporation::PARAMETERS),
        ("top_off", TopOff::PARAMETERS),
        ("feed_pellet", FeedKind::Pellet.parameters()),
        ("feed_frozen", FeedKind::Frozen.parameters()),
        (
            "feed_dried_macroalgae",
            FeedKind::DriedMacroalgae.parameters(),
        ),
        ("turf", TurfTraits::PARAMETERS),
        ("lamp", Lamp::PARAMETERS),
        ("screen", Screen::PARAMETERS),
        ("tissue_metals", TissueMetalContents::PARAMETERS),
    ];
    let Some((_, infos)) = known.iter().find(|(name, _)| *name == model) else {
        let names: Vec<_> = known.iter().map(|(name, _)| *name).collect();
        return Err(unknown(py, "model", model, &names.join(", ")));
    };
    let told = infos.iter().map(|info| Parameter {
        name: info.name.to_owned(),
        unit: info.unit.to_owned(),
        default: info.default,
        low: info.low,
        high: info.high,
        source: info.source.to_owned(),
    });
    Ok(told.collect())
}
