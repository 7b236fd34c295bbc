"""What comes in as a container of another package goes out as the same kind."""

from __future__ import annotations

import pickle

import numpy as np
import pytest

import halimeda as hm

pd = pytest.importorskip("pandas")
pl = pytest.importorskip("polars")
xr = pytest.importorskip("xarray")
pint = pytest.importorskip("pint")


@pytest.fixture
def expected(rows):
    return hm.carbonate(**rows)


def test_pandas_series(rows, expected):
    index = pd.date_range("2026-03-01", periods=5, freq="D", name="day")
    series = {name: pd.Series(column, index=index) for name, column in rows.items()}
    states = hm.carbonate(**series)
    ph = states.ph_nbs
    assert isinstance(ph, pd.Series)
    assert ph.index.equals(index) and ph.name == "ph_nbs"
    assert np.array_equal(ph, expected.ph_nbs)
    assert states.alkalinity_umol_per_kg.attrs["units"] == "umol kg-1"
    assert states.status.tolist() == [0] * 5
    assert pickle.loads(pickle.dumps(states)).ph_nbs.equals(ph)
    mixed = hm.carbonate(**{**series, "practical_salinity": 35.0, "ph_total": rows["ph_total"]})
    assert isinstance(mixed.ph_nbs, pd.Series)


def test_pandas_series_of_other_rows_are_refused(rows):
    first = pd.Series(rows["temperature_celsius"], index=range(5))
    second = pd.Series(rows["practical_salinity"], index=range(1, 6))
    with pytest.raises(hm.HalimedaValueError, match="practical_salinity: its rows are not those"):
        hm.Water(temperature_celsius=first, practical_salinity=second)


def test_pandas_missing_values_are_flagged(rows):
    series = pd.Series([24.0, None, 25.0, pd.NA, 26.0], dtype="Float64")
    states = hm.carbonate(**{**rows, "temperature_celsius": series})
    assert states.status.tolist() == [0, 3, 0, 3, 0]


def test_units_of_attributes_are_read_and_checked(rows):
    series = pd.Series([8.0, 8.2])
    series.attrs["units"] = "dKH"
    water = hm.Water(temperature_celsius=[25.0, 25.0], practical_salinity=35.0)
    states = water.carbonate(alkalinity=series, ph_total=8.1)
    one = hm.Water(temperature_celsius=25.0, practical_salinity=35.0)
    assert states.alkalinity_umol_per_kg.iloc[1] == pytest.approx(
        one.carbonate(alkalinity="8.2 dKH", ph_total=8.1).alkalinity_umol_per_kg
    )
    with pytest.raises(hm.HalimedaTypeError, match="in dKH; give them as alkalinity="):
        water.carbonate(alkalinity_umol_per_kg=series, ph_total=8.1)
    series.attrs["units"] = "umol kg-1"
    assert water.carbonate(alkalinity_umol_per_kg=series * 350, ph_total=8.1).shape == (2,)


def test_pandas_table(rows, expected):
    frame = pd.DataFrame(rows, index=list("abcde"))
    frame["comment"] = "invented"
    result = hm.carbonate(frame)
    assert isinstance(result, pd.DataFrame)
    assert list(result.index) == list("abcde")
    assert np.array_equal(result["aragonite_saturation"], expected.aragonite_saturation)
    assert result["status"].tolist() == [0] * 5
    with_salinity = hm.carbonate(
        frame.drop(columns="practical_salinity"), practical_salinity=35.0, outputs=["ph_nbs"]
    )
    assert list(with_salinity.columns) == ["ph_nbs", "status"]
    with pytest.raises(hm.HalimedaTypeError, match="as an argument and as a column"):
        hm.carbonate(frame, practical_salinity=35.0)


def test_polars(rows, expected):
    series = {name: pl.Series(name, column) for name, column in rows.items()}
    ph = hm.carbonate(**series).ph_nbs
    assert isinstance(ph, pl.Series) and ph.name == "ph_nbs"
    assert ph.to_list() == expected.ph_nbs.tolist()
    frame = hm.carbonate(pl.DataFrame(rows))
    assert isinstance(frame, pl.DataFrame)
    assert frame["carbonate_umol_per_kg"].to_list() == expected.carbonate_umol_per_kg.tolist()
    missing = pl.Series([24.0, None, 25.0, None, 26.0])
    assert hm.carbonate(**{**rows, "temperature_celsius": missing}).status.to_list() == [
        0, 3, 0, 3, 0,
    ]


def test_xarray_broadcasts_by_name():
    temperature = xr.DataArray([20.0, 25.0, 30.0], dims="t", coords={"t": [1, 2, 3]})
    salinity = xr.DataArray([34.0, 36.0], dims="s")
    states = hm.carbonate(
        temperature_celsius=temperature,
        practical_salinity=salinity,
        alkalinity_umol_per_kg=2800.0,
        ph_total=8.1,
    )
    carbon = states.inorganic_carbon_umol_per_kg
    assert isinstance(carbon, xr.DataArray)
    assert carbon.dims == ("t", "s") and carbon.shape == (3, 2)
    assert carbon.coords["t"].values.tolist() == [1, 2, 3]
    one = hm.carbonate(
        temperature_celsius=30.0,
        practical_salinity=36.0,
        alkalinity_umol_per_kg=2800.0,
        ph_total=8.1,
    )
    assert float(carbon.sel(t=3, s=1)) == pytest.approx(one.inorganic_carbon_umol_per_kg, rel=1e-12)
    assert carbon.attrs == {
        "units": "umol kg-1",
        "standard_name": "moles_of_dissolved_inorganic_carbon_per_unit_mass_in_sea_water",
    }


