use core::marker::PhantomData;

use super::{Air, FallingFilm, Gas, GasKind, TransferBasis, check};
use crate::quantity::{Area, Content, Density, FlowRate, TransferRate, TransferVelocity, Volume};
use crate::real::exp;
use crate::relation::{Relation, RelationSet};
use crate::{Error, Flagged, Result, Water};

/// Where water and air meet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum PathKind {
    /// The surface of the tank and its sump.
    OpenSurface,
    /// A fall over a weir or down a standpipe.
    Overflow,
    /// A sheet of water on a wall or screen.
    FallingFilm,
    /// The bubbles of a foam fractionator.
    FoamFractionator,
}

/// One way by which gas passes between water and air: how fast, and what air.
///
/// Every kind of path is one number to the exchange, its clearance: the volume
/// of water brought to equilibrium with the path's air per time, kL A or kLa V.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ExchangePath {
    kind: PathKind,
    transfer: Transfer,
    through: Option<FlowRate>,
    air: Air,
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Transfer {
    Clearance {
        l_per_day: f64,
        basis: TransferBasis,
    },
    Film(FallingFilm),
}

/// Litres per day in m³/s.
const L_PER_DAY_PER_M3_PER_S: f64 = 86.4e6;

impl ExchangePath {
    /// From a transfer velocity over an area of surface.
    ///
    /// A stirred open surface has 1 to 5 cm/h (common practice, no source).
    #[must_use]
    pub const fn from_velocity(
        kind: PathKind,
        velocity: TransferVelocity,
        area: Area,
        basis: TransferBasis,
        air: Air,
    ) -> Self {
        Self {
            kind,
            transfer: Transfer::Clearance {
                l_per_day: velocity.m_per_s() * area.m2() * L_PER_DAY_PER_M3_PER_S,
                basis,
            },
            through: None,
            air,
        }
    }

    /// From a volumetric coefficient that the path gave to this volume of water,
    /// as from a re-aeration record.
    #[must_use]
    pub const fn from_rate(
        kind: PathKind,
        rate: TransferRate,
        volume: Volume,
        basis: TransferBasis,
        air: Air,
    ) -> Self {
        Self {
            kind,
            transfer: Transfer::Clearance {
                l_per_day: rate.per_day() * volume.litres(),
                basis,
            },
            through: None,
            air,
        }
    }

    /// From a falling film.
    #[must_use]
    pub const fn from_falling_film(film: FallingFilm, air: Air) -> Self {
        Self {
            kind: PathKind::FallingFilm,
            transfer: Transfer::Film(film),
            through: None,
            air,
        }
    }

    /// This path passed by this flow, once.
    ///
    /// No more water can be brought to equilibrium than passes: the clearance q
    /// becomes Q (1 − exp(−q/Q)). Not for a coefficient measured on the whole
    /// tank, which holds this already.
    #[must_use]
    pub const fn with_flow(mut self, flow: FlowRate) -> Self {
        self.through = Some(flow);
        self
    }

    /// Where water and air meet.
    #[must_use]
    pub const fn kind(&self) -> PathKind {
        self.kind
    }

    /// The air of the path.
    #[must_use]
    pub const fn air(&self) -> Air {
        self.air
    }

    /// Clearance of a gas, L/d.
    ///
    /// # Errors
    /// As [`TransferBasis::factor`] or [`FallingFilm::transfer_velocity`].
    pub fn clearance_l_per_day(&self, gas: GasKind, water: &Water) -> Result<Flagged<f64>> {
        let (unlimited, extrapolated) = match &self.transfer {
            Transfer::Clearance { l_per_day, basis } => {
                let factor = basis.factor(gas, water)?;
                (l_per_day * factor.value(), factor.extrapolated())
            }
            Transfer::Film(film) => {
                let velocity = film.transfer_velocity(gas, water)?;
                (
                    velocity.value().m_per_s() * film.area().m2() * L_PER_DAY_PER_M3_PER_S,
                    velocity.extrapolated(),
                )
            }
        };
        let clearance = match self.through.map(|flow| flow.l_per_h() * 24.0) {
            None => unlimited,
            Some(flow) if flow > 0.0 => flow * (1.0 - exp(-unlimited / flow)),
            Some(_) => 0.0,
        };
        Ok(Flagged::new(clearance, extrapolated))
    }
}

