"""Limits that stand apart from their size read as they do behind it. Common practice, no source."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crib.features import KINDS
from crib.findings.errors import CribError
from crib.intake.questions import read_question
from crib.intake.questions.vocabulary import name_of
from crib.units import read_size

SIZES = [(kind, one.key) for kind, known in KINDS.items() for one in known.sizes
         if one.key in known.example and not one.key.startswith("floor")]
LIMITS = {"+.001 -0": "+.001 -0", "±.002": "±.002", "+.002/-.001": "+.002 -.001", "plus or minus .003": "±.003",
          "-.001 +.002": "-.001 +.002"}


@given(st.sampled_from(SIZES), st.sampled_from(sorted(LIMITS)), st.sampled_from(["on the", "on", "for the"]),
       st.sampled_from(["{limits} {on} {name}", "with a tolerance of {limits} {on} {name}", "{name} {limits}",
                        "{name} tolerance {limits}"]))
def test_limits_may_be_told_of_a_size_that_was_said(of: tuple[str, str], limits: str, on: str, said: str) -> None:
    """`slot 3/8 wide 1/4 deep +.001 -0 on the width`: the depth got it, and nothing was asked."""
    kind, key = of
    texts = {one: text.split("+")[0].split("±")[0].strip() for one, text in KINDS[kind].example.items()}
    told = ", ".join([kind, *(f"{name_of(kind, one)} {text}" for one, text in texts.items())])
    name = name_of(kind, key)
    apart = read_question(f"{told}, {said.format(limits=limits, on=on, name=name)}")
    plain = read_question(told)
    assert not plain.asks and not apart.asks, (apart.line, apart.asks)
    assert dict(apart.texts) == {**plain.texts, key: f"{plain.texts[key]} {LIMITS[limits]}"}, apart.line


@pytest.mark.parametrize(("line", "asks"), [
    ("slot 3/8+.002-0 wide 1/4 deep, +.001 -0 on the width", "width is 3/8 +.002 -0 and +.001 -0: which?"),
    ("slot 3/8 wide 1/4 deep, +.001 -0 on the length", "+.001 -0 on the length: which size is that?"),
])
def test_limits_of_nothing_or_beside_others_are_asked_about(line: str, asks: str) -> None:
    assert [str(one) for one in read_question(line).asks] == [asks]


def test_the_same_limits_may_be_on_several() -> None:
    read = read_question("pocket 2 x 1 x 1/2 deep corner radius 1/4, ±.002 on the width and on the length")
    assert (read.texts["width"], read.texts["length"], read.texts["depth"]) == ("1 ±.002", "2 ±.002", "1/2")


@pytest.mark.parametrize(("text", "both"), [(".3335 +.0005", ".3335 +.0005 -0"), ("10mm +.02mm", "10mm +.02mm -0")])
def test_the_limit_that_was_typed_stands_in_what_would_do(text: str, both: str) -> None:
    """`both: .3335 +.002 -0`, to someone who had typed +.0005."""
    with pytest.raises(CribError) as found:
        read_size(text, "in", "diameter", (0.0, 0.0))
    assert found.value.finding.fix == f"both: {both}"


@given(st.sampled_from(SIZES), st.sampled_from(sorted(LIMITS)))
def test_limits_may_stand_behind_any_name_that_follows_its_figure(of: tuple[str, str], limits: str) -> None:
    """`5/8 throat +.002 -0`: what is the .002 -0, was asked of every name but wide, deep and the like."""
    kind, key = of
    texts = {one: text.split("+")[0].split("±")[0].strip() for one, text in KINDS[kind].example.items()}
    others = ", ".join(f"{name_of(kind, one)} {text}" for one, text in texts.items() if one != key)
    line = f"{kind}, {texts[key]} {name_of(kind, key)} {limits}" + (f", {others}" if others else "")
    read, plain = read_question(line), read_question(f"{kind}, {name_of(kind, key)} {texts[key]}, {others}")
    assert not read.asks, (line, read.asks)
    assert dict(read.texts) == {**plain.texts, key: f"{plain.texts[key]} {LIMITS[limits]}"}, line


@pytest.mark.parametrize(("line", "never"), [("flats 2 opposite 3/8 across 1/2 long on 1/2 bar", "2-3/8"),
                                             ("slot 2 wobbly 3/8 deep", "2-3/8")])
def test_figures_with_a_strange_word_between_them_are_two(line: str, never: str) -> None:
    """The word was set aside, and 2 and 3/8 were read as one size, without a word of it."""
    assert never not in read_question(line).texts.values()
