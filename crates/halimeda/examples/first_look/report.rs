//! The assessment in a keeper's words: each number, then what it means.

use halimeda::nutrient::AmmoniaVerdict;
use halimeda::probe::ProbeHealth;

use crate::assessment::{
    AirPart, Assessment, Direction, IonPart, KitPart, Limits, NutrientPart, NutrientVerdict,
    OxygenVerdict, RatioPart,
};
use crate::page::Page;
use crate::source::{self, RELATION_NOTE};

/// The whole page.
pub(crate) fn report(a: &Assessment) -> String {
    let mut page = Page::default();
    page.title(&format!("A first look at: {}", a.tank));
    if let Some(note) = &a.note {
        page.paragraph(&format!("({note})"));
    }
    page.blank();
    page.paragraph(
        "± is one standard uncertainty: about two times in three the true value lies \
         within it, nineteen times in twenty within double of it.",
    );
    stands_out(&mut page, a);
    water(&mut page, a);
    ph(&mut page, a);
    alkalinity(&mut page, a);
    carbon_dioxide(&mut page, a);
    buffering(&mut page, a);
    skeletons(&mut page, a);
    oxygen(&mut page, a);
    ammonia(&mut page, a);
    nutrients(&mut page, a);
    what_limits(&mut page, &a.what_limits);
    before_acting(&mut page);
    page.heading("Sources");
    for source in source::ALL {
        page.item(source);
    }
    page.blank();
    page.paragraph(RELATION_NOTE);
    page.finish()
}

/// What a keeper should see before anything else, the most urgent first.
fn stands_out(page: &mut Page, a: &Assessment) {
    page.heading("What stands out");
    let mut items: Vec<String> = Vec::new();
    if let Some(ammonia) = &a.ammonia {
        if ammonia.verdict != AmmoniaVerdict::WithinLimits {
            items.push("Un-ionised ammonia is above a limit; see Ammonia below.".to_owned());
        } else if ammonia.verdict_at_most != AmmoniaVerdict::WithinLimits {
            items.push(
                "Un-ionised ammonia above the limit cannot be ruled out; measure again.".to_owned(),
            );
        }
    }
    match a.oxygen.as_ref().map(|oxygen| oxygen.verdict) {
        Some(OxygenVerdict::Hypoxic) => {
            items.push("Oxygen is dangerously low: aerate at once.".to_owned());
        }
        Some(OxygenVerdict::Low) => {
            items.push("Oxygen is well below balance with the air.".to_owned());
        }
        Some(OxygenVerdict::Supersaturated) => {
            items.push("Oxygen is well above balance with the air.".to_owned());
        }
        Some(OxygenVerdict::NearBalance) | None => {}
    }
    if let Some(room) = &a.room_air {
        let ppm = room.carbon_dioxide_ppm.value;
        if ppm > source::WORKPLACE_LIMIT_PPM {
            items.push(format!(
                "The air of the room holds {ppm:.0} ppm CO2, above what is allowed at a \
                 workplace: leave it, ventilate, find the cause."
            ));
        } else if ppm > source::STUFFY_ROOM_PPM {
            items.push(format!(
                "The room is stuffy ({ppm:.0} ppm CO2), which holds the pH down; air it, for \
                 yourself first."
            ));
        } else if room.carbon_dioxide_goes == Direction::IntoTheWater {
            items.push(format!(
                "The air of the room holds more CO2 ({ppm:.0} ppm) than the water is in balance \
                 with; fresh air would lift the pH it rests at by {:.2}.",
                a.outdoor_air.ph_total_it_tends_to.value - room.ph_total_it_tends_to.value
            ));
        }
    }
    let outside = |value: f64, (low, high): (f64, f64)| value < low || value > high;
    if outside(
        a.water.temperature_celsius.value,
        source::TEMPERATURE_ON_REEFS_CELSIUS,
    ) {
        items.push("Temperature is outside what reefs have as a yearly mean.".to_owned());
    }
    if outside(a.water.practical_salinity.value, source::SALINITY_ON_REEFS) {
        items.push("Salinity is outside what reefs live in.".to_owned());
    }
    if outside(a.ph.total.value, source::PH_TOTAL_OF_OCEANS) {
        items.push("pH is outside that of any surface of the ocean.".to_owned());
    }
    if outside(a.alkalinity.dkh.value, source::ALKALINITY_PRACTICE_DKH) {
        items.push("Alkalinity is outside what keepers commonly hold.".to_owned());
    }
    if let Some(skeleton) = &a.skeleton {
        let saturation = skeleton.aragonite_saturation.value;
        if saturation < 1.0 {
            items.push("Aragonite is undersaturated: bare skeletons dissolve.".to_owned());
        } else if saturation < source::ARAGONITE_ON_REEFS {
            items.push("Aragonite saturation is below that of any reef today.".to_owned());
        }
    }
    if let Some(probe) = &a.ph.probe {
        if probe.health != ProbeHealth::Good {
            items.push("The pH probe needs attention; see pH below.".to_owned());
        }
        if !probe.is_bracketed {
            items.push("The tank's pH is not between those of the two buffers.".to_owned());
        }
    }
    for (name, nutrient) in [("Nitrate", &a.nitrate), ("Phosphate", &a.phosphate)] {
        match nutrient.as_ref().map(|part| part.verdict) {
            Some(NutrientVerdict::CannotBeToldFromZero) => items.push(format!(
                "{name} cannot be told from zero, and zero starves corals."
            )),
            Some(NutrientVerdict::Harmful) => {
                items.push(format!("{name} is above what animals are known to bear."));
            }
            _ => {}
        }
    }
    if items.is_empty() {
        items.push(
            "Nothing in these readings. Watch the animals all the same: they show it first."
                .to_owned(),
        );
    }
    for item in items {
        page.item(&item);
    }
}

