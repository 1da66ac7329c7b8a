"""What a tool can do in a section as it stands, kept so that it is worked out once for a question."""

from __future__ import annotations

from _weakref import ref
from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import cached_property
from math import inf

from crib.cutters.base import Cutter
from crib.cutters.edges import edges
from crib.findings.finding import Finding, Grade
from crib.geometry.outline import Opening, Room
from crib.geometry.region import NOTHING, Region, union
from crib.light.hints import TYPE_CHECKING, Any, TypeVar
from crib.light.records import dataclass, field, replace
from crib.machining.chain import Chain, DownTheAxis
from crib.machining.draft import Draft
from crib.machining.ends import fits, is_not_in_yet, keeps_out, never_in
from crib.machining.methods import clear, is_feasible, method_of, pass_bounds
from crib.machining.methods.base import Limits
from crib.machining.methods.cuts import Job
from crib.machining.question import Question
from crib.machining.tool import Tool
from crib.machining.tools import Tools
from crib.machining.words import Manner
from crib.planning.bounds.abilities import Abilities
from crib.planning.bounds.bare import Bare
from crib.planning.bounds.in_one_room import Shares
from crib.planning.bounds.lower_bounds import Bounds
from crib.planning.bounds.pareto import Rank
from crib.planning.reckoning.judged import Judged, judged
from crib.planning.told.verdict import complete
from crib.rules import judge, stops
from crib.rules.beside import stands_out
from crib.rules.catalogue import ids
from crib.rules.passes import backlash, never_opens
from crib.rules.sizes import misses
from crib.rules.surely_sized import never_kept

if TYPE_CHECKING:
    from crib.planning.bounds.discs_first import Discs
    from crib.planning.bounds.what_can_go import Together

T = TypeVar("T")

NEVER_HERE = ids("everywhere")
"""Rules that keep a cutter from this work whatever its sizes are."""

_MANY = 300
"""Of more tools than this those that may clear a room are looked for together."""

_MOST_KEPT = 4000
"""Of so many drafts what is said of them, or what they grew into, is kept."""


