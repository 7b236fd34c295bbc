//! Dosing: stoichiometry against pharmacopoeias and labels, states against an
//! independent package, limits and properties.

#![allow(clippy::unwrap_used, clippy::panic, clippy::float_cmp)]

use halimeda::carbonate::{Bases, CarbonateState, EquilibriumOptions, HydrogenFluoride, Solutions};
use halimeda::dosing::{
    Addition, Amount, BalancedDose, Caution, Consumption, DoseLimits, DosePlan, DosedSystem, Limit,
    Measure, ReactorEffluent, Salt, Supplement, Target, alkalinity_fall_per_day,
    carbonate_dissolved_by_co2, content_fall_per_day, limewater_mol_per_l,
};
use halimeda::nutrient::CarbonateComposition;
use halimeda::{
    Alkalinity, Composition, Concentration, Content, ErrorKind, Extrapolation, Mass, NbsScale,
    PartialPressureCo2, Ph, PracticalSalinity, SaturationState, Temperature, TotalScale, Volume,
    Water, form, species,
};
use halimeda_tests::states::{random_state, uniform};

#[track_caller]
fn close(found: f64, published: f64, tolerance: f64) {
    assert!(
        (found - published).abs() <= tolerance,
        "found {found}, published {published} ± {tolerance}"
    );
}

fn celsius(t: f64) -> Temperature {
    Temperature::from_celsius(t).unwrap()
}

fn umol(x: f64) -> Alkalinity {
    Alkalinity::from_umol_per_kg(x).unwrap()
}

fn kg(x: f64) -> Mass {
    Mass::from_kilograms(x).unwrap()
}

fn uatm(x: f64) -> PartialPressureCo2 {
    PartialPressureCo2::from_uatm(x).unwrap()
}

/// A solution's millilitre, or a solid's gram.
fn one(supplement: &Supplement) -> Addition {
    let amount = match supplement.measure() {
        Measure::Gram => Amount::Grams(1.0),
        Measure::Millilitre => Amount::Millilitres(1.0),
    };
    supplement.dose(amount).unwrap().addition()
}

/// Molar masses printed in United States Pharmacopeia monographs (USP 28 to 35)
/// and labels where marked; the others in the CRC Handbook of Chemistry and
/// Physics, physical constants of inorganic compounds, from memory.
const MOLAR_MASSES: [(Salt, f64); 15] = [
    (Salt::SodiumBicarbonate, 84.01),             // from memory
    (Salt::SodiumCarbonate, 105.99),              // USP 28, Sodium Carbonate
    (Salt::SodiumHydroxide, 40.00),               // USP 28, Sodium Hydroxide
    (Salt::CalciumHydroxide, 74.09),              // USP 28, Calcium Hydroxide
    (Salt::CalciumChloride, 110.98),              // from memory
    (Salt::CalciumChlorideDihydrate, 147.02),     // label of Calcium Chloride Injection USP 10 %
    (Salt::MagnesiumChlorideHexahydrate, 203.30), // from memory
    (Salt::MagnesiumSulfateHeptahydrate, 246.47), // from memory
    (Salt::SodiumNitrate, 84.99),                 // from memory
    (Salt::PotassiumNitrate, 101.10),             // from memory
    (Salt::CalciumNitrateTetrahydrate, 236.15),   // from memory
    (Salt::MonosodiumPhosphate, 119.98),          // from memory
    (Salt::DisodiumPhosphate, 141.96),            // from memory
    (Salt::MonopotassiumPhosphate, 136.09),       // from memory
    (Salt::DipotassiumPhosphate, 174.18),         // from memory
];

#[test]
fn molar_masses() {
    assert_eq!(MOLAR_MASSES.len(), Salt::ALL.len());
    for (salt, g_per_mol) in MOLAR_MASSES {
        close(salt.molar_mass_g_per_mol(), g_per_mol, 0.015);
    }
}

/// Acid that neutralises a base, as pharmacopoeias assay it: mg per
/// milliequivalent.
#[test]
fn alkalinity_by_pharmacopoeial_titration() {
    let mg_per_meq = |supplement: &Supplement| 1.0 / one(supplement).alkalinity_eq;
    // Sodium Bicarbonate Injection USP 8.4 %, label: "Sodium bicarbonate, 84 mg is equal to one
    // milliequivalent each of Na+ and HCO3-".
    close(
        mg_per_meq(&Supplement::solid(Salt::SodiumBicarbonate)),
        84.0,
        0.05,
    );
    // USP 28, Sodium Carbonate: 1 mL of 1 N acid is equivalent to 52.99 mg.
    close(
        mg_per_meq(&Supplement::solid(Salt::SodiumCarbonate)),
        52.99,
        0.01,
    );
    // USP 28, Sodium Hydroxide: 1 mL of 1 N acid is equivalent to 40.00 mg.
    close(
        mg_per_meq(&Supplement::solid(Salt::SodiumHydroxide)),
        40.00,
        0.01,
    );
    // British Pharmacopoeia 2025, Calcium Hydroxide Solution: 1 mL of 0.1 M acid is equivalent
    // to 3.705 mg.
    close(
        0.1 * mg_per_meq(&Supplement::solid(Salt::CalciumHydroxide)),
        3.705,
        0.001,
    );
    // USP 29, Sodium Phosphates Injection: 1 mL of 0.1 N acid (to pH 4) is equivalent to
    // 26.81 mg of Na2HPO4·7H2O, molar mass 268.07 (from memory).
    let heptahydrate =
        Supplement::solid_of_purity(Salt::DisodiumPhosphate, 141.957 / 268.07).unwrap();
    close(0.1 * mg_per_meq(&heptahydrate), 26.81, 0.01);
}

