"""Every change that a refusal names would do: with it that cutter is no longer refused for that reason, and .01 mm on
the wrong side of what is needed it still is. The same for what is to be measured."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from hypothesis import assume, event, given, note, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.cutters.label import label
from crib.features import draw as draw_feature
from crib.features.request import Request
from crib.findings.errors import CribError
from crib.findings.message import apart, said
from crib.machining.tool import unknowns
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.held import may_be
from crib.planning.told.advice import Advice, Refusal
from crib.setups import SETUPS
from crib.shop import Arbor, Shop
from crib.units import read
from tests.spelt import spelt
from tests.strategies import REQUESTS, around, brief, discs, end_mills, right_for, shops
from tests.trials.refusals import trial

KEYS = {"cutter": "diameter_mm", "neck": "neck_mm", "face": "face_mm", "reach": "reach_mm",
        "length of cut": "length_of_cut_mm"}
SAYS = re.compile(r"a (cutter|neck|face|reach|length of cut) of (\S+) or (less|more)")
OFF = 0.01
"""On the wrong side of what is needed [mm]."""

UNDER = "run up past the lip"
"""What keeps an upright cutter that does the room above from the one under a lip that nothing owned does."""

GEOMETRY = ("SZ3", "FC1", "NK1", "RE1", "RE2", "G5", "G6", "FC2")


def refusal_of(advice: Advice, number: int) -> Refusal | None:
    return next((one for one in advice.refused if one.cutter.id == number), None)


def changed(cutter: Cutter, key: str, value: float) -> Cutter:
    """The cutter with one size changed."""
    value = round(value, 6)
    if key == "diameter_mm" and cutter.diameter_mm is None:
        return cutter.but(nominal_mm=value)
    return cutter.but(**{key: value})


Asked = tuple[Request, tuple[Cutter, ...], Shop, Refusal]


@st.composite
def refused(draw: st.DrawFn) -> Asked:
    """A cutter that is refused: a disc beside an end mill that opens the throat, an end mill alone, so that no
    other takes a share of its room."""
    request = draw(REQUESTS)
    if draw(st.booleans()):
        request = replace(request, sizes={key: around(one.nominal, 0.0, 0.0) if key == "throat" else one
                                          for key, one in request.sizes.items()})
    cutter = draw(discs(request, 1) if request.kind == "t-slot" and draw(st.integers(0, 2)) else
                  st.one_of(end_mills(request, 1), discs(request, 1)))
    shop = draw(shops())
    try:
        draw_feature(request)
    except CribError:
        assume(False)
    cutters = (cutter, *(draw(right_for(request, 8))[:1] if cutter.kind != "end-mill" else ()))
    said = refusal_of(advise(request, cutters, shop).advice, 1)
    if said is None:
        assume(False)
        raise AssertionError
    return request, cutters, shop, said


def lies(said: Refusal) -> str:
    """The set-up that a refusal is for, where it isn't the usual one."""
    return next((name for name in SETUPS if spelt(said.says).startswith(f"{name}, ")), "")


def again(request: Request, cutters: tuple[Cutter, ...], shop: Shop, key: str, value: float) -> Refusal | None:
    """Asked again with one size of the first cutter changed."""
    return refusal_of(advise(request, (changed(cutters[0], key, value), *cutters[1:]), shop).advice, 1)


@settings(max_examples=400)
@given(refused())
def test_the_change_that_is_named_would_do(asked: Asked) -> None:
    """The other side is asked with a throat without a band: one that is cut wide gives a little more room."""
    request, cutters, shop, said = asked
    note(brief(request, cutters, shop))
    note(f"{said.id} {said.answer}: {spelt(said.says)} | has {said.has_mm} needs {said.needs_mm} | {spelt(said.fix)}")
    found = SAYS.search(spelt(said.fix, shop.units))
    event(f"{said.id}: {'a change' if found else (spelt(said.fix, shop.units) and 'other words') or 'no change'}")
    if not found:
        return
    key, way = KEYS[found[1]], 1 if found[3] == "less" else -1
    size = read(found[2], shop.units).mm
    mended = again(request, cutters, shop, key, size)
    elsewhere = mended is not None and UNDER in spelt(mended.says) and UNDER not in spelt(said.says)
    assert mended is None or elsewhere or mended.id not in GEOMETRY or lies(mended) != lies(said), mended
    banded = "throat" in request.sizes and request.sizes["throat"].band > 0
    if said.needs_mm is not None:
        assert way * (said.needs_mm - size) >= -1e-6, "what is said is on the side that holds"
        assert abs(said.needs_mm - size) <= 0.0255 if shop.units == "in" else 0.0015
        spoilt = again(request, cutters, shop, key, said.needs_mm + way * OFF)
        assert banded or spoilt is not None, "a hair too much is still refused"
    elif said.answer == "measure first":
        spoilt = again(request, cutters, shop, key, size + way * (0.0254 + OFF))
        assert banded or (spoilt is not None and spoilt.id in GEOMETRY), spoilt


