//! The register of published relations: for each its source and the range of
//! temperature and salinity over which its authors fitted it.
//!
//! A relation is used inside its range, or outside it only when the caller
//! allows extrapolation; then the result carries the relation's flag.

use crate::error::{Error, ErrorKind, Result};
use crate::quantity::{PracticalSalinity, Temperature};

/// What to do when an input lies outside a relation's published range.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
pub enum Extrapolation {
    /// Return [`ErrorKind::OutsidePublishedRange`].
    #[default]
    Refuse,
    /// Evaluate the relation outside its range and flag it in the result.
    Allow,
}

/// The range of temperature and practical salinity a relation was fitted over.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct PublishedRange {
    /// Lowest and highest temperature, °C.
    pub temperature_celsius: (f64, f64),
    /// Lowest and highest practical salinity (dimensionless).
    pub practical_salinity: (f64, f64),
}

macro_rules! relations {
    ($( $(#[$doc:meta])* $variant:ident {
        name: $name:literal, source: $source:literal, doi: $doi:expr,
        t: ($tmin:literal, $tmax:literal), s: ($smin:literal, $smax:literal) $(,)?
    } )*) => {
        /// A published empirical relation used by this crate.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        #[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
        #[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
        #[non_exhaustive]
        #[repr(u8)]
        pub enum Relation { $( $(#[$doc])* $variant, )* }

        impl Relation {
            /// Every relation, in the order of the register.
            pub const ALL: &'static [Self] = &[ $( Self::$variant, )* ];

            /// Quantity and author, for messages.
            #[must_use]
            pub const fn name(self) -> &'static str {
                match self { $( Self::$variant => $name, )* }
            }

            /// Authors, year, journal, and the equation or table.
            #[must_use]
            pub const fn source(self) -> &'static str {
                match self { $( Self::$variant => $source, )* }
            }

            /// Digital object identifier of the source, where it has one.
            #[must_use]
            pub const fn doi(self) -> Option<&'static str> {
                match self { $( Self::$variant => $doi, )* }
            }

            /// Range over which the relation was published.
            #[must_use]
            pub const fn range(self) -> PublishedRange {
                match self { $( Self::$variant => PublishedRange {
                    temperature_celsius: ($tmin, $tmax),
                    practical_salinity: ($smin, $smax),
                }, )* }
            }
        }
    };
}