/// Contents that labels of pharmacopoeial solutions state per millilitre.
#[test]
fn ions_by_pharmaceutical_labels() {
    // Sodium Bicarbonate Injection: 7.5 % is 0.892 meq/mL, 8.4 % is 1 meq/mL.
    for (g_per_l, meq) in [(75.0, 0.892), (84.0, 1.0)] {
        let soda = one(&Supplement::solution(Salt::SodiumBicarbonate, g_per_l).unwrap());
        close(soda.alkalinity_eq * 1e3, meq, 0.001);
        close(soda.sodium_mol * 1e3, meq, 0.001);
        close(soda.inorganic_carbon_mol * 1e3, meq, 0.001);
    }
    // Calcium Chloride Injection USP 10 %: 100 mg dihydrate, 13.6 meq of Ca and of Cl in 10 mL,
    // 27 mg Ca in 1 mL.
    let calcium = one(&Supplement::solution(Salt::CalciumChlorideDihydrate, 100.0).unwrap());
    close(2.0 * calcium.calcium_mol * 1e4, 13.6, 0.05);
    close(calcium.chloride_mol * 1e4, 13.6, 0.05);
    close(calcium.calcium_mol * 40.078e3, 27.0, 0.5);
    // Magnesium Chloride Injection: 200 mg hexahydrate, 1.97 meq of Mg and of Cl in 1 mL.
    let magnesium = one(&Supplement::solution(Salt::MagnesiumChlorideHexahydrate, 200.0).unwrap());
    close(2.0 * magnesium.magnesium_mol * 1e3, 1.97, 0.005);
    close(magnesium.chloride_mol * 1e3, 1.97, 0.005);
    // Magnesium Sulfate Injection USP 50 %: 4.06 meq of Mg and of SO4 in 1 mL (from memory).
    let sulfate = one(&Supplement::solution(Salt::MagnesiumSulfateHeptahydrate, 500.0).unwrap());
    close(2.0 * sulfate.magnesium_mol * 1e3, 4.06, 0.005);
    close(2.0 * sulfate.sulfate_mol * 1e3, 4.06, 0.005);
    // Potassium Phosphates Injection USP: 224 mg KH2PO4 and 236 mg K2HPO4, 3 mmol P (93 mg),
    // 4.4 meq K in 1 mL.
    let potassium = one(&Supplement::solution_blend(&[
        (Salt::MonopotassiumPhosphate, 224.0),
        (Salt::DipotassiumPhosphate, 236.0),
    ])
    .unwrap());
    close(potassium.phosphate_mol * 1e3, 3.0, 0.01);
    close(potassium.potassium_mol * 1e3, 4.4, 0.05);
    // Sodium Phosphates Injection USP: 276 mg NaH2PO4·H2O (2 mmol; 239.95 mg anhydrous) and
    // 142 mg Na2HPO4, 3 mmol P, 4 meq Na in 1 mL.
    let sodium = one(&Supplement::solution_blend(&[
        (Salt::MonosodiumPhosphate, 239.95),
        (Salt::DisodiumPhosphate, 142.0),
    ])
    .unwrap());
    close(sodium.phosphate_mol * 1e3, 3.0, 0.01);
    close(sodium.sodium_mol * 1e3, 4.0, 0.01);
    // Nitrogen by mass of fertiliser salts (handbooks, from memory): NaNO3 16.48 %, KNO3 13.85 %,
    // Ca(NO3)2·4H2O 11.86 %.
    for (salt, percent) in [
        (Salt::SodiumNitrate, 16.48),
        (Salt::PotassiumNitrate, 13.85),
        (Salt::CalciumNitrateTetrahydrate, 11.86),
    ] {
        let nitrate = one(&Supplement::solid(salt)).nitrate_mol;
        close(nitrate * 14.007 * 100.0, percent, 0.01);
    }
}

/// One gram of sodium bicarbonate is 11.90 meq (1/84.007; a standard figure,
/// from memory); 1 dKH in 100 L takes 3.0 g (common practice, no source).
#[test]
fn common_figures() {
    let soda = Supplement::solid(Salt::SodiumBicarbonate);
    close(one(&soda).alkalinity_eq * 1e3, 11.90, 0.005);
    // A reactor brings 20 mg/L of calcium with 1 meq/L (common practice, no source).
    let dissolved =
        carbonate_dissolved_by_co2(50.04e-3, CarbonateComposition::CALCIUM_ONLY).unwrap();
    close(dissolved.alkalinity_eq * 1e3, 1.0, 0.001);
    close(dissolved.calcium_mol * 40.078e3, 20.0, 0.1);
    close(
        dissolved.inorganic_carbon_mol,
        dissolved.alkalinity_eq,
        1e-18,
    );
}

#[test]
fn strength_of_limewater() {
    let g_per_l = |t| limewater_mol_per_l(celsius(t)).unwrap() * 74.093;
    // Bates, Bower & Smith (1956) J. Res. NBS 56, 305-312, abstract: "the saturated solution is
    // about 0.0203 M" at 25 °C.
    close(limewater_mol_per_l(celsius(25.0)).unwrap(), 0.0203, 1e-9);
    // USP 28, Calcium Hydroxide Topical Solution: not less than 140 mg in 100 mL, based upon
    // 25 °C; "about 170 mg per 100 mL at 15 °C and less at a higher temperature".
    assert!(g_per_l(25.0) >= 1.40);
    close(g_per_l(15.0), 1.70, 0.06 * 1.70);
    // British Pharmacopoeia 2025, Calcium Hydroxide Solution: not less than 0.15 % w/v.
    assert!(g_per_l(25.0) >= 1.50);
    // Printed solubility tables (g per 100 g of water): 0.185, 0.165, 0.141 at 0, 20, 40 °C; others
    // have 0.173 at 20 °C. The change with temperature is theirs, so it agrees closer than they do.
    for (t, table) in [(0.0, 1.85), (20.0, 1.65), (40.0, 1.41)] {
        close(g_per_l(t), table, 0.06 * table);
        close(g_per_l(t) / g_per_l(20.0), table / 1.65, 0.004);
    }
    for t in [-0.1, 40.1] {
        let refused = limewater_mol_per_l(celsius(t)).unwrap_err();
        assert!(refused.is_out_of_range());
    }
}

/// The water the table below was computed for.
fn reference_tank() -> CarbonateState {
    let water = Water::new(celsius(25.5), PracticalSalinity::new(35.0).unwrap()).with_composition(
        Composition::REFERENCE.with_calcium(Content::from_umol_per_kg(10_300.0).unwrap()),
    );
    let options = EquilibriumOptions {
        hydrogen_fluoride: HydrogenFluoride::DicksonRiley1979,
        ..EquilibriumOptions::default()
    };
    water
        .equilibria(&options)
        .unwrap()
        .with_bases(Bases {
            phosphate: Content::from_umol_per_kg(0.5).unwrap(),
            ..Bases::NONE
        })
        .unwrap()
        .solve(
            umol(2750.0),
            Content::<species::InorganicCarbon>::from_umol_per_kg(2420.0).unwrap(),
        )
        .unwrap()
}

/// Computed with PyCO2SYS 1.8.3.4 (Humphreys et al. 2022, doi
/// 10.5194/gmd-15-15-2022) from alkalinity, inorganic carbon, salinity and ions
/// booked independently: constants of Lueker et al. (2000), Dickson (1990),
/// Dickson & Riley (1979), boron of Lee et al. (2010); 200 kg of the reference
/// tank. Salt, grams; at once: S, alkalinity, pH(total), aragonite saturation,
/// pCO2; at 450 µatm: pH(total), aragonite saturation, inorganic carbon.
#[allow(clippy::type_complexity)]
const BLACK_BOX: [(Salt, f64, [f64; 5], [f64; 3]); 8] = [
    (
        Salt::SodiumBicarbonate,
        10.0,
        [35.049765, 3345.1972, 7.945879, 4.22317, 770.054],
        [8.136944, 5.94922, 2861.952],
    ),
    (
        Salt::SodiumCarbonate,
        5.0,
        [35.024883, 3221.7536, 8.244118, 6.82570, 315.101],
        [8.123545, 5.59455, 2763.969],
    ),
    (
        Salt::SodiumHydroxide,
        4.0,
        [35.019906, 3250.0404, 8.496665, 9.88179, 142.568],
        [8.126697, 5.67661, 2786.510],
    ),
    (
        Salt::CalciumHydroxide,
        4.0,
        [35.019906, 3289.8694, 8.525373, 10.64818, 131.163],
        [8.131063, 5.94370, 2818.180],
    ),
    (
        Salt::CalciumChlorideDihydrate,
        20.0,
        [35.075137, 2750.0000, 8.015183, 4.17770, 519.447],
        [8.066032, 4.57410, 2385.152],
    ),
    (
        Salt::DisodiumPhosphate,
        1.0,
        [35.004977, 2785.2219, 8.009204, 3.87434, 527.527],
        [8.065507, 4.28323, 2381.062],
    ),
    (
        Salt::MagnesiumSulfateHeptahydrate,
        50.0,
        [35.121514, 2750.0000, 8.014783, 3.91296, 519.849],
        [8.065903, 4.28629, 2384.959],
    ),
    (
        Salt::PotassiumNitrate,
        2.0,
        [35.009953, 2750.0000, 8.015744, 3.92720, 518.886],
        [8.066214, 4.29699, 2385.421],
    ),
];

