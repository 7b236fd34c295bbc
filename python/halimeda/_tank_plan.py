"""Answers to a keeper's questions about a tank."""

# The modules of a tank know each other, and hold what comes from without to its kind.
# pyright: reportPrivateUsage=false, reportUnnecessaryIsInstance=false

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, cast

from halimeda import _native
from halimeda._record import Record, built
from halimeda._tank import Tank
from halimeda._tank_ensemble import FailedMember, Quantiles
from halimeda._tank_levers import lever_words
from halimeda._tank_run import column_of
from halimeda._tank_setup import Dosing, Setup
from halimeda._tank_upkeep import Upkeep, upkeep_of

#: Said with every plan.
CAUTIONS = (
    (
        "Change one thing at a time, and test before and after. Animals can be lost to a "
        "sudden change in the right direction."
    ),
    (
        "Never chase zero: nitrate and phosphate that cannot be measured starve corals and "
        "the turf itself."
    ),
    (
        "Mains power beside salt water kills: unplug lamps and pumps before hands go in, use "
        "a residual-current device and drip loops, and leave wiring to licensed people."
    ),
    "Supplements: follow the product's label. Caustic ones burn skin and eyes.",
    "CO2 of a sleeping household adds up in a closed room, for people too: air it.",
)


@dataclass(frozen=True)
class Influence(Record):
    """How much a parameter decides an answer.

    `rank_correlation` is Spearman's over the members: 1 and -1 decide it alone, 0
    not at all.
    """

    parameter: str
    rank_correlation: float


@dataclass(frozen=True)
class GoalCheck(Record):
    """How the nominal tank stands to a goal.

    Attributes
    ----------
    goal : str
        ``"nitrate"``, ``"phosphate"``, ``"ph_swing"``, ``"night_oxygen"``,
        ``"alkalinity_drift"`` or ``"ammonia"``.
    value : float
        The value farthest from the goal's middle.
    low, high : float or None
        Least and most that meet the goal.
    strain : float
        0 in the middle of a band or far from a limit, 1 on it, more beyond.
    """

    goal: str
    value: float
    low: float | None
    high: float | None
    strain: float

    @property
    def is_met(self) -> bool:
        """Whether the goal is met."""
        return self.strain <= 1.0


@dataclass(frozen=True)
class GoalShare(Record):
    """Share of the members that meet a goal, with the tank as it is and as planned."""

    goal: str
    unchanged: float
    planned: float


@dataclass(frozen=True)
class Sample(Record):
    """The tank at one moment; the names are those of the columns of a `Run`."""

    day: float
    ph_total: float
    alkalinity_umol_per_kg: float
    inorganic_carbon_umol_per_kg: float
    carbon_dioxide_umol_per_kg: float
    aragonite_saturation: float
    oxygen_umol_per_kg: float
    oxygen_saturation: float
    nitrate_mg_per_l: float
    phosphate_mg_per_l: float
    ammonia_mg_n_per_l: float
    unionised_ammonia_mg_per_l: float
    calcium_mg_per_l: float
    magnesium_mg_per_l: float
    practical_salinity: float
    turf_g_dry_per_m2: float
    turf_nitrogen_per_carbon: float
    turf_phosphorus_per_carbon: float
    turf_cover: float
    turf_reserve: float
    screen_lit: bool
    display_lit: bool


@dataclass(frozen=True)
class Outcome(Record):
    """What the last part of a run came to; units and words are in `Ensemble`."""

    nitrate_mg_per_l: float
    nitrate_p5_mg_per_l: float
    nitrate_p95_mg_per_l: float
    nitrate_floor_mg_per_l: float
    phosphate_mg_per_l: float
    phosphate_p5_mg_per_l: float
    phosphate_p95_mg_per_l: float
    phosphate_floor_mg_per_l: float
    daily_ph_swing: float
    night_ph: float
    night_oxygen_saturation: float
    alkalinity_umol_per_kg: float
    alkalinity_drift_umol_per_kg_per_day: float
    aragonite_saturation: float
    ammonia_mg_n_per_l: float
    unionised_ammonia_mg_per_l: float
    nitrogen_harvested_mmol_per_day: float
    phosphorus_harvested_mmol_per_day: float
    nitrogen_removed_mmol_per_day: float
    phosphorus_removed_mmol_per_day: float
    harvest_dry_grams: float
    harvest_drained_grams: float
    turf_g_dry_per_m2: float
    turf_reserve: float
    alkalinity_consumed_umol_per_kg_per_day: float
    calcium_consumed_mg_per_l_per_day: float
    magnesium_consumed_mg_per_l_per_day: float