def test_xarray_units_and_other_coordinates():
    temperature = xr.DataArray([20.0, 25.0], dims="t", coords={"t": [1, 2]})
    other = xr.DataArray([35.0, 35.0], dims="t", coords={"t": [2, 3]})
    with pytest.raises(ValueError):
        hm.Water(temperature_celsius=temperature, practical_salinity=other)
    kelvin = xr.DataArray([293.15, 298.15], dims="t", attrs={"units": "K"})
    water = hm.Water(temperature=kelvin, practical_salinity=35.0)
    assert water.temperature_celsius.values == pytest.approx([20.0, 25.0])
    assert water.density_kg_per_m3.attrs["standard_name"] == "sea_water_density"
    with pytest.raises(hm.HalimedaTypeError, match="these are in K"):
        hm.Water(temperature_celsius=kelvin, practical_salinity=35.0)


def test_xarray_dataset(rows, expected):
    dataset = xr.Dataset({name: ("time", column) for name, column in rows.items()})
    result = hm.carbonate(dataset)
    assert isinstance(result, xr.Dataset)
    assert np.array_equal(result["aragonite_saturation"], expected.aragonite_saturation)
    assert result["ph_nbs"].dims == ("time",)


def test_a_scalar_among_labelled_arrays(rows, expected):
    labelled = {name: xr.DataArray(column, dims="time") for name, column in rows.items()}
    labelled["practical_salinity"] = xr.DataArray(35.0)
    assert hm.carbonate(**labelled).ph_nbs.dims == ("time",)


def test_pint():
    unit = pint.UnitRegistry()
    water = hm.Water(
        temperature=unit.Quantity(77.0, unit.degF), practical_salinity=35 * unit.dimensionless
    )
    assert water.temperature_celsius == pytest.approx(25.0)
    state = water.carbonate(alkalinity=2.8e-3 * unit.mol / unit.kg, ph_total=8.1)
    assert state.alkalinity_umol_per_kg == pytest.approx(2800.0)
    state = water.carbonate(
        alkalinity=2800.0 * unit.umol / unit.kg, partial_pressure_co2=40.53 * unit.pascal
    )
    assert state.partial_pressure_co2_uatm == pytest.approx(400.0, rel=1e-6)
    many = water.carbonate(
        alkalinity=np.array([2.8, 2.9]) * unit.mmol / unit.kg, ph_total=8.1
    )
    assert many.alkalinity_umol_per_kg == pytest.approx([2800.0, 2900.0])
    with pytest.raises(hm.HalimedaTypeError, match="cannot be converted|not one of"):
        water.carbonate(alkalinity=8.0 * unit.metre, ph_total=8.1)


def test_masked_arrays(rows):
    masked = np.ma.masked_array(rows["ph_total"], mask=[False, True, False, False, False])
    assert hm.carbonate(**{**rows, "ph_total": masked}).status.tolist() == [0, 3, 0, 0, 0]


def test_elementwise_functions_keep_the_container(rows):
    series = pd.Series(rows["temperature_celsius"], index=list("abcde"))
    salinity = hm.practical_salinity_from_conductivity(
        conductivity_ms_per_cm=53.0, temperature_celsius=series
    )
    assert isinstance(salinity, pd.Series) and list(salinity.index) == list("abcde")
    with pytest.warns(hm.HalimedaWarning, match="1 of 2 rows refused; row 1: conductivity") as told:
        result = hm.practical_salinity_from_conductivity(
            conductivity_ms_per_cm=[53.0, 1000.0], temperature_celsius=25.0
        )
    assert np.isnan(result).tolist() == [False, True]
    ((row, error),) = told[0].message.problems
    assert (row, error.limits) == (1, (0.0, 200.0))
    with pytest.raises(hm.HalimedaValueError, match="conductivity is 1000"):
        hm.practical_salinity_from_conductivity(
            conductivity_ms_per_cm=[53.0, 1000.0], temperature_celsius=25.0, errors="raise"
        )


def test_a_table_of_no_known_kind(rows):
    with pytest.raises(hm.HalimedaTypeError, match="the table must be"):
        hm.carbonate(rows)


def test_numbers_may_lie_anywhere_in_memory(rows):
    """As in a buffer from another process, whose numbers begin at any byte."""
    expected = hm.carbonate(**rows).aragonite_saturation
    column = rows["temperature_celsius"]
    buffer = np.zeros(column.nbytes + 1, dtype=np.uint8)
    shifted = buffer[1:].view(np.float64)
    shifted[:] = column
    assert not shifted.flags.aligned
    moved = hm.carbonate(**{**rows, "temperature_celsius": shifted}).aragonite_saturation
    assert np.array_equal(moved, expected)
