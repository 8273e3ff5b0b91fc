"""Levelling, sag, blush, window and retarder at the border: classes, units, JSON, bad input."""

from __future__ import annotations

import copy
import math
import pickle
import warnings
from typing import Any

import mistcoat as mc
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

pytestmark = pytest.mark.filterwarnings("ignore::mistcoat.MistcoatWarning")


def room(humidity: str = "50 %") -> mc.Room:
    return mc.Room(temperature="21 degC", relative_humidity=humidity, air_speed="0.15 m/s")


def lacquer(thinner: Any = "n-butyl acetate", parts: float = 1.0) -> mc.Mix:
    return mc.Paint.typical("solvent lacquer", name="hull green").thin(
        thinner, thinner=parts, paint=1
    )


def wet(thickness: str = "25 um", **changes: Any) -> mc.Film:
    given: dict[str, Any] = {"wet_thickness": thickness, "room": room()}
    return mc.Film(changes.pop("mix", lacquer()), **{**given, **changes})


def test_orchard_and_sag_in_closed_form() -> None:
    rate = mc.levelling_rate(
        surface_tension="25 mN/m", viscosity="20 mPa.s", thickness="25 um", wavelength="2 mm"
    )
    # S. E. Orchard (1962), thin film: 16 pi^4 gamma h^3/(3 lambda^4 eta); kh = 0.08 takes off 1 %.
    thin = 16 * math.pi**4 * 0.025 * 25e-6**3 / (3 * 2e-3**4 * 0.02)
    assert rate.to("1/s") == pytest.approx(thin, rel=0.02)
    assert rate.to("1/s") < thin
    speed = mc.sag_speed(
        density="1.1 g/mL", viscosity="20 mPa.s", thickness="25 um", steepness="50 %"
    )
    assert speed.to("m/s") == pytest.approx(0.5 * 1100 * 9.80665 * 25e-6**2 / 0.04, rel=1e-9)


def test_a_yield_stress_lets_a_coat_hang() -> None:
    stripe = mc.hanging_thickness(yield_stress="1 Pa", density="1 g/mL", steepness="50 %")
    assert stripe.to("um") == pytest.approx(1e6 / (1000 * 9.80665 * 0.5), rel=1e-9)
    film = wet("60 um")
    plain = mc.lay(film)
    assert mc.lay(film.with_yield_stress("0 Pa")).sag == plain.sag
    some, much = (mc.lay(film.with_yield_stress(f"{pa} Pa")) for pa in (0.2, 5))
    assert plain.sag.best > some.sag.best > much.sag.best == mc.Length("0 mm")
    assert "yield stress decides" in str(much.sag.working())
    flow = mc.Flow("60 mPa.s", temperature="21 degC", yield_stress="2 Pa")
    assert flow.yield_stress is not None
    assert flow.yield_stress.to("Pa") == 2
    assert mc.Flow("60 mPa.s", temperature="21 degC").yield_stress is None
    assert pickle.loads(pickle.dumps(flow)) == flow
    for bad in ("-1 Pa", "200 Pa"):
        with pytest.raises(mc.RangeError, match="100 Pa"):
            film.with_yield_stress(bad)
    with pytest.raises(mc.RangeError, match="steepness"):
        mc.hanging_thickness(yield_stress="1 Pa", density="1 g/mL", steepness="0 %")


def test_lay_says_what_fails_first() -> None:
    lay = mc.lay(wet("10 um"))
    assert lay.first_limit == next(iter(lay.factors))
    assert list(lay.factors.values()) == sorted(lay.factors.values())
    low, high = lay.levelling.interval("%")
    assert 0 <= low <= lay.levelling.to("%") <= high <= 100
    assert lay.blush is not None
    assert not lay.blush.blushes
    assert lay.lies_well == (min(lay.factors.values()) >= 1)
    with pytest.warns(mc.MistcoatWarning, match="ripple"):
        mc.lay(wet("5 um"))


def test_wavelength_and_drops() -> None:
    usual, drops = mc.lay(wet()), mc.lay(wet(), drops="40 um")
    assert usual.wavelength.to("mm") == pytest.approx(2)
    assert drops.wavelength.to("mm") == pytest.approx(0.4)
    assert drops.levelling.best <= usual.levelling.best
    assert mc.lay(wet(), wavelength="5 mm").levelling.best > usual.levelling.best
    assert mc.lay(wet(), steepness="0 %").sag.to("mm") == 0


def test_blush_is_a_contract_of_drying() -> None:
    blush = wet(mix=lacquer("acetone", 2), room=room("85 %")).dry().blush
    assert blush.humidity.to("%") == pytest.approx(85)
    assert blush.blushes == (blush.margin.best.to("K") < 0)
    assert 0 < blush.limit.to("%") < 100
    assert "limit humidity" in str(blush.working())
    water = mc.Film(mc.Blend({"water": 1}, basis="mass"), wet_thickness="25 um", room=room())
    with pytest.raises(mc.RangeError, match="waterborne"):
        _ = water.dry().blush


