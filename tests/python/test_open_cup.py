"""Open cup, tip drying, binders, waterborne films and oxidative cures at the border."""

from __future__ import annotations

import copy
import pickle
import warnings
from typing import Any

import mistcoat as mc
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

BARE: Any = 8


def club_room(temperature: str = "21 degC", **changes: str) -> mc.Room:
    return mc.Room(temperature=temperature, relative_humidity="50 %", **changes)


def lacquer(parts: float = 1) -> mc.Mix:
    paint = mc.Paint.typical("solvent lacquer", name="hull green")
    return paint.thin(
        mc.Blend({"acetone": 40, "n-butyl acetate": 60}, basis="volume"), thinner=parts, paint=1
    )


def enamel(family: str = "alkyd enamel") -> mc.Mix:
    return mc.Paint.typical(family, name="red oxide").thin(
        mc.Blend({"white spirit": 1}), thinner=1, paint=2
    )


def acrylic() -> mc.Mix:
    return mc.Paint.typical("waterborne acrylic", name="cream").thin(
        mc.Blend({"water": 1}), thinner=1, paint=2
    )


def stood(**changes: Any) -> mc.CupCourse:
    stated: dict[str, Any] = {
        "diameter": "30 mm",
        "depth": "8 mm",
        "freeboard": "10 mm",
        "room": club_room(),
    }
    return mc.OpenCup(lacquer(), **{**stated, **changes}).stand()


@pytest.fixture(autouse=True)
def _quiet() -> Any:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", mc.MistcoatWarning)
        yield


def test_a_cup_thickens() -> None:
    course = stood()
    columns = course.columns()
    assert {len(c) for c in columns.values()} == {len(course)}
    assert list(columns)[:4] == ["time_s", "mass_lost_g", "volume_solids", "viscosity_mPa_s"]
    # Ledger: what is lost is what the species lack.
    species = np.sum([c for name, c in columns.items() if name.endswith(" g")], axis=0)
    np.testing.assert_allclose(species[0] - species, course.mass_lost_g, atol=1e-12)
    times = [course.time_to_thicken(rise) for rise in ("10 %", "20 %", "50 %")]
    assert times[0].best < times[1].best < times[2].best
    low, high = times[1].interval("min")
    assert low < times[1].to("min") < high
    assert course.thickened(times[1]).to("%") == pytest.approx(120, rel=1e-3)
    assert times[1].contributors[0][0] == "evaporation model"


def test_drops_bring_it_back() -> None:
    course = stood()
    again = course.top_up("25 min", dropper=mc.Dropper(tip="3 mm"))
    assert again.thinner.best > mc.Volume("0.1 mL")
    assert again.restored["acetone"] < again.poured["acetone"]
    assert sum(again.restored.values()) == pytest.approx(1)
    assert again.evaporation_rate < mc.Ratio("100 %")
    assert "drops of thinner" in str(again)
    assert "η(n + n_thinner)" in str(again.working())
    with pytest.warns(mc.MistcoatWarning, match="fast part"):
        course.top_up("100 min", dropper=mc.Dropper(tip="3 mm"))


def test_lid_depth_and_air() -> None:
    def minutes(**changes: Any) -> float:
        return stood(**changes).time_to_thicken("20 %").to("min")

    here = minutes()
    assert minutes(freeboard="0 mm") < here < minutes(freeboard="20 mm")
    assert minutes(depth="12 mm") > here
    assert minutes(room=club_room(air_speed="0.5 m/s")) < here
    assert minutes(pot="glass", wall="3 mm") == pytest.approx(here, rel=0.1)


@settings(max_examples=15, deadline=None)
@given(depth=st.floats(2, 30), diameter=st.floats(10, 80), parts=st.floats(0.3, 3))
def test_curves_are_monotone(depth: float, diameter: float, parts: float) -> None:
    cup = mc.OpenCup(
        lacquer(parts),
        diameter=f"{diameter} mm",
        depth=f"{depth} mm",
        room=club_room(),
        until="1 h",
    )
    course = cup.stand()
    assert np.all(np.diff(course.mass_lost_g) > -1e-9)
    assert np.all(np.diff(course.volume_solids) > -1e-9)
    assert np.all(np.isfinite(course.viscosity_mPa_s))


def test_cups_travel() -> None:
    course = stood()
    cup = course.cup
    for same in (
        pickle.loads(pickle.dumps(cup)),
        copy.copy(cup),
        mc.OpenCup.from_json(cup.to_json()),
    ):
        assert same == cup
    assert pickle.loads(pickle.dumps(course)) == course
    binder = mc.Binder(tg="60 degC", chi=0.3)
    assert pickle.loads(pickle.dumps(binder)) == binder
    particles = mc.Dispersion(mfft="12 degC", pigment="15 %")
    assert pickle.loads(pickle.dumps(particles)) == particles


