"""Which value is which size: by the names that stand beside them, then by the order in which a shop says them."""

from __future__ import annotations

import re
from collections.abc import Sequence

from crib.features.base import FeatureKind
from crib.findings.message import a
from crib.intake.questions.items import Item, Sort, chain
from crib.intake.questions.pairs import ask_which, best_pairs
from crib.intake.questions.sheet import GAP, Sheet
from crib.intake.questions.stock import is_thickness
from crib.intake.questions.together import names_of_several, said_twice
from crib.intake.questions.unnamed import place_unnamed
from crib.intake.questions.values import UNITS
from crib.intake.questions.vocabulary import free_options, keys_of, tells


def sizes(sheet: Sheet, kind: FeatureKind, found: Sequence[Item]) -> None:
    """Put every value where it belongs, and ask about those of which that isn't clear."""
    line = list(found)
    _in_one_unit(line)
    said_twice(line)
    names_of_several(sheet, kind, line)
    best = best_pairs(sheet, kind, line)
    if len(best) > 1:
        ask_which(sheet, kind, line, best)
    for label, value in best[0].items():
        _put_named(sheet, kind, line[label], line[value])
    _put_through(sheet, kind, [line[label] for label in best[0]])
    used = {*best[0].values(), *(value for other in best for value in other.values())}
    labelled = {at for other in best for at in other}
    bare = [at for at, item in enumerate(line) if item.is_value and at not in used]
    place_unnamed(sheet, kind, line, bare)
    _left_over(sheet, kind, [item for at, item in enumerate(line) if item.sort is Sort.LABEL and at not in labelled])
    _strangers(sheet, line, bare)
    _top_heavy(sheet, line)


def _in_one_unit(line: list[Item]) -> None:
    """A unit behind the last of sizes with an `x` between them is the unit of all: `23 x 9 mm`."""
    for at, item in enumerate(line):
        places = chain(line, at, -1)
        last = re.search(r"[\d.] ?(mm|in|\")$", item.text) if item.sort is Sort.VALUE and len(places) > 1 else None
        for place in places[1:] if last else ():
            value = line[place].value
            if value is not None and value.is_bare and "/" not in value.text and line[place].sort is Sort.VALUE:
                whole = value._replace(text=value.text + last[1]) if last else value
                line[place] = Item(Sort.VALUE, whole.text, line[place].start, line[place].end, whole)


def _put_named(sheet: Sheet, kind: FeatureKind, label: Item, value: Item) -> None:
    assert label.label is not None and value.value is not None
    keys = label.label.keys
    if not keys:
        sheet.ask(f"{a(kind.name)} isn't asked with {label.text} {value.value.text}", value.value.text,
                  "its sizes are " + ", ".join(key.replace("_", " ") for key in keys_of(kind)))
        return
    sheet.put(keys[0], value.value.text)


def _put_through(sheet: Sheet, kind: FeatureKind, named: Sequence[Item]) -> None:
    """That it goes through, where its depth is called a thickness; told once all is put, for what stays below may be
    said after it."""
    if any(one.label and one.label.keys[:1] == ("depth",) and is_thickness(sheet, kind, one.text) for one in named):
        sheet.put("through", "yes")


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


def _top_heavy(sheet: Sheet, line: Sequence[Item]) -> None:
    """Ask about fractions that nobody says, such as 25/8."""
    for item in line:
        over = re.search(r"(?<![\d.,-])(\d+)/(\d+)(?![\d.,])", item.text) if item.sort is Sort.VALUE else None
        if over and int(over[1]) > int(over[2]) > 0:
            sheet.ask(f"is {over[0]} a size? it is more than one", over[0], "a mixed number, such as 1-3/8")
