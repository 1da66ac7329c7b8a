"""A line read into a question: which kind, what of it, what must be asked, and which words weren't used."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from crib.features import KINDS
from crib.findings.errors import CribError
from crib.intake.number_words import WORDS
from crib.intake.questions.items import items
from crib.intake.questions.kinds import cutter_named, kind_of, near_names
from crib.intake.questions.limits_apart import limits_apart, put_back
from crib.intake.questions.metals import ask_of_metals
from crib.intake.questions.phrases import phrases, uses
from crib.intake.questions.plain import put_plainly
from crib.intake.questions.sheet import Sheet
from crib.intake.questions.sizes import sizes
from crib.intake.questions.vocabulary import COMMON, TEXTS, keys_of, name_of
from crib.intake.signs import in_signs
from crib.intake.standards import standards_apart
from crib.light.records import dataclass, replace

LONGEST = 400
"""More signs than this are no question that anyone asks."""

_SPOKEN = WORDS | {"pair", "couple", "an", "thou"}
"""Words that are part of a number, or stand for one."""

_BREAKS = str.maketrans(dict.fromkeys(",;:()-.", " "))


@dataclass(frozen=True)
class Question:
    """What was read of a line: the kind, what of it by key as an option takes it; `asks`: what can't be told from the
    words; `unused`: words that nothing was made of; `read_as`: those that were read as another, which they are like."""

    line: str
    kind: str = ""
    texts: Mapping[str, str] = {}
    asks: tuple[CribError, ...] = ()
    unused: tuple[str, ...] = ()
    read_as: Mapping[str, str] = {}

    @property
    def echo(self) -> str:
        """The question as it was read; typed again it reads the same.

        >>> read_question("3/8 slot 1/4 deep in brass").echo
        'slot, width 3/8, depth 1/4, material brass'
        """
        said = (f"{name_of(self.kind, key)} {text}" for key, text in self.texts.items())
        return ", ".join([self.kind, *said])


def read_question(text: str) -> Question:
    """Read a line. Never raises: what is wrong with it stands in `asks`.

    >>> question = read_question("T slot 5/8 throat .52 deep head .975 x .240 grey iron")
    >>> question.kind, sorted(question.texts.items())[:3]
    ('t-slot', [('depth', '.52'), ('head_height', '.240'), ('head_width', '.975')])
    """
    if len(text) > LONGEST:
        return Question(text[:80], asks=(CribError("words", "that is too long for a question", text[:80],
                                                   f"at most {LONGEST} signs, one feature at a time"),))
    said, standards = standards_apart(put_plainly(" ".join(in_signs(text).split())))
    question = _read_without(said)
    return replace(question, unused=(*question.unused, *standards)) if standards else question


def _read_without(said: str) -> Question:
    """Read a line in which no standard is named."""
    line = in_figures(said)
    quick = _read(line, False)
    if line == said and quick is not None and not quick.strange and not quick.asks:
        return _question(quick)
    whole = _whole(said)
    return _question(whole) if whole.kind and not whole.strange else _with_strangers(said, whole)


def _whole(said: str) -> Sheet:
    """A line read by every name that there is, whatever way its numbers are said."""
    line = in_figures(said)
    sheet = _read(line, True)
    assert sheet is not None
    if line != said:
        _ask_how_many(sheet, said)
    return sheet


def _ask_how_many(sheet: Sheet, said: str) -> None:
    """Ask about a fraction in words that could be a count: `three quarter inch slots`, `3 quarter slot`."""
    from crib.intake.questions.numbers import could_be_a_count

    if (found := could_be_a_count(said, sheet.is_plural)) and "count" not in sheet.texts:
        words, right = found
        sheet.ask(f"{words}: one size, or how many of one?", words, right)


def _with_strangers(said: str, first: Sheet) -> Question:
    """A line with words of which nothing was made: those that are misspelt are put right, and the others set aside
    before it is read again, so that they change nothing of it; asked about is one behind a size without a name."""
    from crib.intake.questions.spelling import respelt, unknown, without

    words = first.strange if first.kind else re.findall(r"[a-z]{2,}", first.low)
    put_right, read_as = respelt(said, first.kind, words)
    again = _whole(put_right) if read_as else None
    sheet, said = (again, put_right) if again is not None and again.kind else (first, said)
    strange = unknown(sheet.strange, sheet.kind) if sheet.kind else []
    bare = _whole(without(said, strange)) if strange else None
    if bare is None or not bare.kind:
        ask_of_metals(sheet, first.line, first.strange)
        _ask_beside(sheet, sheet.strange)
        return _question(sheet, read_as=read_as if sheet is again else {})
    bare.beside = {size: word for size, word in sheet.beside.items() if size in bare.bare}
    ask_of_metals(bare, first.line, first.strange)
    _ask_beside(bare, strange)
    return _question(bare, strange, read_as if sheet is again else {})


def _ask_beside(sheet: Sheet, strange: Sequence[str]) -> None:
    """Ask about a word of which nothing was made, behind a size without a name; one that was asked about isn't."""
    for size, word in sheet.beside.items():
        if word in strange and not any(word in str(one.finding.read).split() for one in sheet.asks):
            sheet.ask(f"what does {word!r} say of the {size}?", size, f"say what the {size} is by its name")


