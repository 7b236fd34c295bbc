use super::constant_set::{ConstantSet, MinorSet};
use super::solve::{Canonical, Root, Roots, solve};
use super::speciation::AcidBase;
use super::{Bases, CarbonateState, EquilibriumOptions, Known, Solutions};
use crate::error::{Error, ErrorKind, Result};
use crate::gas::co2_partial_pressure;
use crate::quantity::{Alkalinity, AnyPh, DryMoleFractionCo2, Ph, PhScale, Scale};
use crate::real::{Dual, exp10, log10};
use crate::relation::{Relation, RelationSet};
use crate::water::Water;

/// Every equilibrium constant of one water, computed once and reused.
///
/// ```
/// use halimeda::carbonate::EquilibriumOptions;
/// use halimeda::{Alkalinity, NbsScale, Ph, PracticalSalinity, Temperature, Water};
///
/// let water = Water::new(Temperature::from_celsius(25.5)?, PracticalSalinity::new(35.0)?);
/// let equilibria = water.equilibria(&EquilibriumOptions::default())?;
/// let state = equilibria.solve(
///     Alkalinity::from_dkh(8.0, water.density()?)?,
///     Ph::<NbsScale>::new(8.2)?,
/// )?;
/// assert!(state.aragonite_saturation().value() > 2.5);
/// # Ok::<(), halimeda::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Equilibria {
    pub(super) set: ConstantSet<f64>,
    minor: Option<MinorSet<f64>>,
    water: Water,
    options: EquilibriumOptions,
    bases: Bases,
    extrapolations: RelationSet,
}

impl Water {
    /// The equilibrium constants of this water, without minor bases (add them
    /// with [`Equilibria::with_bases`]).
    ///
    /// # Errors
    /// Temperature or salinity outside the published range of a chosen
    /// relation, and extrapolation not allowed.
    pub fn equilibria(&self, options: &EquilibriumOptions) -> Result<Equilibria> {
        let mut extrapolations = RelationSet::EMPTY;
        // Checked again, and refused if need be, by the first use of the NBS scale.
        if let Ok(true) = self.check(Relation::FhTakahashi1982) {
            extrapolations.insert(Relation::FhTakahashi1982);
        }
        for relation in options.relations() {
            extrapolations.check(
                relation,
                self.temperature(),
                self.salinity(),
                self.extrapolation(),
            )?;
        }
        Ok(Equilibria {
            set: ConstantSet::evaluate(
                self,
                options,
                self.temperature().celsius(),
                self.salinity().value(),
            ),
            minor: None,
            water: *self,
            options: *options,
            bases: Bases::NONE,
            extrapolations,
        })
    }
}

impl EquilibriumOptions {
    /// The relations that must cover the water whatever is dissolved in it.
    /// Those of minor bases, minerals and the NBS scale are checked where used.
    pub(crate) fn relations(&self) -> [Relation; 7] {
        use super::{Bisulfate, CarbonicAcid, HydrogenFluoride};
        [
            Relation::K0Weiss1974,
            match self.carbonic_acid {
                CarbonicAcid::Lueker2000 => Relation::K1K2Lueker2000,
                CarbonicAcid::DicksonMillero1987 => Relation::K1K2DicksonMillero1987,
                CarbonicAcid::Millero2010 => Relation::K1K2Millero2010,
                CarbonicAcid::Waters2014 => Relation::K1K2Waters2014,
                CarbonicAcid::Sulpis2020 => Relation::K1K2Sulpis2020,
            },
            Relation::KbDickson1990,
            Relation::KwMillero1995,
            match self.bisulfate {
                Bisulfate::Dickson1990 => Relation::KsDickson1990,
                Bisulfate::Khoo1977 => Relation::KsKhoo1977,
            },
            match self.hydrogen_fluoride {
                HydrogenFluoride::PerezFraga1987 => Relation::KfPerezFraga1987,
                HydrogenFluoride::DicksonRiley1979 => Relation::KfDicksonRiley1979,
            },
            Relation::KspMucci1983,
        ]
    }
}

