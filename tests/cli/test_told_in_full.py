"""What notes say of themselves, and that money is compared like with like."""

from __future__ import annotations

from itertools import combinations
from pathlib import Path

import pytest

from crib.app.remembered import bench_of, history_of
from crib.buying import wishes
from crib.buying.bench import Extra
from crib.store import open_crib
from tests.cli.conftest import Crib

SLOT = ("slot", "--width", "9/16+.002-0", "--depth", "3/8", "--length", "4", "--material", "mild steel")


@pytest.fixture
def bench(crib: Crib) -> Crib:
    """One end mill that makes the slot in more passes."""
    crib("take-in", "--kind", "end-mill", "--diameter", "1/2", "--flutes", "4", "--shank", "1/2",
         "--length-of-cut", "1", "--condition", "sharp", "--material", "hss", "--measured", "diameter")
    crib("shop", "--collets", "1/2")
    return crib


def test_an_undone_result_says_what_it_was(bench: Crib) -> None:
    """The undoing of a time said `note 5: 20`: twenty of what?"""
    minutes = bench("make", *SLOT, "--json").json["plans"][0]["minutes"]
    bench("result", "time", f"{minutes:.0f}")
    assert f"took {minutes:.0f} min, reckoned {minutes:.0f}" in bench("history").out
    assert f"took {minutes:.0f} min" in bench("undo").out
    bench("price", "48+9", "3/8 end mill")
    assert "3/8 end mill at 48.00 + 9.00" in bench("undo").out
    bench("friends", "add", "Ann", "9/16 end mill")
    assert "Ann would lend 9/16 end mill" in bench("undo").out


def test_minutes_that_cannot_be_the_jobs_are_not_the_pace(bench: Crib) -> None:
    """A twentieth of the reckoned minutes was taken as the shop's pace without a question."""
    bench("make", *SLOT)
    done = bench("result", "time", "1", "--json")
    assert done.status == 2 and "can't be the same job" in done.json["error"]["what"]
    assert bench("result", "--json").json["results"] == []


@pytest.mark.parametrize("words", [("price", "0", "3/8 end mill"), ("price", "--drop", "0"),
                                   ("price", "0+0", "3/8 drill")])
def test_no_price_is_none(bench: Crib, words: tuple[str, ...]) -> None:
    """A price of nothing was noted, and the price with the number 0 dropped without a word."""
    done = bench("--json", *words)
    assert done.status == 2 and done.json["error"]["help"]


def test_a_friends_cutter_is_told_of_with_the_answer(bench: Crib) -> None:
    """`make` spoke of buying alone, though a friend's cutter had been noted; and the list left out its shank."""
    bench("friends", "add", "Ann", "9/16 2fl end mill hss 1/2 shank loc 1-1/8 sharp")
    assert "1/2 shank" in bench("friends").out
    bench("shop", "--borrow-minutes", "1")
    buy = bench("make", *SLOT, "--json").json["buy"]
    assert buy["advice"] == "borrow" and buy["says"].startswith("Ann's 9/16")
    assert "Borrowing: Ann's 9/16" in bench("make", *SLOT, "--others").out
    assert "--others (borrowing)" in bench("make", *SLOT).out


def test_price_and_what_it_pays_up_to_both_hold_the_shipping(bench: Crib) -> None:
    """One column held the shipping and the other didn't: 57.00 stood beside 31.90, though 40.90 was meant."""
    words = ("worth", *SLOT, "--price", "4+3", "--uses", "20")
    found = bench(*words, "--json").json
    label, up_to = found["what"], found["break_even_price"] + found["shipping"]
    page = bench(*words).out
    [row] = [line for line in page.splitlines() if line.startswith(f"  {label} ") and " buy " in line]
    assert row.split()[-1] == f"{up_to:.2f}" and " 7.00 " in row
    assert "of the price a use" in " ".join(page.split()) and "3.00 shipping" in " ".join(page.split())


def test_what_makes_it_together_is_found_as_by_trying_every_two(bench: Crib, place: Path) -> None:
    """Every two purchases were tried one after the other, for minutes where none of them makes it."""
    bench("amend", "1", "--count", "0")
    bench("make", "t-slot", "--throat", "9/16", "--depth", ".7", "--head-width", "7/8", "--head-height", "1/4",
          "--length", "6", "--material", "grey iron")
    with open_crib(str(place)) as crib:
        on, history = bench_of(crib.holdings(), crib.shop()), history_of(crib.questions(), crib.shop())
    [past] = history
    among = wishes._among(on, [past])[:9]
    tried = {frozenset(pair) for pair in combinations(range(len(among)), 2) if on.best(
        past.request, Extra(among[pair[0]].offer, (*among[pair[0]].cutters, *among[pair[1]].cutters)))}
    assert tried and set(wishes._making(on, past, among, frozenset(range(len(among))))) == tried
