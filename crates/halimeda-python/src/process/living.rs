//! What lives in the display, and media that bind phosphate.

use halimeda::process::{
    self, CoralCalcification, CorallineCalcification, Display, IronOxideMedia, Livestock,
    RelativeCations, temperature_factor,
};
use halimeda::{Area, Mass, SaturationState, Temperature, species};
use pyo3::prelude::*;

use super::{OrganicMatter, mol_per_kg};
use crate::choice::{Chosen, Parameters};
use crate::elementwise::elementwise;
use crate::error::OrRaise;
use crate::record::{record, within};

fn lit(fraction: f64) -> halimeda::Result<f64> {
    within("lit fraction", fraction, 0.0, 1.0, "(dimensionless)")
}

elementwise! {
    /// Carbonate that stony corals lay down, in a water with the cations of seawater.
    ///
    /// Zero at and below saturation: the dissolution of bare skeleton is not counted. The
    /// rates are those of 24 to 28 °C.
    ///
    /// Parameters
    /// ----------
    /// tissue_m2, tissue : number or array, quantity
    ///     Area of living tissue, m².
    /// aragonite_saturation : number or array
    ///     Saturation state of aragonite.
    /// lit_fraction : number or array
    ///     0 in the dark to 1 under the full lamp.
    /// parameters : mapping of str to float, optional
    ///     Other values than the defaults of `parameters`.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Carbonate, mol/d; each takes two equivalents of alkalinity.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     A number or a parameter is outside its limits, or there is no such parameter.
    ///
    /// Source
    /// ------
    /// McLaughlin et al. (2023) doi:10.5194/bg-20-1011-2023; Smith & Kinsey (1976)
    /// doi:10.1126/science.194.4268.937; light: Gattuso et al. (1999)
    /// doi:10.1093/icb/39.1.160.
    fn coral_calcification_mol_per_day(
        tissue_m2 / tissue: AREA,
        aragonite_saturation: SATURATION,
        lit_fraction: SHARE,
    ) with parameters: Option<Parameters> = None => CoralCalcification -> "mol/d" {
        let rates = process::coral_calcification(
            Area::from_m2(tissue_m2)?.m2(),
            SaturationState::<halimeda::Aragonite>::new(aragonite_saturation)?.value(),
            RelativeCations::SEAWATER,
            lit(lit_fraction)?,
            &parameters,
        );
        Ok(rates.carbonate)
    }

    /// Carbonate that crusts of coralline algae lay down.
    ///
    /// As of corals, with the magnesium of calcite.
    ///
    /// Parameters
    /// ----------
    /// crust_m2, crust : number or array, quantity
    ///     Area of crust, m².
    /// aragonite_saturation : number or array
    ///     Saturation state of aragonite.
    /// lit_fraction : number or array
    ///     0 in the dark to 1 under the full lamp.
    /// parameters : mapping of str to float, optional
    ///     Other values than the defaults of `parameters`.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Carbonate, mol/d.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     A number or a parameter is outside its limits, or there is no such parameter.
    ///
    /// Source
    /// ------
    /// Orders of magnitude from memory; `parameters` tells the source of each.
    fn coralline_calcification_mol_per_day(
        crust_m2 / crust: AREA,
        aragonite_saturation: SATURATION,
        lit_fraction: SHARE,
    ) with parameters: Option<Parameters> = None => CorallineCalcification -> "mol/d" {
        let rates = process::coralline_calcification(
            Area::from_m2(crust_m2)?.m2(),
            SaturationState::<halimeda::Aragonite>::new(aragonite_saturation)?.value(),
            RelativeCations::SEAWATER,
            lit(lit_fraction)?,
            &parameters,
        );
        Ok(rates.carbonate)
    }

    /// Gross photosynthesis of corals and of the algae on rock and glass.
    ///
    /// Parameters
    /// ----------
    /// living_m2, living : number or array, quantity
    ///     Living surface, m².
    /// lit_fraction : number or array
    ///     Share of the surface that is lit, 0 to 1.
    /// inorganic_carbon_umol_per_kg : number or array
    ///     Dissolved inorganic carbon, µmol/kg.
    /// parameters : mapping of str to float, optional
    ///     Other values than the defaults of `parameters`.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Carbon, mol/d.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     A number or a parameter is outside its limits, or there is no such parameter.
    ///
    /// Source
    /// ------
    /// Chisholm (2003) doi:10.4319/lo.2003.48.4.1376; the rest from memory.
    fn display_photosynthesis_mol_per_day(
        living_m2 / living: AREA,
        lit_fraction: SHARE,
        inorganic_carbon_umol_per_kg: INORGANIC_CARBON,
    ) with parameters: Option<Parameters> = None => Display -> "mol/d" {
        let rates = process::display_rates(
            Area::from_m2(living_m2)?.m2(),
            lit(lit_fraction)?,
            mol_per_kg::<species::InorganicCarbon>(inorganic_carbon_umol_per_kg)?,
            0.0,
            1.0,
            &parameters,
        );
        Ok(rates.photosynthesis)
    }

    /// Respiration of corals and of the algae on rock and glass.
    ///
    /// Parameters
    /// ----------
    /// living_m2, living : number or array, quantity
    ///     Living surface, m².
    /// oxygen_umol_per_kg : number or array
    ///     Dissolved oxygen, µmol/kg.
    /// temperature_celsius, temperature : number or array, quantity
    ///     Temperature, °C.
    /// parameters : mapping of str to float, optional
    ///     Other values than the defaults of `parameters`.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Carbon, mol/d.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     A number or a parameter is outside its limits, or there is no such parameter.
    ///
    /// Source
    /// ------
    /// Gattuso et al. (1995) Mar. Ecol. Prog. Ser. 129, 307-312; Chisholm (2003)
    /// doi:10.4319/lo.2003.48.4.1376.
    fn display_respiration_mol_per_day(
        living_m2 / living: AREA,
        oxygen_umol_per_kg: DISSOLVED_GAS,
        temperature_celsius / temperature: TEMPERATURE,
    ) with parameters: Option<Parameters> = None => Display -> "mol/d" {
        let celsius = Temperature::from_celsius(temperature_celsius)?.celsius();
        let rates = process::display_rates(
            Area::from_m2(living_m2)?.m2(),
            0.0,
            0.0,
            mol_per_kg::<species::Oxygen>(oxygen_umol_per_kg)?,
            temperature_factor(parameters.q10, celsius),
            &parameters,
        );
        Ok(rates.respiration)
    }

    /// Phosphate that granular iron oxide takes up.
    ///
    /// Negative where loaded media gives phosphate back to cleaner water.
    ///
    /// Parameters
    /// ----------
    /// phosphate_umol_per_kg : number or array
    ///     Phosphate, µmol/kg.
    /// bound_phosphorus_mol : number or array
    ///     Phosphorus that the media already holds, mol.
    /// media_g, media : number or array, quantity
    ///     The media, g.
    /// parameters : mapping of str to float, optional
    ///     Other values than the defaults of `parameters`.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Phosphorus, mol/d.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     A number or a parameter is outside its limits, or there is no such parameter.
    ///
    /// Source
    /// ------
    /// Chitrakar et al. (2006) J. Colloid Interface Sci. 298, 602-608; Golterman (1995)
    /// Hydrobiologia 315, 59-68.
    fn iron_oxide_uptake_mol_per_day(
        phosphate_umol_per_kg: PHOSPHATE,
        bound_phosphorus_mol: AMOUNT,
        media_g / media: MASS,
    ) with parameters: Option<Parameters> = None => IronOxideMedia -> "mol/d" {
        Ok(process::iron_oxide_uptake(
            mol_per_kg::<species::Phosphate>(phosphate_umol_per_kg)?,
            within("bound phosphorus", bound_phosphorus_mol, 0.0, 1e6, "mol")?,
            Mass::from_kilograms(media_g * 1e-3)?.kilograms() * 1e3,
            &parameters,
        ))
    }
}

