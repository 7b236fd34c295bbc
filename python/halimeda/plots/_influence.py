from __future__ import annotations

# Keyword arguments of matplotlib have no types.
# pyright: reportUnknownMemberType=false
import re
from collections.abc import Iterable, Mapping
from typing import Any, cast

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from halimeda._errors import HalimedaValueError
from halimeda.plots._series import plain
from halimeda.plots._style import BLUE, INK, VERMILION, drawing

_BAR_INCHES = 0.42
#: A unit at the end of a name, as in "saturation_irradiance_umol_per_m2_s".
_UNIT = re.compile(r"_(?:[um]?mol|[um]?g|m|cm|l|h|d)(?:_[a-z]+)?_per_\w+$")


def influence(
    influences: Iterable[object] | Mapping[str, float],
    *,
    answer: str = "nitrate",
    ax: Axes | None = None,
) -> Figure:
    """Draw what an answer depends on most of all that is not known of the tank.

    Parameters
    ----------
    influences : iterable of Influence or mapping of str to float
        Names of parameters, as in ``"turf.reserve_days"``, with their rank
        correlation with the answer, from -1 to 1.
    answer : str
        What the answer is, in words.
    ax : matplotlib Axes, optional
        Where to draw.

    Returns
    -------
    matplotlib.figure.Figure

    Raises
    ------
    HalimedaValueError
        There is nothing to draw, or a correlation lies outside -1 to 1.
    """
    pairs = _pairs(influences)
    if not pairs:
        raise HalimedaValueError(
            "no parameter stands out: there is nothing to draw",
            input="influences",
            kind="missing",
        )
    for name, correlation in pairs:
        if not -1.0 <= correlation <= 1.0:
            raise HalimedaValueError(
                f"{name}: a rank correlation lies between -1 and 1, not at "
                f"{correlation}",
                input=name,
                value=correlation,
                limits=(-1.0, 1.0),
                kind="out_of_range",
            )
    pairs.sort(key=lambda pair: abs(pair[1]))
    with drawing(ax, (_BAR_INCHES * len(pairs) + 0.6,)) as (figure, (axes,)):
        rows = range(len(pairs))
        for row, (name, correlation) in zip(rows, pairs, strict=True):
            axes.barh(
                row,
                correlation,
                height=0.42,
                color=VERMILION if correlation > 0.0 else BLUE,
                hatch="" if correlation > 0.0 else "////",
                edgecolor="white",
                linewidth=0.0,
            )
            axes.text(
                -1.2, row + 0.27, in_words(name), va="bottom", ha="left", fontsize=8.5
            )
            axes.annotate(
                f"{correlation:+.2f}".replace("-", "\N{MINUS SIGN}"),
                (correlation, row),
                xytext=(4.0 if correlation > 0.0 else -4.0, 0.0),
                textcoords="offset points",
                ha="left" if correlation > 0.0 else "right",
                va="center",
                fontsize=8.0,
                color=INK,
            )
        axes.axvline(0.0, color=INK, linewidth=0.8)
        axes.set_xlim(-1.2, 1.2)
        axes.set_xticks([-1.0, -0.5, 0.0, 0.5, 1.0])
        axes.set_ylim(-0.45, len(pairs) - 0.2)
        axes.set_yticks([])
        axes.spines["left"].set_visible(False)
        axes.set_xlabel(
            f"more of it: less {answer}  ←  rank correlation (1)  →  more {answer}"
        )
    return figure


def in_words(parameter: str) -> str:
    """Tell a parameter's name as words: its group, then what it is, without unit.

    Parameters
    ----------
    parameter : str
        Its name, such as ``"turf.reserve_days"``. Any other text is taken as one.

    Returns
    -------
    str
        The words, such as ``"turf: reserve days"``.
    """
    group, _, name = parameter.rpartition(".")
    words = _UNIT.sub("", name).replace("_", " ")
    return f"{group.replace('_', ' ')}: {words}" if group else words


def _pairs(
    influences: Iterable[object] | Mapping[str, float],
) -> list[tuple[str, float]]:
    if isinstance(influences, Mapping):
        named = cast("Mapping[str, float]", influences)
        return [(name, float(value)) for name, value in named.items()]
    records: list[Any] = [plain(one) for one in influences]
    return [(str(r["parameter"]), float(r["rank_correlation"])) for r in records]
