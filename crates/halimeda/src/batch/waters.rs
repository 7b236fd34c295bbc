//! The constants of many waters at once.

// Every index of this file runs over 0..ROWS, the length of every array.
#![allow(clippy::indexing_slicing, clippy::needless_range_loop)]

use super::lane::Lane;
use super::plan::Needs;
use super::strip::{ROWS, Strip, chosen, fill};
use crate::carbonate::constant_set::{Carrier, ConstantSet, MinorSet, Scales, total_boron};
use crate::carbonate::constants as k;
use crate::carbonate::{
    Bisulfate, CarbonicAcid, EquilibriumOptions, HydrogenFluoride, Medium, TotalBoron,
};
use crate::water::Composition;
use crate::water::vapour::vapour_pressure_atm;

/// Waters of a strip: what is given of them, and the constants.
pub(super) struct Waters {
    pub(super) celsius: Strip,
    pub(super) salinity: Strip,
    pub(super) water_pressure_dbar: Strip,
    pub(super) air_pressure_atm: Strip,
    /// Calcium, sulfate, fluoride, boron, µmol/kg, where measured.
    pub(super) composition: [Strip; 4],
    /// Phosphate, silicate, ammonia, sulfide, µmol/kg.
    pub(super) bases: [Strip; 4],
    pub(super) set: ConstantSet<Strip>,
    pub(super) minor: MinorSet<Strip>,
    /// Pressure of the air without its vapour.
    pub(super) dry_atm: Strip,
    medium: Medium<Strip>,
    seawater_to_total: Strip,
}

impl Waters {
    pub(super) fn new() -> Self {
        const ONES: Strip = [1.0; ROWS];
        let medium = Medium {
            celsius: ONES,
            kelvin: ONES,
            inverse_kelvin: ONES,
            ln_kelvin: ONES,
            salinity: ONES,
            sqrt_salinity: ONES,
            ionic_strength: ONES,
            sqrt_ionic_strength: ONES,
            water_fraction: ONES,
        };
        Self {
            celsius: ONES,
            salinity: ONES,
            water_pressure_dbar: ONES,
            air_pressure_atm: ONES,
            composition: [ONES; 4],
            bases: [ONES; 4],
            set: ConstantSet {
                k0: ONES,
                k1: ONES,
                k2: ONES,
                kb: ONES,
                kw: ONES,
                ks: ONES,
                kf: ONES,
                ksp_aragonite: ONES,
                ksp_calcite: ONES,
                fh: ONES,
                fugacity_coefficient: ONES,
                boron: ONES,
                sulfate: ONES,
                fluoride: ONES,
                calcium: ONES,
                free_to_total: ONES,
                free_to_seawater: ONES,
                surface_seawater_to_total: ONES,
            },
            minor: MinorSet {
                kp: [ONES; 3],
                ksi: ONES,
                knh4: ONES,
                kh2s: ONES,
                phosphate: ONES,
                silicate: ONES,
                ammonia: ONES,
                sulfide: ONES,
            },
            dry_atm: ONES,
            medium,
            seawater_to_total: ONES,
        }
    }

    /// Computes what is needed of the constants. `measured` says which ions
    /// were, `bases` whether minor ones are in the water.
    #[inline(always)]
    pub(super) fn evaluate<const FUSED: bool>(
        &mut self,
        options: &EquilibriumOptions,
        needs: &Needs,
        measured: [bool; 4],
        bases: bool,
    ) {
        self.media::<FUSED>();
        self.totals::<FUSED>(options.total_boron, measured);
        if self.water_pressure_dbar.iter().any(|dbar| *dbar > 0.0) {
            self.constants::<FUSED, true>(options, needs, bases);
        } else {
            self.constants::<FUSED, false>(options, needs, bases);
        }
    }

