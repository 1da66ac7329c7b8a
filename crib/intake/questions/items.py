"""What is left of a line as items in their order: values, names of sizes, breaks; words that say nothing are passed
over, and those of which nothing is made are set aside."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache

from crib.features import KINDS
from crib.features.base import FeatureKind
from crib.intake.questions.phrases import is_grade
from crib.intake.questions.sheet import GAP, KIND, Sheet
from crib.intake.questions.tokens import Token, tokens
from crib.intake.questions.values import Of, Value, value_at
from crib.intake.questions.vocabulary import IDLE, SCREWED, Label, is_angle, keys_of, labels
from crib.light.choices import StrEnum
from crib.light.records import dataclass


class Sort(StrEnum):
    """What an item is."""

    VALUE = "a size or an angle"
    TEXT = "a thread, a screw: a size that is no length"
    LABEL = "what a size is called"
    TIMES = "the x between two sizes"
    BREAK = "a comma and the like"
    KIND = "the kind's name"
    MEANS = "an equals sign"
    STRANGER = "a word of which nothing is made"


@dataclass(frozen=True)
class Item:
    """An item: its words, where it stands, and what more is known of it."""

    sort: Sort
    text: str
    start: int
    end: int
    value: Value | None = None
    label: Label | None = None

    @property
    def is_value(self) -> bool:
        """Whether it is something that a size or an option can be."""
        return self.sort in (Sort.VALUE, Sort.TEXT)


_BREAKS = (",", ";", "(", ")", "and", "with", "then", "&", ".", "?", "!", "|", "/", "-", "@", "plus")
_JOINTS = ("/", "-", ".", "+")
_MEANS = ("=", ":", "of", "is")
_TIMES = ("x", "by", "*")
_PITCHED = (r"m ?\d+(?:[.,]\d+)?(?: (?:fine|coarse)(?: thread)?|"
            r" ?x ?(?:0?[.,]\d+|[1-6](?:[.,]\d+)?)(?![\d./]|,\d)(?! ?(?:mm )?(?:deep|long)))?|"
            r"(?:#?\d{1,2}|\d+-\d+/\d+|\d+/\d+)-\d{2}(?:\.\d)?"
            r"(?: ?(?:unc|unf|unef|un|nc|nf|nef|bsw|bsf|whit\w*|nptf?|bspp?))?"
            r"(?:[- ][123][ab])?|\d{1,2} ?ba|"
            r"(?:\d+-\d+/\d+|\d+/\d+|\d+)(?: \d{2})? ?(?:unc|unf|unef|bsw|bsf|whit\w*|npt|bspp?|me|brass thread)|"
            r"(?:\d+/\d+|#\d+|(?:2|4|5|6|8|10|12)) (?:20|18|16|14|13|12|11|10|24|28|32|36|40|44|48|56|64|72|80)"
            r"(?= (?:tapped|tap|thread|threaded|unc|unf|[‖]))")
_LH = r"(?: (?:lh|left hand(?:ed)?))?"


def items(sheet: Sheet, kind: FeatureKind) -> list[Item]:
    """The items of what is left."""
    found = _pitched(sheet, kind)
    pieces = tokens(sheet.low)
    place = 0
    while place < len(pieces):
        item, place = _item(sheet, kind.name, pieces, place)
        if item is not None:
            found.append(item)
    return sorted(found, key=lambda one: one.start)


def _pitched(sheet: Sheet, kind: FeatureKind) -> list[Item]:
    """Threads and screws, which have signs of their own, where the kind has something to do with them."""
    keys = set(keys_of(kind))
    if not keys & set(SCREWED):
        return []
    found = []
    for key, form in kind.speech.forms.items():
        for start, end in _forms(sheet, form) if key in keys else ():
            found.append(Item(Sort.TEXT, key, start, end, Value(sheet.line[start:end], start, end)))
            sheet.blank(start, end)
    if "thread" in keys or "screw" in keys or "bolt" in keys:
        while one := sheet.find(f"(?:{_PITCHED}){_LH}"):
            found.append(Item(Sort.TEXT, "", *one.span(), Value(sheet.line[one.start() : one.end()], *one.span())))
            sheet.blank(*one.span())
    if "class" in keys and (one := sheet.take(r"(?:class )?([1-3][ab]|[4-8][gh])(?: fit)?")):
        sheet.put("class", sheet.line[one.start(1) : one.end(1)])
    return found


def _forms(sheet: Sheet, form: str) -> list[tuple[int, int]]:
    """Where a form of its own stands; where there are several, not those that are a material's grade."""
    pattern = rf"(?<![\w/.-])(?:{form})(?![\w/]|\.\d)"
    places = [one for one in re.finditer(pattern, sheet.low) if not _is_size(sheet.low, one.end())]
    sure = [one for one in places if not is_grade(one[0])] if len(places) > 1 else places
    return [one.span() for one in sure or places[:1]]


