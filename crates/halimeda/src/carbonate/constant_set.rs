//! Every constant and total that the equations of the carbonate system use,
//! at one temperature, salinity and pressure, on the total scale (KS and KF on
//! the free scale).

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
    /// 1 + ST/KS.
    pub(crate) free_to_total: R,
    /// 1 + ST/KS + FT/KF.
    pub(crate) free_to_seawater: R,
    /// Hydrogen ion of the total scale per one of the seawater scale, without
    /// the pressure of the water column.
    surface_seawater_to_total: R,
}

/// Constants and totals of the acid-base systems that most waters hold little
/// of; evaluated only where one is present, for they cost as many exponentials
/// as all the others.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct MinorSet<R> {
    pub(crate) kp: [R; 3],
    pub(crate) ksi: R,
    pub(crate) knh4: R,
    pub(crate) kh2s: R,
    pub(crate) phosphate: R,
    pub(crate) silicate: R,
    pub(crate) ammonia: R,
    pub(crate) sulfide: R,
}

/// A constant at the surface, with the pH scale its paper gives it on.
enum Published<R> {
    Total(R),
    Seawater(R),
}

/// Carries published constants to the total scale and to depth.
///
/// The pressure corrections of Millero (1995) hold on the seawater scale; the
/// factors between scales are those of the same pressure.
struct Carrier<'a, R> {
    medium: &'a Medium<R>,
    bar: f64,
    surface_seawater_to_total: R,
    seawater_to_total: R,
}

impl<R: Real> Carrier<'_, R> {
    #[inline]
    fn carry(&self, constant: Published<R>, effect: PressureEffect) -> R {
        if self.bar > 0.0 {
            let seawater = match constant {
                Published::Total(k) => k / self.surface_seawater_to_total,
                Published::Seawater(k) => k,
            };
            return self.deepen(seawater, effect) * self.seawater_to_total;
        }
        match constant {
            Published::Total(k) => k,
            Published::Seawater(k) => k * self.seawater_to_total,
        }
    }

    /// The pressure correction alone, for constants without a pH scale to change.
    #[inline]
    fn deepen(&self, constant: R, effect: PressureEffect) -> R {
        if self.bar > 0.0 {
            constant * effect.factor(self.medium, R::constant(self.bar))
        } else {
            constant
        }
    }
}

