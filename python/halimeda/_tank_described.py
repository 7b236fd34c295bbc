"""A reef tank as its description says."""

# The modules of a tank know each other, and hold what comes from without to its kind.
# pyright: reportPrivateUsage=false, reportUnnecessaryIsInstance=false

from __future__ import annotations

import json
import os
from collections.abc import Mapping
from functools import cached_property
from typing import TYPE_CHECKING, Any, Self, TypeVar

from halimeda import _native
from halimeda._errors import HalimedaTypeError, HalimedaValueError
from halimeda._record import built
from halimeda._tank_parameters import Parameters, Ranges
from halimeda._tank_setup import Assumption, Goals, Schedule, Screen, StandingTank

if TYPE_CHECKING:
    import datetime

    from halimeda._tank_run import TimeArray

T = TypeVar("T", bound="DescribedTank")


class DescribedTank:
    """What a description says, and changed copies of it."""

    def __init__(self, **tables: Any) -> None:
        self._read(_native.written_toml(tables))

    @classmethod
    def from_toml(cls, source: str | bytes | os.PathLike[str]) -> Self:
        """Read a description.

        Parameters
        ----------
        source : str, bytes or path
            Path of a file, or the text itself: a string with a line break or an
            equals sign is text.

        Raises
        ------
        DescriptionError
            Everything that is wrong with it, each with its place, what was found and
            what was expected.
        OSError
            The file cannot be read.
        """
        if isinstance(source, str):
            is_text = "\n" in source or "=" in source or not source.strip()
            content = source.encode() if is_text else content_of(source)
        elif isinstance(source, bytes):
            content = source
        elif isinstance(source, os.PathLike):
            content = content_of(source)
        else:
            message = f"a description is a path or text, not {type(source).__name__}"
            raise HalimedaTypeError(message, input="source", kind="wrong_type")
        return cls._of(content)

    @classmethod
    def from_dict(cls, tables: Mapping[str, Any]) -> Self:
        """Read a description from its tables, as `to_dict` gives them."""
        return cls(**tables)

    @classmethod
    def _of(cls, content: str | bytes) -> Self:
        tank = cls.__new__(cls)
        tank._read(content)
        return tank

    def _read(self, content: str | bytes) -> None:
        toml = content.encode() if isinstance(content, str) else content
        self._native = _native.Description(toml)
        self._toml = toml.decode("utf-8-sig")
        self._planned: tuple[str, float] | None = None
        self._facts: dict[str, Any] = json.loads(self._native.facts())

    def _with_setup(self, setup: str, from_day: float = 0.0) -> Self:
        """Return the same tank under another setup, counting days from a later one."""
        tank = type(self).__new__(type(self))
        tank._native = self._native.with_setup(setup, from_day)
        tank._toml = self._toml
        tank._planned = (setup, from_day)
        tank._facts = json.loads(tank._native.facts())
        return tank

    def _written(self) -> str:
        if self._planned is None:
            return self._toml
        message = (
            "the tank of a plan or a fit has no description of its own; change that of "
            "the tank it comes from, as in plan.present.replace(**plan.settings)"
        )
        raise HalimedaValueError(message, input="tank", kind="contradictory")

    # What it says.

    @cached_property
    def setup(self) -> StandingTank:
        """What stands there: water, air, animals and screen."""
        return built(StandingTank, self._facts["tank"])

    @cached_property
    def schedule(self) -> Schedule:
        """What comes round, and what happens once."""
        return built(Schedule, self._facts["schedule"])

    @cached_property
    def goals(self) -> Goals:
        """What the keeper wants, in the units of test kits."""
        return built(Goals, self._facts["goals"])

    @cached_property
    def assumptions(self) -> tuple[Assumption, ...]:
        """What the description leaves open, and what is assumed in its place."""
        return tuple(built(Assumption, a) for a in self._facts["assumptions"])

    @property
    def name(self) -> str:
        """Name, for reports."""
        return self.setup.name

    @property
    def net_volume_l(self) -> float:
        """Net volume of the whole system, L."""
        return self.setup.net_volume_l

    @property
    def screen(self) -> Screen:
        """The screen with its lamps and its water."""
        return self.setup.screen

    @property
    def start(self) -> datetime.date | None:
        """Day whose midnight is time 0; None where days are only counted."""
        import datetime

        text = self._facts["start"]
        return None if text is None else datetime.date.fromisoformat(text)

    @property
    def time_zone(self) -> str | None:
        """Name of the zone whose clock the schedule goes by."""
        zone: str | None = self._facts["time_zone"]
        return zone

    @property
    def horizon_days(self) -> float:
        """How far ahead to look, d."""
        return float(self._facts["horizon_days"])

    @cached_property
    def parameters(self) -> Parameters:
        """Parameters of the model, with those that the description sets."""
        return Parameters(
            dict(zip(Parameters(), self._native.parameters(), strict=True))
        )

    @cached_property
    def ranges(self) -> Ranges:
        """Ranges of the parameters, with those that the description sets."""
        return Ranges(dict(zip(Ranges(), self._native.ranges(), strict=True)))

    def times(self, days: Any) -> TimeArray | None:
        """Return moments as ``datetime64[ms]``, or None if the tank has no start.

        Parameters
        ----------
        days : array of float
            Time since the start, d.

        Returns
        -------
        ndarray of datetime64 or None
            Of universal time if the tank has a time zone, else of its own clock.
        """
        import numpy as np

        flat = np.asarray(days, dtype=np.float64)
        instants = self._native.instants(flat.ravel().tolist())
        if instants is None:
            return None
        return instants.view("datetime64[ms]").reshape(flat.shape)

    # Writing and changing.

    def to_toml(self) -> str:
        """Return the description as text: as it was read, comments and all.

        Raises
        ------
        HalimedaValueError
            The tank is that of a plan, which has no description of its own.
        """
        return self._written()

    def to_dict(self) -> dict[str, Any]:
        """Return the tables of the description, as `Tank` and `from_dict` take them."""
        import tomllib

        return tomllib.loads(self._written())

    def replace(
        self, changes: Mapping[str, Any] | None = None, /, **levers: float
    ) -> Self:
        """Return a changed copy; comments and order of the description stay.

        Parameters
        ----------
        changes : mapping of str to value, optional
            New values by the path of their key, as in ``{"screen.light.duration":
            "20 h", "feeding[2].mass": "2 g", "harvest": None}``; None takes a key
            or table out.
        **levers : float
            New settings of levers, in the units of `levers`: ``lit_hours=20.0``.
            ``screen_area`` and ``feeding`` are multiples of what they are.

        Raises
        ------
        DescriptionError
            The changed description has problems.
        HalimedaValueError
            There is no such key or lever, or the tank lacks what the lever moves.
        """
        from halimeda._tank_levers import lever_changes

        wanted = {**(changes or {}), **lever_changes(self, levers)}
        return type(self)._of(
            _native.changed_toml(self._written(), list(wanted.items()))
        )

    def __eq__(self, other: object) -> bool:
        return (
            isinstance(other, DescribedTank)
            and self._toml == other._toml
            and self._planned == other._planned
        )

    def __hash__(self) -> int:
        return hash((self._toml, self._planned))

    def __reduce__(self) -> tuple[object, ...]:
        return (_unpickled, (type(self), self._toml, self._planned))

    def __repr__(self) -> str:
        screen = self.screen
        return (
            f"<Tank {self.name!r}: {self.net_volume_l:g} L, "
            f"{screen.lit_area_m2:.3g} m² of lit screen>"
        )

    def _repr_html_(self) -> str:
        from halimeda._tank_html import tank_html

        return tank_html(self)


def _unpickled(kind: type[T], toml: str, planned: tuple[str, float] | None) -> T:
    tank = kind._of(toml)
    return tank if planned is None else tank._with_setup(*planned)


def content_of(path: str | os.PathLike[str]) -> bytes:
    """Read a file."""
    with open(path, "rb") as file:
        return file.read()
