"""The keeper's log: read, fitted, judged."""

import datetime
import json
import pickle

import numpy as np
import pytest

import halimeda as hm
from halimeda import _native

TEXT = """\
# Invented log of an invented tank.
time,nitrate [mg/L NO3] step=1,phosphate [mg/L PO4],ph [NBS],harvest wet [g],water change [L],note
2026-01-20 18:30,3,0.08,8.2,,,
2026-01-24 19:00,4,<0.02,8.1,310,,first one
2026-01-28 09:00,many,0.05,8.15,,20,
2026-02-03 18:00,2-5,0.06,,290,,
"""


@pytest.fixture(scope="module")
def tank():
    return hm.example_tank()


@pytest.fixture(scope="module")
def log(tank):
    return hm.Log.read(TEXT, tank)


@pytest.fixture(scope="module")
def long_log(tank):
    """Sixty days that an invented keeper wrote down of an invented tank."""
    return hm.Log(tank, _native.invented_log(tank._native, 60.0, 7, False))


@pytest.fixture(scope="module")
def fit(tank, long_log):
    return tank.fit(long_log, members=16, chain_steps=4, search_steps=2)


def test_a_log_is_read_and_what_was_not_is_listed(tank, log):
    nitrate = [r for r in log.readings if r.measured == "nitrate"]
    # Days since midnight of 2026-01-15, the start of the tank.
    assert [r.day for r in nitrate] == pytest.approx(
        [5 + 18.5 / 24, 9 + 19 / 24, 19.75]
    )
    assert [(r.low, r.high) for r in nitrate] == [(2.5, 3.5), (3.5, 4.5), (2.0, 5.0)]
    assert nitrate[0].middle == 3.0
    kinds = [entry.kind for entry in log.entries]
    assert kinds == ["harvest", "note", "water_change", "harvest"]
    assert log.entries[0].details == {"weight": {"wet_grams": 310.0}}
    assert log.entries[1].details == {"note": "first one"}
    assert log.entries[2].details == {"litres": 20.0}
    [rejected] = log.rejected
    assert (rejected.line, rejected.kind, rejected.source) == (5, "unreadable", "")
    assert rejected.column.startswith("nitrate")
    assert "many" in rejected.found
    assert log.last_day == pytest.approx(19.75)
    assert log.units["alkalinity"] == "µmol/kg"


def test_a_clean_copy_reads_back_to_the_same_log(tank, log, tmp_path):
    path = tmp_path / "clean.csv"
    text = log.to_csv(path)
    assert (
        hm.Log.read(text, tank)
        == hm.Log.read(path, tank)
        == hm.Log.read(str(path), tank)
        == log
    )
    assert hm.Log.read(text.encode(), tank).rejected == ()


def test_a_file_that_says_nothing_is_an_error(tank):
    with pytest.raises(hm.HalimedaValueError) as caught:
        hm.Log.read("just words\nand more\n", tank)
    assert caught.value.input == "log"
    with pytest.raises(OSError, match="nowhere"):
        hm.Log.read("nowhere.csv", tank)
    with pytest.raises(hm.HalimedaTypeError):
        hm.Log.read(3, tank)
    with pytest.raises(hm.HalimedaTypeError):
        hm.Log.read(TEXT, "tank")
    with pytest.raises(hm.HalimedaValueError):
        hm.Log.read([], tank)


