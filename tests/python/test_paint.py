"""Paints, mixes and the dilution law at the border: names, units, keywords, errors, pickling."""

from __future__ import annotations

import copy
import json
import math
import pickle
from pathlib import Path
from typing import Any

import mistcoat as mc
import pytest

DEMO = Path(__file__).parents[2] / "data" / "demo"


@pytest.fixture
def thinner() -> mc.Blend:
    return mc.Blend(
        {"acetone": 50, "n-butyl acetate": 35, "2-butoxyethanol": 15},
        basis="mass",
        name="house thinner",
    )


@pytest.fixture
def green() -> mc.Paint:
    return mc.Paint.load(DEMO / "hull_green.toml")


@pytest.fixture
def law() -> mc.DilutionLaw:
    return mc.DilutionLaw.fit(
        [(1.0, "120 mPa.s"), (0.7, "38 mPa.s")], thinner_viscosity="0.7 mPa.s", family=None
    )


def test_law_from_two_readings(law: mc.DilutionLaw) -> None:
    # Closed form b = (L1/x1 - L2/x2)/(L1 - L2); the wide prior moves it by little.
    l1, l2 = math.log(120 / 0.7), math.log(38 / 0.7)
    b = (l1 - l2 / 0.7) / (l1 - l2)
    assert law.b == pytest.approx(b, abs=0.02)
    assert law.a == pytest.approx(l1 * (1 - b), rel=0.02)
    eta = law.viscosity(0.5)
    low, high = eta.interval("mPa.s")
    assert low < eta.to("mPa.s") < high
    assert "dilution law" in eta.working().to_text()
    x = law.paint_fraction_for("18 mPa.s")
    assert law.viscosity(x.to("1")).to("mPa.s") == pytest.approx(18, rel=1e-9)
    assert law.viscosity("50 %") == eta
    assert law.thinner_per_paint_for("18 mPa.s").to("1") == pytest.approx(1 / x.to("1") - 1)
    assert law.sensitivity(1.0) == pytest.approx(law.a / (1 - law.b) ** 2)
    assert law.thinner_viscosity.to("mPa.s") == pytest.approx(0.7)


def test_law_in_kinematic_viscosity() -> None:
    # One waterborne paint in a Ford no. 4 cup, 36.5 s stock -> 23.0 s measured with 10 % water by
    # volume of paint (public forum thread 829188); nu = 3.669 t - 349.6/t, water as anchor.
    nu = 3.669 * 36.5 - 349.6 / 36.5
    law = mc.DilutionLaw.fit([(1, f"{nu} mm2/s")], "1.004 mm2/s", family="waterborne acrylic")
    thinned = law.viscosity(1 / 1.1).to("mm2/s")
    seconds = (thinned + math.sqrt(thinned**2 + 4 * 3.669 * 349.6)) / (2 * 3.669)
    assert seconds == pytest.approx(23.0, abs=0.4)
    with pytest.raises(mc.RangeError, match="kinematic viscosity, as the thinner's"):
        law.paint_fraction_for("18 mPa.s")


def test_law_spread_is_carried() -> None:
    prior = mc.DilutionLaw.fit([(1.0, "135 mPa.s")], "0.7 mPa.s", family="solvent lacquer")
    assert prior.viscosity(0.5).to("mPa.s") == pytest.approx(20.5, abs=0.1)
    wide = mc.DilutionLaw.fit([(1.0, prior.viscosity(0.5))], "0.7 mPa.s", family="lacquer")
    assert wide.paint_viscosity.interval("mPa.s")[1] > 1.3 * wide.paint_viscosity.to("mPa.s")


