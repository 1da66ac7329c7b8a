"""What is done at each pass of a run, ticked off: its settings, what is minded, what is measured after it."""

from __future__ import annotations

from collections.abc import Iterator

from crib.findings.message import Fact, Measure, Reading, Text, joined, said
from crib.machining.question import ZEROS
from crib.machining.words import Direction, Fed, Role, Slide
from crib.pages.passes import without_size
from crib.pages.process import aim, limits
from crib.pages.runs import Run
from crib.pages.tasks import Reads, Setting, Task
from crib.planning.process import dials as handwheels
from crib.planning.told.advice import Plan
from crib.planning.told.passes import Check, Dial, Pass
from crib.shop import Shop

ARROWS = {"right": "→", "left": "←", "away": "↑", "toward": "↓", "down": "⤓"}


def tasks(run: Run, plan: Plan, shop: Shop, holes: int) -> Iterator[Task | Reads]:
    """Each pass with what is measured after it."""
    for_all = shared(run, plan, shop)
    for one in run:
        notes = tuple(note for note in _notes(one, plan, shop) if note not in for_all)
        yield Task(_what(one), one.no, tuple(_settings(one, plan)), _arrow(one.feed), notes, holes)
        checks = [read(check) for check in plan.checks if check.after_no == one.no]
        yield from checks or _floor(one, plan)


def _floor(one: Pass, plan: Plan) -> Iterator[Reads]:
    """The depth that is measured where the floor is cut, and nothing else is."""
    if begins(one.says, "depth by micrometer") and plan.zeros == ZEROS:
        yield Reads(f"depth of the {one.room}", "depth micrometer", Measure(-one.dial_z_mm))


def _what(one: Pass) -> Fact:
    if one.diameter_mm is not None and one.role in (Role.BORE, Role.GROOVE):
        return said("{role} to {size}", role=one.role, size=Measure(one.diameter_mm))
    return one.role


def _arrow(feed: Fed) -> str:
    return ARROWS.get(feed.split(" ")[0], "")


def _settings(one: Pass, plan: Plan) -> Iterator[Setting]:
    """Table, cross and Z, as far as they are set; on the dials too where there is no readout."""
    dials = {dial.slide: dial for dial in one.dials} if plan.handwheels else {}
    ends = dict.fromkeys(end for end in (one.dial_from_mm, one.dial_to_mm) if end is not None)
    if ends:
        yield Setting("table", joined(" to ", map(Reading, ends)), on_the_dial(dials.get(Slide.TABLE)))
    elif one.stop_mm is not None:
        at = max((along for along, _ in one.dial_path_mm), default=one.stop_mm)
        yield Setting("table stop", Reading(at), on_the_dial(dials.get(Slide.TABLE)))
    if one.direction != Direction.AXIAL or one.dial_from_mm is not None:
        yield Setting("cross", Reading(one.dial_cross_mm, sign=True), on_the_dial(dials.get(Slide.CROSS)))
    yield Setting("Z", Reading(one.dial_z_mm), on_the_dial(dials.get(Slide.KNEE)))


def _on_the_way(one: Pass, plan: Plan, shop: Shop) -> Iterator[Fact]:
    """The corners of a way on the dials, where there is no readout: those that no setting has."""
    if not plan.handwheels:
        return
    set_ = {(dial.slide, dial.reading_mm) for dial in one.dials}
    corners = dict.fromkeys(corner for along, across in one.dial_path_mm
                            for corner in ((Slide.TABLE, along), (Slide.CROSS, across)) if corner not in set_)
    if corners:
        yield said("on the dials: {corners}", corners=joined(", ", (
            said("{slide} {reading} = {dial}", slide=slide, reading=Reading(at, sign=slide == Slide.CROSS),
                 dial=on_the_dial(handwheels.dial(slide, at, shop))) for slide, at in corners)))


def on_the_dial(dial: Dial | None) -> Fact:
    """A reading in turns and divisions."""
    if dial is None:
        return ""
    return said("{turns} {word} + {divisions:g}", turns=dial.turns, divisions=dial.divisions,
                word="turn" if abs(dial.turns) == 1 else "turns")


def shared(run: Run, plan: Plan, shop: Shop) -> dict[Fact, list[int]]:
    """What is to be minded in more than one pass, with their numbers."""
    found: dict[Fact, list[int]] = {}
    for one in run:
        for note in _notes(one, plan, shop):
            found.setdefault(note, []).append(one.no)
    return {note: those for note, those in found.items() if len(those) > 1}


def _notes(one: Pass, plan: Plan, shop: Shop) -> Iterator[Fact]:
    """What is to be minded in a pass: its way, its stops, what is said of it and isn't measured by a line of its
    own."""
    yield from one.way_says
    yield from _on_the_way(one, plan, shop)
    if one.stops_mm:
        places = joined(", ", map(Measure, one.stops_mm))
        yield said("stop {places} from where it goes in, and at its end: spindle off, brush the chips out",
                   places=places)
    measured = any(check.after_no == one.no for check in plan.checks) or bool([*_floor(one, plan)])
    if one.says and not (measured and begins(one.says, *_MEASURED)):
        yield without_size(one.says) if one.role == Role.GROOVE and one.diameter_mm is not None else one.says


_MEASURED = ("measure ", "depth by micrometer")
"""What is said of a pass that a line of its own says with its reading."""


def begins(text: Text, *words: str) -> bool:
    """Whether a text begins with some words."""
    return (text if isinstance(text, str) else text.template).startswith(words)


def read(one: Check) -> Reads:
    """What is to be measured, as the sheet has it."""
    return Reads(one.what, one.instrument, aim(one), limits(one))
