//! Exchange with the air through several paths.

use halimeda::gas::{
    Air, ExchangePath as Inner, FallingFilm, FilmFlow as InnerFilm, Gas, GasKind, PathKind,
    TransferBasis, exchange as exchanged,
};
use halimeda::{
    Area, Content, DryMoleFractionCo2, FlowRate, Temperature, TransferRate, TransferVelocity,
    Volume, species,
};
use pyo3::prelude::*;

use super::reaeration_fit::GASES;
use crate::choice::{choice, unknown};
use crate::error::{Blame, OrRaise, type_error};
use crate::record::{names, one_water, record};
use crate::water::Water;

record! {
    /// One way by which gas passes between water and air.
    ///
    /// Told by one of three: a transfer velocity over an area, a volumetric coefficient
    /// of a volume (as of a re-aeration record), or a falling film.
    ///
    /// Parameters
    /// ----------
    /// kind : {"open_surface", "overflow", "falling_film", "foam_fractionator"}
    ///     Where water and air meet.
    /// co2_ppm : float
    ///     Mole fraction of CO2 in the dry air of the path, ppm; paths may differ.
    /// transfer_velocity_cm_per_h : float, optional
    ///     Transfer velocity, cm/h; a stirred open surface has 1 to 5 (common practice,
    ///     no source).
    /// area_m2 : float, optional
    ///     The surface, m².
    /// rate_per_hour : float, optional
    ///     kLa, 1/h.
    /// volume_l : float, optional
    ///     The water that kLa was measured in, L.
    /// film_length_m, film_width_m : float, optional
    ///     Length of fall and wetted width (both faces of a screen), m.
    /// film_surface_m_per_s : float, optional
    ///     Velocity of the film's surface, m/s, measured or of a `FilmFlow`.
    /// flow_l_per_h : float, optional
    ///     Water that passes the path once, L/h: no more can come to equilibrium. Not for
    ///     a coefficient measured on the whole tank.
    /// measured_gas : {"oxygen", "nitrogen", "argon", "carbon_dioxide"}
    ///     The gas a coefficient was measured with.
    /// measured_celsius : float
    ///     The temperature it was measured at, °C.
    /// oxygen_mole_fraction : float, optional
    ///     Of the dry air, mol/mol; of clean air unless given.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     A number is outside its limits, or there is no such kind.
    /// HalimedaTypeError
    ///     Not one of the three ways was given completely.
    ///
    /// Source
    /// ------
    /// Falling film: Higbie (1935) Trans. AIChE 31, 365-389.
    "halimeda.gas" ExchangePath {
        /// Where water and air meet.
        kind: String,
        /// Mole fraction of CO2 in the dry air, ppm.
        co2_ppm: f64,
        /// Transfer velocity, cm/h.
        transfer_velocity_cm_per_h: Option<f64>,
        /// The surface, m².
        area_m2: Option<f64>,
        /// The coefficient kLa, 1/h.
        rate_per_hour: Option<f64>,
        /// The water that kLa was measured in, L.
        volume_l: Option<f64>,
        /// Length of fall, m.
        film_length_m: Option<f64>,
        /// Wetted width, m.
        film_width_m: Option<f64>,
        /// Velocity of the film's surface, m/s.
        film_surface_m_per_s: Option<f64>,
        /// Water that passes once, L/h.
        flow_l_per_h: Option<f64>,
        /// The gas the coefficient was measured with.
        measured_gas: String,
        /// The temperature it was measured at, °C.
        measured_celsius: f64,
        /// Mole fraction of oxygen in the dry air, mol/mol; of clean air if None.
        oxygen_mole_fraction: Option<f64>,
    }

    #[new]
    #[pyo3(signature = (kind, *, co2_ppm, transfer_velocity_cm_per_h = None, area_m2 = None,
        rate_per_hour = None, volume_l = None, film_length_m = None, film_width_m = None,
        film_surface_m_per_s = None, flow_l_per_h = None, measured_gas = "oxygen",
        measured_celsius = 25.0, oxygen_mole_fraction = None))]
    #[allow(clippy::too_many_arguments)]
    fn new(
        py: Python<'_>,
        kind: &str,
        co2_ppm: f64,
        transfer_velocity_cm_per_h: Option<f64>,
        area_m2: Option<f64>,
        rate_per_hour: Option<f64>,
        volume_l: Option<f64>,
        film_length_m: Option<f64>,
        film_width_m: Option<f64>,
        film_surface_m_per_s: Option<f64>,
        flow_l_per_h: Option<f64>,
        measured_gas: &str,
        measured_celsius: f64,
        oxygen_mole_fraction: Option<f64>,
    ) -> PyResult<Self> {
        let path = Self {
            kind: kind.to_owned(),
            co2_ppm,
            transfer_velocity_cm_per_h,
            area_m2,
            rate_per_hour,
            volume_l,
            film_length_m,
            film_width_m,
            film_surface_m_per_s,
            flow_l_per_h,
            measured_gas: measured_gas.to_owned(),
            measured_celsius,
            oxygen_mole_fraction,
        };
        path.inner(py)?;
        Ok(path)
    }
}

