"""Why not with each of the other cutters, down an axis: what it has, what would be needed, and what would do."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from crib.cutters.base import Cutter
from crib.cutters.drill import flutes_of
from crib.features.rounds import is_through
from crib.findings.message import Mm, apart, said
from crib.handbook.reaming import can_follow, window
from crib.holders.chucks import hold_down
from crib.machining.tool import holding_of
from crib.planning.advice import Refusal
from crib.planning.holes.boring import asks
from crib.planning.holes.draft import Question
from crib.planning.holes.strokes import reaches
from crib.tapping.holes import BORED_LEAST, MILLED, REAMED_MM, drill_hole, usable
from crib.tapping.holes import drilled as drilled_holes

_CORE = 0.4
"""The core of an end mill that doesn't cut, of its diameter [-], to be measured. Common practice."""

_SLACK = 1e-6


def hole_refusals(question: Question, cutters: Sequence[Cutter]) -> Iterator[Refusal]:
    """Why not with each hole maker: drills alone, reamers, end mills, boring bars."""
    yield from _drills(question, cutters)
    drills = [c for c in cutters if c.kind == "drill" and usable(c)]
    for cutter in cutters:
        if cutter.kind == "reamer" and cutter.diameter_mm is not None:
            yield from _reamer(question, cutter, drills)
        elif cutter.kind == "end-mill" and cutter.diameter_mm is not None:
            yield from _end_mill(question, cutter)
        elif cutter.kind == "boring-bar":
            yield from _bar(question, cutter, drills)


def _drills(question: Question, cutters: Sequence[Cutter]) -> Iterator[Refusal]:
    """The hole that a drill makes alone and the limit that it misses; before a reamer, what it would leave."""
    size = question.feature.request.size("diameter")
    reamer = next((c.diameter_mm for c in cutters if c.kind == "reamer" and c.diameter_mm is not None and usable(c)
                   and size.lo - _SLACK <= c.diameter_mm + REAMED_MM <= size.hi + _SLACK), None)
    for hole in drilled_holes(cutters, question.shop.own):
        made = hole.expected_mm
        if hole.cutter is None or size.lo - _SLACK <= made <= size.hi + _SLACK:
            continue
        limit = size.hi if made > size.hi else size.lo
        word, side = ("over the most", "or less") if made > size.hi else ("under the least", "or more")
        makes, bound = apart(made, limit)
        right = Mm(hole.diameter_mm + limit - made, places=4)
        says, fix = said("makes {makes}, {word}, {bound}", makes=makes, word=word,
                         bound=bound), said("a drill of {right} {side} would do", right=right,
                                                            side=side)
        if reamer is not None and not can_follow(reamer, hole.diameter_mm, made):
            least, most = (Mm(reamer - stock, places=4) for stock in reversed(window(reamer)))
            fix = said("under the reamer a drill of {least} to {most} would do", least=least, most=most)
        yield Refusal(hole.cutter, "cannot", "SZ3", says, made, limit, fix, abs(made - limit))


def _reamer(question: Question, cutter: Cutter, drills: Sequence[Cutter]) -> Iterator[Refusal]:
    """A reamer that cuts outside the limits, or that no drill leaves enough, and not too much, to take."""
    size, own = question.feature.request.size("diameter"), question.shop.own
    across = cutter.diameter_mm or 0.0
    cuts = across + REAMED_MM
    if not size.lo - _SLACK <= cuts <= size.hi + _SLACK:
        limit = size.hi if cuts > size.hi else size.lo
        made, bound = apart(cuts, limit)
        word = "over the most" if cuts > size.hi else "under the least"
        low, high = (Mm(mm - REAMED_MM, places=4) for mm in (size.lo, size.hi))
        fix = said("a reamer of {low} to {high}", low=low, high=high)
        yield Refusal(cutter, "cannot", "SZ3", said("cuts {made}, {word}, {bound}", made=made, word=word,
                                                    bound=bound), cuts, limit, fix, abs(cuts - limit))
        return
    fitting = [c for c in drills if hold_down(c, holding_of(question.shop)).ok
               and can_follow(across, c.diameter_mm or 0.0, drill_hole(c.diameter_mm or 0.0, own))]
    if fitting:
        yield from _too_short(question, cutter, fitting)
        return
    sizes = [c.diameter_mm or 0.0 for c in drills if hold_down(c, holding_of(question.shop)).ok]
    least, most = (across - stock for stock in reversed(window(across)))
    under = said("a drill of {least} to {most}", least=Mm(least, places=4), most=Mm(most, places=4))
    near = min(sizes, key=lambda mm: max(least - mm, mm - most), default=None)
    has = "none" if near is None else said("{near} as the nearest", near=Mm(near, places=4))
    says = said("it wants {under} before it, and the crib has {has}", under=under, has=has)
    yield Refusal(cutter, "cannot", "HO1", says, near, least if near is None or near < least else most,
                  said("{under} first", under=under), 0.0)


