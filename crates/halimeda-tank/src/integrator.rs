//! Dormand-Prince 5(4) between two switches.
//!
//! Dormand, J. R., Prince, P. J. (1980) J. Comput. Appl. Math. 6, 19-26, doi
//! 10.1016/0771-050X(80)90013-3; step control and continuous extension as in
//! Hairer, Nørsett & Wanner (1993), Solving Ordinary Differential Equations I,
//! 2nd ed., sect. II.4 and II.6.
//!
//! The tank's equations are not stiff and change abruptly only where a lamp,
//! a pump or a hand changes something. Each stretch between two such switches
//! is a problem of its own: the integrator never steps across one, and starts
//! anew behind it. Its own code rather than a library's, because the books need
//! the ledger integrated with the weights of the state but without a say in the
//! step, and because a stretch of half an hour must not allocate.

/// A system of ordinary differential equations with `N` states.
///
/// The first `L` lead: they make the derivatives and decide the step. The others
/// only follow from them, as totals of what has flowed.
pub(crate) trait System<const N: usize, const L: usize> {
    /// Writes the derivatives of all states at a time, d, and leading state.
    fn derivatives(&mut self, time: f64, leading: &[f64; L], derivatives: &mut [f64; N]);

    /// Size of an error in a leading state that counts as one tolerance.
    fn scale(&self, index: usize, value: f64) -> f64;

    /// Least value that a leading state can have.
    fn least(&self, _index: usize) -> f64 {
        f64::NEG_INFINITY
    }
}

/// What an integration cost.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Effort {
    /// Accepted steps.
    pub steps: usize,
    /// Rejected steps.
    pub rejected: usize,
    /// Evaluations of the derivatives.
    pub evaluations: usize,
}

/// Why an integration stopped before its end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Stop {
    /// The step fell below the resolution of time, at this time.
    StepTooSmall(f64),
    /// A derivative is not finite, at this time.
    NotFinite(f64),
    /// The leading state of this index falls below the least it can have, after
    /// this time.
    BelowLeast(f64, usize),
    /// The stretch takes more steps than it may, of which the last began at this
    /// time.
    TooManySteps(f64),
}

/// The most steps that a stretch may take, and how many more per day of it. A
/// tank takes some 50 a day; a rate beyond 10 000 a day, as of a pump that turns
/// the water over every few seconds, would be followed for hours.
const MOST_STEPS: f64 = 2_000.0;
const MOST_STEPS_PER_DAY: f64 = 5_000.0;

/// Step, d, that shows that a state does fall below the least it can have, and not
/// only seems to in too long a step.
const SHORTEST_TO_LEAST: f64 = 1e-7;

// Butcher tableau.
const C: [f64; 7] = [0.0, 1.0 / 5.0, 3.0 / 10.0, 4.0 / 5.0, 8.0 / 9.0, 1.0, 1.0];
const A2: [f64; 1] = [1.0 / 5.0];
const A3: [f64; 2] = [3.0 / 40.0, 9.0 / 40.0];
const A4: [f64; 3] = [44.0 / 45.0, -56.0 / 15.0, 32.0 / 9.0];
const A5: [f64; 4] = [
    19372.0 / 6561.0,
    -25360.0 / 2187.0,
    64448.0 / 6561.0,
    -212.0 / 729.0,
];
const A6: [f64; 5] = [
    9017.0 / 3168.0,
    -355.0 / 33.0,
    46732.0 / 5247.0,
    49.0 / 176.0,
    -5103.0 / 18656.0,
];
const A7: [f64; 6] = [
    35.0 / 384.0,
    0.0,
    500.0 / 1113.0,
    125.0 / 192.0,
    -2187.0 / 6784.0,
    11.0 / 84.0,
];
/// Fifth order less fourth order weights.
const E: [f64; 7] = [
    71.0 / 57600.0,
    0.0,
    -71.0 / 16695.0,
    71.0 / 1920.0,
    -17253.0 / 339200.0,
    22.0 / 525.0,
    -1.0 / 40.0,
];
/// Continuous extension of fourth order: Hairer, Nørsett & Wanner (1993), eq.
/// II.6.12 and the coefficients of their code DOPRI5.
const D: [f64; 7] = [
    -12715105075.0 / 11282082432.0,
    0.0,
    87487479700.0 / 32700410799.0,
    -10690763975.0 / 1880347072.0,
    701980252875.0 / 199316789632.0,
    -1453857185.0 / 822651844.0,
    69997945.0 / 29380423.0,
];

