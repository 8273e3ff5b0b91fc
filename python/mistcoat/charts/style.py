"""What all charts share: ink, greys, the way to matplotlib."""

from __future__ import annotations

from typing import Any

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


def number(value: float) -> str:
    """Two digits below ten, whole numbers above: 0.49, 4.0, 38."""
    return f"{value:.0f}" if value >= 9.95 else f"{value:#.2g}"
