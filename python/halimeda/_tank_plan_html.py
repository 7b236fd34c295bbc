"""Plans and answers as tables: what to set, what it gives, and how sure that is."""

# The modules of a tank know each other, and hold what comes from without to its kind.
# pyright: reportPrivateUsage=false, reportUnnecessaryIsInstance=false

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from halimeda._table import cautions, folded, number, paragraph, table
from halimeda._tank_html import clock
from halimeda._words import GOALS

if TYPE_CHECKING:
    from halimeda._tank import Tank
    from halimeda._tank_ensemble import Quantiles
    from halimeda._tank_plan import (
        Comparison,
        FailureAnswer,
        HarvestAnswer,
        LightAnswer,
        Limit,
        Plan,
        PlanForecast,
        ScreenAnswer,
    )

# What a keeper watches, as shown: words, factor and unit.
SHOWN = {
    "nitrate_mg_per_l": ("Nitrate, as NO3", 1.0, "mg/L"),
    "phosphate_mg_per_l": ("Phosphate, as PO4", 1.0, "mg/L"),
    "unionised_ammonia_mg_per_l": ("Un-ionised ammonia, as NH3", 1.0, "mg/L"),
    "ph_total": ("pH, total scale", 1.0, ""),
    "daily_ph_swing": ("Daily pH swing", 1.0, ""),
    "night_ph": ("Lowest pH at night, total scale", 1.0, ""),
    "oxygen_saturation": ("Oxygen", 100.0, "% of saturation"),
    "night_oxygen_saturation": ("Lowest oxygen at night", 100.0, "% of saturation"),
    "alkalinity_umol_per_kg": ("Alkalinity", 1.0, "µmol/kg"),
    "ammonia_mg_n_per_l": ("Ammonia, total, as N", 1.0, "mg/L"),
    "magnesium_mg_per_l": ("Magnesium", 1.0, "mg/L"),
    "alkalinity_drift_umol_per_kg_per_day": ("Drift of alkalinity", 1.0, "µmol/kg/d"),
    "calcium_mg_per_l": ("Calcium", 1.0, "mg/L"),
    "practical_salinity": ("Salinity, practical", 1.0, ""),
    "turf_g_dry_per_m2": ("Turf on the screen, dry", 1.0, "g/m²"),
    "nitrogen_removed_mmol_per_day": ("Nitrogen removed by the turf", 1.0, "mmol/d"),
    "phosphorus_removed_mmol_per_day": (
        "Phosphorus removed by the turf",
        1.0,
        "mmol/d",
    ),
    "harvest_drained_grams": ("A harvest, drained", 1.0, "g"),
}

_WATCHED = (
    "nitrate_mg_per_l",
    "phosphate_mg_per_l",
    "daily_ph_swing",
    "night_ph",
    "night_oxygen_saturation",
    "alkalinity_umol_per_kg",
    "alkalinity_drift_umol_per_kg_per_day",
    "nitrogen_removed_mmol_per_day",
    "phosphorus_removed_mmol_per_day",
    "harvest_drained_grams",
)

#: Said wherever a range is shown.
RANGES = (
    "Numbers are medians, and a range is what nine of ten tanks like this one would show, "
    "over all that is uncertain of turf, animals and rock. A forecast is not a reading: measure."
)


def plan_html(plan: Plan) -> str:
    """Write a plan."""
    parts = [
        _moves(plan),
        paragraph(
            f"{plan.proposal.verdict} Of 100 tanks like this one "
            f"{of_100(plan.meets_all_goals)} meet all goals with it: what is not known "
            "of this tank decides the rest, and tests of it narrow that."
        ),
        comparison_table(
            plan.change, "What it gives", "with the plan", "nothing changed"
        ),
        paragraph(RANGES),
        _goals(plan),
        _forecasts(plan.forecasts),
        failures_html(plan.failures),
        _dosing(plan),
        plan.upkeep._repr_html_(),
        folded(
            "Why: how big, how long, how often, and what matters most",
            (
                plan.screen.reason,
                plan.light.reason,
                plan.harvest.reason,
                *(effect.reason for effect in plan.levers[:4]),
            ),
        ),
        _failed(plan),
        cautions(plan.cautions),
        assumed(plan.present),
    ]
    return "".join(parts)


