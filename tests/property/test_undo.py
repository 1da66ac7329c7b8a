"""Undoing: backwards it comes by every state that there was; from the middle it is as if the change had never been."""

from __future__ import annotations

import contextlib
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crib.findings.errors import CribError
from crib.intake.options import amend_by_options, read_options
from crib.intake.talk.put_right import put_right
from crib.intake.undo import undo, undo_all
from crib.store import Crib, HeldBack, open_crib
from crib.store.changes import undone_by
from tests import strategies  # noqa: F401  (its profile)

Deed = tuple[str, Any]

AMENDS = st.fixed_dictionaries({}, optional={
    "neck_mm": st.sampled_from([".200", ".250", "6.35mm", "unknown"]),
    "reach_mm": st.sampled_from([".700", ".800"]),
    "drawer": st.sampled_from(["B2", "top"]),
    "condition": st.sampled_from(["dull", "sharp"]),
    "measured": st.sampled_from(["neck", "diameter", "neck,diameter"]),
    "reground": st.just("yes"),
}).filter(bool)
SETTINGS = st.fixed_dictionaries({}, optional={
    "dro": st.booleans(), "backlash_mm": st.sampled_from([0.0, 0.1]), "collets_mm": st.sampled_from([[6.35], []]),
}).filter(bool)
DEEDS = st.one_of(
    st.tuples(st.just("take-in"), st.sampled_from(["1/2", ".625"])),
    st.tuples(st.just("amend"), st.tuples(st.integers(0, 3), AMENDS)),
    st.tuples(st.just("amend"), st.tuples(st.integers(0, 3), AMENDS)),
    st.tuples(st.just("shop"), SETTINGS),
    st.tuples(st.just("hold-back"), st.sampled_from(["404", "bits"])),
    st.tuples(st.just("put-right"), st.sampled_from(["drill 1/4", "t slot cutter"])),
    st.tuples(st.just("let-go"), st.none()),
)


class RolledBack(Exception):
    """Ends a try and takes back all of it."""


@pytest.fixture(scope="module")
def opened(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Crib]:
    place: Path = tmp_path_factory.mktemp("undo") / "crib.db"
    with open_crib(str(place), create=True) as crib:
        yield crib


@contextmanager
def scratch(crib: Crib) -> Iterator[None]:
    """Everything inside is taken back at the end."""
    try:
        with crib.transaction():
            yield
            raise RolledBack
    except RolledBack:
        pass


def do(crib: Crib, deed: Deed) -> None:
    """Carry out one deed where it can be; one that is refused does nothing."""
    what, how = deed
    cutters, held = crib.cutters(), crib.held_back()
    if what == "take-in":
        [one] = read_options({"kind": "keyseat-cutter", "diameter_mm": how, "face_mm": "3/16"}, "in", "USD").taken
        crib.take_in([one.cutter], "gift", [one.typed])
    elif what == "amend" and cutters:
        cutter = cutters[how[0] % len(cutters)]
        try:
            after, typed = amend_by_options(cutter, how[1], "in", "USD")
        except CribError:
            return
        crib.amend(after, typed)
    elif what == "shop":
        crib.set_shop(how)
    elif what == "hold-back":
        crib.hold_back([HeldBack(1, how, "why", "help")])
    elif what == "put-right" and held:
        put_right(crib, held[0], how, {}, "in", "USD")
    elif what == "let-go" and held:
        crib.put_right(held[0].id or 0)


def state(crib: Crib) -> dict[str, Any]:
    """All that is there, what was typed with it; the order of questions and of what was measured says nothing."""
    lists = ("questions", "measured", "stamped", "assumed")
    cutters = [one.as_json() | {key: sorted(getattr(one, key)) for key in lists}
               | {"typed": crib.typed(one.id)} for one in crib.cutters()]
    return {"cutters": cutters, "shop": crib.shop().as_json(), "held": [one.as_json() for one in crib.held_back()]}


