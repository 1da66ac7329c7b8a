"""What is said of a part, as words that can be looked up: case, signs, plurals, accents and broken words put aside."""

from __future__ import annotations

import re
import unicodedata
from functools import cache

from crib.light.patterns import pattern
from crib.light.records import dataclass

_DIGITS = str.maketrans("0134578", "oieastb")
_MOST_JOINED = 3
_APART = pattern(r"\b(?:[A-Za-z][\W_]+){3,}[A-Za-z]\b")
"""Four letters or more that stand apart."""

_KEY_LEAST, _NEAR_LEAST = 7, 5
_FEWEST_CONSONANTS = 4
"""From so many letters on two words that sound alike, or differ by one letter, count as one."""


@dataclass(frozen=True)
class RuleEffects:
    """`words`: every word, its singular, and neighbours written as one; `plain`: the words alone, as they were said."""

    words: frozenset[str]
    plain: tuple[str, ...]


def read(text: str) -> RuleEffects:
    """The words of a text.

    >>> sorted(read("King-Pins, L I F T").words)
    ['king', 'kingpin', 'kingpinlift', 'kingpins', 'kingpinslift', 'lift', 'pin', 'pinlift', 'pins', 'pinslift']
    """
    plain = tuple(_words(text))
    found: set[str] = set()
    for start in range(len(plain)):
        for count in range(1, _MOST_JOINED + 1):
            some = plain[start:start + count]
            if len(some) == count:
                before = "".join(map(singular, some[:-1]))
                found |= {"".join(some), *(before + form for form in _forms(some[-1]))}
    return RuleEffects(frozenset(found), plain)


def _words(text: str) -> list[str]:
    """Lower case, without accents; letters set apart are one word, and digits that stand for letters are those."""
    bare = "".join(c for c in unicodedata.normalize("NFKD", text) if not unicodedata.combining(c))
    bare = re.sub(r"[’'`]s\b", "s", bare.replace("ß", "ss"))
    bare = re.sub(r"([a-z])([A-Z])", r"\1 \2", bare)
    bare = _APART.sub(lambda found: re.sub(r"[\W_]", "", found.group()), bare)
    found = re.findall(r"[^\W_]+", bare.lower())
    return [_letters(word) for word in found]


def _letters(word: str) -> str:
    """A long word with digits for letters, such as l1fting, in letters.

    >>> _letters("l1fting"), _letters("m6x1"), _letters("1144")
    ('lifting', 'm6x1', '1144')
    """
    letters = sum(c.isalpha() for c in word)
    digits = len(word) - letters
    return word.translate(_DIGITS) if 0 < digits <= 2 and letters >= 4 and word[0].isalpha() else word


def _forms(word: str) -> set[str]:
    """A word as it is, in the singular, and without its last s whatever it is."""
    return {word, singular(word), word.removesuffix("s") if len(word) > 3 else word}


def singular(word: str) -> str:
    """A word without the ending of its plural.

    >>> [singular(word) for word in ("pulleys", "batteries", "crutches", "harness", "bus", "axles", "gas")]
    ['pulley', 'battery', 'crutch', 'harness', 'bus', 'axle', 'gas']
    """
    if len(word) < 4 or not word.endswith("s") or word.endswith(("ss", "us", "is")):
        return word
    if word.endswith("ies") and len(word) > 4:
        return word[:-3] + "y"
    if word.endswith(("sses", "ches", "shes", "xes", "zes")):
        return word[:-2]
    return word[:-1]


@cache
def sound(word: str) -> str:
    """The consonants of a word as they sound, doubled ones once: spellings by ear have the same.

    >>> sound("hidrolic") == sound("hydraulic"), sound("vehical") == sound("vehicle")
    (True, True)
    """
    word = word.replace("ph", "f").replace("ck", "k").replace("gh", "g").replace("tion", "sion")
    word = re.sub(r"c(?=[eiy])", "s", word)
    word = word.translate(str.maketrans("cqz", "kks"))
    return word[:1] + re.sub(r"(.)\1+", r"\1", re.sub(r"[aeiouyhw]", "", word[1:]))


def is_near(word: str, other: str) -> bool:
    """Whether one word is the other with a letter wrong, too many, too few or out of place, or spelt by ear.

    >>> is_near("liftng", "lifting"), is_near("presure", "pressure"), is_near("piston", "pistol"), is_near("cat", "car")
    (True, True, True, False)
    """
    if min(len(word), len(other)) < _NEAR_LEAST or (word[0] != other[0] and word[1:2] != other[1:2]):
        return False
    if _one_off(word, other):
        return True
    long = min(len(word), len(other)) >= _KEY_LEAST and len(sound(other)) >= _FEWEST_CONSONANTS
    return long and word[0] == other[0] and abs(len(word) - len(other)) <= 1 and sound(word) == sound(other)


def _one_off(word: str, other: str) -> bool:
    """Whether one change of a letter, or two neighbours swapped, makes one of the other."""
    if abs(len(word) - len(other)) > 1:
        return False
    start = next((n for n, (a, b) in enumerate(zip(word, other, strict=False)) if a != b), min(len(word), len(other)))
    one, two = word[start:], other[start:]
    return one[1:] == two or one == two[1:] or one[1:] == two[1:] or (one[:2] == two[1::-1] and one[2:] == two[2:])
