"""What pages say of a cutter, of its place, and of what the rules have to say."""

from __future__ import annotations

from collections.abc import Iterable

from crib.cutters.base import Cutter
from crib.cutters.label import label
from crib.findings.finding import Finding, Grade
from crib.findings.message import ByUnits, Fact, Sentence, Text, said
from crib.pages.blocks import Block, Bullets, Heading, Paragraph

_SEVERITY = {Grade.STOP: "STOP", Grade.CAUTION: "Caution", Grade.WARN: "Mind", Grade.NOTE: "Note"}
"""Severities, worst first, and the word that stands before what they say."""

_UNSAID = ("", "common practice", "common practice, no source", "geometry", "from memory")
"""Sources that nobody can look up: `--json` has them, a page only names one that can be opened."""


def name(cutter: Cutter) -> Text:
    """A cutter by its number and what it is."""
    return said("no. {number}, {what}", number=cutter.id, what=label_of(cutter))


def label_of(cutter: Cutter) -> Fact:
    """What a cutter is."""
    return cutter.label or ByUnits(label(cutter, "in"), label(cutter, "mm"))


def place(cutter: Cutter) -> str:
    """Where it lies.

    >>> place(Cutter(1, "end-mill", drawer="B2")), place(Cutter(1, "end-mill"))
    ('drawer B2', 'drawer not noted')
    """
    if not cutter.drawer:
        return "drawer not noted"
    return cutter.drawer if " " in cutter.drawer else f"drawer {cutter.drawer}"


def warnings(found: Iterable[Finding]) -> list[Paragraph]:
    """The worst first, each with a word for how bad it is."""
    order = list(_SEVERITY)
    ranked = sorted(found, key=lambda w: order.index(w.grade) if w.grade in order else len(order))
    told = dict.fromkeys((warning.grade, warning.says, warning.source) for warning in ranked)
    return [Paragraph(says if source in _UNSAID else said("{says} ({source})", says=says, source=source),
                      _SEVERITY.get(severity, "Note"), hang=2) for severity, says, source in told]


def care(cautions: Iterable[Text]) -> list[Block]:
    """What can hurt hands, eyes and slides."""
    items = tuple(map(Sentence, cautions))
    return [Heading("Take care"), Bullets(items)] if items else []
