"""Settings at the border: judge, recommend, map, diagnose."""

from __future__ import annotations

import copy
import pickle
import signal
import subprocess
import sys
import textwrap
import time
from typing import Any

import mistcoat as mc
import numpy as np
import pytest


def gun(**changes: str) -> mc.Airbrush:
    settings: dict[str, Any] = {"nozzle": "0.3 mm", "pressure": "20 psi", "distance": "80 mm"}
    return mc.Airbrush(**{**settings, **changes})


def club_room() -> mc.Room:
    return mc.Room(temperature="21 degC", relative_humidity="50 %")


def setup(ratio: float = 1.0, airbrush: mc.Airbrush | None = None) -> mc.Setup:
    green = mc.Paint.typical("alcohol acrylic", name="hull green")
    thinner = mc.Blend({"isopropanol": 60, "1-methoxy-2-propanol": 40}, basis="volume")
    return mc.Setup(
        green,
        thinner,
        thinner_per_paint=ratio,
        airbrush=airbrush or gun(),
        room=club_room(),
        substrate="wood",
    )


def stated(**kind: Any) -> mc.Setup:
    green = mc.Paint.typical("alcohol acrylic", name="hull green")
    return mc.Setup(green, "isopropanol", airbrush=gun(), room=club_room(), **kind)


def test_margins_and_film() -> None:
    judged = setup().judge("base coat")
    assert judged.worst == next(iter(judged.margins))
    assert list(judged.margins.values()) == sorted(judged.margins.values())
    assert judged.margins.keys() == judged.reasons.keys()
    assert set(judged.margins) <= set(mc.Setup.faults())
    assert judged.is_good == (min(judged.margins.values()) >= 0)
    assert judged.passes == pytest.approx(12 / judged.dry_per_pass.to("um"))
    thin = setup(2.0).judge("base coat")
    assert thin.drop_size < judged.drop_size
    assert thin.passes > judged.passes


def test_recommendations_hold_what_they_claim() -> None:
    found = mc.recommend(setup(), "soft edge", thinner_per_paint=[0.5, 1, 2])
    assert found.choices
    assert not found.misses
    for choice, judged in found.choices:
        again = choice.judge("soft edge")
        assert again.is_good
        assert again == judged
    assert "safety data sheets" in " ".join(repr(found).split())
    mine = mc.Job("gloss clear", most_passes=1)
    nothing = mc.recommend(setup(), mine, thinner_per_paint=[1])
    assert not nothing.choices
    assert nothing.advice
    assert "nothing fits" in repr(nothing)


def test_a_search_over_retarder_says_the_share() -> None:
    found = mc.recommend(
        setup(),
        "base coat",
        thinner_per_paint=[1, 2],
        retarder="2-butoxyethanol",
        retarder_shares=[0, "20 %"],
    )
    for choice, judged in [*found.choices, *found.misses]:
        assert choice.retarder is not None
        assert "2-butoxyethanol" in repr(choice.retarder)
        assert choice.retarder_share.to("%") in (0.0, pytest.approx(20.0))
        assert choice.judge("base coat") == judged
    assert "retarder_percent" in found.table().columns()
    assert "2-butoxyethanol" in repr(found)
    assert found.asked == found.judged == 2 * 2 * 5 * 4 * 3


def test_limits_on_drying_are_kept() -> None:
    found = mc.recommend(
        setup(),
        "base coat",
        thinner_per_paint=[1, 1.5],
        retarder="2-butoxyethanol",
        touch_dry_within="3 min",
        recoat_within="2 h",
    )
    assert found.choices
    for choice, judged in found.choices:
        again = choice.judge("base coat")
        assert again.touch_dry is not None
        assert again.touch_dry <= mc.Time("3 min")
        assert again.recoat is not None
        assert again.recoat <= mc.Time("2 h")
        assert "slow drying" in judged.margins
    assert "recoat" in found.table().columns()
    nothing = mc.recommend(setup(), "base coat", thinner_per_paint=[1], touch_dry_within="1 s")
    assert not nothing.choices
    assert any("quickest" in line for line in nothing.advice)
    mine = mc.Job("base coat", touch_dry_within="1 s", recoat_within="1 d")
    assert mine.touch_dry_within == mc.Time("1 s")
    assert mine.recoat_within == mc.Time("1 d")
    assert mc.Job("base coat").touch_dry_within is None
    late = setup().judge(mine)
    assert late.worst == "slow drying"
    assert not late.is_good


