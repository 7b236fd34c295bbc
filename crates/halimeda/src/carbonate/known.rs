use crate::Result;
use crate::quantity::{
    Alkalinity, AnyPh, Aragonite, Calcite, Content, FugacityCo2, PartialPressureCo2, Ph, PhScale,
    SaturationState, Scale, species,
};

/// One measured quantity of the carbonate system. Two of them, of different
/// kind, determine the state.
///
/// Every typed quantity converts into it, so
/// [`Equilibria::solve`](super::Equilibria::solve) takes them directly.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
pub enum Known {
    /// Total alkalinity.
    Alkalinity(Alkalinity),
    /// Dissolved inorganic carbon.
    InorganicCarbon(Content<species::InorganicCarbon>),
    /// pH on any scale.
    Ph(AnyPh),
    /// Partial pressure of CO2.
    PartialPressure(PartialPressureCo2),
    /// Fugacity of CO2.
    Fugacity(FugacityCo2),
    /// Dissolved CO2.
    CarbonDioxide(Content<species::CarbonDioxide>),
    /// Bicarbonate.
    Bicarbonate(Content<species::Bicarbonate>),
    /// Carbonate.
    Carbonate(Content<species::Carbonate>),
    /// Saturation state of aragonite.
    Aragonite(SaturationState<Aragonite>),
    /// Saturation state of calcite.
    Calcite(SaturationState<Calcite>),
}

/// The kind of a [`Known`], with the scale of a pH.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
pub enum KnownKind {
    /// Total alkalinity.
    Alkalinity,
    /// Dissolved inorganic carbon.
    InorganicCarbon,
    /// pH on a scale.
    Ph(PhScale),
    /// Partial pressure of CO2.
    PartialPressure,
    /// Fugacity of CO2.
    Fugacity,
    /// Dissolved CO2.
    CarbonDioxide,
    /// Bicarbonate.
    Bicarbonate,
    /// Carbonate.
    Carbonate,
    /// Saturation state of aragonite.
    Aragonite,
    /// Saturation state of calcite.
    Calcite,
}

impl KnownKind {
    /// Every kind; pH once per scale.
    pub const ALL: [Self; 13] = [
        Self::Alkalinity,
        Self::InorganicCarbon,
        Self::Ph(PhScale::Total),
        Self::Ph(PhScale::Free),
        Self::Ph(PhScale::Seawater),
        Self::Ph(PhScale::Nbs),
        Self::PartialPressure,
        Self::Fugacity,
        Self::CarbonDioxide,
        Self::Bicarbonate,
        Self::Carbonate,
        Self::Aragonite,
        Self::Calcite,
    ];

    /// Name for messages.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Alkalinity => "total alkalinity",
            Self::InorganicCarbon => "dissolved inorganic carbon",
            Self::Ph(PhScale::Total) => "pH (total scale)",
            Self::Ph(PhScale::Free) => "pH (free scale)",
            Self::Ph(PhScale::Seawater) => "pH (seawater scale)",
            Self::Ph(PhScale::Nbs) => "pH (NBS scale)",
            Self::PartialPressure => "pCO2",
            Self::Fugacity => "fCO2",
            Self::CarbonDioxide => "dissolved CO2",
            Self::Bicarbonate => "bicarbonate",
            Self::Carbonate => "carbonate",
            Self::Aragonite => "aragonite saturation state",
            Self::Calcite => "calcite saturation state",
        }
    }
}

/// Kinds that follow from one another in one water, and of which a pair can
/// therefore hold one only.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum KnownClass {
    Alkalinity,
    InorganicCarbon,
    Hydrogen,
    CarbonDioxide,
    Bicarbonate,
    Carbonate,
}

impl KnownClass {
    /// Why two of this class leave the state open.
    pub(crate) const fn same(self) -> &'static str {
        match self {
            Self::Alkalinity => "both are total alkalinity",
            Self::InorganicCarbon => "both are dissolved inorganic carbon",
            Self::Hydrogen => "both are a pH",
            Self::CarbonDioxide => "pCO2, fCO2 and dissolved CO2 follow from one another",
            Self::Bicarbonate => "both are bicarbonate",
            Self::Carbonate => "carbonate and the saturation states follow from one another",
        }
    }
}

#[cfg(feature = "batch")]
impl KnownKind {
    pub(crate) const fn class(self) -> KnownClass {
        match self {
            Self::Alkalinity => KnownClass::Alkalinity,
            Self::InorganicCarbon => KnownClass::InorganicCarbon,
            Self::Ph(_) => KnownClass::Hydrogen,
            Self::PartialPressure | Self::Fugacity | Self::CarbonDioxide => {
                KnownClass::CarbonDioxide
            }
            Self::Bicarbonate => KnownClass::Bicarbonate,
            Self::Carbonate | Self::Aragonite | Self::Calcite => KnownClass::Carbonate,
        }
    }

