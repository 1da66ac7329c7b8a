"""Whether it is worth the money: the answer in a line, both plans, what turns it, and all that could be got."""

from __future__ import annotations

from collections.abc import Sequence
from math import inf
from typing import Any

from crib.buying.compare import CENT, Worth
from crib.buying.decide import Decision
from crib.buying.flips import Flip
from crib.buying.worth import Answer
from crib.findings.verdicts import WORDS
from crib.pages.as_json import plain
from crib.pages.text import columns, paragraph, sentence
from crib.planning.advice import Plan

ADVICE_WORDS = {
    "buy": "worth buying",
    "borrow": "borrow it",
    "grind": "grind one up",
    "regrind": "have it reground",
    "neighbour": "do it where they have the cutter",
    "work around": "work around with what you own",
}
_TURNS = {"price": "a price of {at}", "uses": "{at} uses", "hour": "{at} for an hour"}
_SHOWN = 8


def worth_page(found: Answer, currency: str, units: str, width: int = 100) -> list[str]:
    """The page as lines of at most `width` characters."""
    decision, near = found.decision, found.decision.worth
    unmade = found.work is None and (near is None or found.verdict == "measure first")
    words = WORDS[found.verdict] if unmade else _advised(decision)
    head = paragraph(words, width, "Answer: ", 2) + paragraph(sentence(decision.says), width)
    blocks = [head, _turns(found, currency, width), _plans(found, near, currency, width),
              _table(found, currency, width), _uses(found, width)]
    return [line for number, block in enumerate(b for b in blocks if b) for line in ([""] if number else []) + block]


def _advised(decision: Decision) -> str:
    """The advice in words: by its way, where that has words of its own."""
    way = decision.worth.offer.way if decision.worth and decision.advice != "work around" else ""
    return ADVICE_WORDS.get(way) or ADVICE_WORDS[decision.advice]


def _turns(found: Answer, currency: str, width: int) -> list[str]:
    """Where the answer flips."""
    out, near = [], found.decision.worth
    for flip in found.flips:
        at = _TURNS[flip.what].format(at=f"{flip.at:.0f}" if flip.what == "uses" else f"{flip.at:.2f} {currency}")
        if flip.what == "price" and near is not None and near.offer.shipping:
            at += f" and {near.offer.shipping:.2f} shipping"
        side = "from" if flip.what == "uses" else "above"
        out += paragraph(f"{at}: {side} it {flip.above}, below it {flip.below}", width, "  - ", 4)
    remark = paragraph(sentence(found.remark), width) if found.remark else []
    return [*(["What would turn it", *out] if out else []), *remark]


def _plans(found: Answer, near: Worth | None, currency: str, width: int) -> list[str]:
    """The work-around, and the plan with what could be got."""
    out = []
    if found.work is not None:
        out += paragraph(_plan(found.work, currency), width, "With what you own: ", 2)
    else:
        out += paragraph(WORDS[found.verdict] + ".", width, "With what you own: ", 2)
    if near is not None:
        out += paragraph(_plan(near.plan, currency), width, f"With {near.offer.named}: ", 2)
        if near.offer.ask:
            out += paragraph(sentence(near.offer.ask), width, "Look for: ", 2)
    return out


def _plan(plan: Plan, currency: str) -> str:
    return f"{WORDS[plan.answer]}; {plan.minutes:.0f} min, {plan.cost:.2f} {currency}: {plan.way}."


def _table(found: Answer, currency: str, width: int) -> list[str]:
    """What could be got, best first."""
    near = found.decision.worth
    gaining = [worth for worth in found.worths if worth.each is None or worth.each > CENT or worth == near]
    if not gaining:
        return []
    rows = [("  what", "way", "saves", "price", "pays after", "up to"), *map(_row(found), gaining[:_SHOWN])]
    more = [f"  and {len(gaining) - _SHOWN} more"] if len(gaining) > _SHOWN else []
    head = f"Could be got (money in {currency}; price, and up to which it pays: both with the shipping noted)"
    return [*paragraph(head, width), *(line[:width] for line in columns(rows, frozenset({2, 3, 4, 5}))), *more,
            *paragraph(_wear(gaining), width)]


