"""From a draft to a plan: proved as it is reckoned, and once somebody looks at it as it is dialled, put into words."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import cached_property, lru_cache

from crib.cutters.base import Cutter
from crib.findings.finding import LEAST_TOLD_MM, Finding, Grade
from crib.findings.message import Mm, Text, said
from crib.geometry.operation import Operation, Work
from crib.geometry.prove import prove
from crib.geometry.region import NOTHING
from crib.geometry.trace import Trace
from crib.light.records import dataclass, replace
from crib.machining.chain import Chain
from crib.machining.draft import Draft
from crib.machining.ends import in_every_frame, zero_along
from crib.machining.question import ZEROS
from crib.machining.words import Seen
from crib.planning.dialled.dialling import moved_to_the_middle
from crib.planning.dialled.plan_of import passes_of, plan_of, tools_of, way_of
from crib.planning.process.throat_floor import deepened
from crib.planning.search.shortlist import Shortlist
from crib.planning.search.weighed import Weighed
from crib.planning.told.advice import Gist, Plan
from crib.planning.told.passes import Pass
from crib.rules.ways_of_cutting import SLACK, is_set_once, makes_size
from crib.units import nm


@dataclass(frozen=True)
class Proved:
    """A draft, and what comes of its passes, cut again from stock. `told`: its plan where that is told otherwise than
    it was made."""

    weighed: Weighed
    draft: Draft
    trace: Trace
    told: Plan | None = None

    @cached_property
    def plan(self) -> Plan:
        """The plan, made when somebody looks at it: of runners-up most are only counted."""
        return self.told or plan_of(self.weighed, self.draft, self.trace, self._passes, self._off)

    @property
    def cutters(self) -> tuple[Cutter, ...]:
        """The plan's cutters."""
        return tuple(tool.owned for tool in tools_of(self.draft))

    @property
    def as_dialled(self) -> bool:
        """Whether the settings come to what was reckoned."""
        return not self._off

    @cached_property
    def _passes(self) -> tuple[Pass, ...]:
        return tuple(passes_of(self.draft))

    @cached_property
    def _off(self) -> tuple[Finding, ...]:
        if self.draft.is_round:
            return ()
        return (*_readout(self.draft, self.trace, self._passes), *_at_a_limit(self.draft, self._passes))


def finish(weighed: Weighed) -> Proved | None:
    """The plan that a draft is, proved as it is reckoned and as it is dialled; None where the proof doesn't hold. Where
    that is proved as well, a slot's floor is cut below the toothless disc that follows in it."""
    lower = deepened(weighed.draft)
    proved = _finished(weighed, lower)
    if lower is weighed.draft or (proved and proved.as_dialled):
        return proved
    return _finished(weighed, weighed.draft)


def is_proved(weighed: Weighed) -> bool:
    """Whether `finish` gives a plan, mostly told without making it."""
    return _held(weighed.draft) is not None or finish(weighed) is not None


def gist_of(weighed: Weighed) -> Gist:
    """What the plan comes to that a draft is, as `finish` has it."""
    draft, reckoned = weighed.draft, weighed.reckoning
    return Gist(weighed.answer, way_of(draft),
                tuple(tool.owned for tool in tools_of(draft)), reckoned.minutes, reckoned.cost, reckoned.lines,
                reckoned.scrap, weighed.deviations)


def _held(draft: Draft) -> Trace | None:
    """What comes of a draft's passes; None where the proof doesn't hold."""
    trace = _traced(draft.work, draft.operations) if isinstance(draft, Chain) else _traced(*in_every_frame(draft))
    return trace if trace.holds and not _is_left_rough(draft, trace) else None


def _finished(weighed: Weighed, draft: Draft) -> Proved | None:
    """What comes of a draft's passes, with what was reckoned of it; None where the proof doesn't hold."""
    trace = _held(draft)
    return Proved(weighed, draft, trace) if trace else None


def _traced(work: Work, operations: Iterable[Operation]) -> Trace:
    return _proved(work, tuple(operations)) if work.layers is None else prove(work, operations)


@lru_cache(maxsize=64)
def _proved(work: Work, operations: tuple[Operation, ...]) -> Trace:
    """What comes of operations: asked again at another price, or with a cutter more, the same cuts the same metal. What
    is seen from above can't be looked up by."""
    return prove(work, operations)


