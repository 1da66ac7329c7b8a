"""JSON: a list of cutters, as finding prints them. Lengths are numbers in millimetres, or texts as typed."""

from __future__ import annotations

import json
import math
import re
from collections.abc import Mapping
from typing import Any

from crib.cutters.base import LENGTH_KEYS, Cutter
from crib.findings.errors import CribError
from crib.intake.attributes import ATTRIBUTES, is_unknown, key_of, read_value
from crib.intake.build import build
from crib.intake.reading import Reading, Taken, kept, unsaid, with_extra
from crib.store import HeldBack
from crib.units import NM, nm
from crib.units.words import told

_IGNORED = ("id", "label", "history")
_WRAPPERS = ("cutters", "taken_in")
_HELP = 'a list of cutters: [{"kind": "end-mill", "diameter_mm": 12.7}]'
_LISTS = ("assumed", "measured", "stamped", "questions", "away", "overruled")
_LONGEST_MM = 10_000
_DIGITS_FIRST = re.compile(r"\s*[.,]?[0-9]")


def read_json(text: str, name: str, units: str, currency: str, defaults: Mapping[str, str]) -> Reading:
    """The cutters of a JSON text; a held back one's line is its place in the list.

    Raises `CribError` for what isn't JSON, or isn't a list of cutters.
    """
    entries = _entries(text, name)
    if not entries:
        raise CribError("empty-file", f"the file {name} holds no cutters", name, _HELP)
    taken, held = [], []
    for place, entry in enumerate(entries, start=1):
        try:
            taken.append(_taken(entry, units, currency, defaults))
        except CribError as error:
            why, help = told(error.finding, units)
            held.append(HeldBack(place, kept(_dumped(entry)), kept(why), kept(help), name,
                                 beside={"units": units, "defaults": dict(defaults)}))
    return Reading(tuple(taken), tuple(held))


def read_again(text: str, units: str, currency: str, defaults: Mapping[str, str],
               instead: Mapping[str, str]) -> tuple[Taken, ...]:
    """An entry once more, with texts by field in the place of what it says. Raises `CribError` where it still can't be
    taken in."""
    [entry] = _entries(f"[{text}]", "it")
    if isinstance(entry, dict):
        entry = {name: value for name, value in entry.items() if key_of(name) not in instead}
        entry |= {ATTRIBUTES[key].name: said for key, said in instead.items()}
    return (_taken(entry, units, currency, defaults),)


def ends_of(cutter: Cutter, text: str, currency: str) -> Cutter:
    """The cutter with its ends from their JSON, as an export has them. Raises `CribError`."""
    whole = read_json(json.dumps([{"kind": cutter.kind, "diameter_mm": 1.0, "ends": _loaded(text)}]), "ends", "mm",
                      currency, {})
    return cutter.but(ends=whole.taken[0].cutter.ends) if whole.taken else cutter


def _loaded(text: str) -> object:
    try:
        return json.loads(text)
    except ValueError as error:
        raise CribError("ends", "the ends aren't JSON", text,
                        "as an export has them, or leave the cell empty") from error


def _dumped(entry: Any) -> str:
    try:
        return json.dumps(entry)
    except RecursionError:
        return "(nested too deeply to show)"


def _entries(text: str, name: str) -> list[Any]:
    try:
        whole = json.loads(text)
    except json.JSONDecodeError as error:
        raise CribError("json", f"the file {name} isn't JSON: {error.msg.lower()} in line {error.lineno}, "
                                f"column {error.colno}", name, _HELP) from error
    except (RecursionError, ValueError) as error:
        raise CribError("json", f"the file {name} can't be read as JSON: {kept(str(error))}", name, _HELP) from error
    if isinstance(whole, dict):
        whole = next((whole[key] for key in _WRAPPERS if key in whole), [whole] if "kind" in whole else None)
    if not isinstance(whole, list):
        raise CribError("json", f"the file {name} isn't a list of cutters", name, _HELP)
    return whole


