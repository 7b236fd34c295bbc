from __future__ import annotations

# Keyword arguments of matplotlib have no types.
# pyright: reportUnknownMemberType=false
from collections.abc import Sequence
from typing import Any, cast

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure

from halimeda._errors import HalimedaValueError
from halimeda.plots._series import band, plain
from halimeda.plots._style import INK, MUTED, ON_DARK, ON_LIGHT, drawing


def light_hours(
    points: Sequence[object],
    *,
    best: object = None,
    goals: object = None,
    ax: Axes | None = None,
) -> Figure:
    """Draw the daily swing of pH by how long and from when the screen is lit.

    Parameters
    ----------
    points : sequence of LightPoint or mapping
        Each with ``hours`` a day (h), ``start_hour`` (h after midnight) and
        ``daily_ph_swing`` (total scale).
    best : LightPoint or mapping, optional
        Framed.
    goals : Goals or mapping, optional
        ``nitrate_mg_per_l`` and ``phosphate_mg_per_l``, each a pair of low and high;
        photoperiods that miss one get a cross.
    ax : matplotlib Axes, optional
        Where to draw.

    Returns
    -------
    matplotlib.figure.Figure

    Raises
    ------
    HalimedaValueError
        There are no points.
    """
    found: list[Any] = [plain(point) for point in points]
    if not found:
        raise HalimedaValueError(
            "points: there is no photoperiod to draw", input="points", kind="missing"
        )
    hours = sorted({float(point["hours"]) for point in found})
    starts = sorted({float(point["start_hour"]) for point in found})
    swing = np.full((len(hours), len(starts)), np.nan)
    for point in found:
        swing[hours.index(point["hours"]), starts.index(point["start_hour"])] = point[
            "daily_ph_swing"
        ]
    bands = [
        (name, band(goals, name)) for name in ("nitrate_mg_per_l", "phosphate_mg_per_l")
    ]
    missed = {
        (float(point["hours"]), float(point["start_hour"]))
        for point in found
        for name, ends in bands
        if ends is not None and not ends[0] <= point[name] <= ends[1]
    }
    with drawing(ax, (0.42 * len(hours) + 0.6,)) as (figure, (axes,)):
        axes.grid(visible=False)
        mesh = axes.pcolormesh(
            np.ma.masked_invalid(swing),
            cmap="cividis_r",
            edgecolors="white",
            linewidth=1.0,
        )
        middle = 0.5 * (np.nanmin(swing) + np.nanmax(swing))
        for (row, place), value in np.ndenumerate(swing):
            if np.isfinite(value):
                cross = (
                    " \N{MULTIPLICATION SIGN}"
                    if (hours[row], starts[place]) in missed
                    else ""
                )
                axes.text(
                    place + 0.5,
                    row + 0.5,
                    f"{value:.2f}{cross}",
                    ha="center",
                    va="center",
                    fontsize=7.5,
                    color=ON_DARK if value > middle else ON_LIGHT,
                )
        if missed:
            axes.set_title(
                "\N{MULTIPLICATION SIGN}: nitrate or phosphate misses its goal",
                fontsize=8.0,
                fontweight="normal",
                color=MUTED,
            )
        chosen: Any = plain(best)
        if chosen is not None:
            row, place = (
                hours.index(chosen["hours"]),
                starts.index(chosen["start_hour"]),
            )
            axes.plot(
                [place, place + 1, place + 1, place, place],
                [row, row, row + 1, row + 1, row],
                color=INK,
                linewidth=2.2,
                clip_on=False,
            )
        axes.set_xticks(
            np.arange(len(starts)) + 0.5, [f"{_clock(start)}" for start in starts]
        )
        axes.set_yticks(np.arange(len(hours)) + 0.5, [f"{h:g} h" for h in hours])
        axes.tick_params(length=0.0)
        axes.spines[["left", "bottom"]].set_visible(False)
        axes.set_xlabel("screen lit from (clock time)")
        axes.set_ylabel("lit a day (h)")
        bar = figure.colorbar(mesh, ax=axes, pad=0.02)
        bar.set_label("daily pH swing\n(total scale)")
        cast(Any, bar).outline.set_visible(False)
    return figure


def _clock(hour: float) -> str:
    minutes = round(60.0 * hour)
    return f"{minutes // 60 % 24:02d}:{minutes % 60:02d}"
