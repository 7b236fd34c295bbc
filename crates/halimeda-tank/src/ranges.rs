//! What is uncertain before anything was measured, and draws from it.

use serde::{Deserialize, Serialize};

use crate::description::ParameterOverride;
use crate::error::{Error, Result, within};
use crate::parameters::Parameters;

/// The range in which a parameter is uncertain.
///
/// Half of all draws lie below the centre and half above, each half rising
/// linearly from its end to the centre, so that the median of an ensemble's
/// inputs is the nominal tank wherever the centre lies in its range. A range
/// that spans more than a factor of four is drawn so in the logarithm: it is
/// known by its order of magnitude. The shape is a choice, not a measurement.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct ParameterRange {
    /// Lower end.
    pub low: f64,
    /// Median.
    pub centre: f64,
    /// Upper end.
    pub high: f64,
}

/// Ratio of the ends beyond which a range is drawn in the logarithm.
const LOGARITHMIC_FROM: f64 = 4.0;

impl ParameterRange {
    /// A known value.
    #[must_use]
    pub const fn fixed(value: f64) -> Self {
        Self {
            low: value,
            centre: value,
            high: value,
        }
    }

    fn check(&self) -> Result<()> {
        within("range low", self.low, 0.0, f64::MAX)?;
        within("range centre", self.centre, self.low, f64::MAX)?;
        within("range high", self.high, self.centre, f64::MAX)?;
        Ok(())
    }

    /// The value below which a share, 0 to 1, of the draws lies.
    pub(crate) fn at(&self, share: f64) -> f64 {
        let ends = [self.low, self.centre, self.high];
        let logarithmic = self.low > 0.0 && self.high > LOGARITHMIC_FROM * self.low;
        let [low, centre, high] = if logarithmic { ends.map(f64::ln) } else { ends };
        let x = if share < 0.5 {
            low + (centre - low) * (2.0 * share).sqrt()
        } else {
            high - (high - centre) * (2.0 * (1.0 - share)).sqrt()
        };
        let value = if logarithmic { x.exp() } else { x };
        value.clamp(self.low, self.high)
    }
}

/// The range of every parameter of the tank model.
///
/// ```
/// use halimeda_tank::{ParameterRange, Ranges};
/// let ranges = Ranges::default()
///     .narrow("livestock.nitrogen_retention", ParameterRange { low: 0.2, centre: 0.25, high: 0.3 })?
///     .narrow("turf.reserve_days", ParameterRange::fixed(11.0))?;
/// let members = ranges.draw(64, 1)?;
/// assert!(members.iter().all(|p| p.turf.reserve_days == 11.0));
/// # Ok::<(), halimeda_tank::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Ranges {
    ranges: Vec<ParameterRange>,
}

impl Default for Ranges {
    /// The published ranges around the default parameters.
    fn default() -> Self {
        Self {
            ranges: Parameters::infos()
                .map(|(_, info)| ParameterRange {
                    low: info.low,
                    centre: info.default,
                    high: info.high,
                })
                .collect(),
        }
    }
}

/// Parameters that share a Sobol sequence. Over a hundred dimensions a single one
/// correlates pairs of them by as much as 0.7 in a hundred members, which would be
/// taken for influence; sequences of four dimensions, shuffled independently, stand
/// in any order to each other ("padding", Burley 2020).
const PADDED: u32 = 4;

/// Seeds apart of each other by more than the sequences of a draw.
const SEQUENCES: u32 = 1 << 10;

const _: () = assert!(Parameters::COUNT as u64 <= (PADDED * SEQUENCES) as u64);

/// Length of the Sobol sequence.
const MOST_MEMBERS: usize = 1 << 16;

impl Ranges {
    /// The published ranges around other parameters, as a description states
    /// them: what lies outside its published range widens it.
    ///
    /// # Errors
    /// A parameter is not finite or below zero.
    pub fn around(parameters: &Parameters) -> Result<Self> {
        let mut ranges = Self::default();
        for (i, range) in ranges.ranges.iter_mut().enumerate() {
            if let Some(value) = parameters.value(i) {
                *range = ParameterRange {
                    low: range.low.min(value),
                    centre: value,
                    high: range.high.max(value),
                };
                range.check()?;
            }
        }
        Ok(ranges)
    }

