"""Lines that speak of the cutter before: what puts it right, says how many of it there are, takes it back."""

from __future__ import annotations

import re

from crib.intake.shorthand.again import asked
from crib.intake.shorthand.places import apart
from crib.intake.shorthand.spelling import plain
from crib.intake.shorthand.vocabulary import CONDITIONS, MATERIALS
from crib.light.records import dataclass

_NUMBERS = {word: number for number, word in enumerate(
    ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"), start=1)} | {
        "couple": 2, "both": 2, "few": 3}
_SAID = "|".join(_NUMBERS)
_COUNTS = "|".join(word for word, number in _NUMBERS.items() if word not in ("couple", "both", "few"))
_ARE = r"(?:'?re|'?s| are| is| were| was| should be| go(?:es)?| lives?)?(?: all| both)?"
_NO = r"(?:(?:no|nope|wrong|sorry|oops|wait|actually)[ ,]+|and )?"
_THAT = r"(?:it|that|this|them|they|those|these|the last(?: one)?|that one|this one)"
_FORMS = (
    ("follow", re.compile(r"(?:all (?:of )?these|everything(?: here| that follows)?|all (?:that|which) follows?|"
                          r"from (?:here|now) on|the rest(?: of (?:them|these))?|the next (?:ones|lot))"
                          rf"{_ARE}[ ,:]+(?P<rest>.+)", re.IGNORECASE)),
    ("several", re.compile(rf"(?:no[ ,]+|and |make |change )?(?:the )?(?:last|previous) (?P<many>\d{{1,2}}|{_SAID})"
                           rf"(?: of (?:them|those))?(?: ones| cutters)?{_ARE}(?: to)?[ ,:]+(?P<rest>.+)",
                           re.IGNORECASE)),
    ("several", re.compile(rf"(?:no[ ,]+|and |make )?(?P<many>both)(?: of (?:them|those))?{_ARE}[ ,:]+(?P<rest>.+)",
                           re.IGNORECASE)),
    ("all", re.compile(rf"(?:no[ ,]+|and |make )?all (?:of )?(?:them|those){_ARE}[ ,:]+(?P<rest>.+)", re.IGNORECASE)),
    ("sure", re.compile(rf"{_NO}(?:(?:make|change) {_THAT}(?: one)?(?: to| into)?|"
                        rf"{_THAT}(?:'?s|'?re| is| are| was| were| should be| should have been| has| have)|"
                        r"i meant?|(?:it )?should (?:be|have been)|correction)"
                        r"[ ,:]+(?P<rest>.+)", re.IGNORECASE)),
    ("no", re.compile(r"(?:no|nope|wrong|sorry|oops|wait|actually|rather)[ ,:]+(?P<rest>.+)", re.IGNORECASE)),
)
_UNDO = re.compile(rf"(?:undo|take (?:back|out)|scratch|forget|strike|cancel|delete|remove) (?:the )?last "
                   rf"(?P<many>\d{{1,2}}|{_SAID})(?: ones| lines)?[.!]?",
                   re.IGNORECASE)
NO_MORE = re.compile(r"(?:no|forget the|without a|end of(?: the)?|stop the) (?P<what>drawer|place|steel|"
                      r"material)[.!]?",
                      re.IGNORECASE)
_HOW_MANY = re.compile(rf"{_NO}(?:make (?:that|it|them) (?:(?:just |only )?(?:the )?(?P<made>one)|"
                       rf"(?:just |only )?(?P<many>\d{{1,2}}|two|three|four|five|six|seven|eight|nine|ten))|"
                       rf"(?:(?:there'?s|there (?:is|are|was|were)|it'?s|it is|that'?s|i(?:'ve| have)?(?: got)?) )?"
                       rf"(?:just|only) (?:the )?(?P<only>{_COUNTS}|\d{{1,2}})"
                       r"(?: of (?:them|those|it|these))?)", re.IGNORECASE)
"""`make that three`, `actually just the one` say how many there are."""

THAT_KIND = re.compile(rf"{_NO}(?:that|this|the|my|those|these) (?P<what>[^\d#]+?)"
                        r"(?:'s| is| are| was| were| has| have) (?P<rest>.+)", re.IGNORECASE)
"""`that saw is dull` speaks of the cutter before it, if it is a saw."""

_ASKS = re.compile(r"(?:(?:what|which|how many|how much)\b(?: \S+){0,4}? (?:have|do|did|had) (?:i|we)\b|"
                   r"(?:have|do|did) (?:i|we) (?:got|have|own)\b|what(?:'s|s| is| are)(?: there)? in\b|"
                   r"where(?:'s|s| is| are| did| have)\b)", re.IGNORECASE)
ASKS = ("that asks what is there, and a line here is a cutter", "crib find lists cutters: crib find 1/2 drill")


@dataclass(frozen=True)
class Fix:
    """A line that puts others right: the form, of how many lines it speaks (0: of all), and what is different."""

    form: str
    many: int
    rest: str


def fix_of(text: str) -> Fix | None:
    """What a line puts right; None for one that doesn't.

    >>> fix_of("no, 3 flute"), fix_of("make the last two hss"), fix_of("1/2 end mill")
    (Fix(form='no', many=1, rest='3 flute'), Fix(form='several', many=2, rest='hss'), None)
    """
    for form, pattern in _FORMS:
        if found := pattern.fullmatch(text.strip().rstrip(".!")):
            many = found.groupdict().get("many")
            return Fix(form, 0 if form == "all" else _number(many) if many else 1, found["rest"].strip())
    return None


def _number(said: str) -> int:
    return _NUMBERS.get(said.lower()) or int(said)


def speaks_of_another(text: str) -> bool:
    """Whether a line is about the cutter before it and none of its own.

    >>> speaks_of_another("no, 3 flute"), speaks_of_another("same again"), speaks_of_another("1/2 end mill")
    (True, True, False)
    """
    return bool(how_many(text) or fix_of(text) or asked(text) or THAT_KIND.fullmatch(text.strip().rstrip(".!")))


def asks(text: str) -> bool:
    """Whether a line asks what is on record, which taking in doesn't answer.

    >>> asks("what have I got"), asks("where is the 1/2 drill?"), asks("whatsit 3/8")
    (True, True, False)
    """
    return _ASKS.match(text.strip()) is not None


def says_how_many(text: str) -> bool:
    """Whether a line says of how many cutters the one before was.

    >>> says_how_many("make that three"), says_how_many("actually just the one"), says_how_many("make that 3/8")
    (True, True, False)
    """
    return bool(how_many(text))


def how_many(text: str) -> int:
    """How many the cutter before is said to be; 0 where that isn't said."""
    found = _HOW_MANY.fullmatch(text.strip().rstrip(".!"))
    return _number(next(part for part in found.groups() if part)) if found else 0


def undoes(text: str) -> int:
    """How many lines are to be taken back: `undo the last two`; 0 where that isn't said."""
    found = _UNDO.fullmatch(text.strip())
    return _number(found["many"]) if found else 0


def alone(text: str, keys: tuple[str, ...]) -> dict[str, str]:
    """The texts of a line that names a place, a steel or a condition and nothing else; empty for any other.

    >>> alone("hss, drawer B3", ("drawer", "material")), alone("drawer B3 1/2 end mill", ("drawer",))
    ({'material': 'hss', 'drawer': 'B3'}, {})
    """
    bare, drawer = apart(text)
    left = re.sub(r"[,;:.]| and | in ", " ", f" {plain(bare)[0]} ").strip()
    found: dict[str, str] = {}
    for key, known in (("material", MATERIALS), ("condition", CONDITIONS)):
        for pattern, value in known:
            if key in keys and (place := re.search(rf"(?<!\S)(?:{pattern})(?!\S)", left)):
                found.setdefault(key, value)
                left = (left[: place.start()] + left[place.end():]).strip()
    if drawer:
        found["drawer"] = drawer
    return found if not left else {}
