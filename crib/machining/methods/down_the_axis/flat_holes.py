"""A flat-bottomed hole: drilled with the point short of the floor, the cone taken out by an end mill of the size that
cuts on centre, or by a drill ground flat."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cached_property

from crib.cutters import goes_down
from crib.cutters.base import Cutter, Down
from crib.features import down
from crib.features.down import HOLE
from crib.findings.finding import Figure, Finding, Grade
from crib.findings.message import Mm, Text, apart, said
from crib.findings.verdicts import Verdict
from crib.handbook.boring import BEFORE_BORING_MM
from crib.light.hints import ClassVar
from crib.light.records import dataclass
from crib.machining.chain import Chain
from crib.machining.cores import ROOM_MM, core_mm, taken_as, unlike
from crib.machining.holes import MILLED, THOU, Hole, drill_hole, goes_under, usable
from crib.machining.methods.base import Limit
from crib.machining.methods.cuts import Job
from crib.machining.methods.down_the_axis.drilling import FROM_SOLID, pilot, reaches, tip
from crib.machining.methods.down_the_axis.sizes import (
    SLACK,
    by_condition,
    is_ground_flat,
    is_within,
    leaves_a_radius,
    limit_of,
    unknown,
)
from crib.machining.methods.down_the_axis.strokes import held, spot, stroke, that_help, tool_for
from crib.machining.question import Question
from crib.machining.tool import Tool
from crib.machining.words import Making, Role

SHORT_MM = 7.5 * THOU
"""How far over the floor the drill's point stops: five to ten thou, in the middle [mm]. Common practice."""

_FLOOR_MM = 3.0 * THOU
"""How true the floor of a flat-ground drill comes out, either way [mm]. Common practice."""


_PIP = "its teeth don't reach the centre"


