"""Arbors for cutters with a bore: the bore is the arbor's, and the flange limits how deep they go."""

from __future__ import annotations

from crib.cutters import kind_of
from crib.cutters.base import Cutter
from crib.cutters.shapes import cylinder
from crib.findings.message import InWords, said
from crib.geometry.silhouette import Part
from crib.holders.base import STANDS_OUT_MM, Arbor, Held, Holding, above_shank, noses

FLANGE_SHARE, FLANGE_TALL_MM, NOSE_TALL_MM = 1.75, 9.525, 38.1
"""The flange's diameter over the bore where it isn't known [-], its height on either side of the cutter and the height
of an arbor's nose [mm]. From memory."""

FLANGE = "arbor flange"
_SLACK = 0.001 * 25.4


def hold(cutter: Cutter, holding: Holding) -> Held | None:
    """The arbor for the bore, of several the one with the least flange; None where the cutter has no bore."""
    bore = cutter.bore_mm
    if bore is None:
        return None
    size = InWords(bore)
    if holding.arbors is None:
        usual = Arbor(bore, FLANGE_SHARE * bore)
        flange = InWords(usual.flange)
        return Held(True, said("{size} arbor", size=size), parts=_parts(cutter, usual, holding),
                    assumed=said("an arbor for the {size} bore, its flange {flange} across: no arbors on record",
                                 size=size, flange=flange))
    fits = [arbor for arbor in holding.arbors if abs(arbor.bore - bore) <= _SLACK]
    if fits:
        best = min(fits, key=lambda arbor: (arbor.flange, -(arbor.reach or STANDS_OUT_MM), arbor.nose or 0.0))
        return Held(True, said("{size} arbor, flange {flange}", size=size, flange=InWords(best.flange)),
                    parts=_parts(cutter, best, holding))
    nearest = min((arbor.bore for arbor in holding.arbors), key=lambda one: abs(one - bore), default=None)
    near = said("the nearest is {nearest}", nearest=InWords(nearest)) if nearest is not None else "there are no arbors"
    return Held(False, "no arbor", said("no arbor for a bore of {size}: {near}", size=size,
                                        near=near), rule="HD1", has=nearest, needs=bore,
                fix=said("an arbor for {size}", size=size),
                parts=_parts(cutter, Arbor(bore, FLANGE_SHARE * bore), holding))


def is_on_arbor(cutter: Cutter) -> bool:
    """Whether it goes between the flanges of an arbor."""
    kind = kind_of(cutter)
    return kind.on_arbor or (kind.may_be_bored and cutter.bore_mm is not None and cutter.shank_mm is None)


def _parts(cutter: Cutter, arbor: Arbor, holding: Holding) -> tuple[Part, ...]:
    """The flanges on both sides of the cutter, the arbor above, and the noses. A flange stays off the work by as much
    beside it as above or below it. Of a kind that draws its own arbor the spindle's nose alone; on the end of a stub
    arbor the shoulder above."""
    if kind_of(cutter).on_stub:
        return _stub(cutter, arbor, holding)
    if not is_on_arbor(cutter):
        return noses(above_shank(cutter), "", None, 0.0, holding)
    face, clear = cutter.face_mm or 0.0, holding.clear
    top = face + FLANGE_TALL_MM
    low = max(top, face + (arbor.reach or STANDS_OUT_MM))
    flanges = (
        cylinder(FLANGE, -FLANGE_TALL_MM, 0.0, arbor.flange, clear.end, clear.end),
        cylinder(FLANGE, face, top, arbor.flange, clear.end, clear.end),
    )
    stem = (cylinder("arbor", top, low, arbor.bore, clear.neck, clear.end),) if low > top else ()
    return (*flanges, *stem, *noses(low, "arbor nose", arbor.nose, NOSE_TALL_MM, holding))


def _stub(cutter: Cutter, arbor: Arbor, holding: Holding) -> tuple[Part, ...]:
    """The shoulder that drives the cutter, no wider than it, as high as the arbor stands out, and the noses."""
    form = kind_of(cutter).form
    drawn = form(cutter, holding.clear) if form else None
    low = max(part.high for part in (*drawn.sure, *drawn.clear)) / 1e6 if drawn else 0.0
    high = low + (arbor.reach or STANDS_OUT_MM)
    shoulder = min(arbor.flange, cutter.diameter_mm or arbor.flange)
    stem = cylinder("arbor shoulder", low, high, shoulder, holding.clear.neck, holding.clear.end)
    return (stem, *noses(high, "arbor nose", arbor.nose, NOSE_TALL_MM, holding))
