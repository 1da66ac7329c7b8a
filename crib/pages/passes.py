"""The pass table: what to set, which way to feed, and how deep to bite, from the slot's centre and the surface."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from crib.findings.message import ByUnits, Fact, Handed, Measure, Message, Mm, Rate, Text, joined, said
from crib.light.patterns import pattern
from crib.light.records import replace
from crib.machining.question import ZEROS
from crib.machining.words import Direction, Fed
from crib.pages.blocks import Align, Blocks, Column, Paragraph, Row, Table
from crib.pages.folding import Again, Fold, Run, folded, lined
from crib.planning.told.passes import Pass

_TO_SIZE = pattern(r"^to \{\w+\}: ")
"""What a cut of a bore comes to stands in the table where several are alike."""

_ARROWS = {"right": "→", "left": "←", "away": "↑", "toward": "↓", "down": "↓", "up": "↑"}
_MEASURED = ("measure ", "depth by micrometer")
"""What is said of a pass that the list of what to measure says with its reading."""


def table(passes: Sequence[Pass], zeros: tuple[Text, Text] = ZEROS, measured: bool = False, timed: bool = False
          ) -> Blocks:
    """The passes, cross and Z as they are dialled, and what their columns count from.

    Passes that follow each other and differ in one setting share a line, which has every setting. `zeros`: what cross
    and Z count from. `measured`: whether what to measure is told elsewhere; `timed`: with the minutes of each line.
    """
    return (*rows(passes, timed), Paragraph(meaning(passes, zeros), indent=2), *notes(passes, measured))


def rows(passes: Sequence[Pass], timed: bool = False, cutters: bool = True, brief: bool = False) -> Blocks:
    """The passes in a table, and what can't be read off it without being told. `cutters`: with the cutter and the speed
    of each line; `brief`: columns that there is no room for are left out without a word."""
    gone = _gone(passes, timed) | (set() if cutters else {"cutter", "rpm"})
    shown = [one for one in _columns(passes) if one.head not in gone]
    heads = [one.head for one in shown]
    lines = lined(passes)
    told = tuple(Row(tuple(cell for head, cell in _cells(line) if head in heads), _bored(line)) for line in lines)
    keys = joined("; ", filter(None, (_sides(passes), *_keys(lines))))
    return Table(tuple(shown), told, silent=brief), *([Paragraph(keys, indent=2)] if keys else [])


def meaning(passes: Sequence[Pass], zeros: tuple[Text, Text] = ZEROS) -> Text:
    """What the columns count from, and how the work is looked at."""
    across = any(one.direction != Direction.AXIAL for one in passes)
    lying = said("cross: the cutter's axis from {zero}, + away from you; ", zero=zeros[0]) if across else ""
    seen = ", seen from the table's right-hand end" if across else ""
    return joined("", (lying, said("Z: its lower face from {zero}{seen}", zero=zeros[1], seen=seen)))


def counts_from(passes: Sequence[Pass], zeros: tuple[Text, Text]) -> Text:
    """The same in short; a set-up that has noughts of its own says where they are."""
    across = any(one.direction != Direction.AXIAL for one in passes)
    if zeros != ZEROS:
        return "cross + is away from you; Z is the lower face's" if across else "Z is the lower end's"
    return "cross from the picture's 0, + away from you; Z: the lower face from the top" if across else (
        "Z: the lower end from the top")


_HAND = ByUnits("s/in", "s/cm")
_RATE = ByUnits("in/min", "mm/min")


def _columns(passes: Sequence[Pass]) -> Iterator[Column]:
    """Every column that there may be; those that are needed least at the handle are left out first."""
    right = Align.RIGHT
    yield Column("pass")
    yield Column("cutter", importance=6, instead="; ".join(_cutters(passes)))
    yield Column("what", wraps=True)
    yield Column("cross", Align.POINT, wraps=True)
    yield Column("Z", Align.POINT, wraps=True)
    yield Column("table", wraps=True)
    yield Column("feed", wraps=True)
    yield Column("side", right, yields=True)
    yield Column("depth", right, 2)
    yield Column("rpm", right, 5, "; ".join(dict.fromkeys(f"no. {one.cutter_id} {rpm_words(one)}" for one in passes)))
    yield Column(_RATE, right)
    yield Column(_HAND, right, 3)
    yield Column("minutes", right, 1)


def _gone(passes: Sequence[Pass], timed: bool) -> set[Fact]:
    """Columns that there are none of: no cross slide where cutters only come down, no stops where both ends are open,
    no seconds without a hand."""
    across = any(one.direction != Direction.AXIAL for one in passes)
    has: dict[Fact, bool] = {"cross": across, "table": any(one.dial_from_mm is not None for one in passes),
                             _HAND: any(one.by_hand for one in passes), "minutes": timed}
    return {head for head, is_there in has.items() if not is_there}


def _cells(line: Run | Again) -> Iterator[tuple[Fact, Fact]]:
    """The cells of a line, each with the head of its column."""
    if isinstance(line, Again):
        yield from _once_more(line)
        return
    first = line.first
    yield "pass", line.span
    yield "cutter", f"no. {first.cutter_id}"
    yield "what", " ".join(dict.fromkeys(word for word in (first.role, first.room) if word))
    yield "cross", _cross(line)
    yield "Z", _heights(line)
    yield "table", joined(" ", (_stops(one) for one in line.passes)) if line.fold is Fold.ROUND else _stops(first)
    yield "feed", ", ".join(one.feed for one in line.passes[:2]) if line.fold is Fold.SIDES else _feed(first)
    yield "side", _bite([one.radial_mm for one in line.passes])
    yield from _rates(line.passes)


def _once_more(line: Again) -> Iterator[tuple[Fact, Fact]]:
    passes = [one for run in line.lines for one in run.passes]
    yield "pass", _span(passes)
    yield "cutter", f"no. {passes[0].cutter_id}"
    yield "what", f"as {_span([one for run in line.like for one in run.passes])}"
    yield "cross", ""
    yield "Z", Measure(passes[0].dial_z_mm)
    yield "table", ""
    yield "feed", ""
    yield "side", ""
    yield from _rates(passes)


def _rates(passes: Sequence[Pass]) -> Iterator[tuple[Fact, Fact]]:
    first = passes[0]
    yield "depth", _bite([one.axial_mm for one in passes])
    yield "rpm", rpm_words(first)
    yield _RATE, Rate(first.mm_per_min) if first.mm_per_min > 0 else "-"
    yield _HAND, Handed(first.mm_per_min) if first.by_hand and first.mm_per_min > 0 else ""
    yield "minutes", f"{sum(one.minutes for one in passes):.1f}"


def _span(passes: Sequence[Pass]) -> str:
    return f"{passes[0].no}-{passes[-1].no}"


def _cross(run: Run) -> Fact:
    """Every setting of the cross slide; of two sides, how far from nought."""
    if run.fold is Fold.SIDES:
        far = joined(" ", (Measure(abs(one.dial_cross_mm)) for one in run.passes[::2]))
        return said("{sign}{far}", sign="±" if run.first.dial_x_mm > 0 else "∓", far=far)
    those = run.passes if run.fold is Fold.OVER else run.passes[:1]
    return joined(" ", (Measure(one.dial_cross_mm, sign=True) for one in those)) if len(those) > 1 else Measure(
        run.first.dial_cross_mm, sign=True)


def _heights(run: Run) -> Fact:
    if run.fold is Fold.DOWN:
        return joined(" ", (Measure(one.dial_z_mm) for one in run.passes))
    return Measure(run.last.dial_z_mm)


def _bored(line: Run | Again) -> tuple[Paragraph, ...]:
    """What each cut of a bore comes to."""
    if isinstance(line, Again) or line.fold is not Fold.BORE:
        return ()
    sizes = joined(", ", (Measure(one.diameter_mm or 0.0) for one in line.passes))
    return (Paragraph(said("in turn to {sizes}", sizes=sizes), indent=6, hang=17),)


def _cutters(passes: Sequence[Pass]) -> list[str]:
    mine: dict[int, list[int]] = {}
    for one in passes:
        mine.setdefault(one.cutter_id, []).append(one.no)
    return [f"{numbers(those)} no. {cutter}" for cutter, those in mine.items()]


def rpm_words(one: Pass) -> str:
    """The spindle's step; what is wanted, where the mill's steps aren't known."""
    return str(one.rpm) if one.rpm is not None else "hand" if one.spindle_is_off else f"~{one.wanted_rpm}"


