"""The same ways left-handed: a room that is open at the left is its mirror image, open at the right."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from crib.findings.finding import Figure
from crib.geometry.outline import Outline, Room
from crib.geometry.region import Region
from crib.machining.methods.base import Cut, Infeasible, Job, Limits, Method, PassBound
from crib.machining.tool import Tool
from crib.shop import Shop

_OTHER = {"back": "front", "front": "back"}


def mirror_cut(cut: Cut) -> Cut:
    """A pass with left and right changed over."""
    return replace(cut, x=-cut.x, side=_OTHER.get(cut.side, cut.side))


def mirror_job(job: Job) -> Job:
    """A job with left and right changed over."""
    return replace(job, cuts=tuple(map(mirror_cut, job.cuts)), removed=job.removed.mirrored)


def mirrored(way: Method) -> Method:
    """A way for rooms that are open at the left, from the one for rooms that are open at the right."""

    def clear(tool: Tool, outline: Outline, room: Room, removed: Region, limits: Limits) -> tuple[Job, ...]:
        return tuple(map(mirror_job, way.clear(tool, outline.mirrored, room.mirrored, removed.mirrored, limits)))

    def fewest(tool: Tool, outline: Outline, room: Room, limits: Limits) -> tuple[PassBound, ...]:
        return way.fewest(tool, outline.mirrored, room.mirrored, limits)

    def is_feasible(tool: Tool, outline: Outline, room: Room, cleared: Region, limits: Limits) -> bool | None:
        return way.is_feasible(tool, outline.mirrored, room.mirrored, cleared.mirrored, limits)

    def why_not(tool: Tool, outline: Outline, room: Room, cleared: Region, limits: Limits) -> Infeasible:
        return way.why_not(tool, outline.mirrored, room.mirrored, cleared.mirrored, limits)

    def figures(job: Job, before: Sequence[Job], room: Room, shop: Shop) -> Iterator[Figure]:
        return way.figures(mirror_job(job), tuple(map(mirror_job, before)), room.mirrored, shop)

    return replace(
        way,
        suits=lambda room: "left" in room.open and "right" not in room.open and way.suits(room.mirrored),
        clear=clear,
        fewest=fewest,
        is_feasible=is_feasible,
        why_not=why_not,
        figures=figures,
    )
