"""Water of reef aquaria, and its nutrients exported by turf algae on a lit screen."""

from __future__ import annotations

from typing import TYPE_CHECKING

from halimeda._errors import (
    DescriptionError,
    HalimedaError,
    HalimedaTypeError,
    HalimedaValueError,
    HalimedaWarning,
)
from halimeda._native import (
    AlkalinityParts,
    BufferFactors,
    CarbonateState,
    EquilibriumConstants,
    Relation,
    Sensitivities,
    Uncertainties,
    Water,
    __version__,
    air_pressure_from_sea_level,
    carbonate,
    conductivity_from_specific_conductance,
    practical_salinity_from_conductivity,
    practical_salinity_from_density,
    practical_salinity_from_hydrometer,
    practical_salinity_from_refractive_index,
    practical_salinity_from_refractometer,
    practical_salinity_from_specific_gravity,
    relations,
    specific_gravity,
)

if TYPE_CHECKING:
    from halimeda import dosing, gas, nutrient, plots, probe, process, tank, turf
    from halimeda._problem import Problem
    from halimeda._progress import Progress
    from halimeda._report import report
    from halimeda._states import (
        AlkalinityPartColumns,
        BufferFactorColumns,
        CarbonateStates,
    )
    from halimeda._tank import Tank, example_tank
    from halimeda._tank_ensemble import Ensemble, Quantiles
    from halimeda._tank_fit import Fit
    from halimeda._tank_log import Log
    from halimeda._tank_parameters import (
        ParameterInfo,
        ParameterRange,
        Parameters,
        Ranges,
    )
    from halimeda._tank_plan import Failure, Plan
    from halimeda._tank_run import Ledger, Run
    from halimeda._tank_setup import Band, Goals
    from halimeda._tank_upkeep import Upkeep
    from halimeda._tank_verdict import Diary, Forecast, Verdict

__all__ = [
    "AlkalinityPartColumns",
    "AlkalinityParts",
    "Band",
    "BufferFactorColumns",
    "BufferFactors",
    "CarbonateState",
    "CarbonateStates",
    "DescriptionError",
    "Diary",
    "Ensemble",
    "EquilibriumConstants",
    "Failure",
    "Fit",
    "Forecast",
    "Goals",
    "HalimedaError",
    "HalimedaTypeError",
    "HalimedaValueError",
    "HalimedaWarning",
    "Ledger",
    "Log",
    "ParameterInfo",
    "ParameterRange",
    "Parameters",
    "Plan",
    "Problem",
    "Progress",
    "Quantiles",
    "Ranges",
    "Relation",
    "Run",
    "Sensitivities",
    "Tank",
    "Uncertainties",
    "Upkeep",
    "Verdict",
    "Water",
    "__version__",
    "air_pressure_from_sea_level",
    "carbonate",
    "conductivity_from_specific_conductance",
    "dosing",
    "example_tank",
    "gas",
    "nutrient",
    "plots",
    "practical_salinity_from_conductivity",
    "practical_salinity_from_density",
    "practical_salinity_from_hydrometer",
    "practical_salinity_from_refractive_index",
    "practical_salinity_from_refractometer",
    "practical_salinity_from_specific_gravity",
    "probe",
    "process",
    "relations",
    "report",
    "specific_gravity",
    "tank",
    "turf",
]

_ROOMS = ("dosing", "gas", "nutrient", "plots", "probe", "process", "tank", "turf")

# Read when first asked for: a keeper who only wants a pH does not wait for tanks.
_LATER = {
    "AlkalinityPartColumns": "_states",
    "Band": "_tank_setup",
    "BufferFactorColumns": "_states",
    "CarbonateStates": "_states",
    "Diary": "_tank_verdict",
    "Ensemble": "_tank_ensemble",
    "Failure": "_tank_plan",
    "Fit": "_tank_fit",
    "Forecast": "_tank_verdict",
    "Goals": "_tank_setup",
    "Ledger": "_tank_run",
    "Log": "_tank_log",
    "ParameterInfo": "_tank_parameters",
    "ParameterRange": "_tank_parameters",
    "Parameters": "_tank_parameters",
    "Plan": "_tank_plan",
    "Problem": "_problem",
    "Progress": "_progress",
    "Quantiles": "_tank_ensemble",
    "Ranges": "_tank_parameters",
    "Run": "_tank_run",
    "Tank": "_tank",
    "Upkeep": "_tank_upkeep",
    "Verdict": "_tank_verdict",
    "example_tank": "_tank",
    "report": "_report",
}


if not TYPE_CHECKING:
    # Hidden from type checkers, to which it would say that any name exists.

    def __getattr__(name):
        from importlib import import_module

        if name in _LATER:
            value = getattr(import_module(f"halimeda.{_LATER[name]}"), name)
            globals()[name] = value
            return value
        if name in _ROOMS:
            return import_module(f"halimeda.{name}")
        message = f"module 'halimeda' has no attribute {name!r}"
        raise AttributeError(message)


def __dir__() -> list[str]:
    return sorted({*globals(), *__all__})