impl<R: Real> ConstantSet<R> {
    /// Evaluates every relation at `celsius` and `salinity`; pressure,
    /// composition and choices come from the arguments. Range checks are the
    /// caller's.
    #[inline]
    pub(crate) fn evaluate(
        water: &Water,
        options: &EquilibriumOptions,
        celsius: R,
        salinity: R,
    ) -> Self {
        let medium = &Medium::new(celsius, salinity);
        let composition = water.composition();
        let sulfate = composition.sulfate_mol_per_kg(salinity);
        let fluoride = composition.fluoride_mol_per_kg(salinity);
        let boron = match composition.measured_boron() {
            Some(content) => R::constant(content.mol_per_kg()),
            None => match options.total_boron {
                TotalBoron::Lee2010 => k::total_boron_lee2010(medium),
                TotalBoron::Uppstrom1974 => k::total_boron_uppstrom1974(medium),
            },
        };

        let surface_ks = match options.bisulfate {
            Bisulfate::Dickson1990 => k::ks_dickson1990(medium),
            Bisulfate::Khoo1977 => k::ks_khoo1977(medium),
        };
        let surface_free_to_total = k::free_to_total(sulfate, surface_ks);
        let surface_kf = match options.hydrogen_fluoride {
            // Published on the total scale: Dickson, Sabine & Christian (2007) ch. 5.
            HydrogenFluoride::PerezFraga1987 => {
                k::kf_perez_fraga1987(medium) / surface_free_to_total
            }
            HydrogenFluoride::DicksonRiley1979 => k::kf_dickson_riley1979(medium),
        };
        let mut carrier = Carrier {
            medium,
            bar: water.water_pressure().bar(),
            surface_seawater_to_total: surface_free_to_total
                / k::free_to_seawater(sulfate, surface_ks, fluoride, surface_kf),
            seawater_to_total: R::constant(1.0),
        };
        let ks = carrier.deepen(surface_ks, PressureEffect::KS);
        let kf = carrier.deepen(surface_kf, PressureEffect::KF);
        let free_to_total = k::free_to_total(sulfate, ks);
        let free_to_seawater = k::free_to_seawater(sulfate, ks, fluoride, kf);
        carrier.seawater_to_total = free_to_total / free_to_seawater;

        let [k1, k2] = match options.carbonic_acid {
            CarbonicAcid::Lueker2000 => k::k1_k2_lueker2000(medium).map(Published::Total),
            CarbonicAcid::DicksonMillero1987 => {
                k::k1_k2_dickson_millero1987(medium).map(Published::Seawater)
            }
            CarbonicAcid::Millero2010 => k::k1_k2_millero2010(medium).map(Published::Seawater),
            CarbonicAcid::Waters2014 => k::k1_k2_waters2014(medium).map(Published::Seawater),
            CarbonicAcid::Sulpis2020 => k::k1_k2_sulpis2020(medium).map(Published::Total),
        };
        let kb = Published::Total(k::kb_dickson1990(medium));
        let kw = Published::Seawater(k::kw_millero1995(medium));
        Self {
            k0: k::k0_weiss1974(medium),
            k1: carrier.carry(k1, PressureEffect::K1),
            k2: carrier.carry(k2, PressureEffect::K2),
            kb: carrier.carry(kb, PressureEffect::KB),
            kw: carrier.carry(kw, PressureEffect::KW),
            ks,
            kf,
            ksp_aragonite: carrier.deepen(
                k::ksp_aragonite_mucci1983(medium),
                PressureEffect::KSP_ARAGONITE,
            ),
            ksp_calcite: carrier.deepen(
                k::ksp_calcite_mucci1983(medium),
                PressureEffect::KSP_CALCITE,
            ),
            fh: k::fh_takahashi1982(medium),
            fugacity_coefficient: k::co2_fugacity_coefficient_weiss1974(medium),
            boron,
            sulfate,
            fluoride,
            calcium: composition.calcium_mol_per_kg(salinity),
            free_to_total,
            free_to_seawater,
            surface_seawater_to_total: carrier.surface_seawater_to_total,
        }
    }

    /// The minor systems of the same water.
    pub(crate) fn minor(
        &self,
        water: &Water,
        bases: &Bases,
        celsius: R,
        salinity: R,
    ) -> MinorSet<R> {
        let medium = &Medium::new(celsius, salinity);
        let carrier = Carrier {
            medium,
            bar: water.water_pressure().bar(),
            surface_seawater_to_total: self.surface_seawater_to_total,
            seawater_to_total: self.free_to_total / self.free_to_seawater,
        };
        let [kp1, kp2, kp3] = k::kp_yao_millero1995(medium).map(Published::Seawater);
        let ksi = Published::Seawater(k::ksi_yao_millero1995(medium));
        let knh4 = Published::Total(k::knh4_clegg_whitfield1995(medium));
        let kh2s = Published::Total(k::kh2s_millero1988(medium));
        MinorSet {
            kp: [
                carrier.carry(kp1, PressureEffect::KP1),
                carrier.carry(kp2, PressureEffect::KP2),
                carrier.carry(kp3, PressureEffect::KP3),
            ],
            ksi: carrier.carry(ksi, PressureEffect::KSI),
            knh4: carrier.carry(knh4, PressureEffect::KNH4),
            kh2s: carrier.carry(kh2s, PressureEffect::KH2S),
            phosphate: R::constant(bases.phosphate.mol_per_kg()),
            silicate: R::constant(bases.silicate.mol_per_kg()),
            ammonia: R::constant(bases.ammonia.mol_per_kg()),
            sulfide: R::constant(bases.sulfide.mol_per_kg()),
        }
    }
}
