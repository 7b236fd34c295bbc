use crate::Result;
use crate::error::within;
use crate::parameter::parameters;
use crate::quantity::{PracticalSalinity, Temperature};
use crate::water::Water;

parameters! {
    /// Evaporation from open water.
    Evaporation {
        /// Water evaporated per area and day for each kPa of vapour pressure missing
        /// in the air.
        transfer_kg_per_m2_per_d_per_kpa = 3.0 in 2.0..8.0, "kg m⁻² d⁻¹ kPa⁻¹",
            "undisturbed pools 0.74, pools in use 1.26 of 3.1, Smith, Löf & Jones 1998, ASHRAE \
             Trans. 104(1A); a fan raises it";
    }
}

parameters! {
    /// A device that replaces evaporated water with fresh water.
    TopOff {
        /// Share of the missing water replaced per day, beside what evaporates.
        response_per_day = 24.0 in 4.0..200.0, "1/d", "acts within an hour, common practice, no source";
        /// Most it can deliver.
        capacity_kg_per_day = 100.0 in 20.0..1000.0, "kg/d", "common practice, no source";
    }
}

/// Water evaporated, kg/d: proportional to the vapour pressure the air lacks,
/// after Dalton. Nothing condenses where the air is moister than the water.
///
/// Vapour pressure of the water from [`Water::vapour_pressure_atm`], of the air
/// from [`air_vapour_pressure_kpa`].
#[inline]
#[must_use]
pub fn evaporation_kg_per_day(
    open_m2: f64,
    water_vapour_pressure_kpa: f64,
    air_vapour_pressure_kpa: f64,
    parameters: &Evaporation,
) -> f64 {
    parameters.transfer_kg_per_m2_per_d_per_kpa
        * open_m2
        * (water_vapour_pressure_kpa - air_vapour_pressure_kpa).max(0.0)
}

/// Vapour pressure in the room's air, kPa, from its temperature and relative
/// humidity (0 to 1).
///
/// ```
/// use halimeda::Temperature;
/// use halimeda::process::air_vapour_pressure_kpa;
/// let room = air_vapour_pressure_kpa(Temperature::from_celsius(20.0)?, 0.5)?;
/// assert!((room - 1.17).abs() < 0.01);
/// # Ok::<(), halimeda::Error>(())
/// ```
///
/// # Errors
/// The humidity is not finite or outside 0 to 1; the temperature is outside the
/// range of [`Water::vapour_pressure_atm`].
pub fn air_vapour_pressure_kpa(air: Temperature, relative_humidity: f64) -> Result<f64> {
    const KPA_PER_ATM: f64 = 101.325;
    let humidity = within("relative humidity", relative_humidity, 0.0, 1.0, "1")?;
    let saturated = Water::new(air, PracticalSalinity::new(0.0)?).vapour_pressure_atm()?;
    Ok(humidity * saturated * KPA_PER_ATM)
}

/// Fresh water delivered by an automatic top-off, kg/d: what evaporates and a share
/// of what is missing, between nothing and its capacity.
#[inline]
#[must_use]
pub fn top_off_kg_per_day(
    evaporation_kg_per_day: f64,
    water_kg: f64,
    full_kg: f64,
    parameters: &TopOff,
) -> f64 {
    (evaporation_kg_per_day + parameters.response_per_day * (full_kg - water_kg))
        .min(parameters.capacity_kg_per_day)
        .max(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn evaporation_follows_the_deficit_and_never_turns_back() {
        let p = Evaporation::default();
        let dry = evaporation_kg_per_day(0.5, 3.1, 0.8, &p);
        let moist = evaporation_kg_per_day(0.5, 3.1, 2.0, &p);
        assert!((dry / moist - 2.3 / 1.1).abs() < 1e-12);
        assert_eq!(evaporation_kg_per_day(0.5, 3.1, 3.1, &p), 0.0);
        assert_eq!(evaporation_kg_per_day(0.5, 3.1, 3.5, &p), 0.0);
    }

    #[test]
    fn top_off_holds_the_level_within_its_capacity() {
        let p = TopOff::default();
        assert_eq!(top_off_kg_per_day(3.0, 200.0, 200.0, &p), 3.0);
        assert!((top_off_kg_per_day(3.0, 199.5, 200.0, &p) - 15.0).abs() < 1e-12);
        assert_eq!(
            top_off_kg_per_day(3.0, 150.0, 200.0, &p),
            p.capacity_kg_per_day
        );
        assert_eq!(top_off_kg_per_day(3.0, 210.0, 200.0, &p), 0.0);
    }

    #[test]
    fn humidity_outside_its_range_is_refused() {
        let room = Temperature::from_celsius(20.0).unwrap();
        for humidity in [-0.1, 1.1, f64::NAN] {
            let e = air_vapour_pressure_kpa(room, humidity).unwrap_err();
            assert_eq!(e.input(), "relative humidity");
        }
    }
}
