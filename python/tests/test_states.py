"""States: what they hold, rows of arrays against single ones, errors of rows."""

from __future__ import annotations

import pickle

import numpy as np
import pytest

import halimeda as hm

CORE = [
    "ph_total",
    "ph_free",
    "ph_seawater",
    "ph_nbs",
    "alkalinity_umol_per_kg",
    "inorganic_carbon_umol_per_kg",
    "carbon_dioxide_umol_per_kg",
    "bicarbonate_umol_per_kg",
    "carbonate_umol_per_kg",
    "fugacity_co2_uatm",
    "partial_pressure_co2_uatm",
    "dry_mole_fraction_co2_ppm",
    "aragonite_saturation",
    "calcite_saturation",
    "hydrogen_total_mol_per_kg",
    "hydrogen_free_mol_per_kg",
    "hydroxide_mol_per_kg",
    "unionised_ammonia_umol_per_kg",
]
PARTS = [
    name
    for name in dir(hm.AlkalinityParts)
    if name.endswith("_umol_per_kg")
]
BUFFERS = [name for name in dir(hm.BufferFactors) if not name.startswith("_")]


def test_rows_of_arrays_are_single_states(rows, each):
    states = hm.carbonate(**rows, outputs=[*CORE, "alkalinity_parts", "buffer_factors"])
    assert states.status.tolist() == [0] * 5
    assert states.problems == []
    for row, one in enumerate(each):
        for name in CORE:
            assert getattr(states, name)[row] == pytest.approx(getattr(one, name), rel=1e-11), name
        for name in PARTS:
            assert getattr(states.alkalinity_parts, name)[row] == pytest.approx(
                getattr(one.alkalinity_parts, name), rel=1e-11
            )
        for name in BUFFERS:
            assert getattr(states.buffer_factors, name)[row] == pytest.approx(
                getattr(one.buffer_factors, name), rel=1e-11
            )


def test_a_dictionary_of_a_state_has_the_columns_of_arrays(each, rows):
    one = each[0].to_dict()
    states = hm.carbonate(**rows, outputs=list(one))
    assert list(one) == list(states.outputs)
    for name in CORE:
        assert one[name] == getattr(each[0], name)


KNOWN = [
    "alkalinity_umol_per_kg",
    "inorganic_carbon_umol_per_kg",
    "ph_total",
    "ph_free",
    "ph_seawater",
    "ph_nbs",
    "partial_pressure_co2_uatm",
    "fugacity_co2_uatm",
    "carbon_dioxide_umol_per_kg",
    "bicarbonate_umol_per_kg",
    "carbonate_umol_per_kg",
    "aragonite_saturation",
    "calcite_saturation",
]
CLASSES = {
    "ph_total": "pH",
    "ph_free": "pH",
    "ph_seawater": "pH",
    "ph_nbs": "pH",
    "partial_pressure_co2_uatm": "CO2",
    "fugacity_co2_uatm": "CO2",
    "carbon_dioxide_umol_per_kg": "CO2",
    "carbonate_umol_per_kg": "CO3",
    "aragonite_saturation": "CO3",
    "calcite_saturation": "CO3",
}


@pytest.mark.parametrize("first", KNOWN)
@pytest.mark.parametrize("second", KNOWN)
def test_every_pair_gives_the_state_back(water, first, second):
    if first == second:
        return
    state = water.carbonate(alkalinity_umol_per_kg=2800.0, inorganic_carbon_umol_per_kg=2450.0)
    pair = {first: getattr(state, first), second: getattr(state, second)}
    if CLASSES.get(first, first) == CLASSES.get(second, second):
        with pytest.raises(hm.HalimedaValueError) as caught:
            water.carbonate(**pair)
        assert caught.value.kind == "ambiguous"
        with pytest.raises(hm.HalimedaValueError):
            water.carbonate(**{name: [value] for name, value in pair.items()})
        return
    all_of_them = water.carbonate_all(**pair)
    assert len(all_of_them) in (1, 2)
    nearest = min(all_of_them, key=lambda other: abs(other.ph_total - state.ph_total))
    assert nearest.ph_total == pytest.approx(state.ph_total, abs=1e-7)
    if len(all_of_them) == 1:
        assert water.carbonate(**pair) == all_of_them[0]
        states = water.carbonate(**{name: [value] for name, value in pair.items()})
        assert states.ph_total[0] == pytest.approx(state.ph_total, abs=1e-7)


