"""Bad input over the whole package: each gets its typed error with value, limit and remedy."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import mistcoat as mc
import pytest

ACETONE = {"acetone": 1.0}
IPA = {"isopropanol": 1.0}


def lacquer() -> mc.Paint:
    return mc.Paint.typical("solvent lacquer", name="test")


def acetone() -> mc.Blend:
    return mc.Blend(ACETONE, basis="mass")


CUP = mc.FlowCup("ISO 2431", 4)


def wrong(call: Callable[..., object], argument: object) -> object:
    """Call with an argument that the type checker would refuse."""
    return call(argument)


CASES: list[tuple[str, Callable[[], object], type[Exception], tuple[str, ...]]] = [
    (
        "bare number",
        lambda: wrong(CUP.kinematic_viscosity, 35),
        mc.UnitError,
        ("35", 'Time(35, "s")'),
    ),
    ("bare zero", lambda: wrong(CUP.kinematic_viscosity, 0.0), mc.UnitError, ("0.0", "s")),
    ("wrong dimension", lambda: CUP.kinematic_viscosity("35 mm"), mc.UnitError, ("mm", "35 s")),
    (
        "wrong class",
        lambda: wrong(CUP.efflux_time, mc.Time("35 s")),
        mc.UnitError,
        ("Time", "mm2/s"),
    ),
    ("NaN", lambda: CUP.kinematic_viscosity("nan s"), mc.UnitError, ("nan", "35 s")),
    ("negative time", lambda: CUP.kinematic_viscosity("-35 s"), mc.RangeError, ("-35 s", "12.1")),
    ("below the zero", lambda: CUP.kinematic_viscosity("12 s"), mc.RangeError, ("12 s", "12.1")),
    ("negative viscosity", lambda: CUP.efflux_time("-1 mm2/s"), mc.RangeError, ("-1",)),
    ("unknown cup size", lambda: mc.FlowCup("ISO 2431", 7), mc.MistcoatError, ("7", "4")),
    ("unknown standard", lambda: mc.FlowCup("ISO 2413", 4), mc.UnknownName, ("ISO 2431",)),
    ("near name", lambda: mc.solvent("acetne"), mc.UnknownName, ("acetne", "acetone")),
    ("no near name", lambda: mc.solvent("zzzz"), mc.UnknownName, ("zzzz",)),
    ("too cold", lambda: mc.solvent("acetone").density("-200 degC"), mc.RangeError, ("-200",)),
    ("too hot", lambda: mc.solvent("acetone").vapour_pressure("900 degC"), mc.RangeError, ("900",)),
    ("empty blend", lambda: mc.Blend({}, basis="mass"), mc.RangeError, ("0", "acetone")),
    ("negative part", lambda: mc.Blend({"acetone": -1}, basis="mass"), mc.RangeError, ("-1",)),
    (
        "NaN part",
        lambda: mc.Blend({"acetone": float("nan")}, basis="mass"),
        mc.RangeError,
        ("NaN",),
    ),
    ("all zero", lambda: mc.Blend({"acetone": 0}, basis="mass"), mc.RangeError, ("0",)),
    ("unknown part", lambda: mc.Blend({"acetne": 1}, basis="mass"), mc.UnknownName, ("acetone",)),
    (
        "two liquids",
        lambda: lacquer().thin(mc.Blend({"water": 1}, basis="mass"), thinner=1, paint=1),
        mc.PhaseSplit,
        ("two liquids", "water"),
    ),
    (
        "bare ratio",
        lambda: lacquer().thin(acetone(), "2:1"),
        mc.MistcoatError,
        ("thinner", "paint"),
    ),
    ("no ratio", lambda: lacquer().thin(acetone()), mc.MistcoatError, ("thinner", "paint")),
    (
        "negative thinner",
        lambda: lacquer().thin(acetone(), thinner=-1, paint=1),
        mc.RangeError,
        ("-1",),
    ),
    (
        "all thinner",
        lambda: lacquer().thin(acetone(), percent_of_mix=100),
        mc.RangeError,
        ("100",),
    ),
    ("unknown family", lambda: mc.Paint.typical("lacker", name="x"), mc.UnknownName, ("lacquer",)),
    (
        "humidity above 100 %",
        lambda: mc.Room(temperature="21 degC", relative_humidity="120 %"),
        mc.RangeError,
        ("120 %", "100 %"),
    ),
    (
        "room too hot",
        lambda: mc.Room(temperature="90 degC", relative_humidity="50 %"),
        mc.RangeError,
        ("90 °C", "60 °C"),
    ),
    (
        "wet film of zero",
        lambda: mc.Film(acetone(), wet_thickness="0 um", solids="10 %", room=room()),
        mc.RangeError,
        ("0", "5 mm"),
    ),
    (
        "unknown substrate",
        lambda: mc.Film(
            acetone(), wet_thickness="20 um", solids="10 %", room=room(), substrate="polystrene"
        ),
        mc.UnknownName,
        ("polystyrene",),
    ),
    ("dropper of no width", lambda: mc.Dropper(tip="0 mm"), mc.RangeError, ("0",)),
    (
        "no drops weighed",
        lambda: mc.Dropper.weighed(drops=0, mass="0.4 g", density="0.9 g/mL"),
        mc.RangeError,
        ("0",),
    ),
    (
        "law: thinner thicker than paint",
        lambda: mc.DilutionLaw.fit([(1.0, "1 mPa.s")], thinner_viscosity="5 mPa.s"),
        mc.RangeError,
        ("5 mPa.s",),
    ),
]


def room() -> mc.Room:
    return mc.Room(temperature="21 degC", relative_humidity="50 %")


@pytest.mark.parametrize(
    ("call", "error", "says"), [c[1:] for c in CASES], ids=[c[0] for c in CASES]
)
def test_bad_input(
    call: Callable[[], object], error: type[Exception], says: tuple[str, ...]
) -> None:
    with pytest.raises(error) as caught:
        call()
    text = str(caught.value)
    for words in says:
        assert words in text, text
    if isinstance(caught.value, mc.RangeError):
        assert caught.value.value
        assert caught.value.limit
        assert caught.value.remedy


@pytest.mark.parametrize(
    ("name", "content", "says"),
    [
        ("empty", "", "empty"),
        ("malformed", "schema = 1\nname = [", "line 2"),
        ("unknown field", 'schema = 1\nname = "x"\nfamily = "alkyd enamel"\nshine = 3\n', "shine"),
        ("no unit", 'schema = 1\nname = "x"\nfamily = "alkyd enamel"\ndensity = 1.2\n', "line 4"),
        ("binary", "\x00\x01\x02", "line 1"),
        ("huge", "# " + "x" * 30_000_000, "262144"),
    ],
)
def test_bad_paint_files(tmp_path: Path, name: str, content: str, says: str) -> None:
    path = tmp_path / f"{name}.toml"
    path.write_text(content, encoding="utf-8")
    with pytest.raises(mc.DataError) as caught:
        mc.Paint.load(path)
    assert says in str(caught.value), str(caught.value)
    assert caught.value.problem
    assert caught.value.remedy
    assert name in caught.value.file


def test_a_paint_file_that_is_not_there(tmp_path: Path) -> None:
    with pytest.raises((mc.DataError, FileNotFoundError), match=r"nowhere\.toml"):
        mc.Paint.load(tmp_path / "nowhere.toml")
