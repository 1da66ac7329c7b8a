"""What pages say of a cutter, of its place, and of what the rules have to say."""

from __future__ import annotations

from collections.abc import Iterable

from crib.cutters.base import Cutter
from crib.cutters.label import label
from crib.findings.finding import Finding, Grade
from crib.findings.message import ByUnits, Fact, Sentence, Text, said
from crib.pages.blocks import Block, Bullets, Heading, Paragraph, Tone

_GRADES = {Grade.STOP: "STOP", Grade.CAUTION: "Caution", Grade.WARN: "Mind", Grade.NOTE: "Note"}
"""Grades, worst first, and the word that stands before what they say."""

GRAVE = (Grade.STOP, Grade.CAUTION)
"""Grades that come before all else."""

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
    return list(map(remark, ranked(found)))


def ranked(found: Iterable[Finding]) -> list[Finding]:
    """Findings, the worst first; what is said twice is there once."""
    order = list(_GRADES)
    worst_first = sorted(found, key=lambda w: order.index(w.grade) if w.grade in order else len(order))
    return list({(one.grade, one.says, one.source): one for one in reversed(worst_first)}.values())[::-1]


def remark(one: Finding) -> Paragraph:
    """A finding, behind a word for how bad it is."""
    says = one.says if one.source in _UNSAID else said("{says} ({source})", says=one.says, source=one.source)
    tone = Tone.BAD if one.grade in GRAVE else Tone.MIND if one.grade == Grade.WARN else None
    return Paragraph(says, _GRADES.get(one.grade, "Note"), hang=2, tone=tone)


def care(cautions: Iterable[Text]) -> list[Block]:
    """What can hurt hands, eyes and slides."""
    items = tuple(map(Sentence, cautions))
    return [Heading("Take care"), Bullets(items)] if items else []