#[test]
fn states_at_once_and_after_equilibration() {
    let system = DosedSystem::new(reference_tank(), kg(200.0), uatm(450.0)).unwrap();
    for (salt, grams, at_once, equilibrated) in BLACK_BOX {
        let dose = Supplement::solid(salt).dose(Amount::Grams(grams)).unwrap();
        let effect = system.effect(&DosePlan::new(&[dose], 1).unwrap()).unwrap();
        let [s, alkalinity, ph, saturation, pco2] = at_once;
        close(effect.before.ph_total().value(), 8.015830, 2e-6);
        close(effect.at_once.salinity().value(), s, 1e-6);
        close(effect.at_once.alkalinity().umol_per_kg(), alkalinity, 1e-4);
        close(effect.at_once.ph_total().value(), ph, 2e-6);
        let found = effect.at_once.aragonite_saturation().value();
        close(found, saturation, 5e-6 * saturation);
        let found = effect.at_once.partial_pressure_co2().uatm();
        close(found, pco2, 5e-6 * pco2);
        let [ph, saturation, carbon] = equilibrated;
        close(effect.equilibrated.ph_total().value(), ph, 2e-6);
        let found = effect.equilibrated.aragonite_saturation().value();
        close(found, saturation, 5e-6 * saturation);
        close(
            effect.equilibrated.inorganic_carbon().umol_per_kg(),
            carbon,
            2e-3,
        );
        // One portion, nothing consumed: the day without exchange is the portion.
        assert_eq!(effect.without_exchange, effect.at_once);
    }
}

#[test]
fn every_supplement_is_neutral() {
    // Alkalinity is booked by Dickson's (1981) zero level, the ions by formula; the explicit
    // conservative expression of Wolf-Gladrow et al. (2007) must join the two.
    let mut rng = fastrand::Rng::with_seed(1);
    for salt in Salt::ALL {
        let addition = salt.per_mol();
        assert_eq!(addition.alkalinity_eq, addition.conservative_charge_eq());
        assert!(addition.salt_g > 0.0 && addition.salt_g <= salt.molar_mass_g_per_mol());
    }
    let blends = [
        Supplement::magnesium_blend(),
        Supplement::solution_blend(&[
            (Salt::SodiumBicarbonate, 40.0),
            (Salt::SodiumCarbonate, 20.0),
        ])
        .unwrap(),
        Supplement::solid_blend(&[
            (Salt::PotassiumNitrate, uniform(&mut rng, 1.0, 9.0)),
            (Salt::MonopotassiumPhosphate, 1.0),
        ])
        .unwrap(),
        Supplement::limewater(celsius(22.0)).unwrap(),
    ];
    for blend in blends {
        let addition = one(&blend);
        close(
            addition.conservative_charge_eq(),
            addition.alkalinity_eq,
            1e-15,
        );
    }
    let medium = CarbonateComposition::new(0.04, 0.01).unwrap();
    let dissolved = carbonate_dissolved_by_co2(100.0, medium).unwrap();
    close(
        dissolved.conservative_charge_eq(),
        dissolved.alkalinity_eq,
        1e-15,
    );
}

#[test]
fn magnesium_blend_keeps_the_ratio_of_seawater() {
    let blend = one(&Supplement::magnesium_blend());
    // Millero et al. (2008), table 4: 0.0292643 SO4 to 0.5657647 Cl.
    close(
        blend.sulfate_mol / blend.chloride_mol,
        0.0292643 / 0.5657647,
        1e-12,
    );
}

#[test]
fn doses_are_linear_and_invert() {
    let mut rng = fastrand::Rng::with_seed(2);
    let part = |addition: &Addition, target: &Target| match target {
        Target::Alkalinity(_) => addition.alkalinity_eq,
        Target::Calcium(_) => addition.calcium_mol,
        Target::Magnesium(_) => addition.magnesium_mol,
        Target::Nitrate(_) => addition.nitrate_mol,
        _ => addition.phosphate_mol,
    };
    for _ in 0..200 {
        let water = kg(uniform(&mut rng, 10.0, 1e4));
        let rise = uniform(&mut rng, 1.0, 500.0);
        let targets = [
            Target::Alkalinity(umol(rise)),
            Target::Calcium(Content::from_umol_per_kg(rise).unwrap()),
            Target::Magnesium(Content::from_umol_per_kg(rise).unwrap()),
            Target::Nitrate(Content::from_umol_per_kg(rise).unwrap()),
            Target::Phosphate(Content::from_umol_per_kg(rise).unwrap()),
        ];
        for salt in Salt::ALL {
            let solid = Supplement::solid(salt);
            for target in targets {
                let brings = part(&one(&solid), &target) > 0.0;
                let dose = solid.dose_for(target, water);
                assert_eq!(dose.is_ok(), brings);
                if let Ok(dose) = dose {
                    let found = part(&dose.addition(), &target) / water.kilograms() * 1e6;
                    close(found, rise, 1e-12 * rise);
                    let half = dose.share(0.5).unwrap().addition();
                    assert_eq!(half + half, dose.addition());
                } else {
                    assert!(dose.unwrap_err().is_contradictory());
                }
            }
        }
    }
}

#[test]
fn dose_reaches_its_target_in_the_water() {
    let tank = reference_tank();
    let density = tank.equilibria().water().density().unwrap();
    let water = kg(300.0);
    let system = DosedSystem::new(tank, water, uatm(500.0)).unwrap();
    let dose = Supplement::solution(Salt::SodiumCarbonate, 100.0)
        .unwrap()
        .dose_for(
            Target::Alkalinity(Alkalinity::from_dkh(0.5, density).unwrap()),
            water,
        )
        .unwrap();
    let effect = system.effect(&DosePlan::new(&[dose], 4).unwrap()).unwrap();
    let dkh = |w: &halimeda::dosing::DosedWater| w.alkalinity().dkh(density);
    close(dkh(&effect.equilibrated) - dkh(&effect.before), 0.5, 1e-9);
    close(dkh(&effect.at_once) - dkh(&effect.before), 0.125, 1e-9);
    let calcium = Concentration::<form::CalciumAsCa>::from_mg_per_l(15.0).unwrap();
    let dose = Supplement::solid(Salt::CalciumChlorideDihydrate)
        .dose_for(Target::Calcium(calcium.to_content(density)), water)
        .unwrap();
    let effect = system.effect(&DosePlan::new(&[dose], 1).unwrap()).unwrap();
    let rise = effect.equilibrated.calcium().mol_per_kg() - effect.before.calcium().mol_per_kg();
    close(rise * 40.078e3 * density.kg_per_l(), 15.0, 1e-9);
}

