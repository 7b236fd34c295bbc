//! Rates of the processes in a tank beside published ones.

#![allow(clippy::unwrap_used, clippy::expect_used)]

use halimeda::nutrient::{CarbonateComposition, PhotosyntheticQuotient, Process};
use halimeda::parameter::ParameterSet;
use halimeda::process::{
    BacteriaOnDosedCarbon, BacterialSupply, CoralCalcification, CorallineCalcification,
    Denitrification, Display, Evaporation, FeedComposition, FeedKind, IronOxideMedia, Livestock,
    Mineralisation, Nitrification, OrganicMatter, RelativeCations, bacterial_rates,
    coral_calcification, coralline_calcification, denitrification, display_rates,
    evaporation_kg_per_day, iron_oxide_uptake, livestock_rates, mineralisation_rates,
    nitrification, uptake_through_boundary_layer,
};

const SEAWATER: RelativeCations = RelativeCations::SEAWATER;
const GRAMS_PER_MOL_N: f64 = 14.007;
const GRAMS_PER_MOL_P: f64 = 30.974;
const GRAMS_PER_MOL_CACO3: f64 = 100.09;

fn range_of<P: ParameterSet>(name: &str) -> (f64, f64) {
    let info = P::PARAMETERS
        .iter()
        .find(|info| info.name == name)
        .expect("no such parameter");
    (info.low, info.high)
}

fn default_of<P: ParameterSet>(name: &str) -> f64 {
    P::PARAMETERS
        .iter()
        .find(|info| info.name == name)
        .expect("no such parameter")
        .default
}

#[track_caller]
fn within(value: f64, (low, high): (f64, f64)) {
    assert!(
        low <= value && value <= high,
        "{value} outside {low} to {high}"
    );
}

// Extreme values of a rate over the corners of the ranges of the parameters.
fn extremes<P: ParameterSet>(rate: impl Fn(&P) -> f64) -> (f64, f64) {
    let mut found = (f64::INFINITY, f64::NEG_INFINITY);
    for corner in 0..1u32 << P::PARAMETERS.len() {
        let mut p = P::default();
        for (i, info) in P::PARAMETERS.iter().enumerate() {
            let value = if corner >> i & 1 == 0 {
                info.low
            } else {
                info.high
            };
            p = p.with_value(i, value);
        }
        let value = rate(&p);
        found = (found.0.min(value), found.1.max(value));
    }
    found
}

/// Hwang, Ki & Chung (2013) Prev. Nutr. Food Sci. 18, 139-144 (doi
/// 10.3746/pnf.2013.18.2.139), abstract: dried laver of two species, moisture
/// 3.66 to 6.74 %, crude protein 32.16 to 36.88 %.
#[test]
fn dried_macroalgae_hold_the_nitrogen_of_laver() {
    let gram = FeedKind::DriedMacroalgae.composition().per_gram().unwrap();
    let protein_as_fed = gram.nitrogen * GRAMS_PER_MOL_N * 6.25;
    within(protein_as_fed, (0.3216, 0.3688));
    within(
        FeedKind::DriedMacroalgae.composition().water_fraction,
        (0.0366, 0.0674),
    );
}

/// Timmons & Ebeling, Recirculating Aquaculture: 0.092 g of ammonia nitrogen per
/// gram of protein fed (figure seen cited, not in the book).
#[test]
fn ammonia_from_protein_is_that_of_the_aquaculture_rule() {
    let p = Livestock::default();
    let gram = FeedComposition::default().per_gram().unwrap();
    let rates = livestock_rates(gram, 1.0, &p);
    let out = rates.excreted_nitrogen + rates.faeces.nitrogen + rates.retained.nitrogen;
    let excreted = gram.nitrogen * rates.excreted_nitrogen / out;
    let composition = FeedComposition::default();
    let protein = (1.0 - composition.water_fraction) * composition.protein_fraction_of_dry;
    let per_gram_protein = excreted * GRAMS_PER_MOL_N / protein;
    assert!(
        (per_gram_protein / 0.092 - 1.0).abs() < 0.15,
        "{per_gram_protein}"
    );
    // The rule lies well inside the ranges of retention and excretion.
    let (low, high) = extremes(|p: &Livestock| {
        let r = livestock_rates(gram, 1.0, p);
        r.excreted_nitrogen / (r.excreted_nitrogen + r.faeces.nitrogen + r.retained.nitrogen) / 6.25
    });
    within(0.092, (low, high));
}

