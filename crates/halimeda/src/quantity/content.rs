use core::marker::PhantomData;

use super::Density;
use crate::Result;
use crate::error::within;

/// A dissolved substance that is counted in moles.
pub trait Species: Copy + core::fmt::Debug + PartialEq + PartialOrd + 'static {
    /// Name of its content, for messages.
    const NAME: &'static str;
}

/// A way of weighing a species: which part of it the milligrams count.
///
/// A nitrate kit that reads "as NO3" and one that reads "as N" differ by a
/// factor of 4.4; they are different types here.
pub trait Form: Copy + core::fmt::Debug + PartialEq + PartialOrd + 'static {
    /// The species whose moles are counted.
    type Species: Species;
    /// Name of the mass concentration, for messages.
    const NAME: &'static str;
    /// Grams per mole of the species counted this way.
    const GRAMS_PER_MOL: f64;
}

/// Amount of a species per kilogram of seawater. Never negative; accepted to
/// 10 mol/kg.
///
/// ```
/// use halimeda::{Concentration, Content, Density, form, species};
/// let density = Density::from_kg_per_m3(1023.34)?;
/// let kit = Concentration::<form::NitrateAsNo3>::from_mg_per_l(5.0)?;
/// let nitrate: Content<species::Nitrate> = kit.to_content(density);
/// assert!((nitrate.umol_per_kg() - 78.80).abs() < 0.01);
/// # Ok::<(), halimeda::Error>(())
/// ```
///
/// Species do not mix:
///
/// ```compile_fail,E0308
/// use halimeda::{Content, species};
/// fn needs_phosphate(p: Content<species::Phosphate>) {}
/// needs_phosphate(Content::<species::Nitrate>::from_umol_per_kg(1.0).unwrap());
/// ```
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Content<S: Species> {
    mol_per_kg: f64,
    species: PhantomData<S>,
}

impl<S: Species> Content<S> {
    /// None of it.
    pub const ZERO: Self = Self {
        mol_per_kg: 0.0,
        species: PhantomData,
    };

    /// Largest accepted content, mol/kg.
    pub const MAX_MOL_PER_KG: f64 = 10.0;

    /// Largest accepted content, µmol/kg.
    pub const MAX_UMOL_PER_KG: f64 = Self::MAX_MOL_PER_KG * 1e6;

    /// From mol per kg of seawater.
    ///
    /// # Errors
    /// The value is not finite, negative or above [`Self::MAX_MOL_PER_KG`].
    pub const fn from_mol_per_kg(mol_per_kg: f64) -> Result<Self> {
        match within(S::NAME, mol_per_kg, 0.0, Self::MAX_MOL_PER_KG, "mol/kg") {
            Ok(mol_per_kg) => Ok(Self {
                mol_per_kg,
                species: PhantomData,
            }),
            Err(e) => Err(e),
        }
    }

    /// From µmol per kg of seawater.
    ///
    /// # Errors
    /// The value is not finite, negative or above [`Self::MAX_MOL_PER_KG`].
    pub const fn from_umol_per_kg(umol_per_kg: f64) -> Result<Self> {
        match within(S::NAME, umol_per_kg, 0.0, Self::MAX_UMOL_PER_KG, "µmol/kg") {
            Ok(umol_per_kg) => Ok(Self {
                mol_per_kg: umol_per_kg * 1e-6,
                species: PhantomData,
            }),
            Err(e) => Err(e),
        }
    }

    /// A computed content: results are not held to the limits of inputs.
    pub(crate) const fn unchecked(mol_per_kg: f64) -> Self {
        Self {
            mol_per_kg,
            species: PhantomData,
        }
    }

    /// From µmol per litre of seawater ("µM").
    ///
    /// # Errors
    /// As [`Content::from_umol_per_kg`], with the value converted to µmol/kg.
    pub const fn from_umol_per_l(umol_per_l: f64, density: Density) -> Result<Self> {
        Self::from_umol_per_kg(umol_per_l / density.kg_per_l())
    }

    /// In mol per kg of seawater.
    #[must_use]
    pub const fn mol_per_kg(self) -> f64 {
        self.mol_per_kg
    }

