"""What a mill that isn't sharp leaves in a floor's edge is told before its passes are made, and hides no plan."""

from __future__ import annotations

import pytest

from crib.cutters.base import Cutter
from crib.features import draw
from crib.findings.verdicts import Verdict
from crib.machining.floor_edge import leaves_edge
from crib.planning.advise import advise, jobs_for
from crib.planning.ask import read_request, texts_of
from crib.planning.bounds import each_tool
from crib.planning.search.watch import Watch
from crib.shop import Shop

ASKED = (
    ("slot", "--width 3/4+.004-0 --depth 3/8"),
    ("slot", "--width 3/4+.004-0 --depth 3/8 --floor-radius 1/16"),
    ("slot", "--width 3/4 --depth 3/8 --length 3 --ends closed"),
    ("step", "--width 3/4 --depth 1/4"),
    ("pocket", "--width 1-1/2 --length 2-1/2 --depth 1/2 --corner-radius 1/4"),
)


def mill(number: int, diameter: float, corner: float) -> Cutter:
    return Cutter(number, "end-mill", f"no. {number}", diameter_mm=diameter * 25.4, corner_radius_mm=corner * 25.4,
                  shank_mm=diameter * 25.4, length_of_cut_mm=25.4, flutes=4, centre_cutting=True,
                  material="hss", condition="sharp", measured=("diameter_mm",))


MILLS = tuple(mill(number, diameter, corner) for number, (diameter, corner) in enumerate(
    [(0.5, 0.0), (0.5, 1 / 16), (0.5, 0.25), (0.375, 1 / 32), (0.375, 0.0), (0.75, 1 / 8)], start=1))


@pytest.mark.parametrize(("kind", "typed"), ASKED)
def test_no_plan_is_hidden(kind: str, typed: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """The plans are those of a search that isn't told, and found with no more drafts; also where no mill is sharp."""
    request = read_request(kind, texts_of(typed.split()), Shop(), "in")
    for cutters in (MILLS, tuple(one for one in MILLS if one.corner_radius_mm)):
        watches = Watch(), Watch()
        told = advise(request, cutters, Shop(), most_refused=0, watch=watches[0]).advice.plans
        with monkeypatch.context() as patched:
            patched.setattr(each_tool, "leaves_edge", lambda tool, outline, room: False)
            untold = advise(request, cutters, Shop(), most_refused=0, watch=watches[1]).advice.plans
        assert told == untold and told
        assert watches[0].tried <= watches[1].tried


@pytest.mark.parametrize(("kind", "typed"), ASKED)
def test_who_leaves_metal_gives_something_away(kind: str, typed: str) -> None:
    """A mill of which it is told makes no plan as drawn by itself; sharp ones, and where the drawing allows some,
    aren't told of. A corner of 1/16 leaves 1/16 (sqrt 2 - 1) along the diagonal of a square edge; one of 1/32 may lie
    inside a wide band."""
    request = read_request(kind, texts_of(typed.split()), Shop(), "in")
    for one in MILLS:
        jobs = jobs_for(request, (one,), Shop())[0]
        leaves = any(leaves_edge(tool, jobs.question.outline, room) for tool in jobs.tools
                     for room in jobs.question.outline.rooms)
        corner = one.corner_radius_mm or 0.0
        assert leaves == (corner > 0 and not request.floor_radius) or 0 < corner < 1
        plans = advise(request, (one,), Shop(), most_refused=0).advice.plans
        assert not (leaves and plans) or plans[0].answer == Verdict.COMPROMISE


@pytest.mark.parametrize(("kind", "typed"), [
    ("slot", "--width 1/4 --depth 1/2"), ("slot", "--width 1/4 --depth 1/2 --length 2 --ends closed"),
    ("elongated-hole", "--width 1/4 --length 3/4 --depth 1/2"), ("keyseat", "--width 1/4 --depth 1/8 --shaft 1"),
    ("pocket", "--width 1/4 --length 1 --depth 1/2 --corner-radius 1/8")])
def test_between_two_walls_no_radius_is_more_than_half_of_what_lies_there(kind: str, typed: str) -> None:
    """Geometry: a ball of the whole width has half of it. Where more was allowed the rounds of both edges overlapped in
    the section and not from above, so that proofs refused plan after plan, and a change of the drawing took minutes."""
    half, more = (draw(read_request(kind, texts_of(f"{typed} --floor-radius {radius}".split()), Shop(), "in"))
                  for radius in (".125", ".2"))
    assert (more.outline, more.layers) == (half.outline, half.layers)
    room = more.outline.rooms[0].least
    assert more.outline.least.bounds()[1] == room.low and (more.layers is None or more.layers.fillet == room.width // 2)
