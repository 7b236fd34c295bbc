"""What figures show: the numbers given, with units, ranges around medians."""

from __future__ import annotations

import datetime as dt
import io
import itertools
import subprocess
import sys
import warnings

import matplotlib as mpl
import numpy as np
import pytest
from matplotlib.axes import Axes
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.collections import FillBetweenPolyCollection
from matplotlib.figure import Figure
from matplotlib.patches import PathPatch, Rectangle
from matplotlib.text import Text

import halimeda as hm
from halimeda import plots
from halimeda.plots._influence import in_words
from halimeda.plots._series import along_time, band
from halimeda.plots._style import STYLE

GOALS = {"nitrate_mg_per_l": (1.0, 6.0), "phosphate_mg_per_l": (0.02, 0.15)}
CROSSED = {
    "feeding": 2.0,
    "livestock": -0.6,
    "harvest": -1.0,
    "denitrification": -0.2,
    "surface": 0.0,
}
QUANTILES = {"p5": 1.0, "p25": 2.0, "p50": 3.0, "p75": 4.0, "p95": 5.0}
AREAS = [
    {
        "lit_area_m2": area,
        "nitrate_mg_per_l": {q: v / area for q, v in QUANTILES.items()},
        "phosphate_mg_per_l": {q: v / area / 50.0 for q, v in QUANTILES.items()},
    }
    for area in (0.1, 0.2, 0.4)
]
LIGHT = [
    {
        "hours": h,
        "start_hour": s,
        "daily_ph_swing": 0.01 * h + 0.001 * s,
        "nitrate_mg_per_l": 40.0 / h,
        "phosphate_mg_per_l": 0.1,
    }
    for h in (6.0, 12.0, 18.0)
    for s in (0.0, 12.5)
]


def texts(figure: Figure) -> list[str]:
    """All words of a figure."""
    return [t.get_text() for t in figure.findobj(Text) if t.get_text()]


def drawn(name, samples, ensemble, water) -> Figure:
    return {
        "daily_cycle": lambda: plots.daily_cycle(samples),
        "nutrients": lambda: plots.nutrients(samples, goals=GOALS),
        "nutrients_of_ensemble": lambda: plots.nutrients(
            ensemble, goals=GOALS, start=dt.date(2026, 1, 15)
        ),
        "turf": lambda: plots.turf(samples, harvests=HARVESTS),
        "nitrogen_flow": lambda: plots.nutrient_flow(CROSSED, "nitrogen", days=30.0),
        "phosphorus_flow": lambda: plots.nutrient_flow(
            CROSSED, "phosphorus", days=30.0
        ),
        "screen_size": lambda: plots.screen_size(AREAS, goals=GOALS, lit_area_m2=0.2),
        "light_hours": lambda: plots.light_hours(LIGHT, best=LIGHT[3], goals=GOALS),
        "trade_off": lambda: trade_off(),
        "species": lambda: plots.species(water, ph_total=8.0),
        "influence": lambda: plots.influence(
            {"turf.reserve_days": -0.5, "lamp.b": 0.9}
        ),
        "readings": lambda: readings(),
    }[name]()


HARVESTS = [
    {"day": 1.0, "drained_grams": 230.0},
    {"day": 2.0, "drained_grams": 250.0},
]
NAMES = [
    "daily_cycle",
    "nutrients",
    "nutrients_of_ensemble",
    "turf",
    "nitrogen_flow",
    "phosphorus_flow",
    "screen_size",
    "light_hours",
    "trade_off",
    "species",
    "influence",
    "readings",
]


def trade_off(**changes) -> Figure:
    area, hours = np.array([0.1, 0.2, 0.4]), np.array([8.0, 12.0, 16.0, 20.0])
    settled = 10.0 / (area * hours[:, None])
    given = {
        "goal_mg_per_l": (2.0, 6.0),
        "today": (0.1, 18.0),
        "planned": (0.2, 16.0),
        **changes,
    }
    return plots.trade_off(area, hours, given.pop("nitrate", settled), **given)