@dataclass(frozen=True)
class FlatHoles:
    """Blind holes with flat floors."""

    question: Question
    asked: down.FlatHole
    cutters: Sequence[Cutter]
    calls_for: ClassVar[tuple[Down, ...]] = (Down.DRILLING, Down.MILLING)
    answer: ClassVar[Verdict | None] = None
    says: ClassVar[str] = ""
    without: ClassVar[str] = ""

    def chains(self) -> Iterator[Chain]:
        """Each cutter that makes the floor, after the largest drill that leaves it all of the wall, and where its teeth
        don't reach the middle, after a flat drill that makes the floor there; a mill that does alone, where no drill is
        here for it."""
        for cutter in self.cutters:
            if not _makes_floors(cutter) or self.why_not(cutter):
                continue
            made = self._makes(cutter)
            is_mill = goes_down(cutter, Down.MILLING)
            tool = tool_for(self.question, cutter, Down.MILLING if is_mill else Down.DRILLING,
                            cutter.diameter_mm or 0.0, made)
            if tool is None:
                continue
            if core_mm(cutter):
                yield from (self._chain((*drilled, flat), tool, made) for *drilled, flat in self._cored(cutter))
                continue
            drilled = self._drilled(made)
            if drilled:
                yield self._chain(drilled, tool, made)
            elif is_mill:
                yield self._chain((), tool, made)

    def _cored(self, mill: Cutter) -> Iterator[tuple[Job, ...]]:
        """For a mill whose teeth don't reach its middle: an ordinary drill short of the floor, then one ground flat
        that makes the floor's middle, the largest of those alike."""
        own, deep = self.question.shop.own, self.asked.depth.mid
        fitting = [drill for drill in self.cutters if is_flat_drill(drill) and goes_under(mill, drill, own)]
        fitting.sort(key=lambda drill: (-(drill.diameter_mm or 0.0), drill.id))
        for drill in unlike([one for one in fitting if reaches(one, deep)]):
            made = self._makes(drill)
            tool = held(self.question, drill, Down.DRILLING, drill.diameter_mm or 0.0)
            if tool is not None and (drilled := self._drilled(made)):
                yield *drilled, stroke(tool, Role.DRILL, HOLE, -deep, said(
                    "the floor's middle, which the {cutter} doesn't cut: slowly, or it chatters", cutter=mill.label))

    def _chain(self, before: tuple[Job, ...], tool: Tool, made: float) -> Chain:
        deep = self.asked.depth.mid
        is_mill, is_cored = goes_down(tool.cutter, Down.MILLING), bool(core_mm(tool.owned))
        how = ("take the rest of the floor, slowly, table and cross locked" if is_cored else
               "take the cone out, slowly, table and cross locked, the last of it without a stop" if is_mill else
               "the flat drill follows the hole and takes the cone out: slowly, or it chatters")
        last = stroke(tool, Role.PLUNGE if is_mill else Role.DRILL, HOLE, -deep, how if before else FROM_SOLID)
        begins = before[0].tool.form.radius / 5e5 if before else 0.0
        starts = tuple(spot(self.question, self._helpers, begins)) if before else ()
        cone = before[-1 - is_cored] if before else None
        figures = [Figure("hole expected", made)]
        if cone:
            figures.append(Figure("the drill's point stops over the floor", (deep + cone.cuts[0].z / 1e6)))
        drills = [cone.tool.owned.label] if cone else []
        drills += [before[-1].tool.owned.label] if is_cored else []
        flat = before[-1].tool if is_cored else tool
        return Chain(
            self.question,
            (*starts, *before, last),
            way=", then ".join([*drills, tool.owned.label]) if before else f"plunged with {tool.owned.label}",
            at_best=Verdict.AS_DRAWN if before and is_mill and not is_cored else Verdict.EXTRA_PASSES,
            hole=Hole(tool.owned, tool.owned.label, tool.cutter.diameter_mm or 0.0, made, Making.END_MILL,
                      spread_mm=(MILLED, MILLED)),
            warnings=tuple(flat_floor(flat, self.asked.depth.band)),
            figures=tuple(figures),
            assumed=tuple(taken_as(tool.owned)),
        )

    def _makes(self, cutter: Cutter) -> float:
        across = cutter.diameter_mm or 0.0
        return across + MILLED if goes_down(cutter, Down.MILLING) else drill_hole(across, self.question.shop.own)

    def _drilled(self, made: float) -> tuple[Job, ...]:
        """The largest drill whose hole is no wider than what follows makes, its point short of the floor, and a pilot
        before a large one; none where none can be held, reaches, or is more than point there."""
        for drill in reversed(self._drills):
            if drill_hole(drill.diameter_mm or 0.0, self.question.shop.own) > made + SLACK:
                continue
            deep = self.asked.depth.mid - SHORT_MM
            tool = held(self.question, drill, Down.DRILLING, drill.diameter_mm or 0.0)
            if tool is None or deep <= (point := tip(tool, 0.0, False)) or not reaches(tool.cutter, deep):
                continue
            before = tuple(pilot(self.question, self._helpers, tool, deep - point, False))
            return (*before, stroke(tool, Role.DRILL, HOLE, -deep,
                                    said("stop with the point {short} over the floor", short=Mm(SHORT_MM, places=4)),
                                    is_measured=False))
        return ()

    @cached_property
    def _helpers(self) -> list[Cutter]:
        return that_help(self.cutters)

    @cached_property
    def _drills(self) -> list[Cutter]:
        """The drills with a point, the smallest first."""
        fitting = [c for c in self.cutters if goes_down(c, Down.DRILLING) and usable(c) and not is_ground_flat(c)
                   and (c.diameter_mm or 0.0) >= 0.25 * self.asked.diameter.mid]
        return sorted(fitting, key=lambda one: (one.diameter_mm or 0.0, -one.id))

    def why_not(self, cutter: Cutter) -> Limit | None:
        """Its size, its middle, its corners, its edges."""
        if not _makes_floors(cutter):
            return self._pointed(cutter) if goes_down(cutter, Down.DRILLING) else None
        size = self.asked.diameter
        if cutter.diameter_mm is None:
            return unknown()
        made = self._makes(cutter)
        if round_ := leaves_a_radius(cutter, self.question.feature.request.floor_radius, is_within(made, size)):
            return round_
        if bad := by_condition(cutter):
            return bad
        if not is_within(made, size):
            return _off_size(made, cutter.diameter_mm, size.lo, limit_of(made, size))
        is_mill = goes_down(cutter, Down.MILLING)
        if is_mill and core_mm(cutter) and next(self._cored(cutter), None) is None:
            return self._pip(cutter)
        if not is_mill and not self._drilled(made):
            return Limit("HO2", "a drill ground flat wanders without a hole to follow, and no drill for one is here",
                         fix="an ordinary drill under its size first", short=0.0)
        return None

    def _pip(self, mill: Cutter) -> Limit:
        """A mill whose teeth don't reach its middle, and no flat drill here makes the floor there."""
        unsure = mill.centre_cutting is None
        sure = "whether its teeth reach the centre isn't on record" if unsure else _PIP
        least, most = core_mm(mill) + ROOM_MM, (mill.diameter_mm or 0.0) - BEFORE_BORING_MM
        fix = said("one that cuts on centre would do, or a drill ground flat, {least} to {most}, before it",
                   least=Mm(least), most=Mm(most)) if least < most else "one that cuts on centre would do"
        return Limit("EN1", said("{sure}: a pip would stand in the middle of the floor", sure=sure), fix=fix,
                     short=0.0 if unsure else mill.diameter_mm or 0.0, unsure=unsure)

    def _pointed(self, cutter: Cutter) -> Limit | None:
        """A drill with a point leaves a cone; it may only go first."""
        if cutter.diameter_mm is None or cutter.diameter_mm > self.asked.diameter.hi:
            return None
        return Limit("KD1", "its point leaves a cone: it may go first, a flat end must follow",
                     fix="a mill of the size that cuts on centre after it")

    def wanted(self) -> Text:
        """The mill that would make it."""
        least, most = (Mm(mm - MILLED, places=4) for mm in (self.asked.diameter.lo, self.asked.diameter.hi))
        return said("nothing in the crib makes a flat floor there: an end mill of {least} to {most} that cuts on "
                    "centre would", least=least, most=most)


