use super::CarbonateState;
use super::sensitivity::{Output, Parameter, Sensitivities};
use crate::Result;
use crate::error::{Error, within};
use crate::real::sqrt;
use crate::relation::Relation;

/// Correlation between two uncertain parameters.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
pub struct Correlation {
    /// One parameter.
    pub first: Parameter,
    /// The other.
    pub second: Parameter,
    /// Their correlation coefficient, −1 to 1.
    pub coefficient: f64,
}

/// Standard uncertainties of the inputs and constants of a state, and their
/// correlations.
///
/// ```
/// use halimeda::carbonate::{EquilibriumOptions, Output, Parameter, UncertaintyBudget};
/// use halimeda::{Alkalinity, NbsScale, Ph, PracticalSalinity, Temperature, Water};
///
/// let water = Water::new(Temperature::from_celsius(25.0)?, PracticalSalinity::new(35.0)?);
/// let state = water.equilibria(&EquilibriumOptions::default())?.solve(
///     Alkalinity::from_umol_per_kg(2800.0)?,
///     Ph::<NbsScale>::new(8.25)?,
/// )?;
/// let budget = UncertaintyBudget::CONSTANTS
///     .with(Parameter::First, 50.0)? // µmol/kg, a hobby alkalinity kit
///     .with(Parameter::Second, 0.02)?; // a well-kept probe, but for its junction
/// let uncertainty = state.uncertainties(&budget)?;
/// // A hobby probe fixes pCO2 to no better than a fifth.
/// let relative = uncertainty.standard(Output::PartialPressure)
///     / state.partial_pressure_co2().uatm();
/// assert!(relative > 0.1 && relative < 0.3);
/// # Ok::<(), halimeda::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct UncertaintyBudget<'a> {
    standard: [f64; Parameter::COUNT],
    correlations: &'a [Correlation],
}

impl<'a> UncertaintyBudget<'a> {
    /// Everything known exactly.
    pub const NONE: Self = Self {
        standard: [0.0; Parameter::COUNT],
        correlations: &[],
    };

    /// Constants as Orr et al. (2018), Mar. Chem. 207, 84-107, table 1 (doi
    /// 10.1016/j.marchem.2018.10.006): pK0 0.002, pK1 0.0075, pK2 0.015, pKB
    /// 0.01, pKW 0.01, both pKsp 0.02. Total boron, 2 % there, scales with
    /// salinity and is added by
    /// [`with_boron_of`](UncertaintyBudget::with_boron_of). The NBS coefficient gets 0.05
    /// (from memory: 0.05 to 0.1 is what liquid junctions in seawater leave
    /// open): the junction of a probe is in it and must not be counted again, see
    /// [`with_probe`](UncertaintyBudget::with_probe). Inputs are exact until set.
    pub const CONSTANTS: Self = {
        let mut standard = [0.0; Parameter::COUNT];
        let given = [
            (Parameter::PK0, 0.002),
            (Parameter::PK1, 0.0075),
            (Parameter::PK2, 0.015),
            (Parameter::PKb, 0.01),
            (Parameter::PKw, 0.01),
            (Parameter::PKspAragonite, 0.02),
            (Parameter::PKspCalcite, 0.02),
            (Parameter::PFh, 0.05),
        ];
        let mut i = 0;
        while i < given.len() {
            // Evaluated at compile time, where a bad index would not build.
            #[allow(clippy::indexing_slicing)]
            {
                standard[given[i].0.index()] = given[i].1;
            }
            i += 1;
        }
        Self {
            standard,
            correlations: &[],
        }
    };

    /// With the standard uncertainty of one parameter, in its unit.
    ///
    /// # Errors
    /// The uncertainty is not finite or negative.
    pub fn with(mut self, parameter: Parameter, standard_uncertainty: f64) -> Result<Self> {
        let checked = within(
            parameter.name(),
            standard_uncertainty,
            0.0,
            f64::MAX,
            parameter.unit(),
        )?;
        if let Some(slot) = self.standard.get_mut(parameter.index()) {
            *slot = checked;
        }
        Ok(self)
    }

    /// With the 2 % of Orr et al. (2018) on a state's total boron.
    ///
    /// # Errors
    /// As [`UncertaintyBudget::with`].
    pub fn with_boron_of(self, state: &CarbonateState) -> Result<Self> {
        let boron_umol_per_kg = state.equilibria().boron_mol_per_kg() * 1e6;
        self.with(Parameter::Boron, 0.02 * boron_umol_per_kg)
    }

