//! Exact first derivatives of every output to every input and constant.
//!
//! Each output is an explicit function of H, DIC and the constants and totals.
//! The two known quantities are outputs held at their given values, so the
//! implicit function theorem on those two equations gives how H and DIC move,
//! and the chain rule the rest. Temperature and salinity act through every
//! constant and total, whose derivatives come from evaluating them on
//! [`Dual`](crate::Dual) numbers.

use super::constant_set::{ConstantSet, MinorSet};
use super::speciation::{CarbonFractions, acid_form, base_form, phosphate_fractions};
use super::{CarbonateState, KnownKind};
use crate::Result;
use crate::quantity::PhScale;
use crate::real::{Dual, Real};
use crate::relation::{Extrapolation, Relation, RelationSet};

macro_rules! indexed {
    (
        $(#[$meta:meta])* $name:ident { $( $(#[$doc:meta])* $variant:ident = $text:literal, $unit:literal; )* }
    ) => {
        $(#[$meta])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
        #[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
        #[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
        #[non_exhaustive]
        #[repr(u8)]
        pub enum $name { $( $(#[$doc])* $variant, )* }

        impl $name {
            /// All of them.
            pub const ALL: &'static [Self] = &[ $( Self::$variant, )* ];
            /// How many there are.
            pub const COUNT: usize = Self::ALL.len();

            /// Name for tables and messages.
            #[must_use]
            pub const fn name(self) -> &'static str {
                match self { $( Self::$variant => $text, )* }
            }

            /// Unit of its value.
            #[must_use]
            pub const fn unit(self) -> &'static str {
                match self { $( Self::$variant => $unit, )* }
            }

            pub(super) const fn index(self) -> usize {
                self as usize
            }
        }

        impl core::fmt::Display for $name {
            fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
                f.write_str(self.name())
            }
        }
    };
}

indexed! {
    /// What a state depends on.
    Parameter {
        /// The first known quantity, in the unit of its own accessor.
        First = "first known quantity", "(its own)";
        /// The second known quantity, in the unit of its own accessor.
        Second = "second known quantity", "(its own)";
        /// Temperature.
        Temperature = "temperature", "°C";
        /// Practical salinity; ions that were not measured scale with it.
        Salinity = "practical salinity", "(practical salinity)";
        /// Total boron.
        Boron = "total boron", "µmol/kg";
        /// Total sulfate, at fixed constants on the total scale.
        Sulfate = "total sulfate", "µmol/kg";
        /// Total fluoride, at fixed constants on the total scale.
        Fluoride = "total fluoride", "µmol/kg";
        /// Calcium.
        Calcium = "calcium", "µmol/kg";
        /// Phosphate.
        Phosphate = "phosphate", "µmol/kg";
        /// Silicate.
        Silicate = "silicate", "µmol/kg";
        /// Total ammonia.
        Ammonia = "total ammonia", "µmol/kg";
        /// Total sulfide.
        Sulfide = "total sulfide", "µmol/kg";
        /// −log10 of K0.
        PK0 = "pK0", "(pK)";
        /// −log10 of K1, total scale.
        PK1 = "pK1", "(pK)";
        /// −log10 of K2, total scale.
        PK2 = "pK2", "(pK)";
        /// −log10 of KB, total scale.
        PKb = "pKB", "(pK)";
        /// −log10 of KW, total scale.
        PKw = "pKW", "(pK)";
        /// −log10 of KS, free scale; constants on the total scale stay as they are.
        PKs = "pKS", "(pK)";
        /// −log10 of KF, free scale; constants on the total scale stay as they are.
        PKf = "pKF", "(pK)";
        /// −log10 of KP1, total scale.
        PKp1 = "pKP1", "(pK)";
        /// −log10 of KP2, total scale.
        PKp2 = "pKP2", "(pK)";
        /// −log10 of KP3, total scale.
        PKp3 = "pKP3", "(pK)";
        /// −log10 of KSi, total scale.
        PKsi = "pKSi", "(pK)";
        /// −log10 of KNH4, total scale.
        PKnh4 = "pKNH4", "(pK)";
        /// −log10 of KH2S, total scale.
        PKh2s = "pKH2S", "(pK)";
        /// −log10 of the solubility product of aragonite.
        PKspAragonite = "pKsp (aragonite)", "(pK)";
        /// −log10 of the solubility product of calcite.
        PKspCalcite = "pKsp (calcite)", "(pK)";
        /// −log10 of fH, the activity coefficient of the NBS scale.
        PFh = "-log10 fH", "(pH)";
    }
}

indexed! {
    /// What a state gives.
    Output {
        /// Total alkalinity.
        Alkalinity = "total alkalinity", "µmol/kg";
        /// Dissolved inorganic carbon.
        InorganicCarbon = "dissolved inorganic carbon", "µmol/kg";
        /// pH on the total scale.
        PhTotal = "pH (total scale)", "(pH)";
        /// pH on the free scale.
        PhFree = "pH (free scale)", "(pH)";
        /// pH on the seawater scale.
        PhSeawater = "pH (seawater scale)", "(pH)";
        /// pH on the NBS scale.
        PhNbs = "pH (NBS scale)", "(pH)";
        /// Partial pressure of CO2.
        PartialPressure = "pCO2", "µatm";
        /// Fugacity of CO2.
        Fugacity = "fCO2", "µatm";
        /// Dissolved CO2.
        CarbonDioxide = "dissolved CO2", "µmol/kg";
        /// Bicarbonate.
        Bicarbonate = "bicarbonate", "µmol/kg";
        /// Carbonate.
        Carbonate = "carbonate", "µmol/kg";
        /// Saturation state of aragonite.
        Aragonite = "aragonite saturation state", "(dimensionless)";
        /// Saturation state of calcite.
        Calcite = "calcite saturation state", "(dimensionless)";
        /// Un-ionised ammonia.
        UnionisedAmmonia = "un-ionised ammonia", "µmol/kg";
    }
}

impl KnownKind {
    /// The output that a known quantity of this kind holds fixed.
    #[must_use]
    pub const fn output(self) -> Output {
        match self {
            Self::Alkalinity => Output::Alkalinity,
            Self::InorganicCarbon => Output::InorganicCarbon,
            Self::Ph(PhScale::Total) => Output::PhTotal,
            Self::Ph(PhScale::Free) => Output::PhFree,
            Self::Ph(PhScale::Seawater) => Output::PhSeawater,
            Self::Ph(PhScale::Nbs) => Output::PhNbs,
            Self::PartialPressure => Output::PartialPressure,
            Self::Fugacity => Output::Fugacity,
            Self::CarbonDioxide => Output::CarbonDioxide,
            Self::Bicarbonate => Output::Bicarbonate,
            Self::Carbonate => Output::Carbonate,
            Self::Aragonite => Output::Aragonite,
            Self::Calcite => Output::Calcite,
        }
    }
}

/// Derivatives of every [`Output`] to every [`Parameter`], each in the unit of
/// the output per unit of the parameter, the others held fixed.
///
/// ```
/// use halimeda::carbonate::{EquilibriumOptions, Output, Parameter};
/// use halimeda::{Alkalinity, Content, PracticalSalinity, Temperature, Water, species};
///
/// let water = Water::new(Temperature::from_celsius(25.0)?, PracticalSalinity::new(35.0)?);
/// let state = water.equilibria(&EquilibriumOptions::default())?.solve(
///     Alkalinity::from_umol_per_kg(2300.0)?,
///     Content::<species::InorganicCarbon>::from_umol_per_kg(2000.0)?,
/// )?;
/// let derivatives = state.sensitivities()?;
/// // Adding 1 µmol/kg of CO2 lowers pH by about two thousandths.
/// let slope = derivatives.of(Output::PhTotal, Parameter::Second);
/// assert!(slope < -0.0015 && slope > -0.0025);
/// # Ok::<(), halimeda::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sensitivities {
    rows: [[f64; Parameter::COUNT]; Output::COUNT],
    extrapolations: RelationSet,
}

impl Sensitivities {
    /// Relations that a derivative uses outside their published range.
    ///
    /// Besides those of the state, whether or not extrapolation is allowed:
    /// those of bases that the water holds none of, which only the derivatives
    /// to the total of the base use ([`Parameter::Sulfide`] and the like), and
    /// that of the NBS scale, which [`Output::PhNbs`] uses.
    #[must_use]
    pub const fn extrapolations(&self) -> RelationSet {
        self.extrapolations
    }

    /// One derivative, in the unit of `output` per unit of `parameter`.
    #[must_use]
    pub fn of(&self, output: Output, parameter: Parameter) -> f64 {
        self.row(output)
            .get(parameter.index())
            .copied()
            .unwrap_or_default()
    }

    /// The derivatives of one output, in the order of [`Parameter::ALL`].
    #[must_use]
    pub fn row(&self, output: Output) -> &[f64; Parameter::COUNT] {
        match self.rows.get(output.index()) {
            Some(row) => row,
            // `Output::index` is below `Output::COUNT`, the number of rows.
            None => &[0.0; Parameter::COUNT],
        }
    }
}

/// Positions of the logarithms of constants, then the totals, that outputs
/// depend on explicitly. Internal: mapped to [`Parameter`] in the end.
mod at {
    pub(super) const K0: usize = 0;
    pub(super) const K1: usize = 1;
    pub(super) const K2: usize = 2;
    pub(super) const KB: usize = 3;
    pub(super) const KW: usize = 4;
    pub(super) const KS: usize = 5;
    pub(super) const KF: usize = 6;
    pub(super) const KP1: usize = 7;
    pub(super) const KP2: usize = 8;
    pub(super) const KP3: usize = 9;
    pub(super) const KSI: usize = 10;
    pub(super) const KNH4: usize = 11;
    pub(super) const KH2S: usize = 12;
    pub(super) const KSP_ARAGONITE: usize = 13;
    pub(super) const KSP_CALCITE: usize = 14;
    pub(super) const FH: usize = 15;
    pub(super) const FUGACITY: usize = 16;
    /// Number of logarithms.
    pub(super) const TOTALS: usize = 17;
    pub(super) const BORON: usize = 17;
    pub(super) const SULFATE: usize = 18;
    pub(super) const FLUORIDE: usize = 19;
    pub(super) const CALCIUM: usize = 20;
    pub(super) const PHOSPHATE: usize = 21;
    pub(super) const SILICATE: usize = 22;
    pub(super) const AMMONIA: usize = 23;
    pub(super) const SULFIDE: usize = 24;
    pub(super) const COUNT: usize = 25;
}

/// An output's explicit derivatives: to ln H, to DIC (mol/kg), and to the
/// logarithms and totals of [`at`].
#[derive(Clone, Copy)]
struct Gradient {
    ln_h: f64,
    dic: f64,
    by: [f64; at::COUNT],
}

impl Gradient {
    const ZERO: Self = Self {
        ln_h: 0.0,
        dic: 0.0,
        by: [0.0; at::COUNT],
    };

    fn add(&mut self, index: usize, value: f64) {
        if let Some(slot) = self.by.get_mut(index) {
            *slot += value;
        }
    }

    fn scaled(mut self, factor: f64) -> Self {
        self.ln_h *= factor;
        self.dic *= factor;
        self.by = self.by.map(|x| x * factor);
        self
    }
}

/// Explicit derivatives of the outputs at one state.
struct Gradients<'a> {
    set: &'a ConstantSet<f64>,
    minor: MinorSet<f64>,
    h: f64,
    dic: f64,
    fractions: CarbonFractions,
    /// ∂ln(free H)/∂ln KS at constant total H: the bisulfate share of total H.
    bisulfate_share: f64,
}

