//! The state of the carbonate system as numbers: what every output is made of.

use super::speciation::{AcidBase, CarbonFractions, acid_form, base_form, phosphate_fractions};
use super::{AlkalinityParts, BufferFactors};

/// A solved state in one water, without types and checks; in mol/kg.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Point<'a> {
    pub(crate) acid_base: AcidBase<'a>,
    pub(crate) h: f64,
    pub(crate) dic: f64,
}

impl Point<'_> {
    #[inline(always)]
    pub(crate) fn fractions(&self) -> CarbonFractions {
        let set = self.acid_base.set;
        CarbonFractions::new(set.k1, set.k2, self.h)
    }

    #[inline(always)]
    pub(crate) fn alkalinity(&self) -> f64 {
        self.acid_base.rest(self.h).value + self.dic * self.fractions().charge()
    }

    #[inline(always)]
    pub(crate) fn carbon_dioxide(&self) -> f64 {
        self.dic * self.fractions().co2
    }

    #[inline(always)]
    pub(crate) fn bicarbonate(&self) -> f64 {
        self.dic * self.fractions().bicarbonate
    }

    #[inline(always)]
    pub(crate) fn carbonate(&self) -> f64 {
        self.dic * self.fractions().carbonate
    }

    #[inline(always)]
    pub(crate) fn fugacity_co2_uatm(&self) -> f64 {
        self.carbon_dioxide_per(self.acid_base.set.k0) * 1e6
    }

    #[inline(always)]
    pub(crate) fn partial_pressure_co2_uatm(&self) -> f64 {
        let set = self.acid_base.set;
        self.carbon_dioxide_per(set.k0 * set.fugacity_coefficient) * 1e6
    }

    /// Of a calcium carbonate with this solubility product.
    #[inline(always)]
    pub(crate) fn saturation(&self, ksp: f64) -> f64 {
        let set = self.acid_base.set;
        let denominator = CarbonFractions::denominator(set.k1, set.k2, self.h);
        set.calcium * self.dic * (set.k1 * set.k2) / (denominator * ksp)
    }

    /// Dissolved CO2 divided by a number, in one division.
    #[inline(always)]
    fn carbon_dioxide_per(&self, divisor: f64) -> f64 {
        let set = self.acid_base.set;
        let denominator = CarbonFractions::denominator(set.k1, set.k2, self.h);
        self.dic * self.h * self.h / (denominator * divisor)
    }

    #[inline(always)]
    pub(crate) fn hydrogen_free(&self) -> f64 {
        self.h / self.acid_base.set.free_to_total
    }

    #[inline(always)]
    pub(crate) fn hydroxide(&self) -> f64 {
        self.acid_base.set.kw / self.h
    }

    #[inline(always)]
    pub(crate) fn unionised_ammonia(&self) -> f64 {
        self.acid_base.minor.map_or(0.0, |minor| {
            base_form(minor.ammonia, minor.knh4, self.h).value
        })
    }

    #[inline(always)]
    pub(crate) fn alkalinity_parts(&self) -> AlkalinityParts {
        let set = self.acid_base.set;
        let (h, free) = (self.h, self.hydrogen_free());
        let base = |total, k| base_form(total, k, h).value * 1e6;
        let acid = |total, k| -acid_form(total, k, free).value * 1e6;
        let mut parts = AlkalinityParts {
            bicarbonate_umol_per_kg: self.bicarbonate() * 1e6,
            carbonate_umol_per_kg: 2.0 * self.carbonate() * 1e6,
            borate_umol_per_kg: base(set.boron, set.kb),
            hydroxide_umol_per_kg: self.hydroxide() * 1e6,
            phosphate_umol_per_kg: 0.0,
            silicate_umol_per_kg: 0.0,
            ammonia_umol_per_kg: 0.0,
            sulfide_umol_per_kg: 0.0,
            free_hydrogen_umol_per_kg: -free * 1e6,
            bisulfate_umol_per_kg: acid(set.sulfate, set.ks),
            hydrogen_fluoride_umol_per_kg: acid(set.fluoride, set.kf),
        };
        if let Some(minor) = self.acid_base.minor {
            let [p0, _, p2, p3] = phosphate_fractions(minor.kp, h);
            parts.phosphate_umol_per_kg = minor.phosphate * (p2 + 2.0 * p3 - p0) * 1e6;
            parts.silicate_umol_per_kg = base(minor.silicate, minor.ksi);
            parts.ammonia_umol_per_kg = self.unionised_ammonia() * 1e6;
            parts.sulfide_umol_per_kg = base(minor.sulfide, minor.kh2s);
        }
        parts
    }

    #[inline(always)]
    pub(crate) fn buffer_factors(&self) -> BufferFactors {
        let fractions = self.fractions();
        let charge = fractions.charge();
        // ∂Alk/∂ln H at constant DIC; ∂Alk/∂DIC at constant H is `charge`.
        let slope = self.acid_base.rest(self.h).slope + self.dic * fractions.charge_slope();
        // ∂ln H/∂ln DIC at constant alkalinity.
        let acidification = -charge * self.dic / slope;
        // ln CO2 = ln DIC + ln α0 with ∂ln α0/∂ln H = charge; for carbonate charge - 2.
        let revelle = 1.0 + charge * acidification;
        let saturation = 1.0 + (charge - 2.0) * acidification;
        BufferFactors {
            revelle,
            gamma_dic_mol_per_kg: self.dic / revelle,
            beta_dic_mol_per_kg: -slope / charge,
            omega_dic_mol_per_kg: self.dic / saturation,
            gamma_alkalinity_mol_per_kg: slope / charge,
            beta_alkalinity_mol_per_kg: slope,
            omega_alkalinity_mol_per_kg: slope / (charge - 2.0),
        }
    }
}
