"""The whole page for an answer: the verdict first, then the best plan, other plans, and why not with the rest."""

from __future__ import annotations

from collections.abc import Sequence

from crib.findings.finding import NO_CHANGE
from crib.findings.verdicts import WORDS
from crib.pages.plan_sheet import name, plan_sheet
from crib.pages.remarks import place
from crib.pages.scene import Scene
from crib.pages.text import as_ascii, exact, join, paragraph, sentence
from crib.planning.advice import Advice, Plan, Refusal
from crib.render.words import worded, words

_REFUSED = 6
_WAYS_OUT = 3
_RUNNERS_UP = 4
_ENDS = {"one": ("one end closed",), "closed": ("both ends closed",)}


def page(
    advice: Advice,
    scenes: Sequence[Scene | None] = (),
    units: str = "in",
    width: int = 100,
    lines: bool = True,
    refused: int | None = _REFUSED,
) -> list[str]:
    """The page as lines of at most `width` characters.

    `scenes`: the picture of each plan, in the plans' order; only the best one is drawn. `lines`: box lines and blocks,
    else plain ASCII. `refused`: how many refused cutters to show, or None for all.
    """
    head = verdict(advice, units, width) + paragraph(asked(advice, units), width, "Asked: ", 2)
    if advice.answer == "refer":
        return head if lines else [part for line in head for part in as_ascii(line, width)]
    best = advice.plans[0] if advice.plans else None
    scene = scenes[0] if scenes else None
    blocks = [head]
    if advice.answer in ("measure first", "cannot"):
        blocks.append(_ways_out(advice, units, width))
    blocks.append(_changes(advice, units, width))
    if best:
        blocks += [plan_sheet(best, scene, advice.assumed, units, width, lines), _care(advice, width)]
    elif advice.assumed:
        blocks.append(paragraph(join(worded(advice.assumed, units)), width, "Assumed: ", 2))
    blocks += [_runners_up(advice.plans, units, width), _away(advice, width), _buy(advice, width)]
    blocks.append(_refused(advice, units, width, refused))
    rows = [line for number, block in enumerate(b for b in blocks if b) for line in ([""] if number else []) + block]
    return rows if lines else [part for line in rows for part in as_ascii(line, width)]


def asked(advice: Advice, units: str) -> str:
    """What was asked, in a line: `t-slot, throat .625, depth .520, grey iron`."""
    typed = advice.feature.get("typed", {})
    sizes = [
        f"{key[:-3].replace('_', ' ')} {typed.get(key[:-3]) or exact(value, units)}"
        for key, value in advice.feature.items()
        if key.endswith("_mm") and isinstance(value, int | float)
    ]
    angles = [f"{key[:-4]} {value:g}°" for key, value in advice.feature.items() if key.endswith("_deg")]
    words = [str(advice.feature[key]) for key in ("material", "hardness") if advice.feature.get(key)]
    ends = _ENDS.get(advice.feature.get("ends", ""), ())
    walls = [f"a wall {exact(wall['height_mm'], units)} high at {exact(wall['distance_mm'], units)}"
             for wall in advice.feature.get("walls", ())]
    fits = [f"to fit {advice.feature['mating']}"] if advice.feature.get("mating") else []
    return ", ".join([str(advice.feature.get("kind", "")), *ends, *angles, *sizes, *words, *fits, *walls])


def verdict(advice: Advice, units: str, width: int) -> list[str]:
    """The answer in words, and the one sentence that decides."""
    says = words(advice.says, units) or (_proved(advice.plans[0], units) if advice.plans else "")
    return [*paragraph(WORDS[advice.answer], width, "Answer: ", 2), *paragraph(sentence(says), width)]


def _proved(plan: Plan, units: str) -> str:
    """Why the best plan holds, with its numbers."""
    proof = plan.proof
    left = "leaves nothing standing" if proof.left_mm <= 1e-4 else f"leaves {exact(proof.left_mm, units)} standing"
    gouge = "cuts nothing it should not" if proof.gouge_mm <= 1e-4 else f"cuts {exact(proof.gouge_mm, units)} too deep"
    gap = proof.neck_gap_mm
    clear = [] if gap is None else [f"clears by {exact(gap, units)} at the tightest"]
    return f"{plan.way}: " + ", ".join([left, gouge, *clear])