const PER_LN10: f64 = core::f64::consts::LOG10_E;

impl Gradients<'_> {
    fn of(&self, output: Output) -> Gradient {
        let set = self.set;
        match output {
            // µmol per mol, µatm per atm.
            Output::Alkalinity => self.alkalinity().scaled(1e6),
            Output::InorganicCarbon => Gradient {
                dic: 1e6,
                ..Gradient::ZERO
            },
            Output::PhTotal => self.ph(PhScale::Total),
            Output::PhFree => self.ph(PhScale::Free),
            Output::PhSeawater => self.ph(PhScale::Seawater),
            Output::PhNbs => self.ph(PhScale::Nbs),
            Output::CarbonDioxide => self.carbon(0).scaled(1e6),
            Output::Bicarbonate => self.carbon(1).scaled(1e6),
            Output::Carbonate => self.carbon(2).scaled(1e6),
            Output::Fugacity | Output::PartialPressure => {
                let uatm_per_mol = 1e6
                    / match output {
                        Output::Fugacity => set.k0,
                        _ => set.k0 * set.fugacity_coefficient,
                    };
                let value = self.dic * self.fractions.co2 * uatm_per_mol;
                let mut gradient = self.carbon(0).scaled(uatm_per_mol);
                gradient.add(at::K0, -value);
                if output == Output::PartialPressure {
                    gradient.add(at::FUGACITY, -value);
                }
                gradient
            }
            Output::Aragonite => self.saturation(set.ksp_aragonite, at::KSP_ARAGONITE),
            Output::Calcite => self.saturation(set.ksp_calcite, at::KSP_CALCITE),
            Output::UnionisedAmmonia => {
                let mut gradient = Gradient::ZERO;
                let minor = &self.minor;
                self.add_base(
                    &mut gradient,
                    minor.ammonia,
                    minor.knh4,
                    at::AMMONIA,
                    at::KNH4,
                );
                gradient.scaled(1e6)
            }
        }
    }

    fn ph(&self, scale: PhScale) -> Gradient {
        let set = self.set;
        let mut gradient = Gradient {
            ln_h: -PER_LN10,
            ..Gradient::ZERO
        };
        // pH = -log10 H + log10(free to total) - log10(free to this scale)
        if scale != PhScale::Total {
            gradient.add(at::KS, -PER_LN10 * self.bisulfate_share);
            gradient.add(at::SULFATE, PER_LN10 / (set.ks * set.free_to_total));
        }
        if matches!(scale, PhScale::Seawater | PhScale::Nbs) {
            let seawater = set.free_to_seawater;
            gradient.add(at::KS, PER_LN10 * set.sulfate / (set.ks * seawater));
            gradient.add(at::SULFATE, -PER_LN10 / (set.ks * seawater));
            gradient.add(at::KF, PER_LN10 * set.fluoride / (set.kf * seawater));
            gradient.add(at::FLUORIDE, -PER_LN10 / (set.kf * seawater));
        }
        if scale == PhScale::Nbs {
            gradient.add(at::FH, -PER_LN10);
        }
        gradient
    }

    /// The species with `charges` protons lost. For fractions α of a stepwise
    /// acid with mean charge n: ∂ln α_j/∂ln H = n - j, and ∂ln α_j/∂ln K_i is
    /// (j >= i) minus the fraction that has lost i or more.
    fn carbon(&self, charges: u8) -> Gradient {
        let f = self.fractions;
        let fraction = match charges {
            0 => f.co2,
            1 => f.bicarbonate,
            _ => f.carbonate,
        };
        let content = self.dic * fraction;
        let lost = |i: u8| if charges >= i { 1.0 } else { 0.0 };
        let mut gradient = Gradient {
            ln_h: content * (f.charge() - f64::from(charges)),
            dic: fraction,
            ..Gradient::ZERO
        };
        gradient.add(at::K1, content * (lost(1) - f.bicarbonate - f.carbonate));
        gradient.add(at::K2, content * (lost(2) - f.carbonate));
        gradient
    }

    fn saturation(&self, ksp: f64, index: usize) -> Gradient {
        let per_carbonate = self.set.calcium / ksp;
        let carbonate = self.dic * self.fractions.carbonate;
        let mut gradient = self.carbon(2).scaled(per_carbonate);
        gradient.add(index, -carbonate * per_carbonate);
        gradient.add(at::CALCIUM, carbonate / ksp);
        gradient
    }

    /// Adds the base form of a monoprotic acid.
    fn add_base(&self, gradient: &mut Gradient, total: f64, k: f64, total_at: usize, k_at: usize) {
        let slope = base_form(total, k, self.h).slope;
        gradient.ln_h += slope;
        gradient.add(k_at, -slope);
        gradient.add(total_at, base_form(1.0, k, self.h).value);
    }

    fn alkalinity(&self) -> Gradient {
        let (set, minor) = (self.set, &self.minor);
        let h = self.h;
        let mut gradient = Gradient::ZERO;

        let f = self.fractions;
        let charge = f.charge();
        gradient.ln_h += self.dic * f.charge_slope();
        gradient.dic = charge;
        gradient.add(at::K1, self.dic * charge * f.co2);
        gradient.add(at::K2, self.dic * f.carbonate * (2.0 - charge));

        for (total, k, total_at, k_at) in [
            (set.boron, set.kb, at::BORON, at::KB),
            (minor.silicate, minor.ksi, at::SILICATE, at::KSI),
            (minor.ammonia, minor.knh4, at::AMMONIA, at::KNH4),
            (minor.sulfide, minor.kh2s, at::SULFIDE, at::KH2S),
        ] {
            self.add_base(&mut gradient, total, k, total_at, k_at);
        }

        let [p0, p1, p2, p3] = phosphate_fractions(minor.kp, h);
        let p_charge = p1 + 2.0 * p2 + 3.0 * p3;
        gradient.ln_h += minor.phosphate * (p_charge * p_charge - p1 - 4.0 * p2 - 9.0 * p3);
        gradient.add(at::PHOSPHATE, p2 + 2.0 * p3 - p0);
        for (k_at, beyond, weighted) in [
            (at::KP1, p1 + p2 + p3, p_charge),
            (at::KP2, p2 + p3, 2.0 * p2 + 3.0 * p3),
            (at::KP3, p3, 3.0 * p3),
        ] {
            gradient.add(k_at, minor.phosphate * (weighted - p_charge * beyond));
        }

        let hydroxide = set.kw / h;
        gradient.ln_h -= hydroxide;
        gradient.add(at::KW, hydroxide);

        // Acids on the free scale: ln(free H) = ln H - ln(free to total).
        let free = h / set.free_to_total;
        let bisulfate_slope = acid_form(set.sulfate, set.ks, free).slope;
        let fluoride_slope = acid_form(set.fluoride, set.kf, free).slope;
        let by_ln_free = -(free + bisulfate_slope + fluoride_slope);
        gradient.ln_h += by_ln_free;
        gradient.add(at::KS, by_ln_free * self.bisulfate_share + bisulfate_slope);
        gradient.add(at::KF, fluoride_slope);
        gradient.add(
            at::SULFATE,
            -by_ln_free / (set.ks * set.free_to_total) - acid_form(1.0, set.ks, free).value,
        );
        gradient.add(at::FLUORIDE, -acid_form(1.0, set.kf, free).value);
        gradient
    }
}

