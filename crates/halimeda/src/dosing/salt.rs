use super::Addition;
use super::caution::{Caution, CautionSet};
use crate::quantity::atomic_weight::{C, CA, CL, H, K, MG, N, NA, O, P, S};

/// A salt (or base) that supplements are made of.
///
/// A hydrate that is not listed is its anhydrous salt at the purity that its
/// formula gives: Na2HPO4·12H2O is disodium phosphate of purity 0.396.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum Salt {
    /// NaHCO3, baking soda. Lowers pH a little at first.
    SodiumBicarbonate,
    /// Na2CO3, anhydrous soda ash. Raises pH.
    SodiumCarbonate,
    /// NaOH. Raises pH strongly.
    SodiumHydroxide,
    /// Ca(OH)2, slaked lime; see [`Supplement::limewater`](super::Supplement::limewater).
    CalciumHydroxide,
    /// CaCl2, anhydrous. Draws water from the air: the mass in an open bag is not all salt.
    CalciumChloride,
    /// CaCl2·2H2O.
    CalciumChlorideDihydrate,
    /// MgCl2·6H2O.
    MagnesiumChlorideHexahydrate,
    /// MgSO4·7H2O, Epsom salt.
    MagnesiumSulfateHeptahydrate,
    /// NaNO3.
    SodiumNitrate,
    /// KNO3.
    PotassiumNitrate,
    /// Ca(NO3)2·4H2O. The fertiliser sold under this name also holds
    /// ammonium, which this is not.
    CalciumNitrateTetrahydrate,
    /// NaH2PO4, anhydrous.
    MonosodiumPhosphate,
    /// Na2HPO4, anhydrous.
    DisodiumPhosphate,
    /// KH2PO4.
    MonopotassiumPhosphate,
    /// K2HPO4.
    DipotassiumPhosphate,
}

const HYDROXIDE: f64 = O + H;
const CARBONATE: f64 = C + 3.0 * O;
const NITRATE: f64 = N + 3.0 * O;
const PHOSPHATE: f64 = P + 4.0 * O;
const WATER: f64 = 2.0 * H + O;

/// What is known of a salt, per mole.
struct Facts {
    name: &'static str,
    formula: &'static str,
    /// With `salt_g` left zero: it is the anhydrous mass.
    ions: Addition,
    anhydrous_g: f64,
    hydration_water: f64,
    /// Grams of anhydrous salt in a kilogram of water, saturated at 40 °C; at
    /// 0 °C for calcium hydroxide, whose solubility falls. Handbook values:
    /// bicarbonate, carbonate, both hydroxides, sodium and potassium nitrate
    /// seen in a printed table, the others from memory.
    saturated_g_per_kg: f64,
    cautions: &'static [Caution],
}

impl Salt {
    /// Every salt.
    pub const ALL: [Self; 15] = [
        Self::SodiumBicarbonate,
        Self::SodiumCarbonate,
        Self::SodiumHydroxide,
        Self::CalciumHydroxide,
        Self::CalciumChloride,
        Self::CalciumChlorideDihydrate,
        Self::MagnesiumChlorideHexahydrate,
        Self::MagnesiumSulfateHeptahydrate,
        Self::SodiumNitrate,
        Self::PotassiumNitrate,
        Self::CalciumNitrateTetrahydrate,
        Self::MonosodiumPhosphate,
        Self::DisodiumPhosphate,
        Self::MonopotassiumPhosphate,
        Self::DipotassiumPhosphate,
    ];

