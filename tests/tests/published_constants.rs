//! Equilibrium constants against the values printed by their sources.
//!
//! A tolerance of half a unit of the last printed digit is written as such.

use halimeda::carbonate::Medium;
use halimeda::carbonate::constants::{self, PressureEffect};
use halimeda::{Dual, Real};

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
/// printed below each equation, at 25 °C and S 35. (Read second-hand, in the test
/// suites of two independent packages that cite it, OceanBioME.jl and
/// ClimaOceanBiogeochemistry.jl, which agree.)
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
/// (Read second-hand, in the test suite of OceanBioME.jl that cites it.)
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
    let gas_constant_ratio = 83.14462618 / 83.145;
    for (name, effect, printed) in factors {
        let factor = effect.factor(&m, 300.0).powf(gas_constant_ratio);
        rounds_to(name, factor, printed, 5);
    }
}

/// DOE (1994) Handbook of methods for the analysis of the various parameters of
/// the carbon dioxide system in sea water, ORNL/CDIAC-74, chapter 5: ln KF =
/// -5.80 on the total scale at 25 °C, S 35 (from memory).
#[test]
fn doe_1994_hydrogen_fluoride() {
    let m = handbook();
    let total_sulfate = 0.14 / 96.062 * 35.0 / 1.80655;
    let factor = constants::free_to_total(total_sulfate, constants::ks_dickson1990(&m));
    rounds_to(
        "ln KF",
        (constants::kf_dickson_riley1979(&m) * factor).ln(),
        -5.80,
        2,
    );
}

/// Murray, C. N., Riley, J. P. (1971) Deep-Sea Res. 18, 533-541: the measured
/// Bunsen coefficients, cm3(STP) of CO2 per cm3 of water at a partial pressure of
/// 1 atm, as compiled in the IUPAC-NIST Solubility Database; salinity in g/kg (at
/// 10 °C from the chlorinity 19.51: the salinity printed beside it is misprinted).
/// Weiss (1974) fitted K0 to them. Densities: the public one of this crate.
#[test]
fn murray_riley_1971_co2_solubility() -> halimeda::Result<()> {
    use halimeda::{Extrapolation, PracticalSalinity, Temperature, Water};
    // Molar volume of CO2 at STP, L/mol (Weiss 1974, from memory), and the second
    // virial coefficient of pure CO2, cm3/mol (Weiss 1974 eq. 6, from memory).
    const MOLAR_VOLUME: f64 = 22.263;
    let virial = |t: f64| -1636.75 + 12.0408 * t - 3.27957e-2 * t * t + 3.16528e-5 * t * t * t;
    let measured = [
        (1.04, 0.0, 1.6471),
        (1.04, 19.60, 1.4973),
        (1.04, 36.40, 1.3641),
        (5.0, 0.0, 1.4199),
        (5.0, 20.60, 1.2785),
        (5.0, 36.75, 1.1693),
        (10.0, 0.0, 1.1926),
        (10.0, 20.40, 1.0768),
        (10.0, 35.25, 0.9931),
        (15.0, 0.0, 1.0100),
        (15.0, 19.05, 0.9173),
        (15.0, 35.30, 0.8470),
        (20.0, 0.0, 0.8652),
        (20.0, 24.20, 0.7779),
        (20.0, 35.65, 0.7345),
        (25.0, 0.0, 0.7519),
        (25.0, 20.95, 0.6841),
        (25.0, 35.50, 0.6406),
        (32.0, 0.0, 0.6336),
        (32.0, 27.40, 0.5589),
        (32.0, 35.40, 0.5412),
        (35.0, 0.0, 0.5905),
        (35.0, 19.05, 0.5440),
        (35.0, 37.35, 0.5068),
    ];
    let mut squares = 0.0;
    for (celsius, salinity, bunsen) in measured {
        let water = Water::new(
            Temperature::from_celsius(celsius)?,
            PracticalSalinity::new(salinity)?,
        )
        .with_extrapolation(Extrapolation::Allow);
        let kg_per_litre = water.density()?.kg_per_m3() / 1000.0;
        let kelvin = celsius + 273.15;
        let fugacity_atm = (virial(kelvin) / (82.0574 * kelvin)).exp();
        let measured_k0 = bunsen / MOLAR_VOLUME / kg_per_litre / fugacity_atm;
        let k0 = constants::k0_weiss1974(&Medium::new(celsius, salinity));
        let deviation = k0 / measured_k0 - 1.0;
        assert!(
            deviation.abs() < 0.008,
            "{celsius} °C, S {salinity}: K0 {k0} against {measured_k0} measured ({deviation:+.4})"
        );
        squares += deviation * deviation;
    }
    // The scatter of the measurements about the fit.
    let rms = (squares / measured.len() as f64).sqrt();
    assert!(rms < 0.004, "{rms}");
    Ok(())
}

