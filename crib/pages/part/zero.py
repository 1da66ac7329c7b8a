"""From where a part is counted as it lies: touching off its corner once, and coming from there to each feature."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from crib.features.base import Feature
from crib.findings.message import Measure, Mm, Text, joined, said
from crib.machining.question import Question
from crib.machining.words import Direction
from crib.pages.part.scene import lying
from crib.pages.sheet_steps import coming_to, touched
from crib.pages.tasks import Setting, Step, Task
from crib.parts.frame import Vector
from crib.parts.part import Part, Placed
from crib.parts.sides import below, corner_of, from_corner, is_half_round, laid
from crib.parts.solids import Run, axes, run_of
from crib.planning.parts.lies import drawn_of, is_over, zero_over
from crib.planning.parts.planned import PartSetup
from crib.planning.process.dials import slack_mm
from crib.planning.told.advice import Plan
from crib.shop import Shop


def corner_words(part: Part, setup: PartSetup) -> Text:
    """The corner that table and cross are nought at."""
    side, front = corner_of(part, lying(setup))
    return f"{side} and {front}"


def touch_off_corner(part: Part, setup: PartSetup, shop: Shop) -> Step:
    """Finding the corner: the finder's axis stands half its diameter outside of a face at the kick. Common practice."""
    sides = lying(setup)
    side, front = corner_of(part, sides)
    half, slack = shop.finder_mm / 2, slack_mm(shop)
    tasks = [Task(said("edge finder {across} on the {face} face, which lies {where}: at the kick set {slide} {at}.",
                       across=Mm(shop.finder_mm), face=face, where=where, slide=slide,
                       at=Measure(half - slack if is_far else -half, sign=True)),
                  notes=(said("the {slack} of backlash is taken off: it is come to against the way of all readings",
                              slack=Measure(slack)),) if is_far and slack else ())
             for face, where, slide, is_far in (
                 (side, "to the right" if side == sides.right else "to the left", "table", side == sides.right),
                 (front, "away from you" if front == sides.away else "toward you", "cross", front == sides.away))]
    return Step("Touch off the corner, once for all of this set-up", tuple(tasks), (
        ("table", said("from the {face} face, + to the right", face=side)),
        ("cross", said("from the {face} face, + away from you", face=front))))


def step_to(part: Part, setup: PartSetup, one: Placed, question: Question, plan: Plan) -> Step | None:
    """Coming from the corner to a feature, whose passes count from its own nought; None where it is no block. Where the
    work or the head is tilted no corner counts: it is touched off as by itself."""
    if part.stock.diameter is not None:
        return None
    feature = drawn_of(question)
    if setup.stands:
        return Step(said("Touch off {name}", name=one.name), tuple(touched(plan)), tuple(coming_to(plan)))
    if is_over(question):
        return _on_its_side(part, setup, one, question)
    mine = [place for place in one.places if place.face == setup.face]
    if not mine:
        return None
    level = (said("its top lies {deep} below the face: Z 0 is there", deep=Measure(mine[0].level)),
             ) if mine[0].level else ()
    if feature.down is not None:
        return _over_holes(part, setup, one, feature, level)
    return _along(one, [tuple(_zero(part, setup, run_of(part.stock, place, feature), plan)) for place in mine],
                  [level] * len(mine))


def _on_its_side(part: Part, setup: PartSetup, one: Placed, question: Question) -> Step:
    """Coming to what is cut with its right up and its own face away: where its passes' cross 0 and Z 0 lie there."""
    zeros = [zero_over(part, place, question) for place in one.places]
    heights = [(said("Z 0 is {zero}, {deep} below the {face} face", zero=question.zeros[1], face=setup.face,
                     deep=Measure(below(part.stock, setup.face, zero))),) for zero in zeros]
    return _along(one, [(Setting("cross", Measure(_reading(part, setup, zero)[1], sign=True)),) for zero in zeros],
                  heights)


def _along(one: Placed, every: Sequence[tuple[Setting, ...]], notes: Sequence[tuple[Text, ...]]) -> Step:
    """Going to a feature's own noughts at each of its places, and back to the corner's afterwards."""
    tasks = []
    for no, settings in enumerate(every, start=1):
        slides = " and ".join(each.slide for each in settings)
        back = joined(", ", (said("{slide} {at}", slide=each.slide, at=each.reading) for each in settings))
        again = said("afterwards, at 0, set {back} again: the corner is what the rest counts from", back=back)
        does = said("go there and set {slides} 0: its passes count from there", slides=slides)
        does = said("place {no}: {does}, all of them", no=no, does=does) if len(every) > 1 else does
        tasks.append(Task(does, settings=settings, notes=(again, *notes[no - 1])))
    return Step(said("Come to {name}", name=one.name), tuple(tasks))


def _over_holes(part: Part, setup: PartSetup, one: Placed, feature: Feature, notes: tuple[Text, ...]) -> Step:
    """Where the spindle stands for each hole."""
    every = [_settings(part, setup, axis.point) for axis in axes(part, one, feature)]
    if len(every) == 1:
        return Step(said("Come to {name}", name=one.name),
                    (Task("bring the spindle there, lock table and cross", settings=every[0], notes=notes),))
    holes = (Task(said("hole {no}", no=no), settings=each) for no, each in enumerate(every, start=1))
    return Step(said("Places of {name}, from the corner", name=one.name), tuple(holes),
                tuple(("Z", note) for note in notes))


def _settings(part: Part, setup: PartSetup, at: Vector) -> tuple[Setting, ...]:
    """Where an axis stands, from the corner."""
    table, cross = _reading(part, setup, at)
    return Setting("table", Measure(table, sign=True)), Setting("cross", Measure(cross, sign=True))


def _reading(part: Part, setup: PartSetup, at: Vector) -> tuple[float, float]:
    sides = lying(setup)
    return from_corner(part, sides, laid(part.stock, sides, at))


def _zero(part: Part, setup: PartSetup, run: Run, plan: Plan) -> Iterator[Setting]:
    """Where a feature's own noughts are: across, and at its left-hand end where its passes go between stops."""
    ends = [_reading(part, setup, run.at(along, 0.0, 0.0)) for along in (run.begin, run.end)]
    if any(one.dial_from_mm is not None or one.stop_mm is not None for one in plan.passes):
        yield Setting("table", Measure(min(table for table, _ in ends), sign=True))
    if any(one.direction != Direction.AXIAL for one in plan.passes):
        yield Setting("cross", Measure(ends[0][1], sign=True))


def lies_half_round(part: Part, setup: PartSetup, one: Placed, feature: Feature) -> bool:
    """Whether it must be cut with what is right in its drawing toward you: where its section has two like sides, it
    makes no difference."""
    if feature.down is not None or part.stock.diameter is not None or one.place.face != setup.face:
        return False
    if feature.outline.aim == feature.outline.mirrored.aim:
        return False
    return is_half_round(part.stock, lying(setup), run_of(part.stock, one.place, feature))
