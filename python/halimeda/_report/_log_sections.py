"""Sections on the keeper's log: whether it works, what it says, what is next."""

from __future__ import annotations

from typing import TYPE_CHECKING

from halimeda._report import _pictures as pictures
from halimeda._report._blocks import Block, Items, Picture, Section, Table, Words
from halimeda._report._words import (
    WATCHED,
    date,
    of_100,
    plainer,
    ranged,
    row_head,
    shown,
    upper,
    value,
    watched_range,
)
from halimeda._table import number
from halimeda.plots._readings import measured_as
from halimeda.plots._series import band
from halimeda._words import STALLS, SUSPECTS

if TYPE_CHECKING:
    from halimeda._tank import Tank
    from halimeda._tank_fit import Fit
    from halimeda._tank_log import Log
    from halimeda._tank_upkeep import Task, Upkeep
    from halimeda._tank_verdict import Forecast, Verdict

#: Less likely than this is not worth a line.
_LEAST_LIKELY = 0.1
#: Unknowns that a reader can take in.
_MOST_UNKNOWNS = 6
#: What is shown of a log, where it was tested.
_SHOWN = ("nitrate_mg_per_l", "phosphate_mg_per_l", "alkalinity_umol_per_kg")


def working(verdict: Verdict) -> Section:
    """Whether the screen works, and what stands in its way."""
    blocks: list[Block] = [Words(plainer(line)) for line in verdict.summary]
    removal = verdict.removal
    if removal is not None:
        blocks.append(
            Table(
                f"Over the last {removal.window_days:g} days, mmol a day",
                ("", "the turf takes out", "comes in", "keeps pace"),
                [
                    (
                        "Nitrogen",
                        ranged(removal.nitrogen_mmol_per_day),
                        ranged(removal.nitrogen_load_mmol_per_day),
                        of_100(removal.nitrogen_keeps_pace),
                    ),
                    (
                        "Phosphorus",
                        ranged(removal.phosphorus_mmol_per_day),
                        ranged(removal.phosphorus_load_mmol_per_day),
                        of_100(removal.phosphorus_keeps_pace),
                    ),
                ],
            )
        )
    if verdict.causes is not None:
        likely = [c for c in verdict.causes.suspected if c.probability >= _LEAST_LIKELY]
        if likely:
            rows = [
                (
                    upper(SUSPECTS.get(cause.suspect, cause.suspect)),
                    of_100(cause.probability),
                    f"{date(verdict.tank, cause.day)} ({date(verdict.tank, cause.range[0])} "
                    f"to {date(verdict.tank, cause.range[1])})",
                )
                for cause in likely
            ]
            blocks.append(
                Table("What may have happened", ("", "how likely", "since"), rows)
            )
    stalls = [s for s in verdict.stalls if s.probability >= _LEAST_LIKELY]
    if stalls:
        rows = [
            (upper(STALLS.get(s.stall, s.stall)), of_100(s.probability), s.test)
            for s in stalls
        ]
        heads = ("", "how likely", "the test that tells")
        blocks.append(Table("What may keep the turf from growing", heads, rows))
    if verdict.missing:
        blocks += [
            Words("What the log would need to tell more:"),
            Items(verdict.missing),
        ]
    return Section("working", "Is it working?", blocks)


def log(
    tank: Tank,
    log: Log,
    fit: Fit | None,
    verdict: Verdict | None,
    forecast: Forecast | None,
) -> Section:
    """The tests beside the fitted tank and the forecast."""
    tested = {reading.measured for reading in log.readings}
    blocks: list[Block] = [_last_tests(tank, log)] if log.readings else []
    blocks += [
        pictures.readings(name, log, fit, verdict, forecast)
        for name in _SHOWN
        if measured_as(name) in tested
    ]
    if not any(isinstance(block, Picture) for block in blocks):
        blocks.append(Words("The log has no test of nitrate, phosphate or alkalinity."))
    if log.rejected:
        blocks.append(
            Words(
                f"{len(log.rejected)} entries of the log could not be read and are in none "
                "of this; Log.rejected lists each with its line and reason."
            )
        )
    if fit is not None:
        blocks.append(Words(plainer(upper(fit.quality.words)) + "."))
        rows = [
            (
                plainer(fitted.path).strip("“”"),
                f"{ranged(fitted.posterior)} {'' if fitted.unit == '1' else fitted.unit}",
                ranged(fitted.prior),
            )
            for fitted in fit.informed[:_MOST_UNKNOWNS]
        ]
        if rows:
            heads = ("", "with the log", "before")
            blocks.append(Table("What the log says of this tank", heads, rows))
        blocks.append(
            Words(
                f"{len(fit.resting_on_ranges)} of {len(fit.fitted)} unknowns still rest on "
                "published ranges."
            )
        )
        blocks += [Words(plainer(upper(note)).rstrip(".") + ".") for note in fit.notes]
    return Section("log", "What the log says", blocks)


def coming(tank: Tank, forecast: Forecast) -> Section:
    """The forecast beside what it has to beat."""
    blocks: list[Block] = []
    for days in dict.fromkeys(h.horizon_days for h in forecast.horizons):
        rows = [
            (
                row_head(h.variable),
                watched_range(h.variable, h.quantiles),
                "–" if h.persistence is None else shown(h.variable, h.persistence),
                "–" if h.trend is None else shown(h.variable, h.trend),
            )
            for h in forecast.horizons
            if h.horizon_days == days
        ]
        caption = f"In {days:g} days, on {date(tank, forecast.today + days)}"
        heads = ("mean of the day", "forecast", "nothing changes", "straight line")
        blocks.append(Table(caption, heads, rows))
    blocks.append(
        Words(
            "What you will do differently is not in it, nor what will break. “Nothing "
            "changes” is the last test; a forecast has to beat it against your next ones."
        )
    )
    return Section("coming", "What the log lets expect", blocks)


def due(tank: Tank, upkeep: Upkeep) -> Section:
    """What is due, by model and log; what comes round is said once."""
    rounds: dict[str, list[Task]] = {}
    for task in upkeep:
        rounds.setdefault(task.words, []).append(task)
    rows: list[tuple[str, str, str]] = []
    for tasks in rounds.values():
        first, *later = tasks
        why = first.reason
        if first.range is not None:
            early, late = (date(tank, day) for day in first.range)
            why += f" Nine in ten place it between {early} and {late}."
        if later:
            why += f" Then {len(later)} more by {date(tank, later[-1].day)}."
        rows.append((date(tank, first.day), upper(first.words), why))
    blocks: list[Block] = [Table("Soonest first", ("when", "what", "why then"), rows)]
    cautions = list(dict.fromkeys(task.caution for task in upkeep if task.caution))
    if cautions:
        blocks.append(Items(cautions))
    return Section("due", "What is due", blocks)


def _last_tests(tank: Tank, log: Log) -> Table:
    """The last test of everything, beside its goal."""
    last = {test.measured: test for test in log.readings}
    rows: list[tuple[str, str, str, str]] = []
    for name in WATCHED:
        test = last.get(measured_as(name) or "")
        if test is None:
            continue
        goal = band(tank.goals, name)
        side, wanted = "", ""
        if goal is not None:
            side = (
                "high" if test.low > goal[1] else "low" if test.high < goal[0] else ""
            )
            side = side or "within"
            wanted = f"{number(goal[0])} to {number(goal[1])}"
        shown_as = value(name, test.middle)
        rows.append(
            (
                upper(WATCHED[name][0]),
                f"{shown_as}, {date(tank, test.day)}",
                wanted,
                side,
            )
        )
    return Table("Last tests", ("", "shown", "goal", ""), rows)
