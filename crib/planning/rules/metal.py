"""Rules on the metal: its hardness, what it does to chips, what would be left of it."""

from __future__ import annotations

from collections.abc import Iterator

from crib.handbook.hardness import read_hardness
from crib.lengths import in_words, show
from crib.planning.advice import Warning
from crib.planning.draft import Draft

_LIMITS = {"carbide": (50, 50), "carbide-tipped": (50, 50)}
_HSS = (32, 38)


def hardness(draft: Draft) -> Iterator[Warning]:
    """MT1: the cutter is hard enough for the work: HSS up to 32 HRC, 38 with care; carbide by hand up to 50."""
    said = draft.question.feature.request.hardness
    hrc = read_hardness(said) if said else None
    if hrc is None:
        return
    for tool in draft.tools:
        usual, careful = _LIMITS.get(tool.cutter.material, _HSS)
        if hrc > careful:
            yield Warning("MT1", "stop", f"{tool.owned.label}: work of {hrc:g} HRC is too hard, {careful} at the most",
                          cutter_id=tool.id)
        elif hrc > usual:
            yield Warning("MT1", "caution", f"{tool.owned.label}: {hrc:g} HRC is near its limit, slow and light",
                          cutter_id=tool.id)


def chips(draft: Draft) -> Iterator[Warning]:
    """Chips packed behind a buried disc break it."""
    metal = draft.question.material
    for tool in draft.tools:
        if tool.kind.buried:
            grave = "caution" if metal.group == "aluminium" else "warn"
            often = "every pass" + (", in aluminium every inch" if metal.group == "aluminium" else "")
            body = "teeth" if "flank" in tool.kind.ways else "disc"
            yield Warning("CH1", grave, f"chips pack behind the {body}: spindle stopped, brush them out after {often}")


def floor_left(draft: Draft) -> Iterator[Warning]:
    """WL2: the metal that is left under the feature."""
    request = draft.question.feature.request
    depth = next((d.size.hi for d in draft.question.feature.dimensions if d.sort == "depth"), None)
    if request.below is None or depth is None:
        return
    if request.below < depth / 8:
        said = in_words(request.below, draft.question.shop.units)
        yield Warning("WL2", "caution", f"only {said} is left under the floor: it springs and may break through",
                      "from memory")


def thin_leaf(draft: Draft) -> Iterator[Warning]:
    """WL1: the leaf of metal between the feature and the nearer edge of the work, against its height."""
    request = draft.question.feature.request
    edge, depth = request.sizes.get("edge"), request.sizes.get("depth")
    if edge and depth and edge.lo < depth.hi / 8:
        said = show(edge.lo, draft.question.shop.units)
        yield Warning("WL1", "caution", f"the leaf beside it is only {said} thick: it springs away from the cutter",
                      "from memory")


def sharp_groove(draft: Draft) -> Iterator[Warning]:
    """ST1: a sharp groove raises the stress in a part under load."""
    feature = draft.question.feature
    if feature.kind != "undercut":
        return
    if "load" in (feature.request.use or "").lower():
        yield Warning("ST1", "caution", "a sharp groove is where a part under load cracks: ask whoever answers for it "
                      "for a radius")
    else:
        yield Warning("ST1", "note", "a sharp groove raises the stress: a radius in it is better where it carries load")


RULES = (hardness, chips, floor_left, thin_leaf, sharp_groove)
STOPS = (hardness,)
