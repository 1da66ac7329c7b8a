"""Questions asked are remembered, and never in an answer's way."""

from __future__ import annotations

import os
import resource
import sqlite3
import subprocess
import sys
import time
from pathlib import Path

import pytest

from crib.findings.errors import CribError
from crib.store import Crib as Store
from crib.store import PastQuestion, open_crib
from tests.cli.conftest import Crib

SLOT = ("make", "slot", "--width", "1/2", "--depth", "1/4")


@pytest.fixture
def stocked(crib: Crib) -> Crib:
    """A crib with one end mill."""
    crib("take-in", "--kind", "end-mill", "--diameter", "1/2", "--flutes", "4", "--shank", "1/2",
         "--length-of-cut", "1", "--measured", "diameter")
    return crib


def asked(place: Path) -> list[PastQuestion]:
    with open_crib(str(place)) as opened:
        return opened.questions()


def test_what_was_asked_is_remembered_with_its_answer(stocked: Crib, place: Path) -> None:
    answer = stocked(*SLOT, "--json").json
    [one] = asked(place)
    assert (one.kind, one.texts, one.units) == ("slot", {"width": "1/2", "depth": "1/4"}, "in")
    best = answer["plans"][0]
    assert (one.answer, one.cost, one.minutes, one.times) == (
        answer["answer"], pytest.approx(best["cost"]), pytest.approx(best["minutes"]), 1)
    assert list(one.cutters) == [cutter["id"] for cutter in best["cutters"]]


def test_the_same_asked_three_times_is_one_question(stocked: Crib, place: Path) -> None:
    for words in (SLOT, ("make", "slot", "--depth", "1/4", "--width", "1/2"), SLOT):
        assert stocked(*words).status == 0
    assert [one.times for one in asked(place)] == [3]
    stocked(*SLOT, "--material", "6061")
    assert sorted(one.times for one in asked(place)) == [1, 3]


def test_what_could_not_be_understood_and_what_isn_t_made_is_not_remembered(stocked: Crib, place: Path) -> None:
    assert stocked("make", "slot", "--width", "1/4/2", "--depth", "1/4").status == 2
    assert stocked("make", "slot", "--width", "1/2", "--depth", "1/4", "--material", "moonrock").status == 2
    assert stocked("tap", "1/4-20").status in (0, 1)
    assert stocked("gauge", "--diameter", "1/2").status == 0
    assert asked(place) == []


def test_one_setting_turns_it_off(stocked: Crib, place: Path) -> None:
    assert stocked("shop", "--remember-questions", "no", "--json").json["remember_questions"] is False
    assert stocked(*SLOT).status == 0 and asked(place) == []
    assert stocked("shop", "--remember-questions", "--json").json["remember_questions"] is True
    assert stocked("shop", "--no-remember-questions", "--json").json["remember_questions"] is False
    stocked("shop", "--remember-questions", "yes")
    assert stocked(*SLOT).status == 0 and len(asked(place)) == 1


