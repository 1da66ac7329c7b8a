"""What is told of a pocket before it is searched hides no plan: whose corners stay, and where nobody gets in who makes
a size."""

from __future__ import annotations

from dataclasses import replace
from math import hypot

from hypothesis import Phase, assume, event, given, note, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.features import draw as draw_feature
from crib.features.request import Request
from crib.findings.errors import CribError
from crib.geometry.layers import Layers
from crib.handbook.materials import find_material
from crib.machining.ends import corners_stay
from crib.machining.methods import stands_in
from crib.machining.methods.base import Stand
from crib.machining.question import Question
from crib.machining.tool import Tool
from crib.planning.advise import advise
from crib.planning.search.jobs import Jobs
from crib.planning.search.set_ups import opened, usable
from crib.setups.upright import SETUP
from crib.shop import Shop
from tests.closed_strategies import STEP, closed_cribs, closed_slots, pockets, roughed_pockets
from tests.property.test_closed_completeness import told_and_best
from tests.strategies import any_of, around, brief, mm


@st.composite
def poor_cribs(draw: st.DrawFn) -> tuple[Request, tuple[Cutter, ...]]:
    """Pockets and closed slots with mills that are short, that have wide shanks, or that may only rough, and now and
    then a disc."""
    if draw(st.booleans()):
        request, cutters = draw(roughed_pockets())
    else:
        request = draw(st.one_of(pockets(), closed_slots()))
        cutters = draw(closed_cribs(request))
    deep, poor = request.sizes["depth"].nominal, []
    for one in cutters:
        if one.kind == "end-mill":
            one = one.but(condition=draw(any_of("sharp", "sharp", "sharp", "chipped")),
                          length_of_cut_mm=round(deep * draw(any_of(0.5, 0.8, 1.2, 1.2, 1.2)), 6),
                          shank_mm=draw(any_of(6.0, one.diameter_mm or 6.0, 8.0)))
        poor.append(one)
    if draw(st.integers(0, 3)) == 0:
        wide = draw(mm(2.0, round(request.sizes["width"].nominal - 0.6, 6), STEP))
        poor.append(Cutter(20, "keyseat-cutter", "keyseat cutter 20", diameter_mm=wide, face_mm=2.0, flutes=6,
                           neck_mm=round(wide / 3, 6), reach_mm=20.0, shank_mm=6.0, material="hss", condition="sharp",
                           measured=("diameter_mm",)))
    return request, tuple(poor)


def jobs_of(request: Request, cutters: tuple[Cutter, ...]) -> Jobs:
    material = find_material(request.material)
    try:
        feature = draw_feature(replace(request, material=material.name))
    except CribError:
        assume(False)
    question = Question(feature, Shop(), material, SETUP)
    return opened(Jobs(question, usable(question, cutters)))


@settings(max_examples=40, phases=[Phase.explicit, Phase.generate])
@given(poor_cribs())
def test_nothing_is_missed(asked: tuple[Request, tuple[Cutter, ...]]) -> None:
    """The best plan is that of planning every set of cutters without any bound."""
    note(brief(*asked))
    told, best = told_and_best(*asked)
    if told is None:
        jobs = jobs_of(*asked)
        event("not told before" if jobs.abilities.can_be else "told before")
        event(f"its corners stay: {jobs.abilities.ever_leave_corners}")
    assert told == best


@settings(max_examples=60, phases=[Phase.explicit, Phase.generate])
@given(poor_cribs())
def test_corners_that_stay_stay(asked: tuple[Request, tuple[Cutter, ...]]) -> None:
    """Place by place: where corners are told to stay, bodies put wherever they fit and their method may put them leave
    something there."""
    request, cutters = asked
    note(brief(*asked))
    jobs = jobs_of(request, tuple(one for one in cutters if one.kind != "drill"))
    layers, outline = jobs.question.layers, jobs.question.outline
    assert layers is not None
    if request.kind != "pocket":
        return
    mills = [tool for tool in jobs.tools if tool.form.radius <= layers.corners["pocket"].waived]
    stay = corners_stay(jobs.question.but(roughers=()), jobs.limits, mills, outline.most)
    event(f"stay: {stay}")
    if stay:
        stands = {tool.id: stands_in(tool, outline, outline.rooms[0], jobs.limits, outline.most) for tool in mills}
        assert any(not any(reaches(tool, *point, layers, one) for tool in mills for one in stands[tool.id])
                   for point in wanted(layers))


