"""What becomes of a cutter over the years: lent, back, lost, found, reground, dulled, moved, scrapped."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crib.cutters.away import Away, away, bring_back, read_away, send
from crib.cutters.base import Cutter
from crib.findings.errors import CribError
from crib.intake.shorthand import Shop
from crib.intake.talk.session import Session
from crib.store import open_crib
from tests.cli.conftest import Crib

TODAY = date.today().isoformat()


@pytest.fixture
def mill(begun: Callable[..., Crib]) -> Crib:
    """A crib with two half-inch mills under one number, and a drill."""
    return begun(("take-in", "--kind", "end-mill", "--diameter", "1/2", "--count", "2", "--shank", "1/2",
                  "--drawer", "B2"), ("take-in", "1/4 drill"))


def _now(crib: Crib, *words: str) -> dict[str, object]:
    return dict(crib("now", "1", *words, "--json").json)


def test_what_is_lent_is_counted_apart_and_comes_back(mill: Crib) -> None:
    lent = _now(mill, "lent", "to", "Bob")
    assert (lent["count"], lent["away"]) == (1, [f"1 lent to Bob since {TODAY}"])
    [out] = mill("out", "--json").json["out"]
    assert (out["cutter_id"], out["who"], out["since"]) == (1, "Bob", TODAY)
    assert "lent to Bob" in mill("find", "1/2").out and "Bob" in mill("show", "1").out
    assert _now(mill, "2 lent to eve").get("error") is not None
    assert mill("out", "anna").status == 1
    back = _now(mill, "bob", "brought", "it", "back")
    assert (back["count"], back["away"]) == (2, [])
    assert mill("out").status == 1


def test_both_may_be_with_two_people_and_each_brings_his_own(mill: Crib) -> None:
    _now(mill, "lent to Bob")
    _now(mill, "lent to Eve")
    assert _now(mill, "back from Eve")["away"] == [f"1 lent to Bob since {TODAY}"]
    assert _now(mill, "back from Eve").get("error") is not None
    assert _now(mill, "back")["count"] == 2


def test_lost_and_found_again_in_another_drawer(mill: Crib) -> None:
    assert _now(mill, "2 lost")["count"] == 0
    found = _now(mill, "found in C4")
    assert (found["count"], found["drawer"], found["away"]) == (2, "C4", [])


def test_scrapped_doesn_t_come_back(mill: Crib) -> None:
    assert _now(mill, "snapped")["away"] == [f"1 scrapped on {TODAY}"]
    assert "error" in _now(mill, "back")
    assert mill("out").status == 1


def test_ground_again_the_stamp_stays_and_the_size_is_asked_for(mill: Crib) -> None:
    """A reground cutter is smaller than its mark; until it is measured nothing may be reckoned with its diameter."""
    once = _now(mill, "reground")
    assert (once["nominal_mm"], once["diameter_mm"], once["condition"]) == (12.7, None, "sharp")
    assert once["questions"]
    assert _now(mill, "measured .4875")["diameter_mm"] == pytest.approx(12.3825)
    twice = _now(mill, "reground to .475")
    assert (twice["nominal_mm"], twice["diameter_mm"]) == (12.7, pytest.approx(12.065))
    assert twice["measured"] == ["diameter_mm"]


def test_sharpened_asks_for_the_diameter_and_measuring_answers(mill: Crib) -> None:
    sharp = _now(mill, "sharpened")
    assert sharp["condition"] == "sharp" and any("mic it" in one for one in sharp["questions"])  # type: ignore[attr-defined]
    assert not any("mic it" in one for one in _now(mill, "mikes .498")["questions"])  # type: ignore[attr-defined]


@pytest.mark.parametrize(("words", "key", "value"), [
    ("dull", "condition", "dull"), ("chipped", "condition", "chipped"), ("is blunt now", "condition", "dull"),
    ("moved to B3", "drawer", "B3"), ("in top tray", "drawer", "top tray"), ("neck measured .250", "neck_mm", 6.35),
])
def test_each_in_its_words(mill: Crib, words: str, key: str, value: object) -> None:
    assert _now(mill, words)[key] == value
    assert mill("undo").status == 0
    assert mill("show", "1", "--json").json[key] != value


@pytest.mark.parametrize("words", ["", "turned green", "lent to", "0 lent to bob", "99 lost", "measured fish",
                                   "moved to"])
def test_what_can_t_be_read_changes_nothing(mill: Crib, words: str) -> None:
    before = mill("show", "1", "--json").json
    done = mill("now", "1", words)
    assert (done.status, done.err.count("\n") >= 1) == (2, True)
    assert mill("show", "1", "--json").json == before


def test_said_at_the_prompt_it_is_said_of_what_is_on_record(tmp_path: Path) -> None:
    """ "Bob brought back the 1/2 end mill" made a new cutter."""
    with open_crib(str(tmp_path / "crib.db"), create=True) as crib:
        session = Session(crib, Shop())
        session.say("1/2 end mill")
        for line, count, condition, place in [
            ("lent the 1/2 end mill to bob", 0, "unknown", None),
            ("bob brought back the 1/2 end mill", 1, "unknown", None),
            ("lost the 1/2 end mill", 0, "unknown", None), ("found the 1/2 end mill", 1, "unknown", None),
            ("the 1/2 end mill is dull", 1, "dull", None), ("sharpened the 1/2 end mill", 1, "sharp", None),
            ("moved the 1/2 end mill to b3", 1, "sharp", "b3"), ("the 1/2 end mill got chipped", 1, "chipped", "b3"),
        ]:
            outcome = session.say(line)
            assert outcome.amended and not outcome.taken, (line, outcome.says)
            [only] = crib.find(()).cutters
            assert (only.count, only.condition, only.drawer) == (count, condition, place), line
            session.say("undo")
            session.say(line)
        session.say("1/2 end mill")
        assert session.say("lost the 1/2 end mill").held is not None


def test_nothing_is_planned_with_what_is_lent_and_the_answer_says_who_has_it(mill: Crib) -> None:
    ask = ("make", "slot", "--width", "1/2+.004-0", "--depth", "1/4", "--material", "1018")
    assert mill(*ask).status == 0
    mill("now", "1", "2 lent to Bob")
    gone = mill(*ask)
    assert gone.status == 1
    assert "Not there: no. 1" in gone.out and "lent to Bob" in " ".join(gone.out.split())
    [one] = mill(*ask, "--json").json["away"]
    assert (one["cutter_id"], one["answer"]) == (1, "as drawn")


def test_what_is_away_goes_out_and_comes_in_with_the_crib(mill: Crib, tmp_path: Path,
                                                          monkeypatch: pytest.MonkeyPatch) -> None:
    mill("now", "1", "lent to Bob; the neighbour's son")
    shown = mill("find", "--json")
    files = {"json": shown.out, "csv": ""}
    mill("export", "--to", str(tmp_path / "out.csv"))
    files["csv"] = (tmp_path / "out.csv").read_text()
    for form, text in files.items():
        (tmp_path / f"in.{form}").write_text(text)
        monkeypatch.setenv("CRIB_DB", str(tmp_path / f"{form}.db"))
        mill("take-in", "--file", str(tmp_path / f"in.{form}"))
        [again] = [one for one in mill("find", "--json").json["cutters"] if one["kind"] == "end-mill"]
        assert again["away"] == shown.json["cutters"][0]["away"], form


@given(st.lists(st.tuples(st.sampled_from(["lent", "lost"]), st.integers(1, 3), st.sampled_from(["Bob", "Eve"])),
                max_size=5))
def test_whatever_goes_out_comes_back_and_none_is_made(moves: list[tuple[str, int, str]]) -> None:
    cutter = Cutter(1, "drill", count=6)
    for how, count, who in moves:
        gone = Away(count, how, "2026-11-02", who if how == "lent" else "")
        assert read_away(str(gone)) == gone
        if count > cutter.count:
            with pytest.raises(CribError):
                send(cutter, gone)
            continue
        cutter = send(cutter, gone)
        assert cutter.count + sum(one.count for one in away(cutter)) == 6
    if cutter.away:
        one_back = bring_back(cutter, 1)
        assert (one_back.count, sum(one.count for one in away(one_back))) == (cutter.count + 1, 6 - cutter.count - 1)
        assert bring_back(cutter) == cutter.but(count=6, away=())


@pytest.mark.parametrize(("words", "count", "away_", "condition"), [
    ("both lost", 0, ["2 lost"], "unknown"), ("lost one", 1, ["1 lost"], "unknown"),
    ("lent two to Bob", 0, ["2 lent to Bob"], "unknown"), ("all scrapped", 0, ["2 scrapped"], "unknown"),
    ("scrapped one of them", 1, ["1 scrapped"], "unknown"), ("lent to Bob, dull", 1, ["1 lent to Bob"], "dull"),
    ("lent to Tom and Ana", 1, ["1 lent to Tom and Ana"], "unknown"),
    ("lent one to Otto to use", 1, ["1 lent to Otto to use"], "unknown")])
def test_how_many_and_what_else_may_stand_anywhere(mill: Crib, words: str, count: int, away_: list[str],
                                                   condition: str) -> None:
    """`lost one` wasn't understood; `lent to Bob, dull` was lent to somebody of that name."""
    after = _now(mill, words)
    assert (after["count"], after["condition"]) == (count, condition)
    assert [said.split(" since")[0].split(" on")[0] for said in after["away"]] == away_  # type: ignore[attr-defined]


