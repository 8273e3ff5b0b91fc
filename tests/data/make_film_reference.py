"""Makes film_reference.csv and film_catalogue_reference.csv: drying films integrated independently
of the Rust engine.

Same equations and the same pure-solvent data (data/solvents/*.toml, data/substrates.toml); all
else from general libraries: activity coefficients by the `thermo` package, integration by LSODA of
scipy at a relative tolerance of 1e-7. Run with Python 3.11+, numpy, scipy, thermo:

    python make_film_reference.py

One row is worth less than its digits: hydrocarbons that cool below the dew point of the room
(o-xylene with toluene at 86 % humidity). Water gathers in them until the liquid would part; the
moment at which it does is that of an instability, and moves the times behind it by up to 2 %,
here as in any integration.
"""

import csv
import math
import pathlib
import random
import time
from types import SimpleNamespace

import numpy as np
import tomllib
from scipy.integrate import solve_ivp
from scipy.optimize import brentq
from thermo.unifac import DOUFIP2006, DOUFSG, UFIP, UFSG, UNIFAC

HERE = pathlib.Path(__file__).resolve().parent
DATA = HERE.parents[1] / "data"
R = 8.314462618
ATMOSPHERE = 101325.0
AIR_MOLAR_MASS = 0.0289647  # transfer and density
FULLER_AIR = (0.028965, 19.7)  # as in the diffusivity of the catalogue
TYPICAL_CP = 2000.0  # J/(kg K), where the catalogue has none
DAY = 86400.0
UNTIL = 7 * DAY


def number(text):
    return float(text.split()[0])


def kelvin(entry):
    value, unit = entry["value"].split()
    return float(value) + (273.15 if unit == "°C" else 0.0)


def catalogue():
    found = {}
    for path in sorted((DATA / "solvents").glob("*.toml")):
        for record in tomllib.loads(path.read_text(encoding="utf-8"))["solvent"]:
            found[record["name"]] = record
    return found


CATALOGUE = catalogue()
SUBSTRATES = {
    s["name"]: s for s in tomllib.loads((DATA / "substrates.toml").read_text())["substrate"]
}


class Liquid:
    """One pure solvent at the temperature of the room."""

    def __init__(self, name, room_k):
        r = CATALOGUE[name]
        self.name = name
        self.water = r.get("cas") == "7732-18-5"
        self.molar_mass = number(r["molar_mass"]["value"]) * 1e-3
        density = number(r["density"]["at_20C"]) + number(r["density"]["per_kelvin"]) * (
            room_k - 293.15
        )
        self.molar_volume = self.molar_mass / density
        self.antoine = r["antoine"]["a"], r["antoine"]["b"], r["antoine"]["c"]
        self.heat = number(r["heat_of_vaporisation"]["value"]) * 1e3
        if "heat_capacity_per_kelvin" in r:
            self.capacity = number(r["heat_capacity_per_kelvin"]["value"])
        else:
            self.capacity = TYPICAL_CP * self.molar_mass
        mass, volume = FULLER_AIR
        pair = 2000.0 / (1.0 / self.molar_mass + 1.0 / mass)
        size = (r["diffusion_volume"]["value"] ** (1 / 3) + volume ** (1 / 3)) ** 2
        self.diffusivity = 1e-4 * 0.00143 * room_k**1.75 / (1.01325 * math.sqrt(pair) * size)
        self.groups = r["unifac"]
        # glass transition: 0.66 of the melting point, itself half the boiling point where unknown
        melting = kelvin(r["melting_point"]) if "melting_point" in r else None
        self.glass = 136.0 if self.water else 0.66 * (melting or kelvin(r["boiling_point"]) / 2)

    def psat(self, t):
        a, b, c = self.antoine
        return 10.0 ** (a - b / (t + c))


def activity_model(liquids):
    """Dortmund for alcohol with water and no glycol ether, else original."""
    water = any(q.water for q in liquids)
    alcohol = any({"OH", "CH3OH"} & set(q.groups["original"]) for q in liquids)
    ether = any(
        {"C2H5O2", "C2H4O2"} & set(g) or ("OH" in g and {"CH3O", "CH2O", "CHO"} & set(g))
        for g in (q.groups["original"] for q in liquids)
    )
    dortmund = water and alcohol and not ether
    table = "dortmund" if dortmund else "original"
    groups, pairs = (DOUFSG, DOUFIP2006) if dortmund else (UFSG, UFIP)
    ids = {}
    for key, group in groups.items():
        ids.setdefault(group.group.strip("<>"), key)
    chemgroups = [{ids[g]: n for g, n in q.groups[table].items()} for q in liquids]
    model = UNIFAC.from_subgroups(
        T=298.15,
        xs=[1 / len(liquids)] * len(liquids),
        chemgroups=chemgroups,
        version=int(dortmund),
        subgroups=groups,
        interaction_data=pairs,
    )
    return table, lambda t, x: np.array(model.to_T_xs(t, [max(v, 1e-14) for v in x]).gammas())


