"""`crib worth KIND`: buy, borrow, grind or work around, and what would turn the answer."""

from __future__ import annotations

from crib.app.kinds import words_of
from crib.cli import kinds, out
from crib.cli.asked import Asked
from crib.cli.declared import Command, Slot
from crib.cli.later import typer
from crib.cli.status import Status
from crib.light.hints import Annotated, Any

_TERMS = (
    Slot("price", "price", "Price of what would save most, its shipping behind a plus: 48+9", "MONEY"),
    Slot("shipping", "shipping", "What it costs to get it here", "MONEY"),
    Slot("uses", "uses", "How often it will be wanted, this time with them; else from what was asked", "N"),
    Slot("wait", "wait", "Days until it is here", "DAYS"),
    Slot("deadline", "deadline", "Days that there are, or the day itself", "DAYS|DAY"),
    Slot("day_cost", "day-cost", "What a day of waiting costs, the machine standing", "MONEY"),
    Slot("cutter", "cutter", "Only this cutter, in shop words, of all that could be bought", "WORDS"),
)


def _command(name: str) -> Command:
    def worth(
        ctx: typer.Context,
        *,
        texts: dict[str, str],
        accept: Annotated[bool, typer.Option("--accept", help="What the work-around gives away will do")] = False,
    ) -> Status:
        return answer(ctx.obj, name, texts, accept)

    return kinds.command(name, worth, f"Whether something is worth buying for {words_of(name)}, or what else to do.",
                         more=_TERMS)


app = kinds.group("Ask whether something is worth buying for a feature.", _command)


def answer(asked: Asked, name: str, texts: dict[str, str], accept: bool) -> Status:
    """Reckon with everything that could be got, print the answer."""
    from crib.app.worth import Reckoned, worth
    from crib.cli.progress import trials
    from crib.cli.reply import remember, show
    from crib.pages.worth_page import worth_page

    def document() -> dict[str, Any]:
        from crib.render.json.money import worth_json

        return worth_json(found, shop.currency, shop.units)

    with asked.open() as crib:
        with trials(crib.units, not asked.json) as row:
            reply = worth(crib, name, texts, accept, row)
        if not isinstance(reply, Reckoned):
            show(asked, reply, None)
            remember(crib, reply)
            return Status.NO
    found, shop = reply.found, reply.shop
    out.answer(asked, document, lambda: out.shown(worth_page(found, shop.currency), shop.units))
    return Status.ANSWERED if found.work is not None or found.decision.worth is not None else Status.NO
