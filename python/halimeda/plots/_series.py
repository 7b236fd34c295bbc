"""What figures are drawn from: columns over time, with or without ranges."""

from __future__ import annotations

# Keyword arguments of matplotlib have no types.
# pyright: reportUnknownMemberType=false
import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Protocol, TypeAlias, cast, runtime_checkable

import numpy as np
from matplotlib.axes import Axes
from matplotlib.dates import AutoDateLocator, ConciseDateFormatter
from numpy.typing import ArrayLike, NDArray

from halimeda._errors import HalimedaTypeError, HalimedaValueError

QUANTILES = ("p5", "p25", "p50", "p75", "p95")


@runtime_checkable
class HasSamples(Protocol):
    """A run: days, and a column per name."""

    @property
    def days(self) -> Any: ...

    @property
    def samples(self) -> Mapping[str, Any]: ...


@runtime_checkable
class HasRanges(Protocol):
    """An ensemble: days, and per name the five quantiles at each of them."""

    @property
    def days(self) -> Any: ...

    @property
    def over_time(self) -> Mapping[str, Any]: ...


#: A run, an ensemble, or columns by name, ``"day"`` among them.
Source: TypeAlias = HasSamples | HasRanges | Mapping[str, ArrayLike]


@dataclass(frozen=True)
class Track:
    """One variable over time: its values, or their quantiles over an ensemble."""

    days: NDArray[np.float64]
    #: One (the values), three (5, 50, 95 %) or five (5, 25, 50, 75, 95 %).
    quantiles: tuple[NDArray[np.float64], ...]

    @property
    def middle(self) -> NDArray[np.float64]:
        """The values or the median."""
        return self.quantiles[len(self.quantiles) // 2]


def plain(value: object) -> Any:
    """Turn a result of this package into mappings and lists; leave others be."""
    to_dict = getattr(value, "to_dict", None)
    return to_dict() if callable(to_dict) else value


def columns(source: Source) -> Mapping[str, ArrayLike]:
    """Take the columns of a run."""
    if isinstance(source, HasSamples):
        return {"day": source.days, **source.samples}
    if not isinstance(source, Mapping):
        raise HalimedaTypeError(
            "a run or a mapping of columns is needed here, with the days in 'day', "
            f"not {type(source).__name__}",
            input="source",
            kind="wrong_type",
        )
    return source


def column(table: Mapping[str, ArrayLike], name: str) -> NDArray[np.float64]:
    """One column as an array."""
    if name not in table:
        raise HalimedaValueError(
            f"{name} is missing; there are: {', '.join(map(str, table)) or 'none'}",
            input=name,
            kind="missing",
        )
    values = np.asarray(table[name], dtype=np.float64)
    if values.ndim != 1:
        raise HalimedaValueError(
            f"{name} must have one dimension, not {values.ndim}",
            input=name,
            kind="shape",
        )
    return values


def track(source: Source, variable: str) -> Track:
    """One variable of a run, or its quantiles over an ensemble."""
    if isinstance(source, HasRanges):
        if variable not in source.over_time:
            raise HalimedaValueError(
                f"{variable} was not kept by the ensemble: name it when you make one",
                input=variable,
                kind="missing",
            )
        days = np.asarray(source.days, dtype=np.float64)
        found = tuple(np.asarray(source.over_time[variable], dtype=np.float64))
    else:
        table = columns(source)
        days = column(table, "day")
        found = (column(table, variable),)
    for values in found:
        if values.shape != days.shape:
            raise HalimedaValueError(
                f"{variable} has {values.size} values for {days.size} days",
                input=variable,
                kind="shape",
            )
    if days.size == 0:
        raise HalimedaValueError(
            "there is no sample to draw", input="day", kind="missing"
        )
    return Track(days, found)


def of_tank(source: object, name: str) -> Any:
    """What the tank of a run or an ensemble says, such as its goals."""
    return getattr(getattr(source, "tank", None), name, None)


def along_time(ax: Axes, days: ArrayLike, start: dt.date | None) -> NDArray[Any]:
    """Days as what the x axis shows, which is set up: dates if the start has one."""
    days = np.asarray(days, dtype=np.float64)
    if start is None:
        ax.set_xlabel("time from the start (days)")
        return days
    locator = cast(Any, AutoDateLocator)(minticks=3, maxticks=6)
    ax.xaxis.set_major_locator(locator)
    ax.xaxis.set_major_formatter(cast(Any, ConciseDateFormatter)(locator))
    ax.set_xlabel("date")
    seconds = np.round(days * 86_400.0).astype("timedelta64[s]")
    dates: NDArray[Any] = np.datetime64(start, "s") + seconds
    return dates


def band(goals: object, name: str) -> tuple[float, float] | None:
    """Read the ends of a band of the goals, from a pair or from `low` and `high`."""
    known: Any = plain(goals)
    found: Any = None if known is None else known.get(name)
    if found is None:
        return None
    ends: Any = (found["low"], found["high"]) if isinstance(found, Mapping) else found
    low, high = (float(end) for end in ends)
    if not (np.isfinite(low) and np.isfinite(high) and low <= high):
        raise HalimedaValueError(
            f"{name}: a band has two finite ends, the lower one first, not "
            f"{low} to {high}",
            input=name,
            kind="contradictory",
        )
    return low, high
