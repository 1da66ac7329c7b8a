"""One question in every set-up that makes sense for it: the work flat, on its side, and so on; the best plan of all."""

from __future__ import annotations

import heapq
from collections.abc import Iterator, Sequence

from crib.cutters.base import Cutter
from crib.features import KINDS
from crib.features.base import Feature
from crib.findings.verdicts import ANSWERS, Verdict
from crib.geometry.outline import Room
from crib.geometry.region import NOTHING, Region, union
from crib.handbook.materials import Material
from crib.holders import is_held_alike
from crib.light.hints import TYPE_CHECKING
from crib.light.records import replace
from crib.machining.question import Question
from crib.machining.tool import Tool, holding_of
from crib.machining.tools import all_ready
from crib.planning.bounds.abilities import Abilities
from crib.planning.bounds.each_tool import EXTRA, GIVEN_AWAY
from crib.planning.bounds.least_of_sizes import missed_by_all
from crib.planning.reckoning.minutes import pass_minutes
from crib.planning.search.aims import aimed
from crib.planning.search.branch_and_bound import explore
from crib.planning.search.jobs import Jobs
from crib.planning.search.shortlist import Shortlist
from crib.planning.search.weighed import Key, Weighed, is_wider
from crib.planning.told.verdict import calls_for
from crib.setups import SETUPS
from crib.setups.base import Setup
from crib.shop import Shop

if TYPE_CHECKING:
    from crib.geometry.layers import Layers
    from crib.planning.bounds.what_can_go import Together

Asked = tuple[Jobs, ...]
"""The question in each set-up, with what the tools can do there; the usual set-up first."""


class Readied:
    """Tools that were made ready for one question, kept for the next: in one shop and metal a cutter is the same tool
    whatever it is to make."""

    def __init__(self) -> None:
        self.kept: dict[tuple[Shop, Material], dict[int, tuple[Cutter, Tool | None]]] = {}
        self.held: dict[tuple[Shop, Material], dict[int, tuple[Tool, tuple[Tool, ...]]]] = {}
        self.drilling: dict[tuple[Shop, Material], dict[int, tuple[Cutter, Tool | None]]] = {}
        self.told: dict[object, Together] = {}
        self.spots: list[Region] = []
        self.sized: dict[tuple[Shop, Material], Question] = {}
        self.lists: dict[tuple[int, ...], list[Tool]] = {}

    def tools(self, question: Question, cutters: Sequence[Cutter]) -> list[Tool]:
        """What `usable` gives."""
        shop = replace(question.shop, hour_rate=0.0)  # what an hour is worth makes no other tool
        known = self.kept.setdefault((shop, question.material), {})
        for cutter in cutters:
            if id(cutter) not in known:  # nothing else gets its place: it is kept too
                known[id(cutter)] = cutter, next(iter(usable(question, (cutter,))), None)
        tools = [tool for cutter in cutters if (tool := known[id(cutter)][1])]
        return self.lists.setdefault(tuple(map(id, tools)), tools)  # by a list of them more is kept

    def keep_sizes(self, question: Question) -> None:
        """Give a question what is known of bare sizes in its shop and metal."""
        question.keep(self.sized.setdefault((question.shop, question.material), question))

    def drills(self, question: Question, cutters: Sequence[Cutter]) -> list[Tool]:
        """What of these cutters can drill a way in between closed ends."""
        from crib.planning.closed.drills import drills

        shop = replace(question.shop, hour_rate=0.0)
        known = self.drilling.setdefault((shop, question.material), {})
        for cutter in cutters:
            if id(cutter) not in known:
                known[id(cutter)] = cutter, next(iter(drills((cutter,), question.shop, question.material)), None)
        return [tool for cutter in cutters if (tool := known[id(cutter)][1])]

    def held_in(self, shop: Shop, question: Question, tools: Sequence[Tool]) -> list[Tool]:
        """The tools that these are in a shop with other collets."""
        there, holding, before = replace(question, shop=shop), holding_of(shop), holding_of(question.shop)
        known = self.held.setdefault((replace(shop, hour_rate=0.0), question.material), {})
        for tool in tools:
            if id(tool) not in known:
                is_same = is_held_alike(tool.kind.fill(tool.known), before, holding)  # no tool is made to tell it
                known[id(tool)] = tool, (tool,) if is_same else tuple(usable(there, (tool.owned,)))
        return [one for tool in tools for one in known[id(tool)][1]]


