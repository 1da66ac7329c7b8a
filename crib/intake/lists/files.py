"""A file of cutters: CSV, JSON, or lines of words. Every line is either read or held back with why; nothing in it is
lost."""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from pathlib import Path

from crib.findings.errors import CribError
from crib.intake.lists.csv_lines import is_heading, open_csv, unknown_headings
from crib.intake.lists.encoding import decoded, is_utf8, read_as_old
from crib.intake.lists.json_list import read_json
from crib.intake.lists.text_lines import Lines
from crib.intake.reading import OpenTable, Reading, Taken
from crib.store import HeldBack

_LARGEST = 64_000_000

_BINARY = (b"PK\x03\x04", b"%PDF", b"\x89PNG", b"\xff\xd8\xff", b"GIF8", b"\x1f\x8b", b"\xd0\xcf\x11\xe0", b"\x7fELF",
           b"SQLite format 3\0")
"""What spreadsheets, pictures, archives, programs and databases begin with."""

_WIDE = (b"\xff\xfe", b"\xfe\xff")
"""How UTF-16 begins."""

_CONTROLS = bytes(sign for sign in range(32) if sign not in b"\t\n\v\f\r\x1a\x1b\x1c\x1d\x1e")
_MOST_CONTROLS = 0.05
"""The most control characters that a text may have, of its bytes [-]; one or two are always let through."""


_TABLES = (".csv", ".tsv", ".json")


def is_lines(path: Path) -> bool:
    """Whether a file holds lines of words: neither named as CSV or JSON, nor beginning like it."""
    if path.suffix.lower() in _TABLES:
        return False
    try:
        text = _decoded(_content(path), os.fspath(path)).lstrip()
    except CribError:
        return False
    return bool(text) and not _is_json(path, text) and not is_heading(text.partition("\n")[0])


def lines_of(path: Path) -> Sequence[str]:
    """The lines of a file of words. Raises `CribError`."""
    text = _decoded(_content(path), os.fspath(path))
    return Lines(text.replace("\r\n", "\n").replace("\r", "\n"))


def open_table(path: Path, units: str, currency: str, defaults: Mapping[str, str] | None = None,
               given: Mapping[str, str | None] | None = None) -> OpenTable:
    """The cutters of a file, to be read one by one; `defaults` are texts by field for what a line leaves out, `given`
    the fields of a table's columns by their headings.

    Raises `CribError` for a file that can't be opened or is empty, and for one that isn't JSON though it should be.
    """
    name = os.fspath(path)
    text = _decoded(_content(path), name)
    if not text.strip():
        raise CribError("empty-file", f"the file {name} is empty", name, "a heading with the names of the columns, "
                        "and a line for each cutter")
    if _is_json(path, text):
        found = read_json(text, name, units, currency, defaults or {})
        entries: tuple[Taken | HeldBack, ...] = (*found.taken, *found.held_back)
        return OpenTable(found.notes, len(entries), iter(entries))
    return open_csv(text, name, units, currency, defaults or {}, given)


def read_file(path: Path, units: str, currency: str, defaults: Mapping[str, str] | None = None) -> Reading:
    """All cutters of a file at once. Raises `CribError`, as `open_table` does."""
    return open_table(path, units, currency, defaults).whole()


def headings_unknown(path: Path) -> list[str]:
    """The headings of a table that mean nothing; none of what is no table. Raises `CribError`."""
    text = _decoded(_content(path), os.fspath(path))
    return [] if _is_json(path, text) or not text.strip() else unknown_headings(text)


def _content(path: Path) -> bytes:
    try:
        with path.open("rb") as file:
            content = file.read(_LARGEST + 1)
    except (OSError, ValueError) as error:
        why = (getattr(error, "strerror", None) or str(error)).lower()
        raise CribError("file", f"the file {path} can't be read: {why}", str(path),
                        "name a CSV or JSON file") from error
    if len(content) > _LARGEST:
        raise CribError("file", f"the file {path} is larger than {_LARGEST // 1_000_000} MB", str(path),
                        "take it in by parts")
    return content


def _decoded(content: bytes, name: str) -> str:
    """UTF-8 with or without its mark, UTF-16 with its, else each line in what it can be told to be in.

    Raises `CribError` for what isn't text at all.
    """
    if content.startswith(_WIDE):
        return content.decode("utf-16", "backslashreplace")
    controls = len(content) - len(content.translate(None, _CONTROLS))
    if content.startswith(_BINARY) or controls > max(2, _MOST_CONTROLS * len(content)):
        raise CribError("not-text", f"the file {name} isn't text", name, "save it as CSV in UTF-8")
    if is_utf8(content):
        return content.decode("utf-8").removeprefix("\ufeff")
    return "".join(map(decoded, content.splitlines(keepends=True))).removeprefix("\ufeff")


def notes_of(path: Path) -> tuple[str, ...]:
    """What is to be said of the signs of a file. Raises `CribError`."""
    content = _content(path)
    return () if content.startswith(_WIDE) or is_utf8(content) else (read_as_old([os.fspath(path)]),)


def _is_json(path: Path, text: str) -> bool:
    suffix = path.suffix.lower()
    return suffix == ".json" or (suffix not in (".csv", ".tsv", ".txt") and text.lstrip()[:1] in ("[", "{"))
