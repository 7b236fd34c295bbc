//! Nutrients: forms and units of kits, ammonia, ratios, alkalinity of processes.

use halimeda::nutrient::{
    self, AmmoniaVerdict, CarbonateComposition, ContentEstimate as InnerEstimate, ElementalRatio,
    KitPrecision, KitReading as InnerReading, NitrogenToPhosphorus as InnerRatio,
    PhotosyntheticQuotient, Process, Stoichiometry as InnerStoichiometry,
};
use halimeda::quantity::{Form, Species};
use halimeda::{Concentration, Content, Ph, TotalScale, form, species};
use pyo3::prelude::*;
use serde::{Deserialize, Serialize};

use crate::argument::{Object, spelled};
use crate::choice::{choice, name_of, unknown};
use crate::elementwise::elementwise;
use crate::error::OrRaise;
use crate::record::{names, needed, one_water, record, scalars};
use crate::water::Water;

macro_rules! weighed_as {
    ($($name:ident),* $(,)?) => {
        /// The way a species is weighed.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
        #[serde(rename_all = "snake_case")]
        pub(crate) enum WeighedAs { $($name),* }

        /// Evaluates an expression with the form as a type.
        macro_rules! with_form {
            ($chosen:expr, $kind:ident => $body:expr) => {
                match $chosen {
                    $(WeighedAs::$name => { type $kind = form::$name; $body })*
                }
            };
        }
    };
}

weighed_as! {
    NitrateAsNo3, NitrateAsN, NitriteAsNo2, NitriteAsN, AmmoniaAsN, AmmoniaAsNh3, AmmoniaAsNh4,
    UnionisedAmmoniaAsNh3, UnionisedAmmoniaAsN, InorganicNitrogenAsN, PhosphateAsPo4,
    PhosphateAsP, SilicateAsSio2, SilicateAsSi, SulfideAsH2s, SulfateAsSo4, CalciumAsCa,
    CalciumAsCaco3, MagnesiumAsMg, PotassiumAsK, StrontiumAsSr, BoronAsB, FluorideAsF,
    CarbonDioxideAsCo2, InorganicCarbonAsC, OxygenAsO2, NitrogenAsN2, ArgonAsAr,
}

