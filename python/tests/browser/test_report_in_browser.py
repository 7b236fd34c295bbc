"""A person opens the report: on a desk, on a phone, in the dark, on paper."""

from __future__ import annotations

import re
import shutil
import subprocess

import pytest

pytestmark = pytest.mark.browser

A4_POINTS = (595.0, 842.0)


def test_opens_without_an_error_or_a_request(chromium, page):
    chromium.open(page)
    logged = [
        e
        for e in chromium.events
        if e.get("method")
        in ("Log.entryAdded", "Runtime.exceptionThrown", "Runtime.consoleAPICalled")
    ]
    assert logged == []
    requested = [
        e["params"]["request"]["url"]
        for e in chromium.events
        if e.get("method") == "Network.requestWillBeSent"
    ]
    assert [url for url in requested if not url.startswith("data:")] == [page.as_uri()]


def test_needs_no_script(chromium, page):
    chromium.open(page)
    assert chromium.run("document.scripts.length") == 0


@pytest.mark.parametrize("width", [360, 414, 768, 1280])
def test_never_scrolls_sideways(chromium, page, width):
    chromium.open(page, width)
    assert chromium.run("document.documentElement.scrollWidth") <= width
    wide = chromium.run(
        """[...document.querySelectorAll("body *")]
        .filter(e => !e.closest(".table, svg"))
        .filter(e => e.getBoundingClientRect().right > innerWidth + 0.5)
        .map(e => e.outerHTML.slice(0, 80))"""
    )
    assert wide == []


def test_words_of_figures_can_be_read_on_a_phone(chromium, page):
    chromium.open(page, 360)
    least = chromium.run(
        """Math.min(...[...document.querySelectorAll("figure svg text")]
        .filter(t => t.textContent.trim())
        .map(t => parseFloat(getComputedStyle(t).fontSize)
                  * t.getScreenCTM().a ** (t.getScreenCTM().b == 0 ? 1 : 0)
                  * Math.hypot(t.getScreenCTM().a, t.getScreenCTM().b)
                  ** (t.getScreenCTM().b == 0 ? 0 : 1)))"""
    )
    assert least >= 7.0


def test_every_figure_has_words_for_who_cannot_see_it(chromium, page):
    chromium.open(page)
    figures = chromium.run(
        """[...document.querySelectorAll("svg, img")].map(e => ({
            role: e.getAttribute("role"),
            labels: (e.getAttribute("aria-labelledby") || "").split(" ")
                .map(id => document.getElementById(id)?.textContent || ""),
            caption: e.closest("figure")?.querySelector("figcaption")?.textContent || "",
        }))"""
    )
    assert len(figures) >= 10
    for figure in figures:
        assert figure["role"] == "img"
        assert len(figure["labels"]) == 2
        assert all(len(words) > 10 for words in figure["labels"]), figure
        assert len(figure["caption"]) > 20


def test_headings_descend_one_by_one_and_lead_somewhere(chromium, page):
    chromium.open(page)
    levels = chromium.run(
        """[...document.querySelectorAll("h1, h2, h3, h4")].map(h => +h.tagName[1])"""
    )
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(
        after - before <= 1 for before, after in zip(levels, levels[1:], strict=False)
    )
    lost = chromium.run(
        """[...document.querySelectorAll("a[href^='#']")]
        .filter(a => !document.getElementById(a.hash.slice(1))).length"""
    )
    assert lost == 0
    twice = chromium.run(
        """(ids => ids.filter((id, i) => ids.indexOf(id) != i))(
        [...document.querySelectorAll("[id]")].map(e => e.id))"""
    )
    assert twice == []
    assert chromium.run("document.documentElement.lang") == "en"


@pytest.mark.parametrize("dark", [False, True])
def test_words_stand_out_from_their_ground(chromium, page, dark):
    """WCAG 2.2, 1.4.3: a contrast of 4.5 to 1 (from memory)."""
    chromium.open(page, dark=dark)
    worst = chromium.run(
        """(() => {
        const rgb = c => c.match(/[\\d.]+/g).map(Number);
        const light = c => rgb(c).slice(0, 3).map(v => v / 255)
            .map(v => v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4)
            .reduce((sum, v, i) => sum + v * [0.2126, 0.7152, 0.0722][i], 0);
        const ground = e => {
            for (; e; e = e.parentElement) {
                const c = getComputedStyle(e).backgroundColor;
                if (!(rgb(c).length === 4 && rgb(c)[3] === 0)) return c;
            }
            return "rgb(255, 255, 255)";
        };
        let worst = [99, ""];
        for (const e of document.querySelectorAll("h1, h2, p, li, th, td, caption, figcaption, a, pre")) {
            const [a, b] = [light(getComputedStyle(e).color), light(ground(e))];
            const ratio = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
            if (ratio < worst[0]) worst = [ratio, e.outerHTML.slice(0, 80)];
        }
        return worst;
        })()"""
    )
    assert worst[0] >= 4.5, worst


def test_prints_on_a4_with_every_figure_whole(chromium, page, tmp_path):
    chromium.open(page)
    figures = chromium.run("document.querySelectorAll('figure').length")
    printed = tmp_path / "report.pdf"
    printed.write_bytes(chromium.pdf())
    if shutil.which("pdftotext") is None:
        pytest.skip("NO PDFTOTEXT: the print was not looked at (Debian: poppler-utils)")
    info = subprocess.run(
        ["pdfinfo", printed], capture_output=True, text=True, check=True
    ).stdout
    width, height = map(float, re.findall(r"Page size:\s+([\d.]+) x ([\d.]+)", info)[0])
    assert (width, height) == pytest.approx(A4_POINTS, abs=1.0)
    assert 3 <= int(re.findall(r"Pages:\s+(\d+)", info)[0]) <= 24

    # A figure that a page cannot hold would be cut: each must be lower than the page,
    # which with `break-inside: avoid` keeps it whole.
    chromium.call("Emulation.setEmulatedMedia", media="print")
    a4_wide = round((210 - 30) / 25.4 * 96)
    chromium.call(
        "Emulation.setDeviceMetricsOverride",
        width=a4_wide,
        height=900,
        deviceScaleFactor=1,
        mobile=False,
    )
    tall = chromium.run(
        """[...document.querySelectorAll("figure")].map(f => [
            f.getBoundingClientRect().height,
            getComputedStyle(f).breakInside,
        ])"""
    )
    assert len(tall) == figures
    page_height = (297 - 34) / 25.4 * 96
    for height, rule in tall:
        assert 0 < height < page_height
        assert rule == "avoid"
    chromium.call("Emulation.setEmulatedMedia", media="")
