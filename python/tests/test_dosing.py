"""Dosing: stoichiometry by pharmacopoeias, states, limits, cautions."""

import pickle

import numpy as np
import pandas as pd
import pytest

import halimeda as hm
from halimeda.dosing import (
    Consumption,
    DosedSystem,
    DoseLimits,
    DosePlan,
    Limit,
    ReactorEffluent,
    Salt,
    Supplement,
)

# Molar masses printed in monographs of USP 28 to 35 and labels where marked; the others in
# the CRC Handbook of Chemistry and Physics, from memory.
MOLAR_MASSES = {
    "sodium_bicarbonate": 84.01,  # from memory
    "sodium_carbonate": 105.99,  # USP 28, Sodium Carbonate
    "sodium_hydroxide": 40.00,  # USP 28, Sodium Hydroxide
    "calcium_hydroxide": 74.09,  # USP 28, Calcium Hydroxide
    "calcium_chloride": 110.98,  # from memory
    "calcium_chloride_dihydrate": 147.02,  # label of Calcium Chloride Injection USP 10 %
    "magnesium_chloride_hexahydrate": 203.30,  # from memory
    "magnesium_sulfate_heptahydrate": 246.47,  # from memory
    "sodium_nitrate": 84.99,  # from memory
    "potassium_nitrate": 101.10,  # from memory
    "calcium_nitrate_tetrahydrate": 236.15,  # from memory
    "monosodium_phosphate": 119.98,  # from memory
    "disodium_phosphate": 141.96,  # from memory
    "monopotassium_phosphate": 136.09,  # from memory
    "dipotassium_phosphate": 174.18,  # from memory
}


def tank(**known) -> hm.CarbonateState:
    water = hm.Water(
        temperature_celsius=25.5, practical_salinity=35.0, calcium_umol_per_kg=10_300.0
    )
    return water.carbonate(**known)


@pytest.fixture
def system() -> DosedSystem:
    state = tank(alkalinity_umol_per_kg=2600.0, ph_total=8.0)
    return DosedSystem(state, water_kg=200.0, room_partial_pressure_co2_uatm=500.0)


def test_molar_masses() -> None:
    assert [salt.key for salt in Salt.all()] == list(MOLAR_MASSES)
    for salt in Salt.all():
        assert salt.molar_mass_g_per_mol == pytest.approx(MOLAR_MASSES[salt.key], abs=0.015)
        assert Salt(salt.key) == salt
        charge = salt.per_mol.conservative_charge_eq
        assert charge == pytest.approx(salt.per_mol.alkalinity_eq, abs=1e-12)


def test_alkalinity_by_pharmacopoeial_titration() -> None:
    def mg_per_meq(key: str) -> float:
        return 1.0 / Supplement.solid(key).dose(grams=1.0).addition.alkalinity_eq

    # Sodium Bicarbonate Injection USP 8.4 %, label: 84 mg is one milliequivalent.
    assert mg_per_meq("sodium_bicarbonate") == pytest.approx(84.0, abs=0.05)
    # USP 28, Sodium Carbonate: 1 mL of 1 N acid is equivalent to 52.99 mg.
    assert mg_per_meq("sodium_carbonate") == pytest.approx(52.99, abs=0.01)
    # USP 28, Sodium Hydroxide: 1 mL of 1 N acid is equivalent to 40.00 mg.
    assert mg_per_meq("sodium_hydroxide") == pytest.approx(40.00, abs=0.01)
    # British Pharmacopoeia 2025, Calcium Hydroxide Solution: 1 mL of 0.1 M acid is 3.705 mg.
    assert 0.1 * mg_per_meq("calcium_hydroxide") == pytest.approx(3.705, abs=0.001)


