"""`crib check-up` from the typing to the status."""

from __future__ import annotations

import sys
from pathlib import Path

import pexpect
import pytest

from tests.cli.conftest import Crib


def test_an_empty_crib_has_nothing_amiss(crib: Crib) -> None:
    crib("shop", "--units", "in")
    assert (crib("check-up").status, crib("check-up", "--json").json) == (0, {"findings": []})


def test_faults_come_with_their_cutter_and_what_to_do(crib: Crib) -> None:
    crib("take-in", "--kind", "keyseat-cutter", "--diameter", "5/8", "--face", "3/16", "--drawer", "B2")
    done = crib("check-up", "--json")
    assert done.status == 1
    [neck] = [one for one in done.json["findings"] if one["rule"] == "AU6"]
    assert neck["cutter_id"] == 1 and "neck" in neck["says"] and "crib now 1 neck measured" in neck["help"]
    assert crib("now", "1", "neck", "measured", ".250").status == 0
    [reach] = [one for one in crib("check-up", "--json").json["findings"] if one["rule"] == "AU6"]
    assert "reach" in reach["says"]


@pytest.mark.skipif(sys.platform == "win32", reason="needs a terminal")
def test_fix_goes_through_them_one_by_one(crib: Crib, place: Path) -> None:
    for line in ("1/2 end mill", "3/8 end mill"):
        crib("take-in", line)
    child = pexpect.spawn(sys.executable, ["-m", "crib", "--crib", str(place), "check-up", "--fix"], timeout=30,
                          encoding="utf-8", dimensions=(40, 100))
    child.expect("now: ")
    child.sendline("fish")
    child.expect("doesn't say what became of it")
    child.expect("now: ")
    child.sendline("in B3")
    child.expect("in B3 now")
    child.expect("now: ")
    child.sendeof()
    child.expect("1 put right")
    child.close()
    assert "B3" in {one["drawer"] for one in crib("find", "--json").json["cutters"]}
