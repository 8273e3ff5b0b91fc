"""Cards and sheets of a session: sizes, what must stand on them, and never without cautions."""

from __future__ import annotations

import re
from functools import cache
from html import escape, unescape
from html.parser import HTMLParser
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import mistcoat as mc
import pytest
from mistcoat import cards
from mistcoat.cards import pages, style

THINNER = mc.Blend({"acetone": 40, "n-butyl acetate": 60}, basis="volume", name="house thinner")
ROOM = mc.Room(temperature="21 degC", relative_humidity="50 %", volume="60 m3", air_changes="4 /h")
BARE = mc.Room(temperature="21 degC", relative_humidity="50 %")


def layer(name: str, job: str, room: mc.Room, **more: Any) -> mc.PlanLayer:
    gun = mc.Airbrush(nozzle="0.3 mm", pressure="20 psi", distance="80 mm")
    paint = mc.Paint.typical(more.pop("family", "solvent lacquer"), name=name)
    thinner = more.pop("thinner", THINNER)
    setup = mc.Setup(paint, thinner, airbrush=gun, room=room, substrate="wood", wet_passes=4)
    return mc.PlanLayer(setup, job, area="40 cm2", **more)


@cache
def plan(people: int = 1, bare: bool = False) -> mc.Plan:
    room = BARE if bare else ROOM
    boat = [
        layer("grey <primer>", "primer", room, place="primer", shade="grey"),
        layer("hull green", "over a mask", room, mask=True, shade="deep green"),
    ]
    prices: Any = {"hull green": (3.2, mc.Volume("17 mL"))}
    return mc.plan(
        boat,
        cleaner="acetone",
        title="Saltmarsh Lane",
        people=people,
        prices=prices,
        currency="EUR",
    )


@cache
def overnight() -> mc.Plan:
    spirit = mc.Blend("white spirit")
    enamels = [
        layer(name, job, BARE, family="alkyd enamel", thinner=spirit)
        for name, job in (("red oxide", "primer"), ("cream", "base coat"))
    ]
    return mc.plan(enamels, cleaner="white spirit", title="Two nights")


def words(page: str) -> str:
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", page)).split())


@pytest.mark.parametrize("size", ["A6", "A4", "Letter", "letter"])
@pytest.mark.parametrize("made", [plan(), plan(3), plan(bare=True), overnight()])
def test_every_card_has_all_its_cautions(size: str, made: mc.Plan) -> None:
    found = made.card(size)
    document = found.html()
    sheets = len(made.layers) if size == "A6" else 1
    assert len(found) == 2 * sheets
    for caution in made.cautions:
        assert document.count(escape(caution.text)) >= sheets
    faces = document.split("<section class='page'>")[1::2]
    assert len(faces) == sheets
    for face in faces:
        assert "local codes and licensed practice decide" in words(face)
        assert "overleaf" in words(face)


@pytest.mark.parametrize("size", ["A6", "A4", "Letter"])
def test_page_size_and_nothing_from_outside(size: str) -> None:
    document = plan(3).card(size).html()
    width, height, _ = style.SIZES[size]
    assert f"@page {{ size: {width:g}mm {height:g}mm" in document
    for outside in ("<script", "src=", "<link", "@import", "url(http", "<img"):
        assert outside not in document
    assert document.count("http") == document.count('xmlns="http://www.w3.org/2000/svg"')
    # Greys and black only: every colour has three equal parts.
    for colour in re.findall(r"#([0-9a-fA-F]{3,6})\b(?![^<]*</title>)", document):
        size_of = len(colour) // 3
        parts = {colour[i * size_of : (i + 1) * size_of] for i in range(3)}
        assert len(parts) == 1, colour


