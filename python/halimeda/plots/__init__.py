"""Figures of a tank: units on every axis, ranges as bands, readable in grey.

They need matplotlib (``pip install 'halimeda[plots]'``), which is imported with this
module and not before. Every function returns a figure and draws into axes of your
own when given some; none opens a window or changes your settings.
"""

from importlib.util import find_spec as _find_spec

if _find_spec("matplotlib") is None:
    raise ImportError(
        "figures need matplotlib, which comes with: pip install 'halimeda[plots]'"
    )

from halimeda.plots._daily_cycle import daily_cycle
from halimeda.plots._influence import in_words, influence
from halimeda.plots._light_hours import light_hours
from halimeda.plots._nutrient_flow import (
    GRAMS_PER_MOL,
    Books,
    Nutrient,
    nutrient_flow,
)
from halimeda.plots._nutrients import nutrients
from halimeda.plots._readings import readings
from halimeda.plots._screen_size import screen_size
from halimeda.plots._series import HasRanges, HasSamples
from halimeda.plots._species import species
from halimeda.plots._trade_off import trade_off
from halimeda.plots._turf import turf

__all__ = [
    "Books",
    "GRAMS_PER_MOL",
    "HasRanges",
    "HasSamples",
    "Nutrient",
    "daily_cycle",
    "in_words",
    "influence",
    "light_hours",
    "nutrient_flow",
    "nutrients",
    "readings",
    "screen_size",
    "species",
    "trade_off",
    "turf",
]
