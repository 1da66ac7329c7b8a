"""Which value is which size: by the names that stand beside them, then by the order in which a shop says them."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from crib.features.base import FeatureKind
from crib.findings.message import a
from crib.handbook.materials import is_same
from crib.intake.questions.items import Item, Sort
from crib.intake.questions.sheet import GAP, Sheet
from crib.intake.questions.told import is_grade
from crib.intake.questions.values import UNITS
from crib.intake.questions.vocabulary import SCREWED, Label, free_options, keys_of, labels, tells

_MOST_LABELS = 12
_DEEPEST = 4.0
"""A bare size that would make it deeper than so many times its width is more likely its length. Common practice."""

Bound = dict[int, int]
"""For the place of a name the place of its value."""


def bind(sheet: Sheet, kind: FeatureKind, found: Sequence[Item]) -> None:
    """Put every value where it belongs, and ask about those of which that isn't clear."""
    line = list(found)
    _in_one_unit(line)
    _said_twice(line)
    _together(sheet, kind, line)
    best = _best(sheet, kind, line)
    if len(best) > 1:
        _ask_which(sheet, kind, line, best)
    for label, value in best[0].items():
        _put_named(sheet, kind, line[label], line[value])
    used = {*best[0].values(), *(value for other in best for value in other.values())}
    labelled = {at for other in best for at in other}
    bare = [at for at, item in enumerate(line) if item.is_value and at not in used]
    _place_bare(sheet, kind, line, bare)
    _left_over(sheet, kind, [item for at, item in enumerate(line) if item.sort is Sort.LABEL and at not in labelled])
    _strangers(sheet, line, bare)
    _top_heavy(sheet, line)


def _top_heavy(sheet: Sheet, line: Sequence[Item]) -> None:
    """Ask about fractions that nobody says, such as 25/8."""
    for item in line:
        over = re.search(r"(?<![\d-])(\d+)/(\d+)\b", item.text) if item.sort is Sort.VALUE else None
        if over and int(over[1]) > int(over[2]) > 0:
            sheet.ask(f"is {over[0]} a size? it is more than one", over[0], "a mixed number, such as 1-3/8")


def _in_one_unit(line: list[Item]) -> None:
    """A unit behind the last of sizes with an `x` between them is the unit of all: `23 x 9 mm`."""
    for at, item in enumerate(line):
        chain = _chain(line, at, -1)
        last = re.search(r"[\d.] ?(mm|in|\")$", item.text) if item.sort is Sort.VALUE and len(chain) > 1 else None
        for place in chain[1:] if last else ():
            value = line[place].value
            if value is not None and value.is_bare and "/" not in value.text and line[place].sort is Sort.VALUE:
                whole = value._replace(text=value.text + last[1]) if last else value
                line[place] = Item(Sort.VALUE, whole.text, line[place].start, line[place].end, whole)


def _said_twice(line: list[Item]) -> None:
    """A name right before another of the same size is one name with it: `corners R5`."""
    for at in range(len(line) - 1, 0, -1):
        first, second = line[at - 1].label, line[at].label
        if first and second and first.keys and first.keys == second.keys and not (first.follows or first.is_several):
            del line[at - 1]


def _put_named(sheet: Sheet, kind: FeatureKind, label: Item, value: Item) -> None:
    assert label.label is not None and value.value is not None
    keys = label.label.keys
    if not keys:
        sheet.ask(f"{a(kind.name)} isn't asked with {label.text} {value.value.text}", value.value.text,
                  "its sizes are " + ", ".join(key.replace("_", " ") for key in keys_of(kind)))
        return
    sheet.put(keys[0], value.value.text)


def _is_angle(kind: FeatureKind, key: str) -> bool:
    turned = {one.key for one in kind.angles} | {one.key for one in kind.options if one.value == "DEGREES"}
    return key in turned or (key == "angle" and key in keys_of(kind))


