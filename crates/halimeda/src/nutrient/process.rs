use crate::Result;
use crate::error::within;

/// Moles of oxygen given off per mole of carbon fixed; running backwards, moles
/// consumed per mole of carbon mineralised.
///
/// The quotient on ammonium: what nitrate adds, two moles of oxygen per mole of
/// nitrogen, is in [`Process::NitrateUptake`].
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct PhotosyntheticQuotient {
    oxygen_per_carbon: f64,
}

impl PhotosyntheticQuotient {
    /// Pure carbohydrate, CH2O.
    pub const CARBOHYDRATE: Self = Self {
        oxygen_per_carbon: 1.0,
    };

    /// Algal biomass, 1.1 on ammonium (Laws 1991, Deep-Sea Res. 38A, 143-167,
    /// doi 10.1016/0198-0149(91)90059-O). With the two moles per mole of
    /// nitrate at C:N 6.6 this is his 1.4 on nitrate.
    pub const ALGAL_BIOMASS: Self = Self {
        oxygen_per_carbon: 1.1,
    };

    /// From moles of oxygen per mole of carbon, 0.5 (oxalate-like) to 2 (methane).
    ///
    /// # Errors
    /// The value is not finite or outside 0.5 to 2.
    pub const fn new(oxygen_per_carbon: f64) -> Result<Self> {
        match within(
            "photosynthetic quotient",
            oxygen_per_carbon,
            0.5,
            2.0,
            "mol O2 per mol C",
        ) {
            Ok(oxygen_per_carbon) => Ok(Self { oxygen_per_carbon }),
            Err(e) => Err(e),
        }
    }

    /// Moles of oxygen per mole of carbon.
    #[must_use]
    pub const fn oxygen_per_carbon(self) -> f64 {
        self.oxygen_per_carbon
    }
}

/// Cations of a carbonate: the mole fractions of magnesium and strontium, the
/// rest being calcium.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CarbonateComposition {
    magnesium: f64,
    strontium: f64,
}

impl CarbonateComposition {
    /// Calcium carbonate and nothing else.
    pub const CALCIUM_ONLY: Self = Self {
        magnesium: 0.0,
        strontium: 0.0,
    };

    /// From the mole fractions of magnesium and strontium among the cations.
    ///
    /// Orders of magnitude, from memory: coral aragonite 0.004 magnesium and
    /// 0.009 strontium; crustose coralline algae 0.1–0.2 magnesium.
    ///
    /// # Errors
    /// A fraction is not finite or outside 0 to 1, or they sum to more than 1.
    pub const fn new(magnesium: f64, strontium: f64) -> Result<Self> {
        let magnesium = match within("magnesium fraction", magnesium, 0.0, 1.0, "mol/mol") {
            Ok(magnesium) => magnesium,
            Err(e) => return Err(e),
        };
        match within(
            "strontium fraction",
            strontium,
            0.0,
            1.0 - magnesium,
            "mol/mol",
        ) {
            Ok(strontium) => Ok(Self {
                magnesium,
                strontium,
            }),
            Err(e) => Err(e),
        }
    }

    /// Mole fraction of calcium among the cations.
    #[must_use]
    pub const fn calcium(self) -> f64 {
        1.0 - self.magnesium - self.strontium
    }

    /// Mole fraction of magnesium among the cations.
    #[must_use]
    pub const fn magnesium(self) -> f64 {
        self.magnesium
    }

    /// Mole fraction of strontium among the cations.
    #[must_use]
    pub const fn strontium(self) -> f64 {
        self.strontium
    }
}

