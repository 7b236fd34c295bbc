"""The package from a terminal: ``python -m halimeda``."""

from __future__ import annotations

import argparse
import datetime as dt
import sys
import textwrap
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from halimeda._errors import HalimedaError
from halimeda._native import __version__

if TYPE_CHECKING:
    from halimeda._tank import Tank

_WIDTH = 78
#: Exit status where a question could not be answered.
_REFUSED = 2
#: Exit status after Ctrl-C, as of a shell.
_INTERRUPTED = 130

_ABOUT = """\
What the readings of a reef tank mean, what the tank will do, and what to do about it.

Quantities carry their units, in quotes: "8.2 dKH", "78 °F", "430 mg/L". A pH carries
its scale: "8.2 NBS" for a probe calibrated in buffers 4, 7 and 10, "8.05 total" for
the scale of seawater chemistry. Nothing is overwritten unless --force says so.
"""

_WATER_EXAMPLES = """\
examples:
  python -m halimeda water --temperature "25.5 °C" --salinity 35 \\
      --alkalinity "8.2 dKH" --ph "8.2 NBS"
  python -m halimeda water --temperature "78 °F" --specific-gravity "1.0264 25/25 °C" \\
      --alkalinity "2300 µmol/kg" --co2 "450 µatm" --calcium "430 mg/L"
"""

_TANK_EXAMPLES = """\
examples:
  python -m halimeda tank reef.toml
  python -m halimeda tank reef.toml --days 180 --table reef.csv
"""

_PLAN_EXAMPLES = """\
examples:
  python -m halimeda plan reef.toml --page reef.html
  python -m halimeda plan reef.toml --days 60 --members 128
"""


_LOG_EXAMPLES = """\
examples:
  python -m halimeda log reef.toml tests.csv
  python -m halimeda log reef.toml tests.csv probe.csv --page reef.html --calendar due.ics
"""


class _Refused(Exception):
    """Said to the keeper as it is."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Run a command and return its exit status.

    Parameters
    ----------
    arguments : sequence of str, optional
        What stands behind ``python -m halimeda``; that of this process by default.

    Returns
    -------
    int
        0 where it was answered, 2 where it could not be, 130 after Ctrl-C.
    """
    for stream in (sys.stdout, sys.stderr):
        # A terminal that knows no "µ" shows a question mark instead of failing.
        reconfigure: Callable[..., None] | None = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors="replace")
    given = _parser().parse_args(arguments)
    try:
        given.answer(given)
    except HalimedaError as refused:
        return _say_no(str(refused))
    except (_Refused, FileExistsError, ImportError) as refused:
        return _say_no(str(refused))
    except OSError as failed:
        where = f"{failed.filename}: " if failed.filename else ""
        return _say_no(f"{where}{failed.strerror or failed}")
    except KeyboardInterrupt:
        print("\nstopped", file=sys.stderr)
        return _INTERRUPTED
    return 0


