"""Lines that speak of several cutters: a set from one size to another, or a list of sizes. Each member is a line of its
own, so that whatever else is said holds for all of them; the missing ones have a count of 0."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import pairwise

from crib.cutters import KINDS
from crib.cutters.speech import Order
from crib.intake.shorthand.kinds import called
from crib.intake.shorthand.slip import GAP, SIZE, Held, Slip
from crib.light.patterns import pattern
from crib.light.records import dataclass, field

_SET = r"sets?|index|assortment|number drills|letter drills|fractional"
_DRILLS = r"number drills?|letter drills?|index|fractional|wire|letter set"
_TO = r"\s*(?:-|to|thru|through|up to|till|until)\s*"
_SAYS_TO = ("-", "to", "thr", "til")
_NUMBERS = pattern(rf"#?(\d{{1,2}}){_TO}#?(\d{{1,2}})(?![\d/.]| ?mm)")
_BOUND = r"(?:\d+-\d+/\d+|\d+/\d+|\d*\.\d+|\d+)(?: ?(?:mm|inch|in(?! ?(?:the )?(?:\d|steps|inc))|\"))?"
_PER = r"(?: (?:steps?|increments?|jumps?))?"
_STEP = pattern(rf"(?<![\w./-])(?:(?:by|in|every|at|x(?= \d+(?:ths|nds)))(?: (?:steps?|increments?|jumps?) "
                rf"of)?(?: the)? "
                rf"(?P<by>\d+(?:ths|nds|rds|th|nd|rd)|{_BOUND}){_PER}|(?P<parts>\d+(?:ths|nds|rds)))(?![\w/]|\.\d)")
_RANGE = pattern(rf"(?<![\w./-])(?:from )?(?P<low>{_BOUND}){_TO}(?P<high>{_BOUND})(?![\w/]|\.\d)")
_LETTERS = pattern(r"(?<![\w/.-])([a-z])\s*(?:-|to|thru|through)\s*([a-z])(?![\w/-])")
_PIECES = pattern(r"(?<![\w./-])(\d{1,3})[ -]?(?:pcs|pc|pieces?)(?: (?=set|index))?")
_ONE = r"(?:#?\d+(?:/\d+)?(?:\.\d+)?(?: ?mm)?|letter [a-z]|(?<![a-z])[a-z](?![a-z]))"
_MISSING = (pattern(r"(?<![\w/-])no ((?:\d+/\d+(?:,? (?:and|or) |, ?| ))*\d+/\d+)(?! ?-)"),
            pattern(rf"(?<![\w#/-])((?:{_ONE}(?:,? and |, ?| ))*{_ONE}),? (?:is |are )?(?:missing|gone|lost)"),
            pattern(rf"(?:missing|less|without|minus|except) ((?:{_ONE}(?:,? and |, ?| ))*{_ONE})"))
_WRONG = pattern(rf"({_ONE}) is (?:really )?(?:a |an )?(\d+(?:\.\d+)?\s?mm|#\d+|\d+/\d+|\.\d+)")
_MOST = 200
_NUMBERED = next(kind.name for kind in KINDS.values() if kind.speech.order is Order.NUMBER)

_MANY = pattern(r"\b(mills|drills|taps|dies|reamers|saws|cutters|countersinks|counterbores|blanks|bars|bits|ems|"
                r"broaches|"
                r"roughers|noses|dovetails|keyseats|woodruffs|heads)\b")
_THREAD = r"(?:#?\d+(?:/\d+)? ?- ?\d+|m\d{1,2}(?:\.\d)?(?: ?x ?\d*\.?\d+)?)(?: (?:unc|unf|nc|nf))?"
_LETTER = r"(?<![\w/.-])[a-z](?![\w/-])"
_JOIN = r"(?:\s*[,;]\s*(?:and |& )?| and | & )"
_NOT_ONE = pattern(r"\s*(?:flutes?|tooth|shank|loc|oal|long|face|wide|thick|bore|neck|reach|radius|pilot|tip|deg|"
                   r"°|pcs|"
                   r"of|each|ea|thou|diameter|high|arbor|hole|over|under|measured|x|incl|per)(?![a-z])")
_NAMED_FOR = pattern(r"(?:\bx|shank|neck|bore|loc|oal|face|reach)\s*$")
_COUNTED = pattern(r"(?<![\w/.#-])\d+\s*(?:x\s*)?$|^\s*\d+\s|\b(?:ea|each|pcs|off|of|qty)\b")
_OWN = pattern(r"#\d{1,2}|#?\d+(?:/\d+)?-\d+|m\d{1,2}(?:\.\d)?(?: ?x ?\d*\.?\d+)?")
"""A name that is a cutter's own size and no other: a number, a thread."""
_BY = tuple(Fraction(1, part) for part in (64, 32, 16, 8, 4))


