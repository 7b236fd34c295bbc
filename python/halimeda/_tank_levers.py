"""Levers of a tank as changes of its description."""

# The modules of a tank know each other, and hold what comes from without to its kind.
# pyright: reportPrivateUsage=false, reportUnnecessaryIsInstance=false

from __future__ import annotations

import math
import numbers
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from halimeda import _native
from halimeda._errors import HalimedaTypeError, HalimedaValueError

if TYPE_CHECKING:
    from halimeda._tank_described import DescribedTank


def lever_units() -> dict[str, str]:
    """Return the unit of every lever, by its name."""
    return {name: unit for name, _, unit in _native.levers()}


def lever_words() -> dict[str, str]:
    """Return what every lever is, in words."""
    return {name: words for name, words, _ in _native.levers()}


def lever_changes(tank: DescribedTank, levers: Mapping[str, float]) -> dict[str, Any]:
    """Return the keys of a description that move levers, with their new values.

    What a lever does not move stays what it is: where a description gives it by
    another key, that key is taken out and the number written in its place.
    """
    changes: dict[str, Any] = {}
    written = tank.to_dict()

    def hold(key: str, instead_of: str, value: str) -> None:
        table, *inner, name = instead_of.split(".")
        at = written.get(table, {})
        for step in inner:
            at = at.get(step, {})
        if name in at:
            changes.setdefault(key, value)
            changes[instead_of] = None

    screen, schedule = tank.setup.screen, tank.schedule
    values = dict(zip(lever_units(), _native.lever_values(tank._native), strict=True))
    for lever, value in levers.items():
        if lever not in values:
            known = ", ".join(values)
            message = f"there is no lever {lever!r}; there are {known}"
            raise HalimedaValueError(message, input=lever, kind="unknown_name")
        number = _number(lever, value)
        if values[lever] is None:
            lacks = "foam fractionator" if lever == "foam_flow" else "water changes"
            message = f"{lever} cannot be moved: the tank has no {lacks}"
            raise HalimedaValueError(message, input=lever, kind="contradictory")
        match lever:
            case "screen_area":
                if number <= 0.0:
                    message = (
                        f"screen_area is {number:g} times the present; it is above zero"
                    )
                    raise HalimedaValueError(
                        message, input=lever, value=number, kind="out_of_range"
                    )
                changes["screen.width"] = (
                    f"{_text(screen.width_cm * math.sqrt(number))} cm"
                )
                changes["screen.height"] = (
                    f"{_text(screen.height_cm * math.sqrt(number))} cm"
                )
                hold(
                    "screen.flow_per_width",
                    "screen.flow",
                    f"{_text(screen.flow_l_per_h_per_cm)} L/h/cm",
                )
                hold(
                    "screen.irradiance",
                    "screen.lamp_power",
                    f"{_text(screen.irradiance_umol_per_m2_s)} µmol/m²/s",
                )
            case "irradiance":
                changes["screen.irradiance"] = f"{_text(number)} µmol/m²/s"
                changes["screen.lamp_power"] = None
            case "lit_hours":
                changes["screen.light.duration"] = f"{_text(number)} h"
                changes["screen.light.end"] = None
            case "start_hour":
                changes["screen.light.start"] = _clock(number)
                hold(
                    "screen.light.duration",
                    "screen.light.end",
                    f"{_text(schedule.screen_light.hours)} h",
                )
            case "flow_per_width":
                changes["screen.flow_per_width"] = f"{_text(number)} L/h/cm"
                changes["screen.flow"] = None
            case "harvest_interval" | "kept_share":
                plan = schedule.harvest
                if plan is None:
                    message = (
                        f"{lever} cannot be moved: the tank has no harvests; give "
                        "it some, as in {'harvest': {'every': '10 d', 'kept_share': 0.25}}"
                    )
                    raise HalimedaValueError(message, input=lever, kind="contradictory")
                if lever == "harvest_interval":
                    changes["harvest.every"] = f"{_text(number)} d"
                    changes["harvest.first"] = f"{_text(plan.first_day)} d"
                else:
                    changes["harvest.kept_share"] = number
            case "feeding":
                for place, feeding in enumerate(schedule.feedings, start=1):
                    changes[f"feeding[{place}].mass"] = (
                        f"{_text(feeding.grams * number)} g"
                    )
            case "water_change_share":
                changes["water_change.share"] = number
                changes["water_change.volume"] = None
            case "water_change_interval":
                assert schedule.water_change is not None
                changes["water_change.every"] = f"{_text(number)} d"
                changes["water_change.first"] = (
                    f"{_text(schedule.water_change.first_day)} d"
                )
            case "overflow":
                changes["tank.overflow"] = f"{_text(number)} L/h"
            case "open_surface":
                changes["tank.surface_area"] = f"{_text(number)} m²"
            case _:  # "foam_flow"
                changes["foam_fractionator.flow"] = f"{_text(number)} L/h"
    return changes


def _text(number: float) -> str:
    return repr(number).removesuffix(".0")


def _number(lever: str, value: object) -> float:
    if isinstance(value, bool) or not isinstance(value, numbers.Real):
        unit = lever_units()[lever]
        message = f"{lever} is a number{unit and ' of ' + unit}, not {value!r}"
        raise HalimedaTypeError(message, input=lever, kind="wrong_type")
    number = float(value)
    if not math.isfinite(number):
        message = f"{lever} is {number}, not a finite number"
        raise HalimedaValueError(message, input=lever, value=number, kind="non_finite")
    return number


def _clock(hour: float) -> str:
    if not 0.0 <= hour <= 24.0:
        message = f"start_hour is {hour:g}; it lies between 0 and 24"
        raise HalimedaValueError(
            message,
            input="start_hour",
            value=hour,
            limits=(0.0, 24.0),
            kind="out_of_range",
        )
    seconds = round(3600.0 * hour) % 86_400
    return f"{seconds // 3600:02d}:{seconds // 60 % 60:02d}:{seconds % 60:02d}"
