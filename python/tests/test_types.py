"""What a type checker knows of the package; read by mypy and pyright, and run."""

from typing import assert_type

import halimeda


def test_errors() -> None:
    error = halimeda.HalimedaValueError("too warm", input="temperature", value=78.0)
    assert_type(error.input, str | None)
    assert_type(error.value, float | None)
    assert_type(error.limits, tuple[float, float] | None)
    assert_type(error.kind, str)
    assert isinstance(error, ValueError)
    assert isinstance(error, halimeda.HalimedaError)


def test_version() -> None:
    assert_type(halimeda.__version__, str)
