"""Changes of a drawing of which it is told before any draft is made that nothing better comes of them: held to asking
each from nothing."""

from __future__ import annotations

from math import inf
from random import Random

from hypothesis import event, given, note, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.features import draw
from crib.features.request import Request
from crib.findings.errors import CribError
from crib.findings.verdicts import ANSWERS, Verdict
from crib.machining.metal import metal_of
from crib.machining.methods import can_try, never_ends, pass_bounds, ways
from crib.planning.advise import better_plan, jobs_for, opened_to_beat, still_to_beat
from crib.planning.ask import read_request, texts_of
from crib.planning.best_plans import best_of
from crib.planning.changed import DrawingChanges
from crib.planning.relax import changed_to
from crib.planning.search.set_ups import Readied, shut_of
from crib.planning.search.watch import Watch
from crib.shop import Shop
from tests.benchmarks.any_question import RELAX, any_question
from tests.property.test_spots import ALONG, CRIB

SHOP = Shop()


def asked(kind: str, random: Random) -> Request:
    """A question of a kind."""
    words = [one for one in any_question(random, kind) if one != RELAX]
    note(" ".join(words))
    return read_request(kind, texts_of(words[1:]), SHOP, "in")


def verdict_of(request: Request, cutters: list[Cutter]) -> Verdict | None:
    """What comes of it, asked from nothing; None where that takes too long to be told."""
    watch = Watch(patience=5.0)
    best = best_of(jobs_for(request, cutters, SHOP), watch)
    return None if watch.ran_out else best.plan.answer if best else Verdict.CANNOT


@settings(max_examples=50, deadline=None)
@given(st.sampled_from(("inside-fillet", "pocket", "t-slot", *ALONG)), st.integers(0, 10**6), st.integers(20, 150))
def test_what_is_told_to_be_no_better_is_none(kind: str, seed: int, many: int) -> None:
    """Whatever was kept from the changes before it, and whoever made these; and what is told to be better is as good
    as from nothing."""
    random = Random(seed)
    request, cutters = asked(kind, random), random.sample(CRIB, many)
    than, readied = verdict_of(request, cutters), Readied()
    if than in (None, Verdict.AS_DRAWN):
        return
    drawn = draw(Request(**{**vars(request), "material": metal_of(request, SHOP).name}))
    changes = DrawingChanges(request, cutters, SHOP, than, Watch())
    for _ in range(4):
        key = random.choice([*request.sizes, "floor_radius"])
        before = request.floor_radius if key == "floor_radius" else request.sizes[key].nominal
        owned = [one for cutter in cutters for one in (cutter.diameter_mm, cutter.face_mm, cutter.corner_radius_mm)
                 if one and before / 2 < one < 2 * before]
        by_share = before * random.choice((0.8, 0.95, 1.05, 1.25)) or random.uniform(0.1, 2.0)
        try:
            changed = changed_to(request, key, round(random.choice((by_share, *owned)), 4))
            every = still_to_beat(opened_to_beat(changed, cutters, SHOP, than, readied, drawn), than)
            verdict = verdict_of(changed, cutters)
        except CribError:
            continue
        if verdict is None:
            continue
        is_better = ANSWERS.index(verdict) < ANSWERS.index(than)
        event(f"{'asked further' if every else 'told early'}, better: {is_better}")
        assert every or not is_better
        assert bool(changes.asked(changed)) == is_better
        better = better_plan(changed, cutters, SHOP, than, readied)
        assert (better is not None) == is_better and (better is None or better.answer == verdict)


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(ALONG), st.integers(0, 10**6), st.integers(5, 60))
def test_ways_that_arent_counted_are_those_that_are(kind: str, seed: int, many: int) -> None:
    """In manner, levels and what makes the walls, whether they are any passes, and whether they do all of a room."""
    random = Random(seed)
    request = asked(kind, random)
    for jobs in shut_of(draw(request), metal_of(request, SHOP), SHOP, random.sample(CRIB, many)):
        for narrow in (jobs, jobs.widened) if jobs.widens else (jobs,):
            for room in jobs.question.outline.rooms:
                for tool in jobs.tools:
                    both = [[(one.manner, one.levels, one.own_size, one.stepped, bool(one.passes), one.helped)
                             for one in of(tool, jobs.question.outline, room, narrow.limits)]
                            for of in (ways, pass_bounds)]
                    event(f"ways: {len(both[0])}")
                    assert both[0] == both[1]


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(("inside-fillet", *ALONG)), st.integers(0, 10**6), st.integers(5, 60))
def test_who_never_ends_a_room_has_no_way_that_does(kind: str, seed: int, many: int) -> None:
    """Told before its limits are: none clears all of it, nor leaves no more than what is gone with another."""
    random = Random(seed)
    request = asked(kind, random)
    for jobs in shut_of(draw(request), metal_of(request, SHOP), SHOP, random.sample(CRIB, many)):
        outline = jobs.question.outline
        for room in outline.rooms:
            for tool in jobs.tools:
                if can_try(tool, room) and never_ends(tool, outline, room, jobs.limits):
                    found = ways(tool, outline, room, jobs.limits)
                    event(f"{kind}: never, {'in part' if found else 'not at all'}")
                    assert not any(one.helped or one.passes < inf for one in found)
