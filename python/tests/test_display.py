"""How waters and states look in a notebook."""

from __future__ import annotations

from html.parser import HTMLParser

import numpy as np

import halimeda as hm


class Cells(HTMLParser):
    """Rows of cells of a table; fails on tags that are not closed."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.rows: list[list[str]] = []
        self.open: list[str] = []
        self.urls: list[str] = []
        self.feed(text)
        self.close()
        assert not self.open

    def handle_starttag(self, tag, attributes):
        self.open.append(tag)
        self.urls += [value for name, value in attributes if name in ("src", "href")]
        if tag == "tr":
            self.rows.append([])
        elif tag in ("th", "td"):
            self.rows[-1].append("")

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        if self.open and self.open[-1] in ("th", "td"):
            self.rows[-1][-1] += data


def table(thing):
    cells = Cells(thing._repr_html_())
    assert not cells.urls
    assert cells.rows[0] == ["quantity", "value", "unit"]
    return {(name, unit): value for name, value, unit in cells.rows[1:]}


def test_water(water):
    shown = table(water)
    assert shown["temperature", "°C"] == "25.50"
    assert shown["practical salinity", ""] == "35.00"
    assert shown["density", "kg/m³"] == f"{water.density_kg_per_m3:.2f}"
    assert repr(water) == "Water(temperature_celsius=25.50, practical_salinity=35.00)"


def test_state(each):
    state = each[0]
    shown = table(state)
    assert shown["pH (total scale)", ""] == "7.900"
    assert shown["total alkalinity", "µmol/kg"] == "2600.0"
    assert shown["total alkalinity", "dKH"] == f"{state.alkalinity_dkh:.2f}"
    assert "24.00 °C, salinity 34.00" in state._repr_html_()
    assert repr(state).startswith("CarbonateState(ph_total=7.900, alkalinity_umol_per_kg=2600.0")


def test_states(rows):
    rows["ph_total"][2] = np.nan
    states = hm.carbonate(**rows)
    shown = table(states)
    assert shown["pH (total scale)", ""] == "7.900 to 8.300"
    text = states._repr_html_()
    assert "4 ok, 1 not finite" in text
    assert "row 2: pH (total scale) is NaN" in text
    assert repr(states) == "CarbonateStates(shape=(5,): 4 ok, 1 not finite)"


def test_arrays_of_water(rows):
    water = hm.Water(
        temperature_celsius=rows["temperature_celsius"], practical_salinity=35.0
    )
    assert table(water)["temperature", "°C"] == "24.00 to 26.00"
    assert "shape=(5,)" in repr(water)


def test_extrapolation_is_shown():
    water = hm.Water(temperature_celsius=39.0, practical_salinity=35.0, extrapolate=True)
    state = water.carbonate(alkalinity_umol_per_kg=2800.0, ph_total=8.0)
    assert "outside the published range of" in state._repr_html_()
    assert "Lueker" in state._repr_html_()


def test_what_cannot_be_shown_is_a_dash():
    cold = hm.Water(temperature_celsius=-4.0, practical_salinity=35.0)
    assert table(cold)["density", "kg/m³"] == "–"
