use serde::{Deserialize, Serialize};

/// Where the values of an ensemble lie.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Quantiles {
    /// One in twenty lies below.
    pub p5: f64,
    /// One in four lies below.
    pub p25: f64,
    /// The median.
    pub p50: f64,
    /// One in four lies above.
    pub p75: f64,
    /// One in twenty lies above.
    pub p95: f64,
}

impl Quantiles {
    /// Quantiles of values; none if there are none. A value that is not a number
    /// is left out, one that is infinite counts as beyond all others.
    #[must_use]
    pub fn of(values: impl IntoIterator<Item = f64>) -> Option<Self> {
        let sorted = sorted(values);
        let [p5, p25, p50, p75, p95] =
            [0.05, 0.25, 0.5, 0.75, 0.95].map(|share| quantile(&sorted, share));
        Some(Self {
            p5: p5?,
            p25: p25?,
            p50: p50?,
            p75: p75?,
            p95: p95?,
        })
    }
}

impl Quantiles {
    /// Quantiles such that a further draw lies below each with its share, however few
    /// draws there are: Hyndman & Fan (1996), definition 6.
    pub(crate) fn of_draws(values: impl IntoIterator<Item = f64>) -> Option<Self> {
        let sorted = sorted(values);
        let n = sorted.len() as f64;
        let at = |share: f64| quantile(&sorted, ((n + 1.0) * share - 1.0) / (n - 1.0).max(1.0));
        Some(Self {
            p5: at(0.05)?,
            p25: at(0.25)?,
            p50: at(0.5)?,
            p75: at(0.75)?,
            p95: at(0.95)?,
        })
    }
}

/// The values that are numbers, in order.
pub(crate) fn sorted(values: impl IntoIterator<Item = f64>) -> Vec<f64> {
    let mut sorted: Vec<f64> = values.into_iter().filter(|x| !x.is_nan()).collect();
    sorted.sort_by(f64::total_cmp);
    sorted
}

/// The quantile at a share, 0 to 1, of sorted values, linear between them:
/// Hyndman & Fan (1996) Am. Stat. 50, 361-365, doi 10.1080/00031305.1996.10473566,
/// definition 7.
pub(crate) fn quantile(sorted: &[f64], share: f64) -> Option<f64> {
    let last = sorted.len().checked_sub(1)?;
    let place = share.clamp(0.0, 1.0) * last as f64;
    let below = *sorted.get(place.floor() as usize)?;
    let above = *sorted.get(place.ceil() as usize)?;
    let between = place.fract();
    // Between two infinite values, or on one value, there is nothing to weigh.
    Some(if between == 0.0 || below.total_cmp(&above).is_eq() {
        below
    } else {
        below + between * (above - below)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Of 19 draws the first is the quantile at 5 % and the last that at 95 %: a
    /// twentieth draw has twenty places to fall into, one of them below the first.
    #[test]
    fn a_further_draw_lies_below_with_its_share() {
        let q = Quantiles::of_draws((1..=19).map(f64::from)).unwrap();
        assert_eq!((q.p5, q.p50, q.p95), (1.0, 10.0, 19.0));
        assert_eq!(Quantiles::of_draws([]), None);
        assert_eq!(Quantiles::of_draws([2.0]).unwrap().p95, 2.0);
    }

    /// Definition 7 by its other reading: the value below which a share of the
    /// gaps between the sorted values lies.
    #[test]
    fn quantiles_agree_with_brute_force() {
        let mut state = 12345u64;
        for n in 1..60 {
            let values: Vec<f64> = (0..n)
                .map(|_| {
                    state = state.wrapping_mul(6364136223846793005).wrapping_add(1);
                    (state >> 40) as f64
                })
                .collect();
            let q = Quantiles::of(values.iter().copied()).unwrap();
            for (share, got) in [
                (0.05, q.p5),
                (0.25, q.p25),
                (0.5, q.p50),
                (0.75, q.p75),
                (0.95, q.p95),
            ] {
                // Rank of each value by counting, then interpolation between the
                // two whose ranks enclose the wanted one.
                let wanted = share * f64::from(n - 1);
                let at = |rank: f64| {
                    *values
                        .iter()
                        .find(|&&x| {
                            let below = values.iter().filter(|&&y| y < x).count() as f64;
                            let same = values.iter().filter(|&&y| y == x).count() as f64;
                            below <= rank && rank < below + same
                        })
                        .unwrap()
                };
                let (a, b) = (at(wanted.floor()), at(wanted.ceil()));
                let expected = a + (wanted - wanted.floor()) * (b - a);
                assert!(
                    (got - expected).abs() <= 1e-9 * expected.abs(),
                    "{n} {share}"
                );
            }
        }
    }

    #[test]
    fn never_and_not_a_number() {
        assert_eq!(Quantiles::of([]), None);
        assert_eq!(Quantiles::of([f64::NAN]), None);
        let q = Quantiles::of([1.0, f64::NAN, 2.0, f64::INFINITY, f64::INFINITY]).unwrap();
        assert_eq!(q.p25, 1.75);
        assert_eq!((q.p75, q.p95), (f64::INFINITY, f64::INFINITY));
    }
}
