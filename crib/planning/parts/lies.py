"""How the part lies for a feature's plan: which face is up, which way of it runs along the table, and how it stands
besides. Plans that agree in these are made in one set-up; what is made down an axis goes either way."""

from __future__ import annotations

from typing import NamedTuple

from crib.findings.message import Text, said
from crib.machining.draft import Question
from crib.parts.frame import SIDES, across_its_run, frame_of
from crib.parts.part import Face, Part, Placed, Runs
from crib.parts.solids import run_of

_UPRIGHT, _OVER = "upright", "on its side"


class Lie(NamedTuple):
    """The face that is up and which of its directions lies along the table; how the work or the head stands besides,
    empty where that is all, and the tilts that it takes."""

    face: Face
    runs: Runs = Runs.ALONG
    stands: str = ""
    tilts: int = 0

    @property
    def words(self) -> Text:
        """How the part lies."""
        along, across = SIDES[self.face]
        ends = along if self.runs is Runs.ALONG else across
        lies = said("the {face} up, {first} to {second} along the table", face=self.face.value, first=ends[0],
                    second=ends[1])
        return said("{lies}; {stands}", lies=lies, stands=self.stands) if self.stands else lies

    @property
    def name(self) -> str:
        """The same in a few words."""
        stands = f", {self.stands}" if self.stands else ""
        return f"{self.face.value} up {self.runs.value}{stands}"


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
        return (Lie(face, placed.place.runs, stands, tilts),)
    other = Runs.ACROSS if placed.place.runs is Runs.ALONG else Runs.ALONG
    return Lie(face, placed.place.runs, stands, tilts), Lie(face, other, stands, tilts)


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
