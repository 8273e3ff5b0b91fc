"""The timeline of a session: what each part, each gun and the hands do, from begin to end."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ..timeline import (
    DRYING,
    HOUR,
    MINUTE,
    Clock,
    clock_time,
    crew,
    gun_name,
    rows,
    said,
    summary,
)
from .style import INK, MID, PALE, pyplot

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from .._core import Plan, PlanStep

__all__ = ["plan"]

# How each kind of step looks: face, edge, hatch, height.
LOOKS: dict[str, tuple[str, str, str, float]] = {
    "mix": ("white", INK, "....", 0.62),
    "mask": ("white", INK, "\\\\\\\\", 0.62),
    "spray": (INK, INK, "", 0.62),
    "hand over": ("white", INK, "", 0.34),
    "flash-off": (PALE, PALE, "", 0.34),
    "wait": (PALE, PALE, "", 0.34),
    "dry": (PALE, PALE, "", 0.34),
    "rinse": ("white", INK, "////", 0.62),
    "clean up": ("white", INK, "xxxx", 0.62),
}
WORDS = {
    "mix": "mix",
    "mask": "mask",
    "spray": "spray",
    "hand over": "hand over",
    "flash-off": "part dries",
    "rinse": "rinse",
    "clean up": "clean up",
}


def _bar(ax: Axes, clock: Clock, step: PlanStep, row: float) -> None:
    face, edge, hatch, height = LOOKS[step.what]
    left, right = clock(step.start.to("s")), clock(step.end.to("s"))
    ax.barh(
        row, right - left, left=left, height=height, facecolor=face, edgecolor=edge,
        hatch=hatch, lw=0.8 if edge == INK else 0.0, zorder=2 if edge == INK else 1,
    )  # fmt: skip


def _ticks(ax: Axes, clock: Clock) -> None:
    from matplotlib.ticker import FixedLocator, FuncFormatter, MultipleLocator

    if clock.cuts:
        # Where the work goes on after each long wait.
        begins = {clock(real): clock_time(real) for real in clock.begins}
        ax.xaxis.set_major_locator(FixedLocator(list(begins)))
        ax.xaxis.set_major_formatter(FuncFormatter(lambda at, _: begins.get(at, "")))
        return
    steps = (5 * MINUTE, 10 * MINUTE, 15 * MINUTE, 30 * MINUTE, HOUR, 2 * HOUR, 4 * HOUR, 8 * HOUR)
    step = next((s for s in steps if clock.end / s <= 10), 24 * HOUR)
    ax.xaxis.set_major_locator(MultipleLocator(step))
    ax.xaxis.set_major_formatter(FuncFormatter(lambda at, _: clock_time(at)))


def plan(result: Plan) -> Figure:
    """Draw the timeline of a session.

    A row for each layer on the part of the first person, one for the gun that has the most users,
    and one for each further person who shares it, up to six in all. Black is spraying, hatched is
    other handwork, grey is a part that dries: the planned wait, upper ends taken. A wait of hours
    is cut short. Above it: time at the bench, without waits of more than 2 h; time until the end;
    and how sure that is.
    """
    plt = pyplot()
    from matplotlib.layout_engine import ConstrainedLayoutEngine
    from matplotlib.patches import Patch

    labels, placed, unseen = rows(result)
    clock = Clock([step for _, step in placed])
    layers = [layer.name for layer in result.layers]
    fig: Any
    fig, ax = plt.subplots(
        figsize=(9.0, 1.9 + 0.42 * len(labels)), layout=ConstrainedLayoutEngine(h_pad=0.06)
    )
    for row, step in placed:
        _bar(ax, clock, step, float(row))
    for start, stop in clock.cuts:
        at = clock(start)
        ax.axvspan(at - 120, at + 120, color="white", zorder=3)
        for side in (at - 120, at + 120):
            ax.axvline(side, color=INK, lw=0.8, ls=(0, (1, 1.5)), zorder=4)
        ax.annotate(
            f"{said(stop - start)} more", (at, -0.62), ha="center", va="bottom", fontsize=8.5,
            color=INK, annotation_clip=False,
        )  # fmt: skip
    for row, layer in enumerate(result.layers):
        own = [step for at, step in placed if at == row]
        last = max(clock(s.end.to("s")) for s in own)
        words = f"{layer.passes} passes, {layer.coats} coats" if layer.coats > 1 else ""
        words = words or f"{layer.passes} passes"
        first = min(clock(s.start.to("s")) for s in own)
        left = first > clock.end * 0.6
        ax.annotate(
            words, (first if left else last, row), xytext=(-5 if left else 5, 0),
            textcoords="offset points", va="center", ha="right" if left else "left", fontsize=8.5,
            color=INK, zorder=5, bbox={"fc": "white", "ec": "none", "pad": 0.8},
        )  # fmt: skip
    ax.axhline(len(layers) - 0.5, color=MID, lw=0.7)
    ax.set_yticks(range(len(labels)), labels)
    ax.set_ylim(len(labels) - 0.4, -0.6)
    ax.set_xlim(0, clock.end * 1.01)
    _ticks(ax, clock)
    alike = "; the other guns go alike" if result.guns > 1 else ""
    if unseen:
        alike = f"; {unseen} more take turns at {gun_name(result)}{alike}"
    ax.set_xlabel(f"hours and minutes from the begin{alike}")
    ax.spines[["top", "right", "left"]].set_visible(False)
    ax.tick_params(left=False)
    ax.grid(axis="x", color=PALE, lw=0.6)
    ax.set_axisbelow(True)
    seen = {step.what for _, step in placed}
    handles = [
        Patch(
            facecolor=LOOKS[what][0],
            edgecolor=LOOKS[what][1],
            hatch=LOOKS[what][2],
            label=words,
            lw=0.8,
        )
        for what, words in WORDS.items()
        if what in seen or (what == "flash-off" and seen & DRYING)
    ]
    fig.legend(
        handles=handles, loc="outside lower center", ncols=len(handles), frameon=False, fontsize=8.5
    )
    when, sure = summary(result)
    who = f"{crew(result)}: " if result.people > 1 else ""
    fig.suptitle(result.title, fontsize=12, fontweight="bold")
    ax.set_title(f"{who}{when}\n{sure}", fontsize=9, pad=16 if clock.cuts else 6)
    plt.close(fig)
    figure: Figure = fig
    return figure