impl ExchangePath {
    fn inner(&self, py: Python<'_>) -> PyResult<Inner> {
        let kind: PathKind = choice(py, "kind", &self.kind)?;
        let basis = TransferBasis::new(
            choice(py, "measured_gas", &self.measured_gas)?,
            Temperature::from_celsius(self.measured_celsius).or_raise(py)?,
        );
        let mut air = Air::new(DryMoleFractionCo2::from_ppm(self.co2_ppm).or_raise(py)?);
        if let Some(fraction) = self.oxygen_mole_fraction {
            air = air.with_oxygen_mole_fraction(fraction).or_raise(py)?;
        }
        let velocity = (self.transfer_velocity_cm_per_h, self.area_m2);
        let rate = (self.rate_per_hour, self.volume_l);
        let film = (
            self.film_length_m,
            self.film_width_m,
            self.film_surface_m_per_s,
        );
        let path = match (velocity, rate, film) {
            ((Some(cm_per_h), Some(m2)), (None, None), (None, None, None)) => Inner::from_velocity(
                kind,
                TransferVelocity::from_cm_per_h(cm_per_h).or_raise(py)?,
                Area::from_m2(m2).or_raise(py)?,
                basis,
                air,
            ),
            ((None, None), (Some(per_hour), Some(litres)), (None, None, None)) => Inner::from_rate(
                kind,
                TransferRate::from_per_hour(per_hour).or_raise(py)?,
                Volume::from_litres(litres).or_raise(py)?,
                basis,
                air,
            ),
            ((None, None), (None, None), (Some(length), Some(width), Some(surface)))
                if kind == PathKind::FallingFilm =>
            {
                let film = FallingFilm::new(length, width, surface).or_raise(py)?;
                Inner::from_falling_film(film, air)
            }
            _ => {
                let blame = Blame {
                    input: Some("transfer_velocity_cm_per_h"),
                    kind: "argument",
                    ..Blame::default()
                };
                let message = "a path is told by one of: transfer_velocity_cm_per_h with \
                               area_m2; rate_per_hour with volume_l; film_length_m, \
                               film_width_m and film_surface_m_per_s of a \"falling_film\"";
                return Err(type_error(py, message, &blame));
            }
        };
        Ok(match self.flow_l_per_h {
            Some(flow) => path.with_flow(FlowRate::from_l_per_h(flow).or_raise(py)?),
            None => path,
        })
    }
}

record! {
    /// The exchange of one gas over all paths together. Made by `exchange`.
    "halimeda.gas" Exchange {
        /// The gas.
        gas: String,
        /// Water brought to equilibrium by all paths, L/d.
        clearance_l_per_day: f64,
        /// The content that the paths together tend to, µmol/kg.
        equilibrium_umol_per_kg: f64,
        /// The content that the flux is for, µmol/kg.
        content_umol_per_kg: f64,
        /// Flux into the water, mmol/d; negative when gas leaves.
        flux_mmol_per_day: f64,
        /// Relations that were used outside their published range.
        extrapolations: Vec<String>,
    }

    /// Give kLa of a volume of water with these paths.
    ///
    /// Parameters
    /// ----------
    /// volume_l : float
    ///     The water, L.
    ///
    /// Returns
    /// -------
    /// float
    ///     kLa, 1/h.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     The volume is outside its limits, or too small for the paths.
    #[pyo3(signature = (*, volume_l))]
    fn rate_per_hour(&self, py: Python<'_>, volume_l: f64) -> PyResult<f64> {
        Volume::from_litres(volume_l)
            .and_then(|volume| {
                TransferRate::from_per_day(self.clearance_l_per_day / volume.litres())
            })
            .map(TransferRate::per_hour)
            .or_raise(py)
    }
}

