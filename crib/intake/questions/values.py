"""A size or an angle where it stands in a line, with all that belongs to it: its unit, its limits, its class, a
doubt."""

from __future__ import annotations

import re
from collections.abc import Sequence

from crib.intake.questions.sheet import GAP
from crib.intake.questions.tokens import Token, tokens
from crib.light.tuples import NamedTuple

UNITS = {"mm": "mm", "millimetre": "mm", "millimetres": "mm", "millimeter": "mm", "millimeters": "mm", '"': '"',
         "inch": "in", "inches": "in", "in": "in", "ins": "in", "thou": " thou", "mil": " mil", "mils": " mil"}
_DEGREES = ("°", "deg", "degs", "degree", "degrees")
_ABOUT = ("about", "approx", "approximately", "around", "roughly", "circa", "ca", "abt", "nearly", "say")
_ARTICLES = ("a", "an", "the", "my", "our", "this", "that", "some", "its", "it", "all", "one", "each", GAP)
"""What stands behind an `in` that is no unit."""

_WORK = ("shaft", "shafts", "spindle", "axle", "bar", "rod", "hub", "bore", "plate", "block")
"""What stands behind its own size, and has something cut in it."""

_CLASSES_WORDS = """a b c d e f g h js k m n p r s t u v y z za zb zc"""
_CLASSES = frozenset(_CLASSES_WORDS.split())
_NUMBERED = ("drill", "screw", "screws", "machine", "cap", "socket", "flat", "bolt", "bolts")
"""What goes by a number, as it stands behind one."""

_ANGLES = ("30", "45", "55", "60", "82", "90")
"""Figures that are angles ahead of a fraction where one is asked for: the 90 of `vee 90 1/2 wide`. Common practice."""

_NEAR = 1.5
"""How many times one limit the other may be where only a `to` stands between them."""


class Value(NamedTuple):
    """A size or an angle: as it would be typed to an option, where it stands, whether it has nothing but figures."""

    text: str
    start: int
    end: int
    is_angle: bool = False
    is_bare: bool = False


class Of(NamedTuple):
    """What a value is of: something that has an angle, or a radius; `R6` behind a size is no class of limits then."""

    has_angle: bool = False
    has_radius: bool = False


class _At:
    """A place in the line: what stands there, and what is passed."""

    def __init__(self, line: str, pieces: Sequence[Token], place: int, of: Of = Of()) -> None:
        self.line, self.pieces, self.place, self.of, self.is_metric = line, pieces, place, of, False

    def text(self, ahead: int = 0) -> str:
        at = self.place + ahead
        return self.pieces[at].text if 0 <= at < len(self.pieces) else ""

    def has_number(self, ahead: int = 0) -> bool:
        return bool(text := self.text(ahead)) and text[-1].isdigit()

    def touches(self, ahead: int = 0) -> bool:
        """Whether a piece stands right behind the one before it."""
        at = self.place + ahead
        return 0 < at < len(self.pieces) and self.pieces[at].start == self.pieces[at - 1].end

    def skip(self, *words: str) -> bool:
        """Pass these words, if they stand here one after the other."""
        if all(self.text(ahead) == word for ahead, word in enumerate(words)):
            self.place += len(words)
            return True
        return False


def value_at(line: str, pieces: Sequence[Token], place: int, of: Of = Of()) -> tuple[Value, int] | None:
    """The value that begins at a piece, and the piece behind it; None where none does."""
    at = _At(line, pieces, place, of)
    doubt = at.skip("~") or (at.text() in _ABOUT and bool(at.skip(at.text())) and (at.skip(".") or True))
    parts: list[str] = []
    begins = at.place
    named = at.skip("between") or at.skip("from")
    if not _length(at, parts):
        return None
    if named:
        joint = at.text()
        if joint not in ("and", "to") or not at.has_number(1):
            return None
        at.place += 1
        second: list[str] = []
        _length(at, second)
        text = f"{parts[0]} to {second[0]}"
    else:
        text = parts[0] + _limits(at, parts[0])
    is_angle = at.text() in _DEGREES
    while at.text() in _DEGREES:
        at.place += 1
    if is_angle:
        text += _even(at)
        if at.text() in _DEGREES:
            at.place += 1
    doubt = _doubted(at) or doubt
    is_bare = not (doubt or named or is_angle) and at.place == begins + 1
    first, last = pieces[place], pieces[at.place - 1]
    return Value(f"about {text}" if doubt else text, first.start, last.end, is_angle, is_bare), at.place


def _drill(at: _At, parts: list[str]) -> bool:
    """A drill by its letter or its number: `letter F`, `F drill`, `no. 7 drill`."""
    named = at.skip("letter")
    if len(word := at.text()) == 1 and word.isalpha() and (named or at.text(1) == "drill"):
        at.place += 1
        parts.append(word.upper())
        return True
    ahead = 1 + (at.text(1) == ".")
    if at.text() in ("number", "no", "num") and at.text(ahead).isdigit() and at.text(ahead + 1) in _NUMBERED:
        at.place += ahead + 1
        parts.append("#" + at.text(-1))
        return True
    return False


