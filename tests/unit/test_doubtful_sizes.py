"""Sizes that can hardly be meant, and lines of two cutters: told when they are taken in, and beside what is planned
with them. Common practice, no source."""

from __future__ import annotations

from itertools import permutations

import pytest

from crib.cutters import KINDS
from crib.cutters.base import Cutter
from crib.findings.finding import Grade
from crib.intake.build import ask
from crib.intake.shorthand import Shop as Talk
from crib.intake.shorthand import read_line
from crib.intake.unlikely import unlikely
from crib.pages.answer import page
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.rules.sizes import IS_MEANT
from crib.shop import Shop
from tests.shown import shown

SHOP = Shop(collets_mm=(9.525, 25.4), spindle_rpm=(60, 80, 135, 210))
WIDE = Cutter(1, "end-mill", label="2-1/2 mill", diameter_mm=63.5, flutes=4, shank_mm=9.525, length_of_cut_mm=50.0,
              material="hss", condition="sharp")


def first_screen(mill: Cutter) -> str:
    asked = {"width": "2-1/2", "depth": "1/4", "length": "3"}
    return " ".join(" ".join(shown(page(advise(read_request("slot", asked, SHOP, "in"), [mill], SHOP).advice,
                                        more=()))).split())


def test_a_mill_on_a_shank_that_turns_nothing_so_wide_is_asked_about_and_measured_first() -> None:
    """A 2-1/2 end mill on a 3/8 shank was taken in without a word, and a slot planned with it as the right cutter."""
    asked = ask(WIDE)
    assert any(IS_MEANT in one and "2-1/2" in one and "3/8" in one for one in asked.questions)
    assert "on a shank of 3/8: is that meant? Measure first" in first_screen(asked)
    found = advise(read_request("slot", {"width": "2-1/2", "depth": "1/4"}, SHOP, "in"), [asked], SHOP).proved[0]
    assert [one.id for one in found.weighed.warnings if one.grade == Grade.CAUTION] == ["PR1"]


def test_what_is_measured_is_meant() -> None:
    assert not list(unlikely(WIDE.but(measured=("diameter_mm", "shank_mm"))))
    assert not list(unlikely(WIDE.but(shank_mm=25.4)))


@pytest.mark.parametrize("kind", KINDS.values(), ids=lambda kind: kind.name)
def test_no_usual_cutter_is_asked_about(kind) -> None:  # type: ignore[no-untyped-def]
    assert not list(unlikely(kind.example))


SAID = ("1/2 end mill", "3/8 drill", "1/4 reamer", "3/4 dovetail cutter 60 deg", "1/4-20 tap")


@pytest.mark.parametrize(("one", "other"), list(permutations(SAID, 2)))
@pytest.mark.parametrize("joint", [" and a ", ", ", "; ", " & ", " plus one "])
def test_a_line_of_two_cutters_is_held_back_with_how_to_split_it(one: str, other: str, joint: str) -> None:
    """`one cutter at a time; a line for each`, and not where one ends."""
    line = read_line(f"{one}{joint}{other}", Talk())
    assert not line.taken and line.help == f"a line for each: {one!r} and {other!r}", (line.why, line.help)
    assert all(read_line(half, Talk()).taken for half in (one, other))
