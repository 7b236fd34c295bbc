use super::{MOL_PER_UMOL, OrganicMatter, michaelis_menten};
use crate::nutrient::PhotosyntheticQuotient;
use crate::parameter::parameters;

parameters! {
    /// Bacteria that grow on dosed organic carbon.
    BacteriaOnDosedCarbon {
        /// Growth per day at 25 °C, in plenty of everything.
        maximum_growth_per_day = 3.0 in 1.0..6.0, "1/d", "order of magnitude from memory";
        /// Content of dosed carbon at which growth runs at half its maximum.
        half_saturation_dosed_carbon_umol_per_kg = 20.0 in 5.0..100.0, "µmol/kg",
            "order of magnitude from memory";
        /// Total ammonia content that meets half the need of nitrogen.
        half_saturation_ammonia_umol_per_kg = 1.0 in 0.1..5.0, "µmol/kg",
            "order of magnitude from memory";
        /// Nitrate content that meets half the need of nitrogen left by ammonia.
        half_saturation_nitrate_umol_per_kg = 3.0 in 0.5..10.0, "µmol/kg",
            "order of magnitude from memory";
        /// Phosphate content at which growth runs at half its maximum.
        half_saturation_phosphate_umol_per_kg = 0.1 in 0.02..0.5, "µmol/kg",
            "order of magnitude from memory";
        /// Oxygen content at which growth runs at half its maximum.
        half_saturation_oxygen_umol_per_kg = 10.0 in 3.0..30.0, "µmol/kg",
            "order of magnitude from memory";
        /// Carbon in new cells per dosed carbon consumed.
        yield_mol_per_mol = 0.45 in 0.4..0.5 min 0.01 max 1.0, "mol/mol",
            "heterotrophs on simple substrates, from memory";
        /// Carbon per nitrogen in the cells.
        carbon_to_nitrogen = 6.0 in 5.0..7.0 min 0.1, "mol/mol",
            "C5H7O2N has 5; marine bacteria, from memory";
        /// Carbon per phosphorus in the cells.
        carbon_to_phosphorus = 70.0 in 50.0..100.0 min 0.1, "mol/mol", "marine bacteria, from memory";
        /// Oxygen that burns a mole of the dosed carbon: ethanol 1.5, acetate and sugar 1.
        oxygen_per_dosed_carbon = 1.5 in 1.0..1.5, "mol/mol", "C2H6O + 3 O2 -> 2 CO2 + 3 H2O";
        /// Share of the bacteria that dies, is grazed or lysed per day at 25 °C.
        death_per_day = 0.3 in 0.1..1.0, "1/d", "order of magnitude from memory";
        /// Bacterial carbon always there to grow from, beside what grew on the dose.
        background_carbon_umol_per_kg = 2.0 in 1.0..5.0, "µmol/kg",
            "10⁹ cells/kg of 20 fg C, from memory";
        /// Growth of the rates for 10 °C.
        q10 = 2.0 in 1.5..3.0 min 0.1, "1", "common value, from memory";
    }
}

/// What bacteria find in the water, mol/kg.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct BacterialSupply {
    /// Dosed organic carbon.
    pub dosed_carbon: f64,
    /// Total ammonia.
    pub ammonia: f64,
    /// Nitrate.
    pub nitrate: f64,
    /// Phosphate.
    pub phosphate: f64,
    /// Oxygen.
    pub oxygen: f64,
}

/// Growth of bacteria on dosed carbon, mol/d.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct BacterialRates {
    /// Carbon into cells.
    pub growth_carbon: f64,
    /// Dosed carbon consumed.
    pub dosed_carbon: f64,
    /// Dissolved inorganic carbon produced.
    pub respired_carbon: f64,
    /// Ammonia taken up.
    pub ammonia: f64,
    /// Nitrate taken up.
    pub nitrate: f64,
    /// Phosphate taken up.
    pub phosphate: f64,
    /// Oxygen consumed, before the two moles each mole of nitrate saves: those are
    /// in [`Process::NitrateUptake`](crate::nutrient::Process::NitrateUptake).
    pub oxygen: f64,
}

