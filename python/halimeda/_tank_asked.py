"""A keeper's questions about a tank as described."""

# The modules of a tank know each other, and hold what comes from without to its kind.
# pyright: reportPrivateUsage=false, reportUnnecessaryIsInstance=false

from __future__ import annotations

import json
import math
import operator
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any, cast

from halimeda import _native
from halimeda._errors import HalimedaTypeError, HalimedaValueError
from halimeda._progress import ProgressArgument, reported
from halimeda._record import built
from halimeda._tank_described import DescribedTank
from halimeda._tank_parameters import Parameters, Ranges

if TYPE_CHECKING:
    from halimeda._tank import Tank
    from halimeda._tank_ensemble import Ensemble
    from halimeda._tank_fit import Fit
    from halimeda._tank_plan import (
        Comparison,
        Failure,
        FailureAnswers,
        HarvestAnswer,
        LightAnswer,
        Plan,
        ScreenAnswer,
    )
    from halimeda._tank_run import Run
    from halimeda._tank_setup import Goals


class AskedTank(DescribedTank):
    """What a tank is followed and asked for."""

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
                values(parameters),
                tell,
            )
        return run_of(cast("Tank", self), native)

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
        fit: Fit | None = None,
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
        fit : Fit, optional
            What a log makes of the tank, in place of `ranges`: the tanks that it leaves
            possible are followed from the start, through the log and on.
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
            "members": whole("members", members),
            "seed": whole("seed", seed),
            "days": length,
            "window_days": window,
            "sample_every_days": sample_every_days,
            "relative_tolerance": relative_tolerance,
            "variables": list(KEPT if variables is None else variables),
        }
        triples = ranges_or(ranges, self.ranges)._triples()
        with reported(progress, self.name) as tell:
            native = _native.follow_ensemble(
                self._native,
                as_json(how),
                triples,
                None if fit is None else members_of("fit", fit),
                tell,
            )
        return ensemble_of(cast("Tank", self), native, window)

    def plan(
        self,
        days: float = 90.0,
        *,
        levers: Mapping[str, tuple[float, float]] | None = None,
        goals: Goals | None = None,
        limits: Mapping[str, float] | None = None,
        ranges: Ranges | None = None,
        fit: Fit | None = None,
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
        fit : Fit, optional
            What a log makes of the tank: its parameters in place of draws of `ranges`.
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
                lever(name): {"low": float(low), "high": float(high)}
                for name, (low, high) in levers.items()
            }
        if limits is not None:
            about["limits"] = dict(limits)
        answer = self._ask("plan", about, ranges, progress, unit="1", fit=fit)
        return plan_of(cast("Tank", self), answer)

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
        changed: DescribedTank,
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

        if not isinstance(changed, DescribedTank):
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
            "members": whole("members", members),
            "seed": whole("seed", seed),
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
        changed: DescribedTank | None = None,
        fit: Fit | None = None,
    ) -> str:
        described = self.ranges if fit is None else fit.ranges
        triples = ranges_or(ranges, described)._triples()
        drawn = None if fit is None else members_of("fit", fit)
        other = None if changed is None else changed._native
        with reported(progress, self.name, unit) as tell:
            return _native.ask(
                question, self._native, as_json(about), triples, drawn, other, tell
            )


def as_json(about: Mapping[str, Any]) -> str:
    """Write what is asked as JSON; what is not finite is refused by its name."""
    for name, value in about.items():
        if isinstance(value, float) and not math.isfinite(value):
            message = f"{name} is {value}, not a finite number"
            raise HalimedaValueError(
                message, input=name, value=value, kind="non_finite"
            )
        if isinstance(value, dict):
            as_json(cast("dict[str, Any]", value))
    try:
        return json.dumps(about)
    except TypeError as error:
        message = f"an option has the wrong type: {error}"
        raise HalimedaTypeError(message, kind="wrong_type") from None


def whole(name: str, value: object) -> int:
    """Take a whole number, not below zero."""
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


def members_of(name: str, fit: Fit) -> _native.Members:
    """Take the tanks of a fit."""
    from halimeda._tank_fit import Fit

    if not isinstance(fit, Fit):
        message = f"{name} is a Fit, as Tank.fit gives it, not {type(fit).__name__}"
        raise HalimedaTypeError(message, input=name, kind="wrong_type")
    members: _native.Members = fit._members
    return members


def lever(name: str) -> str:
    """Take the name of a lever."""
    known = AskedTank.levers()
    if name not in known:
        message = f"there is no lever {name!r}; there are {', '.join(known)}"
        raise HalimedaValueError(message, input=name, kind="unknown_name")
    return name


def ranges_or(given: Ranges | None, described: Ranges) -> Ranges:
    """Take ranges, or those of the description."""
    if given is None or isinstance(given, Ranges):
        return described if given is None else given
    message = f"ranges are hm.Ranges, not {type(given).__name__}"
    raise HalimedaTypeError(message, input="ranges", kind="wrong_type")


def values(parameters: Parameters | None) -> list[float] | None:
    """Take parameters in their order."""
    if parameters is None:
        return None
    if not isinstance(parameters, Parameters):
        message = f"parameters are hm.Parameters, not {type(parameters).__name__}"
        raise HalimedaTypeError(message, input="parameters", kind="wrong_type")
    return list(parameters.values())
