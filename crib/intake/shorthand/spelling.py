"""A line in the words that the grammar knows. Words may be misspelt; whatever holds a figure is left as it is."""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction
from functools import cache

from crib.intake.shorthand.needed import Likely, pieces, signs
from crib.intake.shorthand.vocabulary import ALIASES, KIND_PHRASES, PHRASES, WORDS
from crib.intake.signs import in_signs
from crib.intake.spoken import counted, in_figures, is_spoken
from crib.light.patterns import pattern

_ALIKE = 80
"""How alike, of 100, a word must be to one that is known."""

_SHORTEST = 5
_MANY = pattern(r"^(two|three|four|five|six|seven|eight|nine|ten|twelve) (?=(?:#?\d|\.\d)\S* (?:.* )?"
                r"(?:mills|drills|taps|dies|reamers|saws|cutters|countersinks|counterbores|blanks|bars)\b)")
"""A count in words before a size in figures: `two 3/8 end mills`."""

_TIMES = pattern(r"^(\d{1,2})(?:\)|(?P<at>x(?= )| x)(?= ?(?:\d+/\d+|\.\d+|\d+(?:\.\d+)?(?= ?mm))"
                 r"(?:\"| ?in(?:ch)?| ?mm)?(?! ?x)[^x]*"
                 r"\b(?:em|end ?mills?|drills?|reamers?)\b)) ?(?=(?P<size>\d+/\d+|\.\d+)?)")
"""A count before a size: `2 x 3/8 end mills`, `2) 1/2 end mill`."""

_OF_EACH = pattern(r"\((\d{1,3}) ?(?:pcs?|pieces?|off|ea|each)\.?\)")
_REPEATED = pattern(r"^(.*\b(?:mills|drills|taps|dies|reamers|saws|cutters|ems|countersinks)) x ?(\d{1,3})$")
_BOXED = pattern(r"^(?:an? |one |1 )?(?:box|lot|bag|tray|tin) of (\d{1,3}) ?[:,] ?")
"""A count before all the rest: `box of 10: 1/8 end mills`."""

_WHOLE_LOT = pattern(r"^(?:one|an?|1) (?=(?:chipped|dull|sharp|new|old|good|used|worn|bent) (?:#?\d|\.\d))|"
                     r"^(?:(?:one|an?|1) )?(?:box|lot|bag|tray|tin)(?: of)? (?=[^:,]*[:,])|"
                     r"^(?:one|1) (?=(?:box|lot|bag|tray|tin)\b)")
_DICTATED = pattern(r"(?<=\w) (?:period|full stop|new ?line|next line)(?= |$)")
"""What a program that takes dictation writes down of a stop."""

_STOPS = ("period", "stop", "line")
_NOUGHT = pattern(r"\bo(?=-\d{2}\b| ?ba\b)")

_JOINED = pattern(r"\d(?:[a-z]|[ -]fl?\b)")
"""Figures with letters behind them."""

_KNOWN: set[str] = set()
"""Words that were read as they stand, kept: most are."""

_MOST_KNOWN = 4096
_WORD = pattern(r"[a-zø][a-zø'./-]*[a-z.]|[a-zø]")
_HYPHENED = pattern(r"(?<![\w./-])[a-z]{2,}(?:-[a-z]{2,})+(?![\w/-])")


class _Phrases:
    """Patterns and what each is replaced by, in this order."""

    def __init__(self, phrases: Sequence[tuple[str, str]]) -> None:
        self._phrases = [(pattern(heard), said) for heard, said in phrases]
        self._likely = Likely((heard, place) for place, (heard, _) in enumerate(phrases))
        self._heard = [heard for heard, _ in phrases]

    def replaced(self, line: str) -> str:
        """A line with all of them replaced; what one puts there may be of another behind it."""
        left = self._likely.among(pieces(line))[::-1]
        while left:
            place = left.pop()
            heard, said = self._phrases[place]
            if not all(sign in line for sign in signs(self._heard[place])):
                continue
            if (new := heard.sub(said, line)) != line:
                line = new
                left = [behind for behind in self._likely.among(pieces(new)) if behind > place][::-1]
        return line


_NAMES, _ALL = _Phrases(KIND_PHRASES), _Phrases((*PHRASES, *KIND_PHRASES))


