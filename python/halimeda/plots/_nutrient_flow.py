from __future__ import annotations

# Keyword arguments of matplotlib have no types.
# pyright: reportUnknownMemberType=false
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final, Literal, Protocol, runtime_checkable

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import PathPatch, Rectangle
from matplotlib.path import Path

from halimeda._errors import HalimedaValueError
from halimeda._table import number
from halimeda.plots._style import (
    BLUE,
    GREEN,
    INK,
    MUTED,
    ORANGE,
    PURPLE,
    SKY,
    VERMILION,
    drawing,
)

Nutrient = Literal["nitrogen", "phosphorus"]

#: g/mol, IUPAC standard atomic weights (abridged), doi 10.1515/pac-2019-0603.
GRAMS_PER_MOL: Final = {"nitrogen": 14.007, "phosphorus": 30.974}
#: Ledger processes as a keeper calls them, in and out, with a colour and a hatch.
_WORDS: Final[dict[str, tuple[str, str, str, str]]] = {
    "feeding": ("food", "food", ORANGE, ""),
    "livestock": ("animals, fasting", "growth of the animals", SKY, "--"),
    "denitrification": ("denitrification", "denitrified to N₂", PURPLE, "\\\\"),
    "foam fractionation": ("foam", "foam fractionator", BLUE, "xx"),
    "harvest": ("harvest", "turf harvested", GREEN, "//"),
    "dosing": ("dosing", "dosing", VERMILION, ""),
    "water change": ("new water", "water changed", BLUE, ""),
    "new parts": ("new parts", "media taken out", MUTED, ""),
}
_STORE: Final = ("drawn from what\nthe tank holds", "left in the tank", MUTED, "")
#: Thinner flows are gathered into one.
_LEAST_SHARE: Final = 0.015


@runtime_checkable
class Books(Protocol):
    """A ledger: moles of an element that a process brought into the tank."""

    @property
    def processes(self) -> tuple[str, ...]: ...

    def entry(self, process: str, stock_or_element: str, /) -> float: ...


@dataclass(frozen=True)
class _Stream:
    words: str
    grams: float
    colour: str
    hatch: str


def nutrient_flow(
    ledger: Books | Mapping[str, float],
    element: Nutrient,
    *,
    days: float,
    ax: Axes | None = None,
) -> Figure:
    """Draw where nitrogen or phosphorus of a tank comes from and where it goes.

    Parameters
    ----------
    ledger : Ledger or mapping of str to float
        What each process brought into the tank (positive) or took out of it, mol,
        by its name in the ledger.
    element : {"nitrogen", "phosphorus"}
        What is followed.
    days : float
        Days that the books cover, above 0.
    ax : matplotlib Axes, optional
        Where to draw.

    Returns
    -------
    matplotlib.figure.Figure

    Raises
    ------
    HalimedaValueError
        The element is neither, `days` is not above zero, or nothing flowed.
    """
    if element not in GRAMS_PER_MOL:
        raise HalimedaValueError(
            f"element must be 'nitrogen' or 'phosphorus', not {element!r}",
            input="element",
            kind="unknown",
        )
    if not 0.0 < days < float("inf"):
        raise HalimedaValueError(
            f"days: the books must cover more than none, not {days}",
            input="days",
            value=days,
            limits=(0.0, float("inf")),
            kind="out_of_range",
        )
    sources, sinks = _streams(ledger, element, days)
    total = sum(stream.grams for stream in sources)
    with drawing(ax, (0.52 * max(len(sources), len(sinks), 4) + 0.7,)) as (
        figure,
        (axes,),
    ):
        axes.grid(visible=False)
        axes.set_axis_off()
        axes.set_xlim(0.0, 1.0)
        # Gaps between streams, as a share of everything that flows.
        gap = 0.09
        height = 1.0 + gap * (max(len(sources), len(sinks)) - 1)
        axes.set_ylim(-0.03 * height, 1.03 * height)
        _side(axes, sources, total, gap, height, outer=0.27, inner=0.46)
        _side(axes, sinks, total, gap, height, outer=0.73, inner=0.54)
        axes.add_patch(
            Rectangle(
                (0.46, 0.5 * (height - 1.0)), 0.08, 1.0, facecolor=INK, linewidth=0.0
            )
        )
        axes.text(
            0.5,
            0.5 * height,
            f"the tank\n{_mass(total, total)} of {element} a week",
            rotation=90.0,
            ha="center",
            va="center",
            fontsize=8.5,
            color="white",
            linespacing=1.35,
        )
    return figure


