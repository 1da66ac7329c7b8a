"""What goes before and beside the passes: holding, locks, touching off, handwheels, and what to measure."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from crib.findings.finding import FINE_MM
from crib.findings.message import Fact, Measure, Reading, Text, joined, said
from crib.machining.words import Slide
from crib.pages.blocks import Paragraph
from crib.pages.passes import numbers
from crib.planning.told.advice import Plan
from crib.planning.told.passes import Check, Dial, Pass


def blocks(plan: Plan) -> Iterator[Paragraph]:
    """What is told of each; nothing where nothing is."""
    told = [("Hold", plan.hold), ("Touch off", _touches(plan)), ("Holes", places(plan)), ("Index", indexed(plan)),
            ("Lock", locks(plan)),
            ("In and out", _in_and_out(plan)), ("Dials", _dials(plan)), ("Measure", checks(plan))]
    for label, text in told:
        if text:
            yield Paragraph(said("{text}.", text=text), label, hang=2)


def _touches(plan: Plan) -> Text:
    return joined("; ", (said("{number} {says}", number=number, says=one.says)
                         for number, one in enumerate(plan.touch_off, start=1)))


def places(plan: Plan, most: int | None = None) -> Text:
    """Where each hole stands: table, then cross, and on the handwheels where there is no readout; `most` of them at the
    most, by their readings alone."""
    if not plan.places:
        return ""
    by_hand = plan.handwheels and most is None
    told = [said("{number} at {x}, {y}{dials}", number=one.no, x=Measure(one.dial_x_mm, sign=True),
                 y=Measure(one.dial_y_mm, sign=True), dials=_turned(one.dials) if by_hand else "")
            for one in plan.places[:most]]
    more = len(plan.places) - len(told)
    return said("table, cross from {zero}: {told}{more}", zero=plan.places_from, told=joined("; ", told),
                more=f"; and {more} more, told by --steps" if more else "")


def indexed(plan: Plan) -> Text:
    """How the work is turned to each flat, in the order in which they are cut."""
    if not plan.indexed:
        return ""
    ways = tuple(dict.fromkeys(one.says for one in plan.indexed[1:]))
    if len(ways) == 1 < len(plan.indexed) - 1:
        flats = ", ".join(str(one.flat) for one in plan.indexed)
        return said("{by}: flats {flats}, all passes at each; {ways}", by=plan.index_by, flats=flats,
                    ways=joined(", ", ways))
    told = [said("{flat} {says}", flat=one.flat, says=one.says) for one in plan.indexed]
    return said("{by}, all passes at each: flat {told}", by=plan.index_by, told=joined("; ", told))


def _turned(dials: Sequence[Dial]) -> Text:
    return said(" ({each})", each=joined(", ", (
        said("{slide} {turns} + {divisions:g}", slide=one.slide, turns=one.turns, divisions=one.divisions)
        for one in dials)))


def locks(plan: Plan) -> str:
    """What is locked throughout, then what else is where passes differ."""
    if not any(one.locks for one in plan.passes):
        return ""
    always = " and ".join(filter(None, (", ".join(plan.locks[:-1]), *plan.locks[-1:])))
    groups: dict[tuple[str, ...], list[Pass]] = {}
    for one in plan.passes:
        groups.setdefault(tuple(slide for slide in one.locks if slide not in plan.locks), []).append(one)
    more = [f"{numbers([one.no for one in those])} {' and '.join(extra)} too"
            for extra, those in groups.items() if extra]
    return "; ".join(filter(None, (always, *more)))


def _in_and_out(plan: Plan) -> Text:
    """How far beyond the work each cutter's axis begins and ends its cuts."""
    beyond = {one.cutter_id: -min(one.enters_mm, one.leaves_mm or 0.0) for one in plan.passes
              if one.enters_mm is not None}
    told = [said("no. {number} {far}", number=number, far=Measure(mm)) for number, mm in beyond.items()]
    return said("axis clear of the end by {told}", told=joined(", ", told)) if told else ""


def _dials(plan: Plan) -> Text:
    """Each reading once with its turns and divisions, where there is no readout."""
    if not plan.handwheels:
        return ""
    slides: dict[Slide, dict[float, Text]] = {}
    for one in plan.passes:
        for dial in one.dials:
            slides.setdefault(dial.slide, {})[dial.reading_mm] = said(
                "{reading} = {turns} + {divisions:g}", reading=Measure(dial.reading_mm, sign=True), turns=dial.turns,
                divisions=dial.divisions)
    told: list[Fact] = [said("{slide} {readings}", slide=slide, readings=joined(", ", readings.values()))
                        for slide, readings in slides.items()]
    return joined("; ", (*told, plan.handwheels))


def checks(plan: Plan, with_what: bool = True) -> Text:
    """What to measure after which pass, and what it should read; `with_what`: by which instrument."""
    after: dict[int, list[Text]] = {}
    for one in plan.checks:
        by = f" by {one.instrument}" if with_what else ""
        reads = said("{what} {reads}{by}", what=one.what, reads=_reading(one), by=by)
        after.setdefault(one.after_no, []).append(reads)
    return joined("; ", (said("after {number} {told}", number=number, told=joined(", ", told))
                         for number, told in after.items()))


def _reading(one: Check) -> Fact:
    """What it should read, and the limits where the drawing gives them."""
    told = limits(one)
    return said("{reads} ({limits})", reads=aim(one), limits=told) if told else aim(one)


def aim(one: Check) -> Fact:
    """What it should read; of a narrow band to a tenth: rounded to a thou it may be one of the limits, or beyond."""
    if one.low_mm is None or one.high_mm is None or one.high_mm - one.low_mm > _NARROW_MM:
        return Measure(one.reads_mm)
    return Reading(one.reads_mm)


def limits(one: Check) -> Text:
    """The limits where the drawing gives them, to a tenth where they aren't whole thousandths: a limit that is rounded
    passes what the drawing refuses."""
    if one.low_mm is None or one.high_mm is None:
        return ""
    return said("{low} to {high}", low=Reading(one.low_mm), high=Reading(one.high_mm))


_NARROW_MM = 1.5 * FINE_MM
"""A band of which half a thou is a third or more [mm]."""
