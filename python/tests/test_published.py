"""Values printed by the sources of the relations, through the Python package."""

from __future__ import annotations

import math

import pytest

import halimeda as hm

T68 = 1.00024  # IPTS-68 over ITS-90, Saunders (1990)


def rounds_to(value: float, printed: float, digits: int) -> bool:
    return abs(value - printed) <= 0.5 * 10**-digits * (1 + 1e-9)


@pytest.fixture(scope="module")
def handbook() -> hm.EquilibriumConstants:
    """Constants at 25 °C and S 35, the conditions of the handbook's check values."""
    state = hm.carbonate(
        temperature_celsius=25.0,
        practical_salinity=35.0,
        alkalinity_umol_per_kg=2300.0,
        inorganic_carbon_umol_per_kg=2000.0,
    )
    return state.constants


@pytest.mark.parametrize(
    ("constant", "logarithm", "printed", "digits"),
    [
        ("k0_mol_per_kg_atm", math.log, -3.5617, 4),
        ("k1_total", math.log10, -5.8472, 4),
        ("k2_total", math.log10, -8.9660, 4),
        ("kb_total", math.log, -19.7964, 4),
        ("ks_free", math.log, -2.30, 2),
    ],
)
def test_dickson_sabine_christian_2007_chapter_5(handbook, constant, logarithm, printed, digits):
    """PICES Special Publication 3, chapter 5; read second-hand, see
    tests/tests/published_constants.rs."""
    assert rounds_to(logarithm(getattr(handbook, constant)), printed, digits)


@pytest.mark.parametrize(
    ("constant", "printed"), [("ksp_aragonite", -6.1883), ("ksp_calcite", -6.3693)]
)
def test_zeebe_wolf_gladrow_2001_appendix_a(handbook, constant, printed):
    """Solubility products at 25 °C and S 35; read second-hand, see
    tests/tests/published_constants.rs."""
    assert rounds_to(math.log10(getattr(handbook, constant)), printed, 4)


def test_density_eos_80():
    """Fofonoff & Millard (1983) UNESCO Tech. Pap. Mar. Sci. 44, p. 19: S 35, t68 25."""
    water = hm.Water(temperature_celsius=25.0 / T68, practical_salinity=35.0)
    assert rounds_to(water.density_kg_per_m3, 1023.34306, 5)


def test_specific_gravity_is_the_ratio_of_published_densities():
    """As above: pure water at t68 25 is 997.04796 kg/m³."""
    water = hm.Water(temperature_celsius=20.0, practical_salinity=35.0)
    assert hm.specific_gravity(
        water, sample_celsius=25.0 / T68, pure_water_celsius=25.0 / T68
    ) == pytest.approx(1023.34306 / 997.04796, abs=1e-8)


def test_practical_salinity_of_the_standard_conductivity():
    """PSS-78 by definition: the ratio 1 at 15 °C of IPTS-68 is salinity 35; the
    conductivity of the standard is 42.914 mS/cm (Culkin & Smith 1980)."""
    water = hm.Water(temperature_celsius=15.0 / T68, conductivity_ms_per_cm=42.914)
    assert water.practical_salinity == pytest.approx(35.0, abs=1e-6)


def test_total_boron_lee_2010():
    """Lee et al. (2010): 432.6 µmol/kg at salinity 35."""
    state = hm.carbonate(
        temperature_celsius=25.0,
        practical_salinity=35.0,
        alkalinity_umol_per_kg=2300.0,
        ph_total=8.1,
    )
    assert rounds_to(state.constants.boron_mol_per_kg * 1e6, 432.6, 1)
