"""What to measure, beside measuring everything in the mind: every set of cutters at its kindest, asked one by one."""

from __future__ import annotations

from functools import cache
from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st

from crib.cutters import kind_of
from crib.cutters.base import Cutter
from crib.features.request import Request
from crib.findings.verdicts import ANSWERS
from crib.planning.advise import advise
from crib.planning.to_mic import Pending, to_mic
from crib.shop import Shop
from tests import strategies


def verdict(request: Request, cutters: list[Cutter], shop: Shop) -> int:
    plans = advise(request, cutters, shop).advice.plans
    return ANSWERS.index(plans[0].answer) if plans else len(ANSWERS)


def measured(cutters: tuple[Cutter, ...], numbers: tuple[int, ...]) -> list[Cutter]:
    """The cutters with what isn't known of some of them at its kindest."""
    return [one.but(**{ask.key: ask.kindest for ask in kind_of(one).unknowns(one)}) if one.id in numbers else one
            for one in cutters]


@st.composite
def benches(draw: st.DrawFn) -> tuple[list[Request], tuple[Cutter, ...], Shop]:
    """Two questions of one sort and few cutters, of which some aren't known well."""
    request = draw(strategies.t_slots())
    other = draw(st.one_of(st.just(request), strategies.t_slots(), strategies.slots()))
    cutters = list(draw(strategies.cribs(request, most=4)))
    right = draw(strategies.right_for(request, 1))
    gone = draw(st.sampled_from([("neck_mm",), ("neck_mm", "reach_mm"), ("reach_mm",)]))
    vague = [one.but(**dict.fromkeys(gone)) if one.face_mm else one for one in right]
    return [request, other], strategies.renumbered([*cutters, *vague]), draw(strategies.shops())


@settings(max_examples=15)
@given(bench=benches(), most=st.integers(1, 2))
def test_no_other_measurements_turn_more(bench: tuple[list[Request], tuple[Cutter, ...], Shop], most: int) -> None:
    requests, cutters, shop = bench
    found = to_mic([Pending(number, one) for number, one in enumerate(requests, 1)], cutters, shop, most)
    unknown = [one.id for one in cutters if kind_of(one).unknowns(one)]

    @cache
    def asked(place: int, numbers: tuple[int, ...]) -> int:
        return verdict(requests[place], measured(cutters, numbers), shop)

    def turned(numbers: tuple[int, ...]) -> list[int]:
        first = [requests.index(one) for one in requests]  # both may be the same
        return [place for place, alike in enumerate(first, 1) if asked(alike, numbers) < asked(alike, ())]

    tries = [some for size in range(most + 1) for some in combinations(unknown, size)]
    best = max(len(turned(some)) for some in tries)
    chosen = tuple(sorted(one.cutter.id for one in found.measures))
    assert len(found.turned) == best
    assert sorted(found.turned) == turned(chosen)
    assert len(chosen) <= most and all(one.turns and one.asks for one in found.measures)


@settings(max_examples=15)
@given(bench=benches())
def test_a_threshold_is_where_the_answer_turns(bench: tuple[list[Request], tuple[Cutter, ...], Shop]) -> None:
    """On the one side of it the question turns; on the other, by a little more than the step of the page, the cutters
    that turn it there don't."""
    requests, cutters, shop = bench
    found = to_mic([Pending(number, one) for number, one in enumerate(requests, 1)], cutters, shop)
    for one in found.measures:
        for turn in one.turns:
            request = requests[turn.number - 1]
            now = verdict(request, list(cutters), shop)
            kind = measured(cutters, (one.cutter.id, *turn.beside))
            for at in turn.at:
                assert at.mm is not None or at.key in ("diameter_mm", "face_mm", "reach_mm", "length_of_cut_mm")
                if at.mm is None:
                    continue
                def at_size(mm: float, key: str = at.key, number: int = one.cutter.id,
                            kind: list[Cutter] = kind) -> list[Cutter]:
                    return [each.but(**{key: mm}) if each.id == number else each for each in kind]

                there = at_size(at.mm)
                assert verdict(request, there, shop) < now
                plan = advise(request, kind, shop).advice.plans[0]
                beyond = at_size(at.mm - (0.03 if at.more else -0.03))
                few = [each for each in beyond if each.id in {used.id for used in plan.cutters}]
                assert verdict(request, few, shop) >= now