def is_flat_drill(cutter: Cutter) -> bool:
    """Whether a cutter is a drill ground flat, of known size and whole."""
    return goes_down(cutter, Down.DRILLING) and usable(cutter) and is_ground_flat(cutter)


def flat_floor(tool: Tool, band_mm: float) -> Iterator[Finding]:
    """FB1: a flat drill's floor is true to a few thou."""
    if goes_down(tool.cutter, Down.DRILLING) and band_mm < 2 * _FLOOR_MM - SLACK:
        yield Finding("FB1", Grade.CAUTION, said(
            "{cutter}: a flat-ground drill's floor is true to {true} either way, the depth may be {band} in all: "
            "measure it before the last of it", cutter=tool.owned.label, true=Mm(_FLOOR_MM),
            band=Mm(band_mm)), "common practice", tool.id)


def _off_size(made: float, across: float, least: float, limit: tuple[float, str, str]) -> Limit:
    """It makes another size; a smaller mill can't be taken round without a rotary table."""
    bound, word, side = limit
    has, needs = apart(made, bound, 4)
    fix = said("one of {right} {side} would do", right=Mm(across + bound - made, places=4), side=side)
    smaller = "; a smaller one walked round by the handwheels leaves no round wall" if made < least else ""
    return Limit("SZ3", said("makes {has}, {word}, {needs}{smaller}", has=has, word=word, needs=needs, smaller=smaller),
                 made, bound, fix, abs(made - bound))


def _makes_floors(cutter: Cutter) -> bool:
    """Whether a cutter has a flat end that goes down."""
    return goes_down(cutter, Down.MILLING) or (goes_down(cutter, Down.DRILLING) and is_ground_flat(cutter))
