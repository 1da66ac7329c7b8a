"""What a thread is called in words: series, hands, classes, and sizes that are spoken."""

from __future__ import annotations

import re

from crib.light.patterns import pattern

SERIES: dict[str, tuple[str, ...]] = {
    "UNC": ("unc", "nc", "unified coarse"), "UNF": ("unf", "nf", "sae", "unified fine"),
    "UNEF": ("unef", "nef"), "UN": ("un",), "special": ("uns", "ns", "special"),
    "BSW": ("bsw", "whitworth", "whit", "withworth"), "BSF": ("bsf",), "BSB": ("bsb", "brass", "26tpi"),
    "ME": ("me", "model engineer"), "BA": ("ba",), "NPT": ("npt",), "BSPP": ("bspp", "bsp", "gas"),
    "metric": ("metric", "iso"),
}
"""Each series and how it is written."""

_BY_WORD = {word: series for series, words in SERIES.items() for word in words if " " not in word}
_PHRASES = {phrase: words[0] for words in SERIES.values() for phrase in words if " " in phrase}

_ONES = {word: n for n, word in enumerate((
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
    "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"))} | {"ought": 0, "nought": 0}
_TENS = {"twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80}
_PARTS = {"half": 2, "halves": 2, "quarter": 4, "quarters": 4, "eighth": 8, "eighths": 8, "sixteenth": 16,
          "sixteenths": 16, "thirtysecond": 32, "thirtyseconds": 32, "sixtyfourth": 64, "sixtyfourths": 64}
_IDLE = ("a", "an", "and", "by", "thread", "tap", "inch", "in", "tpi", "number", "no", "num", "size", "old", "drill")
_FINE = ("fine", "coarse")

KNOWN = (*_BY_WORD, *_ONES, *_TENS, *_PARTS, "inch", "left", "hand", *_FINE)
"""Every word that a thread may be said with; for people to choose from where one is misspelt."""

_LEFT = pattern(r"\bl\.?h\b\.?|\bleft[\s-]*hand(?:ed)?\b", re.IGNORECASE)
_RIGHT = pattern(r"\br\.?h\b\.?|\bright[\s-]*hand(?:ed)?\b", re.IGNORECASE)
_CLASS = pattern(r"[\s-]*\b([1-3][ab]|[4-8][gh](?:[4-8][gh])?)$", re.IGNORECASE)
_INSERT = pattern(r"\bsti\b|\binserts?\b", re.IGNORECASE)
_COMPOUND = pattern(r"\b(thirty|sixty)[\s-]+(seconds?|fourths?)\b")


def is_left(text: str) -> bool:
    """Whether a left-hand thread is meant.

    >>> is_left("3/8-16 LH"), is_left("3/8-16")
    (True, False)
    """
    return bool(_LEFT.search(text))


def is_insert(text: str) -> bool:
    """Whether a tap for a wire insert is meant, which is larger than the thread it is named after."""
    return bool(_INSERT.search(text))


def plain(text: str) -> tuple[str, str | None]:
    """The text in lower case without hand and class, and the class where one is written.

    >>> plain("1/4–20 UNC-2B LH"), plain("M6×1")
    (('1/4-20 unc', '2B'), ('m6x1', None))
    """
    bare = text.strip().lower()
    for sign, written in (("×", "x"), ("–", "-"), ("—", "-"), ("\u2033", '"'), ("”", '"'), ("_", " ")):
        bare = bare.replace(sign, written)
    bare = _RIGHT.sub(" ", _LEFT.sub(" ", bare)).strip(" ,;")
    for phrase, word in _PHRASES.items():
        bare = bare.replace(phrase, word)
    found = _CLASS.search(bare)
    if found:
        return bare[: found.start()].strip(" ,;-"), found.group(1).upper()
    return " ".join(bare.split()), None


def split_series(text: str) -> tuple[str, str | None, str | None, list[str]]:
    """The sizes as they are written, the series, `fine` or `coarse` where that is said, and the words that are no
    thread's.

    >>> split_series("quarter twenty"), split_series("3/8 whit")
    (('1/4 20', None, None, []), ('3/8', 'BSW', None, []))
    """
    text = _COMPOUND.sub(lambda found: found.group(1) + found.group(2), text)
    text = re.sub(r"(\d)(unc|unf|unef|nc|nf|nef|bsw|bsf|ba|npt|whit)\b", r"\1 \2", text)
    text = re.sub(r"\b(ba|npt|bsw|bsf)(\d)", r"\1 \2", text)
    text = re.sub(r"(?<=\d)[\s-]*w$", " bsw", text)
    text = re.sub(r"(?<=[a-z])-|-(?=[a-z])", " ", text)
    series, grade = None, None
    kept: list[str] = []
    strange: list[str] = []
    for token in text.replace(",", " ").split() if "m" not in text[:1] else text.split():
        bare = token.strip(".,;:")
        if bare in _BY_WORD:
            series = _BY_WORD[bare]
        elif bare in _FINE:
            grade = bare
        elif bare in _ONES or bare in _TENS or bare in _PARTS or bare in _IDLE:
            kept.append(bare)
        elif re.search(r"[a-z]{2,}", bare):
            strange.append(bare)
        else:
            kept.append(token)
    return _spoken(kept), series, grade, strange


def _spoken(tokens: list[str]) -> str:
    """Numbers said in words turned into figures: `three eighths sixteen` is `3/8 16`."""
    figures: list[str] = []
    open_tens = False
    whole_inch = False
    for at, token in enumerate(tokens):
        if token in _TENS:
            figures.append(str(_TENS[token]))
        elif token in _ONES and open_tens and 1 <= _ONES[token] <= 9:
            figures[-1] = str(int(figures[-1]) + _ONES[token])
        elif token in _ONES:
            figures.append(str(_ONES[token]))
        elif token in _PARTS:
            top = figures.pop() if figures and figures[-1].isdigit() and _is_top(tokens, at) else "1"
            figures.append(f"{top}/{_PARTS[token]}")
            if whole_inch:
                figures[-1] = "1-" + figures[-1]
            whole_inch = False
        elif token in ("inch", "in") and not figures and at + 1 < len(tokens):
            whole_inch = True
        elif token not in _IDLE:
            figures.append(token)
        if whole_inch and (token in _ONES or token in _TENS):
            figures.insert(0, "1")
            whole_inch = False
        open_tens = token in _TENS
    return " ".join(figures)


def _is_top(tokens: list[str], at: int) -> bool:
    return at > 0 and tokens[at - 1] in _ONES


def nearest_words(words: list[str]) -> dict[str, str]:
    """For each strange word the known one that is most like it, where one is; for asking, never for deciding."""
    from rapidfuzz import fuzz, process

    found = {}
    for word in words:
        best = process.extractOne(word, KNOWN, scorer=fuzz.ratio, score_cutoff=60)
        if best:
            found[word] = best[0]
    return found
