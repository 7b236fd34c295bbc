use super::GAS_CONSTANT;
use crate::carbonate::Medium;
use crate::real::{Real, polynomial};

/// Effect of pressure on an equilibrium constant.
///
/// ln(K at p / K at the surface) = (-ΔV + κ p / 2) p / RT, with the changes of
/// molal volume ΔV = a0 + a1 t + a2 t², cm³/mol, and of compressibility
/// 1000 κ = b0 + b1 t, cm³ mol⁻¹ bar⁻¹, of the reaction in seawater of S 35; t
/// in °C, p in bar above the atmosphere. Millero (1995) table 9, doi
/// 10.1016/0016-7037(94)00354-O, with its misprints corrected as listed by
/// Lewis & Wallace (1998) ORNL/CDIAC-105 and noted at each constant; its gas
/// constant and the factor 1000 of κ are misprinted as well.
///
/// Constants are corrected on the seawater scale, those of hydrogen sulfate and
/// hydrogen fluoride on the free scale, before they go to another scale with
/// factors that hold at the pressure. K0 is used uncorrected.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PressureEffect {
    volume: [f64; 3],
    compressibility: [f64; 2],
}

impl PressureEffect {
    /// First dissociation of carbonic acid.
    pub const K1: Self = Self::new([-25.50, 0.1271, 0.0], [-3.08, 0.0877]);
    /// Second dissociation of carbonic acid.
    pub const K2: Self = Self::new([-15.82, -0.0219, 0.0], [1.13, -0.1475]);
    /// Boric acid. Millero (1995) prints 2.608 for 1000 a2; the sign is that of
    /// its source, Millero (1979) doi 10.1016/0016-7037(79)90184-4.
    pub const KB: Self = Self::new([-29.48, 0.1622, -2.608e-3], [-2.84, 0.0]);
    /// Ion product of water in seawater, Millero (1983). Table 9 of Millero
    /// (1995) prints the values of pure water in its place.
    pub const KW: Self = Self::new([-20.02, 0.1119, -1.409e-3], [-5.13, 0.0794]);
    /// Hydrogen sulfate.
    pub const KS: Self = Self::new([-18.03, 0.0466, 0.316e-3], [-4.53, 0.0900]);
    /// Hydrogen fluoride.
    pub const KF: Self = Self::new([-9.78, -0.0090, -0.942e-3], [-3.91, 0.054]);
    /// First dissociation of phosphoric acid.
    pub const KP1: Self = Self::new([-14.51, 0.1211, -0.321e-3], [-2.67, 0.0427]);
    /// Second dissociation of phosphoric acid.
    pub const KP2: Self = Self::new([-23.12, 0.1758, -2.647e-3], [-5.15, 0.0900]);
    /// Third dissociation of phosphoric acid.
    pub const KP3: Self = Self::new([-26.57, 0.2020, -3.042e-3], [-4.08, 0.0714]);
    /// Silicic acid: not measured; the values of boric acid stand in, as
    /// proposed by Millero (1995).
    pub const KSI: Self = Self::KB;
    /// Ammonium.
    pub const KNH4: Self = Self::new([-26.43, 0.0889, -0.905e-3], [-5.03, 0.0814]);
    /// First dissociation of hydrogen sulfide in seawater. Table 9 of Millero
    /// (1995) prints the values of pure water in its place.
    pub const KH2S: Self = Self::new([-11.07, -0.0090, -0.942e-3], [-2.89, 0.054]);
    /// Solubility product of calcite, Ingle (1975) doi
    /// 10.1016/0304-4203(75)90010-9.
    pub const KSP_CALCITE: Self = Self::new([-48.76, 0.5304, 0.0], [-11.76, 0.3692]);
    /// Solubility product of aragonite: that of calcite with ΔV larger by 2.8
    /// cm³/mol, Millero (1979).
    pub const KSP_ARAGONITE: Self = Self::new([-48.76 + 2.8, 0.5304, 0.0], [-11.76, 0.3692]);

    const fn new(volume: [f64; 3], compressibility: [f64; 2]) -> Self {
        Self {
            volume,
            compressibility,
        }
    }

    /// K at `bar` above the atmosphere, per K at the surface; exactly 1 at 0.
    #[inline(always)]
    #[must_use]
    pub fn factor<R: Real>(&self, medium: &Medium<R>, bar: R) -> R {
        let volume = polynomial(medium.celsius, self.volume);
        let compressibility = polynomial(medium.celsius, self.compressibility) / 1000.0;
        ((compressibility * bar * 0.5 - volume) * bar * medium.inverse_kelvin / GAS_CONSTANT).exp()
    }
}
