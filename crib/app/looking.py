"""Looking things up in a crib: by words, by number, by place; what is away."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from crib.cutters.base import Cutter
from crib.light.hints import TYPE_CHECKING
from crib.light.patterns import pattern
from crib.light.tuples import NamedTuple
from crib.store import Crib
from crib.store.places import bare, is_in, whole

if TYPE_CHECKING:
    from crib.cutters.away import Away
    from crib.store import Change
    from crib.store import Found as Found

_NO_PLACE = "no place on record"
_FIGURES = pattern(r"[0-9]{1,4}(?:/[0-9]{1,3})?(?:-[0-9]{1,3}(?:/[0-9]{1,3})?)?|[0-9]{0,3}\.[0-9]{1,5}")
"""A size or a thread by itself."""


class Card(NamedTuple):
    """All that is known of a cutter: what was typed for its lengths, how each value is known, what was done to it."""

    cutter: Cutter
    typed: dict[str, str]
    known: dict[str, str]
    history: list[Change]
    undone: dict[int, int]

    @property
    def since(self) -> int:
        """The number of the last change of it."""
        return self.history[-1].id if self.history else 0


class Place(NamedTuple):
    """What should lie in a place; where nothing does, the names of places that may be meant."""

    name: str
    cutters: list[Cutter]
    likely: list[str]


def find(crib: Crib, words: Sequence[str], most: int | None = None) -> Found:
    """Cutters by what a shop means by the words, best match first; where nothing fits, by the words as they stand. All
    of them without words. Where so many at the `most` are shown, others of which none is better may only be counted."""
    if not words or (len(words) == 1 and _FIGURES.fullmatch(words[0])):  # nothing else can be meant by it
        return crib.find(words, most)
    from crib.intake.query import read_query

    wanted = read_query(words, crib.units)
    meant = crib.find(wanted, most)
    return meant if meant.cutters or not (wanted.kinds or wanted.material or wanted.place) else crib.find(words)


def show(crib: Crib, number: int) -> Card:
    """All that is known of a cutter. Raises `CribError` where there is none of that number."""
    from crib.cutters.known import known
    from crib.store.changes import undone_by

    cutter, history = crib.cutter(number), crib.history(number)
    return Card(cutter, crib.typed(number), known(cutter), history, undone_by(history))


def listed(crib: Crib, words: Sequence[str]) -> list[Cutter]:
    """Cutters by words as they stand, by number."""
    return sorted(crib.find(words).cutters, key=lambda cutter: cutter.id)


def to_label(crib: Crib, words: Sequence[str]) -> list[Cutter]:
    """Cutters by their numbers as they are given, or by what a shop means by the words, place by place. Raises
    `CribError` for a number that there isn't."""
    if words and all(word.isascii() and word.isdigit() and len(word) <= 18 for word in words):
        return [crib.cutter(int(word)) for word in words]
    from crib.intake.query import read_query

    found = crib.find(read_query(words, crib.units) if words else ()).cutters
    return sorted(found, key=lambda cutter: (cutter.drawer or "~", cutter.id))


def away(crib: Crib, who: str = "") -> list[tuple[Cutter, Away]]:
    """What is lent or lost, longest first; only what one person has."""
    from crib.cutters.away import abroad

    gone = [(cutter, one) for cutter, one in abroad(crib.find(()).cutters)
            if not who or one.who.casefold() == who.casefold()]
    return sorted(gone, key=lambda each: (each[1].since, each[0].id))


def places(crib: Crib) -> dict[str, int]:
    """Every place, and how many cutters lie there."""
    counts: dict[str, int] = {}
    for cutter in crib.in_places():
        place = whole(cutter.drawer or "")
        counts[place] = counts.get(place, 0) + cutter.count
    return counts


def nowhere(crib: Crib) -> list[Cutter]:
    """Cutters of which no place is on record, by number."""
    return [cutter for cutter in crib.find(()).cutters if not cutter.drawer]


def place(crib: Crib, name: str) -> Place:
    """What should lie in a drawer, tray or slot."""
    every = crib.in_places()
    cutters = [cutter for cutter in every if is_in(cutter.drawer, name)]
    if cutters:
        return Place(name, cutters, [])
    from crib.intake.near import near

    return Place(name, [], near(bare(name), sorted({whole(one.drawer or "") for one in every})))


def drawer_by_drawer(crib: Crib, name: str = "") -> list[tuple[str, list[Cutter]]]:
    """What to look for on a walk, place by place; only in one of them."""
    cutters = [cutter for cutter in crib.find(()).cutters if not name or is_in(cutter.drawer, name)]
    cutters.sort(key=lambda cutter: (cutter.drawer is None, _place(cutter), cutter.drawer or "", cutter.id))
    return [(where, list(group)) for where, group in groupby(cutters, key=_place)]


def _place(cutter: Cutter) -> str:
    return whole(cutter.drawer) if cutter.drawer else _NO_PLACE
