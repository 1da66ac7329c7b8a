"""Limits that stand apart from their size: `3/8 wide, 1/4 deep, +.001 -0 on the width`."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from crib.features.base import FeatureKind
from crib.intake.questions.plain import LIMITS, SIDE
from crib.intake.questions.sheet import GAP, Sheet
from crib.intake.questions.values import UNITS, limits_of
from crib.intake.questions.vocabulary import labels

_SIGNS = ("+", "±", "plus", "minus", "-.", "- .", "-0")
_CALLED = r"(?:tolerances?|limits)"
_BEHIND = rf"(?:(?:with )?(?:an? )?{_CALLED}(?: of)?:? )?(?P<limits>{LIMITS}|{SIDE}) (?:on|for) (?:the |its )?$"
_AHEAD = rf"(?: {_CALLED})?(?: of| is|:)? ?(?P<limits>{LIMITS})(?![\w/]|\.\d)"
_APART = ("", ",", ";", "(", ":", GAP, "with", "and", "the")
"""What stands before a name that begins anew, and belongs to no figure ahead of it."""

_LIMITED = r"(?i:[+±]| -|\.\d+[-/]|[a-z]\d| to )"
"""A size that has limits, or a class, of its own."""


def limits_apart(sheet: Sheet, kind: FeatureKind) -> dict[str, str]:
    """The limits by the key of the size that they are named for, taken off the sheet.

    >>> sheet = Sheet("‖ 3/8 wide 1/4 deep +.001 -0 on the width")
    >>> from crib.features import KINDS
    >>> limits_apart(sheet, KINDS["slot"]), sheet.low.rstrip("¦ ")
    ({'width': '+.001 -0'}, '‖ 3/8 wide 1/4 deep')
    """
    found: dict[str, str] = {}
    if not any(sign in sheet.low for sign in _SIGNS):
        return found
    names = [name for name, label in sorted(labels(kind.name).items(), key=lambda one: -len(one[0]))
             if label.keys and not label.is_several and name in sheet.low]
    for name in names:
        for at in re.finditer(rf"(?<![\w/.-]){re.escape(name)}(?![\w/])", sheet.low):
            if limits := _behind(sheet, *at.span()) or _ahead(sheet, *at.span()):
                for one in (name, *_with_it(sheet, at.end(), names)):
                    found.setdefault(labels(kind.name)[one].keys[0], limits_of(limits))
                break
    return found


def _with_it(sheet: Sheet, end: int, names: Sequence[str]) -> Iterator[str]:
    """What more the same limits are on: `on the width and the length`."""
    every = "|".join(map(re.escape, names))
    while more := re.match(rf",? (?:and|&) (?:on |for )?(?:the |its )?({every})(?![\w/])", sheet.low[end:]):
        sheet.blank(end, end + more.end())
        end += more.end()
        yield more[1]


def _behind(sheet: Sheet, start: int, end: int) -> str:
    """Limits in front of what they are on."""
    found = re.search(_BEHIND, sheet.low[:start])
    if found is None:
        return ""
    limits = sheet.line[found.start("limits"):found.end("limits")]
    sheet.blank(found.start(), end)
    return limits


def _ahead(sheet: Sheet, start: int, end: int) -> str:
    """Limits behind a name, which may have its figure elsewhere."""
    found = re.match(_AHEAD, sheet.low[end:])
    word = sheet.low[:start].rstrip().rpartition(" ")[2]
    has_its_figure = word[-1:].isdigit() or word in UNITS or word[-1:] == '"'
    if found is None or not (has_its_figure or word in _APART or word[-1:] in _APART):
        return ""
    limits = sheet.line[end + found.start("limits"):end + found.end("limits")]
    sheet.blank(end if has_its_figure else start, end + found.end())
    return limits


def put_back(sheet: Sheet, apart: dict[str, str]) -> None:
    """Limits put behind their sizes; asks where there is none, or one that has its own."""
    for key, limits in apart.items():
        name, size = key.replace("_", " "), sheet.texts.get(key)
        if size is None:
            sheet.ask(f"{limits} on the {name}: which size is that?", limits, f"such as {name} 1/2 {limits}")
        elif re.search(_LIMITED, size):
            sheet.ask(f"{name} is {size} and {limits}: which?", limits, "say it once")
        else:
            sheet.texts[key] = f"{size} {limits}"
