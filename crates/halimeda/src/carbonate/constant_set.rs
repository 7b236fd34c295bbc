//! Every constant and total that the equations of the carbonate system use,
//! at one temperature, salinity and pressure, on the total scale.

use super::Bases;
use super::constants::{self as k, PressureEffect};
use super::medium::Medium;
use super::options::{Bisulfate, CarbonicAcid, EquilibriumOptions, HydrogenFluoride, TotalBoron};
use crate::real::Real;
use crate::water::Water;

/// Constants and totals; `R = Dual<2>` carries derivatives to temperature and
/// salinity.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct ConstantSet<R> {
    /// CO2 solubility, mol kg⁻¹ atm⁻¹.
    pub(crate) k0: R,
    pub(crate) k1: R,
    pub(crate) k2: R,
    pub(crate) kb: R,
    pub(crate) kw: R,
    /// Free scale.
    pub(crate) ks: R,
    /// Free scale.
    pub(crate) kf: R,
    pub(crate) kp: [R; 3],
    pub(crate) ksi: R,
    pub(crate) knh4: R,
    pub(crate) kh2s: R,
    pub(crate) ksp_aragonite: R,
    pub(crate) ksp_calcite: R,
    /// Activity coefficient that makes NBS hydrogen activity of seawater-scale content.
    pub(crate) fh: R,
    /// fCO2/pCO2.
    pub(crate) fugacity_coefficient: R,
    pub(crate) boron: R,
    pub(crate) sulfate: R,
    pub(crate) fluoride: R,
    pub(crate) calcium: R,
    pub(crate) phosphate: R,
    pub(crate) silicate: R,
    pub(crate) ammonia: R,
    pub(crate) sulfide: R,
    /// 1 + ST/KS.
    pub(crate) free_to_total: R,
    /// 1 + ST/KS + FT/KF.
    pub(crate) free_to_seawater: R,
}

/// A constant together with the pH scale its paper gives it on.
enum Published<R> {
    Total(R),
    Seawater(R),
}