@dataclass(frozen=True)
class Move(Record):
    """A lever that a plan moves, or leaves where it stands."""

    lever: str
    """One of the names that `Tank.replace` takes."""
    from_value: float
    to_value: float
    unit: str

    @staticmethod
    def _plain(plain: Mapping[str, Any]) -> Mapping[str, Any]:
        return {
            "lever": plain["lever"],
            "from_value": plain["from"],
            "to_value": plain["to"],
            "unit": plain["unit"],
        }

    @property
    def words(self) -> str:
        """What the lever is."""
        return lever_words()[self.lever]

    @property
    def is_kept(self) -> bool:
        """Whether it stays where it stands."""
        return self.from_value == self.to_value


@dataclass(frozen=True)
class Proposal(Record):
    """The best settings found, and what they come to on the nominal tank."""

    moves: tuple[Move, ...]
    setup: Setup
    outcome: Outcome
    checks: tuple[GoalCheck, ...]
    verdict: str
    """Whether all goals are met, and if not, which are missed and by how much."""

    @property
    def is_reachable(self) -> bool:
        """Whether the nominal tank meets every goal."""
        return all(check.is_met for check in self.checks)


@dataclass(frozen=True)
class PlanForecast(Record):
    """Mean of a day to come, beside what "nothing changes" would say.

    Attributes
    ----------
    variable : str
        Name of the column of a `Run`.
    day : float
        The day, which ends then.
    planned, unchanged : Quantiles
        With the plan, and with the present setup kept.
    persistence : float
        Today's value: what any forecast has to beat against the keeper's own tests.
    """

    variable: str
    day: float
    planned: Quantiles
    unchanged: Quantiles
    persistence: float

    @staticmethod
    def _plain(plain: Mapping[str, Any]) -> Mapping[str, Any]:
        return {**plain, "variable": column_of(plain["variable"])}


@dataclass(frozen=True)
class Difference(Record):
    """One number of the outcome under two setups.

    Attributes
    ----------
    name, unit : str
        A field of `Outcome`, and its unit.
    before, after : Quantiles
        Without the change, and with it.
    difference : Quantiles
        With less without, member by member.
    falls : float
        Share of the members in which it falls.
    """

    name: str
    unit: str
    before: Quantiles
    after: Quantiles
    difference: Quantiles
    falls: float

    @property
    def is_clear(self) -> bool:
        """Whether nine in ten members agree that it rises or falls."""
        return self.difference.p5 > 0.0 or self.difference.p95 < 0.0


@dataclass(frozen=True)
class Comparison(Record):
    """Two setups under the same parameters."""

    differences: tuple[Difference, ...]
    members: int
    reason: str

    def __getitem__(self, name: str) -> Difference:
        """Return one number by its name, a field of `Outcome`."""
        for difference in self.differences:
            if difference.name == name:
                return difference
        raise KeyError(name)

    def _repr_html_(self) -> str:
        from halimeda._tank_plan_html import comparison_html

        return comparison_html(self)


@dataclass(frozen=True)
class LeverEffect(Record):
    """What one step of a lever does on the nominal tank; pairs are before and after."""

    lever: str
    from_value: float
    to_value: float
    nitrate_mg_per_l: tuple[float, float]
    phosphate_mg_per_l: tuple[float, float]
    daily_ph_swing: tuple[float, float]
    night_oxygen_saturation: tuple[float, float]
    strength: float
    """Sum over the goals of how far the step moves the outcome against their bands."""
    reason: str

    @staticmethod
    def _plain(plain: Mapping[str, Any]) -> Mapping[str, Any]:
        moved = {"from_value": plain["from"], "to_value": plain["to"]}
        return {k: v for k, v in plain.items() if k not in ("from", "to")} | moved


