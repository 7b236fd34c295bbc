//! `CarbonateState`: the carbonate system of one water.

use std::collections::BTreeMap;

use halimeda::carbonate::{self, Equilibria, Known, Solutions};
use halimeda::{DryMoleFractionCo2, PhScale, Relation, batch};
use pyo3::prelude::*;
use pyo3::types::PyDict;

use crate::error::{Blame, OrRaise, value_error};
use crate::knowns::{bases, keyword, option_names, options};
use crate::uncertainty::{Sensitivities, Uncertainties};
use crate::water::{Water, display};

/// The full state of the carbonate system in one water.
///
/// Made by `carbonate`, `Water.carbonate` and their relatives. Contents are in
/// µmol per kg of seawater, pressures of CO2 in µatm; a pH names its scale.
///
/// Examples
/// --------
/// >>> import halimeda as hm
/// >>> water = hm.Water(temperature_celsius=25.0, practical_salinity=35.0)
/// >>> state = water.carbonate(alkalinity="8.2 dKH", ph_nbs=8.2)
/// >>> round(state.aragonite_saturation, 1)
/// 4.4
#[pyclass(module = "halimeda", frozen, from_py_object)]
#[derive(Debug, Clone)]
pub(crate) struct CarbonateState {
    pub(crate) inner: carbonate::CarbonateState,
    /// The air it was brought to equilibrium with, ppm.
    under_air_ppm: Option<f64>,
}

impl PartialEq for CarbonateState {
    fn eq(&self, other: &Self) -> bool {
        self.inner == other.inner
    }
}

impl CarbonateState {
    pub(crate) const fn of(inner: carbonate::CarbonateState) -> Self {
        Self {
            inner,
            under_air_ppm: None,
        }
    }

    pub(crate) fn all(
        py: Python<'_>,
        equilibria: &Equilibria,
        [first, second]: [Known; 2],
    ) -> PyResult<Vec<Self>> {
        match equilibria.solve_all(first, second).or_raise(py)? {
            Solutions::Two {
                lower_ph,
                higher_ph,
            } => Ok(vec![Self::of(lower_ph), Self::of(higher_ph)]),
            // One, or the reason why none.
            _ => Ok(vec![Self::of(
                equilibria.solve(first, second).or_raise(py)?,
            )]),
        }
    }
}

/// What makes up the total alkalinity, µmol/kg; acids count negative.
///
/// Source
/// ------
/// Dickson (1981) doi:10.1016/0198-0149(81)90121-7.
#[pyclass(module = "halimeda", frozen, get_all, eq)]
#[derive(PartialEq)]
pub(crate) struct AlkalinityParts {
    /// HCO3⁻, µmol/kg.
    bicarbonate_umol_per_kg: f64,
    /// 2 CO3²⁻, µmol/kg.
    carbonate_umol_per_kg: f64,
    /// B(OH)4⁻, µmol/kg.
    borate_umol_per_kg: f64,
    /// OH⁻, µmol/kg.
    hydroxide_umol_per_kg: f64,
    /// HPO4²⁻ + 2 PO4³⁻ − H3PO4, µmol/kg.
    phosphate_umol_per_kg: f64,
    /// SiO(OH)3⁻, µmol/kg.
    silicate_umol_per_kg: f64,
    /// NH3, µmol/kg.
    ammonia_umol_per_kg: f64,
    /// HS⁻, µmol/kg.
    sulfide_umol_per_kg: f64,
    /// −H⁺ (free), µmol/kg.
    free_hydrogen_umol_per_kg: f64,
    /// −HSO4⁻, µmol/kg.
    bisulfate_umol_per_kg: f64,
    /// −HF, µmol/kg.
    hydrogen_fluoride_umol_per_kg: f64,
}

/// Revelle factor and buffer factors, as exact derivatives.
///
/// With every acid system of the water, not the carbonate, borate and water of the
/// paper alone.
///
/// Source
/// ------
/// Egleston, Sabine & Morel (2010) doi:10.1029/2008GB003407, table 1.
#[pyclass(module = "halimeda", frozen, get_all, eq)]
#[derive(PartialEq)]
pub(crate) struct BufferFactors {
    /// ∂ln[CO2]/∂ln DIC at constant alkalinity, dimensionless.
    revelle: f64,
    /// (∂ln[CO2]/∂DIC)⁻¹ at constant alkalinity, mol/kg.
    gamma_dic_mol_per_kg: f64,
    /// (∂ln[H⁺]/∂DIC)⁻¹ at constant alkalinity, mol/kg.
    beta_dic_mol_per_kg: f64,
    /// (∂ln Ω/∂DIC)⁻¹ at constant alkalinity, mol/kg.
    omega_dic_mol_per_kg: f64,
    /// (∂ln[CO2]/∂Alk)⁻¹ at constant DIC, mol/kg.
    gamma_alkalinity_mol_per_kg: f64,
    /// (∂ln[H⁺]/∂Alk)⁻¹ at constant DIC, mol/kg.
    beta_alkalinity_mol_per_kg: f64,
    /// (∂ln Ω/∂Alk)⁻¹ at constant DIC, mol/kg.
    omega_alkalinity_mol_per_kg: f64,
}

