"""
Native part of `mistcoat`.
"""

from _typeshed import Incomplete, SupportsGetItem
from collections.abc import Mapping
from mistcoat.protocols import HasUnits
from numpy import float64
from numpy.typing import ArrayLike, NDArray
from os import PathLike
from typing import Any, Final, SupportsFloat, SupportsIndex, final

__all__ = ["__version__", "Airbrush", "Amounts", "Area", "Batch", "Binder", "Blend", "Blush", "Calibration", "Catalogue", "Caution", "Change", "CleanerPrice", "ColourOrder", "Comparison", "ComparisonRow", "CupCourse", "Cupboard", "Density", "Diagnosis", "Diffusivity", "DilutionLaw", "Dispersion", "DropRecipe", "Dropper", "Drying", "DryingTable", "DynamicViscosity", "Estimate", "EvaporationTest", "ExposureLimit", "Film", "FilmWindow", "FlammableLimit", "FlammableLiquid", "Flow", "FlowCup", "Frequency", "Gloss", "GunAir", "GunWash", "Hansen", "HidingPower", "Identification", "Job", "Judged", "Judgement", "KinematicViscosity", "Lay", "Layer", "Length", "MaskEdge", "Mass", "MassConcentration", "MassFlux", "Material", "Mix", "MixDrops", "MixtureExposure", "MolarEnergy", "MolarMass", "MolarVolume", "NearGun", "OpenCup", "OpticalCoefficient", "OxidativeCure", "Paint", "PaintTest", "Passes", "Phases", "Plan", "PlanLayer", "PlanStep", "PlannedLayer", "Pressure", "PricedChange", "PricedOrder", "PricedRinse", "Programme", "PropertySource", "Ratio", "Recommendation", "ReferenceLiquid", "RetarderAnswer", "RetarderRow", "RinseBench", "Room", "RoomVapour", "SafetyValue", "SessionAir", "SessionExposure", "SessionVapour", "Setup", "Shade", "Shot", "SolubilityParameter", "Solvent", "Split", "SpreadingRate", "Stack", "StackCheck", "StackDrying", "SurfaceTension", "Table", "Temperature", "TemperatureDifference", "Thinning", "Time", "TipDrying", "TopUp", "VapourSource", "Velocity", "Ventilation", "Voc", "Volume", "VolumeRate", "Wait", "WindowMap", "Working", "absorption_over_scattering", "activity_coefficients", "alligation", "amounts", "best_order", "best_split", "cautions", "cheap_then_good", "cheapest_order", "cheapest_rinse", "check_stack", "cleaner_with_paint", "cleaning_cautions", "coat_over_coat", "colour_classes", "compare", "counted_volume", "cpvc", "cupboard", "cups_for", "defects", "demo_paint", "diagnose", "drop_recipes", "dry_columns", "dry_film", "dry_film_of_spray", "dry_film_per_pass", "efflux_time_s", "equal_portions", "film_window", "flammable_class", "fraction_left", "guns", "hanging_thickness", "identification_tests", "identify", "kinematic_viscosity_mm2_s", "lay", "least_cleaner", "levelling_rate", "lower_flammable_limit", "mask_edge", "measured_dilutions", "mixture_exposure", "near_gun", "plan", "polymers", "portions_needed", "practical_spreading_rate", "pvc", "recommend", "resin_cut", "retarder", "sag_speed", "scattering_power", "short_term_exposure", "solvent", "solvents", "spreading_rate", "sum_of_shares", "thinned_solids", "thinner_on_substrate", "thinner_with_paint", "time_weighted_average", "timing", "tip_drying", "typical_hold_up", "vapour_volume", "voc", "voc_after_thinning", "volume_solids", "weighed_hold_up", "wet_film", "window"]

__version__: Final[str]

@final
class Airbrush:
    """
    An airbrush or mini gun as it is set and held.

    ``nozzle``: bore of the paint nozzle, 0.15 to 1.5 mm. ``pressure``: gauge pressure while air flows, 20 to 700 kPa.
    ``distance`` of the part, 5 to 500 mm. What is left out is typical, common practice, with its wide range: ``air_area``
    (effective area of the air gap) and ``paint_flow`` by the bore, ``transfer_efficiency`` 28 % (13 to 60 %) of the solids on
    the part, ``swath`` (width of a pass) a fifth of the distance, ``hand_speed`` 50 mm/s. ``compressor``: free air it
    delivers, to be warned when it is too little. ``drop_size``: a measured Sauter mean diameter in place of ``correlation``
    ("Rizk and Lefebvre", "Lorenzetto and Lefebvre", "Nukiyama and Tanasawa"). Sizes spread by ``rosin_rammler``, 3 unless
    given, or by a log-normal law of ``geometric_standard_deviation``, in so many ``classes``. Values outside raise
    ``RangeError``, unknown names ``UnknownName``. Of an ``Estimate`` the spread is carried on.

    >>> import mistcoat as mc
    >>> gun = mc.Airbrush(nozzle="0.3 mm", pressure="20 psi", distance="80 mm")
    >>> print(gun)
    0.3 mm nozzle, 138 kPa, 80 mm away
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, *, nozzle: Length | str | Estimate | HasUnits, pressure: Pressure | str | Estimate | HasUnits, distance: Length | str | Estimate | HasUnits, air_area: Area | str | Estimate | HasUnits | None = None, paint_flow: VolumeRate | str | Estimate | HasUnits | None = None, transfer_efficiency: Ratio | str | Estimate | HasUnits | None = None, swath: Length | str | Estimate | HasUnits | None = None, hand_speed: Velocity | str | Estimate | HasUnits | None = None, compressor: VolumeRate | str | Estimate | HasUnits | None = None, drop_size: Length | str | Estimate | HasUnits | None = None, correlation: str | None = None, rosin_rammler: SupportsFloat | SupportsIndex | None = None, geometric_standard_deviation: SupportsFloat | SupportsIndex | None = None, classes: SupportsIndex | None = None) -> Airbrush: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @property
    def air_area(self, /) -> Estimate:
        """
        Effective area of the air gap: given, or typical of the bore.
        """
    def at_distance(self, /, distance: Length | str | Estimate | HasUnits) -> Airbrush:
        """
        The same gun from another distance.
        """
    def at_pressure(self, /, pressure: Pressure | str | Estimate | HasUnits) -> Airbrush:
        """
        The same gun at another gauge pressure.
        """
    @property
    def distance(self, /) -> Length:
        """
        Distance of the part from the nozzle.
        """
    @staticmethod
    def from_json(text: str) -> Airbrush:
        """
        The gun from what ``to_json`` wrote. Raises ``DataError`` for other text, with the line and what is wrong.
        """
    @property
    def hand_speed(self, /) -> Estimate:
        """
        Speed of the hand over the part: given, or typical.
        """
    @property
    def nozzle(self, /) -> Length:
        """
        Bore of the paint nozzle.
        """
    @property
    def pressure(self, /) -> Pressure:
        """
        Gauge pressure while air flows.
        """
    def spray(self, /, mix: Mix, room: Room) -> Shot:
        """
        Sprays a ``Mix`` in a ``Room``; gives a ``MistcoatWarning`` for each thing to mind.

        Raises ``RangeError`` for a room outside 0 to 50 °C or a mix with more than 98 % of volume solids.
        """
    def to_json(self, /) -> str:
        """
        The gun as JSON text, which ``from_json`` reads back without loss; the Rust crate reads the same.
        """
    @property
    def transfer_efficiency(self, /) -> Estimate:
        """
        Share of the sprayed solids that stays on the part: given, or typical.
        """

@final
class Amounts:
    """
    Paint and thinner for an area.

    >>> from mistcoat import hiding
    >>> need = hiding.amounts("0.05 m2", dry="12 um", volume_solids="22 %", loss="airbrush")
    >>> need.paint.low < need.paint.best < need.paint.high
    True
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> Amounts: ...
    @property
    def mix(self, /) -> Estimate:
        """
        Paint and thinner together.
        """
    @property
    def paint(self, /) -> Estimate:
        """
        Paint as it stands in the bottle.
        """
    @property
    def practical_rate(self, /) -> Estimate:
        """
        Area covered by a volume of paint, after losses.
        """
    @property
    def thinner(self, /) -> Estimate:
        """
        Thinner to go with it.
        """

@final
class Area:
    """
    A value of dimension Area with its unit: ``Area("120 cm2")`` or ``Area(number, unit)``.

    Immutable. ``.to(unit)`` gives the number, ``format(q, ".3g unit")`` prints it. Compares, adds and scales within its dimension; hashes and pickles.
    """
    def __abs__(self, /) -> Area: ...
    def __add__(self, other: object, /) -> Area: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __format__(self, /, spec: str) -> str: ...
    def __ge__(self, value: object, /) -> bool: ...
    def __getnewargs__(self, /) -> tuple[float, str]: ...
    def __gt__(self, value: object, /) -> bool: ...
    def __hash__(self, /) -> int: ...
    def __le__(self, value: object, /) -> bool: ...
    def __lt__(self, value: object, /) -> bool: ...
    def __mul__(self, factor: object, /) -> Area: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __neg__(self, /) -> Area: ...
    def __new__(cls, /, value: float | Area | str | Estimate | HasUnits, unit: str | None = None) -> Area: ...
    def __repr__(self, /) -> str: ...
    def __rmul__(self, factor: object, /) -> Area: ...
    def __str__(self, /) -> str: ...
    def __sub__(self, other: object, /) -> Area: ...
    def __truediv__(self, divisor: object, /) -> Any:
        """
        A quantity over its like is a plain number; over a number it is scaled.
        """
    def to(self, /, unit: str) -> float:
        """
        The number in the named unit.
        """
    @staticmethod
    def units() -> list[str]:
        """
        The units understood, the SI unit first.
        """

@final
class Batch:
    """
    A volume of mix and how far it is thinned: repair it, combine two, scale one.

    >>> import mistcoat as mc
    >>> batch = mc.Batch("20 mL", mc.Thinning(paint_fraction=0.2))
    >>> what, volume = batch.repair(mc.Thinning(paint_fraction=0.3), stock=mc.Thinning(paint_fraction=0.5))
    >>> print(what, volume)
    paint 10 mL
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, volume: Volume | str | Estimate | HasUnits, thinning: Thinning | str) -> Batch: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> Batch: ...
    def combined(self, /, other: Batch) -> Batch:
        """
        Two batches of the same paint and thinner poured together.
        """
    @staticmethod
    def from_paint(paint: Volume | str | Estimate | HasUnits, thinning: Thinning | str) -> Batch:
        """
        The batch that uses up a volume of stock paint.
        """
    @property
    def paint(self, /) -> Volume:
        """
        Volume of stock paint in it.
        """
    def repair(self, /, target: Thinning | str, *, stock: Thinning | str | None = None) -> tuple[str, Volume]:
        """
        What to add to reach ``target``: ``("thinner", volume)``, ``("paint", volume)`` of undiluted paint or of ``stock``,
        or ``("nothing", zero)``.
        """
    def scaled_to(self, /, volume: Volume | str | Estimate | HasUnits) -> Batch:
        """
        The same mix for another total volume.
        """
    @property
    def thinner(self, /) -> Volume:
        """
        Volume of thinner in it.
        """
    @property
    def thinning(self, /) -> Thinning:
        """
        How far it is thinned.
        """
    @property
    def volume(self, /) -> Volume:
        """
        The whole volume, paint and thinner together.
        """

@final
class Binder:
    """
    The binder of a coat that dries by losing solvent.

    ``tg``: glass transition of the dry binder, -123 to 227 °C, known within 10 K unless an ``Estimate`` is given. ``density``
    0.7 to 2.5 g/mL, 1.18 g/mL unless given. ``pigment``: its share of the volume of the dry film, none unless given.
    ``diffusivity_at_glass`` of solvent, 1e-14 m2/s unless measured; ``steepness`` of its rise above the glass transition as
    a share of that of viscosity, 0.05 to 1, 0.37 unless fitted. ``chi``, ``chi_of_water``: interaction parameters of Flory and
    Huggins with the solvents (-1 to 2, 0.4 unless given) and with water (0 to 6, 3 unless given). Values outside raise
    ``RangeError``.

    >>> import mistcoat as mc
    >>> binder = mc.Binder(tg="60 degC", density="1.15 g/mL", pigment="12 %", chi=0.35)
    >>> binder.chi, binder.share
    (0.35, Ratio(88.0, "%"))
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, *, tg: Temperature | str | Estimate | HasUnits, density: Density | str | Estimate | HasUnits | None = None, pigment: Ratio | str | Estimate | HasUnits | None = None, diffusivity_at_glass: Diffusivity | str | Estimate | HasUnits | None = None, steepness: SupportsFloat | SupportsIndex | None = None, chi: SupportsFloat | SupportsIndex | None = None, chi_of_water: SupportsFloat | SupportsIndex | None = None) -> Binder: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    @property
    def chi(self, /) -> float:
        """
        Interaction parameter with the solvents.
        """
    @property
    def chi_of_water(self, /) -> float:
        """
        Interaction parameter with water.
        """
    @property
    def density(self, /) -> Density:
        """
        Density of the binder.
        """
    @property
    def diffusivity_at_glass(self, /) -> Diffusivity:
        """
        Diffusivity of solvent at the glass transition.
        """
    @staticmethod
    def from_json(text: str) -> Binder:
        """
        The binder from what ``to_json`` wrote. Raises ``DataError`` for other text, with the line and what is wrong.
        """
    @property
    def share(self, /) -> Ratio:
        """
        Binder as a share of the volume of solids; the rest is pigment.
        """
    @property
    def steepness(self, /) -> float:
        """
        Steepness of its rise above the glass transition, as a share of that of viscosity.
        """
    @property
    def tg(self, /) -> Estimate:
        """
        Glass transition of the dry binder.
        """
    def to_json(self, /) -> str:
        """
        The binder as JSON text, which ``from_json`` reads back without loss; the Rust crate reads the same.
        """

@final
class Blend:
    """
    Solvents mixed in given proportions.

    ``parts`` maps solvents, by name or as ``Solvent``, to their shares; ``basis`` says what the shares count:
    ``"mass"`` (grams, percent by weight), ``"volume"`` (millilitres or parts, before mixing, at 20 °C) or
    ``"mole"``. It may be left out for a liquid alone. Only proportions count.

    >>> import mistcoat as mc
    >>> thinner = mc.Blend({"acetone": 50, "n-butyl acetate": 35, "2-butoxyethanol": 15}, basis="mass", name="house thinner")
    >>> print(thinner.density("20 degC").best)
    0.836 g/mL
    >>> thinner.phases("20 degC").is_one
    True
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __hash__(self, /) -> int: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, parts: Mapping[str, float] | Mapping[Solvent, float] | str | Solvent, basis: str | None = None, name: str | None = None) -> Blend: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    def activity_coefficients(self, /, temperature: Temperature | str | Estimate | HasUnits, model: str | None = None) -> dict[str, float]:
        """
        Activity coefficient of every species by name; ``model`` is "original" or "dortmund" UNIFAC, or None for the
        table that suits the blend (see ``activity_model``).
        """
    @property
    def activity_model(self, /) -> tuple[str, str]:
        """
        The UNIFAC table chosen for this blend ("original", "dortmund", or "ideal" where groups are missing) and why.
        """
    @property
    def basis(self, /) -> str:
        """
        What the amounts of ``parts`` count: "mass", "volume" or "mole".
        """
    @property
    def components(self, /) -> dict[str, dict[str, float]]:
        """
        The liquids as they are poured, by name, each with its share of "mass", "volume" and "mole", 0 to 1.
        """
    def density(self, /, temperature: Temperature | str | Estimate | HasUnits) -> Estimate:
        """
        Density, volumes taken to add; alcohol with water is up to 4 % denser.
        """
    def evaporation_as_it_dries(self, /, rows: SupportsIndex = 10) -> DryingTable:
        """
        What is left and how fast it leaves, at ``rows`` equal steps of mass lost.
        """
    @property
    def evaporation_class(self, /) -> str:
        """
        "fast", "medium" or "slow": the class of the fresh blend.
        """
    def flash_point(self, /) -> Estimate | None:
        """
        Flash point, closed cup, after Liaw; None when nothing in it burns. An estimate: the safety data sheet decides.
        """
    @staticmethod
    def from_json(text: str) -> Blend:
        """
        The recipe from what ``to_json`` wrote. Raises ``DataError`` for other text, with the line and what is wrong.
        """
    @property
    def hansen(self, /) -> Hansen:
        """
        Hansen solubility parameters, averaged by volume.
        """
    def hansen_distance(self, /, polymer: str) -> SolubilityParameter:
        """
        Hansen distance from a polymer named in ``polymers()``.
        """
    def kinematic_viscosity(self, /, temperature: Temperature | str | Estimate | HasUnits) -> Estimate:
        """
        Kinematic viscosity: dynamic viscosity over density.
        """
    def mixed_with(self, /, other: Blend, *, own: SupportsFloat | SupportsIndex, others: SupportsFloat | SupportsIndex, name: str | None = None) -> Blend:
        """
        This blend with another, ``own`` and ``others`` being the volumes of each that are poured together.
        """
    @property
    def molar_mass(self, /) -> MolarMass:
        """
        Mean molar mass of the species.
        """
    @property
    def name(self, /) -> str | None:
        """
        The name, if it has one.
        """
    def named(self, /, name: str) -> Blend:
        """
        The same blend under another name.
        """
    def partial_pressures(self, /, temperature: Temperature | str | Estimate | HasUnits) -> dict[str, Pressure]:
        """
        Partial pressure of every species above the blend, by name.
        """
    @property
    def parts(self, /) -> dict[str, float]:
        """
        The recipe: amounts on the basis, by solvent.
        """
    def phases(self, /, temperature: Temperature | str | Estimate | HasUnits) -> Phases:
        """
        Whether it is one liquid at this temperature, or which two it becomes.
        """
    def red(self, /, polymer: str) -> float:
        """
        Hansen distance from a polymer over its radius: below 1 the blend dissolves or swells it. Test on scrap.
        """
    @property
    def relative_evaporation_rate(self, /) -> Estimate:
        """
        Evaporation rate of the fresh blend, n-butyl acetate = 1.
        """
    def require_one_liquid(self, /, temperature: Temperature | str | Estimate | HasUnits) -> None:
        """
        Raises ``PhaseSplit`` when the blend separates into two liquids at this temperature.
        """
    @property
    def species(self, /) -> dict[str, float]:
        """
        Mole fractions of the pure species, by name: petroleum cuts are replaced by their surrogate composition.
        """
    def surface_tension(self, /, temperature: Temperature | str | Estimate | HasUnits) -> Estimate:
        """
        Surface tension against air.
        """
    def to_json(self, /) -> str:
        """
        The recipe as JSON text, which ``from_json`` reads back without loss; the Rust crate reads the same.
        """
    def vapour_pressure(self, /, temperature: Temperature | str | Estimate | HasUnits) -> Pressure:
        """
        Vapour pressure of the whole blend.
        """
    def viscosity(self, /, temperature: Temperature | str | Estimate | HasUnits) -> Estimate:
        """
        Dynamic viscosity by the logarithmic rule, with a fitted excess where there is water.
        """

@final
class Blush:
    """
    The humidity at which a coat turns white with dew, and how far its room is from it.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @property
    def blushes(self, /) -> bool:
        """
        Whether dew forms in this room.
        """
    @property
    def coldest(self, /) -> Temperature:
        """
        Coldest the film gets in this room.
        """
    @staticmethod
    def from_json(text: str) -> Blush:
        """
        The answer from what ``to_json`` wrote. Raises ``DataError`` for other text, with the line and what is wrong.
        """
    @property
    def humidity(self, /) -> Ratio:
        """
        Relative humidity of the room.
        """
    @property
    def limit(self, /) -> Estimate:
        """
        Highest relative humidity without dew on the coat, 0 to 1.
        """
    @property
    def margin(self, /) -> Estimate:
        """
        Coldest film temperature less the dew point of the room, in K; below zero there is dew.
        """
    def to_json(self, /) -> str:
        """
        The answer as JSON text, which ``from_json`` reads back without loss; the Rust crate reads the same.
        """
    def working(self, /) -> Working:
        """
        The steps, with numbers and sources.
        """

@final
class Calibration:
    """
    The constants of a home-made cup, ``v = K t - B/t``, with their standard errors.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> Calibration: ...
    @property
    def b_mm2(self, /) -> float:
        """
        Constant B of ``v = K t - B/t``, in mm2.
        """
    @property
    def b_std_mm2(self, /) -> float:
        """
        Standard error of B in mm2.
        """
    @property
    def correlation(self, /) -> float:
        """
        Correlation of the two errors.
        """
    @property
    def k_mm2_s2(self, /) -> float:
        """
        Constant K of ``v = K t - B/t``, in mm2/s2.
        """
    @property
    def k_std_mm2_s2(self, /) -> float:
        """
        Standard error of K in mm2/s2.
        """
    @property
    def residuals(self, /) -> list[float]:
        """
        Relative residual of each reading: (fit - given)/given.
        """
    @property
    def warnings(self, /) -> list[str]:
        """
        What to mind; empty when there is nothing.
        """
    def working(self, /) -> Working:
        """
        The steps of the fit, with formulas, numbers and sources.
        """

@final
class Catalogue:
    """
    Solvents by name: iterate, index by name, print as a table.

    ``Catalogue.load(path)`` reads a file of your own; ``solvents().extended(mine)`` puts it over the others.
    """
    def __contains__(self, name: str, /) -> bool: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __getitem__(self, name: str, /) -> Solvent: ...
    def __iter__(self, /) -> Any: ...
    def __len__(self, /) -> int: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> Catalogue: ...
    def _repr_html_(self, /) -> str: ...
    def columns(self, /) -> dict[str, list[Any]]:
        """
        The table as columns, ready for a data frame; the unit stands at the end of the name, ``None`` where there is
        no value.
        """
    def extended(self, /, other: Catalogue) -> Catalogue:
        """
        These solvents and those of ``other``; where both know a name, ``other`` wins.
        """
    @staticmethod
    def from_toml(text: str, name: str = "text") -> Catalogue:
        """
        The same from text; ``name`` appears in messages.
        """
    @staticmethod
    def load(path: str | PathLike[str]) -> Catalogue:
        """
        Reads a solvent file of your own, in the form of the files that come with the package.
        """
    def names(self, /) -> list[str]:
        """
        The names of the solvents, in the order of the catalogue.
        """
    def solvent(self, /, name: str) -> Solvent:
        """
        The solvent of this name, identifier or synonym.
        """

@final
class Caution:
    """
    One caution: heading, text, source.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> Caution: ...
    @property
    def key(self, /) -> str:
        """
        Short key, for example "rags".
        """
    @property
    def source(self, /) -> str:
        """
        Citation of its source.
        """
    @property
    def text(self, /) -> str:
        """
        The caution, in words to print on a card.
        """
    @property
    def topic(self, /) -> str:
        """
        Heading of one to four words.
        """

@final
class Change:
    """
    One change of colour.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> Change: ...
    @property
    def after(self, /) -> str:
        """
        Colour that follows.
        """
    @property
    def before(self, /) -> str:
        """
        Colour that was in the gun.
        """
    @property
    def cleaner(self, /) -> Estimate:
        """
        Cleaner in all, with its range and working.
        """
    @property
    def fraction(self, /) -> Ratio:
        """
        Share of the old paint in the gun that the rinse may leave.
        """
    @property
    def split(self, /) -> Split:
        """
        Portions of cleaner.
        """
    @property
    def tolerated(self, /) -> Ratio:
        """
        Share of the old paint that may stand in the fill of the new one.
        """

@final
class CleanerPrice:
    """
    What a volume of a cleaner or thinner costs: ``costs`` for ``per``. ``currency`` is a label; nothing is converted.

    >>> from mistcoat import rinse
    >>> thinner = rinse.CleanerPrice("house thinner", 9.50, per="1 L", currency="EUR")
    >>> round(thinner.of("20 mL"), 3)
    0.19
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, name: str, costs: SupportsFloat | SupportsIndex, *, per: Volume | str | Estimate | HasUnits, currency: str = "") -> CleanerPrice: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> CleanerPrice: ...
    @property
    def costs(self, /) -> float:
        """
        What ``per`` costs, 0 or above.
        """
    @property
    def currency(self, /) -> str:
        """
        Label of the currency.
        """
    @property
    def name(self, /) -> str:
        """
        Name of the liquid that it is for.
        """
    def of(self, /, volume: Volume | str | Estimate | HasUnits) -> float:
        """
        What so much of it costs.
        """
    @property
    def per(self, /) -> Volume:
        """
        The volume that ``costs`` is for.
        """

@final
class ColourOrder:
    """
    An order of colours with its changes; prints as a table with the cautions under it.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> ColourOrder: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def as_given(self, /) -> Estimate:
        """
        Cleaner for the order in which the colours were given.
        """
    @property
    def cautions(self, /) -> list[str]:
        """
        What to mind when cleaning; never empty.
        """
    @property
    def changes(self, /) -> list[Change]:
        """
        The changes between them.
        """
    @property
    def cleaner(self, /) -> Estimate:
        """
        Cleaner for all changes; the wash at the end comes on top.
        """
    @property
    def order(self, /) -> list[str]:
        """
        Names in the order to spray.
        """
    def table(self, /) -> Table:
        """
        The changes as a table, cautions under it.
        """
    @property
    def warnings(self, /) -> list[str]:
        """
        Pairs for which the answer is a judgement.
        """

@final
class Comparison:
    """
    The answer to ``compare``: a table as text and HTML, a chart, the working, and every number behind them.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def airbrush(self, /) -> Airbrush | None:
        """
        The gun that sprayed; ``None`` without one.
        """
    @property
    def cautions(self, /) -> list[str]:
        """
        Fire, air, and who decides.
        """
    def chart(self, /) -> Any:
        """
        The chart as a matplotlib figure (needs matplotlib: ``pip install mistcoat[charts]``).
        """
    @property
    def coat(self, /) -> str:
        """
        What one coat is, in words: ``25 µm wet``, ``2 passes wet in wet``.
        """
    def columns(self, /) -> dict[str, list[Any]]:
        """
        Columns by name with unit; intervals as ``..._low`` and ``..._high``, ``None`` where there is no answer.
        """
    @property
    def conditions(self, /) -> str:
        """
        Room, coat and substrate in one line.
        """
    @property
    def cup(self, /) -> str | None:
        """
        Name of the cup; ``None`` without one.
        """
    @property
    def cup_range_s(self, /) -> tuple[float, float] | None:
        """
        Range of the cup in seconds; ``None`` without one.
        """
    @staticmethod
    def from_json(text: str) -> Comparison:
        """
        The comparison from what ``to_json`` wrote. Raises ``DataError`` for other text, with the line and what is wrong.
        """
    @property
    def rows(self, /) -> list[ComparisonRow]:
        """
        One row a ratio, in the order asked.
        """
    def table(self, /) -> Table:
        """
        The comparison as a table.
        """
    @property
    def title(self, /) -> str:
        """
        Paint and thinner in one line.
        """
    def to_json(self, /) -> str:
        """
        The comparison as JSON text, which ``from_json`` reads back without loss; the Rust crate reads the same.
        """
    def to_pandas(self, /) -> Any:
        """
        A pandas data frame of the columns.
        """
    def to_polars(self, /) -> Any:
        """
        A polars data frame of the columns.
        """
    @property
    def warnings(self, /) -> list[str]:
        """
        What to mind, each with the ratios it was seen at.
        """
    @property
    def wet_thickness(self, /) -> Length | None:
        """
        The wet film of one coat; ``None`` where each row has its own, from the passes of an airbrush.
        """
    def working(self, /, thinner_per_paint: SupportsFloat | SupportsIndex | None = None) -> Working:
        """
        The steps with numbers and sources, of one ratio or of all.
        """

@final
class ComparisonRow:
    """
    One ratio of a comparison.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> ComparisonRow: ...
    @property
    def blush_limit(self, /) -> Estimate | None:
        """
        Highest relative humidity without dew on the coat, 0 to 1; ``None`` for waterborne ones.
        """
    @property
    def coldest(self, /) -> Temperature:
        """
        Coldest the film gets.
        """
    @property
    def drop_size(self, /) -> Estimate | None:
        """
        Sauter mean of the drops; ``None`` without an airbrush.
        """
    @property
    def drops(self, /) -> tuple[int, int] | None:
        """
        Whole drops of (paint, thinner); ``None`` without a dropper.
        """
    @property
    def dry_film(self, /) -> Estimate:
        """
        What the wet film leaves.
        """
    @property
    def dry_film_per_pass(self, /) -> Estimate | None:
        """
        Dry film of one pass; ``None`` without an airbrush.
        """
    @property
    def efflux_time(self, /) -> Estimate | None:
        """
        Seconds in the cup; ``None`` without a cup.
        """
    @property
    def flash_off(self, /) -> Estimate | None:
        """
        Time until 90 % of the volatile mass has left; ``None`` when the coat never gets there.
        """
    @property
    def flight_loss(self, /) -> Estimate | None:
        """
        Share of the volatile mass lost in flight; ``None`` without an airbrush.
        """
    @property
    def judged(self, /) -> Judged | None:
        """
        What the coat does at best values with its margins from every fault; ``None`` without an airbrush.
        """
    @property
    def left_at_flash_off(self, /) -> list[tuple[str, float]]:
        """
        (liquid, share of the mass) of what is left at flash-off, largest first.
        """
    @property
    def mix(self, /) -> Mix:
        """
        The mix that the row is about.
        """
    @property
    def recoat(self, /) -> Estimate | None:
        """
        Earliest time for another coat of another paint (block-free); ``None`` for binders without such a time.
        """
    @property
    def ripple_left(self, /) -> Estimate | None:
        """
        Share left of a ripple of 2 mm when the coat has set, 0 to 1; ``None`` where the flow is not known.
        """
    @property
    def thinner_per_paint(self, /) -> float:
        """
        Parts of thinner to one part of paint, by volume.
        """
    @property
    def touch_dry(self, /) -> Estimate | None:
        """
        Touch dry; ``None`` for paints that harden by oxygen.
        """
    @property
    def viscosity(self, /) -> Estimate:
        """
        Viscosity at room temperature.
        """
    @property
    def voc(self, /) -> MassConcentration:
        """
        Organic volatiles per volume of the mix.
        """
    @property
    def volume_solids(self, /) -> Estimate:
        """
        Volume of dry film per volume of mix, 0 to 1, with its interval.
        """
    @property
    def warnings(self, /) -> list[str]:
        """
        What to mind at this ratio.
        """
    @property
    def wet_film(self, /) -> Length:
        """
        Wet film of the coat, as stated or as the gun lays it.
        """
    @property
    def wet_film_per_pass(self, /) -> Estimate | None:
        """
        Wet film of one pass; ``None`` without an airbrush.
        """

@final
class CupCourse:
    """
    The course of a mix in an open cup, from ``OpenCup.stand``.

    The curves are float64 arrays with one entry for each of ``time_s``; ``columns()`` has them all under names with their units.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __len__(self, /) -> int: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    def columns(self, /) -> dict[str, NDArray[float64]]:
        """
        All curves by names with their units, ready for a data frame; the masses left in g by species.
        """
    def composition_at(self, /, time: Time | str | Estimate | HasUnits) -> dict[str, float]:
        """
        Mass fractions of the liquid at one time, by species.
        """
    @property
    def cup(self, /) -> OpenCup:
        """
        The cup that stood open, as an ``OpenCup``.
        """
    @staticmethod
    def from_json(text: str) -> CupCourse:
        """
        The course from what ``to_json`` wrote.
        """
    @property
    def mass_lost_g(self, /) -> NDArray[float64]:
        """
        Mass lost in g, less what came from the air.
        """
    @property
    def temperature_degC(self, /) -> NDArray[float64]:
        """
        Temperature of the liquid in °C.
        """
    def thickened(self, /, time: Time | str | Estimate | HasUnits) -> Estimate:
        """
        Viscosity at a time over that of the mix as poured, with its interval.
        """
    @property
    def time_s(self, /) -> NDArray[float64]:
        """
        Times in seconds, from zero.
        """
    def time_to_thicken(self, /, rise: Ratio | str | Estimate | HasUnits) -> Estimate:
        """
        When the viscosity has risen by this share, 1 to 900 %: "20 %" is a fifth thicker.

        Raises ``RangeError`` when it does not while the cup is followed; the message says how far it comes.
        """
    def to_json(self, /) -> str:
        """
        The cup as JSON text, from which the course is worked out again.
        """
    def top_up(self, /, time: Time | str | Estimate | HasUnits, *, dropper: Dropper) -> TopUp:
        """
        Drops of the mix's own thinner that restore its viscosity at a time, and what they make of it.

        Warns when the restored mix dries more than a tenth slower: what left was the fast part.
        """
    @property
    def viscosity_mPa_s(self, /) -> NDArray[float64]:
        """
        Viscosity in mPa s at room temperature.
        """
    @property
    def volume_solids(self, /) -> NDArray[float64]:
        """
        Volume fraction of solids.
        """
    @property
    def warnings(self, /) -> list[str]:
        """
        What to mind; empty when there is nothing.
        """
    def working(self, /) -> Working:
        """
        The steps behind the curves, with numbers and sources.
        """