@dataclass(frozen=True)
class DosingAnswer(Record):
    """What the tank uses up, and what is dosed for it."""

    alkalinity_umol_per_kg_per_day: Quantiles
    calcium_mg_per_l_per_day: Quantiles
    magnesium_mg_per_l_per_day: Quantiles
    dosing: Dosing
    reason: str

    @property
    def grams_per_day(self) -> dict[str, float]:
        """Mass of each salt that brings the dosing, g/d."""
        return {
            salt: getattr(self.dosing, field) * grams
            for field, salt, grams in _native.dosed_salts()
            if getattr(self.dosing, field) > 0.0
        }


@dataclass(frozen=True)
class AreaPoint(Record):
    """The water under a screen of one size."""

    lit_area_m2: float
    nitrate_mg_per_l: Quantiles
    phosphate_mg_per_l: Quantiles
    nitrogen_removed_mmol_per_day: Quantiles
    meets_goals: float


@dataclass(frozen=True)
class ScreenAnswer(Record):
    """How big a screen.

    Attributes
    ----------
    by_area : tuple of AreaPoint
        The water under screens of several sizes, smallest first.
    least_lit_area_m2 : Quantiles or None
        Smallest lit area, m², that keeps nitrate and phosphate below the upper ends of
        their bands, over the members in which one of the areas followed does.
    too_small : float
        Share of the members in which none does.
    rigid_macroalga_ratio : Quantiles or None
        Area on which a rigid macroalga removes as much nitrogen, per area of the screen.
    rigid_macroalga_too_small : float
        Share of the members in which none of the areas followed does.
    influences : tuple of Influence
        Parameters that decide the area.
    reason : str
        The answer in words.
    """

    by_area: tuple[AreaPoint, ...]
    least_lit_area_m2: Quantiles | None
    too_small: float
    rigid_macroalga_ratio: Quantiles | None
    rigid_macroalga_too_small: float
    influences: tuple[Influence, ...]
    reason: str

    def _repr_html_(self) -> str:
        from halimeda._tank_plan_html import screen_html

        return screen_html(self)


@dataclass(frozen=True)
class LightPoint(Record):
    """One photoperiod of the screen on the nominal tank."""

    hours: float
    start_hour: float
    nitrate_mg_per_l: float
    phosphate_mg_per_l: float
    daily_ph_swing: float
    night_ph: float
    night_oxygen_saturation: float
    score: float


@dataclass(frozen=True)
class LightAnswer(Record):
    """How many hours to light the screen, and when.

    Attributes
    ----------
    points : tuple of LightPoint
        Every photoperiod followed.
    best : LightPoint
        The best of them.
    against_instead_of_with_display, against_display_instead_of_dark : Comparison
        The screen lit around the middle of the display's night, against lit around the
        middle of its day, and against never lit.
    reason : str
        The answer in words.
    """

    points: tuple[LightPoint, ...]
    best: LightPoint
    against_instead_of_with_display: Comparison
    against_display_instead_of_dark: Comparison
    reason: str

    def _repr_html_(self) -> str:
        from halimeda._tank_plan_html import light_html

        return light_html(self)


@dataclass(frozen=True)
class HarvestPoint(Record):
    """Harvests at one interval."""

    every_days: float
    nitrogen_removed_mmol_per_day: Quantiles
    phosphorus_removed_mmol_per_day: Quantiles
    harvest_dry_grams: Quantiles
    turf_reserve: Quantiles
    nitrate_mg_per_l: Quantiles


@dataclass(frozen=True)
class DepthPoint(Record):
    """One interval and depth of harvests on the nominal tank."""

    every_days: float
    kept_share: float
    nitrogen_removed_mmol_per_day: float
    nitrate_mg_per_l: float
    score: float


