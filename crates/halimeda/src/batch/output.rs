use super::block::{self, Block};
use super::strip::Strip;
use crate::Result;
use crate::carbonate::CarbonateState;
use crate::quantity::PhScale;
use crate::real::log10;

/// A value as it is, or as the pH of a hydrogen ion.
macro_rules! written {
    (value, $log10:expr, $value:expr) => {
        $value
    };
    (ph, $log10:expr, $h:expr) => {
        -$log10($h)
    };
}

macro_rules! outputs {
    ($(
        $(#[$doc:meta])*
        $variant:ident = $name:literal, $unit:literal, $as:ident |$point:ident| $value:expr;
    )*) => {
        /// A number of the solved state that a batch can give for every row.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
        #[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
        #[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
        #[non_exhaustive]
        pub enum Output { $( $(#[$doc])* $variant, )* }

        impl Output {
            /// All of them.
            pub const ALL: &'static [Self] = &[ $( Self::$variant, )* ];

            /// Name for a table's column, with the unit as the crate's
            /// accessors carry it.
            #[must_use]
            pub const fn name(self) -> &'static str {
                match self { $( Self::$variant => $name, )* }
            }

            /// Unit of its values; in parentheses where they have none.
            #[must_use]
            pub const fn unit(self) -> &'static str {
                match self { $( Self::$variant => $unit, )* }
            }

            /// Its value in one state.
            ///
            /// # Errors
            /// Those of [`CarbonateState::ph_nbs`] for [`Output::PhNbs`] and of
            /// [`CarbonateState::dry_mole_fraction_co2`] for
            /// [`Output::DryMoleFractionCo2`]; none for any other.
            pub fn of(self, state: &CarbonateState) -> Result<f64> {
                match self {
                    Self::PhNbs => return Ok(state.ph_nbs()?.value()),
                    Self::DryMoleFractionCo2 => {
                        return Ok(state.dry_mole_fraction_co2()?.value().ppm());
                    }
                    _ => {}
                }
                Ok(match self { $(
                    Self::$variant => {
                        let $point = state.point();
                        written!($as, log10, $value)
                    }
                )* })
            }

            /// Its value in every row of a block; of the dry mole fraction, the
            /// partial pressure that it is of.
            #[inline(always)]
            pub(super) fn fill<const FUSED: bool, const MINOR: bool>(
                self,
                block: &Block,
                strip: &mut Strip,
            ) {
                match self { $(
                    // Compiled once for each width of vectors, which by itself a
                    // compiler takes for a reason not to inline.
                    Self::$variant => block.fill::<FUSED, MINOR>(
                        strip,
                        #[inline(always)]
                        |$point| written!($as, block::log10::<FUSED>, $value),
                    ),
                )* }
            }
        }
    };
}

outputs! {
    /// pH on the total scale.
    PhTotal = "ph_total", "(pH)", ph |point| point.h;
    /// pH on the free scale.
    PhFree = "ph_free", "(pH)",
        ph |point| point.h / point.acid_base.set.scale_to_total(PhScale::Free);
    /// pH on the seawater scale.
    PhSeawater = "ph_seawater", "(pH)",
        ph |point| point.h / point.acid_base.set.scale_to_total(PhScale::Seawater);
    /// pH on the NBS scale.
    PhNbs = "ph_nbs", "(pH)",
        ph |point| point.h / point.acid_base.set.scale_to_total(PhScale::Nbs);
    /// Total alkalinity, µmol/kg.
    Alkalinity = "alkalinity_umol_per_kg", "µmol/kg", value |point| point.alkalinity() * 1e6;
    /// Dissolved inorganic carbon, µmol/kg.
    InorganicCarbon = "inorganic_carbon_umol_per_kg", "µmol/kg",
        value |point| point.dic * 1e6;
    /// Dissolved CO2, µmol/kg.
    CarbonDioxide = "carbon_dioxide_umol_per_kg", "µmol/kg",
        value |point| point.carbon_dioxide() * 1e6;
    /// Bicarbonate, µmol/kg.
    Bicarbonate = "bicarbonate_umol_per_kg", "µmol/kg", value |point| point.bicarbonate() * 1e6;
    /// Carbonate, µmol/kg.
    Carbonate = "carbonate_umol_per_kg", "µmol/kg", value |point| point.carbonate() * 1e6;
    /// Fugacity of CO2, µatm.
    FugacityCo2 = "fugacity_co2_uatm", "µatm", value |point| point.fugacity_co2_uatm();
    /// Partial pressure of CO2, µatm.
    PartialPressureCo2 = "partial_pressure_co2_uatm", "µatm",
        value |point| point.partial_pressure_co2_uatm();
    /// Mole fraction of CO2 in dry air at equilibrium, ppm.
    DryMoleFractionCo2 = "dry_mole_fraction_co2_ppm", "ppm",
        value |point| point.partial_pressure_co2_uatm();
    /// Saturation state of aragonite.
    AragoniteSaturation = "aragonite_saturation", "(dimensionless)",
        value |point| point.saturation(point.acid_base.set.ksp_aragonite);
    /// Saturation state of calcite.
    CalciteSaturation = "calcite_saturation", "(dimensionless)",
        value |point| point.saturation(point.acid_base.set.ksp_calcite);
    /// Hydrogen ion on the total scale, mol/kg.
    HydrogenTotal = "hydrogen_total_mol_per_kg", "mol/kg",
        value |point| point.h;
    /// Hydrogen ion on the free scale, mol/kg.
    HydrogenFree = "hydrogen_free_mol_per_kg", "mol/kg", value |point| point.hydrogen_free();
    /// Hydroxide, mol/kg.
    Hydroxide = "hydroxide_mol_per_kg", "mol/kg", value |point| point.hydroxide();
    /// Un-ionised ammonia, µmol/kg.
    UnionisedAmmonia = "unionised_ammonia_umol_per_kg", "µmol/kg",
        value |point| point.unionised_ammonia() * 1e6;
    /// Alkalinity as bicarbonate, µmol/kg.
    BicarbonateAlkalinity = "bicarbonate_alkalinity_umol_per_kg", "µmol/kg",
        value |point| point.alkalinity_parts().bicarbonate_umol_per_kg;
    /// Alkalinity as carbonate, µmol/kg.
    CarbonateAlkalinity = "carbonate_alkalinity_umol_per_kg", "µmol/kg",
        value |point| point.alkalinity_parts().carbonate_umol_per_kg;
    /// Alkalinity as borate, µmol/kg.
    BorateAlkalinity = "borate_alkalinity_umol_per_kg", "µmol/kg",
        value |point| point.alkalinity_parts().borate_umol_per_kg;
    /// Alkalinity as hydroxide, µmol/kg.
    HydroxideAlkalinity = "hydroxide_alkalinity_umol_per_kg", "µmol/kg",
        value |point| point.alkalinity_parts().hydroxide_umol_per_kg;
    /// Alkalinity as phosphate, µmol/kg.
    PhosphateAlkalinity = "phosphate_alkalinity_umol_per_kg", "µmol/kg",
        value |point| point.alkalinity_parts().phosphate_umol_per_kg;
    /// Alkalinity as silicate, µmol/kg.
    SilicateAlkalinity = "silicate_alkalinity_umol_per_kg", "µmol/kg",
        value |point| point.alkalinity_parts().silicate_umol_per_kg;
    /// Alkalinity as ammonia, µmol/kg.
    AmmoniaAlkalinity = "ammonia_alkalinity_umol_per_kg", "µmol/kg",
        value |point| point.alkalinity_parts().ammonia_umol_per_kg;
    /// Alkalinity as sulfide, µmol/kg.
    SulfideAlkalinity = "sulfide_alkalinity_umol_per_kg", "µmol/kg",
        value |point| point.alkalinity_parts().sulfide_umol_per_kg;
    /// Alkalinity taken up by free hydrogen ion, µmol/kg, negative.
    FreeHydrogenAlkalinity = "free_hydrogen_alkalinity_umol_per_kg", "µmol/kg",
        value |point| point.alkalinity_parts().free_hydrogen_umol_per_kg;
    /// Alkalinity taken up by bisulfate, µmol/kg, negative.
    BisulfateAlkalinity = "bisulfate_alkalinity_umol_per_kg", "µmol/kg",
        value |point| point.alkalinity_parts().bisulfate_umol_per_kg;
    /// Alkalinity taken up by hydrogen fluoride, µmol/kg, negative.
    HydrogenFluorideAlkalinity = "hydrogen_fluoride_alkalinity_umol_per_kg", "µmol/kg",
        value |point| point.alkalinity_parts().hydrogen_fluoride_umol_per_kg;
    /// Revelle factor, ∂ln\[CO2\]/∂ln DIC at constant alkalinity.
    Revelle = "revelle", "(dimensionless)", value |point| point.buffer_factors().revelle;
    /// (∂ln\[CO2\]/∂DIC)⁻¹ at constant alkalinity, mol/kg.
    GammaDic = "gamma_dic_mol_per_kg", "mol/kg",
        value |point| point.buffer_factors().gamma_dic_mol_per_kg;
    /// (∂ln\[H⁺\]/∂DIC)⁻¹ at constant alkalinity, mol/kg.
    BetaDic = "beta_dic_mol_per_kg", "mol/kg", value |point| point.buffer_factors().beta_dic_mol_per_kg;
    /// (∂ln Ω/∂DIC)⁻¹ at constant alkalinity, mol/kg.
    OmegaDic = "omega_dic_mol_per_kg", "mol/kg",
        value |point| point.buffer_factors().omega_dic_mol_per_kg;
    /// (∂ln\[CO2\]/∂Alk)⁻¹ at constant DIC, mol/kg.
    GammaAlkalinity = "gamma_alkalinity_mol_per_kg", "mol/kg",
        value |point| point.buffer_factors().gamma_alkalinity_mol_per_kg;
    /// (∂ln\[H⁺\]/∂Alk)⁻¹ at constant DIC, mol/kg.
    BetaAlkalinity = "beta_alkalinity_mol_per_kg", "mol/kg",
        value |point| point.buffer_factors().beta_alkalinity_mol_per_kg;
    /// (∂ln Ω/∂Alk)⁻¹ at constant DIC, mol/kg.
    OmegaAlkalinity = "omega_alkalinity_mol_per_kg", "mol/kg",
        value |point| point.buffer_factors().omega_alkalinity_mol_per_kg;
}

impl core::fmt::Display for Output {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(self.name())
    }
}
