from __future__ import annotations

# Keyword arguments of matplotlib have no types.
# pyright: reportUnknownMemberType=false
import datetime as dt
from collections.abc import Sequence
from typing import Final

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure

from halimeda._table import number
from halimeda.plots._series import Source, along_time, band, of_tank, track
from halimeda.plots._style import (
    BLUE,
    VERMILION,
    Dashes,
    drawing,
    fan,
    goal_band,
    say_ranges,
)

_PANELS: Final[tuple[tuple[str, str, str, Dashes], ...]] = (
    ("nitrate_mg_per_l", "nitrate\n(mg/L as NO₃)", BLUE, "-"),
    ("phosphate_mg_per_l", "phosphate\n(mg/L as PO₄)", VERMILION, (0, (5, 1.5))),
)
#: Beyond this ratio a linear axis hides the goal.
_WIDE = 25.0


def nutrients(
    source: Source,
    *,
    goals: object = None,
    start: dt.date | None = None,
    ax: Sequence[Axes] | None = None,
) -> Figure:
    """Draw nitrate and phosphate over time against the bands they should keep to.

    Parameters
    ----------
    source : Run, Ensemble or mapping of str to array_like
        Columns ``day`` (d), ``nitrate_mg_per_l`` (as NO3) and
        ``phosphate_mg_per_l`` (as PO4), each of one dimension; of an ensemble, the
        median with its 25 to 75 % and 5 to 95 % ranges.
    goals : Goals or mapping, optional
        ``nitrate_mg_per_l`` and ``phosphate_mg_per_l``, each a pair of low and high;
        by default those of the tank that was followed.
    start : datetime.date, optional
        Date of day 0, by default that of the tank that was followed; the axis counts
        days where there is none.
    ax : sequence of two matplotlib Axes, optional
        Where to draw: nitrate, phosphate.

    Returns
    -------
    matplotlib.figure.Figure

    Raises
    ------
    HalimedaValueError
        A column is missing or empty, or a band is upside down.
    """
    goals = of_tank(source, "goals") if goals is None else goals
    start = of_tank(source, "start") if start is None else start
    with drawing(ax, (1.75, 1.75)) as (figure, panels):
        for panel, (name, label, colour, dashes) in zip(panels, _PANELS, strict=True):
            values = track(source, name)
            x = along_time(panel, values.days, start)
            fan(panel, x, values.quantiles, colour=colour, dashes=dashes)
            panel.set_ylabel(label)
            panel.margins(x=0.01)
            if panel is panels[0]:
                say_ranges(panel, values.quantiles)
            ends = [
                float(np.nanmin(values.quantiles[0])),
                float(np.nanmax(values.quantiles[-1])),
            ]
            goal = band(goals, name)
            if goal is not None:
                goal_band(panel, *goal, f"goal\n{number(goal[0])} to {number(goal[1])}")
                ends += goal
            least, most = min(ends), max(ends)
            if least > 0.0 and most > _WIDE * least:
                panel.set_yscale("log")
                panel.set_ylim(least / 1.3, most * 1.6)
                panel.yaxis.set_major_formatter(lambda v, _: number(v))
                panel.yaxis.set_minor_formatter("")
            else:
                panel.set_ylim(0.0, 1.15 * most if most > 0.0 else 1.0)
        panels[0].set_xlabel("")
    return figure
