"""Quantities as arguments: keywords, units, kinds of numbers, broadcasting."""

from __future__ import annotations

import inspect
import re

import numpy as np
import pytest

import halimeda as hm

DKH = 8.2
# 1 dKH is 10 mg CaO per litre: 20 / 56.077 meq/L (IUPAC 2021 weights).
DKH_MEQ_PER_L = 20 / 56.077


def solved(water, **given):
    return water.carbonate(ph_total=8.1, **given).alkalinity_umol_per_kg


def test_a_unit_may_be_in_the_keyword_or_in_the_quantity(water):
    expected = DKH * DKH_MEQ_PER_L * 1e6 / water.density_kg_per_m3
    assert solved(water, alkalinity="8.2 dKH") == pytest.approx(expected, rel=2e-5)
    for same in ("2858.3 µmol/kg", "2858.3 umol/kg", "2.8583 mmol/kg", "2858.3 umol kg-1"):
        assert solved(water, alkalinity=same) == pytest.approx(2858.3, rel=1e-12)
    assert solved(water, alkalinity_umol_per_kg=2858.3) == pytest.approx(2858.3, rel=1e-12)
    assert solved(water, alkalinity=(2858.3, "µmol/kg")) == pytest.approx(2858.3, rel=1e-12)


def test_temperatures_in_every_unit():
    expected = hm.Water(temperature_celsius=25.0, practical_salinity=35.0)
    for same in ("25 °C", "77 °F", "298.15 K", "25 degC"):
        water = hm.Water(temperature=same, practical_salinity=35.0)
        assert water.temperature_celsius == pytest.approx(expected.temperature_celsius, abs=1e-10)


def test_the_unit_of_a_ph_is_its_scale(water):
    for scale in ("total", "free", "seawater", "NBS"):
        text = water.carbonate(alkalinity_umol_per_kg=2800.0, ph=f"8.1 {scale}")
        keyword = {f"ph_{scale.lower()}": 8.1}
        assert text == water.carbonate(alkalinity_umol_per_kg=2800.0, **keyword)
        assert text.ph_on(scale.lower()) == pytest.approx(8.1, abs=1e-12)


def test_the_unit_of_a_specific_gravity_is_its_reference():
    readings = {
        "25/25 °C": (25.0, 25.0),
        "20/20 °C": (20.0, 20.0),
        "15/15 °C": (15.0, 15.0),
        "20/4 °C": (20.0, 4.0),
        "15/4 °C": (15.0, 4.0),
    }
    for reference, (sample, pure_water) in readings.items():
        water = hm.Water(temperature_celsius=25.0, specific_gravity=f"1.0260 {reference}")
        shown = hm.specific_gravity(water, sample_celsius=sample, pure_water_celsius=pure_water)
        assert shown == pytest.approx(1.0260, abs=1e-12)


@pytest.mark.parametrize(
    ("argument", "attribute", "tolerance"),
    [
        ({"conductivity_ms_per_cm": 53.2}, "conductivity_ms_per_cm", 1e-9),
        ({"density_kg_per_m3": 1023.4}, "density_kg_per_m3", 1e-9),
        ({"refractive_index": 1.3391}, "refractive_index", 1e-12),
        ({"conductivity": "53200 µS/cm"}, "conductivity_ms_per_cm", 1e-9),
        ({"density": "1.0234 kg/L"}, "density_kg_per_m3", 1e-9),
    ],
)
def test_a_salinity_gives_back_the_reading_it_came_from(argument, attribute, tolerance):
    water = hm.Water(temperature_celsius=25.0, **argument)
    reading = next(iter(argument.values()))
    expected = {"53200 µS/cm": 53.2, "1.0234 kg/L": 1023.4}.get(reading, reading)
    assert getattr(water, attribute) == pytest.approx(expected, abs=tolerance)