def test_a_locked_crib_has_its_answer_soon_and_a_note(stocked: Crib, place: Path) -> None:
    answer = stocked(*SLOT)
    other = sqlite3.connect(place, isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    began = time.monotonic()
    done = stocked(*SLOT)
    took = time.monotonic() - began
    other.close()
    assert (done.status, done.out) == (0, answer.out)
    assert done.err == f"this question won't be remembered: the crib {place} is in use by another program\n"
    assert took < 2.0
    assert [one.times for one in asked(place)] == [1]


def test_a_crib_that_can_t_be_written_to_answers_all_the_same(
    stocked: Crib, place: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_: object) -> int:
        raise CribError("read-only", "the crib can't be written to")

    monkeypatch.setattr(Store, "remember", refuse)
    done = stocked(*SLOT, "--json")
    assert (done.status, done.json["answer"]) == (0, "as drawn")
    assert done.err == "this question won't be remembered: the crib can't be written to\n"


@pytest.mark.skipif(os.name == "nt", reason="needs POSIX limits")
def test_a_full_disk_has_its_answer(stocked: Crib, place: Path) -> None:
    def full() -> None:
        resource.setrlimit(resource.RLIMIT_FSIZE, (64, 64))

    words = [sys.executable, "-m", "crib", *SLOT, "--json"]
    whole = os.environ | {"PYTHONDONTWRITEBYTECODE": "1"}  # a disk that is full cuts compiled modules short too
    done = subprocess.run(words, capture_output=True, text=True, preexec_fn=full, env=whole, check=False)
    assert done.returncode == 0 and '"answer": "as drawn"' in done.stdout
    assert done.stderr.startswith("this question won't be remembered: ") and done.stderr.count("\n") == 1
    assert asked(place) == []


def test_the_demo_leaves_the_users_crib_alone(stocked: Crib, place: Path, tmp_path: Path) -> None:
    before = place.read_bytes()
    assert stocked("demo", "--into", str(tmp_path / "demo.db")).status == 0
    assert place.read_bytes() == before
    assert [one.kind for one in asked(tmp_path / "demo.db")] == ["t-slot"]


def test_the_list_is_newest_first_with_how_often_and_the_answer_then(stocked: Crib) -> None:
    none = stocked("asked")
    assert (none.status, none.out) == (1, "nothing was asked yet\n")
    stocked(*SLOT)
    stocked(*SLOT)
    stocked("--units", "mm", "make", "slot", "--width", "3", "--depth", "5")
    listed = stocked("asked", "--json").json
    assert listed["remembers"] is True
    assert [(one["id"], one["times"], one["units"], one["texts"]) for one in listed["questions"]] == [
        (2, 1, "mm", {"width": "3", "depth": "5"}), (1, 2, "in", {"width": "1/2", "depth": "1/4"})]
    assert [one["answer"] for one in listed["questions"]] == ["cannot", "as drawn"]
    shown = stocked("asked").out
    assert "slot, depth 1/4, width 1/2\n" in shown and "width 3 (mm)" in shown


def test_asked_again_it_says_what_changed_and_what_did_it(stocked: Crib, place: Path) -> None:
    stocked(*SLOT)
    assert "nothing has changed" in stocked("asked", "1").out
    stocked("amend", "1", "--condition", "used")
    stocked("shop", "--hour-rate", "30")
    stocked("take-in", "--kind", "drill", "--diameter", "1/4")
    done = stocked("asked", "1", "--json").json
    assert done["question"]["answer"] == done["now"]["answer"] == "as drawn"
    assert [one["subject"] for one in done["since"]] == ["cutter 1", "shop"], "the drill has no part in it"
    assert any(text.startswith("cost: ") for text in done["changed"])
    assert [one.times for one in asked(place)] == [3], "asked again, it is asked once more"
    stocked("walk-round", "--missing", "1")
    gone = stocked("asked", "1")
    assert gone.status == 1
    assert 'the answer was "right cutter for the job"; now it is "not with this crib"' in gone.out
    assert "no. 1 amended" in gone.out and "count 1 -> 0" in gone.out


def test_asked_again_in_the_units_it_was_asked_in(stocked: Crib) -> None:
    stocked("--units", "mm", "make", "slot", "--width", "12.7", "--depth", "5")
    here = stocked("asked", "1", "--json").json["now"]
    assert here["feature"]["width_mm"] == 12.7 and here["answer"] == "as drawn"
    assert "nothing has changed" in stocked("asked", "1").out
    assert "width .500" in stocked("asked", "1", "--units", "in").out


def test_forgetting_one_and_all(stocked: Crib, place: Path) -> None:
    stocked(*SLOT)
    stocked("make", "slot", "--width", "3/8", "--depth", "1/4")
    assert stocked("asked", "--forget", "1", "--json").json == {"forgotten": 1}
    assert [one.id for one in asked(place)] == [2]
    assert stocked("asked", "--forget", "all").out == "forgot one question\n"
    assert stocked("asked", "--forget", "all").out == "there was nothing to forget\n"
    assert asked(place) == []


@pytest.mark.parametrize("words", [("9",), ("0",), ("-1",), ("x",), ("--forget", "9"), ("--forget", "some"),
                                   ("--forget", ""), ("1", "--forget", "1"), ("9" * 30,)])
def test_a_question_that_is_not_there(stocked: Crib, words: tuple[str, ...]) -> None:
    stocked(*SLOT)
    done = stocked("--json", "asked", *words)
    assert done.status == 2 and done.json["error"]["what"] and done.json["error"]["help"]


def test_a_kind_of_feature_that_a_newer_program_knew(stocked: Crib, place: Path) -> None:
    with open_crib(str(place)) as opened:
        opened.remember(PastQuestion("spiral-slot", {"width": "1/2"}, "in", "as drawn"))
    done = stocked("asked", "1")
    assert done.status == 2 and "spiral-slot" in done.err
    assert stocked("asked").status == 0
