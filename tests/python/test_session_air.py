"""Vapour over a session, the air at the gun, and prices of a rinse, at the border."""

from __future__ import annotations

import copy
import pickle
import warnings
from collections.abc import Callable
from typing import Any

import mistcoat as mc
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from mistcoat import rinse, safety

pytestmark = pytest.mark.filterwarnings("ignore::mistcoat.MistcoatWarning")

ROOM = mc.Room(
    temperature="25 degC", relative_humidity="50 %", volume="30 m3", air_changes="0.5 /h"
)
THINNER = mc.Blend({"acetone": 50, "n-butyl acetate": 35, "2-butoxyethanol": 15}, basis="mass")
MIX = mc.demo_paint("hull green").thin(THINNER, thinner=1, paint=1)
GUN = mc.Airbrush(nozzle="0.3 mm", pressure="20 psi", distance="80 mm")
SHOT = GUN.spray(MIX, ROOM)
DRY = SHOT.film(2).dry()


def evening(room: mc.Room = ROOM, **options: Any) -> safety.SessionExposure:
    air = safety.SessionAir(room, **options)
    air = air.coat("hull", MIX, sprayed="8 mL", landed="40 %", drying=DRY, spraying="10 min")
    return air.cleaning(
        "gun", THINNER, "6 mL", evaporated="30 %", start="15 min", lasts="5 min"
    ).run()


def test_the_thinner_worked_by_hand() -> None:
    # 8.3 g within 10 min in 30 m3 at 0.5 /h, perfectly mixed: at most 0.35 of the OSHA limits.
    litre = THINNER.density("25 degC").best.to("g/mL")
    found = (
        safety.SessionAir(ROOM, authority="OSHA PEL", mixing="100 %")
        .cleaning("spill", THINNER, f"{8.3 / litre} mL", evaporated="100 %", lasts="10 min")
        .run()
    )
    assert found.peak == pytest.approx(0.35, rel=0.01)
    peaks = {v.solvent: v.peak.to("ppm") for v in found.vapours}
    assert peaks["acetone"] == pytest.approx(55.9, rel=5e-3)
    assert found.shift.sum == pytest.approx(found.shift_sum.best)
    assert found.flammable_share.to("%") == pytest.approx(0.45, rel=0.12)


def test_an_evening() -> None:
    with pytest.warns(mc.MistcoatWarning, match=r"within 0\.5 m"):
        found = evening()
    for source in found.sources:
        assert source.brought.to("g") == pytest.approx(
            source.released.to("g") + source.kept.to("g")
        )
    coat, gun = found.sources
    assert (coat.kind, gun.kind) == ("sprayed coat", "cleaning")
    assert (gun.name, gun.start.to("min"), gun.lasts.to("min")) == ("gun", 15, 5)
    assert 0 < coat.in_flight.to("g") < coat.released.to("g")
    assert found.released.to("g") == pytest.approx(sum(v.released.to("g") for v in found.vapours))
    assert found.near_short_sum.best >= found.short_sum.best
    low, high = found.shift_sum.interval("1")
    assert low < found.shift_sum.to("1") < high
    assert found.time_s.shape == found.shares.shape == found.near_shares.shape
    assert np.all(np.diff(found.time_s) > 0)
    assert np.all(found.near_shares >= found.shares)
    assert found.peak == pytest.approx(found.shares.max())
    assert found.worst_from.to("min") >= 0
    text = " ".join(str(found).split())
    for words in ("Worst 8 h", "close to the work", "fresh air", "licensed practice decide"):
        assert words in text
    assert "<table" in found._repr_html_()
    assert "decide" in found._repr_html_()
    assert "two zones" in found.working().to_text()
    assert next(iter(found.sources_table().columns())) == "name"
    assert found.room == ROOM


def test_leaving_and_authority() -> None:
    stays, leaves = evening(), evening(leaving_at="1 h")
    assert leaves.shift_sum.best < stays.shift_sum.best
    assert evening(authority="OSHA PEL").shift_sum.best <= stays.shift_sum.best
    strict = evening(keep_below="10 %").ventilation
    usual = evening().ventilation
    assert usual.below.to("%") == 50
    assert strict.air_changes is None or (
        usual.air_changes is not None and strict.air_changes.best >= usual.air_changes.best
    )