relations! {
    /// CO2 solubility.
    K0Weiss1974 {
        name: "K0 (Weiss 1974)",
        source: "Weiss, R. F. (1974) Mar. Chem. 2, 203-215, eq. 12 and table I (mol kg-1 atm-1)",
        doi: Some("10.1016/0304-4203(74)90015-2"),
        t: (-1.0, 40.0), s: (0.0, 45.0)
    }
    /// First and second dissociation of carbonic acid, the default.
    K1K2Lueker2000 {
        name: "K1, K2 (Lueker et al. 2000)",
        source: "Lueker, T. J., Dickson, A. G., Keeling, C. D. (2000) Mar. Chem. 70, 105-119",
        doi: Some("10.1016/S0304-4203(00)00022-0"),
        t: (2.0, 35.0), s: (19.0, 43.0)
    }
    /// Mehrbach et al. (1973) refitted on the seawater scale.
    K1K2DicksonMillero1987 {
        name: "K1, K2 (Dickson & Millero 1987)",
        source: "Dickson, A. G., Millero, F. J. (1987) Deep-Sea Res. 34, 1733-1743, refit of Mehrbach et al. (1973)",
        doi: Some("10.1016/0198-0149(87)90021-5"),
        t: (2.0, 35.0), s: (20.0, 40.0)
    }
    /// Estuarine to oceanic waters.
    K1K2Millero2010 {
        name: "K1, K2 (Millero 2010)",
        source: "Millero, F. J. (2010) Mar. Freshwater Res. 61, 139-142",
        doi: Some("10.1071/MF09254"),
        t: (0.0, 50.0), s: (1.0, 50.0)
    }
    /// Waters, Millero and Woosley (2014), corrected Waters & Millero (2013).
    K1K2Waters2014 {
        name: "K1, K2 (Waters et al. 2014)",
        source: "Waters, J., Millero, F. J., Woosley, R. J. (2014) Mar. Chem. 165, 66-67",
        doi: Some("10.1016/j.marchem.2014.07.004"),
        t: (0.0, 50.0), s: (1.0, 50.0)
    }
    /// Constants estimated from field measurements of four parameters.
    K1K2Sulpis2020 {
        name: "K1, K2 (Sulpis et al. 2020)",
        source: "Sulpis, O., Lauvset, S. K., Hagens, M. (2020) Ocean Sci. 16, 847-862",
        doi: Some("10.5194/os-16-847-2020"),
        t: (-1.67, 31.80), s: (30.73, 37.57)
    }
    /// Dissociation of boric acid.
    KbDickson1990 {
        name: "KB (Dickson 1990)",
        source: "Dickson, A. G. (1990) Deep-Sea Res. 37, 755-766",
        doi: Some("10.1016/0198-0149(90)90004-F"),
        t: (0.0, 45.0), s: (5.0, 45.0)
    }
    /// Ion product of water.
    KwMillero1995 {
        name: "KW (Millero 1995)",
        source: "Millero, F. J. (1995) Geochim. Cosmochim. Acta 59, 661-677, eq. 63",
        doi: Some("10.1016/0016-7037(94)00354-O"),
        t: (0.0, 45.0), s: (0.0, 45.0)
    }
    /// Dissociation of bisulfate.
    KsDickson1990 {
        name: "KS (Dickson 1990)",
        source: "Dickson, A. G. (1990) J. Chem. Thermodyn. 22, 113-127",
        doi: Some("10.1016/0021-9614(90)90074-Z"),
        t: (0.0, 45.0), s: (5.0, 45.0)
    }
    /// Dissociation of bisulfate, older determination.
    KsKhoo1977 {
        name: "KS (Khoo et al. 1977)",
        source: "Khoo, K. H. et al. (1977) Anal. Chem. 49, 29-34",
        doi: Some("10.1021/ac50009a016"),
        t: (5.0, 40.0), s: (20.0, 45.0)
    }
    /// Dissociation of hydrogen fluoride, the default.
    KfPerezFraga1987 {
        name: "KF (Perez & Fraga 1987)",
        source: "Perez, F. F., Fraga, F. (1987) Mar. Chem. 21, 161-168",
        doi: Some("10.1016/0304-4203(87)90036-3"),
        t: (9.0, 33.0), s: (10.0, 40.0)
    }
    /// Dissociation of hydrogen fluoride from stability constants.
    KfDicksonRiley1979 {
        name: "KF (Dickson & Riley 1979)",
        source: "Dickson, A. G., Riley, J. P. (1979) Mar. Chem. 7, 89-99",
        doi: Some("10.1016/0304-4203(79)90001-X"),
        t: (0.0, 45.0), s: (0.0, 45.0)
    }
    /// The three dissociations of phosphoric acid.
    KpYaoMillero1995 {
        name: "KP1, KP2, KP3 (Yao & Millero 1995)",
        source: "Yao, W., Millero, F. J. (1995) Aquat. Geochem. 1, 53-88",
        doi: Some("10.1007/BF01025231"),
        t: (0.0, 45.0), s: (0.0, 45.0)
    }
    /// Dissociation of silicic acid.
    KsiYaoMillero1995 {
        name: "KSi (Yao & Millero 1995)",
        source: "Yao, W., Millero, F. J. (1995) Aquat. Geochem. 1, 53-88",
        doi: Some("10.1007/BF01025231"),
        t: (0.0, 45.0), s: (0.0, 45.0)
    }
    /// Dissociation of ammonium.
    Knh4CleggWhitfield1995 {
        name: "KNH4 (Clegg & Whitfield 1995)",
        source: "Clegg, S. L., Whitfield, M. (1995) Geochim. Cosmochim. Acta 59, 2403-2421, eq. 18",
        doi: Some("10.1016/0016-7037(95)00135-2"),
        t: (-2.0, 40.0), s: (0.0, 40.0)
    }
    /// First dissociation of hydrogen sulfide.
    Kh2sMillero1988 {
        name: "KH2S (Millero et al. 1988)",
        source: "Millero, F. J., Plese, T., Fernandez, M. (1988) Limnol. Oceanogr. 33, 269-274",
        doi: Some("10.4319/lo.1988.33.2.0269"),
        t: (5.0, 25.0), s: (5.0, 40.0)
    }
    /// Stoichiometric solubility products of aragonite and calcite.
    KspMucci1983 {
        name: "Ksp aragonite, calcite (Mucci 1983)",
        source: "Mucci, A. (1983) Am. J. Sci. 283, 780-799",
        doi: Some("10.2475/ajs.283.7.780"),
        t: (5.0, 40.0), s: (5.0, 44.0)
    }
    /// Activity coefficient of hydrogen ion that links NBS pH to the seawater scale.
    FhTakahashi1982 {
        name: "fH (Takahashi et al. 1982)",
        source: "Takahashi, T. et al. (1982) GEOSECS Pacific Expedition 3, ch. 3; fit to Culberson & Pytkowicz (1973)",
        doi: None,
        t: (0.0, 40.0), s: (20.0, 40.0)
    }
    /// One-atmosphere density of seawater.
    DensityEos80 {
        name: "density (EOS-80)",
        source: "Millero, F. J., Poisson, A. (1981) Deep-Sea Res. 28A, 625-629; Fofonoff & Millard (1983) UNESCO Tech. Pap. Mar. Sci. 44",
        doi: Some("10.1016/0198-0149(81)90122-9"),
        t: (-2.0, 40.0), s: (0.0, 42.0)
    }
    /// Practical salinity from conductivity ratio.
    SalinityPss78 {
        name: "practical salinity (PSS-78)",
        source: "Perkin, R. G., Lewis, E. L. (1980) IEEE J. Oceanic Eng. 5, 9-16; Fofonoff & Millard (1983) UNESCO Tech. Pap. Mar. Sci. 44, eqs. 1-4",
        doi: Some("10.1109/JOE.1980.1145441"),
        t: (-2.0, 35.0), s: (2.0, 42.0)
    }
    /// Vapour pressure over seawater.
    VapourPressureWeissPrice1980 {
        name: "vapour pressure (Weiss & Price 1980)",
        source: "Weiss, R. F., Price, B. A. (1980) Mar. Chem. 8, 347-359, eq. 10",
        doi: Some("10.1016/0304-4203(80)90024-9"),
        t: (0.0, 40.0), s: (0.0, 40.0)
    }
    /// Refractive index of seawater relative to air.
    RefractiveIndexMillardSeaver1990 {
        name: "refractive index (Millard & Seaver 1990)",
        source: "Millard, R. C., Seaver, G. (1990) Deep-Sea Res. 37, 1909-1926, eq. 5, table 1",
        doi: Some("10.1016/0198-0149(90)90086-B"),
        t: (0.0, 30.0), s: (0.0, 40.0)
    }
    /// Oxygen solubility (Benson & Krause coefficients).
    OxygenGarciaGordon1992 {
        name: "O2 solubility (Garcia & Gordon 1992)",
        source: "Garcia, H. E., Gordon, L. I. (1992) Limnol. Oceanogr. 37, 1307-1312, eq. 8, table 1, Benson & Krause coefficients in umol/kg; erratum (1993) 38, 656",
        doi: Some("10.4319/lo.1992.37.6.1307"),
        t: (-2.0, 40.0), s: (0.0, 42.0)
    }
    /// Nitrogen solubility.
    NitrogenHammeEmerson2004 {
        name: "N2 solubility (Hamme & Emerson 2004)",
        source: "Hamme, R. C., Emerson, S. R. (2004) Deep-Sea Res. I 51, 1517-1528, eq. 1, table 4",
        doi: Some("10.1016/j.dsr.2004.06.009"),
        t: (1.0, 30.0), s: (0.0, 36.0)
    }
    /// Argon solubility.
    ArgonHammeEmerson2004 {
        name: "Ar solubility (Hamme & Emerson 2004)",
        source: "Hamme, R. C., Emerson, S. R. (2004) Deep-Sea Res. I 51, 1517-1528, eq. 1, table 4",
        doi: Some("10.1016/j.dsr.2004.06.009"),
        t: (1.0, 30.0), s: (0.0, 36.0)
    }
    /// Schmidt numbers, fitted at salinity 35. The range of salinity is ours: a
    /// Schmidt number changes by about 0.3 % per unit of it, a transfer
    /// velocity by half of that.
    SchmidtWanninkhof2014 {
        name: "Schmidt number (Wanninkhof 2014)",
        source: "Wanninkhof, R. (2014) Limnol. Oceanogr. Methods 12, 351-362, table 1, seawater",
        doi: Some("10.4319/lom.2014.12.351"),
        t: (-2.0, 40.0), s: (28.0, 42.0)
    }
    /// Dynamic viscosity of seawater, uncertain by 1.5 %.
    ViscositySharqawy2010 {
        name: "viscosity (Sharqawy et al. 2010)",
        source: "Sharqawy, M. H., Lienhard V, J. H., Zubair, S. M. (2010) Desalin. Water Treat. 16, 354-380, eqs. 22-23",
        doi: Some("10.5004/dwt.2010.1079"),
        t: (0.0, 180.0), s: (0.0, 149.0)
    }
    /// Temperature factor 1.024 of oxygen transfer coefficients.
    ThetaAsce2006 {
        name: "temperature factor of kLa (ASCE 2-06)",
        source: "American Society of Civil Engineers (2007) ASCE/EWRI 2-06, Measurement of Oxygen Transfer in Clean Water",
        doi: Some("10.1061/9780784408483"),
        t: (10.0, 30.0), s: (0.0, 70.0)
    }
    /// pH of the tris buffer in artificial seawater, total scale.
    TrisDelVallsDickson1998 {
        name: "tris buffer (DelValls & Dickson 1998)",
        source: "DelValls, T. A., Dickson, A. G. (1998) Deep-Sea Res. I 45, 1541-1554, eq. 18; Dickson et al. (2007) PICES Spec. Publ. 3, SOP 6a",
        doi: Some("10.1016/S0967-0637(98)00019-3"),
        t: (0.0, 45.0), s: (20.0, 40.0)
    }
    /// pH of the 2-aminopyridine buffer in artificial seawater, total scale.
    AminopyridineDickson1993 {
        name: "2-aminopyridine buffer (Dickson 1993)",
        source: "Dickson, A. G. (1993) Deep-Sea Res. I 40, 107-118, after Bates & Erickson (1986) J. Solution Chem. 15, 891-901; Dickson et al. (2007) PICES Spec. Publ. 3, SOP 6a",
        doi: Some("10.1016/0967-0637(93)90055-8"),
        t: (5.0, 40.0), s: (30.0, 40.0)
    }
    /// Solubility of calcium hydroxide, the strength of limewater. Of fresh
    /// water: the tank's salinity does not enter.
    CalciumHydroxideBates1956 {
        name: "Ca(OH)2 solubility (Bates et al. 1956)",
        source: "Bates, R. G., Bower, V. E., Smith, E. R. (1956) J. Res. Natl. Bur. Stand. 56, 305-312 (saturated at 25 °C); change with temperature from handbook tables of g per 100 g of water",
        doi: Some("10.6028/jres.056.040"),
        t: (0.0, 40.0), s: (0.0, 70.0)
    }
}

