use super::Measured;
use crate::description::{Measure, schema, unit};

/// What is known of a quantity before any test: where its values can lie and how well
/// hobby tests repeat.
pub(super) struct Kit {
    pub(super) measure: &'static Measure,
    /// Unit of [`Measured`], as the measure names it.
    pub(super) unit: &'static str,
    /// Units of the measure per unit of [`Measured`]; another than one only for shares.
    pub(super) per_unit: f64,
    /// Limits in the unit of the measure.
    limits: (f64, f64),
    /// Standard uncertainty that does not grow with the value, in the unit of
    /// [`Measured`], and the share of the value that does.
    absolute: f64,
    relative: f64,
}

impl Kit {
    pub(super) fn standard_uncertainty(&self, value: f64) -> f64 {
        self.absolute.hypot(self.relative * value)
    }

    /// Limits in the unit of the measure.
    pub(super) const fn limits(&self) -> (f64, f64) {
        self.limits
    }
}

/// Standard uncertainties of hobby tests and probes beside their reading step: common
/// practice, no source. That colour kits do worse than their leaflets: von Benzon et
/// al. 2025, doi 10.3389/fenvs.2025.1667241 (see
/// [`KitPrecision`](halimeda::nutrient::KitPrecision)).
pub(super) fn kit(measured: Measured) -> Kit {
    let kit = |(measure, low, high), unit, absolute, relative| Kit {
        measure,
        unit,
        per_unit: 1.0,
        limits: (low, high),
        absolute,
        relative,
    };
    match measured {
        Measured::Nitrate => kit(schema::NITRATE_LIMITS, "mg/L NO3", 0.5, 0.1),
        Measured::Phosphate => kit(schema::PHOSPHATE_LIMITS, "mg/L PO4", 0.01, 0.1),
        Measured::Ammonia => kit(schema::AMMONIA_LIMITS, "mg/L N", 0.02, 0.1),
        // 0.1 dKH is 35 µmol/kg.
        Measured::Alkalinity => kit(schema::ALKALINITY_LIMITS, "µmol/kg", 35.0, 0.01),
        Measured::Calcium => kit(schema::CALCIUM_LIMITS, "mg/L", 5.0, 0.01),
        Measured::Magnesium => kit(schema::MAGNESIUM_LIMITS, "mg/L", 20.0, 0.01),
        Measured::Ph => kit((&unit::PH, 6.5, 9.5), "total", 0.05, 0.0),
        Measured::OxygenSaturation => Kit {
            per_unit: 100.0,
            ..kit((&unit::OXYGEN, 0.0, 300.0), "%", 0.03, 0.02)
        },
        Measured::Salinity => kit(schema::SALINITY_LIMITS, "", 0.5, 0.0),
        Measured::Temperature => kit((&unit::TEMPERATURE, 0.0, 45.0), "°C", 0.2, 0.0),
    }
}
