"""One shot of an airbrush: mistcoat against scipy LSODA with activities of thermo, in one process.

    .venv/bin/python benches/spray_peer.py

The peer flies the same drop classes through the same jet, with its own integrator, activities
and air properties; solvents are those of data/solvents. Medians, interleaved, so that both sides
see the same machine. The difference is told per class: share of the volatile mass lost.
"""

from __future__ import annotations

import math
import pathlib
import statistics
import sys
import time
import warnings
from typing import Any

import mistcoat as mc
import numpy as np
from scipy.integrate import solve_ivp

sys.path.insert(0, str(pathlib.Path(__file__).parents[1] / "tests" / "data"))
import make_film_reference as peer

R = 8.314462618
ATMOSPHERE, AIR = 101325.0, 28.9647e-3
PARTS = {"acetone": 30, "toluene": 30, "n-butyl acetate": 30, "isopropanol": 10}
REPEATS = 7
OURS_PER_REPEAT = 40


def air(t: float) -> tuple[float, float, float]:
    """Density, viscosity, conductivity."""
    rho = ATMOSPHERE * AIR / (R * t)
    mu = 1.716e-5 * (t / 273.15) ** 1.5 * (273.15 + 110.4) / (t + 110.4)
    return rho, mu, 0.0241 * (t / 273.15) ** 0.9


class Jet:
    def __init__(self, room: float, gauge: float, area: float, paint: float) -> None:
        p1 = ATMOSPHERE + gauge
        self.room = room
        self.u0 = math.sqrt(2 * 1006 * room * (1 - (ATMOSPHERE / p1) ** (0.4 / 1.4)))
        choked = math.sqrt(1.4 * AIR / (R * room)) * (2 / 2.4) ** 3
        self.flow = area * p1 * choked  # 20 psi is above the critical ratio
        self.d = math.sqrt(4 * self.flow / (math.pi * air(room)[0] * self.u0))
        self.slow = math.sqrt(1 + paint / self.flow)

    def at(self, x: float) -> tuple[float, float, float]:
        u = self.u0 / self.slow * min(1.0, 6.2 * self.d / max(x, 1e-12))
        carried = self.flow * max(1.0, 0.32 * x / self.d)
        return u, carried, self.room - u * u / 2012


def fly(
    liquids: list[Any],
    gamma: Any,
    start: np.ndarray,
    solids: float,
    d0: float,
    jet: Jet,
    room: tuple[float, float],
    paint_m3_s: float,
    distance: float,
) -> np.ndarray:
    """Amounts left, mol per m3 sprayed."""
    t_room, humidity = room
    n = len(liquids)
    molar_volume = np.array([q.molar_volume for q in liquids])
    molar_mass = np.array([q.molar_mass for q in liquids])
    heat = np.array([q.heat for q in liquids])
    capacity = np.array([q.capacity for q in liquids])
    chi = np.array([3.0 if q.water else 0.4 for q in liquids])
    in_room = np.array([humidity * q.psat(t_room) if q.water else 0.0 for q in liquids])

    def rate(_: float, y: np.ndarray) -> np.ndarray:
        c, t, v, x = np.maximum(y[:n], 0), y[n], y[n + 1], y[n + 2]
        u, carried, gas = jet.at(x)
        middle = 0.5 * (t + gas)
        rho, mu, k = air(middle)
        nu = mu / rho
        volume = (c * molar_volume).sum() + solids
        d = d0 * volume ** (1 / 3)
        re = abs(u - v) * d / nu
        per = 6 * d / d0**3
        total = c.sum()
        phi = (c * molar_volume).sum() / volume
        psat = np.array([q.psat(max(t, 180)) for q in liquids])
        f = np.exp(np.minimum(1 - phi + chi * (1 - phi) ** 2, 5.0))
        p = np.minimum(gamma(t, list(c / total)) * c / total * phi * f, 1.0) * psat
        given = (start - c) * paint_m3_s / (carried / AIR) * ATMOSPHERE
        outside = np.maximum(in_room + given, 0)
        ys, yr = min(p.sum() / ATMOSPHERE, 0.95), outside.sum() / ATMOSPHERE
        b = (ys - yr) / (1 - ys)
        wind = (math.log1p(b) / b if abs(b) > 1e-7 else 1) * (1 + b)
        diffusion = np.array([q.diffusivity for q in liquids]) * (middle / t_room) ** 1.75
        sh = 2 + 0.6 * math.sqrt(re) * (nu / diffusion) ** (1 / 3)
        flux = per * sh * diffusion * wind / (R * middle) * (p - outside)
        nusselt = 2 + 0.6 * math.sqrt(re) * (mu * 1006 / k) ** (1 / 3)
        warmth = per * nusselt * k * (gas - t) - (flux * heat).sum()
        mass = (c * molar_mass).sum() + solids * 1200
        drag = 18 * mu * d / (d0**3 * mass) * (1 + 0.15 * re**0.687)
        store = (c * capacity).sum() + solids * 1.8e6
        return np.concatenate([-flux, [warmth / store, drag * (u - v), v]])

    def landed(_: float, y: np.ndarray) -> float:
        return float(y[n + 2] - distance)

    landed.terminal = True  # type: ignore[attr-defined]
    y0 = np.concatenate([start, [t_room, 1.0, 0.0]])
    scale = np.concatenate([np.full(n, 1e-5 * start.sum()), [1e-3, 1e-3, 1e-6]])
    s = solve_ivp(rate, (0, 2), y0, method="LSODA", rtol=1e-5, atol=scale, events=landed)
    return np.maximum(s.y[:n, -1], 0)


