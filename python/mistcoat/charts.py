"""Charts of results. Needs matplotlib (``pip install mistcoat[charts]``); nothing else here does.

Drawn in black and greys with shapes and words instead of colours, so that they print on any club
printer and read the same to everyone.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from ._core import Comparison

__all__ = ["comparison"]

INK = "#111111"
PALE = "#d9d9d9"
MID = "#777777"


def _pyplot() -> Any:
    try:
        import matplotlib.pyplot as plt
    except ImportError as error:  # pragma: no cover - depends on the installation
        raise ImportError("charts need matplotlib: pip install 'mistcoat[charts]'") from error
    return plt


def _with_bars(ax: Axes, column: dict[str, list[Any]], key: str) -> None:
    """Best values as dots, intervals as bars; rows without an answer stay empty."""
    for i, best in enumerate(column[key]):
        if best is None:
            ax.annotate(
                "no\nanswer", (i, 0.5), xycoords=("data", "axes fraction"), ha="center", color=MID
            )
            continue
        low, high = column[f"{key}_low"][i], column[f"{key}_high"][i]
        if low is not None and high is not None:
            ax.plot([i, i], [low, high], color=INK, lw=1.4, solid_capstyle="butt")
            for end in (low, high):
                ax.plot([i - 0.07, i + 0.07], [end, end], color=INK, lw=1.4)
        ax.plot(i, best, "o", color=INK, ms=7, zorder=3)
        ax.annotate(
            f"{best:.3g}",
            (i, best),
            xytext=(9, 0),
            textcoords="offset points",
            va="center",
            color=INK,
        )


def comparison(result: Comparison) -> Figure:
    """Draw the four panels of a comparison: viscosity, cup seconds, dry film, flash-off.

    Dots are best values, bars hold the true value with 95 % as far as the stated causes go.
    """
    plt = _pyplot()
    data = result.columns()
    ratios = [f"{r:g}" for r in data["thinner_parts_per_paint_part"]]
    has_cup = any(v is not None for v in data["efflux_time_s"])
    panels = ["viscosity", "cup", "film", "flash"] if has_cup else ["viscosity", "film", "flash"]
    fig, axes = plt.subplots(2, 2, figsize=(9.0, 7.0), layout="constrained")
    fig.suptitle(result.title, fontsize=11.5, fontweight="bold", wrap=True)
    flat = list(axes.flat)
    for ax in flat[len(panels) :]:
        ax.set_visible(False)
    for ax, panel in zip(flat, panels, strict=False):
        if panel == "viscosity":
            _with_bars(ax, data, "viscosity_mPa_s")
            ax.set_yscale("log")
            ax.set_ylabel("viscosity, mPa·s")
            ax.set_title("How thin it is", loc="left", fontsize=10.5)
        elif panel == "cup":
            low, high = result.cup_range_s
            ax.axhspan(low, high, color=PALE, lw=0, zorder=0)
            ax.annotate(
                f"range of this cup, {low:.0f} to {high:.0f} s",
                (0.98, high), xycoords=("axes fraction", "data"), ha="right", va="bottom",
                fontsize=8.5, color=MID,
            )  # fmt: skip
            _with_bars(ax, data, "efflux_time_s")
            ax.set_ylabel("seconds")
            ax.set_title(f"Seconds in the {result.cup} cup", loc="left", fontsize=10.5)
            ax.set_ylim(bottom=0)
        elif panel == "film":
            dry = data["dry_film_um"]
            ax.bar(range(len(dry)), dry, width=0.5, color=PALE, edgecolor=INK, lw=1.0)
            for i, best in enumerate(dry):
                ax.annotate(
                    f"{best:.3g}", (i, best), xytext=(0, 3), textcoords="offset points", ha="center"
                )
            ax.margins(y=0.15)
            ax.set_ylabel("dry film, µm")
            ax.set_title(f"What a {result.wet_film} wet coat leaves", loc="left", fontsize=10.5)
        else:
            _with_bars(ax, data, "flash_off_s")
            ax.set_ylabel("flash-off, s")
            ax.set_ylim(bottom=0)
            ax.set_title(
                "Wait before the next coat (90 % of the volatiles gone)", loc="left", fontsize=10.5
            )
        ax.set_xticks(range(len(ratios)), ratios)
        ax.set_xlim(-0.5, len(ratios) - 0.35)
        ax.set_xlabel("parts of thinner to 1 part of paint, by volume")
        ax.spines[["top", "right"]].set_visible(False)
        ax.grid(axis="y", color=PALE, lw=0.6)
        ax.set_axisbelow(True)
    plt.close(fig)
    return fig
