"""The least that a draft can still come to: what lets the search stop early without missing anything.

Nothing here may ever be more than what comes out in the end.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import cached_property
from itertools import combinations

from crib.findings.finding import Finding
from crib.geometry.outline import Opening, Room
from crib.geometry.region import Region
from crib.light.hints import TYPE_CHECKING
from crib.light.records import dataclass, field, replace
from crib.light.tuples import NamedTuple
from crib.machining.draft import Draft
from crib.machining.ends import has_corners
from crib.machining.methods import pass_bounds_now
from crib.machining.methods.base import Limits, goes_with_the_fillet
from crib.machining.question import Question
from crib.machining.tool import Tool
from crib.machining.words import Manner
from crib.planning.bounds.abilities import Abilities
from crib.planning.bounds.each_tool import GIVEN_AWAY
from crib.planning.bounds.far_out import all_stand_far_out
from crib.planning.bounds.in_one_room import InOneRoom, Share, Shares
from crib.planning.bounds.least_of_sizes import missed_as_cleared, missed_by_all, most_left
from crib.planning.bounds.pareto import LowerBound, ParetoFront, Rank, combine, non_dominated
from crib.planning.bounds.to_come import ToCome
from crib.planning.bounds.who_comes import Branch, Comers
from crib.planning.reckoning.cost import money_at_stake, scrap_class
from crib.planning.reckoning.minutes import deburr_minutes, edges_mm, index_minutes, least_minutes, least_return
from crib.planning.reckoning.rule_effects import RuleEffects

if TYPE_CHECKING:
    from crib.planning.bounds.discs_first import Discs

MOST_CUTTERS = 3

CENTS_ROUNDED = 1e-6
"""What a plan may cost less than its least where that is all of it: costs are ranked rounded, and sums made in another
order differ by a hair. Else of two that cost the same the one whose numbers are higher came first."""

class PartialPlan(NamedTuple):
    """A draft, what it comes to already, and what the rules said of it."""

    draft: Draft
    least: LowerBound
    said: frozenset[Finding] = frozenset()


@dataclass
class Bounds:
    """For each tool and room the least that it takes, and from these the least that is still to come. `known`: the
    shares of those tools of which the abilities were known before, where they were worked out of this very question.
    `new`: tools of which a plan must have one at least; where there are none any plan does. `discs`: what may take
    steps first, where that isn't among the tools alone. `at_least`: what is known of every plan, its money aside.
    `aimed`: the same with all walls at their aim, of plans in each of which some are nearer their limits."""

    abilities: Abilities
    question: Question
    known: Callable[[], Shares] | None = None
    new: frozenset[int] = frozenset()
    discs: Discs | None = None
    at_least: Rank | None = None
    aimed: Bounds | None = None
    firsts: dict[bool, ParetoFront] = field(default_factory=dict)
    going: dict[tuple[object, ...], list[Branch]] = field(default_factory=dict)
    listed: dict[tuple[object, ...], list[Branch]] = field(default_factory=dict)
    least_verdict: int = 0
    least_caution: bool = False

    @property
    def tools(self) -> Sequence[Tool]:
        """The tools that there are."""
        return self.abilities.tools

    @property
    def limits(self) -> Limits:
        """What the shop and the drawing allow."""
        return self.abilities.limits

    def of(self, tool: Tool, room: Room) -> Share | None:
        """What a tool can do of a room; None where it can do nothing there."""
        return self.shares[room.name].get(tool.id)

    @cached_property
    def in_one_room(self) -> InOneRoom:
        """What each tool takes in each room."""
        return InOneRoom(self.abilities, self.question, self.discs)

    def is_as_aimed(self, draft: Draft) -> bool:
        """Whether some walls must be nearer their limits, and in a draft none are nor will be."""
        return self.aimed is not None and not any(job.manner == Manner.WIDE for job in draft.jobs) and (
            self.question.between_walls.isdisjoint(room.name for room in draft.lacking))

    @cached_property
    def comers(self) -> Comers:
        """What is counted of whoever comes."""
        if self.aimed and self.question.layers is None:
            return self.aimed.comers
        return Comers(self.abilities, self.shares, self.in_one_room, self.new)

    @cached_property
    def to_come(self) -> ToCome:
        """What rooms take, whoever comes."""
        return ToCome(self.tools, self.shares, self.in_one_room, self.comers, self._said, self.new, self._beside)

    @cached_property
    def shares(self) -> Shares:
        """By room, what each tool that can do anything there can do."""
        return {room.name: self._aimed(room) or self._shares(room) for room in self.question.outline.rooms}

    def _shares(self, room: Room) -> dict[int, Share]:
        tools, shut_out = self.abilities.by_number, self.abilities.shut_out(room)
        return {number: self._known(room, number) or self.in_one_room.of(tools[number], room, able)
                for number, able in self.abilities.of(room).items() if number not in shut_out}

    def _aimed(self, room: Room) -> dict[int, Share] | None:
        """The same of a search for walls nearer their limits by what is known of those at their aim: whoever does the
        only room between walls alone makes it so, and of open ends the others know nothing of it; None where more
        hangs on it."""
        between = self.question.between_walls
        if self.aimed is None or (room.name not in between and self.question.layers is not None):
            return None
        known = self.aimed.shares[room.name]
        if room.name not in between:
            return known
        if len(between) > 1:
            return None
        tools, able = self.abilities.by_number, self.abilities.of(room)
        return {number: self.in_one_room.widened(tools[number], room, able[number], share)
                for number, share in known.items()}

    def _known(self, room: Room, number: int) -> Share | None:
        """What was known of a tool there, whoever else there is: but where another may rough a room for it."""
        if (self.known is None or number not in self.abilities.old or has_corners(self.question, room)
                or room.leans_over):
            return None
        return self.known()[room.name].get(number)

    def now(self, tool: Tool, room: Room, so_far: PartialPlan) -> ParetoFront | None:
        """The least that is still to come if a tool does the last room alone now; None where nothing more is known of
        it than before."""
        found = pass_bounds_now(tool, self.question.outline, room, so_far.draft.removed, self.limits)
        if found is None:
            return None
        up = LowerBound(money=self.comers.up(tool), left=self._said.left_by(tool, so_far.said & self._said.shared))
        each, back = least_minutes(self.question, tool), least_return(self.question, self.limits, tool, room)
        return tuple(self.in_one_room.alone(tool, one, each, one.passes.returns * back + self.in_one_room.stopped(
            room, one)).and_(up) for one in self.abilities.manners(tool, room, found))

    def first(self, may_share: bool) -> ParetoFront:
        """The least that comes of a draft with nothing in it: what one of the new tools takes, whenever that comes, and
        the others what they take."""
        if not self.new:
            return (LowerBound(shared=may_share),)
        if may_share not in self.firsts:
            rooms = self.question.outline.rooms
            self.firsts[may_share] = tuple(one for tool in self.tools if tool.id in self.new
                                           for one in self.with_tool(rooms, frozenset(), tool, may_share))
        return self.firsts[may_share]

    def may_share_under(self, under: Sequence[object] | None) -> bool:
        """Whether a plan in which rooms are shared may be better than what there is, by the verdict that one of the new
        tools comes to at the least in any room."""
        if under is None or not self.new:
            return True
        least = min((share[number].any_.verdict for share in self.shares.values() for number in self.new
                     if number in share), default=0)
        return (least, False, True) < tuple(under[:3])

    def with_tool(self, rooms: Sequence[Room], begun: frozenset[str], tool: Tool, may_share: bool,
                  said: frozenset[Finding] = frozenset(), is_wanting: bool = False,
                  left: int = MOST_CUTTERS) -> ParetoFront:
        """The least that is still to come of a draft that lacks these rooms and has begun some, with this tool next,
        where so much was said already; nothing where the tool can't go on. Unless rooms may be shared, each tool does
        its rooms alone; where they may, what still stands of one that was begun may go with what is done in another.
        `is_wanting`: no new tool is up, and one must come; `left`: so many may come, this one too."""
        must = self.new if is_wanting and tool.id not in self.new else frozenset[int]()
        is_wanting = bool(must) and not may_share
        if is_wanting and len(rooms) == 1:
            return ()
        up = self.ended.and_(LowerBound(0, may_share, self.comers.up(tool), self._said.left_by(tool, said)))
        able = [place for place, room in enumerate(rooms) if tool.id in self.shares[room.name]]
        parts = {(place, with_another): self.to_come.part(
            self.shares[rooms[place].name][tool.id], rooms[place].name in begun, may_share, left == 1, rooms[place],
            with_another) for place in able for with_another in (False, True)}
        if len(rooms) == 1:
            return self._done(up, parts, [*able], (False, True) if may_share else (False,))
        after = said | self._said.of[tool.id][1] if tool.id in self._said.of else said
        found: list[LowerBound] = []
        for count in range(1, len(able) + 1):
            for mine in combinations(able, count):
                others = [room for place, room in enumerate(rooms) if place not in mine and room.name not in begun
                          and not (room.name in self._beside and max(mine) > place)]
                if others and (left == 1 or (must and left == 2 and not self.to_come.one_does(others, others, must))):
                    continue
                done = [rooms[place] for place in mine]
                then = self if may_share or is_wanting else self._after(tool, done, others)
                change = self.comers.change if self.comers.wants_other_holder(tool, others) else 0.0
                for ways, stands in self._ways(done, may_share):
                    rest = self.to_come.rest_with_new(others, after) if is_wanting else then.to_come.rest(
                        others, begun | stands, may_share, after, left == 2)
                    for one in combine((up._replace(money=up.money + change),), rest):
                        found += self._done(one, parts, mine, ways, bool(others))
        return non_dominated(found)

    def _ways(self, done: Sequence[Room], may_share: bool) -> Sequence[tuple[tuple[bool, ...], frozenset[str]]]:
        """Whether a tool does some rooms with another, and what is begun with that: where the step beside a fillet
        still stands, whoever makes the fillet meets what is left of it."""
        if not may_share:
            return ((False,), frozenset()),
        if self._beside.isdisjoint(room.name for room in done):
            return ((False, True), frozenset()),
        return ((False,), frozenset()), ((True,), frozenset((self.question.outline.rooms[-1].name,)))

    def _done(self, up: LowerBound, parts: Mapping[tuple[int, bool], ParetoFront], mine: Sequence[int],
              ways: Sequence[bool], others_come: bool = False) -> ParetoFront:
        """What a tool that is up does in some rooms, each alone, or some with another, who is put up too unless others
        come anyhow."""
        if not mine:
            return ()
        found = list[LowerBound]()
        for with_another in ways:
            money = self.in_one_room.put_up if with_another and not others_come else 0.0
            here: ParetoFront = (up._replace(money=up.money + money),)
            for place in mine:
                here = combine(here, parts[place, with_another])
            found += here
        return non_dominated(found)

    @cached_property
    def _beside(self) -> frozenset[str]:
        """The rooms that count as begun once somebody was in a room after them."""
        outline = self.question.outline
        return frozenset(room.name for room in outline.rooms if goes_with_the_fillet(outline, room))

    def begun(self, draft: Draft) -> frozenset[str]:
        """The rooms out of which somebody took something; whoever makes a fillet and the step beside it at once does so
        in the step, and a fillet is begun with the step that still stands beside it."""
        outline = self.question.outline
        names, last = frozenset(job.room for job in draft.jobs), outline.rooms[-1]
        if not self._beside or not names:
            return names
        stands = any(room.name in names & self._beside for room in draft.lacking)
        if last.name not in names and not stands and outline.rest(last, draft.removed).area == self._fillet_area:
            return names
        return names | self._beside | {last.name}

    @cached_property
    def _fillet_area(self) -> int:
        """Twice the area of what must go of the last room."""
        return self.question.outline.shares[-1].area

    def _after(self, tool: Tool, done: Sequence[Room], rooms: Sequence[Room]) -> Bounds:
        """The same of the flanks alone, where they are all that is lacking and a tool does whatever is before them,
        each room alone and no wider than it is aimed."""
        flanks = self._flanks
        if not flanks or self.limits.wide or not flanks.issuperset(room.name for room in rooms):
            return self
        from crib.machining.methods.along_a_flank import is_at_an_edge, opens_no_wider

        before = [room for room in self.question.outline.rooms if room.name not in flanks and not is_at_an_edge(room)]
        narrow = before and all(room in done and opens_no_wider(tool, room) for room in before)
        return self._of_flanks if narrow else self

    @cached_property
    def _flanks(self) -> frozenset[str]:
        """The rooms whose walls lean over the cutter."""
        return frozenset(room.name for room in self.question.outline.leaning_over)

    @cached_property
    def _of_flanks(self) -> Bounds:
        """The least of those that can do anything in a flank, where what is before is opened no wider than it is
        aimed."""
        able = set[int]().union(*(self.shares[name] for name in self._flanks))
        some = [tool for tool in self.tools if tool.id in able]
        closer = Abilities(self.question, some, replace(self.limits, as_wide=False))
        discs = self.in_one_room.discs if self.question.outline.leaning_over else None
        return Bounds(closer, self.question, new=self.new, discs=discs, at_least=self.at_least)

    def next_tools(self, rooms: Sequence[Room], so_far: PartialPlan, may_share: bool) -> list[Branch]:
        """The tools that could go on from a draft that lacks these rooms, in the order of the least that the ranking
        can come to, whatever held the last; the last one must be able to end it."""
        up, least = so_far.draft.tools, so_far.least
        left = MOST_CUTTERS - len(up)
        begun = self.begun(so_far.draft)
        ended = frozenset(room.name for room in rooms if any(self._ends(tool, room) for tool in up))
        names = frozenset(room.name for room in rooms)
        said = so_far.said & self._said.shared
        is_wanting = self.is_wanting(up)
        place = (names, begun, ended, left, may_share, least.verdict, least.caution, said, round(least.left, 9),
                 is_wanting)
        if place not in self.listed:
            able = self._going_on(rooms, begun, may_share, said, is_wanting, left)
            alone = [room for room in rooms if room.name not in begun] if len(rooms) > 1 else rooms
            found = [one for one in able if left > 1 or (
                self._can_end(alone, ended, one.tool) and (not is_wanting or one.number in self.new))]
            found = sorted(found, key=lambda each: (self.rank(least, each.to_come), each.number))
            self.listed[place] = self.comers.once_of_twins(found)
        return self.listed[place]

    def _going_on(self, rooms: Sequence[Room], begun: frozenset[str], may_share: bool,
                  said: frozenset[Finding], is_wanting: bool, left: int) -> list[Branch]:
        """The tools that could go on, with what is still to come; in no order."""
        place = (tuple(room.name for room in rooms), begun, may_share, said, is_wanting, left)
        if place not in self.going:
            self.going[place] = [Branch(tool.id, tool, to_come) for tool in self.to_come.able(rooms)
                                 if (to_come := self.with_tool(rooms, begun, tool, may_share, said, is_wanting, left))]
        return self.going[place]

    @cached_property
    def able_count(self) -> int:
        """How many tools can do anything in any room."""
        return len(self.to_come.able(self.question.outline.rooms))

    def is_wanting(self, tools: Iterable[Tool]) -> bool:
        """Whether a new tool must still come beside these."""
        return bool(self.new) and self.new.isdisjoint(tool.id for tool in tools)

    def rank_of_all(self, may_share: bool) -> Rank | None:
        """The best place in the ranking that any plan can come to, told of all rooms at once; unless they may be
        shared, of those in which none is; None where there is none."""
        rest = self.to_come.rest(self.question.outline.rooms, frozenset(), may_share, frozenset())
        return self.rank(self.start, rest) if rest else None

    def rank(self, so_far: LowerBound, to_come: ParetoFront) -> Rank:
        """The best place in the ranking that what is so far can come to."""
        return min(self._rank(so_far.and_(one)) for one in to_come)

    def _rank(self, least: LowerBound) -> Rank:
        scrap, hours = 1 - min(least.left, self._most_left), self.question.feature.request.hours
        money = least.money + scrap * self._at_stake - CENTS_ROUNDED
        verdict = max(least.verdict, self.least_verdict, missed_by_all(self.abilities))
        cautioned = least.caution or (self.least_caution and verdict < GIVEN_AWAY)
        rank = verdict, cautioned, least.shared, scrap_class(scrap, hours), money
        return max(rank, (*self.at_least[:4], money)) if self.at_least else rank

    @cached_property
    def ended(self) -> LowerBound:
        """The verdict that every plan comes to at the least, and whether a rule surely cautions, for some tool of it
        ends each room."""
        ends = [[one.any_ for one in some.values() if one.ends] for some in self.shares.values()]
        return LowerBound(max(min((one.verdict for one in some), default=0) for some in ends),
                          caution=any(some and all(one.caution for one in some) for some in ends))

    @cached_property
    def _most_left(self) -> float:
        """What every plan leaves at the most of the chance that the part comes out well."""
        return most_left(self.question)

    @cached_property
    def _at_stake(self) -> float:
        return money_at_stake(self.question.shop, self.question.feature.request.hours)

    @cached_property
    def start(self) -> LowerBound:
        """What any draft comes to before its first cutter."""
        shop = self.question.shop
        minutes = (shop.setup_minutes + self.question.extra_minutes + index_minutes(self.question)
                   + deburr_minutes(shop, edges_mm(self.question)))
        return LowerBound(money=self.in_one_room.money(minutes), left=1 - shop.base_chance)

    @property
    def _said(self) -> RuleEffects:
        """What the rules say of each tool that can do anything."""
        return self.abilities.said

    def _can_end(self, rooms: Sequence[Room], ended: frozenset[str], tool: Tool) -> bool:
        """Whether what lacks these rooms, and of others no more than may go with them, could be complete with this tool
        as its last."""
        return all(self.of(tool, room) is not None and (room.name in ended or self._ends(tool, room)) for room in rooms)

    @property
    def can_be(self) -> bool:
        """Whether every room can be ended by somebody."""
        return self.abilities.can_be

    def look(self, closely: int, most: int | None = None) -> bool:
        """Whether the tools might take everything that must go: told of one at a time, then closer of all together,
        then of so many at the `most`, each put up once. Where that leaves what an owner may let stand, no plan comes
        out as drawn, and none is reckoned to from now on."""
        together = self.abilities.together
        most = most if closely > 1 else None
        left = together.left(most) if closely else together.out_of_reach
        if self.least_verdict < GIVEN_AWAY and (left or self._give_away(closely, most)):
            self.least_verdict = GIVEN_AWAY
            self.listed.clear()
            self.comers.held.clear()
        self._tell_caution()
        return self.question.outline.is_waived(left) and not (closely and self.abilities.ever_leave_corners)

    def begin_as_aimed(self) -> None:
        """Tell at once what was told with walls at their aim, where it holds of those nearer their limits too."""
        if self.aimed and self.aimed.least_caution:
            self._tell_caution()

    def _tell_caution(self) -> None:
        """Whether each plan that gives nothing away is cautioned."""
        if not self.least_caution and all_stand_far_out(self.abilities):
            self.least_caution = True
            self.listed.clear()
            self.comers.held.clear()

    def may_take_all(self, draft: Draft, tool: Tool, least: int | None = None) -> bool:
        """Whether a tool, with as many as may come after it, might take all that a draft leaves, so that its verdict
        ranks before `least`. What stands under a flank may be stepped by another before."""
        more, outline = MOST_CUTTERS - 1 - len(draft.tools), self.question.outline
        if more > 1 or any(room.lean for room in outline.rooms):
            return True
        left = outline.left(draft.removed)
        return self.abilities.together.may_take(tool, left, bool(more), self.lasts(left, least, tool) if more else None)

    def lasts(self, left: Region, least: int | None, tool: Tool | None = None) -> frozenset[int] | None:
        """Who may come after a tool as the only one more, so that the verdict ranks before `least`, where so much is
        left: whoever is the last under a lip must keep its sizes. None for all."""
        outline = self.question.outline
        if least is None or any(room.lean or room.opens(Opening.LEFT, Opening.RIGHT) for room in outline.rooms):
            return None
        found: frozenset[int] | None = None
        for room, alone in zip(outline.rooms, outline.shares_alone, strict=True):
            shares = self.shares[room.name]
            mine = shares.get(tool.id) if tool else None
            if room.open or (mine and mine.last.verdict < least) or outline.is_waived(left & alone):
                continue
            keeping = frozenset(number for number, one in shares.items() if one.last.verdict < least)
            if len(keeping) < len(shares):
                found = keeping if found is None else found & keeping
        return found

    def _give_away(self, closely: int, most: int | None) -> bool:
        """Whether those that give nothing away by themselves leave something, or a size is missed as wide as all ever
        get."""
        some = self.abilities.as_drawn
        if some is not self.abilities.together and (some.left(most) if closely else some.out_of_reach):
            return True
        return closely > 0 and missed_as_cleared(self.abilities)

    def _ends(self, tool: Tool, room: Room) -> bool:
        share = self.of(tool, room)
        return share is not None and share.ends

    def missing(self, draft: Draft) -> tuple[Room, ...]:
        """The rooms that aren't clear yet."""
        return draft.lacking