def one(distance: int, mix: mc.Mix, room: mc.Room) -> None:
    gun = mc.Airbrush(nozzle="0.3 mm", pressure="20 psi", distance=f"{distance} mm")
    shot = gun.spray(mix, room)
    fractions = mix.volatile.species
    liquids = [peer.Liquid(name, 298.15) for name in [*fractions, "water"]]
    _, gamma = peer.activity_model(liquids)
    x = np.array([*fractions.values(), 0.0])
    molar_volume = np.array([q.molar_volume for q in liquids])
    molar_mass = np.array([q.molar_mass for q in liquids])
    solids = mix.volume_solids.to("1")
    start = x * (1 - solids) / (x * molar_volume).sum()
    flow = shot.paint_flow.to("m3/s")
    paint = flow * mix.density("25 degC").to("kg/m3")
    jet = Jet(298.15, 20 * 6894.757, gun.air_area.to("m2"), paint)
    columns = shot.columns()

    def theirs() -> np.ndarray:
        out = []
        for um in columns["diameter_um"]:
            d0, to = float(um) * 1e-6, distance * 1e-3
            left = fly(liquids, gamma, start, solids, d0, jet, (298.15, 0.5), flow, to)
            lost = np.maximum(start - left, 0) * molar_mass
            out.append(lost[x > 0].sum() / (start * molar_mass).sum())
        return np.array(out)

    difference = theirs() - columns["lost"]
    worst = float(np.abs(difference).max())
    whole = abs(float((columns["share"] * difference).sum()))
    a, b = [], []
    for _ in range(REPEATS):
        begin = time.perf_counter()
        for _ in range(OURS_PER_REPEAT):
            gun.spray(mix, room)
        a.append((time.perf_counter() - begin) / OURS_PER_REPEAT)
        begin = time.perf_counter()
        theirs()
        b.append(time.perf_counter() - begin)
    mine, other = statistics.median(a), statistics.median(b)
    print(
        f"{distance:4d} mm  mistcoat {mine * 1e6:7.1f} us   "
        f"scipy LSODA + thermo {other * 1e3:7.1f} ms   {other / mine:6.0f} times   "
        f"loss differs by {100 * worst:.2f} points (worst class), {100 * whole:.2f} (whole)"
    )


def main() -> None:
    warnings.simplefilter("ignore")
    thinner = mc.Blend(PARTS, basis="mass")
    paint = mc.Paint.typical("solvent lacquer", name="hull green (invented)")
    mix = paint.thin(thinner, thinner=1, paint=1)
    room = mc.Room(temperature="25 degC", relative_humidity="50 %")
    for distance in (50, 80, 150):
        one(distance, mix, room)


if __name__ == "__main__":
    main()
