//! One water or many, from whatever its salinity was read with.

use std::collections::BTreeMap;

use halimeda::water::{
    Conductivity, Hydrometer, RefractiveIndex, Refractometer, RefractometerScale, SpecificGravity,
    SpecificGravityReference, Wavelength, practical_salinity_from_conductivity,
    practical_salinity_from_density, practical_salinity_from_refractive_index,
};
use halimeda::{
    AirPressure, Composition, Content, Density, Extrapolation, PracticalSalinity, Temperature,
    Water, WaterPressure,
};
use halimeda_tank::units::Medium;
use pyo3::prelude::*;

use crate::argument::{Gathered, Spelled};
use crate::column::Column;
use crate::error::{Blame, OrRaise, type_error};

/// Places of the quantities of a water among the arguments of a call.
pub(crate) mod at {
    pub(crate) const TEMPERATURE: usize = 0;
    pub(crate) const SALINITY: usize = 1;
    pub(crate) const SPECIFIC_GRAVITY: usize = 2;
    pub(crate) const HYDROMETER: usize = 3;
    pub(crate) const CONDUCTIVITY: usize = 4;
    pub(crate) const DENSITY: usize = 5;
    pub(crate) const REFRACTIVE_INDEX: usize = 6;
    pub(crate) const REFRACTOMETER: usize = 7;
    pub(crate) const WATER_PRESSURE: usize = 8;
    pub(crate) const AIR_PRESSURE: usize = 9;
    pub(crate) const ALTITUDE: usize = 10;
    pub(crate) const IONS: usize = 11;
}

/// Major ions that may be measured.
pub(crate) const IONS: usize = 7;
/// Quantities a water is given by.
pub(crate) const ARGUMENTS: usize = at::IONS + IONS;

/// How the salinity is known.
#[derive(Debug, Clone, Copy)]
enum Way {
    Practical,
    SpecificGravity(SpecificGravityReference),
    Hydrometer(SpecificGravityReference),
    Conductivity,
    Density,
    RefractiveIndex,
    Refractometer,
}

/// Which of the exclusive arguments of a water were given.
pub(crate) struct Ways {
    salinity: Way,
    salinity_at: usize,
    extrapolation: Extrapolation,
}

/// The numbers of a row that make a water, those of ions apart.
struct Numbers {
    temperature: f64,
    salinity: f64,
    water_pressure: Option<f64>,
    air_pressure: Option<f64>,
    altitude: Option<f64>,
}

impl Ways {
    /// Reads which of them were given; `gathered` begins with a water's.
    pub(crate) fn of<const N: usize>(
        py: Python<'_>,
        gathered: &Gathered<'_, N>,
        spelled: &[Spelled<'_, '_>; N],
        extrapolate: bool,
    ) -> PyResult<Self> {
        let given = |index: usize| gathered.given[index].is_some();
        if !given(at::TEMPERATURE) {
            return Err(spelled[at::TEMPERATURE].quantity.missing(py));
        }
        let ways: Vec<usize> = (at::SALINITY..=at::REFRACTOMETER)
            .filter(|&way| given(way))
            .collect();
        let &[salinity_at] = ways.as_slice() else {
            let names = |ways: &[usize]| {
                let names: Vec<_> = ways
                    .iter()
                    .map(|&way| spelled[way].quantity.keyword())
                    .collect();
                names.join(", ")
            };
            let all: Vec<usize> = (at::SALINITY..=at::REFRACTOMETER).collect();
            let message = match ways.len() {
                0 => format!("the salinity is missing: give one of {}", names(&all)),
                _ => format!("the salinity is given more than once: {}", names(&ways)),
            };
            let blame = Blame {
                input: Some("practical_salinity"),
                kind: if ways.is_empty() {
                    "missing"
                } else {
                    "argument"
                },
                ..Blame::default()
            };
            return Err(type_error(py, &message, &blame));
        };
        if given(at::AIR_PRESSURE) && given(at::ALTITUDE) {
            let message = "air_pressure_atm and altitude_m: each gives the other; the pressure is that at \
                           the tank, whatever its altitude";
            let blame = Blame {
                input: Some("air_pressure_atm"),
                kind: "argument",
                ..Blame::default()
            };
            return Err(type_error(py, message, &blame));
        }
        let reference = || {
            let name = gathered.given[salinity_at]
                .as_ref()
                .map_or("", |given| given.unit_name());
            match name {
                "20/20 °C" => SpecificGravityReference::AT_20_20,
                "15/15 °C" => SpecificGravityReference::AT_15_15,
                "60/60 °F" => SpecificGravityReference::AT_60F_60F,
                "20/4 °C" => SpecificGravityReference::AT_20_4,
                "15/4 °C" => SpecificGravityReference::AT_15_4,
                _ => SpecificGravityReference::AT_25_25,
            }
        };
        Ok(Self {
            salinity: match salinity_at {
                at::SPECIFIC_GRAVITY => Way::SpecificGravity(reference()),
                at::HYDROMETER => Way::Hydrometer(reference()),
                at::CONDUCTIVITY => Way::Conductivity,
                at::DENSITY => Way::Density,
                at::REFRACTIVE_INDEX => Way::RefractiveIndex,
                at::REFRACTOMETER => Way::Refractometer,
                _ => Way::Practical,
            },
            salinity_at,
            extrapolation: policy(extrapolate),
        })
    }