    /// With the range of one parameter, named as in "turf.reserve_days", replaced.
    ///
    /// # Errors
    /// No parameter has the name; or the range is not finite, below zero or out
    /// of order.
    pub fn narrow(mut self, parameter: &str, range: ParameterRange) -> Result<Self> {
        range.check()?;
        let slot = Parameters::position(parameter).and_then(|i| self.ranges.get_mut(i));
        match slot {
            Some(slot) => *slot = range,
            None => return Err(Error::UnknownParameter(parameter.to_owned())),
        }
        Ok(self)
    }

    /// With the ranges that a description sets.
    ///
    /// # Errors
    /// A range is not finite, below zero or out of order.
    pub fn overridden(mut self, overrides: &[ParameterOverride]) -> Result<Self> {
        for set in overrides {
            let range = ParameterRange {
                low: set.low,
                centre: set.value,
                high: set.high,
            };
            range.check()?;
            if let Some(slot) = self.ranges.get_mut(set.index) {
                *slot = range;
            }
        }
        Ok(self)
    }

    /// The range of one parameter; none if no parameter has the name.
    #[must_use]
    pub fn range(&self, parameter: &str) -> Option<ParameterRange> {
        self.ranges.get(Parameters::position(parameter)?).copied()
    }

    /// Every range, in the order of the parameters.
    pub(crate) fn all(&self) -> impl Iterator<Item = ParameterRange> {
        self.ranges.iter().copied()
    }

    /// The parameters at the centre of every range.
    #[must_use]
    pub fn nominal(&self) -> Parameters {
        self.parameters(|range| range.centre)
    }

    /// Draws parameters by Owen-scrambled Sobol sequences (Burley 2020, J. Comput.
    /// Graph. Tech. 9(4), 1-20), the same for the same seed. A power of two covers
    /// the ranges most evenly; fewer members are the first of more. Fixing one
    /// parameter leaves the draws of the others as they were.
    ///
    /// # Errors
    /// No members, or more than 65536.
    pub fn draw(&self, members: usize, seed: u32) -> Result<Vec<Parameters>> {
        within("members", members as f64, 1.0, MOST_MEMBERS as f64)?;
        Ok((0u32..)
            .take(members)
            .map(|member| {
                let mut places = 0u32..;
                self.parameters(|range| {
                    let place = places.next().unwrap_or_default();
                    let sequence = seed.wrapping_mul(SEQUENCES).wrapping_add(place / PADDED);
                    range.at(f64::from(sobol_burley::sample(
                        member,
                        place % PADDED,
                        sequence,
                    )))
                })
            })
            .collect())
    }