def _moves(plan: Plan) -> str:
    moved = [move for move in plan.proposal.moves if not move.is_kept]
    rows = [
        (upper(m.words), *_lever(m.lever, m.from_value, m.to_value, m.unit))
        for m in moved
    ]
    html = table(
        f"What to set: {plan.present.name}", ("", "now", "set to", "unit"), rows
    )
    if not moved:
        html += paragraph("Nothing: no setting tried does better.")
    kept = [move.words for move in plan.proposal.moves if move.is_kept]
    if kept and moved:
        html += paragraph(f"Left as they are: {', '.join(kept)}.")
    return html


def _lever(lever: str, before: float, after: float, unit: str) -> tuple[str, str, str]:
    if lever == "start_hour":
        return clock(before), clock(after), ""
    if lever in ("kept_share", "water_change_share"):
        return number(100.0 * before), number(100.0 * after), "%"
    if lever in ("screen_area", "feeding"):
        return number(100.0 * before), number(100.0 * after), "% of the present"
    return number(before), number(after), unit


def comparison_html(comparison: Comparison) -> str:
    """Write a comparison of two setups."""
    html = comparison_table(comparison, "What the change does", "changed", "unchanged")
    return html + paragraph(f"{comparison.members} members. {RANGES}")


def comparison_table(
    comparison: Comparison, caption: str, after: str, before: str
) -> str:
    """Write what a keeper watches, under two setups."""
    rows: list[tuple[object, ...]] = []
    for name in _WATCHED:
        difference = comparison[name]
        words, factor, unit = SHOWN[name]
        if not difference.is_clear:
            agree = "either way"
        elif difference.difference.p50 > 0.0:
            agree = "higher"
        else:
            agree = "lower"
        row = (
            words,
            *range_of(difference.after, factor),
            *range_of(difference.before, factor),
        )
        rows.append((*row, unit, agree))
    heads = ("", after, "5 to 95 %", before, "5 to 95 %", "unit", "nine in ten agree")
    return table(caption, heads, rows)


def _goals(plan: Plan) -> str:
    rows = [
        (upper(GOALS[g.goal]), of_100(g.planned), of_100(g.unchanged))
        for g in plan.goals
    ]
    rows.append(("All of them", of_100(plan.meets_all_goals), ""))
    heads = (
        "goal met by, of 100 tanks like this one",
        "with the plan",
        "nothing changed",
    )
    return table("How sure", heads, rows)


def _forecasts(forecasts: Sequence[PlanForecast]) -> str:
    html = ""
    for day in dict.fromkeys(forecast.day for forecast in forecasts):
        rows: list[tuple[object, ...]] = []
        for forecast in forecasts:
            if forecast.day == day:
                words, factor, unit = SHOWN[forecast.variable]
                planned = range_of(forecast.planned, factor)
                unchanged = range_of(forecast.unchanged, factor)
                today = number(factor * forecast.persistence)
                rows.append((words, *planned, *unchanged, today, unit))
        heads = (
            "mean of the day",
            "with the plan",
            "5 to 95 %",
            "nothing changed",
            "5 to 95 %",
            "today",
            "unit",
        )
        html += table(f"In {day:g} days", heads, rows)
    if html:
        html += paragraph(
            "“Today” is what any forecast has to beat against your own tests."
        )
    return html


def failures_html(failures: Sequence[FailureAnswer]) -> str:
    """Write failures, each with the limit that is passed first."""
    rows: list[tuple[object, ...]] = []
    for answer in failures:
        first = answer.first
        nitrate = answer.nitrate_after_a_week_mg_per_l
        change = ("–", "–") if nitrate is None else range_of(nitrate, 1.0)
        if first is None:
            when = (f"none in {answer.horizon_days:g} days", "", "")
        else:
            early, median, late = first.days
            latest = "later" if late is None else _duration(late)
            span = f"{_duration(early)} to {latest}"
            when = (_limit(first.limit), _duration(median), span)
        rows.append((answer.failure.words, *when, *change))
    heads = (
        "",
        "first limit passed",
        "after",
        "5 to 95 %",
        "nitrate after a week, mg/L",
        "5 to 95 %",
    )
    return table("How long until trouble", heads, rows) + paragraph(
        "Times are from when it fails, against nothing failing. They are no promise for "
        "animals: test the water when something failed."
    )


def _limit(limit: Limit) -> str:
    words, factor, unit = SHOWN[limit.variable]
    side = "above" if limit.upper else "below"
    return f"{words} {side} {number(factor * limit.value)} {unit}".rstrip()


def _duration(days: float | None) -> str:
    if days is None:
        return "later"
    return f"{24.0 * days:.1f} h" if days < 2.0 else f"{days:.1f} d"


