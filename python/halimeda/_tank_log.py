"""The keeper's log: what was measured, harvested, fed, changed and dosed."""

# The modules of a tank know each other, and hold what comes from without to its kind.
# pyright: reportPrivateUsage=false, reportUnnecessaryIsInstance=false

from __future__ import annotations

import json
import math
import os
import sys
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Any, ClassVar, cast

import numpy as np

from halimeda import _native
from halimeda._errors import HalimedaTypeError, HalimedaValueError
from halimeda._record import Record, built
from halimeda._tank import Tank
from halimeda._tank_described import content_of
from halimeda._tank_rates import Consumption, NetRate, NutrientRates
from halimeda._tank_run import FloatArray, place

if TYPE_CHECKING:
    import pandas


def measured_units() -> dict[str, str]:
    """Return the unit of everything that tests and probes measure, by its name."""
    return {name: unit for name, _, unit in _native.measured()}


@dataclass(frozen=True)
class Reading(Record):
    """Result of one test.

    Attributes
    ----------
    day : float
        Time since the start, d.
    measured : str
        What was measured: one of the names of `Log.units`.
    low, high : float
        Where the value lies that the test showed.
    standard_uncertainty : float
        Standard uncertainty of the test's error, beside the width.
    """

    day: float
    measured: str
    low: float
    high: float
    standard_uncertainty: float

    @staticmethod
    def _plain(plain: Mapping[str, Any]) -> Mapping[str, Any]:
        interval = plain["interval"]
        return {"day": plain["day"], "measured": plain["measured"], **interval}

    @property
    def middle(self) -> float:
        """Middle of the interval."""
        return 0.5 * (self.low + self.high)


@dataclass(frozen=True)
class Entry(Record):
    """Something that was done or happened.

    Attributes
    ----------
    day : float
        Time since the start, d.
    kind : str
        ``"harvest"``, ``"feeding"``, ``"water_change"``, ``"dose"``, ``"event"`` or
        ``"note"``.
    details : dict
        What belongs to it, such as ``{"litres": 20.0}``.
    """

    day: float
    kind: str
    details: dict[str, Any]

    @staticmethod
    def _plain(plain: Mapping[str, Any]) -> Mapping[str, Any]:
        record: dict[str, Any] = plain["record"]
        [(kind, told)] = record.items()
        is_named = kind != "event" and isinstance(told, dict)
        details = cast("Any", told if is_named else {kind: told})
        return {"day": plain["day"], "kind": kind, "details": details}


@dataclass(frozen=True)
class LogProblem(Record):
    """What is wrong with, or worth knowing of, a place in a log.

    Attributes
    ----------
    source : str
        The file; empty for text and columns.
    kind : str
        ``"unreadable"``, ``"missing_unit"``, ``"out_of_range"``, ``"duplicate"`` and so on.
    line, last_line : int
        First and last line it concerns, from 1; of columns the rows.
    rows : int
        Rows concerned.
    column : str
        Heading of the column; empty where the whole row is meant.
    found, expected : str
        What was found, and what was expected or, of a note, what was done.
    suggestion : str or None
        What was probably meant.
    """

    source: str
    kind: str
    line: int
    last_line: int
    rows: int
    column: str
    found: str
    expected: str
    suggestion: str | None


@dataclass(frozen=True, eq=False, repr=False)
class Probe:
    """What one probe recorded.

    Attributes
    ----------
    measured : str
        What it measures: one of the names of `Log.units`.
    days, values : array of float
        Times since the start, d, ascending, and values in the unit of `Log.units`.
    """

    measured: str
    days: FloatArray
    values: FloatArray

    def __repr__(self) -> str:
        return f"<Probe of {self.measured}: {len(self.days)} records>"


