"""Tanks as tables."""

from __future__ import annotations

import datetime
from typing import TYPE_CHECKING

from halimeda._table import number, paragraph, table

if TYPE_CHECKING:
    from halimeda._tank_described import DescribedTank
    from halimeda._tank_setup import Photoperiod


def clock(hour: float) -> str:
    """Write an hour of the day as on a clock."""
    minutes = round(60.0 * hour) % 1440
    return f"{minutes // 60:02d}:{minutes % 60:02d}"


def date(tank: DescribedTank, day: float) -> str:
    """Write a day as a date, if the tank has one to start from."""
    if tank.start is None:
        return f"day {int(day)}"
    return (tank.start + datetime.timedelta(days=int(day))).isoformat()


def tank_html(tank: DescribedTank) -> str:
    """Write what a description says."""
    stands, schedule, screen = tank.setup, tank.schedule, tank.screen
    water = stands.water
    rows: list[tuple[object, ...]] = [
        ("Net volume", stands.net_volume_l, "L"),
        ("Temperature", stands.temperature_celsius, "°C"),
        ("Salinity, practical", stands.practical_salinity, ""),
        ("Alkalinity", water.alkalinity_umol_per_kg, "µmol/kg"),
        ("Nitrate", water.nitrate_umol_per_kg, "µmol/kg"),
        ("Phosphate", water.phosphate_umol_per_kg, "µmol/kg"),
        ("Calcium", water.calcium_umol_per_kg, "µmol/kg"),
        ("Magnesium", water.magnesium_umol_per_kg, "µmol/kg"),
        ("CO2 of the room's air", stands.air.co2_ppm, "ppm"),
        ("Lit area of the screen", screen.lit_area_m2, "m²"),
        ("Irradiance on the screen", screen.irradiance_umol_per_m2_s, "µmol/m²/s"),
        ("Light over the screen", *_light(schedule.screen_light)),
        ("Light over the display", *_light(schedule.display_light)),
        ("Food", sum(f.grams for f in schedule.feedings), "g/d as fed"),
    ]
    if schedule.harvest is not None:
        rows.append(("Harvest every", schedule.harvest.every_days, "d"))
    if schedule.water_change is not None:
        change = schedule.water_change
        what = f"d, {number(100.0 * change.share)} % of the water"
        rows.append(("Water change every", change.every_days, what))
    html = table(tank.name, ("", "value", "unit"), rows)
    if tank.assumptions:
        keys = ", ".join(assumption.key for assumption in tank.assumptions)
        html += paragraph(
            f"Taken for granted, because the description does not say: {keys}."
        )
    return html


def _light(photoperiod: Photoperiod) -> tuple[float, str]:

    return photoperiod.hours, f"h/d from {clock(photoperiod.start_hour)}"
