use super::Water;
use super::salinity_reading::{Instrument, SalinityReading};
use crate::Result;
use crate::error::{Error, ErrorKind};
use crate::quantity::{Temperature, scalar_quantity};
use crate::real::{Real, polynomial};
use crate::relation::{Extrapolation, Relation};

scalar_quantity! {
    /// Refractive index relative to air, as refractometers and handbooks give
    /// it; the index against vacuum is 1.00028 times larger.
    ///
    /// Accepted from 1.3 to 1.4.
    RefractiveIndex, "refractive index", "(relative to air)", value, new, 1.3, 1.4
}

scalar_quantity! {
    /// Wavelength of light in air.
    ///
    /// Accepted from 200 to 2000 nm; the relation has its own, narrower range.
    Wavelength, "wavelength", "nm", nanometres, from_nanometres, 200.0, 2000.0
}

impl Wavelength {
    /// The sodium D line as Millard & Seaver (1990) give it, 589.26 nm. A hand
    /// refractometer read in daylight is made to show the index there.
    pub const SODIUM_D: Self = Self { nanometres: 589.26 };
}

/// Range of wavelength of Millard & Seaver (1990), abstract, nm.
const PUBLISHED_NM: (f64, f64) = (500.0, 700.0);

/// Standard deviation of the seawater data at one atmosphere from the fit,
/// Millard & Seaver (1990), table 1 (4.7 ppm).
pub(super) const STANDARD_DEVIATION: f64 = 4.7e-6;

/// Refractive index of seawater relative to air, Millard & Seaver (1990) eq. 5
/// and table 1, all 27 terms; t in °C (the paper's scale is of 1968, a change of
/// 1e-6 in the index at most), p in dbar.
///
/// Copies differ in the exponent of the T³λ term; −1.705881e-9 is the one that
/// reproduces the paper's table 2.
pub(super) fn millard_seaver_1990<R: Real>(
    t_celsius: R,
    practical_salinity: R,
    dbar: f64,
    nanometres: f64,
) -> R {
    let (t, s, p, l) = (t_celsius, practical_salinity, dbar, nanometres * 1e-3);
    let inverse = 1.0 / (l * l);
    let pure_water = polynomial(
        t,
        [
            1.3280657 - 4.5536802e-3 * l * l
                + polynomial(inverse, [0.0, 2.5471707e-3, 7.501966e-6, 2.802632e-6]),
            -5.2883907e-6 + 1.0508621e-5 * l,
            -3.0738272e-6 + 2.1282248e-7 * l,
            3.0124687e-8 - 1.705881e-9 * l,
            -2.0883178e-10,
        ],
    );
    let salt = polynomial(
        t,
        [
            1.9029121e-4 + 2.4239607e-6 * inverse,
            -7.3960297e-7 - 3.589495e-7 * l,
            8.9818478e-9,
            1.2078804e-10,
        ],
    );
    let pressure = polynomial(
        t,
        [
            1.5868383e-6 - 1.574074e-11 * p + 1.0712063e-8 * inverse,
            -9.4834486e-9,
            1.0100326e-10 + 5.8085198e-15 * p,
        ],
    );
    let pressure_salt = polynomial(t, [-1.1177517e-9, 5.7311268e-11, -1.5460458e-12]);
    pure_water + salt * s + (pressure + pressure_salt * s) * p
}

/// Refuses a wavelength outside the published range unless extrapolation is allowed.
fn check_wavelength(wavelength: Wavelength, extrapolation: Extrapolation) -> Result<()> {
    let value = wavelength.nanometres();
    let (min, max) = PUBLISHED_NM;
    if extrapolation == Extrapolation::Allow || (value >= min && value <= max) {
        return Ok(());
    }
    Err(Error::from(ErrorKind::OutsidePublishedRange {
        input: "wavelength",
        value,
        min,
        max,
        unit: "nm",
        relation: Relation::RefractiveIndexMillardSeaver1990,
    }))
}

