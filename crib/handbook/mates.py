"""A size from the part that goes into it: the fit by its name, and what the mate mikes."""

from __future__ import annotations

import re

from crib.findings.errors import CribError
from crib.handbook.fits import fit_limits
from crib.handbook.iso286 import deviations, source
from crib.light.records import dataclass
from crib.units import Size, read

_THOU = 0.0254

_ISO: dict[str, tuple[str, int, str, int]] = {
    "close sliding": ("H", 6, "g", 5), "sliding": ("H", 7, "g", 6), "snug": ("H", 7, "h", 6),
    "close running": ("H", 8, "f", 7), "free running": ("H", 9, "d", 9), "loose running": ("H", 11, "c", 11),
    "push": ("H", 7, "k", 6), "light press": ("H", 7, "n", 6), "press": ("H", 7, "p", 6), "drive": ("H", 7, "s", 6),
    "force": ("H", 7, "u", 6),
}
"""What a shop calls a fit, and its classes in the hole-basis system. The names of ANSI B4.2-1978, Preferred Metric
Fits, and of ANSI B4.1; push, snug, press and drive: common practice. All from memory."""

_OTHER_WORDS = {
    "slide": "sliding", "slip": "sliding", "easy sliding": "close running", "running": "close running",
    "free": "free running", "loose": "loose running", "close": "sliding", "locating": "snug", "location": "snug",
    "size": "snug", "tap": "push", "wringing": "push", "transition": "push", "keying": "light press",
    "interference": "press", "driving": "drive", "shrink": "force", "tight": "push",
}
_RC: dict[str, tuple[tuple[float, float], ...]] = {
    "RC1": ((.1, .45), (.15, .5), (.2, .6), (.25, .75), (.3, .95), (.4, 1.1), (.4, 1.2), (.5, 1.5)),
    "RC2": ((.1, .55), (.15, .65), (.2, .85), (.25, .95), (.3, 1.2), (.4, 1.4), (.4, 1.6), (.5, 2.0)),
    "RC3": ((.3, .95), (.4, 1.2), (.5, 1.5), (.6, 1.7), (.8, 2.1), (1.0, 2.6), (1.2, 3.1), (1.4, 3.7)),
    "RC4": ((.3, 1.3), (.4, 1.6), (.5, 2.0), (.6, 2.3), (.8, 2.8), (1.0, 3.6), (1.2, 4.2), (1.4, 5.0)),
    "RC5": ((.6, 1.6), (.8, 2.0), (1.0, 2.5), (1.2, 2.9), (1.6, 3.6), (2.0, 4.6), (2.5, 5.5), (3.0, 6.6)),
    "RC6": ((.6, 2.2), (.8, 2.7), (1.0, 3.3), (1.2, 3.8), (1.6, 4.8), (2.0, 6.1), (2.5, 7.3), (3.0, 8.7)),
    "RC7": ((1.0, 2.6), (1.2, 3.1), (1.6, 3.9), (2.0, 4.6), (2.5, 5.7), (3.0, 7.1), (4.0, 8.8), (5.0, 10.7)),
    "RC8": ((2.5, 5.1), (2.8, 5.8), (3.0, 6.6), (3.5, 7.9), (4.5, 10.0), (5.0, 11.5), (6.0, 13.5), (7.0, 15.5)),
    "RC9": ((4.0, 8.1), (4.5, 9.0), (5.0, 10.7), (6.0, 12.8), (7.0, 15.5), (8.0, 18.0), (9.0, 20.5), (10.0, 24.0)),
}
"""Least and most clearance [0.001 in] for sizes up to and including .12, .24, .40, .71, 1.19, 1.97, 3.15 and 4.73 in.
ANSI B4.1-1967, as Machinery's Handbook has it, 31st ed., tables 8a and 8b."""

_RC_TO = (0.12, 0.24, 0.40, 0.71, 1.19, 1.97, 3.15, 4.73)
_INCH_FIT = {"close sliding": "RC1", "sliding": "RC2", "close running": "RC4", "free running": "RC7",
             "loose running": "RC8"}
"""The inch practice of the same name. ANSI B4.1; which goes with which: common practice."""