def test_a_paint_that_stiffens_hangs() -> None:
    def primer(stress: Any = None) -> mc.Judged:
        kind: dict[str, Any] = {} if stress is None else {"yield_stress": stress}
        coat = mc.Setup(
            mc.Paint.typical("waterborne acrylic", name="grey primer"),
            "water",
            thinner_per_paint=0.75,
            airbrush=gun(pressure="27 psi", distance="100 mm"),
            room=club_room(),
            substrate="wood",
            **kind,
        )
        assert coat.yield_stress == (None if stress is None else mc.Pressure(stress))
        assert pickle.loads(pickle.dumps(coat)) == coat
        return coat.judge("primer")

    assert primer("0 Pa").margins == primer().margins
    assert primer("3 Pa").margins["run"] > primer().margins["run"]
    assert "yield stress" in primer("3 Pa").reasons["run"]
    with pytest.raises(mc.RangeError, match="100 Pa"):
        primer("101 Pa")


def test_a_colour_that_must_hide_sets_the_passes() -> None:
    red = mc.hiding.HidingPower.typical("red oxide")

    def laid(ground: Any = None) -> mc.Judged:
        kind: dict[str, Any] = {} if ground is None else {"ground": ground}
        coat = mc.Setup(
            mc.Paint.typical("alcohol acrylic", name="bottom red"),
            "isopropanol",
            airbrush=gun(),
            room=club_room(),
            substrate="wood",
            hiding=red,
            **kind,
        )
        assert coat.hiding == red
        return coat.judge("base coat")

    card = laid()
    with pytest.warns(mc.MistcoatWarning, match="colour class"):
        assert card.dry_film == red.thickness_to_hide().best
    assert "card to 98 %" in card.target
    assert laid(("5 %", "40 %")).passes < card.passes
    assert "over the part" not in setup().judge("primer").target
    assert setup().judge("base coat").dry_film == mc.Length("12 um")
    assert mc.Job("soft edge", contrast="90 %").contrast == mc.Ratio("90 %")
    assert mc.Job("primer").contrast is None


def test_wet_film_against_ratio() -> None:
    result = mc.window(
        setup(), "gloss clear", x=("thinner_per_paint", [1, 2]), y=("wet_film_um", [3, 20, 400])
    )
    faults = [result.faults[c] if c >= 0 else "" for c in result.codes[:, 0]]
    assert faults[-1] in ("run", "too many passes")
    assert "wet film of a coat" in result.y_title
    stated = mc.Setup(
        mc.Paint.typical("alcohol acrylic", name="hull green"),
        "isopropanol",
        airbrush=gun(),
        room=club_room(),
        wet_thickness="20 um",
        substrate="wood",
    )
    judged = stated.judge("primer")
    assert stated.wet_thickness == judged.wet_film == mc.Length("20 um")
    assert judged.wet_passes * judged.wet_per_pass.to("um") == pytest.approx(20)