impl Water {
    /// Refractive index of this water relative to air at the given wavelength,
    /// at its temperature and pressure.
    ///
    /// Millard, R. C., Seaver, G. (1990) Deep-Sea Res. 37, 1909-1926, eq. 5 and
    /// table 1 (doi 10.1016/0198-0149(90)90086-B): salinity 0 to 40, 0 to 30 °C,
    /// 500 to 700 nm, 0 to 11 000 dbar. Standard deviation at one atmosphere
    /// 4.7·10⁻⁶ (0.03 in salinity).
    ///
    /// ```
    /// use halimeda::{PracticalSalinity, Temperature, Water};
    /// use halimeda::water::Wavelength;
    /// let water = Water::new(Temperature::from_celsius(20.0)?, PracticalSalinity::new(35.0)?);
    /// let index = water.refractive_index(Wavelength::SODIUM_D)?;
    /// assert!((index.value() - 1.339386).abs() < 1e-6);
    /// # Ok::<(), halimeda::Error>(())
    /// ```
    ///
    /// # Errors
    /// Temperature or salinity outside
    /// [`Relation::RefractiveIndexMillardSeaver1990`], or the wavelength outside
    /// 500 to 700 nm, and extrapolation not allowed.
    pub fn refractive_index(&self, wavelength: Wavelength) -> Result<RefractiveIndex> {
        self.check(Relation::RefractiveIndexMillardSeaver1990)?;
        check_wavelength(wavelength, self.extrapolation())?;
        RefractiveIndex::new(millard_seaver_1990(
            self.temperature().celsius(),
            self.salinity().value(),
            self.water_pressure().dbar(),
            wavelength.nanometres(),
        ))
    }
}

/// Practical salinity from a refractive index relative to air, measured at the
/// given temperature and wavelength and at one atmosphere:
/// [`Water::refractive_index`] inverted by a bracketed root search. Sensitivity
/// per unit of the index.
///
/// The instrument must be good: 0.0001 in the index is 0.55 in salinity. For the
/// scales of hand refractometers see [`Refractometer`](super::Refractometer).
///
/// ```
/// use halimeda::{Extrapolation, Temperature};
/// use halimeda::water::{
///     RefractiveIndex, Wavelength, practical_salinity_from_refractive_index,
/// };
/// let reading = practical_salinity_from_refractive_index(
///     RefractiveIndex::new(1.33884)?,
///     Wavelength::SODIUM_D,
///     Temperature::from_celsius(25.0)?,
///     Extrapolation::Refuse,
/// )?;
/// assert!((reading.salinity().value() - 35.01).abs() < 0.01);
/// # Ok::<(), halimeda::Error>(())
/// ```
///
/// # Errors
/// Temperature outside [`Relation::RefractiveIndexMillardSeaver1990`], the
/// wavelength outside 500 to 700 nm, or an index that none of the relation's
/// salinities has, and extrapolation not allowed; an index outside what
/// salinity 0 to 70 gives.
pub fn practical_salinity_from_refractive_index(
    index: RefractiveIndex,
    wavelength: Wavelength,
    temperature: Temperature,
    extrapolation: Extrapolation,
) -> Result<SalinityReading> {
    check_wavelength(wavelength, extrapolation)?;
    let t = temperature.celsius();
    let nanometres = wavelength.nanometres();
    let mut reading = Instrument {
        input: "refractive index",
        unit: "(relative to air)",
        relation: Relation::RefractiveIndexMillardSeaver1990,
        temperature,
        extrapolation,
        relation_uncertainty: STANDARD_DEVIATION,
        reading_at: |s| millard_seaver_1990(t, s, 0.0, nanometres),
    }
    .salinity(index.value())?;
    if check_wavelength(wavelength, Extrapolation::Refuse).is_err() {
        reading
            .extrapolations
            .insert(Relation::RefractiveIndexMillardSeaver1990);
    }
    Ok(reading)
}

#[cfg(test)]
mod tests {
    use super::millard_seaver_1990;

    // Millard & Seaver (1990), table 2, 589.26 nm: rows below the surface, deeper
    // than WaterPressure accepts. (t, S, dbar, n)
    const TABLE_2_BELOW_SURFACE: [(f64, f64, f64, f64); 12] = [
        (0.0, 0.0, 2000.0, 1.337122),
        (0.0, 0.0, 4000.0, 1.340168),
        (0.0, 0.0, 6000.0, 1.343089),
        (0.0, 0.0, 10_000.0, 1.348552),
        (20.0, 0.0, 2000.0, 1.335871),
        (20.0, 0.0, 4000.0, 1.338647),
        (0.0, 35.0, 2000.0, 1.343948),
        (20.0, 35.0, 2000.0, 1.342228),
        (0.0, 35.0, 4000.0, 1.346916),
        (20.0, 35.0, 4000.0, 1.344962),
        (0.0, 35.0, 10_000.0, 1.355065),
        (25.0, 35.0, 10_000.0, 1.351836),
    ];

    #[test]
    fn millard_seaver_1990_table_2_below_the_surface() {
        for (t, s, p, n) in TABLE_2_BELOW_SURFACE {
            let found = millard_seaver_1990(t, s, p, 589.26);
            assert!(
                (found - n).abs() < 0.7e-6,
                "{found} for {n} at {t}, {s}, {p}"
            );
        }
    }
}
