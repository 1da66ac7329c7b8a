"""A size that was measured of a part, in words: which size of the drawing it is, and what it means where it lies
outside."""

from __future__ import annotations

from collections.abc import Iterator

from crib.app.part.made import Measured
from crib.features.base import Dimension, Feature
from crib.findings.errors import CribError
from crib.findings.message import Measure, Reading, Text, said
from crib.parts.part import Part
from crib.planning.parts.planned import PlannedPart
from crib.units import read

_IDLE = ("of", "the", "is", "measures", "measured", "reads", "a", "its", "at", "=")


def read_measured(planned: PlannedPart, text: str, units: str, among: frozenset[str] = frozenset()) -> Measured:
    """What was measured, as `throat .5005`, `lay slot throat width .626` or `depth of lay slot .520`. `among`: the
    features that are meant before others. Raises `CribError` where no size, or more than one, is meant."""
    words = [word for word in text.replace("=", " ").replace(":", " ").split() if word.casefold() not in _IDLE]
    if len(words) < 2:
        raise CribError("measured", f"{text!r} doesn't say what was measured and what it measures", text,
                        'the size, then what it reads: "throat .5005"')
    mm = read(words[-1], units, "measured").mm
    wanted = [word.casefold() for word in words[:-1]]
    found = [(name, one) for name, one in _sizes(planned) if _means(wanted, name, one)]
    found = [each for each in found if each[0] in among] or found
    exact = [each for each in found if _core(each[1]) == set(wanted) - set(each[0].casefold().split())]
    if len(exact) == 1:
        found = exact
    if len(found) != 1:
        raise _not_one(text, found or list(_sizes(planned)), bool(found))
    (name, one), = found
    return Measured(f"{name}: {one.name}", name, mm, one.size.lo, one.size.hi, words[-1])


def _not_one(text: str, those: list[tuple[str, Dimension]], several: bool) -> CribError:
    names = "; ".join(f"{name} {one.name}" for name, one in those[:8])
    what = f"{text!r} could be more than one size" if several else f"no size of this part is called so: {text!r}"
    return CribError("measured", what, text, f"one of: {names}")


def _sizes(planned: PlannedPart) -> Iterator[tuple[str, Dimension]]:
    """Every size of every feature that has a plan."""
    for name, feature in features_of(planned).items():
        for one in feature.dimensions:
            yield name, one


def sizes_of(planned: PlannedPart) -> list[str]:
    """Every size that can be measured, as it is called."""
    return [f"{name} {one.name}" for name, one in _sizes(planned)]


def features_of(planned: PlannedPart) -> dict[str, Feature]:
    """The features that have a plan, as they are drawn."""
    return {one.feature: one.proved.draft.question.feature for one in planned.operations}


def _core(one: Dimension) -> set[str]:
    return set(one.name.casefold().split())


def _means(wanted: list[str], name: str, one: Dimension) -> bool:
    """Whether every word is of the feature's name, or of the size's."""
    known = {*name.casefold().split(), *one.name.casefold().split(), one.sort}
    return all(any(part.startswith(word) for part in known) for word in wanted) and any(
        part.startswith(word) for word in wanted for part in (*one.name.casefold().split(), one.sort))


def meaning(part: Part, planned: PlannedPart, one: Measured) -> Text:
    """What a measured size means: nothing within its limits; outside of them how far, whether metal can still be taken,
    and what it does to what goes with it."""
    if not one.is_outside:
        return said("{what} {size} is within {low} to {high}", what=one.what, size=Measure(one.mm),
                    low=Reading(one.low), high=Reading(one.high))
    is_small = one.mm < one.low
    feature = features_of(planned).get(one.feature)
    dimension = _dimension(feature, one)
    by = Measure(one.low - one.mm if is_small else one.mm - one.high)
    says = said("{what} {size} is {by} {beyond}", what=one.what, size=Measure(one.mm), by=by,
                beyond=said("under the least, {limit}", limit=Reading(one.low)) if is_small else
                said("over the most, {limit}", limit=Reading(one.high)))
    takes = takes_more(feature, dimension, is_small)
    if dimension and dimension.sort == "depth" and dimension.shrinks:
        return said("{says}: metal is left, so cut it again before it comes loose" if takes else
                    "{says}: that metal is gone; ask whoever drew it before going on", says=says)
    mate = part.fits or "what goes there"
    if takes:
        return said("{says}: metal is left, so cut it again before it comes loose; as it is {mate} won't go in or on",
                    says=says, mate=mate)
    return said("{says}: that metal is gone; {mate} would have {by} more play than the drawing allows, unless it is "
                "made to this size; ask whoever drew it before going on", says=says, mate=mate, by=by)


def _dimension(feature: Feature | None, one: Measured) -> Dimension | None:
    """The size of the drawing that was measured; nothing where its feature has no plan any more."""
    return next((each for each in feature.dimensions if one.what.endswith(f": {each.name}")), None) if feature else None


def takes_more(feature: Feature | None, dimension: Dimension | None, is_small: bool) -> bool:
    """Whether cutting on brings the size nearer: a room gets wider and deeper, a wall and what stands between two
    narrower."""
    if feature is None or dimension is None:
        return is_small
    faces = [face for face in feature.outline.faces if face.name in dimension.faces and face.upright]
    metal_between = len(faces) == 2 and min(faces, key=lambda face: face.aim).metal > 0
    return is_small != (dimension.shrinks or metal_between)