NAMES = tuple(_ISO)
"""The fits by their names."""

WORDS = (*_ISO, *_OTHER_WORDS)
"""Every word for a fit, but those of its classes."""

_LENGTH = re.compile(r"(?<![\w./-])(?:\d+-\d+/\d+|\d+/\d+|\d*[.,]\d+|\d+)(?: ?(?:mm|inch(?:es)?|in|\"))?(?![\w/]|\.\d)")
_WORN = re.compile(r"\b(?:worn|wear|tired|old)\b", re.IGNORECASE)
_ABOUT = re.compile(r"\b(?:about|approx\w*|around|roughly|nearly|or so|abt|circa|ca)\b|~|\?", re.IGNORECASE)
_LEAST_WORN = re.compile(r"\b(?:least worn|unworn|at (?:the|its) ends?|widest|largest|not worn)\b", re.IGNORECASE)
_THING = re.compile(r"\b(?:tongue|key|shaft|pin|bar|tenon|slide|gib|block|spigot|bush|bushing|plug|rod|nut|bolt|"
                    r"stud|dowel|strip)\b", re.IGNORECASE)

MIKE_WORN = ("mike it where it ran least, at its ends and under covers, in three places along it, near the top and "
             "near the root; the largest counts, for the slot must pass it: give all of them")
"""What one measures on a part that is worn. Common practice, no source."""

MIKE = "mike it before the last cut; a fit isn't cut to a size that is about right"
"""What one says to a size that is about so much. Common practice, no source."""


@dataclass(frozen=True)
class Fit:
    """A fit: its name, its classes, its least and most clearance, below zero where it presses [mm], where it is from,
    and the classes of a hole's and a shaft's limits."""

    name: str
    classes: str
    least_mm: float
    most_mm: float
    source: str


@dataclass(frozen=True)
class Mate:
    """A size that was taken from its mate: the size with its limits, the fit, what the mate is and measures [mm], and
    what should be measured still."""

    size: Size
    fit: Fit
    what: str
    mate_mm: float
    ask: str = ""
    inch: str = ""

    def as_json(self) -> dict[str, object]:
        """What was chosen, lengths in mm."""
        return {"fit": self.fit.name, "classes": self.fit.classes, "what": self.what, "mate_mm": self.mate_mm,
                "limits_mm": [self.size.lo, self.size.hi], "least_clearance_mm": round(self.fit.least_mm, 6),
                "most_clearance_mm": round(self.fit.most_mm, 6), "ask": self.ask, "source": self.fit.source,
                "inch_practice": self.inch}


def fit_name(text: str) -> str:
    """The name of a fit as it is said in any words of the trade. Raises `CribError` for what is none.

    >>> fit_name("sliding fit"), fit_name("Wringing"), fit_name("rc2")
    ('sliding', 'push', 'RC2')
    """
    words = re.sub(r"\bfits?\b", "", text.lower()).strip(" .,")
    if words.upper().replace(" ", "") in _RC:
        return words.upper().replace(" ", "")
    name = _OTHER_WORDS.get(words, words)
    if name in _ISO or re.fullmatch(r"[a-zA-Z]{1,2}\d{1,2}/[a-z]{1,2}\d{1,2}", text.strip()):
        return name if name in _ISO else text.strip()
    raise CribError("fit", f"fit {text.strip()!r} is not known" if words else "which fit is it to be?", text,
                    f"one of {', '.join(NAMES)}; H7/g6 and the like; RC1 to RC9")


def fit_for(size_mm: float, text: str) -> Fit:
    """The fit of a size, by name or by classes. Raises `CribError`.

    Clearance: the hole's lower limit less the shaft's upper, and the upper less the lower. References: ISO 286-1:2010,
    3.2.10; ANSI B4.1-1967 for RC1 to RC9.

    >>> fit = fit_for(12.0, "sliding")
    >>> fit.classes, round(fit.least_mm, 3), round(fit.most_mm, 3)
    ('H7/g6', 0.006, 0.035)
    """
    name = fit_name(text)
    if name in _RC:
        least, most = _rc(size_mm, name)
        return Fit(name, name, least, most, "ANSI B4.1-1967 as Machinery's Handbook has it, 31st ed., tables 8a, 8b")
    hole, hole_grade, shaft, shaft_grade = _ISO.get(name) or _classes(name)
    low, high = deviations(size_mm, hole, hole_grade)
    under, over = deviations(size_mm, shaft, shaft_grade)
    classes = f"{hole}{hole_grade}/{shaft}{shaft_grade}"
    both = f"{source(f'{hole}{hole_grade}')}; {source(f'{shaft}{shaft_grade}')}"
    return Fit(name, classes, round(low - over, 6), round(high - under, 6), both)


