use crate::carbonate::Medium;
use crate::real::{Real, polynomial};

/// KNH4 of ammonium, total scale.
///
/// Clegg & Whitfield (1995) eq. 18, doi 10.1016/0016-7037(95)00135-2, carried
/// from mol per kg of water to mol per kg of seawater. Their accuracy: better
/// than 5 % of KNH4. Range:
/// [`Relation::Knh4CleggWhitfield1995`](crate::Relation::Knh4CleggWhitfield1995).
#[inline(always)]
#[must_use]
pub fn knh4_clegg_whitfield1995<R: Real>(medium: &Medium<R>) -> R {
    let root_salinity = medium.sqrt_salinity;
    let root_kelvin = medium.kelvin.sqrt();
    // b/T + a polynomial in √T.
    let term = |b: f64, c: [f64; 3]| medium.inverse_kelvin * b + polynomial(root_kelvin, c);
    let pk_molal = medium.affine_in_inverse_kelvin(9.244605 - 2729.33 / 298.15, 2729.33)
        + root_salinity.sqrt() * medium.affine_in_inverse_kelvin(0.04203362, -11.24742)
        + root_salinity
            * (term(545.4834, [-13.6416, 1.176949, -0.02860785])
                + medium.salinity
                    * (term(10.5425, [-0.1462507, 0.0090226468, -0.0001471361])
                        + root_salinity * term(-0.5677934, [0.004669309, -0.0001691742, 0.0])
                        + medium.salinity
                            * medium.affine_in_inverse_kelvin(-2.354039e-5, 0.009698623)));
    (-pk_molal).exp10() * medium.water_fraction
}