def test_data_frames_are_read_as_files_are(tank):
    pandas = pytest.importorskip("pandas")
    polars = pytest.importorskip("polars")
    clock = ["2026-01-20 18:30", "2026-02-03 18:00", "2026-02-10 07:15"]
    columns = {
        "nitrate [mg/L NO3]": [3.0, np.nan, 2.5],
        "note": ["first", None, "third"],
    }
    wanted = hm.Log.read({"time": clock, **columns}, tank)
    assert [r.middle for r in wanted.readings] == [3.0, 2.5]
    assert [e.details["note"] for e in wanted.entries] == ["first", "third"]
    naive = pandas.to_datetime(pandas.Series(clock))
    zoned = naive.dt.tz_localize("Europe/Berlin")
    datetimes = [datetime.datetime.fromisoformat(t) for t in clock]
    sources = [
        pandas.DataFrame({"time": naive, **columns}),
        pandas.DataFrame({"time": zoned.dt.tz_convert("UTC"), **columns}),
        pandas.DataFrame(columns, index=pandas.DatetimeIndex(zoned)),
        pandas.DataFrame({"time": clock, **columns}),
        polars.DataFrame({"time": datetimes, **columns}, strict=False),
        {"time": naive.to_numpy(), **columns},
        {"time": datetimes, **columns},
        {
            "time": [t.astimezone(datetime.UTC) for t in zoned.dt.to_pydatetime()],
            **columns,
        },
        {
            "day": [
                (t - datetime.datetime(2026, 1, 15)) / datetime.timedelta(days=1)
                for t in datetimes
            ],
            **columns,
        },
    ]
    for source in sources:
        read = hm.Log.read(source, tank)
        assert not read.rejected, source
        assert [r.day for r in read.readings] == pytest.approx(
            [r.day for r in wanted.readings]
        )
        assert [r.middle for r in read.readings] == [3.0, 2.5]
        assert [e.details for e in read.entries] == [e.details for e in wanted.entries]
    with pytest.raises(hm.HalimedaValueError, match="time"):
        hm.Log.read({"nitrate [mg/L NO3]": [3.0]}, tank)
    with pytest.raises(hm.HalimedaValueError, match="zone"):
        hm.Log.read({"time": [datetimes[0], datetime.datetime.now(datetime.UTC)]}, tank)
    short = {"time": naive, "nitrate [mg/L NO3]": [3.0]}
    with pytest.raises(hm.HalimedaValueError):
        hm.Log.read(short, tank)


def test_probe_records_are_arrays(tank):
    day = np.arange(0.0, 20.0, 1 / 144)
    values = 8.1 + 0.1 * np.sin(2 * np.pi * day)
    values[100] = np.nan
    log = hm.Log.read({"day": day, "ph [total]": values}, tank, probes=True)
    [probe] = log.probes
    assert probe.measured == "ph"
    assert len(probe.days) == len(day) - 1
    np.testing.assert_allclose(probe.values, np.delete(values, 100), rtol=1e-12)
    with pytest.raises(ValueError, match="read-only"):
        probe.values[0] = 7.0
    assert log.until(5.0).probes[0].days.max() <= 5.0
    assert f"{len(probe.days)} probe records" in repr(log)
    assert pickle.loads(pickle.dumps(log)) == log


def test_logs_are_put_together(tank, log):
    other = "time,alkalinity [dKH]\n2026-01-21 12:00,7.8\n"
    both = hm.Log.read([TEXT, other], tank)
    assert len(both.readings) == len(log.readings) + 1
    assert both.rejected == log.rejected
    assert log.join(log) == log
    with pytest.raises(hm.HalimedaValueError, match="different"):
        log.join(hm.Log.read(TEXT, tank.replace(lit_hours=12.0)))


def test_readings_as_a_table(log):
    pandas = pytest.importorskip("pandas")
    frame = log.to_pandas("nitrate")
    assert frame.index[0] == pandas.Timestamp("2026-01-20 18:30", tz="Europe/Berlin")
    assert frame["middle"].tolist() == [3.0, 4.0, 3.5]
    assert len(log.to_pandas()) == len(log.readings)
    with pytest.raises(hm.HalimedaValueError, match="nitrate"):
        log.to_pandas("nitrat")


