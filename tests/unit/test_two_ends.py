"""Double-ended cutters: one item, one number, one place; what cuts is an end, and either may be dull."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.cutters.two_ends import OtherEnd, each_end
from crib.findings.errors import CribError
from crib.intake.life import now
from crib.intake.shorthand import Shop as Spoken
from crib.intake.shorthand import read_line
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.shop import Shop

INCH = 25.4
SHOP = Shop()
SAME: dict[str, Any] = {"flutes": 2, "shank_mm": 9.525, "material": "hss", "length_of_cut_mm": 12.0,
                        "centre_cutting": True, "corner_radius_mm": 0.0}


def end(inches: float, condition: str = "sharp") -> Cutter:
    return Cutter(0, "end-mill", diameter_mm=inches * INCH, condition=condition)


def item(*ends: Cutter, number: int = 7) -> Cutter:
    first = ends[0]
    return Cutter(number, "end-mill", diameter_mm=first.diameter_mm, condition=first.condition, ends=ends, **SAME)


def single(number: int, inches: float, condition: str = "sharp") -> Cutter:
    return Cutter(number, "end-mill", diameter_mm=inches * INCH, condition=condition, **SAME)


def asked(width: float, *cutters: Cutter, material: str = "1018") -> Any:
    texts = {"width": f"{width:.4f}+.003-.003", "depth": ".12", "length": "2", "material": material}
    return advise(read_request("slot", texts, SHOP, "in"), cutters, SHOP).advice


@pytest.mark.parametrize("said, sizes, states", [
    ("3/8 DE end mill, one end dull", (0.375, 0.375), ("unknown", "dull")),
    ("double ended end mill 3/8 one end chipped", (0.375, 0.375), ("unknown", "chipped")),
    ("3/8 double-end em, other end broken", (0.375, 0.375), ("unknown", "chipped")),
    ("3/8 DE end mill one end sharp other end dull", (0.375, 0.375), ("sharp", "dull")),
    ("3/8 DE end mill one end dull, the other sharp", (0.375, 0.375), ("sharp", "dull")),
    ("3/8 DE end mill, dull on one end", (0.375, 0.375), ("unknown", "dull")),
    ("1/4 end mill, one end burnt", (0.25, 0.25), ("unknown", "burnt")),
    ("1/8 3/16 DE 2fl", (0.125, 0.1875), ("unknown", "unknown")),
    ("3/8 DE end mill dull", (0.375, 0.375), ("dull", "dull")),
])
def test_the_state_of_an_end_is_read_off_the_line(said: str, sizes: tuple[float, float], states: tuple[str, str]
                                                  ) -> None:
    (taken,) = read_line(said, Spoken("in")).taken
    ends = taken.cutter.ends
    assert tuple(one.condition for one in ends) == states and taken.cutter.condition == states[0]
    assert tuple((one.diameter_mm or 0.0) / INCH for one in ends) == pytest.approx(sizes)


def test_which_of_two_sizes_is_dull_is_asked() -> None:
    (taken,) = read_line("1/8 3/16 DE 2fl one end dull", Spoken("in")).taken
    assert any("which end is dull" in question for question in taken.cutter.questions)


def test_of_two_ends_of_one_size_the_better_one_cuts() -> None:
    """Dull edges may make no size in metal that hardens where it is rubbed; the other end may."""
    both, dull = item(end(0.375, "dull"), end(0.375, "sharp")), item(end(0.375, "dull"), end(0.375, "dull"))
    plan = asked(0.3765, both, material="304").plans[0]
    assert [one.id for one in plan.cutters] == [7] and "its sharp end" in plan.cutters[0].label
    assert not asked(0.3765, dull, material="304").plans


@settings(max_examples=25)
@given(st.integers(4, 12), st.integers(4, 12), st.floats(0.13, 0.45))
def test_it_does_what_two_cutters_of_its_ends_would(one: int, other: int, width: float) -> None:
    """One plan or none, the same verdict, passes and minutes, under one number."""
    ended = asked(width, item(end(one / 32), end(other / 32)))
    apart = asked(width, single(1, one / 32), *(() if one == other else (single(2, other / 32),)))
    assert ended.answer == apart.answer and len(ended.plans) == len(apart.plans)
    for mine, theirs in zip(ended.plans, apart.plans, strict=True):
        assert {int(each.id) for each in mine.cutters} == {7}
        assert mine.minutes == theirs.minutes
        assert [(each.dial_x_mm, each.dial_z_mm) for each in mine.passes] == [
            (each.dial_x_mm, each.dial_z_mm) for each in theirs.passes]


def test_an_item_is_refused_once() -> None:
    refused = asked(0.100, item(end(0.25), end(0.375))).refused
    assert [int(one.cutter.id) for one in refused] == [7] and "1/4 end" in refused[0].cutter.label


def test_both_ends_are_two_cutters_under_one_number() -> None:
    first, second = each_end([item(end(0.25), end(0.375))])
    assert first.id == 7 and second.id == OtherEnd(7) and first.id != second.id
    assert len({first.id, second.id}) == 2 and f"{second.id}" == "7" and sorted([second.id, first.id])[0] is first.id
    measured = item(end(0.25), end(0.375)).but(measured=("diameter_mm", "shank_mm"))
    assert [one.measured for one in each_end([measured])] == [("diameter_mm", "shank_mm"), ("shank_mm",)]


def test_nothing_is_done_to_cutters_with_one_end() -> None:
    some = [single(1, 0.25), single(2, 0.5)]
    assert each_end(some) is some


@pytest.mark.parametrize("words, states", [
    ("one end dull", ("dull", "sharp")), ("other end chipped", ("sharp", "chipped")),
    ("both ends are dull", ("dull", "dull")), ("the 3/8 end is burnt", ("sharp", "burnt")), ("dull", ("dull", "sharp")),
])
def test_what_became_of_an_end(words: str, states: tuple[str, str]) -> None:
    after = now(item(end(0.25), end(0.375)), words, date(2026, 1, 1), "in", "USD").cutter
    assert tuple(one.condition for one in after.ends) == states and after.condition == states[0]


@pytest.mark.parametrize("words", ["the 1/2 end is dull", "the frob end is dull"])
def test_an_end_that_it_has_not_is_said_so(words: str) -> None:
    with pytest.raises(CribError):
        now(item(end(0.25), end(0.375)), words, date(2026, 1, 1), "in", "USD")


def test_a_cutter_with_one_end_has_no_other() -> None:
    with pytest.raises(CribError) as found:
        now(single(1, 0.25), "other end dull", date(2026, 1, 1), "in", "USD")
    assert "one end" in str(found.value)
