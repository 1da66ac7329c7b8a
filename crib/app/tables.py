"""Tables of cutters taken in, all or none: at once, or line by line without ever having all of it in memory."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

from crib.app.opening import begin_crib, begin_in, crib_exists, open_crib
from crib.app.take_in import (
    MANY,
    PassOver,
    Tick,
    just,
    seldom_looking_for_rubbish,
    without_looking_for_rubbish,
)
from crib.cutters.base import Cutter
from crib.intake.lists.files import open_table
from crib.intake.options import read_options
from crib.intake.reading import OpenTable, Reading, Taken
from crib.light.records import dataclass, replace
from crib.shop import Shop
from crib.store import Crib, HeldBack

if TYPE_CHECKING:
    from crib.store.inflow import Inflow

Entry = Taken | HeldBack

_WAIT = 1000
"""So many lines that are held back wait at the most to be written."""


class Told(Protocol):
    """What is told of each entry as it comes, with the cutter that it became."""

    def add(self, one: Entry, cutter: Cutter | None) -> None:
        """Another one."""
        ...

    def forget(self) -> None:
        """None of them is told: all are read at once after all."""
        ...


Look = Callable[[Reading], bool]
"""Sees what was read before anything is stored, and says whether it is to be."""


def _at_once(reading: Reading) -> bool:
    return True


@dataclass(frozen=True)
class Table:
    """What came of a table: whether it began the crib, what was read of it, what was taken in, and whether anything was
    stored. Of a long one only so much is here as is told; `more`: how many cutters and lines that were held back there
    are besides."""

    began: bool
    reading: Reading
    taken: list[Cutter]
    is_kept: bool = True
    more: tuple[int, int] = (0, 0)


def by_options(where: str | None, units: str | None, texts: Mapping[str, str], source: str | None = None) -> Table:
    """One cutter, by field as it is typed. Raises `CribError` for what can't be read."""
    return _table(where, units, lambda shop: read_options(texts, units or shop.units, shop.currency), source)


def by_file(where: str | None, units: str | None, file: Path, texts: Mapping[str, str], source: str | None = None,
            pass_over: PassOver | None = None, tick: Tick = just, given: Mapping[str, str | None] | None = None,
            look: Look | None = None, most: int | None = None, told: Told | None = None) -> Table:
    """The entries of a table or a JSON list, all or none; what can't be read is held back. `given`: the fields of a
    table's columns by their headings; `look` sees what was read, and whether it is stored; `most`: so many of the
    cutters and of the held-back lines are here; `told`: what is told of each, where so many are told in another way.
    Raises `CribError` for what is no table."""
    def opened(shop: Shop) -> OpenTable:
        return open_table(file, units or shop.units, shop.currency, texts, given)

    def read(shop: Shop) -> Reading:
        with without_looking_for_rubbish():
            return opened(shop).whole(lambda every: tick(every, "read"))

    if look is None and most is not None:
        with suppress(_CameBefore):
            return _poured(where, units, opened, source, pass_over is None, tick, _Flow(most, told))
        if told is not None:
            told.forget()
    return _table(where, units, read, source, pass_over, tick, look or _at_once)


def checked(where: str | None, units: str | None, file: Path, texts: Mapping[str, str], pass_over: PassOver | None,
            tick: Tick, given: Mapping[str, str | None] | None, most: int, told: Told | None) -> Table | None:
    """How the entries of a table or a JSON list would be read, one by one; nothing is stored. None where lines of it
    seem to be in the crib already: then all of it must be seen. Raises `CribError` for what is no table."""
    flow = _Flow(most, told)
    if not crib_exists(where):
        table = open_table(file, units or Shop().units, Shop().currency, texts, given)
        flow.see(tick(table, "read"))
        return flow.table(True, table.notes)
    with open_crib(where, units=units) as crib:
        shop = crib.shop()
        table = open_table(file, units or shop.units, shop.currency, texts, given)
        try:
            flow.see(_unless_it_came(tick(table, "read"), _never if pass_over is None else _came_before(crib)))
        except _CameBefore:
            if told is not None:
                told.forget()
            return None
    return flow.table(False, table.notes)


class _CameBefore(Exception):
    """Some of the table seems to be in the crib already: all of it must be seen."""


def _poured(where: str | None, units: str | None, opened: Callable[[Shop], OpenTable], source: str | None, again: bool,
            tick: Tick, flow: _Flow) -> Table:
    """Take in a table line by line, in one transaction. Raises `_CameBefore` where lines of it seem to be in the crib
    already, unless all is taken in `again`."""
    began = not crib_exists(where)
    table = opened(Shop()) if began else None
    with begin_crib(where, units) as crib:
        if began:
            begin_in(crib, units)
        table = table or opened(crib.shop())
        came = _never if began or again else _came_before(crib)
        if table.lines >= MANY and not began:
            crib.put_by("before-list")
        with seldom_looking_for_rubbish(), crib.inflow(source, began and table.lines >= MANY) as inflow:
            for one in _unless_it_came(tick(table, "taken in"), came):
                if isinstance(one, Taken):
                    flow.take(one, inflow.add(one.cutter, one.typed, one.alike), inflow)
                else:
                    flow.hold(one, crib)
            flow.keep(crib)
    return flow.table(began, table.notes)


