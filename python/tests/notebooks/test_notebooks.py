"""The notebooks run, and what is kept of them is what a run gives."""

from __future__ import annotations

from pathlib import Path

import pytest

nbformat = pytest.importorskip("nbformat")
nbclient = pytest.importorskip("nbclient")

pytestmark = pytest.mark.notebook

NOTEBOOKS = sorted((Path(__file__).parents[2] / "notebooks").glob("*.ipynb"))
MOST_BYTES = 1_000_000


def code_cells(notebook):
    return [cell for cell in notebook.cells if cell.cell_type == "code"]


def kinds(cell):
    """What a cell shows, without the picture or number itself."""
    return [
        (output.output_type, *sorted(output.get("data", {}))) for output in cell.outputs
    ]


def test_all_three_are_here():
    assert [path.stem[0] for path in NOTEBOOKS] == ["1", "2", "3"]


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)
def test_runs_and_shows_what_it_showed(path):
    kept = nbformat.read(path, as_version=4)
    again = nbformat.read(path, as_version=4)
    for cell in code_cells(again):
        cell.outputs = []
    nbclient.NotebookClient(
        again,
        timeout=600,
        kernel_name="python3",
        resources={"metadata": {"path": path.parent}},
    ).execute()
    for before, after in zip(code_cells(kept), code_cells(again), strict=True):
        assert kinds(before) == kinds(after), before.source


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)
def test_is_kept_small_run_in_order_and_without_complaints(path):
    assert path.stat().st_size < MOST_BYTES
    notebook = nbformat.read(path, as_version=4)
    nbformat.validate(notebook)
    cells = code_cells(notebook)
    assert [cell.execution_count for cell in cells] == list(range(1, len(cells) + 1))
    for cell in cells:
        for output in cell.outputs:
            assert output.output_type != "error"
            assert output.get("name") != "stderr", output.text
            assert "/tmp" not in str(output)
            assert "/root" not in str(output)


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)
def test_says_that_the_tank_is_invented(path):
    notebook = nbformat.read(path, as_version=4)
    assert "invented" in notebook.cells[0].source
    assert any(
        "image/png" in output.get("data", {})
        for cell in code_cells(notebook)
        for output in cell.outputs
    )
