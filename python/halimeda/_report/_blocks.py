"""What a section of the report is made of."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import ClassVar, TypeAlias


@dataclass(frozen=True)
class Words:
    """A paragraph."""

    kind: ClassVar[str] = "words"
    text: str


@dataclass(frozen=True)
class Items:
    """A list; numbered where the order matters."""

    kind: ClassVar[str] = "items"
    items: Sequence[str]
    ordered: bool = False


@dataclass(frozen=True)
class Table:
    """A table; the first cell of a row is its head."""

    kind: ClassVar[str] = "table"
    caption: str
    heads: Sequence[str]
    rows: Sequence[Sequence[str]]


@dataclass(frozen=True)
class Picture:
    """A figure as inline SVG, with what it shows said in words."""

    kind: ClassVar[str] = "picture"
    svg: str
    caption: str


@dataclass(frozen=True)
class Verbatim:
    """Text to be copied as it is."""

    kind: ClassVar[str] = "verbatim"
    text: str
    label: str


Block: TypeAlias = Words | Items | Table | Picture | Verbatim


@dataclass(frozen=True)
class Section:
    """A heading with what stands below it."""

    name: str
    title: str
    blocks: Sequence[Block] = field(default=())