    /// Smallest and largest value that [`Known::new`] accepts.
    pub(crate) const fn limits(self) -> (f64, f64) {
        match self {
            Self::Alkalinity => (Alkalinity::MIN, Alkalinity::MAX),
            Self::Ph(_) => (AnyPh::MIN, AnyPh::MAX),
            Self::PartialPressure => (PartialPressureCo2::MIN, PartialPressureCo2::MAX),
            Self::Fugacity => (FugacityCo2::MIN, FugacityCo2::MAX),
            Self::Aragonite => (
                SaturationState::<Aragonite>::MIN,
                SaturationState::<Aragonite>::MAX,
            ),
            Self::Calcite => (
                SaturationState::<Calcite>::MIN,
                SaturationState::<Calcite>::MAX,
            ),
            Self::InorganicCarbon | Self::CarbonDioxide | Self::Bicarbonate | Self::Carbonate => {
                (0.0, Content::<species::InorganicCarbon>::MAX_UMOL_PER_KG)
            }
        }
    }
}

impl core::fmt::Display for KnownKind {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(self.name())
    }
}

impl Known {
    /// The quantity of a kind that is known at run time only, from the number
    /// in the unit of [`Known::value`].
    ///
    /// ```
    /// use halimeda::Alkalinity;
    /// use halimeda::carbonate::{Known, KnownKind};
    /// let alkalinity = Known::new(KnownKind::Alkalinity, 2300.0)?;
    /// assert_eq!(alkalinity, Alkalinity::from_umol_per_kg(2300.0)?.into());
    /// # Ok::<(), halimeda::Error>(())
    /// ```
    ///
    /// # Errors
    /// The value is not finite or outside the limits of its quantity.
    pub const fn new(kind: KnownKind, value: f64) -> Result<Self> {
        macro_rules! known {
            ($variant:ident, $constructed:expr) => {
                match $constructed {
                    Ok(quantity) => Ok(Self::$variant(quantity)),
                    Err(refused) => Err(refused),
                }
            };
        }
        match kind {
            KnownKind::Alkalinity => known!(Alkalinity, Alkalinity::from_umol_per_kg(value)),
            KnownKind::InorganicCarbon => {
                known!(InorganicCarbon, Content::from_umol_per_kg(value))
            }
            KnownKind::Ph(scale) => known!(Ph, AnyPh::new(value, scale)),
            KnownKind::PartialPressure => {
                known!(PartialPressure, PartialPressureCo2::from_uatm(value))
            }
            KnownKind::Fugacity => known!(Fugacity, FugacityCo2::from_uatm(value)),
            KnownKind::CarbonDioxide => known!(CarbonDioxide, Content::from_umol_per_kg(value)),
            KnownKind::Bicarbonate => known!(Bicarbonate, Content::from_umol_per_kg(value)),
            KnownKind::Carbonate => known!(Carbonate, Content::from_umol_per_kg(value)),
            KnownKind::Aragonite => known!(Aragonite, SaturationState::new(value)),
            KnownKind::Calcite => known!(Calcite, SaturationState::new(value)),
        }
    }

    /// The kind of this quantity.
    #[must_use]
    pub const fn kind(self) -> KnownKind {
        match self {
            Self::Alkalinity(_) => KnownKind::Alkalinity,
            Self::InorganicCarbon(_) => KnownKind::InorganicCarbon,
            Self::Ph(ph) => KnownKind::Ph(ph.scale()),
            Self::PartialPressure(_) => KnownKind::PartialPressure,
            Self::Fugacity(_) => KnownKind::Fugacity,
            Self::CarbonDioxide(_) => KnownKind::CarbonDioxide,
            Self::Bicarbonate(_) => KnownKind::Bicarbonate,
            Self::Carbonate(_) => KnownKind::Carbonate,
            Self::Aragonite(_) => KnownKind::Aragonite,
            Self::Calcite(_) => KnownKind::Calcite,
        }
    }

    /// The number in the unit of the quantity's own accessor: µmol/kg, µatm,
    /// pH or dimensionless.
    #[must_use]
    pub const fn value(self) -> f64 {
        match self {
            Self::Alkalinity(x) => x.umol_per_kg(),
            Self::InorganicCarbon(x) => x.umol_per_kg(),
            Self::Ph(x) => x.value(),
            Self::PartialPressure(x) => x.uatm(),
            Self::Fugacity(x) => x.uatm(),
            Self::CarbonDioxide(x) => x.umol_per_kg(),
            Self::Bicarbonate(x) => x.umol_per_kg(),
            Self::Carbonate(x) => x.umol_per_kg(),
            Self::Aragonite(x) => x.value(),
            Self::Calcite(x) => x.value(),
        }
    }
}

macro_rules! known_from {
    ($($quantity:ty => $variant:ident),* $(,)?) => {
        $(impl From<$quantity> for Known {
            fn from(quantity: $quantity) -> Self {
                Self::$variant(quantity)
            }
        })*
    };
}

known_from! {
    Alkalinity => Alkalinity,
    Content<species::InorganicCarbon> => InorganicCarbon,
    AnyPh => Ph,
    PartialPressureCo2 => PartialPressure,
    FugacityCo2 => Fugacity,
    Content<species::CarbonDioxide> => CarbonDioxide,
    Content<species::Bicarbonate> => Bicarbonate,
    Content<species::Carbonate> => Carbonate,
    SaturationState<Aragonite> => Aragonite,
    SaturationState<Calcite> => Calcite,
}

impl<S: Scale> From<Ph<S>> for Known {
    fn from(ph: Ph<S>) -> Self {
        Self::Ph(ph.into())
    }
}