impl CarbonateState {
    /// Derivatives of every output to every input and constant.
    ///
    /// The two quantities the state was solved from are outputs too: their own
    /// derivatives are one to themselves and zero to all else.
    ///
    /// # Errors
    /// - [`ErrorKind::Contradictory`](crate::ErrorKind::Contradictory): the
    ///   state sits where two roots meet, so it does not vary smoothly with its
    ///   inputs.
    /// - The salinity is zero, where the relations have no slope in it.
    pub fn sensitivities(&self) -> Result<Sensitivities> {
        let equilibria = self.equilibria();
        let set = &equilibria.set;
        crate::error::within(
            "practical salinity",
            equilibria.water().salinity().value(),
            f64::MIN_POSITIVE,
            crate::PracticalSalinity::MAX,
            "(practical salinity)",
        )?;
        let gradients = Gradients {
            set,
            minor: equilibria.minor_or_evaluate(),
            h: self.hydrogen_total_mol_per_kg(),
            dic: self.dic(),
            fractions: self.fractions(),
            bisulfate_share: 1.0 - 1.0 / set.free_to_total,
        };
        let [first, second] = self.pair().map(|kind| gradients.of(kind.output()));
        let determinant = first.ln_h * second.dic - first.dic * second.ln_h;
        // The sine of the angle between the two gradients, in ln H and ln DIC.
        let carbon = self.dic().max(1e-15);
        let length = |g: &Gradient| g.ln_h.abs() + (g.dic * carbon).abs();
        if (determinant * carbon).abs() <= 1e-9 * length(&first) * length(&second) {
            let [a, b] = self.knowns();
            return Err(crate::Error::contradictory(
                (a.kind().name(), a.value()),
                (b.kind().name(), b.value()),
                "two states meet here, so the state does not vary smoothly with them",
            ));
        }
        // How ln H and DIC follow the knowns (rows of the inverse Jacobian).
        let ln_h = [second.dic / determinant, -first.dic / determinant];
        let dic = [-second.ln_h / determinant, first.ln_h / determinant];

        let through = explicit_by_temperature_and_salinity(equilibria.differentiated());
        let mut rows = [[0.0; Parameter::COUNT]; Output::COUNT];
        for (&output, row) in Output::ALL.iter().zip(rows.iter_mut()) {
            let gradient = gradients.of(output);
            // What a unit change of each known does to this output.
            let by_known = [
                gradient.ln_h * ln_h[0] + gradient.dic * dic[0],
                gradient.ln_h * ln_h[1] + gradient.dic * dic[1],
            ];
            // Explicit effect less what keeping the knowns fixed takes back.
            let mut total = gradient.by;
            for ((slot, a), b) in total.iter_mut().zip(first.by).zip(second.by) {
                *slot -= by_known[0] * a + by_known[1] * b;
            }
            let mut by_temperature = 0.0;
            let mut by_salinity = 0.0;
            for (slope, [t, s]) in total.iter().zip(through) {
                by_temperature += slope * t;
                by_salinity += slope * s;
            }
            let [
                k0,
                k1,
                k2,
                kb,
                kw,
                ks,
                kf,
                kp1,
                kp2,
                kp3,
                ksi,
                knh4,
                kh2s,
                arag,
                calc,
                fh,
                _,
                boron,
                sulfate,
                fluoride,
                calcium,
                phosphate,
                silicate,
                ammonia,
                sulfide,
            ] = total;
            // d/dpK = -ln 10 d/d ln K; totals per µmol/kg.
            let pk = |slope: f64| -core::f64::consts::LN_10 * slope;
            let um = |slope: f64| slope * 1e-6;
            *row = [
                by_known[0],
                by_known[1],
                by_temperature,
                by_salinity,
                um(boron),
                um(sulfate),
                um(fluoride),
                um(calcium),
                um(phosphate),
                um(silicate),
                um(ammonia),
                um(sulfide),
                pk(k0),
                pk(k1),
                pk(k2),
                pk(kb),
                pk(kw),
                pk(ks),
                pk(kf),
                pk(kp1),
                pk(kp2),
                pk(kp3),
                pk(ksi),
                pk(knh4),
                pk(kh2s),
                pk(arag),
                pk(calc),
                pk(fh),
            ];
        }
        let mut extrapolations = equilibria.extrapolations();
        for relation in [
            Relation::KpYaoMillero1995,
            Relation::KsiYaoMillero1995,
            Relation::Knh4CleggWhitfield1995,
            Relation::Kh2sMillero1988,
            Relation::FhTakahashi1982,
        ] {
            let water = equilibria.water();
            extrapolations.check(
                relation,
                water.temperature(),
                water.salinity(),
                Extrapolation::Allow,
            )?;
        }
        Ok(Sensitivities {
            rows,
            extrapolations,
        })
    }
}