def asked_of(feature: Feature, material: Material, shop: Shop, cutters: Sequence[Cutter],
             readied: Readied | None = None) -> Asked:
    """The question in each set-up of the feature's kind; then in the usual one with other aims."""
    return tuple(map(opened, shut_of(feature, material, shop, cutters, readied)))


def shut_of(feature: Feature, material: Material, shop: Shop, cutters: Sequence[Cutter],
            readied: Readied | None = None) -> Asked:
    """The same before anyone asked which rooms an end mill opens."""
    questions = questions_of(feature, material, shop)
    if owned := drills_for(questions[0], cutters, readied):
        questions = tuple(replace(question, drills=owned) for question in questions)
    if feature.down:
        return tuple(Jobs(question, (), cutters=cutters) for question in questions)
    tools = readied.tools(questions[0], cutters) if readied else usable(questions[0], cutters)
    questions = (*questions, *aimed(questions[0], tools))
    if readied:
        readied.keep_sizes(questions[0])
    assert questions[0].sizing  # told once for all of them
    for other in questions[1:]:
        other.keep(questions[0])
    told: dict[object, Together] = readied.told if readied else {}
    spots: list[Region] = readied.spots if readied else []
    return tuple(Jobs(question, tools, told=told, spots=spots) for question in questions)


def drills_for(question: Question, cutters: Sequence[Cutter], readied: Readied | None = None) -> tuple[Tool, ...]:
    """What of these cutters can drill a way in between closed ends, the cheapest first."""
    if question.layers is None:
        return ()
    from crib.planning.closed.drills import drills, in_order

    found = readied.drills(question, cutters) if readied else drills(cutters, question.shop, question.material)
    return in_order(found, question.shop, question.material, _deep(question.layers))


def drills_in_order(question: Question) -> tuple[Tool, ...]:
    """The same drills where an hour may be worth something else: the cheapest first again."""
    if question.layers is None:
        return question.drills
    from crib.planning.closed.drills import in_order

    return in_order(question.drills, question.shop, question.material, _deep(question.layers))


def _deep(layers: Layers) -> float:
    """How deep it goes [mm]."""
    return (layers.top - min(layer.low for layer in layers.least)) / 1e6


def may_beat(jobs: Jobs, than: Verdict) -> bool:
    """Whether each room can be ended, and what sizes come to and what those reach that keep to the limits leaves a
    better verdict than this, in a set-up that isn't opened yet."""
    least, rooms = ANSWERS.index(than), jobs.question.outline.rooms
    return jobs.question.feature.down is not None or any(
        _may_be_as_called_for(one.abilities, least) and all(map(one.abilities.may_end, rooms))
        and not _leave_it_so(one.abilities, one.abilities.loosely, least) and missed_by_all(one.abilities) < least
        for one in ((jobs, jobs.widened) if jobs.widens else (jobs,)))


def may_still_beat(jobs: Jobs, than: Verdict) -> bool:
    """The same of one that is opened, where fewer open a room: and whether what the able reach leaves a better one."""
    least = ANSWERS.index(than)
    return jobs.question.feature.down is not None or any(
        missed_by_all(one.abilities) < least and one.abilities.can_be and not _out_of_reach(one.abilities, least)
        for one in ((jobs, jobs.widened) if jobs.widens else (jobs,)))


