"""The same methods left-handed: a room that is open at the left is its mirror image, open at the right."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from crib.findings.finding import Figure
from crib.geometry.free_positions import Interval
from crib.geometry.outline import Room
from crib.geometry.region import Region
from crib.light.records import replace
from crib.machining.methods.base import Attempt, Method
from crib.machining.methods.cuts import Cut, Job
from crib.shop import Shop


def mirror_cut(cut: Cut) -> Cut:
    """A pass with left and right changed over."""
    return replace(cut, x=-cut.x, side=cut.side.other)


def mirror_job(job: Job) -> Job:
    """A job with left and right changed over."""
    return replace(job, cuts=tuple(map(mirror_cut, job.cuts)), removed=job.removed.mirrored)


def mirrored(method: Method) -> Method:
    """A method for rooms that are open at the left, from the one for rooms that are open at the right."""

    def positions(a: Attempt, removed: Region) -> Iterator[Job]:
        return map(mirror_job, method.positions(a.mirrored, removed.mirrored))

    def gets_near(a: Attempt, gone: Region, sides: Interval, under: int) -> bool:
        return method.gets_near(a.mirrored, gone.mirrored, (-sides[1], -sides[0]), under)

    ways, begins = method.ways, method.begins

    def figures(job: Job, before: Sequence[Job], room: Room, shop: Shop) -> Iterator[Figure]:
        return method.figures(mirror_job(job), tuple(map(mirror_job, before)), room.mirrored, shop)

    return replace(
        method,
        limits=lambda a: method.limits(a.mirrored),
        positions=positions,
        stands_in=lambda a, gone: (one._replace(left=-one.right, right=-one.left)
                                   for one in method.stands_in(a.mirrored, gone.mirrored)),
        gets_near=gets_near,
        near=lambda site, tools, sides, under: method.near(site.mirrored, tools, (-sides[1], -sides[0]), under),
        count=lambda a: method.count(a.mirrored),
        ways=None if ways is None else lambda a: ways(a.mirrored),
        never_ends=lambda a: method.never_ends(a.mirrored),
        begins=None if begins is None else lambda a: begins(a.mirrored),
        stands=lambda a, cleared: method.stands(a.mirrored, cleared.mirrored),
        in_the_way=lambda a, cleared: method.in_the_way(a.mirrored, cleared.mirrored),
        figures=figures,
        count_now=None,
        gate=lambda site: method.gate(site.mirrored),
    )
