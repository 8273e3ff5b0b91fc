"""Self-contained HTML pages of results: no scripts, no outside files, ready to print."""

from __future__ import annotations

import base64
import html
import io
import re
from typing import TYPE_CHECKING

from . import charts

if TYPE_CHECKING:
    from ._core import Comparison, ComparisonRow, Table

__all__ = ["comparison"]

STYLE = """
body { font: 15px/1.45 Georgia, 'Times New Roman', serif; color: #111; background: #fff;
       max-width: 80rem; margin: 2rem auto; padding: 0 1rem; }
h1 { font-size: 1.5rem; margin-bottom: .2rem; } h2 { font-size: 1.1rem; margin-top: 2rem; }
table { font: 13px/1.4 'Helvetica Neue', Arial, sans-serif; margin: .8rem 0; }
.scroll { overflow-x: auto; } img { max-width: 100%; height: auto; }
.mind li { margin: .25rem 0; } .caution { border: 2px solid #111; padding: .4rem 1rem; }
details { margin: .6rem 0; } summary { cursor: pointer; font-weight: bold; }
.mistcoat-working h4 { font-weight: normal; font-style: italic; margin: .4rem 0; }
.mistcoat-working li { margin: .35rem 0; }
code { font-size: .92em; } footer { margin-top: 2rem; color: #555; font-size: .85rem; }
@media print {
  @page { size: A4 landscape; margin: 12mm; }
  body { margin: 0; padding: 0; font-size: 10pt; } .scroll { overflow: visible; }
  h2 { margin-top: 1.2rem; } footer { margin-top: 1rem; }
  table { font-size: 7.5pt; } th { white-space: normal !important; }
  th, td { padding: .25em .45em !important; }
  table, img, .caution, li { break-inside: avoid; } h2 { break-after: avoid; }
  img { max-height: 155mm; display: block; margin: 0 auto; }
  .working:not(:has(details[open])), details:not([open]) { display: none; }
}
"""


def _image(result: Comparison) -> str:
    buffer = io.BytesIO()
    charts.comparison(result, titled=False).savefig(buffer, format="png", dpi=150)
    data = base64.b64encode(buffer.getvalue()).decode("ascii")
    alt = f"Chart of the comparison: {html.escape(result.title)}"
    return f'<img alt="{alt}" src="data:image/png;base64,{data}">'


def _list(items: list[str], css: str) -> str:
    inner = "".join(f"<li>{html.escape(item)}</li>" for item in items)
    return f'<ul class="{css}">{inner}</ul>'


def _bare(table: Table) -> str:
    """The table without caption and notes, which the page sets by itself."""
    text = table._repr_html_()
    text = text[: text.index("</table>") + len("</table>")]
    return re.sub(r"<caption.*?</caption>", "", text, count=1, flags=re.DOTALL)


def _working(result: Comparison, row: ComparisonRow) -> str:
    """The working of one ratio, folded away."""
    ratio = row.thinner_per_paint
    part = "part" if ratio == 1 else "parts"
    return (
        f"<details><summary>{ratio:g} {part} of thinner to 1 part of paint</summary>"
        f"{result.working(ratio).to_html()}</details>"
    )


def comparison(result: Comparison, checks: Table | None = None, note: str = "") -> str:
    """Page of a comparison: table, chart, what to mind, cautions, the working of every number.

    ``checks`` is a further table shown under the comparison, ``note`` a sentence under the title.
    """
    parts = [
        "<!doctype html><html lang='en'><head><meta charset='utf-8'>",
        "<meta name='viewport' content='width=device-width'>",
        f"<title>{html.escape(result.title)}</title><style>{STYLE}</style></head><body>",
        f"<h1>{html.escape(result.title)}</h1><p>{html.escape(result.conditions)}.</p>",
        f"<p><em>{html.escape(note)}</em></p>" if note else "",
        f"<div class='scroll'>{_bare(result.table())}</div>",
        _image(result),
        "<h2>What to mind</h2>",
        _list([n for n in result.table().notes if n not in result.cautions], "mind"),
        "<h2>Before you open a bottle</h2>",
        f"<div class='caution'>{_list(result.cautions, 'cautions')}</div>",
    ]
    if checks is not None:
        parts += [
            "<h2>Does the law hold for a real paint?</h2>",
            f"<p>{html.escape(checks.caption)}.</p>",
            f"<div class='scroll'>{_bare(checks)}</div>",
            _list(checks.notes, "mind"),
        ]
    parts += [
        "<section class='working'><h2>The working: formulas with their numbers and sources</h2>",
        *(_working(result, row) for row in result.rows),
        "</section>",
        "<footer>Computed by mistcoat. Ranges hold the true value with 95 %, as far as the stated "
        "causes go.</footer></body></html>",
    ]
    return "\n".join(parts)