def _may_be_as_called_for(abilities: Abilities, least: int) -> bool:
    """Whether a plan may come out as drawn, where only such a one has a better verdict."""
    together = abilities.as_called_for if least == EXTRA else None
    return together is None or not together.leave_more_than()


def _out_of_reach(abilities: Abilities, least: int) -> bool:
    """Whether what no tool reaches leaves a plan no better verdict than this, or none at all."""
    return _leave_it_so(abilities, abilities.together, least) or abilities.leave_corners


def _leave_it_so(abilities: Abilities, together: Together, least: int) -> bool:
    """The same by what tools together don't reach in the section."""
    waivers = union(waiver.region for waiver in abilities.question.outline.waivers)
    return together.leave_more_than(waivers if least > GIVEN_AWAY else NOTHING)


def questions_of(feature: Feature, material: Material, shop: Shop) -> tuple[Question, ...]:
    """The question in each set-up. The first is the usual one: it needs no other clamping and risks nothing more than
    usual. With an end closed there is no other, but for what may run out with a disc's round at the one closed end."""
    kind = KINDS[feature.kind]
    usual, *rest = (replace(SETUPS[name], words=kind.lies.get(name, SETUPS[name].words)) for name in kind.set_ups)
    others = [setup for setup in rest if setup.suits(feature.outline)]
    usual = replace(usual, clampings=0, warns="")
    if feature.request.ends == "open":
        return tuple(_question(feature, shop, material, setup) for setup in (usual, *others))
    runs_out = others if kind.runs_out and feature.request.ends == "one" else []
    return tuple(_question(feature, shop, material, setup) for setup in (usual, *runs_out))


def _question(feature: Feature, shop: Shop, material: Material, setup: Setup) -> Question:
    """The question in one set-up; a feature that is drawn as it lies there is turned no more."""
    if setup.name != "on its side" or feature.lying is None:
        return Question(feature, shop, material, setup)
    upright = SETUPS["upright"]
    as_drawn = replace(setup, turn=upright.turn, lay=upright.lay, zeros=upright.zeros)
    return Question(feature.lying, shop, material, as_drawn)


def opened(jobs: Jobs) -> Jobs:
    """The same, knowing which rooms an end mill opens where it is cut along, and what roughs one with round corners."""
    if jobs.question.feature.down:
        return jobs
    known = replace(jobs, question=jobs.question.but(opens=frozenset(jobs.opened_by)), openers=jobs.opened_by)
    if not known.question.has_corners:
        return known
    from crib.planning.search.roughers import roughers

    return replace(known, question=known.question.but(roughers=roughers(known)))


def usable(question: Question, cutters: Sequence[Cutter]) -> Sequence[Tool]:
    """The cutters that can be reckoned with as they are on record."""
    return all_ready(cutters, question.shop, question.material)


def best(every: Sequence[Jobs], told: Shortlist, all_drafts: bool = False) -> Iterator[Weighed]:
    """Complete drafts of all set-ups, best first: aimed at the middle; where nothing is told of those, or nearer their
    limits something is better, with walls there too."""
    is_beaten = False
    for one in merged(every, told, all_drafts):
        if told.best is None and (is_beaten := better_widened(every, told, one.key, one) is not None):
            break
        yield one
    if told.best is None:
        wide = at_walls(every, True)
        yield from merged([*wide, *(jobs for jobs in every if is_beaten and not jobs.widens)], told, all_drafts)


def better_widened(every: Sequence[Jobs], told: Shortlist, under: Key, aimed: Weighed | None) -> Weighed | None:
    """The best draft with some walls nearer their limits than their aim, where it is better than what was `aimed` at
    the middle; where the proof of that doesn't hold, whoever finds that out asks again. Where something is given away
    anyhow, no wall is put near its limit to save money: what does must keep to the drawing."""
    if not (wide := at_walls(every, True)):
        return None
    least = GIVEN_AWAY if told.least is None and under[0] >= GIVEN_AWAY else told.least
    again = Shortlist(least=least, under=under, at_least=told.at_least, new=told.new, widened=True, aimed=aimed,
                      refused=told.refused, holds=told.holds, watch=told.watch)
    return next((one for one in merged(wide, again, False) if one.key < under), None)


