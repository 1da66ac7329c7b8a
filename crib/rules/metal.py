"""Rules on the metal: its hardness, what it does to chips, what would be left of it."""

from __future__ import annotations

from collections.abc import Iterator

from crib.cutters.base import Motion
from crib.features import KINDS
from crib.findings.finding import Finding, Grade
from crib.findings.message import InWords, Mm, said
from crib.handbook.materials import Material
from crib.light.records import replace
from crib.machining.draft import Draft
from crib.machining.words import Role, Side

LIMITS: dict[str, tuple[float, float]] = {
    "carbon-steel": (20, 25), "hss": (32, 38), "cobalt": (36, 42), "carbide": (50, 50), "carbide-tipped": (50, 50),
}
"""Hardness of the work that a cutter of this steel stands, and stands with care [HRC]; one of unknown steel is taken
for carbon steel. HSS and carbide: common practice; the others from memory."""

HARD_STEP_MM = 0.003 * 25.4
"""A finishing cut under this rubs and hardens a metal that does [mm]. Common practice."""


def hardness(draft: Draft) -> Iterator[Finding]:
    """MT1: the cutter is hard enough for the work."""
    hrc = draft.question.material.hrc
    for tool in draft.tools:
        if found := too_hard(tool.owned.label, tool.cutter.material, draft.question.material, hrc):
            yield replace(found, cutter_id=tool.id)


def too_hard(label: str, steel: str, metal: Material, hrc: float | None) -> Finding | None:
    """MT1 of one cutter: a stop where the work is harder than its steel stands, a caution where it is near that, or
    where carbon steel meets a metal that hardens as it is cut."""
    usual, careful = LIMITS.get(steel, LIMITS["carbon-steel"])
    unsure = ", taken as carbon steel: its material isn't on record" if steel == "unknown" else ""
    if hrc is not None and hrc > careful:
        return Finding("MT1", Grade.STOP, said("{cutter}: work of {hrc:g} HRC is too hard, {careful:g} at the "
                                               "most{unsure}",
                                               cutter=label, hrc=hrc, careful=careful, unsure=unsure))
    if hrc is not None and hrc > usual:
        return Finding("MT1", Grade.CAUTION, said("{cutter}: {hrc:g} HRC is near its limit, look at its edges often"
                                                  "{unsure}",
                                                  cutter=label, hrc=hrc, unsure=unsure))
    if steel == "carbon-steel" and metal.work_hardens:
        return Finding("MT1", Grade.CAUTION, said("{cutter} is carbon steel: {name} soon blunts it", cutter=label,
                                                  name=metal.name))
    return None


def rubs(draft: Draft) -> Iterator[Finding]:
    """MT4: no finishing cut so thin that it rubs, in a metal that hardens as it is rubbed."""
    if not draft.question.material.work_hardens:
        return
    for job, cut in draft.passes():
        if cut.side != Side.BOTH and 0 < cut.radial / 1e6 < HARD_STEP_MM - 1e-6 and cut.role != Role.SAW:
            least = Mm(HARD_STEP_MM)
            yield Finding("MT4", Grade.CAUTION, said("{cutter}: a side pass under {least} rubs and hardens the wall in "
                                                     "{name}: never as a spring pass", cutter=job.tool.owned.label,
                                                     least=least, name=draft.question.material.name),
cutter_id=job.tool.id)



def chips(draft: Draft) -> Iterator[Finding]:
    """Chips packed behind a buried disc break it."""
    metal = draft.question.material
    for tool in draft.tools:
        if tool.kind.buried:
            grave = Grade.CAUTION if metal.group == "aluminium" else Grade.WARN
            often = "every pass" + (", in aluminium at every stop too" if metal.group == "aluminium" else "")
            body = "teeth" if Motion.FLANK in tool.kind.motions else "disc"
            yield Finding("CH1", grave, said("chips pack behind the {body}: spindle stopped, brush them out after "
                                             "{often}", body=body, often=often))


def floor_left(draft: Draft) -> Iterator[Finding]:
    """WL2: the metal that is left under the feature."""
    request = draft.question.feature.request
    sizes = draft.question.feature.dimensions
    depth = next((one for one in sizes if one.sort == "depth"), None)
    if request.below is None or depth is None:
        return
    wide = (one.size.hi for one in sizes if one.sort == "width" and len(depth.faces) == 1)
    left, across = InWords(request.below), max(wide, default=0.0)  # between two floors the width is what stands
    if request.below < depth.size.hi / 8:
        yield Finding("WL2", Grade.CAUTION, said("only {left} is left under the floor: it springs and may break "
                                                 "through", left=left), "from memory")
    elif request.below < across / 8:
        yield Finding("WL2", Grade.WARN, said("only {left} is left under a floor {across} across: it springs, and may "
                                              "lift; bed it close under the cut", left=left, across=Mm(across)),
                      "from memory")


def thin_leaf(draft: Draft) -> Iterator[Finding]:
    """WL1: the leaf of metal between the feature and the nearer edge of the work, against its height."""
    request = draft.question.feature.request
    edge, depth = request.sizes.get("edge"), request.sizes.get("depth")
    if edge and depth and edge.lo < depth.hi / 8:
        amount = Mm(edge.lo)
        yield Finding("WL1", Grade.CAUTION, said("the leaf beside it is only {thick} thick: it springs away from the "
                                                 "cutter", thick=amount),
                      "from memory")


def sharp_groove(draft: Draft) -> Iterator[Finding]:
    """ST1: a sharp groove raises the stress in a part under load."""
    feature = draft.question.feature
    if not KINDS[feature.kind].is_a_notch:
        return
    if "load" in (feature.request.use or "").lower():
        yield Finding("ST1", Grade.CAUTION, "a sharp groove is where a part under load cracks: ask whoever answers for "
                      "it for a radius")
    else:
        yield Finding("ST1", Grade.NOTE, "a sharp groove raises the stress: a radius in it is better where it carries "
                                         "load")


TOOLS = (hardness,)
RULES = (hardness, rubs, chips, floor_left, thin_leaf, sharp_groove)
STOPS = (hardness,)