@dataclass
class Jobs:
    """Jobs by tool and section. `wide` allows walls nearer their far limits. What is asked of other tools than these, a
    cutter with one size changed say, isn't kept. `cutters`: all that are there, for what is made down an axis. `known`:
    the same with other tools, or where an hour is worth something else; what was worked out of tools that are among
    these stands. `alike`: the same question with other tools, of which the least that each takes stands. `openers`: an
    end mill for each room that one opens. `all_discs`: those of all tools that there are, where these are a few of
    them. `aimed_by`: see `aimed`; `reckoned`: what its search was reckoned by last. `stepped`: the ways in which discs
    may go under flanks first, by what the flanks are without. `told`: what was told of the same metal and the same
    tools, whatever else was asked of it; `spots`: see `Together`. `grown`: what drafts grew into, where the same is
    asked again with other tools."""

    question: Question
    tools: Sequence[Tool]
    wide: bool = False
    cutters: Sequence[Cutter] = ()
    cleared: dict[tuple[int, str, Region], tuple[Job, ...]] = field(default_factory=dict)
    nevers: dict[tuple[str, str, str], bool] = field(default_factory=dict)
    passes: dict[tuple[int, str], float] = field(default_factory=dict)
    judgements: dict[tuple[int, ...], tuple[tuple[Job, ...], Judged]] = field(default_factory=dict)
    known: Jobs | None = None
    alike: Jobs | None = None
    aimed_by: ref[Jobs] | None = None
    openers: dict[str, Tool] = field(default_factory=dict)
    all_discs: Discs | None = None
    stepped: dict[tuple[object, ...], Any] = field(default_factory=dict)
    told: dict[object, Together] = field(default_factory=dict)
    spots: list[Region] = field(default_factory=list)
    grown: dict[tuple[int, ...], Any] | None = None
    reckoned: Bounds | None = None

    @property
    def widens(self) -> bool:
        """Whether walls may stand nearer their limits: where a room that is open at the top lies between two."""
        return bool(self.question.between_walls)

    @property
    def gives_way(self) -> bool:
        """Whether walls nearer their limits leave more room before what comes after them."""
        return self.widens and self._befores != self.widened._befores

    @property
    def aimed(self) -> Jobs | None:
        """The same with walls at their aim, of one that is `wide`; it holds this one, which doesn't hold it."""
        if self.aimed_by is None:
            return None
        aimed = self.aimed_by()
        assert aimed is not None
        return aimed

    @cached_property
    def widened(self) -> Jobs:
        """The same with walls nearer their far limits."""
        return Jobs(self.question, self.tools, wide=True, known=self.known.widened if self.known else None,
                    alike=self.alike.widened if self.alike else None, aimed_by=ref(self), all_discs=self.discs,
                    told=self.told, spots=self.spots, grown=None if self.grown is None else self._grown_wide)

    @property
    def _grown_wide(self) -> dict[tuple[int, ...], Any]:
        """What drafts with such walls grew into."""
        known = self.known
        alike = known.widened.grown if known and known.question is self.question else None
        return {} if alike is None else alike

    def grew(self, draft: Draft, tool: Tool, grow: Callable[[], Iterable[T]]) -> Sequence[T] | Iterable[T]:
        """What a tool makes of a draft, kept where the same is asked again with other tools, and none of these is new:
        steps before it hang on what discs there are."""
        if self.grown is None or not all(one in (self.known or self) for one in (*draft.tools, tool)):
            return grow()
        discs = self.discs.all if self.discs else ()
        place = (*map(id, draft.jobs), id(tool), *map(id, discs))
        if place not in self.grown:
            grown = tuple(grow())
            if None in grown or len(self.grown) >= _MOST_KEPT:  # that it is never a plan hangs on who may come after
                return grown
            self.grown[place] = (draft, tool, tuple(discs), grown)  # nothing else gets their places
        found: Sequence[T] = self.grown[place][-1]
        return found

    @cached_property
    def discs(self) -> Discs | None:
        """What may go under a flank in steps before another, of all that there are; None where no wall leans over."""
        if not self.question.outline.leaning_over:
            return None
        from crib.planning.bounds.discs_first import Discs

        return self.all_discs or Discs(self.question, self.tools)

    @cached_property
    def abilities(self) -> Abilities:
        """What each tool can do by itself."""
        known = self.known
        if known and known.tools is self.tools:
            return known.abilities
        return Abilities(self.question, self.tools, self.limits, known.abilities if known else None,
                         self.aimed.abilities if self.aimed else None, togethers=self.told, spots=self.spots)

    @cached_property
    def shares(self) -> Shares:
        """The least that each tool takes."""
        return self.bounds().shares

    def bounds(self, new: frozenset[int] = frozenset(), at_least: Rank | None = None, widened: bool = False) -> Bounds:
        """What the least of a search is reckoned by; `new`: tools of which a plan must have one at least; `at_least`:
        what is known of every plan, its money aside; `widened`: whether some walls must be nearer their limits."""
        alike = self.alike or (self.known if self.known and self.known.question is self.question else None)
        shares = (lambda: alike.shares) if alike else None
        aimed = self.aimed._reckoned_with(new, at_least) if self.aimed and widened else None
        self.reckoned = Bounds(self.abilities, self.question, shares, new, self.discs, at_least, aimed)
        self.reckoned.begin_as_aimed()
        return self.reckoned

    def _reckoned_with(self, new: frozenset[int], at_least: Rank | None) -> Bounds:
        """What its own search was reckoned by, where that was the same."""
        last = self.reckoned
        is_same = last and last.abilities is self.abilities and last.question is self.question
        return last if last and is_same and (last.new, last.at_least) == (new, at_least) else self.bounds(new, at_least)

    def clear(self, tool: Tool, room: Room, removed: Region) -> tuple[Job, ...]:
        """The manners in which a tool can take metal out of a room now."""
        if self.known and tool in self.known:
            return self.known.clear(tool, room, removed)
        place = (tool.id, room.name, removed)
        found = self.cleared.get(place) if tool in self else None
        if found is None:
            found = clear(tool, self.question.outline, room, removed, self.limits)
            if tool in self:
                self.cleared[place] = found
        return found

    def fewest(self, tool: Tool, room: Room) -> float:
        """The fewest passes in which a tool does a room alone, but for what may go with another; endless where it
        doesn't."""
        if self.known and tool in self.known:
            return self.known.fewest(tool, room)
        place = (tool.id, room.name)
        if place not in self.passes:
            found = pass_bounds(tool, self.question.outline, room, self.limits)
            self.passes[place] = min((1 if one.helped else one.passes for one in found), default=inf)
        return self.passes[place]

    def judged(self, draft: Draft) -> Judged:
        """What is said of a draft; kept by its jobs, which between closed ends are never the same ones."""
        if draft.question.layers or len(self.judgements) >= _MOST_KEPT:
            return judged(draft, complete(draft))
        if self.known:
            return self.known.judged(draft)
        place = tuple(map(id, draft.jobs))
        if place not in self.judgements:
            self.judgements[place] = draft.jobs, judged(draft, complete(draft))
        return self.judgements[place][1]

    @cached_property
    def down(self) -> DownTheAxis | None:
        """The method by which it is made down an axis; None for what is cut along."""
        if self.question.feature.down is None:
            return None
        from crib.planning.search.down_the_axis import method_of as method_down

        return method_down(self.question, self.cutters)

    @cached_property
    def chains(self) -> tuple[Chain, ...]:
        """All that the cutters can do down the axis, whatever rules and proof say of it."""
        return tuple(self.down.chains()) if self.down else ()

    @cached_property
    def limits(self) -> Limits:
        """What the shop and the drawing allow."""
        return replace(self.question.limits, wide=self.wide)

    @cached_property
    def bare(self) -> Bare:
        """What is told of tools before they are made."""
        return Bare(self.question, self.limits, self._befores)

    def tool(self, cutter: Cutter) -> Tool | None:
        """The tool that a cutter is here."""
        return self._numbered(cutter.id)

    def __contains__(self, tool: Tool) -> bool:
        return self._numbered(tool.id) is tool

    @cached_property
    def _numbered(self) -> Callable[[int], Tool | None]:
        tools = self.tools
        return tools.numbered if isinstance(tools, Tools) else {tool.id: tool for tool in tools}.get

    def of(self, tool: Tool, removed: Region, after: Draft | None = None) -> Iterator[tuple[Job, ...]]:
        """Every choice of rooms and manners in which a tool can take metal away now, `after` what was done."""
        outline = self.question.outline
        begun: list[tuple[Job, ...]] = [()]
        for room in outline.rooms:
            if never_opens(self.question, tool, room.name) or never_in(self.question, self.limits, tool, room):
                continue
            grown = []
            is_shut = after is not None and is_not_in_yet(after, self.limits, tool, room)
            for jobs in begun[1:] if is_shut else begun:
                gone = jobs[-1].removed if jobs else removed
                if not outline.is_waived(outline.rest(room, gone)):
                    grown += [(*jobs, job) for job in self.clear(tool, room, gone)]
            yield from grown
            begun += grown

    def before(self, room: Room) -> Region:
        """The section with every room before this one clear: the best that a cutter could be offered."""
        return self._befores[room.name]

    @cached_property
    def _befores(self) -> dict[str, Region]:
        rooms = self.question.outline.rooms
        return {room.name: union(map(self._gone_of, rooms[:place])) for place, room in enumerate(rooms)}

    def _gone_of(self, room: Room) -> Region:
        """What is gone of a room that is clear: what it is aimed at, or where walls may stand nearer their limits all
        that may be between them."""
        if not self.wide or room.lean or room.name not in self.question.between_walls:
            return self.question.outline.share_of(room)
        return room.aim._replace(left=room.most.left, right=room.most.right).region

    def does(self, tool: Tool, room: Room) -> Job | None:
        """A job that clears a whole room, the rooms before it being clear; None where the tool has none."""
        outline = self.question.outline
        if keeps_out(self.question, tool, room):
            return None
        for job in self.clear(tool, room, self.before(room)):
            if outline.is_waived(outline.rest(room, job.removed)) and fits(self.question, job):
                return job
        return None

    def is_feasible(self, tool: Tool, room: Room) -> bool:
        """Whether a tool clears a whole room, the rooms before it being clear."""
        if self.bare.falls_short(tool, room) or keeps_out(self.question, tool, room):
            return False
        told = is_feasible(tool, self.question.outline, room, self.before(room), self.limits)
        open_ended = self.question.layers is None
        return self.does(tool, room) is not None if told is None or (told and not open_ended) else told

    def stops(self, tool: Tool, room: Room) -> tuple[Finding, ...]:
        """What forbids a tool in a room, whatever its passes."""
        manner = next(iter(method_of(room).manners)) if never_opens(self.question, tool, room.name) else Manner.IDLE
        found = stops(Draft(self.question, (Job(tool, room.name, (), NOTHING, manner),)))
        return found or self._only_climbing(tool, room) or self._over_a_wall(tool, room)

    def _only_climbing(self, tool: Tool, room: Room) -> tuple[Finding, ...]:
        """What forbids a tool that with one closed end does a room by a climb cut alone."""
        if self.question.feature.request.ends != "one" or (job := self.does(tool, room)) is None:
            return ()
        return tuple(one for one in backlash(Draft(self.question, (job,))) if one.grade == Grade.STOP)

    def _over_a_wall(self, tool: Tool, room: Room) -> tuple[Finding, ...]:
        """What forbids a tool that must stand far out for what holds it to pass over what stands beside the work."""
        if not self.question.outline.obstacles or (job := self.does(tool, room)) is None:
            return ()
        return tuple(one for one in stands_out(Draft(self.question, (job,))) if one.grade == Grade.STOP)

    def never_here(self, tool: Tool) -> Finding | None:
        """The rule that keeps a tool from this work whatever its sizes are."""
        place = (tool.known.material, edges(tool.known), tool.known.hand)  # all that these rules go by
        if place not in self.nevers:
            self.nevers[place] = self._never_here(tool) is not None
        return self._never_here(tool) if self.nevers[place] else None

    def _never_here(self, tool: Tool) -> Finding | None:
        found = self.stops(tool, self.question.outline.rooms[-1])
        return next((stop for rule in NEVER_HERE for stop in found if stop.id == rule), None)

    def could_do_any(self, tool: Tool, removed: Region) -> bool:
        """Whether a tool could do some room whole that isn't clear, as far as can be told without making its passes."""
        outline = self.question.outline
        return any(
            is_feasible(tool, outline, room, removed, self.limits) is not False
            for room in outline.rooms if not outline.is_waived(outline.rest(room, removed))
        )

    def does_across(self, tool: Tool, room: Room) -> Job | None:
        """The same where only the section counts, and not what closed ends ask for."""
        outline = self.question.outline
        jobs = self.clear(tool, room, self.before(room))
        return next((job for job in jobs if outline.is_waived(outline.rest(room, job.removed))), None)

    def opened_by_end_mills(self) -> frozenset[str]:
        """The rooms that a usable end mill opens from above."""
        return frozenset(self.opened_by)

    @cached_property
    def opened_by(self) -> dict[str, Tool]:
        """The same, each with one that does."""
        return {room.name: mill for room in self.opening_rooms if (mill := self.opener(room))}

    @property
    def opening_rooms(self) -> list[Room]:
        """The rooms that are open at the top."""
        return [room for room in self.question.outline.rooms if room.opens(Opening.TOP)]

    def opener(self, room: Room) -> Tool | None:
        """A usable end mill that opens a room from above, the first in order. One that itself is cautioned against, as
        what then may not open it would be, is none: with it an answer could be worse than without."""
        if any(never_kept(self.question)):
            return None
        return next((tool for tool in self._likely(room) if tool.kind.opens and self._is_usable(tool, room)), None)

    def _likely(self, room: Room) -> Iterator[Tool]:
        """The first of the tools, then as far as somebody asks of the others those that may clear a room."""
        yield from self.tools[:_MANY]
        if len(self.tools) > _MANY:
            yield from self.bare.may_clear(self.tools, room)

    def _is_usable(self, tool: Tool, room: Room) -> bool:
        """Whether a tool clears a room whole, leaves nothing in it and no rule forbids it or cautions against it by its
        name."""
        if not self.is_feasible(tool, room):
            return False
        job = self.does(tool, room)
        if job is None or self.question.outline.rest(room, job.removed):
            return False
        draft = Draft(self.question, (job,))
        grave = (w for w in judge(draft) if w.grade == Grade.STOP or (w.grade == Grade.CAUTION and w.cutter_id))
        return not any(grave) and not any(misses(draft))
