"""Speed and memory of the Python package beside PyCO2SYS and a numpy solver.

Usage: compare.py [--points N]

Prints ratios measured in one run, on the same inputs: inorganic carbon and
alkalinity of N waters (a million unless told else), each with its own temperature
and salinity. The numpy solver is what a scientist writes by hand: the same
published constants once more in numpy, Newton in the logarithm of H, in chunks
that fit the cache. All three are held to the same pH before anything is timed.

One-core times are processor times, the least of several runs, for other programs
on the machine do not enter them; times on all cores are by the clock.

Needs halimeda, numpy and PyCO2SYS (python/tests/requirements.txt). Run as a black
box, PyCO2SYS is known here by its public documentation only.
"""

from __future__ import annotations

import argparse
import os
import resource
import subprocess
import sys
import time

import numpy as np

import halimeda as hm

MEASURED = ("ph_total", "partial_pressure_co2_uatm", "aragonite_saturation", "calcite_saturation")


def inputs(points: int) -> dict[str, np.ndarray]:
    rng = np.random.default_rng(20260301)
    return {
        "temperature_celsius": rng.uniform(20, 30, points),
        "practical_salinity": rng.uniform(30, 38, points),
        "alkalinity_umol_per_kg": rng.uniform(2000, 3500, points),
        "inorganic_carbon_umol_per_kg": rng.uniform(1800, 1990, points),
    }


def of_halimeda(given, outputs, threads=1):
    return hm.carbonate(**given, outputs=outputs, threads=threads)


def of_pyco2sys(given):
    import PyCO2SYS

    salinity = given["practical_salinity"]
    # What is not measured, as Millero et al. (2008) have it.
    per_salinity = 0.96483496e6 / 35
    return PyCO2SYS.sys(
        par1=given["alkalinity_umol_per_kg"],
        par1_type=1,
        par2=given["inorganic_carbon_umol_per_kg"],
        par2_type=2,
        temperature=given["temperature_celsius"],
        salinity=salinity,
        total_sulfate=0.0292643 * per_salinity * salinity,
        total_fluoride=0.0000708 * per_salinity * salinity,
        total_calcium=0.0106568 * per_salinity * salinity,
        opt_k_carbonic=10,
        opt_total_borate=2,
        # Perez & Fraga (1987) is read on another scale there; see DEVELOPERS.md.
        opt_k_fluoride=1,
        opt_gas_constant=3,
    )


