//! Turf algae on a lit screen.

use halimeda::turf::{
    self, Lamp, Screen, TissueMetalContents, TurfEnvironment, TurfStock as InnerStock, TurfTraits,
    TurfWater,
};
use halimeda::{Area, Content, Mass, Temperature, species};
use pyo3::prelude::*;

use crate::choice::{Chosen, Parameters};
use crate::elementwise::elementwise;
use crate::error::OrRaise;
use crate::record::{one_water, record, within};
use crate::water::Water;

/// Brighter than the sun ever is, µmol m⁻² s⁻¹.
const MOST_LIGHT: f64 = 10_000.0;

elementwise! {
    /// Irradiance of a new lamp on each lit face of a screen.
    ///
    /// Mains light near water: use what is rated for it, on a residual-current device,
    /// installed by local rules.
    ///
    /// Parameters
    /// ----------
    /// power_w, power : number or array, quantity
    ///     Electrical power over all faces together, W.
    /// lit_area_m2, lit_area : number or array, quantity
    ///     Lit area of all faces together, m².
    /// parameters : mapping of str to float, optional
    ///     Other values than the defaults of ``halimeda.process.parameters("lamp")``.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Photons of 400 to 700 nm, µmol/m²/s.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     A number or a parameter is outside its limits, or there is no such parameter.
    ///
    /// Source
    /// ------
    /// Kusuma et al. (2020) doi:10.1038/s41438-020-0283-7; Nelson & Bugbee (2014)
    /// doi:10.1371/journal.pone.0099010.
    ///
    /// Examples
    /// --------
    /// >>> import halimeda as hm
    /// >>> round(hm.turf.irradiance_umol_per_m2_per_s(power_w=50.0, lit_area_m2=0.25))
    /// 297
    fn irradiance_umol_per_m2_per_s(
        power_w / power: POWER,
        lit_area_m2 / lit_area: AREA,
    ) with parameters: Option<Parameters> = None => Lamp -> "µmol/m²/s" {
        let power = within("electrical power", power_w, 0.0, 1e6, "W")?;
        let area = within("lit area", lit_area_m2, 1e-4, 1e6, "m²")?;
        within("irradiance", parameters.irradiance(power, area), 0.0, MOST_LIGHT, "µmol/m²/s")
    }

    /// Share of a new lamp's light that is left after burning.
    ///
    /// Parameters
    /// ----------
    /// burning_hours : number or array
    ///     Hours it has burnt, h.
    /// parameters : mapping of str to float, optional
    ///     Other values than the defaults of ``halimeda.process.parameters("lamp")``.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Share, 0 to 1.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     A number or a parameter is outside its limits, or there is no such parameter.
    ///
    /// Source
    /// ------
    /// Usual L70 rating of LED fixtures.
    fn lamp_remaining(
        burning_hours: HOURS,
    ) with parameters: Option<Parameters> = None => Lamp -> "" {
        Ok(parameters.remaining(within("burning hours", burning_hours, 0.0, 1e7, "h")?))
    }

    /// Mean velocity of the water that runs down a screen.
    ///
    /// Parameters
    /// ----------
    /// flow_l_per_h_per_cm, flow : number or array, quantity
    ///     Flow per width of screen, L/h/cm.
    /// parameters : mapping of str to float, optional
    ///     Other values than the defaults of ``halimeda.process.parameters("screen")``.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Velocity, m/s.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     A number or a parameter is outside its limits, or there is no such parameter.
    ///
    /// Source
    /// ------
    /// Weight against friction of the film; the friction factor is weak, from memory.
    fn film_velocity_m_per_s(
        flow_l_per_h_per_cm / flow: FLOW_PER_WIDTH,
    ) with parameters: Option<Parameters> = None => Screen -> "m/s" {
        let flow = within("flow per width", flow_l_per_h_per_cm, 0.0, 1e5, "L/h/cm")?;
        Ok(parameters.flow(flow).velocity_m_per_s)
    }

    /// Mass transfer velocity between running water and turf.
    ///
    /// Parameters
    /// ----------
    /// flow_l_per_h_per_cm, flow : number or array, quantity
    ///     Flow per width of screen, L/h/cm.
    /// parameters : mapping of str to float, optional
    ///     Other values than the defaults of ``halimeda.process.parameters("screen")``.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Transfer velocity, m/d.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     A number or a parameter is outside its limits, or there is no such parameter.
    ///
    /// Source
    /// ------
    /// Thomas & Atkinson (1997) doi:10.4319/lo.1997.42.1.0081.
    fn transfer_m_per_day(
        flow_l_per_h_per_cm / flow: FLOW_PER_WIDTH,
    ) with parameters: Option<Parameters> = None => Screen -> "m/d" {
        let flow = within("flow per width", flow_l_per_h_per_cm, 0.0, 1e5, "L/h/cm")?;
        Ok(parameters.flow(flow).transfer_m_per_day)
    }

    /// Growth at a temperature relative to that at the optimum.
    ///
    /// Parameters
    /// ----------
    /// temperature_celsius, temperature : number or array, quantity
    ///     Temperature, °C.
    /// parameters : mapping of str to float, optional
    ///     Other values than the defaults of ``halimeda.process.parameters("turf")``.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     0 outside the cardinal temperatures, 1 at the optimum.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     A number or a parameter is outside its limits, or the cardinal temperatures do
    ///     not rise.
    ///
    /// Source
    /// ------
    /// Rosso, Lobry & Flandrois (1993) doi:10.1006/jtbi.1993.1099, eq. 1.
    fn temperature_response(
        temperature_celsius / temperature: TEMPERATURE,
    ) with parameters: Option<Parameters> = None => TurfTraits -> "" {
        parameters.check_order()?;
        let celsius = Temperature::from_celsius(temperature_celsius)?.celsius();
        Ok(parameters.temperature_response(celsius))
    }
}