impl Equilibria {
    /// The water these constants belong to.
    #[must_use]
    pub const fn water(&self) -> &Water {
        &self.water
    }

    /// The choices among published constants.
    #[must_use]
    pub const fn options(&self) -> &EquilibriumOptions {
        &self.options
    }

    /// The minor bases.
    #[must_use]
    pub const fn bases(&self) -> &Bases {
        &self.bases
    }

    /// Relations used outside their published range. That of the NBS scale is
    /// among them whether or not a pH on it is asked for.
    #[must_use]
    pub const fn extrapolations(&self) -> RelationSet {
        self.extrapolations
    }

    /// These constants with minor bases in the water.
    ///
    /// # Errors
    /// The water lies outside the published range of a base's constants and
    /// extrapolation is not allowed.
    pub fn with_bases(mut self, bases: Bases) -> Result<Self> {
        for (content, relation) in bases.mol_per_kg().into_iter().zip(Bases::RELATIONS) {
            if content > 0.0 && self.water.check(relation)? {
                self.extrapolations.insert(relation);
            }
        }
        self.bases = bases;
        self.minor = None;
        if bases != Bases::NONE {
            self.minor = Some(self.minor_or_evaluate());
        }
        Ok(self)
    }

    /// Solves for the one state that two known quantities determine.
    ///
    /// # Errors
    /// - [`ErrorKind::Underdetermined`]: both are of one class (two of pCO2,
    ///   fCO2, dissolved CO2; carbonate with a saturation state; two pH).
    /// - [`ErrorKind::Contradictory`]: no state satisfies both.
    /// - [`ErrorKind::Ambiguous`]: two states do; see [`Equilibria::solve_all`].
    /// - A pH on the NBS scale outside the range of its relation.
    ///
    /// ```
    /// # use halimeda::{carbonate::EquilibriumOptions, *};
    /// # let water = Water::new(Temperature::from_celsius(25.0)?, PracticalSalinity::new(35.0)?);
    /// # let equilibria = water.equilibria(&EquilibriumOptions::default())?;
    /// // Two forms of the same dissolved CO2 leave the state open.
    /// let refused = equilibria
    ///     .solve(PartialPressureCo2::from_uatm(400.0)?, FugacityCo2::from_uatm(398.7)?)
    ///     .unwrap_err();
    /// assert!(refused.is_ambiguous());
    /// // More carbonate than the alkalinity has charge for.
    /// let refused = equilibria
    ///     .solve(Alkalinity::from_umol_per_kg(400.0)?,
    ///            Content::<species::Carbonate>::from_umol_per_kg(300.0)?)
    ///     .unwrap_err();
    /// assert!(refused.is_contradictory());
    /// # Ok::<(), halimeda::Error>(())
    /// ```
    #[inline]
    pub fn solve(
        &self,
        first: impl Into<Known>,
        second: impl Into<Known>,
    ) -> Result<CarbonateState> {
        let (first, second) = (first.into(), second.into());
        match self.roots(first, second)? {
            Roots::One(root) => Ok(CarbonateState::new(self, root, [first, second])),
            other => Err(not_one(first, second, other)),
        }
    }

    /// Solves for every state that two known quantities allow: none, one or two.
    ///
    /// # Errors
    /// - [`ErrorKind::Underdetermined`]: both are of one class.
    /// - A pH on the NBS scale outside the range of its relation.
    pub fn solve_all(
        &self,
        first: impl Into<Known>,
        second: impl Into<Known>,
    ) -> Result<Solutions> {
        let (first, second) = (first.into(), second.into());
        let state = |root: Root| CarbonateState::new(self, root, [first, second]);
        match self.roots(first, second)? {
            Roots::None(reason) => Ok(Solutions::None { reason }),
            Roots::One(root) => Ok(Solutions::One(state(root))),
            Roots::Two(acid, basic) => Ok(Solutions::Two {
                lower_ph: state(acid),
                higher_ph: state(basic),
            }),
            other @ Roots::SameClass(_) => Err(not_one(first, second, other)),
        }
    }

