//! Every constant and total that the equations of the carbonate system use,
//! at one temperature, salinity and pressure, on the total scale (KS and KF on
//! the free scale).

use super::Bases;
use super::constants::{self as k, PressureEffect};
use super::medium::Medium;
use super::options::{Bisulfate, CarbonicAcid, EquilibriumOptions, HydrogenFluoride, TotalBoron};
use crate::quantity::PhScale;
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
    pub(crate) surface_seawater_to_total: R,
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

/// What sulfate and fluoride make of the pH scales.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Scales<R> {
    pub(crate) ks: R,
    pub(crate) kf: R,
    pub(crate) free_to_total: R,
    pub(crate) free_to_seawater: R,
    /// Hydrogen ion of the total scale per one of the seawater scale, without
    /// the pressure of the water column.
    pub(crate) surface_seawater_to_total: R,
    /// The same at depth.
    pub(crate) seawater_to_total: R,
}

impl<R: Real> Scales<R> {
    /// At `depth`, bar above the atmosphere; none is the surface.
    #[inline(always)]
    pub(crate) fn new(
        medium: &Medium<R>,
        [sulfate, fluoride]: [R; 2],
        (bisulfate, hydrogen_fluoride): (Bisulfate, HydrogenFluoride),
        depth: Option<R>,
    ) -> Self {
        let surface_ks = match bisulfate {
            Bisulfate::Dickson1990 => k::ks_dickson1990(medium),
            Bisulfate::Khoo1977 => k::ks_khoo1977(medium),
        };
        let surface_free_to_total = k::free_to_total(sulfate, surface_ks);
        let surface_kf = match hydrogen_fluoride {
            // Published on the total scale: Dickson, Sabine & Christian (2007) ch. 5.
            HydrogenFluoride::PerezFraga1987 => {
                k::kf_perez_fraga1987(medium) / surface_free_to_total
            }
            HydrogenFluoride::DicksonRiley1979 => k::kf_dickson_riley1979(medium),
        };
        let surface_seawater_to_total =
            surface_free_to_total / k::free_to_seawater(sulfate, surface_ks, fluoride, surface_kf);
        let ks = deepened(surface_ks, PressureEffect::KS, medium, depth);
        let kf = deepened(surface_kf, PressureEffect::KF, medium, depth);
        let free_to_total = k::free_to_total(sulfate, ks);
        let free_to_seawater = k::free_to_seawater(sulfate, ks, fluoride, kf);
        Self {
            ks,
            kf,
            free_to_total,
            free_to_seawater,
            surface_seawater_to_total,
            seawater_to_total: free_to_total / free_to_seawater,
        }
    }
}

/// The pressure correction alone, for constants without a pH scale to change.
#[inline(always)]
fn deepened<R: Real>(
    constant: R,
    effect: PressureEffect,
    medium: &Medium<R>,
    depth: Option<R>,
) -> R {
    match depth {
        Some(bar) => constant * effect.factor(medium, bar),
        None => constant,
    }
}

/// Carries published constants to the total scale and to depth.
///
/// The pressure corrections of Millero (1995) hold on the seawater scale; the
/// factors between scales are those of the same pressure.
pub(crate) struct Carrier<'a, R> {
    pub(crate) medium: &'a Medium<R>,
    /// Bar above the atmosphere; none is the surface.
    pub(crate) depth: Option<R>,
    pub(crate) surface_seawater_to_total: R,
    pub(crate) seawater_to_total: R,
}

