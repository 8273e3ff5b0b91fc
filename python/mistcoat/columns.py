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

__all__ = ["efflux_time_s", "kinematic_viscosity_mm2_s"]

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