def _together(sheet: Sheet, kind: FeatureKind, line: list[Item]) -> None:
    """Names that stand for several sizes at once: `head .975 x .240`, `head .975 wide .240 high`."""
    for at in range(len(line)):
        _both_sides(kind, line, at)
        label = line[at].label
        if label is not None and label.is_several:
            _several(sheet, kind, line, at, label)


def _both_sides(kind: FeatureKind, line: list[Item], at: int) -> None:
    """A name of which one word stands before its value and one behind: `head .975 wide .240 high`, `gib 5 thick`."""
    if line[at].label is None:
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
    ahead, behind = _chain(line, at + 1, 1), _chain(line, at - 1, -1)[::-1]
    chain = ahead if len(ahead) > 1 or not behind else behind if len(behind) > 1 else []
    if len(chain) > 1 and len(chain) <= len(label.keys) and not _is_named(line, chain):
        for place, key in zip(chain, label.keys, strict=False):
            text = line[place].text
            if key:
                sheet.put(key, text)
            else:
                sheet.ask(f"the {text} of the {line[at].text} isn't a size of {kind.words}", text,
                          "leave it out, and say " + " and ".join(kind.needed))
        for place in sorted([*chain, at], reverse=True):
            line[place] = Item(Sort.BREAK, "", line[place].start, line[place].end)
        return
    line[at] = _as(line[at], Label(label.keys[:1]))


def _as(item: Item, label: Label) -> Item:
    return Item(item.sort, item.text, item.start, item.end, None, label)


def _chain(line: Sequence[Item], at: int, step: int) -> list[int]:
    """The places of values with an `x` between them, from a place on."""
    places: list[int] = []
    while 0 <= at < len(line) and line[at].is_value:
        places.append(at)
        if not (0 <= at + 2 * step < len(line) and line[at + step].sort is Sort.TIMES):
            break
        at += 2 * step
    return places


def _is_named(line: Sequence[Item], chain: Sequence[int]) -> bool:
    """Whether the last value of a chain has a name of its own behind it."""
    after = chain[-1] + 1
    label = line[after].label if after < len(line) else None
    has_its_own = after + 1 < len(line) and line[after + 1].is_value
    return label is not None and label.follows and not label.is_several and not has_its_own


def _candidates(sheet: Sheet, line: Sequence[Item], at: int) -> list[tuple[int, bool]]:
    """The values that a name may be of, and whether each stands before it."""
    found = []
    if at and line[at - 1].is_value and not _counted(sheet, line[at - 1].end, line[at].start):
        found.append((at - 1, True))
    ahead = at + 1
    means = ahead < len(line) and line[ahead].sort is Sort.MEANS
    ahead += means
    if ahead < len(line) and line[ahead].is_value and not _leads_away(sheet, line[at].end, line[ahead].start):
        found = [(ahead, False)] if means else [*found, (ahead, False)]
    return found


def _counted(sheet: Sheet, start: int, end: int) -> bool:
    """Whether a count stands between a size and the name of what is counted: the `3 holes` of `3 in 3 holes`."""
    return any(sign.isdigit() for sign in sheet.line[start:end])


def _leads_away(sheet: Sheet, start: int, end: int) -> bool:
    """Whether a word between a name and a size says that the size is of something else: `holes for 1/4 bolts`, `bolts
    on a 3 inch circle`."""
    return not {"for", "on"}.isdisjoint(sheet.low[start:end].split())


def _best(sheet: Sheet, kind: FeatureKind, line: Sequence[Item]) -> list[Bound]:
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
    best: list[Bound] = []
    for score, bound in ways:
        if score == most and bound not in best:
            best.append(bound)
    return best


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
    key = label.keys[0] if label.keys else ""
    order = kind.speech.order if kind.speech.order is not None else kind.needed
    beside = [place for place in (value - 1, value + 1) if 0 <= place < len(line)]
    if any(line[place].sort is Sort.KIND for place in beside):
        worth += 4 if order and key == order[0] else -4
    if before and not label.follows and len(_chain(line, value, -1)) > 1 and at + 1 < len(line) and \
            line[at + 1].is_value:
        worth -= 4
    return worth


