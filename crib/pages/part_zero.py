"""From where a part is counted as it lies: touching off its corner once, and coming from there to each feature."""

from __future__ import annotations

from collections.abc import Iterator

from crib.features.base import Feature
from crib.findings.message import Measure, Mm, Text, joined, said
from crib.machining.words import Direction
from crib.pages.part_lying import corner_of, from_corner, is_half_round, laid, point
from crib.pages.part_scene import is_turned, lying
from crib.pages.tasks import Setting, Step, Task
from crib.parts.part import Part, Place, Placed, Runs
from crib.planning.advice import Plan
from crib.planning.parts.planned import PartSetup
from crib.shop import Shop


def corner_words(part: Part, setup: PartSetup) -> Text:
    """The corner that table and cross are nought at.

    >>> from types import SimpleNamespace as Made
    >>> from crib.parts.part import Stock
    >>> corner_words(Part("slide", Stock(150, 60, 30)), Made(face=Face.TOP, runs=Runs.ALONG))
    'left and front'
    """
    side, front = corner_of(part, lying(setup))
    return f"{side} and {front}"


def touch_off_corner(part: Part, setup: PartSetup, shop: Shop) -> Step:
    """Finding the corner: the finder's axis stands half its diameter outside of a face at the kick. Common practice."""
    sides = lying(setup)
    side, front = corner_of(part, sides)
    half = shop.finder_mm / 2
    tasks = [Task(said("edge finder {across} on the {face} face, which lies {where}: at the kick set {slide} {at}.",
                       across=Mm(shop.finder_mm), face=face, where=where, slide=slide,
                       at=Measure(half if is_far else -half, sign=True)))
             for face, where, slide, is_far in (
                 (side, "to the right" if side == sides.right else "to the left", "table", side == sides.right),
                 (front, "away from you" if front == sides.away else "toward you", "cross", front == sides.away))]
    return Step("Touch off the corner, once for all of this set-up", tuple(tasks), (
        ("table", said("from the {face} face, + to the right", face=side)),
        ("cross", said("from the {face} face, + away from you", face=front))))


def step_to(part: Part, setup: PartSetup, one: Placed, feature: Feature, plan: Plan) -> Step | None:
    """Coming from the corner to a feature, whose passes count from its own nought; None where it is no block."""
    if part.stock.diameter is not None:
        return None
    places = [place for place in one.places if place.face == setup.face]
    if feature.down is not None and len(places) > 1:
        holes = tuple(Task(said("hole {no}", no=no), settings=tuple(_settings(part, setup, place)))
                      for no, place in enumerate(places, start=1))
        return Step(said("Where {name} stands, from the corner", name=one.name), holes)
    if not places:
        return None
    settings = tuple(_settings(part, setup, places[0]) if feature.down is not None else
                     _zero(part, setup, places[0], feature, plan))
    told: list[Text] = [one.slide for one in settings]
    back = joined(", ", [said("{slide} {at}", slide=one.slide, at=one.reading) for one in settings])
    notes: tuple[Text, ...] = () if feature.down is not None else (
        said("afterwards, at 0, set {back} again: the corner is what the rest counts from", back=back),)
    does = "bring the spindle there" if feature.down is not None else said(
        "go there and set {slides} 0: its passes count from there", slides=joined(" and ", told))
    level = (said("its top lies {deep} below the face: Z 0 is there", deep=Measure(places[0].level)),
             ) if places[0].level else ()
    return Step(said("Come to {name}", name=one.name), (Task(does, settings=settings, notes=(*notes, *level)),))


def _settings(part: Part, setup: PartSetup, place: Place) -> Iterator[Setting]:
    """Where an axis stands, from the corner."""
    table, cross = from_corner(part, lying(setup), _at(part, setup, place))
    yield Setting("table", Measure(table, sign=True))
    yield Setting("cross", Measure(cross, sign=True))


def _zero(part: Part, setup: PartSetup, place: Place, feature: Feature, plan: Plan) -> Iterator[Setting]:
    """Where a feature's own noughts are: across, and along where its passes go between stops."""
    table, cross = from_corner(part, lying(setup), _at(part, setup, place))
    if any(one.dial_from_mm is not None or one.stop_mm is not None for one in plan.passes):
        yield Setting("table", Measure(_left_end(part, setup, place, feature, table), sign=True))
    if any(one.direction != Direction.AXIAL for one in plan.passes):
        yield Setting("cross", Measure(cross, sign=True))


def _left_end(part: Part, setup: PartSetup, place: Place, feature: Feature, table: float) -> float:
    """Where its left-hand end lies: where it begins, or where it ends if it lies the other way round."""
    along, across = place.along, place.across
    end = (along + feature.length, across) if place.runs == Runs.ALONG else (along, across + feature.length)
    other = from_corner(part, lying(setup), laid(part.stock, lying(setup), point(part.stock, place.face, *end)))
    return min(table, other[0])


def _at(part: Part, setup: PartSetup, place: Place) -> tuple[float, float]:
    return laid(part.stock, lying(setup), point(part.stock, place.face, place.along, place.across))


def lies_half_round(part: Part, setup: PartSetup, one: Placed, feature: Feature) -> bool:
    """Whether it must be cut with what is right in its drawing toward you: where its section has two like sides, it
    makes no difference."""
    if feature.down is not None or part.stock.diameter is not None or one.place.face != setup.face:
        return False
    if feature.outline.aim == feature.outline.mirrored.aim:
        return False
    return is_half_round(part.stock, lying(setup), one.place, is_turned(part, one.place, feature))
