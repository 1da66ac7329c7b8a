"""What to wish for: a table of what each purchase would serve, the best choice within a budget, and the one size."""

from __future__ import annotations

from collections.abc import Iterator

from crib.buying.uses import Past
from crib.buying.wishes import Wish, WishList
from crib.findings.message import Fact, joined, said
from crib.pages.blocks import Align, Block, Blocks, Column, Paragraph, Row, Spacer, Table
from crib.shop import Shop

_SHOWN = 12
_COLUMNS = (
    Column("what", wraps=True), Column("serves questions", importance=1), Column("saves", Align.RIGHT),
    Column("new jobs", Align.RIGHT, 2), Column("price", Align.RIGHT, 3),
)


def wish_page(found: WishList, shop: Shop, budget: float | None, is_all: bool = True) -> Blocks:
    """The page; `is_all`: of all that was asked lately."""
    if not found.asked:
        return (Paragraph("nothing was asked of this crib yet: what it should wish for goes by crib make, once it was "
                          "asked"),)
    if not found.wishes:
        how_far = "asked so far" if is_all else "looked into"
        return (Paragraph(f"{_count(len(found.asked))} {how_far}, and nothing that could be bought gains anything"),
                *_in_part(found))
    return (*_table(found, shop), Spacer(), _choice(found, shop, budget), *_best(found), *_only_for(found),
            *_in_part(found))


def _in_part(found: WishList) -> Iterator[Paragraph]:
    if found.in_part:
        yield Paragraph("Not everything was tried in the time there was: there may be better.")


def _table(found: WishList, shop: Shop) -> Iterator[Block]:
    opens = "; new jobs: those that can't be made without it" if any(wish.unlocks for wish in found.wishes) else ""
    yield Paragraph(f"Wishes, by {_count(len(found.asked))} asked and {shop.years_ahead:g} years ahead (money in "
                    f"{shop.currency}{opens})")
    yield Table(_COLUMNS, tuple(Row(_cells(wish)) for wish in found.wishes[:_SHOWN]), indent=2)
    if len(found.wishes) > _SHOWN:
        yield Paragraph(f"and {len(found.wishes) - _SHOWN} more", indent=2)


def _cells(wish: Wish) -> tuple[Fact, ...]:
    idle = f" ({wish.extra.offer.idle} idle)" if wish.extra.offer.idle else ""
    return (said("{label}{idle}", label=wish.label, idle=idle), ", ".join(str(past.number) for past in wish.serves),
            f"{wish.saves:.2f}" if wish.saves else "", f"{wish.unlocks:.1f}" if wish.unlocks else "",
            f"{wish.spent:.2f}" if wish.spent is not None else "")


def _choice(found: WishList, shop: Shop, budget: float | None) -> Paragraph:
    within = "" if budget is None else f" within {budget:.2f} {shop.currency}"
    text: Fact = f"nothing{within}: of what has a price nothing pays for itself."
    if found.chosen is None:
        text = "no price was seen for any of them (crib price): each is worth what it saves."
    elif found.choice:
        opens = f", makes {found.chosen.unlocks:.1f} jobs that can't be made now" if found.chosen.unlocks else ""
        money = f"spends {found.chosen.spent:.2f}, saves {found.chosen.saves:.2f}"
        names = joined(" and ", (said("the {label}", label=wish.label) for wish in found.choice))
        text = said("{names}{within}: {money}{opens}; no other choice leaves more.", names=names, within=within,
                    money=money, opens=opens)
    return Paragraph(text, "Choose", hang=2)


def _best(found: WishList) -> Iterator[Paragraph]:
    for label, wish in (("Serves most of your work", found.most), ("The gift that would do most new jobs", found.gift)):
        if wish is not None:
            text = said("the {label}, for {them}.", label=wish.label, them=_numbers(wish.serves))
            yield Paragraph(text, label, hang=2)


def _only_for(found: WishList) -> Iterator[Paragraph]:
    if found.only_for:
        told = "; ".join(f"no. {cutter.id}, {cutter.label} ({kind})" for cutter, kind in found.only_for)
        yield Paragraph(told + ".", "Needed by one kind of work only", hang=2)


def _count(number: int) -> str:
    return f"{number} question{'' if number == 1 else 's'}"


def _numbers(asked: tuple[Past, ...]) -> str:
    return ("question " if len(asked) == 1 else "questions ") + ", ".join(str(past.number) for past in asked)
