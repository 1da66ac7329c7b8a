"""Numbers that are said in words turned into figures: `five sixteenths` is 5/16, `quarter twenty` 1/4-20."""

from __future__ import annotations

import re

from crib.intake.number_words import ONES, PARTS, TENS
from crib.light.patterns import pattern

_NUMBER_SIZES = (0, 2, 3, 4, 5, 6, 8, 10, 12)
"""Screw sizes that go by a number."""

_LEAST_TPI = 13
_SEVERAL = frozenset(word for word in PARTS if word.endswith("s"))
"""Parts of which a figure says how many, as some programs write what they hear: `3 eighths`."""

_SAID = frozenset(word for word in (*ONES, *TENS, *PARTS, "hundred", "point", "too") if word.isalpha())
"""A number that is said has one of these; those of two words begin with one."""

_WORDS = pattern(r"\w+")
_COMPOUND = pattern(r"\b(thirty|sixty)[ -](seconds?|fourths?|fourth?)\b(?!\s*fl)")
_TWO_NUMBERS = pattern(
    r"\b(?:number |no |# ?)?(\d{1,2}|\d/\d+) (\d{2})\b(?! ?(?:flutes?|tooth|pcs|of|mm|thou|deg\w*)\b|/| ?°)")
_SPLIT = pattern(r"(?<=[a-z])-(?=[a-z])")


def in_figures(text: str) -> str:
    """A text in lower case with its spoken numbers as figures.

    >>> [in_figures(said) for said in ("three-quarter", "inch and a quarter", "point one eight seven five drill")]
    ['3/4', '1-1/4 inch', '.1875 drill']
    >>> in_figures("3 eighths drill, 5 sixteenths"), in_figures("1 and 7 sixty-fourths")
    ('3/8 drill, 5/16', '1-7/64')
    >>> in_figures("number ten thirty two"), in_figures("quarter twenty tap"), in_figures("m six by one")
    ('10-32', '1/4-20 tap', 'm6 by 1')
    """
    if _SAID.isdisjoint(_WORDS.findall(text)):
        return text
    text = _COMPOUND.sub(lambda found: f"{found[1]}-{found[2]}", text)
    words = [part for word in text.split() for part in _apart(word)]
    figures: list[str] = []
    place = 0
    while place < len(words):
        said, used = _at(words, place)
        figures.append(said)
        place += used
    return _joined(" ".join(figures))


_COUNTED = pattern(r"\b(two|three|four|five|six|seven|eight|nine|ten|[2-9]),? (?P<part>half|quarter|eighth|"
                   r"sixteenth)"
                   r"(?P<rest>[ -]?(?:inch|in)?\b.*\b(?:mills|drills|taps|dies|reamers|saws|cutters|countersinks|"
                   r"counterbores|blanks|bars|roughers)\b)")
_FIGURED = pattern(r"(?<![\w#/.,-])(\d{1,2})[ -](quarter|eighth|sixteenth)\b")
"""A figure before one part: `3 quarter drill`."""


def counted(text: str) -> str:
    """Counts before a fraction set apart from it: nobody says `two quarter` for a half, or `three half` at all.

    >>> counted("three half inch end mills"), counted("three-quarter inch end mills")
    ('(3) half inch end mills', 'three-quarter inch end mills')
    """
    def apart(found: re.Match[str]) -> str:
        return f"({ONES.get(found[1], found[1])}) "

    if not _has_a_part(text):
        return text
    many = "two|three|four|five|six|seven|eight|nine|ten"
    text = re.sub(rf"(?<![\w/.-])({many}|\d{{1,2}})(?:,? |, ?)(?=half\b(?! ?/| a| of|-dozen| dozen))", apart, text)
    text = re.sub(rf"\b({many}), (?=(?:one )?(?:quarter|eighth|sixteenth)\b)", apart, text)
    return re.sub(r"\b(two|four|six|eight|ten) (?=(?:quarter|eighth|sixteenth)\b)", apart, text)


def _has_a_part(text: str) -> bool:
    return "half" in text or "quarter" in text or "eighth" in text or "sixteenth" in text


def ambiguous(text: str) -> tuple[str, str] | None:
    """Why a count before a fraction can't be told from a fraction, and how to say it: `three quarter inch mills`."""
    text = text.lower()
    if not _has_a_part(text):
        return None
    figured = _FIGURED.search(text)
    if figured and 0 < int(figured[1]) < PARTS[figured[2]]:
        many, part = figured[1], PARTS[figured[2]]
        sizes, counted_of = f"{many}/{part} ..., or {many}-1/{part} ...", int(many) > 1
        return (f"it could be {many}/{part}, or {many}-1/{part}" + f", or {many} of 1/{part}" * counted_of,
                sizes + f", or ({many}) 1/{part} ..." * counted_of)
    found = _COUNTED.search(text)
    if not found or found["part"] == "half" or found[1] not in ("three", "five", "seven") or "," in found[0][:8]:
        return None
    number, part = ONES[found[1]], PARTS[found["part"]]
    if number >= part:
        return None
    return (f"it could be {number} of 1/{part}, or {number}/{part}", f"({number}) 1/{part} ..., or {number}/{part} ...")


