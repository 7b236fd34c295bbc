from __future__ import annotations

# Keyword arguments of matplotlib have no types.
# pyright: reportUnknownMemberType=false
from collections.abc import Sequence
from typing import Any, Final

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from numpy.typing import NDArray

from halimeda._errors import HalimedaValueError
from halimeda.plots._series import (
    HasRanges,
    Source,
    Track,
    column,
    columns,
    of_tank,
    track,
)
from halimeda.plots._style import (
    BLUE,
    GREEN,
    INK,
    MUTED,
    NIGHT,
    ORANGE,
    PURPLE,
    VERMILION,
    Dashes,
    drawing,
    fan,
    note,
)

_PANELS: Final[tuple[tuple[str, str, float, str, Dashes], ...]] = (
    ("ph_total", "pH (total scale)", 1.0, BLUE, "-"),
    ("oxygen_saturation", "oxygen (% of saturation)", 100.0, GREEN, (0, (5, 1.5))),
    (
        "carbon_dioxide_umol_per_kg",
        "dissolved CO₂ (µmol/kg)",
        1.0,
        VERMILION,
        (0, (3, 1, 1, 1)),
    ),
)
#: Fewer samples than this do not show a day.
_LEAST_SAMPLES = 9


def daily_cycle(
    run: Source,
    *,
    ensemble: HasRanges | None = None,
    day: int | None = None,
    ax: Sequence[Axes] | None = None,
) -> Figure:
    """Draw pH, oxygen and CO2 through one day, with the hours of the lamps.

    Parameters
    ----------
    run : Run or mapping of str to array_like
        A run, or columns ``day`` (d), ``ph_total``, ``oxygen_saturation`` (share),
        ``carbon_dioxide_umol_per_kg``, ``screen_lit`` and ``display_lit``, each of
        one dimension.
    ensemble : Ensemble, optional
        Draws the 5 to 95 % range of those variables that it kept.
    day : int, optional
        Days from the start to the midnight the day begins with; by default the
        last whole day of the run.
    ax : sequence of four matplotlib Axes, optional
        Where to draw: lamps, pH, oxygen, CO2.

    Returns
    -------
    matplotlib.figure.Figure

    Raises
    ------
    HalimedaValueError
        A column is missing, or the day has fewer than nine samples.
    """
    table = columns(run)
    days = column(table, "day")
    if day is None:
        day = max(int(np.floor(days[-1])) - 1, 0) if days.size else 0
    chosen = _of_day(days, day)
    hours = 24.0 * (days[chosen] - day)
    schedule = of_tank(run, "schedule")
    display, screen = (
        _lit_hours(
            hours,
            column(table, f"{name}_lit")[chosen] > 0.5,
            getattr(schedule, f"{name}_light", None),
        )
        for name in ("display", "screen")
    )
    nights = _dark(display)
    with drawing(ax, (0.5, 1.3, 1.3, 1.3)) as (figure, (strip, *panels)):
        _lamp_strip(
            strip,
            [("display", display, ORANGE, ""), ("screen", screen, PURPLE, "////")],
        )
        strip.set_title(f"Day {day + 1} of the run" if ax is None else "")
        for panel, (name, label, scale, colour, dashes) in zip(
            panels, _PANELS, strict=True
        ):
            for begin, end in nights:
                panel.axvspan(begin, end, color=NIGHT, linewidth=0, zorder=0)
            values = Track(hours, (scale * column(table, name)[chosen],))
            if ensemble is not None:
                ranges = track(ensemble, name)
                inside = _of_day(ranges.days, day)
                values = Track(
                    24.0 * (ranges.days[inside] - day),
                    tuple(scale * q[inside] for q in ranges.quantiles),
                )
            fan(panel, values.days, values.quantiles, colour=colour, dashes=dashes)
            panel.set_ylabel(label.replace(" (", "\n("))
            panel.margins(y=0.12)
        panels[-1].set_xlabel("hour of the day (h)")
        panels[-1].set_xlim(0.0, 24.0)
        panels[-1].set_xticks(np.arange(0.0, 25.0, 4.0))
        if nights:
            begin, end = max(nights, key=lambda span: span[1] - span[0])
            note(
                panels[0],
                0.5 * (begin + end),
                0.98,
                "display dark",
                y_of="axes",
                side="center",
                lift=-1.0,
                colour=MUTED,
            )
    return figure


def _of_day(days: NDArray[np.float64], day: int) -> NDArray[np.bool_]:
    # Midnight at either end belongs to the day; sums of hours miss it in the last bits.
    chosen = (days > day - 1e-6) & (days < day + 1 + 1e-6)
    if np.count_nonzero(chosen) < _LEAST_SAMPLES:
        raise HalimedaValueError(
            f"day: day {day} has {np.count_nonzero(chosen)} samples, and a daily cycle "
            f"needs at least {_LEAST_SAMPLES}; sample more often",
            input="day",
            value=float(day),
            kind="missing",
        )
    return chosen


def _lit_hours(
    hours: NDArray[np.float64], lit: NDArray[np.bool_], planned: Any
) -> list[tuple[float, float]]:
    """Tell from when to when lamps are on.

    The samples know when a lamp fails, the schedule knows the minute.
    """
    if planned is not None:
        begin, end = planned.start_hour, planned.start_hour + planned.hours
        spans = [(begin, min(end, 24.0)), (0.0, end - 24.0)]
        spans = [span for span in spans if span[1] > span[0]]
        expected = [any(a < h - 1e-6 <= b for a, b in spans) for h in hours[1:]]
        if np.array_equal(expected, lit[1:]):
            return sorted(spans)
    # A sample at a switch shows what was before it: each stands for the time up to it.
    steps = np.diff(np.concatenate(([False], lit[1:], [False])).astype(int))
    edges = np.flatnonzero(steps)
    return [
        (float(hours[begin]), float(hours[end]))
        for begin, end in zip(edges[::2], edges[1::2], strict=True)
    ]


def _dark(lit: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    ends = [0.0, *(hour for span in lit for hour in span), 24.0]
    return [(a, b) for a, b in zip(ends[::2], ends[1::2], strict=True) if b > a]


def _lamp_strip(
    ax: Axes,
    lamps: Sequence[tuple[str, Sequence[tuple[float, float]], str, str]],
) -> None:
    for row, (_, spans, colour, hatch) in enumerate(reversed(lamps)):
        ax.broken_barh(
            [(begin, end - begin) for begin, end in spans],
            (row + 0.12, 0.76),
            facecolor=colour,
            edgecolor=INK,
            linewidth=0.0,
            hatch=hatch,
        )
    ax.set_yticks([0.5, 1.5], [f"{name} lamps" for name, *_ in reversed(lamps)])
    ax.set_ylim(0.0, 2.0)
    ax.tick_params(axis="both", length=0)
    ax.tick_params(axis="x", labelbottom=False)
    ax.grid(visible=False)
    ax.spines[["left", "bottom"]].set_visible(False)
