//! `Water`: the surroundings of everything else.

use halimeda::water::{SpecificGravityReference, Wavelength};
use halimeda_tank::units::Medium;
use numpy::PyArray1;
use pyo3::prelude::*;
use pyo3::sync::PyOnceLock;
use pyo3::types::{PyDict, PyFloat, PyTuple};

use crate::argument::{Object, gather, spelled};
use crate::carbonate::{all_of_water, of_water};
use crate::column::{Column, Label, Layout};
use crate::error::{Blame, OrRaise, value_error};
use crate::knowns::options;
use crate::rows::{OnRefused, map};
use crate::waters::{Waters, Ways, medium_of, policy};

/// One body of seawater, or an array of them.
///
/// The salinity is given in one way: ``practical_salinity``, a specific gravity
/// with its reference temperatures, what a glass hydrometer shows floating in
/// the water, a conductivity at the water's temperature, a density, a refractive
/// index relative to air (sodium D, at the water's temperature), or the practical
/// salinity on the scale of a seawater refractometer zeroed in pure water.
///
/// Parameters
/// ----------
/// temperature_celsius, temperature : number or array, quantity
///     Temperature (ITS-90), °C, -5 to 60; each relation has its own, narrower
///     range. With its unit: ``temperature="78 °F"``.
/// practical_salinity : number or array
///     Practical salinity (PSS-78), 0 to 50.
/// specific_gravity : quantity
///     Specific gravity with its reference: ``"1.0264 25/25 °C"``.
/// hydrometer : quantity
///     What a glass hydrometer shows, floating in the water, with its reference:
///     ``"1.0258 25/25 °C"``.
/// conductivity_ms_per_cm, conductivity : number or array, quantity
///     Conductivity at the water's temperature and pressure, mS/cm.
/// density_kg_per_m3, density : number or array, quantity
///     Density at the water's temperature and one atmosphere, kg/m³.
/// refractive_index : number or array
///     Relative to air, sodium D line, at the water's temperature.
/// refractometer : number or array
///     Practical salinity on a seawater scale that was set to zero in pure water
///     and compensates for temperature.
/// water_pressure_dbar, water_pressure : number or array, quantity
///     Pressure of the water column above, dbar; zero unless given.
/// air_pressure_atm, air_pressure : number or array, quantity
///     Pressure of the air at the tank, atm; one unless given.
/// altitude_m, altitude : number or array, quantity
///     Altitude instead of the air pressure, m.
/// calcium_umol_per_kg, calcium : number or array, quantity
///     Measured calcium, µmol/kg; of the reference composition unless given.
/// magnesium_umol_per_kg, magnesium : number or array, quantity
///     Measured magnesium, µmol/kg; of the reference composition unless given.
/// potassium_umol_per_kg, potassium : number or array, quantity
///     Measured potassium, µmol/kg; of the reference composition unless given.
/// strontium_umol_per_kg, strontium : number or array, quantity
///     Measured strontium, µmol/kg; of the reference composition unless given.
/// sulfate_umol_per_kg, sulfate : number or array, quantity
///     Measured total sulfate, µmol/kg; of the reference composition unless given.
/// fluoride_umol_per_kg, fluoride : number or array, quantity
///     Measured total fluoride, µmol/kg; of the reference composition unless given.
/// boron_umol_per_kg, boron : number or array, quantity
///     Measured total boron, µmol/kg; from the salinity by `total_boron` unless given.
/// extrapolate : bool
///     Evaluate relations outside the range they were published for, and say
///     which, instead of refusing.
///
/// Raises
/// ------
/// HalimedaValueError
///     An input is outside its limits or a relation's published range.
/// HalimedaTypeError
///     A unit is missing or wrong, or an input is given twice or not at all.
///
/// Source
/// ------
/// Salinity: PSS-78 (UNESCO 1981); density: Millero & Poisson (1981)
/// doi:10.1016/0198-0149(81)90122-9; refractive index: Millard & Seaver (1990)
/// doi:10.1016/0198-0149(90)90086-B; composition: Millero et al. (2008)
/// doi:10.1016/j.dsr.2007.10.001.
///
/// Examples
/// --------
/// >>> import halimeda as hm
/// >>> water = hm.Water(temperature="78 °F", specific_gravity="1.0264 25/25 °C")
/// >>> round(water.practical_salinity, 2)
/// 35.04
#[pyclass(module = "halimeda", frozen)]
pub(crate) struct Water {
    body: Body,
}

enum Body {
    One(halimeda::Water),
    Many(Many),
}

struct Many {
    waters: Waters<'static>,
    shape: Vec<usize>,
    wrapper: Option<Py<PyAny>>,
}

impl Water {
    pub(crate) const fn of(water: halimeda::Water) -> Self {
        Self {
            body: Body::One(water),
        }
    }

    /// The one water, where it is one.
    pub(crate) const fn one(&self) -> Option<&halimeda::Water> {
        match &self.body {
            Body::One(water) => Some(water),
            Body::Many(_) => None,
        }
    }

