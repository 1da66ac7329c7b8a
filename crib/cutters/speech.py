"""How a shop speaks of a kind of cutter: the words for it, the order of its sizes, what must be asked of it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping

from crib.light.choices import StrEnum
from crib.light.hints import Any, Protocol
from crib.light.records import dataclass, field


class Order(StrEnum):
    """How the sizes of a kind are said, where it isn't simply one after the other."""

    MILL = "diameter, shank, length of cut, overall, by what is usual"
    MARK = "the number that stands for diameter and face, or diameter and face"
    DISC = "diameter and face, of which one alone may be either"
    NUMBER = "a number, a letter or a size"
    FIT = "the size, and what it measures"
    PIN = "the number of the pin"
    PILOTED = "the number that stands for body and pilot"
    SPAN = "from the smallest to the largest"
    THREAD = "the thread"
    ROUND = "the radius that it makes"
    SCREW = "diameter and pilot, never the screw's size"


class Angle(StrEnum):
    """What the angle of a kind is, where a bare number may be one."""

    PLAIN = "included, as it is said"
    POINT = "included; half of a usual one may be said for a side"
    EDGE = "included, or a side"
    FLANK = "from the face to the flank"
    HANDED = "from the face, on one hand"
    SLOPE = "a side, or included"


class Spoken(Protocol):
    """A line as it is being read: whether it has some words, the sizes without a label, the values that were read."""

    sizes: list[str]
    values: dict[str, Any]

    def has(self, pattern: str) -> bool:
        """Whether a pattern stands anywhere in the line as words of its own."""
        ...


@dataclass(frozen=True)
class Name:
    """A way to say a kind: a pattern. `note`: what its note says then; `means`: values that go with the word; `asks`:
    what must be asked of the kind, for the word isn't sure; `lent`: it goes to a kind that has it as its own name."""

    pattern: str
    note: str = ""
    means: Mapping[str, Any] = field(default_factory=dict)
    asks: str = ""
    lent: bool = False


@dataclass(frozen=True, eq=False)
class Speech:
    """The words for a kind of cutter beside its own, and what follows from them.

    `names`: other ways to say it, the first that is found counts. `beside`: words that say nothing more beside its
    name. `noun`: a pattern that stands for nothing but such a cutter, its own words where empty, none
    where None. `short`: what it is
    called in half a word. `common`: its word is part of others' names, or of notes. `heard`: words as they are misspelt
    or heard, and what is meant; `phrases`: the same for more than a word.

    `order`: how its sizes are said, or the fields in their order. `small`: a bare number of inches from three on is
    more likely millimetres. `largest`: from so many mm across it is asked whether that is meant, `times_shank`: from so
    many times its shank across (both common practice, no source). `by_bolt`: a single size is more likely that of the
    bolt it is for. `angle`: what its angle is. `fields`: where it keeps what is said by another name. `tells`: words
    that give values. `wanted`: what such a cutter has and should be said. `looks`: what must be looked at, by the
    values that were said. `signs`: whether a line that names no kind can only be one of these.
    """

    names: tuple[Name, ...] = ()
    beside: str = ""
    noun: str | None = ""
    short: tuple[str, ...] = ()
    common: bool = False
    heard: Mapping[str, str] = field(default_factory=dict)
    phrases: tuple[tuple[str, str], ...] = ()
    order: Order | tuple[str, ...] = ("diameter_mm",)
    small: bool = False
    largest: float = 101.6
    times_shank: float = 4.0
    by_bolt: bool = False
    angle: Angle | None = None
    fields: Mapping[str, str] = field(default_factory=dict)
    tells: Mapping[str, Mapping[str, Any]] = field(default_factory=dict)
    wanted: tuple[str, ...] = ()
    looks: Callable[[Mapping[str, Any]], Iterable[str]] = lambda values: ()
    signs: Callable[[Spoken], bool] = lambda line: False
