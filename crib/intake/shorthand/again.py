"""Lines that speak of the one before: a copy with a change, a correction, a thing found or lent."""

from __future__ import annotations

import re
from typing import Any

from crib.cutters.base import Cutter
from crib.findings.errors import CribError
from crib.intake.build import amended, build
from crib.intake.reading import Taken, kept
from crib.intake.shorthand.line import Line, Shop, read_values
from crib.intake.shorthand.slip import SIZE, Held
from crib.intake.shorthand.spelling import plain
from crib.light.patterns import pattern
from crib.light.records import dataclass, fields
from crib.units import NM, nm, read
from crib.units.words import told

_FORMS = {
    "undo": r"(?:no[ ,]*|oops[ ,]*)?(?:undo|never ?mind(?: that)?(?: 1| one)?|"
            r"take (?:that|it)(?: 1| one)? (?:back|out)|"
            r"(?:undo|scratch|forget|strike|cancel|delete|remove|take (?:back|out)) (?:that|it|(?:the )?last)"
            r"(?: 1| one| line)?)[.!]?",
    "yes": r"(?:y|yes|yep|yeah|yup|ok|okay|right|correct)[.!]?",
    "no": r"(?:n|no|nope|wrong)[.!]?",
    "unit": r"(?:no[ ,]*)?(?:wait[ ,]*)?(?:it'?s |that'?s |in )?(?P<rest>metric|mm|millimet\w*|inch(?:es)?|imperial)"
            r"[.!]?",
    "copy": r"(?:the )?same(?: again| as (?:the )?(?:last|before|that)(?: 1| one)?)?[ ,]*(?:but|except|only|and|with)?"
            r"[ ,]*(?P<rest>.*)",
    "another": r"(?:and )?(?:another|one more|1 more)(?: 1(?![\w/.-])| of (?:those|them))?[ ,:]*"
               r"(?:(?:but|except|only)\b[ ,]*)?(?P<rest>.*)",
    "actual": rf"(?:no[ ,]+|sorry[ ,]+)?(?:(?:that'?s|that is|it'?s|it is|make that|actually|measured|it measured) )+"
              rf"(?P<rest>{SIZE.pattern})(?: (?:actually|really|measured))?[.!]?",
    "found": r"found (?:the |my |a )?(?P<rest>.+)",
    "lent": r"(?:lent|loaned) (?:out )?(?:the |my |a )?(?P<rest>.+?) to (?P<who>.+)",
    "brought": r"(?P<who>[^\d\s#.][^\d#]*?) (?:brought|gave) back (?:the |my |a )?(?P<rest>.+)",
    "back": r"(?:got )?(?:the |my )(?P<rest>.+?) (?:is |came )?back(?: from (?P<who>.+))?",
    "lost": r"(?:lost|mislaid|can'?t find) (?:the |my |a )?(?P<rest>.+)",
    "scrapped": r"(?:scrapped|threw (?:out|away)|broke|snapped) (?:the |my |a )(?P<rest>.+)",
    "moved": r"(?:moved|put) (?:the |my )(?P<rest>.+?) (?:to|into|in) (?P<who>.+)",
    "sharpened": r"(?:sharpened|honed|stoned) (?:the |my |a )?(?P<rest>.+)",
    "state": r"(?:the |my )(?P<rest>.+?) (?:is|got|went) (?P<who>dull|blunt|chipped|burnt|bent|sharp|used)(?: now)?",
}
LIFE = ("lent", "brought", "back", "lost", "scrapped", "moved", "sharpened", "state")
"""Forms that tell what became of a cutter on record."""


_WORN = 0.1
"""What a cutter hardly has lost of its size (common practice, no source)."""

_NOT_COPIED = ("id", "label", "count", "measured", "stamped", "assumed", "questions", "ends", "away", "overruled")
_OF_THE_SIZE = ("diameter_mm", "nominal_mm", "reground", "marking")


@dataclass(frozen=True)
class Asked:
    """What a line asks for besides a cutter of its own: the form, and the words that it is about."""

    form: str
    rest: str = ""
    who: str = ""


_SIZE_FIRST = pattern(r"\s*(?:[#.]\d|\d+[/.,-]\d)")


def asked(text: str) -> Asked | None:
    """What a line that speaks of another asks for; None for one that stands on its own.

    >>> asked("same as last but 5/16"), asked("3/8 end mill")
    (Asked(form='copy', rest='5/16', who=''), None)
    >>> asked("that's 0.248 actually").form, asked("no wait metric").form, asked("another one, dull").rest
    ('actual', 'unit', 'dull')
    """
    if _SIZE_FIRST.match(text):
        return None
    said, _ = plain(text)
    for form, said_so in _FORMS.items():
        if found := re.fullmatch(said_so, said.strip()):
            parts = found.groupdict()
            return Asked(form, (parts.get("rest") or "").strip(), _as_typed((parts.get("who") or "").strip(), text))
    return None


