"""Cutters as a table that a spreadsheet opens without harm, and that can be taken in again."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from crib.cutters.base import CUTTER_KEYS, Cutter

COLUMNS = ("id", "label", *(key for key in CUTTER_KEYS if key not in ("id", "label")))
FORMULA = ("=", "+", "-", "@", "\t", "\r")
"""What a spreadsheet takes for the beginning of something to reckon with."""


def as_csv(cutters: Iterable[Cutter]) -> Iterator[str]:
    """The lines of the table, heading first."""
    yield _line(list(COLUMNS))
    for cutter in cutters:
        yield _line([_cell(cutter, key) for key in COLUMNS])


def as_json(cutters: Iterable[Cutter], beside: Mapping[str, Any] | None = None) -> Iterator[str]:
    """The text of a document with a list of cutters and what stands `beside` it, piece by piece: of thousands the whole
    is never in memory.

    >>> some = [Cutter(1, "drill"), Cutter(2, "drill")]
    >>> for cutters in ([], some):
    ...     document = {"cutters": [one.as_json() for one in cutters], "read_as": {}}
    ...     assert "".join(as_json(cutters, {"read_as": {}})) == json.dumps(document, indent=2)
    """
    between = "\n"
    yield '{\n  "cutters": ['
    for cutter in cutters:
        yield f"{between}    {_set_in(cutter.as_json(), 4)}"
        between = ",\n"
    yield "]" if between == "\n" else "\n  ]"
    for key, value in (beside or {}).items():
        yield f",\n  {json.dumps(key)}: {_set_in(value, 2)}"
    yield "\n}"


def _set_in(value: Any, by: int) -> str:
    return json.dumps(value, indent=2, allow_nan=False).replace("\n", "\n" + by * " ")


def defused(text: str) -> str:
    """A text that a spreadsheet doesn't reckon with.

    >>> defused("=1+1"), defused("1/4-20"), defused("'=1")
    ("'=1+1", '1/4-20', "''=1")
    """
    return f"'{text}" if text.lstrip("'").startswith(FORMULA) else text


def _cell(cutter: Cutter, key: str) -> str:
    if key == "ends":
        return json.dumps([end.as_json() for end in cutter.ends], separators=(",", ":")) if cutter.ends else ""
    value = getattr(cutter, key)
    if value is None:
        return ""
    if isinstance(value, tuple):
        return defused("; ".join(value))
    if isinstance(value, bool):
        return "yes" if value else "no"
    return defused(value) if isinstance(value, str) else repr(value)


def _line(cells: list[str]) -> str:
    line = io.StringIO()
    csv.writer(line, lineterminator="").writerow(cells)
    return line.getvalue()