@pytest.mark.parametrize(
    ("readings", "thinner", "words"),
    [
        ([], "0.7 mPa.s", ["is 0", "at least 1"]),
        (
            [(1.0, "100 mPa.s"), (0.7, "140 mPa.s")],
            "0.7 mPa.s",
            ["140 mPa.s", "100 mPa.s", "curds"],
        ),
        ([(1.5, "100 mPa.s")], "0.7 mPa.s", ["150 %", "up to 100 %"]),
        ([(1.0, "0.5 mPa.s")], "0.7 mPa.s", ["0.5 mPa.s", "0.7 mPa.s", "swapped"]),
        ([(1.0, "100 mm2/s")], "0.7 mPa.s", ["100 mm2/s", "dynamic", "18 mPa.s"]),
    ],
)
def test_law_refuses(readings: list[Any], thinner: str, words: list[str]) -> None:
    with pytest.raises(mc.RangeError) as error:
        mc.DilutionLaw.fit(readings, thinner)
    assert all(w in str(error.value) for w in words), str(error.value)


def test_law_refuses_bare_numbers() -> None:
    with pytest.raises(mc.UnitError, match="bare number 120"):
        mc.DilutionLaw.fit([(1.0, 120)], "0.7 mPa.s")  # type: ignore[list-item]
    with pytest.raises(mc.UnitError, match=r"bare number 0\.7"):
        mc.DilutionLaw.fit([(1.0, "120 mPa.s")], 0.7)  # type: ignore[arg-type]


def test_a_reading_near_the_stock_warns() -> None:
    with pytest.warns(mc.MistcoatWarning, match="between 55 % and 85 %"):
        law = mc.DilutionLaw.fit([(1, "135 mPa.s"), (0.95, "125 mPa.s")], "0.7 mPa.s", "lacquer")
    assert len(law.warnings) == 1


def test_typical_paint() -> None:
    p = mc.Paint.typical("solvent lacquer", name="hull green")
    assert (p.name, p.family) == ("hull green", "solvent lacquer")
    assert p.volume_solids.low < p.volume_solids.best < p.volume_solids.high
    assert "stock_viscosity" in p.typical_fields
    assert mc.Paint.typical("Nitrocellulose lacquer").family == "solvent lacquer"
    assert mc.Paint.families()[0] == "waterborne acrylic"
    with pytest.raises(mc.UnknownName, match="alkyd enamel"):
        mc.Paint.typical("alkid enamel")


def test_typical_viscosity_warns(thinner: mc.Blend) -> None:
    mix = mc.Paint.typical("solvent lacquer").thin(thinner, thinner=1, paint=1)
    with pytest.warns(mc.MistcoatWarning, match="typical"):
        mix.viscosity("21 degC")


def test_paint_files(tmp_path: Path, green: mc.Paint) -> None:
    assert green.name == "hull green"
    green.save(tmp_path / "green.toml")
    assert mc.Paint.load(tmp_path / "green.toml") == green
    assert mc.Paint.from_toml(green.to_toml()) == green
    with pytest.raises(mc.DataError, match="check the path"):
        mc.Paint.load(tmp_path / "none.toml")
    bad = green.to_toml().replace("density", "desnity", 1)
    with pytest.raises(mc.DataError, match="`desnity`") as error:
        mc.Paint.from_toml(bad)
    assert error.value.field == "desnity"
    assert error.value.line is not None


@pytest.mark.parametrize(
    ("how", "x"),
    [
        ({"thinner": 2, "paint": 1}, 1 / 3),
        ({"percent_of_paint": 50}, 2 / 3),
        ({"percent_of_paint": "50 %"}, 2 / 3),
        ({"percent_of_mix": 50}, 1 / 2),
        ({"percent_of_mix": mc.Ratio("50 %")}, 1 / 2),
    ],
)
def test_thinning_in_words(
    green: mc.Paint, thinner: mc.Blend, how: dict[str, Any], x: float
) -> None:
    mix = green.thin(thinner, **how)
    assert mix.paint_fraction == pytest.approx(x)
    assert mix.volume_solids.to("%") == pytest.approx(22 * x)
    assert mix.thinner_per_paint == pytest.approx(1 / x - 1)


