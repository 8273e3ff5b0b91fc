"""Finishing chemistry for the hobby bench: thinning, flow cups, drops, solvent blends, flash-off.

Every argument with a dimension takes a quantity class, text with a unit, or a quantity of another
units library; a bare number is refused, because its unit would be a guess.

>>> import mistcoat as mc
>>> mc.Pressure("20 psi").to("kPa")  # doctest: +ELLIPSIS
137.895...
"""

from __future__ import annotations

from . import errors, protocols
from ._core import (
    Area,
    Density,
    Diffusivity,
    DilutionLaw,
    DynamicViscosity,
    Estimate,
    Frequency,
    KinematicViscosity,
    Length,
    Mass,
    MassConcentration,
    MassFlux,
    Mix,
    MixDrops,
    MolarEnergy,
    MolarMass,
    MolarVolume,
    Paint,
    Pressure,
    Ratio,
    SolubilityParameter,
    SpreadingRate,
    SurfaceTension,
    Temperature,
    TemperatureDifference,
    Time,
    Velocity,
    Voc,
    Volume,
    VolumeRate,
    Working,
    __version__,
)
from .errors import (
    DataError,
    MistcoatError,
    MistcoatWarning,
    PhaseSplit,
    RangeError,
    UnitError,
    UnknownName,
)

__all__ = [
    "Area",
    "DataError",
    "Density",
    "Diffusivity",
    "DilutionLaw",
    "DynamicViscosity",
    "Estimate",
    "Frequency",
    "KinematicViscosity",
    "Length",
    "Mass",
    "MassConcentration",
    "MassFlux",
    "MistcoatError",
    "MistcoatWarning",
    "Mix",
    "MixDrops",
    "MolarEnergy",
    "MolarMass",
    "MolarVolume",
    "Paint",
    "PhaseSplit",
    "Pressure",
    "RangeError",
    "Ratio",
    "SolubilityParameter",
    "SpreadingRate",
    "SurfaceTension",
    "Temperature",
    "TemperatureDifference",
    "Time",
    "UnitError",
    "UnknownName",
    "Velocity",
    "Voc",
    "Volume",
    "VolumeRate",
    "Working",
    "__version__",
    "errors",
    "protocols",
]