def _is_size(low: str, end: int) -> bool:
    """Whether what stands behind a figure makes a size of it."""
    return re.match(r" ?(?:mm|inch|inches|in\b(?! (?:an?|the|my|our)\b| ?[\d.])|\"|x|thou|deep|wide|long|dia\w*)",
                    low[end:]) is not None


def _item(sheet: Sheet, kind: str, pieces: Sequence[Token], place: int) -> tuple[Item | None, int]:
    """The item that begins at a piece, if it says anything, and the piece behind it."""
    one = pieces[place]
    if one.text == KIND:
        return Item(Sort.KIND, "", one.start, one.end), place + 1
    if one.text == GAP:
        return None, place + 1
    if odd := _odd(sheet, kind, pieces, place):
        return odd
    if found := value_at(sheet.line, pieces, place, _of(kind)):
        value, behind = found
        return Item(Sort.VALUE, value.text, value.start, value.end, value), behind
    for many in range(5, 0, -1):
        words = pieces[place : place + many]
        said = " ".join(word.text for word in words)
        if len(words) == many and (label := labels(kind).get(said) or labels(kind).get(said.removesuffix("s"))):
            return Item(Sort.LABEL, said, one.start, words[-1].end, label=label), place + many
    if one.text in _JOINTS and _joins(pieces, place):
        both = sheet.low[pieces[place - 1].start : pieces[place + 1].end]
        return Item(Sort.STRANGER, both, one.start, one.end), place + 1
    for sort, words_of in ((Sort.TIMES, _TIMES), (Sort.MEANS, _MEANS), (Sort.BREAK, _BREAKS)):
        if one.text in words_of:
            return Item(sort, one.text, one.start, one.end), place + 1
    is_idle = one.text in IDLE or one.text in KINDS[kind].speech.idle
    return (None if is_idle else Item(Sort.STRANGER, one.text, one.start, one.end)), place + 1


@cache
def _of(kind: str) -> Of:
    """What a kind's values may be."""
    radius = labels(kind).get("r")
    return Of(any(is_angle(KINDS[kind], key) for key in keys_of(KINDS[kind])), radius is not None and bool(radius.keys))


def _joins(pieces: Sequence[Token], place: int) -> bool:
    """Whether a sign stands right between two figures."""
    if not 0 < place < len(pieces) - 1:
        return False
    before, one, behind = pieces[place - 1 : place + 2]
    return before.is_number and behind.is_number and before.end == one.start and one.end == behind.start


def _odd(sheet: Sheet, kind: str, pieces: Sequence[Token], place: int) -> tuple[Item, int] | None:
    """A word with figures in it, `M6`, of which nothing is known: it is one stranger, never a size."""
    end = place + 1
    while end < len(pieces) and pieces[end].start == pieces[end - 1].end and (
            pieces[end].is_word or pieces[end].is_number or pieces[end].text in "-/"):
        end += 1
    run = pieces[place:end]
    if not any(one.is_word for one in run) or not any(one.is_number for one in run):
        return None
    first = run[0]
    if first.is_word and (first.text in _TIMES or first.text in labels(kind)):
        return None
    found = value_at(sheet.line, pieces, place, _of(kind))
    if found and (found[1] >= end or pieces[found[1]].text in _TIMES or pieces[found[1]].text in labels(kind)
                  or not pieces[found[1]].is_word):
        return None
    if first.is_number and found is None:
        return None
    return Item(Sort.STRANGER, sheet.low[first.start : run[-1].end], first.start, run[-1].end), end


def chain(line: Sequence[Item], at: int, step: int) -> list[int]:
    """The places of values with an `x` between them, from a place on."""
    places: list[int] = []
    while 0 <= at < len(line) and line[at].is_value:
        places.append(at)
        if not (0 <= at + 2 * step < len(line) and line[at + step].sort is Sort.TIMES):
            break
        at += 2 * step
    return places


@cache
def vocabulary(kind: str) -> frozenset[str]:
    """Every word that says something of a kind; a word that is spelt nearly so is read as it."""
    return frozenset(word for said in labels(kind) for word in said.split() if len(word) > 3)
