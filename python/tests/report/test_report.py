"""The report: whole, escaped, self-contained, and written where it was asked to."""

from __future__ import annotations

import datetime as dt
import re
from html.parser import HTMLParser

import pytest

import halimeda as hm

START = dt.date(2026, 1, 15)


@pytest.fixture(scope="module")
def tank() -> hm.Tank:
    return hm.example_tank()


@pytest.fixture(scope="module")
def plan(tank):
    return tank.plan(days=30, members=8, search_runs=24, few_members=4)


@pytest.fixture(scope="module")
def page(tank, plan, tmp_path_factory) -> str:
    path = tmp_path_factory.mktemp("report") / "report.html"
    assert hm.report(tank, plan=plan, path=path, made=START) == path
    return path.read_text("utf-8")


class Outline(HTMLParser):
    """Text by element, and tags that stay open."""

    VOID = ("meta", "link", "br", "img", "hr", "input")

    def __init__(self, page: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.text: dict[str, list[str]] = {}
        self.attributes: list[tuple[str, str | None]] = []
        self.feed(page)
        self.close()

    def handle_starttag(self, tag, attrs):
        self.attributes += attrs
        if tag not in self.VOID:
            self.open.append(tag)

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        if self.open:
            self.text.setdefault(self.open[-1], []).append(data.strip())


def test_says_what_to_do_first_and_what_to_mind_before_all_else(page):
    heads = [h for h in Outline(page).text["h2"] if h]
    assert heads[:3] == ["What to do first", "Before you act", "In this report"]
    assert {"What to change", "What is due", "Sources", "To make this page again"} <= {
        *heads
    }
    first = page[page.index("What to do first") : page.index("Before you act")]
    assert "Test nitrate, phosphate and alkalinity" in first


def test_every_element_is_closed(page):
    assert Outline(page).open == []


def test_needs_nothing_from_elsewhere(page):
    assert "<script" not in page
    assert "@import" not in page
    links = [
        value
        for name, value in Outline(page).attributes
        if name in ("src", "href", "xlink:href", "data", "poster") and value
    ]
    assert links
    assert [link for link in links if not link.startswith(("#", "data:"))] == []
    assert re.findall(r"url\((?!#)", page) == []


def test_ranges_cautions_sources_assumptions_and_inputs_are_there(tank, plan, page):
    for caution in plan.cautions:
        assert caution.split(":")[0].split(",")[0] in page
    assert "nine of ten tanks like this one" in page
    assert "nothing changed" in page
    assert "doi 10.1" in page
    assert "K1, K2 (Lueker et al. 2000)" in page
    for assumption in tank.assumptions:
        assert assumption.key in page
    assert hm.__version__ in page
    assert 'specific_gravity = "1.0264 25/25 °C"'.replace('"', "&#34;") in page
    assert "15 January 2026" in page


def test_words_of_figures_are_text(page):
    for words in (
        "display lamps",
        "turf harvested",
        "pH (total scale)",
        "screen lit from",
    ):
        assert words in page.replace("\n", " "), words


def test_the_same_page_comes_twice(tank, plan, page, tmp_path):
    again = hm.report(tank, plan=plan, path=tmp_path / "again.html", made=START)
    assert again.read_text("utf-8") == page


def test_a_name_is_never_read_as_markup(tmp_path):
    name = "<script>alert(1)</script> & \"quotes\" 'n' {{ 7 * 7 }}"
    tank = hm.example_tank().replace({"tank.name": name})
    page = hm.report(tank, path=tmp_path / "page.html", made=START).read_text("utf-8")
    assert "<script" not in page
    assert "&lt;script&gt;alert(1)&lt;/script&gt; &amp;" in page
    assert "{{ 7 * 7 }}" in page
    assert Outline(page).open == []


def test_without_a_plan_the_page_says_where_the_tank_is_heading(tank, tmp_path):
    page = hm.report(tank, path=tmp_path / "page.html", made=START).read_text("utf-8")
    assert "With nothing changed, nitrate is most likely" in page
    assert "What to change" not in page


def test_a_description_of_long_ago_is_said_to_be_one(tank, tmp_path):
    late = hm.report(
        tank, path=tmp_path / "late.html", made=START + dt.timedelta(days=40)
    )
    assert "15 January 2026, 40 days before this page" in late.read_text("utf-8")
    early = hm.report(
        tank, path=tmp_path / "early.html", made=START + dt.timedelta(days=7)
    )
    assert "before this page" not in early.read_text("utf-8")


def test_nothing_is_overwritten_unasked(tank, tmp_path):
    path = tmp_path / "page.html"
    path.write_text("mine")
    with pytest.raises(FileExistsError, match="overwrite=True"):
        hm.report(tank, path=path)
    assert path.read_text() == "mine"
    hm.report(tank, path=path, overwrite=True)
    assert "What to do first" in path.read_text("utf-8")


def test_a_page_that_cannot_be_written_leaves_nothing_behind(tank, tmp_path):
    with pytest.raises(OSError):
        hm.report(tank, path=tmp_path / "no such folder" / "page.html")
    assert list(tmp_path.iterdir()) == []


def test_a_plan_for_another_tank_is_refused(plan, tmp_path):
    other = hm.example_tank("invented_young_tank")
    with pytest.raises(hm.HalimedaTypeError, match="another tank"):
        hm.report(other, plan=plan, path=tmp_path / "page.html")
    with pytest.raises(hm.HalimedaTypeError, match="tank is a Tank, not str"):
        hm.report("reef.toml", path=tmp_path / "page.html")


def test_what_is_missing_is_named(tank, tmp_path, monkeypatch):
    monkeypatch.setitem(__import__("sys").modules, "jinja2", None)
    with pytest.raises(ImportError, match=r"halimeda\[report\]"):
        hm.report(tank, path=tmp_path / "page.html")


LOG = """time,nitrate [mg/L NO3],phosphate [mg/L PO4],alkalinity [dKH],harvest wet [g]
2026-01-16 18:00,3,0.10,7.6,
2026-01-20 18:00,3.2,0.11,7.7,
2026-01-24 18:00,2.8,0.10,7.5,310
2026-01-28 18:00,2.6,0.09,7.6,
2026-02-02 18:00,2.4,0.08,7.6,290
"""


def test_a_log_comes_first_with_its_tests_verdict_forecast_and_dates(tank, tmp_path):
    log = hm.Log.read(LOG, tank)
    fit = tank.fit(log, members=8)
    verdict = tank.verdict(log, fit, suspicions=8)
    forecast = tank.forecast(log, fit, horizons_days=(7.0, 30.0))
    page = hm.report(
        tank,
        log=log,
        fit=fit,
        verdict=verdict,
        forecast=forecast,
        upkeep=tank.upkeep(log, fit),
        path=tmp_path / "log.html",
        made=dt.date(2026, 2, 3),
    ).read_text("utf-8")
    heads = [h for h in Outline(page).text["h2"] if h]
    assert heads[3:6] == [
        "Is it working?",
        "What the log says",
        "What the log lets expect",
    ]
    assert "5 tests of nitrate (as NO₃)" in page
    assert "In 30 days, on 4 March 2026" in page
    assert "nothing changes" in page
    assert "unknowns still rest on published ranges" in page
    for caution in verdict.cautions:
        assert caution.split(":")[0].split(",")[0] in page
    assert "before this page" not in page

    late = hm.report(
        tank,
        log=log,
        verdict=verdict,
        path=tmp_path / "late.html",
        made=dt.date(2026, 3, 1),
    ).read_text("utf-8")
    assert "Bring the log up to date: it ends on 2 February 2026, 27 days" in late


def test_a_log_of_another_tank_is_refused(tank, tmp_path):
    other = hm.example_tank("invented_young_tank")
    log = hm.Log.read(LOG, tank)
    with pytest.raises(hm.HalimedaTypeError, match="log was made for another tank"):
        hm.report(other, log=log, path=tmp_path / "page.html")
