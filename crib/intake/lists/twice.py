"""A list that comes a second time: what of it is in the crib already isn't taken in again.

A list that was cut short is simply given once more, so its beginning must be known for what it is; and one that was
edited since, with a line in front or another order, is still that list. Two lists may well hold the same drill, and so
only a few lines in the same order, or nearly all of them, make it the same.
"""

from __future__ import annotations

import json
from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping, Sequence

from crib.intake.reading import Taken, kept
from crib.intake.shorthand.again import LIFE, asked
from crib.light.tuples import NamedTuple
from crib.store import Arrival, Crib, HeldBack

LEAST = 3
"""So many lines in order make a list the same as one that was taken in (common practice, no source)."""

NEARLY_ALL = 0.75
"""So much of a list makes it the same in any order, where it all came together (common practice, no source)."""

_UNNAMED = ("id", "label", "from")
_AMENDS = ("unit", "actual", *LIFE)
"""Forms of a line that take nothing in by themselves."""
_SPEAKS_OF_THE_LAST = ("copy", "another")
_STARTS = 50


class Came(NamedTuple):
    """The cutters and the held-back lines that an entry became and that are there, and the changes that say so."""

    cutters: tuple[int, ...] = ()
    held: tuple[int, ...] = ()
    changes: tuple[int, ...] = ()


class _Item(NamedTuple):
    """One entry of a list: the key of what it became; what it does to the entries before it."""

    key: str
    form: str = ""
    undone_by: int | None = None

    @property
    def is_silent(self) -> bool:
        return self.form == "undo" or self.form in _AMENDS


class _Run(NamedTuple):
    """How far a run of arrivals goes along with a list, what of it is there, and where it ends."""

    reached: int = 0
    there: Mapping[int, Came] = {}
    used: frozenset[tuple[str, int]] = frozenset()
    last: int = 0