@dataclass(frozen=True)
class Member:
    """One cutter of several: the line that it is read by, whether it is missing, and what its note says."""

    said: str
    missing: bool = False
    note: str = ""


@dataclass(frozen=True)
class _Several:
    """The names of the sizes, and the piece of the line in whose place each is put."""

    names: Sequence[str]
    span: tuple[int, int]
    is_set: bool = False
    missing: Sequence[str] = ()
    wrong: Mapping[str, str] = field(default_factory=dict)


def members(slip: Slip, kind: str | None) -> tuple[Member, ...]:
    """The cutters of a set or a list; empty for a line that speaks of one. Raises `Held` where a set's sizes aren't
    said."""
    named = said.kind.name if (said := called(slip)) else kind
    is_set = slip.has(_SET) and not slip.has(r"set ?screws?")
    if named is None and is_set and slip.has(_DRILLS):
        named = _NUMBERED
    order = KINDS[named].speech.order if named else None
    if order is Order.SPAN or slip.has("adjustable|expansion|adjusting"):
        return ()
    if order is Order.THREAD:
        found = _list(slip, rf"{_THREAD}(?: ?\(\d{{1,3}}\))?")
    else:
        found = _series(slip, order, is_set) or _list(slip, f"{SIZE.pattern}|{_LETTER}" if order is Order.NUMBER
                                                      else SIZE.pattern)
        if found is None and is_set:
            raise Held("a set is not one cutter: which sizes are in it?",
                       "number drills 1-60, or fractional index 1/16-1/2, or end mills 1/8 to 1/2 by 16ths, with what "
                       "is missing")
    return () if found is None else tuple(_lines(slip, found, named))


def _lines(slip: Slip, found: _Several, kind: str | None) -> Iterator[Member]:
    """A line for each, in which its own size stands where that of all stood."""
    before, behind = slip.text[: found.span[0]], slip.text[found.span[1]:]
    words = "" if kind is None or called(slip) else f" {KINDS[kind].words}"
    said = f"set {found.names[0]} to {found.names[-1]}" if found.is_set else ""
    gone, wrong = {_key(name) for name in found.missing}, {_key(name): name for name in found.wrong}

    def line(name: str) -> str:
        text = f"{before} {name.lower()} {behind}{words}".replace(GAP, " ")
        text = _PIECES.sub(" ", re.sub(r"\b(?:sets?|index|assortment|fractional|series)(?: of)?\b", " ", text))
        text = re.sub(r"\b(?:number|letter|wire)(?: size)?(?= drill)", " ", text)
        return " ".join(_MANY.sub(lambda many: re.sub(r"(?<=ach)es$|s$", "", many[0]), text).split())

    for name in found.names:
        if _key(name) in wrong:
            continue
        yield Member(line(name), _key(name) in gone, f"missing from the {said}" if _key(name) in gone else said)
    for name, really in found.wrong.items():
        yield Member(line(name), True, f"missing from the {said}; its place holds a {really}")
        yield Member(line(really), False, f"in the place of {name} of the {said}")


def _series(slip: Slip, order: object, is_set: bool) -> _Several | None:
    """From one size to another, by a step."""
    missing, wrong = _exceptions(slip) if is_set else ([], {})
    found = _letters(slip, order) or _numbers(slip, order, is_set) or _range(slip, order, is_set)
    if found is None:
        return None
    names, span = found
    strange = [name for name in (*missing, *wrong) if _key(name) not in {_key(one) for one in names}]
    if strange:
        raise Held(f"{strange[0]} is not in the set from {names[0]} to {names[-1]}", "the names as the set has them")
    return _Several(names, span, True, missing, wrong)


