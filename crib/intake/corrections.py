"""What is put right in speech at the prompt: `no, 3 flute`, `make that dull`, `the last two are hss`; and what is said
once for the lines that follow: `all of these hss, drawer B3`."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

from crib.cutters import KINDS
from crib.cutters.base import Cutter
from crib.findings.errors import CribError
from crib.intake.build import amended
from crib.intake.other_unit import NONE_BEFORE
from crib.intake.shorthand.again import asked
from crib.intake.shorthand.kinds import kind_named
from crib.intake.shorthand.line import Shop, kind_of_line, read_line, read_piece
from crib.intake.shorthand.places import apart
from crib.intake.shorthand.slip import Held
from crib.intake.shorthand.spelling import plain
from crib.intake.shorthand.vocabulary import CONDITIONS, MATERIALS
from crib.records import dataclass
from crib.units import NM, nm
from crib.units.words import told

if TYPE_CHECKING:
    from crib.intake.session import Outcome, Session

_NUMBERS = {word: number for number, word in enumerate(
    ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"), start=1)} | {
        "couple": 2, "both": 2, "few": 3}
_SAID = "|".join(_NUMBERS)
_COUNTS = "|".join(word for word, number in _NUMBERS.items() if word not in ("couple", "both", "few"))
_ARE = r"(?:'?re|'?s| are| is| were| was| should be| go(?:es)?| lives?)?(?: all| both)?"
_HELP = "say what is different: no, 3 flute; make that dull; it's hss; drawer B3; undo"
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
_NO_MORE = re.compile(r"(?:no|forget the|without a|end of(?: the)?|stop the) (?P<what>drawer|place|steel|"
                      r"material)[.!]?",
                      re.IGNORECASE)
_HOW_MANY = re.compile(rf"{_NO}(?:make (?:that|it|them) (?:(?:just |only )?(?:the )?(?P<made>one)|"
                       rf"(?:just |only )?(?P<many>\d{{1,2}}|two|three|four|five|six|seven|eight|nine|ten))|"
                       rf"(?:(?:there'?s|there (?:is|are|was|were)|it'?s|it is|that'?s|i(?:'ve| have)?(?: got)?) )?"
                       rf"(?:just|only) (?:the )?(?P<only>{_COUNTS}|\d{{1,2}})"
                       r"(?: of (?:them|those|it|these))?)", re.IGNORECASE)
"""`make that three`, `actually just the one` say how many there are."""

_THAT_KIND = re.compile(rf"{_NO}(?:that|this|the|my|those|these) (?P<what>[^\d#]+?)"
                        r"(?:'s| is| are| was| were| has| have) (?P<rest>.+)", re.IGNORECASE)
"""`that saw is dull` speaks of the cutter before it, if it is a saw."""

HELD_BEFORE = ("the line before it was held back, so there is no cutter to go by", "say the whole cutter")
_ASKS = re.compile(r"(?:(?:what|which|how many|how much)\b(?: \S+){0,4}? (?:have|do|did|had) (?:i|we)\b|"
                   r"(?:have|do|did) (?:i|we) (?:got|have|own)\b|what(?:'s|s| is| are)(?: there)? in\b|"
                   r"where(?:'s|s| is| are| did| have)\b)", re.IGNORECASE)
ASKS = ("that asks what is there, and a line here is a cutter", "crib find lists cutters: crib find 1/2 drill")
_FOLLOWING = ("drawer", "material", "condition")


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
    return bool(_many(text) or fix_of(text) or asked(text) or _THAT_KIND.fullmatch(text.strip().rstrip(".!")))


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
    return bool(_many(text))


def _many(text: str) -> int:
    """How many the cutter before is said to be; 0 where that isn't said."""
    found = _HOW_MANY.fullmatch(text.strip().rstrip(".!"))
    return _number(next(part for part in found.groups() if part)) if found else 0


def undoes(text: str) -> int:
    """How many lines are to be taken back: `undo the last two`; 0 where that isn't said."""
    found = _UNDO.fullmatch(text.strip())
    return _number(found["many"]) if found else 0


def put_right(session: Session, text: str, number: int) -> Outcome | None:
    """What comes of a line that puts another right, or holds for those that follow; None for any other."""
    if (said := _NO_MORE.fullmatch(text.strip())) is not None:
        key = "drawer" if said["what"].lower() in ("drawer", "place") else "material"
        return session.stick({key: None}, text, number, f"no {key} for the lines that follow")
    if many := _many(text):
        last = [] if session.is_another_held() else session.last_cutters(1)
        return _fix(session, last, f"{many} of them", text, number)
    if (said := _THAT_KIND.fullmatch(text.strip().rstrip(".!"))) is not None and \
            (kind := kind_named(plain(said["what"])[0])) and not read_line(text, session.shop).taken:
        return _of_kind(session, kind, said["rest"], text, number)
    fix = fix_of(text)
    if fix is not None and fix.form == "follow":
        texts = alone(fix.rest, _FOLLOWING)
        return _follows(session, texts, text, number) if texts else \
            session.hold(text, number, f"{fix.rest[:40]!r} can't be said for all that follow",
                         "a drawer, a steel, or sharp")
    if fix is None:
        texts = alone(text, ("drawer", "material"))
        return _for_last_too(session, texts, text, number) if texts else _bare(session, text, number)
    if fix.form in ("no", "sure") and (texts := _of_what_follows(session, fix.rest)):
        return _follows_instead(session, texts, text, number)
    if fix.form == "no" and _is_whole(fix.rest, session.shop) and not re.match(r"\w+[,:]", text.strip()):
        return None
    if fix.form == "no" and not session.last_cutters(1):
        return None
    return _fix(session, session.last_cutters(fix.many), fix.rest, text, number)


