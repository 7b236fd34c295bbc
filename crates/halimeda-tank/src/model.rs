//! The equations of a tank between two switches.

use halimeda::carbonate::{CarbonateFollower, EquilibriumOptions};
use halimeda::gas::{
    Air, ExchangePath, GasKind, PathKind, TransferBasis, co2_partial_pressure, oxygen_solubility,
};
use halimeda::nutrient::PhotosyntheticQuotient;
use halimeda::process::{
    BacterialRates, BacterialSupply, OrganicMatter, RelativeCations, bacterial_death,
    bacterial_rates, coral_calcification, coralline_calcification, denitrification, display_rates,
    fasting_rates, foam_rates, iron_oxide_uptake, livestock_rates, mineralisation_rates,
    nitrification, temperature_factor, top_off_kg_per_day,
};
use halimeda::quantity::{Area, FlowRate, Form as _, TransferVelocity};
use halimeda::turf::{TurfEnvironment, TurfRates, TurfStock, TurfWater, turf_rates};
use halimeda::{
    AirPressure, DryMoleFractionCo2, Extrapolation, PracticalSalinity, Temperature, Water, form,
};

use crate::Result;
use crate::flow::{Flow, Ratios, Stock, change_of_stocks};
use crate::integrator::System;
use crate::parameters::Parameters;
use crate::tank::{Dosing, Tank};

/// Stocks, then what has flowed.
pub(crate) const STATES: usize = Stock::COUNT + Flow::COUNT;

/// Where the tank's gases meet air.
const PATHS: usize = 4;

/// Order of the paths; their flows follow one another in [`Flow`].
#[derive(Clone, Copy)]
enum Path {
    Surface,
    Overflow,
    Film,
    Foam,
}

/// Exchange over one path.
#[derive(Debug, Clone, Copy, Default)]
struct PathExchange {
    /// Water brought to equilibrium per day while the path is open, kg/d.
    co2_kg_per_day: f64,
    o2_kg_per_day: f64,
    /// 1 while water runs, else 0.
    open: f64,
    /// Content at equilibrium, mol/kg.
    co2_equilibrium: f64,
}

/// What can be switched.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Switches {
    pub(crate) display_lit: bool,
    pub(crate) screen_lit: bool,
    pub(crate) screen_lamp_works: bool,
    pub(crate) pump_runs: bool,
    pub(crate) tops_off: bool,
    pub(crate) screen_flow_share: f64,
    pub(crate) room_co2_ppm: f64,
    pub(crate) iron_oxide_grams: f64,
    /// Share of a new lamp's light.
    pub(crate) lamp_share: f64,
    /// Share of the screen that its roughness lets turf hold.
    pub(crate) roughness: f64,
}

/// Factors of the constant temperature.
#[derive(Debug, Clone, Copy)]
struct TemperatureFactors {
    livestock: f64,
    mineralisation: f64,
    nitrification: f64,
    denitrification: f64,
    bacteria: f64,
    display: f64,
}

/// The right-hand side, set for one stretch between switches.
#[derive(Clone)]
pub(crate) struct Model<'a> {
    tank: &'a Tank,
    parameters: &'a Parameters,
    dosing: Dosing,
    relative_tolerance: f64,
    factors: TemperatureFactors,
    ratios: Ratios,
    paths: [PathExchange; PATHS],
    full_kg: f64,
    /// Smallest amount of each stock whose error is controlled relatively.
    floors: [f64; Stock::COUNT],
    // Set anew for every stretch.
    follower: CarbonateFollower,
    oxygen_equilibrium: f64,
    density_kg_per_m3: f64,
    turf: TurfEnvironment,
    display_lit: f64,
    foam_duty: f64,
    iron_oxide_grams: f64,
    tops_off: bool,
}

/// The stocks at the head of a state.
pub(crate) fn stocks(state: &[f64; STATES]) -> &[f64; Stock::COUNT] {
    match state.first_chunk() {
        Some(head) => head,
        // `STATES` is `Stock::COUNT` plus the flows.
        None => &[0.0; Stock::COUNT],
    }
}

