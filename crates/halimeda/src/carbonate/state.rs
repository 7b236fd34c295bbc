use super::point::Point;
use super::solve::Root;
use super::speciation::CarbonFractions;
use super::{Equilibria, Known, KnownKind};
use crate::gas::co2_dry_mole_fraction;
use crate::quantity::{
    Alkalinity, AnyPh, Aragonite, Calcite, Content, DryMoleFractionCo2, FreeScale, FugacityCo2,
    NbsScale, PartialPressureCo2, Ph, PhScale, SaturationState, Scale, SeawaterScale, TotalScale,
    species,
};
use crate::real::log10;
use crate::relation::RelationSet;
use crate::{Flagged, Result};

/// Every state that a pair of known quantities allows.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
// A state carries its constants; boxing needs an allocator, which the crate does without.
#[allow(clippy::large_enum_variant)]
pub enum Solutions {
    /// No state satisfies the pair.
    None {
        /// Why not.
        reason: &'static str,
    },
    /// Exactly one state.
    One(CarbonateState),
    /// Two states.
    Two {
        /// The more acid one.
        lower_ph: CarbonateState,
        /// The more basic one.
        higher_ph: CarbonateState,
    },
}

/// The full state of the carbonate system in one water.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CarbonateState {
    equilibria: Equilibria,
    knowns: [Known; 2],
    h: f64,
    dic: f64,
}

/// Contributions to total alkalinity, µmol/kg; acids count negative.
///
/// Dickson (1981), doi 10.1016/0198-0149(81)90121-7.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[non_exhaustive]
pub struct AlkalinityParts {
    /// HCO3⁻.
    pub bicarbonate_umol_per_kg: f64,
    /// 2 CO3²⁻.
    pub carbonate_umol_per_kg: f64,
    /// B(OH)4⁻.
    pub borate_umol_per_kg: f64,
    /// OH⁻.
    pub hydroxide_umol_per_kg: f64,
    /// HPO4²⁻ + 2 PO4³⁻ − H3PO4.
    pub phosphate_umol_per_kg: f64,
    /// SiO(OH)3⁻.
    pub silicate_umol_per_kg: f64,
    /// NH3.
    pub ammonia_umol_per_kg: f64,
    /// HS⁻.
    pub sulfide_umol_per_kg: f64,
    /// −H⁺ (free).
    pub free_hydrogen_umol_per_kg: f64,
    /// −HSO4⁻.
    pub bisulfate_umol_per_kg: f64,
    /// −HF.
    pub hydrogen_fluoride_umol_per_kg: f64,
}

impl AlkalinityParts {
    /// Their sum, the total alkalinity, µmol/kg.
    #[must_use]
    pub fn sum_umol_per_kg(&self) -> f64 {
        self.bicarbonate_umol_per_kg
            + self.carbonate_umol_per_kg
            + self.borate_umol_per_kg
            + self.hydroxide_umol_per_kg
            + self.phosphate_umol_per_kg
            + self.silicate_umol_per_kg
            + self.ammonia_umol_per_kg
            + self.sulfide_umol_per_kg
            + self.free_hydrogen_umol_per_kg
            + self.bisulfate_umol_per_kg
            + self.hydrogen_fluoride_umol_per_kg
    }
}