def test_net_rates_take_water_changes_out(tank):
    # Nitrate rises by 2 mg/L in four days, of which 20 of 200 L of water without any
    # took a tenth of 4 mg/L halfway: by hand (6 - 0.9 * 4) / (2 * 0.9 + 2) mg/L a day.
    still = tank.replace({"water_change": None})
    log = hm.Log.read(
        "time [d],nitrate [mg/L NO3] step=0.001,water change [L]\n1,4,\n3,,20\n5,6,\n",
        still,
    )
    [rate] = log.net_rates("nitrate")
    assert (rate.from_day, rate.to_day, rate.tests) == (1.0, 5.0, 2)
    assert rate.per_day.p50 == pytest.approx(
        (6.0 - 0.9 * 4.0) / (2.0 * 0.9 + 2.0), rel=1e-2
    )
    assert rate.per_day.p5 < rate.per_day.p50 < rate.per_day.p95
    assert log.rate("nitrate", 0.0, 6.0) == rate
    balance = log.nutrient_balance(0.0, 6.0)
    assert balance.phosphorus_mmol_per_day is None
    # 62.005 g of nitrate are a mole: IUPAC 2021.
    grams = 14.007 * rate.per_day.p50 * 200.0 / 62.005 / 1000.0
    assert balance.nitrogen_grams_per_day.p50 == pytest.approx(grams, rel=1e-3)
    for measured in ("phosphate", "ph"):
        with pytest.raises(hm.HalimedaValueError) as caught:
            log.net_rates(measured)
        assert caught.value.kind == "uninformative"
    with pytest.raises(hm.HalimedaValueError, match="nitrate"):
        log.net_rates("nitrat")


def test_consumption_is_what_dosing_does_not_bring(tank, long_log):
    used = long_log.consumption(0.0, 60.0)
    assert used.alkalinity_dkh_per_day.p5 < used.alkalinity_dkh_per_day.p95
    assert used.calcium_mg_per_l_per_day is not None
    assert used.is_calcification in (True, False)


def test_a_fit_says_what_the_log_informs(tank, long_log, fit):
    assert len(fit) == 16
    assert len(fit.informed) + len(fit.resting_on_ranges) == len(fit.fitted)
    assert fit.informed
    best = fit.informed[0]
    assert fit[best.path] is best
    spread = best.posterior.p95 - best.posterior.p5
    assert spread < best.prior.p95 - best.prior.p5
    with pytest.raises(KeyError):
        fit["no.such"]
    assert fit.quality.readings > 0
    assert len(fit.parameters) == 16
    assert isinstance(fit.parameters[0], hm.Parameters)
    narrowed = [name for name in fit.ranges if fit.ranges[name] != tank.ranges[name]]
    informed = {fitted.path for fitted in fit.informed}
    assert set(narrowed) <= informed
    assert pickle.loads(pickle.dumps(fit)) == fit
    json.dumps(fit.to_dict())
    pytest.importorskip("pandas")
    frame = fit.to_pandas()
    assert frame.loc[best.path, "posterior_p50"] == best.posterior.p50


def test_a_fit_can_be_watched_and_stopped(tank, long_log):
    told = []
    tank.fit(
        long_log.until(20.0),
        members=8,
        chain_steps=2,
        search_steps=1,
        progress=told.append,
    )
    assert told[-1].share == 1.0

    class Enough(Exception):
        pass

    def stop(progress):
        raise Enough

    with pytest.raises(Enough):
        tank.fit(long_log, members=4096, progress=stop)


def test_a_log_without_readings_says_what_is_missing(tank):
    empty = hm.Log.read("time,note\n2026-02-01 12:00,nothing measured\n", tank)
    with pytest.raises(hm.HalimedaValueError) as caught:
        tank.fit(empty)
    assert caught.value.kind == "uninformative"
    verdict = tank.verdict(empty, members=8)
    assert verdict.removal is None
    assert verdict.missing
    assert "does not tell" in verdict.summary[0]
    with pytest.raises(hm.HalimedaValueError, match="empty"):
        tank.verdict(hm.Log.read("time,nitrate [mg/L NO3]\n", tank))


