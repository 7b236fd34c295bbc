//! Equilibrium constants against the values printed by their sources.
//!
//! A tolerance of half a unit of the last printed digit is written as such.

use halimeda::carbonate::Medium;
use halimeda::carbonate::constants::{self, PressureEffect};

/// The conditions of the handbooks' check values: 25 °C, S 35.
fn handbook() -> Medium<f64> {
    Medium::new(25.0, 35.0)
}

/// Asserts that `value` rounds to `printed`, given with `digits` decimals.
#[track_caller]
fn rounds_to(name: &str, value: f64, printed: f64, digits: i32) {
    let half_unit = 0.5 * 10f64.powi(-digits);
    // A last bit of slack: the printed number is not a binary one.
    assert!(
        (value - printed).abs() <= half_unit * (1.0 + 1e-9),
        "{name}: {value} does not round to {printed}"
    );
}

/// Dickson, Sabine & Christian (2007) Guide to Best Practices for Ocean CO2
/// Measurements, PICES Special Publication 3, chapter 5: the check value
/// printed below each equation, at 25 °C and S 35.
#[test]
fn dickson_sabine_christian_2007_chapter_5() {
    let m = handbook();
    rounds_to("ln K0", constants::k0_weiss1974(&m).ln(), -3.5617, 4);
    let [k1, k2] = constants::k1_k2_lueker2000(&m);
    rounds_to("log K1", k1.log10(), -5.8472, 4);
    rounds_to("log K2", k2.log10(), -8.9660, 4);
    rounds_to("ln KB", constants::kb_dickson1990(&m).ln(), -19.7964, 4);
    rounds_to("ln KS", constants::ks_dickson1990(&m).ln(), -2.30, 2);
    rounds_to("ln KF", constants::kf_perez_fraga1987(&m).ln(), -6.09, 2);

    // The handbook prints these on the total scale, the constant term of the
    // seawater-scale original lowered by 0.015.
    let total = |k: f64| k.ln() - 0.015;
    rounds_to("ln KW", total(constants::kw_millero1995(&m)), -30.434, 3);
    let [kp1, kp2, kp3] = constants::kp_yao_millero1995(&m);
    rounds_to("ln KP1", total(kp1), -3.71, 2);
    rounds_to("ln KP2", total(kp2), -13.727, 3);
    rounds_to("ln KP3", total(kp3), -20.24, 2);
    rounds_to(
        "ln KSi",
        total(constants::ksi_yao_millero1995(&m)),
        -21.61,
        2,
    );
}

/// Zeebe, R. E., Wolf-Gladrow, D. (2001) CO2 in Seawater: Equilibrium,
/// Kinetics, Isotopes, appendix A: 25 °C, S 35; pressure factors at 300 bar.
#[test]
fn zeebe_wolf_gladrow_2001_appendix_a() {
    let m = handbook();
    rounds_to(
        "log Ksp aragonite",
        constants::ksp_aragonite_mucci1983(&m).log10(),
        -6.1883,
        4,
    );
    rounds_to(
        "log Ksp calcite",
        constants::ksp_calcite_mucci1983(&m).log10(),
        -6.3693,
        4,
    );
    let factors = [
        ("K1", PressureEffect::K1, 1.30804),
        ("K2", PressureEffect::K2, 1.21341),
        ("KB", PressureEffect::KB, 1.38024),
        ("KW", PressureEffect::KW, 1.23784),
        ("KS", PressureEffect::KS, 1.21844),
        ("KF", PressureEffect::KF, 1.13151),
        ("KP1", PressureEffect::KP1, 1.14852),
        ("KP2", PressureEffect::KP2, 1.27298),
        ("KP3", PressureEffect::KP3, 1.32217),
        ("Ksp aragonite", PressureEffect::KSP_ARAGONITE, 1.47866),
        ("Ksp calcite", PressureEffect::KSP_CALCITE, 1.52962),
    ];
    // The printed factors follow from R = 83.145 bar cm3/(mol K).
    let gas_constant_ratio = 83.1446261815324 / 83.145;
    for (name, effect, printed) in factors {
        let factor = effect.factor(&m, 300.0).powf(gas_constant_ratio);
        rounds_to(name, factor, printed, 5);
    }
}
