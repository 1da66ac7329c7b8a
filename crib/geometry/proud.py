"""How far what must go still stands: square out of the face that is drawn where it is let stand over a round, else from
what is gone."""

from __future__ import annotations

from math import hypot

from crib.geometry.faces import FINE
from crib.geometry.farthest import farthest
from crib.geometry.outline import Outline, Room
from crib.geometry.region import Region


def stands(outline: Outline, left: Region, gone: Region) -> int:
    """How far what is left of what must go stands [nm]: one figure for whoever tells it.

    Over a round the way along the wall to what is gone says nothing: the file takes down what stands proud of it.
    """
    reach = farthest(left, gone)
    room = next((room for room in outline.rooms if room.rounded), None)
    is_proud = any(waiver.is_proud for waiver in outline.waivers)
    return reach if reach <= FINE or room is None or not is_proud else round(_over(left, room))


def _over(left: Region, room: Room) -> float:
    """How far what is left stands out over the round that is aimed at, whose middle lies its radius under the top and
    behind the wall [nm]."""
    radius = room.rounded[1] if room.rounded else 0
    corners = ((x, z) for slab in left.slabs for span in slab.spans
               for x, z in ((span.left_low, slab.low), (span.right_low, slab.low), (span.left_high, slab.high),
                            (span.right_high, slab.high)))
    return max((hypot(x + radius, z + radius) - radius for x, z in corners), default=0.0)
