use crate::carbonate::Medium;
use crate::real::Real;

/// KW = \[H⁺\]\[OH⁻\] of water, mol² kg⁻², seawater scale.
///
/// Millero (1995) eq. 63, doi 10.1016/0016-7037(94)00354-O, constant term
/// 148.9802. The constant term 148.9652 printed by Dickson, Sabine & Christian
/// (2007) is this one less 0.015, a rounded conversion to the total scale; it
/// departs from the conversion with the actual sulfate and fluoride by -1 to
/// +2.5 % of KW between 2 and 40 °C, S 5 and 45. (148.96502, in some copies of the paper, is a misprint.)
/// Range: [`Relation::KwMillero1995`](crate::Relation::KwMillero1995).
#[inline(always)]
#[must_use]
pub fn kw_millero1995<R: Real>(medium: &Medium<R>) -> R {
    (medium.van_t_hoff(148.9802, -13847.26, -23.6521)
        + medium.sqrt_salinity * medium.van_t_hoff(-5.977, 118.67, 1.0495)
        - medium.salinity * 0.01615)
        .exp()
}