elementwise! {
    /// Content from a concentration by mass.
    ///
    /// What is weighed makes the difference: nitrate as NO3 and as N are 4.4 apart,
    /// phosphate as PO4 and as P 3.1, calcium as CaCO3 and as Ca 2.5. So it has to be said.
    ///
    /// Parameters
    /// ----------
    /// water : Water
    ///     The water, for its density.
    /// concentration_mg_per_l, concentration : number or array, quantity
    ///     Concentration, mg/L.
    /// form : str
    ///     What is weighed: ``"nitrate_as_no3"``, ``"nitrate_as_n"``, ``"ammonia_as_n"``,
    ///     ``"phosphate_as_po4"``, ``"calcium_as_ca"``, ``"oxygen_as_o2"`` and so on; a
    ///     refusal names them all.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Content, µmol/kg.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     There is no such form, or a number is outside its limits.
    ///
    /// Source
    /// ------
    /// Atomic weights of IUPAC 2021 doi:10.1515/pac-2019-0603.
    ///
    /// Examples
    /// --------
    /// >>> import halimeda as hm
    /// >>> water = hm.Water(temperature_celsius=25.0, practical_salinity=35.0)
    /// >>> round(hm.nutrient.content_umol_per_kg(
    /// ...     water, concentration_mg_per_l=5.0, form="nitrate_as_no3"), 1)
    /// 78.8
    fn content_umol_per_kg(
        water;
        concentration_mg_per_l / concentration: CONCENTRATION,
    ) with form: &str = "" => WeighedAs -> "µmol/kg" {
        let density = water.density()?;
        with_form!(form, F => {
            let shown = Concentration::<F>::from_mg_per_l(concentration_mg_per_l)?;
            Ok(shown.to_content(density).umol_per_kg())
        })
    }

    /// Concentration by mass from a content.
    ///
    /// Parameters
    /// ----------
    /// water : Water
    ///     The water, for its density.
    /// content_umol_per_kg, content : number or array, quantity
    ///     Content, µmol/kg.
    /// form : str
    ///     What is weighed, as in `content_umol_per_kg`.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Concentration, mg/L.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     There is no such form, or a number is outside its limits.
    ///
    /// Source
    /// ------
    /// Atomic weights of IUPAC 2021 doi:10.1515/pac-2019-0603.
    fn concentration_mg_per_l(
        water;
        content_umol_per_kg / content: CONTENT,
    ) with form: &str = "" => WeighedAs -> "mg/L" {
        let density = water.density()?;
        with_form!(form, F => {
            let content = Content::<<F as Form>::Species>::from_umol_per_kg(content_umol_per_kg)?;
            Ok(content.to_concentration::<F>(density).mg_per_l())
        })
    }

    /// Un-ionised part of total ammonia, the toxic one.
    ///
    /// A reading of a probe in NBS buffers has to be converted first: taken as it is, it
    /// overstates the toxic part by about a third.
    ///
    /// Parameters
    /// ----------
    /// water : Water
    ///     The water.
    /// ph_total : number or array
    ///     The pH on the total scale.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Share of total ammonia, 0 to 1.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     The water or the pH is outside its limits.
    ///
    /// Source
    /// ------
    /// Clegg & Whitfield (1995) doi:10.1016/0016-7037(95)00135-2.
    fn unionised_ammonia_fraction(water; ph_total: PH) -> "" {
        let ph = Ph::<TotalScale>::new(ph_total)?;
        Ok(nutrient::unionised_ammonia(water, ph, Content::ZERO)?.fraction())
    }
}

record! {
    /// A content with its standard uncertainty.
    ///
    /// Parameters
    /// ----------
    /// content_umol_per_kg : float
    ///     Best value, µmol/kg.
    /// standard_uncertainty_umol_per_kg : float
    ///     One standard deviation, µmol/kg.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     A number is outside its limits.
    ///
    /// Source
    /// ------
    /// GUM, JCGM 100:2008.
    "halimeda.nutrient" ContentEstimate {
        /// Best value, µmol/kg.
        content_umol_per_kg: f64,
        /// One standard deviation, µmol/kg.
        standard_uncertainty_umol_per_kg: f64,
    }

    #[new]
    #[pyo3(signature = (content_umol_per_kg, standard_uncertainty_umol_per_kg))]
    fn new(
        py: Python<'_>,
        content_umol_per_kg: f64,
        standard_uncertainty_umol_per_kg: f64,
    ) -> PyResult<Self> {
        let estimate = Self { content_umol_per_kg, standard_uncertainty_umol_per_kg };
        estimate.inner::<species::Nitrate>().or_raise(py)?;
        Ok(estimate)
    }
}

impl ContentEstimate {
    fn inner<S: Species>(&self) -> halimeda::Result<InnerEstimate<S>> {
        Ok(InnerEstimate::new(
            Content::from_umol_per_kg(self.content_umol_per_kg)?,
            Content::from_umol_per_kg(self.standard_uncertainty_umol_per_kg)?,
        ))
    }

    fn of<S: Species>(estimate: &InnerEstimate<S>) -> Self {
        Self {
            content_umol_per_kg: estimate.content().umol_per_kg(),
            standard_uncertainty_umol_per_kg: estimate.standard_uncertainty().umol_per_kg(),
        }
    }
}

