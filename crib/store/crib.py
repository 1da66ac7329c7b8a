"""The crib itself: what is owned, the shop, what was done, what was held back and what was asked."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import asdict, dataclass, replace
from typing import Any

from crib.cutters.base import Cutter
from crib.diagnostics import CribError
from crib.planning.shop import SETTINGS, Shop, from_json
from crib.store import find, notes
from crib.store import questions as past
from crib.store.columns import CHANGE, CUTTER, HELD_BACK
from crib.store.database import Database, Row
from crib.store.notes import Note
from crib.store.questions import PastQuestion
from crib.store.rows import as_text, from_row, to_row, whole
from crib.store.statements import insert, listed, now, who

_LARGEST_ID = 2**31 - 1


@dataclass(frozen=True)
class Change:
    """One thing that was done. `before` and `after` hold what it changed, lengths in mm; `undoes` is another's id."""

    id: int
    at: str
    who: str
    what: str
    subject: str
    before: dict[str, Any] | None
    after: dict[str, Any] | None
    undoes: int | None

    def as_json(self) -> dict[str, Any]:
        """Every field under its own name."""
        return asdict(self)


@dataclass(frozen=True)
class HeldBack:
    """A line that couldn't be taken in, as it was, with why and what would do. `file` is None for one typed."""

    line: int
    text: str
    why: str
    help: str
    file: str | None = None
    id: int | None = None
    at: str | None = None

    def as_json(self) -> dict[str, Any]:
        """Every field under its own name."""
        return asdict(self)


