"""How the part lies for a feature's plan: which face is up, which way of it runs along the table, and how it stands
besides. Plans that agree in these are made in one set-up; what is made down an axis goes either way."""

from __future__ import annotations

from crib.features import draw
from crib.features.base import Feature
from crib.findings.message import Text, said
from crib.geometry.outline import Opening
from crib.light.tuples import NamedTuple
from crib.machining.draft import Draft
from crib.machining.question import Question
from crib.parts.frame import SIDES, Vector, across_its_run, frame_of
from crib.parts.part import Face, Part, Place, Placed, Runs
from crib.parts.sides import below, lies_wrong, sides_of
from crib.parts.solids import run_of

_UPRIGHT, _OVER = "upright", "on its side"

_ON_IT_MM = 0.001
"""What is no farther from a face is at it [mm]: less than is measured there."""


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
    """How the part may lie for a feature in one of its set-ups: one way for what is cut along between ends, turned end
    for end or not for what is open at both, for what is made down an axis either way besides, the first of them the one
    in which its place is told.

    A feature that is turned on its side has what was its right up, and its own face away: turned end for end where it
    doesn't lie so.
    """
    face, setup, feature = placed.place.face, question.setup, question.feature
    tilts = setup.tilts + feature.tilts
    stands = feature.stands if feature.tilts else ""
    if is_over(question):
        up = _right_of(part, placed.place, drawn_of(question))
        runs = _along_table(part, placed, up)
        return (Lie(up, runs, stands, tilts, part.stock.diameter is None and sides_of(up, runs).away != face),)
    if setup.name != _UPRIGHT:
        stands = stands or setup.words
    if feature.down is None or tilts:
        lie = Lie(face, placed.place.runs, stands, tilts, _is_turned(part, placed, feature, stands))
        return (lie, lie._replace(turned=True)) if _goes_either_way(part, feature, stands) else (lie,)
    other = Runs.ACROSS if placed.place.runs is Runs.ALONG else Runs.ALONG
    lies = Lie(face, placed.place.runs, stands, tilts), Lie(face, other, stands, tilts)
    return lies if stands or part.stock.diameter is not None else (*lies, *(one._replace(turned=True) for one in lies))


def lies_for(part: Part, placed: Placed, draft: Draft) -> tuple[Lie, ...]:
    """The same for a draft: what the work is put on for it is a set-up of its own."""
    lies = lies_of(part, placed, draft.question)
    return tuple(lie._replace(stands=draft.stands_on) for lie in lies) if draft.stands_on else lies


def is_over(question: Question) -> bool:
    """Whether the work lies on its side: what is right in the drawing up, its face away from who stands there."""
    return question.setup.name == _OVER


def drawn_of(question: Question) -> Feature:
    """The feature as it is drawn and placed, where the question has it drawn anew as it lies on its side."""
    return draw(question.feature.request) if is_over(question) else question.feature


def moved_over(question: Question) -> tuple[float, float]:
    """By how much what the passes count across and up on its side differs from the drawing's up and right [mm]."""
    was, now = drawn_of(question).outline.rooms[0].aim, question.outline.rooms[0].aim
    return (now.left - was.low) / 1e6, (now.low - was.left) / 1e6


def zero_over(part: Part, place: Place, question: Question) -> Vector:
    """Where in the part its passes on its side count from, at the beginning of its run."""
    run, (across, up) = run_of(part.stock, place, drawn_of(question)), moved_over(question)
    return run.at(run.begin, -up, -across)


def _is_turned(part: Part, placed: Placed, feature: Feature, stands: str) -> bool:
    """Whether the part is turned end for end for it: what goes between ends, or stands tilted, is cut as its plan has
    it, what lies flat and is open at both can be told with the other signs."""
    if part.stock.diameter is not None or feature.down is not None or _goes_either_way(part, feature, stands):
        return False
    return any(lies_wrong(part, placed, feature, sides_of(placed.place.face, placed.place.runs)))


def _goes_either_way(part: Part, feature: Feature, stands: str) -> bool:
    """Whether what lies flat and runs from end to end can be made turned end for end as well as not."""
    return part.stock.diameter is None and feature.request.ends == "open" and feature.layers is None and not stands


def lies_as_in_a_mirror(part: Part, placed: Placed, question: Question) -> bool:
    """Whether no way to lay the part has it as its plan has it, all its places alike. On its side: what is told so is
    open at both ends, and where its plan counts down from the face that is up, that must be the edge of its drawing."""
    feature = question.feature
    if part.stock.diameter is not None or feature.down is not None:
        return False
    if is_over(question):
        drawn = drawn_of(question)
        ups = [_right_of(part, place, drawn) for place in placed.places]
        counts = feature.outline == drawn.outline and question.outline.rooms[0].opens(Opening.TOP)
        return len(set(ups)) > 1 or feature.request.ends != "open" or (counts and any(
            abs(below(part.stock, up, zero_over(part, place, question))) > _ON_IT_MM
            for up, place in zip(ups, placed.places, strict=True)))
    return len(set(lies_wrong(part, placed, feature, sides_of(placed.place.face, placed.place.runs)))) > 1


def _right_of(part: Part, place: Place, feature: Feature) -> Face:
    """The face at the right of a feature's drawing."""
    first, second = across_its_run(place.face, place.runs)
    turned = run_of(part.stock, place, feature).sign < 0
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
