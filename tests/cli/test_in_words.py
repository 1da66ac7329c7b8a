"""Questions in words on a command line: the same answers, with what was read of them."""

from __future__ import annotations

import json
import os
import sys
from pathlib import Path

import pexpect
import pytest

import crib as door
from crib.handbook.not_here import SPECIALS, special
from tests.cli.conftest import Crib

LEAD = "t-slot 5/8 throat .52 deep head .975 x .240 grey iron"
AS_OPTIONS = ("t-slot", "--throat", "5/8", "--depth", ".52", "--head-width", ".975", "--head-height", ".240",
              "--material", "grey iron")


pytestmark = pytest.mark.usefixtures("bench")


@pytest.mark.parametrize(("said", "options"), [
    (LEAD, AS_OPTIONS),
    ("1/4 x 1/8 keyseat in a 1 in shaft, 1018",
     ("keyseat", "--width", "1/4", "--depth", "1/8", "--shaft", "1in", "--material", "1018"))])
def test_words_get_the_answer_of_the_options(crib: Crib, said: str, options: tuple[str, ...]) -> None:
    worded, optioned = crib("make", said, "--json").json, crib("make", *options, "--json").json
    read = worded.pop("read")
    assert read == {name[2:].replace("-", "_"): text for name, text in zip(options[1::2], options[2::2], strict=True)}
    assert {key: worded[key] for key in optioned} == optioned


def test_what_was_read_comes_first_and_may_be_typed_again(crib: Crib) -> None:
    shown = crib("what makes a 3/8 slot 1/4 dpeth in brass, prettily")
    assert shown.status == 0
    lines = shown.out.splitlines()
    assert lines[0] == "Read      slot, width 3/8, depth 1/4, material brass"
    assert "dpeth read as depth" in lines[1] and "prettily" in lines[2]
    again = crib("make", lines[0].removeprefix("Read").strip())
    assert again.out.splitlines()[0] == lines[0]


@pytest.mark.parametrize("slip", ["alumnium", "alumminum", "alumnum"])
def test_a_slip_that_is_as_near_to_two_ways_to_write_one_metal_is_that_metal(crib: Crib, slip: str) -> None:
    """Alumnium is as near to aluminum as to aluminium: it was left aside for being two things, and the slot was planned
    in mild steel."""
    assert crib("make", f"3/8 slot 1/4 deep in {slip}", "--json").json["read"]["material"] in ("aluminum", "aluminium")


def test_options_go_beside_words_and_words_need_no_quotes(crib: Crib) -> None:
    assert crib("make", "3/8", "slot", "in", "brass", "--depth", "1/4", "--json").json["read"] == {
        "width": "3/8", "material": "brass"}
    assert crib("make", "slot", "3/8", "wide", "--depth=1/4").status == 0
    assert crib("make", "--why", "3/8 slot 1/4 deep in brass").status == 0
    twice = crib("make", "3/8 slot 1/4 deep", "--depth", "1/2")
    assert twice.status == 2 and "--depth" in twice.err
    assert crib("make", "3/8 slot 1/4 deep", "--help").status == 0


def test_what_is_missing_is_named_with_a_line_that_would_do(crib: Crib) -> None:
    done = crib("make", "3/8 slot in brass")
    assert done.status == 2 and "its depth (from the surface to the floor)" in done.err
    line = done.err.split('crib make "')[1].split('"')[0]
    assert crib("make", line).status == 0
    error = crib("make", "3/8 slot in brass", "--json")
    assert error.status == 2 and "depth" in error.json["error"]["what"]


@pytest.mark.parametrize(("said", "why"), [
    ("3/8 slot 1/4 deep and a hole", "two kinds are named"),
    ("5 6 7", "nothing to be made is named"),
    ("end mill 3/8 4 flute", "an end mill is a cutter"),
    (" \t ", "nothing is asked"),
    ("slot 3/8 wide 1/4 deep with a 5/16 end mill", "what is the 5/16?"),
    ("slot 3/0 wide 1/4 deep", "divides by zero"),
    ("5/8 hole, 2 deep, +.001 -0", "which size is +.001 -0 the tolerance of?"),
    ("hole 5/8 dia, plus or minus .002", "which size is ±.002 the tolerance of?"),
    ("slot 99999 wide 1/4 deep", "longer than any mill"),
    ("slot 3/8 wide 1/4 deep in unobtainium", "material 'unobtainium' is not known"),
    ("make me a birdhouse", "one of slot, t-slot"),
    ("x" * 500 + " slot", "too long")])