/// Revelle factor and the buffer factors of Egleston, Sabine & Morel (2010),
/// Global Biogeochem. Cycles 24, GB1002 (doi 10.1029/2008GB003407), table 1.
///
/// Exact derivatives at constant salinity and temperature with every acid
/// system in the water, not the paper's carbonate-borate-water expressions.
/// All in mol/kg but the dimensionless Revelle factor.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[non_exhaustive]
pub struct BufferFactors {
    /// ∂ln\[CO2\]/∂ln DIC at constant alkalinity, dimensionless.
    pub revelle: f64,
    /// (∂ln\[CO2\]/∂DIC)⁻¹ at constant alkalinity, mol/kg.
    pub gamma_dic_mol_per_kg: f64,
    /// (∂ln\[H⁺\]/∂DIC)⁻¹ at constant alkalinity, mol/kg.
    pub beta_dic_mol_per_kg: f64,
    /// (∂ln Ω/∂DIC)⁻¹ at constant alkalinity, mol/kg.
    pub omega_dic_mol_per_kg: f64,
    /// (∂ln\[CO2\]/∂Alk)⁻¹ at constant DIC, mol/kg.
    pub gamma_alkalinity_mol_per_kg: f64,
    /// (∂ln\[H⁺\]/∂Alk)⁻¹ at constant DIC, mol/kg.
    pub beta_alkalinity_mol_per_kg: f64,
    /// (∂ln Ω/∂Alk)⁻¹ at constant DIC, mol/kg.
    pub omega_alkalinity_mol_per_kg: f64,
}

impl CarbonateState {
    #[inline]
    pub(super) fn new(equilibria: &Equilibria, root: Root, knowns: [Known; 2]) -> Self {
        Self {
            equilibria: *equilibria,
            knowns,
            h: root.h,
            dic: root.dic,
        }
    }

    /// The constants this state was solved with.
    #[must_use]
    pub const fn equilibria(&self) -> &Equilibria {
        &self.equilibria
    }

    /// The two quantities this state was solved from.
    #[must_use]
    pub const fn knowns(&self) -> [Known; 2] {
        self.knowns
    }

    /// The kinds of the two quantities this state was solved from.
    #[must_use]
    pub fn pair(&self) -> [KnownKind; 2] {
        self.knowns.map(Known::kind)
    }

    /// Relations used outside their published range.
    #[must_use]
    pub const fn extrapolations(&self) -> RelationSet {
        self.equilibria.extrapolations()
    }

    /// Hydrogen ion on the total scale, mol/kg.
    #[must_use]
    pub const fn hydrogen_total_mol_per_kg(&self) -> f64 {
        self.h
    }

    /// Hydrogen ion on the free scale, mol/kg.
    #[must_use]
    pub fn hydrogen_free_mol_per_kg(&self) -> f64 {
        self.point().hydrogen_free()
    }

