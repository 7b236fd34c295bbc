"""How waters and states look in a console and in a notebook."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

Row = tuple[str, str, str]

STYLE = (
    "<style scoped>"
    "table.halimeda{border-collapse:collapse;font-variant-numeric:tabular-nums}"
    "table.halimeda caption{text-align:left;font-weight:600;padding:.3em 0}"
    "table.halimeda th[scope=row]{text-align:left;font-weight:400}"
    "table.halimeda td{text-align:right;padding:.1em .8em}"
    "table.halimeda td.unit{text-align:left;opacity:.75}"
    "table.halimeda tr{border-top:1px solid color-mix(in srgb,currentColor 18%,transparent)}"
    "</style>"
)


def table(caption: str, rows: Iterable[Row], notes: Sequence[str] = ()) -> str:
    """One table of quantity, value and unit, without outside assets."""
    body = "".join(
        f'<tr><th scope="row">{escape(name)}</th><td>{escape(value)}</td>'
        f'<td class="unit">{escape(unit)}</td></tr>'
        for name, value, unit in rows
    )
    foot = "".join(f"<p>{escape(note)}</p>" for note in notes)
    return (
        f'{STYLE}<table class="halimeda"><caption>{escape(caption)}</caption>'
        '<thead><tr><th scope="col">quantity</th><th scope="col">value</th>'
        f'<th scope="col">unit</th></tr></thead><tbody>{body}</tbody></table>{foot}'
    )


def number(value: Any, digits: int) -> str:
    """A number, or the range of an array."""
    if value is None:
        return "–"
    if isinstance(value, float):
        return f"{value:.{digits}f}"
    import numpy as np

    array = np.asarray(value)
    finite = array[np.isfinite(array)]
    if not finite.size:
        return "–"
    low, high = finite.min(), finite.max()
    return f"{low:.{digits}f} to {high:.{digits}f}" if low < high else f"{low:.{digits}f}"


def _try(thing: Any, name: str) -> Any:
    from halimeda._errors import HalimedaError

    try:
        return getattr(thing, name)
    except HalimedaError:
        return None


#: What is shown of a water: words, attribute, decimals, unit.
WATER_ROWS = (
    ("temperature", "temperature_celsius", 2, "°C"),
    ("practical salinity", "practical_salinity", 2, ""),
    ("density", "density_kg_per_m3", 2, "kg/m³"),
    ("specific gravity 25/25 °C", "specific_gravity_25_25", 4, ""),
    ("conductivity", "conductivity_ms_per_cm", 2, "mS/cm"),
    ("air pressure", "air_pressure_atm", 3, "atm"),
    ("calcium", "calcium_umol_per_kg", 0, "µmol/kg"),
    ("magnesium", "magnesium_umol_per_kg", 0, "µmol/kg"),
)


def _shown(thing: Any, rows: Iterable[tuple[str, str, int, str]]) -> list[Row]:
    return [
        (words, number(_try(thing, attribute), digits), unit)
        for words, attribute, digits, unit in rows
    ]


def _water_rows(water: Any) -> list[Row]:
    import warnings

    from halimeda._errors import HalimedaWarning

    with warnings.catch_warnings():
        # A display shows what there is; refused rows are told of by the results.
        warnings.simplefilter("ignore", HalimedaWarning)
        rows = _shown(water, WATER_ROWS)
        depth = number(water.water_pressure_dbar, 1)
        if depth != "0.0":
            rows.insert(3, ("water pressure", depth, "dbar"))
    return rows


def _flags(relations: Sequence[str]) -> list[str]:
    return [f"outside the published range of {', '.join(relations)}"] if relations else []


def water_repr(water: Any) -> str:
    """One line of a water."""
    shape = f", shape={tuple(water._shape)}" if water._shape else ""
    rows = dict((name, value) for name, value, _ in _water_rows(water)[:2])
    return (
        f"Water(temperature_celsius={rows['temperature']}, "
        f"practical_salinity={rows['practical salinity']}{shape})"
    )


def water_html(water: Any) -> str:
    """A table of a water."""
    caption = "Water" if not water._shape else f"Water, {tuple(water._shape)}"
    flags = _flags(water.extrapolations) if water.extrapolate else []
    return table(caption, _water_rows(water), flags)


STATE_ROWS = (
    ("pH (total scale)", "ph_total", 3, ""),
    ("pH (NBS scale)", "ph_nbs", 3, ""),
    ("total alkalinity", "alkalinity_umol_per_kg", 1, "µmol/kg"),
    ("total alkalinity", "alkalinity_dkh", 2, "dKH"),
    ("dissolved inorganic carbon", "inorganic_carbon_umol_per_kg", 1, "µmol/kg"),
    ("partial pressure of CO2", "partial_pressure_co2_uatm", 1, "µatm"),
    ("dissolved CO2", "carbon_dioxide_umol_per_kg", 2, "µmol/kg"),
    ("bicarbonate", "bicarbonate_umol_per_kg", 1, "µmol/kg"),
    ("carbonate", "carbonate_umol_per_kg", 1, "µmol/kg"),
    ("aragonite saturation", "aragonite_saturation", 2, ""),
    ("calcite saturation", "calcite_saturation", 2, ""),
)


def state_repr(state: Any) -> str:
    """One line of a state."""
    return (
        f"CarbonateState(ph_total={state.ph_total:.3f}, "
        f"alkalinity_umol_per_kg={state.alkalinity_umol_per_kg:.1f}, "
        f"inorganic_carbon_umol_per_kg={state.inorganic_carbon_umol_per_kg:.1f}, "
        f"partial_pressure_co2_uatm={state.partial_pressure_co2_uatm:.1f}, "
        f"aragonite_saturation={state.aragonite_saturation:.2f})"
    )


def state_html(state: Any) -> str:
    """A table of a state."""
    water = state.water
    caption = (
        f"Carbonate system at {water.temperature_celsius:.2f} °C, "
        f"salinity {water.practical_salinity:.2f}"
    )
    return table(caption, _shown(state, STATE_ROWS), _flags(state.extrapolations))


# How the parts of an attribute's name are written as a unit.
UNITS = {
    "atm": "atm", "celsius": "°C", "cm": "cm", "day": "d", "dbar": "dbar", "dkh": "dKH",
    "eq": "eq", "g": "g", "grams": "g", "h": "h", "hour": "h", "hours": "h", "days": "d",
    "kg": "kg", "l": "L", "m": "m", "m2": "m²", "mg": "mg", "ml": "mL", "mmhg": "mmHg",
    "mmol": "mmol", "mol": "mol", "mv": "mV", "percent": "%", "ph": "pH", "ppm": "ppm",
    "s": "s", "uatm": "µatm", "umol": "µmol",
}  # fmt: skip

NOTES = ("cautions", "extrapolations")


def unit_of(name: str) -> tuple[str, str]:
    """What an attribute is called without its unit, and its unit."""
    first, *per = name.split("_per_")
    if not all(part in UNITS for part in per):
        return name.replace("_", " "), ""
    words = first.split("_")
    if words[0] == "percent":
        return " ".join(words), "%"
    unit = UNITS.get(words[-1]) if len(words) > 1 or not per else None
    called = " ".join(words[:-1] if unit else words) or first
    if per:
        unit = "/".join([unit or "1", *(UNITS[part] for part in per)])
    return called, unit or ""


def _fields(record: Any) -> list[str]:
    return [name for name in record.to_dict() if name not in NOTES]


def _short(value: Any) -> str:
    if isinstance(value, float):
        return f"{value:.6g}"
    if hasattr(value, "to_dict"):
        return f"{type(value).__name__}(...)"
    if isinstance(value, list):
        items: list[Any] = list(value)  # pyright: ignore[reportUnknownArgumentType]
        return f"[{', '.join(_short(item) for item in items)}]"
    return repr(value)


def _notes(record: Any) -> list[str]:
    return [*_try_list(record, "cautions"), *_flags(_try_list(record, "extrapolations"))]


def _try_list(record: Any, name: str) -> list[str]:
    return list(getattr(record, name, []))


def record_repr(record: Any) -> str:
    """One line of a record, and one for each of its cautions."""
    shown = [
        f"{name}={_short(value)}"
        for name in _fields(record)
        if (value := getattr(record, name)) is not None
    ]
    notes = "".join(f"\n  caution: {note}" for note in _try_list(record, "cautions"))
    return f"{type(record).__name__}({', '.join(shown)}){notes}"


def _rows(record: Any, within: str = "") -> Iterable[Row]:
    is_sum = hasattr(record, "conservative_charge_eq")
    for name in _fields(record):
        value = getattr(record, name)
        if is_sum and value == 0.0:
            # Of the many substances a supplement may bring, those it does.
            continue
        called, unit = unit_of(name)
        called = f"{within}{called}"
        if hasattr(value, "_restored"):
            yield from _rows(value, f"{called}: ")
        elif isinstance(value, list):
            items: list[Any] = list(value)  # pyright: ignore[reportUnknownArgumentType]
            shown = [getattr(item, "text", None) or _short(item) for item in items]
            yield called, "; ".join(shown) or "–", unit
        elif isinstance(value, str):
            yield called, value, ""
        elif isinstance(value, (bool, int, float)):
            yield called, _short(value), unit
        elif value is not None:
            yield called, _short(value), ""


def record_html(record: Any) -> str:
    """A table of a record, with its cautions below."""
    words = "".join(f" {c.lower()}" if c.isupper() else c for c in type(record).__name__)
    return table(words.strip().capitalize(), _rows(record), _notes(record))
