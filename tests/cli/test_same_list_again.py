"""A list that was cut short is given once more: what is in stays in once, what isn't comes in."""

from __future__ import annotations

import io
import sys
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from crib.intake.lists.twice import lines_there
from crib.intake.shorthand import Shop
from crib.intake.talk.session import Session
from crib.store import open_crib
from tests.cli.conftest import Crib

LINES = ["1/4 drill drawer B2", "#7 drill", "404", "3/8 4 flute end mill", "that's .373 actually",
         "set 1-60 number drills", "#7 drill", "same but #8", "10-32 plug tap", "woodruff 606", "undo", "1/2 drill"]


def _pipe(monkeypatch: pytest.MonkeyPatch, lines: list[str]) -> None:
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(("\n".join(lines) + "\n").encode())))


def _all(crib: Crib) -> list[tuple[str, float | None]]:
    return [(one["label"], one["diameter_mm"]) for one in crib("find", "--json").json["cutters"]]


@pytest.mark.parametrize("cut", [0, 3, 4, 6, 7, 9, 10, 11, 12])
def test_a_piped_list_cut_short_and_given_again_doubles_nothing(crib: Crib, place: Path, tmp_path: Path, cut: int,
                                                                monkeypatch: pytest.MonkeyPatch) -> None:
    """Killed after 1,865 of 3,000 lines and given again, there were 4,865 cutters."""
    monkeypatch.setenv("CRIB_DB", str(tmp_path / "whole.db"))
    _pipe(monkeypatch, LINES)
    crib("take-in")
    whole = _all(crib)
    monkeypatch.setenv("CRIB_DB", str(place))
    for lines in (LINES[:cut], LINES):
        _pipe(monkeypatch, lines)
        crib("take-in")
    assert sorted(_all(crib), key=str) == sorted(whole, key=str)
    assert len(crib("held-back", "--json").json["held_back"]) == 1


def test_what_was_passed_over_is_said_and_again_takes_it(crib: Crib, tmp_path: Path) -> None:
    file = tmp_path / "gift.txt"
    file.write_text("1/4 drill\n3/8 drill\n1/2 drill\n")
    crib("take-in", "--file", str(file))
    done = crib("take-in", "--file", str(file))
    assert (done.status, "all 3 lines were taken in before" in done.err, "--again" in done.err) == (1, True, True)
    assert len(_all(crib)) == 3
    assert crib("take-in", "--file", str(file), "--again", "--json").json["passed_over"] == 0
    assert len(_all(crib)) == 6


@pytest.mark.parametrize("form", ["csv", "json"])
def test_a_table_given_again_doubles_nothing_whatever_was_changed_since(crib: Crib, tmp_path: Path, form: str) -> None:
    file = tmp_path / f"gift.{form}"
    file.write_text("kind,diameter,note\ndrill,1/4,\nend-mill,3/8,\nthing,1/2,\ndrill,#7,x\n" if form == "csv" else
                    '[{"kind": "drill", "diameter_mm": 6.35}, {"kind": "end-mill", "diameter_mm": 9}, '
                    '{"kind": "thing"}, {"kind": "drill", "diameter_mm": 5, "note": "x"}]')
    crib("take-in", "--file", str(file))
    crib("amend", "2", "--diameter", "5/16", "--measured", "diameter")
    crib("take-in", "--file", str(file))
    assert len(_all(crib)) == 3
    assert len(crib("held-back", "--json").json["held_back"]) == 1


def test_a_list_that_was_taken_back_comes_in_again(crib: Crib, tmp_path: Path) -> None:
    file = tmp_path / "gift.txt"
    file.write_text("1/4 drill\n3/8 drill\n1/2 drill\n")
    crib("take-in", "--file", str(file))
    crib("undo", "1-3")
    crib("take-in", "--file", str(file))
    assert len(_all(crib)) == 3


@pytest.mark.parametrize("form", ["txt", "csv"])
def test_what_of_a_list_was_taken_back_comes_in_again_and_nothing_else(crib: Crib, tmp_path: Path, form: str) -> None:
    """One line of five that was undone isn't there; the other four are, behind it too."""
    file = tmp_path / f"gift.{form}"
    sizes = ("1/4", "3/8", "1/2", "9/16", "5/8")
    file.write_text("kind,diameter\n" + "".join(f"drill,{size}\n" for size in sizes) if form == "csv" else
                    "".join(f"{size} drill\n" for size in sizes))
    crib("take-in", "--file", str(file))
    before = sorted(_all(crib), key=str)
    crib("undo", "4")
    assert len(_all(crib)) == 4
    crib("take-in", "--file", str(file))
    assert sorted(_all(crib), key=str) == before


def test_two_lists_that_begin_alike_are_two(crib: Crib, tmp_path: Path) -> None:
    one, other = tmp_path / "one.txt", tmp_path / "other.txt"
    one.write_text("1/4 drill\n3/8 drill\n1/2 drill\n")
    other.write_text("1/4 drill\n3/8 drill\n#7 drill\n")
    crib("take-in", "--file", str(one))
    crib("take-in", "--file", str(other))
    assert len(_all(crib)) == 6


