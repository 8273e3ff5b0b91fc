"""Changing air and coats on coats at the border: construction, answers, warnings, bad input."""

from __future__ import annotations

import copy
import pickle
from typing import Any

import mistcoat as mc
import pytest

BARE: Any = 30


def room() -> mc.Room:
    return mc.Room(temperature="21 degC", relative_humidity="50 %")


def fan() -> mc.Room:
    return room().with_draught("fan")


def thinner() -> mc.Blend:
    return mc.Blend({"acetone": 50, "n-butyl acetate": 35, "2-butoxyethanol": 15}, basis="mass")


def coat(**changes: Any) -> mc.Film:
    settings: dict[str, Any] = {
        "wet_thickness": "25 um",
        "solids": "15 %",
        "binder_tg": "50 degC",
        "room": room(),
    }
    return mc.Film(thinner(), **{**settings, **changes})


def blown() -> mc.Programme:
    return mc.Programme(room().with_air_speed("8 m/s")).after("20 s", fan())


def test_warmed_air_holds_its_water() -> None:
    warm = room().warmed_to("45 degC")
    # PsychroLib: the humidity ratio of 21 degC, 50 % is 12.97 % of saturation at 45 degC.
    assert warm.relative_humidity.to("%") == pytest.approx(12.97, abs=0.02)
    assert warm.humidity_ratio.to("1") == pytest.approx(room().humidity_ratio.to("1"), rel=1e-9)
    assert fan().air_speed == mc.Velocity("0.5 m/s")
    assert room().with_draught("still air").air_speed == mc.Velocity("0 m/s")


def test_a_programme_of_one_air_is_the_plain_film() -> None:
    plain = coat()
    assert coat(room=None, programme=mc.Programme(room())) == plain
    assert plain.programme == mc.Programme(room())
    assert len(plain.programme) == 1


def test_more_air_and_more_warmth_are_faster() -> None:
    programme = blown().after("5 min", fan().warmed_to("38 degC"))
    assert [r.air_speed.to("m/s") for r in programme.rooms] == [8.0, 0.5, 0.5]
    assert [t.to("s") for t in programme.begins] == [0.0, 20.0, 320.0]
    assert len(programme) == 3
    assert "38 °C" in str(programme)
    handle = [
        coat(room=None, programme=p).dry().handle.to("s")
        for p in (mc.Programme(room()), blown(), programme)
    ]
    assert handle[1] < handle[0]
    # Block-free before the warmth sets in: the third air changes nothing.
    assert handle[2] <= handle[1]
    left = [
        coat(room=None, programme=p).dry().residual_solvent("1 h").to("%")
        for p in (mc.Programme(room()), blown(), programme)
    ]
    assert left[2] < left[1] < left[0]


def test_a_cabinet_is_told_with_its_dangers() -> None:
    cabinet = mc.Programme(room()).after("1 min", fan().warmed_to("55 degC"))
    with pytest.warns(mc.MistcoatWarning) as told:
        dry = coat(room=None, programme=cabinet).dry()
    texts = [str(w.message) for w in told]
    assert len(texts) == len(dry.warnings) == 2
    assert "softens" in texts[0]
    assert "50 °C" in texts[0]
    for part in ("explode", "sparking oven", "of its solvent", "safety data sheet"):
        assert part in texts[1]


def stacked(coats: int = 3, wait: str = "3 min") -> mc.StackDrying:
    return mc.Stack(coat(wet_thickness="12 um"), coats=coats, wait=wait).dry()


def test_thin_coats_beside_a_thick_one() -> None:
    hull = stacked()
    assert hull.spraying_time == mc.Time("6 min")
    assert hull.dry_thickness.to("um") == pytest.approx(5.4)
    assert hull.one_coat.film.wet_thickness.to("um") == pytest.approx(36.0)
    assert len(hull.kept) == 2
    assert all(0 < kept.to("%") < 100 for kept in hull.kept)
    assert hull.after_last.touch_dry.best < hull.one_coat.touch_dry.best < hull.touch_dry.best
    assert hull.touch_dry.to("s") == pytest.approx(360 + hull.after_last.touch_dry.to("s"))
    assert hull.handle.best > hull.touch_dry.best > hull.flash_off.best
    day = hull.residual_solvent("24 h").to("%")
    assert day == pytest.approx(hull.one_coat.residual_solvent("24 h").to("%"), rel=0.05)
    for part in ("3 coats", "1 coat", "touch dry", "solvent left after 24 h", "coat 2 landed on"):
        assert part in str(hull)
        assert part in hull._repr_html_()
    assert "touch dry" in str(hull.table())
    assert hull.warnings == []
    none = stacked(wait="0 s")
    assert none.handle.to("s") == pytest.approx(none.one_coat.handle.to("s"), rel=1e-6)