/// Derivatives of the logarithms and totals of [`at`] to temperature and salinity.
fn explicit_by_temperature_and_salinity(
    (set, minor): (ConstantSet<Dual<2>>, MinorSet<Dual<2>>),
) -> [[f64; 2]; at::COUNT] {
    let [kp1, kp2, kp3] = minor.kp;
    let logarithms: [Dual<2>; at::TOTALS] = [
        set.k0,
        set.k1,
        set.k2,
        set.kb,
        set.kw,
        set.ks,
        set.kf,
        kp1,
        kp2,
        kp3,
        minor.ksi,
        minor.knh4,
        minor.kh2s,
        set.ksp_aragonite,
        set.ksp_calcite,
        set.fh,
        set.fugacity_coefficient,
    ];
    let totals = [
        set.boron,
        set.sulfate,
        set.fluoride,
        set.calcium,
        minor.phosphate,
        minor.silicate,
        minor.ammonia,
        minor.sulfide,
    ];
    let mut slopes = [[0.0; 2]; at::COUNT];
    let values = logarithms.map(Real::ln).into_iter().chain(totals);
    for (slot, value) in slopes.iter_mut().zip(values) {
        *slot = value.derivatives;
    }
    slopes
}

#[cfg(test)]
mod tests {
    use super::super::{Bases, Equilibria, EquilibriumOptions, Known};
    use super::*;
    use crate::quantity::{
        Alkalinity, AnyPh, Content, FugacityCo2, PartialPressureCo2, SaturationState,
    };
    use crate::{PracticalSalinity, Temperature, Water};

