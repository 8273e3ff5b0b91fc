"""The timeline of a session: what each part, each gun and the hands do, from begin to end."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from .style import INK, MID, PALE, number, pyplot

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from .._core import Plan, PlanStep

__all__ = ["plan"]

MINUTE, HOUR = 60.0, 3600.0
# A stretch in which nothing but waiting happens is drawn this long at most, and marked.
LONGEST_WAIT = 2.5 * HOUR
# Of the people who share a gun, so many have a row.
MOST_PEOPLE = 6
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


class _Clock:
    """Time on paper: long waits in which nobody works are cut short."""

    def __init__(self, steps: list[PlanStep]) -> None:
        work = sorted((s.start.to("s"), s.end.to("s")) for s in steps if s.is_work)
        end = max(s.end.to("s") for s in steps)
        self.cuts: list[tuple[float, float]] = []
        self.begins = [0.0]
        busy = 0.0
        for start, stop in [*work, (end, end)]:
            if start - busy > LONGEST_WAIT:
                # Something is kept on both sides, so that the wait is seen to begin and to end.
                self.cuts.append((busy + 0.6 * LONGEST_WAIT, start - 0.4 * LONGEST_WAIT))
                self.begins.append(start)
            busy = max(busy, stop)
        self.end = self(end)

    def __call__(self, seconds: float) -> float:
        gone = sum(max(0.0, min(seconds, stop) - start) for start, stop in self.cuts)
        return seconds - gone


def _clock(seconds: float) -> str:
    minutes = round(seconds / MINUTE)
    days, rest = divmod(minutes, 1440)
    text = f"{rest // 60}:{rest % 60:02d}"
    return f"day {days + 1}\n{text}" if days else text


def _said(seconds: float) -> str:
    for unit, size in (("d", 24 * HOUR), ("h", HOUR), ("min", MINUTE)):
        if seconds >= 1.95 * size:
            return f"{number(seconds / size)} {unit}"
    return f"{number(seconds)} s"


def _bar(ax: Axes, clock: _Clock, step: PlanStep, row: float) -> None:
    face, edge, hatch, height = LOOKS[step.what]
    left, right = clock(step.start.to("s")), clock(step.end.to("s"))
    ax.barh(
        row, right - left, left=left, height=height, facecolor=face, edgecolor=edge,
        hatch=hatch, lw=0.8 if edge == INK else 0.0, zorder=2 if edge == INK else 1,
    )  # fmt: skip


def _ticks(ax: Axes, clock: _Clock) -> None:
    from matplotlib.ticker import FixedLocator, FuncFormatter, MultipleLocator

    if clock.cuts:
        # Where the work goes on after each long wait.
        begins = {clock(real): _clock(real) for real in clock.begins}
        ax.xaxis.set_major_locator(FixedLocator(list(begins)))
        ax.xaxis.set_major_formatter(FuncFormatter(lambda at, _: begins.get(at, "")))
        return
    steps = (5 * MINUTE, 10 * MINUTE, 15 * MINUTE, 30 * MINUTE, HOUR, 2 * HOUR, 4 * HOUR, 8 * HOUR)
    step = next((s for s in steps if clock.end / s <= 10), 24 * HOUR)
    ax.xaxis.set_major_locator(MultipleLocator(step))
    ax.xaxis.set_major_formatter(FuncFormatter(lambda at, _: _clock(at)))


def _users(result: Plan) -> list[int]:
    """Who sprays with the first gun, which has the most users."""
    return [p for p in range(1, result.people + 1) if (p - 1) % result.guns == 0]


def _crew(result: Plan) -> str:
    """How many people with how many guns."""
    guns = "1 gun" if result.guns == 1 else f"{result.guns} guns"
    return f"{result.people} people, {guns}"


def plan(result: Plan) -> Figure:
    """Draw the timeline of a session.

    A row for each layer on the part of the first person, one for the gun that has the most users,
    and one for each further person who shares it, up to six in all. Black is spraying, hatched is
    other handwork, grey is a part that dries: the planned wait, upper ends taken. A wait of hours
    is cut short.
    """
    plt = pyplot()
    from matplotlib.layout_engine import ConstrainedLayoutEngine
    from matplotlib.patches import Patch

    users = _users(result)
    unseen = len(users[MOST_PEOPLE:])
    steps = [s for s in result.steps if s.person in users]
    clock = _Clock(steps)
    layers = [layer.name for layer in result.layers]
    the_gun = "gun 1" if result.people > 1 else "the gun"
    labels = [*layers, the_gun, *(f"person {p}" for p in users[1:MOST_PEOPLE])]
    fig: Any
    fig, ax = plt.subplots(
        figsize=(9.0, 1.9 + 0.42 * len(labels)), layout=ConstrainedLayoutEngine(h_pad=0.06)
    )
    for step in steps:
        if step.person == 1 and (step.gun is None or step.what == "spray"):
            _bar(ax, clock, step, float(layers.index(step.layer)))
        if step.gun is not None and step.what != "hand over":
            _bar(ax, clock, step, float(len(layers)))
        if step.person in users[1:MOST_PEOPLE] and step.is_work:
            _bar(ax, clock, step, float(len(layers) + users.index(step.person)))
    for start, stop in clock.cuts:
        at = clock(start)
        ax.axvspan(at - 120, at + 120, color="white", zorder=3)
        for side in (at - 120, at + 120):
            ax.axvline(side, color=INK, lw=0.8, ls=(0, (1, 1.5)), zorder=4)
        ax.annotate(
            f"{_said(stop - start)} more", (at, -0.62), ha="center", va="bottom", fontsize=8.5,
            color=INK, annotation_clip=False,
        )  # fmt: skip
    for row, layer in enumerate(result.layers):
        own = [s for s in steps if s.person == 1 and s.layer == layer.name]
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
        alike = f"; {unseen} more take turns at gun 1{alike}"
    ax.set_xlabel(f"hours and minutes from the begin{alike}")
    ax.spines[["top", "right", "left"]].set_visible(False)
    ax.tick_params(left=False)
    ax.grid(axis="x", color=PALE, lw=0.6)
    ax.set_axisbelow(True)
    seen = {s.what for s in steps}
    handles = [
        Patch(
            facecolor=LOOKS[what][0],
            edgecolor=LOOKS[what][1],
            hatch=LOOKS[what][2],
            label=words,
            lw=0.8,
        )
        for what, words in WORDS.items()
        if what in seen or (what == "flash-off" and seen & {"wait", "dry"})
    ]
    fig.legend(
        handles=handles, loc="outside lower center", ncols=len(handles), frameon=False, fontsize=8.5
    )
    total = _said(result.total.to("s"))
    who = f"{_crew(result)}: " if result.people > 1 else ""
    fig.suptitle(result.title, fontsize=12, fontweight="bold")
    ax.set_title(
        f"{who}{total} until the last layer is touch dry; "
        f"{_said(result.total_at_best.to('s'))} if every coat dries as its best value says",
        fontsize=9,
        pad=16 if clock.cuts else 6,
    )
    plt.close(fig)
    figure: Figure = fig
    return figure
