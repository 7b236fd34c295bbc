"""A reef tank in time, from its description."""

from __future__ import annotations

import json
import os
from collections.abc import Mapping
from functools import cached_property
from typing import TYPE_CHECKING, Any

from halimeda import _native
from halimeda._errors import HalimedaTypeError, HalimedaValueError
from halimeda._progress import ProgressArgument, reported
from halimeda._record import built
from halimeda._tank_parameters import Parameters, Ranges
from halimeda._tank_setup import Assumption, Goals, Schedule, Screen, StandingTank

if TYPE_CHECKING:
    import datetime

    from halimeda._tank_run import Run, TimeArray


class Tank:
    """A tank, its schedule and its keeper's goals, as a description says.

    The description is TOML: a file, its text, or the same tables as keyword
    arguments. All three are read alike, with every quantity carrying its unit.

    Parameters
    ----------
    **tables : dict, list of dict
        The tables of a description, such as ``tank={"net_volume": "200 L", ...}``
        and ``feeding=[{"time": "09:00", "mass": "1.2 g", "kind": "pellet"}]``.

    Raises
    ------
    DescriptionError
        The description has problems; all of them are in its ``problems``.
    HalimedaTypeError
        A value is neither string, number, date, dict nor list.

    Examples
    --------
    >>> import halimeda as hm
    >>> tank = hm.example_tank()
    >>> tank.net_volume_l
    200.0
    >>> run = tank.simulate(days=30)
    >>> run.nitrate_mg_per_l.shape
    (721,)
    >>> longer = tank.replace({"screen.light.duration": "20 h"})
    >>> longer.schedule.screen_light.hours
    20.0
    """

    def __init__(self, **tables: Any) -> None:
        self._read(_native.written_toml(tables))

    @classmethod
    def from_toml(cls, source: str | bytes | os.PathLike[str]) -> Tank:
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
            content = source.encode() if is_text else _content(source)
        elif isinstance(source, bytes):
            content = source
        elif isinstance(source, os.PathLike):
            content = _content(source)
        else:
            message = f"a description is a path or text, not {type(source).__name__}"
            raise HalimedaTypeError(message, input="source", kind="wrong_type")
        return cls._of(content)

    @classmethod
    def from_dict(cls, tables: Mapping[str, Any]) -> Tank:
        """Read a description from its tables, as `to_dict` gives them."""
        return cls(**tables)

    @classmethod
    def _of(cls, content: str | bytes) -> Tank:
        tank = cls.__new__(cls)
        tank._read(content)
        return tank

    def _read(self, content: str | bytes) -> None:
        toml = content.encode() if isinstance(content, str) else content
        self._native = _native.Description(toml)
        self._toml = toml.decode("utf-8-sig")
        self._facts: dict[str, Any] = json.loads(self._native.facts())

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
        """Return the description as text: as it was read, comments and all."""
        return self._toml

    def to_dict(self) -> dict[str, Any]:
        """Return the tables of the description, as `Tank` and `from_dict` take them."""
        import tomllib

        return tomllib.loads(self._toml)

    def replace(
        self, changes: Mapping[str, Any] | None = None, /, **levers: float
    ) -> Tank:
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
        return Tank._of(_native.changed_toml(self._toml, list(wanted.items())))

    # Following it.

    def simulate(
        self,
        days: float | None = None,
        *,
        sample_every_days: float = 1.0 / 24.0,
        relative_tolerance: float = 1e-6,
        books_from_day: float = 0.0,
        parameters: Parameters | None = None,
        progress: ProgressArgument = False,
    ) -> Run:
        """Follow the tank through time.

        Parameters
        ----------
        days : float, optional
            Length of the run, d, 0 to 36525; `horizon_days` if not given.
        sample_every_days : float
            Time between samples, d, 0.0001 to 36525. Start and end are sampled in any
            case.
        relative_tolerance : float
            Relative tolerance of a step, 1e-13 to 1e-2.
        books_from_day : float
            Day from which the ledger is kept, d.
        parameters : Parameters, optional
            Parameters of the model; those of the description if not given.
        progress : bool or callable
            True for a bar, or a callable that is given a `Progress` now and then.
            Ctrl-C stops the run.

        Returns
        -------
        Run
            Samples as arrays, harvests, events and books.

        Raises
        ------
        HalimedaValueError
            A number lies outside its limits; the water leaves the range that its
            chemistry is published for; or more is taken out of a stock than it holds.
        KeyboardInterrupt
            Ctrl-C was pressed.
        """
        from halimeda._tank_run import run_of

        with reported(progress, self.name) as tell:
            native = self._native.simulate(
                self.horizon_days if days is None else days,
                sample_every_days,
                relative_tolerance,
                books_from_day,
                _values(parameters),
                tell,
            )
        return run_of(self, native)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Tank) and self._toml == other._toml

    def __hash__(self) -> int:
        return hash(self._toml)

    def __reduce__(self) -> tuple[object, ...]:
        return (Tank.from_toml, (self._toml.encode(),))

    def __repr__(self) -> str:
        screen = self.screen
        return (
            f"<Tank {self.name!r}: {self.net_volume_l:g} L, "
            f"{screen.lit_area_m2:.3g} m² of lit screen>"
        )

    def _repr_html_(self) -> str:
        from halimeda._tank_html import tank_html

        return tank_html(self)


def _content(path: str | os.PathLike[str]) -> bytes:
    with open(path, "rb") as file:
        return file.read()


def _values(parameters: Parameters | None) -> list[float] | None:
    if parameters is None:
        return None
    if not isinstance(parameters, Parameters):
        message = f"parameters are hm.Parameters, not {type(parameters).__name__}"
        raise HalimedaTypeError(message, input="parameters", kind="wrong_type")
    return list(parameters.values())


def example_tank(name: str = "invented_reef") -> Tank:
    """Return one of the tanks that come with the package.

    They are invented: nobody's tanks, and no measurement of one.

    Parameters
    ----------
    name : {"invented_reef", "invented_young_tank"}
        Which one.

    Raises
    ------
    HalimedaValueError
        There is no such tank.
    """
    examples = dict(_native.example_tanks())
    if name not in examples:
        message = f"there is no example {name!r}; there are {', '.join(examples)}"
        raise HalimedaValueError(message, input="name", kind="unknown_name")
    return Tank.from_toml(examples[name].encode())