def readings(**changes) -> Figure:
    days = np.arange(0.0, 60.0)
    given = {
        "fitted": {
            "day": days,
            "p5": 2 + 0 * days,
            "p50": 3 + 0 * days,
            "p95": 4 + 0 * days,
        },
        "forecast": {
            "day": 60 + days,
            **{q: v + 0 * days for q, v in QUANTILES.items()},
        },
        "change_points": [20.0],
        "today": 60.0,
        "goal": (1.0, 6.0),
        "start": dt.date(2026, 1, 15),
        **changes,
    }
    tests = {"day": [0.0, 7.0, 14.0], "low": [2.0, 2.5, 0.0], "high": [4.0, 3.5, 2.0]}
    return plots.readings(tests, "nitrate_mg_per_l", **given)


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("kind", ["png", "svg", "pdf"])
def test_renders_without_a_warning(name, kind, samples, ensemble, water):
    figure = drawn(name, samples, ensemble, water)
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        buffer = io.BytesIO()
        with mpl.rc_context(STYLE):
            figure.savefig(buffer, format=kind)
    assert buffer.tell() > 2000


@pytest.mark.parametrize("name", NAMES)
def test_every_axis_says_its_unit(name, samples, ensemble, water):
    figure = drawn(name, samples, ensemble, water)
    labels = [
        label
        for axes in figure.axes
        if axes.axison
        for label in (axes.get_xlabel(), axes.get_ylabel())
        if label and label != "date"
    ]
    if "flow" in name:
        assert any("/week" in text for text in texts(figure))
        return
    assert labels
    for label in labels:
        assert "(" in label or label == "light (hours a day)", label


@pytest.mark.parametrize("name", NAMES)
def test_words_stay_on_the_page_and_apart(name, samples, ensemble, water):
    figure = drawn(name, samples, ensemble, water)
    canvas = FigureCanvasAgg(figure)
    with mpl.rc_context(STYLE):
        canvas.draw()
    renderer = canvas.get_renderer()
    # Ticks beyond the limits are kept by matplotlib and not drawn.
    beyond = {
        label
        for axes in figure.axes
        for axis in (axes.xaxis, axes.yaxis)
        for tick in axis.get_major_ticks()
        if not min(axis.get_view_interval())
        <= tick.get_loc()
        <= max(axis.get_view_interval())
        for label in (tick.label1, tick.label2)
    }
    boxes = [
        (t.get_text(), t.get_window_extent(renderer))
        for t in figure.findobj(Text)
        if t.get_text().strip() and t.get_visible() and t not in beyond
    ]
    page = figure.bbox
    shown = [(words, box) for words, box in boxes if box.overlaps(page)]
    for words, box in shown:
        assert box.x0 >= -1 and box.x1 <= page.width + 1, words
        assert box.y0 >= -1 and box.y1 <= page.height + 1, words
    for (words, box), (others, other) in itertools.combinations(shown, 2):
        across = min(box.x1, other.x1) - max(box.x0, other.x0)
        up = min(box.y1, other.y1) - max(box.y0, other.y0)
        common = max(across, 0.0) * max(up, 0.0)
        least = min(box.width * box.height, other.width * other.height)
        assert common < 0.1 * least, (words, others)


def test_a_figure_shows_itself_in_a_notebook(samples):
    assert plots.turf(samples)._repr_png_().startswith(b"\x89PNG")


def test_no_window_opens_and_nothing_is_left_open(samples):
    script = "import sys, halimeda.plots; assert 'matplotlib.pyplot' not in sys.modules, 'pyplot'"
    subprocess.run([sys.executable, "-c", script], check=True)


def test_matplotlib_waits_until_a_figure_is_wanted():
    script = "import sys, halimeda; assert 'matplotlib' not in sys.modules"
    subprocess.run([sys.executable, "-c", script], check=True)


def test_what_is_missing_is_named():
    script = (
        "import importlib.util as u; found = u.find_spec\n"
        "u.find_spec = lambda n, *a: None if n == 'matplotlib' else found(n, *a)\n"
        "import halimeda as hm\n"
        "try:\n    hm.plots.species\n"
        "except ImportError as error:\n    print(error)"
    )
    said = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True
    )
    assert "pip install 'halimeda[plots]'" in said.stdout


@pytest.mark.parametrize("count", [1, 2])
def test_draws_into_the_axes_given(count, samples):
    figure = Figure()
    panels = figure.subplots(2, 1)
    if count == 2:
        assert plots.nutrients(samples, ax=list(panels)) is figure
        assert panels[0].lines and panels[1].lines
    else:
        with pytest.raises(hm.HalimedaTypeError, match="2 axes are needed, not 1"):
            plots.nutrients(samples, ax=panels[0])


