"""Plans for the row of tapped holes that sets a gib."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import pi, radians, tan

from crib.cutters.base import Cutter, Down
from crib.features.base import Request
from crib.features.gib_screw_holes import DIRECTIONS, LAND_DEPTH_MM, angle_of, exit_run, exit_slope, number_of, wall_of
from crib.features.rounds import choice, rod
from crib.features.tapped_hole import reading_of
from crib.findings.finding import Deviation, Figure, Finding
from crib.findings.message import InWords, Mm, Text, joined, said
from crib.geometry.outline import Outline
from crib.geometry.region import FAR, box
from crib.handbook import gib_screws
from crib.handbook.points import keep_below, point_length
from crib.handbook.threads import Thread
from crib.planning.holes.draft import Draft, Question, Stroke
from crib.planning.holes.strokes import held
from crib.planning.holes.tapped_holes import tapped_drafts
from crib.tapping.shape import TapAdvice
from crib.units import Size, nm

_LARGEST_DIMPLE_MM = 25.4 / 16
_LAND_OVER = 1.4
_FILED = (Finding("HF1", "warn", "lands for the nuts are filed: square to the hole, tried with the nut and blue"),)
STEEP_DEG = 10.0
"""A drill doesn't start on a slope beyond this [deg]: it wants a flat first. Common practice."""


def gib_drafts(question: Question, cutters: Sequence[Cutter], advice: TapAdvice) -> Iterator[Draft]:
    """The row of holes: land, drill, transfer to the gib, countersink, tap; the same for each."""
    request = question.feature.request
    number = number_of(request, advice.thread)
    for draft in tapped_drafts(question, cutters, advice):
        lands = list(_lands(question, cutters, draft))[:1]
        cut = [stroke for stroke in draft.strokes if stroke.role != "tap"]
        before = bool(lands) and lands[0].tool.cutter.kind == "end-mill"
        taps = [stroke for stroke in draft.strokes if stroke.role == "tap"]
        dimple = list(_transfer(question, advice, cut))
        given_away = () if lands else (Deviation("no cutter for the nut's land: file it", LAND_DEPTH_MM, 0.0),)
        answer = "compromise" if given_away else draft.answer
        square = is_square(request)
        tilt = 90 - angle_of(request)
        yield replace(
            draft,
            answer=answer,
            way=f"{number} holes: {draft.way}",
            strokes=tuple(_in_order(lands, before, cut, dimple, taps)),
            warnings=(*draft.warnings, *_slope(question, bool(lands)), *_breaks_out(question, advice.thread),
                      *(() if lands else _FILED),
                      *_gib_warnings(question, advice.thread, bool(dimple))),
            deviations=given_away,
            figures=(*_gib_figures(question, advice.thread, number, dimple), *draft.figures),
            assumed=tuple(_gib_assumed(question, advice.thread)) + draft.assumed,
            number=number,
            setup=f"on its side, tilted {tilt:g} degrees: the flank level" if square else "on its side",
            tilted=square,
            filed_mm2=0.0 if lands else pi / 4 * _land_mm(question) ** 2,
        )


def _land_mm(question: Question) -> float:
    """How wide the land of a nut must be [mm]."""
    nut = question.feature.request.sizes.get("nut")
    return gib_screws.land(nut.mid) if nut else 2 * reading_of(question.feature.request).thread.major_mm


def is_square(request: Request) -> bool:
    """Whether the screws stand square to the flank."""
    return choice(request, "direction", DIRECTIONS) == "square"


def is_sloped(request: Request) -> bool:
    """Whether the holes then meet the side of the slide too far from square for a drill to start."""
    return is_square(request) and 90 - angle_of(request) > STEEP_DEG


def _in_order(lands: Sequence[Stroke], before: bool, cut: Sequence[Stroke], dimple: Sequence[Stroke],
              taps: Sequence[Stroke]) -> Iterator[Stroke]:
    """The land before the hole with an end mill, after it with a counterbore, whose pilot wants the hole; the dimples
    through the drilled hole, before its mouth is opened and it is tapped."""
    made = [stroke for stroke in cut if stroke.role != "countersink"]
    yield from (*lands, *made) if before else (*made, *lands)
    yield from dimple
    lower = LAND_DEPTH_MM if lands else 0.0
    yield from (replace(stroke, z_mm=stroke.z_mm - lower) for stroke in cut if stroke.role == "countersink")
    yield from taps


