"""Dissolved gases: published values, refusals, containers."""

import pickle

import gsw
import numpy as np
import pandas as pd
import pytest
import xarray as xr

import halimeda as hm


def sea(celsius: float, salinity: float = 35.0) -> hm.Water:
    return hm.Water(temperature_celsius=celsius, practical_salinity=salinity)


def test_check_values_of_the_papers() -> None:
    # Garcia & Gordon (1992) Limnol. Oceanogr. 37, 1307-1312, at 10 °C (IPTS-68), S 35.
    water = sea(10.0 / 1.00024)
    assert hm.gas.solubility_umol_per_kg(water) == pytest.approx(274.610, abs=0.0005)
    # Hamme & Emerson (2004) Deep-Sea Res. I 51, 1517-1528, table 4, at 10 °C, S 35.
    water = sea(10.0)
    nitrogen = hm.gas.solubility_umol_per_kg(water, gas="nitrogen")
    assert nitrogen == pytest.approx(500.885, abs=0.0005)
    argon = hm.gas.solubility_umol_per_kg(water, gas="argon")
    assert argon == pytest.approx(13.4622, abs=0.00005)


def test_schmidt_numbers_at_20_celsius() -> None:
    # Wanninkhof (2014) Limnol. Oceanogr. Methods 12, 351-362, table 1 (from memory).
    for gas, published in (("carbon_dioxide", 668), ("oxygen", 568)):
        assert round(hm.gas.schmidt_number(sea(20.0), gas=gas)) == published


def test_solubility_of_co2() -> None:
    # Dickson, Sabine & Christian (2007) PICES Special Publication 3, chapter 5:
    # ln K0 = -3.5617 at 25 °C, S 35.
    content = hm.gas.carbon_dioxide_solubility_umol_per_kg(sea(25.0), fugacity_co2_uatm=400.0)
    assert np.log(content / 400.0) == pytest.approx(-3.5617, abs=5e-5)


def test_pressures_of_co2_agree_with_pyco2sys() -> None:
    # PyCO2SYS 1.8.3.4, run as a black box at 25 °C, S 35, 1 atm.
    water = sea(25.0)
    fugacity = hm.gas.co2_fugacity_uatm(water, partial_pressure_co2_uatm=400.0)
    assert fugacity == pytest.approx(398.72417621789555, rel=1e-9)
    fraction = hm.gas.co2_dry_mole_fraction_ppm(water, partial_pressure_co2_uatm=400.0)
    assert fraction == pytest.approx(412.6499066687073, rel=1e-9)
    assert hm.gas.co2_partial_pressure_uatm(water, co2_ppm=fraction) == pytest.approx(400.0)
    back = hm.gas.co2_partial_pressure_from_fugacity_uatm(water, fugacity_co2_uatm=fugacity)
    assert back == pytest.approx(400.0)


def test_total_gas_pressure_of_the_guideline() -> None:
    # Fidler & Miller (1994), section 9.1.3: 76 mmHg is about 110 % at sea level.
    pressure = hm.gas.total_gas_pressure(sea(20.0), delta_p_mmhg=76.0)
    assert pressure.percent == pytest.approx(110.0, abs=0.05)
    assert "veterinarian" in pressure.cautions[0]
    assert pressure.cautions[0] in repr(pressure)
    assert "Supersaturated" in pressure._repr_html_()
    assert pickle.loads(pickle.dumps(pressure)) == pressure
    deep = hm.Water(temperature_celsius=20.0, practical_salinity=35.0, water_pressure_dbar=2.0)
    assert hm.gas.total_gas_pressure(deep, delta_p_mmhg=76.0).cautions == []


def test_water_in_equilibrium_with_air_has_no_excess_pressure() -> None:
    water = sea(25.0)
    contents = {
        f"{gas}_umol_per_kg": hm.gas.solubility_umol_per_kg(water, gas=gas)
        for gas in ("oxygen", "nitrogen", "argon")
    }
    pressure = hm.gas.total_gas_pressure(water, **contents)
    assert pressure.delta_p_mmhg == pytest.approx(0.0, abs=1e-9)
    with pytest.raises(hm.HalimedaTypeError):
        hm.gas.total_gas_pressure(water, delta_p_mmhg=3.0, nitrogen_umol_per_kg=400.0)


# NIST Statistical Reference Datasets, nonlinear regression, BoxBOD: y = b1 (1 - exp(-b2 x)),
# certified to 11 digits.
BOX_BOD = ([1.0, 2.0, 3.0, 5.0, 7.0, 10.0], [109.0, 149.0, 149.0, 191.0, 213.0, 224.0])


@pytest.mark.parametrize("kind", [list, np.asarray, pd.Series])
def test_reaeration_fit_reproduces_nist_boxbod(kind) -> None:
    hours, contents = map(kind, BOX_BOD)
    fit = hm.gas.reaeration(hours=hours, content_umol_per_kg=contents, initial_umol_per_kg=0.0)
    assert fit.equilibrium_umol_per_kg == pytest.approx(2.1380940889e2, rel=1e-10)
    assert fit.equilibrium_standard_error_umol_per_kg == pytest.approx(1.2354515176e1, rel=1e-10)
    assert fit.rate_per_hour == pytest.approx(5.4723748542e-1, rel=1e-10)
    assert fit.rate_standard_error_per_hour == pytest.approx(1.0455993237e-1, rel=1e-10)
    assert fit.residual_sd_umol_per_kg == pytest.approx(1.7088072423e1, rel=1e-10)
    assert fit.degrees_of_freedom == 4
    assert pickle.loads(pickle.dumps(fit)) == fit
    assert fit.to_dict()["gas"] == "oxygen"


