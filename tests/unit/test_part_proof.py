"""Operations of a part in what stands: what clears alone and not beside its neighbour is found, and nothing is called
clear that isn't. The raster below knows nothing of the planner: raw sizes of the part, silhouettes, and settings."""

from __future__ import annotations

from random import Random

import numpy as np
import pytest

from crib.cutters.base import Cutter
from crib.parts.order import order_of
from crib.parts.toml import part_from_toml
from crib.planning.parts.asked import asked_of
from crib.planning.parts.plan import plan_part
from crib.planning.parts.planned import PartOperation, PlannedPart
from crib.shop import Shop

INCH = 25.4


def mill(number: int, across: float, cut: float, long: float, shank: float = 0.375) -> Cutter:
    """An end mill [in]."""
    return Cutter(number, "end-mill", diameter_mm=across * INCH, length_of_cut_mm=cut * INCH, shank_mm=shank * INCH,
                  overall_length_mm=long * INCH, flutes=4, material="hss", condition="sharp", centre_cutting=True)


MILLS = (mill(1, 0.25, 0.625, 2.4375), mill(2, 0.25, 0.625, 3.25, 0.25), mill(3, 0.5, 1.0, 3.0, 0.5),
         mill(4, 0.75, 1.625, 3.5, 0.75), mill(5, 0.375, 0.75, 2.5))


def planned(text: str, cutters: tuple[Cutter, ...] = MILLS) -> PlannedPart:
    """A part planned with some cutters."""
    part, shop = part_from_toml(text, "part.toml").part, Shop(units="in")
    asked = asked_of(part, shop)
    assert not asked.faults
    return plan_part(part, asked.requests, order_of(part, asked.drawn), cutters, shop)


LEDGE = """
name = "ledge"
stock = "4 x 3 x 2"
material = "mild steel"
[[feature]]
name = "ledge"
kind = "step"
width = "1"
depth = "1-1/2"
from = "front left"
at = "1"
"""

GROOVE = """
[[feature]]
name = "groove"
kind = "slot"
width = "1/4"
depth = "1/4"
level = "{level}"
at = "{at}"
"""


def test_a_shank_that_clears_alone_meets_the_wall_beside_it() -> None:
    """A short 1/4 mill makes the groove on the top, and not on the ledge, whose wall stands 3/16 beside it."""
    short = (MILLS[0], MILLS[3])
    alone = planned(LEDGE + GROOVE.format(level="0", at="2"), short)
    beside = planned(LEDGE + GROOVE.format(level="1-1/2", at="13/16"), short)
    assert not alone.unmade
    assert [one.feature for one in beside.unmade] == ["groove"]
    assert "meets what stands beside it" in str(beside.unmade[0].advice.says)


def test_a_longer_one_that_goes_by_the_wall_is_taken() -> None:
    """One as thin as the groove and long enough that the spindle stays over the wall."""
    found = planned(LEDGE + GROOVE.format(level="1-1/2", at="1/4"), MILLS)
    assert not found.unmade
    assert {one.cutter.id for one in found.operations if one.feature == "groove"} == {2}


OPENS_INTO = """
name = "opens"
stock = "4 x 2 x 1"
material = "mild steel"
[[feature]]
name = "slot"
kind = "slot"
width = "1/2"
depth = "1/4"
length = "2"
at = "1, 1"
[[feature]]
name = "left"
kind = "step"
width = "1"
depth = "1/2"
runs = "across"
toward = "left"
at = "1"
[[feature]]
name = "right"
kind = "step"
width = "1"
depth = "1/2"
runs = "across"
toward = "right"
from = "front right"
at = "1"
"""


def test_a_slot_that_opens_into_steps_waits_for_them() -> None:
    """Its cutter runs out at both ends; were the steps not there yet, it would run on into metal."""
    found = planned(OPENS_INTO)
    assert not found.unmade
    places = {name: [one.no for one in found.operations if one.feature == name] for name in ("slot", "left", "right")}
    assert max(places["left"] + places["right"]) < min(places["slot"])


def test_an_open_end_in_the_middle_of_the_part_is_found() -> None:
    """Said to be open, it would be cut on into what stays."""
    found = planned(OPENS_INTO.replace('name = "right"', 'name = "far"').replace('length = "2"', 'length = "1-1/2"'))
    assert [one.feature for one in found.unmade] == ["slot"]


CELL = 0.8
"""Millimetres from one sample of metal to the next."""


def _metal(sizes: tuple[float, float, float]) -> np.ndarray:
    axes = [np.arange(CELL / 2, size, CELL) for size in sizes]
    return np.stack([one.ravel() for one in np.meshgrid(*axes, indexing="ij")], axis=1)


def _inside(points: np.ndarray, box: tuple[float, ...]) -> np.ndarray:
    left, front, low, right, back, high = box
    return ((points > (left, front, low)) & (points < (right, back, high))).all(axis=1)


def _met(one: PartOperation, metal: np.ndarray, across: float, surface: float) -> float:
    """How deep what must not touch goes into metal that stands, over all passes along the part's length [mm]."""
    worst = 0.0
    numbers = [told.no - 1 for told in one.passes]
    for number, told in zip(numbers, one.passes, strict=True):
        operation = one.proved.trace.operations[number]
        begin, end = sorted((told.enters_mm or 0.0, told.leaves_mm or 0.0))
        off = np.maximum(np.maximum(begin - metal[:, 0], metal[:, 0] - end), 0.0)
        away = np.hypot(off, metal[:, 1] - across - told.x_mm)
        for part in operation.form.clear:
            low, high = (surface + told.z_mm + at / 1e6 for at in (part.low, part.high))
            level = (metal[:, 2] > low) & (metal[:, 2] < high)
            if level.any():
                worst = max(worst, part.widest / 1e6 - float(away[level].min()))
    return worst


