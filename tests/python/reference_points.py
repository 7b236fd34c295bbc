"""Computes random seawater states with independent reference implementations.

Usage: reference_points.py DIRECTORY

Writes `carbonate.csv` (PyCO2SYS) and `seawater.csv` (gsw) into DIRECTORY, every
number with all its digits. The points are drawn anew at each run; the seed is
printed, and HALIMEDA_SEED repeats a run.

Both packages are used as black boxes: what goes in and what comes out is in
their public documentation, and this file is the only one that knows their
names for things.
"""

import csv
import itertools
import os
import secrets
import sys
from pathlib import Path

import gsw
import numpy as np
import PyCO2SYS

POINTS_PER_OPTION_SET = 100
SEAWATER_POINTS = 2000

# The published parameterisations by the names this project gives them.
CARBONIC = {
    "lueker2000": 10,
    "dickson_millero1987": 4,
    "millero2010": 14,
    "waters2014": 15,
    "sulpis2020": 16,
}
BISULFATE = {"dickson1990": 1, "khoo1977": 2}
FLUORIDE = {"dickson_riley1979": 1, "perez_fraga1987": 2}
BORON = {"uppstrom1974": 1, "lee2010": 2}

PH_SCALES = {"ph_total": 1, "ph_seawater": 2, "ph_free": 3, "ph_nbs": 4}
# What a state can be asked from: number of its kind, name in the result.
KNOWNS = {
    "alkalinity": (1, "alkalinity"),
    "dic": (2, "dic"),
    "pco2": (4, "pCO2"),
    "fco2": (5, "fCO2"),
    "carbonate": (6, "CO3"),
    "bicarbonate": (7, "HCO3"),
    "co2": (8, "CO2"),
    "omega_calcite": (10, "saturation_calcite"),
    "omega_aragonite": (11, "saturation_aragonite"),
    "ph_total": (3, "pH_total"),
    "ph_seawater": (3, "pH_sws"),
    "ph_free": (3, "pH_free"),
    "ph_nbs": (3, "pH_nbs"),
}
KNOWN_TYPES = {name: number for name, (number, _) in KNOWNS.items()}
KNOWN_INDEX = {name: i for i, name in enumerate(KNOWNS)}
PH_SCALES_OF_KNOWNS = {name: PH_SCALES.get(name, PH_SCALES["ph_total"]) for name in KNOWNS}

# Pairs with one root. Those that can have two are covered by the round trips,
# where both roots are known.
PAIRS = [
    ("alkalinity", "dic"),
    *(("alkalinity", scale) for scale in PH_SCALES),
    *(("dic", scale) for scale in PH_SCALES),
    *(pair for co2 in ("pco2", "fco2", "co2") for pair in (("alkalinity", co2), ("dic", co2))),
    ("alkalinity", "bicarbonate"),
    ("ph_total", "pco2"),
    ("ph_total", "bicarbonate"),
    ("ph_total", "carbonate"),
    ("ph_total", "omega_aragonite"),
    ("fco2", "bicarbonate"),
    ("pco2", "carbonate"),
    ("bicarbonate", "omega_calcite"),
    ("bicarbonate", "carbonate"),
]