@final
class Cupboard:
    """
    A closed space in which a liquid has evaporated.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> Cupboard: ...
    @property
    def cautions(self, /) -> list[str]:
        """
        Cautions on what the numbers leave out; show them beside the numbers.
        """
    @property
    def limit(self, /) -> FlammableLimit:
        """
        The lower flammable limit that the shares are measured against.
        """
    @property
    def most_liquid(self, /) -> Volume:
        """
        Most liquid that keeps the space below a quarter of the limit.
        """
    @property
    def share_of_limit(self, /) -> Ratio:
        """
        Share of the lower flammable limit, evenly mixed: 100 % burns.
        """

@final
class Density:
    """
    A value of dimension Density with its unit: ``Density("0.88 g/mL")`` or ``Density(number, unit)``.

    Immutable. ``.to(unit)`` gives the number, ``format(q, ".3g unit")`` prints it. Compares, adds and scales within its dimension; hashes and pickles.
    """
    def __abs__(self, /) -> Density: ...
    def __add__(self, other: object, /) -> Density: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __format__(self, /, spec: str) -> str: ...
    def __ge__(self, value: object, /) -> bool: ...
    def __getnewargs__(self, /) -> tuple[float, str]: ...
    def __gt__(self, value: object, /) -> bool: ...
    def __hash__(self, /) -> int: ...
    def __le__(self, value: object, /) -> bool: ...
    def __lt__(self, value: object, /) -> bool: ...
    def __mul__(self, factor: object, /) -> Density: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __neg__(self, /) -> Density: ...
    def __new__(cls, /, value: float | Density | str | Estimate | HasUnits, unit: str | None = None) -> Density: ...
    def __repr__(self, /) -> str: ...
    def __rmul__(self, factor: object, /) -> Density: ...
    def __str__(self, /) -> str: ...
    def __sub__(self, other: object, /) -> Density: ...
    def __truediv__(self, divisor: object, /) -> Any:
        """
        A quantity over its like is a plain number; over a number it is scaled.
        """
    def to(self, /, unit: str) -> float:
        """
        The number in the named unit.
        """
    @staticmethod
    def units() -> list[str]:
        """
        The units understood, the SI unit first.
        """

@final
class Diagnosis:
    """
    Causes of a defect, likeliest first, each with the number behind it and the smallest change that cures it.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> Diagnosis: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def beyond(self, /) -> list[str]:
        """
        Causes beyond the model, as common practice tells them.
        """
    @property
    def causes(self, /) -> dict[str, float]:
        """
        By cause, likeliest first: probability that its limit is broken, 0 to 1, as far as the models know.
        """
    @property
    def changes(self, /) -> dict[str, str | None]:
        """
        By cause: the smallest change of one setting that cures it; ``None`` when its limit holds, or none does.
        """
    @property
    def defect(self, /) -> str:
        """
        The defect by the trade's word.
        """
    @property
    def look_beyond(self, /) -> bool:
        """
        Whether every cause in the model is improbable, so that the cause is likely one beyond it.
        """
    def table(self, /) -> Table:
        """
        Causes with their numbers and cures.
        """

@final
class Diffusivity:
    """
    A value of dimension Diffusivity with its unit: ``Diffusivity("7.2 mm2/s")`` or ``Diffusivity(number, unit)``.

    Immutable. ``.to(unit)`` gives the number, ``format(q, ".3g unit")`` prints it. Compares, adds and scales within its dimension; hashes and pickles.
    """
    def __abs__(self, /) -> Diffusivity: ...
    def __add__(self, other: object, /) -> Diffusivity: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __format__(self, /, spec: str) -> str: ...
    def __ge__(self, value: object, /) -> bool: ...
    def __getnewargs__(self, /) -> tuple[float, str]: ...
    def __gt__(self, value: object, /) -> bool: ...
    def __hash__(self, /) -> int: ...
    def __le__(self, value: object, /) -> bool: ...
    def __lt__(self, value: object, /) -> bool: ...
    def __mul__(self, factor: object, /) -> Diffusivity: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __neg__(self, /) -> Diffusivity: ...
    def __new__(cls, /, value: float | Diffusivity | str | Estimate | HasUnits, unit: str | None = None) -> Diffusivity: ...
    def __repr__(self, /) -> str: ...
    def __rmul__(self, factor: object, /) -> Diffusivity: ...
    def __str__(self, /) -> str: ...
    def __sub__(self, other: object, /) -> Diffusivity: ...
    def __truediv__(self, divisor: object, /) -> Any:
        """
        A quantity over its like is a plain number; over a number it is scaled.
        """
    def to(self, /, unit: str) -> float:
        """
        The number in the named unit.
        """
    @staticmethod
    def units() -> list[str]:
        """
        The units understood, the SI unit first.
        """

@final
class DilutionLaw:
    """
    How viscosity falls with thinner: ``ln(eta/eta_s) = a x / (1 - b x)``, ``x`` the volume of stock paint per
    volume of mix, ``eta_s`` the viscosity of the thinner.

    Build one with ``DilutionLaw.fit`` from readings, or take that of a paint with ``Paint.law``. Holds alike for
    dynamic and kinematic viscosity, at the one temperature of its readings. Measured error: glycerol-water from two
    readings 3.3 %, a waterborne paint 0.23 s in 20 s of a Ford cup, polymer solutions 24 % rms from one reading and
    11 % median from two. Shear thinning is neglected.

    >>> import mistcoat as mc
    >>> law = mc.DilutionLaw.fit([(1, "120 mPa.s"), (0.7, "38 mPa.s")], thinner_viscosity="0.7 mPa.s")
    >>> print(law.viscosity(0.5).best)
    15.1 mPa.s
    >>> print(law.paint_fraction_for("18 mPa.s").best)
    53.6 %
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @property
    def a(self, /) -> float:
        """
        Constant ``a`` of the law, no unit: ``(1 - b) ln(eta_paint/eta_s)``, above 0.
        """
    @property
    def b(self, /) -> float:
        """
        Shape constant ``b`` of the law, no unit, below 1: 0 is a straight line in ln viscosity, above 0 thins faster at
        first, below 0 slower.
        """
    @staticmethod
    def fit(readings: SupportsGetItem[int, tuple[float | Ratio | str | Estimate | HasUnits, DynamicViscosity | str | Estimate | HasUnits | KinematicViscosity]], thinner_viscosity: DynamicViscosity | str | Estimate | HasUnits | KinematicViscosity, family: str | None = None) -> DilutionLaw:
        """
        Fits the law to ``(paint_fraction, viscosity)`` readings by least squares in ln viscosity.

        ``paint_fraction``, above 0 up to 1 (or text, ``"70 %"``), is 1 for the stock paint; one reading is enough, a
        second between 0.55 and 0.85 fixes the shape. ``viscosity`` and ``thinner_viscosity`` are dynamic
        (``"38 mPa.s"``) or kinematic (``"40 mm2/s"``), all of one kind and at one temperature. ``family`` names the
        paint family whose habit stands in for what the readings leave open; ``None`` takes a wide one. A reading
        without a spread is given that of a flow cup (5 % at 95 %).

        Raises ``RangeError`` for no reading, a fraction outside (0, 1], a reading at or below the thinner's viscosity,
        viscosities of two kinds, or a viscosity that rises on adding thinner; ``UnknownName`` for a family.
        """
    @staticmethod
    def from_json(text: str) -> DilutionLaw:
        """
        The law from what ``to_json`` wrote. Raises ``DataError`` for other text, with the line and what is wrong.
        """
    def paint_fraction_for(self, /, viscosity: DynamicViscosity | str | Estimate | HasUnits | KinematicViscosity) -> Estimate:
        """
        Volume fraction of stock paint, 0 to 1, that gives the wanted viscosity, with its interval.

        ``viscosity`` is of the law's own kind, above the thinner's and up to the paint's; ``RangeError`` outside.
        """
    @property
    def paint_viscosity(self, /) -> Estimate:
        """
        Viscosity of the stock paint as the law sees it, with its interval; dynamic or kinematic as the readings.
        """
    def sensitivity(self, /, paint_fraction: float | Ratio | str | Estimate | HasUnits) -> float:
        """
        Slope ``d ln(viscosity)/dx = a/(1 - b x)^2``, no unit: at 7, one percent more paint makes the mix 7 % thicker.

        ``paint_fraction`` is above 0 up to 1; ``RangeError`` outside.
        """
    @property
    def shape(self, /) -> Estimate:
        """
        Shape constant ``b`` with its interval, no unit.
        """
    def thinner_per_paint_for(self, /, viscosity: DynamicViscosity | str | Estimate | HasUnits | KinematicViscosity) -> Ratio:
        """
        Thinner to add for the wanted viscosity, as a share of the paint's volume: 1 means as much thinner as paint.

        ``viscosity`` is of the law's own kind, above the thinner's and up to the paint's; ``RangeError`` outside.
        """
    @property
    def thinner_viscosity(self, /) -> Estimate:
        """
        Viscosity of the thinner, ``eta_s`` of the law; dynamic or kinematic as the readings.
        """
    def to_json(self, /) -> str:
        """
        The law as JSON text, which ``from_json`` reads back without loss; the Rust crate reads the same.
        """
    def viscosity(self, /, paint_fraction: float | Ratio | str | Estimate | HasUnits) -> Estimate:
        """
        Viscosity of a mix with this volume fraction of stock paint, with its interval; dynamic or kinematic as the
        readings.

        ``paint_fraction`` is above 0 up to 1, or text such as ``"50 %"``. Raises ``RangeError`` at 0, since pure
        thinner is not a mix, and above 1.
        """
    @property
    def warnings(self, /) -> list[str]:
        """
        What to mind about the readings behind the law, one text each; empty when there is nothing.
        """

@final
class Dispersion:
    """
    The binder of a waterborne coat: particles that flow together above their minimum film-formation temperature.

    ``mfft`` without coalescing aid, -50 to 100 °C, known within 3 K unless an ``Estimate`` is given. ``pigment``: its share of
    the volume of the dry film, none unless given. Values outside raise ``RangeError``.

    >>> import mistcoat as mc
    >>> particles = mc.Dispersion(mfft="15 degC")
    >>> carrier = mc.Blend({"water": 95, "dipropylene glycol methyl ether": 5}, basis="volume")
    >>> particles.film_formation_temperature(carrier, solids="30 %").to("degC") < 0
    True
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, *, mfft: Temperature | str | Estimate | HasUnits, pigment: Ratio | str | Estimate | HasUnits | None = None) -> Dispersion: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def film_formation_temperature(self, /, volatile: Blend, *, solids: Ratio | str | Estimate | HasUnits) -> Estimate:
        """
        The same with the coalescing aid (glycol ethers) of a carrier: 2.5 K lower for each mass per cent on the binder, up to
        12 % (common practice). ``solids``: volume solids of the wet paint.
        """
    @staticmethod
    def from_json(text: str) -> Dispersion:
        """
        The particles from what ``to_json`` wrote. Raises ``DataError`` for other text, with the line and what is wrong.
        """
    @property
    def mfft(self, /) -> Estimate:
        """
        Minimum film-formation temperature without coalescing aid.
        """
    def to_json(self, /) -> str:
        """
        The particles as JSON text, which ``from_json`` reads back without loss; the Rust crate reads the same.
        """

@final
class DropRecipe:
    """
    A recipe in whole drops, with the error that rounding makes.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @property
    def amount_error(self, /) -> float | None:
        """
        (made - wanted)/wanted of the amount; ``None`` when no amount was wanted.
        """
    @staticmethod
    def from_json(text: str) -> DropRecipe:
        """
        The recipe from what ``to_json`` wrote. Raises ``DataError`` for other text, with the line and what is wrong.
        """
    @property
    def paint_drops(self, /) -> int:
        """
        Number of drops of stock paint.
        """
    @property
    def paint_fraction(self, /) -> Estimate:
        """
        Paint fraction with the spread from drop volumes and counting.
        """
    @property
    def ratio_error(self, /) -> float:
        """
        (made - wanted)/wanted of thinner per paint.
        """
    @property
    def thinner_drops(self, /) -> int:
        """
        Number of drops of thinner.
        """
    @property
    def thinning(self, /) -> Thinning:
        """
        The thinning that the counts of drops make.
        """
    def to_json(self, /) -> str:
        """
        The recipe as JSON text, which ``from_json`` reads back without loss; the Rust crate reads the same.
        """
    @property
    def total(self, /) -> Volume:
        """
        Volume of the mix that the drops make.
        """

@final
class Dropper:
    """
    A dropper, pipette or bottle tip: ``Dropper(tip="3 mm")``.

    ``tip`` is the outer diameter, which a liquid that wets the tip hangs from; ``bore`` is for a liquid that does not wet
    it. ``by_hand=True`` adds the 5 % by which drops let fall by hand are heavier. ``Dropper.weighed`` and
    ``Dropper.counted`` are better than the theory: use them for your own liquid.

    >>> import mistcoat as mc
    >>> d = mc.Dropper.weighed(drops=20, mass="0.41 g", density="0.88 g/mL")
    >>> print(d.drop_volume().best)
    23.3 µL
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, *, tip: Length | str | Estimate | HasUnits | None = None, bore: Length | str | Estimate | HasUnits | None = None, by_hand: bool = False) -> Dropper: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> Dropper: ...
    @staticmethod
    def counted(drops: SupportsIndex, volume: Volume | str | Estimate | HasUnits) -> Dropper:
        """
        Drops counted into a graduated syringe or cylinder. Good for that liquid only.
        """
    def drop_volume(self, /, liquid: Any | None = None, temperature: Any | None = None, *, surface_tension: SurfaceTension | str | Estimate | HasUnits | None = None, density: Density | str | Estimate | HasUnits | None = None, viscosity: DynamicViscosity | str | Estimate | HasUnits | None = None) -> Estimate:
        """
        Volume of one drop of a liquid, with its interval: ±10 %, ±35 % above 100 mPa s.

        ``liquid`` is anything that answers ``surface_tension(temperature)`` and ``density(temperature)``, such as a
        ``Blend``; or give ``surface_tension`` and ``density`` (and ``viscosity`` of a thick liquid). A weighed or counted
        dropper needs none of them.
        """
    @property
    def tip_diameter(self, /) -> Length | None:
        """
        Diameter of the circle from which the drop hangs; ``None`` for a measured dropper.
        """
    @staticmethod
    def tip_from_drop(drop: Volume | str | Estimate | HasUnits, surface_tension: SurfaceTension | str | Estimate | HasUnits, density: Density | str | Estimate | HasUnits) -> Dropper:
        """
        The tip that gives this drop of this liquid: measure with water, then use it for other liquids.
        """
    @staticmethod
    def weighed(drops: SupportsIndex, mass: Mass | str | Estimate | HasUnits, density: Density | str | Estimate | HasUnits) -> Dropper:
        """
        Drops weighed together: 20 of them on a scale that reads 0.01 g. Good for that liquid only.
        """

@final
class Drying:
    """
    The course of one drying coat.

    The curves are float64 arrays with one entry for each of ``time_s``; ``columns()`` has them all under names with their
    units, ready for a data frame. "Lost" counts only what the coat arrived with, not water taken up from the air.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __len__(self, /) -> int: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def amounts(self, /) -> dict[str, NDArray[float64]]:
        """
        By species: mass, as a share of the volatile mass that the coat arrived with.
        """
    @property
    def blush(self, /) -> Blush:
        """
        Highest humidity without dew on this coat, and the margin in its room.

        Raises ``RangeError`` for a waterborne coat, which does not blush.
        """
    def chart(self, /) -> Any:
        """
        The course as a matplotlib figure (needs matplotlib: ``pip install mistcoat[charts]``): marks with their ranges, what
        is left of each liquid, film temperature against room and dew point, thickness.
        """
    @property
    def coldest(self, /) -> Temperature:
        """
        Lowest film temperature.
        """
    def columns(self, /) -> dict[str, NDArray[float64]]:
        """
        All curves by names with their units, ready for ``pandas.DataFrame`` or ``polars.DataFrame``.
        """
    @property
    def composition(self, /) -> dict[str, NDArray[float64]]:
        """
        By species: mass fraction among the volatiles in the film.
        """
    def composition_at(self, /, time: Time | str | Estimate | HasUnits) -> dict[str, float]:
        """
        Mass fractions of the volatiles in the film at one time, by species.
        """
    @property
    def film(self, /) -> Film:
        """
        The coat that dried.
        """
    @property
    def flash_off(self, /) -> Estimate:
        """
        When 90 % by mass of the volatile matter that the wet coat arrived with has left.

        ISO 4618 describes flash-off in words (most of the volatile matter leaves before the next coat) and gives no number;
        90 % is the number used here, ``time_to_lose`` has any other. Raises ``RangeError`` when the coat never gets there.
        """
    @staticmethod
    def from_json(text: str) -> Drying:
        """
        The course from what ``to_json`` wrote. Raises ``DataError`` for other text, with the line and what is wrong.
        """
    @property
    def handle(self, /) -> Estimate:
        """
        When the part may be handled and masked: block-free, 21 K above the glass transition; painted faces pressed
        together for seconds come apart clean.

        Raises ``RangeError`` as ``touch_dry``.
        """
    @property
    def most_lost(self, /) -> Ratio:
        """
        Most volatile matter lost while the coat was followed.
        """
    @property
    def recoat(self, /) -> Estimate:
        """
        The earliest sensible time for another coat of another paint: block-free, the same as ``handle``.

        No published rule says when a lacquer may be recoated; a next coat with strong solvents may lift it even then.
        For passes of the same coat see ``flash_off``. Raises ``RangeError`` as ``touch_dry``.
        """
    def residual_solvent(self, /, time: Time | str | Estimate | HasUnits) -> Estimate:
        """
        Solvent left at a time, as a share of its volume and that of the solids; water from the air does not count.

        Raises ``RangeError`` for a negative time, one beyond ``until``, or a coat without solids.
        """
    @property
    def solvent_left(self, /) -> NDArray[float64]:
        """
        Share of the volatile mass that the coat arrived with and still holds, 1 to 0.
        """
    @property
    def species(self, /) -> list[str]:
        """
        Names of the volatile species; a petroleum cut appears as its surrogates, water from the air comes last.
        """
    @property
    def temperature_degC(self, /) -> NDArray[float64]:
        """
        Film temperature in °C.
        """
    @property
    def thickness_um(self, /) -> NDArray[float64]:
        """
        Film thickness in µm, solids and liquid.
        """
    @property
    def time_s(self, /) -> NDArray[float64]:
        """
        Times in seconds, from zero.
        """
    def time_to_lose(self, /, share: Ratio | str | Estimate | HasUnits) -> Estimate:
        """
        When this share (by mass) of the volatile matter has left, more than 0 and at most 99.9 %.

        Raises ``RangeError`` when the coat does not lose it while it is followed; the message says what holds it.
        """
    def to_json(self, /) -> str:
        """
        The course as JSON text, which ``from_json`` reads back without loss; the Rust crate reads the same.
        """
    @property
    def touch_dry(self, /) -> Estimate:
        """
        When a light touch takes nothing away: the film has come to 55 K above its glass transition (set-to-touch of
        ASTM D1640), or the particles of a waterborne coat touch and its water is down to 5 % by volume.

        Raises ``RangeError`` for a coat without such a binder, and for one that stays soft; for paints that harden by oxygen
        the message has the range of common practice.
        """
    @property
    def viscosity_mPa_s(self, /) -> NDArray[float64]:
        """
        Viscosity of the film in mPa s, one for each of ``time_s``.

        Raises ``RangeError`` for a film whose flow is not known: take that of a ``Mix``, or ``Flow(...).on(film)``.
        """
    @property
    def warnings(self, /) -> list[str]:
        """
        What to mind: dew on the cold film, missing activity parameters; empty when there is nothing.
        """
    def working(self, /) -> Working:
        """
        The steps behind the curves, with numbers and sources.
        """

@final
class DryingTable:
    """
    A blend as it dries on the evaporation scale: dry air, 25 °C, n-butyl acetate = 1.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __len__(self, /) -> int: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> DryingTable: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def class_at_90(self, /) -> str:
        """
        Class of what is left when 90 % are lost.
        """
    @property
    def class_fresh(self, /) -> str:
        """
        Class of the fresh blend.
        """
    @property
    def mass_lost(self, /) -> list[float]:
        """
        Share of the mass lost, row by row, 0 to 1.
        """
    @property
    def overall_rate(self, /) -> Estimate:
        """
        Rate over the loss of 90 % of the mass, as the scale is defined.
        """
    @property
    def relative_rate(self, /) -> list[float]:
        """
        Rate of each moment, n-butyl acetate = 1.
        """
    @property
    def residue(self, /) -> dict[str, list[float]]:
        """
        Mass fraction of every species in what is left, row by row.
        """
    def table(self, /) -> Table:
        """
        The rows as a table: text, HTML, columns for a data frame.
        """
    @property
    def time(self, /) -> list[float]:
        """
        Time so far, in units of the time in which the same volume of n-butyl acetate loses 90 %.
        """
    @property
    def warnings(self, /) -> list[str]:
        """
        What to mind; empty when there is nothing.
        """

@final
class DynamicViscosity:
    """
    A value of dimension DynamicViscosity with its unit: ``DynamicViscosity("18 mPa.s")`` or ``DynamicViscosity(number, unit)``.

    Immutable. ``.to(unit)`` gives the number, ``format(q, ".3g unit")`` prints it. Compares, adds and scales within its dimension; hashes and pickles.
    """
    def __abs__(self, /) -> DynamicViscosity: ...
    def __add__(self, other: object, /) -> DynamicViscosity: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __format__(self, /, spec: str) -> str: ...
    def __ge__(self, value: object, /) -> bool: ...
    def __getnewargs__(self, /) -> tuple[float, str]: ...
    def __gt__(self, value: object, /) -> bool: ...
    def __hash__(self, /) -> int: ...
    def __le__(self, value: object, /) -> bool: ...
    def __lt__(self, value: object, /) -> bool: ...
    def __mul__(self, factor: object, /) -> DynamicViscosity: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __neg__(self, /) -> DynamicViscosity: ...
    def __new__(cls, /, value: float | DynamicViscosity | str | Estimate | HasUnits, unit: str | None = None) -> DynamicViscosity: ...
    def __repr__(self, /) -> str: ...
    def __rmul__(self, factor: object, /) -> DynamicViscosity: ...
    def __str__(self, /) -> str: ...
    def __sub__(self, other: object, /) -> DynamicViscosity: ...
    def __truediv__(self, divisor: object, /) -> Any:
        """
        A quantity over its like is a plain number; over a number it is scaled.
        """
    def to(self, /, unit: str) -> float:
        """
        The number in the named unit.
        """
    @staticmethod
    def units() -> list[str]:
        """
        The units understood, the SI unit first.
        """

