"""Descriptions, runs, parameters: that they say what the crate says."""

import csv
import datetime
import pathlib
import pickle

import numpy as np
import pytest

import halimeda as hm

HERE = pathlib.Path(__file__).parent


@pytest.fixture(scope="module")
def tank():
    return hm.example_tank()


@pytest.fixture(scope="module")
def run(tank):
    return tank.simulate(days=20, sample_every_days=0.25)


def test_a_run_equals_that_of_the_crate(tank):
    with open(HERE / "data/invented_reef_10_days.csv", newline="") as file:
        rows = list(csv.DictReader(file))
    run = tank.simulate(days=10, sample_every_days=0.5)
    assert [float(row["day"]) for row in rows] == run.days.tolist()
    assert set(rows[0]) == {"day", *run.samples}
    for name, column in run.samples.items():
        if column.dtype == bool:
            assert [row[name] == "true" for row in rows] == column.tolist(), name
        else:
            wanted = [float(row[name]) for row in rows]
            np.testing.assert_allclose(column, wanted, rtol=1e-9, err_msg=name)


def test_a_run_has_every_variable_with_its_unit(run):
    assert run.units["ph_total"] == "total scale"
    assert run.units["nitrate_mg_per_l"] == "mg/L"
    assert len(run.units) == 19
    for name in run.units:
        column = getattr(run, name)
        assert column.shape == run.days.shape
        assert column.dtype == np.float64
        assert np.isfinite(column).all()
    assert run.screen_lit.dtype == bool
    # Lit from 20:00 for 18 h, and from 10:00 for 10 h.
    hour = np.round(run.days % 1.0 * 24.0)
    inside = (hour != 20.0) & (hour != 14.0) & (hour != 10.0)
    np.testing.assert_array_equal(
        run.screen_lit[inside], ((hour >= 20.0) | (hour < 14.0))[inside]
    )


def test_columns_cannot_be_written_to(run):
    with pytest.raises(ValueError, match="read-only"):
        run.ph_total[0] = 7.0
    with pytest.raises(AttributeError):
        run.days = run.days


def test_harvests_are_those_of_the_plan(tank, run):
    assert tank.schedule.harvest.every_days == 9.0
    assert [harvest.day for harvest in run.harvests] == [9.0, 18.0]
    first = run.harvests[0]
    assert 0.0 < first.dry_grams < first.drained_grams
    assert first.nitrogen_mol < first.carbon_mol
    exported = run.ledger.entry("harvest", "nitrogen")
    assert exported == pytest.approx(
        -sum(h.nitrogen_mol for h in run.harvests), rel=1e-9
    )


def test_the_books_close(run):
    ledger = run.ledger
    assert ledger.entries.shape == (len(ledger.processes), len(ledger.stocks))
    change = ledger.after - ledger.before
    booked = ledger.entries.sum(axis=0)
    scale = np.maximum(ledger.stock_throughput, 1e-30)
    assert (np.abs(change - booked) / scale).max() < 1e-10
    for name in ledger.elements:
        assert ledger.element_closure(name).relative < 1e-10
    for name in ledger.stocks:
        assert ledger.closure(name).relative < 1e-10
    assert ledger.entry("nitrification", "ammonium") < 0.0
    assert ledger.entry("nitrification", "nitrogen") == pytest.approx(0.0, abs=1e-12)
    assert ledger.units["water"] == "kg"
    with pytest.raises(hm.HalimedaValueError, match="did you mean 'nitrification'"):
        ledger.entry("nitrifcation", "nitrate")


def test_books_as_a_table(run):
    pytest.importorskip("pandas")
    frame = run.ledger.to_pandas()
    assert frame.loc["harvest", "nitrogen of turf"] == run.ledger.entry(
        "harvest", "nitrogen of turf"
    )
    elements = run.ledger.to_pandas(by="element")
    assert elements.loc["feeding", "phosphorus"] > 0.0
    assert elements.attrs["units"]["phosphorus"] == "mol"


def test_columns_as_data_frames(run):
    pandas = pytest.importorskip("pandas")
    frame = run.to_pandas()
    assert frame.index[0] == pandas.Timestamp("2026-01-15", tz="Europe/Berlin")
    assert frame.index[-1] - frame.index[0] == pandas.Timedelta(days=20)
    np.testing.assert_array_equal(frame["ph_total"], run.ph_total)
    assert frame.attrs["units"]["calcium_mg_per_l"] == "mg/L"
    polars = pytest.importorskip("polars")
    columns = run.to_polars()
    assert columns["time"].dtype == polars.Datetime("ms", "Europe/Berlin")
    np.testing.assert_array_equal(columns["nitrate_mg_per_l"], run.nitrate_mg_per_l)


