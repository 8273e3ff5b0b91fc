"""Every public class pickles and copies: a value sent to another process comes back as it was.

The walk starts from a few whole results and follows what they are made of. A new public class
fails here until something of it is reached.
"""

from __future__ import annotations

import copy
import inspect
import pickle
import types
import warnings
from collections.abc import Iterator
from functools import cache
from typing import Any

import mistcoat as mc
import pytest
from mistcoat import dose, hiding, layers, rinse, safety

# Protocols are shapes and exceptions have a test of their own (test_quantities.py).
NOT_VALUES = (BaseException,)
# Of each class so many values are tried.
ENOUGH = 6


def public_classes(module: types.ModuleType) -> Iterator[tuple[str, type]]:
    for name in module.__all__:
        found = getattr(module, name)
        if isinstance(found, types.ModuleType):
            yield from public_classes(found)
        elif isinstance(found, type) and not issubclass(found, NOT_VALUES):
            yield found.__qualname__, found


CLASSES = {
    name: found
    for name, found in public_classes(mc)
    if found.__module__.startswith("mistcoat") and not getattr(found, "_is_protocol", False)
}


def quantities() -> list[Any]:
    return [kind(1.5, kind.units()[0]) for kind in CLASSES.values() if hasattr(kind, "units")]


def bench() -> list[Any]:
    """Paint, thinner and room, and what the bench asks of them."""
    room = mc.Room(
        temperature="21 degC", relative_humidity="50 %", volume="30 m3", air_changes="2 /h"
    )
    thinner = mc.Blend({"acetone": 40, "n-butyl acetate": 60}, basis="volume")
    green = mc.demo_paint("hull green")
    mix = green.thin(thinner, thinner=1, paint=1)
    gun = mc.Airbrush(nozzle="0.3 mm", pressure="20 psi", distance="80 mm")
    shot = gun.spray(mix, room)
    film = mc.Film(mix, wet_thickness="25 um", room=room, substrate="wood")
    dry = film.dry()
    dropper = mc.Dropper(tip="3 mm")
    course = mc.OpenCup(mix, diameter="30 mm", depth="8 mm", room=room).stand()
    oil = mc.Paint.typical("alkyd enamel", name="red oxide").thin(
        "white spirit", thinner=1, paint=2
    )
    cream = mc.Paint.typical("waterborne acrylic", name="cream")
    watered = cream.thin(mc.Blend({"water": 1}), thinner=1, paint=2)
    setup = mc.Setup(green, thinner, airbrush=gun, room=room, substrate="wood", wet_passes=4)
    grey = mc.Paint.typical("solvent lacquer", name="grey primer")
    primer = mc.Setup(grey, thinner, airbrush=gun, room=room, substrate="wood", wet_passes=4)
    stack = mc.Stack(film, coats=2, wait="5 min").dry()
    evening = (
        safety.SessionAir(room, keep_below="40 %", mixing="30 %", leaving_at="3 h")
        .coat("hull", mix, sprayed="8 mL", landed="40 %", drying=dry, spraying="10 min")
        .cleaning("gun", thinner, "6 mL", evaporated="30 %", start="15 min", lasts="5 min")
        .open_cup("cup", course, open_for="20 min")
    )
    parts = [
        mc.PlanLayer(primer, "primer", area="60 cm2", place="primer", shade="grey"),
        mc.PlanLayer(setup, "base coat", area="40 cm2", mask=True, shade="deep green"),
    ]
    plan = mc.plan(parts, cleaner="acetone", title="Saltmarsh Lane")
    ratios, far = ("thinner_per_paint", [0.5, 1, 2]), ("distance_mm", [20, 60, 120])
    return [
        *(
            green,
            green.law(thinner, "21 degC"),
            thinner,
            mix,
            dropper,
            mix.voc(),
            mix.drops(total="1 mL", dropper=dropper),
            shot,
            film,
            dry,
        ),
        *(
            course,
            course.top_up("15 min", dropper=dropper),
            stack,
            stack.stack,
            evening,
            evening.run(),
        ),
        *(mc.tip_drying(mix, room=room), mc.tip_drying(watered, room=room, air_speed="0 m/s")),
        *(
            mc.Film(oil, wet_thickness="30 um", room=room),
            mc.Film(watered, wet_thickness="30 um", room=room),
        ),
        *(mc.lay(film), mc.film_window(film), dry.blush, mc.mask_edge(film), safety.near_gun(shot)),
        mc.Flow("20 mPa.s", temperature="21 degC", thicker=[("30 %", "120 mPa.s")]),
        *(setup, setup.judge("base coat"), mc.recommend(setup, "base coat")),
        *(
            mc.diagnose("orange peel", setup, "base coat"),
            mc.window(setup, "base coat", x=ratios, y=far),
        ),
        mc.retarder(green, thinner, retarder="2-butoxyethanol", room=room, substrate="wood"),
        mc.compare(green, thinner, thinner_per_paint=[1, 2], room=room, substrate="wood"),
        *(plan, plan.card("A6")),
        mc.Programme(room).after("10 min", room.warmed_to("40 degC")),
    ]


