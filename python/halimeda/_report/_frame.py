"""What stands before and after the sections: first steps, cautions, sources."""

from __future__ import annotations

import datetime as dt
import platform
from collections.abc import Sequence
from typing import TYPE_CHECKING

from halimeda import _native
from halimeda._report._blocks import Block, Items, Section, Verbatim, Words
from halimeda._report._words import (
    date,
    first_moves,
    lever,
    of_100,
    plain_date,
    plainer,
    upper,
)
from halimeda._tank_parameters import Parameters
from halimeda._tank_plan import CAUTIONS
from halimeda._words import STALLS, SUSPECTS

if TYPE_CHECKING:
    from halimeda._report._known import Known
    from halimeda._tank_plan import Plan
    from halimeda._tank_verdict import Verdict

_VERSION = _native.__version__
#: Readings older than this no longer say what the water is.
_STALE_DAYS = 14


def about(known: Known) -> str:
    """Say in a line what the page is about."""
    tank = known.tank
    begun = "" if tank.start is None else f"Day 0 is {plain_date(tank.start)}. "
    return (
        f"{tank.net_volume_l:g} L with {tank.screen.lit_area_m2:.2g} m² of lit turf "
        f"screen. {begun}Made on {plain_date(known.made)} with halimeda {_VERSION}. "
        "Estimates for your own judgement, not instructions."
    )


def cautions(known: Known) -> Sequence[str]:
    """List what to mind before acting, each once."""
    told = () if known.verdict is None else known.verdict.cautions
    # The same caution may come with other reasons.
    by_lead = {text.split(":")[0]: text for text in (*CAUTIONS, *told)}
    return list(by_lead.values())


def first(known: Known) -> list[Block]:
    """Say what to do first, in the order to do it."""
    steps = [*_stale(known)]
    if known.verdict is not None:
        steps += _after_verdict(known.verdict)
    else:
        steps.append(
            "Test nitrate, phosphate and alkalinity, and compare with “The water today”: "
            "everything below starts from those numbers."
        )
    if known.plan is not None:
        steps += _moves(known.plan)
    upkeep = known.upkeep or (() if known.plan is None else known.plan.upkeep)
    if upkeep:
        steps.append(f"Next due: {upkeep[0].words}, {date(known.tank, upkeep[0].day)}.")
    if known.plan is not None and known.log is None:
        steps.append(
            f"Keep a log of tests and harvest weights. {of_100(known.plan.meets_all_goals)} "
            "tanks like this one meet every goal with the plan; only tests tell which kind "
            "yours is."
        )
    if known.plan is None and known.verdict is None and known.run is not None:
        goal = known.tank.goals.nitrate_mg_per_l
        last = float(known.run.nitrate_mg_per_l[-1])
        side = "below" if last < goal.low else "above" if last > goal.high else "within"
        steps.append(
            f"With nothing changed, nitrate is most likely {side} its goal in "
            f"{known.run.days[-1]:g} days. A plan (Tank.plan) says what would serve it "
            "better."
        )
    return [Items(steps, ordered=True)]


def _after_verdict(verdict: Verdict) -> list[str]:
    """What the verdict asks for, behind its first sentence."""
    steps = [plainer(line) for line in verdict.summary[:1]]
    causes = () if verdict.causes is None else verdict.causes.suspected
    steps += [
        f"Look whether {SUSPECTS.get(cause.suspect, cause.suspect)} about "
        f"{date(verdict.tank, cause.day)} ({of_100(cause.probability)}); if so, put it "
        "right and write it into the log."
        for cause in causes[:1]
        if cause.probability > 0.5
    ]
    steps += [
        f"{upper(stall.test).rstrip('.')}: {STALLS.get(stall.stall, stall.stall)} may hold "
        f"the turf back ({of_100(stall.probability)})."
        for stall in verdict.stalls[:1]
        if stall.probability > 0.5
    ]
    return steps + [upper(line) for line in verdict.missing[:1]]


def _stale(known: Known) -> list[str]:
    start = known.tank.start
    if start is None:
        return []
    what, newest = "description", start
    if known.log is not None and known.log.last_day is not None:
        what, newest = "log", start + dt.timedelta(days=int(known.log.last_day))
    days = (known.made - newest).days
    if days <= _STALE_DAYS:
        return []
    ends = "begins" if what == "description" else "ends"
    return [
        f"Bring the {what} up to date: it {ends} on {plain_date(newest)}, {days} days "
        "before this page."
    ]


def _moves(plan: Plan) -> list[str]:
    moves = first_moves(plan)
    if not moves:
        return ["Change nothing: no setting tried does better."]
    before, after = lever(moves[0])
    steps = [f"Set the {moves[0].words} to {after} (now {before})."]
    if len(moves) > 1:
        steps.append(
            f"Wait some weeks and test again before the next of the {len(moves) - 1} other "
            "changes under “What to change”."
        )
    return steps


def appendix(known: Known) -> list[Section]:
    """List what was assumed, the sources, and how to make the page again."""
    tank = known.tank
    taken = [f"{a.key}: {a.assumed}" for a in tank.assumptions]
    assumed: list[Block] = (
        [
            Words("The description does not say these, so they were assumed:"),
            Items(taken),
        ]
        if taken
        else [Words("Nothing: the description says it all.")]
    )
    infos = Parameters.infos().values()
    published = sorted({info.source for info in infos if "doi" in info.source})
    weak = sum("doi" not in info.source for info in infos)
    relations = [
        f"{relation.name}: {relation.source}"
        + (f", doi {relation.doi}" if relation.doi else "")
        for relation in _native.relations()
    ]
    sources = (
        Words("Life and flows in the tank:"),
        Items(published),
        Words(
            f"{weak} of {len(infos)} parameters have no published source of their own: "
            "they rest on common practice or memory, and their ranges are wide for that. "
            "hm.Parameters.infos() lists every one."
        ),
        Words("Relations of the chemistry:"),
        Items(relations),
    )
    made_with = [f"halimeda {_VERSION}, Python {platform.python_version()}"]
    if known.run is not None:
        made_with.append(f"followed for {known.run.days[-1]:g} days")
    if known.ensemble is not None:
        made_with.append(
            f"{len(known.ensemble)} tanks like this one followed for "
            f"{known.ensemble.days[-1]:g} days"
        )
    if known.fit is not None:
        made_with.append(f"{len(known.fit)} tanks that agree with the log")
    if known.plan is not None:
        made_with.append(f"plan over {known.plan.members} tanks like this one")
    if known.log is not None:
        made_with.append(
            f"log of {len(known.log.readings)} tests, {len(known.log.entries)} entries and "
            f"{sum(len(probe.days) for probe in known.log.probes)} probe records"
        )
    again = (
        Items(made_with),
        Words("The description it was made from:"),
        Verbatim(tank.to_toml(), "Description of the tank"),
    )
    return [
        Section("assumed", "Taken for granted", assumed),
        Section("sources", "Sources", sources),
        Section("again", "To make this page again", again),
    ]
