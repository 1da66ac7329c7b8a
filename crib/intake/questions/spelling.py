"""Words that are spelt nearly as one that says something. Names only: a size is never guessed."""

from __future__ import annotations

import re
from collections.abc import Collection

from crib.handbook.materials import materials
from crib.intake.questions.items import vocabulary
from crib.intake.questions.kinds import names
from crib.intake.questions.sheet import GAP
from crib.intake.questions.values import UNITS
from crib.intake.questions.vocabulary import IDLE

_TOLD_WORDS = """material hardness closed blind stopped open both ends through hours count quantity mating rockwell
brinell annealed hardened tapped reamed drilled bored between about approximately degrees inches inch"""
_TOLD = frozenset(_TOLD_WORDS.split())
_SHORT_WORDS = """deg degs x by plus minus or and about ca abt circa say near hrc rc hb bhn hr hrs hour hours off pc pcs
qty ea thru ish so end ends fit to wall use lh rh unc unf ba yes no letter number num h g f"""
_SHORT = frozenset(_SHORT_WORDS.split())
"""Words that say something only beside others; too short to be misspelt."""


def respelt(line: str, kind: str, words: Collection[str]) -> tuple[str, dict[str, str]]:
    """A line with its misspelt words put right, and which were read as which.

    >>> respelt("3/8 slto 1/4 dpeth in brasss", "", ("slto", "dpeth", "brasss"))[1]
    {'slto': 'slot', 'dpeth': 'depth', 'brasss': 'brass'}
    """
    read_as = {}
    known = _known(kind)
    for word in words:
        for one in word.split():
            meant = _nearest(one, known) if one not in known and one not in IDLE else None
            if meant is not None:
                read_as[one] = meant
    for word, meant in read_as.items():
        line = re.sub(rf"(?<![a-z]){re.escape(word)}(?![a-z])", meant, line, flags=re.IGNORECASE)
    return line, read_as


def unknown(words: Collection[str], kind: str) -> list[str]:
    """Those words that no line is said with."""
    known = _known(kind) | UNITS.keys() | _SHORT | {word for name in names().values() for word in name.words}
    return [word for word in words if word not in known and word not in IDLE and word.isalpha()]


def without(line: str, words: Collection[str]) -> str:
    """A line without some of its words; figures that one stood between stay apart.

    >>> without("2 opposite 3/8 across", ["opposite"]), without("slot, shiny, 3/8 wide", ["shiny"])
    ('2 ¦ 3/8 across', 'slot, , 3/8 wide')
    """
    for word in words:
        bare = rf"(?<![a-z\d]){re.escape(word)}(?![a-z\d])"
        line = re.sub(rf"(?<=\d) +{bare} +(?=[\d.#])", f" {GAP} ", line, flags=re.IGNORECASE)
        line = re.sub(bare, " ", line, flags=re.IGNORECASE)
    return " ".join(line.split())


def _known(kind: str) -> frozenset[str]:
    """Every word that a line may be said with."""
    of_materials = {word for one in materials() for said in (one.name, *one.words)
                    for word in re.findall(r"[a-z]{4,}", said.lower())}
    of_kinds = {word for name in names().values() for word in (*name.words, "".join(name.words)) if len(word) > 3}
    sizes = vocabulary(kind) if kind else frozenset({"depth", "width", "length", "deep", "wide", "long", "diameter"})
    return frozenset(of_materials | of_kinds | sizes | _TOLD)


def _is_slip(word: str, one: str) -> bool:
    """Whether a short word has the letters of another in another order, or one vowel for another."""
    differ = [pair for pair in zip(word, one, strict=True) if pair[0] != pair[1]]
    return sorted(word) == sorted(one) or (len(differ) == 1 and set(differ[0]) <= set("aeiouy"))


def _nearest(word: str, known: Collection[str]) -> str | None:
    """The one known word that a word is a slip of; a short one must have the same letters."""
    if len(word) < 4 or not word.isalpha():
        return None
    if len(word) == 4:
        same = sorted(one for one in known if len(one) == 4 and one[0] == word[0] and _is_slip(word, one))
        return same[0] if len(same) == 1 else None
    from rapidfuzz.distance import OSA

    most = 1 if len(word) < 8 else 2
    found = sorted((OSA.distance(word, one, score_cutoff=most), one) for one in known if one[0] == word[0])
    near = [one for far, one in found if far <= most and far == found[0][0]]
    return near[0] if len(near) == 1 or _is_one_material(near) else None


def _is_one_material(words: Collection[str]) -> bool:
    """Whether words are ways to write the same, as aluminum and aluminium are: they name the very same materials."""
    named = {tuple(one.name for one in materials() if any(word in said.lower().split() for said in (
        one.name, *one.words))) for word in words}
    return len(named) == 1 and () not in named
