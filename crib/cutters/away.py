"""Cutters on record that aren't in their place: lent, lost or scrapped, since when and to whom."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from crib.cutters.base import Cutter
from crib.findings.errors import CribError
from crib.light.patterns import pattern
from crib.light.records import dataclass, replace

LENT, LOST, SCRAPPED = "lent", "lost", "scrapped"
COMES_BACK = (LENT, LOST)

_WRITTEN = pattern(r"(?P<count>\d{1,6}) (?:(?P<lent>lent to (?P<who>.+) since)|(?P<lost>lost since)|"
                   r"(?P<scrapped>scrapped on)) (?P<since>\d{4}-\d\d-\d\d)", re.DOTALL)


@dataclass(frozen=True)
class Away:
    """So many of a cutter that aren't there: how, since which day (ISO 8601), and who has them."""

    count: int
    how: str
    since: str
    who: str = ""

    @property
    def words(self) -> str:
        """As a sentence has it, the count left out."""
        return {LENT: f"lent to {self.who} since {self.since}", LOST: f"lost since {self.since}",
                SCRAPPED: f"scrapped on {self.since}"}[self.how]

    def __str__(self) -> str:
        return f"{self.count} {self.words}"


def read_away(text: str) -> Away:
    """What a cutter's record says. Raises `CribError`.

    >>> read_away("1 lent to bob since 2026-11-02").who, str(read_away("2 lost since 2026-01-31"))
    ('bob', '2 lost since 2026-01-31')
    """
    found = _WRITTEN.fullmatch(text.strip())
    if found is None:
        raise CribError("away", f"{text[:60]!r} doesn't say how many are away, and how", text,
                        "such as: 1 lent to bob since 2026-11-02")
    how = next(name for name in (LENT, LOST, SCRAPPED) if found[name])
    return Away(int(found["count"]), how, found["since"], (found["who"] or "").strip())


def away(cutter: Cutter) -> tuple[Away, ...]:
    """What of a cutter isn't there, oldest first."""
    return tuple(map(read_away, cutter.away))


def send(cutter: Cutter, gone: Away) -> Cutter:
    """The cutter with some of it gone. Raises `CribError` where there aren't so many."""
    if gone.count > cutter.count:
        if cutter.count:
            there = "there is 1" if cutter.count == 1 else f"there are {cutter.count}"
            raise CribError("away", f"{there} of no. {cutter.id}, {cutter.label}, not {gone.count}", str(gone.count),
                            f"so many as there are; more of them on hand: crib amend {cutter.id} --count {gone.count}")
        raise CribError("away", f"no. {cutter.id}, {cutter.label}, isn't there: {'; '.join(cutter.away) or 'missing'}",
                        str(gone.count), f"crib now {cutter.id} back, if it is in its place again")
    return cutter.but(count=cutter.count - gone.count, away=(*cutter.away, str(gone)))


def bring_back(cutter: Cutter, count: int | None = None, who: str = "", how: str = "") -> Cutter:
    """The cutter with what was lent or lost there again: so many of it, else all, the latest first; of those that
    somebody had, where it is said who; of those that are away in one way (`how`), where any are. Raises `CribError`
    where nothing was away."""
    who = _whole_name(cutter, who)
    meant = [one for one in away(cutter) if _is_meant(one, who)]
    meant = [one for one in meant if one.how == how] or meant
    wanted = sum(one.count for one in meant) if count is None else count
    left: list[Away] = []
    back = 0
    for one in reversed(away(cutter)):
        taken = min(one.count, wanted - back) if one in meant else 0
        back += taken
        left += [replace(one, count=one.count - taken)] if one.count > taken else []
    if not back or back < wanted:
        whose = f"{who} has none of" if who else "nothing is away of"
        out = "; ".join(cutter.away)
        raise CribError("away", f"{whose} no. {cutter.id}, {cutter.label}" + (f": {out}" if out else ""), who,
                        "crib out lists what is lent or lost")
    return cutter.but(count=cutter.count + back, away=tuple(map(str, reversed(left))))


def _whole_name(cutter: Cutter, who: str) -> str:
    """Who is meant by a piece of a name, where only one person has it in theirs."""
    names = {one.who for one in away(cutter) if one.how == LENT}
    said = who.casefold().split()
    like = [name for name in names if said and set(said) <= set(name.casefold().split())]
    return like[0] if len(like) == 1 and all(name.casefold() != who.casefold() for name in names) else who


def _is_meant(one: Away, who: str) -> bool:
    return one.how in COMES_BACK and (not who or one.who.casefold() == who.casefold())


def abroad(cutters: Iterable[Cutter]) -> Iterator[tuple[Cutter, Away]]:
    """What is lent or lost, and could come back."""
    for cutter in cutters:
        yield from ((cutter, one) for one in away(cutter) if one.how in COMES_BACK)