    /// The state that water of this alkalinity tends to under air of a given CO2:
    /// the pH a tank would settle at if nothing in it made or took up CO2.
    ///
    /// # Errors
    /// As [`Equilibria::solve`], or the water lies outside the range of the
    /// vapour pressure relation and extrapolation is not allowed.
    ///
    /// ```
    /// # use halimeda::{carbonate::EquilibriumOptions, *};
    /// # let water = Water::new(Temperature::from_celsius(25.0)?, PracticalSalinity::new(35.0)?);
    /// let equilibria = water.equilibria(&EquilibriumOptions::default())?;
    /// let alkalinity = Alkalinity::from_dkh(8.0, water.density()?)?;
    /// let outdoors = equilibria.under_air(alkalinity, DryMoleFractionCo2::from_ppm(425.0)?)?;
    /// let bedroom = equilibria.under_air(alkalinity, DryMoleFractionCo2::from_ppm(1500.0)?)?;
    /// assert!(outdoors.ph_total().value() - bedroom.ph_total().value() > 0.4);
    /// # Ok::<(), halimeda::Error>(())
    /// ```
    pub fn under_air(
        &self,
        alkalinity: Alkalinity,
        co2: DryMoleFractionCo2,
    ) -> Result<CarbonateState> {
        let pressure = co2_partial_pressure(co2, &self.water)?;
        let mut noted = *self;
        noted.extrapolations = noted.extrapolations.union(pressure.extrapolated());
        noted.solve(alkalinity, pressure.value())
    }

    /// The roots of a pair that lie within what a state can express.
    #[inline]
    fn roots(&self, first: Known, second: Known) -> Result<Roots> {
        const NOT_PHYSICAL: Roots =
            Roots::None("they meet only outside pH 0 to 14 or above 10 mol/kg of carbon");
        let is_physical = |r: Root| r.h >= 1e-14 && r.h <= 1.0 && r.dic <= 10.0;
        let roots = solve(
            self.acid_base(),
            self.canonical(first)?,
            self.canonical(second)?,
        );
        Ok(match roots {
            Roots::One(root) if !is_physical(root) => NOT_PHYSICAL,
            Roots::Two(acid, basic) => match (is_physical(acid), is_physical(basic)) {
                (true, true) => roots,
                (true, false) => Roots::One(acid),
                (false, true) => Roots::One(basic),
                (false, false) => NOT_PHYSICAL,
            },
            _ => roots,
        })
    }

    /// Reduces a known quantity to its class.
    #[inline]
    fn canonical(&self, known: Known) -> Result<Canonical> {
        let set = &self.set;
        Ok(match known {
            Known::Alkalinity(x) => Canonical::Alkalinity(x.mol_per_kg()),
            Known::InorganicCarbon(x) => Canonical::Dic(x.mol_per_kg()),
            Known::Ph(ph) => Canonical::H(exp10(-ph.value()) * self.scale_to_total(ph.scale())?),
            Known::PartialPressure(x) => {
                Canonical::Co2(x.uatm() * 1e-6 * set.fugacity_coefficient * set.k0)
            }
            Known::Fugacity(x) => Canonical::Co2(x.uatm() * 1e-6 * set.k0),
            Known::CarbonDioxide(x) => Canonical::Co2(x.mol_per_kg()),
            Known::Bicarbonate(x) => Canonical::Bicarbonate(x.mol_per_kg()),
            Known::Carbonate(x) => Canonical::Carbonate(x.mol_per_kg()),
            Known::Aragonite(x) => {
                Canonical::Carbonate(self.carbonate_at(known, x.value(), set.ksp_aragonite)?)
            }
            Known::Calcite(x) => {
                Canonical::Carbonate(self.carbonate_at(known, x.value(), set.ksp_calcite)?)
            }
        })
    }

