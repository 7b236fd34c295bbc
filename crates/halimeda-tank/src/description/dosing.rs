//! What is dosed: salts by mass, moles or volume of a solution, turned into the
//! moles per day that the simulation counts.

use halimeda::carbonate::CarbonateState;
use halimeda::dosing::{Addition, Amount, ReactorEffluent, Salt, Supplement};
use halimeda::nutrient::CarbonateComposition;
use halimeda::{Alkalinity, Volume};

use super::section::Section;
use super::unit::Medium;
use super::water::given_ph;
use crate::Dosing;

const SALTS: [(&str, Salt); 14] = [
    ("sodium_bicarbonate", Salt::SodiumBicarbonate),
    ("sodium_carbonate", Salt::SodiumCarbonate),
    ("sodium_hydroxide", Salt::SodiumHydroxide),
    ("calcium_chloride", Salt::CalciumChloride),
    ("calcium_chloride_dihydrate", Salt::CalciumChlorideDihydrate),
    (
        "magnesium_chloride_hexahydrate",
        Salt::MagnesiumChlorideHexahydrate,
    ),
    (
        "magnesium_sulfate_heptahydrate",
        Salt::MagnesiumSulfateHeptahydrate,
    ),
    ("sodium_nitrate", Salt::SodiumNitrate),
    ("potassium_nitrate", Salt::PotassiumNitrate),
    (
        "calcium_nitrate_tetrahydrate",
        Salt::CalciumNitrateTetrahydrate,
    ),
    ("monosodium_phosphate", Salt::MonosodiumPhosphate),
    ("disodium_phosphate", Salt::DisodiumPhosphate),
    ("monopotassium_phosphate", Salt::MonopotassiumPhosphate),
    ("dipotassium_phosphate", Salt::DipotassiumPhosphate),
];

/// Reads what is dosed. `medium` and `state` are of the tank's water at the start.
pub(super) fn dosing(
    root: &Section<'_>,
    medium: &Medium,
    state: Option<&CarbonateState>,
    evaporation_l_per_day: f64,
) -> Dosing {
    let mut dosing = Dosing::default();
    if let Some(section) = root.optional_section("dosing") {
        for (name, salt) in SALTS {
            if section.has(name) {
                let per_day = per_day(&section, name, salt);
                count(&mut dosing, &per_day.unwrap_or(Addition::NONE));
            }
        }
        dosing.organic_carbon_mol_per_day = section
            .optional("organic_carbon", &Medium::default())
            .unwrap_or(0.0);
        dosing.adjusted_every_days = section.optional("adjusted_every", &Medium::default());
    }
    if let Some(section) = root.optional_section("top_off") {
        dosing.limewater_mol_per_l = limewater(&section, evaporation_l_per_day);
    }
    if let Some(section) = root.optional_section("calcium_reactor") {
        let effluent = effluent(&section, medium, state);
        let (carbonate, excess) = effluent.unwrap_or((f64::NAN, f64::NAN));
        dosing.reactor_mol_per_day = carbonate;
        dosing.reactor_excess_co2_per_mol = excess;
    }
    dosing
}

/// Counts what a dose brings as the substances that the simulation knows.
fn count(dosing: &mut Dosing, per_day: &Addition) {
    let (carbon, charge) = (per_day.inorganic_carbon_mol, per_day.alkalinity_eq);
    if carbon > 0.0 {
        dosing.bicarbonate_mol_per_day += 2.0 * carbon - charge;
        dosing.carbonate_mol_per_day += charge - carbon;
    } else {
        // HPO4²⁻ is H2PO4⁻ with a hydroxide that has taken its proton.
        dosing.hydroxide_mol_per_day += charge;
    }
    dosing.calcium_mol_per_day += per_day.calcium_mol;
    dosing.magnesium_mol_per_day += per_day.magnesium_mol;
    dosing.nitrate_mol_per_day += per_day.nitrate_mol;
    dosing.phosphate_mol_per_day += per_day.phosphate_mol;
}

/// What a salt brings per day; none where it could not be read.
fn per_day(section: &Section<'_>, name: &str, salt: Salt) -> Option<Addition> {
    if !section.is_table(name) {
        let medium = Medium {
            grams_per_mol: Some(salt.molar_mass_g_per_mol()),
            ..Medium::default()
        };
        return Some(salt.per_mol() * section.quantity(name, &medium));
    }
    let solution = section.optional_section(name)?;
    let (litres, strength) = (solution.plain("volume"), solution.plain("strength"));
    if litres.is_nan() || strength.is_nan() {
        return None;
    }
    let dose = Supplement::solution(salt, strength)
        .and_then(|supplement| supplement.dose(Amount::Millilitres(litres * 1e3)));
    match dose {
        Ok(dose) => Some(dose.addition()),
        Err(error) => {
            solution.report_refused("strength", &error);
            None
        }
    }
}

fn limewater(section: &Section<'_>, evaporation_l_per_day: f64) -> f64 {
    let medium = Medium {
        grams_per_mol: Some(Salt::CalciumHydroxide.molar_mass_g_per_mol()),
        ..Medium::default()
    };
    let limewater = section.optional("limewater", &medium).unwrap_or(0.0);
    if limewater > 0.0 && evaporation_l_per_day <= 0.0 {
        section.report_contradiction(
            "limewater",
            format!("{} without evaporation", section.written("limewater")),
            "water that evaporates in `tank.evaporation`, for limewater only replaces it",
        );
    }
    limewater
}

/// Carbonate dissolved per day, mol, and the CO2 beyond what dissolved it, mol/mol.
fn effluent(
    section: &Section<'_>,
    medium: &Medium,
    state: Option<&CarbonateState>,
) -> Option<(f64, f64)> {
    let alkalinity = section.quantity("effluent_alkalinity", medium);
    let ph = given_ph(section, "effluent_ph");
    let flow = section.plain("flow");
    let flow = Volume::from_litres(flow).ok()?;
    let alkalinity = Alkalinity::from_umol_per_kg(alkalinity).ok()?;
    let (state, ph) = (state?, ph?);
    let medium = CarbonateComposition::CALCIUM_ONLY;
    match ReactorEffluent::new(state, alkalinity, ph, flow, medium) {
        Ok(effluent) => {
            let carbonate = effluent.per_day().calcium_mol;
            if carbonate <= 0.0 {
                return Some((0.0, 0.0));
            }
            let excess = effluent.carbon_dioxide_mol_per_day() / carbonate - 1.0;
            if !(0.0..=10.0).contains(&excess) {
                let found = format!(
                    "{}, {excess:.2} mol of CO2 too many or too few per mol of carbonate",
                    section.written("effluent_ph")
                );
                let expected = "an effluent with 0 to 10 mol of CO2 beyond the one that dissolves a mol of carbonate";
                section.report_contradiction("effluent_ph", found, expected);
            }
            Some((carbonate, excess))
        }
        Err(error) => {
            let key = match error.input() {
                "effluent alkalinity" => "effluent_alkalinity",
                _ => "effluent_ph",
            };
            section.report_refused(key, &error);
            None
        }
    }
}
