"""From a cutter to its row and back. Lengths turn from millimetres to whole nanometres here and nowhere else."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

from crib.cutters.base import CUTTER_KEYS, Cutter, unnamed
from crib.records import MISSING, fields
from crib.store.columns import CUTTER, LENGTH_COLUMNS, PLAIN
from crib.units import NM, nm

_REST = frozenset(CUTTER_KEYS) - {"id", "label", *PLAIN, *LENGTH_COLUMNS}
_read = json.JSONDecoder().decode
_write = json.JSONEncoder(ensure_ascii=False, separators=(",", ":"), sort_keys=True, allow_nan=False).encode
_LISTS = frozenset({"assumed", "measured", "stamped", "questions", "away", "overruled"})
_PLAIN_AT = slice(1, 1 + len(PLAIN))
_LENGTHS_AT = slice(_PLAIN_AT.stop, _PLAIN_AT.stop + len(LENGTH_COLUMNS))
_REST_AT = CUTTER.index("rest")
_DEFAULTS: dict[str, Any] = {field.name: field.default for field in fields(Cutter) if field.default is not MISSING}
_MORE = _REST - {"ends"}
_BLANK = {key: value for key, value in _DEFAULTS.items() if key != "label"}


def to_row(cutter: Cutter, came_from: str | None, typed: Mapping[str, str]) -> dict[str, Any]:
    """The values of a cutter's columns, all but its id. Lengths come on whole nanometres here."""
    known = cutter.__dict__
    row: dict[str, Any] = {key: known[key] for key in PLAIN}
    for key, column in LENGTH_COLUMNS.items():
        mm = known[key]
        row[column] = None if mm is None else nm(mm)
    rest = _rest(cutter)
    if cutter.ends:
        rest["ends"] = [_end(end) for end in cutter.ends]
    row["came_from"], row["typed"] = came_from, as_text(dict(typed)) if typed else "{}"
    row["rest"] = as_text(rest) if rest else "{}"
    return row


def as_read(cutter: Cutter, row: Mapping[str, Any], number: int, units: str) -> Cutter:
    """A cutter as it will be read back from the row that was made of it."""
    if cutter.ends:
        return from_row(tuple({**row, "id": number, "version": 1}[column] for column in CUTTER), units)
    known = {key: value for key, value in cutter.__dict__.items() if key in _BLANK}
    known["id"], known["kind"] = number, cutter.kind
    for key, column in LENGTH_COLUMNS.items():
        if known[key] is not None:
            known[key] = row[column] / NM
    return unnamed(known, units)


def as_said(cutter: Cutter) -> dict[str, Any]:
    """What is known of a cutter, as the history keeps it."""
    said = {key: list(value) if isinstance(value, tuple) else value for key, value in cutter.__dict__.items()
            if value is not None and value != () and key in _BLANK}
    if cutter.ends:
        said["ends"] = [end.as_json() for end in cutter.ends]
    return said | {"id": cutter.id, "kind": cutter.kind, "label": cutter.label}


def from_row(values: tuple[Any, ...], units: str) -> Cutter:
    """A cutter from the values of its columns in the order of `CUTTER`, named in the user's units.

    Written out for large cribs: what most rows have goes straight into the cutter's dictionary.
    """
    known = _BLANK.copy()
    known["id"] = values[0]
    known.update(zip(PLAIN, values[_PLAIN_AT], strict=True))
    known.update({key: length / NM for key, length in zip(LENGTH_COLUMNS, values[_LENGTHS_AT], strict=True)
                  if length is not None})
    if (rest := values[_REST_AT]) != "{}":
        more = _read(rest)
        if "ends" in more:
            more["ends"] = tuple(_from_end(end, values[0], units) for end in more["ends"])
        known.update(_known(more))
    return unnamed(known, units)


def whole(cutter: Cutter) -> Cutter:
    """The same cutter with its lengths on whole nanometres, as it will be read back."""
    changes = {key: nm(value) / NM for key in LENGTH_COLUMNS if (value := getattr(cutter, key)) is not None}
    return cutter.but(**changes, ends=tuple(whole(end) for end in cutter.ends))


def as_text(value: Any) -> str:
    """JSON as the store keeps it."""
    return _write(value)


def _lengths(cutter: Cutter) -> dict[str, int | None]:
    sizes = {column: getattr(cutter, key) for key, column in LENGTH_COLUMNS.items()}
    return {column: None if mm is None else nm(mm) for column, mm in sizes.items()}


def _millimetres(row: Mapping[str, Any]) -> dict[str, Any]:
    return {key: row[column] / NM for key, column in LENGTH_COLUMNS.items() if row.get(column) is not None}


def _rest(cutter: Cutter) -> dict[str, Any]:
    known = cutter.__dict__
    return {
        key: list(value) if isinstance(value, tuple) else value
        for key in _MORE if (value := known[key]) != _DEFAULTS[key]
    }


def to_note(cutter: Cutter) -> dict[str, Any]:
    """A cutter that isn't owned, as a note keeps it."""
    return _end(whole(cutter))


def from_note(kept: Mapping[str, Any], number: int, units: str) -> Cutter:
    """The cutter that a note kept, with a number, named in the user's units."""
    return _from_end(kept, number, units)


def _known(rest: Mapping[str, Any]) -> dict[str, Any]:
    """What this version knows of the rest; a newer one may have written more."""
    return {key: tuple(value) if key in _LISTS else value for key, value in rest.items() if key in _REST}


def _end(end: Cutter) -> dict[str, Any]:
    plain = {key: getattr(end, key) for key in PLAIN if getattr(end, key) != _DEFAULTS.get(key)}
    return plain | {column: size for column, size in _lengths(end).items() if size is not None} | _rest(end)


def _from_end(end: Mapping[str, Any], number: int, units: str) -> Cutter:
    plain = {key: end[key] for key in PLAIN if key in end}
    return unnamed(_BLANK | {"id": number} | plain | _millimetres(end) | _known(end), units)
