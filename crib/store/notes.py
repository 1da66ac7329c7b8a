"""The owner's notes: prices seen, cutters that friends would lend, minutes that jobs took, holes measured."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping

from crib.cutters.base import Cutter
from crib.findings.errors import CribError
from crib.light.hints import Any
from crib.light.records import asdict, dataclass
from crib.shop import Own, OwnHole, middle
from crib.store.columns import NOTE
from crib.store.database import Database, insert
from crib.store.rows import as_text, from_note, to_note
from crib.store.statements import LARGEST_ID, listed, now, who
from crib.units import NM, nm


@dataclass(frozen=True)
class Note:
    """One note: what it is of (`NOTES`), the owner's words, and what they come to; lengths in `about` in whole
    nanometres."""

    kind: str
    words: str
    about: Mapping[str, Any]
    id: int = 0
    at: str = ""
    who: str = ""

    def as_json(self) -> dict[str, Any]:
        """Every field under its own name."""
        return asdict(self) | {"about": dict(self.about)}


def time_note(words: str, question: int, reckoned: float, real: float) -> Note:
    """How many minutes a question's plan took, and how many it was reckoned at, at no pace but the program's."""
    return Note("time", words, {"question": question, "reckoned": reckoned, "real": real})


def hole_note(words: str, drill_mm: float, hole_mm: float, cutter: int | None = None) -> Note:
    """The hole that a drill made, both measured [mm]; the drill's number where it is one of the crib's."""
    return Note("hole", words, {"drill_nm": nm(drill_mm), "hole_nm": nm(hole_mm), "cutter": cutter})


def price_note(words: str, price: float, shipping: float, seen: str, place: str, cutter: Cutter | None = None,
               collet_mm: float | None = None) -> Note:
    """A price seen on a day somewhere, for a cutter or for a collet of a size [mm]; money in the crib's currency."""
    about: dict[str, Any] = {"price": price, "shipping": shipping, "seen": seen, "where": place}
    if cutter is not None:
        about["cutter"] = to_note(cutter)
    if collet_mm is not None:
        about["collet_nm"] = nm(collet_mm)
    return Note("price", words, about)


def lent_note(words: str, friend: str, cutter: Cutter) -> Note:
    """A cutter that a friend would lend."""
    return Note("lent", words, {"friend": friend, "cutter": to_note(cutter)})


def cutter_of(note: Note, units: str) -> Cutter | None:
    """The cutter that a note is about, numbered as the note is; None where it is about none."""
    kept = note.about.get("cutter")
    return from_note(kept, note.id, units) if isinstance(kept, dict) else None


def size_of(note: Note) -> float | None:
    """The size of the collet that a note is about [mm]; None where it is about none."""
    kept = note.about.get("collet_nm")
    return kept / NM if isinstance(kept, int) else None


def add(database: Database, note: Note) -> int:
    """Write a note down; its number, its own where it had one."""
    own_id = {"id": note.id} if note.id else {}
    row = {**own_id, "at": note.at or now(), "who": note.who or who(), "kind": note.kind,
           "words": note.words, "about": as_text(dict(note.about))}
    [(number,)] = insert(database, "note", row, "RETURNING id")
    return int(number)


def all_of(database: Database, *kinds: str) -> list[Note]:
    """The notes of some kinds, oldest first."""
    slots = ", ".join(f":k{place}" for place in range(len(kinds)))
    rows = database.run(f"SELECT {listed(NOTE)} FROM note WHERE kind IN ({slots}) ORDER BY id",
                        {f"k{place}": kind for place, kind in enumerate(kinds)})
    return [from_row(row) for row in rows]


def cross_out(database: Database, number: int, kinds: Iterable[str]) -> Note:
    """Take a note of one of these kinds away; what it was. Raises `CribError` where there is none."""
    rows = []
    if 0 < number <= LARGEST_ID:
        rows = database.run(f"SELECT {listed(NOTE)} FROM note WHERE id = :id", {"id": number})
    found = from_row(rows[0]) if rows else None
    if found is None or found.kind not in kinds:
        raise CribError("no-note", f"there is no number {number} on the list", str(number), "look at the list again")
    database.run("DELETE FROM note WHERE id = :id", {"id": number})
    return found


def own(notes: Iterable[Note]) -> Own:
    """What the times and the holes that the owner noted come to."""
    notes = tuple(notes)
    paces = [note.about["real"] / note.about["reckoned"] for note in notes if note.kind == "time"]
    sizes = [(note.about["drill_nm"] / NM, note.about["hole_nm"] / NM) for note in notes if note.kind == "hole"]
    return Own(middle(paces) if paces else 1.0, len(paces), tuple(OwnHole(*each) for each in sizes))


def from_row(row: tuple[Any, ...]) -> Note:
    """A note from the values of its columns in the order of `NOTE`."""
    values = dict(zip(NOTE, row, strict=True))
    return Note(**values | {"about": json.loads(values["about"])})