def test_open_cup_and_repr() -> None:
    course = mc.OpenCup(MIX, diameter="30 mm", depth="8 mm", room=ROOM).stand()
    air = safety.SessionAir(ROOM).open_cup("cup", course, open_for="1 h")
    assert repr(air) == "<SessionAir: cup>"
    assert air.sources[0].kind == "open cup"
    assert 0 < air.run().released.to("g") < air.sources[0].brought.to("g")


def test_near_gun() -> None:
    air = safety.near_gun(SHOT)
    assert air is not None
    near, far = air.places[0], air.places[-1]
    assert near.distance < far.distance
    assert near.evaporated < far.evaporated
    assert near.with_mist.best > far.with_mist.best > far.share_of_limit.best
    assert near.vapour.to("ppm") > 0
    assert air.quarter_to >= air.burns_to
    assert air.around.best.to("%") > 0
    assert air.air_for_quarter.best.to("m3/h") > 0
    assert "mist" in str(air)
    assert "licensed practice decide" in air._repr_html_()
    assert "Chen and W. Rodi" in air.working().to_text()
    two = safety.near_gun(SHOT, ["20 mm", "40 mm"])
    assert two is not None
    assert len(two.places) == 2
    assert str(air.limit)
    assert air.table().columns()


def test_prices() -> None:
    good = rinse.CleanerPrice("house thinner", 9.5, per="1 L", currency="EUR")
    cheap = rinse.CleanerPrice("recovered thinner", 2.0, per="1 L", currency="EUR")
    assert (good.name, good.costs, good.per.to("L"), good.currency) == (
        "house thinner",
        9.5,
        1,
        "EUR",
    )
    plan = rinse.cheapest_rinse("0.15 mL", "0.01 %", least_portion="1 mL", good=good, cheap=cheap)
    assert plan.cheap is not None
    cost = cheap.of(plan.cheap.total) + good.of(plan.good.total)
    assert plan.cost == pytest.approx(cost)
    assert plan.saves == pytest.approx(plan.good_alone - cost)
    assert "EUR" in str(plan)
    assert plan.currency == "EUR"
    bench = rinse.RinseBench(rinse.typical_hold_up("gravity airbrush"), fill="2 mL")
    boat = ["red oxide", "deep green", "cream"]
    order = rinse.cheapest_order(bench, boat, good=good, cheap=cheap)
    assert order.order[0] == "cream"
    assert order.cost.to("1") == pytest.approx(sum(c.rinse.cost for c in order.changes))
    assert order.good_alone >= order.cost.best
    assert order.as_given >= order.cost.best * 0.999
    assert (order.changes[0].before, order.currency) == ("cream", "EUR")
    assert any("scrap" in w for w in order.warnings)
    for caution in order.cautions:
        assert caution[:20] in str(order)
        assert caution[:20] in order._repr_html_()
    assert rinse.cheapest_order(bench, boat, good=good, start="deep green").order[0] == "deep green"
    assert "cost" in order.table().columns()


def test_short_term() -> None:
    niosh = safety.short_term_exposure({"acetone": "300 ppm"}, authority="NIOSH REL")
    assert niosh.sum == pytest.approx(300 / 750)
    assert "3 × NIOSH REL" in str(niosh)
    assert "from memory" in str(niosh)


@settings(max_examples=10, deadline=None)
@given(st.floats(0, 50), st.floats(10, 200))
def test_more_air_is_never_worse(per_hour: float, cubic: float) -> None:
    def room(changes: float) -> mc.Room:
        return mc.Room(
            temperature="21 degC",
            relative_humidity="50 %",
            volume=mc.Volume(cubic, "m3"),
            air_changes=mc.Frequency(changes, "/h"),
        )

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        less, more = evening(room(per_hour)), evening(room(per_hour + 1))
    assert more.shift_sum.best <= less.shift_sum.best * (1 + 1e-9)
    assert more.near_short_sum.best <= less.near_short_sum.best * (1 + 1e-9)


