"""What is written down beside the cutters: every change, lines held back, questions, notes, parts and what was made."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from contextlib import AbstractContextManager

from crib.light.hints import TYPE_CHECKING, Any
from crib.light.modules import later
from crib.light.records import replace
from crib.store import notes
from crib.store.database import Database
from crib.store.holdings import LAST, Holdings
from crib.store.notes import Note

if TYPE_CHECKING:
    from crib.store import changes as done
    from crib.store import held_back as held
    from crib.store import parts
    from crib.store import questions as past
    from crib.store.changes import Change
    from crib.store.held_back import HeldBack
    from crib.store.parts import KeptPart
    from crib.store.questions import PastQuestion
else:
    done, held, parts, past = map(later, ("crib.store.changes", "crib.store.held_back", "crib.store.parts",
                                          "crib.store.questions"))


class Books:
    """What an open crib has on record beside its cutters; whatever changes it is written down in the same
    transaction."""

    def __init__(self, database: Database) -> None:
        self._database = database

    def transaction(self) -> AbstractContextManager[None]:
        """Several changes that happen whole or not at all."""
        return self._database.transaction()

    def hold_back(self, lines: Iterable[HeldBack], undoes: int | None = None, cutters: Sequence[int] = ()) -> list[int]:
        """Keep lines that couldn't be taken in; their numbers. A line that was held back before keeps its number;
        `cutters`: what it had become and no longer is."""
        with self.transaction():
            return [held.hold(self._database, line, undoes, cutters) for line in lines]

    def put_right(self, number: int, into: Sequence[int] = (), undoes: int | None = None) -> HeldBack:
        """Take a line off those held back, with the cutters that it became; it stays written down word for word."""
        with self.transaction():
            return held.take_off(self._database, number, into, undoes)

    def reword(self, number: int, after: Mapping[str, Any], undoes: int | None = None) -> None:
        """Put other words in the place of what a line that stays held back has, by the names of `HeldBack`."""
        with self.transaction():
            held.reword(self._database, number, after, undoes)

    def tick(self, sheet: str, boxes: Mapping[str, bool]) -> None:
        """Write down which boxes of a sheet were ticked, and of which the tick was taken back."""
        with self.transaction():
            done.note(self._database, "tick", f"sheet {sheet}", None, {"boxes": dict(boxes)})

    def note_made(self, part: str, before: Mapping[str, Any], after: Mapping[str, Any], undoes: int | None = None
                  ) -> None:
        """Write down what of a part was done or measured, by its key; what there isn't any more is None."""
        with self.transaction():
            done.note(self._database, "made", f"made {part}", before, after, undoes)

    def held_back(self) -> list[HeldBack]:
        """Every line that couldn't be taken in, oldest first."""
        return held.all_of(self._database)

    def history(self, number: int) -> list[Change]:
        """What was done to a cutter, oldest first."""
        return done.all_of(self._database, f"cutter {number}")

    def changes(self, subject: str | None = None) -> list[Change]:
        """Everything that was done, oldest first; with a subject, such as `held-back 3`, what was done to it."""
        return done.all_of(self._database, subject)

    def newest_changes(self, most: int, before: int | None = None) -> tuple[list[Change], int]:
        """The last changes, so many at the most, oldest first, and how many there are before them; only of those before
        one with a number."""
        return done.newest(self._database, most, before)

    def undoings(self) -> list[Change]:
        """Every change that undid another, oldest first."""
        return done.that_undo(self._database)

    def last_change(self) -> int:
        """The number of the last change; 0 where nothing was done yet."""
        return self._database.last("change")

    def last_that_counts(self) -> int:
        """The number of the last change that an answer could go by: ticks on a sheet are none, nor what was made."""
        rows = self._database.run("SELECT id FROM change WHERE what NOT IN ('tick', 'made') ORDER BY id DESC LIMIT 1")
        return int(rows[0][0]) if rows else 0

    def change(self, number: int) -> Change:
        """The change with a number. Raises `CribError` where there is none."""
        return done.one_of(self._database, number)

    def remember(self, asked: PastQuestion, then: Holdings | None = None) -> int:
        """Write down that a question was asked, and its answer; its number. One that is the same in kind, texts and
        units was asked once more. With what it was answered from, a shared crib is asked once."""
        if then is not None and getattr(self._database, "path", None) is None:
            return past.remember(self._database, replace(asked, change=then.last_change), then.last_asked, far=True)
        with self.transaction():
            [(change, last)] = self._database.run(LAST)
            change = change if then is None else then.last_change
            return past.remember(self._database, replace(asked, change=int(change)), last)

    def questions(self) -> list[PastQuestion]:
        """Every question that is remembered, the one asked last first."""
        return past.all_of(self._database)

    def question(self, number: int) -> PastQuestion:
        """The remembered question with a number. Raises `CribError` where there is none."""
        return past.one_of(self._database, number)

    def forget(self, number: int | None = None) -> int:
        """Forget a question for good, all of them without a number; how many. Raises `CribError` for none such."""
        with self.transaction():
            return past.forget(self._database, number)

    def write_down(self, note: Note, undoes: int | None = None) -> int:
        """Keep a note of the owner's; its number, its own where it had one."""
        with self.transaction():
            number = notes.add(self._database, note)
            after = {"words": note.words, "about": dict(note.about)}
            done.note(self._database, f"note {note.kind}", f"note {number}", None, after, undoes)
        return number

    def notes(self, *kinds: str) -> list[Note]:
        """The owner's notes of some kinds, oldest first."""
        return notes.all_of(self._database, *kinds)

    def cross_out(self, number: int, *kinds: str, undoes: int | None = None) -> Note:
        """Take back a note of one of these kinds; it stays in the history. Raises `CribError` for none such."""
        with self.transaction():
            note = notes.cross_out(self._database, number, kinds)
            done.note(self._database, "cross-out", f"note {number}", note.as_json(), {}, undoes)
        return note

    def parts(self) -> list[KeptPart]:
        """Every part that is to be made, by name."""
        return parts.all_of(self._database)

    def part(self, name: str) -> KeptPart:
        """The part of a name. Raises `CribError` where there is none."""
        return parts.one_of(self._database, name)

    def keep_part(self, name: str, text: str, version: int | None = None, undoes: int | None = None) -> KeptPart:
        """Write a part's text in the place of what it was; as it was stored. `version`: that which is being changed, 0
        of a new part. Raises `CribError` where somebody else changed it meanwhile."""
        with self.transaction():
            return parts.keep(self._database, name, text, version, undoes)

    def drop_part(self, name: str, undoes: int | None = None) -> KeptPart:
        """Take a part off; its text stays in the history. Raises `CribError` where there is none."""
        with self.transaction():
            return parts.drop(self._database, name, undoes)
