"""Rules on what leans: dovetails, chamfers, V-grooves."""

from __future__ import annotations

from collections.abc import Iterator

from crib.cutters.base import Motion
from crib.findings.finding import Finding, Grade, off_drawing
from crib.findings.message import Mm, said
from crib.geometry.outline import Room
from crib.machining.draft import Draft
from crib.machining.methods.cuts import Job
from crib.machining.words import LEANING, PREPARES, Manner, Side
from crib.rules.passes import no_faster


def _slanted(draft: Draft) -> Iterator[tuple[Job, Room]]:
    rooms = {room.name: room for room in draft.question.outline.rooms if room.lean}
    return ((job, rooms[job.room]) for job in draft.jobs if job.room in rooms and job.manner not in PREPARES)


def other_angles(draft: Draft) -> Iterator[Finding]:
    """Faces whose angle is off by more than the drawing allows: by how much the leg comes out off, and may [mm]."""
    for job, room in _slanted(draft):
        strict, lean = draft.question.feature.strict.get(room.name), room.lean
        if strict is None or lean is None:
            continue
        run = job.tool.form.run(lean.rise)
        if not strict[0] <= run <= strict[1]:
            height = room.aim.height / 1e6 / lean.rise
            allowed = min(abs(side - lean.run) for side in strict)
            says = said("the angle of the {room} is another: over its height it is off by", room=room.name)
            yield off_drawing("AN1", says, abs(run - lean.run) * height, allowed * height,
                              of_mm=allowed * height or room.aim.height / 1e6)


def full_corner(draft: Draft) -> Iterator[Finding]:
    """DT1: the points of a dovetail cutter break where its first cut is a full corner."""
    for job, cut in draft.passes():
        if job.manner in LEANING and cut.side == Side.BOTH:
            grave = Grade.CAUTION if cut.slow else Grade.WARN
            yield Finding("DT1", grave, said("the first pass in the {room} cuts with both points at once, and points "
                                             "break: {how}; never climb", room=job.room, how=no_faster(cut.slow)))
            return


def flank_care(draft: Draft) -> Iterator[Finding]:
    """DT2: what to mind along a flank: the floor, the angle, the pins, the edges."""
    rooms = [room for job, room in _slanted(draft) if job.manner in LEANING]
    if not rooms:
        return
    yield Finding("DT2", Grade.NOTE, said("the cutter must not drag: where the floor isn't cut deeper than it stands, "
                                          "set it down to the floor, then up {up}; every side step conventional, the "
                                          "points break in a climb cut", up=Mm(0.0254)))
    yield Finding("DT3", Grade.NOTE, "check the cutter's angle with a gauge or between two pins before the first "
                  "flank, and break the sharp edges before measuring")
    if any(room.open for room in rooms):
        yield Finding("DT4", Grade.NOTE, said("cut the slide last and fit it to its own slot; knock {least} to {most} "
                                              "off its top corners so that they don't touch the "
                                              "slot's", least=Mm(0.381), most=Mm(0.762)))


def opened_first(draft: Draft) -> Iterator[Finding]:
    """DT5: much metal at a corner, in steel, is better opened by an undercut in steps first."""
    if draft.question.material.group not in ("steel", "stainless"):
        return
    for job, room in _slanted(draft):
        if job.manner not in LEANING:
            continue
        from crib.handbook.dovetails import UNDERCUT_FIRST_MM

        metal = sum(cut.radial for cut in job.cuts if cut.side == Side.BACK and cut.z == room.aim.low) / 1e6
        if metal > UNDERCUT_FIRST_MM:
            amount = Mm(metal)
            yield Finding("DT5", Grade.NOTE, said("{metal} of metal at the corner: a keyseat cutter in steps first "
                                                  "would spare the points", metal=amount))
            return


def lowered_in(draft: Draft) -> Iterator[Finding]:
    """DT6: the way in: from the open end, or lowered into the slot where the cutter is narrow enough."""
    for job, between in _slanted(draft):
        before = draft.jobs[: draft.jobs.index(job)]
        opening = before[-1].removed.spans_at(-1) if before else ()
        if between.open or job.manner not in LEANING or not opening:
            continue
        mouth = (opening[0][1] - opening[0][0]) / 1e6
        room = mouth - 2 * job.tool.form.radius / 1e6
        how = "it may be lowered into the rough slot" if room >= 0.010 * 25.4 else "it is wider than the rough slot"
        yield Finding("DT6", Grade.NOTE, said("{cutter}: in from the open end; {how}", cutter=job.tool.owned.label,
                                              how=how), "geometry")


def points_along_an_edge(draft: Draft) -> Iterator[Finding]:
    """CH2: a countersink, spot drill or centre drill that is run along an edge, to bevel it or to lay a flat along a
    round; CH3: few teeth, or an even number, chatter."""
    edges = {room.name for room in draft.question.outline.rooms if room.lean or room.rounded}
    for job in draft.jobs:
        if job.manner != Manner.ONE_PLACE or job.room not in edges or Motion.EDGE not in job.tool.kind.motions:
            continue
        cutter = job.tool.cutter
        if job.tool.kind.in_chuck:
            yield Finding("CH2", Grade.CAUTION, said("{cutter} isn't made to cut on its side: light bites, in a collet "
                                                     "and not in a drill chuck", cutter=job.tool.owned.label))
        if cutter.flutes is not None and (cutter.flutes < 3 or cutter.flutes % 2 == 0):
            yield Finding("CH3", Grade.WARN, said("{cutter}: {flutes} flutes may chatter along an edge: less speed, "
                                                  "steady feed", cutter=job.tool.owned.label, flutes=cutter.flutes))


RULES = (full_corner, flank_care, opened_first, lowered_in, points_along_an_edge)
