"""Watching and stopping what takes long."""

import concurrent.futures
import itertools
import os
import pickle
import signal
import subprocess
import sys
import textwrap
import threading

import pytest

import halimeda as hm


@pytest.fixture(scope="module")
def tank():
    return hm.example_tank()


def test_a_callable_is_told_how_far_a_run_is(tank):
    told = []
    tank.simulate(days=700, progress=told.append)
    assert len(told) >= 2
    assert all(a.done <= b.done for a, b in itertools.pairwise(told))
    last = told[-1]
    assert (last.done, last.total, last.unit, last.share) == (700.0, 700.0, "d", 1.0)


def test_an_ensemble_tells_the_days_of_all_members(tank):
    told = []
    tank.ensemble(days=20, members=4, progress=told.append)
    assert told[-1].total == 80.0
    assert told[-1].share == 1.0


def test_an_exception_of_the_callable_stops_the_run(tank):
    class Enough(Exception):
        pass

    def stop(progress):
        raise Enough(progress.done)

    with pytest.raises(Enough) as caught:
        tank.simulate(days=3000, progress=stop)
    assert caught.value.args[0] < 3000.0
    with pytest.raises(Enough):
        tank.ensemble(days=300, members=64, progress=stop)


def test_a_bar_is_shown_on_standard_error(tank, capfd):
    pytest.importorskip("tqdm")
    tank.simulate(days=300, progress=True)
    assert "Invented reef" in capfd.readouterr().err


def test_without_a_bar_a_line_is_shown(tank, capfd, monkeypatch):
    monkeypatch.setitem(sys.modules, "tqdm.auto", None)
    tank.simulate(days=300, progress=True)
    shown = capfd.readouterr().err
    assert "Invented reef: 100 %" in shown


def test_other_kinds_of_progress_are_refused(tank):
    with pytest.raises(hm.HalimedaTypeError, match="progress"):
        tank.simulate(days=1, progress="yes")


@pytest.mark.skipif(sys.platform == "win32", reason="sends a signal of POSIX")
@pytest.mark.parametrize(
    "work",
    [
        "tank.simulate(days=36525, relative_tolerance=1e-12)",
        "tank.ensemble(days=3660, members=4096)",
        "tank.plan(days=3660)",
    ],
)
def test_ctrl_c_stops_it(work):
    program = textwrap.dedent(
        f"""
        import halimeda as hm, time, sys
        tank = hm.example_tank()
        begun = []
        def tell(progress):
            if not begun:
                begun.append(True)
                print("begun", flush=True)
        try:
            {work.removesuffix(")")}, progress=tell)
        except KeyboardInterrupt:
            print("stopped", flush=True)
        """
    )
    process = subprocess.Popen(
        [sys.executable, "-c", program], stdout=subprocess.PIPE, text=True
    )
    try:
        assert process.stdout.readline() == "begun\n"
        os.kill(process.pid, signal.SIGINT)
        # Left alone each of these goes on for minutes.
        out, _ = process.communicate(timeout=20)
    finally:
        process.kill()
    assert out == "stopped\n"
    assert process.returncode == 0


def test_runs_in_threads_do_not_wait_for_each_other(tank):
    """While one run is at work another thread of the interpreter goes on."""
    steps = 0
    finished = threading.Event()

    def follow():
        tank.simulate(days=1500)
        finished.set()

    thread = threading.Thread(target=follow)
    thread.start()
    while not finished.is_set():
        steps += 1
        finished.wait(0.001)
    thread.join()
    assert steps > 5
    with concurrent.futures.ThreadPoolExecutor(4) as pool:
        runs = list(
            pool.map(
                lambda hours: tank.replace(lit_hours=hours).simulate(30), (6, 9, 12, 15)
            )
        )
    alone = [tank.replace(lit_hours=hours).simulate(30) for hours in (6, 9, 12, 15)]
    assert runs == alone


def test_a_run_does_not_wait_for_a_plan(tank):
    """All cores are busy with an ensemble, which one run beside it does not wait for."""
    begun, stop = threading.Event(), threading.Event()

    class Stopped(Exception):
        pass

    def tell(progress):
        begun.set()
        if stop.is_set():
            raise Stopped

    def follow():
        with pytest.raises(Stopped):
            tank.ensemble(days=3660, members=4096, progress=tell)

    thread = threading.Thread(target=follow)
    thread.start()
    try:
        assert begun.wait(60)
        tank.simulate(days=5)
        assert thread.is_alive()
    finally:
        stop.set()
        thread.join()


def _members(pickled):
    tank = pickle.loads(pickled)
    return tank.ensemble(days=5, members=2).outcome("night_ph").p50


@pytest.mark.skipif(not hasattr(os, "fork"), reason="has no fork")
def test_a_forked_process_does_not_wait_for_threads_it_has_not(tank):
    import multiprocessing

    expected = _members(pickle.dumps(tank))
    context = multiprocessing.get_context("fork")
    with context.Pool(1) as pool:
        result = pool.apply_async(_members, (pickle.dumps(tank),))
        assert result.get(timeout=60) == expected
