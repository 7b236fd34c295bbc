//! Random waters and states, and how their errors are summed up.

use halimeda::carbonate::{
    Bases, CarbonateState, Equilibria, EquilibriumOptions, Known, KnownKind,
};
use halimeda::{
    Content, Extrapolation, Ph, PhScale, PracticalSalinity, Result, Temperature, TotalScale, Water,
    species,
};

/// A uniform random number between two limits.
pub fn uniform(rng: &mut fastrand::Rng, min: f64, max: f64) -> f64 {
    min + (max - min) * rng.f64()
}

/// Equilibria of a random water, 15 to 35 °C and salinity 20 to 45, with
/// nutrients of a reef tank to a neglected one.
///
/// # Errors
/// None for these limits; passed on from the crate.
pub fn random_equilibria(rng: &mut fastrand::Rng) -> Result<Equilibria> {
    let water = Water::new(
        Temperature::from_celsius(uniform(rng, 15.0, 35.0))?,
        PracticalSalinity::new(uniform(rng, 20.0, 45.0))?,
    )
    .with_extrapolation(Extrapolation::Allow);
    water
        .equilibria(&EquilibriumOptions::default())?
        .with_bases(Bases {
            phosphate: Content::from_umol_per_kg(uniform(rng, 0.0, 30.0))?,
            silicate: Content::from_umol_per_kg(uniform(rng, 0.0, 100.0))?,
            ammonia: Content::from_umol_per_kg(uniform(rng, 0.0, 50.0))?,
            sulfide: Content::from_umol_per_kg(uniform(rng, 0.0, 5.0))?,
        })
}

/// A random state of such a water, pH(total) 7 to 9.
///
/// # Errors
/// None for these limits; passed on from the crate.
pub fn random_state(rng: &mut fastrand::Rng) -> Result<CarbonateState> {
    let ph = Ph::<TotalScale>::new(uniform(rng, 7.0, 9.0))?;
    let dic = Content::<species::InorganicCarbon>::from_umol_per_kg(uniform(rng, 500.0, 4500.0))?;
    random_equilibria(rng)?.solve(ph, dic)
}

/// What a state gives for one kind of known quantity.
///
/// # Errors
/// The NBS scale outside its range; none where extrapolation is allowed.
pub fn known_of(state: &CarbonateState, kind: KnownKind) -> Result<Known> {
    Ok(match kind {
        KnownKind::Alkalinity => state.alkalinity().into(),
        KnownKind::InorganicCarbon => state.inorganic_carbon().into(),
        KnownKind::Ph(scale) => state.ph_on(scale)?.into(),
        KnownKind::PartialPressure => state.partial_pressure_co2().into(),
        KnownKind::Fugacity => state.fugacity_co2().into(),
        KnownKind::CarbonDioxide => state.carbon_dioxide().into(),
        KnownKind::Bicarbonate => state.bicarbonate().into(),
        KnownKind::Carbonate => state.carbonate().into(),
        KnownKind::Aragonite => state.aragonite_saturation().into(),
        KnownKind::Calcite => state.calcite_saturation().into(),
    })
}

/// Whether two kinds carry the same information.
#[must_use]
pub fn same_class(a: KnownKind, b: KnownKind) -> bool {
    let class = |kind| match kind {
        KnownKind::Alkalinity => 0,
        KnownKind::InorganicCarbon => 1,
        KnownKind::Ph(_) => 2,
        KnownKind::PartialPressure | KnownKind::Fugacity | KnownKind::CarbonDioxide => 3,
        KnownKind::Bicarbonate => 4,
        KnownKind::Carbonate | KnownKind::Aragonite | KnownKind::Calcite => 5,
    };
    class(a) == class(b)
}

/// Every pair of kinds that determines a state, each once.
pub fn pairs() -> impl Iterator<Item = (KnownKind, KnownKind)> {
    KnownKind::ALL.into_iter().enumerate().flat_map(|(i, a)| {
        KnownKind::ALL
            .into_iter()
            .skip(i + 1)
            .filter(move |&b| !same_class(a, b))
            .map(move |b| (a, b))
    })
}

/// The scales of [`PhScale`].
pub const SCALES: [PhScale; 4] = [
    PhScale::Total,
    PhScale::Free,
    PhScale::Seawater,
    PhScale::Nbs,
];

/// 75 % and 99 % quantile and maximum of errors.
#[derive(Debug, Clone, Copy)]
pub struct Quantiles {
    /// Three quarters of the errors are no larger.
    pub q75: f64,
    /// 99 of 100 errors are no larger.
    pub q99: f64,
    /// The largest error.
    pub max: f64,
}

/// Sums up errors; NaN counts as the largest.
#[must_use]
pub fn quantiles(mut errors: Vec<f64>) -> Quantiles {
    errors.sort_by(f64::total_cmp);
    let at = |q: f64| {
        let last = errors.len().saturating_sub(1);
        errors
            .get((q * last as f64) as usize)
            .copied()
            .unwrap_or(f64::NAN)
    };
    Quantiles {
        q75: at(0.75),
        q99: at(0.99),
        max: at(1.0),
    }
}
