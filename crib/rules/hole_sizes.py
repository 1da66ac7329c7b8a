"""Rules for the size that a hole comes out as, and what the drill before it leaves."""

from __future__ import annotations

from collections.abc import Iterator

from crib.cutters import kind_of
from crib.features.down import Counterbore, Finish, FlatHole, PlainHole
from crib.findings.finding import Finding, Grade, off_drawing
from crib.findings.message import Mm, Text, apart, said
from crib.handbook.bands import band
from crib.handbook.deviations import PAPER_MM
from crib.handbook.reaming import BY_HAND_MM, CUTS_OVER_MM, outside, outside_by_hand, window
from crib.machining.chain import Chain
from crib.machining.holes import MILLED, Hole
from crib.machining.own_holes import oversize, own_band, whole_range
from crib.machining.words import Making, Role
from crib.rules.catalogue import PRACTICE
from crib.shop import Own
from crib.units import Size

_SLACK = 1e-6

_CARE = 0.5
"""What care leaves of how far a plunged mill's hole may be off [-]. Common practice, no source."""


_MADE = {Making.BORE: "bored", Making.REAM: "reamed", Making.END_MILL: "plunged with an end mill"}


def otherwise(chain: Chain) -> Iterator[Finding]:
    """HO5: a hole is made as it is asked for: what follows the hole before it isn't true, what isn't reamed isn't as
    smooth."""
    hole, asked = _plain(chain), chain.question.feature.down
    if hole is None or not isinstance(asked, PlainHole):
        return
    made = _MADE.get(hole.way, "drilled")
    if asked.finish == Finish.BORED and hole.way is Making.END_MILL:
        yield Finding("HO5", Grade.WARN, said("it isn't bored but {made}: true to its place, and no rounder than that "
                                              "leaves it", made=made))
    elif asked.finish == Finish.BORED and hole.way is not Making.BORE:
        yield Finding("HO5", Grade.WARN, "it isn't bored: the hole stays where the drill wandered, and as straight as "
                                         "that")
    elif asked.finish == Finish.REAMED and hole.way is not Making.REAM:
        yield Finding("HO5", Grade.WARN, said("it isn't reamed but {made}: measure it at both ends, and look at its "
                                              "wall", made=made))


def holds(chain: Chain) -> Iterator[Finding]:
    """G12: the way's usual band stays inside the drawing's."""
    for hole, size in _to_limits(chain):
        low, high = _comes_out(hole, False, chain.question.shop.own)
        if size.lo - _SLACK <= low and high <= size.hi + _SLACK:
            continue
        yield Finding("G12", Grade.CAUTION, said("{cutter} comes out {span} as usual: a trial hole in scrap first",
                                                 cutter=hole.label, span=_span(low, high)))


def misses(chain: Chain) -> Iterator[Finding]:
    """What the way can't hold even with care: how far the hole may come out beyond the nearer limit."""
    for hole, size in _to_limits(chain):
        low, high = _comes_out(hole, True, chain.question.shop.own)
        over = max(high - size.hi, size.lo - low)
        if size.band > _SLACK and over > _SLACK:
            yield off_drawing("G12", said("with care {cutter} comes out {span}, the limits are {limits}: beyond them "
                                          "by", cutter=hole.label, span=_span(low, high),
                                          limits=_span(size.lo, size.hi)), over, of_mm=size.band)


def _to_limits(chain: Chain) -> Iterator[tuple[Hole, Size]]:
    """The hole that a chain makes, or the seat, and its limits; a seat that has none of its own is only room."""
    asked = chain.question.feature.down
    if isinstance(asked, (PlainHole, FlatHole)) and chain.hole:
        yield chain.hole, asked.diameter
    elif isinstance(asked, Counterbore) and asked.diameter.given:
        tool = chain.tools[-1]
        across = tool.cutter.diameter_mm or 0.0
        yield Hole(tool.owned, tool.owned.label, across, across + MILLED, Making.END_MILL), asked.diameter