/// The stoichiometric equilibrium constants of one water.
///
/// Each on the pH scale that its name says.
#[pyclass(module = "halimeda", frozen, get_all, eq)]
#[derive(PartialEq)]
pub(crate) struct EquilibriumConstants {
    /// CO2 solubility, mol kg⁻¹ atm⁻¹.
    k0_mol_per_kg_atm: f64,
    /// First dissociation constant of carbonic acid, mol/kg, total scale.
    k1_total: f64,
    /// Second dissociation constant of carbonic acid, mol/kg, total scale.
    k2_total: f64,
    /// Dissociation constant of boric acid, mol/kg, total scale.
    kb_total: f64,
    /// Ion product of water, mol²/kg², total scale.
    kw_total: f64,
    /// Dissociation constant of bisulfate, mol/kg, free scale.
    ks_free: f64,
    /// Dissociation constant of hydrogen fluoride, mol/kg, free scale.
    kf_free: f64,
    /// Solubility product of aragonite, mol²/kg².
    ksp_aragonite: f64,
    /// Solubility product of calcite, mol²/kg².
    ksp_calcite: f64,
    /// Ratio of fugacity to partial pressure of CO2.
    co2_fugacity_coefficient: f64,
    /// Total boron, mol/kg.
    boron_mol_per_kg: f64,
    /// Total sulfate, mol/kg.
    sulfate_mol_per_kg: f64,
    /// Total fluoride, mol/kg.
    fluoride_mol_per_kg: f64,
    /// Calcium, mol/kg.
    calcium_mol_per_kg: f64,
}

macro_rules! record_of {
    ($record:ident from $parts:expr; $($field:ident),* $(,)?) => {{
        let parts = $parts;
        $record { $($field: parts.$field),* }
    }};
}

impl From<&Equilibria> for EquilibriumConstants {
    fn from(equilibria: &Equilibria) -> Self {
        macro_rules! read {
            ($($field:ident),* $(,)?) => { Self { $($field: equilibria.$field()),* } };
        }
        read!(
            k0_mol_per_kg_atm,
            k1_total,
            k2_total,
            kb_total,
            kw_total,
            ks_free,
            kf_free,
            ksp_aragonite,
            ksp_calcite,
            co2_fugacity_coefficient,
            boron_mol_per_kg,
            sulfate_mol_per_kg,
            fluoride_mol_per_kg,
            calcium_mol_per_kg,
        )
    }
}

#[pymethods]
impl CarbonateState {
    /// The pH on the total scale.
    #[getter]
    fn ph_total(&self) -> f64 {
        self.inner.ph_total().value()
    }

    /// The pH on the free scale.
    #[getter]
    fn ph_free(&self) -> f64 {
        self.inner.ph_free().value()
    }

    /// The pH on the seawater scale.
    #[getter]
    fn ph_seawater(&self) -> f64 {
        self.inner.ph_seawater().value()
    }

    /// The pH on the NBS scale, what a probe calibrated in NBS buffers would show.
    ///
    /// Known to 0.05 at best.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     The water is outside the range of Takahashi et al. (1982).
    #[getter]
    fn ph_nbs(&self, py: Python<'_>) -> PyResult<f64> {
        self.inner.ph_nbs().map(|ph| ph.value()).or_raise(py)
    }

    /// Total alkalinity, µmol/kg.
    #[getter]
    fn alkalinity_umol_per_kg(&self) -> f64 {
        self.inner.alkalinity().umol_per_kg()
    }

    /// Total alkalinity, German degrees of carbonate hardness.
    #[getter]
    fn alkalinity_dkh(&self, py: Python<'_>) -> PyResult<f64> {
        let density = self.inner.equilibria().water().density().or_raise(py)?;
        Ok(self.inner.alkalinity().dkh(density))
    }

    /// Dissolved inorganic carbon, µmol/kg.
    #[getter]
    fn inorganic_carbon_umol_per_kg(&self) -> f64 {
        self.inner.inorganic_carbon().umol_per_kg()
    }

