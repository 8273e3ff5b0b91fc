"""The comparison at the border: table, frames, chart, page, working, pickling, bad input."""

from __future__ import annotations

import pickle
import warnings
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import mistcoat as mc
import pytest
from mistcoat import demo, page


@pytest.fixture(scope="module")
def result() -> mc.Comparison:
    return demo.saltmarsh_comparison()


@pytest.fixture
def quiet() -> Iterator[None]:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", mc.MistcoatWarning)
        yield


def test_rows_run_in_the_order_asked(result: mc.Comparison) -> None:
    rows = result.rows
    assert [row.thinner_per_paint for row in rows] == [0.5, 1.0, 2.0, 3.0]
    viscosities = [row.viscosity.to("mPa.s") for row in rows]
    assert viscosities == sorted(viscosities, reverse=True)
    for row in rows:
        # Mass balance: dry film = wet film x paint fraction x volume solids of the paint (22 %).
        assert row.dry_film.to("µm") == pytest.approx(25 * row.mix.paint_fraction * 0.22)
        assert row.flash_off is not None
        low, high = row.flash_off.interval("s")
        assert low < row.flash_off.to("s") < high
        assert row.drops is not None
        assert sum(share for _, share in row.left_at_flash_off) == pytest.approx(1.0, abs=0.03)


def test_table_says_what_a_person_needs(result: mc.Comparison) -> None:
    text = str(result)
    for words in ("hull green", "house thinner", "21 °C", "wood", "flash-off", "safety data sheet"):
        assert words in text
    assert "<table" in result._repr_html_()
    assert result.warnings
    assert any("ISO 2431" in warning for warning in result.warnings)


def test_frames_carry_units_in_their_names(result: mc.Comparison) -> None:
    pandas, polars = pytest.importorskip("pandas"), pytest.importorskip("polars")
    frame = result.to_pandas()
    assert isinstance(frame, pandas.DataFrame)
    for name in (
        "viscosity_mPa_s",
        "viscosity_mPa_s_low",
        "efflux_time_s",
        "dry_film_um",
        "voc_g_L",
    ):
        assert name in frame.columns
    assert frame["flash_off_s"].is_monotonic_increasing
    assert result.to_polars().shape == frame.shape
    assert isinstance(result.to_polars(), polars.DataFrame)


def test_chart_and_page(result: mc.Comparison, tmp_path: Path) -> None:
    pytest.importorskip("matplotlib")
    figure = result.chart()
    target = tmp_path / "compare.png"
    figure.savefig(target)
    assert target.stat().st_size > 20_000
    text = page.comparison(result, mc.measured_dilutions(), "a note")
    for part in (
        "<title>",
        "data:image/png;base64,",
        "Before you open a bottle",
        "a note",
        "The working",
    ):
        assert part in text
    assert "<script" not in text


def test_chart_without_a_cup(quiet: None) -> None:
    pytest.importorskip("matplotlib")
    bare = mc.compare(demo.hull_green(), demo.house_thinner(), thinner_per_paint=[1])
    assert bare.cup is None
    assert bare.rows[0].efflux_time is None
    assert bare.rows[0].drops is None
    assert bare.chart() is not None


def test_working_names_formula_numbers_source(result: mc.Comparison) -> None:
    one = result.working(thinner_per_paint=1)
    text = one.to_text()
    for words in ("dilution law", "exp(", "ISO 2431", "source:"):
        assert words in text
    assert len(result.working()) > len(one)
    assert "\\begin{enumerate}" in one.to_latex()
    with pytest.raises(mc.RangeError, match=r"0\.5, 1, 2, 3"):
        result.working(thinner_per_paint=7)


def test_pickle_and_json(result: mc.Comparison) -> None:
    assert pickle.loads(pickle.dumps(result)) == result
    assert mc.Comparison.from_json(result.to_json()) == result
    assert pickle.loads(pickle.dumps(result.rows[0])) == result.rows[0]
    with pytest.raises(mc.DataError, match="JSON"):
        mc.Comparison.from_json("{}")


def test_warnings_reach_python() -> None:
    with pytest.warns(mc.MistcoatWarning, match="polystyrene"):
        mc.compare(demo.hull_green(), demo.house_thinner(), substrate="polystyrene")