    /// In µmol per kg of seawater.
    #[must_use]
    pub const fn umol_per_kg(self) -> f64 {
        self.mol_per_kg * 1e6
    }

    /// In µmol per litre of seawater.
    #[must_use]
    pub const fn umol_per_l(self, density: Density) -> f64 {
        self.mol_per_kg * 1e6 * density.kg_per_l()
    }

    /// As mass per volume, counted as `F` counts it.
    #[must_use]
    pub const fn to_concentration<F: Form<Species = S>>(
        self,
        density: Density,
    ) -> Concentration<F> {
        Concentration {
            mg_per_l: self.mol_per_kg * F::GRAMS_PER_MOL * density.kg_per_l() * 1e3,
            form: PhantomData,
        }
    }
}

/// Mass per volume of a species, counted as `F` counts it. Never negative;
/// accepted to [`Concentration::MAX_MG_PER_L`]. "ppm" of hobby kits is mg/L
/// unless the kit says else.
///
/// Forms do not mix:
///
/// ```compile_fail,E0308
/// use halimeda::{Concentration, form};
/// fn needs_nitrogen(n: Concentration<form::NitrateAsN>) {}
/// needs_nitrogen(Concentration::<form::NitrateAsNo3>::from_mg_per_l(5.0).unwrap());
/// ```
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Concentration<F: Form> {
    mg_per_l: f64,
    form: PhantomData<F>,
}

impl<F: Form> Concentration<F> {
    /// Largest accepted concentration, mg/L: 9 mol/L, which no water that a
    /// [`Density`] admits can turn into more than [`Content::MAX_MOL_PER_KG`].
    pub const MAX_MG_PER_L: f64 = 9e3 * F::GRAMS_PER_MOL;

    /// From mg/L.
    ///
    /// # Errors
    /// The value is not finite, negative or above [`Self::MAX_MG_PER_L`].
    pub const fn from_mg_per_l(mg_per_l: f64) -> Result<Self> {
        match within(F::NAME, mg_per_l, 0.0, Self::MAX_MG_PER_L, "mg/L") {
            Ok(mg_per_l) => Ok(Self {
                mg_per_l,
                form: PhantomData,
            }),
            Err(e) => Err(e),
        }
    }

    /// From µg/L ("ppb").
    ///
    /// # Errors
    /// The value is not finite, negative or above a thousand times
    /// [`Self::MAX_MG_PER_L`].
    pub const fn from_ug_per_l(ug_per_l: f64) -> Result<Self> {
        match within(F::NAME, ug_per_l, 0.0, Self::MAX_MG_PER_L * 1e3, "µg/L") {
            Ok(ug_per_l) => Ok(Self {
                mg_per_l: ug_per_l * 1e-3,
                form: PhantomData,
            }),
            Err(e) => Err(e),
        }
    }

    /// In mg/L.
    #[must_use]
    pub const fn mg_per_l(self) -> f64 {
        self.mg_per_l
    }

    /// In µg/L ("ppb").
    #[must_use]
    pub const fn ug_per_l(self) -> f64 {
        self.mg_per_l * 1e3
    }

    /// As amount per kilogram of seawater.
    #[must_use]
    pub const fn to_content(self, density: Density) -> Content<F::Species> {
        Content {
            mol_per_kg: self.mg_per_l * 1e-3 / F::GRAMS_PER_MOL / density.kg_per_l(),
            species: PhantomData,
        }
    }

    /// The same amount, counted another way.
    #[must_use]
    pub const fn counted_as<G: Form<Species = F::Species>>(self) -> Concentration<G> {
        Concentration {
            mg_per_l: self.mg_per_l * (G::GRAMS_PER_MOL / F::GRAMS_PER_MOL),
            form: PhantomData,
        }
    }
}

#[cfg(feature = "serde")]
mod with_serde {
    use super::{Concentration, Content, Form, Species};
    use serde::ser::SerializeStruct as _;
    use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

    impl<S: Species> Serialize for Content<S> {
        fn serialize<Z: Serializer>(&self, serializer: Z) -> Result<Z::Ok, Z::Error> {
            let mut record = serializer.serialize_struct("Content", 1)?;
            record.serialize_field("mol_per_kg", &self.mol_per_kg)?;
            record.end()
        }
    }