    /// Carbonate content at a saturation state.
    fn carbonate_at(&self, known: Known, saturation: f64, ksp: f64) -> Result<f64> {
        if self.set.calcium > 0.0 {
            return Ok(saturation * ksp / self.set.calcium);
        }
        Err(Error::contradictory(
            (known.kind().name(), saturation),
            ("calcium", 0.0),
            "without calcium the saturation state is zero whatever the carbonate",
        ))
    }

    /// [`ConstantSet::scale_to_total`], with the range of fH checked.
    #[inline]
    pub(super) fn scale_to_total(&self, scale: PhScale) -> Result<f64> {
        if scale == PhScale::Nbs {
            self.water.check(Relation::FhTakahashi1982)?;
        }
        Ok(self.set.scale_to_total(scale))
    }

    /// A pH of this water on another scale.
    ///
    /// # Errors
    /// The NBS scale is involved and the water lies outside the range of its
    /// relation, or the result lies outside 0 to 14.
    ///
    /// ```
    /// # use halimeda::{carbonate::EquilibriumOptions, *};
    /// let water = Water::new(Temperature::from_celsius(25.0)?, PracticalSalinity::new(35.0)?);
    /// let equilibria = water.equilibria(&EquilibriumOptions::default())?;
    /// let probe = Ph::<NbsScale>::new(8.20)?;
    /// let total: Ph<TotalScale> = equilibria.convert_ph(probe)?;
    /// assert!((probe.value() - total.value() - 0.13).abs() < 0.02);
    /// # Ok::<(), halimeda::Error>(())
    /// ```
    pub fn convert_ph<T: Scale>(&self, ph: impl Into<AnyPh>) -> Result<Ph<T>> {
        let ph = ph.into();
        Ph::new(self.convert(ph, T::SCALE)?)
    }

    /// A pH of this water on a scale known at run time.
    ///
    /// # Errors
    /// As [`Equilibria::convert_ph`].
    pub fn convert_any_ph(&self, ph: AnyPh, scale: PhScale) -> Result<AnyPh> {
        AnyPh::new(self.convert(ph, scale)?, scale)
    }

    fn convert(&self, ph: AnyPh, scale: PhScale) -> Result<f64> {
        if ph.scale() == scale {
            return Ok(ph.value());
        }
        let ratio = self.scale_to_total(ph.scale())? / self.scale_to_total(scale)?;
        Ok(ph.value() - log10(ratio))
    }

    /// Activity coefficient fH, kg/mol: NBS hydrogen activity per hydrogen ion
    /// on the seawater scale ([`Relation::FhTakahashi1982`]).
    ///
    /// # Errors
    /// The water lies outside the range of the relation and extrapolation is
    /// not allowed.
    pub fn hydrogen_activity_coefficient(&self) -> Result<f64> {
        self.water.check(Relation::FhTakahashi1982)?;
        Ok(self.set.fh)
    }

    #[inline]
    pub(crate) const fn acid_base(&self) -> AcidBase<'_> {
        AcidBase {
            set: &self.set,
            minor: self.minor.as_ref(),
        }
    }

    /// The constants of the minor bases, evaluated now if none is in the water.
    pub(super) fn minor_or_evaluate(&self) -> MinorSet<f64> {
        let (celsius, salinity) = (
            self.water.temperature().celsius(),
            self.water.salinity().value(),
        );
        match self.minor {
            Some(minor) => minor,
            None => self.set.minor(&self.water, &self.bases, celsius, salinity),
        }
    }

    #[cfg(test)]
    pub(super) const fn replace_minor(&mut self, minor: MinorSet<f64>) {
        self.minor = Some(minor);
    }

    /// Constants and totals with their derivatives to temperature (first) and
    /// salinity (second).
    pub(super) fn differentiated(&self) -> (ConstantSet<Dual<2>>, MinorSet<Dual<2>>) {
        let celsius = Dual::variable(self.water.temperature().celsius(), 0);
        let salinity = Dual::variable(self.water.salinity().value(), 1);
        let set = ConstantSet::evaluate(&self.water, &self.options, celsius, salinity);
        let minor = set.minor(&self.water, &self.bases, celsius, salinity);
        (set, minor)
    }
}

