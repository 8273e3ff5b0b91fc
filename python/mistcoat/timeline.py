"""How the timeline of a session is told and laid out, for charts and cards alike."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ._core import Plan, PlanStep

__all__ = [
    "DRYING",
    "HOUR",
    "MINUTE",
    "Clock",
    "clock_time",
    "crew",
    "gun_name",
    "number",
    "planned",
    "rows",
    "said",
    "summary",
    "users",
    "visit_times",
    "visits",
]

MINUTE, HOUR = 60.0, 3600.0
# A stretch in which nothing but waiting happens is drawn this long at most, and marked.
LONGEST_WAIT = 2.5 * HOUR
# Of the people who share a gun, so many have a row.
MOST_PEOPLE = 6
# Nobody's hands are busy: the part dries.
DRYING = frozenset({"flash-off", "wait", "dry"})


class Clock:
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
        """Seconds from the begin as seconds on paper."""
        gone = sum(max(0.0, min(seconds, stop) - start) for start, stop in self.cuts)
        return seconds - gone


def number(value: float) -> str:
    """Two digits below ten, whole numbers above: 0.49, 4.0, 38."""
    return f"{value:.0f}" if value >= 9.95 else f"{value:#.2g}"


def clock_time(seconds: float) -> str:
    """Hours and minutes from the begin, under the day where there are several."""
    minutes = round(seconds / MINUTE)
    days, rest = divmod(minutes, 1440)
    text = f"{rest // 60}:{rest % 60:02d}"
    return f"day {days + 1}\n{text}" if days else text


def said(seconds: float) -> str:
    """A time as one says it: 40 s, 2.5 min, 3.2 h, 5.1 d."""
    for unit, size in (("d", 24 * HOUR), ("h", HOUR), ("min", MINUTE)):
        if seconds >= 1.95 * size:
            return f"{number(seconds / size)} {unit}"
    return f"{number(seconds)} s"


def users(plan: Plan) -> list[int]:
    """Who sprays with the first gun, which has the most users."""
    return [p for p in range(1, plan.people + 1) if (p - 1) % plan.guns == 0]


def crew(plan: Plan) -> str:
    """How many people with how many guns."""
    if plan.people == 1:
        return "one person"
    guns = "1 gun" if plan.guns == 1 else f"{plan.guns} guns"
    return f"{plan.people} people, {guns}"


def gun_name(plan: Plan) -> str:
    """The gun that is shown: with a number where there are several, however many share it."""
    return "gun 1" if plan.guns > 1 else "the gun"


def _range(values: tuple[float, float, float]) -> str:
    """Best value and range in one unit, that of the high end."""
    best, low, high = values
    sizes = (("d", 24 * HOUR), ("h", HOUR), ("min", MINUTE), ("s", 1.0))
    unit, size = next(((u, s) for u, s in sizes if high >= 1.95 * s), sizes[-1])
    best, low, high = (value / size for value in (best, low, high))
    return f"{number(best)} {unit} ({number(low)} to {number(high)} {unit})"


def visits(plan: Plan) -> str:
    """How long people are at the bench, and in how many visits."""
    bench = f"{said(plan.bench_time.to('s'))} at the bench"
    return f"{bench} in {len(plan.visits)} visits" if len(plan.visits) > 1 else bench


def visit_times(plan: Plan) -> str:
    """When people come and go, where they do so more than once; else nothing."""
    if len(plan.visits) < 2:
        return ""
    each = (" to ".join(clock_time(t.to("s")) for t in visit) for visit in plan.visits)
    return f"At the bench from {', '.join(each)}.".replace("\n", " ")


def planned(plan: Plan) -> str:
    """Time at the bench, and time until the end where that is more."""
    end = said(plan.planned.to("s"))
    bench = visits(plan)
    return bench if bench == f"{end} at the bench" else f"{bench}, {end} in all"


def summary(plan: Plan) -> tuple[str, str]:
    """What is planned, and what it takes by best values."""
    sure = _range((plan.total.to("s"), *plan.total.interval("s")))
    return (
        f"{planned(plan)} until the last layer is touch dry",
        f"waits are upper ends; at best values it takes {sure}",
    )


def rows(plan: Plan) -> tuple[list[str], list[tuple[int, PlanStep]], int]:
    """Labels of the rows, every step with its row, and how many people have none.

    A row for each layer on the part of the first person, one for the gun that has the most users,
    and one for each further person who shares it, up to six in all.
    """
    sharing = users(plan)
    shown = sharing[:MOST_PEOPLE]
    layers = [layer.name for layer in plan.layers]
    labels = [*layers, gun_name(plan), *(f"person {p}" for p in shown[1:])]
    placed: list[tuple[int, PlanStep]] = []
    for step in plan.steps:
        if step.person not in sharing:
            continue
        if step.person == 1 and (step.gun is None or step.what == "spray"):
            placed.append((layers.index(step.layer), step))
        if step.gun is not None:
            placed.append((len(layers), step))
        if step.person in shown[1:] and step.is_work:
            placed.append((len(layers) + shown.index(step.person), step))
    return labels, placed, len(sharing) - len(shown)
