use super::{BatchInput, Column, Output};
use crate::carbonate::known::KnownClass;
use crate::carbonate::{Bases, CarbonicAcid, KnownKind};
use crate::quantity::{PhScale, PracticalSalinity, Temperature};
use crate::relation::{Extrapolation, Relation};

/// A pair of classes that many rows of are solved together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Pair {
    AlkalinityCarbon,
    AlkalinityHydrogen,
    AlkalinityCo2,
    AlkalinityBicarbonate,
    CarbonHydrogen,
    CarbonCo2,
    CarbonCarbonate,
    HydrogenCo2,
    HydrogenBicarbonate,
    HydrogenCarbonate,
    Co2Bicarbonate,
    Co2Carbonate,
    BicarbonateCarbonate,
}

impl Pair {
    /// The pair of two classes and whether its members come in the other
    /// order. None for a class with itself, and none for the two pairs that
    /// mostly have two states, of which a row is refused anyway.
    fn of(first: KnownClass, second: KnownClass) -> Option<(Self, bool)> {
        let in_order = |first, second| {
            use KnownClass::{Alkalinity, Bicarbonate, Carbonate, Hydrogen};
            use KnownClass::{CarbonDioxide as Co2, InorganicCarbon as Carbon};
            Some(match (first, second) {
                (Alkalinity, Carbon) => Self::AlkalinityCarbon,
                (Alkalinity, Hydrogen) => Self::AlkalinityHydrogen,
                (Alkalinity, Co2) => Self::AlkalinityCo2,
                (Alkalinity, Bicarbonate) => Self::AlkalinityBicarbonate,
                (Carbon, Hydrogen) => Self::CarbonHydrogen,
                (Carbon, Co2) => Self::CarbonCo2,
                (Carbon, Carbonate) => Self::CarbonCarbonate,
                (Hydrogen, Co2) => Self::HydrogenCo2,
                (Hydrogen, Bicarbonate) => Self::HydrogenBicarbonate,
                (Hydrogen, Carbonate) => Self::HydrogenCarbonate,
                (Co2, Bicarbonate) => Self::Co2Bicarbonate,
                (Co2, Carbonate) => Self::Co2Carbonate,
                (Bicarbonate, Carbonate) => Self::BicarbonateCarbonate,
                _ => return None,
            })
        };
        let as_given = in_order(first, second).map(|pair| (pair, false));
        as_given.or_else(|| in_order(second, first).map(|pair| (pair, true)))
    }

    const fn holds_alkalinity(self) -> bool {
        matches!(
            self,
            Self::AlkalinityCarbon
                | Self::AlkalinityHydrogen
                | Self::AlkalinityCo2
                | Self::AlkalinityBicarbonate
        )
    }
}

/// Which constants the pair and the outputs ask for, besides K1 and K2.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Needs {
    /// KS, KF and the factors between pH scales.
    pub(super) scales: bool,
    /// KB and KW.
    pub(super) alkalinity: bool,
    pub(super) k0: bool,
    pub(super) fugacity: bool,
    pub(super) aragonite: bool,
    pub(super) calcite: bool,
    pub(super) fh: bool,
    pub(super) vapour: bool,
}

/// Temperatures and salinities, from and to.
#[derive(Debug, Clone, Copy)]
pub(super) struct Limits {
    pub(super) celsius: (f64, f64),
    pub(super) salinity: (f64, f64),
}

impl Limits {
    /// What water can be asked about at all.
    pub(super) const ACCEPTED: Self = Self {
        celsius: (Temperature::MIN, Temperature::MAX),
        salinity: (PracticalSalinity::MIN, PracticalSalinity::MAX),
    };

    pub(super) fn of(relation: Relation) -> Self {
        let range = relation.range();
        Self {
            celsius: range.temperature_celsius,
            salinity: range.practical_salinity,
        }
    }

    fn and(self, other: Self) -> Self {
        let both = |a: (f64, f64), b: (f64, f64)| (a.0.max(b.0), a.1.min(b.1));
        Self {
            celsius: both(self.celsius, other.celsius),
            salinity: both(self.salinity, other.salinity),
        }
    }
}