/// A process that changes the water, per mole of the substance its name counts.
///
/// ```
/// use halimeda::nutrient::Process;
/// let excreted = Process::NitrogenMineralisation.stoichiometry().alkalinity();
/// let nitrified = Process::Nitrification.stoichiometry().alkalinity();
/// let taken_up = Process::NitrateUptake.stoichiometry().alkalinity();
/// // Nitrogen that piles up as nitrate costs alkalinity,
/// assert_eq!(excreted + nitrified, -1.0);
/// // nitrogen that algae take up again gives it back.
/// assert_eq!(excreted + nitrified + taken_up, 0.0);
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Process {
    /// Fixation of carbon, per mole of carbon; nitrogen and phosphorus are
    /// taken up by processes of their own.
    Photosynthesis(PhotosyntheticQuotient),
    /// Oxidation of organic carbon with oxygen (respiration), per mole of carbon.
    CarbonMineralisation(PhotosyntheticQuotient),
    /// Uptake of nitrate into organic matter, per mole of nitrogen.
    NitrateUptake,
    /// Uptake of nitrite into organic matter, per mole of nitrogen.
    NitriteUptake,
    /// Uptake of ammonium into organic matter, per mole of nitrogen.
    AmmoniumUptake,
    /// Uptake of phosphate into organic matter, per mole of phosphorus.
    PhosphateUptake,
    /// Release of organic nitrogen as ammonium, per mole of nitrogen; excretion.
    NitrogenMineralisation,
    /// Release of organic phosphorus as phosphate, per mole of phosphorus.
    PhosphorusMineralisation,
    /// First step of nitrification, ammonium to nitrite, per mole of nitrogen.
    AmmoniumOxidation,
    /// Second step of nitrification, nitrite to nitrate, per mole of nitrogen.
    NitriteOxidation,
    /// Ammonium to nitrate, per mole of nitrogen.
    Nitrification,
    /// Nitrate to nitrogen gas at the expense of organic carbon of the given
    /// quotient, per mole of nitrate. The nitrogen and phosphorus of the organic
    /// matter are mineralised by processes of their own.
    Denitrification(PhotosyntheticQuotient),
    /// Precipitation of a carbonate, per mole of carbonate.
    Calcification(CarbonateComposition),
    /// Dissolution of a carbonate, per mole of carbonate.
    Dissolution(CarbonateComposition),
}

/// What a process adds to (positive) or takes from (negative) each pool, in
/// moles per mole of the substance the process counts.
///
/// Water and hydrogen ion are not listed: the hydrogen ion is what
/// [`alkalinity`](Self::alkalinity) accounts for.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[non_exhaustive]
pub struct Stoichiometry {
    /// Dissolved inorganic carbon.
    pub inorganic_carbon: f64,
    /// Dissolved oxygen, O2.
    pub oxygen: f64,
    /// Nitrate.
    pub nitrate: f64,
    /// Nitrite.
    pub nitrite: f64,
    /// Total ammonia, NH4⁺ and NH3.
    pub ammonia: f64,
    /// Total dissolved inorganic phosphate.
    pub phosphate: f64,
    /// Dissolved nitrogen gas, N2.
    pub nitrogen_gas: f64,
    /// Dissolved calcium.
    pub calcium: f64,
    /// Dissolved magnesium.
    pub magnesium: f64,
    /// Dissolved strontium.
    pub strontium: f64,
    /// Carbon in organic matter.
    pub organic_carbon: f64,
    /// Nitrogen in organic matter.
    pub organic_nitrogen: f64,
    /// Phosphorus in organic matter.
    pub organic_phosphorus: f64,
    /// Solid carbonate.
    pub solid_carbonate: f64,
}

impl Stoichiometry {
    const NONE: Self = Self {
        inorganic_carbon: 0.0,
        oxygen: 0.0,
        nitrate: 0.0,
        nitrite: 0.0,
        ammonia: 0.0,
        phosphate: 0.0,
        nitrogen_gas: 0.0,
        calcium: 0.0,
        magnesium: 0.0,
        strontium: 0.0,
        organic_carbon: 0.0,
        organic_nitrogen: 0.0,
        organic_phosphorus: 0.0,
        solid_carbonate: 0.0,
    };

    /// Change of total alkalinity, equivalents per mole of the substance the
    /// process counts.
    ///
    /// The explicit conservative expression of total alkalinity (Wolf-Gladrow
    /// et al. 2007, Mar. Chem. 106, 287-300, doi 10.1016/j.marchem.2007.01.006):
    /// each mole of Ca, Mg and Sr counts two, of total ammonia one, of nitrate,
    /// nitrite and total phosphate minus one. CO2 does not count.
    #[must_use]
    pub const fn alkalinity(&self) -> f64 {
        2.0 * (self.calcium + self.magnesium + self.strontium) + self.ammonia
            - self.nitrate
            - self.nitrite
            - self.phosphate
    }

    const fn reversed(self) -> Self {
        Self {
            inorganic_carbon: -self.inorganic_carbon,
            oxygen: -self.oxygen,
            nitrate: -self.nitrate,
            nitrite: -self.nitrite,
            ammonia: -self.ammonia,
            phosphate: -self.phosphate,
            nitrogen_gas: -self.nitrogen_gas,
            calcium: -self.calcium,
            magnesium: -self.magnesium,
            strontium: -self.strontium,
            organic_carbon: -self.organic_carbon,
            organic_nitrogen: -self.organic_nitrogen,
            organic_phosphorus: -self.organic_phosphorus,
            solid_carbonate: -self.solid_carbonate,
        }
    }
}