def priced() -> list[Any]:
    good = rinse.CleanerPrice("house thinner", 9.5, per="1 L")
    bench = rinse.RinseBench(rinse.typical_hold_up("gravity airbrush"), fill="2 mL")
    order = rinse.cheapest_order(bench, ["cream", "red oxide"], good=good)
    return [good, order, order.changes[0], order.changes[0].rinse]


def test_records_pickle_and_copy() -> None:
    found, air = evening(), safety.near_gun(SHOT)
    assert air is not None
    things = [found, found.ventilation, found.sources[0], found.vapours[0], air, air.places[0]]
    for thing in [*things, *priced()]:
        assert pickle.loads(pickle.dumps(thing)) == thing == copy.deepcopy(thing)
        assert repr(thing)


BARE = mc.Room(temperature="21 degC", relative_humidity="50 %")
GOOD = rinse.CleanerPrice("house thinner", 9.5, per="1 L", currency="EUR")
DOLLARS = rinse.CleanerPrice("recovered thinner", 2, per="1 L", currency="USD")

BAD: list[tuple[Callable[[], object], type[Exception], str]] = [
    (lambda: safety.SessionAir(BARE), mc.RangeError, "room volume"),
    (lambda: safety.SessionAir(ROOM).run(), mc.RangeError, "none"),
    (lambda: safety.SessionAir(ROOM, authority="OHSA PEL"), mc.UnknownName, "OSHA PEL"),
    (lambda: safety.SessionAir(ROOM, keep_below="200 %"), mc.RangeError, "1 % to 100 %"),
    (lambda: safety.SessionAir(ROOM, keep_below=0.5), mc.UnitError, "0.5"),  # type: ignore[arg-type]
    (lambda: safety.SessionAir(ROOM, mixing="200 %"), mc.RangeError, "mixing"),
    (lambda: safety.SessionAir(ROOM, leaving_at="0 s"), mc.RangeError, "leaving"),
    (
        lambda: safety.SessionAir(ROOM).coat(
            "hull", MIX, sprayed="-1 mL", landed="40 %", drying=DRY, spraying="1 min"
        ),
        mc.RangeError,
        "sprayed",
    ),
    (
        lambda: safety.SessionAir(ROOM).coat(
            "hull",
            mc.Paint.typical("alkyd enamel").thin(mc.Blend("white spirit"), thinner=1, paint=1),
            sprayed="1 mL",
            landed="40 %",
            drying=DRY,
            spraying="1 min",
        ),
        mc.RangeError,
        "very mix",
    ),
    (
        lambda: safety.SessionAir(ROOM).cleaning(
            "gun", "aceton", "1 mL", evaporated="50 %", lasts="1 min"
        ),
        mc.UnknownName,
        "acetone",
    ),
    (
        lambda: safety.SessionAir(ROOM).cleaning(
            "gun", "acetone", "1 mL", evaporated="-1 %", lasts="1 min"
        ),
        mc.RangeError,
        "evaporates",
    ),
    (lambda: safety.near_gun(SHOT, ["1 mm"]), mc.RangeError, "5 mm"),
    (lambda: safety.near_gun(SHOT, [80]), mc.UnitError, "80"),  # type: ignore[list-item]
    (lambda: rinse.CleanerPrice("x", -1, per="1 L"), mc.RangeError, "bottle"),
    (lambda: rinse.CleanerPrice("x", float("nan"), per="1 L"), mc.RangeError, "bottle"),
    (lambda: rinse.CleanerPrice("x", 1, per="0 L"), mc.RangeError, "above 0"),
    (
        lambda: rinse.cheapest_rinse(
            "0.1 mL", "1 %", least_portion="1 mL", good=GOOD, cheap=DOLLARS
        ),
        mc.RangeError,
        "nothing is converted",
    ),
    (
        lambda: rinse.cheapest_rinse(
            "0.1 mL", "1 %", least_portion="1 mL", good=GOOD, cheap=GOOD, cheap_left=2
        ),
        mc.RangeError,
        "may stay",
    ),
]


@pytest.mark.parametrize(("call", "kind", "says"), BAD)
def test_bad_input(call: Callable[[], object], kind: type[Exception], says: str) -> None:
    with pytest.raises(kind, match=says):
        call()
