"""A hole through which a disc would get in between closed ends, offered where none was asked for: how wide, what would
then be made, and how the hole itself is. What is told was planned and proved."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil

from crib.cutters.base import Cutter
from crib.features import KINDS, draw
from crib.features.closed import HOLE
from crib.features.flat_bottomed_hole import KIND as FLAT
from crib.features.request import Request
from crib.findings.errors import CribError
from crib.findings.verdicts import Verdict
from crib.geometry.outline import Opening
from crib.handbook.closed_ends import HOLE_MM, LOWERED_MM
from crib.light.records import replace
from crib.planning.advise import best_plan, better_plan, jobs_for
from crib.planning.search.jobs import Jobs
from crib.planning.search.set_ups import Readied
from crib.planning.search.watch import CHANGES, OutOfPatience, Watch
from crib.planning.told.advice import Change, Plan, WayIn
from crib.shop import Shop
from crib.units import Size

_WIDER_MM = 25.4 / 8
"""By so much the hole may be wider than it must. From memory."""

_MOST_SIZES = 6
"""So many holes are tried, the smallest first."""


def way_in(request: Request, than: Verdict, cutters: Sequence[Cutter], shop: Shop, watch: Watch) -> WayIn | None:
    """The smallest hole that lets in a disc with which the answer is better; None where none does, or it was asked
    with one already. The `watch` is told where it takes longer than it may."""
    if request.ends != "closed" or HOLE in request.sizes or HOLE not in {one.key for one in KINDS[request.kind].sizes}:
        return None
    readied, patient = Readied(), Watch(patience=CHANGES)
    try:
        for least in _sizes(request, cutters, shop, readied):
            patient.check()
            if (plan := better_plan(_with(request, least), cutters, shop, than, readied, patient)) is None:
                continue
            makes = _made(request, least, cutters, shop)
            return WayIn(Change(HOLE, 0.0, least, plan), least + _WIDER_MM, request.size("depth").mid, makes)
    except OutOfPatience:
        patient.ran_out = True
    watch.ran_out = watch.ran_out or patient.ran_out
    return None


def _sizes(request: Request, cutters: Sequence[Cutter], shop: Shop, readied: Readied) -> Iterator[float]:
    """The holes that would let in a disc which clears what it is for in the section, as far as they can be drawn."""
    step = shop.readout_mm
    wide = sorted({ceil((across + HOLE_MM) / step - 1e-6) * step for jobs in jobs_for(request, cutters, shop, readied)
                   for across in _kept_out(jobs)})
    tried = 0
    for least in wide:
        try:
            draw(_with(request, least))
        except CribError:
            continue
        tried += 1
        if tried > _MOST_SIZES:
            return
        yield least


def _kept_out(jobs: Jobs) -> Iterator[float]:
    """The widths of the discs that clear a room under a lip but for its ends, and are too wide for what opens it
    [mm]."""
    rooms = jobs.question.outline.rooms
    opening = max((room.aim.width / 1e6 for room in rooms if room.opens(Opening.TOP)), default=0.0)
    for room in rooms:
        if room.opens(Opening.TOP) or room.across:
            continue
        for tool in jobs.tools:
            across = 2 * tool.form.radius / 1e6
            if across + LOWERED_MM > opening and not jobs.stops(tool, room) and jobs.does_across(tool, room):
                yield across


def _with(request: Request, least: float) -> Request:
    """The request with a hole that is so wide at the least [mm]."""
    hole = Size(least, least, round(least + _WIDER_MM, 6), f"{least:g}")
    return replace(request, sizes={**request.sizes, HOLE: hole})


def _made(request: Request, least: float, cutters: Sequence[Cutter], shop: Shop) -> Plan | None:
    """How the hole itself is made: flat at the floor, so wide or a little wider; None where nothing owned makes it."""
    depth = request.size("depth")
    hole = Size(least, least, round(least + _WIDER_MM, 6), f"{least:g}")
    asked = Request(FLAT.name, {"diameter": hole, "depth": depth}, material=request.material,
                    hardness=request.hardness, below=request.below, use=request.use, floor_radius=request.floor_radius)
    try:
        return best_plan(asked, cutters, shop)
    except CribError:
        return None
