use crate::real::{Real, polynomial};

/// Density of standard mean ocean water free of salt, kg/m³, at IPTS-68 °C.
/// Bigg (1967), as in Millero & Poisson (1981) eq. 6.
pub(crate) fn pure_water_kg_per_m3<R: Real>(t68_celsius: R) -> R {
    polynomial(
        t68_celsius,
        [
            999.842594,
            6.793952e-2,
            -9.095290e-3,
            1.001685e-4,
            -1.120083e-6,
            6.536332e-9,
        ],
    )
}

/// One-atmosphere density of seawater, kg/m³, Millero & Poisson (1981) eq. 5.
pub(crate) fn eos80_kg_per_m3<R: Real>(t68_celsius: R, practical_salinity: R) -> R {
    let t = t68_celsius;
    let s = practical_salinity;
    let a = polynomial(
        t,
        [8.24493e-1, -4.0899e-3, 7.6438e-5, -8.2467e-7, 5.3875e-9],
    );
    let b = polynomial(t, [-5.72466e-3, 1.0227e-4, -1.6546e-6]);
    pure_water_kg_per_m3(t) + a * s + b * s * s.sqrt() + s.square() * 4.8314e-4
}
