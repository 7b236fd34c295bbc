//! Against independent implementations, at points drawn anew at each run.
//!
//! `cargo xtask test reference` computes the points (PyCO2SYS and gsw, run as
//! black boxes) and runs this. Where this library differs for a reason, the
//! reason and its size stand in `DEVELOPERS.md`.

use std::collections::BTreeSet;
use std::fmt::Debug;
use std::path::PathBuf;

use halimeda::carbonate::{
    Bases, Bisulfate, CarbonateState, CarbonicAcid, EquilibriumOptions, HydrogenFluoride, Known,
    TotalBoron,
};
use halimeda::gas::oxygen_solubility;
use halimeda::water::{Conductivity, practical_salinity_from_conductivity};
use halimeda::{
    Alkalinity, AnyPh, Aragonite, Calcite, Composition, Content, Extrapolation, FugacityCo2,
    PartialPressureCo2, PhScale, PracticalSalinity, Result, SaturationState, Temperature, Water,
    WaterPressure,
};
use halimeda_tests::Comparison;
use serde::Deserialize;
use serde::de::DeserializeOwned;

/// An output: the column of the file without its prefix, and what this library
/// has for it.
type Output<S> = (&'static str, fn(&S) -> Result<f64>);

/// One row of `carbonate.csv`.
#[derive(Debug, Deserialize)]
struct Point {
    carbonic: CarbonicAcid,
    bisulfate: Bisulfate,
    fluoride: HydrogenFluoride,
    boron: Boron,
    temperature_celsius: f64,
    practical_salinity: f64,
    pressure_dbar: f64,
    total_calcium_umol_per_kg: f64,
    total_sulfate_umol_per_kg: f64,
    total_fluoride_umol_per_kg: f64,
    total_phosphate_umol_per_kg: f64,
    total_silicate_umol_per_kg: f64,
    total_ammonia_umol_per_kg: f64,
    total_sulfide_umol_per_kg: f64,
    measured_boron_umol_per_kg: f64,
    first: KnownName,
    first_value: f64,
    second: KnownName,
    second_value: f64,
}

#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
#[serde(rename_all = "snake_case")]
enum Boron {
    Measured,
    Lee2010,
    Uppstrom1974,
}

#[derive(Debug, Clone, Copy, Deserialize)]
#[serde(rename_all = "snake_case")]
enum KnownName {
    Alkalinity,
    Dic,
    PhTotal,
    PhSeawater,
    PhFree,
    PhNbs,
    Pco2,
    Fco2,
    Co2,
    Bicarbonate,
    Carbonate,
    OmegaAragonite,
    OmegaCalcite,
}

impl KnownName {
    fn with(self, value: f64) -> Result<Known> {
        let ph = |scale| AnyPh::new(value, scale).map(Known::from);
        match self {
            Self::Alkalinity => Alkalinity::from_umol_per_kg(value).map(Known::from),
            Self::Dic => Content::from_umol_per_kg(value).map(Known::InorganicCarbon),
            Self::PhTotal => ph(PhScale::Total),
            Self::PhSeawater => ph(PhScale::Seawater),
            Self::PhFree => ph(PhScale::Free),
            Self::PhNbs => ph(PhScale::Nbs),
            Self::Pco2 => PartialPressureCo2::from_uatm(value).map(Known::from),
            Self::Fco2 => FugacityCo2::from_uatm(value).map(Known::from),
            Self::Co2 => Content::from_umol_per_kg(value).map(Known::CarbonDioxide),
            Self::Bicarbonate => Content::from_umol_per_kg(value).map(Known::Bicarbonate),
            Self::Carbonate => Content::from_umol_per_kg(value).map(Known::Carbonate),
            Self::OmegaAragonite => SaturationState::<Aragonite>::new(value).map(Known::from),
            Self::OmegaCalcite => SaturationState::<Calcite>::new(value).map(Known::from),
        }
    }
}

impl Point {
    fn solve(&self) -> Result<CarbonateState> {
        let mut composition = Composition::REFERENCE
            .with_calcium(Content::from_umol_per_kg(self.total_calcium_umol_per_kg)?)
            .with_sulfate(Content::from_umol_per_kg(self.total_sulfate_umol_per_kg)?)
            .with_fluoride(Content::from_umol_per_kg(self.total_fluoride_umol_per_kg)?);
        if self.boron == Boron::Measured {
            composition =
                composition.with_boron(Content::from_umol_per_kg(self.measured_boron_umol_per_kg)?);
        }
        let options = EquilibriumOptions {
            carbonic_acid: self.carbonic,
            bisulfate: self.bisulfate,
            hydrogen_fluoride: self.fluoride,
            total_boron: match self.boron {
                Boron::Measured | Boron::Lee2010 => TotalBoron::Lee2010,
                Boron::Uppstrom1974 => TotalBoron::Uppstrom1974,
            },
        };
        // Some of the points lie beyond the range of some of the relations; the
        // comparison is of arithmetic, not of validity.
        Water::new(
            Temperature::from_celsius(self.temperature_celsius)?,
            PracticalSalinity::new(self.practical_salinity)?,
        )
        .with_composition(composition)
        .with_water_pressure(WaterPressure::from_dbar(self.pressure_dbar)?)
        .with_extrapolation(Extrapolation::Allow)
        .equilibria(&options)?
        .with_bases(Bases {
            phosphate: Content::from_umol_per_kg(self.total_phosphate_umol_per_kg)?,
            silicate: Content::from_umol_per_kg(self.total_silicate_umol_per_kg)?,
            ammonia: Content::from_umol_per_kg(self.total_ammonia_umol_per_kg)?,
            sulfide: Content::from_umol_per_kg(self.total_sulfide_umol_per_kg)?,
        })?
        .solve(
            self.first.with(self.first_value)?,
            self.second.with(self.second_value)?,
        )
    }
}

/// Contents and alkalinities in µmol/kg, gases in µatm and ppm, constants and
/// buffer factors in mol/kg.
const CARBONATE: &[Output<CarbonateState>] = &[
    ("ph_total", |s| Ok(s.ph_total().value())),
    ("ph_free", |s| Ok(s.ph_free().value())),
    ("ph_seawater", |s| Ok(s.ph_seawater().value())),
    ("ph_nbs", |s| Ok(s.ph_nbs()?.value())),
    ("alkalinity", |s| Ok(s.alkalinity().umol_per_kg())),
    ("dic", |s| Ok(s.inorganic_carbon().umol_per_kg())),
    ("pco2", |s| Ok(s.partial_pressure_co2().uatm())),
    ("fco2", |s| Ok(s.fugacity_co2().uatm())),
    ("xco2", |s| Ok(s.dry_mole_fraction_co2()?.value().ppm())),
    ("co2", |s| Ok(s.carbon_dioxide().umol_per_kg())),
    ("bicarbonate", |s| Ok(s.bicarbonate().umol_per_kg())),
    ("carbonate", |s| Ok(s.carbonate().umol_per_kg())),
    ("hydrogen_free", |s| Ok(s.hydrogen_free_mol_per_kg() * 1e6)),
    ("hydroxide", |s| Ok(s.hydroxide_mol_per_kg() * 1e6)),
    ("borate", |s| Ok(s.alkalinity_parts().borate_umol_per_kg)),
    ("bisulfate", |s| {
        Ok(-s.alkalinity_parts().bisulfate_umol_per_kg)
    }),
    ("hydrogen_fluoride", |s| {
        Ok(-s.alkalinity_parts().hydrogen_fluoride_umol_per_kg)
    }),
    ("ammonia", |s| Ok(s.unionised_ammonia().umol_per_kg())),
    ("alkalinity_phosphate", |s| {
        Ok(s.alkalinity_parts().phosphate_umol_per_kg)
    }),
    ("alkalinity_silicate", |s| {
        Ok(s.alkalinity_parts().silicate_umol_per_kg)
    }),
    ("alkalinity_ammonia", |s| {
        Ok(s.alkalinity_parts().ammonia_umol_per_kg)
    }),
    ("alkalinity_sulfide", |s| {
        Ok(s.alkalinity_parts().sulfide_umol_per_kg)
    }),
    ("omega_aragonite", |s| Ok(s.aragonite_saturation().value())),
    ("omega_calcite", |s| Ok(s.calcite_saturation().value())),
    ("revelle_factor", |s| Ok(s.buffer_factors().revelle)),
    ("gamma_dic", |s| Ok(s.buffer_factors().gamma_dic_mol_per_kg)),
    ("beta_dic", |s| Ok(s.buffer_factors().beta_dic_mol_per_kg)),
    ("omega_dic", |s| Ok(s.buffer_factors().omega_dic_mol_per_kg)),
    ("gamma_alk", |s| {
        Ok(s.buffer_factors().gamma_alkalinity_mol_per_kg)
    }),
    ("beta_alk", |s| {
        Ok(s.buffer_factors().beta_alkalinity_mol_per_kg)
    }),
    ("omega_alk", |s| {
        Ok(s.buffer_factors().omega_alkalinity_mol_per_kg)
    }),
    ("total_boron", |s| {
        Ok(s.equilibria().boron_mol_per_kg() * 1e6)
    }),
    ("k0", |s| Ok(s.equilibria().k0_mol_per_kg_atm())),
    ("k1", |s| Ok(s.equilibria().k1_total())),
    ("k2", |s| Ok(s.equilibria().k2_total())),
    ("kw", |s| Ok(s.equilibria().kw_total())),
    ("kb", |s| Ok(s.equilibria().kb_total())),
    ("kso4", |s| Ok(s.equilibria().ks_free())),
    ("kf", |s| Ok(s.equilibria().kf_free())),
    ("kp1", |s| Ok(s.equilibria().kp_total()?[0])),
    ("kp2", |s| Ok(s.equilibria().kp_total()?[1])),
    ("kp3", |s| Ok(s.equilibria().kp_total()?[2])),
    ("ksi", |s| s.equilibria().ksi_total()),
    ("knh4", |s| s.equilibria().knh4_total()),
    ("kh2s", |s| s.equilibria().kh2s_total()),
    ("ksp_aragonite", |s| Ok(s.equilibria().ksp_aragonite())),
    ("ksp_calcite", |s| Ok(s.equilibria().ksp_calcite())),
    ("fugacity_coefficient", |s| {
        Ok(s.equilibria().co2_fugacity_coefficient())
    }),
];

/// Compares every output column of a file, one line per output; `prepare` makes
/// of a row what the outputs are taken from.
fn compare<P: DeserializeOwned + Debug, S>(
    title: &str,
    file: &str,
    prepare: impl Fn(&P) -> Result<S>,
    outputs: &[Output<S>],
) -> Result<(), Box<dyn std::error::Error>> {
    let directory = std::env::var_os("HALIMEDA_REFERENCE").map_or_else(
        || PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../target/reference"),
        PathBuf::from,
    );
    let path = directory.join(file);
    let mut reader = csv::Reader::from_path(&path).map_err(|e| {
        let path = path.display();
        format!("no reference points at {path}, run `cargo xtask test reference`: {e}")
    })?;
    let headers = reader.headers()?.clone();
    // An output that one side lacks is an error, not a gap.
    let columns: BTreeSet<_> = headers
        .iter()
        .filter_map(|h| h.strip_prefix("out_"))
        .collect();
    let compared: BTreeSet<_> = outputs.iter().map(|(name, _)| *name).collect();
    assert_eq!(
        columns, compared,
        "columns of {file} against outputs compared"
    );

    let mut comparison = Comparison::default();
    let mut points = 0;
    for record in reader.records() {
        let record = record?;
        let point: P = record.deserialize(Some(&headers))?;
        let state = prepare(&point).map_err(|e| format!("{e}: {point:?}"))?;
        for (header, theirs) in headers.iter().zip(&record) {
            let output = outputs
                .iter()
                .find(|(name, _)| Some(*name) == header.strip_prefix("out_"));
            if let Some((name, ours)) = output {
                comparison.add(name, ours(&state)?, theirs.parse()?, || {
                    format!("{point:?}")
                });
            }
        }
        points += 1;
    }
    assert!(points >= 2000, "{points} points are too few");
    comparison.conclude(title);
    Ok(())
}

#[test]
fn carbonate_system() -> Result<(), Box<dyn std::error::Error>> {
    compare(
        "carbonate system against PyCO2SYS",
        "carbonate.csv",
        Point::solve,
        CARBONATE,
    )
}

/// One row of `seawater.csv`.
#[derive(Debug, Deserialize)]
struct Seawater {
    temperature_celsius: f64,
    practical_salinity: f64,
    pressure_dbar: f64,
    conductivity_ms_per_cm: f64,
}

/// A water and the conductivity measured in it.
type Measured = (Water, Conductivity);

const SEAWATER: &[Output<Measured>] = &[
    ("practical_salinity", |(water, conductivity)| {
        let reading = practical_salinity_from_conductivity(
            *conductivity,
            water.temperature(),
            water.water_pressure(),
            water.extrapolation(),
        )?;
        Ok(reading.salinity().value())
    }),
    ("conductivity", |(water, _)| {
        Ok(water.conductivity()?.ms_per_cm())
    }),
    ("oxygen_solubility", |(water, _)| {
        Ok(oxygen_solubility(water)?.value().umol_per_kg())
    }),
];

#[test]
fn seawater() -> Result<(), Box<dyn std::error::Error>> {
    compare(
        "salinity and oxygen against gsw",
        "seawater.csv",
        |point: &Seawater| {
            let water = Water::new(
                Temperature::from_celsius(point.temperature_celsius)?,
                PracticalSalinity::new(point.practical_salinity)?,
            )
            .with_water_pressure(WaterPressure::from_dbar(point.pressure_dbar)?)
            .with_extrapolation(Extrapolation::Allow);
            let conductivity = Conductivity::from_ms_per_cm(point.conductivity_ms_per_cm)?;
            Ok((water, conductivity))
        },
        SEAWATER,
    )
}
