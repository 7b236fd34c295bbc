"""Tables for notebooks: plain, with a caption and units, and nothing from elsewhere."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from html import escape

_STYLE = (
    "border-collapse:collapse;margin:0.4em 0 0.8em;font-variant-numeric:tabular-nums"
)
_CAPTION = "text-align:left;font-weight:600;padding:0.2em 0;caption-side:top;white-space:nowrap"
_CELL = "padding:0.15em 0.7em;border-bottom:1px solid rgba(128,128,128,0.35);vertical-align:top;"


def table(caption: str, heads: Sequence[str], rows: Iterable[Sequence[object]]) -> str:
    """Write an HTML table; cells that look like numbers stand to the right."""
    head = "".join(
        f'<th scope="col" style="{_CELL}text-align:left">{escape(h)}</th>'
        for h in heads
    )
    body = "".join(f"<tr>{''.join(map(_cell, row))}</tr>" for row in rows)
    return (
        f'<table style="{_STYLE}"><caption style="{_CAPTION}">{escape(caption)}'
        f"</caption><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>"
    )


def cautions(texts: Iterable[str]) -> str:
    """Write cautions as a list that stands out."""
    items = "".join(f"<li>{escape(text)}</li>" for text in texts)
    return (
        '<div role="note" style="border-left:4px solid #b35900;padding:0.1em 0.8em">'
        f"<strong>Before you act</strong><ul>{items}</ul></div>"
    )


def paragraph(text: str) -> str:
    """Write a paragraph."""
    return f"<p>{escape(text)}</p>"


def folded(summary: str, texts: Iterable[str]) -> str:
    """Write sentences that open when asked for."""
    items = "".join(f"<li>{escape(text)}</li>" for text in texts)
    return f"<details><summary>{escape(summary)}</summary><ul>{items}</ul></details>"


def number(x: float) -> str:
    """Write a number with three significant digits, fewer zeros.

    Examples
    --------
    >>> number(0.0352), number(2.0), number(1234.5), number(float("nan"))
    ('0.0352', '2', '1234', '–')
    """
    if math.isnan(x):
        return "–"
    if math.isinf(x):
        return "beyond what was followed"
    if x == 0.0:
        return "0"
    decimals = min(max(2 - _order(x), 0), 4)
    text = f"{x:.{decimals}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _order(x: float) -> int:
    return int(f"{abs(x):e}".split("e")[1])


def _cell(value: object) -> str:
    text = number(value) if isinstance(value, float) else str(value)
    first = text.lstrip("−-+")[:1]
    style = _CELL
    if first.isdigit() and len(text) < 24:
        style += "text-align:right;white-space:nowrap"
    else:
        style += "text-align:left"
    return f'<td style="{style}">{escape(text)}</td>'
