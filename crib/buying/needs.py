"""What a feature needs, room by room, as the kinds of cutter are told."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial

from crib.cutters.base import Cutter
from crib.cutters.proposals import Need
from crib.features.base import Feature
from crib.geometry.outline import Opening
from crib.holders.base import Holding
from crib.holders.collets import hold
from crib.shop import Shop

FIRST_ID = 1_000_000_000
"""From this number on a cutter isn't owned."""


def needs(feature: Feature, shop: Shop, owned: Sequence[Cutter] = ()) -> Iterator[tuple[tuple[str, ...], Need]]:
    """The kinds of cutter that each room of a feature calls for, and what it asks of them. `owned`: where a boring head
    may lie."""
    rooms = {room.name: room for room in feature.outline.rooms}
    deep = max((d.size.hi for d in feature.dimensions if d.sort == "depth"), default=0.0)
    hole = feature.request.sizes.get("hole") or feature.request.sizes.get("bore")
    bars = _bars(shop, owned) if feature.down else ()
    chuck = Need.chuck if shop.chuck_mm is None else shop.chuck_mm
    for name, calls in feature.calls_for.items():
        room = rooms.get(name)
        ways_in = [one.least.width / 1e6 for one in rooms.values() if one.opens(Opening.TOP) and one is not room]
        yield calls.kinds, Need(
            room=room, deep=deep, neck=shop.neck_clearance_mm, end=shop.end_clearance_mm,
            is_held=partial(_is_held, shop), drilled=partial(_drilled, shop),
            opening=min(ways_in, default=None), diameter=calls.diameter, face=calls.face, angle=calls.angle,
            corner=calls.corner, hole=hole.nominal if hole else None, thread=feature.request.said.get("thread"),
            arbors=None if shop.arbors is None else tuple(arbor.bore_mm for arbor in shop.arbors),
            metric=shop.units == "mm", bars=bars, chuck=chuck)


def _bars(shop: Shop, owned: Sequence[Cutter]) -> tuple[float, ...]:
    """The bars that the boring heads take."""
    from crib.machining.methods.down_the_axis.boring import heads_of  # most features have no hole

    return tuple(head.bar for head in heads_of(shop, owned))


def _is_held(shop: Shop, shank: float) -> bool:
    held = hold(Cutter(0, "", shank_mm=shank), Holding(shop.collets_mm))
    return held is not None and held.ok


def _drilled(shop: Shop, mm: float) -> float:
    from crib.machining.own_holes import oversize

    return mm + oversize(shop.own, mm)[0]
