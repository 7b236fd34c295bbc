use crate::quantity::{Content, PracticalSalinity, species};
use crate::real::Real;

/// Major ions of the water: scaled with salinity from the reference
/// composition unless measured.
///
/// Salt mixes differ from the ocean, boron and calcium above all; what was
/// measured should be given.
///
/// Reference values: Millero, F. J., Feistel, R., Wright, D. G., McDougall,
/// T. J. (2008), Deep-Sea Res. I 55, 50-72, table 4 (doi
/// 10.1016/j.dsr.2007.10.001): molalities at reference salinity 35.16504 g/kg,
/// times 0.96483496 kg of water per kg of seawater, per S/35. Total boron has a
/// choice of its own, [`TotalBoron`](crate::carbonate::TotalBoron).
///
/// ```
/// use halimeda::{Composition, Content, PracticalSalinity};
/// let salinity = PracticalSalinity::new(35.0)?;
/// let measured = Composition::REFERENCE.with_calcium(Content::from_umol_per_kg(10_600.0)?);
/// assert_eq!(measured.calcium(salinity).umol_per_kg(), 10_600.0);
/// assert!((Composition::REFERENCE.calcium(salinity).umol_per_kg() - 10_282.0).abs() < 1.0);
/// # Ok::<(), halimeda::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields, default))]
pub struct Composition {
    #[cfg_attr(feature = "serde", serde(skip_serializing_if = "Option::is_none"))]
    calcium: Option<Content<species::Calcium>>,
    #[cfg_attr(feature = "serde", serde(skip_serializing_if = "Option::is_none"))]
    magnesium: Option<Content<species::Magnesium>>,
    #[cfg_attr(feature = "serde", serde(skip_serializing_if = "Option::is_none"))]
    potassium: Option<Content<species::Potassium>>,
    #[cfg_attr(feature = "serde", serde(skip_serializing_if = "Option::is_none"))]
    strontium: Option<Content<species::Strontium>>,
    #[cfg_attr(feature = "serde", serde(skip_serializing_if = "Option::is_none"))]
    sulfate: Option<Content<species::Sulfate>>,
    #[cfg_attr(feature = "serde", serde(skip_serializing_if = "Option::is_none"))]
    fluoride: Option<Content<species::Fluoride>>,
    #[cfg_attr(feature = "serde", serde(skip_serializing_if = "Option::is_none"))]
    boron: Option<Content<species::Boron>>,
}

/// Kilograms of water in a kilogram of seawater of reference salinity.
const WATER_FRACTION: f64 = 0.96483496;

macro_rules! ion {
    (
        $name:ident, $mol_per_kg:ident, $with:ident, $measured:ident, $species:ident,
        $molality:literal, $what:literal
    ) => {
        #[doc = concat!("This composition with measured ", $what, ".")]
        #[must_use]
        pub const fn $with(mut self, content: Content<species::$species>) -> Self {
            self.$name = Some(content);
            self
        }

        #[doc = concat!("Measured ", $what, ", if it was measured.")]
        #[must_use]
        pub const fn $measured(&self) -> Option<Content<species::$species>> {
            self.$name
        }

        #[doc = concat!("Content of ", $what, ", measured or of the reference composition.")]
        #[must_use]
        pub fn $name(&self, salinity: PracticalSalinity) -> Content<species::$species> {
            Content::unchecked(self.$mol_per_kg(salinity.value()))
        }

        #[inline(always)]
        pub(crate) fn $mol_per_kg<R: Real>(&self, practical_salinity: R) -> R {
            match self.$name {
                Some(content) => R::constant(content.mol_per_kg()),
                None => practical_salinity * ($molality * WATER_FRACTION / 35.0),
            }
        }
    };
}

impl Composition {
    /// The reference composition, nothing measured.
    pub const REFERENCE: Self = Self {
        calcium: None,
        magnesium: None,
        potassium: None,
        strontium: None,
        sulfate: None,
        fluoride: None,
        boron: None,
    };

    ion!(
        calcium,
        calcium_mol_per_kg,
        with_calcium,
        measured_calcium,
        Calcium,
        0.0106568,
        "calcium"
    );
    ion!(
        magnesium,
        magnesium_mol_per_kg,
        with_magnesium,
        measured_magnesium,
        Magnesium,
        0.0547421,
        "magnesium"
    );
    ion!(
        potassium,
        potassium_mol_per_kg,
        with_potassium,
        measured_potassium,
        Potassium,
        0.0105797,
        "potassium"
    );
    ion!(
        strontium,
        strontium_mol_per_kg,
        with_strontium,
        measured_strontium,
        Strontium,
        0.0000940,
        "strontium"
    );
    ion!(
        sulfate,
        sulfate_mol_per_kg,
        with_sulfate,
        measured_sulfate,
        Sulfate,
        0.0292643,
        "total sulfate"
    );
    ion!(
        fluoride,
        fluoride_mol_per_kg,
        with_fluoride,
        measured_fluoride,
        Fluoride,
        0.0000708,
        "total fluoride"
    );

    /// Whether nothing was measured.
    #[must_use]
    pub fn is_reference(&self) -> bool {
        *self == Self::REFERENCE
    }

    /// This composition with measured total boron.
    #[must_use]
    pub const fn with_boron(mut self, content: Content<species::Boron>) -> Self {
        self.boron = Some(content);
        self
    }

    /// Measured total boron, if it was measured.
    #[must_use]
    pub const fn measured_boron(&self) -> Option<Content<species::Boron>> {
        self.boron
    }
}
