"""The map of the settings: regions by their first fault, labelled where they are."""

from __future__ import annotations

from textwrap import fill
from typing import TYPE_CHECKING, Any

import numpy as np

from .style import INK, MID, pyplot

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from .._core import WindowMap

__all__ = ["window"]

# Code of a cell inside every limit.
GOOD = -1
# Margin of a cell that cannot be judged.
UNKNOWN = -9.0
# Hatches tell the regions apart without colour; white is good.
HATCHES = ["....", "xxxx", "////", "++", "oo", "**", "\\\\\\\\", "||||", "OO", "----"]
GREYS = ["#f2f2f2", "#e6e6e6", "#ececec", "#e0e0e0", "#f2f2f2"]
GREYS += ["#d8d8d8", "#e6e6e6", "#ececec", "#dcdcdc", "#e9e9e9"]
# Regions smaller than this share of the map are named in the margin only.
LABELLED = 0.02
# Letters of a label on one line, so that it fits a narrow region.
WORDS = 16


def _edges(values: Any) -> Any:
    """Borders of cells around their values."""
    v = np.asarray(values, dtype=float)
    if len(v) == 1:
        return np.array([v[0] - 0.5, v[0] + 0.5])
    middle = 0.5 * (v[1:] + v[:-1])
    return np.concatenate([[2 * v[0] - middle[0]], middle, [2 * v[-1] - middle[-1]]])


def _under(codes: Any, margins: Any) -> Any:
    """What lies under the border: a good cell by a bad one has the fault of its worst neighbour.

    The border runs between the middles of cells, so that it cuts these; white covers the rest.
    """
    height, width = codes.shape
    padded = np.pad(codes, 1, constant_values=GOOD)
    worst = np.pad(margins, 1, constant_values=np.inf)
    out, least = codes.copy(), np.full(codes.shape, np.inf)
    for up in (0, 1, 2):
        for right in (0, 1, 2):
            beside = padded[up : up + height, right : right + width]
            margin = worst[up : up + height, right : right + width]
            take = (codes == GOOD) & (beside != GOOD) & (margin < least)
            out[take], least[take] = beside[take], margin[take]
    return out


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


def _beside(x: float, y: float) -> dict[str, str]:
    """Where a label stands to a place, given in shares of the axes, so that the frame holds it."""
    across = "left" if x < 0.1 else "right" if x > 0.9 else "center"
    upwards = "bottom" if y < 0.04 else "top" if y > 0.96 else "center"
    return {"ha": across, "va": upwards}


def window(result: WindowMap) -> Figure:
    """Draw a map of the settings: white is inside every limit, hatched regions carry their fault.

    The dark line is where the first limit is met; the thin dashed line lies one standard
    uncertainty inside it.
    """
    plt = pyplot()
    codes = np.asarray(result.codes)
    margins = np.nan_to_num(np.asarray(result.margins), nan=UNKNOWN)
    x, y = np.asarray(result.x), np.asarray(result.y)
    xe, ye = _edges(x), _edges(y)
    good = codes == GOOD
    # One border for shading and line: where the margin, interpolated between cells, is zero. Maps
    # of one row or column have cells alone.
    bordered = min(codes.shape) > 1 and bool(good.any())
    shaded = _under(codes, margins) if bordered else codes
    xb, yb = np.concatenate([xe[:1], x, xe[-1:]]), np.concatenate([ye[:1], y, ye[-1:]])
    border = np.pad(margins, 1, mode="edge")
    fig: Figure
    fig, ax = plt.subplots(figsize=(8.0, 6.0), layout="constrained")
    legend = []

    def place(iy: int, ix: int) -> tuple[tuple[float, float], dict[str, str]]:
        across, upwards = (x[ix] - xe[0]) / (xe[-1] - xe[0]), (y[iy] - ye[0]) / (ye[-1] - ye[0])
        # A label at the frame keeps a little off it.
        kept = (min(max(across, 0.015), 0.985), min(max(upwards, 0.012), 0.988))
        return kept, _beside(*kept)

    for code, name in [*enumerate(result.faults), (-2, "cannot be judged"), (-3, "not judged")]:
        mask, painted = codes == code, shaded == code
        share = float(mask.mean())
        if not mask.any():
            continue
        hatch = HATCHES[code] if code >= 0 else ""
        face = GREYS[code] if code >= 0 else "#bbbbbb"
        for row in range(len(y)):
            spans = np.flatnonzero(np.diff(np.concatenate([[0], painted[row].astype(int), [0]])))
            for start, stop in zip(spans[::2], spans[1::2], strict=True):
                ax.fill_between(
                    [xe[start], xe[stop]], ye[row], ye[row + 1],
                    facecolor=face, edgecolor="#b0b0b0", hatch=hatch, lw=0.0,
                )  # fmt: skip
        if share >= LABELLED:
            where, beside = place(*_heart(mask))
            ax.annotate(
                fill(name, WORDS), where, xycoords="axes fraction", **beside,
                fontsize=10, color=INK, multialignment="center",
                bbox={"boxstyle": "round,pad=0.25", "fc": "white", "ec": "none", "alpha": 0.9},
            )  # fmt: skip
        else:
            legend.append(name)
    if bordered:
        ax.contourf(xb, yb, border, [0.0, border.max() + 1.0], colors=["white"], zorder=1.5)
    if good.any():
        where, beside = place(*_heart(good))
        ax.annotate(
            "good", where, xycoords="axes fraction", **beside,
            fontsize=13, fontweight="bold", color=INK,
        )  # fmt: skip
    dashed = ""
    if bordered:
        ax.contour(xb, yb, border, [0.0], colors=INK, linewidths=1.8)
        if (margins[good] > 1.0).any():
            dashed = " Dashed: one standard uncertainty inside."
            ax.contour(xb, yb, border, [1.0], colors=INK, linewidths=0.9, linestyles="dashed")
    ax.set_xlim(xe[0], xe[-1])
    ax.set_ylim(ye[0], ye[-1])
    ax.set_xlabel(result.x_title)
    ax.set_ylabel(result.y_title)
    fig.suptitle(result.title, fontsize=12, fontweight="bold")
    ax.set_title(result.conditions, fontsize=9)
    small = f" Also met, in a corner: {', '.join(legend)}." if legend else ""
    white = "White: inside every limit" if good.any() else "No setting here is inside every limit"
    fig.supxlabel(
        f"{white} at best values.{dashed}{small}",
        fontsize=8.5,
        color=MID,
    )
    plt.close(fig)
    return fig
