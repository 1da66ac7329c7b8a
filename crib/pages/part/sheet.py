"""The sheet of a whole part: what is taken to the machine, from sawing the blank to the last measurement."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from crib.findings.message import Fact, Head, Measure, Sentence, Text, joined, said
from crib.findings.verdicts import WORDS
from crib.light.records import replace
from crib.pages.half_round import can_be_told, half_round, seen_so
from crib.pages.outcome import off_by
from crib.pages.part.page import does, left_out, verdict
from crib.pages.part.scene import scene
from crib.pages.part.steps import plan_of
from crib.pages.part.words import bound, compared, metal, minutes_of, put_ups, short_name
from crib.pages.part.zero import corner_words, lies_half_round, step_to, touch_off_corner
from crib.pages.remarks import place, ranked, remark
from crib.pages.setup_sheet import over_a_hole
from crib.pages.sheet_steps import COMES_LOOSE, coming_to, cut, put_in, touched
from crib.pages.tasks import OperationSteps, PartSheet, SetupCard, SetupSteps, Step, Task, ToolLine
from crib.parts.part import Part
from crib.planning.dialled.finish import Proved
from crib.planning.parts.planned import PartOperation, PartSetup, PlannedPart
from crib.planning.parts.works import work_of
from crib.planning.told.passes import Pass
from crib.safety.cautions import GENERAL
from crib.shop import Shop


def part_sheet(planned: PlannedPart, shop: Shop, blank: Text = "", news: Sequence[Fact] = (),
               cautions: Sequence[Text] = (), squaring: Sequence[Text] = ()) -> PartSheet | None:
    """The sheet; None where nothing of it has a plan. `squaring`: how the blank is squared, step by step."""
    if not planned.operations:
        return None
    return PartSheet(
        title=planned.part.name,
        answer=left_out(planned) or WORDS[verdict(planned)],
        facts=tuple(_facts(planned, blank)),
        setups=tuple(_card(planned, one) for one in planned.setups),
        ready=tuple(_ready(planned, shop)),
        parts=tuple(_steps(planned, one, shop) for one in planned.setups),
        lacking=tuple(said("{feature}: {says}", feature=one.feature, says=one.says) if one.feature else one.says
                      for one in planned.lacking),
        beyond=tuple(_beyond(planned)),
        cautions=(*_remarks(planned), *map(Sentence, cautions)),
        always=GENERAL,
        news=tuple(news),
        squared=_squared(blank, squaring),
    )


def _squared(blank: Text, squaring: Sequence[Text]) -> Step | None:
    """Sawing the blank and squaring it, where that is told."""
    if not squaring:
        return None
    saw = [Task(Sentence(said("saw {blank}", blank=blank)))] if blank else []
    return Step("Saw and square the blank", (*saw, *(Task(Sentence(one)) for one in squaring)))


def _facts(planned: PlannedPart, blank: Text) -> Iterator[tuple[str, Fact]]:
    part = planned.part
    if told := metal(planned):
        yield "material", told
    yield "stock", stock_words(planned)
    if blank:
        yield "saw", blank
    if part.fits:
        yield "fits", part.fits
    fluids = dict.fromkeys(one.proved.plan.fluid.partition(";")[0] for one in planned.operations)
    if any(fluids):
        yield "fluid", "; ".join(filter(None, fluids))
    yield "takes", said("{minutes:.0f} min: {all}; {bound}", minutes=planned.minutes, bound=bound(planned),
                        all=", ".join(f"set-up {one.no} {minutes_of(planned, one):.0f}" for one in planned.setups))
    if text := compared(planned):
        yield "instead", text


def stock_words(planned: PlannedPart) -> Text:
    """The squared stock that the plan counts on."""
    stock = planned.part.stock
    if stock.diameter is not None:
        return said("round {across}, {long} long", across=Measure(stock.diameter), long=Measure(stock.length))
    return joined(" x ", (Measure(stock.length), Measure(stock.width), Measure(stock.height)))


def _card(planned: PlannedPart, setup: PartSetup) -> SetupCard:
    facts: list[tuple[str, Fact]] = [("hold", setup.holds)] if setup.holds else []
    if planned.part.stock.diameter is None and not setup.stands:
        facts.append(("zero", said("at the corner of {corner}", corner=corner_words(planned.part, setup))))
    elif setup.datum and not setup.stands:
        facts.append(("zero", setup.datum))
    mine = [one for one in planned.operations if one.setup_no == setup.no]
    return SetupCard(setup.no, Head(setup.words), tuple(facts), minutes_of(planned, setup), scene(planned, setup),
                     tuple(_tools(planned, mine)))


def _tools(planned: PlannedPart, mine: Sequence[PartOperation]) -> Iterator[ToolLine]:
    """The cutters of a set-up as they go in."""
    for those in put_ups(mine):
        one = those[0]
        yield ToolLine(one.holder, short_name(planned, one.cutter), place(one.cutter), does(planned, those),
                       sum(each.minutes for each in those))


def _ready(planned: PlannedPart, shop: Shop) -> Iterator[Fact]:
    """What is measured and touched off with."""
    yield from dict.fromkeys(check.instrument for one in planned.operations for check in plan_of(one).checks)
    yield "dial indicator"
    yield said("edge finder {across}", across=Measure(shop.finder_mm))
    yield said("paper {thick}", thick=Measure(shop.feeler_mm))
    yield from over_a_hole([plan_of(one) for one in planned.operations])
    yield "brush"


def _beyond(planned: PlannedPart) -> Iterator[Fact]:
    """What comes out otherwise than as drawn."""
    for name, plan in {one.feature: one.proved.plan for one in planned.operations}.items():
        for one in plan.deviations:
            yield said("{name}: {what}", name=name, what=off_by(one))


def _remarks(planned: PlannedPart) -> Iterator[Fact]:
    for one in map(remark, ranked(planned.findings)):
        label = "" if one.label == "Mind" else said("{label}: ", label=one.label)
        yield said("{label}{text}", label=label, text=Sentence(one.text))


def _steps(planned: PlannedPart, setup: PartSetup, shop: Shop) -> SetupSteps:
    mine = [one for one in planned.operations if one.setup_no == setup.no]
    held = Step("Hold the work, indicate it", (Task(Sentence(setup.holds or setup.plan.hold)),))
    found = _touch_off(planned.part, setup, shop)
    told = tuple(_operation(planned, setup, one, before, shop)
                 for before, one in zip([None, *mine[:-1]], mine, strict=True))
    title = said("Set-up {no}: {words}, {minutes:.0f} min", no=setup.no, words=setup.words,
                 minutes=minutes_of(planned, setup))
    return SetupSteps(title, (held, *found), told, (COMES_LOOSE,))


def _touch_off(part: Part, setup: PartSetup, shop: Shop) -> tuple[Step, ...]:
    """What is touched off once for a set-up: the corner of a block; nothing where it stands tilted, as each feature is
    then touched off by itself."""
    if part.stock.diameter is not None:
        return (Step("Touch off the work", tuple(touched(setup.plan)), tuple(coming_to(setup.plan))),)
    return () if setup.stands else (touch_off_corner(part, setup, shop),)


def _operation(planned: PlannedPart, setup: PartSetup, one: PartOperation, before: PartOperation | None, shop: Shop
               ) -> OperationSteps:
    title = said("{work}, {minutes:.1f} min", work=work_of(planned, one), minutes=one.minutes)
    if one.done:
        return OperationSteps(one.key, one.no, title, (), is_done=True)
    return OperationSteps(one.key, one.no, title, tuple(_of(planned, setup, one, before, shop)))


def _of(planned: PlannedPart, setup: PartSetup, one: PartOperation, before: PartOperation | None, shop: Shop
        ) -> Iterator[Step]:
    """Coming to the feature where the last operation was at another, putting the cutter in, the passes."""
    proved, is_round_about = as_it_lies(planned, setup, one)
    plan = replace(plan_of(one), passes=_passes(proved, one))
    placed = next((each for each in planned.part.features if each.name == one.feature), None)
    if placed and (before is None or before.feature != one.feature):
        come = step_to(planned.part, setup, placed, proved.draft.question, plan)
        if come is not None:
            yield come
    yield _up(one)
    told = cut(proved, plan.passes)
    yield from seen_so(told) if is_round_about else told


def _up(one: PartOperation) -> Step:
    """Putting the cutter in; one that is up is touched off anew where the surface is another."""
    step = put_in(replace(one.proved.plan, passes=one.passes), one.passes)
    if one.puts_up:
        return step
    return replace(step, title=said("Put in no. {number}: it is up", number=one.cutter.id), tasks=step.tasks[1:])


def _passes(proved: Proved, one: PartOperation) -> tuple[Pass, ...]:
    numbers = {each.no for each in one.passes}
    return tuple(each for each in proved.plan.passes if each.no in numbers)


def as_it_lies(planned: PlannedPart, setup: PartSetup, one: PartOperation) -> tuple[Proved, bool]:
    """The plan of an operation's feature as it is cut in this set-up, and whether that is half round."""
    feature = one.proved.draft.question.feature
    placed = next((each for each in planned.part.features if each.name == one.feature), None)
    if placed is None or not lies_half_round(planned.part, setup, placed, feature) or not can_be_told(one.proved.plan):
        return one.proved, False
    turned = half_round(one.proved.plan, feature.length, one.proved.draft.question.shop)
    return replace(one.proved, told=turned), True
