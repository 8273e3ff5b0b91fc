"""The edge at a mask at the border; its curve against an integration by scipy."""

from __future__ import annotations

import math
import pickle
from typing import Any

import mistcoat as mc
import numpy as np
import pytest
from scipy.integrate import solve_ivp

pytestmark = pytest.mark.filterwarnings("ignore::mistcoat.MistcoatWarning")
ROOM = mc.Room(temperature="21 degC", relative_humidity="50 %")


def coat(thinner: float = 1, wet: str = "8 um") -> mc.Film:
    paint = mc.Paint.typical("solvent lacquer", name="hull green (invented)")
    return mc.Film(
        paint.thin("n-butyl acetate", thinner=thinner, paint=1), wet_thickness=wet, room=ROOM
    )


def rise_at_wall(end: float) -> float:
    """h_t = -(h^3 h_xxx)_x with slope -1 and no flow at the wall, from a level film."""
    cells, first = 300, 0.02
    reach, growth = 12 * end**0.25 + 4, 1.03
    for _ in range(60):  # cells that grow so that they reach just so far
        growth = (1 + reach * (growth - 1) / first) ** (1 / cells)
    width = first * growth ** np.arange(cells)
    middle = np.cumsum(width) - width / 2
    apart = np.diff(middle)

    def rate(_: float, h: np.ndarray) -> np.ndarray:
        h = np.maximum(h, 1e-6)
        slope = np.concatenate([[-1.0], np.diff(h) / apart, [0.0]])
        flow = (h[1:] * h[:-1]) ** 1.5 * np.diff(np.diff(slope) / width) / apart
        fall: np.ndarray = np.diff(np.concatenate([[0.0], flow, [0.0]])) / width
        return -fall

    s = solve_ivp(
        rate, (0, end), np.ones(cells), method="LSODA", rtol=1e-6, atol=1e-9, lband=2, uband=2
    )
    return float(s.y[0, -1] + first / 2 - 1)


@pytest.mark.parametrize("viscosity", ["1000 Pa.s", "10 Pa.s", "0.3 Pa.s"])
def test_rise_at_the_wall(viscosity: str) -> None:
    # A film of glycerol keeps depth and viscosity for a minute: T = gamma t/(3 eta h).
    dry_room = mc.Room(temperature="21 degC", relative_humidity="0 %")
    film = mc.Film(
        mc.Blend({"glycerol": 1}, basis="mass"),
        wet_thickness="50 um",
        room=dry_room,
        solids="20 %",
        substrate="isothermal",
        until="60 s",
    )
    eta = mc.DynamicViscosity(viscosity).to("Pa.s")
    flow = mc.Flow(viscosity, temperature="21 degC", thicker=[("90 %", f"{2 * eta} Pa.s")])
    edge = mc.mask_edge(flow.on(film), tape="5 mm")
    ours = edge.ridge.to("um") / (1.2 * edge.step.to("um"))
    assert ours == pytest.approx(rise_at_wall(0.027 * 60 / (3 * eta * 50e-6)), rel=0.02)
    # L = sqrt(gamma d t/(3 eta)), Washburn (1921) between walls; d is 0.3 um.
    creeps = math.sqrt(0.027 * 0.3e-6 * 60 / (3 * eta)) * 1e6
    assert edge.bleed.to("um") == pytest.approx(creeps, rel=0.02)


def test_less_per_pass_as_much_per_film() -> None:
    equal, thin, as_thick = (mc.mask_edge(coat(t), coats=n) for t, n in ((1, 4), (2, 4), (2, 6)))
    assert thin.height < equal.height
    assert as_thick.step.to("um") == pytest.approx(equal.step.to("um"))
    assert as_thick.ridge.to("um") == pytest.approx(equal.ridge.to("um"), rel=0.2)
    assert as_thick.bleed.best > equal.bleed.best
    assert equal.lift_from is not None
    assert equal.lift_until is not None
    assert equal.lift_from.best < equal.lift_until.best


def test_kept_and_pickled() -> None:
    edge = mc.mask_edge(coat(), coats=3, gap="5 um")
    assert mc.MaskEdge.from_json(edge.to_json()) == edge
    assert pickle.loads(pickle.dumps(edge)) == edge
    assert edge.coats == 3
    assert "bleeds" in str(edge)
    assert edge.bleed.best > mc.mask_edge(coat(), coats=3).bleed.best


@pytest.mark.parametrize(
    "bad",
    [
        {"coats": 0},
        {"coats": 101},
        {"tape": "6 mm"},
        {"gap": "2 mm"},
        {"gap": "0.1 nm"},
        {"tape": "0 um"},
    ],
)
def test_bad_input(bad: dict[str, Any]) -> None:
    with pytest.raises(mc.RangeError):
        mc.mask_edge(coat(), **bad)


def test_a_bare_number_is_refused() -> None:
    with pytest.raises((mc.UnitError, TypeError)):
        mc.mask_edge(coat(), tape=100)  # type: ignore[arg-type]
