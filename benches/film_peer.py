"""Drying one film: mistcoat against scipy LSODA with the activities of thermo, in one process.

    .venv/bin/python benches/film_peer.py

The peer integrates the same equations (tests/data/make_film_reference.py) at a relative tolerance
of 1e-5; times of both agree within 0.5 %. Medians over repeats, interleaved, so that both sides see
the same machine.
"""

from __future__ import annotations

import pathlib
import statistics
import sys
import time
from typing import Any

import mistcoat as mc

sys.path.insert(0, str(pathlib.Path(__file__).parents[1] / "tests" / "data"))
import make_film_reference as peer

BASE: dict[str, Any] = {
    "parts": {"acetone": 50, "n-butyl acetate": 35, "2-butoxyethanol": 15},
    "solids_pct": 0,
    "wet_um": 25,
    "temperature_degC": 25,
    "relative_humidity_pct": 50,
    "air_speed_m_s": 0.2,
    "part_length_mm": 100,
    "substrate": "polystyrene",
    "binder_tg_degC": None,
}
FILMS: dict[str, dict[str, Any]] = {
    "three solvents, water from the air": {},
    "the same with solids": {"solids_pct": 15},
    "four solvents with solids": {
        "parts": {"acetone": 40, "ethyl acetate": 20, "n-butyl acetate": 25, "2-butoxyethanol": 15},
        "solids_pct": 15,
    },
    "the same, resistance of the film": {
        "parts": {"acetone": 40, "ethyl acetate": 20, "n-butyl acetate": 25, "2-butoxyethanol": 15},
        "solids_pct": 15,
        "binder_tg_degC": 50,
    },
}
REPEATS = 15
OURS_PER_REPEAT = 100


def film(case: dict[str, Any]) -> mc.Film:
    room = mc.Room(
        temperature=f"{case['temperature_degC']} degC",
        relative_humidity=f"{case['relative_humidity_pct']} %",
        air_speed=f"{case['air_speed_m_s']} m/s",
    )
    return mc.Film(
        mc.Blend(case["parts"], basis="mass"),
        wet_thickness=f"{case['wet_um']} um",
        room=room,
        solids=f"{case['solids_pct']} %",
        substrate=case["substrate"],
        binder_tg=None if case["binder_tg_degC"] is None else f"{case['binder_tg_degC']} degC",
        until="1 d",
    )


def main() -> None:
    for name, changes in FILMS.items():
        case = {**BASE, **changes}
        ours = film(case)
        dry = ours.dry()
        reference = peer.simulate(case, relative_tolerance=1e-5)
        worst = max(
            abs(dry.time_to_lose(f"{share} %").to("s") / float(seconds) - 1)
            for share, seconds in zip((50, 90, 99), reference[1:4], strict=True)
        )
        assert worst < 5e-3, worst
        mine, theirs = [], []
        for _ in range(REPEATS):
            start = time.perf_counter()
            for _ in range(OURS_PER_REPEAT):
                ours.dry()
            mine.append((time.perf_counter() - start) / OURS_PER_REPEAT)
            theirs.append(peer.integrate(case, relative_tolerance=1e-5).seconds)
        a, b = statistics.median(mine), statistics.median(theirs)
        print(
            f"{name:36s} mistcoat {a * 1e6:7.1f} us   "
            f"scipy LSODA + thermo {b * 1e3:7.1f} ms   {b / a:6.0f} times   "
            f"worst time {100 * worst:.2f} %"
        )


if __name__ == "__main__":
    main()
