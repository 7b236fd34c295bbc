//! What of the carbonate system was measured, and the choices among constants.

use halimeda::carbonate::{
    Bases, Bisulfate, CarbonicAcid, EquilibriumOptions, HydrogenFluoride, Known, KnownKind,
    TotalBoron,
};
use halimeda::{Content, PhScale};
use halimeda_tank::units::Medium;
use pyo3::prelude::*;

use crate::argument::{Gathered, Spelled};
use crate::column::Column;
use crate::error::{Blame, OrRaise, type_error, value_error};

/// Keywords of known quantities; a pH with its scale in the unit is the seventh.
pub(crate) const KNOWNS: usize = 14;
/// Minor bases.
pub(crate) const BASES: usize = 4;
/// Quantities a state is given by beside its water.
pub(crate) const ARGUMENTS: usize = KNOWNS + BASES;

/// The kinds in the order of the keywords.
const KINDS: [KnownKind; KNOWNS] = [
    KnownKind::Alkalinity,
    KnownKind::InorganicCarbon,
    KnownKind::Ph(PhScale::Total),
    KnownKind::Ph(PhScale::Free),
    KnownKind::Ph(PhScale::Seawater),
    KnownKind::Ph(PhScale::Nbs),
    // By the name of its unit, see `kind_of`.
    KnownKind::Ph(PhScale::Nbs),
    KnownKind::PartialPressure,
    KnownKind::Fugacity,
    KnownKind::CarbonDioxide,
    KnownKind::Bicarbonate,
    KnownKind::Carbonate,
    KnownKind::Aragonite,
    KnownKind::Calcite,
];

/// The two known quantities among the arguments of a call, by their places.
pub(crate) struct Pair {
    pub(crate) kinds: [KnownKind; 2],
    places: [usize; 2],
    bases: usize,
}

impl Pair {
    /// The pair among the arguments from `first` on.
    pub(crate) fn of<const N: usize>(
        py: Python<'_>,
        gathered: &Gathered<'_, N>,
        spelled: &[Spelled<'_, '_>; N],
        first: usize,
    ) -> PyResult<Self> {
        let mut places = [0; 2];
        let mut count = 0;
        for index in first..first + KNOWNS {
            if gathered.given[index].is_some() {
                if let Some(place) = places.get_mut(count) {
                    *place = index;
                }
                count += 1;
            }
        }
        if count != 2 {
            let given: Vec<_> = (first..first + KNOWNS)
                .filter(|&index| gathered.given[index].is_some())
                .map(|index| spelled[index].quantity.keyword())
                .collect();
            let given = if given.is_empty() {
                "none".to_owned()
            } else {
                given.join(", ")
            };
            let message = format!(
                "two known quantities of the carbonate system are needed, {given} given: \
                 alkalinity, inorganic carbon, a pH, a pressure or content of CO2, bicarbonate, \
                 carbonate or a saturation state"
            );
            let blame = Blame {
                input: Some("alkalinity_umol_per_kg"),
                kind: if count < 2 { "missing" } else { "argument" },
                ..Blame::default()
            };
            return Err(type_error(py, &message, &blame));
        }
        let kinds = places.map(|place| {
            let unit = gathered.given[place]
                .as_ref()
                .map_or("", |given| given.unit_name());
            kind_of(place - first, unit)
        });
        Ok(Self {
            kinds,
            places,
            bases: first + KNOWNS,
        })
    }

    /// The knowns of a call without arrays.
    pub(crate) fn one<'py, const N: usize>(
        &self,
        py: Python<'py>,
        gathered: &Gathered<'py, N>,
        medium: impl Fn() -> PyResult<Medium>,
    ) -> PyResult<[Known; 2]> {
        let known = |i: usize| {
            let number = gathered.one(py, self.places[i], &medium)?;
            Known::new(self.kinds[i], number.unwrap_or(f64::NAN)).or_raise(py)
        };
        Ok([known(0)?, known(1)?])
    }

    /// The minor bases of a call without arrays.
    pub(crate) fn bases<'py, const N: usize>(
        &self,
        py: Python<'py>,
        gathered: &Gathered<'py, N>,
        medium: impl Fn() -> PyResult<Medium>,
    ) -> PyResult<Bases> {
        let mut contents = [0.0; BASES];
        for (content, index) in contents.iter_mut().zip(self.bases..) {
            *content = gathered.one(py, index, &medium)?.unwrap_or(0.0);
        }
        bases(contents).or_raise(py)
    }

    /// The columns of the knowns and of the bases.
    pub(crate) fn columns<'a, const N: usize>(
        &self,
        gathered: &'a Gathered<'_, N>,
        medium: &dyn Fn(usize) -> Medium,
    ) -> ([Column<'a>; 2], [Option<Column<'a>>; BASES]) {
        let known = |place| {
            gathered
                .column(place, medium)
                .unwrap_or(Column::Shared(f64::NAN))
        };
        let bases = std::array::from_fn(|base| gathered.column(self.bases + base, medium));
        (self.places.map(known), bases)
    }
}

