"""The order that must hold between the features of a part, each pair with its why: what follows from what they are and
where they lie, and what their owner wants besides."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

from crib.features.base import Comes, Feature
from crib.features.down import Counterbore, Countersink, Finish, InsideGroove, PlainHole, Thread
from crib.findings.errors import CribError
from crib.findings.message import Text
from crib.geometry.outline import Opening
from crib.light.tuples import NamedTuple
from crib.parts.in_the_air import is_half_in_air
from crib.parts.lying import SLACK_MM, Lying, lying_in
from crib.parts.part import Face, Part

LAST = "!"
"""Behind a feature's name: only the last operation of it."""

OWNERS = "its owner wants it so"


class Before(NamedTuple):
    """A feature that is made before another, by name, and why; `then` ends in `!` where only the last operation of the
    other must wait."""

    first: str
    then: str
    why: Text


Rule = Callable[[Lying, Lying], Text | None]
"""Why one feature must be made before another, if it must."""


def order_of(part: Part, drawn: Mapping[str, Feature]) -> tuple[Before, ...]:
    """The pairs that must hold, none of which follows from others. Raises `CribError` where they go round in a circle,
    with the circle."""
    lying = lying_in(part, drawn)
    found = [*_derived(lying), *_wanted(part, drawn)]
    found += _losing_hold(lying, found)
    found += _in_metal_all_round(lying, found)
    if circle := circle_in(found):
        raise _round_and_round(circle)
    return tuple(_without_what_follows(found))


def sequence(part: Part, pairs: Sequence[Before]) -> tuple[str, ...]:
    """The features in an order that holds, as near to the one in which they are listed as can be."""
    waits = {one.name: {pair.first for pair in pairs if _bare(pair.then) == one.name} for one in part.features}
    done: list[str] = []
    while len(done) < len(waits):
        done.append(next(name for name, others in waits.items() if name not in done and others <= {*done}))
    return tuple(done)


def _bare(name: str) -> str:
    return name.removesuffix(LAST)


def _derived(lying: Sequence[Lying]) -> Iterator[Before]:
    for one in lying:
        for other in lying:
            if one is other:
                continue
            if why := next((why for rule in _RULES if (why := rule(one, other))), None):
                yield Before(one.name, other.name, why)
            elif why := _breaks_into(one, other):
                yield Before(one.name, other.name + LAST, why)


def _wanted(part: Part, drawn: Mapping[str, Feature]) -> Iterator[Before]:
    for one in part.features:
        for other in one.after:
            if {one.name, other} <= drawn.keys():
                yield Before(other, one.name, OWNERS)


def _faces_first(one: Lying, other: Lying) -> Text | None:
    """A face is made before anything on it."""
    if one.comes is Comes.FIRST and other.comes is not Comes.FIRST and one.placed.place.face == other.placed.place.face:
        return "a face is made before anything is counted from it"
    return None


def _floor_first(one: Lying, other: Lying) -> Text | None:
    """What lies on a floor comes after what makes the floor."""
    if one.placed.place.face == other.placed.place.face and one.is_over(other) and not other.is_over(one):
        return "it lies on the floor that this makes"
    return None


def _wall_first(one: Lying, other: Lying) -> Text | None:
    """What is cut into a wall, and not from above, comes after what makes the wall."""
    rooms = other.feature.outline.rooms
    from_above = other.feature.down is not None or any(room.opens(Opening.TOP) or room.across for room in rooms)
    if from_above or one.comes is Comes.ON_EDGES or not one.touches(other):
        return None
    return "it is cut into the wall that this makes"


def _on_one_axis(one: Lying, other: Lying) -> Text | None:
    """What is made on one axis: a seat from solid, the hole, what opens or finishes it, what stands on its mouth."""
    first, then = one.feature.down, other.feature.down
    if first is None or then is None or not one.is_coaxial(other):
        return None
    if isinstance(first, Counterbore) and first.hole is None and isinstance(then, PlainHole | Thread):
        return "the seat is faced before a drill starts on it"
    if not isinstance(first, PlainHole | Thread):
        return None
    if isinstance(then, Countersink) or (isinstance(then, Counterbore) and then.hole is not None):
        return "what stands on a hole's mouth is guided by the hole"
    if isinstance(then, InsideGroove):
        return "a groove in a bore is found by the bore"
    if isinstance(first, Thread) or first.finish is not Finish.DRILLED:
        return None
    if isinstance(then, Thread):
        return "a hole is drilled before it is tapped"
    if isinstance(then, PlainHole) and then.finish is not Finish.DRILLED:
        return f"a hole is drilled before it is {then.finish}"
    return None


def _gib_first(one: Lying, other: Lying) -> Text | None:
    """A gib's screws are marked through onto the gib in its place."""
    then = other.feature.down
    if not isinstance(then, Thread) or then.gib is None or one.feature.down is not None:
        return None
    return "the gib lies in it when its screws are marked through" if one.touches(other) else None


def _edges_last(one: Lying, other: Lying) -> Text | None:
    """An edge is broken once the faces are there that meet at it."""
    if other.comes is Comes.ON_EDGES and one.comes is not Comes.ON_EDGES and one.touches(other):
        return "an edge is broken once what meets it is cut"
    return None


_RULES: tuple[Rule, ...] = (_faces_first, _on_one_axis, _gib_first, _floor_first, _wall_first, _edges_last)


