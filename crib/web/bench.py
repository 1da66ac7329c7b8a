"""What the pages of one bench have in common: the crib, the secrets, and what is kept between two requests."""

from __future__ import annotations

import secrets
from collections import OrderedDict
from collections.abc import Callable, Hashable
from threading import Lock
from typing import TYPE_CHECKING, Generic, TypeVar
from urllib.parse import urlsplit

from crib.app.opening import Crib, crib_exists, open_crib
from crib.light.records import dataclass, field
from crib.light.tuples import NamedTuple

if TYPE_CHECKING:
    from crib.app.asking import Reply
    from crib.app.part.plan import Known, PartReply
    from crib.app.talks import Talk

Kept = TypeVar("Kept")

KEY = "key"
"""What the key is called in the address that the code holds."""


class Shelf(Generic[Kept]):
    """A few things that are kept, each under its name; the one that nobody asked for longest makes room."""

    def __init__(self, most: int) -> None:
        self._most, self._there, self._lock = most, OrderedDict[Hashable, Kept](), Lock()

    def get(self, name: Hashable, make: Callable[[], Kept]) -> Kept:
        """What is kept under a name, else what is made now and kept; of two who make it at once the first one's."""
        with self._lock:
            if name in self._there:
                self._there.move_to_end(name)
                return self._there[name]
        made = make()
        with self._lock:
            kept = self._there.setdefault(name, made)
            while len(self._there) > self._most:
                self._there.popitem(last=False)
        return kept

    def take(self, name: Hashable) -> Kept | None:
        """What is kept under a name, and no longer from now on."""
        with self._lock:
            return self._there.pop(name, None)


class News(NamedTuple):
    """What the next page is to tell: `said` in words, and `has`, the name of the form (its `data-keep`) of which
    the crib now has what was typed."""

    has: str = ""
    said: str = ""


@dataclass(frozen=True)
class Bench:
    """A bench page. `crib` and `units` as on the command line; `hosts`: the names with their port under which it may be
    asked; `key`: what whoever asks must have, empty where it is bound to this machine; `address` is printed, and stands
    in the code. `token` is on every form."""

    crib: str | None = None
    units: str | None = None
    hosts: frozenset[str] = frozenset()
    key: str = ""
    address: str = ""
    token: str = field(default_factory=lambda: secrets.token_urlsafe(18))
    replies: Shelf[Reply] = field(default_factory=lambda: Shelf(24))
    parts: Shelf[PartReply] = field(default_factory=lambda: Shelf(12))
    known: Shelf[Known] = field(default_factory=lambda: Shelf(2))
    news: Shelf[News] = field(default_factory=lambda: Shelf(200))
    talks: Shelf[Talk] = field(default_factory=lambda: Shelf(60))
    planning: Lock = field(default_factory=Lock)

    @property
    def cookie(self) -> str:
        """The name of the cookie that keeps the key; cookies know of no port, so its name does."""
        return f"crib_{urlsplit(self.address).port or 80}"

    @property
    def entrance(self) -> str:
        """The address with the key, where there is one."""
        return f"{self.address}?{KEY}={self.key}" if self.key else self.address

    def open(self, create: bool = False) -> Crib:
        """The crib, opened for one request. Raises `CribError`."""
        return open_crib(self.crib, create, self.units)

    def has_crib(self) -> bool:
        """Whether there is a crib yet."""
        return crib_exists(self.crib)
