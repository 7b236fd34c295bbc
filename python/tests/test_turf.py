"""Turf on a lit screen, processes of the tank, feed, evaporation."""

import pickle

import numpy as np
import pandas as pd
import pytest

import halimeda as hm
from halimeda.turf import TurfStock, turf_rates

CONDITIONS = {
    "lit_area_m2": 0.2,
    "irradiance_umol_per_m2_per_s": 300.0,
    "transfer_m_per_day": 6.0,
    "nitrate_umol_per_kg": 80.0,
    "ammonium_umol_per_kg": 1.0,
    "phosphate_umol_per_kg": 1.0,
    "inorganic_carbon_umol_per_kg": 2300.0,
    "oxygen_umol_per_kg": 200.0,
}


def test_transfer_spans_the_published_velocities() -> None:
    # Thomas & Atkinson (1997) doi:10.4319/lo.1997.42.1.0081: 1.4 to 12 m/d between 3 and
    # 38 cm/s; 35 gallons per hour and inch is common practice.
    flow = np.array([0.0, 1.0, 52.0])
    velocity = hm.turf.film_velocity_m_per_s(flow_l_per_h_per_cm=flow)
    transfer = hm.turf.transfer_m_per_day(flow_l_per_h_per_cm=flow)
    assert velocity[0] == transfer[0] == 0.0
    assert 0.2 < velocity[2] < 1.0
    expected = 1.4 * (velocity / 0.03) ** 0.8
    np.testing.assert_allclose(transfer, expected)
    named = hm.turf.transfer_m_per_day(flow="35 gal (US)/h/in")
    assert named == pytest.approx(transfer[2], rel=0.01)


def test_lamp() -> None:
    found = hm.turf.irradiance_umol_per_m2_per_s(power="50 W", lit_area_m2=0.25)
    assert found == pytest.approx(50.0 * 2.7 * 0.55 / 0.25)
    assert hm.turf.lamp_remaining(burning_hours=50_000.0) == pytest.approx(0.7)
    bright = hm.turf.irradiance_umol_per_m2_per_s(
        power_w=50.0, lit_area_m2=0.25, parameters={"share_on_screen": 0.8}
    )
    assert bright / found == pytest.approx(0.8 / 0.55)
    with pytest.raises(hm.HalimedaValueError, match="share_on_screen") as refused:
        hm.turf.irradiance_umol_per_m2_per_s(
            power_w=50.0, lit_area_m2=0.25, parameters={"colour": 1.0}
        )
    assert refused.value.kind == "unknown_parameter"
    with pytest.raises(hm.HalimedaValueError) as refused:
        hm.turf.irradiance_umol_per_m2_per_s(
            power_w=50.0, lit_area_m2=0.25, parameters={"share_on_screen": 1.5}
        )
    assert refused.value.limits == (0.0, 1.0)


def test_temperature_response() -> None:
    # Rosso, Lobry & Flandrois (1993), eq. 1: zero at the ends, one at the optimum.
    celsius = pd.Series([5.0, 29.0, 37.0])
    found = hm.turf.temperature_response(temperature_celsius=celsius)
    np.testing.assert_allclose(found, [0.0, 1.0, 0.0], atol=1e-12)
    with pytest.raises(hm.HalimedaValueError, match="optimum"):
        hm.turf.temperature_response(
            temperature_celsius=25.0, parameters={"optimum_temperature_celsius": 40.0}
        )


def test_harvest_keeps_the_books() -> None:
    stock = TurfStock(carbon_mol=1.0, nitrogen_mol=0.1, phosphorus_mol=0.008, cover=0.9)
    harvest, left = stock.harvest(kept_share=0.2)
    for name in ("carbon_mol", "nitrogen_mol", "phosphorus_mol"):
        assert getattr(harvest, name) + getattr(left, name) == pytest.approx(getattr(stock, name))
    assert left.cover == stock.cover
    assert harvest.dry_grams == pytest.approx(0.8 * 12.011 / 0.30)
    assert pickle.loads(pickle.dumps((harvest, left))) == (harvest, left)
    metals = hm.turf.tissue_metals(dry_grams=harvest.dry_grams)
    assert metals.iron_mg == pytest.approx(harvest.dry_grams)
    with pytest.raises(hm.HalimedaValueError):
        stock.harvest(kept_share=1.2)
    with pytest.raises(hm.HalimedaValueError) as refused:
        TurfStock(carbon_mol=-1.0, nitrogen_mol=0.1, phosphorus_mol=0.008)
    assert refused.value.value == -1.0