def test_nonsense_is_told_and_never_guessed(crib: Crib, said: str, why: str) -> None:
    done = crib("make", said)
    assert why in done.err and done.status == 2


def test_a_word_that_is_no_command_is_still_looked_up(crib: Crib) -> None:
    assert "did you mean" in crib("mak").err
    assert "crib now" in crib("scrap", "slot", "12").err
    assert "did you mean" in crib("make", "slto").err or crib("make", "slto").status == 2


def test_a_point_alone_is_asked_about_in_a_shop_of_millimetres(crib: Crib) -> None:
    """`.375` in a crib of millimetres was read as a third of a millimetre."""
    done = crib("--units", "mm", "make", "slot .375 wide .25 deep")
    assert done.status == 2 and "in inches or mm?" in done.err
    assert crib("--units", "mm", "make", "slot .375in wide 6 deep").status == 0


def test_a_bare_size_beside_millimetres_is_asked_about(crib: Crib) -> None:
    """`12mm wide 6 deep` in a crib of inches was six inches deep; where both are likely it is asked."""
    done = crib("make", "slot 12mm wide 1 deep in brass")
    assert done.status == 2 and "is the depth 1 in mm, as others are, or in inches?" in done.err
    assert crib("make", "slot 12mm wide 1/4 deep in brass").status == 0


@pytest.mark.parametrize(("said", "read"), [
    ("slot 12mm wide 6 deep in brass", "depth 6mm"), ("tapped hole M6x1 12 deep", "depth 12mm"),
    ("pocket 40 x 60 mm 8 deep with 6 mm corners in 6061", "depth 8mm"),
    ("keyway for a 20 mm shaft 40 long", "length 40mm")])
def test_a_bare_size_that_could_hardly_be_inches_is_of_what_stands_beside_it(crib: Crib, said: str, read: str) -> None:
    """A pocket 40 x 60 mm isn't 8 inches deep: it was asked. What it was taken for stands on the first line."""
    done = crib("make", said)
    assert done.status in (0, 1) and read in done.out.splitlines()[0]


@pytest.mark.parametrize(("said", "asks"), [
    ("slot 6 mm wide 8 mm deep 4 long", "the length 4"), ("keyway 6 mm wide 3 mm deep in a 1 shaft", "the shaft 1"),
    ("slot 40 mm wide 2 deep", "the depth 2"), ("slot 6 mm wide 3 mm deep 16 long", "the length 16")])
def test_where_inches_are_likely_too_it_is_asked(crib: Crib, said: str, asks: str) -> None:
    """A slot 6 mm wide may well run along 4 or 16 inches, and its work be an inch across."""
    done = crib("make", said)
    assert done.status == 2 and f"is {asks} in mm, as others are, or in inches?" in done.err


def test_a_bare_size_beside_a_metric_thread_is_asked_about(crib: Crib) -> None:
    """In a shop of inches 12 beside M6x1 was a foot deep, and the answer that no drill is so long."""
    done = crib("make", "tapped hole M20x2.5 2 deep")
    assert done.status == 2 and "is the depth 2 in mm, as M20x2.5 is, or in inches?" in done.err
    assert "is the depth" not in crib("make", "tapped hole M6x1 1/2 deep").err
    assert "is the depth" not in crib("make", "tapped hole M6x1 12mm deep").err


def test_worth_is_asked_in_words_too(crib: Crib) -> None:
    assert crib("worth", "3/8 slot 1/4 deep in brass", "--json").json["read"]["width"] == "3/8"


def test_work_that_is_referred_is_heard_in_any_words(crib: Crib) -> None:
    """What a part is for may stand anywhere in a question; it isn't lost because no pattern finds it."""
    for said in ("slot 3/8 wide 1/4 deep for a crane hook", "crane hook: slot 3/8 wide 1/4 deep"):
        assert crib("make", said, "--json").json["answer"] == "refer", said


def test_programs_ask_in_words(bench: Path) -> None:
    with door.open_crib(str(bench)) as crib:
        answer = door.ask(crib, LEAD)
        assert answer.as_json()["read"]["head_width"] == ".975"
        with pytest.raises(door.CribError, match="lacks its depth"):
            door.ask(crib, "3/8 slot")
        assert door.ask(crib, "3/8 slot", depth="1/4").answer == "as drawn"