def numpy_chunk(celsius, s, alkalinity, carbon):
    """pH, pCO2 and saturation states of some rows; mol/kg, total scale."""
    t = celsius + 273.15
    ln_t, root_s, inverse_t, s15 = np.log(t), np.sqrt(s), 1 / t, s * np.sqrt(s)
    # Reference composition: Millero et al. (2008) table 4; boron: Lee et al. (2010).
    sulfate, fluoride, calcium = (
        m * 0.96483496 / 35 * s for m in (0.0292643, 0.0000708, 0.0106568)
    )
    boron = 0.0004326 / 35 * s
    # Dickson (1990) J. Chem. Thermodyn. 22; ionic strength of Dickson et al. (2007).
    ionic = 19.924 * s / (1000 - 1.005 * s)
    root_i = np.sqrt(ionic)
    ks = (1 - 0.001005 * s) * np.exp(
        -4276.1 * inverse_t + 141.328 - 23.093 * ln_t
        + (-13856 * inverse_t + 324.57 - 47.986 * ln_t) * root_i
        + (35474 * inverse_t - 771.54 + 114.723 * ln_t) * ionic
        - 2698 * inverse_t * ionic * root_i
        + 1776 * inverse_t * ionic * ionic
    )
    free_to_total = 1 + sulfate / ks
    # Dickson & Riley (1979), free scale.
    kf = (1 - 0.001005 * s) * np.exp(1590.2 * inverse_t - 12.641 + 1.525 * root_i)
    seawater_to_total = free_to_total / (free_to_total + fluoride / kf)
    # Lueker, Dickson & Keeling (2000), total scale.
    ln10 = np.log(10)
    k1 = np.exp(-ln10 * (
        3633.86 * inverse_t - 61.2172 + 9.6777 * ln_t + (-0.011555 + 0.0001152 * s) * s
    ))
    k2 = np.exp(-ln10 * (
        471.78 * inverse_t + 25.929 - 3.16967 * ln_t + (-0.01781 + 0.0001122 * s) * s
    ))
    # Dickson (1990) Deep-Sea Res. 37, total scale.
    kb = np.exp(
        (-8966.9 - 2890.53 * root_s - 77.942 * s + 1.728 * s15 - 0.0996 * s * s) * inverse_t
        + 148.0248 + 137.1942 * root_s + 1.62142 * s
        - (24.4344 + 25.085 * root_s + 0.2474 * s) * ln_t
        + 0.053105 * root_s * t
    )
    # Millero (1995), seawater scale.
    kw = seawater_to_total * np.exp(
        148.9802 - 13847.26 * inverse_t - 23.6521 * ln_t
        + (118.67 * inverse_t - 5.977 + 1.0495 * ln_t) * root_s
        - 0.01615 * s
    )
    # Mucci (1983); Weiss (1974).
    log10_t = ln_t / ln10
    aragonite = np.exp(ln10 * (
        -171.945 - 0.077993 * t + 2903.293 * inverse_t + 71.595 * log10_t
        + (-0.068393 + 0.0017276 * t + 88.135 * inverse_t) * root_s
        - 0.10018 * s + 0.0059415 * s15
    ))
    calcite = np.exp(ln10 * (
        -171.9065 - 0.077993 * t + 2839.319 * inverse_t + 71.595 * log10_t
        + (-0.77712 + 0.0028426 * t + 178.34 * inverse_t) * root_s
        - 0.07711 * s + 0.0041249 * s15
    ))
    t100 = t / 100
    k0 = np.exp(
        -60.2409 + 9345.17 * inverse_t + 23.3585 * np.log(t100)
        + s * (0.023517 + (-0.023656 + 0.0047036 * t100) * t100)
    )
    virial = -1636.75 + t * (12.0408 + t * (-0.0327957 + t * 3.16528e-5))
    fugacity = np.exp((virial + 2 * (57.7 - 0.118 * t)) * 1.01325 / (83.14462618 * t))

    k12 = k1 * k2
    inverse_free = 1 / free_to_total
    # Where carbon leaves little charge to others, H is near that of bicarbonate alone.
    h = np.full_like(t, 10.0**-8.1)
    for _ in range(50):
        denominator = 1 / (h * (h + k1) + k12)
        bicarbonate, carbonate = carbon * k1 * h * denominator, carbon * k12 * denominator
        borate = boron * kb / (kb + h)
        free = h * inverse_free
        hydroxide = kw / h
        bisulfate, hydrogen_fluoride = sulfate * free / (ks + free), fluoride * free / (kf + free)
        excess = (
            bicarbonate + 2 * carbonate + borate + hydroxide
            - free - bisulfate - hydrogen_fluoride - alkalinity
        )
        charge = bicarbonate + 2 * carbonate
        slope = (
            charge * charge / carbon - bicarbonate - 4 * carbonate
            - borate * h / (kb + h) - hydroxide - free
            - bisulfate * ks / (ks + free) - hydrogen_fluoride * kf / (kf + free)
        )
        step = np.clip(-excess / slope, -2.0, 2.0)
        h *= np.exp(step)
        if np.abs(step).max() < 1e-7:
            break
    else:
        raise ArithmeticError("Newton did not converge")
    denominator = 1 / (h * (h + k1) + k12)
    carbonate = carbon * k12 * denominator
    return (
        -np.log10(h),
        carbon * h * h * denominator / (k0 * fugacity) * 1e6,
        calcium * carbonate / aragonite,
        calcium * carbonate / calcite,
    )


def of_numpy(given, chunk=4096):
    points = len(given["temperature_celsius"])
    results = [np.empty(points) for _ in MEASURED]
    for first in range(0, points, chunk):
        rows = slice(first, first + chunk)
        solved = numpy_chunk(
            given["temperature_celsius"][rows],
            given["practical_salinity"][rows],
            given["alkalinity_umol_per_kg"][rows] * 1e-6,
            given["inorganic_carbon_umol_per_kg"][rows] * 1e-6,
        )
        for result, column in zip(results, solved, strict=True):
            result[rows] = column
    return dict(zip(MEASURED, results, strict=True))


def least(work, clock, repeats):
    best = float("inf")
    for _ in range(repeats):
        start = clock()
        work()
        best = min(best, clock() - start)
    return best


def far(a, b):
    return float(np.max(np.abs(a / b - 1)))


def check(given):
    """All three answer alike."""
    some = {name: column[:2000] for name, column in given.items()}
    ours = hm.carbonate(**some, hydrogen_fluoride="dickson_riley1979").to_dict()
    numpys, theirs = of_numpy(some), of_pyco2sys(some)
    names = {
        "ph_total": "pH_total",
        "partial_pressure_co2_uatm": "pCO2",
        "aragonite_saturation": "saturation_aragonite",
        "calcite_saturation": "saturation_calcite",
    }
    for name, other in names.items():
        for reference in (numpys[name], theirs[other]):
            if far(ours[name], reference) > 1e-9:
                sys.exit(f"{name} differs by {far(ours[name], reference):.1e} of itself")
    print("checked: pH, pCO2 and saturation states of all three within 1e-9")


