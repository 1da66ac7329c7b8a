"""The steps of a set-up sheet: holding, touching off, each cutter put in, and its passes in runs that look alike."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from crib.cutters.base import Cutter
from crib.findings.message import Fact, Measure, Reading, Sentence, Text, said
from crib.geometry.outline import BOTH_SIDES
from crib.machining.words import SIZED, Direction, Slide
from crib.pages.pass_tasks import begins, on_the_dial, tasks
from crib.pages.remarks import name
from crib.pages.run_facts import facts, speed
from crib.pages.runs import Run, runs, title
from crib.pages.stages import above_of, scene_of
from crib.pages.tasks import Setting, Step, Task
from crib.planning.dialled.finish import Proved
from crib.planning.told.advice import Plan
from crib.planning.told.passes import Pass


def steps(proved: Proved) -> Iterator[Step]:
    """Every step, in the order in which they are done."""
    plan = proved.plan
    yield Step("Hold the work, indicate it", (Task(Sentence(plan.hold)), *_lying(plan)))
    yield Step("Touch off the work", tuple(touched(plan)), tuple(coming_to(plan)))
    if plan.indexed:
        yield Step("Turn to each flat: all passes, then the next", tuple(
            Task(said("flat {flat}: {says}", flat=one.flat, says=one.says)) for one in plan.indexed))
    if plan.places:
        yield Step("Where the holes stand", tuple(_stand(plan)))
    for _, mine in groupby(plan.passes, key=lambda one: one.cutter_id):
        passes = tuple(mine)
        yield put_in(plan, passes)
        yield from cut(proved, passes)
    yield COMES_LOOSE


def cut(proved: Proved, passes: Run) -> Iterator[Step]:
    """The steps of passes with one cutter, those that belong together in one."""
    plan, shop = proved.plan, proved.draft.question.shop
    two_walls = not any(room.open & BOTH_SIDES for room in proved.draft.question.outline.rooms)
    holes = proved.draft.question.feature.number
    for run in runs(passes):
        yield Step(title(run, two_walls), tuple(tasks(run, plan, shop, holes)), tuple(facts(run, plan, shop, holes)),
                   scene_of(proved, run), above_of(proved, run))


COMES_LOOSE = Step("Before the work comes loose", (
    Task("spindle off; take the burrs off"),
    Task("measure all sizes once more: what was touched off is lost when it is unclamped")))


def _lying(plan: Plan) -> Iterator[Task]:
    if plan.setup not in ("upright", ""):
        yield Task(Sentence(plan.setup))


def touched(plan: Plan) -> Iterator[Task]:
    """What is touched off once, not with every cutter."""
    for one in plan.touch_off:
        if not one.each:
            yield Task(Sentence(one.says), blank=begins(one.says, "go to "))


def _stand(plan: Plan) -> Iterator[Task]:
    """Each hole's readings of table and cross, tried before anything turns."""
    for one in plan.places:
        dials = {dial.slide: dial for dial in one.dials} if plan.handwheels else {}
        yield Task(f"hole {one.no}", settings=(
            Setting("table", Reading(one.dial_x_mm, sign=True), on_the_dial(dials.get(Slide.TABLE))),
            Setting("cross", Reading(one.dial_y_mm, sign=True), on_the_dial(dials.get(Slide.CROSS)))))


def coming_to(plan: Plan) -> Iterator[tuple[str, Fact]]:
    """What positions count from, and how a setting is come to."""
    cross, down = plan.zeros
    if any(one.direction != Direction.AXIAL for one in plan.passes):
        yield "cross", said("the cutter's axis from {zero}, + away from you", zero=cross)
    if any(one.dial_from_mm != one.dial_to_mm or one.stop_mm is not None for one in plan.passes):
        yield "table", "the cutter's axis along the feed, from the left-hand end"
    yield "Z", said("the cutter's lower end from {zero}", zero=down)
    yield "set", plan.handwheels or "lock, then read again: a lock may pull the slide"


def put_in(plan: Plan, passes: Run) -> Step:
    """A cutter goes in: what holds it, its speed, where its end is touched off."""
    one, number = passes[0], passes[0].cutter_id
    place, cutter = next((at, c) for at, c in enumerate(plan.cutters) if c.id == number)
    held = said(", in the {holder}", holder=plan.holders[place]) if len(plan.holders) == len(plan.cutters) else ""
    touched = [Task(Sentence(text)) for step in plan.touch_off for id, text in step.each if id == number]
    return Step(said("Put in no. {number}", number=number), (
        Task(Sentence(said("{cutter}{held}{checked}", cutter=name(cutter), held=held,
                           checked=_checked(cutter, one)))),
        Task(Sentence(speed(one))), *touched))


def _checked(cutter: Cutter, one: Pass) -> Text:
    """The one size that its settings, or the hole, hang on."""
    along = one.direction != Direction.AXIAL
    if cutter.diameter_mm is None or not (along or one.role in SIZED):
        return ""
    return said("; its diameter must be {across}, or {what} off", across=Measure(cutter.diameter_mm),
                what="every setting is" if along else "the hole is")