def test_hydrometer_and_refractometer():
    floating = hm.Water(temperature_celsius=25.0, hydrometer="1.0264 25/25 °C")
    poured = hm.Water(temperature_celsius=25.0, specific_gravity="1.0264 25/25 °C")
    # At its own temperature a hydrometer shows the specific gravity.
    assert floating.practical_salinity == pytest.approx(poured.practical_salinity, abs=1e-9)
    seawater_scale = hm.Water(temperature_celsius=25.0, refractometer=35.0)
    assert seawater_scale.practical_salinity == pytest.approx(35.0, abs=1e-9)


def test_measured_ions_and_pressures():
    water = hm.Water(
        temperature_celsius=25.0,
        practical_salinity=35.0,
        calcium="420 mg/L",
        altitude_m=1500.0,
        water_pressure="1 bar",
    )
    # 40.078 g/mol (IUPAC 2021).
    expected = 420 / 40.078 * 1e6 / water.density_kg_per_m3
    assert water.calcium_umol_per_kg == pytest.approx(expected, rel=1e-5)
    assert water.water_pressure_dbar == 10.0
    # ISO 2533:1975: 845.6 hPa at 1500 m.
    assert water.air_pressure_atm * 1013.25 == pytest.approx(845.6, abs=0.1)


@pytest.mark.parametrize(
    "number",
    [25, 25.0, np.float64(25), np.float32(25), np.int16(25), np.array(25.0), np.array(25)],
    ids=repr,
)
def test_every_kind_of_number_is_one(number):
    water = hm.Water(temperature_celsius=number, practical_salinity=35.0)
    assert type(water.temperature_celsius) is float
    assert water.temperature_celsius == 25.0


@pytest.mark.parametrize(
    "array",
    [
        np.array([24.0, 25.0]),
        np.array([24, 25]),
        np.array([24, 25], dtype=np.float32),
        np.array([24, 25], dtype=np.uint8),
        np.array([24.0, 0, 25.0, 0])[::2],
        np.array([25.0, 24.0])[::-1],
        np.array([24.0, 25.0], dtype=">f8"),
        [24.0, 25],
        (24.0, 25.0),
        range(24, 26),
        np.array([24.0, 25.0], dtype=object),
    ],
    ids=lambda array: f"{type(array).__name__} {getattr(array, 'dtype', '')}",
)
def test_every_kind_of_array_is_one(array):
    density = hm.Water(temperature_celsius=array, practical_salinity=35.0).density_kg_per_m3
    assert isinstance(density, np.ndarray) and density.dtype == np.float64
    expected = [
        hm.Water(temperature_celsius=t, practical_salinity=35.0).density_kg_per_m3
        for t in (24.0, 25.0)
    ]
    assert density.tolist() == expected


def test_arrays_broadcast_as_numpy_does():
    temperature = np.linspace(20, 30, 4)[:, None]
    salinity = np.linspace(30, 38, 3)
    density = hm.Water(
        temperature_celsius=temperature, practical_salinity=salinity
    ).density_kg_per_m3
    assert density.shape == (4, 3)
    for (i, j), value in np.ndenumerate(density):
        one = hm.Water(
            temperature_celsius=float(temperature[i, 0]), practical_salinity=float(salinity[j])
        )
        assert value == one.density_kg_per_m3
    fortran = np.asfortranarray(np.broadcast_to(temperature, (4, 3)))
    same = hm.Water(temperature_celsius=fortran, practical_salinity=salinity).density_kg_per_m3
    assert np.array_equal(same, density)


def test_arrays_of_no_rows_give_no_rows():
    states = hm.carbonate(
        temperature_celsius=np.empty(0),
        practical_salinity=35.0,
        alkalinity_umol_per_kg=np.empty(0),
        ph_total=8.1,
    )
    assert states.ph_total.shape == states.status.shape == (0,)


