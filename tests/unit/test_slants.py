"""What leans: staircases, corners, mirror images, what isn't known, and sizes that can't be together."""

from __future__ import annotations

from math import radians, tan

import pytest

from crib.buying.candidates import candidates
from crib.cutters.base import Cutter
from crib.features import draw
from crib.features.base import Feature
from crib.findings.errors import CribError
from crib.geometry.operation import Operation, Work
from crib.geometry.prove import prove
from crib.geometry.silhouette import Part, Silhouette
from crib.geometry.trace import Trace
from crib.pages.answer import page
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.to_mic import Pending, to_mic
from crib.planning.told.advice import Advice
from crib.shop import Shop
from crib.units import nm
from tests.shown import shown
from tests.slant_samples import CRIB, IN, MILLS, chamfer_cutter, dovetail_cutter, named, pointed
from tests.spelt import spelt

SLOT = {"angle": "60", "width": "1.5", "depth": ".300", "material": "mild steel"}
SLIDE = {"angle": "60", "width": "1.0", "height": ".300", "material": "mild steel"}


def asked(kind: str, texts: dict[str, str], *cutters: Cutter, **more: str) -> Advice:
    return advise(read_request(kind, {**texts, **more}, Shop(), "in"), cutters, Shop()).advice


def drawn(kind: str, **texts: str) -> Feature:
    return draw(read_request(kind, texts, Shop(), "in"))


def disc(radius: float, face: float) -> Silhouette:
    """A plain disc [in]."""
    part = Part("teeth", 0, nm(face * IN), nm(radius * IN), nm(radius * IN))
    return Silhouette((part,), (part,))


def cone(diameter: float, face: float) -> Silhouette:
    """A disc whose edge leans inwards at 60 degrees from its lower face [in]."""
    half = diameter / 2
    part = Part("teeth", 0, nm(face * IN), nm(half * IN), nm((half - face / tan(radians(60))) * IN))
    return Silhouette((part,), (part,))


def cut(feature: Feature, *steps: tuple[Silhouette, float, float]) -> Trace:
    return prove(Work(feature.outline), [Operation.along(form, nm(x * IN), nm(z * IN), number)
                                         for number, (form, x, z) in enumerate(steps)])


SHALLOW = {"angle": "60", "width": "1+-.010", "depth": ".060"}


def staircase(levels: int) -> list[tuple[Silhouette, float, float]]:
    """The flanks of a shallow dovetail in so many steps, each as far inside the flank at its top as outside at its
    foot, the slot between them opened before."""
    rise = 0.060 / levels
    steps = [(disc(0.45, 0.5), 0.0, -0.060)]
    for level in range(levels):
        edge = 0.5 - (level + 0.5) * rise / tan(radians(60))
        steps += [(disc(0.2, rise), side * (edge - 0.2), -0.060 + level * rise) for side in (1, -1)]
    return steps


def test_a_staircase_is_no_flank() -> None:
    """Four levels .060 high stay inside .005 to each side of the flank, gouge nothing and leave nothing; and still the
    proof refuses them. One edge that lies along the flank is what it takes."""
    found = cut(drawn("dovetail", **SHALLOW), *staircase(4))
    assert found.left_kept == 0 and found.gouge == 0 and not found.rubs
    flanks = [made for made in found.faces if "flank" in made.face.name]
    assert all(not made.is_along and made.off <= nm(0.005 * IN) for made in flanks)
    assert all(made.runs and max(map(abs, made.runs)) < 10_000 for made in flanks), "upright"
    assert all(made.joints == 3 for made in flanks) and not found.holds
    right = cut(drawn("dovetail", **SHALLOW), (disc(0.45, 0.5), 0, -0.060), (cone(0.75, 0.08), 0.125, -0.060),
                (cone(0.75, 0.08), -0.125, -0.060))
    assert right.holds and all(made.is_along and not made.joints for made in right.faces if "flank" in made.face.name)


@pytest.mark.parametrize("levels", [8, 20, 60])
def test_no_staircase_is_fine_enough(levels: int) -> None:
    assert not cut(drawn("dovetail", **SHALLOW), *staircase(levels)).holds


