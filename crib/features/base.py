"""What a kind of feature must give: the sizes it asks for, and the outline that it draws."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cached_property

from crib.features.speech import Speech
from crib.findings.errors import CribError
from crib.findings.message import Text
from crib.geometry.outline import Outline
from crib.light.choices import StrEnum
from crib.light.hints import TYPE_CHECKING, Any
from crib.light.records import dataclass, field
from crib.units import Size

if TYPE_CHECKING:
    from crib.features.down import (
        BoreKeyseat,
        Circle,
        Counterbore,
        Countersink,
        FlatHole,
        Flats,
        InsideGroove,
        PlainHole,
        RingGroove,
        Thread,
    )
    from crib.geometry.layers import Layers
from crib.features.request import Request, Spoken

ENDS = ("open", "one", "closed")

CLOSED_CORNER = "corner_radius"
"""The size by which the corners at one closed end are asked for, seen from above."""

LENGTH_ASSUMED_MM = 101.6
"""The length taken where none was given [mm]: only the minutes depend on it."""


SLACK_MM = 1e-6
"""By so much a size may be outside of the limits of what is called for."""


@dataclass(frozen=True)
class SizeSpec:
    """A size that a feature asks for. `tolerance`: `general` or `loose`, whichever of the shop's defaults applies
    where none was typed, or `exact` for what has none. One that isn't `needed` may be left out."""

    key: str
    words: str
    tolerance: str = "general"
    needed: bool = True


@dataclass(frozen=True)
class AngleSpec:
    """An angle that a feature asks for; `usual` is taken where none was typed. It is less than `most` [deg]."""

    key: str
    words: str
    usual: float | None = None
    most: float = 90.0


@dataclass(frozen=True)
class Dimension:
    """A size of the finished feature that is held by two faces, or by one face and the surface [mm].

    `sort` is `width`, `height`, `depth`, or from above `length` or `corner`, or `face` across a slanted one: which
    process band applies. `rooms`: the rooms that make it, where they aren't those that its name begins with. `shrinks`:
    whether cutting on makes it smaller, as it does a wall's and what is left between two flats. `by`: what it is
    measured with, where its sort doesn't say, `called`: by what name; `instead`: what is measured in its place and what
    that should read, which shrinks as this grows, as what is left under a floor does. `follows`: by how much it grows
    as its slanted faces are set deeper, where they lean, and where they were turned level or upright [-].
    """

    name: str
    sort: str
    size: Size
    faces: tuple[str, ...]
    rooms: tuple[str, ...] = ()
    shrinks: bool = False
    by: str = ""
    called: str = ""
    instead: tuple[str, float] | None = None
    across: str = ""
    follows: tuple[float, float] | None = None


@dataclass(frozen=True)
class CallsFor:
    """The cutter that a room calls for: the kinds, and the limits of its diameter and face [mm], of its angle [deg] and
    of its rounded corner, a ball's too [mm] (None: any)."""

    kinds: tuple[str, ...]
    diameter: tuple[float, float] | None = None
    face: tuple[float, float] | None = None
    angle: tuple[float, float] | None = None
    corner: tuple[float, float] | None = None

    @property
    def of_any_size(self) -> bool:
        """Whether the kind alone counts."""
        return (self.diameter or self.face or self.angle or self.corner) is None

    def may_be(self, kind: str, across: float | None) -> bool:
        """Whether a cutter is one of these, as far as its kind and its diameter on record tell."""
        limits = self.diameter
        return kind in self.kinds and (
            limits is None or not across or limits[0] - SLACK_MM <= across <= limits[1] + SLACK_MM)


