"""What was held back when cutters were taken in, and might be the one that lacks."""

from __future__ import annotations

import re
from collections.abc import Sequence

from crib.cutters import KINDS, and_stand_ins
from crib.features.base import Feature

_MOST = 3


def may_be(lines: Sequence[tuple[str, str]], feature: Feature) -> str:
    """The lines, by where they stand and their text, that name a kind of cutter that a feature calls for.

    Nothing where none does; so many at the most, and how many more there are.
    """
    kinds = and_stand_ins(kind for calls in feature.calls_for.values() for kind in calls.kinds)
    named = [(where, text) for where, text in lines if any(_names(text, kind) for kind in kinds)]
    if not named:
        return ""
    shown = ", ".join(f'{where} ("{" ".join(text.split())[:40]}")' for where, text in named[:_MOST])
    more = f", and {len(named) - _MOST} more" if len(named) > _MOST else ""
    return f"{shown}{more}, held back, may be one: crib held-back puts it right"


def _names(text: str, kind: str) -> bool:
    """Whether a line has the word of a kind: the first of its name, the name in one, or what it is called for short."""
    words = re.findall(r"[a-z]+", text.lower())
    joined = "".join(words)
    first = "".join(re.findall(r"[a-z]+", KINDS[kind].words.lower())).removesuffix("cutter")
    return first in joined or any(short in words for short in KINDS[kind].speech.short)
