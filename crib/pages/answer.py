"""The whole page for an answer: the verdict first, then the best plan, other plans, and why not with the rest."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from crib.findings.message import Deg, Fact, Head, Measure, Sentence, Text, joined, said
from crib.findings.verdicts import SHORT, WORDS, Verdict
from crib.pages.blocks import Block, Blocks, Bullets, Heading, Paragraph, clauses, spaced
from crib.pages.plan_sheet import plan_sheet
from crib.pages.remarks import care, name, place
from crib.pages.scene import Scene
from crib.planning.advice import Advice, Plan, Refusal

_REFUSED = 6
_WAYS_OUT = 3
_RUNNERS_UP = 4
_ENDS = {"one": ("one end closed",), "closed": ("both ends closed",)}


def page(advice: Advice, scenes: Sequence[Scene | None] = (), refused: int | None = _REFUSED) -> Blocks:
    """The page. `scenes`: the picture of each plan, in the plans' order; only the best one is drawn. `refused`: how
    many refused cutters to show, or None for all."""
    head = [*verdict(advice), Paragraph(asked(advice), "Asked", hang=2)]
    if advice.answer == Verdict.REFER:
        return tuple(head)
    groups: list[Sequence[Block]] = [head]
    if advice.answer in (Verdict.MEASURE_FIRST, Verdict.CANNOT):
        groups.append(_ways_out(advice))
    groups.append(_changes(advice))
    if advice.plans:
        groups += plan_sheet(advice.plans[0], scenes[0] if scenes else None, advice.assumed)
        groups.append(care(advice.cautions))
    elif advice.assumed:
        groups.append([Paragraph(clauses(advice.assumed), "Assumed", hang=2)])
    return spaced([*groups, _runners_up(advice.plans), _away(advice), _buy(advice), _refused(advice, refused)])


def asked(advice: Advice) -> Text:
    """What was asked, in a line: `t-slot, throat .625, depth .520, grey iron`."""
    feature = advice.feature
    return joined(", ", [str(feature.get("kind", "")), *_ENDS.get(feature.get("ends", ""), ()), *_sizes(advice),
                         *(str(feature[key]) for key in ("material", "hardness") if feature.get(key)),
                         *([f"to fit {feature['mating']}"] if feature.get("mating") else []), *_walls(advice)])


def _sizes(advice: Advice) -> Iterator[Text]:
    """Angles, then sizes, as they were typed where that is known."""
    typed = advice.feature.get("typed", {})
    for key, value in advice.feature.items():
        if key.endswith("_deg"):
            yield f"{key[:-4]} {value:g}°"
    for key, value in advice.feature.items():
        if key.endswith("_mm") and isinstance(value, int | float):
            yield said("{key} {size}", key=key[:-3].replace("_", " "), size=typed.get(key[:-3]) or Measure(value))


def _walls(advice: Advice) -> Iterator[Text]:
    for wall in advice.feature.get("walls", ()):
        yield said("a wall {high} high at {at}", high=Measure(wall["height_mm"]), at=Measure(wall["distance_mm"]))


def verdict(advice: Advice) -> Iterator[Paragraph]:
    """The answer in words, and the one sentence that decides."""
    yield Paragraph(WORDS[advice.answer], "Answer", hang=2)
    yield Paragraph(Sentence(advice.says or (_proved(advice.plans[0]) if advice.plans else "")))


def _proved(plan: Plan) -> Text:
    """Why the best plan holds, with its numbers."""
    proof, gap = plan.proof, plan.proof.neck_gap_mm
    gouge = Measure(proof.gouge_mm)
    found: list[Fact] = [
        "leaves nothing standing" if proof.left_mm <= 1e-4 else said("leaves {mm} standing", mm=Measure(proof.left_mm)),
        said("cuts {gouge} too deep", gouge=gouge) if gouge.mm > 1e-4 else "cuts nothing it should not",
        *([] if gap is None else [said("clears by {gap} at the tightest", gap=Measure(gap))]),
    ]
    return said("{way}: {found}", way=plan.way, found=joined(", ", found))


def _ways_out(advice: Advice) -> list[Block]:
    """What to mic, or the nearest changes that would do."""
    measure = advice.answer == Verdict.MEASURE_FIRST
    title = "Measure first" if measure else "What would do, nearest first"
    body = tuple(_why(refusal, place(refusal.cutter), measure) for refusal in _leading(advice))
    return [Heading(title), Bullets(body)] if body else []


def _changes(advice: Advice) -> list[Block]:
    """What change of the drawing would do, the smallest first, each with the plan that it lets in."""
    if advice.changes is None:
        return []
    items = []
    for one in advice.changes:
        angle = f"{one.key}_deg" in advice.feature
        before, after = (said("{value}°", value=Deg(value)) if angle else Measure(value)
                         for value in (one.before, one.after))
        items.append(said("{key} {after} instead of {before}: {answer}, {way}", key=one.key.replace("_", " "),
                          after=after, before=before, answer=SHORT[one.plan.answer], way=one.plan.way))
    none = Paragraph("no change of one size by up to a quarter would do", indent=2)
    return [Heading("With a change of the drawing, the smallest first"), Bullets(tuple(items)) if items else none]


def _leading(advice: Advice) -> list[Refusal]:
    """The refusals that are told before all else, because they hold the way on."""
    if advice.answer == Verdict.MEASURE_FIRST:
        asked_for = [refusal for refusal in advice.refused if refusal.answer == Verdict.MEASURE_FIRST]
        return [refusal for refusal in asked_for if refusal.helps] or asked_for
    hopeful = [refusal for refusal in advice.refused if refusal.helps and refusal.is_hopeful]
    return hopeful[:_WAYS_OUT] if advice.answer == Verdict.CANNOT else []


def _why(refusal: Refusal, where: str = "", is_asked: bool = False) -> Text:
    """A cutter, why not, and what would do. `is_asked`: what it stands under says already that it is to be measured."""
    mic = SHORT[Verdict.MEASURE_FIRST] if refusal.answer == Verdict.MEASURE_FIRST and not is_asked else ""
    cutter = joined(", ", [name(refusal.cutter), *filter(None, [where])])
    said_of = said("{why}", why=clauses([refusal.says]))
    whole = joined(": ", [cutter, *filter(None, [mic]), said_of])
    return joined(" ", [whole, Sentence(refusal.fix)]) if refusal.fix else whole


def _runners_up(plans: Sequence[Plan]) -> list[Block]:
    """The plans after the first, a line each; how the work lies where that is another way than for the first."""
    items = tuple(_runner_up(plan, plans[0]) for plan in plans[1:_RUNNERS_UP + 1])
    return [Heading("Would also do"), Bullets(items, 2), *_more(len(plans) - _RUNNERS_UP - 1)] if items else []


def _runner_up(plan: Plan, first: Plan) -> Text:
    count = f"{len(plan.passes)} pass{'' if len(plan.passes) == 1 else 'es'}"
    lying = said("; {how}", how=Head(plan.setup)) if plan.setup != first.setup else ""
    return said("{answer}: {way}{lying}; {cutters}; {cost}", answer=SHORT[plan.answer], way=plan.way, lying=lying,
                cutters=joined(" + ", map(name, plan.cutters)),
                cost=f"{count}, {plan.minutes:.0f} min, {plan.cost:.2f} {plan.currency}")


def _more(number: int) -> Iterable[Paragraph]:
    return [Paragraph(f"and {number} more", indent=2)] if number > 0 else []


def _away(advice: Advice) -> list[Block]:
    """What is owned, isn't there, and would do better."""
    if not advice.away:
        return []
    told = clauses(said("no. {number}, {label}, {says}", number=one["cutter_id"], label=one["label"], says=one["says"])
                   for one in advice.away)
    words = SHORT[advice.away[0]["answer"]]
    return [Paragraph(said("{told} would make it \"{words}\"", told=told, words=words), "Not there", hang=2)]


def _buy(advice: Advice) -> list[Block]:
    says = advice.buy.get("says") if advice.buy else None
    label = "Borrowing" if advice.buy and advice.buy.get("advice") == "borrow" else "Buying"
    return [Paragraph(Sentence(says), label, hang=2)] if says else []


def _refused(advice: Advice, most: int | None) -> list[Block]:
    """Why not with the rest, nearest first, and how many more there are."""
    leading = _leading(advice)
    rest = [refusal for refusal in advice.refused if refusal not in leading]
    shown = rest if most is None else rest[:most]
    more = len(rest) - len(shown) + advice.not_told
    body: list[Block] = [Bullets(tuple(map(_why, shown)))] if shown else []
    body += _more(more)
    return [Heading("Not with these, nearest first"), *body] if body else []
