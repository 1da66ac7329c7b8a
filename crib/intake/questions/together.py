"""Names that say more or less than one size each: one that stands for several, one in two words round its value, one
said twice."""

from __future__ import annotations

from collections.abc import Sequence

from crib.features.base import FeatureKind
from crib.intake.questions.items import Item, Sort, chain
from crib.intake.questions.sheet import Sheet
from crib.intake.questions.vocabulary import Label, labels


def names_of_several(sheet: Sheet, kind: FeatureKind, line: list[Item]) -> None:
    """Names that stand for several sizes at once: `head .975 x .240`, `head .975 wide .240 high`."""
    for at in range(len(line)):
        _both_sides(kind, line, at)
        label = line[at].label
        if label is not None and label.is_several:
            _several(sheet, kind, line, at, label)


def said_twice(line: list[Item]) -> None:
    """A name right before another of the same size is one name with it: `corners R5`."""
    for at in range(len(line) - 1, 0, -1):
        first, second = line[at - 1].label, line[at].label
        if first and second and first.keys and first.keys == second.keys and not (first.follows or first.is_several):
            del line[at - 1]


def _both_sides(kind: FeatureKind, line: list[Item], at: int) -> None:
    """A name of which one word stands before its value and one behind: `head .975 wide .240 high`, `gib 5 thick`."""
    label = line[at].label
    if label is None or (label.follows and at and line[at - 1].is_value):
        return
    place, named = at + 1, False
    while place + 1 < len(line) and line[place].is_value and line[place + 1].label is not None:
        noun, other = line[at].text, line[place + 1].text
        known, own = labels(kind.name), line[at].label
        whole = known.get(f"{noun} {other}") or known.get(f"{other} {noun}")
        if own and own.keys == line[place + 1].label.keys and not own.is_several:  # type: ignore[union-attr]
            whole = own
        if whole is None:
            break
        line[place + 1] = _as(line[place + 1], Label(whole.keys, True))
        place, named = place + 2, True
        place += place < len(line) and line[place].sort is Sort.TIMES
    if named:
        line[at] = Item(Sort.BREAK, "", line[at].start, line[at].end)


def _several(sheet: Sheet, kind: FeatureKind, line: list[Item], at: int, label: Label) -> None:
    ahead, behind = chain(line, at + 1, 1), chain(line, at - 1, -1)[::-1]
    places = ahead if len(ahead) > 1 or not behind else behind if len(behind) > 1 else []
    if 1 < len(places) <= len(label.keys) and not _is_named(line, places):
        for place, key in zip(places, label.keys, strict=False):
            text = line[place].text
            if key:
                sheet.put(key, text)
            else:
                sheet.ask(f"the {text} of the {line[at].text} isn't a size of {kind.words}", text,
                          "leave it out, and say " + " and ".join(kind.needed))
        for place in sorted([*places, at], reverse=True):
            line[place] = Item(Sort.BREAK, "", line[place].start, line[place].end)
        return
    line[at] = _as(line[at], Label(label.keys[:1]))


def _as(item: Item, label: Label) -> Item:
    return Item(item.sort, item.text, item.start, item.end, None, label)


def _is_named(line: Sequence[Item], places: Sequence[int]) -> bool:
    """Whether the last value of a chain has a name of its own behind it."""
    after = places[-1] + 1
    label = line[after].label if after < len(line) else None
    has_its_own = after + 1 < len(line) and line[after + 1].is_value
    return label is not None and label.follows and not label.is_several and not has_its_own
