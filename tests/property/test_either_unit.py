"""What is answered once is read in inches and in millimetres, every kind of feature by itself: it is worded twice and
planned once."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import fields, is_dataclass
from typing import Any

import pytest
from hypothesis import Phase, given, note, settings
from hypothesis import strategies as st

from crib.features import KINDS
from crib.findings.finding import Finding
from crib.findings.message import InWords, Measure, Message, Mm, Reading
from crib.light.records import replace
from crib.pages.sheet import sheet
from crib.planning import advise as planner
from crib.render.json.answer import advice_json
from crib.render.json.findings import facts
from crib.render.terminal.lines import lines
from crib.render.words import words
from crib.shop import Shop
from tests.kind_strategies import questions
from tests.strategies import brief

INCH = 25.4
SPELT_IN_INCHES = re.compile(r"(?<![\w.,/])[-+]?\.\d{3,}|\d\"|(?<!-)\b(?:inches|in/min|lb ft|in-lb|hp)\b")
"""Three-decimal inches have no nought before the point, millimetres have one; and units that only inches go with."""


def found_in(value: Any, kind: type) -> Iterator[Any]:
    """Everything of a class in an answer, however deep."""
    if isinstance(value, kind):
        yield value
    if isinstance(value, Message):
        yield from (found for _, fact in value.facts for found in found_in(fact, kind))
    elif is_dataclass(value) and not isinstance(value, type):
        yield from (found for field in fields(value) for found in found_in(getattr(value, field.name), kind))
    elif isinstance(value, Sequence) and not isinstance(value, str):
        yield from (found for inner in value for found in found_in(inner, kind))


@pytest.mark.parametrize("kind", KINDS)
def test_one_answer_is_read_in_both_units(kind: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """No size of the question stands on the metric page in inches; the inch page and `--json` are made of the same
    answer while nothing may be planned; each length is the same length in both."""

    @settings(max_examples=8, phases=(Phase.explicit, Phase.generate))
    @given(st.data())
    def read_twice(data: st.DataObject) -> None:
        request, named, _ = data.draw(questions(kind))
        cutters = tuple(one.but(label=f"cutter {one.id}") for one in named)
        shop = Shop(units="mm", edge_finder_mm=10.0, paper_mm=0.1, screw_lead_mm=5.0, knee_lead_mm=2.5)
        note(brief(request, cutters, shop))
        answered = planner.advise(replace(request, units="mm"), cutters, shop)
        with monkeypatch.context() as closed:
            closed.setattr(planner, "advise", None)
            closed.setattr(planner, "proved_plans", None)
            blocks = sheet(answered, None, shop)
            metric, inch = ("\n".join(lines(blocks, units, 100, True, True)) for units in ("mm", "in"))
            documents = [advice_json(answered.advice, units, "all") for units in ("mm", "in")]
        said = [line for line in metric.split("\n") if not line.startswith("Asked:")]
        assert not [line for line in said if SPELT_IN_INCHES.search(line)], "the question stands as it was typed"
        assert not [said for said in _sentences(documents[0]) if SPELT_IN_INCHES.search(said)]
        assert SPELT_IN_INCHES.search(inch) or not answered.advice.plans, "it is found where it stands"
        _the_same_lengths(answered.advice)

    read_twice()


def _sentences(value: Any) -> Iterator[str]:
    """Every text in a document."""
    if isinstance(value, dict):
        yield from (said for inner in value.values() for said in _sentences(inner))
    elif isinstance(value, list):
        yield from (said for inner in value for said in _sentences(inner))
    elif isinstance(value, str):
        yield value


def _the_same_lengths(advice: Any) -> None:
    """Each length in a sentence is in it as the millimetres that it is, and in inches as 25.4 of them each; each fact
    of a finding is the value that its sentence was made of."""
    for message in found_in(advice, Message):
        said = words(message, "mm")
        for _, fact in message.facts:
            if isinstance(fact, Mm | Measure | Reading):
                shown = words(fact, "mm")
                assert shown in said
                assert float(shown) == pytest.approx(fact.mm, abs=0.5 * 10 ** -len(shown.partition(".")[2]) + 1e-6)
                assert float(words(fact, "in")) * INCH == pytest.approx(fact.mm, abs=0.0005 * INCH + 1e-6)
            if isinstance(fact, InWords):
                assert float(words(fact, "mm").removesuffix(" mm")) == pytest.approx(fact.mm, abs=0.00051)
    for found in found_in(advice, Finding):
        told = facts(found)
        for name, fact in found.says.facts if isinstance(found.says, Message) else ():
            if isinstance(fact, Mm | Measure | Reading | InWords):
                assert told[f"{name}_mm"] == pytest.approx(fact.mm, abs=1e-9)