@final
class Estimate:
    """
    A value with the interval that holds it with the stated coverage, what the spread comes from, the
    warnings that go with it and the working behind it.

    ``best``, ``low`` and ``high`` are quantities (or floats for plain numbers); ``to(unit)`` gives the best
    value as a number and ``interval(unit)`` the two ends. An ``Estimate`` may be passed wherever its
    quantity is wanted; its spread is carried on.
    """
    def __eq__(self, other: object, /) -> bool: ...
    def __float__(self, /) -> float: ...
    def __format__(self, /, spec: str) -> str: ...
    def __hash__(self, /) -> int: ...
    def __reduce__(self, /) -> tuple[Any, tuple[tuple[str, float, float, float, float, str, str, str | None]]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @staticmethod
    def _from_state(state: tuple[str, SupportsFloat | SupportsIndex, SupportsFloat | SupportsIndex, SupportsFloat | SupportsIndex, SupportsFloat | SupportsIndex, str, str, str | None]) -> Estimate: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def best(self, /) -> Any:
        """
        The best single value.
        """
    @property
    def contributors(self, /) -> list[tuple[str, float]]:
        """
        What the spread comes from: (cause, share of the variance), largest first.
        """
    @property
    def coverage(self, /) -> float:
        """
        Probability that the interval holds the true value, as far as the stated causes go.
        """
    @property
    def high(self, /) -> Any:
        """
        Upper end of the interval.
        """
    def interval(self, /, unit: str) -> tuple[float, float]:
        """
        The two ends of the interval as numbers in the named unit.
        """
    @property
    def low(self, /) -> Any:
        """
        Lower end of the interval.
        """
    def to(self, /, unit: str) -> float:
        """
        The best value as a number in the named unit.
        """
    @property
    def warnings(self, /) -> list[str]:
        """
        What to mind; empty when there is nothing.
        """
    def working(self, /) -> Working:
        """
        The steps behind the value, with formulas, numbers and sources.
        """

@final
class EvaporationTest:
    """
    A published way of measuring how fast a liquid evaporates, run by the drying engine: for liquids without a published
    rate, and for blends, which dry by themselves and not as an average of their parts.

    ``EvaporationTest.paper()``: filter paper in dry air (ASTM D3539), n-butyl acetate = 1.
    ``EvaporationTest.metal_plate()``: a metal plate that stays at 25 °C, n-butyl acetate = 1; nearer to a thin coat on metal.
    ``EvaporationTest.spot()``: a spot on paper in room air (DIN 53170), diethyl ether = 1, larger is slower.

    Measured root mean square factors against published lists: 1.17 (37 liquids), 1.14 (13) and 1.17 (13).

    >>> import mistcoat as mc
    >>> thinner = mc.Blend({"acetone": 50, "n-butyl acetate": 35, "2-butoxyethanol": 15}, basis="mass")
    >>> 0.9 < mc.EvaporationTest.paper().rate(thinner).best < 1.1
    True
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __hash__(self, /) -> int: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @property
    def end(self, /) -> Ratio:
        """
        Share of the mass lost at the end of the test: 90 %, of a spot 99 %.
        """
    @staticmethod
    def from_json(text: str) -> EvaporationTest:
        """
        The test from what ``to_json`` wrote. Raises ``DataError`` for other text, with the line and what is wrong.
        """
    @staticmethod
    def metal_plate() -> EvaporationTest:
        """
        A smooth, heavy metal plate at 25 °C, where nothing cools; n-butyl acetate = 1.
        """
    @staticmethod
    def paper() -> EvaporationTest:
        """
        Filter paper in dry air, as the standard evaporometer (ASTM D3539) has it; n-butyl acetate = 1.
        """
    def rate(self, /, liquid: Blend | Solvent | str) -> Estimate:
        """
        The number that a table would print: relative evaporation rate on paper and metal, evaporation number of a spot.

        ``liquid`` is a ``Blend``, a ``Solvent`` or a name. Raises ``RangeError`` for what does not evaporate within a year.
        """
    @staticmethod
    def spot() -> EvaporationTest:
        """
        A spot on paper in room air, until it is gone (DIN 53170); diethyl ether = 1, larger is slower.
        """
    def time_to_lose(self, /, liquid: Blend | Solvent | str, share: Ratio | str | Estimate | HasUnits) -> Estimate:
        """
        The time in which the liquid loses this share of its mass in the test, more than 0 and at most 99.5 %.

        The constant of transfer is that of the paper test; only there was a time published (470 s for n-butyl acetate).
        """
    def to_json(self, /) -> str:
        """
        The test as JSON text, which ``from_json`` reads back without loss; the Rust crate reads the same.
        """

@final
class ExposureLimit:
    """
    One exposure limit as its authority gives it.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __hash__(self, /) -> int: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> ExposureLimit: ...
    @property
    def droplets(self, /) -> bool:
        """
        Whether it counts floating droplets, not vapour.
        """
    @property
    def name(self, /) -> str:
        """
        Whose limit, for example "OSHA PEL".
        """
    @property
    def note(self, /) -> str | None:
        """
        Remark that goes with the limit, or ``None``.
        """
    @property
    def over(self, /) -> str:
        """
        Over what time: "8 h", "15 min", "ceiling" or "immediate danger".
        """
    @property
    def source(self, /) -> PropertySource:
        """
        Source of the limit, with its citation.
        """
    @property
    def value(self, /) -> Any:
        """
        The limit: a ratio (ppm) or a mass concentration.
        """

@final
class Film:
    """
    A wet coat in a room.

    ``wet`` is a ``Mix`` (its volume solids stay) or a ``Blend`` (everything may leave but the ``solids`` given, none
    unless given). The air is one ``room``, or a ``programme`` that changes with time. ``wet_thickness`` 1 µm to 5 mm; when it is an ``Estimate`` its spread is carried on, else 15 % is taken. ``substrate``: "polystyrene", "abs", "resin", "wood", "card", "glass",
    "brass", "steel" (see ``Film.substrates()``), "free film" or "isothermal"; ``substrate_thickness`` its thickness, the
    usual one unless given. ``binder_tg``: glass transition of the dry binder, for the marks of a film that hardens by
    losing solvent; ``binder``: a ``Binder`` with more of its properties, or a ``Dispersion`` for particles in water. A ``Mix`` brings its own. ``part_length`` along the draught, 100 mm unless given. ``until``: how long the coat is
    followed at most, 7 d unless given. Values outside raise ``RangeError``, unknown names ``UnknownName``.

    >>> import mistcoat as mc
    >>> thinner = mc.Blend({"acetone": 50, "n-butyl acetate": 35, "2-butoxyethanol": 15}, basis="mass")
    >>> room = mc.Room(temperature="25 degC", relative_humidity="50 %", air_speed="0.2 m/s")
    >>> dry = mc.Film(thinner, wet_thickness="25 um", room=room, solids="15 %").dry()
    >>> 140 < dry.flash_off.to("s") < 155
    True
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, wet: Mix | Blend, *, wet_thickness: Length | str | Estimate | HasUnits, room: Room | None = None, programme: Programme | None = None, substrate: str = "polystyrene", solids: Ratio | str | Estimate | HasUnits | None = None, substrate_thickness: Length | str | Estimate | HasUnits | None = None, binder_tg: Temperature | str | Estimate | HasUnits | None = None, binder: Binder | Dispersion | None = None, part_length: Length | str | Estimate | HasUnits | None = None, until: Time | str | Estimate | HasUnits | None = None) -> Film: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    def dry(self, /) -> Drying:
        """
        Dries the coat; takes well under a millisecond. Gives a ``MistcoatWarning`` when dew may form on it.
        """
    @property
    def dry_build(self, /) -> Length:
        """
        Thickness of the solids of this coat and of all under it.
        """
    @property
    def dry_thickness(self, /) -> Length:
        """
        Thickness of the solids by themselves.
        """
    @property
    def film_formation_temperature(self, /) -> Estimate | None:
        """
        Minimum film-formation temperature of a waterborne coat with its coalescing aid; ``None`` for others.
        """
    @staticmethod
    def from_json(text: str) -> Film:
        """
        The coat from what ``to_json`` wrote. Raises ``DataError`` for other text, with the line and what is wrong.
        """
    def over(self, /, under: Film, wait: Time | str | Estimate | HasUnits) -> Film:
        """
        This coat, sprayed on ``under`` when that has dried for ``wait``; its times count from its own landing. See ``Stack``.

        Raises ``RangeError`` for a wait outside 0 s to 365 d, more than 50 coats, and coats that differ in substrate, part length
        or binder.
        """
    @property
    def oxidative_cure(self, /) -> OxidativeCure | None:
        """
        How long the paint of a ``Mix`` hardens by oxygen after its solvent has left (alkyd enamel, artists' oil): ranges of
        common practice, with the caution about oily rags; ``None`` for others.
        """
    @property
    def programme(self, /) -> Programme:
        """
        The air it dries in, from the start on.
        """
    @property
    def room(self, /) -> Room:
        """
        The room it dries in, at first when there is a programme.
        """
    @property
    def solids(self, /) -> Ratio:
        """
        Share of the wet volume that stays.
        """
    @property
    def substrate(self, /) -> str:
        """
        What it lies on, with its thickness.
        """
    @staticmethod
    def substrates() -> list[str]:
        """
        Names of the substrates with thermal data.
        """
    def to_json(self, /) -> str:
        """
        The coat as JSON text, which ``from_json`` reads back without loss; the Rust crate reads the same.
        """
    @property
    def volatile(self, /) -> Blend:
        """
        Everything that may leave.
        """
    @property
    def wet_thickness(self, /) -> Length:
        """
        Thickness of the wet coat, before anything has left it.
        """
    def with_yield_stress(self, /, yield_stress: Pressure | str | Estimate | HasUnits) -> Film:
        """
        This coat with a yield stress, 0 to 100 Pa, as it lies wet: it hangs where its weight does not reach it. None is taken
        unless given; see ``hanging_thickness``.

        Raises ``RangeError`` outside that range, and for a coat whose flow is not known.

        >>> import mistcoat as mc
        >>> mix = mc.Paint.typical("alkyd enamel", name="hull green").thin("white spirit", thinner=1, paint=2)
        >>> room = mc.Room(temperature="21 degC", relative_humidity="50 %")
        >>> stiff = mc.Film(mix, wet_thickness="50 um", room=room).with_yield_stress("1 Pa")
        >>> mc.lay(stiff).sag.to("mm")
        0.0
        """

@final
class FilmWindow:
    """
    The answer to ``film_window``.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @staticmethod
    def from_json(text: str) -> FilmWindow:
        """
        The answer from what ``to_json`` wrote. Raises ``DataError`` for other text, with the line and what is wrong.
        """
    @property
    def is_empty(self, /) -> bool:
        """
        Whether no thickness both levels and holds.
        """
    @property
    def thickest(self, /) -> Estimate | None:
        """
        Thickest wet film that does not run; ``None`` when there is no such end.
        """
    @property
    def thinnest(self, /) -> Estimate | None:
        """
        Thinnest wet film that levels; ``None`` when there is no such end, see ``warnings``.
        """
    def to_json(self, /) -> str:
        """
        The answer as JSON text, which ``from_json`` reads back without loss; the Rust crate reads the same.
        """
    @property
    def warnings(self, /) -> list[str]:
        """
        An empty window, or one without an end.
        """

@final
class FlammableLimit:
    """
    Lower flammable limit of the vapour of a liquid, all evaporated, with the limit and source of each part.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> FlammableLimit: ...
    @property
    def cautions(self, /) -> list[str]:
        """
        What goes with the number wherever it is shown; never empty, and who decides comes last.
        """
    @property
    def is_from_memory(self, /) -> bool:
        """
        Whether any of them is from memory and needs checking against the safety data sheet.
        """
    @property
    def limit(self, /) -> Ratio:
        """
        Share of the air by volume.
        """
    @property
    def sources(self, /) -> list[str]:
        """
        Where each of them stands, and the rule that joins them, with how far to trust it.
        """
    @property
    def terms(self, /) -> list[str]:
        """
        Limit of each vapour, in words.
        """

@final
class FlammableLiquid:
    """
    How readily a liquid catches fire, with the flash point behind it; its text tells when that is from memory.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> FlammableLiquid: ...
    @property
    def cautions(self, /) -> list[str]:
        """
        What to mind; never empty, and who decides comes last.
        """
    @property
    def flash_point(self, /) -> Temperature | None:
        """
        Flash point, closed cup; computed for a blend, ``None`` where it has none.
        """
    @property
    def is_from_memory(self, /) -> bool:
        """
        Whether a flash point behind it is from memory and needs checking against the safety data sheet.
        """
    @property
    def sources(self, /) -> list[str]:
        """
        Where flash points and classes stand, with how far to trust each.
        """
    @property
    def words(self, /) -> str:
        """
        The class of its flash point in words.
        """

@final
class Flow:
    """
    How a wet coat flows and thickens, for a ``Film`` that is not of a ``Mix``: ``viscosity`` of the wet coat at
    ``temperature``, ``thicker`` a list of (volume solids, viscosity) it comes to as it dries, in rising order.

    ``surface_tension`` is 27 mN/m and ``density`` 1 g/mL, each within 10 %, unless given. ``yield_stress`` is that of a coat that
    stiffens at rest, 0 to 100 Pa; none unless given. Estimates carry their spread on.
    Raises ``RangeError`` for values out of order or range.

    >>> import mistcoat as mc
    >>> flow = mc.Flow("60 mPa.s", temperature="21 degC", thicker=[("30 %", "1 Pa.s")], surface_tension="25 mN/m")
    >>> room = mc.Room(temperature="21 degC", relative_humidity="50 %")
    >>> blend = mc.Blend({"n-butyl acetate": 1}, basis="mass")
    >>> film = mc.Film(blend, wet_thickness="20 um", room=room, solids="15 %", binder_tg="50 degC")
    >>> 0 <= mc.lay(flow.on(film)).levelling.to("%") < 100
    True
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, viscosity: DynamicViscosity | str | Estimate | HasUnits, *, temperature: Temperature | str | Estimate | HasUnits, thicker: SupportsGetItem[int, tuple[Ratio | str | Estimate | HasUnits, DynamicViscosity | str | Estimate | HasUnits]] | None = None, surface_tension: SurfaceTension | str | Estimate | HasUnits | None = None, density: Density | str | Estimate | HasUnits | None = None, yield_stress: Pressure | str | Estimate | HasUnits | None = None) -> Flow: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    @property
    def density(self, /) -> Estimate:
        """
        Density of the wet coat.
        """
    @staticmethod
    def from_json(text: str) -> Flow:
        """
        The flow from what ``to_json`` wrote. Raises ``DataError`` for other text, with the line and what is wrong.
        """
    def on(self, /, film: Film) -> Film:
        """
        The same film with this flow.
        """
    @property
    def surface_tension(self, /) -> Estimate:
        """
        Surface tension of the wet coat.
        """
    def to_json(self, /) -> str:
        """
        The flow as JSON text, which ``from_json`` reads back without loss; the Rust crate reads the same.
        """
    @property
    def viscosity(self, /) -> Estimate:
        """
        Viscosity of the wet coat.
        """
    @property
    def yield_stress(self, /) -> Estimate | None:
        """
        Yield stress of the wet coat; ``None`` unless given.
        """

@final
class FlowCup:
    """
    A flow cup: seconds to kinematic viscosity and back.

    ``FlowCup("ISO 2431", 4)``; likewise ``("ASTM D1200", 4)``, ``("ASTM D4212 Zahn", 2)``, ``("ASTM D4212 Shell", 2.5)``,
    ``("DIN 53211", 4)``, ``("GB/T 1723", 4)``. ``FlowCup.list()`` gives them all, ``FlowCup.calibrate`` makes one from a
    syringe barrel or a drilled cup. Times outside the cup's range give a value with a warning that names a cup that
    would serve; times at or below ``zero_time`` raise ``RangeError``. Newtonian liquids only.

    >>> import mistcoat as mc
    >>> cup = mc.FlowCup("ISO 2431", 4)
    >>> print(cup.kinematic_viscosity("35 s").best, cup.efflux_time("40 mm2/s").best)
    42.2 mm2/s 33.5 s
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __hash__(self, /) -> int: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, standard: str, size: float | str) -> FlowCup: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    def anchored(self, /, viscosity: KinematicViscosity | str | Estimate | HasUnits, time: Time | str | Estimate | HasUnits) -> FlowCup:
        """
        Stretches this cup down to a thin liquid timed in it, such as water: ``v = K t - B/t`` through that reading and
        as close as may be to the standard's equation.
        """
    @staticmethod
    def calibrate(readings: SupportsGetItem[int, tuple[KinematicViscosity | str | Estimate | HasUnits, Time | str | Estimate | HasUnits]], name: str = "home-made cup") -> FlowCup:
        """
        Builds a home-made cup from timed liquids of known viscosity: ``[(viscosity, time), ...]``, at least two.

        ``ReferenceLiquid.water()`` and ``ReferenceLiquid.glycerol_water("60 %")`` give viscosities with their
        uncertainty; times may be those of ``time()``. Raises ``RangeError`` when the readings are too few, too close
        or contradict each other.
        """
    @property
    def calibration(self, /) -> Calibration | None:
        """
        How a home-made cup was calibrated; ``None`` for others.
        """
    def efflux_time(self, /, viscosity: KinematicViscosity | str | Estimate | HasUnits) -> Estimate:
        """
        Efflux time to expect of a liquid of known kinematic viscosity.
        """
    @staticmethod
    def from_json(text: str) -> FlowCup:
        """
        The cup from what ``to_json`` wrote. Raises ``DataError`` for other text, with the line and what is wrong.
        """
    @property
    def kind(self, /) -> str:
        """
        "standard", "withdrawn standard", "fit to a published table" or "home-made".
        """
    def kinematic_viscosity(self, /, time: Time | str | Estimate | HasUnits) -> Estimate:
        """
        Kinematic viscosity of a liquid that ran out in ``time``, with its interval, warnings and working.
        """
    @staticmethod
    def list() -> list[FlowCup]:
        """
        All cups of the catalogue; fits to published tables are named as such (``kind``).
        """
    @property
    def name(self, /) -> str:
        """
        Standard and size, or the name of a home-made cup.
        """
    @property
    def note(self, /) -> str:
        """
        What else to know about this cup; may be empty.
        """
    @property
    def orifice(self, /) -> Length | None:
        """
        Diameter of the hole, where known.
        """
    @property
    def precision_source(self, /) -> str:
        """
        Citation of the precision.
        """
    @property
    def repeatability(self, /) -> Ratio:
        """
        Share of the mean by which two results of one operator may differ, at 95 %.
        """
    @property
    def reproducibility(self, /) -> Ratio:
        """
        Share of the mean by which results of two laboratories may differ, at 95 %.
        """
    @property
    def size(self, /) -> str:
        """
        Size within the standard; empty for a home-made cup.
        """
    @property
    def source(self, /) -> str:
        """
        Citation of the equation.
        """
    @property
    def standard(self, /) -> str:
        """
        Name of the standard.
        """
    @property
    def temperature(self, /) -> Temperature | None:
        """
        Temperature at which the liquid is timed; ``None`` for a home-made cup.
        """
    def time(self, /, *runs: "Time | str | Estimate | HasUnits") -> Estimate:
        """
        Mean of repeat runs: ``cup.time("35.1 s", "34.6 s")``. Two runs more than 5 % apart ask for a third; of three or
        more, a run more than 5 % from the middle one is dropped, with a warning.
        """
    @property
    def time_range(self, /) -> tuple[Time, Time]:
        """
        Times between which the equation holds.
        """
    def to_json(self, /) -> str:
        """
        The cup as JSON text, which ``from_json`` reads back without loss; the Rust crate reads the same.
        """
    @property
    def viscosity_range(self, /) -> tuple[KinematicViscosity, KinematicViscosity]:
        """
        Viscosities the cup is meant for.
        """
    @property
    def zero_time(self, /) -> Time:
        """
        Time at which the equation gives zero viscosity; shorter times are refused.
        """

@final
class Frequency:
    """
    A value of dimension Frequency with its unit: ``Frequency("1 /h")`` or ``Frequency(number, unit)``.

    Immutable. ``.to(unit)`` gives the number, ``format(q, ".3g unit")`` prints it. Compares, adds and scales within its dimension; hashes and pickles.
    """
    def __abs__(self, /) -> Frequency: ...
    def __add__(self, other: object, /) -> Frequency: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __format__(self, /, spec: str) -> str: ...
    def __ge__(self, value: object, /) -> bool: ...
    def __getnewargs__(self, /) -> tuple[float, str]: ...
    def __gt__(self, value: object, /) -> bool: ...
    def __hash__(self, /) -> int: ...
    def __le__(self, value: object, /) -> bool: ...
    def __lt__(self, value: object, /) -> bool: ...
    def __mul__(self, factor: object, /) -> Frequency: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __neg__(self, /) -> Frequency: ...
    def __new__(cls, /, value: float | Frequency | str | Estimate | HasUnits, unit: str | None = None) -> Frequency: ...
    def __repr__(self, /) -> str: ...
    def __rmul__(self, factor: object, /) -> Frequency: ...
    def __str__(self, /) -> str: ...
    def __sub__(self, other: object, /) -> Frequency: ...
    def __truediv__(self, divisor: object, /) -> Any:
        """
        A quantity over its like is a plain number; over a number it is scaled.
        """
    def to(self, /, unit: str) -> float:
        """
        The number in the named unit.
        """
    @staticmethod
    def units() -> list[str]:
        """
        The units understood, the SI unit first.
        """

@final
class Gloss:
    """
    The surface of a glossy film after Saunderson: what a meter reads above it, and what the film gives back.

    ``mirrored`` is the share of light mirrored at right angles, ``thrown_back`` that thrown back inside; 4 % and 60 %
    serve for a binder of refractive index 1.5. ``mirrored_is_seen`` for a meter that counts the mirrored light.

    >>> from mistcoat import hiding
    >>> gloss = hiding.Gloss()
    >>> round(gloss.internal("80 %"), 3)
    0.926
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, mirrored: float | Ratio | str | Estimate | HasUnits | None = None, thrown_back: float | Ratio | str | Estimate | HasUnits | None = None, *, mirrored_is_seen: bool = False) -> Gloss: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> Gloss: ...
    def internal(self, /, measured: float | Ratio | str | Estimate | HasUnits) -> float:
        """
        What the film gives back, from the reading above it. Raises ``RangeError`` for a reading no film gives.
        """
    def measured(self, /, internal: float | Ratio | str | Estimate | HasUnits) -> float:
        """
        What the meter reads above a film that gives back ``internal``.
        """
    @property
    def mirrored(self, /) -> float:
        """
        Share of the light mirrored at right angles.
        """
    @property
    def mirrored_is_seen(self, /) -> bool:
        """
        Whether the meter counts the mirrored light.
        """
    @property
    def thrown_back(self, /) -> float:
        """
        Share of the light thrown back inside.
        """

@final
class GunAir:
    """
    The air in the spray at one distance from the nozzle.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> GunAir: ...
    @property
    def distance(self, /) -> Length:
        """
        Distance from the nozzle.
        """
    @property
    def evaporated(self, /) -> Ratio:
        """
        Share of the sprayed solvent that is vapour there.
        """
    @property
    def share_of_limit(self, /) -> Estimate:
        """
        Share of the lower flammable limit, vapour alone.
        """
    @property
    def vapour(self, /) -> Ratio:
        """
        Vapour on the axis, by volume of air.
        """
    @property
    def with_mist(self, /) -> Estimate:
        """
        Share of the lower flammable limit with all solvent counted as vapour: what burns in a mist.
        """

@final
class GunWash:
    """
    A rinse of one gun after a layer.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> GunWash: ...
    @property
    def after(self, /) -> str:
        """
        Name of the layer that was in the gun.
        """
    @property
    def change(self, /) -> Change | None:
        """
        The change of colour, where both shades are known.
        """
    @property
    def cleaner(self, /) -> Estimate:
        """
        Cleaner in all, with its interval.
        """
    @property
    def cleaner_name(self, /) -> str:
        """
        Name of the cleaner that is poured.
        """
    @property
    def split(self, /) -> Split:
        """
        Portions of cleaner.
        """
    @property
    def why(self, /) -> str:
        """
        Why so much cleaner.
        """

@final
class Hansen:
    """
    Hansen solubility parameters: dispersion, polar, hydrogen bonding.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __getnewargs__(self, /) -> tuple[SolubilityParameter, SolubilityParameter, SolubilityParameter]: ...
    def __hash__(self, /) -> int: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, d: SolubilityParameter | str | Estimate | HasUnits, p: SolubilityParameter | str | Estimate | HasUnits, h: SolubilityParameter | str | Estimate | HasUnits) -> Hansen: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @property
    def d(self, /) -> SolubilityParameter:
        """
        Part of the solubility parameter due to dispersion.
        """
    @property
    def h(self, /) -> SolubilityParameter:
        """
        Part of the solubility parameter due to hydrogen bonding.
        """
    @property
    def p(self, /) -> SolubilityParameter:
        """
        Part of the solubility parameter due to polarity.
        """

@final
class HidingPower:
    """
    How well a paint hides: the scattering coefficient of its dry film and the reflectance of a film that hides.

    Best fitted from your own card, ``from_card_passes`` or ``from_readings``; ``typical`` is a judgement by colour, good to a
    factor 2 either way. Optics of Kubelka and Munk; one luminous reflectance stands for the colour. Not for metallics.

    >>> from mistcoat import hiding
    >>> green = hiding.HidingPower.from_card_passes("hull green", "deep green", passes=6, dry_per_pass="2 um")
    >>> print(green.passes_to_hide("1.5 um").whole)  # thinned more: less dry film a pass
    8
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, name: str, *, scattering: OpticalCoefficient | str | Estimate | HasUnits, reflectivity: float | Ratio | str | Estimate | HasUnits, gloss: Gloss | None = None, source: str = "own measurement") -> HidingPower: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def contrast_ratio(self, /, dry: Length | str | Estimate | HasUnits, ground: float | Ratio | str | Estimate | HasUnits | tuple[float | Ratio | str | Estimate | HasUnits, float | Ratio | str | Estimate | HasUnits] | None = None) -> Estimate:
        """
        Contrast of this dry film over a ground, 1 when nothing shows. ``ground`` is ``"card"``, the reflectance of an
        even undercoat, or ``(darkest, lightest)``.
        """
    @staticmethod
    def from_card_passes(name: str, colour: str, *, passes: SupportsIndex, dry_per_pass: Length | str | Estimate | HasUnits, reflectivity: float | Ratio | str | Estimate | HasUnits | None = None) -> HidingPower:
        """
        Fitted to the first count of passes at which the black and the white of a card look alike.

        ``colour`` is the class that gives the reflectivity, unless you measured one. The truth lies within the last pass.
        """
    @staticmethod
    def from_json(text: str) -> HidingPower:
        """
        The paint from what ``to_json`` wrote. Raises ``DataError`` for other text, with the line and what is wrong.
        """
    @staticmethod
    def from_readings(name: str, *, over_black: float | Ratio | str | Estimate | HasUnits, over_white: float | Ratio | str | Estimate | HasUnits, dry: Length | str | Estimate | HasUnits, black: float | Ratio | str | Estimate | HasUnits = ..., white: float | Ratio | str | Estimate | HasUnits = ..., std: float | Ratio | str | Estimate | HasUnits = ..., gloss: Gloss | None = None) -> HidingPower:
        """
        Fitted to two readings of one dry film over the black and the white of a card.

        ``black`` and ``white`` are readings of the bare card, ``std`` the standard uncertainty of a reading. With ``gloss``
        the surface is taken off all four. Raises ``RangeError`` when the film hides already or no film gives the readings.
        """
    @property
    def name(self, /) -> str:
        """
        Name the paint was given.
        """
    def passes_to_hide(self, /, dry_per_pass: Length | str | Estimate | HasUnits, ground: float | Ratio | str | Estimate | HasUnits | tuple[float | Ratio | str | Estimate | HasUnits, float | Ratio | str | Estimate | HasUnits] | None = None, *, contrast: float | Ratio | str | Estimate | HasUnits | None = None) -> Passes:
        """
        Passes until the ground no longer shows, each leaving ``dry_per_pass``.
        """
    def reflectance(self, /, dry: Length | str | Estimate | HasUnits, ground: float | Ratio | str | Estimate | HasUnits) -> Estimate:
        """
        Reflectance of this dry film over a ground, as a meter reads it.
        """
    @property
    def reflectivity(self, /) -> Estimate:
        """
        Reflectance of a film that hides, without its surface.
        """
    @property
    def scattering(self, /) -> Estimate:
        """
        Scattering coefficient of the dry film.
        """
    @property
    def source(self, /) -> str:
        """
        Source of the values, in full.
        """
    def thickness_to_hide(self, /, ground: float | Ratio | str | Estimate | HasUnits | tuple[float | Ratio | str | Estimate | HasUnits, float | Ratio | str | Estimate | HasUnits] | None = None, *, contrast: float | Ratio | str | Estimate | HasUnits | None = None) -> Estimate:
        """
        Dry film at which the ground no longer shows: contrast of 0.98 unless ``contrast`` is given.
        """
    def to_json(self, /) -> str:
        """
        The paint as JSON text, which ``from_json`` reads back without loss; the Rust crate reads the same.
        """
    @staticmethod
    def typical(colour: str, *, gloss: Gloss | None = None) -> HidingPower:
        """
        A paint known by its colour class only; ``colour_classes()`` lists them. Raises ``UnknownName`` with near names.
        """

@final
class Identification:
    """
    How likely each kind of paint is, and what to try next.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def best(self, /) -> str:
        """
        Name of the likeliest kind.
        """
    @property
    def cautions(self, /) -> list[str]:
        """
        What to mind while testing.
        """
    @property
    def clues(self, /) -> list[str]:
        """
        What was said, with what to know about it.
        """
    @staticmethod
    def from_json(text: str) -> Identification:
        """
        The answer from what ``to_json`` wrote. Raises ``DataError`` for other text, with the line and what is wrong.
        """
    @property
    def is_settled(self, /) -> bool:
        """
        Whether one kind has 95 % or more.
        """
    @property
    def likelihoods(self, /) -> dict[str, float]:
        """
        Likelihood of every kind, 0 to 1, likeliest first.
        """
    @property
    def next_test(self, /) -> PaintTest | None:
        """
        The most telling test that is left; ``None`` when no test would tell anything.
        """
    @property
    def source(self, /) -> str:
        """
        Where the shares behind the likelihoods come from.
        """
    def table(self, /) -> Table:
        """
        Kinds with their likelihoods, clues, next test and cautions.
        """
    @property
    def tests_left(self, /) -> list[PaintTest]:
        """
        Tests not made yet, most telling first.
        """
    def to_json(self, /) -> str:
        """
        The answer as JSON text, which ``from_json`` reads back without loss; the Rust crate reads the same.
        """

@final
class Job:
    """
    Targets of a job: "base coat", "fine lines", "soft edge", "over a mask", "gloss clear", "metallic", "primer".

    The usual targets are common practice; each may be changed by name. ``contrast`` (98 % of ISO 6504 for a base coat and
    over a mask) takes the place of ``dry_film`` for a ``Setup`` with ``hiding``. ``touch_dry_within`` and ``recoat_within`` limit
    how long a coat may dry; longer is the fault "slow drying".

    >>> import mistcoat as mc
    >>> mine = mc.Job("base coat", dry_film="8 um", most_passes=6)
    >>> print(mine.dry_film, mine.largest_drop)
    8 µm 50 µm
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, name: str, *, dry_film: Length | str | Estimate | HasUnits | None = None, contrast: float | Ratio | str | Estimate | HasUnits | None = None, most_passes: SupportsFloat | SupportsIndex | None = None, largest_drop: Length | str | Estimate | HasUnits | None = None, ripple_left: Ratio | str | Estimate | HasUnits | None = None, touch_dry_within: Time | str | Estimate | HasUnits | None = None, recoat_within: Time | str | Estimate | HasUnits | None = None) -> Job: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> Job: ...
    @property
    def contrast(self, /) -> Ratio | None:
        """
        Contrast at which the ground counts as hidden; ``None`` where the colour need not hide it.
        """
    @property
    def dry_film(self, /) -> Length:
        """
        Dry film to build over all passes.
        """
    @property
    def largest_drop(self, /) -> Length:
        """
        Coarsest drops, by their Sauter mean.
        """
    @staticmethod
    def list() -> list[str]:
        """
        Names of the usual jobs.
        """
    @property
    def most_passes(self, /) -> float:
        """
        Most passes over one place.
        """
    @property
    def name(self, /) -> str:
        """
        Its name, as the table of usual jobs has it.
        """
    @property
    def note(self, /) -> str:
        """
        What matters in it, in a sentence.
        """
    @property
    def recoat_within(self, /) -> Time | None:
        """
        Longest time until the next coat may go on; ``None`` without a limit.
        """
    @property
    def ripple_left(self, /) -> Ratio | None:
        """
        Share of the ripple that may be left; ``None`` where it does not matter.
        """
    @property
    def touch_dry_within(self, /) -> Time | None:
        """
        Longest time until a coat is touch dry; ``None`` without a limit.
        """

@final
class Judged:
    """
    What a setting does: margins from every fault, film, drying.

    >>> import mistcoat as mc
    >>> green = mc.Paint.typical("alcohol acrylic", name="hull green")
    >>> gun = mc.Airbrush(nozzle="0.3 mm", pressure="25 psi", distance="65 mm")
    >>> room = mc.Room(temperature="23 degC", relative_humidity="50 %")
    >>> setup = mc.Setup(green, "isopropanol", airbrush=gun, room=room, substrate="wood")
    >>> judged = setup.judge("base coat")
    >>> list(judged.margins)[0] == judged.worst
    True
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> Judged: ...
    @property
    def coldest(self, /) -> Temperature:
        """
        Lowest film temperature while it dries.
        """
    @property
    def drop_size(self, /) -> Length:
        """
        Sauter mean of the drops.
        """
    @property
    def dry_film(self, /) -> Length:
        """
        Dry film to build over all passes: that of the job, or the one that hides.
        """
    @property
    def dry_per_pass(self, /) -> Length:
        """
        Dry film of one pass.
        """
    @property
    def flash_off(self, /) -> Time | None:
        """
        Flash-off of one wet-in-wet coat; ``None`` when it never gets there, or lands as dust.
        """
    @property
    def flight_loss(self, /) -> Ratio:
        """
        Share of the volatile mass lost in flight.
        """
    @property
    def is_good(self, /) -> bool:
        """
        Whether every limit holds at best values.
        """
    @property
    def margins(self, /) -> dict[str, float]:
        """
        By fault, nearest first: standard uncertainties inside its limit, below zero outside.
        """
    @property
    def passes(self, /) -> float:
        """
        Passes until the dry film to build is there.
        """
    @property
    def reasons(self, /) -> dict[str, str]:
        """
        By fault, nearest first: the number behind it and its limit.
        """
    @property
    def recoat(self, /) -> Time | None:
        """
        When the next coat may go on: block-free for a lacquer, the earliest sensible time; common practice for a waterborne or
        oxidising paint; ``None`` for a film that stays softer, or lands as dust.
        """
    @property
    def target(self, /) -> str:
        """
        What that dry film is for, in words.
        """
    @property
    def touch_dry(self, /) -> Time | None:
        """
        Touch dry; ``None`` where the film has no such mark.
        """
    @property
    def water_from_air(self, /) -> Ratio:
        """
        Water that the drops took from the air, as a share of the volume that lands.
        """
    @property
    def wet_film(self, /) -> Length:
        """
        Wet film of one coat, laid wet in wet.
        """
    @property
    def wet_passes(self, /) -> float:
        """
        Passes that make one coat, laid wet in wet.
        """
    @property
    def wet_per_pass(self, /) -> Length:
        """
        Wet film of one pass where it lands.
        """
    @property
    def worst(self, /) -> str:
        """
        The fault that is nearest, or met by most.
        """

@final
class Judgement:
    """
    The answer to "does this go with that?": "fine", "test first" or "no", why, and the trial that settles it.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def cautions(self, /) -> list[str]:
        """
        What to mind while trying.
        """
    @staticmethod
    def from_json(text: str) -> Judgement:
        """
        The judgement from what ``to_json`` wrote. Raises ``DataError`` for other text, with the line and what is wrong.
        """
    @property
    def question(self, /) -> str:
        """
        The question about the two layers that this answers.
        """
    @property
    def reasons(self, /) -> list[str]:
        """
        Why, sternest first.
        """
    @property
    def sources(self, /) -> list[str]:
        """
        Where each reason comes from.
        """
    def table(self, /) -> Table:
        """
        Reasons, trial, sources and cautions as a table.
        """
    def to_json(self, /) -> str:
        """
        The judgement as JSON text, which ``from_json`` reads back without loss; the Rust crate reads the same.
        """
    @property
    def trial(self, /) -> str:
        """
        The trial on scrap that settles it.
        """
    @property
    def verdict(self, /) -> str:
        """
        "fine", "test first" or "no".
        """

@final
class KinematicViscosity:
    """
    A value of dimension KinematicViscosity with its unit: ``KinematicViscosity("40 mm2/s")`` or ``KinematicViscosity(number, unit)``.

    Immutable. ``.to(unit)`` gives the number, ``format(q, ".3g unit")`` prints it. Compares, adds and scales within its dimension; hashes and pickles.
    """
    def __abs__(self, /) -> KinematicViscosity: ...
    def __add__(self, other: object, /) -> KinematicViscosity: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __format__(self, /, spec: str) -> str: ...
    def __ge__(self, value: object, /) -> bool: ...
    def __getnewargs__(self, /) -> tuple[float, str]: ...
    def __gt__(self, value: object, /) -> bool: ...
    def __hash__(self, /) -> int: ...
    def __le__(self, value: object, /) -> bool: ...
    def __lt__(self, value: object, /) -> bool: ...
    def __mul__(self, factor: object, /) -> KinematicViscosity: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __neg__(self, /) -> KinematicViscosity: ...
    def __new__(cls, /, value: float | KinematicViscosity | str | Estimate | HasUnits, unit: str | None = None) -> KinematicViscosity: ...
    def __repr__(self, /) -> str: ...
    def __rmul__(self, factor: object, /) -> KinematicViscosity: ...
    def __str__(self, /) -> str: ...
    def __sub__(self, other: object, /) -> KinematicViscosity: ...
    def __truediv__(self, divisor: object, /) -> Any:
        """
        A quantity over its like is a plain number; over a number it is scaled.
        """
    def to(self, /, unit: str) -> float:
        """
        The number in the named unit.
        """
    @staticmethod
    def units() -> list[str]:
        """
        The units understood, the SI unit first.
        """

@final
class Lay:
    """
    The answer to ``lay``.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @property
    def blush(self, /) -> Blush | None:
        """
        Limit humidity and margin; ``None`` for a waterborne coat.
        """
    @property
    def factors(self, /) -> dict[str, float]:
        """
        Factor by which the coat keeps from each limit ("levelling", "sag", "blush"), nearest first: above 1 it holds.
        """
    @property
    def first_limit(self, /) -> str | None:
        """
        The limit that is hit first.
        """
    @staticmethod
    def from_json(text: str) -> Lay:
        """
        The answer from what ``to_json`` wrote. Raises ``DataError`` for other text, with the line and what is wrong.
        """
    @property
    def levelling(self, /) -> Estimate:
        """
        Share of the height of the ripple that is left, 0 to 1.
        """
    @property
    def lies_well(self, /) -> bool:
        """
        Whether every limit holds.
        """
    @property
    def sag(self, /) -> Estimate:
        """
        Way of the surface down the face.
        """
    def to_json(self, /) -> str:
        """
        The answer as JSON text, which ``from_json`` reads back without loss; the Rust crate reads the same.
        """
    @property
    def warnings(self, /) -> list[str]:
        """
        Warnings of this result, in words; empty when there are none.
        """
    @property
    def wavelength(self, /) -> Estimate:
        """
        Wavelength of the ripple.
        """

@final
class Layer:
    """
    One coat of a stack: its name, its family, where it belongs ("primer", "between" or "finish"), and how long it waits
    before the next coat (as long as it needs unless given).
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, name: str, family: str, *, place: str = "between", wait: Time | str | Estimate | HasUnits | None = None) -> Layer: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> Layer: ...
    @property
    def family(self, /) -> str:
        """
        Family of the paint, by its name.
        """
    @property
    def name(self, /) -> str:
        """
        Name of the layer, as it was given.
        """
    @property
    def wait(self, /) -> Time | None:
        """
        How long it waits before the next coat; ``None``: as long as it needs.
        """

@final
class Length:
    """
    A value of dimension Length with its unit: ``Length("0.3 mm")`` or ``Length(number, unit)``.

    Immutable. ``.to(unit)`` gives the number, ``format(q, ".3g unit")`` prints it. Compares, adds and scales within its dimension; hashes and pickles.
    """
    def __abs__(self, /) -> Length: ...
    def __add__(self, other: object, /) -> Length: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __format__(self, /, spec: str) -> str: ...
    def __ge__(self, value: object, /) -> bool: ...
    def __getnewargs__(self, /) -> tuple[float, str]: ...
    def __gt__(self, value: object, /) -> bool: ...
    def __hash__(self, /) -> int: ...
    def __le__(self, value: object, /) -> bool: ...
    def __lt__(self, value: object, /) -> bool: ...
    def __mul__(self, factor: object, /) -> Length: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __neg__(self, /) -> Length: ...
    def __new__(cls, /, value: float | Length | str | Estimate | HasUnits, unit: str | None = None) -> Length: ...
    def __repr__(self, /) -> str: ...
    def __rmul__(self, factor: object, /) -> Length: ...
    def __str__(self, /) -> str: ...
    def __sub__(self, other: object, /) -> Length: ...
    def __truediv__(self, divisor: object, /) -> Any:
        """
        A quantity over its like is a plain number; over a number it is scaled.
        """
    def to(self, /, unit: str) -> float:
        """
        The number in the named unit.
        """
    @staticmethod
    def units() -> list[str]:
        """
        The units understood, the SI unit first.
        """

@final
class MaskEdge:
    """
    The answer to ``mask_edge``.

    >>> import mistcoat as mc
    >>> mix = mc.Paint.typical("solvent lacquer", name="hull green").thin("n-butyl acetate", thinner=1, paint=1)
    >>> edge = mc.mask_edge(mc.Film(mix, wet_thickness="8 um", room=mc.Room(temperature="21 degC", relative_humidity="50 %")), coats=3)
    >>> edge.height > edge.step.best
    True
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @property
    def bleed(self, /) -> Estimate:
        """
        How far paint creeps along a channel under the mask, where there is one.
        """
    @property
    def coats(self, /) -> int:
        """
        Coats laid, each dry before the next.
        """
    @staticmethod
    def from_json(text: str) -> MaskEdge:
        """
        The answer from what ``to_json`` wrote. Raises ``DataError`` for other text, with the line and what is wrong.
        """
    @property
    def height(self, /) -> Length:
        """
        Top of the ridge above the face under the mask, best value.
        """
    @property
    def lift_from(self, /) -> Estimate | None:
        """
        Earliest time to lift the mask, counted from the last coat: touch dry; ``None`` for a coat without one.
        """
    @property
    def lift_until(self, /) -> Estimate | None:
        """
        Latest time before the film is hard and chips along the edge: block-free; ``None`` for a coat without one.
        """
    @property
    def ridge(self, /) -> Estimate:
        """
        Ridge at the edge, above the film.
        """
    @property
    def step(self, /) -> Estimate:
        """
        Dry film of all coats.
        """
    def to_json(self, /) -> str:
        """
        The answer as JSON text, which ``from_json`` reads back without loss; the Rust crate reads the same.
        """
    @property
    def warnings(self, /) -> list[str]:
        """
        Warnings of this result, in words; empty when there are none.
        """

@final
class Mass:
    """
    A value of dimension Mass with its unit: ``Mass("0.41 g")`` or ``Mass(number, unit)``.

    Immutable. ``.to(unit)`` gives the number, ``format(q, ".3g unit")`` prints it. Compares, adds and scales within its dimension; hashes and pickles.
    """
    def __abs__(self, /) -> Mass: ...
    def __add__(self, other: object, /) -> Mass: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __format__(self, /, spec: str) -> str: ...
    def __ge__(self, value: object, /) -> bool: ...
    def __getnewargs__(self, /) -> tuple[float, str]: ...
    def __gt__(self, value: object, /) -> bool: ...
    def __hash__(self, /) -> int: ...
    def __le__(self, value: object, /) -> bool: ...
    def __lt__(self, value: object, /) -> bool: ...
    def __mul__(self, factor: object, /) -> Mass: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __neg__(self, /) -> Mass: ...
    def __new__(cls, /, value: float | Mass | str | Estimate | HasUnits, unit: str | None = None) -> Mass: ...
    def __repr__(self, /) -> str: ...
    def __rmul__(self, factor: object, /) -> Mass: ...
    def __str__(self, /) -> str: ...
    def __sub__(self, other: object, /) -> Mass: ...
    def __truediv__(self, divisor: object, /) -> Any:
        """
        A quantity over its like is a plain number; over a number it is scaled.
        """
    def to(self, /, unit: str) -> float:
        """
        The number in the named unit.
        """
    @staticmethod
    def units() -> list[str]:
        """
        The units understood, the SI unit first.
        """

