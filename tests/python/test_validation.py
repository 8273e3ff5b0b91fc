"""The plot of evaporation rates and the report: current, complete."""

from __future__ import annotations

import hashlib
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
DOCS = ROOT / "docs"


def test_the_script_draws_the_committed_picture(tmp_path: Path) -> None:
    image = pytest.importorskip("matplotlib.image")
    target = tmp_path / "rates.png"
    subprocess.run([sys.executable, str(DOCS / "evaporation_rates.py"), str(target)], check=True)
    drawn, committed = image.imread(target), image.imread(DOCS / "evaporation-rates.png")
    assert drawn.shape == committed.shape
    # Fonts differ between versions of the library; points and band do not move.
    assert abs(drawn - committed).mean() < 0.02


def test_the_picture_is_of_the_committed_points() -> None:
    checksum = hashlib.sha256((DOCS / "evaporation-rates.csv").read_bytes()).hexdigest()
    png = (DOCS / "evaporation-rates.png").read_bytes()
    assert checksum.encode() in png, (
        "stale: run 'python docs/evaporation_rates.py' and commit the picture"
    )


def test_the_report_names_the_picture_and_every_source() -> None:
    text = (DOCS / "validation.md").read_text(encoding="utf-8")
    assert "](evaporation-rates.png)" in text
    head, sources = text.split("## Sources")
    listed = len([line for line in sources.splitlines() if line.split(".")[0].isdigit()])
    cited = {
        int(line.rsplit("|", 2)[1])
        for line in head.splitlines()
        if line.endswith(" |") and line.rsplit("|", 2)[1].strip().isdigit()
    }
    assert cited == set(range(1, listed + 1))
    assert listed > 50
