"""Who follows other mills along the walls of a room with closed ends: in its corners there is as much metal as these
are rounder."""

from __future__ import annotations

from math import sqrt

from crib.light.records import replace
from crib.machining.draft import Draft
from crib.machining.methods.cuts import LEAST_BITE, Job
from crib.machining.words import Side


def in_the_corners(draft: Draft, job: Job) -> Job:
    """A job that goes in rounds along what others left; without these where nobody who milled there left so much in
    the corners that it is in metal with more than half of its width.

    A corner that is left R round, seen from above, is no thicker than a bite t before a wall from R - sqrt(2 R t) off
    the other one on (geometry)."""
    if not job.otherwise:
        return job
    left = max((one.tool.form.radius + one.tool.finish for one in draft.jobs if one.room == job.room
                and any(cut.side != Side.AXIS for cut in one.cuts)), default=0)
    is_much = left - sqrt(2 * left * LEAST_BITE) > job.tool.form.radius
    return replace(job, cuts=job.cuts if is_much else job.otherwise, otherwise=())
