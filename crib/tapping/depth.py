"""Where the depth of a tapped hole goes: full thread, the tap's chamfer, room for chips, the drill's point, and what is
left below."""

from __future__ import annotations

from collections.abc import Sequence

from crib.cutters.base import Cutter
from crib.findings.message import Mm, Text, said
from crib.handbook.points import keep_below, point_length
from crib.handbook.tapping import chamfer_threads, chip_room
from crib.handbook.threads import Thread
from crib.light.records import replace
from crib.tapping.shape import Depth
from crib.tapping.taps import sequence

POINT_DEG = 118.0
"""The point taken for a drill where none is on record."""


def budget(thread: Thread, depth_mm: float, through: bool, tap: Cutter | None, taps: Sequence[Cutter],
           drill_mm: float, angle_deg: float | None, below_mm: float | None) -> Depth:
    """The depth that one tap needs as the last, with the taps before it."""
    point = point_length(drill_mm, angle_deg or POINT_DEG)
    used = sequence(tap, taps) if tap else ()
    if through:
        return Depth(depth_mm, 0.0, 0.0, point, True, used)
    chamfer = chamfer_threads(tap.tap_chamfer if tap else None, tap.tap_form if tap else None) * thread.pitch_mm
    chips = chip_room(thread, tap.tap_point if tap else None)
    whole = Depth(depth_mm, chamfer, chips, point, False, used, drill_mm=drill_mm)
    if below_mm is None:
        return whole
    keep = keep_below(drill_mm)
    short = max(0.0, whole.tip_mm + keep - depth_mm - below_mm)
    return replace(whole, keep_mm=keep, short_mm=short, breaks_through=whole.tip_mm > depth_mm + below_mm + 1e-9)


def best_budget(thread: Thread, depth_mm: float, through: bool, taps: Sequence[Cutter], drill_mm: float,
                angle_deg: float | None, below_mm: float | None) -> Depth:
    """The depth with the taps that are owned: the longest chamfer that the metal below allows, else the shortest; where
    what is below isn't known the shallowest, which is right whatever it is."""
    if not taps:
        return budget(thread, depth_mm, through, None, (), drill_mm, angle_deg, below_mm)
    ways = [budget(thread, depth_mm, through, tap, taps, drill_mm, angle_deg, below_mm) for tap in taps]
    if below_mm is None and not through:
        return min(ways, key=lambda way: (round(way.tip_mm, 6), _starts_badly(way), len(way.taps),
                                          taps.index(way.taps[-1])))
    fitting = [way for way in ways if not way.short_mm]
    if fitting:
        return min(fitting, key=lambda way: (len(way.taps), _starts_badly(way), taps.index(way.taps[-1])))
    return min(ways, key=lambda way: way.short_mm or 0.0)


def _starts_badly(depth: Depth) -> bool:
    return depth.taps[0].tap_chamfer == "bottoming"


def ways_out(depth: Depth, thread: Thread, taps: Sequence[Cutter]) -> tuple[Text, ...]:
    """What would do where the metal below is too little."""
    says: list[Text] = []
    if not any(tap.tap_chamfer == "bottoming" for tap in taps):
        saves = (chamfer_threads("plug", None) - chamfer_threads("bottoming", None)) * thread.pitch_mm
        enough = depth.short_mm is not None and saves >= depth.short_mm
        says.append("a bottoming tap after the plug" + ("" if enough else ", and more"))
    if depth.short_mm and depth.point_mm >= depth.short_mm:
        says.append("a flat-bottomed hole (flat drill or end mill after the drill)")
    would_go = depth.full_thread_mm - (depth.short_mm or 0.0)
    shorter = said("a shorter thread, {full} full at the most", full=Mm(would_go, fine=True))
    says += [shorter if would_go >= thread.pitch_mm else "no thread goes with these taps", "a finer pitch",
             "a through hole with a plug in it"]
    return tuple(says)