def _length(at: _At, parts: list[str]) -> bool:
    """A figure with its unit, a whole number before its fraction."""
    if _drill(at, parts):
        return True
    if not at.has_number():
        return False
    text = at.text()
    at.place += 1
    if text.isdigit() and _is_part(at.text()) and not at.touches() and not (at.of.has_angle and text in _ANGLES):
        text += "-" + at.text()
        at.place += 1
    parts.append(text + _unit(at))
    return True


def _is_part(text: str) -> bool:
    """Whether a figure is what stands behind a whole number: a proper fraction of a rule."""
    top, _, bottom = text.partition("/")
    return top.isdigit() and bottom in ("2", "4", "8", "16", "32", "64") and 0 < int(top) < int(bottom)


def _unit(at: _At) -> str:
    word = at.text()
    if word == "'" and at.text(1) == "'" and at.touches(1):
        at.place += 2
        return '"'
    is_no_unit = word == "in" and not at.touches() and (at.text(1) in _ARTICLES or at.is_metric or _is_of_work(at)
                                                            or (at.has_number(1) and at.text(2) == "mm"))
    if word not in UNITS or is_no_unit:
        return ""
    at.is_metric = at.is_metric or UNITS[word] == "mm"
    at.place += 1
    if word == "in":
        _ = at.text() == "." and at.touches() and at.skip(".")
    return UNITS[word]


def _is_of_work(at: _At) -> bool:
    """Whether an `in` leads to the work and its size: `606 in 1 inch shaft`, `3/16 in 3/4 bar`."""
    ahead = 1
    while at.has_number(ahead) or (ahead > 1 and at.text(ahead) in UNITS):
        ahead += 1
    return ahead > 1 and at.text(ahead) in _WORK


def _limits(at: _At, first: str) -> str:
    """What stands behind a figure as its limits: a tolerance, a class, or the other limit."""
    if found := _even(at) or _two(at):
        return found
    word = at.text()
    is_class = word in _CLASSES and at.touches(1) and at.text(1).isdigit() and len(at.text(1)) < 3
    if is_class and (at.touches() or (word != "m" and not (word == "r" and at.of.has_radius))):
        apart = "" if at.touches() else " "
        at.place += 2
        return apart + at.line[at.pieces[at.place - 2].start : at.pieces[at.place - 1].end]
    both = _is_decimal(first) and _is_decimal(at.text(1))
    if word == "/" and both:
        return _other(at, "/")
    if word == "-" and both:
        return _other(at, "-")
    if word == "to" and at.has_number(1) and _is_near(first, at.text(1)):
        return _other(at, " to ")
    return ""


def limits_of(text: str) -> str:
    """A tolerance that stands by itself, as an option takes it behind its size.

    >>> limits_of("+.001/-.000"), limits_of("plus or minus .002")
    ('+.001 -.000', '±.002')
    """
    at = _At(text, tokens(text.lower()), 0)
    return (_even(at) or _two(at)).strip()


def _other(at: _At, joint: str) -> str:
    at.place += 1
    parts: list[str] = []
    _length(at, parts)
    return joint + parts[0]


def _is_decimal(text: str) -> bool:
    return ("." in text or "," in text) and any(sign.isdigit() for sign in text)


def _is_near(first: str, second: str) -> bool:
    """Whether two figures can be the limits of one size."""
    one, other = figure(first), figure(second)
    return bool(one and other) and max(one, other) <= _NEAR * min(one, other)


def figure(text: str) -> float:
    """A figure's value, whatever its unit; 0 for none."""
    bare = re.sub(r"[a-z\" ]+$", "", text).replace(",", ".").lstrip("#")
    whole, dash, part = bare.rpartition("-")
    top, stroke, bottom = part.partition("/")
    try:
        return (float(whole) if dash else 0.0) + (float(top) / float(bottom) if stroke else float(top))
    except (ValueError, ZeroDivisionError):
        return 0.0


def _even(at: _At) -> str:
    """A tolerance to both sides."""
    for signs in (("±",), ("+", "/", "-"), ("+", "-"), ("plus", "or", "minus"), ("plus", "and", "minus")):
        if all(at.text(ahead) == sign for ahead, sign in enumerate(signs)) and at.has_number(len(signs)):
            at.place += len(signs)
            parts: list[str] = []
            _length(at, parts)
            return f" ±{parts[0]}"
    return ""


def _two(at: _At) -> str:
    """A tolerance with its two sides, or one that lacks one."""
    found = ""
    for _ in range(2):
        ahead = 1 if found and at.text() == "/" else 0
        sign = {"+": "+", "plus": "+", "-": "-", "minus": "-"}.get(at.text(ahead), "")
        is_break = at.text(ahead) == "-" and not found and not at.touches(ahead + 1)
        if not sign or not at.has_number(ahead + 1) or is_break or (sign == "-" and not found and not _small(at)):
            break
        at.place += ahead + 1
        parts: list[str] = []
        _length(at, parts)
        found += f" {sign}{parts[0]}"
    return found


def _small(at: _At) -> bool:
    """Whether what stands behind a minus is a tolerance rather than another size."""
    return at.text(1).strip("0") in ("", ".") or _is_decimal(at.text(1))


def _doubted(at: _At) -> bool:
    """A doubt behind a value."""
    return (at.skip("or", "so") or at.skip("-", "ish") or at.skip("ish") or at.skip("or", "thereabouts")
            or at.skip("?") or at.skip("more", "or", "less"))
