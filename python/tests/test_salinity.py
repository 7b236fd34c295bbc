"""Salinity from instruments, and the register of relations."""

from __future__ import annotations

import numpy as np
import pytest

import halimeda as hm


def test_a_refractometer_is_right_where_it_was_adjusted():
    assert hm.practical_salinity_from_refractometer(refractometer=35.0) == pytest.approx(35.0)
    for scale, shown in (("sodium_chloride", 35.0), ("brix", 6.0), ("seawater", 34.0)):
        salinity = hm.practical_salinity_from_refractometer(
            refractometer=[shown, shown],
            scale=scale,
            adjusted_with="seawater",
            fluid=35.0,
            adjusted_to=shown,
        )
        assert salinity == pytest.approx([35.0, 35.0], abs=1e-9)


def test_a_refractometer_without_compensation():
    # Both at 20 °C is what a compensating one pretends.
    plain = hm.practical_salinity_from_refractometer(refractometer=33.0)
    same = hm.practical_salinity_from_refractometer(
        refractometer=33.0, fluid_celsius=20.0, sample_celsius=20.0
    )
    assert same == pytest.approx(plain, abs=1e-9)
    warm = hm.practical_salinity_from_refractometer(
        refractometer=33.0, fluid_celsius=20.0, sample_celsius=25.0
    )
    assert warm > plain


@pytest.mark.parametrize(
    ("arguments", "pattern"),
    [
        ({"scale": "salt"}, '"sodium_chloride"'),
        ({"adjusted_with": "seawater"}, "fluid is missing"),
        ({"sample_celsius": 25.0}, "both are needed"),
        ({"refractometer": None}, "refractometer="),
        ({"refractometer": 500.0}, "refractometer reading is 500"),
    ],
)
def test_a_refractometer_that_is_not_described(arguments, pattern):
    with pytest.raises(hm.HalimedaError, match=pattern):
        hm.practical_salinity_from_refractometer(**{"refractometer": 35.0, **arguments})


def test_conductivity_from_a_reduced_one():
    shown = np.array([50.0, 53.0])
    at_reference = hm.conductivity_from_specific_conductance(
        specific_conductance_ms_per_cm=shown, temperature_celsius=25.0
    )
    assert at_reference == pytest.approx(shown)
    # 2 % per °C of 5 °C.
    warmer = hm.conductivity_from_specific_conductance(
        specific_conductance="53 mS/cm", temperature="30 °C"
    )
    assert warmer == pytest.approx(53.0 * 1.1)


def test_air_pressure_of_the_weather_report():
    """ISO 2533:1975: 845.6 hPa at 1500 m under the standard 1013.25 hPa."""
    pressure = hm.air_pressure_from_sea_level(sea_level_pressure="1013.25 hPa", altitude_m=1500.0)
    assert pressure * 1013.25 == pytest.approx(845.6, abs=0.1)


def test_every_relation_has_its_source():
    relations = hm.relations()
    names = {relation.name for relation in relations}
    assert len(names) == len(relations) > 20
    for relation in relations:
        assert relation.source
        assert relation.temperature_celsius[0] < relation.temperature_celsius[1]
    hot = hm.Water(temperature_celsius=44.0, practical_salinity=35.0, extrapolate=True)
    assert set(hot.extrapolations) <= names and hot.extrapolations