class Known:
    """Everything that ever arrived in a crib, in words or as entries of tables."""

    def __init__(self, crib: Crib, in_words: bool) -> None:
        self._crib, self._in_words = crib, in_words
        self._by: dict[str, list[Arrival]] = defaultdict(list)
        self._at: dict[str, list[tuple[str, int]]] = defaultdict(list)
        self._lines: dict[str, list[int]] = defaultdict(list)
        self._said: set[str] = set()
        for one in crib.arrivals():
            before = self._by[one.who]
            place = (one.who, len(before))
            is_of_a_set = in_words and bool(before) and before[-1].words == one.words
            self._lines[one.who].append(self._lines[one.who][-1] + (not is_of_a_set) if before else 0)
            before.append(one)
            for key in self._keys(one):
                self._at[key].append(place)
            self._said.update(one.words.split(" / ")[1:])

    def has(self, line: str) -> bool:
        """Whether a line of words ever came."""
        return kept(line) in self._at

    def has_entry(self, entry: Taken | HeldBack) -> bool:
        """Whether an entry of a table ever came."""
        return self._key(entry) in self._at

    def __bool__(self) -> bool:
        return bool(self._at)

    def lines_there(self, lines: Sequence[str]) -> dict[int, Came]:
        """The places of the lines that are in the crib already, as part of a list that was taken in."""
        return self._there(_items(lines))

    def entries_there(self, entries: Sequence[Taken | HeldBack]) -> dict[int, Came]:
        """The same of the entries of a table."""
        return self._there([_Item(self._key(one)) for one in entries])

    def _key(self, entry: Taken | HeldBack) -> str:
        return f"held {entry.text}" if isinstance(entry, HeldBack) else _bare(self._crib.as_taken_in(entry.cutter))

    def _keys(self, one: Arrival) -> Iterator[str]:
        """What an arrival may have been: its words, with or without what was said of it since."""
        if self._in_words:
            yield one.words
            for sign in (" / ", " --"):
                at = one.words.find(sign)
                while at >= 0:
                    yield one.words[:at]
                    at = one.words.find(sign, at + 1)
        else:
            yield f"held {one.words}" if one.held else _bare(one.after)

    def _there(self, items: Sequence[_Item]) -> dict[int, Came]:
        return self._in_any_order(items) | self._in_order(items)

    def _in_order(self, items: Sequence[_Item]) -> dict[int, Came]:
        """What came in one run, or in several where the list was cut short, or edited since."""
        there: dict[int, Came] = {}
        used: set[tuple[str, int]] = set()
        place, end, last = 0, 0, 0
        while place < len(items):
            near = 1 if place == end else min(LEAST, len(items) - place)
            runs = (self._run(at, items, place, used) for at in self._starts(items[place], used))
            long_enough = [run for run in runs if run.reached >= (near if run.last > last > 0 else LEAST)]
            if not long_enough:
                place += 1
                continue
            best = max(long_enough, key=lambda run: (run.reached, run.last > last))
            there |= best.there
            used |= best.used
            place += best.reached
            end, last = place, best.last
        return there

    def _starts(self, item: _Item, used: set[tuple[str, int]]) -> list[tuple[str, int]]:
        """Where a run may begin, latest first: of a set that was one line, at its first cutter."""
        every = [] if item.is_silent else self._at.get(item.key, [])
        free = set(every) - used
        return [at for at in reversed(every) if at in free and (at[0], at[1] - 1) not in free][:_STARTS]

    def _run(self, at: tuple[str, int], items: Sequence[_Item], first: int, used: set[tuple[str, int]]) -> _Run:
        """How many entries in a row arrived from a place on. One that was taken back since counts as having come, and
        isn't there."""
        who, here = at
        arrived, there, spent = self._by[who], dict[int, Came](), set[tuple[str, int]]()
        place, reached, last = first, 0, 0
        silent: list[int] = []
        while place < len(items):
            item = items[place]
            fits = here < len(arrived) and (who, here) not in used and item.key in self._keys(arrived[here])
            if not fits and item.is_silent:
                silent.append(place)
                place += 1
                continue
            if not fits:
                break
            stop = self._end(items, place, arrived, here)
            group = arrived[here:stop]
            spent |= {(who, number) for number in range(here, stop)}
            there |= {earlier: Came() for earlier in silent if items[earlier].form != "undo"}
            there |= self._came(item, place, group)
            silent, reached, last, here = [], place + 1 - first, group[-1].change, stop
            place += 1
        there |= {place: Came() for place in silent if items[place].key in self._said}
        return _Run(reached, there, frozenset(spent), last)

    def _end(self, items: Sequence[_Item], place: int, arrived: Sequence[Arrival], here: int) -> int:
        """Behind the last arrival of one entry: a set is one line and many cutters."""
        key = items[place].key
        same = place + 1 < len(items) and items[place + 1].key == key
        stop = here + 1
        while (self._in_words and not same and stop < len(arrived) and arrived[stop].is_gone == arrived[here].is_gone
               and key in self._keys(arrived[stop])):
            stop += 1
        return stop

    @staticmethod
    def _came(item: _Item, place: int, group: Sequence[Arrival]) -> dict[int, Came]:
        if group[0].is_gone:
            return {} if item.undone_by is None else {place: Came(), item.undone_by: Came()}
        return {place: _came_of(group)}

    def _in_any_order(self, items: Sequence[_Item]) -> dict[int, Came]:
        """Nearly all of a list that came together, in whatever order it is given now. What speaks of the line before it
        is left to that line."""
        alone = [place for place, item in enumerate(items) if not item.form and item.undone_by is None]
        wanted = Counter(items[place].key for place in alone)
        enough = max(LEAST, NEARLY_ALL * len(alone))
        for who, arrived in self._by.items():
            spots = sorted({number for key in wanted for name, number in self._at.get(key, ())
                            if name == who and not arrived[number].is_gone})
            if found := self._together(who, spots, wanted, enough, 2 * len(items)):
                return self._matched(items, alone, arrived, found)
        return {}

    def _together(self, who: str, spots: Sequence[int], wanted: Counter[str], enough: float, span: int
                  ) -> dict[str, list[int]]:
        """The arrivals of a list by their keys, where enough of them stand near to each other; the latest such."""
        lines, arrived = self._lines[who], self._by[who]
        for end in range(len(spots), max(0, len(spots) - _STARTS), -1):
            found: dict[str, list[int]] = defaultdict(list)
            for spot in reversed(spots[:end]):
                if lines[spots[end - 1]] - lines[spot] > span:
                    break
                found[next(key for key in self._keys(arrived[spot]) if key in wanted)].append(spot)
            if sum(min(len(found[key]), many) for key, many in wanted.items()) >= enough:
                return found
        return {}

    @staticmethod
    def _matched(items: Sequence[_Item], alone: Sequence[int], arrived: Sequence[Arrival],
                 found: Mapping[str, list[int]]) -> dict[int, Came]:
        there = {}
        left = {key: list(spots) for key, spots in found.items()}
        for place in alone:
            if spots := left.get(items[place].key):
                there[place] = _came_of([arrived[spots.pop()]])
        return there


def lines_there(crib: Crib, lines: Sequence[str]) -> dict[int, Came]:
    """The places of the lines that are in the crib already, as part of a list that was taken in."""
    return Known(crib, in_words=True).lines_there(lines)


def entries_there(crib: Crib, entries: Sequence[Taken | HeldBack]) -> dict[int, Came]:
    """The same of the entries of a table, in the order in which they are taken in."""
    return Known(crib, in_words=False).entries_there(entries)


def _came_of(group: Sequence[Arrival]) -> Came:
    return Came(tuple(one.number for one in group if not one.held), tuple(one.number for one in group if one.held),
                tuple(one.change for one in group))


def _items(lines: Sequence[str]) -> list[_Item]:
    """Lines with what they do: each `undo` takes back the last that is left of those before it."""
    forms = [said.form if (said := asked(line)) is not None and said.form in
             ("undo", *_AMENDS, *_SPEAKS_OF_THE_LAST) else "" for line in lines]
    deeds: list[int] = []
    undone: dict[int, int] = {}
    for place, form in enumerate(forms):
        if form == "undo" and deeds:
            undone[deeds.pop()] = place
        elif form != "undo":
            deeds.append(place)
    return [_Item(kept(line), form, undone.get(place))
            for place, (line, form) in enumerate(zip(lines, forms, strict=True))]


def _bare(said: Mapping[str, object]) -> str:
    return json.dumps({key: value for key, value in said.items() if key not in _UNNAMED}, sort_keys=True)