def _dosing(plan: Plan) -> str:
    dosing = plan.dosing
    used = [
        ("Alkalinity", dosing.alkalinity_umol_per_kg_per_day, "µmol/kg/d"),
        ("Calcium", dosing.calcium_mg_per_l_per_day, "mg/L/d"),
        ("Magnesium", dosing.magnesium_mg_per_l_per_day, "mg/L/d"),
    ]
    rows = [(words, *range_of(q, 1.0), unit) for words, q, unit in used]
    html = table("Used up with the plan", ("", "a day", "5 to 95 %", "unit"), rows)
    doses = [(salt, grams, "g/d") for salt, grams in dosing.grams_per_day.items()]
    if doses:
        html += table("Dosed with the plan", ("", "a day", "unit"), doses)
    return html + paragraph("Test before dosing, and follow the labels.")


def _failed(plan: Plan) -> str:
    if not plan.failed_members:
        return ""
    rows = [(f.member, f.reason) for f in plan.failed_members]
    caption = f"Of {plan.members} members these could not be followed"
    return table(caption, ("member", "why"), rows)


def assumed(tank: Tank) -> str:
    """Write what a description leaves open."""
    if not tank.assumptions:
        return ""
    keys = (f"{a.key}: {a.assumed}" for a in tank.assumptions)
    return folded("Taken for granted, because the description does not say", keys)


def screen_html(answer: ScreenAnswer) -> str:
    """Write how big a screen."""
    rows = [
        (
            number(point.lit_area_m2),
            *range_of(point.nitrate_mg_per_l, 1.0),
            *range_of(point.phosphate_mg_per_l, 1.0),
            *range_of(point.nitrogen_removed_mmol_per_day, 1.0),
            of_100(point.meets_goals),
        )
        for point in answer.by_area
    ]
    heads = (
        "lit area, m²",
        "nitrate, mg/L",
        "5 to 95 %",
        "phosphate, mg/L",
        "5 to 95 %",
        "nitrogen removed, mmol/d",
        "5 to 95 %",
        "all goals met, of 100",
    )
    return table("How big a screen", heads, rows) + _answered(answer.reason)


def light_html(answer: LightAnswer) -> str:
    """Write how many hours to light the screen, and when: the ten best."""
    best = sorted(answer.points, key=lambda point: point.score)[:10]
    rows = [
        (
            number(p.hours),
            clock(p.start_hour),
            number(p.nitrate_mg_per_l),
            number(p.phosphate_mg_per_l),
            number(p.daily_ph_swing),
            number(p.night_ph),
            number(100.0 * p.night_oxygen_saturation),
        )
        for p in best
    ]
    heads = (
        "h/d",
        "from",
        "nitrate, mg/L",
        "phosphate, mg/L",
        "daily pH swing",
        "lowest pH at night",
        "lowest oxygen at night, %",
    )
    caption = "How long to light the screen, and when: best first, nominal tank"
    return table(caption, heads, rows) + _answered(answer.reason)


def harvest_html(answer: HarvestAnswer) -> str:
    """Write how often and how deep to harvest."""
    rows = [
        (
            number(point.every_days),
            *range_of(point.nitrogen_removed_mmol_per_day, 1.0),
            *range_of(point.harvest_dry_grams, 1.0),
            *range_of(point.nitrate_mg_per_l, 1.0),
            number(point.turf_reserve.p50),
        )
        for point in answer.by_interval
    ]
    heads = (
        "every, d",
        "nitrogen removed, mmol/d",
        "5 to 95 %",
        "a harvest, g dry",
        "5 to 95 %",
        "nitrate, mg/L",
        "5 to 95 %",
        "lowest reserve of the holdfast layer",
    )
    return table("How often to harvest", heads, rows) + _answered(answer.reason)


def _answered(reason: str) -> str:
    return paragraph(reason) + paragraph(RANGES)


def range_of(q: Quantiles, factor: float) -> tuple[str, str]:
    """Write the median, and the 5 to 95 % range."""
    ends = sorted((factor * q.p5, factor * q.p95))
    return number(factor * q.p50), " to ".join(map(number, ends))


def of_100(share: float) -> str:
    """Write a share as so many of a hundred."""
    return f"{100.0 * share:.0f}"


def upper(words: str) -> str:
    """Write words with a capital."""
    # "pH" has its capital.
    return words if words[1:2].isupper() else words[:1].upper() + words[1:]
