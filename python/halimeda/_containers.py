"""Arrays in the containers of other packages, and back again.

Called by the native module only when something among the arguments is not a
number, a string or an array of float64. No optional package is imported here:
an argument can only be of a package that the caller has imported already.
"""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING, Any, Protocol

import numpy as np

from halimeda._errors import HalimedaTypeError, HalimedaValueError

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from numpy.typing import NDArray

    from halimeda._native import _Measure

# CF standard names (cfconventions.org, standard name table) of results and
# inputs; where CF has none for the quantity and its unit there is no entry.
CF_STANDARD_NAMES = {
    "ph_total": "sea_water_ph_reported_on_total_scale",
    "alkalinity_umol_per_kg": "sea_water_alkalinity_per_unit_mass_expressed_as_mole_equivalent",
    "inorganic_carbon_umol_per_kg": (
        "moles_of_dissolved_inorganic_carbon_per_unit_mass_in_sea_water"
    ),
    "partial_pressure_co2_uatm": "partial_pressure_of_carbon_dioxide_in_sea_water",
    "fugacity_co2_uatm": "fugacity_of_carbon_dioxide_in_sea_water",
    "temperature_celsius": "sea_water_temperature",
    "practical_salinity": "sea_water_practical_salinity",
    "density_kg_per_m3": "sea_water_density",
}

# Units in the spelling of UDUNITS, which CF asks for.
UDUNITS = {
    "": "1",
    "(pH)": "1",
    "(dimensionless)": "1",
    "°C": "degree_Celsius",
    "µmol/kg": "umol kg-1",
    "mol/kg": "mol kg-1",
    "µatm": "uatm",
    "ppm": "1e-6",
    "kg/m³": "kg m-3",
    "mS/cm": "mS cm-1",
    "mV/pH": "mV",
    "g/kg": "g kg-1",
    "%": "percent",
    "mg/L": "mg L-1",
    "mol/L": "mol L-1",
    "mol/d": "mol d-1",
    "kg/d": "kg d-1",
    "µmol/kg/d": "umol kg-1 d-1",
    "µmol/m²/s": "umol m-2 s-1",
    "m²/s": "m2 s-1",
    "m/s": "m s-1",
    "m/d": "m d-1",
}


class Wrapper(Protocol):
    """What results are put into."""

    def wrap(self, array: NDArray[Any], name: str, unit: str) -> Any:
        """Put one array of results into the container of the arguments."""
        ...

    def table(self, columns: Mapping[str, NDArray[Any]], units: Mapping[str, str]) -> Any:
        """Put several arrays of results into a table of the same kind."""
        ...

    def goes_with(self, other: Wrapper) -> bool:
        """Whether rows of the two are the same rows."""
        ...


def _attributes(name: str, unit: str) -> dict[str, str]:
    attributes = {"units": UDUNITS.get(unit, unit)}
    if name in CF_STANDARD_NAMES:
        attributes["standard_name"] = CF_STANDARD_NAMES[name]
    return attributes


class PandasWrapper:
    """A pandas Series with the index of the arguments."""

    def __init__(self, index: Any) -> None:
        self.index = index

    def wrap(self, array: NDArray[Any], name: str, unit: str) -> Any:
        import pandas as pd

        series = pd.Series(_flat(array), index=self.index, name=name)
        series.attrs.update(_attributes(name, unit))
        return series

    def table(self, columns: Mapping[str, NDArray[Any]], units: Mapping[str, str]) -> Any:
        import pandas as pd

        frame = pd.DataFrame(
            {name: _flat(column) for name, column in columns.items()}, index=self.index
        )
        for name in columns:
            frame[name].attrs.update(_attributes(name, units.get(name, "")))
        return frame

    def goes_with(self, other: Wrapper) -> bool:
        return isinstance(other, PandasWrapper) and self.index.equals(other.index)


class PolarsWrapper:
    """A polars Series."""

    def __init__(self, length: int) -> None:
        self.length = length

    def wrap(self, array: NDArray[Any], name: str, unit: str) -> Any:
        import polars as pl

        return pl.Series(name, _flat(array))

    def table(self, columns: Mapping[str, NDArray[Any]], units: Mapping[str, str]) -> Any:
        import polars as pl

        return pl.DataFrame({name: _flat(column) for name, column in columns.items()})

    def goes_with(self, other: Wrapper) -> bool:
        return isinstance(other, PolarsWrapper) and self.length == other.length