    #[inline(always)]
    fn media<const FUSED: bool>(&mut self) {
        let medium = &mut self.medium;
        for i in 0..ROWS {
            let here = Medium::new(Lane::<FUSED>(self.celsius[i]), Lane(self.salinity[i]));
            medium.celsius[i] = here.celsius.0;
            medium.kelvin[i] = here.kelvin.0;
            medium.inverse_kelvin[i] = here.inverse_kelvin.0;
            medium.ln_kelvin[i] = here.ln_kelvin.0;
            medium.salinity[i] = here.salinity.0;
            medium.sqrt_salinity[i] = here.sqrt_salinity.0;
            medium.ionic_strength[i] = here.ionic_strength.0;
            medium.sqrt_ionic_strength[i] = here.sqrt_ionic_strength.0;
            medium.water_fraction[i] = here.water_fraction.0;
        }
    }

    #[inline(always)]
    fn totals<const FUSED: bool>(&mut self, boron_choice: TotalBoron, measured: [bool; 4]) {
        const REFERENCE: Composition = Composition::REFERENCE;
        let Self {
            set,
            medium,
            salinity,
            composition: [calcium, sulfate, fluoride, boron],
            ..
        } = self;
        let [has_calcium, has_sulfate, has_fluoride, has_boron] = measured;
        let mol = |umol: &Strip, i: usize| Lane::<FUSED>(umol[i] * 1e-6);
        let s = |i: usize| Lane::<FUSED>(salinity[i]);
        if has_calcium {
            fill(&mut set.calcium, |i| mol(calcium, i));
        } else {
            fill(&mut set.calcium, |i| REFERENCE.calcium_mol_per_kg(s(i)));
        }
        if has_sulfate {
            fill(&mut set.sulfate, |i| mol(sulfate, i));
        } else {
            fill(&mut set.sulfate, |i| REFERENCE.sulfate_mol_per_kg(s(i)));
        }
        if has_fluoride {
            fill(&mut set.fluoride, |i| mol(fluoride, i));
        } else {
            fill(&mut set.fluoride, |i| REFERENCE.fluoride_mol_per_kg(s(i)));
        }
        if has_boron {
            fill(&mut set.boron, |i| mol(boron, i));
        } else {
            chosen!(
                boron_choice,
                [TotalBoron::Lee2010, TotalBoron::Uppstrom1974],
                |choice| fill(&mut set.boron, |i| {
                    total_boron(choice, &medium.map(|x| Lane::<FUSED>(x[i])))
                })
            );
        }
    }

