"""Results as frozen dataclasses, filled from what the native half hands over."""

from __future__ import annotations

import dataclasses
import math
import types
import typing
from collections.abc import Mapping
from functools import cache
from typing import Any, TypeVar

R = TypeVar("R")


class Record:
    """A frozen dataclass that can be told as a dict."""

    def to_dict(self) -> dict[str, Any]:
        """Return the fields as a dict, with those of nested records as dicts."""
        return dataclasses.asdict(self)  # type: ignore[call-overload, no-any-return]


def built(kind: type[R], plain: Mapping[str, Any]) -> R:
    """Build a dataclass, and those nested in it, from plain dicts and lists.

    Parameters
    ----------
    kind : type
        The dataclass. A class method ``_plain`` may first turn what came into a
        dict of its fields.
    plain : mapping
        What came, with exactly the fields of `kind`.
    """
    prepare = getattr(kind, "_plain", None)
    if prepare is not None:
        plain = prepare(plain)
    hints = _hints(typing.cast(type, kind))
    if hints.keys() != plain.keys():
        message = f"{kind.__name__} has {sorted(hints)}, not {sorted(plain)}"
        raise TypeError(message)
    return kind(**{name: _value(hint, plain[name]) for name, hint in hints.items()})


@cache
def _hints(kind: type) -> dict[str, Any]:
    hints = typing.get_type_hints(kind)
    return {field.name: hints[field.name] for field in dataclasses.fields(kind)}


def _value(hint: Any, plain: Any) -> Any:
    origin = typing.get_origin(hint)
    parts = typing.get_args(hint)
    if origin is types.UnionType or origin is typing.Union:
        [wanted] = [part for part in parts if part is not type(None)]
        return None if plain is None else _value(wanted, plain)
    if origin is tuple:
        kinds = parts[:1] * len(plain) if parts[-1] is Ellipsis else parts
        return tuple(_value(k, p) for k, p in zip(kinds, plain, strict=True))
    if dataclasses.is_dataclass(hint):
        return built(typing.cast("type[Any]", hint), plain)
    if hint is float:
        # JSON has no number for what is not finite.
        return math.nan if plain is None else float(plain)
    return plain