record! {
    /// One reading of a kit, with what it leaves open.
    ///
    /// Made by `measured`, `between`, `below` or `above`: "not detected" is not zero and
    /// "off the card" is not the last colour.
    ///
    /// Examples
    /// --------
    /// >>> import halimeda as hm
    /// >>> water = hm.Water(temperature_celsius=25.0, practical_salinity=35.0)
    /// >>> reading = hm.nutrient.KitReading.between(5.0, 10.0, form="nitrate_as_no3")
    /// >>> round(reading.estimate(water).content_umol_per_kg, 1)
    /// 118.2
    "halimeda.nutrient" KitReading {
        /// What is weighed.
        form: String,
        /// How it was read: ``"measured"``, ``"between"``, ``"below"`` or ``"above"``.
        kind: String,
        /// The number shown, mg/L.
        value_mg_per_l: Option<f64>,
        /// Step of the display, mg/L.
        resolution_mg_per_l: Option<f64>,
        /// Uncertainty that does not grow with the reading, mg/L.
        absolute_mg_per_l: Option<f64>,
        /// Uncertainty that does, as a share of it.
        relative: Option<f64>,
        /// Lower end of what it leaves possible, mg/L.
        lower_mg_per_l: Option<f64>,
        /// Upper end of what it leaves possible, mg/L.
        upper_mg_per_l: Option<f64>,
    }

    /// Read a number off a display or a report.
    ///
    /// Parameters
    /// ----------
    /// value_mg_per_l : float
    ///     The number, mg/L.
    /// form : str
    ///     What is weighed.
    /// resolution_mg_per_l : float
    ///     Step of the display, mg/L.
    /// absolute_mg_per_l : float
    ///     Standard uncertainty that does not grow with the reading, mg/L; of a "±"
    ///     without stated confidence the number over √3.
    /// relative : float
    ///     Standard uncertainty that does, as a share: 0.02 is 2 %.
    ///
    /// Returns
    /// -------
    /// KitReading
    ///     The reading.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     There is no such form, or the kit would be exact.
    ///
    /// Source
    /// ------
    /// GUM, JCGM 100:2008, F.2.2.1 and 4.3.7.
    #[staticmethod]
    #[pyo3(signature = (value_mg_per_l, *, form, resolution_mg_per_l = 0.0,
        absolute_mg_per_l = 0.0, relative = 0.0))]
    fn measured(
        py: Python<'_>,
        value_mg_per_l: f64,
        form: &str,
        resolution_mg_per_l: f64,
        absolute_mg_per_l: f64,
        relative: f64,
    ) -> PyResult<Self> {
        Self {
            value_mg_per_l: Some(value_mg_per_l),
            resolution_mg_per_l: Some(resolution_mg_per_l),
            absolute_mg_per_l: Some(absolute_mg_per_l),
            relative: Some(relative),
            ..Self::kind("measured", form)
        }
        .checked(py)
    }

    /// Read a colour between two of the card.
    ///
    /// Parameters
    /// ----------
    /// lower_mg_per_l, upper_mg_per_l : float
    ///     The paler and the stronger colour, mg/L.
    /// form : str
    ///     What is weighed.
    ///
    /// Returns
    /// -------
    /// KitReading
    ///     The reading.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     There is no such form, or the lower is not below the upper.
    #[staticmethod]
    #[pyo3(signature = (lower_mg_per_l, upper_mg_per_l, *, form))]
    fn between(
        py: Python<'_>,
        lower_mg_per_l: f64,
        upper_mg_per_l: f64,
        form: &str,
    ) -> PyResult<Self> {
        Self {
            lower_mg_per_l: Some(lower_mg_per_l),
            upper_mg_per_l: Some(upper_mg_per_l),
            ..Self::kind("between", form)
        }
        .checked(py)
    }

    /// Read "not detected".
    ///
    /// Parameters
    /// ----------
    /// limit_mg_per_l : float
    ///     Detection limit, mg/L.
    /// form : str
    ///     What is weighed.
    ///
    /// Returns
    /// -------
    /// KitReading
    ///     The reading.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     There is no such form, or the limit is zero.
    #[staticmethod]
    #[pyo3(signature = (limit_mg_per_l, *, form))]
    fn below(py: Python<'_>, limit_mg_per_l: f64, form: &str) -> PyResult<Self> {
        Self {
            upper_mg_per_l: Some(limit_mg_per_l),
            ..Self::kind("below", form)
        }
        .checked(py)
    }

    /// Read "off the top of the range".
    ///
    /// Parameters
    /// ----------
    /// limit_mg_per_l : float
    ///     Top of the range, mg/L.
    /// form : str
    ///     What is weighed.
    ///
    /// Returns
    /// -------
    /// KitReading
    ///     The reading.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     There is no such form, or the limit is outside its own.
    #[staticmethod]
    #[pyo3(signature = (limit_mg_per_l, *, form))]
    fn above(py: Python<'_>, limit_mg_per_l: f64, form: &str) -> PyResult<Self> {
        Self {
            lower_mg_per_l: Some(limit_mg_per_l),
            ..Self::kind("above", form)
        }
        .checked(py)
    }

    /// Give the best value and its standard uncertainty.
    ///
    /// Parameters
    /// ----------
    /// water : Water
    ///     The water, for its density.
    ///
    /// Returns
    /// -------
    /// ContentEstimate
    ///     In moles per kilogram; of an interval the middle and its width over √12.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     The reading was off the top of the range: dilute and measure again.
    #[pyo3(signature = (water, /))]
    fn estimate(&self, py: Python<'_>, water: &Bound<'_, Water>) -> PyResult<ContentEstimate> {
        let density = one_water(py, water.get())?.density().or_raise(py)?;
        let chosen: WeighedAs = choice(py, "form", &self.form)?;
        with_form!(chosen, F => {
            let estimate = self.inner::<F>().and_then(|reading| reading.estimate(density));
            estimate.map(|estimate| ContentEstimate::of(&estimate)).or_raise(py)
        })
    }

    /// Give what the reading is compatible with.
    ///
    /// Parameters
    /// ----------
    /// water : Water
    ///     The water, for its density.
    ///
    /// Returns
    /// -------
    /// tuple of (float, float or None)
    ///     Lower and upper end, µmol/kg; None where nothing bounds it. Of a number two
    ///     standard uncertainties to each side.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     The upper end is outside the limits of a concentration.
    #[pyo3(signature = (water, /))]
    fn interval_umol_per_kg(
        &self,
        py: Python<'_>,
        water: &Bound<'_, Water>,
    ) -> PyResult<(f64, Option<f64>)> {
        let density = one_water(py, water.get())?.density().or_raise(py)?;
        let chosen: WeighedAs = choice(py, "form", &self.form)?;
        with_form!(chosen, F => {
            let found = self.inner::<F>().and_then(|reading| reading.interval(density));
            let found = found.or_raise(py)?;
            Ok((found.lower.umol_per_kg(), found.upper.map(|upper| upper.umol_per_kg())))
        })
    }
}

