"""Thinning, drops, films and batches in Python."""

from __future__ import annotations

import pickle

import mistcoat as mc
import pytest

TIP = mc.Dropper(tip="3 mm")


def test_every_wording_is_the_same_mix() -> None:
    mixes = [
        mc.Thinning(thinner=1, paint=2),
        mc.Thinning(percent_of_paint=50),
        mc.Thinning(percent_of_paint="50 %"),
        mc.Thinning(percent_of_mix=mc.Ratio(100 / 3, "%")),
        mc.Thinning(paint_fraction=2 / 3),
        mc.Thinning("1 part thinner to 2 parts paint"),
        mc.Thinning("paint:thinner 2:1"),
        mc.Thinning("50 % of paint"),
    ]
    for mix in mixes:
        assert mix.paint_fraction == pytest.approx(2 / 3, rel=1e-12)
        assert mix.thinner_per_paint == pytest.approx(0.5)
        assert mix.percent_of_paint == pytest.approx(50)
        assert mix.percent_of_mix == pytest.approx(100 / 3)
        assert eval(repr(mix), vars(mc)) == mix == pickle.loads(pickle.dumps(mix))
    assert mixes[0].thinner_for("10 mL").to("mL") == pytest.approx(5)


def test_by_mass() -> None:
    # 1:1 by volume of paint at 1.20 g/mL and thinner at 0.87 g/mL is 1:0.725 by mass (definition).
    by_mass = mc.Thinning(
        thinner=0.725, paint=1, by="mass", thinner_density="0.87 g/mL", paint_density="1.20 g/mL"
    )
    assert by_mass.paint_fraction == pytest.approx(0.5)
    even = mc.Thinning(thinner=1, paint=1)
    assert even.thinner_per_paint_by_mass("0.87 g/mL", "1.20 g/mL") == pytest.approx(0.725)
    with pytest.raises(mc.RangeError, match="thinner_density"):
        mc.Thinning(thinner=1, paint=1, by="mass")
    with pytest.raises(mc.UnknownName, match="volume"):
        mc.Thinning(thinner=1, paint=1, by="weight")


def test_a_bare_ratio_is_refused_with_both_readings() -> None:
    with pytest.raises(mc.RangeError) as error:
        mc.Thinning("2:1")
    assert "thinner=2, paint=1 (33 % paint" in str(error.value)
    assert "thinner=1, paint=2 (67 % paint" in str(error.value)
    with pytest.raises(mc.RangeError, match="of mix"):
        mc.Thinning("50 %")
    with pytest.raises(mc.RangeError, match="exactly one"):
        mc.Thinning()
    with pytest.raises(mc.RangeError, match="exactly one"):
        mc.Thinning(thinner=2)
    with pytest.raises(mc.RangeError, match="exactly one"):
        mc.Thinning(thinner=2, paint=1, percent_of_mix=10)
    with pytest.raises(mc.RangeError, match="parts of paint"):
        mc.Thinning(thinner=2, paint=0)
    with pytest.raises(mc.RangeError, match="0 or above"):
        mc.Thinning(thinner=float("nan"), paint=1)


def test_drops_of_water_and_alcohol() -> None:
    water = TIP.drop_volume(surface_tension="72.74 mN/m", density="0.9982 g/mL")
    # USP <1101>: a 3 mm dropper gives water drops of 45 to 55 mg.
    assert 45 < water.to("uL") * 0.9982 < 55
    low, high = water.interval("uL")
    assert low < water.to("uL") < high
    alcohol = TIP.drop_volume(surface_tension="22.35 mN/m", density="0.7895 g/mL")
    assert 1000 / alcohol.to("uL") == pytest.approx(58, abs=1)
    assert "Harkins" in water.working().to_text()
    hand = mc.Dropper(tip="3 mm", by_hand=True)
    by_hand = hand.drop_volume(surface_tension="72.74 mN/m", density="0.9982 g/mL")
    assert by_hand.to("uL") == pytest.approx(1.05 * water.to("uL"))


