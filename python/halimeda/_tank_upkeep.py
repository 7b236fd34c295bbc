"""What is due and when."""

# The modules of a tank know each other, and hold what comes from without to its kind.
# pyright: reportPrivateUsage=false, reportUnnecessaryIsInstance=false

from __future__ import annotations

import datetime
import json
import os
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, overload

from halimeda import _native
from halimeda._errors import HalimedaTypeError
from halimeda._record import Record, built
from halimeda._tank import Tank


@dataclass(frozen=True)
class Task(Record):
    """A task and its day.

    Attributes
    ----------
    day : float
        Time since the start of the description, d.
    range : tuple of float or None
        Days between which nine members in ten place it; None where a rhythm sets it.
    kind : str
        ``"harvest"``, ``"water_change"``, ``"new_screen"``, ``"new_lamps"``,
        ``"new_iron_oxide"``, ``"calibrate_probe"`` or ``"test"``.
    measured : str or None
        What is tested, or what the probe measures.
    number : int
        Which of its kind it is since the start, from 1.
    words : str
        The task in words.
    reason : str
        Why then.
    caution : str
        What to take care of while doing it.
    """

    day: float
    range: tuple[float, float] | None
    kind: str
    measured: str | None
    number: int
    words: str
    reason: str
    caution: str

    def _plainly(self) -> dict[str, Any]:
        task: Any = self.kind if self.measured is None else {self.kind: self.measured}
        return {
            "day": self.day,
            "range": self.range,
            "task": task,
            "number": self.number,
            "reason": self.reason,
        }


class Upkeep(Sequence[Task]):
    """What is due, soonest first.

    Examples
    --------
    >>> import halimeda as hm
    >>> tank = hm.example_tank()
    >>> log = hm.Log.read("time,nitrate [mg/L NO3],harvest wet [g]\\n"
    ...                   "2026-01-20 18:00,3,\\n2026-01-27 18:00,2.5,310\\n", tank)
    >>> upkeep = tank.upkeep(log, members=8)
    >>> upkeep[0].day >= log.last_day
    True
    >>> upkeep.to_icalendar().startswith("BEGIN:VCALENDAR")
    True
    """

    __slots__ = ("_tank", "_tasks")

    def __init__(self, tank: Tank, tasks: Iterable[Task]) -> None:
        self._tank = tank
        self._tasks = tuple(tasks)

    @overload
    def __getitem__(self, place: int) -> Task: ...
    @overload
    def __getitem__(self, place: slice) -> Upkeep: ...
    def __getitem__(self, place: int | slice) -> Task | Upkeep:
        if isinstance(place, slice):
            return Upkeep(self._tank, self._tasks[place])
        return self._tasks[place]

    def __len__(self) -> int:
        return len(self._tasks)

    def to_icalendar(
        self,
        path: str | os.PathLike[str] | None = None,
        *,
        hour: float = 18.0,
        reminder_minutes: int | None = None,
        made: datetime.datetime | None = None,
    ) -> str:
        """Return what is due as the text of an iCalendar file (RFC 5545), and write it.

        A file made again moves what has moved instead of adding it twice.

        Parameters
        ----------
        path : str or path, optional
            File to write, usually with the ending ``.ics``.
        hour : float
            Hour of the day at which entries begin, 0 to 24.
        reminder_minutes : int, optional
            Minutes before an entry at which the calendar reminds, 0 to 40320.
        made : datetime, optional
            When the file is made, with a zone; now if not given.

        Returns
        -------
        str
            The text, with the line ends that the standard asks for.

        Raises
        ------
        HalimedaValueError
            The tank has no start, or a number lies outside its limits.
        """
        moment = datetime.datetime.now(datetime.UTC) if made is None else made
        if moment.tzinfo is None:
            message = (
                "made is a moment without a zone; give it one, such as datetime.UTC"
            )
            raise HalimedaTypeError(message, input="made", kind="wrong_type")
        if reminder_minutes is not None:
            from halimeda._tank_asked import whole

            reminder_minutes = whole("reminder_minutes", reminder_minutes)
        text = _native.upkeep_calendar(
            self._tank._native,
            json.dumps([task._plainly() for task in self]),
            int(moment.timestamp() * 1000.0),
            hour,
            reminder_minutes,
        )
        if path is not None:
            with open(path, "w", encoding="utf-8", newline="") as file:
                file.write(text)
        return text

    def to_dict(self) -> list[dict[str, Any]]:
        """Return the tasks as a list of dicts."""
        return [task.to_dict() for task in self]

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Upkeep):
            return NotImplemented
        return self._tasks == other._tasks and self._tank == other._tank

    def __hash__(self) -> int:
        return hash((self._tank, self._tasks))

    def __reduce__(self) -> tuple[object, ...]:
        return (Upkeep, (self._tank, self._tasks))

    def __repr__(self) -> str:
        return f"<Upkeep of {self._tank.name!r}: {len(self)} tasks>"

    def _repr_html_(self) -> str:
        from halimeda._table import cautions, table
        from halimeda._tank_html import date

        rows: list[tuple[object, ...]] = []
        for task in self:
            span = ""
            if task.range is not None:
                early, late = (date(self._tank, day) for day in task.range)
                span = early if early == late else f"{early} to {late}"
            rows.append((date(self._tank, task.day), task.words, span, task.reason))
        heads = ("when", "what", "nine in ten place it", "why then")
        html = table(f"What is due: {self._tank.name}", heads, rows)
        texts = dict.fromkeys(task.caution for task in self if task.caution)
        return html + (cautions(texts) if texts else "")


def upkeep_of(tank: Tank, plain: Sequence[Mapping[str, Any]]) -> Upkeep:
    """Build upkeep from the dicts of the native half."""
    words = _native.upkeep_words(json.dumps(plain))
    tasks: list[Task] = []
    for due, (what, caution) in zip(plain, words, strict=True):
        task = due["task"]
        kind, measured = (
            (task, None) if isinstance(task, str) else next(iter(task.items()))
        )
        rest = {key: due[key] for key in ("day", "range", "number", "reason")}
        named = {"kind": kind, "measured": measured, "words": what, "caution": caution}
        tasks.append(built(Task, {**rest, **named}))
    return Upkeep(tank, tasks)
