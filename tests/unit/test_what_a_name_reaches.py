"""Which size a name reaches for in a question in words, where two stand near it."""

from __future__ import annotations

import pytest

from crib.intake.questions import read_question


@pytest.mark.parametrize(("said", "meant", "why"), [
    ("gib screw holes 1/4-28, 4 bolts", {"number": "4"}, "the 4 was taken for a height in silence: it counts bolts"),
    ("6 holes for 1/4 bolts on a 3 inch circle, 3/8 thick",
     {"screw": "1/4", "number": "6", "diameter": "3in", "depth": "3/8"}, "no name reaches over a `for` or an `on`"),
    ("bolt circle 3 in 3 holes 3/8 deep, 1/4 bolts", {"diameter": "3", "number": "3", "depth": "3/8", "screw": "1/4"},
     "a counted name has no size before its count: the hole was 3 in"),
    ("bolt circle 80 mm, 8 holes, thread M6, 12 through", {"thread": "M6", "depth": "12", "number": "8"},
     "a thread tells the hole: a bare size is no second one"),
    ("pocket 60 x 40 x 12 corners R5", {"depth": "12", "corner_radius": "5"}, "`corners R` is one name, not two"),
    ("hex flats 3/4 across on a 1 inch shaft, 1 long", {"across": "3/4", "stock": "1in", "length": "1"},
     "a shaft is stock as a bar is"),
])
def test_a_name_takes_its_own_size(said: str, meant: dict[str, str], why: str) -> None:
    """Each was read wrongly once, for the reason that stands beside it."""
    found = read_question(said)
    assert not found.asks, why
    assert {key: found.texts.get(key) for key in meant} == meant, why


@pytest.mark.parametrize("word", ["studs", "bolt", "nuts", "zorpy"])
def test_a_word_behind_a_bare_size_is_asked_about(word: str) -> None:
    """A word that isn't known, or known elsewhere only, was passed over, and its figure became a height in silence."""
    found = read_question(f"gib screw holes 1/4-28, 4 {word}")
    assert found.asks or "height" not in found.texts
