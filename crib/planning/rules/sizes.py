"""Rules on size: what the way of cutting can hold, what isn't measured, what is assumed."""

from __future__ import annotations

from collections.abc import Iterator

from crib.features.base import Dimension
from crib.handbook.bands import Band, band, one_pass_width
from crib.lengths import show
from crib.planning.advice import Deviation, Warning
from crib.planning.draft import Draft
from crib.planning.ways.base import LEANING, LEAST_BITE, STEPPED, Job

_SLACK = 1e-6


def measured(draft: Draft) -> Iterator[Warning]:
    """PR1: a size that places a wall is better measured than stated."""
    for tool in draft.tools:
        if "diameter_mm" not in tool.owned.measured:
            yield Warning("PR1", "note", f"{tool.owned.label}: the diameter isn't measured; mic it before the walls")
        typical = [key for key in tool.cutter.assumed if key in ("length_of_cut_mm", "shank_mm", "neck_mm")]
        if typical:
            words = ", ".join(key.removesuffix("_mm").replace("_", " ") for key in typical)
            yield Warning("PR1", "warn", f"{tool.owned.label}: {words} taken as usual for its kind; measure first",
                          "from memory")


def rubbing(draft: Draft) -> Iterator[Warning]:
    """SZ2: a cutter that is nearly the size of the slot rubs on the second wall."""
    for job, cut in draft.passes():
        if cut.role == "finish" and job.manner in STEPPED and cut.radial <= LEAST_BITE:
            yield Warning("SZ2", "warn", f"{job.tool.owned.label} is nearly the width: the side passes take a hair, "
                          "sharp teeth only", "from memory")
            return


def holds(draft: Draft) -> Iterator[Warning]:
    """G12: the way of cutting holds the drawing's band."""
    units = draft.question.shop.units
    for dimension, way, jobs in _ways(draft):
        low, high = _comes_out(dimension, way, jobs, careful=False)
        if dimension.size.lo - _SLACK <= low and high <= dimension.size.hi + _SLACK:
            continue
        limits = f"{show(dimension.size.lo, units)} to {show(dimension.size.hi, units)}"
        if dimension.size.band < _SLACK:
            usual = f"{way.way} usually holds {show(high - low, units)}"
            yield Warning("G12", "warn", f"{dimension.name} without a tolerance counts as exact; {usual}", way.source)
            continue
        low, high = _comes_out(dimension, way, jobs, careful=True)
        if dimension.size.lo - _SLACK <= low and high <= dimension.size.hi + _SLACK:
            yield Warning("G12", "warn", f"{dimension.name} {limits} holds with care only: {way.way}", way.source)


def misses(draft: Draft) -> Iterator[Deviation]:
    """What the way can't hold even with care: how far it may come out beyond the nearer limit."""
    for dimension, way, jobs in _ways(draft):
        if dimension.size.band < _SLACK:
            continue
        low, high = _comes_out(dimension, way, jobs, careful=True)
        over = max(high - dimension.size.hi, dimension.size.lo - low)
        if over > _SLACK:
            yield Deviation(f"{dimension.name} may come out outside its limits", over, 0.0)


def _ways(draft: Draft) -> Iterator[tuple[Dimension, Band, list[Job]]]:
    """Each dimension of a finished room that a way of cutting decides, with that way and the jobs that make it."""
    outline = draft.question.outline
    undone = [room.name for room in outline.rooms if not outline.is_waived(outline.rest(room, draft.removed))]
    stepped = band("stepped by readout" if draft.question.shop.dro else "stepped by dials")
    for dimension in draft.question.feature.dimensions:
        if dimension.sort == "depth":
            continue
        jobs = [job for job in draft.jobs if _makes(job, dimension)]
        if not jobs or jobs[-1].room in undone:
            continue
        last = jobs[-1]
        if dimension.sort == "height":
            if last.levels > 1:
                yield dimension, band("two levels"), jobs
        elif last.manner == "own size":
            yield dimension, band("own size"), jobs
        elif last.manner in STEPPED or len({cut.x for cut in last.cuts}) > 1:
            yield dimension, stepped, jobs


def _makes(job: Job, dimension: Dimension) -> bool:
    return job.room in dimension.rooms if dimension.rooms else dimension.name.startswith(job.room)


def _comes_out(dimension: Dimension, way: Band, jobs: list[Job], careful: bool) -> tuple[float, float]:
    """From what to what a dimension comes out [mm]."""
    last = jobs[-1]
    if way.way == "own size":
        return one_pass_width(last.tool.cutter.diameter_mm or 0.0)[careful]
    deviations = way.careful_mm if careful else way.usual_mm
    aimed = _aimed(dimension, jobs)
    return aimed + deviations[0], aimed + deviations[1]


def _aimed(dimension: Dimension, jobs: list[Job]) -> float:
    """The size that the passes are set to [mm]."""
    cuts = [cut for job in jobs for cut in job.cuts]
    if dimension.sort == "height":
        return (max(cut.z for cut in cuts) + jobs[-1].tool.form.height - min(cut.z for cut in cuts)) / 1e6
    if len(dimension.faces) == 1 or dimension.rooms:
        return dimension.size.mid
    form = jobs[-1].tool.form
    reached = form.base if jobs[-1].manner in LEANING else form.radius
    return (max(cut.x for cut in cuts) - min(cut.x for cut in cuts) + 2 * reached) / 1e6


RULES = (measured, rubbing, holds)
