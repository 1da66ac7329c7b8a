"""Rules on what stands beside the work: how near a pass comes to it, how far a cutter stands out to pass over it."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from crib.findings.finding import Finding, Grade
from crib.findings.message import Mm, said
from crib.geometry.gaps import gaps
from crib.geometry.region import FAR, NOTHING, Region, box
from crib.geometry.silhouette import Part, Silhouette
from crib.handbook.bites import stickout_grade
from crib.machining.draft import Draft
from crib.machining.methods.cuts import KEEP_OFF
from crib.machining.tool import Tool
from crib.rules.holding import TOO_FAR


def beside(draft: Draft) -> Iterator[Finding]:
    """WA1: how near a pass comes to what stands beside the work."""
    obstacles = draft.question.outline.obstacles
    if not obstacles:
        return
    places = dict.fromkeys((job.tool.form, cut.x, cut.z) for job, cut in draft.passes() if cut.room)
    near = (_nearest(form, obstacles, x, z) for form, x, z in places if _may_be_near(form, obstacles, x, z))
    closest, part = min(near, default=(KEEP_OFF, ""))
    if closest < KEEP_OFF:
        amount = Mm(max(0, closest) / 1e6)
        yield Finding("WA1", Grade.WARN, said("the {part} {verb} within {near} of what stands beside the work: try "
                                              "it by hand with the spindle stopped", part=part, verb=_verb(part),
                                              near=amount), "common practice, no source")


def _may_be_near(form: Silhouette, obstacles: Region, x: int, z: int) -> bool:
    """Whether a body may come that near, as far as the rectangle round what stands beside the work tells."""
    left, low, right, high = obstacles.bounds()
    left, low, right, high = left - x - KEEP_OFF, low - z - KEEP_OFF, right - x + KEEP_OFF, high - z + KEEP_OFF
    return any(part.low < high and part.high > low and part.widest > left and -part.widest < right
               for parts in (form.may, form.clear) for part in parts)


@lru_cache(maxsize=4096)
def _nearest(form: Silhouette, obstacles: Region, x: int, z: int) -> tuple[int, str]:
    """How near a body comes to what stands beside the work, and with which part; kept, for drafts share passes."""
    return min((gap.gap, gap.part.name) for gap in gaps((*form.may, *form.clear), obstacles, x, z))


def stands_out(draft: Draft) -> Iterator[Finding]:
    """How far a cutter must stand out where its holder goes over what stands beside the work: WA3, so that nobody
    chucks it short; WA2 where that is further than its stiffness bears and than it stands out anyway."""
    obstacles = draft.question.outline.obstacles
    tightest = min((d.size.band for d in draft.question.dimensions), default=None) if obstacles else None
    for tool in draft.tools if obstacles else ():
        nose = min(tool.held.parts, key=lambda part: part.low, default=None)
        if nose is None:
            continue
        places = sorted({(cut.x, cut.z) for job, cut in draft.passes() if job.tool.id == tool.id}, reverse=True)
        lowest = {x: z for x, z in places}  # the last of a place is its lowest
        needs = max((_over(nose, x, obstacles) - z for x, z in lowest.items()), default=0)
        if needs <= 0:
            continue
        ratio = needs / 1e6 / (tool.cutter.diameter_mm or 1.0)
        grave = stickout_grade(ratio, None if tool.kind.buried else tightest or None)  # a disc bends by its neck
        unsure = "" if tool.owned.overall_length_mm else ", and its overall length isn't on record"
        name, out = nose.name.removesuffix(" nose"), Mm(needs / 1e6)
        if grave is None or needs / 1e6 <= tool.stickout:
            yield Finding("WA3", Grade.WARN, said("{cutter} must stand {needs} out of the {name} to clear what stands "
                                                  "beside the work{unsure}", cutter=tool.owned.label, needs=out,
                                                  name=name, unsure=unsure), "geometry", tool.id)
            continue
        comes = said("light cuts, and measure for bend") if grave != Grade.STOP else TOO_FAR
        yield Finding("WA2", grave, said("{cutter} must stand {needs} out of the {name}, {ratio:.1f} times its "
                                         "diameter, to clear what stands beside the work{unsure}: {comes}",
                                         cutter=tool.owned.label, needs=out, name=name, ratio=ratio, unsure=unsure,
                                         comes=comes), "from memory", tool.id,
                      fix="a stouter cutter" if grave == Grade.STOP else None)


def surely_stands_out(obstacles: Region, tool: Tool, left: int, right: int, z: int) -> bool:
    """Whether WA2 cautions against a tool, or forbids it, wherever it stands between two places across with its lower
    face no higher than so [nm]."""
    nose = min(tool.held.parts, key=lambda part: part.low, default=None)
    if nose is None:
        return False
    begins, ends = right - nose.radius_low - nose.side, left + nose.radius_low + nose.side  # under it at all of them
    under = obstacles & box(begins, 0, ends, FAR) if begins < ends else NOTHING
    needs = under.bounds()[3] + nose.end - z if under else 0
    grave = stickout_grade(needs / 1e6 / (tool.cutter.diameter_mm or 1.0))
    return needs / 1e6 > tool.stickout and grave in (Grade.CAUTION, Grade.STOP)


@lru_cache(maxsize=4096)
def _over(nose: Part, x: int, obstacles: Region) -> int:
    """How high a nose must begin to pass over what stands beside the work; far down where it doesn't go over any."""
    left, right = x - nose.radius_low - nose.side, x + nose.radius_low + nose.side
    if not any(slab.high > 0 and min(one[0], one[2]) < right and max(one[1], one[3]) > left
               for slab in obstacles.slabs for one in slab.spans):
        return -FAR
    under = obstacles & box(left, 0, right, FAR)
    return under.bounds()[3] + nose.end if under else -FAR


def _verb(part: str) -> str:
    return "come" if part == "teeth" else "comes"


RULES = (beside, stands_out)
MAY_STOP = (stands_out,)
