"""The whole page for an answer: the verdict first, then the best plan, other plans, and why not with the rest."""

from __future__ import annotations

from collections.abc import Sequence

from crib.planning.advice import WORDS, Advice, Plan, Refusal
from crib.sheets.plan_sheet import name, place, plan_sheet
from crib.sheets.scene import Scene
from crib.sheets.text import exact, join, paragraph, sentence

_REFUSED = 6
_RUNNERS_UP = 4


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
    head = paragraph(asked(advice, units), width) + verdict(advice, units, width)
    if advice.answer == "refer":
        return head
    best = advice.plans[0] if advice.plans else None
    scene = scenes[0] if scenes else None
    blocks = [head]
    if advice.answer in ("measure first", "cannot"):
        blocks.append(_ways_out(advice, units, width))
    if best:
        blocks += [plan_sheet(best, scene, advice.assumed, units, width, lines), _care(advice, width)]
    elif advice.assumed:
        blocks.append(paragraph(join(advice.assumed), width, "Assumed: ", 2))
    blocks += [_runners_up(advice.plans[1:], units, width), _buy(advice, width), _refused(advice, units, width, refused)]
    return [line for number, block in enumerate(b for b in blocks if b) for line in ([""] if number else []) + block]


def asked(advice: Advice, units: str) -> str:
    """What was asked, in a line: `t-slot, throat .625, depth .520, grey iron`."""
    sizes = [
        f"{key[:-3].replace('_', ' ')} {exact(value, units)}"
        for key, value in advice.feature.items()
        if key.endswith("_mm") and isinstance(value, int | float)
    ]
    material = advice.feature.get("material")
    return ", ".join([str(advice.feature.get("kind", "")), *sizes, *([str(material)] if material else [])])


def verdict(advice: Advice, units: str, width: int) -> list[str]:
    """The answer in words, and the one sentence that decides."""
    words = WORDS[advice.answer]
    says = advice.says or (_proved(advice.plans[0], units) if advice.plans else "")
    return [*paragraph(words.upper(), width), *paragraph(sentence(says), width)]


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
    if advice.answer == "measure first":
        wanted = [refusal for refusal in advice.refused if refusal.answer == "measure first"]
        title, texts = "Mic first", [_to_mic(refusal, units) for refusal in wanted]
    else:
        wanted = [refusal for refusal in advice.refused if refusal.fix][:3]
        title, texts = "What would do", [f"{name(r.cutter, units)}: {sentence(r.fix or '')}" for r in wanted]
    body = [line for text in texts for line in paragraph(text, width, "  - ", 4)]
    return [title, *body] if body else []


def _to_mic(refusal: Refusal, units: str) -> str:
    drawer = f", {place(refusal.cutter)}" if refusal.cutter.drawer else ""
    fix = " " + sentence(refusal.fix) if refusal.fix else ""
    return f"{name(refusal.cutter, units)}{drawer}: {refusal.says.rstrip('.')}.{fix}"


def _care(advice: Advice, width: int) -> list[str]:
    """What can hurt hands, eyes and slides."""
    out = [line for text in advice.cautions for line in paragraph(sentence(text), width, "  - ", 4)]
    return ["Take care", *out] if out else []


def _runners_up(plans: Sequence[Plan], units: str, width: int) -> list[str]:
    """The other plans, a line each."""
    out = []
    for number, plan in enumerate(plans[:_RUNNERS_UP], start=2):
        cutters = " + ".join(name(cutter, units) for cutter in plan.cutters)
        text = f"{plan.way}: {cutters}; {len(plan.passes)} passes, {plan.minutes:.0f} min, {plan.cost:.2f} {plan.currency}"
        out += paragraph(f"{text} ({plan.answer})", width, f"  {number}. ", 5)
    if len(plans) > _RUNNERS_UP:
        out.append(f"  and {len(plans) - _RUNNERS_UP} more")
    return ["Would also do", *out] if out else []


def _buy(advice: Advice, width: int) -> list[str]:
    says = advice.buy.get("says") if advice.buy else None
    return paragraph(sentence(str(says)), width, "Buying: ", 2) if says else []


def _refused(advice: Advice, units: str, width: int, most: int | None) -> list[str]:
    """Why not with the rest, nearest first, and how many more there are."""
    told = [r for r in advice.refused if not (advice.answer == "measure first" and r.answer == "measure first")]
    shown = told if most is None else told[:most]
    out = []
    for refusal in shown:
        lead = "mic first: " if refusal.answer == "measure first" else ""
        fix = " " + sentence(refusal.fix) if refusal.fix else ""
        out += paragraph(f"{name(refusal.cutter, units)}: {lead}{refusal.says.rstrip('.')}.{fix}", width, "  - ", 4)
    if len(told) > len(shown):
        out.append(f"  and {len(told) - len(shown)} more")
    return ["Not with these, nearest first", *out] if out else []