@final
class MassConcentration:
    """
    A value of dimension MassConcentration with its unit: ``MassConcentration("420 g/L")`` or ``MassConcentration(number, unit)``.

    Immutable. ``.to(unit)`` gives the number, ``format(q, ".3g unit")`` prints it. Compares, adds and scales within its dimension; hashes and pickles.
    """
    def __abs__(self, /) -> MassConcentration: ...
    def __add__(self, other: object, /) -> MassConcentration: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __format__(self, /, spec: str) -> str: ...
    def __ge__(self, value: object, /) -> bool: ...
    def __getnewargs__(self, /) -> tuple[float, str]: ...
    def __gt__(self, value: object, /) -> bool: ...
    def __hash__(self, /) -> int: ...
    def __le__(self, value: object, /) -> bool: ...
    def __lt__(self, value: object, /) -> bool: ...
    def __mul__(self, factor: object, /) -> MassConcentration: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __neg__(self, /) -> MassConcentration: ...
    def __new__(cls, /, value: float | MassConcentration | str | Estimate | HasUnits, unit: str | None = None) -> MassConcentration: ...
    def __repr__(self, /) -> str: ...
    def __rmul__(self, factor: object, /) -> MassConcentration: ...
    def __str__(self, /) -> str: ...
    def __sub__(self, other: object, /) -> MassConcentration: ...
    def __truediv__(self, divisor: object, /) -> Any:
        """
        A quantity over its like is a plain number; over a number it is scaled.
        """
    def to(self, /, unit: str) -> float:
        """
        The number in the named unit.
        """
    @staticmethod
    def units() -> list[str]:
        """
        The units understood, the SI unit first.
        """

@final
class MassFlux:
    """
    A value of dimension MassFlux with its unit: ``MassFlux("0.19 g/(m2.s)")`` or ``MassFlux(number, unit)``.

    Immutable. ``.to(unit)`` gives the number, ``format(q, ".3g unit")`` prints it. Compares, adds and scales within its dimension; hashes and pickles.
    """
    def __abs__(self, /) -> MassFlux: ...
    def __add__(self, other: object, /) -> MassFlux: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __format__(self, /, spec: str) -> str: ...
    def __ge__(self, value: object, /) -> bool: ...
    def __getnewargs__(self, /) -> tuple[float, str]: ...
    def __gt__(self, value: object, /) -> bool: ...
    def __hash__(self, /) -> int: ...
    def __le__(self, value: object, /) -> bool: ...
    def __lt__(self, value: object, /) -> bool: ...
    def __mul__(self, factor: object, /) -> MassFlux: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __neg__(self, /) -> MassFlux: ...
    def __new__(cls, /, value: float | MassFlux | str | Estimate | HasUnits, unit: str | None = None) -> MassFlux: ...
    def __repr__(self, /) -> str: ...
    def __rmul__(self, factor: object, /) -> MassFlux: ...
    def __str__(self, /) -> str: ...
    def __sub__(self, other: object, /) -> MassFlux: ...
    def __truediv__(self, divisor: object, /) -> Any:
        """
        A quantity over its like is a plain number; over a number it is scaled.
        """
    def to(self, /, unit: str) -> float:
        """
        The number in the named unit.
        """
    @staticmethod
    def units() -> list[str]:
        """
        The units understood, the SI unit first.
        """

@final
class Material:
    """
    A paint, thinner or cleaner to bring.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> Material: ...
    def as_dict(self, /) -> dict[str, str]:
        """
        Kind, name and amounts as text, for a list.
        """
    @property
    def cost(self, /) -> float | None:
        """
        What the total costs; ``None`` without a price.
        """
    @property
    def each(self, /) -> Volume:
        """
        For one person, of the cleaner for one gun; with margin.
        """
    @property
    def kind(self, /) -> str:
        """
        "paint", "thinner" or "cleaner".
        """
    @property
    def name(self, /) -> str:
        """
        Name of the paint, or name or recipe of the liquid.
        """
    @property
    def total(self, /) -> Volume:
        """
        For all people or guns; with margin.
        """
    @property
    def used(self, /) -> Estimate:
        """
        What all will use, without margin.
        """

@final
class Mix:
    """
    A paint thinned to a stated degree.

    Made by ``Paint.thin`` and ``Paint.thin_to``; answers for viscosity, seconds in a cup, solids, film build, VOC,
    drops and settling. Volumes are measured at 20 °C and taken to add. Temperatures are 0 to 50 °C; ``RangeError``
    outside.

    >>> import mistcoat as mc
    >>> thinner = mc.Blend({"acetone": 50, "n-butyl acetate": 35, "2-butoxyethanol": 15}, basis="mass")
    >>> mix = mc.demo_paint("hull green").thin(thinner, thinner=1, paint=1)
    >>> print(mix.viscosity("21 degC").best)
    17.7 mPa.s
    >>> print(mix.dry_film("25 um").best)
    2.75 µm
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @property
    def compatibility(self, /) -> list[str]:
        """
        What is known to go wrong between this family and this thinner, one text each; empty when nothing is.
        """
    def density(self, /, temperature: Temperature | str | Estimate | HasUnits | None = None) -> Estimate:
        """
        Density at a temperature, with its interval; ideal volumes.

        ``temperature`` is 0 to 50 °C, 20 °C unless given; ``RangeError`` outside.
        """
    def drops(self, /, *, dropper: Dropper, total: Volume | str | Estimate | HasUnits | None = None, thinner_dropper: Dropper | None = None, temperature: Temperature | str | Estimate | HasUnits | None = None) -> MixDrops:
        """
        Whole drops of paint and thinner for this mix, near ``total`` when given.

        ``dropper`` serves both liquids unless ``thinner_dropper`` is given; the drop of each liquid is its own.
        ``temperature`` is 0 to 50 °C, 20 °C unless given. ``total`` lies between one drop of paint with its thinner and
        2000 drops. Raises ``RangeError`` outside these limits.
        """
    def dry_film(self, /, wet: Length | str | Estimate | HasUnits) -> Estimate:
        """
        Dry film that a wet film of this mix leaves, with its interval: ``wet`` times ``volume_solids``.

        ``wet`` is a thickness above 0, for example ``"25 um"``; ``RangeError`` for others.
        """
    def efflux_time(self, /, cup: FlowCup, temperature: Temperature | str | Estimate | HasUnits) -> Estimate:
        """
        Seconds to expect in a flow cup, with their interval; warns and names cups that serve when the mix is too thin
        for this one.

        ``temperature`` is 0 to 50 °C. Raises ``RangeError`` outside, or where the cup's equation ends.
        """
    @staticmethod
    def from_json(text: str) -> Mix:
        """
        The mix from what ``to_json`` wrote. Raises ``DataError`` for other text, with the line and what is wrong.
        """
    def kinematic_viscosity(self, /, temperature: Temperature | str | Estimate | HasUnits) -> Estimate:
        """
        Kinematic viscosity at a temperature, with its interval: dynamic viscosity over density.

        ``temperature`` is 0 to 50 °C. Raises ``RangeError`` outside, or for a thinner thicker than the paint.
        """
    @property
    def paint(self, /) -> Paint:
        """
        The stock paint that was thinned.
        """
    @property
    def paint_fraction(self, /) -> float:
        """
        Volume of stock paint per volume of mix, above 0 up to 1.
        """
    def settling_time(self, /, depth: Length | str | Estimate | HasUnits, temperature: Temperature | str | Estimate | HasUnits) -> Estimate:
        """
        Time until the top ``depth`` of the cup is clear of pigment, with its interval: stir well before.

        ``depth`` is above 0, for example ``"2 mm"``; ``temperature`` is 0 to 50 °C. Raises ``RangeError`` outside, for
        pigment lighter than the liquid or above 40 % of the mix, and for grit too coarse for Stokes' law.
        """
    def settling_velocity(self, /, temperature: Temperature | str | Estimate | HasUnits) -> Velocity:
        """
        Speed at which the pigment sinks, best value.

        ``temperature`` is 0 to 50 °C. Raises ``RangeError`` outside, for pigment lighter than the liquid or above 40 %
        of the mix, and for grit too coarse for Stokes' law.
        """
    @property
    def thinner(self, /) -> Blend:
        """
        What the paint was thinned with, as a ``Blend``.
        """
    @property
    def thinner_per_paint(self, /) -> float:
        """
        Parts of thinner to one part of paint, by volume: 0 or above.
        """
    @property
    def thinning(self, /) -> Thinning:
        """
        How far the paint is thinned, in every wording.
        """
    def to_json(self, /) -> str:
        """
        The mix as JSON text, which ``from_json`` reads back without loss; the Rust crate reads the same.
        """
    def viscosity(self, /, temperature: Temperature | str | Estimate | HasUnits) -> Estimate:
        """
        Dynamic viscosity at a temperature, with its interval.

        ``temperature`` is 0 to 50 °C. Raises ``RangeError`` outside, or for a thinner thicker than the paint; warns
        when the paint's viscosity is only typical of its family.
        """
    def voc(self, /) -> Voc:
        """
        Volatile organic content in g/L: total, and less water and exempt solvents.

        Raises ``RangeError`` when water and exempt solvents are all there is.
        """
    @property
    def volatile(self, /) -> Blend:
        """
        All that evaporates: carrier and thinner together, as a ``Blend``.
        """
    @property
    def volume_solids(self, /) -> Estimate:
        """
        Volume of dry film per volume of mix, 0 to 1, with its interval.
        """
    def wet_film(self, /, dry: Length | str | Estimate | HasUnits) -> Estimate:
        """
        Wet film of this mix that leaves the wanted dry film, with its interval: ``dry`` over ``volume_solids``.

        ``dry`` is a thickness above 0, for example ``"5 um"``; ``RangeError`` for others.
        """
    def working(self, /) -> Working:
        """
        What is in the mix and how its solids follow, step by step, with formulas, numbers and sources.
        """

@final
class MixDrops:
    """
    A mix in whole drops, from ``Mix.drops``: ``recipes``, best first, and the drop of each liquid.

    >>> import mistcoat as mc
    >>> thinner = mc.Blend({"acetone": 50, "n-butyl acetate": 35, "2-butoxyethanol": 15}, basis="mass")
    >>> mix = mc.demo_paint("hull green").thin(thinner, thinner=2, paint=1)
    >>> thick = mc.Dropper.weighed(drops=20, mass="0.41 g", density="0.98 g/mL")
    >>> thin = mc.Dropper.weighed(drops=20, mass="0.29 g", density="0.84 g/mL")
    >>> drops = mix.drops(total="1 mL", dropper=thick, thinner_dropper=thin)
    >>> drops.thinner_drops, drops.paint_drops
    (39, 16)
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @staticmethod
    def from_json(text: str) -> MixDrops:
        """
        The recipes from what ``to_json`` wrote. Raises ``DataError`` for other text, with the line and what is wrong.
        """
    @property
    def paint_drop(self, /) -> Estimate:
        """
        Volume of one drop of the stock paint, with its interval.
        """
    @property
    def paint_drops(self, /) -> int:
        """
        Number of drops of stock paint in the best recipe.
        """
    @property
    def recipes(self, /) -> list[DropRecipe]:
        """
        The recipes, best first; there is always one.
        """
    @property
    def thinner_drop(self, /) -> Estimate:
        """
        Volume of one drop of the thinner, with its interval.
        """
    @property
    def thinner_drops(self, /) -> int:
        """
        Number of drops of thinner in the best recipe.
        """
    def to_json(self, /) -> str:
        """
        The recipes as JSON text, which ``from_json`` reads back without loss; the Rust crate reads the same.
        """
    @property
    def warnings(self, /) -> list[str]:
        """
        What to mind about the drops, one text each; empty when there is nothing.
        """
    def working(self, /) -> Working:
        """
        The steps behind the volume of each drop, with formulas, numbers and sources.
        """

@final
class MixtureExposure:
    """
    Several vapours against their limits.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> MixtureExposure: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def cautions(self, /) -> list[str]:
        """
        Cautions on what the numbers leave out; show them beside the numbers.
        """
    @property
    def shares(self, /) -> dict[str, float]:
        """
        Share of each vapour in the sum, largest first.
        """
    @property
    def sources(self, /) -> list[PropertySource]:
        """
        Where each limit stands, in the order of ``shares``.
        """
    @property
    def sum(self, /) -> float:
        """
        Sum of concentration over limit; 1 is the limit.
        """
    def table(self, /) -> Table:
        """
        Vapours, limits, shares, sources and cautions.
        """
    @property
    def without_limit(self, /) -> list[str]:
        """
        Vapours without a known limit: not counted, so that the sum is a lower bound.
        """

@final
class MolarEnergy:
    """
    A value of dimension MolarEnergy with its unit: ``MolarEnergy("43.9 kJ/mol")`` or ``MolarEnergy(number, unit)``.

    Immutable. ``.to(unit)`` gives the number, ``format(q, ".3g unit")`` prints it. Compares, adds and scales within its dimension; hashes and pickles.
    """
    def __abs__(self, /) -> MolarEnergy: ...
    def __add__(self, other: object, /) -> MolarEnergy: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __format__(self, /, spec: str) -> str: ...
    def __ge__(self, value: object, /) -> bool: ...
    def __getnewargs__(self, /) -> tuple[float, str]: ...
    def __gt__(self, value: object, /) -> bool: ...
    def __hash__(self, /) -> int: ...
    def __le__(self, value: object, /) -> bool: ...
    def __lt__(self, value: object, /) -> bool: ...
    def __mul__(self, factor: object, /) -> MolarEnergy: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __neg__(self, /) -> MolarEnergy: ...
    def __new__(cls, /, value: float | MolarEnergy | str | Estimate | HasUnits, unit: str | None = None) -> MolarEnergy: ...
    def __repr__(self, /) -> str: ...
    def __rmul__(self, factor: object, /) -> MolarEnergy: ...
    def __str__(self, /) -> str: ...
    def __sub__(self, other: object, /) -> MolarEnergy: ...
    def __truediv__(self, divisor: object, /) -> Any:
        """
        A quantity over its like is a plain number; over a number it is scaled.
        """
    def to(self, /, unit: str) -> float:
        """
        The number in the named unit.
        """
    @staticmethod
    def units() -> list[str]:
        """
        The units understood, the SI unit first.
        """

@final
class MolarMass:
    """
    A value of dimension MolarMass with its unit: ``MolarMass("116.16 g/mol")`` or ``MolarMass(number, unit)``.

    Immutable. ``.to(unit)`` gives the number, ``format(q, ".3g unit")`` prints it. Compares, adds and scales within its dimension; hashes and pickles.
    """
    def __abs__(self, /) -> MolarMass: ...
    def __add__(self, other: object, /) -> MolarMass: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __format__(self, /, spec: str) -> str: ...
    def __ge__(self, value: object, /) -> bool: ...
    def __getnewargs__(self, /) -> tuple[float, str]: ...
    def __gt__(self, value: object, /) -> bool: ...
    def __hash__(self, /) -> int: ...
    def __le__(self, value: object, /) -> bool: ...
    def __lt__(self, value: object, /) -> bool: ...
    def __mul__(self, factor: object, /) -> MolarMass: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __neg__(self, /) -> MolarMass: ...
    def __new__(cls, /, value: float | MolarMass | str | Estimate | HasUnits, unit: str | None = None) -> MolarMass: ...
    def __repr__(self, /) -> str: ...
    def __rmul__(self, factor: object, /) -> MolarMass: ...
    def __str__(self, /) -> str: ...
    def __sub__(self, other: object, /) -> MolarMass: ...
    def __truediv__(self, divisor: object, /) -> Any:
        """
        A quantity over its like is a plain number; over a number it is scaled.
        """
    def to(self, /, unit: str) -> float:
        """
        The number in the named unit.
        """
    @staticmethod
    def units() -> list[str]:
        """
        The units understood, the SI unit first.
        """

@final
class MolarVolume:
    """
    A value of dimension MolarVolume with its unit: ``MolarVolume("132.6 cm3/mol")`` or ``MolarVolume(number, unit)``.

    Immutable. ``.to(unit)`` gives the number, ``format(q, ".3g unit")`` prints it. Compares, adds and scales within its dimension; hashes and pickles.
    """
    def __abs__(self, /) -> MolarVolume: ...
    def __add__(self, other: object, /) -> MolarVolume: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __format__(self, /, spec: str) -> str: ...
    def __ge__(self, value: object, /) -> bool: ...
    def __getnewargs__(self, /) -> tuple[float, str]: ...
    def __gt__(self, value: object, /) -> bool: ...
    def __hash__(self, /) -> int: ...
    def __le__(self, value: object, /) -> bool: ...
    def __lt__(self, value: object, /) -> bool: ...
    def __mul__(self, factor: object, /) -> MolarVolume: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __neg__(self, /) -> MolarVolume: ...
    def __new__(cls, /, value: float | MolarVolume | str | Estimate | HasUnits, unit: str | None = None) -> MolarVolume: ...
    def __repr__(self, /) -> str: ...
    def __rmul__(self, factor: object, /) -> MolarVolume: ...
    def __str__(self, /) -> str: ...
    def __sub__(self, other: object, /) -> MolarVolume: ...
    def __truediv__(self, divisor: object, /) -> Any:
        """
        A quantity over its like is a plain number; over a number it is scaled.
        """
    def to(self, /, unit: str) -> float:
        """
        The number in the named unit.
        """
    @staticmethod
    def units() -> list[str]:
        """
        The units understood, the SI unit first.
        """

@final
class NearGun:
    """
    How near to burning the air at the gun is; prints as a table with the cautions under it.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> NearGun: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def air_for_quarter(self, /) -> Estimate:
        """
        Fresh air that keeps the vapour of this gun at a quarter of the limit, evenly mixed.
        """
    @property
    def around(self, /) -> Estimate:
        """
        Share of the lower flammable limit within half a metre of the work; adds to what the room already holds.
        """
    @property
    def burns_to(self, /) -> Length:
        """
        Up to here the spray, mist and all, passes the limit.
        """
    @property
    def cautions(self, /) -> list[str]:
        """
        What goes with the numbers wherever they are shown; never empty, and who decides comes last.
        """
    @property
    def citations(self, /) -> list[str]:
        """
        Citations of what the numbers rest on, each with how far to trust it.
        """
    @property
    def limit(self, /) -> FlammableLimit:
        """
        Lower flammable limit of all that evaporates.
        """
    @property
    def places(self, /) -> list[GunAir]:
        """
        The air in the spray, from near to far.
        """
    @property
    def quarter_to(self, /) -> Length:
        """
        Up to here it passes a quarter of the limit.
        """
    def table(self, /) -> Table:
        """
        Places in the spray, and the cautions under them.
        """
    @property
    def warnings(self, /) -> list[str]:
        """
        What to mind; never empty.
        """
    def working(self, /) -> Working:
        """
        Formulas with numbers and sources.
        """

@final
class OpenCup:
    """
    A small open pot with a mix in it.

    ``diameter`` 5 to 500 mm across the liquid, ``depth`` 0.2 to 300 mm as poured, ``freeboard`` 0 to 300 mm from the liquid
    to the rim (0 mm unless given: full, and as fast as it can go). ``pot`` is a substrate name, ``wall`` its thickness (1 mm of
    polystyrene unless given). ``until``: how long it is followed, 4 h unless given, 7 d at most. Values outside raise
    ``RangeError``, unknown names ``UnknownName``.

    >>> import mistcoat as mc
    >>> thinner = mc.Blend({"acetone": 40, "n-butyl acetate": 60}, basis="volume")
    >>> mix = mc.demo_paint("hull green").thin(thinner, thinner=1, paint=1)
    >>> room = mc.Room(temperature="21 degC", relative_humidity="50 %")
    >>> course = mc.OpenCup(mix, diameter="30 mm", depth="8 mm", freeboard="10 mm", room=room).stand()
    >>> 10 < course.time_to_thicken("20 %").to("min") < 60
    True
    >>> again = course.top_up("15 min", dropper=mc.Dropper(tip="3 mm"))
    >>> again.drops.best > 5 and again.evaporation_rate.to("%") < 100
    True
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, mix: Mix, *, diameter: Length | str | Estimate | HasUnits, depth: Length | str | Estimate | HasUnits, room: Room, freeboard: Length | str | Estimate | HasUnits | None = None, pot: str | None = None, wall: Length | str | Estimate | HasUnits | None = None, until: Time | str | Estimate | HasUnits | None = None) -> OpenCup: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @property
    def depth(self, /) -> Length:
        """
        Depth of the mix as poured.
        """
    @property
    def diameter(self, /) -> Length:
        """
        Inner diameter, across the liquid.
        """
    @property
    def freeboard(self, /) -> Length:
        """
        From the liquid to the rim.
        """
    @staticmethod
    def from_json(text: str) -> OpenCup:
        """
        The cup from what ``to_json`` wrote. Raises ``DataError`` for other text, with the line and what is wrong.
        """
    @property
    def mix(self, /) -> Mix:
        """
        The mix that was poured, as a ``Mix``.
        """
    @property
    def room(self, /) -> Room:
        """
        The room it stands in.
        """
    def stand(self, /) -> CupCourse:
        """
        Lets it stand open and gives its course.
        """
    def to_json(self, /) -> str:
        """
        The cup as JSON text, which ``from_json`` reads back without loss; the Rust crate reads the same.
        """

@final
class OpticalCoefficient:
    """
    A value of dimension OpticalCoefficient with its unit: ``OpticalCoefficient("0.1 1/µm")`` or ``OpticalCoefficient(number, unit)``.

    Immutable. ``.to(unit)`` gives the number, ``format(q, ".3g unit")`` prints it. Compares, adds and scales within its dimension; hashes and pickles.
    """
    def __abs__(self, /) -> OpticalCoefficient: ...
    def __add__(self, other: object, /) -> OpticalCoefficient: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __format__(self, /, spec: str) -> str: ...
    def __ge__(self, value: object, /) -> bool: ...
    def __getnewargs__(self, /) -> tuple[float, str]: ...
    def __gt__(self, value: object, /) -> bool: ...
    def __hash__(self, /) -> int: ...
    def __le__(self, value: object, /) -> bool: ...
    def __lt__(self, value: object, /) -> bool: ...
    def __mul__(self, factor: object, /) -> OpticalCoefficient: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __neg__(self, /) -> OpticalCoefficient: ...
    def __new__(cls, /, value: float | OpticalCoefficient | str | Estimate | HasUnits, unit: str | None = None) -> OpticalCoefficient: ...
    def __repr__(self, /) -> str: ...
    def __rmul__(self, factor: object, /) -> OpticalCoefficient: ...
    def __str__(self, /) -> str: ...
    def __sub__(self, other: object, /) -> OpticalCoefficient: ...
    def __truediv__(self, divisor: object, /) -> Any:
        """
        A quantity over its like is a plain number; over a number it is scaled.
        """
    def to(self, /, unit: str) -> float:
        """
        The number in the named unit.
        """
    @staticmethod
    def units() -> list[str]:
        """
        The units understood, the SI unit first.
        """

@final
class OxidativeCure:
    """
    How long a paint takes to harden by oxygen once its solvent has left: ranges of common practice, not computed.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> OxidativeCure: ...
    @property
    def caution(self, /) -> str:
        """
        Rags that heat up by themselves.
        """
    @property
    def recoat(self, /) -> Estimate:
        """
        Until the next coat of the same paint.
        """
    @property
    def through(self, /) -> Estimate:
        """
        Until hard all the way through.
        """
    @property
    def touch(self, /) -> Estimate:
        """
        Until a light touch takes nothing away.
        """
    @property
    def words(self, /) -> str:
        """
        What speeds and slows it.
        """

@final
class Paint:
    """
    A paint as it comes in the bottle.

    ``Paint.typical(family, name)`` knows only the family and fills in typical values, marked as common practice, with
    their wide range; ``Paint.load(path)`` reads a paint file; ``calibrated(readings)`` makes it your own bottle.
    Families: waterborne acrylic, alcohol acrylic, solvent lacquer, alkyd enamel, artists' oil. Liquid paint is
    followed from 0 to 50 °C.

    >>> import mistcoat as mc
    >>> green = mc.Paint.typical("solvent lacquer", name="hull green")
    >>> print(green.volume_solids)
    22 % (15 % to 30 %)
    >>> thinner = mc.Blend({"acetone": 50, "n-butyl acetate": 35, "2-butoxyethanol": 15}, basis="mass")
    >>> own = green.calibrated([(1, "135 mPa.s", "20 degC"), (0.7, "40 mPa.s", "20 degC")], thinner=thinner)
    >>> mix = own.thin(thinner, thinner=1, paint=1)
    >>> print(mix.viscosity("20 degC").best)
    15.3 mPa.s
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @property
    def binder_tg(self, /) -> Estimate:
        """
        Glass transition temperature of the dry binder, with its interval.
        """
    def calibrated(self, /, readings: SupportsGetItem[int, tuple[float | Ratio | str | Estimate | HasUnits, DynamicViscosity | str | Estimate | HasUnits | KinematicViscosity, Temperature | str | Estimate | HasUnits] | tuple[float | Ratio | str | Estimate | HasUnits, FlowCup, Time | str | Estimate | HasUnits, Temperature | str | Estimate | HasUnits]], thinner: Blend | Solvent | str | None = None) -> Paint:
        """
        This paint with viscosity and dilution shape from readings.

        Each reading is ``(paint_fraction, viscosity, temperature)`` or ``(paint_fraction, cup, time, temperature)``;
        the fraction, above 0 up to 1, is 1 for the stock paint, the viscosity dynamic or kinematic, the temperature 0
        to 50 °C. ``thinner`` is what the thinned readings were thinned with, the paint's own carrier unless given.
        Stock readings at two temperatures 3 K or more apart also fix how it changes with temperature.

        Raises ``RangeError`` for no reading, values outside these limits, a time the cup cannot give, or readings that
        fit no dilution law; ``TypeError`` for a reading of another form.
        """
    @property
    def carrier(self, /) -> Blend:
        """
        The volatile part of the paint, which thins and then leaves, as a ``Blend``.
        """
    def density(self, /, temperature: Temperature | str | Estimate | HasUnits | None = None) -> Estimate:
        """
        Density at a temperature, with its interval; the carrier expands, the solids are taken not to.

        ``temperature`` is 0 to 50 °C, 20 °C unless given; ``RangeError`` outside.
        """
    @staticmethod
    def families() -> list[str]:
        """
        Names of the paint families, as ``typical`` and ``DilutionLaw.fit`` take them.
        """
    @property
    def family(self, /) -> str:
        """
        Name of the paint's family, one of ``families()``.
        """
    @staticmethod
    def from_json(text: str) -> Paint:
        """
        The paint from what ``to_json`` wrote. Raises ``DataError`` for other text, with the line and what is wrong.
        """
    @staticmethod
    def from_toml(text: str) -> Paint:
        """
        Reads a paint from the text of a paint file. Raises ``DataError`` with line and field.
        """
    def law(self, /, thinner: Blend | Solvent | str, temperature: Temperature | str | Estimate | HasUnits) -> DilutionLaw:
        """
        The dilution law of this paint with a thinner at a temperature, in dynamic viscosity.

        ``temperature`` is 0 to 50 °C; ``RangeError`` outside, or for a thinner thicker than the paint.
        """
    @staticmethod
    def load(path: str | PathLike[str]) -> Paint:
        """
        Reads a paint file (TOML), in which every value has its unit; what it leaves out takes the typical value of the
        family. Raises ``DataError`` with file, line and field.
        """
    @property
    def name(self, /) -> str:
        """
        Name of the paint, as given or read from its file.
        """
    @property
    def note(self, /) -> str | None:
        """
        Remark in the paint file, or ``None`` when there is none.
        """
    @property
    def pigment_density(self, /) -> Estimate:
        """
        Density of the pigment grains themselves, with its interval.
        """
    @property
    def pigment_diameter(self, /) -> Estimate:
        """
        Diameter of the pigment grains as they float, clumps counting as grains, with its interval.
        """
    @property
    def pigment_volume_concentration(self, /) -> Estimate:
        """
        Volume of pigment per volume of dry film (PVC), 0 to 1, with its interval.
        """
    def save(self, /, path: str | PathLike[str]) -> None:
        """
        Writes a paint file (TOML), replacing one that is there; typical values are left out. Raises ``DataError`` when
        the file cannot be written.
        """
    @property
    def shape(self, /) -> str:
        """
        What is expected of its thinning: the shape ``b`` of the dilution law in words, and whose habit it is.
        """
    @property
    def stock_temperature(self, /) -> Temperature:
        """
        Temperature at which ``stock_viscosity`` holds.
        """
    @property
    def stock_viscosity(self, /) -> Estimate:
        """
        Dynamic viscosity of the undiluted paint at ``stock_temperature``, with its interval.
        """
    @property
    def surface_tension(self, /) -> Estimate:
        """
        Surface tension of the paint near 20 °C, with its interval.
        """
    def thin(self, blend: Blend | Solvent | str, ratio: Any | None = None, /, *, thinner: SupportsFloat | SupportsIndex | None = None, paint: SupportsFloat | SupportsIndex | None = None, percent_of_paint: float | Ratio | str | Estimate | HasUnits | None = None, percent_of_mix: float | Ratio | str | Estimate | HasUnits | None = None, by: str = "volume") -> Mix:
        """
        Thins the paint: ``p.thin(b, thinner=2, paint=1)``, ``percent_of_paint=20`` (of the paint's volume),
        ``percent_of_mix=50``; with ``by="mass"`` the same by weight. Text must name its parts: "2 parts thinner to
        1 part paint".

        What it is thinned with is a ``Blend``, a ``Solvent`` or the name of one: ``p.thin("white spirit", ...)``.
        State the thinning in exactly one way. Parts are 0 or above with paint in the mix, ``percent_of_mix`` 0 to below
        100. Volumes are measured at 20 °C.

        Raises ``RangeError`` for a bare ratio, which reads both ways, or a value outside, ``UnknownName`` for another
        ``by``, and ``PhaseSplit`` when carrier and thinner do not stay one liquid at 20 °C.
        """
    def thin_to(self, blend: Blend | Solvent | str, /, *, temperature: Temperature | str | Estimate | HasUnits, viscosity: DynamicViscosity | str | Estimate | HasUnits | None = None, seconds: float | Time | str | Estimate | HasUnits | None = None, cup: FlowCup | None = None) -> Mix:
        """
        Thins the paint to a dynamic ``viscosity``, or to ``seconds`` in a ``cup``, at a temperature.

        Give either ``viscosity``, above the thinner's and up to the paint's, or ``seconds`` (a number, or ``"45 s"``)
        with ``cup``; ``temperature`` is 0 to 50 °C. Raises ``RangeError`` for both or neither, a target that the
        thinner or the cup cannot give, or a temperature outside, and ``PhaseSplit`` when carrier and thinner do not
        stay one liquid.
        """
    def to_json(self, /) -> str:
        """
        The paint as JSON text, which ``from_json`` reads back without loss; the Rust crate reads the same.
        """
    def to_toml(self, /) -> str:
        """
        The paint as the text of a paint file; typical values are left out.
        """
    @staticmethod
    def typical(family: str, name: str | None = None) -> Paint:
        """
        A paint of which only the family is known: typical values, common practice, with their wide range.

        Label words such as "nitrocellulose lacquer" or "enamel" are understood. ``name`` is the family's unless given.
        Raises ``UnknownName`` with near names for the family, ``RangeError`` for an empty name.
        """
    @property
    def typical_fields(self, /) -> list[str]:
        """
        Names of the fields that nobody gave and the family filled in with typical values.
        """
    def viscosity(self, /, temperature: Temperature | str | Estimate | HasUnits) -> Estimate:
        """
        Dynamic viscosity of the undiluted paint at a temperature, with its interval.

        ``temperature`` is 0 to 50 °C; ``RangeError`` outside.
        """
    @property
    def volume_solids(self, /) -> Estimate:
        """
        Volume of dry film per volume of wet paint, 0 to 1, with its interval.
        """

@final
class PaintTest:
    """
    A test that tells kinds of paint apart.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> PaintTest: ...
    @property
    def answers(self, /) -> list[str]:
        """
        The answers it may give, as ``identify(tests=...)`` takes them.
        """
    @property
    def effort(self, /) -> int:
        """
        Trouble, from 1 (reading) to 4 (a week of waiting).
        """
    @property
    def expected_bits(self, /) -> float:
        """
        Information to be expected from it, in bits.
        """
    @property
    def how(self, /) -> str:
        """
        How the test is done, in words for the bench.
        """
    @property
    def name(self, /) -> str:
        """
        Its name, as ``identify(tests=...)`` takes it.
        """

@final
class Passes:
    """
    Passes until the ground no longer shows.

    >>> from mistcoat import hiding
    >>> passes = hiding.HidingPower.typical("deep green").passes_to_hide("2 um")
    >>> passes.fewest <= passes.whole <= passes.most
    True
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> Passes: ...
    @property
    def fewest(self, /) -> int:
        """
        Whole passes at the low end of the range.
        """
    @property
    def most(self, /) -> int:
        """
        Whole passes at the high end of the range.
        """
    @property
    def number(self, /) -> Estimate:
        """
        The film that hides over the film of one pass, not rounded.
        """
    @property
    def thickness(self, /) -> Estimate:
        """
        Thickness of dry film that hides, with its range.
        """
    @property
    def whole(self, /) -> int:
        """
        Whole passes at the best value.
        """