class TestDailyCycle:
    def test_shows_the_last_whole_day_in_hours(self, samples):
        figure = plots.daily_cycle(samples)
        line = figure.axes[1].lines[0]
        assert line.get_xdata()[0] == pytest.approx(0.0)
        assert line.get_xdata()[-1] == pytest.approx(24.0)
        np.testing.assert_allclose(line.get_ydata(), samples["ph_total"][48:])
        oxygen = figure.axes[2].lines[0].get_ydata()
        np.testing.assert_allclose(oxygen, 100.0 * samples["oxygen_saturation"][48:])

    def test_lamp_hours_are_those_of_the_columns(self, samples):
        strip = plots.daily_cycle(samples).axes[0]
        spans = [
            sorted(
                (p.vertices[:, 0].min(), p.vertices[:, 0].max()) for p in c.get_paths()
            )
            for c in strip.collections
        ]
        screen, display = spans
        np.testing.assert_allclose(display, [(10.0, 20.0)])
        np.testing.assert_allclose(screen, [(0.0, 11.0), (19.0, 24.0)])

    @pytest.mark.parametrize(("fails", "begin"), [(False, 18.5), (True, 20.0)])
    def test_the_schedule_knows_the_minute_unless_a_lamp_failed(self, fails, begin):
        tank = hm.example_tank().replace({"screen.light.start": "18:30"})
        if fails:
            event = {"at": "1 d", "what": "screen_lamp_fails", "until": "1.8334 d"}
            tank = tank.replace({"event": [event]})
        strip = plots.daily_cycle(tank.simulate(days=2), day=1).axes[0]
        screen = [
            (path.vertices[:, 0].min(), path.vertices[:, 0].max())
            for path in strip.collections[0].get_paths()
        ]
        assert screen[-1][0] == pytest.approx(begin, abs=0.02 if not fails else 1.02)
        assert len(screen) == (1 if fails else 2)

    def test_night_is_where_the_display_is_dark(self, samples):
        panel = plots.daily_cycle(samples).axes[1]
        nights = [
            p.get_bbox().intervalx for p in panel.patches if isinstance(p, Rectangle)
        ]
        np.testing.assert_allclose(
            sorted(map(tuple, nights)), [(0.0, 10.0), (20.0, 24.0)]
        )

    def test_ensemble_gives_a_band_around_the_median(self, samples, ensemble):
        panel = plots.daily_cycle(samples, ensemble=ensemble).axes[1]
        assert_median_within_bands(panel)

    def test_too_few_samples_are_refused(self, samples):
        every_sixth = {name: values[::6] for name, values in samples.items()}
        with pytest.raises(hm.HalimedaValueError, match="at least 9") as refused:
            plots.daily_cycle(every_sixth)
        assert refused.value.input == "day"
        with pytest.raises(hm.HalimedaValueError, match="day 7 has 0 samples"):
            plots.daily_cycle(samples, day=7)


def assert_median_within_bands(axes: Axes) -> None:
    bands = [c for c in axes.collections if isinstance(c, FillBetweenPolyCollection)]
    assert len(bands) == 2
    outer, inner = (c.get_paths()[0].vertices[:, 1] for c in bands)
    median = axes.lines[0].get_ydata()
    assert outer.min() < inner.min() < np.min(median)
    assert np.max(median) < inner.max() < outer.max()


