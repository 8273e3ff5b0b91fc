"""Every output of ``mistcoat.safety`` and ``mistcoat.rinse`` prices carries sources and cautions.

A new public name of ``safety`` fails here until it is walked.
"""

from __future__ import annotations

import warnings
from collections.abc import Callable
from functools import cache
from typing import Any

import mistcoat as mc
import pytest
from mistcoat import rinse, safety

# Arithmetic on what the caller gives.
ARITHMETIC = {"sum_of_shares", "time_weighted_average", "vapour_volume"}
# Parts of an output that carries the cautions for them, and what builds one.
PARTS = {"GunAir", "SessionVapour", "VapourSource", "Ventilation", "SessionAir"}
DECIDES = "local codes and licensed practice decide"
ROOM = mc.Room(temperature="21 degC", relative_humidity="50 %", volume="30 m3", air_changes="2 /h")


@cache
def outputs() -> dict[str, Any]:
    """One of each kind of output, by the name of its class or function."""
    thinner = mc.Blend({"acetone": 50, "toluene": 35, "methanol": 15}, basis="mass")
    mix = mc.demo_paint("hull green").thin(thinner, thinner=1, paint=1)
    shot = mc.Airbrush(nozzle="0.3 mm", pressure="20 psi", distance="80 mm").spray(mix, ROOM)
    air: dict[str, Any] = {"acetone": "55 ppm", "methanol": "5 ppm"}
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        session = safety.SessionAir(ROOM).cleaning(
            "gun", thinner, "6 mL", evaporated="30 %", lasts="5 min"
        )
        exposure = session.run()
    found = {
        "mixture_exposure": safety.mixture_exposure(air),
        "short_term_exposure": safety.short_term_exposure(air),
        "lower_flammable_limit": safety.lower_flammable_limit(thinner),
        "cupboard": safety.cupboard(thinner, "1 mL", space="1 m3", temperature="21 degC"),
        "flammable_class": safety.flammable_class(thinner),
        "near_gun": safety.near_gun(shot),
        "cautions": safety.cautions([mix.paint], [thinner], spray=True, rinse=True),
        "SessionExposure": exposure,
    }
    classes = {type(v).__name__: v for v in found.values() if not isinstance(v, list)}
    return {**classes, **found, "Caution": found["cautions"]}


def test_every_public_name_is_walked() -> None:
    assert set(safety.__all__) == set(outputs()) | ARITHMETIC | PARTS


def sources_of(thing: Any) -> list[str]:
    if isinstance(thing, list):
        return [c.source for c in thing]
    if hasattr(thing, "citations"):
        return list(thing.citations)
    if isinstance(thing, safety.Cupboard):
        return sources_of(thing.limit)
    return [s if isinstance(s, str) else "; ".join(s.citations) for s in thing.sources]


def remembers(thing: Any) -> bool:
    """Whether a figure in it is from memory."""
    if isinstance(thing, safety.SessionExposure):
        return remembers(thing.shift) or remembers(thing.short)
    if isinstance(thing, safety.MixtureExposure):
        return any(source.is_from_memory for source in thing.sources)
    if isinstance(thing, (safety.Cupboard, safety.NearGun)):
        return thing.limit.is_from_memory
    return bool(thing.is_from_memory)


@pytest.mark.parametrize("name", sorted(set(safety.__all__) - ARITHMETIC - PARTS))
def test_sources_and_cautions(name: str) -> None:
    thing = outputs()[name]
    sources = sources_of(thing)
    assert sources
    assert all(len(s) > 12 for s in sources)
    texts = [c.text for c in thing] if isinstance(thing, list) else list(thing.cautions)
    assert texts
    assert DECIDES in texts[-1]
    if not isinstance(thing, list):
        # Methanol and toluene stand in the thinner because their figures are from memory.
        assert remembers(thing)
        assert "from memory" in " ".join(f"{thing} {' '.join(texts)}".split())


@pytest.mark.parametrize(
    "name", ["mixture_exposure", "short_term_exposure", "near_gun", "SessionExposure"]
)
def test_what_prints_shows_its_cautions(name: str) -> None:
    thing = outputs()[name]
    for text in (str(thing), thing._repr_html_()):
        flat = " ".join(text.split())
        assert DECIDES in flat
        for caution in thing.cautions:
            assert caution[:25] in flat.replace("&#39;", "'")


def test_from_memory_is_told_for_every_solvent() -> None:
    remembered = 0
    for solvent in mc.solvents():
        for value in (solvent.flash_point, solvent.lower_flammable_limit, solvent.odour_threshold):
            if value is not None and value.source.is_from_memory:
                remembered += 1
                assert "from memory" in str(value)
        if solvent.flash_point is not None:
            found = safety.flammable_class(solvent)
            assert ("from memory" in str(found)) == found.is_from_memory
            assert found.sources
            assert DECIDES in found.cautions[-1]
        if solvent.lower_flammable_limit is not None:
            limit = safety.lower_flammable_limit(solvent)
            assert limit is not None
            assert ("from memory" in str(limit)) == limit.is_from_memory
    assert remembered > 20


def test_the_room_warns() -> None:
    air = mc.RoomVapour(ROOM, solvent="acetone").release("5 g", lasts="10 min")
    calls: list[Callable[[], mc.Estimate]] = [
        lambda: air.peak,
        lambda: air.concentration("15 min"),
        lambda: air.average("0 min", "15 min"),
        lambda: air.steady("1 g", each="1 min"),
        lambda: air.air_changes_to_stay_below("50 mg/m3"),
    ]
    for call in calls:
        with pytest.warns(mc.MistcoatWarning, match="safety data sheet"):
            found = call()
        assert "Crowl and Louvar" in found.working().to_text()


def test_prices_keep_the_cautions() -> None:
    good = rinse.CleanerPrice("house thinner", 9.5, per="1 L")
    bench = rinse.RinseBench(rinse.typical_hold_up("gravity airbrush"), fill="2 mL")
    for colours in (["cream"], ["cream", "red oxide"]):
        found = rinse.cheapest_order(bench, colours, good=good)
        assert found.cautions == rinse.cleaning_cautions()
        assert all(c[:25] in str(found) for c in found.cautions)
