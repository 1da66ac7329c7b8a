"""How often a shared crib's server is asked: it may be far away. Counted by the server itself, in its log."""

from __future__ import annotations

import random
import re
from collections.abc import Callable
from pathlib import Path
from urllib.parse import parse_qs, urlsplit

import pytest

from crib.cli.app import run
from crib.cutters.base import Cutter
from crib.intake.shorthand import Shop
from crib.intake.talk.session import Session
from crib.store import Crib, HeldBack, open_crib

Counted = Callable[[Callable[[], object]], list[str]]


@pytest.fixture
def logged(shared: str, server: str) -> tuple[str, Path]:
    """The URL of an empty place whose statements the server logs, and the log."""
    log = Path(parse_qs(urlsplit(server).query).get("host", ["/"])[0]) / "log"
    if not log.is_file():
        pytest.skip("the log of a server that is named can't be read")
    return f"{shared}%20-clog_statement%3Dall", log


def statements(log: Path, do: Callable[[], object]) -> list[str]:
    """What the server was asked meanwhile."""
    before = log.stat().st_size
    do()
    with log.open("rb") as file:
        file.seek(before)
        return re.findall(r"LOG:  (?:statement|execute [^:]*): (.*)", file.read().decode())


def lines(count: int, seed: int = 1) -> list[str]:
    """Lines of a list: cutters, and one in seven that can't be read."""
    said = random.Random(seed)
    return ["404" if said.randrange(7) == 0 else
            f"{number % 31 + 1}/64 end mill {number % 4 + 2} flutes drawer B{number}"
            for number in range(count)]


def test_a_list_of_a_thousand_lines_takes_a_few_dozen_statements(logged: tuple[str, Path], tmp_path: Path) -> None:
    """It took four statements for each line and more."""
    where, log = logged
    run(["--crib", where, "take-in", "1/2 drill"])
    file = tmp_path / "list.txt"
    file.write_text("\n".join(lines(1000)))
    asked = statements(log, lambda: run(["--crib", where, "take-in", "--file", str(file)]))
    assert 4 < len(asked) <= 30, len(asked)
    table = tmp_path / "table.csv"
    table.write_text("kind,diameter,drawer\n" + "".join(
        f"{'drill' if number % 9 else 'dril?'},.{number % 400 + 100},C{number}\n" for number in range(1000)))
    asked = statements(log, lambda: run(["--crib", where, "take-in", "--file", str(table)]))
    assert 4 < len(asked) <= 30, len(asked)
    with open_crib(where) as crib:
        drawers = [cutter.drawer for cutter in crib.cutters()]
        assert len(drawers) + len(crib.held_back()) == 2001
        assert drawers == sorted(drawers, key=lambda one: (one or "A")[0] + (one or "A0")[1:].rjust(5))


def _taken_in(crib: Crib, together: bool) -> list[object]:
    """Lines that speak of one another among them, and whatever else is done to a crib."""
    session = Session(crib, Shop("in", "USD"), joins=True)
    with crib.gathering() if together else crib.transaction():
        for number, line in enumerate([*lines(40), "another 3/8", "that's .374 actually", "undo", "1/4 drill", "undo",
                                       "kind of thing", "1/2 end mill", *lines(9, 2)], start=1):
            session.say(line, number)
        first = crib.cutters()[0]
        crib.amend(first.but(drawer="Z1"))
        gone = crib.take_back(crib.cutters()[3].id)
        crib.put_back(gone, None, {}, crib.last_change())
        [held] = crib.hold_back([HeldBack(1, "odd", "why", "help")])
        crib.put_right(held)
        crib.hold_back([HeldBack(1, "odd", "why", "help", id=held, at="2026-01-01T00:00:00+00:00")])
        crib.take_in([Cutter(0, "drill", diameter_mm=number / 10) for number in range(1, 9)])
    kept = [one.as_json() for one in (*crib.changes(), *crib.held_back())]
    return [crib.cutters(), re.sub(r"'20\d\d-[^']*'", "then", repr(kept)),
            [crib.typed(one.id) for one in crib.cutters()], session.tally()]


def test_rows_that_are_written_together_are_those_written_one_by_one(tmp_path: Path, shared: str) -> None:
    """Each number is told before its row is written; whatever reads finds every row that was added before."""
    with open_crib(str(tmp_path / "one.db"), create=True) as crib:
        expected = _taken_in(crib, False)
    for where in (str(tmp_path / "many.db"), shared):
        with open_crib(where, create=True) as crib:
            assert _taken_in(crib, True) == expected


@pytest.mark.parametrize("place", ["file", "server"])
def test_a_list_that_fails_leaves_nothing_and_the_next_goes_on(
    place: str, tmp_path: Path, request: pytest.FixtureRequest
) -> None:
    where = str(tmp_path / "crib.db") if place == "file" else request.getfixturevalue("shared")
    with open_crib(where, create=True) as crib:
        crib.take_in([Cutter(0, "drill", diameter_mm=5.0)])
        with pytest.raises(RuntimeError), crib.gathering():
            crib.take_in([Cutter(0, "drill", diameter_mm=number / 10) for number in range(1, 1500)])
            raise RuntimeError
        assert len(crib.cutters()) == len(crib.changes()) == 1
        with crib.gathering():
            taken = crib.take_in([Cutter(0, "drill", diameter_mm=number / 10) for number in range(1, 1500)])
        assert crib.cutters()[1:] == taken and [one.id for one in taken] == sorted(one.id for one in taken)
        assert [one.subject for one in crib.changes()[1:]] == [f"cutter {one.id}" for one in taken]


def test_a_question_takes_two_statements_and_one_to_remember_it(logged: tuple[str, Path]) -> None:
    """The settings and notes were read twice, everything by itself, and the tables looked up on another line."""
    where, log = logged
    with open_crib(where, create=True) as crib:
        crib.take_in([Cutter(0, "end-mill", diameter_mm=12.7, flutes=2, centre_cutting=True, length_of_cut_mm=25.4,
                             reach_mm=30.0, shank_mm=12.7)])
    slot = ("--crib", where, "make", "slot", "--width", "1/2", "--depth", ".25", "--length", "2")
    for times in (1, 2):
        asked = statements(log, lambda: run(slot))
        assert [one.split()[0] for one in asked] == ["SELECT", "SELECT", "WITH"], asked
        with open_crib(where) as crib:
            [question] = crib.questions()
            assert (question.times, question.change) == (times, crib.last_change())
            numbers = [one.id for one in crib.questions()]
    run((*slot[:-1], "3"))
    with open_crib(where) as crib:
        assert [one.id for one in crib.questions()] == [2, *numbers] == [2, 1]
