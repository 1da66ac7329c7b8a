"""CSV: a heading with the names of a cutter's attributes, and a line for each cutter."""

from __future__ import annotations

import csv
import os
import sys
from collections.abc import Iterable, Iterator, Mapping
from itertools import chain

from crib.findings.errors import CribError
from crib.intake.attributes import ATTRIBUTES, key_of
from crib.intake.lists.alike import IGNORED, OWN, AlikeLines
from crib.intake.lists.cells import in_words
from crib.intake.lists.csv_records import Record, delimiter_of, record_at, records
from crib.intake.lists.export import FORMULA
from crib.intake.lists.headings import WORDS, meaning, units_of
from crib.intake.lists.texts import cutter_of
from crib.intake.near import near
from crib.intake.reading import OpenTable, Taken, kept
from crib.intake.shorthand import Shop, read_line
from crib.intake.shorthand.kinds import kind_named
from crib.light.records import dataclass, replace
from crib.store import HeldBack
from crib.units.words import told


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
    lines = records(text, delimiter_of(text))
    heading = next(lines, None)
    if heading is None:
        raise CribError("empty-file", f"the file {name} is empty", name, "a heading, and a line for each cutter")
    columns = _columns(heading.cells, units, given or {})
    if not {"kind", WORDS} & {column.key for column in columns} and "kind" not in defaults:
        return OpenTable((), count, _no_heading(chain([heading], lines), name))
    first = next(lines, None)
    if first is None:
        raise CribError("empty-file", f"the file {name} has a heading and no line below it", name,
                        "a line for each cutter")
    beside = {"heading": kept(heading.text), "units": units, "defaults": dict(defaults)} | (
        {"map": dict(given)} if given else {})

    def entries() -> Iterator[Taken | HeldBack]:
        alike = AlikeLines([column.key for column in columns], units, defaults,
                           lambda cells: _read_shared(cells, columns, units, currency, defaults))
        for record in chain([first], lines):
            if (like := alike.read(record)) is not None:
                yield like
                continue
            try:
                for one in _read(record, columns, units, currency, defaults):
                    yield Taken(one.cutter, one.typed, record.number)
            except CribError as error:
                why, help = told(error.finding, units)
                yield HeldBack(record.number, kept(record.text), kept(why), kept(help), name, beside=beside)

    return OpenTable(_notes(columns), count, entries())


def read_again(heading: str, text: str, units: str, currency: str, defaults: Mapping[str, str],
               instead: Mapping[str, str], given: Mapping[str, str | None] | None = None) -> tuple[Taken, ...]:
    """A line once more under the heading of its table, with texts by field in the place of what its cells say.

    Raises `CribError` where it still can't be taken in.
    """
    delimiter = delimiter_of(heading)
    columns = _columns(record_at(heading, 0, 1, delimiter)[0].cells, units, given or {})
    record, _ = record_at(text, 0, 1, delimiter)
    return _read(record, columns, units, currency, defaults, instead)


def is_heading(line: str) -> bool:
    """Whether a line is the heading of a table of cutters."""
    cells = [cell.strip(' "') for cell in line.split(delimiter_of(line))]
    return len(cells) > 1 and all(meaning(cell) for cell in cells[:2]) and "kind" in map(meaning, cells)


def _read(
    record: Record, columns: list[_Column], units: str, currency: str, defaults: Mapping[str, str],
    instead: Mapping[str, str] | None = None,
) -> tuple[Taken, ...]:
    if record.why:
        raise CribError("line", record.why, record.text, "put right the line, or take it in by options")
    if len(record.cells) > len(columns) and any(cell.strip() for cell in record.cells[len(columns):]):
        raise CribError("cells", f"columns in the line: {len(record.cells)}, in the heading: {len(columns)}",
                        record.text, "double quotes round what has a comma in it")
    texts, column_units, extra = _texts(record.cells, columns, units, defaults)
    texts |= instead or {}
    column_units |= dict.fromkeys(instead or {}, units)
    if WORDS in texts:
        texts |= {"kind": kind_named(texts["kind"]) or texts["kind"]} if "kind" in texts else {}
        return _in_words(record, texts, column_units, currency, extra, units)
    ends = texts.pop("ends", None)
    cells = in_words(texts, column_units)
    one = cutter_of(cells.texts, column_units, currency, [*cells.notes, *extra], cells.values, cells.asks)
    return (_with_ends(one, ends, currency),)


def _read_shared(cells: tuple[str, ...], columns: list[_Column], units: str, currency: str,
                 defaults: Mapping[str, str]) -> Taken | None:
    """What lines share that differ in nothing but what each has of its own, which is left out; None where they must be
    read one by one."""
    texts, column_units, extra = _texts(cells, columns, units, defaults)
    shared = {key: text for key, text in texts.items() if key not in OWN}
    if extra or WORDS in shared or "ends" in shared:
        return None
    try:
        read = in_words(shared, column_units)
        one = cutter_of(read.texts, column_units, currency, read.notes, read.values, read.asks)
    except CribError:
        return None
    return None if one.cutter.note else replace(one, alike={})


def _texts(cells: tuple[str, ...], columns: list[_Column], units: str, defaults: Mapping[str, str]
           ) -> tuple[dict[str, str], dict[str, str], list[str]]:
    """The texts of a line by field, the units of a bare number in each, and what stands in columns that aren't
    known."""
    texts, column_units, extra = dict(defaults), dict.fromkeys(defaults, units), []
    for column, cell in zip(columns, cells, strict=False):
        if not cell or cell.isspace():
            continue
        if (key := column.key) is None:
            extra.append(f"{column.name}: {cell.strip()}")
        elif key not in IGNORED:
            texts[key], column_units[key] = _undefused(cell) if "'" in cell else cell, column.units
    return texts, column_units, extra


def _with_ends(one: Taken, ends: str | None, currency: str) -> Taken:
    if ends is None:
        return one
    from crib.intake.lists.json_list import ends_of

    return replace(one, cutter=ends_of(one.cutter, ends, currency))


def _in_words(record: Record, texts: dict[str, str], column_units: dict[str, str], currency: str, extra: list[str],
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


def unknown_headings(text: str) -> list[str]:
    """The headings of a table that mean nothing; none where its first line is no heading."""
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    first = next(records(text, delimiter_of(text)), None)
    names = [cell.strip() for cell in first.cells] if first else []
    known = [meaning(name) for name in names]
    if "kind" not in known and WORDS not in known:
        return []
    return [name for name, key in zip(names, known, strict=True)
            if name and key not in (*ATTRIBUTES, *IGNORED, WORDS, "ends")]


def _columns(names: tuple[str, ...], units: str, given: Mapping[str, str | None]) -> list[_Column]:
    columns: list[_Column] = []
    for name in names:
        said = " ".join(name.lower().split())
        key = given[said] if said in given else meaning(name)
        if key not in (*ATTRIBUTES, *IGNORED, WORDS, "ends") or any(column.key == key for column in columns):
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


def _no_heading(lines: Iterable[Record], name: str) -> Iterator[HeldBack]:
    why = "the first line of the file doesn't name a column kind"
    help_ = "begin the file with the names of its columns: kind,diameter,flutes"
    return (HeldBack(record.number, kept(record.text), record.why or why, help_, name) for record in lines)