def _stops(one: Pass) -> Text:
    """Both stops along the feed, one where it only goes down."""
    ends = dict.fromkeys(end for end in (one.dial_from_mm, one.dial_to_mm) if end is not None)
    return joined(" - ", map(Measure, ends))


def _feed(one: Pass) -> str:
    arrow = _ARROWS.get(one.feed.split(" ")[0] if one.feed else "")
    climbs = ", climb" if one.direction == Direction.CLIMB else ""
    return (f"{arrow} {one.feed}" if arrow else one.feed) + climbs


def _bite(bites: Sequence[float]) -> Fact:
    return Mm(max(bites)) if max(bites) > 0 else "-"


def _keys(lines: Sequence[Run | Again]) -> Iterator[Text]:
    """What signs in the table mean, where they are in it."""
    runs = [line for line in lines if isinstance(line, Run)]
    pairs = {run.first.dial_x_mm > 0: run for run in reversed(runs) if run.fold is Fold.SIDES}
    for run in pairs.values():
        first, other = ((Measure(one.dial_x_mm, sign=True), _feed(one)) for one in run.passes[:2])
        yield said("{both}: at {first} {way}, then at {other} {back}", both=_cross(replace(run, passes=run.passes[:2])),
                   first=first[0], way=first[1], other=other[0], back=other[1])
    stopped = [run.first for run in runs if run.first.dial_from_mm is not None]
    if any(one.feed == Fed.ROUND for one in stopped):
        yield "table: the cutter's axis from the middle, cross locked at 0"
    elif any(_goes_in(one) for one in stopped):
        yield said("table: {at} at the middle of the {room}, locked", at=Measure(0.0), room=stopped[0].room)
    elif stopped:
        yield "table: both stops of the axis, from the left end of the finished cut"


