from __future__ import annotations

# Keyword arguments of matplotlib have no types.
# pyright: reportUnknownMemberType=false
from collections.abc import Sequence
from typing import Any

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure

from halimeda._errors import HalimedaValueError
from halimeda._table import number
from halimeda.plots._series import QUANTILES, band, plain
from halimeda.plots._style import (
    BLUE,
    INK,
    VERMILION,
    drawing,
    fan,
    goal_band,
    note,
    say_ranges,
)

_PANELS = (
    ("nitrate_mg_per_l", "nitrate\n(mg/L as NO₃)", BLUE, "-", "o"),
    ("phosphate_mg_per_l", "phosphate\n(mg/L as PO₄)", VERMILION, "--", "s"),
)


def screen_size(
    by_area: Sequence[object],
    *,
    goals: object = None,
    lit_area_m2: float | None = None,
    ax: Sequence[Axes] | None = None,
) -> Figure:
    """Draw nitrate and phosphate that screens of several sizes leave in the water.

    Parameters
    ----------
    by_area : sequence of AreaPoint or mapping
        Each with ``lit_area_m2`` (m², above 0) and the quantiles ``p5`` to ``p95`` of
        ``nitrate_mg_per_l`` (as NO3) and ``phosphate_mg_per_l`` (as PO4).
    goals : Goals or mapping, optional
        ``nitrate_mg_per_l`` and ``phosphate_mg_per_l``, each a pair of low and high.
    lit_area_m2 : float, optional
        The planned screen, m², marked.
    ax : sequence of two matplotlib Axes, optional
        Where to draw: nitrate, phosphate.

    Returns
    -------
    matplotlib.figure.Figure

    Raises
    ------
    HalimedaValueError
        Fewer than two areas were followed.
    """
    points: list[Any] = [plain(point) for point in by_area]
    if len(points) < 2:
        raise HalimedaValueError(
            f"by_area: two areas or more make a line, not {len(points)}",
            input="by_area",
            kind="missing",
        )
    area = np.array([point["lit_area_m2"] for point in points], dtype=np.float64)
    with drawing(ax, (1.75, 1.75)) as (figure, panels):
        for panel, (name, label, colour, dashes, marker) in zip(
            panels, _PANELS, strict=True
        ):
            spread = [
                np.array([point[name][q] for point in points], dtype=np.float64)
                for q in QUANTILES
            ]
            fan(panel, area, spread, colour=colour, dashes=dashes)
            if panel is panels[0]:
                say_ranges(panel, spread)
            panel.plot(area, spread[2], marker, color=colour, markersize=4.0)
            panel.set_yscale("log")
            panel.set_xscale("log")
            panel.set_xticks(area, [number(a) for a in area])
            panel.set_xticks([], minor=True)
            panel.yaxis.set_major_formatter(lambda v, _: number(v))
            panel.yaxis.set_minor_formatter("")
            panel.set_ylabel(label)
            goal = band(goals, name)
            if goal is not None:
                goal_band(panel, *goal, f"goal\n{number(goal[0])} to {number(goal[1])}")
            if lit_area_m2 is not None:
                panel.axvline(
                    lit_area_m2, color=INK, linewidth=0.9, linestyle=(0, (1, 1.5))
                )
        if lit_area_m2 is not None:
            note(
                panels[0],
                lit_area_m2,
                0.98,
                "plan",
                y_of="axes",
                side="center",
                lift=-1.0,
            )
        panels[-1].set_xlabel("lit area of the screen, all faces (m²)")
    return figure
