"""What would turn the answer: the price, the number of uses, the worth of an hour at which it flips, each in closed
form and confirmed by asking again on both sides of it."""

from __future__ import annotations

from collections.abc import Callable
from math import ceil, floor, inf

from crib.buying.compare import Bill, Stake
from crib.light.records import dataclass

_ASIDE = 1e-3
"""How far on each side of a flip point it is asked again, as a share of it."""

_MOST_STEPS = 12
_LARGEST = 1e6


@dataclass(frozen=True)
class Flip:
    """Where the answer turns: `what` is price, uses or hour; below `at` it is `below`, above it `above`."""

    what: str
    at: float
    below: str
    above: str


def hour_at(work: Bill, right: Bill, stake: Stake, uses: float, spent: float, minutes: float = 0.0) -> float | None:
    """The worth of an hour at which `uses` savings come to what is spent once, money and minutes.

    N ((T_w - T_r) / 60 V + dP (V h + blank) + dwear) = spent + minutes / 60 V. None where no V does.

    >>> round(hour_at(Bill(55, 0.06, 2), Bill(0, 0.02, 1), Stake(20, 14), 1, 57) or 0, 2)
    37.92
    """
    chance = work.scrap - right.scrap
    by_hour = uses * ((work.minutes - right.minutes) / 60 + chance * stake.hours) - minutes / 60
    beside = uses * (chance * stake.blank + work.wear - right.wear) - spent
    if abs(by_hour) < 1e-12:
        return None
    at = -beside / by_hour
    return at if 0 <= at <= _LARGEST else None


def confirmed(what: str, at: float | None, ask: Callable[[float], str], whole: bool = False) -> Flip | None:
    """A flip point, if asking a little on both sides of it gives two answers; `whole`: only whole numbers count, and
    `at` is the first of those above."""
    if at is None or not 0 < at <= _LARGEST:
        return None
    below, above = (at - 1, at) if whole else (at * (1 - _ASIDE), at * (1 + _ASIDE))
    if below < (1 if whole else 0):
        return None
    under, over = ask(below), ask(above)
    return Flip(what, at, under, over) if under != over else None


def settled(start: float | None, again: Callable[[float], float | None]) -> float | None:
    """A flip point followed until it stays: where it lies by the plans that are best there, and not here."""
    at, seen = start, set[float]()
    for _ in range(_MOST_STEPS):
        if at is None or round(at, 9) in seen:
            return at
        seen.add(round(at, 9))
        following = again(at)
        if following is None or abs(following - at) <= 1e-9 * max(1.0, at):
            return following
        at = following
    return at


def first_use(uses: float) -> int | None:
    """The first whole number of uses above a break-even; None where there is none.

    >>> first_use(1.87), first_use(2.0), first_use(inf)
    (2, 3, None)
    """
    return None if uses == inf else max(1, floor(uses + 1e-9) + 1 if ceil(uses) == uses else ceil(uses))
