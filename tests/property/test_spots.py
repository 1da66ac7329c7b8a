"""What nobody reaches, told of one spot after the other: the same as told of all of it, of many cutters."""

from __future__ import annotations

from dataclasses import replace
from random import Random

from hypothesis import event, given, note, settings
from hypothesis import strategies as st

from crib.features import KINDS, draw
from crib.geometry.ever_cleared import never_cleared
from crib.geometry.region import NOTHING, box, union
from crib.machining.metal import metal_of
from crib.planning.ask import read_request, texts_of
from crib.planning.bounds.what_can_go import Told, a_spot
from crib.planning.search.set_ups import shut_of
from crib.shop import Shop
from tests.benchmarks.any_question import RELAX, any_question
from tests.benchmarks.cribs import crib

CRIB = crib(300)
ALONG = sorted(kind for kind in KINDS if draw(read_request(kind, texts_of(
    [one for one in any_question(Random(1), kind)[1:] if one != RELAX]), Shop(), "in")).down is None)


@settings(max_examples=30, deadline=None)
@given(st.sampled_from(ALONG), st.integers(0, 10**6), st.integers(5, 90))
def test_told_by_spots_it_is_what_is_told_of_all(kind: str, seed: int, many: int) -> None:
    """With more or less that may stand; of those who keep to the limits, of whoever is called for, of the able; and
    whatever spots were left when something else was asked."""
    random = Random(seed)
    words = [one for one in any_question(random, kind) if one != RELAX]
    note(" ".join(words))
    request = read_request(kind, texts_of(words[1:]), Shop(), "in")
    for jobs in shut_of(draw(request), metal_of(request, Shop()), Shop(), random.sample(CRIB, many)):
        abilities = jobs.abilities
        waivers = union(waiver.region for waiver in abilities.question.outline.waivers)
        for of_whom in (abilities.loosely, abilities.as_called_for, abilities.together):
            for waived in (NOTHING, waivers) if of_whom else ():
                fresh = replace(of_whom, fewer=None, more={}, told=Told(), reaching=set())
                leave = fresh.leave_more_than(waived)
                event(f"{'more' if leave else 'no more'} is left, told by spots: {'out_of_reach' not in vars(fresh)}")
                left = replace(fresh, more={}, told=Told()).out_of_reach - waived
                assert leave == bool(left)
                for spots in ([a_spot(abilities.question.outline.least)], [a_spot(left)], [left, NOTHING]):
                    known = replace(fresh, more={}, told=Told(), spots=spots)
                    assert known.leave_more_than(waived) == leave


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(("inside-fillet", "round-groove", "slot", *ALONG)), st.integers(0, 10**6), st.integers(5, 60))
def test_who_never_comes_near_a_spot_takes_nothing_of_it(kind: str, seed: int, many: int) -> None:
    """Told of many at once, or of one before all of where it goes: it is what its bodies leave, wherever it is."""
    random = Random(seed)
    words = [one for one in any_question(random, kind) if one != RELAX]
    note(" ".join(words))
    request = read_request(kind, texts_of(words[1:]), Shop(), "in")
    for jobs in shut_of(draw(request), metal_of(request, Shop()), Shop(), random.sample(CRIB, many)):
        together = jobs.abilities.loosely
        left, low, right, high = together.outline.least.bounds()
        for _ in range(4):
            x, z = random.randint(left, right), random.randint(low, high)
            around = box(x, z, x + random.randint(1, right - left), z + random.randint(1, high - low))
            if not (spot := a_spot(together.outline.least & around)):
                continue
            fresh = replace(together, told=Told())
            at_once = {(tool.id, room.name) for tool, room in fresh._near(together.able, spot)}
            for tool, room in together.able:
                far = (tool.id, room.name) not in at_once
                away = far or not fresh._comes_near(tool, room, spot)
                event(f"told of {'many' if far else 'one'}: {'never' if away else 'may be'}")
                if away:
                    bodies = list(fresh._bodies(tool, room, together.outline.most))
                    assert never_cleared(together.outline.keep, bodies, spot) == spot


@given(st.lists(st.tuples(*[st.integers(-50, 50)] * 4), max_size=4))
def test_a_spot_lies_in_what_it_is_of(edges: list[tuple[int, int, int, int]]) -> None:
    """And is something where that is anything."""
    region = union(box(min(a, c), min(b, d), max(a, c), max(b, d)) for a, b, c, d in edges)
    assert not a_spot(region) - region and bool(a_spot(region)) == bool(region)
