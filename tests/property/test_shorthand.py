"""Whatever is typed, every character of it is with a cutter or with a line that is held back, and nothing breaks."""

from __future__ import annotations

import re
import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path
from random import Random

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from crib.cutters.base import LENGTH_KEYS
from crib.intake.reading import kept
from crib.intake.shorthand import Shop, read_line
from crib.intake.shorthand.spelling import plain
from crib.intake.talk.put_right import apart
from crib.intake.talk.session import Session
from crib.store import Crib, open_crib
from tests.shorthand import LINES

SAID = [line["said"] for line in LINES]
MUTATIONS = 10_000
SIGNS = " /-x.,#?$()'\"°0123456789abcdefghijklmnopqrstuvwxyzÆ½\t\0\ud800\u202e"


def mutated(chance: Random) -> str:
    """A line of the data with a few slips in it."""
    text = chance.choice(SAID)
    for _ in range(chance.randrange(1, 5)):
        at = chance.randrange(len(text) + 1)
        slip = chance.randrange(6)
        if slip == 0:
            text = text[:at] + text[at + 1 :]
        elif slip == 1:
            text = text[:at] + chance.choice(SIGNS) + text[at:]
        elif slip == 2:
            text = text[:at] + text[at : at + 2][::-1] + text[at + 2 :]
        elif slip == 3:
            words = text.split(" ")
            chance.shuffle(words)
            text = " ".join(words)
        elif slip == 4:
            text = text[:at] + chance.choice(SAID)[chance.randrange(8) :]
        else:
            text = text + " " + chance.choice(chance.choice(SAID).split(" "))
    return text


def check(text: str, units: str = "in") -> bool:
    """Read a line and hold it to the law; whether it was taken in."""
    line = read_line(text, Shop(units))
    assert bool(line.taken) != bool(line.why)
    assert line.taken or line.help
    assert all(one.typed["words"] == kept(text) for one in line.taken)
    return bool(line.taken)


def test_ten_thousand_mutations() -> None:
    chance = Random(606)
    taken = sum(check(mutated(chance), chance.choice(("in", "mm"))) for _ in range(MUTATIONS))
    assert MUTATIONS * 0.2 < taken < MUTATIONS


def test_sizes_are_as_they_were_typed() -> None:
    """A size that is taken in stands in the line, figure for figure: words may be guessed at, figures never."""
    chance = Random(807)
    for _ in range(2000):
        text = mutated(chance)
        line = read_line(text, Shop())
        if len(line.taken) != 1 or line.taken[0].cutter.marking:
            continue
        said = re.sub(r"\s", "", plain("".join(sign if sign.isprintable() else " " for sign in kept(text)))[0])
        for key, typed in line.taken[0].typed.items():
            if key in LENGTH_KEYS and typed:
                bare = re.sub(r"\s|mm$|^#", "", typed.lower())
                assert bare in said or bare.replace(" ", "") in said, (text, key, typed)


@given(st.text(max_size=200) | st.binary(max_size=200).map(lambda raw: raw.decode("utf-8", "surrogateescape")))
@settings(max_examples=400, deadline=None)
def test_any_text_is_read_or_held_back(text: str) -> None:
    check(text)


WORDS = sorted({word for said in SAID for word in said.split()})


@given(st.lists(st.sampled_from(WORDS) | st.text(max_size=5), max_size=9).map(" ".join), st.sampled_from(("in", "mm")))
@settings(max_examples=400, deadline=None)
def test_any_words_of_the_shop_are_read_or_held_back(text: str, units: str) -> None:
    check(text, units)


@pytest.fixture(scope="module")
def crib() -> Iterator[Crib]:
    with tempfile.TemporaryDirectory() as folder, open_crib(str(Path(folder) / "crib.db"), create=True) as opened:
        yield opened


COMMANDS = ("undo", "no wait metric", "another one, dull", "same but 5/16", "that's .248 actually",
            "found the 29 drill", "lent 3/8 reamer to a friend", "same as last", "another")


@given(st.lists(st.sampled_from((*SAID, *COMMANDS)) | st.text(min_size=1, max_size=20), min_size=1, max_size=8),
       st.booleans())
@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
def test_a_session_keeps_every_line(crib: Crib, texts: list[str], joins: bool) -> None:
    """After any session each line is with a cutter, with a line held back, or in what was done. What is held back keeps
    the drawer that a line before it named, as an option behind its words."""
    session = Session(crib, Shop(), joins=joins)
    for place, text in enumerate(texts):
        outcome = session.say(text)
        for cutter in (*outcome.taken, *outcome.amended):
            assert crib.cutter(cutter.id).id == cutter.id
            assert outcome.says.startswith("taken back") or kept(text) in crib.typed(cutter.id)["words"] or joins
        if outcome.held:
            assert outcome.held.id in {line.id for line in crib.held_back()}
            words, drawer = apart(outcome.held.text)
            assert outcome.held.text == kept(text) or words == kept(text)
            assert outcome.held.text == kept(text) or any(
                drawer["drawer"].lower() in kept(one).lower() for one in texts[:place])


def test_a_whole_file_of_slips_loses_no_line(tmp_path: Path) -> None:
    """Through the store: cutters and held back lines are as many as the lines, word for word."""
    chance = Random(404)
    lines = [re.sub(r"[\r\n]", " ", mutated(chance)) for _ in range(150)]
    speaks_of_another = re.compile("undo|found|another|same|actual|wait|lent")
    lines = [line for line in lines if line.strip() and not speaks_of_another.search(line)]
    with open_crib(str(tmp_path / "crib.db"), create=True) as crib:
        session = Session(crib, Shop())
        for line in lines:
            session.say(line)
        words = {crib.typed(cutter.id)["words"] for cutter in crib.find(()).cutters}
        held = {line.text for line in crib.held_back()}
    assert {kept(line) for line in lines} <= words | held


def test_a_copy_of_the_file_is_the_same(tmp_path: Path) -> None:
    """The same lines give the same crib, whatever was read before."""
    first, second = tmp_path / "one.db", tmp_path / "two.db"
    open_crib(str(first), create=True).close()
    shutil.copy(first, second)
    said = []
    for path in (first, second):
        with open_crib(str(path)) as crib:
            session = Session(crib, Shop())
            said.append([session.say(text).says for text in SAID])
    assert said[0] == said[1]
