"""A part made whole beside its features made one after the other: the whole never takes longer, and each counts what
the other counts."""

from __future__ import annotations

import pytest

from crib.parts.order import order_of
from crib.parts.toml import part_from_toml
from crib.planning.parts.asked import asked_of
from crib.planning.parts.plan import plan_part
from crib.planning.parts.planned import PlannedPart
from crib.shop import Shop
from tests.unit.test_part_done import CUTTERS, TEXT

SLOT = '[[feature]]\nname = "slot {no}"\nkind = "slot"\nwidth = "{width}"\ndepth = "1/8"\nface = "{face}"\nat = "1/2"\n'
FACES = ("top", "front", "bottom")


def whole(text: str) -> PlannedPart:
    """A part of that text with the mills of the block."""
    part, shop = part_from_toml(text, "part.toml").part, Shop(units="in")
    asked = asked_of(part, shop)
    return plan_part(part, asked.requests, order_of(part, asked.drawn), CUTTERS, shop)


def slots(*widths: str) -> str:
    """A bar with a slot of each width in a face of its own."""
    return 'name = "bar"\nstock = "4 x 2 x 1"\nmaterial = "mild steel"\n' + "".join(
        SLOT.format(no=no, width=width, face=face)
        for no, (width, face) in enumerate(zip(widths, FACES, strict=False), start=1))


@pytest.mark.parametrize("widths", [("1/4", "3/8", "1/2"), ("3/8", "3/4"), ("1/2", "1/2"), ("3/4", "1/4", "3/4")])
def test_the_whole_never_takes_longer(widths: tuple[str, ...]) -> None:
    """One feature at a time was told without the minutes that it takes to put another collet in between two of them:
    81 min beside 82 for the whole. Where each feature has a face and a cutter of its own, both are the same."""
    planned = whole(slots(*widths))
    setups, _, cutters, minutes = planned.alone
    assert planned.proven and planned.minutes <= minutes + 1e-9
    if len(set(widths)) == len(widths):
        assert (setups, cutters) == (planned.setup_changes, planned.cutter_changes)
        assert planned.minutes == pytest.approx(minutes)


def test_what_is_saved_is_told_by_the_minutes() -> None:
    planned = whole(TEXT)
    assert planned.minutes < planned.alone[3]
