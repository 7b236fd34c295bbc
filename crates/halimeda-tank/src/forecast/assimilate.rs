//! What one more measurement tells an ensemble.

use std::f64::consts::TAU;

/// Numbers of the members of an ensemble, one row for each number.
///
/// A measurement moves every row by its covariance with the measured one and narrows
/// it: the serial ensemble square-root filter of Whitaker & Hamill (2002) Mon. Weather
/// Rev. 130, 1913-1924. Exact where all rows are jointly normal, and else the best
/// linear estimate.
#[derive(Debug, Clone)]
pub(crate) struct Members {
    rows: Vec<Vec<f64>>,
}

impl Members {
    /// Rows of equal length; members with a number that is not finite are left out.
    pub(crate) fn new(mut rows: Vec<Vec<f64>>) -> Self {
        let count = rows.iter().map(Vec::len).min().unwrap_or(0);
        let sound: Vec<bool> = (0..count)
            .map(|i| rows.iter().all(|r| r.get(i).is_some_and(|x| x.is_finite())))
            .collect();
        for row in &mut rows {
            let mut keep = sound.iter().copied();
            row.retain(|_| keep.next().unwrap_or(false));
        }
        Self { rows }
    }

    /// Number of members.
    pub(crate) fn count(&self) -> usize {
        self.rows.first().map_or(0, Vec::len)
    }

    pub(crate) fn row(&self, row: usize) -> &[f64] {
        self.rows.get(row).map_or(&[], Vec::as_slice)
    }

    /// Mean and variance of a row.
    pub(crate) fn moments(&self, row: usize) -> (f64, f64) {
        let row = self.row(row);
        let n = row.len() as f64;
        let mean = row.iter().sum::<f64>() / n;
        let squares: f64 = row.iter().map(|x| (x - mean).powi(2)).sum();
        (mean, squares / (n - 1.0).max(1.0))
    }

    /// Covariance of two rows.
    pub(crate) fn covariance(&self, a: usize, b: usize) -> f64 {
        let (mean_a, mean_b) = (self.moments(a).0, self.moments(b).0);
        let rows = self.row(a).iter().zip(self.row(b));
        let products: f64 = rows.map(|(x, y)| (x - mean_a) * (y - mean_b)).sum();
        products / (self.count() as f64 - 1.0).max(1.0)
    }

    /// Narrows every row by a measurement of one, with its error variance; without a
    /// value only the spread is narrowed, as by a measurement still to come. Returns the
    /// logarithm of the probability density that the members gave to the value.
    pub(crate) fn learn(&mut self, row: usize, value: Option<f64>, error_variance: f64) -> f64 {
        let (mean, variance) = self.moments(row);
        let total = variance + error_variance;
        let surprise = value.map_or(0.0, |v| v - mean);
        let density = -0.5 * (surprise * surprise / total + (TAU * total).ln());
        if variance <= 0.0 {
            return density;
        }
        let deviations: Vec<f64> = self.row(row).iter().map(|x| x - mean).collect();
        // So much of a deviation goes that the variance becomes that of the estimate.
        let narrowing = 1.0 / (1.0 + (error_variance / total).sqrt());
        let moves: Vec<f64> = deviations
            .iter()
            .map(|d| surprise - narrowing * d)
            .collect();
        let freedom = (self.count() as f64 - 1.0).max(1.0);
        for other in &mut self.rows {
            let n = other.len() as f64;
            let mean = other.iter().sum::<f64>() / n;
            let with = other.iter().zip(&deviations);
            let covariance = with.map(|(x, d)| (x - mean) * d).sum::<f64>() / freedom;
            let gain = covariance / total;
            for (x, step) in other.iter_mut().zip(&moves) {
                *x += gain * step;
            }
        }
        density
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two correlated rows, against the normal theory by hand: variance v, covariance
    /// c and error e leave v e/(v + e) and w − c²/(v + e).
    #[test]
    fn a_measurement_does_what_normal_theory_says() {
        let a: Vec<f64> = (0..40).map(|i| f64::from(i * 7919 % 41) / 10.0).collect();
        let b: Vec<f64> = a
            .iter()
            .enumerate()
            .map(|(i, x)| 2.0 * x + f64::from(i as u32 * 31 % 17) / 5.0)
            .collect();
        let mut members = Members::new(vec![a, b]);
        let ((mean_a, v), (mean_b, w)) = (members.moments(0), members.moments(1));
        let c = members.covariance(0, 1);
        let (value, e) = (3.5, 0.3);
        let density = members.learn(0, Some(value), e);
        let expected = -0.5 * ((value - mean_a).powi(2) / (v + e) + (TAU * (v + e)).ln());
        assert!((density - expected).abs() < 1e-12);
        let ((mean_a2, v2), (mean_b2, w2)) = (members.moments(0), members.moments(1));
        assert!((v2 / (v * e / (v + e)) - 1.0).abs() < 1e-9);
        assert!((w2 / (w - c * c / (v + e)) - 1.0).abs() < 1e-9);
        assert!((mean_a2 - mean_a - v / (v + e) * (value - mean_a)).abs() < 1e-9);
        assert!((mean_b2 - mean_b - c / (v + e) * (value - mean_a)).abs() < 1e-9);
    }

    #[test]
    fn a_measurement_to_come_narrows_and_does_not_move() {
        let mut members = Members::new(vec![
            vec![1.0, 2.0, 3.0, f64::NAN],
            vec![2.0, 2.0, 5.0, 1.0],
        ]);
        assert_eq!(members.count(), 3);
        let (mean, variance) = members.moments(0);
        members.learn(0, None, 0.5);
        let after = members.moments(0);
        assert!((after.0 - mean).abs() < 1e-12 && after.1 < variance);
        let mut still = Members::new(vec![vec![1.0, 1.0]]);
        assert!(still.learn(0, Some(1.0), 0.1).is_finite());
    }
}
