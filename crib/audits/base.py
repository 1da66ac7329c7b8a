"""What the crib is looked over with: one fault, one sentence, one thing to do about it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from datetime import date
from itertools import pairwise

from crib.cutters.base import Cutter
from crib.findings.finding import Finding, Grade
from crib.findings.message import Text
from crib.light.records import dataclass, field
from crib.shop import Shop
from crib.store import Change, PastQuestion


def fault(id: str, cutter_id: int | None, says: Text, help: Text) -> Finding:
    """One thing that isn't as it should be: of which audit, of which cutter (None where of none or of several), in a
    sentence, and what to do."""
    return Finding(id, Grade.FAULT, says, "", cutter_id, fix=help)


@dataclass(frozen=True)
class Record:
    """When a cutter was last in somebody's hand, and when each of its fields was last said."""

    seen: date | None = None
    said: Mapping[str, date] = field(default_factory=dict)


@dataclass(frozen=True)
class Bench:
    """All that is looked over. `cutters`: every one on record, those that aren't there among them."""

    cutters: Sequence[Cutter]
    records: Mapping[int, Record]
    shop: Shop
    questions: Sequence[PastQuestion]
    today: date

    @property
    def there(self) -> list[Cutter]:
        """The cutters that are in their place."""
        return [cutter for cutter in self.cutters if cutter.count]

    def days_since(self, cutter: Cutter, key: str) -> int | None:
        """For how many days a field of a cutter has stood as it is; None where nobody wrote that down."""
        said = self.records.get(cutter.id, Record()).said.get(key)
        return None if said is None else (self.today - said).days

    def days_unseen(self, cutter: Cutter) -> int | None:
        """For how many days nobody said anything of a cutter."""
        seen = self.records.get(cutter.id, Record()).seen
        return None if seen is None else (self.today - seen).days


Audit = Callable[[Bench], Iterable[Finding]]
"""Looks for one sort of fault. Its docstring begins with the id of its faults."""


def records_of(changes: Iterable[Change]) -> dict[int, Record]:
    """What the history tells of each cutter."""
    seen: dict[int, date] = {}
    said: dict[int, dict[str, date]] = {}
    for change in changes:
        if not change.subject.startswith("cutter "):
            continue
        number, day = int(change.subject[7:]), date.fromisoformat(change.at[:10])
        seen[number] = day
        after = change.after or {}
        said.setdefault(number, {}).update(dict.fromkeys((*after, *after.get("known", {})), day))
    return {number: Record(seen[number], said[number]) for number in seen}


def name(cutter: Cutter) -> str:
    """A cutter as a fault names it."""
    return f"no. {cutter.id}, {cutter.label}"


def numbers(cutters: Iterable[Cutter], most: int = 6) -> str:
    """Some cutters by their numbers.

    >>> numbers([Cutter(n, "drill") for n in (3, 4, 9)]), numbers([Cutter(n, "drill") for n in range(1, 10)], 2)
    ('nos. 3, 4, 9', 'nos. 1, 2 and 7 more')
    """
    listed = [str(cutter.id) for cutter in cutters]
    more = f" and {len(listed) - most} more" if len(listed) > most else ""
    return f"no{'s' if len(listed) > 1 else ''}. {', '.join(listed[:most])}{more}"


def pairs(cutters: Sequence[Cutter]) -> Iterator[tuple[Cutter, Cutter]]:
    """Each two cutters that stand side by side."""
    return pairwise(cutters)