impl KitReading {
    fn kind(kind: &str, form: &str) -> Self {
        Self {
            form: form.to_owned(),
            kind: kind.to_owned(),
            value_mg_per_l: None,
            resolution_mg_per_l: None,
            absolute_mg_per_l: None,
            relative: None,
            lower_mg_per_l: None,
            upper_mg_per_l: None,
        }
    }

    fn checked(self, py: Python<'_>) -> PyResult<Self> {
        let chosen: WeighedAs = choice(py, "form", &self.form)?;
        with_form!(chosen, F => self.inner::<F>().or_raise(py).map(drop))?;
        Ok(self)
    }

    fn inner<F: Form>(&self) -> halimeda::Result<InnerReading<F>> {
        // What a kind does not have is refused as not a number.
        let shown =
            |number: Option<f64>| Concentration::<F>::from_mg_per_l(number.unwrap_or(f64::NAN));
        match self.kind.as_str() {
            "between" => {
                InnerReading::between(shown(self.lower_mg_per_l)?, shown(self.upper_mg_per_l)?)
            }
            "below" => InnerReading::below(shown(self.upper_mg_per_l)?),
            "above" => Ok(InnerReading::above(shown(self.lower_mg_per_l)?)),
            _ => InnerReading::measured(
                shown(self.value_mg_per_l)?,
                &KitPrecision::new(
                    shown(self.resolution_mg_per_l)?,
                    shown(self.absolute_mg_per_l)?,
                    self.relative.unwrap_or(f64::NAN),
                )?,
            ),
        }
    }
}