def conduction(name):
    """Interface conductances and layer capacities, top to bottom."""
    s = SUBSTRATES[name]
    k, rc = s["conductivity"]["value"], s["density"]["value"] * s["heat_capacity"]["value"]
    sizes = 1.5 ** np.arange(8)
    sizes *= s["thickness"]["value"] * 1e-3 / sizes.sum()
    gaps = np.concatenate([[sizes[0] / 2], (sizes[:-1] + sizes[1:]) / 2])
    return k / gaps, sizes * rc


def integrate(case, relative_tolerance):
    """The solution with what is needed to read it, and the seconds of the integration alone."""
    room = case["temperature_degC"] + 273.15
    humidity, speed = case["relative_humidity_pct"] / 100, case["air_speed_m_s"]
    length = case["part_length_mm"] * 1e-3
    names = list(case["parts"])
    if humidity > 0 and "water" not in names:
        names.append("water")
    liquids = [Liquid(n, room) for n in names]
    n = len(liquids)
    table, gamma = activity_model(liquids) if n > 1 else ("none", lambda t, x: np.ones(1))
    mass_fraction = np.array([case["parts"].get(q.name, 0.0) for q in liquids])
    molar_mass = np.array([q.molar_mass for q in liquids])
    molar_volume = np.array([q.molar_volume for q in liquids])
    heat = np.array([q.heat for q in liquids])
    capacity = np.array([q.capacity for q in liquids])
    moles = mass_fraction / molar_mass
    wet = case["wet_um"] * 1e-6
    solids = wet * case["solids_pct"] / 100
    start = moles / (moles @ molar_volume) * (wet - solids)
    came = start > 0
    mass0 = (start * molar_mass).sum()
    outside = np.array([humidity * q.psat(room) if q.water else 0.0 for q in liquids])
    chi = np.array([3.0 if q.water else 0.4 for q in liquids])

    # gas side
    density = ATMOSPHERE * AIR_MOLAR_MASS / (R * room)
    viscosity = 1.716e-5 * (room / 273.15) ** 1.5 * (273.15 + 110.4) / (room + 110.4)
    nu = viscosity / density
    k_air = 0.0241 * (room / 273.15) ** 0.9
    paths = np.array([q.diffusivity for q in liquids] + [k_air / (density * 1006.0)])
    re = speed * length / nu
    schmidt = nu / paths
    plain = 0.664 * math.sqrt(re) if re < 5e5 else 0.037 * re**0.8 - 871
    forced = plain * np.cbrt(schmidt)
    fixed = forced**3 + (8 / math.pi) ** 3

    def coefficients(excess):
        rayleigh = 9.81 * math.hypot(excess, 1e-6) * (length / 4) ** 3 / (nu * paths)
        if excess > 0:
            free = 0.27 * rayleigh**0.25
        else:
            free = np.where(rayleigh < 1e7, 0.54 * rayleigh**0.25, 0.15 * np.cbrt(rayleigh))
        sh = np.cbrt(fixed + (4 * free) ** 3)
        return sh[:-1] * paths[:-1] / length, sh[-1] * k_air / length + 5.4

    binder_k = None if case["binder_tg_degC"] is None else case["binder_tg_degC"] + 273.15
    glass = np.array([q.glass for q in liquids])
    resin = solids * case.get("resin_kg_m3", 1180.0)  # kg/m2, without pigment unless told

    def film_glass(amounts):
        mass = np.maximum(amounts, 0) * molar_mass
        return (mass.sum() + resin) / ((mass / glass).sum() + resin / binder_k)

    plate = (
        None if case["substrate"] in ("free film", "isothermal") else conduction(case["substrate"])
    )

    def fluxes(amounts, t):
        total = np.maximum(amounts, 0).sum()
        x = amounts / total
        g = gamma(t, np.maximum(x, 0))
        factor = np.ones(n)
        if solids > 0:
            liquid = np.maximum(amounts, 0) @ molar_volume
            phi = liquid / (liquid + solids)
            factor = phi * np.exp(np.minimum((1 - phi) + chi * (1 - phi) ** 2, 5))
        phi_factor = g * factor
        psat = np.array([q.psat(t) for q in liquids])
        p = np.minimum(np.minimum(g * x * factor, 1.0) * psat, 0.95 * ATMOSPHERE)
        vapour = (p - outside) @ (molar_mass / AIR_MOLAR_MASS - 1) / ATMOSPHERE
        excess = (room - t) / room + vapour
        k, h = coefficients(excess)
        if binder_k is not None:
            above = t - film_glass(amounts)
            if above > 0:
                decades = -14 + 0.37 * 17.44 * above / (51.6 + above)
            else:
                decades = -14 + 0.1 * above
            diffusivity = min(10.0**decades, 1e-9)
            thick = liquid + solids
            k_film = math.pi**2 / 4 * diffusivity / thick
            # partial pressure over amount, also where there is none
            plain = phi_factor * psat / total
            limited = p < plain * amounts * (1 - 1e-12)
            slope = np.where(limited, p / np.where(limited, amounts, 1), plain)
            partition = slope * thick / (R * room)
            k = 1 / (1 / k + partition / k_film)
        y_s, y_r = min(p.sum(), 0.95 * ATMOSPHERE) / ATMOSPHERE, outside.sum() / ATMOSPHERE
        # exact for a vapour that the room has none of; used for all species
        step = y_s - y_r
        wind = math.log((1 - y_r) / (1 - y_s)) * (1 - y_r) / step if abs(step) > 1e-9 else 1.0
        return k * wind * (p - outside) / (R * room), h

    def rhs(_time, y):
        amounts, t = y[:n] * start.sum(), y[n]
        if amounts.sum() <= 0:
            return np.zeros_like(y)
        j, h = fluxes(amounts, t)
        out = np.zeros_like(y)
        out[:n] = -j / start.sum()
        if case["substrate"] == "isothermal":
            return out
        q = h * (room - t) - j @ heat
        c = np.maximum(amounts, 0) @ capacity + solids * 1.8e6 + 5.0
        if plate is not None:
            conductance, layers = plate
            nodes = y[n + 1 :]
            flow = np.empty(9)
            flow[0] = conductance[0] * (t - nodes[0])
            flow[1:8] = conductance[1:] * (nodes[:-1] - nodes[1:])
            flow[8] = h * (nodes[-1] - room)
            out[n + 1 :] = (flow[:-1] - flow[1:]) / layers
            q -= flow[0]
        out[n] = q / c
        return out

    def left(y):
        return (y[:n] * start.sum() * molar_mass)[came].sum(axis=0) / mass0

    def done(_time, y):
        return left(y) - 0.009

    done.terminal = binder_k is None

    def residual(y):
        volume = (np.maximum(y[:n], 0) * start.sum() * molar_volume)[came].sum()
        return volume / (volume + solids)

    def above_glass(y):
        return y[n] - film_glass(y[:n] * start.sum())

    y0 = np.concatenate([start / start.sum(), [room], np.full(0 if plate is None else 8, room)])
    began = time.perf_counter()
    s = solve_ivp(
        rhs,
        (0, UNTIL if binder_k is None else DAY),
        y0,
        method="LSODA",
        rtol=relative_tolerance,
        atol=relative_tolerance * 1e-3,
        events=done,
        dense_output=True,
    )
    seconds = time.perf_counter() - began
    assert s.success, s.message
    return SimpleNamespace(
        table=table,
        solution=s,
        left=left,
        species=n,
        seconds=seconds,
        binder=binder_k is not None,
        residual=residual,
        above_glass=above_glass,
    )


