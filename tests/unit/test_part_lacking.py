"""What a part lacks, what would change most for it, and what a cutter less changes, worked out without asking twice."""

from __future__ import annotations

from functools import partial
from itertools import count
from typing import Any

import pytest

from crib.app.part import lacking
from crib.buying import for_parts
from crib.buying.bench import Bench
from crib.buying.for_parts import AskedPart, one_thing
from crib.cutters.base import Cutter
from crib.findings.message import Message
from crib.parts.order import order_of
from crib.parts.toml import part_from_toml
from crib.planning.parts.asked import asked_of
from crib.planning.parts.known import Known
from crib.planning.parts.lacking import given_in
from crib.planning.parts.plan import plan_part
from crib.planning.parts.planned import PlannedPart
from crib.planning.search import watch as watching
from crib.planning.search.watch import Watch
from crib.shop import Shop
from tests.unit.test_part_done import CUTTERS, TEXT

SHOP = Shop(units="in", collets_mm=(6.35, 9.525, 12.7, 19.05))
PART = part_from_toml(TEXT, "part.toml").part
ASKED = asked_of(PART, SHOP)
ORDER = order_of(PART, ASKED.drawn)


def planned(cutters: tuple[Cutter, ...], known: Known | None = None, shop: Shop = SHOP) -> PlannedPart:
    """The block with some cutters."""
    return plan_part(PART, ASKED.requests, ORDER, cutters, shop, known=known)


def _plain(says: object) -> str:
    return says.template + str(says.facts) if isinstance(says, Message) else str(says)


def test_a_head_that_nothing_makes_lacks_a_cutter() -> None:
    """And the T-slot cutter made for it is what changes most."""
    known, mills = Known(), CUTTERS[:-1]
    found = planned(mills, known)
    assert [one.feature for one in found.unmade] == ["T-slot"]
    assert [(one.what, one.feature) for one in found.lacking] == [("cutter", "T-slot")]
    asked = AskedPart(PART, ASKED.requests, ORDER)
    most = one_thing(asked, found, Bench(mills, SHOP), known, Watch(patience=20.0))
    assert most is not None and most.what == "cutter" and "T-slot" in _plain(most.says)


def test_what_changes_most_does_not_hang_on_the_clock(monkeypatch: pytest.MonkeyPatch) -> None:
    """It was looked for as long as a second and a half went by, so that a slow machine, or one that had been asked
    before and knew some of it, named another thing: so many are tried, of each feature in turn."""
    found, mills = planned(CUTTERS[1:-1]), CUTTERS[1:-1]
    asked, tried = AskedPart(PART, ASKED.requests, ORDER), list[str]()
    with_it = for_parts._with

    def counted(*given: Any) -> PlannedPart:
        tried.append(given[2].offer.label)
        return with_it(*given)

    monkeypatch.setattr(for_parts, "_with", counted)
    most = one_thing(asked, found, Bench(mills, SHOP), Known(), Watch(patience=lacking._PATIENCE))
    fast, tried[:] = list(tried), []
    monkeypatch.setattr(watching, "perf_counter", partial(next, count(0.0, 0.1)))
    monkeypatch.setattr(watching, "thread_time", partial(next, count(0.0, 0.1)))
    known = Known()
    planned(CUTTERS, known)
    again = one_thing(asked, found, Bench(mills, SHOP), known, Watch(patience=lacking._PATIENCE))
    assert again == most is not None and tried == fast and 1 < len(tried) <= 8


def test_a_collet_that_lacks_is_said_to() -> None:
    """Its cutter lies in the drawer."""
    found = planned(CUTTERS, shop=Shop(units="in", collets_mm=(9.525, 19.05)))
    assert "collet" in [one.what for one in found.lacking]


def test_what_would_have_to_be_given_in_is_planned() -> None:
    """A T-slot whose head is too low for the cutter by 5 thou: with that much more it is made."""
    text = TEXT.replace('head-height = "1/4"', 'head-height = ".240+.002-.002"')
    part = part_from_toml(text, "part.toml").part
    asked = asked_of(part, SHOP)
    found = plan_part(part, asked.requests, order_of(part, asked.drawn), CUTTERS, SHOP)
    assert [one.feature for one in found.unmade] == ["T-slot"]
    given = list(given_in(found.unmade, asked.requests, CUTTERS, SHOP, Watch()))
    assert given and given[0].feature == "T-slot" and "head height" in _plain(given[0].says)


@pytest.mark.parametrize("gone", [one.id for one in CUTTERS])
def test_a_cutter_less_is_the_same_asked_anew_or_not(gone: int) -> None:
    """What isn't made with it needs no second look."""
    known = Known()
    planned(CUTTERS, known)
    left = tuple(one for one in CUTTERS if one.id != gone)
    again, anew = planned(left, known), planned(left)
    assert (again.minutes, again.money, again.unmade == anew.unmade) == (anew.minutes, anew.money, True)
    assert [one.key for one in again.operations] == [one.key for one in anew.operations]


def test_the_nearest_is_told_once() -> None:
    """A hole's answer names what came nearest by itself: it was named behind it once more."""
    text = ('name = "plate"\nstock = "4 x 2 x 1/2"\nmaterial = "1018"\n\n[[feature]]\nname = "bolts"\nkind = "hole"\n'
            'diameter = ".281"\ndepth = "1/2"\nthrough = true\nat = "2, 1"\n')
    plate = part_from_toml(text, "plate.toml").part
    asked = asked_of(plate, SHOP)
    drill = Cutter(1, "drill", diameter_mm=0.257 * 25.4, length_of_cut_mm=60.0, overall_length_mm=100.0, flutes=2)
    found = plan_part(plate, asked.requests, order_of(plate, asked.drawn), (drill,), SHOP)
    assert [_plain(one.says).count("nearest is") for one in found.lacking] == [1]