/// Millero et al. (2006) Mar. Chem. 100, 80-94, doi
/// 10.1016/j.marchem.2005.12.001, abstract: pK1 5.8401 and pK2 8.9636 on the
/// seawater scale at 25 °C, S 35, with standard errors 0.0054 and 0.011. Millero
/// (2010) and Waters et al. (2014) refit the same form to more data.
#[test]
fn millero_2006_and_its_successors() {
    let m = handbook();
    for (name, [k1, k2]) in [
        ("Millero 2010", constants::k1_k2_millero2010(&m)),
        ("Waters 2014", constants::k1_k2_waters2014(&m)),
        (
            "Dickson & Millero 1987",
            constants::k1_k2_dickson_millero1987(&m),
        ),
    ] {
        assert!((-k1.log10() - 5.8401).abs() < 0.0054, "pK1 of {name}");
        assert!((-k2.log10() - 8.9636).abs() < 0.011, "pK2 of {name}");
    }
}

/// Dickson & Millero (1987) on the seawater scale and Lueker et al. (2000) on
/// the total scale are fits to the same data, those of Mehrbach et al. (1973):
/// converted, they agree within the errors of the fits, 0.0055 and 0.0100 in pK
/// (from memory), over the range of the data.
#[test]
fn two_fits_of_mehrbach_1973_agree_through_the_scale_factors() {
    for celsius in [2.0, 13.0, 25.0, 35.0] {
        for salinity in [20.0, 27.0, 35.0, 40.0] {
            let m = Medium::<f64>::new(celsius, salinity);
            let sulfate = 0.14 / 96.062 * salinity / 1.80655;
            let fluoride = 0.000067 / 18.998 * salinity / 1.80655;
            let ks = constants::ks_dickson1990(&m);
            let total = constants::free_to_total(sulfate, ks);
            let seawater = constants::free_to_seawater(
                sulfate,
                ks,
                fluoride,
                constants::kf_perez_fraga1987(&m) / total,
            );
            let [k1, k2] = constants::k1_k2_dickson_millero1987(&m);
            let [lueker1, lueker2] = constants::k1_k2_lueker2000(&m);
            let d1 = (k1 * total / seawater / lueker1).log10();
            let d2 = (k2 * total / seawater / lueker2).log10();
            assert!(d1.abs() < 0.0055, "pK1 at {celsius} °C, S {salinity}: {d1}");
            assert!(d2.abs() < 0.0100, "pK2 at {celsius} °C, S {salinity}: {d2}");
        }
    }
}

/// Sulpis et al. (2020), abstract: Lueker et al. (2000) overestimate K1 and K2
/// below about 8 °C.
#[test]
fn sulpis_2020_lies_below_lueker_2000_in_the_cold() {
    for celsius in [2.0, 4.0, 6.0] {
        let m = Medium::<f64>::new(celsius, 35.0);
        let lueker = constants::k1_k2_lueker2000(&m);
        let sulpis = constants::k1_k2_sulpis2020(&m);
        for (s, l) in sulpis.into_iter().zip(lueker) {
            assert!(s < l && s > 0.9 * l, "{celsius} °C: {s} against {l}");
        }
    }
}

/// Mucci (1983), abstract (from memory): 4.39(20)e-7 for calcite and
/// 6.65(12)e-7 mol2/kg2 for aragonite measured at 25 °C, S 35. The equation the
/// paper fits to all its data gives 2.5 % less at this point.
#[test]
fn mucci_1983_measurements_at_25_degrees() {
    let m = handbook();
    let calcite = constants::ksp_calcite_mucci1983(&m);
    let aragonite = constants::ksp_aragonite_mucci1983(&m);
    assert!((calcite - 4.39e-7).abs() < 0.20e-7, "{calcite}");
    assert!((aragonite - 6.65e-7).abs() < 2.0 * 0.12e-7, "{aragonite}");
}