class Log:
    """What a keeper wrote down and what probes recorded, in order of time.

    Made by `Log.read`. Days are counted since the start of the tank's description, by
    the clock on the wall.

    Attributes
    ----------
    tank : Tank
        The tank it is about.
    readings : tuple of Reading
        Results of tests.
    probes : tuple of Probe
        Records of probes.
    entries : tuple of Entry
        What was done and what happened.
    rejected : tuple of LogProblem
        Every row, cell or column that was not read; nothing is left out without a word.
    notes : tuple of LogProblem
        What was read and is worth a look: assumptions, doubtful times, repeats.
    """

    def __init__(
        self,
        tank: Tank,
        native: _native.KeeperLog,
        rejected: Sequence[LogProblem] = (),
        notes: Sequence[LogProblem] = (),
    ) -> None:
        self.tank = tank
        self._native = native
        self.rejected: tuple[LogProblem, ...] = tuple(rejected)
        self.notes: tuple[LogProblem, ...] = tuple(notes)

    @classmethod
    def read(cls, source: Any, tank: Tank, *, probes: bool = False) -> Log:
        """Read a log beside the description of its tank.

        Parameters
        ----------
        source : str, bytes, path, DataFrame, mapping, or list of these
            A CSV file by its path, its text (a string with a line break), a pandas or
            polars DataFrame, or a mapping of headings to columns. Headings are those of
            a file, such as ``"nitrate [mg/L NO3]"``; times are a column ``time`` of
            moments or text, ``day`` of days since the start, or a pandas index of moments.
            Several are put together.
        tank : Tank
            The tank it is about.
        probes : bool
            Whether every measured column is a probe's, whether its heading says so or not.

        Returns
        -------
        Log
            What could be read, with `rejected` and `notes`.

        Raises
        ------
        HalimedaValueError
            Nothing of it can be read: no text, no header, no times.
        OSError
            The file cannot be read.
        """
        if not isinstance(tank, Tank):
            message = f"a log is read beside its Tank, not {type(tank).__name__}"
            raise HalimedaTypeError(message, input="tank", kind="wrong_type")
        if isinstance(source, (list, tuple)):
            if not source:
                message = "there is no log in an empty list"
                raise HalimedaValueError(message, input="source", kind="missing")
            several = cast("Sequence[Any]", source)
            first, *others = (cls.read(one, tank, probes=probes) for one in several)
            for other in others:
                first = first.join(other)
            return first
        name = ""
        if _is_table(source):
            native, rejected, notes = _read_columns(source, tank, probes)
        else:
            content, name = _file(source)
            native, rejected, notes = _native.read_log(content, tank._native, probes)
        return cls(tank, native, _problems(rejected, name), _problems(notes, name))

    @cached_property
    def _written(self) -> dict[str, Any]:
        written: dict[str, Any] = json.loads(self._native.written())
        return written

    @cached_property
    def readings(self) -> tuple[Reading, ...]:
        """Results of tests."""
        return tuple(built(Reading, reading) for reading in self._written["readings"])

    @cached_property
    def entries(self) -> tuple[Entry, ...]:
        """What was done and what happened."""
        return tuple(built(Entry, entry) for entry in self._written["entries"])

    @cached_property
    def probes(self) -> tuple[Probe, ...]:
        """Records of probes."""
        series = self._native.probes()
        for _, *arrays in series:
            for array in arrays:
                array.flags.writeable = False
        return tuple(Probe(*probe) for probe in series)

    @property
    def units(self) -> dict[str, str]:
        """Unit of everything that is measured; empty for pH, salinity and a share."""
        return measured_units()

    @property
    def last_day(self) -> float | None:
        """Day of the last thing in the log; None if it is empty."""
        return self._native.last_day()

    def until(self, day: float) -> Log:
        """Return what was written down no later than a day.

        Parameters
        ----------
        day : float
            The day, d since the start.

        Raises
        ------
        TypeError
            The day is no number.
        """
        return Log(self.tank, self._native.until(day), self.rejected, self.notes)

    def join(self, other: Log) -> Log:
        """Return this log and another of the same tank as one.

        What stands in both is taken once.

        Parameters
        ----------
        other : Log
            The other log.

        Raises
        ------
        HalimedaValueError
            The logs are of different tanks.
        """
        if other.tank != self.tank:
            message = "the logs are of different tanks"
            raise HalimedaValueError(message, input="other", kind="contradictory")
        native = self._native.join(other._native)
        rejected = self.rejected + other.rejected
        return Log(self.tank, native, rejected, self.notes + other.notes)

    def net_rates(self, measured: str) -> tuple[NetRate, ...]:
        """Return what the water gained between each test and the next.

        Water changes and dosing are taken out: what is left is animals, food, turf,
        bacteria and corals. A test less than six hours after another is passed over.

        Parameters
        ----------
        measured : {"nitrate", "phosphate", "ammonia", "alkalinity", "calcium", "magnesium"}
            What was measured.

        Raises
        ------
        HalimedaValueError
            There are fewer than two tests, or it has no rate of gain or loss.
        """
        rates = self._rates("net_rates", measured)
        return tuple(built(NetRate, rate) for rate in rates)

    def rate(self, measured: str, from_day: float, to_day: float) -> NetRate:
        """Return what the water gained over a stretch of days, by all tests of it.

        Parameters
        ----------
        measured : str
            As for `net_rates`.
        from_day, to_day : float
            The stretch, d since the start, both included.

        Raises
        ------
        HalimedaValueError
            There are fewer than two tests in it, or it has no rate of gain or loss.
        """
        return built(NetRate, self._rates("rate", measured, from_day, to_day))

    def nutrient_balance(self, from_day: float, to_day: float) -> NutrientRates:
        """Return the nitrogen and phosphorus that the water gained over some days.

        Parameters
        ----------
        from_day, to_day : float
            The stretch, d since the start, both included.

        Raises
        ------
        HalimedaValueError
            Neither nitrate nor phosphate has two tests in them.
        """
        rates = self._rates("balance", "nitrate", from_day, to_day)
        return built(NutrientRates, rates)

    def consumption(self, from_day: float, to_day: float) -> Consumption:
        """Return what was used up of alkalinity, calcium and magnesium over some days.

        Parameters
        ----------
        from_day, to_day : float
            The stretch, d since the start, both included.

        Raises
        ------
        HalimedaValueError
            Alkalinity has fewer than two tests in them.
        """
        used = self._rates("consumption", "alkalinity", from_day, to_day)
        return built(Consumption, used)

    def _rates(
        self,
        question: str,
        measured: str,
        from_day: float = -math.inf,
        to_day: float = math.inf,
    ) -> Any:
        place("measured", measured, tuple(self.units))
        told = _native.log_rates(
            question, self.tank._native, self._native, measured, from_day, to_day
        )
        return json.loads(told)

    def to_csv(self, path: str | os.PathLike[str] | None = None) -> str:
        """Return a clean copy, which reads back to the same log, and write it.

        Parameters
        ----------
        path : str or path, optional
            File to write.

        Raises
        ------
        OSError
            The file cannot be written.
        """
        text = self._native.to_csv(self.tank._native)
        if path is not None:
            with open(path, "w", encoding="utf-8", newline="") as file:
                file.write(text)
        return text

    def to_pandas(self, measured: str | None = None) -> pandas.DataFrame:
        """Return the readings as a DataFrame, one row each.

        Parameters
        ----------
        measured : str, optional
            Only those of one thing that is measured.

        Raises
        ------
        HalimedaValueError
            It is nothing that is measured.
        """
        import pandas

        if measured is not None:
            place("measured", measured, tuple(self.units))
        rows = [
            {**reading.to_dict(), "middle": reading.middle}
            for reading in self.readings
            if measured in (None, reading.measured)
        ]
        columns = ["day", "measured", "low", "high", "standard_uncertainty", "middle"]
        frame = pandas.DataFrame(rows, columns=columns)
        times = self.tank.times(frame["day"].to_numpy(dtype=float))
        if times is not None:
            stamps = pandas.DatetimeIndex(times, name="time")
            if self.tank.time_zone is not None:
                stamps = stamps.tz_localize("UTC").tz_convert(self.tank.time_zone)
            frame.index = stamps
        frame.attrs["units"] = self.units
        return frame

    def to_dict(self) -> dict[str, Any]:
        """Return readings, probes, entries, rejections and notes as plain values."""
        return {
            "readings": [reading.to_dict() for reading in self.readings],
            "probes": [
                {
                    "measured": probe.measured,
                    "days": probe.days.tolist(),
                    "values": probe.values.tolist(),
                }
                for probe in self.probes
            ],
            "entries": [entry.to_dict() for entry in self.entries],
            "rejected": [problem.to_dict() for problem in self.rejected],
            "notes": [note.to_dict() for note in self.notes],
        }

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Log):
            return NotImplemented
        return (
            self.tank == other.tank
            and self._written == other._written
            and len(self.probes) == len(other.probes)
            and all(
                a.measured == b.measured
                and np.array_equal(a.days, b.days)
                and np.array_equal(a.values, b.values)
                for a, b in zip(self.probes, other.probes, strict=True)
            )
        )

    __hash__: ClassVar[None] = None  # type: ignore[assignment]

    def __reduce__(self) -> tuple[object, ...]:
        state = (self.tank, self._native.written(), self._native.probes())
        return (_unpickled, (*state, self.rejected, self.notes))

    def __repr__(self) -> str:
        parts = [f"{len(self.readings)} readings", f"{len(self.entries)} entries"]
        if self.probes:
            records = sum(len(probe.days) for probe in self.probes)
            parts.append(f"{records} probe records")
        if self.rejected:
            parts.append(f"{len(self.rejected)} rejected")
        return f"<Log of {self.tank.name!r}: {', '.join(parts)}>"

    def _repr_html_(self) -> str:
        from halimeda._tank_log_html import log_html

        return log_html(self)


