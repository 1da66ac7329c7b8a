"""Plans for a plain hole and for a counterbore."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from crib.cutters import kind_of
from crib.cutters.base import Cutter, Down
from crib.features.counterbore import hole_of
from crib.features.rounds import is_through
from crib.findings.finding import FINE_MM, Deviation, Figure, Finding
from crib.findings.message import Mm, Text, apart, said
from crib.handbook.bands import band
from crib.handbook.reaming import CUTS_OVER_MM, outside, window
from crib.holders.chucks import hold_down
from crib.machining.methods.base import Limit
from crib.machining.own_holes import own_band, own_words, whole_range
from crib.machining.tool import holding_of
from crib.planning.advice import Refusal
from crib.planning.holes.draft import Draft, Question, Stroke
from crib.planning.holes.strokes import hole_strokes, reaches, spot, tool
from crib.shop import Own
from crib.tapping.holes import MILLED, other_ways, usable
from crib.tapping.holes import drilled as drilled_holes
from crib.tapping.shape import Hole

_ANSWERS: dict[str, dict[str, str]] = {
    "drilled": {"drill": "as drawn"},
    "reamed": {"ream": "as drawn", "bore": "extra passes"},
    "bored": {"bore": "as drawn"},
}
"""The verdict of each way by the finish that the drawing names; ways that aren't here give a finish away, but under a
drilled finish they only cost more."""

_CORE = 0.4
"""The core of an end mill that doesn't cut, of its diameter [-], to be measured. Common practice."""

_CORE_ROOM_MM = 0.010 * 25.4
_FLAT_DEG = 170.0


def hole_drafts(question: Question, cutters: Sequence[Cutter]) -> Iterator[Draft]:
    """Every way to a hole inside its limits."""
    request = question.feature.request
    diameter, depth = request.size("diameter"), request.size("depth")
    finish, own = request.said.get("finish", "drilled").lower(), question.shop.own
    through = is_through(request)
    deep = depth.nominal if through else depth.mid
    holes = [hole for hole in drilled_holes(cutters, own) if usable(hole.cutter or Cutter(0, "drill"))]
    holes = [hole for hole in holes if diameter.lo - 1e-6 <= hole.expected_mm <= diameter.hi + 1e-6]
    for hole in (*holes, *other_ways(_to_begin(question, cutters, deep), diameter.lo, diameter.hi, own)):
        made = hole_strokes(question, hole, deep, through, cutters)
        if made is None:
            continue
        answer = _ANSWERS[finish].get(hole.way, "extra passes" if finish == "drilled" else "compromise")
        starts = tuple(spot(question, cutters, made[0].tool.form.radius / 5e5))
        beyond = tuple(_beyond(question, hole))
        warned = (*_not_bored(finish, hole), *_fits(question, hole), *_stock_left(question, hole))
        yield Draft(question, "compromise" if beyond else answer, f"{hole.way}: {hole.label}", (*starts, *made),
                    warned, beyond, _figures(question, hole), assumed=_own(question, hole), number=request.count)


def _to_begin(question: Question, cutters: Sequence[Cutter], deep_mm: float) -> Sequence[Cutter]:
    """The cutters without the drills that nothing holds or that are too short, so that the next one is tried."""
    return [c for c in cutters if c.kind != "drill" or (
        hold_down(kind_of(c).fill(c), holding_of(question.shop)).ok and reaches(c, deep_mm))]


def _stock_left(question: Question, hole: Hole) -> Iterator[Finding]:
    """HO1: what the drill leaves for the reamer, on its own size, is what a reamer takes."""
    drill = hole.first.diameter_mm if hole.first else None
    if hole.way != "ream" or drill is None:
        return
    size = hole.diameter_mm
    least, most = window(size)
    if outside(size, drill):
        has, low = apart(size - drill, least)
        high = Mm(most, places=4)
        what = "it may rub and not clean up" if size - drill < least else "a larger drill between, or slowly"
        yield Finding("HO1", "caution", said("{before} leaves {has} on diameter for the reamer, it takes {low} to "
                                             "{high}: {what}", before=hole.before, has=has, low=low, high=high,
                                             what=what))
    widest = drill + whole_range(question.shop.own, drill)[1]
    if widest > size - 1e-6:
        has, low = apart(widest, size)
        yield Finding("HO1", "caution", said("{before}: its hole may come out {has}, the reamer is {low}: measure it "
                                             "before the reamer goes in", before=hole.before, has=has, low=low))


