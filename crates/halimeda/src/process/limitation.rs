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

/// What exceeds zero, with the corner rounded off within `spread` of it: the
/// integral of a share that rises from 0 at -`spread` to 1 at `spread` as 3 x² - 2 x³.
///
/// Of many animals or cells not all pass a threshold at one moment. Were they to,
/// the rate would have a corner at a moment that no schedule tells, and an
/// integrator steps over a corner with a larger error than it notices.
#[inline]
pub(crate) fn rounded_excess(value: f64, spread: f64) -> f64 {
    if value >= spread {
        value
    } else if value > -spread {
        let x = 0.5 * (value / spread + 1.0);
        spread * x * x * x * (2.0 - x)
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

    #[test]
    fn an_excess_has_no_corner() {
        for (value, excess) in [
            (-3.0, 0.0),
            (-2.0, 0.0),
            (0.0, 0.375),
            (2.0, 2.0),
            (3.0, 3.0),
        ] {
            assert_eq!(rounded_excess(value, 2.0), excess);
        }
        let slope = |value: f64| {
            (rounded_excess(value + 1e-5, 2.0) - rounded_excess(value - 1e-5, 2.0)) / 2e-5
        };
        let mut before = 0.0;
        for i in -300..=300 {
            let now = slope(0.01 * f64::from(i));
            // The share rises by at most 3/(4 spread) per unit.
            assert!(now - before > -1e-9 && now - before < 0.00376, "{i}");
            before = now;
        }
        assert!((before - 1.0).abs() < 1e-9);
        assert_eq!(rounded_excess(0.0, 0.0), 0.0);
        assert_eq!(rounded_excess(-1.0, 0.0), 0.0);
    }
}
