"""The columns that reading and writing go by, as plain text: a listing must not pay half a second for an import.

`crib.store.models` declares the same columns for the migrations, and a test holds the two together.
"""

from __future__ import annotations

from crib.cutters.base import LENGTH_KEYS

VERSION = 8
"""The schema that this program reads and writes; the last migration's number."""

APPLICATION_ID = 0x43726962
"""What marks a SQLite file as a crib (`Crib` in ASCII)."""

LENGTH_COLUMNS: dict[str, str] = {key: f"{key.removesuffix('_mm')}_nm" for key in LENGTH_KEYS}
"""From a cutter's key in mm to its column in whole nanometres."""

PLAIN = ("kind", "count", "drawer", "condition", "material", "thread", "marking", "note")
"""Fields of a cutter with a column of their own, as they are."""

CUTTER = ("id", *PLAIN, *LENGTH_COLUMNS.values(), "came_from", "typed", "rest", "version")
CUTTER_READ = ("id", *PLAIN, *LENGTH_COLUMNS.values(), "rest", "version")
"""What a cutter is made from, in the order in which `crib.store.rows` takes it."""

SETTING = ("name", "value")
CHANGE = ("id", "at", "who", "what", "subject", "before", "after", "undoes")
HELD_BACK = ("id", "at", "file", "line", "text", "why", "help", "beside")
QUESTION = ("id", "first_at", "at", "who", "kind", "texts", "units", "times", "answer", "plan")
NOTE = ("id", "at", "who", "kind", "words", "about")
PART = ("id", "name", "at", "who", "text", "version")

TABLES: dict[str, tuple[str, ...]] = {
    "cutter": CUTTER,
    "setting": SETTING,
    "change": CHANGE,
    "held_back": HELD_BACK,
    "question": QUESTION,
    "note": NOTE,
    "part": PART,
}
SOURCES = ("gift", "purchase", "made", "found")
"""Where a cutter can have come from."""

NOTES = ("price", "lent", "time", "hole")
"""What the owner notes: prices seen, cutters that friends would lend, minutes that jobs took, holes measured."""