def _question(sheet: Sheet, strange: Sequence[str] = (), read_as: Mapping[str, str] | None = None) -> Question:
    """What stands on a sheet as a question."""
    if not sheet.kind:
        return _no_kind(sheet)
    unused = tuple(dict.fromkeys([*sheet.strange, *strange]))
    texts = _in_order(sheet.kind, sheet.texts)
    return Question(sheet.line, sheet.kind, texts, tuple(sheet.asks), unused, read_as or {})


def in_figures(line: str) -> str:
    """A line whose numbers are figures, however they were said."""
    if _SPOKEN.isdisjoint(line.lower().translate(_BREAKS).split()):
        return line
    from crib.intake.questions.numbers import in_figures as said_in_figures

    return said_in_figures(line)


def _read(line: str, every: bool) -> Sheet | None:
    """Read a line; None where the quick way, by the kinds' own names alone, won't do."""
    sheet = Sheet(line)
    named = kind_of(sheet, every)
    if named is None:
        return sheet if every else None
    sheet.kind, sheet.is_plural = named
    kind = KINDS[sheet.kind]
    apart = limits_apart(sheet, kind)
    phrases(sheet, kind, sheet.is_plural)
    uses(sheet, kind)
    sizes(sheet, kind, items(sheet, kind))
    put_back(sheet, apart)
    return sheet


def _in_order(kind: str, texts: Mapping[str, str]) -> dict[str, str]:
    """What was read in the order of the kind's sizes and options, what every kind is asked with behind them."""
    keys = (*keys_of(KINDS[kind]), "fit", *COMMON, *TEXTS)
    return {key: texts[key] for key in dict.fromkeys(keys) if key in texts}


def _no_kind(sheet: Sheet) -> Question:
    """What is said where no kind is named, or two are."""
    words = tuple(dict.fromkeys(re.findall(r"[a-z]{2,}", sheet.low)))
    if sheet.asks:
        return Question(sheet.line, asks=tuple(sheet.asks))
    if not sheet.line.strip():
        return Question("", asks=(CribError("words", "nothing is asked", "", "such as: 3/8 slot 1/4 deep in brass"),))
    if cutter := cutter_named(sheet.line):
        error = CribError("words", f"{cutter} is a cutter, not something to be made", sheet.line,
                          "crib find lists cutters; what they should make is asked such as: 3/8 slot 1/4 deep in brass")
        return Question(sheet.line, asks=(error,), unused=words)
    near = near_names(words)
    right = f"did you mean {' or '.join(near)}?" if near else "one of " + ", ".join(KINDS)
    return Question(sheet.line, asks=(CribError("words", "nothing to be made is named", sheet.line, right),),
                    unused=words)