def test_ions_by_pharmaceutical_labels() -> None:
    # Calcium Chloride Injection USP 10 %: 13.6 meq of Ca and of Cl in 10 mL.
    calcium = Supplement.solution("calcium_chloride_dihydrate", g_per_l=100.0)
    brought = calcium.dose(millilitres=10.0).addition
    assert 2e3 * brought.calcium_mol == pytest.approx(13.6, abs=0.05)
    assert 1e3 * brought.chloride_mol == pytest.approx(13.6, abs=0.05)
    # Potassium Phosphates Injection USP: 224 mg KH2PO4 and 236 mg K2HPO4, 3 mmol P, 4.4 meq K
    # in 1 mL.
    potassium = Supplement.solution_blend(
        {"monopotassium_phosphate": 224.0, "dipotassium_phosphate": 236.0}
    )
    brought = potassium.dose(millilitres=1.0).addition
    assert 1e3 * brought.phosphate_mol == pytest.approx(3.0, abs=0.01)
    assert 1e3 * brought.potassium_mol == pytest.approx(4.4, abs=0.05)


def test_strength_of_limewater() -> None:
    # Bates, Bower & Smith (1956) J. Res. NBS 56, 305-312, abstract: 0.0203 M at 25 °C.
    at_25 = hm.dosing.limewater_mol_per_l(temperature_celsius=25.0)
    assert at_25 == pytest.approx(0.0203, abs=1e-9)
    with pytest.raises(hm.HalimedaValueError) as refused:
        hm.dosing.limewater_mol_per_l(temperature="110 °F")
    assert refused.value.limits is not None
    series = pd.Series([10.0, 30.0], index=["cold", "warm"])
    found = hm.dosing.limewater_mol_per_l(temperature_celsius=series)
    assert found["cold"] > found["warm"]


# Computed with PyCO2SYS 1.8.3.4, run as a black box, from contents booked independently:
# Lueker et al. (2000), Dickson (1990), Dickson & Riley (1979), boron of Lee et al. (2010);
# 200 kg. Salt, grams; at once: salinity, alkalinity, pH (total), aragonite saturation.
BLACK_BOX = [
    ("sodium_bicarbonate", 10.0, 35.049765, 3345.1972, 7.945879, 4.22317),
    ("sodium_hydroxide", 4.0, 35.019906, 3250.0404, 8.496665, 9.88179),
    ("calcium_chloride_dihydrate", 20.0, 35.075137, 2750.0, 8.015183, 4.17770),
]


@pytest.mark.parametrize("row", BLACK_BOX)
def test_states_at_once(row) -> None:
    salt, grams, salinity, alkalinity, ph_total, saturation = row
    state = tank(
        alkalinity_umol_per_kg=2750.0,
        inorganic_carbon_umol_per_kg=2420.0,
        phosphate_umol_per_kg=0.5,
        hydrogen_fluoride="dickson_riley1979",
    )
    system = DosedSystem(state, water_kg=200.0, room_partial_pressure_co2_uatm=450.0)
    effect = system.effect(DosePlan([Supplement.solid(salt).dose(grams=grams)]))
    assert effect.at_once.practical_salinity == pytest.approx(salinity, abs=1e-6)
    assert effect.at_once.alkalinity_umol_per_kg == pytest.approx(alkalinity, abs=1e-4)
    assert effect.at_once.ph_total == pytest.approx(ph_total, abs=2e-6)
    assert effect.at_once.aragonite_saturation == pytest.approx(saturation, rel=5e-6)


def test_lye_is_refused_and_says_why(system) -> None:
    verdict = system.judge(DosePlan([Supplement.solid("sodium_hydroxide").dose(grams=5.0)]))
    assert not verdict.is_accepted
    step = next(excess for excess in verdict.excesses if excess.limit == "ph_step")
    assert step.is_past_hard_value
    assert step.value > step.allowed == 0.1
    with pytest.raises(hm.HalimedaValueError) as refused:
        verdict.accepted()
    assert refused.value.input == "rise of alkalinity per day"
    assert refused.value.limits == (0.0, 350.0)
    # Cautions are kept and shown.
    caustic = next(text for text in verdict.cautions if text.startswith("Caustic"))
    assert caustic in repr(verdict)
    assert "Caustic" in verdict._repr_html_()
    assert "ph_step" not in verdict._repr_html_()
    assert "step of pH" in verdict._repr_html_()
    assert pickle.loads(pickle.dumps(verdict)) == verdict


