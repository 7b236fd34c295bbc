use super::OrganicMatter;
use crate::Result;
use crate::error::{Error, within};
use crate::parameter::{ParameterInfo, ParameterSet, parameters};
use crate::quantity::Form as _;
use crate::quantity::form::{InorganicCarbonAsC, NitrateAsN, PhosphateAsP};

/// Grams of protein per gram of nitrogen: the convention of feed analysis (NRC 2011).
const PROTEIN_PER_NITROGEN: f64 = 6.25;

parameters! {
    /// Composition of a feed, by default of a dry pellet.
    FeedComposition {
        /// Water in the feed as it is weighed.
        water_fraction = 0.08 in 0.06..0.10 max 1.0, "g/g",
            "dry feeds, NRC 2011 (Nutrient Requirements of Fish and Shrimp), from memory";
        /// Crude protein in the dry matter.
        protein_fraction_of_dry = 0.48 in 0.40..0.55 max 1.0, "g/g",
            "feeds of carnivorous and omnivorous fish, NRC 2011, from memory";
        /// Phosphorus in the dry matter.
        phosphorus_fraction_of_dry = 0.013 in 0.010..0.018 max 1.0, "g/g",
            "feeds with fish meal, NRC 2011, from memory";
        /// Organic carbon in the dry matter.
        carbon_fraction_of_dry = 0.45 in 0.40..0.50 max 1.0, "g/g",
            "protein 0.53, lipid 0.77, carbohydrate 0.44 carbon, from memory";
    }
}

const FROZEN: [ParameterInfo; 4] = [
    ParameterInfo {
        name: "water_fraction",
        unit: "g/g",
        default: 0.86,
        low: 0.82,
        high: 0.90,
        source: "whole frozen crustaceans, from memory",
    },
    ParameterInfo {
        name: "protein_fraction_of_dry",
        unit: "g/g",
        default: 0.60,
        low: 0.55,
        high: 0.70,
        source: "whole crustaceans, from memory; Artemia 0.40 to 0.65 in Dhont & Van Stappen 2003",
    },
    ParameterInfo {
        name: "phosphorus_fraction_of_dry",
        unit: "g/g",
        default: 0.012,
        low: 0.010,
        high: 0.015,
        source: "whole crustaceans, from memory",
    },
    ParameterInfo {
        name: "carbon_fraction_of_dry",
        unit: "g/g",
        default: 0.45,
        low: 0.40,
        high: 0.50,
        source: "marine crustacean zooplankton, from memory",
    },
];

const DRIED_MACROALGAE: [ParameterInfo; 4] = [
    ParameterInfo {
        name: "water_fraction",
        unit: "g/g",
        default: 0.06,
        low: 0.03,
        high: 0.12,
        source: "dried laver 0.037 to 0.067, Hwang et al. 2013, doi 10.3746/pnf.2013.18.2.139",
    },
    ParameterInfo {
        name: "protein_fraction_of_dry",
        unit: "g/g",
        default: 0.37,
        low: 0.30,
        high: 0.45,
        source: "dried laver 0.32 to 0.37 as sold, Hwang et al. 2013, doi 10.3746/pnf.2013.18.2.139",
    },
    ParameterInfo {
        name: "phosphorus_fraction_of_dry",
        unit: "g/g",
        default: 0.006,
        low: 0.005,
        high: 0.007,
        source: "dried laver, food composition tables, from memory",
    },
    ParameterInfo {
        name: "carbon_fraction_of_dry",
        unit: "g/g",
        default: 0.38,
        low: 0.33,
        high: 0.43,
        source: "red macroalgae, from memory",
    },
];

/// What is fed.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
pub enum FeedKind {
    /// Dry pellets, flakes and granules.
    #[default]
    Pellet,
    /// Frozen crustaceans, weighed thawed and drained.
    Frozen,
    /// Dried sheets of macroalgae.
    DriedMacroalgae,
    /// A feed of declared composition.
    Custom(FeedComposition),
}

impl FeedKind {
    /// Composition by default.
    #[must_use]
    pub fn composition(self) -> FeedComposition {
        match self {
            Self::Pellet => FeedComposition::default(),
            Self::Frozen => composition_of(&FROZEN),
            Self::DriedMacroalgae => composition_of(&DRIED_MACROALGAE),
            Self::Custom(composition) => composition,
        }
    }

    /// Default, range and source of each part of the composition, in the order of
    /// [`FeedComposition::PARAMETERS`]. A declared composition has no range.
    #[must_use]
    pub const fn parameters(self) -> &'static [ParameterInfo] {
        match self {
            Self::Pellet => FeedComposition::PARAMETERS,
            Self::Frozen => &FROZEN,
            Self::DriedMacroalgae => &DRIED_MACROALGAE,
            Self::Custom(_) => &[],
        }
    }
}

const fn composition_of(
    [water, protein, phosphorus, carbon]: &[ParameterInfo; 4],
) -> FeedComposition {
    FeedComposition {
        water_fraction: water.default,
        protein_fraction_of_dry: protein.default,
        phosphorus_fraction_of_dry: phosphorus.default,
        carbon_fraction_of_dry: carbon.default,
    }
}

