"""Nutrients: forms, ammonia, readings, ratios, the alkalinity of processes."""

import pickle

import numpy as np
import pandas as pd
import pytest

import halimeda as hm
from halimeda.nutrient import ContentEstimate, KitReading, NitrogenToPhosphorus, stoichiometry


@pytest.fixture
def reef() -> hm.Water:
    return hm.Water(temperature_celsius=25.0, practical_salinity=35.0)


# ICES, conversion of oceanographic units (from memory): µmol/L in a µg/L.
@pytest.mark.parametrize(
    ("form", "micromoles"),
    [("nitrate_as_n", 0.071394), ("phosphate_as_p", 0.032285), ("silicate_as_si", 0.035606)],
)
def test_micromoles_of_a_microgram(reef, form, micromoles) -> None:
    content = hm.nutrient.content_umol_per_kg(reef, concentration="1 µg/L", form=form)
    per_litre = content * reef.density_kg_per_m3 * 1e-3
    assert per_litre == pytest.approx(micromoles, abs=2e-6)


# As laboratories convert (common practice, no source): NO3 to N 0.226, PO4 to P 0.326;
# US EPA ammonia criteria: NH3 to N 0.822 (from memory).
@pytest.mark.parametrize(
    ("ion", "element", "factor"),
    [
        ("nitrate_as_no3", "nitrate_as_n", 0.226),
        ("phosphate_as_po4", "phosphate_as_p", 0.326),
        ("ammonia_as_nh3", "ammonia_as_n", 0.822),
    ],
)
def test_mass_factors(reef, ion, element, factor) -> None:
    shown = np.array([[1.0, 2.0], [5.0, 10.0]])
    content = hm.nutrient.content_umol_per_kg(reef, concentration_mg_per_l=shown, form=ion)
    found = hm.nutrient.concentration_mg_per_l(reef, content_umol_per_kg=content, form=element)
    np.testing.assert_allclose(found / shown, factor, atol=0.0005)


def test_a_form_has_to_be_said(reef) -> None:
    with pytest.raises(hm.HalimedaValueError, match="nitrate_as_n") as refused:
        hm.nutrient.content_umol_per_kg(reef, concentration_mg_per_l=5.0)
    assert refused.value.input == "form"


def test_containers_keep_their_rows(reef) -> None:
    shown = pd.Series([5.0, np.nan, 10.0], index=list("abc"))
    with pytest.warns(hm.HalimedaWarning, match="1 of 3"):
        found = hm.nutrient.content_umol_per_kg(
            reef, concentration_mg_per_l=shown, form="nitrate_as_no3"
        )
    assert list(found.index) == list("abc")
    assert list(found.isna()) == [False, True, False]
    assert found.attrs["units"] == "umol kg-1"


@pytest.mark.parametrize(
    ("ph", "celsius", "salinity", "printed"),
    # Fractions printed in the documentation of ammFrac in the R package wq 0.2-9, which
    # evaluates Clegg & Whitfield (1995) per kilogram of water; here it is per kilogram of
    # seawater.
    [
        (8.0, 10.0, 0.0, 0.0183),
        (8.0, 25.0, 0.0, 0.0539),
        (8.0, 25.0, 35.0, 0.0556),
        (7.8, 25.0, 35.0, 0.0358),
    ],
)
def test_fractions_of_clegg_and_whitfield(ph, celsius, salinity, printed) -> None:
    water = hm.Water(temperature_celsius=celsius, practical_salinity=salinity)
    ph_total = ph - np.log10(1.0 - 0.001005 * salinity)
    found = hm.nutrient.unionised_ammonia_fraction(water, ph_total=ph_total)
    assert found == pytest.approx(printed, abs=0.00005)


def test_unionised_ammonia_at_25_celsius(reef) -> None:
    # Of total ammonia, by Clegg & Whitfield (1995); the state of the carbonate system has
    # the same share by the way of its own constants.
    fraction = hm.nutrient.unionised_ammonia_fraction(reef, ph_total=np.array([7.8, 8.1, 8.4]))
    for ph_total, share in zip([7.8, 8.1, 8.4], fraction, strict=True):
        state = reef.carbonate(
            alkalinity_umol_per_kg=2500.0, ph_total=ph_total, ammonia_umol_per_kg=10.0
        )
        assert state.unionised_ammonia_umol_per_kg / 10.0 == pytest.approx(share, rel=1e-9)


@pytest.mark.parametrize(
    ("nh3_mg_per_l", "verdict"),
    # US EPA 440/5-88-004 (1989): 0.035 and 0.233 mg/L NH3, four-day and one-hour average.
    [
        (0.034, "within_limits"),
        (0.036, "above_chronic"),
        (0.232, "above_chronic"),
        (0.234, "above_acute"),
    ],
)
def test_ammonia_against_the_limits(reef, nh3_mg_per_l, verdict) -> None:
    share = hm.nutrient.unionised_ammonia_fraction(reef, ph_total=8.0)
    found = hm.nutrient.unionised_ammonia(
        reef, ph_total=8.0, ammonia=f"{nh3_mg_per_l / share} mg/L NH3"
    )
    assert found.nh3_mg_per_l == pytest.approx(nh3_mg_per_l)
    assert found.verdict == verdict
    assert len(found.cautions) == 1
    assert found.cautions[0] in repr(found)
    assert pickle.loads(pickle.dumps(found)) == found