def _unpickled(
    tank: Tank,
    written: str,
    probes: list[tuple[str, FloatArray, FloatArray]],
    rejected: Sequence[LogProblem],
    notes: Sequence[LogProblem],
) -> Log:
    return Log(tank, _native.KeeperLog(written, probes), rejected, notes)


def _problems(told: str, source: str) -> list[LogProblem]:
    return [built(LogProblem, {**p, "source": source}) for p in json.loads(told)]


def _file(source: object) -> tuple[bytes, str]:
    if isinstance(source, bytes):
        return source, ""
    if isinstance(source, str):
        if "\n" in source or "\r" in source or not source.strip():
            return source.encode(), ""
        return content_of(source), source
    if isinstance(source, os.PathLike):
        path = cast("os.PathLike[str]", source)
        return content_of(path), os.fspath(path)
    message = (
        "a log is a path, text, a DataFrame or a mapping of columns, not "
        f"{type(source).__name__}"
    )
    raise HalimedaTypeError(message, input="source", kind="wrong_type")


def _is_table(source: object) -> bool:
    if isinstance(source, Mapping):
        return True
    frames = (("pandas", "DataFrame"), ("polars", "DataFrame"))
    kinds = (getattr(sys.modules.get(name), kind, None) for name, kind in frames)
    return isinstance(source, tuple(kind for kind in kinds if kind is not None))