@pytest.mark.parametrize(
    ("made", "error", "says"),
    [
        (lambda: stood(diameter="1 mm"), mc.RangeError, ["1 mm", "500 mm"]),
        (lambda: stood(depth=BARE), mc.UnitError, ["8"]),
        (lambda: stood(freeboard="1 m"), mc.RangeError, ["1 m", "300 mm"]),
        (lambda: stood(pot="glas"), mc.UnknownName, ["glass"]),
        (lambda: stood(until="60 d"), mc.RangeError, ["60 d", "7 d"]),
        (lambda: stood(room=club_room("55 degC")), mc.RangeError, ["50 °C"]),
        (lambda: stood().time_to_thicken("nan %"), mc.MistcoatError, []),
        (
            lambda: stood(depth="100 mm").time_to_thicken("50 %"),
            mc.RangeError,
            ["at most", "until"],
        ),
        (lambda: stood().thickened("10 h"), mc.RangeError, ["4 h"]),
        (lambda: mc.Binder(tg="60 degC", chi=3), mc.RangeError, ["3", "-1 to 2"]),
        (lambda: mc.Binder(tg="60 degC", chi_of_water=-1), mc.RangeError, ["-1", "0 to 6"]),
        (
            lambda: mc.Binder(tg="60 degC", steepness=float("nan")),
            mc.RangeError,
            ["NaN", "0.05 to 1"],
        ),
        (lambda: mc.Dispersion(mfft="200 degC"), mc.RangeError, ["200 °C", "100 °C"]),
        (
            lambda: mc.tip_drying(lacquer(), room=club_room(), film="1 mm"),
            mc.RangeError,
            ["1 mm", "200 µm"],
        ),
        (
            lambda: mc.tip_drying(lacquer(), room=club_room(), air_speed="900 m/s"),
            mc.RangeError,
            ["350 m/s"],
        ),
        (
            lambda: mc.tip_drying(lacquer(), room=club_room(), pause="2 h"),
            mc.RangeError,
            ["2 h", "1 h"],
        ),
    ],
)
def test_bad_input_is_named(made: Any, error: type[Exception], says: list[str]) -> None:
    with pytest.raises(error) as caught:
        made()
    for part in says:
        assert part in str(caught.value)


def test_tips_dry_as_the_bench_knows() -> None:
    room = club_room()
    fast = mc.tip_drying(lacquer(), room=room)
    paint = mc.Paint.typical("solvent lacquer", name="hull green")
    slow = paint.thin(
        mc.Blend({"acetone": 30, "n-butyl acetate": 45, "2-butoxyethanol": 25}, basis="volume"),
        thinner=1,
        paint=1,
    )
    retarded = mc.tip_drying(slow, room=room)
    water = mc.tip_drying(acrylic(), room=room)
    assert fast.sets_after.best < retarded.sets_after.best
    assert fast.redissolves
    assert fast.wipe_every is None
    assert not water.redissolves
    assert water.wipe_every is not None
    assert mc.Time("1 min") < water.wipe_every < mc.Time("10 min")
    assert "wipe the tip every" in water.advice
    still = mc.tip_drying(acrylic(), room=room, air_speed="0 m/s", pause="5 s")
    assert still.index.best < 1
    assert still.wipe_every is None
    with pytest.warns(mc.MistcoatWarning, match="burst"):
        mc.tip_drying(lacquer(), room=room)


def test_waterborne_coats_are_touch_dry_and_mind_the_cold() -> None:
    film = mc.Film(acrylic(), wet_thickness="25 um", room=club_room())
    dry = film.dry()
    assert 4 < dry.touch_dry.to("min") < 40
    assert film.film_formation_temperature is not None
    with pytest.raises(mc.RangeError, match="goes on hardening"):
        _ = dry.handle
    with pytest.warns(mc.MistcoatWarning, match="film-formation temperature"):
        mc.Film(acrylic(), wet_thickness="25 um", room=club_room("8 degC")).dry()
    hard = mc.Dispersion(mfft="40 degC")
    with pytest.warns(mc.MistcoatWarning, match="powdery"):
        mc.Film(acrylic(), wet_thickness="25 um", room=club_room(), binder=hard).dry()
    assert pickle.loads(pickle.dumps(film)) == film


@pytest.mark.parametrize("family", ["alkyd enamel", "artists' oil"])
def test_oxygen_is_told_apart(family: str) -> None:
    film = mc.Film(enamel(family), wet_thickness="30 um", room=club_room())
    cure = film.oxidative_cure
    assert cure is not None
    assert cure.touch.best < cure.recoat.best < cure.through.best
    assert "metal can" in cure.caution
    assert "common practice" in str(cure)
    dry = film.dry()
    for mark in ("touch_dry", "handle", "recoat"):
        with pytest.raises(mc.RangeError, match="oxygen"):
            getattr(dry, mark)
    assert mc.Film(lacquer(), wet_thickness="30 um", room=club_room()).oxidative_cure is None


def test_a_binder_in_full() -> None:
    stated: dict[str, Any] = {"wet_thickness": "40 um", "room": club_room(), "solids": "20 %"}
    thinner = mc.Blend({"n-butyl acetate": 1})

    def touch(**binder: Any) -> float:
        return (
            mc.Film(thinner, binder=mc.Binder(tg="50 degC", **binder), **stated)
            .dry()
            .touch_dry.to("s")
        )

    assert touch() == pytest.approx(
        mc.Film(thinner, binder_tg="50 degC", **stated).dry().touch_dry.to("s")
    )
    assert touch(chi=0.0) > touch()
    with pytest.raises(mc.UnitError, match="inside the Binder"):
        mc.Film(thinner, binder_tg="50 degC", binder=mc.Binder(tg="50 degC"), **stated)
    wide = mc.Binder(tg=mc.Binder(tg="50 degC").tg)
    assert wide.tg.best == mc.Temperature("50 degC")
