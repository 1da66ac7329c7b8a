"""What a foreman signs: a size is measured before the pass that makes it, a side cut goes as deep as a side cut can,
what is told of a picture is what the rule reads. Common practice, no source, where none is named."""

from __future__ import annotations

from math import ceil, cos, radians, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crib.cutters import in_doubt
from crib.cutters.base import Cutter
from crib.cutters.edges import is_serrated
from crib.features import KINDS
from crib.intake.build import amended
from crib.intake.shorthand import confirm, read_line
from crib.intake.shorthand.line import Shop as Spoken
from crib.machining.methods.cuts import Course
from crib.machining.tool import at_kindest
from crib.machining.words import Entry, Role
from crib.pages.scenes import scene_of
from crib.pages.setup_sheet import ready_for
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.closed.proved import way_words
from crib.planning.told.advice import Plan
from crib.shop import Shop, from_json
from tests.sheets import ALL, OWNED, SHOP, answered
from tests.slant_samples import chamfer_cutter, end_mill, named
from tests.spelt import spelt

IN = 25.4
BENCH = from_json(SHOP)


def plan(kind: str, *cutters: Cutter, shop: Shop = BENCH, **texts: str) -> Plan:
    return advise(read_request(kind, texts, shop, "in"), cutters, shop).advice.plans[0]


@given(st.sampled_from([20, 30, 45, 60]), st.sampled_from(["3/8", "1/2", ".6", "1"]))
def test_a_face_that_is_turned_level_is_measured_before_its_last_pass(angle: int, width: str) -> None:
    """It was cut in one bite to its width, .010 of band, from a touch on an edge that may be broken. Geometry: at w
    across its face it lies w sin a cos a under the edge, so what is measured is as wide as it is deep by then."""
    found = plan("bevel", end_mill(1, 0.75), angle=str(angle), width=width, material="6061")
    assert found.passes[-1].role == Role.FINISH
    before, after = found.checks[-2:]
    deep = -next(one for one in found.passes if one.no == before.after_no).z_mm
    per_width = sin(radians(angle)) * cos(radians(angle))
    assert before.reads_mm == pytest.approx(deep / per_width, abs=0.05)
    assert 0 < after.reads_mm - before.reads_mm < 0.06 * IN


@pytest.mark.parametrize("width", [".2", ".5", ".9"])
def test_a_tilted_groove_has_a_last_pass_of_its_own(width: str) -> None:
    """A small one went down to its drawn depth in a single bite, set by lines of the layout, and was measured when it
    was too late: a right angle is as wide across its mouth as it is deep on its flank, times the root of two."""
    found = plan("v-groove", end_mill(1, 0.75), angle="90", width=width, material="6061")
    *_, before, last = found.passes
    assert (before.x_mm, last.role) == (last.x_mm, Role.FINISH)
    assert 0 < before.z_mm - last.z_mm <= 0.0101 * IN
    check = next(one for one in found.checks if one.after_no == before.no)
    assert check.reads_mm == pytest.approx(-before.z_mm * 2**0.5, abs=0.03)


@pytest.mark.parametrize("size", ["1/16", ".1", ".2"])
def test_a_chamfer_is_measured_before_its_last_pass(size: str) -> None:
    """The flat at a point's tip is hard to mike and the edge may be broken: both show in the width of the face, which
    goes with how far the point is in (geometry), while there is still something left to take."""
    found = plan("chamfer", chamfer_cutter(1, 0.75, 90, 0.0), size=size, material="6061")
    before, after = (one for one in found.checks if spelt(one.what) == "width of the face")
    last = {one.no: one for one in found.passes}[after.after_no]
    at = {one.no: one for one in found.passes}[before.after_no]
    assert last.no == at.no + 1
    assert after.reads_mm - before.reads_mm == pytest.approx((at.z_mm - last.z_mm) * 2**0.5, abs=0.002)