def test_what_is_missing_is_asked_on_a_terminal(bench: Path) -> None:
    env = {**os.environ, "CRIB_DB": str(bench), "NO_COLOR": "1", "COLUMNS": "100"}
    child = pexpect.spawn(sys.executable, ["-m", "crib", "make", "keyway in grey iron"], env=env, encoding="utf-8",
                          timeout=30)
    child.expect("width .*such as")
    child.sendline("wobbly")
    child.expect("isn't read as its width")
    child.expect("width .*such as")
    child.sendline("1/4")
    child.expect("depth .*such as")
    child.sendline("1/8")
    child.expect("Read +keyseat, width 1/4, depth 1/8, material grey iron")
    child.expect(pexpect.EOF)
    child.close()
    assert child.exitstatus == 0


def test_what_a_size_is_is_asked_on_a_terminal(place: Path) -> None:
    """A question with one size that could be several things was refused, and the whole line wanted again."""
    child = pexpect.spawn(sys.executable, ["-m", "crib", "make", "pocket 1 x 2 x 1/2 deep, 3/16"],
                          env={**os.environ, "CRIB_DB": str(place)}, encoding="utf-8", timeout=30)
    child.expect("what is the 3/16.*: ")
    child.sendline("wobbly")
    child.expect("isn't read as what 3/16 is")
    child.expect("what is the 3/16.*: ")
    child.sendline("corner radius")
    child.expect("Read +pocket, width 1, length 2, depth 1/2, corner radius 3/16")
    child.expect(pexpect.EOF)


def test_a_question_in_words_is_remembered_as_its_options(crib: Crib) -> None:
    crib("make", "3/8 slot 1/4 deep in brass")
    asked = crib("asked", "--json").json["questions"][0]
    assert asked["kind"] == "slot" and asked["texts"] == {"width": "3/8", "depth": "1/4", "material": "brass"}
    assert json.dumps(asked)


def test_an_interference_that_may_be_none_is_line_to_line(crib: Crib) -> None:
    """H7/p6 may end in nothing at all: it read ".0000 tight" (ISO 286, 10 to 18 mm: H7 +18, 0; p6 +29, +18)."""
    page = crib("make", "slot", "--fit", "press", "--to", "worn .618 .6195 .617", "--depth", "1/4", "--material",
                "brass").out
    assert "tight to line to line" in page


NOT_CUT = ("old brake lining", "cadmium plate", "hard chromed rod", "nickel plated bar", "galvanised strip", "anodised",
           "an unknown casting", "inconel", "tungsten", "chilled iron", "tungsten carbide", "oak", "carbon fibre",
           "granite", "graphite", "beryllium", "rubber", "uranium")


@pytest.mark.parametrize("name", NOT_CUT)
def test_what_is_no_metal_for_a_bench_is_asked_about_in_words_as_with_the_option(crib: Crib, name: str) -> None:
    """Words that name what isn't cut, or has no figures, were set aside as not used, and a slot in asbestos was planned
    for as mild steel. Common practice, no source."""
    said = crib("make", f"3/8 slot 1/4 deep in {name}")
    assert said.status == 2 and "Answer" not in said.out and "material" in said.err
    assert crib("make", "slot", "--width", "3/8", "--depth", "1/4", "--material", name.removeprefix("an ")).status == 2


@pytest.mark.parametrize("said", ["deep in unobtainium", "deep in weird stuff, 3 long", "deep from a chunk of zorpium",
                                  "deep out of old shafting", "deep, made of gizmoid, for a cover"])
def test_a_metal_on_no_list_is_asked_about(crib: Crib, said: str) -> None:
    """It was set aside as a word that isn't used, and a slot in unobtainium planned for as mild steel; with --material
    it was refused. Common practice, no source."""
    answer = crib("make", f"3/8 slot 1/4 {said}")
    assert answer.status == 2 and "Answer" not in answer.out
    assert "is not known" in answer.err and "mild steel is planned for" in answer.err


@pytest.mark.parametrize("said", ["in passes", "in a hurry", "in the fixture", "in situ"])
def test_what_is_no_metal_is_set_aside(crib: Crib, said: str) -> None:
    assert crib("make", f"3/8 slot 1/4 deep {said}").status == 0


def test_each_that_has_an_answer_of_its_own_is_tried() -> None:
    assert {special(name.removeprefix("an ")) for name in NOT_CUT} == set(SPECIALS)


@pytest.mark.parametrize("said", ["in brass clamped on wood", "in the grey iron casting", "in nickel silver"])
def test_a_metal_that_is_named_is_not_asked_about_for_what_stands_beside_it(crib: Crib, said: str) -> None:
    assert crib("make", f"3/8 slot 1/4 deep {said}").status == 0
