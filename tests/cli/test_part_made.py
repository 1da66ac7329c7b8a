"""A part from the typing to the sheet: planned, ticked off, measured, gone on with tomorrow with what is left."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.cli.conftest import Crib
from tests.sheets import Page

SAMPLE = Path(__file__).parent.parent.parent / "sample_crib"
TEXT = """# a rest for the side lay
name = "rest"
stock = "4 x 2-1/2 x 1-1/4"
material = "grey iron"
fits = "the side lay"

[[feature]]
name = "lay slot"
kind = "t-slot"
throat = "5/8+.002-0"
depth = ".520"
head-width = ".975+.010-.010"
head-height = ".240+.005-.005"
at = "1-1/4"

[[feature]]
name = "bolts"
kind = "hole"
diameter = ".201"
depth = "1/2"
at = ["1/2, 3/8", "3-1/2, 3/8"]
"""


@pytest.fixture(scope="module")
def lines(tmp_path_factory: pytest.TempPathFactory) -> list[tuple[str, ...]]:
    """The command lines of `few`, with their files."""
    return few(tmp_path_factory.mktemp("few"))


@pytest.fixture
def rest(begun: Callable[..., Crib], lines: list[tuple[str, ...]]) -> Crib:
    """A crib with a few of the sample's cutters, and one part on file."""
    return begun(*lines)


def few(place: Path) -> list[tuple[str, ...]]:
    """The command lines that make a crib with a few of the sample's cutters and one part: planned in a blink."""
    every = {one["id"]: one for one in json.loads((SAMPLE / "cutters.json").read_text(encoding="utf-8"))}
    some = [every[number] for number in (10, 8, 27, 54, 47)]
    (place / "cutters.json").write_text(json.dumps(some), encoding="utf-8")
    (place / "rest.toml").write_text(TEXT, encoding="utf-8")
    return [("take-in", "--file", str(place / "cutters.json"), "--yes"),
            ("shop", "--collets", "1/4,3/8,1/2", "--chuck", "1/2"),
            ("part", "rest", "--from", str(place / "rest.toml"))]


MILL = 1
"""The 1/2 end mill that cuts the throat; there is one of 3/8 besides."""


def operations(crib: Crib) -> list[dict]:
    """The operations of the part, as other programs read them."""
    found: list[dict] = crib("part", "rest", "--json").json["operations"]
    return found


def test_the_whole_of_it(rest: Crib, tmp_path: Path) -> None:
    """The answer first and on one screen; a sheet and a picture beside it; one JSON document with the agreed keys."""
    shown = rest("part", "rest", "--sheet", str(tmp_path / "rest.html"), "--picture", str(tmp_path / "rest.svg"))
    assert shown.status == 0 and shown.out.startswith("Answer: ") and len(shown.out.splitlines()) <= 40
    assert "lay slot: throat" in shown.out and "bolts" in shown.out
    page = (tmp_path / "rest.html").read_text(encoding="utf-8")
    Page(page)
    assert page.count('class="operation"') == len(operations(rest))
    assert (tmp_path / "rest.svg").read_text(encoding="utf-8").count("<svg ") == 2
    assert "is there already" in rest("part", "rest", "--sheet", str(tmp_path / "rest.html")).err
    found = rest("part", "rest", "--json").json
    assert found["part"] == "rest" and found["proven"] and found["answer"] == "extra passes"
    assert sum(one["minutes"] for one in found["operations"]) <= found["minutes"]