    impl<'de, S: Species> Deserialize<'de> for Content<S> {
        fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
            #[derive(Deserialize)]
            #[serde(deny_unknown_fields)]
            struct Record {
                mol_per_kg: f64,
            }
            Self::from_mol_per_kg(Record::deserialize(d)?.mol_per_kg).map_err(de::Error::custom)
        }
    }

    impl<F: Form> Serialize for Concentration<F> {
        fn serialize<Z: Serializer>(&self, serializer: Z) -> Result<Z::Ok, Z::Error> {
            let mut record = serializer.serialize_struct("Concentration", 1)?;
            record.serialize_field("mg_per_l", &self.mg_per_l)?;
            record.end()
        }
    }

    impl<'de, F: Form> Deserialize<'de> for Concentration<F> {
        fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
            #[derive(Deserialize)]
            #[serde(deny_unknown_fields)]
            struct Record {
                mg_per_l: f64,
            }
            Self::from_mg_per_l(Record::deserialize(d)?.mg_per_l).map_err(de::Error::custom)
        }
    }
}

/// The species this crate counts.
pub mod species {
    use super::Species;

    macro_rules! species {
        ($( $(#[$doc:meta])* $name:ident = $text:literal; )*) => {
            $(
                $(#[$doc])*
                #[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
                pub struct $name;
                impl Species for $name {
                    const NAME: &'static str = $text;
                }
            )*
        };
    }

    species! {
        /// Dissolved inorganic carbon: CO2, HCO3⁻ and CO3²⁻ together.
        InorganicCarbon = "dissolved inorganic carbon";
        /// Dissolved CO2 (with the little H2CO3).
        CarbonDioxide = "dissolved CO2";
        /// Bicarbonate, HCO3⁻.
        Bicarbonate = "bicarbonate";
        /// Carbonate, CO3²⁻.
        Carbonate = "carbonate";
        /// Total boron: B(OH)3 and B(OH)4⁻.
        Boron = "total boron";
        /// Total sulfate: SO4²⁻ and HSO4⁻.
        Sulfate = "total sulfate";
        /// Total fluoride: F⁻ and HF.
        Fluoride = "total fluoride";
        /// Calcium.
        Calcium = "calcium";
        /// Magnesium.
        Magnesium = "magnesium";
        /// Potassium.
        Potassium = "potassium";
        /// Strontium.
        Strontium = "strontium";
        /// Nitrate.
        Nitrate = "nitrate";
        /// Nitrite.
        Nitrite = "nitrite";
        /// Total ammonia: NH4⁺ and NH3.
        TotalAmmonia = "total ammonia";
        /// Un-ionised ammonia, NH3.
        UnionisedAmmonia = "un-ionised ammonia";
        /// Dissolved inorganic nitrogen: nitrate, nitrite and total ammonia
        /// together, one mole of each counting one.
        InorganicNitrogen = "dissolved inorganic nitrogen";
        /// Total dissolved inorganic phosphate.
        Phosphate = "phosphate";
        /// Total dissolved silicate.
        Silicate = "silicate";
        /// Total dissolved sulfide: H2S and HS⁻.
        Sulfide = "total sulfide";
        /// Dissolved oxygen, O2.
        Oxygen = "dissolved oxygen";
        /// Dissolved nitrogen gas, N2.
        Nitrogen = "dissolved nitrogen";
        /// Dissolved argon.
        Argon = "dissolved argon";
    }
}

/// The ways kits and laboratories weigh a species.
///
/// Molar masses from the conventional atomic weights of IUPAC 2021 (Prohaska
/// et al. 2022, Pure Appl. Chem. 94, 573-600, doi 10.1515/pac-2019-0603).
pub mod form {
    use super::{Form, species};
    use crate::quantity::atomic_weight::*;

    macro_rules! forms {
        ($( $(#[$doc:meta])* $name:ident: $species:ident = $mass:expr, $text:literal; )*) => {
            $(
                $(#[$doc])*
                #[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
                pub struct $name;
                impl Form for $name {
                    type Species = species::$species;
                    const NAME: &'static str = $text;
                    const GRAMS_PER_MOL: f64 = $mass;
                }
            )*
        };
    }

    forms! {
        /// Nitrate weighed as the ion NO3⁻ (most hobby kits).
        NitrateAsNo3: Nitrate = N + 3.0 * O, "nitrate (as NO3)";
        /// Nitrate weighed as nitrogen, NO3-N.
        NitrateAsN: Nitrate = N, "nitrate (as N)";
        /// Nitrite weighed as the ion NO2⁻.
        NitriteAsNo2: Nitrite = N + 2.0 * O, "nitrite (as NO2)";
        /// Nitrite weighed as nitrogen, NO2-N.
        NitriteAsN: Nitrite = N, "nitrite (as N)";
        /// Total ammonia weighed as nitrogen (TAN).
        AmmoniaAsN: TotalAmmonia = N, "total ammonia (as N)";
        /// Total ammonia weighed as NH3.
        AmmoniaAsNh3: TotalAmmonia = N + 3.0 * H, "total ammonia (as NH3)";
        /// Total ammonia weighed as NH4⁺.
        AmmoniaAsNh4: TotalAmmonia = N + 4.0 * H, "total ammonia (as NH4)";
        /// Un-ionised ammonia weighed as NH3.
        UnionisedAmmoniaAsNh3: UnionisedAmmonia = N + 3.0 * H, "un-ionised ammonia (as NH3)";
        /// Un-ionised ammonia weighed as nitrogen.
        UnionisedAmmoniaAsN: UnionisedAmmonia = N, "un-ionised ammonia (as N)";
        /// Dissolved inorganic nitrogen weighed as nitrogen.
        InorganicNitrogenAsN: InorganicNitrogen = N, "dissolved inorganic nitrogen (as N)";
        /// Phosphate weighed as the ion PO4³⁻ (most hobby kits).
        PhosphateAsPo4: Phosphate = P + 4.0 * O, "phosphate (as PO4)";
        /// Phosphate weighed as phosphorus, PO4-P.
        PhosphateAsP: Phosphate = P, "phosphate (as P)";
        /// Silicate weighed as SiO2.
        SilicateAsSio2: Silicate = SI + 2.0 * O, "silicate (as SiO2)";
        /// Silicate weighed as silicon.
        SilicateAsSi: Silicate = SI, "silicate (as Si)";
        /// Sulfide weighed as H2S.
        SulfideAsH2s: Sulfide = S + 2.0 * H, "total sulfide (as H2S)";
        /// Sulfate weighed as the ion SO4²⁻.
        SulfateAsSo4: Sulfate = S + 4.0 * O, "sulfate (as SO4)";
        /// Calcium.
        CalciumAsCa: Calcium = CA, "calcium (as Ca)";
        /// Calcium weighed as CaCO3, as some hardness kits do.
        CalciumAsCaco3: Calcium = CA + C + 3.0 * O, "calcium (as CaCO3)";
        /// Magnesium.
        MagnesiumAsMg: Magnesium = MG, "magnesium (as Mg)";
        /// Potassium.
        PotassiumAsK: Potassium = K, "potassium (as K)";
        /// Strontium.
        StrontiumAsSr: Strontium = SR, "strontium (as Sr)";
        /// Boron.
        BoronAsB: Boron = B, "boron (as B)";
        /// Fluoride.
        FluorideAsF: Fluoride = F, "fluoride (as F)";
        /// Dissolved CO2 weighed as CO2.
        CarbonDioxideAsCo2: CarbonDioxide = C + 2.0 * O, "dissolved CO2 (as CO2)";
        /// Dissolved inorganic carbon weighed as carbon.
        InorganicCarbonAsC: InorganicCarbon = C, "dissolved inorganic carbon (as C)";
        /// Dissolved oxygen weighed as O2.
        OxygenAsO2: Oxygen = 2.0 * O, "dissolved oxygen (as O2)";
        /// Dissolved nitrogen gas weighed as N2.
        NitrogenAsN2: Nitrogen = 2.0 * N, "dissolved nitrogen (as N2)";
        /// Dissolved argon.
        ArgonAsAr: Argon = AR, "dissolved argon (as Ar)";
    }
}
