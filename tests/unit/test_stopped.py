"""Ctrl-C in worth, wish-list and to-mic: what was found by then is the answer, at once, and no more is asked."""

from __future__ import annotations

import os
import signal
import time
from collections.abc import Callable
from typing import Any

import pytest

from crib.buying import bench as reckoned
from crib.buying import wishes, worth
from crib.buying.bench import Bench
from crib.buying.decide import Terms
from crib.cli import progress
from crib.findings.verdicts import Verdict
from crib.pages.wish_page import wish_page
from crib.planning import to_mic as asking
from crib.planning.measures import Pending, ToMic
from crib.planning.search.watch import Trials
from crib.planning.to_mic import to_mic
from tests.golden.test_worth_pages import DAY, bench, history
from tests.shown import shown
from tests.spelt import spelt

AT_ONCE = 0.3
"""Seconds between Ctrl-C and the end."""


def interrupt() -> None:
    os.kill(os.getpid(), signal.SIGINT)


def interrupted(number: int, work: Callable[..., Any]) -> Callable[..., Any]:
    """The same work, interrupted where it is done for so many times."""
    times = [0]

    def work_or_stop(*given: Any, **named: Any) -> Any:
        times[0] += 1
        if times[0] == number:
            interrupt()
            pytest.fail("it went on")
        return work(*given, **named)

    return work_or_stop


@pytest.mark.usefixtures("ctrl_c")
def test_a_row_of_trials_ends_with_what_was_found(capsys: pytest.CaptureFixture[str]) -> None:
    """All that had been tried was lost: to-mic, wish-list and worth said "stopped" and no more."""
    with progress.trials("in", True) as row:
        assert row.each(range(5), str, interrupted(3, lambda item: item)) == [0, 1]
    assert row.stopped and "2 of 5 were tried" in capsys.readouterr().err
    assert signal.getsignal(signal.SIGINT) is signal.default_int_handler


@pytest.mark.usefixtures("ctrl_c")
def test_it_ends_in_the_midst_of_a_trial() -> None:
    """It ended after the question that was being tried: two seconds later, and with some questions fourteen."""
    def work(seconds: float) -> float:
        began = time.perf_counter()
        while time.perf_counter() - began < seconds:
            pass
        return seconds

    signal.signal(signal.SIGALRM, lambda *_: interrupt())
    signal.setitimer(signal.ITIMER_REAL, 0.05)
    began, row = time.perf_counter(), Trials(keeps=True)
    assert row.each((0.0, 20.0), str, work) == [0.0]
    assert row.stopped and time.perf_counter() - began < 0.05 + AT_ONCE


@pytest.mark.usefixtures("ctrl_c")
@pytest.mark.parametrize(("keeps", "number"), [(True, 1), (False, 3)])
def test_it_ends_everything_where_nothing_was_tried_yet_or_nobody_keeps_it(keeps: bool, number: int) -> None:
    with pytest.raises(KeyboardInterrupt):
        Trials(keeps).each(range(5), str, interrupted(number, str))


def test_whoever_ignores_ctrl_c_goes_on_ignoring_it() -> None:
    """A command behind `nohup`, or begun in the background by a script, isn't to be ended by it."""
    before = signal.signal(signal.SIGINT, signal.SIG_IGN)
    try:
        with progress.trials("in", True) as row:
            assert row.each(range(3), str, lambda item: (interrupt(), item)[1]) == [0, 1, 2]
        assert not row.stopped
    finally:
        signal.signal(signal.SIGINT, before)


@pytest.mark.usefixtures("ctrl_c")
def test_a_wish_list_is_of_the_questions_that_were_tried(monkeypatch: pytest.MonkeyPatch) -> None:
    there = bench()
    asked, row = history(there.shop), Trials(keeps=True)
    first = wishes.wish_list(bench(), asked[:1], None, DAY)
    monkeypatch.setattr(wishes, "_uses", interrupted(2, wishes._uses))
    found = wishes.wish_list(there, asked, None, DAY, row)
    assert row.stopped and found.asked == asked[:1] and row.of == len(asked)
    mine = {(wish.label, round(wish.saves, 9), wish.unlocks) for wish in first.wishes}
    assert mine == {(wish.label, round(wish.saves, 9), wish.unlocks) for wish in found.wishes}


