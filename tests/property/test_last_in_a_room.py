"""A size that is missed by whoever is the last in its room is told before anything is cut, and never where it isn't."""

from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import event, given, note, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.features.request import Request
from crib.findings.message import Message
from crib.geometry.region import NOTHING
from crib.light.records import replace
from crib.machining.draft import Draft
from crib.planning.advise import advise, jobs_for
from crib.planning.ask import read_request, texts_of
from crib.planning.bounds import each_tool
from crib.planning.bounds.abilities import Abilities
from crib.planning.bounds.each_tool import GIVEN_AWAY
from crib.planning.bounds.least_of_sizes import missed_as_cleared, missed_by_all
from crib.planning.bounds.lower_bounds import Bounds
from crib.planning.search.set_ups import usable
from crib.planning.search.watch import Watch
from crib.planning.search.weighed import weigh
from crib.rules.sizes import misses
from crib.sample import shop_settings
from crib.shop import Shop, from_json
from tests.benchmarks.cribs import crib
from tests.benchmarks.questions import sample
from tests.property.test_completeness import bounds_hold
from tests.strategies import any_of, around, brief, mm, renumbered, right_for, t_slots
from tests.unpruned import Unpruned, question_of, questions_of

TIGHT, WIDE = 0.02, 0.3


@st.composite
def asked(draw: st.DrawFn) -> tuple[Request, tuple[Cutter, ...], Shop]:
    """A T-slot whose head is held closely in height or isn't, with discs that take several levels."""
    request = draw(t_slots())
    head, height, width = (request.sizes[key] for key in ("head_width", "head_height", "throat"))
    band = draw(any_of(TIGHT, TIGHT, WIDE))
    request.sizes["head_height"] = height = around(height.nominal, 0.0, band)
    request.sizes["head_width"] = around(head.nominal, 0.0, draw(any_of(TIGHT, WIDE, WIDE)))
    mill = right_for(request, 1)
    cutters = list(draw(mill))
    for number in range(3, 3 + draw(st.integers(1, 2))):
        across = round(width.mid + draw(st.floats(0.1, 1.0)) * (head.mid - width.mid), 3)
        cutters.append(Cutter(
            number, "keyseat-cutter", f"disc {number}", diameter_mm=across, shank_mm=6.0, flutes=8, material="hss",
            face_mm=round(height.mid * draw(any_of(0.4, 0.6, 0.8, 1.02)), 3), condition="sharp",
            neck_mm=round(max(0.8, (width.lo - 0.56) * draw(any_of(0.5, 0.9, 1.0))), 3), measured=("diameter_mm",),
            reach_mm=round(request.sizes["depth"].hi + 2.0, 3)))
    if draw(st.booleans()):
        del cutters[1]
    return request, tuple(cutters), Shop(most_levels=4)


def test_a_plan_misses_what_its_last_cutter_misses() -> None:
    """No bound is over what comes out, whoever goes first and whoever last; some that share a room are told to miss."""
    told: Counter[str] = Counter()

    @settings(max_examples=60)
    @given(asked())
    def hold(one: tuple[Request, tuple[Cutter, ...], Shop]) -> None:
        request, cutters, shop = one
        note(brief(*one))
        question = question_of(request, shop, cutters)
        tools = usable(question, cutters)
        bounds_hold(question, tools)
        bounds = Bounds(Abilities(question, tools, question.limits), question)
        for share in (share for room in bounds.shares.values() for share in room.values()):
            is_missed = share.last.verdict > share.any_.verdict and share.last.verdict == GIVEN_AWAY
            told["missed" if is_missed else "not", "alone" if share.alone else "in part"] += 1
        event(f"tools: {len(tools)}")

    hold()
    assert {("missed", "alone"), ("missed", "in part"), ("not", "alone")} <= set(told), told