def _goes(kind: FeatureKind, label: Item, item: Item) -> bool:
    """Whether a value can be what a name says: no angle is a length, no thread a size."""
    assert label.label is not None and item.value is not None
    key = label.label.keys[0] if label.label.keys else ""
    if item.sort is Sort.TEXT:
        return key in SCREWED
    return not item.value.is_angle or _is_angle(kind, key)


def _ask_which(sheet: Sheet, kind: FeatureKind, line: Sequence[Item], best: Sequence[Bound]) -> None:
    """Ask about a name that could be of either of two values."""
    for at in best[0]:
        values = list(dict.fromkeys(bound[at] for bound in best if at in bound))
        if len(values) > 1 or any(at not in bound for bound in best):
            said, texts = line[at].text, [line[value].text for value in values]
            sheet.ask(f"which is its {said}: {' or '.join(texts)}?", " ".join(texts),
                      f"a comma tells: {texts[0]} {said}, or {said} {texts[-1]}")
            return


def _place_bare(sheet: Sheet, kind: FeatureKind, line: Sequence[Item], bare: Sequence[int]) -> None:
    """Give the values without a name to what is still free, in the kind's order: two at the most where no `x` stands
    between them."""
    order = list(kind.speech.order if kind.speech.order is not None else kind.needed)
    alone = 0
    for at in bare:
        item = line[at]
        if _special(sheet, kind, line, at):
            continue
        chained = len({*_chain(line, at, 1), *_chain(line, at, -1)}) > 1
        free = [key for key in order if key not in sheet.texts and not _is_angle(kind, key)
                and not _is_told_otherwise(sheet, kind, key)]
        if chained and _is_bare_angle(item) and any(_is_angle(kind, key) and key not in sheet.texts for key in order):
            free = [key for key in order if _is_angle(kind, key)]
        alone += not chained
        if not free or alone > 2 or (not chained and free[0] == "length" and order[0] != "length"):
            _ask_what(sheet, kind, item)
        elif _is_rather_long(sheet, free[0], order, item):
            sheet.ask(f"is {item.text} its depth or its length?", item.text, f"{item.text} deep, or {item.text} long")
        else:
            sheet.put(free[0], item.text)
            sheet.bare.append(item.text)
            behind = line[at + 1] if at + 1 < len(line) else None
            if behind is not None and behind.sort is Sort.STRANGER:
                sheet.beside[item.text] = behind.text


def _is_told_otherwise(sheet: Sheet, kind: FeatureKind, key: str) -> bool:
    """Whether another of those of which the kind takes one was told: a thread for a hole's diameter."""
    others = ("thread", "screw") if key == "hole" and kind.speech.counts == "number" else kind.one_of
    return (key == "hole" or key in kind.one_of) and any(one in sheet.texts for one in others)


def _is_bare_angle(item: Item) -> bool:
    return item.value is not None and item.value.is_bare and item.text.isdigit() and 15 <= int(item.text) < 180


def _is_rather_long(sheet: Sheet, key: str, order: Sequence[str], item: Item) -> bool:
    from crib.intake.questions.values import figure

    wide = sheet.texts.get("width", "")
    return (key == "depth" and "length" in order and "length" not in sheet.texts and bool(wide)
            and figure(item.text) > _DEEPEST * figure(wide) > 0)


