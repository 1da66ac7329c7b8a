"""Of thousands of cutters the few that can come into the best plans. A floor of what a plan with a cutter costs is told
of its bare sizes; the search has those of the least floors, and what it finds stands where no other's floor is as low
as what it tells."""

from __future__ import annotations

from collections.abc import Sequence
from math import inf

from crib.cutters.base import Cutter, Kind
from crib.cutters.edges import edges
from crib.geometry.outline import Room
from crib.machining.gate import Gate
from crib.machining.methods import can_try, gate
from crib.machining.methods.base import Site
from crib.machining.sizes import Sizes, Sizing
from crib.machining.tool import Tool, at_worst, makes_sizes
from crib.planning.branch_and_bound import WORTH_TELLING, Key, Shortlist
from crib.planning.cost import RUN_OUT_MM, money_at_stake, scrap_class, wear_share
from crib.planning.finish import Proved, distinct
from crib.planning.jobs import Jobs
from crib.planning.set_ups import merged
from crib.planning.sieve import alike, is_weak
from crib.planning.watch import Watch
from crib.records import NamedTuple, dataclass, replace

FEW = 24
"""So many of the least floors are searched first."""


class Found(NamedTuple):
    """What a search found and told."""

    proved: tuple[Proved, ...]
    told: Shortlist


def narrowly(every: Sequence[Jobs], most: int, verdict: int, least: int | None, watch: Watch) -> Found | None:
    """What the search of all tools tells, where no plan has a better verdict than this; None where the few don't
    settle it."""
    if any(jobs.down or jobs.question.layers or jobs.wide for jobs in every):
        return None
    floors = [Floors(jobs) for jobs in every]
    limit = _at_place(floors, FEW)
    while limit < inf:
        some = [replace(jobs, tools=one.within(limit), all_discs=jobs.discs)
                for jobs, one in zip(every, floors, strict=True)]
        told = Shortlist(least=least, watch=watch)
        proved = tuple(distinct(merged(some, told, False), told, most))
        if told.unproved or (told.keys and not _is_plain(told.keys[-1], verdict, every)):
            return None
        needed = _up_to(told, most) if told.keys else limit * _WIDER
        if told.keys and needed <= limit:
            return Found(proved, told)
        limit = needed
        if sum(len(one.within(limit)) for one in floors) > _TOO_MANY * sum(len(jobs.tools) for jobs in every):
            return None
    return None


_WIDER, _TOO_MANY = 1.5, 0.5


def _is_plain(key: Key, verdict: int, every: Sequence[Jobs]) -> bool:
    """Whether nothing but money puts a plan behind others."""
    feature = every[0].question.feature
    base = scrap_class(every[0].question.shop.base_chance, feature.request.hours)
    return key[:3] == (verdict, False, False) and key[3] <= base


def _up_to(told: Shortlist, most: int) -> float:
    """Up to what money another plan would have been told."""
    assert told.best is not None
    worth = WORTH_TELLING * told.best.reckoning.cost
    return (told.keys[-1][4] if told.count >= most else worth) + _CENT


_CENT = 1e-4


def _at_place(floors: Sequence[Floors], place: int) -> float:
    """In the set-up where that is least, a floor over which each room has so many cutters less, or all there are."""
    return min((max(one.at_place(place)) for one in floors if one.floors), default=inf)


@dataclass
class Floors:
    """For each tool in one set-up the least money of a plan with it, in which each tool does its rooms alone."""

    jobs: Jobs

    def __post_init__(self) -> None:
        question = self.jobs.question
        self.sizing = Sizing(question.shop, question.material)
        outline = question.outline
        sites = ((room, gate(Site(outline, room, self.jobs.limits, outline.most))) for room in outline.rooms)
        self.rooms = [(room, None if door and door.upright else door) for room, door in sites]
        self.known: dict[tuple[str, object], float] = {}
        self.in_rooms: list[list[float]] = [[] for _ in self.rooms]
        self.start = Jobs(question, ()).bounds().start
        self.wear = {buried: getattr(question.shop, wear_share(buried, question.material)[0])
                     for buried in (False, True)}
        self.floors = self._all()

    def within(self, limit: float) -> list[Tool]:
        """The tools of which the floor is no higher, in their order."""
        return [tool for money, tool in self.floors if money <= limit]

    def at_place(self, place: int) -> list[float]:
        """For each room the floor at so high a place of those of the tools that may do it."""
        return [sorted(one)[:place][-1] for one in self.in_rooms]

    def _all(self) -> list[tuple[float, Tool]]:
        shop, hours = self.jobs.question.shop, self.jobs.question.feature.request.hours
        by_tool = [(tool, *self.of(tool)) for tool in self.jobs.tools]
        least = [min((rooms[place] for _, _, rooms in by_tool), default=inf) for place in range(len(self.rooms))]
        whole = sum(least) + self.start.money + (1 - self.start.left) * money_at_stake(shop, hours)
        if whole == inf:
            return []
        second = min(up for _, up, _ in by_tool)
        found = []
        for tool, up, rooms in by_tool:
            start = whole + up + (second if inf in rooms else 0.0)
            more = [start + money - other for money, other in zip(rooms, least, strict=True)]
            if min(more) < inf:
                found.append((min(more), tool))
                for here, money in zip(self.in_rooms, more, strict=True):
                    here += [money] if money < inf else []
        return found

    def of(self, tool: Tool) -> tuple[float, list[float]]:
        """The least money to put a tool up, and for each room to do it; infinite where it surely doesn't."""
        question, kind, cutter = self.jobs.question, tool.kind, at_worst(tool.owned) or tool.owned
        shop, sizes = question.shop, self.sizing.of(cutter)
        up = shop.cutter_minutes + (shop.touch_disc_minutes if kind.buried else shop.touch_minutes)
        money = up / 60 * shop.hour_rate + self.wear[kind.buried] * (cutter.price or 0.0)
        if shop.overruled or shop.this_time or cutter.overruled:
            return money, [0.0] * len(self.rooms)
        if not makes_sizes(edges(cutter), question.material):
            return money, [inf] * len(self.rooms)
        if cutter.shank_mm is not None and cutter.bore_mm is None and not self.sizing.is_held(cutter):
            return money, [inf] * len(self.rooms)
        opened = question.rooms_an_end_mill_opens if is_weak(cutter, kind) else ()
        return money, [inf if room.name in opened or not can_try(tool, room) else
                       self._alone(tool, room) if sizes is None or door is None else
                       self._told(door, cutter, kind, sizes) for room, door in self.rooms]

    def _alone(self, tool: Tool, room: Room) -> float:
        """What the bounds tell of a tool that does a room alone, worked out once for all that are alike."""
        place = (room.name, alike(tool.owned))
        if place not in self.known:
            share = Jobs(self.jobs.question, (tool,), all_discs=self.jobs.discs).bounds().of(tool, room)
            self.known[place] = min((one.money for one in share.alone), default=inf) if share else inf
        return self.known[place]

    def _told(self, door: Gate, cutter: Cutter, kind: Kind, sizes: Sizes) -> float:
        """The least money that the passes of a cutter take, and measuring once."""
        if door.shortfall(sizes):
            return inf
        shop, most = self.jobs.question.shop, self.sizing.most(cutter, kind, sizes)
        travel = self.jobs.question.feature.length + sizes.diameter + RUN_OUT_MM
        handling = shop.buried_pass_minutes if kind.buried else shop.pass_minutes
        minutes = door.passes(sizes, most) * (travel / most.feed + handling) + shop.measure_minutes
        return minutes / 60 * shop.hour_rate
