"""What all charts share: ink, greys, the way to matplotlib."""

from __future__ import annotations

from typing import Any

from ..timeline import number

__all__ = ["INK", "MID", "PALE", "number", "pyplot"]

INK = "#111111"
PALE = "#d9d9d9"
MID = "#777777"


def pyplot() -> Any:
    """``matplotlib.pyplot``, or an error that says how to get it."""
    try:
        import matplotlib.pyplot as plt
    except ImportError as error:  # pragma: no cover - depends on the installation
        raise ImportError("charts need matplotlib: pip install 'mistcoat[charts]'") from error
    return plt
