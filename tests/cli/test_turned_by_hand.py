"""From the typing to the answer: a reamer and a slotting tool that no spindle turns, a double-ender, a shell mill."""

from __future__ import annotations

from tests.cli.conftest import Crib


def test_a_hand_reamer_from_the_line_to_the_plan(crib: Crib) -> None:
    """No speed is told of what a hand turns."""
    crib("take-in", "adjustable hand reamer 15/32 to 17/32")
    crib("take-in", "12.5 mm drill")
    asked = ("make", "hole", "--diameter", ".500+.001-0", "--depth", "3/4", "--through", "yes", "--finish", "reamed",
             "--material", "1018")
    plan = crib(*asked, "--json").json["plans"][0]
    assert [one["id"] for one in plan["cutters"]] == [2, 1] and plan["passes"][-1]["rpm"] is None
    page = " ".join(crib(*asked).out.split())
    assert "17/32 adjustable reamer" in page and "tap wrench" in page and "by hand" in page


def test_a_keyway_in_a_bore_in_words(crib: Crib) -> None:
    """Taken in, asked and told: strokes, the lock, the far wall; what lacks is asked for, what can't be is one line."""
    crib("take-in", "slotting tool 1/4 wide 1/2 bar min hole .690 1/2 shank reach 2 hss sharp")
    said = crib("make", "keyway in a bore, shaft 1, hub 3/4, in 1018")
    page = " ".join(said.out.split())
    assert said.status == 0 and "53 strokes" in page and "far wall" in page and "Lock: table and knee" in page
    lacks = crib("make", "bore-keyseat", "--bore", "1", "--width", "1/4", "--depth", ".130")
    assert lacks.status == 2 and "--hub" in lacks.err
    wide = crib("make", "bore-keyseat", "--bore", "1", "--width", "3/4", "--depth", ".130", "--hub", "1")
    assert wide.status == 2 and "half of the bore" in wide.err


def test_a_double_ender_is_one_number(crib: Crib) -> None:
    """One end goes dull; the other one cuts, under the same number, and undoing takes the state back."""
    crib("take-in", "3/8 DE end mill 2 flute 3/8 shank hss sharp")
    crib("now", "1", "one end dull")
    plan = crib("make", "slot", "--width", "3/8", "--depth", "1/8", "--length", "2", "--material", "304", "--json").json
    assert plan["plans"][0]["cutters"][0]["id"] == 1 and "its sharp end" in plan["plans"][0]["cutters"][0]["label"]
    crib("now", "1", "both ends dull")
    assert not crib("make", "slot", "--width", "3/8", "--depth", "1/8", "--length", "2", "--material", "304",
                    "--json").json["plans"]
    crib("undo")
    assert [end["condition"] for end in crib("find", "--json").json["cutters"][0]["ends"]] == ["dull", "sharp"]


def test_a_shell_mill_faces_and_steps(crib: Crib) -> None:
    crib("take-in", "1-1/2 shell mill 3/4 face 1/2 bore hss sharp")
    step = crib("make", "step", "--width", "3/4", "--depth", "1/2", "--length", "3", "--material", "1018")
    assert "shell mill" in step.out and "1/2 arbor" in step.out and "Proved: nothing left" in " ".join(step.out.split())