def _goes_in(one: Pass) -> bool:
    """Whether a pass is fed across, straight into the side of the work, with the table locked."""
    return one.dial_from_mm == one.dial_to_mm and one.feed.split(" ")[:1] in (["toward"], ["away"])


_CUTS = {Direction.BOTH: "full width", Direction.CONVENTIONAL: "conventional", Direction.CLIMB: "climb"}


def _sides(passes: Sequence[Pass]) -> str:
    """On which side the passes cut that are fed."""
    told = [(words, [one.no for one in passes if one.direction == cut]) for cut, words in _CUTS.items()]
    parts = [f"{numbers(those)} {words}" for words, those in told if those]
    return f"cut: {'; '.join(parts)}" if parts else ""


def notes(passes: Sequence[Pass], measured: bool = False) -> Iterator[Paragraph]:
    """What is said about passes, each saying once with the numbers that it is for. Their ways between the ends may be
    left for the steps, where there is no room."""
    sayings: dict[Fact, list[int]] = {}
    listed = {one.no for run in folded(passes) if run.fold is Fold.BORE for one in run.passes}
    for one in passes:
        says: Fact = "" if measured and template(one.says).startswith(_MEASURED) else one.says
        says = without_size(says) if one.no in listed else says
        for saying in (says, _stop(one), _for_chips(one), *one.way_says):
            if saying:
                sayings.setdefault(saying, []).append(one.no)
    ways = {saying for one in passes for saying in one.way_says}
    for saying, those in sayings.items():
        yield Paragraph(saying, numbers(those), 2, 4, spare=saying in ways)
    if any(one.rpm is None and not one.spindle_is_off for one in passes):
        yield Paragraph("~ the speed it wants; which speeds the mill has isn't known.", indent=2)


def template(text: Text) -> str:
    """What is said, without its facts."""
    return text.template if isinstance(text, Message) else text


def without_size(text: Fact) -> Fact:
    """What is said of a cut of a bore, without the size that it comes to."""
    if not isinstance(text, Message):
        return _TO_SIZE.sub("", text) if isinstance(text, str) else text
    bare = _TO_SIZE.sub("", text.template)
    return Message(bare, tuple((name, without_size(fact)) for name, fact in text.facts if f"{{{name}}}" in bare))


def _for_chips(one: Pass) -> Text:
    """Where a pass stops for its chips: the stops part it about evenly."""
    if not one.stops_mm:
        return ""
    return said("every {far} and at the end stop, spindle off, brush the chips out: packed, they snap the cutter",
                far=Measure(one.stops_mm[0]))


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
