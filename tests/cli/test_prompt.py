"""A box of cutters taken in at the prompt, in a real terminal, with nothing but what the screen says."""

from __future__ import annotations

import json
import os
import signal
import sqlite3
import subprocess
import sys
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from typing import Any

import pexpect
import pytest

BOX = """1/2 4 flute end mill 1/2 shank hss dull drawer B2 $8
same as last but 5/16
another one, dull
woodruff 606
#7 drill cobalt
1/4-20 plug tap H3
3/8 2fl em c/c HSS
half inch end mill, bit dull
.187 2fl
end mill
F drill
82 csk 3/4 6 flute
3/8 hand reamer straight
M6x1 spiral pt
1/4 ball nose 2 fl carb
that's .2485 actually
saw 3 x 1/16 x 1
404
3/4 rougher
undo
3/4 rougher, cobalt
60 dovetail 1 inch dia 7/16 high
2 inch slitting saw .032 x 1/2 bore
6,5 mm drill
center drill #3""".splitlines()


@pytest.fixture
def session(tmp_path: Path) -> Callable[..., Any]:
    """`crib take-in` in a terminal of its own."""
    def begin() -> Any:
        env = dict(os.environ, CRIB_DB=str(tmp_path / "crib.db"), TERM="xterm")
        child = pexpect.spawn(sys.executable, ["-m", "crib", "take-in"], env=env, encoding="utf-8", timeout=30,
                              dimensions=(40, 120))
        child.expect("line ends.")
        child.expect("> ")
        return child
    return begin


def _found(tmp_path: Path, *words: str) -> list[dict[str, Any]]:
    done = subprocess.run([sys.executable, "-m", "crib", *words, "--json"], capture_output=True, text=True, check=False,
                          env=dict(os.environ, CRIB_DB=str(tmp_path / "crib.db")))
    document: dict[str, list[dict[str, Any]]] = json.loads(done.stdout)
    return next(iter(document.values()))


def test_twenty_cutters_by_what_the_screen_says(session: Callable[..., Any], tmp_path: Path) -> None:
    child = session()
    for line in BOX:
        child.sendline(line)
        child.expect("\r\n> ")
        assert "Traceback" not in child.before
    child.sendline("")
    child.expect("20 cutters taken in, 1 line held back")
    child.expect(pexpect.EOF)
    child.close()
    assert child.exitstatus == 0
    cutters = _found(tmp_path, "find")
    assert len(cutters) == 20
    assert [line["text"] for line in _found(tmp_path, "held-back")] == ["404"]
    ball = next(one for one in cutters if one["corner_radius_mm"] and one["nominal_mm"])
    assert (ball["measured"], ball["nominal_mm"]) == (["diameter_mm"], 6.35)


@pytest.mark.usefixtures("ctrl_c")
@pytest.mark.parametrize("end", [signal.SIGINT, signal.SIGKILL, signal.SIGTERM])
def test_nothing_is_lost_when_it_is_stopped(session: Callable[..., Any], tmp_path: Path, end: signal.Signals) -> None:
    """Each line was kept when its answer stood on the screen; half a line was not typed yet."""
    child = session()
    for line in ("3/8 2fl em", "404"):
        child.sendline(line)
        child.expect("\r\n> ")
    child.send("1/2 en")
    child.kill(end)
    child.expect(pexpect.EOF)
    child.close()
    assert "Traceback" not in (child.before or "")
    assert [one["label"] for one in _found(tmp_path, "find")] == ["3/8 end mill, 2 flutes"]
    assert [line["text"] for line in _found(tmp_path, "held-back")] == ["404"]


def test_the_end_of_input_ends_it(session: Callable[..., Any], tmp_path: Path) -> None:
    child = session()
    child.sendline("?")
    child.expect("line ends.")
    child.expect("> ")
    child.sendeof()
    child.expect("0 cutters taken in")
    child.expect(pexpect.EOF)
    child.close()
    assert child.exitstatus == 0


def test_lines_from_a_pipe(tmp_path: Path) -> None:
    env = dict(os.environ, CRIB_DB=str(tmp_path / "crib.db"))
    done = subprocess.run([sys.executable, "-m", "crib", "take-in", "--json"], env=env, text=True, capture_output=True,
                          input="3/8 2fl em\n404\n\nsame but 5/16\n", check=False)
    document = json.loads(done.stdout)
    assert done.returncode == 0
    assert [one["nominal_mm"] or one["diameter_mm"] for one in document["taken_in"]] == [9.525, 7.9375]
    assert [(one["line"], one["text"]) for one in document["held_back"]] == [(2, "404")]


def test_a_line_typed_while_it_is_locked_is_kept_once_it_is_free(session: Callable[..., Any], tmp_path: Path) -> None:
    """The session ended, and the line was nowhere."""
    child = session()
    child.sendline("#7 drill")
    child.expect("Right?")
    with closing(sqlite3.connect(tmp_path / "crib.db", isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        child.sendline("1/4 drill")
        child.expect("not kept yet")
        child.expect("Enter tries again")
        other.execute("ROLLBACK")
    child.sendline("")
    child.expect("1/4 drill")
    child.sendline("done")
    child.expect("2 cutters taken in")


PUT_RIGHT = (
    ("1/2 end mill 2 flute", "1/2 end mill, 2 flutes"), ("no, 3 flute", "3 flutes"), ("make that dull", "dull"),
    ("it's hss", "hss"), ("3/8 end mill", "3/8 end mill"), ("i meant 5/16", "5/16 end mill"),
    ("drawer B3", "2 and what follows: drawer B3"), ("1/4 drill", "place B3"), ("make that three", "3 of them"),
    ("the last two are cobalt", "cobalt"), ("undo", "taken back"), ("no drawer", "no drawer"),
    ("3/4 reamer", "3/4 reamer"), ("no, 3/4 end mill", "3/4 end mill"), ("3/4 shank", "3/4 shank"),
    ("all of these carbide, drawer C1", "from here on"), ("1/8 ball nose", "carbide, place C1"),
    ("oops, 3/16", "3/16 ball end mill"), ("that's .186 actually", "measures .186"),
    ("undo the last two", "taken back"),
)


def test_mistakes_are_put_right_by_speech(session: Callable[..., Any], tmp_path: Path) -> None:
    """`no, 3 flute` was held back as a cutter that can't be read; what the screen said is there after a kill."""
    child = session()
    for line, says in PUT_RIGHT:
        child.sendline(line)
        child.expect("\r\n> ")
        assert says in " ".join(child.before.split()), (line, child.before)
    child.kill(signal.SIGKILL)
    child.expect(pexpect.EOF)
    cutters = _found(tmp_path, "find")
    assert [one["label"] for one in cutters] == [
        "1/2 end mill, 3 flutes", "5/16 end mill", "1/4 drill", "3/4 end mill", "1/8 ball end mill"]
    assert [one["drawer"] for one in cutters] == [None, "B3", "B3", None, "C1"]
    assert [one["material"] for one in cutters] == ["hss", "unknown", "unknown", "unknown", "carbide"]
    assert (cutters[0]["condition"], cutters[2]["count"], cutters[3]["shank_mm"]) == ("dull", 3, 19.05)
    assert _found(tmp_path, "held-back") == []