def simulate(case, relative_tolerance=1e-7):
    run = integrate(case, relative_tolerance)
    s, left = run.solution, run.left
    curve = np.array([left(y) for y in s.y.T])

    def when(lost):
        below = np.nonzero(curve <= 1 - lost)[0]
        if len(below) == 0:
            return ""
        i = below[0]
        at = brentq(lambda t: left(s.sol(t)) - (1 - lost), s.t[i - 1], s.t[i], xtol=1e-9)
        return f"{at:.6g}"

    fine = np.concatenate([np.linspace(a, b, 8) for a, b in zip(s.t[:-1], s.t[1:], strict=True)])
    coldest = s.sol(fine)[run.species].min() - 273.15
    times = [run.table, when(0.5), when(0.9), when(0.99), f"{coldest:.4f}"]
    if not run.binder:
        return [*times, "", "", "", ""]

    def hard(level):
        above = [run.above_glass(y) for y in s.y.T]
        i = next((i for i, a in enumerate(above) if a <= level), None)
        if i is None:
            return ""
        before, after = s.t[i - 1], s.t[i]
        at = brentq(lambda t: run.above_glass(s.sol(t)) - level, before, after, xtol=1e-9)
        return f"{at:.6g}"

    left_over = [f"{100 * run.residual(s.sol(t)):.5g}" for t in (3600.0, DAY)]
    return [*times, hard(55.0), hard(21.0), *left_over]


