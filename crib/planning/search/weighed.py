"""A draft with all that it is ranked by: judged, reckoned and given its key."""

from __future__ import annotations

from collections.abc import Hashable
from functools import reduce

from crib.cutters.base import Down
from crib.findings.finding import Finding, Grade
from crib.findings.message import Text, nameless
from crib.findings.verdicts import ANSWERS, Verdict
from crib.light.records import dataclass
from crib.machining.chain import Chain
from crib.machining.draft import Draft
from crib.machining.words import MEANT_TO_FOLLOW, Manner
from crib.planning.bounds.lower_bounds import PartialPlan
from crib.planning.bounds.pareto import LowerBound
from crib.planning.reckoning.cost import SCRAP, WEAR, Reckoning, reckon, scrap_class
from crib.planning.reckoning.judged import Judged, judged
from crib.rules.catalogue import ids

Key = tuple[int, bool, bool, float, float, tuple[float, ...], tuple[int, ...]]
"""Verdict, whether any rule cautions, whether cutters share a room, chance of scrap where hours are at stake, cost,
what decides among equals, the cutters' numbers. Equals along the work are told apart by stiffness. Down an axis they
are equal to the cent, wear left out, and told apart by how well the hole suits, then by the last of the cost."""


@dataclass(frozen=True)
class Weighed:
    """A draft with all that it is ranked by."""

    draft: Draft
    warnings: tuple[Finding, ...]
    deviations: tuple[Finding, ...]
    reckoning: Reckoning
    answer: Verdict
    key: Key

    @property
    def sure_cost(self) -> float:
        """What it costs, the chance of scrap left out."""
        return sum(line.money for line in self.reckoning.lines if line.what != SCRAP)

    @property
    def so_far(self) -> PartialPlan:
        """What it comes to so far, for the bounds."""
        least = LowerBound(self.key[0], self.key[2], self.sure_cost, 1 - self.reckoning.scrap, self.key[1])
        return PartialPlan(self.draft, least, frozenset(self.warnings))

    @property
    def chances(self) -> list[tuple[str, str, Text]]:
        """What makes scrap likelier, whichever cutters it is said of."""
        names = [tool.owned.label for tool in self.draft.tools]
        said = [w for w in self.warnings if w.grade != Grade.NOTE]
        bare = [(w.id, w.grade, reduce(nameless, names, w.says)) for w in said]
        return [*bare, *(("miss", "", deviation.says) for deviation in self.deviations)]

    @property
    def last(self) -> int:
        """The number of the cutter that decides."""
        return self.draft.jobs[-1].tool.id

    @property
    def sign(self) -> Hashable:
        """What tells one way from another: how the work lies, and which cutter does what, in order; but not which drill
        opens the way for a mill or a boring bar, nor at which height of several it is aimed."""
        draft = self.draft
        return draft.question.setup.name, tuple(dict.fromkeys(
            (job.room, job.cuts[0].role, bool(job.cuts[0].round_mm), None if _opens(draft, place) else job.tool.id)
            for place, job in enumerate(draft.jobs)))

    @property
    def stopped(self) -> bool:
        """Whether a rule forbids it."""
        return any(warning.grade == Grade.STOP for warning in self.warnings)


def is_wider(draft: Draft) -> bool:
    """Whether some walls are nearer their limits than their aim."""
    return any(job.manner is Manner.WIDE for job in draft.jobs)


def _opens(draft: Draft, place: int) -> bool:
    """Whether a job's drill only opens the way for a mill or a boring bar, which takes all that it leaves."""
    room = draft.jobs[place].room
    kinds = [job.tool.kind for job in draft.jobs[place:] if job.room == room]
    after = next((kind for kind in kinds if Down.DRILLING not in kind.down), kinds[0])
    return Down.DRILLING in kinds[0].down and not after.down.isdisjoint((Down.MILLING, Down.BORING))


def weigh(draft: Draft, finished: bool) -> Weighed:
    """Judge, reckon and rank a draft; what an unfinished one leaves isn't held against it."""
    return weighed(draft, judged(draft, finished))


def weighed(draft: Draft, said: Judged) -> Weighed:
    """Reckon and rank a draft of which so much is said."""
    warnings, gives_away, verdict, timed = said
    misses = 0 if draft.is_round else len(gives_away)  # there a caution has counted them
    reckoning = reckon(draft, warnings, misses, timed)
    hours = draft.question.feature.request.hours
    scrap = scrap_class(reckoning.scrap, hours)
    cautioned = any(warning.grade == Grade.CAUTION and (warning.id in _OF_WAY or not draft.is_round)
                    for warning in warnings)
    money = round(reckoning.cost, 6)
    among_equals: tuple[float, ...] = (-_stiffness(draft),)
    if isinstance(draft, Chain):
        among_equals = (draft.suits, money)
        money = round(sum(line.money for line in reckoning.lines if line.what != WEAR), 2)
    ids = tuple(tool.id for tool in draft.tools)
    key = (ANSWERS.index(verdict), cautioned, _shares(draft), scrap, money, among_equals, ids)
    return Weighed(draft, warnings, gives_away, reckoning, verdict, key)


def _stiffness(draft: Draft) -> float:
    """The thinnest neck, or cutter, of all [mm]."""
    return min((tool.cutter.neck_mm or tool.cutter.diameter_mm or 0.0) for tool in draft.tools)


def _shares(draft: Draft) -> bool:
    """Whether some cutter left a room that it was in for others to clear; down an axis they are meant to follow."""
    if draft.is_round:
        return False
    outline = draft.question.outline
    rooms = {room.name: room for room in outline.rooms}
    return any(not outline.is_waived(outline.rest(rooms[job.room], job.removed)) for job in draft.jobs
               if job.manner not in MEANT_TO_FOLLOW)


_OF_WAY = ids("of_way")
"""Rules whose cautions tell one hole from another; the others go for whatever is drilled there."""
