"""Airbrush and shot at the border: construction, answers, warnings, records, bad input."""

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

pytestmark = pytest.mark.filterwarnings("ignore::mistcoat.MistcoatWarning")
BARE: Any = 0.3


def club_room() -> mc.Room:
    return mc.Room(temperature="25 degC", relative_humidity="50 %")


def club_mix(thinner: float = 1) -> mc.Mix:
    blend = mc.Blend({"acetone": 50, "n-butyl acetate": 50}, basis="mass", name="house thinner")
    paint = mc.Paint.typical("solvent lacquer", name="hull green (invented)")
    return paint.thin(blend, thinner=thinner, paint=1)


def gun(**changes: Any) -> mc.Airbrush:
    held: dict[str, Any] = {"nozzle": "0.3 mm", "pressure": "20 psi", "distance": "80 mm"}
    return mc.Airbrush(**{**held, **changes})


def shot(**changes: Any) -> mc.Shot:
    return gun(**changes).spray(club_mix(), club_room())


def test_the_contract() -> None:
    s = shot()
    # Airbrushes: 10 to 20 L/min of free air (common practice); air spray up to 50 um (published).
    assert 10 < s.air_demand.to("L/min") < 20
    assert 8 < s.drop_size.to("um") < 35
    assert 0.05 < s.flight_loss.to("1") < 0.6
    assert 3 < s.wet_film_per_pass.to("um") < 15
    assert s.dry_film_per_pass.to("um") < s.wet_film_per_pass.to("um")
    assert s.drop_temperature < club_room().temperature
    assert mc.Ratio("11 %") < s.deposit_solids
    lost = s.lost_by_species
    assert lost["acetone"] > lost["n-butyl acetate"] > lost["2-butoxyethanol"]
    film = s.film(passes=2, substrate="wood")
    assert film.substrate.startswith("1") or "wood" in film.substrate
    assert film.wet_thickness.to("um") == pytest.approx(2 * s.wet_film_per_pass.to("um"))
    assert film.dry().touch_dry.to("s") < 150


def test_water_from_damp_air() -> None:
    damp = mc.Room(temperature="25 degC", relative_humidity="90 %")
    wet = gun().spray(club_mix(), damp)
    assert shot().water_from_air < wet.water_from_air < mc.Ratio("10 %")
    setup = mc.Setup(
        mc.Paint.typical("solvent lacquer", name="hull green (invented)"),
        "acetone",
        airbrush=gun(),
        room=damp,
        substrate="wood",
    )
    judged = setup.judge("base coat")
    assert judged.water_from_air > mc.Ratio("3 %")
    assert "of water" in judged.reasons["blush"]


def test_given_numbers_go_first() -> None:
    s = gun(
        paint_flow="0.5 mL/min", transfer_efficiency="60 %", swath="20 mm", hand_speed="50 mm/s"
    ).spray(club_mix(), club_room())
    # X = Q VS TE/(w v): worked example 0.75 um at 15 % solids; here 11 %.
    assert s.dry_film_per_pass.to("um") == pytest.approx(0.25 * 22 * 0.1, rel=1e-9)
    assert s.passes_for("5.5 um").to("1") == pytest.approx(10, rel=1e-9)
    assert shot(drop_size="25 um").drop_size.to("um") == pytest.approx(25)
    flow = s.drop_size
    assert flow.interval("um")[0] < flow.to("um")


def test_spread_of_an_estimate_is_carried_on() -> None:
    dropper = mc.FlowCup("ISO 2431", 4).time("35.1 s", "34.6 s")
    assert dropper is not None
    size = shot().drop_size
    carried = shot(drop_size=size).drop_size
    low, high = size.interval("um")
    assert carried.interval("um")[0] == pytest.approx(low, rel=0.25)
    assert carried.interval("um")[1] == pytest.approx(high, rel=0.25)


def test_columns_table_and_working() -> None:
    s = shot(classes=7)
    columns = s.columns()
    assert all(isinstance(c, np.ndarray) and c.dtype == np.float64 for c in columns.values())
    assert len(columns["share"]) == 7
    assert columns["share"].sum() == pytest.approx(1)
    assert np.all(np.diff(columns["lost"]) <= 1e-9), "finer drops lose more"
    text = str(s.table())
    assert "drop size" in text
    assert "safety data" in text
    assert "Rizk" in s.working().to_text()
    assert "<table" in s._repr_html_()


def test_warnings_come_once_when_the_shot_is_made() -> None:
    with pytest.warns(mc.MistcoatWarning, match="the pressure will sag"):
        s = shot(compressor="8 L/min")
    assert any("compressor" in w for w in s.warnings)
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        assert s.wet_film_per_pass.to("um") > 0


@pytest.mark.parametrize("make", [gun, shot])
def test_records_pickle_copy_and_evaluate(make: Any) -> None:
    value = make()
    assert pickle.loads(pickle.dumps(value)) == value
    assert copy.deepcopy(value) == value
    assert eval(repr(value), {"Airbrush": mc.Airbrush, "Shot": mc.Shot}) == value
    assert type(value).from_json(value.to_json()) == value