def cases():
    base = dict(
        parts={"acetone": 50, "n-butyl acetate": 35, "2-butoxyethanol": 15},
        solids_pct=0,
        wet_um=25,
        temperature_degC=25,
        relative_humidity_pct=50,
        air_speed_m_s=0.2,
        part_length_mm=100,
        substrate="polystyrene",
        binder_tg_degC=None,
    )
    fixed = [
        {},
        {"substrate": "free film"},
        {"substrate": "isothermal"},
        {"air_speed_m_s": 0},
        {"air_speed_m_s": 0.5},
        {"temperature_degC": 15},
        {"temperature_degC": 35},
        {"relative_humidity_pct": 80},
        {"wet_um": 50},
        {"solids_pct": 15},
        {"substrate": "brass"},
        {"substrate": "wood", "solids_pct": 30},
        {"parts": {"water": 100}, "relative_humidity_pct": 55},
        {"parts": {"water": 100}, "relative_humidity_pct": 55, "solids_pct": 25, "wet_um": 40},
        {"parts": {"water": 70, "isopropanol": 30}, "relative_humidity_pct": 60, "solids_pct": 15},
        {"parts": {"water": 85, "2-butoxyethanol": 15}, "relative_humidity_pct": 40},
        {
            "parts": {"ethanol": 60, "isopropanol": 40},
            "solids_pct": 10,
            "relative_humidity_pct": 70,
        },
        {"parts": {"acetone": 100}, "relative_humidity_pct": 0, "air_speed_m_s": 1.0},
        {
            "parts": {"n-butyl acetate": 100},
            "relative_humidity_pct": 0,
            "substrate": "free film",
            "wet_um": 100,
        },
        {"parts": {"toluene": 60, "n-butanol": 40}, "part_length_mm": 300},
    ]
    names = [
        "acetone",
        "methyl ethyl ketone",
        "ethyl acetate",
        "n-butyl acetate",
        "toluene",
        "ethanol",
        "n-butanol",
        "1-methoxy-2-propanol",
        "2-butoxyethanol",
        "water",
        "n-heptane",
        "isopropanol",
    ]
    names = [n for n in names if n in CATALOGUE]
    rng = random.Random(41)
    for _ in range(14):
        chosen = rng.sample(names, rng.randint(2, 5))
        if "water" in chosen and {
            "n-heptane",
            "toluene",
            "n-butyl acetate",
            "n-butanol",
            "ethyl acetate",
        } & set(chosen):
            chosen.remove("water")  # would separate
        fixed.append(
            dict(
                parts={c: rng.randint(5, 60) for c in chosen},
                solids_pct=rng.choice([0, 0, 10, 25]),
                wet_um=rng.randint(10, 100),
                temperature_degC=rng.randint(5, 35),
                relative_humidity_pct=rng.randint(20, 90),
                air_speed_m_s=round(rng.uniform(0, 1), 2),
                substrate=rng.choice(["polystyrene", "wood", "card", "glass"]),
            )
        )
    lacquer = {"solids_pct": 15, "binder_tg_degC": 50}
    fast = {"parts": {"acetone": 60, "n-butyl acetate": 40}}
    for change in [
        {},
        {"wet_um": 50},
        {"wet_um": 100},
        {"temperature_degC": 15},
        {"temperature_degC": 35},
        {"air_speed_m_s": 0},
        {"air_speed_m_s": 1},
        fast,
        {"binder_tg_degC": 80},
        {"binder_tg_degC": 105, "substrate": "brass"},
        {"binder_tg_degC": 20},
        {"parts": {"toluene": 100}, "relative_humidity_pct": 0, "solids_pct": 40},
    ]:
        fixed.append({**lacquer, **change})
    rng = random.Random(43)
    organic = [n for n in names if n not in ("water", "n-heptane")]
    for _ in range(10):
        fixed.append(
            dict(
                parts={c: rng.randint(5, 60) for c in rng.sample(organic, rng.randint(2, 4))},
                solids_pct=rng.randint(10, 40),
                wet_um=rng.randint(10, 80),
                temperature_degC=rng.randint(10, 35),
                relative_humidity_pct=rng.randint(20, 70),
                air_speed_m_s=round(rng.uniform(0, 1), 2),
                substrate=rng.choice(["polystyrene", "wood", "card", "glass"]),
                binder_tg_degC=rng.randint(30, 110),
            )
        )
    fixed.extend(random_films(names))
    return [{**base, **f} for f in fixed]


