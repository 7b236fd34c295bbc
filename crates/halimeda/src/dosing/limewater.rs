use super::{Salt, Supplement};
use crate::Result;
use crate::quantity::{PracticalSalinity, Temperature};
use crate::real::polynomial;
use crate::relation::{Extrapolation, Relation};

/// Calcium hydroxide in a litre of saturated limewater at 25 °C, mol: Bates,
/// Bower & Smith (1956), J. Res. Natl. Bur. Stand. 56, 305-312, abstract.
const SATURATED_25_MOL_PER_L: f64 = 0.0203;

/// Calcium hydroxide in saturated limewater, mol/L, at 0 to 40 °C. Uncertain by
/// 6 %: published solubilities differ by that much with the grain of the solid.
///
/// 0.0203 mol/L at 25 °C (Bates, Bower & Smith 1956, doi 10.6028/jres.056.040),
/// times the change with temperature of the handbook table 0.185, 0.176, 0.165,
/// 0.153, 0.141 g per 100 g of water at 0, 10, 20, 30, 40 °C (quadratic through
/// it, within 0.3 %). The solubility falls as water warms: limewater saturated
/// in a cold store turns cloudy in a warm room.
///
/// ```
/// use halimeda::Temperature;
/// use halimeda::dosing::limewater_mol_per_l;
/// let cold = limewater_mol_per_l(Temperature::from_celsius(10.0)?)?;
/// let warm = limewater_mol_per_l(Temperature::from_celsius(30.0)?)?;
/// assert!(cold > warm);
/// # Ok::<(), halimeda::Error>(())
/// ```
///
/// # Errors
/// The temperature is outside 0 to 40 °C.
pub fn limewater_mol_per_l(temperature: Temperature) -> Result<f64> {
    Relation::CalciumHydroxideBates1956.check(
        temperature,
        PracticalSalinity::new(0.0)?,
        Extrapolation::Refuse,
    )?;
    let relative = polynomial(
        temperature.celsius() - 25.0,
        [1.0, -7.28072e-3, -3.13824e-5],
    );
    Ok(SATURATED_25_MOL_PER_L * relative)
}

impl Supplement {
    /// Clear limewater saturated with calcium hydroxide at the temperature it
    /// was made and stands at; weaker where it drew CO2 from the air or was not
    /// given time and lime enough.
    ///
    /// # Errors
    /// As [`limewater_mol_per_l`].
    pub fn limewater(temperature: Temperature) -> Result<Self> {
        let salt = Salt::CalciumHydroxide;
        Self::solution(
            salt,
            limewater_mol_per_l(temperature)? * salt.molar_mass_g_per_mol(),
        )
    }
}
