"""Room, film and drying at the border: construction, curves, times, warnings, bad input."""

from __future__ import annotations

import copy
import pickle
import warnings
from typing import Any

import mistcoat as mc
import numpy as np
import pytest

BARE: Any = 21


def club_room(**changes: str) -> mc.Room:
    settings: dict[str, Any] = {
        "temperature": "25 degC",
        "relative_humidity": "50 %",
        "air_speed": "0.2 m/s",
    }
    return mc.Room(**{**settings, **changes})


def thinner() -> mc.Blend:
    return mc.Blend({"acetone": 50, "n-butyl acetate": 35, "2-butoxyethanol": 15}, basis="mass")


def dried(**changes: Any) -> mc.Drying:
    settings: dict[str, Any] = {"wet_thickness": "25 um", "room": club_room(), "solids": "15 %"}
    return mc.Film(thinner(), **{**settings, **changes}).dry()


def test_room_answers() -> None:
    room = club_room(volume="30 m3", air_changes="1 /h")
    # ASHRAE equations by PsychroLib 2.5: 13.852 and 17.89 degC.
    assert room.dew_point.to("degC") == pytest.approx(13.852, abs=0.03)
    assert room.wet_bulb.to("degC") == pytest.approx(17.89, abs=0.02)
    assert room.volume == mc.Volume("30 m3")
    assert room.air_changes == mc.Frequency("1 /h")
    assert mc.Room(temperature="21 degC", relative_humidity="55 %").air_speed == mc.Velocity(
        "0.15 m/s"
    )


@pytest.mark.parametrize(
    "make", [club_room, lambda: mc.Film(thinner(), wet_thickness="25 um", room=club_room()), dried]
)
def test_records_pickle_copy_and_evaluate(make: Any) -> None:
    thing = make()
    assert pickle.loads(pickle.dumps(thing)) == thing == copy.deepcopy(thing)
    assert type(thing).from_json(thing.to_json()) == thing
    if not isinstance(thing, mc.Drying):
        assert eval(repr(thing), vars(mc)) == thing


def test_curves_are_plain_columns() -> None:
    dry = dried()
    curves = [
        dry.time_s,
        dry.solvent_left,
        dry.temperature_degC,
        dry.thickness_um,
        *dry.composition.values(),
    ]
    for curve in curves:
        assert curve.dtype == np.float64
        assert curve.shape == (len(dry),)
        assert np.isfinite(curve).all()
    assert (np.diff(dry.time_s) > 0).all()
    assert dry.solvent_left[0] == pytest.approx(1.0)
    assert dry.thickness_um[0] == pytest.approx(25.0)
    assert 0.15 * 25.0 <= dry.thickness_um[-1] < 1.1 * 0.15 * 25.0
    assert dry.temperature_degC[0] == pytest.approx(25.0)
    assert dry.temperature_degC.min() == pytest.approx(dry.coldest.to("degC"))
    assert (
        list(dry.composition)
        == dry.species
        == ["acetone", "n-butyl acetate", "2-butoxyethanol", "water"]
    )
    np.testing.assert_allclose(sum(dry.composition.values()), 1.0, rtol=1e-12)
    arrived = sum(dry.amounts[name] for name in dry.species if name != "water")
    np.testing.assert_allclose(arrived, dry.solvent_left, rtol=1e-12, atol=1e-15)
    assert {len(column) for column in dry.columns().values()} == {len(dry)}
    assert next(iter(dry.columns())) == "time_s"


def test_flash_off_is_the_time_to_lose_ninety_percent() -> None:
    dry = dried()
    # An independent integration of the same film gives 146.893 s (tests/data/film_reference.csv).
    assert dry.flash_off.to("s") == pytest.approx(146.893, rel=5e-3)
    assert dry.flash_off == dry.time_to_lose("90 %")
    low, high = dry.flash_off.interval("s")
    assert low < 146.9 < high
    assert dry.flash_off.contributors[0][0] == "evaporation model"
    assert "2-butoxyethanol" in dry.flash_off.working().to_text()
    times = [dry.time_to_lose(share).to("s") for share in ("50 %", "75 %", "95 %", "99 %")]
    assert times == sorted(times)
    assert dry.composition_at(dry.time_to_lose("90 %"))["2-butoxyethanol"] > 0.85
    assert "90 %" in dry._repr_html_()
    assert "90 %" in str(dry)


def test_marks_of_a_lacquer() -> None:
    dry = dried(binder_tg="50 degC")
    # An independent integration (tests/data/film_reference.csv) gives 211.823 s, 328.584 s,
    # 3.51 % and 0.67 %.
    assert dry.touch_dry.to("s") == pytest.approx(211.823, rel=1e-2)
    assert dry.handle.to("s") == pytest.approx(328.584, rel=1e-2)
    assert dry.recoat == dry.handle
    assert dry.residual_solvent("1 h").to("%") == pytest.approx(3.512, abs=0.1)
    assert dry.residual_solvent("24 h").to("%") == pytest.approx(0.670, abs=0.07)
    low, high = dry.handle.interval("s")
    assert low < 328 < high
    assert mc.Film.from_json(dry.film.to_json()) == dry.film
    thin = mc.Paint.typical("solvent lacquer", name="hull green").thin(
        thinner(), thinner=1, paint=1
    )
    lacquer = mc.Film(thin, wet_thickness="25 um", room=club_room()).dry()
    assert lacquer.touch_dry.best < lacquer.handle.best


