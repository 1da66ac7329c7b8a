"""Tapped holes through the side of a slide for the screws that set its gib, each with a land for a jam nut."""

from __future__ import annotations

from itertools import pairwise
from math import inf, radians, tan

from crib.features.base import CallsFor, Dimension, Feature, FeatureKind, OptionSpec, SizeSpec, refuse
from crib.features.counts import number_in
from crib.features.down import HOLE, GibScrews, Thread
from crib.features.request import Request
from crib.features.rounds import choice, rod, room
from crib.features.speech import Speech
from crib.features.tapped_hole import RIM_MM, drawn_thread, reading_of
from crib.findings.errors import CribError
from crib.findings.message import InWords, said
from crib.geometry.axis_view import disc
from crib.geometry.outline import Outline, Waiver
from crib.geometry.region import FAR, Region, box, trapezoid
from crib.handbook.gib_screws import land, places, screws_for
from crib.light.hints import TYPE_CHECKING
from crib.light.records import replace
from crib.units import Size, as_basic, nm

if TYPE_CHECKING:
    from crib.handbook.threads import Thread as ThreadForm

DIRECTIONS = ("level", "square")
LAND_DEPTH_MM = 0.020 * 25.4
_WALL_SHARE = 1.5
LENGTH_MM = 6 * 25.4

THIN_GIB_MM = 0.1875 * 25.4
"""Under this a gib springs [mm]. Common practice, no source."""


def wall_of(request: Request, thread: ThreadForm) -> Size:
    """The wall that the screws go through; 1.5 D where it wasn't given."""
    given = request.sizes.get("thickness")
    return given or as_basic(_WALL_SHARE * thread.major_mm, "assumed")


def number_of(request: Request, thread: ThreadForm) -> int:
    """How many holes: as asked, else as many as the length wants. Raises `CribError` for no such number."""
    text = request.said.get("number")
    if text is None:
        return screws_for(request.length or LENGTH_MM, thread.major_mm)
    return number_in(text, "holes", 1, 99, "--number 4")


def angle_of(request: Request) -> float:
    """The flank's angle from the floor [deg]. Raises `CribError`."""
    text = request.said.get("angle", "60").lower().removesuffix("deg").removesuffix("°").strip()
    try:
        angle = float(text)
    except ValueError:
        angle = 0.0
    if not 30 <= angle <= 90:
        raise CribError("angle", f"angle {text!r} is no dovetail's", text, "degrees from the floor: --angle 60")
    return angle


def exit_slope(request: Request) -> float:
    """How far the flank that the holes come out of leans from square to them [deg]: nought where they are square to
    it. Raises `CribError`."""
    return 90 - angle_of(request) if choice(request, "direction", DIRECTIONS) == "level" else 0.0


def exit_run(request: Request, thread: ThreadForm) -> float:
    """How much deeper than on its axis a hole of the thread's diameter is at the far side of the slope [mm].

    r tan(slope). References: geometry. Computed here: 1/4 in, 30 degrees, .0722 in.
    """
    return thread.major_mm / 2 * tan(radians(exit_slope(request)))


def _slide(wall: Size, slope_deg: float, reach_mm: float) -> Region:
    """The side of the slide before: flat above, below the flank as far as the holes go, at its slope."""
    edge, run = nm(reach_mm), nm(reach_mm * tan(radians(slope_deg)))
    if not run:
        return box(-FAR, -nm(wall.mid), FAR, 0)
    low, high = -nm(wall.mid) - run, -nm(wall.mid) + run
    return box(-FAR, min(high, 0), FAR, 0) | trapezoid(low, high, edge, edge + 1, -edge, edge + 1) | box(
        edge, low, FAR, high) - box(-FAR, 0, FAR, FAR)


def _screws(request: Request, thread: ThreadForm, wall: Size, face_mm: float) -> GibScrews:
    """What the holes ask beside their threads."""
    nut = request.sizes.get("nut")
    said = {*request.sizes, *request.said, *(() if request.length is None else ("length",))}
    return GibScrews(
        along_mm=places(request.length or LENGTH_MM, number_of(request, thread), thread.major_mm),
        height_mm=request.size("height").mid,
        wall_mm=wall.mid,
        gib=request.sizes.get("gib"),
        nut_mm=nut.mid if nut else None,
        land_mm=face_mm,
        land_deep_mm=LAND_DEPTH_MM,
        starts_deg=90 - angle_of(request) - exit_slope(request),
        exits_deg=exit_slope(request),
        exits_mm=exit_run(request, thread),
        assumed=frozenset({"thickness", "number", "direction", "length"} - said),
    )