record! {
    /// Where the feed in the gut goes. Made by `livestock`.
    ///
    /// Source
    /// ------
    /// van Rijn (2013) Aquac. Eng. 53, 49-56.
    "halimeda.process" LivestockRates {
        /// Nitrogen excreted as ammonia, mol/d.
        excreted_nitrogen_mol_per_day: f64,
        /// Phosphorus excreted as phosphate, mol/d.
        excreted_phosphorus_mol_per_day: f64,
        /// Carbon respired, mol/d.
        respired_carbon_mol_per_day: f64,
        /// Faeces, per day.
        faeces: OrganicMatter,
        /// Kept in the body, per day.
        retained: OrganicMatter,
    }
}

/// Find what fed animals excrete, respire and keep.
///
/// First order in what is in the gut; over time all that was eaten leaves it in these
/// shares.
///
/// Parameters
/// ----------
/// gut : OrganicMatter
///     Feed in the gut, as of `feed`.
/// oxygen_umol_per_kg : float
///     Dissolved oxygen, µmol/kg.
/// parameters : mapping of str to float, optional
///     Other values than the defaults of `parameters`.
///
/// Returns
/// -------
/// LivestockRates
///     Rates per day.
///
/// Raises
/// ------
/// HalimedaValueError
///     A number or a parameter is outside its limits, or there is no such parameter.
///
/// Source
/// ------
/// van Rijn (2013) Aquac. Eng. 53, 49-56; Summerfelt & Penne (2007) Int. J. Recirc. Aquac.
/// 8, 43-64.
///
/// Examples
/// --------
/// >>> import halimeda as hm
/// >>> rates = hm.process.livestock(hm.process.feed(grams=5.0), oxygen_umol_per_kg=200.0)
/// >>> rates.excreted_nitrogen_mol_per_day > rates.faeces.nitrogen_mol
/// True
#[pyfunction]
#[pyo3(signature = (gut, /, *, oxygen_umol_per_kg, parameters = None))]
pub(crate) fn livestock(
    py: Python<'_>,
    gut: OrganicMatter,
    oxygen_umol_per_kg: f64,
    parameters: Option<Parameters>,
) -> PyResult<LivestockRates> {
    let parameters = Livestock::chosen(py, "parameters", parameters)?;
    let oxygen = mol_per_kg::<species::Oxygen>(oxygen_umol_per_kg).or_raise(py)?;
    let rates = process::livestock_rates(gut.inner(), oxygen, &parameters);
    Ok(LivestockRates {
        excreted_nitrogen_mol_per_day: rates.excreted_nitrogen,
        excreted_phosphorus_mol_per_day: rates.excreted_phosphorus,
        respired_carbon_mol_per_day: rates.respired_carbon,
        faeces: rates.faeces.into(),
        retained: rates.retained.into(),
    })
}