class XarrayWrapper:
    """An xarray DataArray with the dimensions and coordinates of the arguments."""

    def __init__(self, template: Any) -> None:
        # The coordinates without the values.
        self.dims = template.dims
        self.shape = template.shape
        self.coords = template.coords

    def wrap(self, array: NDArray[Any], name: str, unit: str) -> Any:
        import xarray as xr

        if array.shape != self.shape:
            raise HalimedaValueError(
                f"arrays without dimension names have the shape {array.shape}, which does not "
                f"go with {dict(zip(self.dims, self.shape, strict=True))}; give them as DataArray",
                input=name,
                kind="shape",
            )
        return xr.DataArray(
            array, dims=self.dims, coords=self.coords, name=name, attrs=_attributes(name, unit)
        )

    def table(self, columns: Mapping[str, NDArray[Any]], units: Mapping[str, str]) -> Any:
        import xarray as xr

        return xr.Dataset(
            {name: self.wrap(column, name, units.get(name, "")) for name, column in columns.items()}
        )

    def goes_with(self, other: Wrapper) -> bool:
        return (
            isinstance(other, XarrayWrapper)
            and self.dims == other.dims
            and self.shape == other.shape
            and all(self.coords[name].equals(other.coords[name]) for name in self.coords)
        )


def _flat(array: NDArray[Any]) -> NDArray[Any]:
    if array.ndim != 1:
        raise HalimedaValueError(
            f"a Series has one dimension, the arguments together have the shape {array.shape}",
            kind="shape",
        )
    return array


def _of(package: str, value: Any, *kinds: str) -> bool:
    """Whether a value is of one of these classes of a package, if that is imported."""
    module = sys.modules.get(package)
    return module is not None and any(
        isinstance(value, getattr(module, kind)) for kind in kinds if hasattr(module, kind)
    )


def _is(value: Any, *kinds: type) -> bool:
    """Whether a value is of one of these classes, what is in it being unknown still."""
    return isinstance(value, kinds)


def adapt(
    keywords: Sequence[str],
    measures: Sequence[_Measure],
    values: Sequence[Any],
    base: Wrapper | None,
) -> tuple[list[tuple[Any, str | None]], Wrapper | None]:
    """Turn arguments into numbers and arrays of float64 with their units.

    Parameters
    ----------
    keywords, measures, values
        Keyword of each argument, its kind of quantity, its value.
    base
        Wrapper of what the arguments join, if it has one.

    Returns
    -------
    list of (value, unit)
        A float, a string or an array of float64 each, and the unit it came with.
    wrapper
        What results are put into, None for plain arrays.
    """
    values = _broadcast_by_name(values)
    adapted: list[tuple[Any, str | None]] = []
    wrapper = base
    for keyword, measure, value in zip(keywords, measures, values, strict=True):
        plain, written, own = _plain(keyword, measure, value)
        if own is not None:
            if wrapper is not None and not wrapper.goes_with(own):
                raise HalimedaValueError(
                    f"{keyword}: its rows are not those of the other arguments (another index, "
                    "other coordinates or another kind of container)",
                    input=keyword,
                    kind="shape",
                )
            wrapper = own
        adapted.append((plain, written))
    return adapted, wrapper


def _broadcast_by_name(values: Sequence[Any]) -> Sequence[Any]:
    """Give all DataArrays the same dimensions."""
    labelled = [value for value in values if _of("xarray", value, "DataArray")]
    if not labelled:
        return values
    xr = sys.modules["xarray"]
    joined = iter(xr.broadcast(*xr.align(*labelled, join="exact", copy=False)))
    return [next(joined) if _of("xarray", value, "DataArray") else value for value in values]


