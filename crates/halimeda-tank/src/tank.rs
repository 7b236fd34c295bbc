use halimeda::dosing::Salt;
use halimeda::process::FeedKind;
use serde::{Deserialize, Serialize};

/// A tank and what is done with it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Setup {
    /// What stands there.
    pub tank: Tank,
    /// What comes round and what happens.
    pub schedule: Schedule,
}

impl Setup {
    /// Checks every number of both against its limits.
    ///
    /// # Errors
    /// As [`Tank::check`] and [`Schedule::check`].
    pub fn check(&self) -> crate::Result<()> {
        self.tank.check()?;
        self.schedule.check()
    }
}

/// What stands there: the water, the air over it, what lives in it, and the
/// screen. Numbers carry their unit in their name.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Tank {
    /// Name, for reports.
    pub name: String,
    /// Net volume of the whole system: gross less rock and sand, L.
    pub net_volume_l: f64,
    /// Temperature, °C.
    pub temperature_celsius: f64,
    /// Practical salinity.
    pub practical_salinity: f64,
    /// What is dissolved at the start.
    pub water: InitialWater,
    /// The air over the water.
    pub air: RoomAir,
    /// Open water surface of tank and sump, m².
    pub surface_area_m2: f64,
    /// Water over the overflow, L/h; 0 if there is none.
    pub overflow_l_per_h: f64,
    /// Surface of rock and sand that bacteria live on, m².
    pub rock_area_m2: f64,
    /// Living surface of corals and algae of the display, m²: what photosynthesises
    /// and respires.
    pub living_area_m2: f64,
    /// Coral tissue that calcifies, m².
    pub coral_area_m2: f64,
    /// Crusts of coralline algae, m².
    pub coralline_area_m2: f64,
    /// Fed animals, g.
    pub livestock_grams: f64,
    /// Dry iron-oxide medium in use, g; 0 for none.
    pub iron_oxide_grams: f64,
    /// Air drawn by a foam fractionator; none if there is none.
    pub foam_fractionator: Option<FoamFractionatorSetup>,
    /// Evaporation, L of fresh water per day.
    pub evaporation_l_per_day: f64,
    /// The screen.
    pub screen: ScreenSetup,
}

/// What is dissolved at the start.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct InitialWater {
    /// Total alkalinity, µmol/kg.
    pub alkalinity_umol_per_kg: f64,
    /// Dissolved inorganic carbon, µmol/kg; without it the water starts in
    /// equilibrium with the room's air.
    pub inorganic_carbon_umol_per_kg: Option<f64>,
    /// Dissolved oxygen, share of saturation.
    pub oxygen_saturation: f64,
    /// Total ammonia, µmol/kg.
    pub ammonia_umol_per_kg: f64,
    /// Nitrate, µmol/kg.
    pub nitrate_umol_per_kg: f64,
    /// Phosphate, µmol/kg.
    pub phosphate_umol_per_kg: f64,
    /// Calcium, µmol/kg.
    pub calcium_umol_per_kg: f64,
    /// Magnesium, µmol/kg.
    pub magnesium_umol_per_kg: f64,
    /// Strontium, µmol/kg.
    pub strontium_umol_per_kg: f64,
    /// Detritus in rock and sump, g of dry mass.
    pub detritus_dry_grams: f64,
}

/// The air over the water.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct RoomAir {
    /// CO2 in dry air, ppm.
    pub co2_ppm: f64,
    /// Pressure, atm.
    pub pressure_atm: f64,
}

/// A foam fractionator.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct FoamFractionatorSetup {
    /// Water through it, L/h.
    pub water_l_per_h: f64,
    /// CO2 of the air it draws, ppm: the room's, outside's, or after an absorbent.
    pub air_co2_ppm: f64,
}