def _breaks_into(one: Lying, other: Lying) -> Text | None:
    """A hole that breaks into a bore is drilled before the bore's last cut. Common practice."""
    first, then = one.feature.down, other.feature.down
    if not isinstance(then, PlainHole) or then.finish is Finish.DRILLED or one.is_coaxial(other):
        return None
    if not isinstance(first, Thread) and not (isinstance(first, PlainHole) and first.finish is Finish.DRILLED):
        return None
    if not one.meets(other) and not one.touches(other):
        return None
    return f"it breaks into the bore: its burr goes with the last cut, when the bore is {then.finish}"


def _losing_hold(lying: Sequence[Lying], pairs: Sequence[Before]) -> Iterator[Before]:
    """What takes off what others are held by comes after them, but for what must come after it."""
    lost = {one.name: _taken_hold(one) for one in lying}
    for one in lying:
        following = _following(one.name, pairs)
        for other in lying:
            if lost[other.name] or other.name in following or other.comes is Comes.ON_EDGES:
                continue
            if _held_across(other) in lost[one.name]:
                yield Before(other.name, one.name, "it takes off what the part is held by")


def _in_metal_all_round(lying: Sequence[Lying], pairs: Sequence[Before]) -> Iterator[Before]:
    """A hole that is to have metal on one side only is drilled and tapped while there is some all round, but for what
    must come before it. Common practice."""
    pairs = [*pairs]
    for one in lying:
        for other in lying:
            if other.comes is Comes.ANYWHERE and one.name not in _following(other.name, pairs) and (
                    is_half_in_air(one, other)):
                pairs.append(Before(one.name, other.name, "a drill with metal on one side only runs off to the other"))
                yield pairs[-1]


def _held_across(one: Lying) -> int:
    """The axis along which the jaws press: front and back, or the ends for what is cut from the front or the back."""
    return 0 if one.placed.place.face in (Face.FRONT, Face.BACK) else 1


def cuts_off(part: Part, drawn: Mapping[str, Feature]) -> bool:
    """Whether any feature of a part cuts it off what it is held by."""
    return any(_taken_hold(one) == {0, 1} for one in lying_in(part, drawn))


def _taken_hold(one: Lying) -> set[int]:
    """The axes across which nothing is held any more once it is cut: both where it cuts the part in two, one where it
    takes more than half of a side."""
    stock = one.part.stock
    sizes = (stock.length, stock.width, stock.height)
    taken = {(axis, end): 0.0 for axis in (0, 1) for end in (0, 1)}
    for piece in one.solids:
        low, high = piece.body.bounds
        spans = [max(0.0, min(h, size) - max(b, 0.0)) for b, h, size in zip(low, high, sizes, strict=True)]
        through = [span > size - SLACK_MM for span, size in zip(spans, sizes, strict=True)]
        inside = [b > SLACK_MM and h < size - SLACK_MM for b, h, size in zip(low, high, sizes, strict=True)]
        if sum(through) == 2 and sum(inside) == 1:
            return {0, 1}
        for axis in (0, 1):
            share = spans[1 - axis] * spans[2] / (sizes[1 - axis] * sizes[2])
            taken[axis, 0] += share * (low[axis] <= SLACK_MM)
            taken[axis, 1] += share * (high[axis] >= sizes[axis] - SLACK_MM)
    return set() if one.comes is Comes.FIRST else {axis for (axis, _), share in taken.items() if share > 0.5}


def _following(name: str, pairs: Sequence[Before]) -> set[str]:
    """The features that must come after one."""
    found, ahead = set[str](), [name]
    while ahead:
        here = ahead.pop()
        more = {_bare(pair.then) for pair in pairs if pair.first == here} - found
        found |= more
        ahead += sorted(more)
    return found


def circle_in(pairs: Sequence[Before]) -> tuple[Before, ...]:
    """The shortest circle of pairs, none where there is none. Whether a feature or only its last operation must wait,
    what waits for it waits for all of it."""
    best: tuple[Before, ...] = ()
    for start in dict.fromkeys(pair.first for pair in pairs):
        ways: dict[str, tuple[Before, ...]] = {start: ()}
        ahead = [start]
        while ahead:
            here = ahead.pop(0)
            for pair in pairs:
                then = _bare(pair.then)
                if pair.first != here:
                    continue
                if then == start and (not best or len(ways[here]) + 1 < len(best)):
                    best = (*ways[here], pair)
                if then not in ways:
                    ways[then] = (*ways[here], pair)
                    ahead.append(then)
    return best


def _round_and_round(circle: Sequence[Before]) -> CribError:
    told = ", ".join(f"{pair.first} before {_bare(pair.then)} ({pair.why})" for pair in circle)
    wanted = next((pair for pair in circle if pair.why == OWNERS), circle[0])
    return CribError("cycle", f"the order goes round in a circle: {told}", " -> ".join(
        [*(pair.first for pair in circle), circle[0].first]),
        f"let {_bare(wanted.then)} come no more after {wanted.first}, or lay one of them elsewhere")


def _without_what_follows(pairs: Iterable[Before]) -> Iterator[Before]:
    """The pairs without those that follow from others, and each once."""
    once: dict[tuple[str, str], Before] = {}
    for pair in pairs:
        if (pair.first, _bare(pair.then)) in once and pair.then.endswith(LAST):
            continue
        once.pop((pair.first, pair.then + LAST), None)
        once.setdefault((pair.first, pair.then), pair)
    whole = [pair for pair in once.values() if not pair.then.endswith(LAST)]
    for pair in once.values():
        rest = [other for other in whole if other is not pair]
        if _bare(pair.then) not in _following(pair.first, rest):
            yield pair
