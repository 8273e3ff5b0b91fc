"""The same work by mistcoat and by general-purpose libraries, in one process, as ratios.

    make bench        or        .venv/bin/python benches/peers.py

Peers: numpy and pint for the cup equation, thermo for UNIFAC, a bare interpreter for import time.
Medians over repeats, interleaved, so that both sides see the same machine.
"""

from __future__ import annotations

import statistics
import subprocess
import sys
import time
from collections.abc import Callable

import mistcoat as mc
import numpy as np


def interleaved(repeats: int, **work: Callable[[], object]) -> dict[str, float]:
    """Median seconds of each callable, run in turn."""
    taken: dict[str, list[float]] = {name: [] for name in work}
    for call in work.values():
        call()  # warm up
    for _ in range(repeats):
        for name, call in work.items():
            start = time.perf_counter()
            call()
            taken[name].append(time.perf_counter() - start)
    return {name: statistics.median(t) for name, t in taken.items()}


def row(what: str, ours: float, peer: str, theirs: float, unit: float, unit_name: str) -> None:
    print(
        f"{what:44s} mistcoat {ours / unit:10.4g} {unit_name}   {peer:14s} {theirs / unit:10.4g} "
        f"{unit_name}   {theirs / ours:8.3g} times"
    )


def cup_columns() -> None:
    import pint

    seconds = np.random.default_rng(1).uniform(30.0, 100.0, 1_000_000)
    ureg = pint.UnitRegistry()
    a, b = ureg.Quantity(1.37, "mm**2/s**2"), ureg.Quantity(200.0, "mm**2")
    with_units = ureg.Quantity(seconds, "s")
    got = interleaved(
        21,
        ours=lambda: mc.columns.kinematic_viscosity_mm2_s(
            efflux_s=seconds, standard="ISO 2431", size=4
        ),
        numpy=lambda: 1.37 * seconds - 200.0 / seconds,
        pint=lambda: a * with_units - b / with_units,
    )
    for peer in ("numpy", "pint"):
        row("cup equation, 1e6 values", got["ours"], peer, got[peer], 1e-3, "ms")


def many(call: Callable[[], object], n: int) -> Callable[[], None]:
    def loop() -> None:
        for _ in range(n):
            call()

    return loop


def cup_scalar() -> None:
    import pint

    ureg = pint.UnitRegistry()
    a, b = ureg.Quantity(1.37, "mm**2/s**2"), ureg.Quantity(200.0, "mm**2")
    t, t_pint, cup = mc.Time("35 s"), ureg.Quantity(35.0, "s"), mc.FlowCup("ISO 2431", 4)
    n = 2000
    got = interleaved(
        15,
        answer=many(lambda: cup.kinematic_viscosity(t), n),
        column=many(
            lambda: mc.columns.kinematic_viscosity_mm2_s(
                efflux_s=35.0, standard="ISO 2431", size=4
            ),
            n,
        ),
        pint=many(lambda: a * t_pint - b / t_pint, n),
        build=many(lambda: mc.Time(35.0, "s"), n),
        parse=many(lambda: mc.Time("35 s"), n),
        build_pint=many(lambda: ureg.Quantity(35.0, "s"), n),
        parse_pint=many(lambda: ureg.Quantity("35 s"), n),
    )
    per = {k: v / n for k, v in got.items()}
    row("cup, one value with interval and working", per["answer"], "pint", per["pint"], 1e-6, "us")
    row("cup, one float through columns", per["column"], "pint", per["pint"], 1e-6, "us")
    row("build one time", per["build"], "pint", per["build_pint"], 1e-6, "us")
    row('read "35 s"', per["parse"], "pint", per["parse_pint"], 1e-6, "us")


def unifac() -> None:
    from thermo.unifac import UNIFAC

    parts = {"acetone": 0.4, "n-butyl acetate": 0.3, "2-butoxyethanol": 0.2, "water": 0.1}
    groups = [{1: 1, 18: 1}, {1: 1, 2: 3, 21: 1}, {1: 1, 2: 3, 100: 1}, {16: 1}]
    x = list(parts.values())
    n = 500
    model = UNIFAC.from_subgroups(T=298.15, xs=x, chemgroups=groups, version=0)
    # A new temperature and composition each time, as a drying film needs it.
    rng = np.random.default_rng(2)
    states = [
        (float(t), [float(v) for v in rng.dirichlet(np.ones(4))]) for t in rng.uniform(288, 308, n)
    ]
    temperatures = np.array([t for t, _ in states])
    fractions = np.array([f for _, f in states])
    blend = mc.Blend(parts, basis="mole")

    def theirs() -> None:
        for t, f in states:
            model.to_T_xs(t, f).gammas()

    def ours() -> object:
        return mc.columns.activity_coefficients(
            temperature_k=temperatures, mole_fractions=fractions, blend=blend, model="original"
        )

    ours_result = np.asarray(ours())
    peer_result = np.array([model.to_T_xs(t, f).gammas() for t, f in states])
    worst = np.max(np.abs(ours_result / peer_result - 1.0))
    assert worst < 1e-6, worst
    got = interleaved(11, ours=ours, thermo=theirs)
    row("UNIFAC, 4 solvents, new T and x", got["ours"] / n, "thermo", got["thermo"] / n, 1e-6, "us")


def import_time() -> None:
    def run(code: str) -> float:
        times = []
        for _ in range(9):
            start = time.perf_counter()
            subprocess.run([sys.executable, "-c", code], check=True)
            times.append(time.perf_counter() - start)
        return statistics.median(times)

    bare, numpy_time = run("pass"), run("import numpy")
    ours, both = run("import mistcoat"), run("import numpy, mistcoat")
    print(
        f"import: interpreter {bare * 1e3:.0f} ms, numpy +{(numpy_time - bare) * 1e3:.0f} ms, "
        f"mistcoat +{(ours - bare) * 1e3:.0f} ms, "
        f"mistcoat beyond numpy +{(both - numpy_time) * 1e3:.0f} ms"
    )


if __name__ == "__main__":
    cup_columns()
    cup_scalar()
    unifac()
    import_time()
