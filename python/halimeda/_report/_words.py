"""Numbers, dates and names as the report says them."""

from __future__ import annotations

import datetime as dt
import re
from typing import TYPE_CHECKING

from halimeda._table import number
from halimeda._tank_html import clock

if TYPE_CHECKING:
    from halimeda._tank import Tank
    from halimeda._tank_ensemble import Quantiles
    from halimeda._tank_plan import Limit, Move, Plan

#: What a keeper watches, as shown: words, factor and unit.
WATCHED = {
    "nitrate_mg_per_l": ("nitrate (as NO₃)", 1.0, "mg/L"),
    "phosphate_mg_per_l": ("phosphate (as PO₄)", 1.0, "mg/L"),
    "ammonia_mg_n_per_l": ("ammonia (as N)", 1.0, "mg/L"),
    "unionised_ammonia_mg_per_l": ("un-ionised ammonia (as NH₃)", 1.0, "mg/L"),
    "ph_total": ("pH (total scale)", 1.0, ""),
    "daily_ph_swing": ("daily pH swing", 1.0, ""),
    "night_ph": ("lowest pH at night (total scale)", 1.0, ""),
    "oxygen_saturation": ("oxygen", 100.0, "% of saturation"),
    "night_oxygen_saturation": ("lowest oxygen at night", 100.0, "% of saturation"),
    "alkalinity_umol_per_kg": ("alkalinity", 1.0, "µmol/kg"),
    "alkalinity_drift_umol_per_kg_per_day": (
        "drift of alkalinity",
        1.0,
        "µmol/kg a day",
    ),
    "aragonite_saturation": ("aragonite saturation", 1.0, ""),
    "calcium_mg_per_l": ("calcium", 1.0, "mg/L"),
    "magnesium_mg_per_l": ("magnesium", 1.0, "mg/L"),
    "practical_salinity": ("practical salinity", 1.0, ""),
    "turf_g_dry_per_m2": ("dry turf on the screen", 1.0, "g/m²"),
    "nitrogen_removed_mmol_per_day": ("nitrogen the turf takes out", 1.0, "mmol a day"),
    "phosphorus_removed_mmol_per_day": (
        "phosphorus the turf takes out",
        1.0,
        "mmol a day",
    ),
    "harvest_drained_grams": ("a harvest, drained", 1.0, "g"),
}

#: The standard library has these in the language of the machine only.
_MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)

#: Group and name of a parameter within a sentence.
_PARAMETER = re.compile(r"\b[a-z_]+\.[a-z][a-z0-9_]+\b")


def upper(words: str) -> str:
    """Begin a sentence."""
    return words if words.startswith("pH") else words[:1].upper() + words[1:]


def plainer(text: str) -> str:
    """Write parameters in a sentence as words, as in "turf: saturation irradiance"."""
    from halimeda.plots import in_words

    return _PARAMETER.sub(lambda found: f"“{in_words(found.group())}”", text)


def row_head(name: str) -> str:
    """Write what a keeper watches with its unit, as the head of a row."""
    words, _, unit = WATCHED[name]
    return upper(f"{words}, {unit}" if unit else words)


def shown(name: str, x: float) -> str:
    """Write a number that a keeper watches with as many digits as it is worth."""
    return rounded(WATCHED[name][1] * x, 2 if "ph" in name.split("_") else None)


def rounded(x: float, decimals: int | None = None) -> str:
    """Write a number to two significant digits, or to so many decimals."""
    if decimals is not None:
        return f"{x:.{decimals}f}"
    if x == 0.0 or abs(x) >= 10.0:
        return f"{x:.0f}"
    return number(float(f"{x:.2g}"))


def value(name: str, x: float) -> str:
    """Write a number that a keeper watches with its unit."""
    return f"{shown(name, x)} {WATCHED[name][2]}".rstrip()


def watched_range(name: str, q: Quantiles) -> str:
    """Write a median of what a keeper watches with its 5 to 95 % range."""
    return f"{shown(name, q.p50)} ({shown(name, q.p5)} to {shown(name, q.p95)})"


def ranged(q: Quantiles) -> str:
    """Write a median with its 5 to 95 % range."""
    return f"{rounded(q.p50)} ({rounded(q.p5)} to {rounded(q.p95)})"


def of_100(share: float) -> str:
    """Write a share as so many of a hundred."""
    return f"{100.0 * share:.0f} of 100"


def duration(days: float) -> str:
    """Write a time in hours or days."""
    return f"{24.0 * days:.0f} hours" if days < 2.0 else f"{days:.1f} days"


def limit(passed: Limit) -> str:
    """Write one side of a limit."""
    words, factor, unit = WATCHED[passed.variable]
    side = "above" if passed.upper else "below"
    return f"{words} {side} {number(factor * passed.value)} {unit}".rstrip()


def first_moves(plan: Plan) -> list[Move]:
    """Order what is to be changed, what matters most first."""
    strongest = [effect.lever for effect in plan.levers]
    moves = [move for move in plan.proposal.moves if not move.is_kept]
    return sorted(
        moves,
        key=lambda move: (
            strongest.index(move.lever) if move.lever in strongest else len(strongest)
        ),
    )


def lever(move: Move) -> tuple[str, str]:
    """Write where a lever stands and where it should, with units."""
    if move.lever == "start_hour":
        return clock(move.from_value), clock(move.to_value)
    if move.lever in ("kept_share", "water_change_share"):
        scale, unit = 100.0, "%"
    elif move.lever in ("screen_area", "feeding"):
        scale, unit = 100.0, "% of the present"
    else:
        scale, unit = 1.0, move.unit
    return (
        f"{number(scale * move.from_value)} {unit}".rstrip(),
        f"{number(scale * move.to_value)} {unit}".rstrip(),
    )


def date(tank: Tank, day: float) -> str:
    """Write a day as a date, or as a count where the tank has no first day."""
    if tank.start is None:
        return f"day {int(day)}"
    return plain_date(tank.start + dt.timedelta(days=int(day)))


def plain_date(when: dt.date) -> str:
    """Write a date as everybody reads it the same way, whatever the locale."""
    return f"{when.day} {_MONTHS[when.month - 1]} {when.year}"
