"""Checks an installation of the package beside which there is only numpy.

Run by `cargo xtask test python-install`, in an environment without pytest.
"""

import importlib.util
import pickle
import sys
import sysconfig
from concurrent.futures import ThreadPoolExecutor

import halimeda

OPTIONAL = ["dask", "matplotlib", "pandas", "pint", "polars", "tqdm", "xarray"]


def check_nothing_else_is_needed() -> None:
    present = [name for name in OPTIONAL if importlib.util.find_spec(name)]
    assert not present, f"this environment is not bare: {present}"
    assert "numpy" not in sys.modules, "numpy is imported before it is needed"


def check_many_threads() -> None:
    error = halimeda.HalimedaValueError("pH too high", input="pH", value=15.0)

    def copied(_: int) -> object:
        return pickle.loads(pickle.dumps(error)).value

    with ThreadPoolExecutor(8) as pool:
        assert set(pool.map(copied, range(1000))) == {15.0}


if __name__ == "__main__":
    check_nothing_else_is_needed()
    check_many_threads()
    if sysconfig.get_config_var("Py_GIL_DISABLED"):
        assert not sys._is_gil_enabled(), "importing the package brought the lock back"
    print(f"halimeda {halimeda.__version__} on Python {sys.version}")
