"""A map of settings: mistcoat against scipy LSODA with activities of thermo for each cell.

    .venv/bin/python benches/window_peer.py

The map is 100 x 100 cells of thinner ratio and pressure; every cell flies the drops of the spray
and dries the film in full. The peer does a sample of the cells in the same process: each drop
class through the jet (benches/spray_peer.py), mixed as it lands, and the film of it
(tests/data/make_film_reference.py), both at a relative tolerance of 1e-5. It is given what it does
not compute itself: the drop classes, the dry film of a pass, the mix, the binder.

A strip of the map is done between any two cells of the peer, so that both sides see the same
machine; the strips together are the map. Wall time counts all cores, as they are free; processor
time tells what one core does, whoever else is at work.
"""

from __future__ import annotations

import itertools
import json
import os
import pathlib
import random
import statistics
import sys
import time
import warnings
from collections.abc import Callable
from typing import Any

import mistcoat as mc
import numpy as np
from scipy.optimize import brentq

sys.path.insert(0, str(pathlib.Path(__file__).parent))
sys.path.insert(0, str(pathlib.Path(__file__).parents[1] / "tests" / "data"))
import make_film_reference as film_peer
import spray_peer

RATIOS = np.linspace(0.5, 3.0, 100)
PRESSURES_KPA = np.linspace(110.0, 240.0, 100)  # choked at the nozzle, as the jet of the peer is
DISTANCE_M = 0.08
SAMPLE = 16
PAINT = mc.Paint.typical("solvent lacquer", name="hull green (invented)")
THINNER = mc.Blend({"acetone": 30, "n-butyl acetate": 55, "2-butoxyethanol": 15}, basis="volume")
ROOM = mc.Room(temperature="25 degC", relative_humidity="50 %", air_speed="0.15 m/s")


def gun(kpa: float) -> mc.Airbrush:
    return mc.Airbrush(nozzle="0.3 mm", pressure=f"{kpa} kPa", distance="80 mm")


def setup(ratio: float, kpa: float) -> mc.Setup:
    return mc.Setup(
        PAINT,
        THINNER,
        thinner_per_paint=ratio,
        airbrush=gun(kpa),
        room=ROOM,
        substrate="wood",
    )


def first(above: Callable[[float], float], times: np.ndarray) -> float | None:
    """When it first comes down to zero."""
    for a, b in itertools.pairwise(times):
        if above(b) <= 0:
            return float(a) if above(a) <= 0 else float(brentq(above, a, b, xtol=1e-9))
    return None


def peer_cell(ratio: float, kpa: float) -> tuple[float, float, float, float | None, float | None]:
    """Seconds, those of the processor, share lost in flight, flash-off and touch dry in s."""
    mix = PAINT.thin(THINNER, thinner=ratio, paint=1)
    shot = gun(kpa).spray(mix, ROOM)
    ours = json.loads(shot.film(1, substrate="wood").to_json())
    columns = shot.columns()
    fractions = mix.volatile.species
    x = np.array([*fractions.values(), 0.0])
    flow = shot.paint_flow.to("m3/s")
    density = mix.density("25 degC").to("kg/m3")
    solids = mix.volume_solids.to("1")

    began, processor_began = time.perf_counter(), time.process_time()
    liquids = [film_peer.Liquid(name, 298.15) for name in [*fractions, "water"]]
    _, gamma = film_peer.activity_model(liquids)
    molar_mass = np.array([q.molar_mass for q in liquids])
    molar_volume = np.array([q.molar_volume for q in liquids])
    start = x * (1 - solids) / (x * molar_volume).sum()
    jet = spray_peer.Jet(298.15, kpa * 1e3, gun(kpa).air_area.to("m2"), flow * density)
    landed, lost = np.zeros_like(start), 0.0
    for um, share in zip(columns["diameter_um"], columns["share"], strict=True):
        left = spray_peer.fly(
            liquids, gamma, start, solids, float(um) * 1e-6, jet, (298.15, 0.5), flow, DISTANCE_M
        )
        gone = np.maximum(start - left, 0) * molar_mass
        lost += share * gone[x > 0].sum() / (start * molar_mass).sum()
        landed += share * left
    liquid = (landed * molar_volume).sum()
    binder = ours["binder"]
    case: dict[str, Any] = {
        "parts": {
            q.name: float(n * q.molar_mass) for q, n in zip(liquids, landed, strict=True) if n > 0
        },
        "solids_pct": 100 * solids / (solids + liquid),
        # the same dry film lands, in as much liquid as the peer has left
        "wet_um": shot.dry_film_per_pass.to("um") * (solids + liquid) / solids,
        "temperature_degC": 25,
        "relative_humidity_pct": 50,
        "air_speed_m_s": 0.15,
        "part_length_mm": 100,
        "substrate": "wood",
        "binder_tg_degC": binder["glass_transition"]["best"]["value"],
        "resin_kg_m3": 1e3 * binder["density"]["value"] * binder["share"]["value"] / 100,
    }
    run = film_peer.integrate(case, relative_tolerance=1e-5)
    seconds, busy = time.perf_counter() - began, time.process_time() - processor_began
    curve, after = run.solution.sol, run.solution.t
    flash_off = first(lambda t: run.left(curve(t)) - 0.1, after)
    touch_dry = first(lambda t: run.above_glass(curve(t)) - 55.0, after)
    return seconds, busy, lost, flash_off, touch_dry


