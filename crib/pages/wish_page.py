"""What to wish for: a table of what each purchase would serve, the best choice within a budget, and the one size."""

from __future__ import annotations

from typing import Any

from crib.buying.uses import Past
from crib.buying.wishes import Wish, WishList
from crib.pages.as_json import plain
from crib.pages.text import columns, paragraph
from crib.shop import Shop

_SHOWN = 12


def wish_page(found: WishList, shop: Shop, budget: float | None, width: int = 100) -> list[str]:
    """The page as lines of at most `width` characters."""
    if not found.asked:
        return paragraph("nothing was asked of this crib yet: what it should wish for goes by crib make, once it was "
                         "asked", width)
    if not found.wishes:
        return paragraph(f"{_count(len(found.asked))} asked so far, and nothing that could be bought gains anything",
                         width)
    rows = [("  what", "serves questions", "saves", "opens", "price"), *(_row(wish) for wish in found.wishes[:_SHOWN])]
    more = [f"  and {len(found.wishes) - _SHOWN} more"] if len(found.wishes) > _SHOWN else []
    title = (f"Wishes, by {_count(len(found.asked))} asked and {shop.years_ahead:g} years ahead (money in "
             f"{shop.currency}; opens: jobs that can't be made without)")
    table = [*paragraph(title, width), *columns(rows, frozenset({2, 3, 4})), *more]
    return [*table, "", *_choice(found, shop, budget, width), *_best(found, width), *_only_for(found, width)]


def _row(wish: Wish) -> tuple[str, ...]:
    return (f"  {wish.label}" + (f" ({wish.extra.offer.idle} idle)" if wish.extra.offer.idle else ""),
            ", ".join(str(past.number) for past in wish.serves), f"{wish.saves:.2f}" if wish.saves else "",
            f"{wish.unlocks:.1f}" if wish.unlocks else "", f"{wish.spent:.2f}" if wish.spent is not None else "")


def _choice(found: WishList, shop: Shop, budget: float | None, width: int) -> list[str]:
    within = "" if budget is None else f" within {budget:.2f} {shop.currency}"
    if found.chosen is None:
        return paragraph("no price was seen for any of them (crib price): each is worth what it saves.", width,
                         "Choose: ", 2)
    if not found.choice:
        return paragraph(f"nothing{within}: of what has a price nothing pays for itself.", width, "Choose: ", 2)
    names = " and ".join(f"the {wish.label}" for wish in found.choice)
    opens = f", opens {found.chosen.unlocks:.1f} jobs" if found.chosen.unlocks else ""
    money = f"spends {found.chosen.spent:.2f}, saves {found.chosen.saves:.2f}"
    return paragraph(f"{names}{within}: {money}{opens}; no other choice leaves more.", width, "Choose: ", 2)


def _best(found: WishList, width: int) -> list[str]:
    lines = []
    if found.most is not None:
        lines += paragraph(f"the {found.most.label}, for {_numbers(found.most.serves)}.", width,
                           "Serves most of your work: ", 2)
    if found.gift is not None:
        lines += paragraph(f"the {found.gift.label}, for {_numbers(found.gift.serves)}.", width,
                           "The gift that would open most: ", 2)
    return lines


def _only_for(found: WishList, width: int) -> list[str]:
    if not found.only_for:
        return []
    said = "; ".join(f"no. {cutter.id}, {cutter.label} ({kind})" for cutter, kind in found.only_for)
    return paragraph(said + ".", width, "Needed by one kind of work only: ", 2)


def _count(number: int) -> str:
    return f"{number} question{'' if number == 1 else 's'}"


def _numbers(asked: tuple[Past, ...]) -> str:
    return ("question " if len(asked) == 1 else "questions ") + ", ".join(str(past.number) for past in asked)


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