@given(st.floats(0.02, 0.25), st.sampled_from([0.375, 0.5, 0.75]), st.sampled_from(["1018", "6061", "304"]))
def test_along_an_edge_a_narrow_cut_goes_as_deep_as_a_side_can(narrow: float, across: float, metal: str) -> None:
    """Of a rib a quarter as wide as the mill it took the bites of a mill that is buried, a hexagon five for each flat.
    At most a quarter wide it cuts with its side: one and a half diameters, and no more metal than buried."""
    mill = end_mill(1, across, tall=2 * across)
    width, depth = narrow * across, 1.4 * across
    found = plan("step", mill, width=f"{width:.4f}", depth=f"{depth:.4f}", material=metal)
    rough = [one for one in found.passes if one.role == Role.ROUGH]
    buried = plan("slot", mill, width=f"{across:.4f}", depth=f"{depth:.4f}", material=metal)
    bite = max(one.axial_mm for one in buried.passes if one.role == Role.ROUGH)
    for one in rough:
        assert one.axial_mm <= 1.5 * across * IN + 1e-6
        assert one.axial_mm * one.radial_mm <= bite * across * IN * 1.25
    tall = min(1.5 * across * IN, bite * across / width)
    assert len(rough) <= ceil(depth * IN / tall - 1e-6)


@pytest.mark.parametrize("name", ALL)
def test_the_picture_has_the_depth_that_is_measured(name: str) -> None:
    """A reamed hole's picture had its depth with half of the reamer's lead, a T-slot's only that of its throat, which a
    cutter with end teeth needn't go to the floor of: beside it stood what the rod should read."""
    found = answered(name, "in")
    scene = scene_of(found.proved[0])
    drawn = [one for one in scene.dimensions if one.name == "depth" and not one.across]
    read = [one for one in found.advice.plans[0].checks if spelt(one.what).split()[-1] == "depth"
            and one.low_mm is not None and not spelt(one.what).startswith("floor")]
    for line in drawn:
        for one in read:
            assert line.mm == pytest.approx(one.reads_mm, abs=0.002 * IN)


@pytest.mark.parametrize("name", ALL)
@pytest.mark.parametrize("dro", [False, True])
def test_one_place_is_one_setting_while_it_is_roughed(name: str, dro: bool) -> None:
    """-.0265 stood for the first level of a wall and -.027 for the next, both reckoned at the same place: whoever reads
    it looks for what the half thou is for."""
    found = answered(name, "in", dro).advice.plans[0]
    told: dict[tuple[int, str, float], set[float]] = {}
    for one in found.passes:
        if one.role in (Role.ROUGH, Role.FLOOR) and one.x_mm is not None:
            told.setdefault((one.cutter_id, one.room, round(one.x_mm, 5)), set()).add(one.dial_x_mm)
    assert all(len(settings) == 1 for settings in told.values())


@pytest.mark.parametrize("name", ALL)
def test_a_radius_gauge_is_laid_on_what_is_round(name: str) -> None:
    """A square mill that clears a step before a ball makes its cove leaves no round: the gauge was tried there."""
    found = answered(name, "in").advice.plans[0]
    cutters = {cutter.id: cutter for cutter in found.cutters}
    for one in found.passes:
        if "radius gauge" in spelt(one.says):
            cutter = cutters[one.cutter_id]
            assert cutter.corner_radius_mm or cutter.radius_mm


@given(st.sampled_from(sorted({cutter.kind for cutter in OWNED if cutter.angle_deg})), st.floats(5, 175),
       st.sampled_from([in_doubt.each_side, in_doubt.included, in_doubt.from_face]), st.floats(5, 175))
def test_an_angle_in_doubt_is_never_one_that_no_edge_has(kind: str, angle: float, asks: object, wanted: float) -> None:
    """A chamfer mill of 90 degrees whose angle was still asked about was drawn with twice that, a flat without an edge,
    and the question of a bevel ended with a failure of the program."""
    angle = round(angle, 1)
    cutter = named(1, kind, diameter_mm=0.75, face_mm=0.25, neck_mm=0.25, reach_mm=0.6, shank_mm=0.5, flutes=4,
                   tip_mm=0.02, bore_mm=1.0 if kind == "angle-cutter" else 0.0)
    cutter = cutter.but(angle_deg=angle, bore_mm=cutter.bore_mm or None, questions=(asks(angle),))  # type: ignore[operator]
    for one in in_doubt.unknown(cutter):
        assert all(0 < value < 180 for value in one.either)
    kindest = at_kindest(cutter, {kind: {"angle_deg": wanted}})
    assert kindest.angle_deg is not None and 0 < kindest.angle_deg < 180


