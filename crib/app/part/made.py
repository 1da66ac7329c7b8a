"""What of a part is done and what was measured: kept with the crib as changes, so that whoever comes tomorrow goes on,
and `crib undo` takes back what was ticked by mistake."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from crib.cutters.base import Cutter
from crib.findings.errors import CribError
from crib.findings.message import counted
from crib.intake.undo import cutter_of
from crib.light.records import dataclass, replace
from crib.planning.parts.planned import PartOperation, PlannedPart
from crib.planning.parts.works import work_of
from crib.store import Crib

_FAR = 18
"""A number of more digits is none."""


@dataclass(frozen=True)
class Made:
    """An operation that is done: its key, its number and its place among all of them then, of which feature, what was
    done, with the cutter as it was then, and when; `rest`: the other cutters that its feature was to be made with."""

    key: str
    no: int
    place: int
    feature: str
    work: str
    cutter: Cutter
    minutes: float
    at: str
    rest: tuple[Cutter, ...] = ()


@dataclass(frozen=True)
class Measured:
    """A size that was measured [mm], with the limits that the drawing has, and how it was typed."""

    what: str
    feature: str
    mm: float
    low: float
    high: float
    text: str

    @property
    def is_outside(self) -> bool:
        """Whether the drawing doesn't allow it."""
        return not self.low - 1e-6 <= self.mm <= self.high + 1e-6


@dataclass(frozen=True)
class State:
    """How far a part is: what is done, in the order in which it was, what was measured, and the operations as they were
    told when something was ticked last: by key their numbers, works and cutters."""

    done: Mapping[str, Made]
    measured: tuple[Measured, ...] = ()
    told: Mapping[str, Mapping[str, Any]] = {}
    minutes: float = 0.0

    @property
    def keys(self) -> tuple[str, ...]:
        """What is done, in order."""
        return tuple(self.done)

    @property
    def were(self) -> tuple[Cutter, ...]:
        """The cutters that did it, as they were then."""
        return tuple({one.cutter.id: one.cutter for one in self.done.values()}.values())


def state_of(crib: Crib, name: str) -> State:
    """How far a part is."""
    done: dict[str, Made] = {}
    measured: dict[str, Measured] = {}
    told: Mapping[str, Any] = {}
    for change in crib.changes(f"made {name}"):
        after = change.after or {}
        for key, one in sorted((after.get("done") or {}).items(), key=_place):
            done.pop(key, None)
            if one is not None:
                done[key] = _made(key, one, change.at)
        for what, size in (after.get("measured") or {}).items():
            measured.pop(what, None)
            if size is not None:
                measured[what] = Measured(what, size["feature"], size["mm"], size["low_mm"], size["high_mm"],
                                          size["text"])
        told = after.get("told") or told
    return State(done, tuple(measured.values()), told.get("operations", {}), told.get("minutes", 0.0))


def _place(item: tuple[str, Mapping[str, Any] | None]) -> int:
    """When an operation was done among those that were ticked with it: in the order of the plan then."""
    return int(item[1]["place"]) if item[1] else 0


def _made(key: str, one: Mapping[str, Any], at: str) -> Made:
    rest = tuple(map(cutter_of, one.get("rest", ())))
    return Made(key, one["no"], one["place"], one["feature"], one["work"], cutter_of(one["cutter"]), one["minutes"], at,
                rest)


def numbered(planned: PlannedPart, state: State) -> PlannedPart:
    """The plan with the numbers that its operations had when something was ticked last: what is on paper still holds.
    What is new gets those that are free."""
    kept = {key: int(one["no"]) for key, one in state.told.items()} | {one.key: one.no for one in state.done.values()}
    mine = {one.key: kept[one.key] for one in planned.operations if one.key in kept}
    taken = set(kept.values())
    free = (number for number in range(1, len(planned.operations) + len(taken) + 1) if number not in taken)
    return replace(planned, operations=tuple(
        replace(one, no=mine[one.key] if one.key in mine else next(free)) for one in planned.operations))


def tick(crib: Crib, planned: PlannedPart, keys: Iterable[str], is_done: bool = True) -> tuple[PartOperation, ...]:
    """Tick operations of a part off, or take their ticks back; those of which that wasn't so already."""
    with crib.transaction():
        before = state_of(crib, planned.part.name)
        wanted = set(keys)
        those = tuple(one for one in planned.operations if one.key in wanted and (one.key in before.done) != is_done)
        if those:
            after = {one.key: _record(planned, one) if is_done else None for one in those}
            was = {one.key: None if is_done else _again(before.done[one.key]) for one in those}
            crib.note_made(planned.part.name, {"done": was}, {"done": after, "told": told_of(planned)})
        return those


def measure(crib: Crib, planned: PlannedPart, sizes: Sequence[Measured]) -> None:
    """Write down what was measured."""
    with crib.transaction():
        before = {one.what: one for one in state_of(crib, planned.part.name).measured}
        was = {one.what: _size(before[one.what]) if one.what in before else None for one in sizes}
        crib.note_made(planned.part.name, {"measured": was},
                       {"measured": {one.what: _size(one) for one in sizes}})


def _size(one: Measured) -> dict[str, Any]:
    return {"feature": one.feature, "mm": one.mm, "low_mm": one.low, "high_mm": one.high, "text": one.text}


def _record(planned: PlannedPart, one: PartOperation) -> dict[str, Any]:
    return {"no": one.no, "place": planned.operations.index(one), "feature": one.feature,
            "work": work_of(planned, one), "cutter": one.cutter.as_json(), "minutes": one.minutes,
            "rest": [each.as_json() for each in one.proved.plan.cutters if each.id != one.cutter.id]}


def _again(one: Made) -> dict[str, Any]:
    return {"no": one.no, "place": one.place, "feature": one.feature, "work": one.work,
            "cutter": one.cutter.as_json(), "minutes": one.minutes, "rest": [each.as_json() for each in one.rest]}


def told_of(planned: PlannedPart) -> dict[str, Any]:
    """The operations as they are told now."""
    return {"minutes": planned.minutes, "operations": {
        one.key: {"no": one.no, "work": work_of(planned, one), "cutter_id": one.cutter.id, "setup": one.setup_no}
        for one in planned.operations}}


def those_of(planned: PlannedPart, text: str) -> tuple[PartOperation, ...]:
    """The operations that are meant by `4`, `1-6`, `1,3` or `all`. Raises `CribError`."""
    by_number = {one.no: one for one in planned.operations}
    if text.strip().casefold() == "all":
        return planned.operations
    found: list[PartOperation] = []
    for word in text.replace(",", " ").split():
        first, dash, last = word.partition("-")
        ends = [first, last] if dash else [first]
        if not all(end.isascii() and end.isdigit() and len(end) <= _FAR for end in ends):
            raise CribError("usage", f"{word!r} is not an operation's number", word, "4, or 1-6, or 1,3,5, or all")
        low, high = int(ends[0]), int(ends[-1])
        missing = next((number for number in (low, high) if number not in by_number), None)
        if missing is not None or low > high:
            raise CribError("no-operation", f"{planned.part.name} has no operation {missing if missing else word}",
                            word, f"it has {counted(len(by_number), 'operation')}: {_range(by_number)}")
        found += [one for number, one in by_number.items() if low <= number <= high]
    if not found:
        raise CribError("usage", "which operation is done isn't said", text, "4, or 1-6, or 1,3,5, or all")
    return tuple(found)


def _range(numbers: Iterable[int]) -> str:
    every = sorted(numbers)
    return f"{every[0]} to {every[-1]}" if every else "none yet"
