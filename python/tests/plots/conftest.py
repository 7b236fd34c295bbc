from __future__ import annotations

from collections.abc import Iterator
from types import SimpleNamespace

import matplotlib as mpl
import numpy as np
import pytest


@pytest.fixture(autouse=True)
def _settings_stay() -> Iterator[None]:
    """No figure changes the caller's settings."""
    before = dict(mpl.rcParams)
    yield
    assert dict(mpl.rcParams) == before


@pytest.fixture
def samples() -> dict[str, np.ndarray]:
    """Three invented days, hourly: display lit from 10 to 20, the screen against it."""
    hour = np.arange(73)
    clock = hour % 24
    wave = np.cos((clock - 18) / 24 * 2 * np.pi)
    return {
        "day": hour / 24,
        "ph_total": 8.0 + 0.08 * wave,
        "oxygen_saturation": 0.98 + 0.06 * wave,
        "carbon_dioxide_umol_per_kg": 14.0 - 3.0 * wave,
        # A sample at a switch shows what was before it.
        "display_lit": (clock > 10) & (clock <= 20),
        "screen_lit": (clock > 19) | (clock <= 11),
        "nitrate_mg_per_l": 3.0 + 0.5 * wave,
        "phosphate_mg_per_l": 0.1 + 0.02 * wave,
        "turf_g_dry_per_m2": 80.0 + hour,
        "turf_cover": np.full(73, 0.9),
        "turf_reserve": np.full(73, 0.7),
    }


MIDDLES = {
    "nitrate_mg_per_l": 3.0,
    "phosphate_mg_per_l": 0.1,
    "ph_total": 8.0,
    "oxygen_saturation": 0.9,
    "carbon_dioxide_umol_per_kg": 15.0,
}


class InventedEnsemble:
    """Five quantiles that stay where they are."""

    days = np.linspace(0.0, 3.0, 73)

    @property
    def over_time(self) -> dict[str, np.ndarray]:
        return {
            name: np.outer([0.5, 0.8, 1.0, 1.5, 3.0], np.full(73, middle))
            for name, middle in MIDDLES.items()
        }


@pytest.fixture
def ensemble() -> InventedEnsemble:
    return InventedEnsemble()


class InventedWater:
    """Ionises with two round constants."""

    def carbonate(self, *, inorganic_carbon_umol_per_kg, ph_total):
        h = 10.0 ** -np.asarray(ph_total)
        k1, k2 = 1e-6, 1e-9
        parts = h * h, k1 * h, k1 * k2
        all_of_it = sum(parts)
        names = (
            "carbon_dioxide_umol_per_kg",
            "bicarbonate_umol_per_kg",
            "carbonate_umol_per_kg",
        )
        return SimpleNamespace(
            **{
                n: inorganic_carbon_umol_per_kg * p / all_of_it
                for n, p in zip(names, parts, strict=True)
            }
        )


@pytest.fixture
def water() -> InventedWater:
    return InventedWater()
