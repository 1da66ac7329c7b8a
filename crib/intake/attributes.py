"""Every attribute of a cutter that can be typed: its option, what it means, and how its text is read."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from functools import partial

from crib.cutters import KINDS
from crib.cutters.away import read_away
from crib.cutters.base import CHOICES, CUTTER_KEYS
from crib.findings.errors import CribError
from crib.intake.near import one_of
from crib.intake.reading import kept
from crib.light.hints import Any
from crib.light.patterns import pattern
from crib.light.records import dataclass
from crib.units import NM, nm, read
from crib.units.length import HELP

Reader = Callable[[str, str, str], Any]
"""From a text, the units and the attribute's name to a value; raises `CribError`."""

_LONGEST_WORD = 200
_LONGEST_SIZE = 60
_MOST = 1_000_000
_UNKNOWN = ("unknown", "none", "?")
_YES, _NO = ("yes", "y", "true", "1"), ("no", "n", "false", "0")
_ZERO = pattern(r"^0*[.,]?0*\s*(mm|in|\")?$", re.IGNORECASE)
_ANGLE = pattern(r"\s*(°|deg(rees?)?)$", re.IGNORECASE)


@dataclass(frozen=True)
class Attribute:
    """One attribute. `name` is how it is said; its option is the same behind two hyphens."""

    key: str
    help: str
    read: Reader

    @property
    def name(self) -> str:
        """`length-of-cut` for `length_of_cut_mm`."""
        return self.key.removesuffix("_mm").removesuffix("_deg").replace("_", "-")

    @property
    def option(self) -> str:
        """The attribute's option on the command line."""
        return f"--{self.name}"


def read_length(text: str, units: str, name: str, may_be_zero: bool = False) -> float:
    """A length in mm on whole nanometres; raises `CribError` for nonsense, and for zero unless that is allowed."""
    if may_be_zero and text.strip() and _ZERO.match(text.strip()):
        return 0.0
    if len(text) > _LONGEST_SIZE:
        raise CribError("length", f"{name} {text[:20]!r}... is not a length", text[:80], HELP)
    return nm(read(text, units, name).mm) / NM


def read_number(text: str, name: str, least: float, most: float, what: str, such: str = "") -> float:
    """A number between two others; raises `CribError`, where `what` says what it should have been, and `such` how that
    is written."""
    bare = text.strip()
    try:
        value = float(bare.replace(",", "."))
    except ValueError:
        value = math.nan
    if not least <= value <= most or "_" in bare:
        shown = f"{name} {bare!r} is not {what}" if bare else f"{name} is empty"
        raise CribError("number", shown, text, f"{what}, such as {such or f'{max(least, 4):g}'}")
    return value


def _angle(text: str, units: str, name: str) -> float:
    return read_number(_ANGLE.sub("", text.strip()), name, 1e-3, 360, "a number of degrees")


def read_whole(least: int, text: str, name: str, such: str = "") -> int:
    """A whole number from the least that is allowed; raises `CribError`."""
    bare = text.strip()
    value = read_number(text, name, least, _MOST, f"a whole number from {least}", such)
    if value != int(value):
        raise CribError("number", f"{name} {bare!r} is not a whole number", text, f"a whole number from {least}")
    return int(value)


def _count(least: int, text: str, units: str, name: str) -> int:
    return read_whole(least, text, name)


def _price(text: str, units: str, name: str) -> float:
    return read_number(text, name, 0, _MOST, "a price for one, without the currency")


def _yes_no(text: str, units: str, name: str) -> bool:
    word = text.strip().lower()
    if word not in (*_YES, *_NO):
        raise CribError("yes-no", f"{name} {text.strip()!r} is neither yes nor no", text, "yes or no")
    return word in _YES


def _choice(names: tuple[str, ...], text: str, units: str, name: str) -> str:
    word = " ".join(text.lower().replace("_", "-").split())
    hyphened = word.replace(" ", "-").replace("center", "centre")
    for form in (word, hyphened, word.replace("-", " ")):
        if form in names:
            return form
    shown = f"{name} {text.strip()!r} is not known" if word else f"{name} is empty"
    gone = f"; of one that is gone: crib now NUMBER {word}" if word in _GONE else ""
    raise CribError("choice", shown, text, one_of(word, names) + gone)


_GONE = ("broken", "snapped", "lost", "scrapped")
"""What isn't a condition any more: it is told in words, and the cutter is off the list."""


def _text(text: str, units: str, name: str) -> str:
    """The owner's own words, kept as they were typed however odd; showing them safely is up to whoever shows them."""
    bare = text.strip()
    if not bare:
        raise CribError("text", f"{name} is empty", text, "some words, or leave it out")
    return kept(bare)


def _word(text: str, units: str, name: str) -> str:
    """A short text that means something to the program."""
    bare = _text(text, units, name)
    if len(bare) > _LONGEST_WORD:
        raise CribError("text", f"{name} is {len(bare)} characters long", bare[:40],
                        f"at most {_LONGEST_WORD} characters")
    if odd := next((sign for sign in bare if not _is_plain(sign)), None):
        raise CribError("text", f"{name} has a sign in it that can't be shown, {odd!a}", ascii(bare), "plain words")
    return bare


def _is_plain(sign: str) -> bool:
    return sign in "\n\t" or (sign.isprintable() and not "\ud800" <= sign <= "\udfff") or sign.isspace()


_HOW = ("measured", "stamped", "assumed")
"""Attributes that say of others how they are known."""


def _keys(text: str, units: str, name: str) -> tuple[str, ...]:
    names = [word for word in re.split(r"[,;\s]+", text) if word]
    return tuple(dict.fromkeys(_key(word, name) for word in names))


