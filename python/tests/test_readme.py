"""The programs in the README run."""

import re
from pathlib import Path

import pytest

README = Path(__file__).parents[2] / "README.md"
PROGRAMS = re.findall(r"^```python\n(.*?)^```", README.read_text("utf-8"), re.M | re.S)


def test_there_are_programs() -> None:
    assert PROGRAMS


@pytest.mark.parametrize("program", PROGRAMS)
def test_program(program: str, capsys: pytest.CaptureFixture[str]) -> None:
    exec(compile(program, str(README), "exec"), {})
    assert capsys.readouterr().out