def _read_columns(
    source: Any, tank: Tank, probes: bool
) -> tuple[_native.KeeperLog, str, str]:
    columns = _columns(source)
    by_name = {heading.split("[")[0].strip().casefold(): heading for heading in columns}
    if "day" in by_name:
        kind, times = "days", np.require(
            columns.pop(by_name["day"]), np.float64, ["C", "A"]
        )
    elif "time" in by_name:
        found = _moments(columns[by_name["time"]])
        if found is None:
            # Times as text are read as those of a file are.
            return _native.read_log(_as_csv(columns), tank._native, probes)
        del columns[by_name["time"]]
        kind, times = found
    else:
        message = "the columns have no `time` and no `day`"
        raise HalimedaValueError(message, input="time", kind="missing")
    cells = [(heading, _cells(column)) for heading, column in columns.items()]
    return _native.read_log_columns(kind, times, cells, tank._native, probes)


def _columns(source: Any) -> dict[str, Any]:
    columns: dict[str, Any] = {}
    pandas = sys.modules.get("pandas")
    if (
        pandas is not None
        and isinstance(source, pandas.DataFrame)
        and isinstance(source.index, pandas.DatetimeIndex)
    ):
        columns["time"] = source.index
    is_mapping = isinstance(source, Mapping)
    headings: Iterable[Any] = cast("Any", source) if is_mapping else source.columns
    for heading in headings:
        columns[str(heading)] = source[heading]
    return columns