    /// Dissolved CO2, µmol/kg.
    #[getter]
    fn carbon_dioxide_umol_per_kg(&self) -> f64 {
        self.inner.carbon_dioxide().umol_per_kg()
    }

    /// Bicarbonate, µmol/kg.
    #[getter]
    fn bicarbonate_umol_per_kg(&self) -> f64 {
        self.inner.bicarbonate().umol_per_kg()
    }

    /// Carbonate, µmol/kg.
    #[getter]
    fn carbonate_umol_per_kg(&self) -> f64 {
        self.inner.carbonate().umol_per_kg()
    }

    /// Fugacity of CO2, µatm.
    #[getter]
    fn fugacity_co2_uatm(&self) -> f64 {
        self.inner.fugacity_co2().uatm()
    }

    /// Partial pressure of CO2, µatm.
    #[getter]
    fn partial_pressure_co2_uatm(&self) -> f64 {
        self.inner.partial_pressure_co2().uatm()
    }

    /// Mole fraction of CO2 in dry air at equilibrium with the water, ppm.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     The water is outside the range of the vapour pressure relation.
    #[getter]
    fn dry_mole_fraction_co2_ppm(&self, py: Python<'_>) -> PyResult<f64> {
        let fraction = self.inner.dry_mole_fraction_co2().or_raise(py)?;
        Ok(fraction.value().ppm())
    }

    /// Saturation state of aragonite, dimensionless.
    #[getter]
    fn aragonite_saturation(&self) -> f64 {
        self.inner.aragonite_saturation().value()
    }

    /// Saturation state of calcite, dimensionless.
    #[getter]
    fn calcite_saturation(&self) -> f64 {
        self.inner.calcite_saturation().value()
    }

    /// Hydrogen ion on the total scale, mol/kg.
    #[getter]
    fn hydrogen_total_mol_per_kg(&self) -> f64 {
        self.inner.hydrogen_total_mol_per_kg()
    }

    /// Hydrogen ion on the free scale, mol/kg.
    #[getter]
    fn hydrogen_free_mol_per_kg(&self) -> f64 {
        self.inner.hydrogen_free_mol_per_kg()
    }

    /// Hydroxide, mol/kg.
    #[getter]
    fn hydroxide_mol_per_kg(&self) -> f64 {
        self.inner.hydroxide_mol_per_kg()
    }

    /// Un-ionised ammonia of the total ammonia in the water, µmol/kg.
    #[getter]
    fn unionised_ammonia_umol_per_kg(&self) -> f64 {
        self.inner.unionised_ammonia().umol_per_kg()
    }

    /// What makes up the total alkalinity.
    #[getter]
    fn alkalinity_parts(&self) -> AlkalinityParts {
        record_of!(AlkalinityParts from self.inner.alkalinity_parts();
            bicarbonate_umol_per_kg, carbonate_umol_per_kg, borate_umol_per_kg,
            hydroxide_umol_per_kg, phosphate_umol_per_kg, silicate_umol_per_kg,
            ammonia_umol_per_kg, sulfide_umol_per_kg, free_hydrogen_umol_per_kg,
            bisulfate_umol_per_kg, hydrogen_fluoride_umol_per_kg)
    }

    /// Revelle factor and buffer factors.
    #[getter]
    fn buffer_factors(&self) -> BufferFactors {
        record_of!(BufferFactors from self.inner.buffer_factors();
            revelle, gamma_dic_mol_per_kg, beta_dic_mol_per_kg, omega_dic_mol_per_kg,
            gamma_alkalinity_mol_per_kg, beta_alkalinity_mol_per_kg, omega_alkalinity_mol_per_kg)
    }

    /// The constants it was solved with.
    #[getter]
    fn constants(&self) -> EquilibriumConstants {
        self.inner.equilibria().into()
    }

    /// The water.
    #[getter]
    fn water(&self) -> Water {
        Water::of(*self.inner.equilibria().water())
    }