def plain(text: str) -> tuple[str, dict[str, str]]:
    """The line in lower case and known words, and which words were read as another because they are alike.

    >>> plain("Endmil 1/2 4flut HHS")[0], plain("reemer five sixteens")
    ('end mill 1/2 4 flute hss', ('reamer 5/16', {'reemer': 'reamer'}))
    """
    line = in_signs(text.lower()).replace("ø", " ø ")
    if "-" in line:
        line = re.sub(r"(?<=\d)-(?=\d{1,2} ?-?(?:f|fl|flt|flutes?)\b)", " ", line)
        line = re.sub(r"(?<=[a-z])-(?=(?:lips?|lipped|flute[ds]?|fl|flt|tooth|toothed|teeth|inch)\b)", " ", line)
    if _JOINED.search(line):
        line = re.sub(r"(?<=\d)(?=(?:flut|fluit|flood|lip|flt|fl\b|f\b|tooth|teeth))", " ", line)
        line = re.sub(r"(\d)[ -]?(?:fl|f)\b", r"\1 flute", line)
        line = re.sub(r"(?<=\d)t\b(?! ?-?slot| cutter)", " tooth", line)
        line = re.sub(r"(?<=\d)r\b", " radius", line)
        line = re.sub(r"(?<=\d)(?=(?:loc|oal|shk?|shank|dia)\b)", " ", line)
    if " x" in line:
        line = _REPEATED.sub(r"(\2) \1", line)
    line = _WHOLE_LOT.sub("", _BOXED.sub(r"(\1) ", line))
    if any(stop in line for stop in _STOPS):
        line = _DICTATED.sub(";", line)
    if "(" in line:
        line = _OF_EACH.sub(r"(\1)", line)
    if line[:1].isdecimal():
        line = _TIMES.sub(_count_of, line)
    if "-" in line:
        line = re.sub(r"(\d)-flute", r"\1 flute", line)
        line = re.sub(r"(?<=[a-z\d])-(?=inch\b)|(?<=\d)-(?=mm\b)", " ", line)
    line = counted(line)
    line = _NAMES.replaced(line)
    if "o-" in line or "ba" in line:
        line = _NOUGHT.sub("0", line)
    if "-" in line:
        line = _HYPHENED.sub(_apart, line)
    read_as: dict[str, str] = {}
    line = _respelt(line, read_as)
    line = _MANY.sub(lambda found: f"({in_figures(found[1])}) ", line)
    line = in_figures(line)
    line = _ALL.replaced(line)
    return " ".join(line.split()), read_as


def _respelt(line: str, read_as: dict[str, str]) -> str:
    """A line with its words as they are read; one of words that stand as they are isn't gone through word by word."""
    if _KNOWN.issuperset(words := _WORD.findall(line)):
        return line
    if len(_KNOWN) >= _MOST_KNOWN:
        _KNOWN.clear()
    _KNOWN.update(word for word in words if respelt(word) == word)
    return _WORD.sub(lambda found: _word(found[0], read_as), line)


def _count_of(found: re.Match[str]) -> str:
    """A count, unless the number may be a diameter with its shank: four times as much at the least is none."""
    said = found[0]
    size = found["size"]
    if found["at"] == " x" and (size is None or float(Fraction(size)) * 4 > int(found[1])):
        return said
    return f"({found[1]}) "


def _apart(found: re.Match[str]) -> str:
    """Words with a hyphen between them as words, unless they are one, or a number."""
    word = found[0]
    return word if word in ALIASES or any(is_spoken(part) for part in word.split("-")) else word.replace("-", " ")


def _word(word: str, read_as: dict[str, str]) -> str:
    if word in ALIASES:
        return ALIASES[word]
    if word in WORDS or len(word) < _SHORTEST or not word.isalpha():
        return word
    meant = _nearest(word)
    if meant is not None:
        read_as[word] = meant
        return ALIASES.get(meant, meant)
    return word


def respelt(word: str) -> str:
    """A word in lower case as it is read.

    >>> respelt("reemer"), respelt("lot")
    ('reamer', 'lot')
    """
    return _word(word, {})


@cache
def _nearest(word: str) -> str | None:
    """The known word with the same first letter that a word is most like; None for one that is a number's."""
    from rapidfuzz import fuzz, process

    if is_spoken(word) or (word.endswith("s") and word[:-1] in WORDS):
        return None
    names = sorted(name for name in (*WORDS, "endmill") if len(name) >= _SHORTEST - 1 and name[0] == word[0])
    found = process.extractOne(word, names, scorer=fuzz.ratio, score_cutoff=_ALIKE)
    return found[0] if found else None
