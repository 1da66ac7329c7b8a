"""What each kind of cutter proposes for a need: one small function each, the size that is asked for and those that are
made. A new kind is one function more, and its line in `PROPOSES`."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from math import radians, tan

from crib.buying.needs import (
    LONGER_MM,
    MEMORY,
    THOU,
    TO_ORDER,
    Need,
    Wanted,
    ask_for,
    is_held,
    new,
    shank_for,
)
from crib.cutters.base import Cutter
from crib.handbook import stock, tslots
from crib.handbook.bands import band
from crib.handbook.drill_lengths import flutes
from crib.handbook.drill_sizes import made_between
from crib.handbook.reaming import can_follow, window
from crib.machining.own_holes import oversize

ONE_PASS_MM = sum(band("own size").careful_mm) / 2
"""What a slot that is cut in one pass comes out over its cutter, with care [mm]."""

_MOST_DRILLS, _MOST_DISCS, _MOST_MILLS = 4, 3, 3
_USUAL_REACH_MM = 0.75 * 25.4
"""Reach of a keyseat cutter that works beside a wall [mm], from memory."""

_WIDEST_MM = 1.25 * 25.4
"""Wider than this no end mill is made to size [mm]."""


def _end_mills(need: Need) -> Iterator[Wanted]:
    """One pass its own size where the room has a width, with a shank that a collet takes; for an edge the widest."""
    room = need.room
    if room is None:
        return
    is_edge = bool({"right", "left"} & room.open)
    low, high = (0.0, 25.4) if is_edge else (room.least.width / 1e6, room.most.width / 1e6)
    made = [mill for mill in stock.end_mills() if mill.diameter_mm <= high]
    widest = sorted({mill.diameter_mm for mill in made})[-_MOST_MILLS:]
    fits = [mill for mill in made if mill.diameter_mm in widest]
    ideal = max(low, room.aim.width / 1e6 - ONE_PASS_MM)
    if not is_edge and ideal <= _WIDEST_MM and not any(low <= mill.diameter_mm <= ideal + THOU for mill in fits):
        yield Wanted(_mill(need, ideal, shank_for(need.shop, ideal)), TO_ORDER)
    for mill in fits:
        others = [one for one in fits if one.diameter_mm == mill.diameter_mm]
        if is_held(need.shop, mill.shank_mm) or not any(is_held(need.shop, one.shank_mm) for one in others):
            yield Wanted(_mill(need, mill.diameter_mm, mill.shank_mm, mill.length_of_cut_mm, mill.overall_length_mm),
                         stock.SOURCE)


def _mill(need: Need, diameter: float, shank: float, cut: float = 0.0, overall: float | None = None) -> Cutter:
    """An end mill; one that is made to size is long enough."""
    enough = cut or max(2.0 * diameter, need.deep_mm + LONGER_MM)
    return new("end-mill", diameter_mm=diameter, shank_mm=shank, length_of_cut_mm=enough, overall_length_mm=overall,
                flutes=2, centre_cutting=True, corner_radius_mm=0.0)


def _neck_limit(need: Need, diameter: float) -> float | None:
    """The fattest neck that goes through the opening above and clears the lip when the wall is reached [mm]."""
    room = need.room
    if room is None:
        return None
    openings = [other.least.width for other in need.feature.outline.rooms if "top" in other.open and other is not room]
    if not openings:
        return None
    over = max(0.0, room.aim.width / 1e6 - diameter)
    return round(min(openings) / 1e6 - over - 2 * need.shop.neck_clearance_mm - THOU, 6)


def _disc(need: Need, kind: str, diameter: float, face: float, shank: float, marking: str | None = None,
          neck: float | None = None) -> Iterator[Cutter]:
    limit = _neck_limit(need, diameter)
    usual = stock.NECK_SHARE * diameter if neck is None else neck
    if limit is not None and limit > 0.1 * diameter and (neck is None or neck <= limit):
        reach = need.deep_mm + need.shop.end_clearance_mm + LONGER_MM
        yield new(kind, diameter_mm=diameter, face_mm=face, neck_mm=round(min(usual, limit), 6), shank_mm=shank,
                   reach_mm=round(max(reach, face), 6), flutes=8, marking=marking, end_teeth=kind == "t-slot-cutter")


def _t_slot_cutters(need: Need) -> Iterator[Wanted]:
    """The head's own size in one level, and the cutters of the standards that go in."""
    room = need.room
    if room is None:
        return
    height = sum(room.height) / 2e6 if room.height else room.aim.height / 1e6
    ideal = (room.aim.width / 1e6, height, shank_for(need.shop, 12.7))
    for cutter in _disc(need, "t-slot-cutter", *ideal, neck=_neck_limit(need, ideal[0])):
        yield Wanted(cutter, TO_ORDER, ask_for(cutter, need.shop.units))
    tallest = (room.height[1] if room.height else room.most.height) / 1e6
    for one in tslots.cutters():
        if 0.6 * ideal[0] <= one.diameter_mm <= room.most.width / 1e6 and one.face_mm <= tallest:
            for cutter in _disc(need, "t-slot-cutter", one.diameter_mm, one.face_mm, one.shank_mm, one.bolt,
                                one.neck_mm):
                yield Wanted(cutter, one.source, ask_for(cutter, need.shop.units))