/// Bates, R. G., Pinching, G. D. (1949) J. Res. NBS 42, 419-430: pK of ammonium
/// in pure water (values from memory).
#[test]
fn bates_pinching_1949_ammonium_in_pure_water() {
    for (celsius, pk) in [
        (0.0, 10.081),
        (5.0, 9.904),
        (15.0, 9.564),
        (25.0, 9.246),
        (30.0, 9.093),
        (40.0, 8.805),
    ] {
        let k = constants::knh4_clegg_whitfield1995(&Medium::new(celsius, 0.0));
        assert!(
            (-k.log10() - pk).abs() < 0.003,
            "{celsius} °C: {}",
            k.log10()
        );
    }
}

/// Khoo, K. H., Culberson, C. H., Bates, R. G. (1977) J. Solution Chem. 6,
/// 281-290, doi 10.1007/BF00645459, abstract: pK = pK(water) + (0.1552 -
/// 0.0003142 t) I on the free scale, per kg of water, measured at S 20.31 and
/// 35.00. Clegg & Whitfield (1995) state 5 % of K for their model. (At 25 °C
/// only: the temperature dependence of the 1977 paper is known to be wrong, Bell
/// et al. 2007, doi 10.1071/EN07032.)
#[test]
fn khoo_1977_ammonium_in_seawater() {
    for salinity in [20.31, 35.0] {
        let m = Medium::<f64>::new(25.0, salinity);
        let khoo = 9.246 + (0.1552 - 0.0003142 * 25.0) * m.ionic_strength();
        let sulfate = 0.14 / 96.062 * salinity / 1.80655;
        let total = constants::free_to_total(sulfate, constants::ks_dickson1990(&m));
        let molal = constants::knh4_clegg_whitfield1995(&m) / total / (1.0 - 0.001005 * salinity);
        let deviation = molal / 10f64.powf(-khoo) - 1.0;
        assert!(deviation.abs() < 0.05, "S {salinity}: {deviation:+.4}");
    }
}

/// Millero, Plese & Fernandez (1988) Limnol. Oceanogr. 33, 269-274, abstract:
/// pK1 = -98.080 + 5765.4/T + 15.0455 ln T - 0.1498 √S + 0.0119 S.
/// Lewis & Wallace (1998) ORNL/CDIAC-105: 6.51 at 25 °C, S 35.
#[test]
fn millero_1988_hydrogen_sulfide() {
    for (celsius, salinity) in [(5.0_f64, 5.0_f64), (15.0, 20.0), (25.0, 35.0), (25.0, 40.0)] {
        let kelvin = celsius + 273.15;
        let pk = -98.080 + 5765.4 / kelvin + 15.0455 * kelvin.ln() - 0.1498 * salinity.sqrt()
            + 0.0119 * salinity;
        let k = constants::kh2s_millero1988(&Medium::new(celsius, salinity));
        // The coefficients are rounded apart in the two forms.
        assert!(
            (-k.log10() - pk).abs() < 0.001,
            "{celsius} °C, S {salinity}"
        );
    }
    let at_25 = constants::kh2s_millero1988(&handbook());
    rounds_to("pK1 of H2S", -at_25.log10(), 6.51, 2);
}

/// Lee et al. (2010), abstract: 0.2414 mg of boron per kg and g/kg of
/// chlorinity; Uppström (1974), as cited there: 0.232. Chlorinity is
/// S / 1.80655, the molar mass of boron 10.811 g/mol.
#[test]
fn total_boron_from_the_ratio_to_chlorinity() {
    let m = handbook();
    let from_ratio = |ratio: f64| ratio * 1e-3 / 10.811 * 35.0 / 1.80655;
    for (boron, ratio) in [
        (constants::total_boron_lee2010(&m), 0.2414),
        (constants::total_boron_uppstrom1974(&m), 0.232),
    ] {
        // The four digits the totals are quoted with.
        assert!((boron / from_ratio(ratio) - 1.0).abs() < 2e-4, "{boron}");
    }
}

#[test]
fn pressure_factors_are_exactly_one_at_the_surface() {
    for effect in [
        PressureEffect::K1,
        PressureEffect::KNH4,
        PressureEffect::KH2S,
        PressureEffect::KSI,
        PressureEffect::KSP_ARAGONITE,
    ] {
        assert_eq!(effect.factor(&handbook(), 0.0), 1.0);
    }
}