    // Alkalinity by the zero level of Dickson (1981): HCO3 1, CO3 2, OH 1,
    // HPO4 1, H2PO4 0; conservative ions none.
    const fn facts(self) -> Facts {
        use Caution::{
            AttacksAluminium, Caustic, HeatOfDissolution, HydroxideIntoWater, IrritatesEyes,
            KeepPartsApart, Oxidiser,
        };
        match self {
            Self::SodiumBicarbonate => Facts {
                name: "sodium bicarbonate",
                formula: "NaHCO3",
                ions: Addition {
                    alkalinity_eq: 1.0,
                    inorganic_carbon_mol: 1.0,
                    sodium_mol: 1.0,
                    ..Addition::NONE
                },
                anhydrous_g: NA + H + CARBONATE,
                hydration_water: 0.0,
                saturated_g_per_kg: 127.0,
                cautions: &[KeepPartsApart],
            },
            Self::SodiumCarbonate => Facts {
                name: "sodium carbonate",
                formula: "Na2CO3",
                ions: Addition {
                    alkalinity_eq: 2.0,
                    inorganic_carbon_mol: 1.0,
                    sodium_mol: 2.0,
                    ..Addition::NONE
                },
                anhydrous_g: 2.0 * NA + CARBONATE,
                hydration_water: 0.0,
                saturated_g_per_kg: 485.0,
                cautions: &[KeepPartsApart, IrritatesEyes, HeatOfDissolution],
            },
            Self::SodiumHydroxide => Facts {
                name: "sodium hydroxide",
                formula: "NaOH",
                ions: Addition {
                    alkalinity_eq: 1.0,
                    sodium_mol: 1.0,
                    ..Addition::NONE
                },
                anhydrous_g: NA + HYDROXIDE,
                hydration_water: 0.0,
                saturated_g_per_kg: 1290.0,
                cautions: &[
                    KeepPartsApart,
                    Caustic,
                    HydroxideIntoWater,
                    AttacksAluminium,
                    HeatOfDissolution,
                ],
            },
            Self::CalciumHydroxide => Facts {
                name: "calcium hydroxide",
                formula: "Ca(OH)2",
                ions: Addition {
                    alkalinity_eq: 2.0,
                    calcium_mol: 1.0,
                    ..Addition::NONE
                },
                anhydrous_g: CA + 2.0 * HYDROXIDE,
                hydration_water: 0.0,
                saturated_g_per_kg: 1.89,
                cautions: &[Caustic, HydroxideIntoWater, AttacksAluminium],
            },
            Self::CalciumChloride => Facts {
                name: "calcium chloride",
                formula: "CaCl2",
                ions: Addition {
                    calcium_mol: 1.0,
                    chloride_mol: 2.0,
                    ..Addition::NONE
                },
                anhydrous_g: CA + 2.0 * CL,
                hydration_water: 0.0,
                saturated_g_per_kg: 1280.0,
                cautions: &[KeepPartsApart, IrritatesEyes, HeatOfDissolution],
            },
            Self::CalciumChlorideDihydrate => Facts {
                name: "calcium chloride dihydrate",
                formula: "CaCl2·2H2O",
                hydration_water: 2.0,
                ..Self::CalciumChloride.facts()
            },
            Self::MagnesiumChlorideHexahydrate => Facts {
                name: "magnesium chloride hexahydrate",
                formula: "MgCl2·6H2O",
                ions: Addition {
                    magnesium_mol: 1.0,
                    chloride_mol: 2.0,
                    ..Addition::NONE
                },
                anhydrous_g: MG + 2.0 * CL,
                hydration_water: 6.0,
                saturated_g_per_kg: 575.0,
                cautions: &[KeepPartsApart],
            },
            Self::MagnesiumSulfateHeptahydrate => Facts {
                name: "magnesium sulfate heptahydrate",
                formula: "MgSO4·7H2O",
                ions: Addition {
                    magnesium_mol: 1.0,
                    sulfate_mol: 1.0,
                    ..Addition::NONE
                },
                anhydrous_g: MG + S + 4.0 * O,
                hydration_water: 7.0,
                saturated_g_per_kg: 445.0,
                cautions: &[KeepPartsApart],
            },
            Self::SodiumNitrate => Facts {
                name: "sodium nitrate",
                formula: "NaNO3",
                ions: Addition {
                    sodium_mol: 1.0,
                    nitrate_mol: 1.0,
                    ..Addition::NONE
                },
                anhydrous_g: NA + NITRATE,
                hydration_water: 0.0,
                saturated_g_per_kg: 1040.0,
                cautions: &[Oxidiser, IrritatesEyes],
            },
            Self::PotassiumNitrate => Facts {
                name: "potassium nitrate",
                formula: "KNO3",
                ions: Addition {
                    potassium_mol: 1.0,
                    nitrate_mol: 1.0,
                    ..Addition::NONE
                },
                anhydrous_g: K + NITRATE,
                hydration_water: 0.0,
                saturated_g_per_kg: 639.0,
                cautions: &[Oxidiser],
            },
            Self::CalciumNitrateTetrahydrate => Facts {
                name: "calcium nitrate tetrahydrate",
                formula: "Ca(NO3)2·4H2O",
                ions: Addition {
                    calcium_mol: 1.0,
                    nitrate_mol: 2.0,
                    ..Addition::NONE
                },
                anhydrous_g: CA + 2.0 * NITRATE,
                hydration_water: 4.0,
                saturated_g_per_kg: 1960.0,
                cautions: &[Oxidiser, IrritatesEyes, KeepPartsApart],
            },
            Self::MonosodiumPhosphate => Facts {
                name: "monosodium phosphate",
                formula: "NaH2PO4",
                ions: Addition {
                    sodium_mol: 1.0,
                    phosphate_mol: 1.0,
                    ..Addition::NONE
                },
                anhydrous_g: NA + 2.0 * H + PHOSPHATE,
                hydration_water: 0.0,
                saturated_g_per_kg: 1380.0,
                cautions: &[KeepPartsApart],
            },
            Self::DisodiumPhosphate => Facts {
                name: "disodium phosphate",
                formula: "Na2HPO4",
                ions: Addition {
                    alkalinity_eq: 1.0,
                    sodium_mol: 2.0,
                    phosphate_mol: 1.0,
                    ..Addition::NONE
                },
                anhydrous_g: 2.0 * NA + H + PHOSPHATE,
                hydration_water: 0.0,
                saturated_g_per_kg: 550.0,
                cautions: &[KeepPartsApart],
            },
            Self::MonopotassiumPhosphate => Facts {
                name: "monopotassium phosphate",
                formula: "KH2PO4",
                ions: Addition {
                    potassium_mol: 1.0,
                    phosphate_mol: 1.0,
                    ..Addition::NONE
                },
                anhydrous_g: K + 2.0 * H + PHOSPHATE,
                hydration_water: 0.0,
                saturated_g_per_kg: 335.0,
                cautions: &[KeepPartsApart],
            },
            Self::DipotassiumPhosphate => Facts {
                name: "dipotassium phosphate",
                formula: "K2HPO4",
                ions: Addition {
                    alkalinity_eq: 1.0,
                    potassium_mol: 2.0,
                    phosphate_mol: 1.0,
                    ..Addition::NONE
                },
                anhydrous_g: 2.0 * K + H + PHOSPHATE,
                hydration_water: 0.0,
                saturated_g_per_kg: 2120.0,
                cautions: &[KeepPartsApart],
            },
        }
    }

