"""Lines taken in one after the other, each at once: what a box of cutters is recorded with."""

from __future__ import annotations

from collections import deque

from crib.cutters.base import Cutter
from crib.findings.errors import CribError
from crib.intake.lists.encoding import NOT_TEXT, SAVE_AS, is_told
from crib.intake.shorthand import again as said_again
from crib.intake.shorthand import read_line
from crib.intake.shorthand.line import is_whole, kind_of_line
from crib.intake.talk.corrections import different, put_right
from crib.intake.talk.deeds import HELD_BEFORE, NONE_BEFORE, UNDONE, Deed, Ledger, Outcome
from crib.intake.talk.other_unit import in_unit
from crib.intake.talk.remarks import ASKS, asks, says_how_many, undoes
from crib.intake.talk.told_of import found, lived
from crib.light.records import dataclass
from crib.units.words import told


@dataclass
class Session(Ledger):
    """A session on an open crib: what each line means, and so does."""

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
            self.deeds = deque(before, maxlen=UNDONE)
            raise

    def _said(self, text: str, number: int) -> Outcome:
        if not is_told(text):
            return self.hold(text, number, NOT_TEXT, SAVE_AS)
        if asks(text):
            return Outcome(number, text, "; ".join(ASKS)) if self.joins else self.hold(text, number, *ASKS)
        if self.joins and (many := undoes(text)):
            return self.undo_several(many, text, number)
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
            return self.undo(text, number)
        if asked.form == "unit":
            return in_unit(self, asked.rest, text, number)
        if asked.form == "found":
            return found(self, asked.rest, text, number)
        if asked.form in said_again.LIFE:
            return lived(self, asked, text, number)
        if asked.rest and asked.form == "another" and read_line(asked.rest, self.shop).taken:
            return None
        last = self.last()
        is_copy = self.joins and asked.form in ("copy", "another")
        if last is None or (is_copy and self.is_another_held()):
            return self.hold(text, number, *(NONE_BEFORE if last is None else HELD_BEFORE))
        if asked.form == "actual":
            return self._corrected(last, asked.rest, text, number)
        return self.store(said_again.copy(last, asked.rest, text, self.shop), number)

    def _corrected(self, last: Cutter, size: str, text: str, number: int) -> Outcome:
        try:
            if said_again.is_another_size(last, size, text, self.shop):
                cutter, typed = different(last, size, self.shop)
            else:
                cutter, typed = said_again.corrected(last, size, self.shop)
        except CribError as error:
            return self.hold(text, number, *told(error.finding, self.shop.units))
        return self.amend(last, cutter, typed, text, number)

    def _yes(self, text: str, number: int) -> Outcome:
        """The line before was read right, which changes nothing."""
        last = self.deeds[-1] if self.deeds else None
        if last is None:
            return Outcome(number, text, "nothing was said yet")
        if last.held:
            return Outcome(number, text, f"still held back: {last.text}; say it in other words")
        return Outcome(number, text, "kept")
