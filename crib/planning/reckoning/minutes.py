"""The minutes that a plan takes, as named lines: passes, what goes round them, what is done by hand.

Times are common practice, from memory, and every one is a setting of the shop.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import pi, radians, tan

from crib.findings.message import counted
from crib.geometry.outline import Opening, Room
from crib.light.records import dataclass
from crib.machining.chain import Chain
from crib.machining.draft import Draft
from crib.machining.ends import doorway, least_run
from crib.machining.methods.base import Limits
from crib.machining.methods.cuts import LAST_BITE, Cut
from crib.machining.question import Question
from crib.machining.tool import Tool
from crib.machining.words import MAKES, Fed, Role
from crib.planning.reckoning.buried import stops_of
from crib.shop import Shop

RUN_OUT_MM = 5.08
"""Air that each pass crosses beyond the length and the cutter [mm]."""

_APPROACH_MM, _HAND_TURNS = 5.08, 12.0
"""Air over the work [mm]; turns of a tap a minute by hand, turning back included [-]. From memory."""

SET_UP, TILT, TURNED, PUT_UP, HOLDERS, TOUCH = ("setting up", "tilting", "rotary table", "cutters", "collets",
                                               "touching off")

CHANGES = frozenset({SET_UP, TILT, TURNED, PUT_UP, HOLDERS, TOUCH})
"""Lines that several features may share, where they are made in one set-up or with one cutter."""

_SQUARE_INCH = 25.4**2


@dataclass(frozen=True)
class Timed:
    """Minutes at the pace that is reckoned with, why, and the settings behind them."""

    what: str
    minutes: float
    why: str
    settings: tuple[str, ...] = ()


def feed_of(tool: Tool, slow: bool) -> float:
    """The table feed of a pass [mm/min]: half of it where both walls are cut deep at once."""
    return tool.feed / 2 if slow else tool.feed


def pass_minutes(tool: Tool, length: float, slow: bool = False) -> float:
    """Minutes of one pass over a length [mm], its handling included."""
    travel = length + (tool.cutter.diameter_mm or 0.0) + RUN_OUT_MM
    return travel / feed_of(tool, slow) + tool.pass_minutes


def cut_minutes(tool: Tool, length: float, cut: Cut) -> float:
    """Minutes of a pass over a length [mm]; between closed ends over its course, at half the feed on its way down; of a
    stroke down an axis to its depth, or of a tap's turns."""
    if cut.role in (Role.SLOT, Role.BROACH):
        from crib.handbook.slotting import PUSH_MINUTES, STROKES_A_MINUTE

        return (cut.turns / STROKES_A_MINUTE + tool.pass_minutes if cut.role is Role.SLOT else
                cut.turns * PUSH_MINUTES)
    if tool.by_hand:
        return cut.turns / _HAND_TURNS + 2 * tool.pass_minutes
    if cut.fed is Fed.OUT:
        from crib.handbook.boring import GROOVE_TURNS

        return max(cut.turns, GROOVE_TURNS) / tool.rpm + tool.pass_minutes
    if cut.round_mm:
        from crib.handbook.indexing import CRANKED_A_MINUTE

        return max(cut.round_mm / tool.feed, cut.turns / CRANKED_A_MINUTE) + tool.pass_minutes
    if cut.course is None and cut.side == "axis":
        return (abs(cut.deep_mm) + _APPROACH_MM) / tool.feed + tool.pass_minutes
    if cut.course is None:
        return pass_minutes(tool, length, cut.slow)
    course, feed = cut.course, feed_of(tool, cut.slow)
    along = sum(abs(b[0] - a[0]) + abs(b[1] - a[1]) for a, b in pairwise(course.path)) / 1e6
    down = course.drop / 1e6 * (1 if cut.is_down else 2)
    ramped = 2 * course.strokes * abs(course.path[1][0] - course.path[0][0]) / 1e6 if course.strokes else 0.0
    return (along + (ramped or down)) / feed + tool.pass_minutes


def least_minutes(question: Question, tool: Tool, slow: bool = False) -> float:
    """The least that one pass of a tool takes, whatever its course."""
    if question.layers is None:
        return pass_minutes(tool, question.feature.length, slow)
    shortest = 0.0 if tool.kind.buried else least_way(question, tool.form.radius + tool.finish)
    return shortest / feed_of(tool, slow) + tool.pass_minutes


def least_return(question: Question, limits: Limits, tool: Tool, room: Room) -> float:
    """The least that it takes a tool from the middle of a room to a stop between closed ends [min]."""
    if question.layers is None or question.has_corners:
        return 0.0
    if not room.opens(Opening.TOP):
        return least_run(question, limits, tool, room) / 1e6 / tool.feed
    return 0.0 if tool.kind.buried else least_way(question, tool.form.radius + tool.finish) / 2 / tool.feed


def least_round_corners(question: Question, tool: Tool, room: Room, strips: int, sides: int) -> float:
    """The least that its ways take a tool in a room that it clears alone, round in its corners, besides how long that
    is in each pass [min]: `strips` times half of that before a strip, and across the room in each of so many passes at
    the `sides`, which go half round it."""
    if not question.layers or room.name not in question.layers.corners or tool.kind.buried:
        return 0.0
    off = tool.form.radius + max(tool.finish, LAST_BITE)
    across = max(0, room.least.width - 2 * off) / 1e6
    return (strips * least_way(question, off) / 2 + sides * across) / tool.feed