    /// The two quantities it was solved from, by their keywords.
    #[getter]
    fn knowns(&self) -> BTreeMap<&'static str, f64> {
        let knowns = self.inner.knowns();
        knowns
            .map(|known| (keyword(known.kind()), known.value()))
            .into()
    }

    /// Relations that were used outside the range they were published for.
    #[getter]
    fn extrapolations(&self) -> Vec<&'static str> {
        self.inner
            .extrapolations()
            .iter()
            .map(Relation::name)
            .collect()
    }

    /// How the row of an array would be flagged: ``"ok"`` or ``"extrapolated"``.
    #[getter]
    fn status(&self) -> &'static str {
        match self.inner.extrapolations().is_empty() {
            true => batch::RowStatus::Ok.name(),
            false => batch::RowStatus::Extrapolated.name(),
        }
    }

    /// Give the pH on a scale by its name.
    ///
    /// Parameters
    /// ----------
    /// scale : str
    ///     ``"total"``, ``"free"``, ``"seawater"`` or ``"nbs"``.
    ///
    /// Returns
    /// -------
    /// float
    ///     The pH on that scale.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     There is no such scale, or the water is outside the range of NBS's.
    #[pyo3(signature = (scale, /))]
    fn ph_on(&self, py: Python<'_>, scale: &str) -> PyResult<f64> {
        let scale = match scale {
            "total" => PhScale::Total,
            "free" => PhScale::Free,
            "seawater" => PhScale::Seawater,
            "nbs" | "NBS" => PhScale::Nbs,
            _ => {
                let message = format!(
                    "scale is \"{scale}\"; it must be one of \"total\", \"free\", \"seawater\", \"nbs\""
                );
                let blame = Blame {
                    input: Some("scale"),
                    kind: "unknown_choice",
                    ..Blame::default()
                };
                return Err(value_error(py, &message, &blame));
            }
        };
        self.inner.ph_on(scale).map(|ph| ph.value()).or_raise(py)
    }

    /// Give the state this water tends to under air of a given CO2.
    ///
    /// The alkalinity is kept: it is what the water would settle at if nothing in it
    /// made or took up CO2.
    ///
    /// CO2 of a room harms people too: above some 5000 ppm (a common limit for
    /// eight hours at work) leave and air the room.
    ///
    /// Parameters
    /// ----------
    /// co2_ppm : float
    ///     Mole fraction of CO2 in dry air, ppm (outdoors about 425).
    ///
    /// Returns
    /// -------
    /// CarbonateState
    ///     The state at equilibrium.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     The mole fraction is outside its limits, or the water outside the range of
    ///     the vapour pressure.
    #[pyo3(signature = (*, co2_ppm))]
    fn under_air(&self, py: Python<'_>, co2_ppm: f64) -> PyResult<Self> {
        let co2 = DryMoleFractionCo2::from_ppm(co2_ppm).or_raise(py)?;
        let inner = self
            .inner
            .equilibria()
            .under_air(self.inner.alkalinity(), co2)
            .or_raise(py)?;
        Ok(Self {
            inner,
            under_air_ppm: Some(co2_ppm),
        })
    }

    /// Give the exact derivatives of the results to everything the state depends on.
    ///
    /// Returns
    /// -------
    /// Sensitivities
    ///     Derivatives by result and by what it depends on.
    fn sensitivities(&self, py: Python<'_>) -> PyResult<Sensitivities> {
        Sensitivities::of(py, &self.inner)
    }

    /// Propagate standard uncertainties of inputs and constants to the results.
    ///
    /// Parameters
    /// ----------
    /// standard : mapping of str to float, optional
    ///     Standard uncertainties of inputs by their keywords in the unit of the
    ///     keyword (``{"alkalinity_umol_per_kg": 50.0, "ph_nbs": 0.02}``; also
    ///     ``temperature_celsius``, ``practical_salinity``, ions and bases) and of
    ///     constants (``pk0``, ``pk1`` ... ``ph_nbs_activity``, in pK).
    /// constants : bool
    ///     Start from the uncertainties of constants and of total boron of Orr et
    ///     al. (2018), and 0.05 for the NBS scale, instead of from zero.
    /// correlations : list of (str, str, float), optional
    ///     Correlation coefficients of two of the names, -1 to 1.
    ///
    /// Returns
    /// -------
    /// Uncertainties
    ///     Standard uncertainties and covariances of the results.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     A name is unknown, an uncertainty negative, or no joint distribution has
    ///     these correlations.
    ///
    /// Source
    /// ------
    /// GUM, JCGM 100:2008, eqs. 10 and 13; Orr et al. (2018)
    /// doi:10.1016/j.marchem.2018.10.006, table 1.
    #[pyo3(signature = (standard = None, *, constants = true, correlations = None))]
    fn uncertainties(
        &self,
        py: Python<'_>,
        standard: Option<&Bound<'_, PyAny>>,
        constants: bool,
        correlations: Option<Vec<(String, String, f64)>>,
    ) -> PyResult<Uncertainties> {
        Uncertainties::of(
            py,
            &self.inner,
            standard,
            constants,
            &correlations.unwrap_or_default(),
        )
    }

    /// Give the results as a dictionary.
    ///
    /// None where the water is outside the range of the relation of just that result.
    #[pyo3(signature = () -> "dict[str, float | None]")]
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let record = PyDict::new(py);
        for output in batch::Output::ALL {
            record.set_item(output.name(), output.of(&self.inner).ok())?;
        }
        Ok(record)
    }

    fn __repr__(slf: &Bound<'_, Self>) -> PyResult<String> {
        display(slf.py(), "state_repr", slf.as_any())?.extract()
    }

    fn _repr_html_(slf: &Bound<'_, Self>) -> PyResult<String> {
        display(slf.py(), "state_html", slf.as_any())?.extract()
    }

    fn __eq__(&self, other: &Bound<'_, PyAny>) -> bool {
        other
            .cast::<Self>()
            .is_ok_and(|other| other.get().inner == self.inner)
    }

    fn __hash__(&self) -> u64 {
        self.inner.hydrogen_total_mol_per_kg().to_bits()
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyAny>, Stored<'py>)> {
        let restore = py.import("halimeda._native")?.getattr("_restore_state")?;
        let equilibria = self.inner.equilibria();
        let minor = equilibria.bases();
        let minor = [
            minor.phosphate.umol_per_kg(),
            minor.silicate.umol_per_kg(),
            minor.ammonia.umol_per_kg(),
            minor.sulfide.umol_per_kg(),
        ];
        let [first, second] = self.inner.knowns();
        // Of two states of a pair it is this one's pH that tells them apart.
        let solved = equilibria.solve(first, second);
        let ph_total = solved.is_err().then(|| self.ph_total());
        Ok((
            restore,
            (
                Water::of(*equilibria.water()).into_pyobject(py)?,
                self.inner
                    .knowns()
                    .map(|known| (keyword(known.kind()).to_owned(), known.value()))
                    .to_vec(),
                minor,
                option_names(equilibria.options()).map(str::to_owned),
                self.under_air_ppm,
                ph_total,
            ),
        ))
    }
}

