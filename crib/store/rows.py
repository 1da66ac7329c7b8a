"""From a cutter to its row and back. Lengths turn from millimetres to whole nanometres here and nowhere else."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from functools import lru_cache
from operator import attrgetter, itemgetter

from crib.cutters.base import CUTTER_KEYS, Cutter
from crib.cutters.cutter import Open, copied, unnamed
from crib.light.hints import Any
from crib.light.records import MISSING, fields
from crib.store.columns import CUTTER, CUTTER_READ, LENGTH_COLUMNS, PLAIN
from crib.store.database import Row
from crib.units import NM, nm

REST = ("reground", "hand", "angle_deg", "flutes", "centre_cutting", "end_teeth", "tap_chamfer", "tap_form",
        "tap_point", "limit", "price", "currency", "assumed", "measured", "stamped", "questions", "away", "overruled",
        "ends")
"""What stands in the column `rest`."""

_read = json.JSONDecoder().decode
_ENCODER = json.JSONEncoder(ensure_ascii=False, separators=(",", ":"), sort_keys=True, allow_nan=False)
_maker = getattr(json.encoder, "c_make_encoder", None)
_in_pieces = _maker(None, _ENCODER.default, json.encoder.encode_basestring, None, ":", ",", True, False,
                    False) if _maker else None  # the library makes it anew for each text, which takes as long again
_LISTS = frozenset({"assumed", "measured", "stamped", "questions", "away", "overruled"})
_DEFAULTS: dict[str, Any] = {field.name: field.default for field in fields(Cutter) if field.default is not MISSING}
_BLANK = Cutter(0, "")
_PLAIN_AND_LENGTHS = (*PLAIN, *LENGTH_COLUMNS.values())
_MORE = REST[:-1]
_MORE_DEFAULTS = tuple(_DEFAULTS[key] for key in _MORE)
_SAID = tuple(key for key in CUTTER_KEYS if key not in ("id", "kind", "label", "ends", *_LISTS))
_SAID_LISTS = tuple(sorted(_LISTS))
_plain_of, _lengths_of, _more_of, _said_of, _lists_of = (
    attrgetter(*keys) for keys in (PLAIN, LENGTH_COLUMNS, _MORE, _SAID, _SAID_LISTS))
_to_read = itemgetter(*(CUTTER.index(column) for column in CUTTER_READ))

_MOST_KEPT = 4096
"""So many texts are kept while rows are read: most say what others say."""


def to_row(cutter: Cutter, came_from: str | None, typed: Mapping[str, str]) -> dict[str, Any]:
    """The values of a cutter's columns, all but its id. Lengths come on whole nanometres here."""
    lengths = [None if mm is None else nm(mm) for mm in _lengths_of(cutter)]
    row: dict[str, Any] = dict(zip(_PLAIN_AND_LENGTHS, (*_plain_of(cutter), *lengths), strict=True))
    row["came_from"], row["typed"] = came_from, as_text(dict(typed)) if typed else "{}"
    row["rest"] = as_text(_rest(cutter) | {"ends": [_end(end) for end in cutter.ends]}) if cutter.ends else (
        _rest_text(*_more_of(cutter)))
    return row


@lru_cache(maxsize=1024, typed=True)
def _rest_text(*values: Any) -> str:
    """The text of `rest` by its values: most cutters have what others have."""
    return as_text(_unusual(values))


def as_read(cutter: Cutter, row: Mapping[str, Any], number: int, units: str) -> Cutter:
    """A cutter as it will be read back from the row that was made of it."""
    if cutter.ends:
        return from_row(tuple({**row, "id": number, "version": 1}[column] for column in CUTTER), units)
    made = copied(cutter)
    made.id = number
    for key, column in LENGTH_COLUMNS.items():
        if (length := row[column]) is not None:
            setattr(made, key, length / NM)
    return unnamed(made, units)


def as_said(cutter: Cutter) -> dict[str, Any]:
    """What is known of a cutter, as the history keeps it."""
    said = {key: value for key, value in zip(_SAID, _said_of(cutter), strict=True) if value is not None}
    for key, values in zip(_SAID_LISTS, _lists_of(cutter), strict=True):
        if values:
            said[key] = list(values)
    if cutter.ends:
        said["ends"] = [end.as_json() for end in cutter.ends]
    said["id"], said["kind"], said["label"] = cutter.id, cutter.kind, cutter.label
    return said


def from_row(values: Row, units: str) -> Cutter:
    """A cutter from the values of its columns in the order of `CUTTER`, named in the user's units."""
    return from_rows((_to_read(values),), units)[0]


