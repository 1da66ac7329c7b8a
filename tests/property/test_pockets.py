"""Pockets: plans agree with a brute-force block of cells built from raw numbers, and nothing owned is missed."""

from __future__ import annotations

from math import sqrt

from hypothesis import Phase, event, example, given, note, settings
from hypothesis import strategies as st

from crib.cutters import kind_of
from crib.cutters.base import Cutter
from crib.features.request import Request
from crib.geometry.faces import FINE
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.told.advice import Plan
from crib.shop import Shop
from crib.units import NM
from tests.closed_strategies import closed_cribs, pockets, roughed_pockets
from tests.oracle_closed import NEAR, walk
from tests.property.test_closed_completeness import told_and_best
from tests.property.test_closed_oracle import CLEAR, gets_down, plans_of, raw_passes
from tests.spelt import spelt
from tests.strategies import around, brief, sizes_of
from tests.unit.test_tap_advice import named

EXAMPLES = 15


@settings(max_examples=EXAMPLES, phases=[Phase.explicit, Phase.generate])
@given(st.data())
def test_plans_of_the_planner(data: st.DataObject) -> None:
    """Nothing left but what is told of the corners, nothing gouged, nothing rubbed; every pass gets down as it says."""
    request = data.draw(pockets())
    check(request, plans_of(request, data.draw(closed_cribs(request))))


@settings(max_examples=EXAMPLES, phases=[Phase.explicit, Phase.generate])
@given(st.data())
def test_plans_that_rough_big_and_finish_small(data: st.DataObject) -> None:
    """The same where a bigger mill goes first, and a drill down the corners before it."""
    request, cutters = data.draw(roughed_pockets())
    check(request, plans_of(request, cutters))


MILLS = tuple(named(Cutter(number, "end-mill", diameter_mm=inches * 25.4, shank_mm=12.7, flutes=2, condition="sharp",
                           material="hss", measured=("diameter_mm",), centre_cutting=True))
              for number, inches in enumerate((0.75, 0.5, 0.375, 0.25), 1))


@settings(max_examples=EXAMPLES, phases=[Phase.explicit, Phase.generate])
@given(st.floats(1, 3), st.floats(1.0, 3), st.sampled_from(("1/8", "1/4", "1/2")),
       st.sampled_from(("1/8", "3/16", "1/4")), st.sampled_from(("brass", "mild steel", "6061", "O1")))
@example(1.25, 1.25, "1/4", "1/4", "mild steel")
def test_a_pocket_that_lies_across_is_told_to_be_turned_and_costs_less_so(
        short: float, ratio: float, depth: str, corner: str, metal: str) -> None:
    """Of `1-1/2 x 2-1/2` the first lies along the table, and nobody said that turned it takes fewer and longer
    strips. It is told where that is so and takes less time, and always of one that is twice as long and many
    strips wide, but in a metal fed so slowly that setting a strip is little. Common practice, no source."""
    sides = (f"{short:.3f}", f"{short * ratio + 0.001:.3f}")
    across, along = (advise(read_request("pocket", {"width": wide, "length": long, "depth": depth, "material": metal,
                                                    "corner_radius": corner}, Shop(), "in"), MILLS, Shop()).advice
                     for long, wide in (sides, sides[::-1]))
    assert across.plans and along.plans
    assert not any(one.id == "PK3" for one in along.plans[0].warnings)
    is_told = any(one.id == "PK3" for one in across.plans[0].warnings)
    event(f"told: {is_told}")
    if is_told:
        assert along.plans[0].cost < across.plans[0].cost
    assert is_told or ratio < 2 or short < 2 or metal == "O1"


def check(request: Request, plans: tuple[Plan, ...]) -> None:
    event("plan" if plans else "no plan")
    for plan in plans:
        event("roughed" if "roughed" in spelt(plan.way) else "by one")
        event("its corners drilled" if "corners drilled" in spelt(plan.way) else "corners milled")
        passes = [one for one in plan.passes if one.role != "drill"]
        found = walk(request.kind, sizes_of(request), CLEAR, raw_passes(plan))
        note(f"{brief(request, plan.cutters)} {spelt(plan.way)} {plan.proof!r} {found}")
        told = [one for one in plan.deviations if "corner" in spelt(one.says)]
        waived = max((one.has_mm or 0.0 for one in told), default=0.0)
        event(f"corners told: {bool(told)}")
        if any("come out" in spelt(one.says) for one in told):
            _is_what_the_proof_finds(plan, request)
        assert found.left <= max(NEAR, waived + NEAR)
        assert plan.proof.left_mm <= waived + FINE / NM, "what the proof finds is told"
        assert found.gouge <= NEAR
        assert min(found.slack) > -NEAR
        for number, (one, free) in enumerate(zip(passes, found.down, strict=True)):
            owned = next(cutter for cutter in plan.cutters if cutter.id == one.cutter_id)
            gets_down(one, passes[number - 1] if number else None, kind_of(owned).fill(owned), free, plan)