#[test]
fn nothing_dosed_changes_nothing() {
    let mut rng = fastrand::Rng::with_seed(3);
    for _ in 0..500 {
        let state = random_state(&mut rng).unwrap();
        let system = DosedSystem::new(state, kg(100.0), state.partial_pressure_co2());
        let Ok(system) = system else { continue };
        let dose = Supplement::solid(Salt::SodiumBicarbonate)
            .dose(Amount::Grams(0.0))
            .unwrap();
        let effect = system.effect(&DosePlan::new(&[dose], 1).unwrap()).unwrap();
        let before = effect.before;
        for after in [effect.at_once, effect.without_exchange, effect.equilibrated] {
            close(after.ph_total().value(), before.ph_total().value(), 1e-10);
            close(
                after.alkalinity().umol_per_kg(),
                before.alkalinity().umol_per_kg(),
                1e-6,
            );
            let saturation = before.aragonite_saturation().value();
            close(
                after.aragonite_saturation().value(),
                saturation,
                1e-9 * saturation,
            );
            assert_eq!(after.salinity(), before.salinity());
        }
    }
}

#[test]
fn signs_of_the_ph_effect() {
    // Bicarbonate lowers pH at once, carbonate and hydroxides raise it; all raise it after
    // equilibration (Zeebe & Wolf-Gladrow 2001, CO2 in Seawater, sec. 1.5, from memory).
    let tank = reference_tank();
    let system = DosedSystem::new(tank, kg(200.0), tank.partial_pressure_co2()).unwrap();
    for (salt, rises) in [
        (Salt::SodiumBicarbonate, false),
        (Salt::SodiumCarbonate, true),
        (Salt::SodiumHydroxide, true),
        (Salt::CalciumHydroxide, true),
    ] {
        let dose = Supplement::solid(salt)
            .dose_for(Target::Alkalinity(umol(150.0)), kg(200.0))
            .unwrap();
        let effect = system.effect(&DosePlan::new(&[dose], 1).unwrap()).unwrap();
        let ph = |w: halimeda::dosing::DosedWater| w.ph_total().value();
        assert_eq!(ph(effect.at_once) > ph(effect.before), rises, "{salt:?}");
        assert!(ph(effect.equilibrated) > ph(effect.before));
        close(ph(effect.equilibrated_undosed), ph(effect.before), 1e-9);
    }
}

fn corals() -> Consumption {
    Consumption::by_calcification(umol(300.0), CarbonateComposition::new(0.02, 0.009).unwrap())
        .unwrap()
}

#[test]
fn balanced_doses_leave_only_table_salt() {
    let water = kg(200.0);
    let dose = BalancedDose::new(
        &corals(),
        water,
        &Supplement::solution(Salt::SodiumBicarbonate, 80.0).unwrap(),
        &Supplement::solid(Salt::CalciumChloride),
        &Supplement::solid(Salt::MagnesiumChlorideHexahydrate),
    )
    .unwrap();
    let left = dose.left_behind();
    let eq = 300e-6 * 200.0;
    for zero in [
        left.alkalinity_eq,
        left.calcium_mol,
        left.magnesium_mol,
        left.sulfate_mol,
    ] {
        close(zero, 0.0, 1e-15);
    }
    // 2 NaHCO3 + CaCl2 -> CaCO3 + 2 NaCl + CO2 + H2O, but for the strontium nobody dosed.
    close(left.sodium_mol, eq, 1e-12);
    close(left.chloride_mol, eq * (1.0 - 0.009), 1e-12);
    close(left.strontium_mol, -0.5 * 0.009 * eq, 1e-12);
    close(left.inorganic_carbon_mol, 0.5 * eq, 1e-12);
}

#[test]
fn limewater_balances_by_itself() {
    let water = kg(200.0);
    let lime = Supplement::limewater(celsius(25.0)).unwrap();
    let consumption =
        Consumption::by_calcification(umol(300.0), CarbonateComposition::CALCIUM_ONLY).unwrap();
    let dose = BalancedDose::new(
        &consumption,
        water,
        &lime,
        &Supplement::solid(Salt::CalciumChloride),
        &Supplement::magnesium_blend(),
    )
    .unwrap();
    // 60 meq at 40.6 meq/L.
    assert!(
        matches!(dose.alkalinity().amount(), Amount::Millilitres(ml) if (ml - 1477.8).abs() < 0.1)
    );
    let left = dose.left_behind();
    assert!(matches!(dose.calcium().amount(), Amount::Grams(g) if g < 1e-12));
    assert_eq!(dose.magnesium().amount(), Amount::Grams(0.0));
    close(left.sodium_mol, 0.0, 1e-15);
    close(left.calcium_mol, 0.0, 1e-15);
    // It brings no carbon: calcification draws on the CO2 of air and animals.
    close(left.inorganic_carbon_mol, -0.03, 1e-12);
    // A base in the place of the calcium supplement would be dosed twice.
    let refused = BalancedDose::new(&consumption, water, &lime, &lime, &lime).unwrap_err();
    assert!(refused.is_contradictory());
}

#[test]
fn consumption_from_readings() {
    let fall = alkalinity_fall_per_day(umol(2800.0), umol(2650.0), 1.5).unwrap();
    close(fall.umol_per_kg(), 100.0, 1e-9);
    let nitrate = content_fall_per_day(
        Content::<species::Nitrate>::from_umol_per_kg(60.0).unwrap(),
        Content::from_umol_per_kg(40.0).unwrap(),
        4.0,
    )
    .unwrap();
    close(nitrate.umol_per_kg(), 5.0, 1e-12);
    assert!(
        alkalinity_fall_per_day(umol(2600.0), umol(2650.0), 1.0)
            .unwrap_err()
            .is_contradictory()
    );
    for days in [0.0, 0.1, 61.0, f64::NAN, -1.0] {
        assert!(alkalinity_fall_per_day(umol(2800.0), umol(2650.0), days).is_err());
    }
    // A claim that would let an overdose pass.
    let absurd = Consumption::by_calcification(umol(5000.0), CarbonateComposition::CALCIUM_ONLY);
    assert_eq!(absurd.unwrap_err().limits(), Some((0.0, 2000.0)));
}