fn water(page: &mut Page, a: &Assessment) {
    let water = &a.water;
    page.heading("Water");
    page.number("Temperature", water.temperature_celsius, "°C");
    let (low, high) = source::TEMPERATURE_ON_REEFS_CELSIUS;
    page.meaning(&format!(
        "Reefs have {low} to {high} °C as a yearly mean (Guan 2015)."
    ));
    page.number("Practical salinity", water.practical_salinity, "");
    let (low, high) = source::SALINITY_ON_REEFS;
    page.meaning(&format!(
        "Reefs live at {low} to {high} (Guan 2015); keepers commonly hold 34 to 36 (common \
         practice, no source)."
    ));
    page.number("Density", water.density_kg_per_m3, "kg/m³");
    page.meaning(&format!(
        "A litre weighs more than a kilogram: µmol/L is {:.1} % more than µmol/kg.",
        water.density_kg_per_m3.value * 0.1 - 100.0
    ));
    page.number("Air pressure in the room", water.air_pressure_hpa, "hPa");
    page.meaning("Oxygen and CO2 below are reckoned at this pressure, not at sea level's.");
    if let Some(volume) = &water.volume {
        page.number("Net volume", volume.net_litres, "L");
        page.meaning(&format!(
            "{:.0} L of water space less {:.0} L of rock and sand: {:.0} kg of water. Dose for \
             this, not for the size on the label.",
            volume.gross_litres,
            volume.gross_litres - volume.net_litres.value,
            volume.net_kilograms.value
        ));
    }
}

fn ph(page: &mut Page, a: &Assessment) {
    let ph = &a.ph;
    page.heading("pH");
    page.number("NBS scale (your probe)", ph.nbs, "");
    page.meaning("Compare it with your own earlier readings.");
    page.number("Total scale", ph.total, "");
    page.meaning(
        "The same acidity as science counts it; the surface of the ocean has 8.08 on average, \
         7.77 to 8.35 (Jiang 2017). Less certain than the probe's own number, because no buffer \
         shows what the probe's liquid junction does in seawater.",
    );
    page.number("Seawater scale", ph.seawater, "");
    page.number("Free scale", ph.free, "");
    page.meaning("Two more ways of counting, met in papers; never mix the scales.");
    if let Some(probe) = &ph.probe {
        page.plain("Probe slope", &format!("{:.1}", probe.slope_percent), "%");
        page.plain(
            "Probe offset at pH 7",
            &format!("{:+.1}", probe.offset_mv),
            "mV",
        );
        page.meaning(match probe.health {
            ProbeHealth::Good => {
                "A sound probe: 95 to 102 % of theory, within 30 mV of zero (common practice)."
            }
            ProbeHealth::Ageing => {
                "An ageing probe: clean it, use fresh buffers, calibrate again and watch it \
                 (common practice)."
            }
            _ => {
                "Slope or offset is off: clean and recondition the probe; replace it if it stays \
                 so (common practice)."
            }
        });
        if !probe.is_bracketed {
            page.meaning("Calibrate with buffers on either side of the tank's pH.");
        }
    }
}

