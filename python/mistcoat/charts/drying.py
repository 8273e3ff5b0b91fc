"""One coat as it dries: marks, what is left of each liquid, film temperature, thickness."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from ..errors import RangeError
from .style import INK, MID, PALE, number, pyplot

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from .._core import Drying

Curve = NDArray[np.float64]

# Greys of the liquids from the slowest up; neighbours differ enough for a photocopier.
GREYS = ("#8c8c8c", "#e3e3e3", "#b5b5b5", "#f4f4f4", "#a0a0a0", "#d0d0d0")
# Liquids that never make so much of what arrived, or water so much from the air, get no band.
LEAST_SHARE = 0.01
LEAST_FROM_AIR = 0.025
# Share of the width that the words of a mark take.
WORDS = 0.31
# A course is drawn on a log axis when its end is so many times later than the middle of the loss.
LONG = 10.0
MINUTE, HOUR, DAY = 60.0, 3600.0, 86400.0
LOG_TICKS = (
    0.01, 0.03, 0.1, 0.3, 1, 3, 10, 30, MINUTE, 3 * MINUTE, 10 * MINUTE, 30 * MINUTE, HOUR,
    3 * HOUR, 10 * HOUR, DAY, 3 * DAY, 7 * DAY, 30 * DAY, 100 * DAY, 365 * DAY,
)  # fmt: skip


class Mark(NamedTuple):
    """A moment of the course in seconds, with its range; None when it does not come."""

    name: str
    best: float | None
    low: float = 0.0
    high: float = 0.0


def _duration(seconds: float) -> str:
    """A time as one says it: 40 s, 2.5 min, 3.1 h, 2.0 d."""
    for unit, size in (("d", DAY), ("h", HOUR), ("min", MINUTE)):
        if seconds >= 1.95 * size:
            return f"{number(seconds / size)} {unit}"
    return f"{number(seconds)} s"


def _tick(seconds: float) -> str:
    for unit, size in (("d", DAY), ("h", HOUR), ("min", MINUTE)):
        if seconds >= size:
            return f"{seconds / size:g} {unit}"
    return f"{seconds:g} s"


def _marks(dry: Drying) -> list[Mark]:
    marks = []
    for name, attribute in (
        ("flash-off", "flash_off"),
        ("touch dry", "touch_dry"),
        ("block-free", "handle"),
    ):
        try:
            estimate = getattr(dry, attribute)
        except RangeError as error:
            # "unknown": no such mark for this kind of coat. Else the coat does not get there.
            if error.value != "unknown":
                marks.append(Mark(name, None))
            continue
        low, high = estimate.interval("s")
        marks.append(Mark(name, estimate.to("s"), low, high))
    return marks


def _when(time: Curve, falling: Curve, level: float) -> float | None:
    below = np.flatnonzero(falling <= level)
    return float(time[below[0]]) if below.size else None


def _window(dry: Drying, marks: list[Mark]) -> tuple[float, float, bool]:
    """First and last time to draw, and whether on a log axis."""
    time, left = dry.time_s, dry.solvent_left
    half = _when(time, left, 0.5 * (1 + float(left.min()))) or float(time[-1])
    ends = [mark.high for mark in marks if mark.best is not None]
    late = _when(time, left, 0.01)
    end = 1.15 * max([*ends, float(time[-1]) if late is None else late])
    if end < LONG * half:
        return 0.0, end, False
    start = _when(time, left, 0.98) or float(time[1])
    return min(start, half / 10), 1.3 * end, True


def _axis_of_time(ax: Axes, start: float, end: float, log: bool) -> None:
    from matplotlib.ticker import FixedLocator, FuncFormatter, MaxNLocator, NullLocator

    if log:
        ax.set_xscale("log")
        ax.xaxis.set_major_locator(FixedLocator([t for t in LOG_TICKS if start <= t <= end]))
        ax.xaxis.set_minor_locator(NullLocator())
        ax.xaxis.set_major_formatter(FuncFormatter(lambda value, _: _tick(value)))
        ax.set_xlabel("time from the wet coat, log scale")
    else:
        sizes = (("d", DAY), ("h", HOUR), ("min", MINUTE), ("s", 1.0))
        unit, size = next((u, s) for u, s in sizes if end >= 3 * s or s == 1.0)
        ticks = size * np.asarray(MaxNLocator(8).tick_values(0, end / size), dtype=float)
        ax.xaxis.set_major_locator(FixedLocator(ticks.tolist()))
        ax.xaxis.set_major_formatter(FuncFormatter(lambda value, _: f"{value / size:g}"))
        ax.set_xlabel(f"time from the wet coat, {unit}")
    ax.set_xlim(start, end)


def _strip(ax: Axes, marks: list[Mark], start: float, until: str) -> None:
    """The marks as dots with bars, one line each, the first on top."""
    rows = len(marks)
    for row, mark in enumerate(marks):
        if mark.best is None:
            words = f"not reached while followed ({until})"
            ax.text(0.012, row, words, transform=ax.get_yaxis_transform(), va="center", color=MID)
            continue
        low = max(mark.low, start)
        ax.plot([low, mark.high], [row, row], color=INK, lw=1.4, solid_capstyle="butt")
        ax.plot([mark.high] * 2, [row - 0.2, row + 0.2], color=INK, lw=1.4)
        if low > start or mark.low == start:
            ax.plot([low] * 2, [row - 0.2, row + 0.2], color=INK, lw=1.4)
        ax.plot(mark.best, row, "o", color=INK, ms=6.5, zorder=3)
        words = f"{_duration(mark.best)}  ({_duration(mark.low)} to {_duration(mark.high)})"
        scale = ax.get_xaxis().get_transform().transform
        first, last = (float(scale(x)) for x in ax.get_xlim())
        left, right = ((float(scale(x)) - first) / (last - first) for x in (low, mark.high))
        if right < 1 - WORDS:
            at, offset, side = mark.high, (8, 0), "left"
        elif left > WORDS:
            at, offset, side = low, (-8, 0), "right"
        else:
            at, offset, side = mark.best, (0, 9), "center"
        ax.annotate(
            words, (at, row), xytext=offset, textcoords="offset points", va="center",
            ha=side, fontsize=9, color=INK, zorder=4,
            bbox={"fc": "white", "ec": "none", "pad": 1.0},
        )  # fmt: skip
    ax.set_yticks(range(rows), [mark.name for mark in marks])
    ax.set_ylim(rows - 0.5, -0.75)
    ax.tick_params(left=False, labelbottom=False, bottom=False)
    ax.spines[["top", "right", "left", "bottom"]].set_visible(False)


def _bands(dry: Drying) -> list[tuple[str, Curve, bool]]:
    """Name, share of what arrived, whether it is water from the air; the slowest first."""
    amounts = dry.amounts
    # What a coat brought is there from the start; water from the air is not.
    brought = {n: c for n, c in amounts.items() if c[0] > 0 and c.max() >= LEAST_SHARE}
    time = dry.time_s
    weight = np.diff(np.log(np.maximum(time[1:], 1e-9)))
    late = {name: float((curve[2:] / curve[0] * weight).sum()) for name, curve in brought.items()}
    order = sorted(brought, key=lambda name: -late[name])
    bands = [(name, brought[name], False) for name in order]
    return bands + [
        (n, c, True) for n, c in amounts.items() if c[0] == 0 and c.max() > LEAST_FROM_AIR
    ]


def _left(ax: Axes, dry: Drying, span: tuple[float, float, bool]) -> None:
    """Stacked bands of what is left of each liquid, named where they are thick."""
    start, end, log = span
    grid = np.geomspace(start, end, 800) if log else np.linspace(start, end, 800)
    bottom = np.zeros_like(grid)
    reach = np.linspace(0, 1, grid.size)
    crowded: list[tuple[str, float, float]] = []
    for index, (name, curve, from_air) in enumerate(_bands(dry)):
        thick = 100 * np.interp(grid, dry.time_s, curve)
        top = bottom + thick
        if from_air:
            ax.fill_between(grid, bottom, top, fc="white", ec=MID, hatch="////", lw=0.0)
            name = f"{name} from the air"
        else:
            ax.fill_between(grid, bottom, top, fc=GREYS[index % len(GREYS)], ec=INK, lw=0.7)
        inside = np.where((reach > 0.06) & (reach < 0.8), thick, 0)
        # A name needs room for its height, and for its length to the left and right.
        room = np.array([inside[max(0, i - 90) : i + 90].min() for i in range(grid.size)])
        at = int(room.argmax()) if room.max() > 0 else int(inside.argmax())
        if room[at] > 8:
            ax.text(
                grid[at], (bottom[at] + top[at]) / 2, name, ha="center", va="center", fontsize=9,
                bbox={"fc": "white", "ec": "none", "pad": 1.2, "alpha": 0.85},
            )  # fmt: skip
        elif inside.max() > 0:
            at = int(np.where(inside > 0.6 * inside.max())[0][-1])
            crowded.append((name, float(grid[at]), float((bottom[at] + top[at]) / 2)))
        bottom = top
    ax.plot(grid, 100 * np.interp(grid, dry.time_s, dry.solvent_left), color=INK, lw=1.8)
    # Thin bands are named in the empty corner above the falling curve.
    for row, (name, x, y) in enumerate(sorted(crowded, key=lambda item: -item[2])):
        ax.annotate(
            name, (x, y), xytext=(0.98, 0.93 - 0.11 * row), textcoords="axes fraction", ha="right",
            va="center", fontsize=9, arrowprops={"arrowstyle": "-", "color": INK, "lw": 0.8},
            bbox={"fc": "white", "ec": "none", "pad": 1.2, "alpha": 0.85},
        )  # fmt: skip
    ax.set_ylim(0, max(102.0, 1.04 * float(bottom.max())))
    ax.set_ylabel("left, % of what arrived")
    ax.set_title("Liquids left in the film, by mass", loc="left", fontsize=10.5)


def _room_lines(dry: Drying, end: float) -> tuple[Curve, Curve, Curve]:
    """Times, room temperature and dew point as steps; NaN where air has no dew point."""
    programme = dry.film.programme
    begins = [t.to("s") for t in programme.begins]
    rooms = [room for room, t in zip(programme.rooms, begins, strict=True) if t <= end]
    warm, dew = [], []
    for room in rooms:
        warm.append(room.temperature.to("degC"))
        try:
            dew.append(room.dew_point.to("degC"))
        except RangeError:
            dew.append(np.nan)
    times = [*begins[: len(rooms)], end]
    return np.array(times), np.array([*warm, warm[-1]]), np.array([*dew, dew[-1]])


def _temperature(ax: Axes, dry: Drying, start: float, end: float) -> None:
    time, film = dry.time_s, dry.temperature_degC
    times, warm, dew = _room_lines(dry, end)
    times[0] = start
    ax.step(times, warm, where="post", color=MID, lw=1.2, ls=(0, (6, 3)))
    ax.step(times, dew, where="post", color=INK, lw=1.2, ls=(0, (1, 2)))
    ax.plot(time, film, color=INK, lw=1.8)
    under = np.interp(time, times, dew)
    if np.any(film < under):
        ax.fill_between(
            time, film, under, where=film < under, fc="none", ec=INK, hatch="xxxx", lw=0
        )
        at = int((under - film).argmax())
        ax.annotate(
            "dew: risk of blush", (time[at], (film[at] + under[at]) / 2), xytext=(34, 0),
            textcoords="offset points", va="center", fontsize=9,
            bbox={"fc": "white", "ec": "none", "pad": 1.0},
            arrowprops={"arrowstyle": "-", "color": INK, "lw": 0.8},
        )  # fmt: skip
    apart = warm[-1] - dew[-1] > 0.2 * (float(film.max()) - float(np.nanmin([film.min(), *dew])))
    for level, words, above in ((warm[-1], "room", True), (dew[-1], "dew point", apart)):
        if np.isfinite(level):
            ax.annotate(
                f"{words} {level:.1f} °C", (1, level), xycoords=("axes fraction", "data"),
                xytext=(-4, 4 if above else -4), textcoords="offset points", ha="right",
                va="bottom" if above else "top", fontsize=9,
            )  # fmt: skip
    low = float(np.nanmin([film.min(), *dew]))
    high = float(np.nanmax([film.max(), *warm]))
    room = max(high - low, 2.0)
    ax.set_ylim(low - 0.12 * room, high + 0.28 * room)
    ax.set_ylabel("°C")
    ax.set_title("Film temperature", loc="left", fontsize=10.5)


def _thickness(ax: Axes, dry: Drying, start: float) -> None:
    time, thick = dry.time_s, dry.thickness_um
    ax.plot(np.append(time, 1e12), np.append(thick, thick[-1]), color=INK, lw=1.8)
    build = dry.film.dry_build.to("um")
    if build > 0:
        ax.axhspan(0, build, color=PALE, lw=0, zorder=0)
        ax.annotate(
            f"dry film {number(build)} µm", (0.012, build), xycoords=("axes fraction", "data"),
            xytext=(0, 3), textcoords="offset points", va="bottom", fontsize=9,
        )  # fmt: skip
    ax.set_ylim(0, 1.12 * float(thick.max()))
    ax.set_ylabel("µm")
    ax.set_title("Film thickness", loc="left", fontsize=10.5)


def drying(dry: Drying) -> Figure:
    """Draw the course of one coat.

    On top the marks (flash-off, touch dry, block-free) as dots with bars that hold the true value
    with 95 % as far as the stated causes go; thin lines carry them down. Below, what is left of
    each liquid, stacked, the slowest at the bottom; the film temperature against that of the room
    and the dew point; and the thickness. Time is on a log axis when the end is much later than the
    loss of the first half.
    """
    plt = pyplot()
    from matplotlib.layout_engine import ConstrainedLayoutEngine

    marks = _marks(dry)
    start, end, log = _window(dry, marks)
    fig: Any
    fig, axes = plt.subplots(
        4,
        1,
        figsize=(8.0, 8.6),
        sharex=True,
        height_ratios=[0.42 * len(marks) + 0.1, 3.0, 1.7, 1.3],
        layout=ConstrainedLayoutEngine(hspace=0.03),
    )
    strip, left, temperature, thickness = axes
    _axis_of_time(thickness, start, end, log)
    _strip(strip, marks, start, _tick(float(dry.time_s[-1])))
    _left(left, dry, (start, end, log))
    _temperature(temperature, dry, start, end)
    _thickness(thickness, dry, start)
    for ax in (left, temperature, thickness):
        ax.set_xlim(start, end)
        ax.spines[["top", "right"]].set_visible(False)
        ax.grid(axis="y", color=PALE, lw=0.6)
        ax.set_axisbelow(True)
    for ax in axes:
        for mark in marks:
            if mark.best is not None:
                ax.axvline(mark.best, color=INK, lw=0.7, ls=(0, (2, 2)), zorder=1.5)
    film = dry.film
    volatile = film.volatile.name
    what = f" of {volatile}" if volatile else ""
    solids = f"{film.solids} solids, " if film.solids.to("%") > 0 else ""
    fig.suptitle(
        f"{film.wet_thickness} wet film{what} on {film.substrate}\n",
        fontsize=12,
        fontweight="bold",
    )
    fig.text(0.5, 0.966, f"{solids}{film.room}", ha="center", va="top", fontsize=9.5)
    fig.supxlabel(
        "Dots: best value. Bars: 95 % range, as far as the stated causes go.",
        fontsize=8.5,
        color=MID,
    )
    plt.close(fig)
    figure: Figure = fig
    return figure