/// Why a pair does not have exactly one state.
#[cold]
fn not_one(first: Known, second: Known, roots: Roots) -> Error {
    let (a, b) = (first.kind().name(), second.kind().name());
    match roots {
        Roots::SameClass(reason) => Error::from(ErrorKind::Underdetermined {
            first: a,
            second: b,
            reason,
        }),
        Roots::None(reason) => {
            Error::contradictory((a, first.value()), (b, second.value()), reason)
        }
        // A single root is not an error; named here it would read as its own double.
        Roots::Two(acid, Root { h, .. }) | Roots::One(acid @ Root { h, .. }) => {
            Error::from(ErrorKind::Ambiguous {
                first: a,
                second: b,
                lower_ph_total: -log10(acid.h),
                higher_ph_total: -log10(h),
            })
        }
    }
}

macro_rules! constant_accessors {
    ($($(#[$doc:meta])* $name:ident = $field:ident;)*) => {
        impl Equilibria {
            $($(#[$doc])* #[must_use] pub const fn $name(&self) -> f64 { self.set.$field })*
        }
    };
}

constant_accessors! {
    /// CO2 solubility K0, mol kg⁻¹ atm⁻¹.
    k0_mol_per_kg_atm = k0;
    /// First dissociation constant of carbonic acid, mol/kg, total scale.
    k1_total = k1;
    /// Second dissociation constant of carbonic acid, mol/kg, total scale.
    k2_total = k2;
    /// Dissociation constant of boric acid, mol/kg, total scale.
    kb_total = kb;
    /// Ion product of water, mol²/kg², total scale.
    kw_total = kw;
    /// Dissociation constant of bisulfate, mol/kg, free scale.
    ks_free = ks;
    /// Dissociation constant of hydrogen fluoride, mol/kg, free scale.
    kf_free = kf;
    /// Solubility product of aragonite, mol²/kg².
    ksp_aragonite = ksp_aragonite;
    /// Solubility product of calcite, mol²/kg².
    ksp_calcite = ksp_calcite;
    /// Ratio of fugacity to partial pressure of CO2.
    co2_fugacity_coefficient = fugacity_coefficient;
    /// Total boron, mol/kg.
    boron_mol_per_kg = boron;
    /// Total sulfate, mol/kg.
    sulfate_mol_per_kg = sulfate;
    /// Total fluoride, mol/kg.
    fluoride_mol_per_kg = fluoride;
    /// Calcium, mol/kg.
    calcium_mol_per_kg = calcium;
}

macro_rules! minor_accessors {
    ($($(#[$doc:meta])* $name:ident = $field:ident: $relation:ident -> $type:ty;)*) => {
        impl Equilibria {
            $(
                $(#[$doc])*
                ///
                /// # Errors
                #[doc = concat!(
                    "The water lies outside the range of [`Relation::", stringify!($relation),
                    "`] and extrapolation is not allowed."
                )]
                pub fn $name(&self) -> Result<$type> {
                    self.water.check(Relation::$relation)?;
                    Ok(self.minor_or_evaluate().$field)
                }
            )*
        }
    };
}

minor_accessors! {
    /// The three dissociation constants of phosphoric acid, mol/kg, total scale.
    kp_total = kp: KpYaoMillero1995 -> [f64; 3];
    /// Dissociation constant of silicic acid, mol/kg, total scale.
    ksi_total = ksi: KsiYaoMillero1995 -> f64;
    /// Dissociation constant of ammonium, mol/kg, total scale.
    knh4_total = knh4: Knh4CleggWhitfield1995 -> f64;
    /// First dissociation constant of hydrogen sulfide, mol/kg, total scale.
    kh2s_total = kh2s: Kh2sMillero1988 -> f64;
}
