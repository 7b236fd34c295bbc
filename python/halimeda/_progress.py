"""How far a long computation is, as a bar, on standard error or to a callable."""

from __future__ import annotations

import contextlib
import sys
import warnings
from collections.abc import Callable, Generator
from dataclasses import dataclass
from typing import Any, TypeAlias


@dataclass(frozen=True)
class Progress:
    """How far a computation is.

    Attributes
    ----------
    done, total : float
        What is done and all there is to do, in `unit`.
    unit : str
        ``"d"`` for simulated days, or ``"1"`` for a share.
    stage : str
        What it is busy with; empty if there is but one thing.
    """

    done: float
    total: float
    unit: str = "d"
    stage: str = ""

    @property
    def share(self) -> float:
        """Share done, 0 to 1."""
        return self.done / self.total if self.total > 0.0 else 1.0


#: Nothing, a bar, or a callable that is told now and then.
ProgressArgument: TypeAlias = bool | Callable[[Progress], object]

_Native: TypeAlias = Callable[[str, float, float], None]


@contextlib.contextmanager
def reported(
    progress: ProgressArgument, what: str, unit: str = "d"
) -> Generator[_Native | None, None, None]:
    """Give what the native half calls while it is at work, or None."""
    if progress is False or progress is None:
        yield None
    elif progress is True:
        with _bar(what) as show:
            yield lambda stage, done, total: show(Progress(done, total, unit, stage))
    elif callable(progress):
        tell = progress

        def told(stage: str, done: float, total: float) -> None:
            tell(Progress(done, total, unit, stage))

        yield told
    else:
        from halimeda._errors import HalimedaTypeError

        message = f"progress is True, False or a callable, not {progress!r}"
        raise HalimedaTypeError(message, input="progress", kind="wrong_type")


@contextlib.contextmanager
def _bar(what: str) -> Generator[Callable[[Progress], None], None, None]:
    try:
        from tqdm.auto import tqdm
    except ImportError:
        with _line(what) as line:
            yield line
        return
    with warnings.catch_warnings():
        # In a notebook without widgets it falls back to text, which is as well.
        warnings.simplefilter("ignore")
        bar: Any = tqdm(
            total=100.0,
            desc=what,
            bar_format="{l_bar}{bar}| {elapsed}<{remaining}",
            leave=False,
        )
    with bar:

        def show(at: Progress) -> None:
            if at.stage:
                bar.set_description(at.stage, refresh=False)
            bar.update(100.0 * at.share - bar.n)

        yield show


@contextlib.contextmanager
def _line(what: str) -> Generator[Callable[[Progress], None], None, None]:
    shown = -1

    def show(at: Progress) -> None:
        nonlocal shown
        percent = int(100.0 * at.share)
        if percent != shown:
            shown = percent
            text = f"\r{at.stage or what}: {percent:3d} %"
            print(f"{text:60}", end="", file=sys.stderr, flush=True)

    try:
        yield show
    finally:
        print(f"\r{'':60}\r", end="", file=sys.stderr, flush=True)