def _exceptions(slip: Slip) -> tuple[list[str], dict[str, str]]:
    missing: list[str] = []
    wrong: dict[str, str] = {}
    while found := _WRONG.search(slip.text):
        wrong[found[1]] = found[2]
        slip.blank(*found.span())
    for missed in _MISSING:
        if found := missed.search(slip.text):
            missing += re.findall(_ONE, found[1].replace(" and ", ", ").replace(" or ", ", "))
            slip.blank(*found.span())
    return missing, wrong


def _letters(slip: Slip, order: object) -> tuple[list[str], tuple[int, int]] | None:
    if order is not Order.NUMBER or not slip.has("letter.*") or _list(slip, _LETTER):
        return None
    if found := _LETTERS.search(slip.text):
        names = [chr(code).upper() for code in range(ord(found[1]), ord(found[2]) + 1)]
        return (names, found.span()) if names else None
    if slip.has("letter (?:drills|set|index)|letter drill (?:set|index)"):
        place = slip.find("letter")
        return [chr(code) for code in range(ord("A"), ord("Z") + 1)], place.span() if place else (0, 0)
    return None


def _numbers(slip: Slip, order: object, is_set: bool) -> tuple[list[str], tuple[int, int]] | None:
    found = _NUMBERS.search(slip.text) if order is Order.NUMBER else None
    if not found or not (slip.has("numbers?|number drills?|wire") or "#" in found[0]):
        return None
    first, last = int(found[1]), int(found[2])
    if not 0 < first < last <= 80 or not (is_set or _MANY.search(slip.text)):
        return None
    return [f"#{number}" for number in range(first, last + 1)], found.span()


def _range(slip: Slip, order: object, is_set: bool) -> tuple[list[str], tuple[int, int]] | None:
    if not any(sign in slip.text for sign in _SAYS_TO):
        return None
    found = _RANGE.search(slip.text)
    stepped = _STEP.search(slip.text, found.end()) if found else None
    step = (stepped["by"] or stepped["parts"]) if stepped else None
    behind = slip.text[found.end():] if found else ""
    is_stepped = stepped is not None and found is not None and not slip.text[found.end():stepped.start()].strip()
    if not found or not (is_set or step or _MANY.search(slip.text)) or (_NOT_ONE.match(behind) and not is_stepped):
        return None
    in_mm = slip.units == "mm" and "/" not in found[0] and "in" not in found[0]
    metric = "mm" in found[0] + (step or "") or slip.has("metric") or in_mm
    low, high = _number(found["low"]), _number(found["high"])
    if not 0 < low < high:
        return None
    if stepped:
        slip.blank(*stepped.span())
    pieces = _PIECES.search(slip.text)
    by = _number(step) if step else _usual(low, high, metric, order is Order.NUMBER and is_set and not slip.has(
        "silver|deming|s&d|s & d"), int(pieces[1]) if pieces else None)
    if by is None or (high - low) % by or not 1 < (high - low) / by + 1 <= _MOST:
        raise Held(f"from {found['low'].strip()} to {found['high'].strip()} by what step?",
                   _steps(low, high, found["low"].strip(), found["high"].strip(), metric))
    names = [_said(low + by * at, metric) for at in range(int((high - low) / by) + 1)]
    if pieces and int(pieces[1]) != len(names):
        raise Held(f"from {names[0]} to {names[-1]} by that step there are {len(names)}, not {pieces[1]}",
                   "the step, such as by 16ths, or what is missing")
    return names, found.span()


def _number(text: str) -> Fraction:
    """A bound or a step as a number: `1-1/4`, `16ths`, `.5 mm`."""
    if parts := re.fullmatch(r"(\d+)(?:ths|nds|rds|th|nd|rd)", text):
        return Fraction(1, int(parts[1]) or 1)
    bare = re.sub(r"[^\d./-]", "", text)
    whole, _, part = bare.rpartition("-")
    try:
        return (Fraction(whole) if whole else Fraction(0)) + Fraction(part)
    except (ValueError, ZeroDivisionError):
        return Fraction(0)