def _ways_out(advice: Advice, units: str, width: int) -> list[str]:
    """What to mic, or the nearest changes that would do."""
    asked = advice.answer == "measure first"
    title = "Mic first" if asked else "What would do, nearest first"
    body = [line for refusal in _leading(advice) for line in _why(refusal, units, width, place(refusal.cutter), asked)]
    return [title, *body] if body else []


def _changes(advice: Advice, units: str, width: int) -> list[str]:
    """What change of the drawing would do, the smallest first, each with the plan that it lets in."""
    if advice.changes is None:
        return []
    out = []
    for one in advice.changes:
        angle = f"{one.key}_deg" in advice.feature
        before, after = (f"{value:g}°" if angle else exact(value, units) for value in (one.before, one.after))
        what = f"{one.key.replace('_', ' ')} {after} instead of {before}"
        out += paragraph(f"{what}: {one.plan.answer}, {one.plan.way}", width, "  - ", 4)
    return ["With a change of the drawing, the smallest first",
            *(out or ["  no change of one size by up to a quarter would do"])]


def _leading(advice: Advice) -> list[Refusal]:
    """The refusals that are told before all else, because they hold the way on."""
    if advice.answer == "measure first":
        asked_for = [refusal for refusal in advice.refused if refusal.answer == "measure first"]
        return [refusal for refusal in asked_for if refusal.helps] or asked_for
    hopeful = [refusal for refusal in advice.refused
               if refusal.helps and refusal.fix and refusal.fix != NO_CHANGE and refusal.rule != "KD1"]
    return hopeful[:_WAYS_OUT] if advice.answer == "cannot" else []


def _why(refusal: Refusal, units: str, width: int, where: str = "", is_asked: bool = False) -> list[str]:
    """A cutter, why not, and what would do. `is_asked`: what it stands under says already that it is to be measured."""
    cutter = ", ".join(part for part in (name(refusal.cutter, units), where) if part)
    lead = "mic first: " if refusal.answer == "measure first" and not is_asked else ""
    fix = " " + sentence(words(refusal.fix, units)) if refusal.fix else ""
    return paragraph(f"{cutter}: {lead}{words(refusal.says, units).rstrip('.')}.{fix}", width, "  - ", 4)


def _care(advice: Advice, width: int) -> list[str]:
    """What can hurt hands, eyes and slides."""
    out = [line for text in advice.cautions for line in paragraph(sentence(text), width, "  - ", 4)]
    return ["Take care", *out] if out else []


def _runners_up(plans: Sequence[Plan], units: str, width: int) -> list[str]:
    """The plans after the first, a line each; how the work lies where that is another way than for the first."""
    out = []
    for number, plan in enumerate(plans[1:_RUNNERS_UP + 1], start=2):
        cutters = " + ".join(name(cutter, units) for cutter in plan.cutters)
        count = len(plan.passes)
        cost = f"{count} pass{'' if count == 1 else 'es'}, {plan.minutes:.0f} min, {plan.cost:.2f} {plan.currency}"
        lying = f"; {plan.setup.split(',')[0]}" if plan.setup != plans[0].setup else ""
        out += paragraph(f"{plan.answer}: {plan.way}{lying}; {cutters}; {cost}", width, f"  {number}. ", 5)
    if len(plans) > _RUNNERS_UP + 1:
        out.append(f"  and {len(plans) - _RUNNERS_UP - 1} more")
    return ["Would also do", *out] if out else []


def _away(advice: Advice, width: int) -> list[str]:
    """What is owned, isn't there, and would do better."""
    said = [f"no. {one['cutter_id']}, {one['label']}, {one['says']}" for one in advice.away]
    if not said:
        return []
    return paragraph(f"{join(said)} would make it \"{WORDS[advice.away[0]['answer']]}\"", width, "Not there: ", 2)


def _buy(advice: Advice, width: int) -> list[str]:
    says = advice.buy.get("says") if advice.buy else None
    lead = "Borrowing: " if advice.buy and advice.buy.get("advice") == "borrow" else "Buying: "
    return paragraph(sentence(str(says)), width, lead, 2) if says else []


def _refused(advice: Advice, units: str, width: int, most: int | None) -> list[str]:
    """Why not with the rest, nearest first, and how many more there are."""
    leading = _leading(advice)
    rest = [refusal for refusal in advice.refused if refusal not in leading]
    shown = rest if most is None else rest[:most]
    out = [line for refusal in shown for line in _why(refusal, units, width)]
    if more := len(rest) - len(shown) + advice.not_told:
        out.append(f"  and {more} more")
    return ["Not with these, nearest first", *out] if out else []