def _of_kind(session: Session, kind: str, rest: str, text: str, number: int) -> Outcome:
    """What is said of the cutter before by its kind; asked where that is of another kind."""
    last = [] if session.is_another_held() else session.last_cutters(1)
    if last and all(cutter.kind == kind for cutter in last):
        return _fix(session, last, rest, text, number)
    words = KINDS[kind].words
    is_what = f"the one before is {last[-1].label}" if last else "there is none just before it"
    return session.hold(text, number, f"which {words}? {is_what}", f"say it by its number: crib now NUMBER {rest}")


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


def _is_whole(text: str, shop: Shop) -> bool:
    return kind_of_line(text) is not None and bool(read_line(text, shop).taken)


def _follows(session: Session, texts: dict[str, str], text: str, number: int) -> Outcome:
    return session.stick(dict(texts), text, number, f"{_listed(texts)} from here on, until another is said")


def _for_last_too(session: Session, texts: dict[str, str], text: str, number: int) -> Outcome:
    """For the last cutter, where it has none, and for the lines that follow."""
    missing = [cutter for cutter in session.last_cutters(1)
               if any(getattr(cutter, key) in (None, "unknown") for key in texts)]
    says = f"{_listed(texts)} from here on, until another is said"
    if missing:
        for cutter in missing:
            lacks = {key: value for key, value in texts.items() if getattr(cutter, key) in (None, "unknown")}
            session.change(cutter, cutter.but(**lacks), {}, text)
        says = f"{_numbers(missing)} and what follows: {_listed(texts)}, until another is said; undo takes it back"
    return session.stick(dict(texts), text, number, says, tuple(missing))


def _of_what_follows(session: Session, rest: str) -> dict[str, str]:
    """What puts right the drawer or steel that the line before said for all that follow; empty where it said none."""
    before = session.deeds[-1].sticks if session.deeds else None
    if before is None:
        return {}
    texts, now = alone(rest, _FOLLOWING), session.shop.defaults or {}
    return texts if all(now.get(key) != before.get(key) for key in texts) else {}


def _follows_instead(session: Session, texts: dict[str, str], text: str, number: int) -> Outcome:
    """For the cutters that the line before gave its own, and for the lines that follow."""
    cutters = tuple(session.crib.cutter(cutter.id) for cutter in session.deeds[-1].before)
    for cutter in cutters:
        session.change(cutter, cutter.but(**texts), {}, text)
    to_whom = f"{_numbers(list(cutters))} and what follows: " if cutters else ""
    says = f"{to_whom}{_listed(texts)}{'' if cutters else ' from here on'}, until another is said; undo takes it back"
    return session.stick(dict(texts), text, number, says, cutters)


def _bare(session: Session, text: str, number: int) -> Outcome | None:
    """What can be said of the last cutter alone: `3 flute`, `dull`; None for what may be a cutter of its own."""
    last = [] if session.is_held_last() else session.last_cutters(1)
    if not last or kind_of_line(text) is not None or read_line(text, session.shop).taken:
        return None
    try:
        values, _, asks, unused = read_piece(text, session.shop, last[-1].kind)
    except (Held, CribError):
        return None
    said = values.keys() - {"kind", "note"}
    if not said or unused or asks or said & {"diameter_mm", "nominal_mm", "thread", "radius_mm"}:
        return None
    return _fix(session, last, text, text, number)


def _fix(session: Session, cutters: list[Cutter], rest: str, text: str, number: int) -> Outcome:
    """The cutters with what is different. A line that can't be read is held back, and changes nothing."""
    if not cutters:
        return session.hold(text, number, *(HELD_BEFORE if session.is_another_held() else NONE_BEFORE))
    try:
        changed = [different(cutter, rest, session.shop) for cutter in cutters]
    except Held as held:
        return session.hold(text, number, held.why, held.help)
    except CribError as error:
        return session.hold(text, number, *told(error.finding, session.shop.units))
    for cutter, (after, typed) in zip(cutters, changed, strict=True):
        session.change(cutter, after, typed, text)
    return session.changed(tuple(cutters), text, number)


def different(cutter: Cutter, rest: str, shop: Shop) -> tuple[Cutter, dict[str, str]]:
    """A cutter with what is said to be different. Raises `Held` and `CribError` where that can't be read, or can't be.
    """
    kind = kind_of_line(rest) or cutter.kind
    values, typed, asks, unused = read_piece(rest, shop, kind)
    values = {key: value for key, value in values.items() if key != "note"} | {"kind": kind}
    noted = " ".join(unused)
    if (values == {"kind": cutter.kind} and not asks) or (noted and len(values) == 1):
        raise CribError("correction", f"it can't be read what is different: {rest[:60]}", rest, _HELP)
    if "diameter_mm" in values and cutter.nominal_mm is not None and "nominal_mm" not in values:
        values["nominal_mm"] = None
    if "diameter_mm" in values and (corner := cutter.corner_radius_mm) and cutter.diameter_mm and abs(
            2 * corner - cutter.diameter_mm) < 1e-6:
        values["corner_radius_mm"] = nm(values["diameter_mm"] / 2) / NM
    after = amended(cutter, _as_changes(values), shop.currency)
    note = "; ".join(part for part in (after.note, noted) if part) or None
    return after.but(questions=tuple(dict.fromkeys((*after.questions, *asks.values()))), note=note), typed


def _as_changes(values: dict[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in values.items() if key not in ("currency", "questions")}


def _listed(texts: dict[str, str]) -> str:
    return ", ".join(f"drawer {value}" if key == "drawer" and len(value) <= 4 else value for key,
        value in texts.items())


def _numbers(cutters: list[Cutter]) -> str:
    return ", ".join(str(cutter.id) for cutter in cutters)
