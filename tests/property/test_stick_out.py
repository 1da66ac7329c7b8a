"""How far a mill stands out of its collet: what it bites, what it may hold, what that adds to the chance of scrap. The
numbers are common practice, no source: full bite to 3 diameters, then as the square; over 6 no band under .005."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.handbook.materials import find_material
from crib.machining.question import Question
from crib.machining.tool import Tool
from crib.planning.advise import advise, jobs_for
from crib.planning.ask import read_request
from crib.planning.bounds.abilities import Abilities
from crib.planning.bounds.far_out import all_stand_far_out
from crib.planning.told.advice import Advice
from crib.shop import Shop
from tests.property.test_completeness import bounds_hold

SHOP = Shop(spindle_rpm=(80, 210, 660, 1750), collets_mm=(6.35, 9.525, 12.7))
IN = 25.4


def mill(across: float, flutes: float, overall: float | None) -> Cutter:
    return Cutter(1, "end-mill", label="mill", diameter_mm=across, flutes=2, shank_mm=across, material="hss",
                  length_of_cut_mm=flutes, overall_length_mm=overall, condition="sharp", corner_radius_mm=0.0,
                  centre_cutting=True, measured=("diameter_mm",))


def slot(one: Cutter, limits: str, wall: str = "", depth: str = ".2") -> Advice:
    texts = {"width": f"5/8{limits}", "depth": depth, "length": "4", "material": "grey iron"}
    return advise(read_request("slot", texts | ({"wall": wall} if wall else {}), SHOP, "in"), (one,), SHOP).advice


@given(across=st.sampled_from((6.35, 9.525, 12.7)), reach=st.floats(1.0, 5.0), beyond=st.floats(0.0, 4.0))
@settings(max_examples=40)
def test_a_bite_goes_by_how_far_a_mill_stands_out(across: float, reach: float, beyond: float) -> None:
    """A long mill was told to take light cuts, and its plan took the full bite of a short one."""
    flutes = max(reach * across, 5.5)
    overall = flutes + beyond * IN + 10
    out = max(flutes, overall - 2 * IN) / across
    share = find_material("grey iron").bite_fraction * min(1.0, (3 / out) ** 2)
    for plan in slot(mill(across, flutes, overall), "").plans:
        for one in plan.passes:
            assert (one.role, one.direction) != ("rough", "both") or one.axial_mm <= share * across + 1e-3


@given(across=st.sampled_from((6.35, 9.525, 12.7)), long=st.floats(50.0, 200.0), limits=st.sampled_from(
    ("+.004-0", "+.005-0", "+.010-0", "")), high=st.sampled_from(("", "1.0@.6", "1.5@.6,1.5@-.6")))
@settings(max_examples=30)
def test_far_out_no_close_size_is_held(across: float, long: float, limits: str, high: str) -> None:
    """Neither where the mill is long, nor where it must stand out over what stands beside the work."""
    for plan in slot(mill(across, 16.0, long), limits, high).plans:
        out = [float(dict(one.says.facts)["ratio"]) for one in plan.warnings  # type: ignore[union-attr]
               if one.id in ("RE4", "WA2")]
        assert limits != "+.004-0" or max(out, default=0.0) <= 6


def test_what_forbids_it_is_the_reason() -> None:
    """1.5 in walls on both sides of a slot .375 deep: 1.905 out, 7.6 times 1/4 (geometry)."""
    one = slot(mill(6.35, 16.0, 76.0), "+.004-0", "1.5@.6,1.5@-.6", "3/8")
    assert not one.plans and [refused.id for refused in one.refused] == ["WA2"]
    assert slot(mill(6.35, 16.0, 76.0), "+.005-0", "1.5@.6,1.5@-.6", "3/8").plans


@pytest.mark.parametrize(("wall", "says", "chance"), [("", None, "base"), (".5@.9,.5@-.9", "WA3", "warn"),
                                                    ("1.1@.9,1.1@-.9", "WA2", "overhang")])
def test_a_short_mill_that_must_stand_out_springs_as_a_long_one_does(wall: str, says: str | None, chance: str) -> None:
    """A 1/2 mill that stands out 1 in by itself and 1.5 over a wall: the chance of an overhang counts, as it does where
    its own length makes it stand out so far; up to 3 diameters that of any remark."""
    [plan, *_] = slot(mill(12.7, 16.0, 76.0), "", wall, "3/8").plans
    assert {one.id for one in plan.warnings} & {"WA2", "WA3"} == ({says} if says else set())
    [line] = [line for line in plan.cost_lines if line.what == "chance of scrap"]
    assert ("overhang" in str(line.why)) == (chance == "overhang")


@st.composite
def beside_walls(draw: st.DrawFn) -> tuple[Question, Sequence[Tool]]:
    """A slot between walls that what holds a cutter may have to pass over, with mills that stand out more or less."""
    depth, high = draw(st.floats(0.15, 0.6)), draw(st.floats(0.3, 2.0))
    walls = draw(st.sampled_from(("{h}@.6", "{h}@-.6", "{h}@.5,{h}@-.8", "{h}@.9"))).format(h=f"{high:.3f}")
    texts = {"width": draw(st.sampled_from(("5/8", "5/8+.01-0"))), "depth": f"{depth:.3f}", "wall": walls}
    mills = [mill(draw(st.sampled_from((6.35, 9.525, 12.7))), draw(st.floats(8.0, 40.0)), draw(st.sampled_from((
        None, 60.0, 90.0, 140.0)))).but(id=number + 1) for number in range(draw(st.integers(2, 3)))]
    jobs = jobs_for(read_request("slot", texts | {"length": "4", "material": "grey iron"}, SHOP, "in"), mills, SHOP)[0]
    return jobs.question, jobs.tools


def test_where_all_stand_far_out_all_are_cautioned() -> None:
    """No bound is over what comes out, and where it is told of all at once no plan is without the caution."""
    told: Counter[bool] = Counter()

    @settings(max_examples=60)
    @given(beside_walls())
    def hold(asked: tuple[Question, Sequence[Tool]]) -> None:
        question, tools = asked
        bounds_hold(question, tools)
        abilities = Abilities(question, tools, question.limits)
        told[all_stand_far_out(abilities)] += 1

    hold()
    assert min(told[True], told[False]) >= 5, told
