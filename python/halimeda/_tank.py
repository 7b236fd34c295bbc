"""A reef tank in time, from its description."""

from __future__ import annotations

import json
import math
import os
from collections.abc import Mapping, Sequence
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

    from halimeda._tank_ensemble import Ensemble
    from halimeda._tank_plan import (
        Comparison,
        Failure,
        FailureAnswers,
        HarvestAnswer,
        LightAnswer,
        Plan,
        ScreenAnswer,
    )
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
        self._planned: str | None = None
        self._facts: dict[str, Any] = json.loads(self._native.facts())

    def _with_setup(self, setup: str) -> Tank:
        """Return the same tank under the setup of a plan, which no file holds."""
        tank = Tank.__new__(Tank)
        tank._native = self._native.with_setup(setup)
        tank._toml = self._toml
        tank._planned = setup
        tank._facts = json.loads(tank._native.facts())
        return tank

    def _written(self) -> str:
        if self._planned is None:
            return self._toml
        message = (
            "a planned tank has no description of its own; change that of the tank it "
            "was planned for, as in plan.present.replace(**plan.settings)"
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
        return Tank._of(_native.changed_toml(self._written(), list(wanted.items())))

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

    def ensemble(
        self,
        days: float | None = None,
        *,
        members: int = 64,
        variables: Sequence[str] | None = None,
        window_days: float | None = None,
        sample_every_days: float = 1.0 / 12.0,
        relative_tolerance: float = 1e-4,
        ranges: Ranges | None = None,
        seed: int = 1,
        progress: ProgressArgument = False,
    ) -> Ensemble:
        """Follow the tank under many draws of what is uncertain.

        Parameters
        ----------
        days : float, optional
            Length of the runs, d; `horizon_days` if not given.
        members : int
            Draws, 1 to 65536. A power of two covers the ranges most evenly.
        variables : sequence of str, optional
            Columns of a `Run` whose quantiles are kept over time.
        window_days : float, optional
            The last part of the run that outcomes are taken from, d; 30, or all if the
            run is shorter, if not given.
        sample_every_days, relative_tolerance : float
            As for `simulate`.
        ranges : Ranges, optional
            What is uncertain, and by how much; as in the description if not given.
        seed : int
            Seed of the draws, which are the same for the same seed.
        progress : bool or callable
            As for `simulate`.

        Returns
        -------
        Ensemble
            Quantiles over time, outcomes, and the members that failed.

        Raises
        ------
        HalimedaValueError
            A number lies outside its limits, or there is no such variable.
        """
        from halimeda._tank_ensemble import KEPT, ensemble_of

        length = self.horizon_days if days is None else float(days)
        window = min(30.0, length) if window_days is None else float(window_days)
        how = {
            "members": _count("members", members),
            "seed": _count("seed", seed),
            "days": length,
            "window_days": window,
            "sample_every_days": sample_every_days,
            "relative_tolerance": relative_tolerance,
            "variables": list(KEPT if variables is None else variables),
        }
        triples = _ranges(ranges, self.ranges)._triples()
        with reported(progress, self.name) as tell:
            native = _native.follow_ensemble(
                self._native, _json(how), triples, None, tell
            )
        return ensemble_of(self, native, window)

    def plan(
        self,
        days: float = 90.0,
        *,
        levers: Mapping[str, tuple[float, float]] | None = None,
        goals: Goals | None = None,
        limits: Mapping[str, float] | None = None,
        ranges: Ranges | None = None,
        members: int = 64,
        seed: int = 1,
        progress: ProgressArgument = False,
        **options: Any,
    ) -> Plan:
        """Find the settings that serve the goals best, and what comes of them.

        Balances the dosing, searches the levers, follows the tank as it is and as
        planned under every member and every failure, and asks the single questions
        about the planned tank.

        Parameters
        ----------
        days : float
            Days looked ahead, 14 to 3660.
        levers : mapping of str to pair of float, optional
            Levers that may be moved, each with its least and most, in the units of
            `Tank.levers`; by default screen, light and harvests within common practice.
        goals : Goals, optional
            What is wanted; as in the description if not given.
        limits : mapping of str to float, optional
            Limits that animals do not bear for long: ``unionised_ammonia_mg_per_l``,
            ``oxygen_saturation``, ``ph_total``, ``practical_salinity``.
        ranges : Ranges, optional
            What is uncertain, and by how much; as in the description if not given.
        members : int
            Draws behind every range.
        seed : int
            Seed of the draws.
        progress : bool or callable
            As for `simulate`; the stage of a `Progress` says what it is busy with.
        **options
            ``window_days=30.0``, the last part that is held against the goals;
            ``failure_days=30.0``, followed after a failure;
            ``sample_every_days=1/12``; ``relative_tolerance=1e-4``;
            ``search_runs=192``; ``few_members=16``, with which a single lever is varied;
            ``hold_by_dosing=True``, whether the dosing may be changed.

        Returns
        -------
        Plan
            What to set, what it gives with its ranges against "nothing changes", how
            long until trouble, and what is due. Goals that no setting meets are no
            error: the verdict of the proposal says by how much they are missed.

        Raises
        ------
        HalimedaValueError
            A number lies outside its limits, or there is no such lever, limit or option.
        """
        from halimeda._tank_plan import plan_of

        about = self._about(days, goals, members, seed, options)
        if levers is not None:
            about["levers"] = {
                _lever(name): {"low": float(low), "high": float(high)}
                for name, (low, high) in levers.items()
            }
        if limits is not None:
            about["limits"] = dict(limits)
        return plan_of(self, self._ask("plan", about, ranges, progress, unit="1"))

    def screen_size(
        self,
        days: float = 90.0,
        *,
        goals: Goals | None = None,
        ranges: Ranges | None = None,
        members: int = 64,
        seed: int = 1,
        progress: ProgressArgument = False,
        **options: Any,
    ) -> ScreenAnswer:
        """Answer how big a screen has to be at the tank's feeding, light and hours.

        Parameters are those of `plan`.
        """
        from halimeda._tank_plan import ScreenAnswer

        about = self._about(days, goals, members, seed, options)
        answer = self._ask("screen_size", about, ranges, progress)
        return built(ScreenAnswer, json.loads(answer))

    def lighting(
        self,
        days: float = 90.0,
        *,
        goals: Goals | None = None,
        ranges: Ranges | None = None,
        members: int = 64,
        seed: int = 1,
        progress: ProgressArgument = False,
        **options: Any,
    ) -> LightAnswer:
        """Answer how many hours to light the screen, and when.

        Parameters are those of `plan`.
        """
        from halimeda._tank_plan import LightAnswer

        about = self._about(days, goals, members, seed, options)
        answer = self._ask("lighting", about, ranges, progress)
        return built(LightAnswer, json.loads(answer))

    def harvesting(
        self,
        days: float = 90.0,
        *,
        goals: Goals | None = None,
        ranges: Ranges | None = None,
        members: int = 64,
        seed: int = 1,
        progress: ProgressArgument = False,
        **options: Any,
    ) -> HarvestAnswer:
        """Answer how often and how deep to harvest.

        Parameters are those of `plan`.
        """
        from halimeda._tank_plan import HarvestAnswer

        about = self._about(days, goals, members, seed, options)
        answer = self._ask("harvesting", about, ranges, progress)
        return built(HarvestAnswer, json.loads(answer))

    def what_if(
        self,
        changed: Tank,
        days: float = 90.0,
        *,
        goals: Goals | None = None,
        ranges: Ranges | None = None,
        members: int = 64,
        seed: int = 1,
        progress: ProgressArgument = False,
        **options: Any,
    ) -> Comparison:
        """Answer what a change does: this tank against a changed copy, member by member.

        Parameters
        ----------
        changed : Tank
            The tank with the change, such as ``tank.replace(lit_hours=12.0)``.
        days, goals, ranges, members, seed, progress, **options
            As for `plan`.
        """
        from halimeda._tank_plan import Comparison

        if not isinstance(changed, Tank):
            message = f"changed is a Tank, not {type(changed).__name__}"
            raise HalimedaTypeError(message, input="changed", kind="wrong_type")
        about = self._about(days, goals, members, seed, options)
        answer = self._ask("what_if", about, ranges, progress, changed=changed)
        return built(Comparison, json.loads(answer))

    def time_to_trouble(
        self,
        from_day: float = 0.0,
        failures: Sequence[Failure] | None = None,
        *,
        goals: Goals | None = None,
        limits: Mapping[str, float] | None = None,
        ranges: Ranges | None = None,
        members: int = 64,
        seed: int = 1,
        progress: ProgressArgument = False,
        **options: Any,
    ) -> FailureAnswers:
        """Answer how long until trouble: days until a limit is passed after a failure.

        Parameters
        ----------
        from_day : float
            Day on which it fails, 0 to 3660.
        failures : sequence of Failure, optional
            What fails; all that a plan answers for if not given.
        goals, limits, ranges, members, seed, progress, **options
            As for `plan`.
        """
        from halimeda._tank_plan import failures_of

        about = self._about(90.0, goals, members, seed, options)
        about["from_day"] = float(from_day)
        if failures is not None:
            about["failures"] = [failure._native() for failure in failures]
        if limits is not None:
            about["limits"] = dict(limits)
        return failures_of(self._ask("time_to_trouble", about, ranges, progress))

    @staticmethod
    def levers() -> dict[str, str]:
        """Return the unit of every lever, by the name that `replace` takes."""
        from halimeda._tank_levers import lever_units

        return lever_units()

    def _about(
        self,
        days: float,
        goals: Goals | None,
        members: int,
        seed: int,
        options: Mapping[str, Any],
    ) -> dict[str, Any]:
        return {
            "members": _count("members", members),
            "seed": _count("seed", seed),
            "goals": (self.goals if goals is None else goals).to_dict(),
            "options": {"days": float(days), "seed": seed, **options},
        }

    def _ask(
        self,
        question: str,
        about: Mapping[str, Any],
        ranges: Ranges | None,
        progress: ProgressArgument,
        *,
        unit: str = "d",
        changed: Tank | None = None,
    ) -> str:
        triples = _ranges(ranges, self.ranges)._triples()
        other = None if changed is None else changed._native
        with reported(progress, self.name, unit) as tell:
            return _native.ask(
                question, self._native, _json(about), triples, None, other, tell
            )

    def __eq__(self, other: object) -> bool:
        return (
            isinstance(other, Tank)
            and self._toml == other._toml
            and self._planned == other._planned
        )

    def __hash__(self) -> int:
        return hash((self._toml, self._planned))

    def __reduce__(self) -> tuple[object, ...]:
        return (_unpickled, (self._toml, self._planned))

    def __repr__(self) -> str:
        screen = self.screen
        return (
            f"<Tank {self.name!r}: {self.net_volume_l:g} L, "
            f"{screen.lit_area_m2:.3g} m² of lit screen>"
        )

    def _repr_html_(self) -> str:
        from halimeda._tank_html import tank_html

        return tank_html(self)


def _unpickled(toml: str, planned: str | None) -> Tank:
    tank = Tank._of(toml)
    return tank if planned is None else tank._with_setup(planned)


def _json(about: Mapping[str, Any]) -> str:
    for name, value in about.items():
        if isinstance(value, float) and not math.isfinite(value):
            message = f"{name} is {value}, not a finite number"
            raise HalimedaValueError(
                message, input=name, value=value, kind="non_finite"
            )
        if isinstance(value, dict):
            _json(value)
    try:
        return json.dumps(about)
    except TypeError as error:
        message = f"an option has the wrong type: {error}"
        raise HalimedaTypeError(message, kind="wrong_type") from None


def _count(name: str, value: object) -> int:
    import operator

    try:
        count = operator.index(value)  # type: ignore[arg-type]
    except TypeError:
        message = f"{name} is a whole number, not {value!r}"
        raise HalimedaTypeError(message, input=name, kind="wrong_type") from None
    if not 0 <= count < 2**32:
        message = f"{name} is {count}; it must lie between 0 and {2**32 - 1}"
        limits = (0.0, 2.0**32 - 1.0)
        raise HalimedaValueError(
            message, input=name, value=count, limits=limits, kind="out_of_range"
        )
    return count


def _lever(name: str) -> str:
    known = Tank.levers()
    if name not in known:
        message = f"there is no lever {name!r}; there are {', '.join(known)}"
        raise HalimedaValueError(message, input=name, kind="unknown_name")
    return name


def _ranges(given: Ranges | None, described: Ranges) -> Ranges:
    if given is None or isinstance(given, Ranges):
        return described if given is None else given
    message = f"ranges are hm.Ranges, not {type(given).__name__}"
    raise HalimedaTypeError(message, input="ranges", kind="wrong_type")


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