def is_spoken(word: str) -> bool:
    """Whether a word is part of a number that is said in words."""
    return _is_number(word)


def _apart(word: str) -> list[str]:
    if word.strip(",;") in PARTS:
        return [word]
    parts = _SPLIT.split(word)
    return parts if all(_is_number(part.strip(",;")) for part in parts) else [word]


def _is_number(word: str) -> bool:
    return word in ONES or word in TENS or word in PARTS or word in ("hundred", "point")


def _at(words: list[str], place: int) -> tuple[str, int]:
    """What stands at a place in figures, and how many words of it there are."""
    if words[place] == "point":
        digits = _digits(words, place + 1)
        return (f".{digits}", 1 + len(digits)) if digits else (words[place], 1)
    if words[place] == "too" and place + 1 < len(words) and words[place + 1].startswith("flu"):
        return "2", 1
    if words[place].isdigit() and place + 1 < len(words) and (part := words[place + 1].rstrip(",;")) in _SEVERAL \
            and 0 < int(words[place]) < PARTS[part]:
        return f"{words[place]}/{PARTS[part]}{words[place + 1][len(part):]}", 2
    number, used = _whole(words, place)
    ahead = words[place + used].strip(",;") if place + used < len(words) else ""
    tail = words[place + used][len(ahead):] if ahead else ""
    if ahead in PARTS and (number is not None or used == 0):
        return f"{1 if number is None else number}/{PARTS[ahead]}{tail}", used + 1
    if number is None:
        return words[place], 1
    if words[place + used : place + used + 1] == ["point"] and (digits := _digits(words, place + used + 1)):
        return f"{number}.{digits}", used + 1 + len(digits)
    comma = words[place + used - 1][-1]
    return f"{number}{comma if comma in ',;' else ''}", used


def _digits(words: list[str], place: int) -> str:
    digits = ""
    while place < len(words) and ONES.get(words[place].strip(",;"), 10) < 10:
        digits += str(ONES[words[place].strip(",;")])
        place += 1
    return digits


def _whole(words: list[str], place: int) -> tuple[int | None, int]:
    """A whole number said at a place: `sixty four`, `a hundred eighty seven`; None where there is none."""
    start, value = place, 0
    if words[place] == "a" and words[place + 1 : place + 2] == ["hundred"]:
        place += 1
    if words[place] == "hundred" or words[place + 1 : place + 2] == ["hundred"]:
        value = 100 * ONES.get(words[place], 1)
        place += 1 if words[place] == "hundred" else 2
        if words[place : place + 1] == ["and"]:
            place += 1
    bare = words[place].strip(",;") if place < len(words) else ""
    if (digits := _key_number(words, place)) is not None and not value:
        return digits, 3
    if bare in TENS:
        follows = words[place + 1].strip(",;") if place + 1 < len(words) else ""
        ones = ONES.get(follows, 0) if bare == words[place] and 1 <= ONES.get(follows, 0) <= 9 else 0
        return value + TENS[bare] + ones, place + (2 if ones else 1) - start
    if bare in ONES:
        return value + ONES[bare], place + 1 - start
    return (value, place - start) if value else (None, 0)


def _key_number(words: list[str], place: int) -> int | None:
    """A number said figure by figure with a nought in the middle, as keys are: `six oh six`."""
    said = [ONES.get(word.strip(",;")) for word in words[place : place + 3]]
    if len(said) < 3 or said[0] is None or said[2] is None or not 1 <= said[0] <= 12 or said[2] > 9:
        return None
    if words[place + 1] not in ("oh", "zero", "nought"):
        return None
    return said[0] * 100 + said[2]


def _joined(text: str) -> str:
    """Figures that belong together: a whole number and its fraction, the two halves of a thread."""
    text = re.sub(r"\b(?:(\d+) )?inch and (?:a )?(\d+/\d+)", lambda f: f"{f[1] or 1}-{f[2]} inch", text)
    text = re.sub(r"(?<![\d/.])(\d+) and (?:a )?(\d+/\d+)", r"\1-\2", text)
    text = _TWO_NUMBERS.sub(_thread, text)
    return re.sub(r"\bm (\d+)\b", r"m\1", text)


def _thread(found: re.Match[str]) -> str:
    size, pitch = found[1], int(found[2])
    fits = "/" in size or int(size) in _NUMBER_SIZES
    return f"{size}-{pitch}" if fits and pitch >= _LEAST_TPI else found[0]