    const CELSIUS: f64 = 26.0;
    const SALINITY: f64 = 34.0;

    fn equilibria(celsius: f64, salinity: f64) -> Equilibria {
        Water::new(
            Temperature::from_celsius(celsius).unwrap(),
            PracticalSalinity::new(salinity).unwrap(),
        )
        .equilibria(&EquilibriumOptions::default())
        .unwrap()
        .with_bases(Bases {
            phosphate: Content::from_umol_per_kg(20.0).unwrap(),
            silicate: Content::from_umol_per_kg(60.0).unwrap(),
            ammonia: Content::from_umol_per_kg(30.0).unwrap(),
            sulfide: Content::ZERO,
        })
        .unwrap()
    }

    /// The equilibria with one parameter moved, everything derived from it as the
    /// parameter's documentation says.
    fn moved(parameter: Parameter, by: f64) -> Equilibria {
        let (celsius, salinity) = match parameter {
            Parameter::Temperature => (CELSIUS + by, SALINITY),
            Parameter::Salinity => (CELSIUS, SALINITY + by),
            _ => (CELSIUS, SALINITY),
        };
        let mut e = equilibria(celsius, salinity);
        let factor = crate::real::exp10(-by);
        let content = by * 1e-6;
        let mut minor = e.minor_or_evaluate();
        let set = &mut e.set;
        match parameter {
            Parameter::First | Parameter::Second | Parameter::Temperature | Parameter::Salinity => {
            }
            Parameter::Boron => set.boron += content,
            Parameter::Sulfate => set.sulfate += content,
            Parameter::Fluoride => set.fluoride += content,
            Parameter::Calcium => set.calcium += content,
            Parameter::Phosphate => minor.phosphate += content,
            Parameter::Silicate => minor.silicate += content,
            Parameter::Ammonia => minor.ammonia += content,
            Parameter::Sulfide => minor.sulfide += content,
            Parameter::PK0 => set.k0 *= factor,
            Parameter::PK1 => set.k1 *= factor,
            Parameter::PK2 => set.k2 *= factor,
            Parameter::PKb => set.kb *= factor,
            Parameter::PKw => set.kw *= factor,
            Parameter::PKs => set.ks *= factor,
            Parameter::PKf => set.kf *= factor,
            Parameter::PKp1 => minor.kp[0] *= factor,
            Parameter::PKp2 => minor.kp[1] *= factor,
            Parameter::PKp3 => minor.kp[2] *= factor,
            Parameter::PKsi => minor.ksi *= factor,
            Parameter::PKnh4 => minor.knh4 *= factor,
            Parameter::PKh2s => minor.kh2s *= factor,
            Parameter::PKspAragonite => set.ksp_aragonite *= factor,
            Parameter::PKspCalcite => set.ksp_calcite *= factor,
            Parameter::PFh => set.fh *= factor,
        }
        set.free_to_total = 1.0 + set.sulfate / set.ks;
        set.free_to_seawater = set.free_to_total + set.fluoride / set.kf;
        e.replace_minor(minor);
        e
    }