def test_units_that_need_the_density_take_that_of_their_row():
    temperature, salinity = np.array([20.0, 25.0, 30.0]), np.array([30.0, 35.0, 38.0])
    states = hm.carbonate(
        temperature_celsius=temperature,
        practical_salinity=salinity,
        alkalinity=([8.0, 8.2, 8.4], "dKH"),
        calcium=(np.array([400.0, 420.0, 440.0]), "mg/L"),
        ph_total=8.1,
    )
    for row in range(3):
        one = hm.carbonate(
            temperature_celsius=float(temperature[row]),
            practical_salinity=float(salinity[row]),
            alkalinity=f"{[8.0, 8.2, 8.4][row]} dKH",
            calcium=f"{[400, 420, 440][row]} mg/L",
            ph_total=8.1,
        )
        assert states.alkalinity_umol_per_kg[row] == pytest.approx(
            one.alkalinity_umol_per_kg, rel=1e-12
        )
        assert states.aragonite_saturation[row] == pytest.approx(
            one.aragonite_saturation, rel=1e-12
        )


def test_lists_of_quantity_strings():
    states = hm.carbonate(
        temperature=["77 °F", "78 °F"],
        practical_salinity=35.0,
        alkalinity=["8.2 dKH", "8.4 dKH"],
        ph_total=8.1,
    )
    assert states.shape == (2,)
    with pytest.raises(hm.HalimedaTypeError, match="different units: dKH, meq/L"):
        hm.carbonate(
            temperature_celsius=25.0,
            practical_salinity=35.0,
            alkalinity=["8.2 dKH", "2.9 meq/L"],
            ph_total=8.1,
        )


def test_signatures_name_every_keyword():
    water = set(inspect.signature(hm.Water).parameters)
    carbonate = set(inspect.signature(hm.Water.carbonate).parameters) - {"self"}
    both = set(inspect.signature(hm.carbonate).parameters) - {"table"}
    assert both == water | carbonate
    assert not any(
        parameter.kind is inspect.Parameter.VAR_KEYWORD
        for parameter in inspect.signature(hm.carbonate).parameters.values()
    )
    assert inspect.signature(hm.carbonate).parameters["errors"].default == "flag"


WRONG = [
    # (arguments, exception, input, pattern)
    ({"alkalinity": 8.2}, TypeError, "alkalinity", "unit is missing.*alkalinity_umol_per_kg="),
    ({"alkalinity": "8.2"}, ValueError, "alkalinity", "unit is missing: dKH"),
    ({"alkalinity": "8,2 dKH"}, ValueError, "alkalinity", "decimal point"),
    ({"alkalinity": "high"}, ValueError, "alkalinity", "does not begin with a number"),
    ({"alkalinity": "nan dKH"}, ValueError, "alkalinity", "finite"),
    ({"alkalinity": "8.2 °C"}, ValueError, "alkalinity", 'unit "°C" is not one of: dKH'),
    ({"alkalinity_umol_per_kg": "8.2 dKH"}, TypeError, "alkalinity_umol_per_kg", "alkalinity="),
    ({"alkalinity_umol_per_kg": True}, TypeError, "alkalinity_umol_per_kg", "numbers are needed"),
    ({"alkalinity_umol_per_kg": 1j}, TypeError, "alkalinity_umol_per_kg", "complex"),
    ({"alkalinity_umol_per_kg": b"1"}, TypeError, "alkalinity_umol_per_kg", "bytes"),
    ({"alkalinity_umol_per_kg": object()}, TypeError, "alkalinity_umol_per_kg", "object"),
    ({"alkalinity_umol_per_kg": ["a", 1]}, TypeError, "alkalinity_umol_per_kg", "numbers"),
    ({"alkalinity_umol_per_kg": [[1.0], [1.0, 2.0]]}, TypeError, "alkalinity_umol_per_kg", ""),
    ({"alkalinity_umol_per_kg": [True]}, TypeError, "alkalinity_umol_per_kg", "numbers"),
    ({"alkalinity_umol_per_kg": 1.0, "alkalinity": "8 dKH"}, TypeError, None, "second time"),
    ({}, TypeError, None, "two known quantities.*ph_total given"),
    (
        {"alkalinity_umol_per_kg": 2e3, "carbonate_umol_per_kg": 200.0},
        TypeError,
        None,
        "two known quantities.*ph_total, carbonate_umol_per_kg given",
    ),
    ({"alkalinity_umol_per_kg": float("nan")}, ValueError, "alkalinity", "finite"),
    ({"alkalinity_umol_per_kg": float("inf")}, ValueError, "alkalinity", "inf"),
    ({"alkalinity_umol_per_kg": -1e9}, ValueError, "alkalinity", "must lie between"),
    ({"alkalinity_umol_per_kg": 2e3, "phosphate_umol_per_kg": -1.0}, ValueError, "phosphate", "-1"),
    ({"alkalinity_umol_per_kg": 2e3, "carbonic_acid": "best"}, ValueError, None, '"lueker2000"'),
    ({"alkalinity_umol_per_kg": 2e3, "errors": "ignore"}, ValueError, "errors", '"flag"'),
    ({"partial_pressure_co2_uatm": -1.0}, ValueError, None, "must lie between 0 and"),
    ({"ph_nbs": 8.1}, ValueError, None, "pH"),
]


