"""The map of the settings: regions by their first fault, labelled where they are."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from .style import INK, MID, pyplot

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from .._core import WindowMap

__all__ = ["window"]

# Hatches tell the regions apart without colour; white is good.
HATCHES = ["....", "xxxx", "////", "++", "oo", "**", "\\\\\\\\", "||||", "OO", "----"]
GREYS = ["#f2f2f2", "#e6e6e6", "#ececec", "#e0e0e0", "#f2f2f2"]
GREYS += ["#d8d8d8", "#e6e6e6", "#ececec", "#dcdcdc", "#e9e9e9"]
# Regions smaller than this share of the map are named in the margin only.
SMALL = 0.004
LABELLED = 0.02


def _edges(values: Any) -> Any:
    """Borders of cells around their values."""
    v = np.asarray(values, dtype=float)
    if len(v) == 1:
        return np.array([v[0] - 0.5, v[0] + 0.5])
    middle = 0.5 * (v[1:] + v[:-1])
    return np.concatenate([[2 * v[0] - middle[0]], middle, [2 * v[-1] - middle[-1]]])


def _heart(mask: Any) -> tuple[int, int]:
    """A cell well inside a region: the one that survives most peelings."""
    inside = np.pad(mask, 1)
    last = inside
    while inside.any():
        last = inside
        inside = (
            inside[1:-1, 1:-1]
            & inside[:-2, 1:-1]
            & inside[2:, 1:-1]
            & inside[1:-1, :-2]
            & inside[1:-1, 2:]
        )
        inside = np.pad(inside, 1)
    rows, columns = np.nonzero(last[1:-1, 1:-1])
    middle = np.argmin((rows - rows.mean()) ** 2 + (columns - columns.mean()) ** 2)
    return int(rows[middle]), int(columns[middle])


def window(result: WindowMap) -> Figure:
    """Draw a map of the settings: white is inside every limit, hatched regions carry their fault.

    The dark line is where the first limit is met; the thin dashed line lies one standard
    uncertainty inside it.
    """
    plt = pyplot()
    codes, margins = np.asarray(result.codes), np.asarray(result.margins)
    x, y = np.asarray(result.x), np.asarray(result.y)
    xe, ye = _edges(x), _edges(y)
    fig: Figure
    fig, ax = plt.subplots(figsize=(8.0, 6.0), layout="constrained")
    legend = []
    for code, name in [*enumerate(result.faults), (-2, "cannot be judged"), (-3, "not judged")]:
        mask = codes == code
        share = float(mask.mean())
        if share < SMALL:
            continue
        hatch = HATCHES[code] if code >= 0 else ""
        face = GREYS[code] if code >= 0 else "#bbbbbb"
        for row in range(len(y)):
            spans = np.flatnonzero(np.diff(np.concatenate([[0], mask[row].astype(int), [0]])))
            for start, stop in zip(spans[::2], spans[1::2], strict=True):
                ax.fill_between(
                    [xe[start], xe[stop]], ye[row], ye[row + 1],
                    facecolor=face, edgecolor="#b0b0b0", hatch=hatch, lw=0.0,
                )  # fmt: skip
        if share >= LABELLED:
            iy, ix = _heart(mask)
            ax.annotate(
                name, (x[ix], y[iy]), ha="center", va="center", fontsize=10, color=INK,
                bbox={"boxstyle": "round,pad=0.25", "fc": "white", "ec": "none", "alpha": 0.9},
            )  # fmt: skip
        else:
            legend.append(name)
    good = codes == -1
    if good.any():
        iy, ix = _heart(good)
        ax.annotate(
            "good", (x[ix], y[iy]), ha="center", va="center",
            fontsize=13, fontweight="bold", color=INK,
        )  # fmt: skip
    dashed = ""
    if min(codes.shape) > 1 and good.any():
        ax.contour(x, y, np.nan_to_num(margins, nan=-9.0), [0.0], colors=INK, linewidths=1.8)
        if (margins[good] > 1.0).any():
            dashed = " Dashed: one standard uncertainty inside."
            ax.contour(
                x, y, np.nan_to_num(margins, nan=-9.0), [1.0],
                colors=INK, linewidths=0.9, linestyles="dashed",
            )  # fmt: skip
    ax.set_xlim(xe[0], xe[-1])
    ax.set_ylim(ye[0], ye[-1])
    ax.set_xlabel(result.x_title)
    ax.set_ylabel(result.y_title)
    fig.suptitle(result.title, fontsize=12, fontweight="bold")
    ax.set_title(result.conditions, fontsize=9)
    small = f" Also met, in a corner: {', '.join(legend)}." if legend else ""
    fig.supxlabel(
        f"White: inside every limit at best values.{dashed}{small}",
        fontsize=8.5,
        color=MID,
    )
    plt.close(fig)
    return fig