def _is_what_the_proof_finds(plan: Plan, request: Request) -> None:
    """(r - R)(sqrt 2 - 1) of a mill rounder than the corner, against what the proof finds of a corner at its limit;
    walls that come out wider than they must leave less. On the floor one that is rounded at its end stands off by that
    radius more."""
    radius, most = (plan.cutters[-1].diameter_mm or 0.0) / 2, request.sizes["corner_radius"].hi
    walls = max(size.hi - size.lo for key, size in request.sizes.items() if key in ("width", "length")) / 2
    left = (radius - most) * (sqrt(2) - 1)
    rounded = plan.cutters[-1].corner_radius_mm or 0.0
    assert left - 2 * walls - 0.02 <= plan.proof.left_mm <= (left + rounded) * 1.02 + 0.002
    event("measured")


@settings(max_examples=EXAMPLES, phases=[Phase.explicit, Phase.generate])
@given(st.data())
def test_nothing_is_missed(data: st.DataObject) -> None:
    """Answer and cost of the best plan are those of planning every set of cutters without any bound."""
    request = data.draw(pockets())
    cutters = data.draw(closed_cribs(request))
    note(brief(request, cutters))
    told, best = told_and_best(request, cutters)
    event(str(told and told[0]))
    assert told == best


@settings(max_examples=EXAMPLES, phases=[Phase.explicit, Phase.generate])
@given(st.data())
def test_nothing_is_missed_where_a_bigger_mill_may_go_first(data: st.DataObject) -> None:
    """Every mill that could rough it, and every drill that could go down its corners, one at a time."""
    request, cutters = data.draw(roughed_pockets())
    note(brief(request, cutters))
    told, best = told_and_best(request, cutters)
    event(str(told and told[0]))
    assert told == best


@settings(max_examples=3 * EXAMPLES, phases=[Phase.explicit, Phase.generate])
@given(roughed_pockets(rounder=True))
def test_nothing_is_missed_where_all_are_too_round_for_the_corners(asked: tuple[Request, tuple[Cutter, ...]]) -> None:
    """A mill that leaves corners which an owner might let stand follows a bigger one as one that goes into them
    does."""
    request, cutters = asked
    note(brief(request, cutters))
    told, best = told_and_best(request, cutters)
    event(str(told and told[0]))
    assert told == best


SHORT = (Request("pocket", {"width": around(8.8, 0.0, 0.0), "length": around(9.6, 0.0, 0.0),
                            "depth": around(4.4, 0.0, 0.0), "corner_radius": around(1.8, 0.2, 0.1)}, length=9.6,
                 material="6061", ends="closed"),
         tuple(Cutter(number, "end-mill", f"mill {number}", diameter_mm=wide, corner_radius_mm=0.0, shank_mm=12.0,
                      length_of_cut_mm=tall, flutes=flutes, centre_cutting=number == 2, material="hss",
                      condition="sharp", measured=("diameter_mm",), price=price)
               for number, wide, tall, flutes, price in ((1, 2.4, 5.72, 4, None), (2, 4.2, 5.28, 2, None),
                                                         (3, 4.2, 4.18, 2, 12.0))))
"""Of two mills that could rough it the cheaper one doesn't get down to the floor."""

ROUND = (Request("pocket", {"width": around(10.8, 0.0, 0.0), "length": around(12.6, 0.3, 0.3),
                            "depth": around(3.2, 0.3, 0.3), "corner_radius": around(1.4, 0.2, 0.1)}, length=12.6,
                 material="mild steel", ends="closed"),
         tuple(Cutter(number, "end-mill", f"mill {number}", diameter_mm=wide, corner_radius_mm=0.0, shank_mm=shank,
                      length_of_cut_mm=tall, flutes=flutes, centre_cutting=True, material="hss", condition="used",
                      measured=("diameter_mm",), price=price)
               for number, wide, tall, shank, flutes, price in (
                   (1, 1.6, 3.84, 6.0, 2, 12.0), (2, 7.0, 3.84, 12.0, 4, None), (3, 8.0, 3.2, 6.0, 4, None))))
"""The cheaper one leaves more in the corners than a round of the small one takes: the proof refuses that."""


@settings(max_examples=EXAMPLES, phases=[Phase.explicit, Phase.generate])
@given(roughed_pockets(), st.lists(st.sampled_from((0.85, 0.95, 1.0, 1.3)), min_size=5, max_size=5),
       st.lists(st.sampled_from((6.0, 6.0, 12.0)), min_size=5, max_size=5))
@example(SHORT, [], [])
@example(ROUND, [], [])
def test_nothing_is_missed_where_some_mills_are_short(asked: tuple[Request, tuple[Cutter, ...]], tall: list[float],
                                                      shanks: list[float]) -> None:
    """The cheapest mill that could go first was offered alone, though it left the floor to one that goes round the
    walls; one that makes the floor was never tried."""
    request, cutters = asked
    deep = request.sizes["depth"].mid
    mills = [one for one in cutters if one.kind == "end-mill"]
    short = {one.id: one.but(length_of_cut_mm=round(deep * share, 3), shank_mm=shank)
             for one, share, shank in zip(mills, tall, shanks, strict=False)}
    cutters = tuple(short.get(one.id, one) for one in cutters)
    note(brief(request, cutters))
    told, best = told_and_best(request, cutters)
    assert told == best