impl<'a> Model<'a> {
    pub(crate) fn new(
        tank: &'a Tank,
        parameters: &'a Parameters,
        dosing: Dosing,
        relative_tolerance: f64,
        full_kg: f64,
        switches: &Switches,
    ) -> Result<Self> {
        let celsius = tank.temperature_celsius;
        let water = water_of(tank, tank.practical_salinity)?;
        let p = parameters;
        let factors = TemperatureFactors {
            livestock: temperature_factor(p.livestock.q10, celsius),
            mineralisation: temperature_factor(p.mineralisation.q10, celsius),
            nitrification: temperature_factor(p.nitrification.q10, celsius),
            denitrification: temperature_factor(p.denitrification.q10, celsius),
            bacteria: temperature_factor(p.bacteria.q10, celsius),
            display: temperature_factor(p.display.q10, celsius),
        };
        let equilibria = water.equilibria(&EquilibriumOptions::default())?;
        let mut model = Self {
            tank,
            parameters,
            dosing,
            relative_tolerance,
            factors,
            ratios: Ratios {
                oxygen_per_carbon: PhotosyntheticQuotient::ALGAL_BIOMASS.oxygen_per_carbon(),
                bacteria_n_per_c: 1.0 / p.bacteria.carbon_to_nitrogen,
                bacteria_p_per_c: 1.0 / p.bacteria.carbon_to_phosphorus,
            },
            paths: clearances(tank, parameters, &water)?,
            full_kg,
            floors: floors(full_kg),
            follower: equilibria.follower(),
            oxygen_equilibrium: 0.0,
            density_kg_per_m3: 0.0,
            turf: TurfEnvironment::new(&p.turf, celsius, tank.screen.lit_area_m2()),
            display_lit: 0.0,
            foam_duty: 0.0,
            iron_oxide_grams: 0.0,
            tops_off: true,
        };
        model.turf.settlement_per_day = p.screen.settlement_per_day;
        model.set(switches, tank.practical_salinity)?;
        Ok(model)
    }

    pub(crate) fn ratios(&self) -> &Ratios {
        &self.ratios
    }

    pub(crate) fn full_kg(&self) -> f64 {
        self.full_kg
    }

    pub(crate) fn density_kg_per_m3(&self) -> f64 {
        self.density_kg_per_m3
    }

    pub(crate) fn oxygen_equilibrium(&self) -> f64 {
        self.oxygen_equilibrium
    }

    pub(crate) fn follower(&self) -> CarbonateFollower {
        self.follower
    }

    pub(crate) fn dosing(&self) -> Dosing {
        self.dosing
    }

    pub(crate) fn set_dosing(&mut self, dosing: Dosing) {
        self.dosing = dosing;
    }

    pub(crate) fn set_roughness(&mut self, roughness: f64) {
        self.turf.holding = roughness;
    }

    /// Sets everything that stays as it is until the next switch.
    pub(crate) fn set(&mut self, switches: &Switches, practical_salinity: f64) -> Result<()> {
        let tank = self.tank;
        let water = water_of(tank, practical_salinity)?;
        let equilibria = water.equilibria(&EquilibriumOptions::default())?;
        self.follower = equilibria.follower();
        self.oxygen_equilibrium = oxygen_solubility(&water)?.value().mol_per_kg();
        self.density_kg_per_m3 = water.density()?.kg_per_m3();

        let co2_at = |ppm: f64| -> Result<f64> {
            let dry = DryMoleFractionCo2::from_ppm(ppm)?;
            let pressure = co2_partial_pressure(dry, &water)?.value();
            Ok(pressure.uatm()
                * 1e-6
                * equilibria.co2_fugacity_coefficient()
                * equilibria.k0_mol_per_kg_atm())
        };
        let room = co2_at(switches.room_co2_ppm)?;
        let foam = match &tank.foam_fractionator {
            Some(f) => co2_at(f.air_co2_ppm)?,
            None => room,
        };
        let running = if switches.pump_runs { 1.0 } else { 0.0 };
        let flow_share = running * switches.screen_flow_share;
        let film = if flow_share * tank.screen.flow_l_per_h_per_cm > 0.0 {
            1.0
        } else {
            0.0
        };
        for (path, (open, equilibrium)) in
            self.paths
                .iter_mut()
                .zip([(1.0, room), (running, room), (film, room), (running, foam)])
        {
            path.open = open;
            path.co2_equilibrium = equilibrium;
        }
        self.foam_duty = if tank.foam_fractionator.is_some() {
            running
        } else {
            0.0
        };

        let p = self.parameters;
        let lit = switches.screen_lit && switches.screen_lamp_works;
        let irradiance = if lit {
            tank.screen.irradiance_umol_per_m2_s * p.lamp.photon_worth * switches.lamp_share
        } else {
            0.0
        };
        let flow = p.screen.flow(tank.screen.flow_l_per_h_per_cm * flow_share);
        self.turf = self
            .turf
            .with_irradiance(&p.turf, irradiance)
            .with_flow(flow.transfer_m_per_day);
        self.turf.holding = switches.roughness;
        self.display_lit = if switches.display_lit { 1.0 } else { 0.0 };
        self.iron_oxide_grams = switches.iron_oxide_grams;
        self.tops_off = switches.tops_off;
        Ok(())
    }

