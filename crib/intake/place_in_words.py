"""Where a feature of a part lies, in words: `in the top, 1 from the left`, taken out of a line before its question is
read."""

from __future__ import annotations

import re
from collections.abc import Mapping

from crib.findings.errors import CribError
from crib.findings.message import joined
from crib.light.records import dataclass
from crib.parts.frame import SIDES
from crib.parts.part import Face

_SIDE = r"(?P<side>top|bottom|front|back|left|right)"
_NUMBER = r"(?:\d+[- ]\d+/\d+|\d+/\d+|\d+[.,]\d+|\.\d+|\d+)(?:\s*(?:mm\b|in(?:ch(?:es)?)?\b|\"))?"
_SIZE = rf"(?<![\w./-])(?P<size>{_NUMBER})"
_LEAD = r"(?:[,;]\s*|\b(?:and|but|lies|lying|its (?:middle|centre))\s+)*"
_END = r"(?:[- ](?:hand )?(?:end|side|face|edge))?\b"
_FAR = re.compile(rf"{_LEAD}{_SIZE}\s+(?:(?:up|down|back|away|off)\s+)?from\s+(?:the\s+)?{_SIDE}{_END}", re.IGNORECASE)
_FACE = re.compile(rf"{_LEAD}\b(?:(?:in|into|on)\s+the\s+(?:(?P<end>left|right)[- ](?:hand )?(?:end|side|face)|"
                   r"(?P<side>top|bottom|front|back)(?:[- ](?:side|face))?(?![- ](?:\w+ )?(?:edge|corner)))|"
                   r"(?:in|on)\s+(?P<bare>top)(?=\s*(?:[,;]|$)))(?![\w-])", re.IGNORECASE)
_THROUGH = re.compile(r"(?:(?<=through )|(?<=thru )|(?<=down )|(?<=drilled )|(?<=bored ))from\s+(?:the\s+)?"
                      r"(?P<side>top|bottom|front|back)\b(?P<end>)(?P<bare>)", re.IGNORECASE)
"""The face that a hole is made from: no distance."""

_AT = re.compile(rf"{_LEAD}\bat\s+(?P<along>{_NUMBER})(?:\s*[,;]\s*(?P<across>{_NUMBER}))?"
                 r"(?=\s*(?:$|[,;](?!\s*\.?\d)|(?:in|on)\s+the\b))", re.IGNORECASE)
_RUNS = re.compile(rf"{_LEAD}\b(?:(?:runs|running)\s+(?P<way>along|across)(?:\s+it)?|(?P<it>along|across)\s+it)\b",
                   re.IGNORECASE)
_ENDS = {"left": "left end", "right": "right end"}
_LOOSE = re.compile(rf"\bfrom\s+(?:the\s+)?{_SIDE}\b", re.IGNORECASE)


@dataclass(frozen=True)
class InWords:
    """What of a line tells no place, and what its place is, by the options of a feature: face, at, runs, from."""

    rest: str
    said: Mapping[str, str]

    @property
    def echo(self) -> str:
        """The place as it was read, as it may be said again; empty where none was."""
        return in_words(self.said)


def read_lying(line: str, units: str, given: Mapping[str, str] | None = None) -> InWords:
    """The place that a line tells. `given`: what options say of it. Raises `CribError` for what is told twice or can't
    be together.

    >>> found = read_lying("1/2 slot 1/4 deep in the front, 2-1/2 from the left, 1 from the bottom", "in")
    >>> found.rest, dict(found.said)
    ('1/2 slot 1/4 deep', {'face': 'front', 'from': 'left bottom', 'at': '2-1/2, 1'})
    """
    given = given or {}
    rest, far = _taken(_FAR, line)
    rest, faces = _taken(_FACE, rest)
    rest, begun = _taken(_THROUGH, rest)
    faces += begun
    rest, ways = _taken(_RUNS, rest)
    rest, places = _taken(_AT, rest)
    if loose := _LOOSE.search(rest):
        raise CribError("place", f"{loose[0]!r} doesn't say how far", loose[0], f"1 {loose[0]}")
    said: dict[str, str] = {}
    if face := _only(faces):
        said["face"] = (face["end"] or face["side"] or face["bare"]).lower()
    if way := _only(ways):
        said["runs"] = (way["way"] or way["it"]).lower()
    where = given.get("face", "").strip().lower() or said.get("face", "top")
    if far and where in tuple(Face):
        said |= _distances(far, Face(where), units, way)
    if at := _only([*places, *far] if places else []):
        said["at"] = ", ".join(" ".join(size.replace(",", ".").split()) for size in (at["along"], at["across"]) if size)
    for key, text in said.items():
        if given.get(key, text).strip().lower() != text:
            raise CribError("place", f"its place is said in words, {in_words(said)!r}, and by --{key} {given[key]} too",
                            given[key], f"one of them: leave out --{key}, or the words")
    if "at" in said and "at" in given:
        raise CribError("place", f"its place is said in words, {in_words(said)!r}, and by --at {given['at']} too",
                        given["at"], "one of them: leave out --at, or the words")
    return InWords(rest, said)


