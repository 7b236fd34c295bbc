use super::scalar_quantity;
use crate::Result;

scalar_quantity! {
    /// Gas transfer velocity kL: volume of water brought to equilibrium per
    /// area of surface and time.
    TransferVelocity, "gas transfer velocity", "m/s", m_per_s, from_m_per_s, 0.0, 1.0
}

scalar_quantity! {
    /// Volumetric gas transfer coefficient kLa: fraction of the distance to
    /// equilibrium closed per time, at its initial speed.
    TransferRate, "volumetric gas transfer coefficient", "1/d", per_day, from_per_day, 0.0, 1e7
}

scalar_quantity! {
    /// Area of a water surface.
    Area, "area", "m²", m2, from_m2, 0.0, 1e6
}

scalar_quantity! {
    /// Flow of water.
    FlowRate, "flow", "L/h", l_per_h, from_l_per_h, 0.0, 1e9
}

impl TransferVelocity {
    /// From cm/h, the usual unit of the literature.
    ///
    /// # Errors
    /// As [`TransferVelocity::from_m_per_s`], with the value converted to m/s.
    pub const fn from_cm_per_h(cm_per_h: f64) -> Result<Self> {
        Self::from_m_per_s(cm_per_h / 360_000.0)
    }

    /// In cm/h.
    #[must_use]
    pub const fn cm_per_h(self) -> f64 {
        self.m_per_s * 360_000.0
    }
}

impl TransferRate {
    /// From 1/h.
    ///
    /// # Errors
    /// As [`TransferRate::from_per_day`], with the value converted to 1/d.
    pub const fn from_per_hour(per_hour: f64) -> Result<Self> {
        Self::from_per_day(per_hour * 24.0)
    }

    /// In 1/h.
    #[must_use]
    pub const fn per_hour(self) -> f64 {
        self.per_day / 24.0
    }
}

impl Area {
    /// No surface.
    pub const ZERO: Self = Self { m2: 0.0 };

    /// From cm².
    ///
    /// # Errors
    /// As [`Area::from_m2`], with the value converted to m².
    pub const fn from_cm2(cm2: f64) -> Result<Self> {
        Self::from_m2(cm2 * 1e-4)
    }

    /// In cm².
    #[must_use]
    pub const fn cm2(self) -> f64 {
        self.m2 * 1e4
    }
}
