from __future__ import annotations

# Keyword arguments of matplotlib have no types.
# pyright: reportUnknownMemberType=false
from typing import Any

import numpy as np
from matplotlib.axes import Axes
from matplotlib.colors import LogNorm
from matplotlib.figure import Figure
from matplotlib.ticker import LogLocator
from numpy.typing import ArrayLike

from halimeda._errors import HalimedaValueError
from halimeda._table import number
from halimeda.plots._style import ON_DARK, ON_LIGHT, drawing, note

#: Reads the same in grey: dark is much.
_MAP = "cividis_r"
_LEVELS = 13


def trade_off(
    lit_area_m2: ArrayLike,
    lit_hours_per_day: ArrayLike,
    nitrate_mg_per_l: ArrayLike,
    *,
    goal_mg_per_l: tuple[float, float] | None = None,
    today: tuple[float, float] | None = None,
    planned: tuple[float, float] | None = None,
    ax: Axes | None = None,
) -> Figure:
    """Draw what nitrate screens of any size leave, lit for any number of hours.

    Parameters
    ----------
    lit_area_m2 : array_like of float
        Lit areas over all faces, m², rising, above 0; at least two.
    lit_hours_per_day : array_like of float
        Hours of light a day, h, rising, 0 to 24; at least two.
    nitrate_mg_per_l : array_like of float
        Nitrate that settles in, mg/L as NO3, above 0, of shape (hours, areas); not a
        number where the tank could not be followed.
    goal_mg_per_l : tuple of two floats, optional
        Ends of the nitrate band, mg/L as NO3, drawn as lines.
    today, planned : tuple of two floats, optional
        A screen as (lit area in m², hours a day), marked.
    ax : matplotlib Axes, optional
        Where to draw.

    Returns
    -------
    matplotlib.figure.Figure

    Raises
    ------
    HalimedaValueError
        The shapes do not belong together, an axis does not rise, or no nitrate is a
        number above zero.
    """
    area = np.asarray(lit_area_m2, dtype=np.float64)
    hours = np.asarray(lit_hours_per_day, dtype=np.float64)
    nitrate = np.asarray(nitrate_mg_per_l, dtype=np.float64)
    _check(area, hours, nitrate)
    shown = np.ma.masked_invalid(np.where(nitrate > 0.0, nitrate, np.nan))
    least, most = float(shown.min()), float(shown.max())
    top = max(most, 1.001 * least)
    with drawing(ax, (3.2,)) as (figure, (axes,)):
        axes.grid(visible=False)
        levels = np.geomspace(least, top, _LEVELS)
        mesh = axes.contourf(
            area, hours, shown, levels=levels, norm=LogNorm(least, top), cmap=_MAP
        )
        axes.set_xscale("log")
        axes.set_xticks(area, [number(a) for a in area])
        axes.set_xticks([], minor=True)
        axes.set_xlabel("lit area of the screen, all faces (m²)")
        axes.set_ylabel("light (hours a day)")
        bar = figure.colorbar(mesh, ax=axes, pad=0.02)
        bar.set_label("nitrate (mg/L as NO₃)")
        round_numbers = LogLocator(subs=(1.0, 3.0)).tick_values(least, most)
        bar.set_ticks([v for v in round_numbers if least <= v <= most])
        bar.ax.yaxis.set_major_formatter(lambda v, _: number(v))
        bar.ax.yaxis.set_minor_formatter("")
        ends = zip(
            goal_mg_per_l or (),
            ("at least", "at most"),
            ("dashed", "solid"),
            strict=False,
        )
        for end, words, dashes in ends:
            if least < end < most:
                lines = axes.contour(
                    area,
                    hours,
                    shown,
                    levels=[end],
                    colors=ON_DARK,
                    linewidths=1.6,
                    linestyles=dashes,
                )
                axes.clabel(lines, fmt=f"{words} {number(end)} mg/L", fontsize=8.0)
        for place, words, marker, lift in (
            (today, "today", "o", 6.0),
            (planned, "plan", "D", -6.0),
        ):
            if place is not None:
                axes.plot(
                    *([v] for v in place),
                    marker=marker,
                    color=ON_DARK,
                    markeredgecolor=ON_LIGHT,
                    markersize=7.0,
                    clip_on=False,
                    zorder=5,
                )
                note(axes, *place, words, side="center", lift=lift)
    return figure


def _check(area: Any, hours: Any, nitrate: Any) -> None:
    for name, axis, low, high in (
        ("lit_area_m2", area, 0.0, np.inf),
        ("lit_hours_per_day", hours, 0.0, 24.0),
    ):
        if axis.ndim != 1 or axis.size < 2 or not np.all(np.diff(axis) > 0.0):
            raise HalimedaValueError(
                f"{name}: two or more values that rise are needed",
                input=name,
                kind="shape",
            )
        if not (axis[0] >= low and axis[-1] <= high) or (
            name == "lit_area_m2" and axis[0] <= 0.0
        ):
            raise HalimedaValueError(
                f"{name}: {axis[0]} to {axis[-1]} leaves its limits, {low} to {high}",
                input=name,
                value=float(axis[0]),
                limits=(low, high),
                kind="out_of_range",
            )
    if nitrate.shape != (hours.size, area.size):
        raise HalimedaValueError(
            f"nitrate_mg_per_l has the shape {nitrate.shape}, and {hours.size} hours "
            f"by {area.size} areas were given",
            input="nitrate_mg_per_l",
            kind="shape",
        )
    if not np.any(nitrate > 0.0):
        raise HalimedaValueError(
            "nitrate_mg_per_l: not one value is a number above zero",
            input="nitrate_mg_per_l",
            kind="missing",
        )
