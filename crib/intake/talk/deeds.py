"""What lines did while they are taken in one after the other: what came of each, to be undone and spoken of again."""

from __future__ import annotations

import shlex
from collections import deque
from collections.abc import Iterable, Mapping
from typing import Any

from crib.cutters.base import Cutter
from crib.findings.errors import CribError
from crib.intake.attributes import ATTRIBUTES
from crib.intake.reading import kept
from crib.intake.shorthand import Line, Shop, confirm
from crib.intake.shorthand.confirm import described
from crib.intake.talk.remarks import speaks_of_another
from crib.intake.undo import undo_since
from crib.light.records import dataclass, field, replace
from crib.store import Crib, HeldBack
from crib.units.words import told

NONE_BEFORE = ("there is no cutter before it to go by", "say the whole cutter")
HELD_BEFORE = ("the line before it was held back, so there is no cutter to go by", "say the whole cutter")

_TOLD = 6
"""So many cutters that a line changed are told one by one."""

UNDONE = 100
"""How many lines can be taken back."""


@dataclass(frozen=True)
class Outcome:
    """What came of a line, as it was stored, and in one line of words. `asks`: the fields whose reading is in doubt."""

    number: int
    text: str
    says: str
    taken: tuple[Cutter, ...] = ()
    amended: tuple[Cutter, ...] = ()
    held: HeldBack | None = None
    asks: tuple[str, ...] = ()

    @property
    def is_done(self) -> bool:
        """Whether the line was understood."""
        return self.held is None


@dataclass(eq=False)
class Deed:
    """What a line did, to be undone and to be spoken of again. `sticks`: what went for every line before it."""

    text: str
    taken: tuple[int, ...] = ()
    before: tuple[Cutter, ...] = ()
    held: tuple[int, ...] = ()
    put_right: tuple[HeldBack, ...] = ()
    changes: tuple[int, ...] = ()
    sticks: Mapping[str, str] | None = None


