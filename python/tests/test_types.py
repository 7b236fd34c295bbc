"""What a type checker knows of the package; read by mypy and pyright, and run."""

from typing import assert_type

import halimeda


def test_errors() -> None:
    error = halimeda.HalimedaValueError("too warm", input="temperature", value=78.0)
    assert_type(error.input, str | None)
    assert_type(error.value, float | None)
    assert_type(error.limits, tuple[float, float] | None)
    assert_type(error.kind, str)
    assert isinstance(error, ValueError)
    assert isinstance(error, halimeda.HalimedaError)


def test_version() -> None:
    assert_type(halimeda.__version__, str)


def test_states() -> None:
    water = halimeda.Water(temperature_celsius=25.0, practical_salinity=35.0)
    assert_type(water, halimeda.Water)
    (state,) = water.carbonate_all(alkalinity="8.2 dKH", ph_total=8.1)
    assert isinstance(state, halimeda.CarbonateState)
    assert_type(state.ph_total, float)
    assert_type(state.buffer_factors.revelle, float)
    assert_type(state.uncertainties({"ph_total": 0.01})["ph_total"], float)
    assert_type(state.sensitivities().of("ph_total", "pk1"), float)
