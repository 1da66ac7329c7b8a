"""What waits on the disk until a list is kept is told as it would be from memory."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from crib.app import tables
from crib.app.tables import by_file
from crib.app.take_in import at_once, session_of
from crib.cli.app import run
from crib.cli.asked import Asked
from crib.cli.take_in_told import document, said, table_document
from crib.cli.told_later import ToldLater
from crib.store import open_crib

LINES = ["3/8 2 fl end mill hss", "no idea what this is", "5/8 x 3/16 woodruff, ½ shank", "", "1/4 Ø drill 4\" long"]


@pytest.mark.parametrize("many", [0, 1, len(LINES)])
def test_it_is_told_as_from_memory(tmp_path: Path, capsys: pytest.CaptureFixture[str], many: int) -> None:
    with open_crib(str(tmp_path / "crib.db"), create=True) as crib:
        came = [*at_once(session_of(crib), LINES[:many])]
    done = [one for one in came if one is not None]
    for as_json in (True, False):
        with ToldLater(Asked(json=as_json), numbered=True) as told:
            for one in (*came, None):
                told.add(one)
            told.tell()
        shown = capsys.readouterr().out
        assert shown == (json.dumps(document(done, 1), indent=2) + "\n" if as_json else
                         "".join(f"{said(one, True)}\n" for one in done))
        assert told.is_any_done == any(one.is_done for one in done)


TABLE = "Type,Dia (in),Flutes,Location\n" + "".join(
    f"{kind},{part}/64,{part % 5 + 2},A{part}\n" for part in range(20, 60)
    for kind in ("end mill", "drill", "gizmo" if part % 9 == 0 else "reamer"))


@pytest.mark.parametrize("lines", [2, 3, 30, 121])
def test_a_table_is_told_item_by_item_as_from_memory(tmp_path: Path, capsys: pytest.CaptureFixture[str], lines: int
                                                     ) -> None:
    """What came of a table that is taken in line by line is the document that is made of all of it, word for word; of
    one that came before, too, which is read as a whole."""
    file = tmp_path / "list.csv"
    file.write_text("".join(TABLE.splitlines(keepends=True)[:lines]), encoding="utf-8")
    streamed, at_once_ = (str(tmp_path / name) for name in ("streamed.db", "whole.db"))
    for _ in range(2):
        run(["--crib", streamed, "--json", "take-in", "--file", str(file)])
        shown = capsys.readouterr().out
        table = by_file(at_once_, None, file, {}, pass_over=lambda there, of: there)
        taken = [(one.line, cutter) for one, cutter in zip(table.reading.taken, table.taken, strict=True)]
        assert shown == json.dumps(table_document(taken, table.reading.held_back), indent=2) + "\n"


def test_only_what_came_of_it_in_the_end_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A list that begins with new lines and goes on with some that came before is begun anew: nothing is told twice."""
    head, *rest = TABLE.splitlines(keepends=True)
    file, where = tmp_path / "list.csv", str(tmp_path / "crib.db")
    file.write_text(head + "".join(rest[40:80]), encoding="utf-8")
    run(["--crib", where, "take-in", "--file", str(file)])
    capsys.readouterr()
    file.write_text(head + "".join(rest[:80]), encoding="utf-8")
    run(["--crib", where, "--json", "take-in", "--file", str(file)])
    told = json.loads(capsys.readouterr().out)
    assert [one["line"] for one in told["lines"]] == [
        number for number, line in enumerate(rest[:40], start=2) if "gizmo" not in line]
    assert len(told["taken_in"]) == len(told["lines"])


@pytest.mark.parametrize("lines", [2, 30, 121, 999])
@pytest.mark.parametrize("options", [["--json"], [], ["--units", "mm"]])
def test_a_table_is_checked_entry_by_entry_as_a_whole(tmp_path: Path, capsys: pytest.CaptureFixture[str],
                                                      monkeypatch: pytest.MonkeyPatch, lines: int, options: list[str]
                                                      ) -> None:
    """Before there is a crib, beside another list, and when it was taken in."""
    head, *rest = TABLE.splitlines(keepends=True)
    file, where, other = tmp_path / "list.csv", str(tmp_path / "crib.db"), tmp_path / "other.csv"
    many = rest if lines < 999 else [line.replace(",A", f",{row}") for row in range(5) for line in rest]
    file.write_text(head + "".join(many[:lines - 1]), encoding="utf-8")
    other.write_text(head + "".join(rest[3:6]), encoding="utf-8")
    for before in (None, other, file):
        if before is not None:
            run(["--crib", where, "take-in", "--file", str(before)])
        command = ["--crib", where, *options, "take-in", "--check", "--file", str(file)]
        capsys.readouterr()
        status, quick = run(command), capsys.readouterr()
        with monkeypatch.context() as whole:
            whole.setattr(tables, "checked", lambda *_: None)
            assert run(command) == status
        assert capsys.readouterr() == quick