@pytest.mark.parametrize(("words", "drawer"), [("moved to B3 and dull", "B3"), ("moved to B2, back", "B2, back"),
                                               ("moved to the drawer next to A1", "the drawer next to A1")])
def test_a_place_ends_where_something_else_is_said(mill: Crib, words: str, drawer: str) -> None:
    """`moved to B3 and dull` was a drawer of that name, and the cutter sharp."""
    assert _now(mill, words)["drawer"] == drawer


def test_nothing_is_ground_to_more_than_it_was(mill: Crib) -> None:
    """`reground .6` of a half-inch mill was written down, and planned with."""
    for size in (".5", ".6", "13mm"):
        assert mill("now", "1", "reground", size).status == 2
    assert "isn't less than the .500" in mill("now", "1", "reground", ".6").err
    assert _now(mill, "reground 12mm")["diameter_mm"] == 12.0
    assert _now(mill, "reground .480")["nominal_mm"] == 12.7


def test_the_end_that_is_ground_says_so_too(crib: Crib) -> None:
    """The top of the record said `reground, not measured`, and the end still had its size."""
    crib("take-in", "3/8 x 1/4 double ended end mill")
    ground = _now(crib, "reground .370")
    end = ground["ends"][0]  # type: ignore[index]
    assert (end["diameter_mm"], end["nominal_mm"], end["reground"], end["measured"]) == \
        (pytest.approx(9.398), 9.525, True, ["diameter_mm"])
    again = _now(crib, "reground")
    assert (again["diameter_mm"], again["ends"][0]["diameter_mm"]) == (None, None)  # type: ignore[index]