def own_limits(size_mm: float, text: str) -> tuple[float, float, str]:
    """The limits of a hole or a slot of a fit, or of a class alone [mm], and where they are from. Raises `CribError`.

    >>> [round(mm, 3) for mm in own_limits(12.0, "sliding")[:2]], [round(mm, 3) for mm in own_limits(12.0, "F8")[:2]]
    ([12.0, 12.018], [12.016, 12.043])
    """
    if re.fullmatch(r"\s*[A-Za-z]{1,2}\d{1,2}\s*", text) and not text.strip().upper().startswith("RC"):
        return fit_limits(size_mm, text)
    name = fit_name(text)
    if name in _RC:
        raise CribError("fit", f"a fit of {name} wants its mate: only its clearance is in the table here", text,
                        "--to 'tongue .4975 measured'; or a class such as H7")
    hole, grade, *_ = _ISO.get(name) or _classes(name)
    lo, hi, whence = fit_limits(size_mm, f"{hole}{grade}")
    return lo, hi, f"{whence}, of a {name} fit"


def _classes(name: str) -> tuple[str, int, str, int]:
    found = re.fullmatch(r"([a-zA-Z]{1,2})(\d{1,2})/([a-z]{1,2})(\d{1,2})", name)
    assert found is not None
    return found[1].upper(), int(found[2]), found[3], int(found[4])


def _rc(size_mm: float, name: str) -> tuple[float, float]:
    place = next((at for at, most in enumerate(_RC_TO) if size_mm <= most * 25.4 + 1e-9), None)
    if place is None or size_mm <= 0:
        raise CribError("fit", f"the table of {name} ends at {_RC_TO[-1]} in", f"{size_mm / 25.4:.4f}",
                        "limits of its own: 5+.002-0")
    least, most = _RC[name][place]
    return least * _THOU, most * _THOU


def from_mate(text: str, fit: str, units: str) -> Mate:
    """The size that a part wants which goes round another, from what that one measures: `tongue .4975 measured`,
    `worn, .618 .6195 .617`. Of several sizes the largest counts. Raises `CribError` for no size, and for no fit.

    >>> mate = from_mate("tongue 12mm measured", "sliding", "in")
    >>> round(mate.size.lo, 3), round(mate.size.hi, 3), mate.what
    (12.006, 12.035, 'tongue')
    """
    lengths = [read(found[0].replace('"', "in"), units, "mate").mm for found in _LENGTH.finditer(text)]
    if not lengths:
        raise CribError("mate", f"the mate {text.strip()!r} has no size", text,
                        "what it mikes: --to 'tongue .4975 measured'")
    if max(lengths) > 1.1 * min(lengths):
        raise CribError("mate", f"the sizes of the mate {text.strip()!r} lie far apart", text,
                        "the size that goes in, in one place or several: --to 'worn tongue .618 .6195 .617'")
    largest = max(lengths)
    chosen = fit_for(largest, fit)
    about, worn = bool(_ABOUT.search(text)), bool(_WORN.search(text))
    thing = _THING.search(text)
    unsure = worn and (about or (len(lengths) < 3 and not _LEAST_WORN.search(text)))
    ask = MIKE_WORN if unsure else MIKE if about else ""
    lo, hi = round(largest + chosen.least_mm, 6), round(largest + chosen.most_mm, 6)
    size = Size(largest, lo, hi, text.strip(), True, doubtful=about)
    inch = _INCH_FIT.get(chosen.name, "")
    return Mate(size, chosen, thing[0].lower() if thing else "mate", largest, ask, inch)