@settings(max_examples=200)
@given(refused())
def test_numbers_of_a_refusal(asked: Asked) -> None:
    """What it has is the cutter's own size, or of a face that isn't known the least that it could be; it falls short by
    the difference; it says both."""
    request, cutters, shop, said = asked
    cutter = cutters[0]
    note(brief(request, cutters, shop))
    note(f"{said.id} {said.answer}: {spelt(said.says)} | has {said.has_mm} needs {said.needs_mm} | {spelt(said.fix)}")
    if said.id not in ("SZ3", "FC1", "NK1", "RE1", "RE2"):
        return
    if "not known" in spelt(said.says):
        assert said.has_mm is None and said.needs_mm is not None
        return
    sizes = [value for key in (*KEYS.values(), "nominal_mm") if (value := getattr(cutter, key)) is not None]
    if "at the best" in spelt(said.says):
        assert cutter.face_mm is None
        sizes = [one.kindest for one in unknowns(cutter) if one.key == "face_mm"]
    assert said.has_mm is not None and said.needs_mm is not None
    assert any(abs(said.has_mm - one) < 2e-6 for one in sizes)
    assert abs(said.short_mm - abs(said.has_mm - said.needs_mm)) < 2e-6


@pytest.mark.parametrize(("mark", "needs"), [("4.04", "4.0"), ("12.75", "12.7"), ("9.6", "9.5")])
def test_what_a_reground_cutter_is_by_its_mark_is_what_it_has(mark: str, needs: str) -> None:
    """The sentence said .159 by its mark, and programs read that it has nothing."""
    mill = Cutter(1, "end-mill", "end mill", nominal_mm=float(mark), reground=True, shank_mm=6.0, length_of_cut_mm=2.8,
                  flutes=2, centre_cutting=True, material="hss", condition="sharp", corner_radius_mm=0.0)
    texts = {"throat": f"{needs}/{needs}", "depth": "2.8", "head_width": "25", "head_height": "1.6"}
    [no] = advise(read_request("t-slot", texts, Shop(), "mm"), (mill,), Shop()).advice.refused
    assert no.id == "SZ3" and f"{float(mark):.2f}" in spelt(no.says, "mm") and "by its mark" in spelt(no.says)
    assert (no.has_mm, no.needs_mm) == (float(mark), float(needs))
    assert no.short_mm == pytest.approx(float(mark) - float(needs))


def test_a_face_at_its_best_is_what_it_has() -> None:
    """Of a face that isn't known the least that it could be is told; that was no number for programs either."""
    texts = {"throat": "4", "depth": "5", "head_width": "21", "head_height": "1.6"}
    disc = Cutter(1, "t-slot-cutter", "disc", diameter_mm=20.0, neck_mm=3.0, reach_mm=9.0, shank_mm=6.0)
    [no] = advise(read_request("t-slot", texts, Shop(), "mm"), (disc,), Shop()).advice.refused
    assert no.id == "FC1" and no.has_mm == 2.5 and "2.500 at the best" in spelt(no.says, "mm")
    assert no.needs_mm is not None and no.short_mm == pytest.approx(2.5 - no.needs_mm)


def test_what_the_shank_stands_on_is_called_by_its_name() -> None:
    """A relieved mill's reach was called its length of cut, and of a ball whose round is taller than its length of cut
    on record that round was. The least depth is 13.873, a shank stays .762 off."""
    shop = Shop(units="mm")
    slot = read_request("slot", {"width": "10", "depth": "14"}, shop, "mm")
    mill = Cutter(1, "end-mill", "end mill", diameter_mm=8.0, shank_mm=12.0, length_of_cut_mm=6.0, flutes=2,
                  centre_cutting=True, material="hss", condition="sharp", corner_radius_mm=0.0)
    for one, name, has in ((mill, "length of cut", 6.0), (mill.but(neck_mm=7.5, reach_mm=12.0), "reach", 12.0),
                           (mill.but(corner_radius_mm=4.0, length_of_cut_mm=3.9), "length of cut", 3.9)):
        [no] = advise(slot, (one,), shop).advice.refused
        assert f"{name} {has:.3f}, 14.635 is needed" in spelt(no.says, "mm") and no.has_mm == has
        assert no.short_mm == pytest.approx(14.635 - has)
    [no] = advise(slot, (mill.but(neck_mm=7.5, reach_mm=12.0),), shop).advice.refused
    assert spelt(no.fix, "mm") == "reach of 14.635 or more would do"


