"""Single cases that the laws have found under flanks, kept so that they stay mended."""

from __future__ import annotations

import pytest

from crib.cutters.base import Cutter
from crib.features.request import Request
from crib.planning.search import steps_first
from crib.planning.search.jobs import Jobs
from crib.planning.search.set_ups import usable
from crib.shop import Shop
from crib.units.angles import Angle
from tests.strategies import around
from tests.unpruned import held_to_every_way, questions_of

MILL = Cutter(1, "end-mill", diameter_mm=2.4, shank_mm=6.0, length_of_cut_mm=8.24, corner_radius_mm=0.0, flutes=4,
              centre_cutting=True, material="hss", condition="sharp", measured=("diameter_mm",))
SHOP = Shop(units="mm", cutter_minutes=0.2, collet_minutes=0.0, touch_minutes=0.3, touch_disc_minutes=0.3,
            warn_chance=0.001)


def dovetail(number: int, across: float, face: float, neck: float, reach: float, angle: float) -> Cutter:
    return Cutter(number, "dovetail-cutter", diameter_mm=across, face_mm=face, neck_mm=neck, reach_mm=reach,
                  shank_mm=6.0, corner_radius_mm=0.0, angle_deg=angle, material="hss", condition="sharp",
                  measured=("diameter_mm",))


def disc(number: int, across: float, face: float, neck: float, reach: float) -> Cutter:
    return Cutter(number, "keyseat-cutter", diameter_mm=across, face_mm=face, neck_mm=neck, reach_mm=reach,
                  shank_mm=6.0, material="hss", condition="sharp", measured=("diameter_mm",))


def asked(width: float, depth: float, angle: float, length: float) -> Request:
    return Request("dovetail", {"width": around(width, 0.0, 0.0), "depth": around(depth, 0.0, 0.0)}, "mild steel",
                   length, angles={"angle": Angle(angle, f"{angle:g}")}, units="mm")


@pytest.mark.parametrize("length", [30.0, 600.0])
def test_a_cutter_as_wide_as_the_floor_does_both_flanks_in_one_pass(length: float) -> None:
    """What its one pass takes of both flanks was held to be metal of each, which a disc before it would have to take:
    the least of such steps was told as eleven times what they cost."""
    request = asked(12.0, 3.0, 45.0, length)
    cutters = (MILL.but(length_of_cut_mm=6.0), dovetail(2, 7.6, 2.12, 1.04, 6.0, 45.0), disc(3, 3.0, 0.88, 0.88, 6.88),
               dovetail(4, 12.0, 3.0, 5.492, 3.8, 45.0).but(shank_mm=4.0, price=60.0))
    [question] = questions_of(request, SHOP, cutters)
    jobs = Jobs(question, usable(question, cutters))
    slot = next(room for room in question.outline.rooms if not room.lean)
    [opened] = {job.removed for job in jobs.clear(jobs.tools[0], slot, question.outline.stock - question.outline.stock)}
    [wide] = [choice for tool in jobs.tools if tool.id == 4 for choice in jobs.of(tool, opened)]
    stepped = [(least, steps_first._stepped(jobs, opened, wide, one, count)) for least, count, one in
               steps_first._discs(jobs, opened, wide, frozenset(), None, float("inf"))]
    assert any(some for _, some in stepped)
    assert all(least <= steps_first._money(question, some) + 1e-6 for least, some in stepped if some)
    held_to_every_way(request, cutters, SHOP)


def test_the_same_cutters_at_the_aim_are_asked_without_anybody_elses_steps() -> None:
    """A plan with the slot near its limits was passed over for one at the aim with another disc's steps, 12.8 of 136.8
    dearer: what had been found of flanks with all discs was taken for what those cutters do."""
    cutters = (MILL, dovetail(2, 8.92, 5.28, 1.021825, 8.24, 55.0), disc(3, 6.0, 2.08, 1.8, 10.32),
               disc(4, 3.32, 1.56, 2.64, 9.8))
    found = held_to_every_way(asked(15.8, 5.24, 55.0, 600.0), cutters, SHOP)
    assert found and [one.id for one in found[0].cutters] == [1, 4, 2]
