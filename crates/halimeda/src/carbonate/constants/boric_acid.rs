use crate::carbonate::Medium;
use crate::real::{Real, polynomial};

/// KB of boric acid, total scale.
///
/// Dickson (1990) eq. 23, doi 10.1016/0198-0149(90)90004-F; also Dickson,
/// Sabine & Christian (2007) chapter 5. Range:
/// [`Relation::KbDickson1990`](crate::Relation::KbDickson1990).
#[inline(always)]
#[must_use]
pub fn kb_dickson1990<R: Real>(medium: &Medium<R>) -> R {
    let root = medium.sqrt_salinity;
    // Polynomials in √S: the third coefficient belongs to S, the fifth to S².
    (polynomial(root, [-8966.90, -2890.53, -77.942, 1.728, -0.0996]) * medium.inverse_kelvin
        + polynomial(root, [148.0248, 137.1942, 1.62142])
        + polynomial(root, [-24.4344, -25.085, -0.2474]) * medium.ln_kelvin
        + root * medium.kelvin * 0.053105)
        .exp()
}

/// Total boron, mol/kg: 0.0004326 S/35.
///
/// Lee et al. (2010), doi 10.1016/j.gca.2009.12.027: 0.2414 mg/kg of boron per
/// g/kg of chlorinity, from 139 samples of the North Pacific, the North Atlantic
/// and the East/Japan Sea.
#[inline(always)]
#[must_use]
pub fn total_boron_lee2010<R: Real>(medium: &Medium<R>) -> R {
    medium.salinity * (0.0004326 / 35.0)
}

/// Total boron, mol/kg: 0.0004157 S/35.
///
/// Uppström (1974), doi 10.1016/0011-7471(74)90074-6: 0.232 mg/kg of boron per
/// g/kg of chlorinity, from 20 measurements in the tropical Pacific; rounded as
/// in DOE (1994) ORNL/CDIAC-74.
#[inline(always)]
#[must_use]
pub fn total_boron_uppstrom1974<R: Real>(medium: &Medium<R>) -> R {
    medium.salinity * (0.0004157 / 35.0)
}
