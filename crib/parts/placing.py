"""Where a feature lies, from the words that its owner has for it: which face, how far from which corner, which way."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Any

from crib.findings.errors import CribError
from crib.handbook.sizes import read_size
from crib.parts.frame import SIDES, across_its_run, frame_of
from crib.parts.lengths import read_position
from crib.parts.part import Face, Part, Place, Runs

PLACE_KEYS = ("face", "at", "runs", "from", "toward", "level")
"""What may be said of a feature's place."""

_ALL_SIDES = ("left", "right", "front", "back", "top", "bottom")


def places_of(said: Mapping[str, Any], texts: Mapping[str, str], part: Part, units: str) -> tuple[Place, ...]:
    """Every place that is said. Raises `CribError` for what can't be read.

    `at`: how far along and across, `1, .75`; of what runs one number says how far across its run, and it begins at the
    edge. More places stand behind a semicolon, or in a list.
    """
    face = Face(_one_of(said, "face", tuple(Face), "top"))
    runs = Runs(_one_of(said, "runs", tuple(Runs), "along"))
    level = _position(str(said.get("level", "0")), units, "level")
    frame = frame_of(part.stock, face)
    far = _far_sides(str(said.get("from", part.datum)), face)
    turned = _turned(said, face, runs)
    length = _length(texts, units)
    found = []
    for text in _each(said.get("at", "0")):
        along, across = _both(text, units, runs)
        if far[0]:
            along = _from_far(along, frame.length, length, runs is Runs.ALONG)
        if far[1]:
            across = _from_far(across, frame.width, length, runs is Runs.ACROSS)
        found.append(Place(face, round(along, 6), round(across, 6), runs, level, turned))
    return tuple(found)


def _one_of(said: Mapping[str, Any], key: str, known: Sequence[str], usual: str) -> str:
    word = str(said.get(key, usual)).strip().lower()
    if word not in known:
        raise CribError("place", f"{key} {word!r} is not known", word, f"{key}: one of {', '.join(known)}")
    return word


def _each(value: object) -> list[str]:
    texts = [str(one) for one in value] if isinstance(value, list | tuple) else str(value).split(";")
    return [text for text in texts if text.strip()] or ["0"]


def _both(text: str, units: str, runs: Runs) -> tuple[float, float]:
    """How far along and across; of what runs a single number is across its run."""
    parts = [part for part in text.split(",") if part.strip()]
    if not 1 <= len(parts) <= 2 or " x " in text:
        raise CribError("place", f"at {text.strip()!r} is no place", text.strip(), "along, across: 1-1/2, .75")
    values = [_position(part, units, "at") for part in parts]
    if len(values) == 2:
        return values[0], values[1]
    return (0.0, values[0]) if runs is Runs.ALONG else (values[0], 0.0)


def _position(text: str, units: str, what: str) -> float:
    try:
        return read_position(text, units, what)
    except CribError as error:
        raise CribError("place", error.finding.says, text.strip(), error.finding.fix or "") from error


def _far_sides(words: str, face: Face) -> tuple[bool, bool]:
    """Whether along, and across, count from the far side."""
    sides = re.findall(r"[a-z]+", words.lower())
    if unknown := [side for side in sides if side not in _ALL_SIDES]:
        raise CribError("place", f"from {unknown[0]!r} is no side", words, f"from: {', '.join(_ALL_SIDES)}")
    (_, right), (_, back) = SIDES[face]
    return right in sides, back in sides


def _from_far(value: float, extent: float, length: float | None, is_run: bool) -> float:
    """A place counted from the far edge, as counted from the near one; along a run where that begins. What begins at
    the edge and has no length goes all the way."""
    if not is_run:
        return extent - value
    return extent - value - length if length is not None else extent - value if value else 0.0


def _turned(said: Mapping[str, Any], face: Face, runs: Runs) -> bool | None:
    if "toward" not in said:
        return None
    near, far = across_its_run(face, runs)
    word = _one_of(said, "toward", (near, far), near)
    return word == near


def _length(texts: Mapping[str, str], units: str) -> float | None:
    """How long what runs is; None where it goes all the way, or where that can't be read."""
    try:
        return read_size(texts["length"], units, "length", (0.0, 0.0), (0.0, 0.0)).nominal
    except (CribError, KeyError):
        return None