@dataclass
class Ledger:
    """What lines did to an open crib. With `joins`, a line that answers the question of the one before is read with it.

    `taken` and `held`: the numbers of what it took in and held back and didn't take back, where it `tallies`.
    """

    crib: Crib
    shop: Shop
    source: str | None = None
    file: str | None = None
    joins: bool = False
    tallies: bool = True
    taken: set[int] = field(default_factory=set)
    held: set[int] = field(default_factory=set)
    deeds: deque[Deed] = field(default_factory=lambda: deque(maxlen=UNDONE))
    _counted: list[tuple[set[int], set[int], set[int]]] = field(default_factory=list)

    def _count(self, which: set[int], more: Iterable[int] = (), fewer: Iterable[int] = ()) -> None:
        """Count numbers in or out of what was taken or held; what changes is remembered, in case the line comes to
        nothing. A copy of both for each line would make long lists slow."""
        if not self.tallies:
            return
        coming, going = set(more) - which, set(fewer) & which
        which -= going
        which |= coming
        self._counted.append((which, coming, going))

    def store(self, line: Line, number: int, instead_of: tuple[HeldBack, ...] = ()) -> Outcome:
        """Take in what was read, or hold it back; it goes in the place of the lines that it puts right."""
        if not line.taken:
            return self.hold(line.text, number, line.why, line.help)
        cutters = [one.cutter for one in line.taken]
        typed = [one.typed | {"words": kept(line.text)} for one in line.taken]
        taken = tuple(self.crib.take_in(cutters, self.source or line.source, typed))
        for held in instead_of:
            self.crib.put_right(held.id or 0, [cutter.id for cutter in taken])
        self._count(self.taken, (cutter.id for cutter in taken))
        self._count(self.held, fewer=(held.id for held in instead_of if held.id))
        self.deeds.append(Deed(line.text, tuple(cutter.id for cutter in taken), put_right=instead_of))
        return Outcome(number, line.text, confirm(line, taken, self.crib.units), taken, asks=tuple(line.asks or ()))

    def hold(self, text: str, number: int, why: str, help: str) -> Outcome:
        """Hold a line back, with why and what would be right."""
        held = HeldBack(number, kept(text + self._beside()), kept(why), kept(help), self.file)
        [at] = self.crib.hold_back([held])
        self._count(self.held, [at])
        self.deeds.append(Deed(text, held=(at,)))
        return Outcome(number, text, f"held back: {why}; {help}", held=replace(held, id=at))

    def _beside(self) -> str:
        """What was said beside the line, as options: it is held back with it."""
        said = (part for key, text in (self.shop.defaults or {}).items() for part in (ATTRIBUTES[key].option, text))
        return "".join(f" {shlex.quote(part)}" for part in said)

    def last(self) -> Cutter | None:
        """The cutter that was last spoken of."""
        for deed in reversed(self.deeds):
            for number in (*reversed(deed.taken), *(cutter.id for cutter in deed.before)):
                return self.crib.cutter(number)
        return None if self.deeds else self.crib.newest()

    def amend(self, before: Cutter, after: Cutter, typed: dict[str, str], text: str, number: int,
                 says: str = "") -> Outcome:
        """Change a cutter by a line, and say what it is now."""
        stored = self.change(before, after, typed, text)
        self.deeds.append(Deed(text, before=(before,)))
        what = f"{stored.id} {stored.label}: {says}" if says else \
            f"changed {stored.id}: {described(stored, self.crib.units)}"
        return Outcome(number, text, what, amended=(stored,))

    def last_cutters(self, many: int) -> list[Cutter]:
        """The cutters of the last so many lines that had any, of all of them for 0, as they are now; of one line the
        cutter that was last spoken of."""
        if many == 1 and (last := self.last()) is not None:
            deed = next((deed for deed in reversed(self.deeds) if deed.taken or deed.before), None)
            numbers = deed.taken if deed and len(deed.taken) > 1 else (last.id,)
            return [self.crib.cutter(number) for number in numbers]
        deeds = [deed for deed in self.deeds if deed.taken]
        there = {number for deed in (deeds[-many:] if many else deeds) for number in deed.taken}
        return [cutter for cutter in self.crib.cutters() if cutter.id in there]

    def is_held_last(self) -> bool:
        """Whether the line before was held back."""
        return bool(self.deeds and self.deeds[-1].held)

    def is_another_held(self) -> bool:
        """Whether the cutter that was said last was held back; what was said in vain of the one before it is none."""
        said = (deed for deed in reversed(self.deeds) if not deed.held or not speaks_of_another(deed.text))
        return bool((last := next(said, None)) and last.held)

    def change(self, before: Cutter, after: Cutter, typed: Mapping[str, str], text: str) -> Cutter:
        """Store a cutter as it is now, with the words that changed it behind those that it was taken in with."""
        words = self.crib.typed(before.id).get("words", "")
        return self.crib.amend(after, {**typed, "words": f"{words} / {kept(text)}".removeprefix(" / ")})

    def changed(self, before: tuple[Cutter, ...], text: str, number: int) -> Outcome:
        """What is said of cutters that a line changed."""
        self.deeds.append(Deed(text, before=before))
        now = tuple(self.crib.cutter(cutter.id) for cutter in before)
        said = "; ".join(f"{cutter.id}: {described(cutter, self.crib.units)}" for cutter in now[:_TOLD])
        more = f"; and {len(now) - _TOLD} more" if len(now) > _TOLD else ""
        asks = "; ".join(dict.fromkeys(ask for cutter in now for ask in cutter.questions))
        return Outcome(number, text, f"changed {said}{more}" + (f"; to ask: {asks}" if asks else ""), amended=now)

    def stick(self, texts: Mapping[str, str | None], text: str, number: int, says: str, before: tuple[Cutter, ...] = ()
              ) -> Outcome:
        """Let texts by field hold for every line that follows; None ends one."""
        was = dict(self.shop.defaults or {})
        holds: dict[str, Any] = {key: value for key, value in {**was, **texts}.items() if value is not None}
        self.shop = replace(self.shop, defaults=holds)
        self.deeds.append(Deed(text, before=before, sticks=was))
        return Outcome(number, text, says, amended=tuple(self.crib.cutter(cutter.id) for cutter in before))

    def undo(self, text: str, number: int) -> Outcome:
        """Take back what the line before did."""
        if not self.deeds:
            return Outcome(number, text, "nothing was said yet that could be taken back")
        last = self.deeds[-1]
        try:
            undo_since(self.crib, last.changes)
        except CribError as error:
            return Outcome(number, text, "not taken back: " + "; ".join(told(error.finding, self.shop.units)))
        self.deeds.pop()
        if last.sticks is not None:
            self.shop = replace(self.shop, defaults=last.sticks)
        self._count(self.taken, fewer=last.taken)
        self._count(self.held, fewer=last.held)
        self._count(self.held, (held.id for held in last.put_right if held.id))
        return Outcome(number, text, f"taken back: {last.text}")

    def undo_several(self, many: int, text: str, number: int) -> Outcome:
        """Take back what the last so many lines did, the last one first."""
        said = []
        for _ in range(min(many, len(self.deeds))):
            outcome = self.undo(text, number)
            said.append(outcome.says)
            if not outcome.says.startswith("taken back"):
                break
        return Outcome(number, text, "; ".join(said) or "nothing was said yet that could be taken back")
