from __future__ import annotations

# Keyword arguments of matplotlib have no types.
# pyright: reportUnknownMemberType=false
import datetime as dt
from collections.abc import Iterable, Sequence

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure

from halimeda._table import number
from halimeda.plots._series import Source, along_time, of_tank, plain, track
from halimeda.plots._style import (
    BLUE,
    GREEN,
    INK,
    VERMILION,
    drawing,
    fan,
    note,
)

#: More weights than this cannot be read beside each other.
_MOST_WEIGHTS = 7


def turf(
    source: Source,
    *,
    harvests: Iterable[object] | None = None,
    start: dt.date | None = None,
    ax: Sequence[Axes] | None = None,
) -> Figure:
    """Draw the turf on the screen, what was harvested of it, and how well it holds on.

    Parameters
    ----------
    source : Run, Ensemble or mapping of str to array_like
        Columns ``day`` (d), ``turf_g_dry_per_m2``, ``turf_cover`` and
        ``turf_reserve`` (shares), each of one dimension.
    harvests : iterable of Harvest or mapping, optional
        Each with ``day`` (d) and ``drained_grams`` (g); by default those of the run.
    start : datetime.date, optional
        Date of day 0, by default that of the tank that was followed; the axis counts
        days where there is none.
    ax : sequence of two matplotlib Axes, optional
        Where to draw: mass, and cover with reserve.

    Returns
    -------
    matplotlib.figure.Figure

    Raises
    ------
    HalimedaValueError
        A column is missing or empty.
    """
    start = of_tank(source, "start") if start is None else start
    found = getattr(source, "harvests", ()) if harvests is None else harvests
    taken = [_taken(harvest) for harvest in found]
    with drawing(ax, (2.0, 1.2)) as (figure, (mass, hold)):
        standing = track(source, "turf_g_dry_per_m2")
        x = along_time(hold, standing.days, start)
        fan(mass, x, standing.quantiles, colour=GREEN)
        mass.set_ylabel("turf, dry\n(g/m² of lit area)")
        mass.margins(x=0.01)
        # Room above for the weights.
        mass.set_ylim(0.0, 1.3 * max(float(np.nanmax(standing.quantiles[-1])), 1.0))
        days = along_time(hold, [day for day, _ in taken], start)
        for day in days:
            mass.axvline(day, color=INK, linewidth=0.9, linestyle=(0, (1, 2)))
        if 0 < len(taken) <= _MOST_WEIGHTS:
            for day, (_, grams) in zip(days, taken, strict=True):
                note(
                    mass,
                    day,
                    1.0,
                    f"{grams:.0f} g",
                    y_of="axes",
                    side="center",
                    lift=-2.0,
                )
        if taken:
            weights = [grams for _, grams in taken]
            mass.set_title(
                f"{len(taken)} harvests (dotted), {number(min(weights))} to "
                f"{number(max(weights))} g drained"
                if len(taken) > 1
                else f"One harvest (dotted), {number(weights[0])} g drained"
            )
        for name, words, colour, dashes in (
            ("turf_cover", "cover of the screen", BLUE, "-"),
            ("turf_reserve", "reserve of the holdfast layer", VERMILION, (0, (4, 1.5))),
        ):
            share = track(source, name)
            fan(
                hold,
                x,
                tuple(100.0 * q for q in share.quantiles),
                colour=colour,
                dashes=dashes,
            )
            hold.plot([], [], color=colour, linestyle=dashes, label=words)
        hold.set_ylabel("share (%)")
        hold.set_ylim(0.0, 108.0)
        hold.legend(
            loc="upper center",
            bbox_to_anchor=(0.5, 1.25),
            ncols=2,
            frameon=False,
            fontsize=8.0,
            handlelength=2.4,
            borderpad=0.0,
        )
    return figure


def _taken(harvest: object) -> tuple[float, float]:
    """Day and drained mass, g."""
    record = plain(harvest)
    return float(record["day"]), float(record["drained_grams"])
