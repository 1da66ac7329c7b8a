"""What an owner notes beside the cutters: prices seen, and what friends would lend."""

from __future__ import annotations

from crib.app.remembered import today
from crib.cutters.base import Cutter
from crib.findings.errors import CribError
from crib.intake.attributes import read_value
from crib.intake.money import read_day, read_price
from crib.intake.priced import read_collet, read_one
from crib.store import Crib, Note
from crib.store.notes import cutter_of, lent_note, price_note

Noted = tuple[Note, Cutter | None]
"""A note with the cutter that it is of."""


def prices(crib: Crib) -> list[Noted]:
    """The prices seen, each with the cutter that it is for."""
    return [(note, cutter_of(note, crib.units)) for note in crib.notes("price")]


def note_price(crib: Crib, money: str, words: str, where: str = "", on: str = "") -> None:
    """Note a price as it was said, seen today where no day is given. Raises `CribError` for what can't be read."""
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


def drop_price(crib: Crib, number: int) -> None:
    """Take a price away. Raises `CribError` where there is none of that number."""
    crib.cross_out(number, "price")


def friends(crib: Crib) -> list[tuple[Note, Cutter]]:
    """What friends would lend."""
    return [(note, cutter) for note in crib.notes("lent") if (cutter := cutter_of(note, crib.units)) is not None]


def note_friend(crib: Crib, friend: str, words: str) -> None:
    """Note a cutter that a friend would lend, in shop words. Raises `CribError`."""
    name = read_value("note", friend, crib.units)
    crib.write_down(lent_note(words, name, read_one(words, crib.shop())))


def drop_friend(crib: Crib, number: int) -> None:
    """Take a friend's cutter off the list. Raises `CribError` where there is none of that number."""
    crib.cross_out(number, "lent")