/// An accepted step, for values between its ends.
pub(crate) struct Step<'a, const N: usize, const L: usize> {
    /// Start, d.
    pub(crate) start: f64,
    /// Length, d.
    pub(crate) length: f64,
    before: &'a [f64; L],
    after: &'a [f64; L],
    stages: &'a [[f64; N]; 7],
}

impl<const N: usize, const L: usize> Step<'_, N, L> {
    /// The leading states at a time within the step, fourth order.
    #[allow(clippy::indexing_slicing)] // Loops run over 0..L, at most N.
    pub(crate) fn at(&self, time: f64) -> [f64; L] {
        let theta = ((time - self.start) / self.length).clamp(0.0, 1.0);
        let rest = 1.0 - theta;
        let h = self.length;
        let [k0, _, k2, k3, k4, k5, k6] = self.stages;
        core::array::from_fn(|i| {
            let difference = self.after[i] - self.before[i];
            let bulge = h * k0[i] - difference;
            let last = difference - h * k6[i] - bulge;
            let dense = D[0] * k0[i]
                + D[2] * k2[i]
                + D[3] * k3[i]
                + D[4] * k4[i]
                + D[5] * k5[i]
                + D[6] * k6[i];
            self.before[i]
                + theta * (difference + rest * (bulge + theta * (last + rest * h * dense)))
        })
    }
}

/// The integrator with its work space and the step it last used.
#[derive(Clone)]
pub(crate) struct DormandPrince<const N: usize, const L: usize> {
    stages: Box<[[f64; N]; 7]>,
    step: Option<f64>,
    effort: Effort,
}

impl<const N: usize, const L: usize> DormandPrince<N, L> {
    const LEADING_FIT: () = assert!(L >= 1 && L <= N);

    pub(crate) fn new() -> Self {
        let () = Self::LEADING_FIT;
        Self {
            stages: Box::new([[0.0; N]; 7]),
            step: None,
            effort: Effort::default(),
        }
    }

    pub(crate) fn effort(&self) -> Effort {
        self.effort
    }

