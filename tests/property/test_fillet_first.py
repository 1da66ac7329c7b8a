"""Whoever makes a fillet before the step beside it takes as much of the step with it as he is wide."""

from __future__ import annotations

from collections import Counter

from hypothesis import assume, given, note, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.features import draw as draw_feature
from crib.features.request import Request
from crib.findings.errors import CribError
from crib.planning.search.set_ups import asked_of
from crib.shop import Shop
from tests.property.test_completeness import bounds_hold
from tests.strategies import any_of, around, brief, mm, renumbered
from tests.unpruned import held_to_every_way, questions_of, usable

Asked = tuple[Request, tuple[Cutter, ...], Shop]


@st.composite
def fillets(draw: st.DrawFn) -> Asked:
    """A fillet with a ball of its radius, perhaps one with a flat within it, and square mills as wide as the step, or
    as what the ball leaves of it, or of any width."""
    radius, band = draw(mm(2, 5)), draw(any_of(0.005, 0.04, 0.2))
    depth, width = round(radius + draw(mm(0.5, 6)), 3), round(radius + draw(mm(1, 16)), 3)
    request = Request("inside-fillet", {"radius": around(radius, 0.04, 0.04), "width": around(width, band, band),
                                        "depth": around(depth, 0.04, 0.04)}, "mild steel")
    square = Cutter(1, "end-mill", diameter_mm=round(2 * radius, 4), corner_radius_mm=0.0, shank_mm=6.0, flutes=2,
                    length_of_cut_mm=depth + 12, material="hss", condition="sharp", measured=("diameter_mm",),
                    centre_cutting=True)
    ball = square.but(corner_radius_mm=round(radius, 4))
    cutters = [ball, *draw(any_of((), (ball.but(diameter_mm=round(2 * radius + draw(mm(1, 14)), 3)),)))]
    for _ in range(draw(st.integers(1, 3))):
        across = draw(st.one_of(mm(3, 28), any_of(round(width - radius, 3), max(4.0, round(width - 2 * radius, 3)),
                                                  round(width + 1, 3))))
        cutters.append(square.but(diameter_mm=across, flutes=draw(any_of(2, 4)),
                                  length_of_cut_mm=draw(any_of(depth + 10, depth * 0.6))))
    return request, renumbered(draw(st.permutations(cutters))), Shop(units="mm")


def test_a_step_is_reckoned_with_what_the_fillet_takes_of_it() -> None:
    """The step was reckoned as from solid whoever had made the fillet, so that the bound was over what came out, and a
    better plan might have been missed."""
    first: Counter[bool] = Counter()

    @settings(max_examples=30)
    @given(fillets())
    def hold(asked: Asked) -> None:
        request, cutters, shop = asked
        note(brief(*asked))
        try:
            draw_feature(request)
        except CribError:
            assume(False)
        every = questions_of(request, shop, cutters)
        tools = usable(every[0], cutters)
        for question in every:
            bounds_hold(question, tools)
        if found := held_to_every_way(request, cutters, shop):
            jobs = found[1].draft.jobs
            first[jobs[0].room == "fillet" and len(jobs) > 1] += 1

    hold()
    assert first[True] and first[False], first


def test_what_stays_over_the_floor_ends_no_fillet() -> None:
    """A form cutter, or a fly cutter, whose arbor or body stands over the work may stand on the floor beyond the edge
    and not at the wall: it was reckoned to end the fillet."""
    told: Counter[tuple[str, bool, bool]] = Counter()

    @settings(max_examples=25)
    @given(fillets(), st.data())
    def hold(asked: Asked, data: st.DataObject) -> None:
        request, cutters, shop = asked
        radius, wide = request.sizes["radius"].mid, request.sizes["width"].mid
        across = round(data.draw(any_of(2.0, 1.2, 0.8)) * wide + data.draw(mm(12, 40)), 3)
        form = Cutter(8, "form-cutter", diameter_mm=across, radius_mm=round(radius, 4), bore_mm=data.draw(
            any_of(6.0, 10.0)), note="convex", material="hss", condition="sharp", measured=("diameter_mm",))
        fly = Cutter(9, "fly-cutter", diameter_mm=across, corner_radius_mm=round(radius - data.draw(mm(0, 1)), 3),
                     shank_mm=12.0, material="hss", condition="sharp", measured=("diameter_mm",))
        cutters = renumbered((*cutters, *data.draw(any_of((form,), (fly,), (form, fly)))))
        note(brief(request, cutters))
        try:
            draw_feature(request)
        except CribError:
            assume(False)
        every = questions_of(request, shop, cutters)
        tools = usable(every[0], cutters)
        for question in every:
            bounds_hold(question, tools)
        held_to_every_way(request, cutters, shop)
        for jobs in asked_of(every[0].feature, every[0].material, shop, cutters):
            for room in jobs.question.outline.rooms:
                for number, able in jobs.abilities.of(room).items():
                    tool = jobs.abilities.by_number[number]
                    told[tool.kind.name, bool(able.alone), jobs.does_across(tool, room) is not None] += 1

    hold()
    for kind in ("form-cutter", "fly-cutter"):
        assert told[kind, False, False], told
    assert not any(told[kind, False, True] for kind in ("form-cutter", "fly-cutter")), told


def test_what_is_left_of_the_step_is_begun_with_it() -> None:
    """A convex cutter takes most of a step, a ball some more, and a fly cutter goes along the wall for the fillet and
    what they left at once: fewer passes than for the fillet alone, which it was reckoned to take at the least."""
    round_ = Cutter(1, "end-mill", diameter_mm=4.0, corner_radius_mm=2.0, shank_mm=6.0, flutes=2, length_of_cut_mm=14.5,
                    material="hss", condition="sharp", measured=("diameter_mm",), centre_cutting=True)
    square = round_.but(diameter_mm=3.0, corner_radius_mm=0.0)
    form = Cutter(3, "form-cutter", diameter_mm=20.08, radius_mm=2.0, bore_mm=6.0, note="convex", material="hss",
                  condition="sharp", measured=("diameter_mm",))
    fly = Cutter(4, "fly-cutter", diameter_mm=20.08, corner_radius_mm=1.92, shank_mm=12.0, material="hss",
                 condition="sharp", measured=("diameter_mm",))
    sizes = {"radius": around(2.0, 0.04, 0.04), "width": around(4.04, 0.005, 0.005), "depth": around(2.48, 0.04, 0.04)}

    @settings(max_examples=12)
    @given(any_of((form, fly), (round_, fly), (form, square, fly), (form, round_, fly), (round_, square, form, fly)),
           any_of("mild steel", "brass"), any_of(None, 300.0, 2000.0), any_of(2.0, 10.0, 30.0), any_of(0.1, 0.6))
    def hold(owned: tuple[Cutter, ...], metal: str, length: float | None, put_up: float, each: float) -> None:
        request = Request("inside-fillet", sizes, metal, length)
        cutters, shop = renumbered(owned), Shop(units="mm", cutter_minutes=put_up, pass_minutes=each)
        note(f"{brief(request, cutters)} {length} {put_up} {each}")
        every = questions_of(request, shop, cutters)
        tools = usable(every[0], cutters)
        for question in every:
            bounds_hold(question, tools)
        held_to_every_way(request, cutters, shop)

    hold()