def test_ammonia_refusals() -> None:
    fresh = hm.Water(temperature_celsius=25.0, practical_salinity=50.0)
    with pytest.raises(hm.HalimedaValueError) as refused:
        hm.nutrient.unionised_ammonia_fraction(fresh, ph_total=8.0)
    assert refused.value.input == "practical salinity"
    assert refused.value.kind == "extrapolation"
    water = hm.Water(temperature_celsius=25.0, practical_salinity=35.0)
    with pytest.raises(hm.HalimedaTypeError, match="ammonia"):
        hm.nutrient.unionised_ammonia(water, ph_total=8.0)


def test_readings_and_what_they_leave_open(reef) -> None:
    # JCGM 100:2008, 4.3.7: of an interval the middle, and half its width over √3.
    nitrate = KitReading.between(5.0, 10.0, form="nitrate_as_no3").estimate(reef)
    ratio = nitrate.standard_uncertainty_umol_per_kg / nitrate.content_umol_per_kg
    assert ratio == pytest.approx(2.5 / np.sqrt(3.0) / 7.5)
    # F.2.2.1: a display step contributes 0.29 of itself.
    step = KitReading.measured(0.0, form="nitrate_as_no3", resolution_mg_per_l=1.0)
    one = hm.nutrient.content_umol_per_kg(
        reef, concentration_mg_per_l=1.0, form="nitrate_as_no3"
    )
    found = step.estimate(reef).standard_uncertainty_umol_per_kg
    assert found / one == pytest.approx(0.29, abs=0.005)
    below = KitReading.below(0.5, form="nitrate_as_no3")
    assert below.interval_umol_per_kg(reef) == pytest.approx((0.0, 0.5 * one))
    above = KitReading.above(50.0, form="nitrate_as_no3")
    assert above.interval_umol_per_kg(reef)[1] is None
    with pytest.raises(hm.HalimedaValueError, match="dilute"):
        above.estimate(reef)
    with pytest.raises(hm.HalimedaValueError):
        KitReading.below(0.0, form="nitrate_as_no3")
    with pytest.raises(hm.HalimedaValueError):
        KitReading.between(10.0, 5.0, form="nitrate_as_no3")
    for reading in (step, below, above):
        assert pickle.loads(pickle.dumps(reading)) == reading
        assert "nitrate_as_no3" in reading._repr_html_()


def test_ratio_and_its_interval() -> None:
    nitrogen = hm.nutrient.dissolved_inorganic_nitrogen(
        nitrate=ContentEstimate(40.0, 3.0),
        nitrite=ContentEstimate(0.5, 0.3),
        ammonia=ContentEstimate(1.0, 0.5),
    )
    assert nitrogen.content_umol_per_kg == pytest.approx(41.5)
    assert nitrogen.standard_uncertainty_umol_per_kg == pytest.approx(
        np.sqrt(9.0 + 0.09 + 0.25)
    )
    ratio = NitrogenToPhosphorus(nitrogen, ContentEstimate(1.0, 0.1))
    assert ratio.upper is not None
    # Fieller (1954): at both ends n - r p is twice its own uncertainty.
    for end in (ratio.lower, ratio.upper):
        distance = abs(41.5 - end) / np.hypot(
            nitrogen.standard_uncertainty_umol_per_kg, 0.1 * end
        )
        assert distance == pytest.approx(2.0)
    assert ratio.balance() == "nitrogen_rich"
    assert ratio.balance("benthic_plants") == "nitrogen_rich"
    vague = NitrogenToPhosphorus(nitrogen, ContentEstimate(0.3, 0.2))
    assert vague.upper is None
    with pytest.raises(hm.HalimedaValueError) as refused:
        NitrogenToPhosphorus(nitrogen, ContentEstimate(0.0, 0.1))
    assert refused.value.input == "phosphate"
    with pytest.raises(hm.HalimedaValueError, match="redfield"):
        ratio.balance("lake")
    assert pickle.loads(pickle.dumps(ratio)) == ratio


def test_aerobic_mineralisation_of_the_review() -> None:
    # Middelburg, Soetaert & Hagens (2020) Rev. Geophys. 58, e2019RG000681, table 2, R1:
    # alkalinity n - p per mole of carbon of (CH2O)(NH3)n(H3PO4)p.
    n, p = 16.0 / 106.0, 1.0 / 106.0
    carbon = stoichiometry("carbon_mineralisation", oxygen_per_carbon=1.0)
    nitrogen = stoichiometry("nitrogen_mineralisation")
    phosphorus = stoichiometry("phosphorus_mineralisation")
    change = carbon.alkalinity + n * nitrogen.alkalinity + p * phosphorus.alkalinity
    assert change == pytest.approx(n - p)
    assert carbon.oxygen == -1.0
    assert stoichiometry("calcification").alkalinity == -2.0
    assert stoichiometry("denitrification").alkalinity == pytest.approx(1.0)
    with pytest.raises(hm.HalimedaValueError, match="nitrification"):
        stoichiometry("rot")
