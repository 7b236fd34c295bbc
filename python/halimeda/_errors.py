"""Why a question was not answered."""

from __future__ import annotations

import warnings
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from halimeda._problem import Problem


class HalimedaError(Exception):
    """Base of every error of this package.

    Attributes
    ----------
    input : str or None
        Name of the input to blame, of the first where two conflict.
    value : float or None
        What it was, where one number is to blame.
    limits : tuple of float or None
        Smallest and largest value that would have been accepted, in the unit of
        `value`.
    kind : str
        What went wrong, in one word: ``"out_of_range"``, ``"extrapolation"``,
        ``"non_finite"``, ``"contradictory"``, ``"ambiguous"`` and so on.
    """

    input: str | None
    value: float | None
    limits: tuple[float, float] | None
    kind: str

    def __init__(
        self,
        message: str,
        *,
        input: str | None = None,
        value: float | None = None,
        limits: tuple[float, float] | None = None,
        kind: str = "other",
    ) -> None:
        super().__init__(message)
        self.input = input
        self.value = value
        self.limits = limits
        self.kind = kind

    def __reduce__(self) -> tuple[object, ...]:
        # Keyword arguments are lost otherwise on the way to another process.
        return (_rebuilt, (type(self), str(self), self.__dict__.copy()))


class HalimedaValueError(HalimedaError, ValueError):
    """An input is out of range, not finite, missing, or contradicts another."""


class HalimedaTypeError(HalimedaError, TypeError):
    """An argument is of a kind that cannot be used, or has the wrong unit."""


class HalimedaWarning(UserWarning):
    """Some rows of an array were refused and are NaN.

    Attributes
    ----------
    problems : list of (int, HalimedaError)
        Row (of the flattened result) and why it was refused, the first 1000.
    count : int
        How many rows were refused.
    """

    problems: list[tuple[int, HalimedaError]]
    count: int

    def __init__(
        self, message: str, problems: list[tuple[int, HalimedaError]], count: int
    ) -> None:
        super().__init__(message)
        self.problems = problems
        self.count = count

    def __reduce__(self) -> tuple[object, ...]:
        return (type(self), (str(self), self.problems, self.count))


def warn_refused(
    name: str, count: int, rows: int, problems: list[tuple[int, HalimedaError]]
) -> None:
    """Warn that some rows of `name` were refused."""
    row, error = problems[0]
    message = f"{name}: {count} of {rows} rows refused; row {row}: {error}"
    # A native function has no frame: the caller's is the one below this.
    warnings.warn(HalimedaWarning(message, problems, count), stacklevel=2)


def _rebuilt(
    kind: type[HalimedaError], message: str, attributes: dict[str, object]
) -> HalimedaError:
    error = kind(message)
    error.__dict__.update(attributes)
    return error


def restore(kind: Any, fields: list[object]) -> object:
    """Make a record of the native half from its fields, for pickle."""
    return kind._restored(*fields)


class DescriptionError(HalimedaValueError):
    """A tank description has problems.

    Attributes
    ----------
    problems : tuple of Problem
        All of them, in the order of the text.
    """

    problems: tuple[Problem, ...] = ()
