//! What the keys of a readings file accept.

use std::fmt;

use halimeda::{
    AirPressure, Concentration, DryMoleFractionCo2, ElectrodePotential, NbsScale, Ph, Temperature,
    Volume, form,
};
use serde::{Deserializer, de};

use crate::refusal::Reason as _;

struct Number;

impl de::Visitor<'_> for Number {
    type Value = f64;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a number")
    }

    fn visit_f64<E: de::Error>(self, value: f64) -> Result<f64, E> {
        Ok(value)
    }

    fn visit_i64<E: de::Error>(self, value: i64) -> Result<f64, E> {
        i32::try_from(value)
            .map(f64::from)
            .map_err(|_| E::custom(format!("{value} is too large")))
    }
}

fn number<'de, D: Deserializer<'de>>(d: D) -> Result<f64, D::Error> {
    d.deserialize_any(Number)
}

macro_rules! quantities {
    ($( $name:ident: $type:ty = $constructor:expr; )*) => {
        $(
            pub(crate) fn $name<'de, D: Deserializer<'de>>(d: D) -> Result<$type, D::Error> {
                ($constructor)(number(d)?).map_err(|error| de::Error::custom(error.reason()))
            }
        )*
    };
}

quantities! {
    temperature: Temperature = Temperature::from_celsius;
    potential: ElectrodePotential = ElectrodePotential::from_millivolts;
    carbon_dioxide: DryMoleFractionCo2 = DryMoleFractionCo2::from_ppm;
    ph_nbs: Ph<NbsScale> = Ph::new;
    litres: Volume = Volume::from_litres;
    oxygen: Concentration<form::OxygenAsO2> = Concentration::from_mg_per_l;
    specific_gravity: f64 = within(0.9, 1.2, "");
    dkh: f64 = within(0.1, 60.0, " dKH");
    length: f64 = within(1.0, 1e4, " cm");
    dry_mass: f64 = within(0.0, 1e6, " kg");
    solid_density: f64 = within(0.3, 5.0, " kg/L");
    percent: f64 = within(0.0, 100.0, " %");
    uncertainty_celsius: f64 = within(0.0, 5.0, " °C");
    uncertainty_specific_gravity: f64 = within(0.0, 0.005, "");
    uncertainty_hpa: f64 = within(0.0, 50.0, " hPa");
    uncertainty_dkh: f64 = within(0.0, 10.0, " dKH");
    uncertainty_millivolts: f64 = within(0.0, 100.0, " mV");
    uncertainty_ph: f64 = within(0.0, 1.0, "");
    uncertainty_ppm: f64 = within(0.0, 1e4, " ppm");
    uncertainty_cm: f64 = within(0.0, 10.0, " cm");
    uncertainty: f64 = within(0.0, 1e6, " mg/L");
    amount: Option<f64> = |x| more_than_none(x).map(Some);
    altitude: Option<f64> = |x| within(-1000.0, 7000.0, " m")(x).map(Some);
    air_pressure: Option<AirPressure> = |x| AirPressure::from_hpa(x)
        .map(Some)
        .map_err(|_| format!("air pressure is {x} hPa; it must lie between 406 and 1215 hPa"));
}

/// Milligrams a kit can show, or just show.
fn more_than_none(mg_per_l: f64) -> Result<f64, String> {
    if mg_per_l == 0.0 {
        return Err(
            "no kit proves that there is none: give not_detected_below_mg_per_l, the least it \
             can show"
                .to_owned(),
        );
    }
    within(0.0, 1e6, " mg/L")(mg_per_l)
}

fn within(min: f64, max: f64, unit: &'static str) -> impl Fn(f64) -> Result<f64, String> {
    move |value| {
        if value >= min && value <= max {
            Ok(value)
        } else {
            Err(format!(
                "the value is {value}{unit}; it must lie between {min} and {max}{unit}"
            ))
        }
    }
}
