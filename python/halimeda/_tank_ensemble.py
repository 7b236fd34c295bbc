"""The same tank under many parameters."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar

import numpy as np

from halimeda import _native
from halimeda._record import Record, built
from halimeda._tank_run import FloatArray, TimeArray, equal, place, variable_units

if TYPE_CHECKING:
    import pandas
    import xarray

    from halimeda._tank import Tank

#: Shares of the members that lie below each quantile.
QUANTILES = (0.05, 0.25, 0.5, 0.75, 0.95)

#: What is kept over time if nothing else is said.
KEPT = (
    "ph_total",
    "alkalinity_umol_per_kg",
    "oxygen_saturation",
    "nitrate_mg_per_l",
    "phosphate_mg_per_l",
    "calcium_mg_per_l",
    "turf_g_dry_per_m2",
)


@dataclass(frozen=True)
class Quantiles(Record):
    """Where the values of an ensemble lie.

    Attributes
    ----------
    p5, p25, p50, p75, p95 : float
        The values that 5, 25, 50, 75 and 95 % of the members lie below.
    """

    p5: float
    p25: float
    p50: float
    p75: float
    p95: float


@dataclass(frozen=True)
class FailedMember(Record):
    """A member that could not be followed: its place, and why."""

    member: int
    reason: str


@dataclass(frozen=True, eq=False, repr=False)
class Ensemble:
    """The same tank under many parameters.

    Attributes
    ----------
    days : array of float
        Time since the start, d.
    over_time : dict of str to array of float
        Shape (5, samples): quantiles of each kept variable at each of `days`, in the order of
        `quantiles`, over the members that did not fail.
    outcomes : dict of str to array of float
        Shape (members,): what the last `window_days` came to, by member; NaN for members that failed.
    failed : tuple of FailedMember
        Members that could not be followed.
    window_days : float
        The last part of the run that outcomes are taken from, d.
    tank : Tank
        The tank that was followed.
    """

    tank: Tank
    days: FloatArray
    over_time: dict[str, FloatArray]
    outcomes: dict[str, FloatArray]
    failed: tuple[FailedMember, ...]
    window_days: float

    @property
    def quantiles(self) -> tuple[float, ...]:
        """Shares of the members that lie below each quantile."""
        return QUANTILES

    @property
    def units(self) -> dict[str, str]:
        """Unit of each kept variable."""
        units = variable_units()
        return {name: units[name] for name in self.over_time}

    @property
    def outcome_units(self) -> dict[str, str]:
        """Unit of each number of the outcome; empty for a share, a ratio or a pH."""
        return {name: unit for name, _, unit in _native.outcomes()}

    @property
    def times(self) -> TimeArray | None:
        """Moments of `days`, as `Run.times`."""
        return self.tank.times(self.days)

    def __len__(self) -> int:
        return len(next(iter(self.outcomes.values())))

    def outcome(self, name: str) -> Quantiles:
        """Return where a number of the outcome lies over the members that did not fail.

        Parameters
        ----------
        name : str
            One of `outcomes`.

        Raises
        ------
        HalimedaValueError
            There is no such number.
        """
        place("outcome", name, tuple(self.outcomes))
        values = self.outcomes[name]
        at = np.quantile(values[~np.isnan(values)], QUANTILES)
        return Quantiles(*map(float, at))

    def to_pandas(self, variable: str | None = None) -> pandas.DataFrame:
        """Return quantiles over time, or the outcomes.

        Parameters
        ----------
        variable : str, optional
            One of `over_time`: one row per sample, one column per quantile. Without it
            the outcomes, one row per member.

        Raises
        ------
        HalimedaValueError
            There is no such variable.
        """
        import pandas

        if variable is None:
            frame = pandas.DataFrame(self.outcomes)
            frame.index.name = "member"
            frame.attrs["units"] = self.outcome_units
            return frame
        place("variable", variable, tuple(self.over_time))
        index = pandas.Index(self.days.copy(), name="day")
        columns = pandas.Index(QUANTILES, name="quantile")
        frame = pandas.DataFrame(self.over_time[variable].T.copy(), index, columns)
        frame.attrs["units"] = self.units[variable]
        return frame

    def to_xarray(self) -> xarray.Dataset:
        """Return the quantiles over time as a Dataset along ``quantile`` and ``day``."""
        import xarray

        from halimeda._tank_run import cf_attributes

        columns = {
            name: (("quantile", "day"), values.copy(), cf_attributes(name))
            for name, values in self.over_time.items()
        }
        day = (
            "day",
            self.days.copy(),
            {"units": "d", "long_name": "time since the start"},
        )
        coordinates: dict[str, Any] = {"quantile": list(QUANTILES), "day": day}
        times = self.times
        if times is not None:
            coordinates["time"] = ("day", times.astype("datetime64[ns]"))
        return xarray.Dataset(columns, coords=coordinates)

    def __eq__(self, other: object) -> bool:
        return equal(self, other)

    __hash__: ClassVar[None] = None  # type: ignore[assignment]

    def __repr__(self) -> str:
        failed = f", {len(self.failed)} failed" if self.failed else ""
        return (
            f"<Ensemble of {self.tank.name!r}: {len(self)} members{failed}, "
            f"{self.days[-1]:g} days>"
        )

    def _repr_html_(self) -> str:
        from halimeda._table import paragraph, table
        from halimeda._tank_plan_html import upper

        rows: list[tuple[object, ...]] = []
        for name, words, unit in _native.outcomes():
            q = self.outcome(name)
            rows.append((upper(words), q.p50, q.p5, q.p95, unit))
        heads = ("", "median", "5 %", "95 %", "unit")
        caption = (
            f"{self.tank.name}: the last {self.window_days:g} of {self.days[-1]:g} days"
        )
        html = table(caption, heads, rows)
        html += paragraph(f"{len(self)} members, {len(self.failed)} of them failed.")
        if self.failed:
            failed = [(f.member, f.reason) for f in self.failed]
            html += table("Members that failed", ("member", "why"), failed)
        return html


def ensemble_of(tank: Tank, native: Mapping[str, Any], window_days: float) -> Ensemble:
    """Build an ensemble from what the native half hands over."""
    arrays = (
        native["days"],
        *native["over_time"].values(),
        *native["outcomes"].values(),
    )
    for array in arrays:
        array.flags.writeable = False
    failed = tuple(built(FailedMember, f) for f in json.loads(native["failed"]))
    return Ensemble(
        tank,
        native["days"],
        native["over_time"],
        native["outcomes"],
        failed,
        window_days,
    )