#[test]
fn reactor_effluent() {
    let tank = reference_tank();
    let density = tank.equilibria().water().density().unwrap();
    let effluent = |dkh: f64, ph: f64| {
        ReactorEffluent::new(
            &tank,
            Alkalinity::from_dkh(dkh, density).unwrap(),
            Ph::<TotalScale>::new(ph).unwrap(),
            Volume::from_litres(10.0).unwrap(),
            CarbonateComposition::CALCIUM_ONLY,
        )
    };
    let reactor = effluent(28.0, 6.5).unwrap();
    let per_day = reactor.per_day();
    let mass = 10.0 * density.kg_per_l();
    let rise = Alkalinity::from_dkh(28.0, density).unwrap().mol_per_kg() - 2750e-6;
    close(per_day.alkalinity_eq, rise * mass, 1e-12);
    close(per_day.calcium_mol, 0.5 * rise * mass, 1e-12);
    // CaCO3: 100.086 g/mol, half a mole per equivalent.
    close(
        reactor.medium_dissolved_g_per_day(),
        0.5 * rise * mass * 100.086,
        1e-3,
    );
    // At least the mole of CO2 per mole of carbonate that 2 HCO3- need; more at a lower pH.
    assert!(reactor.carbon_dioxide_mol_per_day() > per_day.calcium_mol);
    let wasteful = effluent(28.0, 6.3).unwrap();
    assert!(wasteful.carbon_dioxide_mol_per_day() > reactor.carbon_dioxide_mol_per_day());
    assert!(wasteful.aragonite_saturation() < reactor.aragonite_saturation());
    // In the tank: alkalinity up, pH down at first, up again in the room's CO2.
    let system = DosedSystem::new(tank, kg(400.0), uatm(450.0)).unwrap();
    let effect = system.effect(&DosePlan::reactor(&reactor)).unwrap();
    assert!(effect.without_exchange.ph_total() < effect.before.ph_total());
    assert!(effect.equilibrated.ph_total() > effect.equilibrated_undosed.ph_total());
    // Readings that contradict: effluent weaker than the tank, or too basic to dissolve carbonate.
    assert!(effluent(7.0, 6.5).unwrap_err().is_out_of_range());
    assert!(effluent(28.0, 7.8).unwrap_err().is_contradictory());
    assert!(reactor.cautions().contains(Caution::CarbonDioxideInRooms));
}

/// A tank whose alkalinity is low, 300 kg, in a room of 500 µatm.
fn low_system() -> DosedSystem {
    let water = Water::new(celsius(25.5), PracticalSalinity::new(35.0).unwrap());
    let state = water
        .equilibria(&EquilibriumOptions::default())
        .unwrap()
        .solve(umol(2400.0), uatm(500.0))
        .unwrap();
    DosedSystem::new(state, kg(300.0), uatm(500.0)).unwrap()
}

fn plan(system: &DosedSystem, salt: Salt, target: Target, portions: u32) -> DosePlan {
    let dose = Supplement::solid(salt)
        .dose_for(target, system.water())
        .unwrap();
    DosePlan::new(&[dose], portions).unwrap()
}

