"""Money and days as they are typed."""

from __future__ import annotations

import re
from datetime import date

from crib.findings.errors import CribError
from crib.findings.message import counted
from crib.light.patterns import pattern

_SIGNS = {"$": "USD", "€": "EUR", "£": "GBP"}
_MOST_MONEY = 1e6
_MOST_DAYS = 3650
_DAYS_A_YEAR = 365
_MONEY = pattern(r"([$€£])?\s*(?:([a-z]{3})\s+)?([-+\d.,]+)\s*([$€£]|[a-z]{3})?", re.IGNORECASE)


def read_money(text: str, currency: str, name: str = "price") -> float:
    """An amount in the crib's currency: `48`, `48.50`, `$48`, `48 USD`. Raises `CribError`, for another currency too.

    >>> read_money("$8.50", "USD"), read_money("48 usd", "USD")
    (8.5, 48.0)
    """
    found = _MONEY.fullmatch(text.strip())
    what = "an amount of money up to a million"
    if found is None:
        raise CribError("money", f"{name} {text.strip()!r} is not {what}", text, f"48, 48.50 or 48 {currency}")
    for said in (found[1], found[2], found[4]):
        code = _SIGNS.get(said, said.upper()) if said else currency
        if code != currency:
            raise CribError("currency", f"{name} {text.strip()!r} is in {code}, the crib's money is {currency}", text,
                            f"what it comes to in {currency}, or crib shop --currency {code} for the whole crib")
    return _number(found[3], name, 0, _MOST_MONEY, what)


def read_price(text: str, currency: str) -> tuple[float, float]:
    """A price, and the shipping behind a plus: `48+9`. Raises `CribError`.

    >>> read_price("48+9", "USD"), read_price("48", "USD")
    ((48.0, 9.0), (48.0, 0.0))
    """
    price, _, shipping = text.partition("+")
    return read_money(price, currency), read_money(shipping, currency, "shipping") if shipping else 0.0


def read_day(text: str, today: date, name: str, past: bool) -> date:
    """A day as ISO 8601 has it, not after today where it is `past`, else not before it. Raises `CribError`."""
    try:
        day = date.fromisoformat(text.strip())
    except ValueError:
        raise CribError("date", f"{name} {text.strip()!r} is not a day", text,
                        f"year, month and day: {today.isoformat()}") from None
    if past and day > today:
        raise CribError("date", f"{name} {day.isoformat()} is still to come", text, "the day on which it was")
    if not past and day < today:
        raise CribError("date", f"{name} {day.isoformat()} is past", text, "a day to come, or days from now")
    return day


def read_uses(text: str, years_ahead: float) -> float:
    """How often something will be wanted, in the years that are looked ahead. Raises `CribError`."""
    uses = _number(text, "uses", 1, _MOST_MONEY, "how many times it will be wanted, this time with them")
    years = max(1.0, years_ahead)
    if uses > _DAYS_A_YEAR * years:
        raise CribError("uses", f"{uses:g} uses are more than one a day in {counted(years, 'year')}", text,
                        "as many as you expect, or crib shop --years-ahead for a longer outlook")
    return uses


def read_deadline(text: str, today: date) -> float:
    """Days that there are, or the days until the day that is said. Raises `CribError`."""
    if "-" in text.strip()[1:]:
        return float((read_day(text, today, "deadline", past=False) - today).days)
    if text.strip().startswith("-"):
        raise CribError("deadline", f"deadline {text.strip()} is past", text, "days from now, or a day to come")
    return read_days(text, "deadline")


def read_days(text: str, name: str) -> float:
    """A number of days. Raises `CribError`."""
    return _number(text.strip().removesuffix("days").removesuffix("day"), name, 0, _MOST_DAYS, "a number of days")


def _number(text: str, name: str, low: float, high: float, what: str) -> float:
    """A number between two. Raises `CribError`."""
    from crib.intake.attributes import read_number  # only where any is said

    return read_number(text, name, low, high, what)
