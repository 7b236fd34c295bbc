"""Random states against PyCO2SYS, run as a black box, through arrays.

The points and all that is known of the other package's names are those of
tests/python/reference_points.py.
"""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path

import numpy as np
import pytest

import halimeda as hm

pytest.importorskip("PyCO2SYS")
pytest.importorskip("gsw")
pd = pytest.importorskip("pandas")

POINTS = Path(__file__).parents[2] / "tests" / "python" / "reference_points.py"

KNOWNS = {
    "alkalinity": "alkalinity_umol_per_kg",
    "dic": "inorganic_carbon_umol_per_kg",
    "pco2": "partial_pressure_co2_uatm",
    "fco2": "fugacity_co2_uatm",
    "carbonate": "carbonate_umol_per_kg",
    "bicarbonate": "bicarbonate_umol_per_kg",
    "co2": "carbon_dioxide_umol_per_kg",
    "omega_calcite": "calcite_saturation",
    "omega_aragonite": "aragonite_saturation",
    "ph_total": "ph_total",
    "ph_seawater": "ph_seawater",
    "ph_free": "ph_free",
    "ph_nbs": "ph_nbs",
}

# Ours: theirs.
OUTPUTS = {
    **{ours: theirs for theirs, ours in KNOWNS.items()},
    "dry_mole_fraction_co2_ppm": "xco2",
    "unionised_ammonia_umol_per_kg": "ammonia",
    "hydroxide_mol_per_kg": "hydroxide",
    "revelle": "revelle_factor",
    "gamma_dic_mol_per_kg": "gamma_dic",
    "beta_dic_mol_per_kg": "beta_dic",
    "gamma_alkalinity_mol_per_kg": "gamma_alk",
    "beta_alkalinity_mol_per_kg": "beta_alk",
}
# Theirs in µmol/kg where ours are in mol/kg.
MICROMOLES = {"hydroxide_mol_per_kg"}


@pytest.fixture(scope="module")
def points(tmp_path_factory):
    spec = importlib.util.spec_from_file_location("reference_points", POINTS)
    module = importlib.util.module_from_spec(spec)
    sys.modules["reference_points"] = module
    spec.loader.exec_module(module)
    path = tmp_path_factory.mktemp("reference") / "carbonate.csv"
    module.write_carbonate(path, np.random.default_rng(20070001))
    return pd.read_csv(path)


def test_every_output_of_every_pair_and_choice(points):
    choices = ["carbonic", "bisulfate", "fluoride", "boron", "first", "second"]
    worst = dict.fromkeys(OUTPUTS, 0.0)
    rows = 0
    for (carbonic, bisulfate, fluoride, boron, first, second), group in points.groupby(choices):
        given = {
            name: group[name].to_numpy()
            for name in (
                "temperature_celsius",
                "practical_salinity",
            )
        }
        given["water_pressure_dbar"] = group["pressure_dbar"].to_numpy()
        for total in (
            "calcium sulfate fluoride phosphate silicate ammonia sulfide".split()
        ):
            given[f"{total}_umol_per_kg"] = group[f"total_{total}_umol_per_kg"].to_numpy()
        if boron == "measured":
            given["boron_umol_per_kg"] = group["measured_boron_umol_per_kg"].to_numpy()
        given[KNOWNS[first]] = group["first_value"].to_numpy()
        given[KNOWNS[second]] = group["second_value"].to_numpy()
        states = hm.carbonate(
            **given,
            carbonic_acid=carbonic,
            bisulfate=bisulfate,
            hydrogen_fluoride=fluoride,
            total_boron="lee2010" if boron == "measured" else boron,
            extrapolate=True,
            outputs=[*OUTPUTS],
            errors="raise",
        )
        columns = states.to_dict()
        for ours, theirs in OUTPUTS.items():
            reference = group[f"out_{theirs}"].to_numpy()
            if ours in MICROMOLES:
                reference = reference * 1e-6
            scale = 1.0 if ours.startswith("ph_") else np.maximum(np.abs(reference), 1e-12)
            worst[ours] = max(worst[ours], np.max(np.abs(columns[ours] - reference) / scale))
        rows += len(group)
    assert rows == len(points)
    # As in tests/src/tolerance.rs.
    assert all(far <= (1e-10 if name.startswith("ph_") else 1e-9) for name, far in worst.items()), worst