fn alkalinity(page: &mut Page, a: &Assessment) {
    let alkalinity = &a.alkalinity;
    page.heading("Alkalinity");
    page.number("Total alkalinity", alkalinity.dkh, "dKH");
    page.number("  the same", alkalinity.meq_per_l, "meq/L");
    page.number("  the same", alkalinity.ppm_caco3, "ppm as CaCO3");
    page.number("  the same", alkalinity.umol_per_kg, "µmol/kg");
    let total = alkalinity.umol_per_kg.value;
    let ocean = source::OCEAN_ALKALINITY_UMOL_PER_KG * a.water.practical_salinity.value
        / source::OCEAN_SALINITY;
    let (low, high) = source::ALKALINITY_PRACTICE_DKH;
    page.meaning(&format!(
        "Ocean water of this salinity has about {ocean:.0} µmol/kg, {:.1} dKH (Millero 2008); \
         keepers commonly hold {low} to {high} dKH and hold it steady (common practice, no \
         source).",
        ocean * alkalinity.dkh.value / total
    ));
    for (name, part) in [
        (
            "  of it bicarbonate",
            alkalinity.from_bicarbonate_umol_per_kg,
        ),
        ("  of it carbonate", alkalinity.from_carbonate_umol_per_kg),
        ("  of it borate", alkalinity.from_borate_umol_per_kg),
        ("  of it all else", alkalinity.from_the_rest_umol_per_kg),
    ] {
        page.plain(name, &format!("{:.1}", 100.0 * part / total), "%");
    }
    page.meaning(
        "Corals build from the first two; borate only buffers, and a kit counts it all the same. \
         Boron is taken as in the ocean; salt mixes differ.",
    );
}

fn carbon_dioxide(page: &mut Page, a: &Assessment) {
    let carbon = &a.carbon;
    page.heading("Carbon and carbon dioxide");
    let dic = carbon.inorganic_carbon_umol_per_kg;
    page.number("Dissolved inorganic carbon", dic, "µmol/kg");
    page.number(
        "  of it bicarbonate",
        carbon.bicarbonate_umol_per_kg,
        "µmol/kg",
    );
    page.number("  of it carbonate", carbon.carbonate_umol_per_kg, "µmol/kg");
    page.number("  of it CO2", carbon.dissolved_co2_umol_per_kg, "µmol/kg");
    page.meaning("All the carbon that algae and corals can draw on; hardly any of it is CO2.");
    page.number("pCO2 of the water", carbon.pco2_uatm, "µatm");
    page.number("Air in balance with it", carbon.balanced_air_ppm, "ppm CO2");
    page.meaning("Under such air the water would neither take up CO2 nor give it off.");
    match &a.room_air {
        Some(room) => {
            page.number("Air of the room", room.carbon_dioxide_ppm, "ppm CO2");
            page.meaning(&goes(room.carbon_dioxide_goes));
            page.number("pH this room leads to, NBS", room.ph_nbs_it_tends_to, "");
            page.number("  the same, total scale", room.ph_total_it_tends_to, "");
            page.meaning(&now_against(room));
        }
        None => page.meaning("Add [room_air] to see which way CO2 goes."),
    }
    let outdoors = &a.outdoor_air;
    page.number(
        "pH outdoor air leads to, NBS",
        outdoors.ph_nbs_it_tends_to,
        "",
    );
    page.number("  the same, total scale", outdoors.ph_total_it_tends_to, "");
    let ppm = outdoors.carbon_dioxide_ppm.value;
    page.meaning(&match &a.room_air {
        Some(room) => format!(
            "With {ppm:.0} ppm (WMO 2025). Perfectly fresh air would move the resting pH by \
             {:+.2}.",
            outdoors.ph_total_it_tends_to.value - room.ph_total_it_tends_to.value
        ),
        None => format!("With {ppm:.0} ppm (WMO 2025): the resting pH under fresh air."),
    });
}

fn goes(direction: Direction) -> String {
    match direction {
        Direction::IntoTheWater => "CO2 goes from the room into the water and pulls pH down.",
        Direction::OutOfTheWater => "CO2 goes out of the water into the room and lifts pH.",
        Direction::CannotBeTold => {
            "Which way CO2 goes cannot be told: the two are closer than the readings are certain."
        }
    }
    .to_owned()
}