    /// With correlations between parameters, in place of any given before.
    ///
    /// # Errors
    /// A coefficient is not finite or outside −1 to 1; a parameter is correlated
    /// with itself; a pair is given twice; or no joint distribution has these
    /// correlations (their matrix is not positive semidefinite).
    pub fn with_correlations(mut self, correlations: &'a [Correlation]) -> Result<Self> {
        let mut matrix = identity();
        for c in correlations {
            within(
                "correlation coefficient",
                c.coefficient,
                -1.0,
                1.0,
                "(dimensionless)",
            )?;
            let (i, j) = (c.first.index(), c.second.index());
            // An index of a parameter is below their number, the size of the matrix.
            #[allow(clippy::indexing_slicing, clippy::float_cmp)]
            let new = i != j && matrix[i][j] == 0.0;
            if !new {
                return Err(Error::contradictory(
                    (c.first.name(), c.coefficient),
                    (c.second.name(), c.coefficient),
                    "a parameter correlates with itself by one, and each pair is given once",
                ));
            }
            #[allow(clippy::indexing_slicing)]
            {
                matrix[i][j] = c.coefficient;
                matrix[j][i] = c.coefficient;
            }
        }
        if let Some(parameter) = not_semidefinite(matrix) {
            return Err(Error::contradictory(
                (parameter.name(), 1.0),
                ("correlations", -1.0),
                "they exclude one another: some combination would have a negative variance",
            ));
        }
        self.correlations = correlations;
        Ok(self)
    }

    /// The standard uncertainty of one parameter, in its unit.
    #[must_use]
    pub fn standard(&self, parameter: Parameter) -> f64 {
        self.standard
            .get(parameter.index())
            .copied()
            .unwrap_or_default()
    }
}

type Matrix = [[f64; Parameter::COUNT]; Parameter::COUNT];

fn identity() -> Matrix {
    core::array::from_fn(|i| core::array::from_fn(|j| if i == j { 1.0 } else { 0.0 }))
}

/// The first parameter at which elimination meets a negative pivot, if any.
///
/// Golub & Van Loan, Matrix Computations, 4th ed. (2013), sect. 4.2.8: outer
/// product Cholesky, where the row of a zero pivot must be zero too.
// Loops run over 0..COUNT, the size of the matrix.
#[allow(clippy::indexing_slicing)]
fn not_semidefinite(mut matrix: Matrix) -> Option<Parameter> {
    const SLACK: f64 = 1e-9;
    for (k, &parameter) in Parameter::ALL.iter().enumerate() {
        let pivot_row = matrix[k];
        let pivot = pivot_row[k];
        let rest = k + 1..Parameter::COUNT;
        if pivot < SLACK {
            if pivot < -SLACK || rest.clone().any(|j| pivot_row[j].abs() > sqrt(SLACK)) {
                return Some(parameter);
            }
            continue;
        }
        for i in rest {
            let factor = pivot_row[i] / pivot;
            for j in k + 1..Parameter::COUNT {
                matrix[i][j] -= factor * pivot_row[j];
            }
        }
    }
    None
}

/// Uncertainties of the outputs of a state, to first order.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Uncertainties<'a> {
    sensitivities: Sensitivities,
    budget: UncertaintyBudget<'a>,
}

impl Uncertainties<'_> {
    /// Standard uncertainty of an output, in its unit.
    #[must_use]
    pub fn standard(&self, output: Output) -> f64 {
        // Rounding may leave a tiny negative variance under full correlation.
        sqrt(self.covariance(output, output).max(0.0))
    }

    /// Covariance of two outputs, in the product of their units.
    #[must_use]
    pub fn covariance(&self, first: Output, second: Output) -> f64 {
        let mut sum = 0.0;
        for &parameter in Parameter::ALL {
            sum += self.effect(first, parameter) * self.effect(second, parameter);
        }
        for c in self.budget.correlations {
            sum += c.coefficient
                * (self.effect(first, c.first) * self.effect(second, c.second)
                    + self.effect(first, c.second) * self.effect(second, c.first));
        }
        sum
    }

    /// What one parameter's standard uncertainty moves an output by, signed, in
    /// the output's unit: its line in the uncertainty budget.
    #[must_use]
    pub fn effect(&self, output: Output, parameter: Parameter) -> f64 {
        self.sensitivities.of(output, parameter) * self.budget.standard(parameter)
    }

    /// The derivatives used.
    #[must_use]
    pub const fn sensitivities(&self) -> &Sensitivities {
        &self.sensitivities
    }
}

impl CarbonateState {
    /// Propagates standard uncertainties of inputs and constants to the
    /// outputs, to first order (GUM, JCGM 100:2008, eqs. 10 and 13).
    ///
    /// # Errors
    /// As [`CarbonateState::sensitivities`]; or a minor base is uncertain whose
    /// constants the water lies outside the range of, and extrapolation is not
    /// allowed.
    pub fn uncertainties<'a>(&self, budget: &UncertaintyBudget<'a>) -> Result<Uncertainties<'a>> {
        for (base, relation) in [
            (Parameter::Phosphate, Relation::KpYaoMillero1995),
            (Parameter::Silicate, Relation::KsiYaoMillero1995),
            (Parameter::Ammonia, Relation::Knh4CleggWhitfield1995),
            (Parameter::Sulfide, Relation::Kh2sMillero1988),
        ] {
            if budget.standard(base) > 0.0 {
                self.equilibria().water().check(relation)?;
            }
        }
        Ok(Uncertainties {
            sensitivities: self.sensitivities()?,
            budget: *budget,
        })
    }
}
