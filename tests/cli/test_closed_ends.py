"""Closed ends on the command line: the sample bench, from the typing to the status."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest

from tests.cli.conftest import Crib

T_SLOT = ("make", "t-slot", "--throat", "21/32+.002-0", "--depth", ".520", "--head-width", ".975", "--head-height",
          ".240", "--material", "grey iron", "--ends", "closed")


@pytest.fixture
def bench(begun: Callable[..., Crib]) -> Crib:
    return begun(("demo", "--into", "PLACE"))


def test_both_stops_stand_in_the_table(bench: Crib) -> None:
    """Half the cutter from each end (geometry): .499 / 2 and 4 less that; a disc of .625 at .3125."""
    done = bench(*T_SLOT, "--length", "4")
    assert done.status == 0 and ".250 - 3.750" in done.out
    told = bench(*T_SLOT, "--length", "4", "--steps").out  # their ways, where a screen has no room for them
    assert "in free room" in told and "goes on without lifting" in told
    assert "past the open end" not in done.out and "feed it in from the open end" not in done.out


@pytest.mark.parametrize("columns", ["60", "100"])
@pytest.mark.parametrize("ends", ["closed", "one"])
def test_the_page_has_a_view_from_above(
    bench: Crib, monkeypatch: pytest.MonkeyPatch, columns: str, ends: str
) -> None:
    """Behind the first screen, with the pass, the gap and the stop that the rest of the page tells."""
    monkeypatch.setenv("COLUMNS", columns)
    done = bench(*T_SLOT[:-1], ends, "--length", "4", "--steps")
    rows = done.out.splitlines()
    assert done.status == 0 and all(len(row) <= int(columns) for row in rows)
    title = next(at for at, row in enumerate(rows) if "From above" in row)
    table = next(at for at, row in enumerate(rows) if row.startswith("pass "))
    view = " ".join(" ".join(rows[title:rows.index("Step by step")]).split())
    number, stop = re.search(r"pass (\d+): stop at table (\S+),", view).groups()  # type: ignore[union-attr]
    proved = re.search(r"neck clears by (\S+) in pass (\d+)", " ".join(done.out.split()))
    assert proved and proved[2] == number and f"clears by {proved[1]}" in view.replace(" │ ", " ")
    assert stop in " ".join(rows[table:]) and "length 4.000" in view and "head 4.000" in view
    assert table < title and any("cross 0" in row for row in rows[:table]), "after the section"
    assert "From above" not in bench(*T_SLOT[:-1], ends, "--length", "4").out


def test_no_view_from_above_without_a_closed_end(bench: Crib) -> None:
    assert "From above" not in bench(*T_SLOT[:-1], "open", "--length", "4", "--all").out
    assert "From above" not in bench(*T_SLOT[:-1], "one", "--all").out, "how long it is isn't known"


def test_json_has_the_way_of_every_pass(bench: Crib) -> None:
    plan = bench(*T_SLOT, "--length", "4", "--json").json["plans"][0]
    for one in plan["passes"]:
        assert one["view"] == "cross" and one["entry"] in ("free", "plunge", "hole", "ramp", "on")
        alongs = [along for along, _ in one["path_mm"]]
        assert (one["from_mm"], one["to_mm"]) == (min(alongs), max(alongs))
        assert any(abs(across - one["x_mm"]) < 1e-6 for _, across in one["path_mm"])
        for along, dialled in zip(one["path_mm"], one["dial_path_mm"], strict=True):
            (x, y), (dial_x, dial_y) = along, dialled
            assert abs(x - dial_x) <= 0.0127 + 1e-6, "half a thou along"
            assert abs(y - dial_y) <= 0.0254 + 1e-6, "a thou across, so that the size between two walls is the nearest"
    assert plan["proof"]["left_mm"] == 0 and plan["proof"]["gouge_mm"] == 0


def test_a_drill_that_lets_a_mill_in_is_one_more_pass(bench: Crib) -> None:
    """In the view from above x runs along and y across."""
    bench("amend", "5", "--no-centre-cutting")
    for number in ("4", "18", "20", "1", "2", "3", "16"):
        bench("amend", number, "--condition", "bent")
    bench("take-in", "--kind", "drill", "--diameter", "3/16", "--angle", "180")
    plans = bench("make", "slot", "--width", "1/4", "--depth", ".240", "--length", ".450", "--ends", "closed",
                  "--json").json["plans"]
    first = plans[0]["passes"][0]
    assert (first["role"], first["view"], first["direction"]) == ("drill", "plan", "axial")
    assert [first["x_mm"], first["y_mm"]] == plans[0]["passes"][1]["path_mm"][0]


@pytest.mark.parametrize(
    "words",
    [
        ("make", "slot", "--width", "1/2", "--depth", "1/4", "--ends", "closed"),
        ("make", "slot", "--width", "1/2", "--depth", "1/4", "--ends", "closed", "--length", ".4"),
        ("make", "slot", "--width", "1/2", "--depth", "1/4", "--ends", "closed", "--length", "a lot"),
        (*T_SLOT, "--length", "4", "--head-length", "9"),
        (*T_SLOT, "--length", "4", "--head-length", ".5"),
        (*T_SLOT, "--length", "4", "--entry-hole", "1/2"),
        (*T_SLOT[:-1], "open", "--entry-hole", "3/4"),
        (*T_SLOT[:-1], "one", "--length", "4", "--head-length", "4"),
        ("make", "step", "--width", "1/2", "--depth", "1/4", "--ends", "closed", "--length", "2"),
    ],
)
def test_what_can_not_be_is_a_sentence(bench: Crib, words: tuple[str, ...]) -> None:
    done = bench(*words)
    assert done.status == 2 and done.out == "" and 1 < len(done.err.splitlines()) < 6
    assert "Traceback" not in done.err
    assert bench(*words, "--json").json["error"]["help"]


def test_a_way_says_which_of_its_legs_is_the_pass(bench: Crib) -> None:
    """The pass in a row of legs couldn't be told from how the cutter gets to where it begins, and across the end behind
    it."""
    told = bench("make", "elongated-hole", "--width", "9/32+.010-0", "--length", "3/4", "--depth", "3/8", "--steps").out
    ways = [" ".join(one.split()) for one in told.split("goes on without lifting; ")[1:]]
    assert ways and all(way.startswith("to the start, ") and "; cut " in way for way in ways)
    assert any("; then across the end, " in way for way in ways)
