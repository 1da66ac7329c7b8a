"""One line of shorthand, read: into a cutter with its questions, or held back with why."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import lru_cache
from typing import Any

from crib.cutters import KINDS
from crib.cutters.base import LENGTH_KEYS, Cutter
from crib.cutters.two_ends import STATES
from crib.findings.errors import CribError
from crib.intake.attributes import read_value
from crib.intake.build import build
from crib.intake.reading import Taken, kept
from crib.intake.shorthand import aside, doubt, strange
from crib.intake.shorthand.grammar import read_off
from crib.intake.shorthand.kinds import a_line_for_each, kind_by_name
from crib.intake.shorthand.places import apart
from crib.intake.shorthand.sets import Member, members
from crib.intake.shorthand.settle import drop_auxiliary
from crib.intake.shorthand.slip import SIZE, Held, Slip
from crib.intake.shorthand.spelling import plain
from crib.intake.spoken import ambiguous
from crib.intake.standards import standards_apart
from crib.intake.unlikely import unlikely
from crib.light.patterns import pattern
from crib.light.records import dataclass, replace
from crib.units.words import told

_LONGEST = 1000


@dataclass(frozen=True)
class Shop:
    """What a line is read by: the units of a bare number, the currency, and texts of fields that it may leave out."""

    units: str = "in"
    currency: str = "USD"
    defaults: Mapping[str, str] | None = None


@dataclass(frozen=True)
class Line:
    """What came of a line: cutters (a set has several), those that a set lacks with a count of 0, or why it is held
    back. `asks`: questions about the reading by field; `read_as`: words that were taken for another; `unused`: words
    that nothing was made of but a note."""

    text: str
    taken: tuple[Taken, ...] = ()
    why: str = ""
    help: str = ""
    source: str | None = None
    asks: Mapping[str, str] | None = None
    read_as: Mapping[str, str] | None = None
    unused: tuple[str, ...] = ()


def read_line(text: str, shop: Shop, kind: str | None = None) -> Line:
    """Read one line. `kind` is the kind where it goes without saying. Never raises for anything that is typed."""
    if len(text) > _LONGEST:
        return Line(text, why=f"it is {len(text)} characters long, too long for one cutter",
                    help="a line for each cutter")
    return _read_line(text, shop.units, shop.currency, tuple((shop.defaults or {}).items()), kind)


@lru_cache(maxsize=2048)
def _read_line(text: str, units: str, currency: str, defaults: tuple[tuple[str, str], ...], kind: str | None) -> Line:
    """The same, kept: lists say the same again and again, and nobody changes what comes."""
    shop = Shop(units, currency, dict(defaults))
    typed, noted = _apart(kept(text))
    typed, standards = standards_apart(typed)
    noted = "; ".join(part for part in (noted, *standards) if part)
    shown = typed if typed.isprintable() else "".join(sign if sign.isprintable() else " " for sign in typed)
    bare, drawer = apart(shown)
    unused: list[str] = []
    while True:
        marked, doubts = doubt.mark(strange.without(bare, unused))
        said, read_as = plain(marked)
        if doubtful := ambiguous(marked):
            return Line(text, why=doubtful[0], help=doubtful[1], read_as=read_as)
        slip = Slip("", shop.units)
        one = _One(text, shop, kind, drawer, doubts, strange.strangers(bare.lower(), unused))
        try:
            taken = _taken(slip, units_apart(said), one)
        except (Held, CribError) as error:
            more = [word for word in strange.unread(slip) if word not in unused]
            if not more:
                why, help = _why(error, slip, typed)
                return Line(text, why=why, help=help, read_as=read_as)
        else:
            more = [word for word in slip.unused if word not in unused and not strange.is_known(word)]
            if not more:
                break
        unused += more
    words = _as_typed([*unused, *slip.unused], typed)
    if note := "; ".join(part for part in (" ".join(words), noted) if part):
        taken = tuple(replace(each, cutter=_with_note(each.cutter, note)) for each in taken)
    return Line(text, taken, source=slip.source, asks=dict(slip.doubts), read_as=read_as, unused=words)


@dataclass(frozen=True)
class _One:
    """What a line is read with: the words as typed, the shop, a kind that goes without saying, the place, the doubts
    that were said in it, and the words that nothing is made of."""

    text: str
    shop: Shop
    kind: str | None
    drawer: str | None = None
    doubts: tuple[str, ...] = ()
    strangers: tuple[strange.Stranger, ...] = ()


def _why(error: Held | CribError, slip: Slip, typed: str) -> tuple[str, str]:
    if isinstance(error, Held):
        return error.why, error.help if error.joint is None else a_line_for_each(typed, error.joint, slip.said)
    why, help = told(error.finding, slip.units)
    return why, _in_words(help, slip)


def _as_typed(words: list[str], text: str) -> tuple[str, ...]:
    """Words of the plain line as they were typed, in their order."""
    places = {word: text.lower().find(word) for word in words}
    found = sorted(words, key=lambda word: places[word])
    return tuple(text[places[word] : places[word] + len(word)] if places[word] >= 0 else word for word in found)


_NOTE = pattern(r"(.*\S)[\s,;]+(?:notes?|remarks?)(?:\s*:\s*|\s+)(.+)", re.IGNORECASE | re.DOTALL)


def _apart(text: str) -> tuple[str, str]:
    """A line and the note behind it, which is kept word for word and never read for sizes.

    >>> _apart("1/4 drill drawer B2 note: for 3/8 brass")
    ('1/4 drill drawer B2', 'for 3/8 brass')
    """
    if text.isascii() and "note" not in (low := text.lower()) and "remark" not in low:
        return text, ""
    found = _NOTE.fullmatch(text)
    return (found[1], found[2].strip()) if found else (text, "")


def _with_note(cutter: Cutter, noted: str) -> Cutter:
    return cutter.but(note="; ".join(part for part in (cutter.note, noted) if part))


def kind_of_line(text: str) -> str | None:
    """The kind that a line names, whatever else it says.

    >>> kind_of_line("T slot cutter 1/2 bolt"), kind_of_line("404")
    ('t-slot-cutter', None)
    """
    try:
        return kind_by_name(Slip(plain(text)[0], "in"))
    except Held:
        return None


def is_whole(text: str) -> bool:
    """Whether a text says a size and then what it is of, and so is a line of its own, readable or not.

    >>> is_whole("2 3/8 end mills"), is_whole("end mill"), is_whole("end mill 1/2 shank")
    (True, False, False)
    """
    return kind_of_line(text) is not None and SIZE.match(units_apart(plain(text)[0])) is not None


def read_values(text: str, shop: Shop, kind: str) -> tuple[dict[str, Any], dict[str, str], dict[str, str]]:
    """What a piece of a line says of a cutter whose kind is known: values, what was typed for them, and questions.

    Raises `Held` where a reading would be a guess.
    """
    values, typed, asks, _ = read_piece(text, shop, kind)
    return values, typed, asks


def read_piece(text: str, shop: Shop, kind: str
               ) -> tuple[dict[str, Any], dict[str, str], dict[str, str], tuple[str, ...]]:
    """The same, and the words that nothing was made of."""
    bare, drawer = apart(text)
    marked, words = doubt.mark(bare)
    said, doubts = doubt.cut(units_apart(plain(marked)[0]), words)
    slip = Slip(said, shop.units)
    slip.values |= {"drawer": drawer} if drawer else {}
    read_off(slip, kind)
    doubt.attach(slip, doubts)
    slip.notes += [" ".join(slip.unused)] if slip.unused else []
    values = {key: value for key, value in slip.values.items() if value is not None}
    slip.values = values
    drop_auxiliary(slip)
    if slip.notes:
        values["note"] = "; ".join(dict.fromkeys(slip.notes))
    for how, keys in (("measured", slip.measured), ("stamped", slip.stamped)):
        if keys:
            values[how] = tuple(keys)
    return values, dict(slip.typed), dict(slip.doubts), tuple(slip.unused)


def _taken(slip: Slip, said: str, one: _One) -> tuple[Taken, ...]:
    """The cutters of a line, which is laid on the slip."""
    bare, doubts = doubt.cut(said, one.doubts)
    slip.lay(bare)
    slip.values |= {"drawer": one.drawer} if one.drawer else {}
    several = members(slip, one.kind)
    if not several:
        return _single(slip, one, doubts)
    taken: list[Taken] = []
    for member in several:
        part = Slip(member.said, slip.units)
        part.values |= slip.values
        taken += [replace(each, cutter=_of_a_set(each.cutter, member)) for each in _single(part, one, doubts)]
        slip.doubts |= part.doubts
        slip.unused = list(dict.fromkeys((*slip.unused, *part.unused)))
    return tuple(taken)


def _of_a_set(cutter: Cutter, member: Member) -> Cutter:
    noted = _with_note(cutter, member.note) if member.note else cutter
    return noted.but(count=0) if member.missing else noted


def _single(slip: Slip, one: _One, doubts: tuple[doubt.Doubt, ...]) -> tuple[Taken, ...]:
    kind = read_off(slip, one.kind)
    aside.only_taper(slip, kind)
    doubt.attach(slip, doubts)
    strange.ask_about(slip, (*one.strangers, *strange.strangers(slip.said, slip.unused)))
    chamfers = slip.values.get("chamfers", [])
    cutter = _built(slip, kind, one.shop)
    for key, question in unlikely(cutter) if cutter.questions else ():  # which are among them
        if key in ("diameter_mm", "nominal_mm"):
            raise Held(question, f"{slip.said[:60]} with its unit, such as mm or thou")
        slip.ask(key, question)
    typed = slip.typed | {"words": kept(one.text)}
    if "tap_chamfer" in KINDS[kind].speech.wanted and (len(chamfers) > 1 or (slip.has("set") and not chamfers)):
        return tuple(Taken(cutter.but(tap_chamfer=chamfer), typed)
                     for chamfer in chamfers or ("taper", "plug", "bottoming"))
    return (Taken(cutter, typed),)


def _built(slip: Slip, kind: str, shop: Shop) -> Cutter:
    values = {key: value for key, value in slip.values.items() if value is not None}
    two, both, states = values.get("two_ends"), values.get("double_ended"), values.get("one_end", [])
    slip.values = values
    drop_auxiliary(slip)
    if slip.notes:
        values["note"] = "; ".join(dict.fromkeys(slip.notes))
    for key, default in (shop.defaults or {}).items():
        values.setdefault(key, read_value(key, default, shop.units))
    values["measured"] = tuple(key for key in slip.measured if key in values)
    values["stamped"] = tuple(key for key in slip.stamped if key in values)
    values["assumed"] = tuple(dict.fromkeys(key for key in slip.assumed if key in values or key == "hand"))
    values["kind"] = kind
    try:
        cutter = build(values, shop.currency, (*slip.doubts.values(), *slip.looks))
    except CribError as error:
        raise _no_size(slip, error, kind) from error
    if not (two or both):
        return cutter
    ends = _ends(cutter, slip, two)
    if not states:
        return cutter.but(ends=ends)
    if two:
        return cutter.but(ends=ends, questions=(*cutter.questions, f"which end is {states[0]}?"))
    conditions = sorted((*states, cutter.condition)[:2], key=STATES.index)
    return cutter.but(ends=tuple(end.but(condition=state) for end, state in zip(ends, conditions, strict=True)),
                      condition=conditions[0])


def _ends(cutter: Cutter, slip: Slip, two: list[str] | None) -> tuple[Cutter, ...]:
    """Both ends of a double-ender: its own size twice, or two sizes."""
    of_an_end: dict[str, Any] = {key: getattr(cutter, key) for key in (*LENGTH_KEYS, "angle_deg", "flutes", "condition")
                                 if key not in ("shank_mm", "overall_length_mm")}
    end = Cutter(0, cutter.kind).but(**of_an_end)
    sizes = [slip.mm(text) for text in two] if two else [cutter.diameter_mm] * 2
    return tuple(end.but(diameter_mm=size) for size in sizes)


def _no_size(slip: Slip, error: CribError, kind: str) -> Exception:
    """Why there is no size: what had to be asked of it, where that is known."""
    if error.finding.id != "no-size":
        return error
    asks = "; ".join(slip.doubts.values())
    return Held(asks or told(error.finding, slip.units)[0], f"say it again with its size: {slip.said[:60]} ... dia")


def _in_words(help: str, slip: Slip) -> str:
    """Help that speaks of options, said for a line of words."""
    return f"say it again: {slip.said[:80]}" if help.startswith("add --") or "--" in help else help


def units_apart(said: str) -> str:
    """Sizes with a space on both sides of the x between them; a unit at the end goes for bare numbers before it."""
    if "no" in said or "number" in said or "# " in said:
        said = _NUMBERED.sub("#", said)
    if _MAY_BE_ROUNDED.search(said):
        said = _ROUNDED.sub("radius ", said)
    if "x" in said:
        said = _BY.sub(" x ", said)
        if "mm" in said:
            said = _MM_BY.sub(" x ", said)
            said = _BARE_BY.sub(r"\1 mm", said)
    if "mm" not in said:
        return said
    sizes = list(SIZE.finditer(said))
    if len(sizes) < 2 or not sizes[-1][0].endswith("mm"):
        return said
    bare = [size for size in sizes if _BARE.fullmatch(size[0].strip())]
    if len(bare) != len(sizes) - 1:
        return said
    for size in reversed(bare):
        if not re.match(r"\s*(?:\)|flutes?|tooth|pcs|deg|°|off?\b|each|ea\b|left)", said[size.end():]):
            said = said[: size.end()] + " mm" + said[size.end():]
    return said


_NUMBERED = pattern(r"(?<![a-z])(?:no\.? ?|number ?|# )(?=\d)(?!\d+[/.]\d|\d+-\d+/)")
_ROUNDED = pattern(r"(?<![\w])c?r ?(?=\.\d|\d+/\d|(?!8\b)\d{1,2}(?:[.,]\d+)?(?: ?mm)?(?![\w/]))")
_MAY_BE_ROUNDED = pattern(r"r ?[.\d]")
_BY = pattern(r"(?<=[\d\"])\s?x\s?(?=[\d.])")
_MM_BY = pattern(r"(?<=mm)\s?x\s?(?=[\d.])")
_BARE_BY = pattern(r"(?<![\w./-])(\d+(?:[.,]\d+)?)(?= x (?:\d+(?:[.,]\d+)? x )*\d+(?:[.,]\d+)?\s?mm\b)")
_BARE = pattern(r"\d+(?:[.,]\d+)?")
