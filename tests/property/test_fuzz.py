"""A sample of `python -m tests.trials.fuzz`: nonsense ends in a value or in a sentence, at once."""

from __future__ import annotations

from tests.trials.fuzz import run


def test_nonsense_ends_in_a_value_or_in_a_sentence() -> None:
    counts, bad = run(2000, seed=7)
    assert not bad, bad[:5]
    assert counts["read"] > 300 and counts["refused in words"] > 300
