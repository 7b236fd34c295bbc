"""Ensembles, plans and single questions."""

import dataclasses
import json
import math
import pickle

import numpy as np
import pytest

import halimeda as hm

# Little of everything: what is tested is that it arrives, not how good it is.
LITTLE = {"window_days": 10.0, "few_members": 2, "search_runs": 8, "failure_days": 5.0}


@pytest.fixture(scope="module")
def tank():
    return hm.example_tank()


@pytest.fixture(scope="module")
def plan(tank):
    return tank.plan(30, members=4, **LITTLE)


def test_an_ensemble_has_quantiles_of_its_members(tank, outline):
    ranges = hm.Ranges(
        {
            name: info.default
            for name, info in hm.Parameters.infos().items()
            if name != "livestock.nitrogen_retention"
        }
    )
    variables = ["nitrate_mg_per_l", "ph_total"]
    many = tank.ensemble(
        days=10, members=8, variables=variables, ranges=ranges, sample_every_days=0.25
    )
    assert len(many) == 8
    assert list(many.over_time) == variables
    values = many.over_time["nitrate_mg_per_l"]
    assert values.shape == (5, len(many.days)) == (5, 41)
    assert (np.diff(values, axis=0) >= 0.0).all()
    # The nominal tank lies within its ensemble, where but one parameter varies.
    nominal = tank.simulate(days=10, sample_every_days=0.25).nitrate_mg_per_l[1:]
    low, high = values[0, 1:], values[-1, 1:]
    assert ((low < nominal) & (nominal < high)).mean() > 0.9
    of = many.outcome("nitrate_mg_per_l")
    assert of.p5 <= of.p50 <= of.p95
    middle = np.quantile(many.outcomes["nitrate_mg_per_l"], 0.5)
    assert of.p50 == pytest.approx(middle)
    assert many.failed == ()
    assert many == tank.ensemble(
        days=10, members=8, variables=variables, ranges=ranges, sample_every_days=0.25
    )
    assert many != tank.ensemble(days=10, members=8, variables=variables, seed=2)
    assert pickle.loads(pickle.dumps(many)) == many
    assert "8 members" in outline(many).text
    pytest.importorskip("pandas")
    frame = many.to_pandas("nitrate_mg_per_l")
    assert frame.loc[10.0, 0.5] == values[2, -1]
    assert many.to_pandas().shape == (8, 27)
    pytest.importorskip("xarray")
    dataset = many.to_xarray()
    assert dataset.nitrate_mg_per_l.dims == ("quantile", "day")
    assert dataset.ph_total.attrs["standard_name"].startswith("sea_water_ph")


def test_members_that_fail_are_listed(tank):
    # A tank whose limewater runs the carbon out of the water under some draws.
    wild = tank.replace({"tank.evaporation": "60 L/d", "top_off.limewater": "1.5 g/L"})
    many = wild.ensemble(days=20, members=8, variables=["ph_total"])
    assert many.failed
    for failed in many.failed:
        assert failed.reason
        assert math.isnan(many.outcomes["night_ph"][failed.member])
    assert str(len(many.failed)) in repr(many)


def test_bad_questions_of_an_ensemble_are_named(tank):
    with pytest.raises(hm.HalimedaValueError, match="ph_nbs"):
        tank.ensemble(days=5, variables=["ph_nbs"])
    for arguments, blamed in (
        ({"days": 10, "members": 0}, "members"),
        ({"days": 10, "window_days": 11.0}, "window_days"),
        ({"days": float("nan")}, "days"),
        ({"days": 10, "seed": -1}, "seed"),
    ):
        with pytest.raises(hm.HalimedaValueError) as caught:
            tank.ensemble(**{"members": 2, **arguments})
        assert caught.value.input == blamed
    with pytest.raises(hm.HalimedaTypeError):
        tank.ensemble(days=10, members=2.5)


def test_a_plan_is_what_the_crate_says(tank, plan):
    """Field by field, by their names: nothing is lost or renamed on the way."""
    told = plan.to_dict()
    assert len(told["cautions"]) >= 4
    moves = {move.lever: move for move in plan.proposal.moves}
    assert set(plan.settings) <= set(moves) <= set(hm.Tank.levers())
    assert plan.members == 4
    assert 0.0 <= plan.meets_all_goals <= 1.0
    assert plan.today.alkalinity_umol_per_kg == pytest.approx(
        tank.setup.water.alkalinity_umol_per_kg
    )
    assert {f.day for f in plan.forecasts} == {30.0}
    assert [f.variable for f in plan.forecasts][:2] == [
        "nitrate_mg_per_l",
        "phosphate_mg_per_l",
    ]
    assert plan.change["nitrate_mg_per_l"].after.p50 > 0.0
    with pytest.raises(KeyError):
        plan.change["gold"]
    outcome = dataclasses.asdict(plan.proposal.outcome)
    assert set(outcome) == {difference.name for difference in plan.change.differences}
    assert (
        all(check.is_met for check in plan.proposal.checks)
        == plan.proposal.is_reachable
    )
    assert json.loads(json.dumps(told)) == json.loads(json.dumps(told))


