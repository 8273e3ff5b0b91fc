"""Quantities at the border: construction, units, arithmetic, pickling, foreign units, bad input."""

from __future__ import annotations

import contextlib
import copy
import pickle
from typing import Any

import mistcoat as mc
import pytest
from hypothesis import given
from hypothesis import strategies as st

CLASSES: list[Any] = [
    mc.Temperature,
    mc.TemperatureDifference,
    mc.Pressure,
    mc.Length,
    mc.Area,
    mc.Volume,
    mc.Mass,
    mc.Time,
    mc.Density,
    mc.MassConcentration,
    mc.DynamicViscosity,
    mc.KinematicViscosity,
    mc.SurfaceTension,
    mc.Diffusivity,
    mc.MolarMass,
    mc.MolarVolume,
    mc.MolarEnergy,
    mc.MassFlux,
    mc.Velocity,
    mc.Frequency,
    mc.VolumeRate,
    mc.SpreadingRate,
    mc.OpticalCoefficient,
    mc.SolubilityParameter,
    mc.Ratio,
]


@pytest.mark.parametrize("cls", CLASSES, ids=lambda c: c.__name__)
def test_every_unit_round_trips(cls: Any) -> None:
    for unit in cls.units():
        q = cls(12.5, unit)
        assert q.to(unit) == pytest.approx(12.5, rel=1e-13)
        assert eval(repr(q), vars(mc)) == q
        assert pickle.loads(pickle.dumps(q)) == q == copy.deepcopy(q)
        assert hash(pickle.loads(pickle.dumps(q))) == hash(q)


@pytest.mark.parametrize("cls", CLASSES, ids=lambda c: c.__name__)
@pytest.mark.parametrize("bad", [20, 20.0, None, [], True, "20", "mm", "nan s", "", "1e999 Pa"])
def test_bad_values_show_the_right_form(cls: Any, bad: object) -> None:
    with pytest.raises(mc.UnitError) as error:
        cls(bad)
    text = str(error.value)
    assert "for example" in text or "write" in text, text


def test_bare_number_shows_the_corrected_call() -> None:
    with pytest.raises(mc.UnitError, match=r'write "60 s" or Time\(60, "s"\)'):
        mc.Time(60)


def test_wrong_dimension_is_named() -> None:
    with pytest.raises(mc.UnitError, match="expected a time, got a Pressure"):
        mc.Time(mc.Pressure("1 bar"))  # type: ignore[arg-type]


def test_fluid_ounces_are_told_apart() -> None:
    assert mc.Volume("1 US fl oz").to("mL") == pytest.approx(29.5735, abs=5e-5)  # NIST SP 811
    assert mc.Volume("1 imp fl oz").to("mL") == pytest.approx(28.41306, abs=5e-6)  # NIST SP 811
    with pytest.raises(mc.UnitError, match=r"US fl oz.*imp fl oz"):
        mc.Volume("1 fl oz")


def test_temperatures_and_differences_are_two_types() -> None:
    warm, cool = mc.Temperature("25 °C"), mc.Temperature("21 °C")
    assert (warm - cool).to("K") == pytest.approx(4.0)
    assert (cool + "4 K").to("°C") == pytest.approx(25.0)
    with pytest.raises(TypeError):
        warm * 2  # type: ignore[operator]
    with pytest.raises(TypeError):
        _ = warm < mc.TemperatureDifference("3 K")
    with pytest.raises(mc.UnitError, match="Temperature"):
        mc.TemperatureDifference("3 degC")


def test_arithmetic_stays_in_the_dimension() -> None:
    assert mc.Time("30 s") + "1 min" == mc.Time("90 s")
    assert mc.Time("90 s") / mc.Time("30 s") == 3.0
    assert 2 * mc.Time("30 s") == mc.Time("1 min")
    assert -mc.Time("30 s") < mc.Time("0 s") < abs(-mc.Time("30 s"))
    with pytest.raises(TypeError):
        mc.Time("30 s") + mc.Length("1 m")
    with pytest.raises(mc.UnitError, match="no finite"):
        mc.Time("30 s") / 0.0


def test_printing() -> None:
    p = mc.Pressure("20 psi")
    assert str(p) == "138 kPa"
    assert f"{p:.1f}" == "137.9 kPa"
    assert f"{p:.3g psi}" == "20 psi"
    assert f"{p:psi}".endswith("psi")


def test_another_units_library() -> None:
    pint = pytest.importorskip("pint")
    u = pint.UnitRegistry()
    assert mc.Pressure(20 * u.psi).to("psi") == pytest.approx(20.0)
    assert mc.Temperature(u.Quantity(20, u.degC)).to("°C") == pytest.approx(20.0)
    assert mc.TemperatureDifference(u.Quantity(3, u.delta_degC)).to("K") == pytest.approx(3.0)
    assert mc.KinematicViscosity(40 * u.cSt).to("mm2/s") == pytest.approx(40.0)
    with pytest.raises(mc.UnitError, match="temperature on its scale"):
        mc.TemperatureDifference(u.Quantity(20, u.degC))
    with pytest.raises(mc.UnitError, match="expected a length") as caught:
        mc.Length(20 * u.psi)
    assert isinstance(caught.value.__cause__, pint.DimensionalityError)


@given(st.floats(-1e6, 1e6), st.sampled_from(mc.Pressure.units()))
def test_repr_evaluates(value: float, unit: str) -> None:
    p = mc.Pressure(value, unit)
    assert eval(repr(p), vars(mc)) == p


@given(st.text(max_size=20))
def test_any_text_is_read_or_refused(text: str) -> None:
    with contextlib.suppress(mc.UnitError):
        mc.Volume(text)


def test_errors_are_value_errors_and_pickle() -> None:
    with pytest.raises(ValueError, match="unit") as caught:
        mc.Time("60 psi")
    assert isinstance(caught.value, mc.MistcoatError)
    assert str(pickle.loads(pickle.dumps(caught.value))) == str(caught.value)


def test_refusals_show_every_reading() -> None:
    with pytest.raises(mc.UnitError, match=r'"55 %" if it is a share.*"0\.55 %" if it is a perc'):
        mc.Room(temperature="21 degC", relative_humidity=0.55)  # type: ignore[arg-type]
    with pytest.raises(mc.UnitError, match=r'comma.*"0\.3 mm"'):
        mc.Length("0,3 mm")


def test_interval_is_printed_in_the_unit_of_its_best_value() -> None:
    room = mc.Room(temperature="21 degC", relative_humidity="55 %", air_speed="0.1 m/s")
    thinner = mc.Blend({"acetone": 50, "n-butyl acetate": 35, "2-butoxyethanol": 15}, basis="mass")
    wait = mc.Film(thinner, wet_thickness="35 um", room=room, solids="10 %").dry().flash_off
    low, high = wait.interval("s")
    assert low < 300 < high  # either side of where seconds become minutes
    assert str(wait).count(" s") + str(wait).count(" min") == 3
    assert " s" not in str(wait) or " min" not in str(wait), str(wait)
