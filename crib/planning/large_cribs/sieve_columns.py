"""What the sieve tells of cutters that are alike but for their sizes, in a section that is open at both ends: the same
as `Sieve.least` tells of each, told room by room of all of them."""

from __future__ import annotations

from collections.abc import Sequence
from math import inf

from crib.cutters.base import Kind
from crib.light.hints import TYPE_CHECKING
from crib.machining.batches import Batch
from crib.machining.columns import DOES, UNSURE
from crib.machining.columns import told as together

if TYPE_CHECKING:
    from crib.planning.large_cribs.sieve import Asked, Sieve, Told

    Found = list[tuple[bool, float, int]]


def told_together(sieve: Sieve, batch: Batch, kind: Kind, where: Sequence[int]) -> dict[int, Told]:
    """What is told of those of a batch whose steel, edges and hand let them do a room, and whose diameter is known."""
    if len(sieve.asked) == 1:
        return dict(zip(where, _told_alone(sieve, sieve.asked[0], batch, kind, where), strict=True))
    found: dict[int, Found] = {at: [] for at in where}
    most, told = dict.fromkeys(where, inf), dict[int, "Told"]()
    weak = _weak(sieve, batch, kind, where)
    for asked in sieve.asked:
        is_opened = asked.room.name in sieve.opened
        some = [at for at, known in found.items() if not known or not (
            (is_opened and at in weak) or (asked.spare and not known[0][0]))]
        shorts, binds = _in_room(sieve, asked, batch, kind, some, weak if is_opened else frozenset())
        for at, short, bind in zip(some, shorts, binds, strict=True):
            if short == UNSURE or (short == DOES and not asked.spare):
                told[at] = None if short == UNSURE else False
                del found[at]
            elif short != DOES:
                most[at] = min(most[at], short) if bind else most[at]
                found[at].append((asked.spare, short, asked.place))
    for at, known in found.items():
        told[at] = _nearest(known, most[at])
    return told


def _told_alone(sieve: Sieve, asked: Asked, batch: Batch, kind: Kind, where: Sequence[int]) -> list[Told]:
    """The same where there is one room."""
    weak = _weak(sieve, batch, kind, where) if asked.room.name in sieve.opened else frozenset()
    spare, place = asked.spare, asked.place
    return [(spare, place, short) if short >= 0 else None if spare or short == UNSURE else False
            for short in _in_room(sieve, asked, batch, kind, where, weak)[0]]


def _nearest(found: Found, most: float) -> Told:
    """The first of the rooms for which it falls short by no more than by what it breaks."""
    if len(found) == 1 and found[0][1] <= most:
        return found[0][0], found[0][2], found[0][1]
    return min([(spare, place, short) for spare, short, place in found if short <= most], default=None)


def _weak(sieve: Sieve, batch: Batch, kind: Kind, where: Sequence[int]) -> frozenset[int]:
    """Those that are too weak to open anything, where that matters."""
    return frozenset(at for at in where if kind.is_weak(batch.cutters[at])) if sieve.opened else frozenset()


def _in_room(sieve: Sieve, asked: Asked, batch: Batch, kind: Kind, where: Sequence[int], never: frozenset[int]
             ) -> tuple[Sequence[float], Sequence[bool]]:
    """By how much each of some falls short in a room, and whether that is the most by which it is refused; `never`:
    those that a rule forbids to open it."""
    gate, many = asked.gate, len(where)
    if gate is None:
        return [UNSURE] * many, [False] * many
    if asked.motion not in kind.motions:
        if gate.upright is None or asked.also in kind.motions:
            return [UNSURE] * many, [False] * many
        return [gate.upright(kind, batch.diameters[at]) for at in where], [True] * many
    if not batch.is_bare:
        return [UNSURE] * many, [False] * many
    shorts = sieve.shorts.get(asked.room.name) or gate.limits(batch)
    limits = [shorts[at] for at in where]
    within = [at for at, short in zip(where, limits, strict=True) if not short]
    if not within:
        return limits, [kind.buried] * many
    others = iter(_of_sizes(sieve, asked, batch, within, never))
    return [short or next(others) for short in limits], [kind.buried and short > 0 for short in limits]


def _of_sizes(sieve: Sieve, asked: Asked, batch: Batch, where: Sequence[int], never: frozenset[int]) -> list[float]:
    """By how much those fall short that break no limit, if they do."""
    assert asked.gate
    shorts = together(asked.gate, sieve.sizing, batch, where, never)
    return [inf if short == DOES and at in never else short for at, short in zip(where, shorts, strict=True)
            ] if never else shorts
