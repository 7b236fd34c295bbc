use crate::quantity::{Content, species};
use crate::relation::Relation;

/// Minor acid-base systems besides carbonate, borate and water: what is
/// dissolved of each. Zero unless given.
///
/// ```
/// use halimeda::{Content, carbonate::Bases};
/// let bases = Bases {
///     phosphate: Content::from_umol_per_kg(0.5)?,
///     ..Bases::default()
/// };
/// # Ok::<(), halimeda::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(default, deny_unknown_fields))]
pub struct Bases {
    /// Total dissolved inorganic phosphate.
    pub phosphate: Content<species::Phosphate>,
    /// Total dissolved silicate.
    pub silicate: Content<species::Silicate>,
    /// Total ammonia, NH4⁺ and NH3.
    pub ammonia: Content<species::TotalAmmonia>,
    /// Total dissolved sulfide, H2S and HS⁻.
    pub sulfide: Content<species::Sulfide>,
}

impl Bases {
    /// None of them.
    pub const NONE: Self = Self {
        phosphate: Content::ZERO,
        silicate: Content::ZERO,
        ammonia: Content::ZERO,
        sulfide: Content::ZERO,
    };

    /// The relations that must cover the water where one of the bases is in it,
    /// in the order of the fields.
    pub(crate) const RELATIONS: [Relation; 4] = [
        Relation::KpYaoMillero1995,
        Relation::KsiYaoMillero1995,
        Relation::Knh4CleggWhitfield1995,
        Relation::Kh2sMillero1988,
    ];

    /// Their contents, mol/kg, in the same order.
    pub(super) const fn mol_per_kg(&self) -> [f64; 4] {
        [
            self.phosphate.mol_per_kg(),
            self.silicate.mol_per_kg(),
            self.ammonia.mol_per_kg(),
            self.sulfide.mol_per_kg(),
        ]
    }
}

impl Default for Bases {
    fn default() -> Self {
        Self::NONE
    }
}
