"""Every kind that is registered, as far as it is cut down an axis or seen from above: what the proof says of plans,
good and spoilt, is what a grid of cells finds."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from math import isinf
from random import Random

import pytest
from hypothesis import Phase, assume, event, given, note, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.features import KINDS, draw
from crib.features.request import Request
from crib.findings.errors import CribError
from crib.findings.verdicts import ANSWERS
from crib.geometry.layers import Layer
from crib.geometry.operation import Frame, Operation, Work
from crib.geometry.outline import Outline
from crib.geometry.prove import prove
from crib.geometry.region import Region
from crib.geometry.silhouette import Part
from crib.geometry.view import View
from crib.planning.advise import advise, jobs_for
from crib.planning.ask import read_request
from crib.planning.best_plans import best_of
from crib.planning.dialled.finish import Proved
from crib.shop import Shop
from tests.kind_strategies import SEEN, questions, with_ends
from tests.oracle_frames import Body, Found, Leaning, Level, Round, Seen, Stroke, about_an_axis, from_above
from tests.sheets import OWNED
from tests.strategies import brief

ABOUT, ABOVE = 0.05, 0.15
"""Cells of the two grids [mm]."""

DOWN = [name for name, kind in KINDS.items() if draw(read_request(name, kind.example, Shop(), "in")).down is not None]
"""The kinds that are made down an axis."""

def mm(values: Iterable[int]) -> tuple[float, ...]:
    return tuple(value / 1e6 for value in values)


def leaning(region: Region) -> tuple[Leaning, ...]:
    return tuple(mm((slab.low, slab.high, *span)) for slab in region.slabs for span in slab.spans)  # type: ignore[misc]


def levels(layers: Iterable[Layer]) -> tuple[Level, ...]:
    return tuple((one.low / 1e6, one.high / 1e6, mm(one.shape)) for one in layers)  # type: ignore[misc]


def discs(parts: Iterable[Part]) -> tuple[tuple[float, ...], ...]:
    return tuple(mm(part[1:]) for part in parts)


def stroke(one: Operation) -> Stroke:
    body = Body(discs(one.form.sure), discs(one.form.may), discs(one.form.clear))  # type: ignore[arg-type]
    return Stroke(body, one.z / 1e6, tuple((x / 1e6, y / 1e6) for x, y in one.path),
                  None if one.free is None else one.free / 1e6,
                  None if one.start is None else (one.start / 1e6, one.x / 1e6))


def frames(work: Work, operations: tuple[Operation, ...]) -> Iterator[tuple[View, list[int], Found, float]]:
    """Each frame but the section, as the proof has it and as the grid does, with the operations in it."""
    trace = prove(work, operations)
    views = [view for view in trace.views if view.frame is not Frame.SECTION]
    for number, axis in enumerate(work.axes):
        mine = [place for place, one in enumerate(operations) if (one.frame, one.axis) == (Frame.AXIS, number)]
        yield views[number], mine, about_an_axis(rounds(axis), [stroke(operations[i]) for i in mine], ABOUT), ABOUT
    if work.layers:
        mine = [place for place, one in enumerate(operations) if one.path]
        layers = work.layers
        asked = Seen(levels(layers.least), levels(layers.most), levels(layers.before), layers.top / 1e6)
        yield views[-1], mine, from_above(asked, [stroke(operations[i]) for i in mine], ABOVE), ABOVE


def rounds(axis: Outline) -> Round:
    return Round(leaning(axis.stock | axis.obstacles), leaning(axis.least), leaning(axis.most))


def agree(work: Work, operations: tuple[Operation, ...]) -> None:
    """The proof finds what the grid does. From above a pass that crosses from one room into another counts as gouging
    in the proof, and is none: there it may only find more."""
    for view, mine, found, cell in frames(work, operations):
        near = 2 * cell
        note(f"{view.frame} left {view.left / 1e6:.3f} gouge {view.gouge / 1e6:.3f} {found}")
        if work.layers is None or not work.layers.fillet:
            away = view.left / 1e6  # where the grid shows nothing that is gone, that lies beyond its edge
            assert away > 1.0 if isinf(found.left) else abs(away - found.left) <= near, "left"
        assert found.gouge <= view.gouge / 1e6 + near, "gouged"
        if view.frame is Frame.AXIS:
            assert view.gouge / 1e6 <= found.gouge + near
        rubs = {spot.operation for spot in view.rubs}
        assert {mine[at] for at in found.rubs} <= rubs <= {mine[at] for at in found.may_rub}, "rubs"
        assert {mine[at] for at in found.forced} <= set(view.stuck), "forced down"


def best_plan(request: Request, cutters: Sequence[Cutter], shop: Shop) -> Proved | None:
    try:
        return best_of(jobs_for(request, cutters, shop))
    except CribError:
        return None


def spoilt(operations: tuple[Operation, ...], draw_: Random) -> tuple[Operation, ...]:
    """The same with one of them moved a little up or down, along or across; or left out."""
    at = draw_.randrange(len(operations))
    if draw_.random() < 0.25 and len(operations) > 1:
        return operations[:at] + operations[at + 1:]
    x, y, z = (draw_.randrange(-12, 13) * 50_000 for _ in range(3))
    one = operations[at]
    path = tuple((a + x, b + y) for a, b in one.path)
    moves = one.frame is Frame.SECTION or one.goes_round
    moved = one._replace(z=one.z + z, path=path, x=one.x + y if moves else one.x)
    return (*operations[:at], moved, *operations[at + 1:])


def check(kind: str, ends: str, data: st.DataObject) -> None:
    request, cutters, shop = data.draw(questions(kind, 3))
    request = with_ends(request, ends)
    note(brief(request, cutters, shop))
    proved = best_plan(request, cutters, shop) or best_plan(request, OWNED, shop)
    event("a plan" if proved else "no plan")
    assume(proved)
    assert proved
    trace = proved.trace
    assert not trace.work.layers or trace.plan
    agree(trace.work, trace.operations)
    agree(trace.work, spoilt(trace.operations, data.draw(st.randoms(use_true_random=False))))


@pytest.mark.parametrize("kind", DOWN)
def test_about_an_axis(kind: str) -> None:
    """Radii at heights, from trapezoids and cones."""

    @settings(max_examples=6, phases=[Phase.explicit, Phase.generate])
    @given(st.data())
    def compare(data: st.DataObject) -> None:
        check(kind, "open", data)

    compare()


@pytest.mark.parametrize(("kind", "ends"), SEEN)
def test_from_above(kind: str, ends: str) -> None:
    """Discs along their ways at every height."""

    @settings(max_examples=3, phases=[Phase.explicit, Phase.generate])
    @given(st.data())
    def compare(data: st.DataObject) -> None:
        check(kind, ends, data)

    compare()


@pytest.mark.parametrize("kind", DOWN)
def test_no_fewer_cutters_do_better(kind: str) -> None:
    """Nothing that is owned is missed: no set of fewer cutters has a better answer than all of them."""

    @settings(max_examples=6, phases=[Phase.explicit, Phase.generate])
    @given(st.data())
    def compare(data: st.DataObject) -> None:
        request, others, shop = data.draw(questions(kind, 2))
        able = found.plan.cutters if (found := best_plan(request, OWNED, shop)) else ()
        cutters = tuple(one.but(id=number) for number, one in enumerate((*able, *others), start=1))[:5]
        event("a plan" if able else "no plan")
        note(brief(request, cutters, shop))
        whole = advise(request, cutters, shop, most=1).advice
        for keep in range(1, 2 ** len(cutters) - 1):
            some = tuple(one for at, one in enumerate(cutters) if keep >> at & 1)
            part = advise(request, some, shop, most=1).advice
            if part.plans:
                assert whole.plans and ANSWERS.index(whole.answer) <= ANSWERS.index(part.answer), [c.id for c in some]

    compare()
