"""The pass table: what to set, which way to feed, and how deep to bite, from the slot's centre and the surface."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import groupby

from crib.findings.message import ByUnits, Fact, Handed, Measure, Message, Mm, Rate, Text, joined, said
from crib.machining.draft import ZEROS
from crib.machining.words import Role
from crib.pages.blocks import Align, Blocks, Column, Paragraph, Row, Table
from crib.planning.advice import Pass
from crib.records import replace

Run = tuple[Pass, ...]

_TO_SIZE = re.compile(r"^to ([\d.,]+|\{\w+\}): ")
"""What a cut of a bore comes to stands in the table where several are alike."""

_ARROWS = {"right": "→", "left": "←", "away": "↑", "toward": "↓", "down": "↓", "up": "↑"}
_LYING = (
    "The work lies along the table, seen from its right-hand end. cross: the cutter's axis from {zero}, + away "
    "from you; "
)
_MEANING = "Z: its lower face from {zero}; feed: the way the cutter goes over the work"
_STOPS = "table: both stops of the axis along the feed, from the left end of the finished cut"
_MEASURED = ("measure ", "depth by micrometer")
"""What is said of a pass that the list of what to measure says with its reading."""


def table(passes: Sequence[Pass], zeros: tuple[Text, Text] = ZEROS, measured: bool = False) -> Blocks:
    """The passes, cross and Z as they are dialled.

    Passes that follow each other and differ in nothing but depth share a line; every depth is then listed. `zeros`:
    what cross and Z count from. `measured`: whether what to measure is told elsewhere.
    """
    across = any(one.direction != "axial" for one in passes)
    between_ends = any(one.dial_from_mm is not None for one in passes)
    shown = [one for one in _columns(passes) if one.head not in _gone(passes, across, between_ends)]
    heads = [one.head for one in shown]
    rows = tuple(Row(tuple(cell for head, cell in _cells(run) if head in heads), _depths(run))
                 for run in folded(passes))
    lying = said(_LYING, zero=zeros[0]) if across else ""
    stops = [Paragraph(_STOPS, indent=2)] if between_ends else []
    meaning = joined("", (lying, said(_MEANING, zero=zeros[1])))
    return Table(tuple(shown), rows), Paragraph(meaning, indent=2), *stops, *_notes(passes, measured)


_HAND = ByUnits("s/in", "s/cm")


def _columns(passes: Sequence[Pass]) -> Iterator[Column]:
    """Every column that there may be; those that are needed least at the handle are left out first."""
    right = Align.RIGHT
    yield Column("no")
    yield Column("cutter", importance=6, instead="; ".join(_cutters(passes)))
    yield Column("what", shrinks=True)
    yield Column("cross", Align.POINT)
    yield Column("Z", Align.POINT)
    yield Column("table")
    yield Column("feed")
    yield Column("cut", importance=3)
    yield Column("side", right)
    yield Column("depth", right, 2)
    yield Column("rpm", right, 5, "; ".join(dict.fromkeys(f"no. {one.cutter_id} {_rpm(one)}" for one in passes)))
    yield Column("/min", right)
    yield Column(_HAND, right, 4)
    yield Column("min", right, 1)


def _gone(passes: Sequence[Pass], across: bool, between_ends: bool) -> set[Fact]:
    """Columns that there are none of: no cross slide where cutters only come down, no stops where both ends are open,
    no seconds without a hand."""
    hand = any(one.by_hand for one in passes)
    return {*(() if across else ("cross",)), *(() if between_ends else ("table",)), *(() if hand else (_HAND,))}


def _cells(run: Run) -> Iterator[tuple[Fact, Fact]]:
    """The cells of passes that share a line, each with the head of its column."""
    first, last = run[0], run[-1]
    yield "no", str(first.no) if len(run) == 1 else f"{first.no}-{last.no}"
    yield "cutter", f"no. {first.cutter_id}"
    yield "what", " ".join(dict.fromkeys(word for word in (first.role, first.room) if word))
    yield "cross", Measure(first.dial_x_mm, sign=True)
    yield "Z", Measure(last.dial_z_mm)
    yield "table", _stops(first)
    yield "feed", _feed(first.feed)
    yield "cut", first.direction
    yield "side", _bite([one.radial_mm for one in run])
    yield "depth", _bite([one.axial_mm for one in run])
    yield "rpm", _rpm(first)
    yield "/min", Rate(first.mm_per_min) if first.mm_per_min > 0 else "-"
    yield _HAND, Handed(first.mm_per_min) if first.by_hand and first.mm_per_min > 0 else ""
    yield "min", f"{sum(one.minutes for one in run):.1f}"


def folded(passes: Sequence[Pass]) -> list[Run]:
    """Passes in a row that differ only in depth, and cuts of a bore that take the same, together."""
    return [tuple(group) for _, group in groupby(passes, key=_but_depth)]


def _but_depth(one: Pass) -> Pass:
    alike = replace(one, no=0, z_mm=0.0, dial_z_mm=0.0, axial_mm=0.0, minutes=0.0, says="", dials=(), stops_mm=())
    bored = replace(one, no=0, minutes=0.0, says="", dials=(), diameter_mm=0.0, radial_mm=round(one.radial_mm, 3))
    return bored if one.role == "bore" else alike


def _cutters(passes: Sequence[Pass]) -> list[str]:
    mine: dict[int, list[int]] = {}
    for one in passes:
        mine.setdefault(one.cutter_id, []).append(one.no)
    return [f"{numbers(those)} no. {cutter}" for cutter, those in mine.items()]


def _rpm(one: Pass) -> str:
    return str(one.rpm) if one.rpm is not None else "hand" if one.role == Role.TAP else f"~{one.wanted_rpm}"


def _stops(one: Pass) -> Text:
    """Both stops along the feed, one where it only goes down."""
    ends = dict.fromkeys(end for end in (one.dial_from_mm, one.dial_to_mm) if end is not None)
    return joined(" - ", map(Measure, ends))


def _feed(feed: str) -> str:
    arrow = _ARROWS.get(feed.split(" ")[0] if feed else "")
    return f"{arrow} {feed}" if arrow else feed


def _bite(bites: Sequence[float]) -> Fact:
    return Mm(max(bites)) if max(bites) > 0 else "-"


def _depths(run: Run) -> tuple[Paragraph, ...]:
    if len(run) == 1:
        return ()
    if run[0].role == "bore":
        sizes = joined(", ", (Measure(one.diameter_mm or 0.0) for one in run))
        return (Paragraph(said("in turn to {sizes}", sizes=sizes), indent=6, hang=17),)
    depths = joined(", ", (Measure(one.dial_z_mm) for one in run))
    return (Paragraph(said("at Z {depths}", depths=depths), indent=6, hang=11),)


def _notes(passes: Sequence[Pass], measured: bool = False) -> Iterator[Paragraph]:
    """What is said about passes, each saying once with the numbers that it is for."""
    sayings: dict[Text, list[int]] = {}
    listed = {one.no for run in folded(passes) for one in run[1:] if one.role == "bore"}
    for one in passes:
        says = "" if measured and _template(one.says).startswith(_MEASURED) else one.says
        if one.no in listed:
            says = _without_size(says)
        for saying in (says, _stop(one), _for_chips(one), *one.way_says):
            if saying:
                sayings.setdefault(saying, []).append(one.no)
    for saying, those in sayings.items():
        yield Paragraph(saying, numbers(those), 2, 4)
    if any(one.rpm is None and one.role != Role.TAP for one in passes):
        yield Paragraph("~ the speed it wants; which speeds the mill has isn't known.", indent=2)


def _template(text: Text) -> str:
    return text.template if isinstance(text, Message) else text


def _without_size(text: Text) -> Text:
    bare = _TO_SIZE.sub("", _template(text))
    return replace(text, template=bare) if isinstance(text, Message) else bare


def _for_chips(one: Pass) -> Text:
    """Where a pass stops for its chips: the stops part it evenly."""
    if not one.stops_mm:
        return ""
    return said("every {far} stop, spindle off, brush the chips out", far=Mm(one.stops_mm[0]))


def _stop(one: Pass) -> Text:
    """Where a pass stops that comes in from an open end, as it is dialled where that is known."""
    if one.stop_mm is None:
        return ""
    at = max((along for along, _ in one.dial_path_mm), default=one.stop_mm)
    return said("stop at {at} along the feed", at=Measure(at))


def numbers(those: Sequence[int]) -> str:
    """Passes' numbers with runs drawn together.

    >>> numbers([1, 2, 3, 5, 8, 9])
    '1-3, 5, 8-9'
    """
    parts: list[list[int]] = []
    for number in those:
        if parts and number == parts[-1][-1] + 1:
            parts[-1].append(number)
        else:
            parts.append([number])
    return ", ".join(str(part[0]) if len(part) == 1 else f"{part[0]}-{part[-1]}" for part in parts)