def test_two_roots_are_refused_by_one_and_given_by_the_other():
    water = hm.Water(temperature_celsius=25.0, practical_salinity=35.0)
    pair = {"inorganic_carbon_umol_per_kg": 2000.0, "bicarbonate_umol_per_kg": 1700.0}
    with pytest.raises(hm.HalimedaValueError, match="two") as caught:
        water.carbonate(**pair)
    assert caught.value.kind == "ambiguous"
    lower, higher = water.carbonate_all(**pair)
    assert lower.ph_total < higher.ph_total
    for state in (lower, higher):
        assert state.bicarbonate_umol_per_kg == pytest.approx(1700.0, rel=1e-12)
        assert pickle.loads(pickle.dumps(state)) == state
    with pytest.raises(hm.HalimedaValueError) as caught:
        water.carbonate_all(inorganic_carbon_umol_per_kg=1000.0, bicarbonate_umol_per_kg=1700.0)
    assert caught.value.kind == "contradictory"


def test_a_refused_row_keeps_the_others(rows, each):
    rows["ph_total"] = np.array([7.9, np.nan, 15.0, 8.2, 8.3])
    rows["temperature_celsius"][4] = 39.0
    states = hm.carbonate(**rows)
    names = [states.statuses[code] for code in states.status]
    assert names == ["ok", "not finite", "out of range", "ok", "outside published range"]
    assert np.isnan(states.aragonite_saturation).tolist() == [False, True, True, False, True]
    assert states.ph_nbs[3] == pytest.approx(each[3].ph_nbs, abs=1e-11)
    assert [row for row, _ in states.problems] == [1, 2, 4]
    assert states.problem_count == 3
    error = states.problems[1][1]
    assert isinstance(error, hm.HalimedaValueError)
    assert (error.value, error.limits) == (15.0, (0.0, 14.0))
    with pytest.raises(hm.HalimedaValueError, match="NaN") as caught:
        hm.carbonate(**rows, errors="raise")
    assert caught.value.__notes__ == ["in row 1"]


def test_rows_may_be_extrapolated_and_say_so(rows):
    rows["temperature_celsius"][4] = 39.0
    states = hm.carbonate(**rows, extrapolate=True)
    assert states.statuses[states.status[4]] == "extrapolated"
    one = hm.carbonate(**{name: float(column[4]) for name, column in rows.items()}, extrapolate=True)
    assert one.status == "extrapolated"
    assert any("Lueker" in relation for relation in one.extrapolations)
    assert states.ph_nbs[4] == pytest.approx(one.ph_nbs, abs=1e-11)


def test_an_output_of_its_own_range_leaves_the_others():
    # K1, K2 of Millero (2010) reach to 50 °C, fH of Takahashi et al. (1982) does not.
    given = {
        "temperature_celsius": [25.0, 38.0],
        "practical_salinity": 35.0,
        "alkalinity_umol_per_kg": 2800.0,
        "ph_total": 8.0,
        "carbonic_acid": "millero2010",
    }
    states = hm.carbonate(**given)
    if states.status[1] == states.statuses.index("partial"):
        assert np.isnan(states.ph_nbs[1])
        assert np.isfinite(states.aragonite_saturation[1])
        assert states.problems[0][0] == 1
    else:
        assert states.statuses[states.status[1]] == "outside published range"


def test_readings_that_are_refused_say_why():
    states = hm.carbonate(
        temperature_celsius=25.0,
        specific_gravity=([1.0264, 1.3], "25/25 °C"),
        alkalinity_umol_per_kg=2800.0,
        ph_total=8.1,
    )
    ((row, error),) = states.problems
    assert row == 1
    assert error.input == "specific gravity"
    assert states.statuses[states.status[1]] == "out of range"


def test_only_what_was_asked_for_is_there(rows):
    states = hm.carbonate(**rows, outputs=("ph_total", "aragonite_saturation"))
    assert states.outputs == ("ph_total", "aragonite_saturation")
    with pytest.raises(AttributeError, match="outputs="):
        states.carbonate_umol_per_kg
    with pytest.raises(hm.HalimedaValueError, match="not one of"):
        hm.carbonate(**rows, outputs=["ph"])


def test_results_cannot_be_changed(rows, each):
    states = hm.carbonate(**rows)
    with pytest.raises(ValueError):
        states.ph_nbs[0] = 7.0
    with pytest.raises(AttributeError):
        each[0].ph_total = 7.0