def _say_no(reason: str) -> int:
    print(f"halimeda: {reason}", file=sys.stderr)
    return _REFUSED


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="python -m halimeda",
        description=_ABOUT,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    parser.add_argument(
        "--version", action="version", version=f"halimeda {__version__}"
    )
    commands = parser.add_subparsers(required=True, metavar="COMMAND")

    water = _command(
        commands,
        "water",
        "what two readings say about a water",
        "Print pH, alkalinity, CO2 and saturation of a water from two readings.",
        _WATER_EXAMPLES,
        _water,
    )
    temperature = 'in °C, °F or K, such as "25.5 °C" or "78 °F"'
    water.add_argument(
        "--temperature", required=True, metavar="QUANTITY", help=temperature
    )
    salt = water.add_mutually_exclusive_group(required=True)
    salt.add_argument(
        "--salinity",
        type=float,
        metavar="NUMBER",
        help="practical salinity, such as 35",
    )
    salt.add_argument(
        "--specific-gravity",
        metavar="QUANTITY",
        help='with its temperatures, such as "1.0264 25/25 °C"',
    )
    salt.add_argument(
        "--conductivity",
        metavar="QUANTITY",
        help='such as "53.1 mS/cm", at --temperature',
    )
    readings = water.add_argument_group("two of these readings")
    for name, words in (
        ("alkalinity", '"8.2 dKH", "2.9 meq/L" or "2300 µmol/kg"'),
        ("ph", 'with its scale: "8.2 NBS" or "8.05 total"'),
        ("inorganic-carbon", 'dissolved inorganic carbon, "2050 µmol/kg"'),
        ("co2", 'partial pressure at equilibrium, "450 µatm"'),
    ):
        readings.add_argument(f"--{name}", metavar="QUANTITY", help=words)
    measured = water.add_argument_group("measured ions, otherwise those of the ocean")
    for name, words in (("calcium", '"430 mg/L"'), ("magnesium", '"1320 mg/L"')):
        measured.add_argument(f"--{name}", metavar="QUANTITY", help=words)

    tank = _command(
        commands,
        "tank",
        "what a description says, and where the tank is heading",
        "Read a tank's description and follow the tank as it is.",
        _TANK_EXAMPLES,
        _tank,
    )
    _of_tank(tank, days="days to follow, 1 to 36525; as described if not given")
    tank.add_argument(
        "--table", type=Path, metavar="FILE.csv", help="write every sample as a table"
    )

    plan = _command(
        commands,
        "plan",
        "what to change, what it gives, and how sure that is",
        "Find the settings that serve the goals best. Takes up to some minutes.",
        _PLAN_EXAMPLES,
        _plan,
    )
    _of_tank(plan, days="days to look ahead, 14 to 3660; 90 if not given")
    plan.add_argument(
        "--members",
        type=int,
        default=64,
        metavar="NUMBER",
        help="tanks like this one behind every range, 1 to 65536; 64 if not given",
    )
    _of_page(plan)

    log = _command(
        commands,
        "log",
        "is it working, what will happen, what is due",
        "Read a keeper's log beside the description of its tank. Takes up to a minute.",
        _LOG_EXAMPLES,
        _log,
    )
    log.add_argument(
        "description", type=Path, metavar="TANK.toml", help="description of the tank"
    )
    log.add_argument(
        "logs",
        type=Path,
        nargs="+",
        metavar="LOG.csv",
        help="tests, probes, harvests and what was done, with units in the headings",
    )
    log.add_argument(
        "--calendar",
        type=Path,
        metavar="FILE.ics",
        help="write what is due as a calendar",
    )
    log.add_argument(
        "--force", action="store_true", help="replace files that are there already"
    )
    _of_page(log)
    return parser


def _of_page(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--page", type=Path, metavar="FILE.html", help="write the report as a page"
    )
    parser.add_argument(
        "--date",
        type=dt.date.fromisoformat,
        metavar="YYYY-MM-DD",
        help="date on the page; today's if not given",
    )