fn now_against(room: &AirPart) -> String {
    let difference = room.ph_now_is_higher_by;
    let now = if !difference.differs_from_zero() {
        "Now it is about there.".to_owned()
    } else {
        let (comparison, cause) = if difference.value > 0.0 {
            (
                "higher",
                "something takes CO2 up faster than the air replaces it, as algae and corals do \
                 in light",
            )
        } else {
            (
                "lower",
                "the tank makes CO2 faster than it leaves, as at night or with little movement \
                 of the surface",
            )
        };
        format!(
            "Now it is {:.2} ± {:.2} {comparison}: {cause}.",
            difference.value.abs(),
            difference.standard_uncertainty
        )
    };
    format!("Where pH would rest if nothing in the tank made or used CO2. {now}")
}

fn buffering(page: &mut Page, a: &Assessment) {
    let buffering = &a.buffering;
    page.heading("How firmly pH is held");
    page.plain(
        "Revelle factor",
        &format!("{:.1}", buffering.revelle_factor),
        "",
    );
    page.meaning(&format!(
        "One per cent more carbon raises pCO2 by {:.0} per cent. Water holds its pH worst near \
         7.5 (Egleston 2010).",
        buffering.revelle_factor
    ));
    let change = |x: f64| format!("{x:+.3}");
    page.plain(
        "pH with 1 mg/L more CO2",
        &change(buffering.ph_change_with_1_mg_per_l_of_co2),
        "",
    );
    page.meaning("What animals breathe out moves it so; light moves it back.");
    page.plain(
        "pH with 0.5 dKH of carbonate",
        &change(buffering.ph_change_with_half_a_dkh_as_carbonate),
        "",
    );
    page.plain(
        "pH with 0.5 dKH of bicarbonate",
        &change(buffering.ph_change_with_half_a_dkh_as_bicarbonate),
        "",
    );
    page.meaning(
        "The same alkalinity, two ways with pH, until the air has evened it out. Follow the \
         product's label, dose slowly, into strong flow.",
    );
}

fn skeletons(page: &mut Page, a: &Assessment) {
    page.heading("Building skeletons");
    let Some(skeleton) = &a.skeleton else {
        page.paragraph("Add [calcium] to see the saturation of aragonite and calcite.");
        return;
    };
    ion(page, "Calcium", &skeleton.calcium, "400 to 450 mg/L");
    if let Some(magnesium) = &a.magnesium {
        ion(page, "Magnesium", magnesium, "1250 to 1400 mg/L");
    }
    page.number("Aragonite saturation", skeleton.aragonite_saturation, "");
    page.meaning(&format!(
        "Corals build aragonite. Above 1 it can form; reefs today have {} and more (Guan 2015). \
         The higher, the sooner it also crusts heaters and pumps (common practice, no source).",
        source::ARAGONITE_ON_REEFS
    ));
    page.number("Calcite saturation", skeleton.calcite_saturation, "");
    page.meaning("The mineral of many shells and, with magnesium in it, of coralline algae.");
}

fn ion(page: &mut Page, name: &str, ion: &IonPart, practice: &str) {
    page.number(name, ion.mg_per_l, "mg/L");
    page.meaning(&format!(
        "Ocean water of this salinity has {:.0} mg/L (Millero 2008); keepers commonly hold \
         {practice} (common practice, no source).",
        ion.ocean_mg_per_l
    ));
}

fn oxygen(page: &mut Page, a: &Assessment) {
    page.heading("Oxygen");
    let Some(oxygen) = &a.oxygen else {
        page.paragraph("Add [oxygen] to see its saturation.");
        return;
    };
    page.number("Dissolved oxygen", oxygen.mg_per_l, "mg/L");
    page.number("Saturation", oxygen.saturation_percent, "%");
    let (low, high) = (source::OXYGEN_LOW_PERCENT, source::OXYGEN_HIGH_PERCENT);
    page.meaning(&format!(
        "This water holds {:.2} mg/L in balance with air of this pressure. {}",
        oxygen.saturated_mg_per_l,
        match oxygen.verdict {
            OxygenVerdict::Hypoxic => format!(
                "Below {} mg/L is hypoxia (Levin 2009), deadly to many: aerate at once, move the \
                 surface, stop feeding and find the cause.",
                source::HYPOXIA_MG_PER_L
            ),
            OxygenVerdict::Low => format!(
                "Below {low:.0} % something uses oxygen faster than the air brings it, if the \
                 meter was told the salinity: move the surface more, feed less, and look again \
                 before dawn (common practice, no source). Half the species tested suffer before \
                 it falls to 2 mg/L (Vaquer-Sunyer 2008)."
            ),
            OxygenVerdict::NearBalance => format!(
                "{low:.0} to {high:.0} % is common over a day (common practice, no source); the \
                 lowest comes before dawn, so measure then too."
            ),
            OxygenVerdict::Supersaturated => format!(
                "Above {high:.0} % algae make more than leaves, or air is drawn in under pressure: \
                 look for a pump that sucks air, for it can give fish gas bubbles (common \
                 practice, no source)."
            ),
        }
    ));
}

