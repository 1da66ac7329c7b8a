"""Rules on inside corners as seen from above: how a cutter gets round them, and what that looks like."""

from __future__ import annotations

from collections.abc import Iterator

from crib.cutters.base import Motion
from crib.findings.finding import Finding, Grade
from crib.findings.message import Mm, said
from crib.geometry.region import FAR
from crib.machining.draft import Draft
from crib.machining.ends import in_the_corners
from crib.rules.catalogue import MEMORY, PRACTICE


def dwells(draft: Draft) -> Iterator[Finding]:
    """PK1: a cutter as round as the corner stands still in it with a quarter of its teeth in metal at once."""
    for one in in_the_corners(draft):
        if one.settings == 1:
            yield Finding("PK1", Grade.WARN, said(
                "a cutter as round as the corners of the {room} dwells in them and chatters: half the feed from a "
                "diameter before each, no stop in it", room=one.room), PRACTICE)
        else:
            yield Finding("PK2", Grade.NOTE, said(
                "each corner of the {room} is walked round in {settings} settings, {left} stands between two: blend "
                "with a file where it shows", room=one.room, settings=one.settings, left=Mm(one.left / 1e6, places=4)),
                "geometry")


def lies(draft: Draft) -> Iterator[Finding]:
    """PK3: a pocket is fed along its long side, where that takes fewer strips and less time for them."""
    feature, layers = draft.question.feature, draft.question.layers
    for room in draft.question.outline.rooms if layers else ():
        ends = layers.ends[room.name] if layers and room.name in layers.corners else None
        if ends is None or ends.left <= -FAR or ends.right >= FAR:
            continue
        along, across = (ends.right - ends.left) / 1e6, room.aim.width / 1e6
        if across > along and _better_turned(draft, room.name):
            yield Finding("PK3", Grade.NOTE, said(
                "the {feature} lies across the table, {across} by {along}: turned, with its long side along the feed, "
                "it takes fewer strips", feature=feature.words, across=Mm(across), along=Mm(along)), MEMORY)


def _better_turned(draft: Draft, room: str) -> bool:
    """Whether strips of the first cutter in a room across its own, no farther one beside the other, are fewer and take
    less time, setting each counted in."""
    job = next((job for job in draft.jobs if job.room == room), None)
    cuts = job.cuts if job else ()
    strips = [cut for cut in cuts if cut.z == cuts[0].z and cut.course and not cut.wall and not cut.is_down]
    side = max((cut.radial for cut in strips[1:]), default=0)
    if not job or not side:
        return False
    along, across = [stop for cut in strips if cut.course for stop, _ in cut.course.path], [cut.x for cut in strips]
    length, span = max(along) - min(along), max(across) - min(across)
    turned = -(-length // side) + 1
    setting = job.tool.pass_minutes * job.tool.feed * 1e6
    return turned < len(strips) and turned * (span + setting) < len(strips) * (length + setting)


def rounds(draft: Draft) -> Iterator[Finding]:
    """CR1: a rounder that stands a hair too deep or too near leaves a line at an end of its arc. CR2: flats along a
    round are filed."""
    rounded = {room.name for room in draft.question.outline.rooms if room.rounded}
    for job in draft.jobs:
        if job.room not in rounded:
            continue
        if Motion.ROUND in job.tool.kind.motions:
            yield Finding("CR1", Grade.NOTE, said(
                "{cutter} a hair too deep or too near leaves a line at an end of the round: stay {proud} off, look, "
                "creep on, blend with a file", cutter=job.tool.owned.label, proud=Mm(0.002 * 25.4)), PRACTICE)
        else:
            yield Finding("CR2", Grade.WARN, said(
                "{cutter} lays a flat along the round: blue it, file it down by the radius gauge",
                cutter=job.tool.owned.label), PRACTICE)


RULES = (dwells, lies, rounds)
