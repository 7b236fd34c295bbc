"""Parameters of the tank model, and how uncertain they are."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any, cast

from halimeda import _native
from halimeda._errors import HalimedaTypeError, HalimedaValueError
from halimeda._record import Record


@dataclass(frozen=True)
class ParameterInfo(Record):
    """What is known of a parameter before anything was measured in the tank.

    Attributes
    ----------
    name : str
        Group and name, as in ``"turf.reserve_days"``.
    unit : str
        Unit of the numbers.
    default, low, high : float
        Default value, and the range in which it is uncertain.
    source : str
        Where value and range come from.
    """

    name: str
    unit: str
    default: float
    low: float
    high: float
    source: str


@cache
def _infos() -> dict[str, ParameterInfo]:
    infos = (ParameterInfo(*info) for info in _native.parameter_infos())
    return {info.name: info for info in infos}


def _known(name: object) -> str:
    if isinstance(name, str) and name in _infos():
        return name
    import difflib

    near = difflib.get_close_matches(str(name), _infos(), n=1)
    meant = f"; did you mean {near[0]!r}?" if near else ""
    message = f"no parameter is called {name!r}{meant}"
    raise HalimedaValueError(message, input=str(name), kind="unknown_parameter")


def _number(name: str, value: Any) -> float:
    if isinstance(value, bool) or not hasattr(value, "__float__"):
        message = f"{name} is a number of {_infos()[name].unit}, not {value!r}"
        raise HalimedaTypeError(message, input=name, kind="wrong_type")
    number = float(value)
    if not math.isfinite(number):
        message = f"{name} is {number}, not a finite number"
        raise HalimedaValueError(message, input=name, value=number, kind="non_finite")
    return number


class Parameters(Mapping[str, float]):
    """Every parameter of the tank model, by group and name.

    Parameters
    ----------
    changed : mapping of str to float, optional
        Parameters that differ from their defaults, each in the unit that
        `Parameters.infos` gives for it.

    Raises
    ------
    HalimedaValueError
        No parameter has a name, or a number is not finite.

    Examples
    --------
    >>> import halimeda as hm
    >>> parameters = hm.Parameters({"turf.reserve_days": 10.0})
    >>> parameters["turf.reserve_days"]
    10.0
    >>> hm.Parameters.infos()["turf.reserve_days"].unit
    'd'
    """

    __slots__ = ("_values",)
    _values: dict[str, float]

    def __init__(self, changed: Mapping[str, float] | None = None) -> None:
        values = {name: info.default for name, info in _infos().items()}
        for name, value in (changed or {}).items():
            values[_known(name)] = _number(name, value)
        self._values = values

    @staticmethod
    def infos() -> Mapping[str, ParameterInfo]:
        """Return name, unit, default, range and source of every parameter."""
        return dict(_infos())

    def replace(self, changed: Mapping[str, float]) -> Parameters:
        """Return these parameters with some of them replaced.

        Parameters
        ----------
        changed : mapping of str to float
            The new values, each in the unit that `Parameters.infos` gives for it.

        Raises
        ------
        HalimedaValueError
            No parameter has a name, or a number is not finite.
        """
        return Parameters({**self._values, **changed})

    def changed(self) -> dict[str, float]:
        """Return those that differ from their defaults."""
        infos = _infos()
        return {n: v for n, v in self._values.items() if v != infos[n].default}

    def __getitem__(self, name: str) -> float:
        return self._values[_known(name)]

    def __contains__(self, name: object) -> bool:
        return name in self._values

    def __iter__(self) -> Iterator[str]:
        return iter(self._values)

    def __len__(self) -> int:
        return len(self._values)

    def __hash__(self) -> int:
        return hash(tuple(self._values.values()))

    def __repr__(self) -> str:
        return f"Parameters({self.changed()!r})"

    def __reduce__(self) -> tuple[object, ...]:
        return (Parameters, (self.changed(),))

    def _repr_html_(self) -> str:
        from halimeda._table import table

        rows = [
            (name, f"{value:g}", _infos()[name].unit, _infos()[name].source)
            for name, value in self._values.items()
        ]
        return table(
            "Parameters of the tank model", ("name", "value", "unit", "source"), rows
        )


@dataclass(frozen=True)
class ParameterRange(Record):
    """The range in which a parameter is uncertain.

    Half of all draws lie below the centre. A range over more than a factor of four
    is drawn in the logarithm.

    Attributes
    ----------
    low, centre, high : float
        Lower end, median and upper end, in the parameter's unit.
    """

    low: float
    centre: float
    high: float


class Ranges(Mapping[str, ParameterRange]):
    """The range of every parameter of the tank model, by group and name.

    Parameters
    ----------
    narrowed : mapping of str to float, tuple or ParameterRange, optional
        Ranges that differ from the published ones: a number for a known value, or
        low, centre and high.

    Raises
    ------
    HalimedaValueError
        No parameter has a name; or numbers are not finite, below zero or out of order.

    Examples
    --------
    >>> import halimeda as hm
    >>> ranges = hm.Ranges({"turf.reserve_days": 11.0,
    ...                     "livestock.nitrogen_retention": (0.2, 0.25, 0.3)})
    >>> ranges["turf.reserve_days"].high
    11.0
    """

    __slots__ = ("_ranges",)
    _ranges: dict[str, ParameterRange]

    def __init__(
        self,
        narrowed: Mapping[str, float | tuple[float, float, float] | ParameterRange]
        | None = None,
    ) -> None:
        ranges = {
            name: ParameterRange(info.low, info.default, info.high)
            for name, info in _infos().items()
        }
        for name, wanted in (narrowed or {}).items():
            ranges[_known(name)] = _range(name, wanted)
        self._ranges = ranges

    def replace(
        self,
        narrowed: Mapping[str, float | tuple[float, float, float] | ParameterRange],
    ) -> Ranges:
        """Return these ranges with some of them replaced.

        Parameters
        ----------
        narrowed : mapping of str to float, tuple or ParameterRange
            The new ranges: a number for a known value, or low, centre and high.

        Raises
        ------
        HalimedaValueError
            No parameter has a name; or numbers are not finite, below zero or out of
            order.
        """
        return Ranges({**self._ranges, **narrowed})

    def nominal(self) -> Parameters:
        """Return the parameters at the centre of every range."""
        return Parameters({name: r.centre for name, r in self._ranges.items()})

    def _triples(self) -> list[tuple[float, float, float]]:
        return [(r.low, r.centre, r.high) for r in self._ranges.values()]

    def __getitem__(self, name: str) -> ParameterRange:
        return self._ranges[_known(name)]

    def __contains__(self, name: object) -> bool:
        return name in self._ranges

    def __iter__(self) -> Iterator[str]:
        return iter(self._ranges)

    def __len__(self) -> int:
        return len(self._ranges)

    def __hash__(self) -> int:
        return hash(tuple(self._ranges.values()))

    def __repr__(self) -> str:
        published = Ranges()._ranges
        other = {
            name: (r.low, r.centre, r.high)
            for name, r in self._ranges.items()
            if r != published[name]
        }
        return f"Ranges({other!r})"

    def __reduce__(self) -> tuple[object, ...]:
        return (Ranges, (self._ranges,))


def _range(name: str, wanted: object) -> ParameterRange:
    if isinstance(wanted, ParameterRange):
        numbers: tuple[object, ...] = (wanted.low, wanted.centre, wanted.high)
    elif isinstance(wanted, (tuple, list)):
        numbers = tuple(cast("Sequence[object]", wanted))
    else:
        numbers = (wanted,) * 3
    if len(numbers) != 3:
        message = f"the range of {name} is low, centre and high, not {wanted!r}"
        raise HalimedaTypeError(message, input=name, kind="wrong_type")
    low, centre, high = (_number(name, number) for number in numbers)
    if not 0.0 <= low <= centre <= high:
        message = (
            f"the range of {name} is {low}, {centre}, {high}; low, centre and high "
            "come in this order, none below zero"
        )
        raise HalimedaValueError(message, input=name, value=centre, kind="out_of_range")
    return ParameterRange(low, centre, high)
