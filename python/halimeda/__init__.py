"""Water of reef aquaria, and its nutrients exported by turf algae on a lit screen."""

from typing import TYPE_CHECKING, Any

from halimeda._errors import (
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
    from halimeda._states import CarbonateStates as CarbonateStates

__all__ = [
    "AlkalinityParts",
    "BufferFactors",
    "CarbonateState",
    "CarbonateStates",
    "EquilibriumConstants",
    "HalimedaError",
    "HalimedaTypeError",
    "HalimedaValueError",
    "HalimedaWarning",
    "Relation",
    "Sensitivities",
    "Uncertainties",
    "Water",
    "__version__",
    "air_pressure_from_sea_level",
    "carbonate",
    "conductivity_from_specific_conductance",
    "practical_salinity_from_conductivity",
    "practical_salinity_from_density",
    "practical_salinity_from_hydrometer",
    "practical_salinity_from_refractive_index",
    "practical_salinity_from_refractometer",
    "practical_salinity_from_specific_gravity",
    "relations",
    "specific_gravity",
]

# What needs numpy is imported when it is first looked at.
_LATER = {"CarbonateStates": "halimeda._states"}


def __getattr__(name: str) -> Any:
    if name in _LATER:
        from importlib import import_module

        return getattr(import_module(_LATER[name]), name)
    raise AttributeError(f"module 'halimeda' has no attribute {name!r}")