impl<R: Real> ConstantSet<R> {
    /// Evaluates every relation at `celsius` and `salinity`; pressure,
    /// composition and choices come from the arguments. Range checks are the
    /// caller's.
    #[inline]
    pub(crate) fn evaluate(
        water: &Water,
        options: &EquilibriumOptions,
        bases: &Bases,
        celsius: R,
        salinity: R,
    ) -> Self {
        let medium = Medium::new(celsius, salinity);
        let composition = water.composition();
        let sulfate = composition.sulfate_mol_per_kg(salinity);
        let fluoride = composition.fluoride_mol_per_kg(salinity);
        let boron = match composition.measured_boron() {
            Some(content) => R::constant(content.mol_per_kg()),
            None => match options.total_boron {
                TotalBoron::Lee2010 => k::total_boron_lee2010(&medium),
                TotalBoron::Uppstrom1974 => k::total_boron_uppstrom1974(&medium),
            },
        };

        let ks = match options.bisulfate {
            Bisulfate::Dickson1990 => k::ks_dickson1990(&medium),
            Bisulfate::Khoo1977 => k::ks_khoo1977(&medium),
        };
        let free_to_total = k::free_to_total(sulfate, ks);
        // Dickson, Sabine & Christian (2007) give Perez & Fraga on the total scale.
        let kf = match options.hydrogen_fluoride {
            HydrogenFluoride::PerezFraga1987 => k::kf_perez_fraga1987(&medium) / free_to_total,
            HydrogenFluoride::DicksonRiley1979 => k::kf_dickson_riley1979(&medium),
        };
        let free_to_seawater = k::free_to_seawater(sulfate, ks, fluoride, kf);
        let seawater_to_total = free_to_total / free_to_seawater;
        let on_total = |constant: Published<R>| match constant {
            Published::Total(k) => k,
            Published::Seawater(k) => k * seawater_to_total,
        };

        let [k1, k2] = match options.carbonic_acid {
            CarbonicAcid::Lueker2000 => k::k1_k2_lueker2000(&medium).map(Published::Total),
            CarbonicAcid::DicksonMillero1987 => {
                k::k1_k2_dickson_millero1987(&medium).map(Published::Seawater)
            }
            CarbonicAcid::Millero2010 => k::k1_k2_millero2010(&medium).map(Published::Seawater),
            CarbonicAcid::Waters2014 => k::k1_k2_waters2014(&medium).map(Published::Seawater),
            CarbonicAcid::Sulpis2020 => k::k1_k2_sulpis2020(&medium).map(Published::Total),
        };
        let kb = Published::Total(k::kb_dickson1990(&medium));
        let kw = Published::Seawater(k::kw_millero1995(&medium));
        let kp = k::kp_yao_millero1995(&medium).map(Published::Seawater);
        let ksi = Published::Seawater(k::ksi_yao_millero1995(&medium));
        let knh4 = Published::Total(k::knh4_clegg_whitfield1995(&medium));
        let kh2s = Published::Seawater(k::kh2s_millero1988(&medium));
        let constant = |content: f64| R::constant(content);

        let mut set = Self {
            k0: k::k0_weiss1974(&medium),
            k1: on_total(k1),
            k2: on_total(k2),
            kb: on_total(kb),
            kw: on_total(kw),
            ks,
            kf,
            kp: kp.map(|k| on_total(k)),
            ksi: on_total(ksi),
            knh4: on_total(knh4),
            kh2s: on_total(kh2s),
            ksp_aragonite: k::ksp_aragonite_mucci1983(&medium),
            ksp_calcite: k::ksp_calcite_mucci1983(&medium),
            fh: k::fh_takahashi1982(&medium),
            fugacity_coefficient: k::co2_fugacity_coefficient_weiss1974(&medium),
            boron,
            sulfate,
            fluoride,
            calcium: composition.calcium_mol_per_kg(salinity),
            phosphate: constant(bases.phosphate.mol_per_kg()),
            silicate: constant(bases.silicate.mol_per_kg()),
            ammonia: constant(bases.ammonia.mol_per_kg()),
            sulfide: constant(bases.sulfide.mol_per_kg()),
            free_to_total,
            free_to_seawater,
        };
        let bar = water.water_pressure().bar();
        if bar > 0.0 {
            set.move_to_depth(&medium, R::constant(bar));
        }
        set
    }

    /// Carries a set of the surface to a pressure of `bar` above the air's.
    ///
    /// The corrections of Millero (1995) hold on the seawater scale, those of KS
    /// and KF on the free scale; the total scale at depth follows from both.
    fn move_to_depth(&mut self, medium: &Medium<R>, bar: R) {
        let total_to_seawater = self.free_to_seawater / self.free_to_total;
        self.ks = self.ks * PressureEffect::KS.factor(medium, bar);
        self.kf = self.kf * PressureEffect::KF.factor(medium, bar);
        self.free_to_total = k::free_to_total(self.sulfate, self.ks);
        self.free_to_seawater = k::free_to_seawater(self.sulfate, self.ks, self.fluoride, self.kf);
        let scale = total_to_seawater * self.free_to_total / self.free_to_seawater;
        let [kp1, kp2, kp3] = &mut self.kp;
        for (constant, effect) in [
            (&mut self.k1, PressureEffect::K1),
            (&mut self.k2, PressureEffect::K2),
            (&mut self.kb, PressureEffect::KB),
            (&mut self.kw, PressureEffect::KW),
            (kp1, PressureEffect::KP1),
            (kp2, PressureEffect::KP2),
            (kp3, PressureEffect::KP3),
            (&mut self.ksi, PressureEffect::KSI),
            (&mut self.knh4, PressureEffect::KNH4),
            (&mut self.kh2s, PressureEffect::KH2S),
        ] {
            *constant = *constant * effect.factor(medium, bar) * scale;
        }
        self.ksp_aragonite = self.ksp_aragonite * PressureEffect::KSP_ARAGONITE.factor(medium, bar);
        self.ksp_calcite = self.ksp_calcite * PressureEffect::KSP_CALCITE.factor(medium, bar);
    }
}
