"""How every figure of the package looks.

Colours are those of Okabe and Ito (2008), "Color Universal Design", which people
with any common kind of colour vision tell apart; from memory. Lines differ by
their dashes too, so that a grey print loses nothing.
"""

from __future__ import annotations

# Keyword arguments of matplotlib have no types.
# pyright: reportUnknownMemberType=false
from collections.abc import Generator, Sequence
from contextlib import contextmanager
from io import BytesIO
from typing import Any, Final, Literal, TypeAlias, cast

import matplotlib as mpl
import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from numpy.typing import NDArray

from halimeda._errors import HalimedaTypeError

INK: Final = "#1c2326"
MUTED: Final = "#5b666b"
HAIRLINE: Final = "#d5dbdd"
BLUE: Final = "#0072b2"
VERMILION: Final = "#d55e00"
GREEN: Final = "#009e73"
#: Darker, for words: 4.5 to 1 against white.
GREEN_TEXT: Final = "#00734f"
ORANGE: Final = "#e69f00"
SKY: Final = "#56b4e9"
PURPLE: Final = "#cc79a7"
#: On a coloured ground, which stays as it is where a page turns dark.
ON_DARK: Final = "#fefefe"
ON_LIGHT: Final = "#0e1113"
#: Of a goal band, of night: paler than any data.
GOAL: Final = "#e0f2eb"
NIGHT: Final = "#e7eaec"

#: Set while a figure is drawn or saved, never for the caller's own figures.
STYLE: Final[Any] = {
    "axes.axisbelow": True,
    "axes.edgecolor": MUTED,
    "axes.facecolor": "none",
    "axes.formatter.use_mathtext": False,
    "axes.formatter.useoffset": False,
    "axes.labelcolor": INK,
    "axes.labelsize": 9.0,
    "axes.linewidth": 0.8,
    "axes.spines.right": False,
    "axes.spines.top": False,
    "axes.titlecolor": INK,
    "axes.titlelocation": "left",
    "axes.titlepad": 8.0,
    "axes.titlesize": 10.0,
    "axes.titleweight": "bold",
    "axes.unicode_minus": True,
    "figure.facecolor": "white",
    "font.family": ["DejaVu Sans"],
    "font.size": 9.0,
    "hatch.color": MUTED,
    "hatch.linewidth": 0.6,
    "lines.linewidth": 1.7,
    "lines.solid_capstyle": "round",
    "svg.fonttype": "none",
    "svg.hashsalt": "halimeda",
    "text.color": INK,
    "xtick.color": MUTED,
    "xtick.labelcolor": INK,
    "xtick.labelsize": 8.5,
    "ytick.color": MUTED,
    "ytick.labelcolor": INK,
    "ytick.labelsize": 8.5,
}

#: A pattern of dashes, as matplotlib takes it.
Dashes: TypeAlias = str | tuple[float, tuple[float, ...]]

#: Width of a figure, inches: what a phone shows without shrinking the words away.
WIDTH: Final = 4.5
#: Opacity of the 5 to 95 % and of the 25 to 75 % range.
OUTER_ALPHA: Final = 0.18
INNER_ALPHA: Final = 0.28


class Drawing(Figure):
    """A figure that shows itself in a notebook.

    It belongs to no global list of open figures: nothing has to be closed, and no
    window opens.
    """

    def _repr_png_(self) -> bytes:
        buffer = BytesIO()
        with mpl.rc_context(STYLE):
            self.savefig(buffer, format="png", dpi=120)
        return buffer.getvalue()


