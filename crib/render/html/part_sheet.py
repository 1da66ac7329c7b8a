"""The sheet of a whole part as one page for the machine: all of it on one look on the first, then step by step; on
Letter or A4, in black and white, on a phone; no script, no other file."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from hashlib import sha256

from crib.findings.message import Fact, Text
from crib.geometry.region import Region
from crib.pages.part.sheet import part_sheet
from crib.pages.tasks import OperationSteps, PartSheet, SetupCard, SetupSteps, Step, ToolLine
from crib.planning.parts.planned import PlannedPart
from crib.render.html.part_style import PART
from crib.render.html.setup_sheet import (
    WRITE,
    Fragment,
    Reader,
    facts_of,
    listed,
    names,
    panes,
    section,
    step_of,
    ticked_off,
)
from crib.render.html.sheet_style import PAGE, ROOT, STYLE, page_size
from crib.render.svg import part as svg_part
from crib.render.window import Pane
from crib.shop import Shop

_ROOM = {1: (120.0, 62.0), 2: (70.0, 46.0)}
_ELSE = (42.0, 32.0)
"""How wide and how high the picture of a set-up is at the most where there are so few, and where there are more
[mm]."""


def key_of(operation: str) -> str:
    """The name of an operation's box: made of its key, and safe to stand anywhere.

    >>> key_of("lay slot/10/0")
    'op-8fc16274ba'
    """
    return f"op-{sha256(operation.encode()).hexdigest()[:10]}"


def part_sheet_html(planned: PlannedPart, shop: Shop, paper: str | None = None, blank: Text = "",
                    news: Sequence[Fact] = (), cautions: Sequence[Text] = (), squaring: Sequence[Text] = ()
                    ) -> str | None:
    """The sheet as a whole page, in the shop's units; None where nothing of the part has a plan.

    Parameters: `paper`: `letter` or `a4`, the shop's own where nothing is said, and Letter for inches, A4 for
    millimetres; `blank`: what to saw; `news`: what changed since it was planned last; `cautions`: what keeps hands and
    eyes whole; `squaring`: how the blank is squared.
    """
    sheet = part_sheet(planned, shop, blank, news, cautions, squaring)
    return page(sheet, shop.units, paper or shop.sheet_paper or ("letter" if shop.units == "in" else "a4")
                ) if sheet else None


def part_fragment(planned: PlannedPart, shop: Shop, ticked: frozenset[str] = frozenset(), blank: Text = "",
                  news: Sequence[Fact] = (), cautions: Sequence[Text] = (), squaring: Sequence[Text] = ()
                  ) -> Fragment | None:
    """The same to be set into another page; `ticked`: the keys of the boxes that are (`name="box"`)."""
    sheet = part_sheet(planned, shop, blank, news, cautions, squaring)
    if sheet is None:
        return None
    reader = Reader(shop.units, names("d"), ticked)
    return Fragment(f'<div class="{ROOT}">{_inside(sheet, reader)}</div>', STYLE + PART)


def page(sheet: PartSheet, units: str, paper: str) -> str:
    """A sheet as a whole page, in `in` or `mm`, for `letter` or `a4`."""
    reader = Reader(units, names("d"))
    title = f"Part: {sheet.title}"
    return (f'<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8"><title>{reader.said(title)}</title>'
            f'<meta name="viewport" content="width=device-width,initial-scale=1">'
            f'<style>{page_size(paper)}{PAGE}{STYLE}{PART}</style></head>\n<body>\n<main class="{ROOT}">'
            f"{_inside(sheet, reader)}</main>\n</body></html>\n")


def _inside(sheet: PartSheet, reader: Reader) -> str:
    boxes = panes([step for part in sheet.parts for one in part.operations for step in one.steps])
    return "\n".join((
        f'<section class="look">{_look(sheet, reader)}</section>',
        step_of(sheet.squared, "", "squared", boxes, reader) if sheet.squared else "",
        *(_setup(part, boxes, reader) for part in sheet.parts),
        listed("always", "Always", sheet.always, reader),
    ))


def _look(sheet: PartSheet, reader: Reader) -> str:
    """The first page."""
    blanks = "".join(f'<span class="blank">{word} {WRITE}</span>' for word in ("drawing", "date", "by"))
    head = (f"<header><h1>{reader.said(sheet.title)}: the whole part</h1>"
            f'<p class="answer">{reader.said(sheet.answer)}</p><p class="blanks">{blanks}</p>'
            f"{facts_of(sheet.facts, reader)}</header>")
    return "".join((
        head,
        listed("mind", "Changed since", sheet.news, reader),
        listed("beyond", "Lacking", sheet.lacking, reader),
        _cards(sheet.setups, reader),
        _tools(sheet.setups, reader),
        section("ready", "Measure and touch off with", ticked_off("ready", sheet.ready, reader)),
        listed("beyond", "Not as drawn: needs your yes", sheet.beyond, reader),
        listed("mind", "Mind", sheet.cautions, reader),
    ))


def _cards(cards: Sequence[SetupCard], reader: Reader) -> str:
    room = _ROOM.get(len(cards), _ELSE)
    shown = "".join(_card(card, room, reader) for card in cards)
    return section("setups", "Set-ups, in order", f'<div class="cards">{shown}</div>')


def _card(card: SetupCard, room: tuple[float, float], reader: Reader) -> str:
    drawn = svg_part.part(card.scene, *room, is_titled=False)
    return (f'<article class="setup"><h3>{card.number}. {reader.said(card.words)}: {card.minutes:.0f} min</h3>'
            f"<figure>{drawn}</figure>{facts_of(card.facts, reader)}</article>")


def _tools(cards: Sequence[SetupCard], reader: Reader) -> str:
    """Every cutter in the order in which it goes in, by what holds it."""
    rows = "".join(_rows(card, reader) for card in cards)
    return section("out", "Cutters in order", (
        '<div class="wide"><table><thead><tr><th scope="col">set-up</th><th scope="col">hold in</th>'
        '<th scope="col">cutter</th><th scope="col">from</th><th scope="col">does</th>'
        f'<th scope="col" class="right">min</th></tr></thead><tbody>{rows}</tbody></table></div>'))


def _rows(card: SetupCard, reader: Reader) -> str:
    before, out = None, []
    for at, one in enumerate(card.tools):
        holder = "" if before is not None and one.holder == before.holder else reader.said(one.holder)
        out.append(_row(card.number if at == 0 else None, holder, one, f"out{card.number}.{at}", reader))
        before = one
    return "".join(out)


def _row(number: int | None, holder: str, one: ToolLine, key: str, reader: Reader) -> str:
    first = ' class="first"' if number is not None else ""
    return (f"<tr{first}><td>{number or ''}</td><td>{holder}</td><td><label>{reader.box(key)}<bdi>"
            f"{reader.said(one.cutter)}</bdi></label></td><td><bdi>{reader.said(one.place)}</bdi></td>"
            f'<td><bdi>{reader.said(one.does)}</bdi></td><td class="right">{one.minutes:.0f}</td></tr>')


def _setup(part: SetupSteps, boxes: dict[Region, Pane], reader: Reader) -> str:
    """A set-up step by step."""
    number = sha256(reader.said(part.title).encode()).hexdigest()[:6]
    before = _steps(part.before, f"before-{number}", boxes, reader, 3)
    after = _steps(part.after, f"after-{number}", boxes, reader, 3)
    told = "".join(_operation(one, boxes, reader) for one in part.operations)
    return f'<section class="part"><h2>{reader.said(part.title)}</h2>{before}{told}{after}</section>'


def _operation(one: OperationSteps, boxes: dict[Region, Pane], reader: Reader) -> str:
    """An operation with a box of its own; what is done is named and no more."""
    key = key_of(one.key)
    done = ' <span class="done">done</span>' if one.is_done else ""
    steps = _steps(one.steps, key, boxes, reader, 4)
    return (f'<section class="operation" id="{key}"><h3><label>{reader.box(key)}{one.number}. '
            f"<bdi>{reader.said(one.title)}</bdi>{done}</label></h3>{steps}</section>")


def _steps(steps: Iterable[Step], key: str, boxes: dict[Region, Pane], reader: Reader, level: int) -> str:
    return "".join(step_of(step, "", f"{key}.{at}", boxes, reader, level) for at, step in enumerate(steps, start=1))


