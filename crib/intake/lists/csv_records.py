"""Records of a CSV text: each the cells of a line, or of several where a quoted value runs on, or why it has none."""

from __future__ import annotations

import csv
from collections.abc import Iterator

from crib.intake.lists.encoding import NOT_TEXT, is_told
from crib.light.tuples import NamedTuple

_MOST_LINES_QUOTED = 40
"""How many lines one quoted value may run over before its quote is taken for a stray one."""


class Record(NamedTuple):
    """One record: the number of its first line, its text, and its cells, or why it has none."""

    number: int
    text: str
    cells: tuple[str, ...] = ()
    why: str = ""


def records(text: str, delimiter: str) -> Iterator[Record]:
    """Records one by one; blank lines are passed over."""
    if text.isascii() and '"' not in text and "\0" not in text:  # a record is a line, and each has its cells
        yield from _of_lines(text, delimiter)
        return
    place, number = 0, 1
    while place <= len(text):
        record, end = record_at(text, place, number, delimiter)
        if record.text.strip():
            yield record
        number += record.text.count("\n") + 1
        place = end + 1


def _of_lines(text: str, delimiter: str) -> Iterator[Record]:
    """The same where nothing is quoted."""
    place, number, size = 0, 1, len(text)
    while place <= size:
        end = text.find("\n", place)
        said = text[place:end] if end >= 0 else text[place:]
        if said and not said.isspace():
            yield Record(number, said, tuple(said.split(delimiter)))
        place = end + 1 if end >= 0 else size + 1
        number += 1


def record_at(text: str, place: int, number: int, delimiter: str) -> tuple[Record, int]:
    """The record that begins at a place, at the beginning of a line with a number, and where its last line ends."""
    first = end = _end(text, place)
    if why := _unreadable(text[place:end]):
        return Record(number, text[place:end], why=why), end
    for _ in range(_MOST_LINES_QUOTED):
        said = text[place:end]
        if '"' not in said:
            return Record(number, said, tuple(said.split(delimiter))), end
        try:
            cells = next(csv.reader([f"{line}\n" for line in said.split("\n")], delimiter=delimiter, strict=True), [])
            return Record(number, said, tuple(cells)), end
        except csv.Error as error:
            why = f"its quotes don't match: {error}"
            if "unexpected end of data" not in str(error) or end == len(text):
                break
        end = _end(text, end + 1)
    return Record(number, text[place:first], why=why), first


def _end(text: str, place: int) -> int:
    """Where the line at a place ends."""
    end = text.find("\n", place)
    return len(text) if end < 0 else end


def _unreadable(text: str) -> str:
    if "\0" in text:
        return "it holds a sign that is no text"
    return "" if is_told(text) else f"{NOT_TEXT}; save the file as UTF-8"


def delimiter_of(text: str) -> str:
    """The sign between the names of the heading: a comma, a semicolon or a tab."""
    place, heading = 0, ""
    while place <= len(text) and not heading.strip():
        end = _end(text, place)
        place, heading = end + 1, text[place:end]
    return max(",;\t", key=heading.count)
