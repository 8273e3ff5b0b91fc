"""The same equations on plain columns of numbers, each argument and function named with its unit.

A float in gives a float out; an array, list, series or data-frame column gives a numpy array.
Columns that carry their own units, a mask or text are refused. Rows without an answer become NaN,
with one warning that counts them and shows the first (``errors="nan"``), or raise
(``errors="raise"``). NaN in stays NaN. Long arrays use all cores without the interpreter lock; a
result does not depend on how the rows were split, so a distributed engine may map these functions
over partitions.

>>> from mistcoat import columns
>>> round(columns.kinematic_viscosity_mm2_s(35.0, standard="ISO 2431", size=4), 3)
42.236
"""

from __future__ import annotations

from typing import Any, Literal, overload

import numpy as np
from numpy.typing import NDArray

from . import _core

__all__ = ["activity_coefficients", "efflux_time_s", "kinematic_viscosity_mm2_s"]

OnBad = Literal["nan", "raise"]
FloatArray = NDArray[np.float64]


@overload
def kinematic_viscosity_mm2_s(
    efflux_s: float, *, standard: str, size: float | str, errors: OnBad = "nan"
) -> float: ...
@overload
def kinematic_viscosity_mm2_s(
    efflux_s: Any, *, standard: str, size: float | str, errors: OnBad = "nan"
) -> FloatArray: ...
def kinematic_viscosity_mm2_s(
    efflux_s: Any, *, standard: str, size: float | str, errors: OnBad = "nan"
) -> float | FloatArray:
    """Kinematic viscosity in mm2/s from efflux times in s, for a standard flow cup.

    A row at or below the time where the cup's equation gives zero, or infinite, is bad. The range
    of the standard is not checked here: ``FlowCup(standard, size).time_range`` tells it, and
    ``FlowCup.kinematic_viscosity`` warns outside it.
    """
    return _core.kinematic_viscosity_mm2_s(efflux_s, standard=standard, size=size, errors=errors)


@overload
def efflux_time_s(
    kinematic_viscosity_mm2_s: float, *, standard: str, size: float | str, errors: OnBad = "nan"
) -> float: ...
@overload
def efflux_time_s(
    kinematic_viscosity_mm2_s: Any, *, standard: str, size: float | str, errors: OnBad = "nan"
) -> FloatArray: ...
def efflux_time_s(
    kinematic_viscosity_mm2_s: Any, *, standard: str, size: float | str, errors: OnBad = "nan"
) -> float | FloatArray:
    """Efflux time in s from kinematic viscosities in mm2/s, for a standard flow cup.

    The inverse of ``kinematic_viscosity_mm2_s``. A row that is not above zero, or infinite, is bad.
    """
    return _core.efflux_time_s(
        kinematic_viscosity_mm2_s, standard=standard, size=size, errors=errors
    )


def activity_coefficients(
    temperature_k: Any,
    mole_fractions: Any,
    *,
    blend: _core.Blend,
    model: Literal["original", "dortmund"] | None = None,
    errors: OnBad = "nan",
) -> FloatArray:
    """Activity coefficients of the species of a blend at other compositions, by UNIFAC.

    The last axis of ``mole_fractions`` runs over the species in the order of ``blend.species``;
    they may be any amounts in the same proportion. ``temperature_k`` is one temperature in K for
    all rows or one for each. ``model`` None takes the table that suits the blend. A row outside
    253.15 to 353.15 K, with a negative amount or with nothing in it is bad.

    >>> import mistcoat as mc
    >>> spirit = mc.Blend({"ethanol": 1, "water": 1}, basis="mole")
    >>> activity_coefficients(298.15, [[0.1, 0.9], [0.5, 0.5]], blend=spirit).round(2).tolist()
    [[3.04, 1.02], [1.25, 1.44]]
    """
    result = _core.activity_coefficients(
        temperature_k, mole_fractions, blend=blend, model=model, errors=errors
    )
    return np.asarray(result)
