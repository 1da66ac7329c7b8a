"""What a part is and which parts there are, in tables."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from crib.findings.finding import Finding
from crib.findings.message import InWords, Measure, Text, joined, said
from crib.pages.blocks import Align, Blocks, Bullets, Column, Fit, Heading, Paragraph, Row, Table, spaced, table
from crib.parts.order import LAST, Before
from crib.parts.part import Face, Part, Place, Placed, Runs, Stock

_COLUMNS = (Column("no", Align.RIGHT), Column("feature"), Column("kind"),
            Column("where, from front left top", wraps=True), Column("asked", wraps=True))


def stock_in_words(stock: Stock) -> Text:
    """The stock as it is said."""
    if stock.diameter is not None:
        return said("{diameter} round x {length}", diameter=InWords(stock.diameter), length=InWords(stock.length))
    return joined(" x ", map(InWords, (stock.length, stock.width, stock.height)))


def parts_page(parts: Iterable[Part]) -> Blocks:
    """A row for each part."""
    rows = [(part.name, stock_in_words(part.stock), part.material, str(len(part.features)), part.use, part.fits)
            for part in parts]
    return (table(("part", "stock", "material", "features", "use", "fits"), rows, Fit.ALL),)


def part_page(part: Part, pairs: Sequence[Before] = (), findings: Sequence[Finding] = (),
              faults: Sequence[Finding] = ()) -> Blocks:
    """A part with its features as they are listed, the order that must hold, and where they
    meet."""
    head = joined(", ", [one for one in (stock_in_words(part.stock), part.material, part.use and f"use: {part.use}",
                                         part.fits and f"fits {part.fits}") if one])
    rows = [(str(number), one.name, one.kind, place_in_words(one), _sizes(one))
            for number, one in enumerate(part.features, 1)]
    order = [said("{first} before {then}: {why}", first=one.first, then=_of(one.then), why=one.why) for one in pairs]
    return spaced([
        [Heading(part.name), Paragraph(head)],
        [Table(_COLUMNS, tuple(Row(cells) for cells in rows))] if rows else
        [Paragraph(f"no features yet: crib part {part.name} add slot --width 1/2 --depth 1/4 --at 3/4")],
        [Heading("must come first"), Bullets(tuple(order))] if order else [],
        findings_page(findings),
        [Heading("must be put right"), Bullets(tuple(map(_fault, faults)))] if faults else [],
        [Paragraph(note) for note in part.notes],
    ])


def _of(name: str) -> str:
    return f"the last cut of {name.removesuffix(LAST)}" if name.endswith(LAST) else name


def _fault(one: Finding) -> Text:
    return said("{says}: {fix}", says=one.says, fix=one.fix) if one.fix else one.says


def findings_page(findings: Iterable[Finding]) -> Blocks:
    """What is to be minded where features meet."""
    items = tuple(_fault(one) for one in findings)
    return (Heading("where features meet"), Bullets(items)) if items else ()


def place_in_words(one: Placed) -> Text:
    """Where a feature lies, as far as it goes in a cell."""
    place, more = one.place, len(one.more)
    at = said("{along}, {across}", along=Measure(place.along), across=Measure(place.across))
    parts: list[Text] = [str(place.face), said("at {at}", at=at)]
    parts += [_runs(place)] if place.runs is Runs.ACROSS else []
    parts += [said("{level} down", level=Measure(place.level))] if place.level else []
    parts += [f"and {more} more"] if more else []
    return joined(", ", parts)


def _runs(place: Place) -> str:
    return "runs front to back" if place.face in (Face.TOP, Face.BOTTOM) else "runs across"


def _sizes(one: Placed) -> str:
    return " ".join(f"{key.replace('_', '-')} {text}" for key, text in one.texts.items() if key != "count")