/// Growth of bacteria on dosed carbon and what it takes up.
///
/// g = μ (B + B₀) f(t) S(carbon) S(phosphate) S(oxygen) N, each S a saturation
/// c/(K + c) (Monod 1949, Annu. Rev. Microbiol. 3, 371-394); nitrogen is met by
/// ammonia first and by nitrate for the rest, N = S(ammonia) + (1 - S(ammonia))
/// S(nitrate). Cells are oxidised later with a quotient of 1.1, so that the oxygen
/// of the whole path is that of burning what was dosed.
#[inline]
#[must_use]
pub fn bacterial_rates(
    bacterial_carbon_mol: f64,
    supply: BacterialSupply,
    water_kg: f64,
    temperature_factor: f64,
    parameters: &BacteriaOnDosedCarbon,
) -> BacterialRates {
    let p = parameters;
    let half = |umol: f64| umol * MOL_PER_UMOL;
    let from_ammonia =
        michaelis_menten(supply.ammonia, half(p.half_saturation_ammonia_umol_per_kg));
    let from_nitrate = (1.0 - from_ammonia)
        * michaelis_menten(supply.nitrate, half(p.half_saturation_nitrate_umol_per_kg));
    let cells =
        bacterial_carbon_mol.max(0.0) + p.background_carbon_umol_per_kg * MOL_PER_UMOL * water_kg;
    let potential = p.maximum_growth_per_day
        * temperature_factor
        * cells
        * michaelis_menten(
            supply.dosed_carbon,
            half(p.half_saturation_dosed_carbon_umol_per_kg),
        )
        * michaelis_menten(
            supply.phosphate,
            half(p.half_saturation_phosphate_umol_per_kg),
        )
        * michaelis_menten(supply.oxygen, half(p.half_saturation_oxygen_umol_per_kg));
    let growth_carbon = potential * (from_ammonia + from_nitrate);
    let dosed_carbon = growth_carbon / p.yield_mol_per_mol;
    let nitrogen = potential / p.carbon_to_nitrogen;
    BacterialRates {
        growth_carbon,
        dosed_carbon,
        respired_carbon: dosed_carbon - growth_carbon,
        ammonia: nitrogen * from_ammonia,
        nitrate: nitrogen * from_nitrate,
        phosphate: growth_carbon / p.carbon_to_phosphorus,
        oxygen: dosed_carbon * p.oxygen_per_dosed_carbon
            - growth_carbon * PhotosyntheticQuotient::ALGAL_BIOMASS.oxygen_per_carbon(),
    }
}

/// Bacteria that die, into dissolved organic matter, mol/d: first order.
#[inline]
#[must_use]
pub fn bacterial_death(
    bacterial_carbon_mol: f64,
    temperature_factor: f64,
    parameters: &BacteriaOnDosedCarbon,
) -> OrganicMatter {
    let carbon = bacterial_carbon_mol * parameters.death_per_day * temperature_factor;
    OrganicMatter {
        carbon,
        nitrogen: carbon / parameters.carbon_to_nitrogen,
        phosphorus: carbon / parameters.carbon_to_phosphorus,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const SUPPLY: BacterialSupply = BacterialSupply {
        dosed_carbon: 50e-6,
        ammonia: 0.5e-6,
        nitrate: 80e-6,
        phosphate: 0.8e-6,
        oxygen: 2e-4,
    };

    fn rates(supply: BacterialSupply) -> BacterialRates {
        bacterial_rates(1e-3, supply, 200.0, 1.0, &BacteriaOnDosedCarbon::default())
    }

    #[test]
    fn carbon_nitrogen_and_phosphorus_close() {
        let r = rates(SUPPLY);
        assert!((r.growth_carbon + r.respired_carbon - r.dosed_carbon).abs() < 1e-18);
        assert!((r.growth_carbon / r.dosed_carbon - 0.45).abs() < 1e-14);
        assert!((r.growth_carbon / (r.ammonia + r.nitrate) - 6.0).abs() < 1e-12);
        assert!((r.growth_carbon / r.phosphate - 70.0).abs() < 1e-12);
    }

    #[test]
    fn oxygen_of_the_whole_path_is_that_of_burning_the_dose() {
        let r = rates(SUPPLY);
        let cells_burnt = 1.1 * r.growth_carbon;
        assert!(((r.oxygen + cells_burnt) / r.dosed_carbon - 1.5).abs() < 1e-12);
    }

    #[test]
    fn ammonia_is_preferred() {
        let plenty = rates(BacterialSupply {
            ammonia: 1.0,
            ..SUPPLY
        });
        assert!(plenty.nitrate < 1e-5 * plenty.ammonia);
        let without = rates(BacterialSupply {
            ammonia: 0.0,
            ..SUPPLY
        });
        assert_eq!(without.ammonia, 0.0);
        assert!(without.nitrate > 0.0);
    }

    #[test]
    fn lacking_anything_stops_growth() {
        for supply in [
            BacterialSupply {
                dosed_carbon: 0.0,
                ..SUPPLY
            },
            BacterialSupply {
                dosed_carbon: -1e-9,
                ..SUPPLY
            },
            BacterialSupply {
                ammonia: 0.0,
                nitrate: 0.0,
                ..SUPPLY
            },
            BacterialSupply {
                phosphate: 0.0,
                ..SUPPLY
            },
            BacterialSupply {
                oxygen: 0.0,
                ..SUPPLY
            },
        ] {
            assert_eq!(rates(supply), BacterialRates::default());
        }
    }

    #[test]
    fn the_dead_have_the_ratios_of_the_living() {
        let p = BacteriaOnDosedCarbon::default();
        let dead = bacterial_death(1e-3, 2.0, &p);
        assert!((dead.carbon - 6e-4).abs() < 1e-18);
        assert!((dead.carbon / dead.nitrogen - 6.0).abs() < 1e-12);
        assert!((dead.carbon / dead.phosphorus - 70.0).abs() < 1e-12);
    }
}