/// Chitrakar et al. (2006) J. Colloid Interface Sci. 298, 602-608 (authors and pages
/// from memory), abstract: 10 mg P
/// per gram of goethite or akaganeite at 0.3 mg P/L in seawater (density of
/// seawater 1.0233 kg/L).
#[test]
fn iron_oxide_holds_the_published_loading() {
    let p = IronOxideMedia::default();
    let content = 0.3e-3 / GRAMS_PER_MOL_P / 1.0233;
    let loading = p.equilibrium_loading_mol_per_g(content) * GRAMS_PER_MOL_P * 1e3;
    assert!((loading - 10.0).abs() < 1e-3, "{loading}");
    let bound = 100.0 * 10e-3 / GRAMS_PER_MOL_P;
    let fresh = iron_oxide_uptake(content, 0.0, 100.0, &p);
    assert!(iron_oxide_uptake(content, bound, 100.0, &p).abs() < 1e-4 * fresh);
}

/// Golterman (1995) Hydrobiologia 315, 59-68, abstract: P_ads = A (P)^0.333.
#[test]
fn iron_oxide_follows_the_cube_root() {
    let p = IronOxideMedia::default();
    let thin = p.equilibrium_loading_mol_per_g(1e-7);
    let thick = p.equilibrium_loading_mol_per_g(8e-7);
    assert!((thick / thin - 2.0).abs() < 1e-12);
}

/// Gruber, Lowe & Falter (2019) Biogeosciences 16, 1921-1935 (doi
/// 10.5194/bg-16-1921-2019), abstract: a reef platform releases 2.3 mmol m⁻² d⁻¹ of
/// nitrate.
#[test]
fn nitrification_reaches_the_release_of_a_reef_platform() {
    let oxygen = 200e-6;
    let (low, high) = extremes(|p: &Nitrification| nitrification(2e-6, oxygen, 1.0, 1.0, p));
    within(2.3e-3, (low, high));
}

/// Cook, Kessler & Eyre (2017) Biogeosciences 14, 4061-4069 (doi
/// 10.5194/bg-14-4061-2017), abstract: denitrification in carbonate sand is
/// constant above 18 µM nitrate.
#[test]
fn denitrification_hardly_rises_above_eighteen_micromolar() {
    let p = Denitrification::default();
    let rate = |nitrate| denitrification(nitrate, 10.0, 1.0, 1.0, &p);
    assert!(rate(18e-6) > 0.85 * rate(100e-6));
    assert!(rate(1e-6) < 0.3 * rate(100e-6));
}

/// Moya et al. (2006) J. Exp. Biol. 209, 3413-3419, abstract:
/// 2.6 times the calcification by day as by night in Stylophora pistillata.
#[test]
fn light_enhances_calcification_as_in_stylophora() {
    let ratio = |p: &CoralCalcification| {
        coral_calcification(1.0, 3.8, SEAWATER, 1.0, p).carbonate
            / coral_calcification(1.0, 3.8, SEAWATER, 0.0, p).carbonate
    };
    within(2.6, extremes(ratio));
    within(ratio(&CoralCalcification::default()) / 2.6, (0.8, 1.25));
}

