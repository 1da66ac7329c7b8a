"""A part's text, as TOML: read block by block, so that what can't be read stays by itself."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from difflib import get_close_matches
from typing import Any

from crib.findings.errors import CribError
from crib.findings.finding import Finding
from crib.handbook.materials import find_material
from crib.handbook.not_here import special
from crib.light.records import replace
from crib.light.tuples import NamedTuple
from crib.parts.blocks import Block, blocks_of, fault_line, line_of, line_told, not_toml, parsed, unread
from crib.parts.part import Part, Placed, Stock
from crib.parts.placing import PLACE_KEYS, places_of
from crib.parts.stock import read_stock

HEAD_KEYS = ("name", "stock", "material", "units", "hours", "fits", "use", "datum", "notes")
"""What the head of a part says."""

OWN_KEYS = ("name", "kind", "after", "units", *PLACE_KEYS)
"""What a feature's block says beside what the feature is asked with."""


class ReadPart(NamedTuple):
    """A part, and what of its text couldn't be read; no part where its stock can't. `blocks`: of which lines each of
    its features was read."""

    part: Part | None
    unread: tuple[Finding, ...]
    blocks: Mapping[str, Block]

    @property
    def whole(self) -> Part:
        """The part. Raises `CribError` where its stock couldn't be read."""
        if self.part is None:
            raise CribError.of(self.unread[0])
        return self.part


def part_from_toml(text: str, name: str = "part") -> ReadPart:
    """A part from its text; `name` is what it is called where its text doesn't say. Nothing is raised: a line of the
    head that can't be read is passed over, a feature of which one can't be read too, and both are told with their line.
    """
    head, *rest = blocks_of(text)
    faults: list[Finding] = []
    part = _head(head, name, faults)
    if part is None:
        return ReadPart(None, tuple(faults), {})
    features: dict[str, Placed] = {}
    blocks: dict[str, Block] = {}
    lost: set[str] = set()
    for block in rest:
        try:
            one = _feature(block, part, features)
            features[one.name], blocks[one.name] = one, block
        except CribError as error:
            faults.append(error.finding)
            lost.add(_called(block))
    kept = _with_known(features, blocks, lost, faults)
    told = tuple(sorted(faults, key=line_told))
    return ReadPart(replace(part, features=kept, unread=told), told, blocks)


def _head(block: Block, name: str, faults: list[Finding]) -> Part | None:
    """What the head says, without the lines that can't be read; None where there is no stock among them."""
    said = _passing_over(block, faults)
    units = str(said.get("units", "in")).strip()
    if units not in ("in", "mm"):
        faults.append(unread(line_of(block, "units"), f"units {units!r} are neither in nor mm", units, 'units = "in"'))
        units = "in"
    for key in said.keys() - set(HEAD_KEYS):
        faults.append(_unknown(block, key, HEAD_KEYS, "a part"))
    values: dict[str, Any] = {key: str(said[key]).strip() for key in ("fits", "use") if key in said}
    values["notes"] = _names(said.get("notes", []))
    for key, reads in (("material", _material), ("hours", _hours), ("datum", _datum)):
        try:
            values[key] = reads(said[key]) if key in said else getattr(_PLAIN, key)
        except CribError as error:
            faults.append(_at(block, key, error))
    try:
        stock = read_stock(said.get("stock", ""), units)
    except CribError as error:
        faults.insert(0, _at(block, "stock", error))
        return None
    return Part(name=str(said.get("name", "")).strip() or name, stock=stock, units=units, **values)


_PLAIN = Part("", Stock(1, 1, 1))


def _passing_over(block: Block, faults: list[Finding]) -> Mapping[str, Any]:
    """What a block says without its lines that can't be read."""
    while True:
        try:
            return parsed(block)
        except tomllib.TOMLDecodeError as error:
            faults.append(not_toml(block, error))
            at = fault_line(block, error) - block.first
            lines = ["" if place == at else line for place, line in enumerate(block.lines)]
            if lines == list(block.lines):
                return {}
            block = Block(block.first, tuple(lines))