def test_columns_as_a_dataset(run):
    pytest.importorskip("xarray")
    dataset = run.to_xarray()
    assert (
        dataset.ph_total.attrs["standard_name"]
        == "sea_water_ph_reported_on_total_scale"
    )
    assert dataset.oxygen_umol_per_kg.attrs["units"] == "umol kg-1"
    assert dataset.time.values[0] == np.datetime64("2026-01-14T23:00:00")
    np.testing.assert_array_equal(dataset.ph_total, run.ph_total)


def test_days_without_a_start_are_counted(tank):
    undated = tank.replace({"simulation.start": None, "simulation.time_zone": None})
    assert undated.start is None
    run = undated.simulate(days=1)
    assert run.times is None
    pytest.importorskip("pandas")
    frame = run.to_pandas()
    assert frame.index.name == "day"
    assert "day" not in frame.columns
    pytest.importorskip("xarray")
    assert dict(run.to_xarray().sizes) == {"day": 25}
    pytest.importorskip("polars")
    assert run.to_polars().columns[0] == "day"


def test_summer_time_moves_the_clock_not_the_tank(tank):
    # In 2026 Berlin skips 02:00 to 03:00 on 29 March, and has that hour of
    # 25 October twice (EU directive 2000/84/EC).
    spring = tank.replace({"simulation.start": datetime.date(2026, 3, 29)})
    hours = np.arange(0.0, 5.0) / 24.0
    instants = spring.times(hours).astype("datetime64[s]")
    wanted = [
        "2026-03-28T23",
        "2026-03-29T00",
        "2026-03-29T01",
        "2026-03-29T01",
        "2026-03-29T02",
    ]
    assert instants.tolist() == [
        datetime.datetime.fromisoformat(w + ":00:00") for w in wanted
    ]
    half = spring.times(2.5 / 24.0)
    assert half.astype("datetime64[s]").item() == datetime.datetime(2026, 3, 29, 1)
    autumn = tank.replace({"simulation.start": datetime.date(2026, 10, 25)})
    instants = autumn.times(hours).astype("datetime64[h]").astype(str).tolist()
    wanted = [
        "2026-10-24T22",
        "2026-10-24T23",
        "2026-10-25T00",
        "2026-10-25T02",
        "2026-10-25T03",
    ]
    assert instants == wanted


def test_a_description_says_what_its_file_says(tank):
    assert tank.name == "Invented reef"
    assert tank.net_volume_l == 200.0
    assert tank.setup.temperature_celsius == 25.5
    assert tank.screen.width_cm == 30.0
    assert tank.screen.lit_area_m2 == pytest.approx(0.24)
    assert tank.schedule.feedings[2].kind == "frozen"
    assert tank.schedule.feedings[2].grams == 6.8
    assert tank.goals.nitrate_mg_per_l.high == pytest.approx(6.0, rel=1e-9)
    assert tank.start == datetime.date(2026, 1, 15)
    assert tank.time_zone == "Europe/Berlin"
    assert tank.horizon_days == 180.0
    assert tank.assumptions[0].key
    assert tank.parameters == hm.Parameters()


def test_a_description_is_read_from_path_text_bytes_and_tables(tank, tmp_path):
    path = tmp_path / "tank.toml"
    path.write_text(tank.to_toml(), encoding="utf-8")
    for source in (path, str(path), tank.to_toml(), tank.to_toml().encode()):
        assert hm.Tank.from_toml(source) == tank
    tables = hm.Tank.from_dict(tank.to_dict())
    assert tables.setup == tank.setup
    assert tables.schedule == tank.schedule
    assert tables.start == tank.start
    assert hm.Tank(**tank.to_dict()).schedule == tank.schedule
    with pytest.raises(OSError, match="nowhere"):
        hm.Tank.from_toml("nowhere.toml")
    with pytest.raises(hm.HalimedaTypeError):
        hm.Tank.from_toml(3)


