"""Who is told beforehand to meet a closed end with what is over his teeth does, as the proof has it, which knows
nothing of where ends are aimed."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

import pytest
from hypothesis import given, note, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.geometry.prove import prove
from crib.machining.draft import Draft
from crib.machining.ends import fit, in_every_frame, opened
from crib.machining.methods.cuts import Job
from crib.machining.tool import Tool
from crib.planning.advise import jobs_for
from crib.planning.ask import read_request
from crib.planning.search.jobs import Jobs
from crib.shop import Shop
from tests.strategies import any_of

INCH = 25.4


@st.composite
def asked(draw: st.DrawFn) -> Jobs:
    """A closed slot, or an elongated hole, through or not, of a mill as wide as it is and of a narrower one, whose
    teeth may be shorter than it is deep, on shanks and necks of their own."""
    wide, deep = draw(any_of(0.25, 0.3, 0.5)), draw(any_of(0.2, 0.4, 0.8))
    kind = draw(any_of("slot", "elongated-hole"))
    over = draw(any_of(0.0, 0.018, 0.018, 0.018))
    texts = {"width": f"{wide}+{over + 0.002:.3f}-0", "depth": f"{deep}"}
    texts["length"] = f"{wide * draw(any_of(1.3, 2.5)):.4f}"
    texts |= {"ends": "closed"} if kind == "slot" else {"through": draw(any_of("yes", "no"))}
    mills = []
    for number, size in enumerate(((wide + over) * INCH, wide * draw(any_of(0.9, 0.7)) * INCH), 1):
        long, neck = deep * draw(any_of(1.3, 0.9, 0.9, 0.7)) * INCH, draw(any_of(None, None, None, 0.7))
        mills.append(Cutter(
            number, "end-mill", diameter_mm=size, flutes=2, centre_cutting=True, length_of_cut_mm=long,
            shank_mm=size * draw(any_of(1.0, 1.0, 1.0, 1.1, 0.8)), corner_radius_mm=0.0, neck_mm=neck and neck * size,
            reach_mm=neck and long + deep * INCH / 2, material="hss", condition=draw(any_of("sharp", "dull")),
            measured=("diameter_mm",)))
    return jobs_for(read_request(kind, texts, Shop(), "in"), mills, Shop())[0]


def drafts(jobs: Jobs) -> Iterator[tuple[Draft, Job]]:
    """What comes of each of them first, and after the other, and its job."""
    [room] = jobs.question.outline.rooms

    def grown(before: Draft, tool: Tool) -> Iterator[tuple[Draft, Job]]:
        for job in jobs.clear(tool, room, before.removed):
            yield from ((draft, job) for draft in fit.with_courses(before, (job,)))

    for tool in jobs.tools:
        for draft, job in grown(Draft(jobs.question), tool):
            yield draft, job
            for other in jobs.tools:
                yield from grown(draft, other) if other is not tool else ()


def test_who_is_told_to_meet_an_end_does(monkeypatch: pytest.MonkeyPatch) -> None:
    told: Counter[str] = Counter()
    rubs = opened.rubs

    def is_told(jobs: Jobs, job: Job) -> bool:
        layers, [room] = jobs.question.layers, jobs.question.outline.rooms
        assert layers
        ends = layers.ends[room.name]
        stops = opened.stops_of(job, ends, layers.top)
        return stops is not None and rubs(job, stops, ends, layers)

    @settings(max_examples=250)
    @given(asked())
    def hold(jobs: Jobs) -> None:
        for draft, job in drafts(jobs):
            trace = prove(*in_every_frame(draft))
            met = trace.plan is not None and any(not stage.is_clear for stage in trace.plan.stages)
            is_it, is_through = is_told(jobs, job), "through" in jobs.question.feature.request.said
            note(f"{jobs.question.feature.request} {job} told {is_it} met {met}")
            assert met or not is_it
            told[f"{is_it}, {met}{', through' * is_through}"] += 1

    monkeypatch.setattr(opened, "rubs", lambda *_: False)
    hold()
    assert {"True, True", "True, True, through", "False, False", "False, False, through"} <= {*told}, told