/// Exchange of a gas between water and air through paths.
///
/// Parameters
/// ----------
/// paths : list of ExchangePath
///     The paths, each with its air.
/// water : Water
///     The water.
/// content_umol_per_kg : float
///     Content of the gas, µmol/kg; for CO2 that of dissolved CO2.
/// gas : {"oxygen", "nitrogen", "argon", "carbon_dioxide"}
///     The gas.
///
/// Returns
/// -------
/// Exchange
///     Flux, equilibrium and clearance.
///
/// Raises
/// ------
/// HalimedaValueError
///     No path transfers anything, or the water is outside a published range.
///
/// Source
/// ------
/// Schmidt numbers: Wanninkhof (2014) doi:10.4319/lom.2014.12.351; solubilities as
/// `solubility_umol_per_kg`.
///
/// Examples
/// --------
/// >>> import halimeda as hm
/// >>> water = hm.Water(temperature_celsius=25.0, practical_salinity=35.0)
/// >>> paths = [
/// ...     hm.gas.ExchangePath("open_surface", co2_ppm=900.0,
/// ...                         transfer_velocity_cm_per_h=3.0, area_m2=0.6),
/// ...     hm.gas.ExchangePath("foam_fractionator", co2_ppm=425.0,
/// ...                         rate_per_hour=0.5, volume_l=300.0)]
/// >>> night = hm.gas.exchange(paths, water, content_umol_per_kg=170.0)
/// >>> round(night.rate_per_hour(volume_l=300.0), 2)
/// 0.56
/// >>> round(night.flux_mmol_per_day)
/// 152
#[pyfunction]
#[pyo3(signature = (paths, water, /, *, content_umol_per_kg, gas = "oxygen"))]
pub(crate) fn exchange(
    py: Python<'_>,
    paths: Vec<ExchangePath>,
    water: &Bound<'_, Water>,
    content_umol_per_kg: f64,
    gas: &str,
) -> PyResult<Exchange> {
    let kind: GasKind = choice(py, "gas", gas)?;
    let water = one_water(py, water.get())?;
    let paths = paths
        .iter()
        .map(|path| path.inner(py))
        .collect::<PyResult<Vec<_>>>()?;
    let found = match kind {
        GasKind::Oxygen => told::<species::Oxygen>(&paths, &water, content_umol_per_kg),
        GasKind::Nitrogen => told::<species::Nitrogen>(&paths, &water, content_umol_per_kg),
        GasKind::Argon => told::<species::Argon>(&paths, &water, content_umol_per_kg),
        GasKind::CarbonDioxide => {
            told::<species::CarbonDioxide>(&paths, &water, content_umol_per_kg)
        }
        _ => return Err(unknown(py, "gas", gas, GASES)),
    };
    Ok(Exchange {
        gas: gas.to_owned(),
        ..found.or_raise(py)?
    })
}

fn told<G: Gas>(
    paths: &[Inner],
    water: &halimeda::Water,
    content_umol_per_kg: f64,
) -> halimeda::Result<Exchange> {
    let content = Content::<G>::from_umol_per_kg(content_umol_per_kg)?;
    let found = exchanged::<G>(paths, water)?;
    let mut clearance_l_per_day = 0.0;
    for path in paths {
        clearance_l_per_day += path.clearance_l_per_day(G::KIND, water)?.value();
    }
    Ok(Exchange {
        gas: String::new(),
        clearance_l_per_day,
        equilibrium_umol_per_kg: found.value().equilibrium().umol_per_kg(),
        content_umol_per_kg,
        flux_mmol_per_day: found.value().flux(content).mmol_per_day(),
        extrapolations: names(found.extrapolated()),
    })
}

record! {
    /// Laminar flow of a film down a wall or a screen. Made by `film_flow`.
    ///
    /// Source
    /// ------
    /// Nusselt (1916); Bird, Stewart & Lightfoot (2002) Transport Phenomena, 2nd ed.,
    /// section 2.2.
    "halimeda.gas" FilmFlow {
        /// Thickness of the film, m.
        thickness_m: f64,
        /// Velocity of its surface, m/s.
        surface_m_per_s: f64,
        /// Film Reynolds number, dimensionless; beyond some 20 the surface ripples.
        reynolds: f64,
        /// Relations that were used outside their published range.
        extrapolations: Vec<String>,
    }
}

/// Thickness and velocity of a film of water running down a wall or a screen.
///
/// Parameters
/// ----------
/// water : Water
///     The water.
/// flow_l_per_h : float
///     The flow, L/h.
/// width_m : float
///     The wetted width, m; both faces of a screen count.
///
/// Returns
/// -------
/// FilmFlow
///     Thickness, surface velocity and Reynolds number.
///
/// Raises
/// ------
/// HalimedaValueError
///     The film would be turbulent (Reynolds number above 1500): measure its velocity.
///
/// Source
/// ------
/// Nusselt (1916); Bird, Stewart & Lightfoot (2002) Transport Phenomena, 2nd ed.,
/// section 2.2.
///
/// Examples
/// --------
/// >>> import halimeda as hm
/// >>> water = hm.Water(temperature_celsius=25.0, practical_salinity=35.0)
/// >>> film = hm.gas.film_flow(water, flow_l_per_h=250.0, width_m=0.5)
/// >>> round(1e3 * film.thickness_m, 2)
/// 0.34
#[pyfunction]
#[pyo3(signature = (water, /, *, flow_l_per_h, width_m))]
pub(crate) fn film_flow(
    py: Python<'_>,
    water: &Bound<'_, Water>,
    flow_l_per_h: f64,
    width_m: f64,
) -> PyResult<FilmFlow> {
    let water = one_water(py, water.get())?;
    let flow = FlowRate::from_l_per_h(flow_l_per_h).or_raise(py)?;
    let found = InnerFilm::new(flow, width_m, &water).or_raise(py)?;
    Ok(FilmFlow {
        thickness_m: found.value().thickness_m(),
        surface_m_per_s: found.value().surface_m_per_s(),
        reynolds: found.value().reynolds(),
        extrapolations: names(found.extrapolated()),
    })
}
