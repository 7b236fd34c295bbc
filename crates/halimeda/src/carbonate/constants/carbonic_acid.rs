use crate::carbonate::Medium;
use crate::real::{Real, polynomial};

/// \[K1, K2\] of carbonic acid, total scale.
///
/// Lueker, Dickson & Keeling (2000), doi 10.1016/S0304-4203(00)00022-0: the
/// data of Mehrbach et al. (1973) refitted on the total scale; also Dickson,
/// Sabine & Christian (2007) chapter 5. Range:
/// [`Relation::K1K2Lueker2000`](crate::Relation::K1K2Lueker2000).
#[inline(always)]
#[must_use]
pub fn k1_k2_lueker2000<R: Real>(medium: &Medium<R>) -> [R; 2] {
    let s = medium.salinity;
    let pk1 =
        medium.van_t_hoff(-61.2172, 3633.86, 9.67770) + s * polynomial(s, [-0.011555, 0.0001152]);
    let pk2 =
        medium.van_t_hoff(25.9290, 471.78, -3.16967) + s * polynomial(s, [-0.01781, 0.0001122]);
    [(-pk1).exp10(), (-pk2).exp10()]
}

/// \[K1, K2\] of carbonic acid, seawater scale.
///
/// Dickson & Millero (1987), doi 10.1016/0198-0149(87)90021-5: the
/// data of Mehrbach et al. (1973) refitted on the seawater scale. Range:
/// [`Relation::K1K2DicksonMillero1987`](crate::Relation::K1K2DicksonMillero1987).
#[inline(always)]
#[must_use]
pub fn k1_k2_dickson_millero1987<R: Real>(medium: &Medium<R>) -> [R; 2] {
    let s = medium.salinity;
    let pk1 = medium.van_t_hoff(-62.008, 3670.7, 9.7944) + s * polynomial(s, [-0.0118, 0.000116]);
    let pk2 =
        medium.affine_in_inverse_kelvin(4.777, 1394.7) + s * polynomial(s, [-0.0184, 0.000118]);
    [(-pk1).exp10(), (-pk2).exp10()]
}

/// \[K1, K2\] of carbonic acid, seawater scale.
///
/// Millero (2010), doi 10.1071/MF09254, the coefficients of its seawater-scale
/// fit; the paper prints fits on the total and the free scale beside it, which
/// are not used here. Range:
/// [`Relation::K1K2Millero2010`](crate::Relation::K1K2Millero2010).
#[inline(always)]
#[must_use]
pub fn k1_k2_millero2010<R: Real>(medium: &Medium<R>) -> [R; 2] {
    salting(
        medium,
        Salting {
            a: [13.4038, 0.03206, -5.242e-5],
            b: [-530.659, -5.8210],
            c: -2.0664,
        },
        Salting {
            a: [21.3728, 0.1218, -3.688e-4],
            b: [-788.289, -19.189],
            c: -3.374,
        },
    )
}

/// \[K1, K2\] of carbonic acid, seawater scale.
///
/// Waters, Millero & Woosley (2014), doi 10.1016/j.marchem.2014.07.004, which
/// corrects the coefficients of Waters & Millero (2013), doi
/// 10.1016/j.marchem.2012.11.003: use those of 2014. Range:
/// [`Relation::K1K2Waters2014`](crate::Relation::K1K2Waters2014).
#[inline(always)]
#[must_use]
pub fn k1_k2_waters2014<R: Real>(medium: &Medium<R>) -> [R; 2] {
    salting(
        medium,
        Salting {
            a: [13.409160, 0.031646, -5.1895e-5],
            b: [-531.3642, -5.713],
            c: -2.0669166,
        },
        Salting {
            a: [21.225890, 0.12450870, -3.7243e-4],
            b: [-779.3444, -19.91739],
            c: -3.3534679,
        },
    )
}

/// \[K1, K2\] of carbonic acid, total scale.
///
/// Sulpis, Lauvset & Hagens (2020), doi 10.5194/os-16-847-2020: the salinity
/// terms of Lueker et al. (2000) with temperature terms from 948 field samples
/// of four measured variables; lower than Lueker et al. below about 8 °C. Range:
/// [`Relation::K1K2Sulpis2020`](crate::Relation::K1K2Sulpis2020).
#[inline(always)]
#[must_use]
pub fn k1_k2_sulpis2020<R: Real>(medium: &Medium<R>) -> [R; 2] {
    let s = medium.salinity;
    let pk1 =
        medium.van_t_hoff(-172.4493, 8510.63, 26.32996) + s * polynomial(s, [-0.011555, 0.0001152]);
    let pk2 =
        medium.van_t_hoff(-59.4636, 4226.23, 9.60817) + s * polynomial(s, [-0.01781, 0.0001122]);
    [(-pk1).exp10(), (-pk2).exp10()]
}

/// Effect of salt on a pK, pK - pK° = A + B/T + C ln T with
/// A = a0 √S + a1 S + a2 S², B = b0 √S + b1 S and C = c √S.
struct Salting {
    a: [f64; 3],
    b: [f64; 2],
    c: f64,
}

/// The form of Millero (2010) and Waters et al. (2014): pK° in pure water of
/// Millero et al. (2006), doi 10.1016/j.marchem.2005.12.001, and a salt effect.
#[inline(always)]
fn salting<R: Real>(medium: &Medium<R>, first: Salting, second: Salting) -> [R; 2] {
    let (s, root) = (medium.salinity, medium.sqrt_salinity);
    let effect = |salt: Salting| {
        let [a0, a1, a2] = salt.a;
        let [b0, b1] = salt.b;
        root * medium.van_t_hoff(a0, b0, salt.c)
            + s * (medium.affine_in_inverse_kelvin(a1, b1) + s * a2)
    };
    let pk1 = medium.van_t_hoff(-126.34048, 6320.813, 19.568224) + effect(first);
    let pk2 = medium.van_t_hoff(-90.18333, 5143.692, 14.613358) + effect(second);
    [(-pk1).exp10(), (-pk2).exp10()]
}
