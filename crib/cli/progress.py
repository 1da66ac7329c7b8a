"""A bar on standard error for what takes long; none where nobody looks on, and none for what is short."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Iterator, Sized
from typing import TypeVar

Item = TypeVar("Item")
_LONG = 2000


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