def test_what_is_done_stays_done(rest: Crib) -> None:
    """Ticked off by numbers and ranges; taken back by undo and by untick; whatever is done comes first and is the same
    when the part is planned again."""
    every = operations(rest)
    assert rest("part", "rest", "tick", "1-2").status == 0
    after = operations(rest)
    assert [one["done"] for one in after] == [True, True, *[False] * (len(every) - 2)]
    assert [(one["no"], one["key"], one["cutter_id"], one["passes"]) for one in after[:2]] == [
        (one["no"], one["key"], one["cutter_id"], one["passes"]) for one in every[:2]]
    assert "ticked off" in rest("history").out.splitlines()[1]
    assert rest("undo").status == 0
    assert not any(one["done"] for one in operations(rest))
    ticked = rest("part", "rest", "tick", "1")
    assert "crib part rest tick 2" in ticked.out, "what is done isn't to be ticked next"
    assert "already" in rest("part", "rest", "tick", "1").err
    assert rest("part", "rest", "untick", "1").status == 0
    assert not any(one["done"] for one in operations(rest))


@pytest.mark.parametrize(("typed", "says"), [("9", "no operation 9"), ("x", "not an operation's number"),
                                             ("3-2", "no operation"), ("1-99", "no operation 99"), ("", "isn't said"),
                                             ("9" * 40, "not an operation's number")])
def test_what_cannot_be_ticked(rest: Crib, typed: str, says: str) -> None:
    """A clear sentence, status 2, and nothing is ticked."""
    failed = rest("part", "rest", "tick", typed)
    assert failed.status == 2 and says in failed.err
    assert not any(one["done"] for one in operations(rest))


def test_a_cutter_dulled_half_way(rest: Crib) -> None:
    """The throat was done with the half-inch, then that is dull: what is left is planned without it, what is done stays
    as it was, with the cutter that did it; and what changed is told."""
    first = next(one for one in operations(rest) if one["feature"] == "lay slot")
    assert first["cutter_id"] == MILL
    rest("part", "rest", "tick", str(first["no"]))
    head = next(one for one in operations(rest) if one["feature"] == "lay slot" and not one["done"])
    rest("now", str(MILL), "dull")
    again = [one for one in operations(rest) if one["feature"] == "lay slot"]
    assert [(one["cutter_id"], one["done"]) for one in again] == [(MILL, True), (head["cutter_id"], False)]
    assert again[0]["passes"] == first["passes"]


def test_a_dull_cutter_that_still_goes_to_work_is_told_of(rest: Crib) -> None:
    """The keyseat cutter for the head went dull and nothing else makes it: it is planned with on the first screen, in
    the sheet's first page and for programs, each with what its edges want; that stood only in the passes. Once it has
    done its work there is nothing to grind."""
    assert "is dull" not in rest("part", "rest").out
    rest("now", "3", "dull")
    told = " ".join(rest("part", "rest").out.split())
    assert "Caution: lay slot: 5/8 x 3/16 keyseat cutter is dull: hone or grind it before the finishing passes" in told
    assert [one["cutter_id"] for one in rest("part", "rest", "--json").json["findings"] if one["id"] == "CD1"] == [3]
    mine = [str(one["no"]) for one in operations(rest) if one["feature"] == "lay slot"]
    assert rest("part", "rest", "tick", ",".join(mine)).status == 0
    assert "is dull" not in rest("part", "rest").out


def test_a_cutter_lost_before_it_was_used(rest: Crib) -> None:
    """Something was ticked, then the end mill is lost: another cuts the throat, and that and the minutes are told."""
    bolts = next(one for one in operations(rest) if one["feature"] == "bolts")
    rest("part", "rest", "tick", str(bolts["no"]))
    rest("now", str(MILL), "lost")
    told = " ".join(rest("part", "rest").out.split())
    assert f"no. {MILL} is no longer there: it was to do lay slot: throat" in told
    assert "instead: " in told and " min more" in told
    assert next(one for one in operations(rest) if one["feature"] == "bolts")["done"]


