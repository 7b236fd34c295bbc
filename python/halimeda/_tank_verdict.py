"""Is it working, what will happen, what to test next, what was carried out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar

import numpy as np

from halimeda._record import Record, built
from halimeda._tank import Tank
from halimeda._tank_ensemble import QUANTILES, Quantiles
from halimeda._tank_run import FloatArray, column_of, equal, place, variable_units

if TYPE_CHECKING:
    import pandas


@dataclass(frozen=True)
class Removal(Record):
    """What the turf takes out of the water beside what comes into it.

    Attributes
    ----------
    window_days : float
        Days up to today that it is taken over, d.
    nitrogen_mmol_per_day, phosphorus_mmol_per_day : Quantiles
        Taken up by the turf.
    nitrogen_load_mmol_per_day, phosphorus_load_mmol_per_day : Quantiles
        What all else but water changes and doses by hand brings in, less what else
        takes out: the load.
    nitrogen_per_load, phosphorus_per_load : Quantiles
        Taken up per load: near 1 the screen keeps pace, as it does wherever the water has
        come to rest. Not a number where nothing comes in.
    nitrogen_keeps_pace, phosphorus_keeps_pace : float
        Probability that the turf takes out at least 95 % of the load.
    nitrogen_exceeds_load, phosphorus_exceeds_load : float
        Probability that the turf takes out more than comes in.
    since_day : Quantiles or None
        Day since which nitrogen in the water falls week by week; None if it does in
        fewer than half of the tanks.
    """

    window_days: float
    nitrogen_mmol_per_day: Quantiles
    nitrogen_load_mmol_per_day: Quantiles
    phosphorus_mmol_per_day: Quantiles
    phosphorus_load_mmol_per_day: Quantiles
    nitrogen_per_load: Quantiles
    phosphorus_per_load: Quantiles
    nitrogen_keeps_pace: float
    phosphorus_keeps_pace: float
    nitrogen_exceeds_load: float
    phosphorus_exceeds_load: float
    since_day: Quantiles | None


@dataclass(frozen=True)
class Bend(Record):
    """A bend in the course of a nutrient, with the days it lies between."""

    probability: float
    day: float
    range: tuple[float, float]
    before_mg_per_l_per_day: float
    after_mg_per_l_per_day: float


@dataclass(frozen=True)
class NutrientTrend(Record):
    """What the readings of one nutrient say alone, water changes taken out."""

    measured: str
    readings: int
    from_day: float
    slope_mg_per_l_per_day: float
    standard_error: float
    falling: float
    """Probability that it falls."""
    bend: Bend | None


@dataclass(frozen=True)
class Cause(Record):
    """Something that may have happened and that the log does not mention."""

    suspect: str
    """``"lamp_failed"``, ``"flow_dropped"``, ``"feeding_up"``, ``"feeding_down"`` or
    ``"harvests_missed"``."""
    probability: float
    day: float
    range: tuple[float, float]


@dataclass(frozen=True)
class LoggedCause(Record):
    """Something that the log mentions, and whether its readings show it."""

    day: float
    event: Any
    shows: float
    """Probability that it happened as written; one half where readings cannot tell."""


@dataclass(frozen=True)
class Causes(Record):
    """What may have happened since a day."""

    from_day: float
    nothing: float
    """Probability that nothing happened but what is written down."""
    suspected: tuple[Cause, ...]
    logged: tuple[LoggedCause, ...]
    named: Cause | None
    """The cause that stands out, if one does."""
    worth_a_look: Cause | None
    """A cause that does not stand out but is worth a look."""


@dataclass(frozen=True)
class Balance(Record):
    """Nitrogen beside phosphorus.

    Attributes
    ----------
    water_mol_per_mol : float or None
        Nitrate per phosphate of the last readings, mol per mol.
    water_interval : tuple of float or None
        About 95 %; open above where phosphate cannot be told from nothing.
    water : str or None
        ``"nitrogen_rich"``, ``"undecided"`` or ``"phosphorus_rich"`` beside what marine
        benthic plants are made of, 30 to 1 (Atkinson & Smith 1983).
    nitrogen_limits : float
        Share of the tanks in which nitrogen holds the turf back more than phosphorus.
    growth_allowed : float
        Growth that the scarcer of the two allows, of that of replete turf.
    """

    water_mol_per_mol: float | None
    water_interval: tuple[float, float | None] | None
    water: str | None
    nitrogen_limits: float
    growth_allowed: float


@dataclass(frozen=True)
class HarvestYield(Record):
    """A weighed harvest beside what was expected of it."""

    day: float
    weight: Any
    expected_grams: Quantiles
    share_below: float
    z_score: float


@dataclass(frozen=True)
class StallLikelihood(Record):
    """What may keep turf from growing, how likely it does, and the test that tells."""

    stall: str
    probability: float
    test: str


@dataclass(frozen=True, repr=False)
class Verdict(Record):
    """Whether the screen works, and what stands in the way.

    Attributes
    ----------
    today : float
        The day it is come to, d since the start.
    removal : Removal or None
        Removal beside the load; None if the log tells too little.
    trends : tuple of NutrientTrend
        What the readings of each nutrient say alone.
    causes : Causes or None
        What may have happened.
    balance : Balance or None
        Nitrogen beside phosphorus.
    harvests : tuple of HarvestYield
        Weighed harvests beside what was expected of them.
    stalls : tuple of StallLikelihood
        What may keep turf from growing, most likely first.
    missing : tuple of str
        What the log would need to tell more.
    summary : tuple of str
        The verdict in plain words.
    cautions : tuple of str
        What to take care of.
    failed_members : int
        Tanks that could not be followed.
    tank : Tank
        The tank it is about.
    """

    today: float
    removal: Removal | None
    trends: tuple[NutrientTrend, ...]
    causes: Causes | None
    balance: Balance | None
    harvests: tuple[HarvestYield, ...]
    stalls: tuple[StallLikelihood, ...]
    missing: tuple[str, ...]
    summary: tuple[str, ...]
    cautions: tuple[str, ...]
    failed_members: int
    tank: Tank

    def to_dict(self) -> dict[str, Any]:
        """Return all of it but the tank as nested dicts."""
        plain = super().to_dict()
        del plain["tank"]
        return plain

    def __str__(self) -> str:
        return "\n".join((*self.summary, "", "Take care:", *self.cautions))

    def __repr__(self) -> str:
        first = self.summary[0] if self.summary else ""
        return f"<Verdict on {self.tank.name!r}: {first}>"

    def _repr_html_(self) -> str:
        from halimeda._tank_log_html import verdict_html

        return verdict_html(self)


@dataclass(frozen=True)
class HorizonForecast(Record):
    """Mean of one day, so many days from today.

    Attributes
    ----------
    variable : str
        Name of the column of a `Run`.
    horizon_days : float
        Days from today, d.
    quantiles : Quantiles
        Over the tanks that the log leaves possible.
    persistence : float or None
        What "nothing changes" says: the last reading; None without one.
    trend : float or None
        What a straight line through the last 30 days' readings says.
    """

    variable: str
    horizon_days: float
    quantiles: Quantiles
    persistence: float | None
    trend: float | None

    @staticmethod
    def _plain(plain: Mapping[str, Any]) -> Mapping[str, Any]:
        return {**plain, "variable": column_of(plain["variable"])}


@dataclass(frozen=True, eq=False, repr=False)
class Forecast:
    """What will happen by the schedule, over the tanks that the log leaves possible.

    What the keeper will do differently is not in it, nor what will break.

    Attributes
    ----------
    tank : Tank
        The tank it is about.
    today : float
        The day it is made on, d since the start.
    horizons : tuple of HorizonForecast
        By variable and horizon.
    days : array of float
        Ends of the days to come, d since the start.
    over_time : dict of str to array of float
        Shape (5, days): quantiles of the means of these days, in the order of `quantiles`.
    members, failed_members : int
        Tanks followed to the end, and tanks that could not be.
    """

    tank: Tank
    today: float
    horizons: tuple[HorizonForecast, ...]
    days: FloatArray
    over_time: dict[str, FloatArray]
    members: int
    failed_members: int

    @property
    def quantiles(self) -> tuple[float, ...]:
        """Shares of the tanks that lie below each quantile."""
        return QUANTILES

    @property
    def units(self) -> dict[str, str]:
        """Unit of each variable."""
        units = variable_units()
        return {name: units[name] for name in self.over_time}

    def to_pandas(self, variable: str | None = None) -> pandas.DataFrame:
        """Return quantiles day by day of one variable, or the horizons of all.

        Parameters
        ----------
        variable : str, optional
            One of `over_time`: one row per day, one column per quantile.

        Raises
        ------
        HalimedaValueError
            There is no such variable.
        """
        import pandas

        if variable is None:
            rows: list[dict[str, Any]] = []
            for horizon in self.horizons:
                row = horizon.to_dict()
                rows.append(row | row.pop("quantiles"))
            frame = pandas.DataFrame(rows)
            frame.attrs["units"] = self.units
            return frame
        place("variable", variable, tuple(self.over_time))
        index = pandas.Index(self.days.copy(), name="day")
        columns = pandas.Index(QUANTILES, name="quantile")
        frame = pandas.DataFrame(self.over_time[variable].T.copy(), index, columns)
        frame.attrs["units"] = self.units[variable]
        return frame

    def to_dict(self) -> dict[str, Any]:
        """Return all of it but the tank as plain values."""
        return {
            "today": self.today,
            "horizons": [horizon.to_dict() for horizon in self.horizons],
            "days": self.days.tolist(),
            "over_time": {name: rows.tolist() for name, rows in self.over_time.items()},
            "members": self.members,
            "failed_members": self.failed_members,
        }

    def __eq__(self, other: object) -> bool:
        return equal(self, other)

    __hash__: ClassVar[None] = None  # type: ignore[assignment]

    def __repr__(self) -> str:
        return (
            f"<Forecast for {self.tank.name!r}: {len(self.days)} days from day "
            f"{self.today:g}, {self.members} members>"
        )

    def _repr_html_(self) -> str:
        from halimeda._tank_log_html import forecast_html

        return forecast_html(self)


def verdict_of(tank: Tank, plain: Mapping[str, Any]) -> Verdict:
    """Build a verdict from the dict of the native half."""
    verdict = plain["verdict"]
    causes = verdict["causes"]
    if causes is not None:
        outstanding = {name: plain[name] for name in ("named", "worth_a_look")}
        verdict = {**verdict, "causes": {**causes, **outstanding}}
    return built(Verdict, {**verdict, "tank": tank})


def forecast_of(tank: Tank, plain: Mapping[str, Any]) -> Forecast:
    """Build a forecast from the dict of the native half."""
    over_time: dict[str, FloatArray] = {}
    days = np.zeros(0)
    for band in plain["bands"]:
        rows = np.array(
            [[q[n] for q in band["quantiles"]] for n in _NAMES], dtype=float
        )
        rows.flags.writeable = False
        over_time[column_of(band["variable"])] = rows
        days = np.array(band["days"], dtype=float)
    days.flags.writeable = False
    return Forecast(
        tank=tank,
        today=plain["today"],
        horizons=tuple(built(HorizonForecast, h) for h in plain["horizons"]),
        days=days,
        over_time=over_time,
        members=plain["members"],
        failed_members=plain["failed_members"],
    )


_NAMES = ("p5", "p25", "p50", "p75", "p95")


@dataclass(frozen=True)
class ForecastSkill(Record):
    """How forecasts of one thing that is measured did at one horizon.

    Attributes
    ----------
    measured : str
        One of the names of `Log.units`, which gives the unit of the errors.
    horizon_days : float
        How far ahead, about, d.
    count : int
        Readings that forecasts were held against.
    mean_error : float
        Mean absolute error of the forecasts' medians.
    mean_crps : float
        Mean continuous ranked probability score (Gneiting & Raftery 2007,
        doi 10.1198/016214506000001437).
    persistence_mean_error, trend_mean_error : float
        Mean absolute error of "nothing changes" and of a straight line.
    within_range : float
        Share of the readings within the 5 to 95 % range; 0.9 if the ranges are honest.
    skill, skill_against_trend : float or None
        Error saved against each: 1 all of it, below 0 the forecast was worse.
    """

    measured: str
    horizon_days: float
    count: int
    mean_error: float
    mean_crps: float
    persistence_mean_error: float
    trend_mean_error: float
    within_range: float
    skill: float | None
    skill_against_trend: float | None


@dataclass(frozen=True)
class NextTest(Record):
    """A test worth doing.

    Attributes
    ----------
    measured : str
        What to test: one of the names of `Log.units`.
    day : float
        When, d since the start.
    expected_reduction : float
        Share of the uncertainty about nitrate and phosphate at the horizon that it is
        expected to take away.
    reason : str
        Why, in a sentence.
    """

    measured: str
    day: float
    expected_reduction: float
    reason: str


@dataclass(frozen=True)
class Exported(Record):
    """What harvests carried out, g; what was fed back is left out."""

    dry_grams: Quantiles
    carbon_grams: Quantiles
    nitrogen_grams: Quantiles
    phosphorus_grams: Quantiles


@dataclass(frozen=True)
class DiaryEntry(Record):
    """A harvest, its weight where it was weighed, and what it carried out."""

    day: float
    weight: Any
    exported: Exported


@dataclass(frozen=True)
class MetalExport(Record):
    """A metal in all harvests together, mg, by published contents of other algae."""

    metal: str
    low_mg: float
    middle_mg: float
    high_mg: float
    source: str


@dataclass(frozen=True)
class WaterChangesSaved(Record):
    """All harvests together as water changes of a share of the water."""

    share: float
    by_nitrate: Quantiles
    by_phosphate: Quantiles


@dataclass(frozen=True, repr=False)
class Diary(Record):
    """What harvests carried out.

    Attributes
    ----------
    entries : tuple of DiaryEntry
        Every logged harvest.
    total : Exported or None
        All of them together; None if there were none.
    metals : tuple of MetalExport
        Metals in all of them together: orders of magnitude.
    water_changes_saved : WaterChangesSaved or None
        All of them together as water changes.
    summary : tuple of str
        The diary in words.
    tank : Tank
        The tank it is about.
    """

    entries: tuple[DiaryEntry, ...]
    total: Exported | None
    metals: tuple[MetalExport, ...]
    water_changes_saved: WaterChangesSaved | None
    summary: tuple[str, ...]
    tank: Tank

    def to_dict(self) -> dict[str, Any]:
        """Return all of it but the tank as nested dicts."""
        plain = super().to_dict()
        del plain["tank"]
        return plain

    def __str__(self) -> str:
        return "\n".join(self.summary)

    def __repr__(self) -> str:
        return f"<Diary of {self.tank.name!r}: {len(self.entries)} harvests>"

    def _repr_html_(self) -> str:
        from halimeda._tank_log_html import diary_html

        return diary_html(self)
