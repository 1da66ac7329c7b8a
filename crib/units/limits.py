"""A size with its limits as drawings and shops write them: `5/8 +.002/-0`, `16 ±0,02`, `.500/.502`, `.500-.502`,
`between 5/8 and .627`, `about .62`. Apart from `crib.units.read_size`, for it is long in loading."""

from __future__ import annotations

import re

from crib.findings.errors import CribError
from crib.findings.message import Text
from crib.light.patterns import pattern
from crib.units.exact import LONGEST_TEXT, check_length, nearest, value_of
from crib.units.length import Length, Size
from crib.units.read import read

_UNIT = r"(?:\s*(?:mm|millimet(?:er|re)s?|inch(?:es)?|in\.?|[\"”″]|thou|mil)(?![a-z]))?"
_DECIMAL = r"(?:\d*[.,]\d+|\d+)"
_LENGTH = rf"(?:\d+-\d+/\d+|\d+ \d+/\d+|\d+/\d+|{_DECIMAL}){_UNIT}"
_ZERO = r"(?:0+(?:[.,]0*)?|[.,]0+)"
_SIGNED = rf"[+-]\s*(?:\d+/\d+|{_DECIMAL}){_UNIT}"

_EVEN = pattern(r"^(?P<size>.+?)\s*(?:±|\+\s*/\s*-|\+-)\s*(?P<both>.+)$")
_TWO = pattern(rf"^(?P<size>.+?)(?P<first>\s*{_SIGNED}|\s+{_ZERO})\s*/?\s*(?P<second>{_SIGNED}|(?<=[\s/]){_ZERO})$",
               re.IGNORECASE)
_ONE = pattern(rf"^(?P<size>.+?)\s*(?P<only>{_SIGNED})$", re.IGNORECASE)
_WORDS = pattern(r"^(?:between\s+(?P<least>.+?)\s+and|(?:from\s+)?(?P<first>.+?)\s+to)\s+(?P<last>.+)$",
                 re.IGNORECASE)
_OVER = pattern(rf"^(?=.*[.,]\d)(?P<first>{_LENGTH})\s*/\s*(?P<last>{_DECIMAL}{_UNIT})$", re.IGNORECASE)
_DASH = pattern(rf"^(?P<first>{_LENGTH})\s*-\s*(?P<last>{_LENGTH})$", re.IGNORECASE)
_ABOUT = pattern(r"^(?:(?:about|approx(?:imately)?|around|roughly|circa|ca)(?:\.\s*(?=[\d.])|\s+)|~\s*)"
                 r"(?P<size>.+)$", re.IGNORECASE)
_NAMED = pattern(r"(mm|millimet\w*|inch(?:es)?|in\.?|[\"”″]|thou|mil)\s*$", re.IGNORECASE)
_MIXED = pattern(r"^\d+\s*-\s*\d+/\d+$")

_HELP = "limits are written 5/8 +.002 -0, 16mm ±.02, .500/.502 or .500 to .502"
_WIDEST, _WIDEST_DOWN = 2.0, 1.1
"""How many times the lesser limit the greater may be: behind a stroke or a dash, and behind a dash that could be a
minus as well."""


def size_of(text: str, units: str, what: str, default_mm: tuple[float, float], about_mm: tuple[float, float]) -> Size:
    """A size with its limits; see `crib.units.read_size`.

    >>> for text in (".500/.502", ".502 - .500", "between 1/2 and .502", "1/2 +.002/-0", ".501 ±.001"):
    ...     size = size_of(text, "in", "width", (0.0, 0.0), (0.0, 0.0))
    ...     assert (size.lo, size.hi) == (12.7, 12.7508), text
    """
    check_length(text, what, 2 * LONGEST_TEXT)
    bare = _plain(text)
    if found := _ABOUT.match(bare):
        size = _around(read(found["size"], units, what), *about_mm, text, False)
        return Size(size.nominal, size.lo, size.hi, size.text, False, doubtful=True)
    if found := _WORDS.match(bare):
        return _between(found["least"] or found["first"], found["last"], units, what, text)
    with_tolerance = _with_tolerance(bare, units, what, text)
    if with_tolerance:
        return with_tolerance
    try:
        return _around(read(text, units, what), *default_mm, text, False)
    except CribError:
        for pattern in (_OVER, _DASH):
            if (found := pattern.match(bare)) and not _is_nought(found["first"], found["last"]):
                return _close(found["first"], found["last"], units, what, text, pattern is _DASH)
        if (found := _ONE.match(bare)) and re.match(rf"^{_LENGTH}$", found["size"], re.IGNORECASE):
            only = "".join(found["only"].split())
            both = f"{only} -0" if only.startswith("+") else f"+0 {only}"
            raise _wrong(text, what, "has one limit only", f"both: {found['size']} {both}") from None
        raise