    /// The turf of a state.
    pub(crate) fn turf_stock(y: &[f64; Stock::COUNT]) -> TurfStock {
        let [.., carbon_mol, nitrogen_mol, phosphorus_mol, cover, reserve] = *y;
        TurfStock {
            carbon_mol,
            nitrogen_mol,
            phosphorus_mol,
            cover,
            reserve,
        }
    }

    fn turf_rates(&self, y: &[f64; Stock::COUNT], water: &TurfWater) -> TurfRates {
        turf_rates(
            &self.parameters.turf,
            &self.turf,
            &Self::turf_stock(y),
            water,
        )
    }

    /// Every flow at a state.
    #[inline]
    fn flows(&mut self, y: &[f64; Stock::COUNT], flows: &mut [f64; Flow::COUNT]) {
        // An index is a variant of the enum the array is sized by.
        #[allow(clippy::indexing_slicing)]
        let amount = |s: Stock| y[s as usize];
        let mut put = |flow: Flow, value: f64| {
            #[allow(clippy::indexing_slicing)]
            {
                flows[flow as usize] = value;
            }
        };
        let p = self.parameters;
        let tank = self.tank;
        let kg = amount(Stock::Water);
        let per_kg = 1.0 / kg;
        let content = |s: Stock| amount(s) * per_kg;

        let ammonium = content(Stock::Ammonium);
        let nitrate = content(Stock::Nitrate);
        let phosphate = content(Stock::Phosphate);
        let oxygen = content(Stock::Oxygen);
        let dic = content(Stock::InorganicCarbon);
        let (co2, carbonate) =
            self.follower
                .co2_and_carbonate(content(Stock::Alkalinity), dic, ammonium, phosphate);

        let exchange = |path: Path| {
            #[allow(clippy::indexing_slicing)]
            let x = &self.paths[path as usize];
            (
                x.open * x.co2_kg_per_day * (x.co2_equilibrium - co2),
                x.open * x.o2_kg_per_day * (self.oxygen_equilibrium - oxygen),
            )
        };
        for (path, co2_flow, o2_flow) in [
            (Path::Surface, Flow::SurfaceCo2, Flow::SurfaceO2),
            (Path::Overflow, Flow::OverflowCo2, Flow::OverflowO2),
            (Path::Film, Flow::FilmCo2, Flow::FilmO2),
            (Path::Foam, Flow::FoamCo2, Flow::FoamO2),
        ] {
            let (co2, o2) = exchange(path);
            put(co2_flow, co2);
            put(o2_flow, o2);
        }

        let gut = OrganicMatter {
            carbon: amount(Stock::GutC),
            nitrogen: amount(Stock::GutN),
            phosphorus: amount(Stock::GutP),
        };
        let fed = livestock_rates(gut, oxygen, &p.livestock);
        put(Flow::ExcretionN, fed.excreted_nitrogen);
        put(Flow::ExcretionP, fed.excreted_phosphorus);
        put(Flow::LivestockRespiration, fed.respired_carbon);
        put(Flow::FaecesC, fed.faeces.carbon);
        put(Flow::FaecesN, fed.faeces.nitrogen);
        put(Flow::FaecesP, fed.faeces.phosphorus);
        put(Flow::RetentionC, fed.retained.carbon);
        put(Flow::RetentionN, fed.retained.nitrogen);
        put(Flow::RetentionP, fed.retained.phosphorus);
        let fasting = fasting_rates(
            tank.livestock_grams,
            fed.respired_carbon,
            oxygen,
            self.factors.livestock,
            &p.livestock,
        );
        put(Flow::FastingC, fasting.respired_carbon);
        put(Flow::FastingN, fasting.excreted_nitrogen);

        let detritus = OrganicMatter {
            carbon: amount(Stock::DetritusC),
            nitrogen: amount(Stock::DetritusN),
            phosphorus: amount(Stock::DetritusP),
        };
        let dissolved = OrganicMatter {
            carbon: amount(Stock::DissolvedOrganicC),
            nitrogen: amount(Stock::DissolvedOrganicN),
            phosphorus: amount(Stock::DissolvedOrganicP),
        };
        let mineralised = |matter, share| {
            mineralisation_rates(
                matter,
                share,
                oxygen,
                self.factors.mineralisation,
                &p.mineralisation,
            )
        };
        let of_detritus = mineralised(detritus, p.mineralisation.particulate_per_day);
        put(Flow::DetritusToDic, of_detritus.carbon);
        put(Flow::DetritusToAmmonium, of_detritus.nitrogen);
        put(Flow::DetritusToPhosphate, of_detritus.phosphorus);
        let of_dissolved = mineralised(dissolved, p.mineralisation.dissolved_per_day);
        put(Flow::DissolvedToDic, of_dissolved.carbon);
        put(Flow::DissolvedToAmmonium, of_dissolved.nitrogen);
        put(Flow::DissolvedToPhosphate, of_dissolved.phosphorus);

        put(
            Flow::Nitrified,
            nitrification(
                ammonium,
                oxygen,
                tank.rock_area_m2,
                self.factors.nitrification,
                &p.nitrification,
            ),
        );
        put(
            Flow::Denitrified,
            denitrification(
                nitrate,
                detritus.carbon,
                tank.rock_area_m2,
                self.factors.denitrification,
                &p.denitrification,
            ),
        );
        put(
            Flow::BoundP,
            iron_oxide_uptake(
                phosphate,
                amount(Stock::MediumP),
                self.iron_oxide_grams,
                &p.iron_oxide,
            ),
        );
        let bacteria = amount(Stock::BacteriaC);
        let foam = foam_rates(dissolved, detritus, bacteria, self.foam_duty, &p.foam);
        put(Flow::FoamDissolvedC, foam.dissolved.carbon);
        put(Flow::FoamDissolvedN, foam.dissolved.nitrogen);
        put(Flow::FoamDissolvedP, foam.dissolved.phosphorus);
        put(Flow::FoamDetritusC, foam.particulate.carbon);
        put(Flow::FoamDetritusN, foam.particulate.nitrogen);
        put(Flow::FoamDetritusP, foam.particulate.phosphorus);
        put(Flow::FoamBacteria, foam.bacterial_carbon);

        let dosed_carbon = content(Stock::DosedC);
        // Most tanks dose no carbon; then these bacteria do nothing.
        let grown = if dosed_carbon > 0.0 {
            let supply = BacterialSupply {
                dosed_carbon,
                ammonia: ammonium,
                nitrate,
                phosphate,
                oxygen,
            };
            bacterial_rates(bacteria, supply, kg, self.factors.bacteria, &p.bacteria)
        } else {
            BacterialRates::default()
        };
        put(Flow::BacteriaGrowth, grown.growth_carbon);
        put(Flow::BacteriaRespiration, grown.respired_carbon);
        put(Flow::BacteriaOxygen, grown.oxygen);
        put(Flow::BacteriaAmmonium, grown.ammonia);
        put(Flow::BacteriaNitrate, grown.nitrate);
        put(Flow::BacteriaPhosphate, grown.phosphate);
        put(
            Flow::BacteriaDeath,
            bacterial_death(bacteria, self.factors.bacteria, &p.bacteria).carbon,
        );

        let turf = self.turf_rates(
            y,
            &TurfWater {
                ammonium,
                nitrate,
                phosphate,
                inorganic_carbon: dic,
                oxygen,
                density_kg_per_m3: self.density_kg_per_m3,
            },
        );
        put(Flow::TurfFixation, turf.fixation_c);
        put(Flow::TurfExudation, turf.exudation_c);
        put(Flow::TurfRespiration, turf.respiration_c);
        put(Flow::TurfNitrate, turf.nitrate_uptake);
        put(Flow::TurfAmmonium, turf.ammonium_uptake);
        put(Flow::TurfPhosphate, turf.phosphate_uptake);
        put(Flow::TurfLostC, turf.loss_per_day * amount(Stock::TurfC));
        put(Flow::TurfLostN, turf.loss_per_day * amount(Stock::TurfN));
        put(Flow::TurfLostP, turf.loss_per_day * amount(Stock::TurfP));
        put(Flow::CoverChange, turf.cover_per_day);
        put(Flow::ReserveChange, turf.reserve_per_day);

        let saturation = self
            .follower
            .aragonite_saturation(carbonate, content(Stock::Calcium));
        let cations = RelativeCations::of(
            content(Stock::Calcium),
            content(Stock::Magnesium),
            content(Stock::Strontium),
        );
        let lit = self.display_lit;
        let coral = coral_calcification(tank.coral_area_m2, saturation, cations, lit, &p.coral);
        put(Flow::CoralCarbonate, coral.carbonate);
        put(Flow::CoralMagnesium, coral.magnesium);
        put(Flow::CoralStrontium, coral.strontium);
        let crust = coralline_calcification(
            tank.coralline_area_m2,
            saturation,
            cations,
            lit,
            &p.coralline,
        );
        put(Flow::CorallineCarbonate, crust.carbonate);
        put(Flow::CorallineMagnesium, crust.magnesium);
        put(Flow::CorallineStrontium, crust.strontium);
        let display = display_rates(
            tank.living_area_m2,
            self.display_lit,
            dic,
            oxygen,
            self.factors.display,
            &p.display,
        );
        put(Flow::DisplayFixation, display.photosynthesis);
        put(Flow::DisplayRespiration, display.respiration);

        let evaporated = tank.evaporation_l_per_day * FRESH_WATER_KG_PER_L;
        let topped_off = if self.tops_off {
            top_off_kg_per_day(evaporated, kg, self.full_kg, &p.top_off)
        } else {
            0.0
        };
        put(Flow::Evaporated, evaporated);
        put(Flow::ToppedOff, topped_off);

        let d = &self.dosing;
        put(
            Flow::Limewater,
            d.limewater_mol_per_l * topped_off / FRESH_WATER_KG_PER_L,
        );
        put(Flow::Bicarbonate, d.bicarbonate_mol_per_day);
        put(Flow::Carbonate, d.carbonate_mol_per_day);
        put(Flow::Hydroxide, d.hydroxide_mol_per_day);
        put(Flow::CalciumChloride, d.calcium_mol_per_day);
        put(Flow::MagnesiumSalt, d.magnesium_mol_per_day);
        put(Flow::NitrateSalt, d.nitrate_mol_per_day);
        put(Flow::PhosphateSalt, d.phosphate_mol_per_day);
        put(Flow::OrganicCarbon, d.organic_carbon_mol_per_day);
        put(Flow::ReactorCarbonate, d.reactor_mol_per_day);
        put(
            Flow::ReactorCo2,
            d.reactor_mol_per_day * (1.0 + d.reactor_excess_co2_per_mol),
        );
    }
}