def off_paper(chain: Chain) -> Iterator[Finding]:
    """TO1: so of a floor that comes in one stroke; what a drill's point ends in has no floor to hold."""
    if not isinstance(chain.question.feature.down, (FlatHole, Counterbore)):
        return
    for one in chain.question.dimensions:
        if one.sort == "depth" and _SLACK < one.size.band < 2 * PAPER_MM - _SLACK:
            yield Finding("TO1", Grade.NOTE, said(
                "{name} {least} to {most} comes in one stroke: off paper it may be {off} out either way; stop short by "
                "that or more, measure, then set what is left", name=one.name, least=Mm(one.size.lo, places=4),
                most=Mm(one.size.hi, places=4), off=Mm(PAPER_MM)), PRACTICE)


def _span(least: float, most: float) -> Text:
    return said("{least} to {most}", least=Mm(least, places=4), most=Mm(most, places=4))


def _comes_out(hole: Hole, careful: bool, own: Own) -> tuple[float, float]:
    """From what to what a hole comes out, as usual or with care [mm]."""
    if hole.way is Making.END_MILL:
        out = MILLED * (_CARE if careful else 1.0)
        return hole.expected_mm - out, hole.expected_mm + out
    if hole.way is Making.REAM:
        low, high = CUTS_OVER_MM[careful]
        return hole.diameter_mm + low, hole.diameter_mm + high
    way = own_band(own, hole.diameter_mm) if hole.way is Making.DRILL else band(hole.way)
    middle = hole.expected_mm if hole.way is Making.BORE else hole.diameter_mm
    low, high = way.careful_mm if careful else way.usual_mm
    return middle + low, middle + high


def left_to_ream(chain: Chain) -> Iterator[Finding]:
    """HO1: what the drill leaves for the reamer, on its own size, is what a reamer takes."""
    hole = _plain(chain)
    drill = hole.first.diameter_mm if hole and hole.way is Making.REAM and hole.first else None
    if hole is None or drill is None or hole.bored:
        return
    size = hole.diameter_mm
    own = chain.question.shop.own
    if hole.cutter and kind_of(hole.cutter).by_hand(hole.cutter):
        yield from _left_by_hand(own, hole, drill)
    elif outside(size, drill):
        least, most = window(size)
        has, low = apart(size - drill, least, 4)
        what = "it may rub and not clean up" if size - drill < least else "a larger drill between, or slowly"
        yield Finding("HO1", Grade.CAUTION, said("{before} leaves {has} on diameter for the reamer, it takes {low} to "
                                                 "{high}: {what}", before=hole.before, has=has, low=low,
                                                 high=Mm(most, places=4), what=what))
    if (widest := drill + whole_range(own, drill)[1]) > size - _SLACK:
        has, low = apart(widest, size, 4)
        yield Finding("HO1", Grade.CAUTION, said("{before}: its hole may come out {has}, the reamer is {low}: measure "
                                                 "it before the reamer goes in", before=hole.before, has=has, low=low))


def _left_by_hand(own: Own, hole: Hole, drill: float) -> Iterator[Finding]:
    """The same of a reamer that is turned by hand: it goes by the hole that is there."""
    size = hole.diameter_mm
    made = drill + oversize(own, drill)[0]
    is_set = kind_of(hole.cutter).sizes(hole.cutter)[0] < size - _SLACK if hole.cutter else False
    if not is_set and outside_by_hand(size, made):
        least, most = BY_HAND_MM
        has, low = apart(size - made, least, 4)
        what = "it may rub and not clean up" if size - made < least else "hard to turn, and it tears: bore it first"
        yield Finding("HO1", Grade.CAUTION, said("{before} makes a hole that leaves {has} on diameter, a hand reamer "
                                                 "takes {low} to {high}: {what}", before=hole.before, has=has, low=low,
                                                 high=Mm(most, places=4), what=what))


def by_hand(chain: Chain) -> Iterator[Finding]:
    """HO9: a hand reamer is turned by hand."""
    for tool, cut in ((job.tool, cut) for job, cut in chain.passes()):
        if cut.role is Role.REAM and tool.by_hand:
            yield Finding("HO9", Grade.NOTE, said("{cutter} is turned by hand, the spindle off: under power its long "
                                                  "lead grabs and it breaks", cutter=tool.owned.label),
                          cutter_id=tool.id)


def _plain(chain: Chain) -> Hole | None:
    """The hole that a chain makes, where it is one with limits of its own."""
    return chain.hole if isinstance(chain.question.feature.down, PlainHole) else None


RULES = (otherwise, holds, off_paper, left_to_ream, by_hand)
