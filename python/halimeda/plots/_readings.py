from __future__ import annotations

# Keyword arguments of matplotlib have no types.
# pyright: reportUnknownMemberType=false
import datetime as dt
from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING, Any, cast

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from numpy.typing import ArrayLike, NDArray

from halimeda._errors import HalimedaValueError
from halimeda._table import number
from halimeda.plots._series import (
    Source,
    Track,
    along_time,
    band,
    column,
    of_tank,
    track,
)
from halimeda.plots._style import (
    BLUE,
    INK,
    MUTED,
    VERMILION,
    Dashes,
    drawing,
    fan,
    goal_band,
    note,
    say_ranges,
)

if TYPE_CHECKING:
    from halimeda._tank_log import Log

#: What a log calls what is tested, by column of a run.
_MEASURED = {
    "nitrate_mg_per_l": "nitrate",
    "phosphate_mg_per_l": "phosphate",
    "ammonia_mg_n_per_l": "ammonia",
    "alkalinity_umol_per_kg": "alkalinity",
    "calcium_mg_per_l": "calcium",
    "magnesium_mg_per_l": "magnesium",
    "ph_total": "ph",
    "oxygen_saturation": "oxygen_saturation",
    "practical_salinity": "salinity",
    "temperature_celsius": "temperature",
}
#: Label of the axis by variable.
_LABELS = {
    "nitrate_mg_per_l": "nitrate (mg/L as NO₃)",
    "phosphate_mg_per_l": "phosphate (mg/L as PO₄)",
    "ammonia_mg_n_per_l": "ammonia (mg/L as N)",
    "alkalinity_umol_per_kg": "alkalinity (µmol/kg)",
    "calcium_mg_per_l": "calcium (mg/L)",
    "magnesium_mg_per_l": "magnesium (mg/L)",
    "ph_total": "pH (total scale)",
    "oxygen_saturation": "oxygen (share of saturation, 1)",
    "practical_salinity": "practical salinity (1)",
    "temperature_celsius": "temperature (°C)",
}