class Liquid:
    """Anything that knows its surface tension and density at a temperature."""

    def surface_tension(self, temperature: str) -> mc.SurfaceTension:
        return mc.SurfaceTension("22.35 mN/m")

    def density(self, temperature: str) -> mc.Density:
        return mc.Density("0.7895 g/mL")


class Thick(Liquid):
    def viscosity(self, temperature: str) -> mc.DynamicViscosity:
        return mc.DynamicViscosity("1.4 Pa.s")


def test_a_liquid_is_asked_for_its_properties() -> None:
    asked = TIP.drop_volume(Liquid(), "20 degC")
    given = TIP.drop_volume(surface_tension="22.35 mN/m", density="0.7895 g/mL")
    assert asked == given
    with pytest.warns(mc.MistcoatWarning, match="weigh 20 drops"):
        TIP.drop_volume(Thick(), "20 degC")
    with pytest.raises(mc.RangeError, match="surface_tension="):
        TIP.drop_volume(Liquid())


def test_a_blend_is_asked_too() -> None:
    alcohol = TIP.drop_volume(mc.Blend({"ethanol": 100}, basis="mass"), "20 degC")
    # Drops per mL of ethanol from a 3 mm tip, worked out from the same theory: 58.
    assert 1000 / alcohol.to("uL") == pytest.approx(58, abs=1)


def test_weighed_and_counted_droppers() -> None:
    weighed = mc.Dropper.weighed(drops=20, mass="0.41 g", density="0.88 g/mL")
    assert weighed.drop_volume().to("uL") == pytest.approx(410 / 0.88 / 20)
    counted = mc.Dropper.counted(drops=25, volume="1 mL")
    assert counted.drop_volume().to("uL") == pytest.approx(40)
    tip = mc.Dropper.tip_from_drop("0.0616115 mL", "72.74 mN/m", "0.9982 g/mL")
    assert tip.tip_diameter is not None
    assert tip.tip_diameter.to("mm") == pytest.approx(4.08, abs=0.01)
    for d in (weighed, counted, tip, TIP):
        assert pickle.loads(pickle.dumps(d)) == d
    with pytest.raises(mc.RangeError, match="tip="):
        mc.Dropper()
    with pytest.raises(mc.RangeError, match="at least 1"):
        mc.Dropper.weighed(drops=0, mass="0.4 g", density="1 g/mL")
    with pytest.raises(mc.UnitError, match='write "3 mm"'):
        mc.Dropper(tip=3)  # type: ignore[arg-type]


def test_whole_drop_recipes() -> None:
    best = mc.dose.drop_recipes(
        mc.Thinning(thinner=1, paint=1), paint_drop="27 uL", thinner_drop="17 uL", total="1 mL"
    )[0]
    made = best.thinner_drops * 17 / (best.paint_drops * 27)
    assert best.ratio_error == pytest.approx(made - 1, abs=1e-9)
    assert abs(best.ratio_error) < 0.05
    assert best.thinner_drops > best.paint_drops
    assert best.total.to("uL") == pytest.approx(17 * best.thinner_drops + 27 * best.paint_drops)
    assert best.paint_fraction.to("%") == pytest.approx(100 / (1 + made))
    few = mc.dose.drop_recipes(
        "2 parts thinner to 1 part paint", paint_drop="30 uL", thinner_drop="20 uL"
    )
    assert (few[-1].paint_drops, few[-1].thinner_drops) == (1, 3)
    counted = mc.dose.counted_volume(10, "40 uL", doubtful_last_drop=True)
    assert counted.to("uL") == pytest.approx(400)
    with pytest.raises(mc.RangeError, match="syringe"):
        mc.dose.drop_recipes(
            mc.Thinning(thinner=1, paint=1), paint_drop="30 uL", thinner_drop="20 uL", total="1 L"
        )


