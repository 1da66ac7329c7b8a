"""A line that was held back, said in better words."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Any

from crib.cutters.base import LENGTH_KEYS, Cutter
from crib.findings.errors import CribError
from crib.intake.lists import csv_lines, json_list
from crib.intake.options import read_options, texts_as_typed
from crib.intake.reading import Taken, kept
from crib.intake.shorthand import Line, Shop, confirm, read_line
from crib.intake.shorthand.line import is_whole, kind_of_line, read_values
from crib.intake.shorthand.slip import Held
from crib.light.patterns import pattern
from crib.store import Crib, HeldBack
from crib.units.words import told

Texts = Mapping[str, str]

_BARE = pattern(r"\d+(?:[.,]\d*)?|[.,]\d+")


def put_right(
    crib: Crib, held: HeldBack, text: str, texts: Texts, units: str, currency: str
) -> tuple[str, list[Cutter]]:
    """What came of it in one line of words, and the cutters that it became; none where it stays held back.

    The better words may be the whole line, or only the one that was missing; the options may be all of the cutter, or
    what the line doesn't say. What a line of a table says besides goes with it. A try that fails is kept with the line.
    The line is read once more first, while nobody else can change it. Raises `CribError` where it is gone.
    """
    with crib.transaction():
        return _put_right(crib, _as_it_is(crib, held), text, texts, units, currency)


def _as_it_is(crib: Crib, held: HeldBack) -> HeldBack:
    """The line as it stands now. Raises `CribError` where somebody was quicker."""
    if (there := next((line for line in crib.held_back() if line.id == held.id), None)) is not None:
        return there
    done = crib.changes(f"held-back {held.id}")[-1:]
    became = ", ".join(f"no. {number}" for one in done for number in (one.after or {}).get("cutters", ()))
    who = next((one.who for one in done if one.who), "somebody")
    says = f"was put right by {who} a moment ago: it became {became}" if became else f"was taken off the list by {who}"
    raise CribError("no-line", f"line {held.id} {says}", str(held.id), "crib held-back lists those that are left")


def _put_right(
    crib: Crib, held: HeldBack, text: str, texts: Texts, units: str, currency: str
) -> tuple[str, list[Cutter]]:
    if (form := _form(held)) and not is_whole(text):
        line, after = _by_fields(held, form, text, texts, units, currency)
    else:
        line = _by_words(held, text, texts, units, currency)
        after = {"text": kept(f"{held.text} / {text}" if text else held.text), "why": line.why, "help": line.help}
    if not line.taken:
        crib.reword(held.id or 0, after)
        return confirm(line, (), crib.units), []
    typed = [one.typed | {"words": kept(" / ".join(part for part in (held.text, text) if part))} for one in line.taken]
    taken = crib.take_in([one.cutter for one in line.taken], line.source, typed)
    crib.put_right(held.id or 0, [cutter.id for cutter in taken])
    return confirm(line, taken, crib.units), taken


def _form(held: HeldBack) -> str:
    """How a line has its fields: `options`, `json` or `csv`; empty for one in words."""
    beside = held.beside or {}
    if held.text.startswith("--") and held.file is None and texts_as_typed(held.text):
        return "options"
    if held.text.startswith("{") and held.file is not None:
        return "json"
    return "csv" if "heading" in beside else ""


def _by_fields(held: HeldBack, form: str, text: str, texts: Texts, units: str,
               currency: str) -> tuple[Line, dict[str, Any]]:
    """A line with fields, with what is said in the place of what it says; and what is kept where that won't do."""
    beside = dict(held.beside or {})
    said = dict(beside.get("said", {}))
    try:
        said |= _texts_of(text, said.get("kind") or _kind_in(held, form), units, currency)
        said |= {key: _with_unit(key, text, units) for key, text in texts.items()}
        taken = _read(held, form, said, beside, currency)
    except CribError as error:
        why, help = told(error.finding, units)
        line = Line(held.text, why=why, help=help)
    except Held as error:
        line = Line(held.text, why=error.why, help=error.help)
    else:
        return Line(held.text, tuple(taken)), {}
    words = [*beside.get("words", ()), *([kept(text)] if text else [])]
    return line, {"why": kept(line.why), "help": kept(line.help), "beside": {**beside, "said": said, "words": words}}


