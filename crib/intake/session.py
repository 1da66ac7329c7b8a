"""Lines taken in one after the other, each at once: what a box of cutters is recorded with."""

from __future__ import annotations

import shlex
from collections import deque
from datetime import date

from crib.cutters.away import away
from crib.cutters.base import Cutter
from crib.findings.errors import CribError
from crib.intake.attributes import ATTRIBUTES
from crib.intake.encoding import NOT_TEXT, SAVE_AS, is_told
from crib.intake.life import now
from crib.intake.reading import kept
from crib.intake.shorthand import Line, Shop, confirm, read_line
from crib.intake.shorthand import again as said_again
from crib.intake.shorthand.confirm import described
from crib.intake.shorthand.line import is_whole, kind_of_line
from crib.intake.undo import undo_since
from crib.records import dataclass, field, replace
from crib.store import Crib, HeldBack
from crib.store.find import Wanted
from crib.units.words import told

_NONE_BEFORE = ("there is no cutter before it to go by", "say the whole cutter")
_SAME_MM = 0.001
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
class _Deed:
    """What a line did, to be undone and to be spoken of again."""

    text: str
    taken: tuple[int, ...] = ()
    before: tuple[Cutter, ...] = ()
    held: tuple[int, ...] = ()
    put_right: tuple[HeldBack, ...] = ()
    changes: tuple[int, ...] = ()


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
    _deeds: deque[_Deed] = field(default_factory=lambda: deque(maxlen=_UNDONE))

    def say(self, text: str, number: int = 1) -> Outcome:
        """Take in one line, or hold it back; written down before this returns."""
        as_it_was = (self.taken.copy(), self.held.copy(), list(self._deeds))
        try:
            with self.crib.transaction():
                first = self.crib.last_change()
                outcome = self._said(text, number)
                if self._deeds and self._deeds[-1] not in as_it_was[2]:
                    self._deeds[-1].changes = tuple(range(first + 1, self.crib.last_change() + 1))
                return outcome
        except CribError:
            self.taken, self.held = as_it_was[:2]
            self._deeds = deque(as_it_was[2], maxlen=_UNDONE)
            raise

    def _said(self, text: str, number: int) -> Outcome:
        if not is_told(text):
            return self._hold(text, number, NOT_TEXT, SAVE_AS)
        asked = said_again.asked(text)
        if asked is not None and asked.form in ("yes", "no") and not self.joins:
            asked = None
        if asked is not None and (outcome := self._again(asked, text, number)) is not None:
            return outcome
        line = read_line(text, self.shop)
        if not line.taken and self.joins and (outcome := self._joined(text, number)) is not None:
            return outcome
        return self._store(line, number)

    def came(self, text: str, cutters: tuple[int, ...], held: tuple[int, ...], changes: tuple[int, ...]) -> None:
        """A line that came before and isn't said again: what speaks of the line before it may mean it."""
        if changes:
            self._deeds.append(_Deed(text, cutters, held=held, changes=changes))

    def tally(self) -> tuple[int, int]:
        """How many cutters that it took in are in the crib, and how many lines that it held back are still there."""
        there = {cutter.id for cutter in self.crib.cutters()}
        return len(self.taken & there), len(self.held & {line.id for line in self.crib.held_back() if line.id})

    def _store(self, line: Line, number: int, instead_of: tuple[HeldBack, ...] = ()) -> Outcome:
        if not line.taken:
            return self._hold(line.text, number, line.why, line.help)
        cutters = [one.cutter for one in line.taken]
        typed = [one.typed | {"words": kept(line.text)} for one in line.taken]
        taken = tuple(self.crib.take_in(cutters, self.source or line.source, typed))
        for held in instead_of:
            self.crib.put_right(held.id or 0, [cutter.id for cutter in taken])
        self.taken |= {cutter.id for cutter in taken}
        self.held -= {held.id for held in instead_of if held.id}
        self._deeds.append(_Deed(line.text, tuple(cutter.id for cutter in taken), put_right=instead_of))
        return Outcome(number, line.text, confirm(line, taken, self.crib.units), taken, asks=tuple(line.asks or ()))

    def _hold(self, text: str, number: int, why: str, help: str) -> Outcome:
        held = HeldBack(number, kept(text + self._beside()), kept(why), kept(help), self.file)
        [at] = self.crib.hold_back([held])
        self.held.add(at)
        self._deeds.append(_Deed(text, held=(at,)))
        return Outcome(number, text, f"held back: {why}; {help}", held=replace(held, id=at))

    def _beside(self) -> str:
        """What was said beside the line, as options: it is held back with it."""
        said = (part for key, text in (self.shop.defaults or {}).items() for part in (ATTRIBUTES[key].option, text))
        return "".join(f" {shlex.quote(part)}" for part in said)

    def _joined(self, text: str, number: int) -> Outcome | None:
        """The line before, which was held back, with this one behind it, where that can be read."""
        last = self._deeds[-1] if self._deeds else None
        if last is None or not last.held or is_whole(text) or (kind_of_line(text) and kind_of_line(last.text)):
            return None
        line = read_line(f"{last.text} {text}", self.shop)
        if not line.taken:
            return None
        held = tuple(one for one in self.crib.held_back() if one.id in last.held)
        return self._store(line, number, held) if held else None

    def _again(self, asked: said_again.Asked, text: str, number: int) -> Outcome | None:
        """A line that speaks of another; None where it is better read on its own."""
        if asked.form == "yes":
            return self._yes(text, number)
        if asked.form in ("undo", "no"):
            return self._undo(text, number)
        if asked.form == "unit":
            return self._unit(asked.rest, text, number)
        if asked.form == "found":
            return self._found(asked.rest, text, number)
        if asked.form in said_again.LIFE:
            return self._lived(asked, text, number)
        if asked.rest and asked.form == "another" and read_line(asked.rest, self.shop).taken:
            return None
        last = self._last()
        if last is None:
            return self._hold(text, number, *_NONE_BEFORE)
        if asked.form == "actual":
            return self._corrected(last, asked.rest, text, number)
        return self._store(said_again.copy(last, asked.rest, text, self.shop), number)

    def _last(self) -> Cutter | None:
        for deed in reversed(self._deeds):
            for number in (*reversed(deed.taken), *(cutter.id for cutter in deed.before)):
                return self.crib.cutter(number)
        return None if self._deeds else self.crib.newest()

    def _corrected(self, last: Cutter, size: str, text: str, number: int) -> Outcome:
        try:
            cutter, typed = said_again.corrected(last, size, self.shop)
        except CribError as error:
            return self._hold(text, number, *told(error.finding, self.shop.units))
        return self._amended(last, cutter, typed, text, number)

    def _amended(self, before: Cutter, after: Cutter, typed: dict[str, str], text: str, number: int,
                 says: str = "") -> Outcome:
        words = self.crib.typed(before.id).get("words", "")
        stored = self.crib.amend(after, typed | {"words": f"{words} / {kept(text)}".removeprefix(" / ")})
        self._deeds.append(_Deed(text, before=(before,)))
        what = f"{stored.id} {stored.label}: {says}" if says else \
            f"changed {stored.id}: {described(stored, self.crib.units)}"
        return Outcome(number, text, what, amended=(stored,))

    def _unit(self, word: str, text: str, number: int) -> Outcome:
        """The line before once more, its bare numbers in the unit that was meant."""
        unit = "in" if word.startswith(("in", "imp")) else "mm"
        last = self._deeds[-1] if self._deeds else None
        if last is None or len(last.taken) > 1:
            return self._hold(text, number, *_NONE_BEFORE)
        if last.before and not last.taken:
            return self._corrected_unit(last, unit, text, number)
        again = said_again.in_unit(last.text, unit)
        line = read_line(again, self.shop) if again else Line("")
        if len(line.taken) != 1:
            why = line.why if again else f"no number in {last.text!r} could be in {unit}"
            return self._hold(text, number, why, "undo, and say it again with its unit")
        if last.held:
            held = tuple(one for one in self.crib.held_back() if one.id in last.held)
            if not held:
                return self._hold(text, number, "somebody put the line before right meanwhile", "say the whole cutter")
            return self._store(replace(line, text=f"{last.text} / {text}"), number, held)
        before = self.crib.cutter(last.taken[0])
        return self._amended(before, line.taken[0].cutter.but(id=before.id), dict(line.taken[0].typed), text, number)

    def _corrected_unit(self, last: _Deed, unit: str, text: str, number: int) -> Outcome:
        """A correction once more, in the unit that was meant."""
        asked, before = said_again.asked(last.text), last.before[0]
        stamp = before.nominal_mm or before.diameter_mm or 0.0
        try:
            cutter, typed = said_again.corrected(before, f"{asked.rest if asked else ''} {unit}", self.shop)
        except CribError as error:
            return self._hold(text, number, *told(error.finding, self.shop.units))
        if not 0.5 < (cutter.diameter_mm or 0.0) / (stamp or 1.0) < 2:
            return self._hold(text, number, f"{typed['diameter_mm']} can't be what {before.label} measures",
                              "say what it measures, with its unit")
        return self._amended(self.crib.cutter(before.id), cutter, typed, text, number)

    def _like(self, rest: str) -> tuple[Line, list[Cutter]]:
        """The cutters on record that a piece of a line could mean."""
        line = read_line(rest, self.shop)
        if len(line.taken) != 1:
            return line, []
        one = line.taken[0].cutter
        size = one.nominal_mm if one.nominal_mm is not None else one.diameter_mm
        wanted = Wanted(words=(one.thread.lower(),) if one.thread else (), kinds=(one.kind,),
                        near=((size, _SAME_MM),) if size else ())
        return line, list(self.crib.find(wanted).cutters)

    def _found(self, rest: str, text: str, number: int) -> Outcome | None:
        """One that was missing is there again; else it is a new one."""
        line, alike = self._like(rest)
        missing = [cutter for cutter in alike if not cutter.count]
        if len(missing) == 1:
            became = now(missing[0], "found", date.today(), self.shop.units, self.shop.currency)
            return self._amended(missing[0], became.cutter, became.typed, text, number)
        if line.taken:
            return self._store(replace(line, text=text, source="found"), number)
        return self._hold(text, number, line.why, line.help)

    def _lived(self, asked: said_again.Asked, text: str, number: int) -> Outcome | None:
        """What became of a cutter on record: lent, back, lost, dull ...; None where the line is of one that isn't."""
        line, alike = self._like(asked.rest)
        back = asked.form in ("brought", "back")
        states = asked.form in ("moved", "sharpened", "state")
        meant = [cutter for cutter in alike if (cutter.away if back else cutter.count or states)]
        if back and asked.who:
            who = asked.who.casefold()
            theirs = [cutter for cutter in meant if any(one.who.casefold() == who for one in away(cutter))]
            meant = theirs or meant
        if len(meant) != 1:
            if not alike and states and read_line(text, self.shop).taken:
                return None
            which = ", ".join(f"{cutter.id} {cutter.label}" for cutter in meant[:5])
            none = f"no {asked.rest} is on record that could be {'back' if back else asked.form}"
            why = f"it could be one of several: {which}" if meant else none
            return self._hold(text, number, line.why or why,
                              f"say which by its number: crib now {meant[0].id} ..." if meant else "take it in first")
        words = said_again.became(asked)
        try:
            became = now(meant[0], words, date.today(), self.shop.units, self.shop.currency)
        except CribError as error:
            return self._hold(text, number, *told(error.finding, self.shop.units))
        return self._amended(meant[0], became.cutter, became.typed, text, number, became.says)

    def _yes(self, text: str, number: int) -> Outcome:
        """The line before was read right, which changes nothing."""
        last = self._deeds[-1] if self._deeds else None
        if last is None:
            return Outcome(number, text, "nothing was said yet")
        if last.held:
            return Outcome(number, text, f"still held back: {last.text}; say it in other words")
        return Outcome(number, text, "kept")

    def _undo(self, text: str, number: int) -> Outcome:
        """Take back what the line before did."""
        if not self._deeds:
            return Outcome(number, text, "nothing was said yet that could be taken back")
        last = self._deeds[-1]
        try:
            undo_since(self.crib, last.changes)
        except CribError as error:
            return Outcome(number, text, "not taken back: " + "; ".join(told(error.finding, self.shop.units)))
        self._deeds.pop()
        self.taken -= set(last.taken)
        self.held = self.held - set(last.held) | {held.id for held in last.put_right if held.id}
        return Outcome(number, text, f"taken back: {last.text}")
