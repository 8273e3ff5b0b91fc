"""Tables of drying coats: ``columns.dry`` on one and on two cores, and the peer per film.

    .venv/bin/python benches/film_columns.py [rows]

Each number of cores runs in a process of its own (``RAYON_NUM_THREADS`` is read once); runs are
interleaved, so that both see the same machine. The peer (scipy LSODA with the activities of
thermo, ``benches/film_peer.py``) integrates a sample of the rows. Medians.
"""

from __future__ import annotations

import os
import pathlib
import statistics
import subprocess
import sys
import time
from typing import Any

import mistcoat as mc
import numpy as np
from mistcoat.columns import dry

sys.path.insert(0, str(pathlib.Path(__file__).parents[1] / "tests" / "data"))
import make_film_reference as peer

PARTS = {"acetone": 40, "ethyl acetate": 20, "n-butyl acetate": 25, "2-butoxyethanol": 15}
RUNS = 7
PEER_FILMS = 9


def settings(rows: int) -> dict[str, Any]:
    rng = np.random.default_rng(2026)
    return {
        "wet_thickness_um": rng.uniform(10, 60, rows),
        "temperature_degC": rng.uniform(10, 30, rows),
        "relative_humidity_pct": rng.uniform(20, 80, rows),
        "air_speed_m_s": rng.uniform(0.05, 1, rows),
        "solids_pct": rng.uniform(8, 30, rows),
        "binder_tg_degC": 50.0,
    }


def seconds(rows: int) -> tuple[float, float]:
    """Time on the clock, and of the processor by all threads."""
    table = settings(rows)
    blend = mc.Blend(PARTS, basis="mass")
    few = {name: np.resize(column, 64) for name, column in table.items()}
    dry(blend, until="1 d", **few)  # wakes the threads
    start, worked = time.perf_counter(), time.process_time()
    dry(blend, until="1 d", **table)
    return time.perf_counter() - start, time.process_time() - worked


def on_cores(cores: int, rows: int) -> tuple[float, float]:
    run = subprocess.run(
        [sys.executable, __file__, "--once", str(rows)],
        env={**os.environ, "RAYON_NUM_THREADS": str(cores)},
        capture_output=True,
        check=True,
        text=True,
    )
    clock, processor = run.stdout.split()
    return float(clock), float(processor)


def peer_seconds(rows: int) -> float:
    table = settings(rows)
    spent = []
    for row in range(PEER_FILMS):
        case = {
            "parts": PARTS,
            "solids_pct": table["solids_pct"][row],
            "wet_um": table["wet_thickness_um"][row],
            "temperature_degC": table["temperature_degC"][row],
            "relative_humidity_pct": table["relative_humidity_pct"][row],
            "air_speed_m_s": table["air_speed_m_s"][row],
            "part_length_mm": 100,
            "substrate": "polystyrene",
            "binder_tg_degC": 50,
        }
        spent.append(peer.integrate(case, relative_tolerance=1e-5).seconds)
    return statistics.median(spent)


def main() -> None:
    if sys.argv[1:2] == ["--once"]:
        print(*seconds(int(sys.argv[2])))
        return
    rows = int(sys.argv[1]) if len(sys.argv) > 1 else 10_000
    one, two = [], []
    for _ in range(RUNS):
        one.append(on_cores(1, rows))
        two.append(on_cores(2, rows))
    a, b = (statistics.median(clock for clock, _ in runs) for runs in (one, two))
    busy = [1e6 * statistics.median(p for _, p in runs) / rows for runs in (one, two)]
    ratios = sorted(x / y for (x, _), (y, _) in zip(one, two, strict=True))
    print(f"{rows} films, load {os.getloadavg()[0]:.1f} on {os.cpu_count()} cores")
    print(
        f"one core {a:.2f} s, two cores {b:.2f} s: {a / b:.2f} times "
        f"(runs {ratios[0]:.2f} to {ratios[-1]:.2f})"
    )
    # Beside other work the clock says little; the processor says what threads cost.
    print(f"processor: {busy[0]:.0f} us a film by one thread, {busy[1]:.0f} us by two")
    theirs = peer_seconds(rows)
    print(
        f"scipy LSODA + thermo {theirs * 1e3:.0f} ms a film, "
        f"mistcoat {a / rows * 1e6:.0f} us on one core: "
        f"{theirs * rows / a:.0f} times; on two {theirs * rows / b:.0f} times"
    )


if __name__ == "__main__":
    main()
