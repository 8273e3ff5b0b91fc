"""From one colour to the next with the least cleaner.

A gun keeps some liquid when it is poured out; each portion of cleaner mixes with it. Several small
equal portions beat one large one, and light colours go before dark ones. The order with the least
cleaner is exact up to 16 colours.

>>> from mistcoat import rinse
>>> bench = rinse.RinseBench(rinse.typical_hold_up("gravity airbrush"), fill="2 mL")
>>> bench.colour_order(["red oxide", "deep green", "cream"]).order  # an invented fishing boat
['cream', 'red oxide', 'deep green']
"""

from __future__ import annotations

from ._core import (
    Change,
    CleanerPrice,
    ColourOrder,
    PricedChange,
    PricedOrder,
    PricedRinse,
    RinseBench,
    Shade,
    Split,
    best_order,
    best_split,
    cheap_then_good,
    cheapest_order,
    cheapest_rinse,
    cleaning_cautions,
    equal_portions,
    fraction_left,
    guns,
    least_cleaner,
    portions_needed,
    typical_hold_up,
    weighed_hold_up,
)

__all__ = [
    "Change",
    "CleanerPrice",
    "ColourOrder",
    "PricedChange",
    "PricedOrder",
    "PricedRinse",
    "RinseBench",
    "Shade",
    "Split",
    "best_order",
    "best_split",
    "cheap_then_good",
    "cheapest_order",
    "cheapest_rinse",
    "cleaning_cautions",
    "equal_portions",
    "fraction_left",
    "guns",
    "least_cleaner",
    "portions_needed",
    "typical_hold_up",
    "weighed_hold_up",
]
