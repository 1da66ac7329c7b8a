"""Cells of a table read as words, where they aren't what the program itself would write: `Ball`, `Rougher`, `M42`,
`about 1/2`, `resharpened`."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from typing import Any

from crib.cutters import KINDS
from crib.cutters.base import LENGTH_KEYS
from crib.findings.errors import CribError
from crib.intake.attributes import ATTRIBUTES
from crib.intake.lists.texts import value_of
from crib.intake.reading import kept
from crib.intake.shorthand import doubt
from crib.intake.shorthand.idle import is_idle
from crib.intake.shorthand.line import Shop, kind_of_line, read_piece
from crib.intake.shorthand.slip import Held
from crib.light.records import dataclass, field

_IN_WORDS = ("condition", "material", "flutes", "centre_cutting", "hand", "reground", "tap_chamfer", "tap_point",
             "tap_form", "price")
_OF_A_REMARK = ("condition", "material", "reground", "hand", "centre_cutting")


@dataclass
class Cells:
    """The texts of a line by field, and what was read of them in words: values, notes and questions."""

    texts: dict[str, str]
    values: dict[str, Any] = field(default_factory=dict)
    notes: list[str] = field(default_factory=list)
    asks: list[str] = field(default_factory=list)


def in_words(texts: Mapping[str, str], units: Mapping[str, str]) -> Cells:
    """The cells of a line; those that can't be read as they stand are read as words, and stay where that fails too.

    >>> found = in_words({"kind": "Rougher", "diameter_mm": "1/2", "condition": "resharpened"}, {"diameter_mm": "in"})
    >>> found.texts, found.values, found.notes
    ({'kind': 'end-mill', 'diameter_mm': '1/2'}, {'reground': True}, ['roughing'])
    """
    cells = Cells(dict(texts))
    for key in LENGTH_KEYS:
        if key in cells.texts:
            _doubted(cells, key)
    if not _kind(cells, units):
        return cells
    for key in _IN_WORDS:
        if key in cells.texts:
            _cell(cells, key, units)
    _remark(cells)
    return cells


def _doubted(cells: Cells, key: str) -> None:
    """A size without the doubt that is said of it, which is asked about."""
    bare, words = doubt.mark(cells.texts[key])
    if not words:
        return
    said, _ = doubt.cut(bare, words)
    if said.strip():
        cells.texts[key] = said.strip()
        cells.asks.append(f"{ATTRIBUTES[key].name} {said.strip()} was said with {words[0]!r}: mic it")


def _kind(cells: Cells, units: Mapping[str, str]) -> bool:
    """The kind, with what its words say besides; whether there is one."""
    said = cells.texts.get("kind", "")
    if (name := " ".join(said.lower().replace("_", "-").split())) in KINDS:
        cells.texts["kind"] = name
        return True
    kind = kind_of_line(said)
    if kind is None:
        return False
    cells.texts["kind"] = kind
    across = next((f", {cells.texts[key]}{_unit(cells.texts[key], units.get(key, 'in'))} diameter"
                   for key in ("diameter_mm", "nominal_mm") if key in cells.texts), "")
    found = _read(said + across, kind) or _read(said, kind)
    if found is not None:
        _keep(cells, {key: value for key, value in found[0].items() if not (across and key == "diameter_mm")}, found[1])
    return True


def _cell(cells: Cells, key: str, units: Mapping[str, str]) -> None:
    """A cell that can't be read as its column's value."""
    try:
        value_of(key, cells.texts[key], units.get(key, "in"))
    except CribError:
        found = _read(cells.texts[key], cells.texts["kind"])
        if found is None or not found[0].keys() & {key, "reground", *_OF_A_REMARK}:
            return
        values = {one: value for one, value in found[0].items() if one in (*_IN_WORDS, "note")}
        del cells.texts[key]
        _keep(cells, values, found[1])


def _remark(cells: Cells) -> None:
    """What a remark says of the state, where all of it is understood; else it is asked."""
    said = cells.texts.get("note", "")
    found = _read(said, cells.texts["kind"]) if said and len(said) < 200 and not is_idle(said) else None
    if found is None:
        return
    values = {key: value for key, value in found[0].items() if key in _OF_A_REMARK and key not in cells.texts}
    rest = {key for key in found[0] if key in LENGTH_KEYS or key in ("flutes", "count")}
    if not values:
        return
    if rest or found[2]:
        cells.asks.append(f"does {kept(said)!r} say: " + ", ".join(_said(key, value) for key, value in values.items())
                          + "?")
        return
    _keep(cells, values, found[1])


def _said(key: str, value: object) -> str:
    return ATTRIBUTES[key].name if value is True else f"{ATTRIBUTES[key].name} {value}"


def _keep(cells: Cells, values: Mapping[str, Any], asks: Mapping[str, str]) -> None:
    for key, value in values.items():
        if key == "note":
            cells.notes.append(str(value))
        elif key in ATTRIBUTES and key not in cells.texts and key != "kind":
            cells.values.setdefault(key, value)
    cells.asks += [question for key, question in asks.items() if key in values or key == "note"]


@lru_cache(maxsize=16_384)
def _read(said: str, kind: str) -> tuple[dict[str, Any], dict[str, str], bool] | None:
    """What words say of a kind, what must be asked, and whether some of them say nothing; None where they can't be.
    Kept, for a table says the same again and again; nobody changes what comes."""
    try:
        values, _, asks, unused = read_piece(said, Shop(), kind)
    except (Held, CribError):
        return None
    return values, asks, bool(unused)


def _unit(text: str, units: str) -> str:
    return " mm" if units == "mm" and text.strip().replace(".", "", 1).isdigit() else ""