def test_a_bevel_is_answered_where_a_chamfer_mill_is_still_asked_about() -> None:
    """The case that failed: a flat bevel wants a very blunt point, and twice 90 was the nearest to it."""
    cutter = chamfer_cutter(1, 0.5, 90, 0.0).but(tip_mm=None, questions=(in_doubt.included(90.0),))
    request = read_request("bevel", {"angle": "15", "width": "1", "material": "1018"}, BENCH, "in")
    assert advise(request, (cutter,), BENCH).advice.answer in ("cannot", "measure first")


@pytest.mark.parametrize(("kind", "texts", "deep"), [
    ("hole", {"diameter": ".375+.0006-0", "depth": "1", "finish": "reamed"}, 1.0),
    ("tapped-hole", {"thread": "1/4-20", "depth": "1/2", "material": "grey iron"}, 0.5),
    ("t-slot", {"throat": ".438", "depth": ".700", "head_width": "25/32", "head_height": "21/64"}, 0.7),
])
def test_the_picture_has_the_drawn_depth_whatever_the_last_cutter_leaves(kind: str, texts: dict[str, str], deep: float
                                                                         ) -> None:
    """1.023 stood for a hole reamed 1.000 deep, 17.2 mm for 16 of thread, 19.2 for a T-slot 22.5 deep."""
    owned = (*OWNED, named(401, "drill", diameter_mm=0.3594, length_of_cut_mm=2.5, shank_mm=0.3594))
    found = advise(read_request(kind, texts, BENCH, "in"), owned, BENCH)
    (line,) = (one for one in scene_of(found.proved[0]).dimensions if one.name == "depth")
    assert line.mm / IN == pytest.approx(deep, abs=0.006)


@pytest.mark.parametrize("note", ["corncob", "roughing", "hogger, from the auction"])
def test_a_roughing_mill_makes_no_finished_wall(note: str) -> None:
    """A corncob finished slots, steps and flats to size, and was the right cutter for the job: its serrations stay in
    the wall. It roughs where another finishes, as a chipped one does, and nobody is warned of it."""
    rougher = end_mill(1, 0.75).but(note=note)
    for kind, texts in (("slot", {"width": "7/8", "depth": "1/2"}), ("step", {"width": "1", "depth": "1/2"}),
                        ("facing", {"width": "2", "depth": ".05"}),
                        ("counterbore", {"diameter": ".750", "depth": "1/4", "hole": ".406"})):
        request = read_request(kind, texts, BENCH, "in")
        alone = advise(request, (rougher,), BENCH).advice
        assert alone.answer == "cannot" and "serrated" in spelt(alone.refused[0].says)
        both = advise(request, (rougher, end_mill(2, 0.75)), BENCH).advice
        made_by = {number for one in both.plans for face in one.proof.faces for number in face.cutter_ids}
        assert both.plans and rougher.id not in made_by


@pytest.mark.parametrize("name", ["slot", "t-slot", "step", "undercut", "dovetail", "counterbore", "keyseat", "facing",
                                  "flat-bottomed-hole", "v-groove"])
def test_serrated_edges_are_told_as_broken_ones_are(name: str) -> None:
    """Whatever is asked, and however it is found: by the same plans as if every roughing mill were chipped."""
    request = read_request(name, dict(KINDS[name].example), BENCH, "in")
    serrated = [one.but(note="rougher") if one.kind == "end-mill" else one for one in OWNED]
    broken = [one.but(condition="chipped") if one.kind == "end-mill" else one for one in OWNED]
    assert all(is_serrated(one) == (one.kind == "end-mill") for one in serrated)
    told, as_broken = (advise(request, owned, BENCH).advice for owned in (serrated, broken))
    assert told.answer == as_broken.answer or {told.answer, as_broken.answer} <= {"as drawn", "extra passes"}
    for one in told.plans:
        mills = {cutter.id for cutter in one.cutters if cutter.kind == "end-mill"}
        assert not mills & {number for face in one.proof.faces for number in face.cutter_ids}


@given(st.sampled_from(["3/8 end mill", "1/2 reamer", "1/4 4fl em"]), st.integers(1, 40), st.booleans(),
       st.sampled_from(["mic", "miked", "measures", "measured"]))