fn ammonia(page: &mut Page, a: &Assessment) {
    page.heading("Ammonia");
    let Some(ammonia) = &a.ammonia else {
        page.paragraph("Add [ammonia] to see the part of it that is toxic.");
        return;
    };
    if ammonia.is_detected {
        page.number("Total, as N", ammonia.total_mg_n_per_l, "mg/L");
    } else {
        not_detected(page, "Total, as N", ammonia.total_at_most_mg_n_per_l);
    }
    page.plain(
        "Un-ionised part of it",
        &format!("{:.1}", ammonia.unionised_percent),
        "%",
    );
    page.meaning("NH3 is the toxic part; it grows with pH and temperature.");
    if ammonia.is_detected {
        page.number("Un-ionised, as NH3", ammonia.unionised_mg_nh3_per_l, "mg/L");
    }
    page.plain(
        "Un-ionised, as NH3, at most",
        &format!("{:.4}", ammonia.unionised_at_most_mg_nh3_per_l),
        "mg/L (about 95 %)",
    );
    page.meaning(&format!(
        "Limits for salt water: {} mg/L over four days, {} mg/L over one hour (EPA 1989). {}",
        AmmoniaVerdict::CHRONIC_MG_PER_L,
        AmmoniaVerdict::ACUTE_MG_PER_L,
        ammonia.verdict.caution()
    ));
}

fn nutrients(page: &mut Page, a: &Assessment) {
    page.heading("Nutrients: low, never zero");
    if let Some(nitrate) = &a.nitrate {
        read(page, ["Nitrate, as NO3", "  the same, as N"], &nitrate.read);
        page.meaning(&nitrate_meaning(nitrate));
    }
    if let Some(nitrite) = &a.nitrite {
        read(page, ["Nitrite, as NO2", "  the same, as N"], nitrite);
        page.meaning(
            "A settled tank shows none; what shows says its bacteria lag behind (common practice, \
             no source).",
        );
    }
    if let Some(phosphate) = &a.phosphate {
        read(
            page,
            ["Phosphate, as PO4", "  the same, as P"],
            &phosphate.read,
        );
        page.meaning(&phosphate_meaning(phosphate));
    }
    match &a.nitrogen_to_phosphorus {
        Some(ratio) => nitrogen_to_phosphorus(page, ratio),
        None => page.paragraph(
            "For the ratio of nitrogen to phosphorus give [nitrate], [nitrite], [ammonia] and \
             [phosphate].",
        ),
    }
}

fn read(page: &mut Page, [ion, element]: [&str; 2], kit: &KitPart) {
    if kit.is_detected {
        page.number(ion, kit.mg_ion_per_l, "mg/L");
        page.number(element, kit.mg_element_per_l, "mg/L");
        page.number("  the same", kit.umol_per_l, "µmol/L");
    } else {
        not_detected(page, ion, kit.at_most_mg_ion_per_l);
    }
}

fn not_detected(page: &mut Page, name: &str, limit_mg_per_l: f64) {
    page.plain(
        name,
        &format!("< {limit_mg_per_l:.3}"),
        "mg/L, not detected",
    );
}

fn nitrate_meaning(nitrate: &NutrientPart) -> String {
    let reefs = source::NITRATE_ON_REEFS_UMOL_PER_L;
    match nitrate.verdict {
        NutrientVerdict::CannotBeToldFromZero => starving("Nitrate"),
        NutrientVerdict::AsOnReefs => format!(
            "No more than on reefs, up to {reefs} µmol/L (Guan 2015): poor water, so watch that it \
             does not run out."
        ),
        NutrientVerdict::AboveReefs => format!(
            "More than on reefs, up to {reefs} µmol/L (Guan 2015). Up to {} mg/L as N is acceptable \
             to most marine animals, far less to some of their young (Camargo 2005); keepers \
             commonly hold 2 to 20 mg/L as NO3 (common practice, no source).",
            source::NITRATE_LIMIT_MG_N_PER_L
        ),
        NutrientVerdict::Harmful => format!(
            "Above {} mg/L as N, the most that marine animals in general bear; young ones bear far \
             less (Camargo 2005). Lower it in steps, by changes of matched salt water.",
            source::NITRATE_LIMIT_MG_N_PER_L
        ),
    }
}

