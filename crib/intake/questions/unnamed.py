"""Values without a name: what they are is told by the order in which a shop says a kind's sizes, or by their look."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from crib.features.base import FeatureKind
from crib.findings.message import a
from crib.handbook.materials import is_same
from crib.intake.questions.items import Item, Sort, chain
from crib.intake.questions.pairs import is_above
from crib.intake.questions.phrases import is_grade
from crib.intake.questions.sheet import Sheet
from crib.intake.questions.tokens import FIGURE
from crib.intake.questions.values import figure
from crib.intake.questions.vocabulary import is_angle, keys_of

_SHORT_GRADE = 3
"""Signs of a grade that could as well be a size behind another: 303."""

_USUAL_ANGLES = ("30", "45", "60")

_ARTICLES = frozenset(("a", "an", "the", "my", "our", "this", "that"))
_SIGN = re.compile(r"(?:(?<![\d\w])\+ ?/? ?-?|±|\bplus or minus) ?$")
_INCH = 25.4
_DEEPEST = 4.0
"""A bare size that would make it deeper than so many times its width is more likely its length. Common practice."""


def place_unnamed(sheet: Sheet, kind: FeatureKind, line: Sequence[Item], bare: Sequence[int]) -> None:
    """Give the values without a name to what is still free, in the kind's order: two at the most where no `x` stands
    between them."""
    left = [at for at in bare if not _special(sheet, kind, line, at)]
    order = _order(sheet, kind)
    alone = 0
    for at in left:
        item = line[at]
        if _is_tolerance(sheet, kind, item):
            continue
        chained = len({*chain(line, at, 1), *chain(line, at, -1)}) > 1
        free = [key for key in order if key not in sheet.texts and not is_angle(kind, key)
                and not _is_told_otherwise(sheet, kind, key)]
        if (chained or _is_at(sheet, item) or _is_beside_a_size(line, at)) and _is_bare_angle(item):
            free = [key for key in order if is_angle(kind, key) and key not in sheet.texts] or free
        alone += not chained
        too_many = alone > 2 or (not chained and free[:1] == ["length"] and order[0] != "length")
        if free and free[0] in kind.speech.instead and _cannot_be(sheet, kind, free[0], item):
            free = [kind.speech.instead[free[0]]]
        if not free or too_many or _cannot_be(sheet, kind, free[0], item):
            _ask_what(sheet, kind, item)
        elif larger := _is_rather_small(sheet, kind, free[0], item):
            name, other, size = free[0].replace("_", " "), larger.replace("_", " "), sheet.texts[larger]
            else_ = f"and its {kind.speech.instead[larger]} {item.text}" if larger in kind.speech.instead else (
                f"with its {other}")
            sheet.ask(f"is {item.text} the {name}? that is little beside {a(other)} of {size}", item.text,
                      f"{name} {item.text}, or {name} {size} {else_}")
        elif rather := _is_rather(sheet, kind, free[0], item):
            name = free[0].replace("_", " ")
            sheet.ask(f"is {item.text} its {name}, or {rather}?", item.text,
                      f"{name} {item.text}, or the {name} that is meant")
        elif _is_rather_long(sheet, free[0], order, item):
            sheet.ask(f"is {item.text} its depth or its length?", item.text, f"{item.text} deep, or {item.text} long")
        else:
            sheet.put(free[0], item.text)
            sheet.bare.append(item.text)
            behind = line[at + 1] if at + 1 < len(line) else None
            if behind is not None and behind.sort is Sort.STRANGER and not _leads_on(sheet, item, behind):
                sheet.beside[item.text] = behind.text
    _longer_first(sheet, kind, [line[at].text for at in bare])


def _is_tolerance(sheet: Sheet, kind: FeatureKind, item: Item) -> bool:
    """Whether a figure is a tolerance that stands by itself: it is of a size, and never one; asks of which."""
    sign = _SIGN.search(sheet.line[: item.start])
    if sign is None:
        return False
    text = f"{sign[0].strip()}{item.text}".replace("plus or minus", "±")
    size = next((sheet.texts[one.key] for one in kind.sizes if one.key in sheet.texts), "1/2")
    sheet.ask(f"which size is {text} the tolerance of?", text, f"behind its size, as {size} {text}")
    return True


def _order(sheet: Sheet, kind: FeatureKind) -> Sequence[str]:
    """The order of a kind's sizes; where a screw or the like was told, of those that it doesn't say."""
    usual = kind.speech.order if kind.speech.order is not None else kind.needed
    return next((order for key, order in kind.speech.after.items() if key in sheet.texts), usual)


def _leads_on(sheet: Sheet, item: Item, behind: Item) -> bool:
    """Whether a word that isn't known is of the work, not of the size ahead of it: the `axle` of `1/4 in an axle`."""
    between = sheet.low[item.end:behind.start].split()
    return not {"in", "on", "from", "of", "out", "into"}.isdisjoint(between) and not _ARTICLES.isdisjoint(between)


def _longer_first(sheet: Sheet, kind: FeatureKind, said: Sequence[str]) -> None:
    """Of two sizes that both go without a name the greater one is the length, whichever was said first: a pocket runs
    along its longer side. Common practice, no source."""
    if not kind.speech.longer:
        return
    longer, other = kind.speech.longer
    texts = [sheet.texts.get(key, "") for key in (longer, other)]
    if all(text in said for text in texts) and _is_longer(texts[1], texts[0]):
        sheet.texts[longer], sheet.texts[other] = texts[1], texts[0]


