//! Salts, supplements and doses of them.

use halimeda::dosing::{
    self, Addition as InnerAddition, Amount, Dose as InnerDose, Measure, Salt as InnerSalt,
    Supplement as InnerSupplement, Target,
};
use halimeda::{Alkalinity, Content, Temperature};
use pyo3::prelude::*;

use super::mass_of;
use crate::argument::{Object, Spelled, spelled};
use crate::choice::{choice, name_of};
use crate::elementwise::elementwise;
use crate::error::{Blame, OrRaise, type_error};
use crate::record::{one_water, record, scalars, texts};
use crate::water::Water;

record! {
    /// What comes into the water with a dose, or leaves it.
    ///
    /// Whether of a whole system, of a gram or of a day is said where it is handed out.
    ///
    /// Source
    /// ------
    /// Alkalinity by the definition of Dickson (1981) doi:10.1016/0198-0149(81)90121-7.
    "halimeda.dosing" Addition {
        /// Total alkalinity, equivalents.
        alkalinity_eq: f64,
        /// Dissolved inorganic carbon, mol.
        inorganic_carbon_mol: f64,
        /// Sodium, mol.
        sodium_mol: f64,
        /// Potassium, mol.
        potassium_mol: f64,
        /// Calcium, mol.
        calcium_mol: f64,
        /// Magnesium, mol.
        magnesium_mol: f64,
        /// Strontium, mol.
        strontium_mol: f64,
        /// Chloride, mol.
        chloride_mol: f64,
        /// Sulfate, mol.
        sulfate_mol: f64,
        /// Nitrate, mol.
        nitrate_mol: f64,
        /// Phosphate, mol.
        phosphate_mol: f64,
        /// Mass of anhydrous salt, g.
        salt_g: f64,
    }

    /// Charge of the conservative ions, equivalents: what the alkalinity must equal.
    ///
    /// Source
    /// ------
    /// Wolf-Gladrow et al. (2007) doi:10.1016/j.marchem.2007.01.006.
    #[getter]
    fn conservative_charge_eq(&self) -> f64 {
        self.sodium_mol + self.potassium_mol
            + 2.0 * (self.calcium_mol + self.magnesium_mol + self.strontium_mol)
            - self.chloride_mol
            - 2.0 * self.sulfate_mol
            - self.nitrate_mol
            - self.phosphate_mol
    }
}

impl From<InnerAddition> for Addition {
    fn from(a: InnerAddition) -> Self {
        Self {
            alkalinity_eq: a.alkalinity_eq,
            inorganic_carbon_mol: a.inorganic_carbon_mol,
            sodium_mol: a.sodium_mol,
            potassium_mol: a.potassium_mol,
            calcium_mol: a.calcium_mol,
            magnesium_mol: a.magnesium_mol,
            strontium_mol: a.strontium_mol,
            chloride_mol: a.chloride_mol,
            sulfate_mol: a.sulfate_mol,
            nitrate_mol: a.nitrate_mol,
            phosphate_mol: a.phosphate_mol,
            salt_g: a.salt_g,
        }
    }
}

record! {
    /// A salt or base that supplements are made of.
    ///
    /// A hydrate that is not listed is its anhydrous salt at the purity that its formula
    /// gives.
    ///
    /// Parameters
    /// ----------
    /// key : str
    ///     What it is called in calls: ``"sodium_bicarbonate"``; `all` has them.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     There is no such salt.
    ///
    /// Source
    /// ------
    /// Atomic weights of IUPAC 2021 doi:10.1515/pac-2019-0603.
    ///
    /// Examples
    /// --------
    /// >>> import halimeda as hm
    /// >>> salt = hm.dosing.Salt("calcium_chloride_dihydrate")
    /// >>> salt.formula, round(salt.molar_mass_g_per_mol, 2)
    /// ('CaCl2·2H2O', 147.01)
    "halimeda.dosing" Salt {
        /// What it is called in calls.
        key: String,
        /// Name, with the hydrate.
        name: String,
        /// Formula, with the hydrate.
        formula: String,
        /// Grams per mole with the water of the hydrate, g/mol.
        molar_mass_g_per_mol: f64,
        /// What a mole of it brings.
        per_mol: Addition,
        /// What a gram of it brings.
        per_gram: Addition,
    }

