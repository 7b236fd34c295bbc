"""What the tests share."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

import halimeda as hm


@pytest.fixture
def water() -> hm.Water:
    """An invented reef tank's water."""
    return hm.Water(temperature_celsius=25.5, practical_salinity=35.0)


@pytest.fixture
def rows() -> dict[str, Any]:
    """Five rows of readings of an invented tank, as keyword arguments."""
    return {
        "temperature_celsius": np.array([24.0, 24.5, 25.0, 25.5, 26.0]),
        "practical_salinity": np.array([34.0, 34.5, 35.0, 35.5, 36.0]),
        "alkalinity_umol_per_kg": np.array([2600.0, 2700.0, 2800.0, 2900.0, 3000.0]),
        "ph_total": np.array([7.9, 8.0, 8.1, 8.2, 8.3]),
    }


@pytest.fixture
def each(rows) -> list[hm.CarbonateState]:
    """The same rows solved one at a time."""
    count = len(rows["ph_total"])
    return [
        hm.carbonate(**{name: float(column[row]) for name, column in rows.items()})
        for row in range(count)
    ]