record! {
    /// Metals that leave with a harvest. Made by `tissue_metals`.
    "halimeda.turf" TissueMetals {
        /// Iron, mg.
        iron_mg: f64,
        /// Aluminium, mg.
        aluminium_mg: f64,
        /// Copper, mg.
        copper_mg: f64,
    }
}

/// Find the metals in a mass of harvested turf.
///
/// What leaves with the harvest was in the water: copper in particular is poison to
/// invertebrates long before it shows in turf.
///
/// Parameters
/// ----------
/// dry_grams : float
///     Dry mass, g.
/// parameters : mapping of str to float, optional
///     Other values than the defaults of ``halimeda.process.parameters("tissue_metals")``.
///
/// Returns
/// -------
/// TissueMetals
///     The metals.
///
/// Raises
/// ------
/// HalimedaValueError
///     A number or a parameter is outside its limits, or there is no such parameter.
///
/// Source
/// ------
/// Published analyses of algal turf; ``halimeda.process.parameters("tissue_metals")``.
///
/// Examples
/// --------
/// >>> import halimeda as hm
/// >>> hm.turf.tissue_metals(dry_grams=20.0).iron_mg
/// 20.0
#[pyfunction]
#[pyo3(signature = (*, dry_grams, parameters = None))]
pub(crate) fn tissue_metals(
    py: Python<'_>,
    dry_grams: f64,
    parameters: Option<Parameters>,
) -> PyResult<TissueMetals> {
    let contents = TissueMetalContents::chosen(py, "parameters", parameters)?;
    let mass = Mass::from_kilograms(dry_grams * 1e-3).or_raise(py)?;
    let metals = contents.in_dry_grams(mass.kilograms() * 1e3);
    Ok(TissueMetals {
        iron_mg: metals.iron_mg,
        aluminium_mg: metals.aluminium_mg,
        copper_mg: metals.copper_mg,
    })
}

record! {
    /// What a harvest takes off. Made by `TurfStock.harvest`.
    "halimeda.turf" Harvest {
        /// Carbon, mol.
        carbon_mol: f64,
        /// Nitrogen, mol.
        nitrogen_mol: f64,
        /// Phosphorus, mol.
        phosphorus_mol: f64,
        /// Dry mass, g.
        dry_grams: f64,
        /// Mass after draining, g.
        drained_grams: f64,
    }
}

record! {
    /// What grows on a whole screen.
    ///
    /// Parameters
    /// ----------
    /// carbon_mol, nitrogen_mol, phosphorus_mol : float
    ///     The elements of the biomass, mol.
    /// cover : float
    ///     Share of the screen that carries turf, 0 to 1.
    /// reserve : float
    ///     Reserve of the holdfast layer, 0 (spent) to 1 (full).
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     A number is outside its limits.
    "halimeda.turf" TurfStock {
        /// Carbon of the biomass, mol.
        carbon_mol: f64,
        /// Nitrogen of the biomass, mol.
        nitrogen_mol: f64,
        /// Phosphorus of the biomass, mol.
        phosphorus_mol: f64,
        /// Share of the screen that carries turf.
        cover: f64,
        /// Reserve of the holdfast layer.
        reserve: f64,
    }

