"""Whatever is asked of whatever crib: no pass along the work is made where nothing stands, and none takes metal wider
than it is told to. Common practice, no source; the metal is measured on what the proof cuts away."""

from __future__ import annotations

from collections import Counter
from functools import cache
from random import Random

from hypothesis import given, note, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.features import KINDS
from crib.findings.errors import CribError
from crib.machining.methods.cuts import Cut
from crib.planning.advise import advise
from crib.planning.ask import read_request, texts_of
from crib.planning.dialled.finish import Proved
from crib.planning.search.watch import Watch
from crib.shop import Shop
from tests.benchmarks.any_question import RELAX, any_question
from tests.benchmarks.cribs import crib
from tests.benchmarks.questions import sample

ROUND_ENDS_MM = 0.26
"""The ridge that a corner's radius left beside, or what a wall's last pass is left, is taken with the next pass."""

LEANS = ("corner-round", "chamfer", "bevel", "v-groove", "dovetail", "dovetail-slide")
"""Along what leans the width of a cut isn't what goes across."""


@cache
def cribs() -> tuple[tuple[Cutter, ...], ...]:
    return tuple(sample()[0]), tuple(crib(300)[:120])


def cuts_of(proved: Proved) -> list[tuple[Cut, int]]:
    """Each pass that is seen in the section, and how wide metal stood in its way."""
    cuts = [cut for _, cut in proved.draft.passes() if not cut.course]
    return list(zip(cuts, (stage.met.width for stage in proved.trace.elevation.stages), strict=True))


@settings(max_examples=120)
@given(st.sampled_from(sorted(kind for kind in KINDS if kind != "pocket")), st.integers(0, 10**6), st.integers(0, 1))
def every_pass_cuts(kind: str, seed: int, which: int) -> None:
    words = [word for word in any_question(Random(seed), kind) if word != RELAX]
    note(" ".join(words))
    try:
        found = advise(read_request(kind, texts_of(words[1:]), Shop(), "in"), cribs()[which], Shop(),
                       watch=Watch(patience=5))
    except CribError:
        return
    for proved in found.proved[:2]:
        draft = proved.draft
        if draft.is_round or draft.question.layers:
            continue
        looked[kind] += 1
        for cut, width in cuts_of(proved):
            assert width > 0, cut
            assert kind in LEANS or width <= cut.radial + ROUND_ENDS_MM * 1e6, cut


looked: Counter[str] = Counter()


def test_every_pass_cuts_what_it_is_told() -> None:
    """Of a tilted groove's strips a third went through air, of a cove's settings two in three; and a small ball that
    made a cove in solid metal was told to take a tenth of what it did."""
    looked.clear()
    every_pass_cuts()
    assert len(looked) > 6, looked
