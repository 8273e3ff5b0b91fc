"""Charts of results. Needs matplotlib (``pip install mistcoat[charts]``); nothing else here does.

Drawn in black and greys with shapes and words instead of colours, so that they print on any club
printer and read the same to everyone.
"""

from .comparison import comparison
from .drying import drying
from .plan import plan
from .window import window

__all__ = ["comparison", "drying", "plan", "window"]