/// Evaluates `$value` on `f64` and on `Dual` at one point and compares the
/// derivatives with central differences.
macro_rules! derivatives_agree {
    ($( |$m:ident| $value:expr; )*) => {
        for (t, s) in [(25.0, 35.0), (8.0, 22.0), (34.0, 44.0)] {
            $({
                let f = |t: f64, s: f64| -> f64 { let $m = &Medium::new(t, s); $value };
                let dual = {
                    let $m = &Medium::new(Dual::<2>::variable(t, 0), Dual::variable(s, 1));
                    $value
                };
                assert_eq!(dual.value, f(t, s), "{}", stringify!($value));
                let h = 1e-3;
                let differences = [
                    (f(t + h, s) - f(t - h, s)) / (2.0 * h),
                    (f(t, s + h) - f(t, s - h)) / (2.0 * h),
                ];
                for (exact, difference) in dual.derivatives.into_iter().zip(differences) {
                    assert!(
                        (exact - difference).abs() <= 1e-6 * exact.abs() + 1e-9 * dual.value.abs(),
                        "{} at {t} °C, S {s}: {exact} against {difference}",
                        stringify!($value),
                    );
                }
            })*
        }
    };
}

#[test]
fn derivatives_agree_with_central_differences() {
    derivatives_agree! {
        |m| constants::k0_weiss1974(m);
        |m| constants::co2_fugacity_coefficient_weiss1974(m);
        |m| constants::k1_k2_lueker2000(m)[0];
        |m| constants::k1_k2_lueker2000(m)[1];
        |m| constants::k1_k2_dickson_millero1987(m)[0];
        |m| constants::k1_k2_dickson_millero1987(m)[1];
        |m| constants::k1_k2_millero2010(m)[0];
        |m| constants::k1_k2_millero2010(m)[1];
        |m| constants::k1_k2_waters2014(m)[0];
        |m| constants::k1_k2_waters2014(m)[1];
        |m| constants::k1_k2_sulpis2020(m)[0];
        |m| constants::k1_k2_sulpis2020(m)[1];
        |m| constants::kb_dickson1990(m);
        |m| constants::kw_millero1995(m);
        |m| constants::ks_dickson1990(m);
        |m| constants::ks_khoo1977(m);
        |m| constants::kf_perez_fraga1987(m);
        |m| constants::kf_dickson_riley1979(m);
        |m| constants::kp_yao_millero1995(m)[0];
        |m| constants::kp_yao_millero1995(m)[1];
        |m| constants::kp_yao_millero1995(m)[2];
        |m| constants::ksi_yao_millero1995(m);
        |m| constants::knh4_clegg_whitfield1995(m);
        |m| constants::kh2s_millero1988(m);
        |m| constants::ksp_aragonite_mucci1983(m);
        |m| constants::ksp_calcite_mucci1983(m);
        |m| constants::total_boron_lee2010(m);
        |m| constants::total_boron_uppstrom1974(m);
        |m| constants::fh_takahashi1982(m);
        |m| constants::free_to_total(
            m.practical_salinity() * 8.067e-4,
            constants::ks_dickson1990(m),
        );
        |m| constants::free_to_seawater(
            m.practical_salinity() * 8.067e-4,
            constants::ks_dickson1990(m),
            m.practical_salinity() * 1.952e-6,
            constants::kf_dickson_riley1979(m),
        );
        |m| PressureEffect::KB.factor(m, m.practical_salinity() * 10.0);
        |m| PressureEffect::KSP_CALCITE.factor(m, Real::constant(80.0));
    }
}

/// In fresh water every value and every slope with temperature is finite.
#[test]
fn salinity_zero_is_finite() {
    let m = &Medium::new(Dual::<2>::variable(25.0, 0), Dual::variable(0.0, 1));
    let [k1, k2] = constants::k1_k2_millero2010(m);
    let [waters1, waters2] = constants::k1_k2_waters2014(m);
    let [kp1, kp2, kp3] = constants::kp_yao_millero1995(m);
    for k in [
        constants::k0_weiss1974(m),
        k1,
        k2,
        waters1,
        waters2,
        constants::kb_dickson1990(m),
        constants::kw_millero1995(m),
        constants::ks_dickson1990(m),
        constants::ks_khoo1977(m),
        constants::kf_perez_fraga1987(m),
        constants::kf_dickson_riley1979(m),
        kp1,
        kp2,
        kp3,
        constants::ksi_yao_millero1995(m),
        constants::knh4_clegg_whitfield1995(m),
        constants::kh2s_millero1988(m),
        constants::ksp_aragonite_mucci1983(m),
        constants::ksp_calcite_mucci1983(m),
    ] {
        assert!(k.value.is_finite() && k.value > 0.0);
        assert!(k.derivatives[0].is_finite() && k.derivatives[0] != 0.0);
    }
}