impl Relation {
    /// Checks temperature and salinity against the published range.
    ///
    /// Returns `true` when the point lies outside and extrapolation is allowed.
    pub(crate) fn check(
        self,
        temperature: Temperature,
        salinity: PracticalSalinity,
        policy: Extrapolation,
    ) -> Result<bool> {
        let range = self.range();
        let inputs = [
            (
                "temperature",
                temperature.celsius(),
                range.temperature_celsius,
                "°C",
            ),
            (
                "practical salinity",
                salinity.value(),
                range.practical_salinity,
                "(practical salinity)",
            ),
        ];
        for (input, value, (min, max), unit) in inputs {
            if value >= min && value <= max {
                continue;
            }
            match policy {
                Extrapolation::Allow => return Ok(true),
                Extrapolation::Refuse => {
                    return Err(Error::from(ErrorKind::OutsidePublishedRange {
                        input,
                        value,
                        min,
                        max,
                        unit,
                        relation: self,
                    }));
                }
            }
        }
        Ok(false)
    }
}

impl core::fmt::Display for Relation {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(self.name())
    }
}

/// A set of [`Relation`]s: those a result used outside their published range.
///
/// ```
/// use halimeda::{Extrapolation, PracticalSalinity, Temperature, Water};
/// let brine = Water::new(Temperature::from_celsius(25.0)?, PracticalSalinity::new(44.0)?)
///     .with_extrapolation(Extrapolation::Allow);
/// let density = brine.density()?;
/// assert!(!brine.extrapolations().is_empty());
/// # Ok::<(), halimeda::Error>(())
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Default)]
pub struct RelationSet {
    bits: u64,
}

