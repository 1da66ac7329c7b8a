"""A pattern isn't looked for where its letters can't be: nothing else may come of it."""

from __future__ import annotations

import re
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crib.intake import spoken
from crib.intake.lists.text_lines import Lines
from crib.intake.number_words import ONES, PARTS, TENS
from crib.intake.shorthand import (
    Shop,
    aside,
    doubt,
    kinds,
    labelled,
    line,
    needed,
    phrases,
    places,
    read_line,
    slip,
    spelling,
    state,
)
from crib.intake.shorthand.kinds import names
from crib.intake.shorthand.spelling import plain
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
    for kept in (line._read_line, kinds._called, slip._may_fit):
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


GUARDED = (
    (aside._FOR, aside._SAYS_FOR), (aside._BESIDE, aside._SAYS_BESIDE), (re.compile(r"ft|foot|tpf|t\.p\.f"),
                                                                         aside._SAYS_FOOT),
    (re.compile(phrases._ANGLE), ("°", "deg")), (spelling._REPEATED, (" x",)), (spelling._DICTATED, spelling._STOPS),
    (spelling._OF_EACH, ("(",)), (spelling._NOUGHT, ("o-", "ba")), (spelling._HYPHENED, ("-",)), (line._BY, ("x",)),
    (line._MM_BY, ("x",)), (line._BARE_BY, ("x",)), (line._MM_BY, ("mm",)), (line._BARE_BY, ("mm",)),
    (slip._IN_MM, ("mm",)), (line._NUMBERED, ("no", "number", "# ")), (labelled._NECK, ("neck ",)),
    (labelled._TURNED, ("to ",)), (re.compile(r"mm$"), ("mm",)))
_SIGNS = sorted({sign for _, signs in GUARDED for sign in signs}
                | {"1/4", "3", "10-32", " ", "o-04", "4 ba", "2 fl", "r .03", "cr 1/8"})
TEXTS = st.lists(st.sampled_from(SAID) | st.sampled_from(_SIGNS), min_size=1, max_size=4).map(" ".join)
NUMBERS = sorted({*ONES, *TENS, *PARTS, "hundred", "point", "too"})


@pytest.mark.parametrize(("pattern", "signs"), GUARDED, ids=lambda one: getattr(one, "pattern", "")[:20])
@settings(max_examples=150)
@given(data=st.data())
def test_what_is_passed_over_could_not_fit(pattern: re.Pattern[str], signs: tuple[str, ...], data: st.DataObject
                                           ) -> None:
    """A pattern that is only looked for where a text has one of some signs fits none that has none of them."""
    text = data.draw(TEXTS)
    for each in (text.lower(), plain(text)[0]):
        assert any(sign in each for sign in signs) or not pattern.search(each)


@settings(max_examples=150)
@given(st.lists(st.sampled_from([*SAID, *_SIGNS]), min_size=1, max_size=4).map(" ".join))
def test_what_is_rounded_has_an_r_before_a_figure(text: str) -> None:
    assert line._MAY_BE_ROUNDED.search(text) or not line._ROUNDED.search(text)


@settings(max_examples=300)
@given(st.lists(st.sampled_from(NUMBERS) | st.text("a1-_ é", max_size=3), max_size=4),
       st.sampled_from((" ", "-", "", "_")))
def test_numbers_in_words_are_known_by_one_of_their_words(words: list[str], between: str) -> None:
    text = between.join(words)
    is_said = re.search(rf"\b(?:{'|'.join(NUMBERS)})\b", text) is not None
    assert is_said != spoken._SAID.isdisjoint(spoken._WORDS.findall(text))


@given(st.text("ab \n", max_size=12))
def test_lines_are_those_of_the_text(text: str) -> None:
    lines = Lines(text)
    assert [*lines] == text.split("\n") == lines[:] == [lines[place] for place in range(len(lines))]
    assert lines[-1] == text.split("\n")[-1] and lines[1:3] == text.split("\n")[1:3]