def _own(question: Question, hole: Hole) -> tuple[Text, ...]:
    return own_words(question.shop.own, hole.diameter_mm) if hole.way == "drill" else ()


def _not_bored(finish: str, hole: Hole) -> Iterator[Finding]:
    """HO5: a reamer or a drill follows the hole before it."""
    if finish == "bored" and hole.way not in ("bore", "end mill"):
        yield Finding("HO5", "warn", "it isn't bored: the hole stays where the drill wandered, and as straight as that")


def _comes_out(hole: Hole, careful: bool, own: Own) -> tuple[float, float]:
    """From what to what a hole comes out, as usual or with care [mm]."""
    if hole.way == "end mill":
        return hole.expected_mm - MILLED, hole.expected_mm + MILLED
    if hole.way == "ream":
        low, high = CUTS_OVER_MM[careful]
        return hole.diameter_mm + low, hole.diameter_mm + high
    way = own_band(own, hole.diameter_mm) if hole.way == "drill" else band(hole.way)
    middle = hole.expected_mm if hole.way == "bore" else hole.diameter_mm
    low, high = way.careful_mm if careful else way.usual_mm
    return middle + low, middle + high


def _fits(question: Question, hole: Hole) -> Iterator[Finding]:
    """Whether the way's usual band stays inside the drawing's."""
    size = question.feature.request.size("diameter")
    low, high = _comes_out(hole, False, question.shop.own)
    if low < size.lo - 1e-6 or high > size.hi + 1e-6:
        span = said("{low} to {high}", low=Mm(low, places=4), high=Mm(high, places=4))
        yield Finding("G12", "caution", said("{cutter} comes out {span} as usual: a trial hole in scrap first",
                                             cutter=hole.label, span=span))


def _beyond(question: Question, hole: Hole) -> Iterator[Deviation]:
    """What the way can't hold even with care: how far the hole may come out beyond the nearer limit."""
    size = question.feature.request.size("diameter")
    low, high = _comes_out(hole, True, question.shop.own)
    over = max(high - size.hi, size.lo - low)
    if hole.way != "end mill" and size.band > 1e-6 and over > 1e-6:
        span, limits = (said("{least} to {most}", least=Mm(least, places=4), most=Mm(most, places=4))
                        for least, most in ((low, high), (size.lo, size.hi)))
        yield Deviation(said("with care {cutter} comes out {span}, the limits are {limits}: beyond them by",
                             cutter=hole.label, span=span, limits=limits), over, 0.0)


def _figures(question: Question, hole: Hole) -> tuple[Figure, ...]:
    places = 4 if question.feature.request.size("diameter").band < FINE_MM else 3
    over = Figure("over the cutter's size", hole.expected_mm - hole.diameter_mm, places=places)
    if hole.way == "bore":
        return (Figure("hole expected", hole.expected_mm, places=places),)
    left: tuple[Figure, ...] = ()
    if hole.way == "ream" and hole.first is not None and hole.first.diameter_mm is not None:
        left = (Figure("left for the reamer, on diameter", hole.diameter_mm - hole.first.diameter_mm, places=4),)
    return Figure("hole expected", hole.expected_mm, places=places), over, *left


def counterbore_drafts(question: Question, cutters: Sequence[Cutter]) -> Iterator[Draft]:
    """A counterbore of the size, an end mill plunged, a drill ground flat."""
    request = question.feature.request
    for cutter in cutters:
        if not usable(cutter) or (miss := _misses(question, cutter)) is None or miss.says:
            continue
        size = cutter.diameter_mm or 0.0
        made = size + MILLED
        found = tool(question, cutter, Down.COUNTERBORING, size, made)
        if found is None:
            continue
        stroke = Stroke(found, "counterbore", "counterbore", -request.size("depth").mid, _how(cutter))
        warnings = tuple(_pilot_warnings(question, cutter))
        guided = cutter.kind == "counterbore" and all(warning.severity != "caution" for warning in warnings)
        answer = "as drawn" if guided else "extra passes"
        yield Draft(question, answer, f"counterbore with the {cutter.label}", (stroke,),
                    warnings, figures=(Figure("diameter expected", made),),
                    assumed=(_hole_there(question),), number=request.count)


def _hole_there(question: Question) -> Text:
    request = question.feature.request
    hole, text = hole_of(request), request.size("hole").text
    if hole.given:
        return f"the hole, {text}, is there"
    return said("the hole is there, {lo} to {hi} as a drill of {text} leaves it", lo=Mm(hole.lo), hi=Mm(hole.hi),
                text=text)