def _taken(entry: Any, units: str, currency: str, defaults: Mapping[str, str], whole: bool = True) -> Taken:
    """One cutter, or one end of a `whole` one."""
    if not isinstance(entry, dict):
        raise CribError("json", "it isn't a cutter", _dumped(entry)[:80], _HELP)
    values: dict[str, Any] = {key: read_value(key, text, units) for key, text in defaults.items()}
    typed, questions, extra, unread = {}, [], [], {}
    for name, value in entry.items():
        if name in _IGNORED or value is None:
            continue
        key = key_of(name) if name != "ends" or whole else None
        try:
            if key == "ends":
                values["ends"] = tuple(_taken(end, units, currency, {"kind": str(entry.get("kind"))}, False).cutter
                                       for end in _list(value))
            elif key in ATTRIBUTES and key is not None:
                if name.endswith("_mm"):
                    _check_number(name, key, value)
                values[key] = _value(key, value, "mm" if name.endswith("_mm") else units)
                if key in LENGTH_KEYS and isinstance(value, str):
                    typed[key] = value.strip()
            else:
                extra.append(f"{name}: {_dumped(value)}")
        except CribError as error:
            if key == "kind":
                raise
            why, _ = told(error.finding, units)
            questions.append(kept(why))
            extra += unsaid(name, value if isinstance(value, str) else _dumped(value), why)
            if key is not None:
                unread[key] = error
    return Taken(build(with_extra(_whole(values), extra), currency, questions, unread), typed)


def _check_number(name: str, key: str, value: Any) -> None:
    """Raises `CribError` for a drill's letter or number where millimetres belong."""
    if isinstance(value, str) and not is_unknown(key, value) and not _DIGITS_FIRST.match(value):
        raise CribError("length", f"{name} {value.strip()[:40]!r} is not a number of mm", value[:80],
                        f'a number of mm, such as "{name}": 12.7')


def _whole(values: dict[str, Any]) -> dict[str, Any]:
    """Values where only what is known is said to be measured, and the ends ask nothing of their own."""
    if "measured" in values:
        values["measured"] = tuple(key for key in values["measured"] if values.get(key) is not None)
    if "ends" in values:
        values["ends"] = tuple(end.but(questions=()) for end in values["ends"])
    return values


def _list(value: Any) -> list[Any]:
    if not isinstance(value, list):
        raise CribError("json", f"{_dumped(value)[:80]} is not a list", _dumped(value)[:80], _HELP)
    return value


def _value(key: str, value: Any, units: str) -> Any:
    """A value of JSON as the field's own: numbers of a length are millimetres, everything else is read as typed."""
    name = ATTRIBUTES[key].name
    if key in _LISTS and isinstance(value, list):
        if key in ("questions", "away", "overruled"):
            reader = "note" if key == "questions" else key
            parts = [read_value(reader, str(part), units) for part in value]
            return tuple(parts) if key == "questions" else tuple(one for part in parts for one in part)
        return read_value(key, ",".join(map(str, value)), units)
    if isinstance(value, list | dict):
        raise CribError("json", f"{name} {_dumped(value)[:80]} is more than one size or word", name, _HELP)
    if isinstance(value, bool):
        return read_value(key, "yes" if value else "no", units)
    if key in LENGTH_KEYS and isinstance(value, int | float):
        return _length(key, value, name)
    return read_value(key, value if isinstance(value, str) else repr(value), units)


def _length(key: str, value: float, name: str) -> float:
    """A number of millimetres. Zero goes where the attribute allows it."""
    if not 0 <= value <= _LONGEST_MM or not math.isfinite(value):
        raise CribError("length", f"{name} {value!r} is not a length in mm", str(value), "a number of mm above zero")
    if nm(value) == 0:
        return float(read_value(key, "0", "mm"))
    return nm(value) / NM