def _command(
    commands: Any,
    name: str,
    help: str,
    description: str,
    examples: str,
    answer: Callable[[argparse.Namespace], None],
) -> argparse.ArgumentParser:
    parser: argparse.ArgumentParser = commands.add_parser(
        name,
        help=help,
        description=description,
        epilog=examples,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    parser.set_defaults(answer=answer)
    return parser


def _of_tank(parser: argparse.ArgumentParser, *, days: str) -> None:
    parser.add_argument(
        "description", type=Path, metavar="TANK.toml", help="description of the tank"
    )
    parser.add_argument("--days", type=float, metavar="DAYS", help=days)
    parser.add_argument(
        "--force", action="store_true", help="replace files that are there already"
    )


# Answers.


def _water(given: argparse.Namespace) -> None:
    from halimeda._display import STATE_ROWS, WATER_ROWS
    from halimeda._native import Water

    readings = {
        "alkalinity": given.alkalinity,
        "ph": given.ph,
        "inorganic_carbon": given.inorganic_carbon,
        "partial_pressure_co2": given.co2,
    }
    readings = {name: value for name, value in readings.items() if value is not None}
    if len(readings) != 2:
        raise _Refused(
            "two readings determine the rest: give two of --alkalinity, --ph, "
            f"--inorganic-carbon and --co2, not {len(readings)}"
        )
    known = {
        "temperature": given.temperature,
        "practical_salinity": given.salinity,
        "specific_gravity": given.specific_gravity,
        "conductivity": given.conductivity,
        "calcium": given.calcium,
        "magnesium": given.magnesium,
    }
    water = Water(**{name: value for name, value in known.items() if value is not None})
    state = water.carbonate(**readings)
    _heading("The water")
    _rows(
        [
            (words, f"{getattr(water, name):.{d}f}", unit)
            for words, name, d, unit in WATER_ROWS
            if name != "air_pressure_atm"
        ]
    )
    _heading("Its carbonate system")
    _rows(
        [
            (words, f"{getattr(state, name):.{d}f}", unit)
            for words, name, d, unit in STATE_ROWS
        ]
    )
    _text(
        "From two readings and published constants; kits and probes are less certain than "
        "these digits. Check a surprising value with a second kit before acting."
    )


def _tank(given: argparse.Namespace) -> None:
    from halimeda._report._words import WATCHED, date, shown, upper

    tank = _read(given.description)
    _may_write(given.table, given.force)
    run = tank.simulate(given.days, progress=sys.stderr.isatty())
    screen = tank.screen
    _heading(tank.name)
    _text(
        f"{tank.net_volume_l:g} L, {screen.lit_area_m2:.3g} m² of lit screen under "
        f"{screen.irradiance_umol_per_m2_s:g} µmol/m²/s for "
        f"{tank.schedule.screen_light.hours:g} h a day.",
        apart=False,
    )
    _heading(f"With nothing changed, over {run.days[-1]:g} days")
    print(f"  {'':34}{'first':>9}{'last':>9}{'least':>9}{'most':>9}")
    for name in _FOLLOWED:
        words, _, unit = WATCHED[name]
        column = run.samples[name]
        numbers = (column[0], column[-1], column.min(), column.max())
        cells = "".join(f"{shown(name, float(x)):>9}" for x in numbers)
        print(f"  {upper(words):34}{cells}  {unit}".rstrip())
    if run.harvests:
        grams = sum(harvest.drained_grams for harvest in run.harvests)
        _text(
            f"{len(run.harvests)} harvests, {grams:.0f} g drained in all; the next on "
            f"{date(tank, run.harvests[0].day)}."
        )
    _text(
        "The most likely numbers only; `python -m halimeda plan` shows how wide the ranges "
        "are. A forecast is no reading: measure."
    )
    _assumed(tank)
    if given.table is not None:
        _write_table(given.table, run)


#: What `tank` shows.
_FOLLOWED = (
    "nitrate_mg_per_l",
    "phosphate_mg_per_l",
    "ph_total",
    "oxygen_saturation",
    "alkalinity_umol_per_kg",
    "calcium_mg_per_l",
    "magnesium_mg_per_l",
    "turf_g_dry_per_m2",
)


def _plan(given: argparse.Namespace) -> None:
    from halimeda._report._words import (
        date,
        first_moves,
        lever,
        of_100,
        row_head,
        upper,
        watched_range,
    )

    tank = _read(given.description)
    _may_write(given.page, given.force)
    if given.page is not None:
        _needs_figures()
    days = 90.0 if given.days is None else given.days
    plan = tank.plan(
        days,
        members=given.members,
        window_days=min(30.0, days),
        progress=sys.stderr.isatty(),
    )
    _heading(f"The plan for {tank.name}")
    moves = first_moves(plan)
    if not moves:
        _item("Change nothing: no setting tried does better.")
    for move in moves:
        before, after = lever(move)
        _item(f"Set the {move.words} to {after} (now {before}).")
    if len(moves) > 1:
        _text(
            "One at a time and in this order, with tests before and some weeks after."
        )
    _heading("What it gives: median (nine in ten tanks like this one)")
    print(f"  {'':36}{'with the plan':22}nothing changed")
    for name in (
        "nitrate_mg_per_l",
        "phosphate_mg_per_l",
        "daily_ph_swing",
        "night_ph",
    ):
        both = plan.change[name]
        after, before = (watched_range(name, q) for q in (both.after, both.before))
        print(f"  {row_head(name):36}{after:22}{before}")
    _text(
        f"{plan.proposal.verdict} {of_100(plan.meets_all_goals)} tanks like this one meet "
        "every goal with it: what is not known of this tank decides the rest."
    )
    _heading("Due in the next 14 days")
    for due in plan.upkeep:
        if due.day < 14.0:
            _item(f"{date(tank, due.day)}: {due.words}")
    _heading("Before you act")
    for caution in plan.cautions:
        _item(upper(caution))
    _assumed(tank)
    if given.page is not None:
        from halimeda._report import report

        path = report(
            tank, plan=plan, path=given.page, made=given.date, overwrite=given.force
        )
        _text(f"The whole report: {path.resolve()}")


def _log(given: argparse.Namespace) -> None:
    from halimeda._report._words import date, row_head, upper, watched_range
    from halimeda._tank_log import Log

    tank = _read(given.description)
    for path in (given.page, given.calendar):
        _may_write(path, given.force)
    if given.page is not None:
        _needs_figures()
    progress = sys.stderr.isatty()
    log = Log.read(list(given.logs), tank)
    _heading(f"The log of {tank.name}")
    _text(
        f"{len(log.readings)} tests, {len(log.entries)} entries, "
        f"{sum(len(probe.days) for probe in log.probes)} probe records.",
        apart=False,
    )
    for problem in log.rejected[:_MOST_PROBLEMS]:
        _item(
            f"Not read: {problem.source}, line {problem.line}, {problem.column}: "
            f"{problem.found}. {problem.expected}"
        )
    if len(log.rejected) > _MOST_PROBLEMS:
        _item(f"and {len(log.rejected) - _MOST_PROBLEMS} more that were not read")

    try:
        fit = tank.fit(log, progress=progress)
    except HalimedaError as untold:
        # A log that tells nothing still gets its answer about what is missing.
        _text(f"Nothing could be fitted to it: {untold}")
        fit = None
    verdict = tank.verdict(log, fit, progress=progress)
    forecast = tank.forecast(log, fit, progress=progress)
    upkeep = tank.upkeep(log, fit, progress=progress)

    _heading("Is it working?")
    for line in verdict.summary:
        _item(line)
    for line in verdict.missing:
        _item(f"To tell more: {line}")
    _heading("What the log lets expect: median (nine in ten)")
    for horizon in forecast.horizons:
        if horizon.variable in ("nitrate_mg_per_l", "phosphate_mg_per_l"):
            words = f"{row_head(horizon.variable)}, in {horizon.horizon_days:g} days"
            print(f"  {words:44}{watched_range(horizon.variable, horizon.quantiles)}")
    _heading("Due")
    for task in upkeep[:_MOST_TASKS]:
        _item(f"{date(tank, task.day)}: {task.words}. {task.reason}")
    _heading("Before you act")
    for caution in verdict.cautions:
        _item(upper(caution))
    if given.calendar is not None:
        upkeep.to_icalendar(given.calendar)
        _text(f"What is due, as a calendar: {given.calendar.resolve()}")
    if given.page is not None:
        from halimeda._report import report

        page = report(
            tank,
            log=log,
            fit=fit,
            verdict=verdict,
            forecast=forecast,
            upkeep=upkeep,
            path=given.page,
            made=given.date,
            overwrite=given.force,
        )
        _text(f"The whole report: {page.resolve()}")


#: What a person reads of a list.
_MOST_PROBLEMS = 10
_MOST_TASKS = 8


def _read(path: Path) -> Tank:
    from halimeda._errors import DescriptionError
    from halimeda._tank import Tank

    try:
        return Tank.from_toml(path)
    except DescriptionError as refused:
        raise _Refused(f"{path}:\n{refused}") from None


def _may_write(path: Path | None, force: bool) -> None:
    """Refuse before minutes of work, not after."""
    if path is None:
        return
    if path.exists() and not force:
        raise _Refused(f"{path} is there already; give another name, or --force")
    if not path.parent.is_dir():
        raise _Refused(f"{path.parent} is no folder")


def _needs_figures() -> None:
    """Refuse before minutes of work, not after."""
    from importlib.util import find_spec

    missing = [name for name in ("matplotlib", "jinja2") if find_spec(name) is None]
    if missing:
        raise _Refused(
            f"the page needs {' and '.join(missing)}: pip install 'halimeda[report]'"
        )


def _write_table(path: Path, run: Any) -> None:
    import csv

    columns = {"day": run.days, **run.samples}
    with path.open("w", newline="", encoding="utf-8") as file:
        writer = csv.writer(file)
        writer.writerow(columns)
        writer.writerows(
            zip(*(column.tolist() for column in columns.values()), strict=True)
        )
    _text(f"Every sample: {path.resolve()}")


def _assumed(tank: Tank) -> None:
    if tank.assumptions:
        _heading("Taken for granted, because the description does not say")
        for assumption in tank.assumptions:
            _item(f"{assumption.key}: {assumption.assumed}")


# Lines.


def _heading(text: str) -> None:
    print(f"\n{text}\n")


def _text(text: str, *, apart: bool = True) -> None:
    if apart:
        print()
    print(textwrap.fill(text, _WIDTH, initial_indent="  ", subsequent_indent="  "))


def _item(text: str) -> None:
    print(textwrap.fill(text, _WIDTH, initial_indent="  - ", subsequent_indent="    "))


def _rows(rows: Sequence[tuple[str, str, str]]) -> None:
    for words, value, unit in rows:
        print(f"  {words:34}{value:>12}  {unit}".rstrip())