impl Process {
    /// What one mole of the process does to each pool.
    ///
    /// Reactions as in Middelburg, Soetaert & Hagens (2020), Rev. Geophys. 58,
    /// e2019RG000681, table 2 (doi 10.1029/2019RG000681), split into the
    /// elements; Brewer & Goldman (1976), Limnol. Oceanogr. 21, 108-117.
    #[must_use]
    pub const fn stoichiometry(self) -> Stoichiometry {
        match self {
            // CO2 + H2O -> CH2O + O2, with quotient q for more reduced matter.
            Self::Photosynthesis(quotient) => Stoichiometry {
                inorganic_carbon: -1.0,
                oxygen: quotient.oxygen_per_carbon,
                organic_carbon: 1.0,
                ..Stoichiometry::NONE
            },
            Self::CarbonMineralisation(quotient) => {
                Self::Photosynthesis(quotient).stoichiometry().reversed()
            }
            // HNO3 + H2O -> NH3(organic) + 2 O2
            Self::NitrateUptake => Stoichiometry {
                nitrate: -1.0,
                oxygen: 2.0,
                organic_nitrogen: 1.0,
                ..Stoichiometry::NONE
            },
            // HNO2 + H2O -> NH3(organic) + 1.5 O2
            Self::NitriteUptake => Stoichiometry {
                nitrite: -1.0,
                oxygen: 1.5,
                organic_nitrogen: 1.0,
                ..Stoichiometry::NONE
            },
            Self::AmmoniumUptake => Stoichiometry {
                ammonia: -1.0,
                organic_nitrogen: 1.0,
                ..Stoichiometry::NONE
            },
            Self::PhosphateUptake => Stoichiometry {
                phosphate: -1.0,
                organic_phosphorus: 1.0,
                ..Stoichiometry::NONE
            },
            Self::NitrogenMineralisation => Self::AmmoniumUptake.stoichiometry().reversed(),
            Self::PhosphorusMineralisation => Self::PhosphateUptake.stoichiometry().reversed(),
            // NH4+ + 1.5 O2 -> NO2- + H2O + 2 H+
            Self::AmmoniumOxidation => Stoichiometry {
                ammonia: -1.0,
                nitrite: 1.0,
                oxygen: -1.5,
                ..Stoichiometry::NONE
            },
            // NO2- + 0.5 O2 -> NO3-
            Self::NitriteOxidation => Stoichiometry {
                nitrite: -1.0,
                nitrate: 1.0,
                oxygen: -0.5,
                ..Stoichiometry::NONE
            },
            // NH4+ + 2 O2 -> NO3- + H2O + 2 H+
            Self::Nitrification => Stoichiometry {
                ammonia: -1.0,
                nitrate: 1.0,
                oxygen: -2.0,
                ..Stoichiometry::NONE
            },
            // Five electrons reduce a nitrate to N2, where oxygen takes four:
            // CH2O + 0.8 HNO3 -> CO2 + 0.4 N2 + 1.4 H2O.
            Self::Denitrification(quotient) => {
                let carbon = 1.25 / quotient.oxygen_per_carbon;
                Stoichiometry {
                    nitrate: -1.0,
                    nitrogen_gas: 0.5,
                    inorganic_carbon: carbon,
                    organic_carbon: -carbon,
                    ..Stoichiometry::NONE
                }
            }
            // Ca2+ + CO3 2- -> CaCO3
            Self::Calcification(composition) => Stoichiometry {
                inorganic_carbon: -1.0,
                calcium: -composition.calcium(),
                magnesium: -composition.magnesium,
                strontium: -composition.strontium,
                solid_carbonate: 1.0,
                ..Stoichiometry::NONE
            },
            Self::Dissolution(composition) => {
                Self::Calcification(composition).stoichiometry().reversed()
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const EVERY: [Process; 18] = [
        Process::Photosynthesis(PhotosyntheticQuotient::CARBOHYDRATE),
        Process::Photosynthesis(PhotosyntheticQuotient::ALGAL_BIOMASS),
        Process::CarbonMineralisation(PhotosyntheticQuotient::CARBOHYDRATE),
        Process::CarbonMineralisation(PhotosyntheticQuotient::ALGAL_BIOMASS),
        Process::NitrateUptake,
        Process::NitriteUptake,
        Process::AmmoniumUptake,
        Process::PhosphateUptake,
        Process::NitrogenMineralisation,
        Process::PhosphorusMineralisation,
        Process::AmmoniumOxidation,
        Process::NitriteOxidation,
        Process::Nitrification,
        Process::Denitrification(PhotosyntheticQuotient::CARBOHYDRATE),
        Process::Denitrification(PhotosyntheticQuotient::ALGAL_BIOMASS),
        Process::Calcification(CarbonateComposition::CALCIUM_ONLY),
        Process::Calcification(CarbonateComposition {
            magnesium: 0.15,
            strontium: 0.01,
        }),
        Process::Dissolution(CarbonateComposition::CALCIUM_ONLY),
    ];

    fn quotient(process: Process) -> f64 {
        match process {
            Process::Photosynthesis(q)
            | Process::CarbonMineralisation(q)
            | Process::Denitrification(q) => q.oxygen_per_carbon,
            _ => 1.0,
        }
    }

    // Atoms of C, H, O, N, P, metal and the charge of every pool, each written as
    // the species at the zero level of proton (Dickson 1981): CO2, H2PO4-, NH4+.
    // Released hydrogen ion is then exactly what total alkalinity loses.
    fn atoms(process: Process) -> [f64; 7] {
        let s = process.stoichiometry();
        // Organic carbon of quotient q is CH(2+4(q-1))O: a mole of O2 burns 4 H.
        let hydrogen = 2.0 + 4.0 * (quotient(process) - 1.0);
        let pools = [
            (s.inorganic_carbon, [1.0, 0.0, 2.0, 0.0, 0.0, 0.0, 0.0]),
            (s.oxygen, [0.0, 0.0, 2.0, 0.0, 0.0, 0.0, 0.0]),
            (s.nitrate, [0.0, 0.0, 3.0, 1.0, 0.0, 0.0, -1.0]),
            (s.nitrite, [0.0, 0.0, 2.0, 1.0, 0.0, 0.0, -1.0]),
            (s.ammonia, [0.0, 4.0, 0.0, 1.0, 0.0, 0.0, 1.0]),
            (s.phosphate, [0.0, 2.0, 4.0, 0.0, 1.0, 0.0, -1.0]),
            (s.nitrogen_gas, [0.0, 0.0, 0.0, 2.0, 0.0, 0.0, 0.0]),
            (s.calcium, [0.0, 0.0, 0.0, 0.0, 0.0, 1.0, 2.0]),
            (s.magnesium, [0.0, 0.0, 0.0, 0.0, 0.0, 1.0, 2.0]),
            (s.strontium, [0.0, 0.0, 0.0, 0.0, 0.0, 1.0, 2.0]),
            (s.organic_carbon, [1.0, hydrogen, 1.0, 0.0, 0.0, 0.0, 0.0]),
            (s.organic_nitrogen, [0.0, 3.0, 0.0, 1.0, 0.0, 0.0, 0.0]),
            (s.organic_phosphorus, [0.0, 3.0, 4.0, 0.0, 1.0, 0.0, 0.0]),
            (s.solid_carbonate, [1.0, 0.0, 3.0, 0.0, 0.0, 1.0, 0.0]),
        ];
        let mut sum = [0.0; 7];
        for (moles, formula) in pools {
            for (total, count) in sum.iter_mut().zip(formula) {
                *total += moles * count;
            }
        }
        sum
    }

    #[test]
    fn every_process_conserves_elements_and_charge() {
        for process in EVERY {
            let [c, h, o, n, p, metal, charge] = atoms(process);
            for element in [c, n, p, metal] {
                assert!(element.abs() < 1e-12, "{process:?}: {element}");
            }
            // Oxygen is closed by water and charge by hydrogen ion; hydrogen is
            // then the check of both the oxygen demand and the alkalinity.
            let water = -o;
            let proton = -charge;
            assert!((h + 2.0 * water + proton).abs() < 1e-12, "{process:?}");
            let alkalinity = process.stoichiometry().alkalinity();
            assert!((alkalinity + proton).abs() < 1e-12, "{process:?}");
        }
    }

    #[test]
    fn nitrification_is_its_two_steps() {
        let first = Process::AmmoniumOxidation.stoichiometry();
        let second = Process::NitriteOxidation.stoichiometry();
        let both = Process::Nitrification.stoichiometry();
        assert_eq!(first.oxygen + second.oxygen, both.oxygen);
        assert_eq!(first.nitrite + second.nitrite, both.nitrite);
        assert_eq!(first.alkalinity() + second.alkalinity(), both.alkalinity());
    }

    #[test]
    fn fractions_are_checked() {
        assert_eq!(
            CarbonateComposition::new(0.7, 0.4).unwrap_err().input(),
            "strontium fraction"
        );
        assert_eq!(
            CarbonateComposition::new(-0.1, 0.0).unwrap_err().input(),
            "magnesium fraction"
        );
        assert!(
            PhotosyntheticQuotient::new(f64::NAN)
                .unwrap_err()
                .is_non_finite()
        );
        assert!(
            PhotosyntheticQuotient::new(3.0)
                .unwrap_err()
                .is_out_of_range()
        );
    }
}