    /// The state without types and checks.
    #[inline]
    pub(crate) const fn point(&self) -> Point<'_> {
        Point {
            acid_base: self.equilibria.acid_base(),
            h: self.h,
            dic: self.dic,
        }
    }

    /// DIC, mol/kg.
    pub(super) const fn dic(&self) -> f64 {
        self.dic
    }

    #[inline]
    pub(super) fn fractions(&self) -> CarbonFractions {
        self.point().fractions()
    }

    /// pH on the scale `S`, given the H of that scale per H of the total one.
    #[inline]
    fn ph<S: Scale>(&self, scale_to_total: f64) -> Ph<S> {
        Ph::unchecked(-log10(self.h / scale_to_total))
    }

    /// pH on the total scale.
    #[must_use]
    #[inline]
    pub fn ph_total(&self) -> Ph<TotalScale> {
        self.ph(1.0)
    }

    /// pH on the free scale.
    #[must_use]
    pub fn ph_free(&self) -> Ph<FreeScale> {
        self.ph(self.equilibria.set.scale_to_total(PhScale::Free))
    }

    /// pH on the seawater scale.
    #[must_use]
    pub fn ph_seawater(&self) -> Ph<SeawaterScale> {
        self.ph(self.equilibria.set.scale_to_total(PhScale::Seawater))
    }

    /// pH on the NBS scale, what a probe calibrated in NBS buffers would show.
    /// Known to 0.05 at best: see [`probe`](crate::probe).
    ///
    /// # Errors
    /// The water lies outside the range of
    /// [`Relation::FhTakahashi1982`](crate::Relation::FhTakahashi1982) and
    /// extrapolation is not allowed.
    pub fn ph_nbs(&self) -> Result<Ph<NbsScale>> {
        Ok(self.ph(self.equilibria.scale_to_total(PhScale::Nbs)?))
    }

    /// pH on a scale known at run time.
    ///
    /// # Errors
    /// As [`CarbonateState::ph_nbs`], for the NBS scale only.
    pub fn ph_on(&self, scale: PhScale) -> Result<AnyPh> {
        Ok(match scale {
            PhScale::Total => self.ph_total().into(),
            PhScale::Free => self.ph_free().into(),
            PhScale::Seawater => self.ph_seawater().into(),
            PhScale::Nbs => self.ph_nbs()?.into(),
        })
    }

    /// Total alkalinity.
    #[must_use]
    pub fn alkalinity(&self) -> Alkalinity {
        Alkalinity::unchecked(self.point().alkalinity() * 1e6)
    }

    /// Dissolved inorganic carbon.
    #[must_use]
    pub fn inorganic_carbon(&self) -> Content<species::InorganicCarbon> {
        Content::unchecked(self.dic)
    }

    /// Dissolved CO2.
    #[must_use]
    #[inline]
    pub fn carbon_dioxide(&self) -> Content<species::CarbonDioxide> {
        Content::unchecked(self.point().carbon_dioxide())
    }

    /// Bicarbonate.
    #[must_use]
    pub fn bicarbonate(&self) -> Content<species::Bicarbonate> {
        Content::unchecked(self.point().bicarbonate())
    }

    /// Carbonate.
    #[must_use]
    #[inline]
    pub fn carbonate(&self) -> Content<species::Carbonate> {
        Content::unchecked(self.point().carbonate())
    }

    /// Fugacity of CO2.
    #[must_use]
    #[inline]
    pub fn fugacity_co2(&self) -> FugacityCo2 {
        FugacityCo2::unchecked(self.point().fugacity_co2_uatm())
    }

    /// Partial pressure of CO2.
    #[must_use]
    #[inline]
    pub fn partial_pressure_co2(&self) -> PartialPressureCo2 {
        PartialPressureCo2::unchecked(self.point().partial_pressure_co2_uatm())
    }

    /// Saturation state of aragonite, with the calcium of the water's composition.
    #[must_use]
    #[inline]
    pub fn aragonite_saturation(&self) -> SaturationState<Aragonite> {
        SaturationState::unchecked(self.point().saturation(self.equilibria.set.ksp_aragonite))
    }

    /// Saturation state of calcite, with the calcium of the water's composition.
    #[must_use]
    pub fn calcite_saturation(&self) -> SaturationState<Calcite> {
        SaturationState::unchecked(self.point().saturation(self.equilibria.set.ksp_calcite))
    }

    /// Hydroxide, mol/kg.
    #[must_use]
    pub fn hydroxide_mol_per_kg(&self) -> f64 {
        self.point().hydroxide()
    }

    /// What makes up the total alkalinity.
    #[must_use]
    pub fn alkalinity_parts(&self) -> AlkalinityParts {
        self.point().alkalinity_parts()
    }

    /// Un-ionised ammonia, NH3, of the total ammonia among the bases.
    #[must_use]
    pub fn unionised_ammonia(&self) -> Content<species::UnionisedAmmonia> {
        Content::unchecked(self.point().unionised_ammonia())
    }

    /// Revelle factor and the six buffer factors.
    #[must_use]
    pub fn buffer_factors(&self) -> BufferFactors {
        self.point().buffer_factors()
    }

    /// Mole fraction of CO2 in dry air at equilibrium with the water, at the
    /// water's own air pressure: what a CO2 meter would have to show for the
    /// water neither to take up nor to give off CO2.
    ///
    /// # Errors
    /// The water lies outside the range of the vapour pressure relation and
    /// extrapolation is not allowed, or the mole fraction exceeds one.
    pub fn dry_mole_fraction_co2(&self) -> Result<Flagged<DryMoleFractionCo2>> {
        let dry = co2_dry_mole_fraction(self.partial_pressure_co2(), self.equilibria.water())?;
        let extrapolated = self.extrapolations().union(dry.extrapolated());
        Ok(Flagged::new(dry.value(), extrapolated))
    }
}
