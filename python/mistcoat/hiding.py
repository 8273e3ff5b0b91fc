"""Passes until the ground no longer shows, and paint for an area.

Films scatter and swallow light after Kubelka and Munk; a film hides at a contrast ratio of 0.98
over the black and white card. Fit your own bottle by counting passes on a card; a colour class
alone is good to a factor 2 either way. Reflectances and shares are plain numbers between 0 and 1
or text such as ``"35 %"``.

>>> from mistcoat import hiding
>>> film = hiding.dry_film_per_pass("20 um", "15 %")  # wet film, volume solids of the mix
>>> bottom = hiding.HidingPower.from_card_passes("bottom", "red oxide", passes=5, dry_per_pass=film)
>>> print(bottom.passes_to_hide(film, ground="30 %"))  # over an even grey filler
4 passes (3 to 7)
"""

from __future__ import annotations

from ._core import (
    Amounts,
    Gloss,
    HidingPower,
    Passes,
    absorption_over_scattering,
    amounts,
    colour_classes,
    dry_film_of_spray,
    dry_film_per_pass,
    scattering_power,
)

__all__ = [
    "Amounts",
    "Gloss",
    "HidingPower",
    "Passes",
    "absorption_over_scattering",
    "amounts",
    "colour_classes",
    "dry_film_of_spray",
    "dry_film_per_pass",
    "scattering_power",
]