    /// Integrates from `start` to exactly `end`, d, calling `accepted` for every
    /// step.
    #[allow(clippy::indexing_slicing)] // Loops run over 0..L and 0..N, L at most N.
    pub(crate) fn integrate<S: System<N, L>>(
        &mut self,
        system: &mut S,
        start: f64,
        end: f64,
        state: &mut [f64; N],
        mut accepted: impl FnMut(&Step<'_, N, L>),
    ) -> Result<(), Stop> {
        if end <= start {
            return Ok(());
        }
        let mut before: [f64; L] = core::array::from_fn(|i| state[i]);
        let mut trial = before;
        system.derivatives(start, &before, &mut self.stages[0]);
        self.effort.evaluations += 1;
        let mut time = start;
        // A switch upsets the solution: begin with about a third of the last step, which
        // in tanks costs the fewest evaluations.
        let mut h = match self.step {
            Some(step) => (0.35 * step).min(end - start),
            None => 1e-3 * (end - start),
        };
        // Step the control would take; kept apart from a last step cut short.
        let mut wanted = h;
        let mut steps_left = (MOST_STEPS + MOST_STEPS_PER_DAY * (end - start)) as usize;
        loop {
            if steps_left == 0 {
                return Err(Stop::TooManySteps(time));
            }
            steps_left -= 1;
            let last = time + h >= end || (end - time - h) < 1e-9 * h;
            if last {
                h = end - time;
            }
            if h <= 4.0 * f64::EPSILON * end.abs().max(1.0) {
                return Err(Stop::StepTooSmall(time));
            }
            let [k0, k1, k2, k3, k4, k5, k6] = &mut *self.stages;
            for i in 0..L {
                trial[i] = before[i] + h * (A2[0] * k0[i]);
            }
            system.derivatives(time + C[1] * h, &trial, k1);
            for i in 0..L {
                trial[i] = before[i] + h * (A3[0] * k0[i] + A3[1] * k1[i]);
            }
            system.derivatives(time + C[2] * h, &trial, k2);
            for i in 0..L {
                trial[i] = before[i] + h * (A4[0] * k0[i] + A4[1] * k1[i] + A4[2] * k2[i]);
            }
            system.derivatives(time + C[3] * h, &trial, k3);
            for i in 0..L {
                let sum = A5[0] * k0[i] + A5[1] * k1[i] + A5[2] * k2[i] + A5[3] * k3[i];
                trial[i] = before[i] + h * sum;
            }
            system.derivatives(time + C[4] * h, &trial, k4);
            for i in 0..L {
                let sum =
                    A6[0] * k0[i] + A6[1] * k1[i] + A6[2] * k2[i] + A6[3] * k3[i] + A6[4] * k4[i];
                trial[i] = before[i] + h * sum;
            }
            system.derivatives(time + C[5] * h, &trial, k5);
            // The fifth-order solution, where the seventh stage is taken.
            macro_rules! fifth_order {
                ($i:ident) => {
                    h * (A7[0] * k0[$i]
                        + A7[2] * k2[$i]
                        + A7[3] * k3[$i]
                        + A7[4] * k4[$i]
                        + A7[5] * k5[$i])
                };
            }
            for i in 0..L {
                trial[i] = before[i] + fifth_order!(i);
            }
            system.derivatives(time + C[6] * h, &trial, k6);
            self.effort.evaluations += 6;

            let mut squares = 0.0;
            let mut below = None;
            for i in 0..L {
                let error = E[0] * k0[i]
                    + E[2] * k2[i]
                    + E[3] * k3[i]
                    + E[4] * k4[i]
                    + E[5] * k5[i]
                    + E[6] * k6[i];
                let scale = system.scale(i, before[i].abs().max(trial[i].abs()));
                let relative = h * error / scale;
                squares += relative * relative;
                if trial[i] < system.least(i) {
                    below = Some(i);
                }
            }
            let error = (squares / L as f64).sqrt();
            if !error.is_finite() {
                if h < 1e-9 {
                    return Err(Stop::NotFinite(time));
                }
                self.effort.rejected += 1;
                h *= 0.1;
                continue;
            }
            if error > 1.0 {
                self.effort.rejected += 1;
                h *= (0.9 * error.powf(-0.2)).clamp(0.1, 0.9);
                wanted = h;
                continue;
            }
            // The estimate of the error can vanish by chance where a rate ends abruptly,
            // as at a content of zero; what cannot be is not accepted all the same.
            if let Some(index) = below {
                if h < SHORTEST_TO_LEAST {
                    return Err(Stop::BelowLeast(time, index));
                }
                self.effort.rejected += 1;
                h *= 0.2;
                wanted = h;
                continue;
            }
            self.effort.steps += 1;
            for i in L..N {
                state[i] += fifth_order!(i);
            }
            state[..L].copy_from_slice(&trial);
            accepted(&Step {
                start: time,
                length: h,
                before: &before,
                after: &trial,
                stages: &self.stages,
            });
            before = trial;
            time = if last { end } else { time + h };
            self.stages.swap(0, 6);
            let next = h * (0.9 * error.max(1e-8).powf(-0.2)).clamp(0.2, 5.0);
            if last {
                self.step = Some(wanted.max(next));
                return Ok(());
            }
            wanted = next;
            h = next;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Rows of the tableau sum to their nodes, weights to one (consistency).
    #[test]
    fn tableau_is_consistent() {
        let rows: [&[f64]; 6] = [&A2, &A3, &A4, &A5, &A6, &A7];
        for (row, c) in rows.iter().zip(&C[1..]) {
            assert!((row.iter().sum::<f64>() - c).abs() < 1e-14);
        }
        assert!(E.iter().sum::<f64>().abs() < 1e-15);
        // Order conditions of the weights up to five: Σ b c^(q-1) = 1/q.
        for q in 1..=5 {
            let sum: f64 = A7
                .iter()
                .zip(&C)
                .map(|(b, c)| if q == 1 { *b } else { b * c.powi(q - 1) })
                .sum();
            assert!((sum - 1.0 / f64::from(q)).abs() < 1e-14, "order {q}");
        }
    }

    struct Decay;
    impl System<2, 1> for Decay {
        fn derivatives(&mut self, _: f64, y: &[f64; 1], dy: &mut [f64; 2]) {
            // Decay and what has decayed.
            dy[0] = -3.0 * y[0];
            dy[1] = 3.0 * y[0];
        }
        fn scale(&self, _: usize, value: f64) -> f64 {
            1e-8 * value + 1e-14
        }
        fn least(&self, _: usize) -> f64 {
            0.0
        }
    }

    /// Exact solution, a ledger that follows and closes, and values inside a
    /// step of the order they claim.
    #[test]
    fn decay_and_its_ledger() {
        let mut solver = DormandPrince::<2, 1>::new();
        let mut y = [1.0, 0.0];
        let mut worst = 0.0f64;
        solver
            .integrate(&mut Decay, 0.0, 2.0, &mut y, |step| {
                for i in 0..=4 {
                    let t = step.start + step.length * f64::from(i) / 4.0;
                    worst = worst.max((step.at(t)[0] - (-3.0 * t).exp()).abs());
                }
            })
            .unwrap();
        assert!((y[0] - (-6.0f64).exp()).abs() < 1e-9);
        assert!((y[0] + y[1] - 1.0).abs() < 1e-15);
        assert!(worst < 1e-6, "{worst}");
    }

    struct Drain;
    impl System<1, 1> for Drain {
        fn derivatives(&mut self, _: f64, _: &[f64; 1], dy: &mut [f64; 1]) {
            dy[0] = -1.0;
        }
        fn scale(&self, _: usize, value: f64) -> f64 {
            1e-6 * value.abs() + 1e-12
        }
        fn least(&self, _: usize) -> f64 {
            0.0
        }
    }

    /// What runs empty stops where it does.
    #[test]
    fn a_state_does_not_fall_below_its_least() {
        let mut solver = DormandPrince::<1, 1>::new();
        let mut y = [1.0];
        let stopped = solver.integrate(&mut Drain, 0.0, 2.0, &mut y, |_| ());
        let Err(Stop::BelowLeast(time, 0)) = stopped else {
            panic!("{stopped:?}")
        };
        assert!((time - 1.0).abs() < 1e-6 && y[0] >= 0.0, "{time} {y:?}");
    }

    struct Stiff;
    impl System<1, 1> for Stiff {
        fn derivatives(&mut self, _: f64, y: &[f64; 1], dy: &mut [f64; 1]) {
            dy[0] = -1e9 * (y[0] - 1.0);
        }
        fn scale(&self, _: usize, value: f64) -> f64 {
            1e-6 * value.abs() + 1e-12
        }
    }

    /// A rate that is out of all proportion ends in an error, not in hours of work.
    #[test]
    fn a_stiff_system_stops() {
        let mut solver = DormandPrince::<1, 1>::new();
        let mut y = [0.0];
        let stopped = solver.integrate(&mut Stiff, 0.0, 1.0, &mut y, |_| ());
        assert!(matches!(stopped, Err(Stop::TooManySteps(_))), "{stopped:?}");
        assert!(solver.effort().steps <= 7_000);
    }

    struct Blowup;
    impl System<1, 1> for Blowup {
        fn derivatives(&mut self, _: f64, y: &[f64; 1], dy: &mut [f64; 1]) {
            dy[0] = y[0] * y[0];
        }
        fn scale(&self, _: usize, value: f64) -> f64 {
            1e-8 * value.abs() + 1e-12
        }
    }

    /// A solution that runs away in finite time ends in an error, not a hang.
    #[test]
    fn a_runaway_stops() {
        let mut solver = DormandPrince::<1, 1>::new();
        let mut y = [1.0];
        let stopped = solver.integrate(&mut Blowup, 0.0, 2.0, &mut y, |_| ());
        assert!(stopped.is_err(), "{stopped:?} {y:?}");
    }

    /// Growth of 2 per day under a lamp that burns two hours a day from noon.
    struct UnderLamp {
        /// Held over a stretch, or else read off the clock.
        lit: Option<bool>,
    }
    impl System<1, 1> for UnderLamp {
        fn derivatives(&mut self, time: f64, y: &[f64; 1], dy: &mut [f64; 1]) {
            let hour = 24.0 * time.fract();
            let lit = self.lit.unwrap_or((12.0..14.0).contains(&hour));
            dy[0] = if lit { 2.0 * y[0] } else { 0.0 };
        }
        fn scale(&self, _: usize, value: f64) -> f64 {
            1e-6 * value
        }
    }

    /// Why nothing is integrated across a switch: one call over ten days of lamp
    /// light succeeds without having seen the lamp burn.
    #[test]
    fn restarts_see_what_one_call_over_a_square_wave_does_not() {
        let exact = (2.0f64 * 10.0 * 2.0 / 24.0).exp();

        let mut y = [1.0];
        let mut by_the_clock = UnderLamp { lit: None };
        DormandPrince::new()
            .integrate(&mut by_the_clock, 0.0, 10.0, &mut y, |_| ())
            .unwrap();
        assert!((y[0] / exact - 1.0).abs() > 0.2, "{} of {exact}", y[0]);

        let mut y = [1.0];
        let mut solver = DormandPrince::new();
        let mut start = 0.0;
        for day in 0..10 {
            for (hour, lit) in [(12.0, false), (14.0, true), (24.0, false)] {
                let end = f64::from(day) + hour / 24.0;
                let mut stretch = UnderLamp { lit: Some(lit) };
                solver
                    .integrate(&mut stretch, start, end, &mut y, |_| ())
                    .unwrap();
                start = end;
            }
        }
        assert!((y[0] / exact - 1.0).abs() < 1e-6, "{} of {exact}", y[0]);
    }
}