@contextmanager
def drawing(
    ax: Axes | Sequence[Axes] | None, heights: Sequence[float]
) -> Generator[tuple[Figure, list[Axes]]]:
    """Axes below each other with a common x axis, the caller's or new ones.

    Parameters
    ----------
    ax : matplotlib Axes, sequence of them or None
        Where to draw: as many as `heights` has entries.
    heights : sequence of float
        Height of each panel, inches.
    """
    with mpl.rc_context(STYLE):
        if ax is None:
            figure: Figure = Drawing(
                figsize=(WIDTH, sum(heights) + 0.35), layout="constrained"
            )
            axes = list(
                figure.subplots(
                    len(heights), 1, sharex=True, squeeze=False, height_ratios=heights
                )[:, 0]
            )
        else:
            axes = [ax] if isinstance(ax, Axes) else list(ax)
            if len(axes) != len(heights):
                raise HalimedaTypeError(
                    f"ax: {len(heights)} axes are needed, not {len(axes)}",
                    input="ax",
                    kind="wrong_count",
                )
            figure = cast(Figure, axes[0].get_figure(root=True))
        for one in axes:
            one.spines[["top", "right"]].set_visible(False)
            one.set_axisbelow(True)
            one.grid(axis="y", color=HAIRLINE, linewidth=0.7)
        yield figure, axes


def fan(
    ax: Axes,
    x: NDArray[Any],
    quantiles: Sequence[NDArray[np.float64]],
    *,
    colour: str,
    dashes: Dashes = "-",
) -> None:
    """Draw a median with its 5 to 95 % and, where there is one, 25 to 75 % range."""
    if len(quantiles) == 5:
        low, inner_low, middle, inner_high, high = quantiles
        ax.fill_between(x, low, high, color=colour, alpha=OUTER_ALPHA, linewidth=0)
        ax.fill_between(
            x, inner_low, inner_high, color=colour, alpha=INNER_ALPHA, linewidth=0
        )
    elif len(quantiles) == 3:
        low, middle, high = quantiles
        ax.fill_between(x, low, high, color=colour, alpha=OUTER_ALPHA, linewidth=0)
    else:
        (middle,) = quantiles
    ax.plot(x, middle, color=colour, linestyle=dashes)


def goal_band(ax: Axes, low: float, high: float, label: str) -> None:
    """Shade a goal across the axes and name it beside them, where no data are."""
    ax.axhspan(low, high, color=GOAL, linewidth=0, zorder=0)
    for end in (low, high):
        ax.axhline(end, color=GREEN, linewidth=0.8, linestyle=(0, (1, 1.5)), zorder=0.5)
    ax.annotate(
        label,
        (1.0, high),
        xycoords=(ax.transAxes, ax.transData),
        xytext=(4.0, 2.0),
        textcoords="offset points",
        ha="left",
        va="top",
        fontsize=8.0,
        color=GREEN_TEXT,
    )


def say_ranges(ax: Axes, quantiles: Sequence[NDArray[np.float64]]) -> None:
    """Say above the axes what a fan shows, if there is one."""
    if len(quantiles) > 1:
        half = "half and " if len(quantiles) == 5 else ""
        ax.set_title(
            f"line: median; bands: {half}nine in ten of the ensemble",
            fontsize=8.0,
            fontweight="normal",
            color=MUTED,
        )


def note(
    ax: Axes,
    x: float | np.datetime64,
    y: float,
    text: str,
    *,
    x_of: Literal["axes", "data"] = "data",
    y_of: Literal["axes", "data"] = "data",
    side: Literal["left", "right", "center"] = "left",
    lift: float = 3.0,
    colour: str = INK,
) -> None:
    """Write a word beside what it names, on a ground that keeps lines off it."""
    # A transform knows no dates.
    place = x if x_of == "axes" else cast(Any, ax).convert_xunits(x)
    across = ax.transAxes if x_of == "axes" else ax.transData
    up = ax.transAxes if y_of == "axes" else ax.transData
    ax.annotate(
        text,
        (cast(float, place), y),
        xycoords=(across, up),
        xytext=(0.0, lift),
        textcoords="offset points",
        ha=side,
        va="bottom" if lift >= 0.0 else "top",
        fontsize=8.0,
        color=colour,
        bbox={
            "facecolor": "white",
            "alpha": 0.75,
            "edgecolor": "none",
            "pad": 0.8,
        },
    )