@dataclass(frozen=True)
class Feature:
    """A feature ready to be reckoned with.

    `kindest`: for a kind of cutter, what a size that isn't known of it would best be. `strict`: for a room that leans,
    from what to what its edge may run over the rise of its lean for the drawing to be kept. `measures`: what was
    reckoned in drawing it, in words and mm. `assumed`: what was taken for granted. `reckoned`: sizes that follow.
    `layers`: what it is seen from above, where its ends are closed. `lengths`: for a room that may have a length of its
    own between closed ends, the size that gives it.
    `cautions`: what the work can do as it is asked, beside those of its kind.
    `zeros`: what x and z count from in its outline, where that isn't its middle (or its wall) and the surface.
    `level`: how far z 0 is from a face that can be touched, where it is cut from the side [mm], and what face.
    `lying`: the same drawn anew as it lies on its side, where it isn't only turned.
    `down`: what is made down its axis, where it is round; `number`: how many of them in one setting; `stands`: how the
    work lies for them, where that isn't flat, and `tilts`, whether it or the head is tilted. `circle`: where they stand
    round one. `flats`: which of several flats round a bar it is, all made alike; `feed_mm`: how far each is fed over,
    where that is no size of the drawing [mm]. `exact`: sizes for which no tolerance is assumed. `one_side`: it goes off
    its axis to one side alone, and is drawn so.
    """

    kind: str
    words: str
    request: Request
    outline: Outline
    dimensions: tuple[Dimension, ...]
    calls_for: Mapping[str, CallsFor]
    labels: Mapping[str, str] = field(default_factory=dict)
    kindest: Mapping[str, Mapping[str, float]] = field(default_factory=dict)
    strict: Mapping[str, tuple[float, float]] = field(default_factory=dict)
    measures: tuple[tuple[Text, float], ...] = ()
    assumed: tuple[Text, ...] = ()
    reckoned: Mapping[str, float] = field(default_factory=dict)
    layers: Layers | None = None
    cautions: tuple[str, ...] = ()
    lengths: Mapping[str, str] = field(default_factory=dict)
    zeros: tuple[Text, Text] | None = None
    level: tuple[float, str] | None = None
    lying: Feature | None = None
    down: (PlainHole | FlatHole | Counterbore | Countersink | InsideGroove | RingGroove | BoreKeyseat | Thread
           | None) = None
    number: int = 1
    circle: Circle | None = None
    flats: Flats | None = None
    feed_mm: float | None = None
    stands: str = ""
    tilts: int = 0
    exact: frozenset[str] = frozenset()
    one_side: bool = False

    @property
    def length(self) -> float:
        """The length to cut [mm], as given or assumed."""
        return self.feed_mm or self.request.length or LENGTH_ASSUMED_MM

    def lies(self, turn: Callable[[Outline], Outline]) -> Outline:
        """Its outline as a set-up turns it, turned once."""
        if turn not in self._lies:
            self._lies[turn] = turn(self.outline)
        return self._lies[turn]

    @cached_property
    def _lies(self) -> dict[Callable[[Outline], Outline], Outline]:
        return {}

    def as_json(self) -> dict[str, Any]:
        """The contract's `feature`: kind, sizes with their limits, material."""
        shape: dict[str, Any] = {"kind": self.kind}
        for key, size in self.request.sizes.items():
            shape[f"{key}_mm"] = round(size.nominal, 9)
            shape[f"{key}_limits_mm"] = [round(size.lo, 9), round(size.hi, 9)]
        shape["typed"] = {key: size.text for key, size in self.request.sizes.items()
                          if size.given or size.doubtful}
        if doubtful := [key for key, size in self.request.sizes.items() if size.doubtful]:
            shape["doubtful"] = doubtful
        shape["length_mm"] = self.request.length
        shape["ends"] = self.request.ends
        shape["material"] = self.request.material
        for key, angle in self.request.angles.items():
            shape[f"{key}_deg"] = angle.deg
        shape |= self.request.said
        if self.reckoned:
            shape["reckoned"] = {key: round(value, 9) for key, value in self.reckoned.items()}
        if self.request.walls:
            shape["walls"] = [{"height_mm": wall.height, "distance_mm": wall.distance} for wall in self.request.walls]
        if self.request.mate:
            shape["mate"] = self.request.mate.as_json()
        for key in ("hardness", "use", "mating", "source"):
            if getattr(self.request, key):
                shape[key] = getattr(self.request, key)
        return shape


@dataclass(frozen=True)
class Standard:
    """An option that stands for sizes of a standard: what it takes, and the sizes with where they come from; nothing
    where it says nothing. `angles`: angles that it gives. `limits`: the size that was typed and that it only puts
    limits on."""

    key: str
    words: str
    sizes: Callable[[Spoken], tuple[dict[str, Size], str]]
    angles: Callable[[Spoken], dict[str, float]] = lambda spoken: {}
    limits: str = ""


@dataclass(frozen=True)
class OptionSpec:
    """Something that a kind of feature is told in words: a thread, a class, yes or no. Its kind reads them itself."""

    key: str
    words: str
    value: str = "TEXT"
    needed: bool = False


class Comes(StrEnum):
    """When in a part a kind is made: before all that counts from its face, wherever it fits, or once the faces are
    there whose edge it breaks."""

    FIRST = "first"
    ANYWHERE = "anywhere"
    ON_EDGES = "on edges"


@dataclass(frozen=True)
class FeatureKind:
    """A kind of feature: one file with one `KIND`, listed once in `crib/features/__init__.py`.

    `set_ups`: how its work may lie, by the names of `crib/setups`; the first is the usual one and costs nothing extra.
    In one of them, where other words than the set-up's fit better: `lies`: how it lies; `held`: how it is held;
    `middle_of`: what has no flat face there and is found by its middle, from both sides. `brought`: how the spindle is
    brought over what is made down its axis, where that isn't by two faces. `is_a_notch`: a part under load may crack at
    it. `runs_out`: the option by which its closed end may run out with a side cutter's radius, as it also can where the
    owner lets it. `other_ends`: what is asked instead where its ends are others. `cautions`: what the work itself can
    do.
    `example`: how it may be asked, as it is typed; the tests ask it and what is near it. `speech`: how a shop says it.
    `one_of`: sizes of which it needs one. `mates`: the size that goes round another part. `comes`: when it is made
    among the features of a part.
    """

    name: str
    words: str
    sizes: tuple[SizeSpec, ...]
    draw: Callable[[Request], Feature]
    ends: tuple[str, ...] = ("open",)
    standards: tuple[Standard, ...] = ()
    options: tuple[OptionSpec, ...] = ()
    angles: tuple[AngleSpec, ...] = ()
    set_ups: tuple[str, ...] = ("upright",)
    lies: Mapping[str, str] = field(default_factory=dict)
    held: Mapping[str, str] = field(default_factory=dict)
    middle_of: Mapping[str, str] = field(default_factory=dict)
    brought: tuple[str, ...] = ()
    is_a_notch: bool = False
    runs_out: str = ""
    other_ends: str = ""
    cautions: tuple[str, ...] = ()
    example: Mapping[str, str] = field(default_factory=dict)
    speech: Speech = Speech()
    one_of: tuple[str, ...] = ()
    mates: str = ""
    comes: Comes = Comes.ANYWHERE

    @property
    def needed(self) -> tuple[str, ...]:
        """What it can't be asked without, by key, unless a standard gives it."""
        return (*(one.key for one in self.sizes if one.needed), *(one.key for one in self.options if one.needed),
                *(one.key for one in self.angles if one.usual is None))


def refuse(what: Text, read: Text, right: Text) -> CribError:
    """The error for sizes that can't be together."""
    return CribError("feature", what, read, right)