impl<R: Real> Carrier<'_, R> {
    #[inline(always)]
    fn carry(&self, constant: Published<R>, effect: PressureEffect) -> R {
        if self.depth.is_some() {
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

    #[inline(always)]
    fn deepen(&self, constant: R, effect: PressureEffect) -> R {
        deepened(constant, effect, self.medium, self.depth)
    }

    /// \[K1, K2\] of carbonic acid.
    #[inline(always)]
    pub(crate) fn carbonic_acid(&self, choice: CarbonicAcid) -> [R; 2] {
        let medium = self.medium;
        let [k1, k2] = match choice {
            CarbonicAcid::Lueker2000 => k::k1_k2_lueker2000(medium).map(Published::Total),
            CarbonicAcid::DicksonMillero1987 => {
                k::k1_k2_dickson_millero1987(medium).map(Published::Seawater)
            }
            CarbonicAcid::Millero2010 => k::k1_k2_millero2010(medium).map(Published::Seawater),
            CarbonicAcid::Waters2014 => k::k1_k2_waters2014(medium).map(Published::Seawater),
            CarbonicAcid::Sulpis2020 => k::k1_k2_sulpis2020(medium).map(Published::Total),
        };
        [
            self.carry(k1, PressureEffect::K1),
            self.carry(k2, PressureEffect::K2),
        ]
    }

    #[inline(always)]
    pub(crate) fn boric_acid(&self) -> R {
        let kb = Published::Total(k::kb_dickson1990(self.medium));
        self.carry(kb, PressureEffect::KB)
    }

    #[inline(always)]
    pub(crate) fn water(&self) -> R {
        let kw = Published::Seawater(k::kw_millero1995(self.medium));
        self.carry(kw, PressureEffect::KW)
    }

    #[inline(always)]
    pub(crate) fn aragonite(&self) -> R {
        self.deepen(
            k::ksp_aragonite_mucci1983(self.medium),
            PressureEffect::KSP_ARAGONITE,
        )
    }

    #[inline(always)]
    pub(crate) fn calcite(&self) -> R {
        self.deepen(
            k::ksp_calcite_mucci1983(self.medium),
            PressureEffect::KSP_CALCITE,
        )
    }

    /// \[KP1, KP2, KP3\] of phosphoric acid.
    #[inline(always)]
    pub(crate) fn phosphoric_acid(&self) -> [R; 3] {
        let [kp1, kp2, kp3] = k::kp_yao_millero1995(self.medium).map(Published::Seawater);
        [
            self.carry(kp1, PressureEffect::KP1),
            self.carry(kp2, PressureEffect::KP2),
            self.carry(kp3, PressureEffect::KP3),
        ]
    }

    #[inline(always)]
    pub(crate) fn silicic_acid(&self) -> R {
        let ksi = Published::Seawater(k::ksi_yao_millero1995(self.medium));
        self.carry(ksi, PressureEffect::KSI)
    }

    #[inline(always)]
    pub(crate) fn ammonium(&self) -> R {
        let knh4 = Published::Total(k::knh4_clegg_whitfield1995(self.medium));
        self.carry(knh4, PressureEffect::KNH4)
    }

    #[inline(always)]
    pub(crate) fn hydrogen_sulfide(&self) -> R {
        let kh2s = Published::Total(k::kh2s_millero1988(self.medium));
        self.carry(kh2s, PressureEffect::KH2S)
    }
}

/// Total boron of this water where it was not measured.
#[inline(always)]
pub(crate) fn total_boron<R: Real>(choice: TotalBoron, medium: &Medium<R>) -> R {
    match choice {
        TotalBoron::Lee2010 => k::total_boron_lee2010(medium),
        TotalBoron::Uppstrom1974 => k::total_boron_uppstrom1974(medium),
    }
}

/// Pressure of the water column as a number of the relations; none at the surface.
#[inline]
fn depth<R: Real>(water: &Water) -> Option<R> {
    let bar = water.water_pressure().bar();
    (bar > 0.0).then(|| R::constant(bar))
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
            None => total_boron(options.total_boron, medium),
        };
        let depth = depth(water);
        let scales = Scales::new(
            medium,
            [sulfate, fluoride],
            (options.bisulfate, options.hydrogen_fluoride),
            depth,
        );
        let carrier = Carrier {
            medium,
            depth,
            surface_seawater_to_total: scales.surface_seawater_to_total,
            seawater_to_total: scales.seawater_to_total,
        };
        let [k1, k2] = carrier.carbonic_acid(options.carbonic_acid);
        Self {
            k0: k::k0_weiss1974(medium),
            k1,
            k2,
            kb: carrier.boric_acid(),
            kw: carrier.water(),
            ks: scales.ks,
            kf: scales.kf,
            ksp_aragonite: carrier.aragonite(),
            ksp_calcite: carrier.calcite(),
            fh: k::fh_takahashi1982(medium),
            fugacity_coefficient: k::co2_fugacity_coefficient_weiss1974(medium),
            boron,
            sulfate,
            fluoride,
            calcium: composition.calcium_mol_per_kg(salinity),
            free_to_total: scales.free_to_total,
            free_to_seawater: scales.free_to_seawater,
            surface_seawater_to_total: scales.surface_seawater_to_total,
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
        let carrier = Carrier {
            medium: &Medium::new(celsius, salinity),
            depth: depth(water),
            surface_seawater_to_total: self.surface_seawater_to_total,
            seawater_to_total: self.free_to_total / self.free_to_seawater,
        };
        MinorSet {
            kp: carrier.phosphoric_acid(),
            ksi: carrier.silicic_acid(),
            knh4: carrier.ammonium(),
            kh2s: carrier.hydrogen_sulfide(),
            phosphate: R::constant(bases.phosphate.mol_per_kg()),
            silicate: R::constant(bases.silicate.mol_per_kg()),
            ammonia: R::constant(bases.ammonia.mol_per_kg()),
            sulfide: R::constant(bases.sulfide.mol_per_kg()),
        }
    }
}

impl ConstantSet<f64> {
    /// Hydrogen ion on the total scale per hydrogen ion (activity, for NBS) on
    /// another: Dickson, Sabine & Christian (2007), ch. 2; NBS by fH.
    #[inline(always)]
    pub(crate) fn scale_to_total(&self, scale: PhScale) -> f64 {
        match scale {
            PhScale::Total => 1.0,
            PhScale::Free => self.free_to_total,
            PhScale::Seawater => self.free_to_total / self.free_to_seawater,
            PhScale::Nbs => self.free_to_total / (self.free_to_seawater * self.fh),
        }
    }
}
