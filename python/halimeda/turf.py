"""Turf algae on a lit screen: light, flow, rates, harvest."""

from halimeda._native import (
    Harvest,
    TissueMetals,
    TurfRates,
    TurfStock,
    film_velocity_m_per_s,
    irradiance_umol_per_m2_per_s,
    lamp_remaining,
    temperature_response,
    tissue_metals,
    transfer_m_per_day,
    turf_rates,
)

__all__ = [
    "Harvest",
    "TissueMetals",
    "TurfRates",
    "TurfStock",
    "film_velocity_m_per_s",
    "irradiance_umol_per_m2_per_s",
    "lamp_remaining",
    "temperature_response",
    "tissue_metals",
    "transfer_m_per_day",
    "turf_rates",
]
