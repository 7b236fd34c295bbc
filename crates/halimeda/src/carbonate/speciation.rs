//! Alkalinity as a function of hydrogen ion, with its slope.
//!
//! Definition: Dickson (1981), doi 10.1016/0198-0149(81)90121-7; expression as
//! in Dickson, Sabine & Christian (2007), ch. 2, eq. 18, with ammonia and
//! sulfide added. H is on the total scale, in mol/kg.

use super::constant_set::{ConstantSet, MinorSet};

/// A part of the alkalinity, or of an acid, at one H; all in mol/kg.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Part {
    pub(crate) value: f64,
    /// Derivative to ln H; of a part of the alkalinity never positive.
    pub(crate) slope: f64,
    /// Second derivative to ln H.
    pub(crate) curvature: f64,
}

impl Part {
    /// What Newton's method asks for.
    #[inline(always)]
    pub(crate) fn newton(self) -> (f64, f64) {
        (self.value, self.slope)
    }
}

/// Fractions of inorganic carbon as CO2, HCO3⁻ and CO3²⁻.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct CarbonFractions {
    pub(crate) co2: f64,
    pub(crate) bicarbonate: f64,
    pub(crate) carbonate: f64,
}

impl CarbonFractions {
    #[inline(always)]
    pub(crate) fn new(k1: f64, k2: f64, h: f64) -> Self {
        let k12 = k1 * k2;
        let inverse = 1.0 / Self::denominator(k1, k2, h);
        Self {
            co2: h * h * inverse,
            bicarbonate: k1 * h * inverse,
            carbonate: k12 * inverse,
        }
    }

    /// What the fractions of H², K1 H and K1 K2 are divided by.
    #[inline(always)]
    pub(crate) fn denominator(k1: f64, k2: f64, h: f64) -> f64 {
        h * (h + k1) + k1 * k2
    }

    /// Charges per carbon atom: carbonate alkalinity per mole.
    #[inline(always)]
    pub(crate) fn charge(self) -> f64 {
        self.bicarbonate + 2.0 * self.carbonate
    }

    /// Derivative of [`Self::charge`] to ln H: minus the variance of the charge.
    #[inline(always)]
    pub(crate) fn charge_slope(self) -> f64 {
        let charge = self.charge();
        charge * charge - self.bicarbonate - 4.0 * self.carbonate
    }

    /// Second derivative of [`Self::charge`] to ln H: the third central moment
    /// of the charge.
    #[inline(always)]
    pub(crate) fn charge_curvature(self) -> f64 {
        third_moment(
            self.charge(),
            self.bicarbonate + 4.0 * self.carbonate,
            self.bicarbonate + 8.0 * self.carbonate,
        )
    }
}

/// About the mean, from the means of a number, its square and its cube.
#[inline(always)]
fn third_moment(mean: f64, square: f64, cube: f64) -> f64 {
    cube + mean * (2.0 * mean * mean - 3.0 * square)
}

/// Fractions of phosphate with 0, 1, 2 and 3 protons lost.
#[inline(always)]
pub(crate) fn phosphate_fractions([k1, k2, k3]: [f64; 3], h: f64) -> [f64; 4] {
    let k12 = k1 * k2;
    let k123 = k12 * k3;
    let inverse = 1.0 / (h * (h * (h + k1) + k12) + k123);
    [
        h * h * h * inverse,
        k1 * h * h * inverse,
        k12 * h * inverse,
        k123 * inverse,
    ]
}

/// Base form of a monoprotic acid.
#[inline(always)]
pub(crate) fn base_form(total: f64, k: f64, h: f64) -> Part {
    let inverse = 1.0 / (k + h);
    let value = total * k * inverse;
    let slope = -value * h * inverse;
    Part {
        value,
        slope,
        curvature: slope * (k - h) * inverse,
    }
}

