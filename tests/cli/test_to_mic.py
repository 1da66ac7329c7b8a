"""What to measure so that most of what was asked gets an answer, as typed."""

from __future__ import annotations

from pathlib import Path

import pytest

from crib.store import PastQuestion, open_crib
from tests.cli.conftest import Crib

IRON = ("--material", "grey iron")
SMALL = ("make", "t-slot", "--throat", "1/2", "--depth", ".450", "--head-width", "3/4", "--head-height", "3/16", *IRON)
WIDE = ("make", "t-slot", "--throat", "1/2", "--depth", ".450", "--head-width", "7/8", "--head-height", "3/16", *IRON)


@pytest.fixture
def bench(crib: Crib) -> Crib:
    """An end mill for the throat, and two discs of which nobody measured the necks."""
    crib("take-in", "--kind", "end-mill", "--diameter", "3/8", "--flutes", "2", "--length-of-cut", "1",
         "--shank", "3/8")
    for diameter in ("3/4", "5/8"):
        crib("take-in", "--kind", "keyseat-cutter", "--diameter", diameter, "--face", "3/16", "--reach", ".8",
             "--shank", "1/2", "--drawer", "B2")
    return crib


def test_the_cutter_that_turns_most_with_the_size_at_which_it_turns(bench: Crib) -> None:
    """A neck of the throat less the clearance on both sides, .500 - 2 x .010 = .480, where the cutter is as wide as the
    head: worked here. For the wider head it runs to the side by half of what lacks, so that the neck must be thinner;
    the 5/8 one would have to for both."""
    bench(*SMALL)
    bench(*WIDE)
    done = bench("to-mic", "--most", "1", "--json")
    assert done.status == 0
    [one] = done.json["measure"]
    assert (one["cutter_id"], one["drawer"]) == (2, "B2")
    assert [size["key"] for size in one["sizes"]] == ["neck_mm"]
    assert sorted(done.json["turned"]) == [1, 2] and done.json["questions"] == 2
    fix = {turn["question"]: turn["fix"] for turn in one["turns"]}
    assert ".480 or less" in fix[1] and ".480" not in fix[2]
    assert all(turn["answer_now"] == "measure first" for turn in one["turns"])
    shown = bench("to-mic").out
    for text in ("measure one cutter, and 2 questions of 2 asked", "no. 2, 3/4 x 3/16 keyseat cutter, drawer B2",
                 "mic the neck behind the teeth", "A neck of .480 or less would clear.",
                 "crib amend 2 --neck SIZE --measured neck"):
        assert text in shown


def test_measured_as_it_says_the_question_is_answered(bench: Crib) -> None:
    bench(*SMALL)
    bench("amend", "2", "--neck", ".480", "--measured", "neck")
    assert bench("asked", "1").status == 0
    assert "at best" not in bench("to-mic").out
    bench("undo")
    bench("amend", "2", "--neck", ".482", "--measured", "neck")
    assert bench("asked", "1", "--json").json["now"]["answer"] != "as drawn"


def test_two_that_only_turn_it_together(bench: Crib) -> None:
    """The end mill's flutes may be too short for the throat, and the disc's neck too thick for the lip."""
    bench("amend", "1", "--length-of-cut", "unknown")
    bench("amend", "3", "--count", "0")
    bench("make", "t-slot", "--throat", "1/2", "--depth", "1.0", "--head-width", "3/4", "--head-height", "3/16", *IRON)
    bench("amend", "2", "--reach", "1.5")
    assert bench("to-mic", "--most", "1").status == 1
    done = bench("to-mic", "--json").json
    assert [(one["cutter_id"], one["turns"][0]["beside"]) for one in done["measure"]] == [(1, [2]), (2, [1])]
    assert "together with no. 2" in bench("to-mic").out
    few = bench("to-mic", "--most", "1", "--json").json
    assert (few["turned"], few["could_turn"]) == ([], [1])
    assert "it takes more than that: crib to-mic --most 2" in bench("to-mic", "--most", "1").out


def test_nothing_to_measure_is_said(bench: Crib) -> None:
    none = bench("to-mic")
    assert (none.status, none.out.startswith("nothing was asked yet")) == (1, True)
    bench("make", "slot", "--width", "3/8", "--depth", "1/4")
    bench("make", "slot", "--width", "1/64", "--depth", "1/4")
    bench("make", "slot", "--width", "3/8", "--depth", "1/4", "--use", "lifting eye")
    done = bench("to-mic")
    assert done.status == 1 and "none of what was asked (3) hangs on a size that isn't known" in done.out
    assert bench("to-mic", "--json").json["measure"] == []


def test_questions_that_can_not_be_asked_any_more_are_passed_over_with_a_note(bench: Crib, place: Path) -> None:
    bench(*SMALL)
    with open_crib(str(place)) as opened:
        opened.remember(PastQuestion("spiral-slot", {"width": "1/2"}, "in", "cannot"))
        opened.remember(PastQuestion("slot", {"width": "1/2/3", "depth": "1/4"}, "in", "cannot"))
        opened.remember(PastQuestion("slot", {"width": "1/2", "depth": "1/4", "material": "moonrock"}, "in", "cannot"))
    done = bench("to-mic", "--json")
    assert done.status == 0 and done.json["turned"] == [1]
    assert sorted(one["question"] for one in done.json["skipped"]) == [2, 3, 4]
    assert all(f"question {number} can't be asked any more" in done.err for number in (2, 3, 4))


@pytest.mark.parametrize("words", [("--most", "0"), ("--most", "-1"), ("--most", "x"), ("--most",), ("all",)])
def test_nonsense(bench: Crib, words: tuple[str, ...]) -> None:
    done = bench("--json", "to-mic", *words)
    assert done.status == 2 and done.json["error"]["what"]


def test_an_angle_that_nobody_gauged_is_asked_for_and_has_no_threshold(bench: Crib) -> None:
    """A 60 degree dovetail is cut by a 60 degree cutter and by no other, flatter or steeper (common practice, no
    source): the flank lies along the teeth."""
    bench("take-in", "--kind", "dovetail-cutter", "--diameter", "3/4", "--face", "5/16", "--shank", "3/8")
    bench("make", "dovetail", "--angle", "60", "--width", "1.5", "--depth", "1/4", "--material", "mild steel")
    done = bench("to-mic", "--json").json
    [one] = [each for each in done["measure"] if each["cutter_id"] == 4]
    assert "angle_deg" in [size["key"] for size in one["sizes"]]
    assert not [at for turn in one["turns"] for at in turn["turns_at"] if at["key"] == "angle_deg"]
    shown = bench("to-mic").out
    assert "what angle" in shown and "--angle SIZE" in shown and "degrees or" not in shown