def _wear(worths: Sequence[Worth]) -> str:
    """The share of its price that a use wears off a bought cutter, where it is counted."""
    shares = sorted({worth.offer.wear for worth in worths if worth.offer.wear and worth.free is not None})
    if not shares:
        return ""
    counted = " or ".join(f"{100 * share:g} %" for share in shares)
    return (f"Wear counted: {counted} of the price a use, in what it pays up to, and in what it saves where a price is "
            "known.")


def _row(found: Answer) -> Any:
    def row(worth: Worth) -> tuple[str, ...]:
        offer, pays = worth.offer, worth.uses_to_break_even
        is_bought = offer.way in ("buy", "holder", "regrind")
        up_to = worth.pays_up_to(found.terms.uses) if is_bought else None
        spent = offer.price + offer.shipping if offer.price is not None and is_bought else None
        return (f"  {offer.label}" + (f" ({offer.idle} idle)" if offer.idle else ""),
                {"holder": "buy"}.get(offer.way, offer.way), _money(worth.each), _money(spent),
                "" if pays is None or not worth.spent else "never" if pays == inf else f"{pays:.1f} uses",
                _money(up_to + offer.shipping if up_to else None))

    return row


def _money(value: float | None) -> str:
    return "" if value is None else f"{value:.2f}"


def _uses(found: Answer, width: int) -> list[str]:
    if not found.served:
        return []
    numbers = ", ".join(str(past.number) for past in found.served)
    why = "as you say" if found.terms.said else "this one, and what may come as it did before"
    return paragraph(f"{found.terms.uses:.1f}: {why}; it would have served "
                     f"question{'s' if len(found.served) > 1 else ''} {numbers}.", width, "Uses expected: ", 2)


def worth_json(found: Answer, currency: str, units: str) -> dict[str, Any]:
    """The answer as JSON: money as numbers, what isn't known null."""
    near = found.decision.worth
    shape = {
        "advice": found.decision.advice,
        "says": found.decision.says,
        "what": near.offer.label if near else None,
        "price": near.offer.price if near else None,
        "shipping": near.offer.shipping if near else None,
        "currency": currency,
        "saving_per_use": near.each if near else None,
        "uses_to_break_even": near.uses_to_break_even if near else None,
        "expected_uses": found.terms.uses,
        "break_even_price": near.pays_up_to(found.terms.uses) if near else None,
        "turns": [_flip(flip) for flip in found.flips],
        "now": {"answer": found.verdict, **(_plan_json(found.work) if found.work else {})},
        "with_it": {"answer": near.plan.answer, **_plan_json(near.plan)} if near else None,
        "offers": [_offer(worth, found.terms.uses) for worth in found.worths],
        "served": [past.number for past in found.served],
        "remark": found.remark,
    }
    tidy: dict[str, Any] = plain(shape, units)
    return tidy


def _flip(flip: Flip) -> dict[str, Any]:
    return {"what": flip.what, "at": flip.at, "below": flip.below, "above": flip.above}


def _plan_json(plan: Plan) -> dict[str, Any]:
    return {"way": plan.way, "minutes": plan.minutes, "cost": plan.cost, "scrap_chance": plan.scrap_chance}


def _offer(worth: Worth, uses: float) -> dict[str, Any]:
    offer = worth.offer
    return {
        "what": offer.label, "way": offer.way, "answer": worth.plan.answer, "price": offer.price,
        "shipping": offer.shipping, "saving_per_use": worth.each, "uses_to_break_even": worth.uses_to_break_even,
        "break_even_price": worth.pays_up_to(uses), "source": offer.source, "look_for": offer.ask, "idle": offer.idle,
        "plan": _plan_json(worth.plan),
    }