def least_descent(question: Question, room: Room, is_on_centre: bool, feed: float, way: float) -> float:
    """The least that it takes to get down to the floor of a room between closed ends, from solid [min]: at half the
    feed where teeth cut on centre, or at all of it where a pass may go nowhere but down, its `way` [mm] nought; else on
    a ramp, there and back; or another cutter is put up that drills."""
    door = doorway(question, room)
    if door is None or sum(other.opens(Opening.TOP) for other in question.outline.rooms) > 1:
        return 0.0
    assert question.layers is not None
    from crib.handbook.closed_ends import RAMP_DEG

    deep = (question.layers.top - room.least.low) / 1e6
    down = (2 if way > 0 else 1) * deep / (1.0 if is_on_centre else tan(radians(RAMP_DEG))) / feed
    return min(down, question.shop.cutter_minutes + question.shop.touch_minutes) if question.drills else down


def least_way(question: Question, off: int) -> float:
    """How far a pass between closed ends goes at the least [mm]; `off`: how far from each its axis stops at the most
    [nm], if no corner keeps it farther off."""
    layers = question.layers
    assert layers is not None
    opens = (room for room in question.outline.rooms if room.opens(Opening.TOP) or room.across)
    length = min(layers.ends[room.name].least for room in opens)
    return max(0.0, (length - 2 * max([off, *(corner.most for corner in layers.corners.values())])) / 1e6)


def timed_of(draft: Draft) -> Iterator[Timed]:
    """The minutes that a draft takes."""
    shop, setup, tools = draft.question.shop, draft.question.setup, draft.tools
    anew = f", again {setup.name}" if setup.clampings else ""
    yield Timed(SET_UP, shop.setup_minutes * (1 + setup.clampings), f"hold, square and find the edges{anew}",
                ("setup_minutes",))
    if tilts := setup.tilts + draft.question.feature.tilts:
        yield Timed(TILT, shop.tilt_minutes * tilts, "head or work to the angle, indicated, and true again",
                    ("tilt_minutes",))
    yield Timed(PUT_UP, shop.cutter_minutes * len(tools), f"{counted(len(tools), 'cutter')} put up",
                ("cutter_minutes",))
    holders = sum(1 for a, b in pairwise(tools) if a.held.label != b.held.label)
    if holders:
        yield Timed(HOLDERS, shop.collet_minutes * holders, f"{holders} changed", ("collet_minutes",))
    yield from _down(draft) if isinstance(draft, Chain) else _along(draft)


def _along(draft: Draft) -> Iterator[Timed]:
    """What passes along the work take, made so many times over where it is turned to each."""
    shop, length, number = draft.question.shop, draft.question.feature.length, draft.question.feature.number
    many = f"{number} times " if number > 1 else ""
    yield from _indexed(draft.question)
    touched = tuple(dict.fromkeys("touch_disc_minutes" if tool.kind.buried else "touch_minutes"
                                  for tool in draft.tools))
    yield Timed(TOUCH, sum(tool.touch_minutes for tool in draft.tools), "each cutter to the surface and the "
                "edge", touched)
    for room in dict.fromkeys(job.room for job in draft.jobs):
        cuts = [(job.tool, cut) for job in draft.jobs if job.room == room for cut in job.cuts]
        handled = dict.fromkeys("buried_pass_minutes" if tool.kind.buried else "pass_minutes" for tool, _ in cuts)
        minutes = sum(cut_minutes(tool, length, cut) for tool, cut in cuts)
        yield Timed(room, minutes * number, f"{many}{counted(len(cuts), 'pass')} at the feed, and the handling",
                    tuple(handled))
    if out := number * _pecks([(job.tool, cut) for job, cut in draft.passes() if cut.is_down]):
        yield Timed("pecking", shop.peck_minutes * out, f"{counted(out, 'time')} out and cleared", ("peck_minutes",))
    stopped = number * sum(len(stops_of(draft.question, job, cut)) for job, cut in draft.passes())
    if stopped:
        yield Timed("chips", shop.chip_stop_minutes * stopped,
                    f"{counted(stopped, 'stop')} in the cut, chips brushed out",
                    ("chip_stop_minutes",))
    if square_mm := _left_to_file(draft):
        yield _filed(shop, square_mm, many)
    yield _deburred(shop, edges_mm(draft.question), "the edges, before they are measured over")
    checks = number * _checks([cut for _, cut in draft.passes()])
    yield Timed("measuring", shop.measure_minutes * checks, counted(checks, "time"), ("measure_minutes",))


def _pecks(strokes: Sequence[tuple[Tool, Cut]]) -> int:
    """How often what goes down is drawn out and cleared."""
    if not strokes:
        return 0
    from crib.machining.pecks import pecks

    return pecks(strokes)


def index_minutes(question: Question) -> float:
    """What it takes to put up what the work is turned by, and to turn it [min]."""
    return sum(one.minutes for one in _indexed(question))


