"""A line that was held back, said in better words."""

from __future__ import annotations

import re
from collections.abc import Mapping

from crib.cutters.base import Cutter
from crib.intake.options import read_options
from crib.intake.reading import kept
from crib.intake.shorthand import Line, Shop, confirm, read_line
from crib.intake.shorthand.line import kind_of_line
from crib.store import Crib, HeldBack


def put_right(
    crib: Crib, held: HeldBack, text: str, texts: Mapping[str, str], units: str, currency: str
) -> tuple[str, list[Cutter]]:
    """What came of it in one line of words, and the cutters that it became; none where it stays held back.

    The better words may be the whole line, or only the one that was missing; the options may be all of the cutter, or
    what the line doesn't say. A try that fails is kept with the line.
    """
    line = _read(held, text, texts, units, currency)
    if not line.taken:
        crib.reword(held.id or 0, kept(f"{held.text} / {text}" if text else held.text), line.why, line.help)
        return confirm(line, (), crib.units), []
    with crib.transaction():
        typed = [one.typed | {"words": kept(" / ".join(part for part in (held.text, text) if part))}
                 for one in line.taken]
        taken = crib.take_in([one.cutter for one in line.taken], line.source, typed)
        crib.put_right(held.id or 0, [cutter.id for cutter in taken])
    return confirm(line, taken, crib.units), taken


def _read(held: HeldBack, text: str, texts: Mapping[str, str], units: str, currency: str) -> Line:
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


def _by_options(held: HeldBack, texts: Mapping[str, str], units: str, currency: str) -> Line | None:
    """The cutter that the options alone describe. Raises `CribError` for one that can't be read."""
    named = {"kind": kind} if "kind" not in texts and (kind := kind_of_line(held.text)) else {}
    reading = read_options({**named, **texts}, units, currency)
    if not reading.taken:
        return None
    return Line(held.text, reading.taken)
