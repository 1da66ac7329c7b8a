"""The random questions of the benchmark: of every kind, with every end that it takes, and all that can stand beside."""

from __future__ import annotations

from random import Random

import pytest

from crib.features import KINDS, draw
from crib.planning.ask import read_request, texts_of
from crib.shop import Shop
from tests.benchmarks.any_question import RELAX, any_question, questions


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_every_kind_is_asked_in_every_way(kind: str) -> None:
    """Whatever is asked can be drawn, each end and each size that may be left out comes up, and so do walls, floor
    radii and what changes would do."""
    random = Random(5)
    asked = [any_question(random, kind) for _ in range(80)]
    texts = [texts_of([word for word in words[1:] if word != RELAX]) for words in asked]
    for one in texts:
        draw(read_request(kind, one, Shop(), "in"))
    keys = {key for one in texts for key in one}
    assert {"wall", "floor_radius", "corner_relief", "material", "hours", "count"} <= keys
    assert len({spec.key for spec in KINDS[kind].sizes} - keys) <= 1  # some can be drawn with few others only
    assert {one.get("ends", KINDS[kind].ends[0]) for one in texts} == set(KINDS[kind].ends)
    assert 4 <= sum(RELAX in words for words in asked) <= 30


def test_the_same_number_asks_the_same() -> None:
    """What was slow can be asked again."""
    assert list(questions(Random(2), 60)) == list(questions(Random(2), 60))
