from __future__ import annotations

# Keyword arguments of matplotlib have no types.
# pyright: reportUnknownMemberType=false
from typing import Any, Literal

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure

from halimeda._errors import HalimedaValueError
from halimeda.plots._style import BLUE, GREEN, INK, VERMILION, drawing, note

_SPECIES = (
    ("carbon_dioxide_umol_per_kg", "CO₂", VERMILION, (0, (5, 1.5))),
    ("bicarbonate_umol_per_kg", "HCO₃⁻", BLUE, "-"),
    ("carbonate_umol_per_kg", "CO₃²⁻", GREEN, (0, (3, 1, 1, 1))),
)
#: Inorganic carbon the shares are computed with, µmol/kg; they do not depend on it.
_ANY_CARBON = 2000.0


def species(
    water: Any,
    *,
    ph_total: float | None = None,
    ph_total_range: tuple[float, float] = (4.5, 10.5),
    ax: Axes | None = None,
) -> Figure:
    """Draw the shares of the three forms of inorganic carbon over pH, after Bjerrum.

    Parameters
    ----------
    water : Water
        Temperature, salinity and pressure decide where the curves cross.
    ph_total : float, optional
        The water's own pH, total scale, marked with its shares.
    ph_total_range : tuple of two floats
        Ends of the pH axis, total scale, the lower one first.
    ax : matplotlib Axes, optional
        Where to draw.

    Returns
    -------
    matplotlib.figure.Figure

    Raises
    ------
    HalimedaValueError
        The range is upside down, or the pH is outside of it.
    """
    low, high = ph_total_range
    if not low < high:
        raise HalimedaValueError(
            f"ph_total_range: the lower end comes first, not {low} to {high}",
            input="ph_total_range",
            kind="contradictory",
        )
    if ph_total is not None and not low <= ph_total <= high:
        raise HalimedaValueError(
            f"ph_total: {ph_total} lies outside the axis, {low} to {high}",
            input="ph_total",
            value=ph_total,
            limits=(low, high),
            kind="out_of_range",
        )
    ph = np.linspace(low, high, 241)
    shares = _shares(water, ph)
    with drawing(ax, (2.9,)) as (figure, (axes,)):
        for (_, formula, colour, dashes), share in zip(_SPECIES, shares, strict=True):
            axes.plot(ph, share, color=colour, linestyle=dashes)
            # On the flank of each curve that no other crosses.
            peak = int(np.argmax(share))
            side: Literal["left", "right", "center"] = "center"
            if peak == 0:
                side, peak = "left", 4
            elif peak == ph.size - 1:
                side, peak = "right", peak - 4
            note(
                axes,
                float(ph[peak]),
                float(share[peak]),
                formula,
                side=side,
                colour=colour,
                lift=3.0,
            )
        if ph_total is not None:
            here = [float(share[0]) for share in _shares(water, np.array([ph_total]))]
            axes.axvline(ph_total, color=INK, linewidth=0.9, linestyle=(0, (1, 1.5)))
            for (_, _, colour, _), share in zip(_SPECIES, here, strict=True):
                axes.plot([ph_total], [share], "o", color=colour, markersize=5.0)
            words = "\n".join(
                f"{formula} {share:.1f} %"
                for (_, formula, _, _), share in zip(_SPECIES, here, strict=True)
            )
            right = ph_total < 0.5 * (low + high)
            axes.annotate(
                f"pH {ph_total:.2f}\n{words}",
                (ph_total, 50.0),
                xytext=(6.0 if right else -6.0, 0.0),
                textcoords="offset points",
                ha="left" if right else "right",
                va="center",
                fontsize=8.0,
                bbox={
                    "facecolor": "white",
                    "alpha": 0.75,
                    "edgecolor": "none",
                    "pad": 1.0,
                },
            )
        axes.set_xlim(low, high)
        axes.set_ylim(0.0, 112.0)
        axes.set_yticks(np.arange(0.0, 101.0, 20.0))
        axes.set_xlabel("pH (total scale)")
        axes.set_ylabel("share of inorganic carbon (%)")
    return figure


def _shares(water: Any, ph: Any) -> list[Any]:
    state = water.carbonate(inorganic_carbon_umol_per_kg=_ANY_CARBON, ph_total=ph)
    return [
        100.0 * np.asarray(getattr(state, name)) / _ANY_CARBON for name, *_ in _SPECIES
    ]