class TestNutrients:
    def test_ensemble_band_contains_the_median(self, ensemble):
        figure = plots.nutrients(ensemble, goals=GOALS)
        for panel in figure.axes:
            assert_median_within_bands(panel)
        assert any("nine in ten" in text for text in texts(figure))

    def test_goal_is_shaded_where_it_lies_and_named(self, samples):
        figure = plots.nutrients(samples, goals=GOALS)
        shaded = [
            p.get_bbox().intervaly
            for p in figure.axes[0].patches
            if isinstance(p, Rectangle)
        ]
        np.testing.assert_allclose(shaded, [(1.0, 6.0)])
        assert "goal\n1 to 6" in texts(figure)

    def test_a_run_has_no_band(self, samples):
        assert not plots.nutrients(samples).axes[0].collections

    def test_wide_ranges_are_drawn_on_a_logarithm(self, samples):
        samples["nitrate_mg_per_l"] = np.geomspace(0.5, 100.0, 73)
        figure = plots.nutrients(samples, goals=GOALS)
        assert figure.axes[0].get_yscale() == "log"
        assert figure.axes[1].get_yscale() == "linear"

    def test_missing_column_is_named(self, samples):
        del samples["phosphate_mg_per_l"]
        with pytest.raises(
            hm.HalimedaValueError, match="phosphate_mg_per_l is missing"
        ):
            plots.nutrients(samples)

    def test_variable_that_was_not_kept_is_named(self, ensemble):
        with pytest.raises(
            hm.HalimedaValueError, match="turf_g_dry_per_m2 was not kept"
        ):
            plots.turf(ensemble, harvests=[])

    def test_columns_of_different_length_are_refused(self, samples):
        samples["nitrate_mg_per_l"] = samples["nitrate_mg_per_l"][:-1]
        with pytest.raises(hm.HalimedaValueError, match="72 values for 73 days"):
            plots.nutrients(samples)

    def test_no_samples_are_refused(self):
        with pytest.raises(hm.HalimedaValueError, match="no sample"):
            plots.nutrients(
                {"day": [], "nitrate_mg_per_l": [], "phosphate_mg_per_l": []}
            )

    def test_what_is_no_run_is_refused(self):
        with pytest.raises(hm.HalimedaTypeError, match="not list"):
            plots.nutrients([1.0, 2.0])


class TestTurf:
    def test_harvests_are_marked_on_their_days_with_their_weight(self, samples):
        figure = plots.turf(samples, harvests=HARVESTS)
        marks = [line.get_xdata()[0] for line in figure.axes[0].lines[1:]]
        assert marks == [1.0, 2.0]
        assert {"230 g", "250 g"} <= set(texts(figure))
        assert "2 harvests (dotted), 230 to 250 g drained" in texts(figure)

    def test_shares_are_shown_as_percentages(self, samples):
        lower = plots.turf(samples, harvests=[]).axes[1]
        assert lower.lines[0].get_ydata()[0] == pytest.approx(90.0)


class TestNutrientFlow:
    def test_what_enters_equals_what_leaves_and_is_kept(self):
        figure = plots.nutrient_flow(CROSSED, "nitrogen", days=14.0)
        # 2 mol of 14.007 g in two weeks.
        assert any("14 g of nitrogen a week" in t for t in texts(figure))
        # 2.0 in, 1.8 out: 10 % is left.
        assert any(
            t.startswith("left in the tank") and t.endswith("10 %")
            for t in texts(figure)
        )
        ribbons = [p for p in figure.axes[0].patches if isinstance(p, PathPatch)]
        at_label = [np.ptp(p.get_path().vertices[[0, 7], 1]) for p in ribbons]
        enters = [
            h
            for h, p in zip(at_label, ribbons, strict=True)
            if p.get_path().vertices[0, 0] < 0.5
        ]
        leaves = [
            h
            for h, p in zip(at_label, ribbons, strict=True)
            if p.get_path().vertices[0, 0] > 0.5
        ]
        assert sum(enters) == pytest.approx(1.0)
        assert sum(leaves) == pytest.approx(1.0)
        assert len(leaves) == 4

    def test_a_tank_that_loses_draws_from_its_store(self):
        figure = plots.nutrient_flow(
            {"feeding": 1.0, "harvest": -2.0}, "nitrogen", days=7.0
        )
        assert any(
            t.startswith("drawn from what") and "50 %" in t for t in texts(figure)
        )

    def test_small_masses_are_told_in_milligrams(self):
        figure = plots.nutrient_flow(
            {"feeding": 0.001, "harvest": -0.001}, "phosphorus", days=7.0
        )
        assert any("31 mg/week" in t for t in texts(figure))

    def test_a_ledger_is_asked_by_process_and_element(self):
        class Books:
            processes = tuple(CROSSED)

            def entry(self, process, element):
                assert element == "nitrogen"
                return CROSSED[process]

        by_books = plots.nutrient_flow(Books(), "nitrogen", days=14.0)
        assert texts(by_books) == texts(
            plots.nutrient_flow(CROSSED, "nitrogen", days=14.0)
        )

    @pytest.mark.parametrize("days", [0.0, -1.0, float("nan"), float("inf")])
    def test_books_over_no_time_are_refused(self, days):
        with pytest.raises(hm.HalimedaValueError, match="days"):
            plots.nutrient_flow(CROSSED, "nitrogen", days=days)

    def test_empty_books_and_unknown_elements_are_refused(self):
        with pytest.raises(hm.HalimedaValueError, match="no nitrogen flowed"):
            plots.nutrient_flow({"feeding": 0.0}, "nitrogen", days=7.0)
        with pytest.raises(hm.HalimedaValueError, match="'iron'"):
            plots.nutrient_flow(CROSSED, "iron", days=7.0)