    #[new]
    #[pyo3(signature = (*, carbon_mol, nitrogen_mol, phosphorus_mol, cover = 1.0, reserve = 1.0))]
    fn new(
        py: Python<'_>,
        carbon_mol: f64,
        nitrogen_mol: f64,
        phosphorus_mol: f64,
        cover: f64,
        reserve: f64,
    ) -> PyResult<Self> {
        let checked = || {
            Ok(Self {
                carbon_mol: within("carbon of the turf", carbon_mol, 0.0, 1e6, "mol")?,
                nitrogen_mol: within("nitrogen of the turf", nitrogen_mol, 0.0, 1e6, "mol")?,
                phosphorus_mol: within("phosphorus of the turf", phosphorus_mol, 0.0, 1e6, "mol")?,
                cover: within("cover", cover, 0.0, 1.0, "(dimensionless)")?,
                reserve: within("reserve", reserve, 0.0, 1.0, "(dimensionless)")?,
            })
        };
        let checked: halimeda::Result<_> = checked();
        checked.or_raise(py)
    }

    /// Make a screen newly wetted and seeded.
    ///
    /// Parameters
    /// ----------
    /// lit_area_m2 : float
    ///     Lit area over all faces, m².
    /// settled_g_dry_per_m2 : float
    ///     Dry mass of the settled cover, g/m².
    /// cover : float
    ///     Share of the screen that is seeded, 0 to 1.
    /// parameters : mapping of str to float, optional
    ///     Other values than the defaults of ``halimeda.process.parameters("turf")``.
    ///
    /// Returns
    /// -------
    /// TurfStock
    ///     With tissue of middling nutrient content.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     A number or a parameter is outside its limits, or there is no such parameter.
    #[staticmethod]
    #[pyo3(signature = (*, lit_area_m2, settled_g_dry_per_m2 = 2.0, cover = 1.0, parameters = None))]
    fn seeded(
        py: Python<'_>,
        lit_area_m2: f64,
        settled_g_dry_per_m2: f64,
        cover: f64,
        parameters: Option<Parameters>,
    ) -> PyResult<Self> {
        let traits = chosen_traits(py, parameters)?;
        let area = Area::from_m2(lit_area_m2).or_raise(py)?;
        let settled = within("settled mass", settled_g_dry_per_m2, 0.0, 1e4, "g/m²").or_raise(py)?;
        let cover = within("cover", cover, 0.0, 1.0, "(dimensionless)").or_raise(py)?;
        Ok(InnerStock::seeded(&traits, settled, area.m2(), cover).into())
    }

    /// Give the dry mass.
    ///
    /// Parameters
    /// ----------
    /// parameters : mapping of str to float, optional
    ///     Other values than the defaults of ``halimeda.process.parameters("turf")``.
    ///
    /// Returns
    /// -------
    /// float
    ///     Dry mass, g.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     A parameter is outside its limits, or there is none of the name.
    #[pyo3(signature = (*, parameters = None))]
    fn dry_grams(&self, py: Python<'_>, parameters: Option<Parameters>) -> PyResult<f64> {
        Ok(self.inner().dry_grams(&chosen_traits(py, parameters)?))
    }

    /// Cut the turf back to a share of its mass.
    ///
    /// Parameters
    /// ----------
    /// kept_share : float
    ///     What stays, 0 to 1.
    /// parameters : mapping of str to float, optional
    ///     Other values than the defaults of ``halimeda.process.parameters("turf")``.
    ///
    /// Returns
    /// -------
    /// tuple of (Harvest, TurfStock)
    ///     What is taken off, with its nutrients, and what stays.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     A number or a parameter is outside its limits, or there is no such parameter.
    ///
    /// Examples
    /// --------
    /// >>> import halimeda as hm
    /// >>> stock = hm.turf.TurfStock(carbon_mol=1.0, nitrogen_mol=0.1, phosphorus_mol=0.008)
    /// >>> harvest, left = stock.harvest(kept_share=0.25)
    /// >>> harvest.carbon_mol, left.carbon_mol, round(harvest.dry_grams, 1)
    /// (0.75, 0.25, 30.0)
    #[pyo3(signature = (*, kept_share, parameters = None))]
    fn harvest(
        &self,
        py: Python<'_>,
        kept_share: f64,
        parameters: Option<Parameters>,
    ) -> PyResult<(Harvest, Self)> {
        let traits = chosen_traits(py, parameters)?;
        let kept = within("kept share", kept_share, 0.0, 1.0, "(dimensionless)").or_raise(py)?;
        let mut left = self.inner();
        let taken = left.harvest(&traits, kept);
        let harvest = Harvest {
            carbon_mol: taken.carbon_mol,
            nitrogen_mol: taken.nitrogen_mol,
            phosphorus_mol: taken.phosphorus_mol,
            dry_grams: taken.dry_grams,
            drained_grams: taken.drained_grams,
        };
        Ok((harvest, left.into()))
    }
}

