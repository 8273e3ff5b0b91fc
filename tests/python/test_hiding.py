"""Hiding in Python: the border, the warnings, the fit on one's own card."""

from __future__ import annotations

import pickle
from collections.abc import Callable

import mistcoat as mc
import pytest
from mistcoat import hiding

WHITE = hiding.HidingPower("white", scattering="0.10 1/um", reflectivity=0.9)


def test_worked_values() -> None:
    # Two-flux equations integrated numerically outside this project (tests/data/hiding_checks.csv).
    assert WHITE.reflectance("30 um", 0).to("1") == pytest.approx(0.7408, abs=1e-4)
    assert WHITE.contrast_ratio("30 um").to("1") == pytest.approx(0.8648, abs=1e-4)
    assert WHITE.thickness_to_hide().to("um") == pytest.approx(91.4, abs=0.1)
    assert "ASTM D2805" in WHITE.contrast_ratio("30 um").working().to_text()
    assert hiding.scattering_power(over_black=0.7408, reflectivity=0.9) == pytest.approx(
        3, abs=2e-3
    )


def test_grounds_and_criteria() -> None:
    bare = WHITE.thickness_to_hide().to("um")
    assert WHITE.thickness_to_hide("card").to("um") == bare
    assert WHITE.thickness_to_hide(contrast="95 %").to("um") < bare
    assert WHITE.thickness_to_hide(ground="70 %").to("um") < bare
    assert WHITE.thickness_to_hide(ground=(0.3, "50 %")).to("um") < bare
    assert WHITE.thickness_to_hide(ground=0.9).to("um") == 0
    with pytest.raises(TypeError, match="darkest, lightest"):
        WHITE.thickness_to_hide(ground=[])  # type: ignore[arg-type]


def test_typical_colours_warn() -> None:
    assert {"white", "red oxide", "deep green", "cream"} <= set(hiding.colour_classes())
    yellow = hiding.HidingPower.typical("yellow")
    with (
        pytest.warns(mc.MistcoatWarning, match="undercoat"),
        pytest.warns(mc.MistcoatWarning, match="factor 2"),
        pytest.warns(mc.MistcoatWarning, match="wetter passes"),
    ):
        passes = yellow.passes_to_hide("1 um")
    assert passes.fewest < passes.whole < passes.most
    assert any("factor 2" in text for text in passes.number.warnings)
    assert "judgement" in yellow.source.lower()
    with pytest.raises(mc.UnknownName, match="cream"):
        hiding.HidingPower.typical("creme")


def test_own_card() -> None:
    film = hiding.dry_film_per_pass("20 um", "15 %")
    assert film.to("um") == pytest.approx(3)
    green = hiding.HidingPower.from_card_passes(
        "hull green", "deep green", passes=5, dry_per_pass=film
    )
    passes = green.passes_to_hide(film)
    assert passes.whole == 5
    assert passes.thickness.to("um") == pytest.approx(13.5)
    low, high = green.scattering.interval("1/um")
    assert low < green.scattering.to("1/um") < high
    sloppy = hiding.HidingPower.from_card_passes(
        "hull green", "deep green", passes=5, dry_per_pass="3 um", reflectivity=0.06
    )
    assert sloppy.reflectivity.interval("1") == (0.06, 0.06)
    for thing in (green, passes, hiding.Gloss(), WHITE):
        assert pickle.loads(pickle.dumps(thing)) == thing
    assert hiding.HidingPower.from_json(green.to_json()) == green


def test_readings_with_and_without_gloss() -> None:
    gloss = hiding.Gloss()
    truth = hiding.HidingPower("t", scattering="0.09 1/um", reflectivity=0.75, gloss=gloss)
    black, white = (truth.reflectance("20 um", g).to("1") for g in (0.0, 0.8))
    fit = hiding.HidingPower.from_readings(
        "t", over_black=black, over_white=white, dry="20 um", gloss=gloss
    )
    assert fit.scattering.to("1/um") == pytest.approx(0.09, rel=1e-6)
    assert fit.reflectivity.to("1") == pytest.approx(0.75, rel=1e-6)
    matt = hiding.HidingPower.from_readings("t", over_black=black, over_white=white, dry="20 um")
    assert matt.reflectivity.to("1") < 0.7  # what leaving the surface out does
    assert gloss.measured(gloss.internal(0.8)) == pytest.approx(0.8)


def test_amounts() -> None:
    need = hiding.amounts(
        "600 cm2",
        dry="20 um",
        volume_solids="30 %",
        thinning="thinner 1 : paint 2",
        loss="airbrush",
    )
    # By hand: 0.06 m2 x 20 um / (0.30 x 0.35) = 11.43 mL, and half of that in thinner.
    assert need.paint.to("mL") == pytest.approx(11.43, abs=0.01)
    assert need.thinner.to("mL") == pytest.approx(5.714, abs=0.01)
    assert need.mix.to("mL") == pytest.approx(17.14, abs=0.01)
    assert need.practical_rate.to("m2/L") == pytest.approx(5.25)
    assert pickle.loads(pickle.dumps(need)) == need


BAD: list[tuple[Callable[[], object], type[Exception], str]] = [
    (lambda: WHITE.reflectance("-1 um", 0), mc.RangeError, "thickness"),
    (lambda: WHITE.reflectance("30 um", 1.2), mc.RangeError, "120 %"),
    (lambda: WHITE.reflectance("30 um", float("nan")), mc.RangeError, "reflectance"),
    (lambda: WHITE.passes_to_hide("0 um"), mc.RangeError, "per pass"),
    (lambda: WHITE.passes_to_hide(2), mc.UnitError, "um"),  # type: ignore[arg-type]
    (lambda: WHITE.thickness_to_hide(contrast=1.0), mc.RangeError, "99.9 %"),
    (lambda: hiding.Gloss(0.5), mc.RangeError, "k1"),
    (lambda: hiding.Gloss().internal(0.99), mc.RangeError, "mirrored"),
    (
        lambda: hiding.HidingPower("x", scattering="0 1/um", reflectivity=0.9),
        mc.RangeError,
        "scattering",
    ),
    (
        lambda: hiding.HidingPower.from_readings("x", over_black=0.5, over_white=0.5, dry="9 um"),
        mc.RangeError,
        "thinner film",
    ),
    (
        lambda: hiding.amounts("1 m2", dry="20 um", volume_solids=0.3, loss="air brush gun"),
        mc.UnknownName,
        "airbrush",
    ),
    (
        lambda: hiding.amounts("1 m2", dry="20 um", volume_solids=0.3, loss="100 %"),
        mc.RangeError,
        "below 100 %",
    ),
    (lambda: hiding.amounts("1 m2", dry="20 um", volume_solids=0, loss=0), mc.RangeError, "solids"),
]


@pytest.mark.parametrize(("call", "kind", "says"), BAD)
def test_bad_input(call: Callable[[], object], kind: type[Exception], says: str) -> None:
    with pytest.raises(kind, match=says):
        call()