def test_every_refusal_says_why_and_what_would_do() -> None:
    """A sample of the trial: a no had one sentence and nothing refused, or a refusal no numbers, or two that read
    alike, or no word of what would do."""
    assert not trial(60, 11)


def test_numbers_that_read_alike_get_more_places() -> None:
    """".781 across is more than the head may be, .781"."""
    def read_as(one: float, other: float, units: str) -> list[str]:
        return [spelt(said("{mm}", mm=mm), units) for mm in apart(one, other)]

    assert read_as(25 / 32 * 25.4, 0.781 * 25.4, "in") == [".7813", ".7810"]
    assert read_as(12.7, 12.69999, "mm") == ["12.70000", "12.69999"] and read_as(1.0, 2.0, "mm") == ["1.000", "2.000"]


def test_an_end_mill_alone_is_refused_for_what_it_does_not_do() -> None:
    """A dovetail, a T-slot and a small hole with an end mill and nothing else: a sentence, and nothing refused."""
    mill = Cutter(1, "end-mill", diameter_mm=12.7, length_of_cut_mm=25.4, shank_mm=12.7, flutes=4, material="hss")
    for kind, texts in (("dovetail", {"angle": "60", "depth": "3/8", "width": "2"}), ("hole", {"diameter": "1/8"}),
                        ("t-slot", {"throat": "5/8", "depth": ".52", "head_width": ".975", "head_height": ".24"})):
        asked = read_request(kind, {"depth": "1/2", "length": "3", **texts}, Shop(), "in")
        answer = advise(asked, [mill.but(label="1/2 end mill")], Shop()).advice
        assert answer.answer == "cannot" and spelt(answer.says) and [one.cutter.id for one in answer.refused] == [1]


def test_what_was_held_back_is_named() -> None:
    """A no says which lines that were held back might be what lacks, and no others."""
    asked = read_request("dovetail", {"angle": "60", "depth": "3/8", "width": "2", "length": "3"}, Shop(), "in")
    lines = [("line 4 of gift.csv", "some odd DOVE-tail"), ("line 5 of gift.csv", "3/8 reamer"), ("line 6", "")]
    said = may_be(lines, draw_feature(asked))
    assert 'line 4 of gift.csv ("some odd DOVE-tail")' in said and "line 5" not in said and "held back" in said
    assert may_be(lines[1:], draw_feature(asked)) == ""


def test_a_slot_in_a_side_face_is_asked_with_its_edge() -> None:
    """`--edge` was there for slits only. With the work on its side Z counts from the near edge: to the slot's middle it
    is the edge's distance and half the width that is aimed at, 1/4 + .1915 / 2. Geometry."""
    disc = Cutter(1, "side-cutter", diameter_mm=101.6, face_mm=4.7625, bore_mm=25.4, material="hss", flutes=20)
    shop = Shop(arbors=(Arbor(25.4, 38.1),), spindle_rpm=(80, 135), stiffness="knee")
    texts = {"width": "3/16+.01-.002", "depth": "1/4", "length": "3", "material": "brass"}
    asked = read_request("slot", {**texts, "edge": "1/4"}, shop, "in")
    assert advise(asked, [disc], shop).advice.plans
    level = draw_feature(asked).level
    assert level is not None and round(level[0] / 25.4, 5) == 0.34575 and "near edge" in level[1]
    assert draw_feature(read_request("slot", texts, shop, "in")).level is None


def test_measured_sizes_keep_their_tenths() -> None:
    """A reamer of .2495 was called ".250 reamer", and a mill measured .6243 ".624"; fractions stay fractions."""
    for kind, inches, says in (("reamer", 0.2495, ".2495"), ("end-mill", 0.6243, ".6243"), ("end-mill", 0.5, "1/2")):
        cutter = Cutter(1, kind, diameter_mm=inches * 25.4, measured=("diameter_mm",))
        assert label(cutter, "in").startswith(f"{says} ")
