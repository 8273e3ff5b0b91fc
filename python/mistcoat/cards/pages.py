"""What stands on the cards: one a layer for the bench, and the sheet of the whole session."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from ..timeline import crew, planned, said, summary, visit_times
from .timeline import svg

if TYPE_CHECKING:
    from .._core import Plan, PlanLayer, PlannedLayer, Volume, Wait

__all__ = ["bench_cards", "sheet"]

# Of every sitting but the worst this is told by the numbers in the table.
MEANS = "Sums of the whole room are means"
# More notes than this are set small, so that the back stays one page.
MANY_NOTES = 6
# More drops than this nobody counts: the card then leads with millilitres.
MANY_DROPS = 120


def _ml(volume: Volume) -> str:
    value = volume.to("mL")
    return f"{value:.0f} mL" if value >= 9.95 else f"{value:.2g} mL"


def _time(wait: Wait) -> str:
    return said(wait.lasts.to("s"))


def _then(plan: Plan, index: int) -> tuple[Wait, bool]:
    """What a layer waits for before the work goes on, and whether that is for tape.

    Tape may want a harder coat than the next layer does.
    """
    layer = plan.layers[index]
    masked = index + 1 < len(plan.layers) and plan.layers[index + 1].mask is not None
    for_tape = masked and layer.until_mask.lasts > layer.until_next.lasts
    return (layer.until_mask if for_tape else layer.until_next), for_tape


def _sentence(text: str) -> str:
    text = text.strip()
    return text[:1].upper() + text[1:] + ("" if text.endswith((".", "!")) else ".")


def cautions(plan: Plan) -> list[str]:
    """Every caution of the plan as a paragraph, the one that says who decides last."""
    return [f"<p><b>{escape(c.topic)}.</b> {escape(c.text)}</p>" for c in plan.cautions]


def _short_cautions(plan: Plan) -> str:
    """The box on the face of a bench card: what each caution is about, and who decides in full."""
    *others, last = plan.cautions
    topics = ", ".join(dict.fromkeys(c.topic[:1].lower() + c.topic[1:] for c in others))
    return (
        f"<div class='caution'><b>Before you start, read overleaf:</b> {escape(topics)}. "
        f"{escape(last.text)}</div>"
    )


def _names(given: PlanLayer) -> tuple[str, str]:
    thinner = given.setup.thinner
    return given.setup.paint.name, thinner.name or str(thinner)


def _parts(layer: PlannedLayer) -> str:
    ratio = layer.thinner_per_paint
    return f"1 part of paint to {ratio:.2g} of thinner" if ratio > 0 else "not thinned"


def _recipe(layer: PlannedLayer, given: PlanLayer) -> str:
    paint, thinner = _names(given)
    volumes = f"{_ml(layer.paint)} {paint} + {_ml(layer.thinner)} {thinner}"
    if layer.thinner_per_paint <= 0:
        return f"<div class='big'>{_ml(layer.mix)} {escape(paint)}, not thinned</div>"
    drops = layer.drops
    if drops is None:
        return f"<div class='big'>{escape(volumes)}</div><div>{_parts(layer)}</div>"
    many = drops.paint_drops + drops.thinner_drops > MANY_DROPS
    if many:
        lines = (f"{_ml(layer.paint)} {paint}", f"{_ml(layer.thinner)} {thinner}")
        below = f"makes {_ml(layer.mix)}, {_parts(layer)}; {drops.paint_drops} and "
        below += f"{drops.thinner_drops} drops"
    else:
        lines = (f"{drops.paint_drops} drops {paint}", f"{drops.thinner_drops} drops {thinner}")
        below = f"{volumes}: makes {_ml(layer.mix)}, {_parts(layer)}"
    big = "<br>".join(escape(line) for line in lines)
    return (
        f"<div class='big'>{big}</div><div>{escape(below)}</div>"
        f"<div class='small'>drops of {drops.paint_drop.to('mL'):.2g} mL and "
        f"{drops.thinner_drop.to('mL'):.2g} mL: weigh 20 of your own pipette</div>"
    )


def _spray(layer: PlannedLayer) -> str:
    passes = f"<b>{layer.passes} passes</b>" if layer.passes > 1 else "<b>1 pass</b>"
    if layer.coats > 1:
        return (
            f"{passes} in {layer.coats} coats of {layer.wet_passes}, "
            f"<b>{_time(layer.flash_off)}</b> between coats"
        )
    return f"{passes}, wet in wet"


def _gun(given: PlanLayer) -> str:
    gun = given.setup.airbrush
    return (
        f"<b>{gun.pressure.to('psi'):.0f} psi</b> ({gun.pressure.to('kPa'):.0f} kPa), "
        f"<b>{gun.distance.to('mm'):.0f} mm</b> away, nozzle {gun.nozzle.to('mm'):g} mm"
    )


def bench_cards(plan: Plan) -> list[list[str]]:
    """Face and back of a card for each layer."""
    back = (
        f"<div class='back'><h1>Before you open a bottle</h1>"
        f"<div class='caution long'>{''.join(cautions(plan))}</div></div>"
    )
    out = []
    pairs = list(zip(plan.layers, plan.given, strict=True))
    for number, (layer, given) in enumerate(pairs, start=1):
        rows = [("gun", _gun(given)), ("spray", _spray(layer))]
        if layer.mask is not None:
            rows.insert(0, ("first", f"mask, {said(layer.mask.to('s'))}"))
        rows.append(("touch dry", f"after <b>{_time(layer.touch_dry)}</b>"))
        if number < len(pairs):
            wait, for_tape = _then(plan, number - 1)
            what = "before tape" if for_tape else "then wait"
            why = escape(_sentence(wait.why))
            rows.append((what, f"<b>{_time(wait)}</b> <span class='small'>{why}</span>"))
        worst = layer.judged.worst
        reason = layer.judged.reasons.get(worst, "")
        rows.append(("goes wrong first", f"<b>{escape(worst)}</b>: {escape(reason)}"))
        wash = [w for w in plan.washes if w.after == layer.name]
        if wash:
            split = wash[0].split
            rows.append(
                ("rinse", f"{split.portions} × {_ml(split.each)} {escape(wash[0].cleaner_name)}")
            )
        lines = "".join(f"<dt>{what}</dt><dd>{how}</dd>" for what, how in rows)
        face = (
            f"<div class='top'><span>{escape(plan.title)}</span>"
            f"<span>layer {number} of {len(pairs)}</span></div>"
            f"<h1>{escape(layer.name)}</h1><p class='job'>{escape(layer.job)}</p>"
            f"<div class='recipe'>{_recipe(layer, given)}</div><dl>{lines}</dl>"
            "<p class='small'>Film a pass is good to a factor 2.5: spray a card first. The whole "
            f"session: {planned(plan)}.</p>"
            f"{_short_cautions(plan)}"
        )
        out.append([face, back])
    return out


def _coats(layer: PlannedLayer) -> str:
    return "coat" if layer.coats == 1 else "coats"


def _layers(plan: Plan) -> str:
    head = (
        "<tr><th>layer</th><th>mix for one person</th><th>gun</th><th>passes</th>"
        "<th>between coats</th><th>then wait</th><th>goes wrong first</th></tr>"
    )
    rows = []
    for index, (layer, given) in enumerate(zip(plan.layers, plan.given, strict=True)):
        wait, for_tape = _then(plan, index)
        tape = "<br>for tape" if for_tape else ""
        paint, thinner = _names(given)
        mix = f"{_ml(layer.paint)} {paint} + {_ml(layer.thinner)} {thinner}"
        drops = layer.drops
        counted = (
            f"{drops.paint_drops} + {drops.thinner_drops} drops; " if drops is not None else ""
        )
        gun = given.setup.airbrush
        flash = _time(layer.flash_off) if layer.coats > 1 else "–"
        rows.append(
            f"<tr><td><b class='w'>{escape(layer.name)}</b><br>{escape(layer.job)}</td>"
            f"<td>{counted}{escape(mix)}</td>"
            f"<td class='w'>{gun.pressure.to('psi'):.0f} psi, {gun.distance.to('mm'):.0f} mm</td>"
            f"<td class='w'>{layer.passes} in {layer.coats} {_coats(layer)}</td>"
            f"<td class='w'>{flash}</td><td class='w'>{_time(wait)}{tape}</td>"
            f"<td>{escape(layer.judged.worst)}</td></tr>"
        )
    return f"<table>{head}{''.join(rows)}</table>"


def _materials(plan: Plan) -> str:
    priced = plan.cost is not None
    money = f"<th class='n'>cost, {escape(plan.currency)}</th>" if priced else ""
    rows = []
    for m in plan.materials:
        cost = "–" if m.cost is None else f"{m.cost:.2f}"
        rows.append(
            f"<tr><td>{m.kind}</td><td>{escape(m.name)}</td><td class='n'>{_ml(m.each)}</td>"
            f"<td class='n'>{_ml(m.total)}</td>" + (f"<td class='n'>{cost}</td>" if priced else "")
        )
    if priced:
        rows.append(
            "<tr><td colspan='4'>together, where a price is known</td>"
            f"<td class='n'>{plan.cost:.2f}</td>"
        )
    return (
        "<table><tr><th>what</th><th>name</th><th class='n'>each</th><th class='n'>in all</th>"
        f"{money}</tr>{'</tr>'.join(rows)}</tr></table>"
    )


def _air(plan: Plan) -> str:
    if not plan.exposures:
        return (
            "<p>The room was given without its volume or its air changes: what its air will "
            "hold is not known. Draw the air away from faces and outdoors, and let nobody stay who "
            "does not work.</p>"
        )
    many = len(plan.exposures) > 1
    head = (
        "<tr><th>sum of vapours over their limits: 1 is the limit</th><th>whole room</th>"
        "<th>within half a metre of the work</th></tr>"
    )
    rows = []
    for number, air in enumerate(plan.exposures, start=1):
        which = f"sitting {number}, " if many else ""
        rows.append(
            f"<tr><td>{which}worst 8 h</td><td><b>{air.shift_sum}</b></td>"
            f"<td><b>{air.near_shift_sum}</b></td></tr>"
            f"<tr><td>{which}worst 15 min</td><td><b>{air.short_sum}</b></td>"
            f"<td><b>{air.near_short_sum}</b></td></tr>"
        )
    worst = max(plan.exposures, key=lambda e: e.shift_sum.to("1"))
    flammable = max((e.flammable_share for e in plan.exposures), key=lambda r: r.to("1"))
    known = {c.text for c in plan.cautions}
    notes = [c for c in worst.cautions if c not in known]
    out = [
        f"<table>{head}{''.join(rows)}</table>",
        f"<p>{escape(_sentence(str(worst.ventilation)))} Whole room at most {flammable} of the "
        "lower flammable limit.</p>",
        "<ul class='small'>" + "".join(f"<li>{escape(c)}</li>" for c in notes) + "</ul>",
    ]
    sources = escape("; ".join(worst.citations))
    out.append(f"<p class='foot'>Limits and rules: {sources}.</p>")
    return "".join(out)


def _air_in_short(plan: Plan) -> str:
    """One line for the front of the sheet."""
    if not plan.exposures:
        return "What the air of the room will hold is not known. "
    worst = max(plan.exposures, key=lambda e: e.shift_sum.to("1"))
    return (
        f"The air of the room comes to {worst.shift_sum} of the 8 h limits (1 is the limit), "
        "more at the bench: see overleaf. "
    )


def sheet(plan: Plan) -> list[list[str]]:
    """Front and back of the session's sheet."""
    when, sure = summary(plan)
    room = plan.given[0].setup.room
    where = f"{room.temperature}, {room.relative_humidity} humidity"
    last = plan.cautions[-1]
    front = (
        f"<div class='head'><h1>{escape(plan.title)}</h1>"
        f"<span>{crew(plan)}; {escape(where)}</span></div>"
        f"<p><b>{when}</b>; {sure}. {visit_times(plan)}</p>"
        f"<h2>When</h2><div class='fit'>{svg(plan)}</div>"
        f"<h2>Layers, from the part upwards</h2>{_layers(plan)}"
        f"<h2>What to bring</h2>{_materials(plan)}"
        "<p class='small'>Amounts hold the margin and what the gun keeps. Film a pass is good to "
        "a factor 2.5: spray a card first and count the passes that it takes.</p>"
        f"<div class='caution'>{_air_in_short(plan)}"
        "<b>Read the cautions overleaf before you open a bottle.</b> "
        f"{escape(last.text)}</div>"
        "<p class='foot'>Computed by mistcoat. Ranges hold the true value with 95 %, as far as "
        "the stated causes go.</p>"
    )
    # What the air comes to stands with the air.
    worst = max(plan.exposures, key=lambda e: e.shift_sum.to("1"), default=None)
    told = set(worst.cautions) if worst is not None else set()
    told.update(c for air in plan.exposures for c in air.cautions if c.startswith(MEANS))
    minded = [w for w in map(_sentence, plan.warnings) if w not in told]
    notes = "".join(f"<li>{escape(w)}</li>" for w in minded)
    hint = f"<li>{escape(_sentence(plan.colour_hint))}</li>" if plan.colour_hint else ""
    small = " class='small'" if len(minded) > MANY_NOTES else ""
    back = (
        f"<h2>The air of the room</h2>{_air(plan)}"
        f"<h2>What to mind in this plan</h2><ul{small}>{hint}{notes}</ul>"
        f"<h2>Before you open a bottle</h2>"
        f"<div class='caution long'><div class='two'>{''.join(cautions(plan))}</div></div>"
    )
    return [[front, back]]