record! {
    /// Un-ionised ammonia in a water, against the limits. Made by `unionised_ammonia`.
    ///
    /// Source
    /// ------
    /// Clegg & Whitfield (1995) doi:10.1016/0016-7037(95)00135-2. Limits: US EPA (1989)
    /// Ambient Water Quality Criteria for Ammonia (Saltwater), EPA 440/5-88-004.
    "halimeda.nutrient" UnionisedAmmonia {
        /// NH3, µmol/kg.
        content_umol_per_kg: f64,
        /// Its standard uncertainty, µmol/kg.
        standard_uncertainty_umol_per_kg: f64,
        /// NH3, mg/L as NH3.
        nh3_mg_per_l: f64,
        /// Share of total ammonia, 0 to 1.
        fraction: f64,
        /// ``"within_limits"``, ``"above_chronic"`` or ``"above_acute"``.
        verdict: String,
        /// What it means for the animals.
        cautions: Vec<String>,
        /// Relations that were used outside their published range.
        extrapolations: Vec<String>,
    }
}

/// Find the toxic part of total ammonia and hold it against the limits.
///
/// The criteria protect most marine species most of the time; they are no promise for one
/// animal, and nothing here replaces a veterinarian.
///
/// Parameters
/// ----------
/// water : Water
///     The water.
/// ph_total : float
///     The pH on the total scale; of a probe in NBS buffers convert it first.
/// ammonia_umol_per_kg, ammonia : float, quantity
///     Total ammonia, µmol/kg: ``ammonia="0.5 mg/L N"``.
/// ph_standard_uncertainty : float
///     Of the pH.
/// ammonia_standard_uncertainty_umol_per_kg : float
///     Of total ammonia, µmol/kg.
///
/// Returns
/// -------
/// UnionisedAmmonia
///     Content, verdict and caution.
///
/// Raises
/// ------
/// HalimedaValueError
///     The water, the pH or the ammonia is outside its limits.
///
/// Source
/// ------
/// Clegg & Whitfield (1995) doi:10.1016/0016-7037(95)00135-2. Limits: US EPA (1989) EPA
/// 440/5-88-004, read as milligrams of NH3.
///
/// Examples
/// --------
/// >>> import halimeda as hm
/// >>> water = hm.Water(temperature_celsius=25.0, practical_salinity=35.0)
/// >>> hm.nutrient.unionised_ammonia(water, ph_total=8.1, ammonia="0.5 mg/L N").verdict
/// 'above_chronic'
#[pyfunction]
#[pyo3(signature = (water, /, *, ph_total, ammonia_umol_per_kg = None, ammonia = None,
    ph_standard_uncertainty = 0.0, ammonia_standard_uncertainty_umol_per_kg = 0.0))]
pub(crate) fn unionised_ammonia<'py>(
    py: Python<'py>,
    water: &Bound<'py, Water>,
    ph_total: f64,
    ammonia_umol_per_kg: Object<'_, 'py>,
    ammonia: Object<'_, 'py>,
    ph_standard_uncertainty: f64,
    ammonia_standard_uncertainty_umol_per_kg: f64,
) -> PyResult<UnionisedAmmonia> {
    let water = one_water(py, water.get())?;
    let spelled = spelled![ammonia_umol_per_kg / ammonia: AMMONIA];
    let [ammonia] = scalars(py, &spelled, Some(&water))?;
    let ammonia = needed(py, ammonia, &spelled[0])?;
    let told = || -> halimeda::Result<UnionisedAmmonia> {
        let found = nutrient::unionised_ammonia(
            &water,
            Ph::new(ph_total)?,
            Content::from_umol_per_kg(ammonia)?,
        )?;
        let estimate = found.estimate(
            ph_standard_uncertainty,
            Content::from_umol_per_kg(ammonia_standard_uncertainty_umol_per_kg)?,
        )?;
        let by_mass = found.content().to_concentration(water.density()?);
        let verdict = AmmoniaVerdict::of(by_mass);
        Ok(UnionisedAmmonia {
            content_umol_per_kg: found.content().umol_per_kg(),
            standard_uncertainty_umol_per_kg: estimate.standard_uncertainty().umol_per_kg(),
            nh3_mg_per_l: by_mass.mg_per_l(),
            fraction: found.fraction(),
            verdict: name_of(&verdict),
            cautions: vec![verdict.caution().to_owned()],
            extrapolations: names(found.extrapolations()),
        })
    };
    told().or_raise(py)
}