def test_a_thinned_paint_brings_its_own_solids() -> None:
    paint = mc.Paint.typical("solvent lacquer", name="hull green")
    thin = paint.thin(thinner(), thinner=2, paint=1)
    film = mc.Film(thin, wet_thickness="25 um", room=club_room(), substrate="wood")
    assert film.solids.to("%") == pytest.approx(thin.volume_solids.to("%"))
    assert film.volatile == thin.volatile
    assert film.dry().flash_off.to("s") > 0
    with pytest.raises(mc.UnitError, match="leave `solids` out"):
        mc.Film(thin, wet_thickness="25 um", room=club_room(), solids="10 %")


def test_more_thinner_stays_wet_longer_at_equal_dry_film() -> None:
    paint = mc.Paint.typical("solvent lacquer", name="hull green")

    def seconds(parts: float) -> float:
        thin = paint.thin(thinner(), thinner=parts, paint=1)
        wet = thin.wet_film("10 um").best
        return mc.Film(thin, wet_thickness=wet, room=club_room()).dry().flash_off.to("s")

    assert seconds(1) < seconds(2) < seconds(3)


def test_dew_is_told_once() -> None:
    acetone = mc.Blend("acetone")
    film = mc.Film(acetone, wet_thickness="25 um", room=club_room(relative_humidity="70 %"))
    with pytest.warns(mc.MistcoatWarning, match="below the dew point"):
        dry = film.dry()
    assert len(dry.warnings) == 1
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        assert dry.flash_off.to("s") > 0


def test_what_never_dries_says_so() -> None:
    damp = club_room(relative_humidity="100 %")
    dry = mc.Film(mc.Blend("water"), wet_thickness="25 um", room=damp).dry()
    with pytest.raises(mc.RangeError, match=r"water stays.*dry the air"):
        _ = dry.flash_off
    assert "not reached" in str(dry)
    assert dry.most_lost.to("%") < 1


@pytest.mark.parametrize(
    ("make", "error", "says"),
    [
        (
            lambda: club_room(temperature="90 degC"),
            mc.RangeError,
            ["90 °C", "0 °C to 60 °C", "thermometer"],
        ),
        (
            lambda: club_room(relative_humidity="120 %"),
            mc.RangeError,
            ["120 %", "0 % to 100 %", "hygrometer"],
        ),
        (lambda: club_room(air_speed="-1 m/s"), mc.RangeError, ["-1 m/s", "30 m/s", "no draught"]),
        (lambda: club_room(temperature=BARE), mc.UnitError, ["21", "temperature"]),
        (
            lambda: dried(wet_thickness="0 um"),
            mc.RangeError,
            ["0 µm", "1 µm to 5 mm", "comb gauge"],
        ),
        (
            lambda: dried(wet_thickness="6 mm"),
            mc.RangeError,
            ["6 mm", "1 µm to 5 mm", "comb gauge"],
        ),
        (lambda: dried(wet_thickness=25), mc.UnitError, ["25", "length"]),
        (lambda: dried(solids="100 %"), mc.RangeError, ["100 %", "98 %", "thinned paint"]),
        (
            lambda: dried(substrate="polystirene"),
            mc.UnknownName,
            ["polystirene", "polystyrene", "nearest"],
        ),
        (lambda: dried(substrate_thickness="0 mm"), mc.RangeError, ["0 µm", "100 mm", "free film"]),
        (lambda: dried(part_length="0 mm"), mc.RangeError, ["0 µm", "10 m", "draught"]),
        (lambda: dried(until="0 s"), mc.RangeError, ["0", "365 d", "7 d"]),
        (lambda: dried().touch_dry, mc.RangeError, ["touch dry", "unknown", "glass transition"]),
        (lambda: dried(binder_tg="400 degC"), mc.RangeError, ["400 °C", "226.9 °C", "data sheet"]),
        (
            lambda: dried().residual_solvent("-1 h"),
            mc.RangeError,
            ["-60 min", "7 d", "follow it longer"],
        ),
        (lambda: dried().time_to_lose("100 %"), mc.RangeError, ["100 %", "99.9 %", "flash-off"]),
    ],
)
def test_bad_input(make: Any, error: type[Exception], says: list[str]) -> None:
    with pytest.raises(error) as caught:
        make()
    for part in says:
        assert part in str(caught.value)


def test_substrates_are_listed() -> None:
    names = mc.Film.substrates()
    assert {"polystyrene", "wood", "card", "brass", "glass"} <= set(names)
    for name in [*names, "isothermal"]:
        assert dried(substrate=name).flash_off.to("s") > 0
    with pytest.warns(mc.MistcoatWarning, match="below the dew point"):
        free = dried(substrate="free film")
    assert free.flash_off.best > dried(substrate="isothermal").flash_off.best


def test_a_thickness_with_its_spread_carries_it_on() -> None:
    thin = mc.Paint.typical("solvent lacquer", name="hull green").thin(
        thinner(), thinner=2, paint=1
    )
    wet = thin.wet_film("10 um")
    known = mc.Film(thin, wet_thickness=wet.best, room=club_room()).dry().flash_off
    spread = mc.Film(thin, wet_thickness=wet, room=club_room()).dry().flash_off
    assert known.best == spread.best
    assert known.interval("s") != spread.interval("s")
