"""Nutrients: forms and units of kits, ammonia, ratios, alkalinity of processes."""

from halimeda._native import (
    ContentEstimate,
    KitReading,
    NitrogenToPhosphorus,
    Stoichiometry,
    UnionisedAmmonia,
    concentration_mg_per_l,
    content_umol_per_kg,
    dissolved_inorganic_nitrogen,
    stoichiometry,
    unionised_ammonia,
    unionised_ammonia_fraction,
)

__all__ = [
    "ContentEstimate",
    "KitReading",
    "NitrogenToPhosphorus",
    "Stoichiometry",
    "UnionisedAmmonia",
    "concentration_mg_per_l",
    "content_umol_per_kg",
    "dissolved_inorganic_nitrogen",
    "stoichiometry",
    "unionised_ammonia",
    "unionised_ammonia_fraction",
]
