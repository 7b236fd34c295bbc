"""The terminal: answers, refusals in words, nothing overwritten unasked."""

from __future__ import annotations

import csv
import subprocess
import sys

import pytest

import halimeda as hm
from halimeda._command import main


@pytest.fixture
def description(tmp_path):
    path = tmp_path / "reef.toml"
    path.write_text(hm.example_tank().to_toml(), encoding="utf-8")
    return path


def refused(capsys, *arguments: object) -> str:
    """What is said where a command is refused."""
    assert main([str(a) for a in arguments]) == 2
    said = capsys.readouterr()
    assert "Traceback" not in said.err
    assert said.err.startswith("halimeda: ")
    return said.err


WATER = ("water", "--temperature", "25.5 °C", "--salinity", "35")


def test_water_prints_what_the_library_says(capsys):
    assert main([*WATER, "--alkalinity", "8.2 dKH", "--ph", "8.2 NBS"]) == 0
    said = capsys.readouterr().out
    water = hm.Water(temperature_celsius=25.5, practical_salinity=35.0)
    state = water.carbonate(alkalinity="8.2 dKH", ph_nbs=8.2)
    lines = [" ".join(line.split()) for line in said.splitlines()]
    assert f"pH (total scale) {state.ph_total:.3f}" in lines
    assert f"aragonite saturation {state.aragonite_saturation:.2f}" in lines
    assert "temperature 25.50 °C" in lines


@pytest.mark.parametrize(
    ("readings", "says"),
    [
        ((), "not 0"),
        (("--alkalinity", "8.2 dKH"), "not 1"),
        (("--alkalinity", "8.2", "--ph", "8.2 NBS"), "alkalinity"),
        (("--alkalinity", "8.2 dKH", "--ph", "8.2"), "ph"),
        (("--alkalinity", "8.2 dKH", "--ph", "19 NBS"), "19"),
        (("--alkalinity", "8.2 mg", "--ph", "8.2 NBS"), "alkalinity"),
    ],
)
def test_water_refuses_in_words(capsys, readings, says):
    assert says in refused(capsys, *WATER, *readings)


def test_a_temperature_out_of_range_names_its_limits(capsys):
    said = refused(
        capsys, "water", "--temperature", "78 °C", "--salinity", "35",
        "--alkalinity", "8.2 dKH", "--ph", "8.2 NBS",
    )  # fmt: skip
    assert "temperature" in said
    assert "78" in said


def test_tank_follows_and_writes_a_table(capsys, description, tmp_path):
    table = tmp_path / "reef.csv"
    assert main(["tank", str(description), "--days", "10", "--table", str(table)]) == 0
    said = capsys.readouterr().out
    assert "Invented reef" in said
    assert "With nothing changed, over 10 days" in said
    assert "harvest.fed_back_share" in said
    with table.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    run = hm.example_tank().simulate(10.0)
    assert len(rows) == len(run)
    assert float(rows[-1]["nitrate_mg_per_l"]) == run.nitrate_mg_per_l[-1]


def test_nothing_is_overwritten_unasked(capsys, description, tmp_path):
    table = tmp_path / "reef.csv"
    table.write_text("mine")
    said = refused(capsys, "tank", description, "--days", "5", "--table", table)
    assert "--force" in said
    assert table.read_text() == "mine"
    forced = ["tank", str(description), "--days", "5", "--table", str(table), "--force"]
    assert main(forced) == 0
    assert table.read_text().startswith("day,")


def test_files_and_folders_that_are_not_there_are_named(capsys, description, tmp_path):
    assert "nowhere.toml" in refused(capsys, "tank", tmp_path / "nowhere.toml")
    lost = tmp_path / "no" / "reef.csv"
    assert "is no folder" in refused(capsys, "tank", description, "--table", lost)
    assert refused(capsys, "tank", tmp_path)


def test_problems_of_a_description_are_all_told(capsys, tmp_path):
    broken = tmp_path / "broken.toml"
    text = hm.example_tank().to_toml()
    text = text.replace('net_volume = "200 L"', 'net_volume = "200"')
    text = text.replace('temperature = "25.5 °C"', 'temperature = "78 °C"')
    broken.write_text(text, encoding="utf-8")
    said = refused(capsys, "tank", broken)
    assert "broken.toml" in said
    assert "net_volume" in said
    assert "temperature" in said


def test_plan_prints_and_writes_the_page(capsys, description, tmp_path):
    page = tmp_path / "plan.html"
    given = [
        "plan",
        str(description),
        "--days",
        "20",
        "--members",
        "4",
        "--page",
        str(page),
    ]
    assert main(given) == 0
    said = capsys.readouterr().out
    assert "The plan for Invented reef" in said
    assert "Before you act" in said
    assert str(page.resolve()) in said.replace("\n  ", "")
    assert "What to do first" in page.read_text("utf-8")
    assert "--force" in refused(capsys, *given)


