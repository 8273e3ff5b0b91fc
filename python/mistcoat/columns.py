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

from collections.abc import Callable, Sequence
from typing import Any, Literal, overload

import numpy as np
from numpy.typing import NDArray

from . import _core
from ._progress import Line

__all__ = ["activity_coefficients", "dry", "efflux_time_s", "kinematic_viscosity_mm2_s"]

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


def dry(
    wet: _core.Paint | _core.Mix | _core.Blend,
    *,
    wet_thickness_um: Any,
    temperature_degC: Any,  # noqa: N803 - the unit is part of the name
    relative_humidity_pct: Any,
    air_speed_m_s: Any = 0.15,
    solids_pct: Any = None,
    binder_tg_degC: Any = None,  # noqa: N803
    thinner: _core.Blend | _core.Solvent | str | None = None,
    thinner_per_paint: Any = None,
    substrate: str = "polystyrene",
    substrate_thickness: Any = None,
    part_length: Any = None,
    until: Any = None,
    lost_pct: Sequence[float] = (50, 99),
    residual_h: Sequence[float] = (1, 24),
    errors: OnBad = "nan",
    progress: bool | Callable[[int, int], object] | None = None,
) -> dict[str, Any]:
    """Dry a whole table of coats, one for each row, on all cores.

    ``wet`` is a ``Blend`` (with ``solids_pct``), a ``Mix``, or a ``Paint`` with ``thinner`` and
    ``thinner_per_paint`` (volumes of thinner to one of paint). The settings named with a unit are
    numbers or columns; columns stretch to one shape as numpy does it, so two of them as
    ``x[:, None]`` and ``y[None, :]`` span a map. ``binder_tg_degC`` as in ``Film``. The rest is the
    same for all rows and means what it means in ``Film``.

    Returns columns of that shape, ready for a data frame:

    - ``flash_off_s``, ``touch_dry_s``, ``block_free_s``: NaN where a coat never gets there;
    - ``t50_s``, ``t99_s``: time to lose each of ``lost_pct`` of the volatile mass;
    - ``coldest_degC``: lowest film temperature; ``dew_margin_K``: how far that is above the dew
      point of the room, negative where dew forms;
    - ``residual_1h_pct``, ``residual_24h_pct``: solvent left after each of ``residual_h``, by
      volume of solvent and solids; NaN without solids.

    Every row equals ``Film(...).dry()`` to the last bit, however the rows were split. These are
    best values only; ask ``Film`` for the range of a setting that matters. Bad rows (a setting that
    ``Film`` refuses) become NaN and are counted in one warning, or raise before any row is dried
    (``errors="raise"``). Dew gives no warning here: look at ``dew_margin_K``.

    ``progress`` is True for a line on stderr when the call takes longer than a second, or a
    function called as ``progress(done, total)`` about five times a second. Ctrl-C stops within a
    fraction of a second with ``Interrupted``, which holds what was finished; so does an exception
    of ``progress``, in attributes of the same names. Both need the call to be in the main thread.
    ``RAYON_NUM_THREADS`` in the environment limits the cores.

    >>> import mistcoat as mc
    >>> thinner = mc.Blend({"acetone": 50, "n-butyl acetate": 50}, basis="mass")
    >>> dried = dry(
    ...     thinner,
    ...     wet_thickness_um=[10, 20, 40],
    ...     temperature_degC=21,
    ...     relative_humidity_pct=55,
    ...     solids_pct=15,
    ...     substrate="wood",
    ... )
    >>> dried["flash_off_s"].round().tolist()
    [30.0, 63.0, 133.0]
    """
    line = Line("drying") if progress is True else None
    report = line if line is not None else (progress or None)
    try:
        return _core.dry_columns(
            wet,
            thinner=thinner,
            wet_thickness_um=wet_thickness_um,
            temperature_degc=temperature_degC,
            relative_humidity_pct=relative_humidity_pct,
            air_speed_m_s=air_speed_m_s,
            solids_pct=solids_pct,
            binder_tg_degc=binder_tg_degC,
            thinner_per_paint=thinner_per_paint,
            substrate=substrate,
            substrate_thickness=substrate_thickness,
            part_length=part_length,
            until=until,
            lost_pct=lost_pct,
            residual_h=residual_h,
            errors=errors,
            progress=report,
        )
    finally:
        if line is not None:
            line.close()