    #[inline(always)]
    fn constants<const FUSED: bool, const DEEP: bool>(
        &mut self,
        options: &EquilibriumOptions,
        needs: &Needs,
        bases: bool,
    ) {
        if needs.scales || needs.alkalinity || DEEP || bases {
            chosen!(
                options.bisulfate,
                [Bisulfate::Dickson1990, Bisulfate::Khoo1977],
                |bisulfate| chosen!(
                    options.hydrogen_fluoride,
                    [
                        HydrogenFluoride::PerezFraga1987,
                        HydrogenFluoride::DicksonRiley1979,
                    ],
                    |fluoride| self.scales::<FUSED, DEEP>(bisulfate, fluoride)
                )
            );
        }
        let Self {
            set,
            minor,
            medium,
            salinity,
            air_pressure_atm,
            bases: contents,
            dry_atm,
            water_pressure_dbar,
            seawater_to_total,
            ..
        } = self;
        let surface = &set.surface_seawater_to_total;
        let medium_at = |i: usize| medium.map(|x| Lane::<FUSED>(x[i]));
        macro_rules! carried {
            ([$($strip:expr),*], |$carrier:ident| $constants:expr) => {
                for i in 0..ROWS {
                    let $carrier = Carrier {
                        medium: &medium_at(i),
                        depth: DEEP.then(|| Lane(water_pressure_dbar[i] * 0.1)),
                        surface_seawater_to_total: Lane(surface[i]),
                        seawater_to_total: Lane(seawater_to_total[i]),
                    };
                    carried!(@store i, $constants, [$($strip),*]);
                }
            };
            (@store $i:ident, $constants:expr, [$one:expr]) => { $one[$i] = $constants.0; };
            (@store $i:ident, $constants:expr, [$a:expr, $b:expr]) => {
                let [a, b] = $constants;
                $a[$i] = a.0;
                $b[$i] = b.0;
            };
            (@store $i:ident, $constants:expr, [$a:expr, $b:expr, $c:expr]) => {
                let [a, b, c] = $constants;
                $a[$i] = a.0;
                $b[$i] = b.0;
                $c[$i] = c.0;
            };
        }
        chosen!(
            options.carbonic_acid,
            [
                CarbonicAcid::Lueker2000,
                CarbonicAcid::DicksonMillero1987,
                CarbonicAcid::Millero2010,
                CarbonicAcid::Waters2014,
                CarbonicAcid::Sulpis2020,
            ],
            |choice| carried!([set.k1, set.k2], |carrier| carrier.carbonic_acid(choice))
        );
        if needs.alkalinity {
            carried!([set.kb], |carrier| carrier.boric_acid());
            carried!([set.kw], |carrier| carrier.water());
        }
        if needs.aragonite {
            carried!([set.ksp_aragonite], |carrier| carrier.aragonite());
        }
        if needs.calcite {
            carried!([set.ksp_calcite], |carrier| carrier.calcite());
        }
        if bases && needs.alkalinity {
            let [kp1, kp2, kp3] = &mut minor.kp;
            carried!([kp1, kp2, kp3], |carrier| carrier.phosphoric_acid());
            carried!([minor.ksi], |carrier| carrier.silicic_acid());
            carried!([minor.knh4], |carrier| carrier.ammonium());
            carried!([minor.kh2s], |carrier| carrier.hydrogen_sulfide());
            let totals = [
                &mut minor.phosphate,
                &mut minor.silicate,
                &mut minor.ammonia,
                &mut minor.sulfide,
            ];
            for (total, umol) in totals.into_iter().zip(contents) {
                fill(total, |i| Lane::<FUSED>(umol[i] * 1e-6));
            }
        }
        if needs.k0 {
            fill(&mut set.k0, |i| k::k0_weiss1974(&medium_at(i)));
        }
        if needs.fugacity {
            fill(&mut set.fugacity_coefficient, |i| {
                k::co2_fugacity_coefficient_weiss1974(&medium_at(i))
            });
        }
        if needs.fh {
            fill(&mut set.fh, |i| k::fh_takahashi1982(&medium_at(i)));
        }
        if needs.vapour {
            fill(dry_atm, |i| {
                let kelvin = Lane::<FUSED>(medium.kelvin[i]);
                let vapour = vapour_pressure_atm(kelvin, Lane(salinity[i]));
                Lane(air_pressure_atm[i]) - vapour
            });
        }
    }

    #[inline(always)]
    fn scales<const FUSED: bool, const DEEP: bool>(
        &mut self,
        bisulfate: Bisulfate,
        hydrogen_fluoride: HydrogenFluoride,
    ) {
        let set = &mut self.set;
        for i in 0..ROWS {
            let scales = Scales::new(
                &self.medium.map(|x| Lane::<FUSED>(x[i])),
                [Lane(set.sulfate[i]), Lane(set.fluoride[i])],
                (bisulfate, hydrogen_fluoride),
                DEEP.then(|| Lane(self.water_pressure_dbar[i] * 0.1)),
            );
            set.ks[i] = scales.ks.0;
            set.kf[i] = scales.kf.0;
            set.free_to_total[i] = scales.free_to_total.0;
            set.free_to_seawater[i] = scales.free_to_seawater.0;
            set.surface_seawater_to_total[i] = scales.surface_seawater_to_total.0;
            self.seawater_to_total[i] = scales.seawater_to_total.0;
        }
    }
}
