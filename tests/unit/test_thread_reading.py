"""What is typed for a thread, and what comes of it. Ways of writing are common practice, no source."""

from __future__ import annotations

import pytest

from crib.findings.errors import CribError
from crib.handbook.threads import read_thread


@pytest.mark.parametrize(("text", "meant"), [
    ("10-32", "10-32 UNF"), ("#10-32 UNF", "10-32 UNF"), ("10-32 NF", "10-32 UNF"), (".190-32", "10-32 UNF"),
    ("10 - 32", "10-32 UNF"), ("ten thirty-two", "10-32 UNF"), ("quarter twenty", "1/4-20 UNC"),
    ("1/4x20", "1/4-20 UNC"), ("1/4 20", "1/4-20 UNC"), ("0.25-20", "1/4-20 UNC"), ("1/4 UNC", "1/4-20 UNC"),
    ("1/4–20", "1/4-20 UNC"), ("4 40", "4-40 UNC"), ("six thirty two", "6-32 UNC"), ("half thirteen", "1/2-13 UNC"),
    ("three eighths sixteen", "3/8-16 UNC"), ("1-8", "1-8 UNC"), ("1 1/8-7", "1-1/8-7 UNC"), ("1-1/8-7", "1-1/8-7 UNC"),
    ("5/16-32", "5/16-32 UNEF"), ("9/16-20", "9/16-20 UN"), ("14-20", "14-20 NS"), ("1-14", "1-14 NS"),
    ("M6", "M6x1"), ("M6x1", "M6x1"), ("m6×1.0", "M6x1"), ("M 10 x 1,25", "M10x1.25"), ("M6 fine", "M6x0.75"),
    ("0BA", "0 BA"), ("BA 2", "2 BA"), ("3/8 whit", "3/8-16 BSW"), ("1/2-12 W", "1/2-12 BSW"),
    ("3/8 BSF", "3/8-20 BSF"),
    ("1/4 brass", "1/4-26 BSB"), ("1/4-40 ME", "1/4-40 ME"), ("1/8 NPT", "1/8-27 NPT"), ("1/8-27 NPT", "1/8-27 NPT"),
    ("G 1/8", "G 1/8"), ("1/4 BSP", "G 1/4"), ("old whitworth 3/8 16", "3/8-16 BSW"),
])
def test_ways_of_writing_a_thread(text: str, meant: str) -> None:
    assert read_thread(text).thread.designation == meant


def test_the_other_thread_of_a_size_is_told() -> None:
    """Size and pitch written out are the American thread; the Whitworth one of the same is named, not forgotten."""
    assert "1/4-20 BSW (55 degrees)" in read_thread("1/4-20").notes[0]
    assert read_thread("1/4-20 UNC").notes == () and read_thread("10-32").notes == ()
    assert "coarse" in read_thread("M8").notes[0] and read_thread("M8x1.25").notes == ()


@pytest.mark.parametrize(("text", "near"), [
    ("10-33", "10-32 UNF"), ("1/4-", "1/4-20 UNC"), ("M6x", "M6x1"), ("7/16-1000", "7/16-"), ("M6x0.9", "M6x1"),
    ("10/32", "10-32"), ("1/8-27", "1/8-27 NPT"), ("3/16-24", "3/16-24 BSW"), ("1/4-40", "1/4-40 ME"),
    ("3/8", "3/8-16"),
    ("#10", "10-24"), ("6x1", "0 BA"), ("quater twenty", "1/4-20 UNC"), ("3/8 whitwort", "3/8-16 BSW"),
    ("M8 fine", "M8x0.75"), ("6-32 STI", "without STI"), ("hello", "10-32"), ("", "10-32"), ("-5", "2-56"),
    ("1/0-20", "did you mean"), ("1/4-20-20", "10-32"),
])
def test_never_a_guess(text: str, near: str) -> None:
    with pytest.raises(CribError) as caught:
        read_thread(text)
    found = caught.value.finding
    assert found.id == "thread" and near in found.fix and found.read == text


def test_hand_and_class() -> None:
    one = read_thread("3/8-16 UNC-2B LH")
    assert (one.thread.designation, one.hand, one.class_name) == ("3/8-16 UNC", "left", "2B")
