"""Boring heads that lie in a drawer, and what a bored hole is worth buying for."""

from __future__ import annotations

import pytest

from tests.cli.conftest import Crib

BORE = ("hole", "--diameter", "1.25+.001-0", "--depth", "1", "--finish", "bored", "--through")
BAR, DRILL = "3/8 boring bar min hole 7/16 shank 1/2", "31/64 drill"


def _flat(text: str) -> str:
    return " ".join(text.split())


@pytest.mark.parametrize(("owned", "heads", "bought"), [
    ((DRILL,), "1/2:7/16:4", "the 3/8 boring bar, holes from 7/16 would"),
    ((BAR,), "1/2:7/16:4", "the 31/64 drill would"),
    ((), "1/2:7/16:4", "the 3/8 boring bar (holes from 7/16) and 31/64 drill would"),
    ((DRILL, BAR), None, "2\" boring head, 1/2 bore would"),
    ((), None, "the 3/8 boring bar (holes from 7/16), 31/64 drill and 2\" boring head (1/2 bore) would")])
def test_what_a_bore_lacks_is_offered(crib: Crib, owned: tuple[str, ...], heads: str | None, bought: str) -> None:
    """One bar was proposed, .75 thick on a 1/2 shank, and no drill that makes the hole it goes into: nothing was found
    to buy. A bar is as thick as its shank at the most, and goes into a hole that a chuck drill makes; without a head it
    bores nothing. Common practice, no source."""
    crib("take-in", "3/8 end mill 4 flutes 3/8 shank", *owned, "--yes")
    if heads:
        crib("shop", "--boring-heads", heads)
    assert bought in _flat(crib("worth", *BORE).out)


def test_a_bore_in_millimetres_wants_millimetres(crib: Crib) -> None:
    """An inch bar for a head that takes 12 mm. Common practice, no source."""
    crib("take-in", "10 mm end mill 4 flutes 10 mm shank")
    crib("shop", "--units", "mm", "--boring-heads", "12mm:10mm:100mm")
    told = _flat(crib("worth", "hole", "--diameter", "30H7", "--depth", "20", "--finish", "bored").out)
    assert "the 10 mm boring bar (holes from 11.5 mm) and 12.5 mm drill would" in told and "right cutter for" in told


def test_a_head_in_a_drawer_is_asked_about(crib: Crib) -> None:
    """`the crib has none`: it lay in a drawer, and only the shop didn't know what it takes. Common practice, no
    source."""
    crib("take-in", BAR, DRILL, "2 inch boring head", "--yes")
    told = _flat(crib("make", *BORE).out)
    assert "measure first" in told and "has none" not in told
    assert "no. 3, 2\" boring head, is in a drawer, and the shop's settings don't say what it takes" in told
    assert "Say it by crib shop --boring-heads BAR:FROM:TO: the shank of its bars, here 1/2" in told
    crib("amend", "3", "--bore", "1/2")
    assert "right cutter for the job" in crib("make", *BORE).out


def test_a_head_that_the_shop_leaves_out_is_named(crib: Crib) -> None:
    """The shop has one for 3/4 bars on record, and the one for 1/2 bars that was taken in later. Common practice, no
    source."""
    crib("take-in", BAR, DRILL, "2 in boring head for 1/2 bars", "--yes")
    crib("shop", "--boring-heads", "3/4:1:6")
    told = _flat(crib("make", *BORE).out)
    assert "no. 3, 2\" boring head, 1/2 bore, is in a drawer" in told


@pytest.mark.parametrize("words", ["2 in boring head for 1/2 bars", "2\" boring head, takes 1/2 in bars",
                                   "2 in boring head that holds .500 bars", "2 in boring head 1/2 bars"])
def test_what_a_head_takes_is_read(crib: Crib, words: str) -> None:
    """`noted "for 1/2"; not used: bars`. Common practice, no source."""
    taken = crib("take-in", words)
    assert "bore" in taken.out and "not used" not in taken.out and "noted" not in taken.out


def test_a_head_without_its_bars_is_asked(crib: Crib) -> None:
    """It was taken in as if it were known. Common practice, no source."""
    assert "measure the hole that its bars go into" in crib("take-in", "2 in boring head").out
