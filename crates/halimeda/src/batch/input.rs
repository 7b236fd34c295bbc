use core::ops::Range;

use super::Column;
use crate::Result;
use crate::carbonate::{Bases, CarbonateState, Equilibria, EquilibriumOptions, Known, KnownKind};
use crate::error::ErrorKind;
use crate::quantity::{AirPressure, Content, PracticalSalinity, Temperature, WaterPressure};
use crate::relation::Extrapolation;
use crate::water::{Composition, Water};

/// The columns a batch is solved from; a row of them is one water with two
/// known quantities.
///
/// What each value may be, row by row, is what the typed quantity of the same
/// name accepts: [`Temperature`], [`PracticalSalinity`], [`Content`] and so on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BatchInput<'a> {
    /// Temperature, °C (ITS-90).
    pub temperature_celsius: Column<'a>,
    /// Practical salinity.
    pub practical_salinity: Column<'a>,
    /// Pressure of the water column above, dbar.
    pub water_pressure_dbar: Column<'a>,
    /// Pressure of the air, atm; it enters
    /// [`Output::DryMoleFractionCo2`](super::Output::DryMoleFractionCo2) only.
    pub air_pressure_atm: Column<'a>,
    /// The two known quantities: what each is, and its values in the unit of
    /// [`Known::value`], that is µmol/kg, µatm, pH or dimensionless.
    pub knowns: [(KnownKind, Column<'a>); 2],
    /// Measured ions.
    pub composition: CompositionColumns<'a>,
    /// Minor bases.
    pub bases: BaseColumns<'a>,
    /// The choices among published constants.
    pub options: EquilibriumOptions,
    /// What to do with rows outside the range of a published relation.
    pub extrapolation: Extrapolation,
    /// How many threads work: 1 is the calling one alone, 0 stands for as many
    /// as the machine runs at once.
    pub threads: usize,
}

/// Measured ions, µmol/kg, of those that enter the carbonate system; where
/// there is no column the reference composition holds, as in
/// [`Composition`].
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct CompositionColumns<'a> {
    /// Calcium, µmol/kg.
    pub calcium_umol_per_kg: Option<Column<'a>>,
    /// Total sulfate, µmol/kg.
    pub sulfate_umol_per_kg: Option<Column<'a>>,
    /// Total fluoride, µmol/kg.
    pub fluoride_umol_per_kg: Option<Column<'a>>,
    /// Total boron, µmol/kg.
    pub boron_umol_per_kg: Option<Column<'a>>,
}

/// Minor bases, µmol/kg: zero where there is no column, as in [`Bases`].
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct BaseColumns<'a> {
    /// Total dissolved inorganic phosphate, µmol/kg.
    pub phosphate_umol_per_kg: Option<Column<'a>>,
    /// Total dissolved silicate, µmol/kg.
    pub silicate_umol_per_kg: Option<Column<'a>>,
    /// Total ammonia, NH4⁺ and NH3, µmol/kg.
    pub ammonia_umol_per_kg: Option<Column<'a>>,
    /// Total dissolved sulfide, H2S and HS⁻, µmol/kg.
    pub sulfide_umol_per_kg: Option<Column<'a>>,
}

impl<'a> CompositionColumns<'a> {
    pub(super) const fn columns(&self) -> [Option<Column<'a>>; 4] {
        [
            self.calcium_umol_per_kg,
            self.sulfate_umol_per_kg,
            self.fluoride_umol_per_kg,
            self.boron_umol_per_kg,
        ]
    }
}

impl<'a> BaseColumns<'a> {
    pub(super) const fn columns(&self) -> [Option<Column<'a>>; 4] {
        [
            self.phosphate_umol_per_kg,
            self.silicate_umol_per_kg,
            self.ammonia_umol_per_kg,
            self.sulfide_umol_per_kg,
        ]
    }
}

