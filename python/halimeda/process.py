"""Rates of what lives and decays in a tank, feed, and evaporation."""

from halimeda._native import (
    OrganicMatter,
    Parameter,
    air_vapour_pressure_kpa,
    denitrification_mol_per_day,
    evaporation_kg_per_day,
    feed,
    mineralisation_mol_per_day,
    nitrification_mol_per_day,
    parameters,
    top_off_kg_per_day,
)

__all__ = [
    "OrganicMatter",
    "Parameter",
    "air_vapour_pressure_kpa",
    "denitrification_mol_per_day",
    "evaporation_kg_per_day",
    "feed",
    "mineralisation_mol_per_day",
    "nitrification_mol_per_day",
    "parameters",
    "top_off_kg_per_day",
]