@dataclass(frozen=True)
class HarvestAnswer(Record):
    """How often and how deep to harvest.

    Attributes
    ----------
    by_interval : tuple of HarvestPoint
        Intervals at the present depth over the ensemble, shortest first.
    by_depth : tuple of DepthPoint
        Intervals and depths on the nominal tank.
    best : DepthPoint
        The best of those.
    broad_days : tuple of float
        Shortest and longest interval, d, whose median removal of nitrogen is within 5 % of
        the largest.
    influences : tuple of Influence
        Parameters that decide the removal of nitrogen.
    reason : str
        The answer in words.
    """

    by_interval: tuple[HarvestPoint, ...]
    by_depth: tuple[DepthPoint, ...]
    best: DepthPoint
    broad_days: tuple[float, float]
    influences: tuple[Influence, ...]
    reason: str

    def _repr_html_(self) -> str:
        from halimeda._tank_plan_html import harvest_html

        return harvest_html(self)


@dataclass(frozen=True)
class Failure(Record):
    """Something that goes wrong.

    Parameters
    ----------
    kind : str
        ``"screen_lamp"``, ``"screen_flow"``, ``"pump"``, ``"late_harvest"`` or
        ``"away"``: nobody harvests, changes water or tests.
    fed, topped_off : bool, optional
        While away: whether a feeder feeds, and whether the top-off runs.
    """

    kind: str
    fed: bool = False
    topped_off: bool = True

    @staticmethod
    def _plain(plain: Any) -> Mapping[str, Any]:
        if isinstance(plain, str):
            return {"kind": plain, "fed": False, "topped_off": True}
        return {"kind": "away", **plain["away"]}

    def _native(self) -> Any:
        if self.kind == "away":
            return {"away": {"fed": self.fed, "topped_off": self.topped_off}}
        return self.kind

    @property
    def words(self) -> str:
        """What went wrong, as the beginning of a sentence."""
        return _native.failure_words(json.dumps(self._native()))


@dataclass(frozen=True)
class Limit(Record):
    """One side of a limit of a variable, a column of a `Run`."""

    variable: str
    value: float
    upper: bool
    """Whether it must not be exceeded; else it must not be fallen below."""

    @staticmethod
    def _plain(plain: Mapping[str, Any]) -> Mapping[str, Any]:
        return {**plain, "variable": column_of(plain["variable"])}


@dataclass(frozen=True)
class TimeToLimit(Record):
    """When a limit is passed.

    Attributes
    ----------
    limit : Limit
        The limit.
    passed : float
        Share of the members in which the failure leads past it within the horizon.
    passed_anyway : float
        Share of the members that pass it with nothing failing; they count in no other
        number here.
    days : tuple of float or None
        Days until it is passed: earliest 5 %, median, latest 5 % of the members; None
        where that member does not pass it within the horizon.
    """

    limit: Limit
    passed: float
    passed_anyway: float
    days: tuple[float | None, float | None, float | None]


@dataclass(frozen=True)
class FailureAnswer(Record):
    """What a failure leads to.

    Attributes
    ----------
    failure : Failure
        What fails.
    horizon_days : float
        Days followed after it, d.
    limits : tuple of TimeToLimit
        When each limit is passed.
    nitrate_after_a_week_mg_per_l : Quantiles or None
        What the failure does to nitrate in a week, mg/L, against nothing failing.
    ph_of_first_nights : Quantiles or None
        What it does to the lowest pH of the first two days.
    influences : tuple of Influence
        Parameters that decide when the first limit is passed.
    broken_off : tuple of int and str, or None
        Members that could not be followed to the horizon, and why the first was not.
    reason : str
        The answer in words.
    """

    failure: Failure
    horizon_days: float
    limits: tuple[TimeToLimit, ...]
    nitrate_after_a_week_mg_per_l: Quantiles | None
    ph_of_first_nights: Quantiles | None
    influences: tuple[Influence, ...]
    broken_off: tuple[int, str] | None
    reason: str

    @property
    def first(self) -> TimeToLimit | None:
        """The limit that is passed first in the median member, if any is."""
        passed = [limit for limit in self.limits if limit.days[1] is not None]
        return min(passed, key=lambda limit: cast(float, limit.days[1]), default=None)


class FailureAnswers(tuple[FailureAnswer, ...]):
    """What each of several failures leads to."""

    __slots__ = ()

    def _repr_html_(self) -> str:
        from halimeda._tank_plan_html import failures_html

        return failures_html(self)


