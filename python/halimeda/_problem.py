"""What is wrong with a tank description."""

from __future__ import annotations

import json
from dataclasses import dataclass

from halimeda._errors import DescriptionError


@dataclass(frozen=True)
class Problem:
    """What is wrong at one place of a tank description.

    Attributes
    ----------
    kind : str
        ``"syntax"``, ``"unknown_key"``, ``"missing_unit"``, ``"out_of_range"`` and
        so on.
    line, column : int
        Place in the text, from 1.
    key : str
        Path of the key, as in ``"feeding[2].mass"``; empty where the text is too
        broken to tell.
    found, expected : str
        What is there, and what should be.
    suggestion : str or None
        What was probably meant.
    excerpt : str
        The line.
    """

    kind: str
    line: int
    column: int
    key: str
    found: str
    expected: str
    suggestion: str | None
    excerpt: str


def description_error(message: str, problems: str) -> DescriptionError:
    """Build the error of a description from the JSON of its problems."""
    listed = tuple(Problem(**problem) for problem in json.loads(problems))
    error = DescriptionError(message, input=listed[0].key or None, kind=listed[0].kind)
    error.problems = listed
    return error