@pytest.mark.parametrize("typed", [
    "--throat .7434 --depth .6562 --head-width 1.0938+.001-0 --head-height .5+.001-0 --ends one --length 2.4227 "
    "--material 6061 --wall 1.4969@1.1888 --use fixture",
    "--throat .5469 --depth .5469+.02-0 --head-width 1.0421+.001-0 --head-height .2812 --length 4.9547",
])
def test_a_head_that_nobody_holds_is_found_soon(typed: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """A head held to a thousandth in height, and no disc as tall; in width, and none as wide: plans in which discs
    share it were all looked at first, and nothing was found in the time there was. The plans are those of a search that
    isn't told, where that ends."""
    shop, watch = from_json(shop_settings()), Watch()
    request = read_request("t-slot", texts_of(typed.split()), shop, "in")
    assert len(advise(request, crib(300), shop, most_refused=0, watch=watch).advice.plans) > 1
    assert watch.tried < 300
    few, told = [one for one in crib(300) if one.id % 12 == 0 or one.id in range(1, 20)], []
    for _ in range(2):
        told.append(advise(request, few, shop, most_refused=0).advice)
        monkeypatch.setattr(each_tool, "surely_missed", lambda *_: ())
    assert [(plan.answer, plan.cost, plan.cutters) for plan in told[0].plans] == [
        (plan.answer, plan.cost, plan.cutters) for plan in told[1].plans]


def test_a_head_is_stepped_to_by_whoever_is_narrower() -> None:
    """A disc that goes along one wall alone holds the head's width no better than one that goes along both: between
    limits .001 in apart neither does, set by a readout to .001 in each way at the best (common practice)."""
    typed = "--throat .5 --depth .6 --head-width .8+.001-0 --head-height .25 --length 3"
    cutters = (Cutter(1, "end-mill", diameter_mm=12.7, length_of_cut_mm=25.4, shank_mm=9.525, material="hss"),
               Cutter(2, "t-slot-cutter", diameter_mm=19.05, face_mm=6.35, neck_mm=7.62, reach_mm=22.86, shank_mm=9.525,
                      material="hss"))
    jobs = jobs_for(read_request("t-slot", texts_of(typed.split()), from_json(shop_settings()), "in"), cutters,
                    from_json(shop_settings()))[0]
    throat, head = jobs.question.outline.rooms
    [opened], [disc] = (jobs.clear(tool, room, gone) for tool, room, gone in zip(
        jobs.tools, (throat, head), (NOTHING, jobs.before(head)), strict=True))
    for cuts in (disc.cuts, disc.cuts[:1]):
        draft = Draft(jobs.question, (opened, replace(disc, cuts=cuts)))
        assert "head width" in [dict(one.says.facts)["size"] for one in misses(draft) if isinstance(one.says, Message)]


@st.composite
def short_of_the_wall(draw: st.DrawFn) -> tuple[Request, tuple[Cutter, ...], Shop]:
    """A T-slot whose head may be much narrower than it is aimed, with discs that their necks keep off its walls: just
    beyond the least that it may be, or a little more."""
    request, shop = draw(t_slots()), Shop(most_levels=4, dro=draw(st.booleans()))
    head, height, throat = (request.sizes[key] for key in ("head_width", "head_height", "throat"))
    request.sizes["head_height"] = around(height.nominal, WIDE, WIDE)
    request.sizes["throat"] = throat = around(throat.nominal, draw(any_of(0.0, 0.05)), draw(any_of(0.05, 0.3)))
    least = throat.nominal + draw(st.floats(0.5, 0.9)) * (head.nominal - throat.nominal)
    request.sizes["head_width"] = around(head.nominal, head.nominal - least, WIDE)
    cutters = list(draw(right_for(request, 1)))[:1]
    for number in range(3, 3 + draw(st.integers(1, 2))):
        across = throat.lo * draw(st.floats(0.6, 0.95))
        reaches = least + draw(any_of(-0.02, 0.01, 0.03, 0.06, 0.2))
        neck = throat.mid - (reaches - across) - 2 * shop.neck_clearance_mm
        cutters.append(Cutter(
            number, "keyseat-cutter", f"disc {number}", diameter_mm=round(across, 3), shank_mm=6.0, flutes=8,
            material="hss", face_mm=round(height.mid * draw(any_of(0.6, 0.8, 1.0)), 3), condition="sharp",
            neck_mm=round(max(0.8, neck), 3), measured=("diameter_mm",),
            reach_mm=round(request.sizes["depth"].hi + 2.0, 3)))
    wider = round(draw(any_of(throat.lo, throat.hi)), 3)
    cutters.append(Cutter(5, "end-mill", "another mill", diameter_mm=wider, length_of_cut_mm=60.0, shank_mm=10.0,
                          flutes=4, material="hss", condition="sharp", measured=("diameter_mm",)))
    return request, tuple(cutters), shop


def test_no_head_is_wider_than_the_throat_lets_necks_stand() -> None:
    """What is told of how wide all together ever get is never over what comes out; some miss the width for that
    alone."""
    told: Counter[bool] = Counter()

    @settings(max_examples=80)
    @given(short_of_the_wall())
    def hold(one: tuple[Request, tuple[Cutter, ...], Shop]) -> None:
        request, cutters, shop = one
        note(brief(*one))
        question = question_of(request, shop, cutters)
        tools = usable(question, cutters)
        bounds_hold(question, tools)
        some = Abilities(question, tools, question.limits)
        told[some.can_be and missed_by_all(some) < GIVEN_AWAY and missed_as_cleared(some)] += 1

    hold()
    assert min(told[True], told[False]) >= 5, told


def test_a_head_that_necks_keep_too_narrow_is_found_soon() -> None:
    """Only one disc does anything in the head, and its neck meets the throat as it is opened: as it may be opened at
    the most it would hold the width, so that all pairs of mills that share the throat were tried first, thousands."""
    shop, watch = from_json(shop_settings()), Watch()
    typed = "--bolt M10 --throat 12.482mm+.18-0 --ends closed --length 3"
    request = read_request("t-slot", texts_of(typed.split()), shop, "in")
    assert advise(request, crib(300), shop, most_refused=0, watch=watch).advice.answer == "compromise"
    assert watch.tried < 300


FILLETS = (
    "--radius .0613 --width .3125±.0005 --depth .0962±.0005 --ends one --length 3.8852 --material bronze --wall "
    "1.3232@-2.9996 --floor-radius .0312 --count 5",
    "--radius .0606±.003 --width .5509±.0005 --depth .3594 --length 5.3444 --floor-radius .0156",
    "--radius .2526+.005-0 --width 1.3125±.0005 --depth .4219+.001-0 --ends open --length 3.862 --hours 4",
)


@pytest.mark.parametrize("typed", FILLETS)
def test_a_fillet_whose_wall_nobody_holds_is_found_soon(typed: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """One bull nose makes the fillet, or a ball in several settings, and it is no more sure of the step's width than
    any mill: all that share the step were tried first, thousands. The plans are those of a search that isn't told."""
    cutters, shop = sample()
    some, told = [one for one in cutters if one.id in (5, 8, 10, 14, 15, 16, 17)], []
    request, watch = read_request("inside-fillet", texts_of(typed.split()), shop, "in"), Watch()
    assert advise(request, cutters, shop, most_refused=0, watch=watch).advice.answer == "compromise"
    assert watch.tried < 150
    for _ in range(2):
        told.append(advise(request, some, shop, most_refused=0).advice)
        monkeypatch.setattr(each_tool, "surely_missed", lambda *_: ())
    assert [(plan.answer, plan.cost, plan.cutters) for plan in told[0].plans] == [
        (plan.answer, plan.cost, plan.cutters) for plan in told[1].plans]


@st.composite
def by_their_width(draw: st.DrawFn) -> tuple[Request, tuple[Cutter, ...], Shop]:
    """The same with a throat held closely, and a mill that makes it by its own width, too wide or too narrow or not."""
    request, cutters, shop = draw(short_of_the_wall())
    throat = request.sizes["throat"]
    request.sizes["throat"] = around(throat.nominal, 0.005, draw(any_of(0.02, 0.05, 0.1)))
    low, high = throat.nominal - 0.005, request.sizes["throat"].hi
    widths = [round(draw(any_of(low - 0.2, low, throat.nominal, high)), 4) for _ in range(2)]
    mills = [cutters[-1].but(id=number, diameter_mm=width, length_of_cut_mm=draw(any_of(4.0, 60.0)),
                             condition=draw(any_of("sharp", "sharp", "chipped")))
             for number, width in enumerate(widths, 6)]
    discs = [one for one in cutters if one.kind == "keyseat-cutter"]
    return request, (*mills, *discs), shop


def test_who_clears_a_room_at_once_is_the_last_there() -> None:
    """Nobody has work in a room after who is told to clear it at once and to miss a size there, whoever was there
    before, and no plan with him keeps to the drawing; what all others leave is told of all plans that do."""
    told: Counter[str] = Counter()

    @settings(max_examples=60)
    @given(by_their_width())
    def hold(one: tuple[Request, tuple[Cutter, ...], Shop]) -> None:
        request, cutters, shop = one
        note(brief(*one))
        question = question_of(request, shop, cutters)
        tools = usable(question, cutters)
        bounds_hold(question, tools)
        for wide in (False, True):
            some = Abilities(question, tools, replace(question.limits, wide=wide))
            once = {(tool.id, room.name) for room in question.outline.rooms for tool in tools
                    if some.misses_at_once(tool, room)}
            told["at once" if once else "nobody"] += 1
            if some.can_be and some.as_drawn is not some.together and some.as_drawn.left() and not some.together.left():
                told["without them something stands"] += 1
            for draft in Unpruned(question, tools, wide).drafts(Draft(question)) if once else ():
                places = [(job.tool.id, job.room) for job in draft.jobs]
                for place, here in enumerate(places):
                    if here in once:
                        assert here[1] not in [room for _, room in places[place + 1:]], places
                        assert weigh(draft, True).key[0] >= GIVEN_AWAY, places

    hold()
    assert min(told["at once"], told["nobody"], told["without them something stands"]) >= 3, told


@st.composite
def slits(draw: st.DrawFn) -> tuple[Request, tuple[Cutter, ...], Shop]:
    """A slit with saws of its width and thinner ones, deep enough or not, and discs of which most reach its floor
    with their neck's help alone; of three slits one has discs that reach it and must go twice, and no others."""
    width, depth = draw(mm(1, 5)), draw(mm(2, 14))
    request = Request("slit", {"width": around(width, 0.0, draw(any_of(0.05, 0.1, 0.4))),
                               "depth": around(depth, 0.0, draw(any_of(0.1, 0.4)))}, "grey iron")
    known, saws, discs = ("diameter_mm",), [], []
    for share in draw(st.lists(any_of(1.0, 0.99, 0.7, 0.5, 0.34), max_size=2)):
        saws.append(Cutter(1, "slitting-saw", diameter_mm=draw(any_of(50.0, 63.0)), face_mm=round(width * share, 3),
                           bore_mm=16.0, flutes=40, material="hss", condition="sharp", measured=known))
    twice = draw(st.integers(0, 2)) == 0
    shares, necks = ((0.8, 0.5), (1.1,)) if twice else ((1.01, 1.0, 0.8, 0.5), (0.4, 0.9, 1.1))
    for share in draw(st.lists(any_of(*shares), min_size=1, max_size=3)):
        across = round(2 * depth + draw(mm(2, 8)), 3)
        discs.append(Cutter(1, "keyseat-cutter", diameter_mm=across, face_mm=round(width * share, 3), shank_mm=6.0,
                            neck_mm=round(across - 2 * depth * draw(any_of(*necks)), 3), flutes=8,
                            reach_mm=round(width + draw(mm(2, 30)), 3), material="hss", condition="sharp",
                            measured=known))
    cutters = (*saws, *discs)
    return request, renumbered(draw(st.permutations(cutters))), Shop(units="mm", most_levels=3)


def test_no_slit_is_better_than_those_who_get_to_its_floor() -> None:
    """No bound is over what comes out of saws and discs, from the side and from above; some that go twice lean."""
    told: Counter[int] = Counter()

    @settings(max_examples=60)
    @given(slits())
    def hold(one: tuple[Request, tuple[Cutter, ...], Shop]) -> None:
        request, cutters, shop = one
        note(brief(*one))
        for question in questions_of(request, shop, cutters):
            tools = usable(question, cutters)
            bounds_hold(question, tools)
            told[Bounds(Abilities(question, tools, question.limits), question).ended.verdict] += 1

    hold()
    assert {1, GIVEN_AWAY} <= set(told), told


def test_a_slit_that_only_leans_is_found_soon() -> None:
    """Nobody gets to the floor but saws that must go twice, and so lean: plans of two discs that share it were all
    tried first, of thousands for a minute."""
    shop, watch = from_json(shop_settings()), Watch()
    request = read_request("slit", texts_of(["--width", ".1719+.002-0", "--depth", ".58±.003"]), shop, "in")
    assert advise(request, crib(1000), shop, most_refused=0, watch=watch).advice.answer == "compromise"
    assert watch.tried < 100