impl From<InnerStock> for TurfStock {
    fn from(stock: InnerStock) -> Self {
        Self {
            carbon_mol: stock.carbon_mol,
            nitrogen_mol: stock.nitrogen_mol,
            phosphorus_mol: stock.phosphorus_mol,
            cover: stock.cover,
            reserve: stock.reserve,
        }
    }
}

impl TurfStock {
    const fn inner(&self) -> InnerStock {
        InnerStock {
            carbon_mol: self.carbon_mol,
            nitrogen_mol: self.nitrogen_mol,
            phosphorus_mol: self.phosphorus_mol,
            cover: self.cover,
            reserve: self.reserve,
        }
    }
}

fn chosen_traits(py: Python<'_>, parameters: Option<Parameters>) -> PyResult<TurfTraits> {
    let traits = TurfTraits::chosen(py, "parameters", parameters)?;
    traits.check_order().or_raise(py)?;
    Ok(traits)
}

record! {
    /// What the turf of a whole screen does. Made by `turf_rates`.
    "halimeda.turf" TurfRates {
        /// Gross carbon fixation, mol/d.
        fixation_mol_per_day: f64,
        /// Carbon exuded as dissolved organic carbon, mol/d.
        exudation_mol_per_day: f64,
        /// Carbon respired, mol/d.
        respiration_mol_per_day: f64,
        /// Nitrate taken up, mol/d.
        nitrate_uptake_mol_per_day: f64,
        /// Ammonium taken up, mol/d.
        ammonium_uptake_mol_per_day: f64,
        /// Phosphate taken up, mol/d.
        phosphate_uptake_mol_per_day: f64,
        /// Share of the biomass let go, 1/d.
        loss_per_day: f64,
        /// Change of the covered share, 1/d.
        cover_per_day: f64,
        /// Change of the reserve of the holdfast layer, 1/d.
        reserve_per_day: f64,
    }
}

/// Find what the turf of a screen does at a moment.
///
/// Light through the mat, growth on stored nutrient, uptake through the boundary layer, and
/// the holdfast layer that starves in its own shade. Most yields that the parameters rest on
/// are from waters rich in nutrients; on a reef tank they are an extrapolation.
///
/// Parameters
/// ----------
/// stock : TurfStock
///     What grows on the screen.
/// water : Water
///     The water.
/// lit_area_m2 : float
///     Lit area over all faces, m².
/// irradiance_umol_per_m2_per_s : float
///     On each lit face, µmol/m²/s; zero with the lamp off.
/// transfer_m_per_day : float
///     Mass transfer velocity, m/d, as of `transfer_m_per_day`; zero of a dry screen.
/// nitrate_umol_per_kg, ammonium_umol_per_kg, phosphate_umol_per_kg : float
///     Contents of the water, µmol/kg.
/// inorganic_carbon_umol_per_kg, oxygen_umol_per_kg : float
///     Contents of the water, µmol/kg.
/// parameters : mapping of str to float, optional
///     Other values than the defaults of ``halimeda.process.parameters("turf")``.
///
/// Returns
/// -------
/// TurfRates
///     Rates per day.
///
/// Raises
/// ------
/// HalimedaValueError
///     A number or a parameter is outside its limits, or there is no such parameter.
///
/// Source
/// ------
/// Light: Smith (1936) doi:10.1073/pnas.22.8.504; quotas: Droop (1973) J. Phycol. 9,
/// 264-272; temperature: Rosso et al. (1993) doi:10.1006/jtbi.1993.1099.
///
/// Examples
/// --------
/// >>> import halimeda as hm
/// >>> water = hm.Water(temperature_celsius=25.0, practical_salinity=35.0)
/// >>> stock = hm.turf.TurfStock.seeded(lit_area_m2=0.2, settled_g_dry_per_m2=40.0)
/// >>> conditions = dict(
/// ...     lit_area_m2=0.2, transfer_m_per_day=6.0, nitrate_umol_per_kg=80.0,
/// ...     ammonium_umol_per_kg=1.0, phosphate_umol_per_kg=1.0,
/// ...     inorganic_carbon_umol_per_kg=2300.0, oxygen_umol_per_kg=200.0)
/// >>> lit = hm.turf.turf_rates(stock, water, irradiance_umol_per_m2_per_s=300.0, **conditions)
/// >>> dark = hm.turf.turf_rates(stock, water, irradiance_umol_per_m2_per_s=0.0, **conditions)
/// >>> lit.fixation_mol_per_day > lit.respiration_mol_per_day, dark.fixation_mol_per_day
/// (True, 0.0)
#[pyfunction]
#[pyo3(signature = (stock, water, /, *, lit_area_m2, irradiance_umol_per_m2_per_s,
    transfer_m_per_day, nitrate_umol_per_kg, ammonium_umol_per_kg, phosphate_umol_per_kg,
    inorganic_carbon_umol_per_kg, oxygen_umol_per_kg, parameters = None))]
