"""Dilution arithmetic: solids and films, spreading rate, VOC, pigment, batches, whole drops.

Shares of a whole (volume solids, loss) are plain numbers between 0 and 1 or text such as
``"35 %"``; everything with a dimension carries its unit. A thinning is a ``Thinning`` or
words that name the parts.

>>> import mistcoat as mc
>>> print(mc.dose.wet_film(dry="150 um", volume_solids="75 %"))
200 µm
>>> mc.dose.thinned_solids(0.6, "thinner 1 : paint 2")
0.4
"""

from __future__ import annotations

from ._core import (
    Batch,
    Dropper,
    DropRecipe,
    Thinning,
    alligation,
    counted_volume,
    cpvc,
    drop_recipes,
    dry_film,
    practical_spreading_rate,
    pvc,
    resin_cut,
    spreading_rate,
    thinned_solids,
    voc,
    voc_after_thinning,
    volume_solids,
    wet_film,
)

__all__ = [
    "Batch",
    "DropRecipe",
    "Dropper",
    "Thinning",
    "alligation",
    "counted_volume",
    "cpvc",
    "drop_recipes",
    "dry_film",
    "practical_spreading_rate",
    "pvc",
    "resin_cut",
    "spreading_rate",
    "thinned_solids",
    "voc",
    "voc_after_thinning",
    "volume_solids",
    "wet_film",
]
