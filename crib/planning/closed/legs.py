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


def told(path: Sequence[tuple[float, float]], at: float) -> Text:
    """A way of which one leg is the pass, along at its setting of the cross slide `at` [mm]: how it gets to where that
    begins, the pass, and across the end behind it; every leg in a row where there is none such.

    >>> [step.template for _, step in told([(0.0, 0.0), (0.0, 2.0), (9.0, 2.0), (9.0, -2.0)], 2.0).facts]
    ['to the start, {legs}', 'cut {legs}', 'then across the end, {legs}']
    """
    cuts = [k for k, ((x, y), (along, across)) in enumerate(pairwise(path)) if x != along and y == across == at]
    if len(cuts) != 1 or len(path) - 2 - cuts[0] > 1:
        return legs(path)
    first = cuts[0]
    before, cut, behind = legs(path[:first + 1]), legs(path[first:first + 2]), legs(path[first + 1:])
    if not (before or behind):
        return cut
    return joined("; ", ([said("to the start, {legs}", legs=before)] if before else []) + [said("cut {legs}", legs=cut)]
                  + ([said("then across the end, {legs}", legs=behind)] if behind else []))


def _legs(path: Sequence[tuple[float, float]]) -> Iterator[Message]:
    for (x, y), (along, across) in pairwise(path):
        if along != x:
            yield said("right to {along}" if along > x else "left to {along}", along=Reading(along))
        if across != y:
            yield said("away to {across}" if across > y else "toward you to {across}", across=Reading(across,
                                                                                                      sign=True))