@dataclass(frozen=True, repr=False)
class Plan(Record):
    """The plan a keeper would act on.

    Attributes
    ----------
    today : Sample
        The water today, as the description has it.
    unchanged_checks : tuple of GoalCheck
        How the tank as it is will stand to the goals, on the nominal tank.
    nitrogen_removed_unchanged_mmol_per_day : Quantiles
        What the turf takes out as it is.
    nitrogen_removed_mmol_per_day, phosphorus_removed_mmol_per_day : Quantiles
        What the turf takes out with the plan.
    harvest_drained_grams : Quantiles
        Drained mass of a harvest with the plan, g.
    proposal : Proposal
        The best settings found.
    goals : tuple of GoalShare
        How sure the goals are.
    meets_all_goals : float
        Share of the members that meet all goals with the plan.
    forecasts : tuple of PlanForecast
        Means of days to come, beside what "nothing changes" would say.
    change : Comparison
        The plan against the tank as it is.
    influences : tuple of Influence
        Parameters that decide nitrate with the plan.
    levers : tuple of LeverEffect
        What one step of each lever from the plan does, strongest first.
    dosing : DosingAnswer
        What the tank uses up, and what is dosed for it.
    screen : ScreenAnswer
        How big a screen.
    light : LightAnswer
        How many hours and when.
    harvest : HarvestAnswer
        How often and how deep to harvest.
    failures : tuple of FailureAnswer
        How long until trouble, from the end of the days looked ahead.
    upkeep : Upkeep
        What is due, and when.
    failed_members : tuple of FailedMember
        Members that could not be followed with the plan.
    members : int
        Members in all.
    present : Tank
        The tank as it is.
    """

    today: Sample
    unchanged_checks: tuple[GoalCheck, ...]
    nitrogen_removed_unchanged_mmol_per_day: Quantiles
    nitrogen_removed_mmol_per_day: Quantiles
    phosphorus_removed_mmol_per_day: Quantiles
    harvest_drained_grams: Quantiles
    proposal: Proposal
    goals: tuple[GoalShare, ...]
    meets_all_goals: float
    forecasts: tuple[PlanForecast, ...]
    change: Comparison
    influences: tuple[Influence, ...]
    levers: tuple[LeverEffect, ...]
    dosing: DosingAnswer
    screen: ScreenAnswer
    light: LightAnswer
    harvest: HarvestAnswer
    failures: tuple[FailureAnswer, ...]
    upkeep: Upkeep
    failed_members: tuple[FailedMember, ...]
    members: int
    present: Tank
    tank: Tank
    """The tank as planned, to be followed like any other."""

    @property
    def settings(self) -> dict[str, float]:
        """Where the levers should stand, as `Tank.replace` takes them."""
        moves = self.proposal.moves
        return {move.lever: move.to_value for move in moves if not move.is_kept}

    @property
    def cautions(self) -> tuple[str, ...]:
        """What to think of before acting."""
        return CAUTIONS

    def to_dict(self) -> dict[str, Any]:
        """Return all of it but the tanks as nested dicts, with the cautions."""
        plain = super().to_dict()
        del plain["present"], plain["tank"]
        return {**plain, "upkeep": self.upkeep.to_dict(), "cautions": list(CAUTIONS)}

    def __repr__(self) -> str:
        sure = f"{100.0 * self.meets_all_goals:.0f} of 100 tanks like it meet all goals"
        return (
            f"<Plan for {self.present.name!r}: {len(self.settings)} settings; {sure}>"
        )

    def _repr_html_(self) -> str:
        from halimeda._tank_plan_html import plan_html

        return plan_html(self)


def plan_of(tank: Tank, answer: str) -> Plan:
    """Build a plan from the JSON of the native half."""
    plain = json.loads(answer)
    planned = tank._with_setup(json.dumps(plain["proposal"]["setup"]))
    upkeep = upkeep_of(tank, plain["upkeep"])
    return built(Plan, {**plain, "upkeep": upkeep, "present": tank, "tank": planned})


def failures_of(answer: str) -> FailureAnswers:
    """Build answers about failures from their JSON."""
    return FailureAnswers(built(FailureAnswer, plain) for plain in json.loads(answer))