/// Sum nitrate, nitrite and total ammonia.
///
/// A form that was not measured still counts: give it as a reading below what it may
/// plausibly be.
///
/// Parameters
/// ----------
/// nitrate, nitrite, ammonia : ContentEstimate
///     The three, their uncertainties independent.
///
/// Returns
/// -------
/// ContentEstimate
///     Dissolved inorganic nitrogen.
///
/// Raises
/// ------
/// HalimedaValueError
///     The sum is outside the limits of a content.
///
/// Examples
/// --------
/// >>> import halimeda as hm
/// >>> of = hm.nutrient.ContentEstimate
/// >>> nitrogen = hm.nutrient.dissolved_inorganic_nitrogen(
/// ...     nitrate=of(80.0, 8.0), nitrite=of(0.5, 0.3), ammonia=of(1.0, 0.6))
/// >>> round(nitrogen.content_umol_per_kg, 9)
/// 81.5
#[pyfunction]
#[pyo3(signature = (*, nitrate, nitrite, ammonia))]
pub(crate) fn dissolved_inorganic_nitrogen(
    py: Python<'_>,
    nitrate: ContentEstimate,
    nitrite: ContentEstimate,
    ammonia: ContentEstimate,
) -> PyResult<ContentEstimate> {
    let sum = || {
        nutrient::dissolved_inorganic_nitrogen(nitrate.inner()?, nitrite.inner()?, ammonia.inner()?)
    };
    sum().map(|sum| ContentEstimate::of(&sum)).or_raise(py)
}

record! {
    /// Molar ratio of dissolved inorganic nitrogen to phosphate.
    ///
    /// Not the ratio of milligrams on two kits: 5 mg/L NO3 over 0.1 mg/L PO4 is 50 by mass
    /// and 77 by moles.
    ///
    /// Parameters
    /// ----------
    /// nitrogen, phosphate : ContentEstimate
    ///     The two, their uncertainties independent and normal.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     Phosphate is zero: give it as a reading below the detection limit.
    ///
    /// Source
    /// ------
    /// Interval: Fieller (1954) J. R. Stat. Soc. B 16, 175-185.
    ///
    /// Examples
    /// --------
    /// >>> import halimeda as hm
    /// >>> of = hm.nutrient.ContentEstimate
    /// >>> ratio = hm.nutrient.NitrogenToPhosphorus(of(80.0, 8.0), of(1.0, 0.1))
    /// >>> round(ratio.value, 9), ratio.balance("redfield")
    /// (80.0, 'nitrogen_rich')
    "halimeda.nutrient" NitrogenToPhosphorus {
        /// The nitrogen.
        nitrogen: ContentEstimate,
        /// The phosphate.
        phosphate: ContentEstimate,
        /// Moles of nitrogen per mole of phosphorus.
        value: f64,
        /// Its standard uncertainty, to first order.
        standard_uncertainty: f64,
        /// Lower end of its interval of about 95 %.
        lower: f64,
        /// Upper end; None where phosphate cannot be told from zero.
        upper: Option<f64>,
    }