def _special(sheet: Sheet, kind: FeatureKind, line: Sequence[Item], at: int) -> bool:
    """What isn't a length: an angle, a thread or a screw, a grade that is a figure."""
    item = line[at]
    assert item.value is not None
    if item.value.is_angle or _is_usual_angle(sheet, kind, item):
        angle = next((key for key in keys_of(kind) if _is_angle(kind, key) and key not in sheet.texts), None)
        if angle is None:
            sheet.ask(f"{a(kind.name)} isn't asked with {item.text} degrees", item.text, "leave it out")
        else:
            sheet.put(angle, item.text)
        return True
    if item.sort is Sort.TEXT:
        able = [item.text] if item.text else [key for key in keys_of(kind) if key in ("thread", "screw", "bolt")]
        free = [key for key in able if key not in sheet.texts]
        if len(free) == 1 and (free[0] != "screw" or free[0] in kind.speech.forms):
            sheet.put(free[0], item.value.text)
        else:
            _ask_what(sheet, kind, item, free)
        return True
    if item.value.is_bare and is_grade(item.text) and _stands_apart(sheet, line, at):
        return _is_material(sheet, item.text)
    return False


def _is_usual_angle(sheet: Sheet, kind: FeatureKind, item: Item) -> bool:
    """Whether a bare figure is one of the angles that the kind names as usual, and its angle isn't said otherwise."""
    return item.value is not None and item.value.is_bare and item.text.isdigit() and any(
        one.usual is None and one.key not in sheet.texts and item.text in re.findall(r"\d+", one.words)
        for one in kind.angles)


def _is_material(sheet: Sheet, grade: str) -> bool:
    """Take a figure for the metal's grade, unless another metal was named."""
    named = sheet.texts.get("material")
    if named is not None and not is_same(named, grade):
        return False
    sheet.texts["material"] = grade
    return True


def _stands_apart(sheet: Sheet, line: Sequence[Item], at: int) -> bool:
    """Whether a figure is said as a grade is: behind `in`, or in a place of its own."""
    words = sheet.low[: line[at].start].split()
    if words and words[-1] in ("in", "of", "from", "material"):
        return True
    before = line[at - 1].sort if at else Sort.BREAK
    behind = line[at + 1].sort if at + 1 < len(line) else Sort.BREAK
    return (before in (Sort.BREAK, Sort.KIND) and behind in (Sort.BREAK, Sort.KIND)) or \
        (behind is Sort.BREAK and before is Sort.LABEL)


def _ask_what(sheet: Sheet, kind: FeatureKind, item: Item, keys: Sequence[str] = ()) -> None:
    text = item.value.text if item.value else item.text
    free = [key.replace("_", " ") for key in keys or _nameable(kind) if key not in sheet.texts]
    sheet.ask(f"what is the {text}?", text, f"say its name: {', '.join(f'{key} {text}' for key in free[:4])}")


def _nameable(kind: FeatureKind) -> Iterator[str]:
    yield from dict.fromkeys((*(one.key for one in kind.sizes), *(one.key for one in kind.standards), "length"))


def _left_over(sheet: Sheet, kind: FeatureKind, left: Sequence[Item]) -> None:
    """A name without a value says nothing: it counts among the words that weren't used."""
    for item in left:
        if item.label and item.label.keys and item.label.keys[0] in free_options(kind):
            sheet.put(item.label.keys[0], "yes")
        elif not _is_counted(sheet, item) and item.text not in (*sheet.strange, *UNITS, *tells(kind.name)):
            sheet.strange.append(item.text)


def _is_counted(sheet: Sheet, item: Item) -> bool:
    """Whether a name says what was counted: the `holes` of `8 holes`."""
    ahead = sheet.low[: item.start].rstrip()
    return ahead.endswith(GAP) and sheet.line[len(ahead) - 1].isdigit() and item.text.endswith("s")


def _strangers(sheet: Sheet, line: Sequence[Item], bare: Sequence[int]) -> None:
    """Words of which nothing was made; one with a figure in it must be asked about."""
    for item in line:
        if item.sort is not Sort.STRANGER:
            continue
        if any(sign.isdigit() for sign in item.text):
            sheet.ask(f"what does {item.text!r} say?", item.text, "leave it out, or say it otherwise")
        elif item.text not in sheet.strange and item.text[0].isalpha():
            sheet.strange.append(item.text)