class TestPlan:
    def test_screen_sizes_with_their_ranges(self):
        figure = plots.screen_size(AREAS, goals=GOALS, lit_area_m2=0.2)
        np.testing.assert_allclose(figure.axes[0].lines[0].get_xdata(), [0.1, 0.2, 0.4])
        np.testing.assert_allclose(
            figure.axes[0].lines[0].get_ydata(), [30.0, 15.0, 7.5]
        )
        assert_median_within_bands(figure.axes[0])
        with pytest.raises(hm.HalimedaValueError, match="two areas"):
            plots.screen_size(AREAS[:1])

    def test_photoperiods_that_miss_a_goal_get_a_cross(self):
        figure = plots.light_hours(LIGHT, best=LIGHT[3], goals=GOALS)
        words = texts(figure)
        # 40/6 mg/L is above the goal, 40/12 and 40/18 are within.
        assert {
            "0.06 \N{MULTIPLICATION SIGN}",
            "0.07 \N{MULTIPLICATION SIGN}",
            "0.12",
            "0.13",
            "0.18",
            "0.19",
        } <= set(words)
        assert {"00:00", "12:30", "6 h", "18 h"} <= set(words)
        with pytest.raises(hm.HalimedaValueError, match="no photoperiod"):
            plots.light_hours([])

    def test_trade_off_marks_both_screens_and_the_goal(self):
        figure = trade_off()
        assert {"today", "plan"} <= set(texts(figure))
        marks = [
            (line.get_xdata()[0], line.get_ydata()[0]) for line in figure.axes[0].lines
        ]
        assert marks == [(0.1, 18.0), (0.2, 16.0)]
        assert any("at most 6 mg/L" in t for t in texts(figure))

    def test_trade_off_leaves_out_what_could_not_be_followed(self):
        nitrate = np.full((4, 3), 3.0)
        nitrate[0, 0] = np.nan
        nitrate[3, 2] = 0.5
        assert trade_off(nitrate=nitrate).axes

    @pytest.mark.parametrize(
        ("area", "hours", "nitrate", "blamed"),
        [
            ([0.2, 0.1], [8, 9], np.ones((2, 2)), "lit_area_m2"),
            ([0.0, 0.1], [8, 9], np.ones((2, 2)), "lit_area_m2"),
            ([0.1, 0.2], [8, 25], np.ones((2, 2)), "lit_hours_per_day"),
            ([0.1, 0.2], [8], np.ones((1, 2)), "lit_hours_per_day"),
            ([0.1, 0.2], [8, 9], np.ones((2, 3)), "nitrate_mg_per_l"),
            ([0.1, 0.2], [8, 9], np.full((2, 2), np.nan), "nitrate_mg_per_l"),
        ],
    )
    def test_trade_off_refuses_what_it_cannot_draw(self, area, hours, nitrate, blamed):
        with pytest.raises(hm.HalimedaValueError) as refused:
            plots.trade_off(area, hours, nitrate)
        assert refused.value.input == blamed


