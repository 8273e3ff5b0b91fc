"""Blends: recipes, values, phases, agreement with an independent library, bad input."""

from __future__ import annotations

import copy
import csv
import pathlib
import pickle
import warnings
from typing import Any

import mistcoat as mc
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

DATA = pathlib.Path(__file__).parent.parent / "data"


def house() -> mc.Blend:
    return mc.Blend(
        {"acetone": 50, "n-butyl acetate": 35, "2-butoxyethanol": 15},
        basis="mass",
        name="house thinner",
    )


def quiet(call: Any, *args: Any) -> Any:
    """What a call gives, with its warnings left aside."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", mc.MistcoatWarning)
        return call(*args)


def test_recipe_and_its_three_readings() -> None:
    b = house()
    assert (b.name, b.basis) == ("house thinner", "mass")
    assert b.parts == {"acetone": 50.0, "n-butyl acetate": 35.0, "2-butoxyethanol": 15.0}
    assert list(b.components) == list(b.parts)
    for reading in ("mass", "volume", "mole"):
        assert sum(c[reading] for c in b.components.values()) == pytest.approx(1.0, abs=1e-12)
    assert sum(b.species.values()) == pytest.approx(1.0, abs=1e-12)
    again = mc.Blend({n: c["mole"] for n, c in b.components.items()}, basis="mole")
    assert again.components["acetone"]["mass"] == pytest.approx(0.5, abs=1e-12)


def test_a_solvent_alone_needs_no_basis() -> None:
    assert mc.Blend("acetone") == mc.Blend({"acetone": 1.0}) == mc.Blend(mc.solvent("acetone"))
    assert mc.Blend({mc.solvent("acetone"): 1.0}) == mc.Blend("acetone")


def test_petroleum_cut_becomes_several_species() -> None:
    b = mc.Blend("white spirit")
    assert list(b.components) == ["white spirit"]
    assert "n-decane" in b.species
    assert len(b.species) == 5


def test_values() -> None:
    b = house()
    assert b.density("20 degC").to("g/mL") == pytest.approx(0.836, abs=5e-4)
    nu = b.viscosity("20 degC").best / mc.DynamicViscosity("1 mPa.s")
    assert b.kinematic_viscosity("20 degC").to("mm2/s") == pytest.approx(nu / 0.8358, rel=1e-3)
    assert 24 < b.surface_tension("20 degC").to("mN/m") < 26
    assert b.molar_mass.to("g/mol") == pytest.approx(77.6, abs=0.1)
    assert 0.1e5 < b.vapour_pressure("20 degC").to("Pa") < 0.3e5
    partial = b.partial_pressures("20 degC")
    total = sum(p.to("Pa") for p in partial.values())
    assert total == pytest.approx(b.vapour_pressure("20 degC").to("Pa"))
    assert "density" in b.density("20 degC").working().to_text().lower()


def test_flash_point_is_an_estimate_that_says_so() -> None:
    with pytest.warns(mc.MistcoatWarning, match="safety data sheet"):
        flash = house().flash_point()
    assert flash is not None
    # Independent implementation: -14.1 degC with parts 2 K lower.
    assert flash.to("degC") == pytest.approx(-14.1, abs=2.2)
    assert mc.Blend("water").flash_point() is None


def test_uncertain_temperature_widens_the_interval() -> None:
    b = mc.Blend({"glycerol": 1, "propylene glycol": 1}, basis="mass")
    sharp = b.viscosity("20 degC")
    assert all(cause != "temperature" for cause, _ in sharp.contributors)
    # A flash point is a temperature with a spread.
    flash = quiet(mc.Blend({"n-butyl acetate": 70, "2-butoxyethanol": 30}, "mass").flash_point)
    warm = mc.Blend("toluene").density(flash)
    assert warm.contributors[0][0] == "temperature"


def test_phases_and_split() -> None:
    b = mc.Blend({"water": 1, "toluene": 1}, basis="volume", name="shed mix")
    phases = b.phases("25 degC")
    assert (phases.is_one, len(phases)) == (False, 2)
    assert phases.rich_in == ["water", "toluene"]
    assert sum(phases.shares_of_mass) == pytest.approx(1.0)
    assert phases.mass_fractions[0]["water"] > 0.99
    assert pickle.loads(pickle.dumps(phases)) == phases
    with pytest.raises(mc.PhaseSplit) as error:
        b.require_one_liquid("25 degC")
    e = error.value
    assert (e.blend, e.first, e.second) == ("shed mix", "water", "toluene")
    assert "25 °C" in str(e)
    assert "add a solvent that mixes with both" in e.remedy
    house().require_one_liquid("25 degC")
    with pytest.raises(mc.PhaseSplit, match="shed mix separates into two liquids"):
        b.partial_pressures("25 degC")


def test_hansen_and_red() -> None:
    acetone, toluene = mc.Blend("acetone"), mc.Blend("toluene")
    assert acetone.hansen == mc.solvent("acetone").hansen
    half = mc.Blend({"acetone": 1, "toluene": 1}, basis="volume").hansen
    middle = (acetone.hansen.d.to("MPa^0.5") + toluene.hansen.d.to("MPa^0.5")) / 2
    assert half.d.to("MPa^0.5") == pytest.approx(middle)
    # Computed with parameters rounded to one digit: 6.27.
    assert acetone.hansen_distance("PVC").to("MPa^0.5") == pytest.approx(6.27, abs=0.06)
    assert toluene.red("polystyrene") < 1 < mc.Blend("methanol").red("polystyrene")
    with pytest.warns(mc.MistcoatWarning, match="scrap"):
        toluene.red("ABS")
    assert "nitrocellulose" in mc.polymers()


def test_evaporation() -> None:
    b = house()
    assert b.relative_evaporation_rate.to("1") > 3
    assert b.evaporation_class == "fast"
    table = b.evaporation_as_it_dries()
    assert len(table) == 10
    assert table.mass_lost == pytest.approx([k / 10 for k in range(10)])
    assert table.residue["2-butoxyethanol"][-1] > 0.9
    assert (table.class_fresh, table.class_at_90) == ("fast", "slow")
    assert sorted(table.relative_rate, reverse=True) == table.relative_rate
    assert pickle.loads(pickle.dumps(table)) == table
    alone = mc.Blend("toluene").relative_evaporation_rate.to("1")
    predicted = mc.solvent("toluene").predicted_relative_evaporation_rate.to("1")
    assert alone == pytest.approx(predicted, rel=1e-4)


def test_mixing_by_volume() -> None:
    cup = house().mixed_with(mc.Blend("toluene"), own=2, others=1, name="in the cup")
    assert cup.components["toluene"]["volume"] == pytest.approx(1 / 3)
    assert cup.name == "in the cup"
    assert cup.named("other").name == "other"


def test_value_semantics() -> None:
    b = house()
    other = mc.Blend(
        {"2-butoxyethanol": 15, "acetone": 50, "n-butyl acetate": 35}, "mass", "house thinner"
    )
    assert b == other
    assert hash(b) == hash(other)
    assert b != house().named("x")
    for same in (
        pickle.loads(pickle.dumps(b)),
        copy.deepcopy(b),
        eval(repr(b), vars(mc)),
        mc.Blend.from_json(b.to_json()),
    ):
        assert same == b
        assert hash(same) == hash(b)
    assert str(b) == "house thinner"
    assert "<table>" in b._repr_html_()


@settings(deadline=None, max_examples=30)
@given(
    st.dictionaries(
        st.sampled_from(["acetone", "toluene", "ethanol", "n-decane", "white spirit"]),
        st.floats(1e-3, 1e3),
        min_size=1,
    ),
    st.sampled_from(["mass", "volume", "mole"]),
)
def test_repr_and_json_give_the_same_blend(parts: dict[str, float], basis: str) -> None:
    b = mc.Blend(parts, basis)
    assert eval(repr(b), vars(mc)) == b == mc.Blend.from_json(b.to_json())


# ------------------------------------------------------------------ agreement with `thermo`


def test_activity_coefficients_agree_with_thermo_side_by_side() -> None:
    unifac = pytest.importorskip("thermo.unifac")
    ethanol = {1: 1, 2: 1, 14: 1}
    for model, version in (("original", 0), ("dortmund", 1)):
        for x in (0.05, 0.3, 0.9):
            more: dict[str, Any] = {}
            if version:
                more = {
                    "subgroups": unifac.DOUFSG,
                    "interaction_data": unifac.DOUFIP2006,
                }
            theirs = unifac.UNIFAC.from_subgroups(
                T=298.15, xs=[x, 1 - x], chemgroups=[ethanol, {16: 1}], version=version, **more
            ).gammas()
            ours = mc.Blend({"ethanol": x, "water": 1 - x}, basis="mole").activity_coefficients(
                "25 degC", model=model
            )
            assert list(ours.values()) == pytest.approx(theirs, rel=1e-9)


def test_reference_file_by_name() -> None:
    blends: dict[str, list[dict[str, str]]] = {}
    with open(DATA / "unifac_reference.csv", newline="", encoding="utf-8") as f:
        for row in csv.DictReader(f):
            blends.setdefault(row["blend"], []).append(row)
    assert len(blends) == 200
    for rows in blends.values():
        b = mc.Blend({r["solvent"]: float(r["mole_fraction"]) for r in rows}, basis="mole")
        gamma = b.activity_coefficients(f"{rows[0]['temperature_C']} °C", model=rows[0]["table"])
        for r in rows:
            assert gamma[r["solvent"]] == pytest.approx(float(r["gamma"]), rel=1e-6)


def test_table_is_chosen_and_recorded() -> None:
    spirit = mc.Blend({"ethanol": 1, "water": 1}, basis="mass")
    assert spirit.activity_model[0] == "dortmund"
    assert house().activity_model[0] == "original"
    auto = spirit.activity_coefficients("25 degC")
    assert auto == spirit.activity_coefficients("25 degC", model="dortmund")
    assert auto != spirit.activity_coefficients("25 degC", model="original")


def test_columns_agree_with_single_values() -> None:
    b = house()
    rng = np.random.default_rng(1)
    x = rng.dirichlet(np.ones(3), size=5000)
    kelvin = rng.uniform(275, 330, 5000)
    gamma = mc.columns.activity_coefficients(kelvin, x, blend=b)
    assert gamma.shape == x.shape
    for i in (0, 17, 4999):
        single = mc.Blend(dict(zip(b.species, x[i].tolist(), strict=True)), basis="mole")
        one = single.activity_coefficients(mc.Temperature(kelvin[i], "K"))
        assert gamma[i].tolist() == pytest.approx(list(one.values()), rel=1e-12)
    # However the rows are split, the result is the same to the last bit.
    half = mc.columns.activity_coefficients(kelvin[:60], x[:60], blend=b)
    assert np.array_equal(half, gamma[:60])
    row = mc.columns.activity_coefficients(float(kelvin[0]), x[0], blend=b)
    assert np.array_equal(row, gamma[0])


def test_bad_rows_of_columns() -> None:
    b = house()
    x = [[0.2, 0.3, 0.5], [-0.1, 0.6, 0.5], [0, 0, 0], [float("nan"), 0.5, 0.5]]
    with pytest.warns(mc.MistcoatWarning, match=r"2 bad row\(s\), first at index 1"):
        gamma = mc.columns.activity_coefficients(298.15, x, blend=b)
    assert np.isfinite(gamma[0]).all()
    assert np.isnan(gamma[1:]).all()
    with pytest.raises(mc.RangeError, match=r"253.15 to 353.15 K"):
        mc.columns.activity_coefficients(25.0, x[0], blend=b, errors="raise")
    with pytest.raises(mc.RangeError, match="one column for each of: acetone"):
        mc.columns.activity_coefficients(298.15, [[0.5, 0.5]], blend=b)
    with pytest.raises(mc.RangeError, match="one for each"):
        mc.columns.activity_coefficients([298.15, 300.0, 301.0], [x[0]], blend=b)


# ------------------------------------------------------------------ bad input


def test_two_solvents_without_basis_name_the_three_readings() -> None:
    with pytest.raises(mc.UnitError) as error:
        mc.Blend({"acetone": 50, "toluene": 50})
    for reading in ('basis="mass"', 'basis="volume"', 'basis="mole"'):
        assert reading in str(error.value)


@pytest.mark.parametrize(
    ("parts", "kind", "words"),
    [
        ({}, mc.RangeError, "name at least one solvent"),
        ({"acetone": 0}, mc.RangeError, "name at least one solvent"),
        ({"acetone": -1}, mc.RangeError, "0 or more"),
        ({"acetone": float("nan")}, mc.RangeError, "NaN"),
        ({"acetone": float("inf")}, mc.RangeError, "finite"),
        ({"acetne": 1}, mc.UnknownName, "did you mean"),
        ({"acetone": "50 mL"}, mc.UnitError, "plain number"),
        ({"acetone": True}, mc.UnitError, "plain number"),
        ({"acetone": mc.Volume("5 mL")}, mc.UnitError, "plain number"),
        ({3: 1.0}, mc.UnitError, "write its name"),
        (7, mc.UnitError, "write its name"),
        (None, mc.UnitError, "write its name"),
    ],
)
def test_bad_recipes(parts: Any, kind: type[Exception], words: str) -> None:
    with pytest.raises(kind, match=words):
        mc.Blend(parts, basis="volume")


def test_other_bad_input() -> None:
    b = house()
    with pytest.raises(mc.UnknownName, match="mass"):
        mc.Blend({"acetone": 1}, basis="parts")
    with pytest.raises(mc.UnitError, match="bare number 20"):
        b.density(20)  # type: ignore[arg-type]
    with pytest.raises(mc.UnitError):
        b.density("20 psi")
    with pytest.raises(mc.RangeError, match="-20 °C to 80 °C"):
        b.density("200 degC")
    with pytest.raises(mc.UnknownName, match="dortmund"):
        b.activity_coefficients("20 degC", model="dortmnd")
    with pytest.raises(mc.UnknownName, match="polystyrene"):
        b.red("polystyren")
    with pytest.raises(mc.RangeError, match="2 to 1000"):
        b.evaporation_as_it_dries(1)
    with pytest.raises(mc.RangeError, match="0 or more"):
        b.mixed_with(b, own=-1, others=1)
    with pytest.raises(mc.DataError, match="colour"):
        mc.Blend.from_json('{"basis": "mass", "parts": [], "colour": "red"}')
    with pytest.raises(AttributeError):
        b.name = "other"  # type: ignore[misc]


def test_two_liquids_are_not_passed_over_in_silence() -> None:
    apart = mc.Blend({"water": 1, "toluene": 1}, basis="mass")
    for ask in (apart.viscosity, apart.vapour_pressure, apart.partial_pressures):
        with pytest.raises(mc.PhaseSplit, match="separates into two liquids"):
            ask("20 degC")
