"""How long `import halimeda` takes, beside what one can compare it with here.

Each import happens in a fresh interpreter. The time of an interpreter that imports
nothing is taken off; what remains is told in milliseconds and as a share of the time
that `import numpy` takes on the same machine. Times are those of the processor, since
other programs on the machine do not enter them.
"""

import resource
import statistics
import subprocess
import sys

ROUNDS = 15
CODES = {
    "nothing": "pass",
    "halimeda": "import halimeda",
    "a first pH": (
        "import halimeda; halimeda.Water(temperature_celsius=25.0, practical_salinity=35.0)"
        ".carbonate(alkalinity='8.2 dKH', ph_total=8.1).ph_total"
    ),
    "numpy": "import numpy",
}


def seconds(code: str) -> float:
    start = spent()
    subprocess.run([sys.executable, "-c", code], check=True)
    return spent() - start


def spent() -> float:
    """Processor time of all programs that were started and have ended, s."""
    usage = resource.getrusage(resource.RUSAGE_CHILDREN)
    return usage.ru_utime + usage.ru_stime


def main() -> None:
    times: dict[str, list[float]] = {name: [] for name in CODES}
    for _ in range(ROUNDS):
        # In turn, so that whatever else the machine does falls on all of them.
        for name, code in CODES.items():
            times[name].append(seconds(code))
    median = {name: statistics.median(taken) for name, taken in times.items()}
    bare = median["nothing"]
    numpy = median["numpy"] - bare
    print(f"{'import':<12} {'median':>10} {'of numpy':>10}")
    for name, taken in median.items():
        own = taken - bare
        if name != "nothing":
            print(f"{name:<12} {own * 1e3:>7.1f} ms {own / numpy:>10.2f}")


if __name__ == "__main__":
    main()
