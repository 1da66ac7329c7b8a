"""Whoever waits for a search sees what it is at, and keeps what it found when it is stopped."""

from __future__ import annotations

import io
import os
import signal
import sys
import threading
import time
from collections.abc import Iterator
from functools import partial
from itertools import count
from typing import Any

import pytest

from crib.cli import progress
from crib.cutters.base import Cutter
from crib.features.request import Request
from crib.planning import advise as planner_of_all
from crib.planning import best_plans as planner
from crib.planning import relax as changes
from crib.planning.advise import advise
from crib.planning.relax import changed_to, relax
from crib.planning.search import watch as watching
from crib.planning.search.watch import OutOfPatience, Watch
from crib.units import as_basic
from tests.spelt import spelt
from tests.unit.test_closed_ends import SHOP, mill
from tests.unit.test_one_closed_end import SLOT

CUTTERS = tuple(mill(number, 0.25 + number / 16, 0.5) for number in range(1, 4))


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


def test_an_interrupted_search_keeps_what_it_found(monkeypatch: pytest.MonkeyPatch) -> None:
    """Ctrl-C lost every plan that was proved by then; it comes as a KeyboardInterrupt in the midst of the search."""
    whole = advise(SLOT, CUTTERS, SHOP).advice.plans
    assert len(whole) > 1
    distinct = planner.distinct

    def interrupted(*given: Any) -> Iterator[Any]:
        yield next(distinct(*given))
        raise KeyboardInterrupt

    monkeypatch.setattr(planner, "distinct", interrupted)
    watch = Watch()
    cut_short = advise(SLOT, CUTTERS, SHOP, watch=watch).advice
    assert watch.stopped and watch.found == 1 and watch.tried > 0
    assert cut_short.plans == whole[:1] and cut_short.answer == whole[0].answer
    with pytest.raises(KeyboardInterrupt):
        advise(SLOT, CUTTERS, SHOP)


def test_a_search_that_takes_too_long_says_that_not_everything_was_tried() -> None:
    """Some questions ran for minutes; what was found by then is told for what it is, and never as `nothing can`."""
    whole = advise(SLOT, CUTTERS, SHOP, watch=Watch(patience=60)).advice
    assert whole.plans and not whole.in_part
    watch = Watch(patience=-1)
    cut_short = advise(SLOT, CUTTERS, SHOP, watch=watch).advice
    assert watch.ran_out and watch.tried <= 1 and cut_short.in_part and not cut_short.plans
    assert "not everything" in spelt(cut_short.says)


def test_the_clock_is_read_only_once_so_much_may_be_over(monkeypatch: pytest.MonkeyPatch) -> None:
    """The processor's own time is dear to read, and it was read for every draft: no more of it goes by than on the
    wall, so that before so much has gone by there nothing can be over."""
    wall, own, reads = [100.0], [7.0], list[float]()

    def read() -> float:
        reads.append(own[0])
        return own[0]

    monkeypatch.setattr(watching, "perf_counter", lambda: wall[0])
    monkeypatch.setattr(watching, "thread_time", read)
    watch = Watch(patience=2.0)
    for _ in range(1000):
        watch.step()
    assert len(reads) <= 2
    wall[0], own[0] = 102.5, 8.0  # others had the machine meanwhile
    watch.step()
    wall[0], own[0] = 103.4, 8.9
    watch.step()
    wall[0], own[0] = 103.6, 9.1
    with pytest.raises(OutOfPatience):
        watch.step()
    assert len(reads) <= 4
    Watch().step()


def test_whether_measuring_could_help_does_not_hang_on_the_clock(monkeypatch: pytest.MonkeyPatch) -> None:
    """On a machine that stood still for a moment, be it to look for rubbish, nothing could be made out and the owner
    was told to measure first; on the next one that nothing will do."""
    unknown = Cutter(1, "t-slot-cutter", nominal_mm=3.92, face_mm=2.9, neck_mm=0.8, reach_mm=5.32, shank_mm=12.7,
                     flutes=8, condition="sharp", reground=True)
    slot = Request("t-slot", {"throat": as_basic(4.06), "depth": as_basic(4.28), "head_width": as_basic(6.92),
                              "head_height": as_basic(2.9)}, "mild steel")
    there = advise(slot, (unknown,), SHOP).advice
    monkeypatch.setattr(watching, "perf_counter", partial(next, count(0.0, 100.0)))
    monkeypatch.setattr(watching, "thread_time", partial(next, count(0.0, 100.0)))
    assert there.answer == "cannot" and advise(slot, (unknown,), SHOP).advice.answer == there.answer
    monkeypatch.setattr(planner_of_all, "A_LOOK", -1)
    assert advise(slot, (unknown,), SHOP).advice.answer == "measure first"


def test_what_others_ask_meanwhile_is_not_counted() -> None:
    """The bench page answers several at once in one process: each has its own patience, whatever the others take."""
    watch = Watch(patience=0.1)

    def busy() -> None:
        began = time.thread_time()
        while time.thread_time() - began < 0.15:
            pass

    other = threading.Thread(target=busy)
    other.start()
    other.join()
    watch.check()
    busy()
    with pytest.raises(OutOfPatience):
        watch.check()


@pytest.mark.parametrize(("terminal", "wanted", "long"), [
    (True, True, True), (True, False, True), (False, True, True), (True, True, False)])
def test_a_line_is_told_to_who_waits(terminal: bool, wanted: bool, long: bool, monkeypatch: pytest.MonkeyPatch) -> None:
    """On a terminal, after a while, and taken away again; never with --json, off a terminal or for what is short."""
    screen = Terminal() if terminal else io.StringIO()
    monkeypatch.setattr(sys, "stderr", screen)
    monkeypatch.setattr(progress, "_PATIENCE", 0.01)
    with progress.telling(lambda: "still looking", wanted):
        time.sleep(0.1 if long else 0.0)
    shown = screen.getvalue()
    if not (terminal and wanted and long):
        assert shown == "" or not long
        return
    assert "still looking" in shown and shown.endswith("\x1b[2K"), "the line is taken away at the end"


def interrupt() -> None:
    os.kill(os.getpid(), signal.SIGINT)


@pytest.mark.usefixtures("ctrl_c")
def test_ctrl_c_while_the_drawing_is_changed_keeps_the_changes_found(monkeypatch: pytest.MonkeyPatch) -> None:
    """Ctrl-C in `--relax` lost every change that was found by then: the answer stood there as if none would do."""
    narrow = changed_to(SLOT, "width", 0.360 * 25.4)
    advice = advise(narrow, CUTTERS[1:2], SHOP).advice
    whole, smallest, found_one = relax(narrow, advice, CUTTERS[1:2], SHOP), changes._smallest, list[Any]()

    def then_interrupted(*given: Any) -> Any:
        if found_one:
            interrupt()
        change = smallest(*given)
        found_one.extend([change] if change else [])
        return change

    monkeypatch.setattr(changes, "_smallest", then_interrupted)
    watch = Watch()
    found = relax(narrow, advice, CUTTERS[1:2], SHOP, watch)
    assert watch.stopped and len(found) == 1 and found[0] in whole
    with pytest.raises(KeyboardInterrupt):
        relax(narrow, advice, CUTTERS[1:2], SHOP)
