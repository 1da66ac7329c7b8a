"""Which kind of feature a line asks for."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from functools import cache
from itertools import combinations

from crib.features import KINDS
from crib.findings.message import a
from crib.intake.questions.sheet import KIND, Sheet
from crib.intake.questions.tokens import Token, tokens
from crib.intake.questions.vocabulary import IDLE, labels, shortest
from crib.light.tuples import NamedTuple

_JOINING, _ARTICLES = ("in", "on", "at", "of"), ("a", "the")
"""How the one is joined with the other; `chamfer a 1/4 hole` is said without any, too."""

_CALL = (r"(?<![\w/.-])(?:m ?\d+(?:[.,]\d+)? (?:fine|coarse)\b|"
         r"m ?\d+(?:[.,]\d+)? ?x ?(?:0?[.,]\d+|[1-6](?:[.,]\d+)?)(?![\d./]|,\d| ?(?:mm )?(?:deep|long))|"
         r"(?:#?\d{1,2}|(?:\d+-)?\d+/\d+)-\d{2}(?![\d/]|\.\d\d)|"
         r"[\d/]+(?:[- ]\d{2})? ?(?:unc|unf|unef|bsw|bsf|whit|npt|bspp?)|\d{1,2} ?ba\b)")
_GOES_THROUGH = ("clear", "screw", "bolt", "stud", "fit", "rivet", "ream", "loose", "close")
"""How a thread is called with its pitch, and words of what goes through a hole, which then isn't tapped."""

_LONGEST = 5
"""So many words a name has at the most."""


class Named(NamedTuple):
    """A kind that is named: by which words, where, and whether they name it only where nothing else does."""

    kind: str
    words: tuple[str, ...]
    start: int
    end: int
    is_common: bool
    is_plural: bool


class _Name(NamedTuple):
    kind: str
    words: tuple[str, ...]
    is_common: bool


@cache
def _own() -> dict[str, _Name]:
    """The names that kinds are registered by; no kind is loaded for it."""
    return {name.replace("-", ""): _Name(name, tuple(name.split("-")), False) for name in KINDS}


@cache
def names() -> dict[str, _Name]:
    """Every way to say a kind, its words written as one."""
    found = dict(_own())
    for name, kind in KINDS.items():
        for said in (*shortest(kind.words), *kind.speech.names):
            words = tuple(said.split())
            found.setdefault("".join(words), _Name(name, words, said in kind.speech.common))
    return found


def names_a_kind(text: str) -> bool:
    """Whether a line names a kind of feature.

    >>> names_a_kind("what makes a 3/8 T slot"), names_a_kind("scrap 12")
    (True, False)
    """
    low = Sheet(text).low
    return bool(_found(low, _own()) or _found(low, names()))


def kind_of(sheet: Sheet, every: bool) -> tuple[str, bool] | None:
    """The kind, and whether it is said of several; its name is gone from the sheet. None where none is named, or, not
    every name being looked at, more than one. Asks where two are."""
    found = _found(sheet.low, names() if every else _own())
    everything = found
    if every and (whole := _whole(found)):
        found = [one for one in found if one.kind == whole] or found
    elif every and len(found) > 1 and (inside := _apart(sheet.low, found)):
        found = [found[0]._replace(kind=inside, is_common=False)]
        everything = [found[0], *everything[1:]]
    kinds = list(dict.fromkeys(one.kind for one in found if not one.is_common) or
                 dict.fromkeys(one.kind for one in found))
    if len(kinds) > 1:
        meant = (_sized(sheet.low, kinds, found) or _apart(sheet.low, found)) if every else None
        if meant is None:
            if every:
                sheet.ask(f"two kinds are named: {' and '.join(kinds)}", " ".join(kinds), "one at a time")
            return None
        kinds = [meant]
    if not kinds:
        return _by_its_callout(sheet) if every else None
    if (threaded := KINDS[kinds[0]].speech.by_thread) and _is_threaded(sheet.low):
        kinds = [threaded]
    own = [one for one in everything if one.kind == kinds[0] or not _is_size(sheet.low, one, kinds[0])]
    sheet.before, sheet.name = sheet.low, " ".join(sheet.low[one.start : one.end] for one in own)
    for one in own:
        sheet.blank(one.start, one.end, KIND)
    return kinds[0], any(one.is_plural for one in own)


def _found(low: str, known: dict[str, _Name]) -> list[Named]:
    """The kinds that are named, the longest name first where two begin at one place."""
    pieces, found, place = tokens(low), [], 0
    while place < len(pieces):
        one = next(_at(pieces, place, known), None)
        if one:
            found.append(one[0])
        place += one[1] if one else 1
    return found


def _at(pieces: Sequence[Token], place: int, known: dict[str, _Name]) -> Iterator[tuple[Named, int]]:
    """The names that begin at a piece, the longest first, with how many pieces each has."""
    for many in range(min(_LONGEST, len(pieces) - place), 0, -1):
        words = pieces[place : place + many]
        if not all(one.is_word for one in words):
            continue
        joined = "".join(one.text for one in words)
        single = joined if joined in known else joined.removesuffix("s")
        if (name := known.get(single)) is not None:
            yield Named(name.kind, name.words, words[0].start, words[-1].end, name.is_common, single != joined), many