def test_the_planned_tank_can_be_followed(tank, plan):
    assert plan.tank.schedule == plan.proposal.setup.schedule
    assert plan.tank.setup == plan.proposal.setup.tank
    run = plan.tank.simulate(30, sample_every_days=1 / 12, relative_tolerance=1e-4)
    last = run.nitrate_mg_per_l[run.days >= 20.0]
    assert np.median(last) == pytest.approx(
        plan.proposal.outcome.nitrate_mg_per_l, rel=1e-6
    )
    # Only its levers can be written into a description, not its dosing.
    with pytest.raises(hm.HalimedaValueError, match=r"plan\.settings"):
        plan.tank.to_toml()
    written = tank.replace(**plan.settings)
    assert written.screen == plan.tank.screen
    assert written.schedule.screen_light == plan.tank.schedule.screen_light


def test_a_plan_pickles_and_compares(tank, plan):
    copied = pickle.loads(pickle.dumps(plan))
    assert copied == plan
    assert copied.tank == plan.tank != plan.present == tank
    assert copied.tank.schedule == plan.tank.schedule


def test_a_plan_is_shown_with_its_ranges_and_cautions(plan, outline):
    shown = outline(plan)
    for words in (
        "What to set",
        "What it gives",
        "nothing changed",
        "5 to 95 %",
        "How long until trouble",
        "With the main pump stopped",
        "first limit passed",
        "Before you act",
        "Mains power",
    ):
        assert words in shown.text, words
    assert "What to set" in plan._repr_html_()
    assert "nan" not in shown.text


def test_text_of_a_keeper_is_escaped(tank, outline):
    marked = tank.replace({"tank.name": "<b>mine</b> & yours"})
    assert "<b>" not in marked._repr_html_()
    assert "<b>mine</b> & yours" in outline(marked).text


def test_tanks_runs_and_books_are_shown(tank, outline):
    run = tank.simulate(days=10)
    assert "Invented reef" in outline(tank).text
    assert "total scale" in outline(run).text
    assert "harvest" in outline(run.ledger).text
    assert "turf.reserve_days" in outline(hm.Parameters()).text


def test_single_questions_are_answered(tank, outline):
    little = {"members": 2, **LITTLE}
    screen = tank.screen_size(30, **little)
    areas = [point.lit_area_m2 for point in screen.by_area]
    assert areas == sorted(areas)
    assert tank.screen.lit_area_m2 == pytest.approx(areas[2])
    light = tank.lighting(30, **little)
    assert light.best.score == min(point.score for point in light.points)
    harvest = tank.harvesting(30, **little)
    assert harvest.best.score == min(point.score for point in harvest.by_depth)
    dark = tank.what_if(tank.replace(lit_hours=6.0), 30, **little)
    assert dark["nitrogen_removed_mmol_per_day"].falls == 1.0
    assert dark.members == 2
    for answer in (screen, light, harvest, dark):
        assert outline(answer).text
        assert answer.reason
        assert pickle.loads(pickle.dumps(answer)) == answer


def test_failures_are_asked_about_one_by_one(tank, outline):
    asked = [hm.Failure("pump"), hm.Failure("away", fed=True, topped_off=False)]
    answers = tank.time_to_trouble(2, asked, members=2, failure_days=5.0)
    assert [answer.failure for answer in answers] == asked
    pump = answers[0]
    assert pump.failure.words == "With the main pump stopped"
    assert pump.first.limit.variable == "oxygen_saturation"
    assert pump.first.days[1] < 1.0
    assert "65 %" in outline(answers).text
    with pytest.raises(hm.HalimedaValueError, match="volcano"):
        tank.time_to_trouble(2, [hm.Failure("volcano")], members=2)


def test_bad_questions_of_a_plan_are_named(tank):
    with pytest.raises(hm.HalimedaValueError, match="lit_hour"):
        tank.plan(30, levers={"lit_hour": (6.0, 12.0)})
    with pytest.raises(hm.HalimedaValueError, match="serch_runs"):
        tank.plan(30, serch_runs=3)
    with pytest.raises(hm.HalimedaValueError, match="copper"):
        tank.plan(30, limits={"copper": 1.0})
    with pytest.raises(hm.HalimedaValueError) as caught:
        tank.plan(3)
    assert caught.value.input == "days"
    with pytest.raises(hm.HalimedaTypeError):
        tank.what_if("darker")