impl System<STATES, { Stock::COUNT }> for Model<'_> {
    fn derivatives(
        &mut self,
        _time: f64,
        stocks: &[f64; Stock::COUNT],
        derivatives: &mut [f64; STATES],
    ) {
        let Some((change, carried)) = derivatives.split_first_chunk_mut::<{ Stock::COUNT }>()
        else {
            return;
        };
        let Some(flows) = carried.first_chunk_mut::<{ Flow::COUNT }>() else {
            return;
        };
        self.flows(stocks, flows);
        change_of_stocks(flows, &self.ratios, change);
    }

    fn scale(&self, index: usize, value: f64) -> f64 {
        let floor = self.floors.get(index).copied().unwrap_or(1.0);
        self.relative_tolerance * value.max(floor)
    }

    fn least(&self, index: usize) -> f64 {
        // Acid water has less than no alkalinity; all else is an amount, short of
        // zero by no more than a few tolerances.
        if index == Stock::Alkalinity as usize {
            f64::NEG_INFINITY
        } else {
            -10.0 * self.scale(index, 0.0)
        }
    }
}

/// Density of top-off and evaporated water, kg/L: pure water at 25 °C (EOS-80).
const FRESH_WATER_KG_PER_L: f64 = 0.99705;

/// Carbon of detritus per nitrogen and phosphorus, and its dry mass per mole of
/// carbon, for detritus a tank starts with: the Redfield ratio, 45 % carbon.
pub(crate) const DETRITUS_C_N_P: [f64; 3] = [1.0, 16.0 / 106.0, 1.0 / 106.0];
pub(crate) const DETRITUS_G_PER_MOL_C: f64 = form::InorganicCarbonAsC::GRAMS_PER_MOL / 0.45;