def _plain(text: str) -> str:
    """With the signs of a keyboard, and signs where words stand for them."""
    bare = re.sub(r"[−–—]", "-", " ".join(text.split()))
    bare = re.sub(r"\bplus (?:or|and) minus\b", "±", bare, flags=re.IGNORECASE)
    return re.sub(r"\bminus\b", "-", re.sub(r"\bplus\b", "+", bare, flags=re.IGNORECASE), flags=re.IGNORECASE)


def _with_tolerance(bare: str, units: str, what: str, text: str) -> Size | None:
    for form in (_EVEN, _TWO):
        found = form.match(bare)
        if not found or _DASH.match(bare):
            continue
        parts = found.groupdict()
        try:
            length = read(parts["size"], units, what)
        except CribError:
            continue
        if "both" in parts:
            most = _deviation(parts["both"], length.unit, what, text)
            return _around(length, -most, most, text, True)
        if _MIXED.match(parts["size"].strip() + parts["first"].strip()):
            mixed = "".join((parts["size"] + parts["first"]).split())
            raise _wrong(text, what, f"has one limit only, or is {mixed} no size", f"{mixed} +.002 -0")
        lower, upper = sorted(_signed(parts[one], length.unit, what, text) for one in ("first", "second"))
        return _around(length, lower, upper, text, True)
    return None


def _signed(text: str, unit: str, what: str, whole: str) -> float:
    bare = text.strip()
    value = _deviation(bare.lstrip("+-"), unit, what, whole)
    return -value if bare.startswith("-") else value


def _around(length: Length, lower: float, upper: float, text: str, given: bool) -> Size:
    lo, hi = length.mm + lower, length.mm + upper
    if lo <= 0:
        raise CribError("tolerance", f"the tolerance of {text.strip()!r} takes the size to nothing", text,
                        "a smaller tolerance, or a size above it")
    return Size(length.mm, round(lo, 9), round(hi, 9), text.strip(), given)


def _deviation(text: str, unit: str, what: str, whole: str) -> float:
    """A deviation in mm; zero is allowed, and neither a sixty-fourth nor a drill is looked for in it."""
    unread = CribError("tolerance", f"the tolerance {text.strip()!r} of {what} {whole.strip()!r} can't be read", whole,
                       "a tolerance is written 5/8+.002-0 or 16mm±.02")
    if "#" in text or not any(map(str.isdigit, text)):
        raise unread
    try:
        value, _ = value_of(text, unit, what, sixty_fourths=False)
    except CribError as error:
        raise unread from error
    return nearest(value)


def _close(first: str, last: str, units: str, what: str, text: str, is_dash: bool) -> Size:
    """Limits with a stroke or a dash between them, which could mean something else where they lie far apart."""
    size = _between(first, last, units, what, text)
    goes_down = is_dash and _limit(first, _unit(first, last, units, what, text), what) > size.lo
    unclear = is_dash and ((first + last).isdigit() or _MIXED.match(f"{first}-{last}"))
    if unclear or size.hi > size.lo * (_WIDEST_DOWN if goes_down else _WIDEST) + 1e-9:
        wide = f"between {last} and {first}" if goes_down else f"between {first} and {last}"
        raise _wrong(text, what, "could be limits that lie far apart, a size less something, or a mixed number",
                     f"for limits: {wide}; for a tolerance: {first} +0 -.002; a mixed number: 1-3/4")
    return size


def _between(first: str, last: str, units: str, what: str, text: str) -> Size:
    """Both limits, in whichever order; their middle is aimed at."""
    unit = _unit(first, last, units, what, text)
    lo, hi = sorted((_limit(first, unit, what), _limit(last, unit, what)))
    return Size(round((lo + hi) / 2, 9), lo, hi, text.strip(), True)


def _limit(text: str, unit: str, what: str) -> float:
    """A limit is what it says: .9688 isn't 31/32 here [mm]."""
    read(text, unit, what)
    return nearest(value_of(text, unit, what, sixty_fourths=False)[0])


def _unit(first: str, last: str, units: str, what: str, text: str) -> str:
    """The unit of two limits, of which one may go without."""
    said = {found for found in map(_said_unit, (first, last)) if found}
    if len(said) > 1:
        raise _wrong(text, what, "has one limit in inches and one in mm", "both in one unit: .500 to .502")
    return said.pop() if said else units


def _said_unit(text: str) -> str:
    if found := _NAMED.search(text):
        word = found[1].lower()
        return "mm" if word.startswith("m") and word != "mil" else "in"
    return "in" if re.search(r"\d/\d|[#a-z]", text, re.IGNORECASE) else ""


def _is_nought(*limits: str) -> bool:
    return any(re.fullmatch(_ZERO + _UNIT, one, re.IGNORECASE) for one in limits)


def _wrong(text: str, what: str, says: str, right: Text) -> CribError:
    return CribError("tolerance", f"{what} {text.strip()!r} {says}", text, right or _HELP)