@pytest.mark.parametrize(
    "arguments",
    [
        ("plan", "{}", "--days", "1"),
        ("plan", "{}", "--members", "0"),
        ("tank", "{}", "--days", "nan"),
    ],
)
def test_numbers_out_of_range_are_refused(capsys, description, arguments):
    assert refused(capsys, *(a.format(description) for a in arguments))


@pytest.mark.parametrize(
    "arguments",
    [
        (),
        ("fish",),
        ("water",),
        ("tank",),
        ("plan", "a", "b"),
        ("water", "--temp", "1"),
    ],
)
def test_misuse_ends_with_two_and_the_usage(capsys, arguments):
    with pytest.raises(SystemExit) as ended:
        main(arguments)
    assert ended.value.code == 2
    assert "usage: python -m halimeda" in capsys.readouterr().err


@pytest.mark.parametrize("command", [(), ("water",), ("tank",), ("plan",)])
def test_help_has_units_and_examples(capsys, command):
    with pytest.raises(SystemExit) as ended:
        main([*command, "--help"])
    assert ended.value.code == 0
    said = capsys.readouterr().out
    assert "dKH" in said or "days" in said
    assert "examples:" in said or not command


def test_examples_of_the_help_run(capsys):
    import shlex

    from halimeda import _command

    text = _command._WATER_EXAMPLES.replace("\\\n", " ")
    examples = [line for line in text.splitlines() if "python -m" in line]
    assert len(examples) == 2
    for example in examples:
        assert main(shlex.split(example)[3:]) == 0


def test_runs_as_a_module():
    command = [sys.executable, "-m", "halimeda", "--version"]
    said = subprocess.run(command, capture_output=True, text=True, check=True)
    assert said.stdout.strip() == f"halimeda {hm.__version__}"


def test_a_terminal_of_few_letters_is_no_failure():
    command = [sys.executable, "-m", "halimeda", *WATER[:2], "25.5 °C", *WATER[3:]]
    command += ["--alkalinity", "8.2 dKH", "--ph", "8.2 NBS"]
    plain = {"PYTHONIOENCODING": "ascii", "PYTHONUTF8": "1"}
    said = subprocess.run(command, capture_output=True, check=True, env=plain)
    assert b"?mol/kg" in said.stdout


def test_ctrl_c_is_no_traceback(capsys, description, monkeypatch):
    def interrupted(*_args, **_keywords):
        raise KeyboardInterrupt

    monkeypatch.setattr(hm.Tank, "simulate", interrupted)
    assert main(["tank", str(description)]) == 130
    assert "stopped" in capsys.readouterr().err


LOG = """time,nitrate [mg/L NO3],phosphate [mg/L PO4],harvest wet [g]
2026-01-16 18:00,3,0.10,
2026-01-20 18:00,3.2,0.11,
2026-01-24 18:00,2.8,0.10,310
2026-01-28 18:00,2.6,0.09,
2026-02-02 18:00,2.4,0.08,290
2026-02-06 18:00,perhaps,0.08,
"""


def test_log_tells_verdict_forecast_and_what_is_due(capsys, description, tmp_path):
    log = tmp_path / "tests.csv"
    log.write_text(LOG)
    page, calendar = tmp_path / "log.html", tmp_path / "due.ics"
    given = [
        "log",
        str(description),
        str(log),
        "--page",
        str(page),
        "--calendar",
        str(calendar),
    ]
    assert main(given) == 0
    said = capsys.readouterr().out
    assert "Not read: " in said
    assert "perhaps" in said
    assert "Is it working?" in said
    assert "Nitrate (as NO₃), mg/L, in 30 days" in said
    assert calendar.read_text("utf-8").startswith("BEGIN:VCALENDAR")
    assert "Is it working?" in page.read_text("utf-8")
    assert "--force" in refused(capsys, *given)


def test_a_log_that_tells_nothing_gets_a_plain_answer(capsys, description, tmp_path):
    log = tmp_path / "notes.csv"
    log.write_text("time,harvest wet [g]\n2026-01-24 18:00,\n2026-01-25 18:00,300\n")
    assert main(["log", str(description), str(log)]) == 0
    said = capsys.readouterr().out
    assert "To tell more:" in said


def test_what_is_no_log_is_refused(capsys, description, tmp_path):
    empty = tmp_path / "empty.csv"
    empty.write_text("")
    assert refused(capsys, "log", description, empty)
    assert "nowhere.csv" in refused(
        capsys, "log", description, tmp_path / "nowhere.csv"
    )