def test_what_is_said_to_be_miked_is_told_as_measured(what: str, under: int, longer: bool, word: str) -> None:
    """`1/4 em, mic .2492, loc 1/2` was held back, its .2492 taken for an overall length; and what mikes a thou or less
    under its name was told back as only stated, though it was kept as measured."""
    size = {"3/8": 0.375, "1/2": 0.5, "1/4": 0.25}[what.split()[0]] - under / 10_000
    more = ", loc 1" if longer and "reamer" not in what else ""
    line = read_line(f"{what}, {word} {size:.4f}{more}", Spoken("in"))
    cutter = line.taken[0].cutter
    assert cutter.diameter_mm == pytest.approx(size * IN, abs=1e-6) and "diameter_mm" in cutter.measured
    told = confirm(line, [cutter], "in")
    assert "stated" not in told and "measures" in told


@pytest.mark.parametrize(("strokes", "back"), [(1, True), (2, False), (3, True), (4, False)])
def test_an_odd_stroke_of_a_ramp_comes_back(strokes: int, back: bool) -> None:
    """One stroke down a ramp ends at the far end, with what slopes behind it left standing at the near one: it was told
    to go on from there, to the end that it had reached."""
    course = Course(((0, 0), (25_400_000, 0)), Entry.RAMP, 0, strokes, 1_000_000)
    (said, *_) = way_words(course, ((0.0, 0.0), (25.4, 0.0)), 0.0)
    assert ("and back at that depth" in spelt(said)) == back


def test_what_was_to_be_looked_at_is_settled_once_it_is_told() -> None:
    """The lead of a face mill's inserts was told with `amend --angle 90`, and was asked about for ever after."""
    asks = "do its inserts stand square to the wall, or lean? say 90 or 45 degrees"
    mill = named(1, "face-mill", diameter_mm=2.0, bore_mm=0.75, flutes=4).but(questions=(asks,))
    assert asks in amended(mill, {"flutes": 5}, "USD").questions
    assert asks not in amended(mill, {"angle_deg": 90.0}, "USD").questions


@pytest.mark.parametrize("name", ["v-groove", "bevel", "slot", "facing"])
def test_what_the_work_is_tilted_by_is_had_ready(name: str) -> None:
    """The sheet said to tilt by sine bar or protractor and had neither among what to get out."""
    found = answered(name, "in")
    says = " ".join(spelt(one) for one in ready_for(found.advice.plans[0], found.proved[0], ()))
    assert ("sine bar" in says) == ("sine bar" in spelt(found.advice.plans[0].hold))


@pytest.mark.parametrize(("below", "grave"), [(".02", "caution"), (".05", "warn"), (".13", None)])
def test_a_wide_floor_that_is_left_thin_springs(below: str, grave: str | None) -> None:
    """Under a pocket 1 in wide and .375 deep .05 was left without a word: less than an eighth of its depth counts, as
    of a wall, and of its width (common practice, no source)."""
    texts = {"width": "1", "length": "2", "depth": "3/8", "corner_radius": "5/16", "below": below}
    mill = Cutter(1, "end-mill", label="1/2 mill", diameter_mm=12.7, flutes=2, shank_mm=12.7, length_of_cut_mm=30.0,
                  material="hss", condition="sharp", centre_cutting=True)
    plan = advise(read_request("pocket", texts, Shop(), "in"), (mill,), Shop()).advice.plans[0]
    assert [one.grade for one in plan.warnings if one.id == "WL2"] == ([grave] if grave else [])


def test_what_is_assumed_is_told_once() -> None:
    """`a collet for the .500 shank: no collets on record` stood as often as there were cutters."""
    texts = {"throat": ".5", "depth": "1", "head_width": ".9+.02-.02", "head_height": ".3", "length": "4"}
    mill = Cutter(1, "end-mill", label="1/2 mill", diameter_mm=12.7, flutes=2, shank_mm=12.7, length_of_cut_mm=30.0,
                  material="hss", condition="sharp")
    disc = Cutter(2, "t-slot-cutter", label="disc", diameter_mm=22.5, face_mm=7.4, neck_mm=9.0, reach_mm=30.0,
                  shank_mm=12.7, material="hss", condition="sharp")
    plan = advise(read_request("t-slot", texts, Shop(), "in"), (mill, disc), Shop()).advice.plans[0]
    said = list(map(spelt, plan.assumed))
    assert any("no collets on record" in one for one in said) and len(said) == len(set(said))
