"""What a command is at, on standard error; nothing where nobody looks on, and nothing of what is short. What watches
is imported where somebody looks on."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable, Iterator, Sized
from contextlib import contextmanager

from crib.cli import out
from crib.light.hints import TYPE_CHECKING, TypeVar
from crib.render.text import plain

if TYPE_CHECKING:
    from threading import Event

    from crib.app.trials import Trials

Item = TypeVar("Item")
_LONG = 2000
_PATIENCE, _AGAIN = 0.5, 0.2
"""How long nobody wonders what a command is at, and how often that is said anew [s]."""


def ticking(items: Iterable[Item], what: str, long: int = _LONG) -> Iterator[Item]:
    """The same items one by one, with a bar where standard error is a terminal and there are many of them: `long`."""
    total = len(items) if isinstance(items, Sized) else None
    watched = sys.stderr is not None and sys.stderr.isatty() and (total is None or total >= long)
    if not watched or total is None:
        yield from items
        return
    from rich.console import Console
    from rich.progress import track

    yield from track(items, description=what, total=total, console=Console(stderr=True), transient=True)


@contextmanager
def trials(units: str, is_wanted: bool) -> Iterator[Trials]:
    """A row of trials with a word for what it is at. Ctrl-C ends it with what was found until then; one before
    anything was, or after, ends everything."""
    from crib.app.trials import Trials
    from crib.render.words import words

    row = Trials(keeps=True)
    with telling(lambda: words(row.at, units), is_wanted):
        yield row
    if row.stopped:
        out.note(f"crib: stopped: {row.tried} of {row.of} were tried; " + (
            "there may be a better answer" if row.tried < row.of else "not all of it was worked out"))


@contextmanager
def telling(says: Callable[[], str], is_wanted: bool) -> Iterator[None]:
    """A line on standard error that says what goes on, once it has gone on for half a second; taken away at the end.
    None where standard error is no terminal, or where it isn't wanted."""
    if not is_wanted or sys.stderr is None or not sys.stderr.isatty():
        yield
        return
    from threading import Event, Thread

    done = Event()
    thread = Thread(target=_tell, args=(says, done), daemon=True)
    thread.start()
    try:
        yield
    finally:
        done.set()
        thread.join()


def _tell(says: Callable[[], str], done: Event) -> None:
    if done.wait(_PATIENCE):
        return
    from rich.console import Console
    from rich.text import Text

    def line() -> Text:
        return Text(plain(says()), no_wrap=True, overflow="ellipsis")

    with Console(stderr=True).status(line(), spinner="line") as status:
        while not done.wait(_AGAIN):
            status.update(line())
