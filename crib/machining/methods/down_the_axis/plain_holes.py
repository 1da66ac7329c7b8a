"""A plain hole: drilled, or by reamer, boring bar or end mill after a drill or alone."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cached_property

from crib.cutters import goes_down, kind_of
from crib.cutters.base import Cutter, Down
from crib.cutters.drill import flutes_of
from crib.features import down
from crib.features.down import Finish
from crib.findings.finding import FINE_MM, Figure
from crib.findings.message import InWords, Mm, Text, apart, said
from crib.findings.verdicts import Verdict
from crib.handbook.bands import drill_mean
from crib.handbook.boring import BEFORE_BORING_MM, BORED_LEAST
from crib.handbook.reaming import BY_HAND_MM, can_follow, can_follow_by_hand, window
from crib.holders.chucks import hold_down
from crib.holders.heads import is_head
from crib.light.hints import ClassVar
from crib.light.records import dataclass
from crib.machining.chain import Chain
from crib.machining.cores import ROOM_MM, core_mm, taken_as
from crib.machining.holes import (
    MILLED,
    REAMED_MM,
    Hole,
    drill_hole,
    drilled,
    goes_under,
    other_ways,
    reams_to,
    usable,
)
from crib.machining.methods.base import Limit
from crib.machining.methods.down_the_axis.boring import held_in_head
from crib.machining.methods.down_the_axis.drilling import hole_jobs, reaches
from crib.machining.methods.down_the_axis.sizes import SLACK, by_condition, is_within, limit_of, unknown
from crib.machining.methods.down_the_axis.strokes import spot, that_help
from crib.machining.own_holes import own_words
from crib.machining.question import Question
from crib.machining.tool import holding_of
from crib.machining.words import Making

_ANSWERS: dict[Finish, dict[Making, Verdict]] = {
    Finish.DRILLED: {Making.DRILL: Verdict.AS_DRAWN},
    Finish.REAMED: {Making.REAM: Verdict.AS_DRAWN, Making.BORE: Verdict.EXTRA_PASSES},
    Finish.BORED: {Making.BORE: Verdict.AS_DRAWN},
}
"""The verdict of each way by the finish that the drawing names; ways that aren't here give a finish away, but under a
drilled finish they only cost more."""


@dataclass(frozen=True)
class PlainHoles:
    """Holes inside limits."""

    question: Question
    asked: down.PlainHole
    cutters: Sequence[Cutter]
    calls_for: ClassVar[tuple[Down, ...]] = (Down.DRILLING,)
    answer: ClassVar[Verdict | None] = None
    says: ClassVar[str] = ""
    without: ClassVar[str] = ""

    @property
    def is_reamed(self) -> bool:
        """Whether the drawing calls for a reamer."""
        return self.asked.finish == Finish.REAMED

    def chains(self) -> Iterator[Chain]:
        """Every way to a hole inside its limits."""
        asked, own, helpers = self.asked, self.question.shop.own, that_help(self.cutters)
        otherwise = Verdict.EXTRA_PASSES if asked.finish == Finish.DRILLED else Verdict.COMPROMISE
        alone = [hole for hole in drilled(self.cutters, own)
                 if hole.cutter and usable(hole.cutter) and is_within(hole.expected_mm, asked.diameter)]
        for hole in (*alone, *other_ways(self._to_begin, asked.diameter.lo, asked.diameter.hi, own)):
            jobs = hole_jobs(self.question, hole, asked.deep_mm, asked.through, helpers)
            if jobs:
                starts = spot(self.question, helpers, jobs[0].tool.form.radius / 5e5)
                yield Chain(
                    self.question,
                    (*starts, *jobs),
                    way=f"{hole.way}: {hole.label}",
                    at_best=_ANSWERS[asked.finish].get(hole.way, otherwise),
                    hole=hole,
                    figures=self._figures(hole),
                    assumed=self._taken(hole),
                )

    def _taken(self, hole: Hole) -> tuple[Text, ...]:
        """What is taken for granted of a hole's cutter."""
        if hole.way is Making.DRILL:
            return own_words(self.question.shop.own, hole.diameter_mm)
        return tuple(taken_as(hole.cutter)) if hole.way is Making.END_MILL and hole.cutter else ()

    @cached_property
    def _to_begin(self) -> Sequence[Cutter]:
        """The cutters without the drills that nothing holds or that are too short, so that the next one is tried."""
        return [c for c in self.cutters if not goes_down(c, Down.DRILLING) or (
            self._is_held(kind_of(c).fill(c)) and reaches(c, self.asked.deep_mm))]

    def _is_held(self, cutter: Cutter) -> bool:
        return hold_down(cutter, holding_of(self.question.shop)).ok

    def _figures(self, hole: Hole) -> tuple[Figure, ...]:
        places = 4 if self.asked.diameter.band < FINE_MM else 3
        expected = Figure("hole expected", hole.expected_mm, places=places)
        if hole.way is Making.BORE:
            return (expected,)
        over = Figure("over the cutter's size", hole.expected_mm - hole.diameter_mm, places=places)
        if hole.way is not Making.REAM or hole.first is None or hole.first.diameter_mm is None:
            return expected, over
        before = hole.bored.diameter_mm if hole.bored else hole.first.diameter_mm
        return expected, over, Figure("left for the reamer, on diameter", hole.diameter_mm - before, places=4)

    def why_not(self, cutter: Cutter) -> Limit | None:
        """By the hole that it would make, or what it wants before it."""
        if goes_down(cutter, Down.BORING):
            unfit = self._too_large(cutter) or (self._never(cutter) if cutter.diameter_mm is None else None)
            return unfit or asks(cutter) or self._bar(cutter)
        if is_head(cutter):
            return Limit("KD1", "it sets a boring bar out and cuts nothing itself")
        why = next((why for what, why in ((Down.DRILLING, self._drill), (Down.REAMING, self._reamer),
                                          (Down.MILLING, self._end_mill)) if goes_down(cutter, what)), None)
        if why is None:
            return None
        return unknown() if cutter.diameter_mm is None else why(cutter, cutter.diameter_mm) or by_condition(cutter)

    def _drill(self, cutter: Cutter, across: float) -> Limit | None:
        """The hole that it makes alone and the limit that it misses; before a reamer, what it would leave."""
        size, made = self.asked.diameter, drill_hole(across, self.question.shop.own)
        if is_within(made, size):
            return None
        limit, word, side = limit_of(made, size)
        makes, bound = apart(made, limit, 4)
        fix = said("a drill of {right} {side} would do", right=Mm(across + limit - made, places=4), side=side)
        if self._reams is not None and not can_follow(self._reams, across, made):
            least, most = (Mm(self._reams - stock, places=4) for stock in reversed(window(self._reams)))
            fix = said("under the reamer a drill of {least} to {most} would do", least=least, most=most)
        return Limit("SZ3", said("makes {makes}, {word}, {bound}", makes=makes, word=word, bound=bound), made, limit,
                     fix, abs(made - limit))

    @cached_property
    def _reams(self) -> float | None:
        """The size of the first reamer that cuts inside the limits [mm]."""
        return next((c.diameter_mm for c in self.cutters if goes_down(c, Down.REAMING) and c.diameter_mm is not None
                     and usable(c) and not kind_of(c).by_hand(c)
                     and is_within(c.diameter_mm + REAMED_MM, self.asked.diameter)), None)

    def _reamer(self, cutter: Cutter, across: float) -> Limit | None:
        """A reamer that cuts outside the limits, or that no drill leaves enough, and not too much, to take."""
        size, by_hand = self.asked.diameter, kind_of(cutter).by_hand(cutter)
        least, most = kind_of(cutter).sizes(cutter)
        across = reams_to(cutter, size.lo, size.hi) or min((least, most), key=lambda mm: abs(mm - size.mid))
        cuts = across + REAMED_MM
        if not is_within(cuts, size):
            limit, word, _ = limit_of(cuts, size)
            made, bound = apart(cuts, limit, 4)
            low, high = (Mm(mm - REAMED_MM, places=4) for mm in (size.lo, size.hi))
            return Limit("SZ3", said("cuts {made}, {word}, {bound}", made=made, word=word, bound=bound), cuts, limit,
                         said("a reamer of {low} to {high}", low=low, high=high), abs(cuts - limit))
        if by_hand:
            return self._by_hand(across, least)
        fitting = [c for c in self._drills if can_follow(across, c.diameter_mm or 0.0, self._hole(c))]
        if fitting:
            return self._too_short(fitting)
        least, most = (across - stock for stock in reversed(window(across)))
        under = said("a drill of {least} to {most}", least=Mm(least, places=4), most=Mm(most, places=4))
        sizes = [c.diameter_mm or 0.0 for c in self._drills]
        near = min(sizes, key=lambda mm: max(least - mm, mm - most), default=None)
        has = "none" if near is None else said("{near} as the nearest", near=Mm(near, places=4))
        return Limit("HO1", said("it wants {under} before it, and the crib has {has}", under=under, has=has), near,
                     least if near is None or near < least else most, said("{under} first", under=under), 0.0)

    def _by_hand(self, across: float, settable: float) -> Limit | None:
        """A reamer that is turned by hand, for which no drill makes the hole; its lead leaves no blind one to size."""
        if not self.asked.through:
            return Limit("HO9", "turned by hand it leaves the bottom of a blind hole as narrow as its lead", fix="a "
                         "chucking reamer", short=0.0)
        fitting = [c for c in self._drills if can_follow_by_hand(across, self._hole(c), settable)]
        if fitting:
            return self._too_short(fitting)
        least, most = (across - stock for stock in reversed(BY_HAND_MM))
        hole = said("a hole of {least} to {most}", least=Mm(least, places=4), most=Mm(most, places=4))
        holes = [self._hole(c) for c in self._drills]
        near = min(holes, key=lambda mm: max(least - mm, mm - most), default=None)
        has = "no drill here makes one" if near is None else (
            said("the nearest that a drill here makes is {near}", near=Mm(near, places=4)))
        return Limit("HO1", said("by hand it wants {hole} before it, and {has}", hole=hole, has=has), near,
                     least if near is None or near < least else most, said("{hole} first", hole=hole), 0.0)

    def _end_mill(self, cutter: Cutter, across: float) -> Limit | None:
        """An end mill that would be plunged: its size, and whether it cuts to its middle."""
        size, made = self.asked.diameter, across + MILLED
        if not is_within(made, size):
            limit, word, side = limit_of(made, size)
            has, needs = apart(made, limit, 4)
            return Limit("SZ3", said("plunged it makes {has}, {word}, {needs}", has=has, word=word, needs=needs), made,
                         limit, said("one of {right} {side} that cuts to its centre would do", side=side,
                                     right=Mm(limit - MILLED, places=4)), abs(made - limit))
        if cutter.centre_cutting:
            return None
        if fitting := [drill for drill in self._drills if goes_under(cutter, drill, self.question.shop.own)]:
            return self._too_short(fitting)
        return self._cored(cutter, across)

    def _cored(self, cutter: Cutter, across: float) -> Limit:
        """An end mill whose teeth don't reach its middle, and no drill here goes before it."""
        core, unsure = core_mm(cutter), cutter.centre_cutting is None
        sure = "whether its teeth reach the centre isn't on record" if unsure else "its teeth don't reach the centre"
        least, most = core + ROOM_MM, across - BEFORE_BORING_MM - drill_mean(across)
        fix = said("a drill of {least} to {most} first, or one that cuts to its centre", least=Mm(least),
                   most=Mm(most)) if least < most else "one that cuts to its centre would do"
        return Limit("EN1", said("{sure}: a core of about {core} would stand, and no drill here goes before it",
                                 sure=sure, core=Mm(core)), 0.0, core, fix, 0.0 if unsure else core, unsure=unsure)

    def _too_large(self, cutter: Cutter) -> Limit | None:
        """A bar that doesn't go into any hole before this bore, however thick it is."""
        least, most = (cutter.min_hole_mm or 0.0) + BORED_LEAST, self.asked.diameter.lo - BEFORE_BORING_MM
        if cutter.min_hole_mm is None or least <= most + SLACK:
            return None
        has, needs = apart(least, most)
        return Limit("SZ3", said("it wants a hole of {has} to go into, and {needs} is the most before this bore",
                                 has=has, needs=needs), least, most, "a thinner bar", least - most)

    def _never(self, cutter: Cutter) -> Limit | None:
        """Why a bar never makes this bore, however thick it is: it isn't long enough, or no head sets it out so far."""
        deep = self.asked.deep_mm
        if cutter.reach_mm is not None and cutter.reach_mm < deep - SLACK:
            has, needs = apart(cutter.reach_mm, deep)
            says = said("it goes {has} deep, the bore goes {needs}", has=has, needs=needs)
            return Limit("RE3", says, cutter.reach_mm, deep, "a longer bar", deep - cutter.reach_mm)
        held, _ = held_in_head(self.question.shop, cutter, self.asked.diameter.mid, self.cutters)
        if cutter.shank_mm is None or held.ok or held.unsure:
            return None
        return Limit(held.rule, held.says, held.has, held.needs, held.fix, 0.0)

    def _bar(self, cutter: Cutter) -> Limit | None:
        """A bar that finds no hole to go into."""
        if cutter.min_hole_mm is None or cutter.diameter_mm is None:
            return Limit("G7", "the smallest hole that it goes into isn't known", unsure=True,
                              fix="measure across its bar and tip")
        least, most = cutter.min_hole_mm + BORED_LEAST, self.asked.diameter.lo - BEFORE_BORING_MM
        fitting = [c for c in self._drills if least <= self._hole(c) <= most]
        if fitting:
            return self._too_short(fitting) or by_condition(cutter)
        near = min(map(self._hole, self._drills), key=lambda mm: max(least - mm, mm - most), default=None)
        makes = "no drill that can be held makes one" if near is None else (
            said("the nearest that a drill here makes is {near}", near=apart(near, least)[0]))
        return Limit("SZ3", said("it wants a hole of {least} to {most} to go into, and {makes}", least=Mm(least),
                                 most=Mm(most), makes=makes), near, least,
                     said("a drill for a hole of {least} or more", least=Mm(least)), 0.0)

    @cached_property
    def _drills(self) -> list[Cutter]:
        """The drills that can go to work."""
        return [c for c in self.cutters if goes_down(c, Down.DRILLING) and usable(c) and self._is_held(c)]

    def _hole(self, drill: Cutter) -> float:
        return drill_hole(drill.diameter_mm or 0.0, self.question.shop.own)

    def _too_short(self, drills: Sequence[Cutter]) -> Limit | None:
        """Where the drills of the right size before a cutter don't go deep enough: the longest, and by how much. Flutes
        that nobody measured are asked about."""
        deep = self.asked.deep_mm
        if any(reaches(drill, deep) for drill in drills):
            return None
        longest = max(drills, key=lambda drill: drill.length_of_cut_mm or flutes_of(drill).usual)
        cut, guessed = longest.length_of_cut_mm or flutes_of(longest).usual, longest.length_of_cut_mm is None
        unsure = guessed and flutes_of(longest).longest >= deep - SLACK
        has, needs = apart(cut, deep)
        guess = " as one of its size usually has, not measured" if guessed else ""
        return Limit("RE1", said("the drill before it, no. {id}, {cutter}, has flutes of {has}{guess}, the hole goes "
                                 "{needs} deep", id=longest.id, cutter=longest.label, has=has, guess=guess,
                                 needs=needs), cut, deep, "measure the drill's flutes" if unsure else "a longer drill",
                     0.0 if unsure else deep - cut, unsure=unsure)

    def wanted(self) -> Text:
        """The drill that would make it, or the reamer that is called for."""
        size = self.asked.diameter
        if self.is_reamed:
            return said("nothing in the crib reams it: a reamer of {least} to {most} would, after a drill for it",
                        least=Mm(size.lo - REAMED_MM, places=4), most=Mm(size.hi - REAMED_MM, places=4))
        over = drill_mean(size.mid)
        least, most = (Mm(mm - over, places=4) for mm in (size.lo, size.hi))
        return said("nothing in the crib makes a hole: a drill of {least} to {most} would", least=least, most=most)


def asks(cutter: Cutter) -> Limit | None:
    """What must be measured of a bar before it can be reckoned with."""
    if cutter.diameter_mm is None and cutter.min_hole_mm is not None:
        return Limit("G7", said("known by its smallest hole only, {min_hole}: how thick it is decides how far it may "
                                "stand out", min_hole=InWords(cutter.min_hole_mm)),
                     fix="mic the bar behind its tooth", short=0.0, unsure=True)
    if cutter.min_hole_mm is None and cutter.diameter_mm is not None:
        return Limit("G7", said("a bar of {diameter}, its smallest hole isn't on record",
                                diameter=InWords(cutter.diameter_mm)),
                     fix="mic across tooth and bar: the smallest hole is that and some air", short=0.0, unsure=True)
    return None
