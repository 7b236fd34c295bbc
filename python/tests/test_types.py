"""What a type checker knows of the package; read by mypy and pyright, and run."""

from typing import Any, assert_type

import numpy as np

import halimeda as hm


def test_errors() -> None:
    error = hm.HalimedaValueError("too warm", input="temperature", value=78.0)
    assert_type(error.input, str | None)
    assert_type(error.value, float | None)
    assert_type(error.limits, tuple[float, float] | None)
    assert_type(error.kind, str)
    assert isinstance(error, ValueError)
    assert isinstance(error, hm.HalimedaError)


def test_version() -> None:
    assert_type(hm.__version__, str)


def test_numbers_give_one_state() -> None:
    state = hm.carbonate(
        temperature_celsius=25.0,
        practical_salinity=35.0,
        alkalinity="8.2 dKH",
        ph_total=8.1,
    )
    assert_type(state, hm.CarbonateState)
    assert_type(state.ph_nbs, float)
    assert_type(state.knowns, dict[str, float])
    assert_type(state.buffer_factors.revelle, float)
    assert_type(state.uncertainties().effects("ph_total"), dict[str, float])


def test_parts_of_a_state() -> None:
    water = hm.Water(temperature_celsius=25.0, practical_salinity=35.0)
    assert_type(water, hm.Water)
    (state,) = water.carbonate_all(alkalinity="8.2 dKH", ph_total=8.1)
    assert_type(state, hm.CarbonateState)
    assert_type(state.uncertainties({"ph_total": 0.01})["ph_total"], float)
    assert_type(state.sensitivities().of("ph_total", "pk1"), float)


def test_arrays_give_states() -> None:
    states = hm.carbonate(
        temperature_celsius=np.array([24.0, 25.0]),
        practical_salinity=[35.0, 35.0],
        alkalinity_umol_per_kg=2400.0,
        ph_total=8.1,
    )
    assert_type(states, hm.CarbonateStates)
    assert states.ph_total.shape == (2,)


def test_a_table_gives_a_table() -> None:
    import pandas as pd

    table = pd.DataFrame({"alkalinity_umol_per_kg": [2400.0], "ph_total": [8.1]})
    solved = hm.carbonate(table, temperature_celsius=25.0, practical_salinity=35.0)
    assert_type(solved, Any)
    assert isinstance(solved, pd.DataFrame)


def test_salinity() -> None:
    one = hm.practical_salinity_from_conductivity(
        conductivity_ms_per_cm=53.0, temperature_celsius=25.0
    )
    assert_type(one, float)


def test_tanks() -> None:
    tank = hm.example_tank()
    assert_type(tank, hm.Tank)
    assert_type(tank.net_volume_l, float)
    assert_type(tank.simulate(days=1.0), hm.Run)
    assert_type(tank.screen, hm.tank.Screen)