class TestSpecies:
    def test_shares_add_up_and_cross_at_the_constants(self, water):
        lines = plots.species(water).axes[0].lines
        ph = lines[0].get_xdata()
        shares = np.array([line.get_ydata() for line in lines[:3]])
        np.testing.assert_allclose(shares.sum(axis=0), 100.0)
        gas, bicarbonate, carbonate = shares
        assert ph[np.argmin(abs(gas - bicarbonate))] == pytest.approx(6.0, abs=0.02)
        assert ph[np.argmin(abs(carbonate - bicarbonate))] == pytest.approx(
            9.0, abs=0.02
        )

    def test_the_waters_own_ph_is_marked_with_its_shares(self, water):
        figure = plots.species(water, ph_total=8.0)
        # 1e-6 / 1e-8 = 100 to 1, 1e-9 / 1e-8 = 1 to 10.
        assert any("pH 8.00" in t and "HCO₃⁻ 90.1 %" in t for t in texts(figure))

    def test_a_ph_off_the_axis_is_refused(self, water):
        with pytest.raises(hm.HalimedaValueError) as refused:
            plots.species(water, ph_total=12.0)
        assert refused.value.limits == (4.5, 10.5)
        with pytest.raises(hm.HalimedaValueError, match="lower end"):
            plots.species(water, ph_total_range=(9.0, 5.0))


class TestInfluence:
    def test_strongest_on_top_with_sign(self):
        figure = plots.influence({"a.x": 0.2, "b.y": -0.9})
        bars = figure.axes[0].patches
        assert [b.get_width() for b in bars] == [0.2, -0.9]
        assert bars[1].get_y() > bars[0].get_y()
        assert {"+0.20", "\N{MINUS SIGN}0.90", "b: y"} <= set(texts(figure))

    def test_names_lose_their_unit(self):
        assert (
            in_words("turf.saturation_irradiance_umol_per_m2_s")
            == "turf: saturation irradiance"
        )
        assert (
            in_words("display.respiration_mmol_c_per_m2_per_d")
            == "display: respiration"
        )
        assert in_words("turf.reserve_days") == "turf: reserve days"

    def test_records_are_read_as_mappings_are(self):
        records = [{"parameter": "a.x", "rank_correlation": 0.5}]
        assert texts(plots.influence(records)) == texts(plots.influence({"a.x": 0.5}))

    @pytest.mark.parametrize("wrong", [{}, {"a": 1.5}, {"a": float("nan")}])
    def test_nothing_and_nonsense_are_refused(self, wrong):
        with pytest.raises(hm.HalimedaValueError):
            plots.influence(wrong)


class TestReadings:
    def test_tests_stand_with_their_intervals(self):
        axes = readings(fitted=None, forecast=None).axes[0]
        (bars,) = axes.containers
        segments = bars[2][0].get_segments()
        np.testing.assert_allclose(segments[1][:, 1], [2.5, 3.5])
        np.testing.assert_allclose(segments[2][:, 1], [0.0, 2.0])

    def test_fit_and_forecast_with_their_bands(self):
        figure = readings()
        bands = [
            c
            for c in figure.axes[0].collections
            if isinstance(c, FillBetweenPolyCollection)
        ]
        assert len(bands) == 3
        assert {"fitted", "forecast", " change", " today", "goal\n1 to 6"} <= set(
            texts(figure)
        )

    def test_nothing_to_draw_and_upside_down_intervals_are_refused(self):
        nothing = {"day": [], "low": [], "high": []}
        with pytest.raises(hm.HalimedaValueError, match="never tested"):
            plots.readings(nothing, "nitrate_mg_per_l")
        upside_down = {"day": [1.0], "low": [3.0], "high": [2.0]}
        with pytest.raises(hm.HalimedaValueError, match="row 0") as refused:
            plots.readings(upside_down, "nitrate_mg_per_l")
        assert refused.value.value == 3.0
        with pytest.raises(hm.HalimedaValueError, match="none of"):
            plots.readings(nothing, "turf_cover")


def test_days_become_dates():
    axes = Figure().subplots()
    (x,) = along_time(axes, [1.5], dt.date(2026, 1, 15))
    assert x == np.datetime64("2026-01-16T12:00:00")


@pytest.mark.parametrize(
    "goals", [{"x": (1.0, 2.0)}, {"x": {"low": 1.0, "high": 2.0}}, {"x": [1.0, 2.0]}]
)
def test_bands_are_read_however_they_come(goals):
    assert band(goals, "x") == (1.0, 2.0)
    assert band(goals, "y") is None


def test_an_upside_down_band_is_refused():
    with pytest.raises(hm.HalimedaValueError, match="lower one first"):
        band({"x": (2.0, 1.0)}, "x")