    fn parameters(&self, mut value: impl FnMut(&ParameterRange) -> f64) -> Parameters {
        let places = self.ranges.iter().enumerate();
        places.fold(Parameters::default(), |p, (i, range)| {
            p.with_value(i, value(range))
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nominal_parameters_are_the_defaults() {
        assert_eq!(Ranges::default().nominal(), Parameters::default());
    }

    /// Of evenly spread shares half lie below the centre, all within the range,
    /// and more near the centre than near an end.
    #[test]
    fn a_range_is_centred_on_its_default() {
        for (low, centre, high) in [(1.0, 2.0, 3.0), (0.0, 1.0, 9.0), (0.1, 0.2, 10.0)] {
            let range = ParameterRange { low, centre, high };
            let draws: Vec<f64> = (0..1000)
                .map(|i| range.at((f64::from(i) + 0.5) / 1e3))
                .collect();
            assert!(draws.windows(2).all(|w| w[0] < w[1]));
            assert!(draws.iter().all(|x| (low..=high).contains(x)));
            assert_eq!(draws.iter().filter(|&&x| x < centre).count(), 500);
            let middle = |a: f64, b: f64| {
                if low > 0.0 && high > 4.0 * low {
                    (a * b).sqrt()
                } else {
                    0.5 * (a + b)
                }
            };
            let outer = draws.iter().filter(|&&x| x < middle(low, centre)).count();
            assert_eq!(
                outer, 125,
                "a quarter of the lower half lies in its outer half"
            );
        }
    }

    #[test]
    fn draws_cover_every_range_evenly() {
        let members = Ranges::default().draw(256, 7).unwrap();
        for (i, (group, info)) in Parameters::infos().enumerate() {
            let below = members
                .iter()
                .filter(|p| p.value(i).unwrap() < info.default)
                .count();
            assert!(
                (120..=136).contains(&below),
                "{group}.{}: {below}",
                info.name
            );
            assert!(
                members
                    .iter()
                    .all(|p| (info.low..=info.high).contains(&p.value(i).unwrap()))
            );
        }
        members.iter().for_each(|p| p.check().unwrap());
    }

    /// No parameter follows another by more than chance would have it.
    #[test]
    fn parameters_are_drawn_independently() {
        let members = Ranges::default().draw(256, 1).unwrap();
        let ranks: Vec<Vec<f64>> = (0..Parameters::COUNT)
            .map(|i| {
                let value = |p: &Parameters| p.value(i).unwrap();
                let below = |x: f64| members.iter().filter(|p| value(p) < x).count();
                members
                    .iter()
                    .map(|p| below(value(p)) as f64 - 127.5)
                    .collect()
            })
            .collect();
        let mut worst = 0.0f64;
        for (i, a) in ranks.iter().enumerate() {
            for b in &ranks[..i] {
                let product: f64 = a.iter().zip(b).map(|(x, y)| x * y).sum();
                let norm: f64 = a.iter().map(|x| x * x).sum();
                worst = worst.max((product / norm).abs());
            }
        }
        // Of 4851 pairs of independent ranks the largest lies near 4 standard errors,
        // here of 1.26/16 each; of a single sequence it would be 0.6.
        assert!(worst < 5.5 * 1.26 / 16.0, "{worst}");
    }

    #[test]
    fn draws_depend_on_the_seed_alone() {
        let ranges = Ranges::default();
        assert_eq!(ranges.draw(32, 3).unwrap(), ranges.draw(32, 3).unwrap());
        assert_eq!(
            ranges.draw(32, 3).unwrap(),
            ranges.draw(64, 3).unwrap()[..32]
        );
        assert_ne!(ranges.draw(32, 3).unwrap(), ranges.draw(32, 4).unwrap());
    }

    #[test]
    fn fixing_one_leaves_the_others() {
        let fixed = Ranges::default()
            .narrow("turf.exuded_share", ParameterRange::fixed(0.1))
            .unwrap();
        for (a, b) in Ranges::default()
            .draw(16, 1)
            .unwrap()
            .iter()
            .zip(fixed.draw(16, 1).unwrap())
        {
            assert_eq!(b.turf.exuded_share, 0.1);
            let mut a = *a;
            a.turf.exuded_share = 0.1;
            assert_eq!(a, b);
        }
    }

    #[test]
    fn bad_ranges_are_refused() {
        let ranges = Ranges::default;
        let range = |low, centre, high| ParameterRange { low, centre, high };
        let path = "turf.exuded_share";
        for bad in [
            range(0.2, 0.1, 0.3),
            range(0.1, 0.4, 0.3),
            range(-0.1, 0.1, 0.3),
            range(0.1, f64::NAN, 0.3),
            range(0.1, 0.2, f64::INFINITY),
        ] {
            assert!(ranges().narrow(path, bad).is_err(), "{bad:?}");
        }
        let unknown = ranges()
            .narrow("turf.no_such", range(0.1, 0.2, 0.3))
            .unwrap_err();
        assert!(unknown.to_string().contains("turf.no_such"));
        assert!(ranges().draw(0, 1).is_err());
        assert!(ranges().draw(65_537, 1).is_err());
    }

    #[test]
    fn ranges_around_other_parameters_hold_them() {
        let mut p = Parameters::default();
        p.turf.max_photosynthesis_per_day = 3.0;
        let ranges = Ranges::around(&p).unwrap();
        assert_eq!(ranges.nominal(), p);
        assert_eq!(
            ranges
                .range("turf.max_photosynthesis_per_day")
                .unwrap()
                .high,
            3.0
        );
    }
}
