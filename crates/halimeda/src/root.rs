//! The one root finder behind every inversion of a monotone relation.

/// Where the increasing function `f` takes the value `target` between `lower`
/// and `upper`, to within `tolerance`; the nearer end if `target` lies beyond
/// the values there.
///
/// ITP method (interpolate, truncate, project) of Oliveira, I. F. D.,
/// Takahashi, R. H. C. (2020) ACM Trans. Math. Softw. 47, 5 (doi
/// 10.1145/3423597), with κ₁ = 0.2/(upper − lower), κ₂ = 2, n₀ = 1: secant-like
/// on smooth functions and never more than one evaluation above bisection, so
/// the number of steps is bounded before the first one is taken.
pub(crate) fn of_increasing(
    f: impl Fn(f64) -> f64,
    target: f64,
    lower: f64,
    upper: f64,
    tolerance: f64,
) -> f64 {
    let (mut a, mut b) = (lower, upper);
    let (mut at_a, mut at_b) = (f(a) - target, f(b) - target);
    if at_a >= 0.0 {
        return a;
    }
    if at_b <= 0.0 {
        return b;
    }
    // Half-width that the bracket may still have, were bisection (plus the one
    // step of slack) doing the work; halved at each step.
    let mut allowance = tolerance;
    while allowance < b - a {
        allowance *= 2.0;
    }
    let kappa1 = 0.2 / (b - a);
    // The second condition is the bound on the steps, whatever rounding does.
    while b - a > 2.0 * tolerance && allowance > 1.5 * tolerance {
        let width = b - a;
        let middle = a + 0.5 * width;
        let secant = (at_b * a - at_a * b) / (at_b - at_a);
        let toward_middle = if secant <= middle { 1.0 } else { -1.0 };
        let truncation = kappa1 * width * width;
        let truncated = if truncation <= (middle - secant).abs() {
            secant + toward_middle * truncation
        } else {
            middle
        };
        let radius = (allowance - 0.5 * width).max(0.0);
        let x = if (truncated - middle).abs() <= radius {
            truncated
        } else {
            middle - toward_middle * radius
        };
        let at_x = f(x) - target;
        if at_x > 0.0 {
            b = x;
            at_b = at_x;
        } else if at_x < 0.0 {
            a = x;
            at_a = at_x;
        } else {
            return x;
        }
        allowance *= 0.5;
    }
    0.5 * (a + b)
}

#[cfg(test)]
mod tests {
    use super::of_increasing;
    use core::cell::Cell;

    // Functions on which a secant, a Newton step or regula falsi fails or crawls.
    type Function = fn(f64) -> f64;
    const HARD: [(Function, f64); 6] = [
        (|x| x - 0.1, 0.1),
        (|x| x * x * x, 0.0),
        (|x| if x < 0.3 { -1.0 } else { 1e9 }, 0.3),
        (|x| (40.0 * (x - 0.7)).exp() - 1.0, 0.7),
        (|x| (x - 0.2).abs().sqrt() * (x - 0.2).signum(), 0.2),
        (|x| (x + 1.0).ln() - 1e-9, 1e-9),
    ];

    #[test]
    fn finds_roots_within_one_step_of_bisection() {
        let tolerance: f64 = 1e-13;
        let bisection = (1.0 / tolerance).log2().ceil() as u32;
        for (f, root) in HARD {
            let calls = Cell::new(0);
            let found = of_increasing(
                |x| {
                    calls.set(calls.get() + 1);
                    f(x)
                },
                0.0,
                -1.0,
                1.0,
                tolerance,
            );
            assert!(
                (found - root).abs() <= 2.0 * tolerance,
                "{found} for {root}"
            );
            // Two at the ends, then bisection's count and one of slack.
            assert!(calls.get() <= 2 + bisection + 1, "{} calls", calls.get());
        }
    }

    #[test]
    fn smooth_functions_take_few_evaluations() {
        let calls = Cell::new(0);
        let found = of_increasing(
            |s| {
                calls.set(calls.get() + 1);
                999.0 + 0.8 * s - 5.7e-3 * s * s.sqrt() + 4.8e-4 * s * s
            },
            1025.0,
            0.0,
            70.0,
            1e-12,
        );
        assert!(
            (999.0 + 0.8 * found - 5.7e-3 * found * found.sqrt() + 4.8e-4 * found * found - 1025.0)
                .abs()
                < 1e-10
        );
        assert!(calls.get() <= 12, "{} calls", calls.get());
    }

    #[test]
    fn a_target_beyond_the_bracket_gives_its_end() {
        assert_eq!(of_increasing(|x| x, 5.0, 0.0, 1.0, 1e-9), 1.0);
        assert_eq!(of_increasing(|x| x, -5.0, 0.0, 1.0, 1e-9), 0.0);
    }
}
