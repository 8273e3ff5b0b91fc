"""A whole session at the border: plan, tables, chart, files, refusals."""

from __future__ import annotations

import copy
import json
import pickle
from collections.abc import Callable
from typing import Any

import mistcoat as mc
import pytest

THINNER = mc.Blend({"acetone": 40, "n-butyl acetate": 60}, basis="volume", name="house thinner")
ROOM = mc.Room(temperature="21 degC", relative_humidity="50 %")


def setup(name: str, *, family: str = "solvent lacquer", room: mc.Room = ROOM) -> mc.Setup:
    gun = mc.Airbrush(nozzle="0.3 mm", pressure="20 psi", distance="80 mm")
    paint = mc.Paint.typical(family, name=name)
    thinner: Any = THINNER if family == "solvent lacquer" else "white spirit"
    return mc.Setup(paint, thinner, airbrush=gun, room=room, substrate="wood", wet_passes=4)


def layers(**of_the_hull: Any) -> list[mc.PlanLayer]:
    hull: dict[str, Any] = {"area": "40 cm2", "mask": True, "shade": "deep green", **of_the_hull}
    return [
        mc.PlanLayer(setup("grey primer"), "primer", area="60 cm2", place="primer", shade="grey"),
        mc.PlanLayer(setup("deep green"), "over a mask", **hull),
    ]


def session(**changes: Any) -> mc.Plan:
    return mc.plan(layers(), **{"cleaner": "acetone", "title": "Saltmarsh Lane", **changes})


