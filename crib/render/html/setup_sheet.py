"""A set-up sheet as one page for the machine: to print on Letter or A4, in black and white too, and to read on a phone;
no script, no other file."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from html import escape
from itertools import count

from crib.findings.message import Fact
from crib.geometry.region import Region
from crib.light.tuples import NamedTuple
from crib.pages.scene import FromAbove, HolesFromAbove, Scene
from crib.pages.scenes import scene_of
from crib.pages.setup_sheet import setup_sheet
from crib.pages.tasks import CutterCard, Reads, Setting, SetupSheet, Step, Task
from crib.planning.advise import Answered
from crib.planning.dialled.finish import Proved
from crib.render.html.sheet_style import PAGE, ROOT, STYLE, page_size
from crib.render.svg import drawing as svg
from crib.render.svg import holes as svg_holes
from crib.render.svg import plan as svg_plan
from crib.render.svg.cutter import cutter
from crib.render.svg.strip import strip
from crib.render.text import plain
from crib.render.window import Pane
from crib.render.words import words

WRITE = '<span class="write" aria-hidden="true"></span>'

_RIGHT = "[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufefc\U00010800-\U00010fff\U0001e800-\U0001efff]"
_FROM_THE_RIGHT = re.compile(f"{_RIGHT}+(?:\\s+{_RIGHT}+)*")
"""Words that are written from the right: Hebrew, Arabic and their like (Unicode bidirectional classes R and AL)."""

_SHORT = 8
"""Things to do from which on a step may go on on the next page."""

_BOX = re.compile(r'<input type="checkbox" name="box" value="([^"]*)"')


class Reader(NamedTuple):
    """Who reads it: `in` or `mm`; `names` tells the drawings of the page apart, `ticked` are the boxes that are."""

    units: str
    names: Iterator[str]
    ticked: frozenset[str] = frozenset()

    def said(self, fact: Fact) -> str:
        """Something to be said, as it stands in the page: nothing in it is a tag or moves a sign, and words that are
        written from the right turn nothing but themselves."""
        return _FROM_THE_RIGHT.sub(r"<bdi>\g<0></bdi>", escape(plain(words(fact, self.units))))

    def box(self, key: str) -> str:
        """A box to tick, by its key."""
        checked = " checked" if key in self.ticked else ""
        return f'<input type="checkbox" name="box" value="{key}"{checked}>'


class Fragment(NamedTuple):
    """A sheet to be set into a page: what stands in it, and the style of that, which reaches nothing else."""

    body: str
    style: str

    @property
    def boxes(self) -> list[str]:
        """The keys of its boxes to tick, in order."""
        return _BOX.findall(self.body)


def sheet_html(found: Answered, units: str | None = None, paper: str | None = None, number: int = 0) -> str | None:
    """The set-up sheet of an answer as a whole page; None where there is no plan to set up.

    Parameters: `units`: `in` or `mm`, and `paper`: `letter` or `a4`, both the shop's own where nothing is said, and
    Letter for inches, A4 for millimetres; `number`: which of its plans, the best being 0.
    """
    sheet = setup_sheet(found, number)
    if sheet is None:
        return None
    shop = found.proved[number].draft.question.shop
    units = units or shop.units
    return page(sheet, units, paper or shop.sheet_paper or ("letter" if units == "in" else "a4"))


def picture_svg(found: Answered, units: str | None = None, number: int = 0) -> str | None:
    """The section of a plan alone, or the circle of its holes, as a drawing to scale, black on white; None where there
    is no plan."""
    return picture_of(found.proved[number], units) if number < len(found.proved) else None


def picture_of(proved: Proved, units: str | None = None) -> str:
    """The same of a plan that was proved."""
    scene, units = scene_of(proved), units or proved.draft.question.shop.units
    drawn = (svg_holes.holes(scene.above, units, "picture") if isinstance(scene.above, HolesFromAbove)
             else svg.section(scene, units, "picture"))
    on_paper = drawn.replace("<svg ", '<svg style="color:#000;background:#fff" ', 1)
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{on_paper}\n'


def sheet_fragment(found: Answered, units: str | None = None, number: int = 0, ticked: frozenset[str] = frozenset(),
                   prefix: str = "d") -> Fragment | None:
    """The same to be set into another page. `ticked`: the keys of the boxes that are (`name="box"`); they are the same
    for the same plan. `prefix`: what the names of its drawings begin with."""
    sheet = setup_sheet(found, number)
    if sheet is None:
        return None
    reader = Reader(units or found.proved[number].draft.question.shop.units, names(prefix), ticked)
    return Fragment(f'<div class="{ROOT}">{_inside(sheet, reader)}</div>', STYLE)


def page(sheet: SetupSheet, units: str, paper: str) -> str:
    """A sheet as a whole page, in `in` or `mm`, for `letter` or `a4`."""
    reader = Reader(units, names("d"))
    title = f"Set-up sheet: {sheet.title}"
    return (f'<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8"><title>{reader.said(title)}</title>'
            f'<meta name="viewport" content="width=device-width,initial-scale=1">'
            f'<style>{page_size(paper)}{PAGE}{STYLE}</style></head>\n<body>\n<main class="{ROOT}">'
            f"{_inside(sheet, reader)}</main>\n</body></html>\n")


def names(prefix: str) -> Iterator[str]:
    """What tells the drawings of a page apart."""
    return (f"{prefix}{number}" for number in count(1))


def _inside(sheet: SetupSheet, reader: Reader) -> str:
    boxes = panes(sheet.steps)
    steps = (step_of(step, f"{at}.", f"step{at}", boxes, reader) for at, step in enumerate(sheet.steps, start=1))
    return "\n".join((
        _head(sheet, reader),
        listed("beyond", "Not as drawn: needs your yes", sheet.beyond, reader),
        f'<section class="pictures">{"".join(_figure(one, reader) for one in sheet.pictures)}</section>',
        section("out", "Get out", "".join(_card(card, reader) for card in sheet.cutters)),
        section("ready", "Have ready", ticked_off("ready", sheet.ready, reader)),
        listed("mind", "Mind", sheet.cautions, reader),
        *steps,
        listed("always", "Always", sheet.always, reader),
        listed("why", "Why this way", sheet.reasons, reader),
    ))


def _head(sheet: SetupSheet, reader: Reader) -> str:
    blanks = "".join(f'<span class="blank">{word} {WRITE}</span>' for word in ("part", "date", "by"))
    return (f"<header><h1>Set-up sheet: {reader.said(sheet.title)}</h1>"
            f'<p class="answer">{reader.said(sheet.answer)}</p><p class="blanks">{blanks}</p>'
            f"{facts_of(sheet.facts, reader)}</header>")


def facts_of(facts: Iterable[tuple[str, Fact]], reader: Reader) -> str:
    """What holds, each behind its label."""
    rows = "".join(f"<div><dt>{escape(label)}</dt> <dd>{reader.said(fact)}</dd></div>" for label, fact in facts)
    return f"<dl>{rows}</dl>" if rows else ""


def section(name: str, title: str, inside: str) -> str:
    """A part of a page under its title; nothing where nothing is in it."""
    return f'<section class="{name}"><h2>{escape(title)}</h2>{inside}</section>' if inside else ""


def listed(name: str, title: str, facts: Iterable[Fact], reader: Reader) -> str:
    """The same with a list in it."""
    items = "".join(f"<li>{reader.said(fact)}</li>" for fact in facts)
    return section(name, title, f"<ul>{items}</ul>" if items else "")


def ticked_off(name: str, facts: Iterable[Fact], reader: Reader) -> str:
    """A list with a box before each."""
    items = "".join(f"<li><label>{reader.box(f'{name}.{at}')}<span>{reader.said(fact)}</span></label></li>"
                    for at, fact in enumerate(facts, start=1))
    return f'<ul class="ticked">{items}</ul>'


def _card(card: CutterCard, reader: Reader) -> str:
    """A cutter: its picture, what it is and where it lies, what to check on it."""
    key = f"no{card.number}"
    drawn = f"<figure>{cutter(card.scene, reader.units, next(reader.names), 36, 28)}</figure>" if card.scene else ""
    notes = "".join(f'<p class="note"><bdi>{reader.said(note)}</bdi></p>' for note in card.notes)
    checks = _tasks(card.checks, key, reader)
    return (f'<article class="card">{drawn}<h3><label>{reader.box(key)}no. {card.number}: '
            f"<bdi>{reader.said(card.what)}</bdi></label></h3>"
            f'<p>from <b><bdi>{reader.said(card.place)}</bdi></b>; hold in {reader.said(card.holder)}</p>'
            f"{checks}{notes}</article>")


def step_of(step: Step, number: str, key: str, boxes: dict[Region, Pane], reader: Reader, level: int = 2) -> str:
    """A step: its pictures beside what holds for all of it, and what to tick off, under a heading of some level."""
    drawn = (svg.section(step.scene, reader.units, next(reader.names), 46, 42, boxes[step.scene.stock], True)
             if step.scene else "")
    above = _above(step, boxes, reader) if step.above else ""
    figure = f"<figure>{drawn}{above}</figure>" if drawn or above else ""
    short = " short" if len(step.tasks) <= _SHORT else ""
    return (f'<section class="step{short}"><h{level}>{number} {reader.said(step.title)}</h{level}>{figure}'
            f"{facts_of(step.facts, reader)}{_tasks(step.tasks, key, reader)}</section>")


def _tasks(tasks: Iterable[Task | Reads], key: str, reader: Reader) -> str:
    """Things to tick off, each with a key that it keeps."""
    items = "".join(_task(one, f"{key}.{at}", reader) if isinstance(one, Task) else _reads(one, f"{key}.{at}", reader)
                    for at, one in enumerate(tasks, start=1))
    return f'<ul class="tasks">{items}</ul>'


def _task(one: Task, key: str, reader: Reader) -> str:
    number = f'<b class="no">{one.number}</b>' if one.number is not None else ""
    feed = f'<span class="feed">{escape(one.feed)}</span>' if one.feed else ""
    settings = "".join(_setting(each, reader) for each in one.settings)
    notes = "".join(f'<span class="note">{reader.said(note)}</span>' for note in one.notes)
    return (f'<li><label>{reader.box(key)}{number}<span class="do"><span class="what">{reader.said(one.text)}</span>'
            f"{settings}{feed}{notes}{WRITE if one.blank else ''}</span></label>{_each(one.times, key, reader)}</li>")


def _each(times: int, key: str, reader: Reader) -> str:
    """A box for each time that something is done, where that is more than once."""
    boxes = "".join(f"<label>{reader.box(f'{key}.{at}')}{at}</label>" for at in range(1, times + 1))
    return f'<div class="each">{boxes}</div>' if times > 1 else ""


def _setting(one: Setting, reader: Reader) -> str:
    dial = f'<span class="dial">{reader.said(one.dial)}</span>' if one.dial else ""
    return f'<span class="set">{escape(one.slide)} <b>{reader.said(one.reading)}</b> {dial}</span>'


def _reads(one: Reads, key: str, reader: Reader) -> str:
    limits = f' <span class="limits">({reader.said(one.limits)})</span>' if one.limits else ""
    return (f'<li class="reads"><label>{reader.box(key)}<span class="do"><span class="what">measure '
            f"{reader.said(one.what)}</span> by {reader.said(one.instrument)}: <b>{reader.said(one.reads)}</b>{limits} "
            f"{WRITE}</span></label></li>")


def _figure(one: Scene | FromAbove | HolesFromAbove, reader: Reader) -> str:
    name = next(reader.names)
    drawn = (svg.section(one, reader.units, name, 100, 72) if isinstance(one, Scene)
             else svg_holes.above(one, reader.units, name))
    return f"<figure>{drawn}</figure>"


def _above(step: Step, boxes: dict[Region, Pane], reader: Reader) -> str:
    """The view from above; of what is open at both ends a piece as wide as the section."""
    name = next(reader.names)
    if isinstance(step.above, FromAbove):
        return svg_plan.plan(step.above, reader.units, name, 46, 34)
    return strip(step.above, boxes[step.scene.stock], name) if step.above and step.scene else ""


def panes(steps: Sequence[Step]) -> dict[Region, Pane]:
    """One window for all steps that are seen in the same metal, so that they can be told apart at a look."""
    found: dict[Region, Pane] = {}
    for scene in filter(None, (step.scene for step in steps)):
        mine, was = svg.pane_of(scene), found.get(scene.stock)
        found[scene.stock] = mine if was is None else _round(was, mine)
    return found


def _round(one: Pane, other: Pane) -> Pane:
    return Pane(min(one.left, other.left), max(one.right, other.right), min(one.bottom, other.bottom),
                max(one.top, other.top))
