"""Set-up sheets for the tests: one of every kind of feature, and their pages read back as whoever holds one reads."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import cache
from html.parser import HTMLParser

from crib.features import KINDS
from crib.planning.advise import Answered, advise
from crib.planning.ask import read_request
from crib.shop import from_json
from crib.units import nm
from tests.printed import Read, numbers_of
from tests.slant_samples import chamfer_cutter, dovetail_cutter, named, pointed
from tests.test_sample_crib import CUTTERS, HERE

SHOP = json.loads((HERE / "shop.json").read_text(encoding="utf-8"))

OWNED = (*CUTTERS, dovetail_cutter(301, 1.0, 55, 0.5, 0.375), chamfer_cutter(302, 0.75, 60, 0.1),
         pointed(303, "countersink", 0.75, 82),
         named(304, "keyseat-cutter", diameter_mm=0.75, face_mm=0.1875, neck_mm=0.25, reach_mm=1.5, shank_mm=0.5),
         named(305, "grooving-bar", diameter_mm=0.5, face_mm=0.046, length_of_cut_mm=0.08, min_hole_mm=0.6,
               shank_mm=0.5, reach_mm=1.0))
"""The sample's cutters, and one that its bench lacks for each of the examples that it can't make."""

MORE: Mapping[str, tuple[str, dict[str, str]]] = {
    "closed slot": ("slot", {"width": "5/8", "depth": "3/8", "length": "3", "ends": "closed"}),
    "slot with one closed end": ("slot", {"width": "5/8", "depth": "3/8", "length": "3", "ends": "one"}),
    "closed keyseat": ("keyseat", {"shaft": "3/4", "width": "3/16", "depth": ".100", "length": "1.5",
                                   "ends": "closed"}),
    "the slide's T-slot": ("t-slot", {
        "throat": "5/8+.002-0", "depth": ".520", "head_width": ".975+.010-.010", "head_height": ".240+.005-.005",
        "length": "6", "material": "grey iron", "use": "slide"}),
    "groove by a disc": ("internal-groove", {
        "bore": "1+.001-0", "diameter": "1.25+.006-0", "width": ".190+.004-0", "from_face": "1/4"}),
    "bored hole": ("hole", {"diameter": "1.000+.002-0", "depth": "1", "finish": "bored", "through": "yes"}),
}
ALL = (*KINDS, *MORE)


@cache
def answered(name: str, units: str = "in", dro: bool = True) -> Answered:
    """The answer to the example of a kind, or to one of `MORE`."""
    kind, texts = MORE[name] if name in MORE else (name, dict(KINDS[name].example))
    shop = replace(from_json(SHOP), units=units, dro=dro, rotary_turns=72)
    found = advise(read_request(kind, texts, shop, "in"), OWNED, shop)
    assert found.proved, f"nothing in OWNED makes the example of {name}: add a cutter that does"
    return found


@dataclass
class Element:
    """A piece of a page."""

    tag: str
    names: tuple[str, ...]
    inside: list[Element | str] = field(default_factory=list)

    def all(self, what: str) -> Iterator[Element]:
        """Every piece of a tag or a class in it, in order."""
        for one in self.inside:
            if isinstance(one, Element):
                if what in (one.tag, *one.names):
                    yield one
                yield from one.all(what)

    def first(self, what: str) -> Element | None:
        return next(self.all(what), None)

    @property
    def text(self) -> str:
        """Its words, without those of its drawings."""
        parts = [one if isinstance(one, str) else "" if one.tag == "svg" else one.text for one in self.inside]
        return " ".join(" ".join(parts).split())


class Page(HTMLParser):
    """A page as a tree; every tag must close as it opens, and nothing may run."""

    EMPTY = ("meta", "path", "rect", "circle", "input")

    def __init__(self, text: str) -> None:
        super().__init__()
        self.root = Element("", ())
        self.open = [self.root]
        self.feed(text)
        assert self.open == [self.root]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        found = dict(attrs)
        assert tag not in ("script", "link", "img", "iframe", "object", "a"), tag
        assert not any(name.startswith("on") for name in found), found
        one = Element(tag, tuple((found.get("class") or "").split()))
        self.open[-1].inside.append(one)
        if tag not in self.EMPTY:
            self.open.append(one)

    def handle_endtag(self, tag: str) -> None:
        if tag not in self.EMPTY:
            assert self.open.pop().tag == tag

    def handle_data(self, data: str) -> None:
        self.open[-1].inside.append(data)


@dataclass
class OnSheet:
    """A pass as it stands on a sheet: as a row of the table is read, and each slide's readings with the turns and the
    divisions of its dial."""

    read: Read
    dials: list[tuple[str, str, float, float]]


_ON_THE_WAY = re.compile(r"(table|cross) ([-+.\d]+) = (-?\d+) turns? \+ ([\d.]+)")


def passes_of(page: str, unit_mm: float) -> list[OnSheet]:
    """Every pass of a sheet, in order."""
    found: list[OnSheet] = []
    cutter = 0
    for step in Page(page).root.all("step"):
        title = step.first("h2") or step.first("h3") or step.first("h4")
        assert title is not None
        if put_in := re.search(r"Put in no\. (\d+)", title.text):
            cutter = int(put_in[1])
        mine = [_pass(one, cutter, unit_mm) for one in step.all("li") if one.first("no")]
        for label, says in _facts(step):
            if label == "cut":
                for one in mine:
                    one.read.cut = "both" if says == "full width" else says
            if numbers := re.match(r"passes ([\d, -]+)$", label):
                for one in mine:
                    one.read.says += [says] if one.read.number in numbers_of(numbers[1]) else []
        found += mine
    return found


def _facts(step: Element) -> Iterator[tuple[str, str]]:
    for one in step.all("div"):
        label, says = one.first("dt"), one.first("dd")
        if label and says:
            yield label.text, says.text


def _pass(one: Element, cutter: int, unit_mm: float) -> OnSheet:
    def length(text: str) -> int:
        return nm(float(text) * unit_mm)

    number, feed = one.first("no"), one.first("feed")
    assert number is not None
    along: tuple[int, ...] = ()
    readings: dict[str, int] = {}
    notes = [note.text for note in one.all("note")]
    dials = [(slide, reading, float(turns), float(divisions)) for note in notes if note.startswith("on the dials: ")
             for slide, reading, turns, divisions in _ON_THE_WAY.findall(note)]
    for setting in one.all("set"):
        value, dial = setting.first("b"), setting.first("dial")
        assert value is not None
        slide = setting.text.split(value.text)[0].strip()
        if slide == "table":
            along = tuple(length(text) for text in value.text.split(" to "))
        else:
            readings[slide] = length(value.text)
        if dial and (told := re.match(r"(-?\d+) turns? \+ ([\d.]+)", dial.text)):
            dials.append((slide, value.text.split(" to ")[0], float(told[1]), float(told[2])))
    arrows = {"→": "right", "←": "left", "⤓": "down"}
    return OnSheet(Read(int(number.text), cutter, readings.get("cross", 0), readings["Z"],
                        arrows.get(feed.text if feed else "", ""), "", along, readings.get("table stop"),
                        notes), dials)