def test_a_record_that_does_not_bound_the_rate_is_refused() -> None:
    with pytest.raises(hm.HalimedaValueError):
        hm.gas.reaeration(hours=[0.0, 1.0, 2.0], content_umol_per_kg=[1.0, 2.0, 3.0])
    with pytest.raises(hm.HalimedaValueError):
        hm.gas.reaeration(hours=range(8), content_umol_per_kg=[100.0] * 8)
    with pytest.raises(hm.HalimedaTypeError):
        hm.gas.reaeration(hours=[0.0, 1.0])


def test_exchange_adds_up() -> None:
    water = sea(25.0)
    # 4 cm/h over 0.25 m² bring 10 L/h to equilibrium.
    surface = hm.gas.ExchangePath(
        "open_surface", co2_ppm=420.0, transfer_velocity_cm_per_h=4.0, area_m2=0.25
    )
    half = hm.gas.solubility_umol_per_kg(water) / 2.0
    found = hm.gas.exchange([surface], water, content_umol_per_kg=half)
    assert found.clearance_l_per_day == pytest.approx(240.0)
    expected = 240.0 * water.density_kg_per_m3 * 1e-3 * half * 1e-3
    assert found.flux_mmol_per_day == pytest.approx(expected)
    both = hm.gas.exchange([surface, surface], water, content_umol_per_kg=half)
    assert both.flux_mmol_per_day == pytest.approx(2.0 * found.flux_mmol_per_day)
    assert pickle.loads(pickle.dumps(surface)) == surface
    with pytest.raises(hm.HalimedaValueError):
        hm.gas.exchange([], water, content_umol_per_kg=half)
    with pytest.raises(hm.HalimedaTypeError):
        hm.gas.ExchangePath("open_surface", co2_ppm=420.0, rate_per_hour=1.0)
    with pytest.raises(hm.HalimedaValueError, match="open_surface"):
        hm.gas.ExchangePath("pond", co2_ppm=420.0, rate_per_hour=1.0, volume_l=100.0)


def test_nusselt_film() -> None:
    # Bird, Stewart & Lightfoot (2002) Transport Phenomena, 2nd ed., problem 2A.1 (from
    # memory): water at 20 °C, Re = 10, 0.727 US gal/h per foot, 0.00361 inch.
    film = hm.gas.film_flow(
        sea(20.0, 0.0), flow_l_per_h=0.727 * 3.785411784, width_m=0.3048
    )
    assert film.reynolds == pytest.approx(10.0, abs=0.02)
    assert film.thickness_m / 0.0254 == pytest.approx(0.00361, abs=5e-6)
    with pytest.raises(hm.HalimedaValueError) as refused:
        hm.gas.film_flow(sea(25.0), flow_l_per_h=2000.0, width_m=0.5)
    assert refused.value.limits == (0.0, 1500.0)


def test_arrays_and_containers() -> None:
    celsius = np.array([15.0, 20.0, 25.0, 30.0])
    # The TEOS-10 toolbox, run as a black box; it takes potential temperature on ITS-90.
    published = gsw.O2sol_SP_pt(35.0, celsius)
    found = hm.gas.solubility_umol_per_kg(sea(celsius))
    np.testing.assert_allclose(found, published, rtol=1e-6)
    series = pd.Series(celsius, index=list("abcd"), name="temperature")
    found = hm.gas.solubility_umol_per_kg(sea(series))
    assert list(found.index) == list("abcd")
    np.testing.assert_allclose(found, published, rtol=1e-6)
    array = xr.DataArray(celsius, dims="time")
    found = hm.gas.solubility_umol_per_kg(sea(array))
    assert found.dims == ("time",)
    assert found.attrs["units"] == "umol kg-1"


def test_percent_and_content_are_inverse() -> None:
    water = sea(np.array([20.0, 25.0]))
    content = hm.gas.content_at_saturation_umol_per_kg(water, saturation="87 %")
    percent = hm.gas.percent_saturation(water, content_umol_per_kg=content)
    np.testing.assert_allclose(percent, 87.0)
    pressure = hm.gas.partial_pressure_atm(water, content_umol_per_kg=content)
    assert np.all((pressure > 0.17) & (pressure < 0.19))


def test_refusals() -> None:
    with pytest.raises(hm.HalimedaValueError) as refused:
        hm.gas.solubility_umol_per_kg(sea(59.0))
    assert refused.value.value == 59.0
    assert refused.value.limits is not None
    with pytest.raises(hm.HalimedaValueError, match="nitrogen") as refused:
        hm.gas.solubility_umol_per_kg(sea(25.0), gas="helium")
    assert refused.value.kind == "unknown_choice"
    with pytest.warns(hm.HalimedaWarning) as warned:
        found = hm.gas.solubility_umol_per_kg(sea(np.array([25.0, 59.0])))
    assert np.isnan(found[1]) and not np.isnan(found[0])
    assert warned[0].message.problems[0][0] == 1