    #[new]
    #[pyo3(signature = (nitrogen, phosphate))]
    fn new(
        py: Python<'_>,
        nitrogen: ContentEstimate,
        phosphate: ContentEstimate,
    ) -> PyResult<Self> {
        let ratio = inner_ratio(&nitrogen, &phosphate).or_raise(py)?;
        let (lower, upper) = ratio.interval();
        Ok(Self {
            nitrogen,
            phosphate,
            value: ratio.value(),
            standard_uncertainty: ratio.standard_uncertainty(),
            lower,
            upper,
        })
    }

    /// Compare the interval with the ratio of organic matter.
    ///
    /// A ratio says which would run out first, not that either is short.
    ///
    /// Parameters
    /// ----------
    /// reference : {"redfield", "benthic_plants"}
    ///     Plankton, 16:1, or macroalgae and seagrasses, 30:1.
    ///
    /// Returns
    /// -------
    /// str
    ///     ``"nitrogen_rich"``, ``"undecided"`` or ``"phosphorus_rich"``.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     There is no such reference.
    ///
    /// Source
    /// ------
    /// Redfield (1958) Am. Sci. 46, 205-221; Atkinson & Smith (1983)
    /// doi:10.4319/lo.1983.28.3.0568.
    #[pyo3(signature = (reference = "redfield", /))]
    fn balance(&self, py: Python<'_>, reference: &str) -> PyResult<String> {
        let reference = match reference {
            "redfield" => ElementalRatio::REDFIELD,
            "benthic_plants" => ElementalRatio::BENTHIC_PLANTS,
            _ => {
                let choices = "\"redfield\" or \"benthic_plants\"";
                return Err(unknown(py, "reference", reference, choices));
            }
        };
        let ratio = inner_ratio(&self.nitrogen, &self.phosphate).or_raise(py)?;
        Ok(name_of(&ratio.balance(reference)))
    }
}

fn inner_ratio(
    nitrogen: &ContentEstimate,
    phosphate: &ContentEstimate,
) -> halimeda::Result<InnerRatio> {
    InnerRatio::new(nitrogen.inner()?, phosphate.inner()?)
}

record! {
    /// What a mole of a process adds to (positive) or takes from (negative) each pool.
    ///
    /// Made by `stoichiometry`. Moles per mole of what the process counts.
    ///
    /// Source
    /// ------
    /// Middelburg, Soetaert & Hagens (2020) doi:10.1029/2019RG000681, table 2; alkalinity:
    /// Wolf-Gladrow et al. (2007) doi:10.1016/j.marchem.2007.01.006.
    "halimeda.nutrient" Stoichiometry {
        /// The process.
        process: String,
        /// Change of total alkalinity, equivalents per mole.
        alkalinity: f64,
        /// Dissolved inorganic carbon.
        inorganic_carbon: f64,
        /// Dissolved oxygen, O2.
        oxygen: f64,
        /// Nitrate.
        nitrate: f64,
        /// Nitrite.
        nitrite: f64,
        /// Total ammonia.
        ammonia: f64,
        /// Phosphate.
        phosphate: f64,
        /// Nitrogen gas, N2.
        nitrogen_gas: f64,
        /// Calcium.
        calcium: f64,
        /// Magnesium.
        magnesium: f64,
        /// Strontium.
        strontium: f64,
        /// Carbon in organic matter.
        organic_carbon: f64,
        /// Nitrogen in organic matter.
        organic_nitrogen: f64,
        /// Phosphorus in organic matter.
        organic_phosphorus: f64,
        /// Solid carbonate.
        solid_carbonate: f64,
    }
}

