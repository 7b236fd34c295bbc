use super::scalar_quantity;

scalar_quantity! {
    /// Pressure of the air over the water.
    ///
    /// Accepted from 0.4 to 1.2 atm: the highest towns to a deep mine.
    AirPressure, "air pressure", "atm", atm, from_atm, 0.4, 1.2
}

scalar_quantity! {
    /// Pressure of the water column above a point, in excess of the air's.
    ///
    /// Zero for any home tank (1 m of water is about 1 dbar); accepted to
    /// 1000 dbar for deep supply lines of public aquaria.
    WaterPressure, "water pressure", "dbar", dbar, from_dbar, 0.0, 1000.0
}

/// Millimetres of mercury in a standard atmosphere, by definition of the torr.
pub(super) const MMHG_PER_ATM: f64 = 760.0;

/// Pascals in a standard atmosphere, exact (CGPM 1954, resolution 4).
pub(super) const PASCAL_PER_ATM: f64 = 101_325.0;

impl AirPressure {
    /// One standard atmosphere.
    pub const STANDARD: Self = Self { atm: 1.0 };

    /// From hectopascals (millibar), as weather services report.
    ///
    /// # Errors
    /// As [`AirPressure::from_atm`], with the value converted to atm.
    pub const fn from_hpa(hpa: f64) -> crate::Result<Self> {
        Self::from_atm(hpa * 100.0 / PASCAL_PER_ATM)
    }

    /// The pressure in hectopascals (millibar).
    #[must_use]
    pub const fn hpa(self) -> f64 {
        self.atm * PASCAL_PER_ATM / 100.0
    }

    /// The pressure in millimetres of mercury (1 atm = 760 mmHg).
    #[must_use]
    pub const fn mmhg(self) -> f64 {
        self.atm * MMHG_PER_ATM
    }
}

impl WaterPressure {
    /// The surface.
    pub const SURFACE: Self = Self { dbar: 0.0 };

    /// The pressure in bar.
    #[must_use]
    pub const fn bar(self) -> f64 {
        self.dbar * 0.1
    }
}
