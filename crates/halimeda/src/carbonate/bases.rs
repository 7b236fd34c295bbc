use crate::quantity::{Content, species};

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
}

impl Default for Bases {
    fn default() -> Self {
        Self::NONE
    }
}