def _moments(column: Any) -> tuple[str, Any] | None:
    """Tell moments as nanoseconds, of universal time where they have a zone."""
    zoned = None
    pandas = sys.modules.get("pandas")
    if pandas is not None and isinstance(column, (pandas.Series, pandas.DatetimeIndex)):
        index = pandas.DatetimeIndex(column) if column.dtype.kind == "M" else None
        if index is None:
            return None
        zoned = index.tz is not None
        values = (
            index.tz_convert("UTC").tz_localize(None) if zoned else index
        ).to_numpy()
    elif hasattr(column, "dtype") and hasattr(column.dtype, "time_zone"):
        zoned = column.dtype.time_zone is not None
        values = column.dt.cast_time_unit("ns").to_numpy()
    else:
        values = np.asarray(column)
        if values.dtype == object and len(values):
            values, zoned = _datetimes(values)
    if values.dtype.kind != "M":
        return None
    nanoseconds = values.astype("datetime64[ns]").astype(np.int64)
    return ("utc" if zoned else "clock"), np.ascontiguousarray(nanoseconds)


def _datetimes(values: Any) -> tuple[Any, bool]:
    import datetime

    if not all(isinstance(value, datetime.datetime) for value in values):
        return values, False
    zoned = {value.tzinfo is not None for value in values}
    if len(zoned) > 1:
        message = "some moments of `time` have a zone and some have none"
        raise HalimedaValueError(message, input="time", kind="ambiguous")
    naive = [
        v.astimezone(datetime.UTC).replace(tzinfo=None) if v.tzinfo else v
        for v in values
    ]
    return np.array(naive, dtype="datetime64[ns]"), zoned.pop()


def _cells(column: Any) -> Any:
    kind = getattr(getattr(column, "dtype", None), "kind", "O")
    if kind in "fiu" and hasattr(column, "to_numpy"):
        return np.require(column.to_numpy(np.float64, na_value=np.nan), None, ["C", "A"])
    if kind in "fiu":
        return np.require(column, np.float64, ["C", "A"])
    values = list(column)
    numbers = [value for value in values if not _is_blank(value)]
    if numbers and all(_is_number(value) for value in numbers):
        return np.array([np.nan if _is_blank(v) else float(v) for v in values])
    return [None if _is_blank(value) else str(value) for value in values]


def _is_number(value: object) -> bool:
    return isinstance(value, (int, float, np.integer, np.floating)) and not isinstance(
        value, bool
    )


def _is_blank(value: Any) -> bool:
    if value is None or isinstance(value, str):
        return value is None
    try:
        # NaN and NaT are not equal to themselves.
        return bool(value != value)  # noqa: PLR0124
    except TypeError:
        # Nor is the NA of pandas, which is neither true nor false.
        return True


def _as_csv(columns: Mapping[str, Any]) -> bytes:
    import csv
    import io

    lists = [list(column) for column in columns.values()]
    text = io.StringIO()
    writer = csv.writer(text)
    writer.writerow(columns)
    for row in zip(*lists, strict=True):
        writer.writerow(["" if _is_blank(value) else value for value in row])
    return text.getvalue().encode()
