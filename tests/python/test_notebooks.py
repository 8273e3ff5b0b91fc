"""Every lesson is committed without outputs and runs from top to bottom."""

from __future__ import annotations

from pathlib import Path

import nbformat
import pytest
from nbclient import NotebookClient

LESSONS = sorted((Path(__file__).parents[2] / "notebooks").glob("*.ipynb"))


def test_there_are_lessons() -> None:
    assert LESSONS


@pytest.mark.parametrize("path", LESSONS, ids=lambda p: p.stem)
def test_lesson_runs(path: Path) -> None:
    notebook = nbformat.read(path, as_version=4)
    nbformat.validate(notebook)
    for cell in notebook.cells:
        assert not cell.get("outputs"), "commit lessons without outputs: clear them and save"
    NotebookClient(notebook, timeout=300, kernel_name="python3").execute()
