"""What came of it: own times and own holes, and what they change."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crib.handbook.bands import drill_mean, drilled
from crib.machining.own_holes import oversize, own_band
from crib.shop import Own, OwnHole, middle
from tests.cli.conftest import Crib

SLOT = ("make", "slot", "--width", "1/2", "--depth", "1/4", "--material", "mild steel", "--json")
THOU = 0.0254


@pytest.fixture
def bench(begun: Callable[..., Crib]) -> Crib:
    return begun(("take-in", "--kind", "end-mill", "--diameter", "1/2", "--flutes", "4", "--shank", "1/2"),
                 ("take-in", "1/4-20 plug tap hss", "#7 drill"))


def test_a_time_is_the_pace_of_all_that_follows(bench: Crib) -> None:
    before = bench(*SLOT).json["plans"][0]
    bench("result", "time", str(before["minutes"] * 1.5))
    after = bench(*SLOT).json["plans"][0]
    assert after["minutes"] == pytest.approx(1.5 * before["minutes"], rel=1e-3)
    assert any("one job timed here" in text for text in after["assumed"])
    again = bench("result", "time", str(before["minutes"] * 1.1), "--json").json
    assert again["pace"] == pytest.approx(1.3, rel=1e-3) and again["timed"] == 2
    assert bench("result", "time", "9h", "--json").json["pace"] == pytest.approx(1.5, rel=1e-3)


def test_undone_it_is_as_it_was(bench: Crib) -> None:
    before = bench(*SLOT).json["plans"]
    [result] = bench("result", "time", "2:10", "--json").json["results"]
    assert bench(*SLOT).json["plans"] != before
    assert bench("result", "undo", str(result["id"]), "--json").json == {
        "results": [], "pace": 1.0, "timed": 0, "holes": []}
    assert bench(*SLOT).json["plans"] == before


def test_without_a_number_the_last_is_taken_back(bench: Crib) -> None:
    """As `crib undo` does."""
    bench("result", "hole", ".2025", "--drill", "#7")
    first = bench("result", "--json").json["results"]
    bench("result", "hole", ".2026", "--drill", "#7")
    assert bench("result", "undo", "--json").json["results"] == first
    assert bench("result", "undo", "--json").json["results"] == []
    nothing = bench("result", "undo")
    assert nothing.status == 2 and "no result was told so far" in nothing.err


def test_a_hole_replaces_the_handbook_for_its_drill(bench: Crib) -> None:
    """A #7 drill is .2010 (ASME B94.11M); it made .2025."""
    tap = ("tap", "1/4-20", "--material", "brass", "--json")
    handbook = bench(*tap).json["drills"][0]["hole_expected_mm"]
    assert handbook == pytest.approx(0.2010 * 25.4 + drill_mean(0.2010 * 25.4))
    done = bench("result", "hole", ".2025", "--drill", "#7", "--json").json
    assert done["holes"] == [{"drill_mm": 5.1054, "oversize_mm": 0.0381, "count": 1}]
    assert bench(*tap).json["drills"][0]["hole_expected_mm"] == pytest.approx(0.2025 * 25.4)
    assert "from one hole measured here" in " ".join(bench(*tap[:-1]).out.split())
    made = bench("make", "tapped-hole", "--thread", "1/4-20", "--depth", "1/2", "--json").json
    assert any("one hole measured here" in text for plan in made["plans"] for text in plan["assumed"])


def test_a_hole_to_size_goes_by_the_own_band(bench: Crib) -> None:
    """.2010 drilled to .201 to .206: the handbook's mean is .2040; a drill that makes .2080 is out."""
    hole = ("make", "hole", "--diameter", ".201+.005-0", "--depth", "1/2", "--material", "brass", "--json")
    assert bench(*hole).status == 0
    bench("result", "hole", ".2080", "--cutter", "3")
    assert bench(*hole).status == 1


def test_an_assumed_hand_is_no_number(bench: Crib) -> None:
    """A tap read from words has its hand assumed; the answer once failed over it."""
    done = bench("make", "tapped-hole", "--thread", "1/4-20", "--depth", "1/2", "--why")
    assert done.status == 0 and "hand right" in " ".join(done.out.split())


@pytest.mark.parametrize("words", [
    ("time", "0"), ("time", "soon"), ("time", "1:75"), ("time", "nan"), ("time", "90", "--question", "77"),
    ("hole", ".2035"), ("hole", ".2035", "--drill", "7"), ("hole", ".2035", "--drill", "#7", "--cutter", "3"),
    ("hole", "2.035", "--drill", "#7"), ("hole", ".180", "--drill", "#7"), ("hole", ".2035", "--cutter", "1"),
    ("hole", "wide", "--drill", "#7"), ("undo", "99"),
])
def test_nonsense_is_refused_in_a_sentence(bench: Crib, words: tuple[str, ...]) -> None:
    bench(*SLOT)
    done = bench("result", *words, "--json")
    assert done.status == 2 and done.json["error"]["what"] and done.json["error"]["help"]
    assert bench("result").status == 1


def test_no_question_yet(bench: Crib) -> None:
    assert "ask it first" in bench("result", "time", "90").err


@given(st.lists(st.floats(0.1, 10), min_size=1, max_size=9))
def test_the_middle(values: list[float]) -> None:
    """As many above as below; the sorted list's own middle (worked here)."""
    found = middle(values)
    assert sum(v < found for v in values) <= len(values) / 2 >= sum(v > found for v in values)


@given(st.floats(3, 25), st.lists(st.integers(0, 12), min_size=1, max_size=5))
def test_own_holes_of_a_size(drill: float, overs: list[int]) -> None:
    """The band keeps the handbook's breadth and stands about the middle of what was measured."""
    own = Own(holes=tuple(OwnHole(drill, drill + over * THOU) for over in overs))
    over, count, same = oversize(own, drill)
    assert (over, count, same) == (pytest.approx(middle(overs) * THOU), len(overs), True)
    book, mine = drilled(drill), own_band(own, drill)
    for one, other in ((book.usual_mm, mine.usual_mm), (book.careful_mm, mine.careful_mm)):
        assert other[1] - other[0] == pytest.approx(one[1] - one[0])
    assert sum(mine.usual_mm) / 2 == pytest.approx(over)


def test_holes_of_other_sizes_shift_the_handbook() -> None:
    """A spindle that makes every hole .001 larger than the handbook does so for a drill not tried yet (worked here)."""
    own = Own(holes=(OwnHole(6.0, 6.0 + drill_mean(6.0) + THOU),))
    assert oversize(own, 12.0) == (pytest.approx(drill_mean(12.0) + THOU), 1, False)