def _how(cutter: Cutter) -> str:
    return {"counterbore": "slowly, with oil, to the depth",
            "end-mill": "plunge slowly, table and cross locked, the axis on the hole",
            "drill": "the flat drill follows the hole: slowly, or it chatters"}[cutter.kind]


def _pilot_warnings(question: Question, cutter: Cutter) -> Iterator[Finding]:
    request = question.feature.request
    hole, asked = hole_of(request), request.size("hole")
    if cutter.kind != "counterbore":
        yield Finding("CB1", "note", "no pilot: find the hole's centre with an indicator first")
    elif cutter.pilot_mm is None:
        yield Finding("CB1", "caution", said("{cutter}: no pilot on record: measure it against the hole",
                                             cutter=cutter.label))
    elif hole.mid - cutter.pilot_mm > 0.010 * 25.4:
        loose = Mm(hole.mid - cutter.pilot_mm)
        yield Finding("CB1", "caution", said("{cutter}: its pilot is {loose} loose in the hole and doesn't centre it",
                                             cutter=cutter.label, loose=loose))
    elif cutter.pilot_mm > (hole.lo if hole.given else asked.nominal) - 1e-6:
        sizes = said("the pilot is {pilot}, the hole {text}", pilot=Mm(cutter.pilot_mm, places=4), text=asked.text)
        yield Finding("CB1", "warn", said("{cutter}: {sizes}: try it in the hole first, it may not enter",
                                          cutter=cutter.label, sizes=sizes))


def _misses(question: Question, cutter: Cutter) -> Limit | None:
    """Why a cutter doesn't make the counterbore, with both numbers; without a word where it does, None where it isn't
    of a kind for it."""
    request = question.feature.request
    diameter, hole = request.size("diameter"), hole_of(request)
    size = cutter.diameter_mm or 0.0
    flat = cutter.kind == "drill" and (cutter.angle_deg or 0.0) >= _FLAT_DEG
    if cutter.kind not in ("counterbore", "end-mill") and not flat:
        return None
    if not diameter.lo - 1e-6 <= size + MILLED <= diameter.hi + 1e-6:
        limit = diameter.hi if size > diameter.mid else diameter.lo
        has, needs = apart(size + MILLED, limit)
        right, side = Mm(limit - MILLED, places=4), "or less" if size > diameter.mid else "or more"
        return Limit("SZ3", said("makes {has}, the limit is {needs}", has=has, needs=needs), size + MILLED, limit,
                    said("one of {right} {side} would do", right=right, side=side))
    if cutter.kind == "end-mill" and not cutter.centre_cutting and _CORE * size > hole.lo - _CORE_ROOM_MM:
        has, needs = apart(_CORE * size, hole.lo - _CORE_ROOM_MM)
        return Limit("EN1", said("its middle doesn't cut, about {has}: the hole leaves room for {needs}", has=has,
                                 needs=needs), _CORE * size,
                    hole.lo - _CORE_ROOM_MM, "one that cuts on centre would do")
    if cutter.kind == "end-mill" and (cutter.corner_radius_mm or 0.0) > request.floor_radius + 1e-6:
        has, needs = apart(cutter.corner_radius_mm or 0.0, request.floor_radius)
        return Limit("G11", said("it leaves a radius of {has} in the floor's corner, {needs} may be", has=has,
                                 needs=needs),
                    cutter.corner_radius_mm, request.floor_radius, said("would go if the floor radius may be {has}",
                                                                        has=has))
    if cutter.pilot_mm is not None and cutter.pilot_mm > hole.hi + 1e-6:
        has, needs = apart(cutter.pilot_mm, hole.hi)
        return Limit("CB1", said("its pilot, {has}, doesn't enter the hole, {needs} at the most", has=has,
                                 needs=needs), cutter.pilot_mm,
                          hole.hi,
                    said("a pilot of {needs} or less would go in", needs=needs))
    return Limit("", "")


def counterbore_refusals(question: Question, cutters: Sequence[Cutter]) -> Iterator[Refusal]:
    """Why not with the other flat-ended cutters."""
    for cutter in cutters:
        if cutter.diameter_mm is not None and (miss := _misses(question, cutter)) and miss.says:
            yield Refusal(cutter, "cannot", miss.id, miss.says, miss.has, miss.needs, miss.fix,
                          abs((miss.has or 0.0) - (miss.needs or 0.0)))
