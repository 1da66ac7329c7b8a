"""Laws of choosing and ordering the operations of a part: small ones against every choice and order there is."""

from __future__ import annotations

from itertools import count
from random import Random

from hypothesis import given, settings
from hypothesis import strategies as st

from crib.light.records import replace
from crib.planning.parts.choosing import solved
from crib.planning.parts.problem import Before, Option, Problem, Up, cost_of, obeys
from tests.part_problems import CUTTERS, as_shops_have, best_by_hand, nearest_change, options, problems

_NEAR = 1e-6


@given(problems())
@settings(max_examples=150, deadline=None)
def test_choice_and_order_are_the_best_of_all(problem: Problem) -> None:
    """Every choice and every order, one by one, comes to no less."""
    found = solved(problem)
    best = best_by_hand(problem)
    if found is None:
        assert best == float("inf")
        return
    assert abs(found.cost - best) < _NEAR
    assert found.is_proved
    assert obeys(problem, found.chosen, found.steps)
    assert abs(cost_of(problem, found.chosen, found.steps) - found.cost) < _NEAR


@given(problems(), options(), st.integers(0, 9))
@settings(max_examples=60, deadline=None)
def test_one_more_way_is_never_worse(problem: Problem, option: Option, at: int) -> None:
    """A cutter or a collet more gives a feature one more way."""
    at %= len(problem.features)
    more = (*problem.features[:at], (*problem.features[at], option), *problem.features[at + 1:])
    before, after = solved(problem), solved(replace(problem, features=more))
    assert before is None or (after is not None and after.cost <= before.cost + _NEAR)


@given(problems(), st.integers(0, 9))
@settings(max_examples=60, deadline=None)
def test_a_feature_less_is_never_dearer(problem: Problem, at: int) -> None:
    """What was made without it is no more work."""
    at %= len(problem.features)
    features = (*problem.features[:at], *problem.features[at + 1:])
    left = [Before(one.first - (one.first > at), one.then - (one.then > at), one.last) for one in problem.before
            if at not in (one.first, one.then)]
    before, after = solved(problem), solved(replace(problem, features=features, before=tuple(left)))
    assert before is None or (after is not None and after.cost <= before.cost + _NEAR)


@given(problems(), st.integers(0, 9), st.integers(0, 9))
@settings(max_examples=60, deadline=None)
def test_an_order_that_the_best_keeps_to_anyhow_changes_nothing(problem: Problem, one: int, other: int) -> None:
    """And any other makes it no cheaper."""
    one, other = one % len(problem.features), other % len(problem.features)
    before = solved(problem)
    if before is None or one == other:
        return
    after = solved(replace(problem, before=(*problem.before, Before(one, other))))
    last = max(at for at, step in enumerate(before.steps) if step.feature == one)
    first = min(at for at, step in enumerate(before.steps) if step.feature == other)
    if last < first:
        assert after is not None and abs(after.cost - before.cost) < _NEAR
    assert after is None or after.cost >= before.cost - _NEAR


@given(problems(4), st.integers(0, 40))
@settings(max_examples=60, deadline=None)
def test_the_bound_holds_whenever_the_time_is_over(problem: Problem, patience: int) -> None:
    """However early it is stopped, nothing is better than what it says there can be at the least."""
    turn = count()
    found = solved(problem, lambda: next(turn) > patience)
    best = best_by_hand(problem)
    assert found is None or found.least - _NEAR <= best <= found.cost + _NEAR
    assert found is None or obeys(problem, found.chosen, found.steps)


def test_a_cutter_that_is_up_does_all_that_it_can() -> None:
    """Two slots and a step that one cutter can all do are done with it, though each has one that is quicker alone."""
    slow, quick = [Option((Up("top", CUTTERS[0]),), 12.0)], CUTTERS[1:]
    features = tuple((*slow, Option((Up("top", one),), 11.5)) for one in quick)
    found = solved(Problem(features))
    assert found is not None and found.chosen == (0, 0, 0) and found.cost == 36 + 2


def test_twenty_operations_are_proved_soon() -> None:
    """So many as a part for one evening has; no clock is asked, only how often the search asks for one."""
    for seed in range(6):
        problem = as_shops_have(Random(seed), 10)
        turn = count()
        found = solved(problem, lambda turn=turn: next(turn) > 20_000)  # type: ignore[misc]
        assert found is not None and found.is_proved
        assert found.cost <= nearest_change(problem) + _NEAR
