"""Where a cutter lies, wherever in the line that is said: `drawer B2`, `drawer top left`, `third tray from left`."""

from __future__ import annotations

import re
from functools import lru_cache

from crib.intake.shorthand.needed import may_fit, needed, pieces
from crib.light.patterns import pattern

_ONES = {word: number for number, word in enumerate(
    ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"), start=1)}
_SAID = "|".join(_ONES)
_CODE = r"(?:[a-z]{0,2}\d{1,3}[a-z]?|[a-z])(?:-\d{1,3}(?![\d/])|/\d{1,3}(?![\d/]))*(?![\w./])"
_SPOT = rf"(?:(?:no\.? ?|number |# ?)?(?:{_CODE}|(?:{_SAID})(?! (?:half|quarter|flutes?|sixteenth)|\w)))"
_CONTAINER = r"(?:cabinet|drawer|tray|shelf|bin|rack|toolbox|place|(?<!t )(?<!t-)(?<!tee )slot)"
_WHERE = (r"(?:top|bottom|middle|upper|lower|left|right|front|back|centre|center|red|(?<!burnt )blue|green|black|white|"
          r"yellow|grey|gray|wooden|tin|big|small)")
_WHICH = r"(?:first|second|third|fourth|fifth|sixth|seventh|eighth|ninth|tenth|1st|2nd|3rd|\d{1,2}th|last)"
_ORDINAL = rf"{_WHICH} (?:one )?(?:from|on) (?:the )?(?:left|right|top|bottom|front|back)"
_IN = r"(?:(?:(?:lives|kept|goes|lies|place) )?(?:in|into|on|from)? ?(?:the |my )?)?"
_BEHIND = rf"(?:[, ]+{_ORDINAL})?"
_MORE = r"(?:[, ]+(?:slot |tray |bin )?[abcefgijknpqsuvwy]\d{1,2}(?![\w./-]))?"
_PLACES = tuple((pattern(rf"(?<![\w/.-])(?:{place})(?![\w/]|-\w)", re.IGNORECASE), needed(place))
                for place in (
    rf"{_IN}{_WHERE}(?:[ -]{_WHERE})* (?:tray|drawer|box|shelf|bin|cabinet)(?:{_BEHIND}){_MORE}",
    rf"{_IN}(?:cabinet {_SPOT}[, ]+)?{_CONTAINER} {_SPOT}(?:[, ]+(?:slot|tray|bin) {_SPOT})*{_BEHIND}",
    r"(?:in |into |on )?(?:the )?(?:no\.? ?|# ?|number )\d{1,3} (?:tray|drawer|box|shelf|bin)",
    rf"{_IN}{_WHICH} (?:tray|drawer|box|shelf|bin)(?: (?:down|up))?(?: from (?:the )?(?:top|bottom|left|right))?",
    rf"{_IN}(?:tray|drawer|box|shelf|bin|cabinet),? (?:the |at (?:the )?)?{_WHERE}(?:[ -]{_WHERE})*(?![ "
    rf"-]?hand){_BEHIND}",
    r"in the (?:top|bottom|upper|lower|front|back) (?:left|right)(?: corner)?",
    rf"{_IN}{_CONTAINER} (?=[a-z]*[^\x00-\x7f])[^\W\d_]+(?: \d{{1,3}})?(?=\s*(?:$|[,;]))",
))
_LETTER_AND_NUMBER = pattern(
    rf"(?<![\w/.-])({_CONTAINER}) ([a-z])[ -](\d{{1,2}}|{_SAID})(?=\s*(?:$|[,;]))", re.IGNORECASE)
"""`drawer B four`, where nothing follows that the number could be of."""

_LONE = pattern(r" [A-Za-z][ -]")
"""What that can't do without, of plain letters."""

_BARE = pattern(r"(?<![\w/.,#-])(?:in |into )?(?P<spot>[a-z]\d{1,2}(?:-\d{1,2})?)(?![\w/.-])", re.IGNORECASE)
_NO_PLACE = pattern(r"m\d+|r\d+|x\d+|t15|o\d|z\d+|l\d|a36")
"""What looks like a bare place and is a thread, a radius, a count, a steel, a number of teeth, a length."""


def apart(text: str) -> tuple[str, str | None]:
    """A line without the place that it names, and the place; without a word for where, a letter and a number that can
    be nothing else.

    >>> apart("1/2 drawer B3 end mill"), apart("drawer two, 3/8 drill"), apart("M6x1 D3 tap")
    (('1/2 end mill', 'B3'), (', 3/8 drill', '2'), ('M6x1 D3 tap', None))
    """
    if (not text.isascii() or _LONE.search(text)) and (found := _LETTER_AND_NUMBER.search(text)):
        spot = f"{found[2]}{_ONES.get(found[3].lower(), found[3])}".upper()
        return _without(text, found), spot if found[1].lower() in ("drawer", "place") else f"{found[1].lower()} {spot}"
    letters = pieces(text.lower())
    for place, needs in _PLACES:
        if may_fit(letters, needs) and (found := place.search(text)):
            return _without(text, found), _name(found[0].lower())
    return _bare(text)


def _bare(text: str) -> tuple[str, str | None]:
    """A letter and a number by themselves, unless they are a limit, a fit or a grade."""
    low = text.lower()
    for found in _BARE.finditer(text):
        spot = found["spot"].lower()
        limit = spot[0] in "hd" and re.search(r"\b(?:taps?|plug|bottom\w*|spiral|gun|forming|roll)\b", low)
        fit = spot[0] in "hgjknp" and re.search(r"\bre+a?mers?\b", low)
        grade = spot[0] == "c" and "carbide" in low and not re.search(rf",\s*{spot}\s*$", low)
        named = re.match(r"\s*(?:drills?|hss|tool steel|steel)\b", low[found.end():])
        if not (limit or fit or grade or named or _NO_PLACE.fullmatch(spot)):
            return _without(text, found), spot.upper()
    return text, None


def _without(text: str, found: re.Match[str]) -> str:
    """The text about a place put together, with a comma where two figures would become one."""
    before, behind = text[: found.start()].rstrip(), text[found.end():].lstrip()
    figures = before[-1:].isdecimal() or before[-1:] == '"'
    figures = figures and (behind[:1].isdecimal() or behind[:1] in ("#", "."))
    return f"{before} ; {behind}" if figures else f"{before} {behind}".strip()


@lru_cache(maxsize=1024)
def _name(said: str) -> str:
    bare = re.sub(rf"^{_IN}", "", said.strip()).strip()
    bare = re.sub(r"^(?:drawer|place),? (?:at )?(?:the )?", "", bare)
    bare = re.sub(r"^(?:no\.? ?|# ?|number )(\d+) drawer$", r"\1", bare)
    bare = re.sub(r"^(?:no\.? ?|number |# ?)(?=\w+$)", "", bare)
    bare = re.sub(rf"(?:(?<= )|^)(?:no\.? |number )?({_SAID})$", lambda found: str(_ONES[found[1]]), bare)
    return re.sub(r"\b[a-z]{0,2}\d[\w/-]*|(?<=cabinet )[a-z]\b|^[a-z]$",
                  lambda found: found[0] if re.fullmatch(r"\d+(?:st|nd|rd|th)", found[0]) else found[0].upper(), bare)
