"""Why a question was not answered."""

from __future__ import annotations


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


def _rebuilt(
    kind: type[HalimedaError], message: str, attributes: dict[str, object]
) -> HalimedaError:
    error = kind(message)
    error.__dict__.update(attributes)
    return error
