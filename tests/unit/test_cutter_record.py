"""The record of a cutter is small and quickly made, and it is what a frozen dataclass is all the same."""

from __future__ import annotations

import copy
import pickle
import sys
from dataclasses import FrozenInstanceError
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crib.cutters.base import CUTTER_KEYS, LENGTH_KEYS, Cutter
from crib.cutters.label import named
from crib.findings.errors import CribError
from crib.light.records import fields, replace
from crib.store import open_crib
from crib.store.columns import CUTTER, CUTTER_READ, PLAIN
from crib.store.rows import REST, from_row, from_rows, to_row

_texts = st.none() | st.text("ab7/", min_size=1, max_size=4)
_VALUES: dict[str, st.SearchStrategy[Any]] = {
    **{key: st.none() | st.integers(1, 10**9).map(lambda nm: nm / 10**6) for key in LENGTH_KEYS},
    **{key: st.lists(st.sampled_from(LENGTH_KEYS), max_size=2).map(tuple)
       for key in ("assumed", "measured", "stamped", "questions", "away", "overruled")},
    **dict.fromkeys(("drawer", "thread", "marking", "note", "tap_chamfer", "tap_form", "limit", "currency"), _texts),
    "count": st.integers(0, 9), "reground": st.booleans(), "flutes": st.none() | st.integers(1, 12),
    "angle_deg": st.none() | st.floats(1, 179), "end_teeth": st.none() | st.booleans(),
    "condition": st.sampled_from(("sharp", "dull", "unknown")), "hand": st.sampled_from(("left", "right")),
}
KINDS = st.sampled_from(("end-mill", "drill", "keyseat-cutter"))


@st.composite
def cutters(draw: st.DrawFn, may_have_ends: bool = True) -> Cutter:
    """A cutter of any values, some of which no real one has."""
    known = draw(st.fixed_dictionaries({}, optional=_VALUES))
    ends = st.lists(cutters(may_have_ends=False), max_size=2).map(tuple) if may_have_ends else st.just(())
    return Cutter(draw(st.integers(1, 99)), draw(KINDS), ends=draw(ends), **known)


def stored(cutter: Cutter, units: str = "in") -> Cutter:
    """A cutter as it is read back."""
    row = to_row(cutter, None, {}) | {"id": cutter.id, "version": 1}
    return from_row(tuple(row[column] for column in CUTTER), units)


def values(cutter: Cutter) -> dict[str, Any]:
    """All that is known of a cutter, with its ends, but for how it is called."""
    return {key: tuple(map(values, cutter.ends)) if key == "ends" else getattr(cutter, key)
            for key in CUTTER_KEYS if key not in ("id", "label")}


def test_no_field_is_forgotten() -> None:
    """What is written out names every field."""
    assert {*PLAIN, *LENGTH_KEYS, *REST, "id", "label"} == {*CUTTER_KEYS} == {one.name for one in fields(Cutter)}
    assert len(CUTTER_READ) == len(set(CUTTER_READ)) and {*CUTTER_READ} < {*CUTTER}


@given(cutters(), st.sampled_from(("in", "mm")))
def test_it_is_read_back_as_it_was(cutter: Cutter, units: str) -> None:
    found = stored(cutter, units)
    assert values(found) == values(cutter)
    assert found.label == named(found, units)
    assert from_row(tuple((to_row(found, None, {}) | {"id": found.id, "version": 1})[one] for one in CUTTER),
                    units) == found


@given(st.lists(cutters(), max_size=6))
def test_many_are_read_as_each_is_by_itself(some: list[Cutter]) -> None:
    rows = [to_row(cutter, None, {}) | {"id": cutter.id, "version": cutter.count + 1} for cutter in some]
    versions: dict[int, int] = {}
    together = from_rows((tuple(row[column] for column in CUTTER_READ) for row in rows), "in", versions)
    assert together == [stored(cutter) for cutter in some]
    assert versions.items() <= {(row["id"], row["version"]) for row in rows}


@given(cutters(), st.booleans(), st.fixed_dictionaries({}, optional=_VALUES))
def test_it_is_changed_copied_and_compared_as_any_record(cutter: Cutter, is_stored: bool, changes: dict[str, Any]
                                                         ) -> None:
    """Whether its label was made before or not."""
    one = stored(cutter) if is_stored else cutter
    changed, same = one.but(**changes), one.but()
    assert {key: getattr(changed, key) for key in CUTTER_KEYS} == {
        key: getattr(one, key) for key in CUTTER_KEYS} | changes
    assert changed == replace(one, **changes)
    assert same == one == copy.copy(one) == copy.deepcopy(one) == pickle.loads(pickle.dumps(one))
    assert len({one, same, copy.copy(one)}) == 1
    assert repr(same) == repr(one)


@given(cutters())
def test_one_that_is_changed_is_called_as_before(cutter: Cutter) -> None:
    """Also where neither was named before."""
    first = stored(cutter).but(count=7).but(diameter_mm=3.0)
    assert first.label == stored(cutter).label


@pytest.mark.parametrize("one", [Cutter(1, "drill"), stored(Cutter(1, "drill")), Cutter(1, "drill").but(count=2)])
def test_it_cant_be_changed_in_place(one: Cutter) -> None:
    for name in ("count", "label", "diameter_mm", "_units", "nothing"):
        with pytest.raises(FrozenInstanceError):
            setattr(one, name, 2)
        with pytest.raises(FrozenInstanceError):
            delattr(one, name)
    with pytest.raises(TypeError, match="nothing"):
        one.but(nothing=1)


def test_it_is_small() -> None:
    """A hundred thousand are read into a memory that isn't made for it: a dictionary each would be four times as
    much."""
    assert not hasattr(stored(Cutter(1, "drill")), "__dict__")
    assert sys.getsizeof(Cutter(1, "drill")) <= 400
    first, second = from_rows([tuple({"rest": '{"measured":["diameter_mm"]}', "id": number, "version": 1,
                                      "kind": "".join(("dr", "ill"))}.get(one) for one in CUTTER_READ)
                               for number in (1, 2)], "in")
    assert first.kind is second.kind and first.measured is second.measured


def test_one_of_many_that_were_given_out_is_not_changed_behind_anybodys_back(tmp_path: Path) -> None:
    """All are given out at once, and one that was changed before; then somebody else changes one."""
    place = str(tmp_path / "crib.db")
    with open_crib(place, create=True) as mine:
        mine.take_in([Cutter(0, "drill", diameter_mm=size / 10) for size in range(10, 15)])
        mine.amend(mine.cutter(2).but(note="long"))
    with open_crib(place) as mine, open_crib(place) as theirs:
        given_out = mine.cutters()
        assert mine.amend(given_out[1].but(note="short")).note == "short"
        theirs.amend(theirs.cutter(3).but(drawer="A1"))
        with pytest.raises(CribError, match="changed"):
            mine.amend(given_out[2].but(note="short"))
        assert mine.amend(mine.cutter(3).but(note="short")).drawer == "A1"
