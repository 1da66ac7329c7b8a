"""Taking cutters in: lines of words, tables, options. What is in already is passed over, unless it is wanted again."""

from __future__ import annotations

import gc
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING, Any

from crib.app.opening import crib_exists, open_crib
from crib.store import Crib
from crib.store import HeldBack as HeldBack

if TYPE_CHECKING:
    from crib.intake.lists.twice import Came, Known
    from crib.intake.talk.deeds import Outcome as Outcome
    from crib.intake.talk.session import Session as Session

    _Line = tuple[int, str, Came | None]

MANY = 50
"""Before so many entries are taken in at once a copy of the crib is put by."""

_SELDOM = 50_000
"""After so many things that were made and are still there rubbish is looked for."""

PassOver = Callable[[frozenset[int], int], frozenset[int]]
"""Which places to pass over of those that are in the crib already, in a list of so many."""

Tick = Callable[[Any, str], Iterable[Any]]
"""Hands things out one by one, which are named, for who wants to see how far it is."""


def just(items: Any, what: str) -> Iterable[Any]:
    """Hands things out, and nobody sees how far it is."""
    return items  # type: ignore[no-any-return]


@contextmanager
def without_looking_for_rubbish() -> Iterator[None]:
    """While much is made and all of it stays, looking through it again and again costs a fifth of the time."""
    was = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was:
            gc.enable()


@contextmanager
def seldom_looking_for_rubbish() -> Iterator[None]:
    """While much is made and nearly all of it goes by itself at once."""
    was = gc.get_threshold()
    gc.set_threshold(_SELDOM)
    try:
        yield
    finally:
        gc.set_threshold(*was)


def session_of(crib: Crib, source: str | None = None, texts: Mapping[str, str] | None = None, file: str | None = None,
               joins: bool = False) -> Session:
    """A session on a crib, by the units and the currency that hold. `texts`: by field, what goes for every line;
    `joins`: a line that answers the question of the one before is read with it."""
    from crib.intake.shorthand import Shop as Units
    from crib.intake.talk.session import Session

    return Session(crib, Units(crib.units, crib.shop().currency, dict(texts or {})), source, file, joins)


def at_once(session: Session, lines: Sequence[str], pass_over: PassOver | None = None, tick: Tick = just,
            is_new: bool = False) -> Iterator[Outcome | None]:
    """All lines of a list or none, kept when the last is read: what came of each, None for what was passed over. With
    `pass_over`, what is in the crib already is looked for. A copy of the crib is put by before a long list, unless it
    `is_new`. Raises `CribError`."""
    session.tallies = False
    every = _New(lines) if pass_over is None else list(_numbered(session, lines, pass_over, is_whole=True))
    is_long = (len(every) if isinstance(every, _New) else sum(came is None for _, _, came in every)) >= MANY
    if is_long and not is_new:
        session.crib.put_by("before-list")
    is_first = is_long and is_new
    with session.crib.gathering(is_first), seldom_looking_for_rubbish():
        yield from _said(session, tick(every, "lines"))


class _New:
    """The lines of a list that say something, by number, none of which came before: a long list isn't kept twice."""

    def __init__(self, lines: Sequence[str]) -> None:
        self.lines = lines

    def __len__(self) -> int:
        return sum(not line.isspace() for line in self.lines if line)

    def __iter__(self) -> Iterator[_Line]:
        return ((number, line, None) for number, line in _that_say_something(self.lines))


def _that_say_something(lines: Iterable[str]) -> Iterator[tuple[int, str]]:
    return ((number, line.strip("\r\n")) for number, line in enumerate(lines, start=1) if line.strip())


def as_they_come(session: Session, lines: Iterable[str], pass_over: PassOver | None = None, is_whole: bool = False
                 ) -> Iterator[Outcome | None]:
    """Line by line, each kept before the next is read: what came of it, None where it was passed over. `is_whole`: the
    end of the list is there already."""
    return _said(session, _numbered(session, lines, pass_over, is_whole))


def _said(session: Session, lines: Iterable[_Line]) -> Iterator[Outcome | None]:
    """What came of each line; those that came before are passed over, and may be spoken of."""
    for number, line, came in lines:
        if came is None:
            yield session.say(line, number)
        else:
            session.came(line, *came)
            yield None


def _numbered(session: Session, lines: Iterable[str], pass_over: PassOver | None, is_whole: bool) -> Iterator[_Line]:
    """Lines that say something, by number, with what they became before. Nothing waits for the end of a list that is
    new: only where some lines in a row, or all that there are, came before is the rest of it read first."""
    numbered = _that_say_something(lines)
    if pass_over is None:
        yield from ((number, line, None) for number, line in numbered)
        return
    from crib.intake.lists.twice import LEAST, Known

    known = Known(session.crib, in_words=True)
    if is_whole:
        yield from _told_apart(known, list(numbered), pass_over)
        return
    waiting: list[tuple[int, str]] = []
    for one in numbered:
        waiting.append(one)
        if not known.has(one[1]):
            yield from ((number, line, None) for number, line in waiting)
            waiting = []
        elif len(waiting) == LEAST:
            yield from _told_apart(known, [*waiting, *numbered], pass_over)
            return
    yield from _told_apart(known, waiting, pass_over)


def _told_apart(known: Known, lines: Sequence[tuple[int, str]], pass_over: PassOver) -> Iterator[_Line]:
    there = known.lines_there([line for _, line in lines])
    over = pass_over(frozenset(there), len(lines)) if there else frozenset()
    for place, (number, line) in enumerate(lines):
        yield number, line, there[place] if place in over else None


def checked(where: str | None, units: str | None, lines: Sequence[str], texts: Mapping[str, str]) -> list[Outcome]:
    """What would come of lines of words, each as it would be said; nothing is kept. Raises `CribError`."""
    with TemporaryDirectory() as folder:
        if crib_exists(where):
            with open_crib(where, units=units) as crib:
                return _rehearsed(crib, lines, texts)
        with open_crib(str(Path(folder) / "crib.db"), create=True, units=units) as crib:
            return _rehearsed(crib, lines, texts)


def _rehearsed(crib: Crib, lines: Sequence[str], texts: Mapping[str, str]) -> list[Outcome]:
    from crib.app.rehearsal import rehearsed

    came: list[Outcome | None] = []
    rehearsed(crib, lambda: came.extend(at_once(session_of(crib, None, texts), lines)))
    return [one for one in came if one is not None]