    fn water(&self, numbers: &Numbers) -> halimeda::Result<Water> {
        let temperature = Temperature::from_celsius(numbers.temperature)?;
        let water_pressure = match numbers.water_pressure {
            Some(dbar) => WaterPressure::from_dbar(dbar)?,
            None => WaterPressure::SURFACE,
        };
        let air_pressure = match (numbers.air_pressure, numbers.altitude) {
            (Some(atm), _) => AirPressure::from_atm(atm)?,
            (None, Some(m)) => AirPressure::at_altitude_m(m)?,
            (None, None) => AirPressure::STANDARD,
        };
        let (shown, allowed) = (numbers.salinity, self.extrapolation);
        let reading = match self.salinity {
            Way::Practical => {
                let salinity = PracticalSalinity::new(shown)?;
                return Ok(self.assembled(temperature, salinity, water_pressure, air_pressure));
            }
            Way::SpecificGravity(reference) => {
                SpecificGravity::new(shown, reference)?.practical_salinity(allowed)
            }
            Way::Hydrometer(reference) => {
                Hydrometer::glass(reference).practical_salinity(shown, temperature, allowed)
            }
            Way::Conductivity => practical_salinity_from_conductivity(
                Conductivity::from_ms_per_cm(shown)?,
                temperature,
                water_pressure,
                allowed,
            ),
            Way::Density => practical_salinity_from_density(
                Density::from_kg_per_m3(shown)?,
                temperature,
                allowed,
            ),
            Way::RefractiveIndex => practical_salinity_from_refractive_index(
                RefractiveIndex::new(shown)?,
                Wavelength::SODIUM_D,
                temperature,
                allowed,
            ),
            Way::Refractometer => {
                Refractometer::new(RefractometerScale::Seawater).practical_salinity(shown, allowed)
            }
        };
        Ok(self.assembled(
            temperature,
            reading?.salinity(),
            water_pressure,
            air_pressure,
        ))
    }

    fn assembled(
        &self,
        temperature: Temperature,
        salinity: PracticalSalinity,
        water_pressure: WaterPressure,
        air_pressure: AirPressure,
    ) -> Water {
        Water::new(temperature, salinity)
            .with_water_pressure(water_pressure)
            .with_air_pressure(air_pressure)
            .with_extrapolation(self.extrapolation)
    }

    /// The water of a call without arrays.
    pub(crate) fn one<'py, const N: usize>(
        &self,
        py: Python<'py>,
        gathered: &Gathered<'py, N>,
    ) -> PyResult<Water> {
        let number = |index| gathered.one(py, index, || Ok(Medium::default()));
        let water = self
            .water(&Numbers {
                temperature: number(at::TEMPERATURE)?.unwrap_or(f64::NAN),
                salinity: number(self.salinity_at)?.unwrap_or(f64::NAN),
                water_pressure: number(at::WATER_PRESSURE)?,
                air_pressure: number(at::AIR_PRESSURE)?,
                altitude: number(at::ALTITUDE)?,
            })
            .or_raise(py)?;
        if (at::IONS..ARGUMENTS).all(|index| gathered.given[index].is_none()) {
            return Ok(water);
        }
        let mut ions = [None; IONS];
        for (ion, index) in ions.iter_mut().zip(at::IONS..) {
            *ion = gathered.one(py, index, || medium_of(&water).or_raise(py))?;
        }
        Ok(water.with_composition(composition(ions).or_raise(py)?))
    }

    /// The waters of a call with arrays.
    pub(crate) fn many<'a, const N: usize>(&self, gathered: &'a Gathered<'_, N>) -> Waters<'a> {
        let plain = |index| gathered.column(index, &|_| Medium::default());
        let (temperature, shown) = (plain(at::TEMPERATURE), plain(self.salinity_at));
        let [water_pressure, air_pressure, altitude] =
            [at::WATER_PRESSURE, at::AIR_PRESSURE, at::ALTITUDE].map(plain);
        let water = |row| {
            let number = |column: &Option<Column<'_>>| column.as_ref().map(|column| column.at(row));
            self.water(&Numbers {
                temperature: number(&temperature).unwrap_or(f64::NAN),
                salinity: number(&shown).unwrap_or(f64::NAN),
                water_pressure: number(&water_pressure),
                air_pressure: number(&air_pressure),
                altitude: number(&altitude),
            })
        };
        let mut refused = BTreeMap::new();
        let mut note = |row, error| {
            refused.entry(row).or_insert(error);
        };
        let rows = gathered.layout.rows();
        let each = |of: &dyn Fn(&Water) -> f64, note: &mut dyn FnMut(usize, halimeda::Error)| {
            let numbers = (0..rows).map(|row| {
                water(row).map_or_else(
                    |error| {
                        note(row, error);
                        f64::NAN
                    },
                    |water| of(&water),
                )
            });
            Column::Each(numbers.collect())
        };
        let salinity = match (self.salinity, &shown) {
            (Way::Practical, _) => shown.clone(),
            _ => Some(each(&|water| water.salinity().value(), &mut note)),
        };
        let air_pressure = match altitude {
            None => air_pressure.clone(),
            Some(Column::Shared(m)) => Some(Column::Shared(
                AirPressure::at_altitude_m(m).map_or(f64::NAN, AirPressure::atm),
            )),
            Some(_) => Some(each(&|water| water.air_pressure().atm(), &mut note)),
        };
        let medium = |row| {
            water(row)
                .and_then(|water| medium_of(&water))
                .unwrap_or_default()
        };
        let ions_need_density = (at::IONS..ARGUMENTS).any(|index| {
            gathered.given[index]
                .as_ref()
                .is_some_and(|given| given.needs_medium())
        });
        if ions_need_density {
            for row in 0..rows {
                if let Err(error) = water(row).and_then(|water| medium_of(&water)) {
                    note(row, error);
                }
            }
        }
        Waters {
            temperature: temperature.clone().unwrap_or(Column::Shared(f64::NAN)),
            salinity: salinity.unwrap_or(Column::Shared(f64::NAN)),
            water_pressure: water_pressure.clone(),
            air_pressure,
            ions: std::array::from_fn(|ion| gathered.column(at::IONS + ion, &medium)),
            extrapolation: self.extrapolation,
            refused,
        }
    }
}

