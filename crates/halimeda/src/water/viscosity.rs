use crate::real::{Real, polynomial};

/// Reference salinity per practical salinity, kg/kg: 35.16504 g/kg at 35
/// (Millero et al. 2008, eq. 6.1).
const KG_PER_KG_PER_PRACTICAL_SALINITY: f64 = 35.16504e-3 / 35.0;

/// Dynamic viscosity of seawater, Pa s. Sharqawy et al. (2010) eqs. 22 and 23.
pub(crate) fn dynamic_pa_s<R: Real>(celsius: R, practical_salinity: R) -> R {
    let s = practical_salinity * KG_PER_KG_PER_PRACTICAL_SALINITY;
    let pure = ((celsius + 64.993).square() * 0.157 - 91.296).recip() + 4.2844e-5;
    let a = polynomial(celsius, [1.541, 1.998e-2, -9.52e-5]);
    let b = polynomial(celsius, [7.974, -7.561e-2, 4.724e-4]);
    pure * (a * s + b * s.square() + 1.0)
}