/// The exchange of one gas over all paths together.
///
/// ```
/// use halimeda::gas::{Air, ExchangePath, GasKind, PathKind, TransferBasis, exchange};
/// use halimeda::{
///     Area, Content, DryMoleFractionCo2, PracticalSalinity, Temperature, TransferRate,
///     TransferVelocity, Volume, Water, species,
/// };
/// let temperature = Temperature::from_celsius(25.0)?;
/// let water = Water::new(temperature, PracticalSalinity::new(35.0)?);
/// let basis = TransferBasis::new(GasKind::Oxygen, temperature);
/// let room = Air::new(DryMoleFractionCo2::from_ppm(900.0)?);
/// let outside = Air::new(DryMoleFractionCo2::from_ppm(425.0)?);
/// let volume = Volume::from_litres(300.0)?;
/// let paths = [
///     ExchangePath::from_velocity(
///         PathKind::OpenSurface,
///         TransferVelocity::from_cm_per_h(3.0)?,
///         Area::from_m2(0.6)?,
///         basis,
///         room,
///     ),
///     ExchangePath::from_rate(
///         PathKind::FoamFractionator,
///         TransferRate::from_per_hour(0.5)?,
///         volume,
///         basis,
///         outside,
///     ),
/// ];
/// let oxygen = exchange::<species::Oxygen>(&paths, &water)?.value();
/// assert!((oxygen.rate(volume)?.per_hour() - 0.56).abs() < 1e-9);
/// let night = Content::from_umol_per_kg(170.0)?;
/// assert!((oxygen.flux(night).mmol_per_day() - 151.8).abs() < 0.1);
/// # Ok::<(), halimeda::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Exchange<G: Gas> {
    clearance_l_per_day: f64,
    equilibrium: Content<G>,
    density: Density,
}

/// The exchange of one gas over these paths.
///
/// # Errors
/// No path, or none that transfers anything; the water is outside the relations
/// of the gas's solubility or transfer, or [`Relation::DensityEos80`], and
/// extrapolation is not allowed.
pub fn exchange<G: Gas>(paths: &[ExchangePath], water: &Water) -> Result<Flagged<Exchange<G>>> {
    if paths.is_empty() {
        return Err(Error::too_few("exchange paths", 0, 1));
    }
    let mut extrapolated: RelationSet = check(water, &[Relation::DensityEos80])?;
    let mut clearance_sum = 0.0;
    let mut inflow = 0.0;
    for path in paths {
        let clearance = path.clearance_l_per_day(G::KIND, water)?;
        let equilibrium = G::under(&path.air, water)?;
        clearance_sum += clearance.value();
        inflow += clearance.value() * equilibrium.value().mol_per_kg();
        extrapolated = extrapolated
            .union(clearance.extrapolated())
            .union(equilibrium.extrapolated());
    }
    if clearance_sum <= 0.0 {
        return Err(Error::uninformative(
            "exchange paths",
            "none of them transfers gas, so the water tends to no equilibrium",
        ));
    }
    let exchange = Exchange {
        clearance_l_per_day: clearance_sum,
        equilibrium: Content::from_mol_per_kg(inflow / clearance_sum)?,
        density: water.density()?,
    };
    Ok(Flagged::new(exchange, extrapolated))
}

impl<G: Gas> Exchange<G> {
    /// The volumetric coefficient kLa in this volume of water.
    ///
    /// # Errors
    /// It exceeds [`TransferRate::MAX`], as in no water at all.
    pub fn rate(&self, volume: Volume) -> Result<TransferRate> {
        TransferRate::from_per_day(self.clearance_l_per_day / volume.litres())
    }

    /// The content that the paths together tend to.
    #[must_use]
    pub const fn equilibrium(&self) -> Content<G> {
        self.equilibrium
    }

    /// Flux into water of this content: clearance times the distance to
    /// equilibrium.
    ///
    /// For CO2 the content is that of dissolved CO2, not of inorganic carbon.
    /// In quiet water the reaction of CO2 with water speeds its exchange beyond
    /// this (Wanninkhof & Knox 1996, Limnol. Oceanogr. 41, 689-697).
    #[must_use]
    pub fn flux(&self, content: Content<G>) -> GasFlux<G> {
        let distance = self.equilibrium.mol_per_kg() - content.mol_per_kg();
        GasFlux {
            mol_per_day: self.clearance_l_per_day * self.density.kg_per_l() * distance,
            gas: PhantomData,
        }
    }
}

/// Amount of a gas passing from air to water per time; negative when it leaves.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct GasFlux<G: Gas> {
    mol_per_day: f64,
    gas: PhantomData<G>,
}

impl<G: Gas> GasFlux<G> {
    /// In mmol/d.
    #[must_use]
    pub const fn mmol_per_day(self) -> f64 {
        self.mol_per_day * 1e3
    }

    /// In µmol/s.
    #[must_use]
    pub const fn umol_per_s(self) -> f64 {
        self.mol_per_day * 1e6 / 86_400.0
    }
}
