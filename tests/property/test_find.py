"""The database's sieve leaves nothing out: looking through the rows finds what looking at every cutter finds."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator, Sequence
from contextlib import ExitStack, suppress
from dataclasses import dataclass
from pathlib import Path
from unittest.mock import patch

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crib.app import looking
from crib.cutters import KINDS
from crib.cutters.base import LENGTH_KEYS, Cutter
from crib.findings.errors import CribError
from crib.intake.query import read_query
from crib.intake.shorthand import Shop
from crib.intake.talk.session import Session
from crib.intake.undo import undo
from crib.store import Crib, open_crib
from crib.store.find import find, plainly
from crib.store.scores import SIZES, TEXTS, WITHIN_MM, size_of, tokens
from crib.units import as_fraction
from tests.shorthand import LINES


@pytest.fixture(scope="module")
def crib() -> Iterator[Crib]:
    with tempfile.TemporaryDirectory() as folder, open_crib(str(Path(folder) / "crib.db"), create=True) as opened:
        with opened.transaction():
            session = Session(opened, Shop(defaults={"drawer": "B_2%"}))
            for line in LINES:
                session.say(line["said"])
        yield opened


@pytest.fixture(scope="module")
def every(crib: Crib) -> list[Cutter]:
    """All of them, by number."""
    return sorted(crib.find(()).cutters, key=lambda cutter: cutter.id)


SAID = sorted({word for line in LINES for word in line["said"].split()})


@given(st.lists(st.sampled_from(SAID) | st.text(max_size=4), max_size=3))
@settings(max_examples=400, deadline=None)
def test_the_sieve_finds_what_a_search_of_everything_finds(crib: Crib, every: list[Cutter], words: list[str]) -> None:
    looked = find(every, words, "in")
    sieved = crib.find(words)
    if not looked.read_as and not sieved.read_as:
        assert sieved.cutters == looked.cutters


THREADS = ("1/4-20", "10-32", "8-32", "5/16-18", "3-48", "1-8", "10-3", "1/4-", "0-80", "7-16", "1/2-13", "M6", "-20")


@given(st.data())
@settings(max_examples=400, deadline=None)
def test_what_is_found_is_what_every_word_fits(crib: Crib, told: list[Told], data: st.DataObject) -> None:
    """In the order of how well it fits, told of each cutter by itself. Words are those that are said, threads, and
    pieces of what a label, a note or a place says."""
    cutter = data.draw(st.sampled_from(told)).cutter
    text = " ".join(filter(None, (cutter.label, cutter.note, cutter.thread, cutter.drawer, cutter.kind))).lower()
    begin = st.integers(0, len(text) - 1)
    piece = st.tuples(begin, st.integers(1, 7)).map(lambda cut: text[cut[0]:cut[0] + cut[1]])
    one = st.sampled_from(SAID) | st.sampled_from(THREADS) | st.sampled_from(text.split()) | piece
    words = plainly(data.draw(st.lists(one, min_size=1, max_size=3)), "in").words
    found = crib.find(words)
    if not found.read_as:
        assert found.cutters == _as_each_fits(told, words)


@pytest.mark.parametrize("word", ["ank,", "blank,", "mill,", "1/4-20,", "6,", ",", ",,"])
def test_a_comma_of_a_label_stands_in_no_column(crib: Crib, every: list[Cutter], word: str) -> None:
    """Of "3/8 blank, 3 long" the piece "ank," was looked for in the columns, none of which has it."""
    assert crib.find([word]).cutters == find(every, [word], "in").cutters


@dataclass(frozen=True)
class Told:
    """A cutter by each of its lengths and by each of its texts, as `_lengths` and `_texts` have them."""

    cutter: Cutter
    lengths: list[tuple[float, float]]
    texts: list[tuple[str, frozenset[str], float]]


@pytest.fixture(scope="module")
def told(every: list[Cutter]) -> list[Told]:
    """All of them, what each says read once."""
    return [Told(cutter, _lengths(cutter), _texts(cutter)) for cutter in every]


def _as_each_fits(told: list[Told], words: Sequence[str]) -> tuple[Cutter, ...]:
    sizes = [size_of(word, "in") for word in words]
    scored = [(-sum(fits), one.cutter.id, one.cutter) for one in told
              if all(fits := [_fit(one, word, size) for word, size in zip(words, sizes, strict=True)])]
    return tuple(cutter for _, _, cutter in sorted(scored, key=lambda one: one[:2]))


def _fit(told: Told, word: str, size: float | None) -> float:
    """How well one word fits one cutter, each text and each size of it looked at."""
    fits = [0.0]
    if size is not None:
        fits += [weight for mm, weight in told.lengths if abs(mm - size) <= WITHIN_MM + 1e-9]
    for text, parts, weight in told.texts:
        if word in parts:
            fits.append(weight)
        elif size is None and any(part.startswith(word) for part in parts):
            fits.append(weight * 0.8)
        elif size is None and len(word) > 2 and word in text:
            fits.append(weight * 0.5)
        elif size is None and word.endswith("s") and word[:-1] in parts:
            fits.append(weight * 0.9)
    return max(fits)


def _lengths(cutter: Cutter) -> list[tuple[float, float]]:
    """Each length of a cutter and of its ends [mm], and what it counts for."""
    its = [(mm, SIZES.get(key, 1)) for key in LENGTH_KEYS if (mm := getattr(cutter, key)) is not None]
    ends = [(mm, 6.0) for end in cutter.ends for mm in (end.diameter_mm, end.nominal_mm) if mm is not None]
    return [*its, *ends]


def _texts(cutter: Cutter) -> list[tuple[str, frozenset[str], float]]:
    """Each text of a cutter, the words in it, and what it counts for."""
    texts = [(str(getattr(cutter, key) or "").lower(), weight) for key, weight in TEXTS.items()]
    return [(text, frozenset(tokens(text)), weight) for text, weight in texts if text]


@pytest.mark.parametrize("words", ["", "end mill", "woodruff", "what fits the 1/2 collet", "drill", "taps", "zzzz",
                                   "about 1/2"])
@pytest.mark.parametrize("most", [1, 7, 5000])
def test_what_isnt_shown_is_counted(crib: Crib, words: str, most: int) -> None:
    """Reading no more than is shown finds the same first ones, and as many in all."""
    whole, short = looking.find(crib, words.split()), looking.find(crib, words.split(), most)
    assert short.cutters[:most] == whole.cutters[:most]
    assert len(short.cutters) + short.more == len(whole.cutters)
    assert short.read_as == whole.read_as


def test_only_fractions_and_threads_have_figures_with_lines() -> None:
    """What the sieve goes by: no kind has a figure in its name, and the fractions that sizes are said in are of odd
    64ths, 32nds and so on."""
    names = [name for kind in KINDS.values() for name in (kind.name, kind.words, kind.plural)]
    assert not [name for name in names if any(sign.isdigit() for sign in name)]
    said = [as_fraction(number * 25.4 / 64) or "" for number in range(1, 64 * 13)]
    assert {over for one in said if "/" in one for over in [one.partition("/")[0].rpartition("-")[2]]} == {
        str(over) for over in range(1, 64, 2)}


FIGURES = r"[0-9]{1,4}(?:/[0-9]{1,3})?(?:-[0-9]{1,3}(?:/[0-9]{1,3})?)?|[0-9]{0,3}\.[0-9]{1,5}"


@given(st.from_regex(FIGURES, fullmatch=True))
@settings(max_examples=400, deadline=None)
def test_a_size_or_a_thread_by_itself_means_nothing_else(word: str) -> None:
    """So that it needn't be read as a shop's words are."""
    assert looking._FIGURES.fullmatch(word)
    for units in ("in", "mm"):
        assert read_query([word], units) == plainly([word], units)


TEXT = st.text("aäÄbB19/-. ,(é%_\"", max_size=6)


@st.composite
def owned(draw: st.DrawFn) -> Cutter:
    """A cutter that says something wherever it can."""
    one = draw(st.sampled_from([kind.example for kind in KINDS.values() if kind.example]))
    said = {key: draw(TEXT).strip() or None for key in ("drawer", "marking", "note")}
    return one.but(id=0, thread=draw(st.sampled_from((one.thread, "1/4-20", "Ä-1"))), **said)


@given(st.lists(owned(), min_size=1, max_size=8), st.data())
@settings(max_examples=60, deadline=None)
def test_texts_that_are_looked_up_find_what_looking_through_the_rows_does(cutters: list[Cutter], data: st.DataObject
                                                                         ) -> None:
    """Whatever became of the cutters since they were taken in: changed, taken out, taken back, put back."""
    with tempfile.TemporaryDirectory() as folder, open_crib(str(Path(folder) / "crib.db"), create=True) as crib:
        taken = crib.take_in(cutters)
        for one in data.draw(st.lists(st.sampled_from(taken), max_size=4, unique_by=lambda one: one.id)):
            if data.draw(st.booleans()):
                crib.amend(crib.cutter(one.id).but(note=data.draw(TEXT).strip() or None, drawer="Ä9"))
            else:
                crib.take_back(one.id)
        for change in [one for one in crib.changes() if data.draw(st.booleans())]:
            with suppress(CribError):
                undo(crib, change.id)
        every = sorted(crib.find(()).cutters, key=lambda one: one.id)
        said = [word for one in every for text in (one.note, one.drawer, one.marking, one.label) if text
                for word in text.split()]
        pieces = st.sampled_from(said or ["a"]).map(lambda word: word[:4])
        words = plainly(data.draw(st.lists(pieces | TEXT, min_size=1, max_size=2)), "in").words
        looked = find(every, words, "in")
        for most in ((), (("_MANY", 0),), (("_MANY", 2), ("_FEW", 1))):
            with ExitStack() as held:
                for name, many in most:
                    held.enter_context(patch(f"crib.store.sieve.{name}", many))
                found = crib.find(words)
            assert looked.read_as or found.read_as or found.cutters == looked.cutters