def test_part_of_a_flank_in_steps_is_none_either() -> None:
    """A leaning edge for the most of it doesn't make up for steps at its foot."""
    whole = [(disc(0.45, 0.5), 0.0, -0.060), (cone(0.75, 0.08), 0.125 - 0.03 / tan(radians(60)), -0.030),
             (cone(0.75, 0.08), -0.125 + 0.03 / tan(radians(60)), -0.030)]
    foot = [step for step in staircase(4) if step[2] < -0.040]
    found = cut(drawn("dovetail", **SHALLOW), *whole, *foot)
    assert found.left_kept == 0 and found.gouge == 0 and not found.holds


def test_the_two_sides_of_a_slide_are_mirror_images() -> None:
    plan = asked("dovetail-slide", SLIDE, *CRIB).plans[0]
    back = [one for one in plan.passes if one.room.startswith("back")]
    front = [one for one in plan.passes if one.room.startswith("front")]
    assert len(back) == len(front) > 3
    for one, other in zip(back, front, strict=True):
        assert (one.x_mm, one.z_mm, one.radial_mm, one.role) == (-other.x_mm, other.z_mm, other.radial_mm, other.role)
        assert (one.feed, other.feed) == ("left", "right") and one.direction == other.direction == "conventional"


def test_mirrored_twice_is_the_same() -> None:
    for kind, texts in (("dovetail-slide", SLIDE), ("dovetail", {**SLOT, "gib": "1/8", "corner_relief": "1/32"}),
                        ("chamfer", {"size": ".1", "angle": "30"})):
        outline = drawn(kind, **texts).outline
        other = outline.mirrored
        assert other.mirrored == outline and (kind == "dovetail-slide") == (other.least == outline.least)
        assert other.least.area == outline.least.area and other.keep.mirrored.area == outline.keep.area


def test_a_rounded_corner_leaves_metal_or_finds_relief() -> None:
    """A corner radius of .015 leaves .015 (1 / sin 30 - 1) = .015 from its arc to the corner (geometry); with relief
    for it nothing is given away. The flanks stand where they should either way."""
    worn = dovetail_cutter(9, 0.75, 60, 0.3125, 0.375, corner=0.015)
    left = asked("dovetail", {**SLOT, "width": "1.5+0-0", "depth": ".3+0-0"}, *MILLS, worn).plans[0]
    gives = next(one for one in left.deviations if "corner" in spelt(one.says))
    assert left.answer == "compromise" and gives.has_mm / IN == pytest.approx(0.015, abs=3e-4)
    ends = [one.x_mm / IN for one in left.passes if one.room == "flanks"]
    sharp = 0.75 + 2 * 0.015 * (1 / tan(radians(30)) - 1)
    assert max(ends) == pytest.approx((1.5 - sharp) / 2, abs=1e-5)
    relieved = asked("dovetail", SLOT, *MILLS, worn, corner_relief="1/32").plans[0]
    assert relieved.answer == "as drawn" and not relieved.deviations


def test_an_angle_that_is_not_known_is_asked() -> None:
    """No default: the kindest is what the drawing wants, whatever that is."""
    unmarked = dovetail_cutter(9, 0.75, 60, 0.3125, 0.375).but(angle_deg=None)
    for angle in ("60", "55", "45"):
        found = asked("dovetail", {**SLOT, "angle": angle}, *MILLS, unmarked)
        assert found.answer == "measure first" and not found.plans
        one = next(one for one in found.refused if one.cutter.id == 9)
        assert one.answer == "measure first" and "angle" in spelt(one.says)


def test_a_double_angle_cutter_is_no_dovetail() -> None:
    """60 between its sides is 30 on each from its middle."""
    double = named(9, "angle-cutter", diameter_mm=1.0, angle_deg=60.0, face_mm=0.3125, bore_mm=0.25,
                   note="double angle")
    found = asked("dovetail", SLOT, *MILLS, double)
    assert found.answer == "cannot" and next(one for one in found.refused if one.cutter.id == 9).id == "AN1"