def test_a_verdict_says_whether_it_works(tank, long_log, fit, outline):
    verdict = tank.verdict(long_log, fit, suspicions=8)
    removal = verdict.removal
    assert 0.0 <= removal.nitrogen_exceeds_load <= 1.0
    assert removal.nitrogen_mmol_per_day.p50 > 0.0
    assert {trend.measured for trend in verdict.trends} <= {"nitrate", "phosphate"}
    assert verdict.stalls == tuple(sorted(verdict.stalls, key=lambda s: -s.probability))
    assert len(verdict.harvests) >= 3
    assert verdict.today == long_log.last_day
    assert verdict.cautions
    for sentence in (*verdict.summary, *verdict.cautions):
        assert sentence in str(verdict)
    assert pickle.loads(pickle.dumps(verdict)) == verdict
    shown = outline(verdict).text
    assert "Is it working?" in shown
    assert verdict.cautions[0] in shown
    json.dumps(verdict.to_dict())
    earlier = tank.fit(long_log.until(30.0), members=8, chain_steps=2, search_steps=1)
    later = tank.verdict(long_log, fit, earlier=earlier, suspicions=8)
    assert later.causes.from_day <= 30.0
    with pytest.raises(hm.HalimedaTypeError):
        tank.verdict(long_log, "fit")
    with pytest.raises(hm.HalimedaValueError, match="windows"):
        tank.verdict(long_log, fit, windows=3.0)


def test_a_forecast_carries_its_range_and_its_rivals(tank, long_log, fit, outline):
    forecast = tank.forecast(long_log, fit, horizons_days=(7.0, 14.0))
    assert {h.horizon_days for h in forecast.horizons} == {7.0, 14.0}
    nitrate = next(h for h in forecast.horizons if h.variable == "nitrate_mg_per_l")
    last = [r for r in long_log.readings if r.measured == "nitrate"][-1]
    assert nitrate.persistence == last.middle
    rows = forecast.over_time["nitrate_mg_per_l"]
    assert rows.shape == (5, len(forecast.days)) == (5, 14)
    assert (np.diff(rows, axis=0) >= 0.0).all()
    assert rows[2, 6] == nitrate.quantiles.p50
    assert pickle.loads(pickle.dumps(forecast)) == forecast
    shown = outline(forecast).text
    assert "nothing changes" in shown
    assert "5 to 95 %" in shown
    with pytest.raises(hm.HalimedaValueError, match="ph_nbs"):
        tank.forecast(long_log, fit, variables=["ph_nbs"])
    pytest.importorskip("pandas")
    assert forecast.to_pandas("nitrate_mg_per_l").shape == (14, 5)
    assert len(forecast.to_pandas()) == len(forecast.horizons)


def test_forecasts_of_the_past_are_scored(tank, long_log):
    rows = tank.forecast_skill(
        long_log, [40.0], members=8, chain_steps=2, search_steps=1
    )
    week = next(r for r in rows if (r.measured, r.horizon_days) == ("nitrate", 7.0))
    # Tests every four days or so: two or three of them come three to eleven days later.
    assert 1 <= week.count <= 4
    assert week.mean_error >= 0.0
    assert week.skill == pytest.approx(
        1.0 - week.mean_error / week.persistence_mean_error
    )
    assert {row.horizon_days for row in rows} <= {7.0, 30.0, 90.0}


def test_the_next_tests_are_named(tank, long_log, fit):
    tests = tank.next_tests(long_log, fit, count=2)
    assert 1 <= len(tests) <= 2
    for test in tests:
        assert test.measured in long_log.units
        assert long_log.last_day < test.day <= long_log.last_day + 14.0
        assert 0.0 < test.expected_reduction <= 1.0