/// Smith & Kinsey (1976) Science 194, 937-939 (doi 10.1126/science.194.4268.937),
/// abstract: seaward reefs lay down about 4 kg CaCO3 m⁻² a year, protected ones 0.8.
/// McLaughlin et al. (2023) Biogeosciences 20, 1011-1026 (doi
/// 10.5194/bg-20-1011-2023), abstract: corals and calcifying algae 1.9 to 9.9 g
/// CaCO3 m⁻² d⁻¹.
#[test]
fn corals_lay_down_what_reefs_do() {
    let grams_per_day = |p: &CoralCalcification| {
        let day = coral_calcification(1.0, 4.0, SEAWATER, 1.0, p).carbonate;
        let night = coral_calcification(1.0, 4.0, SEAWATER, 0.0, p).carbonate;
        0.5 * (day + night) * GRAMS_PER_MOL_CACO3
    };
    let default = grams_per_day(&CoralCalcification::default());
    assert!((default * 365.25e-3 / 4.0 - 1.0).abs() < 0.25, "{default}");
    let range = extremes(grams_per_day);
    within(0.8e3 / 365.25, range);
    within(9.9, range);
}

/// Swart, Elderfield & Greaves (2002) Geochem. Geophys. Geosyst. 3 (doi
/// 10.1029/2002GC000306), abstract: Sr/Ca = 10.165 - 0.0471 t mmol/mol in Montastraea.
/// Busch et al. (2015) USGS Open-File Report 2015-1182: Sr/Ca = 10.128 - 0.040 t in
/// Porites.
#[test]
fn coral_skeleton_holds_the_strontium_of_its_calcium() {
    let r = coral_calcification(1.0, 4.0, SEAWATER, 1.0, &CoralCalcification::default());
    let per_calcium = r.strontium / r.calcium * 1e3;
    within(per_calcium, (10.165 - 0.0471 * 26.0, 10.128 - 0.040 * 24.0));
}

/// Stanley, Ries & Hardie (2002) Proc. Natl. Acad. Sci. 99, 15323-15326, abstract:
/// corallines of modern seas lay down calcite of more than 4 mol % MgCO3; Gao (1999),
/// abstract: 10 to 11 % MgCO3 beside 66 to 70 % CaCO3 by weight of dry corallines.
#[test]
fn coralline_skeleton_is_high_magnesium_calcite() {
    let r = coralline_calcification(1.0, 4.0, SEAWATER, 1.0, &CorallineCalcification::default());
    let fraction = r.magnesium / r.carbonate;
    assert!(fraction > 0.04);
    let mol_percent = |magnesium: f64, calcium: f64| {
        let (mg, ca) = (magnesium / 84.31, calcium / GRAMS_PER_MOL_CACO3);
        mg / (mg + ca)
    };
    within(fraction, (mol_percent(10.0, 70.0), mol_percent(11.0, 66.0)));
}

/// Calcification takes from the water what the alkalinity book says.
#[test]
fn calcification_agrees_with_the_alkalinity_book() {
    let p = CorallineCalcification::default();
    let r = coralline_calcification(0.4, 3.6, SEAWATER, 1.0, &p);
    let composition =
        CarbonateComposition::new(p.magnesium_fraction, p.strontium_fraction).unwrap();
    let book = Process::Calcification(composition).stoichiometry();
    assert!((r.calcium + r.carbonate * book.calcium).abs() < 1e-17);
    assert!((r.magnesium + r.carbonate * book.magnesium).abs() < 1e-17);
    assert!((r.strontium + r.carbonate * book.strontium).abs() < 1e-17);
    assert!((book.alkalinity() + 2.0).abs() < 1e-15);
}

/// Gattuso et al. (1995) Mar. Ecol. Prog. Ser. 129, 307-312, abstract: actively
/// developing reefs have a nearly balanced metabolism, gross photosynthesis over
/// respiration near 1.
#[test]
fn the_display_is_near_balance_over_a_day() {
    let p = Display::default();
    let day = display_rates(1.0, 1.0, 2e-3, 2.1e-4, 1.0, &p);
    let night = display_rates(1.0, 0.0, 2e-3, 2.1e-4, 1.0, &p);
    let fixed = 0.5 * (day.photosynthesis + night.photosynthesis);
    let respired = 0.5 * (day.respiration + night.respiration);
    within(fixed / respired, (0.8, 1.2));
}

