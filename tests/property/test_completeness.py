"""Nothing owned is missed: the planner's best answer is that of planning every set of up to three cutters, in every
order and with every share of the work, with the same passes, rules and reckoning and no pruning at all.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from hypothesis import assume, event, given, note, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.features import draw as draw_feature
from crib.features.request import Request
from crib.findings.errors import CribError
from crib.geometry.region import Region
from crib.handbook.materials import find_material
from crib.machining.draft import Draft
from crib.machining.methods import clear, is_feasible
from crib.machining.question import Question
from crib.machining.tool import Tool
from crib.machining.words import Manner
from crib.planning.advise import advise
from crib.planning.bounds.abilities import Abilities
from crib.planning.bounds.each_tool import GIVEN_AWAY
from crib.planning.bounds.lower_bounds import Bounds, PartialPlan, Rank
from crib.planning.dialled.finish import finish
from crib.planning.search.search_nodes import SearchNode
from crib.planning.search.set_ups import asked_of, usable
from crib.planning.search.weighed import Weighed, weigh
from crib.rules.surely_sized import never_kept
from crib.shop import Shop
from crib.units import Size
from tests.strategies import REQUESTS, any_of, around, brief, cribs, mm, renumbered, right_for, shops
from tests.unpruned import MOST, Unpruned, every_way, first_found, kindest, known_of, question_of, questions_of, shown


@st.composite
def questions(draw: st.DrawFn, most: int) -> tuple[Request, tuple[Cutter, ...], Shop]:
    """A feature and a crib; in half of them cutters with which it can be made, in a tenth all of them reground and not
    measured since."""
    request = draw(REQUESTS)
    right = draw(right_for(request, 1)) if draw(st.booleans()) else ()
    cutters = draw(st.permutations((*right, *draw(cribs(request, most - len(right))))))
    if draw(st.integers(0, 9)) == 0:
        cutters = [c.but(diameter_mm=None, nominal_mm=c.nominal_mm or c.diameter_mm, reground=True, measured=())
                   for c in cutters]
    shop = draw(shops())
    try:
        draw_feature(request)
    except CribError:
        assume(False)
    return request, renumbered(cutters), shop


def test_nothing_is_missed() -> None:
    """Answer, cost and cutters of the best plan; without a plan, whether measuring could bring one."""
    seen: Counter[str] = Counter()

    @settings(max_examples=200)
    @given(questions(8))
    def compare(asked: tuple[Request, tuple[Cutter, ...], Shop]) -> None:
        request, cutters, shop = asked
        advice = advise(request, cutters, shop).advice
        questions = questions_of(request, shop, cutters)
        best = every_way(questions, usable(questions[0], cutters))
        seen[advice.answer] += 1
        note(brief(*asked))
        note(f"planner: {advice.answer} {[p.way for p in advice.plans[:1]]}; every way: {best and shown(best)}")
        if best:
            plan = first_found(advice.plans, best)
            assert (plan.answer, round(plan.cost, 6), tuple(c.id for c in plan.cutters)) == shown(best)
        else:
            kind = every_way(questions, kindest(questions[0], cutters))
            assert advice.answer == ("measure first" if kind else "cannot")

    compare()
    solved = sum(seen[answer] for answer in ("as drawn", "extra passes", "compromise"))
    assert solved >= seen.total() / 3, seen
    assert all(seen[answer] for answer in ("as drawn", "extra passes", "measure first", "cannot")), seen


@st.composite
def shared_heads(draw: st.DrawFn) -> tuple[Request, tuple[Cutter, ...], Shop]:
    """A head that takes two discs: the reach of one is too short for the floor, the fillet of the other meets the lip
    at the ceiling. With them an end mill, and whatever else is about."""
    throat, height = draw(mm(5, 7)), draw(mm(2.4, 3.6))
    depth, width, face = round(height + 5, 6), round(throat + 4, 6), round(0.68 * height, 2)
    request = Request("t-slot", {
        "throat": around(throat, 0.12, 0.12), "depth": around(depth, 0.12, 0.12),
        "head_width": around(width, 0.2, 0.2), "head_height": around(height, 0.12, 0.12),
    }, draw(any_of("grey iron", "mild steel")))
    short = Cutter(1, "keyseat-cutter", "short", diameter_mm=round(width - 2, 6), face_mm=face, flutes=8,
                   neck_mm=round(throat - 2.6, 6), reach_mm=round(depth - (height - face) + 0.8, 6), shank_mm=12.7,
                   material="hss", condition="sharp", measured=("diameter_mm",))
    stout = short.but(id=2, label="stout", neck_fillet_mm=0.6, reach_mm=round(depth + 4, 6),
                      kind=draw(any_of("keyseat-cutter", "t-slot-cutter")))
    mill = Cutter(3, "end-mill", "mill", diameter_mm=round(throat - 1, 6), length_of_cut_mm=round(depth + 2, 6),
                  flutes=2, shank_mm=6.0, corner_radius_mm=0.0, material="hss", condition="sharp",
                  measured=("diameter_mm",))
    more = draw(cribs(request, 4)) if draw(st.booleans()) else ()
    return request, renumbered(draw(st.permutations((short, stout, mill, *more)))), Shop(units="mm")


def test_nothing_is_missed_where_three_are_needed() -> None:
    """The same where no two cutters can do it but three can."""
    seen: Counter[int] = Counter()

    @settings(max_examples=60)
    @given(shared_heads())
    def compare(asked: tuple[Request, tuple[Cutter, ...], Shop]) -> None:
        request, cutters, shop = asked
        note(brief(*asked))
        plans = advise(request, cutters, shop).advice.plans
        question = question_of(request, shop, cutters)
        best = every_way((question,), usable(question, cutters))
        assert best is not None
        plan = first_found(plans, best)
        seen[len(plan.cutters)] += 1
        assert (plan.answer, round(plan.cost, 6), tuple(c.id for c in plan.cutters)) == shown(best)

    compare()
    assert seen[3] >= seen.total() / 3, seen


@st.composite
def short_mills(draw: st.DrawFn) -> tuple[Request, tuple[Cutter, ...], Shop]:
    """A throat with mills whose stem meets the work about as deep as the head's ceiling may lie, or a little deeper;
    and a disc that takes about as much as the head may be high. With them whatever else is about."""
    throat, height = draw(mm(5, 14)), draw(mm(2.4, 9))
    depth, width = round(height + draw(mm(3, 12)), 6), round(throat + draw(mm(3, 9)), 6)
    request = Request("t-slot", {
        "throat": around(throat, 0.12, 0.12), "depth": around(depth, 0.12, 0.12),
        "head_width": around(width, 0.3, 0.3), "head_height": around(height, 0.4, 0.4),
    }, draw(any_of("grey iron", "mild steel")), ends=draw(any_of("open", "one")))
    shop, known = Shop(units="mm"), ("diameter_mm",)
    lip = depth - height + shop.end_clearance_mm
    over = st.one_of(mm(-0.35, 0.5), mm(0.4, 0.8))
    mill = Cutter(1, "end-mill", diameter_mm=round(throat - draw(any_of(0, 1, 2)), 6), flutes=2,
                  length_of_cut_mm=round(lip + draw(over), 4), corner_radius_mm=0.0, material="hss",
                  shank_mm=round(throat + draw(any_of(2, 3)), 6), condition="sharp", measured=known)
    other = mill.but(id=2, length_of_cut_mm=round(lip + draw(mm(-0.9, 0.3)), 4))
    disc = Cutter(3, "t-slot-cutter", diameter_mm=round(width - draw(any_of(0, 0.1, 1)), 6), flutes=8,
                  face_mm=round(height + draw(mm(-0.1, 0.4)), 4), neck_mm=round(throat - draw(mm(1.8, 3)), 6),
                  reach_mm=round(depth + draw(mm(0, 2)), 6), shank_mm=12.7, material="hss", condition="sharp",
                  measured=known)
    more = draw(any_of((), (other,), tuple(draw(cribs(request, 2)))))
    return request, renumbered(draw(st.permutations((mill, disc, *more)))), shop


def test_nothing_is_missed_where_a_room_is_ended_by_the_next() -> None:
    """A mill whose shank stops it a hair over the throat's floor leaves what the head's disc takes with the head. It
    was thought to take a pass of its own, and where no mill gets all the way down nothing was found at all."""
    seen: Counter[str] = Counter()

    @settings(max_examples=80)
    @given(short_mills())
    def compare(asked: tuple[Request, tuple[Cutter, ...], Shop]) -> None:
        request, cutters, shop = asked
        note(brief(*asked))
        advice = advise(request, cutters, shop).advice
        question = question_of(request, shop, cutters)
        tools = usable(question, cutters)
        best = every_way((question,), tools)
        seen["shared" if best and best.key[2] else "alone" if best else "none"] += 1
        found = first_found(advice.plans, best) if advice.plans and best else None
        assert bool(advice.plans) == bool(best)
        assert (found and (found.answer, round(found.cost, 6), tuple(c.id for c in found.cutters))) == (
            shown(best) if best else None)
        bounds_hold(question, tools)

    compare()
    assert min(seen[way] for way in ("shared", "alone", "none")) >= 2, seen


@settings(max_examples=150)
@given(questions(5))
def test_bounds_are_never_too_high(asked: tuple[Request, tuple[Cutter, ...], Shop]) -> None:
    """What the search reckons with as the least is never more than what comes out, at any point of any plan."""
    check_bounds(*asked)


def check_bounds(request: Request, cutters: tuple[Cutter, ...], shop: Shop) -> None:
    """Try the bounds on every plan that there is for a question."""
    note(brief(request, cutters, shop))
    question = question_of(request, shop, cutters)
    bounds_hold(question, usable(question, cutters))


def bounds_hold(question: Question, tools: Sequence[Tool]) -> None:
    """What is told of the least is never more than what comes out of any plan of these tools."""
    aimed: Bounds | None = None
    for wide in (False, True):
        narrow = aimed.abilities if aimed else None
        abilities = Abilities(question, tools, replace(question.limits, wide=wide), narrow=narrow)
        bounds, together = Bounds(abilities, question), Bounds(abilities, question)
        can = all(together.look(closely, MOST) for closely in range(3))
        event(f"all together leave something: {bool(together.least_verdict)}, what must go: {not can}")
        loose = abilities.loosely.out_of_reach
        event(f"told of those that keep to the limits: {bool(loose)}")
        called = abilities.as_called_for
        event(f"nobody who is called for gets everywhere: {bool(called and called.out_of_reach)}")
        abilities.together.in_vain = 10**6  # else it is told only where many were the last in vain
        known, wider = Beginnings(bounds), Beginnings(Bounds(abilities, question, aimed=aimed))
        aimed = bounds
        for draft in Unpruned(question, tools, wide).drafts(Draft(question)):
            whole = known_of(question).weigh(draft, True)
            if whole.stopped:
                continue
            if not can or whole.key[0] < together.least_verdict:
                assert finish(whole) is None, "what all tools together leave, no proved plan takes"
            if together.least_caution and whole.key[0] < GIVEN_AWAY and not whole.key[1]:
                assert finish(whole) is None, "where all stand too far out, no proved plan is without a caution"
            if loose and (whole.key[0] < GIVEN_AWAY or not question.outline.is_waived(loose)):
                assert finish(whole) is None, "what those leave that keep to the limits, no proved plan takes"
            if called and called.out_of_reach and whole.key[0] == 0:
                assert finish(whole) is None, "what nobody reaches who is called for, no plan makes as drawn"
            is_wider = any(job.manner == Manner.WIDE for job in draft.jobs)
            if is_wider:
                event("walls nearer their limits")
                least_holds(wider.bounds.rank_of_all(whole.key[2]), whole)
            for before in goes(draft):
                tool = next(job.tool for job in draft.jobs[len(before.jobs):] if job.manner != Manner.STEPS_FIRST)
                note(f"{[(j.tool.id, j.room, j.manner) for j in draft.jobs]} then {tool.id}")
                told = known.told(before, tool, whole.key[2])
                if not told.may_take_all:
                    event("what surely leaves something as one of the last two")
                    assert finish(whole) is None, "what one of the last two tools surely leaves, no proved plan takes"
                if not told.may_keep_all:
                    event("with whoever comes last a size is surely missed")
                    assert whole.key[0] >= GIVEN_AWAY or finish(whole) is None, "what the last surely misses is missed"
                least_holds(told.least, whole)
                if is_wider:
                    least_holds(wider.told(before, tool, whole.key[2]).least, whole)
                if part := known.part(before):
                    assert part.key[:5] <= whole.key[:5], "a draft only gets worse as it grows"
                    assert not part.stopped, "what is forbidden stays forbidden"


def least_holds(least: Rank | None, whole: Weighed) -> None:
    """What is told of the least is no more than what comes out."""
    assert least is not None, "a tool that does something is not passed over"
    assert least[:4] <= whole.key[:4]
    assert least <= (*whole.key[:4], whole.key[4] + 1e-6)


class Told(NamedTuple):
    """What is told of a draft that goes on with some tool."""

    may_take_all: bool
    may_keep_all: bool
    least: Rank | None


class Beginnings:
    """What is told of the beginnings that many drafts share, each asked once."""

    def __init__(self, bounds: Bounds) -> None:
        self.bounds = bounds
        self.parts: dict[tuple[int, ...], tuple[Draft, Weighed | None]] = {}
        self.all_told: dict[tuple[tuple[int, ...], int, bool], Told] = {}

    def part(self, before: Draft) -> Weighed | None:
        """A draft that isn't whole, weighed; None where it has no jobs yet."""
        place = tuple(map(id, before.jobs))
        if place not in self.parts:  # with the draft, so that its jobs stay and no other has their place
            self.parts[place] = before, known_of(before.question).weigh(before, False) if before.jobs else None
        return self.parts[place][1]

    def told(self, before: Draft, tool: Tool, shared: bool) -> Told:
        """Whether the tool and one more may take all that is left, and the least of the draft with it: None where it
        isn't listed."""
        place = tuple(map(id, before.jobs)), tool.id, shared
        if place not in self.all_told:
            part, bounds = self.part(before), self.bounds
            so_far = part.so_far if part else PartialPlan(before, bounds.start)
            nodes = SearchNode(so_far, None, shared, set()).listings(bounds)
            found = next((replace(node, place=place) for node in nodes
                          for place, one in enumerate(node.listed or ()) if tool in (one.tool, *(
                              twin.tool for twin in one.twins))), None)
            least = bounds.rank(so_far.least, found.to_come(bounds)) if found else None
            takes, keeps = (bounds.may_take_all(before, tool, under) for under in (None, GIVEN_AWAY))
            self.all_told[place] = Told(takes, keeps, least)
        return self.all_told[place]


