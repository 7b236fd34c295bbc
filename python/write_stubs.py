"""Complete the stubs that PyO3 leaves in the native library.

    python write_stubs.py GENERATED

prints them. PyO3 knows no types inside a dict, none of numpy, and no function whose
answer depends on its arguments: those are told here. Run by `cargo xtask stubs`.
"""

import re
import sys
from pathlib import Path

HEADING = "# Written by `cargo xtask stubs`; change the Rust side instead.\n"

# Results whose type cannot be written into the signature in Rust, for it takes an import:
# by the name of the function or `Class.method`.
RESULTS = {
    "Description.instants": "NDArray[np.int64] | None",
    "Description.simulate": "dict[str, Any]",
    "follow_ensemble": "dict[str, Any]",
}

# Functions that answer numbers with the first and arrays with the second.
OVERLOADS = {
    "carbonate": ("CarbonateState", "CarbonateStates"),
    **dict.fromkeys(
        (
            "practical_salinity_from_conductivity",
            "practical_salinity_from_density",
            "practical_salinity_from_hydrometer",
            "practical_salinity_from_refractive_index",
            "practical_salinity_from_specific_gravity",
        ),
        ("float", "Any"),
    ),
}

# Where the names above come from.
IMPORTS = {
    "np": "import numpy as np",
    "ArrayLike": "from numpy.typing import ArrayLike",
    "NDArray": "from numpy.typing import NDArray",
    "CarbonateStates": "from halimeda._states import CarbonateStates",
    "overload": "from typing import overload",
}

DEFINITION = re.compile(
    r"(?P<indent> *)def (?P<name>\w+)\((?P<arguments>.*)\) -> (?P<result>.*?):(?P<rest>.*)"
)
# What takes numbers, arrays, or text with a unit; only that is optional and of any kind.
QUANTITY = re.compile(r"(?!standard|outputs)\b(\w+): Any \| None = None")
UNITS = ("_celsius", "_per_cm", "_per_kg", "_per_m3", "_dbar", "_atm", "_uatm", "_m", "_nm")
BARE = ("practical_salinity", "refractive_index", "refractometer", "_saturation")
BARE_PH = ("ph_total", "ph_free", "ph_seawater", "ph_nbs")


def of_one(match: re.Match[str]) -> str:
    """The argument as one value: a number, or text where the name has no unit."""
    name = match[1]
    is_number = name.endswith((*UNITS, *BARE)) or name in BARE_PH
    return f"{name}: {'float' if is_number else 'str'} | None = None"


def of_many(match: re.Match[str]) -> str:
    """The argument as one value or many, of any kind that numpy takes."""
    return f"{match[1]}: ArrayLike | None = None"


def known(types: str) -> str:
    """The types without what PyO3 left open: arrays, and what dicts hold."""
    types = types.replace("Incomplete", "NDArray[np.float64]")
    return re.sub(r"\bdict\b(?!\[)", "dict[str, Any]", types)


def completed(generated: str) -> str:
    """The stubs with what PyO3 could not know."""
    lines = []
    owner = ""
    for line in generated.splitlines():
        if line.startswith("class "):
            owner = line.removeprefix("class ").rstrip(":") + "."
        elif line and not line.startswith((" ", "@", '"')):
            owner = ""
        found = DEFINITION.fullmatch(line)
        if not found:
            lines.append(line)
            continue
        name = owner + found["name"]
        arguments = known(found["arguments"])
        result = RESULTS.get(name, known(found["result"]))
        rest = found["rest"]
        start = f"{found['indent']}def {found['name']}"
        if name in OVERLOADS:
            one, many = OVERLOADS[name]
            # Only the last has the docstring.
            table = "table: Any | None = None, /, "
            without = arguments.removeprefix(table)
            lines += ["@overload", f"{start}({QUANTITY.sub(of_one, without)}) -> {one}: ..."]
            lines += ["@overload"]
            if without != arguments:
                lines += [f"{start}({QUANTITY.sub(of_many, without)}) -> {many}: ...", "@overload"]
                arguments, many = table.replace(" | None = None", "") + without, "Any"
            result = many
        lines.append(f"{start}({QUANTITY.sub(of_many, arguments)}) -> {result}:{rest}")
    text = "\n".join(lines) + "\n"
    text = text.replace("from _typeshed import Incomplete, ", "from _typeshed import ")
    head, all_names, tail = text.partition("\n__all__ = ")
    imports = [
        f"{statement}\n"
        for name, statement in IMPORTS.items()
        if re.search(rf"(?m)^ *(@|def .*\b){name}\b", tail)
    ]
    return f"{HEADING}{head}{''.join(imports)}{all_names}{tail}"


if __name__ == "__main__":
    sys.stdout.write(completed(Path(sys.argv[1]).read_text(encoding="utf-8")))