def _key(word: str, name: str) -> str:
    key = key_of(word)
    if key is None or key not in ATTRIBUTES or key in _HOW:
        raise CribError("key", f"{name} {word!r} is nothing that is kept of a cutter", word,
                        one_of(word, [attribute.name for attribute in ATTRIBUTES.values()]))
    return key


def _sentences(text: str, units: str, name: str) -> tuple[str, ...]:
    return tuple(_text(part, units, name) for part in text.split(";") if part.strip())


def _overruled(text: str, units: str, name: str) -> tuple[str, ...]:
    from crib.rules.overruling import checked

    return tuple(checked(part) for part in _sentences(text, units, name))


def _absences(text: str, units: str, name: str) -> tuple[str, ...]:
    return tuple(str(read_away(part)) for part in _sentences(text, units, name))


_SIZE: Reader = read_length
_SIZE_OR_ZERO: Reader = partial(read_length, may_be_zero=True)

ATTRIBUTES: dict[str, Attribute] = {attribute.key: attribute for attribute in (
    Attribute("kind", "What it is: " + ", ".join(KINDS), partial(_choice, tuple(KINDS))),
    Attribute("diameter_mm", "Diameter over the teeth", _SIZE),
    Attribute("nominal_mm", "Size stamped on it", _SIZE),
    Attribute("face_mm", "Height of the teeth along the axis", _SIZE),
    Attribute("neck_mm", "Diameter of the neck behind the teeth", _SIZE),
    Attribute("neck_fillet_mm", "Radius between neck and teeth or shank", _SIZE_OR_ZERO),
    Attribute("reach_mm", "From the lower face to where anything fatter than the neck begins", _SIZE),
    Attribute("shank_mm", "Diameter of the shank", _SIZE),
    Attribute("length_of_cut_mm", "Length of the flutes that cut", _SIZE),
    Attribute("overall_length_mm", "Whole length", _SIZE),
    Attribute("corner_radius_mm", "Radius at an end mill's corner: 0 square, half the diameter ball", _SIZE_OR_ZERO),
    Attribute("radius_mm", "Radius that a corner-rounding or form cutter makes", _SIZE),
    Attribute("angle_deg", "Dovetail, single angle: from the face; others: the included angle", _angle),
    Attribute("tip_mm", "Flat at a point's tip or a dovetail cutter's corner, pilot of a centre drill", _SIZE_OR_ZERO),
    Attribute("bore_mm", "Hole for an arbor", _SIZE),
    Attribute("pilot_mm", "Diameter of a counterbore's pilot", _SIZE),
    Attribute("min_hole_mm", "Smallest hole that a boring bar goes into", _SIZE),
    Attribute("flutes", "How many flutes or teeth", partial(_count, 1)),
    Attribute("centre_cutting", "Whether it can go straight down: yes or no", _yes_no),
    Attribute("end_teeth", "Whether it has teeth on its end: yes or no", _yes_no),
    Attribute("thread", "Thread of a tap: 1/4-20, M6x1", _word),
    *(Attribute(key, "One of " + ", ".join(names), partial(_choice, names)) for key, names in CHOICES.items()),
    Attribute("limit", "Limit of a tap: H3, D5", _word),
    Attribute("reground", "Whether it was ground under its stamped size: yes or no", _yes_no),
    Attribute("measured", "Which of the sizes were measured, by name: diameter,neck", _keys),
    Attribute("stamped", "What was read off its marking, by name", _keys),
    Attribute("assumed", "What is only assumed, by name", _keys),
    Attribute("count", "How many of them", partial(_count, 0)),
    Attribute("drawer", "Where it lies", _text),
    Attribute("marking", "What is stamped or etched on it", _text),
    Attribute("price", "What one cost", _price),
    Attribute("currency", "Currency of the price: USD", _word),
    Attribute("note", "Anything else", _text),
    Attribute("questions", "What must still be asked, with ; between", _sentences),
    Attribute("away", "What is lent or lost, as crib now says it, with ; between", _absences),
    Attribute("overruled", "Rules that don't hold for it, each with your words: 'SP1 I run that saw at 80'; unknown: "
              "none", _overruled),
)}

_CHOICES = {"kind": tuple(KINDS), **CHOICES, "centre_cutting": ("yes", "no"), "end_teeth": ("yes", "no"),
            "reground": ("yes", "no")}


def choices_of(key: str) -> tuple[str, ...]:
    """What there is to choose from for an attribute; nothing where it is typed freely.

    >>> choices_of("reground"), choices_of("neck_mm")
    (('yes', 'no'), ())
    """
    return _CHOICES.get(key, ())


ALIASES = {"center_cutting": "centre_cutting", "teeth": "flutes", "location": "drawer", "quantity": "count"}


def key_of(name: str) -> str | None:
    """The cutter's field that a name means, with or without its unit; None where it means none."""
    word = "_".join(part for part in re.split(r"[\s_()\[\]-]+", name.lower()) if part)
    word = re.sub(r"_(in|inch|inches)$", "", word)
    word = ALIASES.get(word, word)
    return next((key for key in (word, f"{word}_mm", f"{word}_deg") if key in CUTTER_KEYS), None)


def is_unknown(key: str, text: str) -> bool:
    """Whether a text says that a value isn't known, for an attribute that has no such choice of its own."""
    return text.strip().lower() in _UNKNOWN and "unknown" not in CHOICES.get(key, ())


def read_value(key: str, text: str, units: str) -> Any:
    """The value of an attribute from its text; None where it says `unknown`. Raises `CribError`."""
    attribute = ATTRIBUTES[key]
    if is_unknown(key, text) and key not in ("kind", "count", "reground", "hand"):
        return () if key in (*_HOW, "questions", "away", "overruled") else None
    return attribute.read(text, units, attribute.name)
