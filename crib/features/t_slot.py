"""A T-slot: a throat from the surface down, and a wider head below it."""

from __future__ import annotations

from crib.features.base import CallsFor, Dimension, Feature, FeatureKind, SizeSpec, Standard, refuse
from crib.features.request import Request, Spoken
from crib.features.shapes import centred_room, floor, floor_corners, metal, upright_pair, walls
from crib.features.speech import Speech
from crib.geometry.outline import Face, Opening, Outline, Room
from crib.handbook.tslots import head_for_bolt, slot_for_bolt
from crib.light.records import replace
from crib.units import Size, in_words, nm


def draw(request: Request) -> Feature:
    """Two rectangles about the centre line. The head's height counts from the floor that is aimed at."""
    throat, depth = request.size("throat"), request.size("depth")
    head, height = request.size("head_width"), request.size("head_height")
    _check(request)
    floors = (-nm(depth.lo), -nm(depth.mid), -nm(depth.hi))
    ceilings = tuple(floors[1] + nm(h) for h in (height.lo, height.mid, height.hi))
    throat_room = centred_room("throat", throat, (ceilings[0], floors[1], floors[2]), (0, 0, 0),
                               frozenset({Opening.TOP}))
    head_room = replace(
        centred_room("head", head, floors, (ceilings[0], ceilings[1], ceilings[2]), frozenset()),
        height=(nm(height.lo), nm(height.hi)),
    )
    return Feature(
        kind="t-slot",
        words="T-slot",
        request=request,
        outline=_outline(request, throat_room, head_room),
        dimensions=(
            Dimension("throat width", "width", throat, ("throat back wall", "throat front wall")),
            Dimension("head width", "width", head, ("head back wall", "head front wall")),
            Dimension("head height", "height", height, ("floor", "ceiling")),
            Dimension("depth", "depth", depth, ("floor",), ("head",)),
        ),
        calls_for={
            "throat": CallsFor(("end-mill",)),
            "head": CallsFor(("t-slot-cutter",), (head.lo, head.hi), (height.lo, height.hi)),
        },
        lengths={"head": "head_length"},
    )


def _outline(request: Request, throat_room: Room, head_room: Room) -> Outline:
    throat, depth, head = request.size("throat"), request.size("depth"), request.size("head_width")
    fillets, waivers = floor_corners(head_room.least, request.floor_radius, (1, -1))
    ceilings = (head_room.least.high, head_room.aim.high, head_room.most.high)
    return Outline(
        stock=metal(request, depth.hi),
        least=(throat_room.least.region | head_room.least.region) - fillets,
        aim=throat_room.aim.region | head_room.aim.region,
        most=throat_room.most.region | head_room.most.region,
        rooms=(throat_room, head_room),
        faces=(
            *upright_pair("throat", throat, ceilings[2], 0),
            *upright_pair("head", head, head_room.least.low, ceilings[0]),
            floor("floor", depth, head_room.least.left, head_room.least.right),
            Face("ceiling", False, 1, ceilings[1], ceilings[0], ceilings[2], throat_room.most.right,
                 head_room.least.right),
        ),
        waivers=waivers,
        obstacles=walls(request),
    )


def _check(request: Request) -> None:
    throat, depth = request.size("throat"), request.size("depth")
    head, height = request.size("head_width"), request.size("head_height")
    if head.mid <= throat.mid or head.lo <= throat.hi:
        raise refuse(f"the head, {head.text} wide, is not wider than the throat, {throat.text}", head.text,
                     f"a head width above {throat.text}, tolerances included")
    if height.mid >= depth.mid:
        raise refuse(f"the head, {height.text} high, is not lower than the depth, {depth.text}", height.text,
                     "a head height below the depth: depth counts from the surface to the bottom of the head")
    if height.hi >= depth.mid:
        raise refuse(f"at its limit the head, {height.text} high, leaves no lip in a depth of {depth.text}",
                     height.text, "a lower head, a greater depth or a smaller tolerance")
    if depth.hi - depth.mid >= height.lo:
        raise refuse(f"the tolerance of the depth {depth.text} is more than the head is high", depth.text,
                     "a smaller tolerance on the depth")


def for_bolt(spoken: Spoken) -> tuple[dict[str, Size], str]:
    """The sizes of a standard's T-slot for a bolt, as a slot that only holds; the depth with the lip in the middle of
    what the standard allows. Raises `CribError` for a bolt that it has no slot for."""
    text = spoken.text
    slot = slot_for_bolt(text)
    throat, (lower, upper) = slot.throat_mm, slot.holding_mm
    height = _limits(slot.head_height_min_mm, slot.head_height_max_mm, text)
    lip = _limits(slot.throat_depth_min_mm, slot.throat_depth_max_mm, text)
    units = "mm" if slot.bolt.startswith("M") else "in"
    head = head_for_bolt(text)
    bolt = "" if head is None else (f"; the bolt's head is {in_words(head.width_max_mm, units)} wide and "
                                    f"{in_words(head.height_max_mm, units)} high at the most")
    depth, spare = lip.mid + height.mid, min(lip.band, height.band) / 4
    return {
        "throat": _size(throat, throat + lower, throat + upper, text),
        "depth": _size(depth, depth - spare, depth + spare, text),
        "head_width": _limits(slot.head_width_min_mm, slot.head_width_max_mm, text),
        "head_height": height,
    }, f"{slot.standard}, bolt {slot.bolt}: {slot.source}{bolt}"


def _limits(lo: float, hi: float, text: str) -> Size:
    return _size((lo + hi) / 2, lo, hi, text)


def _size(nominal: float, lo: float, hi: float, text: str) -> Size:
    """A size of a standard, said as its bolt is: in millimetres for M6, M12 ..."""
    return Size(nominal, lo, hi, in_words(nominal, "mm" if text.strip().upper().startswith("M") else "in"))


KIND = FeatureKind(
    name="t-slot",
    words="a T-slot",
    sizes=(
        SizeSpec("throat", "width of the throat"),
        SizeSpec("depth", "from the surface to the bottom of the head"),
        SizeSpec("head_width", "width of the head", "loose"),
        SizeSpec("head_height", "height of the head", "loose"),
        SizeSpec("head_length", "of closed ends: length of the head, else it ends with the throat", "loose", False),
        SizeSpec("entry_hole", "of closed ends: a hole in the middle, flat at the floor, that is there first",
                 needed=False),
    ),
    draw=draw,
    ends=("open", "one", "closed"),
    standards=(Standard("bolt", "the T-slot that ASME B5.1M or ISO 299 gives for a bolt: 1/2, M12", for_bolt),),
    example={"throat": "5/8+.002-0", "depth": ".520", "head_width": ".975", "head_height": ".240"},
    mates="throat",
    speech=Speech(
        names=("tee slot", "tea slot", "t groove", "tee groove"),
        words={
            "throat": ("throat width", "neck", "wide throat", "throat wide"),
            "depth": ("overall depth", "total depth", "full depth", "deep overall"),
            "head_width": ("head wide", "width of head", "width of the head", "wide head", "wide at the head",
                           "wide in the head"),
            "head_height": ("head high", "height of head", "height of the head", "high head", "high", "height", "tall",
                            "high at the head", "high in the head"),
            "bolt": ("bolts", "stud", "studs", "tee bolt", "t bolt", "tee nut", "t nut"),
        },
        order=(),
        together={"head": ("head_width", "head_height"), "hd": ("head_width", "head_height")},
    ),
)
