"""The figures of the report, each with its words."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import numpy as np

from halimeda import plots
from halimeda._errors import HalimedaValueError
from halimeda._report._blocks import Picture
from halimeda._report._svg import inline
from halimeda._report._words import WATCHED, value
from halimeda._table import number
from halimeda._tank_html import clock
from halimeda.plots._readings import measured_as

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from halimeda._tank import Tank
    from halimeda._tank_ensemble import Ensemble
    from halimeda._tank_fit import Fit
    from halimeda._tank_log import Log
    from halimeda._tank_plan import Influence, Plan
    from halimeda._tank_run import Run
    from halimeda._tank_verdict import Forecast, Verdict


def _picture(
    figure: Figure, name: str, title: str, shows: str, caption: str
) -> Picture:
    svg = inline(figure, name=name, title=title, description=shows)
    return Picture(svg, caption)


def daily_cycle(run: Run) -> Picture:
    """One day: pH, oxygen, CO2 and lamps."""
    day = max(int(np.floor(run.days[-1])) - 1, 0)
    of_day = (run.days >= day) & (run.days <= day + 1)

    def course(values: np.ndarray, unit: str) -> str:
        low, high = values[of_day].argmin(), values[of_day].argmax()
        hours = 24.0 * (run.days[of_day] - day)
        return (
            f"lowest at {clock(hours[low])} with {number(values[of_day][low])}{unit}, "
            f"highest at {clock(hours[high])} with {number(values[of_day][high])}{unit}"
        )

    shows = (
        f"pH {course(run.ph_total, '')}. "
        f"Oxygen {course(100.0 * run.oxygen_saturation, ' % of saturation')}. "
        f"Dissolved CO2 {course(run.carbon_dioxide_umol_per_kg, ' µmol/kg')}."
    )
    return _picture(
        plots.daily_cycle(run, day=day),
        "day",
        "pH, oxygen and CO2 through one day",
        shows,
        "One day of the tank with the most likely numbers. Grey: display dark. "
        + shows,
    )


def nutrients(ensemble: Ensemble, tank: Tank) -> Picture:
    """Nitrate and phosphate to come."""
    said: list[str] = []
    for name, words, goal in (
        ("nitrate_mg_per_l", "nitrate", tank.goals.nitrate_mg_per_l),
        ("phosphate_mg_per_l", "phosphate", tank.goals.phosphate_mg_per_l),
    ):
        low, _, middle, _, high = ensemble.over_time[name][:, -1]
        said.append(
            f"{words} is {number(middle)} mg/L in the median and between {number(low)} and "
            f"{number(high)} mg/L in nine of ten, with a goal of {number(goal.low)} to "
            f"{number(goal.high)} mg/L"
        )
    shows = f"On day {ensemble.days[-1]:g} {'; '.join(said)}."
    return _picture(
        plots.nutrients(ensemble),
        "nutrients",
        "Nitrate and phosphate to come, against their goals",
        shows,
        f"{len(ensemble)} tanks like this one, each with other numbers for what is not "
        f"known of it. {shows}",
    )


def turf(run: Run) -> Picture:
    """Turf and harvests."""
    harvests = run.harvests
    taken = (
        f"{len(harvests)} harvests of {number(min(h.drained_grams for h in harvests))} to "
        f"{number(max(h.drained_grams for h in harvests))} g drained"
        if harvests
        else "no harvest"
    )
    shows = (
        f"Between {number(run.turf_g_dry_per_m2.min())} and "
        f"{number(run.turf_g_dry_per_m2.max())} g of dry turf per m², {taken} in "
        f"{run.days[-1]:g} days. The reserve of the holdfast layer goes down to "
        f"{100.0 * run.turf_reserve.min():.0f} %; a mat that spends it lets go."
    )
    return _picture(
        plots.turf(run), "turf", "Turf on the screen and its harvests", shows, shows
    )


def flow(run: Run, days: float, element: plots.Nutrient) -> Picture:
    """Where an element goes."""
    ledger = run.ledger
    grams = {
        process: ledger.entry(process, element)
        * plots.GRAMS_PER_MOL[element]
        * 7.0
        / days
        for process in ledger.processes
    }
    entered = sum(g for g in grams.values() if g > 0.0)
    parts = [
        f"{process} {number(-g)} g"
        for process, g in sorted(grams.items(), key=lambda pair: pair[1])
        if g < -0.01 * entered
    ]
    shows = (
        f"{number(entered)} g of {element} a week come in. Out go: {', '.join(parts)}."
    )
    return _picture(
        plots.nutrient_flow(ledger, element, days=days),
        element,
        f"Where the {element} comes from and where it goes",
        shows,
        f"{element.capitalize()} over {days:g} days with the most likely numbers.",
    )


def screen_size(plan: Plan) -> Picture:
    """How big a screen."""
    points = plan.screen.by_area
    shows = "; ".join(
        f"{number(p.lit_area_m2)} m²: nitrate {number(p.nitrate_mg_per_l.p50)}, phosphate "
        f"{number(p.phosphate_mg_per_l.p50)} mg/L"
        for p in points
    )
    return _picture(
        plots.screen_size(
            points,
            goals=plan.present.goals,
            lit_area_m2=plan.tank.screen.lit_area_m2,
        ),
        "area",
        "Nitrate and phosphate that screens of several sizes leave",
        f"Medians: {shows}.",
        "What screens of other sizes would leave in the water, with the light of the plan.",
    )


def light_hours(plan: Plan) -> Picture:
    """How many hours, and when."""
    best = plan.light.best
    return _picture(
        plots.light_hours(plan.light.points, best=best, goals=plan.present.goals),
        "light",
        "Daily swing of pH by how long and from when the screen is lit",
        f"The best is {number(best.hours)} hours from {clock(best.start_hour)} with a swing "
        f"of {number(best.daily_ph_swing)}.",
        "The lighter a field, the steadier the pH. A cross: nitrate or phosphate misses its "
        "goal. Framed: what serves all goals best.",
    )


def readings(
    name: str,
    log: Log,
    fit: Fit | None,
    verdict: Verdict | None,
    forecast: Forecast | None,
) -> Picture:
    """What was tested, beside the fitted tank and what is to come."""
    last = log.last_day or 0.0
    fitted = (
        log.tank.ensemble(last, fit=fit, variables=[name], sample_every_days=0.25)
        if fit is not None and last >= 1.0
        else None
    )
    changes: list[float] = []
    if verdict is not None and verdict.causes is not None:
        changes = [c.day for c in verdict.causes.suspected if c.probability > 0.5]
    words = WATCHED[name][0]
    tests = [t for t in log.readings if t.measured == measured_as(name)]
    shows = (
        f"{len(tests)} tests of {words}, from {value(name, tests[0].middle)} to "
        f"{value(name, tests[-1].middle)} in the last."
    )
    ahead = None if forecast is None or name not in forecast.over_time else forecast
    if ahead is not None:
        low, _, middle, _, high = ahead.over_time[name][:, -1]
        shows += (
            f" The forecast ends at {value(name, middle)}, in nine of ten tanks between "
            f"{value(name, low)} and {value(name, high)}."
        )
    caption = f"{shows} Bars: what a test leaves open."
    if changes:
        caption += " Dashed: where the log may lack a change."
    return _picture(
        plots.readings(
            log,
            name,
            fitted=fitted,
            forecast=ahead,
            change_points=changes,
            today=None if forecast is None else forecast.today,
        ),
        f"tests-{name.split('_')[0]}",
        f"Tests of {words} beside the fitted tank and the forecast",
        shows,
        caption,
    )


#: Sizes of the screen, of the present, and hours a day that are tried.
_SIZES: Final = (0.5, 0.75, 1.0, 1.5, 2.0, 3.0)
_HOURS: Final = (8.0, 11.0, 14.0, 17.0, 20.0)
#: Days followed until nitrate has settled, and days it is then taken from.
_SETTLED_DAYS: Final = 60.0
_TAKEN_DAYS: Final = 20.0
_SAMPLES_PER_DAY: Final = 4


def trade_off(plan: Plan) -> Picture:
    """A small screen lit long, or a large one lit short, with all else as planned."""
    planned = plan.present.replace(**plan.settings)
    nitrate = [[_settled(planned, size, lit) for size in _SIZES] for lit in _HOURS]
    area = planned.screen.lit_area_m2
    light = planned.schedule.screen_light.hours
    goal = plan.present.goals.nitrate_mg_per_l
    figure = plots.trade_off(
        [area * size for size in _SIZES],
        _HOURS,
        nitrate,
        goal_mg_per_l=(goal.low, goal.high),
        planned=(area, light) if _HOURS[0] <= light <= _HOURS[-1] else None,
    )
    fewer = ", ".join(
        f"{number(area * size)} m² {number(row)} mg/L"
        for size, row in zip(_SIZES, nitrate[len(_HOURS) // 2], strict=True)
    )
    return _picture(
        figure,
        "hours",
        "Nitrate by lit area and hours of light",
        f"At {_HOURS[len(_HOURS) // 2]:g} hours a day: {fewer}.",
        "Where nitrate settles with the most likely numbers, for screens of any size lit for "
        "any number of hours, all else as planned. Along a colour the screens are as good "
        "as each other.",
    )


def _settled(tank: Tank, size: float, hours: float) -> float:
    """Nitrate a changed screen leaves; not a number where it cannot be followed."""
    try:
        run = tank.replace(screen_area=size, lit_hours=hours).simulate(
            _SETTLED_DAYS,
            sample_every_days=1.0 / _SAMPLES_PER_DAY,
            relative_tolerance=1e-4,
        )
    except HalimedaValueError:
        return float("nan")
    last = run.nitrate_mg_per_l[-int(_TAKEN_DAYS * _SAMPLES_PER_DAY) :]
    return float(np.median(last))


def influence(influences: tuple[Influence, ...]) -> Picture:
    """What decides nitrate."""
    shows = ", ".join(
        f"{one.parameter} {one.rank_correlation:+.2f}" for one in influences
    )
    return _picture(
        plots.influence(influences),
        "influence",
        "What nitrate depends on most of what is not known",
        f"Rank correlations with nitrate: {shows}.",
        "Of everything that is not known of this tank, this decides nitrate most. 1 would "
        "decide it alone, 0 not at all.",
    )