    /// Name, with the hydrate.
    #[must_use]
    pub const fn name(self) -> &'static str {
        self.facts().name
    }

    /// Formula, with the hydrate.
    #[must_use]
    pub const fn formula(self) -> &'static str {
        self.facts().formula
    }

    /// Grams per mole, with the water of the hydrate; atomic weights of IUPAC
    /// 2021 (doi 10.1515/pac-2019-0603).
    #[must_use]
    pub const fn molar_mass_g_per_mol(self) -> f64 {
        let facts = self.facts();
        facts.anhydrous_g + facts.hydration_water * WATER
    }

    /// What a mole of it brings into the water. Alkalinity by the definition of
    /// Dickson (1981), doi 10.1016/0198-0149(81)90121-7.
    #[must_use]
    pub const fn per_mol(self) -> Addition {
        let facts = self.facts();
        Addition {
            salt_g: facts.anhydrous_g,
            ..facts.ions
        }
    }

    /// What a gram of it brings into the water.
    #[must_use]
    pub fn per_gram(self) -> Addition {
        self.per_mol() * (1.0 / self.molar_mass_g_per_mol())
    }

    /// Grams, with the water of the hydrate, that no litre of solution can
    /// exceed below 40 °C.
    ///
    /// A litre of solution holds at most a kilogram of water, so the saturated
    /// anhydrous mass per kilogram of water bounds what is in the litre.
    pub(super) const fn strongest_g_per_l(self) -> f64 {
        let facts = self.facts();
        facts.saturated_g_per_kg * self.molar_mass_g_per_mol() / facts.anhydrous_g
    }

    pub(super) const fn cautions(self) -> CautionSet {
        const GENERAL: CautionSet = CautionSet::of(&[
            Caution::FollowLabel,
            Caution::KeepFromChildren,
            Caution::AddSlowly,
        ]);
        GENERAL.union(CautionSet::of(self.facts().cautions))
    }
}