def _streams(
    ledger: Books | Mapping[str, float], element: str, days: float
) -> tuple[list[_Stream], list[_Stream]]:
    """Sort what flows in and out, largest first, equal in sum."""
    if isinstance(ledger, Mapping):
        crossed = {str(process): float(moles) for process, moles in ledger.items()}
    else:
        crossed = {
            process: ledger.entry(process, element) for process in ledger.processes
        }
    weekly = {
        process: moles * GRAMS_PER_MOL[element] * 7.0 / days
        for process, moles in crossed.items()
    }
    throughput = max(
        sum(grams for grams in weekly.values() if grams > 0.0),
        -sum(grams for grams in weekly.values() if grams < 0.0),
    )
    if not throughput > 0.0:
        raise HalimedaValueError(
            f"no {element} flowed into or out of the tank",
            input="ledger",
            kind="missing",
        )
    sources: list[_Stream] = []
    sinks: list[_Stream] = []
    small = {True: 0.0, False: 0.0}
    for process, grams in [*weekly.items(), ("", -sum(weekly.values()))]:
        name_in, name_out, colour, hatch = (
            _WORDS.get(process, (process, process, MUTED, "")) if process else _STORE
        )
        enters = grams > 0.0
        if abs(grams) < _LEAST_SHARE * throughput:
            small[enters] += abs(grams)
            continue
        stream = _Stream(name_in if enters else name_out, abs(grams), colour, hatch)
        (sources if enters else sinks).append(stream)
    for enters, streams in ((True, sources), (False, sinks)):
        streams.sort(key=lambda stream: -stream.grams)
        if small[enters] > 0.005 * throughput:
            streams.append(_Stream("all else", small[enters], MUTED, ""))
    return sources, sinks


def _mass(grams: float, total: float) -> str:
    """Tell a mass in the unit that suits all of the figure."""
    return f"{number(grams)} g" if total >= 1.0 else f"{number(1000.0 * grams)} mg"


def _side(
    axes: Axes,
    streams: list[_Stream],
    total: float,
    gap: float,
    height: float,
    *,
    outer: float,
    inner: float,
) -> None:
    """Ribbons between the bar in the middle and the labels on one side."""
    at_bar = 0.5 * (height + 1.0)
    spread = 1.0 + gap * (len(streams) - 1)
    at_label = 0.5 * (height + spread)
    bend = 0.5 * (outer + inner)
    for stream in streams:
        thickness = stream.grams / total
        top, bottom = at_label, at_label - thickness
        ribbon = Path(
            [
                (outer, top),
                (bend, top),
                (bend, at_bar),
                (inner, at_bar),
                (inner, at_bar - thickness),
                (bend, at_bar - thickness),
                (bend, bottom),
                (outer, bottom),
                (outer, top),
            ],
            [
                Path.MOVETO,
                Path.CURVE4,
                Path.CURVE4,
                Path.CURVE4,
                Path.LINETO,
                Path.CURVE4,
                Path.CURVE4,
                Path.CURVE4,
                Path.CLOSEPOLY,
            ],
        )
        axes.add_patch(
            PathPatch(
                ribbon,
                facecolor=stream.colour,
                alpha=0.55,
                linewidth=0.0,
                hatch=stream.hatch,
                edgecolor=INK,
            )
        )
        leftward = outer < inner
        axes.annotate(
            f"{stream.words}\n{_mass(stream.grams, total)}/week, "
            f"{100.0 * thickness:.0f} %",
            (outer, 0.5 * (top + bottom)),
            xytext=(-4.0 if leftward else 4.0, 0.0),
            textcoords="offset points",
            ha="right" if leftward else "left",
            va="center",
            fontsize=8.0,
            linespacing=1.25,
        )
        at_bar -= thickness
        at_label -= thickness + gap
