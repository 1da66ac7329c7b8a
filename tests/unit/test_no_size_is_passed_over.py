"""Of no size of any kind that is to be held to two tenths of a thou a plan says nothing: how it comes about is told, or
that it doesn't. Common practice, no source: no manual mill holds that without a word."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from crib.features import KINDS, draw
from crib.findings.errors import CribError
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.shop import from_json
from tests.benchmarks.questions import sample
from tests.sheets import OWNED, SHOP

BENCH = replace(from_json(SHOP), dro=True, rotary_turns=40)

NOT_MADE = {("counterbore", "hole"), ("spotface", "hole"), ("countersink", "hole"), ("hole-chamfer", "hole"),
            ("facing", "width"), ("flats", "stock"), ("internal-groove", "bore"), ("bore-keyseat", "bore"),
            ("bore-keyseat", "hub"), ("gib-screw-holes", "gib"), ("gib-screw-holes", "nut"),
            ("gib-screw-holes", "height"), ("keyseat", "shaft"), ("woodruff", "shaft")}
"""What is there before, or goes with it."""

BY_TURNS = {("tapped-hole", "depth")}
"""How deep a thread is full is told by the turns of a screw."""

BY_ITS_DISC = {("woodruff", "diameter")}
"""A seat is as round as its disc, whose size is on record or asked for."""

TELLS = {"G12", "TO1", "TH1", "BC2", "IG1"}


def sized() -> list[tuple[str, str]]:
    return [(name, one.key) for name, kind in KINDS.items() for one in kind.sizes
            if one.key in kind.example and (name, one.key) not in NOT_MADE | BY_TURNS | BY_ITS_DISC]


@pytest.mark.parametrize(("kind", "key"), sized())
def test_no_size_is_passed_over(kind: str, key: str) -> None:
    """The depth of a T-slot, the width of a bevel or of a V, all of a groove round a bore: right as drawn to whatever
    limits."""
    texts = dict(KINDS[kind].example)
    texts[key] = re.split(r"(?<=\d)\+|(?<=\d)-(?=\.)", texts[key])[0] + "+.0001-.0001"
    if "length" not in texts:
        texts["length"] = "3"
    try:
        request = read_request(kind, texts, BENCH, "in")
        draw(request)
    except CribError:
        texts.pop("length")
        request = read_request(kind, texts, BENCH, "in")
    for cutters in (OWNED, sample()[0]):
        for found in advise(request, cutters, BENCH).advice.plans:
            assert found.deviations or {one.id for one in found.warnings} & TELLS