@pytest.mark.parametrize("seed", range(7))
def test_nothing_is_called_clear_that_is_not(seed: int) -> None:
    """Ledges and grooves at random: where each is made, no shank, neck or nose is where metal stands then."""
    random = Random(seed)
    wide, deep = random.choice((8, 12, 16, 20)), random.choice((4, 8, 16, 24))
    at, groove = random.randrange(3, wide - 2), random.choice((2, 4, 6))
    text = LEDGE.replace('width = "1"', f'width = "{wide}/16"').replace('at = "1"', f'at = "{wide}/16"').replace(
        '"1-1/2"', f'"{deep}/16"') + GROOVE.format(level=f"{deep}/16", at=f"{at}/16").replace(
        'depth = "1/4"', f'depth = "{groove}/16"')
    found = planned(text)
    gone = {"ledge": (-1.0, -1.0, 2 * INCH - deep / 16 * INCH, 200.0, wide / 16 * INCH, 100.0),
            "groove": (-1.0, (at - 2) / 16 * INCH, 2 * INCH - (deep + groove) / 16 * INCH, 200.0,
                       (at + 2) / 16 * INCH, 100.0)}
    metal = _metal((4 * INCH, 3 * INCH, 2 * INCH))
    assert "ledge" not in [one.feature for one in found.unmade]
    for one in found.operations:
        if one.feature == "groove":
            standing = metal[~_inside(metal, gone["ledge"]) & ~_inside(metal, gone["groove"])]
            assert _met(one, standing, at / 16 * INCH, 2 * INCH - deep / 16 * INCH) <= 0.0


HOLE = """
[[feature]]
name = "hole"
kind = "hole"
diameter = "1/4"
depth = "1/2"
level = "{level}"
at = "2, {at}"
"""

DRILLS = (
    Cutter(21, "spot-drill", diameter_mm=0.25 * INCH, angle_deg=90.0, shank_mm=0.25 * INCH, flutes=2, material="hss",
           condition="sharp", length_of_cut_mm=0.5 * INCH, overall_length_mm=2.5 * INCH),
    Cutter(22, "drill", diameter_mm=0.25 * INCH, shank_mm=0.25 * INCH, flutes=2, material="hss", condition="sharp",
           length_of_cut_mm=1.5 * INCH, overall_length_mm=2.5 * INCH),
    Cutter(23, "drill", diameter_mm=0.25 * INCH, shank_mm=0.25 * INCH, flutes=2, material="hss", condition="sharp",
           length_of_cut_mm=2.75 * INCH, overall_length_mm=4.0 * INCH),
)


@pytest.mark.parametrize("seed", range(6))
def test_no_chuck_comes_down_into_a_wall(seed: int) -> None:
    """Holes in a ledge's floor, near its wall and far from it: where one is made, nothing of chuck, spindle or drill
    comes down through metal on its way."""
    random = Random(100 + seed)
    wide, deep = random.choice((12, 16, 24)), random.choice((4, 12, 24))
    at = random.randrange(3, wide - 2)
    text = LEDGE.replace('width = "1"', f'width = "{wide}/16"').replace('at = "1"', f'at = "{wide}/16"').replace(
        '"1-1/2"', f'"{deep}/16"') + HOLE.format(level=f"{deep}/16", at=f"{at}/16")
    found = planned(text, (*MILLS, *DRILLS))
    surface, metal = (2 - deep / 16) * INCH, _metal((4 * INCH, 3 * INCH, 2 * INCH))
    standing = metal[~_inside(metal, (-1.0, -1.0, surface, 200.0, wide / 16 * INCH, 100.0))]
    over = standing[standing[:, 2] > surface + 0.2]
    away = np.hypot(over[:, 0] - 2 * INCH, over[:, 1] - at / 16 * INCH)
    for one in found.operations:
        for told in one.passes if one.feature == "hole" else ():
            operation = one.proved.trace.operations[told.no - 1]
            for part in (*operation.form.clear, *operation.form.may):
                through = away[over[:, 2] > surface + (operation.z + part.low) / 1e6]
                assert not through.size or through.min() >= part.widest / 1e6


def test_a_hole_beside_a_high_wall_is_found() -> None:
    """The chuck of a short drill stands as low as the wall is high, and wider than the hole is away from it."""
    drills = DRILLS[:2]
    far = planned(LEDGE + HOLE.format(level="0", at="2"), (MILLS[3], *drills))
    near = planned(LEDGE + HOLE.format(level="1-1/2", at="13/16"), (MILLS[3], *drills))
    assert not far.unmade and [one.feature for one in near.unmade] == ["hole"]


def test_a_search_that_is_stopped_gives_what_it_has(monkeypatch: pytest.MonkeyPatch) -> None:
    """Whoever waits no longer gets the features that were asked till then, in order, and is told of the rest."""
    from crib.planning.parts import known
    from crib.planning.search.watch import Watch

    real, asked_before = known.choices_of, []

    def once(*given: object) -> object:
        if asked_before:
            raise KeyboardInterrupt
        asked_before.append(given)
        return real(*given)  # type: ignore[arg-type]

    monkeypatch.setattr(known, "choices_of", once)
    part, shop, watch = part_from_toml(OPENS_INTO, "part.toml").part, Shop(units="in"), Watch()
    asked = asked_of(part, shop)
    found = plan_part(part, asked.requests, (), MILLS, shop, watch=watch)
    assert watch.stopped and {one.feature for one in found.unmade} >= {"left", "right"}
    assert all("stopped" in str(one.advice.says) for one in found.unmade if one.feature != "slot")
