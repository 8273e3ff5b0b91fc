"""Self-contained HTML pages of results: no scripts, no outside files, ready to print."""

from __future__ import annotations

import base64
import html
import io
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ._core import Comparison, Table

__all__ = ["comparison"]

STYLE = """
body { font: 15px/1.45 Georgia, 'Times New Roman', serif; color: #111; background: #fff;
       max-width: 68rem; margin: 2rem auto; padding: 0 1rem; }
h1 { font-size: 1.5rem; margin-bottom: .2rem; } h2 { font-size: 1.1rem; margin-top: 2rem; }
table { font: 13px/1.4 'Helvetica Neue', Arial, sans-serif; margin: .8rem 0; }
.scroll { overflow-x: auto; } img { max-width: 100%; height: auto; }
.mind li { margin: .25rem 0; } .caution { border: 2px solid #111; padding: .4rem 1rem; }
details { margin: 1rem 0; } summary { cursor: pointer; font-weight: bold; }
code { font-size: .92em; } footer { margin-top: 2rem; color: #555; font-size: .85rem; }
@media print { body { margin: 0; } details { display: none; } }
"""


def _image(result: Comparison) -> str:
    buffer = io.BytesIO()
    result.chart().savefig(buffer, format="png", dpi=150)
    data = base64.b64encode(buffer.getvalue()).decode("ascii")
    alt = f"Chart of the comparison: {html.escape(result.title)}"
    return f'<img alt="{alt}" src="data:image/png;base64,{data}">'


def _list(items: list[str], css: str) -> str:
    inner = "".join(f"<li>{html.escape(item)}</li>" for item in items)
    return f'<ul class="{css}">{inner}</ul>'


def _bare(table: Table) -> str:
    """The table without its notes, which the page sets by itself."""
    text = table._repr_html_()
    return text[: text.index("</table>") + len("</table>")]


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
        f"<div class='scroll'>{_bare(result.table)}</div>",
        _image(result),
        "<h2>What to mind</h2>",
        _list([n for n in result.table.notes if n not in result.cautions], "mind"),
        "<h2>Before you open a bottle</h2>",
        f"<div class='caution'>{_list(result.cautions, 'cautions')}</div>",
    ]
    if checks is not None:
        parts += [
            "<h2>Does the law hold for a real paint?</h2>",
            f"<div class='scroll'>{_bare(checks)}</div>",
            _list(checks.notes, "mind"),
        ]
    parts += [
        f"<details><summary>The working: every formula with its numbers and sources</summary>"
        f"{result.working().to_html()}</details>",
        "<footer>Computed by mistcoat. Ranges hold the true value with 95 %, as far as the stated "
        "causes go.</footer></body></html>",
    ]
    return "\n".join(parts)