/// What a batch asks for, decided once for all its rows.
#[derive(Debug, Clone, Copy)]
pub(super) struct Plan<'a> {
    pub(super) pair: Pair,
    /// The knowns in the order of the pair.
    pub(super) knowns: [(KnownKind, Column<'a>); 2],
    pub(super) needs: Needs,
    /// Where no relation is extrapolated but perhaps one of the minor bases.
    pub(super) published: Limits,
    /// The same for each minor base that may be in the water.
    pub(super) bases: [Option<(Column<'a>, Limits)>; 4],
    pub(super) refuses_extrapolation: bool,
}

impl<'a> Plan<'a> {
    /// None if rows of this pair are better solved one by one.
    pub(super) fn new(
        input: &BatchInput<'a>,
        outputs: impl Iterator<Item = Output>,
    ) -> Option<Self> {
        let mut knowns = input.knowns;
        let [(first, _), (second, _)] = knowns;
        let (pair, swapped) = Pair::of(first.class(), second.class())?;
        if swapped {
            knowns.reverse();
        }
        let mut published = Limits::ACCEPTED;
        for relation in input.options.relations() {
            published = published.and(Limits::of(relation));
        }
        let mut needs = Needs {
            alkalinity: pair.holds_alkalinity(),
            scales: !matches!(
                input.options.carbonic_acid,
                CarbonicAcid::Lueker2000 | CarbonicAcid::Sulpis2020
            ),
            ..Needs::default()
        };
        for (kind, _) in knowns {
            needs.of_known(kind);
        }
        for output in outputs {
            needs.of_output(output);
        }
        if needs.fh {
            published = published.and(Limits::of(Relation::FhTakahashi1982));
        }
        if needs.vapour {
            published = published.and(Limits::of(Relation::VapourPressureWeissPrice1980));
        }
        let mut bases = [None; 4];
        let columns = input.bases.columns().into_iter().zip(Bases::RELATIONS);
        for (base, (column, relation)) in bases.iter_mut().zip(columns) {
            *base = column
                .filter(|column| *column != Column::Shared(0.0))
                .map(|column| (column, Limits::of(relation)));
        }
        Some(Self {
            pair,
            knowns,
            needs,
            published,
            bases,
            refuses_extrapolation: input.extrapolation == Extrapolation::Refuse,
        })
    }

    pub(super) fn holds_bases(&self) -> bool {
        self.bases.iter().any(Option::is_some)
    }
}

impl Needs {
    fn of_known(&mut self, kind: KnownKind) {
        match kind {
            KnownKind::Ph(scale) => {
                self.scales |= scale != PhScale::Total;
                self.fh |= scale == PhScale::Nbs;
            }
            KnownKind::PartialPressure => {
                self.k0 = true;
                self.fugacity = true;
            }
            KnownKind::Fugacity => self.k0 = true,
            KnownKind::Aragonite => self.aragonite = true,
            KnownKind::Calcite => self.calcite = true,
            KnownKind::Alkalinity
            | KnownKind::InorganicCarbon
            | KnownKind::CarbonDioxide
            | KnownKind::Bicarbonate
            | KnownKind::Carbonate => {}
        }
    }

    fn of_output(&mut self, output: Output) {
        match output {
            Output::PhTotal
            | Output::InorganicCarbon
            | Output::CarbonDioxide
            | Output::Bicarbonate
            | Output::Carbonate
            | Output::HydrogenTotal
            | Output::BicarbonateAlkalinity
            | Output::CarbonateAlkalinity => {}
            Output::PhFree
            | Output::PhSeawater
            | Output::HydrogenFree
            | Output::FreeHydrogenAlkalinity
            | Output::BisulfateAlkalinity
            | Output::HydrogenFluorideAlkalinity => self.scales = true,
            Output::PhNbs => {
                self.scales = true;
                self.fh = true;
            }
            Output::FugacityCo2 => self.k0 = true,
            Output::PartialPressureCo2 => {
                self.k0 = true;
                self.fugacity = true;
            }
            Output::DryMoleFractionCo2 => {
                self.k0 = true;
                self.fugacity = true;
                self.vapour = true;
            }
            Output::AragoniteSaturation => self.aragonite = true,
            Output::CalciteSaturation => self.calcite = true,
            Output::Alkalinity
            | Output::Hydroxide
            | Output::UnionisedAmmonia
            | Output::BorateAlkalinity
            | Output::HydroxideAlkalinity
            | Output::PhosphateAlkalinity
            | Output::SilicateAlkalinity
            | Output::AmmoniaAlkalinity
            | Output::SulfideAlkalinity
            | Output::Revelle
            | Output::GammaDic
            | Output::BetaDic
            | Output::OmegaDic
            | Output::GammaAlkalinity
            | Output::BetaAlkalinity
            | Output::OmegaAlkalinity => self.alkalinity = true,
        }
    }
}

/// A value that stands in for one that is not solved with the others, so that
/// no row computes with a NaN: any that the relations take.
pub(super) fn stand_in(kind: KnownKind) -> f64 {
    match kind {
        KnownKind::Alkalinity => 2300.0,
        KnownKind::InorganicCarbon => 2000.0,
        KnownKind::Ph(_) => 8.0,
        KnownKind::PartialPressure | KnownKind::Fugacity => 400.0,
        KnownKind::CarbonDioxide => 10.0,
        KnownKind::Bicarbonate => 1800.0,
        KnownKind::Carbonate => 200.0,
        KnownKind::Aragonite | KnownKind::Calcite => 3.0,
    }
}
