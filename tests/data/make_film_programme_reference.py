"""Makes film_programme_reference.csv: coats in changing air, and coats on coats, integrated apart
from the Rust engine.

Same equations and the same pure-solvent data; the state is kept in absolute terms (mol/m2, kelvin)
from one air to the next. Activity coefficients by `thermo`, LSODA of scipy at a relative tolerance
of 1e-7. Run with Python 3.11+, numpy, scipy, thermo:

    python make_film_programme_reference.py
"""

import csv
import math
import pathlib
from itertools import pairwise

import numpy as np
from make_film_reference import (
    AIR_MOLAR_MASS,
    ATMOSPHERE,
    DAY,
    Liquid,
    R,
    activity_model,
    conduction,
)
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

HERE = pathlib.Path(__file__).resolve().parent
LENGTH = 0.1  # m along the draught
RESIN_DENSITY = 1180.0
NOTE = "computed by make_film_programme_reference.py (scipy LSODA, thermo UNIFAC)"
ROOM = (21, 50, 0.15)  # degC, % relative humidity, m/s
FAN = (21, 50, 0.5)
GUN = (21, 50, 8.0)
WARM = (45, 13, 0.5)
TERNARY = {"acetone": 50, "n-butyl acetate": 35, "2-butoxyethanol": 15}
FAST = {"acetone": 60, "n-butyl acetate": 40}
ETHER = {"n-butyl acetate": 60, "1-methoxy-2-propanol": 40}

BASE = dict(
    parts=TERNARY,
    solids_pct=15,
    coats_um=[25],
    wait_s=0,
    airs=[(None, ROOM)],
    substrate="polystyrene",
    binder_tg_degC=50,
)
CASES = [
    dict(airs=[(20, GUN), (300, FAN), (None, WARM)]),
    dict(airs=[(30, ROOM), (None, FAN)], binder_tg_degC=None, solids_pct=0),
    dict(airs=[(60, FAN), (None, WARM)], substrate="wood", coats_um=[50]),
    dict(airs=[(10, GUN), (None, (25, 60, 0))], parts=FAST, substrate="brass"),
    dict(airs=[(120, WARM), (None, (12, 60, 0.2))], binder_tg_degC=80, parts=ETHER),
    dict(
        airs=[(200, ROOM), (None, WARM)],
        parts={"water": 85, "2-butoxyethanol": 15},
        binder_tg_degC=None,
        solids_pct=25,
        coats_um=[40],
    ),
    dict(airs=[(45, ROOM), (600, WARM), (None, ROOM)], substrate="free film", binder_tg_degC=20),
    dict(coats_um=[15, 15], wait_s=120),
    dict(coats_um=[10, 15, 20], wait_s=60, substrate="wood"),
    dict(coats_um=[20, 20], wait_s=30, airs=[(10, GUN), (None, FAN)], parts=ETHER),
    dict(coats_um=[12, 12, 12], wait_s=300, binder_tg_degC=80, parts=FAST, substrate="brass"),
    dict(coats_um=[20, 20], wait_s=90, airs=[(90, ROOM), (None, WARM)]),
    dict(
        coats_um=[25, 25],
        wait_s=600,
        parts={"water": 100},
        solids_pct=30,
        binder_tg_degC=None,
    ),
]


class Air:
    """One stretch of air over these liquids."""

    def __init__(self, names, air):
        celsius, humidity, speed = air
        self.room = room = celsius + 273.15
        self.liquids = [Liquid(n, room) for n in names]
        self.outside = np.array(
            [humidity / 100 * q.psat(room) if q.water else 0.0 for q in self.liquids]
        )
        density = ATMOSPHERE * AIR_MOLAR_MASS / (R * room)
        nu = 1.716e-5 * (room / 273.15) ** 1.5 * (273.15 + 110.4) / (room + 110.4) / density
        self.conductivity = 0.0241 * (room / 273.15) ** 0.9
        self.paths = np.array(
            [q.diffusivity for q in self.liquids] + [self.conductivity / (density * 1006.0)]
        )
        self.nu = nu
        reynolds = speed * LENGTH / nu
        forced = 0.664 * math.sqrt(reynolds) * np.cbrt(nu / self.paths)
        self.fixed = forced**3 + (8 / math.pi) ** 3

    def coefficients(self, excess):
        grashof = 9.81 * math.hypot(excess, 1e-6) * (LENGTH / 4) ** 3
        rayleigh = grashof / (self.nu * self.paths)
        if excess > 0:
            free = 0.27 * rayleigh**0.25
        else:
            free = np.where(rayleigh < 1e7, 0.54 * rayleigh**0.25, 0.15 * np.cbrt(rayleigh))
        sh = np.cbrt(self.fixed + (4 * free) ** 3)
        return (
            sh[:-1] * self.paths[:-1] / LENGTH,
            sh[-1] * self.conductivity / LENGTH + 5.4,
        )


