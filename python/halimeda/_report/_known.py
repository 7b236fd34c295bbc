from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from halimeda._tank import Tank
    from halimeda._tank_ensemble import Ensemble
    from halimeda._tank_fit import Fit
    from halimeda._tank_log import Log
    from halimeda._tank_plan import Plan
    from halimeda._tank_run import Run
    from halimeda._tank_upkeep import Upkeep
    from halimeda._tank_verdict import Forecast, Verdict


@dataclass(frozen=True)
class Known:
    """All that a report can tell of."""

    tank: Tank
    made: dt.date
    run: Run | None = None
    ensemble: Ensemble | None = None
    plan: Plan | None = None
    log: Log | None = None
    fit: Fit | None = None
    verdict: Verdict | None = None
    forecast: Forecast | None = None
    upkeep: Upkeep | None = None
