"""Holes on an axis where something was drilled before: the hole that is there guides the next drill, so nothing is
spotted. Common practice."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from crib.features.base import Feature
from crib.features.down import PlainHole, Thread
from crib.parts.lying import lying_in
from crib.parts.part import Part
from crib.planning.parts.choices import Choice


def guided_in(part: Part, drawn: Mapping[str, Feature], precedences: Sequence[tuple[str, str]]) -> frozenset[str]:
    """The features on whose axes a hole is made before them, by the order that must hold."""
    lying = {one.name: one for one in lying_in(part, drawn)}
    pairs = [(first, then) for first, then, *_ in precedences if first in lying and then in lying]
    return frozenset(then for first, then in pairs if isinstance(lying[first].feature.down, PlainHole | Thread)
                     and lying[first].is_coaxial(lying[then]))


def unspotted(choices: Iterable[Choice]) -> tuple[Choice, ...]:
    """Ways without the spot that each begins with; those that then come to the same once."""
    found: dict[object, Choice] = {}
    for choice in choices:
        plain = choice.unspotted
        found.setdefault(plain.sign, plain)
    return tuple(found.values())