def test_flow_of_a_film_without_a_mix() -> None:
    blend = mc.Blend({"n-butyl acetate": 1}, basis="mass")
    film = mc.Film(blend, wet_thickness="25 um", room=room(), solids="15 %", binder_tg="50 degC")
    with pytest.raises(mc.RangeError, match="flow"):
        mc.lay(film)
    flow = mc.Flow("20 mPa.s", temperature="21 degC", thicker=[("30 %", "120 mPa.s")])
    course = flow.on(film).dry().viscosity_mPa_s
    assert course[0] == pytest.approx(20.0, rel=1e-9)
    assert course[-1] > 1e9
    with pytest.raises(mc.RangeError, match="order"):
        mc.Flow("20 mPa.s", temperature="21 degC", thicker=[("30 %", "10 mPa.s")])


def test_window() -> None:
    window = mc.film_window(wet())
    assert window.thinnest is not None
    assert window.thickest is not None
    assert window.is_empty == (window.thinnest.best > window.thickest.best)
    level = mc.film_window(wet(), steepness="0 %")
    assert level.thickest is None
    assert any("no film up to 5 mm runs" in w for w in level.warnings)


def test_retarder_answers_in_a_table() -> None:
    paint = mc.Paint.typical("solvent lacquer", name="hull green")
    thinner = mc.Blend({"acetone": 50, "n-butyl acetate": 50}, basis="volume")
    answer = mc.retarder(paint, thinner, retarder="2-butoxyethanol")
    assert [row.share.to("%") for row in answer.rows] == pytest.approx([0, 10, 20, 30])
    assert answer.sentence is not None
    assert "From 0 % to 30 %" in answer.sentence
    columns = answer.columns()
    # Common practice: it levels better, dries slower, slides further, bears damper air.
    assert columns["ripple_left_percent"] == sorted(columns["ripple_left_percent"], reverse=True)
    for key in ("flash_off_s", "touch_dry_s", "sag_mm", "blush_limit_percent"):
        assert columns[key] == sorted(columns[key]), key
    assert "<table" in answer._repr_html_()
    with pytest.raises(mc.RangeError, match="150 %"):
        mc.retarder(paint, thinner, retarder="2-butoxyethanol", shares=["150 %"])


def test_compare_rows_have_the_new_figures() -> None:
    result = mc.compare(mc.demo_paint("hull green"), "n-butyl acetate")
    for row in result.rows:
        assert row.touch_dry is not None
        assert row.recoat is not None
        assert row.touch_dry.best < row.recoat.best
        assert row.blush_limit is not None
        assert row.ripple_left is not None
    oil = mc.Paint.typical("alkyd enamel", name="red oxide")
    for row in mc.compare(oil, "white spirit").rows:
        assert row.touch_dry is None
        assert row.recoat is None
        assert any("oxygen" in w or "harden" in w for w in row.warnings)


@pytest.mark.parametrize("make", [
    lambda: mc.lay(wet()),
    lambda: wet().dry().blush,
    lambda: mc.film_window(wet()),
    lambda: mc.Flow("20 mPa.s", temperature="21 degC"),
    lambda: mc.retarder(
        mc.Paint.typical("solvent lacquer", name="g"), "acetone", retarder="2-butoxyethanol",
        shares=["10 %"],
    ),
])  # fmt: skip
def test_round_trips(make: Any) -> None:
    made = make()
    assert type(made).from_json(made.to_json()) == made
    assert pickle.loads(pickle.dumps(made)) == made
    assert copy.deepcopy(made) == made


@pytest.mark.parametrize(
    ("arguments", "error", "says"),
    [
        ({"wavelength": 2}, mc.UnitError, "Length"),
        ({"wavelength": "nan mm"}, mc.UnitError, "nan"),
        ({"wavelength": "1 m"}, mc.RangeError, "100 mm"),
        ({"drops": "-3 um"}, mc.RangeError, "1 µm"),
        ({"steepness": "120 %"}, mc.RangeError, "upright"),
    ],
)
def test_bad_input(arguments: dict[str, Any], error: type[Exception], says: str) -> None:
    with pytest.raises(error, match=says):
        mc.lay(wet(), **arguments)


@settings(max_examples=15, deadline=None)
@given(thickness=st.floats(5, 80), by=st.floats(1.1, 3))
def test_thicker_levels_better_and_slides_further(thickness: float, by: float) -> None:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", mc.MistcoatWarning)
        thin, thick = (mc.lay(wet(f"{h} um")) for h in (thickness, thickness * by))
    assert thick.levelling.best <= thin.levelling.best
    assert thick.sag.best > thin.sag.best