def test_a_stub_arbor_wants_room_below() -> None:
    """Its screw stands in the floor of a slot; beside a slide it hangs over the edge of narrow shoulders."""
    single = named(9, "angle-cutter", diameter_mm=1.25, angle_deg=60.0, face_mm=0.375, bore_mm=0.25)
    assert asked("dovetail", {**SLOT, "width": "2"}, *MILLS, single).answer == "cannot"
    plan = asked("dovetail-slide", {**SLIDE, "shoulder": ".25"}, *MILLS, single).plans[0]
    assert plan.answer == "extra passes" and "angle cutter" in plan.way


@pytest.mark.parametrize(("kind", "flutes", "rules"), [
    ("countersink", 3, {"CH2"}), ("countersink", 6, {"CH2", "CH3"}), ("chamfer-cutter", 4, {"CH3"}),
    ("chamfer-cutter", 5, set())])
def test_what_chatters_along_an_edge(kind: str, flutes: int, rules: set[str]) -> None:
    cutter = named(9, kind, diameter_mm=0.5, angle_deg=90.0, tip_mm=0.0625, shank_mm=0.5, flutes=flutes)
    plan = asked("chamfer", {"size": ".06"}, cutter).plans[0]
    assert {one.id for one in plan.warnings} & {"CH2", "CH3"} == rules
    assert plan.answer == ("as drawn" if kind == "chamfer-cutter" else "extra passes")


def test_a_cone_too_short_for_the_leg() -> None:
    """A cone of .219 with .020 to hang below takes a leg of .199 at the most."""
    cutter = chamfer_cutter(9, 0.5, 90, 0.0625)
    assert asked("chamfer", {"size": ".195+0-0"}, cutter).plans
    found = asked("chamfer", {"size": ".200+0-0"}, cutter)
    assert found.answer == "cannot" and found.refused[0].id == "CN1"
    assert found.refused[0].has_mm == pytest.approx(0.21875 * IN, abs=1e-5)


def test_something_that_stands_beside_the_edge() -> None:
    """A wall nearer than the cutter's widest leaves it no room."""
    cutter = chamfer_cutter(9, 0.5, 90, 0.0625)
    assert asked("chamfer", {"size": ".1", "wall": "1@.5"}, cutter).plans
    assert not asked("chamfer", {"size": ".1", "wall": "1@.2"}, cutter).plans


@pytest.mark.parametrize(("kind", "texts", "words"), [
    ("dovetail", {"angle": "90", "width": "1", "depth": ".3"}, "not between 0 and 90"),
    ("dovetail", {"angle": "0", "width": "1", "depth": ".3"}, "not between 0 and 90"),
    ("dovetail", {"angle": "sixty", "width": "1", "depth": ".3"}, "not an angle"),
    ("dovetail", {"angle": "-60", "width": "1", "depth": ".3"}, "not an angle"),
    ("dovetail", {"width": "1", "depth": ".3"}, "needs its angle"),
    ("dovetail", {"angle": "60", "depth": ".3"}, "needs the width across"),
    ("dovetail", {"angle": "60", "width": "1", "depth": ".9"}, "no mouth"),
    ("dovetail", {"angle": "60", "width": "1", "opening": ".9", "depth": ".3"}, "contradict"),
    ("dovetail", {"angle": "60", "width": "1.5", "depth": ".3", "pin": "1/2"}, "too big"),
    ("dovetail", {"angle": "60", "width": "1", "depth": ".3125", "pin": "3/8"}, "side by side"),
    ("dovetail", {"angle": "60", "between_pins": "1", "depth": ".3"}, "needs the pins"),
    ("dovetail-slide", {"angle": "60", "width": "1", "top": "1.2", "height": ".3"}, "contradict"),
    ("dovetail-slide", {"angle": "60", "top": ".3", "height": ".3"}, "no root"),
    ("dovetail-slide", {"angle": "60", "over_pins": "2", "height": ".3", "pin": "3/4"}, "too big"),
    ("chamfer", {"size": ".1", "angle": "95"}, "not between 0 and 90"),
    ("chamfer", {"angle": "45"}, "needs its size"),
    ("v-groove", {"angle": "180", "width": ".4"}, "not between 0 and 180"),
    ("dovetail", {"angle": "60±70", "width": "1", "depth": ".3"}, "more than the angle bears"),
    ("dovetail", {"angle": "60", "width": "1", "depth": ".3", "corner_relief": "a bit"}, "not a length"),
])
def test_sizes_that_cannot_be(kind: str, texts: dict[str, str], words: str) -> None:
    with pytest.raises(CribError, match=words):
        drawn(kind, **texts)


