"""Import, threads, interrupts, and work in other processes."""

from __future__ import annotations

import concurrent.futures
import signal
import subprocess
import sys
import textwrap
import threading
from pathlib import Path

import numpy as np
import pytest

import halimeda as hm


def run(code: str) -> str:
    finished = subprocess.run(
        [sys.executable, "-c", textwrap.dedent(code)],
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )
    assert finished.returncode == 0, finished.stderr
    return finished.stdout


def test_import_brings_no_other_package():
    heavy = ["numpy", "pandas", "polars", "xarray", "pint", "matplotlib", "dask", "tqdm"]
    loaded = run(f"""
        import sys, halimeda
        water = halimeda.Water(temperature_celsius=25.5, practical_salinity=35.0)
        state = water.carbonate(alkalinity="8.2 dKH", ph_total=8.1)
        state.uncertainties({{"ph_total": 0.01}}), state._repr_html_(), repr(water)
        print([name for name in {heavy} if name in sys.modules])
    """)
    assert loaded.strip() == "[]"


def test_arrays_bring_numpy_alone():
    loaded = run("""
        import sys, halimeda
        halimeda.Water(temperature_celsius=[25.5], practical_salinity=35.0).density_kg_per_m3
        print([name for name in ("pandas", "polars", "xarray", "pint") if name in sys.modules])
    """)
    assert loaded.strip() == "[]"


def test_many_threads_at_once(rows):
    expected = hm.carbonate(**rows)
    one = hm.carbonate(**{name: float(column[0]) for name, column in rows.items()})
    start = threading.Barrier(16)

    def work(number):
        start.wait()
        for _ in range(200):
            assert hm.carbonate(**rows, threads=number % 3) == expected
            scalars = {name: float(column[0]) for name, column in rows.items()}
            assert hm.carbonate(**scalars) == one
            with pytest.raises(hm.HalimedaValueError):
                hm.carbonate(**{**scalars, "ph_total": 99.0})
        return number

    with concurrent.futures.ThreadPoolExecutor(16) as pool:
        assert sorted(pool.map(work, range(16))) == list(range(16))


def test_the_first_use_may_be_in_many_threads():
    run("""
        import threading, halimeda
        start = threading.Barrier(12)
        problems = []
        def work():
            start.wait()
            try:
                halimeda.Water(temperature_celsius=[25.5], practical_salinity=35.0).carbonate(
                    alkalinity="8.2 dKH", ph_total=8.1).ph_total
            except Exception as error:
                problems.append(error)
        threads = [threading.Thread(target=work) for _ in range(12)]
        [thread.start() for thread in threads]
        [thread.join() for thread in threads]
        assert not problems, problems
    """)


@pytest.mark.skipif(sys.platform == "win32", reason="signals of POSIX")
def test_an_interrupt_ends_a_long_call():
    # Enough rows for many seconds; the main thread is where signals are handled.
    count = 10_000_000
    temperature = np.linspace(20.0, 30.0, count)
    ready = threading.Timer(0.1, signal.raise_signal, [signal.SIGINT])
    ready.start()
    with pytest.raises(KeyboardInterrupt):
        hm.carbonate(
            temperature_celsius=temperature,
            practical_salinity=35.0,
            alkalinity_umol_per_kg=2800.0,
            ph_total=8.1,
            outputs="aragonite_saturation",
        )
    ready.join()


def test_other_threads_run_during_a_long_call():
    count = 2_000_000
    counted, done = 0, threading.Event()

    def work():
        nonlocal counted
        while not done.is_set():
            counted += 1

    thread = threading.Thread(target=work)
    thread.start()
    before = counted
    hm.carbonate(
        temperature_celsius=np.linspace(20.0, 30.0, count),
        practical_salinity=35.0,
        alkalinity_umol_per_kg=2800.0,
        ph_total=8.1,
        outputs="aragonite_saturation",
    )
    during = counted - before
    done.set()
    thread.join()
    assert during > 1000


def test_xarray_and_dask_on_worker_processes():
    pytest.importorskip("xarray")
    pytest.importorskip("distributed")
    # In a program of its own: workers import what they run, and a warning that these
    # tests make an error would leave the cluster waiting for ever.
    program = Path(__file__).with_name("dask_workers.py")
    finished = subprocess.run(
        [sys.executable, program], capture_output=True, text=True, timeout=120, check=False
    )
    assert finished.returncode == 0, finished.stderr
    assert finished.stdout.strip() == "equal"


def test_dask_arrays_are_told_how():
    xr = pytest.importorskip("xarray")
    pytest.importorskip("dask")
    lazy = xr.DataArray(np.linspace(20, 30, 40), dims="t").chunk(t=10)
    with pytest.raises(hm.HalimedaTypeError, match="apply_ufunc"):
        hm.Water(temperature_celsius=lazy, practical_salinity=35.0)
