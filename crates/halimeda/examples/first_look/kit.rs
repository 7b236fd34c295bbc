//! Readings of test kits: in which form they count, and what they leave open.

use halimeda::nutrient::{ContentEstimate, ContentInterval, KitPrecision, KitReading};
use halimeda::quantity::{Form, Species};
use halimeda::{Concentration, Density, form, species};
use serde::Deserialize;

use crate::key;
use crate::refusal::{InSection as _, Refusal};

/// A kit's reading of one substance, weighed as `W` says.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, expecting = "a section of a test kit")]
pub(crate) struct Kit<W> {
    counted_as: W,
    #[serde(default, deserialize_with = "key::amount")]
    mg_per_l: Option<f64>,
    #[serde(default, deserialize_with = "key::amount")]
    not_detected_below_mg_per_l: Option<f64>,
    #[serde(default, deserialize_with = "key::uncertainty")]
    step_mg_per_l: f64,
    #[serde(default, deserialize_with = "key::uncertainty")]
    uncertainty_mg_per_l: f64,
    #[serde(default, deserialize_with = "key::percent")]
    uncertainty_percent: f64,
}

/// What a kit says, in moles.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Measured<S: Species> {
    pub(crate) estimate: ContentEstimate<S>,
    pub(crate) interval: ContentInterval<S>,
    pub(crate) is_detected: bool,
}

impl<W> Kit<W> {
    fn measured_as<F: Form>(
        &self,
        section: &'static str,
        density: Density,
    ) -> Result<Measured<F::Species>, Refusal> {
        let (is_detected, reading) = match (self.mg_per_l, self.not_detected_below_mg_per_l) {
            (Some(value), None) => (true, self.measured::<F>(value)),
            (None, Some(limit)) => (
                false,
                Concentration::from_mg_per_l(limit).and_then(KitReading::below),
            ),
            _ => {
                return Err(Refusal::new(
                    section,
                    "give either mg_per_l or not_detected_below_mg_per_l",
                ));
            }
        };
        let reading = reading.in_section(section)?;
        Ok(Measured {
            estimate: reading.estimate(density).in_section(section)?,
            interval: reading.interval(density).in_section(section)?,
            is_detected,
        })
    }

    fn measured<F: Form>(&self, mg_per_l: f64) -> halimeda::Result<KitReading<F>> {
        let precision = KitPrecision::new(
            Concentration::from_mg_per_l(self.step_mg_per_l)?,
            Concentration::from_mg_per_l(self.uncertainty_mg_per_l)?,
            self.uncertainty_percent / 100.0,
        )?;
        KitReading::measured(Concentration::from_mg_per_l(mg_per_l)?, &precision)
    }
}

macro_rules! kits {
    ($( $name:ident, $section:literal: $species:ident { $( $text:literal = $form:ident ),* } )*) => {
        $(
            #[derive(Debug, Clone, Copy, Deserialize)]
            pub(crate) enum $name { $( #[serde(rename = $text)] $form, )* }

            impl Kit<$name> {
                pub(crate) fn measure(
                    &self,
                    density: Density,
                ) -> Result<Measured<species::$species>, Refusal> {
                    match self.counted_as {
                        $( $name::$form => self.measured_as::<form::$form>($section, density), )*
                    }
                }
            }
        )*
    };
}

kits! {
    CalciumForm, "calcium": Calcium { "Ca" = CalciumAsCa, "CaCO3" = CalciumAsCaco3 }
    MagnesiumForm, "magnesium": Magnesium { "Mg" = MagnesiumAsMg }
    NitrateForm, "nitrate": Nitrate { "NO3" = NitrateAsNo3, "N" = NitrateAsN }
    NitriteForm, "nitrite": Nitrite { "NO2" = NitriteAsNo2, "N" = NitriteAsN }
    AmmoniaForm, "ammonia": TotalAmmonia {
        "NH4" = AmmoniaAsNh4, "NH3" = AmmoniaAsNh3, "N" = AmmoniaAsN
    }
    PhosphateForm, "phosphate": Phosphate { "PO4" = PhosphateAsPo4, "P" = PhosphateAsP }
}
