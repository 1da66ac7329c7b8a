"""What a terminal shows: no line wider than it, whatever is asked; colour that says nothing by itself, and none where
nobody wants any."""

from __future__ import annotations

import io
import os
import pty
import re
import struct
import subprocess
import sys
from fcntl import ioctl
from pathlib import Path
from termios import TIOCSWINSZ

import pytest

from crib.cli.app import run
from crib.render.text import wide

CODES = re.compile(r"\x1b\[[0-9;?]*[A-Za-z]")
T_SLOT = ("t-slot", "--throat", "5/8+.002-0", "--depth", ".520", "--head-width", ".975", "--head-height", ".240",
          "--length", "6", "--material", "grey iron")
CLOSED = ("slot", "--width", "9/16+.002-0", "--depth", "3/8", "--length", "2", "--ends", "closed")
LONG = "a long note of what its last owner used it for, and whether it was ever ground again " * 2
COMMANDS = (
    ("find",), ("find", "keyseat"), ("find", "nothing at all like it", "xyzzy"), ("show", "27"), ("shop",),
    ("shop", "--weights"),
    ("history",), ("history", "27"), ("asked",), ("held-back",), ("held-back", "1"), ("out",), ("drawer", "top"),
    ("walk-round",), ("check-up",), ("price",), ("friends",), ("result",), ("tap", "1/4-20", "--depth", "1/2"),
    ("tap", "--check-all"), ("gauge", "--kind", "tap", "--diameter", ".250", "--tpi", "20"), 
    ("kinds",), ("materials",), ("make", "pocket", "--width", "1"),
    ("make", "slot", "--width", "1/4/2", "--depth", "1/4"),
    ("make", "slot", "--width", "1/2", "--depth", "1/4", "--use", "lifting eye"),
    ("export", "--to", "/nowhere/at/all/in/a/folder/that/is/not/there/and/has/a/long/name/x.csv"),
    ("--help",), ("make", "--help"), ("make", "t-slot", "--help"),
)
SLOW = (("make", *T_SLOT), ("make", *CLOSED, "--all"), ("worth", *CLOSED), ("asked", "1"), ("to-mic",), ("wish-list",))
NARROW, WIDTHS = 60, (60, 80, 100)


class Terminal(io.StringIO):
    """A stream that somebody looks at."""

    encoding = "utf-8"

    def isatty(self) -> bool:
        return True


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The sample crib with a line held back, a cutter lent, a price, a friend and a question."""
    path = tmp_path_factory.mktemp("bench") / "bench.db"
    for words in (("demo", "--into", str(path)), ("take-in", "t-slot cutter, no marks at all, " + LONG),
                  ("now", "27", "lent", "to", "the neighbour at the far end of the lane"), ("now", "27", "back"),
                  ("now", "25", "lent", "to", "the neighbour at the far end of the lane"),
                  ("amend", "30", "--note", LONG),
                  ("friends", "add", "Ann", "9/16 2fl end mill hss 1/2 shank loc 1-1/8"),
                  ("make", *CLOSED)):
        run((*words, "--crib", str(path)) if words[0] != "demo" else words)
    return path


def shown(monkeypatch: pytest.MonkeyPatch, columns: int, *words: str) -> tuple[str, str]:
    """What a terminal of so many columns shows, and what is said beside it."""
    both = Terminal(), Terminal()
    monkeypatch.setenv("COLUMNS", str(columns))
    monkeypatch.setattr(sys, "stdout", both[0])
    monkeypatch.setattr(sys, "stderr", both[1])
    run(words)
    return both[0].getvalue(), both[1].getvalue()


@pytest.mark.parametrize(("words", "columns"), [
    *((words, columns) for words in COMMANDS for columns in WIDTHS), *((words, NARROW) for words in SLOW),
], ids=lambda one: " ".join(one)[:30] if isinstance(one, tuple) else str(one))
def test_nothing_is_wider_than_the_terminal(bench: Path, words: tuple[str, ...], columns: int,
                                            monkeypatch: pytest.MonkeyPatch) -> None:
    """Lists ran over their line, and a terminal broke their words."""
    monkeypatch.setenv("CRIB_DB", str(bench))
    for text in shown(monkeypatch, columns, *words):
        for line in re.split(r"[\r\n]+", CODES.sub("", text)):
            assert wide(line) <= columns, line


def test_colour_says_nothing_by_itself(bench: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Without its codes the page is the page of who wants no colour (no-color.org); a terminal that knows none gets
    none."""
    monkeypatch.setenv("CRIB_DB", str(bench))
    monkeypatch.delenv("NO_COLOR", raising=False)
    monkeypatch.setenv("TERM", "xterm-256color")
    coloured, _ = shown(monkeypatch, 100, "make", *T_SLOT)
    assert "\x1b[" in coloured and set(CODES.findall(coloured)) >= {"\x1b[1;32m", "\x1b[36m", "\x1b[1;33m"}
    monkeypatch.setenv("NO_COLOR", "1")
    bare, _ = shown(monkeypatch, 100, "make", *T_SLOT)
    assert CODES.sub("", coloured) == bare and "\x1b" not in bare
    monkeypatch.delenv("NO_COLOR")
    monkeypatch.setenv("TERM", "dumb")
    assert "\x1b" not in shown(monkeypatch, 100, "find", "keyseat")[0]


@pytest.mark.parametrize("columns", [60, 100])
def test_a_real_terminal(bench: Path, columns: int) -> None:
    """As its owner sees it: as wide as it is, in colour, and the status of the answer."""
    status, text = typed(columns, "--crib", str(bench), "make", *T_SLOT)
    rows = CODES.sub("", text).replace("\r\n", "\n").split("\n")
    assert status == 0 and max(map(wide, rows)) <= columns and "\x1b[36m" in text
    assert rows[0].startswith("Answer: will do") and rows[-2].startswith(("More: ", "  "))
    assert columns < 100 or len(rows) - 1 <= 40


def typed(columns: int, *words: str) -> tuple[int, str]:
    """What the program does in a pseudo-terminal of so many columns: its status, and all that it writes there."""
    ours, theirs = pty.openpty()
    ioctl(theirs, TIOCSWINSZ, struct.pack("HHHH", 50, columns, 0, 0))
    hidden = ("COLUMNS", "LINES", "NO_COLOR")
    environment = {name: value for name, value in os.environ.items() if name not in hidden} | {"TERM": "xterm-256color"}
    program = subprocess.Popen([sys.executable, "-m", "crib", *words], stdin=theirs, stdout=theirs,
                               stderr=subprocess.DEVNULL, env=environment)
    os.close(theirs)
    read = b""
    while piece := _piece(ours):
        read += piece
    os.close(ours)
    return program.wait(), read.decode()


def _piece(terminal: int) -> bytes:
    """What was written since; nothing once nobody writes any more."""
    try:
        return os.read(terminal, 65536)
    except OSError:
        return b""