@given(deeds=st.lists(DEEDS, min_size=1, max_size=9))
def test_undoing_backwards_comes_by_every_state(opened: Crib, deeds: list[Deed]) -> None:
    with scratch(opened):
        before = {0: state(opened)}
        for deed in deeds:
            do(opened, deed)
            last = opened.changes()[-1].id if opened.changes() else 0
            before[last] = state(opened)
        seen = set(before)
        while True:
            try:
                undone = undo(opened)
            except CribError as error:
                assert error.finding.id == "nothing-to-undo"
                break
            if undone.id - 1 in seen:
                assert state(opened) == before[undone.id - 1]
        assert state(opened) == before[0]


@given(deeds=st.lists(DEEDS, min_size=1, max_size=9), place=st.integers(0, 20))
def test_an_undoing_can_be_undone(opened: Crib, deeds: list[Deed], place: int) -> None:
    with scratch(opened):
        for deed in deeds:
            do(opened, deed)
        changes = opened.changes()
        if not changes:
            return
        was = state(opened)
        number = changes[place % len(changes)].id
        try:
            undo(opened, number)
        except CribError:
            assert state(opened) == was and len(opened.changes()) == len(changes)
            return
        assert number in undone_by(opened.changes())
        undo(opened, opened.changes()[-1].id)
        assert state(opened) == was
        assert number not in undone_by(opened.changes())


CALM = st.one_of(
    st.tuples(st.just("amend"), st.tuples(st.integers(0, 1), AMENDS)), st.tuples(st.just("shop"), SETTINGS))


def touched(deed: Deed) -> set[str]:
    """What a deed touches, in raw words: a setting, or a value of one of two cutters."""
    what, how = deed
    if what == "shop":
        return set(how)
    place, texts = how
    keys = {key.removesuffix("_mm") for key in texts if key != "measured"}
    keys |= set(texts["measured"].split(",")) if "measured" in texts else set()
    return {f"{place} {key}" for key in keys | ({"diameter"} if "reground" in keys else set())}


@given(deeds=st.lists(CALM, min_size=2, max_size=7), place=st.integers(0, 6))
def test_undone_from_the_middle_is_as_if_it_had_never_been(opened: Crib, deeds: list[Deed], place: int) -> None:
    """Beside it: the same deeds done anew without the one that was undone. The later ones touch nothing that it did."""
    place %= len(deeds)
    before = [("take-in", "1/2"), ("take-in", ".625"), *deeds[:place]]
    after = [deed for deed in deeds[place + 1:] if not touched(deed) & touched(deeds[place])]
    with scratch(opened):
        for deed in before:
            do(opened, deed)
        first = len(opened.changes())
        do(opened, deeds[place])
        done = opened.changes()[first:]
        for deed in after:
            do(opened, deed)
        if not done:
            return
        undo(opened, done[0].id)
        came = state(opened)
    with scratch(opened):
        for deed in before + after:
            do(opened, deed)
        assert came == state(opened)


@given(deeds=st.lists(st.one_of(DEEDS, st.tuples(st.just("undo"), st.integers(0, 20)),
                                st.tuples(st.just("range"), st.tuples(st.integers(0, 20), st.integers(0, 20)))),
                      min_size=2, max_size=9), place=st.integers(0, 20))
def test_all_from_a_change_on_undone_is_the_state_before_it(opened: Crib, deeds: list[Deed], place: int) -> None:
    """With lines that were put right, undoings and undoings of those among them; and the undoing can be undone. A
    range with a put-right in it was refused, and one with the undoing of an earlier change came back otherwise."""
    with scratch(opened):
        states = {0: state(opened)}
        for what, how in deeds:
            last = opened.last_change()
            if what in ("undo", "range") and last:
                ends = sorted(1 + at % last for at in (how if what == "range" else (how, how)))
                with contextlib.suppress(CribError):
                    undo_all(opened, *ends)
            elif what not in ("undo", "range"):
                do(opened, (what, how))
            states[opened.last_change()] = state(opened)
        last = opened.last_change()
        first = sorted(states)[place % len(states)]
        if first == last:
            return
        try:
            undo_all(opened, first + 1, last)
        except CribError as error:
            assert error.finding.id == "nothing-to-undo" and states[first] == states[last]
            return
        assert state(opened) == states[first]
        undo_all(opened, last + 1, opened.last_change())
        assert state(opened) == states[last]