    fn known(kind: KnownKind, value: f64) -> Known {
        let content = value;
        match kind {
            KnownKind::Alkalinity => Alkalinity::from_umol_per_kg(value).unwrap().into(),
            KnownKind::InorganicCarbon => {
                Known::InorganicCarbon(Content::from_umol_per_kg(content).unwrap())
            }
            KnownKind::Ph(scale) => AnyPh::new(value, scale).unwrap().into(),
            KnownKind::PartialPressure => PartialPressureCo2::from_uatm(value).unwrap().into(),
            KnownKind::Fugacity => FugacityCo2::from_uatm(value).unwrap().into(),
            KnownKind::CarbonDioxide => {
                Known::CarbonDioxide(Content::from_umol_per_kg(content).unwrap())
            }
            KnownKind::Bicarbonate => {
                Known::Bicarbonate(Content::from_umol_per_kg(content).unwrap())
            }
            KnownKind::Carbonate => Known::Carbonate(Content::from_umol_per_kg(content).unwrap()),
            KnownKind::Aragonite => Known::Aragonite(SaturationState::new(value).unwrap()),
            KnownKind::Calcite => Known::Calcite(SaturationState::new(value).unwrap()),
        }
    }

    fn value(state: &CarbonateState, output: Output) -> f64 {
        match output {
            Output::Alkalinity => state.alkalinity().umol_per_kg(),
            Output::InorganicCarbon => state.inorganic_carbon().umol_per_kg(),
            Output::PhTotal => state.ph_total().value(),
            Output::PhFree => state.ph_free().value(),
            Output::PhSeawater => state.ph_seawater().value(),
            Output::PhNbs => state.ph_nbs().unwrap().value(),
            Output::PartialPressure => state.partial_pressure_co2().uatm(),
            Output::Fugacity => state.fugacity_co2().uatm(),
            Output::CarbonDioxide => state.carbon_dioxide().umol_per_kg(),
            Output::Bicarbonate => state.bicarbonate().umol_per_kg(),
            Output::Carbonate => state.carbonate().umol_per_kg(),
            Output::Aragonite => state.aragonite_saturation().value(),
            Output::Calcite => state.calcite_saturation().value(),
            Output::UnionisedAmmonia => state.unionised_ammonia().umol_per_kg(),
        }
    }

