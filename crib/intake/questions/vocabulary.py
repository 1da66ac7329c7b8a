"""What the sizes and options of a kind are called: read off the kind, with the words that every shop has for a width, a
depth and the like."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from crib.features import KINDS
from crib.features.base import FeatureKind
from crib.light.tuples import NamedTuple

GENERAL: dict[str, tuple[str, ...]] = {
    "width": ("width", "wide", "across", "broad", "w"),
    "depth": ("depth", "deep", "down", "dp"),
    "length": ("length", "long", "lg", "l"),
    "height": ("height", "high", "tall"),
    "diameter": ("diameter", "dia", "diam", "across", "ø", "in diameter"),
    "radius": ("radius", "rad", "r"),
    "thickness": ("thickness", "thick", "thk"),
    "angle": ("angle", "included", "included angle"),
    "size": ("size",),
}
"""What a size is called by its key."""

COMMON: dict[str, tuple[str, ...]] = {
    "length": GENERAL["length"],
    "below": ("below", "below it", "under it", "underneath", "metal below", "metal under it", "left under it",
              "left below", "left below it", "metal left under it"),
    "floor_radius": ("floor radius", "radius at the floor", "radius in the corners", "radius in the floor corners",
                     "floor corner radius", "fillet", "bottom radius", "radius at the bottom"),
    "corner_relief": ("corner relief", "relief in the corners"),
}
"""Sizes that every kind may be asked with."""

TEXTS = ("material", "hardness", "ends", "count", "hours", "wall", "use", "mating", "to")
"""What every kind may be told in words, by key."""

_FOLLOWING_WORDS = """wide deep dp thk w long high tall thick down lg across broad off at from over above to up in
under underneath below left"""
_FOLLOWING = frozenset(_FOLLOWING_WORDS.split())
"""The first words of what stands behind its size more often than before it."""

NO_LABELS = ("x", "by")
"""What stands between two sizes, whatever a kind calls its own."""

SCREWED = ("thread", "screw", "bolt", "key")
"""What is told by a thread, a screw's size or a number, which are no lengths."""

_ROUND = ("hole", "shaft", "pin")
"""Sizes that are diameters."""

_FIRST_WORDS = ("a ", "an ", "the ")
_MOST_WORDS = 3


class Label(NamedTuple):
    """What a size is called: the keys of the sizes that it names, none where the kind has no such; whether it stands
    behind its size; whether it stands for several together."""

    keys: tuple[str, ...]
    follows: bool = False
    is_several: bool = False


def shortest(words: str) -> Iterator[str]:
    """A kind's words as a name, where they are short enough to be one.

    >>> list(shortest("a T-slot")), list(shortest("a seat for a Woodruff key"))
    (['t slot'], [])
    """
    bare = words.lower().replace("-", " ")
    for first in _FIRST_WORDS:
        bare = bare.removeprefix(first)
    if len(bare.split()) <= _MOST_WORDS and bare.replace(" ", "").isalpha():
        yield bare


def keys_of(kind: FeatureKind) -> tuple[str, ...]:
    """The keys of what the kind itself is asked with."""
    return (*(one.key for one in kind.sizes), *(one.key for one in kind.angles),
            *(one.key for one in kind.standards), *(one.key for one in kind.options))


def is_angle(kind: FeatureKind, key: str) -> bool:
    """Whether what a key is asked for is an angle."""
    turned = {one.key for one in kind.angles} | {one.key for one in kind.options if one.value == "DEGREES"}
    return key in turned or (key == "angle" and key in keys_of(kind))


@cache
def labels(name: str) -> dict[str, Label]:
    """Every word or phrase that names a size or an option of a kind."""
    kind = KINDS[name]
    found: dict[str, Label] = {}
    own = dict.fromkeys((*keys_of(kind), *COMMON))
    for key in own:
        for said in kind.speech.words.get(key, ()):
            found.setdefault(said, _label(said, (key,)))
            if "thick" in said.split():
                found.setdefault(said.replace("thick", "thk"), _label(said, (key,)))
    for word, keys in kind.speech.together.items():
        found.setdefault(word, Label(keys, is_several=True))
    for key in own:
        if key in _ROUND:
            for said in (f"{key} {word}" for word in GENERAL["diameter"]):
                found.setdefault(said, _label(said, (key,)))
        for said in (key.replace("_", " "), *GENERAL.get(key, ()), *COMMON.get(key, ())):
            found.setdefault(said, _label(said, (key,)))
    if "depth" in own and not any(key.endswith("diameter") or key in _ROUND for key in own):
        found.setdefault("d", _label("deep", ("depth",)))
    for words in GENERAL.values():
        for said in words:
            found.setdefault(said, _label(said, ()))
    return {said: label for said, label in found.items() if said not in NO_LABELS}


def name_of(kind: str, key: str) -> str:
    """What a size or an option is called where a question is said again."""
    said = key.replace("_", " ")
    if said not in NO_LABELS:
        return said
    return next((one for one, label in labels(kind).items() if label.keys == (key,)), said)


def _label(said: str, keys: tuple[str, ...]) -> Label:
    return Label(keys, said.split()[0] in _FOLLOWING)


def free_options(kind: FeatureKind) -> tuple[str, ...]:
    """The options that may be told anything, or are simply said: `run out`."""
    return tuple(one.key for one in kind.options
                 if one.value == "TEXT" and not one.needed and one.key not in (*SCREWED, "through"))


@cache
def tells(name: str) -> dict[str, tuple[str, str]]:
    """Words that give an option its text, the longest first."""
    kind = KINDS[name]
    found = dict(kind.speech.tells)
    for one in kind.options:
        if "|" in one.value:
            found |= {choice: (one.key, choice) for choice in one.value.split("|") if choice not in found}
    return dict(sorted(found.items(), key=lambda pair: -len(pair[0])))


_IDLE_WORDS = """a an the of with on in and is are it its at for to i i'm my we our you need needs want wants wanted
make makes making made what which who how cutter cutters can could do does did i've got have has would like some one
please from into onto be been this that these those there here out as so or but will shall should let me mill milled
milling cut cuts cutting machine machined machining tool tools best way used using work piece workpiece part parts block
job put run nice plain simple straight new old size sized sizes dimension dimensions measuring measures ask question
about say all it's that's owned own any ever go going get gets leave if possible just only them then along shop around
take drawing print also too no no. per he she they s t ve m d ll re equally evenly spaced over not hey hi hello thanks
thank what's"""
IDLE = frozenset(_IDLE_WORDS.split())
"""Words that say nothing of their own."""