def scalar():
    water = hm.Water(temperature_celsius=25.0, practical_salinity=35.0)
    calls = 20_000

    def whole():
        for _ in range(calls):
            hm.carbonate(
                temperature_celsius=25.0,
                practical_salinity=35.0,
                alkalinity_umol_per_kg=2300.0,
                inorganic_carbon_umol_per_kg=2000.0,
            )

    def of_a_water():
        for _ in range(calls):
            water.carbonate(alkalinity_umol_per_kg=2300.0, inorganic_carbon_umol_per_kg=2000.0)

    for name, work in (("carbonate(...)", whole), ("water.carbonate(...)", of_a_water)):
        each = least(work, time.process_time, 7) / calls
        print(f"one call with scalars, {name}: {each * 1e6:.2f} µs (must: 3)")


def imports():
    def start(code):
        return lambda: subprocess.run([sys.executable, "-c", code], check=True)

    def clock():
        used = resource.getrusage(resource.RUSAGE_CHILDREN)
        return used.ru_utime + used.ru_stime

    bare, with_it = (least(start(code), clock, 15) for code in ("pass", "import halimeda"))
    print(f"import: {(with_it - bare) * 1e3:.1f} ms over a bare interpreter (must: 50)")


MEMORY = """
import resource, numpy as np, halimeda as hm
def peak(): return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
rng = np.random.default_rng(1)
n = {points}
given = dict(
    temperature_celsius=rng.uniform(20, 30, n), practical_salinity=rng.uniform(30, 38, n),
    alkalinity_umol_per_kg=rng.uniform(2000, 3500, n),
    inorganic_carbon_umol_per_kg=rng.uniform(1800, 1990, n))
hm.carbonate(**{{name: column[:10] for name, column in given.items()}})
before = peak()
states = hm.carbonate(**given, threads={threads}{outputs})
kept = sum(column.nbytes for column in states.to_dict().values()) / 2**20
inputs = sum(column.nbytes for column in given.values()) / 2**20
print(f"{{len(states.outputs)}} results: {{peak() - before:.0f}} MiB for the call, of which "
      f"{{kept:.0f}} MiB are the results; RSS of the process {{peak():.0f}} MiB, with interpreter, "
      f"numpy and {{inputs:.0f}} MiB of inputs")
"""


def memory(points):
    for label, outputs in (("usual outputs", ""), ("all outputs", f", outputs={ALL!r}")):
        code = MEMORY.format(points=points, threads=0, outputs=outputs)
        told = subprocess.run(
            [sys.executable, "-c", code], check=True, capture_output=True, text=True
        )
        print(f"peak memory, {label}: {told.stdout.strip()} (must: 200 MB)")


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--points", type=int, default=1_000_000)
    points = parser.parse_args().points
    given = inputs(points)
    check(given)
    scalar()
    imports()
    memory(points)

    cores = os.cpu_count()
    one_core = time.process_time
    few = least(lambda: of_halimeda(given, MEASURED), one_core, 5)
    by_hand = least(lambda: of_numpy(given), one_core, 3)
    print(f"pH, pCO2, saturation: {by_hand / few:.1f} times the numpy solver on one core (must: 8)")
    few_clock = least(lambda: of_halimeda(given, MEASURED), time.perf_counter, 5)
    few_all = least(lambda: of_halimeda(given, MEASURED, 0), time.perf_counter, 5)
    print(f"the same on all {cores} cores: {few_clock / few_all:.2f} times one core, by the clock")

    everything = least(lambda: of_halimeda(given, ALL), one_core, 3)
    usual = least(lambda: of_halimeda(given, None), one_core, 3)
    theirs = least(lambda: of_pyco2sys(given), one_core, 1)
    everything_clock = least(lambda: of_halimeda(given, ALL, 0), time.perf_counter, 3)
    print(
        f"all {len(ALL)} outputs: {theirs / everything:.0f} times PyCO2SYS on one core, "
        f"{theirs / everything_clock:.0f} times on all, by the clock (must: 50)"
    )
    print(f"the usual outputs: {theirs / usual:.0f} times PyCO2SYS on one core")
    per_row = 1e9 / points
    print(
        f"ns per row: ours {few * per_row:.0f} for four outputs, {usual * per_row:.0f} usual, "
        f"{everything * per_row:.0f} all; numpy {by_hand * per_row:.0f} for four; "
        f"PyCO2SYS {theirs * per_row:.0f}"
    )


ALL = tuple(hm.carbonate(
    temperature_celsius=25.0,
    practical_salinity=35.0,
    alkalinity_umol_per_kg=2300.0,
    inorganic_carbon_umol_per_kg=2000.0,
).to_dict())

if __name__ == "__main__":
    main()
