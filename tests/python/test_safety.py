"""Exposure, fire and cautions at the border."""

from __future__ import annotations

import copy
import pickle
from typing import Any

import mistcoat as mc
import pytest
from mistcoat import safety


def thinner() -> mc.Blend:
    return mc.Blend({"acetone": 50, "n-butyl acetate": 35, "2-butoxyethanol": 15}, basis="mass")


def test_worked_examples() -> None:
    # 29 CFR 1910.1000(d)(2) and (d)(1).
    pairs = [("500 ppm", "1000 ppm"), ("45 ppm", "200 ppm"), ("40 ppm", "200 ppm")]
    assert safety.sum_of_shares(pairs) == pytest.approx(0.925)
    day = [("150 ppm", "2 h"), ("75 ppm", "2 h"), ("50 ppm", "4 h")]
    assert safety.time_weighted_average(day).to("ppm") == pytest.approx(81.25)


def test_mixture() -> None:
    air = {"acetone": "55 ppm", "n-butyl acetate": "19.5 ppm", "2-butoxyethanol": "8.2 ppm"}
    osha = safety.mixture_exposure(air, authority="OSHA PEL")
    assert osha.sum == pytest.approx(0.349, rel=2e-3)
    assert osha.sum == pytest.approx(sum(osha.shares.values()))
    assert next(iter(osha.shares)) == "2-butoxyethanol"
    lowest = safety.mixture_exposure(air)
    assert lowest.sum >= osha.sum
    # By mass: 1 mg/m3 of acetone (58.08 g/mol) is 0.421 ppm at 25 degC.
    by_mass = safety.mixture_exposure({"acetone": "100 mg/m3"}, authority="OSHA PEL")
    assert by_mass.sum == pytest.approx(100 * 0.421 / 1000, rel=5e-3)
    assert safety.mixture_exposure(
        {"propylene glycol": "1 ppm"}, authority="OSHA PEL"
    ).without_limit


def test_every_safety_output_has_source_and_caution() -> None:
    limits = 0
    for solvent in mc.solvents():
        if not solvent.exposure_limits:
            continue
        found = safety.mixture_exposure({solvent.name: "1 ppm"})
        for source in found.sources:
            limits += 1
            assert source.citations
            text = repr(found)
            assert ("from memory" in text) == source.is_from_memory, text
        assert any("decide" in caution for caution in found.cautions)
    assert limits > 20
    for spray in (True, False):
        for family in ["lacquer", "alkyd enamel", "oil", "waterborne acrylic", "alcohol acrylic"]:
            paint = mc.Paint.typical(family)
            told = safety.cautions([paint], [thinner()], spray=spray, rinse=True, workshop=True)
            assert all(c.source and c.text for c in told)
            assert told[-1].key == "data-sheet"
    shelf = safety.cupboard(thinner(), "1 mL", space="1 m3", temperature="21 degC")
    assert shelf is not None
    assert any("decide" in caution for caution in shelf.cautions)
    assert "from memory" in str(shelf.limit) or not shelf.limit.is_from_memory


def test_fire() -> None:
    limit = safety.lower_flammable_limit(thinner())
    assert limit is not None
    assert limit.limit.to("%") == pytest.approx(1.86, rel=0.12)  # Le Chatelier, worked by hand
    assert len(limit.terms) == 3
    assert safety.lower_flammable_limit("water") is None
    assert safety.cupboard("water", "1 mL", space="1 m3", temperature="21 degC") is None
    # 1 mL of toluene gives 0.226 L of vapour (worked).
    vapour = safety.vapour_volume("toluene", "1 mL", temperature="20 degC")
    assert vapour.to("mL") == pytest.approx(226, rel=0.01)


@pytest.mark.parametrize("words", ["2K clear", "isocyanate hardener", "two-pack urethane"])
def test_isocyanates_are_refused_on_every_path(words: str, tmp_path: Any) -> None:
    with pytest.raises(mc.RangeError, match="licensed practice"):
        mc.Paint.typical("solvent lacquer", name=words)
    with pytest.raises(mc.RangeError, match="licensed practice"):
        mc.Paint.typical(words)
    file = tmp_path / "paint.toml"
    text = f'schema = 1\nname = "gloss"\nfamily = "solvent lacquer"\nnote = "{words}"\n'
    file.write_text(text, encoding="utf-8")
    with pytest.raises(mc.MistcoatError, match="licensed practice"):
        mc.Paint.load(file)
    json = mc.Paint.typical("solvent lacquer", name="gloss").to_json().replace("gloss", words)
    with pytest.raises(mc.MistcoatError, match="licensed practice"):
        mc.Paint.from_json(json)


@pytest.mark.parametrize(
    "thing",
    [
        safety.mixture_exposure({"acetone": "55 ppm"}),
        safety.lower_flammable_limit("acetone"),
        safety.cupboard("acetone", "1 mL", space="1 m3", temperature="21 degC"),
        safety.cautions([mc.Paint.typical("lacquer")])[0],
    ],
)
def test_records_pickle_and_copy(thing: Any) -> None:
    assert pickle.loads(pickle.dumps(thing)) == thing == copy.deepcopy(thing)


@pytest.mark.parametrize(
    ("call", "error", "says"),
    [
        (lambda: safety.mixture_exposure({"acetone": 55}), mc.UnitError, "55"),  # type: ignore[dict-item]
        (lambda: safety.mixture_exposure({"aceton": "5 ppm"}), mc.UnknownName, "acetone"),
        (lambda: safety.mixture_exposure({"acetone": "-5 ppm"}), mc.RangeError, "0 ppm"),
        (
            lambda: safety.mixture_exposure({"acetone": "5 ppm"}, authority="OSHA"),
            mc.UnknownName,
            "OSHA PEL",
        ),
        (lambda: safety.mixture_exposure({"acetone": "5 ppm"}, over="1 h"), mc.UnknownName, "8 h"),
        (
            lambda: safety.cupboard("acetone", "1 mL", space="0 m3", temperature="21 degC"),
            mc.RangeError,
            "1 L",
        ),
        (lambda: safety.time_weighted_average([("5 ppm", "25 h")]), mc.RangeError, "24 h"),
    ],
)
def test_bad_input(call: Any, error: type[Exception], says: str) -> None:
    with pytest.raises(error, match=says):
        call()