impl FeedComposition {
    /// Carbon, nitrogen and phosphorus in a gram of the feed as it is weighed, mol.
    ///
    /// Nitrogen is the crude protein over 6.25.
    ///
    /// ```
    /// use halimeda::process::FeedKind;
    /// let pellet = FeedKind::Pellet.composition().per_gram()?;
    /// assert!((pellet.nitrogen * 1e3 - 5.04).abs() < 0.01); // mmol N in a gram
    /// # Ok::<(), halimeda::Error>(())
    /// ```
    ///
    /// # Errors
    /// A part is not finite or outside 0 to 1, carbon, nitrogen and phosphorus
    /// together exceed the dry matter, or protein holds more carbon than is there.
    pub fn per_gram(&self) -> Result<OrganicMatter> {
        /// Carbon in protein, g/g (from memory).
        const CARBON_IN_PROTEIN: f64 = 0.53;
        self.check()?;
        let nitrogen = self.protein_fraction_of_dry / PROTEIN_PER_NITROGEN;
        within(
            "phosphorus_fraction_of_dry",
            self.phosphorus_fraction_of_dry,
            0.0,
            1.0 - nitrogen - self.carbon_fraction_of_dry,
            "g/g",
        )?;
        if self.carbon_fraction_of_dry < CARBON_IN_PROTEIN * self.protein_fraction_of_dry {
            return Err(Error::contradictory(
                ("carbon_fraction_of_dry", self.carbon_fraction_of_dry),
                ("protein_fraction_of_dry", self.protein_fraction_of_dry),
                "the protein alone holds more carbon, 0.53 g/g",
            ));
        }
        let dry = 1.0 - self.water_fraction;
        Ok(OrganicMatter {
            carbon: dry * self.carbon_fraction_of_dry / InorganicCarbonAsC::GRAMS_PER_MOL,
            nitrogen: dry * nitrogen / NitrateAsN::GRAMS_PER_MOL,
            phosphorus: dry * self.phosphorus_fraction_of_dry / PhosphateAsP::GRAMS_PER_MOL,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const KINDS: [FeedKind; 3] = [
        FeedKind::Pellet,
        FeedKind::Frozen,
        FeedKind::DriedMacroalgae,
    ];

    #[test]
    fn defaults_lie_in_their_ranges_and_are_those_of_the_composition() {
        for kind in KINDS {
            let composition = kind.composition();
            assert_eq!(kind.parameters().len(), FeedComposition::PARAMETERS.len());
            for (i, (info, field)) in kind
                .parameters()
                .iter()
                .zip(FeedComposition::PARAMETERS)
                .enumerate()
            {
                assert_eq!(info.name, field.name);
                assert!(info.low <= info.default && info.default <= info.high);
                assert_eq!(composition.value(i), Some(info.default));
            }
        }
    }

    #[test]
    fn every_corner_of_the_ranges_is_a_possible_feed() {
        for kind in KINDS {
            for corner in 0..16 {
                let mut composition = kind.composition();
                for (i, info) in kind.parameters().iter().enumerate() {
                    let value = if corner >> i & 1 == 0 {
                        info.low
                    } else {
                        info.high
                    };
                    composition = composition.with_value(i, value);
                }
                composition.per_gram().unwrap();
            }
        }
    }

    #[test]
    fn mass_of_the_elements_is_that_of_the_fractions() {
        let feed = FeedComposition {
            water_fraction: 0.1,
            protein_fraction_of_dry: 0.5,
            phosphorus_fraction_of_dry: 0.01,
            carbon_fraction_of_dry: 0.4,
        };
        let gram = feed.per_gram().unwrap();
        assert!((gram.carbon * 12.011 - 0.36).abs() < 1e-15);
        assert!((gram.nitrogen * 14.007 - 0.072).abs() < 1e-15);
        assert!((gram.phosphorus * 30.973761998 - 0.009).abs() < 1e-15);
    }

    #[test]
    fn impossible_compositions_are_refused_by_name() {
        let base = FeedComposition::default();
        for (composition, input) in [
            (
                FeedComposition {
                    water_fraction: 1.2,
                    ..base
                },
                "water_fraction",
            ),
            (
                FeedComposition {
                    water_fraction: f64::NAN,
                    ..base
                },
                "water_fraction",
            ),
            (
                FeedComposition {
                    protein_fraction_of_dry: -0.1,
                    ..base
                },
                "protein_fraction_of_dry",
            ),
            (
                FeedComposition {
                    phosphorus_fraction_of_dry: 0.5,
                    ..base
                },
                "phosphorus_fraction_of_dry",
            ),
            (
                FeedComposition {
                    carbon_fraction_of_dry: 0.2,
                    ..base
                },
                "carbon_fraction_of_dry",
            ),
        ] {
            assert_eq!(composition.per_gram().unwrap_err().input(), input);
        }
    }
}