class Balance(HTMLParser):
    """Every element that is opened is closed."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag not in {"meta", "br"}:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        pass

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag


@pytest.mark.parametrize("size", ["A6", "A4"])
@pytest.mark.parametrize("made", [plan(3), overnight()])
def test_well_formed_and_escaped(size: str, made: mc.Plan) -> None:
    document = made.card(size).html()
    checker = Balance()
    checker.feed(document)
    assert not checker.open
    assert "<primer>" not in document
    assert "nan" not in words(document).lower().split()


def test_a_bench_card_tells_what_to_do() -> None:
    found = plan()
    face = words(found.card("A6").html().split("<section class='page'>")[3])
    green = found.layers[1]
    assert green.drops is not None
    for what in (
        "hull green",
        "over a mask",
        f"{green.drops.paint_drops} drops hull green",
        f"{green.drops.thinner_drops} drops house thinner",
        "20 psi",
        "80 mm",
        f"{green.passes} pass",
        "goes wrong first",
        green.judged.worst,
        "mask, 15 min",
        "rinse",
        "layer 2 of 2",
    ):
        assert what in face, what


def test_tape_waits_for_a_hard_coat() -> None:
    found = plan()
    primer = found.layers[0]
    # Here tape wants more than the next layer.
    assert primer.until_mask.lasts > primer.until_next.lasts
    assert "before tape" in words(found.card("A6").html().split("<section class='page'>")[1])
    assert "for tape" in words(found.card("A4").html())
    tape = found.table().columns()["until_next_min"][0]
    assert tape == pytest.approx(primer.until_mask.lasts.to("min"))


def test_the_sheet_holds_the_session() -> None:
    found = plan(3)
    text = words(found.card("A4").html())
    for what in ("3 people", "Saltmarsh Lane", "EUR", "at the bench", "house thinner", "acetone"):
        assert what in text, what
    air = found.exposures[0]
    assert str(air.shift_sum) in text
    assert "within half a metre" in text
    assert "from memory" in text
    for warning in found.warnings:
        assert warning[1:] in text
    assert "not known" in words(plan(bare=True).card("A4").html())
    drawing = found.card("A4").html()
    svg = drawing[drawing.index("<svg") : drawing.index("</svg>")]
    for row in ("hull green", "gun 1", "spray", "part dries"):
        assert row in words(svg)
    assert svg.count("<rect") >= len([s for s in found.steps if s.person == 1])
    assert "more" in words(overnight().card("A4").html().split("</svg>")[0])


def test_no_card_without_cautions(monkeypatch: pytest.MonkeyPatch) -> None:
    whole = plan()
    with pytest.raises(mc.DataError, match="without its cautions"):
        cards.Cards("t", "A6", [["face", "back"]], [])
    texts = [c.text for c in whole.cautions]
    good = "".join(escape(t) for t in texts)
    assert len(cards.Cards("t", "A6", [["face", good]], texts)) == 2
    # One card of two without, or one caution of many gone, is refused.
    with pytest.raises(mc.DataError, match="without its cautions"):
        cards.Cards("t", "A6", [["face", good], ["face", ""]], texts)
    with pytest.raises(mc.DataError, match="without its cautions"):
        cards.Cards("t", "A6", [["face", "".join(map(escape, texts[1:]))]], texts)
    monkeypatch.setattr(pages, "cautions", lambda _: [])
    for size in style.SIZES:
        with pytest.raises(mc.DataError, match="without its cautions"):
            whole.card(size)
    stripped: Any = SimpleNamespace(cautions=[], title="t", layers=[], given=[])
    with pytest.raises((mc.DataError, ValueError)):
        cards.of_plan(stripped, "A6")


def test_save_and_show(tmp_path: Path) -> None:
    found = plan().card()
    assert found.size == "A6"
    file = found.save(tmp_path / "cards.html")
    assert file.read_text(encoding="utf-8") == found.html()
    shown = found._repr_html_()
    assert shown.startswith("<iframe")
    assert "local codes" in unescape(shown)
    assert repr(found) == "<Cards A6: Saltmarsh Lane, 4 pages>"


@pytest.mark.parametrize("size", ["A5", "", "A4 landscape", 4])
def test_unknown_size(size: Any) -> None:
    with pytest.raises((mc.UnknownName, TypeError), match=r"A6|str"):
        plan().card(size)