def at_walls(every: Sequence[Jobs], is_wide: bool) -> Sequence[Jobs]:
    """The question with walls at their aim, or nearer their limits, where there is any other way then."""
    return [jobs.widened for jobs in every if jobs.widens] if is_wide else every


def merged(every: Sequence[Jobs], told: Shortlist, all_drafts: bool) -> Iterator[Weighed]:
    """The searches of all set-ups, best first; each is gone on with only while nothing elsewhere may be better. What
    one found before another had the best is held to that best too."""
    heap: list[tuple[Key, int, Weighed | None, Iterator[tuple[Key, Weighed | None]]]] = []
    for place, jobs in enumerate(every):
        found = explore(jobs, told, all_drafts)
        heapq.heappush(heap, (_NOTHING_YET if place == 0 else least_key(jobs), place, None, found))
    while heap:
        key, place, weighed, found = heapq.heappop(heap)
        if told.is_over(key):
            return
        if weighed is not None and _is_told(every[place], weighed, told):
            yield weighed
        following = next(found, None)
        while told.any_does and following is not None and following[1] is not None:
            if _is_told(every[place], following[1], told):
                yield following[1]
            following = next(found, None)
        if following is not None:
            heapq.heappush(heap, (following[0], place, following[1], found))


def _is_told(jobs: Jobs, weighed: Weighed, told: Shortlist) -> bool:
    """Whether what came out in a set-up is worth telling."""
    return (jobs.down is not None or not told.is_dear(weighed.key)) and not (
        jobs.aimed and _is_as_good_at_the_aim(jobs, weighed, told))


def _is_as_good_at_the_aim(jobs: Jobs, weighed: Weighed, told: Shortlist) -> bool:
    """Whether the same cutters, or fewer of them, do it with all walls at their aim, and earn no worse a verdict by
    that: minutes are no reason to go near a limit, whatever else there is."""
    if jobs.aimed is None or not is_wider(weighed.draft):
        return False
    ids = {tool.id for tool in weighed.draft.tools}
    if told.does_at_the_aim(jobs.aimed.question, ids, weighed.key):
        return True
    few = replace(jobs.aimed, tools=[tool for tool in jobs.tools if tool.id in ids], known=jobs.aimed, all_discs=None,
                  stepped={})
    for key, other in explore(few, Shortlist(), True):
        if key[:3] > weighed.key[:3]:
            return False
        if other and not told.was_refused(other) and told.holds(other):
            return True
    return False


_NOTHING_YET: Key = (0, False, False, 0.0, 0.0, (), ())


def least_key(jobs: Jobs) -> Key:
    """A key that no plan in this set-up can be better than: whether it may be as drawn, and the minutes to set it up
    and to make the passes of the cutters that are called for."""
    question, shop = jobs.question, jobs.question.shop
    rooms = [_called_for(jobs, room) for room in question.outline.rooms]
    minutes = shop.setup_minutes + question.extra_minutes
    if all(minute is not None for minute in rooms):
        minutes += sum(filter(None, rooms))
    return (int(None in rooms), False, False, 0.0, minutes / 60 * shop.hour_rate, (), ())


def _called_for(jobs: Jobs, room: Room) -> float | None:
    """The fewest minutes in which a cutter that is called for does a room alone; None where there is none."""
    question = jobs.question
    found = []
    for tool in jobs.tools:
        if calls_for(question, room.name, tool):
            passes = jobs.fewest(tool, room)
            if passes < float("inf"):
                found.append(passes * pass_minutes(tool, question.feature.length))
    return min(found, default=None)
