"""Sections on the tank as described, the plan, and what they lead to."""

from __future__ import annotations

from typing import TYPE_CHECKING

from halimeda._report import _pictures as pictures
from halimeda._report._blocks import Block, Items, Section, Table, Words
from halimeda._report._words import (
    WATCHED,
    date,
    duration,
    first_moves,
    lever,
    limit,
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
from halimeda._words import GOALS

if TYPE_CHECKING:
    from halimeda._tank import Tank
    from halimeda._tank_ensemble import Ensemble
    from halimeda._tank_plan import FailureAnswer, Plan
    from halimeda._tank_run import Run

_RANGES = (
    "A range in brackets is what nine of ten tanks like this one would show, over all that "
    "is uncertain of turf, animals and rock. A forecast is no reading: measure."
)
_TODAY = (
    "nitrate_mg_per_l",
    "phosphate_mg_per_l",
    "ph_total",
    "oxygen_saturation",
    "alkalinity_umol_per_kg",
    "aragonite_saturation",
    "calcium_mg_per_l",
    "magnesium_mg_per_l",
    "practical_salinity",
)
_COMPARED = (
    "nitrate_mg_per_l",
    "phosphate_mg_per_l",
    "daily_ph_swing",
    "night_ph",
    "night_oxygen_saturation",
    "alkalinity_umol_per_kg",
    "nitrogen_removed_mmol_per_day",
    "harvest_drained_grams",
)
#: Days until the lamps have set the pace of the day.
_DAY_AFTER = 14.0
#: Days of upkeep that are listed one by one.
_SOON = 30.0


def today(tank: Tank, run: Run) -> Section:
    """The water as described."""
    goals = {
        "nitrate_mg_per_l": tank.goals.nitrate_mg_per_l,
        "phosphate_mg_per_l": tank.goals.phosphate_mg_per_l,
    }
    rows: list[tuple[str, ...]] = []
    for name in _TODAY:
        now = float(run.samples[name][0])
        words = ("", "")
        if name in goals:
            band = goals[name]
            side = "low" if now < band.low else "high" if now > band.high else "within"
            words = (f"{number(band.low)} to {number(band.high)}", side)
        rows.append((upper(WATCHED[name][0]), value(name, now), *words))
    table = Table("As described", ("", "today", "goal", ""), rows)
    return Section("today", "The water today", (table,))


def change(plan: Plan) -> Section:
    """What the plan moves and what comes of it."""
    moves = first_moves(plan)
    blocks: list[Block] = []
    if moves:
        rows = [(upper(move.words), *lever(move)) for move in moves]
        blocks += [
            Words(
                "One change at a time, in this order, with tests of nitrate, phosphate and "
                "alkalinity before and some weeks after each."
            ),
            Table("What to set", ("", "now", "set to"), rows),
        ]
    else:
        blocks.append(Words("Nothing: no setting tried does better."))
    blocks.append(
        Words(
            f"{plan.proposal.verdict} The nominal tank is this one with the most likely "
            "number for everything that is not known of it."
        )
    )
    rows = [
        (
            row_head(name),
            watched_range(name, plan.change[name].after),
            watched_range(name, plan.change[name].before),
        )
        for name in _COMPARED
    ]
    blocks += [
        Table("What it gives", ("", "with the plan", "nothing changed"), rows),
        Words(_RANGES),
        Table(
            "How many tanks like this one meet each goal",
            ("", "with the plan", "nothing changed"),
            [
                (
                    upper(GOALS[share.goal]),
                    of_100(share.planned),
                    of_100(share.unchanged),
                )
                for share in plan.goals
            ]
            + [("All of them", of_100(plan.meets_all_goals), "")],
        ),
    ]
    return Section("change", "What to change", blocks)


def ahead(tank: Tank, ensemble: Ensemble, plan: Plan | None) -> Section:
    """Nutrients to come."""
    blocks: list[Block] = [pictures.nutrients(ensemble, tank)]
    if plan is not None:
        for day in dict.fromkeys(forecast.day for forecast in plan.forecasts):
            rows = [
                (
                    row_head(forecast.variable),
                    watched_range(forecast.variable, forecast.planned),
                    watched_range(forecast.variable, forecast.unchanged),
                    shown(forecast.variable, forecast.persistence),
                )
                for forecast in plan.forecasts
                if forecast.day == day
            ]
            heads = ("", "with the plan", "nothing changed", "today")
            caption = f"In {day:g} days, on {date(tank, day)} (mean of the day)"
            blocks.append(Table(caption, heads, rows))
        blocks.append(
            Words(
                "“Today” is what a forecast has to beat against your own tests: write both "
                "down and see which was nearer."
            )
        )
    if ensemble.failed:
        blocks.append(
            Words(
                f"{len(ensemble.failed)} of {len(ensemble)} could not be followed, the "
                f"first because: {ensemble.failed[0].reason}."
            )
        )
    return Section("ahead", "What to expect", blocks)


def day_and_turf(run: Run) -> list[Section]:
    """One day, the turf, and where the nutrients go."""
    days = float(run.days[-1])
    # A day is only smooth when sampled more often than a season needs.
    fine = run.tank.simulate(min(days, _DAY_AFTER), sample_every_days=1.0 / 96.0)
    return [
        Section("daily", "A day in the tank", (pictures.daily_cycle(fine),)),
        Section("harvests", "Turf and harvests", (pictures.turf(run),)),
        Section(
            "flows",
            "Where the nutrients go",
            (
                pictures.flow(run, days, "nitrogen"),
                pictures.flow(run, days, "phosphorus"),
            ),
        ),
    ]


def how_big(plan: Plan) -> Section:
    """Screen, light and harvest intervals."""
    return Section(
        "size",
        "How big, how long, how often",
        (
            Words(plainer(plan.screen.reason)),
            pictures.screen_size(plan),
            pictures.trade_off(plan),
            Words(plainer(plan.light.reason)),
            pictures.light_hours(plan),
            Words(plainer(plan.harvest.reason)),
        ),
    )


def trouble(plan: Plan) -> Section:
    """What failures lead to."""
    return Section(
        "trouble",
        "If something fails",
        (
            Words(
                "How long until a limit is passed that would not be passed without the "
                "failure. These times are no promise for animals: test the water when "
                "something failed."
            ),
            Table(
                "Until the first limit",
                ("", "first limit passed", "after"),
                [_failure(answer) for answer in plan.failures],
            ),
        ),
    )


def _failure(answer: FailureAnswer) -> tuple[str, str, str]:
    first = answer.first
    what = upper(answer.failure.words)
    if first is None:
        return what, f"none in {answer.horizon_days:g} days", ""
    # Where the median member passes it, the earliest does too.
    early, median, late = (
        "later" if day is None else duration(day) for day in first.days
    )
    return what, limit(first.limit), f"{median} ({early} to {late})"


def dosing(plan: Plan) -> Section:
    """What is used up and what is dosed."""
    used = plan.dosing
    blocks: list[Block] = [
        Table(
            "Used up a day, with the plan",
            ("", "a day"),
            [
                ("Alkalinity, µmol/kg", ranged(used.alkalinity_umol_per_kg_per_day)),
                ("Calcium, mg/L", ranged(used.calcium_mg_per_l_per_day)),
                ("Magnesium, mg/L", ranged(used.magnesium_mg_per_l_per_day)),
            ],
        )
    ]
    if used.grams_per_day:
        rows = [
            (upper(salt), f"{number(grams)} g")
            for salt, grams in used.grams_per_day.items()
        ]
        blocks.append(Table("Dosed a day, with the plan", ("", "a day"), rows))
    blocks.append(
        Words("Test before dosing, and follow the labels: caustic supplements burn.")
    )
    return Section("dosing", "Dosing", blocks)


def upkeep(plan: Plan) -> Section:
    """What is due, by the plan."""
    soon = [due for due in plan.upkeep if due.day < _SOON]
    parts = [
        due for due in plan.upkeep if due.day >= _SOON and due.kind.startswith("new")
    ]
    rows = [
        (date(plan.present, due.day), upper(due.words), due.reason)
        for due in (*soon, *parts)
    ]
    heads = ("when", "what", "why then")
    table = Table("The next 30 days, and parts later", heads, rows)
    return Section("due", "What is due", (table,))


def how_sure(plan: Plan) -> Section:
    """What decides the answers."""
    blocks: list[Block] = [
        Words(
            f"The plan was found on the most likely numbers and held against {plan.members} "
            f"tanks like this one. {of_100(plan.meets_all_goals)} of them meet every goal: "
            "what is not known of this tank decides the rest, and a log of tests narrows it."
        )
    ]
    if plan.influences:
        blocks.append(pictures.influence(plan.influences))
    if plan.levers:
        blocks += [
            Words("What one step of each lever does, strongest first:"),
            Items([effect.reason for effect in plan.levers[:4]]),
        ]
    if plan.failed_members:
        blocks.append(
            Words(
                f"{len(plan.failed_members)} of {plan.members} could not be followed, the "
                f"first because: {plan.failed_members[0].reason}."
            )
        )
    return Section("sure", "How sure this is", blocks)