def readings(
    tests: Log | Mapping[str, ArrayLike],
    variable: str,
    *,
    fitted: Source | None = None,
    forecast: Source | None = None,
    change_points: Iterable[float] = (),
    today: float | None = None,
    goal: tuple[float, float] | None = None,
    start: dt.date | None = None,
    ax: Axes | None = None,
) -> Figure:
    """Draw what tests showed beside the fitted tank and where it is heading.

    Parameters
    ----------
    tests : Log or mapping of str to array_like
        A log, or columns ``day`` (d), ``low`` and ``high``: the interval each test
        leaves, in the unit of `variable`, each of one dimension.
    variable : str
        What was tested, a column of a run, as in ``"nitrate_mg_per_l"``.
    fitted, forecast : Ensemble or mapping of str to array_like, optional
        The tank as fitted to the log, and from today on; as a mapping with ``day`` and
        either `variable` or the quantiles ``p5`` to ``p95``.
    change_points : iterable of float
        Days on which something changed for good, d.
    today : float, optional
        The day the forecast begins, d.
    goal : tuple of two floats, optional
        Ends of the goal's band, by default those of the log's tank for nitrate and
        phosphate.
    start : datetime.date, optional
        Date of day 0, by default that of the log's tank; the axis counts days where
        there is none.
    ax : matplotlib Axes, optional
        Where to draw.

    Returns
    -------
    matplotlib.figure.Figure

    Raises
    ------
    HalimedaValueError
        The variable is none that a test shows, an interval is upside down, or there
        is nothing to draw.
    """
    if variable not in _LABELS:
        raise HalimedaValueError(
            f"variable: {variable!r} is none of {', '.join(_LABELS)}",
            input="variable",
            kind="unknown",
        )
    label = _LABELS[variable]
    start = of_tank(tests, "start") if start is None else start
    goal = band(of_tank(tests, "goals"), variable) if goal is None else goal
    columns = tests if isinstance(tests, Mapping) else _of_log(tests, variable)
    day, low, high = (column(columns, name) for name in ("day", "low", "high"))
    if not day.shape == low.shape == high.shape:
        raise HalimedaValueError(
            f"tests: {day.size} days, {low.size} low and {high.size} high ends",
            input="tests",
            kind="shape",
        )
    if np.any(low > high):
        row = int(np.argmax(low > high))
        raise HalimedaValueError(
            f"tests: row {row} has its low end, {low[row]}, above its high end, "
            f"{high[row]}",
            input="low",
            value=float(low[row]),
            kind="contradictory",
        )
    bands = [
        (_track(source, variable), colour, dashes, words)
        for source, colour, dashes, words in (
            (fitted, BLUE, "-", "fitted"),
            (forecast, VERMILION, (0, (4, 1.5)), "forecast"),
        )
        if source is not None
    ]
    if day.size == 0 and not bands:
        raise HalimedaValueError(
            f"{variable} was never tested and nothing was fitted: nothing to draw",
            input="tests",
            kind="missing",
        )
    with drawing(ax, (2.7,)) as (figure, (axes,)):
        for values, colour, dashes, words in bands:
            x = along_time(axes, values.days, start)
            fan(axes, x, values.quantiles, colour=colour, dashes=cast(Dashes, dashes))
            # Where the band is widest it is least likely to hide a test.
            third = (
                values.days.size // 3
                if words == "fitted"
                else 2 * values.days.size // 3
            )
            note(
                axes,
                x[third],
                float(values.quantiles[-1][third]),
                words,
                side="center",
                colour=colour,
            )
            say_ranges(axes, values.quantiles)
        x = along_time(axes, day, start)
        middle = 0.5 * (low + high)
        axes.errorbar(
            x,
            middle,
            yerr=(middle - low, high - middle),
            fmt="o",
            color=INK,
            markersize=3.2,
            elinewidth=1.0,
            capsize=2.0,
            zorder=4,
            label="tests",
        )
        if goal is not None:
            goal_band(axes, *goal, f"goal\n{number(goal[0])} to {number(goal[1])}")
        changes = sorted(float(change) for change in change_points)
        for place in along_time(axes, changes, start):
            axes.axvline(place, color=INK, linewidth=1.1, linestyle=(0, (4, 2)))
            note(axes, place, 1.0, " change", y_of="axes", lift=-2.0)
        if today is not None:
            (place,) = along_time(axes, [today], start)
            axes.axvline(place, color=MUTED, linewidth=0.9)
            note(axes, place, 0.0, " today", y_of="axes", lift=2.0, colour=MUTED)
        axes.set_ylabel(label)
        axes.margins(x=0.02, y=0.1)
        if variable.endswith("_per_l") and axes.get_ylim()[0] < 0.0:
            axes.set_ylim(bottom=0.0)
    return figure


def measured_as(variable: str) -> str | None:
    """Tell what a log calls a column of a run; None if no test shows it."""
    return _MEASURED.get(variable)


def _of_log(log: Log, variable: str) -> dict[str, ArrayLike]:
    """Take the tests of one variable out of a log, each with its own error."""
    tests = [test for test in log.readings if test.measured == _MEASURED[variable]]
    return {
        "day": [test.day for test in tests],
        "low": [max(test.low - test.standard_uncertainty, 0.0) for test in tests],
        "high": [test.high + test.standard_uncertainty for test in tests],
    }


def _track(source: Source, variable: str) -> Track:
    if isinstance(source, Mapping) and "p50" in source:
        spread: list[NDArray[np.float64]] = [
            column(source, q) for q in ("p5", "p25", "p50", "p75", "p95") if q in source
        ]
        if len(spread) not in (1, 3, 5):
            spread = [column(source, q) for q in ("p5", "p50", "p95")]
        return Track(column(source, "day"), tuple(spread))
    found: Any = track(source, variable)
    return cast(Track, found)
