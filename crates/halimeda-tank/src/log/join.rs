use std::collections::HashMap;

use super::{Entry, Log, ProbeSeries, Reading};

impl Log {
    /// This log and another of the same tank, in order of time: tests from one file,
    /// probes from others, or the same file once more with new rows.
    ///
    /// A result or an entry that stands in both is taken once, as often as it stands in
    /// the one that has it more often. Probes that measure the same become one series
    /// where neither reaches into the other's time, or where they agree on the time they
    /// share; else they are two probes and stay two.
    #[must_use]
    pub fn join(mut self, other: Self) -> Self {
        add_missing(&mut self.readings, other.readings, |r| r.day);
        self.readings
            .sort_by(|a: &Reading, b| a.day.total_cmp(&b.day).then(a.measured.cmp(&b.measured)));
        add_missing(&mut self.entries, other.entries, |e| e.day);
        self.entries.sort_by(|a: &Entry, b| a.day.total_cmp(&b.day));
        for series in other.probes {
            let same = self
                .probes
                .iter_mut()
                .filter(|s| s.measured == series.measured);
            let joined = same
                .into_iter()
                .find_map(|own| Some((join_series(own, &series)?, own)));
            match joined {
                Some((joined, own)) => *own = joined,
                None => self.probes.push(series),
            }
        }
        self
    }
}

/// Adds what is not there yet: of equal ones only those beyond their number.
fn add_missing<T: PartialEq>(own: &mut Vec<T>, others: Vec<T>, day: impl Fn(&T) -> f64) {
    let mut unmatched: HashMap<u64, Vec<usize>> = HashMap::new();
    for (index, item) in own.iter().enumerate() {
        unmatched
            .entry(day(item).to_bits())
            .or_default()
            .push(index);
    }
    for other in others {
        let same_time = unmatched.get_mut(&day(&other).to_bits());
        let twin = same_time.and_then(|indices| {
            let at = indices.iter().position(|&i| own.get(i) == Some(&other))?;
            Some(indices.swap_remove(at))
        });
        if twin.is_none() {
            own.push(other);
        }
    }
}

fn join_series(a: &ProbeSeries, b: &ProbeSeries) -> Option<ProbeSeries> {
    let (first, second) = match a.days.first() <= b.days.first() {
        true => (a, b),
        false => (b, a),
    };
    let begin = *second.days.first()?;
    let shared = first.days.partition_point(|day| *day < begin);
    let (days, values) = (first.days.get(shared..)?, first.values.get(shared..)?);
    let common = days.len().min(second.days.len());
    let agree = days.get(..common) == second.days.get(..common)
        && values.get(..common) == second.values.get(..common);
    agree.then(|| {
        let mut joined = first.clone();
        joined.days.extend(second.days.iter().skip(common));
        joined.values.extend(second.values.iter().skip(common));
        joined
    })
}