def _whole(found: Sequence[Named]) -> str | None:
    """The kind of which all that is named together is one name: a `hole` that is `tapped`."""
    said = {word for one in found for word in one.words}
    kinds = {one.kind for one in found}
    whole = {name.kind for name in names().values() if name.kind in kinds and said <= set(name.words)}
    return whole.pop() if len(whole) == 1 and len(kinds) > 1 else None


def _sized(low: str, kinds: Sequence[str], found: Sequence[Named]) -> str | None:
    """The kind of which the other names are what its sizes are called."""
    able = [kind for kind in kinds if all(_is_size(low, one, kind) for one in found if one.kind != kind)]
    return able[0] if len(able) == 1 else None


def _apart(low: str, found: Sequence[Named]) -> str | None:
    """The kind of which two names make one, with more between them: a `groove` so wide `in` a `bore` of so much; what
    else is named is what its sizes are called."""
    kinds = {kind for one, other in combinations(found, 2) for kind in _in(low, one, other)
             if all(_is_size(low, each, kind) for each in found if each not in (one, other))}
    return kinds.pop() if len(kinds) == 1 else None


def _in(low: str, one: Named, other: Named) -> Iterator[str]:
    """The kinds that are called the one in the other, or at it: a `chamfer` on a so large `hole`."""
    ends = tuple(low[each.start:each.end].removesuffix("s") for each in (one, other))
    between = low[one.end:other.start].split()
    for name in names().values():
        if len(name.words) > 2 and (name.words[0], name.words[-1]) == ends and (
                name.words[1] in _ARTICLES or (name.words[1] in _JOINING and name.words[1] in between)):
            yield name.kind


def _is_size(low: str, one: Named, kind: str) -> bool:
    """Whether a name, with the words round it, is what a size of a kind is called: the `hole` of an entry hole."""
    said = low[one.start : one.end]
    single = said.removesuffix("s")
    return any((said in label or single in label) and _covers(low, label, one) for label in labels(kind))


def _covers(low: str, label: str, one: Named) -> bool:
    """Whether a label stands where a name does."""
    at = low.find(label)
    while at >= 0:
        if at <= one.start and one.end - one.is_plural <= at + len(label):
            return True
        at = low.find(label, at + 1)
    return False


def _is_threaded(low: str) -> bool:
    """Whether a hole is called by a thread with its pitch, and nothing is said of what goes through it: it is tapped.
    Common practice, no source.

    >>> [_is_threaded(said) for said in ("1/4-20 hole", "clearance hole for a 1/4-20", "m6 hole")]
    [True, False, False]
    """
    return re.search(_CALL, low) is not None and not any(word in low for word in _GOES_THROUGH)


_ACROSS = (r"(?:(?<![\w/.-])(?:#?[\d./-]*\d)(?:\"| ?(?:mm|in|inch))?(?: ?[-+±][ \d./+-]*\d)? ?"
           r"(?:dia|diam|diameter|ø)\b|ø ?[.\d]).*?"
           r"\b(?:deep|dp|thru|through)\b")
_ROUND = ("bar", "shaft", "pin", "rod", "boss", "stock", "spindle", "bolt", "cutter", "disc", "plug", "stud", "ball")
"""How a print calls a plain hole, and words of what is round and no hole."""


def _by_its_callout(sheet: Sheet) -> tuple[str, bool] | None:
    """The kind where a line is as a print calls a hole, without its name: a thread with its pitch and how deep, or a
    diameter and how deep. Common practice, no source."""
    low, hole = sheet.low, next(kind for kind in KINDS.values() if kind.speech.by_thread)
    cutter = cutter_named(low)
    if cutter and not re.search(rf"\b{cutter.partition(' ')[2].lower()} [#.\d]", low):  # else it is what is done
        return None
    if re.search(r"\b(?:nuts?|inserts?|sti|\w*coils?)\b", low):
        return None
    if _is_threaded(low):
        kind = hole.speech.by_thread
    elif re.search(_ACROSS, low) and not any(re.search(rf"\b{word}s?\b", low) for word in _ROUND):
        kind = hole.name
    else:
        return None
    sheet.before, sheet.name = low, ""
    return kind, False


def near_names(words: Sequence[str]) -> list[str]:
    """Kinds that are called nearly so; for people to choose from."""
    from crib.intake.near import near

    known = {" ".join(one.words): one.kind for one in names().values()}
    found = [known[said] for word in words if len(word) > 3 and word not in IDLE for said in near(word, known)]
    return list(dict.fromkeys(found))[:3]


def cutter_named(text: str) -> str:
    """The kind of cutter that a line names, empty where it names none."""
    from crib.cutters import KINDS as CUTTERS

    plain = re.sub(r"[^a-z]+", " ", text.lower())
    found = [kind.words for kind in CUTTERS.values() if re.search(rf"\b{re.escape(kind.words.lower())}s?\b", plain)]
    return a(max(found, key=len)) if found else ""
