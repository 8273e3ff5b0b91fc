"""Rinsing in Python: the border, the boat, cautions everywhere."""

from __future__ import annotations

import itertools
import pickle
from collections.abc import Callable

import mistcoat as mc
import pytest
from hypothesis import given
from hypothesis import strategies as st
from mistcoat import rinse

BENCH = rinse.RinseBench(rinse.typical_hold_up("gravity airbrush"), fill="2 mL")
BOAT = ["red oxide", "deep green", "cream"]


def test_worked_values() -> None:
    # Product of h/(h + v) by hand (tests/data/rinse_checks.csv).
    assert rinse.fraction_left("0.15 mL", ["3 mL"] * 2).to("1") == pytest.approx(2.27e-3, rel=5e-3)
    uneven = rinse.fraction_left("0.15 mL", ["1 mL", "5 mL"])
    assert uneven.to("1") == pytest.approx(3.8e-3, rel=5e-3)
    split = rinse.equal_portions("0.15 mL", "0.1 %", 3)
    assert split.total.to("mL") == pytest.approx(3 * split.each.to("mL")) == pytest.approx(4.05)
    assert rinse.least_cleaner("0.15 mL", 1e-3).to("mL") == pytest.approx(1.036, abs=1e-3)


def test_the_boat() -> None:
    plan = BENCH.colour_order(BOAT)
    assert plan.order == ["cream", "red oxide", "deep green"]
    assert plan.cleaner.to("mL") < plan.as_given.to("mL")
    low, high = plan.cleaner.interval("mL")
    assert low <= plan.cleaner.to("mL") < high
    assert BENCH.colour_order(BOAT, start="deep green").order[0] == "deep green"
    assert any("hue" in text for text in plan.warnings)
    text = str(plan)
    for caution in rinse.cleaning_cautions():
        assert caution in plan.cautions
        assert caution.split(":")[0][:20] in text
    assert "safety data sheets" in plan._repr_html_()
    columns = plan.table().columns()
    assert list(columns)[:3] == ["from", "to", "tolerated_ppm"]
    assert pickle.loads(pickle.dumps(plan)) == plan
    assert "f = c F/h" in plan.changes[0].cleaner.working().to_text()


def test_own_shades_and_tolerances() -> None:
    white, black = rinse.Shade("white", 0.9), rinse.Shade("black", "4 %")
    share = white.tolerates(black).to("1")
    assert share == pytest.approx(3.4e-4, rel=0.03)
    assert white.tolerates(black, tolerance="acceptable").to("1") == pytest.approx(9.1e-4, rel=0.03)
    assert black.lightness_with(white, 0.1) - black.lightness == pytest.approx(1.30, abs=0.02)
    assert eval(repr(black), {"Shade": rinse.Shade}) == black
    own = rinse.Shade.typical("cream", name="deckhouse")
    assert own.name == "deckhouse"
    card = mc.hiding.HidingPower("hull", scattering="0.03 1/um", reflectivity=0.06)
    assert rinse.Shade.of(card).strength == pytest.approx(0.3)
    with pytest.warns(mc.MistcoatWarning, match="white card"):
        change = BENCH.change("red oxide", "deep green")
    assert change.tolerated.to("%") == pytest.approx(1)
    assert (change.before, change.after) == ("red oxide", "deep green")


@given(st.lists(st.lists(st.floats(0, 100), min_size=5, max_size=5), min_size=5, max_size=5))
def test_order_against_all_permutations(cost: list[list[float]]) -> None:
    order, total = rinse.best_order(cost)
    best = min(
        sum(cost[a][b] for a, b in itertools.pairwise(p)) for p in itertools.permutations(range(5))
    )
    assert total == pytest.approx(best)
    assert sum(cost[a][b] for a, b in itertools.pairwise(order)) == pytest.approx(total)


def test_hold_up() -> None:
    assert "gravity airbrush" in rinse.guns()
    h = rinse.weighed_hold_up(dry="112.40 g", wet="112.53 g", liquid="0.87 g/mL", std="0.01 g")
    wide = BENCH.change("deep green", "cream").cleaner.interval("mL")
    narrow = rinse.RinseBench(h, fill="2 mL", least_portion="0.1 mL")
    low, high = narrow.change("deep green", "cream").cleaner.interval("mL")
    assert low < high
    assert wide[0] <= wide[1]
    assert pickle.loads(pickle.dumps(narrow)) == narrow


BAD: list[tuple[Callable[[], object], type[Exception], str]] = [
    (lambda: rinse.fraction_left("0 mL", ["1 mL"]), mc.RangeError, "hold-up"),
    (lambda: rinse.fraction_left(0.15, ["1 mL"]), mc.UnitError, "mL"),  # type: ignore[arg-type]
    (lambda: rinse.equal_portions("1 mL", 0, 3), mc.RangeError, "fraction"),
    (lambda: rinse.equal_portions("1 mL", float("nan"), 3), mc.RangeError, "fraction"),
    (lambda: rinse.typical_hold_up("gravty airbrush"), mc.UnknownName, "gravity"),
    (lambda: rinse.RinseBench("1 mL", fill="0.5 mL"), mc.RangeError, "hold-up"),
    (lambda: rinse.RinseBench("1 mL", fill="5 mL", tolerance="percetible"), mc.UnknownName, "perc"),
    (lambda: BENCH.colour_order([]), mc.RangeError, "1 to 16"),
    (lambda: BENCH.colour_order(["cream", "Cream"]), mc.RangeError, "stands once"),
    (lambda: BENCH.colour_order(["creme"]), mc.UnknownName, "cream"),
    (lambda: BENCH.colour_order(BOAT, start="white"), mc.UnknownName, "session"),
    (lambda: rinse.best_order([[1.0] * 17] * 17), mc.RangeError, "1 to 16"),
    (lambda: rinse.best_order([[0, -1], [1, 0]]), mc.RangeError, "0 or above"),
    (lambda: rinse.Shade("x", 0), mc.RangeError, "reflectivity"),
]


@pytest.mark.parametrize(("call", "kind", "says"), BAD)
def test_bad_input(call: Callable[[], object], kind: type[Exception], says: str) -> None:
    with pytest.raises(kind, match=says):
        call()