def _is_left_rough(draft: Draft, trace: Trace) -> bool:
    """Whether an edge that may only rough made any of a face that the drawing names: what it left lies inside the
    limits there, and nobody cut it away (see the rule CD1)."""
    rough = {tool.id for tool in draft.tools if not tool.can_finish}
    return bool(rough) and any(not rough.isdisjoint(made.tags) for made in trace.faces)


def _readout(draft: Draft, trace: Trace, passes: tuple[Pass, ...]) -> Iterator[Finding]:
    """RO1: what comes of the settings is proved like any plan, wherever between its dialled walls the middle is."""
    tried = [_as_dialled(draft, trace, passes)]
    if not tried[0].holds:
        tried += [_as_dialled(draft, trace, moved) for moved in moved_to_the_middle(draft, passes)]
    if not any(one.holds for one in tried):
        finest = Mm(draft.question.shop.readout_mm, places=4)
        yield Finding("RO1", Grade.WARN, said("set in steps of {finest}, {what}: set between the marks and measure",
                                              finest=finest, what=_falls_short(draft, trace, passes, tried)),
                      "geometry")


_OFF = 0.4
"""How far off the middle of its limits, of what lies between them, a depth is as good as at one of them [-]."""


def _at_a_limit(draft: Draft, passes: tuple[Pass, ...]) -> Iterator[Finding]:
    """RO2: a depth whose middle lies between two marks of the dial is set at one of its limits."""
    if draft.question.zeros != ZEROS:
        return
    for one in draft.question.dimensions:
        deep = max((-each.dial_z_mm for each in passes if each.view == Seen.CROSS and makes_size(each.room, one)),
                   default=None)
        if deep is not None and is_set_once(draft.question, one) and one.sort == "depth" and (
                _OFF * one.size.band < abs(deep - one.size.mid) <= one.size.band / 2 + SLACK):
            says = said("set in steps of {finest}, {name} comes out at {deep}, the end of its limits: set between the "
                        "marks and measure", finest=Mm(draft.question.shop.readout_mm, places=4), name=one.name,
                        deep=Mm(deep, places=4))
            yield Finding("RO2", Grade.NOTE, says, "geometry")


def _falls_short(draft: Draft, trace: Trace, passes: tuple[Pass, ...], tried: Sequence[Trace]) -> Text:
    """What isn't as it was reckoned: by how much walls come out off, or what the teeth touch beside the work, which
    tells nothing of a wall."""
    section = trace.work.section
    if section and section.obstacles:
        free = replace(trace.work, section=replace(section, obstacles=NOTHING))
        if _as_dialled(draft, trace, passes, free).holds:
            return "the teeth touch what stands beside the work"
    off = min(max(one.left_kept, one.gouge) for one in tried)
    if not off:
        return "a clearance falls short"
    if off < nm(LEAST_TOLD_MM):
        return said("the walls come out less than {off} off", off=Mm(2 * LEAST_TOLD_MM, places=4))
    return said("the walls come out up to {off} off", off=Mm(off / 1e6, places=4))


def _as_dialled(draft: Draft, trace: Trace, passes: tuple[Pass, ...], work: Work | None = None) -> Trace:
    """What comes of passes as they are dialled; `work`: in another than the trace's."""
    zero = zero_along(draft)
    return _traced(work or trace.work, [
        operation._replace(x=nm(one.dial_x_mm), z=nm(one.dial_z_mm),
                           path=tuple((nm(along) + zero, nm(across)) for along, across in one.dial_path_mm))
        for operation, one in zip(trace.operations, passes, strict=True)
    ])


def distinct(found: Iterator[Weighed], told: Shortlist, most: int) -> Iterator[Proved]:
    """The best plan and what would do nearly as well, as far as `told` asks; of those that differ only in the drill
    before the same mill the best."""
    for weighed in found:
        told.watch.check()
        if weighed.sign in told.signs:
            continue
        proved = None if told.was_refused(weighed) else finish(weighed)
        if proved is None:
            told.put_aside(weighed)
        else:
            told.add(weighed)
            yield proved
        if told.count >= most:
            return
