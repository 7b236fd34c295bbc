"""pH probes: slope, buffers, calibration, drift."""

import pickle

import numpy as np
import polars as pl
import pytest

import halimeda as hm
from halimeda.probe import BufferReading, ProbeCalibration, ProbeDrift


def test_nernst_slope() -> None:
    # 59.159 mV at 25 °C from CODATA 2018; the table of the trade (common practice, no source).
    celsius = np.array([0.0, 10.0, 20.0, 25.0, 30.0, 40.0])
    printed = [54.20, 56.18, 58.17, 59.159, 60.15, 62.14]
    found = hm.probe.nernst_slope_mv_per_ph(temperature_celsius=celsius)
    np.testing.assert_allclose(found, printed, atol=0.0051)
    series = hm.probe.nernst_slope_mv_per_ph(temperature_celsius=pl.Series(celsius))
    assert isinstance(series, pl.Series)
    assert hm.probe.nernst_slope_mv_per_ph(temperature="77 °F") == pytest.approx(59.159, abs=5e-4)


def test_reference_buffers() -> None:
    # Hamer, Pinching & Acree (1946) J. Res. NBS 36, 47, abstract: phthalate 4.005 at 25 °C;
    # Staples & Bates (1969) doi:10.6028/jres.073A.004, abstract: carbonate 10.012, borax 9.180.
    for buffer, printed in (("phthalate", 4.005), ("carbonate", 10.012), ("borax", 9.180)):
        found = hm.probe.reference_buffer_ph_nbs(temperature_celsius=25.0, buffer=buffer)
        assert found == pytest.approx(printed, abs=1e-12)
    with pytest.raises(hm.HalimedaValueError) as refused:
        hm.probe.reference_buffer_ph_nbs(temperature_celsius=50.1)
    assert refused.value.limits == (0.0, 50.0)
    with pytest.raises(hm.HalimedaValueError, match="borax"):
        hm.probe.reference_buffer_ph_nbs(temperature_celsius=25.0, buffer="seven")


def test_seawater_buffers() -> None:
    # Dickson, Sabine & Christian (2007) SOP 6a, check values at 25 °C, S 35 (from memory);
    # the printed coefficients of tris give 8.0935.
    def ph_total(buffer: str, salinity: float) -> float:
        return hm.probe.seawater_buffer_ph_total(
            temperature_celsius=25.0, practical_salinity=salinity, buffer=buffer
        )

    assert ph_total("tris", 35.0) == pytest.approx(8.0936, abs=1e-4)
    assert ph_total("aminopyridine", 35.0) == pytest.approx(6.7866, abs=5e-5)
    # Müller et al. (2018) doi:10.3389/fmars.2018.00176, read second-hand.
    assert ph_total("tris", 20.0) == pytest.approx(8.0703, abs=0.002)
    with pytest.raises(hm.HalimedaValueError) as refused:
        ph_total("tris", 19.0)
    assert refused.value.kind == "extrapolation"


def test_missing_compensation() -> None:
    shown = np.array([7.0, 8.2])
    found = hm.probe.compensated_ph_nbs(
        displayed_ph_nbs=shown, meter_celsius=25.0, probe_celsius=30.0
    )
    np.testing.assert_allclose(found, 7.0 + (shown - 7.0) * 298.15 / 303.15)
    total = hm.probe.compensated_ph_total(
        displayed_ph_total=8.2, meter_celsius=25.0, probe_celsius=30.0
    )
    assert total == found[1]


def calibration(first_mv: float = 2.4, second_mv: float = -130.1) -> ProbeCalibration:
    return ProbeCalibration(
        BufferReading(first_mv, 22.0, ph_nbs=6.876), BufferReading(second_mv, 22.0, ph_nbs=9.207)
    )


def test_calibration_and_reading(water) -> None:
    probe = calibration()
    assert probe.health == "good" and probe.cautions == []
    reading = probe.read(-75.0, 25.5)
    assert reading.ph_nbs == pytest.approx(8.22, abs=0.01)
    assert reading.ph_total is None
    parts = [
        reading.from_buffers,
        reading.from_potentials,
        reading.from_temperatures,
        reading.from_junction,
    ]
    assert reading.standard_uncertainty == pytest.approx(np.linalg.norm(parts))
    assert reading.from_junction == 0.05
    total = reading.on_total_scale(water)
    assert total.ph_nbs == reading.ph_nbs
    assert total.ph_total == pytest.approx(reading.ph_nbs - 0.13, abs=0.02)
    state = water.carbonate(alkalinity="8 dKH", ph_nbs=reading.ph_nbs)
    assert state.ph_total == pytest.approx(total.ph_total, abs=1e-9)
    for thing in (probe, reading, total):
        assert pickle.loads(pickle.dumps(thing)) == thing


def test_worn_probes_say_so() -> None:
    worn = calibration(60.0, -60.0)
    assert worn.health == "replace"
    assert "replace" in worn.cautions[0]
    assert worn.cautions[0] in repr(worn)
    assert "Do not trust" in worn._repr_html_()


def test_calibration_refusals() -> None:
    with pytest.raises(hm.HalimedaValueError, match="swapped") as refused:
        calibration(-130.0, 2.4)
    assert refused.value.kind == "contradictory"
    with pytest.raises(hm.HalimedaValueError) as refused:
        calibration(2.4, -40.0)
    assert refused.value.input == "probe slope"
    assert refused.value.limits == (60.0, 110.0)
    with pytest.raises(hm.HalimedaTypeError, match="two scales"):
        ProbeCalibration(
            BufferReading(2.4, 22.0, ph_nbs=6.876), BufferReading(-60.0, 22.0, ph_total=8.1)
        )
    with pytest.raises(hm.HalimedaTypeError):
        BufferReading(2.4, 22.0)


def test_drift() -> None:
    drift = ProbeDrift(calibration(), calibration(-3.0, -133.0), days=60.0)
    assert drift.offset_mv_per_month < 0.0
    # On the day of the earlier calibration there is none yet.
    assert drift.bias_ph(-75.0, 25.0, days_since_earlier=0.0) == pytest.approx(0.0, abs=1e-12)
    assert drift.bias_ph(-75.0, 25.0, days_since_earlier=30.0) > 0.0
    with pytest.raises(hm.HalimedaValueError) as refused:
        drift.bias_ph(-75.0, 25.0, days_since_earlier=121.0)
    assert refused.value.limits == (0.0, 120.0)
    assert pickle.loads(pickle.dumps(drift)) == drift
