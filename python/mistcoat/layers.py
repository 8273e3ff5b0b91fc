"""What is in this bottle, what may meet what, and which order of coats works.

Verdicts are "fine", "test first" or "no", each with reasons, sources and the trial on scrap that
settles it. What rests on common practice says so.

>>> import mistcoat as mc
>>> print(mc.layers.coat_over_coat("solvent lacquer", "artists' oil").verdict)
no
"""

from __future__ import annotations

from ._core import (
    Identification,
    Judgement,
    Layer,
    PaintTest,
    StackCheck,
    check_stack,
    cleaner_with_paint,
    coat_over_coat,
    identification_tests,
    identify,
    thinner_on_substrate,
    thinner_with_paint,
)

__all__ = [
    "Identification",
    "Judgement",
    "Layer",
    "PaintTest",
    "StackCheck",
    "check_stack",
    "cleaner_with_paint",
    "coat_over_coat",
    "identification_tests",
    "identify",
    "thinner_on_substrate",
    "thinner_with_paint",
]
