use serde::{Deserialize, Serialize};

use crate::simulate::Sample;

macro_rules! variables {
    ($( $(#[$doc:meta])* $name:ident: $field:ident, $unit:literal; )*) => {
        /// A number of a [`Sample`], to be followed over an ensemble.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
        #[serde(rename_all = "snake_case")]
        #[non_exhaustive]
        pub enum Variable { $( $(#[$doc])* $name, )* }

        impl Variable {
            /// All of them.
            pub const ALL: &'static [Self] = &[ $( Self::$name, )* ];

            /// Name of the field in [`Sample`].
            #[must_use]
            pub const fn name(self) -> &'static str {
                match self { $( Self::$name => stringify!($field), )* }
            }

            /// Unit; "1" for a share or a ratio.
            #[must_use]
            pub const fn unit(self) -> &'static str {
                match self { $( Self::$name => $unit, )* }
            }

            /// Its value in a sample.
            #[must_use]
            pub const fn of(self, sample: &Sample) -> f64 {
                match self { $( Self::$name => sample.$field, )* }
            }
        }
    };
}

variables! {
    /// pH, total scale.
    Ph: ph_total, "total scale";
    /// Total alkalinity.
    Alkalinity: alkalinity_umol_per_kg, "µmol/kg";
    /// Dissolved inorganic carbon.
    InorganicCarbon: inorganic_carbon_umol_per_kg, "µmol/kg";
    /// Dissolved CO2.
    CarbonDioxide: carbon_dioxide_umol_per_kg, "µmol/kg";
    /// Saturation state of aragonite.
    AragoniteSaturation: aragonite_saturation, "1";
    /// Dissolved oxygen.
    Oxygen: oxygen_umol_per_kg, "µmol/kg";
    /// Dissolved oxygen, share of saturation.
    OxygenSaturation: oxygen_saturation, "1";
    /// Nitrate as NO3.
    Nitrate: nitrate_mg_per_l, "mg/L";
    /// Phosphate as PO4.
    Phosphate: phosphate_mg_per_l, "mg/L";
    /// Total ammonia as N.
    Ammonia: ammonia_mg_n_per_l, "mg/L";
    /// Un-ionised ammonia as NH3.
    UnionisedAmmonia: unionised_ammonia_mg_per_l, "mg/L";
    /// Calcium.
    Calcium: calcium_mg_per_l, "mg/L";
    /// Magnesium.
    Magnesium: magnesium_mg_per_l, "mg/L";
    /// Practical salinity.
    Salinity: practical_salinity, "1";
    /// Turf per lit area, dry.
    Turf: turf_g_dry_per_m2, "g/m²";
    /// Nitrogen of the turf per carbon.
    TurfNitrogen: turf_nitrogen_per_carbon, "mol/mol";
    /// Phosphorus of the turf per carbon.
    TurfPhosphorus: turf_phosphorus_per_carbon, "mol/mol";
    /// Share of the screen that carries turf.
    TurfCover: turf_cover, "1";
    /// Reserve of the holdfast layer.
    TurfReserve: turf_reserve, "1";
}