def test_coats_of_other_thinning() -> None:
    slow = mc.Blend({"n-butyl acetate": 60, "2-butoxyethanol": 40}, basis="mass")
    wet = mc.Film(slow, wet_thickness="15 um", solids="10 %", binder_tg="50 degC", room=fan())
    two = mc.Stack(coat()).then("2 min", wet)
    assert two.coats == len(two) == 2
    assert two.film == wet.over(coat(), "2 min")
    assert two.film.dry_build.to("um") == pytest.approx(25 * 0.15 + 15 * 0.10)
    dry = two.dry()
    assert dry.after_last.film.room == fan()
    assert dry.stack == two
    assert dry.flash_off.to("s") > 120


@pytest.mark.parametrize("make", [blown, lambda: mc.Stack(coat(), coats=2, wait="1 min"), stacked])
def test_records_pickle_copy_and_evaluate(make: Any) -> None:
    thing = make()
    assert pickle.loads(pickle.dumps(thing)) == thing == copy.deepcopy(thing)
    assert type(thing).from_json(thing.to_json()) == thing
    if not isinstance(thing, mc.StackDrying):
        assert eval(repr(thing), vars(mc)) == thing


@pytest.mark.parametrize(
    ("make", "error", "says"),
    [
        (lambda: room().warmed_to("5 degC"), mc.RangeError, ["5 °C", "dew point", "dry it"]),
        (lambda: room().warmed_to("80 degC"), mc.RangeError, ["80 °C", "0 °C to 60 °C"]),
        (lambda: room().warmed_to(BARE), mc.UnitError, ["30", "temperature"]),
        (lambda: room().with_draught("fann"), mc.UnknownName, ["fann", "fan", "air speed"]),
        (lambda: room().with_air_speed("40 m/s"), mc.RangeError, ["40 m/s", "30 m/s"]),
        (lambda: blown().after("0 s", fan()), mc.RangeError, ["0", "365 d", "change before"]),
        (lambda: blown().after(BARE, fan()), mc.UnitError, ["30", "time"]),
        (lambda: coat(programme=blown()), mc.UnitError, ["air once", "programme"]),
        (lambda: coat(room=None), mc.UnitError, ["air once", "room"]),
        (lambda: mc.Stack(coat(), coats=2), mc.UnitError, ["wait", "3 min"]),
        (lambda: mc.Stack(coat(), coats=0), mc.RangeError, ["0", "1 or more"]),
        (lambda: mc.Stack(coat(), coats=2, wait="-1 s"), mc.RangeError, ["-1 s", "365 d"]),
        (lambda: mc.Stack(coat(), coats=60, wait="1 s"), mc.RangeError, ["at most 50"]),
        (
            lambda: mc.Stack(coat()).then("1 min", coat(substrate="wood")),
            mc.RangeError,
            ["substrate", "wood", "another paint"],
        ),
        (
            lambda: mc.Stack(coat()).then("1 min", coat(binder_tg="80 degC")),
            mc.RangeError,
            ["binder", "80 °C", "another paint"],
        ),
        (lambda: stacked().residual_solvent("1 min"), mc.RangeError, ["60 s", "first coat"]),
        (
            lambda: mc.Programme.from_json(blown().to_json().replace("after", "until")),
            mc.DataError,
            ["until"],
        ),
    ],
)
def test_bad_input(make: Any, error: type[Exception], says: list[str]) -> None:
    with pytest.raises(error) as caught:
        make()
    for part in says:
        assert part in str(caught.value)