impl<'a> BatchInput<'a> {
    /// Waters of reference composition without minor bases, at the surface
    /// under one standard atmosphere; default constants, extrapolation refused,
    /// solved on the calling thread. The fields change that.
    pub fn new(
        temperature_celsius: impl Into<Column<'a>>,
        practical_salinity: impl Into<Column<'a>>,
        first: (KnownKind, impl Into<Column<'a>>),
        second: (KnownKind, impl Into<Column<'a>>),
    ) -> Self {
        Self {
            temperature_celsius: temperature_celsius.into(),
            practical_salinity: practical_salinity.into(),
            water_pressure_dbar: Column::Shared(WaterPressure::SURFACE.dbar()),
            air_pressure_atm: Column::Shared(AirPressure::STANDARD.atm()),
            knowns: [(first.0, first.1.into()), (second.0, second.1.into())],
            composition: CompositionColumns::default(),
            bases: BaseColumns::default(),
            options: EquilibriumOptions::default(),
            extrapolation: Extrapolation::Refuse,
            threads: 1,
        }
    }

    /// Some of the rows, for a caller who wants to look up between parts of a
    /// long batch. Rows past the end of a column are left out of it.
    #[must_use]
    pub fn part(&self, rows: Range<usize>) -> Self {
        let part = |column: Column<'a>| column.part(rows.clone());
        let CompositionColumns {
            calcium_umol_per_kg,
            sulfate_umol_per_kg,
            fluoride_umol_per_kg,
            boron_umol_per_kg,
        } = self.composition;
        let BaseColumns {
            phosphate_umol_per_kg,
            silicate_umol_per_kg,
            ammonia_umol_per_kg,
            sulfide_umol_per_kg,
        } = self.bases;
        Self {
            temperature_celsius: part(self.temperature_celsius),
            practical_salinity: part(self.practical_salinity),
            water_pressure_dbar: part(self.water_pressure_dbar),
            air_pressure_atm: part(self.air_pressure_atm),
            knowns: self.knowns.map(|(kind, column)| (kind, part(column))),
            composition: CompositionColumns {
                calcium_umol_per_kg: calcium_umol_per_kg.map(part),
                sulfate_umol_per_kg: sulfate_umol_per_kg.map(part),
                fluoride_umol_per_kg: fluoride_umol_per_kg.map(part),
                boron_umol_per_kg: boron_umol_per_kg.map(part),
            },
            bases: BaseColumns {
                phosphate_umol_per_kg: phosphate_umol_per_kg.map(part),
                silicate_umol_per_kg: silicate_umol_per_kg.map(part),
                ammonia_umol_per_kg: ammonia_umol_per_kg.map(part),
                sulfide_umol_per_kg: sulfide_umol_per_kg.map(part),
            },
            ..*self
        }
    }

    /// One row solved by itself: the whole state, with what it extrapolates, or
    /// the input, its value and its limits that the row was refused for.
    ///
    /// # Errors
    /// Those of the typed quantities, [`Water::equilibria`],
    /// [`Equilibria::with_bases`] and [`Equilibria::solve`]; a row past the end
    /// of a column is not a number.
    pub fn explain(&self, row: usize) -> Result<CarbonateState> {
        self.solve_in(&self.equilibria(row)?, row)
    }

    /// The constants of a row's water, bases included.
    pub(super) fn equilibria(&self, row: usize) -> Result<Equilibria> {
        let composition = self.composition.columns();
        let mut water = Water::new(
            Temperature::from_celsius(self.temperature_celsius.at(row))?,
            PracticalSalinity::new(self.practical_salinity.at(row))?,
        )
        .with_water_pressure(WaterPressure::from_dbar(self.water_pressure_dbar.at(row))?)
        .with_air_pressure(AirPressure::from_atm(self.air_pressure_atm.at(row))?)
        .with_extrapolation(self.extrapolation);
        let mut measured = Composition::REFERENCE;
        let [calcium, sulfate, fluoride, boron] = composition;
        if let Some(column) = calcium {
            measured = measured.with_calcium(Content::from_umol_per_kg(column.at(row))?);
        }
        if let Some(column) = sulfate {
            measured = measured.with_sulfate(Content::from_umol_per_kg(column.at(row))?);
        }
        if let Some(column) = fluoride {
            measured = measured.with_fluoride(Content::from_umol_per_kg(column.at(row))?);
        }
        if let Some(column) = boron {
            measured = measured.with_boron(Content::from_umol_per_kg(column.at(row))?);
        }
        water = water.with_composition(measured);
        let [phosphate, silicate, ammonia, sulfide] = self.bases.columns().map(|column| {
            // Where there is no column there is nothing of it.
            column.map_or(0.0, |column| column.at(row))
        });
        let bases = Bases {
            phosphate: Content::from_umol_per_kg(phosphate)?,
            silicate: Content::from_umol_per_kg(silicate)?,
            ammonia: Content::from_umol_per_kg(ammonia)?,
            sulfide: Content::from_umol_per_kg(sulfide)?,
        };
        water.equilibria(&self.options)?.with_bases(bases)
    }

    /// A row's knowns solved with constants that were computed before.
    pub(super) fn solve_in(&self, equilibria: &Equilibria, row: usize) -> Result<CarbonateState> {
        let [first, second] = self
            .knowns
            .map(|(kind, column)| Known::new(kind, column.at(row)));
        equilibria.solve(first?, second?)
    }

    /// Whether all rows are the same water, so that its constants are too.
    pub(super) fn shares_water(&self) -> bool {
        [
            self.temperature_celsius,
            self.practical_salinity,
            self.water_pressure_dbar,
            self.air_pressure_atm,
        ]
        .iter()
        .chain(self.composition.columns().iter().flatten())
        .chain(self.bases.columns().iter().flatten())
        .all(Column::is_shared)
    }

    /// That the two known quantities are of different classes.
    pub(super) fn determines_a_state(&self) -> Result<()> {
        let [first, second] = self.knowns.map(|(kind, _)| kind);
        if first.class() != second.class() {
            return Ok(());
        }
        Err(ErrorKind::Underdetermined {
            first: first.name(),
            second: second.name(),
            reason: first.class().same(),
        }
        .into())
    }

    /// That every column has a value for each of `rows` rows.
    pub(super) fn covers(&self, rows: usize) -> Result<()> {
        use crate::quantity::{Species, species};
        let contents = [
            species::Calcium::NAME,
            species::Sulfate::NAME,
            species::Fluoride::NAME,
            species::Boron::NAME,
            species::Phosphate::NAME,
            species::Silicate::NAME,
            species::TotalAmmonia::NAME,
            species::Sulfide::NAME,
        ];
        let columns = self.composition.columns();
        let columns = columns.into_iter().chain(self.bases.columns());
        for (name, column) in contents.into_iter().zip(columns) {
            if let Some(column) = column {
                column.covers(name, rows)?;
            }
        }
        self.temperature_celsius.covers("temperature", rows)?;
        self.practical_salinity.covers("practical salinity", rows)?;
        self.water_pressure_dbar.covers("water pressure", rows)?;
        self.air_pressure_atm.covers("air pressure", rows)?;
        for (kind, column) in self.knowns {
            column.covers(kind.name(), rows)?;
        }
        Ok(())
    }
}