@final
class Phases:
    """
    How many liquids a blend is, and what each holds.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __len__(self, /) -> int: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> Phases: ...
    @property
    def is_one(self, /) -> bool:
        """
        Whether it is one liquid.
        """
    @property
    def mass_fractions(self, /) -> list[dict[str, float]]:
        """
        Mass fraction of every species in each liquid.
        """
    @property
    def mole_fractions(self, /) -> list[dict[str, float]]:
        """
        Mole fraction of every species in each liquid.
        """
    @property
    def rich_in(self, /) -> list[str]:
        """
        Ingredient that gathers in each liquid, the larger liquid first.
        """
    @property
    def shares_of_mass(self, /) -> list[float]:
        """
        Share of each liquid of the mass of the blend, 0 to 1.
        """
    @property
    def source(self, /) -> str:
        """
        What decided: measured miscibility, or the tangent-plane criterion with UNIFAC.
        """
    @property
    def warnings(self, /) -> list[str]:
        """
        What to mind; empty when there is nothing.
        """

@final
class Plan:
    """
    A session worked out; prints as layers, timeline, what to bring, and the cautions.

    Made by ``plan`` alone. A file holds the session and the cautions; the rest is worked out again when it is read, and a
    file whose cautions are not those of its session is refused.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def bench_time(self, /) -> Time:
        """
        Time at the bench, busy or waiting: all visits together.
        """
    def card(self, /, size: str = "A6") -> Any:
        """
        Cards to print: "A6" gives one a layer for the bench, "A4" and "Letter" a sheet of the whole session with timeline, what
        to bring, cost, air and cautions. The result shows itself in a notebook; ``save("cards.html")`` writes it, and a browser
        prints it at its size. Every card carries its cautions. Other sizes raise ``UnknownName``.
        """
    @property
    def cautions(self, /) -> list[Caution]:
        """
        What everybody must know before opening a bottle; never empty, the last one says who decides.
        """
    def chart(self, /) -> Any:
        """
        The timeline as a matplotlib figure (needs matplotlib: ``pip install mistcoat[charts]``).
        """
    @property
    def coats(self, /) -> list[tuple[str, str]]:
        """
        Each coat over the one below: (question, verdict).
        """
    @property
    def colour_hint(self, /) -> str | None:
        """
        A word on the order of the colours, where another needs clearly less cleaner.
        """
    @property
    def cost(self, /) -> float | None:
        """
        What the materials with a price cost together; ``None`` without prices.
        """
    @property
    def currency(self, /) -> str:
        """
        Label of the currency.
        """
    @property
    def exposure(self, /) -> SessionExposure | None:
        """
        What the air of the room holds over the session, of several sittings the worst; ``None`` where the room has no volume or
        no air changes.
        """
    @property
    def exposures(self, /) -> list[SessionExposure]:
        """
        The same for each sitting; a wait until another day ends one.
        """
    @staticmethod
    def from_json(text: str) -> Plan:
        """
        Works out again what ``to_json`` wrote; raises ``DataError`` when the cautions are not those of the session.
        """
    @property
    def given(self, /) -> list[PlanLayer]:
        """
        The layers as they were given: settings, jobs and areas.
        """
    @property
    def guns(self, /) -> int:
        """
        How many guns they have between them.
        """
    @property
    def layers(self, /) -> list[PlannedLayer]:
        """
        The layers worked out, from the part upwards.
        """
    def material_table(self, /) -> Table:
        """
        What to bring, for one and for all, and what it costs.
        """
    @property
    def materials(self, /) -> list[Material]:
        """
        What to bring: paints, thinners, cleaners.
        """
    @property
    def people(self, /) -> int:
        """
        How many people, each with one part.
        """
    @property
    def planned(self, /) -> Time:
        """
        The same as the timeline has it, with waits at their upper ends: time to plan by.
        """
    @property
    def steps(self, /) -> list[PlanStep]:
        """
        Everything that is done, in order of time.
        """
    def table(self, /) -> Table:
        """
        The layers: mixes, passes, waits; warnings and cautions under them.
        """
    @property
    def time_away(self, /) -> Time:
        """
        Time of the timeline that nobody spends at the bench: waits of more than 2 h without work, and drying at the end.
        """
    def timeline(self, /) -> Table:
        """
        What is done when, for the gun with the most users.
        """
    @property
    def title(self, /) -> str:
        """
        What stands on top of the plan.
        """
    def to_json(self, /) -> str:
        """
        JSON text: the session and its cautions; the Rust crate reads the same.
        """
    @property
    def total(self, /) -> Estimate:
        """
        From the begin until the last layer is touch dry and the guns are clean, when each coat is watched: best value, 95 %
        range over waits, handwork and spraying, largest cause first. Waits of one paint move together.
        """
    @property
    def visits(self, /) -> list[tuple[Time, Time]]:
        """
        Begin and end of each stretch at the bench; a wait of more than 2 h without work lies between two.
        """
    @property
    def warnings(self, /) -> list[str]:
        """
        What to mind in this plan, each said once.
        """
    @property
    def washes(self, /) -> list[GunWash]:
        """
        Rinses of each gun, in order; the last is the wash at the end.
        """

@final
class PlanLayer:
    """
    One layer of a session: a setting, a job, the area it covers on one part.

    ``setup`` has paint, thinner and ratio, gun, passes wet in wet, room and part; take one that ``recommend`` chose.
    ``place`` is "primer", "between" or "finish". ``mask``: whether something is masked before it, or the time it takes.
    ``shade`` (a ``rinse.Shade`` or a colour class) sizes the rinses; ``hiding`` (a ``hiding.HidingPower``) adds passes until
    the ground no longer shows. ``wait`` before the next layer is taken when it is long enough. ``cleaner`` after it, where it
    is another than that of the session.

    >>> import mistcoat as mc
    >>> green = mc.Paint.typical("solvent lacquer", name="hull green")
    >>> gun = mc.Airbrush(nozzle="0.3 mm", pressure="20 psi", distance="80 mm")
    >>> room = mc.Room(temperature="21 degC", relative_humidity="50 %")
    >>> setup = mc.Setup(green, "n-butyl acetate", airbrush=gun, room=room, substrate="wood")
    >>> mc.PlanLayer(setup, "over a mask", area="250 cm2", mask=True, shade="deep green")
    <PlanLayer hull green: over a mask, 250 cm2>
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, setup: Setup, job: Job | str, *, area: Area | str | Estimate | HasUnits, name: str | None = None, place: str = "between", mask: bool | Time | str | Estimate | HasUnits = ..., shade: Shade | str | None = None, hiding: HidingPower | None = None, wait: Time | str | Estimate | HasUnits | None = None, cleaner: Blend | Solvent | str | None = None) -> PlanLayer: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> PlanLayer: ...
    @property
    def area(self, /) -> Area:
        """
        Area that it covers on one part.
        """
    @property
    def job(self, /) -> str:
        """
        Name of the job that it does.
        """
    @property
    def mask(self, /) -> Time | None:
        """
        Time for masking before it; ``None`` when nothing is masked.
        """
    @property
    def name(self, /) -> str:
        """
        What it is called in the plan.
        """
    @property
    def setup(self, /) -> Setup:
        """
        Paint, thinner, gun, room and part.
        """

@final
class PlanStep:
    """
    One step of the timeline.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> PlanStep: ...
    @property
    def coat(self, /) -> int | None:
        """
        Coat, counted from 1, of spraying and flash-off.
        """
    @property
    def end(self, /) -> Time:
        """
        End, from the start of the session.
        """
    @property
    def gun(self, /) -> int | None:
        """
        Gun, counted from 1, of what needs one.
        """
    @property
    def is_work(self, /) -> bool:
        """
        Whether hands are busy with it.
        """
    @property
    def lasts(self, /) -> Time:
        """
        How long the step lasts.
        """
    @property
    def layer(self, /) -> str:
        """
        Name of the layer it belongs to.
        """
    @property
    def person(self, /) -> int:
        """
        Person, counted from 1.
        """
    @property
    def start(self, /) -> Time:
        """
        Begin, from the start of the session.
        """
    @property
    def what(self, /) -> str:
        """
        "mask", "mix", "spray", "hand over", "flash-off", "wait", "dry", "rinse" or "clean up".
        """

@final
class PlannedLayer:
    """
    A layer as each person sprays it.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> PlannedLayer: ...
    @property
    def coats(self, /) -> int:
        """
        Coats: the passes of one are laid wet in wet, then it flashes off.
        """
    @property
    def drops(self, /) -> MixDrops | None:
        """
        The mix in whole drops; ``None`` for an amount that drops do not measure.
        """
    @property
    def dry_film(self, /) -> Estimate:
        """
        Dry film of all passes together.
        """
    @property
    def family(self, /) -> str:
        """
        Family of the paint.
        """
    @property
    def flash_off(self, /) -> Wait:
        """
        Between coats: flash-off or touch dry, whichever comes first.
        """
    @property
    def job(self, /) -> str:
        """
        Name of the job that it does.
        """
    @property
    def judged(self, /) -> Judged:
        """
        How far the setting keeps from every fault.
        """
    @property
    def mask(self, /) -> Time | None:
        """
        Time for masking before it; ``None`` when nothing is masked.
        """
    @property
    def mix(self, /) -> Volume:
        """
        Mix to make for one person.
        """
    @property
    def name(self, /) -> str:
        """
        Name of the layer, as it was given.
        """
    @property
    def paint(self, /) -> Volume:
        """
        Stock paint in that mix.
        """
    @property
    def pass_time(self, /) -> Estimate:
        """
        Time to lay one pass over the area.
        """
    @property
    def passes(self, /) -> int:
        """
        Passes over every place.
        """
    @property
    def passes_for_job(self, /) -> Estimate:
        """
        Passes for the dry film of the job, not rounded, with interval and working.
        """
    @property
    def passes_to_hide(self, /) -> Passes | None:
        """
        Passes until the ground no longer shows; ``None`` where the hiding power was not given.
        """
    @property
    def remainder(self, /) -> Estimate:
        """
        What the gun keeps of it.
        """
    @property
    def sprayed(self, /) -> Estimate:
        """
        Mix that goes through the gun for one part, before margin and remainder.
        """
    @property
    def thinner(self, /) -> Volume:
        """
        Thinner in it; whole drops where drops are counted.
        """
    @property
    def thinner_per_paint(self, /) -> float:
        """
        Parts of thinner to one part of paint, by volume, as wanted.
        """
    @property
    def touch_dry(self, /) -> Wait:
        """
        From the last coat until a light touch takes nothing away.
        """
    @property
    def until_mask(self, /) -> Wait:
        """
        From the last coat until tape does no harm.
        """
    @property
    def until_next(self, /) -> Wait:
        """
        From the last coat to the next layer.
        """
    @property
    def warnings(self, /) -> list[str]:
        """
        What to mind in this layer.
        """
    @property
    def wet_passes(self, /) -> int:
        """
        Passes of one coat; the last may have fewer.
        """

@final
class Pressure:
    """
    A value of dimension Pressure with its unit: ``Pressure("20 psi")`` or ``Pressure(number, unit)``.

    Immutable. ``.to(unit)`` gives the number, ``format(q, ".3g unit")`` prints it. Compares, adds and scales within its dimension; hashes and pickles.
    """
    def __abs__(self, /) -> Pressure: ...
    def __add__(self, other: object, /) -> Pressure: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __format__(self, /, spec: str) -> str: ...
    def __ge__(self, value: object, /) -> bool: ...
    def __getnewargs__(self, /) -> tuple[float, str]: ...
    def __gt__(self, value: object, /) -> bool: ...
    def __hash__(self, /) -> int: ...
    def __le__(self, value: object, /) -> bool: ...
    def __lt__(self, value: object, /) -> bool: ...
    def __mul__(self, factor: object, /) -> Pressure: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __neg__(self, /) -> Pressure: ...
    def __new__(cls, /, value: float | Pressure | str | Estimate | HasUnits, unit: str | None = None) -> Pressure: ...
    def __repr__(self, /) -> str: ...
    def __rmul__(self, factor: object, /) -> Pressure: ...
    def __str__(self, /) -> str: ...
    def __sub__(self, other: object, /) -> Pressure: ...
    def __truediv__(self, divisor: object, /) -> Any:
        """
        A quantity over its like is a plain number; over a number it is scaled.
        """
    def to(self, /, unit: str) -> float:
        """
        The number in the named unit.
        """
    @staticmethod
    def units() -> list[str]:
        """
        The units understood, the SI unit first.
        """

@final
class PricedChange:
    """
    One change of colour with its cost.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> PricedChange: ...
    @property
    def after(self, /) -> str:
        """
        Colour that follows.
        """
    @property
    def before(self, /) -> str:
        """
        Colour that was in the gun.
        """
    @property
    def rinse(self, /) -> PricedRinse:
        """
        Portions of cleaner and their cost.
        """

@final
class PricedOrder:
    """
    The order of colours that costs least to rinse between; prints as a table with the cautions under it.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> PricedOrder: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def as_given(self, /) -> float:
        """
        Cost in the order in which the colours were given.
        """
    @property
    def cautions(self, /) -> list[str]:
        """
        What to mind when cleaning; never empty.
        """
    @property
    def changes(self, /) -> list[PricedChange]:
        """
        The changes between them, with portions and cost.
        """
    @property
    def cost(self, /) -> Estimate:
        """
        Cost of all changes, in ``currency``; the wash at the end comes on top.
        """
    @property
    def currency(self, /) -> str:
        """
        Label of the currency.
        """
    @property
    def good_alone(self, /) -> float:
        """
        Cost of the same changes with good thinner alone.
        """
    @property
    def order(self, /) -> list[str]:
        """
        Names in the order to spray.
        """
    def table(self, /) -> Table:
        """
        The changes as a table, cautions under it.
        """
    @property
    def warnings(self, /) -> list[str]:
        """
        Pairs for which the answer is a judgement, and the test a cheap cleaner needs.
        """

@final
class PricedRinse:
    """
    A rinse with its cost.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> PricedRinse: ...
    @property
    def cheap(self, /) -> Split | None:
        """
        Portions of cheap cleaner, poured first; ``None`` when they do not pay.
        """
    @property
    def cost(self, /) -> float:
        """
        What they cost together, in ``currency``.
        """
    @property
    def currency(self, /) -> str:
        """
        Label of the currency.
        """
    @property
    def good(self, /) -> Split:
        """
        Portions of good thinner, poured last.
        """
    @property
    def good_alone(self, /) -> float:
        """
        What good thinner alone costs, in its own best split.
        """
    @property
    def saves(self, /) -> float:
        """
        What the cheap cleaner saves.
        """

@final
class Programme:
    """
    The air over a coat as it changes with time: gun, fan, warm cabinet.

    Starts with ``room``; ``after(lasts, room)``: when the air so far has lasted for this time (1 ms to 365 d), another takes
    its place. The last goes on for as long as it takes. Air changes at once, the part follows by its own heat.

    Warmth makes vapour: solvent vapour and air explode. No part that is still wet goes into a closed, unventilated or
    sparking oven; the safety data sheet, local codes and licensed practice decide.

    >>> import mistcoat as mc
    >>> room = mc.Room(temperature="21 degC", relative_humidity="50 %")
    >>> fan = room.with_draught("fan")
    >>> warm = fan.warmed_to("38 degC")
    >>> programme = mc.Programme(room).after("1 min", fan).after("10 min", warm)
    >>> print(programme)
    21 °C with air at 0.15 m/s for 60 s, then 21 °C with air at 0.5 m/s for 10 min, then 38 °C with air at 0.5 m/s
    >>> thinner = mc.Blend({"acetone": 50, "n-butyl acetate": 35, "2-butoxyethanol": 15}, basis="mass")
    >>> settings = dict(wet_thickness="25 um", solids="15 %", binder_tg="50 degC")
    >>> forced = mc.Film(thinner, programme=programme, **settings).dry()
    >>> forced.handle.best < mc.Film(thinner, room=room, **settings).dry().handle.best
    True
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __len__(self, /) -> int: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, room: Room) -> Programme: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    def after(self, /, lasts: Time | str | Estimate | HasUnits, room: Room) -> Programme:
        """
        When the air so far has lasted for this time, ``room`` takes its place.

        Raises ``RangeError`` for a time outside 1 ms to 365 d, or more than 100 changes.
        """
    @property
    def begins(self, /) -> list[Time]:
        """
        When each sets in, from the wet coat on.
        """
    @staticmethod
    def from_json(text: str) -> Programme:
        """
        The programme from what ``to_json`` wrote. Raises ``DataError`` for other text, with the line and what is wrong.
        """
    @property
    def rooms(self, /) -> list[Room]:
        """
        The rooms, in order.
        """
    def to_json(self, /) -> str:
        """
        The programme as JSON text, which ``from_json`` reads back without loss; the Rust crate reads the same.
        """

@final
class PropertySource:
    """
    The source of one property: keys, citations, how far to trust it, and what other sources give.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __hash__(self, /) -> int: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> PropertySource: ...
    @property
    def citations(self, /) -> list[str]:
        """
        What the keys stand for.
        """
    @property
    def is_from_memory(self, /) -> bool:
        """
        Whether the value was stated from memory and needs checking before use.
        """
    @property
    def keys(self, /) -> list[str]:
        """
        Source keys, or citations in full where a file gives no key.
        """
    @property
    def note(self, /) -> str | None:
        """
        What to mind about the source, or ``None``.
        """
    @property
    def others(self, /) -> list[str]:
        """
        What other sources give, each with its source.
        """
    @property
    def property_name(self, /) -> str:
        """
        Name of the property.
        """
    @property
    def provenance(self, /) -> str:
        """
        The least trusted of the sources: "published", "computed", "common practice" or "from memory".
        """

@final
class Ratio:
    """
    A value of dimension Ratio with its unit: ``Ratio("55 %")`` or ``Ratio(number, unit)``.

    Immutable. ``.to(unit)`` gives the number, ``format(q, ".3g unit")`` prints it. Compares, adds and scales within its dimension; hashes and pickles.
    """
    def __abs__(self, /) -> Ratio: ...
    def __add__(self, other: object, /) -> Ratio: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __format__(self, /, spec: str) -> str: ...
    def __ge__(self, value: object, /) -> bool: ...
    def __getnewargs__(self, /) -> tuple[float, str]: ...
    def __gt__(self, value: object, /) -> bool: ...
    def __hash__(self, /) -> int: ...
    def __le__(self, value: object, /) -> bool: ...
    def __lt__(self, value: object, /) -> bool: ...
    def __mul__(self, factor: object, /) -> Ratio: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __neg__(self, /) -> Ratio: ...
    def __new__(cls, /, value: float | Ratio | str | Estimate | HasUnits, unit: str | None = None) -> Ratio: ...
    def __repr__(self, /) -> str: ...
    def __rmul__(self, factor: object, /) -> Ratio: ...
    def __str__(self, /) -> str: ...
    def __sub__(self, other: object, /) -> Ratio: ...
    def __truediv__(self, divisor: object, /) -> Any:
        """
        A quantity over its like is a plain number; over a number it is scaled.
        """
    def to(self, /, unit: str) -> float:
        """
        The number in the named unit.
        """
    @staticmethod
    def units() -> list[str]:
        """
        The units understood, the SI unit first.
        """

@final
class Recommendation:
    """
    Settings for a job, safest first; or the nearest misses and what to change.

    >>> import mistcoat as mc
    >>> green = mc.Paint.typical("alcohol acrylic", name="hull green")
    >>> gun = mc.Airbrush(nozzle="0.3 mm", pressure="25 psi", distance="65 mm")
    >>> room = mc.Room(temperature="23 degC", relative_humidity="50 %")
    >>> setup = mc.Setup(green, "isopropanol", airbrush=gun, room=room, substrate="wood")
    >>> found = mc.recommend(setup, "base coat", thinner_per_paint=[1])
    >>> bool(found.choices or found.misses)
    True
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> Recommendation: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def advice(self, /) -> list[str]:
        """
        When none is inside: what to change.
        """
    @property
    def asked(self, /) -> int:
        """
        How many were to be judged; more when it was stopped, or some are out of range.
        """
    @property
    def choices(self, /) -> list[tuple[Setup, Judged]]:
        """
        Settings inside every limit with what they do, safest first; one a ratio.
        """
    @property
    def judged(self, /) -> int:
        """
        How many settings were judged.
        """
    @property
    def misses(self, /) -> list[tuple[Setup, Judged]]:
        """
        When none is inside: the nearest misses.
        """
    def table(self, /) -> Table:
        """
        Choices, or the nearest misses, with what binds each.
        """

@final
class ReferenceLiquid:
    """
    A liquid of known viscosity at 0 to 60 °C, for calibrating a home-made cup: water, or glycerol with water.

    >>> import mistcoat as mc
    >>> water = mc.ReferenceLiquid.water()
    >>> print(f"{water.kinematic_viscosity('20 °C').best:.3f}")
    1.003 mm2/s
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __hash__(self, /) -> int: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[float]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @staticmethod
    def _from_fraction(fraction: SupportsFloat | SupportsIndex) -> ReferenceLiquid: ...
    def density(self, /, temperature: Temperature | str | Estimate | HasUnits) -> Density:
        """
        Density at a temperature, 0 to 60 °C; ``RangeError`` outside.
        """
    @property
    def glycerol_by_mass(self, /) -> Ratio:
        """
        Share of glycerol in the mass.
        """
    @staticmethod
    def glycerol_water(glycerol_by_mass: Ratio | str | Estimate | HasUnits) -> ReferenceLiquid:
        """
        Glycerol and water, by the share of glycerol in the mass of the mix: ``"60 %"``.
        """
    def kinematic_viscosity(self, /, temperature: Temperature | str | Estimate | HasUnits) -> Estimate:
        """
        Kinematic viscosity with its uncertainty.
        """
    @property
    def source(self, /) -> str:
        """
        Citation of the viscosity.
        """
    def viscosity(self, /, temperature: Temperature | str | Estimate | HasUnits) -> Estimate:
        """
        Dynamic viscosity with its uncertainty.
        """
    @staticmethod
    def water() -> ReferenceLiquid:
        """
        Pure water, of known viscosity and density.
        """

@final
class RetarderAnswer:
    """
    The answer to ``retarder``: a table as text and HTML, a sentence, and every number behind them.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    def columns(self, /) -> dict[str, list[Any]]:
        """
        Columns by name with unit; intervals as ``..._low`` and ``..._high``, ``None`` where there is no answer.
        """
    @staticmethod
    def from_json(text: str) -> RetarderAnswer:
        """
        The answer from what ``to_json`` wrote. Raises ``DataError`` for other text, with the line and what is wrong.
        """
    @property
    def rows(self, /) -> list[RetarderRow]:
        """
        One row a share, in the order asked.
        """
    @property
    def sentence(self, /) -> str | None:
        """
        What the most retarder buys and costs against the least; ``None`` with one row.
        """
    def table(self, /) -> Table:
        """
        The answer as a table.
        """
    def to_json(self, /) -> str:
        """
        The answer as JSON text, which ``from_json`` reads back without loss; the Rust crate reads the same.
        """
    @property
    def warnings(self, /) -> list[str]:
        """
        Warnings of this result, in words; empty when there are none.
        """

@final
class RetarderRow:
    """
    One share of retarder.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> RetarderRow: ...
    @property
    def blush(self, /) -> Blush | None:
        """
        Limit humidity; ``None`` for waterborne coats.
        """
    @property
    def flash_off(self, /) -> Estimate | None:
        """
        Time until 90 % of the volatile mass has left; ``None`` when the coat never gets there.
        """
    @property
    def lay(self, /) -> Lay | None:
        """
        Ripple left, slide, nearest limit; ``None`` where the flow is not known.
        """
    @property
    def mix(self, /) -> Mix:
        """
        The thinned paint with this share of retarder in its thinner.
        """
    @property
    def share(self, /) -> Ratio:
        """
        Share of the thinner that is retarder, by volume.
        """
    @property
    def touch_dry(self, /) -> Estimate | None:
        """
        Touch dry; ``None`` for binders without such a time.
        """
    @property
    def viscosity(self, /) -> Estimate:
        """
        Viscosity at room temperature.
        """
    @property
    def warnings(self, /) -> list[str]:
        """
        What to mind at this share.
        """

@final
class RinseBench:
    """
    The bench at which colours are changed.

    ``hold_up`` of the gun (``typical_hold_up`` or ``weighed_hold_up``); ``fill``, paint of the next colour that goes in;
    ``least_portion`` of cleaner that still wets cup and passages; ``tolerance`` as for ``Shade.tolerates``. Colours are
    ``Shade`` objects or names of colour classes.

    >>> from mistcoat import rinse
    >>> bench = rinse.RinseBench(rinse.typical_hold_up("gravity airbrush"), fill="2 mL")
    >>> print(bench.change("deep green", "cream").split)
    2 × 1 mL, 2 mL in all
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, hold_up: Volume | str | Estimate | HasUnits, *, fill: Volume | str | Estimate | HasUnits, least_portion: Volume | str | Estimate | HasUnits | None = None, tolerance: str = "perceptible") -> RinseBench: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> RinseBench: ...
    def change(self, /, before: Shade | str, after: Shade | str) -> Change:
        """
        Cleaner between two colours; at least one portion, however alike they are.
        """
    def colour_order(self, /, colours: SupportsGetItem[int, Shade | str], *, start: str | None = None) -> ColourOrder:
        """
        The order of colours with the least cleaner, exact up to 16; from ``start`` if that is in the gun already.

        Pairs that differ by hue rather than lightness are named in ``warnings`` of the result.
        """
    @property
    def fill(self, /) -> Volume:
        """
        Paint of the next colour that goes in.
        """
    @property
    def hold_up(self, /) -> Estimate:
        """
        Liquid left in the gun after pouring out.
        """
    @property
    def least_portion(self, /) -> Volume:
        """
        Smallest portion of cleaner that wets cup and passages.
        """

@final
class Room:
    """
    A room with its air.

    ``temperature`` 0 to 60 °C; ``relative_humidity`` 0 to 100 %; ``air_speed`` over the part, 0 to 30 m/s: 0.15 m/s (no
    draught) unless given, 0.5 m/s before a fan or in a booth; ``volume`` and ``air_changes`` for what concerns your lungs;
    ``pressure`` absolute, one atmosphere unless given. Values outside raise ``RangeError``.

    >>> import mistcoat as mc
    >>> room = mc.Room(temperature="21 degC", relative_humidity="55 %")
    >>> print(room.dew_point)
    11.6 °C
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, *, temperature: Temperature | str | Estimate | HasUnits, relative_humidity: Ratio | str | Estimate | HasUnits, air_speed: Velocity | str | Estimate | HasUnits | None = None, volume: Volume | str | Estimate | HasUnits | None = None, air_changes: Frequency | str | Estimate | HasUnits | None = None, pressure: Pressure | str | Estimate | HasUnits | None = None) -> Room: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @property
    def air_changes(self, /) -> Frequency | None:
        """
        Air changes; None when not given.
        """
    @property
    def air_speed(self, /) -> Velocity:
        """
        Air speed over the part.
        """
    @property
    def dew_point(self, /) -> Temperature:
        """
        The temperature at which dew forms on a surface; within 0.03 K of the ASHRAE equations.

        Raises ``RangeError`` for air drier than 0.1 % relative humidity.
        """
    @staticmethod
    def from_json(text: str) -> Room:
        """
        The room from what ``to_json`` wrote. Raises ``DataError`` for other text, with the line and what is wrong.
        """
    @property
    def humidity_ratio(self, /) -> Ratio:
        """
        Mass of water vapour per mass of dry air.
        """
    @property
    def pressure(self, /) -> Pressure:
        """
        Absolute air pressure.
        """
    @property
    def relative_humidity(self, /) -> Ratio:
        """
        Relative humidity of the air, as a share of saturation.
        """
    @property
    def temperature(self, /) -> Temperature:
        """
        Temperature of the air of the room.
        """
    def to_json(self, /) -> str:
        """
        The room as JSON text, which ``from_json`` reads back without loss; the Rust crate reads the same.
        """
    def under_gun(self, /, airbrush: Airbrush, *, distance: Length | str | Estimate | HasUnits | None = None) -> Room:
        """
        The same room under the air of a gun with its paint off, at most 30 m/s: nearer, the jet would blow the coat about.

        ``distance`` from the nozzle to the part, 0 to 3 m: that of the gun unless given. The speed on the axis of a round jet,
        good to 20 % from 3 cm on. Raises ``RangeError`` for a distance outside, or where the jet is faster than 30 m/s.

        >>> import mistcoat as mc
        >>> room = mc.Room(temperature="21 degC", relative_humidity="55 %")
        >>> gun = mc.Airbrush(nozzle="0.3 mm", pressure="20 psi", distance="80 mm")
        >>> print(room.under_gun(gun, distance="20 cm"))
        21 °C, 55 % humidity, air at 9.08 m/s
        """
    @property
    def volume(self, /) -> Volume | None:
        """
        Volume of the room; None when not given.
        """
    def warmed_to(self, /, temperature: Temperature | str | Estimate | HasUnits) -> Room:
        """
        The same air warmed (a cabinet) or cooled to this temperature, 0 to 60 °C: it holds the same water, so that warming
        dries it. Raises ``RangeError`` below its dew point.

        >>> import mistcoat as mc
        >>> room = mc.Room(temperature="21 degC", relative_humidity="55 %")
        >>> print(room.warmed_to("45 degC"))
        45 °C, 14.3 % humidity, air at 0.15 m/s
        """
    @property
    def wet_bulb(self, /) -> Temperature:
        """
        The temperature a water-wet surface settles at; within 0.01 K of the ASHRAE equations.
        """
    def with_air_speed(self, /, air_speed: Velocity | str | Estimate | HasUnits) -> Room:
        """
        The same room with this air speed over the part, 0 to 30 m/s; for the air of a gun see ``under_gun``.
        """
    def with_draught(self, /, draught: str) -> Room:
        """
        The same room with air that moves as usual in such a place: "still air" (0), "no draught" (0.15 m/s), "fan" or
        "spray booth" (0.5 m/s). Raises ``UnknownName`` for others.
        """

@final
class RoomVapour:
    """
    The vapour of one liquid in the air of a well-mixed room, over a session.

    ``room`` needs ``volume`` and ``air_changes``; give the ``solvent`` (a name or a ``Solvent``) or a ``molar_mass``.
    ``mixing``: 1 for perfect mixing, 0.1 to 0.5 is common practice; 0.22 within a factor 2 unless given. Releases are added by
    ``release`` and may overlap.

    **It is an average.** Near the gun, over the bench and in front of your face the air holds many times more, and every
    answer warns of it. Exposure limits, the safety data sheet and local codes decide; smell does not warn in time.

    >>> import warnings
    >>> import mistcoat as mc
    >>> room = mc.Room(temperature="21 degC", relative_humidity="50 %", volume="30 m3", air_changes="0.5 /h")
    >>> air = mc.RoomVapour(room, solvent="acetone").release("4 g", lasts="10 min")
    >>> with warnings.catch_warnings(record=True) as cautions:
    ...     warnings.simplefilter("always")
    ...     peak = air.peak
    >>> round(air.volume_share(peak.best).to("ppm"), 1)
    54.9
    >>> "many times higher" in str(cautions[0].message)
    True
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, room: Room, *, solvent: Solvent | str | None = None, molar_mass: MolarMass | str | Estimate | HasUnits | None = None, mixing: Ratio | str | Estimate | HasUnits | None = None) -> RoomVapour: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    def air_changes_for_average(self, /, limit: MassConcentration | str | Estimate | HasUnits, start: Time | str | Estimate | HasUnits, end: Time | str | Estimate | HasUnits) -> Estimate:
        """
        The fewest air changes with which the mean from ``start`` to ``end`` stays below ``limit``.
        """
    def air_changes_to_stay_below(self, /, limit: MassConcentration | str | Estimate | HasUnits) -> Estimate:
        """
        The fewest air changes with which the room average never rises above ``limit``; plan with the high end of the
        interval. Raises ``RangeError`` when 200 an hour do not keep it.
        """
    def average(self, /, start: Time | str | Estimate | HasUnits, end: Time | str | Estimate | HasUnits) -> Estimate:
        """
        The time-weighted average from ``start`` to ``end``, as exposure limits over 8 h or 15 min are stated.
        """
    def concentration(self, /, time: Time | str | Estimate | HasUnits) -> Estimate:
        """
        The average concentration in the room at this time after the start.
        """
    @staticmethod
    def from_json(text: str) -> RoomVapour:
        """
        The room and its releases from what ``to_json`` wrote. Raises ``DataError`` for other text, with the line and what is wrong.
        """
    @property
    def mixing(self, /) -> Ratio:
        """
        Mixing factor, given or usual.
        """
    @property
    def molar_mass(self, /) -> MolarMass:
        """
        Molar mass of the vapour.
        """
    @property
    def peak(self, /) -> Estimate:
        """
        The highest concentration.
        """
    @property
    def peak_time(self, /) -> Time:
        """
        When the concentration is highest.
        """
    def release(self, /, mass: Mass | str | Estimate | HasUnits, *, lasts: Time | str | Estimate | HasUnits, start: Time | str | Estimate | HasUnits | None = None) -> RoomVapour:
        """
        The same room with one more release: this mass, evaporating evenly from ``start`` (the begin of the session unless
        given) for ``lasts``; zero for a spill that is gone at once.
        """
    @property
    def room(self, /) -> Room:
        """
        The room with its volume and air changes.
        """
    def steady(self, /, mass: Mass | str | Estimate | HasUnits, each: Time | str | Estimate | HasUnits) -> Estimate:
        """
        The concentration that a release going on for ever, ``mass`` in every ``each``, settles at.
        """
    def to_json(self, /) -> str:
        """
        The room and its releases as JSON text, which ``from_json`` reads back without loss; the Rust crate reads the same.
        """
    def volume_share(self, /, concentration: MassConcentration | str | Estimate | HasUnits) -> Ratio:
        """
        A concentration as a share of the air by volume, in ppm.
        """

@final
class SafetyValue:
    """
    A figure on which someone's safety may rest, with its source. Its text says when it was stated from memory.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __hash__(self, /) -> int: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> SafetyValue: ...
    @property
    def source(self, /) -> PropertySource:
        """
        Source of the figure, with its citation.
        """
    def to(self, /, unit: str) -> float:
        """
        The figure as a number in the named unit.
        """
    @property
    def value(self, /) -> Any:
        """
        The figure: a temperature or a ratio.
        """