def test_rates_follow_light_and_nutrients(water) -> None:
    stock = TurfStock.seeded(lit_area_m2=0.2, settled_g_dry_per_m2=40.0)
    lit = turf_rates(stock, water, **CONDITIONS)
    dark = turf_rates(stock, water, **{**CONDITIONS, "irradiance_umol_per_m2_per_s": 0.0})
    bare = turf_rates(stock, water, **{**CONDITIONS, "nitrate_umol_per_kg": 0.0})
    assert lit.fixation_mol_per_day > lit.respiration_mol_per_day > 0.0
    assert dark.fixation_mol_per_day == 0.0
    assert bare.nitrate_uptake_mol_per_day == 0.0
    assert "mol/d" in lit._repr_html_()
    dry = turf_rates(stock, water, **{**CONDITIONS, "transfer_m_per_day": 0.0})
    assert dry.loss_per_day > 10.0 * lit.loss_per_day
    with pytest.raises(hm.HalimedaValueError) as refused:
        turf_rates(stock, water, **{**CONDITIONS, "irradiance_umol_per_m2_per_s": np.nan})
    assert refused.value.kind == "non_finite"


def test_nitrification_of_half_saturation() -> None:
    full = hm.process.nitrification_mol_per_day(
        ammonia_umol_per_kg=1e5, oxygen_umol_per_kg=1e5, surface_m2=3.0, temperature_celsius=25.0
    )
    assert full == pytest.approx(3.0 * 1.5e-3, rel=1e-3)
    twice = hm.process.nitrification_mol_per_day(
        ammonia_umol_per_kg=np.array([2.0, 1e5]),
        oxygen_umol_per_kg=1e5,
        surface_m2=3.0,
        temperature_celsius=25.0,
        parameters={"capacity_mmol_per_m2_per_day": 3.0},
    )
    np.testing.assert_allclose(twice, [full, 2.0 * full], rtol=1e-3)
    with pytest.raises(hm.HalimedaValueError):
        hm.process.nitrification_mol_per_day(
            ammonia_umol_per_kg=-1.0,
            oxygen_umol_per_kg=200.0,
            surface_m2=3.0,
            temperature_celsius=25.0,
        )


def test_denitrification_is_nearly_constant_in_plenty() -> None:
    # Cook, Kessler & Eyre (2017) doi:10.5194/bg-14-4061-2017, abstract: constant above 18 µM.
    found = hm.process.denitrification_mol_per_day(
        nitrate_umol_per_kg=np.array([1.0, 18.0, 100.0]),
        particulate_carbon_mol=1.0,
        surface_m2=3.0,
        temperature_celsius=25.0,
    )
    assert found[1] > 0.85 * found[2]
    assert found[0] < 0.3 * found[2]
    decayed = hm.process.mineralisation_mol_per_day(
        matter_mol=1.0, oxygen_umol_per_kg=200.0, temperature_celsius=25.0
    )
    assert decayed == pytest.approx(0.1 * 200.0 / 210.0)


def test_feed_holds_what_its_fractions_say() -> None:
    matter = hm.process.feed(
        grams=2.0,
        parameters={
            "water_fraction": 0.1,
            "protein_fraction_of_dry": 0.5,
            "phosphorus_fraction_of_dry": 0.01,
            "carbon_fraction_of_dry": 0.4,
        },
    )
    # Atomic weights of IUPAC 2021; nitrogen is crude protein over 6.25 (NRC 2011).
    assert matter.carbon_mol * 12.011 == pytest.approx(2.0 * 0.36)
    assert matter.nitrogen_mol * 14.007 == pytest.approx(2.0 * 0.072)
    assert matter.phosphorus_mol * 30.973761998 == pytest.approx(2.0 * 0.009)
    frozen = hm.process.feed(grams=2.0, kind="frozen")
    assert frozen.nitrogen_mol < matter.nitrogen_mol
    with pytest.raises(hm.HalimedaValueError, match="protein"):
        hm.process.feed(grams=2.0, parameters={"carbon_fraction_of_dry": 0.2})
    with pytest.raises(hm.HalimedaValueError, match="pellet"):
        hm.process.feed(grams=2.0, kind="crumbs")