def test_all_problems_of_a_description_are_told():
    with pytest.raises(hm.DescriptionError) as caught:
        hm.Tank.from_toml('[tank]\nnet_volme = "180 L"\ntemperature = "90 °C"\n')
    error = caught.value
    assert isinstance(error, ValueError)
    misspelt = next(p for p in error.problems if p.kind == "unknown_key")
    assert (misspelt.line, misspelt.column) == (2, 1)
    assert misspelt.suggestion == "did you mean `net_volume`?"
    assert misspelt.excerpt == 'net_volme = "180 L"'
    hot = next(p for p in error.problems if p.kind == "out_of_range")
    assert hot.key == "tank.temperature"
    assert "5" in hot.expected
    assert "35" in hot.expected
    copied = pickle.loads(pickle.dumps(error))
    assert copied.problems == error.problems
    assert str(copied) == str(error)


def test_tables_go_through_the_same_checks(tank):
    tables = tank.to_dict()
    tables["tank"]["net_volume"] = 200.0
    with pytest.raises(hm.DescriptionError) as caught:
        hm.Tank(**tables)
    assert caught.value.problems[0].kind == "missing_unit"
    assert caught.value.problems[0].key == "tank.net_volume"
    tables["tank"]["net_volume"] = object()
    with pytest.raises(hm.HalimedaTypeError, match=r"tank\.net_volume"):
        hm.Tank(**tables)


def test_changes_keep_the_comments(tank):
    changed = tank.replace(
        {
            "screen.light.duration": "20 h",
            "feeding[2].mass": "2 g",
            "harvest.first": "3 d",
        }
    )
    assert changed.schedule.screen_light.hours == 20.0
    assert [f.grams for f in changed.schedule.feedings] == [1.2, 2.0, 6.8]
    assert changed.schedule.harvest.first_day == 3.0
    before, after = tank.to_toml().splitlines(), changed.to_toml().splitlines()
    assert [line for line in after if line not in before] == [
        'light = { start = "20:00", duration = "20 h" }',
        'mass = "2 g"',
        'first = "3 d"',
    ]
    assert tank.replace({"harvest": None}).schedule.harvest is None
    assert len(tank.replace({"feeding[1]": None}).schedule.feedings) == 2
    parameter = tank.replace({"parameters.turf.reserve_days": "9 d"})
    assert parameter.parameters["turf.reserve_days"] == 9.0
    assert parameter.ranges["turf.reserve_days"] == hm.ParameterRange(9.0, 9.0, 9.0)


def test_changes_that_cannot_be_made_are_refused(tank):
    with pytest.raises(hm.DescriptionError, match="colour"):
        tank.replace({"tank.colour": "blue"})
    with pytest.raises(hm.HalimedaValueError, match="feeding"):
        tank.replace({"feeding[9].mass": "2 g"})
    with pytest.raises(hm.HalimedaValueError, match="tank.name.first"):
        tank.replace({"tank.name.first": "x"})
    with pytest.raises(hm.HalimedaValueError, match="lit_hours"):
        tank.replace(hours=12.0)
    with pytest.raises(hm.HalimedaValueError, match="foam"):
        tank.replace(foam_flow=300.0)
    with pytest.raises(hm.HalimedaTypeError, match="lit_hours"):
        tank.replace(lit_hours="12 h")
    with pytest.raises(hm.DescriptionError):
        tank.replace(lit_hours=25.0)


LEVERS = {
    "screen_area": 2.0,
    "irradiance": 300.0,
    "lit_hours": 12.5,
    "start_hour": 3.75,
    "flow_per_width": 40.0,
    "harvest_interval": 7.0,
    "kept_share": 0.3,
    "feeding": 1.25,
    "water_change_share": 0.2,
    "water_change_interval": 14.0,
    "overflow": 900.0,
    "open_surface": 0.7,
    "foam_flow": 400.0,
}


def test_levers_set_what_they_say(tank):
    assert LEVERS.keys() == hm.Tank.levers().keys()
    foamy = tank.replace({"foam_fractionator": {"flow": "300 L/h"}})
    moved = foamy.replace(**LEVERS)
    stands, schedule = moved.setup, moved.schedule
    assert stands.screen.lit_area_m2 == pytest.approx(2.0 * tank.screen.lit_area_m2)
    assert stands.screen.height_cm / stands.screen.width_cm == pytest.approx(4 / 3)
    assert stands.screen.irradiance_umol_per_m2_s == 300.0
    assert schedule.screen_light.hours == 12.5
    assert schedule.screen_light.start_hour == 3.75
    assert stands.screen.flow_l_per_h_per_cm == 40.0
    assert schedule.harvest.every_days == 7.0
    assert schedule.harvest.first_day == tank.schedule.harvest.first_day
    assert schedule.harvest.kept_share == 0.3
    fed = [f.grams / g.grams for f, g in zip(schedule.feedings, tank.schedule.feedings)]
    assert fed == pytest.approx([1.25] * 3)
    assert schedule.water_change.share == 0.2
    assert schedule.water_change.every_days == 14.0
    assert stands.overflow_l_per_h == 900.0
    assert stands.surface_area_m2 == 0.7
    assert stands.foam_fractionator.water_l_per_h == 400.0
    # What a lever does not move stays.
    wider = tank.replace(screen_area=2.0)
    assert wider.screen.flow_l_per_h_per_cm == tank.screen.flow_l_per_h_per_cm
    assert wider.screen.irradiance_umol_per_m2_s == tank.screen.irradiance_umol_per_m2_s