def _outline(request: Request, thread: ThreadForm, wall: Size, face: float) -> Outline:
    """One hole in its wall, with the land that its nut stands on."""
    through = replace(request, said={**request.said, "through": "yes"})
    _, aim, most = drawn_thread(thread, through, wall)
    top = rod(face, LAND_DEPTH_MM)
    stock = _slide(wall, exit_slope(request), thread.major_mm)
    rim = nm((thread.major_mm + 3 * RIM_MM) / 2)
    mouth = disc(-nm(LAND_DEPTH_MM) - rim, -nm(LAND_DEPTH_MM), 0, rim)
    return Outline(
        stock=stock,
        least=(rod(thread.major_mm, wall.mid + exit_run(request, thread)) & stock) | top,
        aim=aim | top,
        most=most | mouth | rod(face + 0.5 * thread.major_mm, LAND_DEPTH_MM + 0.010 * 25.4),
        rooms=(room("thread", as_basic(thread.major_mm), wall), room("land", as_basic(face), as_basic(LAND_DEPTH_MM))),
        waivers=(Waiver("land", top),),
    )


def draw(request: Request) -> Feature:
    """One of the holes: the land, and the thread through the wall."""
    thread = reading_of(request).thread
    is_square = choice(request, "direction", DIRECTIONS) == "square"
    wall, height = wall_of(request, thread), request.size("height")
    if height.mid <= thread.major_mm:
        raise refuse(f"a screw of {thread.designation} doesn't find room on a flank {height.text} high", height.text,
                     "a smaller screw")
    nut = request.sizes.get("nut")
    if nut and nut.mid <= thread.major_mm:
        raise refuse(f"a jam nut of {nut.text} across its flats is smaller than the screw, {thread.designation}",
                     nut.text, "the nut's size across its flats, such as --nut 7/16 for a 1/4 screw")
    face = land(nut.mid) if nut else 2 * thread.major_mm
    outline, deep = _outline(request, thread, wall, face), wall.mid + exit_run(request, thread)
    gib = _screws(request, thread, wall, face)
    _side_by_side(gib, request.length or LENGTH_MM, face if nut else thread.major_mm)
    return Feature(
        kind="gib-screw-holes",
        words="gib-screw holes",
        request=request,
        outline=outline,
        dimensions=(Dimension("wall", "depth", wall, (), shrinks=True),),
        down=Thread(reading_of(request), request.said.get("class"), deep, True, gib),
        number=number_of(request, thread),
        stands=f"on its side, tilted {gib.starts_deg:g} degrees: the flank level" if is_square else "on its side",
        tilts=int(is_square),
        exact=frozenset({"thickness"}),
        cautions=_cautions(gib),
        calls_for={"land": CallsFor(("end-mill", "counterbore")), HOLE: CallsFor(("drill",)),
                   "thread": CallsFor(("tap",))},
    )


def _side_by_side(gib: GibScrews, length_mm: float, wide_mm: float) -> None:
    """Screws, and the lands of their nuts, need room beside one another. Raises `CribError`."""
    if min((b - a for a, b in pairwise(gib.along_mm)), default=inf) <= wide_mm:
        raise refuse(said("{number} screws, each {wide} wide, don't go side by side along a gib {length} long",
                          number=len(gib.along_mm), wide=InWords(wide_mm), length=InWords(length_mm)),
                     str(len(gib.along_mm)), "fewer of them, or a longer gib: --number, --length")


def _cautions(gib: GibScrews) -> tuple[str, ...]:
    """What a thin gib does."""
    is_thin = gib.gib is not None and gib.gib.mid < THIN_GIB_MM
    return ("a thin gib springs when it is clamped or drilled: back it up over its whole length, a light drill, no bow "
            "when it comes loose",) if is_thin else ()


KIND = FeatureKind(
    name="gib-screw-holes",
    words="gib-screw holes",
    sizes=(
        SizeSpec("height", "height of the flank that the gib bears on"),
        SizeSpec("gib", "thickness of the gib", "general", False),
        SizeSpec("nut", "the jam nut, across flats", "general", False),
        SizeSpec("thickness", "the wall, from the land to the gib", "loose", False),
    ),
    draw=draw,
    options=(
        OptionSpec("thread", "the thread: 1/4-28, M6x1", needed=True),
        OptionSpec("number", "how many screws; else as many as the length wants", "N"),
        OptionSpec("angle", "the flank's angle from the floor: 60, 55, 45", "DEGREES"),
        OptionSpec("direction", "level, or square to the flank", "level|square"),
        OptionSpec("class", "2B, 6H, or none", "CLASS"),
    ),
    example={"thread": "1/4-28", "number": "4", "angle": "60", "height": "3/8", "gib": "3/16", "nut": "7/16"},
    speech=Speech(
        names=("gib screw", "gib screw hole", "gib hole", "gib adjusting screw", "gib setting screw",
               "holes for gib screws"),
        words={
            "thread": ("tap", "threads", "tapped"),
            "number": ("screws", "holes", "of them"),
            "height": ("flank height", "flank", "high flank", "height of the flank", "height of flank", "up"),
            "gib": ("thick gib", "gib thickness", "gib thick"),
            "nut": ("jam nut", "lock nut", "across flats", "nuts", "jam nuts"),
            "thickness": ("wall thickness", "wall", "thick wall", "thick"),
        },
        order=("thread", "height"),
        tells={"square to the flank": ("direction", "square"), "square to flank": ("direction", "square")},
        counts="number",
    ),
)