fn kind_of(place: usize, unit: &str) -> KnownKind {
    match (place, unit) {
        (6, "total") => KnownKind::Ph(PhScale::Total),
        (6, "free") => KnownKind::Ph(PhScale::Free),
        (6, "seawater") => KnownKind::Ph(PhScale::Seawater),
        _ => KINDS[place],
    }
}

pub(crate) fn bases(
    [phosphate, silicate, ammonia, sulfide]: [f64; BASES],
) -> halimeda::Result<Bases> {
    Ok(Bases {
        phosphate: Content::from_umol_per_kg(phosphate)?,
        silicate: Content::from_umol_per_kg(silicate)?,
        ammonia: Content::from_umol_per_kg(ammonia)?,
        sulfide: Content::from_umol_per_kg(sulfide)?,
    })
}

/// The keyword a kind of known quantity is given under in its own unit.
pub(crate) fn keyword(kind: KnownKind) -> &'static str {
    match kind {
        KnownKind::Alkalinity => "alkalinity_umol_per_kg",
        KnownKind::InorganicCarbon => "inorganic_carbon_umol_per_kg",
        KnownKind::Ph(PhScale::Total) => "ph_total",
        KnownKind::Ph(PhScale::Free) => "ph_free",
        KnownKind::Ph(PhScale::Seawater) => "ph_seawater",
        KnownKind::Ph(PhScale::Nbs) => "ph_nbs",
        KnownKind::PartialPressure => "partial_pressure_co2_uatm",
        KnownKind::Fugacity => "fugacity_co2_uatm",
        KnownKind::CarbonDioxide => "carbon_dioxide_umol_per_kg",
        KnownKind::Bicarbonate => "bicarbonate_umol_per_kg",
        KnownKind::Carbonate => "carbonate_umol_per_kg",
        KnownKind::Aragonite => "aragonite_saturation",
        KnownKind::Calcite => "calcite_saturation",
    }
}

/// One of several choices by its name.
pub(crate) fn choice<T: Copy>(
    py: Python<'_>,
    input: &'static str,
    name: &str,
    choices: &[(&'static str, T)],
) -> PyResult<T> {
    if let Some((_, choice)) = choices.iter().find(|(known, _)| *known == name) {
        return Ok(*choice);
    }
    let names: Vec<_> = choices
        .iter()
        .map(|(name, _)| format!("\"{name}\""))
        .collect();
    let message = format!(
        "{input} is \"{name}\"; it must be one of {}",
        names.join(", ")
    );
    let blame = Blame {
        input: Some(input),
        kind: "unknown_choice",
        ..Blame::default()
    };
    Err(value_error(py, &message, &blame))
}

const CARBONIC_ACID: [(&str, CarbonicAcid); 5] = [
    ("lueker2000", CarbonicAcid::Lueker2000),
    ("dickson_millero1987", CarbonicAcid::DicksonMillero1987),
    ("millero2010", CarbonicAcid::Millero2010),
    ("waters2014", CarbonicAcid::Waters2014),
    ("sulpis2020", CarbonicAcid::Sulpis2020),
];
const BISULFATE: [(&str, Bisulfate); 2] = [
    ("dickson1990", Bisulfate::Dickson1990),
    ("khoo1977", Bisulfate::Khoo1977),
];
const HYDROGEN_FLUORIDE: [(&str, HydrogenFluoride); 2] = [
    ("perez_fraga1987", HydrogenFluoride::PerezFraga1987),
    ("dickson_riley1979", HydrogenFluoride::DicksonRiley1979),
];
const TOTAL_BORON: [(&str, TotalBoron); 2] = [
    ("lee2010", TotalBoron::Lee2010),
    ("uppstrom1974", TotalBoron::Uppstrom1974),
];

/// The choices among published constants by their names.
pub(crate) fn options(
    py: Python<'_>,
    carbonic_acid: &str,
    bisulfate: &str,
    hydrogen_fluoride: &str,
    total_boron: &str,
) -> PyResult<EquilibriumOptions> {
    Ok(EquilibriumOptions {
        carbonic_acid: choice(py, "carbonic_acid", carbonic_acid, &CARBONIC_ACID)?,
        bisulfate: choice(py, "bisulfate", bisulfate, &BISULFATE)?,
        hydrogen_fluoride: choice(
            py,
            "hydrogen_fluoride",
            hydrogen_fluoride,
            &HYDROGEN_FLUORIDE,
        )?,
        total_boron: choice(py, "total_boron", total_boron, &TOTAL_BORON)?,
    })
}

/// The names of the choices, in the order of the arguments of [`options`].
pub(crate) fn option_names(options: &EquilibriumOptions) -> [&'static str; 4] {
    fn name<T: PartialEq>(choices: &[(&'static str, T)], chosen: &T) -> &'static str {
        choices
            .iter()
            .find(|(_, choice)| choice == chosen)
            .map_or("", |(name, _)| name)
    }
    [
        name(&CARBONIC_ACID, &options.carbonic_acid),
        name(&BISULFATE, &options.bisulfate),
        name(&HYDROGEN_FLUORIDE, &options.hydrogen_fluoride),
        name(&TOTAL_BORON, &options.total_boron),
    ]
}