    /// The columns of many.
    pub(crate) fn waters(&self) -> Waters<'_> {
        match &self.body {
            Body::Many(many) => many.waters.clone(),
            Body::One(water) => waters_of(water),
        }
    }

    pub(crate) fn row(&self, row: usize) -> halimeda::Result<halimeda::Water> {
        match &self.body {
            Body::One(water) => Ok(*water),
            Body::Many(many) => many.waters.row(row),
        }
    }

    pub(crate) fn medium(&self, row: usize) -> Medium {
        self.row(row)
            .and_then(|water| medium_of(&water))
            .unwrap_or_default()
    }

    pub(crate) fn layout<'py>(&self, py: Python<'py>) -> Layout<'py> {
        match &self.body {
            Body::One(_) => Layout {
                shape: None,
                wrapper: None,
            },
            Body::Many(many) => Layout {
                shape: Some(many.shape.clone()),
                wrapper: many
                    .wrapper
                    .as_ref()
                    .map(|wrapper| wrapper.bind(py).clone()),
            },
        }
    }

    /// Refuses arguments that would need more rows than there are waters.
    pub(crate) fn fits(&self, py: Python<'_>, layout: &Layout<'_>) -> PyResult<()> {
        let Body::Many(many) = &self.body else {
            return Ok(());
        };
        if layout.shape.as_ref() == Some(&many.shape) {
            return Ok(());
        }
        let message = format!(
            "the arguments have the shape {:?}, the water has {:?}; make the water of that shape",
            layout.shape.as_deref().unwrap_or(&[]),
            many.shape,
        );
        let blame = Blame {
            input: Some("water"),
            kind: "shape",
            ..Blame::default()
        };
        Err(value_error(py, &message, &blame))
    }

    fn each<'py>(
        &self,
        py: Python<'py>,
        name: &'static str,
        unit: &'static str,
        of: impl Fn(&halimeda::Water) -> halimeda::Result<f64> + Sync,
    ) -> PyResult<Bound<'py, PyAny>> {
        let layout = self.layout(py);
        map(py, &layout, Label { name, unit }, OnRefused::Flag, |row| {
            of(&self.row(row)?)
        })
    }
}

fn waters_of(water: &halimeda::Water) -> Waters<'static> {
    let measured = water.composition();
    Waters {
        temperature: Column::Shared(water.temperature().celsius()),
        salinity: Column::Shared(water.salinity().value()),
        water_pressure: Some(Column::Shared(water.water_pressure().dbar())),
        air_pressure: Some(Column::Shared(water.air_pressure().atm())),
        ions: [
            measured.measured_calcium().map(|c| c.umol_per_kg()),
            measured.measured_magnesium().map(|c| c.umol_per_kg()),
            measured.measured_potassium().map(|c| c.umol_per_kg()),
            measured.measured_strontium().map(|c| c.umol_per_kg()),
            measured.measured_sulfate().map(|c| c.umol_per_kg()),
            measured.measured_fluoride().map(|c| c.umol_per_kg()),
            measured.measured_boron().map(|c| c.umol_per_kg()),
        ]
        .map(|content| content.map(Column::Shared)),
        extrapolation: water.extrapolation(),
        refused: std::collections::BTreeMap::new(),
    }
}