@given(questions(3), st.booleans())
def test_what_could_clear_a_room_does(asked: tuple[Request, tuple[Cutter, ...], Shop], wide: bool) -> None:
    """What is told of a tool without making its passes is what its passes come to, where nobody was in the room."""
    request, cutters, shop = asked
    note(brief(*asked))
    question = question_of(request, shop, cutters)
    what_could_does(question, usable(question, cutters), wide)


def what_could_does(question: Question, tools: Sequence[Tool], wide: bool) -> None:
    """What is told of each tool and room is what the passes come to."""
    outline, limits = question.outline, replace(question.limits, wide=wide)
    begun = [(room, job.removed) for tool in tools for room in outline.rooms
             for job in clear(tool, outline, room, Region(), limits)]
    for other, removed in [(None, Region()), *begun]:
        for tool in tools:
            for room in outline.rooms:
                told = is_feasible(tool, outline, room, removed, limits)
                if told is None or room is other or outline.is_waived(outline.rest(room, removed)):
                    continue
                jobs = clear(tool, outline, room, removed, limits)
                done = any(outline.is_waived(outline.rest(room, job.removed)) for job in jobs)
                event(f"could: {told}")
                assert told == done, (tool.id, room.name)


@st.composite
def narrow_limits(draw: st.DrawFn) -> tuple[Request, tuple[Cutter, ...], Shop]:
    """A feature of one room, one of its sizes with limits about as near to each other as a way of cutting holds."""
    kind = draw(st.sampled_from(["slot", "step", "slit"]))
    width, depth = draw(mm(3, 12)), draw(mm(2, 8))
    band = draw(st.sampled_from([0.002, 0.005, 0.0125, 0.02, 0.03]))
    sizes = {"width": around(width, 0.1, 0.1), "depth": around(depth, 0.1, 0.1)}
    key = draw(st.sampled_from(["width", "width", "depth"]))
    sizes[key] = around({"width": width, "depth": depth}[key], band, band)
    request = Request(kind, sizes, "mild steel")
    mill = Cutter(1, "end-mill", diameter_mm=round(width - draw(st.sampled_from([0, 0.01, 0.02, 1])), 6), flutes=4,
                  length_of_cut_mm=depth + 4, shank_mm=12.0, corner_radius_mm=0.0, material="hss", condition="sharp",
                  measured=("diameter_mm",))
    return request, renumbered((mill, *draw(cribs(request, 3)))), Shop(units="mm", dro=draw(st.booleans()))


