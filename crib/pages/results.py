"""What the owner's own results come to."""

from __future__ import annotations

from collections.abc import Iterator

from crib.findings.message import Fact, Sentence
from crib.machining.own_holes import own_words
from crib.pages.blocks import Blocks, Paragraph, Spacer
from crib.shop import Own


def results(own: Own) -> Blocks:
    """What they come to; nothing where there are none."""
    told = tuple(map(Paragraph, _told(own)))
    return (Spacer(), *told) if told else ()


def _told(own: Own) -> Iterator[Fact]:
    if own.timed:
        of = "one job" if own.timed == 1 else f"the median of {own.timed} jobs"
        yield f"Minutes are reckoned {own.pace:.2f} times as long, by {of}."
    for mm in sorted({hole.drill_mm for hole in own.holes}):
        yield from map(Sentence, own_words(own, mm))
