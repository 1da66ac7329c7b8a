"""The way of a pass, leg by leg, as each is dialled."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from crib.findings.message import Message, Reading, Text, joined, said


def legs(path: Sequence[tuple[float, float]]) -> Text:
    """Every leg of a way through corners (along, across) [mm]: which way the cutter goes, the reading where it ends.

    >>> legs([(0.0, 0.0), (50.8, 0.0)]).facts
    (('t0', Message(template='right to {along}', facts=(('along', Reading(mm=50.8, sign=False)),))),)
    """
    return joined(", ", _legs(path))


def _legs(path: Sequence[tuple[float, float]]) -> Iterator[Message]:
    for (x, y), (along, across) in pairwise(path):
        if along != x:
            yield said("right to {along}" if along > x else "left to {along}", along=Reading(along))
        if across != y:
            yield said("away to {across}" if across > y else "toward you to {across}", across=Reading(across,
                                                                                                      sign=True))
