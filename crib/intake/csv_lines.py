"""CSV: a heading with the names of a cutter's attributes, and a line for each cutter."""

from __future__ import annotations

import csv
import os
import sys
from collections.abc import Iterable, Iterator, Mapping
from itertools import chain

from crib.findings.errors import CribError
from crib.intake.alike import like_others
from crib.intake.attributes import ATTRIBUTES, key_of
from crib.intake.cells import in_words
from crib.intake.encoding import NOT_TEXT, is_told
from crib.intake.export import FORMULA
from crib.intake.headings import WORDS, meaning, units_of
from crib.intake.near import near
from crib.intake.reading import OpenTable, Taken, kept
from crib.intake.shorthand import Shop, read_line
from crib.intake.shorthand.kinds import kind_named
from crib.intake.texts import cutter_of
from crib.light.records import dataclass, replace
from crib.store import HeldBack
from crib.units.words import told

_IGNORED = ("id", "label")
"""Columns that the store makes itself."""

_MOST_LINES_QUOTED = 40
"""How many lines one quoted value may run over before its quote is taken for a stray one."""


@dataclass(frozen=True)
class _Line:
    """One record: the number of its first line, its text, and its cells, or why it has none."""

    number: int
    text: str
    cells: tuple[str, ...] = ()
    why: str = ""


@dataclass(frozen=True)
class _Column:
    """What a column holds: a field of the cutter and the units of a bare number in it, or None for one not known."""

    name: str
    key: str | None
    units: str


def open_csv(text: str, name: str, units: str, currency: str, defaults: Mapping[str, str],
             given: Mapping[str, str | None] | None = None) -> OpenTable:
    """A CSV text, its heading read; without a kind or words among its columns every line is held back. `given`: the
    fields of columns by their headings in lower case, where somebody said them. Raises `CribError` where there is
    nothing in it, or nothing below the heading."""
    csv.field_size_limit(sys.maxsize if os.name != "nt" else 2**31 - 1)
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    count = text.count("\n")
    records = _records(text, _delimiter(text))
    heading = next(records, None)
    if heading is None:
        raise CribError("empty-file", f"the file {name} is empty", name, "a heading, and a line for each cutter")
    columns = _columns(heading.cells, units, given or {})
    if not {"kind", WORDS} & {column.key for column in columns} and "kind" not in defaults:
        return OpenTable((), count, _no_heading(chain([heading], records), name))
    first = next(records, None)
    if first is None:
        raise CribError("empty-file", f"the file {name} has a heading and no line below it", name,
                        "a line for each cutter")
    beside = {"heading": kept(heading.text), "units": units, "defaults": dict(defaults)} | (
        {"map": dict(given)} if given else {})

    def entries() -> Iterator[Taken | HeldBack]:
        for record in chain([first], records):
            try:
                for one in _read(record, columns, units, currency, defaults):
                    yield Taken(one.cutter, one.typed, record.number, one.alike)
            except CribError as error:
                why, help = told(error.finding, units)
                yield HeldBack(record.number, kept(record.text), kept(why), kept(help), name, beside=beside)

    return OpenTable(_notes(columns), count, entries())


def read_again(heading: str, text: str, units: str, currency: str, defaults: Mapping[str, str],
               instead: Mapping[str, str], given: Mapping[str, str | None] | None = None) -> tuple[Taken, ...]:
    """A line once more under the heading of its table, with texts by field in the place of what its cells say.

    Raises `CribError` where it still can't be taken in.
    """
    delimiter = _delimiter(heading)
    columns = _columns(_record(heading, 0, 1, delimiter)[0].cells, units, given or {})
    record, _ = _record(text, 0, 1, delimiter)
    return _read(record, columns, units, currency, defaults, instead)


def is_heading(line: str) -> bool:
    """Whether a line is the heading of a table of cutters."""
    cells = [cell.strip(' "') for cell in line.split(_delimiter(line))]
    return len(cells) > 1 and all(meaning(cell) for cell in cells[:2]) and "kind" in map(meaning, cells)


def _read(
    record: _Line, columns: list[_Column], units: str, currency: str, defaults: Mapping[str, str],
    instead: Mapping[str, str] | None = None,
) -> tuple[Taken, ...]:
    if record.why:
        raise CribError("line", record.why, record.text, "put right the line, or take it in by options")
    if len(record.cells) > len(columns) and any(cell.strip() for cell in record.cells[len(columns):]):
        raise CribError("cells", f"columns in the line: {len(record.cells)}, in the heading: {len(columns)}",
                        record.text, "double quotes round what has a comma in it")
    texts, column_units, extra = dict(defaults), dict.fromkeys(defaults, units), []
    for column, cell in zip(columns, record.cells, strict=False):
        if not cell or cell.isspace():
            continue
        if (key := column.key) is None:
            extra.append(f"{column.name}: {cell.strip()}")
        elif key not in _IGNORED:
            texts[key], column_units[key] = _undefused(cell) if "'" in cell else cell, column.units
    texts |= instead or {}
    column_units |= dict.fromkeys(instead or {}, units)
    if WORDS in texts:
        texts |= {"kind": kind_named(texts["kind"]) or texts["kind"]} if "kind" in texts else {}
        return _in_words(record, texts, column_units, currency, extra, units)
    ends = texts.pop("ends", None)
    if not extra and ends is None and (one := like_others(texts, column_units, currency)):
        return (one,)
    cells = in_words(texts, column_units)
    one = cutter_of(cells.texts, column_units, currency, [*cells.notes, *extra], cells.values, cells.asks)
    return (_with_ends(one, ends, currency),)


