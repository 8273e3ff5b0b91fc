"""Solvents at the border: names, properties with their spread, safety figures, sources, files."""

from __future__ import annotations

import copy
import math
import pickle
from pathlib import Path
from typing import Any

import mistcoat as mc
import pytest

MINE = """
[[solvent]]
name = "shed thinner"
source = "label of the can"
formula = "C7H14O2"
boiling_point = { value = "140 °C" }
density = { at_20C = "0.86 g/mL", per_kelvin = "-0.9 kg/m3" }
viscosity = { readings = [{ at = "20 °C", value = "0.8 mPa.s" }] }
surface_tension = { at_20C = "25 mN/m" }
vapour_pressure = { form = "point-and-boiling-point", point = { at = "20 °C", value = "600 Pa" } }
"""


@pytest.mark.parametrize(
    ("name", "method", "at", "unit", "published", "tolerance"),
    [
        ("water", "vapour_pressure", "20 degC", "Pa", 2339.2, 1e-3),  # IAPWS-IF97
        ("acetone", "vapour_pressure", "20 degC", "kPa", 24.7, 0.01),  # median of correlations
        ("water", "density", "25 degC", "kg/m3", 997.05, 1e-3),  # IAPWS-95
        ("water", "viscosity", "25 degC", "mPa.s", 0.890, 5e-3),  # IAPWS 2008
        ("toluene", "viscosity", "20 degC", "mPa.s", 0.588, 0.02),  # thermo 0.6.1
        ("ethanol", "surface_tension", "20 degC", "mN/m", 22.39, 0.01),  # Adamson
        ("n-butyl acetate", "diffusivity", "0 degC", "mm2/s", 5.8, 0.15),  # Perry
        ("water", "heat_of_vaporisation", "0 degC", "kJ/mol", 45.05, 0.01),  # steam tables
        ("n-decane", "kinematic_viscosity", "20 degC", "mm2/s", 0.913 / 0.7300, 0.02),  # thermo
        ("methanol", "molar_volume", "25 degC", "cm3/mol", 40.7, 0.01),  # CRC Handbook
    ],
)
def test_published_values(
    name: str, method: str, at: str, unit: str, published: float, tolerance: float
) -> None:
    value = getattr(mc.solvent(name), method)(at)
    assert value.to(unit) == pytest.approx(published, rel=tolerance)
    low, high = value.interval(unit)
    assert low < value.to(unit) < high
    assert value.contributors


def test_names() -> None:
    assert mc.solvent("N-Butyl Acetate") == mc.solvent("n_butyl_acetate")
    assert mc.solvent("IPA").name == "isopropanol"
    with pytest.raises(mc.UnknownName, match="did you mean") as error:
        mc.solvent("acetne")
    assert error.value.near[0] == "acetone"
    assert isinstance(error.value, KeyError)


def test_what_it_is() -> None:
    s = mc.solvent("n-butyl acetate")
    assert (s.cas, s.formula, s.id) == ("123-86-4", "C6H12O2", "n_butyl_acetate")
    assert "butyl acetate" in s.synonyms
    assert s.molar_mass.to("g/mol") == pytest.approx(116.16)
    assert s.boiling_point > s.melting_point
    assert not s.is_cut
    assert s.surrogate == {}
    assert s.voc_exempt is False
    assert mc.solvent("acetone").voc_exempt is True
    assert mc.solvent("water").voc_exempt is None
    assert s.polystyrene_attack == "dissolves or softens"
    assert s.hansen is not None
    assert s.hansen.d.to("MPa^0.5") == pytest.approx(15.8)


def test_cuts_have_a_surrogate() -> None:
    s = mc.solvent("white spirit")
    assert s.is_cut
    assert sum(s.surrogate.values()) == pytest.approx(1.0)
    assert all(name in mc.solvents() for name in s.surrogate)


def test_evaporation() -> None:
    acetone = mc.solvent("acetone")
    assert acetone.relative_evaporation_rate is not None
    assert 5.0 < float(acetone.relative_evaporation_rate) < 7.0
    predicted = float(acetone.predicted_relative_evaporation_rate)
    assert predicted == pytest.approx(float(acetone.relative_evaporation_rate), rel=0.27)
    assert acetone.evaporation_class == "fast"
    assert acetone.evaporation_number.to("1") == pytest.approx(2.0, rel=0.15)  # DIN 53170
    assert mc.solvent("n-decane").relative_evaporation_rate is None
    assert float(mc.solvent("n-butyl acetate").relative_evaporation_rate or 0) == 1.0


def test_safety_figures_say_when_they_are_from_memory() -> None:
    seen, unseen = mc.solvent("ethanol").flash_point, mc.solvent("methanol").flash_point
    assert seen is not None
    assert unseen is not None
    assert str(seen) == "13 °C"
    assert str(unseen) == "11 °C (from memory, check the safety data sheet)"
    assert unseen.to("degF") == pytest.approx(51.8)
    assert unseen.value == mc.Temperature("11 °C")
    assert unseen.source.is_from_memory
    assert mc.solvent("water").flash_point is None
    assert "from memory" in str(mc.solvent("methanol").exposure_limits[0])
    limit = mc.solvent("acetone").exposure_limits[0]
    assert (limit.name, limit.over, limit.value) == ("OSHA PEL", "8 h", mc.Ratio("1000 ppm"))
    assert not limit.source.is_from_memory
    assert mc.solvent("glycerol").exposure_limits[0].droplets
    lower, upper = (
        mc.solvent("acetone").lower_flammable_limit,
        mc.solvent("acetone").upper_flammable_limit,
    )
    assert lower is not None
    assert upper is not None
    assert 0.0 < lower.to("%") < upper.to("%")


