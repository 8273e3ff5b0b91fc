"""Cards and sheets of a session, ready to print: no scripts, no outside files, readable in grey.

>>> import mistcoat as mc
>>> green = mc.Paint.typical("solvent lacquer", name="hull green")
>>> gun = mc.Airbrush(nozzle="0.3 mm", pressure="20 psi", distance="80 mm")
>>> room = mc.Room(temperature="21 degC", relative_humidity="50 %")
>>> setup = mc.Setup(green, "n-butyl acetate", airbrush=gun, room=room, substrate="wood")
>>> hull = mc.PlanLayer(setup, "base coat", area="250 cm2", shade="deep green")
>>> cards = mc.plan([hull], cleaner="acetone").card("A6")
>>> len(cards)  # face and back of one card
2
>>> "local codes and licensed practice decide" in cards.html()
True
"""

from __future__ import annotations

from html import escape
from pathlib import Path
from typing import TYPE_CHECKING

from ..errors import DataError, UnknownName
from . import pages, style

if TYPE_CHECKING:
    from os import PathLike

    from .._core import Plan

__all__ = ["Cards", "of_plan"]


class Cards:
    """Pages of one size of paper, made by ``Plan.card``.

    ``html()`` is the whole document, ``save(path)`` writes it for a browser to print at its size,
    and a notebook shows it. Each has face and back, and none is without its cautions: ``DataError``
    otherwise.
    """

    def __init__(self, title: str, size: str, made: list[list[str]], cautions: list[str]) -> None:
        whole = [
            bool(cautions) and all(escape(text) in "".join(card) for text in cautions)
            for card in made
        ]
        if not (whole and all(whole)):
            raise DataError("a card without its cautions: make cards from a whole plan")
        self.title = title
        """What stands in the title of the document."""
        self.size = size
        """Size of the paper: "A6", "A4" or "Letter"."""
        self._pages = [page for card in made for page in card]

    def __len__(self) -> int:
        return len(self._pages)

    def html(self) -> str:
        """The whole document, with its style in it."""
        body = "".join(f"<section class='page'>{page}</section>" for page in self._pages)
        return (
            "<!doctype html><html lang='en'><head><meta charset='utf-8'>"
            f"<title>{escape(self.title)}</title><style>{style.css(self.size)}</style></head>"
            f"<body>{body}</body></html>"
        )

    def save(self, path: str | PathLike[str]) -> Path:
        """Write the document to a file and return where it is."""
        file = Path(path)
        file.write_text(self.html(), encoding="utf-8")
        return file

    def _repr_html_(self) -> str:
        # In a frame of its own, so that its style and its paper stay inside.
        _, height, _ = style.SIZES[self.size]
        tall = min(1.15 * height, 200.0)
        return (
            f'<iframe title="{escape(self.title)}" srcdoc="{escape(self.html())}" '
            f'style="width:100%;height:{tall:.0f}mm;border:1px solid #999"></iframe>'
        )

    def __repr__(self) -> str:
        return f"<Cards {self.size}: {self.title}, {len(self)} pages>"


def of_plan(plan: Plan, size: str = "A6") -> Cards:
    """Cards ("A6": face and back for each layer) or the sheet ("A4", "Letter") of a plan."""
    names = {name.lower(): name for name in style.SIZES}
    found = names.get(str(size).strip().lower())
    if found is None:
        near = ", ".join(style.SIZES)
        raise UnknownName(
            f"unknown size of card {size!r}; use one of {near}: A6 for the bench, A4 or Letter "
            "for the session",
            str(size),
            list(style.SIZES),
        )
    made = pages.bench_cards(plan) if found == "A6" else pages.sheet(plan)
    return Cards(plan.title, found, made, [c.text for c in plan.cautions])