#[pymethods]
impl Water {
    #[new]
    #[pyo3(signature = (
        *,
        temperature_celsius = None, temperature = None, practical_salinity = None,
        specific_gravity = None, hydrometer = None,
        conductivity_ms_per_cm = None, conductivity = None,
        density_kg_per_m3 = None, density = None, refractive_index = None, refractometer = None,
        water_pressure_dbar = None, water_pressure = None,
        air_pressure_atm = None, air_pressure = None, altitude_m = None, altitude = None,
        calcium_umol_per_kg = None, calcium = None, magnesium_umol_per_kg = None, magnesium = None,
        potassium_umol_per_kg = None, potassium = None, strontium_umol_per_kg = None,
        strontium = None, sulfate_umol_per_kg = None, sulfate = None,
        fluoride_umol_per_kg = None, fluoride = None, boron_umol_per_kg = None, boron = None,
        extrapolate = false,
    ))]
    #[allow(clippy::too_many_arguments)]
    fn new<'py>(
        py: Python<'py>,
        temperature_celsius: Object<'_, 'py>,
        temperature: Object<'_, 'py>,
        practical_salinity: Object<'_, 'py>,
        specific_gravity: Object<'_, 'py>,
        hydrometer: Object<'_, 'py>,
        conductivity_ms_per_cm: Object<'_, 'py>,
        conductivity: Object<'_, 'py>,
        density_kg_per_m3: Object<'_, 'py>,
        density: Object<'_, 'py>,
        refractive_index: Object<'_, 'py>,
        refractometer: Object<'_, 'py>,
        water_pressure_dbar: Object<'_, 'py>,
        water_pressure: Object<'_, 'py>,
        air_pressure_atm: Object<'_, 'py>,
        air_pressure: Object<'_, 'py>,
        altitude_m: Object<'_, 'py>,
        altitude: Object<'_, 'py>,
        calcium_umol_per_kg: Object<'_, 'py>,
        calcium: Object<'_, 'py>,
        magnesium_umol_per_kg: Object<'_, 'py>,
        magnesium: Object<'_, 'py>,
        potassium_umol_per_kg: Object<'_, 'py>,
        potassium: Object<'_, 'py>,
        strontium_umol_per_kg: Object<'_, 'py>,
        strontium: Object<'_, 'py>,
        sulfate_umol_per_kg: Object<'_, 'py>,
        sulfate: Object<'_, 'py>,
        fluoride_umol_per_kg: Object<'_, 'py>,
        fluoride: Object<'_, 'py>,
        boron_umol_per_kg: Object<'_, 'py>,
        boron: Object<'_, 'py>,
        extrapolate: bool,
    ) -> PyResult<Self> {
        let spelled = spelled![
            temperature_celsius / temperature: TEMPERATURE,
            practical_salinity: PRACTICAL_SALINITY,
            / specific_gravity: SPECIFIC_GRAVITY,
            / hydrometer: SPECIFIC_GRAVITY,
            conductivity_ms_per_cm / conductivity: CONDUCTIVITY,
            density_kg_per_m3 / density: DENSITY,
            refractive_index: SATURATION,
            refractometer: PRACTICAL_SALINITY,
            water_pressure_dbar / water_pressure: WATER_PRESSURE,
            air_pressure_atm / air_pressure: PRESSURE,
            altitude_m / altitude: ALTITUDE,
            calcium_umol_per_kg / calcium: CALCIUM,
            magnesium_umol_per_kg / magnesium: MAGNESIUM,
            potassium_umol_per_kg / potassium: POTASSIUM,
            strontium_umol_per_kg / strontium: STRONTIUM,
            sulfate_umol_per_kg / sulfate: SULFATE,
            fluoride_umol_per_kg / fluoride: FLUORIDE,
            boron_umol_per_kg / boron: BORON,
        ];
        let gathered = gather(py, &spelled, None)?;
        let ways = Ways::of(py, &gathered, &spelled, extrapolate)?;
        let Some(shape) = gathered.layout.shape.clone() else {
            return ways.one(py, &gathered).map(Self::of);
        };
        Ok(Self {
            body: Body::Many(Many {
                waters: ways.many(&gathered).into_owned(),
                shape,
                wrapper: gathered.layout.wrapper.map(Bound::unbind),
            }),
        })
    }

    /// Temperature (ITS-90), °C.
    #[getter]
    fn temperature_celsius<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        self.each(py, "temperature_celsius", "°C", |water| {
            Ok(water.temperature().celsius())
        })
    }

    /// Practical salinity (PSS-78).
    #[getter]
    fn practical_salinity<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        self.each(py, "practical_salinity", "", |water| {
            Ok(water.salinity().value())
        })
    }

    /// Pressure of the water column above, dbar.
    #[getter]
    fn water_pressure_dbar<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        self.each(py, "water_pressure_dbar", "dbar", |water| {
            Ok(water.water_pressure().dbar())
        })
    }

    /// Pressure of the air above, atm.
    #[getter]
    fn air_pressure_atm<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        self.each(py, "air_pressure_atm", "atm", |water| {
            Ok(water.air_pressure().atm())
        })
    }

    /// Density at one atmosphere, kg/m³.
    ///
    /// Source: EOS-80, Millero & Poisson (1981) doi:10.1016/0198-0149(81)90122-9.
    #[getter]
    fn density_kg_per_m3<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        self.each(py, "density_kg_per_m3", "kg/m³", |water| {
            Ok(water.density()?.kg_per_m3())
        })
    }

    /// Density of pure water at the same temperature, kg/m³.
    #[getter]
    fn pure_water_density_kg_per_m3<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        self.each(py, "pure_water_density_kg_per_m3", "kg/m³", |water| {
            Ok(water.pure_water_density()?.kg_per_m3())
        })
    }

    /// Vapour pressure over the water, atm.
    ///
    /// Source: Weiss & Price (1980) doi:10.1016/0304-4203(80)90024-9.
    #[getter]
    fn vapour_pressure_atm<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        self.each(
            py,
            "vapour_pressure_atm",
            "atm",
            halimeda::Water::vapour_pressure_atm,
        )
    }

    /// Ionic strength, mol per kg of water.
    ///
    /// Source: Dickson, Sabine & Christian (2007), ch. 5.
    #[getter]
    fn ionic_strength_mol_per_kg_h2o<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        self.each(py, "ionic_strength_mol_per_kg_h2o", "mol/kg", |water| {
            Ok(water.ionic_strength_mol_per_kg_h2o())
        })
    }

    /// Chlorinity, g/kg.
    #[getter]
    fn chlorinity_g_per_kg<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        self.each(py, "chlorinity_g_per_kg", "g/kg", |water| {
            Ok(water.chlorinity_g_per_kg())
        })
    }

    /// Conductivity at the water's temperature and pressure, mS/cm.
    #[getter]
    fn conductivity_ms_per_cm<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        self.each(py, "conductivity_ms_per_cm", "mS/cm", |water| {
            Ok(water.conductivity()?.ms_per_cm())
        })
    }

    /// Refractive index relative to air, sodium D line, at the water's temperature.
    #[getter]
    fn refractive_index<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        self.each(py, "refractive_index", "", |water| {
            Ok(water.refractive_index(Wavelength::SODIUM_D)?.value())
        })
    }

    /// Specific gravity at 25 °C relative to pure water at 25 °C.
    #[getter]
    fn specific_gravity_25_25<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        self.each(py, "specific_gravity_25_25", "", |water| {
            let reference = SpecificGravityReference::AT_25_25;
            Ok(water.specific_gravity(reference)?.value())
        })
    }

    /// Calcium, measured or of the reference composition, µmol/kg.
    #[getter]
    fn calcium_umol_per_kg<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        self.each(py, "calcium_umol_per_kg", "µmol/kg", |water| {
            Ok(water.composition().calcium(water.salinity()).umol_per_kg())
        })
    }

    /// Magnesium, measured or of the reference composition, µmol/kg.
    #[getter]
    fn magnesium_umol_per_kg<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        self.each(py, "magnesium_umol_per_kg", "µmol/kg", |water| {
            Ok(water
                .composition()
                .magnesium(water.salinity())
                .umol_per_kg())
        })
    }

    /// Potassium, measured or of the reference composition, µmol/kg.
    #[getter]
    fn potassium_umol_per_kg<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        self.each(py, "potassium_umol_per_kg", "µmol/kg", |water| {
            Ok(water
                .composition()
                .potassium(water.salinity())
                .umol_per_kg())
        })
    }

    /// Strontium, measured or of the reference composition, µmol/kg.
    #[getter]
    fn strontium_umol_per_kg<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        self.each(py, "strontium_umol_per_kg", "µmol/kg", |water| {
            Ok(water
                .composition()
                .strontium(water.salinity())
                .umol_per_kg())
        })
    }

    /// Total sulfate, measured or of the reference composition, µmol/kg.
    #[getter]
    fn sulfate_umol_per_kg<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        self.each(py, "sulfate_umol_per_kg", "µmol/kg", |water| {
            Ok(water.composition().sulfate(water.salinity()).umol_per_kg())
        })
    }

    /// Total fluoride, measured or of the reference composition, µmol/kg.
    #[getter]
    fn fluoride_umol_per_kg<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        self.each(py, "fluoride_umol_per_kg", "µmol/kg", |water| {
            Ok(water.composition().fluoride(water.salinity()).umol_per_kg())
        })
    }

    /// Measured total boron, µmol/kg.
    ///
    /// None where it was not measured; `carbonate` takes it from the salinity then.
    #[getter]
    fn boron_umol_per_kg<'py>(&self, py: Python<'py>) -> PyResult<Option<Bound<'py, PyAny>>> {
        if self.waters().ions[6].is_none() {
            return Ok(None);
        }
        let measured = |water: &halimeda::Water| {
            let boron = water.composition().measured_boron();
            Ok(boron.map_or(f64::NAN, |boron| boron.umol_per_kg()))
        };
        self.each(py, "boron_umol_per_kg", "µmol/kg", measured)
            .map(Some)
    }

    /// Whether relations may be used outside their published range.
    #[getter]
    fn extrapolate(&self) -> bool {
        self.waters().extrapolation == policy(true)
    }

    /// Relations of the register whose published range the water lies outside of.
    #[getter]
    fn extrapolations(&self) -> Vec<&'static str> {
        let mut outside = halimeda::RelationSet::EMPTY;
        let rows = match &self.body {
            Body::One(_) => 1,
            Body::Many(many) => many.shape.iter().product(),
        };
        for water in (0..rows).filter_map(|row| self.row(row).ok()) {
            outside = outside.union(water.extrapolations());
        }
        outside.iter().map(halimeda::Relation::name).collect()
    }

    /// Shape of the arrays it was made of; empty for one water.
    #[getter]
    fn _shape(&self) -> Vec<usize> {
        match &self.body {
            Body::One(_) => Vec::new(),
            Body::Many(many) => many.shape.clone(),
        }
    }

    /// Solve the carbonate system of this water from two known quantities.
    ///
    /// Parameters
    /// ----------
    /// alkalinity_umol_per_kg, alkalinity : number or array, quantity
    ///     Total alkalinity, µmol/kg. With its unit: ``alkalinity="8.2 dKH"``.
    /// inorganic_carbon_umol_per_kg, inorganic_carbon : number or array, quantity
    ///     Dissolved inorganic carbon, µmol/kg.
    /// ph_total, ph_free, ph_seawater, ph_nbs : number or array
    ///     One pH, 0 to 14, on the scale of the name. A probe that was calibrated in
    ///     the buffers 4, 7 and 10 shows `ph_nbs`.
    /// ph : quantity
    ///     One pH with its scale: ``"8.1 total"``, ``"8.2 NBS"``.
    /// partial_pressure_co2_uatm, partial_pressure_co2 : number or array, quantity
    ///     Partial pressure of CO2, µatm.
    /// fugacity_co2_uatm, fugacity_co2 : number or array, quantity
    ///     Fugacity of CO2, µatm.
    /// carbon_dioxide_umol_per_kg, carbon_dioxide : number or array, quantity
    ///     Dissolved CO2, µmol/kg.
    /// bicarbonate_umol_per_kg, bicarbonate : number or array, quantity
    ///     Bicarbonate, µmol/kg.
    /// carbonate_umol_per_kg, carbonate : number or array, quantity
    ///     Carbonate, µmol/kg.
    /// aragonite_saturation, calcite_saturation : number or array
    ///     Saturation state, with the calcium of the water.
    /// phosphate_umol_per_kg, phosphate : number or array, quantity
    ///     Total phosphate, µmol/kg; zero unless given.
    /// silicate_umol_per_kg, silicate : number or array, quantity
    ///     Total silicate, µmol/kg; zero unless given.
    /// ammonia_umol_per_kg, ammonia : number or array, quantity
    ///     Total ammonia, µmol/kg; zero unless given.
    /// sulfide_umol_per_kg, sulfide : number or array, quantity
    ///     Total sulfide, µmol/kg; zero unless given.
    /// carbonic_acid : str
    ///     Published K1 and K2: ``"lueker2000"``, ``"dickson_millero1987"``,
    ///     ``"millero2010"``, ``"waters2014"`` or ``"sulpis2020"``.
    /// bisulfate : str
    ///     Published KS: ``"dickson1990"`` or ``"khoo1977"``.
    /// hydrogen_fluoride : str
    ///     Published KF: ``"perez_fraga1987"`` or ``"dickson_riley1979"``.
    /// total_boron : str
    ///     Ratio of total boron to salinity where boron was not measured:
    ///     ``"lee2010"`` or ``"uppstrom1974"``.
    /// outputs : str or sequence of str, optional
    ///     Results to compute of arrays, by attribute name; ``"buffer_factors"`` and
    ///     ``"alkalinity_parts"`` stand for all of theirs. The usual ones unless given.
    /// threads : int
    ///     Cores to use for arrays; 0 stands for all.
    /// errors : str
    ///     Refused rows of arrays: ``"flag"`` for NaN and a status, ``"raise"`` for the
    ///     exception of the first.
    ///
    /// Returns
    /// -------
    /// CarbonateState or CarbonateStates
    ///     One state for scalars, an array of them for arrays.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     An input is outside its limits or a relation's published range; no state or
    ///     two states satisfy the pair (see `Water.carbonate_all`).
    /// HalimedaTypeError
    ///     Not two known quantities, a unit missing or wrong, a keyword given twice.
    ///
    /// Source
    /// ------
    /// Dickson, Sabine & Christian (2007) PICES Special Publication 3; solver:
    /// Munhoven (2013) doi:10.5194/gmd-6-1367-2013, (2021) doi:10.5194/gmd-14-4225-2021.
    ///
    /// Examples
    /// --------
    /// >>> import halimeda as hm
    /// >>> water = hm.Water(temperature_celsius=25.5, practical_salinity=35.0)
    /// >>> state = water.carbonate(alkalinity="8.2 dKH", ph_total=8.1)
    /// >>> round(state.inorganic_carbon_umol_per_kg)
    /// 2459
    #[pyo3(signature = (
        *, alkalinity_umol_per_kg = None, alkalinity = None, inorganic_carbon_umol_per_kg = None, inorganic_carbon = None, ph_total = None, ph_free = None, ph_seawater = None, ph_nbs = None, ph = None, partial_pressure_co2_uatm = None, partial_pressure_co2 = None, fugacity_co2_uatm = None, fugacity_co2 = None, carbon_dioxide_umol_per_kg = None, carbon_dioxide = None, bicarbonate_umol_per_kg = None, bicarbonate = None, carbonate_umol_per_kg = None, carbonate = None, aragonite_saturation = None, calcite_saturation = None, phosphate_umol_per_kg = None, phosphate = None, silicate_umol_per_kg = None, silicate = None, ammonia_umol_per_kg = None, ammonia = None, sulfide_umol_per_kg = None, sulfide = None,
        carbonic_acid = "lueker2000", bisulfate = "dickson1990",
        hydrogen_fluoride = "perez_fraga1987", total_boron = "lee2010",
        outputs = None, threads = 1, errors = "flag",
    ))]
    #[allow(clippy::too_many_arguments)]
    fn carbonate<'py>(
        slf: &Bound<'py, Self>,
        alkalinity_umol_per_kg: Object<'_, 'py>,
        alkalinity: Object<'_, 'py>,
        inorganic_carbon_umol_per_kg: Object<'_, 'py>,
        inorganic_carbon: Object<'_, 'py>,
        ph_total: Object<'_, 'py>,
        ph_free: Object<'_, 'py>,
        ph_seawater: Object<'_, 'py>,
        ph_nbs: Object<'_, 'py>,
        ph: Object<'_, 'py>,
        partial_pressure_co2_uatm: Object<'_, 'py>,
        partial_pressure_co2: Object<'_, 'py>,
        fugacity_co2_uatm: Object<'_, 'py>,
        fugacity_co2: Object<'_, 'py>,
        carbon_dioxide_umol_per_kg: Object<'_, 'py>,
        carbon_dioxide: Object<'_, 'py>,
        bicarbonate_umol_per_kg: Object<'_, 'py>,
        bicarbonate: Object<'_, 'py>,
        carbonate_umol_per_kg: Object<'_, 'py>,
        carbonate: Object<'_, 'py>,
        aragonite_saturation: Object<'_, 'py>,
        calcite_saturation: Object<'_, 'py>,
        phosphate_umol_per_kg: Object<'_, 'py>,
        phosphate: Object<'_, 'py>,
        silicate_umol_per_kg: Object<'_, 'py>,
        silicate: Object<'_, 'py>,
        ammonia_umol_per_kg: Object<'_, 'py>,
        ammonia: Object<'_, 'py>,
        sulfide_umol_per_kg: Object<'_, 'py>,
        sulfide: Object<'_, 'py>,
        carbonic_acid: &str,
        bisulfate: &str,
        hydrogen_fluoride: &str,
        total_boron: &str,
        outputs: Object<'_, 'py>,
        threads: usize,
        errors: &str,
    ) -> PyResult<Bound<'py, PyAny>> {
        let spelled = spelled![
            alkalinity_umol_per_kg / alkalinity: ALKALINITY,
            inorganic_carbon_umol_per_kg / inorganic_carbon: INORGANIC_CARBON,
            ph_total: PH,
            ph_free: PH,
            ph_seawater: PH,
            ph_nbs: PH,
            / ph: PH,
            partial_pressure_co2_uatm / partial_pressure_co2: CO2_PRESSURE,
            fugacity_co2_uatm / fugacity_co2: CO2_PRESSURE,
            carbon_dioxide_umol_per_kg / carbon_dioxide: CARBON_DIOXIDE_CONTENT,
            bicarbonate_umol_per_kg / bicarbonate: BICARBONATE,
            carbonate_umol_per_kg / carbonate: CARBONATE,
            aragonite_saturation: SATURATION,
            calcite_saturation: SATURATION,
            phosphate_umol_per_kg / phosphate: PHOSPHATE,
            silicate_umol_per_kg / silicate: SILICATE,
            ammonia_umol_per_kg / ammonia: AMMONIA,
            sulfide_umol_per_kg / sulfide: SULFIDE,
        ];
        let options = options(
            slf.py(),
            carbonic_acid,
            bisulfate,
            hydrogen_fluoride,
            total_boron,
        )?;
        of_water(
            slf,
            &spelled,
            options,
            outputs,
            threads,
            OnRefused::named(slf.py(), errors)?,
        )
    }

    /// Solve for every state of this one water that two known quantities allow.
    ///
    /// One, or two in the order of their pH (alkalinity with carbonate, inorganic carbon
    /// with bicarbonate or carbonate).
    ///
    /// Parameters
    /// ----------
    /// alkalinity_umol_per_kg, alkalinity : number or array, quantity
    ///     Total alkalinity, µmol/kg. With its unit: ``alkalinity="8.2 dKH"``.
    /// inorganic_carbon_umol_per_kg, inorganic_carbon : number or array, quantity
    ///     Dissolved inorganic carbon, µmol/kg.
    /// ph_total, ph_free, ph_seawater, ph_nbs : number or array
    ///     One pH, 0 to 14, on the scale of the name. A probe that was calibrated in
    ///     the buffers 4, 7 and 10 shows `ph_nbs`.
    /// ph : quantity
    ///     One pH with its scale: ``"8.1 total"``, ``"8.2 NBS"``.
    /// partial_pressure_co2_uatm, partial_pressure_co2 : number or array, quantity
    ///     Partial pressure of CO2, µatm.
    /// fugacity_co2_uatm, fugacity_co2 : number or array, quantity
    ///     Fugacity of CO2, µatm.
    /// carbon_dioxide_umol_per_kg, carbon_dioxide : number or array, quantity
    ///     Dissolved CO2, µmol/kg.
    /// bicarbonate_umol_per_kg, bicarbonate : number or array, quantity
    ///     Bicarbonate, µmol/kg.
    /// carbonate_umol_per_kg, carbonate : number or array, quantity
    ///     Carbonate, µmol/kg.
    /// aragonite_saturation, calcite_saturation : number or array
    ///     Saturation state, with the calcium of the water.
    /// phosphate_umol_per_kg, phosphate : number or array, quantity
    ///     Total phosphate, µmol/kg; zero unless given.
    /// silicate_umol_per_kg, silicate : number or array, quantity
    ///     Total silicate, µmol/kg; zero unless given.
    /// ammonia_umol_per_kg, ammonia : number or array, quantity
    ///     Total ammonia, µmol/kg; zero unless given.
    /// sulfide_umol_per_kg, sulfide : number or array, quantity
    ///     Total sulfide, µmol/kg; zero unless given.
    /// carbonic_acid : str
    ///     Published K1 and K2: ``"lueker2000"``, ``"dickson_millero1987"``,
    ///     ``"millero2010"``, ``"waters2014"`` or ``"sulpis2020"``.
    /// bisulfate : str
    ///     Published KS: ``"dickson1990"`` or ``"khoo1977"``.
    /// hydrogen_fluoride : str
    ///     Published KF: ``"perez_fraga1987"`` or ``"dickson_riley1979"``.
    /// total_boron : str
    ///     Ratio of total boron to salinity where boron was not measured:
    ///     ``"lee2010"`` or ``"uppstrom1974"``.
    ///
    /// Returns
    /// -------
    /// tuple of CarbonateState
    ///     The states.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     An input is outside its limits or a relation's published range, or no state
    ///     satisfies the pair.
    /// HalimedaTypeError
    ///     Not two known quantities, a unit missing or wrong, a keyword given twice.
    #[pyo3(signature = (
        *, alkalinity_umol_per_kg = None, alkalinity = None, inorganic_carbon_umol_per_kg = None, inorganic_carbon = None, ph_total = None, ph_free = None, ph_seawater = None, ph_nbs = None, ph = None, partial_pressure_co2_uatm = None, partial_pressure_co2 = None, fugacity_co2_uatm = None, fugacity_co2 = None, carbon_dioxide_umol_per_kg = None, carbon_dioxide = None, bicarbonate_umol_per_kg = None, bicarbonate = None, carbonate_umol_per_kg = None, carbonate = None, aragonite_saturation = None, calcite_saturation = None, phosphate_umol_per_kg = None, phosphate = None, silicate_umol_per_kg = None, silicate = None, ammonia_umol_per_kg = None, ammonia = None, sulfide_umol_per_kg = None, sulfide = None,
        carbonic_acid = "lueker2000", bisulfate = "dickson1990",
        hydrogen_fluoride = "perez_fraga1987", total_boron = "lee2010",
    ) -> "tuple[CarbonateState, ...]")]
    #[allow(clippy::too_many_arguments)]
    fn carbonate_all<'py>(
        slf: &Bound<'py, Self>,
        alkalinity_umol_per_kg: Object<'_, 'py>,
        alkalinity: Object<'_, 'py>,
        inorganic_carbon_umol_per_kg: Object<'_, 'py>,
        inorganic_carbon: Object<'_, 'py>,
        ph_total: Object<'_, 'py>,
        ph_free: Object<'_, 'py>,
        ph_seawater: Object<'_, 'py>,
        ph_nbs: Object<'_, 'py>,
        ph: Object<'_, 'py>,
        partial_pressure_co2_uatm: Object<'_, 'py>,
        partial_pressure_co2: Object<'_, 'py>,
        fugacity_co2_uatm: Object<'_, 'py>,
        fugacity_co2: Object<'_, 'py>,
        carbon_dioxide_umol_per_kg: Object<'_, 'py>,
        carbon_dioxide: Object<'_, 'py>,
        bicarbonate_umol_per_kg: Object<'_, 'py>,
        bicarbonate: Object<'_, 'py>,
        carbonate_umol_per_kg: Object<'_, 'py>,
        carbonate: Object<'_, 'py>,
        aragonite_saturation: Object<'_, 'py>,
        calcite_saturation: Object<'_, 'py>,
        phosphate_umol_per_kg: Object<'_, 'py>,
        phosphate: Object<'_, 'py>,
        silicate_umol_per_kg: Object<'_, 'py>,
        silicate: Object<'_, 'py>,
        ammonia_umol_per_kg: Object<'_, 'py>,
        ammonia: Object<'_, 'py>,
        sulfide_umol_per_kg: Object<'_, 'py>,
        sulfide: Object<'_, 'py>,
        carbonic_acid: &str,
        bisulfate: &str,
        hydrogen_fluoride: &str,
        total_boron: &str,
    ) -> PyResult<Bound<'py, PyTuple>> {
        let spelled = spelled![
            alkalinity_umol_per_kg / alkalinity: ALKALINITY,
            inorganic_carbon_umol_per_kg / inorganic_carbon: INORGANIC_CARBON,
            ph_total: PH,
            ph_free: PH,
            ph_seawater: PH,
            ph_nbs: PH,
            / ph: PH,
            partial_pressure_co2_uatm / partial_pressure_co2: CO2_PRESSURE,
            fugacity_co2_uatm / fugacity_co2: CO2_PRESSURE,
            carbon_dioxide_umol_per_kg / carbon_dioxide: CARBON_DIOXIDE_CONTENT,
            bicarbonate_umol_per_kg / bicarbonate: BICARBONATE,
            carbonate_umol_per_kg / carbonate: CARBONATE,
            aragonite_saturation: SATURATION,
            calcite_saturation: SATURATION,
            phosphate_umol_per_kg / phosphate: PHOSPHATE,
            silicate_umol_per_kg / silicate: SILICATE,
            ammonia_umol_per_kg / ammonia: AMMONIA,
            sulfide_umol_per_kg / sulfide: SULFIDE,
        ];
        let options = options(
            slf.py(),
            carbonic_acid,
            bisulfate,
            hydrogen_fluoride,
            total_boron,
        )?;
        PyTuple::new(slf.py(), all_of_water(slf, &spelled, options)?)
    }

    /// Everything as a dictionary of the attributes.
    #[pyo3(signature = () -> "dict[str, object]")]
    fn to_dict<'py>(slf: &Bound<'py, Self>) -> PyResult<Bound<'py, PyDict>> {
        let record = PyDict::new(slf.py());
        for name in WATER_ATTRIBUTES {
            record.set_item(*name, slf.getattr(*name)?)?;
        }
        Ok(record)
    }

    fn __repr__(slf: &Bound<'_, Self>) -> PyResult<String> {
        display(slf.py(), "water_repr", slf.as_any())?.extract()
    }

    fn _repr_html_(slf: &Bound<'_, Self>) -> PyResult<String> {
        display(slf.py(), "water_html", slf.as_any())?.extract()
    }

    fn __eq__(&self, other: &Bound<'_, PyAny>) -> bool {
        let Ok(other) = other.cast::<Self>() else {
            return false;
        };
        match (&self.body, &other.get().body) {
            (Body::One(one), Body::One(other)) => one == other,
            (Body::Many(one), Body::Many(other)) => {
                one.shape == other.shape
                    && (0..one.shape.iter().product())
                        .all(|row| one.waters.row(row) == other.waters.row(row))
            }
            _ => false,
        }
    }

    fn __hash__(&self) -> u64 {
        match &self.body {
            Body::One(water) => {
                water.temperature().celsius().to_bits()
                    ^ water.salinity().value().to_bits().rotate_left(1)
            }
            Body::Many(many) => many.shape.iter().fold(1, |hash, &n| hash * 31 + n as u64),
        }
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<(Bound<'py, PyAny>, Restored<'py>)> {
        let py = slf.py();
        let restore = py.import("halimeda._native")?.getattr("_restore_water")?;
        let waters = slf.get().waters();
        let [t, s, p, a] = [
            Some(waters.temperature),
            Some(waters.salinity),
            waters.water_pressure,
            waters.air_pressure,
        ];
        let columns = [t, s, p, a].into_iter().chain(waters.ions);
        let columns = columns
            .map(|column| column.map(|column| stored(py, &column)))
            .collect();
        let layout = slf.get().layout(py);
        let extrapolate = waters.extrapolation == policy(true);
        Ok((
            restore,
            (columns, layout.shape, layout.wrapper, extrapolate),
        ))
    }
}