@pytest.mark.parametrize(("arguments", "kind", "name", "pattern"), WRONG)
def test_a_bad_argument_is_named(water, arguments, kind, name, pattern):
    with pytest.raises(kind) as caught:
        water.carbonate(ph_total=8.1, **arguments)
    error = caught.value
    assert isinstance(error, hm.HalimedaError)
    assert re.search(pattern, str(error), re.DOTALL), str(error)
    if name is not None:
        assert name in error.input or name in str(error)


def test_limits_come_with_the_error(water):
    with pytest.raises(hm.HalimedaValueError) as caught:
        water.carbonate(alkalinity_umol_per_kg=2800.0, ph_total=15.0)
    error = caught.value
    assert (error.input, error.value, error.limits) == ("pH (total scale)", 15.0, (0.0, 14.0))
    assert error.kind == "out_of_range"
    with pytest.raises(hm.HalimedaValueError) as caught:
        hm.Water(temperature_celsius=78.0, practical_salinity=35.0)
    assert caught.value.limits == (-5.0, 60.0)
    with pytest.raises(hm.HalimedaValueError) as caught:
        hm.Water(temperature_celsius=39.0, practical_salinity=35.0).carbonate(
            alkalinity_umol_per_kg=2800.0, ph_total=8.0
        )
    assert caught.value.kind == "extrapolation"
    assert caught.value.limits == (2.0, 35.0)


@pytest.mark.parametrize(
    ("arguments", "pattern"),
    [
        ({"practical_salinity": 35.0}, "temperature is missing: give temperature_celsius="),
        ({"temperature_celsius": 25.0}, "salinity is missing: give one of practical_salinity"),
        (
            {"temperature_celsius": 25.0, "practical_salinity": 35.0, "refractometer": 35.0},
            "more than once: practical_salinity, refractometer",
        ),
        ({"temperature_celsius": 25.0, "specific_gravity": 1.026}, "unit is missing: 25/25 °C"),
        (
            {
                "temperature_celsius": 25.0,
                "practical_salinity": 35.0,
                "air_pressure_atm": 1.0,
                "altitude_m": 100.0,
            },
            "each gives the other",
        ),
    ],
)
def test_a_water_that_is_not_determined(arguments, pattern):
    with pytest.raises(hm.HalimedaTypeError, match=re.escape(pattern)):
        hm.Water(**arguments)


def test_shapes_that_do_not_go_together():
    with pytest.raises(hm.HalimedaValueError, match=r"shape \[3\].*broadcast with \[2\]") as caught:
        hm.Water(temperature_celsius=np.ones(2) * 25, practical_salinity=np.ones(3) * 35)
    assert caught.value.kind == "shape"
    two = hm.Water(temperature_celsius=[25.0, 26.0], practical_salinity=35.0)
    with pytest.raises(hm.HalimedaValueError, match="make the water of that shape"):
        two.carbonate(alkalinity_umol_per_kg=np.full((3, 1), 2800.0), ph_total=8.1)


def test_a_keyword_that_does_not_exist(water):
    with pytest.raises(TypeError, match="alkalinity_ppm"):
        water.carbonate(alkalinity_ppm=140.0, ph_total=8.1)