def _usual(low: Fraction, high: Fraction, metric: bool, is_drills: bool, pieces: int | None) -> Fraction | None:
    """The step of a set that says none: by how many there are, else as drills are sold."""
    if pieces and pieces > 1:
        step = (high - low) / (pieces - 1)
        return step if metric or step in _BY else None
    return None if not is_drills else Fraction(1, 2) if metric else _BY[0]


def _steps(low: Fraction, high: Fraction, first: str, last: str, metric: bool) -> str:
    if metric:
        return f"{first} to {last} by .5 mm, or by 1 mm"
    fits = [by for by in _BY if not (high - low) % by and (high - low) / by >= 1]
    said = [f"by {by.denominator}{'nds' if by.denominator == 32 else 'ths'} ({int((high - low) / by) + 1} of them)"
            for by in reversed(fits)]
    return f"{first} to {last} " + (", or ".join(said) or "by its step")


def _said(size: Fraction, metric: bool) -> str:
    if metric:
        return f"{float(size):g} mm"
    if size.denominator not in (1, 2, 4, 8, 16, 32, 64):
        return f"{float(size):g}".removeprefix("0") + " in"
    whole, part = divmod(size, 1)
    return f"{whole}-{part}" if whole and part else str(part) if part else f"{whole} in"


def _key(name: str) -> str:
    return name.lower().removeprefix("letter ").removeprefix("#").replace(" ", "")


def _list(slip: Slip, item: str) -> _Several | None:
    """Sizes with commas or an `and` between them, or in a row, of cutters that are called many."""
    if not (_MANY.search(slip.text) or slip.has("sets?")) or slip.has("double end|de|double ended"):
        return None
    if row := _in_a_row(slip, item):
        return row
    for found in re.finditer(rf"(?:{item})(?:{_JOIN}(?:{item}))+", slip.text):
        places = [(found.start() + one.start(), found.start() + one.end()) for one in re.finditer(item, found[0])]
        if places and _NOT_ONE.match(slip.text[places[-1][1]:]):
            places.pop()
        if re.search(r"(?:\bx|shank|neck|bore|loc|oal)\s*$", slip.text[: found.start()]):
            places = places[1:]
        if _is_count(slip.text, places):
            continue
        names = [slip.text[start:end].strip() for start, end in places]
        if len(names) > 1:
            lead = re.match(r"(\d{1,2}) (?=[a-z])", slip.text)
            if lead and int(lead[1]) == len(names):
                slip.blank(*lead.span(1))
            return _Several(_with_the_unit(names), (places[0][0], places[-1][1]))
    return None


def _with_the_unit(names: Sequence[str]) -> list[str]:
    """Sizes, the bare ones in the unit that the last has."""
    unit = re.search(r"mm|inch|in\b|\"", names[-1])
    return [f"{name} {unit[0]}" if unit and re.fullmatch(r"\d*\.?\d+", name) else name for name in names]


def _in_a_row(slip: Slip, item: str) -> _Several | None:
    """Sizes with nothing between them: two or more of which each can only be a cutter's own, as threads and numbers
    can, or three or more that rise, where it isn't said how many cutters there are."""
    for found in re.finditer(rf"(?:{item})(?:\s+(?:{item}))+", slip.text):
        places = [(found.start() + one.start(), found.start() + one.end()) for one in re.finditer(item, found[0])]
        if _NOT_ONE.match(slip.text[places[-1][1]:]):
            places.pop()
        before, names = slip.text[: found.start()], [slip.text[start:end].strip() for start, end in places]
        if len(names) < 2 or _NAMED_FOR.search(before):
            continue
        sizes = [slip.mm(name) or 0.0 for name in names]
        rises = len(names) > 2 and all(one < two for one, two in pairwise(sizes))
        if all(_OWN.fullmatch(name) for name in names) or (rises and not _COUNTED.search(before)):
            return _Several(_with_the_unit(names), (places[0][0], places[-1][1]))
    return None


def _is_count(text: str, places: Sequence[tuple[int, int]]) -> bool:
    """Whether the first of two is how many there are: `3, 1/2 end mills`."""
    if len(places) != 2:
        return False
    first, second = (text[start:end].strip() for start, end in places)
    return bool(re.fullmatch(r"[2-9]|1\d", first)) and "/" in second and bool(re.search(r"\d\s*,", text[places[0][0]:]))
