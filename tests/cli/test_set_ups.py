"""Slits, undercuts, arbors and walls from the command line to the status."""

from __future__ import annotations

import pytest

from tests.cli.conftest import Crib

SAW = ("take-in", "--kind", "slitting-saw", "--diameter", "3", "--face", "1/16", "--bore", "1", "--flutes", "30")
DISC = ("take-in", "--kind", "keyseat-cutter", "--diameter", "1/2", "--face", "1/8", "--neck", ".2", "--reach", ".8",
        "--shank", "1/2")
SLIT = ("make", "slit", "--width", "1/16", "--depth", "1/2", "--material", "brass")


def test_a_slit_on_its_side(crib: Crib) -> None:
    crib(*SAW)
    crib("shop", "--arbors", "1:1-3/4:2:3/4")
    done = crib(*SLIT, "--edge", "1/2", "--json")
    assert done.status == 0
    plan = done.json["plans"][0]
    assert plan["setup"].startswith("work on its side, its top upright at the back")
    assert plan["zeros"] == ["the face that it opens at", "the middle of the slit"]
    assert plan["passes"][0]["view"] == "cross" and plan["holders"] == ["1 arbor, flange 1-3/4"]
    assert done.json["feature"]["edge_mm"] == 12.7
    page = " ".join(crib(*SLIT, "--edge", "1/2", "--why").out.split())
    assert "Set up: work on its side" in page and "Z 0: the middle of the slit" in page
    assert "depth .500" in page and "surface" not in page.split("Proved")[0]


def test_an_undercut(crib: Crib) -> None:
    crib(*DISC)
    done = crib("make", "undercut", "--width", "1/8", "--depth", ".060", "--use", "load", "--json")
    plan = done.json["plans"][0]
    assert done.status == 0 and plan["answer"] == "as drawn"
    assert {one["z_mm"] for one in plan["passes"]} == {0.0}
    assert any("--height says" in one for one in plan["assumed"])
    assert "ST1" in {warning["rule"] for warning in plan["warnings"]}
    deep = crib("make", "undercut", "--width", "1/8", "--depth", ".2", "--json")
    assert deep.status == 1 and deep.json["refused"][0]["rule"] == "NK2"


@pytest.mark.parametrize(("words", "says"), [
    (("make", "slit", "--width", "1/16"), "needs its depth"),
    ((*SLIT, "--edge", "near"), "edge 'near'"),
    ((*SLIT, "--ends", "closed"), "ends 'closed'"),
    (("make", "slot", "--width", "1/2", "--depth", "1/4", "--wall", "1@-.2"), "a wall at -.200 stands over the slot"),
    (("make", "slot", "--width", "1/2", "--depth", "1/4", "--wall", "1@"), "wall distance"),
    (("make", "slot", "--width", "1/2", "--depth", "1/4", "--wall", "2"), "doesn't say how far away"),
    (("shop", "--arbors", "1:1-3/4:2:3:4"), "more than four sizes"),
    (("shop", "--arbors", "1:1-3/4:wide"), "nose 'wide'"),
    (("shop", "--collet-nose", "wide"), "collet-nose 'wide'"),
])
def test_what_cant_be_understood(crib: Crib, words: tuple[str, ...], says: str) -> None:
    crib(*SAW)
    done = crib(*words)
    assert done.status == 2 and says in done.err and "Traceback" not in done.err


def test_the_shop_shows_what_holds(crib: Crib) -> None:
    """An arbor's nose and reach are shown where they are known, and kept."""
    crib("shop", "--arbors", "1:1-3/4,7/8:1-1/2:2:3/4", "--collet-nose", "1-1/4", "--collet-nose-length", "1-1/2")
    shown = crib("shop").out
    assert "bore 1, flange 1-3/4; bore 7/8, flange 1-1/2, nose 2, reach 3/4" in shown
    assert "collet nose" in shown and "1-1/4" in shown
    assert crib("shop", "--json").json["arbors"][1]["reach_mm"] == 19.05
    assert crib("shop", "--collet-nose", "none", "--json").json["collet_nose_mm"] is None
