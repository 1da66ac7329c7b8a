"""What is needed to set the machine, on one screen: the cutters, the section with what it is set from beside it, the
passes, and what to mind."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from crib.cutters.base import Cutter
from crib.findings.finding import Finding, Grade
from crib.findings.message import Fact, Measure, Sentence, Text, counted, joined, said
from crib.light.records import replace
from crib.pages import passes, process
from crib.pages.blocks import Beside, Block, Column, Drawing, Paragraph, Row, Table, Tone
from crib.pages.of_chips import cautions_of, remarks_of
from crib.pages.outcome import otherwise, outside, proved
from crib.pages.remarks import GRAVE, name, place, ranked, remark
from crib.pages.scene import HolesFromAbove, Scene
from crib.pages.words import if_none_was_given, of_several
from crib.planning.told.advice import Advice, Plan, Rival
from crib.planning.told.passes import Pass
from crib.rules.catalogue import ids

MOST_TO_MIND = 4
"""So many remarks at the most; but none that keeps hands and eyes whole is ever left out, nor one that forbids."""

_FIRST = ids("first")
"""Rules whose warnings are told here however little room there is: of what the machine can't set as it should be."""


_UNKNOWN_STEEL = "UN1"
"""The rule that says what a cutter of unknown steel is run as: told beside the picture, for it halves every speed."""

_MOST_PLACES = 12
"""So many places of holes at the most; the rest with all that is told step by step."""


def first_screen(advice: Advice, scene: Scene | None, pieces: int = 1) -> list[Sequence[Block]]:
    """The best plan, in groups; of how many it is one's."""
    plan = advice.plans[0]
    beside = tuple(_set_from(advice, plan, pieces))
    return [
        [*outside(plan), _cutters(plan)],
        [Beside(Drawing(leading(scene)), beside)] if scene else list(beside),
        [*passes.rows(plan.passes, cutters=not _are_steady(plan.passes), brief=True),
         *passes.notes(plan.passes, bool(plan.checks))],
        list(to_mind(advice, plan)),
    ]


_TOLD_ELSEWHERE = ("Lock", "Measure", "As good", "Nearer")
"""What may be left for the steps, or for the other plans, where there is no room."""

_MOST_AS_GOOD = 2


def leading(scene: Scene) -> Scene | HolesFromAbove:
    """What is drawn first: the section, or the circle that holes stand round."""
    return scene.above if isinstance(scene.above, HolesFromAbove) else scene


def _are_steady(those: Sequence[Pass]) -> bool:
    """Whether each cutter has one speed, so that it is told with the cutter."""
    return all(len({passes.rpm_words(one) for one in those if one.cutter_id == number}) == 1
               for number in {one.cutter_id for one in those})


def _cutters(plan: Plan) -> Table:
    """The cutters in the order in which they go in, where they lie, what holds them, what they do and how fast."""
    steady = _are_steady(plan.passes)
    columns = (Column(wraps=True), Column(wraps=True), Column(), Column(wraps=True), Column(), Column())
    rows = tuple(Row(_cells(plan, at, cutter, steady)) for at, cutter in enumerate(plan.cutters))
    return Table(columns, rows, indent=2)


def _cells(plan: Plan, at: int, cutter: Cutter, steady: bool) -> tuple[Fact, ...]:
    mine = [one for one in plan.passes if one.cutter_id == cutter.id]
    holder = plan.holders[at] if len(plan.holders) == len(plan.cutters) else ""
    counts = any(one.id == "PR1" and one.grade == Grade.NOTE and one.cutter_id == cutter.id for one in plan.warnings)
    word = "pass" if len(mine) == 1 else "passes"
    speed = passes.rpm_words(mine[0]) if mine and steady else ""
    return (name(cutter), place(cutter), "mic it" if counts else "", holder,
            f"{word} {passes.numbers([one.no for one in mine])}" if mine else "",
            f"{speed} rpm" if speed not in ("", "hand") else "by hand" if speed else "")


def _set_from(advice: Advice, plan: Plan, pieces: int) -> Iterator[Paragraph]:
    """What is set before the first pass, and what is measured on the way."""
    material = str(advice.feature.get("material") or "")
    told: list[tuple[str, Fact]] = [
        ("Metal", joined("; ", filter(None, (material + if_none_was_given(advice.assumed), _fluid(plan))))),
        ("Steel", steel([plan])),
        ("Sizes", overruled(str(advice.feature.get("source") or ""))),
        ("Set up", plan.setup if plan.setup != "upright" else ""),
        ("Zero", passes.counts_from(plan.passes, plan.zeros)),
        ("Holes", process.places(plan, _MOST_PLACES)),
        ("Index", process.indexed(plan)),
        ("Lock", process.locks(plan)),
        ("Measure", process.checks(plan, with_what=False)),
        ("Takes", f"{counted(len(plan.passes), 'pass')}, {plan.minutes:.0f} min{of_several(pieces)}"),
        ("As good", as_good(advice)),
        ("Nearer", nearer(advice)),
        ("Quicker", quicker(advice)),
        ("Proved", proved(plan)),
    ]
    for label, text in told:
        if text:
            yield Paragraph(text, label, hang=2, spare=label in _TOLD_ELSEWHERE)


