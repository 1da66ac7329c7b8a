"""Many cutters amended at once, and what is undone shown before it is."""

from __future__ import annotations

import os
import sys
from pathlib import Path

import pexpect

from tests.cli.conftest import Crib

LINES = ("end mills 1/8, 3/16, 1/4 drawer B3", "#7 drill", "3/8 reamer")


def test_many_are_amended_once_it_was_shown(crib: Crib) -> None:
    """`crib amend` took one number, so a drawer of cutters was so many commands."""
    crib("take-in", *LINES)
    shown = crib("amend", "1-3,4", "--material", "hss")
    assert shown.status == 1 and "1/8 end mill" in shown.out and "unknown -> hss" in shown.out
    assert {one["material"] for one in crib("find", "--json").json["cutters"]} == {"unknown"}
    done = crib("amend", "1-3,4", "--material", "hss", "--yes", "--json").json
    assert done["cutters"] == [1, 2, 3, 4] and len(done["changes"]) == 4 and done["is_done"]
    again = crib("amend", "1-4", "--material", "hss", "--yes", "--json")
    assert again.status == 1 and again.json["changes"] == []
    moved = crib("amend", "--where", "end mills in B3", "--drawer", "C1", "--yes", "--json").json
    assert moved["cutters"] == [1, 2, 3]
    assert [one["drawer"] for one in crib("find", "--json").json["cutters"]] == ["C1", "C1", "C1", None, None]


def test_all_of_many_are_amended_or_none(crib: Crib) -> None:
    crib("take-in", *LINES)
    wrong = crib("amend", "1-5", "--shank", "3/8", "--neck", "3/16", "--yes")
    assert wrong.status == 2 and "no. 1, 1/8 end mill" in wrong.err
    assert all(one["shank_mm"] is None for one in crib("find", "--json").json["cutters"])
    for numbers in ("7-9", "1,99", "x"):
        assert crib("amend", numbers, "--drawer", "B1", "--yes").status == 2
    assert crib("amend", "--where", "zorps", "--drawer", "B1", "--yes").status == 2
    assert crib("amend", "1", "--where", "drills", "--drawer", "B1").status == 2


def test_undo_by_the_cutter_and_back(crib: Crib) -> None:
    crib("take-in", *LINES)
    crib("amend", "2", "--drawer", "C9")
    crib("amend", "3", "--drawer", "C8")
    undone = crib("undo", "--cutter", "2")
    assert "C9" in undone.out and "brings it back" in undone.out
    assert crib("show", "2", "--json").json["drawer"] == "B3" and crib("show", "3", "--json").json["drawer"] == "C8"
    crib("undo", undone.out.split("crib undo ")[1].split()[0])
    assert crib("show", "2", "--json").json["drawer"] == "C9"
    assert crib("undo", "--cutter", "99").status == 2


def test_a_terminal_is_shown_what_undo_puts_back(tmp_path: Path) -> None:
    """Enter leaves everything as it is."""
    env = dict(os.environ, CRIB_DB=str(tmp_path / "crib.db"), TERM="xterm")

    def run(*words: str, answer: str = "") -> str:
        child = pexpect.spawn(sys.executable, ["-m", "crib", *words], env=env, encoding="utf-8", timeout=30)
        if words[0] == "undo" or "1-2" in words:
            child.expect("y does it")
            child.sendline(answer)
        child.expect(pexpect.EOF)
        return str(child.before)

    run("take-in", "1/8 end mill", "1/4 end mill")
    assert "nothing was changed" in run("amend", "1-2", "--drawer", "B1")
    assert "2 changed" in run("amend", "1-2", "--drawer", "B1", answer="y")
    assert "nothing was undone" in run("undo", "3-4")
    assert "brings it back" in run("undo", "3-4", answer="y")


def test_a_terminal_is_shown_a_table_before_it_is_stored(tmp_path: Path) -> None:
    """A column that nobody knows is asked about, and Enter stores nothing."""
    env = dict(os.environ, CRIB_DB=str(tmp_path / "crib.db"), TERM="xterm")
    file = tmp_path / "list.csv"
    file.write_text("Type,Dia,Wd\nWoodruff,3/4,10\nBall,1/2,2\n")
    for answer, says in (("", "nothing was taken in"), ("y", "2 ")):
        child = pexpect.spawn(sys.executable, ["-m", "crib", "take-in", "--file", str(file)], env=env,
                              encoding="utf-8", timeout=30)
        child.expect("what is in the column 'Wd'")
        child.sendline("flutes")
        child.expect("1/2 ball end mill, 2 flutes")
        child.expect("2 to take in. y does it")
        child.sendline(answer)
        child.expect(says)
        child.expect(pexpect.EOF)
        assert (tmp_path / "crib.db").exists() == bool(answer)