    #[new]
    #[pyo3(signature = (key, /))]
    fn new(py: Python<'_>, key: &str) -> PyResult<Self> {
        choice(py, "salt", key).map(Self::of)
    }

    /// Give every salt.
    #[staticmethod]
    fn all() -> Vec<Self> {
        InnerSalt::ALL.into_iter().map(Self::of).collect()
    }
}

impl Salt {
    fn of(salt: InnerSalt) -> Self {
        Self {
            key: name_of(&salt),
            name: salt.name().to_owned(),
            formula: salt.formula().to_owned(),
            molar_mass_g_per_mol: salt.molar_mass_g_per_mol(),
            per_mol: salt.per_mol().into(),
            per_gram: salt.per_gram().into(),
        }
    }
}

record! {
    /// A salt, or several, as a solid or in solution.
    ///
    /// Made by `solid`, `solid_blend`, `solution`, `solution_blend`, `magnesium_blend` or
    /// `limewater`. Read its `cautions`: hydroxides burn and blind. The product's label and
    /// data sheet come first.
    ///
    /// Examples
    /// --------
    /// >>> import halimeda as hm
    /// >>> soda = hm.dosing.Supplement.solution("sodium_bicarbonate", g_per_l=80.0)
    /// >>> round(soda.dose(millilitres=50.0).addition.alkalinity_eq, 4)
    /// 0.0476
    "halimeda.dosing" Supplement {
        /// How it was made: ``"solid"``, ``"solution"``, ``"magnesium_blend"`` or ``"limewater"``.
        kind: String,
        /// Its salts with their grams, or grams per litre of solution.
        salts: Vec<(String, f64)>,
        /// Mass fraction of the salt in a solid, g/g.
        purity: f64,
        /// Temperature that limewater is saturated at, °C.
        limewater_celsius: Option<f64>,
        /// What it is measured by: ``"gram"`` or ``"millilitre"``.
        measure: String,
        /// What one gram or millilitre brings into the water.
        per_unit: Addition,
        /// What can hurt when it is handled.
        cautions: Vec<String>,
    }

    /// Make a supplement of a solid salt.
    ///
    /// Parameters
    /// ----------
    /// salt : str
    ///     Key of the salt.
    /// purity : float
    ///     Mass fraction of the salt, 0.1 to 1: for impurities, or for more water of
    ///     hydration than the formula says.
    ///
    /// Returns
    /// -------
    /// Supplement
    ///     Measured in grams.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     There is no such salt, or the purity is outside its limits.
    #[staticmethod]
    #[pyo3(signature = (salt, /, *, purity = 1.0))]
    fn solid(py: Python<'_>, salt: &str, purity: f64) -> PyResult<Self> {
        Self::made(py, "solid", vec![(salt.to_owned(), 1.0)], purity, None)
    }

    /// Make a dry blend of salts.
    ///
    /// Parameters
    /// ----------
    /// grams : mapping of str to float
    ///     Grams of each salt by its key.
    ///
    /// Returns
    /// -------
    /// Supplement
    ///     Measured in grams.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     No salt, a number outside its limits, or salts that precipitate one another.
    #[staticmethod]
    #[pyo3(signature = (grams: "dict[str, float]", /))]
    fn solid_blend(grams: &Bound<'_, PyAny>) -> PyResult<Self> {
        Self::made(grams.py(), "solid", items(grams)?, 1.0, None)
    }

    /// Make a solution of one salt.
    ///
    /// Parameters
    /// ----------
    /// salt : str
    ///     Key of the salt.
    /// g_per_l : float
    ///     Grams of it, with the water of its hydrate, per litre of solution, g/L.
    ///
    /// Returns
    /// -------
    /// Supplement
    ///     Measured in millilitres.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     The strength is not positive, or more than dissolves at 40 °C.
    #[staticmethod]
    #[pyo3(signature = (salt, /, *, g_per_l))]
    fn solution(py: Python<'_>, salt: &str, g_per_l: f64) -> PyResult<Self> {
        Self::made(py, "solution", vec![(salt.to_owned(), g_per_l)], 1.0, None)
    }