def _plain(
    keyword: str, measure: _Measure, value: Any
) -> tuple[Any, str | None, Wrapper | None]:
    """One argument as a number or array, its unit, and its container."""
    if isinstance(value, str):
        return value, None, None
    if _of("xarray", value, "DataArray"):
        unit = value.attrs.get("units")
        data = value.data
        if hasattr(data, "units"):
            data, unit = _magnitude(keyword, measure, data)
        if hasattr(data, "dask"):
            raise HalimedaTypeError(
                f"{keyword}: it is a dask array; apply the function with "
                'xarray.apply_ufunc(..., dask="parallelized")',
                input=keyword,
                kind="argument",
            )
        labelled = XarrayWrapper(value) if value.ndim else None
        return _array(keyword, data), _unit(unit), labelled
    if _of("pandas", value, "Series"):
        unit = value.attrs.get("units")
        array = _array(keyword, value.to_numpy())
        return array, _unit(unit), PandasWrapper(value.index)
    if _of("polars", value, "Series"):
        array = _array(keyword, value.to_numpy())
        return array, None, PolarsWrapper(len(value))
    if hasattr(value, "magnitude") and hasattr(value, "units"):
        magnitude, unit = _magnitude(keyword, measure, value)
        plain, _, wrapper = _plain(keyword, measure, magnitude)
        return plain, unit, wrapper
    if _is(value, tuple) and len(value) == 2 and isinstance(value[1], str):
        plain, unit, wrapper = _plain(keyword, measure, value[0])
        if unit is not None:
            raise HalimedaTypeError(
                f"{keyword}: it has a unit already", input=keyword, kind="argument"
            )
        return plain, value[1], wrapper
    if _is(value, list, tuple) and value and all(isinstance(one, str) for one in value):
        return *_split(keyword, value), None
    return _array(keyword, value), None, None


def _unit(unit: Any) -> str | None:
    return None if unit is None else str(unit)


def _split(keyword: str, texts: Sequence[str]) -> tuple[NDArray[np.float64], str | None]:
    """Quantity strings, all of one unit."""
    from halimeda._native import _split_quantity

    parts = [_split_quantity(keyword, text) for text in texts]
    units = {unit for _, unit in parts}
    if len(units) > 1:
        raise HalimedaTypeError(
            f"{keyword}: its quantities have different units: {', '.join(sorted(units))}",
            input=keyword,
            kind="argument",
        )
    return np.array([number for number, _ in parts], dtype=np.float64), units.pop() or None


def _magnitude(keyword: str, measure: _Measure, quantity: Any) -> tuple[Any, str]:
    """Numbers and unit of a pint quantity."""
    units, kept_in = quantity.units, measure.kept_in
    written = f"{units:~}" if hasattr(units, "_REGISTRY") else str(units)
    if measure.knows(written):
        return quantity.magnitude, written
    try:
        target = "degC" if kept_in == "°C" else kept_in.replace("µ", "u") or "dimensionless"
        return quantity.to(target).magnitude, kept_in
    except Exception as error:
        raise HalimedaTypeError(
            f"{keyword}: {units} cannot be converted to {kept_in or 'a bare number'}",
            input=keyword,
            kind="argument",
        ) from error


def _array(keyword: str, value: Any) -> float | NDArray[np.float64]:
    """Numbers as float64; anything that is none is refused."""
    if _is(value, np.ma.MaskedArray):
        value = np.ma.filled(value.astype(np.float64), np.nan)
    try:
        array = np.asarray(value)
    except (TypeError, ValueError) as error:
        raise _no_number(keyword, value) from error
    if array.dtype.kind == "O":
        array = _objects(keyword, array)
    if array.dtype.kind not in "fiu" or array.dtype.itemsize > 8:
        raise _no_number(keyword, value)
    array = np.require(array, np.float64, ["C", "A"]) if array.ndim else array
    return float(array) if array.ndim == 0 else array


def _objects(keyword: str, array: NDArray[Any]) -> NDArray[np.float64]:
    """Numbers among objects; None and pandas' missing value are NaN."""
    missing = getattr(sys.modules.get("pandas"), "NA", None)
    numbers = np.empty(array.shape)
    for place, value in np.ndenumerate(array):
        if value is None or value is missing:
            numbers[place] = np.nan
        elif isinstance(value, (int, float, np.floating, np.integer)) and not isinstance(
            value, bool
        ):
            numbers[place] = value
        else:
            raise _no_number(keyword, value)
    return numbers


def _no_number(keyword: str, value: Any) -> HalimedaTypeError:
    return HalimedaTypeError(
        f"{keyword}: numbers are needed, not {type(value).__name__} {value!r:.60}",
        input=keyword,
        kind="argument",
    )


def columns(table: Any, keywords: Sequence[str]) -> dict[str, Any]:
    """Columns of a table that are named as keywords."""
    if _of("pandas", table, "DataFrame") or _of("polars", table, "DataFrame"):
        names = list(table.columns)
    elif _of("xarray", table, "Dataset"):
        names = [*table.data_vars, *(name for name in table.coords if name in keywords)]
    else:
        raise HalimedaTypeError(
            "the table must be a DataFrame of pandas or polars or a Dataset of xarray, not "
            f"{type(table).__name__}; single quantities are given by keyword",
            input="table",
            kind="argument",
        )
    known = set(keywords)
    return {name: table[name] for name in names if name in known}
