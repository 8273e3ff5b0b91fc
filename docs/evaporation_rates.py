"""Draws evaporation-rates.png: published relative evaporation rates against computed ones.

The points stand in evaporation-rates.csv, which `UPDATE=1 cargo test --test validation` writes.
Run this by hand after that: python docs/evaporation_rates.py. The picture carries the checksum of
its points; tests/python/test_validation.py compares it.
"""

from __future__ import annotations

import csv
import hashlib
import math
import sys
from pathlib import Path

import matplotlib

matplotlib.use("Agg")
import matplotlib.pyplot as plt

HERE = Path(__file__).parent
BAND = 1.22  # the model's root mean square factor against rates seen in a source
NAMED = 1.45  # points further off than this carry their name
SCALES = {
    "n-butyl acetate = 1": (
        "Filter paper, dry air, 25 °C",
        "relative rate, n-butyl acetate = 1 (faster →)",
    ),
    "diethyl ether = 1": (
        "Spot on paper, 50 % humidity, 23 °C",
        "evaporation number, diethyl ether = 1 (slower →)",
    ),
}


def checksum() -> str:
    """Of the points."""
    return hashlib.sha256((HERE / "evaporation-rates.csv").read_bytes()).hexdigest()


def points(scale: str) -> list[tuple[str, float, float, bool]]:
    """Name, published, computed, seen in a source."""
    with (HERE / "evaporation-rates.csv").open(encoding="utf-8", newline="") as file:
        rows = [r for r in csv.DictReader(file) if r["scale"] == scale]
    return [
        (r["solvent"], float(r["published"]), float(r["computed"]), r["provenance"] == "published")
        for r in rows
    ]


def panel(ax: plt.Axes, scale: str) -> None:
    """One scale: band, points, names of the outliers."""
    found = points(scale)
    values = [v for _, x, y, _ in found for v in (x, y)]
    low, high = min(values) / 1.6, max(values) * 1.6
    ax.fill_between(
        [low, high],
        [low / BAND, high / BAND],
        [low * BAND, high * BAND],
        color="0.88",
        lw=0,
        label=f"factor {BAND}",
    )
    ax.plot([low, high], [low, high], color="0.4", lw=0.9)
    for seen, style in ((True, {"mfc": "0.15"}), (False, {"mfc": "white"})):
        xy = [(x, y) for _, x, y, s in found if s == seen]
        label = f"{'seen in a source' if seen else 'from memory'} ({len(xy)})"
        ax.plot(
            *zip(*xy, strict=True),
            "o",
            ms=4.6,
            mec="0.15",
            mew=0.9,
            ls="",
            label=label,
            zorder=3,
            **style,
        )
    # One name for each liquid, at its worst point.
    worst: dict[str, tuple[float, float]] = {}
    for name, x, y, _ in found:
        off = abs(math.log(y / x))
        if off > math.log(NAMED) and off > abs(
            math.log(worst[name][1] / worst[name][0]) if name in worst else 0
        ):
            worst[name] = (x, y)
    # Names stand in a column at the empty side, a line leads to the point.
    for above in (True, False):
        last = math.inf
        for name, (x, y) in sorted(worst.items(), key=lambda item: -item[1][1]):
            if (y > x) != above:
                continue
            height = math.log(y / low) / math.log(high / low) + (0.10 if above else -0.10)
            last = min(height, last - 0.042)
            ax.annotate(
                name,
                (x, y),
                xytext=(0.03 if above else 0.98, last),
                textcoords="axes fraction",
                ha="left" if above else "right",
                va="center",
                fontsize=7.5,
                arrowprops={
                    "arrowstyle": "-",
                    "color": "0.55",
                    "lw": 0.6,
                    "shrinkB": 3,
                    "relpos": (1 if above else 0, 0.5),
                },
                bbox={"fc": "white", "ec": "none", "pad": 0.6},
            )
    title, axis = SCALES[scale]
    ax.set(xscale="log", yscale="log", xlim=(low, high), ylim=(low, high), title=title)
    ax.set(xlabel=f"published {axis}", ylabel="computed by the drying engine")
    ax.set_aspect("equal")
    ax.legend(loc="lower right", frameon=False, fontsize=8)
    ax.grid(visible=True, which="major", color="0.92", lw=0.6)
    ax.set_axisbelow(True)
    ax.spines[["top", "right"]].set_visible(False)


def draw(target: Path) -> None:
    """Both panels into one PNG."""
    plt.rcParams.update({"font.size": 9, "axes.titlesize": 10})
    figure, axes = plt.subplots(1, 2, figsize=(11, 5.6), layout="constrained")
    for ax, scale in zip(axes, SCALES, strict=True):
        panel(ax, scale)
    figure.savefig(target, dpi=150, metadata={"Software": None, "Source": checksum()})
    plt.close(figure)


if __name__ == "__main__":
    draw(Path(sys.argv[1]) if len(sys.argv) > 1 else HERE / "evaporation-rates.png")
