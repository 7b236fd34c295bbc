"""A reef tank in time, from its description and its keeper's log."""

# The modules of a tank know each other, and hold what comes from without to its kind.
# pyright: reportPrivateUsage=false, reportUnnecessaryIsInstance=false

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from halimeda import _native
from halimeda._errors import HalimedaTypeError, HalimedaValueError
from halimeda._progress import ProgressArgument, reported
from halimeda._record import built
from halimeda._tank_asked import AskedTank, as_json, members_of, ranges_or, whole

if TYPE_CHECKING:
    from halimeda._tank_fit import Fit
    from halimeda._tank_log import Log
    from halimeda._tank_parameters import Ranges
    from halimeda._tank_setup import Goals
    from halimeda._tank_upkeep import Upkeep
    from halimeda._tank_verdict import (
        Diary,
        Forecast,
        ForecastSkill,
        NextTest,
        Verdict,
    )


class Tank(AskedTank):
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

    def fit(
        self,
        log: Log,
        *,
        ranges: Ranges | None = None,
        members: int = 64,
        seed: int = 1,
        progress: ProgressArgument = False,
        **options: Any,
    ) -> Fit:
        """Fit what is unknown of the tank to its log.

        Parameters
        ----------
        log : Log
            What was measured and done.
        ranges : Ranges, optional
            What is uncertain before the log is read; as in the description if not given.
        members : int
            Tanks drawn that agree with the log, 8 to 65536.
        seed : int
            Seed of the draws; the fit is the same for the same seed.
        progress : bool or callable
            As for `simulate`.
        **options
            ``member_steps=4``, steps of each member towards the readings;
            ``chain_steps=12``, moves of its chain after them; ``search_steps=6``, most
            steps of the search for the most likely tank; ``relative_tolerance=1e-4``.

        Returns
        -------
        Fit
            Prior and posterior of every unknown, which of them the log informs, and the
            tanks that agree with it.

        Raises
        ------
        HalimedaValueError
            The log tells nothing that could be fitted to, and what is missing; or a
            number lies outside its limits.
        """
        from halimeda._tank_fit import fit_of

        wanted = {
            "members": whole("members", members),
            "seed": whole("seed", seed),
            **options,
        }
        triples = ranges_or(ranges, self.ranges)._triples()
        native = self._log(log)
        with reported(progress, self.name) as tell:
            told, drawn, likely, left = _native.fit_log(
                self._native, native, triples, as_json(wanted), tell
            )
        return fit_of(self, log, told, drawn, likely, left)

    def verdict(
        self,
        log: Log,
        fit: Fit | None = None,
        *,
        earlier: Fit | None = None,
        today: float | None = None,
        goals: Goals | None = None,
        members: int = 64,
        seed: int = 1,
        progress: ProgressArgument = False,
        **options: Any,
    ) -> Verdict:
        """Answer whether the screen works, since when and how sure that is.

        Parameters
        ----------
        log : Log
            What was measured and done.
        fit : Fit, optional
            What the log makes of the tank; draws of its ranges if not given.
        earlier : Fit, optional
            A fit to the log up to an earlier day (`Log.until`): changes after it show
            better.
        today : float, optional
            Day since the start that the verdict is come to; the log's last if not given.
        goals : Goals, optional
            What is wanted; as in the description if not given.
        members : int
            Draws where there is no `fit`.
        seed : int
            Seed of the draws.
        progress : bool or callable
            As for `simulate`.
        **options
            ``window_days=14.0``, that removal is held against the load over;
            ``every_days=6.0``, between days on which something is suspected to have begun;
            ``suspicions=32``, members that suspicions are followed with.

        Returns
        -------
        Verdict
            Removal beside load, trends, what may have happened, which nutrient limits,
            yields, stalls with the test that tells them apart. A log that tells nothing
            gets a plain answer about what is missing.

        Raises
        ------
        HalimedaValueError
            A number lies outside its limits, or the log is empty.
        """
        from halimeda._tank_verdict import verdict_of

        if "suspicions" in options:
            options["members"] = whole("suspicions", options.pop("suspicions"))
        answer = self._ask_log(
            "verdict", log, fit, options, today, goals, members, seed, progress, earlier
        )
        return verdict_of(self, answer)

    def forecast(
        self,
        log: Log,
        fit: Fit | None = None,
        *,
        horizons_days: Sequence[float] = (7.0, 30.0, 90.0),
        variables: Sequence[str] | None = None,
        today: float | None = None,
        members: int = 64,
        seed: int = 1,
        progress: ProgressArgument = False,
    ) -> Forecast:
        """Forecast what comes by the schedule, beside "nothing changes".

        Parameters
        ----------
        log : Log
            What was measured and done.
        fit : Fit, optional
            As for `verdict`.
        horizons_days : sequence of float
            Days ahead, d, each 1 to 366.
        variables : sequence of str, optional
            Columns of a `Run` that are forecast.
        today : float, optional
            Day since the start, d; the log's last if not given.
        members : int
            Draws where there is no `fit`.
        seed : int
            Seed of the draws.
        progress : bool or callable
            As for `simulate`.

        Returns
        -------
        Forecast
            Ranges at each horizon beside the last reading and a straight line through
            the last ones, and day by day.

        Raises
        ------
        HalimedaValueError
            A number lies outside its limits, the log is empty, or there is no such variable.
        """
        from halimeda._tank_verdict import forecast_of

        options = {
            "horizons_days": [float(days) for days in horizons_days],
            "variables": None if variables is None else list(variables),
        }
        answer = self._ask_log(
            "forecast", log, fit, options, today, None, members, seed, progress
        )
        return forecast_of(self, answer)

    def forecast_skill(
        self,
        log: Log,
        origins: Sequence[float],
        *,
        ranges: Ranges | None = None,
        members: int = 32,
        seed: int = 1,
        progress: ProgressArgument = False,
        **options: Any,
    ) -> tuple[ForecastSkill, ...]:
        """Score forecasts of the past against what came, and against doing without.

        From each origin the tank is fitted to the log up to it and followed on, as if
        nothing were known of what came later; readings about a week, a month and a quarter
        after it are what it is held against.

        Parameters
        ----------
        log : Log
            What was measured and done.
        origins : sequence of float
            Days since the start from which forecasts are made.
        ranges : Ranges, optional
            What is uncertain before the log is read; as in the description if not given.
        members : int
            Tanks drawn at each origin, 8 to 65536.
        seed : int
            Seed of the draws.
        progress : bool or callable
            As for `simulate`.
        **options
            As for `fit`.

        Returns
        -------
        tuple of ForecastSkill
            By what was measured and horizon, with the error of "nothing changes" and of
            a straight line through the last readings.

        Raises
        ------
        HalimedaValueError
            A number lies outside its limits, or the log up to an origin tells nothing.
        """
        from halimeda._tank_verdict import ForecastSkill

        wanted = {
            "members": whole("members", members),
            "seed": whole("seed", seed),
            **options,
        }
        triples = ranges_or(ranges, self.ranges)._triples()
        native = self._log(log)
        with reported(progress, self.name) as tell:
            told = _native.forecast_skill(
                self._native,
                native,
                triples,
                [float(day) for day in origins],
                as_json(wanted),
                tell,
            )
        return tuple(built(ForecastSkill, row) for row in json.loads(told))

    def next_tests(
        self,
        log: Log,
        fit: Fit | None = None,
        *,
        today: float | None = None,
        goals: Goals | None = None,
        members: int = 64,
        seed: int = 1,
        progress: ProgressArgument = False,
        **options: Any,
    ) -> tuple[NextTest, ...]:
        """Answer which tests would tell most, and when to do them.

        Parameters
        ----------
        log : Log
            What was measured and done.
        fit : Fit, optional
            As for `verdict`.
        today : float, optional
            Day since the start, d; the log's last if not given.
        goals : Goals, optional
            What is wanted; as in the description if not given.
        members : int
            Draws where there is no `fit`.
        seed : int
            Seed of the draws.
        progress : bool or callable
            As for `simulate`.
        **options
            ``horizon_days=30.0``, at which nitrate and phosphate are wanted to be known;
            ``within_days=14.0``; ``count=3``; ``tests``, names of what can be tested.

        Raises
        ------
        HalimedaValueError
            A number lies outside its limits, or the log is empty.
        """
        from halimeda._tank_verdict import NextTest

        answer = self._ask_log(
            "next_tests", log, fit, options, today, goals, members, seed, progress
        )
        return tuple(built(NextTest, test) for test in answer)

    def upkeep(
        self,
        log: Log,
        fit: Fit | None = None,
        *,
        days: float = 30.0,
        calibrations: Sequence[tuple[str, float]] = (),
        today: float | None = None,
        members: int = 64,
        seed: int = 1,
        progress: ProgressArgument = False,
        **options: Any,
    ) -> Upkeep:
        """Answer what is due and when: harvests, water changes, parts, probes, tests.

        Parameters
        ----------
        log : Log
            What was measured and done.
        fit : Fit, optional
            As for `verdict`.
        days : float
            Days ahead that recurring tasks are listed for, d, 1 to 366.
        calibrations : sequence of pair of str and float
            What a probe measures, and the day on which it was last calibrated.
        today : float, optional
            Day since the start, d; the log's last if not given.
        members : int
            Draws where there is no `fit`.
        seed : int
            Seed of the draws.
        progress : bool or callable
            As for `simulate`.
        **options
            ``parts_days=730.0``, days ahead within which parts that wear are named.

        Returns
        -------
        Upkeep
            Tasks with their reasons, which can be written as an iCalendar file.

        Raises
        ------
        HalimedaValueError
            A number lies outside its limits, or the log is empty.
        """
        from halimeda._tank_upkeep import upkeep_of

        done = [{"measured": what, "day": float(day)} for what, day in calibrations]
        options = {"days": float(days), "calibrations": done, **options}
        answer = self._ask_log(
            "upkeep", log, fit, options, today, None, members, seed, progress
        )
        return upkeep_of(self, answer)

    def diary(
        self,
        log: Log,
        fit: Fit | None = None,
        *,
        water_change_share: float = 0.1,
        today: float | None = None,
        members: int = 64,
        seed: int = 1,
        progress: ProgressArgument = False,
    ) -> Diary:
        """Add up what the logged harvests carried out, in grams and as water changes.

        Parameters
        ----------
        log : Log
            What was measured and done.
        fit : Fit, optional
            As for `verdict`.
        water_change_share : float
            Share of the water in the change that exports are compared with, 0.01 to 1.
        today : float, optional
            Day since the start, d; the log's last if not given.
        members : int
            Draws where there is no `fit`.
        seed : int
            Seed of the draws.
        progress : bool or callable
            As for `simulate`.

        Raises
        ------
        HalimedaValueError
            A number lies outside its limits, or the log is empty.
        """
        from halimeda._tank_verdict import Diary

        options = {"water_change_share": float(water_change_share)}
        answer = self._ask_log(
            "diary", log, fit, options, today, None, members, seed, progress
        )
        return built(Diary, {**answer, "tank": self})

    def _log(self, log: Log) -> _native.KeeperLog:
        from halimeda._tank_log import Log

        if not isinstance(log, Log):
            message = f"log is a Log, as Log.read gives it, not {type(log).__name__}"
            raise HalimedaTypeError(message, input="log", kind="wrong_type")
        return log._native

    def _ask_log(
        self,
        question: str,
        log: Log,
        fit: Fit | None,
        options: Mapping[str, Any],
        today: float | None,
        goals: Goals | None,
        members: int,
        seed: int,
        progress: ProgressArgument,
        earlier: Fit | None = None,
    ) -> Any:
        native = self._log(log)
        if today is None:
            today = log.last_day
        if today is None:
            message = "the log is empty: write down tests, harvests and what was done"
            raise HalimedaValueError(message, input="log", kind="uninformative")
        if fit is None:
            drawn = _native.unfitted(
                self._native,
                native,
                self.ranges._triples(),
                whole("members", members),
                whole("seed", seed),
            )
        else:
            drawn = members_of("fit", fit)
        about: dict[str, Any] = {
            "goals": (self.goals if goals is None else goals).to_dict(),
            "today": float(today),
            "options": dict(options),
        }
        before = None
        if earlier is not None:
            before = members_of("earlier", earlier)
            about["earlier_until_day"] = earlier.log.last_day
        with reported(progress, self.name) as tell:
            answer = _native.ask_log(
                question, self._native, native, drawn, before, as_json(about), tell
            )
        return json.loads(answer)


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
