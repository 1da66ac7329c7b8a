"""What an owner's word says against a rule: `SW2 I run that saw at 80`. For one question, for the shop, or for one
cutter; what it may be said of is in `crib.rules.overruling`."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

from crib.cutters import KINDS
from crib.cutters.base import Cutter
from crib.light.patterns import pattern
from crib.light.records import dataclass
from crib.shop import Shop

SPEED = "SP1"
"""The rule on speed, for a word that only says how fast."""

OF_ONE, OF_THIS, OF_ALL = "this cutter", "this question", "the shop"
"""By whose word, or rather of what it is said."""

_ID = pattern(r"\s*([A-Za-z]{2}\d\d?|[A-Za-z]\d\d?)(?:\s*[:=,]\s*|\s+-\s+|\s+|$)(.*)", re.DOTALL)
_RPM = pattern(r"\b(\d{2,5})\s*(?:rpm|revs?)\b|\b(?:runs?|turns?|spins?|goes|go|ran)\b.*?\bat\s+(\d{2,5})\b"
               r"(?!\s*(?:deg|%|per|hrc|hb|thou|mm|in\b|ipm|sfm|/))", re.IGNORECASE)


@dataclass(frozen=True)
class Overrule:
    """A rule that the owner says doesn't hold, in what words, and by whose: of this question, the shop's, or of one
    cutter. `rpm`: how fast it is run, where the words say so [rev/min]; `kinds`: what kinds of cutter they name."""

    rule: str
    words: str
    by: str
    rpm: int | None = None
    kinds: tuple[str, ...] = ()


@cache
def overrule(text: str, by: str = OF_THIS) -> Overrule:
    """What a text says, its rule first where it names one; one that only says how fast is of the rule on speed.

    >>> one = overrule("SW2 I run that saw at 80")
    >>> one.rule, one.rpm, one.kinds
    ('SW2', 80, ('slitting-saw',))
    >>> overrule("I always climb the last two thou").rule
    ''
    """
    found = _ID.match(text)
    words = (found[2] if found else text).strip()
    fast = _RPM.search(words)
    rpm = int(fast[1] or fast[2]) if fast else None
    rule = found[1].upper() if found else SPEED if rpm else ""
    return Overrule(rule, words, by, rpm, _kinds(words))


def _kinds(words: str) -> tuple[str, ...]:
    """The kinds of cutter that words name, by the noun of each."""
    said = words.lower().replace("-", " ")
    return tuple(name for name, kind in KINDS.items()
                 if re.search(rf"\b(?:{kind.speech.noun or re.escape(kind.words.lower())})s?\b", said))


def said_of(shop: Shop, cutter: Cutter | None = None) -> Iterator[Overrule]:
    """All that is overruled, for a cutter too; the word for one cutter first, then that of the question."""
    yield from (overrule(text, OF_ONE) for text in (cutter.overruled if cutter else ()))
    yield from (overrule(text, OF_THIS) for text in shop.this_time)
    yield from (overrule(text, OF_ALL) for text in shop.overruled)


def may_be(shop: Shop, cutter: Cutter, rule: str) -> bool:
    """Whether a rule may be overruled where a cutter works: what goes by it beforehand can't count on it then."""
    return any(one.rule == rule for one in said_of(shop, cutter))


def own_rpm(shop: Shop, cutter: Cutter) -> int | None:
    """How fast the owner says that a cutter is run [rev/min]: for that cutter, or for its kind."""
    return next((one.rpm for one in said_of(shop, cutter)
                 if one.rpm and (one.by == OF_ONE or cutter.kind in one.kinds)), None)