/// Acid form of a monoprotic acid.
#[inline(always)]
pub(crate) fn acid_form(total: f64, k: f64, h: f64) -> Part {
    acid_form_of_inverse(total, k, h, 1.0 / (k + h))
}

/// The same with 1/(k + h) at hand.
#[inline(always)]
fn acid_form_of_inverse(total: f64, k: f64, h: f64, inverse: f64) -> Part {
    let value = total * h * inverse;
    let slope = value * k * inverse;
    Part {
        value,
        slope,
        curvature: slope * (k - h) * inverse,
    }
}

/// What the alkalinity is made of besides inorganic carbon.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct AcidBase<'a> {
    pub(crate) set: &'a ConstantSet<f64>,
    pub(crate) minor: Option<&'a MinorSet<f64>>,
}

impl AcidBase<'_> {
    /// Everything in the alkalinity but the carbonate part.
    #[inline(always)]
    pub(crate) fn rest(&self, h: f64) -> Part {
        let set = self.set;
        let free_to_total = set.free_to_total;
        // One division for two: divisions are what solving takes its time for.
        let inverse = 1.0 / (h * free_to_total);
        let free = h * h * inverse;
        let hydroxide = set.kw * free_to_total * inverse;
        let borate = base_form(set.boron, set.kb, h);
        // On the total scale, so that neither waits for the free hydrogen ion.
        let (ks, kf) = (set.ks * free_to_total, set.kf * free_to_total);
        let inverse = 1.0 / ((ks + h) * (kf + h));
        let bisulfate = acid_form_of_inverse(set.sulfate, ks, h, (kf + h) * inverse);
        let fluoride = acid_form_of_inverse(set.fluoride, kf, h, (ks + h) * inverse);
        // Summed in pairs: a long chain of sums is what a solver would wait for.
        let mut rest = Part {
            value: (borate.value - bisulfate.value) + ((hydroxide - free) - fluoride.value),
            slope: (borate.slope - bisulfate.slope) - ((hydroxide + free) + fluoride.slope),
            curvature: (borate.curvature - bisulfate.curvature)
                + ((hydroxide - free) - fluoride.curvature),
        };
        if let Some(minor) = self.minor {
            minor.add_to(&mut rest, h);
        }
        rest
    }

    /// Limits of [`Self::rest`] without its water part `KW/H - H/free_to_total`,
    /// for H to infinity and H to zero.
    #[inline(always)]
    pub(crate) fn rest_limits(&self) -> (f64, f64) {
        let set = self.set;
        let (lowest, highest) = (-(set.sulfate + set.fluoride), set.boron);
        match self.minor {
            None => (lowest, highest),
            Some(m) => (
                lowest - m.phosphate,
                highest + 2.0 * m.phosphate + m.silicate + m.ammonia + m.sulfide,
            ),
        }
    }
}

impl MinorSet<f64> {
    #[inline(always)]
    fn add_to(&self, rest: &mut Part, h: f64) {
        for (total, k) in [
            (self.silicate, self.ksi),
            (self.ammonia, self.knh4),
            (self.sulfide, self.kh2s),
        ] {
            // Most waters hold two of them at most. Only a zero is left out: a
            // difference across it needs both sides.
            if total != 0.0 {
                let base = base_form(total, k, h);
                rest.value += base.value;
                rest.slope += base.slope;
                rest.curvature += base.curvature;
            }
        }
        if self.phosphate == 0.0 {
            return;
        }
        let [f0, f1, f2, f3] = phosphate_fractions(self.kp, h);
        // The zero level of proton is H2PO4⁻.
        let charge = f1 + 2.0 * f2 + 3.0 * f3;
        let square = f1 + 4.0 * f2 + 9.0 * f3;
        let cube = f1 + 8.0 * f2 + 27.0 * f3;
        rest.value += self.phosphate * (f2 + 2.0 * f3 - f0);
        rest.slope -= self.phosphate * (square - charge * charge);
        rest.curvature += self.phosphate * third_moment(charge, square, cube);
    }
}