class Crib:
    """An open crib. Every change of what is owned, of the shop and of what was held back is written down in the same
    transaction. Use it as a context.

    `units` are those that cutters are named in: those asked for, else the shop's.
    """

    def __init__(self, database: Database, units: str | None = None) -> None:
        self._database = database
        self.units = units or self.shop().units

    def __enter__(self) -> Crib:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def close(self) -> None:
        """Let go of the database."""
        self._database.close()

    @contextmanager
    def transaction(self) -> Iterator[None]:
        """Several changes that happen whole or not at all."""
        with self._database.transaction():
            yield

    def cutters(self) -> list[Cutter]:
        """Every cutter that is there, by id; those with a count of 0 are missing and not among them."""
        rows = self._database.run(f'SELECT {listed(CUTTER)} FROM cutter WHERE "count" > 0 ORDER BY id')
        return [from_row(row, self.units) for row in rows]

    def newest(self) -> Cutter | None:
        """The cutter that was taken in last; None where there is none."""
        rows = self._database.run(f"SELECT {listed(CUTTER)} FROM cutter ORDER BY id DESC LIMIT 1")
        return from_row(rows[0], self.units) if rows else None

    def in_places(self, under: str | None = None) -> list[Cutter]:
        """Cutters by where they lie, those whose place begins with `under`; all that have a place without it."""
        rows = self._database.run(
            f"SELECT {listed(CUTTER)} FROM cutter WHERE drawer IS NOT NULL AND lower(drawer) LIKE :under ESCAPE '!' "
            "ORDER BY drawer, id", {"under": find.escaped((under or "").lower()) + "%"})
        return [from_row(row, self.units) for row in rows]

    def cutter(self, number: int) -> Cutter:
        """The cutter with an id. Raises `CribError` where there is none."""
        return from_row(self._row(number), self.units)

    def typed(self, number: int) -> dict[str, str]:
        """What was typed for a cutter's lengths, by field. Raises `CribError` where there is no such cutter."""
        return dict(json.loads(self._row(number)[CUTTER.index("typed")]))

    def find(self, words: Sequence[str] | find.Wanted) -> find.Found:
        """The cutters that fit all the words, best first; all of them where there are no words."""
        wanted = words if isinstance(words, find.Wanted) else find.plainly(words, self.units)
        return find.search(self._database, wanted, self.units)

    def take_in(
        self, cutters: Iterable[Cutter], source: str | None = None, typed: Sequence[Mapping[str, str]] = ()
    ) -> list[Cutter]:
        """Add cutters, all or none; as they were stored, with their ids. `typed` goes cutter by cutter."""
        taken = []
        with self.transaction():
            for place, cutter in enumerate(cutters):
                row = to_row(whole(cutter), source, typed[place] if place < len(typed) else {})
                [(number,)] = insert(self._database, "cutter", row, "RETURNING id")
                stored = self.cutter(number)
                self._note("take-in", f"cutter {number}", None, _said(stored) | _source(source))
                taken.append(stored)
        return taken

    def amend(self, cutter: Cutter, typed: Mapping[str, str] | None = None) -> Cutter:
        """Put a cutter in the place of the one with its id; as it was stored. Raises `CribError`."""
        with self.transaction():
            before, old = self.cutter(cutter.id), self._row(cutter.id)
            kept = dict(json.loads(old[CUTTER.index("typed")])) | dict(typed or {})
            row = to_row(whole(cutter), old[CUTTER.index("came_from")], kept)
            settings = ", ".join(f'"{column}" = :{column}' for column in row)
            self._database.run(f"UPDATE cutter SET {settings} WHERE id = :id", row | {"id": cutter.id})
            after = self.cutter(cutter.id)
            was, now = _differences(before, after)
            if now:
                self._note("amend", f"cutter {cutter.id}", was, now)
        return after

    def shop(self) -> Shop:
        """The shop's settings, defaults where nothing was said, and what the owner's own results come to."""
        return replace(from_json(self._settings()), own=notes.own(self._database))

    def set_shop(self, changes: Mapping[str, Any]) -> Shop:
        """Change settings, by the names of `Shop`; the whole shop after it."""
        unknown = [name for name in changes if name not in SETTINGS]
        if unknown:
            raise CribError("setting", f"{unknown[0]!r} is not a setting of the shop", unknown[0],
                            "crib shop shows them")
        with self.transaction():
            before = self.shop().as_json()
            for name, value in changes.items():
                self._database.run("DELETE FROM setting WHERE name = :name", {"name": name})
                insert(self._database, "setting", {"name": name, "value": as_text(value)})
            after = self.shop()
            self._note("shop", "shop", {name: before[name] for name in changes}, dict(changes))
        return after

    def take_back(self, number: int) -> Cutter:
        """Take a cutter out again, as if it had not been taken in; what it was stays written down."""
        with self.transaction():
            cutter = self.cutter(number)
            undone = [change.id for change in self.history(number) if change.what == "take-in"]
            self._database.run("DELETE FROM cutter WHERE id = :id", {"id": number})
            self._note("take-back", f"cutter {number}", _said(cutter), {}, undone[-1] if undone else None)
        return cutter

    def hold_back(self, lines: Iterable[HeldBack]) -> list[int]:
        """Keep lines that couldn't be taken in; their numbers."""
        numbers = []
        with self.transaction():
            for line in lines:
                values = {key: getattr(line, key) for key in ("file", "line", "text", "why", "help")}
                [(number,)] = insert(self._database, "held_back", values | {"at": now()}, "RETURNING id")
                numbers.append(int(number))
        return numbers

    def put_right(self, number: int, into: Sequence[int] = ()) -> HeldBack:
        """Take a line off those held back, with the cutters that it became; it stays written down word for word."""
        with self.transaction():
            held = next((line for line in self.held_back() if line.id == number), None)
            if held is None:
                raise CribError("no-line", f"no line {number} is held back", str(number),
                                "crib held-back lists them with their numbers")
            self._database.run("DELETE FROM held_back WHERE id = :id", {"id": number})
            self._note("put-right" if into else "let-go", f"held-back {number}", held.as_json(),
                       {"cutters": list(into)})
        return held

    def reword(self, number: int, text: str, why: str, help: str) -> None:
        """Keep more words with a line that stays held back."""
        with self.transaction():
            values = {"id": number, "text": text, "why": why, "help": help}
            self._database.run("UPDATE held_back SET text = :text, why = :why, help = :help WHERE id = :id", values)

    def saw(self, number: int, what: str = "seen") -> None:
        """Write down that a cutter was found in its place."""
        with self.transaction():
            self.cutter(number)
            self._note(what, f"cutter {number}", None, {})

    def held_back(self) -> list[HeldBack]:
        """Every line that couldn't be taken in, oldest first."""
        rows = self._database.run(f"SELECT {listed(HELD_BACK)} FROM held_back ORDER BY id")
        return [HeldBack(**dict(zip(HELD_BACK, row, strict=True))) for row in rows]

    def history(self, number: int) -> list[Change]:
        """What was done to a cutter, oldest first."""
        sql = f"SELECT {listed(CHANGE)} FROM change WHERE subject = :subject ORDER BY id"
        return [_change(row) for row in self._database.run(sql, {"subject": f"cutter {number}"})]

    def remember(self, asked: PastQuestion) -> int:
        """Write down that a question was asked, and its answer; its number. One that is the same in kind, texts and
        units was asked once more."""
        with self.transaction():
            return past.remember(self._database, asked)

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

    def write_down(self, note: Note) -> int:
        """Keep a note of the owner's; its number."""
        with self.transaction():
            number = notes.add(self._database, note)
            self._note(f"note {note.kind}", f"note {number}", None, {"words": note.words, "about": dict(note.about)})
        return number

    def notes(self, *kinds: str) -> list[Note]:
        """The owner's notes of some kinds, oldest first."""
        return notes.all_of(self._database, *kinds)

    def cross_out(self, number: int, *kinds: str) -> Note:
        """Take back a note of one of these kinds; it stays in the history. Raises `CribError` for none such."""
        with self.transaction():
            note = notes.cross_out(self._database, number, kinds)
            self._note("cross-out", f"note {number}", note.as_json(), {})
        return note

    def _row(self, number: int) -> Row:
        rows = []
        if 0 < number <= _LARGEST_ID:
            rows = self._database.run(f"SELECT {listed(CUTTER)} FROM cutter WHERE id = :id", {"id": number})
        if not rows:
            raise CribError("no-cutter", f"there is no cutter {number} in the crib", str(number),
                            "crib find lists them with their numbers")
        return rows[0]

    def _settings(self) -> dict[str, Any]:
        return {name: json.loads(value) for name, value in self._database.run("SELECT name, value FROM setting")}

    def _note(self, what: str, subject: str, before: Mapping[str, Any] | None, after: Mapping[str, Any],
              undoes: int | None = None) -> None:
        """Write down what was done."""
        insert(self._database, "change", {
            "at": now(), "who": who(), "what": what, "undoes": undoes,
            "subject": subject, "before": None if before is None else as_text(before), "after": as_text(after),
        })


def _change(row: Row) -> Change:
    values = dict(zip(CHANGE, row, strict=True))
    for key in ("before", "after"):
        values[key] = None if values[key] is None else json.loads(values[key])
    return Change(**values)


def _said(cutter: Cutter) -> dict[str, Any]:
    """What is known of a cutter."""
    return {key: value for key, value in cutter.as_json().items() if value not in (None, [])}


def _source(source: str | None) -> dict[str, str]:
    return {"from": source} if source else {}


def _differences(before: Cutter, after: Cutter) -> tuple[dict[str, Any], dict[str, Any]]:
    was, now = before.as_json(), after.as_json()
    changed = [key for key in now if was.get(key) != now[key]]
    return {key: was.get(key) for key in changed}, {key: now[key] for key in changed}
