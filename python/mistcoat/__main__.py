"""``python -m mistcoat demo``: the comparison of thinning ratios for an invented club paint."""

from __future__ import annotations

import argparse
from pathlib import Path

from . import __version__, demo


def main(arguments: list[str] | None = None) -> None:
    """Run the command line."""
    parser = argparse.ArgumentParser(prog="python -m mistcoat", description=__doc__)
    parser.add_argument("--version", action="version", version=__version__)
    commands = parser.add_subparsers(dest="command", required=True)
    show = commands.add_parser("demo", help="print the comparison, write chart, page and lessons")
    show.add_argument("--out", type=Path, default=Path("out"), help="folder for what is written")
    show.add_argument("--lessons", type=Path, help="folder of notebooks to execute into --out")
    chosen = parser.parse_args(arguments)
    demo.run(chosen.out, chosen.lessons)


if __name__ == "__main__":
    main()
