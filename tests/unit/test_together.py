"""Several at once on one crib, in a file and on a server: nothing lost, nothing twice, and told in our words."""

from __future__ import annotations

import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

import pytest

from crib.cli.app import run
from crib.cutters.base import Cutter
from crib.findings.errors import CribError
from crib.intake.attributes import ATTRIBUTES
from crib.intake.shorthand import Shop
from crib.intake.talk.put_right import put_right
from crib.intake.talk.session import Session
from crib.intake.undo import undo
from crib.store import HeldBack, begin, family, open_crib, remote
from tests.server import Server, binaries, with_schema
from tests.trials.common import RAW
from tests.trials.together import begun, once, trial

DRILL = Cutter(0, "drill", diameter_mm=5.1054)


@pytest.fixture(params=["file", "server"])
def where(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    """The name of a crib with one drill in it."""
    name = str(tmp_path / "crib.db") if request.param == "file" else request.getfixturevalue("shared")
    with open_crib(name, create=True) as crib:
        crib.take_in([DRILL])
    return str(name)


def test_nothing_is_lost_and_every_before_is_the_former_after(where: str) -> None:
    """At READ COMMITTED, reading and writing back the whole row lost changes and recorded what had never been."""
    found = trial(where, 4, 8)
    assert (found["lost"], found["doubled"], found["wrong before"], found["raw words"]) == (0, 0, 0, 0)
    assert found["done"] > 8


def test_what_was_changed_meanwhile_is_told_and_not_written_over(where: str) -> None:
    with open_crib(where) as ana, open_crib(where) as bob:
        theirs = bob.cutter(1)
        ana.amend(ana.cutter(1).but(drawer="A1", reach_mm=25.4))
        ana.amend(ana.cutter(1).but(drawer="B3"))
        with pytest.raises(CribError, match=r"no\. 1 was changed by .* a moment ago: ") as caught:
            bob.amend(theirs.but(note="long one", shank_mm=12.7))
        assert "drawer not known -> B3" in str(caught.value) and "reach not known -> 1" in str(caught.value)
        assert str(caught.value).endswith("yours again?")
        assert caught.value.finding.fix == "crib amend 1 --shank 1/2 --note 'long one'"
        assert "--shank" in {one.option for one in ATTRIBUTES.values()}
        bob.amend(bob.cutter(1).but(note="long one"))
        assert (ana.cutter(1).drawer, ana.cutter(1).note) == ("B3", "long one")


def test_who_changes_it_is_alone_and_others_wait_no_longer_than_they_would(where: str) -> None:
    with open_crib(where) as ana, open_crib(where, patience=0.2) as bob:
        with ana.transaction(), pytest.raises(CribError) as caught:
            bob.set_shop({"dro": False})
        assert caught.value.finding.id == "locked"
        bob.set_shop({"dro": False})


def test_one_undoing_of_two_at_once_is_told_that_it_is_done(where: str) -> None:
    with open_crib(where) as ana, open_crib(where) as bob:
        [line] = ana.hold_back([HeldBack(1, "odd", "why", "help")])
        number = ana.last_change()
        undo(ana, number)
        with pytest.raises(CribError, match="was undone by change"):
            undo(bob, number)
        assert line not in [one.id for one in bob.held_back()]


def test_the_prompts_undo_leaves_what_others_changed(where: str) -> None:
    """It put back its own stale copy over what others had said since, and took back whole cutters."""
    with open_crib(where) as ana, open_crib(where) as bob:
        session = Session(ana, Shop("in", "USD"))
        [drill] = session.say("1/4 drill").taken
        bob.amend(bob.cutter(drill.id).but(drawer="B2"))
        assert session.say("undo").says.startswith("not taken back")
        assert ana.cutter(drill.id).drawer == "B2"
        undo(bob)
        assert session.say("undo").says == "taken back: 1/4 drill"
        [mill] = session.say("1/2 end mill").taken
        was = ana.typed(mill.id)
        session.say("that's .498 actually")
        session.say("undo")
        assert (ana.cutter(mill.id), ana.typed(mill.id)) == (mill, was)


def test_a_line_that_was_not_kept_leaves_the_session_as_it_was(where: str, monkeypatch: pytest.MonkeyPatch) -> None:
    with open_crib(where) as ana, open_crib(where, patience=0.2) as bob:
        session = Session(bob, Shop("in", "USD"))
        with ana.transaction(), pytest.raises(CribError, match=r"in use by another program|being changed"):
            session.say("1/4 drill")
        assert session.tally() == (0, 0)
        run = bob._database.run
        with monkeypatch.context() as patch, pytest.raises(CribError, match="no room"):
            patch.setattr(bob._database, "run",
                          lambda sql, values=None: _full() if sql == "COMMIT" else run(sql, values))
            session.say("1/4 drill")
        assert session.say("undo").says == "nothing was said yet that could be taken back" and not session.taken
        assert session.say("1/4 drill").is_done and session.tally() == (1, 0)


def _full() -> list[tuple[object, ...]]:
    raise CribError("no-room", "there is no room", "", "make some")


@pytest.mark.parametrize("kind", ["file", "server"])
def test_what_is_done_once_is_done_once_by_many(kind: str, tmp_path: Path, request: pytest.FixtureRequest) -> None:
    """Of those who began a file at once some moved away the journal of one who was quicker, and were told of a disk
    error; on a server they read the server's own words."""
    where = str(tmp_path / "crib.db") if kind == "file" else request.getfixturevalue("shared")
    found = begun(where, 4)
    assert found == {"done": 4, "told": 0, "lost": 0, "doubled": 0, "raw words": 0}
    assert once(where, "put-right", 4) == {"done": 1, "told": 3, "lost": 0, "doubled": 0, "raw words": 0}
    assert once(where, "undo", 4)["doubled"] == 0


def _looker(shared: str, server: str) -> str:
    """The crib's URL for one who was given the right to look and no more, as the README gives it."""
    import psycopg

    schema = shared.rpartition("%3D")[2]
    with psycopg.connect(server.replace("+psycopg", ""), autocommit=True) as owner:
        owner.execute("DO $$ BEGIN CREATE ROLE looker LOGIN; EXCEPTION WHEN duplicate_object THEN NULL; END $$")
        owner.execute(f"GRANT USAGE ON SCHEMA {schema} TO looker")  # type: ignore[call-overload]
        owner.execute(f"GRANT SELECT ON ALL TABLES IN SCHEMA {schema} TO looker")  # type: ignore[call-overload]
    return shared.replace("//crib@", "//looker@")


def test_one_who_may_only_look_asks_and_is_refused_in_words(
    shared: str, server: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    monkeypatch.setenv("CRIB_DB", shared)
    assert run(["take-in", "1/2 end mill 2 flute centre cutting 1 loc 1/2 shank drawer B2"]) == 0
    assert run(["take-in", "404"]) == 1
    monkeypatch.setenv("CRIB_DB", _looker(shared, server))
    slot = ["make", "slot", "--width", "1/2", "--depth", "1/4", "--length", "2"]
    for words in (["find", "end", "mill"], ["show", "1"], ["history"], ["shop"], ["held-back"], slot):
        capsys.readouterr()
        assert run(words) == 0, words
        said = capsys.readouterr()
        assert said.out and (("won't be remembered" in said.err) == (words is slot)), (words, said.err)
    long = tmp_path / "list.txt"
    long.write_text("1/4 drill\n" * 60)
    for words in (["take-in", "1/4 drill"], ["take-in", "--file", str(long)], ["amend", "1", "--drawer", "B3"],
                  ["now", "1", "dull"], ["shop", "--dro", "no"], ["undo"],
                  ["held-back", "put-right", "1", "1/4 drill"]):
        capsys.readouterr()
        assert run(words) == 2, words
        said = capsys.readouterr().err
        assert "may only be looked at by you" in said and not any(raw in said for raw in RAW), (words, said)
    monkeypatch.setenv("CRIB_DB", shared)
    with open_crib(None) as crib:
        assert (len(crib.cutters()), len(crib.changes()), crib.questions()) == (1, 2, [])


def test_one_who_may_write_needs_no_more_rights_than_the_readme_says(
    shared: str, server: str, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    import psycopg

    monkeypatch.setenv("CRIB_DB", shared)
    assert run(["take-in", "1/2 end mill 2 flute centre cutting 1 loc 1/2 shank"]) == 0
    schema = shared.rpartition("%3D")[2]
    with psycopg.connect(server.replace("+psycopg", ""), autocommit=True) as owner:
        owner.execute("DO $$ BEGIN CREATE ROLE hand LOGIN; EXCEPTION WHEN duplicate_object THEN NULL; END $$")
        for right in (f"USAGE ON SCHEMA {schema}", f"SELECT, INSERT, UPDATE, DELETE ON ALL TABLES IN SCHEMA {schema}",
                      f"USAGE, SELECT ON ALL SEQUENCES IN SCHEMA {schema}"):
            owner.execute(f"GRANT {right} TO hand")  # type: ignore[call-overload]
    monkeypatch.setenv("CRIB_DB", shared.replace("//crib@", "//hand@"))
    long = tmp_path / "list.txt"
    long.write_text("1/4 drill\n" * 60)
    assert run(["take-in", "404"]) == 1
    for words in (["take-in", "--file", str(long)], ["amend", "1", "--drawer", "B3"],
                  ["held-back", "put-right", "1", "1/4 drill"], ["shop", "--dro", "no"], ["undo"],
                  ["make", "slot", "--width", "1/2", "--depth", "1/4", "--length", "2"]):
        assert run(words) == 0, words
    with open_crib(None) as crib:
        assert (len(crib.cutters()), len(crib.questions()), crib.held_back()) == (62, 1, [])


def test_one_who_may_only_look_looks_and_is_told(shared: str, server: str) -> None:
    with open_crib(shared, create=True) as crib:
        crib.take_in([DRILL])
    with open_crib(_looker(shared, server)) as crib:
        assert [one.id for one in crib.cutters()] == [1]
        with pytest.raises(CribError, match="may only be looked at by you"):
            crib.take_in([DRILL])


@pytest.fixture
def own() -> Iterator[Server]:
    """A server that may be stopped and killed."""
    programs = binaries()
    if programs is None:
        pytest.skip("no server's programs at hand")
    one = Server(programs)
    yield one
    one.stop()


def test_a_server_that_stops_or_dies_is_told_in_our_words(own: Server, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(remote, "ANSWER_SECONDS", 0.5)
    where = with_schema(own.url)
    with open_crib(where, create=True) as crib:
        crib.take_in([DRILL])
        own.halt(signal.SIGSTOP)
        try:
            with pytest.raises(CribError, match="went away or doesn't answer"):
                crib.take_in([DRILL])
        finally:
            own.halt(signal.SIGCONT)
        with pytest.raises(CribError) as caught, crib.transaction():
            crib.take_in([DRILL])
            own.halt(signal.SIGKILL)
            time.sleep(0.3)
            crib.take_in([DRILL])
        assert "sqlalche" not in str(caught.value.finding)
        own.again()
        assert len(crib.take_in([DRILL])) == 1 and len(crib.cutters()) == 2


_WRITES = """
import sqlite3, sys
database = sqlite3.connect(sys.argv[1], isolation_level=None)
database.execute("PRAGMA cache_size = 1")
database.execute("BEGIN IMMEDIATE")
for number in range(300):
    database.execute("INSERT INTO note (at, who, kind, words, about) VALUES ('', '', 'time', ?, '{}')", ("x" * 3000,))
print("writing", flush=True)
sys.stdin.readline()
"""


def test_the_journal_of_one_who_is_writing_is_left_alone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Whoever began a crib that another had just begun moved the other's journal away under them; whoever opened one
    could, where it was judged while it was being written. A journal just begun failed with a raw word."""
    path = tmp_path / "crib.db"
    with open_crib(str(path), create=True) as crib:
        crib.take_in([DRILL])
    journal = path.with_name("crib.db-journal")
    with subprocess.Popen([sys.executable, "-c", _WRITES, str(path)], stdin=subprocess.PIPE,
                          stdout=subprocess.PIPE) as writer:
        assert writer.stdout is not None and writer.stdout.readline() == b"writing\n"
        was = journal.stat().st_ino
        with monkeypatch.context() as patch:
            patch.setattr(family, "_is_of", lambda *_: False)  # the worst that could be made of it
            with suppress(CribError), open_crib(str(path), patience=0.1) as crib:
                crib.cutters()
        begin.make(str(path), ours=False)  # as one who found no crib a moment ago
        assert journal.stat().st_ino == was and not list(tmp_path.glob("*left-over*"))
        writer.kill()
    with open_crib(str(path)) as crib:
        assert len(crib.cutters()) == 1 and crib.notes("time") == []
    assert not list(tmp_path.glob("*left-over*"))
    writer = subprocess.Popen([sys.executable, "-c", _WRITES, str(path)], stdin=subprocess.PIPE, stdout=subprocess.PIPE)
    assert writer.stdout is not None and writer.stdout.readline()
    writer.kill()
    writer.wait()
    journal.write_bytes(journal.read_bytes()[:20])
    family.settle_journal(path)


def test_a_line_is_put_right_once(where: str) -> None:
    """Of six who put the same line right at once two made a cutter of it; at the prompt one did too."""
    with open_crib(where) as ana, open_crib(where) as bob:
        ana.hold_back([HeldBack(1, "404", "why", "help")])
        [hers], [his] = ana.held_back(), bob.held_back()
        _, [mill] = put_right(ana, hers, "404 woodruff", {}, "in", "USD")
        with pytest.raises(CribError, match=f"line 1 was put right by .* a moment ago: it became no. {mill.id}"):
            put_right(bob, his, "404 woodruff", {}, "in", "USD")
        assert len(bob.cutters()) == 2
        session = Session(bob, Shop("in", "USD"), joins=True)
        held = session.say("1/2 thing").held
        assert held is not None
        put_right(ana, held, "1/2 drill", {}, "in", "USD")
        session.say("end mill")
        assert [one.kind for one in bob.cutters()] == ["drill", "keyseat-cutter", "drill"]