fn phosphate_meaning(phosphate: &NutrientPart) -> String {
    let reefs = source::PHOSPHATE_ON_REEFS_UMOL_PER_L;
    match phosphate.verdict {
        NutrientVerdict::CannotBeToldFromZero => starving("Phosphate"),
        NutrientVerdict::AboveReefs | NutrientVerdict::Harmful => format!(
            "More than on reefs, up to {reefs} µmol/L (Guan 2015); algae gain from it. Keepers \
             commonly hold 0.02 to 0.1 mg/L (common practice, no source); lower it slowly."
        ),
        NutrientVerdict::AsOnReefs => format!(
            "About as on reefs, up to {reefs} µmol/L (Guan 2015); 57 species of coral grew well at \
             0.6 (Atkinson 1995). Keepers commonly hold 0.02 to 0.1 mg/L (common practice, no \
             source)."
        ),
    }
}

fn starving(name: &str) -> String {
    format!(
        "{name} cannot be told from zero. Corals need some: much nitrogen with too little \
         phosphate bleaches them (Wiedenmann 2013, Rosset 2017). Measure with a finer kit; with \
         ammonia and oxygen in order, remove less or feed a little more, in small steps."
    )
}

fn nitrogen_to_phosphorus(page: &mut Page, ratio: &RatioPart) {
    let at_least = two_digits(ratio.at_least);
    let (value, range) = match ratio.at_most {
        Some(at_most) => (
            two_digits(ratio.moles_of_nitrogen_per_phosphorus),
            format!("Anything from {at_least} to {} fits", two_digits(at_most)),
        ),
        None => (
            format!("> {at_least}"),
            "No upper end can be told from".to_owned(),
        ),
    };
    page.plain("N to P, in moles", &value, "");
    let which = match ratio.against_seaweeds_30 {
        "nitrogen_rich" => "Phosphorus would run out first",
        "phosphorus_rich" => "Nitrogen would run out first",
        _ => "Which would run out first cannot be told",
    };
    page.meaning(&format!(
        "{range} the kits. Plankton takes up 16 (Redfield 1958), seaweeds 30 (Atkinson & Smith \
         1983). {which}; whether either is short only the amounts can say."
    ));
}

fn what_limits(page: &mut Page, limits: &[Limits]) {
    page.heading("What limits these numbers");
    for limit in limits {
        let shares: Vec<String> = limit
            .shares
            .iter()
            .filter(|share| share.percent_of_variance >= 3.0)
            .take(3)
            .map(|share| format!("{} {:.0} %", share.from, share.percent_of_variance))
            .collect();
        if !shares.is_empty() {
            page.item(&format!("{}: {}.", limit.result, shares.join(", ")));
        }
    }
    page.blank();
    page.paragraph(
        "Shares of the variance. A better instrument helps in the lines it leads and hardly \
         elsewhere. Calibrating in buffers made up in seawater takes most of the junction's \
         share away.",
    );
}

fn before_acting(page: &mut Page) {
    page.heading("Before you act");
    for caution in [
        "These numbers describe water, not animals. Measure a surprise again with a second kit, \
         change one thing at a time and slowly, and ask a veterinarian or an experienced keeper \
         where livestock suffers.",
        "Follow the labels of products. Acids and caustic powders burn: gloves and eye protection, \
         add them to water and never the other way round, never mix two of them, and keep them \
         from children.",
        "CO2 is heavier than air and gives little warning. Keep cylinders out of closed rooms, and \
         ventilate and leave when a meter shows thousands of ppm; 5000 ppm is the limit of a \
         working day (OSHA).",
        "Mains power and salt water kill: unplug before hands go in, hang cables in a drip loop, \
         use a residual-current device, and leave installations to a licensed electrician under \
         local code.",
    ] {
        page.item(caution);
    }
}

/// Two digits of a number whose uncertainty is told otherwise.
fn two_digits(x: f64) -> String {
    if x < 1.0 {
        return format!("{x:.2}");
    }
    let step = 10_f64.powf(x.log10().floor() - 1.0);
    let decimals = usize::from(step < 1.0);
    format!("{:.decimals$}", (x / step).round() * step)
}