def _material(value: object) -> str:
    words = str(value).strip()
    if words and special(words) is None:
        find_material(words)
    return words


def _hours(value: object) -> float:
    try:
        hours = float(str(value))
    except ValueError:
        hours = -1.0
    if not 0 <= hours < 1e6:
        raise CribError("hours", f"hours {value!r} are no number of 0 or more", str(value), "hours = 6")
    return hours


def _datum(value: object) -> str:
    words = str(value).lower().split()
    if not words or set(words) - {"front", "back", "left", "right", "top", "bottom"}:
        raise CribError("datum", f"datum {value!r} is no corner", str(value), 'datum = "front left"')
    return " ".join(words)


def _feature(block: Block, part: Part, before: Mapping[str, Placed]) -> Placed:
    """The feature of a block. Raises `CribError` with its line."""
    try:
        said = parsed(block)
    except tomllib.TOMLDecodeError as error:
        raise CribError.of(not_toml(block, error)) from error
    kind = str(said.get("kind", "")).strip()
    if not kind:
        raise CribError.of(unread(block.first, "the feature doesn't say its kind", "", 'kind = "slot"'))
    texts = {key.replace("-", "_"): _text(value) for key, value in said.items() if key not in OWN_KEYS}
    name = str(said.get("name", "")).strip() or _free_name(kind, before)
    if name in before:
        raise CribError.of(unread(line_of(block, "name"), f"two features are called {name!r}", name,
                                  "another name for one of them"))
    typed_in = str(said.get("units", part.units))
    try:
        if typed_in not in ("in", "mm"):
            raise CribError("units", f"units {typed_in!r} are neither in nor mm", typed_in, 'units = "in"')
        first, *more = places_of(said, texts, part, typed_in)
    except CribError as error:
        key = next((key for key in ("units", *PLACE_KEYS) if key in said and str(error.finding.read) in str(said[key])),
                   "kind")
        raise CribError.of(_at(block, key, error)) from error
    if more:
        texts["count"] = str(1 + len(more))
    return Placed(name, kind, texts, first, typed_in, _names(said.get("after", [])), tuple(more))


def _text(value: object) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    return ", ".join(map(str, value)) if isinstance(value, list) else str(value)


def _names(value: object) -> tuple[str, ...]:
    """One name, or several."""
    return tuple(map(str, value)) if isinstance(value, list) else (str(value),)


def _free_name(kind: str, before: Mapping[str, Placed]) -> str:
    """A name for a feature that has none: its kind's, with a number where that is taken."""
    names = (kind if number == 1 else f"{kind} {number}" for number in range(1, len(before) + 2))
    return next(name for name in names if name not in before)


def _called(block: Block) -> str:
    """What a feature that can't be read is called, where that can."""
    try:
        said = parsed(block)
    except tomllib.TOMLDecodeError:
        return ""
    return str(said.get("name") or said.get("kind") or "").strip()


def _with_known(features: Mapping[str, Placed], blocks: Mapping[str, Block], lost: set[str], faults: list[Finding]
                ) -> tuple[Placed, ...]:
    """The features, each after such only as there are; others are told, but not those that are told as `lost`."""
    found = []
    for one in features.values():
        for other in one.after:
            if other not in features and other not in lost:
                near = get_close_matches(other, features, 1) or sorted(features)
                faults.append(unread(line_of(blocks[one.name], "after"), f"{one.name} is to come after {other!r}, "
                                     "which the part hasn't got", other, f"one of {', '.join(near)}"))
        found.append(replace(one, after=tuple(other for other in one.after if other in features)))
    return tuple(found)


def _unknown(block: Block, key: str, known: tuple[str, ...], of: str) -> Finding:
    near = get_close_matches(key, known, 1)
    return unread(line_of(block, key), f"{of} has no {key!r}", key,
                  f"did you mean {near[0]}?" if near else "one of " + ", ".join(known))


def _at(block: Block, key: str, error: CribError) -> Finding:
    """What is wrong with a key's value, with its line."""
    found = error.finding
    return unread(line_of(block, key), found.says, found.read, found.fix or "")
