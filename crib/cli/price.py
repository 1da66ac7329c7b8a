"""`crib price`: prices that you have seen, in your own words. None is built in."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.status import Status
from crib.findings.errors import CribError

if TYPE_CHECKING:
    from crib.store import Crib


def price(
    ctx: typer.Context,
    money: Annotated[str, typer.Argument(help="The price for one, with the shipping behind a plus: 48, 48+9")] = "",
    words: Annotated[list[str] | None, typer.Argument(help="What it is for: 3/8 end mill, 7/16 collet")] = None,
    where: Annotated[str, typer.Option(help="Where it was seen")] = "",
    on: Annotated[str, typer.Option(help="The day on which it was seen; else today", metavar="DAY")] = "",
    drop: Annotated[int | None, typer.Option(help="Take the price with this number away", metavar="N")] = None,
) -> Status:
    """Note a price that was seen, or list those noted. What is worth buying is reckoned with them."""
    from crib.store import open_crib

    asked: Asked = ctx.obj
    if drop is not None and bool(money):
        raise CribError("usage", "a price to note and one to drop don't go together", money, "one of them at a time")
    if drop is None and not money:
        return _show(asked)
    with open_crib(asked.crib, create=bool(money), units=asked.units) as crib:
        if drop is not None:
            crib.cross_out(drop, "price")
        else:
            note_price(crib, money, " ".join(words or []), where, on)
    return _show(asked)


def note_price(crib: Crib, money: str, words: str, where: str = "", on: str = "") -> None:
    """Note a price as it was said, seen today where no day is given. Raises `CribError` for what can't be read."""
    from crib.cli.remembered import today
    from crib.intake.money import read_day, read_price
    from crib.intake.priced import read_collet, read_one
    from crib.store.notes import price_note

    if not words.strip():
        raise CribError("words", "it doesn't say what the price is for", money, "crib price 48 '3/8 end mill'")
    shop = crib.shop()
    each, shipping = read_price(money, shop.currency)
    if not each + shipping:
        raise CribError("price", f"a price of {money.strip()} is none", money,
                        "what it costs; crib take-in it once you have it, crib friends add WHO where it is lent")
    seen = read_day(on, today(), "on", past=True) if on else today()
    collet = read_collet(words, crib.units)
    cutter = None if collet is not None else read_one(words, shop)
    crib.write_down(price_note(words, each, shipping, seen.isoformat(), where, cutter, collet))


def _show(asked: Asked) -> Status:
    from crib.store import open_crib
    from crib.store.notes import cutter_of

    with open_crib(asked.crib, units=asked.units) as crib:
        notes, currency = crib.notes("price"), crib.shop().currency
        named = [cutter_of(note, crib.units) for note in notes]
    rows = [(str(note.id), note.about["seen"], f"{note.about['price']:.2f}",
             f"{note.about['shipping']:.2f}" if note.about["shipping"] else "", cutter.label if cutter else note.words,
             note.words if cutter and cutter.label != note.words else "", note.about["where"])
            for note, cutter in zip(notes, named, strict=True)]
    lines = out.table(("no", "seen", currency, "shipping", "what", "in your words", "where"), rows)
    out.answer(asked, {"prices": [note.as_json() for note in notes], "currency": currency},
               lines if rows else ["no price noted yet"])
    return Status.ANSWERED if rows else Status.NO