/// The water of a tank at a salinity. Its conditions move within what the
/// relations cover; a tank beyond is refused by them, except that evaporation
/// between top-offs may carry it a little past an end.
pub(crate) fn water_of(tank: &Tank, practical_salinity: f64) -> Result<Water> {
    Ok(Water::new(
        Temperature::from_celsius(tank.temperature_celsius)?,
        PracticalSalinity::new(practical_salinity)?,
    )
    .with_air_pressure(AirPressure::from_atm(tank.air.pressure_atm)?)
    .with_extrapolation(Extrapolation::Refuse))
}

/// Water cleared per day over each path while it is open.
fn clearances(
    tank: &Tank,
    parameters: &Parameters,
    water: &Water,
) -> Result<[PathExchange; PATHS]> {
    let g = &parameters.gas_transfer;
    let air = Air::new(DryMoleFractionCo2::from_ppm(tank.air.co2_ppm)?);
    let basis = TransferBasis::new(GasKind::Oxygen, Temperature::from_celsius(20.0)?);
    let kg_per_l = water.density()?.kg_per_l();
    let wetted = |velocity_cm_per_h: f64, area_m2: f64, kind: PathKind| -> Result<PathExchange> {
        let velocity = TransferVelocity::from_cm_per_h(velocity_cm_per_h)?;
        let path = ExchangePath::from_velocity(kind, velocity, Area::from_m2(area_m2)?, basis, air);
        let cleared =
            |gas| -> Result<f64> { Ok(path.clearance_l_per_day(gas, water)?.value() * kg_per_l) };
        Ok(PathExchange {
            co2_kg_per_day: cleared(GasKind::CarbonDioxide)?,
            o2_kg_per_day: cleared(GasKind::Oxygen)?,
            ..PathExchange::default()
        })
    };
    // Water that passes once and leaves a share of itself in equilibrium.
    let passing = |l_per_h: f64, share: f64| -> Result<PathExchange> {
        let flow = FlowRate::from_l_per_h(l_per_h)?.l_per_h() * 24.0 * kg_per_l;
        let cleared = |gas| -> Result<f64> {
            let faster = basis.factor(gas, water)?.value();
            // The share reached over the same time at a faster or slower transfer.
            Ok(flow * (1.0 - (1.0 - share).powf(faster)))
        };
        Ok(PathExchange {
            co2_kg_per_day: cleared(GasKind::CarbonDioxide)?,
            o2_kg_per_day: cleared(GasKind::Oxygen)?,
            ..PathExchange::default()
        })
    };
    let screen = &tank.screen;
    // The film runs down both faces, lit or not.
    let film_m2 = 2.0 * screen.width_cm * screen.height_cm * 1e-4;
    let foam_l_per_h = tank.foam_fractionator.map_or(0.0, |f| f.water_l_per_h);
    Ok([
        wetted(
            g.surface_cm_per_h,
            tank.surface_area_m2,
            PathKind::OpenSurface,
        )?,
        passing(tank.overflow_l_per_h, g.overflow_equilibrated_share)?,
        wetted(g.film_cm_per_h, film_m2, PathKind::FallingFilm)?,
        passing(foam_l_per_h, g.foam_equilibrated_share)?,
    ])
}