class Part:
    """A part with the film on it: y is mol/m2 by species, film kelvin, plate kelvin."""

    def __init__(self, case):
        self.names = [*case["parts"]] + ([] if "water" in case["parts"] else ["water"])
        first = case["airs"][0][1]
        liquids = [Liquid(n, first[0] + 273.15) for n in self.names]
        self.n = len(liquids)
        self.mass = np.array([q.molar_mass for q in liquids])
        self.volume = np.array([q.molar_volume for q in liquids])
        self.heat = np.array([q.heat for q in liquids])
        self.capacity = np.array([q.capacity for q in liquids])
        self.glass = np.array([q.glass for q in liquids])
        self.chi = np.array([3.0 if q.water else 0.4 for q in liquids])
        self.gamma = activity_model(liquids)[1]
        self.came = np.array([n in case["parts"] for n in self.names])
        tg = case["binder_tg_degC"]
        self.binder = None if tg is None else tg + 273.15
        free = case["substrate"] == "free film"
        self.plate = None if free else conduction(case["substrate"])
        self.solids = 0.0
        self.y = np.concatenate([np.zeros(self.n), np.full(1 if free else 9, first[0] + 273.15)])

    def lands(self, case, wet_um, kelvin):
        """A coat adds its amounts; its heat mixes with that of the film below."""
        wet = wet_um * 1e-6
        solids = wet * case["solids_pct"] / 100
        moles = np.array([case["parts"].get(n, 0.0) for n in self.names]) / self.mass
        moles *= (wet - solids) / (moles @ self.volume)
        below = self.y[: self.n] @ self.capacity + self.solids * 1.8e6 + 5.0
        above = moles @ self.capacity + solids * 1.8e6
        self.y[self.n] = (below * self.y[self.n] + above * kelvin) / (below + above)
        self.y[: self.n] += moles
        self.solids += solids

    def held(self, y):
        return (y[: self.n] * self.mass)[self.came].sum()

    def film_glass(self, y):
        mass = np.maximum(y[: self.n], 0) * self.mass
        resin = self.solids * RESIN_DENSITY
        return (mass.sum() + resin) / ((mass / self.glass).sum() + resin / self.binder)

    def residual(self, y):
        volume = (np.maximum(y[: self.n], 0) * self.volume)[self.came].sum()
        return volume / (volume + self.solids)

    def rate(self, air, y):
        n, room = self.n, air.room
        amounts, t = y[:n], y[n]
        total = np.maximum(amounts, 0).sum()
        if total <= 0:
            return np.zeros_like(y)
        x = amounts / total
        factor = self.gamma(t, np.maximum(x, 0))
        liquid = np.maximum(amounts, 0) @ self.volume
        if self.solids > 0:
            phi = liquid / (liquid + self.solids)
            factor = factor * phi * np.exp(np.minimum((1 - phi) + self.chi * (1 - phi) ** 2, 5))
        psat = np.array([q.psat(t) for q in air.liquids])
        p = np.minimum(np.minimum(x * factor, 1.0) * psat, 0.95 * ATMOSPHERE)
        vapour = (p - air.outside) @ (self.mass / AIR_MOLAR_MASS - 1) / ATMOSPHERE
        k, h = air.coefficients((room - t) / room + vapour)
        if self.binder is not None:
            above = t - self.film_glass(y)
            decades = 0.37 * 17.44 * above / (51.6 + above) if above > 0 else 0.1 * above
            thick = liquid + self.solids
            k_film = math.pi**2 / 4 * min(10.0 ** (decades - 14), 1e-9) / thick
            plain = factor * psat / total
            limited = p < plain * amounts * (1 - 1e-12)
            slope = np.where(limited, p / np.where(limited, amounts, 1), plain)
            k = 1 / (1 / k + slope * thick / (R * room) / k_film)
        y_s = min(p.sum(), 0.95 * ATMOSPHERE) / ATMOSPHERE
        y_r = air.outside.sum() / ATMOSPHERE
        step = y_s - y_r
        wind = math.log((1 - y_r) / (1 - y_s)) * (1 - y_r) / step if abs(step) > 1e-9 else 1.0
        flux = k * wind * (p - air.outside) / (R * room)
        out = np.zeros_like(y)
        out[:n] = -flux
        warming = h * (room - t) - flux @ self.heat
        if self.plate is not None:
            conductance, layers = self.plate
            nodes = y[n + 1 :]
            flow = np.empty(9)
            flow[0] = conductance[0] * (t - nodes[0])
            flow[1:8] = conductance[1:] * (nodes[:-1] - nodes[1:])
            flow[8] = h * (nodes[-1] - room)
            out[n + 1 :] = (flow[:-1] - flow[1:]) / layers
            warming -= flow[0]
        film = np.maximum(amounts, 0) @ self.capacity + self.solids * 1.8e6 + 5.0
        out[n] = warming / film
        return out

    def dries(self, airs, lasts):
        """List of solutions, one a stretch of air, with times from the landing."""
        done, start = [], 0.0
        for stretch, air in airs:
            end = lasts if stretch is None else min(lasts, start + stretch)
            if end <= start:
                break
            model = Air(self.names, air)
            scale = np.abs(self.y).copy()
            scale[: self.n] = self.y[: self.n].sum()
            wet = scale[0]

            def gone(_t, y, wet=wet):
                return self.held(y) - 1e-4 * wet

            gone.terminal = self.solids == 0
            run = solve_ivp(
                lambda _t, y, model=model: self.rate(model, y),
                (start, end),
                self.y,
                method="LSODA",
                rtol=1e-7,
                atol=1e-10 * scale,
                events=gone,
                dense_output=True,
            )
            assert run.success, run.message
            done.append(run)
            self.y = run.y[:, -1].copy()
            start = end
            if run.status == 1:
                break
        return done


