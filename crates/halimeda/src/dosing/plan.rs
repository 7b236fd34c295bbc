use super::{Addition, CautionSet, Consumption, Dose, ReactorEffluent};
use crate::Result;
use crate::error::{Error, ErrorKind};

/// What is dosed in a day, in how many portions, against what consumption.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DosePlan {
    per_day: Addition,
    doses_per_day: u32,
    solution_litres: f64,
    has_limewater: bool,
    consumption: Consumption,
    cautions: CautionSet,
}

impl DosePlan {
    /// Most portions a day is divided into: one a minute, a steady drip.
    pub const MAX_DOSES_PER_DAY: u32 = 1440;

    /// From the doses of a whole day, each given in `doses_per_day` equal
    /// portions, 1 to [`DosePlan::MAX_DOSES_PER_DAY`].
    ///
    /// # Errors
    /// No dose, or the number of portions is outside its limits.
    pub fn new(per_day: &[Dose], doses_per_day: u32) -> Result<Self> {
        if per_day.is_empty() {
            return Err(Error::too_few("doses", 0, 1));
        }
        if doses_per_day == 0 || doses_per_day > Self::MAX_DOSES_PER_DAY {
            return Err(Error::from(ErrorKind::OutOfRange {
                input: "doses per day",
                value: f64::from(doses_per_day),
                min: 1.0,
                max: f64::from(Self::MAX_DOSES_PER_DAY),
                unit: "per day",
            }));
        }
        let mut plan = Self {
            per_day: Addition::NONE,
            doses_per_day,
            solution_litres: 0.0,
            has_limewater: false,
            consumption: Consumption::NONE,
            cautions: CautionSet::default(),
        };
        for dose in per_day {
            plan.per_day = plan.per_day + dose.addition();
            plan.solution_litres += dose.solution_litres();
            plan.has_limewater |= dose.supplement().is_limewater();
            plan.cautions = plan.cautions.union(dose.cautions());
        }
        Ok(plan)
    }

    /// A calcium reactor that runs all day.
    #[must_use]
    pub const fn reactor(effluent: &ReactorEffluent) -> Self {
        Self {
            per_day: effluent.per_day(),
            doses_per_day: Self::MAX_DOSES_PER_DAY,
            solution_litres: 0.0,
            has_limewater: false,
            consumption: Consumption::NONE,
            cautions: effluent.cautions(),
        }
    }

    /// This plan in a tank that consumes.
    #[must_use]
    pub const fn with_consumption(mut self, consumption: Consumption) -> Self {
        self.consumption = consumption;
        self
    }

    /// What is dosed in a day.
    #[must_use]
    pub const fn per_day(&self) -> Addition {
        self.per_day
    }

    /// What is dosed at once.
    #[must_use]
    pub fn per_dose(&self) -> Addition {
        self.per_day * (1.0 / f64::from(self.doses_per_day))
    }

    /// In how many portions.
    #[must_use]
    pub const fn doses_per_day(&self) -> u32 {
        self.doses_per_day
    }

    /// Litres of solution dosed in a day, which take the place of top-off water.
    #[must_use]
    pub const fn solution_litres_per_day(&self) -> f64 {
        self.solution_litres
    }

    /// Whether limewater is among the doses.
    #[must_use]
    pub const fn has_limewater(&self) -> bool {
        self.has_limewater
    }

    /// What the tank consumes.
    #[must_use]
    pub const fn consumption(&self) -> &Consumption {
        &self.consumption
    }

    /// What can hurt when the supplements are handled.
    #[must_use]
    pub const fn cautions(&self) -> CautionSet {
        self.cautions
    }
}