def _lands(question: Question, cutters: Sequence[Cutter], draft: Draft) -> Iterator[Stroke]:
    """Cutters for the land, the smallest that is wide enough first: end mills that plunge, counterbores whose pilot
    goes into the drilled hole."""
    hole = next((s.tool.form.radius / 5e5 for s in reversed(draft.strokes) if s.role in ("drill", "ream", "bore")), 0.0)
    least = _land_mm(question)
    wide = [c for c in cutters if c.diameter_mm is not None and least <= c.diameter_mm <= _LAND_OVER * least]
    for cutter in sorted(wide, key=lambda c: (c.diameter_mm or 0.0, c.id)):
        if cutter.kind == "counterbore" and is_sloped(question.feature.request):
            continue
        plunges = cutter.kind == "end-mill" and cutter.centre_cutting and (cutter.corner_radius_mm or 0.0) <= 0.5
        if not plunges and not (cutter.kind == "counterbore" and (cutter.pilot_mm or 0.0) <= hole):
            continue
        found = held(question, cutter, Down.COUNTERBORING, cutter.diameter_mm or 0.0)
        if found:
            says = "clean up a land for the nut, square to the hole; lock X and Y"
            yield Stroke(found, "spotface", "land", -LAND_DEPTH_MM, says)


def _transfer(question: Question, advice: TapAdvice, cut: Sequence[Stroke]) -> Iterator[Stroke]:
    """The dimple in the gib, drilled through the hole with the tap drill, to its full cone or 1/16 at the most."""
    request = question.feature.request
    gib = request.sizes.get("gib")
    drill = next((stroke for stroke in reversed(cut) if stroke.tool.cutter.kind == "drill"), None)
    if gib is None or drill is None:
        return
    wall = wall_of(request, advice.thread)
    deep = _dimple(drill, gib)
    if deep <= 0:
        return
    across = drill.tool.form.radius / 5e5
    stock = box(-FAR, -nm(wall.mid + gib.mid), FAR, -nm(wall.mid))
    most = rod(across, wall.mid + deep + 0.05)
    outline = Outline(stock=stock, least=rod(0.1, 0.0), aim=most, most=most, rooms=())
    says = "gib clamped with its shim: dimple it through the hole, number it, mark its end"
    yield Stroke(drill.tool, "transfer", "gib", -(wall.mid + deep), says, on=outline)


def _dimple(drill: Stroke, gib: Size) -> float:
    size = drill.tool.cutter.diameter_mm or 0.0
    cone = point_length(size, drill.tool.cutter.angle_deg or 118.0)
    return min(cone, _LARGEST_DIMPLE_MM, gib.mid - keep_below(size))


def _gib_figures(question: Question, thread: Thread, number: int, dimple: Sequence[Stroke]) -> Iterator[Figure]:
    request, units = question.feature.request, question.shop.units
    length = request.length or 6 * 25.4
    along = joined(", ", (said("{x}", x=Mm(x)) for x in gib_screws.places(length, number, thread.major_mm)))
    yield Figure("from the gib's end", value=along)
    yield Figure("height over the floor, middle of the flank", request.size("height").mid / 2)
    wall = wall_of(request, thread)
    deep = -dimple[0].z_mm - wall.mid if dimple else 0.0
    step = 25.4 / 8 if units == "in" else 5.0
    long = gib_screws.screw_length(wall.mid, deep, thread.major_mm, thread.pitch_mm, step)
    yield Figure("set screw", value=said("{long} long", long=InWords(long)))
    if key := gib_screws.hex_key(thread.name):
        yield Figure("its key", value=key)
    nut = request.sizes.get("nut")
    if nut:
        yield Figure("land for the nut", gib_screws.land(nut.mid))
    if dimple:
        yield Figure("transfer punch, if one is used", (dimple[0].tool.cutter.diameter_mm or 0.0) - 0.005 * 25.4)


