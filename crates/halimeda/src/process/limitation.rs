use crate::real::powf;

/// Temperature at which the rates of this module hold, °C.
pub const REFERENCE_CELSIUS: f64 = 25.0;

/// Factor of a rate that grows by `q10` for every 10 °C, one at
/// [`REFERENCE_CELSIUS`]: q10^((t - 25 °C)/10).
///
/// ```
/// use halimeda::process::temperature_factor;
/// assert!((temperature_factor(2.0, 35.0) - 2.0).abs() < 1e-15);
/// ```
#[must_use]
pub fn temperature_factor(q10: f64, celsius: f64) -> f64 {
    powf(q10, (celsius - REFERENCE_CELSIUS) / 10.0)
}

/// Saturation of a process by what it takes up, c/(K + c): 0 where there is
/// none, one half at the half-saturation content, 1 in plenty. Both arguments in
/// the same unit. Michaelis & Menten (1913), for growth Monod (1949), Annu. Rev.
/// Microbiol. 3, 371-394.
#[inline]
#[must_use]
pub fn michaelis_menten(content: f64, half_saturation: f64) -> f64 {
    if content > 0.0 {
        content / (half_saturation + content)
    } else {
        0.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn factor_is_one_at_the_reference_and_q10_ten_degrees_above() {
        for q10 in [1.0, 1.5, 2.0, 3.0] {
            assert_eq!(temperature_factor(q10, REFERENCE_CELSIUS), 1.0);
            assert!((temperature_factor(q10, 35.0) / q10 - 1.0).abs() < 1e-15);
            assert!((temperature_factor(q10, 15.0) * q10 - 1.0).abs() < 1e-15);
        }
    }

    #[test]
    fn saturation_has_its_limits() {
        assert_eq!(michaelis_menten(0.0, 0.0), 0.0);
        assert_eq!(michaelis_menten(-1e-9, 2e-6), 0.0);
        assert_eq!(michaelis_menten(2e-6, 2e-6), 0.5);
        assert_eq!(michaelis_menten(2e-6, 0.0), 1.0);
        assert!((michaelis_menten(1.0, 2e-6) - 1.0).abs() < 3e-6);
    }
}