#[test]
fn each_daily_limit_refuses_just_above_itself() {
    let system = low_system();
    let density = system.state().equilibria().water().density().unwrap();
    let limits = DoseLimits::default();
    let calcium = |mg: f64| {
        Target::Calcium(
            Concentration::<form::CalciumAsCa>::from_mg_per_l(mg)
                .unwrap()
                .to_content(density),
        )
    };
    let magnesium = |mg: f64| {
        Target::Magnesium(
            Concentration::<form::MagnesiumAsMg>::from_mg_per_l(mg)
                .unwrap()
                .to_content(density),
        )
    };
    let nitrate = |mg: f64| {
        Target::Nitrate(
            Concentration::<form::NitrateAsNo3>::from_mg_per_l(mg)
                .unwrap()
                .to_content(density),
        )
    };
    let phosphate = |mg: f64| {
        Target::Phosphate(
            Concentration::<form::PhosphateAsPo4>::from_mg_per_l(mg)
                .unwrap()
                .to_content(density),
        )
    };
    let alkalinity = |x: f64| Target::Alkalinity(umol(x));
    type MakeTarget<'a> = &'a dyn Fn(f64) -> Target;
    let cases: [(Salt, MakeTarget<'_>, Limit); 5] = [
        (
            Salt::SodiumBicarbonate,
            &alkalinity,
            Limit::AlkalinityPerDay,
        ),
        (
            Salt::CalciumChlorideDihydrate,
            &calcium,
            Limit::CalciumPerDay,
        ),
        (
            Salt::MagnesiumChlorideHexahydrate,
            &magnesium,
            Limit::MagnesiumPerDay,
        ),
        (Salt::SodiumNitrate, &nitrate, Limit::NitratePerDay),
        (
            Salt::MonopotassiumPhosphate,
            &phosphate,
            Limit::PhosphatePerDay,
        ),
    ];
    for (salt, target, limit) in cases {
        let allowed = limit.default_value();
        let at = plan(&system, salt, target(allowed), 1);
        let verdict = system.judge(&at, &limits).unwrap();
        assert!(verdict.is_accepted(), "{salt:?}: {:?}", verdict.accepted());
        assert_eq!(verdict.accepted().unwrap(), *verdict.effect());
        let above = plan(&system, salt, target(1.02 * allowed), 1);
        let verdict = system.judge(&above, &limits).unwrap();
        let excess = verdict.excesses().next().unwrap();
        assert_eq!(excess.limit(), limit);
        close(excess.value(), 1.02 * allowed, 1e-6 * allowed);
        assert!(!excess.is_past_hard_value());
        assert!(excess.to_string().contains(limit.name()));
        let error = verdict.accepted().unwrap_err();
        assert_eq!(error.input(), limit.name());
        assert_eq!(error.limits(), Some((0.0, allowed)));
        // In as many days as it takes, it passes.
        let correction = system
            .correction(&Supplement::solid(salt), target(2.5 * allowed), &limits)
            .unwrap();
        assert_eq!(correction.days(), 3);
        let day = system.judge(correction.plan(), &limits).unwrap();
        assert!(day.is_accepted());
        let total = correction.total().addition() * (1.0 / 3.0);
        close(
            correction.plan().per_day().salt_g,
            total.salt_g,
            1e-9 * total.salt_g,
        );
    }
}

/// A plan that breaks each limit that the daily test does not, and what it reaches.
#[test]
fn each_other_limit_refuses() {
    let water = Water::new(celsius(25.5), PracticalSalinity::new(35.0).unwrap());
    let at = |water: Water, alkalinity: f64, ph: f64| {
        let state = water
            .equilibria(&EquilibriumOptions::default())
            .unwrap()
            .solve(umol(alkalinity), Ph::<TotalScale>::new(ph).unwrap())
            .unwrap();
        DosedSystem::new(state, kg(300.0), state.partial_pressure_co2()).unwrap()
    };
    let alkalinity = |x: f64| Target::Alkalinity(umol(x));
    let magnesium = |x: f64| Target::Magnesium(Content::from_umol_per_kg(x).unwrap());
    let rich_in_magnesium = water.with_composition(
        Composition::REFERENCE.with_magnesium(Content::from_umol_per_kg(60_000.0).unwrap()),
    );
    let default = DoseLimits::default();
    let dry = default.with_evaporation_per_day(Volume::from_litres(0.02).unwrap());
    let steady = default.with_practical_salinity_per_day(0.05).unwrap();
    let soda = Supplement::solid(Salt::SodiumBicarbonate);
    let ash = Supplement::solid(Salt::SodiumCarbonate);
    let bottle = Supplement::solution(Salt::SodiumCarbonate, 50.0).unwrap();
    let epsom = Supplement::solid(Salt::MagnesiumSulfateHeptahydrate);
    let cases = [
        (
            at(water, 2000.0, 8.36),
            ash,
            alkalinity(90.0),
            1,
            default,
            Limit::PhCeiling,
        ),
        (
            at(water, 2500.0, 7.71),
            soda,
            alkalinity(340.0),
            1,
            default,
            Limit::PhFloor,
        ),
        (
            at(water, 2500.0, 8.0),
            ash,
            alkalinity(340.0),
            1,
            default,
            Limit::PhStep,
        ),
        (
            at(water, 1200.0, 8.38),
            ash,
            alkalinity(340.0),
            288,
            default,
            Limit::PhWithoutExchange,
        ),
        (
            at(water, 2500.0, 8.0),
            epsom,
            magnesium(1900.0),
            1,
            steady,
            Limit::SalinityPerDay,
        ),
        (
            at(water, 4100.0, 7.9),
            soda,
            alkalinity(200.0),
            1,
            default,
            Limit::AlkalinityCeiling,
        ),
        (
            at(rich_in_magnesium, 2500.0, 8.0),
            epsom,
            magnesium(500.0),
            1,
            default,
            Limit::MagnesiumCeiling,
        ),
        (
            at(water, 2500.0, 8.0),
            bottle,
            alkalinity(100.0),
            8,
            dry,
            Limit::SolutionPerDay,
        ),
    ];
    for (system, supplement, target, portions, limits, limit) in cases {
        let dose = supplement.dose_for(target, system.water()).unwrap();
        let plan = DosePlan::new(&[dose], portions).unwrap();
        let verdict = system.judge(&plan, &limits).unwrap();
        let excess = verdict.excesses().find(|e| e.limit() == limit);
        let excess = excess.unwrap_or_else(|| {
            panic!(
                "{limit:?} among {:?}",
                verdict.excesses().collect::<Vec<_>>()
            )
        });
        assert_eq!(excess.allowed(), limits.value(limit));
        assert_eq!(excess.value() < excess.allowed(), limit.is_floor());
        assert!(!verdict.is_accepted());
        let effect = verdict.effect();
        let reached = match limit {
            Limit::PhCeiling | Limit::PhFloor => effect.at_once.ph_total().value(),
            Limit::PhWithoutExchange => effect.without_exchange.ph_total().value(),
            Limit::PhStep => effect.at_once.ph_total().value() - effect.before.ph_total().value(),
            Limit::SalinityPerDay => {
                effect.equilibrated.salinity().value() - effect.before.salinity().value()
            }
            Limit::AlkalinityCeiling => effect.equilibrated.alkalinity().umol_per_kg(),
            Limit::SolutionPerDay => plan.solution_litres_per_day(),
            _ => continue,
        };
        assert_eq!(excess.value(), reached);
    }
}

#[test]
fn consumption_offsets_the_daily_rise() {
    let system = low_system();
    let dose = Supplement::solid(Salt::SodiumBicarbonate)
        .dose_for(Target::Alkalinity(umol(600.0)), system.water())
        .unwrap();
    let limits = DoseLimits::default();
    let bare = DosePlan::new(&[dose], 4).unwrap();
    assert!(!system.judge(&bare, &limits).unwrap().is_accepted());
    let consumption =
        Consumption::by_calcification(umol(600.0), CarbonateComposition::CALCIUM_ONLY).unwrap();
    let verdict = system
        .judge(&bare.with_consumption(consumption), &limits)
        .unwrap();
    assert!(verdict.is_accepted(), "{:?}", verdict.accepted());
    close(verdict.effect().net_per_kg.alkalinity_eq, 0.0, 1e-15);
    close(verdict.effect().net_per_kg.calcium_mol, -300e-6, 1e-12);
}

#[test]
fn hydroxide_is_split_and_then_refused() {
    let system = low_system();
    let limits = DoseLimits::default();
    let lye = Supplement::solution(Salt::SodiumHydroxide, 40.0).unwrap();
    let dose = lye
        .dose_for(Target::Alkalinity(umol(250.0)), system.water())
        .unwrap();
    let at_once = system
        .judge(&DosePlan::new(&[dose], 1).unwrap(), &limits)
        .unwrap();
    assert!(at_once.excesses().any(|e| e.limit() == Limit::PhStep));
    let split = system
        .fewest_doses(&[dose], Consumption::NONE, &limits)
        .unwrap();
    assert!(split.doses_per_day() > 1);
    let verdict = system.judge(&split, &limits).unwrap();
    let effect = verdict.accepted().unwrap();
    let step = effect.at_once.ph_total().value() - effect.before.ph_total().value();
    assert!(step > 0.0 && step <= Limit::PhStep.default_value());
    // A little less often would not do.
    let fewer = DosePlan::new(&[dose], split.doses_per_day() - 1).unwrap();
    let fewer = system.judge(&fewer, &limits).unwrap();
    assert!(split.doses_per_day() == 2 || fewer.excesses().any(|e| e.limit() == Limit::PhStep));
    // Too much for the day however it is split: the water would not take up the CO2.
    let limits = limits.with_alkalinity_per_day(umol(1000.0)).unwrap();
    let dose = lye
        .dose_for(Target::Alkalinity(umol(900.0)), system.water())
        .unwrap();
    let refused = system
        .fewest_doses(&[dose], Consumption::NONE, &limits)
        .unwrap_err();
    assert_eq!(refused.input(), Limit::PhWithoutExchange.name());
    let verdict = system
        .judge(&DosePlan::new(&[dose], 1440).unwrap(), &limits)
        .unwrap();
    assert!(
        verdict
            .excesses()
            .any(|e| e.limit() == Limit::PhWithoutExchange && e.is_past_hard_value())
    );
}

#[test]
fn saturation_ceiling() {
    // Moras et al. (2022), doi 10.5194/bg-19-3537-2022, abstract: seawater dosed with lime
    // precipitated above an aragonite saturation of 7, and did not at about 5.
    let limit = Limit::AragoniteSaturation;
    assert_eq!(limit.default_value(), 7.0);
    assert!(limit.source().contains("10.5194/bg-19-3537-2022"));
    let water = Water::new(celsius(25.5), PracticalSalinity::new(35.0).unwrap());
    let state = |saturation: f64| {
        let both = water
            .equilibria(&EquilibriumOptions::default())
            .unwrap()
            .solve_all(
                umol(3600.0),
                SaturationState::<halimeda::Aragonite>::new(saturation).unwrap(),
            )
            .unwrap();
        match both {
            // The other is water of pH above 10.
            Solutions::Two { lower_ph, .. } => lower_ph,
            other => panic!("{other:?}"),
        }
    };
    let judge = |saturation: f64, salt: Salt| {
        let state = state(saturation);
        let system = DosedSystem::new(state, kg(300.0), state.partial_pressure_co2()).unwrap();
        let rise = plan(&system, salt, Target::Alkalinity(umol(100.0)), 1);
        system.judge(&rise, &DoseLimits::default()).unwrap()
    };
    assert!(judge(5.0, Salt::SodiumCarbonate).is_accepted());
    let high = judge(6.8, Salt::SodiumCarbonate);
    assert!(high.excesses().any(|e| e.limit() == limit));
    // A salt that brings no carbonate is not blamed for what was there before.
    let state = state(7.5);
    let system = DosedSystem::new(state, kg(300.0), state.partial_pressure_co2()).unwrap();
    let nitrate = plan(
        &system,
        Salt::SodiumNitrate,
        Target::Nitrate(Content::from_umol_per_kg(10.0).unwrap()),
        1,
    );
    let verdict = system.judge(&nitrate, &DoseLimits::default()).unwrap();
    assert!(verdict.is_accepted(), "{:?}", verdict.accepted());
}

#[test]
fn the_room_is_not_the_doses_doing() {
    // Water rich in CO2 in a room of fresh air: its pH rises past no ceiling because of a
    // magnesium dose.
    let water = Water::new(celsius(25.5), PracticalSalinity::new(35.0).unwrap());
    let state = water
        .equilibria(&EquilibriumOptions::default())
        .unwrap()
        .solve(umol(4100.0), Ph::<TotalScale>::new(7.75).unwrap())
        .unwrap();
    let system = DosedSystem::new(state, kg(300.0), uatm(150.0)).unwrap();
    let dose = Supplement::magnesium_blend()
        .dose_for(
            Target::Magnesium(Content::from_umol_per_kg(500.0).unwrap()),
            system.water(),
        )
        .unwrap();
    let verdict = system
        .judge(&DosePlan::new(&[dose], 1).unwrap(), &DoseLimits::default())
        .unwrap();
    assert!(verdict.effect().equilibrated.ph_total().value() > Limit::PhCeiling.hard_value());
    assert!(verdict.is_accepted(), "{:?}", verdict.accepted());
}

#[test]
fn ceilings_refuse_a_goal_however_slowly() {
    let system = low_system();
    let limits = DoseLimits::default();
    let refused = system
        .correction(
            &Supplement::solid(Salt::SodiumBicarbonate),
            Target::Alkalinity(umol(2200.0)),
            &limits
                .with_aragonite_saturation(SaturationState::new(10.0).unwrap())
                .unwrap(),
        )
        .unwrap_err();
    assert!(refused.is_out_of_range());
    assert_eq!(refused.input(), Limit::AlkalinityCeiling.name());
    let refused = system
        .correction(
            &Supplement::solid(Salt::CalciumChloride),
            Target::Calcium(Content::from_umol_per_kg(3000.0).unwrap()),
            &limits,
        )
        .unwrap_err();
    assert_eq!(refused.input(), Limit::CalciumCeiling.name());
    // With patience a large but sane rise is planned, portions and all.
    let correction = system
        .correction(
            &Supplement::solid(Salt::SodiumCarbonate),
            Target::Alkalinity(umol(700.0)),
            &limits,
        )
        .unwrap();
    assert!(correction.days() >= 2);
    assert!(
        system
            .judge(correction.plan(), &limits)
            .unwrap()
            .is_accepted()
    );
}

#[test]
fn limewater_needs_evaporation_to_replace() {
    let system = low_system();
    let lime = Supplement::limewater(celsius(24.0)).unwrap();
    let dose = lime.dose(Amount::Millilitres(1500.0)).unwrap();
    let plan = DosePlan::new(&[dose], 288)
        .unwrap()
        .with_consumption(corals());
    let limits = DoseLimits::default();
    let unsaid = system.judge(&plan, &limits).unwrap_err();
    assert!(matches!(unsaid.kind(), ErrorKind::Uninformative { .. }));
    let enough = limits.with_evaporation_per_day(Volume::from_litres(2.0).unwrap());
    let verdict = system.judge(&plan, &enough).unwrap();
    assert!(verdict.is_accepted(), "{:?}", verdict.accepted());
    let dry = limits.with_evaporation_per_day(Volume::from_litres(1.0).unwrap());
    let verdict = system.judge(&plan, &dry).unwrap();
    let excess = verdict.excesses().next().unwrap();
    assert_eq!(excess.limit(), Limit::SolutionPerDay);
    assert!(excess.is_past_hard_value());
    assert!(plan.cautions().contains(Caution::ClearLimewaterOnly));
    // Limewater by another name is limewater.
    let renamed = Supplement::solution(Salt::CalciumHydroxide, 1.5).unwrap();
    assert!(renamed.is_limewater());
}

#[test]
fn hard_values_cannot_be_set_aside() {
    let limits = DoseLimits::default();
    assert!(limits.with_alkalinity_per_day(umol(1051.0)).is_err());
    assert!(limits.with_ph_step(0.21).is_err());
    assert!(limits.with_ph_ceiling(Ph::new(8.51).unwrap()).is_err());
    assert!(limits.with_ph_floor(Ph::new(7.59).unwrap()).is_err());
    assert!(
        limits
            .with_ph_without_exchange(Ph::new(8.71).unwrap())
            .is_err()
    );
    assert!(
        limits
            .with_aragonite_saturation(SaturationState::new(10.1).unwrap())
            .is_err()
    );
    assert!(
        limits
            .with_calcium_per_day(Concentration::from_mg_per_l(51.0).unwrap())
            .is_err()
    );
    assert!(
        limits
            .with_magnesium_per_day(Concentration::from_mg_per_l(101.0).unwrap())
            .is_err()
    );
    assert!(
        limits
            .with_nitrate_per_day(Concentration::from_mg_per_l(5.1).unwrap())
            .is_err()
    );
    assert!(
        limits
            .with_phosphate_per_day(Concentration::from_mg_per_l(0.11).unwrap())
            .is_err()
    );
    assert!(limits.with_alkalinity_ceiling(umol(4901.0)).is_err());
    assert!(
        limits
            .with_calcium_ceiling(Concentration::from_mg_per_l(551.0).unwrap())
            .is_err()
    );
    assert!(
        limits
            .with_magnesium_ceiling(Concentration::from_mg_per_l(1601.0).unwrap())
            .is_err()
    );
    for rise in [1.1, f64::NAN, -0.1] {
        assert!(limits.with_practical_salinity_per_day(rise).is_err());
    }
    // Tightened, it holds.
    let strict = limits.with_ph_step(0.02).unwrap();
    assert_eq!(strict.value(Limit::PhStep), 0.02);
    for limit in Limit::ALL {
        assert_eq!(limits.value(limit), limit.default_value());
        let ordered = if limit.is_floor() {
            limit.hard_value() <= limit.default_value()
        } else {
            limit.hard_value() >= limit.default_value()
        };
        assert!(ordered && !limit.source().is_empty());
    }
}

#[test]
fn bad_questions_are_refused() {
    let solid = Supplement::solid(Salt::SodiumCarbonate);
    for grams in [f64::NAN, f64::INFINITY, -1.0] {
        assert!(solid.dose(Amount::Grams(grams)).is_err());
    }
    // A solid in millilitres, a solution in grams.
    assert!(
        solid
            .dose(Amount::Millilitres(5.0))
            .unwrap_err()
            .is_contradictory()
    );
    let solution = Supplement::solution(Salt::SodiumCarbonate, 100.0).unwrap();
    assert!(
        solution
            .dose(Amount::Grams(5.0))
            .unwrap_err()
            .is_contradictory()
    );
    // Strengths that do not exist. Saturated at 40 °C (printed solubility table, g per 100 g of
    // water): NaHCO3 12.7, Na2CO3 48.5, KNO3 63.9, NaNO3 104, NaOH 129.
    for (salt, g_per_l) in [
        (Salt::SodiumBicarbonate, 128.0),
        (Salt::SodiumCarbonate, 486.0),
        (Salt::PotassiumNitrate, 640.0),
        (Salt::SodiumNitrate, 1041.0),
        (Salt::SodiumHydroxide, 1291.0),
        (Salt::CalciumHydroxide, 2.0),
        (Salt::SodiumBicarbonate, 0.0),
        (Salt::SodiumBicarbonate, f64::NAN),
    ] {
        assert!(Supplement::solution(salt, g_per_l).is_err(), "{salt:?}");
    }
    // Parts that precipitate in the bottle.
    for (a, b) in [
        (Salt::SodiumBicarbonate, Salt::CalciumChlorideDihydrate),
        (Salt::SodiumHydroxide, Salt::MagnesiumChlorideHexahydrate),
        (Salt::CalciumChloride, Salt::MagnesiumSulfateHeptahydrate),
        (Salt::CalciumNitrateTetrahydrate, Salt::MonosodiumPhosphate),
    ] {
        for blend in [
            Supplement::solution_blend(&[(a, 10.0), (b, 10.0)]),
            Supplement::solid_blend(&[(a, 10.0), (b, 10.0)]),
        ] {
            assert!(blend.unwrap_err().is_contradictory(), "{a:?} with {b:?}");
        }
    }
    assert!(Supplement::solid_blend(&[]).is_err());
    for purity in [0.0, 1.01, f64::NAN] {
        assert!(Supplement::solid_of_purity(Salt::CalciumChloride, purity).is_err());
    }
    let dose = solid.dose(Amount::Grams(1.0)).unwrap();
    assert!(DosePlan::new(&[], 1).is_err());
    assert!(DosePlan::new(&[dose], 0).is_err());
    assert!(DosePlan::new(&[dose], 1441).is_err());
    assert!(dose.share(1.5).is_err());
    assert!(DosedSystem::new(reference_tank(), kg(0.0), uatm(450.0)).is_err());
    assert!(
        solid
            .dose_for(Target::Alkalinity(umol(-5.0)), kg(100.0))
            .is_err()
    );
    // A dose that makes brine leaves the range of the constants.
    let system = DosedSystem::new(reference_tank(), kg(10.0), uatm(450.0)).unwrap();
    let brine = solid.dose(Amount::Grams(200.0)).unwrap();
    assert!(
        system
            .effect(&DosePlan::new(&[brine], 1).unwrap())
            .unwrap_err()
            .is_out_of_range()
    );
}

#[test]
fn wild_plans_give_a_verdict_or_an_error() {
    let mut rng = fastrand::Rng::with_seed(4);
    let limits = DoseLimits::default().with_evaporation_per_day(Volume::from_litres(3.0).unwrap());
    let mut judged = 0_usize;
    for _ in 0..3000 {
        let state = random_state(&mut rng).unwrap();
        let water = kg(10f64.powf(uniform(&mut rng, 0.0, 4.0)));
        let room = uatm(10f64.powf(uniform(&mut rng, 1.0, 4.5)));
        let system = DosedSystem::new(state, water, room).unwrap();
        let mut doses = Vec::new();
        for _ in 0..rng.usize(1..4) {
            let supplement = match rng.usize(0..3) {
                0 => Supplement::solid(Salt::ALL[rng.usize(0..Salt::ALL.len())]),
                1 => Supplement::magnesium_blend(),
                _ => Supplement::limewater(celsius(uniform(&mut rng, 0.0, 40.0))).unwrap(),
            };
            let amount = 10f64.powf(uniform(&mut rng, -3.0, 5.0));
            doses.push(
                supplement
                    .dose(match supplement.measure() {
                        Measure::Gram => Amount::Grams(amount),
                        Measure::Millilitre => Amount::Millilitres(amount),
                    })
                    .unwrap(),
            );
        }
        let plan = DosePlan::new(&doses, rng.u32(1..1440)).unwrap();
        let Ok(verdict) = system.judge(&plan, &limits) else {
            continue;
        };
        judged += 1;
        let effect = verdict.effect();
        for w in [
            effect.at_once,
            effect.without_exchange,
            effect.equilibrated,
            effect.equilibrated_undosed,
        ] {
            assert!(w.ph_total().value().is_finite());
            assert!(w.alkalinity().umol_per_kg().is_finite());
            assert!(w.aragonite_saturation().value() >= 0.0);
        }
        for excess in verdict.excesses() {
            assert!(excess.value().is_finite());
        }
        assert_eq!(verdict.is_accepted(), verdict.accepted().is_ok());
    }
    assert!(judged > 1000, "{judged}");
}

#[test]
fn every_supplement_carries_its_cautions() {
    for salt in Salt::ALL {
        let cautions = Supplement::solid(salt).cautions();
        for general in [
            Caution::FollowLabel,
            Caution::KeepFromChildren,
            Caution::AddSlowly,
        ] {
            assert!(cautions.contains(general));
        }
        let is_caustic = matches!(salt, Salt::SodiumHydroxide | Salt::CalciumHydroxide);
        assert_eq!(cautions.contains(Caution::Caustic), is_caustic);
        assert_eq!(cautions.contains(Caution::HydroxideIntoWater), is_caustic);
        let is_nitrate = salt.per_mol().nitrate_mol > 0.0;
        assert_eq!(cautions.contains(Caution::Oxidiser), is_nitrate);
    }
    // ILO/WHO International Chemical Safety Card 1184: goggles for calcium chloride.
    let calcium = Supplement::solid(Salt::CalciumChloride).cautions();
    assert!(calcium.contains(Caution::HeatOfDissolution));
    assert!(calcium.contains(Caution::IrritatesEyes));
    for caution in Caution::ALL {
        assert!(caution.text().ends_with('.'));
    }
}

#[test]
fn salinity_grows_by_the_salt_dosed() {
    // 35.16504 g of reference salt in a kilogram are 35 of practical salinity: Millero et al.
    // (2008), doi 10.1016/j.dsr.2007.10.001. Hydrate water is not salt.
    let system = low_system();
    let dose = Supplement::solid(Salt::MagnesiumChlorideHexahydrate)
        .dose(Amount::Grams(300.0))
        .unwrap();
    let effect = system.effect(&DosePlan::new(&[dose], 1).unwrap()).unwrap();
    let anhydrous_g_per_kg = 300.0 * 95.205 / 203.295 / 300.0;
    close(
        effect.equilibrated.salinity().value() - effect.before.salinity().value(),
        anhydrous_g_per_kg * 35.0 / 35.16504,
        1e-5,
    );
}

#[test]
fn extrapolation_and_nbs_readings_pass_through() {
    let water = Water::new(celsius(25.5), PracticalSalinity::new(44.0).unwrap())
        .with_extrapolation(Extrapolation::Allow);
    let state = water
        .equilibria(&EquilibriumOptions::default())
        .unwrap()
        .solve(umol(2800.0), Ph::<NbsScale>::new(8.2).unwrap())
        .unwrap();
    let system = DosedSystem::new(state, kg(100.0), uatm(450.0)).unwrap();
    let dose = Supplement::solid(Salt::SodiumBicarbonate)
        .dose(Amount::Grams(1.0))
        .unwrap();
    let effect = system.effect(&DosePlan::new(&[dose], 1).unwrap()).unwrap();
    assert!(!effect.at_once.state().extrapolations().is_empty());
}