def test_sources() -> None:
    source = mc.solvent("n-propanol").source("flash_point")
    assert source is not None
    assert source.provenance == "from memory"
    assert source.keys
    assert any("IEC" in other for other in source.others)
    assert mc.solvent("water").source("flash_point") is None
    with pytest.raises(mc.UnknownName, match="flash_point"):
        mc.solvent("water").source("flashpoint")


@pytest.mark.parametrize("at", ["90 degC", "-30 degC"])
def test_out_of_range(at: str) -> None:
    with pytest.raises(mc.RangeError) as error:
        mc.solvent("acetone").density(at)
    assert error.value.limit == "0 °C to 60 °C"
    assert error.value.remedy
    with pytest.raises(mc.RangeError, match="melting point"):
        mc.solvent("p-xylene").vapour_pressure("10 degC")


@pytest.mark.parametrize("bad", [20, 20.0, None, "20", "20 kPa", mc.Pressure("1 bar"), math.nan])
def test_temperatures_need_a_unit(bad: Any) -> None:
    with pytest.raises(mc.UnitError):
        mc.solvent("acetone").density(bad)


def test_an_uncertain_temperature_widens_the_interval() -> None:
    acetone = mc.solvent("acetone")
    certain = acetone.vapour_pressure("20 degC")
    room = mc.Estimate._from_state(
        ("Temperature", 293.15, 291.15, 295.15, 0.95, "[]", "[]", None)  # 20 ± 2 °C
    )
    uncertain = acetone.vapour_pressure(room)
    assert uncertain.best == certain.best
    assert uncertain.contributors[0][0] == "temperature"
    # d ln P/dT of acetone is about 4.5 %/K at 20 °C: heat of vaporisation over R T².
    low, high = uncertain.interval("kPa")
    assert (high / low) ** 0.5 == pytest.approx(1.09, abs=0.015)


@pytest.mark.parametrize("name", mc.solvents().names())
def test_values_survive_pickling_and_copying(name: str) -> None:
    s = mc.solvent(name)
    assert pickle.loads(pickle.dumps(s)) == s == copy.deepcopy(s)
    assert hash(pickle.loads(pickle.dumps(s))) == hash(s)
    assert eval(repr(s), vars(mc)) == s
    assert mc.Solvent.from_json(s.to_json()) == s
    for part in [s.flash_point, s.hansen, s.source("density"), *s.exposure_limits]:
        assert pickle.loads(pickle.dumps(part)) == part
        assert hash(pickle.loads(pickle.dumps(part))) == hash(part)
    if s.hansen is not None:
        assert eval(repr(s.hansen), vars(mc)) == s.hansen


def test_catalogue_is_a_table() -> None:
    c = mc.solvents()
    assert len(c) == len(c.names()) == len(list(c)) == 58
    assert "ipa" in c
    assert "beer" not in c
    assert c["ipa"] == mc.solvent("ipa")
    with pytest.raises(KeyError):
        c["beer"]
    text = str(c)
    assert "n-butyl acetate" in text
    assert "safety data sheet" in text
    assert "<table" in c._repr_html_()
    columns = c.columns()
    assert {len(column) for column in columns.values()} == {58}
    assert columns["density_g_mL"][0] == pytest.approx(0.9982, rel=1e-4)
    assert columns["flash_point_degC"][0] is None
    assert pickle.loads(pickle.dumps(c)) == c


def test_catalogue_makes_a_data_frame() -> None:
    pandas = pytest.importorskip("pandas")
    frame = pandas.DataFrame(mc.solvents().columns()).set_index("name")
    assert frame.loc["acetone", "vapour_pressure_Pa"] == pytest.approx(24660, rel=0.01)


def test_files_of_ones_own(tmp_path: Path) -> None:
    path = tmp_path / "mine.toml"
    path.write_text(MINE, encoding="utf-8")
    mine = mc.Catalogue.load(path)
    s = mine.solvent("Shed Thinner")
    assert s.vapour_pressure("20 degC").to("Pa") == pytest.approx(600.0)
    assert repr(s) == f'<Solvent "shed thinner" of {path}>'
    assert pickle.loads(pickle.dumps(s)) == s
    everything = mc.solvents().extended(mine)
    assert len(everything) == 59
    assert everything["acetone"] == mc.solvent("acetone")
    assert pickle.loads(pickle.dumps(everything)) == everything
    source = s.source("density")
    assert source is not None
    assert source.citations == ["label of the can"]


@pytest.mark.parametrize(
    ("text", "line", "says"),
    [
        ("", None, "empty"),
        (MINE.replace("0.86 g/mL", "0.86 g"), 7, "g/mL"),
        (MINE.replace("0.86 g/mL", "-0.86 g/mL"), 7, "allowed is"),
        (MINE.replace("formula", "formule"), 5, "formule"),
        (MINE + "x = 1\n", 11, "unknown field"),
    ],
)
def test_bad_files(text: str, line: int | None, says: str) -> None:
    with pytest.raises(mc.DataError, match=r"mine\.toml") as error:
        mc.Catalogue.from_toml(text, "mine.toml")
    assert error.value.line == line
    assert error.value.file == "mine.toml"
    assert says in str(error.value)
    assert error.value.remedy


def test_missing_file(tmp_path: Path) -> None:
    with pytest.raises(mc.DataError, match="cannot be read"):
        mc.Catalogue.load(tmp_path / "none.toml")
