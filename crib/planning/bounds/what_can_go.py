"""Whether all that is able, one after the other, could ever clear what must go: told without making a plan."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import cached_property, reduce
from itertools import zip_longest

from crib.geometry.drawn_body import Body
from crib.geometry.ever_cleared import SPARE, Clearing, goes_near, never_cleared
from crib.geometry.free_positions import Interval
from crib.geometry.outline import Outline, Room
from crib.geometry.region import FAR, NOTHING, Region, box
from crib.light.records import dataclass, field
from crib.machining.methods import gets_near, near, stands_in
from crib.machining.methods.base import Limits
from crib.machining.tool import Tool

_IN_VAIN = 64
"""After so many tools that surely leave something as the last it is told of two together."""

_FIRST, _SPOTS, _KEPT = 4, 6, 3
"""What so many tools leave is looked at spot by spot, so many spots at the most; so many are kept for what is asked
next."""

Able = Sequence[tuple[Tool, Room]]
"""Tools with the rooms in which each can do anything."""


@dataclass
class Told:
    """What was told about the same metal before, of these tools and of others: as which bodies one may stand in a room
    with all gone that may, and what a body leaves of what others left."""

    bodies: dict[tuple[int, str], tuple[Tool, tuple[Body, ...]]] = field(default_factory=dict)
    left: dict[tuple[Body, Region], Region] = field(default_factory=dict)


@dataclass
class Together:
    """What some tools leave whatever they do, each in the rooms in which it can do anything, standing where their
    methods put it: told of one at a time, of all, and of so many, each closer than the one before and slower to
    tell. `fewer`: the same of some of them, or within closer limits; what those don't leave these don't either.
    `asked`: what was asked; `reaching`: the bodies that were looked at one at a time; `begun`: what may be gone
    before them. `never`: what each tool never takes by itself; `takes`: by what was left and what a tool never
    takes, whether it takes so much, or it and any other; `pairs`: by what one never takes what it and any other
    don't; `more`: whether they leave more than so much; `in_vain`: how often one surely didn't take what was left;
    `spots`: what nobody reached when something like it was asked, of other metal, the latest first."""

    outline: Outline
    able: Able
    allowed: Limits
    fewer: Together | None = None
    asked: dict[int | None, Region] = field(default_factory=dict)
    reaching: set[Body] = field(default_factory=set)
    told: Told = field(default_factory=Told)
    begun: Region = NOTHING
    never: dict[int, Region] = field(default_factory=dict)
    takes: dict[tuple[Region, Region, bool, frozenset[int] | None], bool] = field(default_factory=dict)
    pairs: dict[tuple[Region, frozenset[int] | None], list[Region]] = field(default_factory=dict)
    more: dict[Region, bool] = field(default_factory=dict)
    in_vain: int = 0
    spots: list[Region] = field(default_factory=list)

    @cached_property
    def out_of_reach(self) -> Region:
        """What of all that must go no tool reaches, whatever is gone before."""
        left = (self.fewer.out_of_reach if self.fewer else self.outline.least) - self.begun
        known, reaching = self.fewer.reaching if self.fewer else set[Body](), set[Body]()
        for tool, room in self._in_turn():
            if not left:
                break
            if not self._comes_near(tool, room, left):
                continue
            for body in self._with_all_gone(tool, room):
                if body not in known and body not in reaching:
                    reaching.add(body)
                    left = self._left_by(body, left)
        self.reaching |= reaching
        return left

    def leave_more_than(self, waived: Region = NOTHING) -> bool:
        """Whether `out_of_reach` is more than what may stand: told of one spot that the first of them leave, and of
        another only where some tool reaches all of that."""
        if self.fewer and not self.fewer.leave_more_than(waived):
            return False
        if waived not in self.more:
            told = self._is_a_spot_left(waived) if "out_of_reach" not in self.__dict__ else None
            self.more[waived] = bool(self.out_of_reach - waived) if told is None else told
        return self.more[waived]

    def _is_a_spot_left(self, waived: Region) -> bool | None:
        """Whether all leave some spot of what may not stand; None where that isn't plain after some of them."""
        turn, wanted = list(self._in_turn()), self.outline.least - self.begun
        if any(self._reaching(turn, spot & wanted - waived)[0] for spot in self.spots):
            return True
        if len(turn) <= _FIRST:
            return None
        left, others = wanted, turn[_FIRST:]
        for tool, room in turn[:_FIRST]:
            left = self._left_by_tool(tool, room, left)
        for _ in range(_SPOTS):
            if not (spot := a_spot(left - waived)):
                return False
            rest, reaching = self._reaching(others, spot)
            if reaching is None:
                self.spots[:] = [rest, *self.spots][:_KEPT]
                return True
            others.remove(reaching)
            left = self._left_by_tool(*reaching, left)
        return None

    def _reaching(self, some: Able, spot: Region) -> tuple[Region, tuple[Tool, Room] | None]:
        """What of a spot some tools leave, and the first with which nothing of it is left."""
        for one in self._near(some, spot) if spot else ():
            if not (spot := self._left_by_tool(*one, spot)):
                return spot, one
        return spot, None

    def _near(self, some: Able, left: Region) -> Able:
        """Those of some tools of which it isn't plain that they never touch what others left, told of many at once."""
        tools = dict[str, list[Tool]]()
        for tool, room in some:
            tools.setdefault(room.name, []).append(tool)
        (begins, _, ends, high), most = left.bounds(), self.outline.most
        found = {(room.name, tool.id) for room in self.outline.rooms for tool in near(
            tools.get(room.name, ()), self.outline, room, self.allowed, most, (begins - 2 * SPARE, ends + 2 * SPARE),
            high + SPARE)}
        return [(tool, room) for tool, room in some if (room.name, tool.id) in found]

    def _left_by_tool(self, tool: Tool, room: Room, left: Region) -> Region:
        """What a tool in a room doesn't reach of what others left."""
        if not left or not self._comes_near(tool, room, left):
            return left
        return reduce(lambda rest, body: self._left_by(body, rest), self._with_all_gone(tool, room), left)

    def _comes_near(self, tool: Tool, room: Room, left: Region) -> bool:
        """Whether a tool goes to such places in a room, and so low there, that it may touch some metal: told before all
        of where it goes."""
        if (tool.id, room.name) in self.told.bodies:
            return True
        begins, _, ends, high = left.bounds()
        out, under = tool.form.radius + 2 * SPARE, high - tool.form.low + SPARE
        return gets_near(tool, self.outline, room, self.allowed, self.outline.most, (begins - out, ends + out), under)

    def _left_by(self, body: Body, left: Region) -> Region:
        """What a body doesn't reach of what others left."""
        if not (left and goes_near(body, left)):
            return left
        known = self.told.left
        if (body, left) not in known:
            known[body, left] = never_cleared(self.outline.keep, (body,), left)
        return known[body, left]

    def _in_turn(self) -> Iterator[tuple[Tool, Room]]:
        """One in each room, then the next in each."""
        turns = zip_longest(*map(self._likely_first, self.outline.rooms))
        return (one for turn in turns for one in turn if one)

    def _likely_first(self, room: Room) -> list[tuple[Tool, Room]]:
        """The tools in a room with it, the tallest teeth first."""
        return sorted(((tool, room) for tool, other in self.able if other is room),
                      key=lambda one: (-one[0].form.height, -one[0].form.radius))

    def never_taken_by(self, tool: Tool) -> Region:
        """What of all that must go a tool doesn't reach in any room, whatever is gone before."""
        if tool.id not in self.never:
            bodies = dict.fromkeys(body for one, room in self.able if one.id == tool.id
                                   for body in self._with_all_gone(one, room))
            self.never[tool.id] = never_cleared(self.outline.keep, bodies, self.outline.least - self.begun)
        return self.never[tool.id]

    def may_take(self, tool: Tool, left: Region, with_another: bool, among: frozenset[int] | None = None) -> bool:
        """Whether a tool might take what others left, but for what an owner may let stand; or it and one more, one
        `among` some where it isn't None, of which it is only told once many were the last in vain."""
        if with_another and among is None and self.in_vain < _IN_VAIN:
            return True
        never = self.never_taken_by(tool)
        place = left, never, with_another, among
        if place not in self.takes:
            self.takes[place] = any(self.outline.is_waived(left & one) for one in (
                self._never_with_another(never, among) if with_another else (never,)))
        self.in_vain += not self.takes[place]
        return self.takes[place]

    def one_may_take(self, left: Region, among: frozenset[int] | None = None) -> bool:
        """Whether any one tool might take what others left, one `among` some where it isn't None; told of all once many
        were the last in vain."""
        if among is None and self.in_vain < _IN_VAIN:
            return True
        place = left, self.outline.least, True, among
        if place not in self.takes:
            self.takes[place] = any(self.outline.is_waived(left & never) for never in self._nevers(among))
        return self.takes[place]

    def _nevers(self, among: frozenset[int] | None) -> list[Region]:
        """What one of some tools or another never takes, the least first, none that is more than another."""
        return self._never_with_another(self.outline.least, among)

    def _never_with_another(self, never: Region, among: frozenset[int] | None) -> list[Region]:
        """The same of one tool by what it never takes, and one more of some."""
        if (never, among) not in self.pairs:
            tools = (tool for tool, _ in self.able if among is None or tool.id in among)
            self.pairs[never, among] = _least_of({never & other for other in set(map(self.never_taken_by, tools))})
        return self.pairs[never, among]

    def left(self, most: int | None = None) -> Region:
        """What of all that must go no plan takes; of plans with so many tools at the `most`, each of which goes once.
        Nothing where some order of all of them might take everything."""
        if most not in self.asked:
            fewer = self.fewer.asked.get(most) if self.fewer else None
            here = fewer if fewer is not None and not fewer else self._by_all() if most is None else self._by_some(most)
            self.asked[most] = here
        return self.asked[most]

    def _by_all(self) -> Region:
        wanted = self.outline.least - self.begun
        return wanted - (self.begun | self._clearing.cleared(wanted))

    def _by_some(self, most: int) -> Region:
        ever = self.ever
        goes: dict[int, dict[Body, None]] = {}
        for tool, room in self.able:
            goes.setdefault(tool.id, {}).update(dict.fromkeys(self._bodies(tool, room, ever)))
        wanted = self.outline.least - self.begun
        return wanted - self._clearing.in_goes(list(dict.fromkeys(map(tuple, goes.values()))), most, wanted)

    @cached_property
    def ever(self) -> Region:
        """What they can ever clear, all together."""
        return self.begun | self._clearing.cleared()

    @cached_property
    def _clearing(self) -> Clearing:
        """All of them."""
        bodies = dict.fromkeys(body for one in self._in_turn() for body in self._with_all_gone(*one))
        return Clearing(self.outline.stock - self.begun, self.outline.keep, self.outline.obstacles, bodies)

    def _with_all_gone(self, tool: Tool, room: Room) -> tuple[Body, ...]:
        known = self.told.bodies.get((tool.id, room.name))
        if known is None or known[0] is not tool:
            known = self.told.bodies[tool.id, room.name] = tool, tuple(self._bodies(tool, room, self.outline.most))
        return known[1]

    def _bodies(self, tool: Tool, room: Room, gone: Region) -> Iterator[Body]:
        """A tool as a body, once for each range of places in which it may stand."""
        heights: dict[Interval, list[Interval]] = {}
        for one in stands_in(tool, self.outline, room, self.allowed, gone):
            heights.setdefault((one.left, one.right), []).append((one.low, one.high))
        for sides, found in heights.items():
            yield Body(tool.form, tuple(found), sides)


def _least_of(some: Iterable[Region]) -> list[Region]:
    """Of some regions those that hold none of the others, the least first."""
    found = list[Region]()
    for region in sorted(some, key=lambda one: one.area):
        if all(one - region for one in found):
            found.append(region)
    return found


def a_spot(region: Region) -> Region:
    """A small piece of a region, in the middle of its largest; nothing of nothing.

    >>> from crib.geometry.region import box
    >>> a_spot(box(0, 0, 9, 9) | box(20, 0, 22, 9)).bounds()
    (3, 3, 6, 6)
    """
    pieces = [Region((slab._replace(spans=(span,)),)) for slab in region.slabs for span in slab.spans]
    if not pieces:
        return NOTHING
    largest = max(pieces, key=lambda piece: piece.area)
    for place in (1, 0):
        ends = largest.bounds()[place], largest.bounds()[place + 2]
        begin, end = ends[0] + (ends[1] - ends[0]) // 3, ends[1] - (ends[1] - ends[0]) // 3
        middle = box(-FAR, begin, FAR, end) if place else box(begin, -FAR, end, FAR)
        largest = largest & middle or largest
    return largest