def test_progress_true_writes_a_line_when_it_takes_long(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    from mistcoat import _progress

    mc.recommend(setup(), "primer", thinner_per_paint=[1], progress=True)
    quick = capsys.readouterr().err
    assert "0 of" not in quick
    monkeypatch.setattr(_progress, "QUIET_S", 0.0)
    mc.recommend(setup(), "primer", thinner_per_paint=[1], progress=True)
    assert "judging settings: 60 of 60" in capsys.readouterr().err
    axes: dict[str, Any] = {"x": ("pressure_kPa", [100, 140]), "y": ("distance_mm", [80])}
    mc.window(setup(), "primer", progress=True, **axes)
    written = capsys.readouterr().err
    assert "judging cells: 2 of 2 in" in written
    assert written.endswith("\n")
    mc.window(setup(), "primer", progress=False, **axes)
    assert capsys.readouterr().err == ""


def test_a_map_tells_what_fails_first() -> None:
    seen: list[tuple[int, int]] = []
    result = mc.window(
        setup(),
        "base coat",
        x=("thinner_per_paint", [0.5, 1, 2]),
        y=("distance_mm", [60, 250]),
        progress=lambda done, total: seen.append((done, total)),
    )
    assert seen[-1] == (6, 6)
    assert result.is_complete
    assert result.codes.shape == result.margins.shape == (2, 3)
    alone = setup(2.0, gun(distance="60 mm")).judge("base coat")
    assert result.margins[0, 2] == pytest.approx(min(alone.margins.values()))
    code = result.codes[0, 2]
    assert code == -1 if alone.is_good else result.faults[code] == alone.worst
    assert 0.0 <= result.good_share <= 1.0
    refused = mc.window(
        setup(), "base coat", x=("relative_humidity_pct", [50, 150]), y=("wet_passes", [1])
    )
    assert refused.codes[0, 1] == -2
    assert refused.refused is not None
    assert np.isnan(refused.margins[0, 1])


def test_an_exception_of_progress_keeps_what_was_done() -> None:
    class Enough(Exception):
        pass

    def stop(done: int, total: int) -> None:
        raise Enough

    ratios = np.linspace(0.2, 3, 60).tolist()
    far = np.linspace(30, 200, 60).tolist()
    with pytest.raises(Enough) as caught:
        mc.window(
            setup(),
            "base coat",
            x=("thinner_per_paint", ratios),
            y=("distance_mm", far),
            progress=stop,
        )
    assert caught.value.partial.codes.shape == (60, 60)  # type: ignore[attr-defined]
    assert caught.value.finished.shape == (60, 60)  # type: ignore[attr-defined]


LONG = """
    import mistcoat as mc, numpy as np
    green = mc.Paint.typical("alcohol acrylic", name="hull green")
    gun = mc.Airbrush(nozzle="0.3 mm", pressure="20 psi", distance="80 mm")
    room = mc.Room(temperature="21 degC", relative_humidity="50 %")
    setup = mc.Setup(green, "isopropanol", airbrush=gun, room=room, substrate="wood")
    # A shell that starts its tests in the background leaves them deaf to it.
    import signal
    signal.signal(signal.SIGINT, signal.default_int_handler)
    print("ready", flush=True)
"""
LONG_WINDOW = """
    ratios, far = np.linspace(0.2, 3, 800).tolist(), np.linspace(30, 200, 800).tolist()
    try:
        mc.window(setup, "base coat", progress=True,
                  x=("thinner_per_paint", ratios), y=("distance_mm", far))
    except mc.Interrupted as stop:
        part = stop.partial
        assert isinstance(stop, KeyboardInterrupt)
        assert not part.is_complete
        assert ((part.codes == -3) == ~stop.finished).all()
        assert (part.codes[stop.finished] >= -2).all()
        print("kept", int(stop.finished.sum()), flush=True)
"""
LONG_SEARCH = """
    ratios = np.linspace(0.2, 3, 3000).tolist()
    found = mc.recommend(setup, "base coat", thinner_per_paint=ratios, progress=True)
    assert 0 < found.judged < found.asked
    assert found.choices or found.misses
    assert "were not judged" in repr(found)
    for choice, judged in found.choices:
        assert choice.judge("base coat") == judged
    print("kept", found.judged, flush=True)
"""


@pytest.mark.skipif(sys.platform == "win32", reason="signals of POSIX")
@pytest.mark.parametrize("rest", [LONG_WINDOW, LONG_SEARCH])
def test_ctrl_c_keeps_what_was_judged(rest: str) -> None:
    process = subprocess.Popen(
        [sys.executable, "-c", textwrap.dedent(LONG) + textwrap.dedent(rest)],
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
    )  # fmt: skip
    assert process.stdout is not None
    assert process.stdout.readline() == "ready\n"
    time.sleep(4.0)
    process.send_signal(signal.SIGINT)
    # The whole takes minutes; communicate raises when the stop is not prompt.
    out, err = process.communicate(timeout=60)
    assert process.returncode == 0, err
    assert out.startswith("kept ")
    assert int(out.split()[1]) > 0
    assert "judging " in err
    assert "left" in err


def test_the_chart_names_its_regions() -> None:
    pytest.importorskip("matplotlib")
    result = mc.window(
        setup(),
        "base coat",
        x=("thinner_per_paint", np.linspace(0, 4, 12).tolist()),
        y=("pressure_kPa", np.linspace(30, 300, 12).tolist()),
    )
    figure = result.chart()
    words = " ".join(t.get_text() for t in figure.axes[0].texts)
    met = {result.faults[c] for c in np.unique(result.codes) if c >= 0}
    assert met
    assert any(name in words for name in met)
    assert "hull green" in figure.get_suptitle()


def test_shading_and_border_agree() -> None:
    pytest.importorskip("matplotlib")
    result = mc.window(
        setup(),
        "base coat",
        x=("thinner_per_paint", np.linspace(0, 4, 9).tolist()),
        y=("pressure_kPa", np.linspace(30, 300, 8).tolist()),
    )
    figure: Any = result.chart()
    axes = figure.axes[0]
    for text in list(axes.texts):
        text.remove()
    from matplotlib.backends.backend_agg import FigureCanvasAgg

    canvas = FigureCanvasAgg(figure)
    canvas.draw()
    pixels = np.asarray(canvas.buffer_rgba())[..., 0]
    x, y = np.asarray(result.x), np.asarray(result.y)
    fine_x, fine_y = np.linspace(x[0], x[-1], 161), np.linspace(y[0], y[-1], 141)
    margins = np.nan_to_num(np.asarray(result.margins), nan=-9.0)
    along = np.array([np.interp(fine_x, x, row) for row in margins])
    between = np.array([np.interp(fine_y, y, column) for column in along.T]).T
    nearest = np.ix_(
        np.abs(fine_y[:, None] - y).argmin(axis=1), np.abs(fine_x[:, None] - x).argmin(axis=1)
    )
    # Places where the border runs through a cell, so that the cell and the border say different.
    contested = (np.asarray(result.codes)[nearest] == -1) != (between > 0)
    assert contested.sum() > 100
    rows, columns = np.nonzero(contested)
    at = axes.transData.transform(np.column_stack([fine_x[columns], fine_y[rows]]))
    shown = pixels[pixels.shape[0] - 1 - at[:, 1].astype(int), at[:, 0].astype(int)]
    good = between[contested] > 0
    # The line itself, and what it is drawn straight across a cell, take a little of either side.
    line = shown < 100
    assert (shown[good & ~line] == 255).mean() > 0.9
    assert (shown[~good & ~line] < 255).mean() > 0.9


def test_a_chart_without_a_good_cell_says_so() -> None:
    pytest.importorskip("matplotlib")
    result = mc.window(
        setup(),
        mc.Job("gloss clear", most_passes=1),
        x=("temperature_degC", [15, 20, 25]),
        y=("relative_humidity_pct", [30, 60, 90]),
    )
    assert result.good_share == 0
    figure = result.chart()
    assert "No setting here" in figure.get_supxlabel()
    # Labels stay inside the frame.
    figure.canvas.draw()
    frame = figure.axes[0].get_window_extent()
    for label in figure.axes[0].texts:
        box = label.get_window_extent()
        assert frame.x0 <= box.x0
        assert box.x1 <= frame.x1


def test_diagnosis() -> None:
    dry = setup(0.0, gun(pressure="8 psi"))
    found = mc.diagnose("spatter", dry, "base coat")
    assert next(iter(found.causes)) == "spatter"
    assert 0.5 < found.causes["spatter"] <= 1
    assert found.changes["spatter"] is not None
    assert found.beyond
    assert "common practice" in repr(found)
    beyond = mc.diagnose("fisheyes", dry, "base coat")
    assert beyond.look_beyond
    assert set(mc.defects()) >= {"orange peel", "run", "blush"}


@pytest.mark.parametrize(
    "thing",
    [
        setup(),
        setup().judge("primer"),
        mc.Job("fine lines", dry_film="3 um"),
        mc.recommend(setup(), "primer", thinner_per_paint=[1]),
        mc.diagnose("run", setup(), "primer"),
    ],
)
def test_records_pickle_and_copy(thing: Any) -> None:
    assert pickle.loads(pickle.dumps(thing)) == thing == copy.deepcopy(thing)
    if isinstance(thing, mc.Setup):
        assert str(thing) in repr(thing)
        assert len(repr(thing)) < 250
        assert "hull green" in repr(thing)


@pytest.mark.parametrize(
    ("call", "error", "says"),
    [
        (lambda: setup().judge("base cot"), mc.UnknownName, "base coat"),
        (lambda: mc.diagnose("orang peel", setup(), "primer"), mc.UnknownName, "orange peel"),
        (lambda: mc.Job("primer", dry_film=3), mc.UnitError, "3"),  # type: ignore[arg-type]
        (lambda: mc.Job("primer", dry_film="0 um"), mc.RangeError, "dry film"),
        (
            lambda: mc.window(setup(), "primer", x=("pressure", [1]), y=("distance_mm", [60])),
            mc.UnknownName,
            "pressure_kPa",
        ),
        (
            lambda: mc.window(setup(), "primer", x=("distance_mm", []), y=("wet_passes", [1])),
            mc.RangeError,
            "1 to 1000",
        ),
        (lambda: setup(-1.0).judge("primer"), mc.RangeError, "thinner"),
        (
            lambda: mc.window(setup(), "primer", x=("retarder_pct", [1]), y=("distance_mm", [60])),
            mc.RangeError,
            "slow liquid",
        ),
        (
            lambda: mc.window(setup(), "primer", x=("wet_film_um", [9]), y=("wet_passes", [1])),
            mc.RangeError,
            "one of them",
        ),
        (lambda: mc.Job("primer", contrast="20 %"), mc.RangeError, "50 % to 99.9 %"),
        (lambda: stated(retarder="acetone"), TypeError, "belong together"),
        (lambda: stated(retarder_share="10 %"), TypeError, "belong together"),
        (lambda: stated(retarder="acetone", retarder_share="-1 %"), mc.RangeError, "0 % to 100 %"),
        (lambda: stated(ground="40 %"), TypeError, "needs hiding"),
        (lambda: stated(wet_thickness=20), mc.UnitError, "20"),
        (lambda: stated(wet_thickness="6 mm").judge("primer"), mc.RangeError, "1 µm to 5 mm"),
        (
            lambda: mc.recommend(setup(), "primer", retarder="water", retarder_shares=[]),
            mc.RangeError,
            "shares",
        ),
        (
            lambda: mc.recommend(setup(), "primer", retarder_shares=[0.1]),
            TypeError,
            "needs a retarder",
        ),
        (
            lambda: mc.recommend(setup(), "primer", retarder="acetone", retarder_shares=["120 %"]),
            mc.RangeError,
            "0 % to 100 %",
        ),
        (lambda: mc.recommend(setup(), "primer", thinner_per_paint=[]), mc.RangeError, "ratio"),
        (
            lambda: mc.recommend(setup(), "primer", touch_dry_within=90),  # type: ignore[arg-type]
            mc.UnitError,
            "90",
        ),
        (
            lambda: mc.recommend(setup(), "primer", recoat_within="0 s"),
            mc.RangeError,
            "at most 365 d",
        ),
        (lambda: mc.Job("primer", touch_dry_within="2 a"), mc.UnitError, "unknown unit"),
    ],
)
def test_bad_input(call: Any, error: type[Exception], says: str) -> None:
    with pytest.raises(error, match=says):
        call()
