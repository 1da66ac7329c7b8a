"""Rules on what stands beside the work: how near a pass comes to it, how far a cutter stands out to pass over it."""

from __future__ import annotations

from collections.abc import Iterator

from crib.findings.finding import Finding
from crib.findings.message import Mm, said
from crib.geometry.free_positions import gaps
from crib.geometry.region import FAR, Region, box
from crib.geometry.silhouette import Part
from crib.handbook.bites import stickout_severity
from crib.machining.draft import Draft
from crib.machining.methods.base import KEEP_OFF, Cut


def beside(draft: Draft) -> Iterator[Finding]:
    """WA1: how near a pass comes to what stands beside the work."""
    obstacles = draft.question.outline.obstacles
    if not obstacles:
        return
    near = [(gap.gap, gap.part.name) for job, cut in draft.passes()
            if cut.room for gap in gaps((*job.tool.form.may, *job.tool.form.clear), obstacles, cut.x, cut.z)]
    closest, part = min(near, default=(KEEP_OFF, ""))
    if closest < KEEP_OFF:
        amount = Mm(max(0, closest) / 1e6)
        yield Finding("WA1", "warn", said("the {part} {verb} within {amount} of what stands beside the work: try it "
                                          "by hand with the spindle stopped", part=part, verb=_verb(part),
                                          amount=amount), "common practice, no source")


def stands_out(draft: Draft) -> Iterator[Finding]:
    """WA2: how far a cutter must stand out where its holder goes over what stands beside the work."""
    obstacles = draft.question.outline.obstacles
    for tool in draft.tools if obstacles else ():
        nose = min(tool.held.parts, key=lambda part: part.low, default=None)
        if nose is None:
            continue
        needs = max((_over(nose, cut, obstacles) for job, cut in draft.passes() if job.tool.id == tool.id), default=0)
        if needs <= 0:
            continue
        ratio = needs / 1e6 / (tool.cutter.diameter_mm or 1.0)
        grave = "caution" if stickout_severity(ratio) == "caution" else "warn"
        unsure = "" if tool.owned.overall_length_mm else ", and its overall length isn't on record"
        yield Finding("WA2", grave, said("{cutter} must stand {needs} out of the {name}, {ratio:.1f} times its "
                                         "diameter, to clear what stands beside the work{unsure}: light cuts, and "
                                         "measure for bend", cutter=tool.owned.label, needs=Mm(needs / 1e6),
                                         name=nose.name.removesuffix(' nose'), ratio=ratio,
                                         unsure=unsure), "geometry", tool.id)


def _over(nose: Part, cut: Cut, obstacles: Region) -> int:
    """How far over the lower face a nose must begin to pass over what stands beside the work; nothing where it doesn't
    go over any."""
    reaching = nose.radius_low + nose.side
    under = obstacles & box(cut.x - reaching, 0, cut.x + reaching, FAR)
    return under.bounds()[3] - cut.z + nose.end if under else 0


def _verb(part: str) -> str:
    return "come" if part == "teeth" else "comes"


RULES = (beside, stands_out)
