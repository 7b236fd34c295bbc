use crate::real::sqrt;

/// Uptake through a diffusive boundary layer: transfer to the surface and
/// Michaelis-Menten uptake there, in series.
///
/// At the surface content c₀ both are equal to the flux J,
///
/// J = S (c - c₀) = V c₀/(K + c₀),
///
/// with the transfer velocity S and the capacity V of the surface. The root
/// between 0 and V of J² - (V + S (K + c)) J + V S c = 0 is returned. Nutrient
/// uptake of reef communities limited by such transfer: Atkinson & Bilger (1992),
/// Limnol. Oceanogr. 37, 273-279; Thomas & Atkinson (1997), Limnol. Oceanogr. 42,
/// 81-88 (doi 10.4319/lo.1997.42.1.0081).
///
/// Content and half-saturation in one unit, transfer velocity in m/d, capacity
/// and flux in that unit times m/d: with contents in mol/m³ the flux is in
/// mol m⁻² d⁻¹.
///
/// ```
/// use halimeda::process::uptake_through_boundary_layer;
/// // 2 mmol/m³, 5 m/d, capacity 20 mmol m⁻² d⁻¹, half-saturation 4 mmol/m³.
/// let flux = uptake_through_boundary_layer(2.0, 5.0, 20.0, 4.0);
/// let at_surface = 2.0 - flux / 5.0;
/// assert!((flux - 20.0 * at_surface / (4.0 + at_surface)).abs() < 1e-14);
/// ```
#[inline]
#[must_use]
pub fn uptake_through_boundary_layer(
    content: f64,
    transfer_m_per_day: f64,
    capacity_per_area: f64,
    half_saturation: f64,
) -> f64 {
    let content = content.max(0.0);
    let supply = transfer_m_per_day * content;
    let back = transfer_m_per_day * half_saturation;
    let sum = capacity_per_area + back + supply;
    if sum <= 0.0 {
        return 0.0;
    }
    // Scaled by the sum nothing overflows. The discriminant is written as a sum of
    // two terms that are never negative, and the smaller root as a quotient, so
    // that no digits cancel where one of the two steps controls the flux.
    let scale = 1.0 / sum;
    let (v, w, b) = (capacity_per_area * scale, supply * scale, back * scale);
    let difference = v + b - w;
    2.0 * capacity_per_area * w / (1.0 + sqrt(difference * difference + 4.0 * b * w))
}

#[cfg(test)]
mod tests {
    use super::uptake_through_boundary_layer as uptake;

    const GRID: [f64; 7] = [1e-6, 1e-3, 0.1, 1.0, 7.0, 300.0, 1e6];

    fn for_each(mut check: impl FnMut(f64, f64, f64, f64)) {
        for c in GRID {
            for s in GRID {
                for v in GRID {
                    for k in GRID {
                        check(c, s, v, k);
                    }
                }
            }
        }
    }

    // The drop over the boundary layer and the content at the surface make up the
    // content of the water: a sum in which nothing cancels.
    #[test]
    fn both_steps_carry_the_same_flux() {
        for_each(|c, s, v, k| {
            let j = uptake(c, s, v, k);
            assert!(j > 0.0 && j <= v * (1.0 + 1e-15) && j <= s * c * (1.0 + 1e-15));
            if j < 0.99 * v {
                let sum = j / s + k * j / (v - j);
                assert!((sum / c - 1.0).abs() < 1e-12, "{c} {s} {v} {k}");
            }
        });
    }

    #[test]
    fn fast_transfer_leaves_the_surface_kinetics() {
        for c in GRID {
            for k in GRID {
                let flux = uptake(c, 1e20, 3.0, k);
                assert!((flux / (3.0 * c / (k + c)) - 1.0).abs() < 1e-12);
            }
        }
    }

    #[test]
    fn a_greedy_surface_takes_what_arrives() {
        for c in GRID {
            for s in GRID {
                let flux = uptake(c, s, 1e20, 1.0);
                assert!((flux / (s * c) - 1.0).abs() < 1e-12);
            }
        }
    }

    #[test]
    fn without_half_saturation_the_smaller_step_decides() {
        for_each(|c, s, v, _| {
            let expected = v.min(s * c);
            assert!((uptake(c, s, v, 0.0) / expected - 1.0).abs() < 1e-14);
        });
    }

    #[test]
    fn rises_with_everything_but_the_half_saturation() {
        for_each(|c, s, v, k| {
            let j = uptake(c, s, v, k);
            let grown = 1.0 + 1e-3;
            // Where another step controls the rise is below rounding.
            let same = j * (1.0 - 4e-16);
            assert!(uptake(c * grown, s, v, k) >= same);
            assert!(uptake(c, s * grown, v, k) >= same);
            assert!(uptake(c, s, v * grown, k) >= same);
            assert!(uptake(c, s, v, k * grown) <= j * (1.0 + 4e-16));
        });
    }

    #[test]
    fn nothing_in_gives_nothing_out() {
        assert_eq!(uptake(0.0, 5.0, 3.0, 1.0), 0.0);
        assert_eq!(uptake(-1e-9, 5.0, 3.0, 1.0), 0.0);
        assert_eq!(uptake(1.0, 0.0, 3.0, 1.0), 0.0);
        assert_eq!(uptake(1.0, 5.0, 0.0, 1.0), 0.0);
        assert_eq!(uptake(0.0, 0.0, 0.0, 0.0), 0.0);
        assert_eq!(uptake(0.0, 5.0, 0.0, 0.0), 0.0);
    }
}
