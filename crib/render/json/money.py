"""What is worth its money, and what to wish for, as the JSON that other programs rely on."""

from __future__ import annotations

from typing import Any

from crib.buying.compare import Worth
from crib.buying.flips import Flip
from crib.buying.wishes import Wish, WishList
from crib.buying.worth import Answer
from crib.planning.told.advice import AnyPlan
from crib.render.json.answer import plain
from crib.shop import Shop


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


def _plan_json(plan: AnyPlan) -> dict[str, Any]:
    return {"way": plan.way, "minutes": plan.minutes, "cost": plan.cost, "scrap_chance": plan.scrap_chance}


def _offer(worth: Worth, uses: float) -> dict[str, Any]:
    offer = worth.offer
    return {
        "what": offer.label, "way": offer.way, "answer": worth.plan.answer, "price": offer.price,
        "shipping": offer.shipping, "saving_per_use": worth.each, "uses_to_break_even": worth.uses_to_break_even,
        "break_even_price": worth.pays_up_to(uses), "source": offer.source, "look_for": offer.ask, "idle": offer.idle,
        "plan": _plan_json(worth.plan),
    }


def wish_json(found: WishList, shop: Shop, budget: float | None) -> dict[str, Any]:
    """The list as JSON."""
    shape = {
        "wishes": [_wish(wish) for wish in found.wishes],
        "budget": budget,
        "currency": shop.currency,
        "chosen": None if found.chosen is None else {
            "what": [wish.label for wish in found.choice], "spends": found.chosen.spent, "saves": found.chosen.saves,
            "opens": found.chosen.unlocks},
        "serves_most": _wish(found.most) if found.most else None,
        "gift": _wish(found.gift) if found.gift else None,
        "needed_by_one_kind": [{"cutter_id": cutter.id, "label": cutter.label, "kind": kind}
                               for cutter, kind in found.only_for],
        "asked": [past.number for past in found.asked],
    }
    tidy: dict[str, Any] = plain(shape, shop.units)
    return tidy


def _wish(wish: Wish) -> dict[str, Any]:
    offer = wish.extra.offer
    return {"what": wish.label, "serves": [past.number for past in wish.serves], "saves": wish.saves,
            "opens": wish.unlocks, "price": offer.price, "shipping": offer.shipping, "look_for": offer.ask,
            "source": offer.source, "idle": offer.idle}
