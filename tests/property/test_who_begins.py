"""Who may be the first in a room is told before anything is cut: nobody else has a way in it while nobody was there."""

from __future__ import annotations

from collections import Counter

from hypothesis import given, note, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.features.request import Request, Wall
from crib.geometry.region import NOTHING
from crib.light.records import replace
from crib.machining.methods import begins, clear, ways
from crib.planning.advise import advise, better_plan
from crib.planning.ask import read_request, texts_of
from crib.planning.search.set_ups import usable
from crib.planning.search.watch import Watch
from crib.sample import shop_settings
from crib.shop import Shop, from_json
from tests.benchmarks.cribs import crib
from tests.property.test_completeness import bounds_hold
from tests.property.test_slants import drawn_or_none
from tests.slant_strategies import flank_cutters, mills, right_for_slants, slides
from tests.strategies import any_of, brief, mm, renumbered
from tests.unpruned import question_of


@st.composite
def beside_a_wall(draw: st.DrawFn) -> tuple[Request, tuple[Cutter, ...]]:
    """A slide with a wall beside it, low or high, near what is cut or out of the way."""
    request = draw(slides())
    edge = request.size("width").mid / 2 + request.size("shoulder").mid
    side, off = draw(any_of(-1, 1)), draw(st.one_of(mm(0.4, 14), mm(1.6, 4)))
    request = replace(request, walls=(Wall(draw(any_of(1.0, 4.0, 20.0)), side * (edge + off)),))
    cutters = [*draw(right_for_slants(request)), draw(mills(request, 3)), draw(flank_cutters(request, 4, whole=True))]
    return request, renumbered(tuple(cutters))


def test_nobody_else_has_a_way_in_a_flank_that_nobody_was_in() -> None:
    """Whatever mills did to the shoulders before: all of them, in each of their manners, or one after the other."""
    told: Counter[tuple[bool, bool]] = Counter()

    @settings(max_examples=300, deadline=None)
    @given(beside_a_wall())
    def hold(asked: tuple[Request, tuple[Cutter, ...]]) -> None:
        request, cutters = asked
        note(brief(request, cutters))
        if not drawn_or_none(request):
            return
        question = question_of(request, Shop(), cutters)
        outline, limits, tools = question.outline, question.limits, usable(question, cutters)
        shoulders = [room for room in outline.rooms if not room.lean]
        states = [NOTHING]
        for room in shoulders:
            states += [job.removed for gone in states for tool in tools for job in clear(
                tool, outline, room, gone, limits)][:40]
        for room in (room for room in outline.rooms if room.lean):
            for tool in tools:
                if ways(tool, outline, room, limits):
                    may, has = begins(tool, outline, room, limits), False
                    for gone in states:
                        has = has or bool(clear(tool, outline, room, gone, limits))
                    told[may, has] += 1
                    assert may or not has

    hold()
    assert told[False, False] >= 5 and told[True, True] >= 5, told


@settings(max_examples=30, deadline=None)
@given(beside_a_wall())
def test_where_nobody_begins_there_is_no_plan(asked: tuple[Request, tuple[Cutter, ...]]) -> None:
    """No bound is over what comes out, and what is told to be none is none."""
    request, cutters = asked
    note(brief(request, cutters))
    if drawn_or_none(request):
        question = question_of(request, Shop(), cutters)
        bounds_hold(question, usable(question, cutters))


def test_a_slide_too_near_a_wall_is_told_at_once() -> None:
    """Each dovetail cutter stands at the finished flank, but not in its first step, farther out: thousands of drafts
    were tried before, and again for every change of the drawing."""
    shop, watch = from_json(shop_settings()), Watch()
    typed = ("--height .2188 --width 1.0314 --pin .2187 --angle 60 --ends open --length 2.2125 --material bronze "
             "--wall .1207@-1.1834 --use cover")
    request = read_request("dovetail-slide", texts_of(typed.split()), shop, "in")
    answer = advise(request, crib(300), shop, most_refused=0, watch=watch).advice.answer
    assert (answer, watch.tried) == ("cannot", 0)
    assert better_plan(request, crib(300), shop, answer) is None
