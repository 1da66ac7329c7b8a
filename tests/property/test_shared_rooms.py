"""Two rooms shared by the same two cutters: whoever comes as the other in one may be the other in both, and the least
that is still to come counts his putting up once."""

from __future__ import annotations

from collections import Counter, defaultdict
from dataclasses import replace

from hypothesis import given, note, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.features.request import Request
from crib.machining.draft import Draft
from crib.machining.question import Question
from crib.machining.tool import Tool
from crib.planning.ask import read_request, texts_of
from crib.planning.search.set_ups import usable
from crib.shop import Shop
from tests.property.test_completeness import bounds_hold
from tests.strategies import brief
from tests.unpruned import Unpruned, question_of

INCH = 25.4
DEAR = replace(Shop(), cutter_minutes=40.0)
"""A shop in which putting up a cutter outweighs what it takes in a room."""


@st.composite
def fillets(draw: st.DrawFn) -> Request:
    wide, deep = draw(st.sampled_from((0.6, 0.8, 1.0, 1.25))), draw(st.sampled_from((0.25, 0.3, 0.375, 0.5)))
    typed = f"--radius .125 --width {wide} --depth {deep} --ends open --length 2 --material brass"
    return read_request("inside-fillet", texts_of(typed.split()), DEAR, "in")


@st.composite
def slides(draw: st.DrawFn) -> Request:
    wide, high = draw(st.sampled_from((0.6, 0.8, 1.0, 1.25))), draw(st.sampled_from((0.25, 0.3, 0.375, 0.5)))
    typed = f"--height {high}+.005-0 --width {wide} --angle 60 --ends open --length 2 --material brass"
    return read_request("dovetail-slide", texts_of(typed.split()), DEAR, "in")


@st.composite
def short(draw: st.DrawFn, kind: str, number: int) -> Cutter:
    """A cutter whose teeth may be too short to do a room alone."""
    size = INCH * draw(st.sampled_from((0.25, 0.375, 0.5, 0.75, 1.0)))
    made = Cutter(number, kind, diameter_mm=size, flutes=4, condition="sharp", material="hss", shank_mm=9.525)
    if kind == "dovetail-cutter":
        face = draw(st.sampled_from((0.2, 0.3, 0.35)))
        return made.but(face_mm=face * size, neck_mm=0.45 * size, reach_mm=1.2 * size, angle_deg=60.0)
    corner = draw(st.sampled_from((None, None, 0.125 * INCH)))
    return made.but(length_of_cut_mm=size * draw(st.sampled_from((0.3, 0.5, 1.0, 2.0))), corner_radius_mm=corner)


def shared(question: Question, tools: list[Tool]) -> bool:
    """Whether in some draft more than one room is shared."""
    for draft in (one for wide in (False, True) for one in Unpruned(question, tools, wide).drafts(Draft(question))):
        who = defaultdict[str, set[int]](set)
        for job in draft.jobs:
            who[job.room].add(job.tool.id)
        if sum(len(tools) > 1 for tools in who.values()) > 1:
            return True
    return False


def test_whoever_shares_two_rooms_is_put_up_once() -> None:
    """It was counted for each room: the least of a fillet and the step beside it, each begun by one mill and ended by
    another, was above what came out."""
    seen: Counter[bool] = Counter()

    @settings(max_examples=60)
    @given(st.data())
    def hold(data: st.DataObject) -> None:
        request = data.draw(st.one_of(fillets(), fillets(), slides()))
        kinds = ("end-mill",) if request.kind == "inside-fillet" else ("dovetail-cutter", "dovetail-cutter", "end-mill")
        cutters = tuple(data.draw(short(data.draw(st.sampled_from(kinds)), number)) for number in range(1, 5))
        note(brief(request, cutters, DEAR))
        question = question_of(request, DEAR, cutters)
        tools = usable(question, cutters)
        seen[is_shared := shared(question, tools)] += 1
        if is_shared:
            bounds_hold(question, tools)

    hold()
    assert seen[True] >= 3, seen
