"""One line of shorthand, read: into a cutter with its questions, or held back with why."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from crib.cutters import KINDS
from crib.cutters.base import LENGTH_KEYS, Cutter
from crib.cutters.speech import Order, Speech
from crib.findings.errors import CribError
from crib.intake.attributes import read_value
from crib.intake.build import build
from crib.intake.reading import Taken, kept
from crib.intake.shorthand import phrases
from crib.intake.shorthand.kinds import kind_by_name, kind_by_signs, no_kind, only_one_cutter, only_one_kind
from crib.intake.shorthand.labelled import read_labelled
from crib.intake.shorthand.settle import double_ended, drop_auxiliary, fit, settle, span
from crib.intake.shorthand.sizes import place_sizes
from crib.intake.shorthand.slip import SIZE, Held, Slip
from crib.intake.shorthand.spelling import plain
from crib.intake.shorthand.threads import put_thread, thread
from crib.records import dataclass, replace
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
    back. `asks`: questions about the reading by field; `read_as`: words that were taken for another."""

    text: str
    taken: tuple[Taken, ...] = ()
    why: str = ""
    help: str = ""
    source: str | None = None
    asks: Mapping[str, str] | None = None
    read_as: Mapping[str, str] | None = None


def read_line(text: str, shop: Shop, kind: str | None = None) -> Line:
    """Read one line. `kind` is the kind where it goes without saying. Never raises for anything that is typed."""
    if len(text) > _LONGEST:
        return Line(text, why=f"it is {len(text)} characters long, too long for one cutter",
                    help="a line for each cutter")
    said, noted = _apart(kept(text))
    said, read_as = plain("".join(sign if sign.isprintable() else " " for sign in said))
    slip = Slip(units_apart(said), shop.units)
    try:
        taken = _taken(slip, text, shop, kind)
    except Held as held:
        return Line(text, why=held.why, help=held.help, read_as=read_as)
    except CribError as error:
        why, help = told(error.finding, shop.units)
        return Line(text, why=why, help=_in_words(help, slip), read_as=read_as)
    if noted:
        taken = tuple(replace(one, cutter=_with_note(one.cutter, noted)) for one in taken)
    return Line(text, taken, source=slip.source, asks=dict(slip.doubts), read_as=read_as)


_NOTE = re.compile(r"(.*\S)[\s,;]+(?:notes?|remarks?)(?:\s*:\s*|\s+)(.+)", re.IGNORECASE | re.DOTALL)


def _apart(text: str) -> tuple[str, str]:
    """A line and the note behind it, which is kept word for word and never read for sizes.

    >>> _apart("1/4 drill drawer B2 note: for 3/8 brass")
    ('1/4 drill drawer B2', 'for 3/8 brass')
    """
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
    said, _ = plain(text)
    slip = Slip(units_apart(said), shop.units)
    phrases.place(slip)
    _read(slip, kind)
    values = {key: value for key, value in slip.values.items() if value is not None}
    slip.values = values
    drop_auxiliary(slip)
    if slip.notes:
        values["note"] = "; ".join(dict.fromkeys(slip.notes))
    for how, keys in (("measured", slip.measured), ("stamped", slip.stamped)):
        if keys:
            values[how] = tuple(keys)
    return values, dict(slip.typed), dict(slip.doubts)


def _taken(slip: Slip, text: str, shop: Shop, kind: str | None) -> tuple[Taken, ...]:
    from crib.intake.shorthand.sets import expand

    phrases.place(slip)
    if members := expand(slip, shop):
        return tuple(Taken(member, {"words": kept(text)}) for member in members)
    kind = _read(slip, kind)
    chamfers = slip.values.get("chamfers", [])
    one = _built(slip, kind, shop)
    typed = slip.typed | {"words": kept(text)}
    if "tap_chamfer" in KINDS[kind].speech.wanted and (len(chamfers) > 1 or (slip.has("set") and not chamfers)):
        return tuple(Taken(one.but(tap_chamfer=chamfer), typed)
                     for chamfer in chamfers or ("taper", "plug", "bottoming"))
    return (Taken(one, typed),)


def _read(slip: Slip, kind: str | None) -> str:
    """Read the phrases and sizes of a line off its slip; the kind."""
    phrases.money(slip)
    phrases.whence(slip)
    phrases.count(slip)
    phrases.morse(slip)
    named = kind_by_name(slip) or kind
    if named:
        only_one_kind(slip, named)
    speech = KINDS[named].speech if named else Speech(order=())
    found = thread(slip, speech.order if named else None)
    pointed = speech.order in ((), Order.NUMBER) and slip.has("split|point")
    phrases.angles(slip, speech.angle is not None or pointed)
    if speech.order is Order.THREAD or (found and not named):
        phrases.taps(slip)
    if speech.order is Order.FIT:
        fit(slip)
    phrases.flutes(slip)
    double_ended(slip)
    phrases.substance(slip)
    phrases.remarks(slip)
    span(slip)
    left = read_labelled(slip)
    named = named or kind_by_signs(slip, found is not None)
    if named is None:
        raise no_kind(slip, found)
    order = KINDS[named].speech.order
    if found and order is Order.NUMBER:
        raise Held(f"{found} is a thread: is this the drill for its tap, or the tap?",
                   f"{found} tap, or the drill's own size, such as F drill")
    if found:
        put_thread(slip, found)
    slip.values["kind"] = named
    only_one_cutter(slip, named)
    place_sizes(slip, named)
    settle(slip, named)
    _note_words(slip, [word for word in left if order is not Order.NUMBER or len(word) > 1])
    return named


def _note_words(slip: Slip, left: list[str]) -> None:
    words = " ".join(left)
    if words:
        slip.notes.append(words)
    if slip.text.count("?") and not slip.doubts:
        slip.ask("note", "what was the question mark about?")


def _built(slip: Slip, kind: str, shop: Shop) -> Cutter:
    values = {key: value for key, value in slip.values.items() if value is not None}
    two, both = values.get("two_ends"), values.get("double_ended")
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
    return cutter.but(ends=_ends(cutter, slip, two)) if two or both else cutter


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
    said = re.sub(r"(?<![a-z])(?:no\.? ?|number ?|# )(?=\d)", "#", said)
    said = re.sub(r"(?<=[\d\"])\s?x\s?(?=[\d.])", " x ", said)
    said = re.sub(r"(?<=mm)\s?x\s?(?=[\d.])", " x ", said)
    sizes = list(SIZE.finditer(said))
    bare = [size for size in sizes if re.fullmatch(r"\d+(?:[.,]\d+)?", size[0].strip())]
    if len(sizes) < 2 or not sizes[-1][0].endswith("mm") or len(bare) != len(sizes) - 1:
        return said
    for size in reversed(bare):
        if not re.match(r"\s*(?:flutes?|tooth|pcs|deg|°)", said[size.end():]):
            said = said[: size.end()] + " mm" + said[size.end():]
    return said
