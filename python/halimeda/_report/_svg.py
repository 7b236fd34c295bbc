"""Figures as SVG that lives inside a page: described, searchable, light or dark."""

from __future__ import annotations

# Keyword arguments of matplotlib have no types.
# pyright: reportUnknownMemberType=false
import re
import xml.etree.ElementTree as ET
from io import BytesIO
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from matplotlib.figure import Figure

_SVG: Final = "http://www.w3.org/2000/svg"
_XLINK: Final = "http://www.w3.org/1999/xlink"
#: Colours of the figures that follow the page, light or dark.
_FOLLOWING: Final = {
    "INK": "ink",
    "MUTED": "muted",
    "HAIRLINE": "line",
    "GOAL": "goal",
    "GREEN_TEXT": "goal-ink",
    "NIGHT": "night",
}


def inline(figure: Figure, *, name: str, title: str, description: str) -> str:
    """Write a figure as an SVG element.

    Parameters
    ----------
    figure : matplotlib Figure
        What to write.
    name : str
        Prefix of every id in it, unique within the page.
    title, description : str
        What a reader hears who cannot see it.
    """
    import matplotlib as mpl

    from halimeda.plots import _style

    buffer = BytesIO()
    with mpl.rc_context(_style.STYLE):
        figure.savefig(
            buffer,
            format="svg",
            transparent=True,
            metadata={"Date": None, "Creator": None},
        )
    root = ET.fromstring(buffer.getvalue())
    for child in list(root):
        if child.tag == f"{{{_SVG}}}metadata":
            root.remove(child)
    _own_ids(root, name)
    for size in ("width", "height", "version"):
        root.attrib.pop(size, None)
    root.set("role", "img")
    root.set("aria-labelledby", f"{name}-title {name}-description")
    for place, (tag, text) in enumerate((("title", title), ("desc", description))):
        element = ET.Element(f"{{{_SVG}}}{tag}")
        element.set("id", f"{name}-{'title' if tag == 'title' else 'description'}")
        element.text = text
        root.insert(place, element)
    ET.register_namespace("", _SVG)
    ET.register_namespace("xlink", _XLINK)
    text = ET.tostring(root, encoding="unicode")
    for colour, variable in _FOLLOWING.items():
        value: str = getattr(_style, colour)
        text = text.replace(value, f"var(--{variable}, {value})")
    text = re.sub(
        r"(fill|stroke): (?:#ffffff|white)\b", r"\1: var(--paper, #fff)", text
    )
    # The page chooses the typeface; DejaVu, measured for, is wider than most.
    return re.sub(r"'DejaVu Sans'(?:, [^;\"]+)?", "var(--sans, sans-serif)", text)


def _own_ids(root: ET.Element, name: str) -> None:
    """Keep the ids of several figures of one page apart."""
    for element in root.iter():
        for key, value in element.attrib.items():
            if key == "id":
                element.set(key, f"{name}-{value}")
            elif key in ("href", f"{{{_XLINK}}}href") and value.startswith("#"):
                element.set(key, f"#{name}-{value[1:]}")
            elif "url(#" in value:
                element.set(key, value.replace("url(#", f"url(#{name}-"))