/// Amounts below which the error of a stock is controlled absolutely.
fn floors(kg: f64) -> [f64; Stock::COUNT] {
    let mut floors = [0.0; Stock::COUNT];
    for (floor, &stock) in floors.iter_mut().zip(Stock::ALL) {
        *floor = match stock {
            Stock::Alkalinity | Stock::InorganicCarbon => 1e-3 * kg,
            Stock::Oxygen | Stock::Strontium => 1e-4 * kg,
            Stock::Ammonium | Stock::Phosphate => 2e-7 * kg,
            Stock::Nitrate => 1e-6 * kg,
            Stock::Calcium | Stock::Magnesium => 1e-2 * kg,
            Stock::DissolvedOrganicC | Stock::DetritusC | Stock::DosedC => 2e-5 * kg,
            Stock::BacteriaC => 2e-6 * kg,
            Stock::DissolvedOrganicN | Stock::DetritusN => 2e-6 * kg,
            Stock::DissolvedOrganicP | Stock::DetritusP | Stock::MediumP => 2e-7 * kg,
            Stock::GutC => 1e-3,
            Stock::GutN => 1e-4,
            Stock::GutP => 1e-5,
            Stock::Water => kg,
            Stock::Salt => 35.0 * kg,
            Stock::TurfC => 1e-3,
            Stock::TurfN => 1e-4,
            Stock::TurfP => 1e-5,
            Stock::Cover | Stock::Reserve => 0.1,
        };
    }
    floors
}