def _read(held: HeldBack, form: str, said: Texts, beside: Mapping[str, Any], currency: str) -> Sequence[Taken]:
    units, defaults = beside.get("units", "in"), beside.get("defaults", {})
    if form == "json":
        return json_list.read_again(held.text, units, currency, defaults, said)
    if form == "csv":
        return csv_lines.read_again(beside["heading"], held.text, units, currency, defaults, said,
                                    beside.get("map"))
    reading = read_options({**texts_as_typed(held.text), **said}, units, currency)
    for one in reading.held_back:
        raise CribError("held-back", one.why, one.text, one.help)
    return reading.taken


def _kind_in(held: HeldBack, form: str) -> str | None:
    """The kind that a line with fields names."""
    if form == "options":
        return texts_as_typed(held.text).get("kind")
    return kind_of_line(re.sub(r"[^\w.#/-]+", " ", held.text).replace("-", " "))


def _texts_of(text: str, kind: str | None, units: str, currency: str) -> dict[str, str]:
    """What words say, as texts by field, each length with its unit. Raises `Held`."""
    if not text:
        return {}
    named = kind_of_line(text)
    if named is None and kind is None:
        raise Held("it doesn't say what kind of cutter it is", "add the word, end mill, drill, tap ...")
    values, _, doubts = read_values(text, Shop(units, currency), named or kind or "")
    if doubts:
        raise Held("; ".join(doubts.values()), "say it with its name: 1/2 dia, or 1/2 face")
    found = {key: _as_text(key, value) for key, value in values.items() if key != "kind"}
    return found | ({"kind": named} if named else {})


def _with_unit(key: str, text: str, units: str) -> str:
    """A bare number of a length with the unit that it was typed in, which need not be the table's.

    >>> _with_unit("neck_mm", ".25", "in"), _with_unit("neck_mm", "1/4", "mm"), _with_unit("flutes", "4", "in")
    ('.25 in', '1/4', '4')
    """
    return f"{text.strip()} {units}" if key in LENGTH_KEYS and _BARE.fullmatch(text.strip()) else text


def _as_text(key: str, value: Any) -> str:
    if isinstance(value, tuple):
        return ",".join(value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    return f"{value!r}mm" if key.endswith("_mm") else str(value)


def _by_words(held: HeldBack, text: str, texts: Texts, units: str, currency: str) -> Line:
    words, beside = apart(held.text)
    others = {**beside, **{key: value for key, value in texts.items() if key != "kind"}}
    shop = Shop(units, currency, others)
    tries = [text, f"{words} {text}"] if text else [words]
    lines = [read_line(one, shop, texts.get("kind")) for one in tries]
    if not text and (by_options := _by_options(held, texts, units, currency)) is not None:
        return by_options
    return next((line for line in lines if line.taken), lines[0])


def apart(text: str) -> tuple[str, dict[str, str]]:
    """The words of a line that was held back, and the drawer that was said beside it.

    >>> apart("404 --drawer 'left box'"), apart("404")
    (('404', {'drawer': 'left box'}), ('404', {}))
    """
    found = re.fullmatch(r"(.*?) --drawer ('.*'|\S+)", text, re.DOTALL)
    return (found[1], {"drawer": found[2].strip("'")}) if found else (text, {})


def _by_options(held: HeldBack, texts: Texts, units: str, currency: str) -> Line | None:
    """The cutter that the options alone describe. Raises `CribError` for one that can't be read."""
    named = {"kind": kind} if "kind" not in texts and (kind := kind_of_line(held.text)) else {}
    reading = read_options({**named, **texts}, units, currency)
    if not reading.taken:
        return None
    return Line(held.text, reading.taken)
