"""The set-up sheet of an answered question: what somebody takes to the machine, from getting things out to the last
measurement."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from crib.findings.finding import Figure
from crib.findings.message import Clause, Fact, Measure, Sentence, Text, joined, said, templates
from crib.findings.verdicts import WORDS
from crib.pages import answer
from crib.pages.cutter_cards import cards
from crib.pages.of_chips import cautions_of, remarks_of
from crib.pages.outcome import off_by, otherwise
from crib.pages.remarks import warnings
from crib.pages.scene import FromAbove, HolesFromAbove, Scene, tight_words
from crib.pages.scenes import scene_of
from crib.pages.sheet import pieces_of
from crib.pages.sheet_steps import steps
from crib.pages.tasks import CutterCard, SetupSheet
from crib.pages.words import if_none_was_given, of_several
from crib.planning.advise import Answered
from crib.planning.dialled.finish import Proved
from crib.planning.told.advice import Plan
from crib.safety.cautions import GENERAL

_NOTHING_MM = 1e-4
"""What is finer than a page shows."""


def setup_sheet(found: Answered, number: int = 0) -> SetupSheet | None:
    """The sheet of the plan with that number, the best being 0; None where there is no plan."""
    if number >= len(found.proved):
        return None
    proved, advice = found.proved[number], found.advice
    plan = advice.plans[number]
    those = tuple(cards(proved))
    return SetupSheet(
        title=proved.draft.question.feature.words,
        answer=WORDS[plan.answer],
        facts=tuple(_facts(found, proved, plan)),
        cutters=those,
        ready=tuple(ready_for(plan, proved, those)),
        pictures=tuple(_pictures(proved)),
        steps=tuple(steps(proved)),
        beyond=tuple(_beyond(plan)),
        cautions=(*_remarks(plan, advice.cautions), *map(Sentence, cautions_of(advice.cautions, plan))),
        always=GENERAL,
        reasons=tuple(_reasons(found, plan)),
    )


def _facts(found: Answered, proved: Proved, plan: Plan) -> Iterator[tuple[str, Fact]]:
    """What is made, of what, and how it lies."""
    request = proved.draft.question.feature.request
    yield "sizes", answer.asked(found.advice, metal=False)
    yield "material", proved.draft.question.material.name + if_none_was_given(found.advice.assumed)
    if plan.fluid:
        yield "fluid", plan.fluid
    if plan.setup != "upright":
        yield "lies", plan.setup
    if request.count > 1:
        yield "pieces", str(request.count)
    yield "takes", f"about {plan.minutes:.0f} min{of_several(pieces_of(found))}"


def ready_for(plan: Plan, proved: Proved, cutters: Sequence[CutterCard]) -> Iterator[Fact]:
    """Measuring tools, for the cutters too, and what these are touched off with."""
    of_cutters = (one.instrument for card in cutters for one in card.checks)
    yield from dict.fromkeys((*of_cutters, *(one.instrument for one in plan.checks)))
    shop = proved.draft.question.shop
    yield "dial indicator"
    if "sine bar" in templates(plan.hold):
        yield "sine bar or protractor"
    if any("edge finder" in templates(one.says) for one in plan.touch_off):
        yield said("edge finder {across}", across=Measure(shop.finder_mm))
    if any(one.each for one in plan.touch_off):
        yield said("paper {thick}", thick=Measure(shop.feeler_mm))
    yield from over_a_hole([plan])
    yield "brush"
    if plan.fluid and not plan.fluid.startswith("dry"):
        yield plan.fluid.split(";")[0]


def over_a_hole(plans: Sequence[Plan]) -> Iterator[Fact]:
    """What is laid over a hole where a cutter is touched off over it."""
    if any("a parallel laid" in templates(one.says) for plan in plans for one in plan.touch_off):
        yield "a parallel, to touch off over the hole"


def _pictures(proved: Proved) -> Iterator[Scene | FromAbove | HolesFromAbove]:
    """The section with its sizes, and from above where an end is closed or holes stand round a circle."""
    scene = scene_of(proved)
    yield scene
    if scene.above:
        yield scene.above


def _beyond(plan: Plan) -> Iterator[Fact]:
    """What comes out otherwise than as drawn."""
    yield from map(off_by, plan.deviations)
    yield from (one.says for one in otherwise(plan))


def _remarks(plan: Plan, cautions: Iterable[Text]) -> Iterator[Fact]:
    """What the rules say of this plan, the worst first."""
    for one in warnings(remarks_of(plan.warnings, cautions, plan)):
        label = "" if one.label == "Mind" else said("{label}: ", label=one.label)
        yield said("{label}{text}", label=label, text=Sentence(one.text))


def _reasons(found: Answered, plan: Plan) -> Iterator[Fact]:
    """Why this way: what the proof found, what was reckoned and assumed, what it costs."""
    proof = plan.proof
    tight = said("; {spot}", spot=tight_words(proof.tight)) if proof.tight else ""
    yield said("{way}. Cut again from the solid: {left} left standing, {gouge} gouged{tight}.", way=plan.way,
               left=_or_nothing(proof.left_mm), gouge=_or_nothing(proof.gouge_mm), tight=tight)
    if plan.figures:
        yield said("Reckoned: {all}.", all=joined("; ", map(_figure, plan.figures)))
    if taken := tuple(dict.fromkeys((*found.advice.assumed, *plan.assumed))):
        yield said("Assumed: {all}.", all=joined("; ", map(Clause, taken)))
    lines = [f"{one.what} {one.minutes:.0f} min" if one.minutes else f"{one.what} {one.money:.2f}"
             for one in sorted(plan.cost_lines, key=lambda line: -line.money)]
    yield f"{plan.minutes:.0f} min, {plan.cost:.2f} {plan.currency}: {', '.join(lines)}."


def _or_nothing(mm: float) -> Fact:
    return Measure(mm) if mm > _NOTHING_MM else "nothing"


def _figure(one: Figure) -> Text:
    if one.mm is not None:
        return said("{what} {size}", what=one.what, size=Measure(one.mm, places=one.places))
    value = f"{one.value:g}" if isinstance(one.value, float) else one.value
    return said("{what} {value}", what=one.what, value=value if value is not None else "")