@pytest.mark.parametrize(("kind", "texts", "cutters"), [
    ("dovetail", SLOT, CRIB), ("dovetail-slide", SLIDE, CRIB), ("chamfer", {"size": ".1"}, CRIB),
    ("v-groove", {"angle": "90", "width": ".4"}, (pointed(9, "spot-drill", 0.5, 90),))])
def test_the_page_and_the_sizes_that_it_tells(kind: str, texts: dict[str, str], cutters: tuple[Cutter, ...]) -> None:
    found = asked(kind, texts, *cutters, chamfer_cutter(20, 0.5, 90, 0.0625))
    assert found.feature["angle_deg"] == float(texts.get("angle", 45))
    rows = shown(page(found))
    assert all(len(row) <= 100 for row in rows) and f"angle {float(texts.get('angle', 45)):g}°" in "\n".join(rows)
    assert found.plans


@pytest.mark.parametrize(("kind", "texts", "angle"), [
    ("dovetail", {**SLOT, "angle": "55"}, 55), ("dovetail-slide", {**SLIDE, "angle": "45"}, 45),
    ("chamfer", {"size": ".1", "angle": "30"}, 60), ("v-groove", {"angle": "60", "width": ".4"}, 60)])
def test_what_could_be_bought_makes_it(kind: str, texts: dict[str, str], angle: float) -> None:
    """What is proposed for a feature has its angle, and makes it: as drawn where no tip is left in a root."""
    found = [one.cutter for one in candidates(drawn(kind, **texts), Shop()) if one.cutter.kind != "end-mill"]
    assert {one.angle_deg for one in found} == {angle}
    assert asked(kind, texts, *MILLS, *found).answer == ("compromise" if kind == "v-groove" else "as drawn")


def test_to_mic_asks_for_the_angle_that_is_wanted() -> None:
    """Which of the unknown a question turns on is tried at what that question wants, not at what is usual."""
    unmarked = dovetail_cutter(9, 0.75, 55, 0.3125, 0.25).but(angle_deg=None)
    request = read_request("dovetail", {**SLOT, "angle": "55"}, Shop(), "in")
    found = to_mic([Pending(1, request)], (*MILLS, unmarked), Shop())
    assert [one.cutter.id for one in found.measures] == [9] and not found.measures[0].turns[0].at


@pytest.mark.parametrize("angle", [60, 82, 90, 120])
def test_a_v_groove_is_as_wide_as_its_depth_makes_it(angle: float) -> None:
    """Geometry: width = 2 depth tan(A/2); its limits go the same way."""
    texts = {"angle": f"{angle}", "material": "1018"}
    deep = draw(read_request("v-groove", texts | {"depth": ".25+.004-0"}, Shop(), "in"))
    times = 2 * tan(radians(angle / 2))
    [width] = deep.dimensions
    assert [width.size.lo, width.size.hi] == pytest.approx([0.25 * times * 25.4, 0.254 * times * 25.4])
    wide = draw(read_request("v-groove", texts | {"width": f"{width.size.lo}mm+{width.size.band}-0"}, Shop(), "in"))
    assert wide.outline == deep.outline


def test_a_width_and_a_depth_that_contradict_each_other_are_told() -> None:
    with pytest.raises(CribError, match="contradict each other"):
        draw(read_request("v-groove", {"angle": "90", "width": "1/2", "depth": "5/16"}, Shop(), "in"))