def _slope(question: Question, has_land: bool) -> Iterator[Finding]:
    """HO2: a slope is made flat with an end mill before anything is drilled on it."""
    request = question.feature.request
    if not is_sloped(request):
        return
    tilt = 90 - angle_of(request)
    if not has_land:
        yield Finding("HO2", "stop", f"square to the flank the holes meet the side {tilt:g} degrees from square: no "
                      "drill starts there, and no end mill that plunges is wide enough for a flat. Level ones would go")
        return
    nut = request.sizes.get("nut")
    across = gib_screws.land(nut.mid) if nut else 2 * reading_of(request).thread.major_mm
    deep = Mm(across * tan(radians(tilt)))
    yield Finding("HO2", "caution", said("the flat comes first: on a slope of {tilt:g} degrees it is {deep} deep on "
                                         "its far side; Z counts from where it is clean all round", tilt=tilt,
                                         deep=deep))


def _breaks_out(question: Question, thread: Thread) -> Iterator[Finding]:
    """HO3: a drill that comes out on a slope is pushed aside, and isn't through until its far side is."""
    request = question.feature.request
    slope = exit_slope(request)
    if slope > STEEP_DEG:
        wall = wall_of(request, thread).mid
        far = Mm(wall + exit_run(request, thread))
        yield Finding("HO3", "caution", said("drill and tap come out on a flank that leans {slope:g} degrees from "
                                             "square: {wall} on the axis, {far} at the far side. As the point breaks "
                                             "through it is pushed aside: a stiff drill, table and cross locked, fed "
                                             "by hand and slowly for the last of it", slope=slope, wall=Mm(wall),
                                             far=far))


def _gib_warnings(question: Question, thread: Thread, dimpled: bool) -> Iterator[Finding]:
    request = question.feature.request
    height, wall = request.size("height").mid, wall_of(request, thread).mid
    nut = request.sizes.get("nut")
    half = (gib_screws.across_corners(nut.mid) / 2 + 0.030 * 25.4) if nut else 0.0
    if half > height / 2:
        wants, has = Mm(half), Mm(height / 2)
        yield Finding("GB1", "caution", said("the nut wants {wants} from the screw to each edge of the flank, there "
                                             "is {has}: look that it clears the shoulder", wants=wants, has=has))
    least = thread.major_mm / 2 + 0.06 * 25.4
    if height / 2 < least:
        yield Finding("GB2", "caution", said("the screw stands {height} over the floor, {least} is the least",
                                             height=Mm(height / 2), least=Mm(least)))
    need = gib_screws.least_thread(thread.major_mm, question.material.group == "steel")
    if wall < need:
        yield Finding("GB3", "caution", said("only {wall} of thread: {need} is wanted in {name}", wall=Mm(wall),
                                             need=Mm(need), name=question.material.name))
    yield Finding("GB4", "note", "never drill into the male slide: gib and male out while the wall is drilled, a depth "
                  "stop for the dimples")
    yield Finding("GB5", "caution", "a burr inside the flank lifts the gib: stone it off after tapping")
    if not dimpled:
        yield Finding("GB6", "caution", "the gib isn't dimpled: --gib THICKNESS, a cone and .030 under it at the least")
    else:
        yield Finding("GB6", "note", "points: 90 degree cone or ball in the dimples; hardened points dig into a soft "
                      "gib: brass tips")


def _gib_assumed(question: Question, thread: Thread) -> Iterator[Text]:
    request = question.feature.request
    if "thickness" not in request.sizes:
        wall = Mm(wall_of(request, thread).mid)
        yield said("wall {wall} (1.5 diameters): --thickness wasn't given; it sets the depth stop and the screw's "
                   "length", wall=wall)
    if "number" not in request.said:
        yield said("as many screws as keep them within {x} of each other, from memory", x=Mm(50.8))
    if "direction" not in request.said:
        yield "screws level, points in oval dimples: copy the old ones, or --direction square for square to the flank"
    if request.length is None:
        yield said("gib {x} long: --length wasn't given", x=Mm(6 * 25.4))