/// Find what a mole of a process does to the water and its alkalinity.
///
/// Parameters
/// ----------
/// process : str
///     ``"photosynthesis"``, ``"carbon_mineralisation"`` (per mole of carbon),
///     ``"nitrate_uptake"``, ``"nitrite_uptake"``, ``"ammonium_uptake"``,
///     ``"nitrogen_mineralisation"``, ``"ammonium_oxidation"``, ``"nitrite_oxidation"``,
///     ``"nitrification"``, ``"denitrification"`` (of nitrogen), ``"phosphate_uptake"``,
///     ``"phosphorus_mineralisation"`` (of phosphorus), ``"calcification"`` or
///     ``"dissolution"`` (of carbonate).
/// oxygen_per_carbon : float
///     Photosynthetic quotient on ammonium, mol/mol, 0.5 to 2: 1 of carbohydrate, 1.1 of
///     algal biomass.
/// magnesium_fraction, strontium_fraction : float
///     Of the cations of a carbonate, mol/mol.
///
/// Returns
/// -------
/// Stoichiometry
///     Moles per mole, and equivalents of alkalinity.
///
/// Raises
/// ------
/// HalimedaValueError
///     There is no such process, or a number is outside its limits.
///
/// Source
/// ------
/// Middelburg, Soetaert & Hagens (2020) doi:10.1029/2019RG000681, table 2; Laws (1991)
/// doi:10.1016/0198-0149(91)90059-O; alkalinity: Wolf-Gladrow et al. (2007)
/// doi:10.1016/j.marchem.2007.01.006.
///
/// Examples
/// --------
/// >>> import halimeda as hm
/// >>> hm.nutrient.stoichiometry("nitrification").alkalinity
/// -2.0
#[pyfunction]
#[pyo3(signature = (process, /, *, oxygen_per_carbon = 1.1, magnesium_fraction = 0.0,
    strontium_fraction = 0.0))]
pub(crate) fn stoichiometry(
    py: Python<'_>,
    process: &str,
    oxygen_per_carbon: f64,
    magnesium_fraction: f64,
    strontium_fraction: f64,
) -> PyResult<Stoichiometry> {
    let quotient = PhotosyntheticQuotient::new(oxygen_per_carbon).or_raise(py)?;
    let carbonate =
        CarbonateComposition::new(magnesium_fraction, strontium_fraction).or_raise(py)?;
    let known = [
        ("photosynthesis", Process::Photosynthesis(quotient)),
        (
            "carbon_mineralisation",
            Process::CarbonMineralisation(quotient),
        ),
        ("nitrate_uptake", Process::NitrateUptake),
        ("nitrite_uptake", Process::NitriteUptake),
        ("ammonium_uptake", Process::AmmoniumUptake),
        ("phosphate_uptake", Process::PhosphateUptake),
        ("nitrogen_mineralisation", Process::NitrogenMineralisation),
        (
            "phosphorus_mineralisation",
            Process::PhosphorusMineralisation,
        ),
        ("ammonium_oxidation", Process::AmmoniumOxidation),
        ("nitrite_oxidation", Process::NitriteOxidation),
        ("nitrification", Process::Nitrification),
        ("denitrification", Process::Denitrification(quotient)),
        ("calcification", Process::Calcification(carbonate)),
        ("dissolution", Process::Dissolution(carbonate)),
    ];
    let Some((_, found)) = known.iter().find(|(name, _)| *name == process) else {
        let names: Vec<_> = known.iter().map(|(name, _)| *name).collect();
        return Err(unknown(py, "process", process, &names.join(", ")));
    };
    let change: InnerStoichiometry = found.stoichiometry();
    Ok(Stoichiometry {
        process: process.to_owned(),
        alkalinity: change.alkalinity(),
        inorganic_carbon: change.inorganic_carbon,
        oxygen: change.oxygen,
        nitrate: change.nitrate,
        nitrite: change.nitrite,
        ammonia: change.ammonia,
        phosphate: change.phosphate,
        nitrogen_gas: change.nitrogen_gas,
        calcium: change.calcium,
        magnesium: change.magnesium,
        strontium: change.strontium,
        organic_carbon: change.organic_carbon,
        organic_nitrogen: change.organic_nitrogen,
        organic_phosphorus: change.organic_phosphorus,
        solid_carbonate: change.solid_carbonate,
    })
}
