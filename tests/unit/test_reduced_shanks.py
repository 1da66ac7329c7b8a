"""Shanks that are thinner than their cutters: `1/2 silver and deming 3/4 drill` was taken for a 1/2 drill. Such drills
have their name from a shank that is one size for all of them; common practice, no source."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.intake.shorthand import Line, Shop, read_line
from crib.units import nm, read

DEMING = ("silver and deming", "silver & deming", "s&d", "S & D", "Silver and Deming")
SHANKS = ("1/4", "3/8", "1/2", "5/8", "3/4")
sizes = st.integers(33, 96).map(lambda part: f"{part // 64}-{part % 64}/64" if part > 64 else f"{part}/64")


def one(line: Line) -> Cutter:
    (taken,) = line.taken
    return taken.cutter


def mm(text: str) -> float:
    return nm(read(text, "in").mm) / 1e6


@given(st.sampled_from(DEMING), sizes, st.sampled_from(SHANKS), st.sampled_from((
    "{shank} {deming} {size} drill", "{size} {deming} {shank}", "{shank} {deming} {size}", "{size} x {shank} {deming}",
    "{shank} x {size} {deming} drill", "{deming} {size} drill {shank} shank", "{shank} shank {deming} {size}",
    "{deming} drill {size}, {shank} shank", "{deming} {shank} {size}", "{size} drill {deming} {shank}")))
def test_the_smaller_of_two_sizes_is_the_shanks(deming: str, size: str, shank: str, said: str) -> None:
    """Wherever it stands, or it is asked; never the other way about in silence."""
    if "-" in size and read(size, "in").mm >= 38.2:
        return
    line = read_line(said.format(deming=deming, size=size, shank=shank), Shop())
    if line.why:
        return
    cutter = one(line)
    large, small = max(mm(size), mm(shank)), min(mm(size), mm(shank))
    if mm(size) <= mm(shank) and "shank" in said.replace("{shank}", ""):
        assert cutter.questions
    elif large == small or large > 4 * small:
        assert cutter.questions or cutter.diameter_mm == large
    else:
        assert (cutter.diameter_mm, cutter.shank_mm) == (large, small)
        assert "shank_mm" not in cutter.assumed


@given(st.sampled_from((*DEMING, "reduced shank", "turned down", "stepped shank")), sizes, st.sampled_from(SHANKS),
       st.sampled_from(("drill", "reamer", "end mill")), st.booleans())
def test_no_cutter_is_thinner_than_its_reduced_shank_in_silence(said: str, size: str, shank: str, kind: str,
                                                                is_behind: bool) -> None:
    first, second = (shank, size) if is_behind else (size, shank)
    line = read_line(f"{first} {said} {second} {kind}", Shop())
    for taken in line.taken:
        cutter = taken.cutter
        thinner = cutter.shank_mm is not None and (cutter.diameter_mm or 0.0) > cutter.shank_mm
        assert thinner or cutter.questions, line.text


@pytest.mark.parametrize(("said", "across", "shank", "asks"), [
    ("3/4 silver and deming drill", "3/4", "1/2", ""),
    ("1 s&d", "1", "1/2", ""),
    ("1-1/8 silver and deming 1/2 drill", "1-1/8", "1/2", ""),
    ("13mm s&d 20mm drill", "20mm", "13mm", ""),
    ("3/4 silver and deming 3/8 shank", "3/4", "3/8", ""),
    ("1/2 silver and deming drill", "1/2", "1/2", "or its shank's"),
    ("#7 s&d drill", "#7", "1/2", "or its shank's"),
    ("47/64 s&d 3/4", "3/4", "47/64", "is 47/64 its shank?"),
    ("5/8 turned down 3/4 drill", "3/4", "5/8", "is 5/8 its shank?"),
    ("3/4 s&d 6", "3/4", "1/2", "overall length"),
    ("1-1/2 s&d 6", "1-1/2", "1/2", "what is the 6"),
    ("3/4 end mill 1/2 reduced", "3/4", "1/2", "is 1/2 its shank?"),
])
def test_what_is_sure_and_what_is_asked(said: str, across: str, shank: str, asks: str) -> None:
    cutter = one(read_line(said, Shop()))
    number = {"#7": 5.1054}.get(across)
    assert cutter.diameter_mm == (number or mm(across)) and cutter.shank_mm == mm(shank)
    assert asks in "; ".join(cutter.questions) if asks else not cutter.questions


@pytest.mark.parametrize("said", ["2 s&d 3/4", "7 s&d drill", "20 s&d 13"])
def test_a_number_is_no_such_drill(said: str) -> None:
    """The least of them is over half an inch: a number is how many there are, or a slip."""
    assert "how many" in read_line(said, Shop()).why
    assert one(read_line("20 s&d 13", Shop(units="mm"))).diameter_mm == 20.0
