"""Settings at the border: judge, recommend, map, diagnose."""

from __future__ import annotations

import copy
import pickle
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
        assert eval(repr(thing), vars(mc)) == thing


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
        (lambda: mc.recommend(setup(), "primer", thinner_per_paint=[]), mc.RangeError, "ratio"),
    ],
)
def test_bad_input(call: Any, error: type[Exception], says: str) -> None:
    with pytest.raises(error, match=says):
        call()