def _with_ends(one: Taken, ends: str | None, currency: str) -> Taken:
    if ends is None:
        return one
    from crib.intake.json_list import ends_of

    return replace(one, cutter=ends_of(one.cutter, ends, currency))


def _in_words(record: _Line, texts: dict[str, str], column_units: dict[str, str], currency: str, extra: list[str],
              units: str) -> tuple[Taken, ...]:
    """A line with a cell of shorthand, the other cells beside it."""
    cell, ends = texts.pop(WORDS), texts.pop("ends", None)
    if "kind" in texts and len(texts) > 1:
        return (_with_ends(cutter_of(texts, column_units, currency, [cell.strip(), *extra]), ends, currency),)
    extra += [] if ends is None else [f"ends: {ends.strip()}"]
    kind = texts.pop("kind", None)
    line = read_line(cell, Shop(units, currency, {"note": "; ".join(extra), **texts} if extra else texts), kind)
    if not line.taken:
        raise CribError("words", line.why, record.text, line.help)
    return line.taken


def _undefused(cell: str) -> str:
    """A cell without the mark that keeps a spreadsheet from reckoning with it."""
    bare = cell.strip()
    return bare[1:] if bare.startswith("'") and bare.lstrip("'").startswith(FORMULA) else cell


def _records(text: str, delimiter: str) -> Iterator[_Line]:
    """Records one by one; blank lines are passed over."""
    place, number = 0, 1
    while place <= len(text):
        record, end = _record(text, place, number, delimiter)
        if record.text.strip():
            yield record
        number += record.text.count("\n") + 1
        place = end + 1


def _record(text: str, place: int, number: int, delimiter: str) -> tuple[_Line, int]:
    """The record that begins at a place, at the beginning of a line with a number, and where its last line ends."""
    first = end = _end(text, place)
    if why := _unreadable(text[place:end]):
        return _Line(number, text[place:end], why=why), end
    for _ in range(_MOST_LINES_QUOTED):
        said = text[place:end]
        if '"' not in said:
            return _Line(number, said, tuple(said.split(delimiter))), end
        try:
            cells = next(csv.reader([f"{line}\n" for line in said.split("\n")], delimiter=delimiter, strict=True), [])
            return _Line(number, said, tuple(cells)), end
        except csv.Error as error:
            why = f"its quotes don't match: {error}"
            if "unexpected end of data" not in str(error) or end == len(text):
                break
        end = _end(text, end + 1)
    return _Line(number, text[place:first], why=why), first


def _end(text: str, place: int) -> int:
    """Where the line at a place ends."""
    end = text.find("\n", place)
    return len(text) if end < 0 else end


def _unreadable(text: str) -> str:
    if "\0" in text:
        return "it holds a sign that is no text"
    return "" if is_told(text) else f"{NOT_TEXT}; save the file as UTF-8"


def _delimiter(text: str) -> str:
    """The sign between the names of the heading: a comma, a semicolon or a tab."""
    place, heading = 0, ""
    while place <= len(text) and not heading.strip():
        end = _end(text, place)
        place, heading = end + 1, text[place:end]
    return max(",;\t", key=heading.count)


def unknown_headings(text: str) -> list[str]:
    """The headings of a table that mean nothing; none where its first line is no heading."""
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    first = next(_records(text, _delimiter(text)), None)
    names = [cell.strip() for cell in first.cells] if first else []
    known = [meaning(name) for name in names]
    if "kind" not in known and WORDS not in known:
        return []
    return [name for name, key in zip(names, known, strict=True)
            if name and key not in (*ATTRIBUTES, *_IGNORED, WORDS, "ends")]


def _columns(names: tuple[str, ...], units: str, given: Mapping[str, str | None]) -> list[_Column]:
    columns: list[_Column] = []
    for name in names:
        said = " ".join(name.lower().split())
        key = given[said] if said in given else meaning(name)
        if key not in (*ATTRIBUTES, *_IGNORED, WORDS, "ends") or any(column.key == key for column in columns):
            key = None
        columns.append(_Column(name.strip(), key, units_of(name) or units))
    return columns


def _notes(columns: list[_Column]) -> tuple[str, ...]:
    """A word about each column that isn't an attribute; what it holds goes into the cutters' notes."""
    notes = []
    for column in columns:
        if column.key in ATTRIBUTES and column.key is not None and key_of(column.name) is None:
            notes.append(f"the column {kept(column.name)!r} is read as {ATTRIBUTES[column.key].name}")
        if column.key is None and column.name:
            likely = near(column.name.lower(), [attribute.name for attribute in ATTRIBUTES.values()])
            meant = f" (did you mean {likely[0]}?)" if likely else ""
            notes.append(f"the column {kept(column.name)!r} is not known{meant}; what it holds is kept in the notes")
    return tuple(notes)


def _no_heading(records: Iterable[_Line], name: str) -> Iterator[HeldBack]:
    why = "the first line of the file doesn't name a column kind"
    help_ = "begin the file with the names of its columns: kind,diameter,flutes"
    return (HeldBack(record.number, kept(record.text), record.why or why, help_, name) for record in records)