// One bit per relation.
const _: () = assert!(Relation::ALL.len() <= u64::BITS as usize);

impl RelationSet {
    /// The empty set.
    pub const EMPTY: Self = Self { bits: 0 };

    /// Adds a relation.
    pub const fn insert(&mut self, relation: Relation) {
        self.bits |= 1 << relation as u8;
    }

    /// This set and another.
    #[must_use]
    pub const fn union(self, other: Self) -> Self {
        Self {
            bits: self.bits | other.bits,
        }
    }

    /// Whether the relation is in the set.
    #[must_use]
    pub const fn contains(self, relation: Relation) -> bool {
        self.bits & (1 << relation as u8) != 0
    }

    /// Whether nothing is in the set.
    #[must_use]
    pub const fn is_empty(self) -> bool {
        self.bits == 0
    }

    /// The relations in the set, in the order of the register.
    pub fn iter(self) -> impl Iterator<Item = Relation> {
        Relation::ALL
            .iter()
            .copied()
            .filter(move |&r| self.contains(r))
    }

    /// Checks one relation and notes it if it is being extrapolated.
    pub(crate) fn check(
        &mut self,
        relation: Relation,
        temperature: Temperature,
        salinity: PracticalSalinity,
        policy: Extrapolation,
    ) -> Result<()> {
        if relation.check(temperature, salinity, policy)? {
            self.insert(relation);
        }
        Ok(())
    }
}

impl core::fmt::Debug for RelationSet {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.debug_set().entries(self.iter()).finish()
    }
}

#[cfg(feature = "serde")]
mod with_serde {
    use super::{Relation, RelationSet};
    use core::fmt;
    use serde::de::{SeqAccess, Visitor};
    use serde::{Deserialize, Deserializer, Serialize, Serializer};

    impl Serialize for RelationSet {
        fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
            serializer.collect_seq(self.iter())
        }
    }

    struct Relations;

    impl<'de> Visitor<'de> for Relations {
        type Value = RelationSet;

        fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
            f.write_str("a sequence of relations")
        }

        fn visit_seq<A: SeqAccess<'de>>(self, mut relations: A) -> Result<RelationSet, A::Error> {
            let mut set = RelationSet::EMPTY;
            while let Some(relation) = relations.next_element::<Relation>()? {
                set.insert(relation);
            }
            Ok(set)
        }
    }

    impl<'de> Deserialize<'de> for RelationSet {
        fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
            d.deserialize_seq(Relations)
        }
    }
}
