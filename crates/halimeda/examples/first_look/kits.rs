//! What the test kits say, together.

use halimeda::Density;
use halimeda::nutrient::{
    ContentEstimate, ElementalRatio, NitrogenToPhosphorus, NutrientBalance,
    dissolved_inorganic_nitrogen,
};
use halimeda::quantity::Form;
use halimeda::{Content, species};

use crate::assessment::{KitPart, NutrientPart, NutrientVerdict, RatioPart};
use crate::estimate::Estimate;
use crate::kit::Measured;
use crate::readings::Readings;
use crate::refusal::{InSection as _, Refusal};

/// The readings of the kits, in moles.
pub(crate) struct Kits {
    pub(crate) calcium: Option<Measured<species::Calcium>>,
    pub(crate) magnesium: Option<Measured<species::Magnesium>>,
    pub(crate) nitrate: Option<Measured<species::Nitrate>>,
    pub(crate) nitrite: Option<Measured<species::Nitrite>>,
    pub(crate) ammonia: Option<Measured<species::TotalAmmonia>>,
    pub(crate) phosphate: Option<Measured<species::Phosphate>>,
}

impl Kits {
    pub(crate) fn of(readings: &Readings, density: Density) -> Result<Self, Refusal> {
        macro_rules! measured {
            ($($section:ident),*) => {
                Self {
                    $($section: match &readings.$section {
                        Some(kit) => Some(kit.measure(density)?),
                        None => None,
                    },)*
                }
            };
        }
        Ok(measured!(
            calcium, magnesium, nitrate, nitrite, ammonia, phosphate
        ))
    }

    /// N:P, where every form that counts was measured.
    pub(crate) fn ratio(&self) -> Result<Option<RatioPart>, Refusal> {
        let (Some(nitrate), Some(nitrite), Some(ammonia), Some(phosphate)) =
            (self.nitrate, self.nitrite, self.ammonia, self.phosphate)
        else {
            return Ok(None);
        };
        let nitrogen =
            dissolved_inorganic_nitrogen(nitrate.estimate, nitrite.estimate, ammonia.estimate)
                .in_section("nitrate")?;
        let ratio =
            NitrogenToPhosphorus::new(nitrogen, phosphate.estimate).in_section("phosphate")?;
        let (at_least, at_most) = ratio.interval();
        Ok(Some(RatioPart {
            moles_of_nitrogen_per_phosphorus: ratio.value(),
            at_least,
            at_most,
            against_plankton_16: name_of_balance(ratio.balance(ElementalRatio::REDFIELD)),
            against_seaweeds_30: name_of_balance(ratio.balance(ElementalRatio::BENTHIC_PLANTS)),
        }))
    }
}

pub(crate) fn kit<Ion, Element>(measured: &Measured<Ion::Species>, density: Density) -> KitPart
where
    Ion: Form,
    Element: Form<Species = Ion::Species>,
{
    KitPart {
        mg_ion_per_l: mg_per_l::<Ion>(measured.estimate, density),
        mg_element_per_l: mg_per_l::<Element>(measured.estimate, density),
        umol_per_l: Estimate::from(measured.estimate).times(density.kg_per_l()),
        at_most_mg_ion_per_l: at_most_mg_per_l::<Ion>(measured, density),
        is_detected: measured.is_detected,
    }
}

/// A nutrient is wanted low but never zero.
pub(crate) fn nutrient(
    read: KitPart,
    on_reefs_umol_per_l: f64,
    harmful_mg_element_per_l: Option<f64>,
) -> NutrientPart {
    let above_reefs = read
        .umol_per_l
        .less(Estimate::new(on_reefs_umol_per_l, 0.0));
    let verdict = if !read.is_detected || !read.umol_per_l.differs_from_zero() {
        NutrientVerdict::CannotBeToldFromZero
    } else if harmful_mg_element_per_l.is_some_and(|limit| read.mg_element_per_l.value > limit) {
        NutrientVerdict::Harmful
    } else if above_reefs.value > 0.0 && above_reefs.differs_from_zero() {
        NutrientVerdict::AboveReefs
    } else {
        NutrientVerdict::AsOnReefs
    };
    NutrientPart { read, verdict }
}

pub(crate) fn mg_per_l<F: Form>(
    estimate: ContentEstimate<F::Species>,
    density: Density,
) -> Estimate {
    let mg = |content: Content<F::Species>| content.to_concentration::<F>(density).mg_per_l();
    Estimate::new(mg(estimate.content()), mg(estimate.standard_uncertainty()))
}

/// Upper end of what a reading leaves possible. There is one: readings off the
/// scale of a kit are not taken.
pub(crate) fn at_most_mg_per_l<F: Form>(measured: &Measured<F::Species>, density: Density) -> f64 {
    measured.interval.upper.map_or(f64::INFINITY, |upper| {
        upper.to_concentration::<F>(density).mg_per_l()
    })
}

const fn name_of_balance(balance: NutrientBalance) -> &'static str {
    match balance {
        NutrientBalance::NitrogenRich => "nitrogen_rich",
        NutrientBalance::PhosphorusRich => "phosphorus_rich",
        _ => "undecided",
    }
}
