"""pH probes: buffers, calibration, temperature, uncertainty and drift."""

from halimeda._native import (
    BufferReading,
    ProbeCalibration,
    ProbeDrift,
    ProbeReading,
    compensated_ph_nbs,
    compensated_ph_total,
    nernst_slope_mv_per_ph,
    reference_buffer_ph_nbs,
    seawater_buffer_ph_total,
)

__all__ = [
    "BufferReading",
    "ProbeCalibration",
    "ProbeDrift",
    "ProbeReading",
    "compensated_ph_nbs",
    "compensated_ph_total",
    "nernst_slope_mv_per_ph",
    "reference_buffer_ph_nbs",
    "seawater_buffer_ph_total",
]