def shelf() -> list[Any]:
    """What stands on the shelf: liquids, cups, doses, colours, cautions."""
    acetone = mc.solvent("acetone")
    thinner = mc.Blend({"acetone": 50, "n-butyl acetate": 50}, basis="volume")
    water, half = mc.ReferenceLiquid.water(), mc.ReferenceLiquid.glycerol_water("50 %")
    thick = mc.ReferenceLiquid.glycerol_water("70 %")
    timed: Any = [
        (water.kinematic_viscosity("21 degC"), "8.3 s"),
        (half.kinematic_viscosity("21 degC"), "15 s"),
        (thick.kinematic_viscosity("21 degC"), "44 s"),
    ]
    good = rinse.CleanerPrice("house thinner", 9.5, per="1 L")
    gun = rinse.RinseBench(rinse.typical_hold_up("gravity airbrush"), fill="2 mL")
    green = hiding.HidingPower.from_card_passes(
        "hull green", "deep green", passes=5, dry_per_pass="3 um"
    )
    boat = [layers.Layer("primer", "solvent lacquer"), layers.Layer("hull", "alkyd enamel")]
    air: dict[str, Any] = {"acetone": "55 ppm", "methanol": "5 ppm"}
    return [
        *(acetone, acetone.hansen, mc.solvents(), mc.EvaporationTest.paper(), water),
        *(thinner.phases("21 degC"), thinner.evaporation_as_it_dries()),
        *(mc.FlowCup("ISO 2431", 4), mc.FlowCup.calibrate(timed, name="jar")),
        mc.RoomVapour(
            mc.Room(
                temperature="21 degC", relative_humidity="50 %", volume="30 m3", air_changes="2 /h"
            ),
            solvent="acetone",
        ),
        *(mc.Binder(tg="60 degC"), mc.Dispersion(mfft="15 degC")),
        *(dose.Batch("20 mL", mc.Thinning(paint_fraction=0.2)), dose.Thinning(thinner=2, paint=1)),
        *(hiding.Gloss(), green, green.passes_to_hide("3 um")),
        hiding.amounts("0.05 m2", dry="12 um", volume_solids="22 %", loss="airbrush"),
        *(
            layers.identify(label="enamel"),
            *layers.identification_tests(),
            *boat,
            layers.check_stack(boat),
        ),
        *(rinse.cheapest_order(gun, ["cream", "red oxide"], good=good), good, gun),
        *(gun.colour_order(["cream", "red oxide"]), rinse.equal_portions("0.15 mL", "0.1 %", 3)),
        *(rinse.Shade("white", 0.9), safety.mixture_exposure(air)),
        safety.cupboard(thinner, "1 mL", space="1 m3", temperature="21 degC"),
        *(safety.lower_flammable_limit(thinner), safety.flammable_class(thinner)),
        safety.cautions([], [thinner], spray=True),
    ]


def parts(value: Any) -> Iterator[Any]:
    """What a value is made of: elements, and what its properties give."""
    if isinstance(value, (list, tuple)):
        yield from value
    elif isinstance(value, dict):
        yield from value.values()
    elif type(value).__module__.startswith("mistcoat"):
        for name, member in vars(type(value)).items():
            if isinstance(member, (types.GetSetDescriptorType, property)) and name[0] != "_":
                try:
                    yield getattr(value, name)
                except mc.MistcoatError:
                    continue  # this value has no such part, and says why
        for name in ("table", "working"):
            ask = getattr(value, name, None)
            if callable(ask) and not inspect.signature(ask).parameters:
                yield ask()


def same(a: Any, b: Any) -> bool:
    """Equal; cards, which are pages to print, are the same when they print the same."""
    return bool(a.html() == b.html() if isinstance(a, mc.cards.Cards) else a == b)


@cache
def reached() -> dict[type, list[Any]]:
    """Values of each public class, a few of each."""
    found: dict[type, list[Any]] = {cls: [] for cls in CLASSES.values()}
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", mc.MistcoatWarning)
        waiting = [*quantities(), *bench(), *shelf()]
        while waiting:
            value = waiting.pop(0)
            known = found.get(type(value))
            if known is not None:
                if len(known) >= ENOUGH or value in known:
                    continue
                known.append(value)
            waiting.extend(parts(value))
    return found


@pytest.mark.parametrize("name", sorted(CLASSES))
def test_values_pickle_and_copy(name: str) -> None:
    values = reached()[CLASSES[name]]
    assert values, f"no {name} among what the walk makes: add one to bench() or shelf()"
    for value in values:
        for back in (pickle.loads(pickle.dumps(value)), copy.deepcopy(value), copy.copy(value)):
            assert type(back) is type(value)
            assert same(back, value)
            assert repr(back) == repr(value)


def test_the_walk_tells_values_apart() -> None:
    """Equality is not the same for everything: two values that were kept apart stay so."""
    for values in reached().values():
        travelled = [pickle.loads(pickle.dumps(v)) for v in values]
        for i, back in enumerate(travelled):
            assert [same(back, v) for v in values].count(True) == 1
            assert same(back, values[i])
