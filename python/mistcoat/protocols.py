"""What an object must offer to be taken as a value with a unit."""

from __future__ import annotations

from typing import Any, Protocol, runtime_checkable

__all__ = ["HasUnits"]


@runtime_checkable
class HasUnits(Protocol):
    """A quantity of any units library that converts with ``.to(unit)`` and shows ``.magnitude``."""

    @property
    def magnitude(self) -> Any:
        """The number in the present unit."""

    def to(self, unit: str, /) -> HasUnits:
        """The same quantity in another unit."""
