"""The thread of a tap or a die in a line of shorthand, checked against the tables."""

from __future__ import annotations

import re

from crib.cutters.speech import Order
from crib.findings.errors import CribError
from crib.intake.shorthand.slip import Slip
from crib.units.words import told

_SERIES = r"(?: ?(?P<series>unc|unf|unef|uns|nc|nf|nef|ns|un))?"
_METRIC = r"m ?\d{1,2}(?:[.,]\d)?(?: (?:fine|coarse)(?![a-z])| ?(?:x|by) ?(?:\d?[.,]\d+|\d))?(?![\d.])"
_OF_SIZE = (r"(\d{1,2}(?:\.\d)?)(?: ?mm)?(?:%s)(0?\.\d{1,2}|[1-3]\.\d{1,2})(?: ?mm)?"
            r"(?![\d/])(?! ?(?:long|loc|oal|shank|in|inch|\"|of))")
_MARKED, _UNMARKED = "m ?" + _OF_SIZE % " ?x ?| ?- ?| ", _OF_SIZE % " ?x ?"
"""A metric thread with other signs than the tables have: `M8 1.25`, `M5-.8`; without its M: `12 x 1.25`."""

_BY = r"(\d+-\d+/\d+|\d+/\d+) ?x ?([89]|[1-9]\d)(?![\d/.])"
"""An inch thread with an x in place of the dash: `1/4 x 20`."""

_SLASHED = r"(0|2|4|5|6|8|10|12)/(80|56|40|32|28|24)(?![\d/.])"
"""A machine screw's number with a slash in place of the dash: `8/32`."""

_BA = r"(?:no\.? ?|# ?)?\d{1,2} ?ba"
_SORTED = r"(?:\d+-\d+/\d+|\d+/\d+|#\d{1,2}) (?:fine|coarse)"
"""An inch thread of which only the sort of its pitch is said."""

_PIPE = r"\d+(?:/\d+)?(?:-\d+(?:\.\d)?)? ?(?:nptf?|bspp?)"
_DASH = rf"#?(?:\d+-\d+/\d+|\d+/\d+|\.\d+|\d{{1,2}}) ?- ?[1-9]\d?(?![/\d]){_SERIES}"
_SPACED = rf"#?(?:\d+/\d+|\d{{1,2}}) \d{{1,2}}(?![/\d.])(?! ?(?:flutes?|tooth|mm|in|pcs|°)){_SERIES}"
_WHITWORTH = "whitworth|bsw|bsf"
_LONE_SERIES = "unc|unf|unef|nc|nf|nef|ns"


def thread(slip: Slip, order: object) -> str | None:
    """The thread as it is written in the line, taken off it; None where there is none. `order`: how the sizes of its
    kind are said, None where the kind isn't known."""
    if order not in (None, Order.THREAD, Order.NUMBER):
        return None
    series = slip.take(_WHITWORTH)
    is_tap = order is Order.THREAD or slip.has(r"\d+/\d+ ?[x-] ?\d\d me")
    if series is None and is_tap and (series := slip.take("me|model engineers?")):
        slip.text = re.sub(r"(?<![\w./-])(\d+/\d+)( x | by |  ?)(\d\d)(?![\w/])",
                           lambda found: f"{found[1]}{'-'.center(len(found[2]))}{found[3]}", slip.text, count=1)
    patterns = [_BA, _PIPE, _DASH]
    if order is not Order.NUMBER:
        patterns.append(_METRIC)
        if order or series or slip.has(r"spiral|spiral point|forming|plug|bottoming|g?[hd]\d|lh"):
            patterns.append(_SPACED)
    if order is Order.THREAD and not series:
        patterns = [_MARKED, *patterns, _UNMARKED, _BY, _SLASHED, _SORTED]
    if slip.find(_LONE_SERIES):
        patterns.append(r"\d+-\d+/\d+|\d+/\d+|#\d{1,2}(?= |$)")
    if series:
        patterns.append(r"\d+/\d+|\d(?= |$)")
    if slip.take("sti|insert"):
        slip.values["insert"] = True
    for pattern in patterns:
        if found := slip.take(pattern):
            lone = slip.take(_LONE_SERIES)
            word = (series or lone)
            return _named(pattern, found) + (f" {word[0]}" if word else "")
    return None


def _named(pattern: str, found: re.Match[str]) -> str:
    """A thread as the tables write it, where it was written with other signs."""
    if pattern in (_MARKED, _UNMARKED):
        return f"m{found[1]} x {found[2]}"
    return f"{found[1]}-{found[2]}" if pattern in (_BY, _SLASHED) else found[0].strip()


def put_thread(slip: Slip, said: str) -> None:
    """The thread into its field, in the words of the tables; what isn't sure is asked."""
    from crib.handbook.threads import read_thread

    slip.typed["thread"] = said
    bare = re.sub(r"\s*-\s*", "-", said)
    try:
        reading = read_thread(re.sub(r"^(#?\d+(?:/\d+)?) (\d+)", r"\1-\2", bare))
    except CribError as error:
        slip.values["thread"] = bare
        slip.ask("thread", "; ".join(told(error.finding, slip.units)))
        return
    named = reading.thread
    slip.values["thread"] = named.name if named.is_unified else named.designation
    if named.is_metric and not any(word in said for word in ("x", "by", "coarse")):
        slip.ask("thread", f"is its pitch {named.pitch_mm:g}, the coarse one? {said.upper()} says none")
        slip.assumed.append("thread")
    if named.form.angle_deg == 55:
        slip.ask("thread", "is it a 55 degree thread? try a gauge")
    if slip.values.get("insert"):
        slip.values["thread"] += " STI"
        slip.notes.append(f"for wire inserts: cuts larger than {named.name}")
