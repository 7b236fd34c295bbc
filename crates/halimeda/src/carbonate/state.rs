use super::solve::Root;
use super::speciation::{CarbonFractions, acid_form, base_form, phosphate_fractions};
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
        self.h / self.equilibria.set.free_to_total
    }

    /// DIC, mol/kg.
    pub(super) const fn dic(&self) -> f64 {
        self.dic
    }

    #[inline]
    pub(super) fn fractions(&self) -> CarbonFractions {
        let set = &self.equilibria.set;
        CarbonFractions::new(set.k1, set.k2, self.h)
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
        self.ph(self.equilibria.set.free_to_total)
    }

    /// pH on the seawater scale.
    #[must_use]
    pub fn ph_seawater(&self) -> Ph<SeawaterScale> {
        let set = &self.equilibria.set;
        self.ph(set.free_to_total / set.free_to_seawater)
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
        let rest = self.equilibria.acid_base().rest(self.h).value;
        Alkalinity::unchecked((rest + self.dic * self.fractions().charge()) * 1e6)
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
        Content::unchecked(self.dic * self.fractions().co2)
    }

    /// Bicarbonate.
    #[must_use]
    pub fn bicarbonate(&self) -> Content<species::Bicarbonate> {
        Content::unchecked(self.dic * self.fractions().bicarbonate)
    }

    /// Carbonate.
    #[must_use]
    #[inline]
    pub fn carbonate(&self) -> Content<species::Carbonate> {
        Content::unchecked(self.dic * self.fractions().carbonate)
    }

    /// Fugacity of CO2.
    #[must_use]
    #[inline]
    pub fn fugacity_co2(&self) -> FugacityCo2 {
        FugacityCo2::unchecked(self.carbon_dioxide().umol_per_kg() / self.equilibria.set.k0)
    }

    /// Partial pressure of CO2.
    #[must_use]
    #[inline]
    pub fn partial_pressure_co2(&self) -> PartialPressureCo2 {
        PartialPressureCo2::unchecked(
            self.carbon_dioxide().umol_per_kg()
                / (self.equilibria.set.k0 * self.equilibria.set.fugacity_coefficient),
        )
    }

    /// Saturation state of aragonite, with the calcium of the water's composition.
    #[must_use]
    #[inline]
    pub fn aragonite_saturation(&self) -> SaturationState<Aragonite> {
        SaturationState::unchecked(self.saturation(self.equilibria.set.ksp_aragonite))
    }

    /// Saturation state of calcite, with the calcium of the water's composition.
    #[must_use]
    pub fn calcite_saturation(&self) -> SaturationState<Calcite> {
        SaturationState::unchecked(self.saturation(self.equilibria.set.ksp_calcite))
    }

    #[inline]
    fn saturation(&self, ksp: f64) -> f64 {
        self.equilibria.set.calcium * self.carbonate().mol_per_kg() / ksp
    }

    /// Hydroxide, mol/kg.
    #[must_use]
    pub fn hydroxide_mol_per_kg(&self) -> f64 {
        self.equilibria.set.kw / self.h
    }

    /// What makes up the total alkalinity.
    #[must_use]
    pub fn alkalinity_parts(&self) -> AlkalinityParts {
        let set = &self.equilibria.set;
        let (h, free) = (self.h, self.hydrogen_free_mol_per_kg());
        let fractions = self.fractions();
        let base = |total, k| base_form(total, k, h).0 * 1e6;
        let acid = |total, k| -acid_form(total, k, free).0 * 1e6;
        let mut parts = AlkalinityParts {
            bicarbonate_umol_per_kg: self.dic * fractions.bicarbonate * 1e6,
            carbonate_umol_per_kg: self.dic * 2.0 * fractions.carbonate * 1e6,
            borate_umol_per_kg: base(set.boron, set.kb),
            hydroxide_umol_per_kg: self.hydroxide_mol_per_kg() * 1e6,
            phosphate_umol_per_kg: 0.0,
            silicate_umol_per_kg: 0.0,
            ammonia_umol_per_kg: 0.0,
            sulfide_umol_per_kg: 0.0,
            free_hydrogen_umol_per_kg: -free * 1e6,
            bisulfate_umol_per_kg: acid(set.sulfate, set.ks),
            hydrogen_fluoride_umol_per_kg: acid(set.fluoride, set.kf),
        };
        if let Some(minor) = self.equilibria.acid_base().minor {
            let [p0, _, p2, p3] = phosphate_fractions(minor.kp, h);
            parts.phosphate_umol_per_kg = minor.phosphate * (p2 + 2.0 * p3 - p0) * 1e6;
            parts.silicate_umol_per_kg = base(minor.silicate, minor.ksi);
            parts.ammonia_umol_per_kg = base(minor.ammonia, minor.knh4);
            parts.sulfide_umol_per_kg = base(minor.sulfide, minor.kh2s);
        }
        parts
    }

    /// Un-ionised ammonia, NH3, of the total ammonia among the bases.
    #[must_use]
    pub fn unionised_ammonia(&self) -> Content<species::UnionisedAmmonia> {
        match self.equilibria.acid_base().minor {
            Some(minor) => Content::unchecked(base_form(minor.ammonia, minor.knh4, self.h).0),
            None => Content::ZERO,
        }
    }

    /// Revelle factor and the six buffer factors.
    #[must_use]
    pub fn buffer_factors(&self) -> BufferFactors {
        let fractions = self.fractions();
        let charge = fractions.charge();
        // ∂Alk/∂ln H at constant DIC; ∂Alk/∂DIC at constant H is `charge`.
        let slope =
            self.equilibria.acid_base().rest(self.h).slope + self.dic * fractions.charge_slope();
        // ∂ln H/∂ln DIC at constant alkalinity.
        let acidification = -charge * self.dic / slope;
        // ln CO2 = ln DIC + ln α0 with ∂ln α0/∂ln H = charge; for carbonate charge - 2.
        let revelle = 1.0 + charge * acidification;
        let saturation = 1.0 + (charge - 2.0) * acidification;
        BufferFactors {
            revelle,
            gamma_dic_mol_per_kg: self.dic / revelle,
            beta_dic_mol_per_kg: -slope / charge,
            omega_dic_mol_per_kg: self.dic / saturation,
            gamma_alkalinity_mol_per_kg: slope / charge,
            beta_alkalinity_mol_per_kg: slope,
            omega_alkalinity_mol_per_kg: slope / (charge - 2.0),
        }
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