def wanted(layers: Layers) -> list[tuple[int, int, int]]:
    """Points of what must go whatever an owner lets stand: at some heights over the floor, as high as a fillet may
    stand there, some in the last quarter of what the fillet leaves."""
    found, [must] = list[tuple[int, int, int]](), layers.must
    fillet = max(layers.fillet, layers.waived)
    for k in range(9):
        up = min(must.high - must.low - 1, fillet * k // 8)
        rest = fillet - up
        inset = fillet - round((fillet**2 - rest**2) ** 0.5) if rest > 0 else 0
        radius = max(0, must.shape.radius - inset)
        less = max(0, inset - must.shape.radius)
        x, y = must.shape.right - less, must.shape.high - less
        found += [(x + round(radius * a), y + round(radius * b), must.low + up) for a, b in (
            (0.0, 0.0), (0.7, 0.7), (0.5, 0.8), (0.8, 0.5))]
        found += [(x + radius - 1, must.shape.low + (y - must.shape.low) * k // 6, must.low + up) for k in range(7)]
    return found


def reaches(tool: Tool, x: int, y: int, z: int, layers: Layers, stand: Stand) -> bool:
    """Whether it takes a point from some place on a grid round it where all of it that is under the surface fits into
    what may go."""
    if z < stand.low:
        return False
    [most], teeth = layers.most, max(part.widest for part in tool.form.sure)
    out = max((part.widest + part.side for part in (*tool.form.may, *tool.form.clear)
               if z + part.low - part.end < layers.top), default=0)
    room, steps = most.shape, 24
    for i in range(-steps, steps + 1):
        for j in range(-steps, steps + 1):
            at = x + teeth * i // steps, y + teeth * j // steps
            if hypot(at[0] - x, at[1] - y) <= teeth and stand.left <= at[1] <= stand.right and _fits(
                    at, out, room.left - room.radius, room.low - room.radius, room.right + room.radius,
                    room.high + room.radius, room.radius):
                return True
    return False


def _fits(at: tuple[int, int], out: int, left: int, low: int, right: int, high: int, corner: int) -> bool:
    """Whether a round fits into a rectangle with round corners."""
    x, y = at
    if not (left + out <= x <= right - out and low + out <= y <= high - out):
        return False
    aside, up = max(left + corner - x, x - right + corner, 0), max(low + corner - y, y - high + corner, 0)
    return not (aside and up) or hypot(aside, up) + out <= corner or corner <= out


def test_the_mill_that_goes_deeper_may_go_first() -> None:
    """What was cheaper hid what goes first from a mill that stops over the floor, though it stops there as well; and so
    did the mill's own time, though alone it makes nothing: there was no plan, and one with the dearer."""
    def mill(number: int, across: float, shank: float, flutes: int, price: float | None) -> Cutter:
        return Cutter(number, "end-mill", f"end mill {number}", diameter_mm=across, corner_radius_mm=0.0,
                      length_of_cut_mm=4.56, shank_mm=shank, flutes=flutes, centre_cutting=True, material="hss",
                      condition="sharp", measured=("diameter_mm",), price=price)

    sizes = {"width": around(10.0, 0.0, 0.0), "length": around(11.2, 0.0, 0.0), "depth": around(3.8, 0.0, 0.0),
             "corner_radius": around(1.4, 0.2, 0.1)}
    request = Request("pocket", sizes, length=11.2, material="6061", ends="closed")
    cutters = (mill(1, 1.6, 1.6, 2, 12.0), mill(2, 5.0, 5.0, 4, None), mill(3, 6.6, 6.0, 2, 12.0))
    best = advise(request, cutters, Shop()).advice.plans[0]
    assert [one.id for one in best.cutters] == [3, 1]