    /// Make a solution of several salts.
    ///
    /// Parameters
    /// ----------
    /// g_per_l : mapping of str to float
    ///     Grams of each salt by its key, per litre of solution, g/L.
    ///
    /// Returns
    /// -------
    /// Supplement
    ///     Measured in millilitres.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     No salt, more than dissolves, or salts that precipitate one another.
    #[staticmethod]
    #[pyo3(signature = (g_per_l: "dict[str, float]", /))]
    fn solution_blend(g_per_l: &Bound<'_, PyAny>) -> PyResult<Self> {
        Self::made(g_per_l.py(), "solution", items(g_per_l)?, 1.0, None)
    }

    /// Make a blend of magnesium as chloride and sulfate in the ratio of seawater.
    ///
    /// Returns
    /// -------
    /// Supplement
    ///     Measured in grams.
    ///
    /// Source
    /// ------
    /// Millero et al. (2008) doi:10.1016/j.dsr.2007.10.001, table 4.
    #[staticmethod]
    fn magnesium_blend(py: Python<'_>) -> PyResult<Self> {
        Self::made(py, "magnesium_blend", Vec::new(), 1.0, None)
    }

    /// Make clear limewater saturated with calcium hydroxide.
    ///
    /// Caustic: read its cautions. Only the clear part, dripped, no faster than water
    /// evaporates.
    ///
    /// Parameters
    /// ----------
    /// temperature_celsius : float
    ///     Temperature that it was made and stands at, 0 to 40 °C.
    ///
    /// Returns
    /// -------
    /// Supplement
    ///     Measured in millilitres.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     The temperature is outside its limits.
    ///
    /// Source
    /// ------
    /// Bates, Bower & Smith (1956) doi:10.6028/jres.056.040.
    #[staticmethod]
    #[pyo3(signature = (*, temperature_celsius))]
    fn limewater(py: Python<'_>, temperature_celsius: f64) -> PyResult<Self> {
        Self::made(py, "limewater", Vec::new(), 1.0, Some(temperature_celsius))
    }

    /// Whether it is calcium hydroxide in water, which goes in with the top-off.
    #[getter]
    fn is_limewater(&self, py: Python<'_>) -> PyResult<bool> {
        Ok(self.inner(py)?.is_limewater())
    }

    /// Measure out an amount.
    ///
    /// Parameters
    /// ----------
    /// grams : float, optional
    ///     Of a solid, g.
    /// millilitres : float, optional
    ///     Of a solution, mL.
    ///
    /// Returns
    /// -------
    /// Dose
    ///     The dose, with what it brings.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     Grams of a solution, millilitres of a solid, or a number outside its limits.
    /// HalimedaTypeError
    ///     Not exactly one amount was given.
    #[pyo3(signature = (*, grams = None, millilitres = None))]
    fn dose(
        &self,
        py: Python<'_>,
        grams: Option<f64>,
        millilitres: Option<f64>,
    ) -> PyResult<Dose> {
        let amount = match (grams, millilitres) {
            (Some(grams), None) => Amount::Grams(grams),
            (None, Some(millilitres)) => Amount::Millilitres(millilitres),
            _ => return Err(one_of(py, "grams", "grams= or millilitres=")),
        };
        Ok(Dose::of(self, &self.inner(py)?.dose(amount).or_raise(py)?))
    }