def _keyseat_cutters(need: Need) -> Iterator[Wanted]:
    """The keyseat cutters that go in and need no more than two levels."""
    room = need.room
    if room is None:
        return
    if "t-slot-cutter" not in need.calls.kinds:
        yield from _grooving(need)
        return
    tallest = (room.height[1] if room.height else room.most.height) / 1e6
    for one in stock.keyseat_cutters():
        fits = 0.6 * room.aim.width / 1e6 <= one.diameter_mm <= room.most.width / 1e6
        if fits and 0.45 * tallest <= one.face_mm <= tallest:
            for cutter in _disc(need, "keyseat-cutter", one.diameter_mm, one.face_mm, stock.KEYSEAT_SHANK_MM,
                                one.number):
                yield Wanted(cutter, stock.SOURCE, ask_for(cutter, need.shop.units))


def _grooving(need: Need) -> Iterator[Wanted]:
    """The keyseat cutters of the height that is called for, the three smallest: the room is open to the side."""
    if need.calls.face is None:
        return
    low, high = need.calls.face
    fitting = [one for one in stock.keyseat_cutters() if low - 1e-6 <= one.face_mm <= high + 1e-6]
    for one in fitting[:_MOST_DISCS]:
        reach = max(_USUAL_REACH_MM, need.deep_mm + need.shop.end_clearance_mm + LONGER_MM)
        cutter = new("keyseat-cutter", diameter_mm=one.diameter_mm, face_mm=one.face_mm, flutes=8, marking=one.number,
                      neck_mm=round(stock.NECK_SHARE * one.diameter_mm, 6), shank_mm=stock.KEYSEAT_SHANK_MM,
                      reach_mm=round(reach, 6), end_teeth=False)
        yield Wanted(cutter, stock.SOURCE, ask_for(cutter, need.shop.units))


def _saws(need: Need) -> Iterator[Wanted]:
    yield from _on_an_arbor(need, "slitting-saw", stock.saws())


def _side_cutters(need: Need) -> Iterator[Wanted]:
    yield from _on_an_arbor(need, "side-cutter", stock.side_cutters())


def _on_an_arbor(need: Need, kind: str, made: Iterable[stock.StockDisc]) -> Iterator[Wanted]:
    """Those of the thickness that is called for, with a bore that an arbor takes if there is one."""
    if need.calls.face is None:
        return
    low, high = need.calls.face
    arbors = need.shop.arbors
    for one in made:
        taken = arbors is None or any(abs(arbor.bore_mm - one.bore_mm) < 0.01 for arbor in arbors)
        if taken and low - 1e-6 <= one.face_mm <= high + 1e-6:
            yield Wanted(new(kind, diameter_mm=one.diameter_mm, face_mm=one.face_mm, bore_mm=one.bore_mm, flutes=32),
                         stock.SOURCE)


def _angle(need: Need, usual: tuple[float, ...]) -> tuple[float, str] | None:
    """The angle that is called for, and whether it is a usual one; None where none is."""
    if need.calls.angle is None:
        return None
    low, high = need.calls.angle
    made = [angle for angle in usual if low - 1e-6 <= angle <= high + 1e-6]
    return (made[0], f"{MEMORY} sizes") if made else (round((low + high) / 2, 6), TO_ORDER)


def _dovetail_cutters(need: Need) -> Iterator[Wanted]:
    """Those as tall as the flank, thin-necked enough for their cone, of the angle that is called for."""
    called = _angle(need, stock.DOVETAIL_ANGLES)
    if called is None or need.calls.face is None:
        return
    angle, source = called
    for one in stock.dovetails():
        top = one.diameter_mm - 2 * one.face_mm / tan(radians(angle))
        if one.face_mm >= need.calls.face[0] - 1e-6 and top > 0.2 * one.diameter_mm:
            reach = max(one.face_mm, need.deep_mm + need.shop.end_clearance_mm) + LONGER_MM
            cutter = new("dovetail-cutter", diameter_mm=one.diameter_mm, face_mm=one.face_mm, angle_deg=angle,
                          neck_mm=round(0.9 * top, 6), reach_mm=round(reach, 6), shank_mm=one.shank_mm, flutes=6,
                          end_teeth=True)
            yield Wanted(cutter, source, ask_for(cutter, need.shop.units))


