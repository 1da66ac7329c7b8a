"""A remark that is told to say nothing of a cutter's state does say nothing of it when it is read."""

from __future__ import annotations

import re
from pathlib import Path

from hypothesis import event, example, given, settings
from hypothesis import strategies as st

import crib.intake.shorthand
from crib.intake.lists.cells import _OF_A_REMARK, _read
from crib.intake.shorthand.idle import is_idle

FOLDER = Path(crib.intake.shorthand.__file__).parent
WORDS = sorted({word for file in FOLDER.glob("*.py")
                for word in re.findall(r"[a-z]+", file.read_text(encoding="utf-8"))})
"""Every word that stands anywhere in the source of the grammar, whatever it is there for."""

PLAIN = ("lot", "estate", "sale", "bin", "rack", "ebay", "uncle", "from", "box", "of", "the", "1987", "12", "3", "2.5")


@settings(max_examples=400)
@given(st.lists(st.one_of(st.sampled_from(WORDS), st.sampled_from(PLAIN)), min_size=1, max_size=4),
       st.sampled_from(["end-mill", "keyseat-cutter", "tap", "drill", "reamer"]))
@example(["one", "flute", "gone"], "end-mill")
@example(["c", "c"], "end-mill")
def test_what_is_idle_says_nothing_of_the_state(words: list[str], kind: str) -> None:
    """Kept words alone and in company; none of those that the grammar knows is taken for idle wrongly."""
    for said in (" ".join(words), *words, ", ".join(words)):
        if not is_idle(said):
            continue
        event("idle")
        found = _read(said, kind)
        assert found is None or not found[0].keys() & set(_OF_A_REMARK), said


def test_every_single_word_and_every_pair_with_it_of_the_grammar() -> None:
    """All of its words, alone and beside a number on either side."""
    for word in WORDS:
        for said in (word, f"1 {word}", f"{word} 2"):
            if is_idle(said):
                found = _read(said, "end-mill")
                assert found is None or not found[0].keys() & set(_OF_A_REMARK), said
