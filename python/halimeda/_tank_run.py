"""A tank through time: samples, harvests and books."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, fields
from typing import TYPE_CHECKING, Any, ClassVar, TypeAlias, cast

import numpy as np

from halimeda import _native
from halimeda._errors import HalimedaValueError
from halimeda._record import Record, built
from halimeda._tank_setup import Dosing, Event

if TYPE_CHECKING:
    import numpy.typing as npt
    import pandas
    import polars
    import xarray

    from halimeda._tank import Tank

FloatArray: TypeAlias = "npt.NDArray[np.float64]"
BoolArray: TypeAlias = "npt.NDArray[np.bool_]"
TimeArray: TypeAlias = "npt.NDArray[np.datetime64]"

# Standard names of the CF conventions, of quantities with the same dimensions.
_CF = {
    "alkalinity_umol_per_kg": (
        "sea_water_alkalinity_per_unit_mass_expressed_as_mole_equivalent"
    ),
    "inorganic_carbon_umol_per_kg": (
        "moles_of_dissolved_inorganic_carbon_per_unit_mass_in_sea_water"
    ),
    "ph_total": "sea_water_ph_reported_on_total_scale",
    "oxygen_umol_per_kg": "moles_of_oxygen_per_unit_mass_in_sea_water",
    "oxygen_saturation": "fractional_saturation_of_oxygen_in_sea_water",
    "practical_salinity": "sea_water_practical_salinity",
}

# As UDUNITS writes them.
_UDUNITS = {
    "µmol/kg": "umol kg-1",
    "mg/L": "mg L-1",
    "g/m²": "g m-2",
    "mol/mol": "1",
    "total scale": "1",
}


@dataclass(frozen=True)
class Harvest(Record):
    """A harvest that took place.

    Attributes
    ----------
    day : float
        Time since the start, d.
    carbon_mol, nitrogen_mol, phosphorus_mol : float
        What was taken off the screen, mol.
    dry_grams, drained_grams : float
        Its mass, dry and after draining, g.
    fed_back_share : float
        Share of it fed back to the animals.
    """

    day: float
    carbon_mol: float
    nitrogen_mol: float
    phosphorus_mol: float
    dry_grams: float
    drained_grams: float
    fed_back_share: float

    @staticmethod
    def _plain(plain: Mapping[str, Any]) -> Mapping[str, Any]:
        outer = {name: plain[name] for name in ("day", "fed_back_share")}
        return {**plain["harvest"], **outer}


@dataclass(frozen=True)
class Effort(Record):
    """What the integration cost: steps taken and rejected, evaluations of rates."""

    steps: int
    rejected: int
    evaluations: int


@dataclass(frozen=True)
class Closure(Record):
    """How far books are from closing.

    Attributes
    ----------
    unexplained : float
        Change that no process accounts for, in the unit of the stock, or mol.
    throughput : float
        Sum of the sizes of everything that flowed.
    """

    unexplained: float
    throughput: float

    @property
    def relative(self) -> float:
        """What is unexplained per throughput."""
        per = self.throughput if self.throughput > 0.0 else 1.0
        return abs(self.unexplained) / per


@dataclass(frozen=True, eq=False, repr=False)
class Ledger:
    """What every process brought to and took from every stock over a run.

    Attributes
    ----------
    stocks, processes, elements : tuple of str
        Names, in the order of the arrays.
    units : dict of str to str
        Unit of each stock.
    before, after : array of float
        Shape (stocks,): the stocks at the start and the end of the books.
    entries : array of float
        Shape (processes, stocks): what a process brought to a stock (positive) or took from it (negative).
    crossed : array of float
        Shape (processes, elements): what a process brought in of an element, mol; zero for what stays
        within.
    """

    before: FloatArray
    after: FloatArray
    entries: FloatArray
    crossed: FloatArray
    stock_unexplained: FloatArray
    stock_throughput: FloatArray
    element_unexplained: FloatArray
    element_throughput: FloatArray

    @property
    def stocks(self) -> tuple[str, ...]:
        """Names of the stocks."""
        return tuple(name for name, _ in _native.stocks()[0])

    @property
    def units(self) -> dict[str, str]:
        """Unit of each stock."""
        return dict(_native.stocks()[0])

    @property
    def processes(self) -> tuple[str, ...]:
        """Names of the processes."""
        return tuple(_native.stocks()[1])

    @property
    def elements(self) -> tuple[str, ...]:
        """Names of the elements."""
        return tuple(_native.stocks()[2])

    def entry(self, process: str, stock_or_element: str) -> float:
        """Return what a process brought to a stock, or into the tank of an element.

        Parameters
        ----------
        process : str
            One of `processes`.
        stock_or_element : str
            One of `stocks`, or one of `elements` (mol).

        Returns
        -------
        float
            Positive for what came, negative for what went.

        Raises
        ------
        HalimedaValueError
            There is no such process, stock or element.
        """
        row = place("process", process, self.processes)
        # "calcium" is both: the water's is what is dissolved in it.
        if stock_or_element in self.stocks:
            return float(self.entries[row, self.stocks.index(stock_or_element)])
        known = self.stocks + self.elements
        place("stock or element", stock_or_element, known)
        return float(self.crossed[row, self.elements.index(stock_or_element)])

    def closure(self, stock_or_element: str) -> Closure:
        """Return how far the books of a stock, or of an element over all stocks, close.

        For ``"calcium"``, ``"magnesium"`` and ``"strontium"``, which are both, it is
        the stock that is meant; the other is in `element_closure`.

        Parameters
        ----------
        stock_or_element : str
            One of `stocks` or `elements`.

        Raises
        ------
        HalimedaValueError
            There is no such stock or element.
        """
        if stock_or_element in self.stocks:
            at = self.stocks.index(stock_or_element)
            return Closure(
                float(self.stock_unexplained[at]), float(self.stock_throughput[at])
            )
        place("stock or element", stock_or_element, self.stocks + self.elements)
        return self.element_closure(stock_or_element)

    def element_closure(self, element: str) -> Closure:
        """Return how far the books of an element over all stocks close.

        Parameters
        ----------
        element : str
            One of `elements`.

        Raises
        ------
        HalimedaValueError
            There is no such element.
        """
        at = place("element", element, self.elements)
        return Closure(
            float(self.element_unexplained[at]), float(self.element_throughput[at])
        )

    def to_pandas(self, *, by: str = "stock") -> pandas.DataFrame:
        """Return the entries as a table, one row per process.

        Parameters
        ----------
        by : {"stock", "element"}
            Columns.

        Raises
        ------
        HalimedaValueError
            It is neither.
        """
        import pandas

        if place("by", by, ("stock", "element")) == 0:
            values, columns, units = self.entries, self.stocks, self.units
        else:
            values, columns = self.crossed, self.elements
            units = dict.fromkeys(columns, "mol")
        frame = pandas.DataFrame(
            values.copy(),
            index=pandas.Index(self.processes, name="process"),
            columns=pandas.Index(columns, name=by),
        )
        frame.attrs["units"] = units
        return frame

    def __eq__(self, other: object) -> bool:
        return equal(self, other)

    __hash__: ClassVar[None] = None  # type: ignore[assignment]

    def __repr__(self) -> str:
        worst = max(self.element_closure(e).relative for e in self.elements)
        return f"<Ledger: {len(self.processes)} processes × {len(self.stocks)} stocks, closes to {worst:.0e}>"

    def _repr_html_(self) -> str:
        from halimeda._table import table

        shown = ("nitrogen", "phosphorus", "carbon")
        columns = [self.elements.index(element) for element in shown]
        rows = [
            (process, *(1e3 * float(row[column]) for column in columns))
            for process, row in zip(self.processes, self.crossed, strict=True)
            if any(abs(row[column]) > 0.0 for column in columns)
        ]
        heads = ("process", *(f"{element}, mmol" for element in shown))
        return table("What came into the tank (and, negative, left it)", heads, rows)


@dataclass(frozen=True, eq=False, repr=False)
class Run:
    """What a run gave: the tank on a grid in time, harvests and books.

    Every array has one entry per sample and cannot be written to.

    Attributes
    ----------
    days : array of float
        Time since the start, d.
    ph_total : array of float
        pH, total scale.
    alkalinity_umol_per_kg, inorganic_carbon_umol_per_kg : array of float
        Total alkalinity and dissolved inorganic carbon, µmol/kg.
    carbon_dioxide_umol_per_kg : array of float
        Dissolved CO2, µmol/kg.
    aragonite_saturation : array of float
        Saturation state of aragonite.
    oxygen_umol_per_kg, oxygen_saturation : array of float
        Dissolved oxygen, µmol/kg, and as share of saturation under the room's air.
    nitrate_mg_per_l, phosphate_mg_per_l : array of float
        Nitrate as NO3 and phosphate as PO4, mg/L.
    ammonia_mg_n_per_l, unionised_ammonia_mg_per_l : array of float
        Total ammonia as N and un-ionised ammonia as NH3, mg/L: mg per L.
    calcium_mg_per_l, magnesium_mg_per_l : array of float
        Calcium and magnesium, mg/L.
    practical_salinity : array of float
        Practical salinity.
    turf_g_dry_per_m2 : array of float
        Turf, g of dry mass per m² of lit area.
    turf_nitrogen_per_carbon, turf_phosphorus_per_carbon : array of float
        Nitrogen and phosphorus of the turf, mol per mol of carbon.
    turf_cover, turf_reserve : array of float
        Share of the screen that carries turf; reserve of the holdfast layer, 0 to 1.
    screen_lit, display_lit : array of bool
        Whether the screen and the display are lit.
    harvests : tuple of Harvest
        Harvests that took place.
    events : tuple of Event
        Dated events that took place.
    dosing : Dosing
        The dosing, as adjusted, in the mean over the days with books.
    ledger : Ledger
        The books.
    effort : Effort
        What the integration cost.
    tank : Tank
        The tank that was followed.
    """

    tank: Tank
    days: FloatArray
    ph_total: FloatArray
    alkalinity_umol_per_kg: FloatArray
    inorganic_carbon_umol_per_kg: FloatArray
    carbon_dioxide_umol_per_kg: FloatArray
    aragonite_saturation: FloatArray
    oxygen_umol_per_kg: FloatArray
    oxygen_saturation: FloatArray
    nitrate_mg_per_l: FloatArray
    phosphate_mg_per_l: FloatArray
    ammonia_mg_n_per_l: FloatArray
    unionised_ammonia_mg_per_l: FloatArray
    calcium_mg_per_l: FloatArray
    magnesium_mg_per_l: FloatArray
    practical_salinity: FloatArray
    turf_g_dry_per_m2: FloatArray
    turf_nitrogen_per_carbon: FloatArray
    turf_phosphorus_per_carbon: FloatArray
    turf_cover: FloatArray
    turf_reserve: FloatArray
    screen_lit: BoolArray
    display_lit: BoolArray
    harvests: tuple[Harvest, ...]
    events: tuple[Event, ...]
    dosing: Dosing
    ledger: Ledger
    effort: Effort

    @property
    def samples(self) -> dict[str, FloatArray | BoolArray]:
        """Every column by its name, without the days."""
        names = [*variable_units(), "screen_lit", "display_lit"]
        return {name: getattr(self, name) for name in names}

    @property
    def units(self) -> dict[str, str]:
        """Unit of every column of numbers; ``"1"`` for a share or a ratio."""
        return variable_units()

    @property
    def times(self) -> TimeArray | None:
        """Moments of the samples, or None if the tank has no start.

        Of universal time if the tank has a time zone, else of its own clock. A
        simulated day has 24 hours: an hour that summer time skips is the moment of
        the skip.
        """
        return self.tank.times(self.days)

    def to_pandas(self) -> pandas.DataFrame:
        """Return the samples as a DataFrame.

        The index is the time, in the zone of the tank, or the day where the tank has
        no start; ``attrs["units"]`` has the units.
        """
        import pandas

        times = self.times
        if times is None:
            index = pandas.Index(self.days.copy(), name="day")
            frame = pandas.DataFrame(self.samples, index=index)
        else:
            stamps = pandas.DatetimeIndex(times, name="time")
            zone = self.tank.time_zone
            if zone is not None:
                stamps = stamps.tz_localize("UTC").tz_convert(zone)
            frame = pandas.DataFrame({"day": self.days, **self.samples}, index=stamps)
        frame.attrs["units"] = {"day": "d", **self.units}
        return frame

    def to_polars(self) -> polars.DataFrame:
        """Return the samples as a polars DataFrame, with a column ``time`` if dated."""
        import polars

        frame = polars.DataFrame({"day": self.days, **self.samples})
        times = self.times
        if times is None:
            return frame
        stamps = polars.Series("time", times).cast(polars.Datetime("ms"))
        zone = self.tank.time_zone
        if zone is not None:
            stamps = stamps.dt.replace_time_zone("UTC").dt.convert_time_zone(zone)
        return frame.insert_column(0, stamps)

    def to_xarray(self) -> xarray.Dataset:
        """Return the samples as a Dataset along ``time``.

        Units are written as UDUNITS does, and names are standard names of CF where it
        has one. The coordinate is of universal time if the tank has a zone; ``day`` is
        a coordinate along it, or the coordinate itself where the tank has no start.
        """
        import xarray

        times = self.times
        along = "day" if times is None else "time"
        day = (
            along,
            self.days.copy(),
            {"units": "d", "long_name": "time since the start"},
        )
        coordinates: dict[str, Any] = {"day": day}
        if times is not None:
            zone = self.tank.time_zone
            told = {"standard_name": "time"} | ({"time_zone": zone} if zone else {})
            coordinates["time"] = (along, times.astype("datetime64[ns]"), told)
        columns: dict[str, Any] = {}
        for name, values in self.samples.items():
            columns[name] = (along, values.copy(), cf_attributes(name))
        return xarray.Dataset(
            columns, coords=coordinates, attrs={"title": self.tank.name}
        )

    def to_dict(self) -> dict[str, Any]:
        """Return days, columns, harvests, events and dosing as plain values."""
        return {
            "days": self.days.tolist(),
            "samples": {name: column.tolist() for name, column in self.samples.items()},
            "harvests": [harvest.to_dict() for harvest in self.harvests],
            "events": [event.to_dict() for event in self.events],
            "dosing": self.dosing.to_dict(),
        }

    def __len__(self) -> int:
        return len(self.days)

    def __eq__(self, other: object) -> bool:
        return equal(self, other)

    __hash__: ClassVar[None] = None  # type: ignore[assignment]

    def __repr__(self) -> str:
        return (
            f"<Run of {self.tank.name!r}: {self.days[-1]:g} days, {len(self)} samples, "
            f"{len(self.harvests)} harvests>"
        )

    def _repr_html_(self) -> str:
        from halimeda._table import table

        rows: list[tuple[object, ...]] = []
        for name, unit in self.units.items():
            column = getattr(self, name)
            numbers = (column[0], column[-1], column.min(), column.max())
            rows.append((name, *map(float, numbers), "" if unit == "1" else unit))
        heads = ("", "first", "last", "least", "most", "unit")
        caption = f"{self.tank.name}, {self.days[-1]:g} days"
        return table(caption, heads, rows)


def variable_units() -> dict[str, str]:
    """Return the unit of every number of a sample, by its name."""
    return {name: unit for name, unit, _ in _native.variables()}


def column_of(variable: str) -> str:
    """Return the column that answers call otherwise."""
    return next(name for name, _, called in _native.variables() if called == variable)


def run_of(tank: Tank, native: Mapping[str, Any]) -> Run:
    """Build a run from what the native half hands over."""
    records = json.loads(native["records"])
    columns = {"days": native["days"], **native["samples"]}
    for column in (*columns.values(), *native["ledger"].values()):
        column.flags.writeable = False
    return Run(
        tank=tank,
        **columns,
        harvests=tuple(built(Harvest, harvest) for harvest in records["harvests"]),
        events=tuple(built(Event, event) for event in records["events"]),
        dosing=built(Dosing, records["dosing"]),
        ledger=Ledger(**native["ledger"]),
        effort=built(Effort, records["effort"]),
    )


def equal(one: Any, other: object) -> bool:
    """Tell whether two results of a kind hold the same, arrays among it."""
    if type(one) is not type(other):
        return False
    names = [field.name for field in fields(cast(Any, one))]
    return all(_same(getattr(one, name), getattr(other, name)) for name in names)


def _same(a: Any, b: Any) -> bool:
    if isinstance(a, np.ndarray):
        array = cast("npt.NDArray[Any]", a)
        return np.array_equal(array, b, equal_nan=array.dtype.kind == "f")
    if isinstance(a, dict):
        one = cast("dict[str, Any]", a)
        return one.keys() == b.keys() and all(_same(one[key], b[key]) for key in one)
    return bool(a == b)


def cf_attributes(name: str) -> dict[str, str]:
    """Return long name, unit and, where CF has one, standard name of a column."""
    attributes = {"long_name": name.replace("_", " ")}
    unit = variable_units().get(name)
    if unit is not None:
        attributes["units"] = _UDUNITS.get(unit, unit)
    if name in _CF:
        attributes["standard_name"] = _CF[name]
    return attributes


def place(what: str, name: str, known: tuple[str, ...]) -> int:
    """Find a name among those there are, or say which was probably meant."""
    if name in known:
        return known.index(name)
    import difflib

    near = difflib.get_close_matches(str(name), known, n=1, cutoff=0.4)
    meant = f"; did you mean {near[0]!r}?" if near else ""
    message = f"there is no {what} {name!r}{meant}"
    raise HalimedaValueError(message, input=what, kind="unknown_name")