def test_limewater_needs_the_evaporation(system) -> None:
    limewater = Supplement.limewater(temperature_celsius=24.0)
    assert limewater.is_limewater
    assert any("sediment" in text for text in limewater.cautions)
    plan = DosePlan([limewater.dose(millilitres=600.0)], doses_per_day=48)
    with pytest.raises(hm.HalimedaValueError, match="evaporat"):
        system.judge(plan)
    verdict = system.judge(plan, DoseLimits(evaporation_l_per_day=0.5))
    assert [excess.limit for excess in verdict.excesses] == ["solution_per_day"]
    assert system.judge(plan, DoseLimits(evaporation_l_per_day=2.0)).is_accepted


def test_limits_have_hard_values() -> None:
    with pytest.raises(hm.HalimedaValueError) as refused:
        DoseLimits(alkalinity_umol_per_kg_per_day=3000.0)
    assert refused.value.limits == (0.0, 1050.0)
    defaults = {limit.key: limit.default for limit in Limit.all()}
    assert DoseLimits().ph_total_ceiling == defaults["ph_ceiling"]
    chosen = [
        value
        for name, value in DoseLimits().to_dict().items()
        if name != "evaporation_l_per_day"
    ]
    assert chosen == [limit.default for limit in Limit.all()][:-1]


def test_blends_that_precipitate_are_refused() -> None:
    with pytest.raises(hm.HalimedaValueError, match="precipitate") as refused:
        Supplement.solution_blend({"sodium_bicarbonate": 20.0, "calcium_chloride": 20.0})
    assert refused.value.kind == "contradictory"
    with pytest.raises(hm.HalimedaValueError, match="sodium_bicarbonate"):
        Supplement.solid("table_salt")
    with pytest.raises(hm.HalimedaValueError):
        Supplement.solution("sodium_bicarbonate", g_per_l=10.0).dose(grams=1.0)
    with pytest.raises(hm.HalimedaTypeError):
        Supplement.solid("sodium_bicarbonate").dose()


def test_fewest_doses_and_correction(system) -> None:
    soda = Supplement.solid("sodium_carbonate")
    plan = system.fewest_doses([soda.dose(grams=3.0)])
    assert plan.doses_per_day > 1
    assert system.judge(plan).is_accepted
    correction = system.correction(soda, alkalinity="2 dKH")
    assert correction.plan.doses[0].grams * correction.days == pytest.approx(
        correction.total.grams
    )
    with pytest.raises(hm.HalimedaValueError):
        system.correction(soda, alkalinity="12 dKH")
    with pytest.raises(hm.HalimedaTypeError):
        system.correction(soda)


def test_reactor(system) -> None:
    reactor = ReactorEffluent(
        system.state, alkalinity_umol_per_kg=9000.0, ph_total=6.5, flow="0.5 L/d"
    )
    assert any("CO2 suffocates" in text for text in reactor.cautions)
    plan = DosePlan(reactor=reactor)
    assert plan.doses_per_day == 1440
    assert plan.cautions == reactor.cautions
    assert system.effect(plan).net_per_kg.alkalinity_eq > 0.0
    assert pickle.loads(pickle.dumps(plan)) == plan
    with pytest.raises(hm.HalimedaValueError, match="CO2 escapes"):
        ReactorEffluent(
            system.state, alkalinity_umol_per_kg=9000.0, ph_total=8.0, flow_l_per_day=5.0
        )


def test_consumption(water) -> None:
    days = np.array([1.0, 2.0, 3.0])
    found = hm.dosing.content_fall_umol_per_kg_per_day(
        first_umol_per_kg=60.0, second_umol_per_kg=30.0, days=days
    )
    np.testing.assert_allclose(found, [30.0, 15.0, 10.0])
    with pytest.raises(hm.HalimedaValueError, match="rose"):
        hm.dosing.alkalinity_fall_umol_per_kg_per_day(
            water, first_alkalinity="7 dKH", second_alkalinity="8 dKH", days=2.0
        )
    consumption = Consumption(alkalinity_umol_per_kg_per_day=200.0)
    lost = consumption.per_day(water_kg=100.0)
    assert lost.alkalinity_eq == pytest.approx(0.02)
    assert lost.calcium_mol == pytest.approx(0.01)
    with pytest.raises(hm.HalimedaValueError) as refused:
        Consumption(alkalinity_umol_per_kg_per_day=5000.0)
    assert refused.value.limits == (0.0, 2000.0)