def _chamfer_cutters(need: Need) -> Iterator[Wanted]:
    """Those wide enough, of the angle that is called for."""
    called = _angle(need, stock.CHAMFER_ANGLES)
    if called is None:
        return
    angle, source = called
    least = need.calls.diameter[0] if need.calls.diameter else 0.0
    for one in stock.chamfers():
        if one.diameter_mm >= least - 1e-6 and is_held(need.shop, one.diameter_mm):
            yield Wanted(new("chamfer-cutter", diameter_mm=one.diameter_mm, tip_mm=one.tip_mm, angle_deg=angle,
                              shank_mm=one.diameter_mm, flutes=4), source)


def _limits(need: Need) -> tuple[float, float] | None:
    """The limits of a hole: what is called for, else the room's own."""
    if need.calls.diameter is not None:
        return need.calls.diameter
    return (need.room.least.width / 1e6, need.room.most.width / 1e6) if need.room is not None else None


def _drills(need: Need) -> Iterator[Wanted]:
    """The drills whose holes are expected inside the limits, those nearest the middle."""
    limits = _limits(need)
    if limits is None:
        return
    low, high = limits
    made = [(mm, mm + oversize(need.shop.own, mm)[0]) for mm, _ in made_between(low - 0.5, high)]
    near = sorted((abs(hole - (low + high) / 2), mm) for mm, hole in made if low - 1e-6 <= hole <= high + 1e-6)
    for _, mm in near[:_MOST_DRILLS]:
        yield _jobber(mm)


def _jobber(mm: float) -> Wanted:
    """A drill as it is sold, its flutes by the table of its size."""
    cut = float(flutes(mm).usual)
    return Wanted(new("drill", diameter_mm=mm, shank_mm=mm, length_of_cut_mm=cut, angle_deg=118.0, flutes=2),
                  "drill sizes")


def _reamers(need: Need) -> Iterator[Wanted]:
    if (limits := _limits(need)) is not None:
        middle = round(sum(limits) / 2, 6)
        yield Wanted(new("reamer", diameter_mm=middle, shank_mm=shank_for(need.shop, 9.525), flutes=6), TO_ORDER)
        yield from _drills_before(need, middle)


def _drills_before(need: Need, reamer: float) -> Iterator[Wanted]:
    """The drills that leave a reamer what it wants to take, on their own size, those nearest the middle of it."""
    least, most = window(reamer)
    made = [mm for mm, _ in made_between(reamer - most, reamer - least)
            if can_follow(reamer, mm, mm + oversize(need.shop.own, mm)[0])]
    near = sorted((abs(reamer - mm - (least + most) / 2), mm) for mm in made)
    for _, mm in near[:_MOST_DRILLS]:
        yield _jobber(mm)


def _boring_bars(need: Need) -> Iterator[Wanted]:
    if (limits := _limits(need)) is not None:
        yield Wanted(new("boring-bar", diameter_mm=round(0.6 * limits[0], 6), min_hole_mm=round(0.75 * limits[0], 6),
                          shank_mm=12.7), TO_ORDER)


def _counterbores(need: Need) -> Iterator[Wanted]:
    if (limits := _limits(need)) is None:
        return
    hole = need.feature.request.sizes.get("hole")
    pilot = round(hole.nominal - 2 * THOU, 6) if hole else None
    middle = round(sum(limits) / 2 - THOU, 6)
    yield Wanted(new("counterbore", diameter_mm=middle, pilot_mm=pilot, shank_mm=12.7, flutes=3), TO_ORDER)


def _taps(need: Need) -> Iterator[Wanted]:
    thread = need.feature.request.said.get("thread")
    if thread:
        yield Wanted(new("tap", thread=thread, tap_chamfer="plug", tap_form="cutting", tap_point="straight"),
                     "the thread's own")


PROPOSES: Mapping[str, Callable[[Need], Iterator[Wanted]]] = {
    "end-mill": _end_mills,
    "t-slot-cutter": _t_slot_cutters,
    "keyseat-cutter": _keyseat_cutters,
    "dovetail-cutter": _dovetail_cutters,
    "chamfer-cutter": _chamfer_cutters,
    "slitting-saw": _saws,
    "side-cutter": _side_cutters,
    "drill": _drills,
    "reamer": _reamers,
    "boring-bar": _boring_bars,
    "counterbore": _counterbores,
    "tap": _taps,
}
"""What each kind of cutter proposes for a need."""