    /// Every output by every parameter, for every kind of pair, against central
    /// differences of the solver itself.
    #[test]
    fn sensitivities_agree_with_central_differences() {
        let reference = equilibria(CELSIUS, SALINITY)
            .solve(
                known(KnownKind::InorganicCarbon, 2100.0),
                known(KnownKind::Ph(PhScale::Total), 8.05),
            )
            .unwrap();
        for (i, &a) in KnownKind::ALL.iter().enumerate() {
            for &b in &KnownKind::ALL[i + 1..] {
                let at = |k: KnownKind| value(&reference, k.output());
                let base = equilibria(CELSIUS, SALINITY);
                let Ok(found) = base.solve_all(known(a, at(a)), known(b, at(b))) else {
                    continue;
                };
                let state = match found {
                    super::super::Solutions::One(s) => s,
                    super::super::Solutions::Two {
                        lower_ph: _,
                        higher_ph,
                    } if (higher_ph.ph_total().value() - 8.05).abs() < 1e-6 => higher_ph,
                    super::super::Solutions::Two { lower_ph, .. } => lower_ph,
                    super::super::Solutions::None { reason } => panic!("{a:?} {b:?}: {reason}"),
                };
                let derivatives = state.sensitivities().unwrap();
                for &p in Parameter::ALL {
                    let step = match p {
                        Parameter::First => 1e-5 * at(a),
                        Parameter::Second => 1e-5 * at(b),
                        Parameter::Temperature | Parameter::Salinity => 1e-4,
                        Parameter::Sulfate | Parameter::Calcium => 1.0,
                        p if p.unit() == "µmol/kg" => 1e-2,
                        _ => 1e-5,
                    };
                    let solve = |sign: f64| {
                        let d = sign * step;
                        let (da, db) = match p {
                            Parameter::First => (d, 0.0),
                            Parameter::Second => (0.0, d),
                            _ => (0.0, 0.0),
                        };
                        let (x, y) = (known(a, at(a) + da), known(b, at(b) + db));
                        match moved(p, d).solve_all(x, y).unwrap() {
                            super::super::Solutions::One(s) => s,
                            super::super::Solutions::Two {
                                lower_ph,
                                higher_ph,
                            } => {
                                let off = |s: &CarbonateState| {
                                    (s.ph_total().value() - state.ph_total().value()).abs()
                                };
                                if off(&lower_ph) < off(&higher_ph) {
                                    lower_ph
                                } else {
                                    higher_ph
                                }
                            }
                            super::super::Solutions::None { reason } => {
                                panic!("{a:?} {b:?} {p:?}: {reason}")
                            }
                        }
                    };
                    let (up, down) = (solve(1.0), solve(-1.0));
                    for &o in Output::ALL {
                        let numeric = (value(&up, o) - value(&down, o)) / (2.0 * step);
                        let exact = derivatives.of(o, p);
                        // Rounding of the outputs over the step, and the step's
                        // own curvature.
                        let noise = 1e-14 * value(&state, o).abs().max(1.0) / step;
                        let tolerance = 3e-5 * exact.abs() + 10.0 * noise;
                        assert!(
                            (numeric - exact).abs() <= tolerance,
                            "{o:?} by {p:?} for {a:?}, {b:?}: {exact:e} but differences {numeric:e}"
                        );
                    }
                }
            }
        }
    }
}