/// The screen with its lamps and its water.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct ScreenSetup {
    /// Width, cm: along the pipe that feeds it.
    pub width_cm: f64,
    /// Height, cm: along the fall of the water.
    pub height_cm: f64,
    /// Lit faces, 1 or 2.
    pub lit_faces: u8,
    /// Irradiance on each lit face of a new lamp, µmol m⁻² s⁻¹.
    pub irradiance_umol_per_m2_s: f64,
    /// Water over the screen per width, L/h per cm.
    pub flow_l_per_h_per_cm: f64,
    /// Age of the screen's use at the start, d.
    pub age_days: f64,
    /// Burning hours of the lamps at the start.
    pub lamp_hours: f64,
    /// Turf at the start, g of dry mass per m² of lit area; a new screen has
    /// none and greens from what drifts past.
    pub turf_g_dry_per_m2: f64,
}

impl ScreenSetup {
    /// Lit area over all faces, m².
    #[must_use]
    pub fn lit_area_m2(&self) -> f64 {
        self.width_cm * self.height_cm * 1e-4 * f64::from(self.lit_faces)
    }
}

/// A daily stretch of light.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Photoperiod {
    /// Hour of the day at which it begins, 0 to 24.
    pub start_hour: f64,
    /// Its length, h, 0 (never) to 24 (always).
    pub hours: f64,
}

/// One daily feeding.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Feeding {
    /// Hour of the day.
    pub hour: f64,
    /// Mass as fed, g.
    pub grams: f64,
    /// What is fed.
    pub kind: FeedKind,
}

/// What comes round: light, food, harvests, water changes, dosing.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Schedule {
    /// Light over the display.
    pub display_light: Photoperiod,
    /// Light over the screen.
    pub screen_light: Photoperiod,
    /// Daily feedings.
    pub feedings: Vec<Feeding>,
    /// Harvests of the screen; none if never.
    pub harvest: Option<HarvestPlan>,
    /// Water changes; none if never.
    pub water_change: Option<WaterChangePlan>,
    /// Days between checks of salinity, at which water grown too salty by dosing is
    /// partly replaced by fresh water; none if never.
    pub salinity_check_every_days: Option<f64>,
    /// Dosing, spread evenly over the day.
    pub dosing: Dosing,
    /// What happens once, on a day.
    pub events: Vec<DatedEvent>,
}

/// Harvests of the screen.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct HarvestPlan {
    /// Days between harvests.
    pub every_days: f64,
    /// Day of the first harvest.
    pub first_day: f64,
    /// Share of the turf left on the screen, 0 to 1.
    pub kept_share: f64,
    /// Share of the harvest fed back to the animals, 0 to 1.
    pub fed_back_share: f64,
}

/// Water changes with freshly mixed water.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct WaterChangePlan {
    /// Days between changes.
    pub every_days: f64,
    /// Day of the first change.
    pub first_day: f64,
    /// Share of the system's water replaced, 0 to 1.
    pub share: f64,
    /// The new water.
    pub water: NewWater,
}

/// Freshly mixed water.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct NewWater {
    /// Practical salinity.
    pub practical_salinity: f64,
    /// Total alkalinity, µmol/kg.
    pub alkalinity_umol_per_kg: f64,
    /// Calcium, µmol/kg.
    pub calcium_umol_per_kg: f64,
    /// Magnesium, µmol/kg.
    pub magnesium_umol_per_kg: f64,
    /// Strontium, µmol/kg.
    pub strontium_umol_per_kg: f64,
    /// Nitrate, µmol/kg.
    pub nitrate_umol_per_kg: f64,
    /// Phosphate, µmol/kg.
    pub phosphate_umol_per_kg: f64,
}