def test_a_size_outside_the_drawing(rest: Crib) -> None:
    """A throat of .6205 is under .625: metal is left, and the side lay won't go in; one of .630 is over: that metal is
    gone, and the side lay has so much more play."""
    number = next(str(one["no"]) for one in operations(rest) if one["feature"] == "lay slot")
    small = rest("part", "rest", "tick", number, "--measured", "throat .6205")
    assert small.status == 0 and ".0045 under the least" in small.err and "won't go in" in small.err
    big = rest("part", "rest", "measured", "throat", "width", ".630")
    assert ".003 over the most" in big.err and "the side lay would have .003 more play" in big.err
    assert "Changed: lay slot: throat width .6300" in big.out or "throat width .630" in big.out
    good = rest("part", "rest", "measured", "throat width .626")
    assert "is within" in good.err and "Changed" not in good.out
    assert rest("part", "rest", "--json").json["measured"] == [
        {"what": "lay slot: throat width", "feature": "lay slot", "mm": pytest.approx(15.9004), "low_mm":
         pytest.approx(15.875), "high_mm": pytest.approx(15.9258), "outside": False}]


@pytest.mark.parametrize(("typed", "says"), [("bananas .5", "no size of this part"), (".5", "doesn't say what"),
                                             ("depth .5", "more than one size"), ("throat wide", "wide")])
def test_what_was_measured_of_what(rest: Crib, typed: str, says: str) -> None:
    """A size that isn't one of the part's, or could be two, is asked about; nothing is kept."""
    failed = rest("part", "rest", "measured", typed)
    assert failed.status == 2 and says in failed.err
    assert rest("part", "rest", "--json").json["measured"] == []


def test_a_part_that_is_not_there(rest: Crib) -> None:
    """Neither planned nor ticked."""
    assert rest("part", "nothing").status == 2
    assert rest("part", "nothing", "tick", "1").status == 2


def test_before_and_after(rest: Crib) -> None:
    """Without the half-inch end mill another cuts the throat, without the keyseat cutter nothing makes the slot;
    without one that it doesn't use nothing changes; one more that is no better changes nothing. Nothing is kept."""
    before = len(rest("find", "--json").json["cutters"])
    told = rest("part", "--without", str(MILL))
    assert told.status == 0 and "lay slot: no. 2 instead of no. 1" in " ".join(told.out.split())
    found = rest("part", "--without", "3", "--json").json["parts"]
    assert [(one["part"], one["unmade_then"]) for one in found] == [("rest", ["lay slot"])]
    assert rest("part", "--with", "1/8 end mill hss", "--json").json["parts"][0]["changes"] == []
    assert rest("part", "--without", "99").status == 2 and rest("part", "--without", "x").status == 2
    assert rest("part", "--with", "bananas").status == 2
    assert len(rest("find", "--json").json["cutters"]) == before


def test_a_cutter_that_is_gone_has_no_condition(rest: Crib) -> None:
    """Broken is no condition to plan with: the answer says by which words it is off the list, and they are."""
    failed = rest("amend", str(MILL), "--condition", "broken")
    assert failed.status == 2 and "crib now NUMBER broken" in failed.err
    assert rest("now", str(MILL), "broken").status == 0
    assert MILL not in {one["cutter_id"] for one in operations(rest)}


def test_what_is_done_of_a_feature_that_nothing_ends_stays_in_the_list(rest: Crib) -> None:
    """The throat is done, then the keyseat cutter for its head is lost: the throat stays, done as it was, the feature
    is unmade, and that is told."""
    first = next(one for one in operations(rest) if one["feature"] == "lay slot")
    rest("part", "rest", "tick", str(first["no"]))
    assert rest("now", "3", "lost").status == 0
    found = rest("part", "rest", "--json").json
    mine = [one for one in found["operations"] if one["feature"] == "lay slot"]
    assert [(one["key"], one["no"], one["done"]) for one in mine] == [(first["key"], first["no"], True)]
    assert mine[0]["passes"] == first["passes"]
    assert len(found["unmade"]) == 1
    told = " ".join(rest("part", "rest").out.split())
    assert "stays done; what is left of it nothing makes now" in told
    assert rest("part", "rest", "untick", str(first["no"])).status == 0
