use core::f64::consts::PI;

use super::schmidt::kinematic_viscosity_m2_per_s;
use super::{GasKind, diffusivity_m2_per_s};
use crate::error::within;
use crate::quantity::{Area, FlowRate, TransferVelocity};
use crate::real::{powf, sqrt};
use crate::water::atmosphere::GRAVITY;
use crate::{Flagged, Result, Water};

/// A sheet of water running down a wall or a screen in contact with the air.
///
/// The transfer velocity is that of penetration theory, k = 2 √(D/(π t)), for
/// the time t that the surface takes from top to bottom (Higbie 1935, Trans.
/// AIChE 31, 365-389). Ripples raise it, up to severalfold; a stiff, slowed
/// surface lowers it. So take it as a first guess and prefer a measured
/// coefficient ([`Reaeration`](super::Reaeration)).
///
/// ```
/// use halimeda::gas::{FallingFilm, GasKind};
/// use halimeda::{PracticalSalinity, Temperature, Water};
/// let water = Water::new(Temperature::from_celsius(25.0)?, PracticalSalinity::new(35.0)?);
/// let film = FallingFilm::new(0.30, 0.50, 0.30)?; // one second of contact
/// let k = film.transfer_velocity(GasKind::Oxygen, &water)?.value();
/// assert!((k.cm_per_h() - 18.6).abs() < 0.1);
/// # Ok::<(), halimeda::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FallingFilm {
    length_m: f64,
    width_m: f64,
    surface_m_per_s: f64,
}

impl FallingFilm {
    /// From the length of fall, m, the wetted width, m (both faces of a screen
    /// count), and the velocity of the surface, m/s, measured with a floating
    /// speck or from a [`FilmFlow`].
    ///
    /// # Errors
    /// A value is not finite, or outside 0.001 to 100 m, or 0.001 to 10 m/s.
    pub fn new(length_m: f64, width_m: f64, surface_m_per_s: f64) -> Result<Self> {
        Ok(Self {
            length_m: within("film length", length_m, 1e-3, 100.0, "m")?,
            width_m: within("film width", width_m, 1e-3, 100.0, "m")?,
            surface_m_per_s: within("film surface velocity", surface_m_per_s, 1e-3, 10.0, "m/s")?,
        })
    }

    /// Time the surface is in contact with the air, s.
    #[must_use]
    pub const fn contact_time_s(&self) -> f64 {
        self.length_m / self.surface_m_per_s
    }

    /// Area of the film.
    #[must_use]
    pub fn area(&self) -> Area {
        // At most 100 m by 100 m, so in range by construction.
        Area::from_m2(self.length_m * self.width_m).unwrap_or(Area::ZERO)
    }

    /// Transfer velocity of a gas.
    ///
    /// # Errors
    /// As [`diffusivity_m2_per_s`].
    pub fn transfer_velocity(
        &self,
        gas: GasKind,
        water: &Water,
    ) -> Result<Flagged<TransferVelocity>> {
        let diffusivity = diffusivity_m2_per_s(gas, water)?;
        let k = 2.0 * sqrt(diffusivity.value() / (PI * self.contact_time_s()));
        Ok(Flagged::new(
            TransferVelocity::from_m_per_s(k)?,
            diffusivity.extrapolated(),
        ))
    }
}

/// Steady laminar flow of a film down a vertical wall (Nusselt 1916).
///
/// Thickness δ = (3 ν Γ/g)^(1/3), mean velocity Γ/δ, surface velocity 3/2 of
/// it, with Γ the flow per wetted width. The film Reynolds number is 4 Γ/ν: up
/// to about 20 the surface is smooth, beyond it ripples, above about 1500 the
/// film is turbulent and these relations do not hold (Bird, Stewart & Lightfoot
/// 2002, Transport Phenomena, 2nd ed., section 2.2).
///
/// ```
/// use halimeda::gas::FilmFlow;
/// use halimeda::{FlowRate, PracticalSalinity, Temperature, Water};
/// let water = Water::new(Temperature::from_celsius(25.0)?, PracticalSalinity::new(35.0)?);
/// // 250 L/h over half a metre of wetted width
/// let flow = FilmFlow::new(FlowRate::from_l_per_h(250.0)?, 0.5, &water)?.value();
/// assert!((flow.thickness_m() - 0.34e-3).abs() < 0.01e-3);
/// assert!((flow.surface_m_per_s() - 0.61).abs() < 0.01);
/// assert!(flow.reynolds() < 600.0);
/// // A sheet of 2000 L/h is turbulent: measure its velocity instead.
/// assert!(FilmFlow::new(FlowRate::from_l_per_h(2000.0)?, 0.5, &water).is_err());
/// # Ok::<(), halimeda::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FilmFlow {
    thickness_m: f64,
    surface_m_per_s: f64,
    reynolds: f64,
}

/// Highest Reynolds number of a laminar film (Bird, Stewart & Lightfoot 2002,
/// section 2.2).
const MAX_REYNOLDS: f64 = 1500.0;

impl FilmFlow {
    /// Of this flow over this wetted width, m (both faces of a screen count).
    ///
    /// # Errors
    /// The film Reynolds number exceeds 1500, or there is no flow; the width is
    /// not finite or outside 0.001 to 100 m; temperature or salinity are outside
    /// [`Relation::ViscositySharqawy2010`](crate::Relation::ViscositySharqawy2010)
    /// or [`Relation::DensityEos80`](crate::Relation::DensityEos80) and
    /// extrapolation is not allowed.
    pub fn new(flow: FlowRate, width_m: f64, water: &Water) -> Result<Flagged<Self>> {
        let width = within("film width", width_m, 1e-3, 100.0, "m")?;
        let l_per_h = within("flow", flow.l_per_h(), 1e-3, FlowRate::MAX, "L/h")?;
        let viscosity = kinematic_viscosity_m2_per_s(water)?;
        let nu = viscosity.value();
        let per_width = l_per_h / 3.6e6 / width;
        let reynolds = within(
            "film Reynolds number",
            4.0 * per_width / nu,
            0.0,
            MAX_REYNOLDS,
            "(dimensionless)",
        )?;
        let thickness_m = powf(3.0 * nu * per_width / GRAVITY, 1.0 / 3.0);
        Ok(Flagged::new(
            Self {
                thickness_m,
                surface_m_per_s: 1.5 * per_width / thickness_m,
                reynolds,
            },
            viscosity.extrapolated(),
        ))
    }

    /// Thickness of the film, m.
    #[must_use]
    pub const fn thickness_m(&self) -> f64 {
        self.thickness_m
    }

    /// Velocity of its surface, m/s.
    #[must_use]
    pub const fn surface_m_per_s(&self) -> f64 {
        self.surface_m_per_s
    }

    /// Film Reynolds number, dimensionless.
    #[must_use]
    pub const fn reynolds(&self) -> f64 {
        self.reynolds
    }
}
