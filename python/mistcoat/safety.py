"""Vapour against its limits, fire, and the cautions that everybody must know.

For planning only: many limits are from memory and say so. The safety data sheets of the products,
local codes and licensed practice decide. Isocyanate two-packs are refused when a paint is built.

>>> import mistcoat as mc
>>> print(mc.safety.flammable_class("white spirit").words)
flammable: its vapour burns on a hot day, its mist always
"""

from __future__ import annotations

from ._core import (
    Caution,
    Cupboard,
    FlammableLimit,
    FlammableLiquid,
    GunAir,
    MixtureExposure,
    NearGun,
    SessionAir,
    SessionExposure,
    SessionVapour,
    VapourSource,
    Ventilation,
    cautions,
    cupboard,
    flammable_class,
    lower_flammable_limit,
    mixture_exposure,
    near_gun,
    short_term_exposure,
    sum_of_shares,
    time_weighted_average,
    vapour_volume,
)

__all__ = [
    "Caution",
    "Cupboard",
    "FlammableLimit",
    "FlammableLiquid",
    "GunAir",
    "MixtureExposure",
    "NearGun",
    "SessionAir",
    "SessionExposure",
    "SessionVapour",
    "VapourSource",
    "Ventilation",
    "cautions",
    "cupboard",
    "flammable_class",
    "lower_flammable_limit",
    "mixture_exposure",
    "near_gun",
    "short_term_exposure",
    "sum_of_shares",
    "time_weighted_average",
    "vapour_volume",
]