def test_upkeep_becomes_a_calendar(tank, long_log, fit, tmp_path, outline):
    calibrated = [("ph", 10.0)]
    upkeep = tank.upkeep(long_log, fit, calibrations=calibrated)
    kinds = {task.kind for task in upkeep}
    assert "harvest" in kinds
    assert [task.day for task in upkeep] == sorted(task.day for task in upkeep)
    assert all(task.words and task.reason for task in upkeep)
    made = datetime.datetime(2026, 3, 20, 12, tzinfo=datetime.UTC)
    path = tmp_path / "upkeep.ics"
    text = upkeep.to_icalendar(path, hour=19.5, reminder_minutes=60, made=made)
    assert path.read_bytes().decode() == text
    assert text.startswith("BEGIN:VCALENDAR\r\n")
    assert text.endswith("END:VCALENDAR\r\n")
    assert text.count("BEGIN:VEVENT") == text.count("END:VEVENT") == len(upkeep)
    assert text.count("BEGIN:VALARM") == len(upkeep)
    assert "DTSTAMP:20260320T120000Z" in text
    # 19:30 in Berlin is 18:30 UTC in winter and 17:30 in summer.
    assert "T183000Z" in text or "T173000Z" in text
    # RFC 5545, 3.1: no line is longer than 75 octets.
    assert max(len(line.encode()) for line in text.split("\r\n")) <= 75
    assert upkeep.to_icalendar(made=made) == upkeep.to_icalendar(made=made)
    assert len(upkeep[:1]) == 1
    assert pickle.loads(pickle.dumps(upkeep)) == upkeep
    assert upkeep[0].words in outline(upkeep).text
    with pytest.raises(hm.HalimedaTypeError, match="zone"):
        upkeep.to_icalendar(made=datetime.datetime(2026, 3, 20))
    with pytest.raises(hm.HalimedaValueError):
        upkeep.to_icalendar(hour=25.0)
    undated = tank.replace({"simulation.start": None, "simulation.time_zone": None})
    counted = hm.Log.read(
        "day,nitrate [mg/L NO3]\n1,3\n9,3\n".replace("day,", "time [d],"), undated
    )
    with pytest.raises(hm.HalimedaValueError, match="start"):
        undated.upkeep(counted, members=8).to_icalendar()


def test_a_diary_adds_up_what_was_carried_out(tank, long_log, fit, outline):
    diary = tank.diary(long_log, fit)
    assert len(diary.entries) >= 3
    each = sum(entry.exported.nitrogen_grams.p50 for entry in diary.entries)
    assert diary.total.nitrogen_grams.p50 == pytest.approx(each, rel=0.2)
    for metal in diary.metals:
        assert metal.low_mg <= metal.middle_mg <= metal.high_mg
        assert metal.source
    assert diary.water_changes_saved.share == 0.1
    assert outline(diary).text
    assert pickle.loads(pickle.dumps(diary)) == diary


def test_a_fit_feeds_ensembles_and_plans(tank, long_log, fit):
    wide = tank.ensemble(days=60, members=16, variables=["nitrate_mg_per_l"])
    known = tank.ensemble(days=60, fit=fit, variables=["nitrate_mg_per_l"])
    assert len(known) == 16

    def spread(ensemble):
        rows = ensemble.over_time["nitrate_mg_per_l"]
        return (rows[-1] - rows[0]).mean()

    assert spread(known) < spread(wide)
    today = fit.tank_on()
    assert today.start == tank.start + datetime.timedelta(days=int(long_log.last_day))
    assert today.screen.age_days == tank.screen.age_days + int(long_log.last_day)
    assert pickle.loads(pickle.dumps(today)) == today
    with pytest.raises(hm.HalimedaValueError, match="day"):
        fit.tank_on(-3.0)
    plan = today.plan(
        14, fit=fit, window_days=7.0, few_members=2, search_runs=2, failure_days=2.0
    )
    assert plan.members == 16


def test_logs_and_fits_are_shown(log, fit, outline):
    shown = outline(log).text
    assert "many" in shown
    assert "Not read: 1" in shown
    assert "Invented reef" in outline(fit).text
