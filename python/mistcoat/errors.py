"""Exceptions and warnings; the native code raises them too.

Every message names the value, the limit and the remedy. The same facts are attributes, so that a
program can act on them.

>>> import mistcoat as mc
>>> try:
...     mc.solvent("acetne")
... except mc.UnknownName as error:
...     print(error.near[0])
acetone
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = [
    "DataError",
    "Interrupted",
    "MistcoatError",
    "MistcoatWarning",
    "PhaseSplit",
    "RangeError",
    "UnitError",
    "UnknownName",
]


class MistcoatError(ValueError):
    """Base of every error this package raises."""

    def __str__(self) -> str:
        return str(self.args[0]) if self.args else ""


class UnitError(MistcoatError):
    """A bare number, an unknown or ambiguous unit, or the wrong dimension."""


class RangeError(MistcoatError):
    """A value outside what a relation, a standard or nature allows."""

    def __init__(
        self, message: str, what: str = "", value: str = "", limit: str = "", remedy: str = ""
    ) -> None:
        super().__init__(message, what, value, limit, remedy)
        self.what = what
        self.value = value
        self.limit = limit
        self.remedy = remedy


class UnknownName(MistcoatError, KeyError):
    """A name that is in no catalogue; ``near`` lists the names that come near, best first."""

    def __init__(self, message: str, name: str = "", near: list[str] | None = None) -> None:
        super().__init__(message, name, near or [])
        self.name = name
        self.near = near or []


class PhaseSplit(MistcoatError):
    """A blend that separates into two liquids."""

    def __init__(
        self,
        message: str,
        blend: str = "",
        temperature: str = "",
        first: str = "",
        second: str = "",
        remedy: str = "",
    ) -> None:
        super().__init__(message, blend, temperature, first, second, remedy)
        self.blend = blend
        self.temperature = temperature
        self.first = first
        self.second = second
        self.remedy = remedy


class DataError(MistcoatError):
    """A malformed file or record; ``file``, ``line`` and ``field`` say where."""

    def __init__(
        self,
        message: str,
        file: str = "",
        line: int | None = None,
        field: str | None = None,
        problem: str = "",
        remedy: str = "",
    ) -> None:
        super().__init__(message, file, line, field, problem, remedy)
        self.file = file
        self.line = line
        self.field = field
        self.problem = problem
        self.remedy = remedy


class Interrupted(KeyboardInterrupt):  # no MistcoatError: `except ValueError` must not swallow it
    """Ctrl-C in a long call; what was finished by then is not lost.

    ``partial`` is what the call would have returned, with NaN in the rows that were not reached;
    ``finished`` says for each row whether it was. In a notebook, after the cell was stopped, both
    are at ``sys.last_value.partial`` and ``sys.last_value.finished``.
    """

    def __init__(self, partial: dict[str, Any], finished: NDArray[np.bool_]) -> None:
        super().__init__(partial, finished)
        self.partial = partial
        self.finished = finished

    def __str__(self) -> str:
        return (
            f"stopped with {int(self.finished.sum())} of {self.finished.size} rows finished; "
            "they are in .partial of this exception"
        )


class MistcoatWarning(UserWarning):
    """A usable result with something to mind; the same text stands in ``result.warnings``."""
