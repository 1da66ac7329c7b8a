"""What goes for every command: where options may stand, how failures are said, and which crib is meant."""

from __future__ import annotations

import sqlite3
import time
from pathlib import Path

import pytest

from crib.cli.app import run
from crib.cli.commands import COMMANDS, Entry
from tests.cli.conftest import Crib

BLANK = ("take-in", "--kind", "blank", "--diameter", "1/2")


@pytest.mark.parametrize(
    "words", [("--json", "find"), ("find", "--json"), ("find", "1/2", "--json"), ("find", "--json", "1/2")]
)
def test_json_may_stand_anywhere(crib: Crib, words: tuple[str, ...]) -> None:
    crib(*BLANK)
    assert len(crib(*words).json["cutters"]) == 1


def test_crib_and_units_may_stand_anywhere(crib: Crib, tmp_path: Path) -> None:
    other = str(tmp_path / "other.db")
    assert crib("--crib", other, *BLANK).status == 0
    for words in (("--crib", other, "find"), ("find", "--crib", other), ("find", f"--crib={other}")):
        assert "1/2 blank" in crib(*words).out
        assert "12.7 mm blank" in crib(*words, "--units", "mm").out
        assert "12.7 mm blank" in crib("--units=mm", *words).out


def test_units_come_from_the_environment(crib: Crib, monkeypatch: pytest.MonkeyPatch) -> None:
    crib(*BLANK)
    monkeypatch.setenv("CRIB_UNITS", "mm")
    assert "12.7 mm" in crib("find").out
    assert "12.7 mm" not in crib("find", "--units", "in").out
    monkeypatch.setenv("CRIB_UNITS", "ell")
    assert crib("find").status == 2


@pytest.mark.parametrize(
    "words",
    [
        (),
        ("fnd",),
        ("find", "--nope"),
        ("show",),
        ("show", "x"),
        ("show", "1", "2"),
        ("find", "--crib"),
        ("find", "--units", "ell"),
        ("take-in",),
        ("take-in", "--file"),
        ("take-in", "--file", "/nowhere.csv"),
        ("take-in", "x", "--kind", "drill"),
        ("find", "\udcff"),
        ("--crib", "", "find"),
    ],
)
def test_usage_errors_are_one_json_document(crib: Crib, words: tuple[str, ...]) -> None:
    done = crib("--json", *words)
    assert done.status == 2
    assert {"what", "read", "help"} <= set(done.json["error"])
    assert done.json["error"]["what"]


def test_usage_errors_are_a_sentence(crib: Crib) -> None:
    done = crib("fnd")
    assert (done.status, done.out) == (2, "")
    assert "fnd" in done.err and "find" in done.err


@pytest.mark.parametrize(("figure", "says"), [("abc", "'abc' is not a number"), ("-3", "-3.0 is too small: 0.1")])
def test_a_figure_that_is_none_is_told_in_words(crib: Crib, figure: str, says: str) -> None:
    """`'abc' is not a valid float range`, it said, and `not in the range x>=0.1`."""
    done = crib("make", "slot", "--width", "1/2", "--depth", "1/4", "--length", "2", "--patience", figure)
    assert done.status == 2 and says in done.err


def test_help_lists_every_command_and_goes_with_json(crib: Crib) -> None:
    shown = crib("--help")
    assert shown.status == 0 and all(name in shown.out for name in COMMANDS)
    assert crib().out == shown.out
    assert "Usage" in crib("find", "--help", "--json").json["help"]


def test_a_command_whose_file_is_missing_breaks_no_other(crib: Crib, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(COMMANDS, "ream", Entry("crib.cli.no_such_file:ream", "Not there"))
    assert crib("ream").status == 2
    assert crib("--help").status == 0
    assert crib(*BLANK).status == 0


@pytest.mark.parametrize(
    ("error", "status"), [(KeyboardInterrupt(), 130), (RuntimeError("boom"), 2), (OSError(28, "No space"), 2)]
)
def test_nothing_ends_in_a_traceback(
    crib: Crib, monkeypatch: pytest.MonkeyPatch, error: BaseException, status: int
) -> None:
    crib(*BLANK)

    def broken(*_: object, **__: object) -> None:
        raise error

    monkeypatch.setattr("crib.app.opening.open_crib", broken)
    done = crib("find")
    assert done.status == status and "Traceback" not in done.err
    assert crib("find", "--json").json["error"]["what"]
    if status == 2:
        assert "Traceback" in crib("find", "--debug").err


def test_a_missing_crib_says_how_to_begin(crib: Crib, place: Path) -> None:
    for words in (("find",), ("show", "1"), ("shop",), ("held-back",), ("amend", "1", "--count", "2")):
        done = crib("--json", *words)
        assert done.status == 2 and "take-in" in done.json["error"]["help"]
    assert not place.exists()


def foreign(path: Path) -> None:
    with sqlite3.connect(path) as database:
        database.execute("CREATE TABLE records (name TEXT)")


def newer(path: Path) -> None:
    run(["--crib", str(path), *BLANK])
    with sqlite3.connect(path) as database:
        database.execute("PRAGMA user_version = 999")


def cut_short(path: Path) -> None:
    run(["--crib", str(path), *BLANK])
    path.write_bytes(path.read_bytes()[:6000])


@pytest.mark.parametrize(
    ("spoil", "says"),
    [
        (foreign, "another program"),
        (newer, "newer version"),
        (cut_short, "damaged"),
        (Path.mkdir, "folder"),
        (lambda path: path.write_text("end mill, 1/2\n" * 20), "isn't a database"),
    ],
)
def test_a_crib_that_is_not_one(crib: Crib, place: Path, spoil: object, says: str) -> None:
    spoil(place)  # type: ignore[operator]
    before = place.read_bytes() if place.is_file() else b""
    for words in (("find",), BLANK):
        done = crib("--json", *words)
        assert done.status == 2 and says in done.json["error"]["what"] and done.json["error"]["help"]
    assert (place.read_bytes() if place.is_file() else b"") == before


def test_a_locked_crib(crib: Crib, place: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    crib(*BLANK)
    monkeypatch.setattr("crib.store.in_a_file.LOCK_SECONDS", 0.05)
    holder = sqlite3.connect(place, isolation_level=None)
    holder.execute("BEGIN EXCLUSIVE")
    began = time.monotonic()
    try:
        for words in (("find",), BLANK):
            done = crib("--json", *words)
            assert done.status == 2 and "locked" in done.json["error"]["what"]
        assert time.monotonic() - began < 1.5, "the patience that was set is the one that counts"
    finally:
        holder.close()


def test_signs_that_move_the_cursor_are_not_printed(crib: Crib, tmp_path: Path) -> None:
    file = tmp_path / "x.csv"
    file.write_bytes(b"kind,diameter,drawer\nblank,1/2,a\x1b[31mred\nbl\x1bank,1,\n")
    done = crib("take-in", "--file", str(file))
    assert "\x1b" not in done.out + done.err + crib("find").out + crib("held-back").out


@pytest.mark.parametrize("name", ["a b.db", "100%.db", "what?.db", "#1.db", "größe.db"])
def test_odd_file_names(crib: Crib, tmp_path: Path, name: str) -> None:
    path = tmp_path / name
    assert crib("--crib", str(path), *BLANK).status == 0
    assert path.exists() and crib("--crib", str(path), "find").status == 0
    assert [one.name for one in tmp_path.iterdir() if not one.name.startswith(".")] == [name]