#[allow(clippy::too_many_arguments)]
pub(crate) fn turf_rates(
    py: Python<'_>,
    stock: TurfStock,
    water: &Bound<'_, Water>,
    lit_area_m2: f64,
    irradiance_umol_per_m2_per_s: f64,
    transfer_m_per_day: f64,
    nitrate_umol_per_kg: f64,
    ammonium_umol_per_kg: f64,
    phosphate_umol_per_kg: f64,
    inorganic_carbon_umol_per_kg: f64,
    oxygen_umol_per_kg: f64,
    parameters: Option<Parameters>,
) -> PyResult<TurfRates> {
    let water = one_water(py, water.get())?;
    let traits = chosen_traits(py, parameters)?;
    let rates = || {
        let area = within("lit area", lit_area_m2, 1e-4, 1e6, "m²")?;
        let light = within(
            "irradiance",
            irradiance_umol_per_m2_per_s,
            0.0,
            MOST_LIGHT,
            "µmol/m²/s",
        )?;
        let transfer = within(
            "mass transfer velocity",
            transfer_m_per_day,
            0.0,
            1e4,
            "m/d",
        )?;
        let surroundings = TurfEnvironment::new(&traits, water.temperature().celsius(), area)
            .with_irradiance(&traits, light)
            .with_flow(transfer);
        let contents = TurfWater {
            ammonium: Content::<species::TotalAmmonia>::from_umol_per_kg(ammonium_umol_per_kg)?
                .mol_per_kg(),
            nitrate: Content::<species::Nitrate>::from_umol_per_kg(nitrate_umol_per_kg)?
                .mol_per_kg(),
            phosphate: Content::<species::Phosphate>::from_umol_per_kg(phosphate_umol_per_kg)?
                .mol_per_kg(),
            inorganic_carbon: Content::<species::InorganicCarbon>::from_umol_per_kg(
                inorganic_carbon_umol_per_kg,
            )?
            .mol_per_kg(),
            oxygen: Content::<species::Oxygen>::from_umol_per_kg(oxygen_umol_per_kg)?.mol_per_kg(),
            density_kg_per_m3: water.density()?.kg_per_m3(),
        };
        Ok(turf::turf_rates(
            &traits,
            &surroundings,
            &stock.inner(),
            &contents,
        ))
    };
    let rates: halimeda::Result<turf::TurfRates> = rates();
    let rates = rates.or_raise(py)?;
    Ok(TurfRates {
        fixation_mol_per_day: rates.fixation_c,
        exudation_mol_per_day: rates.exudation_c,
        respiration_mol_per_day: rates.respiration_c,
        nitrate_uptake_mol_per_day: rates.nitrate_uptake,
        ammonium_uptake_mol_per_day: rates.ammonium_uptake,
        phosphate_uptake_mol_per_day: rates.phosphate_uptake,
        loss_per_day: rates.loss_per_day,
        cover_per_day: rates.cover_per_day,
        reserve_per_day: rates.reserve_per_day,
    })
}