def _is_longer(one: str, other: str) -> bool:
    """Whether a size is surely more than another, whatever a bare number is in and whatever its limits."""
    (size, unit), (other_size, other_unit) = (_first_figure(text) for text in (one, other))
    if unit != other_unit:
        if not unit or not other_unit:
            return False
        size, other_size = (mm * (_INCH if said == "in" else 1.0) for mm, said in (
            (size, unit), (other_size, other_unit)))
    return size > other_size > 0


def _first_figure(text: str) -> tuple[float, str]:
    """The figure that a size begins with, and its unit; empty for a bare one."""
    found = re.search(rf"({FIGURE}) ?(mm|in|\")?", text)
    return (figure(found[1]), (found[2] or "").replace('"', "in")) if found else (0.0, "")


def _is_told_otherwise(sheet: Sheet, kind: FeatureKind, key: str) -> bool:
    """Whether another of those of which the kind takes one was told."""
    return key in kind.one_of and any(one in sheet.texts for one in kind.one_of)


def _is_bare_angle(item: Item) -> bool:
    return item.value is not None and item.value.is_bare and item.text.isdigit() and 15 <= int(item.text) < 180


def _is_beside_a_size(line: Sequence[Item], at: int) -> bool:
    """Whether one of the angles that everybody says stands right behind a size, or ahead of a fraction: the 45 of
    `1/16 45` and of `45 1/16`."""
    is_ahead = at + 1 < len(line) and line[at + 1].is_value and "/" in line[at + 1].text
    return line[at].text in _USUAL_ANGLES and ((at > 0 and line[at - 1].is_value) or is_ahead)


def _is_at(sheet: Sheet, item: Item) -> bool:
    """Whether a figure is said as an angle is: the 45 of `1/16 at 45`."""
    return sheet.low[: item.start].split()[-1:] == ["at"]


def _is_rather_long(sheet: Sheet, key: str, order: Sequence[str], item: Item) -> bool:
    wide = sheet.texts.get("width", "")
    return (key == "depth" and "length" in order and "length" not in sheet.texts and bool(wide)
            and figure(item.text) > _DEEPEST * figure(wide) > 0)


def _cannot_be(sheet: Sheet, kind: FeatureKind, key: str, item: Item) -> bool:
    """Whether a size without a name would be no more than one that it is always above, or the other way about."""
    said = {**sheet.texts, key: item.text}
    return any(key in (larger, smaller) and is_above(said.get(smaller, ""), said.get(larger, ""))
               for larger, (smaller, _) in kind.speech.above.items())


def _is_rather_small(sheet: Sheet, kind: FeatureKind, key: str, item: Item) -> str | None:
    """The size that is told beside which one without a name is so small that it is hardly meant."""
    for larger, (smaller, times) in kind.speech.above.items():
        if key == smaller and times and larger in sheet.texts and is_above(sheet.texts[larger], item.text, times):
            return larger
    return None


def _is_rather(sheet: Sheet, kind: FeatureKind, key: str, item: Item) -> str:
    """What a size without a name more likely is: the 7 of `keyway 8 x 7` is the height of the key."""
    other, share, rather = kind.speech.doubted.get(key, ("", 0.0, ""))
    (size, unit), (of, of_unit) = _first_figure(item.text), _first_figure(sheet.texts.get(other, ""))
    return rather if unit == of_unit and size >= share * of > 0 else ""


def _special(sheet: Sheet, kind: FeatureKind, line: Sequence[Item], at: int) -> bool:
    """What isn't a length: an angle, a thread or a screw, a grade that is a figure."""
    item = line[at]
    assert item.value is not None
    if item.value.is_angle or _is_usual_angle(sheet, kind, item):
        angle = next((key for key in keys_of(kind) if is_angle(kind, key) and key not in sheet.texts), None)
        if angle is None:
            sheet.ask(f"{a(kind.name)} isn't asked with {item.text} degrees", item.text, "leave it out")
        else:
            sheet.put(angle, item.text)
        return True
    if item.sort is Sort.TEXT:
        _screwed(sheet, kind, item)
        return True
    if item.value.is_bare and is_grade(item.text) and _stands_apart(sheet, line, at):
        return _is_material(sheet, item.text)
    return False


def _screwed(sheet: Sheet, kind: FeatureKind, item: Item) -> None:
    """A thread or a screw's size: tapped where its pitch is said, for what goes through where that is spoken of."""
    assert item.value is not None
    able = [item.text] if item.text else [key for key in keys_of(kind) if key in ("thread", "screw", "bolt")]
    free = [key for key in able if key not in sheet.texts]
    if "screw" in free and "clearance" in sheet.before:
        free, able = ["screw"], []
    if len(free) == 1 and (free[0] != "screw" or not able or free[0] in kind.speech.forms):
        sheet.put(free[0], item.value.text)
    elif "screw" in free and not item.text:
        said = item.value.text
        sheet.ask(f"{said}: is the hole tapped, or does a screw go through it?", said,
                  f"{said} tapped hole, or clearance hole for {said}")
    else:
        _ask_what(sheet, kind, item, free)


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
    """Whether a figure is said as a grade is: behind `in`, or in a place of its own; a long one anywhere: no size of
    1018 goes without its name."""
    if len(line[at].text) > _SHORT_GRADE:
        return True
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
    named = ", ".join(f"{key} {text}" for key in free[:4])
    sheet.ask(f"what is the {text}?", text, f"say its name: {named}" if named else "leave it out, or say what it is")


def _nameable(kind: FeatureKind) -> Iterator[str]:
    yield from dict.fromkeys((*(one.key for one in kind.sizes), *(one.key for one in kind.standards), "length"))
