"""Flow cups in Python: names, both directions, warnings, timing, home-made cups."""

from __future__ import annotations

import csv
import pickle
from pathlib import Path

import mistcoat as mc
import pytest

DATA = Path(__file__).parents[1] / "data"
ISO4 = mc.FlowCup("ISO 2431", 4)


@pytest.mark.parametrize(
    ("standard", "size", "orifice_mm", "celsius"),
    [
        ("ISO 2431", 3, 3.0, 23),
        ("ISO 2431", 4, 4.0, 23),
        ("ASTM D1200", 4, 4.12, 25),
        ("ASTM D4212 Zahn", 2, 2.7, 25),
        ("ASTM D4212 Shell", 1, 1.8, 25),
        ("ASTM D4212 Shell", 2.5, 2.7, 25),
        ("DIN 53211", 4, 4.0, 20),
        ("GB/T 1723", 4, 4.0, 23),
    ],
)
def test_public_names(standard: str, size: float, orifice_mm: float, celsius: float) -> None:
    cup = mc.FlowCup(standard, size)
    assert cup.orifice is not None
    assert cup.orifice.to("mm") == pytest.approx(orifice_mm)
    assert cup.temperature is not None
    assert cup.temperature.to("degC") == pytest.approx(celsius)
    low, high = cup.time_range
    assert cup.zero_time < low < high
    assert cup.source
    assert cup.precision_source
    assert eval(repr(cup), vars(mc)) == cup == pickle.loads(pickle.dumps(cup))
    assert hash(pickle.loads(pickle.dumps(cup))) == hash(cup)
    assert mc.FlowCup.from_json(cup.to_json()) == cup


def test_list_holds_every_cup_once() -> None:
    cups = mc.FlowCup.list()
    assert len({c.name for c in cups}) == len(cups) > 30
    assert {"standard", "withdrawn standard", "fit to a published table"} == {c.kind for c in cups}


@pytest.mark.filterwarnings("ignore::mistcoat.MistcoatWarning")
def test_published_rows() -> None:
    with (DATA / "flowcup_checks.csv").open(encoding="utf-8") as f:
        rows = [r for r in csv.DictReader(f) if r["verdict"] == "agrees"]
    assert len(rows) > 60
    for r in rows:
        cup = mc.FlowCup(r["standard"], r["size"])
        nu = cup.kinematic_viscosity(mc.Time(float(r["efflux_s"]), "s"))
        published = float(r["published_mm2_s"])
        # Limits are stated to a tenth of a percent.
        assert nu.to("mm2/s") == pytest.approx(published, rel=(float(r["limit_pct"]) + 0.05) / 100)
        assert cup.efflux_time(nu.best).to("s") == pytest.approx(float(r["efflux_s"]), rel=1e-9)


def test_the_answer_carries_interval_and_working() -> None:
    nu = ISO4.kinematic_viscosity("35 s")
    assert nu.to("mm2/s") == pytest.approx(1.37 * 35 - 200 / 35, rel=1e-12)
    low, high = nu.interval("mm2/s")
    assert low < nu.to("mm2/s") < high
    assert "reproducibility" in nu.contributors[0][0]
    text = nu.working().to_text()
    assert "1.37 × 35 − 200/35" in text
    assert "ISO 2431" in text
    assert nu.warnings == []


def test_outside_the_range_a_cup_that_serves_is_named() -> None:
    with pytest.warns(mc.MistcoatWarning, match="ISO 2431 3"):
        thin = ISO4.kinematic_viscosity("20 s")
    assert thin.to("mm2/s") == pytest.approx(17.4)
    with pytest.warns(mc.MistcoatWarning, match="home-made"):
        ISO4.efflux_time("12 mm2/s")
    suggested = [cup.name for cup, _ in mc.cups_for("12 mm2/s")]
    assert "ISO 2431 3 mm" in suggested
    assert "ISO 2431 4 mm" not in suggested


@pytest.mark.parametrize("bad", ["12 s", "0 s", "-35 s"])
def test_times_at_or_below_zero_viscosity_are_refused(bad: str) -> None:
    with pytest.raises(mc.RangeError, match=r"12\.1 s") as error:
        ISO4.kinematic_viscosity(bad)
    assert error.value.remedy
    assert error.value.value in str(error.value)


