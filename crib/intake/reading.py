"""What came of reading: cutters to take in, lines to hold back, and what else should be said."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

from crib.cutters.base import Cutter
from crib.light.hints import TYPE_CHECKING
from crib.light.records import dataclass, field
from crib.store import HeldBack

if TYPE_CHECKING:
    from crib.store.inflow import Alike


@dataclass(frozen=True)
class Taken:
    """A cutter that was read, and what was typed for its lengths by field; under `words` the whole line.

    `line` is where it stood in a file, 0 where in none. Cutters that differ in nothing but how many there are, where
    they lie and what is noted may share `alike`.
    """

    cutter: Cutter
    typed: dict[str, str]
    line: int = 0
    alike: Alike | None = field(default_factory=type(None), compare=False, repr=False)


@dataclass(frozen=True)
class Reading:
    """Cutters and held back lines, each in the order of the lines; `notes` is for people."""

    taken: tuple[Taken, ...] = ()
    held_back: tuple[HeldBack, ...] = ()
    notes: tuple[str, ...] = ()


@dataclass(frozen=True)
class OpenTable:
    """A file whose heading was read: what is to be said of it, how many lines it has at the most, and its entries, read
    one by one as they are asked for."""

    notes: tuple[str, ...]
    lines: int
    entries: Iterator[Taken | HeldBack]

    def __len__(self) -> int:
        return self.lines

    def __iter__(self) -> Iterator[Taken | HeldBack]:
        return self.entries

    def whole(self, tick: Callable[[OpenTable], Iterable[Taken | HeldBack]] = iter) -> Reading:
        """All of it. `tick` goes through the entries and shows how far it got."""
        taken: list[Taken] = []
        held: list[HeldBack] = []
        for one in tick(self):
            if isinstance(one, Taken):
                taken.append(one)
            else:
                held.append(one)
        return Reading(tuple(taken), tuple(held), self.notes)


def kept(text: str) -> str:
    """A text as it can be kept anywhere: what isn't UTF-8 and the NUL byte are spelt out."""
    return text.encode("utf-8", "backslashreplace").decode("utf-8").replace("\0", "\\x00")


def unsaid(name: str, text: str, what: str) -> tuple[str, ...]:
    """A text that couldn't be read, for the note, unless the question about it repeats it whole: nothing is lost.

    >>> unsaid("neck", "0.2x", "neck '0.2x' is not a length"), unsaid("limit", "HHH", "limit is 3 characters long")
    ((), ('limit: HHH',))
    """
    return () if text.strip() in what else (f"{name}: {text.strip()}",)


def with_extra(values: Mapping[str, object], extra: Sequence[str]) -> dict[str, object]:
    """The values with what belongs nowhere put into the note."""
    if not extra:
        return dict(values)
    note = "; ".join(part for part in (str(values.get("note") or ""), *map(kept, extra)) if part)
    return {**values, "note": note}
