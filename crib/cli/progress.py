"""A bar on standard error for what takes long; none where nobody looks on, and none for what is short."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable, Iterator, Sized
from contextlib import contextmanager
from threading import Event, Thread
from typing import TypeVar

Item = TypeVar("Item")
_LONG = 2000
_PATIENCE = 0.5
"""How long nobody wonders what a command is at [s]."""


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
def telling(says: Callable[[], str], is_wanted: bool) -> Iterator[None]:
    """A line on standard error that says what goes on, once it has gone on for half a second; taken away at the end.
    None where standard error is no terminal, or where it isn't wanted."""
    if not is_wanted or sys.stderr is None or not sys.stderr.isatty():
        yield
        return
    done = Event()
    thread = Thread(target=_tell, args=(says, done), daemon=True)
    thread.start()
    try:
        yield
    finally:
        done.set()
        thread.join()


def _tell(says: Callable[[], str], done: Event) -> None:
    longest = 0
    while not done.wait(_PATIENCE):
        text = says()
        longest = max(longest, len(text))
        print("\r" + text.ljust(longest), end="", file=sys.stderr, flush=True)
    if longest:
        print("\r" + " " * longest, end="\r", file=sys.stderr, flush=True)
