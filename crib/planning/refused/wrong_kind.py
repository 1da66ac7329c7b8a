"""The refusal of a cutter that isn't made for the work."""

from __future__ import annotations

from collections.abc import Sequence

from crib.cutters import KINDS, kind_of
from crib.cutters.base import Cutter
from crib.findings.message import said
from crib.planning.told.advice import Refusal, refused


def wrong_kind(cutter: Cutter, called: Sequence[str]) -> Refusal:
    """The refusal of a cutter of a kind that isn't made for the work; `called`: the kinds that are."""
    words = " or ".join(_a(KINDS[name].words) for name in called) if called else ""
    return refused(cutter, "KD1", said("{kind} isn't for this work", kind=_a(kind_of(cutter).words)),
                   fix=said("what is made for it: {kinds}", kinds=words) if words else None)


def _a(words: str) -> str:
    return f"{'an' if words[0] in 'aeiou' else 'a'} {words}"