# Column of the file: name in the result of PyCO2SYS. Contents are in umol/kg,
# gases in uatm and ppm, constants and buffer factors in mol/kg.
OUTPUTS = {
    "alkalinity": "alkalinity",
    "dic": "dic",
    "ph_total": "pH_total",
    "ph_seawater": "pH_sws",
    "ph_free": "pH_free",
    "ph_nbs": "pH_nbs",
    "pco2": "pCO2",
    "fco2": "fCO2",
    "xco2": "xCO2",
    "co2": "CO2",
    "bicarbonate": "HCO3",
    "carbonate": "CO3",
    "hydrogen_free": "Hfree",
    "hydroxide": "OH",
    "borate": "BOH4",
    "ammonia": "NH3",
    "bisulfate": "HSO4",
    "hydrogen_fluoride": "HF",
    "alkalinity_phosphate": "alkalinity_phosphate",
    "alkalinity_silicate": "alkalinity_silicate",
    "alkalinity_ammonia": "alkalinity_ammonia",
    "alkalinity_sulfide": "alkalinity_sulfide",
    "omega_aragonite": "saturation_aragonite",
    "omega_calcite": "saturation_calcite",
    "revelle_factor": "revelle_factor",
    "gamma_dic": "gamma_dic",
    "beta_dic": "beta_dic",
    "omega_dic": "omega_dic",
    "gamma_alk": "gamma_alk",
    "beta_alk": "beta_alk",
    "omega_alk": "omega_alk",
    "total_boron": "total_borate",
    "k0": "k_CO2",
    "k1": "k_carbonic_1",
    "k2": "k_carbonic_2",
    "kw": "k_water",
    "kb": "k_borate",
    "kso4": "k_bisulfate",
    "kf": "k_fluoride",
    "kp1": "k_phosphoric_1",
    "kp2": "k_phosphoric_2",
    "kp3": "k_phosphoric_3",
    "ksi": "k_silicate",
    "knh4": "k_ammonia",
    "kh2s": "k_sulfide",
    "ksp_calcite": "k_calcite",
    "ksp_aragonite": "k_aragonite",
    "fugacity_coefficient": "fugacity_factor",
}


def write_carbonate(path, rng):
    sets = list(itertools.product(CARBONIC, BISULFATE, FLUORIDE, ["measured", *BORON]))
    carbonic, bisulfate, fluoride, boron = np.repeat(sets, POINTS_PER_OPTION_SET, axis=0).T
    n = len(carbonic)
    water = {
        "temperature": rng.uniform(15, 35, n),
        "salinity": rng.uniform(20, 45, n),
        "pressure": depth(rng, n),
        "opt_k_carbonic": codes(CARBONIC, carbonic),
        "opt_k_bisulfate": codes(BISULFATE, bisulfate),
        "opt_k_fluoride": codes(FLUORIDE, fluoride),
        "opt_total_borate": codes(BORON | {"measured": BORON["lee2010"]}, boron),
        # The gas constant of 2018, and exact derivatives for the buffer factors.
        "opt_gas_constant": 3,
        "opt_buffers_mode": 1,
    }
    # What a salt mix may hold: the ocean's content within a quarter. These
    # values only centre the draw.
    totals = {
        f"total_{name}": content * water["salinity"] / 35 * rng.uniform(0.75, 1.25, n)
        for name, content in [("calcium", 10282), ("sulfate", 28235), ("fluoride", 68)]
    }
    for name, largest in [("phosphate", 5), ("silicate", 50), ("ammonia", 20), ("sulfide", 5)]:
        # None in a third of the waters.
        totals[f"total_{name}"] = rng.uniform(0, largest, n) * (rng.random(n) > 1 / 3)
    water |= totals
    # Boron comes from salinity where the option set says how.
    measured_boron = 416 * water["salinity"] / 35 * rng.uniform(0.75, 1.25, n)
    from_salinity = PyCO2SYS.sys(**water)["total_borate"]
    water["total_borate"] = np.where(boron == "measured", measured_boron, from_salinity)

    at_depth = PyCO2SYS.sys(**water)
    at_surface = PyCO2SYS.sys(**(water | {"pressure": 0}))
    # Both are of the free scale, so their ratio is the effect of pressure alone.
    deepening = at_depth["k_fluoride"] / at_surface["k_fluoride"]
    water["k_fluoride"] = np.where(
        fluoride == "perez_fraga1987",
        perez_fraga_free(water, at_surface["k_bisulfate"]) * deepening,
        at_depth["k_fluoride"],
    )

    # States of every carbon content over pH 7 to 9, then each asked again from
    # another pair of knowns.
    state = solve(water, ["dic", "ph_total"], [rng.uniform(500, 4000, n), rng.uniform(7, 9, n)])
    pairs = np.array(PAIRS)[rng.integers(len(PAIRS), size=n)]
    first, second = pairs.T
    knowns = [
        np.choose(codes(KNOWN_INDEX, names), [state[result] for _, result in KNOWNS.values()])
        for names in (first, second)
    ]
    result = solve(water, [first, second], knowns)

    columns = {
        "carbonic": carbonic,
        "bisulfate": bisulfate,
        "fluoride": fluoride,
        "boron": boron,
        "temperature_celsius": water["temperature"],
        "practical_salinity": water["salinity"],
        "pressure_dbar": water["pressure"],
        **{f"{name}_umol_per_kg": content for name, content in totals.items()},
        "measured_boron_umol_per_kg": measured_boron,
        "first": first,
        "first_value": knowns[0],
        "second": second,
        "second_value": knowns[1],
    }
    # A name may be a known and an output: outputs carry a prefix.
    return write(path, columns | {f"out_{name}": result[key] for name, key in OUTPUTS.items()})


