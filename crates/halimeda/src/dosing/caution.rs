/// What can hurt people, animals or the house when a supplement is handled.
///
/// The usual cautions, not a safety data sheet: the product's own label and
/// data sheet, and local rules, come first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[non_exhaustive]
#[repr(u8)]
pub enum Caution {
    /// The label and local rules come first.
    FollowLabel,
    /// Out of reach of children and animals.
    KeepFromChildren,
    /// Slowly, into strong flow, away from animals.
    AddSlowly,
    /// Alkalinity and calcium must not meet undiluted.
    KeepPartsApart,
    /// Burns skin and eyes.
    Caustic,
    /// Hydroxide into water, never water onto hydroxide.
    HydroxideIntoWater,
    /// Hydroxide dissolves aluminium and gives off hydrogen.
    AttacksAluminium,
    /// Irritates the eyes.
    IrritatesEyes,
    /// Gets hot when it dissolves.
    HeatOfDissolution,
    /// Feeds fire.
    Oxidiser,
    /// Only the clear limewater, dripped.
    ClearLimewaterOnly,
    /// CO2 collects in closed rooms.
    CarbonDioxideInRooms,
    /// Gas cylinders under pressure.
    PressurisedCylinder,
}

impl Caution {
    /// Every caution.
    pub const ALL: &'static [Self] = &[
        Self::FollowLabel,
        Self::KeepFromChildren,
        Self::AddSlowly,
        Self::KeepPartsApart,
        Self::Caustic,
        Self::HydroxideIntoWater,
        Self::AttacksAluminium,
        Self::IrritatesEyes,
        Self::HeatOfDissolution,
        Self::Oxidiser,
        Self::ClearLimewaterOnly,
        Self::CarbonDioxideInRooms,
        Self::PressurisedCylinder,
    ];

    /// The caution in words.
    #[must_use]
    pub const fn text(self) -> &'static str {
        match self {
            Self::FollowLabel => {
                "Follow the product's label and safety data sheet, and local rules; use a grade \
                 whose purity is stated."
            }
            Self::KeepFromChildren => {
                "Keep labelled, closed, and out of reach of children and animals; never in food or \
                 drink containers."
            }
            Self::AddSlowly => {
                "Add slowly where the flow is strong, never onto animals, and measure again before \
                 the next correction."
            }
            Self::KeepPartsApart => {
                "Dose alkalinity and calcium or magnesium at different places or some minutes \
                 apart: undiluted they precipitate."
            }
            Self::Caustic => {
                "Caustic: burns skin and can blind. Wear tight goggles and gloves; rinse splashes \
                 with much water at once, eyes for 15 minutes, and get medical help."
            }
            Self::HydroxideIntoWater => {
                "Stir small portions of the solid into cold water; never pour water onto it: it \
                 boils and spatters."
            }
            Self::AttacksAluminium => {
                "Keep off aluminium and zinc: hydroxide dissolves them and gives off flammable \
                 hydrogen."
            }
            Self::IrritatesEyes => "Irritates eyes: wear eye protection and do not raise dust.",
            Self::HeatOfDissolution => {
                "Gets hot when dissolved: add small portions to cold water in a vessel that stands \
                 heat, and let it cool before use."
            }
            Self::Oxidiser => {
                "Oxidiser: makes fires burn fiercely. Keep away from heat and anything that burns; \
                 sale and storage may be regulated."
            }
            Self::ClearLimewaterOnly => {
                "Drip only the clear limewater, no faster than water evaporates; the sediment holds \
                 many times the dose. Guard against a stuck valve or float."
            }
            Self::CarbonDioxideInRooms => {
                "CO2 suffocates without smell and collects low: air the room and use a CO2 alarm; \
                 a leaking cylinder can fill it."
            }
            Self::PressurisedCylinder => {
                "Fasten the cylinder upright, use a regulator made for CO2, and have it filled and \
                 tested by those licensed to."
            }
        }
    }
}

/// A set of [`Caution`]s.
#[derive(Clone, Copy, PartialEq, Eq, Default)]
pub struct CautionSet {
    bits: u16,
}

const _: () = assert!(Caution::ALL.len() <= u16::BITS as usize);

impl CautionSet {
    /// The set of the given cautions.
    pub(crate) const fn of(cautions: &[Caution]) -> Self {
        let mut bits = 0;
        let mut rest = cautions;
        while let [first, tail @ ..] = rest {
            bits |= 1 << *first as u8;
            rest = tail;
        }
        Self { bits }
    }

    /// This set and another.
    #[must_use]
    pub const fn union(self, other: Self) -> Self {
        Self {
            bits: self.bits | other.bits,
        }
    }

    /// Whether the caution is in the set.
    #[must_use]
    pub const fn contains(self, caution: Caution) -> bool {
        self.bits & (1 << caution as u8) != 0
    }

    /// The cautions in the set.
    pub fn iter(self) -> impl Iterator<Item = Caution> {
        Caution::ALL
            .iter()
            .copied()
            .filter(move |&c| self.contains(c))
    }
}

impl core::fmt::Debug for CautionSet {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.debug_set().entries(self.iter()).finish()
    }
}