/// Chisholm (2003) Limnol. Oceanogr. 48, 1376-1387 (doi 10.4319/lo.2003.48.4.1376),
/// abstract: coralline crusts at most 12.8 to 22.8 mmol O2 m⁻² h⁻¹ gross, dark
/// respiration 2.7 to 4.5 mmol O2 m⁻² h⁻¹. As carbon with a quotient of 1.1.
#[test]
fn the_display_reaches_the_rates_of_coralline_crusts() {
    let carbon = |oxygen_per_h: f64| {
        oxygen_per_h * 24.0 / PhotosyntheticQuotient::ALGAL_BIOMASS.oxygen_per_carbon()
    };
    let gross = range_of::<Display>("saturated_photosynthesis_mmol_c_per_m2_per_day");
    within(carbon(12.8), gross);
    within(carbon(22.8), gross);
    let dark = range_of::<Display>("respiration_mmol_c_per_m2_per_day");
    within(carbon(2.7), dark);
    within(carbon(4.5), dark);
}

/// Smith, Löf & Jones (1998) ASHRAE Trans. 104(1A), abstract: evaporation
/// W = (95 + 0.425 v) (p_w - p_a)/Y, lb h⁻¹ ft⁻² with pressures in inches of mercury
/// and Y in Btu/lb; measured 74 % of it over undisturbed pools and 126 % over pools
/// in use. Latent heat at 25 °C 2442 kJ/kg (steam tables, from memory).
#[test]
fn evaporation_is_that_of_pools() {
    let w_per_m2_per_kpa = 95.0 * 1055.06 / 3600.0 / 0.09290304 / 3.38639;
    let kg = w_per_m2_per_kpa / 2.442e6 * 86400.0;
    let (low, high) = extremes(|p: &Evaporation| evaporation_kg_per_day(1.0, 3.0, 2.0, p));
    within(0.74 * kg, (low, high));
    within(1.26 * kg, (low, high));
    let default = evaporation_kg_per_day(1.0, 3.0, 2.0, &Evaporation::default());
    within(default, (0.74 * kg, 1.26 * kg));
}

/// Ebeling, Timmons & Bisogni (2006) Aquaculture 257, 346-358, figures from memory: a
/// gram of ammonia
/// nitrogen goes into 8.07 g of cells C5H7O2N with 15.17 g of carbohydrate, of which
/// 40 % is carbon, and 4.71 g of oxygen.
#[test]
fn bacteria_on_carbohydrate_balance_as_published() {
    const GRAMS_PER_MOL_C: f64 = 12.011;
    const GRAMS_PER_MOL_O2: f64 = 31.998;
    let cells_carbon = 8.07 * 5.0 * GRAMS_PER_MOL_C / 113.12;
    let p = BacteriaOnDosedCarbon {
        yield_mol_per_mol: cells_carbon / (15.17 * 0.4),
        carbon_to_nitrogen: 5.0,
        oxygen_per_dosed_carbon: 1.0,
        ..BacteriaOnDosedCarbon::default()
    };
    let supply = BacterialSupply {
        dosed_carbon: 1e-4,
        ammonia: 1e-5,
        nitrate: 0.0,
        phosphate: 1e-6,
        oxygen: 2e-4,
    };
    let r = bacterial_rates(0.01, supply, 200.0, 1.0, &p);
    let nitrogen = r.ammonia * GRAMS_PER_MOL_N;
    let cells = r.growth_carbon / 5.0 * 113.12 / nitrogen;
    assert!((cells / 8.07 - 1.0).abs() < 0.01, "{cells}");
    let carbohydrate = r.dosed_carbon * GRAMS_PER_MOL_C / 0.4 / nitrogen;
    assert!((carbohydrate / 15.17 - 1.0).abs() < 0.01, "{carbohydrate}");
    // Cells are booked with a quotient of 1.1 here and have 1.0 there.
    let booked = (r.oxygen + 0.1 * r.growth_carbon) * GRAMS_PER_MOL_O2 / nitrogen;
    assert!((booked / 4.71 - 1.0).abs() < 0.02, "{booked}");
}