@final
class SessionAir:
    """
    The air of a room over a session: add sources of vapour one by one, then ``run``.

    ``room`` needs ``volume`` and ``air_changes``. ``authority``: whose limits, as for ``mixture_exposure``. ``keep_below``:
    share of the limits that ventilation is worked out for, half unless given (1 to 100 %). ``mixing``: 1 for perfect mixing,
    0.1 to 0.5 is common practice; 0.22 within a factor 2 unless given. ``leaving_at``: when people leave and breathe clean air
    for the rest of the 8 h; unless given they stay for the worst 8 h. Times count from the begin of the session.

    It says how bad a room is, never that one is safe.

    >>> import warnings
    >>> import mistcoat as mc
    >>> room = mc.Room(temperature="21 degC", relative_humidity="50 %", volume="30 m3", air_changes="0.5 /h")
    >>> thinner = mc.Blend({"acetone": 40, "n-butyl acetate": 60}, basis="volume")
    >>> mix = mc.demo_paint("hull green").thin(thinner, thinner=1, paint=1)
    >>> dry = mc.Film(mix, wet_thickness="25 um", room=room).dry()
    >>> evening = mc.safety.SessionAir(room)
    >>> evening = evening.coat("hull green", mix, sprayed="8 mL", landed="40 %", drying=dry, spraying="10 min")
    >>> evening = evening.cleaning("gun", thinner, "6 mL", evaporated="30 %", start="15 min", lasts="5 min")
    >>> with warnings.catch_warnings(record=True):
    ...     warnings.simplefilter("always")
    ...     air = evening.run()
    >>> air.near_short_sum.best > air.short_sum.best  # it is worse at the bench
    True
    >>> "decide" in air.cautions[-1]
    True
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, room: Room, *, authority: str = "lowest", keep_below: Ratio | str | Estimate | HasUnits | None = None, mixing: Ratio | str | Estimate | HasUnits | None = None, leaving_at: Time | str | Estimate | HasUnits | None = None) -> SessionAir: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> SessionAir: ...
    def cleaning(self, /, name: str, cleaner: Blend | Solvent | str, amount: Volume | str | Estimate | HasUnits, *, evaporated: Ratio | str | Estimate | HasUnits, lasts: Time | str | Estimate | HasUnits, start: Time | str | Estimate | HasUnits | None = None) -> SessionAir:
        """
        The same with a cleaning: of ``amount`` of ``cleaner`` the share ``evaporated`` becomes vapour, evenly while it
        ``lasts``.
        """
    def coat(self, /, name: str, mix: Mix, *, sprayed: Volume | str | Estimate | HasUnits, landed: Ratio | str | Estimate | HasUnits, drying: Drying, spraying: Time | str | Estimate | HasUnits, start: Time | str | Estimate | HasUnits | None = None) -> SessionAir:
        """
        The same with a coat: ``sprayed`` of the mix through all guns in the time ``spraying``, of which the share ``landed``
        (of the solids) reaches the part and dries as ``drying`` says. What the flight took is read off the drying film: dry
        ``shot.film(passes)``, or a ``Film`` of the mix for a brushed coat. A film of another mix raises ``RangeError``.
        """
    def open_cup(self, /, name: str, course: CupCourse, *, open_for: Time | str | Estimate | HasUnits, start: Time | str | Estimate | HasUnits | None = None) -> SessionAir:
        """
        The same with a mix standing in an open cup for ``open_for``; ``course`` is what ``OpenCup.stand`` gave.
        """
    @property
    def room(self, /) -> Room:
        """
        The room with its volume and air changes.
        """
    def run(self, /) -> SessionExposure:
        """
        What the room's air holds over the session, against the limits; what to mind is also given as one Python warning.
        Raises ``RangeError`` without a source, or for more vapour than air.
        """
    @property
    def sources(self, /) -> list[VapourSource]:
        """
        The sources of vapour so far.
        """

@final
class SessionExposure:
    """
    The air of a session against the limits; prints as a table with sums, ventilation, cautions and sources under it.

    Sums count concentrations over limits; 1 is the limit.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> SessionExposure: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def cautions(self, /) -> list[str]:
        """
        What goes with the numbers wherever they are shown; never empty, and who decides comes last.
        """
    @property
    def citations(self, /) -> list[str]:
        """
        Citations of every limit and rule behind the numbers, each with how far to trust it.
        """
    @property
    def flammable_share(self, /) -> Ratio:
        """
        Most that the mean of the room comes to of the lower flammable limit.
        """
    @property
    def near_shares(self, /) -> NDArray[float64]:
        """
        The same within half a metre of the work.
        """
    @property
    def near_shift_sum(self, /) -> Estimate:
        """
        Sum over the worst 8 h within half a metre of the work.
        """
    @property
    def near_short_sum(self, /) -> Estimate:
        """
        Sum over the worst 15 minutes within half a metre of the work.
        """
    @property
    def peak(self, /) -> float:
        """
        Highest sum of the room's mean over limits of 8 h, at any moment.
        """
    @property
    def released(self, /) -> Mass:
        """
        Vapour given off by all sources.
        """
    @property
    def room(self, /) -> Room:
        """
        The room with its volume and air changes.
        """
    @property
    def shares(self, /) -> NDArray[float64]:
        """
        Mean of the room at each time: sum of concentrations over limits of 8 h.
        """
    @property
    def shift(self, /) -> MixtureExposure:
        """
        Worst 8 h, mean of the whole room, against limits over 8 h.
        """
    @property
    def shift_sum(self, /) -> Estimate:
        """
        Sum of ``shift`` with its interval.
        """
    @property
    def short(self, /) -> MixtureExposure:
        """
        Worst 15 minutes, mean of the whole room, against short-term limits (three times the 8 h limit where none is known).
        """
    @property
    def short_sum(self, /) -> Estimate:
        """
        Sum of ``short`` with its interval.
        """
    @property
    def sources(self, /) -> list[VapourSource]:
        """
        What gave off vapour.
        """
    def sources_table(self, /) -> Table:
        """
        The sources of vapour with what each brought, gave off and kept.
        """
    def table(self, /) -> Table:
        """
        The vapours with means, limits and shares; sums, ventilation, cautions and sources under them.
        """
    @property
    def time_s(self, /) -> NDArray[float64]:
        """
        Times of the curves in seconds.
        """
    @property
    def vapours(self, /) -> list[SessionVapour]:
        """
        The vapours, the one that released most first.
        """
    @property
    def ventilation(self, /) -> Ventilation:
        """
        Fresh air that would keep the room's mean below the chosen share of the limits.
        """
    @property
    def warnings(self, /) -> list[str]:
        """
        What to mind; never empty.
        """
    def working(self, /) -> Working:
        """
        How the sums were worked out, step by step with sources.
        """
    @property
    def worst_from(self, /) -> Time:
        """
        When the worst 15 minutes begin.
        """

@final
class SessionVapour:
    """
    One vapour over the session, as means of the whole room.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> SessionVapour: ...
    @property
    def kept(self, /) -> Mass:
        """
        Never given off: still in films and cups, or poured away.
        """
    @property
    def peak(self, /) -> Ratio:
        """
        Highest share of the room's air by volume.
        """
    @property
    def released(self, /) -> Mass:
        """
        Given off by all sources.
        """
    @property
    def shift_mean(self, /) -> Ratio:
        """
        Mean over the worst 8 h of the sum of all vapours.
        """
    @property
    def short_mean(self, /) -> Ratio:
        """
        Mean over the worst 15 minutes of the sum of all vapours.
        """
    @property
    def solvent(self, /) -> str:
        """
        The liquid as it was poured.
        """

@final
class Setup:
    """
    One way to work: paint, thinner and ratio, gun, passes laid wet in wet, part, room.

    ``thinner`` is a ``Blend``, a ``Solvent`` or the name of one; ``thinner_per_paint`` parts of thinner to one part of
    paint, by volume. ``retarder`` is a slow liquid in the place of ``retarder_share`` of the thinner. ``wet_thickness`` is the
    wet film of one coat, however many passes it takes, in place of ``wet_passes``. ``hiding`` is the ``HidingPower`` of the
    paint over ``ground`` ("card", the reflectance of an even undercoat, or (darkest, lightest)): the passes then build the
    film that hides, where the job asks for a contrast. ``yield_stress`` is that of the undiluted paint, 0 to 100 Pa, where it
    stiffens at rest (0.5 to 5 Pa are usual then): such a coat hangs where it is thin. ``primed``: whether a dry primer that stands the thinner lies on the part. ``steepness``: sine of the
    angle of the face to the horizontal, 100 % upright, 0 % level.

    >>> import mistcoat as mc
    >>> green = mc.Paint.typical("alcohol acrylic", name="hull green")
    >>> gun = mc.Airbrush(nozzle="0.3 mm", pressure="20 psi", distance="80 mm")
    >>> room = mc.Room(temperature="21 degC", relative_humidity="50 %")
    >>> setup = mc.Setup(green, "isopropanol", thinner_per_paint=1, airbrush=gun, room=room, substrate="wood")
    >>> print(setup)
    hull green, thinner 1 : paint 1 (isopropanol); 0.3 mm nozzle, 138 kPa, 80 mm away; 1 pass on wood, 3 mm; 21 °C, 50 % humidity
    >>> judged = setup.judge("base coat")
    >>> judged.worst in mc.Setup.faults()
    True
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, paint: Paint, thinner: Blend | Solvent | str, *, thinner_per_paint: SupportsFloat | SupportsIndex = 1.0, retarder: Blend | Solvent | str | None = None, retarder_share: float | Ratio | str | Estimate | HasUnits | None = None, airbrush: Airbrush, room: Room, wet_passes: SupportsIndex = 1, wet_thickness: Length | str | Estimate | HasUnits | None = None, substrate: str = "polystyrene", substrate_thickness: Length | str | Estimate | HasUnits | None = None, primed: bool = False, steepness: Ratio | str | Estimate | HasUnits | None = None, hiding: HidingPower | None = None, ground: float | Ratio | str | Estimate | HasUnits | tuple[float | Ratio | str | Estimate | HasUnits, float | Ratio | str | Estimate | HasUnits] | None = None, yield_stress: Pressure | str | Estimate | HasUnits | None = None) -> Setup: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @property
    def airbrush(self, /) -> Airbrush:
        """
        The gun with its pressure and distance.
        """
    @staticmethod
    def faults() -> list[str]:
        """
        Names of the faults that settings are judged for.
        """
    @staticmethod
    def from_json(text: str) -> Setup:
        """
        The setting from what ``to_json`` wrote. Raises ``DataError`` for other text, with the line and what is wrong.
        """
    @property
    def hiding(self, /) -> HidingPower | None:
        """
        How well the paint hides, where that sets the film to build; ``None`` otherwise.
        """
    def judge(self, /, job: Job | str) -> Judged:
        """
        The whole chain once, against the targets of a job: what goes wrong first, and how far is everything else?

        ``job`` is the name of a usual job or a ``Job``. Best values. Raises ``PhaseSplit`` for a mix that separates,
        ``RangeError`` for settings out of range.
        """
    @property
    def paint(self, /) -> Paint:
        """
        The stock paint that is thinned.
        """
    @property
    def retarder(self, /) -> Blend | None:
        """
        The slow liquid that takes the place of a share of the thinner; ``None`` without one.
        """
    @property
    def retarder_share(self, /) -> Ratio:
        """
        Share of the thinner that is retarder, by volume.
        """
    @property
    def room(self, /) -> Room:
        """
        The room that is sprayed and dried in.
        """
    @property
    def substrate(self, /) -> str:
        """
        What is sprayed, with its thickness.
        """
    @property
    def thinner(self, /) -> Blend:
        """
        The thinner that is added to the paint.
        """
    @property
    def thinner_per_paint(self, /) -> float:
        """
        Parts of thinner to one part of paint, by volume.
        """
    def to_json(self, /) -> str:
        """
        The setting as JSON text, which ``from_json`` reads back without loss; the Rust crate reads the same.
        """
    @property
    def wet_passes(self, /) -> int:
        """
        Passes laid wet in wet before a flash-off.
        """
    @property
    def wet_thickness(self, /) -> Length | None:
        """
        Wet film of one coat, where it is given in place of passes.
        """
    @property
    def yield_stress(self, /) -> Pressure | None:
        """
        Yield stress of the undiluted paint, where one is given.
        """

@final
class Shade:
    """
    A paint as the next colour sees it: how light it is and how strongly it tints.

    ``reflectivity`` is the luminous reflectance of a film that hides; ``strength`` the tinting strength relative to the
    other paints, 1 for paints alike. ``Shade.typical`` takes a colour class, ``Shade.of`` a fitted ``HidingPower``.

    >>> from mistcoat import rinse
    >>> white, black = rinse.Shade("white", 0.90), rinse.Shade("black", 0.04)
    >>> print(white.tolerates(black), black.tolerates(white))
    0.0342 % 9.27 %
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, name: str, reflectivity: float | Ratio | str | Estimate | HasUnits, *, strength: SupportsFloat | SupportsIndex = 1.0) -> Shade: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> Shade: ...
    @property
    def lightness(self, /) -> float:
        """
        CIE lightness L* of a film that hides.
        """
    def lightness_with(self, /, other: Shade, share: float | Ratio | str | Estimate | HasUnits) -> float:
        """
        Lightness of this paint with a share of another in it.
        """
    @property
    def name(self, /) -> str:
        """
        Name the colour was given.
        """
    @staticmethod
    def of(paint: HidingPower) -> Shade:
        """
        From a fitted hiding power: its scattering is its strength.
        """
    @property
    def reflectivity(self, /) -> float:
        """
        Luminous reflectance of a film that hides.
        """
    @property
    def strength(self, /) -> float:
        """
        Tinting strength relative to the other paints.
        """
    def tolerates(self, /, old: Shade, *, tolerance: str = "perceptible") -> Ratio:
        """
        Share of ``old`` that may stay in a fill of this paint. Lightness only; pairs near in lightness are held to 1 %.

        ``tolerance``: "perceptible" (CIELAB 1.2), "acceptable" (2.7), or "perceptible ciede2000" (0.8), "acceptable
        ciede2000" (1.8), of which the lightness term is used.
        """
    @staticmethod
    def typical(colour: str, *, name: str | None = None) -> Shade:
        """
        A colour class, under a name of your own if given. Raises ``UnknownName`` with near names.
        """

@final
class Shot:
    """
    A mix sprayed by a gun in a room; made by ``Airbrush.spray``.

    Drop sizes are good to a factor 2 and films a pass to about a factor 3 as long as paint flow and transfer efficiency are
    typical values: weigh the cup and the part to do better. Spray mist and vapour harm and burn: extract them, wear a fitted
    mask with cartridges for organic vapour and particles; the safety data sheets, local codes and licensed practice decide.

    >>> import mistcoat as mc, warnings
    >>> warnings.simplefilter("ignore", mc.MistcoatWarning)
    >>> thinner = mc.Blend({"acetone": 50, "n-butyl acetate": 50}, basis="mass")
    >>> mix = mc.Paint.typical("solvent lacquer", name="hull green").thin(thinner, thinner=1, paint=1)
    >>> room = mc.Room(temperature="25 degC", relative_humidity="50 %")
    >>> shot = mc.Airbrush(nozzle="0.3 mm", pressure="20 psi", distance="80 mm").spray(mix, room)
    >>> 10 < shot.drop_size.to("um") < 25
    True
    >>> shot.film(passes=2).dry().touch_dry.to("s") < 120
    True
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def air_demand(self, /) -> Estimate:
        """
        Free air that the nozzle needs.
        """
    @property
    def air_speed_at_part(self, /) -> Velocity:
        """
        Air speed on the axis of the jet at the part.
        """
    @property
    def airbrush(self, /) -> Airbrush:
        """
        The gun that sprayed.
        """
    def columns(self, /) -> dict[str, NDArray[float64]]:
        """
        Drop sizes from fine to coarse and how each lands: columns under names with their units, ready for a data frame.
        """
    @property
    def deposit(self, /) -> Blend:
        """
        The liquid in what lands, as a ``Blend``; raises ``RangeError`` when the spray lands as dust.
        """
    @property
    def deposit_solids(self, /) -> Ratio:
        """
        Volume solids of what lands.
        """
    @property
    def drop_size(self, /) -> Estimate:
        """
        Sauter mean diameter of the drops at the nozzle.
        """
    def drop_size_below(self, /, share: Ratio | str | Estimate | HasUnits) -> Length:
        """
        Diameter below which this share of the sprayed volume lies, 0.1 to 99.9 %.
        """
    @property
    def drop_temperature(self, /) -> Temperature:
        """
        Temperature of the drops on arrival, the mean over what lands.
        """
    @property
    def dry_film_per_pass(self, /) -> Estimate:
        """
        Dry film that one pass leaves when all solvent is gone.
        """
    @property
    def dust(self, /) -> Ratio:
        """
        Share of the sprayed volume in drops that land dry.
        """
    def film(self, /, passes: SupportsIndex = 1, *, substrate: str = "polystyrene", substrate_thickness: Length | str | Estimate | HasUnits | None = None) -> Film:
        """
        The coat that this many passes leave, one on the other before any has dried.

        It holds what arrives: less of the fast solvent, more solids, and water the drops took up. ``substrate`` and
        ``substrate_thickness`` as for ``Film``. Raises ``RangeError`` for no pass, a film outside 1 µm to 5 mm, or a spray that
        lands as dust.
        """
    @property
    def flight_loss(self, /) -> Estimate:
        """
        Share of the volatile mass lost between nozzle and part; water gained from humid air does not count.
        """
    @property
    def flight_time(self, /) -> Time:
        """
        Time of flight, the mean over the sprayed volume.
        """
    @staticmethod
    def from_json(text: str) -> Shot:
        """
        The shot from what ``to_json`` wrote. Raises ``DataError`` for other text, with the line and what is wrong.
        """
    @property
    def lost_by_species(self, /) -> dict[str, float]:
        """
        Share of each volatile species lost in flight, by name.
        """
    @property
    def mix(self, /) -> Mix:
        """
        The mix as it was in the cup.
        """
    @property
    def paint_flow(self, /) -> Estimate:
        """
        Paint sprayed in a time: given, or with the trigger half drawn, at most what the nozzle passes of this mix.
        """
    def passes_for(self, /, dry_film: Length | str | Estimate | HasUnits) -> Estimate:
        """
        Passes over the same place until the dry film is this thick.
        """
    @property
    def room(self, /) -> Room:
        """
        The room it was sprayed in.
        """
    @property
    def shear_rate(self, /) -> Frequency:
        """
        Shear rate of the paint in the bore, for a viscosity read at another shear.
        """
    @property
    def swath(self, /) -> Length:
        """
        Width of one pass on the part.
        """
    def table(self, /) -> Table:
        """
        The shot as a table, with what to mind under it.
        """
    def to_json(self, /) -> str:
        """
        The shot as JSON text, which ``from_json`` reads back without loss; the Rust crate reads the same.
        It holds gun, mix and room; the rest is worked out again.
        """
    @property
    def warnings(self, /) -> list[str]:
        """
        What to mind: spatter, dry spray, a nozzle too fine, too little air; empty when there is nothing.
        """
    @property
    def water_from_air(self, /) -> Ratio:
        """
        Water that the drops took from humid air on the way, as a share of the volume that lands; 0 when they gave water off. It
        is in the film that lands. Best value, good to a factor 2.
        """
    @property
    def wet_film_per_pass(self, /) -> Estimate:
        """
        Wet film that one pass leaves, as it lies when it lands.
        """
    def working(self, /) -> Working:
        """
        The steps from the nozzle to the film of one pass, with numbers and sources.
        """

@final
class SolubilityParameter:
    """
    A value of dimension SolubilityParameter with its unit: ``SolubilityParameter("15.8 MPa^0.5")`` or ``SolubilityParameter(number, unit)``.

    Immutable. ``.to(unit)`` gives the number, ``format(q, ".3g unit")`` prints it. Compares, adds and scales within its dimension; hashes and pickles.
    """
    def __abs__(self, /) -> SolubilityParameter: ...
    def __add__(self, other: object, /) -> SolubilityParameter: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __format__(self, /, spec: str) -> str: ...
    def __ge__(self, value: object, /) -> bool: ...
    def __getnewargs__(self, /) -> tuple[float, str]: ...
    def __gt__(self, value: object, /) -> bool: ...
    def __hash__(self, /) -> int: ...
    def __le__(self, value: object, /) -> bool: ...
    def __lt__(self, value: object, /) -> bool: ...
    def __mul__(self, factor: object, /) -> SolubilityParameter: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __neg__(self, /) -> SolubilityParameter: ...
    def __new__(cls, /, value: float | SolubilityParameter | str | Estimate | HasUnits, unit: str | None = None) -> SolubilityParameter: ...
    def __repr__(self, /) -> str: ...
    def __rmul__(self, factor: object, /) -> SolubilityParameter: ...
    def __str__(self, /) -> str: ...
    def __sub__(self, other: object, /) -> SolubilityParameter: ...
    def __truediv__(self, divisor: object, /) -> Any:
        """
        A quantity over its like is a plain number; over a number it is scaled.
        """
    def to(self, /, unit: str) -> float:
        """
        The number in the named unit.
        """
    @staticmethod
    def units() -> list[str]:
        """
        The units understood, the SI unit first.
        """

@final
class Solvent:
    """
    A pure liquid or a petroleum cut. Get one from ``solvent(name)`` or from a ``Catalogue``.

    Values at a temperature are ``Estimate`` objects, whose interval tells how far the sources differ;
    outside the range of its equation a value is refused with ``RangeError``.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __hash__(self, /) -> int: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @property
    def boiling_point(self, /) -> Temperature:
        """
        Normal boiling point; of a cut, the middle of its range.
        """
    @property
    def cas(self, /) -> str | None:
        """
        CAS registry number.
        """
    def density(self, /, temperature: Temperature | str | Estimate | HasUnits) -> Estimate:
        """
        Density at a temperature.
        """
    def diffusivity(self, /, temperature: Temperature | str | Estimate | HasUnits) -> Estimate:
        """
        Diffusivity of the vapour in air of one atmosphere at a temperature.
        """
    @property
    def evaporation_class(self, /) -> str:
        """
        Fast, medium or slow, by the published rate, else the predicted one.
        """
    @property
    def evaporation_number(self, /) -> Estimate:
        """
        Evaporation number, ether = 1, turned from the rate; a higher number is slower.
        """
    @property
    def exposure_limits(self, /) -> list[ExposureLimit]:
        """
        Published exposure limits.
        """
    @property
    def flash_point(self, /) -> SafetyValue | None:
        """
        Flash point, closed cup; None for water, or where none is known.
        """
    @property
    def formula(self, /) -> str:
        """
        Molecular formula; of a cut, the mean molecule.
        """
    @staticmethod
    def from_json(text: str) -> Solvent:
        """
        The solvent from what ``to_json`` wrote. Raises ``DataError`` for other text, with the line and what is wrong.
        """
    @property
    def hansen(self, /) -> Hansen | None:
        """
        Hansen solubility parameters.
        """
    @property
    def heat_capacity_per_kelvin(self, /) -> Estimate:
        """
        Heat that warms one mole of the liquid by one kelvin, at 25 °C.
        """
    def heat_of_vaporisation(self, /, temperature: Temperature | str | Estimate | HasUnits) -> Estimate:
        """
        Heat of vaporisation per mole at a temperature.
        """
    @property
    def id(self, /) -> str:
        """
        Short stable name, for example ``n_butyl_acetate``.
        """
    @property
    def is_cut(self, /) -> bool:
        """
        Whether it is a cut: a mixture with a boiling range, sold as one liquid.
        """
    def kinematic_viscosity(self, /, temperature: Temperature | str | Estimate | HasUnits) -> Estimate:
        """
        Kinematic viscosity at a temperature: dynamic viscosity over density.
        """
    @property
    def lower_flammable_limit(self, /) -> SafetyValue | None:
        """
        Lowest share of vapour in air, by volume, that burns.
        """
    @property
    def melting_point(self, /) -> Temperature:
        """
        Melting point at ordinary pressure.
        """
    @property
    def molar_mass(self, /) -> MolarMass:
        """
        Molar mass of the solvent, above 0.
        """
    def molar_volume(self, /, temperature: Temperature | str | Estimate | HasUnits) -> Estimate:
        """
        Volume of one mole at a temperature.
        """
    @property
    def name(self, /) -> str:
        """
        Name used in tables.
        """
    @property
    def note(self, /) -> str | None:
        """
        What to mind about this record.
        """
    @property
    def odour_threshold(self, /) -> SafetyValue | None:
        """
        Concentration at which half a panel smells it. Smell is no safeguard.
        """
    @property
    def polystyrene_attack(self, /) -> str | None:
        """
        What it does to polystyrene: "none in normal use", "slow or crazing" or "dissolves or softens".
        """
    @property
    def predicted_relative_evaporation_rate(self, /) -> Estimate:
        """
        Evaporation rate predicted from the properties, n-butyl acetate = 1.
        """
    @property
    def relative_evaporation_rate(self, /) -> Estimate | None:
        """
        Published evaporation rate, n-butyl acetate = 1; None where nothing is published.
        """
    @property
    def safety_note(self, /) -> str | None:
        """
        What to mind about fire and health figures.
        """
    def source(self, /, property: str) -> PropertySource | None:
        """
        The source behind a property, by its name; None where the solvent has no such value.
        """
    def surface_tension(self, /, temperature: Temperature | str | Estimate | HasUnits) -> Estimate:
        """
        Surface tension against air at a temperature.
        """
    @property
    def surrogate(self, /) -> dict[str, float]:
        """
        Mole fractions of the pure liquids that stand for a cut, by name; empty for a pure liquid.
        """
    @property
    def synonyms(self, /) -> list[str]:
        """
        Other names it is sold or written under.
        """
    def to_json(self, /) -> str:
        """
        The solvent as JSON text, which ``from_json`` reads back without loss; the Rust crate reads the same.
        A built-in one is its name, another its whole record.
        """
    @property
    def upper_flammable_limit(self, /) -> SafetyValue | None:
        """
        Highest share of vapour in air, by volume, that burns.
        """
    def vapour_pressure(self, /, temperature: Temperature | str | Estimate | HasUnits) -> Estimate:
        """
        Vapour pressure at a temperature; of a cut, that of the fresh liquid.
        """
    def viscosity(self, /, temperature: Temperature | str | Estimate | HasUnits) -> Estimate:
        """
        Dynamic viscosity at a temperature.
        """
    @property
    def voc_exempt(self, /) -> bool | None:
        """
        Whether US federal rules exempt it from the count of volatile organic compounds.
        """

@final
class Split:
    """
    Equal portions of cleaner.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> Split: ...
    @property
    def each(self, /) -> Volume:
        """
        Size of each portion of cleaner; all are alike.
        """
    @property
    def portions(self, /) -> int:
        """
        Number of equal portions.
        """
    @property
    def total(self, /) -> Volume:
        """
        Cleaner in all portions together.
        """

@final
class SpreadingRate:
    """
    A value of dimension SpreadingRate with its unit: ``SpreadingRate("8 m2/L")`` or ``SpreadingRate(number, unit)``.

    Immutable. ``.to(unit)`` gives the number, ``format(q, ".3g unit")`` prints it. Compares, adds and scales within its dimension; hashes and pickles.
    """
    def __abs__(self, /) -> SpreadingRate: ...
    def __add__(self, other: object, /) -> SpreadingRate: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __format__(self, /, spec: str) -> str: ...
    def __ge__(self, value: object, /) -> bool: ...
    def __getnewargs__(self, /) -> tuple[float, str]: ...
    def __gt__(self, value: object, /) -> bool: ...
    def __hash__(self, /) -> int: ...
    def __le__(self, value: object, /) -> bool: ...
    def __lt__(self, value: object, /) -> bool: ...
    def __mul__(self, factor: object, /) -> SpreadingRate: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __neg__(self, /) -> SpreadingRate: ...
    def __new__(cls, /, value: float | SpreadingRate | str | Estimate | HasUnits, unit: str | None = None) -> SpreadingRate: ...
    def __repr__(self, /) -> str: ...
    def __rmul__(self, factor: object, /) -> SpreadingRate: ...
    def __str__(self, /) -> str: ...
    def __sub__(self, other: object, /) -> SpreadingRate: ...
    def __truediv__(self, divisor: object, /) -> Any:
        """
        A quantity over its like is a plain number; over a number it is scaled.
        """
    def to(self, /, unit: str) -> float:
        """
        The number in the named unit.
        """
    @staticmethod
    def units() -> list[str]:
        """
        The units understood, the SI unit first.
        """

@final
class Stack:
    """
    Coats sprayed on one another, with waits: spray, flash, spray.

    ``Stack(coat, coats=3, wait="3 min")`` is the same coat three times; ``then(wait, coat)`` adds another one so long after the
    last has landed. The air of each coat (its room or programme) holds until the next lands. A coat mixes at once with what
    the coats below kept; gradients are neglected. Coats must share substrate, part length and binder.

    >>> import mistcoat as mc
    >>> thinner = mc.Blend({"acetone": 50, "n-butyl acetate": 35, "2-butoxyethanol": 15}, basis="mass")
    >>> room = mc.Room(temperature="21 degC", relative_humidity="50 %")
    >>> coat = mc.Film(thinner, wet_thickness="12 um", room=room, solids="15 %", binder_tg="50 degC")
    >>> hull = mc.Stack(coat, coats=3, wait="3 min").dry()
    >>> hull.after_last.touch_dry.best < hull.one_coat.touch_dry.best
    True
    >>> [round(kept.to("%"), 1) for kept in hull.kept]
    [5.7, 6.0]
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __len__(self, /) -> int: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, coat: Film, *, coats: SupportsIndex = 1, wait: Time | str | Estimate | HasUnits | None = None) -> Stack: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @property
    def coats(self, /) -> int:
        """
        How many coats lie on one another.
        """
    def dry(self, /) -> StackDrying:
        """
        Dries the stack, and the same paint in one coat. Gives a ``MistcoatWarning`` when there is something to mind about the
        stack.
        """
    @property
    def film(self, /) -> Film:
        """
        The last coat, over all others.
        """
    @staticmethod
    def from_json(text: str) -> Stack:
        """
        The stack from what ``to_json`` wrote. Raises ``DataError`` for other text, with the line and what is wrong.
        """
    @property
    def spraying_time(self, /) -> Time:
        """
        From the landing of the first coat to that of the last.
        """
    def then(self, /, wait: Time | str | Estimate | HasUnits, coat: Film) -> Stack:
        """
        The stack with another coat, so long after the one before it has landed.

        Raises ``RangeError`` for a wait outside 0 s to 365 d, more than 50 coats or 5 mm, and coats that differ in substrate,
        part length or binder.
        """
    def to_json(self, /) -> str:
        """
        The stack as JSON text, which ``from_json`` reads back without loss; the Rust crate reads the same.
        """

@final
class StackCheck:
    """
    A stack of coats with its verdicts, from the part upwards.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def advice(self, /) -> str | None:
        """
        What would help when no order is free of a "no".
        """
    @property
    def better_order(self, /) -> list[str] | None:
        """
        Names in a milder order, from the part upwards; ``None`` when there is none.
        """
    @staticmethod
    def from_json(text: str) -> StackCheck:
        """
        The check from what ``to_json`` wrote. Raises ``DataError`` for other text, with the line and what is wrong.
        """
    @property
    def pairs(self, /) -> list[Judgement]:
        """
        Each coat over the one below.
        """
    def table(self, /) -> Table:
        """
        The stack as a table, with sources and cautions.
        """
    def to_json(self, /) -> str:
        """
        The check as JSON text, which ``from_json`` reads back without loss; the Rust crate reads the same.
        """
    @property
    def verdict(self, /) -> str:
        """
        The sternest verdict: "fine", "test first" or "no".
        """