def test_films_volatiles_and_pigment() -> None:
    d = mc.dose
    assert d.wet_film("150 um", "75 %").to("um") == pytest.approx(200)  # coatings supplier FAQ
    assert d.dry_film("4 mil", 0.33).to("mil") == pytest.approx(1.32)
    assert d.spreading_rate(0.65, "125 um").to("m2/L") == pytest.approx(5.2)  # supplier sheet
    assert d.practical_spreading_rate("5.2 m2/L", "35 %").to("m2/L") == pytest.approx(3.38)
    assert d.thinned_solids(0.6, mc.Thinning(percent_of_paint=25)) == pytest.approx(0.48)
    solids = d.volume_solids("45 %", paint_density="1.10 g/mL", volatile_density="0.87 g/mL")
    assert solids == pytest.approx(0.305, abs=5e-4)
    total, less = d.voc("1 US gal", "0.4416 lb", water="0.52 US gal")
    assert less.to("lb/US gal") == pytest.approx(0.92, abs=1e-3)  # guidebook, corrected
    assert total < less
    mixed = d.voc_after_thinning("420 g/L", "870 g/L", mc.Thinning(percent_of_paint=25))
    assert mixed.to("g/L") == pytest.approx(510)
    assert d.pvc("30 mL", "70 mL") == pytest.approx(0.3)
    assert d.cpvc("20 %", "4.1 g/mL") == pytest.approx(0.5327, abs=5e-4)  # Asbeck and Van Loo 1949
    assert d.resin_cut("31 g", solution="100 mL").to("g/L") == pytest.approx(310)
    assert d.resin_cut("31 g", solvent="100 mL", resin_density="1.1 g/mL").to("g/L") < 310
    with pytest.raises(mc.RangeError, match="solution="):
        d.resin_cut("31 g", solvent="100 mL")
    with pytest.raises(mc.RangeError, match="0 % to 100 %"):
        d.wet_film("150 um", 75)
    with pytest.raises(mc.RangeError, match="solids_density"):
        d.volume_solids("45 %", paint_density="1.10 g/mL")


def test_batches() -> None:
    batch = mc.Batch("20 mL", mc.Thinning(paint_fraction=0.2))
    what, volume = batch.repair(
        mc.Thinning(paint_fraction=0.3), stock=mc.Thinning(paint_fraction=0.5)
    )
    assert what == "paint"
    assert volume.to("mL") == pytest.approx(10)
    what, volume = batch.repair(mc.Thinning(paint_fraction=0.1))
    assert what == "thinner"
    assert volume.to("mL") == pytest.approx(20)
    assert batch.repair(batch.thinning)[0] == "nothing"
    both = batch.combined(mc.Batch("20 mL", mc.Thinning(paint_fraction=0.4)))
    assert both.thinning.paint_fraction == pytest.approx(0.3)
    big = mc.Batch.from_paint("5 mL", "2 parts thinner to 1 part paint").scaled_to("300 mL")
    assert big.paint.to("mL") == pytest.approx(100)
    assert big.thinner.to("mL") == pytest.approx(200)
    assert pickle.loads(pickle.dumps(big)) == big
    assert mc.dose.alligation("50 %", 0, "30 %") == pytest.approx((0.6, 0.4))
    with pytest.raises(mc.RangeError, match="between its two stocks"):
        mc.dose.alligation(0.5, 0.2, 0.6)
    with pytest.raises(mc.UnitError, match="words such as"):
        mc.Batch("20 mL", 0.5)  # type: ignore[arg-type]


def test_an_oil_absorption_off_the_data_sheet_is_no_share() -> None:
    # OA 20 g/100 g, 4.1 g/mL: 0.533 by Asbeck and Van Loo (1949), CPVC = 1/(1 + OA rho/93.5).
    assert mc.dose.cpvc("20 %", "4.1 g/mL") == pytest.approx(0.533, abs=5e-4)
    with pytest.raises(mc.RangeError, match=r'2000 %.*500 %.*"20 %"'):
        mc.dose.cpvc(20, "4.1 g/mL")
