"""A line on stderr that says how far a long call is."""

from __future__ import annotations

import sys
import time

# A call shorter than this says nothing.
QUIET_S = 1.0


class Line:
    """Call it with (done, total); it writes over itself, and stays silent for the first second."""

    def __init__(self, what: str) -> None:
        self.what = what
        self.start = time.monotonic()
        self.shown = 0

    def __call__(self, done: int, total: int) -> None:
        spent = time.monotonic() - self.start
        if spent < QUIET_S:
            return
        text = f"{self.what}: {done} of {total}"
        if 0 < done < total:
            text += f", about {spent * (total - done) / done:.0f} s left"
        elif done == total:
            text += f" in {spent:.1f} s"
        print(f"\r{text:<{self.shown}}", end="", file=sys.stderr, flush=True)
        self.shown = len(text)

    def close(self) -> None:
        """End the line, if there is one."""
        if self.shown:
            print(file=sys.stderr)
