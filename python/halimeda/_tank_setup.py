"""What stands there and what is done with it, as a description says.

The fields are those of the description after its quantities were converted: every
number carries its unit in its name.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from halimeda._record import Record


@dataclass(frozen=True)
class InitialWater(Record):
    """What is dissolved at the start."""

    alkalinity_umol_per_kg: float
    inorganic_carbon_umol_per_kg: float | None
    """None where the water starts in equilibrium with the room's air."""
    oxygen_saturation: float
    """Share of saturation."""
    ammonia_umol_per_kg: float
    nitrate_umol_per_kg: float
    phosphate_umol_per_kg: float
    calcium_umol_per_kg: float
    magnesium_umol_per_kg: float
    strontium_umol_per_kg: float
    detritus_dry_grams: float


@dataclass(frozen=True)
class RoomAir(Record):
    """The air over the water."""

    co2_ppm: float
    pressure_atm: float


@dataclass(frozen=True)
class FoamFractionator(Record):
    """A foam fractionator."""

    water_l_per_h: float
    air_co2_ppm: float


@dataclass(frozen=True)
class Screen(Record):
    """The screen with its lamps and its water."""

    width_cm: float
    """Along the pipe that feeds it."""
    height_cm: float
    lit_faces: int
    irradiance_umol_per_m2_s: float
    """On each lit face of a new lamp."""
    flow_l_per_h_per_cm: float
    age_days: float
    lamp_hours: float
    turf_g_dry_per_m2: float

    @property
    def lit_area_m2(self) -> float:
        """Lit area over all faces, m²."""
        return self.width_cm * self.height_cm * 1e-4 * self.lit_faces


@dataclass(frozen=True)
class StandingTank(Record):
    """What stands there: the water, the air over it, what lives in it, the screen."""

    name: str
    net_volume_l: float
    temperature_celsius: float
    practical_salinity: float
    water: InitialWater
    air: RoomAir
    surface_area_m2: float
    overflow_l_per_h: float
    rock_area_m2: float
    living_area_m2: float
    coral_area_m2: float
    coralline_area_m2: float
    livestock_grams: float
    iron_oxide_grams: float
    foam_fractionator: FoamFractionator | None
    evaporation_l_per_day: float
    screen: Screen


@dataclass(frozen=True)
class Photoperiod(Record):
    """A daily stretch of light."""

    start_hour: float
    hours: float


@dataclass(frozen=True)
class FeedComposition(Record):
    """What a feed of your own is made of."""

    water_fraction: float
    protein_fraction_of_dry: float
    phosphorus_fraction_of_dry: float
    carbon_fraction_of_dry: float


@dataclass(frozen=True)
class Feeding(Record):
    """One daily feeding."""

    hour: float
    grams: float
    kind: str
    """``"pellet"``, ``"frozen"``, ``"dried_macroalgae"`` or ``"custom"``."""
    composition: FeedComposition | None

    @staticmethod
    def _plain(plain: Mapping[str, Any]) -> Mapping[str, Any]:
        kind = plain["kind"]
        if isinstance(kind, str):
            return {**plain, "composition": None}
        [(name, composition)] = kind.items()
        return {**plain, "kind": name, "composition": composition}


@dataclass(frozen=True)
class HarvestPlan(Record):
    """Harvests of the screen."""

    every_days: float
    first_day: float
    kept_share: float
    """Share of the turf left on the screen."""
    fed_back_share: float


@dataclass(frozen=True)
class NewWater(Record):
    """Freshly mixed water."""

    practical_salinity: float
    alkalinity_umol_per_kg: float
    calcium_umol_per_kg: float
    magnesium_umol_per_kg: float
    strontium_umol_per_kg: float
    nitrate_umol_per_kg: float
    phosphate_umol_per_kg: float


@dataclass(frozen=True)
class WaterChangePlan(Record):
    """Water changes."""

    every_days: float
    first_day: float
    share: float
    """Share of the system's water replaced."""
    water: NewWater


@dataclass(frozen=True)
class Dosing(Record):
    """What is dosed per day, in moles of the substance."""

    bicarbonate_mol_per_day: float
    carbonate_mol_per_day: float
    hydroxide_mol_per_day: float
    calcium_mol_per_day: float
    magnesium_mol_per_day: float
    nitrate_mol_per_day: float
    phosphate_mol_per_day: float
    organic_carbon_mol_per_day: float
    limewater_mol_per_l: float
    """Calcium hydroxide per litre of top-off."""
    reactor_mol_per_day: float
    """Calcium carbonate dissolved by a calcium reactor."""
    adjusted_every_days: float | None
    """Days between tests after which doses are adjusted; None if they stay."""
    reactor_excess_co2_per_mol: float


@dataclass(frozen=True)
class Event(Record):
    """Something that happens on a day."""

    day: float
    kind: str
    """``"screen_lamp_fails"``, ``"pump_stops"``, ``"harvest"`` and so on."""
    details: dict[str, Any]
    """What belongs to it, such as ``{"share": 0.5}``."""

    @staticmethod
    def _plain(plain: Mapping[str, Any]) -> Mapping[str, Any]:
        event = plain["event"]
        if isinstance(event, str):
            return {"day": plain["day"], "kind": event, "details": {}}
        [(kind, details)] = event.items()
        return {"day": plain["day"], "kind": kind, "details": details}


@dataclass(frozen=True)
class Schedule(Record):
    """What comes round: light, food, harvests, water changes, dosing."""

    display_light: Photoperiod
    screen_light: Photoperiod
    feedings: tuple[Feeding, ...]
    harvest: HarvestPlan | None
    water_change: WaterChangePlan | None
    salinity_check_every_days: float | None
    dosing: Dosing
    events: tuple[Event, ...]


@dataclass(frozen=True)
class Setup(Record):
    """A tank and what is done with it."""

    tank: StandingTank
    schedule: Schedule


@dataclass(frozen=True)
class Band(Record):
    """Limits to stay within."""

    low: float
    high: float


@dataclass(frozen=True)
class Goals(Record):
    """What the keeper wants of the water.

    Where the description asks for nothing it is common practice (no source), and
    for un-ionised ammonia the limit for days of exposure of the US EPA.
    """

    nitrate_mg_per_l: Band
    """As NO3, nine tenths of the time."""
    phosphate_mg_per_l: Band
    """As PO4, nine tenths of the time."""
    daily_ph_swing: float
    night_oxygen_saturation: float
    """Share of saturation."""
    alkalinity_drift_umol_per_kg_per_day: float
    unionised_ammonia_mg_per_l: float
    """As NH3."""


@dataclass(frozen=True)
class Assumption(Record):
    """What a description leaves open and is assumed in its place."""

    key: str
    assumed: str
