"""What the water gains and loses between tests, water changes and dosing taken out."""

from __future__ import annotations

from dataclasses import dataclass

from halimeda._record import Record


@dataclass(frozen=True)
class Estimate(Record):
    """A number, and the range that holds nine in ten of what is possible."""

    p5: float
    p50: float
    p95: float


@dataclass(frozen=True)
class NetRate(Record):
    """What the water gains per day; a loss is below zero.

    Attributes
    ----------
    measured : str
        One of the names of `Log.units`.
    from_day, to_day : float
        Days of the first and the last test.
    tests : int
        Tests it rests on.
    per_day : Estimate
        In the unit of `Log.units` per day.
    mol_per_day : Estimate
        Of the whole system, mol/d; of alkalinity, eq/d.
    doses_are_known : bool
        Whether what is dosed is known: not where the schedule lets doses follow tests.
    """

    measured: str
    from_day: float
    to_day: float
    tests: int
    per_day: Estimate
    mol_per_day: Estimate
    doses_are_known: bool


@dataclass(frozen=True)
class NutrientRates(Record):
    """Nitrogen and phosphorus that the water gains per day over a stretch of days."""

    nitrogen_mmol_per_day: Estimate | None
    """Of nitrate, and of ammonia where it was tested."""
    nitrogen_grams_per_day: Estimate | None
    phosphorus_mmol_per_day: Estimate | None
    phosphorus_grams_per_day: Estimate | None
    counts_ammonia: bool


@dataclass(frozen=True)
class Consumption(Record):
    """What corals and all else take of alkalinity, calcium and magnesium per day.

    Attributes
    ----------
    alkalinity_dkh_per_day : Estimate
        Alkalinity, dKH/d.
    alkalinity_meq_per_day : Estimate
        Of the whole system, meq/d.
    calcium_mg_per_l_per_day, magnesium_mg_per_l_per_day : Estimate or None
        None with fewer than two tests.
    calcium_beyond_mmol_per_day : Estimate or None
        Calcium beyond what the alkalinity would take as calcium carbonate, mmol/d of the
        whole system: a range that holds zero is what calcification alone does.
    """

    alkalinity_dkh_per_day: Estimate
    alkalinity_meq_per_day: Estimate
    calcium_mg_per_l_per_day: Estimate | None
    magnesium_mg_per_l_per_day: Estimate | None
    calcium_beyond_mmol_per_day: Estimate | None

    @property
    def is_calcification(self) -> bool | None:
        """Whether both fall as calcification takes them; None without tests of calcium."""
        beyond = self.calcium_beyond_mmol_per_day
        return None if beyond is None else beyond.p5 <= 0.0 <= beyond.p95