def test_thinning_by_mass(green: mc.Paint, thinner: mc.Blend) -> None:
    ratio = thinner.density("20 degC").to("g/mL") / green.density().to("g/mL")
    mix = green.thin(thinner, thinner=1, paint=1, by="mass")
    assert mix.thinner_per_paint == pytest.approx(1 / ratio)
    mix = green.thin(thinner, percent_of_mix=50, by="mass")
    assert mix.thinner_per_paint == pytest.approx(1 / ratio)


def test_named_text_and_objects(green: mc.Paint, thinner: mc.Blend) -> None:
    mix = green.thin(thinner, thinner=2, paint=1)
    assert green.thin(thinner, "2 parts thinner to 1 part paint") == mix
    assert green.thin(thinner, mc.Thinning(thinner=2, paint=1)) == mix


@pytest.mark.parametrize("ratio", ["2:1", 2, 2.0])
def test_bare_ratio_shows_both_readings(green: mc.Paint, thinner: mc.Blend, ratio: Any) -> None:
    with pytest.raises(mc.RangeError) as error:
        green.thin(thinner, ratio)
    text = str(error.value)
    assert "thinner=2" in text.replace(".0", "")
    assert "paint=2" in text.replace(".0", "")


@pytest.mark.parametrize(
    ("how", "words"),
    [
        ({}, ["0", "exactly 1", "thinner=2, paint=1"]),
        ({"thinner": 2}, ["thinner=2", "both parts", "how much paint"]),
        ({"paint": 1}, ["paint=1", "both parts", "how much thinner"]),
        ({"thinner": 2, "paint": 1, "percent_of_mix": 10}, ["2", "exactly 1"]),
        ({"thinner": -1, "paint": 1}, ["-1"]),
        ({"thinner": float("nan"), "paint": 1}, ["NaN"]),
        ({"percent_of_mix": 100}, ["100"]),
    ],
)
def test_thinning_refuses(
    green: mc.Paint, thinner: mc.Blend, how: dict[str, Any], words: list[str]
) -> None:
    with pytest.raises(mc.RangeError) as error:
        green.thin(thinner, **how)
    assert all(w in str(error.value) for w in words), str(error.value)


def test_unknown_basis(green: mc.Paint, thinner: mc.Blend) -> None:
    with pytest.raises(mc.UnknownName, match="volume"):
        green.thin(thinner, thinner=1, paint=1, by="weight")


def test_mix_answers(green: mc.Paint, thinner: mc.Blend) -> None:
    mix = green.thin(thinner, thinner=1, paint=1)
    eta = mix.viscosity("21 degC")
    assert eta.to("mPa.s") < green.viscosity("21 degC").to("mPa.s")
    nu = mix.kinematic_viscosity("21 degC")
    density = mix.density("21 degC")
    assert nu.to("mm2/s") == pytest.approx(eta.to("mPa.s") / density.to("g/mL"))
    cup = mc.FlowCup("ISO 2431", 3)
    assert mix.efflux_time(cup, "21 degC").to("s") > 20
    assert mix.voc().less_water_and_exempt > mix.voc().total  # acetone is exempt
    assert mix.dry_film("25 µm").to("µm") == pytest.approx(25 * 0.11)
    assert mix.wet_film("5 µm").to("µm") == pytest.approx(5 / 0.11)
    assert mix.compatibility == []
    assert len(mix.working()) == 2
    assert mix.paint == green
    assert mix.thinner == thinner


def test_too_thin_for_the_cup(green: mc.Paint, thinner: mc.Blend) -> None:
    mix = green.thin(thinner, thinner=1, paint=1)
    with pytest.warns(mc.MistcoatWarning, match="ISO 2431"):
        mix.efflux_time(mc.FlowCup("ISO 2431", 6), "21 degC")


def test_settling(green: mc.Paint, thinner: mc.Blend) -> None:
    thin = green.thin(thinner, thinner=2, paint=1)
    thick = green.thin(thinner, thinner=0, paint=1)
    assert thin.settling_time("2 mm", "21 degC").to("s") < thick.settling_time(
        "2 mm", "21 degC"
    ).to("s")
    assert thin.settling_velocity("21 degC").to("mm/s") > 0


