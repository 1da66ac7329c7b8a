"""`crib price`: prices that you have seen, in your own words. None is built in."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.later import typer
from crib.cli.status import Status
from crib.findings.errors import CribError

if TYPE_CHECKING:
    from crib.app.opening import Crib


def price(
    ctx: typer.Context,
    money: Annotated[str, typer.Argument(help="The price for one, with the shipping behind a plus: 48, 48+9")] = "",
    words: Annotated[list[str] | None, typer.Argument(help="What it is for: 3/8 end mill, 7/16 collet")] = None,
    where: Annotated[str, typer.Option(help="Where it was seen")] = "",
    on: Annotated[str, typer.Option(help="The day on which it was seen; else today", metavar="DAY")] = "",
    drop: Annotated[int | None, typer.Option(help="Take the price with this number away", metavar="N")] = None,
) -> Status:
    """Note a price that was seen, or list those noted. What is worth buying is reckoned with them."""
    from crib.app import notes

    asked: Asked = ctx.obj
    if drop is not None and bool(money):
        raise CribError("usage", "a price to note and one to drop don't go together", money, "one of them at a time")
    with asked.open(create=bool(money)) as crib:
        if drop is not None:
            notes.drop_price(crib, drop)
        elif money:
            notes.note_price(crib, money, " ".join(words or []), where, on)
        return _show(asked, crib)


def _show(asked: Asked, crib: Crib) -> Status:
    from crib.app import notes

    noted, currency = notes.prices(crib), crib.shop().currency
    rows = [(str(note.id), note.about["seen"], f"{note.about['price']:.2f}",
             f"{note.about['shipping']:.2f}" if note.about["shipping"] else "", cutter.label if cutter else note.words,
             note.words if cutter and cutter.label != note.words else "", note.about["where"])
            for note, cutter in noted]
    lines = out.table(("no", "seen", currency, "shipping", "what", "in your words", "where"), rows)
    out.answer(asked, {"prices": [note.as_json() for note, _ in noted], "currency": currency},
               lines if rows else ["no price noted yet"])
    return Status.ANSWERED if rows else Status.NO