def test_evaporation(water) -> None:
    humid = hm.process.evaporation_kg_per_day(
        water, open_m2=0.5, air_celsius=22.0, relative_humidity=np.array([0.3, 0.6])
    )
    assert humid[0] > humid[1] > 0.0
    with pytest.raises(hm.HalimedaValueError) as refused:
        hm.process.evaporation_kg_per_day(
            water, open_m2=0.5, air_celsius=22.0, relative_humidity=55.0
        )
    assert refused.value.limits == (0.0, 1.0)
    delivered = hm.process.top_off_kg_per_day(
        evaporation_kg_per_day=3.0, water_kg=200.0, full_kg=200.0
    )
    assert delivered == 3.0


@pytest.mark.parametrize(
    "model",
    ["nitrification", "denitrification", "mineralisation", "evaporation", "top_off", "turf"],
)
def test_parameters_have_ranges_and_sources(model) -> None:
    for parameter in hm.process.parameters(model):
        assert 0.0 < parameter.low <= parameter.default <= parameter.high
        assert parameter.source


def test_calcification_by_night_and_at_saturation() -> None:
    # Moya et al. (2006) J. Exp. Biol. 209, 3413-3419, abstract: 2.6 times as much by day as by
    # night; the default, 3, is near it.
    found = hm.process.coral_calcification_mol_per_day(
        tissue_m2=1.0, aragonite_saturation=4.0, lit_fraction=np.array([0.0, 1.0])
    )
    assert 2.0 < found[1] / found[0] < 4.0
    # McLaughlin et al. (2023) doi:10.5194/bg-20-1011-2023, abstract: corals and calcifying
    # algae 1.9 to 9.9 g CaCO3 m⁻² d⁻¹; here half a day of light.
    assert 1.9 < 100.09 * found.mean() < 16.0
    for rate in (
        hm.process.coral_calcification_mol_per_day(
            tissue_m2=1.0, aragonite_saturation=1.0, lit_fraction=1.0
        ),
        hm.process.coralline_calcification_mol_per_day(
            crust_m2=1.0, aragonite_saturation=0.9, lit_fraction=1.0
        ),
    ):
        assert rate == 0.0
    with pytest.raises(hm.HalimedaValueError) as refused:
        hm.process.coral_calcification_mol_per_day(
            tissue_m2=1.0, aragonite_saturation=4.0, lit_fraction=1.5
        )
    assert refused.value.limits == (0.0, 1.0)


def test_iron_oxide_of_chitrakar() -> None:
    # Chitrakar et al. (2006) J. Colloid Interface Sci. 298, 602-608 (authors and pages from
    # memory), abstract: 10 mg P per gram at 0.3 mg P/L in seawater (1.0233 kg/L).
    uptake = hm.process.iron_oxide_uptake_mol_per_day(
        phosphate_umol_per_kg=0.3e3 / 30.973761998 / 1.0233,
        bound_phosphorus_mol=np.array([0.0, 1.0]) * 100.0 * 10.0e-3 / 30.973761998,
        media="100 g",
    )
    assert uptake[0] > 0.0
    assert abs(uptake[1]) < 1e-4 * uptake[0]


def test_fed_animals_lose_nothing() -> None:
    gut = hm.process.feed(grams=10.0)
    rates = hm.process.livestock(gut, oxygen_umol_per_kg=200.0)
    out = (
        rates.excreted_nitrogen_mol_per_day
        + rates.faeces.nitrogen_mol
        + rates.retained.nitrogen_mol
    )
    assert out == pytest.approx(2.0 * 200.0 / 210.0 * gut.nitrogen_mol)
    assert pickle.loads(pickle.dumps(rates)) == rates


def test_the_display_balances_half_a_day_of_light() -> None:
    # Gattuso et al. (1995) Mar. Ecol. Prog. Ser. 129, 307-312, abstract: gross photosynthesis
    # over respiration near 1.
    fixed = hm.process.display_photosynthesis_mol_per_day(
        living_m2=1.0, lit_fraction=0.5, inorganic_carbon_umol_per_kg=2000.0
    )
    respired = hm.process.display_respiration_mol_per_day(
        living_m2=1.0, oxygen_umol_per_kg=200.0, temperature_celsius=25.0
    )
    assert fixed / respired == pytest.approx(1.0, abs=0.2)
