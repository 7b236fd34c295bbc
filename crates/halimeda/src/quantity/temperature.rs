use super::scalar_quantity;

scalar_quantity! {
    /// Temperature on the International Temperature Scale of 1990.
    ///
    /// Accepted from −5 to 60 °C; each relation has its own, narrower range.
    ///
    /// ```
    /// use halimeda::Temperature;
    /// let tank = Temperature::from_fahrenheit(77.0)?;
    /// assert!((tank.celsius() - 25.0).abs() < 1e-12);
    /// # Ok::<(), halimeda::Error>(())
    /// ```
    Temperature, "temperature", "°C", celsius, from_celsius, -5.0, 60.0
}

/// 0 °C in kelvin, exact by definition of the Celsius scale.
pub(crate) const ZERO_CELSIUS_KELVIN: f64 = 273.15;

impl Temperature {
    /// From degrees Fahrenheit.
    ///
    /// # Errors
    /// As [`Temperature::from_celsius`], with the value converted to °C.
    pub const fn from_fahrenheit(fahrenheit: f64) -> crate::Result<Self> {
        Self::from_celsius((fahrenheit - 32.0) / 1.8)
    }

    /// From kelvin.
    ///
    /// # Errors
    /// As [`Temperature::from_celsius`], with the value converted to °C.
    pub const fn from_kelvin(kelvin: f64) -> crate::Result<Self> {
        Self::from_celsius(kelvin - ZERO_CELSIUS_KELVIN)
    }

    /// The temperature in kelvin.
    #[must_use]
    pub const fn kelvin(self) -> f64 {
        self.celsius + ZERO_CELSIUS_KELVIN
    }

    /// The temperature in degrees Fahrenheit.
    #[must_use]
    pub const fn fahrenheit(self) -> f64 {
        self.celsius * 1.8 + 32.0
    }

    /// The temperature on the IPTS-68 scale, °C, on which EOS-80 and PSS-78 are
    /// written: t68 = 1.00024 t90 (Saunders 1990, WOCE Newsletter 10, p. 10).
    #[must_use]
    pub const fn celsius_ipts68(self) -> f64 {
        self.celsius * 1.00024
    }
}
