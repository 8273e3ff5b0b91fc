"""The demonstration: an invented club paint thinned with real solvents.

The Saltmarsh Lane club and its paints are invented; the solvents carry published data. Run it with
``python -m mistcoat demo``.
"""

from __future__ import annotations

import json
import warnings
from pathlib import Path

from . import page
from ._core import (
    Airbrush,
    Blend,
    Comparison,
    Dropper,
    Drying,
    Film,
    FlowCup,
    Paint,
    Room,
    Setup,
    WindowMap,
    compare,
    demo_paint,
    measured_dilutions,
    window,
)
from .errors import MistcoatWarning

__all__ = [
    "club_room",
    "house_thinner",
    "hull_green",
    "run",
    "saltmarsh_coat",
    "saltmarsh_comparison",
    "saltmarsh_settings",
]

NOTE = (
    "Invented: the Saltmarsh Lane club and its hull green, a solvent lacquer of typical, "
    "common-practice values. Real: the solvents, their published data, and the paint of the "
    "check table."
)


def hull_green() -> Paint:
    """Deep green for the hull of the club's 1:24 wooden fishing boat. Invented."""
    return demo_paint("hull green")


def house_thinner() -> Blend:
    """A fast, a medium and a slow solvent by mass. Recipe invented, data published."""
    parts = {"acetone": 50.0, "n-butyl acetate": 35.0, "2-butoxyethanol": 15.0}
    return Blend(parts, basis="mass", name="house thinner")


def saltmarsh_comparison() -> Comparison:
    """Half a part, one, two and three parts of house thinner to one part of hull green.

    >>> result = saltmarsh_comparison()
    >>> [row.thinner_per_paint for row in result.rows]
    [0.5, 1.0, 2.0, 3.0]
    """
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", MistcoatWarning)  # they stand under the table
        return compare(
            hull_green(),
            house_thinner(),
            thinner_per_paint=[0.5, 1, 2, 3],
            room=club_room(),
            cup=FlowCup("ISO 2431", 4),
            substrate="wood",
            dropper=Dropper(tip="3 mm"),
            total="1 mL",
        )


def club_room() -> Room:
    """The room of the club on an ordinary evening. Invented."""
    return Room(temperature="21 degC", relative_humidity="55 %", air_speed="0.15 m/s")


def saltmarsh_coat() -> Drying:
    """One coat of hull green, equal parts, drying on the wooden hull.

    >>> saltmarsh_coat().flash_off.best.to("min") < 10
    True
    """
    mix = hull_green().thin(house_thinner(), thinner=1, paint=1)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", MistcoatWarning)  # they stand in the chart
        return Film(mix, wet_thickness="25 um", substrate="wood", room=club_room()).dry()


def saltmarsh_settings(side: int = 40) -> WindowMap:
    """Which ratio and distance lay an even base coat on the hull, two passes wet in wet.

    >>> 0 < saltmarsh_settings(side=8).good_share < 1
    True
    """
    gun = Airbrush(nozzle="0.3 mm", pressure="20 psi", distance="80 mm")
    setup = Setup(
        hull_green(),
        house_thinner(),
        airbrush=gun,
        room=club_room(),
        substrate="wood",
        wet_passes=2,
    )
    ratios = [4 * i / (side - 1) for i in range(side)]
    distances = [30 + 170 * i / (side - 1) for i in range(side)]
    return window(setup, "base coat", x=("thinner_per_paint", ratios), y=("distance_mm", distances))


def run(out: Path, lessons: Path | None = None) -> None:
    """Print comparison and check; write chart, page, JSON and executed lessons to ``out``."""
    out.mkdir(parents=True, exist_ok=True)
    result, checks = saltmarsh_comparison(), measured_dilutions()
    print(f"{NOTE}\n\n{result}\n\n{checks}")
    written = [out / "compare.png", out / "compare.html", out / "compare.json"]
    charts = {"drying.png": saltmarsh_coat().chart(), "settings.png": saltmarsh_settings().chart()}
    for name, chart in charts.items():
        chart.savefig(out / name, dpi=150)
        written.append(out / name)
    result.chart().savefig(written[0], dpi=150)
    written[1].write_text(page.comparison(result, checks, NOTE), encoding="utf-8")
    written[2].write_text(json.dumps(json.loads(result.to_json()), indent=1), encoding="utf-8")
    if lessons is not None:
        written += [_execute(lesson, out) for lesson in sorted(lessons.glob("*.ipynb"))]
    print("\nWritten:", *(f"  {path}" for path in written), sep="\n")


def _execute(lesson: Path, out: Path) -> Path:
    import nbformat
    from nbclient import NotebookClient

    notebook = nbformat.read(lesson, as_version=4)
    NotebookClient(notebook, timeout=600, kernel_name="python3").execute()
    target = out / lesson.name
    nbformat.write(notebook, target)
    return target
