"""Every public name is in the reference, with all that a reader needs to use it."""

import contextlib
import importlib
import inspect
import pkgutil
import re
from collections.abc import Iterator
from functools import cached_property
from pathlib import Path
from typing import Any

import pytest
from numpydoc.docscrape import NumpyDocString
from numpydoc.validate import validate

import halimeda

PAGES = Path(__file__).parents[1] / "docs"

# What the checks of numpydoc are asked for: a summary, arguments with a description, and
# nothing described that is not there.
CHECKS = {
    "GL03", "GL05", "GL08", "GL10", "SS01", "SS03", "SS04",
    "PR02", "PR05", "PR07", "PR10", "YD01",
}  # fmt: skip

# A name that ends so is a number of this unit, and its description says so in this way.
UNITS = {
    "celsius": "°C",
    "l_per_h_per_cm": "L/h/cm",
    "g_per_l": "g/L",
    "g_dry_per_m2": "(g/m²|per m²)",
    "umol_per_kg": "µmol/kg",
    "mmol_per_m3": "mmol/m³",
    "mol_per_kg": "mol/kg",
    "mol_per_mol": "(mol/mol|per)",
    "mg_per_l": "mg/L",
    "mg_n_per_l": "mg/L",
    "mg_p_per_l": "mg/L",
    "kg_per_m3": "kg/m³",
    "ms_per_cm": "mS/cm",
    "uatm": "µatm",
    "atm": "atm",
    "dbar": "dbar",
    "days": "(d|[Dd]ays?)",
    "hours": "(h|[Hh]ours?)",
    "grams": "(g|[Gg]rams)",
    "mol": "mol",
    "cm": "cm",
    "m2": "m²",
    "dkh": "dKH",
    "l": "L",
    "m": "m",
}

# A section of our own: authors, year, DOI.
NumpyDocString.sections.setdefault("Source", [])


def modules() -> Iterator[Any]:
    """The package and its public submodules."""
    yield halimeda
    for found in pkgutil.iter_modules(halimeda.__path__):
        if not found.name.startswith("_"):
            yield importlib.import_module(f"halimeda.{found.name}")


def public_names() -> dict[str, Any]:
    """What each public name stands for, by its dotted name."""
    return {
        f"{module.__name__}.{name}": getattr(module, name)
        for module in modules()
        for name in module.__all__
    }


def described() -> dict[str, Any]:
    """Functions, classes and the public members of classes, which have docstrings."""
    found = {}
    for name, thing in public_names().items():
        if not (inspect.isclass(thing) or inspect.isroutine(thing)):
            continue
        if any(thing is other for other in found.values()):
            continue
        found[name] = thing
        # What arguments have to offer is described as a whole.
        has_members = inspect.isclass(thing) and not getattr(thing, "_is_protocol", False)
        for member, value in vars(thing).items() if has_members else ():
            is_described = callable(value) or inspect.isdatadescriptor(value)
            is_described |= isinstance(value, classmethod | staticmethod)
            is_described &= not inspect.ismemberdescriptor(value)
            if is_described and not member.startswith("_"):
                # Through the class: what makes a method static has a docstring of its own.
                found[f"{name}.{member}"] = (
                    getattr(thing, member)
                    if isinstance(value, classmethod | staticmethod)
                    else value
                )
    return found


def listed() -> set[str]:
    """The names that the pages of the reference describe."""
    names = set()
    for page in PAGES.glob("*.rst"):
        module = "halimeda"
        for directive, name in re.findall(
            r"^\.\. (currentmodule|auto\w+|data):: (\S+)", page.read_text(), re.MULTILINE
        ):
            if directive == "currentmodule":
                module = name
            else:
                names.add(name if name.startswith("halimeda.") else f"{module}.{name}")
    return names


def test_every_public_name_is_in_the_reference() -> None:
    things = public_names()
    # A class is described once, in whichever of its rooms.
    there = {id(things[name]) for name in listed() if name in things}
    missing = [
        name
        for name, thing in things.items()
        if name not in listed() and id(thing) not in there and not inspect.ismodule(thing)
    ]
    assert missing == []


def test_public_names_are_in_order() -> None:
    for module in modules():
        assert module.__all__ == sorted(set(module.__all__)), module.__name__


def documented(name: str) -> set[str]:
    """The arguments that a docstring describes, with those that it refers to.

    "Takes the arguments of `Water`" stands for what is said there. An argument with its
    unit in its name stands for its sibling without, which the first page explains.
    """
    doc = inspect.getdoc(described()[name]) or ""
    names = {
        argument.lstrip("*")
        for parameter in NumpyDocString(doc)["Parameters"]
        for argument in parameter.name.split(", ")
    }
    names |= {n.removesuffix(f"_{unit}") for n in names for unit in UNITS}
    for shared in re.findall(r"(?:those|arguments) of `([\w.]+)`", doc):
        near = f"{name.rpartition('.')[0]}.{shared}"
        names |= documented(near if near in described() else f"halimeda.{shared}")
    return names


@pytest.mark.parametrize("name", described())
def test_docstring(name: str) -> None:
    thing = described()[name]
    errors = [f"{code} {text}" for code, text in validate(name)["errors"] if code in CHECKS]
    is_made_by_readers = not inspect.isclass(thing) or documented(name)
    if is_made_by_readers and not isinstance(thing, property | cached_property):
        with contextlib.suppress(ValueError, TypeError):
            arguments = set(inspect.signature(thing).parameters) - {"self", "cls"}
            missing = arguments - documented(name)
            errors += [f"{argument} is not described" for argument in sorted(missing)]
    assert not errors, "\n".join(errors)


@pytest.mark.parametrize("name", described())
def test_units_are_told(name: str) -> None:
    parsed = NumpyDocString(inspect.getdoc(described()[name]) or "")
    missing = []
    for parameter in parsed["Parameters"] + parsed["Attributes"]:
        text = " ".join([parameter.type, *parameter.desc])
        if re.search(r"^As for `", " ".join(parameter.desc)):
            continue
        for argument in parameter.name.split(", "):
            suffix = next((s for s in UNITS if f"_{argument}".endswith(f"_{s}")), None)
            if suffix and not re.search(rf"(?<![\w/]){UNITS[suffix]}(?!\w)", text):
                missing.append(f"{argument}: {UNITS[suffix]}")
    assert not missing, ", ".join(missing)


def test_functions_say_what_they_raise() -> None:
    silent = []
    for name, thing in public_names().items():
        doc = NumpyDocString(inspect.getdoc(thing) or "")
        kinds = {parameter.type for parameter in doc["Parameters"]}
        if inspect.isroutine(thing) and kinds - {"str"} and not doc["Raises"]:
            silent.append(name)
    assert silent == []