@final
class StackDrying:
    """
    How a stack of coats dries, beside the same paint in one coat.

    ``flash_off``, ``touch_dry``, ``handle`` and ``residual_solvent`` count from the first coat; those of ``after_last`` from the last.
    Prints as a table.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def after_last(self, /) -> Drying:
        """
        The stack from the landing of the last coat on; shares are of what the film held then.
        """
    @property
    def dry_thickness(self, /) -> Length:
        """
        Thickness of all solids.
        """
    @property
    def flash_off(self, /) -> Estimate:
        """
        From the first coat until a tenth of all volatile matter that the coats brought is left.
        """
    @staticmethod
    def from_json(text: str) -> StackDrying:
        """
        The result from what ``to_json`` wrote. Raises ``DataError`` for other text, with the line and what is wrong.
        """
    @property
    def handle(self, /) -> Estimate:
        """
        From the first coat until the stack may be handled and masked (block-free). Raises ``RangeError`` as ``touch_dry``.
        """
    @property
    def kept(self, /) -> list[Estimate]:
        """
        For each coat from the second on: share of the volatile mass brought before it that the film still held when it landed.
        """
    @property
    def one_coat(self, /) -> Drying:
        """
        The same paint laid at once, in the air of the last coat.
        """
    def residual_solvent(self, /, time: Time | str | Estimate | HasUnits) -> Estimate:
        """
        Solvent left so long after the first coat; in the one coat it is ``one_coat.residual_solvent(time)``.

        Raises ``RangeError`` for a time before the last coat, beyond what is followed, or coats without solids.
        """
    @property
    def spraying_time(self, /) -> Time:
        """
        From the landing of the first coat to that of the last.
        """
    @property
    def stack(self, /) -> Stack:
        """
        The coats that were dried, ready for another ``then``.
        """
    def table(self, /) -> Table:
        """
        The stack beside the one coat, all times from the first coat.
        """
    def to_json(self, /) -> str:
        """
        The result as JSON text, which ``from_json`` reads back without loss; the Rust crate reads the same.
        """
    @property
    def touch_dry(self, /) -> Estimate:
        """
        From the first coat until the stack is touch dry. Raises ``RangeError`` as ``Drying.touch_dry``.
        """
    @property
    def warnings(self, /) -> list[str]:
        """
        What to mind about the stack; empty when there is nothing.
        """

@final
class SurfaceTension:
    """
    A value of dimension SurfaceTension with its unit: ``SurfaceTension("25 mN/m")`` or ``SurfaceTension(number, unit)``.

    Immutable. ``.to(unit)`` gives the number, ``format(q, ".3g unit")`` prints it. Compares, adds and scales within its dimension; hashes and pickles.
    """
    def __abs__(self, /) -> SurfaceTension: ...
    def __add__(self, other: object, /) -> SurfaceTension: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __format__(self, /, spec: str) -> str: ...
    def __ge__(self, value: object, /) -> bool: ...
    def __getnewargs__(self, /) -> tuple[float, str]: ...
    def __gt__(self, value: object, /) -> bool: ...
    def __hash__(self, /) -> int: ...
    def __le__(self, value: object, /) -> bool: ...
    def __lt__(self, value: object, /) -> bool: ...
    def __mul__(self, factor: object, /) -> SurfaceTension: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __neg__(self, /) -> SurfaceTension: ...
    def __new__(cls, /, value: float | SurfaceTension | str | Estimate | HasUnits, unit: str | None = None) -> SurfaceTension: ...
    def __repr__(self, /) -> str: ...
    def __rmul__(self, factor: object, /) -> SurfaceTension: ...
    def __str__(self, /) -> str: ...
    def __sub__(self, other: object, /) -> SurfaceTension: ...
    def __truediv__(self, divisor: object, /) -> Any:
        """
        A quantity over its like is a plain number; over a number it is scaled.
        """
    def to(self, /, unit: str) -> float:
        """
        The number in the named unit.
        """
    @staticmethod
    def units() -> list[str]:
        """
        The units understood, the SI unit first.
        """

@final
class Table:
    """
    A table of results: text, HTML in notebooks, columns for data frames.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __len__(self, /) -> int: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> Table: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def caption(self, /) -> str:
        """
        What was compared, under which conditions.
        """
    def columns(self, /) -> dict[str, list[Any]]:
        """
        Columns by name with unit; intervals as ``..._low`` and ``..._high``, ``None`` where there is no answer.
        """
    @property
    def notes(self, /) -> list[str]:
        """
        What to mind when reading it.
        """
    @property
    def titles(self, /) -> list[str]:
        """
        Headings of the columns.
        """
    def to_pandas(self, /) -> Any:
        """
        A pandas data frame of the columns.
        """
    def to_polars(self, /) -> Any:
        """
        A polars data frame of the columns.
        """

@final
class Temperature:
    """
    A value of dimension Temperature with its unit: ``Temperature("21 °C")`` or ``Temperature(number, unit)``.

    Immutable. ``.to(unit)`` gives the number, ``format(q, ".3g unit")`` prints it. Compares, adds and scales within its dimension; hashes and pickles.
    """
    def __add__(self, difference: object, /) -> Temperature: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __format__(self, /, spec: str) -> str: ...
    def __ge__(self, value: object, /) -> bool: ...
    def __getnewargs__(self, /) -> tuple[float, str]: ...
    def __gt__(self, value: object, /) -> bool: ...
    def __hash__(self, /) -> int: ...
    def __le__(self, value: object, /) -> bool: ...
    def __lt__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, value: float | Temperature | str | Estimate | HasUnits, unit: str | None = None) -> Temperature: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    def __sub__(self, other: object, /) -> Any:
        """
        A temperature less a difference is a temperature; less a temperature it is a difference.
        """
    def to(self, /, unit: str) -> float:
        """
        The number in the named unit.
        """
    @staticmethod
    def units() -> list[str]:
        """
        The units understood, the SI unit first.
        """

@final
class TemperatureDifference:
    """
    A value of dimension TemperatureDifference with its unit: ``TemperatureDifference("3 K")`` or ``TemperatureDifference(number, unit)``.

    Immutable. ``.to(unit)`` gives the number, ``format(q, ".3g unit")`` prints it. Compares, adds and scales within its dimension; hashes and pickles.
    """
    def __abs__(self, /) -> TemperatureDifference: ...
    def __add__(self, other: object, /) -> TemperatureDifference: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __format__(self, /, spec: str) -> str: ...
    def __ge__(self, value: object, /) -> bool: ...
    def __getnewargs__(self, /) -> tuple[float, str]: ...
    def __gt__(self, value: object, /) -> bool: ...
    def __hash__(self, /) -> int: ...
    def __le__(self, value: object, /) -> bool: ...
    def __lt__(self, value: object, /) -> bool: ...
    def __mul__(self, factor: object, /) -> TemperatureDifference: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __neg__(self, /) -> TemperatureDifference: ...
    def __new__(cls, /, value: float | TemperatureDifference | str | Estimate | HasUnits, unit: str | None = None) -> TemperatureDifference: ...
    def __repr__(self, /) -> str: ...
    def __rmul__(self, factor: object, /) -> TemperatureDifference: ...
    def __str__(self, /) -> str: ...
    def __sub__(self, other: object, /) -> TemperatureDifference: ...
    def __truediv__(self, divisor: object, /) -> Any:
        """
        A quantity over its like is a plain number; over a number it is scaled.
        """
    def to(self, /, unit: str) -> float:
        """
        The number in the named unit.
        """
    @staticmethod
    def units() -> list[str]:
        """
        The units understood, the SI unit first.
        """

@final
class Thinning:
    """
    How far a paint is thinned, the parts always named.

    ``Thinning(thinner=2, paint=1)``, ``Thinning(percent_of_paint=50)``, ``Thinning(percent_of_mix=33)``,
    ``Thinning(paint_fraction=0.4)``, or words: ``Thinning("2 parts thinner to 1 part paint")``. A bare "2:1" is refused
    with both readings shown. By volume, or with ``by="mass"`` and both densities by mass.

    >>> import mistcoat as mc
    >>> mc.Thinning(thinner=2, paint=1).paint_fraction == mc.Thinning("paint:thinner 1:2").paint_fraction
    True
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __hash__(self, /) -> int: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __new__(cls, /, text: str | None = None, *, thinner: SupportsFloat | SupportsIndex | None = None, paint: SupportsFloat | SupportsIndex | None = None, percent_of_paint: float | Ratio | str | Estimate | HasUnits | None = None, percent_of_mix: float | Ratio | str | Estimate | HasUnits | None = None, paint_fraction: float | Ratio | str | Estimate | HasUnits | None = None, by: str = "volume", thinner_density: Density | str | Estimate | HasUnits | None = None, paint_density: Density | str | Estimate | HasUnits | None = None) -> Thinning: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> Thinning: ...
    @property
    def paint_fraction(self, /) -> float:
        """
        Share of stock paint in the volume of the mix, 0 to 1.
        """
    @property
    def percent_of_mix(self, /) -> float:
        """
        Thinner as percent of the volume of the mix.
        """
    @property
    def percent_of_paint(self, /) -> float:
        """
        Thinner as percent of the paint's volume.
        """
    def then(self, /, again: Thinning | str) -> Thinning:
        """
        This mix thinned once more.
        """
    def thinner_for(self, /, paint: Volume | str | Estimate | HasUnits) -> Volume:
        """
        Thinner to add to a volume of stock paint.
        """
    @property
    def thinner_per_paint(self, /) -> float:
        """
        Volumes of thinner to one volume of paint.
        """
    def thinner_per_paint_by_mass(self, /, thinner_density: Density | str | Estimate | HasUnits, paint_density: Density | str | Estimate | HasUnits) -> float:
        """
        Masses of thinner to one mass of paint.
        """

@final
class Time:
    """
    A value of dimension Time with its unit: ``Time("35 s")`` or ``Time(number, unit)``.

    Immutable. ``.to(unit)`` gives the number, ``format(q, ".3g unit")`` prints it. Compares, adds and scales within its dimension; hashes and pickles.
    """
    def __abs__(self, /) -> Time: ...
    def __add__(self, other: object, /) -> Time: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __format__(self, /, spec: str) -> str: ...
    def __ge__(self, value: object, /) -> bool: ...
    def __getnewargs__(self, /) -> tuple[float, str]: ...
    def __gt__(self, value: object, /) -> bool: ...
    def __hash__(self, /) -> int: ...
    def __le__(self, value: object, /) -> bool: ...
    def __lt__(self, value: object, /) -> bool: ...
    def __mul__(self, factor: object, /) -> Time: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __neg__(self, /) -> Time: ...
    def __new__(cls, /, value: float | Time | str | Estimate | HasUnits, unit: str | None = None) -> Time: ...
    def __repr__(self, /) -> str: ...
    def __rmul__(self, factor: object, /) -> Time: ...
    def __str__(self, /) -> str: ...
    def __sub__(self, other: object, /) -> Time: ...
    def __truediv__(self, divisor: object, /) -> Any:
        """
        A quantity over its like is a plain number; over a number it is scaled.
        """
    def to(self, /, unit: str) -> float:
        """
        The number in the named unit.
        """
    @staticmethod
    def units() -> list[str]:
        """
        The units understood, the SI unit first.
        """

@final
class TipDrying:
    """
    How soon the paint on the tip of the needle sets, from ``tip_drying``.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> TipDrying: ...
    @property
    def advice(self, /) -> str:
        """
        What to do about the cup, in words for the bench.
        """
    @property
    def index(self, /) -> Estimate:
        """
        The pause between strokes over that time: above 1 the tip dries between strokes.
        """
    @property
    def redissolves(self, /) -> bool:
        """
        Whether the next stroke of the same paint dissolves what has set.
        """
    @property
    def sets_after(self, /) -> Estimate:
        """
        Until the paint on the tip no longer flows: ten times as thick, or for a dispersion its particles touch.
        """
    @property
    def wipe_every(self, /) -> Time | None:
        """
        Time in pauses after which a clot of 50 µm has built up; ``None`` when the tip stays wet or dissolves again.
        """
    def working(self, /) -> Working:
        """
        The steps behind it, with numbers and sources.
        """

@final
class TopUp:
    """
    What brings a mix in an open cup back to the viscosity it was poured with, from ``CupCourse.top_up``.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> TopUp: ...
    @property
    def drops(self, /) -> Estimate:
        """
        Drops of whole thinner to add, with their interval.
        """
    @property
    def evaporation_rate(self, /) -> Ratio:
        """
        Mass that leaves the restored mix each second over that of the mix as poured.
        """
    @property
    def lost_mass(self, /) -> Mass:
        """
        Mass that has left, less what came from the air.
        """
    @property
    def lost_volume(self, /) -> Volume:
        """
        Volume of what has left, less what came from the air.
        """
    @property
    def poured(self, /) -> dict[str, float]:
        """
        By species: mass fraction of the liquid as poured.
        """
    @property
    def restored(self, /) -> dict[str, float]:
        """
        By species: mass fraction of the liquid once restored, richer in what is slow.
        """
    @property
    def thinner(self, /) -> Estimate:
        """
        Volume of whole thinner to add.
        """
    @property
    def warnings(self, /) -> list[str]:
        """
        What to mind; empty when there is nothing.
        """
    def working(self, /) -> Working:
        """
        The steps behind it, with numbers and sources.
        """

@final
class VapourSource:
    """
    One source of vapour over the session. Water does not count.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> VapourSource: ...
    @property
    def brought(self, /) -> Mass:
        """
        Solvent sprayed, poured out or standing in the cup.
        """
    @property
    def in_flight(self, /) -> Mass:
        """
        Of it, what never landed or was lost in flight.
        """
    @property
    def kept(self, /) -> Mass:
        """
        What never became vapour: still in film or cup, or poured away.
        """
    @property
    def kind(self, /) -> str:
        """
        "sprayed coat", "cleaning" or "open cup".
        """
    @property
    def lasts(self, /) -> Time:
        """
        How long is sprayed or cleaned, or the cup open; a film goes on drying afterwards.
        """
    @property
    def name(self, /) -> str:
        """
        Name that it was given.
        """
    @property
    def released(self, /) -> Mass:
        """
        Vapour given off in all.
        """
    @property
    def start(self, /) -> Time:
        """
        When it begins, from the begin of the session.
        """

@final
class Velocity:
    """
    A value of dimension Velocity with its unit: ``Velocity("0.1 m/s")`` or ``Velocity(number, unit)``.

    Immutable. ``.to(unit)`` gives the number, ``format(q, ".3g unit")`` prints it. Compares, adds and scales within its dimension; hashes and pickles.
    """
    def __abs__(self, /) -> Velocity: ...
    def __add__(self, other: object, /) -> Velocity: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __format__(self, /, spec: str) -> str: ...
    def __ge__(self, value: object, /) -> bool: ...
    def __getnewargs__(self, /) -> tuple[float, str]: ...
    def __gt__(self, value: object, /) -> bool: ...
    def __hash__(self, /) -> int: ...
    def __le__(self, value: object, /) -> bool: ...
    def __lt__(self, value: object, /) -> bool: ...
    def __mul__(self, factor: object, /) -> Velocity: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __neg__(self, /) -> Velocity: ...
    def __new__(cls, /, value: float | Velocity | str | Estimate | HasUnits, unit: str | None = None) -> Velocity: ...
    def __repr__(self, /) -> str: ...
    def __rmul__(self, factor: object, /) -> Velocity: ...
    def __str__(self, /) -> str: ...
    def __sub__(self, other: object, /) -> Velocity: ...
    def __truediv__(self, divisor: object, /) -> Any:
        """
        A quantity over its like is a plain number; over a number it is scaled.
        """
    def to(self, /, unit: str) -> float:
        """
        The number in the named unit.
        """
    @staticmethod
    def units() -> list[str]:
        """
        The units understood, the SI unit first.
        """

@final
class Ventilation:
    """
    Fresh air that would keep the room's mean below a share of the limits; its text says what it leaves out.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> Ventilation: ...
    @property
    def air_changes(self, /) -> Estimate | None:
        """
        Air changes; ``None`` when even 200 an hour are too few. Plan with the high end.
        """
    @property
    def below(self, /) -> Ratio:
        """
        The share of the limits.
        """
    @property
    def flow(self, /) -> Estimate | None:
        """
        The same as a flow of fresh air.
        """

@final
class Voc:
    """
    Volatile organic content of a mix, from ``Mix.voc``: a mass balance with ideal volumes at 20 °C.

    >>> import mistcoat as mc
    >>> thinner = mc.Blend({"acetone": 50, "n-butyl acetate": 35, "2-butoxyethanol": 15}, basis="mass")
    >>> voc = mc.demo_paint("hull green").thin(thinner, thinner=1, paint=1).voc()
    >>> print(voc)
    545 g/L, 741 g/L less water and exempt solvents
    >>> voc.less_water_and_exempt > voc.total  # acetone is exempt
    True
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @staticmethod
    def from_json(text: str) -> Voc:
        """
        The content from what ``to_json`` wrote. Raises ``DataError`` for other text, with the line and what is wrong.
        """
    @property
    def less_water_and_exempt(self, /) -> MassConcentration:
        """
        Mass of organic volatiles per volume of the mix less its water and exempt solvents, the figure most rules limit.
        """
    def to_json(self, /) -> str:
        """
        The content as JSON text, which ``from_json`` reads back without loss; the Rust crate reads the same.
        """
    @property
    def total(self, /) -> MassConcentration:
        """
        Mass of organic volatiles per volume of the mix; exempt solvents are not counted.
        """
    def working(self, /) -> Working:
        """
        The steps behind both figures, with formulas, numbers and sources.
        """

@final
class Volume:
    """
    A value of dimension Volume with its unit: ``Volume("5 mL")`` or ``Volume(number, unit)``.

    Immutable. ``.to(unit)`` gives the number, ``format(q, ".3g unit")`` prints it. Compares, adds and scales within its dimension; hashes and pickles.
    """
    def __abs__(self, /) -> Volume: ...
    def __add__(self, other: object, /) -> Volume: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __format__(self, /, spec: str) -> str: ...
    def __ge__(self, value: object, /) -> bool: ...
    def __getnewargs__(self, /) -> tuple[float, str]: ...
    def __gt__(self, value: object, /) -> bool: ...
    def __hash__(self, /) -> int: ...
    def __le__(self, value: object, /) -> bool: ...
    def __lt__(self, value: object, /) -> bool: ...
    def __mul__(self, factor: object, /) -> Volume: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __neg__(self, /) -> Volume: ...
    def __new__(cls, /, value: float | Volume | str | Estimate | HasUnits, unit: str | None = None) -> Volume: ...
    def __repr__(self, /) -> str: ...
    def __rmul__(self, factor: object, /) -> Volume: ...
    def __str__(self, /) -> str: ...
    def __sub__(self, other: object, /) -> Volume: ...
    def __truediv__(self, divisor: object, /) -> Any:
        """
        A quantity over its like is a plain number; over a number it is scaled.
        """
    def to(self, /, unit: str) -> float:
        """
        The number in the named unit.
        """
    @staticmethod
    def units() -> list[str]:
        """
        The units understood, the SI unit first.
        """

@final
class VolumeRate:
    """
    A value of dimension VolumeRate with its unit: ``VolumeRate("12 L/min")`` or ``VolumeRate(number, unit)``.

    Immutable. ``.to(unit)`` gives the number, ``format(q, ".3g unit")`` prints it. Compares, adds and scales within its dimension; hashes and pickles.
    """
    def __abs__(self, /) -> VolumeRate: ...
    def __add__(self, other: object, /) -> VolumeRate: ...
    def __eq__(self, value: object, /) -> bool: ...
    def __format__(self, /, spec: str) -> str: ...
    def __ge__(self, value: object, /) -> bool: ...
    def __getnewargs__(self, /) -> tuple[float, str]: ...
    def __gt__(self, value: object, /) -> bool: ...
    def __hash__(self, /) -> int: ...
    def __le__(self, value: object, /) -> bool: ...
    def __lt__(self, value: object, /) -> bool: ...
    def __mul__(self, factor: object, /) -> VolumeRate: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __neg__(self, /) -> VolumeRate: ...
    def __new__(cls, /, value: float | VolumeRate | str | Estimate | HasUnits, unit: str | None = None) -> VolumeRate: ...
    def __repr__(self, /) -> str: ...
    def __rmul__(self, factor: object, /) -> VolumeRate: ...
    def __str__(self, /) -> str: ...
    def __sub__(self, other: object, /) -> VolumeRate: ...
    def __truediv__(self, divisor: object, /) -> Any:
        """
        A quantity over its like is a plain number; over a number it is scaled.
        """
    def to(self, /, unit: str) -> float:
        """
        The number in the named unit.
        """
    @staticmethod
    def units() -> list[str]:
        """
        The units understood, the SI unit first.
        """

@final
class Wait:
    """
    A wait of a part: how long as planned, how long at best values, and why.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> Wait: ...
    @property
    def at_best(self, /) -> Time:
        """
        As long as it takes when the coat dries as the best value says; never less than common practice.
        """
    @property
    def estimate(self, /) -> Estimate | None:
        """
        The time behind it with its interval; ``None`` for a rule of common practice.
        """
    @property
    def lasts(self, /) -> Time:
        """
        How long, as planned: the upper end, or common practice where that asks for more.
        """
    @property
    def least(self, /) -> Time:
        """
        No shorter than this, however soon the coat dries: what common practice asks for before the coat above; else zero.
        """
    @property
    def source(self, /) -> str:
        """
        Where that comes from.
        """
    @property
    def why(self, /) -> str:
        """
        Why the part waits so long.
        """

@final
class WindowMap:
    """
    A map over two settings: the first fault of every cell, or none.

    >>> import mistcoat as mc
    >>> green = mc.Paint.typical("alcohol acrylic", name="hull green")
    >>> gun = mc.Airbrush(nozzle="0.3 mm", pressure="25 psi", distance="65 mm")
    >>> room = mc.Room(temperature="23 degC", relative_humidity="50 %")
    >>> setup = mc.Setup(green, "isopropanol", airbrush=gun, room=room, substrate="wood")
    >>> found = mc.window(setup, "base coat", x=("thinner_per_paint", [1, 2]), y=("pressure_kPa", [100, 150, 200]))
    >>> found.codes.shape
    (3, 2)
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> WindowMap: ...
    def chart(self, /) -> Any:
        """
        The map as a matplotlib figure (needs matplotlib: ``pip install mistcoat[charts]``).
        """
    @property
    def codes(self, /) -> Incomplete:
        """
        One row for each of ``y``, one column for each of ``x``: -1 inside every limit, -2 cannot be judged, -3 not judged
        because the work was stopped, else the fault met by most.
        """
    @property
    def conditions(self, /) -> str:
        """
        What stays the same over the map, in one line.
        """
    @property
    def faults(self, /) -> list[str]:
        """
        The faults that the codes of ``codes`` count from 0.
        """
    @property
    def good_share(self, /) -> float:
        """
        Share of the judged cells that are inside every limit.
        """
    @property
    def is_complete(self, /) -> bool:
        """
        Whether every cell was judged.
        """
    @property
    def job(self, /) -> Job:
        """
        The job that the cells are judged for.
        """
    @property
    def margins(self, /) -> Incomplete:
        """
        Least margin of each cell in standard uncertainties, below zero outside; NaN where there is none.
        """
    @property
    def refused(self, /) -> str | None:
        """
        What stood in the way of the first cell that could not be judged; ``None`` without one.
        """
    @property
    def setup(self, /) -> Setup:
        """
        The setting that the map starts from.
        """
    @property
    def title(self, /) -> str:
        """
        What is mapped, in one line.
        """
    @property
    def x(self, /) -> NDArray[float64]:
        """
        Values to the right, one for each column.
        """
    @property
    def x_name(self, /) -> str:
        """
        What runs to the right, by its key with unit.
        """
    @property
    def x_title(self, /) -> str:
        """
        What runs to the right, in words with its unit.
        """
    @property
    def y(self, /) -> NDArray[float64]:
        """
        Values upwards, one for each row.
        """
    @property
    def y_name(self, /) -> str:
        """
        What runs upwards, by its key with unit.
        """
    @property
    def y_title(self, /) -> str:
        """
        What runs upwards, in words with its unit.
        """

@final
class Working:
    """
    The steps of a result: formula, the numbers put in, the outcome with its unit, the source.
    """
    def __eq__(self, value: object, /) -> bool: ...
    def __len__(self, /) -> int: ...
    def __ne__(self, value: object, /) -> bool: ...
    def __reduce__(self, /) -> tuple[Any, tuple[str]]: ...
    def __repr__(self, /) -> str: ...
    def __str__(self, /) -> str: ...
    @staticmethod
    def _from_json(text: str) -> Working: ...
    def _repr_html_(self, /) -> str: ...
    @property
    def steps(self, /) -> list[dict[str, str]]:
        """
        The steps as dictionaries with the keys name, formula, latex, numbers, result and source.
        """
    @property
    def title(self, /) -> str:
        """
        What was worked out, as the heading of the steps.
        """
    def to_html(self, /) -> str:
        """
        An HTML fragment for a page.
        """
    def to_latex(self, /) -> str:
        """
        LaTeX for a handout.
        """
    def to_text(self, /) -> str:
        """
        Plain text for a terminal.
        """

def absorption_over_scattering(reflectivity: float | Ratio | str | Estimate | HasUnits) -> float:
    """
    K/S of a film that hides, from its reflectance: (1 - R)²/(2 R).

    >>> from mistcoat import hiding
    >>> hiding.absorption_over_scattering("50 %")
    0.25
    """

def activity_coefficients(temperature_k: float | ArrayLike, mole_fractions: float | ArrayLike, *, blend: Blend, model: str | None = None, errors: str = "nan") -> float | NDArray[float64]:
    """
    Activity coefficients on columns; the typed wrapper stands in `mistcoat.columns`.
    """

def alligation(strong: float | Ratio | str | Estimate | HasUnits, weak: float | Ratio | str | Estimate | HasUnits, target: float | Ratio | str | Estimate | HasUnits) -> tuple[float, float]:
    """
    Parts of a strong and a weak stock, adding up to 1, that give ``target`` between them: (strong, weak).
    """

def amounts(area: Area | str | Estimate | HasUnits, *, dry: Length | str | Estimate | HasUnits, volume_solids: float | Ratio | str | Estimate | HasUnits, thinning: Thinning | str | None = None, loss: Any) -> Amounts:
    """
    Paint and thinner for an area at a dry film.

    ``loss`` is the share that does not end on the part, or the name of a tool (airbrush, spray gun, brush, roller) for a
    usual one. What stays in cup and gun comes on top.

    >>> from mistcoat import hiding
    >>> need = hiding.amounts("5.2 m2", dry="125 um", volume_solids="65 %", loss=0)
    >>> print(need.paint)
    1 L
    """

def best_order(cost: SupportsGetItem[int, SupportsGetItem[int, SupportsFloat | SupportsIndex]], *, start: SupportsIndex | None = None) -> tuple[list[int], float]:
    """
    The cheapest path through all colours, ``cost[a][b]`` being the change from a to b: (order, cost).

    Exact up to 16 colours; ``RangeError`` beyond. ``start`` fixes the first.

    >>> from mistcoat import rinse
    >>> rinse.best_order([[0, 9, 1], [1, 0, 9], [9, 2, 0]])
    ([1, 0, 2], 2.0)
    """

def best_split(hold_up: Volume | str | Estimate | HasUnits, fraction: float | Ratio | str | Estimate | HasUnits, *, least_portion: Volume | str | Estimate | HasUnits) -> Split:
    """
    The split with the least cleaner when a portion must be at least ``least_portion`` to wet cup and passages.

    >>> from mistcoat import rinse
    >>> print(rinse.best_split("0.15 mL", "0.1 %", least_portion="1 mL"))
    4 × 1 mL, 4 mL in all
    """

def cautions(paints: SupportsGetItem[int, Paint], liquids: SupportsGetItem[int, Blend | Solvent | str] = ..., *, spray: bool = False, rinse: bool = False, workshop: bool = False) -> list[Caution]:
    """
    The cautions for these paints and liquids and this work; the one that says who decides comes last.

    ``spray``: sprayed, not brushed; ``rinse``: gun or brushes are cleaned; ``workshop``: other people are in the room.

    >>> import mistcoat as mc
    >>> cream = mc.Paint.typical("alkyd enamel", name="deckhouse cream")
    >>> spirit = mc.Blend("white spirit")
    >>> mc.safety.cautions([cream], [spirit], spray=True)[-1].key
    'data-sheet'
    """

def cheap_then_good(hold_up: Volume | str | Estimate | HasUnits, fraction: float | Ratio | str | Estimate | HasUnits, *, least_portion: Volume | str | Estimate | HasUnits, cheap_left: float | Ratio | str | Estimate | HasUnits) -> tuple[Split, Split]:
    """
    Cheap cleaner first, then good thinner that carries the cheap one out: (cheap, good).

    ``cheap_left`` is the share of cheap cleaner allowed in what the gun keeps. Test that the two mix.

    >>> from mistcoat import rinse
    >>> cheap, good = rinse.cheap_then_good("0.15 mL", "0.01 %", least_portion="1 mL", cheap_left="5 %")
    >>> cheap.portions, good.portions
    (3, 2)
    """

def cheapest_order(bench: RinseBench, colours: SupportsGetItem[int, Shade | str], *, good: CleanerPrice, cheap: CleanerPrice | None = None, cheap_left: float | Ratio | str | Estimate | HasUnits | None = None, start: str | None = None) -> PricedOrder:
    """
    The order of colours that costs least to rinse between, exact up to 16; from ``start`` if that is in the gun already.

    ``bench`` is a ``RinseBench``, colours are ``Shade`` objects or names of colour classes, ``good``, ``cheap`` and
    ``cheap_left`` as for ``cheapest_rinse``.

    >>> from mistcoat import rinse
    >>> bench = rinse.RinseBench(rinse.typical_hold_up("gravity airbrush"), fill="2 mL")
    >>> good = rinse.CleanerPrice("house thinner", 9.50, per="1 L", currency="EUR")
    >>> boat = "red oxide", "deep green", "cream"
    >>> rinse.cheapest_order(bench, boat, good=good).order[0]
    'cream'
    """

def cheapest_rinse(hold_up: Volume | str | Estimate | HasUnits, fraction: float | Ratio | str | Estimate | HasUnits, *, least_portion: Volume | str | Estimate | HasUnits, good: CleanerPrice, cheap: CleanerPrice | None = None, cheap_left: float | Ratio | str | Estimate | HasUnits | None = None) -> PricedRinse:
    """
    The cheapest rinse that leaves ``fraction`` of the old paint: portions of cheap cleaner where they pay, then ``good``
    thinner until no more than ``cheap_left`` (5 % unless given) of the cheap one is left in the gun.

    >>> from mistcoat import rinse
    >>> good = rinse.CleanerPrice("house thinner", 9.50, per="1 L", currency="EUR")
    >>> cheap = rinse.CleanerPrice("recovered thinner", 2.00, per="1 L", currency="EUR")
    >>> plan = rinse.cheapest_rinse("0.15 mL", "0.01 %", least_portion="1 mL", good=good, cheap=cheap)
    >>> plan.saves > 0
    True
    """

def check_stack(coats: SupportsGetItem[int, Layer]) -> StackCheck:
    """
    Do these coats go on top of each other in this order, from the part upwards; and if not, which order does?

    >>> from mistcoat.layers import Layer, check_stack
    >>> check = check_stack([Layer("red oxide", "solvent lacquer", place="primer"),
    ...     Layer("oil wash", "artists' oil"), Layer("clear", "waterborne acrylic")])
    >>> print(check.verdict, *check.better_order, sep=", ")
    no, red oxide, clear, oil wash
    """

def cleaner_with_paint(paint: Paint, cleaner: Blend | Solvent | str, *, dried: bool = False) -> Judgement:
    """
    Will this liquid take the paint off: wet in the gun, or a film that has ``dried``?

    >>> import mistcoat as mc
    >>> cream = mc.Paint.typical("waterborne acrylic", name="deckhouse cream")
    >>> mc.layers.cleaner_with_paint(cream, "water", dried=True).verdict
    'no'
    """

def cleaning_cautions() -> list[str]:
    """
    The cautions that go with every plan.

    >>> from mistcoat import rinse
    >>> len(rinse.cleaning_cautions()) > 0
    True
    """

def coat_over_coat(over: str, under: str, *, waited: Time | str | Estimate | HasUnits | None = None) -> Judgement:
    """
    May a coat of the family ``over`` go on one of the family ``under`` that has ``waited`` so long?

    Without ``waited`` the lower coat counts as having had its time. Common practice; try on scrap.

    >>> import mistcoat as mc
    >>> mc.layers.coat_over_coat("alkyd enamel", "alkyd enamel", waited="6 h").verdict
    'no'
    """

def colour_classes() -> dict[str, str | None]:
    """
    The colour classes, each with why it hides poorly, or nothing.

    >>> from mistcoat import hiding
    >>> print(hiding.colour_classes().get("red oxide"))
    None
    """

def compare(paint: Paint, thinner: Blend | Solvent | str, *, thinner_per_paint: SupportsGetItem[int, SupportsFloat | SupportsIndex] | None = None, airbrush: Airbrush | None = None, wet_passes: SupportsIndex = 1, job: Job | str | None = None, room: Room | None = None, cup: FlowCup | None = None, wet_thickness: Length | str | Estimate | HasUnits | None = None, substrate: str | None = None, dropper: Dropper | None = None, total: Volume | str | Estimate | HasUnits | None = None) -> Comparison:
    """
    Compares thinning ratios from bottle to flash-off: what do half a part, one, two and three parts of thinner
    to one part of paint do?

    ``thinner`` is a ``Blend``, a ``Solvent`` or the name of one. ``thinner_per_paint`` lists parts of thinner to one part of paint, by volume. ``room`` is 21 °C, 50 % relative
    humidity and no draught unless given; ``cup`` adds the seconds in that flow cup; ``dropper`` adds whole drops of
    paint and thinner for ``total``. ``wet_thickness`` is the wet film of one coat, ``substrate`` what it lies on.

    With an ``airbrush`` each ratio is sprayed: drop size, loss in flight, film a pass, passes and the first fault come to the
    table, and the coat that dries is the one that lands, in ``wet_passes`` wet in wet, or ``wet_thickness`` of it in as many as
    it takes. ``job`` says whose targets it is judged for, "base coat" unless given.

    Raises ``RangeError`` for a ratio below zero, ``PhaseSplit`` when paint and thinner do not stay one liquid. What
    to mind stands in ``result.warnings`` and in the notes under the table.
    """