    /// Find the dose that brings a wanted rise.
    ///
    /// Whether it may be given at once is for `DosedSystem.judge` to say. Exactly one rise
    /// is given.
    ///
    /// Parameters
    /// ----------
    /// water : Water
    ///     The water.
    /// volume_l, volume : float, quantity
    ///     How much of it, L.
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
    /// Dose
    ///     The dose.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     The rise is negative, or the supplement brings nothing of what is wanted.
    /// HalimedaTypeError
    ///     Not exactly one rise was given.
    ///
    /// Examples
    /// --------
    /// >>> import halimeda as hm
    /// >>> water = hm.Water(temperature_celsius=25.0, practical_salinity=35.0)
    /// >>> soda = hm.dosing.Supplement.solid("sodium_bicarbonate")
    /// >>> dose = soda.dose_for(water, volume_l=100.0, alkalinity="1 dKH")
    /// >>> round(dose.grams, 2)
    /// 3.0
    #[pyo3(signature = (water, /, *, volume_l = None, volume = None,
        alkalinity_umol_per_kg = None, alkalinity = None, calcium_umol_per_kg = None,
        calcium = None, magnesium_umol_per_kg = None, magnesium = None,
        nitrate_umol_per_kg = None, nitrate = None, phosphate_umol_per_kg = None,
        phosphate = None))]
    #[allow(clippy::too_many_arguments)]
    fn dose_for<'py>(
        &self,
        py: Python<'py>,
        water: &Bound<'py, Water>,
        volume_l: Object<'_, 'py>,
        volume: Object<'_, 'py>,
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
    ) -> PyResult<Dose> {
        let water = one_water(py, water.get())?;
        let mass = mass_of(py, &water, volume_l, volume)?;
        let target = target(py, &rises![alkalinity_umol_per_kg, alkalinity, calcium_umol_per_kg,
            calcium, magnesium_umol_per_kg, magnesium, nitrate_umol_per_kg, nitrate,
            phosphate_umol_per_kg, phosphate], &water)?;
        let dose = self.inner(py)?.dose_for(target, mass).or_raise(py)?;
        Ok(Dose::of(self, &dose))
    }
}

/// The wanted rises of a call.
macro_rules! rises {
    ($a:ident, $aq:ident, $c:ident, $cq:ident, $m:ident, $mq:ident, $n:ident, $nq:ident,
     $p:ident, $pq:ident) => {
        spelled![
            $a / $aq: ALKALINITY,
            $c / $cq: CALCIUM,
            $m / $mq: MAGNESIUM,
            $n / $nq: NITRATE,
            $p / $pq: PHOSPHATE,
        ]
    };
}
pub(crate) use rises;

/// The one rise that is wanted.
pub(super) fn target<'py>(
    py: Python<'py>,
    spelled: &[Spelled<'_, 'py>; 5],
    water: &halimeda::Water,
) -> PyResult<Target> {
    let rises = scalars(py, spelled, Some(water))?;
    let given = |number: Option<f64>| number.unwrap_or(f64::NAN);
    let found = match rises.map(|rise| rise.is_some()) {
        [true, false, false, false, false] => {
            Alkalinity::from_umol_per_kg(given(rises[0])).map(Target::Alkalinity)
        }
        [false, true, false, false, false] => {
            Content::from_umol_per_kg(given(rises[1])).map(Target::Calcium)
        }
        [false, false, true, false, false] => {
            Content::from_umol_per_kg(given(rises[2])).map(Target::Magnesium)
        }
        [false, false, false, true, false] => {
            Content::from_umol_per_kg(given(rises[3])).map(Target::Nitrate)
        }
        [false, false, false, false, true] => {
            Content::from_umol_per_kg(given(rises[4])).map(Target::Phosphate)
        }
        _ => {
            let choices = "alkalinity=, calcium=, magnesium=, nitrate= or phosphate=";
            return Err(one_of(py, "alkalinity_umol_per_kg", choices));
        }
    };
    found.or_raise(py)
}

/// That not exactly one of several arguments was given.
pub(super) fn one_of(py: Python<'_>, input: &str, choices: &str) -> PyErr {
    let blame = Blame {
        input: Some(input),
        kind: "argument",
        ..Blame::default()
    };
    type_error(py, &format!("give exactly one of {choices}"), &blame)
}

fn items(mapping: &Bound<'_, PyAny>) -> PyResult<Vec<(String, f64)>> {
    mapping
        .call_method0("items")?
        .try_iter()?
        .map(|item| item?.extract())
        .collect()
}

