"""The timeline of a session as a drawing inside a page: SVG, no scripts, no outside files."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from ..timeline import DRYING, HOUR, MINUTE, Clock, clock_time, gun_name, rows, said

if TYPE_CHECKING:
    from .._core import Plan

__all__ = ["svg"]

# In tenths of a millimetre, so that the drawing is as wide as an A4 page has room.
WIDTH, LEFT, ROW = 1840.0, 330.0, 62.0
TALL, LOW = 40.0, 22.0
PATTERNS = """<defs>
<pattern id="mix" width="9" height="9" patternUnits="userSpaceOnUse">
<circle cx="3" cy="3" r="2"/></pattern>
<pattern id="mask" width="9" height="9" patternUnits="userSpaceOnUse"
 patternTransform="rotate(-45)">
<path d="M0 0V9" stroke="#000" stroke-width="3"/></pattern>
<pattern id="rinse" width="9" height="9" patternUnits="userSpaceOnUse"
 patternTransform="rotate(45)">
<path d="M0 0V9" stroke="#000" stroke-width="3"/></pattern>
<pattern id="cross" width="9" height="9" patternUnits="userSpaceOnUse">
<path d="M0 0L9 9M9 0L0 9" stroke="#000" stroke-width="1.6"/></pattern></defs>"""
# Face and height of each kind of step.
LOOKS: dict[str, tuple[str, float]] = {
    "mix": ("url(#mix)", TALL),
    "mask": ("url(#mask)", TALL),
    "spray": ("#000", TALL),
    "hand over": ("#fff", LOW),
    "flash-off": ("#ccc", LOW),
    "wait": ("#ccc", LOW),
    "dry": ("#ccc", LOW),
    "rinse": ("url(#rinse)", TALL),
    "clean up": ("url(#cross)", TALL),
}
LEGEND = {
    "mix": "mix",
    "mask": "mask",
    "spray": "spray",
    "hand over": "hand over",
    "wait": "part dries",
    "rinse": "rinse",
    "clean up": "clean up",
}
STEPS = (5 * MINUTE, 10 * MINUTE, 15 * MINUTE, 30 * MINUTE, HOUR, 2 * HOUR, 4 * HOUR, 8 * HOUR)


def _text(x: float, y: float, words: str, anchor: str = "start", size: float = 27.0) -> str:
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}" font-size="{size:g}">'
        f"{escape(words)}</text>"
    )


def _box(x: float, y: float, width: float, what: str) -> str:
    face, height = LOOKS[what]
    edge = "" if what in DRYING else ' stroke="#000" stroke-width="1.6"'
    return (
        f'<rect x="{x:.1f}" y="{y - height / 2:.1f}" width="{max(width, 2.0):.1f}" '
        f'height="{height:g}" fill="{face}"{edge}/>'
    )


def _fit(name: str) -> str:
    """A label of a row, cut where it would run into the drawing."""
    return name if len(name) <= 24 else name[:23] + "…"


def _axis(clock: Clock, x: Scale, top: float, bottom: float) -> list[str]:
    few = 7 if clock.cuts else 10
    step = next((s for s in STEPS if clock.end / s <= few), 24 * HOUR)
    parts, real, last = [], 0.0, -1.0
    while clock(real) <= clock.end:
        place = clock(real)
        cut = any(start < real < stop for start, stop in clock.cuts)
        if not cut and (last < 0.0 or place - last > 0.6 * step):
            at = x(place)
            parts.append(
                f'<path d="M{at:.1f} {top - 8:.1f}V{bottom:.1f}" stroke="#bbb" stroke-width="1.2"/>'
            )
            parts.append(_text(at, bottom + 32, clock_time(real), "middle", 24))
            last = place
        real += step
    return parts


class Scale:
    """Seconds on paper to tenths of a millimetre."""

    def __init__(self, end: float) -> None:
        self.per_second = (WIDTH - LEFT - 30.0) / max(end, 1.0)

    def __call__(self, seconds: float) -> float:
        return LEFT + seconds * self.per_second


def svg(plan: Plan) -> str:
    """Draw the timeline of a plan.

    A row for each layer on the first person's part, one for the gun with the most users, one for
    each further person who shares it, up to six in all. A wait of hours is cut short and marked.
    """
    labels, placed, unseen = rows(plan)
    clock = Clock([step for _, step in placed])
    x = Scale(clock.end)
    # Room for the words over a wait that is cut short.
    top = 74.0 if clock.cuts else 14.0
    bottom = top + ROW * len(labels)
    parts = [PATTERNS, *_axis(clock, x, top, bottom)]
    for row, label in enumerate(labels):
        parts.append(_text(LEFT - 16, top + ROW * (row + 0.5) + 9, _fit(label), "end"))
    line = top + ROW * len(plan.layers)
    parts.append(f'<path d="M0 {line:.1f}H{WIDTH:g}" stroke="#555" stroke-width="1.6"/>')
    # What dries lies under what is done.
    for row, step in sorted(placed, key=lambda p: p[1].what not in DRYING):
        left, right = x(clock(step.start.to("s"))), x(clock(step.end.to("s")))
        parts.append(_box(left, top + ROW * (row + 0.5), right - left, step.what))
    for start, stop in clock.cuts:
        at = x(clock(start))
        parts.append(
            f'<rect x="{at - 6:.1f}" y="{top - 8:.1f}" width="12" height="{bottom - top + 8:.1f}" '
            'fill="#fff"/>'
        )
        parts += [
            f'<path d="M{side:.1f} {top - 8:.1f}V{bottom:.1f}" stroke="#000" stroke-width="1.8" '
            'stroke-dasharray="5 5"/>'
            for side in (at - 6, at + 6)
        ]
        parts.append(_text(at, top - 18, f"{said(stop - start)} more", "middle", 24))
    seen = {"wait" if s.what in DRYING else s.what for _, s in placed}
    place, below = LEFT, bottom + 78
    for what, words in LEGEND.items():
        if what in seen:
            parts.append(_box(place, below, 44, what))
            parts.append(_text(place + 54, below + 9, words, size=25))
            place += 84 + 15.5 * len(words)
    parts.append(_text(LEFT - 46, bottom + 32, "from the begin", "end", 24))
    if unseen:
        words = f"{unseen} more take turns at {gun_name(plan)}"
        below += 44
        parts.append(_text(LEFT, below + 9, words, size=25))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH:g} {below + 30:.0f}" '
        'role="img" '
        f'aria-label="Timeline" font-family="Helvetica, Arial, sans-serif">{"".join(parts)}</svg>'
    )
