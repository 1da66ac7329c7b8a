"""How the part lies for a feature's plan: which face is up, which way of it runs along the table, and how it stands
besides. Plans that agree in these are made in one set-up; what is made down an axis goes either way."""

from __future__ import annotations

from typing import NamedTuple

from crib.features.base import Feature
from crib.findings.message import Text, said
from crib.machining.draft import Question
from crib.parts.frame import SIDES, across_its_run, frame_of
from crib.parts.part import Face, Part, Placed, Runs
from crib.parts.sides import lies_wrong, sides_of
from crib.parts.solids import run_of

_UPRIGHT, _OVER = "upright", "on its side"


class Lie(NamedTuple):
    """The face that is up and which of its directions lies along the table; how the work or the head stands besides,
    empty where that is all, the tilts that it takes, and whether it is turned end for end."""

    face: Face
    runs: Runs = Runs.ALONG
    stands: str = ""
    tilts: int = 0
    turned: bool = False

    @property
    def words(self) -> Text:
        """How the part lies."""
        along, across = SIDES[self.face]
        ends = along if self.runs is Runs.ALONG else across
        lies = said("the {face} up, {first} to {second} along the table", face=self.face.value, first=ends[0],
                    second=ends[1])
        lies = said("{lies}, turned end for end", lies=lies) if self.turned else lies
        return said("{lies}; {stands}", lies=lies, stands=self.stands) if self.stands else lies

    @property
    def name(self) -> str:
        """The same in a few words."""
        stands = f", {self.stands}" if self.stands else ""
        turned = ", turned" if self.turned else ""
        return f"{self.face.value} up {self.runs.value}{turned}{stands}"


def lies_of(part: Part, placed: Placed, question: Question) -> tuple[Lie, ...]:
    """How the part may lie for a feature in one of its set-ups: one way for what is cut along, for what is made down
    an axis either way, the first of them the one in which its place is told.

    A feature that is turned on its side has what was its right up.
    """
    face, setup, feature = placed.place.face, question.setup, question.feature
    tilts = setup.tilts + feature.tilts
    stands = feature.stands if feature.tilts else ""
    if setup.name == _OVER:
        face = _right_of(part, placed, question)
        return (Lie(face, _along_table(part, placed, face), stands, tilts),)
    if setup.name != _UPRIGHT:
        stands = stands or setup.words
    if feature.down is None or tilts:
        return (Lie(face, placed.place.runs, stands, tilts, _is_turned(part, placed, feature)),)
    other = Runs.ACROSS if placed.place.runs is Runs.ALONG else Runs.ALONG
    return Lie(face, placed.place.runs, stands, tilts), Lie(face, other, stands, tilts)


def _is_turned(part: Part, placed: Placed, feature: Feature) -> bool:
    """Whether the part is turned end for end for it: what goes between ends is cut as its plan has it, what is open at
    both can be told with the other signs."""
    if part.stock.diameter is not None or feature.down is not None:
        return False
    if feature.request.ends == "open" and feature.layers is None:
        return False
    return any(lies_wrong(part, placed, feature, sides_of(placed.place.face, placed.place.runs)))


def lies_as_in_a_mirror(part: Part, placed: Placed, feature: Feature) -> bool:
    """Whether no way to lay the part has it as its plan has it, all its places alike."""
    if part.stock.diameter is not None or feature.down is not None:
        return False
    return len(set(lies_wrong(part, placed, feature, sides_of(placed.place.face, placed.place.runs)))) > 1


def _right_of(part: Part, placed: Placed, question: Question) -> Face:
    """The face at the right of a feature's drawing."""
    first, second = across_its_run(placed.place.face, placed.place.runs)
    turned = run_of(part.stock, placed.place, question.feature).sign < 0
    return Face(first if turned else second)


def _along_table(part: Part, placed: Placed, up: Face) -> Runs:
    """Which direction of the face that is up is that in which a feature runs."""
    frame = frame_of(part.stock, placed.place.face)
    way = frame.along if placed.place.runs is Runs.ALONG else frame.across
    along = frame_of(part.stock, up).along
    return Runs.ALONG if any(a and b for a, b in zip(way, along, strict=True)) else Runs.ACROSS


def datum_of(part: Part, face: Face) -> Text:
    """The corner from which is counted with a face up: that of the owner's datum, else the first of both sides."""
    named = part.datum.split()
    one, other = (next((word for word in named if word in both), both[0]) for both in SIDES[face])
    return said("{other} {one} corner", one=one, other=other)