type Stored<'py> = (
    Bound<'py, Water>,
    Vec<(String, f64)>,
    [f64; 4],
    [String; 4],
    Option<f64>,
    Option<f64>,
);

/// A state from what its `__reduce__` stored.
#[pyfunction]
#[pyo3(signature = (water, knowns, minor, chosen, under_air_ppm, ph_total))]
pub(crate) fn _restore_state(
    py: Python<'_>,
    water: &Bound<'_, Water>,
    knowns: Vec<(String, f64)>,
    minor: [f64; 4],
    chosen: [String; 4],
    under_air_ppm: Option<f64>,
    ph_total: Option<f64>,
) -> PyResult<CarbonateState> {
    let water = water.get().row(0).or_raise(py)?;
    let [acid, bisulfate, fluoride, boron] = chosen.each_ref().map(String::as_str);
    let equilibria = water
        .equilibria(&options(py, acid, bisulfate, fluoride, boron)?)
        .and_then(|equilibria| equilibria.with_bases(bases(minor)?))
        .or_raise(py)?;
    let unreadable = || {
        let blame = Blame {
            input: Some("knowns"),
            kind: "unreadable",
            ..Blame::default()
        };
        value_error(py, "the stored state cannot be read", &blame)
    };
    let mut pair = [None; 2];
    for (place, (name, value)) in pair.iter_mut().zip(knowns) {
        let kind = carbonate::KnownKind::ALL
            .into_iter()
            .find(|&kind| keyword(kind) == name);
        *place = Some(Known::new(kind.ok_or_else(unreadable)?, value).or_raise(py)?);
    }
    let [Some(first), Some(second)] = pair else {
        return Err(unreadable());
    };
    if let (Some(ppm), Known::Alkalinity(alkalinity)) = (under_air_ppm, first) {
        let co2 = DryMoleFractionCo2::from_ppm(ppm).or_raise(py)?;
        let inner = equilibria.under_air(alkalinity, co2).or_raise(py)?;
        return Ok(CarbonateState {
            inner,
            under_air_ppm,
        });
    }
    let Some(ph_total) = ph_total else {
        return equilibria
            .solve(first, second)
            .map(CarbonateState::of)
            .or_raise(py);
    };
    let states = CarbonateState::all(py, &equilibria, [first, second])?;
    let distance = |state: &CarbonateState| (state.ph_total() - ph_total).abs();
    let nearest = states
        .into_iter()
        .min_by(|a, b| distance(a).total_cmp(&distance(b)));
    nearest.ok_or_else(unreadable)
}