type Restored<'py> = (
    Vec<Option<Bound<'py, PyAny>>>,
    Option<Vec<usize>>,
    Option<Bound<'py, PyAny>>,
    bool,
);

fn stored<'py>(py: Python<'py>, column: &Column<'_>) -> Bound<'py, PyAny> {
    match column {
        Column::Shared(number) => PyFloat::new(py, *number).into_any(),
        Column::Each(numbers) => PyArray1::from_slice(py, numbers).into_any(),
    }
}

/// A water from what its `__reduce__` stored.
#[pyfunction]
pub(crate) fn _restore_water(
    py: Python<'_>,
    columns: Vec<Option<Bound<'_, PyAny>>>,
    shape: Option<Vec<usize>>,
    wrapper: Option<Py<PyAny>>,
    extrapolate: bool,
) -> PyResult<Water> {
    let mut columns = columns.into_iter().map(|column| {
        let Some(column) = column else {
            return Ok(None);
        };
        Ok::<_, PyErr>(Some(match column.extract::<f64>() {
            Ok(number) => Column::Shared(number),
            Err(_) => Column::Each(column.extract::<Vec<f64>>()?.into()),
        }))
    });
    let mut next = || columns.next().transpose().map(Option::flatten);
    let waters = Waters {
        temperature: next()?.unwrap_or(Column::Shared(f64::NAN)),
        salinity: next()?.unwrap_or(Column::Shared(f64::NAN)),
        water_pressure: next()?,
        air_pressure: next()?,
        ions: [
            next()?,
            next()?,
            next()?,
            next()?,
            next()?,
            next()?,
            next()?,
        ],
        extrapolation: policy(extrapolate),
        refused: std::collections::BTreeMap::new(),
    };
    Ok(match shape {
        None => Water::of(waters.row(0).or_raise(py)?),
        Some(shape) => Water {
            body: Body::Many(Many {
                waters,
                shape,
                wrapper,
            }),
        },
    })
}

/// What [`Water::to_dict`] holds.
const WATER_ATTRIBUTES: &[&str] = &[
    "temperature_celsius",
    "practical_salinity",
    "water_pressure_dbar",
    "air_pressure_atm",
    "calcium_umol_per_kg",
    "magnesium_umol_per_kg",
    "potassium_umol_per_kg",
    "strontium_umol_per_kg",
    "sulfate_umol_per_kg",
    "fluoride_umol_per_kg",
    "boron_umol_per_kg",
    "extrapolate",
];

/// A function of `halimeda._display` on an object.
pub(crate) fn display<'py>(
    py: Python<'py>,
    function: &str,
    object: &Bound<'py, PyAny>,
) -> PyResult<Bound<'py, PyAny>> {
    static MODULE: PyOnceLock<Py<PyModule>> = PyOnceLock::new();
    MODULE
        .get_or_try_init(py, || py.import("halimeda._display").map(Bound::unbind))?
        .bind(py)
        .call_method1(function, (object,))
}