@pytest.mark.parametrize("threads", [1, 2, 0])
def test_threads_change_nothing(threads):
    count = 50_000
    rng = np.random.default_rng(7)
    given = {
        "temperature_celsius": rng.uniform(18, 32, count),
        "practical_salinity": rng.uniform(28, 40, count),
        "alkalinity_umol_per_kg": rng.uniform(1800, 4000, count),
        "ph_total": rng.uniform(7.5, 8.6, count),
    }
    one = hm.carbonate(**given)
    assert hm.carbonate(**given, threads=threads) == one


def test_under_air(water):
    state = water.carbonate(alkalinity="8 dKH", ph_total=8.2)
    room = state.under_air(co2_ppm=900.0)
    assert room.ph_total < state.ph_total
    assert room.alkalinity_umol_per_kg == pytest.approx(state.alkalinity_umol_per_kg, rel=1e-12)
    assert room.dry_mole_fraction_co2_ppm == pytest.approx(900.0, rel=1e-10)
    assert pickle.loads(pickle.dumps(room)) == room
    with pytest.raises(hm.HalimedaValueError):
        state.under_air(co2_ppm=-1.0)


def test_sensitivities_are_derivatives(water):
    given = {"alkalinity_umol_per_kg": 2800.0, "inorganic_carbon_umol_per_kg": 2450.0}
    sensitivities = water.carbonate(**given).sensitivities()
    step = 0.01
    for name in given:
        up, down = (
            water.carbonate(**{**given, name: given[name] + sign * step}) for sign in (1, -1)
        )
        for output in ("ph_total", "partial_pressure_co2_uatm", "aragonite_saturation"):
            slope = (getattr(up, output) - getattr(down, output)) / (2 * step)
            assert sensitivities.of(output, name) == pytest.approx(slope, rel=1e-6)
            assert sensitivities[output][name] == sensitivities.of(output, name)
    warmer, colder = (
        hm.carbonate(temperature_celsius=25.5 + sign * 1e-4, practical_salinity=35.0, **given)
        for sign in (1, -1)
    )
    slope = (warmer.ph_total - colder.ph_total) / 2e-4
    assert sensitivities.of("ph_total", "temperature_celsius") == pytest.approx(slope, rel=1e-5)
    with pytest.raises(hm.HalimedaValueError, match="ph_total"):
        sensitivities["ph"]


def test_uncertainties(water):
    state = water.carbonate(alkalinity_umol_per_kg=2800.0, ph_total=8.1)
    alone = state.uncertainties({"ph_total": 0.01}, constants=False)
    slope = state.sensitivities().of("partial_pressure_co2_uatm", "ph_total")
    assert alone["partial_pressure_co2_uatm"] == pytest.approx(abs(slope) * 0.01, rel=1e-12)
    assert alone["ph_total"] == pytest.approx(0.01)
    both = state.uncertainties({"ph_total": 0.01, "alkalinity_umol_per_kg": 50.0})
    assert both["partial_pressure_co2_uatm"] > alone["partial_pressure_co2_uatm"]
    effects = both.effects("partial_pressure_co2_uatm")
    assert sum(effect**2 for effect in effects.values()) == pytest.approx(
        both["partial_pressure_co2_uatm"] ** 2, rel=1e-9
    )
    assert both.covariance("ph_total", "ph_total") == pytest.approx(both["ph_total"] ** 2)
    # Errors of two inputs that go together do not add as those that do not.
    together = state.uncertainties(
        {"ph_total": 0.01, "alkalinity_umol_per_kg": 50.0},
        correlations=[("ph_total", "alkalinity_umol_per_kg", 1.0)],
    )
    assert together["partial_pressure_co2_uatm"] != both["partial_pressure_co2_uatm"]
    with pytest.raises(hm.HalimedaValueError, match="inorganic_carbon"):
        state.uncertainties({"inorganic_carbon_umol_per_kg": 1.0})
    with pytest.raises(hm.HalimedaValueError, match="-1"):
        state.uncertainties({"ph_total": -1.0})


def test_everything_pickles(rows, water, each):
    for thing in (water, each[0], hm.carbonate(**rows), hm.Water(**dict(list(rows.items())[:2]))):
        assert pickle.loads(pickle.dumps(thing)) == thing
    rows["ph_total"][0] = 99.0
    states = pickle.loads(pickle.dumps(hm.carbonate(**rows)))
    assert states.problems[0][1].limits == (0.0, 14.0)


def test_equality_and_hash(water, each):
    again = hm.Water(temperature_celsius=25.5, practical_salinity=35.0)
    assert again == water and hash(again) == hash(water)
    assert hm.Water(temperature_celsius=25.4, practical_salinity=35.0) != water
    assert each[0] != each[1] and each[0] == each[0] and water != 1
    assert len({water, again}) == 1
