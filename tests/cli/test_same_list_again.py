"""A list that was cut short is given once more: what is in stays in once, what isn't comes in."""

from __future__ import annotations

import io
import sys
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from crib.intake.session import Session
from crib.intake.shorthand import Shop
from crib.intake.twice import lines_there
from crib.store import open_crib
from tests.cli.conftest import Crib

LINES = ["1/4 drill drawer B2", "#7 drill", "404", "3/8 4 flute end mill", "that's .373 actually",
         "set 1-60 number drills", "#7 drill", "same but #8", "10-32 plug tap", "woodruff 606", "undo", "1/2 drill"]


def _pipe(monkeypatch: pytest.MonkeyPatch, lines: list[str]) -> None:
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(("\n".join(lines) + "\n").encode())))


def _all(crib: Crib) -> list[tuple[str, float | None]]:
    return [(one["label"], one["diameter_mm"]) for one in crib("find", "--json").json["cutters"]]


@pytest.mark.parametrize("cut", [0, 3, 4, 6, 7, 9, 11, 12])
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