def main() -> None:
    warnings.simplefilter("ignore")
    rng = random.Random(20)
    cells = [(rng.randrange(100), rng.randrange(100)) for _ in range(SAMPLE)]
    strips = np.array_split(np.arange(100), SAMPLE)
    start = setup(1.0, 140.0)
    wall, processor, theirs, their_processor, differences = 0.0, 0.0, [], [], []
    print(f"{os.cpu_count()} cores, load at the start {os.getloadavg()[0]:.1f}")
    for (i, j), strip in zip(cells, strips, strict=True):
        ratio, kpa = float(RATIOS[i]), float(PRESSURES_KPA[j])
        began, processor_began = time.perf_counter(), time.process_time()
        part = mc.window(
            start,
            "base coat",
            x=("thinner_per_paint", list(RATIOS)),
            y=("pressure_kPa", [float(PRESSURES_KPA[k]) for k in strip]),
        )
        wall += time.perf_counter() - began
        processor += time.process_time() - processor_began
        assert part.is_complete
        assert not (part.codes == -2).any()
        judged = setup(ratio, kpa).judge("base coat")
        seconds, busy, lost, flash_off, touch_dry = peer_cell(ratio, kpa)
        theirs.append(seconds)
        their_processor.append(busy)
        difference = [100 * (judged.flight_loss.to("1") - lost)]
        for mine, other in ((judged.flash_off, flash_off), (judged.touch_dry, touch_dry)):
            assert mine is not None
            assert other is not None
            difference.append(100 * (mine.to("s") / other - 1))
        differences.append(difference)
        print(
            f"thinner {ratio:4.2f}, {kpa:5.1f} kPa   peer {seconds * 1e3:6.0f} ms   "
            f"lost in flight {difference[0]:+.2f} points, "
            f"flash-off {difference[1]:+.2f} %, touch dry {difference[2]:+.2f} %",
            flush=True,
        )
    cell, one = wall / 1e4, processor / 1e4
    peer, peer_one = statistics.median(theirs), statistics.median(their_processor)
    worst = np.abs(differences).max(axis=0)
    print(f"load at the end {os.getloadavg()[0]:.1f}")
    print(f"100 x 100 map: {wall:.2f} s, {processor:.2f} s of processor time")
    print(f"wall: {cell * 1e6:.0f} us a cell, peer {peer * 1e3:.0f} ms, {peer / cell:.0f} times")
    print(
        f"one core: {one * 1e6:.0f} us a cell, peer {peer_one * 1e3:.0f} ms, "
        f"{peer_one / one:.0f} times"
    )
    print(f"a map by the peer: {peer * 1e4 / 3600:.1f} h")
    print(
        f"worst difference of {SAMPLE} cells: lost in flight {worst[0]:.2f} points, "
        f"flash-off {worst[1]:.2f} %, touch dry {worst[2]:.2f} %"
    )


if __name__ == "__main__":
    main()