def first_below(runs, curve, level):
    for run in runs:
        below = [i for i, y in enumerate(run.y.T) if curve(y) <= level]
        if not below:
            continue
        i = below[0]
        if i == 0:
            return f"{run.t[0]:.6g}"

        def above(t, solution=run.sol):
            return curve(solution(t)) - level

        return f"{brentq(above, run.t[i - 1], run.t[i], xtol=1e-9):.6g}"
    return ""


def simulate(case):
    part = Part(case)
    kelvin = case["airs"][0][1][0] + 273.15
    brought, kept = 0.0, ""
    for um in case["coats_um"][:-1]:
        before = part.held(part.y)
        part.lands(case, um, kelvin)
        brought += part.held(part.y) - before
        part.dries(case["airs"], case["wait_s"])
        kept = f"{100 * part.held(part.y) / brought:.5g}"
    part.lands(case, case["coats_um"][-1], kelvin)
    wet = part.held(part.y)
    runs = part.dries(case["airs"], DAY)
    times = [first_below(runs, lambda y: part.held(y) / wet, left) for left in (0.5, 0.1, 0.01)]
    fine = [run.sol(np.linspace(a, b, 8)) for run in runs for a, b in pairwise(run.t)]
    coldest = min(y[part.n].min() for y in fine) - 273.15
    marks = ["", ""]
    if part.binder is not None:
        marks = [
            first_below(runs, lambda y: y[part.n] - part.film_glass(y), k) for k in (55.0, 21.0)
        ]
    left_over = ""
    if part.solids > 0 and runs[-1].t[-1] > 3600:
        at = next(run for run in runs if run.t[-1] >= 3600)
        left_over = f"{100 * part.residual(at.sol(3600.0)):.5g}"
    return [kept, *times, f"{coldest:.4f}", *marks, left_over]


def main():
    path = HERE / "film_programme_reference.csv"
    with open(path, "w", newline="", encoding="utf-8") as file:
        out = csv.writer(file, lineterminator="\n")
        out.writerow(
            [
                "mass_parts",
                "solids_pct",
                "coats_um",
                "wait_s",
                "airs_s_degC_pct_m_s",
                "substrate",
                "binder_tg_degC",
                "kept_pct",
                "t50_s",
                "t90_s",
                "t99_s",
                "coldest_degC",
                "touch_dry_s",
                "block_free_s",
                "residual_1h_pct",
                "source",
            ]
        )
        for change in CASES:
            case = {**BASE, **change}
            airs = ";".join(
                " ".join(["" if lasts is None else str(lasts), *map(str, air)]).strip()
                for lasts, air in case["airs"]
            )
            out.writerow(
                [
                    ";".join(f"{k}={v}" for k, v in case["parts"].items()),
                    case["solids_pct"],
                    ";".join(map(str, case["coats_um"])),
                    case["wait_s"],
                    airs,
                    case["substrate"],
                    case["binder_tg_degC"],
                    *simulate(case),
                    NOTE,
                ]
            )
            file.flush()


if __name__ == "__main__":
    main()