def counted_volume(drops: SupportsIndex, drop_volume: Volume | str | Estimate | HasUnits, *, scatter: float | Ratio | str | Estimate | HasUnits | None = None, doubtful_last_drop: bool = False) -> Estimate:
    """
    Volume of so many drops, with the spread from the drop volume, from single drops (7 % unless given) and from a
    doubtful last drop.
    """

def cpvc(oil_absorption: float | Ratio | str | Estimate | HasUnits, pigment_density: Density | str | Estimate | HasUnits) -> float:
    """
    Critical pigment volume concentration from oil absorption (20 g oil per 100 g pigment is "20 %") and density.
    """

def cupboard(liquid: Blend | Solvent | str, amount: Volume | str | Estimate | HasUnits, *, space: Volume | str | Estimate | HasUnits, temperature: Temperature | str | Estimate | HasUnits) -> Cupboard | None:
    """
    How near a closed ``space`` comes to the lower flammable limit when so much liquid evaporates in it; ``None`` when
    nothing in it burns.

    >>> from mistcoat import safety
    >>> shelf = safety.cupboard("acetone", "30 mL", space="0.2 m3", temperature="21 degC")
    >>> shelf.share_of_limit > shelf.share_of_limit.__class__("100 %")  # an open jar is enough
    True
    """

def cups_for(viscosity: KinematicViscosity | str | Estimate | HasUnits) -> list[tuple[FlowCup, Time]]:
    """
    Standard cups that serve for a viscosity, best first, each with the time to expect; empty when only a home-made cup
    would do.
    """

def defects() -> dict[str, str]:
    """
    The defects that ``diagnose`` knows, by the trade's words, with how each looks.

    >>> import mistcoat as mc
    >>> "orange peel" in mc.defects()
    True
    """

def demo_paint(name: str) -> Paint:
    """
    An invented paint of the Saltmarsh Lane club: "hull green", "red oxide" or "cream".
    """

def diagnose(defect: str, setup: Setup, job: Job | str) -> Diagnosis:
    """
    This went wrong at these settings: why, and what is the smallest change that cures it?

    ``defect`` is the trade's word, see ``defects()``. Raises ``UnknownName`` with near words.

    >>> import mistcoat as mc
    >>> green = mc.Paint.typical("solvent lacquer", name="hull green")
    >>> gun = mc.Airbrush(nozzle="0.3 mm", pressure="10 psi", distance="80 mm")
    >>> room = mc.Room(temperature="21 degC", relative_humidity="50 %")
    >>> setup = mc.Setup(green, "n-butyl acetate", thinner_per_paint=0, airbrush=gun, room=room, substrate="wood")
    >>> next(iter(mc.diagnose("spatter", setup, "base coat").causes))
    'spatter'
    """

def drop_recipes(thinning: Thinning | str, *, paint_drop: Volume | str | Estimate | HasUnits, thinner_drop: Volume | str | Estimate | HasUnits, total: Volume | str | Estimate | HasUnits | None = None, most: SupportsIndex = 5) -> list[DropRecipe]:
    """
    Recipes in whole drops for a thinning, best first: nearest ratio and amount, or without ``total`` the fewest drops
    first. The drops of paint and thinner differ in size; give both volumes.
    """

def dry_columns(wet: Paint | Mix | Blend, *, thinner: Blend | Solvent | str | None, wet_thickness_um: float | ArrayLike, temperature_degc: float | ArrayLike, relative_humidity_pct: float | ArrayLike, air_speed_m_s: float | ArrayLike, solids_pct: float | ArrayLike | None, binder_tg_degc: float | ArrayLike | None, thinner_per_paint: float | ArrayLike | None, substrate: str, substrate_thickness: Length | str | Estimate | HasUnits | None, part_length: Length | str | Estimate | HasUnits | None, until: Time | str | Estimate | HasUnits | None, lost_pct: SupportsGetItem[int, SupportsFloat | SupportsIndex], residual_h: SupportsGetItem[int, SupportsFloat | SupportsIndex], errors: str, progress: Any | None) -> dict[str, float | NDArray[float64]]:
    """
    Dries a table of coats; the typed wrapper stands in `mistcoat.columns`.
    """

def dry_film(wet: Length | str | Estimate | HasUnits, volume_solids: float | Ratio | str | Estimate | HasUnits) -> Length:
    """
    Dry film left by a wet one.
    """

def dry_film_of_spray(*, flow: VolumeRate | str | Estimate | HasUnits, solids_of_mix: float | Ratio | str | Estimate | HasUnits, share_that_lands: float | Ratio | str | Estimate | HasUnits, swath: Length | str | Estimate | HasUnits, speed: Velocity | str | Estimate | HasUnits) -> Length:
    """
    Dry film left by one pass of a spray, even over the swath.

    >>> from mistcoat import hiding
    >>> print(hiding.dry_film_of_spray(
    ...     flow="0.5 mL/min", solids_of_mix="15 %", share_that_lands=0.6, swath="20 mm", speed="50 mm/s"))
    0.75 µm
    """

def dry_film_per_pass(wet: Length | str | Estimate | HasUnits, solids_of_mix: float | Ratio | str | Estimate | HasUnits) -> Estimate:
    """
    Dry film left by one pass: the wet film times the volume solids of the mix.

    >>> from mistcoat import hiding
    >>> print(hiding.dry_film_per_pass("20 um", "15 %"))
    3 µm
    """

def efflux_time_s(kinematic_viscosity_mm2_s: float | ArrayLike, *, standard: str, size: float | str, errors: str = "nan") -> float | NDArray[float64]:
    """
    Efflux time in s from kinematic viscosities in mm2/s.
    """

def equal_portions(hold_up: Volume | str | Estimate | HasUnits, fraction: float | Ratio | str | Estimate | HasUnits, portions: SupportsIndex) -> Split:
    """
    The size of ``portions`` equal portions that leave ``fraction``. Unequal ones need more in all.

    >>> from mistcoat import rinse
    >>> print(rinse.equal_portions("0.15 mL", "0.1 %", 3))
    3 × 1.35 mL, 4.05 mL in all
    """

def film_window(film: Film, *, wavelength: Length | str | Estimate | HasUnits | None = None, drops: Length | str | Estimate | HasUnits | None = None, steepness: Ratio | str | Estimate | HasUnits | None = None) -> FilmWindow:
    """
    Thinnest wet film that levels and thickest that does not run, with this film's paint, room and substrate.

    Arguments as ``lay``.

    >>> import mistcoat as mc
    >>> mix = mc.Paint.typical("solvent lacquer", name="hull green").thin("n-butyl acetate", thinner=1, paint=1)
    >>> room = mc.Room(temperature="21 degC", relative_humidity="50 %")
    >>> window = mc.film_window(mc.Film(mix, wet_thickness="25 um", room=room))
    >>> 5 < window.thinnest.to("um") < 50
    True
    """

def flammable_class(liquid: Blend | Solvent | str) -> FlammableLiquid:
    """
    How readily a liquid catches fire, by its flash point (computed for a blend).

    >>> from mistcoat import safety
    >>> print(safety.flammable_class("acetone").words)
    highly flammable: its vapour burns at room temperature
    """

def fraction_left(hold_up: Volume | str | Estimate | HasUnits, portions: SupportsGetItem[int, Volume | str | Estimate | HasUnits]) -> Ratio:
    """
    Share of the old paint left after portions of cleaner: the product of h/(h + v).

    >>> from mistcoat import rinse
    >>> print(rinse.fraction_left("0.15 mL", ("2 mL",) * 3))
    0.034 %
    """

def guns() -> list[str]:
    """
    Kinds of gun that ``typical_hold_up`` knows.

    >>> from mistcoat import rinse
    >>> len(rinse.guns()) > 1
    True
    """

def hanging_thickness(*, yield_stress: Pressure | str | Estimate | HasUnits, density: Density | str | Estimate | HasUnits, steepness: Ratio | str | Estimate | HasUnits | None = None) -> Length:
    """
    Thickest coat that hangs on a face without sliding, ``yield_stress/(rho g steepness)``; read the other way, a stripe of 100 um
    that stays put on an upright card shows a yield stress of 1 Pa.

    Paints that stiffen at rest have 0.5 to 5 Pa undiluted (common practice, from memory); thinning weakens it with the third power
    of the solids. Raises ``RangeError`` outside 0 to 100 Pa and for a level face.

    >>> import mistcoat as mc
    >>> round(mc.hanging_thickness(yield_stress="1 Pa", density="1 g/mL").to("um"))
    102
    """

def identification_tests() -> list[PaintTest]:
    """
    All tests that tell kinds of paint apart, most telling first.
    """

def identify(label: str | None = None, tests: dict[str, str] | None = None) -> Identification:
    """
    What is this paint? Weighs label words and tests; every answer is common practice, made to rank.

    ``label`` is what stands on the bottle. ``tests`` pairs names with answers, as ``identification_tests()`` lists them.
    Raises ``UnknownName`` with near names, ``RangeError`` without any clue.

    >>> from mistcoat import layers
    >>> found = layers.identify(label="Acrylic lacquer", tests={"smell": "nail varnish or pear drops"})
    >>> found.best
    'solvent lacquer'
    >>> found.next_test.name
    'thinner named on the label'
    """

def kinematic_viscosity_mm2_s(efflux_s: float | ArrayLike, *, standard: str, size: float | str, errors: str = "nan") -> float | NDArray[float64]:
    """
    Kinematic viscosity in mm2/s from efflux times in s.
    """

def lay(film: Film, *, wavelength: Length | str | Estimate | HasUnits | None = None, drops: Length | str | Estimate | HasUnits | None = None, steepness: Ratio | str | Estimate | HasUnits | None = None) -> Lay:
    """
    How a coat lies down: ripple left when it sets, slide on a face, blush, and which limit is hit first.

    ``wavelength`` of the ripple from hill to hill, 2 mm (the orange peel the eye sees) unless given; or ``drops``, the diameter
    of the drops that left it: ten diameters. ``steepness``: sine of the angle of the face to the horizontal, upright unless
    given. Raises ``RangeError`` for a film whose flow is not known: take that of a ``Mix``, or ``Flow(...).on(film)``. The
    limits (a fifth of the ripple, 1.6 mm) are common practice and judgement; wavelength goes in with its fourth power.

    >>> import mistcoat as mc
    >>> mix = mc.Paint.typical("solvent lacquer", name="hull green").thin("n-butyl acetate", thinner=1, paint=1)
    >>> room = mc.Room(temperature="21 degC", relative_humidity="50 %")
    >>> thin, thick = (mc.lay(mc.Film(mix, wet_thickness=h, room=room)) for h in ("15 um", "60 um"))
    >>> thick.levelling.best < thin.levelling.best and thick.sag.best > thin.sag.best
    True
    """

def least_cleaner(hold_up: Volume | str | Estimate | HasUnits, fraction: float | Ratio | str | Estimate | HasUnits) -> Volume:
    """
    What endlessly many portions would need, h ln(1/f): the floor under every split.

    >>> from mistcoat import rinse
    >>> round(rinse.least_cleaner("0.15 mL", 0.001).to("mL"), 2)
    1.04
    """

def levelling_rate(*, surface_tension: SurfaceTension | str | Estimate | HasUnits, viscosity: DynamicViscosity | str | Estimate | HasUnits, thickness: Length | str | Estimate | HasUnits, wavelength: Length | str | Estimate | HasUnits) -> Frequency:
    """
    Rate at which a ripple in a wet film goes flat; its height falls as exp(-rate x time). Orchard's film of any depth.

    Every argument must be above zero, else ``RangeError``.

    >>> import mistcoat as mc
    >>> mc.levelling_rate(surface_tension="25 mN/m", viscosity="100 mPa.s", thickness="50 um", wavelength="2 mm").to("1/s") > 0.9
    True
    """

def lower_flammable_limit(liquid: Blend | Solvent | str) -> FlammableLimit | None:
    """
    Lower flammable limit of the vapour of a liquid, all evaporated (Le Chatelier); ``None`` when nothing in it burns.

    >>> from mistcoat import safety
    >>> 0.02 < safety.lower_flammable_limit("acetone").limit.to("1") < 0.03
    True
    """

def mask_edge(film: Film, *, coats: SupportsIndex = 1, tape: Length | str | Estimate | HasUnits | None = None, gap: Length | str | Estimate | HasUnits | None = None) -> MaskEdge:
    """
    What coats like this one leave at the edge of a mask: the step of the film, the ridge that the wet film draws up at the
    wall of the tape, how far it bleeds along a channel under it, and when to lift it.

    ``film`` is one wet coat of a ``Mix``; ``coats`` of it (1 to 100) are laid, each dry before the next. ``tape`` thickness (1 um
    to 5 mm) is 100 um and the ``gap`` under its edge (1 nm to 1 mm) 0.3 um unless given; along the grain of wood a gap is wider.
    The ridge follows from surface tension and how long the film flows, good to a factor 2 to 3; the bleed is an upper
    bound where there is a gap, which is hardly ever known: compare mixes. Raises ``RangeError``
    for values outside, a film whose flow is not known, one over others, or one without solids.

    >>> import mistcoat as mc
    >>> paint = mc.Paint.typical("solvent lacquer", name="hull green")
    >>> room = mc.Room(temperature="21 degC", relative_humidity="50 %")
    >>> def edge(thinner, coats):
    ...     mix = paint.thin("n-butyl acetate", thinner=thinner, paint=1)
    ...     return mc.mask_edge(mc.Film(mix, wet_thickness="8 um", room=room), coats=coats)
    >>> edge(2, 4).height < edge(1, 4).height  # pass for pass, more thinner leaves less
    True
    >>> edge(2, 6).ridge.best > edge(1, 4).ridge.best  # to the same dry film it does not
    True
    """

def measured_dilutions() -> Table:
    """
    One real waterborne paint, timed before and after thinning: predicted seconds beside measured ones.

    Six published pairs in a Ford no. 4 cup. Each is predicted from its undiluted time alone, with the shape of the
    dilution law taken from the other five.
    """

def mixture_exposure(air: Mapping[str, Ratio | str | Estimate | HasUnits | MassConcentration], *, authority: str = "lowest", over: str = "8 h") -> MixtureExposure:
    """
    Vapours in the air against the limits of an authority: the sum of concentration over limit.

    ``air`` maps solvents by name to their concentrations. ``authority``: "lowest" of all known, "OSHA PEL" or "NIOSH
    REL"; ``over``: "8 h", "15 min", "ceiling" or "immediate danger". Many limits are from memory and say so.

    >>> from mistcoat import safety
    >>> found = safety.mixture_exposure({"acetone": "55 ppm", "n-butyl acetate": "20 ppm"}, authority="OSHA PEL")
    >>> round(found.sum, 3)
    0.188
    """

def near_gun(shot: Shot, distances: SupportsGetItem[int, Length | str | Estimate | HasUnits] = ...) -> NearGun | None:
    """
    The air at a gun that sprays, against the lower flammable limit: in the spray at these ``distances`` from the nozzle (5 to
    500 mm; a tenth, a quarter, half and the whole distance of the part unless given) and around the work. ``None`` when
    nothing in the mix burns.

    Vapour alone, and with the mist, which burns though its vapour alone is too thin. No number here makes a flame near a gun
    safe.

    >>> import mistcoat as mc
    >>> thinner = mc.Blend({"acetone": 40, "n-butyl acetate": 60}, basis="volume")
    >>> mix = mc.demo_paint("hull green").thin(thinner, thinner=1, paint=1)
    >>> room = mc.Room(temperature="21 degC", relative_humidity="50 %")
    >>> shot = mc.Airbrush(nozzle="0.3 mm", pressure="20 psi", distance="80 mm").spray(mix, room)
    >>> air = mc.safety.near_gun(shot)
    >>> air.places[0].with_mist.best > air.places[-1].with_mist.best
    True
    >>> any("mist" in caution for caution in air.cautions)
    True
    """

def plan(layers: SupportsGetItem[int, PlanLayer], *, cleaner: Blend | Solvent | str, title: str | None = None, rinse: RinseBench | None = None, paint_dropper: Dropper | None = None, thinner_dropper: Dropper | None = None, people: SupportsIndex = 1, guns: SupportsIndex | None = None, cups_open: Time | str | Estimate | HasUnits | None = None, margin: Ratio | str | Estimate | HasUnits | None = None, prices: dict[str, tuple[SupportsFloat | SupportsIndex, Volume | str | Estimate | HasUnits]] | None = None, currency: str = "") -> Plan:
    """
    A whole session: what to mix, spray, wait for, rinse and bring, how long it takes, and what to mind.

    Layers from the part upwards. ``cleaner`` and ``rinse`` (a ``rinse.RinseBench``, of a gravity airbrush unless given) size
    the rinses, ``paint_dropper`` and ``thinner_dropper`` (a pipette of 3 mm unless given) the drops. ``people`` each spray a
    part of their own with ``guns`` between them, one each unless given. Their cups of mix and thinner stand open while a layer
    is sprayed, at most ``cups_open`` (1 h unless given; ``"0 min"`` with lids on). ``margin`` is added to every amount. ``prices`` gives
    by name of paint, thinner or cleaner what a volume costs: ``{"hull green": (3.20, "17 mL")}``.

    Waits are upper ends of what the drying engine gives; amounts are good to a factor 2.5: spray a card first. Raises
    ``RangeError`` for coats that do not stand each other, with the order that works.

    >>> import mistcoat as mc
    >>> green = mc.Paint.typical("solvent lacquer", name="hull green")
    >>> gun = mc.Airbrush(nozzle="0.3 mm", pressure="20 psi", distance="80 mm")
    >>> room = mc.Room(temperature="21 degC", relative_humidity="50 %")
    >>> setup = mc.Setup(green, "n-butyl acetate", airbrush=gun, room=room, substrate="wood")
    >>> hull = mc.PlanLayer(setup, "base coat", area="250 cm2", shade="deep green")
    >>> plan = mc.plan([hull], cleaner="acetone", people=4, guns=2)
    >>> plan.cautions[-1].topic
    'Who decides'
    """

def polymers() -> list[str]:
    """
    Names of the binders and plastics whose Hansen sphere is known.
    """

def portions_needed(hold_up: Volume | str | Estimate | HasUnits, portion: Volume | str | Estimate | HasUnits, fraction: float | Ratio | str | Estimate | HasUnits) -> int:
    """
    Portions of this size until no more than ``fraction`` is left.

    >>> from mistcoat import rinse
    >>> rinse.portions_needed("0.15 mL", "2 mL", "0.1 %")
    3
    """

def practical_spreading_rate(theoretical: SpreadingRate | str | Estimate | HasUnits, loss: float | Ratio | str | Estimate | HasUnits) -> SpreadingRate:
    """
    Spreading rate when a share of the paint is lost.
    """

def pvc(pigment: Volume | str | Estimate | HasUnits, binder: Volume | str | Estimate | HasUnits) -> float:
    """
    Pigment volume concentration of the dry film.
    """

def recommend(setup: Setup, job: Job | str, *, thinner_per_paint: SupportsGetItem[int, SupportsFloat | SupportsIndex] | None = None, retarder: Blend | Solvent | str | None = None, retarder_shares: SupportsGetItem[int, float | Ratio | str | Estimate | HasUnits] | None = None, touch_dry_within: Time | str | Estimate | HasUnits | None = None, recoat_within: Time | str | Estimate | HasUnits | None = None, progress: Any | None = None) -> Recommendation:
    """
    What ratio, pressure, distance and how many passes for this job?

    ``setup`` gives paint, thinner, gun, room and part; its ratio, pressure, distance and passes are what is sought.
    ``thinner_per_paint`` lists the ratios to look at, 0 to 4 unless given. ``retarder`` is a slow liquid; its shares of the
    thinner are sought too, among ``retarder_shares``, 0, 10, 20 and 30 % unless given. No choice takes longer than
    ``touch_dry_within`` until it is touch dry, or than ``recoat_within`` until the next coat may go on (``Judged.recoat``);
    when nothing is so quick, ``advice`` names the quickest. A slow thinner levels best, so set one of them when you search over
    a retarder. ``progress`` is True for a line on
    stderr when it takes longer than a second, or a function that is called with (done, total) about five times a second.
    Ctrl-C ranks what was judged by then, and a note of the table says so.

    >>> import mistcoat as mc
    >>> green = mc.Paint.typical("alcohol acrylic", name="hull green")
    >>> gun = mc.Airbrush(nozzle="0.3 mm", pressure="20 psi", distance="80 mm")
    >>> room = mc.Room(temperature="21 degC", relative_humidity="50 %")
    >>> setup = mc.Setup(green, "isopropanol", airbrush=gun, room=room, substrate="wood")
    >>> found = mc.recommend(setup, "soft edge", thinner_per_paint=[1, 2])
    >>> all(judged.is_good for _, judged in found.choices)
    True
    >>> soon = mc.recommend(setup, "soft edge", thinner_per_paint=[1], touch_dry_within="2 min", recoat_within="1 h")
    >>> all(judged.touch_dry <= mc.Time("2 min") for _, judged in soon.choices)
    True
    """

def resin_cut(resin: Mass | str | Estimate | HasUnits, *, solution: Volume | str | Estimate | HasUnits | None = None, solvent: Volume | str | Estimate | HasUnits | None = None, resin_density: Density | str | Estimate | HasUnits | None = None) -> MassConcentration:
    """
    Cut of a resin per volume of solution: give the volume of the solution, or of the solvent with the resin's density.
    """

def retarder(paint: Paint, thinner: Blend | Solvent | str, *, retarder: Blend | Solvent | str, shares: SupportsGetItem[int, Ratio | str | Estimate | HasUnits] | None = None, thinner_per_paint: SupportsFloat | SupportsIndex = 1.0, room: Room | None = None, wet_thickness: Length | str | Estimate | HasUnits | None = None, substrate: str | None = None, wavelength: Length | str | Estimate | HasUnits | None = None, drops: Length | str | Estimate | HasUnits | None = None, steepness: Ratio | str | Estimate | HasUnits | None = None) -> RetarderAnswer:
    """
    What a slow solvent in place of part of the thinner buys, and what it costs.

    ``shares`` of the thinner are ``retarder``, by volume; 0, 10, 20 and 30 % unless given. ``thinner_per_paint``: parts of
    thinner, retarder included, to one part of paint, 1 unless given. The rest as ``compare`` and ``lay``. Raises ``RangeError``
    for a share outside 0 to 100 %, ``PhaseSplit`` when the liquids do not stay one.

    >>> import mistcoat as mc
    >>> paint = mc.Paint.typical("solvent lacquer", name="hull green")
    >>> thinner = mc.Blend({"acetone": 50, "n-butyl acetate": 50}, basis="volume")
    >>> answer = mc.retarder(paint, thinner, retarder="2-butoxyethanol", shares=("0 %", "20 %"))
    >>> plain, slowed = answer.rows
    >>> slowed.lay.levelling.best < plain.lay.levelling.best and slowed.touch_dry.best > plain.touch_dry.best
    True
    """

def sag_speed(*, density: Density | str | Estimate | HasUnits, viscosity: DynamicViscosity | str | Estimate | HasUnits, thickness: Length | str | Estimate | HasUnits, steepness: Ratio | str | Estimate | HasUnits | None = None) -> Velocity:
    """
    Speed of the surface of a wet coat that slides down a face, ``rho g h^2 steepness/(2 viscosity)``.

    ``steepness`` is the sine of the angle of the face to the horizontal: "100 %" upright, "50 %" at 30 degrees. Raises
    ``RangeError`` for values not above zero, or a steepness outside 0 to 100 %.

    >>> import mistcoat as mc
    >>> round(mc.sag_speed(density="1 g/mL", viscosity="100 mPa.s", thickness="50 um").to("mm/s"), 3)
    0.123
    """

def scattering_power(*, over_black: float | Ratio | str | Estimate | HasUnits, reflectivity: float | Ratio | str | Estimate | HasUnits) -> float:
    """
    Scattering power S X of a film, from its reflectance over black and that of the film that hides.

    >>> from mistcoat import hiding
    >>> round(hiding.scattering_power(over_black=0.7408, reflectivity="90 %"), 2)
    3.0
    """

def short_term_exposure(air: Mapping[str, Ratio | str | Estimate | HasUnits | MassConcentration], *, authority: str = "lowest") -> MixtureExposure:
    """
    Vapours in the air, as means over 15 minutes, against what a short time may reach: short-term limit or ceiling of the
    ``authority``, and where it gives neither, three times its 8-hour limit (from memory). Arguments as for
    ``mixture_exposure``.

    >>> from mistcoat import safety
    >>> round(safety.short_term_exposure({"acetone": "300 ppm"}, authority="NIOSH REL").sum, 3)
    0.4
    """

def solvent(name: str) -> Solvent:
    """
    The built-in solvent of this name, identifier or synonym; case, hyphens and spaces do not matter.

    >>> import mistcoat as mc
    >>> mc.solvent("N-Butyl Acetate").flash_point.to("degC")
    22.0
    """

def solvents() -> Catalogue:
    """
    The solvents that come with the package, as a table.

    >>> import mistcoat as mc
    >>> len(mc.solvents())
    58
    """

def spreading_rate(volume_solids: float | Ratio | str | Estimate | HasUnits, dry: Length | str | Estimate | HasUnits) -> SpreadingRate:
    """
    Theoretical spreading rate: area covered by a volume of paint at a dry film thickness.
    """

def sum_of_shares(pairs: SupportsGetItem[int, tuple[Ratio | str | Estimate | HasUnits, Ratio | str | Estimate | HasUnits]]) -> float:
    """
    Adds concentrations over their limits, given as pairs: the mixture formula of 29 CFR 1910.1000(d)(2).

    >>> from mistcoat import safety
    >>> round(safety.sum_of_shares([("500 ppm", "1000 ppm"), ("45 ppm", "200 ppm"), ("40 ppm", "200 ppm")]), 3)
    0.925
    """

def thinned_solids(volume_solids: float | Ratio | str | Estimate | HasUnits, thinning: Thinning | str) -> float:
    """
    Volume solids of a mix: the paint's times the paint fraction.
    """

def thinner_on_substrate(thinner: Blend | Solvent | str, material: str) -> Judgement:
    """
    Does this liquid attack that material? Never a bare "fine" for a solvent on polystyrene.

    ``material``: polystyrene, ABS, PVC, PMMA, polycarbonate, resin, wood, card, glass, steel, brass, aluminium.

    >>> import mistcoat as mc
    >>> mc.layers.thinner_on_substrate("acetone", "polystyrene").verdict
    'no'
    """

def thinner_with_paint(paint: Paint, thinner: Blend | Solvent | str) -> Judgement:
    """
    Will this thinner dissolve the paint, fresh and as it dries, or curdle it? Judged at equal parts.

    ``thinner`` is a ``Blend``, a ``Solvent`` or the name of one.

    >>> import mistcoat as mc
    >>> green = mc.Paint.typical("solvent lacquer", name="hull green")
    >>> mc.layers.thinner_with_paint(green, "white spirit").verdict
    'no'
    """

def time_weighted_average(pieces: SupportsGetItem[int, tuple[Ratio | str | Estimate | HasUnits, Time | str | Estimate | HasUnits]]) -> Ratio:
    """
    Mean concentration over an eight-hour shift of (concentration, time) pieces, nothing in the rest.

    >>> from mistcoat import safety
    >>> day = [("150 ppm", "2 h"), ("75 ppm", "2 h"), ("50 ppm", "4 h")]
    >>> round(safety.time_weighted_average(day).to("ppm"), 2)
    81.25
    """

def timing(*runs: "Time | str | Estimate | HasUnits") -> Estimate:
    """
    Mean of repeat runs in any cup, with the third-run rule of ISO 2431; ``FlowCup.time`` knows the cup's own precision.
    """

def tip_drying(mix: Mix, *, room: Room, film: Length | str | Estimate | HasUnits | None = None, air_speed: Velocity | str | Estimate | HasUnits | None = None, pause: Time | str | Estimate | HasUnits | None = None) -> TipDrying:
    """
    How soon a mix dries on the tip of the airbrush needle, within a factor 2.

    ``film``: wet paint on the tip, 2 to 200 µm, 20 µm unless given. ``air_speed`` past the tip: 100 m/s (trigger down for air
    alone) unless given, "0 m/s" with the air shut off. ``pause`` between strokes, 10 s unless given. Values outside raise
    ``RangeError``; warns when the tip dries between strokes.

    >>> import mistcoat as mc
    >>> paint = mc.Paint.typical("waterborne acrylic", name="cream")
    >>> mix = paint.thin(mc.Blend({"water": 1}), thinner=1, paint=2)
    >>> room = mc.Room(temperature="21 degC", relative_humidity="50 %")
    >>> tip = mc.tip_drying(mix, room=room, air_speed="0 m/s")
    >>> tip.redissolves, tip.index.best < 1
    (False, True)
    """

def typical_hold_up(gun: str) -> Estimate:
    """
    Liquid that a kind of gun usually keeps after pouring out; a judgement, factor 2 to 3. ``guns()`` lists the kinds.

    >>> from mistcoat import rinse
    >>> print(rinse.typical_hold_up("gravity airbrush"))
    0.15 mL (0.05 mL to 0.4 mL)
    """

def vapour_volume(liquid: Blend | Solvent | str, amount: Volume | str | Estimate | HasUnits, *, temperature: Temperature | str | Estimate | HasUnits) -> Volume:
    """
    Volume of vapour, at one atmosphere, that so much liquid gives once it has evaporated.

    >>> from mistcoat import safety
    >>> print(safety.vapour_volume("acetone", "1 mL", temperature="21 degC"))
    328 mL
    """

def voc(volume: Volume | str | Estimate | HasUnits, organic_volatiles: Mass | str | Estimate | HasUnits, *, water: Volume | str | Estimate | HasUnits | None = None, exempt: Volume | str | Estimate | HasUnits | None = None) -> tuple[MassConcentration, MassConcentration]:
    """
    Volatile organic content: (of the whole paint, less water and exempt solvents).
    """

def voc_after_thinning(paint_voc: MassConcentration | str | Estimate | HasUnits, thinner_density: Density | str | Estimate | HasUnits, thinning: Thinning | str) -> MassConcentration:
    """
    Volatile organic content of a paint thinned with an organic thinner.
    """

def volume_solids(solids_by_weight: float | Ratio | str | Estimate | HasUnits, *, paint_density: Density | str | Estimate | HasUnits, volatile_density: Density | str | Estimate | HasUnits | None = None, solids_density: Density | str | Estimate | HasUnits | None = None) -> float:
    """
    Volume solids from solids by weight and the density of the paint, with the density of the volatile part or of the
    dry solids.
    """

def weighed_hold_up(*, dry: Mass | str | Estimate | HasUnits, wet: Mass | str | Estimate | HasUnits, liquid: Density | str | Estimate | HasUnits, std: Mass | str | Estimate | HasUnits) -> Estimate:
    """
    Hold-up from two weighings of the gun: clean and dry, and poured out. ``std`` is the standard uncertainty of one.

    >>> from mistcoat import rinse
    >>> h = rinse.weighed_hold_up(dry="112.40 g", wet="112.53 g", liquid="0.87 g/mL", std="0.01 g")
    >>> print(h.best)
    0.149 mL
    """

def wet_film(dry: Length | str | Estimate | HasUnits, volume_solids: float | Ratio | str | Estimate | HasUnits) -> Length:
    """
    Wet film thickness that dries to ``dry``.
    """

def window(setup: Setup, job: Job | str, *, x: tuple[str, SupportsGetItem[int, SupportsFloat | SupportsIndex]], y: tuple[str, SupportsGetItem[int, SupportsFloat | SupportsIndex]], progress: Any | None = None) -> WindowMap:
    """
    Where are the good settings, and what goes wrong at their edges? A map over two of them.

    ``x`` and ``y`` are (setting, values) with the settings "thinner_per_paint", "pressure_kPa", "distance_mm",
    "temperature_degC", "relative_humidity_pct", "wet_passes", "wet_film_um" (of one coat, however many passes it takes),
    "retarder_pct" (of a ``setup`` with a retarder) and "air_speed_m_s"; all else stays as in ``setup``. Every cell is judged
    in full, on all cores, without the interpreter lock. ``progress`` is True for a line on stderr when it takes longer than a
    second, or a function that is called with (done, total) about five times a second. Ctrl-C raises ``Interrupted``, which
    holds the map so far in ``partial``.

    >>> import mistcoat as mc
    >>> green = mc.Paint.typical("alcohol acrylic", name="hull green")
    >>> gun = mc.Airbrush(nozzle="0.3 mm", pressure="20 psi", distance="80 mm")
    >>> room = mc.Room(temperature="21 degC", relative_humidity="50 %")
    >>> setup = mc.Setup(green, "isopropanol", airbrush=gun, room=room, substrate="wood")
    >>> ratios, far = ("thinner_per_paint", [0.5, 1, 2]), ("distance_mm", [60, 120])
    >>> mc.window(setup, "base coat", x=ratios, y=far).codes.shape
    (2, 3)
    """
