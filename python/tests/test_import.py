"""What importing the package gives, and what it costs."""

import subprocess
import sys
from importlib.metadata import version

import halimeda


def test_version_is_that_of_the_distribution() -> None:
    assert halimeda.__version__ == version("halimeda")


def test_import_leaves_other_packages_alone() -> None:
    # In a process of its own: in this one, tests have imported everything.
    code = (
        "import sys; before = set(sys.modules); import halimeda;"
        "print(*{name.partition('.')[0] for name in set(sys.modules) - before})"
    )
    output = subprocess.run(
        [sys.executable, "-c", code], check=True, capture_output=True, text=True
    ).stdout
    others = set(output.split()) - set(sys.stdlib_module_names)
    assert others == {"halimeda"}