def _end_mill(question: Question, cutter: Cutter) -> Iterator[Refusal]:
    """An end mill that would be plunged: its size, and whether it cuts to its middle."""
    size = question.feature.request.size("diameter")
    made = (cutter.diameter_mm or 0.0) + MILLED
    if not size.lo - _SLACK <= made <= size.hi + _SLACK:
        limit = size.hi if made > size.hi else size.lo
        has, needs = apart(made, limit)
        word, side = ("over the most", "or less") if made > size.hi else ("under the least", "or more")
        right = Mm(limit - MILLED, places=4)
        yield Refusal(cutter, "cannot", "SZ3", said("plunged it makes {has}, {word}, {needs}", has=has, word=word,
                                                    needs=needs), made, limit,
                      said("one of {right} {side} that cuts to its centre would do", right=right,
                           side=side), abs(made - limit))
    elif not cutter.centre_cutting:
        core = _CORE * (cutter.diameter_mm or 0.0)
        sure = "its teeth don't reach the centre" if cutter.centre_cutting is False else (
            "whether its teeth reach the centre isn't on record")
        answer = "cannot" if cutter.centre_cutting is False else "measure first"
        yield Refusal(cutter, answer, "EN1", said("{sure}: a core of about {core} would stand, there is no hole for it",
                                                  sure=sure, core=Mm(core)), 0.0, core,
                      said("a hole of {core} first, or one that cuts to its centre", core=Mm(core)),
                      0.0 if answer == "measure first" else core)


def _bar(question: Question, cutter: Cutter, drills: Sequence[Cutter]) -> Iterator[Refusal]:
    """A bar that must be measured, or that finds no hole to go into."""
    size, own = question.feature.request.size("diameter"), question.shop.own
    if asked := asks(question, cutter):
        yield Refusal(cutter, "measure first", "G7", *asked[:1], fix=asked[1], short_mm=0.0)
        return
    if cutter.min_hole_mm is None or cutter.diameter_mm is None:
        return
    least, most = cutter.min_hole_mm + BORED_LEAST, size.lo - 10 * 0.0254
    if least > most + _SLACK:
        has, needs = apart(least, most)
        yield Refusal(cutter, "cannot", "SZ3", said("it wants a hole of {has} to go into, and {needs} is the most "
                                                    "before this bore", has=has, needs=needs),
                      least, most, "a thinner bar", least - most)
        return
    fitting = [c for c in drills if hold_down(c, holding_of(question.shop)).ok
               and least <= drill_hole(c.diameter_mm or 0.0, own) <= most]
    if fitting:
        yield from _too_short(question, cutter, fitting)
        return
    holes = [drill_hole(c.diameter_mm or 0.0, own) for c in drills if hold_down(c, holding_of(question.shop)).ok]
    near = min(holes, key=lambda mm: max(least - mm, mm - most), default=None)
    makes = "no drill that can be held makes one" if near is None else (
        said("the nearest that a drill here makes is {near}", near=apart(near, least)[0]))
    says = said("it wants a hole of {least} to {most} to go into, and {makes}", least=Mm(least), most=Mm(most),
                makes=makes)
    fix = said("a drill for a hole of {least} or more", least=Mm(least))
    yield Refusal(cutter, "cannot", "SZ3", says, near, least, fix, 0.0)


def _too_short(question: Question, cutter: Cutter, drills: Sequence[Cutter]) -> Iterator[Refusal]:
    """A cutter before which the drills of the right size don't go deep enough: the longest, and by how much. Flutes
    that nobody measured are asked about."""
    depth = question.feature.request.size("depth")
    deep = depth.nominal if is_through(question.feature.request) else depth.mid
    if any(reaches(drill, deep) for drill in drills):
        return
    longest = max(drills, key=lambda drill: drill.length_of_cut_mm or flutes_of(drill).usual)
    cut, guessed = longest.length_of_cut_mm or flutes_of(longest).usual, longest.length_of_cut_mm is None
    unsure = guessed and flutes_of(longest).longest >= deep - _SLACK
    has, needs = apart(cut, deep)
    guess = " as one of its size usually has, not measured" if guessed else ""
    says = (said("the drill before it, no. {id}, {cutter}, has flutes of {has}{guess}, the hole goes {needs} deep",
                 id=longest.id, cutter=longest.label, has=has, guess=guess, needs=needs))
    yield Refusal(cutter, "measure first" if unsure else "cannot", "RE1", says, cut, deep,
                  "measure the drill's flutes" if unsure else "a longer drill", 0.0 if unsure else deep - cut)