def steel(plans: Sequence[Plan]) -> Text:
    """Which cutters of a plan, or of all of a part's, run half as fast because nobody knows their steel, and how to
    say it. One that a hand turns has no speed."""
    slow = sorted({cutter.id for plan in plans if _runs_slow(plan) for cutter in plan.cutters
                   if cutter.material == "unknown" and not _is_turned_by_hand(plan, cutter)})
    if not slow:
        return ""
    everyone = {cutter.id for plan in plans for cutter in plan.cutters}
    those = "" if everyone == {*slow} else f"of no. {', '.join(map(str, slow))} "
    return f"{those}not on record: run half as fast as HSS; if it is, crib shop --unknown-steel hss"


def _runs_slow(plan: Plan) -> bool:
    return any(one.id == _UNKNOWN_STEEL and one.grade == Grade.NOTE for one in plan.warnings)


def _is_turned_by_hand(plan: Plan, cutter: Cutter) -> bool:
    mine = [one for one in plan.passes if one.cutter_id == cutter.id]
    return bool(mine) and all(one.spindle_is_off for one in mine)


def as_good(advice: Advice) -> Text:
    """Which plans cost so nearly the same that the order decides nothing: by the cutters that they have instead."""
    each = [_rival(advice, one) for one in advice.as_good]
    more = [f"{len(each) - _MOST_AS_GOOD} more"] if len(each) > _MOST_AS_GOOD else []
    those = joined("; ", [*each[:_MOST_AS_GOOD], *more])
    return said("{those}: within a tenth of its cost", those=those) if each else ""


def nearer(advice: Advice) -> Text:
    """Which plan keeps nearest to the drawing, where the first keeps to it less than half as nearly."""
    if not advice.nearer:
        return ""
    one = min(advice.nearer, key=lambda rival: rival.beyond_mm)
    return _off(advice, one)


def quicker(advice: Advice) -> Text:
    """Which plan takes the least time of those that cost clearly less and miss more."""
    return _off(advice, min(advice.quicker, key=lambda rival: rival.minutes)) if advice.quicker else ""


def _off(advice: Advice, one: Rival) -> Text:
    """Another plan, and how far it lies outside the drawing."""
    far = said("{far} outside the drawing", far=Measure(one.beyond_mm, places=4)) if one.beyond_mm else "as drawn"
    return said("{rival}: {far}", rival=_rival(advice, one), far=far)


def _rival(advice: Advice, rival: Rival) -> Text:
    """Another plan by the cutters that it has instead, and how long it takes."""
    mine = {cutter.id for cutter in advice.plans[0].cutters}
    others = [name(cutter) for cutter in rival.cutters if cutter.id not in mine]
    return said("{with_what}, {minutes:.0f} min", with_what=joined(" + ", others or ["these cutters another way"]),
                minutes=rival.minutes)


def overruled(source: str) -> str:
    """What of a source says that a size isn't the standard's but the one that was typed.

    >>> overruled("key 606: B17.2; its width is .3 as you gave it, not the standard's; more")
    "its width is .3 as you gave it, not the standard's"
    """
    return "; ".join(part for part in source.split("; ") if "as you gave it" in part)


def _fluid(plan: Plan) -> str:
    return "cut dry" if plan.fluid == "dry" else plan.fluid


def to_mind(advice: Advice, plan: Plan) -> list[Paragraph]:
    """The gravest of this plan, first: what keeps hands and eyes whole always, and as many remarks as that leaves room
    for, at any rate the gravest. What is said of chips isn't said twice."""
    cautions = cautions_of(advice.cautions, plan)
    above = otherwise(plan)
    found = [one for one in remarks_of(ranked(plan.warnings), advice.cautions, plan)
             if one not in above and one.id != _UNKNOWN_STEEL]
    room = max(MOST_TO_MIND - len(cautions), sum(one.grade == Grade.STOP for one in found),
               min(1, sum(one.grade in GRAVE for one in found)))
    grave = [one for one in found[:room] if one.grade in GRAVE]
    first = [one for one in found if _is_for_first(one)]
    care = [Paragraph(Sentence(text), "Take care", hang=2, tone=Tone.MIND) for text in cautions]
    rest = [one for one in found[len(grave):room] if one not in first]
    return [*map(remark, grave), *care, *map(remark, first), *(replace(remark(one), spare=True) for one in rest)]


def _is_for_first(one: Finding) -> bool:
    return one.grade == Grade.WARN and one.id in _FIRST
