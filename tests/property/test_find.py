"""The database's sieve leaves nothing out: looking through the rows finds what looking at every cutter finds."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crib.intake.session import Session
from crib.intake.shorthand import Shop
from crib.store import Crib, open_crib
from crib.store.find import find
from tests.shorthand import LINES


@pytest.fixture(scope="module")
def crib() -> Iterator[Crib]:
    with tempfile.TemporaryDirectory() as folder, open_crib(str(Path(folder) / "crib.db"), create=True) as opened:
        with opened.transaction():
            session = Session(opened, Shop(defaults={"drawer": "B_2%"}))
            for line in LINES:
                session.say(line["said"])
        yield opened


SAID = sorted({word for line in LINES for word in line["said"].split()})


@given(st.lists(st.sampled_from(SAID) | st.text(max_size=4), max_size=3))
@settings(max_examples=400, deadline=None)
def test_the_sieve_finds_what_a_search_of_everything_finds(crib: Crib, words: list[str]) -> None:
    everything = sorted(crib.find(()).cutters, key=lambda cutter: cutter.id)
    looked = find(everything, words, "in")
    sieved = crib.find(words)
    if not looked.read_as and not sieved.read_as:
        assert sieved.cutters == looked.cutters