def test_what_nothing_keeps_every_plan_misses() -> None:
    """A size that is told to be missed whatever is owned is missed by every plan, and no tool opens a room to size."""
    seen: Counter[bool] = Counter()

    @settings(max_examples=80)
    @given(narrow_limits())
    def hold(asked: tuple[Request, tuple[Cutter, ...], Shop]) -> None:
        request, cutters, shop = asked
        note(brief(*asked))
        for jobs in asked_of(draw_feature(request), find_material(request.material), shop, cutters):
            never = set(never_kept(jobs.question))
            seen[bool(never)] += 1
            for wide in (False, True):
                for draft in Unpruned(jobs.question, jobs.tools, wide).drafts(Draft(jobs.question)):
                    whole = weigh(draft, True)
                    missed = sum(one.id == "G12" for one in whole.deviations)
                    assert missed >= len(never), [(job.tool.id, job.manner) for job in draft.jobs]
                    assert not never or whole.answer == "compromise" or whole.stopped
            if never:
                assert not any(jobs._is_usable(tool, room) for tool in jobs.tools
                               for room in jobs.question.outline.rooms)

    hold()
    assert min(seen[True], seen[False]) >= 10, seen


def test_a_draft_only_gets_worse() -> None:
    """A chipped disc that roughs the head doesn't count against the plan once the right one has ended it."""
    sizes = {"throat": (5.88, 6.16), "depth": (5.48, 5.52), "head_width": (8.6, 8.6), "head_height": (1.68, 1.84)}
    request = Request("t-slot", {key: Size((lo + hi) / 2, lo, hi, key) for key, (lo, hi) in sizes.items()},
                      "mild steel", hours=6.0)
    chipped = Cutter(2, "t-slot-cutter", diameter_mm=5.72, face_mm=1.84, neck_mm=3.14, neck_fillet_mm=0.2,
                     reach_mm=9.32, shank_mm=6.35, condition="chipped", material="hss", measured=("diameter_mm",))
    right = Cutter(3, "t-slot-cutter", diameter_mm=8.6, face_mm=1.84, neck_mm=5.32, reach_mm=7.52, shank_mm=6.0,
                   condition="sharp", material="hss", measured=("diameter_mm",))
    mill = Cutter(1, "end-mill", diameter_mm=6.02, length_of_cut_mm=7.52, shank_mm=6.0, condition="sharp",
                  material="hss", flutes=2, measured=("diameter_mm",))
    shop = Shop(units="mm", neck_clearance_mm=0.0, end_clearance_mm=0.0)
    question = question_of(request, shop, (mill, chipped, right))
    drafts = list(Unpruned(question, usable(question, (mill, chipped, right)), False).drafts(Draft(question)))
    assert any(len(draft.tools) == 3 for draft in drafts)
    for draft in drafts:
        for before in goes(draft):
            assert not before.jobs or weigh(before, False).key[:4] <= weigh(draft, True).key[:4]


def goes(draft: Draft) -> Iterator[Draft]:
    """The draft before each of its cutters goes to work."""
    for place, job in enumerate(draft.jobs):
        before = draft.jobs[place - 1] if place else None
        if before is None or (before.tool.id != job.tool.id and before.manner != Manner.STEPS_FIRST):
            yield Draft(draft.question, draft.jobs[:place])
