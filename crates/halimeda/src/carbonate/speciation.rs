//! Alkalinity as a function of hydrogen ion, with its slope.
//!
//! Definition: Dickson (1981), doi 10.1016/0198-0149(81)90121-7; expression as
//! in Dickson, Sabine & Christian (2007), ch. 2, eq. 18, with ammonia and
//! sulfide added. H is on the total scale, in mol/kg.

use super::constant_set::{ConstantSet, MinorSet};

/// The part of the alkalinity that is not carbonate, at one H.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Rest {
    /// Its value, mol/kg.
    pub(crate) value: f64,
    /// Its derivative to ln H, mol/kg; never positive.
    pub(crate) slope: f64,
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
        let inverse = 1.0 / (h * (h + k1) + k12);
        Self {
            co2: h * h * inverse,
            bicarbonate: k1 * h * inverse,
            carbonate: k12 * inverse,
        }
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

/// Base form of a monoprotic acid and its derivative to ln H.
#[inline(always)]
pub(crate) fn base_form(total: f64, k: f64, h: f64) -> (f64, f64) {
    let inverse = 1.0 / (k + h);
    let base = total * k * inverse;
    (base, -base * h * inverse)
}

/// Acid form of a monoprotic acid and its derivative to ln H.
#[inline(always)]
pub(crate) fn acid_form(total: f64, k: f64, h: f64) -> (f64, f64) {
    let inverse = 1.0 / (k + h);
    let acid = total * h * inverse;
    (acid, acid * k * inverse)
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
    pub(crate) fn rest(&self, h: f64) -> Rest {
        let set = self.set;
        let free = h / set.free_to_total;
        let hydroxide = set.kw / h;
        let (borate, borate_slope) = base_form(set.boron, set.kb, h);
        let (bisulfate, bisulfate_slope) = acid_form(set.sulfate, set.ks, free);
        let (fluoride, fluoride_slope) = acid_form(set.fluoride, set.kf, free);
        let mut rest = Rest {
            value: borate + hydroxide - free - bisulfate - fluoride,
            slope: borate_slope - hydroxide - free - bisulfate_slope - fluoride_slope,
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
    fn add_to(&self, rest: &mut Rest, h: f64) {
        for (total, k) in [
            (self.silicate, self.ksi),
            (self.ammonia, self.knh4),
            (self.sulfide, self.kh2s),
        ] {
            // Most waters hold two of them at most. Only a zero is left out: a
            // difference across it needs both sides.
            if total != 0.0 {
                let (base, slope) = base_form(total, k, h);
                rest.value += base;
                rest.slope += slope;
            }
        }
        if self.phosphate == 0.0 {
            return;
        }
        let [f0, f1, f2, f3] = phosphate_fractions(self.kp, h);
        // The zero level of proton is H2PO4⁻.
        let charge = f1 + 2.0 * f2 + 3.0 * f3;
        let variance = f1 + 4.0 * f2 + 9.0 * f3 - charge * charge;
        rest.value += self.phosphate * (f2 + 2.0 * f3 - f0);
        rest.slope -= self.phosphate * variance;
    }
}