def test_bad_calls() -> None:
    with pytest.raises(mc.UnknownName, match="did you mean") as error:
        mc.FlowCup("ISO 2413", 4)
    assert error.value.near[0] == "ISO 2431"
    with pytest.raises(mc.UnknownName, match="sizes"):
        mc.FlowCup("ISO 2431", 7)
    with pytest.raises(mc.UnitError, match="size"):
        mc.FlowCup("ISO 2431", True)
    with pytest.raises(mc.UnitError, match='write "35 s"'):
        ISO4.kinematic_viscosity(35)  # type: ignore[arg-type]
    with pytest.raises(mc.UnitError, match="time"):
        ISO4.kinematic_viscosity("35 mm2/s")
    with pytest.raises(mc.RangeError, match="above 0"):
        ISO4.efflux_time("0 mm2/s")
    with pytest.raises(mc.DataError, match="JSON"):
        mc.FlowCup.from_json("{}")
    with pytest.raises(mc.DataError, match="JSON"):
        mc.FlowCup.from_json(ISO4.to_json().replace("1.37", "-1.37"))


def test_repeat_runs() -> None:
    t = ISO4.time("35.1 s", "34.6 s")
    assert t.to("s") == pytest.approx(34.85)
    nu = ISO4.kinematic_viscosity(t)
    assert any("timing" in cause for cause, _ in nu.contributors)
    with pytest.warns(mc.MistcoatWarning, match="make a third"):
        ISO4.time("35 s", "38 s")
    with pytest.warns(mc.MistcoatWarning, match="dropped 38 s"):
        assert ISO4.time("35 s", "38 s", "35.3 s").to("s") == pytest.approx(35.15)
    assert mc.timing("35 s").to("s") == pytest.approx(35)
    with pytest.raises(mc.RangeError, match="at least 1"):
        ISO4.time()


def test_a_home_made_cup() -> None:
    water = mc.ReferenceLiquid.water().kinematic_viscosity("21 degC")
    half = mc.ReferenceLiquid.glycerol_water("50 %").kinematic_viscosity("21 degC")
    thick = mc.ReferenceLiquid.glycerol_water("70 %").kinematic_viscosity("21 degC")
    cup = mc.FlowCup.calibrate(
        [(water, "8.3 s"), (half, "15 s"), (thick, "44 s")], name="10 mL syringe"
    )
    c = cup.calibration
    assert c is not None
    assert c.k_std_mm2_s2 > 0
    assert c.b_std_mm2 > 0
    assert "±" in repr(c)
    assert "least squares" in c.working().to_text()
    nu = cup.kinematic_viscosity("30 s")
    assert 8 < nu.to("mm2/s") < 20
    assert any("calibration" in cause for cause, _ in nu.contributors)
    with pytest.warns(mc.MistcoatWarning, match="above the range"):
        cup.kinematic_viscosity("60 s")
    assert pickle.loads(pickle.dumps(cup)) == cup
    assert pickle.loads(pickle.dumps(c)) == c
    assert cup.kind == "home-made"
    with pytest.raises(mc.RangeError, match="at least 2"):
        mc.FlowCup.calibrate([(water, "8.3 s")])


def test_water_anchors_a_ford_cup() -> None:
    water = mc.ReferenceLiquid.water().kinematic_viscosity("20 degC")
    cup = mc.FlowCup("ASTM D1200", 4).anchored(water, "9.9 s")
    assert cup.kinematic_viscosity("9.9 s").to("mm2/s") == pytest.approx(1.003, abs=2e-3)
    assert "1.2 %" in cup.note


def test_reference_liquids() -> None:
    water = mc.ReferenceLiquid.water()
    # IAPWS: 1.0016 mPa.s at 20 °C, 0.8900 at 25 °C; 998.21 kg/m3 at 20 °C.
    assert water.viscosity("20 degC").to("mPa.s") == pytest.approx(1.0016, rel=2e-4)
    assert water.viscosity("25 degC").to("mPa.s") == pytest.approx(0.8900, rel=2e-4)
    assert water.density("20 degC").to("kg/m3") == pytest.approx(998.21, abs=0.01)
    mix = mc.ReferenceLiquid.glycerol_water("60 %")
    # Segur and Oberstar 1951
    assert mix.viscosity("20 degC").to("mPa.s") == pytest.approx(10.8, rel=0.03)
    assert pickle.loads(pickle.dumps(mix)) == mix
    assert "IAPWS" in water.source
    with pytest.raises(mc.RangeError, match="0 °C to 60 °C"):
        water.density("80 degC")
    with pytest.raises(mc.RangeError, match="0 % to 100 %"):
        mc.ReferenceLiquid.glycerol_water("120 %")
