"""How cards look: sizes of paper, and the ink. Black on white, greys only where they may fade."""

from __future__ import annotations

__all__ = ["SIZES", "css"]

# Paper, and what is kept free at its edges, in millimetres: width, height, margin.
SIZES: dict[str, tuple[float, float, float]] = {
    "A6": (105.0, 148.0, 6.0),
    "A4": (210.0, 297.0, 13.0),
    "Letter": (215.9, 279.4, 13.0),
}

COMMON = """
* { box-sizing: border-box; }
body { margin: 0; color: #000; background: #fff;
       font: 9pt/1.35 'Helvetica Neue', Arial, 'Liberation Sans', sans-serif; }
.page { break-after: page; background: #fff; }
.page:last-child { break-after: auto; }
h1 { font-size: 13pt; line-height: 1.15; margin: 0; }
h2 { font-size: 9.5pt; margin: 3mm 0 1mm; border-bottom: .3mm solid #000; break-after: avoid; }
.small { font-size: 7.5pt; color: #222; }
p { margin: .8mm 0; } ul { margin: .5mm 0; padding-left: 4.5mm; } li { margin: .6mm 0; }
table { border-collapse: collapse; width: 100%; }
th { text-align: left; font-size: 7.5pt; font-weight: normal; border-bottom: .3mm solid #000; }
td, th { padding: .5mm 2mm .5mm 0; vertical-align: top; }
td { border-bottom: .15mm solid #999; }
td.n, th.n { text-align: right; white-space: nowrap; }
tr, li, .fit { break-inside: avoid; }
.caution { border: .6mm solid #000; padding: 1.5mm 2mm; break-inside: avoid; }
.caution.long { break-inside: auto; }
.foot { margin-top: 2mm; font-size: 7pt; color: #222; }
svg { display: block; width: 100%; height: auto; }
@page { size: WIDTHmm HEIGHTmm; margin: MARGINmm; }
@media screen {
  body { background: #ddd; padding: 4mm; }
  .page { width: WIDTHmm; min-height: HEIGHTmm; padding: MARGINmm; margin: 0 auto 4mm;
          box-shadow: 0 0 1mm #777; }
}
"""

SMALL = """
.page { display: flex; flex-direction: column; font-size: 9.5pt; }
@media print { .page { min-height: INNERmm; } }
.top { display: flex; justify-content: space-between; font-size: 7pt; color: #222;
       border-bottom: .3mm solid #000; padding-bottom: .8mm; margin-bottom: 1.5mm; }
.job { font-size: 10pt; margin: .3mm 0 0; }
.recipe { border: .4mm solid #000; padding: 1.5mm 2mm; margin: 2mm 0 1mm; }
.recipe .big { font-size: 13pt; font-weight: bold; line-height: 1.25; }
dl { display: grid; grid-template-columns: 17mm 1fr; margin: 0; gap: 1.2mm 1.5mm; }
dt { font-size: 8pt; padding-top: .4mm; } dd { margin: 0; }
dd b { white-space: nowrap; }
.caution { margin-top: auto; font-size: 7.2pt; line-height: 1.28; }
.back { font-size: 6.6pt; line-height: 1.25; } .back h1 { font-size: 9pt; margin-bottom: .8mm; }
.back .caution { margin-top: 0; font-size: inherit; line-height: inherit;
                 padding: 1mm 1.6mm; } .back p { margin: 0 0 .55mm; }
"""

LARGE = """
.head { display: flex; justify-content: space-between; align-items: baseline; gap: 6mm; }
h1 { font-size: 17pt; } .page { font-size: 9pt; } .w { white-space: nowrap; }
.two { columns: 2; column-gap: 7mm; } .two p { margin: 0 0 1.1mm; break-inside: avoid; }
.caution { font-size: 8pt; line-height: 1.3; }
.caution.long { break-inside: avoid; }
"""


def css(size: str) -> str:
    """Style of one size of paper; the size is one of ``SIZES``."""
    width, height, margin = SIZES[size]
    text = COMMON + (SMALL if size == "A6" else LARGE)
    for word, value in (
        ("WIDTH", width),
        ("HEIGHT", height),
        ("MARGIN", margin),
        ("INNER", height - 2 * margin - 0.5),
    ):
        text = text.replace(f"{word}mm", f"{value:g}mm")
    return text