@pytest.mark.parametrize(
    ("arguments", "blamed"),
    [
        ({"days": -1.0}, "days"),
        ({"days": float("nan")}, "days"),
        ({"days": 10, "sample_every_days": 0.0}, "sample_every_days"),
        ({"days": 10, "relative_tolerance": 1.0}, "relative_tolerance"),
        ({"days": 10, "books_from_day": 11.0}, "books_from_day"),
    ],
)
def test_bad_numbers_of_a_run_are_named(tank, arguments, blamed):
    with pytest.raises(hm.HalimedaValueError) as caught:
        tank.simulate(**arguments)
    assert caught.value.input == blamed
    assert caught.value.limits is not None


def test_parameters_change_a_run(tank):
    parameters = hm.Parameters({"turf.max_photosynthesis_per_day": 0.1})
    slow = tank.simulate(days=10, parameters=parameters)
    fast = tank.simulate(days=10)
    assert slow.turf_g_dry_per_m2[-1] < fast.turf_g_dry_per_m2[-1]
    with pytest.raises(hm.HalimedaTypeError):
        tank.simulate(days=1, parameters={"turf.reserve_days": 9.0})


def test_parameters_are_known_by_name():
    infos = hm.Parameters.infos()
    assert len(infos) == len(hm.Parameters()) == len(hm.Ranges())
    info = infos["turf.reserve_days"]
    assert info.unit == "d"
    assert info.low <= info.default <= info.high
    assert info.source
    changed = hm.Parameters().replace({"turf.reserve_days": 9.0})
    assert changed.changed() == {"turf.reserve_days": 9.0}
    assert eval(repr(changed), {"Parameters": hm.Parameters}) == changed
    assert hash(changed) != hash(hm.Parameters())
    with pytest.raises(hm.HalimedaValueError, match="did you mean 'turf.reserve_days'"):
        hm.Parameters({"turf.reserve_day": 9.0})
    with pytest.raises(hm.HalimedaValueError, match="finite"):
        hm.Parameters({"turf.reserve_days": float("inf")})
    with pytest.raises(hm.HalimedaTypeError):
        hm.Parameters({"turf.reserve_days": "9 d"})
    for bad in ((3.0, 2.0, 4.0), (-1.0, 2.0, 4.0), (1.0, 2.0, float("nan"))):
        with pytest.raises(hm.HalimedaValueError):
            hm.Ranges({"turf.reserve_days": bad})
    assert hm.Ranges({"turf.reserve_days": 9.0}).nominal() == changed


def test_results_can_be_pickled(tank, run):
    for thing in (
        tank,
        run,
        run.ledger,
        hm.Parameters({"turf.reserve_days": 9.0}),
        hm.Ranges(),
    ):
        copied = pickle.loads(pickle.dumps(thing))
        assert copied == thing
        assert type(copied) is type(thing)
    assert run != tank.simulate(days=20, sample_every_days=0.5)


def test_examples_are_marked_as_invented():
    for name in ("invented_reef", "invented_young_tank"):
        tank = hm.example_tank(name)
        assert "invented" in tank.to_toml().splitlines()[0].lower()
    with pytest.raises(hm.HalimedaValueError, match="invented_reef"):
        hm.example_tank("reef")


def test_every_public_class_is_reached_and_told_of():
    import halimeda.tank

    for name in halimeda.tank.__all__:
        assert getattr(halimeda.tank, name).__doc__
    assert not set(halimeda.tank.__all__) & set(hm.__all__)
    assert set(dir(hm)) >= set(hm.__all__)
    with pytest.raises(AttributeError, match="nothing"):
        hm.nothing  # noqa: B018