@pytest.mark.usefixtures("ctrl_c")
def test_what_is_worth_buying_is_told_by_what_was_tried(monkeypatch: pytest.MonkeyPatch) -> None:
    """What would turn it and what was asked before would take as long again: neither is told."""
    there = bench()
    asked, row = history(there.shop), Trials(keeps=True)
    whole = worth.reckon(asked[0].request, bench(), Terms(4.0, said=True), asked, DAY)
    monkeypatch.setattr(Bench, "best", interrupted(6, Bench.best))  # what is owned, and four of what could be got
    found = worth.reckon(asked[0].request, there, Terms(4.0, said=True), asked, DAY, trials=row)
    assert row.stopped and row.tried == 4 and found.work == whole.work
    assert "only 4 of" in spelt(found.remark) and "only" not in spelt(whole.remark)
    assert not found.flips and not found.served
    plans = {one.offer.label: one.plan for one in whole.worths}
    assert found.worths and all(plans.get(one.offer.label) == one.plan for one in found.worths)


@pytest.mark.usefixtures("ctrl_c")
@pytest.mark.parametrize(("name", "number"), [("sets", 3), ("needed", 1), ("fix", 1)])
def test_what_to_measure_is_told_by_what_was_tried(name: str, number: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """While questions are tried the others are dropped; while it is looked for which size turns one, and where, all
    that isn't known of a cutter is to be measured."""
    there = bench()
    asked = [Pending(one.number, one.request) for one in history(there.shop)]
    whole, row = to_mic(asked, there.cutters, there.shop), Trials(keeps=True)
    monkeypatch.setattr(asking._Tried, name, interrupted(number, getattr(asking._Tried, name)))
    found = to_mic(asked, there.cutters, there.shop, trials=row)
    assert row.stopped and row.tried == (2 if name == "sets" else len(asked))
    if name != "sets":
        assert (found.turned, found.could_turn) == (whole.turned, whole.could_turn)
    is_as_sure(found, whole)


def is_as_sure(found: ToMic, whole: ToMic) -> None:
    """What is told of a question that turns is what the whole answer has, or less of it."""
    known = {(one.cutter.id, turn.number): (one, turn) for one in whole.measures for turn in one.turns}
    for one in found.measures:
        for turn in one.turns:
            if (one.cutter.id, turn.number) not in known:
                continue
            measure, other = known[one.cutter.id, turn.number]
            assert set(measure.asks) <= set(one.asks)
            assert (turn.now, turn.then, turn.beside, turn.instead) == (
                other.now, other.then, other.beside, other.instead)
            assert turn.at in (other.at, ()) and turn.fix in (other.fix, None) and turn.now != Verdict.CANNOT


@pytest.mark.usefixtures("ctrl_c")
def test_a_program_that_asks_is_ended(monkeypatch: pytest.MonkeyPatch) -> None:
    """Who hands in nobody that waits has no use for half an answer."""
    there = bench()
    asked = [Pending(one.number, one.request) for one in history(there.shop)]
    monkeypatch.setattr(asking._Tried, "sets", interrupted(2, asking._Tried.sets))
    with pytest.raises(KeyboardInterrupt):
        to_mic(asked, there.cutters, there.shop)


def test_what_takes_too_long_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    """What could be got and took too long to try was passed over without a word, as if it did nothing."""
    there, hasty = bench(), bench()
    asked = history(there.shop)
    whole = worth.reckon(asked[0].request, there, Terms(4.0, said=True), asked, DAY), wishes.wish_list(
        bench(), asked[:1], None, DAY)
    monkeypatch.setattr(reckoned, "PATIENCE", -1.0)
    found = worth.reckon(asked[0].request, hasty, Terms(4.0, said=True), asked, DAY)
    assert "not everything was tried" in spelt(found.remark) and "not everything" not in spelt(whole[0].remark)
    some = wishes.wish_list(hasty, asked[:1], None, DAY)
    assert some.in_part and not whole[1].in_part
    assert "Not everything was tried" in shown(wish_page(some, hasty.shop, None))[-1]