def test_thin_to(green: mc.Paint, thinner: mc.Blend) -> None:
    mix = green.thin_to(thinner, viscosity="18 mPa.s", temperature="21 degC")
    assert mix.viscosity("21 degC").to("mPa.s") == pytest.approx(18, rel=1e-9)
    cup = mc.FlowCup("ISO 2431", 3)
    for seconds in (45, "45 s", mc.Time("45 s")):
        mix = green.thin_to(thinner, seconds=seconds, cup=cup, temperature="21 degC")
        assert mix.efflux_time(cup, "21 degC").to("s") == pytest.approx(45, rel=1e-9)
    assert (
        green.law(thinner, "21 degC").viscosity(mix.paint_fraction).best
        == mix.viscosity("21 degC").best
    )
    with pytest.raises(mc.RangeError, match="either viscosity, or seconds together with cup"):
        green.thin_to(thinner, seconds=45, temperature="21 degC")
    with pytest.raises(mc.RangeError, match="the thinner alone"):
        green.thin_to(thinner, viscosity="0.1 mPa.s", temperature="21 degC")


def test_drops(green: mc.Paint, thinner: mc.Blend) -> None:
    mix = green.thin(thinner, thinner=2, paint=1)
    dropper = mc.Dropper(tip="3 mm")
    with pytest.warns(mc.MistcoatWarning, match="weigh 20 drops"):
        drops = mix.drops(total="1 mL", dropper=dropper)
    made = (
        drops.thinner_drops
        * drops.thinner_drop.to("mL")
        / (drops.paint_drops * drops.paint_drop.to("mL"))
    )
    assert made == pytest.approx(2, rel=0.1)
    assert drops.recipes[0].total.to("mL") == pytest.approx(1, rel=0.2)
    assert str(drops) == str(drops.recipes[0])


def test_calibrated(green: mc.Paint, thinner: mc.Blend) -> None:
    cup = mc.FlowCup("ISO 2431", 4)
    own = green.calibrated(
        [(1.0, cup, "95 s", "20 degC"), (0.7, "45 mPa.s", "20 degC")], thinner=thinner
    )
    expected = cup.kinematic_viscosity("95 s").to("mm2/s") * green.density("20 degC").to("g/mL")
    assert own.stock_viscosity.to("mPa.s") == pytest.approx(expected, rel=0.02)
    mix = own.thin(thinner, percent_of_mix=30)
    assert mix.viscosity("20 degC").to("mPa.s") == pytest.approx(45, rel=0.08)
    assert own != green
    with pytest.raises(TypeError, match="a reading is"):
        green.calibrated([(1.0, "135 mPa.s")], thinner=thinner)  # type: ignore[list-item]
    with pytest.raises(mc.RangeError, match="at least 1"):
        green.calibrated([])


def test_a_thinner_that_splits() -> None:
    enamel = mc.Paint.load(DEMO / "red_oxide.toml")
    with pytest.raises(mc.PhaseSplit):
        enamel.thin(mc.Blend({"water": 1}), thinner=1, paint=1)


def test_water_in_lacquer_warns(green: mc.Paint) -> None:
    wet = mc.Blend({"acetone": 95, "water": 5}, basis="volume")
    with pytest.warns(mc.MistcoatWarning, match="without water"):
        mix = green.thin(wet, thinner=1, paint=2)
    assert len(mix.compatibility) == 1


def test_values_travel(green: mc.Paint, thinner: mc.Blend, law: mc.DilutionLaw) -> None:
    for value in (green, green.thin(thinner, thinner=2, paint=1), law):
        assert pickle.loads(pickle.dumps(value)) == value == copy.deepcopy(value)
        assert type(value).from_json(value.to_json()) == value
        with pytest.raises(mc.DataError):
            type(value).from_json("{}")
    for paint_or_mix in (green, green.thin(thinner, thinner=2, paint=1)):
        assert eval(repr(paint_or_mix), vars(mc)) == paint_or_mix