def from_rows(rows: Iterable[Row], units: str, versions: dict[int, int] | None = None) -> list[Cutter]:
    """Cutters from the values of their columns in the order of `CUTTER_READ`, named in the user's units. `versions`
    gets those that were changed since they were taken in, by number.

    Written out for large cribs: each value goes straight to where it stays, and texts are kept once.
    """
    every, texts, rests = [], _Texts(), _Rests()
    for row in rows:
        one = Open()
        (one.id, kind, one.count, drawer, condition, material, thread, one.marking, one.note, diameter, nominal, face,
         neck, fillet, reach, shank, cut, overall, corner, radius, tip, bore, pilot, hole, rest, version) = row
        one.kind, one.drawer, one.condition = texts[kind], texts[drawer], texts[condition]
        one.material, one.thread = texts[material], texts[thread]
        one.diameter_mm = diameter if diameter is None else diameter / NM
        one.nominal_mm = nominal if nominal is None else nominal / NM
        one.face_mm = face if face is None else face / NM
        one.neck_mm = neck if neck is None else neck / NM
        one.neck_fillet_mm = fillet if fillet is None else fillet / NM
        one.reach_mm = reach if reach is None else reach / NM
        one.shank_mm = shank if shank is None else shank / NM
        one.length_of_cut_mm = cut if cut is None else cut / NM
        one.overall_length_mm = overall if overall is None else overall / NM
        one.corner_radius_mm = corner if corner is None else corner / NM
        one.radius_mm = radius if radius is None else radius / NM
        one.tip_mm = tip if tip is None else tip / NM
        one.bore_mm = bore if bore is None else bore / NM
        one.pilot_mm = pilot if pilot is None else pilot / NM
        one.min_hole_mm = hole if hole is None else hole / NM
        (one.reground, one.hand, one.angle_deg, one.flutes, one.centre_cutting, one.end_teeth, one.tap_chamfer,
         one.tap_form, one.tap_point, one.limit, one.price, one.currency, one.assumed, one.measured, one.stamped,
         one.questions, one.away, one.overruled, ends) = rests[rest]
        one.ends = tuple(_from_end(end, one.id, units) for end in ends) if ends else ()
        one.label, one._alike, one._units = None, None, units
        one.__class__ = Cutter
        every.append(one)
        if versions is not None and version != 1:
            versions[one.id] = version
    return every


class _Texts(dict[Any, Any]):
    """The one of texts that are equal."""

    def __missing__(self, text: Any) -> Any:
        if len(self) >= _MOST_KEPT:
            self.clear()
        self[text] = text
        return text


class _Rests(dict[str, tuple[Any, ...]]):
    """What is read of `rest`: the values of `REST` by its text."""

    def __missing__(self, text: str) -> tuple[Any, ...]:
        if len(self) >= _MOST_KEPT:
            self.clear()
        known = _DEFAULTS | _known(_read(text))
        self[text] = found = tuple(known[key] for key in REST)
        return found


def whole(cutter: Cutter) -> Cutter:
    """The same cutter with its lengths on whole nanometres, as it will be read back."""
    changes = {key: nm(value) / NM for key in LENGTH_COLUMNS if (value := getattr(cutter, key)) is not None}
    return cutter.but(**changes, ends=tuple(whole(end) for end in cutter.ends))


def as_text(value: Any) -> str:
    """JSON as the store keeps it."""
    return "".join(_in_pieces(value, 0)) if _in_pieces else _ENCODER.encode(value)


def _lengths(cutter: Cutter) -> dict[str, int | None]:
    sizes = zip(LENGTH_COLUMNS.values(), _lengths_of(cutter), strict=True)
    return {column: None if mm is None else nm(mm) for column, mm in sizes}


def _millimetres(row: Mapping[str, Any]) -> dict[str, Any]:
    return {key: row[column] / NM for key, column in LENGTH_COLUMNS.items() if row.get(column) is not None}


def _rest(cutter: Cutter) -> dict[str, Any]:
    return _unusual(_more_of(cutter))


def _unusual(values: tuple[Any, ...]) -> dict[str, Any]:
    """Of the values of `_MORE` those that aren't the usual ones."""
    if values == _MORE_DEFAULTS:
        return {}
    return {key: list(value) if isinstance(value, tuple) else value
            for key, value, usual in zip(_MORE, values, _MORE_DEFAULTS, strict=True) if value != usual}


def to_note(cutter: Cutter) -> dict[str, Any]:
    """A cutter that isn't owned, as a note keeps it."""
    return _end(whole(cutter))


def from_note(kept: Mapping[str, Any], number: int, units: str) -> Cutter:
    """The cutter that a note kept, with a number, named in the user's units."""
    return _from_end(kept, number, units)


def _known(rest: Mapping[str, Any]) -> dict[str, Any]:
    """What this version knows of the rest; a newer one may have written more."""
    return {key: tuple(value) if key in _LISTS else value for key, value in rest.items() if key in REST}


def _end(end: Cutter) -> dict[str, Any]:
    plain = {key: getattr(end, key) for key in PLAIN if getattr(end, key) != _DEFAULTS.get(key)}
    return plain | {column: size for column, size in _lengths(end).items() if size is not None} | _rest(end)


def _from_end(end: Mapping[str, Any], number: int, units: str) -> Cutter:
    made = copied(_BLANK)
    made.id = number
    plain = {key: end[key] for key in PLAIN if key in end}
    for key, value in (plain | _millimetres(end) | _known(end)).items():
        setattr(made, key, value)
    return unnamed(made, units)
