"""Identification, compatibility and stacks at the border."""

from __future__ import annotations

import copy
import pickle
from typing import Any

import mistcoat as mc
import pytest
from mistcoat import layers


def boat() -> list[layers.Layer]:
    return [
        layers.Layer("red oxide", "solvent lacquer", place="primer"),
        layers.Layer("hull green", "waterborne acrylic", wait="24 h"),
        layers.Layer("oil wash", "oil"),
        layers.Layer("clear", "waterborne acrylic"),
    ]


def test_a_label_misleads_and_a_test_turns_it() -> None:
    label = layers.identify(label="Acrylic, water-based")
    told = layers.identify(
        label="Acrylic, water-based",
        tests={"drop in water": "clouds, then strings or crumbs", "smell": "alcohol"},
    )
    assert not label.is_settled
    assert told.best == "alcohol acrylic"
    assert sum(told.likelihoods.values()) == pytest.approx(1.0)
    assert next(iter(told.likelihoods)) == told.best
    names = [test.name for test in told.tests_left]
    assert "smell" not in names
    assert told.next_test is not None
    assert told.next_test.name == names[0]
    assert told.next_test.expected_bits > 0
    assert "common practice" in told.source


def test_isocyanates_are_refused() -> None:
    found = layers.identify(label="2K clear with hardener")
    assert found.best == "isocyanate two-pack"
    assert any("do not spray it at home" in c for c in found.cautions)
    with pytest.raises(mc.RangeError, match="licensed practice"):
        mc.Paint.typical(found.best)


def test_every_test_can_be_answered() -> None:
    for test in layers.identification_tests():
        for answer in test.answers:
            assert layers.identify(tests={test.name: answer}).best
        assert test.how
        assert 1 <= test.effort <= 4


@pytest.mark.parametrize(
    ("over", "under", "verdict"),
    [("lacquer", "enamel", "no"), ("artists' oil", "waterborne acrylic", "fine")],
)
def test_coats(over: str, under: str, verdict: str) -> None:
    judged = layers.coat_over_coat(over, under)
    assert judged.verdict == verdict
    assert judged.trial
    assert judged.cautions
    assert all("common practice" in s for s in judged.sources)


def test_a_stack_is_put_in_order() -> None:
    check = layers.check_stack(boat())
    assert check.verdict == "no"
    assert check.better_order == ["red oxide", "hull green", "clear", "oil wash"]
    assert "fat over lean" in repr(check)
    assert len(check.pairs) == 3
    assert boat()[1].wait == mc.Time("24 h")


def test_liquids() -> None:
    lacquer = mc.Paint.typical("solvent lacquer", name="hull green")
    good = layers.thinner_with_paint(lacquer, "n-butyl acetate")
    assert good.verdict == "fine"
    bad = layers.thinner_with_paint(lacquer, mc.Blend({"water": 1}, basis="volume"))
    assert bad.verdict == "no"
    assert layers.cleaner_with_paint(lacquer, "acetone", dried=True).verdict == "fine"
    assert layers.thinner_on_substrate("isopropanol", "polystyrene").verdict == "test first"


@pytest.mark.parametrize(
    "thing",
    [
        layers.identify(label="enamel"),
        layers.identification_tests()[0],
        layers.coat_over_coat("lacquer", "enamel"),
        boat()[1],
        layers.check_stack(boat()),
    ],
)
def test_records_pickle_and_copy(thing: Any) -> None:
    assert pickle.loads(pickle.dumps(thing)) == thing == copy.deepcopy(thing)
    if hasattr(thing, "to_json"):
        assert type(thing).from_json(thing.to_json()) == thing
        assert "<table" in thing._repr_html_()


@pytest.mark.parametrize(
    ("call", "error", "says"),
    [
        (lambda: layers.identify(), mc.RangeError, "drop in water"),
        (lambda: layers.identify(tests={"smel": "alcohol"}), mc.UnknownName, "smell"),
        (lambda: layers.coat_over_coat("lacquer", "varnsh"), mc.UnknownName, "famil"),
        (lambda: layers.thinner_on_substrate("acetone", "styrne"), mc.UnknownName, "styrene"),
        (lambda: layers.Layer("a", "oil", place="top"), mc.UnknownName, "finish"),
        (lambda: layers.Layer("a", "oil", wait=3), mc.UnitError, "3"),  # type: ignore[arg-type]
        (lambda: layers.check_stack(boat()[:1]), mc.RangeError, "2 to 8"),
    ],
)
def test_bad_input(call: Any, error: type[Exception], says: str) -> None:
    with pytest.raises(error, match=says):
        call()
