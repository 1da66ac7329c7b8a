"""Where the passes of a plan lie in the part, on every face and either way round: together they pass over all that
the feature is, so that what is asked of the rest of the part is asked in the right place."""

from __future__ import annotations

from itertools import product
from random import Random

import pytest

from crib.parts.frame import frame_of
from crib.parts.lying import Lying
from crib.parts.part import Face, Part, Place, Placed, Runs, Stock
from crib.parts.solids import run_of
from crib.planning.advise import jobs_for
from crib.planning.parts.abstract import Way
from crib.planning.parts.asked import asked_of
from crib.planning.parts.choices import choices_of
from crib.planning.parts.lies import lies_of
from crib.planning.parts.wanted import Laid, path_of
from crib.shop import Shop
from crib.units import nm
from tests.unit.test_part_done import T_CUTTER
from tests.unit.test_part_proof import MILLS

KEYSEAT = T_CUTTER.but(id=11, kind="keyseat-cutter", diameter_mm=25.4, face_mm=0.125 * 25.4, neck_mm=0.3 * 25.4,
                       reach_mm=1.0 * 25.4)
ASKED = {
    "step": {"width": "3/4", "depth": "1/2"},
    "undercut": {"width": ".250", "depth": ".125"},
    "slot": {"width": "1/2", "depth": "1/4"},
}


@pytest.mark.parametrize("kind", ASKED)
@pytest.mark.parametrize(("face", "runs", "turned"), [*product(Face, Runs, (False, True))])
def test_the_passes_lie_where_the_feature_is(kind: str, face: Face, runs: Runs, turned: bool) -> None:
    """In every set-up in which it may be made."""
    shop = Shop(units="in")
    place = Place(face, *((0.0, 40.0) if runs is Runs.ALONG else (40.0, 0.0)), runs, 0.0, turned)
    placed = Placed("one", kind, ASKED[kind], place)
    part = Part("part", Stock(101.6, 88.9, 76.2), "mild steel", (placed,))
    asked = asked_of(part, shop)
    assert not asked.faults
    seen = set()
    for choice in choices_of(jobs_for(asked.requests["one"], (*MILLS, KEYSEAT), shop), shop, all_of_them=True).choices:
        setup = choice.draft.question.setup.name
        if setup in seen or (choice.draft.question.feature.lying is not None and setup != "upright"):
            continue
        seen.add(setup)
        _check(part, placed, Way(choice, lies_of(part, placed, choice.draft.question)[0]))
    assert seen >= ({"upright", "on its side"} if kind == "step" else {"upright"})


def _check(part: Part, placed: Placed, way: Way) -> None:
    feature, question = way.choice.draft.question.feature, way.choice.draft.question
    laid = Laid(run_of(part.stock, placed.place, feature), feature, placed.place)
    over = question.setup.name == "on its side"
    up = frame_of(part.stock, way.lie.face).out
    assert up == (laid.run.right if over else laid.run.frame.out)
    drawn, turned = question.feature.outline.stock.bounds(), question.outline.stock.bounds()
    dx, dz = (turned[0] - drawn[1], turned[1] - drawn[0]) if over else (0, 0)
    boxes = []
    for one, told in zip(way.choice.proof.trace.operations, way.choice.proof.plan.passes, strict=True):
        corners = path_of(laid, way, one, told)
        run = tuple(sorted((corners[0][0], corners[-1][0])))
        for body in one.form.sure:
            wide, low, high = min(body.radius_low, body.radius_high), one.z + body.low, one.z + body.high
            across, up = (one.x - wide, one.x + wide), (low, high)
            right, out = (tuple(at - dz for at in up), tuple(at - dx for at in across)) if over else (across, up)
            boxes.append(laid.box(run, right, out))  # type: ignore[arg-type]
    random = Random(1)
    for piece in Lying(part, placed, feature).solids:
        low, high = piece.body.bounds
        for _ in range(40):
            point = [nm(random.uniform(a + 0.15, b - 0.15)) for a, b in zip(low, high, strict=True)]
            assert any(all(a <= at <= b for at, (a, b) in zip(point, box, strict=True)) for box in boxes), (
                question.setup.name, point)
