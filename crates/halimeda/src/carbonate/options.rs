/// Which published dissociation constants of carbonic acid are used.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum CarbonicAcid {
    /// Lueker, Dickson & Keeling (2000): the recommendation of Dickson et al.
    /// (2007), best documented for ocean salinities.
    #[default]
    Lueker2000,
    /// Mehrbach et al. (1973) as refitted by Dickson & Millero (1987).
    DicksonMillero1987,
    /// Millero (2010), estuarine to oceanic.
    Millero2010,
    /// Waters, Millero & Woosley (2014).
    Waters2014,
    /// Sulpis, Lauvset & Hagens (2020), from field measurements.
    Sulpis2020,
}

/// Which dissociation constant of bisulfate is used.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum Bisulfate {
    /// Dickson (1990).
    #[default]
    Dickson1990,
    /// Khoo et al. (1977).
    Khoo1977,
}

/// Which dissociation constant of hydrogen fluoride is used.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum HydrogenFluoride {
    /// Perez & Fraga (1987).
    #[default]
    PerezFraga1987,
    /// Dickson & Riley (1979).
    DicksonRiley1979,
}

/// Which ratio of total boron to salinity is used where boron was not measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum TotalBoron {
    /// Lee et al. (2010): 432.6 µmol/kg at salinity 35.
    #[default]
    Lee2010,
    /// Uppström (1974): 415.7 µmol/kg at salinity 35.
    Uppstrom1974,
}

/// The choices among published constants.
///
/// ```
/// use halimeda::carbonate::{CarbonicAcid, EquilibriumOptions};
/// let options = EquilibriumOptions {
///     carbonic_acid: CarbonicAcid::Waters2014,
///     ..EquilibriumOptions::default()
/// };
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(default, deny_unknown_fields))]
pub struct EquilibriumOptions {
    /// K1 and K2 of carbonic acid.
    pub carbonic_acid: CarbonicAcid,
    /// KS of bisulfate.
    pub bisulfate: Bisulfate,
    /// KF of hydrogen fluoride.
    pub hydrogen_fluoride: HydrogenFluoride,
    /// Total boron where it was not measured.
    pub total_boron: TotalBoron,
}
