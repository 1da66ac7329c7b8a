"""Whether a draft is forbidden, asked of those rules alone that may forbid one: the same as asked of all of them."""

from __future__ import annotations

from random import Random

from hypothesis import event, given, note, settings
from hypothesis import strategies as st

from crib.findings.errors import CribError
from crib.findings.finding import Grade
from crib.machining.draft import Draft
from crib.planning.advise import jobs_for
from crib.planning.ask import read_request, texts_of
from crib.rules import beside, is_stopped, judge
from crib.rules.beside import KEEP_OFF
from crib.shop import Shop
from tests.benchmarks.any_question import RELAX, any_question
from tests.property.test_spots import ALONG, CRIB


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(("t-slot", "slot", "keyseat", *ALONG)), st.integers(0, 10**6), st.integers(5, 40))
def test_those_that_may_forbid_tell_what_all_tell(kind: str, seed: int, many: int) -> None:
    """Of what any cutter does from solid, good or bad, and another after it, with what the owner overrules; and what
    stands beside the work is as near as it is told of every pass."""
    random = Random(seed)
    words = [one for one in any_question(random, kind) if one != RELAX]
    if "--wall" not in words:
        words += ["--wall", f"{random.uniform(0.2, 2):.3f}@{random.uniform(1, 3):.3f}"]
    if random.random() < 0.3:
        words += ["--overrule", "SP1 it runs well here"]
    note(" ".join(words))
    request = read_request(kind, texts_of(words[1:]), Shop(), "in")
    states = ("sharp", "dull", "unknown", "chipped")
    cutters = [one.but(condition=random.choice(states), hand=random.choice(("right", "right", "left")),
                       material=random.choice(("hss", "carbide", "carbon-steel"))) for one in random.sample(CRIB, many)]
    try:
        every = jobs_for(request, cutters, Shop())
    except CribError:
        return  # the wall stands over it
    for jobs in every:
        begun = [Draft(jobs.question)]
        for draft in begun:
            for tool in random.sample(list(jobs.tools), min(12, len(jobs.tools))):
                for choice in jobs.of(tool, draft.removed):
                    held_to_all(draft.then(*choice))
                    if not draft.jobs and len(begun) < 3:
                        begun.append(draft.then(*choice))


def held_to_all(draft: Draft) -> None:
    """What is told of a draft by some rules or places, held to all."""
    found = judge(draft)
    stops = any(one.grade == Grade.STOP for one in found)
    event(f"forbidden: {stops}")
    assert is_stopped(draft) == stops
    if obstacles := draft.question.outline.obstacles:
        near = min((beside._nearest(job.tool.form, obstacles, cut.x, cut.z)[0] for job, cut in draft.passes()
                    if cut.room), default=KEEP_OFF)
        event(f"something near: {near < KEEP_OFF}")
        assert any(one.id == "WA1" for one in found) == (near < KEEP_OFF)