impl Supplement {
    fn made(
        py: Python<'_>,
        kind: &str,
        salts: Vec<(String, f64)>,
        purity: f64,
        limewater_celsius: Option<f64>,
    ) -> PyResult<Self> {
        let mut made = Self {
            kind: kind.to_owned(),
            salts,
            purity,
            limewater_celsius,
            measure: String::new(),
            per_unit: InnerAddition::NONE.into(),
            cautions: Vec::new(),
        };
        let inner = made.inner(py)?;
        made.measure = name_of(&inner.measure());
        made.per_unit = inner.per_unit().into();
        made.cautions = texts(inner.cautions());
        Ok(made)
    }

    pub(super) fn inner(&self, py: Python<'_>) -> PyResult<InnerSupplement> {
        let salts = self
            .salts
            .iter()
            .map(|(key, amount)| Ok((choice(py, "salt", key)?, *amount)))
            .collect::<PyResult<Vec<(InnerSalt, f64)>>>()?;
        let found = match (self.kind.as_str(), salts.as_slice(), self.limewater_celsius) {
            ("limewater", _, Some(celsius)) => {
                Temperature::from_celsius(celsius).and_then(InnerSupplement::limewater)
            }
            ("magnesium_blend", ..) => Ok(InnerSupplement::magnesium_blend()),
            ("solid", &[(salt, _)], _) => InnerSupplement::solid_of_purity(salt, self.purity),
            ("solid", several, _) => InnerSupplement::solid_blend(several),
            (_, several, _) => InnerSupplement::solution_blend(several),
        };
        found.or_raise(py)
    }
}

record! {
    /// An amount of a supplement, and what it brings into the water.
    "halimeda.dosing" Dose {
        /// The supplement.
        supplement: Supplement,
        /// Of a solid, g.
        grams: Option<f64>,
        /// Of a solution, mL.
        millilitres: Option<f64>,
        /// What it brings into the water.
        addition: Addition,
        /// What can hurt when it is handled.
        cautions: Vec<String>,
    }
}

impl Dose {
    pub(super) fn of(supplement: &Supplement, dose: &InnerDose) -> Self {
        let (grams, millilitres) = match dose.amount() {
            Amount::Grams(grams) => (Some(grams), None),
            Amount::Millilitres(millilitres) => (None, Some(millilitres)),
        };
        Self {
            supplement: supplement.clone(),
            grams,
            millilitres,
            addition: dose.addition().into(),
            cautions: texts(dose.cautions()),
        }
    }

    pub(super) fn inner(&self, py: Python<'_>) -> PyResult<InnerDose> {
        let supplement = self.supplement.inner(py)?;
        let value = self.grams.or(self.millilitres).unwrap_or(f64::NAN);
        let amount = match supplement.measure() {
            Measure::Gram => Amount::Grams(value),
            Measure::Millilitre => Amount::Millilitres(value),
        };
        supplement.dose(amount).or_raise(py)
    }
}

elementwise! {
    /// Calcium hydroxide in saturated limewater, known to 6 %.
    ///
    /// Limewater is caustic. Its strength falls as it warms: saturated in a cold store it
    /// turns cloudy in a warm room.
    ///
    /// Parameters
    /// ----------
    /// temperature_celsius, temperature : number or array, quantity
    ///     Temperature of the limewater, 0 to 40 °C.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Calcium hydroxide, mol/L.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     The temperature is outside its limits.
    ///
    /// Source
    /// ------
    /// Bates, Bower & Smith (1956) doi:10.6028/jres.056.040; its change with temperature
    /// from handbook tables.
    ///
    /// Examples
    /// --------
    /// >>> import halimeda as hm
    /// >>> round(hm.dosing.limewater_mol_per_l(temperature_celsius=25.0), 4)
    /// 0.0203
    fn limewater_mol_per_l(temperature_celsius / temperature: TEMPERATURE) -> "mol/L" {
        dosing::limewater_mol_per_l(Temperature::from_celsius(temperature_celsius)?)
    }
}
