"""Numbers of a question that are said in words: sizes as figures, counts as a figure between brackets."""

from __future__ import annotations

import re

from crib.intake.spoken import in_figures as figures

_MANY = re.compile(r"\b(two|three|four|five|six|seven|eight|nine|ten|twelve) (?=[#.\d])", re.IGNORECASE)
_COUNTS = re.compile(r"\b(two|four|six|eight|ten) (?=(?:quarter|eighth|sixteenth)\b)", re.IGNORECASE)
_HALVES = re.compile(r"\b(two|three|four|five|six|seven|eight|nine|ten) (?=half\b(?! ?-?(?:/|a\b|of\b|round|moon)))",
                     re.IGNORECASE)
"""A count before a half: nobody says `two half` for one."""

_PAIR = re.compile(r"\b(?:a )?(?:pair|couple) of\b", re.IGNORECASE)
_HALF = re.compile(r"\bhalf[ -](round|moon)\b", re.IGNORECASE)
_TEMPER = re.compile(r"\b(half|quarter)[ -]hard\b", re.IGNORECASE)
_EIGHTH = re.compile(r"\band an (?=eighth\b)", re.IGNORECASE)
_THOU = re.compile(r"\b(half )?an? thou\b(?! (?:and|or))", re.IGNORECASE)
_AN_INCH = re.compile(r"\b(half|quarters?|eighths?|sixteenths?|\d)(?: of)? an inch\b", re.IGNORECASE)
_ONE_INCH = re.compile(r"\ban inch\b(?! and)", re.IGNORECASE)
_ONE = re.compile(r"\b(one|1) (?=of\b|end\b|side\b)", re.IGNORECASE)
_PART_INCH = re.compile(r"\b(half|quarter|eighth|sixteenth)-(?=inch\b)", re.IGNORECASE)
_PITCH = re.compile(
    r"\b(quarter|half|(?:three|five|seven) (?:eighths|sixteenths)) "
    r"(twenty(?:[ -](?:four|eight))?|thirty[ -]two|eighteen|sixteen|thirteen|fourteen|eleven) "
    r"(?=(?:one|three|five|seven|nine|eleven) (?:half|quarters?|eighths?|sixteenths?)\b)", re.IGNORECASE)
"""A thread before a fraction, whose pitch isn't part of it: `quarter twenty five eighths deep`."""

_FIGURED = re.compile(r"(?<![\w#/.,-])(\d{1,2})[ -](half|quarter|eighth|sixteenth)\b(?! ?-?(?:round|moon))",
                      re.IGNORECASE)
_TWICE = re.compile(r"\b(three|five|seven) (quarter|eighth|sixteenth)(?: inch| in)? \w+s\b", re.IGNORECASE)


def in_figures(line: str) -> str:
    """A line whose numbers are figures, however they were said.

    >>> in_figures("three eighths slot, a quarter deep, four of them")
    '3/8 slot, a 1/4 deep, 4 of them'
    >>> in_figures("a 12H7 slot half an inch deep"), in_figures("four quarter inch slots")
    ('a 12H7 slot 1/2 inch deep', '(4) 1/4 inch slots')
    """
    line = _TEMPER.sub(r"\1-hard", _PART_INCH.sub(r"\1 ", line))
    line = _EIGHTH.sub("and a ", line)
    line = _THOU.sub(lambda found: ".5 thou" if found[1] else "1 thou", line)
    line = _PITCH.sub(lambda found: f"{figures(found[1].lower())}-{figures(found[2].lower())} ", line)
    line = _ONE_INCH.sub("1 inch", _AN_INCH.sub(r"\g<1> inch", line))
    line = _PAIR.sub("(2)", _ONE.sub("1 ", _HALF.sub(r"half\1", line)))
    line = _MANY.sub(lambda found: f"({figures(found[1].lower())}) ", line)
    line = _HALVES.sub(lambda found: f"({figures(found[1].lower())}) ", line)
    line = _COUNTS.sub(lambda found: f"({figures(found[1].lower())}) ", line)
    large = {word.lower(): word for word in line.split() if word != word.lower()}
    return " ".join(large.get(word, word) for word in figures(line.lower()).split())


def could_be_a_count(line: str, is_plural: bool) -> tuple[str, str] | None:
    """Words that are one size or a count of them, and how to say each: a figure before a part, and, where several are
    asked for, such a number in words.

    >>> could_be_a_count("three quarter inch slots", True), could_be_a_count("three-quarter inch slots", True)
    (('three quarter', '3/4, or (3) 1/4'), None)
    >>> could_be_a_count("3 quarter slot", False)
    ('3 quarter', '3/4, 3-1/4, or (3) 1/4')
    """
    figured = _FIGURED.search(line)
    found = figured or (_TWICE.search(line) if is_plural else None)
    if not found:
        return None
    many, one = figures(found[1].lower()), figures(found[2].lower())
    proper = int(many) < int(one[2:])
    sizes = [f"{many}/{one[2:]}"] * proper + [f"{many}-{one}"] * bool(figured)
    return f"{found[1]} {found[2]}", ", ".join([*sizes, f"or ({many}) {one}"])