def _as_typed(name: str, text: str) -> str:
    """A name with the capitals that were typed."""
    found = re.search(re.escape(name), text, re.IGNORECASE) if name else None
    return found[0] if found else name


def became(asked: Asked) -> str:
    """The form in the words that are said of a cutter by its number."""
    who = asked.who
    return {"lent": f"lent to {who}", "moved": f"moved to {who}", "state": who, "scrapped": "scrapped",
            "sharpened": "sharpened", "lost": "lost"}.get(asked.form, f"back from {who}" if who else "back")


def copy(last: Cutter, rest: str, text: str, shop: Shop) -> Line:
    """Another cutter like the last, with what is said to be different. What was measured on the last isn't copied."""
    try:
        changes, typed, doubts = read_values(rest, shop, last.kind) if rest else ({}, {}, {})
        looks = [question for question in last.questions if "look" in question and "centre_cutting" not in changes]
        cutter = build(_copied(last, changes) | changes, shop.currency, (*doubts.values(), *looks))
    except Held as held:
        return Line(text, why=held.why, help=held.help)
    except CribError as error:
        return Line(text, why=told(error.finding, shop.units)[0], help="say the whole cutter")
    return Line(text, (Taken(cutter, typed | {"words": kept(text)}),), asks=doubts)


def _copied(last: Cutter, changes: dict[str, Any]) -> dict[str, Any]:
    resized = bool({"diameter_mm", "nominal_mm", "thread", "radius_mm"} & set(changes))
    left_out = set(last.measured) | ({*_OF_THE_SIZE} if resized else set())
    if last.nominal_mm is not None and not resized:
        left_out.add("diameter_mm")
    values = {field.name: getattr(last, field.name) for field in fields(last) if field.name not in _NOT_COPIED}
    if resized and _is_ball(last) and "diameter_mm" in changes:
        values["corner_radius_mm"] = nm(changes["diameter_mm"] / 2) / NM
    return {key: value for key, value in values.items() if value is not None and key not in left_out}


def _is_ball(cutter: Cutter) -> bool:
    corner = cutter.corner_radius_mm
    sizes = [size for size in (cutter.nominal_mm, cutter.diameter_mm) if size is not None]
    return bool(corner) and any(abs(size - 2 * (corner or 0.0)) < 1e-6 for size in sizes)


def corrected(last: Cutter, size: str, shop: Shop) -> tuple[Cutter, dict[str, str]]:
    """The last cutter with its diameter as it was measured; the size before it stays as the stamp. Raises `CribError`.
    """
    if last.thread and last.diameter_mm is None:
        raise CribError("correction", f"{last.label} goes by its thread, not by a diameter", size,
                        "undo, and say it again")
    stamp = last.nominal_mm if last.nominal_mm is not None else last.diameter_mm
    changes: dict[str, Any] = {"diameter_mm": nm(read(size, shop.units).mm) / NM, "measured": ("diameter_mm",)}
    if stamp is not None:
        changes["nominal_mm"] = stamp
    if _is_ball(last):
        changes["corner_radius_mm"] = nm(changes["diameter_mm"] / 2) / NM
    return amended(last, changes, shop.currency), {"diameter_mm": size}


def is_another_size(last: Cutter, size: str, text: str, shop: Shop) -> bool:
    """Whether a size that is said of the last cutter is another one than was said, and not what that one measures:
    a fraction, or one that is far off, unless it is said to be measured."""
    stamp = last.nominal_mm if last.nominal_mm is not None else last.diameter_mm
    if stamp is None or re.search(r"measure|mi[ck]|actual", text, re.IGNORECASE):
        return False
    mm = read(size, shop.units).mm
    return "/" in size or abs(mm - stamp) > _WORN * stamp


def in_unit(text: str, unit: str) -> str | None:
    """A line with its bare numbers in a unit; None where none of them is bare: a fraction is in inches anyway.

    >>> in_unit("12 end mill 4fl", "mm"), in_unit("3/8 end mill", "mm")
    ('12 mm end mill 4 flute', None)
    """
    said, _ = plain(text)
    again = said
    for found in reversed(list(SIZE.finditer(said))):
        counts = re.match(r" ?(?:flutes?|tooth|pcs|deg|°)", said[found.end():])
        if re.fullmatch(r"\d*\.?\d+", found[0].strip()) and not counts:
            again = f"{again[: found.end()].rstrip()} {unit}{again[found.end():]}"
    return None if again == said else again
