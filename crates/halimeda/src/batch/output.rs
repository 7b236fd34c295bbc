use crate::Result;
use crate::carbonate::CarbonateState;

macro_rules! outputs {
    ($( $(#[$doc:meta])* $variant:ident = $name:literal, $unit:literal, |$state:ident| $value:expr; )*) => {
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
                Ok(match self { $( Self::$variant => { let $state = state; $value } )* })
            }
        }
    };
}

outputs! {
    /// pH on the total scale.
    PhTotal = "ph_total", "(pH)", |state| state.ph_total().value();
    /// pH on the free scale.
    PhFree = "ph_free", "(pH)", |state| state.ph_free().value();
    /// pH on the seawater scale.
    PhSeawater = "ph_seawater", "(pH)", |state| state.ph_seawater().value();
    /// pH on the NBS scale.
    PhNbs = "ph_nbs", "(pH)", |state| state.ph_nbs()?.value();
    /// Total alkalinity, µmol/kg.
    Alkalinity = "alkalinity_umol_per_kg", "µmol/kg", |state| state.alkalinity().umol_per_kg();
    /// Dissolved inorganic carbon, µmol/kg.
    InorganicCarbon = "inorganic_carbon_umol_per_kg", "µmol/kg",
        |state| state.inorganic_carbon().umol_per_kg();
    /// Dissolved CO2, µmol/kg.
    CarbonDioxide = "carbon_dioxide_umol_per_kg", "µmol/kg",
        |state| state.carbon_dioxide().umol_per_kg();
    /// Bicarbonate, µmol/kg.
    Bicarbonate = "bicarbonate_umol_per_kg", "µmol/kg", |state| state.bicarbonate().umol_per_kg();
    /// Carbonate, µmol/kg.
    Carbonate = "carbonate_umol_per_kg", "µmol/kg", |state| state.carbonate().umol_per_kg();
    /// Fugacity of CO2, µatm.
    FugacityCo2 = "fugacity_co2_uatm", "µatm", |state| state.fugacity_co2().uatm();
    /// Partial pressure of CO2, µatm.
    PartialPressureCo2 = "partial_pressure_co2_uatm", "µatm",
        |state| state.partial_pressure_co2().uatm();
    /// Mole fraction of CO2 in dry air at equilibrium, ppm.
    DryMoleFractionCo2 = "dry_mole_fraction_co2_ppm", "ppm",
        |state| state.dry_mole_fraction_co2()?.value().ppm();
    /// Saturation state of aragonite.
    AragoniteSaturation = "aragonite_saturation", "(dimensionless)",
        |state| state.aragonite_saturation().value();
    /// Saturation state of calcite.
    CalciteSaturation = "calcite_saturation", "(dimensionless)",
        |state| state.calcite_saturation().value();
    /// Hydrogen ion on the total scale, mol/kg.
    HydrogenTotal = "hydrogen_total_mol_per_kg", "mol/kg",
        |state| state.hydrogen_total_mol_per_kg();
    /// Hydrogen ion on the free scale, mol/kg.
    HydrogenFree = "hydrogen_free_mol_per_kg", "mol/kg", |state| state.hydrogen_free_mol_per_kg();
    /// Hydroxide, mol/kg.
    Hydroxide = "hydroxide_mol_per_kg", "mol/kg", |state| state.hydroxide_mol_per_kg();
    /// Un-ionised ammonia, µmol/kg.
    UnionisedAmmonia = "unionised_ammonia_umol_per_kg", "µmol/kg",
        |state| state.unionised_ammonia().umol_per_kg();
    /// Alkalinity as bicarbonate, µmol/kg.
    BicarbonateAlkalinity = "bicarbonate_alkalinity_umol_per_kg", "µmol/kg",
        |state| state.alkalinity_parts().bicarbonate_umol_per_kg;
    /// Alkalinity as carbonate, µmol/kg.
    CarbonateAlkalinity = "carbonate_alkalinity_umol_per_kg", "µmol/kg",
        |state| state.alkalinity_parts().carbonate_umol_per_kg;
    /// Alkalinity as borate, µmol/kg.
    BorateAlkalinity = "borate_alkalinity_umol_per_kg", "µmol/kg",
        |state| state.alkalinity_parts().borate_umol_per_kg;
    /// Alkalinity as hydroxide, µmol/kg.
    HydroxideAlkalinity = "hydroxide_alkalinity_umol_per_kg", "µmol/kg",
        |state| state.alkalinity_parts().hydroxide_umol_per_kg;
    /// Alkalinity as phosphate, µmol/kg.
    PhosphateAlkalinity = "phosphate_alkalinity_umol_per_kg", "µmol/kg",
        |state| state.alkalinity_parts().phosphate_umol_per_kg;
    /// Alkalinity as silicate, µmol/kg.
    SilicateAlkalinity = "silicate_alkalinity_umol_per_kg", "µmol/kg",
        |state| state.alkalinity_parts().silicate_umol_per_kg;
    /// Alkalinity as ammonia, µmol/kg.
    AmmoniaAlkalinity = "ammonia_alkalinity_umol_per_kg", "µmol/kg",
        |state| state.alkalinity_parts().ammonia_umol_per_kg;
    /// Alkalinity as sulfide, µmol/kg.
    SulfideAlkalinity = "sulfide_alkalinity_umol_per_kg", "µmol/kg",
        |state| state.alkalinity_parts().sulfide_umol_per_kg;
    /// Alkalinity taken up by free hydrogen ion, µmol/kg, negative.
    FreeHydrogenAlkalinity = "free_hydrogen_alkalinity_umol_per_kg", "µmol/kg",
        |state| state.alkalinity_parts().free_hydrogen_umol_per_kg;
    /// Alkalinity taken up by bisulfate, µmol/kg, negative.
    BisulfateAlkalinity = "bisulfate_alkalinity_umol_per_kg", "µmol/kg",
        |state| state.alkalinity_parts().bisulfate_umol_per_kg;
    /// Alkalinity taken up by hydrogen fluoride, µmol/kg, negative.
    HydrogenFluorideAlkalinity = "hydrogen_fluoride_alkalinity_umol_per_kg", "µmol/kg",
        |state| state.alkalinity_parts().hydrogen_fluoride_umol_per_kg;
    /// Revelle factor, ∂ln\[CO2\]/∂ln DIC at constant alkalinity.
    Revelle = "revelle", "(dimensionless)", |state| state.buffer_factors().revelle;
    /// (∂ln\[CO2\]/∂DIC)⁻¹ at constant alkalinity, mol/kg.
    GammaDic = "gamma_dic_mol_per_kg", "mol/kg",
        |state| state.buffer_factors().gamma_dic_mol_per_kg;
    /// (∂ln\[H⁺\]/∂DIC)⁻¹ at constant alkalinity, mol/kg.
    BetaDic = "beta_dic_mol_per_kg", "mol/kg", |state| state.buffer_factors().beta_dic_mol_per_kg;
    /// (∂ln Ω/∂DIC)⁻¹ at constant alkalinity, mol/kg.
    OmegaDic = "omega_dic_mol_per_kg", "mol/kg",
        |state| state.buffer_factors().omega_dic_mol_per_kg;
    /// (∂ln\[CO2\]/∂Alk)⁻¹ at constant DIC, mol/kg.
    GammaAlkalinity = "gamma_alkalinity_mol_per_kg", "mol/kg",
        |state| state.buffer_factors().gamma_alkalinity_mol_per_kg;
    /// (∂ln\[H⁺\]/∂Alk)⁻¹ at constant DIC, mol/kg.
    BetaAlkalinity = "beta_alkalinity_mol_per_kg", "mol/kg",
        |state| state.buffer_factors().beta_alkalinity_mol_per_kg;
    /// (∂ln Ω/∂Alk)⁻¹ at constant DIC, mol/kg.
    OmegaAlkalinity = "omega_alkalinity_mol_per_kg", "mol/kg",
        |state| state.buffer_factors().omega_alkalinity_mol_per_kg;
}

impl core::fmt::Display for Output {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(self.name())
    }
}