pub(crate) fn policy(extrapolate: bool) -> Extrapolation {
    if extrapolate {
        Extrapolation::Allow
    } else {
        Extrapolation::Refuse
    }
}

/// What units need to know of a water.
pub(crate) fn medium_of(water: &Water) -> halimeda::Result<Medium> {
    Ok(Medium {
        density: Some(water.density()?),
        ..Medium::default()
    })
}

fn composition(ions: [Option<f64>; IONS]) -> halimeda::Result<Composition> {
    let [
        calcium,
        magnesium,
        potassium,
        strontium,
        sulfate,
        fluoride,
        boron,
    ] = ions;
    let mut measured = Composition::REFERENCE;
    macro_rules! measured {
        ($($ion:ident $with:ident),*) => {
            $(if let Some(content) = $ion {
                measured = measured.$with(Content::from_umol_per_kg(content)?);
            })*
        };
    }
    measured!(
        calcium with_calcium, magnesium with_magnesium, potassium with_potassium,
        strontium with_strontium, sulfate with_sulfate, fluoride with_fluoride, boron with_boron
    );
    Ok(measured)
}

/// Waters as columns: rows become a [`Water`] when they are looked at.
#[derive(Debug, Clone)]
pub(crate) struct Waters<'a> {
    pub(crate) temperature: Column<'a>,
    pub(crate) salinity: Column<'a>,
    pub(crate) water_pressure: Option<Column<'a>>,
    pub(crate) air_pressure: Option<Column<'a>>,
    pub(crate) ions: [Option<Column<'a>>; IONS],
    pub(crate) extrapolation: Extrapolation,
    /// Rows whose salinity, pressure or ions could not be worked out.
    pub(crate) refused: BTreeMap<usize, halimeda::Error>,
}

impl Waters<'_> {
    pub(crate) fn row(&self, row: usize) -> halimeda::Result<Water> {
        if let Some(error) = self.refused.get(&row) {
            return Err(*error);
        }
        let mut water = Water::new(
            Temperature::from_celsius(self.temperature.at(row))?,
            PracticalSalinity::new(self.salinity.at(row))?,
        )
        .with_extrapolation(self.extrapolation);
        if let Some(column) = &self.water_pressure {
            water = water.with_water_pressure(WaterPressure::from_dbar(column.at(row))?);
        }
        if let Some(column) = &self.air_pressure {
            water = water.with_air_pressure(AirPressure::from_atm(column.at(row))?);
        }
        let ions = self.ions.each_ref();
        Ok(water.with_composition(composition(
            ions.map(|ion| ion.as_ref().map(|ion| ion.at(row))),
        )?))
    }

    pub(crate) fn into_owned(self) -> Waters<'static> {
        Waters {
            temperature: self.temperature.into_owned(),
            salinity: self.salinity.into_owned(),
            water_pressure: self.water_pressure.map(Column::into_owned),
            air_pressure: self.air_pressure.map(Column::into_owned),
            ions: self.ions.map(|ion| ion.map(Column::into_owned)),
            extrapolation: self.extrapolation,
            refused: self.refused,
        }
    }
}