APART_FROM_WATER = {
    "n-heptane",
    "toluene",
    "o-xylene",
    "n-butyl acetate",
    "n-butanol",
    "ethyl acetate",
    "methyl isobutyl ketone",
    "isobutyl acetate",
}


def random_films(names):
    """A hundred over the whole range: 2 to 5 liquids; bare, with solids, with a hard binder."""
    more = ["methyl isobutyl ketone", "isobutyl acetate", "1-methoxy-2-propyl acetate", "o-xylene"]
    names = names + [n for n in more if n in CATALOGUE and CATALOGUE[n].get("unifac")]
    rng = random.Random(47)
    films = []
    for number in range(100):
        chosen = rng.sample(names, rng.randint(2, 5))
        if "water" in chosen and APART_FROM_WATER & set(chosen):
            chosen[chosen.index("water")] = "diacetone alcohol"  # would separate
        kind = ("bare", "solids", "binder", "binder")[number % 4]
        films.append(
            dict(
                parts={c: rng.randint(5, 60) for c in chosen},
                solids_pct=0 if kind == "bare" else rng.randint(5, 45),
                wet_um=rng.randint(10, 100),
                temperature_degC=rng.randint(5, 35),
                relative_humidity_pct=rng.randint(20, 90),
                air_speed_m_s=round(rng.uniform(0, 1), 2),
                substrate=rng.choice(["polystyrene", "wood", "card", "glass", "brass"]),
                binder_tg_degC=rng.randint(30, 110) if kind == "binder" else None,
            )
        )
    return films


GIVEN = (
    "solids_pct",
    "wet_um",
    "temperature_degC",
    "relative_humidity_pct",
    "air_speed_m_s",
    "part_length_mm",
    "substrate",
    "binder_tg_degC",
)
COMPUTED = (
    "unifac",
    "t50_s",
    "t90_s",
    "t99_s",
    "coldest_degC",
    "touch_dry_s",
    "block_free_s",
    "residual_1h_pct",
    "residual_24h_pct",
)


def again(path):
    """The films of a table made before: 200 drawn once over all solvents that have groups and no
    surrogate, 2 to 5 of them and every substrate, those left out that part when mixed."""

    def value(text):
        return float(text) if text.replace(".", "", 1).isdigit() else text

    with open(path, encoding="utf-8") as file:
        for row in csv.DictReader(file):
            parts = dict(p.split("=") for p in row["mass_parts"].split(";"))
            case = {key: value(row[key]) for key in GIVEN}
            case["binder_tg_degC"] = case["binder_tg_degC"] if row["binder_tg_degC"] else None
            yield {"parts": {k: int(v) for k, v in parts.items()}, **case}, row


def write(path, films):
    with open(path, "w", newline="", encoding="utf-8") as file:
        out = csv.writer(file, lineterminator="\n")
        out.writerow(["mass_parts", *GIVEN, *COMPUTED, "source"])
        for case, given in films:
            parts = ";".join(f"{k}={v}" for k, v in case["parts"].items())
            source = "computed by make_film_reference.py (scipy LSODA, thermo UNIFAC)"
            out.writerow([parts, *(given[key] for key in GIVEN), *simulate(case), source])
            file.flush()


def main():
    write(HERE / "film_reference.csv", [(case, case) for case in cases()])
    catalogue = HERE / "film_catalogue_reference.csv"
    write(catalogue, list(again(catalogue)))


if __name__ == "__main__":
    main()
