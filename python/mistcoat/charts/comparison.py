"""Thinning ratios side by side: viscosity, cup seconds, dry film, flash-off."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from .style import INK, MID, PALE, number, pyplot

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from .._core import Comparison


def _with_bars(
    ax: Axes,
    column: dict[str, list[Any]],
    key: str,
    sound: tuple[float, float] | None = None,
    missing: str = "no\nanswer",
) -> None:
    """Best values as dots, intervals as bars; hollow outside ``sound``, words when ``missing``."""
    for i, best in enumerate(column[key]):
        if best is None:
            ax.annotate(
                missing, (i, 0.5), xycoords=("data", "axes fraction"), ha="center", color=MID
            )
            continue
        low, high = column[f"{key}_low"][i], column[f"{key}_high"][i]
        if low is not None and high is not None:
            ax.plot([i, i], [low, high], color=INK, lw=1.4, solid_capstyle="butt")
            for end in (low, high):
                ax.plot([i - 0.07, i + 0.07], [end, end], color=INK, lw=1.4)
        inside = sound is None or sound[0] <= best <= sound[1]
        ax.plot(i, best, "o", color=INK, mfc=INK if inside else "white", mew=1.4, ms=7, zorder=3)
        ax.annotate(
            number(best),
            (i, best),
            xytext=(9, 0),
            textcoords="offset points",
            va="center",
            color=INK,
        )


def _plain_log(ax: Axes) -> None:
    """A log axis with the numbers people read: 2, 5, 10, 20, 50."""
    from matplotlib.ticker import FuncFormatter, LogLocator, NullFormatter, NullLocator

    ax.set_yscale("log")
    low, high = ax.get_ylim()
    steps = (1.0, 2.0, 5.0) if high < 300 * low else (1.0,)
    ax.yaxis.set_major_locator(LogLocator(base=10, subs=steps))
    ax.yaxis.set_minor_locator(NullLocator())
    ax.yaxis.set_major_formatter(FuncFormatter(lambda value, _: f"{value:g}"))
    ax.yaxis.set_minor_formatter(NullFormatter())


def _viscosity(ax: Axes, result: Comparison, data: dict[str, list[Any]]) -> None:
    _with_bars(ax, data, "viscosity_mPa_s")
    _plain_log(ax)
    ax.set_ylabel("viscosity, mPa·s")
    ax.set_title("How thick the mix is", loc="left", fontsize=10.5)


def _seconds(ax: Axes, result: Comparison, data: dict[str, list[Any]]) -> None:
    low, high = result.cup_range_s or (0.0, 0.0)
    _with_bars(ax, data, "efflux_time_s", sound=(low, high))
    seen = [v for v in data["efflux_time_s_high"] if v is not None]
    if max([*seen, high]) > 3 * high:  # a paste among thin mixes: keep the thin ones readable
        _plain_log(ax)
        top, place = high, ("bottom", 3)
    else:
        place = ("top", -4)
        top = min(high, 1.15 * max([*seen, low * 1.3]))
        ax.set_ylim(0, 1.15 * max([*seen, low * 1.3]))
    ax.axhspan(low, top, color=PALE, lw=0, zorder=0)
    ax.annotate(
        f"range of this cup: {low:g} to {high:g} s",
        (0.98, top), xycoords=("axes fraction", "data"), ha="right", va=place[0],
        xytext=(0, place[1]), textcoords="offset points", fontsize=8.5, color=INK,
    )  # fmt: skip
    ax.set_ylabel("seconds")
    ax.set_title(f"Seconds in the cup: {result.cup}", loc="left", fontsize=10.5)


def _film(ax: Axes, result: Comparison, data: dict[str, list[Any]]) -> None:
    dry = data["dry_film_um"]
    ax.bar(range(len(dry)), dry, width=0.5, color=PALE, edgecolor=INK, lw=1.0)
    lows, highs = data.get("dry_film_um_low", dry), data.get("dry_film_um_high", dry)
    for i, (best, low, high) in enumerate(zip(dry, lows, highs, strict=True)):
        low, high = (low, high) if low is not None and high is not None else (best, best)
        ax.plot([i, i], [low, high], color=INK, lw=1.4, solid_capstyle="butt")
        for end in {low, high} - {best}:
            ax.plot([i - 0.07, i + 0.07], [end, end], color=INK, lw=1.4)
        ax.annotate(number(best), (i, best), xytext=(8, 3), textcoords="offset points")
    ax.margins(y=0.1)
    ax.set_ylim(bottom=0)
    ax.set_ylabel("dry film, µm")
    ax.set_title(f"What a coat of {result.coat} leaves", loc="left", fontsize=10.5)


def _flash_off(ax: Axes, result: Comparison, data: dict[str, list[Any]]) -> None:
    _with_bars(ax, data, "flash_off_s", missing="never")
    ax.set_ylabel("flash-off, s")
    ax.set_ylim(bottom=0)
    ax.set_title("Flash-off: 90 % of the volatiles gone", loc="left", fontsize=10.5)


def comparison(result: Comparison, *, titled: bool = True) -> Figure:
    """Draw the panels of a comparison: viscosity, cup seconds, dry film, flash-off.

    Dots are best values, hollow where the cup is outside its range; bars hold the true value with
    95 % as far as the stated causes go. Without a cup the panel of seconds is left out. ``titled``
    puts paint, thinner and conditions on top; a page that says them already leaves them out.
    """
    plt = pyplot()
    from matplotlib.layout_engine import ConstrainedLayoutEngine

    data = result.columns()
    ratios = [f"{r:g}" for r in data["thinner_parts_per_paint_part"]]
    panels = [_viscosity, _seconds, _film, _flash_off]
    if result.cup is None:
        panels.remove(_seconds)
    rows = (len(panels) + 1) // 2
    fig: Figure
    fig, axes = plt.subplots(
        rows,
        2,
        figsize=(9.0, 3.6 * rows + 0.8),
        layout=ConstrainedLayoutEngine(hspace=0.06, wspace=0.04),
    )
    if titled:
        fig.suptitle(f"{result.title}\n\n", fontsize=12, fontweight="bold")
        fig.text(0.5, 0.957, result.conditions, ha="center", va="top", fontsize=9.5)
    hollow = "" if result.cup is None else " Hollow: outside the range of the cup."
    fig.supxlabel(
        f"Dots: best value.{hollow} Bars: 95 % range, as far as the stated causes go.",
        fontsize=8.5,
        color=MID,
    )
    flat = list(axes.flat)
    for ax in flat[len(panels) :]:
        ax.set_visible(False)
    for ax, panel in zip(flat, panels, strict=False):
        panel(ax, result, data)
        ax.set_xticks(range(len(ratios)), ratios)
        ax.set_xlim(-0.5, len(ratios) - 0.25)
        ax.set_xlabel("parts of thinner to 1 part of paint, by volume")
        ax.spines[["top", "right"]].set_visible(False)
        ax.grid(axis="y", color=PALE, lw=0.6)
        ax.set_axisbelow(True)
    plt.close(fig)
    return fig