def test_layers_waits_and_steps() -> None:
    plan = session()
    primer, green = plan.layers
    assert [primer.name, green.name] == ["grey primer", "deep green"]
    assert green.coats == -(-green.passes // green.wet_passes)
    assert green.flash_off.estimate is not None
    assert green.flash_off.lasts >= green.flash_off.estimate.high
    assert primer.until_next.lasts >= mc.Time("15 min")
    assert green.mask == mc.Time("15 min")
    assert green.mix > green.sprayed.best
    assert green.drops is not None
    assert green.judged == layers()[1].setup.judge("over a mask")
    kinds = {step.what for step in plan.steps}
    assert kinds >= {"mix", "mask", "spray", "flash-off", "wait", "dry", "rinse", "clean up"}
    tape = next(step for step in plan.steps if step.what == "mask")
    laid = max(s.end.to("s") for s in plan.steps if s.what == "spray" and s.layer == primer.name)
    assert tape.start.to("s") >= laid + primer.until_mask.lasts.to("s") - 1e-6
    assert plan.total.best <= plan.planned
    assert plan.bench_time <= plan.planned
    assert len(plan.visits) == 1
    assert plan.visits[0][1] == plan.bench_time
    assert plan.time_away + plan.bench_time == plan.planned
    assert plan.washes[0].change is not None
    assert plan.washes[0].change.after == "deep green"
    assert plan.coats[0][1] == "fine"


def test_people_materials_and_prices() -> None:
    one = session()
    six = session(people=6, guns=2, prices={"Deep Green": (3.20, "20 mL")}, currency="shillings")
    assert [m.kind for m in one.materials] == ["paint", "paint", "thinner", "cleaner"]
    for alone, all_six in zip(one.materials, six.materials, strict=True):
        times = 2 if alone.kind == "cleaner" else 6
        assert all_six.total.to("mL") == pytest.approx(times * alone.total.to("mL"))
    green = next(m for m in six.materials if m.name == "deep green")
    assert six.cost == pytest.approx(3.20 * green.total.to("mL") / 20)
    assert one.cost is None
    assert "shillings" in str(six.material_table())
    assert six.people == 6
    assert {s.gun for s in six.steps if s.gun} == {1, 2}
    frame = pytest.importorskip("pandas")
    assert isinstance(six.timeline().to_pandas(), frame.DataFrame)


def test_visits_and_what_spreads_the_whole() -> None:
    plan = session()
    dry = plan.layers[1].touch_dry.estimate
    assert dry is not None
    low, high = plan.total.interval("s")
    own_low, own_high = dry.interval("s")
    assert low < plan.total.to("s") < high
    assert high - low >= own_high - own_low
    causes = [cause for cause, _ in plan.total.contributors]
    assert {"drying of deep green", "pace of the handwork"} <= set(causes)
    enamel = [
        mc.PlanLayer(setup(name, family="alkyd enamel"), job, area="30 cm2")
        for name, job in (("red oxide", "primer"), ("deep green", "base coat"))
    ]
    nights = mc.plan(enamel, cleaner="white spirit")
    assert len(nights.visits) == 2
    assert nights.time_away > mc.Time("20 h")
    assert nights.bench_time < mc.Time("6 h")
    assert "in 2 visits" in " ".join(str(nights.timeline()).split())
    title = nights.chart().axes[0].get_title()
    assert "in 2 visits" in title
    assert "in 2 visits" in nights.card("A4").html()
    assert "At the bench from 0:00 to" in nights.card("A4").html()
    assert "in 2 visits" in nights.card("A6").html()


def test_open_cups_are_in_the_air() -> None:
    hall = mc.Room(
        temperature="21 degC", relative_humidity="50 %", volume="60 m3", air_changes="6 /h"
    )
    stack = [
        mc.PlanLayer(setup("grey primer", room=hall), "primer", area="60 cm2", place="primer"),
        mc.PlanLayer(setup("deep green", room=hall), "base coat", area="40 cm2"),
    ]
    sums = []
    for cups_open in ("0 min", "10 min", "1 h"):
        air = mc.plan(stack, cleaner="acetone", cups_open=cups_open).exposure
        assert air is not None
        kinds = [source.kind for source in air.sources]
        assert kinds.count("open cup") == (0 if cups_open == "0 min" else 4)
        sums.append(air.shift_sum.to("1"))
    assert sums[0] < sums[1] < sums[2]


def test_what_prints_carries_its_cautions() -> None:
    plan = session()
    assert plan.cautions[-1].topic == "Who decides"
    for text in (str(plan), plan._repr_html_(), str(plan.timeline()), str(plan.material_table())):
        assert "safety data sheets" in " ".join(text.split())
    assert plan.warnings


def test_no_plan_without_its_cautions() -> None:
    plan = session()
    text = plan.to_json()
    assert mc.Plan.from_json(text) == plan
    with pytest.raises(TypeError):
        mc.Plan()
    spoils: list[Callable[[Any], Any]] = [
        lambda d: d.pop("cautions"),
        lambda d: d["cautions"].clear(),
        lambda d: d["cautions"].pop(),
        lambda d: d["cautions"][0].update(text="Nothing to worry about."),
        lambda d: d["session"]["layers"][1].update(name="2K clear"),
    ]
    for spoil in spoils:
        changed = json.loads(text)
        spoil(changed)
        with pytest.raises(mc.MistcoatError):
            mc.Plan.from_json(json.dumps(changed))


def test_records_pickle_and_copy() -> None:
    plan = session()
    things = [plan, layers()[1], plan.layers[0], plan.layers[0].flash_off]
    for thing in [*things, plan.washes[0], plan.steps[3], plan.materials[0]]:
        assert pickle.loads(pickle.dumps(thing)) == thing == copy.deepcopy(thing)
        assert repr(thing)


def test_the_chart_names_every_layer() -> None:
    pytest.importorskip("matplotlib")
    for plan in (session(), session(people=3, guns=1), session(people=6, guns=2)):
        figure = plan.chart()
        labels = [t.get_text() for t in figure.axes[0].get_yticklabels()]
        gun = "gun 1" if plan.guns > 1 else "the gun"
        assert labels[:3] == ["grey primer", "deep green", gun]
        assert len(labels) == 2 + plan.people // plan.guns
    enamel = [
        mc.PlanLayer(setup("red oxide", family="alkyd enamel"), "primer", area="30 cm2"),
        mc.PlanLayer(setup("deep green", family="alkyd enamel"), "base coat", area="30 cm2"),
    ]
    night = mc.plan(enamel, cleaner="white spirit")
    words = " ".join(t.get_text() for t in night.chart().axes[0].texts)
    assert "more" in words
    assert any("another day" in w for w in night.warnings)


@pytest.mark.parametrize(
    ("call", "error", "says"),
    [
        (lambda: mc.plan([], cleaner="acetone"), mc.RangeError, "1 to 8"),
        (lambda: session(people=0), mc.RangeError, "1 to 60"),
        (lambda: session(people=2, guns=3), mc.RangeError, "one for each person"),
        (lambda: session(cups_open="25 h"), mc.RangeError, "lids on"),
        (lambda: session(cups_open=3), mc.UnitError, "3"),
        (lambda: session(margin="600 %"), mc.RangeError, "500 %"),
        (lambda: session(margin=0.2), mc.UnitError, "0.2"),
        (lambda: session(cleaner="aceton"), mc.UnknownName, "acetone"),
        (lambda: session(prices={"deep grean": (1.0, "1 L")}), mc.UnknownName, "deep green"),
        (lambda: session(title="2K evening"), mc.RangeError, "not for home spraying"),
        (lambda: layers(mask=3), mc.UnitError, "3"),
        (lambda: layers(area=40), mc.UnitError, "40"),
        (lambda: layers(place="top"), mc.UnknownName, "primer"),
        (lambda: layers(shade="deep grean"), mc.UnknownName, "deep green"),
        (
            lambda: mc.plan(layers(name="polyisocyanate clear"), cleaner="acetone"),
            mc.RangeError,
            "not for home spraying",
        ),
        (
            lambda: mc.plan(
                [
                    mc.PlanLayer(
                        setup("oil primer", family="alkyd enamel"),
                        "primer",
                        area="9 cm2",
                        place="primer",
                    ),
                    *layers()[1:],
                ],
                cleaner="acetone",
            ),
            mc.RangeError,
            "no order of these coats",
        ),
    ],
)
def test_bad_input(call: Any, error: type[Exception], says: str) -> None:
    with pytest.raises(error, match=says):
        call()
