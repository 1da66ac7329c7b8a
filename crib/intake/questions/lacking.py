"""What a question still lacks before it can be answered, and a whole line that would do."""

from __future__ import annotations

from collections.abc import Mapping

from crib.features import KINDS
from crib.features.base import FeatureKind
from crib.features.request import Spoken
from crib.findings.errors import CribError
from crib.light.records import dataclass


@dataclass(frozen=True)
class Lack:
    """Something that isn't said yet: its key, what it means, an example of it, and what would do instead of it."""

    key: str
    words: str
    example: str
    instead: tuple[str, ...] = ()

    @property
    def name(self) -> str:
        """What it is called."""
        return self.key.replace("_", " ")


def lacking(name: str, texts: Mapping[str, str], units: str) -> tuple[Lack, ...]:
    """What a kind needs and the texts don't give, nor a standard that they name.

    >>> [one.key for one in lacking("slot", {"width": "3/8"}, "in")], lacking("counterbore", {"screw": "1/4"}, "in")
    (['depth'], ())
    """
    kind = KINDS[name]
    given = {key for key, text in texts.items() if text.strip()} | _by_standards(kind, texts, units)
    given |= {kind.mates} if "to" in given else set()
    words = ({one.key: one.words for one in kind.sizes} | {one.key: one.words for one in kind.angles}
             | {one.key: one.words for one in kind.options})
    instead = tuple(one.key for one in kind.standards if one.key not in texts and not one.limits)
    lacks = [Lack(key, words[key], kind.example.get(key, "1/4"), instead) for key in kind.needed if key not in given]
    if kind.one_of and not given & set(kind.one_of):
        key = next((key for key in kind.one_of if key in kind.example), kind.one_of[0])
        others = tuple(one for one in kind.one_of if one != key)
        lacks.append(Lack(key, words[key], kind.example.get(key, "1/4"), others))
    return tuple(lacks)


def _by_standards(kind: FeatureKind, texts: Mapping[str, str], units: str) -> set[str]:
    """What the standards give that are named; one that can't be read is told when the question is."""
    given: set[str] = set()
    for one in kind.standards:
        if one.key in texts:
            spoken = Spoken(texts[one.key], texts, units)
            try:
                given |= one.sizes(spoken)[0].keys() | one.angles(spoken).keys()
            except CribError:
                given |= set(kind.needed) if one.key != "fit" else set()
    return given


def would_do(echo: str, lacks: tuple[Lack, ...]) -> str:
    """A whole question that would do, its lacks filled with examples."""
    return ", ".join([echo, *(f"{one.name} {one.example}" for one in lacks)])