def test_a_first_name_is_enough_where_it_is_one_person_s(mill: Crib) -> None:
    """What Tom Tomlinson had didn't come back from Tom."""
    _now(mill, "lent to Tom Tomlinson")
    _now(mill, "lent to Ana Tom")
    assert mill("now", "1", "back from Tom").status == 2
    assert _now(mill, "back from ana")["count"] == 1
    assert _now(mill, "tom brought it back")["count"] == 2


def test_a_name_said_at_the_prompt_keeps_its_capitals(tmp_path: Path) -> None:
    with open_crib(str(tmp_path / "crib.db"), create=True) as crib:
        session = Session(crib, Shop())
        for line in ("3/8 end mill", "lent the 3/8 end mill to Tom McNab"):
            session.say(line)
        assert crib.cutter(1).away == (f"1 lent to Tom McNab since {TODAY}",)


def test_what_is_found_was_lost_and_not_lent(mill: Crib) -> None:
    """`found` brought back the one that Eve still had."""
    _now(mill, "lost one")
    _now(mill, "lent to Eve")
    found = _now(mill, "found")
    assert (found["count"], found["away"]) == (1, [f"1 lent to Eve since {TODAY}"])
    assert _now(mill, "back")["count"] == 2
    _now(mill, "both lent to Eve")
    assert "2 there again" in mill("now", "1", "back").out
