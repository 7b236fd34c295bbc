"""Logs, fits, verdicts and forecasts as tables."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from halimeda import _native
from halimeda._table import cautions, folded, number, paragraph, table
from halimeda._tank_html import date
from halimeda._tank_plan_html import RANGES, SHOWN, of_100, range_of, upper
from halimeda._words import STALLS, SUSPECTS

if TYPE_CHECKING:
    from halimeda._tank_fit import Fit
    from halimeda._tank_log import Log, LogProblem
    from halimeda._tank_verdict import Diary, Exported, Forecast, Verdict


def _words(measured: str) -> str:
    return next(words for name, words, _ in _native.measured() if name == measured)


def log_html(log: Log) -> str:
    """Write what a log holds, and all that was not read."""
    rows: list[tuple[object, ...]] = []
    for measured, unit in log.units.items():
        readings = [r for r in log.readings if r.measured == measured]
        if readings:
            span = f"{date(log.tank, readings[0].day)} to {date(log.tank, readings[-1].day)}"
            last = number(readings[-1].middle)
            rows.append((upper(_words(measured)), len(readings), span, last, unit))
    heads = ("tests", "number", "from, to", "last", "unit")
    html = table(f"Log: {log.tank.name}", heads, rows)
    if log.probes:
        probes = [
            (upper(_words(p.measured)), len(p.days), p.values.min(), p.values.max())
            for p in log.probes
            if len(p.days)
        ]
        probes = [(what, n, float(low), float(high)) for what, n, low, high in probes]
        html += table("Probes", ("", "records", "least", "most"), probes)
    kinds: dict[str, int] = {}
    for entry in log.entries:
        kinds[entry.kind] = kinds.get(entry.kind, 0) + 1
    if kinds:
        rows = [(kind.replace("_", " "), count) for kind, count in kinds.items()]
        html += table("Done and happened", ("", "number"), rows)
    html += _problems("Not read", log.rejected)
    return html + _problems("Read, and worth a look", log.notes)


# More than these a person does not read.
_MOST_PROBLEMS = 20


def _problems(caption: str, problems: Sequence[LogProblem]) -> str:
    if not problems:
        return ""
    rows: list[tuple[object, ...]] = [
        (
            p.source,
            f"{p.line} to {p.last_line}" if p.last_line != p.line else p.line,
            p.column,
            p.found,
            "; ".join(filter(None, (p.expected, p.suggestion))),
        )
        for p in problems[:_MOST_PROBLEMS]
    ]
    html = table(
        f"{caption}: {len(problems)}", ("file", "line", "column", "found", ""), rows
    )
    if len(problems) > _MOST_PROBLEMS:
        html += paragraph(f"And {len(problems) - _MOST_PROBLEMS} more.")
    return html


def fit_html(fit: Fit) -> str:
    """Write what a log informs, best known first."""
    rows: list[tuple[object, ...]] = [
        (
            f.path,
            *range_of(f.prior, 1.0),
            *range_of(f.posterior, 1.0),
            "" if f.unit == "1" else f.unit,
            of_100(f.information),
        )
        for f in fit.informed
    ]
    heads = (
        "unknown",
        "before the log",
        "5 to 95 %",
        "after it",
        "5 to 95 %",
        "unit",
        "uncertainty taken away, %",
    )
    html = table(f"What the log says: {fit.tank.name}", heads, rows)
    html += paragraph(
        f"{len(fit.resting_on_ranges)} of {len(fit.fitted)} unknowns still rest on their "
        f"published ranges. {upper(fit.quality.words)}."
    )
    return html + (folded("What to know about it", fit.notes) if fit.notes else "")


def verdict_html(verdict: Verdict) -> str:
    """Write a verdict: words first, then the numbers behind them."""
    rows: list[tuple[object, ...]]
    heads: tuple[str, ...]
    html = "".join(paragraph(sentence) for sentence in verdict.summary)
    removal = verdict.removal
    if removal is not None:
        rows = [
            (
                "Nitrogen",
                *range_of(removal.nitrogen_mmol_per_day, 1.0),
                *range_of(removal.nitrogen_load_mmol_per_day, 1.0),
                of_100(removal.nitrogen_keeps_pace),
                of_100(removal.nitrogen_exceeds_load),
            ),
            (
                "Phosphorus",
                *range_of(removal.phosphorus_mmol_per_day, 1.0),
                *range_of(removal.phosphorus_load_mmol_per_day, 1.0),
                of_100(removal.phosphorus_keeps_pace),
                of_100(removal.phosphorus_exceeds_load),
            ),
        ]
        heads = (
            "mmol/d",
            "taken up by the turf",
            "5 to 95 %",
            "comes in",
            "5 to 95 %",
            "keeps pace, %",
            "takes out more than comes in, %",
        )
        caption = f"Is it working? The last {removal.window_days:g} days"
        html += table(caption, heads, rows)
    if verdict.causes is not None and verdict.causes.suspected:
        rows = [
            (
                upper(SUSPECTS.get(c.suspect, c.suspect)),
                of_100(c.probability),
                date(verdict.tank, c.day),
                " to ".join(date(verdict.tank, day) for day in c.range),
            )
            for c in verdict.causes.suspected
        ]
        rows.append(
            ("Nothing but what is written down", of_100(verdict.causes.nothing), "", "")
        )
        heads = ("what may have happened", "%", "since about", "between")
        html += table("Changes that the log does not mention", heads, rows)
    if verdict.stalls:
        rows = [
            (upper(STALLS.get(s.stall, s.stall)), of_100(s.probability), s.test)
            for s in verdict.stalls
        ]
        heads = ("", "%", "what would tell it from the others")
        html += table("What may keep turf from growing", heads, rows)
    if verdict.harvests:
        rows = [
            (
                date(verdict.tank, h.day),
                _weight(h.weight),
                *range_of(h.expected_grams, 1.0),
                number(h.z_score),
            )
            for h in verdict.harvests
        ]
        heads = (
            "",
            "weighed, g",
            "expected, g",
            "5 to 95 %",
            "standard deviations off",
        )
        html += table("Harvests beside what was expected", heads, rows)
    if verdict.missing:
        html += folded("What the log would need to tell more", verdict.missing)
    return html + cautions(verdict.cautions)


def _weight(weight: dict[str, float] | None) -> str:
    if weight is None:
        return "not weighed"
    [(kind, grams)] = weight.items()
    return f"{number(grams)} {kind.removesuffix('_grams')}"


def forecast_html(forecast: Forecast) -> str:
    """Write a forecast, beside what costs nothing."""
    html = ""
    for days in dict.fromkeys(h.horizon_days for h in forecast.horizons):
        rows: list[tuple[object, ...]] = []
        for horizon in forecast.horizons:
            if horizon.horizon_days == days:
                words, factor, unit = SHOWN.get(
                    horizon.variable, (horizon.variable, 1.0, "")
                )
                rivals = (
                    "–" if rival is None else number(factor * rival)
                    for rival in (horizon.persistence, horizon.trend)
                )
                rows.append(
                    (words, *range_of(horizon.quantiles, factor), *rivals, unit)
                )
        heads = (
            "mean of the day",
            "forecast",
            "5 to 95 %",
            "nothing changes",
            "straight line",
            "unit",
        )
        when = date(forecast.tank, forecast.today + days)
        html += table(f"In {days:g} days, {when}: {forecast.tank.name}", heads, rows)
    return html + paragraph(
        f"{RANGES} It goes on by the schedule: what will be done differently is not in "
        "it, nor what will break."
    )


def diary_html(diary: Diary) -> str:
    """Write what harvests carried out."""
    rows: list[tuple[object, ...]] = [
        (date(diary.tank, e.day), _weight(e.weight), *_exported(e.exported))
        for e in diary.entries
    ]
    if diary.total is not None:
        rows.append(("All", "", *_exported(diary.total)))
    heads: tuple[str, ...] = (
        "harvest",
        "weighed, g",
        "dry, g",
        "nitrogen, g",
        "phosphorus, g",
    )
    html = table(f"Harvest diary: {diary.tank.name}", heads, rows)
    html += "".join(paragraph(sentence) for sentence in diary.summary)
    if diary.metals:
        rows = [
            (
                m.metal,
                number(m.middle_mg),
                f"{number(m.low_mg)} to {number(m.high_mg)}",
                m.source,
            )
            for m in diary.metals
        ]
        heads = ("metal", "mg", "range", "contents from")
        html += table("Metals carried out: orders of magnitude", heads, rows)
    return html


def _exported(exported: Exported) -> tuple[str, str, str]:
    columns = (exported.dry_grams, exported.nitrogen_grams, exported.phosphorus_grams)
    ranges = (range_of(q, 1.0) for q in columns)
    dry, nitrogen, phosphorus = (f"{middle} ({span})" for middle, span in ranges)
    return dry, nitrogen, phosphorus
