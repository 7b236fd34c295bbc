//! What is dosed in a day, in how many portions.

use halimeda::dosing::DosePlan as Inner;
use pyo3::prelude::*;

use super::supplement::one_of;
use super::{Addition, Consumption, Dose, ReactorEffluent};
use crate::error::OrRaise;
use crate::record::{record, texts};

record! {
    /// What is dosed in a day, in how many portions, against what consumption.
    ///
    /// Parameters
    /// ----------
    /// doses : list of Dose, optional
    ///     The doses of a whole day.
    /// doses_per_day : int
    ///     Equal portions that each is given in, 1 to 1440.
    /// reactor : ReactorEffluent, optional
    ///     A calcium reactor that runs all day, instead of doses.
    /// consumption : Consumption, optional
    ///     What the tank consumes.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     No dose, or the number of portions is outside its limits.
    /// HalimedaTypeError
    ///     Both doses and a reactor were given, or neither.
    "halimeda.dosing" DosePlan {
        /// The doses of a whole day.
        doses: Option<Vec<Dose>>,
        /// Equal portions that each is given in.
        doses_per_day: u32,
        /// A calcium reactor that runs all day.
        reactor: Option<ReactorEffluent>,
        /// What the tank consumes.
        consumption: Option<Consumption>,
        /// What is dosed in a day.
        per_day: Addition,
        /// What is dosed at once.
        per_dose: Addition,
        /// Solution dosed in a day, L/d, which takes the place of top-off water.
        solution_l_per_day: f64,
        /// Whether limewater is among the doses.
        has_limewater: bool,
        /// What can hurt when the supplements are handled.
        cautions: Vec<String>,
    }

    #[new]
    #[pyo3(signature = (doses = None, *, doses_per_day = 1, reactor = None, consumption = None))]
    fn new(
        py: Python<'_>,
        doses: Option<Vec<Dose>>,
        doses_per_day: u32,
        reactor: Option<ReactorEffluent>,
        consumption: Option<Consumption>,
    ) -> PyResult<Self> {
        if doses.is_some() == reactor.is_some() {
            return Err(one_of(py, "doses", "doses or reactor="));
        }
        let mut plan = Self {
            doses,
            doses_per_day,
            reactor,
            consumption,
            per_day: halimeda::dosing::Addition::NONE.into(),
            per_dose: halimeda::dosing::Addition::NONE.into(),
            solution_l_per_day: 0.0,
            has_limewater: false,
            cautions: Vec::new(),
        };
        let inner = plan.inner(py)?;
        plan.doses_per_day = inner.doses_per_day();
        plan.per_day = inner.per_day().into();
        plan.per_dose = inner.per_dose().into();
        plan.solution_l_per_day = inner.solution_litres_per_day();
        plan.has_limewater = inner.has_limewater();
        plan.cautions = texts(inner.cautions());
        Ok(plan)
    }
}

impl DosePlan {
    /// A plan of doses that was found.
    pub(super) fn found(
        py: Python<'_>,
        doses: Vec<Dose>,
        doses_per_day: u32,
        consumption: Option<Consumption>,
    ) -> PyResult<Self> {
        Self::new(py, Some(doses), doses_per_day, None, consumption)
    }

    pub(super) fn inner(&self, py: Python<'_>) -> PyResult<Inner> {
        let consumption = Consumption::or_none(self.consumption.as_ref()).or_raise(py)?;
        let plan = match (&self.reactor, &self.doses) {
            (Some(reactor), _) => Inner::reactor(&reactor.inner().or_raise(py)?),
            (None, doses) => {
                let doses = doses
                    .iter()
                    .flatten()
                    .map(|dose| dose.inner(py))
                    .collect::<PyResult<Vec<_>>>()?;
                Inner::new(&doses, self.doses_per_day).or_raise(py)?
            }
        };
        Ok(plan.with_consumption(consumption))
    }
}