def in_words(said: Mapping[str, str]) -> str:
    """A place by its options, in words that read back as the same; by sizes alone it counts as `--at` does.

    >>> in_words({"face": "top", "at": "1", "from": "left", "runs": "across"})
    'in the top, 1 from the left, across it'
    """
    far = zip(said.get("at", "").split(", "), said.get("from", "").split(), strict=False)
    counted = [f"at {said['at']}"] if "at" in said and "from" not in said else []
    return ", ".join([*counted, *([f"in the {_ENDS.get(said['face'], said['face'])}"] if "face" in said else []),
                      *(f"{size} from the {side}" for size, side in far),
                      *([f"{said['runs']} it"] if "runs" in said else [])])


def _taken(pattern: re.Pattern[str], line: str) -> tuple[str, list[re.Match[str]]]:
    """The line without what matches, and that."""
    found = list(pattern.finditer(line))
    return re.sub(r"\s+", " ", pattern.sub(" ", line)).strip(" ,;"), found


def _plain(one: re.Match[str]) -> str:
    return re.sub(r"^(?:[,;\s]|and\b|but\b)+", "", one[0]).strip()


def _only(found: list[re.Match[str]]) -> re.Match[str] | None:
    """The one that there is. Raises `CribError` where there are more."""
    if len(found) > 1:
        raise _twice(found[0], found[1])
    return found[0] if found else None


def _twice(one: re.Match[str], other: re.Match[str]) -> CribError:
    return CribError("place", f"its place is told twice: {_plain(one)!r} and {_plain(other)!r}", _plain(other),
                     "one of them")


def _distances(far: list[re.Match[str]], face: Face, units: str, way: re.Match[str] | None) -> dict[str, str]:
    """How far from which sides, along first. Raises `CribError`."""
    along, across = SIDES[face]
    told: dict[int, re.Match[str]] = {}
    for one in far:
        side = one["side"].lower()
        if side not in (*along, *across):
            raise CribError("place", f"{_plain(one)!r} is no place on the {face}", _plain(one),
                            f"on the {face}: from the {joined(', ', (*along, *across))}; or say another face: "
                            f"in the front ...")
        if units == "mm" and re.search(r"\din\b|\sin\b", one["size"]):
            raise CribError("place", f"is {one['size']!r} so many inches, or mm?", one["size"],
                            f"{one['size'].split('in')[0].strip()}mm from the {side}")
        axis = int(side in across)
        if axis in told:
            raise _twice(told[axis], one)
        told[axis] = one
    said = {"from": " ".join(told[axis]["side"].lower() for axis in sorted(told)),
            "at": ", ".join(" ".join(told[axis]["size"].replace(",", ".").split()) for axis in sorted(told))}
    return said if len(told) == 2 else said | _run(told, way)


def _run(told: Mapping[int, re.Match[str]], way: re.Match[str] | None) -> dict[str, str]:
    """Which way runs what is told one distance of, which is across its run."""
    [(axis, one)] = told.items()
    runs = "along" if axis else "across"
    if way is not None and (way["way"] or way["it"]).lower() != runs:
        raise CribError("place", f"{_plain(way)!r} and {_plain(one)!r} can't be together: one distance is across its "
                        "run", _plain(one), f"{runs} it, or how far from the other sides too")
    return {"runs": runs}
