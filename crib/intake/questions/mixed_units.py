"""Bare figures beside sizes in millimetres: those that in inches could hardly be are millimetres too."""

from __future__ import annotations

from collections.abc import Mapping

from crib.features import KINDS
from crib.intake.questions.values import figure
from crib.intake.questions.vocabulary import SCREWED
from crib.light.patterns import pattern

_BARE = pattern(r"[1-9]\d*(?:[.,]\d+)?")
_METRIC_SCREW = pattern(r"[Mm](\d+(?:[.,]\d+)?)")
_IN_MM = pattern(r"([\d.,]+) ?mm\b")
_INCH = 25.4

_TIMES = 3.0
"""A size that in inches were more than so many times the largest beside it is hardly in inches. From memory."""

_OF_THE_WORK = frozenset(("length", "shaft", "stock", "bore", "hub", "outside", "inside", "circle"))
"""Sizes of the work, which is larger than what is cut in it; in millimetres no less than the largest beside it."""

_LONGEST_IN = 20.0
"""A bench mill's table travels no further, from memory [in]."""


def lengths_of(kind: str) -> frozenset[str]:
    """The keys of a kind's lengths."""
    return frozenset({*(one.key for one in KINDS[kind].sizes), "length", "shaft"})


def bare_of(kind: str, texts: Mapping[str, str]) -> list[tuple[str, str]]:
    """Its sizes without a unit, fractions and bare points aside, which are in inches."""
    return [(key, text) for key, text in texts.items() if key in lengths_of(kind) and _BARE.fullmatch(text)]


def is_in_mm(kind: str, texts: Mapping[str, str]) -> str:
    """What is said in millimetres, as a question about others names it; empty where nothing is."""
    screws = [text for key, text in texts.items() if key in SCREWED and _METRIC_SCREW.match(text)]
    if screws:
        return f"{screws[0]} is"
    return "others are" if any("mm" in text for key, text in texts.items() if key in lengths_of(kind)) else ""


def in_mm_too(kind: str, texts: Mapping[str, str]) -> dict[str, str]:
    """The texts, with `mm` behind each bare figure that in inches could hardly be.

    >>> in_mm_too("pocket", {"width": "40mm", "length": "60mm", "depth": "8"})["depth"]
    '8mm'
    >>> in_mm_too("slot", {"width": "40mm", "depth": "2"})["depth"], in_mm_too("slot", {"width": "40", "depth": "2"})
    ('2', {'width': '40', 'depth': '2'})
    """
    said = [figure(found[1]) for key, text in texts.items()
            if (found := _IN_MM.search(text) if key in lengths_of(kind) else
                _METRIC_SCREW.match(text) if key in SCREWED else None)]
    if not said:
        return dict(texts)
    bare = dict(bare_of(kind, texts))
    return {key: f"{text}mm" if key in bare and _is_hardly_in_inches(key, figure(text), max(said)) else text
            for key, text in texts.items()}


def _is_hardly_in_inches(key: str, size: float, largest: float) -> bool:
    if key in _OF_THE_WORK and size < largest:
        return False
    return size * _INCH > _TIMES * largest and (key != "length" or size > _LONGEST_IN)