def _indexed(question: Question) -> Iterator[Timed]:
    """What it takes to put up what the work is turned by, and to turn it."""
    if (flats := question.feature.flats) is None:
        return
    from crib.machining.indexing import indexed

    way, shop = indexed(flats, question.shop), question.shop
    turns = question.feature.number - 1
    yield Timed("indexing", way.once_minutes(shop) + turns * way.each_minutes(shop),
                f"{way.name}, turned {counted(turns, 'time')}", way.settings)


_TRUE_AGAIN = 0.5
"""What it takes to move the work on a table that is up and set it true again, of putting up both [-]. From memory."""


def _down(chain: Chain) -> Iterator[Timed]:
    """What strokes down an axis take, made so many times over."""
    shop, number = chain.question.shop, chain.question.feature.number
    if chain.turned:
        yield Timed(TURNED, shop.index_setup_minutes, "put up, its middle found, the work set true on it",
                    ("index_setup_minutes",))
        if number > 1:
            yield Timed("moved on it", shop.index_setup_minutes * _TRUE_AGAIN * (number - 1),
                        f"the work set true anew for {counted(number - 1, 'more groove')}", ("index_setup_minutes",))
    strokes = [(job.tool, cut) for job, cut in chain.passes()]
    touched = {tool.id: tool.touch_minutes for tool, _ in strokes if not tool.by_hand}
    yield Timed(TOUCH, sum(touched.values()), "each cutter to the surface", ("touch_minutes",))
    many = f"{number} {'grooves' if chain.turned else 'holes'}, " if number > 1 else ""
    for role in dict.fromkeys(cut.role for _, cut in strokes):
        mine = [cut_minutes(tool, 0.0, cut) for tool, cut in strokes if cut.role == role]
        why = f"{many}{len(mine)} each" if many else counted(len(mine), "stroke")
        yield Timed(role, sum(mine) * number, why, ("pass_minutes",))
    if out := _pecks(strokes) * number:
        yield Timed("pecking", shop.peck_minutes * out, f"{counted(out, 'time')} out and cleared", ("peck_minutes",))
    if chain.is_ground:
        yield Timed("grinding", shop.grind_minutes, "the blank to its form, by one who grinds", ("grind_minutes",))
    if chain.filed_mm2:
        yield _filed(shop, chain.filed_mm2 * number, many)
    if not any(cut.role is Role.COUNTERSINK for _, cut in strokes):
        across = max((cut.diameter_mm or tool.cutter.diameter_mm or 0.0 for tool, cut in strokes
                      if cut.role is not Role.SPOT), default=0.0)
        yield _deburred(shop, pi * across * number, f"{many}the rim of each")
    measured = [cut for _, cut in strokes if cut.role in MAKES and cut.is_measured]
    bores = sum(1 for cut in measured if cut.role is Role.BORE)
    twice = f", {bores} of them a bore, which takes twice as long" if bores else ""
    each = number if chain.turned else 1
    yield Timed("measuring", shop.measure_minutes * each * (len(measured) + bores),
                counted(each * len(measured), "time") + twice, ("measure_minutes",))


def _filed(shop: Shop, square_mm: float, many: str) -> Timed:
    square_inches = square_mm / _SQUARE_INCH
    return Timed("filing", shop.file_minutes + shop.file_inch_minutes * square_inches,
                 f"{many}{square_inches:.2f} square inches by hand", ("file_minutes", "file_inch_minutes"))


def _left_to_file(draft: Draft) -> float:
    """The face that is filed where what stands proud of it is left to the file [mm2]; nought where nothing is."""
    outline = draft.question.outline
    if not any(waiver.is_proud for waiver in outline.waivers):
        return 0.0
    left = outline.left(draft.removed)
    if not left or not outline.is_waived(left):
        return 0.0
    arcs = sum(pi / 2 * room.rounded[1] / 1e6 for room in outline.rooms if room.rounded)
    return arcs * draft.question.feature.length * draft.question.feature.number


def _deburred(shop: Shop, edge_mm: float, why: str) -> Timed:
    return Timed("deburring", deburr_minutes(shop, edge_mm), why, ("deburr_minutes", "deburr_inch_minutes"))


def edges_mm(question: Question) -> float:
    """The length of edge that a cut along the work leaves to be deburred, both its sides [mm]."""
    return 2 * question.feature.length * question.feature.number


def deburr_minutes(shop: Shop, edge_mm: float) -> float:
    """Minutes to deburr a length of edge [mm].

    >>> deburr_minutes(Shop(), 10 * 25.4)
    3.0
    """
    return shop.deburr_minutes + shop.deburr_inch_minutes * edge_mm / 25.4


def _checks(cuts: Sequence[Cut]) -> int:
    """The first depth in each room, each floor, and each wall when it is finished."""
    rooms = {cut.room for cut in cuts}
    floors = {cut.room for cut in cuts if cut.role == Role.FLOOR}
    walls = {(cut.room, cut.side) for cut in cuts if cut.role == Role.FINISH}
    return len(rooms) + len(floors) + len(walls)
