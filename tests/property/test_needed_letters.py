"""A pattern isn't looked for where its letters can't be: nothing else may come of it."""

from __future__ import annotations

import re
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crib.intake.shorthand import Shop, aside, doubt, kinds, line, needed, places, read_line, slip, state
from crib.intake.shorthand.kinds import names
from tests.shorthand import LINES

PATTERNS = sorted({said.name.pattern for said in names()} | {"mm|in", "(?:a|an)? ?drill", "[hgjk][6-9]", "x{2,3}y?|z"})
SAID = [one["said"] for one in LINES]


@settings(max_examples=60)
@given(st.data())
def test_what_fits_a_pattern_has_letters_that_it_needs(data: st.DataObject) -> None:
    pattern = data.draw(st.sampled_from(PATTERNS))
    text = data.draw(st.from_regex(pattern, fullmatch=True).filter(str.isascii))
    assert re.fullmatch(pattern, text)
    assert needed.may_fit(needed.pieces(f"1/2 {text} 3/8"), needed.needed(pattern))


def _all(likely: needed.Likely[Any], pieces: frozenset[str]) -> list[Any]:
    """All that there is, whatever a text has."""
    told = {place: one for each in likely._of.values() for place, one, _ in each}
    return [told[place] for place in sorted(told)]


def _anew() -> None:
    slip._as_words.clear()
    for kept in (line._read_line, kinds._called):
        kept.cache_clear()


def test_lines_are_read_as_where_every_pattern_is_looked_for(monkeypatch: pytest.MonkeyPatch) -> None:
    _anew()
    mixed = [f"{one} {other}" for one, other in zip(SAID, SAID[7:], strict=False)]
    said = [text for text in [*SAID[::2], *mixed[::9]] if text]
    quick = [repr(read_line(text, Shop(units, "USD"))) for text in said for units in ("in", "mm")]
    with monkeypatch.context() as patched:
        patched.setattr(slip, "needed", lambda pattern: ())
        patched.setattr(needed.Likely, "among", _all)
        for place in (slip, aside, doubt, places, state):
            patched.setattr(place, "may_fit", lambda pieces, needs: True)
        _anew()
        assert quick == [repr(read_line(text, Shop(units, "USD"))) for text in said for units in ("in", "mm")]
    _anew()