def test_drying_under_the_gun() -> None:
    room, held = club_room(), gun(air_area="0.4 mm2", pressure="2 bar")
    # The worked example of src/air/jet.rs has 21 m/s at 10 cm, a whole number, for a loaded jet.
    assert room.under_gun(held, distance="10 cm").air_speed.to("m/s") == pytest.approx(
        21.7, rel=0.03
    )
    near, far = (room.under_gun(held, distance=d).air_speed.to("m/s") for d in ("15 cm", "30 cm"))
    assert near == pytest.approx(2 * far)  # a round jet falls with the distance
    own = room.under_gun(gun())
    assert own == room.under_gun(gun(), distance="80 mm")
    assert own.temperature == room.temperature
    sprayed = shot().air_speed_at_part.to("m/s")
    assert 0.8 < sprayed / own.air_speed.to("m/s") < 1  # the paint it carries slows it
    film: dict[str, Any] = {"wet_thickness": "25 um", "substrate": "wood"}
    still, blown = (mc.Film(club_mix(), room=r, **film).dry() for r in (room, own))
    assert blown.flash_off.best < still.flash_off.best
    with pytest.raises(mc.RangeError, match="farther away"):
        room.under_gun(held, distance="2 cm")
    with pytest.raises(mc.RangeError, match="0 mm to 3 m"):
        room.under_gun(held, distance="4 m")
    with pytest.raises(mc.UnitError):
        room.under_gun(held, distance=BARE)


def test_settings_are_read_back_and_changed() -> None:
    g = gun()
    assert g.nozzle == mc.Length("0.3 mm")
    assert g.at_pressure("12 psi").pressure == mc.Pressure("12 psi")
    assert g.at_distance("40 mm").distance == mc.Length("40 mm")
    assert g == gun()
    assert g != g.at_pressure("12 psi")
    assert g.transfer_efficiency.interval("%")[1] < 70
    assert g.air_area.to("mm2") == pytest.approx(0.4)
    assert g.hand_speed.to("mm/s") == pytest.approx(50)


@pytest.mark.parametrize(
    ("name", "call", "kind", "says"),
    [
        ("bare bore", lambda: gun(nozzle=BARE), mc.UnitError, ("Length", "mm")),
        ("bare pressure", lambda: gun(pressure=20.0), mc.UnitError, ("Pressure", "kPa")),
        ("wrong class", lambda: gun(distance=mc.Time("1 s")), mc.UnitError, ("Time", "mm")),
        ("NaN", lambda: gun(pressure="nan psi"), mc.UnitError, ("nan",)),
        ("negative", lambda: gun(distance="-8 cm"), mc.RangeError, ("5 mm to 500 mm",)),
        ("too fine", lambda: gun(nozzle="0.05 mm"), mc.RangeError, ("0.15 mm to 1.5 mm",)),
        ("no flow", lambda: gun(paint_flow="0 mL/min"), mc.RangeError, ("weigh the cup",)),
        ("all lands", lambda: gun(transfer_efficiency="120 %"), mc.RangeError, ("100 %",)),
        ("no name", lambda: gun(correlation="Rizk"), mc.UnknownName, ("Rizk and Lefebvre",)),
        (
            "two laws",
            lambda: gun(rosin_rammler=3, geometric_standard_deviation=2),
            mc.UnitError,
            ("one law",),
        ),
        ("flat law", lambda: gun(rosin_rammler=float("nan")), mc.RangeError, ("1.5 to 20",)),
        ("no class", lambda: gun(classes=0), mc.RangeError, ("1 to 99",)),
        ("no pass", lambda: shot().film(passes=0), mc.RangeError, ("1 to 1000",)),
        ("bare film", lambda: shot().passes_for(BARE), mc.UnitError, ("Length",)),
        ("no plate", lambda: shot().film(substrate="wod"), mc.UnknownName, ("wood",)),
    ],
)
def test_bad_input(name: str, call: Any, kind: type[Exception], says: tuple[str, ...]) -> None:
    with pytest.raises(kind) as caught:
        call()
    for part in says:
        assert part in str(caught.value), name


@settings(max_examples=30, deadline=None)
@given(
    psi=st.floats(4, 60),
    millimetres=st.floats(10, 300),
    thinner=st.floats(0.5, 5),
)
def test_trends(psi: float, millimetres: float, thinner: float) -> None:
    g = mc.Airbrush(
        nozzle="0.3 mm",
        pressure=mc.Pressure(psi, "psi"),
        distance=mc.Length(millimetres, "mm"),
        paint_flow="1 mL/min",
    )
    s = g.spray(club_mix(thinner), club_room())
    higher = g.at_pressure(mc.Pressure(1.3 * psi, "psi")).spray(club_mix(thinner), club_room())
    thicker = g.spray(club_mix(0.8 * thinner), club_room())
    assert higher.drop_size.to("um") < s.drop_size.to("um") < thicker.drop_size.to("um")
    assert 0 <= s.flight_loss.to("1") <= 1
