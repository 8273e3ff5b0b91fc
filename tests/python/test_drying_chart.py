"""The picture of one coat says its marks, its liquids and the dew, whatever kind of coat it is."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import mistcoat as mc
import pytest

pytest.importorskip("matplotlib")


def room(**changes: str) -> mc.Room:
    usual = {"temperature": "21 degC", "relative_humidity": "55 %"}
    return mc.Room(**{**usual, **changes})


def words(figure: Any) -> str:
    found = [t.get_text() for t in figure.texts]
    for ax in figure.axes:
        found += [t.get_text() for t in ax.texts] + [t.get_text() for t in ax.get_yticklabels()]
    return "\n".join(found)


def lacquer() -> mc.Mix:
    house = mc.Blend({"acetone": 50, "n-butyl acetate": 35, "2-butoxyethanol": 15}, basis="mass")
    return mc.Paint.typical("solvent lacquer", name="hull green").thin(house, thinner=1, paint=1)


def test_lacquer_has_all_marks_and_is_drawn_on_a_log_axis(tmp_path: Path) -> None:
    dry = mc.Film(lacquer(), wet_thickness="25 um", substrate="wood", room=room()).dry()
    figure = dry.chart()
    said = words(figure)
    for word in ("flash-off", "touch dry", "block-free", "2-butoxyethanol", "dew point 11.6 °C"):
        assert word in said
    assert f"{dry.flash_off.to('min'):.1f} min" in said
    assert figure.axes[-1].get_xscale() == "log"
    figure.savefig(tmp_path / "dry.png")
    assert (tmp_path / "dry.png").stat().st_size > 20_000


def test_a_film_without_binder_has_no_marks_of_hardness() -> None:
    acetone = mc.Blend({"acetone": 1}, basis="mass")
    with pytest.warns(mc.MistcoatWarning, match="below the dew point"):
        dry = mc.Film(acetone, wet_thickness="30 um", room=room(relative_humidity="70 %")).dry()
    figure = dry.chart()
    said = words(figure)
    assert "flash-off" in said
    assert "touch dry" not in said
    assert "dew: risk of blush" in said
    assert "water from the air" in said
    assert figure.axes[-1].get_xscale() == "linear"


def test_what_is_not_reached_is_said() -> None:
    cream = mc.Paint.typical("waterborne acrylic", name="deckhouse cream")
    wet = cream.thin("water", thinner=0.3, paint=1)
    dry = mc.Film(wet, wet_thickness="40 um", room=room(relative_humidity="100 %")).dry()
    said = words(dry.chart())
    assert said.count("not reached while followed (7 d)") == 2
    assert "block-free" not in said


def test_changing_air_and_dry_air_are_drawn() -> None:
    still = room()
    warm = still.with_draught("fan").warmed_to("40 degC")
    plan = mc.Programme(still).after("6 min", warm)
    dry = mc.Film(lacquer(), wet_thickness="25 um", substrate="wood", programme=plan).dry()
    assert "room 40.0 °C" in words(dry.chart())
    bone_dry = mc.Film(lacquer(), wet_thickness="25 um", room=room(relative_humidity="0 %")).dry()
    said = words(bone_dry.chart())
    assert "room 21.0 °C" in said
    assert "dew point" not in said