/// Atkinson & Bilger's limit by mass transfer, with the transfer velocities of
/// Thomas & Atkinson (1997) Limnol. Oceanogr. 42, 81-88: 1.4 to 12 m/d. A greedy
/// community takes S times the content and no more.
#[test]
fn a_reef_takes_up_what_transfer_brings() {
    for transfer in [1.4, 12.0] {
        for content in [0.1, 0.5, 2.0] {
            let flux = uptake_through_boundary_layer(content, transfer, 1e4, 0.5);
            let limit = transfer * content;
            assert!(flux <= limit && flux > 0.99 * limit);
        }
    }
}

/// A closed jar: feed goes through gut, detritus and nitrification until all its
/// nitrogen is nitrate, kept or still on its way, and alkalinity has followed the
/// book. Explicit steps of a minute; conservation does not depend on their accuracy.
#[test]
fn the_nitrogen_of_a_feed_is_never_lost() {
    let (livestock, decay, oxidation) = (
        Livestock::default(),
        Mineralisation::default(),
        Nitrification::default(),
    );
    let fed = FeedKind::Pellet.composition().per_gram().unwrap();
    let (mut gut, mut detritus, mut kept) = (fed, OrganicMatter::default(), 0.0);
    let (mut ammonia, mut nitrate, mut alkalinity) = (0.0, 0.0, 0.0);
    let (water, oxygen, step) = (200.0, 200e-6, 1.0 / 1440.0);
    let excretion = Process::NitrogenMineralisation.stoichiometry().alkalinity();
    let oxidised = Process::Nitrification.stoichiometry().alkalinity();
    for _ in 0..(120 * 1440) {
        let l = livestock_rates(gut, oxygen, &livestock);
        let m = mineralisation_rates(detritus, decay.particulate_per_day, oxygen, 1.0, &decay);
        let n = nitrification(ammonia / water, oxygen, 3.0, 1.0, &oxidation);
        gut.nitrogen -= step * (l.excreted_nitrogen + l.faeces.nitrogen + l.retained.nitrogen);
        gut.carbon -= step * (l.respired_carbon + l.faeces.carbon + l.retained.carbon);
        detritus.nitrogen += step * (l.faeces.nitrogen - m.nitrogen);
        detritus.carbon += step * (l.faeces.carbon - m.carbon);
        kept += step * l.retained.nitrogen;
        ammonia += step * (l.excreted_nitrogen + m.nitrogen - n);
        nitrate += step * n;
        alkalinity += step * (excretion * (l.excreted_nitrogen + m.nitrogen) + oxidised * n);
    }
    let total = gut.nitrogen + detritus.nitrogen + kept + ammonia + nitrate;
    assert!((total / fed.nitrogen - 1.0).abs() < 1e-10);
    assert!((nitrate / (fed.nitrogen - kept) - 1.0).abs() < 1e-3);
    assert!((kept / fed.nitrogen - default_of::<Livestock>("nitrogen_retention")).abs() < 1e-9);
    assert!(((ammonia - nitrate) / alkalinity - 1.0).abs() < 1e-10);
}

#[test]
fn feeds_are_written_by_name_or_by_composition() {
    let pellet: FeedKind = serde_json::from_str("\"pellet\"").unwrap();
    assert_eq!(pellet, FeedKind::Pellet);
    let dried: FeedKind = serde_json::from_str("\"dried_macroalgae\"").unwrap();
    assert_eq!(dried, FeedKind::DriedMacroalgae);
    // What is not declared is that of a pellet.
    let declared: FeedKind =
        serde_json::from_str(r#"{"custom":{"protein_fraction_of_dry":0.42}}"#).unwrap();
    let expected = FeedComposition {
        protein_fraction_of_dry: 0.42,
        ..FeedComposition::default()
    };
    assert_eq!(declared, FeedKind::Custom(expected));
    let text = serde_json::to_string(&declared).unwrap();
    assert_eq!(serde_json::from_str::<FeedKind>(&text).unwrap(), declared);
    let misspelt = r#"{"custom":{"protein":0.42}}"#;
    assert!(serde_json::from_str::<FeedKind>(misspelt).is_err());
}