@settings(max_examples=12, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(lines=st.lists(st.sampled_from([line for line in LINES if line not in ("undo", "that's .373 actually")]),
                      min_size=3, max_size=12), cuts=st.lists(st.integers(3, 12), max_size=3))
def test_however_often_it_was_cut_short_each_line_comes_in_once(lines: list[str], cuts: list[int],
                                                                tmp_path_factory: pytest.TempPathFactory) -> None:
    """From the third line on: two lines alone don't make a list the same as another."""
    counts = []
    for ends in ([len(lines)], [*cuts, len(lines)]):
        with open_crib(str(tmp_path_factory.mktemp("list") / "crib.db"), create=True) as crib:
            for end in ends:
                given_now = lines[:end]
                session = Session(crib, Shop())
                there = lines_there(crib, given_now)
                for line in (line for place, line in enumerate(given_now) if place not in there):
                    session.say(line)
            counts.append((len(crib.cutters()), len(crib.held_back())))
    assert counts[0] == counts[1]


TEN = ["1/4 drill drawer A", "set number drills 1-5", "#9 drill", "404", "3/8 end mill", "5/16 reamer", "7/16 reamer",
       "1/2 end mill", "9/16 drill", "3/4 drill"]


def _given(tmp_path_factory: pytest.TempPathFactory, *lists: list[str]) -> int:
    """How many cutters and held-back lines there are after lists of words were given one after the other."""
    folder = tmp_path_factory.mktemp("lists")
    with open_crib(str(folder / "crib.db"), create=True) as crib:
        for lines in lists:
            known, session = lines_there(crib, lines), Session(crib, Shop())
            for place, line in enumerate(lines):
                if place in known:
                    session.came(line, *known[place])
                else:
                    session.say(line)
        return sum(cutter.count for cutter in crib.cutters()) + len(crib.held_back())


@settings(max_examples=15, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(order=st.permutations(range(len(TEN))), at=st.integers(0, len(TEN)))
def test_a_list_that_was_edited_since_is_the_same_list(order: list[int], at: int,
                                                       tmp_path_factory: pytest.TempPathFactory) -> None:
    """One line more in front, or the lines sorted, and all of it was doubled without a word."""
    once = _given(tmp_path_factory, TEN)
    edited = [*TEN[:at], "17/32 drill", *TEN[at:]]
    assert _given(tmp_path_factory, TEN, edited) == once + 1
    assert _given(tmp_path_factory, TEN, [*TEN[:at], "17/32 drill", *TEN[at + 1:]]) == once + 1
    assert _given(tmp_path_factory, TEN, [TEN[place] for place in order]) == once


def test_what_a_list_says_of_a_cutter_does_not_double_what_follows(tmp_path_factory: pytest.TempPathFactory) -> None:
    """Behind `the 1/2 end mill is dull` every line came in twice."""
    lines = ["1/4 drill", "3/8 end mill", "1/2 end mill", "the 1/2 end mill is dull", "5/8 drill",
             "lent the 5/8 drill to bob"]
    assert _given(tmp_path_factory, lines, lines, lines) == 3


@pytest.mark.parametrize(("last", "labels"), [
    ("same but 5/8", ["1/4 drill", "3/8 end mill", "1/2 end mill", "#7 drill", "5/8 end mill"]),
    ("undo", ["1/4 drill", "3/8 end mill", "#7 drill"])])
def test_a_line_that_speaks_of_the_one_before_means_that_of_its_list(crib: Crib, tmp_path: Path, last: str,
                                                                     labels: list[str]) -> None:
    """After a list was cut short `same but 5/8` copied whatever was taken in since, and `undo` took back nothing."""
    file = tmp_path / "list.txt"
    lines = ["1/4 drill", "3/8 end mill", "1/2 end mill"]
    file.write_text("\n".join(lines))
    crib("take-in", "--file", str(file))
    crib("take-in", "#7 drill")
    file.write_text("\n".join([*lines, last]))
    crib("take-in", "--file", str(file))
    assert [label for label, _ in _all(crib)] == labels


def test_a_table_of_which_one_row_was_edited_is_the_same_table(crib: Crib, tmp_path: Path) -> None:
    """One row in another drawer, and all five came in once more."""
    file = tmp_path / "gift.csv"
    rows = [f"drill,{size},{drawer}" for size, drawer in zip(("1/4", "3/8", "1/2", "5/8", "3/4"), "ABCDE", strict=True)]
    for number, row in enumerate(rows):
        edited = [*rows[:number], row[:-1] + "Z", *rows[number + 1:]]
        for table in (rows, edited):
            file.write_text("\n".join(["kind,diameter,drawer", *table]))
            crib("take-in", "--file", str(file))
        assert len(_all(crib)) == len(rows) + 1 + number


def test_two_people_s_lists_are_two(tmp_path_factory: pytest.TempPathFactory) -> None:
    """A few drills that everybody has, in another order among others, don't make two lists the same."""
    one = ["1/4 drill", "3/8 drill", "1/2 drill", "7/16 reamer", "3/4 end mill", "5/8 end mill"]
    other = ["3/8 drill", "#7 drill", "1/4 drill", "1/2 end mill", "1/2 drill", "#29 drill"]
    assert _given(tmp_path_factory, one, other) == 12