def test_a_gun_lays_the_coat(quiet: None) -> None:
    gun = mc.Airbrush(nozzle="0.3 mm", pressure="20 psi", distance="80 mm")
    room = mc.Room(temperature="21 degC", relative_humidity="55 %")
    sprayed = mc.compare(
        demo.hull_green(),
        demo.house_thinner(),
        thinner_per_paint=[0.5, 1, 2, 3],
        airbrush=gun,
        wet_passes=2,
        room=room,
        substrate="wood",
    )
    assert sprayed.airbrush == gun
    assert sprayed.wet_thickness is None
    assert sprayed.coat == "2 passes wet in wet"
    sizes = []
    for row in sprayed.rows:
        shot = gun.spray(row.mix, room)
        assert row.drop_size == shot.drop_size
        assert row.flight_loss == shot.flight_loss
        assert row.touch_dry == shot.film(passes=2, substrate="wood").dry().touch_dry
        assert row.judged is not None
        assert row.judged.wet_film == row.wet_film
        sizes.append(row.judged.drop_size)
    assert sizes == sorted(sizes, reverse=True)
    columns = sprayed.columns()
    for name in ("drop_size_um", "flight_loss_percent", "wet_film_per_pass_um", "passes"):
        assert len(columns[name]) == 4
    assert "goes wrong first" in repr(sprayed)
    assert pickle.loads(pickle.dumps(sprayed)) == sprayed
    stated = mc.compare(
        demo.hull_green(),
        demo.house_thinner(),
        thinner_per_paint=[1],
        airbrush=gun,
        wet_thickness="30 um",
        job="gloss clear",
        substrate="wood",
    )
    assert stated.rows[0].wet_film == stated.wet_thickness == mc.Length("30 um")
    assert "gloss clear" in repr(stated)
    pytest.importorskip("matplotlib")
    assert any("2 passes" in ax.get_title(loc="left") for ax in sprayed.chart().axes)


@pytest.mark.parametrize(
    ("kind", "error", "says"),
    [
        ({"wet_passes": 2}, TypeError, "belong to an airbrush"),
        ({"job": "base coat"}, TypeError, "belong to an airbrush"),
        ({"wet_passes": 0, "airbrush": True}, mc.RangeError, "1 to 20"),
        ({"wet_thickness": "9 mm", "airbrush": True}, mc.RangeError, "5 mm"),
        ({"job": "base cot", "airbrush": True}, mc.UnknownName, "base coat"),
    ],
)
def test_bad_coats_of_a_gun(
    quiet: None, kind: dict[str, Any], error: type[Exception], says: str
) -> None:
    if kind.get("airbrush"):
        kind["airbrush"] = mc.Airbrush(nozzle="0.3 mm", pressure="20 psi", distance="80 mm")
    with pytest.raises(error, match=says):
        mc.compare(demo.hull_green(), demo.house_thinner(), substrate="wood", **kind)


def test_water_in_a_lacquer_is_refused() -> None:
    water = mc.Blend({"water": 1}, basis="mass")
    with pytest.raises(mc.PhaseSplit) as caught:
        mc.compare(demo.hull_green(), water)
    assert caught.value.remedy
    assert caught.value.first
    assert caught.value.second


@pytest.mark.parametrize("ratios", [[], [-1.0], [float("nan")], [float("inf")], [1.0] * 51])
def test_bad_ratios(ratios: list[float]) -> None:
    with pytest.raises(mc.RangeError) as caught:
        mc.compare(demo.hull_green(), demo.house_thinner(), thinner_per_paint=ratios)
    assert caught.value.limit
    assert caught.value.remedy


def test_measured_pairs_beside_predictions() -> None:
    # Published pairs (forum question 829188, six batches of one paint): within 0.4 s each.
    columns = mc.measured_dilutions().columns()
    for measured, predicted in zip(columns["measured_s"], columns["predicted_s"], strict=True):
        assert predicted == pytest.approx(measured, abs=0.4)


def test_demo_writes_what_it_names(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    pytest.importorskip("matplotlib")
    demo.run(tmp_path)
    printed = capsys.readouterr().out
    assert "Invented" in printed
    assert "Worst miss" in printed
    for name in ("compare.png", "compare.html", "compare.json"):
        assert (tmp_path / name).stat().st_size > 1000
        assert name in printed


def test_demo_paints_say_they_are_invented() -> None:
    for name in ("hull green", "red oxide", "cream"):
        paint = mc.demo_paint(name)
        assert name in paint.name.lower()
        assert "invented" in paint.to_toml()
    with pytest.raises(mc.UnknownName, match="hull green"):
        mc.demo_paint("hull gren")


def test_chart_of_a_paste_and_of_a_coat_that_never_dries(quiet: None) -> None:
    pytest.importorskip("matplotlib")
    cup = mc.FlowCup("ISO 2431", 4)
    oil = mc.Paint.typical("artists' oil", name="black")
    paste = mc.compare(oil, "white spirit", thinner_per_paint=[0, 2], cup=cup).chart()
    seconds = next(ax for ax in paste.axes if ax.get_ylabel() == "seconds")
    assert seconds.get_yscale() == "log"
    retarded = mc.Blend({"water": 50, "glycerol": 50}, basis="mass")
    acrylic = mc.Paint.typical("waterborne acrylic", name="cream")
    never = mc.compare(acrylic, retarded, thinner_per_paint=[1])
    assert never.rows[0].flash_off is None
    words = [text.get_text() for ax in never.chart().axes for text in ax.texts]
    assert "never" in words


def test_page_prints_whole_and_names_each_ratio(result: mc.Comparison) -> None:
    pytest.importorskip("matplotlib")
    text = page.comparison(result)
    for ratio in ("0.5 parts", "1 part", "2 parts", "3 parts"):
        assert f"<summary>{ratio} of thinner to 1 part of paint</summary>" in text
    assert "overflow: visible" in text.split("@media print")[1]
    # Page title, heading, description of the chart, and once above the working of each ratio.
    assert text.count(result.title) == 3 + len(result.rows)
