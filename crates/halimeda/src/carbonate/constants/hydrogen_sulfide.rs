use crate::carbonate::Medium;
use crate::real::Real;

/// K of the first dissociation of hydrogen sulfide, total scale.
///
/// Millero, Plese & Fernandez (1988), doi 10.4319/lo.1988.33.2.0269, the
/// "consensus" coefficients with a standard deviation of 0.028 in pK, in
/// natural logarithms as in Millero (1995); on the total scale according to
/// Lewis & Wallace (1998) ORNL/CDIAC-105. (Yao & Millero (1995) list it among
/// seawater-scale constants; the scales differ by 0.01 in pK.) Range:
/// [`Relation::Kh2sMillero1988`](crate::Relation::Kh2sMillero1988).
#[inline(always)]
#[must_use]
pub fn kh2s_millero1988<R: Real>(medium: &Medium<R>) -> R {
    (medium.van_t_hoff(225.838, -13275.3, -34.6435) + medium.sqrt_salinity * 0.3449
        - medium.salinity * 0.0274)
        .exp()
}