class _Flow:
    """What comes of a table's entries one by one: the first `most` of each sort are kept to be told, or each is `told`.
    Lines that are held back are written behind the cutters, as long as not too many wait."""

    def __init__(self, most: int, each: Told | None) -> None:
        self.most, self.each = most, each
        self.told: list[Taken] = []
        self.taken: list[Cutter] = []
        self.held: list[HeldBack] = []
        self.waiting: list[HeldBack] = []
        self.counts = [0, 0]

    def take(self, one: Taken, number: int, inflow: Inflow) -> None:
        self.counts[0] += 1
        if self.each is not None:
            self.each.add(one, inflow.stored(one.cutter, number))
            return
        if self.counts[0] <= self.most:
            self.told.append(one)
            self.taken.append(inflow.stored(one.cutter, number))

    def hold(self, one: HeldBack, crib: Crib) -> None:
        self.counts[1] += 1
        if self.each is not None:
            self.each.add(one, None)
        elif self.counts[1] <= self.most:
            self.held.append(one)
        self.waiting.append(one)
        if len(self.waiting) >= _WAIT:
            self.keep(crib)

    def see(self, entries: Iterable[Entry]) -> None:
        """Only look at entries."""
        for one in entries:
            is_held = isinstance(one, HeldBack)
            self.counts[is_held] += 1
            if self.each is not None:
                self.each.add(one, None if isinstance(one, HeldBack) else one.cutter)
            elif self.counts[is_held] <= self.most and isinstance(one, Taken):
                self.told.append(one)
            elif self.counts[is_held] <= self.most and isinstance(one, HeldBack):
                self.held.append(one)

    def keep(self, crib: Crib) -> None:
        """Write down what waits."""
        crib.hold_back(self.waiting)
        self.waiting = []

    def table(self, began: bool, notes: tuple[str, ...]) -> Table:
        reading = Reading(tuple(self.told), tuple(self.held), notes)
        more = self.counts[0] - len(self.told), self.counts[1] - len(self.held)
        return Table(began, reading, self.taken, more=more)


def _unless_it_came(entries: Iterable[Entry], came: Callable[[Entry], bool]) -> Iterator[Entry]:
    """The entries one by one. Raises `_CameBefore` at the one that makes it likely that the list came before."""
    from crib.intake.lists.twice import LEAST

    seen = 0
    for one in entries:
        seen += came(one)
        if seen >= LEAST:
            raise _CameBefore
        yield one


def _never(one: Entry) -> bool:
    return False


def _came_before(crib: Crib) -> Callable[[Entry], bool]:
    """Whether an entry ever came to a crib."""
    from crib.intake.lists.twice import Known

    known = Known(crib, in_words=False)
    return known.has_entry if known else _never


def _table(where: str | None, units: str | None, read: Callable[[Shop], Reading], source: str | None,
           pass_over: PassOver | None = None, tick: Tick = just, look: Look = _at_once) -> Table:
    """Read by the shop that is there, or by a new one: a crib is begun only for what can be read, and is wanted."""
    began = not crib_exists(where)
    reading = read(Shop()) if began else Reading()
    if began and not look(reading):
        return Table(False, reading, [], False)
    several = len(reading.taken) + len(reading.held_back) > 1  # what is typed by itself goes in whoever began the crib
    with begin_crib(where, units) if several else open_crib(where, create=True, units=units) as crib:
        if began:
            begin_in(crib, units)
        else:
            reading = read(crib.shop())
            reading = reading if pass_over is None else _but_there(crib, reading, pass_over)
            if not look(reading):
                return Table(False, reading, [], False)
        if len(reading.taken) >= MANY and not began:
            crib.put_by("before-list")
        with crib.gathering(), without_looking_for_rubbish():
            taken = crib.take_in((one.cutter for one in tick(reading.taken, "taken in")), source,
                                 [one.typed for one in reading.taken])
            crib.hold_back(reading.held_back)
    return Table(began, reading, taken)


def _but_there(crib: Crib, reading: Reading, pass_over: PassOver) -> Reading:
    """What of a table isn't to be passed over."""
    from crib.intake.lists.twice import LEAST, entries_there

    entries: list[Entry] = [*reading.taken, *reading.held_back]
    if len(entries) < LEAST or not (there := frozenset(entries_there(crib, entries))):
        return reading
    over, count = pass_over(there, len(entries)), len(reading.taken)
    return replace(reading, taken=tuple(one for place, one in enumerate(reading.taken) if place not in over),
                   held_back=tuple(one for place, one in enumerate(reading.held_back, count) if place not in over))
