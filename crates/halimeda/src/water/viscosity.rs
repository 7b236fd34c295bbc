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

#[cfg(test)]
mod tests {
    use super::dynamic_pa_s;
    use crate::water::density::eos80_kg_per_m3;

    // Tupper (2013), Introduction to Naval Architecture, table 5.1: kinematic
    // viscosity, 10⁻⁶ m²/s, of fresh water and of seawater of 3.5 % salt.
    #[test]
    fn kinematic_viscosity_agrees_with_naval_architecture_within_its_uncertainty() {
        for (celsius, fresh, sea) in [
            (0.0, 1.787, 1.828),
            (10.0, 1.306, 1.354),
            (20.0, 1.004, 1.054),
            (30.0, 0.801, 0.849),
        ] {
            for (s, published) in [(0.0, fresh), (34.8, sea)] {
                let nu = 1e6 * dynamic_pa_s(celsius, s) / eos80_kg_per_m3(celsius, s);
                assert!(
                    (nu / published - 1.0).abs() < 0.015,
                    "{celsius} °C, S = {s}: {nu} against {published}"
                );
            }
        }
    }

    // Dorsey (1940), Properties of Ordinary Water-Substance, table 87, by way of
    // the fit in the R package oce: 0.001383779 Pa s at S = 30, 10 °C.
    #[test]
    fn dynamic_viscosity_agrees_with_dorsey() {
        assert!((dynamic_pa_s(10.0, 30.0) / 0.001383779 - 1.0_f64).abs() < 0.002);
    }
}