def depth(rng, n):
    """Pressures in dbar: half at the surface, half down to the end of a WaterPressure."""
    return rng.uniform(0, 1000, n) * (rng.random(n) > 1 / 2)


def perez_fraga_free(water, k_bisulfate):
    """KF of Perez & Fraga (1987) at the surface, on the scale PyCO2SYS takes it on.

    Dickson et al. (2007) chapter 5 give it on the total scale; PyCO2SYS reads
    the number as one of the free scale. Both are given the same
    constant here, or every other output would differ along with it.
    """
    kelvin = water["temperature"] + 273.15
    total = np.exp(874 / kelvin - 9.68 + 0.111 * np.sqrt(water["salinity"]))
    return total / (1 + water["total_sulfate"] * 1e-6 / k_bisulfate)


def solve(water, knowns, values):
    """Solves for the states, with every constant on the total scale."""
    types = [codes(KNOWN_TYPES, known) for known in knowns]
    given = dict(par1=values[0], par1_type=types[0], par2=values[1], par2_type=types[1])
    scale = np.maximum(*(codes(PH_SCALES_OF_KNOWNS, known) for known in knowns))
    result = PyCO2SYS.sys(**given, opt_pH_scale=scale, **water)
    # Constants come on the scale that the pH was given on.
    given = dict(par1=result["dic"], par1_type=2, par2=result["pH_total"], par2_type=3)
    on_total = PyCO2SYS.sys(**given, opt_pH_scale=1, **water)
    return result | {key: value for key, value in on_total.items() if key.startswith("k_")}


def codes(table, names):
    """The numbers that `table` has for `names`."""
    return np.vectorize(table.__getitem__)(names)


def write_seawater(path, rng):
    salinity = rng.uniform(20, 45, SEAWATER_POINTS)
    temperature = rng.uniform(15, 35, SEAWATER_POINTS)
    pressure = depth(rng, SEAWATER_POINTS)
    conductivity = gsw.C_from_SP(salinity, temperature, pressure)
    columns = {
        "temperature_celsius": temperature,
        "practical_salinity": salinity,
        "pressure_dbar": pressure,
        "conductivity_ms_per_cm": conductivity,
        "out_practical_salinity": gsw.SP_from_C(conductivity, temperature, pressure),
        "out_conductivity": conductivity,
        "out_oxygen_solubility": gsw.O2sol_SP_pt(salinity, temperature),
    }
    return write(path, columns)


def write(path, columns):
    for name, values in columns.items():
        if values.dtype.kind == "f" and not np.all(np.isfinite(values)):
            raise ValueError(f"{path.name}: not every {name} is finite")
    with path.open("w", newline="", encoding="utf-8") as file:
        writer = csv.writer(file)
        writer.writerow(columns)
        # The shortest digits that read back as the same number.
        writer.writerows(zip(*(values.tolist() for values in columns.values())))
    return len(next(iter(columns.values())))


def main():
    directory = Path(sys.argv[1])
    directory.mkdir(parents=True, exist_ok=True)
    seed = int(os.environ.get("HALIMEDA_SEED") or secrets.randbits(32))
    print(f"    seed {seed} (HALIMEDA_SEED={seed} repeats these points)")
    rng = np.random.default_rng(seed)
    for name, writer in [("carbonate.csv", write_carbonate), ("seawater.csv", write_seawater)]:
        print(f"    {name}: {writer(directory / name, rng)} points")


if __name__ == "__main__":
    main()
