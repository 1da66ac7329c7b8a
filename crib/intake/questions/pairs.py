"""Each name of a size with its value, the one before it or the one behind: the way that suits most of them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from crib.features.base import FeatureKind
from crib.intake.questions.items import Item, Sort, chain
from crib.intake.questions.phrases import is_grade
from crib.intake.questions.sheet import Sheet
from crib.intake.questions.values import figure
from crib.intake.questions.vocabulary import SCREWED, is_angle

_MOST_LABELS = 12

_BESIDE_THE_KIND = 8
"""So much less may a way be worth because of what stands beside the kind's name, and be taken where the other can't
be."""

_A_GRADE = 50
"""So much less is a figure worth that is a metal's grade as well: the 1010 of `in a 1 inch shaft 1010`."""

Bound = dict[int, int]
"""For the place of a name the place of its value."""


_AWAY = frozenset(("for", "on"))
"""Words that say of a size behind a name that it is of something else: `holes for 1/4 bolts`, `bolts on a 3 inch
circle`; so does `to` where a size stands before the name: a `1/4 hole to 5/16`."""


def best_pairs(sheet: Sheet, kind: FeatureKind, line: Sequence[Item]) -> list[Bound]:
    """The ways to give each name its value that are as good as any."""
    places = [at for at, item in enumerate(line) if item.sort is Sort.LABEL][:_MOST_LABELS]
    ways: list[tuple[int, Bound]] = [(0, {})]
    for at in places:
        grown = []
        for score, bound in ways:
            grown.append((score, bound))
            for value, before in _candidates(sheet, line, at):
                if value not in bound.values() and _goes(kind, line[at], line[value]):
                    grown.append((score + _worth(kind, line, at, value, before), bound | {at: value}))
        ways = _those_worth_keeping(grown)
    most = max(score for score, _ in ways)
    best = _distinct(bound for score, bound in ways if score == most)
    if not kind.speech.above or not all(_is_contrary(kind, line, bound) for bound in best):
        return [bound for bound in best if not _is_contrary(kind, line, bound)]
    named = len(best[0])
    return _distinct(bound for score, bound in ways if score >= most - _BESIDE_THE_KIND and len(bound) == named
                     and not _is_contrary(kind, line, bound)) or best


def _distinct(bounds: Iterable[Bound]) -> list[Bound]:
    found: list[Bound] = []
    for bound in bounds:
        if bound not in found:
            found.append(bound)
    return found


def _is_contrary(kind: FeatureKind, line: Sequence[Item], bound: Bound) -> bool:
    """Whether a size would be no more than one that it is always above, were what has no name read in its order."""
    if not kind.speech.above:
        return False
    said = {label.keys[0]: line[value].text for at, value in bound.items()
            if (label := line[at].label) is not None and label.keys}
    order = kind.speech.order if kind.speech.order is not None else kind.needed
    bare = (item.text for at, item in enumerate(line) if item.sort is Sort.VALUE and at not in bound.values()
            and item.value is not None and not item.value.is_angle)
    placed = dict(zip([key for key in order if key not in said], bare, strict=False))
    said = {**said, **placed}
    for key in kind.speech.instead.keys() & placed.keys():
        smaller, times = kind.speech.above[key]
        if is_above(said.get(smaller, ""), placed[key]):
            del said[key]
        elif times and smaller in said and is_above(placed[key], said[smaller], times):
            return True
    return any(is_above(said[one], said[other]) for other, (one, _) in kind.speech.above.items()
               if one in said and other in said)


def is_above(one: str, other: str, times: float = 1.0) -> bool:
    """Whether a size is surely as much as so many times another, or more, whatever a bare number is in; the
    number of a drill tells no size."""
    if ("mm" in one) != ("mm" in other) or "#" in one + other:
        return False
    return figure(one) >= times * figure(other) > 0


def _candidates(sheet: Sheet, line: Sequence[Item], at: int) -> list[tuple[int, bool]]:
    """The values that a name may be of, and whether each stands before it."""
    found = []
    if at and line[at - 1].is_value and not _counted(sheet, line[at - 1].end, line[at].start):
        found.append((at - 1, True))
    ahead = at + 1
    means = ahead < len(line) and line[ahead].sort is Sort.MEANS
    ahead += means
    between = sheet.low[line[at].end : line[ahead].start].split() if ahead < len(line) else []
    if ahead < len(line) and line[ahead].is_value and _AWAY.isdisjoint(between) and not (found and "to" in between):
        is_sure = means and not is_grade(line[ahead].text)
        found = [(ahead, False)] if is_sure else [*found, (ahead, False)]
    return found


def _counted(sheet: Sheet, start: int, end: int) -> bool:
    """Whether a count stands between a size and the name of what is counted: the `3 holes` of `3 in 3 holes`; a metal's
    grade is none."""
    between = sheet.line[start:end]
    if metal := sheet.texts.get("material"):
        between = between.replace(metal, "")
    return any(sign.isdigit() for sign in between)


def _those_worth_keeping(ways: list[tuple[int, Bound]]) -> list[tuple[int, Bound]]:
    """No more than can be looked through."""
    return sorted(ways, key=lambda way: -way[0])[:256]


def _worth(kind: FeatureKind, line: Sequence[Item], at: int, value: int, before: bool) -> int:
    """How well a value goes with a name: ten for going at all."""
    label = line[at].label
    assert label is not None
    worth = 100
    if label.follows and before:
        worth += 30
    item = line[value]
    if item.value is not None and item.value.is_bare and is_grade(item.text):
        worth -= _A_GRADE
    key = label.keys[0] if label.keys else ""
    order = kind.speech.order if kind.speech.order is not None else kind.needed
    beside = [place for place in (value - 1, value + 1) if 0 <= place < len(line)]
    if any(line[place].sort is Sort.KIND for place in beside):
        worth += 4 if order and key == order[0] else -4
    if before and not label.follows and len(chain(line, value, -1)) > 1 and at + 1 < len(line) and \
            line[at + 1].is_value:
        worth -= 4
    return worth


def _goes(kind: FeatureKind, label: Item, item: Item) -> bool:
    """Whether a value can be what a name says: no angle is a length, no thread a size."""
    assert label.label is not None and item.value is not None
    key = label.label.keys[0] if label.label.keys else ""
    if item.sort is Sort.TEXT:
        return key in SCREWED
    return not item.value.is_angle or is_angle(kind, key)


def ask_which(sheet: Sheet, kind: FeatureKind, line: Sequence[Item], best: Sequence[Bound]) -> None:
    """Ask about a name that could be of either of two values."""
    for at in best[0]:
        values = list(dict.fromkeys(bound[at] for bound in best if at in bound))
        if len(values) > 1 or any(at not in bound for bound in best):
            said, texts = line[at].text, [line[value].text for value in values]
            sheet.ask(f"which is its {said}: {' or '.join(texts)}?", " ".join(texts),
                      f"a comma tells: {texts[0]} {said}, or {said} {texts[-1]}")
            return
