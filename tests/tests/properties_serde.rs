//! What is written is read back, with its unit and scale, and a file brings in
//! nothing that a constructor refuses.

use std::fmt::Debug;

use halimeda::carbonate::Known;
use halimeda::gas::{GasKind, TransferBasis, oxygen_solubility};
use halimeda::nutrient::{AmmoniaVerdict, ContentEstimate, Process};
use halimeda::probe::{ProbeHealth, ReferenceBuffer};
use halimeda::water::{CalibrationFluid, TemperatureCompensation};
use halimeda::{
    Alkalinity, AnyPh, Aragonite, Content, Extrapolation, Flagged, NbsScale, Ph, PhScale,
    PracticalSalinity, Relation, RelationSet, SaturationState, Temperature, TotalScale, Water,
    species,
};
use serde::Serialize;
use serde::de::DeserializeOwned;

/// Writes a value, compares the text and reads it back.
#[track_caller]
fn written_as<T: Serialize + DeserializeOwned + PartialEq + Debug>(value: T, text: &str) {
    assert_eq!(serde_json::to_string(&value).unwrap(), text);
    assert_eq!(serde_json::from_str::<T>(text).unwrap(), value);
}

#[test]
fn readings_carry_unit_and_scale() {
    let nbs = Ph::<NbsScale>::new(8.25).unwrap();
    let text = r#"{"value":8.25,"scale":"nbs"}"#;
    written_as(nbs, text);
    written_as(AnyPh::from(nbs), text);
    let refused = serde_json::from_str::<Ph<TotalScale>>(text).unwrap_err();
    assert!(refused.to_string().contains("NBS scale"), "{refused}");
    for bad in [
        r#"{"value":8.25}"#,
        r#"8.25"#,
        r#"{"value":15,"scale":"total"}"#,
    ] {
        assert!(serde_json::from_str::<Ph<TotalScale>>(bad).is_err());
        assert!(serde_json::from_str::<AnyPh>(bad).is_err());
    }

    written_as(
        Known::from(Alkalinity::from_umol_per_kg(2500.0).unwrap()),
        r#"{"alkalinity":{"umol_per_kg":2500.0}}"#,
    );
    written_as(Known::from(nbs), r#"{"ph":{"value":8.25,"scale":"nbs"}}"#);
    let omega = SaturationState::<Aragonite>::new(3.5).unwrap();
    written_as(Known::from(omega), r#"{"aragonite":{"value":3.5}}"#);
    assert!(serde_json::from_str::<Known>(r#"{"aragonite":{"value":-1.0}}"#).is_err());

    let estimate = ContentEstimate::<species::Nitrate>::new(
        Content::from_mol_per_kg(8e-5).unwrap(),
        Content::from_mol_per_kg(1e-5).unwrap(),
    );
    written_as(
        estimate,
        r#"{"content":{"mol_per_kg":0.00008},"standard_uncertainty":{"mol_per_kg":0.00001}}"#,
    );
}

#[test]
fn choices_and_verdicts_are_words() {
    written_as(PhScale::Seawater, r#""seawater""#);
    written_as(Extrapolation::Allow, r#""allow""#);
    written_as(ProbeHealth::Ageing, r#""ageing""#);
    written_as(
        ReferenceBuffer::PhysiologicalPhosphate,
        r#""physiological_phosphate""#,
    );
    written_as(AmmoniaVerdict::AboveChronic, r#""above_chronic""#);
    written_as(CalibrationFluid::PureWater, r#""pure_water""#);
    written_as(TemperatureCompensation::Automatic, r#""automatic""#);
    let basis = TransferBasis::new(GasKind::Oxygen, Temperature::from_celsius(25.0).unwrap());
    let text = serde_json::to_string(&basis).unwrap();
    assert_eq!(serde_json::from_str::<TransferBasis>(&text).unwrap(), basis);
    let moles = Process::Nitrification.stoichiometry();
    let text = serde_json::to_string(&moles).unwrap();
    assert_eq!(serde_json::from_str(&text).ok(), Some(moles));
}

#[test]
fn results_keep_what_they_extrapolate() {
    // A relation is called as its function is.
    written_as(Relation::K1K2Lueker2000, r#""k1_k2_lueker2000""#);
    let every: RelationSet = {
        let mut set = RelationSet::EMPTY;
        for &relation in Relation::ALL {
            set.insert(relation);
        }
        set
    };
    let text = serde_json::to_string(&every).unwrap();
    assert_eq!(serde_json::from_str::<RelationSet>(&text).unwrap(), every);

    let brine = Water::new(
        Temperature::from_celsius(25.0).unwrap(),
        PracticalSalinity::new(44.0).unwrap(),
    )
    .with_extrapolation(Extrapolation::Allow);
    let answer = oxygen_solubility(&brine).unwrap();
    let text = serde_json::to_string(&answer).unwrap();
    assert!(
        text.ends_with(r#""extrapolated":["oxygen_garcia_gordon1992"]}"#),
        "{text}"
    );
    let back: Flagged<Content<species::Oxygen>> = serde_json::from_str(&text).unwrap();
    assert_eq!(back.extrapolated(), answer.extrapolated());
    // The reader of JSON may miss the last digit.
    let ratio = back.value().mol_per_kg() / answer.value().mol_per_kg();
    assert!((ratio - 1.0).abs() < 1e-15);
    assert!(serde_json::from_str::<RelationSet>(r#"["k1_k2_nobody1900"]"#).is_err());
}