def test_drops_and_voc_travel(green: mc.Paint, thinner: mc.Blend) -> None:
    mix = green.thin(thinner, thinner=2, paint=1)
    paint_tip = mc.Dropper.weighed(drops=20, mass="0.41 g", density="0.98 g/mL")
    thinner_tip = mc.Dropper.weighed(drops=20, mass="0.29 g", density="0.84 g/mL")
    without_amount = mix.drops(dropper=paint_tip, thinner_dropper=thinner_tip)
    drops = mix.drops(total="1 mL", dropper=paint_tip, thinner_dropper=thinner_tip)
    assert drops != without_amount
    assert without_amount.recipes[0].amount_error is None
    for value in (drops, without_amount, drops.recipes[0], without_amount.recipes[0], mix.voc()):
        back = pickle.loads(pickle.dumps(value))
        assert back == value == copy.copy(value) == copy.deepcopy(value)
        assert (str(back), type(back)) == (str(value), type(value))
        assert type(value).from_json(value.to_json()) == value
        with pytest.raises(mc.DataError, match="missing field"):
            type(value).from_json("{}")
        with pytest.raises(mc.DataError, match="unknown field `colour`"):
            type(value).from_json(value.to_json().replace("{", '{"colour": 1, ', 1))
    assert pickle.loads(pickle.dumps(drops)).paint_drop == drops.paint_drop
    assert (
        pickle.loads(pickle.dumps(mix.voc())).working().to_text() == mix.voc().working().to_text()
    )


def test_drops_without_a_recipe_are_refused(green: mc.Paint, thinner: mc.Blend) -> None:
    tip = mc.Dropper.weighed(drops=20, mass="0.41 g", density="0.98 g/mL")
    drops = green.thin(thinner, thinner=2, paint=1).drops(total="1 mL", dropper=tip)
    record = json.loads(drops.to_json())
    record["recipes"] = []
    with pytest.raises(mc.DataError, match="at least 1 recipe"):
        mc.MixDrops.from_json(json.dumps(record))
    record = json.loads(drops.to_json())
    record["recipes"][0]["total"] = 1e-6
    with pytest.raises(mc.DataError, match="with a unit"):
        mc.MixDrops.from_json(json.dumps(record))


def test_voc_as_json_keeps_units(green: mc.Paint, thinner: mc.Blend) -> None:
    voc = green.thin(thinner, thinner=1, paint=1).voc()
    record = json.loads(voc.to_json())
    record["total"] = "500 g/L"
    assert mc.Voc.from_json(json.dumps(record)).total == mc.MassConcentration("500 g/L")
    assert mc.Voc.from_json(json.dumps(record)) != voc


def test_a_solvent_by_name_is_a_thinner() -> None:
    paint = mc.Paint.typical("alkyd enamel", name="cabin")
    by_blend = paint.thin(mc.Blend("white spirit"), thinner=1, paint=2)
    assert paint.thin("white spirit", thinner=1, paint=2) == by_blend
    assert paint.thin(mc.solvent("white spirit"), thinner=1, paint=2) == by_blend
    with pytest.raises(mc.UnknownName, match="white spirit"):
        paint.thin("white spirt", thinner=1, paint=2)
    with pytest.raises(TypeError, match=r"Blend, a Solvent or the name.*got 3"):
        paint.thin(3, thinner=1, paint=2)  # type: ignore[arg-type]


def test_a_file_may_call_the_family_by_any_of_its_names() -> None:
    text = 'schema = 1\nname = "hull"\nfamily = "{}"\n'
    assert mc.Paint.from_toml(text.format("lacquer")) == mc.Paint.typical("lacquer", name="hull")
    with pytest.raises(mc.DataError, match=r'line 3.*did you mean "lacquer"'):
        mc.Paint.from_toml(text.format("laquer"))


def test_an_exact_value_is_printed_once() -> None:
    law = mc.DilutionLaw.fit([(1.0, "120 mPa.s")], thinner_viscosity="0.7 mPa.s")
    assert "in 0.7 mPa.s thinner" in str(law)
