"""One page with what a keeper should know and do about a tank."""

from __future__ import annotations

import datetime as dt
import os
from importlib import resources
from pathlib import Path
from typing import TYPE_CHECKING

from halimeda._errors import HalimedaTypeError
from halimeda._native import __version__
from halimeda._progress import ProgressArgument

if TYPE_CHECKING:
    from halimeda._report._blocks import Section
    from halimeda._report._known import Known
    from halimeda._tank import Tank
    from halimeda._tank_ensemble import Ensemble
    from halimeda._tank_fit import Fit
    from halimeda._tank_log import Log
    from halimeda._tank_plan import Plan
    from halimeda._tank_run import Run
    from halimeda._tank_upkeep import Upkeep
    from halimeda._tank_verdict import Forecast, Verdict

#: Days followed where nothing was followed yet.
_DAYS = 90.0
#: Members of an ensemble where none was given.
_MEMBERS = 64


def report(
    tank: Tank,
    *,
    path: str | os.PathLike[str],
    plan: Plan | None = None,
    run: Run | None = None,
    ensemble: Ensemble | None = None,
    log: Log | None = None,
    fit: Fit | None = None,
    verdict: Verdict | None = None,
    forecast: Forecast | None = None,
    upkeep: Upkeep | None = None,
    made: dt.date | None = None,
    overwrite: bool = False,
    progress: ProgressArgument = False,
) -> Path:
    """Write one page with what to do first, what to expect, and how sure that is.

    The page is a single HTML file that needs no network and no script, reads on a
    phone, in the dark and on A4, and says with its inputs how to make it again.

    Parameters
    ----------
    tank : Tank
        The tank as described.
    path : str or path
        Where to write; the folder must exist.
    plan : Plan, optional
        A plan for the tank, from `Tank.plan`.
    run, ensemble : Run, Ensemble, optional
        The tank followed with the most likely numbers, and with many; by default the
        planned tank, or the tank as it is where there is neither plan nor log, for 90
        days. The
        ensemble needs ``nitrate_mg_per_l`` and ``phosphate_mg_per_l`` over time.
    log : Log, optional
        The keeper's log of the tank.
    fit, verdict, forecast, upkeep : Fit, Verdict, Forecast, Upkeep, optional
        What was made of the log; each is shown if given.
    made : datetime.date, optional
        Date on the page; today's by default.
    overwrite : bool
        Whether a file that is there may be replaced.
    progress : bool or callable
        As for `Tank.simulate`.

    Returns
    -------
    pathlib.Path
        The file.

    Raises
    ------
    FileExistsError
        There is such a file, and `overwrite` is False.
    HalimedaTypeError
        `tank` is none, or something was made for another tank.
    HalimedaValueError
        The tank cannot be followed.
    ImportError
        matplotlib or Jinja2 is missing: ``pip install 'halimeda[report]'``.
    """
    from halimeda._report._known import Known
    from halimeda._tank import Tank

    if not isinstance(tank, Tank):  # pyright: ignore[reportUnnecessaryIsInstance]
        raise HalimedaTypeError(
            f"tank is a Tank, not {type(tank).__name__}",
            input="tank",
            kind="wrong_type",
        )
    for name, made_for in (
        ("plan", None if plan is None else plan.present),
        ("log", None if log is None else log.tank),
        ("fit", None if fit is None else fit.tank),
        ("verdict", None if verdict is None else verdict.tank),
        ("forecast", None if forecast is None else forecast.tank),
    ):
        if made_for is not None and made_for != tank:
            raise HalimedaTypeError(
                f"{name} was made for another tank", input=name, kind="contradictory"
            )
    target = Path(path)
    if target.exists() and not overwrite:
        raise FileExistsError(
            f"{target} is there already; give another name, or overwrite=True"
        )
    followed = tank if plan is None else plan.tank
    # What a log says of the tank takes the place of what is likely of any.
    unlogged = plan is not None or log is None
    if run is None and unlogged:
        run = followed.simulate(_DAYS, progress=progress)
    if ensemble is None and unlogged:
        ensemble = followed.ensemble(
            _DAYS,
            members=_MEMBERS,
            variables=("nitrate_mg_per_l", "phosphate_mg_per_l"),
            sample_every_days=0.25,
            progress=progress,
        )
    known = Known(
        tank=tank,
        plan=plan,
        run=run,
        ensemble=ensemble,
        log=log,
        fit=fit,
        verdict=verdict,
        forecast=forecast,
        upkeep=upkeep,
        made=made or dt.date.today(),
    )
    page = _page(known)
    # Whole or not at all: a full disk leaves the old page.
    unfinished = target.with_name(f".{target.name}.unfinished")
    try:
        unfinished.write_text(page, encoding="utf-8")
        unfinished.replace(target)
    finally:
        unfinished.unlink(missing_ok=True)
    return target


def _page(known: Known) -> str:
    try:
        import jinja2
    except ImportError as error:
        raise ImportError(
            "the report needs Jinja2, which comes with: pip install 'halimeda[report]'"
        ) from error
    from halimeda._report import _frame

    environment = jinja2.Environment(
        loader=jinja2.PackageLoader("halimeda", "_report"),
        autoescape=True,
        trim_blocks=True,
        undefined=jinja2.StrictUndefined,
    )
    style = resources.files("halimeda").joinpath("_report/style.css")
    return environment.get_template("page.html.j2").render(
        title=f"{known.tank.name}: what to know and do",
        about=_frame.about(known),
        first=_frame.first(known),
        cautions=_frame.cautions(known),
        sections=[*_sections(known), *_frame.appendix(known)],
        style=style.read_text("utf-8"),
        version=__version__,
    )


def _sections(known: Known) -> list[Section]:
    """What is known, in the order in which a keeper asks."""
    from halimeda._report import _log_sections, _plan_sections

    tank, plan = known.tank, known.plan
    sections: list[Section] = []
    if known.verdict is not None:
        sections.append(_log_sections.working(known.verdict))
    if known.log is not None:
        sections.append(
            _log_sections.log(tank, known.log, known.fit, known.verdict, known.forecast)
        )
    if known.forecast is not None:
        sections.append(_log_sections.coming(tank, known.forecast))
    if known.run is not None:
        sections.append(_plan_sections.today(tank, known.run))
    if plan is not None:
        sections.append(_plan_sections.change(plan))
    if known.upkeep is not None:
        sections.append(_log_sections.due(tank, known.upkeep))
    elif plan is not None:
        sections.append(_plan_sections.upkeep(plan))
    if known.ensemble is not None:
        sections.append(_plan_sections.ahead(tank, known.ensemble, plan))
    if known.run is not None:
        sections += _plan_sections.day_and_turf(known.run)
    if plan is not None:
        sections += [
            _plan_sections.how_big(plan),
            _plan_sections.trouble(plan),
            _plan_sections.dosing(plan),
            _plan_sections.how_sure(plan),
        ]
    return sections
