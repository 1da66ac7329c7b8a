"""A room that is reached from beside the work: the disc stands at its height in the air, goes straight in at one place,
and comes back the way it went."""

from __future__ import annotations

from crib.geometry.cleared import Cleared
from crib.geometry.layers import Layers
from crib.light.records import replace
from crib.machining.ends.entry import SPARE
from crib.machining.methods.cuts import Course, Cut, Job
from crib.machining.words import Entry
from crib.units import nm

RUN_OUT = nm(0.1 * 25.4)
"""How far out of the work a disc stands before it goes in. Common practice."""


def route(job: Job, layers: Layers, cleared: Cleared) -> tuple[Cut, ...] | None:
    """The passes with their ways, from the air beside to where each stands; None where it can't stand outside."""
    along, radius, done = layers.ends[job.room].middle, job.tool.form.radius, []
    for cut in job.cuts:
        start = (along, max(cut.x, 0) + radius + SPARE + RUN_OUT)
        if not cleared.is_free(start, cut.z, radius):
            return None
        done.append(replace(cut, course=Course((start, (along, cut.x)), Entry.BESIDE, radius + SPARE)))
    return tuple(done)
