"""What a keeper's log makes of a tank's parameters."""

# pyright: reportPrivateUsage=false

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar

from halimeda import _native
from halimeda._record import Record, built
from halimeda._tank import Tank
from halimeda._tank_ensemble import Quantiles
from halimeda._tank_log import Log
from halimeda._tank_parameters import Parameters, Ranges

if TYPE_CHECKING:
    import pandas


@dataclass(frozen=True)
class Fitted(Record):
    """What a log says of one unknown.

    Attributes
    ----------
    path : str
        Group and name of a parameter, as in ``"turf.reserve_days"``, or an unknown of
        the setup, as ``"feeding.eaten_per_stated"``.
    unit : str
        Unit; ``"1"`` for a ratio.
    prior, posterior : Quantiles
        Before the log was read, and after it.
    information : float
        Share of the uncertainty that the log takes away, 0 to 1.
    informed : bool
        Whether the log informs it; otherwise it still rests on its range.
    """

    path: str
    unit: str
    prior: Quantiles
    posterior: Quantiles
    information: float
    informed: bool


@dataclass(frozen=True)
class FitQuality(Record):
    """How well the fitted tanks agree with the log.

    Attributes
    ----------
    readings : int
        Readings, weights and summaries of probes that were held against the tanks.
    within_range : float
        Share of them within the 5 to 95 % that the tanks lead one to expect.
    discrepancy : Quantiles
        How far the model is off beside the errors of the tests; a third is expected.
    words : str
        What that means.
    """

    readings: int
    within_range: float
    discrepancy: Quantiles
    words: str


@dataclass(frozen=True, eq=False, repr=False)
class Fit:
    """What a log makes of a tank: tanks that agree with it, equally likely.

    Attributes
    ----------
    tank : Tank
        The tank as described.
    log : Log
        The log it was fitted to.
    fitted : tuple of Fitted
        Every unknown: the parameters, then those of the setup.
    quality : FitQuality
        How well the tanks agree with the log.
    effective_draws : float
        Independent draws that the quantiles are worth.
    runs : int
        Runs that were followed.
    notes : tuple of str
        What to know: readings that are missing, ranges that are too narrow.
    ranges : Ranges
        Ranges with those of informed parameters narrowed, each for itself.
    """

    tank: Tank
    log: Log
    fitted: tuple[Fitted, ...]
    quality: FitQuality
    effective_draws: float
    runs: int
    notes: tuple[str, ...]
    ranges: Ranges
    _members: Any
    _most_likely: Any

    def __getitem__(self, path: str) -> Fitted:
        """Return what the log says of an unknown, by its path."""
        for fitted in self.fitted:
            if fitted.path == path:
                return fitted
        raise KeyError(path)

    def __len__(self) -> int:
        return len(self._members)

    @property
    def informed(self) -> tuple[Fitted, ...]:
        """The unknowns that the log informs, best known first."""
        informed = (fitted for fitted in self.fitted if fitted.informed)
        return tuple(sorted(informed, key=lambda fitted: -fitted.information))

    @property
    def resting_on_ranges(self) -> tuple[Fitted, ...]:
        """The unknowns that still rest on their ranges."""
        return tuple(fitted for fitted in self.fitted if not fitted.informed)

    @property
    def parameters(self) -> tuple[Parameters, ...]:
        """Parameters of every tank that agrees with the log."""
        names = tuple(Parameters())
        members = self._members.parameters()
        return tuple(Parameters(dict(zip(names, m, strict=True))) for m in members)

    def tank_on(self, day: float | None = None) -> Tank:
        """Return the most likely tank as it stands on a later day: what to plan for.

        Its days are counted from then, and its doses go on as in the last week. What is
        in food on its way and in the tissue of the turf is not carried over: for a
        forecast use `Tank.forecast`.

        Parameters
        ----------
        day : float, optional
            The day, d since the start of the log's tank, 1 to 3660; the log's last if not
            given.

        Raises
        ------
        HalimedaValueError
            The day lies outside its limits, or the tank cannot be followed to it.
        """
        last = self.log.last_day
        wanted = float(day if day is not None else last if last is not None else 0.0)
        setup: str = self._most_likely.at(wanted)
        return self.tank._with_setup(setup, float(int(wanted)))

    def to_pandas(self) -> pandas.DataFrame:
        """Return a table, one row per unknown: before the log, after it, and informed."""
        import pandas

        rows: dict[str, dict[str, Any]] = {}
        for fitted in self.fitted:
            row: dict[str, Any] = {"unit": fitted.unit}
            for when in ("prior", "posterior"):
                quantiles: dict[str, float] = getattr(fitted, when).to_dict()
                row |= {f"{when}_{name}": value for name, value in quantiles.items()}
            row |= {"information": fitted.information, "informed": fitted.informed}
            rows[fitted.path] = row
        frame = pandas.DataFrame.from_dict(rows, orient="index")
        frame.index.name = "path"
        return frame

    def to_dict(self) -> dict[str, Any]:
        """Return what is known as nested dicts, without tank, log and members."""
        return {
            "fitted": [fitted.to_dict() for fitted in self.fitted],
            "quality": self.quality.to_dict(),
            "effective_draws": self.effective_draws,
            "runs": self.runs,
            "notes": list(self.notes),
        }

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Fit):
            return NotImplemented
        return (
            self.tank == other.tank
            and self.log == other.log
            and self.to_dict() == other.to_dict()
            and self._members.told() == other._members.told()
        )

    __hash__: ClassVar[None] = None  # type: ignore[assignment]

    def __reduce__(self) -> tuple[object, ...]:
        members = (self._members.told(), self._most_likely.told())
        told = (json.dumps(self.to_dict()), *members, self.ranges)
        return (_unpickled, (self.tank, self.log, *told))

    def __repr__(self) -> str:
        return (
            f"<Fit of {self.tank.name!r}: {len(self.informed)} of {len(self.fitted)} "
            f"unknowns informed by {self.quality.readings} readings>"
        )

    def _repr_html_(self) -> str:
        from halimeda._tank_log_html import fit_html

        return fit_html(self)


def fit_of(
    tank: Tank,
    log: Log,
    told: str,
    members: _native.Members,
    most_likely: _native.Members,
    ranges: list[tuple[float, float, float]],
) -> Fit:
    """Build a fit from what the native half hands over."""
    left = Ranges(dict(zip(Ranges(), ranges, strict=True)))
    return _fit(tank, log, told, (members, most_likely), left)


def _unpickled(
    tank: Tank, log: Log, told: str, members: str, most_likely: str, ranges: Ranges
) -> Fit:
    drawn = (_native.Members(members), _native.Members(most_likely))
    return _fit(tank, log, told, drawn, ranges)


def _fit(
    tank: Tank,
    log: Log,
    told: str,
    drawn: tuple[_native.Members, _native.Members],
    ranges: Ranges,
) -> Fit:
    plain = json.loads(told)
    return Fit(
        tank=tank,
        log=log,
        fitted=tuple(built(Fitted, fitted) for fitted in plain["fitted"]),
        quality=built(FitQuality, plain["quality"]),
        effective_draws=plain["effective_draws"],
        runs=plain["runs"],
        notes=tuple(plain["notes"]),
        ranges=ranges,
        _members=drawn[0],
        _most_likely=drawn[1],
    )