/// What is dosed per day, in moles of the substance.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct Dosing {
    /// Sodium bicarbonate, mol/d.
    pub bicarbonate_mol_per_day: f64,
    /// Sodium carbonate, mol/d.
    pub carbonate_mol_per_day: f64,
    /// Sodium hydroxide, mol/d.
    pub hydroxide_mol_per_day: f64,
    /// Calcium chloride, mol/d.
    pub calcium_mol_per_day: f64,
    /// Magnesium chloride and sulfate, mol/d.
    pub magnesium_mol_per_day: f64,
    /// Nitrate, mol/d.
    pub nitrate_mol_per_day: f64,
    /// Phosphate, as dihydrogen phosphate, mol/d.
    pub phosphate_mol_per_day: f64,
    /// Organic carbon (vinegar, ethanol, sugar), mol C/d.
    pub organic_carbon_mol_per_day: f64,
    /// Calcium hydroxide in the top-off water, mol per L of top-off.
    pub limewater_mol_per_l: f64,
    /// Calcium carbonate dissolved by a calcium reactor, mol/d.
    pub reactor_mol_per_day: f64,
    /// Days between tests of alkalinity, calcium and magnesium; none if doses stay as
    /// they are. After each test the doses of bicarbonate, calcium and magnesium are
    /// set to what was used up since the last, and what brings the contents back to
    /// those of the start by the next.
    pub adjusted_every_days: Option<f64>,
    /// CO2 left in the reactor's effluent per calcium carbonate dissolved, mol/mol, beyond
    /// the one mole that dissolves it.
    pub reactor_excess_co2_per_mol: f64,
}

/// Something that happens on a day.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct DatedEvent {
    /// Time since the start, d.
    pub day: f64,
    /// What happens.
    pub event: Event,
}

/// What can happen once.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum Event {
    /// The lamps of the screen fail; they stay dark until repaired.
    ScreenLampFails,
    /// The lamps of the screen burn again.
    ScreenLampRepaired,
    /// The water over the screen drops to a share of its flow; 0 is none.
    ScreenFlowDrops {
        /// Share of the flow left, 0 to 1.
        share: f64,
    },
    /// The water over the screen flows as it should again.
    ScreenFlowRestored,
    /// The main pump stops: no overflow, no screen, no foam fractionator.
    PumpStops,
    /// The main pump runs again.
    PumpRestored,
    /// Feeding stops.
    FeedingStops,
    /// Feeding starts again.
    FeedingResumes,
    /// Feeding changes to a multiple of the schedule's.
    FeedingScaled {
        /// Multiple of the schedule's feedings.
        factor: f64,
    },
    /// Planned harvests are left out from now on.
    HarvestsStop,
    /// Planned harvests take place again.
    HarvestsResume,
    /// Nobody is there from now on to harvest, change water, correct salinity or
    /// adjust doses; feeding, top-off and dosing go on.
    KeeperLeaves,
    /// The keeper is back.
    KeeperReturns,
    /// The top-off stops: what evaporates is not replaced.
    TopOffStops,
    /// The top-off runs again.
    TopOffRestored,
    /// A harvest outside the plan.
    Harvest {
        /// Share of the turf left on the screen, 0 to 1.
        kept_share: f64,
        /// Share of the harvest fed back to the animals, 0 to 1.
        fed_back_share: f64,
    },
    /// A new, bare screen.
    NewScreen,
    /// New lamps over the screen.
    NewScreenLamp,
    /// Fresh iron-oxide medium.
    NewIronOxide {
        /// Dry mass, g.
        grams: f64,
    },
    /// The room's air changes.
    RoomCo2 {
        /// CO2 in dry air, ppm.
        ppm: f64,
    },
    /// A feeding outside the plan: it takes place whatever is planned or stopped.
    Feeding {
        /// Mass as fed, g.
        grams: f64,
        /// What is fed.
        kind: FeedKind,
    },
    /// A water change outside the plan.
    WaterChange {
        /// Share of the system's water replaced, 0 to 1.
        share: f64,
        /// The new water.
        water: NewWater,
    },
    /// A salt dosed by hand, all at once.
    Dose {
        /// The salt.
        salt: Salt,
        /// Its mass, g.
        grams: f64,
    },
}

impl Event {
    /// Whether something begins that goes on until another event ends it.
    pub(crate) const fn begins(&self) -> bool {
        matches!(
            self,
            Self::ScreenLampFails
                | Self::ScreenFlowDrops { .. }
                | Self::PumpStops
                | Self::FeedingStops
                | Self::FeedingScaled { .. }
                | Self::HarvestsStop
                | Self::KeeperLeaves
                | Self::TopOffStops
        )
    }
}
