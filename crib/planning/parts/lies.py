"""How the part lies for a feature's plan: which face is up, and how it stands besides. Plans that agree in both are
made in one set-up."""

from __future__ import annotations

from typing import NamedTuple

from crib.findings.message import Text, said
from crib.machining.draft import Question
from crib.parts.frame import SIDES, across_its_run
from crib.parts.part import Face, Part, Placed

_UPRIGHT = "upright"
_OVER = "on its side"


class Lie(NamedTuple):
    """The face that is up; empty where that is all, else how the work or the head stands besides; the tilts that it
    takes."""

    face: Face
    stands: str = ""
    tilts: int = 0

    @property
    def words(self) -> Text:
        """How the part lies."""
        up = said("the {face} up", face=self.face.value)
        return said("{up}, {stands}", up=up, stands=self.stands) if self.stands else up


def lie_of(placed: Placed, question: Question) -> Lie:
    """How the part lies for a feature in one of its set-ups.

    A feature that is turned on its side has what was its right up; so has one on that face itself.
    """
    face, setup, feature = placed.place.face, question.setup, question.feature
    tilts = setup.tilts + feature.tilts
    if setup.name == _OVER:
        return Lie(right_of(placed), feature.stands, tilts)
    if setup.name == _UPRIGHT and not feature.stands:
        return Lie(face, "", tilts)
    stands = feature.stands or setup.words
    return Lie(face, f"{stands}, for what runs {placed.place.runs.value}" if tilts else stands, tilts)


def right_of(placed: Placed) -> Face:
    """The face at the right of a feature's drawing."""
    first, second = across_its_run(placed.place.face, placed.place.runs)
    return Face(first if placed.place.turned else second)


def datum_of(part: Part, lie: Lie) -> Text:
    """From where is counted with the part so: the corner that its owner counts from, or the edges that are up there."""
    named = part.datum.split()
    one, other = (next((word for word in named if word in both), both[0]) for both in SIDES[lie.face])
    return said("zero at the {one} and the {other} of the {face}, Z 0 at the {face}", one=one, other=other,
                face=lie.face.value)
