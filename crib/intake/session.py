"""Lines taken in one after the other, each at once: what a box of cutters is recorded with."""

from __future__ import annotations

import shlex
from collections import deque
from collections.abc import Iterable, Mapping
from typing import Any

from crib.cutters.base import Cutter
from crib.findings.errors import CribError
from crib.intake.attributes import ATTRIBUTES
from crib.intake.corrections import (
    ASKS,
    HELD_BEFORE,
    asks,
    different,
    put_right,
    says_how_many,
    speaks_of_another,
    undoes,
)
from crib.intake.encoding import NOT_TEXT, SAVE_AS, is_told
from crib.intake.other_unit import NONE_BEFORE, in_unit
from crib.intake.reading import kept
from crib.intake.shorthand import Line, Shop, confirm, read_line
from crib.intake.shorthand import again as said_again
from crib.intake.shorthand.confirm import described
from crib.intake.shorthand.line import is_whole, kind_of_line
from crib.intake.told_of import found, lived
from crib.intake.undo import undo_since
from crib.records import dataclass, field, replace
from crib.store import Crib, HeldBack
from crib.units.words import told

_TOLD = 6
"""So many cutters that a line changed are told one by one."""

_UNDONE = 100
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
class Session:
    """A session on an open crib. With `joins`, a line that answers the question of the one before is read with it.

    `taken` and `held`: the numbers of what it took in and held back and didn't take back.
    """

    crib: Crib
    shop: Shop
    source: str | None = None
    file: str | None = None
    joins: bool = False
    taken: set[int] = field(default_factory=set)
    held: set[int] = field(default_factory=set)
    deeds: deque[Deed] = field(default_factory=lambda: deque(maxlen=_UNDONE))
    _counted: list[tuple[set[int], set[int], set[int]]] = field(default_factory=list)

    def say(self, text: str, number: int = 1) -> Outcome:
        """Take in one line, or hold it back; written down before this returns."""
        before, self._counted = list(self.deeds), []
        try:
            with self.crib.transaction():
                first = self.crib.last_change()
                outcome = self._said(text, number)
                if self.deeds and self.deeds[-1] not in before:
                    self.deeds[-1].changes = tuple(range(first + 1, self.crib.last_change() + 1))
                return outcome
        except CribError:
            for which, more, fewer in reversed(self._counted):
                which -= more
                which |= fewer
            self.deeds = deque(before, maxlen=_UNDONE)
            raise

    def _count(self, which: set[int], more: Iterable[int] = (), fewer: Iterable[int] = ()) -> None:
        """Count numbers in or out of what was taken or held; what changes is remembered, in case the line comes to
        nothing. A copy of both for each line would make long lists slow."""
        coming, going = set(more) - which, set(fewer) & which
        which -= going
        which |= coming
        self._counted.append((which, coming, going))

    def _said(self, text: str, number: int) -> Outcome:
        if not is_told(text):
            return self.hold(text, number, NOT_TEXT, SAVE_AS)
        if asks(text):
            return Outcome(number, text, "; ".join(ASKS)) if self.joins else self.hold(text, number, *ASKS)
        if self.joins and (many := undoes(text)):
            return self._undo_several(many, text, number)
        asked = None if self.joins and says_how_many(text) else said_again.asked(text)
        if asked is not None and asked.form in ("yes", "no") and not self.joins:
            asked = None
        if asked is not None and (outcome := self._again(asked, text, number)) is not None:
            return outcome
        if self.joins and (outcome := put_right(self, text, number)) is not None:
            return outcome
        line = read_line(text, self.shop)
        if not line.taken and self.joins and (outcome := self._joined(text, number)) is not None:
            return outcome
        return self.store(line, number)

    def came(self, text: str, cutters: tuple[int, ...], held: tuple[int, ...], changes: tuple[int, ...]) -> None:
        """A line that came before and isn't said again: what speaks of the line before it may mean it."""
        if changes:
            self.deeds.append(Deed(text, cutters, held=held, changes=changes))

    def tally(self) -> tuple[int, int]:
        """How many cutters that it took in are in the crib, and how many lines that it held back are still there."""
        there = {cutter.id for cutter in self.crib.cutters()}
        return len(self.taken & there), len(self.held & {line.id for line in self.crib.held_back() if line.id})

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

    def _joined(self, text: str, number: int) -> Outcome | None:
        """The line before, which was held back, with this one behind it, where that can be read."""
        last = self.deeds[-1] if self.deeds else None
        if last is None or not last.held or is_whole(text) or (kind_of_line(text) and kind_of_line(last.text)):
            return None
        line = read_line(f"{last.text} {text}", self.shop)
        if not line.taken:
            return None
        held = tuple(one for one in self.crib.held_back() if one.id in last.held)
        return self.store(line, number, held) if held else None

    def _again(self, asked: said_again.Asked, text: str, number: int) -> Outcome | None:
        """A line that speaks of another; None where it is better read on its own."""
        if asked.form == "yes":
            return self._yes(text, number)
        if asked.form in ("undo", "no"):
            return self._undo(text, number)
        if asked.form == "unit":
            return in_unit(self, asked.rest, text, number)
        if asked.form == "found":
            return found(self, asked.rest, text, number)
        if asked.form in said_again.LIFE:
            return lived(self, asked, text, number)
        if asked.rest and asked.form == "another" and read_line(asked.rest, self.shop).taken:
            return None
        last = self._last()
        is_copy = self.joins and asked.form in ("copy", "another")
        if last is None or (is_copy and self.is_another_held()):
            return self.hold(text, number, *(NONE_BEFORE if last is None else HELD_BEFORE))
        if asked.form == "actual":
            return self._corrected(last, asked.rest, text, number)
        return self.store(said_again.copy(last, asked.rest, text, self.shop), number)

    def _last(self) -> Cutter | None:
        for deed in reversed(self.deeds):
            for number in (*reversed(deed.taken), *(cutter.id for cutter in deed.before)):
                return self.crib.cutter(number)
        return None if self.deeds else self.crib.newest()

    def _corrected(self, last: Cutter, size: str, text: str, number: int) -> Outcome:
        try:
            if said_again.is_another_size(last, size, text, self.shop):
                cutter, typed = different(last, size, self.shop)
            else:
                cutter, typed = said_again.corrected(last, size, self.shop)
        except CribError as error:
            return self.hold(text, number, *told(error.finding, self.shop.units))
        return self.amend(last, cutter, typed, text, number)

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
        if many == 1 and (last := self._last()) is not None:
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

    def _yes(self, text: str, number: int) -> Outcome:
        """The line before was read right, which changes nothing."""
        last = self.deeds[-1] if self.deeds else None
        if last is None:
            return Outcome(number, text, "nothing was said yet")
        if last.held:
            return Outcome(number, text, f"still held back: {last.text}; say it in other words")
        return Outcome(number, text, "kept")

    def _undo(self, text: str, number: int) -> Outcome:
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

    def _undo_several(self, many: int, text: str, number: int) -> Outcome:
        """Take back what the last so many lines did, the last one first."""
        said = []
        for _ in range(min(many, len(self.deeds))):
            outcome = self._undo(text, number)
            said.append(outcome.says)
            if not outcome.says.startswith("taken back"):
                break
        return Outcome(number, text, "; ".join(said) or "nothing was said yet that could be taken back")
